/* Entries of a book's files, how two editions differ in them, and the files in between. */
#include "compare/entries.h"

#include <assert.h>
#include <string.h>

#include "base/grow.h"
#include "base/sorted.h"
#include "base/written.h"

/* ---- all entries ---- */

static bool is_one_entry(const node_entry *section)
{
    return section->value->kind != NODE_MAP || section->value->count == 0 ||
           str_is(section->key, "book") || str_is(section->key, "site");
}

typedef struct reading {
    arena *keep;
    entry_list *out;
    uint32_t file, first; /* first: where its text begins */
    str bytes, head;
} reading;

static uint32_t line_start(const reading *r, uint32_t at)
{
    while (at > r->first && r->bytes.p[at - 1] != '\n') at--;
    return at;
}

/* Where a line "..." ends the text, or its bytes do. No value goes over such a line. */
static uint32_t text_end(str bytes, uint32_t from)
{
    for (size_t at = from;;) {
        const size_t found = str_find(str_slice(bytes, at, bytes.n), STR("\n..."));
        if (found == SIZE_MAX) return (uint32_t)bytes.n;
        at += found + 1;
        if (at + 3 == bytes.n || str_find_byte(STR(" \t\r\n"), bytes.p[at + 3]) != SIZE_MAX)
            return (uint32_t)at;
    }
}

/* Between braces others may stand on its lines. */
static void add_entry(reading *r, entry one, const node_entry *e, const node *in, uint32_t end)
{
    entry_list *out = r->out;
    const bool braces = in->style == STYLE_FLOW;
    one.head = r->head;
    one.file = r->file;
    one.value = e->value;
    one.start = braces ? e->key_at.start : line_start(r, e->key_at.start);
    one.end = braces ? e->value->at.end : end;
    one.indent = !braces ? e->key_at.start - one.start : one.name.n > 0 ? 2 : 0;
    one.key = braces ? e->key_at : span_nowhere();
    assert(one.start < one.end && one.end <= r->bytes.n);
    GROW(r->keep, out->items, out->count, out->room);
    out->items[out->count++] = one;
}

static void add_section(reading *r, const node_entry *section, const node *root, uint32_t end)
{
    if (is_one_entry(section)) {
        add_entry(r, (entry){.section = section->key, .name = STR("")}, section, root, end);
        return;
    }
    const node *map = section->value;
    for (uint32_t i = 0; i < map->count; i++) {
        const uint32_t next =
            i + 1 < map->count ? line_start(r, map->entries[i + 1].key_at.start) : end;
        add_entry(r, (entry){.section = section->key, .name = map->entries[i].key},
                  &map->entries[i], map, next);
    }
}

static void add_file(reading *r, const node *root)
{
    if (root == NULL || root->kind != NODE_MAP) return;
    const node *head = node_get(root, "for-each");
    r->head = head != NULL && head->kind == NODE_TEXT ? head->text : STR("");
    for (uint32_t i = 0; i < root->count; i++) {
        const uint32_t end = i + 1 < root->count
                                 ? line_start(r, root->entries[i + 1].key_at.start)
                                 : text_end(r->bytes, root->entries[i].key_at.start);
        if (!str_is(root->entries[i].key, "for-each")) add_section(r, &root->entries[i], root, end);
    }
}

static int str_order(str a, str b)
{
    size_t least = a.n < b.n ? a.n : b.n;
    int order = least == 0 ? 0 : memcmp(a.p, b.p, least);
    return order != 0 ? order : THREE_WAY(a.n, b.n);
}

static int by_name(const void *left, const void *right)
{
    const entry *a = left, *b = right;
    int sections = str_order(a->section, b->section);
    return sections != 0 ? sections : str_order(a->name, b->name);
}

entry_list entries_of(arena *keep, arena *scratch, const sources *files)
{
    entry_list out = {.files = files};
    faults *list = faults_new(scratch);
    const node **roots = load_sources(keep, scratch, files, list);
    for (uint32_t f = 0; f < files->count; f++) {
        reading r = {.keep = keep,
                     .out = &out,
                     .file = f,
                     .first = (uint32_t)source_text_start(&files->items[f]),
                     .bytes = files->items[f].bytes};
        add_file(&r, roots[f]);
    }
    SORT(out.items, out.count, by_name);
    return out;
}

str entry_bytes(const entry_list *of, const entry *e)
{
    return str_slice(of->files->items[e->file].bytes, e->start, e->end);
}

/* ---- differences ---- */

static bool same_node(const node *a, const node *b)
{
    if (a == NULL || b == NULL) return a == b;
    if (a->kind != b->kind) return false;
    if (a->kind == NODE_TEXT) return str_eq(a->text, b->text);
    if (a->count != b->count) return false;
    for (uint32_t i = 0; i < a->count; i++) {
        if (a->kind == NODE_LIST && !same_node(a->items[i], b->items[i])) return false;
        if (a->kind == NODE_MAP && (!str_eq(a->entries[i].key, b->entries[i].key) ||
                                    !same_node(a->entries[i].value, b->entries[i].value)))
            return false;
    }
    return true;
}

static bool same_entry(const entry *a, const entry *b)
{
    return str_eq(a->head, b->head) && same_node(a->value, b->value);
}

static edit edit_of(arena *keep, const entry *before, const entry *after)
{
    const entry *any = before != NULL ? before : after;
    assert(any != NULL);
    return (edit){before, after,
                  str_printf(keep, "%.*s%s%.*s", STR_ARG(any->section), any->name.n > 0 ? " " : "",
                             STR_ARG(any->name))
                      .p,
                  0};
}

static bool mentions(str text, str name)
{
    for (size_t from = 0; name.n > 0;) {
        size_t found = str_find(str_slice(text, from, text.n), name);
        if (found == SIZE_MAX) return false;
        size_t at = from + found, end = at + name.n;
        if ((at == 0 || !name_goes_on(text, at - 1)) && !name_goes_on(text, end)) return true;
        from = at + 1;
    }
    return false;
}

static uint32_t root_of(const edit *edits, uint32_t i)
{
    while (edits[i].group != i) i = edits[i].group;
    return i;
}

/* What speaks of an entry that is new, or that goes, can't be without that. */
static bool needs(const entry_list *before, const entry_list *after, const edit *one,
                  const edit *other)
{
    if (other->before == NULL && one->after != NULL)
        return mentions(entry_bytes(after, one->after), other->after->name);
    return other->after == NULL && one->before != NULL &&
           mentions(entry_bytes(before, one->before), other->before->name);
}

static void group_edits(arena *keep, const entry_list *before, const entry_list *after, edit *edits,
                        uint32_t count, uint32_t *groups)
{
    for (uint32_t i = 0; i < count; i++) edits[i].group = i;
    for (uint32_t i = 0; i < count; i++)
        for (uint32_t k = 0; k < count; k++)
            if (i != k && needs(before, after, &edits[i], &edits[k]))
                edits[root_of(edits, i)].group = root_of(edits, k);
    uint32_t *number = ARENA_ARRAY(keep, uint32_t, count); /* [root] and one */
    *groups = 0;
    for (uint32_t i = 0; i < count; i++) {
        const uint32_t root = root_of(edits, i);
        if (number[root] == 0) number[root] = ++*groups;
    }
    uint32_t *group = ARENA_ARRAY(keep, uint32_t, count);
    for (uint32_t i = 0; i < count; i++) group[i] = number[root_of(edits, i)] - 1;
    for (uint32_t i = 0; i < count; i++) edits[i].group = group[i];
}

edit *entry_edits(arena *keep, const entry_list *before, const entry_list *after, uint32_t *count,
                  uint32_t *groups)
{
    edit *all = ARENA_ARRAY(keep, edit, before->count + after->count);
    *count = 0;
    for (uint32_t i = 0, k = 0; i < before->count || k < after->count;) {
        const entry *a = i < before->count ? &before->items[i] : NULL,
                    *b = k < after->count ? &after->items[k] : NULL;
        int order = a == NULL ? 1 : b == NULL ? -1 : by_name(a, b);
        if (order != 0 || !same_entry(a, b))
            all[(*count)++] = edit_of(keep, order <= 0 ? a : NULL, order >= 0 ? b : NULL);
        i += order <= 0;
        k += order >= 0;
    }
    group_edits(keep, before, after, all, *count, groups);
    return all;
}

/* ---- in between ---- */

/* In its place, if it is written alike around it. */
static bool fits_in_place(const edit *e)
{
    return e->before != NULL && e->after != NULL && e->before->indent == e->after->indent &&
           str_eq(e->before->head, e->after->head);
}

static const edit *edit_at_entry(const edit *edits, uint32_t count, const bool *made,
                                 const entry *e)
{
    for (uint32_t i = 0; i < count; i++)
        if (edits[i].before == e && made[edits[i].group]) return &edits[i];
    return NULL;
}

/* The entries of one file that are in it, in the order of their bytes. */
static const entry **of_file(arena *keep, const entry_list *all, uint32_t file, uint32_t *count)
{
    const entry **out = ARENA_ARRAY(keep, const entry *, all->count);
    *count = 0;
    for (uint32_t i = 0; i < all->count; i++) {
        if (all->items[i].file != file) continue;
        uint32_t at = (*count)++;
        for (; at > 0 && out[at - 1]->start > all->items[i].start; at--) out[at] = out[at - 1];
        out[at] = &all->items[i];
    }
    return out;
}

/* What stood between braces, as a line of its own: what of it goes over several lines is set deeper
 * than its key, which changes no text. */
static void add_from_braces(text_builder *b, str bytes, const entry *e)
{
    text_addf(b, "%*s%.*s: ", (int)e->indent, "",
              STR_ARG(str_slice(bytes, e->key.start, e->key.end)));
    const str value = str_slice(bytes, e->value->at.start, e->end);
    for (size_t i = 0; i < value.n; i++) {
        text_add(b, str_slice(value, i, i + 1));
        if (value.p[i] == '\n') text_addf(b, "%*s", (int)e->indent + 2, "");
    }
    text_add(b, STR("\n"));
}

static void add_lines(text_builder *b, const entry_list *of, const entry *e)
{
    const str text = entry_bytes(of, e);
    if (e->key.file != NO_FILE) {
        add_from_braces(b, of->files->items[e->file].bytes, e);
        return;
    }
    text_add(b, text);
    if (text.p[text.n - 1] != '\n') text_add(b, STR("\n"));
}

/* A file with its head and sections written anew; null if nothing is left in it. */
static const tt_source *remade(arena *keep, const entry_list *before, const entry_list *after,
                               const edit *edits, uint32_t count, const bool *made, uint32_t file)
{
    uint32_t entries;
    const entry **all = of_file(keep, before, file, &entries);
    text_builder b = {.keep = keep};
    str section = STR("");
    if (entries > 0 && all[0]->head.n > 0) text_addf(&b, "for-each: %.*s\n", STR_ARG(all[0]->head));
    size_t begun = b.length;
    for (uint32_t i = 0; i < entries; i++) {
        const edit *e = edit_at_entry(edits, count, made, all[i]);
        if (e != NULL && !fits_in_place(e)) continue;
        if (all[i]->name.n > 0 && !str_eq(section, all[i]->section))
            text_addf(&b, "%.*s:\n", STR_ARG(all[i]->section));
        section = all[i]->name.n > 0 ? all[i]->section : STR("");
        add_lines(&b, e != NULL ? after : before, e != NULL ? e->after : all[i]);
    }
    if (b.length == begun) return NULL;
    tt_source *out = ARENA_NEW(keep, tt_source);
    const str bytes = text_done(&b);
    *out = (tt_source){before->files->items[file].name.p, bytes.p, bytes.n};
    return out;
}

/* What is new, or doesn't fit where it was, in a file of its own for each file of the newer
 * edition. */
static const tt_source *added(arena *keep, const entry_list *after, const edit *edits,
                              uint32_t count, const bool *made, uint32_t file)
{
    text_builder b = {.keep = keep};
    str section = STR("");
    for (uint32_t i = 0; i < count; i++) {
        const edit *e = &edits[i];
        if (e->after == NULL || e->after->file != file || !made[e->group] || fits_in_place(e))
            continue;
        if (b.length == 0 && e->after->head.n > 0)
            text_addf(&b, "for-each: %.*s\n", STR_ARG(e->after->head));
        if (e->after->name.n > 0 && !str_eq(section, e->after->section))
            text_addf(&b, "%.*s:\n", STR_ARG(e->after->section));
        section = e->after->name.n > 0 ? e->after->section : STR("");
        add_lines(&b, after, e->after);
    }
    if (b.length == 0) return NULL;
    tt_source *out = ARENA_NEW(keep, tt_source);
    const str bytes = text_done(&b);
    *out = (tt_source){str_printf(keep, "newer/%.*s", STR_ARG(after->files->items[file].name)).p,
                       bytes.p, bytes.n};
    return out;
}

/* Pictures decide nothing; those of the newer edition, and what only the older one has. */
static void add_pictures(const entry_list *from, const entry_list *but, tt_source *out,
                         uint32_t *count)
{
    for (uint32_t f = 0; f < from->files->count; f++) {
        const source *s = &from->files->items[f];
        bool there = !source_is_picture(s);
        for (uint32_t k = 0; but != NULL && k < but->files->count; k++)
            there |= str_eq(but->files->items[k].name, s->name);
        if (!there) out[(*count)++] = (tt_source){s->name.p, s->bytes.p, s->bytes.n};
    }
}

const tt_source *edited_files(arena *keep, const entry_list *before, const entry_list *after,
                              const edit *edits, uint32_t count, const bool *made,
                              uint32_t *file_count)
{
    tt_source *out = ARENA_ARRAY(keep, tt_source, before->files->count + after->files->count);
    *file_count = 0;
    for (uint32_t f = 0; f < before->files->count; f++) {
        const tt_source *one = remade(keep, before, after, edits, count, made, f);
        if (one != NULL) out[(*file_count)++] = *one;
    }
    for (uint32_t f = 0; f < after->files->count; f++) {
        const tt_source *one = added(keep, after, edits, count, made, f);
        if (one != NULL) out[(*file_count)++] = *one;
    }
    add_pictures(after, NULL, out, file_count);
    add_pictures(before, after, out, file_count);
    return out;
}
