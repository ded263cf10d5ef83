/* Which worked cases must come out as they did in the edition before. */
#include <assert.h>

#include "base/sorted.h"
#include "load/nodes.h"
#include "session/session.h"

typedef struct comparing {
    tt_book *now;
    const tt_book *before;
    const tt_grounds *grounds; /* null: not known */
    bool *moved;               /* [component] some chance in it is another */
    tt_case_alike *out;
} comparing;

/* ---- as it is written, but for comments and layout ---- */

static bool same_tree(const node *a, const node *b)
{
    assert(a != NULL && b != NULL);
    if (a->kind != b->kind || a->style != b->style) return false;
    if (a->kind == NODE_TEXT) return str_eq(a->text, b->text);
    if (a->count != b->count) return false;
    bool same = true;
    for (uint32_t i = 0; same && i < a->count; i++) {
        if (a->kind == NODE_LIST) same = same_tree(a->items[i], b->items[i]);
        if (a->kind == NODE_MAP)
            same = str_eq(a->entries[i].key, b->entries[i].key) &&
                   same_tree(a->entries[i].value, b->entries[i].value);
    }
    return same;
}

static bool are_maps(const node *a, const node *b)
{
    return a != NULL && b != NULL && a->kind == NODE_MAP && b->kind == NODE_MAP;
}

/* ---- chances of symptoms, which may be others ---- */

static bool are_chances(const node_entry *of_symptom)
{
    return str_is(of_symptom->key, "shown-by") || str_is(of_symptom->key, "otherwise");
}

/* The same causes, each with one number. */
static bool same_but_for_numbers(const node *a, const node *b)
{
    if (a->kind == NODE_TEXT) return b->kind == NODE_TEXT;
    if (!are_maps(a, b) || a->count != b->count) return false;
    bool same = true;
    for (uint32_t i = 0; same && i < a->count; i++)
        same = str_eq(a->entries[i].key, b->entries[i].key) &&
               (same_tree(a->entries[i].value, b->entries[i].value) ||
                (a->entries[i].value->kind == NODE_TEXT && b->entries[i].value->kind == NODE_TEXT));
    return same;
}

static bool same_but_for_chances(const node *a, const node *b)
{
    if (!are_maps(a, b) || a->count != b->count) return false;
    bool same = true;
    for (uint32_t i = 0; same && i < a->count; i++) {
        const node_entry *one = &a->entries[i], *two = &b->entries[i];
        same = str_eq(one->key, two->key) &&
               (same_tree(one->value, two->value) ||
                (are_chances(one) && same_but_for_numbers(one->value, two->value)));
    }
    return same;
}

static bool stands_in(const component *g, uint32_t symptom)
{
    return place_of_id(g->symptoms, g->symptom_count, symptom) < g->symptom_count;
}

/* An entry that is written for each piece of a kind is a symptom for each. */
static void note_moved(const comparing *x, uint32_t file, const node_entry *written)
{
    const book *b = x->now->book;
    const net *n = x->now->prog->evidence;
    for (uint32_t s = 0; s < b->symptom_count; s++) {
        const span at = b->symptoms[s].id.at;
        if (at.file != file || at.start != written->key_at.start) continue;
        for (uint32_t g = 0; g < n->component_count; g++)
            x->moved[g] |= stands_in(&n->components[g], s);
    }
}

static bool same_symptoms(const comparing *x, uint32_t file, const node *a, const node *b)
{
    if (!are_maps(a, b) || a->count != b->count) return false;
    bool same = true;
    for (uint32_t i = 0; same && i < a->count; i++) {
        const node_entry *one = &a->entries[i], *two = &b->entries[i];
        if (str_eq(one->key, two->key) && same_tree(one->value, two->value)) continue;
        same = str_eq(one->key, two->key) && same_but_for_chances(one->value, two->value);
        if (same) note_moved(x, file, one);
    }
    return same;
}

/* ---- files ---- */

static bool are_cases(const node_entry *section)
{
    return str_is(section->key, "cases");
}

static uint32_t next_section(const node *root, uint32_t from)
{
    while (from < root->count && are_cases(&root->entries[from])) from++;
    return from;
}

static bool same_section(const comparing *x, uint32_t file, const node_entry *a,
                         const node_entry *b)
{
    if (!str_eq(a->key, b->key)) return false;
    if (same_tree(a->value, b->value)) return true;
    return x->grounds != NULL && str_is(a->key, "symptoms") &&
           same_symptoms(x, file, a->value, b->value);
}

/* Two files but for their cases. */
static bool same_rules(const comparing *x, uint32_t file, const node *a, const node *b)
{
    uint32_t i = next_section(a, 0), k = next_section(b, 0);
    while (i < a->count && k < b->count) {
        if (!same_section(x, file, &a->entries[i], &b->entries[k])) return false;
        i = next_section(a, i + 1);
        k = next_section(b, k + 1);
    }
    return i == a->count && k == b->count;
}

/* No map: a picture, or nothing that could be read. */
static bool same_file(const comparing *x, uint32_t file)
{
    const tt_book *a = x->now, *b = x->before;
    const node *one = a->roots[file], *two = b->roots[file];
    if (!str_eq(a->files.items[file].name, b->files.items[file].name)) return false;
    if (!are_maps(one, two)) return str_eq(a->files.items[file].bytes, b->files.items[file].bytes);
    return same_rules(x, file, one, two);
}

/* Files with cases and nothing else may come and go; here they make all cases others. */
static bool same_but_for_cases(const comparing *x)
{
    bool same = x->now->files.count == x->before->files.count;
    for (uint32_t f = 0; same && f < x->now->files.count; f++) same = same_file(x, f);
    return same;
}

/* ---- cases ---- */

/* What is written under the name of a case, in its file; null for one of several made of it. */
static const node *case_node(const tt_book *b, uint32_t index)
{
    const label *id = &b->book->cases[index].id;
    const node *cases = node_get(b->roots[id->at.file], "cases");
    assert(cases != NULL && cases->kind == NODE_MAP); /* it was read there */
    for (uint32_t i = 0; i < cases->count; i++)
        if (str_eq(cases->entries[i].key, id->name)) return cases->entries[i].value;
    return NULL;
}

static uint32_t case_named(const tt_book *b, str name)
{
    for (uint32_t i = 0; i < b->book->case_count; i++)
        if (str_eq(b->book->cases[i].id.name, name)) return i;
    return TT_NONE;
}

/* In the file of the same name: a file says for which pieces its entries are. */
static uint32_t same_case(const comparing *x, uint32_t index)
{
    const label *id = &x->now->book->cases[index].id;
    const uint32_t old = case_named(x->before, id->name);
    const node *written = case_node(x->now, index);
    if (old == TT_NONE || written == NULL) return TT_NONE;
    if (x->before->book->cases[old].id.at.file != id->at.file) return TT_NONE;
    const node *before = case_node(x->before, old);
    return before != NULL && same_tree(written, before) ? old : TT_NONE;
}

static bool rests_on_moved(const comparing *x, const tt_grounds *grounds)
{
    const net *n = x->now->prog->evidence;
    for (uint32_t i = 0; i < grounds->count; i++) {
        assert(n->component_of[grounds->questions[i]] != NO_COMPONENT);
        if (x->moved[n->component_of[grounds->questions[i]]]) return true;
    }
    return false;
}

/* What comes next, and which complaint is heard, is weighed with all chances; where a case leads,
 * with those alone of which it tells something. */
static bool may_be_moved(const comparing *x, uint32_t index, uint32_t old)
{
    return tt_worked_case_is_long(x->now, index) || tt_worked_case_hears(x->now, index) ||
           rests_on_moved(x, &x->grounds[old]);
}

static bool any_moved(const comparing *x)
{
    bool any = false;
    for (uint32_t g = 0; g < x->now->prog->evidence->component_count; g++) any |= x->moved[g];
    return any;
}

static tt_status compare(void *context)
{
    comparing *x = context;
    const book *b = x->now->book;
    x->moved = ARENA_ARRAY(x->now->keep, bool, x->now->prog->evidence->component_count);
    x->out = ARENA_ARRAY(x->now->keep, tt_case_alike, b->case_count);
    const bool same = same_but_for_cases(x), moved = any_moved(x);
    for (uint32_t i = 0; i < b->case_count; i++) {
        uint32_t old = same ? same_case(x, i) : TT_NONE;
        if (old != TT_NONE && moved && may_be_moved(x, i, old)) old = TT_NONE;
        x->out[i] = (tt_case_alike){old, place_words(x->now->keep, x->now, b->cases[i].id.at)};
    }
    return TT_OK;
}

tt_status tt_cases_alike(tt_book *now, const tt_book *before, const tt_grounds *grounds,
                         const tt_case_alike **out)
{
    assert(now != NULL && before != NULL && out != NULL);
    comparing x = {.now = now, .before = before, .grounds = grounds};
    const tt_status status = guarded(&now->keep, 1, compare, &x);
    *out = status == TT_OK ? x.out : NULL;
    return status;
}
