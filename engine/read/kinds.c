/* Kinds of equipment, and which pieces of each the site has. */
#include <assert.h>
#include <stdlib.h>

#include "read/reader.h"

enum { STAND_INS = 2 };
_Static_assert(KINDS_MAX *STAND_INS <= PIECES_MAX, "every stand-in has its place");

/* ---- kinds, by name ---- */

typedef struct kind_draft {
    label id;
    const node *body;
} kind_draft;

static int by_kind_name(const void *a, const void *b)
{
    const kind_draft *x = a, *y = b;
    int order = str_cmp(x->id.name, y->id.name);
    if (order != 0) return order;
    if (x->id.at.file != y->id.at.file) return x->id.at.file < y->id.at.file ? -1 : 1;
    return (x->id.at.start > y->id.at.start) - (x->id.at.start < y->id.at.start);
}

static void kind_twice(reader *r, label again, label before)
{
    fault *f = fault_add(r->list, FAULT_NAME_TWICE, again.at,
                         "There are two kinds named '%.*s', so nobody could tell which is meant.",
                         STR_ARG(again.name));
    fault_note_at(r->list, f, before.at, "The other one stands here.");
    fault_help(r->list, f, "Rename one of them, or join the two.");
}

/* So many that their stand-ins still fit. */
static uint32_t kinds_that_fit(reader *r, const node_entry *const *entries, uint32_t count)
{
    if (count <= KINDS_MAX) return count;
    fault *f = fault_add(r->list, FAULT_TOO_MANY, entries[KINDS_MAX]->key_at,
                         "There are more than %d kinds of equipment.", KINDS_MAX);
    fault_help(r->list, f, "Make one kind of those that are asked about alike.");
    r->names_lost = true;
    return KINDS_MAX;
}

void collect_kinds(reader *r, const node_entry *const *entries, uint32_t count)
{
    count = kinds_that_fit(r, entries, count);
    kind_draft *drafts = ARENA_ARRAY(r->scratch, kind_draft, count);
    for (uint32_t i = 0; i < count; i++) {
        check_name(r, entries[i]->key, entries[i]->key_at, "a kind of equipment");
        drafts[i] = (kind_draft){{entries[i]->key, entries[i]->key_at}, entries[i]->value};
    }
    if (count > 1) qsort(drafts, count, sizeof *drafts, by_kind_name);
    equipment_kind *kinds = ARENA_ARRAY(r->keep, equipment_kind, count);
    const node **nodes = ARENA_ARRAY(r->scratch, const node *, count);
    uint32_t used = 0;
    for (uint32_t i = 0; i < count; i++) {
        if (used > 0 && str_eq(kinds[used - 1].id.name, drafts[i].id.name)) {
            kind_twice(r, drafts[i].id, kinds[used - 1].id);
            continue;
        }
        mention_add(r->book->mentions, (mention){NAMED_KIND, MENTION_DEFINES, drafts[i].id.name,
                                                 STR(""), STR(""), drafts[i].id.at});
        kinds[used].id = drafts[i].id;
        nodes[used++] = drafts[i].body;
    }
    r->book->kinds = kinds;
    r->book->kind_count = used;
    r->kind_nodes = nodes;
}

/* ---- pieces, by kind and name ---- */

typedef struct piece_draft {
    piece made;
    const node *body;
} piece_draft;

static int by_kind_and_name(const void *a, const void *b)
{
    const piece_draft *x = a, *y = b;
    if (x->made.kind != y->made.kind) return x->made.kind < y->made.kind ? -1 : 1;
    int order = str_cmp(x->made.id.name, y->made.id.name);
    if (order != 0) return order;
    return (x->made.id.at.start > y->made.id.at.start) -
           (x->made.id.at.start < y->made.id.at.start);
}

/* Of a name that stands twice the second piece was dropped. */
static bool stands_twice(reader *r, const node *units)
{
    uint32_t count;
    const fault *all = faults_sorted(r->list, r->scratch, &count);
    for (uint32_t i = 0; i < count; i++) {
        if (all[i].code != FAULT_KEY_TWICE || all[i].notes == NULL) continue;
        const span first = all[i].notes->at;
        if (first.file == units->at.file && first.start >= units->at.start &&
            first.start < units->at.end)
            return true;
    }
    return false;
}

static const node *units_of_site(reader *r)
{
    const node *units = node_get(r->site, "units");
    bool map = units != NULL && units->kind == NODE_MAP;
    r->pieces_lost = units != NULL && (!map || stands_twice(r, units));
    return map ? units : NULL;
}

static void pieces_in_a_list(reader *r, const node *n)
{
    fault *f = fault_add(r->list, FAULT_WRONG_KIND, n->at,
                         "Here stands %s, but what there is of a kind must be a map of names.",
                         node_says(n));
    fault_help(r->list, f,
               "Give each piece a line of its own, such as 'coarse: {text: the coarse filter}'.");
}

/* False: no more fit. */
static bool draft_piece(reader *r, const node_entry *e, uint32_t kind, piece_draft *drafts,
                        uint32_t *count)
{
    if (*count == PIECES_MAX) {
        fault *f = fault_add(r->list, FAULT_TOO_MANY, e->key_at,
                             "The site has more than %d pieces of equipment.", PIECES_MAX);
        fault_help(r->list, f,
                   "Make a site of its own of each part, and name there what calls are about.");
        r->names_lost = r->pieces_lost = true;
        return false;
    }
    check_name(r, e->key, e->key_at, "a piece of equipment");
    mention_add(r->book->mentions,
                (mention){NAMED_PIECE, MENTION_DEFINES, e->key, STR(""), STR(""), e->key_at});
    drafts[*count].made = (piece){.id = {e->key, e->key_at}, .kind = kind};
    drafts[(*count)++].body = e->value;
    return true;
}

static uint32_t draft_site(reader *r, const node *units, piece_draft *drafts)
{
    uint32_t count = 0;
    for (uint32_t i = 0; units != NULL && i < units->count; i++) {
        const node_entry *e = &units->entries[i];
        uint32_t kind = resolve_kind(r, e->key, e->key_at);
        bool map = e->value->kind == NODE_MAP;
        r->pieces_lost |= !map || kind == NO_ID;
        if (kind == NO_ID) continue;
        if (!map) pieces_in_a_list(r, e->value);
        for (uint32_t k = 0; map && k < e->value->count; k++)
            if (!draft_piece(r, &e->value->entries[k], kind, drafts, &count)) return count;
    }
    return count;
}

/* Two of each kind, one after the other, so that rules for pairs are read as well. */
static uint32_t draft_stand_ins(reader *r, piece_draft *drafts)
{
    uint32_t count = 0;
    for (uint32_t kind = 0; kind < r->book->kind_count; kind++)
        for (int i = 1; i <= STAND_INS; i++) {
            label id = r->book->kinds[kind].id;
            id.name = str_printf(r->keep, "%.*s-%d", STR_ARG(id.name), i);
            drafts[count++].made = (piece){.id = id, .kind = kind, .stand_in = true};
        }
    return count;
}

static void piece_twice(reader *r, const piece *again, const piece *before)
{
    fault *f =
        fault_add(r->list, FAULT_NAME_TWICE, again->id.at,
                  "Two pieces of equipment are named '%.*s', so nobody could tell which is meant.",
                  STR_ARG(again->id.name));
    fault_note_at(r->list, f, before->id.at, "The other one stands here.");
    fault_help(r->list, f, "Rename one of them, even if they are of different kinds.");
}

static int by_piece_name(const void *a, const void *b)
{
    const piece *x = *(const piece *const *)a, *y = *(const piece *const *)b;
    int order = str_cmp(x->id.name, y->id.name);
    return order != 0 ? order
                      : (x->id.at.start > y->id.at.start) - (x->id.at.start < y->id.at.start);
}

static void check_piece_names(reader *r, const piece *pieces, uint32_t count)
{
    const piece **sorted = ARENA_ARRAY(r->scratch, const piece *, count);
    for (uint32_t i = 0; i < count; i++) sorted[i] = &pieces[i];
    if (count > 1) qsort(sorted, count, sizeof *sorted, by_piece_name);
    for (uint32_t i = 1; i < count; i++)
        if (str_eq(sorted[i]->id.name, sorted[i - 1]->id.name))
            piece_twice(r, sorted[i], sorted[i - 1]);
}

void collect_pieces(reader *r)
{
    piece_draft *drafts = ARENA_ARRAY(r->scratch, piece_draft, PIECES_MAX);
    r->pieces_lost = r->site == NULL && r->names_lost; /* it may stand in what could not be read */
    uint32_t count =
        r->site != NULL ? draft_site(r, units_of_site(r), drafts) : draft_stand_ins(r, drafts);
    if (count > 1) qsort(drafts, count, sizeof *drafts, by_kind_and_name);
    piece *pieces = ARENA_ARRAY(r->keep, piece, count);
    const node **nodes = ARENA_ARRAY(r->scratch, const node *, count);
    for (uint32_t i = 0; i < count; i++) {
        pieces[i] = drafts[i].made;
        nodes[i] = drafts[i].body;
    }
    r->book->pieces = pieces;
    r->book->piece_count = count;
    r->book->has_site = r->site != NULL;
    r->piece_nodes = nodes;
    check_piece_names(r, pieces, count);
    read_order(r, pieces);
    read_hanging(r, pieces);
}

/* ---- their texts, once the language is known ---- */

/* "floor-left" reads as "floor left" where nobody wrote more. */
static texts words_of_name(reader *r, label id)
{
    text_builder words = {.keep = r->keep};
    for (size_t i = 0; i < id.name.n; i++)
        text_add(&words, id.name.p[i] == '-' ? STR(" ") : str_slice(id.name, i, i + 1));
    text_item *item = ARENA_NEW(r->keep, text_item);
    *item = (text_item){r->book->language, text_done(&words)};
    return (texts){.items = item, .count = 1, .at = id.at};
}

static void read_kind(reader *r, const node *body, equipment_kind *k)
{
    k->one = words_of_name(r, k->id);
    if (body == NULL || !check_map(r, body, KEYS_KIND)) return;
    const node *one = node_get(body, "one"), *ask = need(r, body, k->id, KEYS_KIND, "ask"),
               *unnamed = node_get(body, "unnamed");
    if (unnamed != NULL) read_fixed_texts(r, unnamed, "'unnamed'", TEXT_PHRASE, &k->unnamed);
    if (one != NULL) read_fixed_texts(r, one, "'one'", TEXT_PHRASE, &k->one);
    if (ask != NULL) read_fixed_texts(r, ask, "'ask'", TEXT_SENTENCE, &k->ask);
}

static void read_piece_text(reader *r, const node *body, piece *p)
{
    p->text = words_of_name(r, p->id);
    if (body == NULL) return;
    if (body->kind != NODE_MAP) {
        wrong_kind(r, body, "a piece of equipment", "a map, such as {text: the left bar}, or {}");
        return;
    }
    const node *text = node_get(body, "text");
    if (text != NULL) read_fixed_texts(r, text, "'text'", TEXT_PHRASE, &p->text);
}

void read_kinds(reader *r)
{
    equipment_kind *kinds = ARENA_ARRAY(r->keep, equipment_kind, r->book->kind_count);
    for (uint32_t i = 0; i < r->book->kind_count; i++) {
        kinds[i] = r->book->kinds[i];
        read_kind(r, r->kind_nodes[i], &kinds[i]);
    }
    r->book->kinds = kinds;
    piece *pieces = ARENA_ARRAY(r->keep, piece, r->book->piece_count);
    for (uint32_t i = 0; i < r->book->piece_count; i++) {
        pieces[i] = r->book->pieces[i];
        read_piece_text(r, r->piece_nodes[i], &pieces[i]);
    }
    r->book->pieces = pieces;
    assert(r->book->kind_count == 0 || r->kind_nodes != NULL);
}

/* ---- the pieces that a case is about ---- */

static void no_piece_named(reader *r, str name, span at)
{
    if (r->pieces_lost) return;
    fault *f = fault_add(r->list, FAULT_UNKNOWN_PIECE, at,
                         "The site has no piece of equipment '%.*s'.", STR_ARG(name));
    str *names = ARENA_ARRAY(r->scratch, str, r->book->piece_count);
    for (uint32_t i = 0; i < r->book->piece_count; i++) names[i] = r->book->pieces[i].id.name;
    suggest(r, f, name, names, r->book->piece_count);
}

ids pieces_named(reader *r, const node *n)
{
    ids_draft all = {0};
    if (n->kind == NODE_MAP) {
        wrong_kind(r, n, "'at'", "a list of pieces of equipment");
        return (ids){0};
    }
    bool list = n->kind == NODE_LIST;
    for (uint32_t i = 0; i < (list ? n->count : 1); i++) {
        const node *item = list ? n->items[i] : n;
        str name;
        if (!read_word(r, item, "a piece of equipment", &name) || (list && item_twice(r, n, i)))
            continue;
        uint32_t id = book_piece(r->book, name);
        if (id == NO_ID) {
            no_piece_named(r, name, item->at);
            continue;
        }
        mention_add(r->book->mentions,
                    (mention){NAMED_PIECE, MENTION_ALONE, r->book->pieces[id].id.name, STR(""),
                              STR(""), item->at});
        ids_add(r, &all, &(names_found){NAMES_ONE, &id, 1});
    }
    return ids_of(all.items, all.count);
}
