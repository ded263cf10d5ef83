/* Parts that the causes call for, and how likely each is to be needed. */
#include <assert.h>
#include <string.h>

#include "base/sorted.h"
#include "session/session.h"

typedef struct called_for {
    const char *text;
    uint32_t cause;
} called_for;

static int by_text(const void *a, const void *b)
{
    const called_for *x = a, *y = b;
    int texts = strcmp(x->text, y->text);
    return texts != 0 ? texts : THREE_WAY(x->cause, y->cause);
}

/* A part that a cause names twice counts once. */
static uint32_t collect(tt_case *c, called_for **out)
{
    const book *b = c->book->book;
    uint32_t room = 0, count = 0;
    for (uint32_t i = 0; i < b->cause_count; i++) room += b->causes[i].spare_parts.count;
    called_for *all = ARENA_ARRAY(c->derived, called_for, room + 1);
    for (uint32_t i = 0; i < b->cause_count; i++) {
        const char *const *texts = case_text_list(c, &b->causes[i].spare_parts);
        for (uint32_t p = 0; p < b->causes[i].spare_parts.count; p++)
            all[count++] = (called_for){texts[p], i};
    }
    assert(count == room);
    SORT(all, count, by_text);
    uint32_t kept = 0;
    for (uint32_t i = 0; i < count; i++)
        if (kept == 0 || by_text(&all[kept - 1], &all[i]) != 0) all[kept++] = all[i];
    *out = all;
    return kept;
}

/* Pairs of causes follow the single ones in lexicographic order (belief.h). */
static size_t pair_index(size_t causes, size_t low, size_t high)
{
    assert(low < high && high < causes);
    return 1 + causes + low * (2 * causes - low - 1) / 2 + (high - low - 1);
}

/* That at least one of the causes is there: their chances, less what is counted twice where two of
 * them are. */
static double chance_of_any(const tt_case *c, const double *marginal, const called_for *all,
                            uint32_t count)
{
    assert(count > 0);
    const size_t causes = c->book->book->cause_count;
    double sum = 0;
    for (uint32_t i = 0; i < count; i++) sum += marginal[1 + all[i].cause];
    for (uint32_t i = 0; c->now.pairs_matter && i < count; i++)
        for (uint32_t j = i + 1; j < count; j++)
            sum -= belief_posterior(c->now.pairs)[pair_index(causes, all[i].cause, all[j].cause)];
    return sum < 0 ? 0 : sum > 1 ? 1 : sum;
}

static int likeliest_first(const void *a, const void *b)
{
    const tt_spare *x = a, *y = b;
    if (x->chance != y->chance) return THREE_WAY(y->chance, x->chance);
    return strcmp(x->text, y->text);
}

typedef struct listing {
    tt_case *c;
    const tt_spare *items;
    uint32_t count;
} listing;

static tt_status list_spares(void *context)
{
    listing *l = context;
    tt_case *c = l->c;
    called_for *all;
    const uint32_t count = collect(c, &all);
    double *marginal = ARENA_ARRAY(c->derived, double, c->book->book->cause_count + 1);
    belief_marginals(c->now.pairs_matter ? c->now.pairs : c->now.single, marginal);
    tt_spare *spares = ARENA_ARRAY(c->derived, tt_spare, count + 1);
    for (uint32_t from = 0, to; from < count; from = to) {
        for (to = from + 1; to < count && strcmp(all[from].text, all[to].text) == 0;) to++;
        spares[l->count++] =
            (tt_spare){all[from].text, chance_of_any(c, marginal, &all[from], to - from)};
    }
    SORT(spares, l->count, likeliest_first);
    l->items = spares;
    return TT_OK;
}

tt_status tt_spare_parts(tt_case *c, const tt_spare **out, uint32_t *count)
{
    listing l = {.c = c};
    tt_status status = case_see(c);
    if (status == TT_OK) status = guarded_case(c, list_spares, &l);
    *out = l.items;
    *count = status == TT_OK ? l.count : 0;
    return status;
}
