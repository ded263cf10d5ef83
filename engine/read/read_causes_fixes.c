/* Causes, and what cures them. */
#include <assert.h>

#include "read/reader.h"

enum { HOW_OFTEN_LEFT_OUT = 1, FIX_MINUTES_LEFT_OUT = 2 };

/* The cause by its own name, bare or with its piece; "of any" means the others. */
static void check_not_itself(reader *r, const node *n, const char *key, const cause *self)
{
    str full = self->id.name, base = self->of.base;
    for (uint32_t i = 0; n->kind == NODE_LIST && i < n->count; i++) {
        const node *item = n->items[i];
        if (item->kind != NODE_TEXT || (!str_eq(item->text, full) && !str_eq(item->text, base)))
            continue;
        fault *f = fault_add(r->list, FAULT_WITH_ITSELF, item->at, "'%.*s' stands in its own '%s'.",
                             STR_ARG(base), key);
        fault_help(r->list, f, "Leave it out; name other causes only.");
    }
}

static ids without(ids all, uint32_t self)
{
    uint32_t *items = (uint32_t *)(uintptr_t)all.items, used = 0;
    for (uint32_t i = 0; i < all.count; i++)
        if (all.items[i] != self) items[used++] = all.items[i];
    return (ids){items, used};
}

static ids read_other_causes(reader *r, const node *map, const char *key, const cause *self)
{
    assert(map->kind == NODE_MAP);
    const node *n = node_get(map, key);
    if (n == NULL) return (ids){0};
    check_not_itself(r, n, key, self);
    return without(read_ids(r, SECTION_CAUSES, n, key),
                   table_find(&r->tables[SECTION_CAUSES], self->id.name));
}

static void check_not_reserved(reader *r, const cause *c)
{
    if (!str_is(c->id.name, "something-not-listed")) return;
    fault *f = fault_add(
        r->list, FAULT_BAD_NAME, c->id.at,
        "'something-not-listed' can't name a cause: it stands for all that has no name here.");
    fault_help(r->list, f, "Give the cause a name of its own.");
}

static void each_of_one(reader *r, const node *n)
{
    fault *f = fault_add(
        r->list, FAULT_KEY_OUT_OF_PLACE, n->at,
        "'each' has no meaning here: this cause is there once, not for each piece of equipment.");
    fault_help(r->list, f, "Leave it out, or write the cause 'for-each' with a kind.");
}

/* How often is said of the kind together, unless "each: yes". */
static void read_each(reader *r, const node *n, cause *c)
{
    if (n != NULL) read_yes(r, n, "'each'", &c->each);
    if (n != NULL && c->of.piece == NO_ID && c->of.lone == 0) each_of_one(r, n);
    if (c->of.piece == NO_ID || c->each) return;
    uint32_t kind = r->book->pieces[c->of.piece].kind, count = 0;
    for (uint32_t i = 0; i < r->book->piece_count; i++) count += r->book->pieces[i].kind == kind;
    c->how_often /= count;
}

static void read_cause(reader *r, const node *map, cause *c)
{
    c->how_often = HOW_OFTEN_LEFT_OUT;
    c->comes_back = r->book->comes_back;
    c->comes_back_said = span_nowhere();
    c->confirmed_by = NO_ID;
    check_not_reserved(r, c);
    if (!check_map(r, map, KEYS_CAUSE)) return;
    read_keys(r, map, c->id, KEYS_CAUSE, c);
    const node *often = node_get(map, "how-often");
    if (often != NULL) read_how_often(r, often, &c->how_often);
    c->often_said = often != NULL ? often->at : span_nowhere();
    c->body = map;
    read_each(r, node_get(map, "each"), c);
    read_comes_back(r, map, &c->comes_back, &c->comes_back_said);
    c->never_with = read_other_causes(r, map, "never-with", c);
    c->brought_on_by = read_other_causes(r, map, "brought-on-by", c);
}

/* Where all are of some kind, what is missing is a piece of one. */
static void no_cause(reader *r)
{
    const bool of_pieces = r->bases[SECTION_CAUSES].count > 0 && r->site != NULL;
    fault *f = fault_add(
        r->list, FAULT_NO_CAUSE, of_pieces ? r->site_at : span_nowhere(), "%s",
        of_pieces ? "All causes are of equipment, and the site names none that they are of, so "
                    "there is nothing to find."
                  : "No file names a cause, so there is nothing to find.");
    if (of_pieces)
        fault_help(r->list, f, "Write 'units:' in 'site', and beneath it what there is of '%.*s'.",
                   STR_ARG(r->book->kinds[base_kind(&r->bases[SECTION_CAUSES].items[0])].id.name));
    else
        fault_help(r->list, f, "Add a section 'causes' with at least one cause.");
}

void read_causes(reader *r)
{
    const name_table *t = &r->tables[SECTION_CAUSES];
    cause *causes = ARENA_ARRAY(r->keep, cause, t->count);
    r->book->causes = causes;
    r->book->cause_count = t->count;
    for (uint32_t i = 0; i < t->count; i++) {
        enter(r, &t->items[i]);
        causes[i].id = t->items[i].id;
        causes[i].of = t->items[i].of;
        read_cause(r, t->items[i].body, &causes[i]);
    }
    if (t->count == 0 && !r->names_lost && !r->pieces_lost) no_cause(r);
}

void read_done_wrongly(reader *r, const node *map, double *share, span *said)
{
    const node *n = node_get(map, "done-wrongly");
    double chance;
    *said = n != NULL ? n->at : span_nowhere();
    if (n == NULL || !read_plain_chance(r, n, "how often it is done wrongly", &chance)) return;
    if (chance <= DONE_WRONGLY_MOST) {
        *share = chance;
        return;
    }
    fault *f = fault_add(r->list, FAULT_CHANCE_OUTSIDE, n->at,
                         "What is done wrongly more often than rightly should not be tried.");
    fault_help(r->list, f, "Write how many of 100 do it wrongly, such as '5 %%'.");
}

void read_comes_back(reader *r, const node *map, double *share, span *said)
{
    const node *n = node_get(map, "comes-back");
    *said = n != NULL ? n->at : span_nowhere();
    if (n != NULL) read_plain_chance(r, n, "how often it comes back", share);
}

static void read_fix(reader *r, const node *map, fix *f)
{
    assert(r->book->named_questions == r->tables[SECTION_QUESTIONS].count);
    f->minutes = FIX_MINUTES_LEFT_OUT;
    f->done_wrongly = r->book->done_wrongly;
    f->done_wrongly_said = span_nowhere();
    if (!check_map(r, map, KEYS_FIX)) return;
    read_keys(r, map, f->id, KEYS_FIX, f);
    const node *cures = need(r, map, f->id, KEYS_FIX, "cures"),
               *back = need(r, map, f->id, KEYS_FIX, "put-back");
    const node *cost = node_get(map, "cost");
    const node *look_again = node_get(map, "look-again"), *adjust = node_get(map, "adjust");
    read_done_wrongly(r, map, &f->done_wrongly, &f->done_wrongly_said);
    if (cures != NULL) f->cures = read_rates(r, cures, "'cures'", &f->cures_count);
    if (look_again != NULL)
        f->look_again = read_ids(r, SECTION_QUESTIONS, look_again, "'look-again'");
    read_safety(r, map, f->id, KEYS_FIX, &f->harm);
    if (cost != NULL) read_money(r, cost, &f->cost);
    if (back != NULL) read_put_back(r, back, &f->undo);
    if (adjust != NULL) read_adjust(r, adjust, f);
}

void read_fixes(reader *r)
{
    const name_table *t = &r->tables[SECTION_FIXES];
    fix *fixes = ARENA_ARRAY(r->keep, fix, t->count);
    r->book->fixes = fixes;
    r->book->fix_count = t->count;
    for (uint32_t i = 0; i < t->count; i++) {
        enter(r, &t->items[i]);
        fixes[i].id = t->items[i].id;
        fixes[i].of = t->items[i].of;
        fixes[i].adjust.reading = NO_ID;
        fixes[i].place = NO_ID;
        read_fix(r, t->items[i].body, &fixes[i]);
    }
    read_fix_sequence(r, fixes);
}
