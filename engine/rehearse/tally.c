/* What came of many calls, counted in whole numbers, so that the sum is the same in any order. */
#include "rehearse/tally.h"

#include <assert.h>
#include <math.h>

#include "base/grow.h"
#include "base/sorted.h"

#define CHANCE_UNITS   0x1p20
#define SURPRISE_UNITS 1024.0
#define SURELY         0.9
#define CHANCE_LEAST   1e-300 /* a surprise stays finite */

tally *tally_new(arena *keep, uint32_t cause_count)
{
    tally *t = ARENA_NEW(keep, tally);
    t->cause_count = cause_count;
    t->calls_of = ARENA_ARRAY(keep, uint64_t, (size_t)cause_count + 1);
    return t;
}

static void note(moments *m, int64_t number)
{
    m->sum += number;
    m->squares += (uint64_t)(number * number);
}

static int64_t in_seconds(double minutes)
{
    return llround(minutes * 60);
}

/* ---- which cause was taken for which ---- */

/* Where it stands, or would. */
static uint32_t place_of(const tally *t, uint32_t cause, uint32_t blamed)
{
    const mistaken *all = t->mistakes;
    uint32_t at;
    SORTED_PLACE(at, t->mistake_count, i, all[i].cause < cause || (all[i].cause == cause && all[i].blamed < blamed));
    return at;
}

static void add_mistake(tally *t, arena *keep, mistaken m)
{
    assert(m.cause != m.blamed && m.cause <= t->cause_count && m.blamed <= t->cause_count);
    uint32_t at = place_of(t, m.cause, m.blamed);
    if (at < t->mistake_count && t->mistakes[at].cause == m.cause &&
        t->mistakes[at].blamed == m.blamed) {
        t->mistakes[at].count += m.count;
        return;
    }
    GROW(keep, t->mistakes, t->mistake_count, t->mistake_room);
    SORTED_INSERT(t->mistakes, t->mistake_count, at, m);
}

static void note_truth(tally *t, arena *keep, const made_call *truth, const judgement *j)
{
    uint32_t cause = truth->size == 0 ? t->cause_count : truth->causes[0];
    uint32_t blamed = j->blamed == NOT_LISTED ? t->cause_count : (uint32_t)j->blamed;
    t->calls_of[cause]++;
    t->surprise_calls++;
    note(&t->surprise, llround(-log2(fmax(j->truth, CHANCE_LEAST)) * SURPRISE_UNITS));
    if (!j->leads) add_mistake(t, keep, (mistaken){cause, blamed, 1});
    if (truth->size == 0 && !j->leads && j->leading >= SURELY) t->blamed_surely++;
}

/* ---- one call ---- */

static void note_kind(kind_tally *k, const played *p)
{
    assert(p->ranked || !(p->first.leads || p->last.leads));
    k->calls++;
    k->ranked += p->ranked;
    k->leads += p->first.leads;
    k->among_three += p->first.among_three;
    k->leads_last += p->last.leads;
    k->among_three_last += p->last.among_three;
    k->cured += p->end == END_CURED;
    note(&k->questions, p->questions);
    note(&k->seconds, in_seconds(p->minutes));
}

static void note_bin(tally *t, const judgement *j)
{
    assert(j->leading >= 0 && j->leading <= 1 + 1e-9);
    int bin = (int)(j->leading * BINS);
    bin_tally *b = &t->bins[bin < 0 ? 0 : bin >= BINS ? BINS - 1 : bin];
    b->calls++;
    b->right += j->leads;
    b->said += (uint64_t)llround(j->leading * CHANCE_UNITS);
}

static void note_way(way_tally *w, const played *p, const played *first)
{
    w->calls++;
    w->ends[p->end]++;
    w->ranked += p->ranked;
    w->leads += p->first.leads;
    w->among_three += p->first.among_three;
    note(&w->questions, p->questions);
    note(&w->fixes, p->fixes);
    note(&w->seconds, in_seconds(p->minutes));
    note(&w->seconds_more, in_seconds(p->minutes) - in_seconds(first->minutes));
    for (int level = 0; level < LEVELS_OFFERED; level++) {
        note(&w->needless[level], p->needless[level]);
        note(&w->needless_more[level], (int64_t)p->needless[level] - first->needless[level]);
    }
}

void tally_call(tally *t, arena *keep, const made_call *truth, const played *const *ways)
{
    static const int kind_of_size[] = {KIND_NOT_LISTED, KIND_ONE, KIND_TWO};
    const played *own = ways[WAY_TELLTALE];
    assert(truth->size <= 2);
    assert(own != NULL);
    t->calls++;
    note_kind(&t->kinds[kind_of_size[truth->size]], own);
    if (own->ranked) note_bin(t, &own->first);
    if (own->ranked && truth->size < 2) note_truth(t, keep, truth, &own->first);
    for (int w = 0; w < WAY_COUNT; w++)
        if (ways[w] != NULL) note_way(&t->ways[w], ways[w], own);
}

/* ---- together ---- */

static void add_moments(moments *into, const moments *more)
{
    into->sum += more->sum;
    into->squares += more->squares;
}

void kind_add(kind_tally *into, const kind_tally *more)
{
    assert(into != more);
    into->calls += more->calls;
    into->ranked += more->ranked;
    into->leads += more->leads;
    into->among_three += more->among_three;
    into->leads_last += more->leads_last;
    into->among_three_last += more->among_three_last;
    into->cured += more->cured;
    add_moments(&into->questions, &more->questions);
    add_moments(&into->seconds, &more->seconds);
}

static void add_way(way_tally *into, const way_tally *more)
{
    into->calls += more->calls;
    for (int e = 0; e < 3; e++) into->ends[e] += more->ends[e];
    into->ranked += more->ranked;
    into->leads += more->leads;
    into->among_three += more->among_three;
    add_moments(&into->questions, &more->questions);
    add_moments(&into->fixes, &more->fixes);
    add_moments(&into->seconds, &more->seconds);
    add_moments(&into->seconds_more, &more->seconds_more);
    for (int level = 0; level < LEVELS_OFFERED; level++) {
        add_moments(&into->needless[level], &more->needless[level]);
        add_moments(&into->needless_more[level], &more->needless_more[level]);
    }
}

static void add_bin(bin_tally *into, const bin_tally *more)
{
    into->calls += more->calls;
    into->right += more->right;
    into->said += more->said;
}

void tally_add(tally *into, arena *keep, const tally *more)
{
    assert(into->cause_count == more->cause_count);
    into->calls += more->calls;
    into->blamed_surely += more->blamed_surely;
    into->surprise_calls += more->surprise_calls;
    add_moments(&into->surprise, &more->surprise);
    for (int k = 0; k < KIND_COUNT; k++) kind_add(&into->kinds[k], &more->kinds[k]);
    for (int w = 0; w < WAY_COUNT; w++) add_way(&into->ways[w], &more->ways[w]);
    for (int b = 0; b < BINS; b++) add_bin(&into->bins[b], &more->bins[b]);
    for (uint32_t c = 0; c <= into->cause_count; c++) into->calls_of[c] += more->calls_of[c];
    for (uint32_t i = 0; i < more->mistake_count; i++) add_mistake(into, keep, more->mistakes[i]);
}
