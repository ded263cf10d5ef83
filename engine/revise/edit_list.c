/* Edits to files. */
#include "revise/edit_list.h"

#include <assert.h>
#include <string.h>

#include "base/grow.h"
#include "base/sorted.h"

#define NO_LINE UINT32_MAX

void edit_at(edit_list *e, span at, const char *text)
{
    assert(at.start <= at.end && text != NULL);
    assert(at.file < e->source_count);
    GROW(e->keep, e->items, e->count, e->room);
    e->items[e->count++] = (tt_edit){e->sources[at.file].name, at.start, at.end, text};
}

static uint32_t line_start(const tt_source *s, uint32_t offset)
{
    while (offset > 0 && s->bytes[offset - 1] != '\n') offset--;
    return offset;
}

/* Where the line after an entry begins, or NO_LINE if the file ends with it. */
static uint32_t line_after(const tt_source *s, const node *value)
{
    uint32_t end = value->at.end;
    if (end > 0 && s->bytes[end - 1] == '\n') return end;
    const char *newline = memchr(s->bytes + end, '\n', s->length - end);
    return newline != NULL ? (uint32_t)(newline - s->bytes) + 1 : NO_LINE;
}

void edit_add_key(edit_list *e, const node *body, const char *after, const char *key,
                  const char *text)
{
    assert(body->kind == NODE_MAP && body->count > 0);
    span first = body->entries[0].key_at;
    if (body->style == STYLE_FLOW || body->in_flow) {
        edit_at(e, (span){first.file, first.start, first.start},
                str_printf(e->keep, "%s: %s, ", key, text).p);
        return;
    }
    const tt_source *s = &e->sources[first.file];
    uint32_t start = line_start(s, first.start);
    const node *above = node_get(body, after);
    uint32_t at = above != NULL ? line_after(s, above) : NO_LINE;
    if (at == NO_LINE) at = start;
    const char *end = memchr(s->bytes + start, '\n', s->length - start);
    bool wide = end != NULL && end > s->bytes && end[-1] == '\r';
    edit_at(e, (span){first.file, at, at},
            str_printf(e->keep, "%.*s%s: %s%s\n", (int)(first.start - start), s->bytes + start, key,
                       text, wide ? "\r" : "")
                .p);
}

typedef struct numbered {
    tt_edit edit;
    uint32_t order;
} numbered;

/* What is put in stands before what goes from the same place on, and stays in the order in which it
 * came. */
static int by_place(const void *a, const void *b)
{
    const numbered *x = a, *y = b;
    int files = strcmp(x->edit.file, y->edit.file);
    if (files != 0) return files;
    if (x->edit.start != y->edit.start) return THREE_WAY(x->edit.start, y->edit.start);
    if (x->edit.end != y->edit.end) return THREE_WAY(x->edit.end, y->edit.end);
    return THREE_WAY(x->order, y->order);
}

void edit_sort(edit_list *e)
{
    numbered *all = ARENA_ARRAY(e->keep, numbered, e->count);
    for (uint32_t i = 0; i < e->count; i++) all[i] = (numbered){e->items[i], i};
    SORT(all, e->count, by_place);
    for (uint32_t i = 0; i < e->count; i++) e->items[i] = all[i].edit;
    assert(e->count == 0 || e->items != NULL);
}

static tt_source edited(arena *keep, const tt_source *s, const tt_edit *all, uint32_t count)
{
    text_builder b = {.keep = keep};
    size_t from = 0;
    for (uint32_t i = 0; i < count; i++) {
        if (strcmp(all[i].file, s->name) != 0) continue;
        assert(from <= all[i].start && all[i].end <= s->length);
        text_add(&b, (str){s->bytes + from, all[i].start - from});
        text_add(&b, str_of(all[i].text));
        from = all[i].end;
    }
    text_add(&b, (str){s->bytes + from, s->length - from});
    str whole = text_done(&b);
    return (tt_source){s->name, whole.p, whole.n};
}

const tt_source *edited_sources(arena *keep, const tt_source *sources, uint32_t count,
                                const tt_edit *edits, uint32_t edit_count)
{
    tt_source *out = ARENA_ARRAY(keep, tt_source, count);
    assert(edits != NULL || edit_count == 0);
    for (uint32_t i = 0; i < count; i++) out[i] = edited(keep, &sources[i], edits, edit_count);
    return out;
}
