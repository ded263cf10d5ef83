/* What is written once and named from fixes and questions: how energy is isolated and given back,
 * what is worn, what can hurt. */
#include <assert.h>

#include "read/reader.h"

/* ---- lists joined ---- */

static bool same_texts(const texts *a, const texts *b)
{
    bool same = a->count == b->count && a->count > 0;
    for (uint32_t i = 0; same && i < a->count; i++)
        same = str_eq(a->items[i].text, b->items[i].text);
    return same;
}

static bool holds_texts(const texts_list *all, const texts *one)
{
    for (uint32_t i = 0; i < all->count; i++)
        if (same_texts(&all->items[i], one)) return true;
    return false;
}

void texts_join(reader *r, texts_list *to, const texts_list *more)
{
    texts *all = ARENA_ARRAY(r->keep, texts, (size_t)to->count + more->count);
    uint32_t count = 0;
    for (uint32_t i = 0; i < to->count; i++) all[count++] = to->items[i];
    for (uint32_t i = 0; i < more->count; i++)
        if (!holds_texts(to, &more->items[i])) all[count++] = more->items[i];
    *to = (texts_list){all, count};
}

static void join_before(reader *r, texts_list *to, const texts_list *first)
{
    texts_list all = *first;
    texts_join(r, &all, to);
    *to = all;
}

/* ---- what to wear ---- */

/* "splash-gear" is meant as a name, "Goggles" is not. */
static bool is_meant_as_name(const reader *r, str text)
{
    if (table_find(&r->tables[SECTION_PROTECTION], text) != NO_ID) return true;
    for (size_t i = 0; i < text.n; i++) {
        const char c = text.p[i];
        if (!(c >= 'a' && c <= 'z') && !(c >= '0' && c <= '9') && c != '-') return false;
    }
    return str_find_byte(text, '-') != SIZE_MAX;
}

static void add_worn(reader *r, const node *n, const char *what, texts_list *out)
{
    texts one;
    if (n->kind == NODE_TEXT && is_meant_as_name(r, str_trim(n->text))) {
        const uint32_t id = resolve(r, SECTION_PROTECTION, str_trim(n->text), n->at);
        if (id != NO_ID && r->book->protection != NULL)
            texts_join(r, out, &r->book->protection[id].worn);
    } else if (read_texts(r, n, what, TEXT_PHRASE, &one)) {
        texts_join(r, out, &(texts_list){&one, 1});
    }
}

void read_wear(reader *r, const node *n, const char *what, texts_list *out)
{
    *out = (texts_list){0};
    if (n->kind == NODE_LIST && n->count == 0)
        fault_add(r->list, FAULT_EMPTY, n->at, "This list is empty. Leave the key out instead.");
    if (n->kind != NODE_LIST) add_worn(r, n, what, out);
    for (uint32_t i = 0; n->kind == NODE_LIST && i < n->count; i++) {
        if (n->items[i]->kind == NODE_TEXT && item_twice(r, n, i)) continue;
        if (n->items[i]->kind != NODE_TEXT || !is_meant_as_name(r, str_trim(n->items[i]->text)))
            check_cut(r, n, i);
        add_worn(r, n->items[i], what, out);
    }
}

void read_protection(reader *r)
{
    const name_table *t = &r->tables[SECTION_PROTECTION];
    named_wear *all = ARENA_ARRAY(r->keep, named_wear, t->count);
    for (uint32_t i = 0; i < t->count; i++) {
        all[i].id = t->items[i].id;
        enter(r, &t->items[i]);
        read_texts_list(r, t->items[i].body, "a protection", TEXT_PHRASE, &all[i].worn);
    }
    r->book->protection = all;
    r->book->protection_count = t->count;
}

/* ---- procedures ---- */

static void read_energies(reader *r, const node *n, procedure *p)
{
    if (n->kind != NODE_LIST) {
        wrong_kind(r, n, "'energies'", "a list of energies");
        return;
    }
    if (n->count == 0) fault_add(r->list, FAULT_EMPTY, n->at, "No energy is named.");
    for (uint32_t i = 0; i < n->count; i++) {
        if (n->items[i]->kind == NODE_TEXT && item_twice(r, n, i)) continue;
        const uint32_t e = read_choice(r, n->items[i], "an energy", energy_names);
        if (e != NO_ID) p->energies[e] = true;
    }
}

static bool stores_nothing_but_heat(const procedure *p)
{
    for (uint32_t e = 0; e < ENERGY_COUNT; e++)
        if (p->energies[e] && e != ENERGY_HEAT) return false;
    return true;
}

/* What was switched off may still be charged, under pressure, raised or running out. */
static void check_complete(reader *r, const node *map, const procedure *p)
{
    static const struct {
        const char *key, *why;
    } wanted[] = {{"release", "how what is stored is let go"},
                  {"prove", "how it is proved that nothing is left"}};
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) {
        if (node_get(map, wanted[i].key) != NULL || stores_nothing_but_heat(p)) continue;
        fault *f =
            fault_add(r->list, FAULT_PROCEDURE_INCOMPLETE, p->id.at,
                      "The procedure '%.*s' does not say %s.", STR_ARG(p->of.base), wanted[i].why);
        fault_help(r->list, f,
                   "Add '%s:' with what is done, one line for each (29 CFR 1910.147(d)).",
                   wanted[i].key);
    }
}

static void read_procedure(reader *r, const node *map, procedure *p)
{
    if (!check_map(r, map, KEYS_PROCEDURE)) return;
    const uint32_t before = faults_met(r->list);
    const node *named = need(r, map, p->id, KEYS_PROCEDURE, "energies"),
               *wear = node_get(map, "wear");
    read_keys(r, map, p->id, KEYS_PROCEDURE, p);
    if (named != NULL) read_energies(r, named, p);
    if (wear != NULL) read_wear(r, wear, "'wear'", &p->wear);
    if (faults_met(r->list) == before) check_complete(r, map, p);
}

/* Each point that the site names stands in place of the book's. */
static void read_site_procedure(reader *r, const node_entry *e, procedure *all)
{
    const uint32_t id = resolve(r, SECTION_PROCEDURES, e->key, e->key_at);
    if (id == NO_ID || !check_map(r, e->value, KEYS_SITE_PROCEDURE)) return;
    const node *wear = node_get(e->value, "wear");
    r->here = all[id].of;
    read_keys(r, e->value, all[id].id, KEYS_SITE_PROCEDURE, &all[id]);
    if (wear != NULL) read_wear(r, wear, "'wear'", &all[id].wear);
    r->here = (owner){STR(""), NO_ID, NO_ID, 0};
}

static void read_site_procedures(reader *r, procedure *all)
{
    const node *n =
        r->site != NULL && r->site->kind == NODE_MAP ? node_get(r->site, "procedures") : NULL;
    if (n == NULL) return;
    if (n->kind != NODE_MAP) {
        wrong_kind(r, n, "'procedures'", "a map of procedures");
        return;
    }
    r->here = (owner){STR(""), NO_ID, NO_ID, 0};
    for (uint32_t i = 0; i < n->count; i++) read_site_procedure(r, &n->entries[i], all);
}

void read_procedures(reader *r)
{
    const name_table *t = &r->tables[SECTION_PROCEDURES];
    procedure *all = ARENA_ARRAY(r->keep, procedure, t->count);
    r->book->procedures = all;
    r->book->procedure_count = t->count;
    for (uint32_t i = 0; i < t->count; i++) {
        enter(r, &t->items[i]);
        all[i].id = t->items[i].id;
        all[i].of = t->items[i].of;
        read_procedure(r, t->items[i].body, &all[i]);
    }
    read_site_procedures(r, all);
}

/* One after the other; what was isolated last is given back first. */
static void add_procedure(reader *r, const procedure *p, safety *out)
{
    const texts_list tell = {&p->tell, p->tell.count > 0};
    texts_join(r, &out->tell, &tell);
    texts_join(r, &out->isolate, &p->isolate);
    texts_join(r, &out->release, &p->release);
    texts_join(r, &out->prove, &p->prove);
    texts_join(r, &out->protect, &p->wear);
    join_before(r, &out->restore, &p->restore);
}

void read_procedure_names(reader *r, const node *n, safety *out)
{
    const node *one[] = {n};
    const bool list = n->kind == NODE_LIST;
    const node *const *items = list ? (const node *const *)n->items : one;
    const uint32_t count = list ? n->count : 1;
    uint32_t *ids = ARENA_ARRAY(r->keep, uint32_t, count);
    if (list && n->count == 0) fault_add(r->list, FAULT_EMPTY, n->at, "No procedure is named.");
    for (uint32_t i = 0; i < count; i++) {
        str name;
        if (!read_word(r, items[i], "the name of a procedure", &name)) continue;
        if (list && item_twice(r, n, i)) continue;
        const uint32_t id = resolve(r, SECTION_PROCEDURES, name, items[i]->at);
        if (id == NO_ID) continue;
        ids[out->procedure_count++] = id;
        add_procedure(r, &r->book->procedures[id], out);
    }
    out->procedures = ids;
    assert(out->procedure_count <= count);
}
