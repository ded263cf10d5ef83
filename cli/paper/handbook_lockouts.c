/* How energy is isolated and given back: written once for all work that goes by the same lines, so
 * that it can be learned, and checked. */
#include <string.h>

#include "base/grow.h"
#include "cases/begin_case.h"
#include "host/memory.h"
#include "paper/handbook.h"

typedef struct finding {
    handbook *h;
    lockout *items;
    uint32_t count, room;
} finding;

static const char *lines_of(arena *keep, const tt_safety *s)
{
    return arena_text(keep, "%s\n%s\n%s\n%s\n%s", texts_joined(keep, s->tell, s->tell_count),
                      texts_joined(keep, s->isolate, s->isolate_count),
                      texts_joined(keep, s->release, s->release_count),
                      texts_joined(keep, s->prove, s->prove_count),
                      texts_joined(keep, s->restore, s->restore_count));
}

static bool isolates(const tt_safety *s)
{
    return s->isolate_count + s->release_count + s->prove_count > 0;
}

/* A to Z, then A2 to Z2 and so on. */
static const char *letter_of(arena *keep, uint32_t number)
{
    const char letter = (char)('A' + number % 26);
    return number < 26 ? arena_text(keep, "%c", letter)
                       : arena_text(keep, "%c%u", letter, number / 26 + 1);
}

static void add(finding *f, const tt_safety *safety)
{
    if (!isolates(safety)) return;
    const char *lines = lines_of(f->h->keep, safety);
    for (uint32_t i = 0; i < f->count; i++)
        if (strcmp(f->items[i].lines, lines) == 0) return;
    const char *names = texts_joined(f->h->keep, safety->procedures, safety->procedure_count);
    GROW(f->h->keep, f->items, f->count, f->room);
    f->items[f->count] = (lockout){
        letter_of(f->h->keep, f->count),
        *names != 0 ? names : catalogue_text(f->h->p->in, HANDBOOK_OWN_LINES), lines, *safety};
    f->count++;
}

void find_lockouts(handbook *h)
{
    finding f = {.h = h};
    for (uint32_t i = 0; i < h->all.fixes.count; i++) {
        tt_fix_plan plan;
        must_be_done(tt_fix_show(h->c, h->all.fixes.items[i].id, &plan));
        add(&f, &plan.safety);
    }
    for (uint32_t i = 0; i < h->all.questions.count; i++) {
        tt_question q;
        must_be_done(tt_question_show(h->c, h->all.questions.items[i].id, &q));
        add(&f, &q.safety);
    }
    h->lockouts = f.items;
    h->lockout_count = f.count;
}

const lockout *lockout_before(const handbook *h, const tt_safety *safety)
{
    if (!isolates(safety)) return NULL;
    const char *lines = lines_of(h->keep, safety);
    for (uint32_t i = 0; i < h->lockout_count; i++)
        if (strcmp(h->lockouts[i].lines, lines) == 0) return &h->lockouts[i];
    return NULL;
}

static void put_phase(const handbook *h, text_id lead, const char *const *lines,
                      const tt_picture *const *pictures, uint32_t count)
{
    if (count == 0) return;
    h->p->kind->paragraph(h->p, our_words(h->p->in, lead));
    h->p->kind->list_begin(h->p, true);
    for (uint32_t i = 0; i < count; i++) h->p->kind->item(h->p, i + 1, rule_text(lines[i]));
    h->p->kind->list_end(h->p, true);
    put_step_drawings(h, pictures, count);
}

void put_lockouts(const handbook *h)
{
    h->p->kind->paragraph(h->p, our_words(h->p->in, h->lockout_count > 0 ? HANDBOOK_LOCKOUTS_SAY
                                                                         : HANDBOOK_NO_LOCKOUTS));
    for (uint32_t i = 0; i < h->lockout_count; i++) {
        const lockout *l = &h->lockouts[i];
        h->p->kind->subheading(
            h->p, our_text(FILL(h->keep, h->p->in, HANDBOOK_LOCKOUT, l->letter, l->names)));
        put_phase(h, HANDBOOK_TELL, l->how.tell, NULL, l->how.tell_count);
        put_phase(h, HANDBOOK_ISOLATE, l->how.isolate, l->how.isolate_pictures,
                  l->how.isolate_count);
        put_phase(h, HANDBOOK_RELEASE, l->how.release, l->how.release_pictures,
                  l->how.release_count);
        put_phase(h, HANDBOOK_PROVE, l->how.prove, l->how.prove_pictures, l->how.prove_count);
        put_phase(h, HANDBOOK_RESTORE, l->how.restore, l->how.restore_pictures,
                  l->how.restore_count);
    }
}
