/* What came of many calls, counted in whole numbers, so that the sum is the same in any order. */
#include "rehearse/tally.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/grow.h"
#include "base/sorted.h"

#define CHANCE_UNITS   0x1p20
#define SURPRISE_UNITS 1024.0
#define MOVED_UNITS    16.0 /* of a second */
#define SURELY         0.9
#define CHANCE_LEAST   1e-300 /* a surprise stays finite */

tally *tally_new(arena *keep, uint32_t cause_count, uint32_t role_count, uint64_t seed)
{
    tally *t = ARENA_NEW(keep, tally);
    t->cause_count = cause_count;
    t->role_count = role_count;
    t->seed = seed;
    t->roles = ARENA_ARRAY(keep, role_tally, role_count);
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
    SORTED_PLACE(at, t->mistake_count, i,
                 all[i].cause < cause || (all[i].cause == cause && all[i].blamed < blamed));
    return at;
}

void tally_add_mistake(tally *t, arena *keep, mistaken m)
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
    t->n.surprise_calls++;
    note(&t->n.surprise, llround(-log2(fmax(j->truth, CHANCE_LEAST)) * SURPRISE_UNITS));
    if (!j->leads) tally_add_mistake(t, keep, (mistaken){cause, blamed, 1});
    if (truth->size == 0 && !j->leads && j->leading >= SURELY) t->n.blamed_surely++;
}

/* ---- one call ---- */

static void note_kind(kind_tally *k, const played *p)
{
    assert(p->ranked || !p->first.leads);
    k->calls++;
    k->ranked += p->ranked;
    k->leads += p->first.leads;
    k->among_three += p->first.among_three;
    k->cured += p->end == END_CURED;
    note(&k->questions, p->questions);
    note(&k->seconds, in_seconds(p->minutes));
}

static int bin_of(double chance)
{
    assert(chance >= 0 && chance <= 1 + 1e-9);
    const int bin = (int)(chance * BINS);
    return bin < 0 ? 0 : bin >= BINS ? BINS - 1 : bin;
}

static void note_bin(tally *t, const judgement *j)
{
    bin_tally *b = &t->n.bins[bin_of(j->leading)];
    b->calls++;
    b->right += j->leads;
    b->said += (uint64_t)llround(j->leading * CHANCE_UNITS);
}

static void note_set(set_tally *s, const judgement *j)
{
    assert(j->set_count > 0 || j->set_mass == 0);
    s->calls++;
    s->held += j->in_set;
    s->said += (uint64_t)llround(j->set_mass * CHANCE_UNITS);
    note(&s->causes, j->set_count);
}

/* One draw for both: who leads is one of the set. */
static void note_perfect(tally *t, uint64_t number, const judgement *j)
{
    const int bin = bin_of(j->leading);
    for (uint64_t i = 0; i < PERFECT; i++) {
        dice d = dice_for(t->seed, number, DICE_PERFECT, i);
        const double share = dice_share(&d);
        t->n.perfect[i].right[bin] += share < j->leading;
        t->n.perfect[i].held += share < j->set_mass;
    }
}

static void note_pair(pair_tally *x, const played *ours, const played *theirs)
{
    if (theirs == NULL || ours == NULL || !ours->ranked || !theirs->ranked) return;
    const int64_t a = in_seconds(ours->minutes), b = in_seconds(theirs->minutes);
    assert(a >= 0 && b >= 0);
    x->calls++;
    note(&x->ours, a);
    note(&x->theirs, b);
    x->product += (uint64_t)(a * b);
}

static void note_ceiling(ceiling_tally *x, const played *ours, const played *known)
{
    if (known == NULL || !ours->ranked || !known->ranked) return;
    const bool a = ours->first.leads, b = known->first.leads;
    x->calls++;
    x->ours += a;
    x->theirs += b;
    x->only_ours += a && !b;
    x->only_theirs += b && !a;
}

static void note_over(tally *t, const played *p)
{
    over_tally *x = &t->n.over;
    const taken_over *over = &p->over;
    for (uint32_t r = 0; p->worked != NULL && r < t->role_count; r++) {
        if (!(p->worked[r] > 0)) continue;
        t->roles[r].calls++;
        note(&t->roles[r].seconds, in_seconds(p->worked[r]));
    }
    if (over->times == 0) return;
    assert(p->end == END_CALLED);
    x->calls++;
    x->cured += over->end == END_CURED;
    x->nobody += over->end == END_CALLED;
    x->stopped += over->end == END_STOPPED;
    note(&x->before, in_seconds(p->working));
    note(&x->after, in_seconds(over->minutes));
    note(&x->both, in_seconds(p->working + over->minutes));
    note(&x->waited, in_seconds(over->times * (p->minutes - p->working)));
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
    note(&w->place_changes, p->place_changes);
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
    t->n.calls++;
    note_kind(&t->n.kinds[kind_of_size[truth->size]], own);
    if (own->ranked) note_bin(t, &own->first);
    if (own->ranked) note_set(&t->n.sets, &own->first);
    if (own->ranked) note_perfect(t, truth->number, &own->first);
    note_pair(&t->n.over_clairvoyant, own, ways[WAY_CLAIRVOYANT]);
    note_pair(&t->n.known_over_clairvoyant, ways[WAY_ALL_KNOWN], ways[WAY_CLAIRVOYANT]);
    note_ceiling(&t->n.ceiling, own, ways[WAY_ALL_KNOWN]);
    note_over(t, own);
    if (own->ranked && truth->size < 2) note_truth(t, keep, truth, &own->first);
    for (int w = 0; w < WAY_COUNT; w++)
        if (ways[w] != NULL) note_way(&t->n.ways[w], ways[w], own);
}

/* ---- what other numbers would do ---- */

void tally_take_numbers(tally *t, arena *keep, uint32_t numbers)
{
    assert(t->n.calls == 0 && t->moved == NULL);
    t->moved_count = numbers * DIRECTIONS;
    t->moved = ARENA_ARRAY(keep, moments, t->moved_count);
}

/* The mean of ratio - 1 is 0, so any number may be taken from the minutes: the nearer it is to
 * their mean, the less is left to luck. */
void tally_numbers(tally *t, const sensitivity *s, const made_call *truth, const played *own)
{
    const double middle = 60 * s->prog->book->call_minutes / 2,
                 off = (double)in_seconds(own->minutes) - middle;
    assert(t->moved_count == s->count * DIRECTIONS);
    for (uint32_t i = 0; i < s->count; i++)
        for (int d = 0; d < DIRECTIONS; d++) {
            const double ratio = sensitivity_ratio(s, i, d, truth, own);
            note(&t->moved[i * DIRECTIONS + (uint32_t)d], llround((ratio - 1) * off * MOVED_UNITS));
        }
}

/* ---- together ---- */

_Static_assert(sizeof(counts) % sizeof(uint64_t) == 0, "counts are words of 64 bits");

/* Signed sums too: modulo 2^64 it is the same addition. */
void add_words(void *into, const void *more, size_t size)
{
    if (size == 0) return;
    unsigned char *at = into;
    const unsigned char *from = more;
    assert(size % sizeof(uint64_t) == 0);
    for (size_t i = 0; i < size; i += sizeof(uint64_t)) {
        uint64_t a, b;
        memcpy(&a, at + i, sizeof a);
        memcpy(&b, from + i, sizeof b);
        a += b;
        memcpy(at + i, &a, sizeof a);
    }
}

void tally_add(tally *into, arena *keep, const tally *more)
{
    assert(into->cause_count == more->cause_count && into->role_count == more->role_count);
    assert(into->seed == more->seed && into->moved_count == more->moved_count);
    add_words(into->moved, more->moved, into->moved_count * sizeof *into->moved);
    add_words(&into->n, &more->n, sizeof into->n);
    add_words(into->roles, more->roles, into->role_count * sizeof *into->roles);
    add_words(into->calls_of, more->calls_of, (into->cause_count + 1) * sizeof *into->calls_of);
    for (uint32_t i = 0; i < more->mistake_count; i++)
        tally_add_mistake(into, keep, more->mistakes[i]);
}
