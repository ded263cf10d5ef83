/* Entries of a book's files, how two editions differ in them, and the files in between. */
#include "compare/entries.h"

#include <assert.h>
#include <string.h>

#include "base/grow.h"
#include "base/sorted.h"

/* ---- all entries ---- */

static uint32_t line_start(str bytes, uint32_t at)
{
    while (at > 0 && bytes.p[at - 1] != '\n') at--;
    return at;
}

static bool is_one_entry(const node_entry *section)
{
    return section->value == NULL || section->value->kind != NODE_MAP ||
           section->value->style == STYLE_FLOW || section->value->count == 0 ||
           str_is(section->key, "book") || str_is(section->key, "site");
}

typedef struct reading {
    arena *keep;
    entry_list *out;
    uint32_t file;
    str bytes, head;
} reading;

static void add_entry(reading *r, str section, str name, const node_entry *e, uint32_t end)
{
    entry_list *out = r->out;
    const uint32_t start = line_start(r->bytes, e->key_at.start);
    assert(start < end && end <= r->bytes.n);
    GROW(r->keep, out->items, out->count, out->room);
    out->items[out->count++] =
        (entry){section, name, r->head, r->file, start, end, e->key_at.start - start, e->value};
}

static void add_section(reading *r, const node_entry *section, uint32_t end)
{
    if (is_one_entry(section)) {
        add_entry(r, section->key, STR(""), section, end);
        return;
    }
    const node *map = section->value;
    for (uint32_t i = 0; i < map->count; i++) {
        uint32_t next =
            i + 1 < map->count ? line_start(r->bytes, map->entries[i + 1].key_at.start) : end;
        add_entry(r, section->key, map->entries[i].key, &map->entries[i], next);
    }
}

static void add_file(reading *r, const node *root)
{
    if (root == NULL || root->kind != NODE_MAP) return;
    const node *head = node_get(root, "for-each");
    r->head = head != NULL && head->kind == NODE_TEXT ? head->text : STR("");
    for (uint32_t i = 0; i < root->count; i++) {
        uint32_t end = i + 1 < root->count ? line_start(r->bytes, root->entries[i + 1].key_at.start)
                                           : (uint32_t)r->bytes.n;
        if (!str_is(root->entries[i].key, "for-each")) add_section(r, &root->entries[i], end);
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
        reading r = {.keep = keep, .out = &out, .file = f, .bytes = files->items[f].bytes};
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
    if (a->kind != b->kind || a->count != b->count) return false;
    if (a->kind == NODE_TEXT) return str_eq(a->text, b->text);
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

static bool is_of_name(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
}

static bool mentions(str text, str name)
{
    for (size_t from = 0; name.n > 0;) {
        size_t found = str_find(str_slice(text, from, text.n), name);
        if (found == SIZE_MAX) return false;
        size_t at = from + found, end = at + name.n;
        if ((at == 0 || !is_of_name(text.p[at - 1])) && (end == text.n || !is_of_name(text.p[end])))
            return true;
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

static void add_lines(text_builder *b, str text)
{
    text_add(b, text);
    if (text.n > 0 && text.p[text.n - 1] != '\n') text_add(b, STR("\n"));
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
        add_lines(&b, e != NULL ? entry_bytes(after, e->after) : entry_bytes(before, all[i]));
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
        add_lines(&b, entry_bytes(after, e->after));
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
