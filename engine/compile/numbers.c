/* The numbers that an author has written, and the program with another one in their place. */
#include "compile/numbers.h"

#include <assert.h>
#include <string.h>

#include "base/sorted.h"
#include "base/written.h"

/* ---- all of them ---- */

typedef struct found_number {
    number_kind kind;
    span said;
    number_place at;
} found_number;

typedef struct finding_numbers {
    found_number *items;
    uint32_t count, room;
} finding_numbers;

static void found(finding_numbers *all, number_kind kind, span said, uint32_t entry, uint32_t rate)
{
    if (said.file == NO_FILE) return;
    assert(all->count < all->room && said.start < said.end);
    all->items[all->count++] = (found_number){kind, said, {entry, rate}};
}

static uint32_t most_numbers(const book *b)
{
    uint32_t most = b->cause_count + b->symptom_count;
    for (uint32_t s = 0; s < b->symptom_count; s++) most += b->symptoms[s].shown_by_count;
    for (uint32_t f = 0; f < b->fix_count; f++) most += b->fixes[f].cures_count;
    return most;
}

static void find_all(const book *b, finding_numbers *all)
{
    for (uint32_t c = 0; c < b->cause_count; c++)
        found(all, NUMBER_HOW_OFTEN, b->causes[c].often_said, c, 0);
    for (uint32_t s = 0; s < b->symptom_count; s++) {
        const struct symptom *x = &b->symptoms[s];
        for (uint32_t i = 0; i < x->shown_by_count; i++)
            found(all, NUMBER_SHOWN_BY, x->shown_by[i].said, s, i);
        found(all, NUMBER_OTHERWISE, x->otherwise_said, s, 0);
    }
    for (uint32_t f = 0; f < b->fix_count; f++)
        for (uint32_t i = 0; i < b->fixes[f].cures_count; i++)
            found(all, NUMBER_CURES, b->fixes[f].cures[i].said, f, i);
}

static int by_place(const void *left, const void *right)
{
    const found_number *a = left, *b = right;
    if (a->said.file != b->said.file) return THREE_WAY(a->said.file, b->said.file);
    if (a->said.start != b->said.start) return THREE_WAY(a->said.start, b->said.start);
    return a->at.entry != b->at.entry ? THREE_WAY(a->at.entry, b->at.entry)
                                      : THREE_WAY(a->at.rate, b->at.rate);
}

static bool is_same(const found_number *a, const found_number *b)
{
    return a->said.file == b->said.file && a->said.start == b->said.start;
}

const written_number *program_numbers(arena *keep, arena *scratch, const program *p,
                                      uint32_t *count)
{
    finding_numbers all = {.room = most_numbers(p->book)};
    all.items = ARENA_ARRAY(scratch, found_number, all.room);
    find_all(p->book, &all);
    SORT(all.items, all.count, by_place);
    written_number *out = ARENA_ARRAY(keep, written_number, all.count);
    number_place *places = ARENA_ARRAY(keep, number_place, all.count);
    *count = 0;
    for (uint32_t i = 0; i < all.count; i++) {
        places[i] = all.items[i].at;
        if (i == 0 || !is_same(&all.items[i - 1], &all.items[i]))
            out[(*count)++] = (written_number){all.items[i].kind, all.items[i].said, &places[i], 0};
        out[*count - 1].count++;
    }
    return out;
}

/* ---- one of them ---- */

double number_value(const program *p, const written_number *n)
{
    assert(n->count > 0);
    const book *b = p->book;
    const number_place *at = &n->places[0];
    if (n->kind == NUMBER_SHOWN_BY) return b->symptoms[at->entry].shown_by[at->rate].chance;
    if (n->kind == NUMBER_OTHERWISE) return b->symptoms[at->entry].otherwise;
    if (n->kind == NUMBER_CURES) return b->fixes[at->entry].cures[at->rate].chance;
    const struct cause *c = &b->causes[at->entry];
    return c->each ? c->how_often : c->how_often * n->count;
}

uint32_t number_cause(const program *p, const written_number *n)
{
    const number_place *at = &n->places[0];
    if (n->kind == NUMBER_HOW_OFTEN) return at->entry;
    if (n->kind == NUMBER_SHOWN_BY) return p->book->symptoms[at->entry].shown_by[at->rate].cause;
    return n->kind == NUMBER_CURES ? p->book->fixes[at->entry].cures[at->rate].cause : NO_ID;
}

str number_text(const program *p, const written_number *n)
{
    return written_at(p->book->files, n->said);
}

/* ---- with another value ---- */

/* The author's chance is of a fix done rightly, the program's of a try. */
static const program *with_cures(arena *keep, const program *p, const written_number *n,
                                 double value)
{
    program *out = ARENA_NEW(keep, program);
    const net_rate **cures = ARENA_ARRAY(keep, const net_rate *, p->book->fix_count);
    memcpy(cures, p->cures, p->book->fix_count * sizeof *cures);
    for (uint32_t i = 0; i < n->count; i++) {
        uint32_t f = n->places[i].entry, rates = p->book->fixes[f].cures_count;
        net_rate *changed = ARENA_ARRAY(keep, net_rate, rates);
        memcpy(changed, cures[f], rates * sizeof *changed);
        changed[n->places[i].rate].chance = value * (1 - p->book->fixes[f].done_wrongly);
        cures[f] = changed;
    }
    *out = *p;
    out->cures = cures;
    return out;
}

/* A kind's share is parted evenly among its pieces. */
static net_change change_at(const program *p, const written_number *n, uint32_t i, double value)
{
    static const net_change_kind kinds[] = {[NUMBER_HOW_OFTEN] = NET_WEIGHT,
                                            [NUMBER_SHOWN_BY] = NET_LISTED,
                                            [NUMBER_OTHERWISE] = NET_OTHERWISE};
    const number_place *at = &n->places[i];
    if (n->kind == NUMBER_SHOWN_BY) value *= p->book->symptoms[at->entry].shown_by[at->rate].looks;
    bool parted = n->kind == NUMBER_HOW_OFTEN && !p->book->causes[at->entry].each;
    return (net_change){kinds[n->kind], at->entry, at->rate, parted ? value / n->count : value};
}

const program *program_with(arena *keep, arena *scratch, const program *p, const written_number *n,
                            double value)
{
    assert(value >= 0 && n->count > 0);
    if (n->kind == NUMBER_CURES) return with_cures(keep, p, n, value);
    net_change *changes = ARENA_ARRAY(scratch, net_change, n->count);
    for (uint32_t i = 0; i < n->count; i++) changes[i] = change_at(p, n, i, value);
    program *out = ARENA_NEW(keep, program);
    *out = *p;
    out->evidence = net_with(keep, scratch, p->evidence, changes, n->count);
    if (n->kind == NUMBER_HOW_OFTEN)
        out->facts = facts_with(keep, scratch, p->facts, out->evidence->in.weights);
    return out;
}
