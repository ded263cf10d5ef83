/* Signs of which an author thinks as telling, and which other faults bring more often than all the
 * causes that he lists. */
#include <assert.h>
#include <math.h>

#include "doubt/doubt.h"

#define SHOWN_OFTEN     0.5  /* by one of its causes: the author takes it for a sign */
#define NOT_LISTED_MOST 0.05 /* more of it is doubted by itself */
#define HARDLY_AT_ALL   0.3  /* of the calls in which it is seen */

/* Of the book, for all its signs. */
typedef struct totals {
    double how_often;       /* of all causes */
    const uint32_t *pieces; /* [kind] that the site has */
} totals;

static totals totals_of(const doubter *d)
{
    const book *b = d->book;
    uint32_t *pieces = ARENA_ARRAY(d->scratch, uint32_t, b->kind_count);
    totals all = {0, pieces};
    for (uint32_t c = 0; c < b->cause_count; c++) all.how_often += b->causes[c].how_often;
    for (uint32_t p = 0; p < b->piece_count; p++) pieces[b->pieces[p].kind]++;
    return all;
}

/* How often a cause comes where the sign is seen: at that piece, what is the whole kind's. */
static double weight_beside(const book *b, const totals *all, const symptom *s, uint32_t cause)
{
    assert(cause < b->cause_count);
    const struct cause *c = &b->causes[cause];
    if (s->of.piece == NO_ID || c->of.piece != s->of.piece || c->each) return c->how_often;
    return c->how_often * all->pieces[b->pieces[s->of.piece].kind];
}

/* Share of the calls in which it is seen that have one of its causes. Something not listed shows it
 * half as other faults do, half as the causes on the mean. */
static double share_of_its_causes(const book *b, const totals *of_book, const symptom *s)
{
    const double all = of_book->how_often;
    double listed = 0, showing = 0;
    for (uint32_t k = 0; k < s->shown_by_count; k++) {
        const double weight = weight_beside(b, of_book, s, s->shown_by[k].cause);
        listed += weight;
        showing += weight * s->shown_by[k].chance;
    }
    assert(all > 0);
    const double others = s->otherwise * fmax(0, all - listed),
                 u = fmin(b->not_listed, NOT_LISTED_MOST);
    const double seen =
        (1 - u) * (showing + others) + u * (0.5 * s->otherwise * all + 0.5 * (showing + others));
    return seen > 0 ? (1 - u) * showing / seen : 1;
}

static double most_shown(const symptom *s)
{
    double most = 0;
    for (uint32_t k = 0; k < s->shown_by_count; k++) most = fmax(most, s->shown_by[k].chance);
    return most;
}

static void doubt_sign(const doubter *d, const totals *all, const symptom *s)
{
    const double share = share_of_its_causes(d->book, all, s);
    if (share > HARDLY_AT_ALL || most_shown(s) < SHOWN_OFTEN) return;
    const bool said = s->otherwise_said.file != NO_FILE;
    fault *f = fault_add(d->list, FAULT_SIGN_DROWNED, s->otherwise_at,
                         "Of 100 calls in which '%.*s' is seen, only %.0f have a cause that it "
                         "lists: %.3g %% of all others show it, %s.",
                         STR_ARG(s->of.base), 100 * share, 100 * s->otherwise,
                         said ? "as 'otherwise' says" : "since 'otherwise' is left out");
    fault_help(d->list, f,
               "Write %s, such as 'otherwise: 1 %%', if other faults hardly ever bring it; or list "
               "what does.",
               said ? "less" : "it");
}

void doubt_drowned(const doubter *d)
{
    const book *b = d->book;
    const totals all = totals_of(d);
    bool any = false;
    for (uint32_t c = 0; c < b->cause_count; c++) any |= b->causes[c].how_often > 0;
    for (uint32_t i = 0; any && i < b->symptom_count; i++)
        if (!b->symptoms[i].from_confirms && b->symptoms[i].shown_by_count > 0)
            doubt_sign(d, &all, &b->symptoms[i]);
}
