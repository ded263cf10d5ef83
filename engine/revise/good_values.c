/* What was found good, written into the file of a site: by the places of its nodes, so that
 * comments and layout stay. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "revise/edit_list.h"
#include "revise/map_edits.h"
#include "session/session.h"

typedef struct site_file {
    arena *keep, *scratch;
    tt_source source;
    const node *root;
} site_file;

/* ---- how a value is written ---- */

/* Between braces and after a colon nothing but these goes without quotes. */
static const char *quoted(arena *keep, const char *text)
{
    static const char plain[] =
        " abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789./%-";
    if (strspn(text, plain) == strlen(text)) return text;
    text_builder b = {.keep = keep};
    for (const char *c = text; *c != 0; c++)
        text_addf(&b, "%s%c", *c == '"' || *c == '\\' ? "\\" : "", *c);
    return str_printf(keep, "\"%.*s\"", STR_ARG(text_done(&b))).p;
}

static const struct {
    const char *key;
    size_t at;
} told[] = {{"day", offsetof(tt_good, day)},
            {"role", offsetof(tt_good, role)},
            {"how", offsetof(tt_good, how)}};
enum { TOLD = sizeof told / sizeof told[0] };

static const char *told_of(const tt_good *g, unsigned i)
{
    const char *text = *(const char *const *)((const char *)g + told[i].at);
    return text != NULL ? text : "";
}

static const char *whole_value(arena *keep, const tt_good *g)
{
    text_builder b = {.keep = keep};
    text_addf(&b, "{value: %s", quoted(keep, g->value));
    for (unsigned i = 0; i < TOLD; i++)
        if (*told_of(g, i) != 0)
            text_addf(&b, ", %s: %s", told[i].key, quoted(keep, told_of(g, i)));
    text_addf(&b, "}");
    return text_done(&b).p;
}

/* ---- where it stands ---- */

static const char *key_of(arena *keep, const node_entry *e)
{
    return str_copy(keep, e->key).p;
}

static const char *last_key(arena *keep, const node *map)
{
    return map->count > 0 ? key_of(keep, &map->entries[map->count - 1]) : NULL;
}

/* The piece of equipment of this name, whatever its kind; null: the file names none. */
static const node *piece_named(const site_file *f, const char *name)
{
    const node *units = node_get(node_get(f->root, "site"), "units");
    for (uint32_t i = 0; units != NULL && units->kind == NODE_MAP && i < units->count; i++) {
        const node *found = node_get(units->entries[i].value, name);
        if (found != NULL) return found;
    }
    return NULL;
}

/* As deep as the keys of `body` stand, and a step more. */
static const char *deeper(const site_file *f, const node *body)
{
    const uint32_t start = body->entries[0].key_at.start;
    uint32_t line = start;
    while (line > 0 && f->source.bytes[line - 1] != '\n') line--;
    return str_printf(f->keep, "%*s", (int)(start - line + 2), "").p;
}

/* ---- edits ---- */

/* Between braces: the value first, what else was there as it stood, and last what is told anew. */
static void change_flow(edit_list *e, const node *map, const tt_good *g)
{
    text_builder b = {.keep = e->keep};
    const char *bytes = e->sources[map->at.file].bytes;
    text_addf(&b, "{value: %s", quoted(e->keep, g->value));
    for (uint32_t i = 0; i < map->count; i++) {
        const node_entry *old = &map->entries[i];
        bool anew = str_is(old->key, "value");
        for (unsigned k = 0; k < TOLD; k++) anew = anew || str_is(old->key, told[k].key);
        if (!anew)
            text_addf(&b, ", %.*s", (int)(old->value->at.end - old->key_at.start),
                      bytes + old->key_at.start);
    }
    for (unsigned i = 0; i < TOLD; i++)
        if (*told_of(g, i) != 0)
            text_addf(&b, ", %s: %s", told[i].key, quoted(e->keep, told_of(g, i)));
    text_addf(&b, "}");
    edit_at(e, map->at, text_done(&b).p);
}

/* A value that says more than itself keeps its layout, and what is not of the moment at which it
 * was found: who told the older one, and how it was read, says nothing of this one. */
static void change_map(edit_list *e, const node *map, const tt_good *g)
{
    bool *taken = ARENA_ARRAY(e->keep, bool, map->count);
    added_entry added[TOLD];
    uint32_t added_count = 0;
    edit_at(e, node_get(map, "value")->at, quoted(e->keep, g->value));
    for (unsigned i = 0; i < TOLD; i++) {
        const node *is = node_get(map, told[i].key);
        const char *text = quoted(e->keep, told_of(g, i));
        if (is == NULL && *text != 0) added[added_count++] = (added_entry){told[i].key, text};
        if (is != NULL && *text != 0) edit_at(e, is->at, text);
        for (uint32_t k = 0; k < map->count; k++)
            taken[k] |= *text == 0 && str_is(map->entries[k].key, told[i].key);
    }
    edit_map(e, map, taken, added, added_count);
}

static void change_value(edit_list *e, const node *value, const tt_good *g)
{
    const bool says_more = value->kind == NODE_MAP && node_get(value, "value") != NULL;
    if (says_more && (value->style == STYLE_FLOW || value->in_flow))
        change_flow(e, value, g);
    else if (says_more)
        change_map(e, value, g);
    else
        edit_at(e, value->at, whole_value(e->keep, g));
}

static bool put_in(edit_list *e, const node *body, const char *key, const tt_good *g)
{
    const node *value = node_get(body, key);
    if (body->kind != NODE_MAP) return false;
    if (value != NULL)
        change_value(e, value, g);
    else if (body->count > 0)
        edit_add_key(e, body, last_key(e->keep, body), key, whole_value(e->keep, g));
    else
        edit_at(e, body->at, str_printf(e->keep, "{%s: %s}", key, whole_value(e->keep, g)).p);
    return true;
}

static bool add_answers(const site_file *f, edit_list *e, const tt_good *g)
{
    const node *site = node_get(f->root, "site");
    if (site == NULL || site->kind != NODE_MAP || site->count == 0) return false;
    const char *value = whole_value(f->keep, g);
    const bool flow = site->style == STYLE_FLOW || site->in_flow;
    const char *text = flow ? str_printf(f->keep, "{%s: %s}", g->fact, value).p
                            : str_printf(f->keep, "\n%s%s: %s", deeper(f, site), g->fact, value).p;
    edit_add_key(e, site, last_key(f->keep, site), "answers", text);
    return true;
}

static bool put_good(const site_file *f, edit_list *e, const tt_good *g)
{
    const char *of = strstr(g->fact, " of ");
    const node *piece = of != NULL ? piece_named(f, of + 4) : NULL,
               *answers = node_get(node_get(f->root, "site"), "answers");
    const bool there = answers != NULL && node_get(answers, g->fact) != NULL;
    if (piece != NULL && !there) {
        const char *base = str_printf(f->keep, "%.*s", (int)(of - g->fact), g->fact).p;
        return put_in(e, piece, base, g);
    }
    return answers != NULL ? put_in(e, answers, g->fact, g) : add_answers(f, e, g);
}

/* ---- one after the other, since each moves the places of the next ---- */

static bool read_site(site_file *f)
{
    uint32_t budget = LOAD_NODES_MAX;
    const source one = {STR("site.yaml"), {f->source.bytes, f->source.length}};
    const sources all = {&one, 1};
    faults *list = faults_new(f->keep);
    f->root = load_source(f->keep, f->scratch, &all, 0, &budget, list);
    return f->root != NULL && faults_errors(list) == 0 && node_get(f->root, "site") != NULL;
}

static bool write_one(site_file *f, const tt_good *g)
{
    edit_list e = {.keep = f->keep, .sources = &f->source, .source_count = 1};
    assert(*g->fact != 0 && *g->value != 0);
    if (!read_site(f) || !put_good(f, &e, g)) return false;
    edit_sort(&e);
    f->source = *edited_sources(f->keep, &f->source, 1, e.items, e.count);
    return true;
}

typedef struct writing {
    site_file file;
    const tt_good *good;
    uint32_t count;
    bool fits;
} writing;

static tt_status write_all(void *context)
{
    writing *w = context;
    w->fits = true;
    for (uint32_t i = 0; i < w->count && w->fits; i++) w->fits = write_one(&w->file, &w->good[i]);
    return TT_OK;
}

tt_status tt_site_with_good(const char *text, size_t length, const tt_good *good, uint32_t count,
                            char **out)
{
    assert(text != NULL && out != NULL && (good != NULL || count == 0));
    *out = NULL;
    arena *both[] = {arena_new(NULL, NULL), arena_new(NULL, NULL)};
    writing w = {{both[0], both[1], {"site.yaml", text, length}, NULL}, good, count, false};
    const bool room = both[0] != NULL && both[1] != NULL;
    tt_status status = room ? guarded(both, 2, write_all, &w) : TT_NO_MEMORY;
    if (status == TT_OK && !w.fits) status = TT_FAULTY;
    if (status == TT_OK && (*out = malloc(w.file.source.length + 1)) == NULL) status = TT_NO_MEMORY;
    if (status == TT_OK) {
        memcpy(*out, w.file.source.bytes, w.file.source.length);
        (*out)[w.file.source.length] = 0;
    }
    arena_free(both[0]);
    arena_free(both[1]);
    return status;
}
