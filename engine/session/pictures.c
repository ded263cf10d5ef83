/* Pictures as a case shows them: their words in its language, with inserts filled in. */
#include <assert.h>

#include "session/session.h"

/* At any piece of its kind it is called as the complaint is, which is one for all of them. */
static tt_area area_words(tt_case *c, const picture_area *a)
{
    const book *b = c->book->book;
    const struct symptom *s = &b->symptoms[a->symptom];
    return (tt_area){.name = cstr(c->derived, a->any ? s->of.base : s->id.name),
                     .text = a->any ? complaint_text(b, a->symptom, c->language)
                                    : symptom_words(c, a->symptom),
                     .x = a->x,
                     .y = a->y,
                     .width = a->width,
                     .height = a->height};
}

const tt_picture *picture_words(tt_case *c, const picture *p)
{
    if (p == NULL) return NULL;
    const svg_drawing *d = p->drawing;
    tt_picture *out = ARENA_NEW(c->derived, tt_picture);
    tt_area *areas = ARENA_ARRAY(c->derived, tt_area, p->area_count);
    for (uint32_t i = 0; i < p->area_count; i++) areas[i] = area_words(c, &p->areas[i]);
    assert(d->good);
    *out = (tt_picture){.file = c->book->files.items[p->file].name.p,
                        .text = case_text(c, &p->text),
                        .svg = d->svg.p,
                        .x = d->x,
                        .y = d->y,
                        .width = d->width,
                        .height = d->height,
                        .areas = areas,
                        .area_count = p->area_count};
    return out;
}

const tt_picture *const *step_pictures(tt_case *c, const texts_list *steps)
{
    bool any = false;
    const tt_picture **all = ARENA_ARRAY(c->derived, const tt_picture *, steps->count);
    for (uint32_t i = 0; i < steps->count; i++) {
        all[i] = picture_words(c, steps->items[i].picture);
        any |= all[i] != NULL;
    }
    return any ? all : NULL;
}
