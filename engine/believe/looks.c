/* The chance of what was said at several looks, given what is so. */
#include "believe/looks.h"

#include <assert.h>
#include <math.h>

#include "compile/misread.h"

#define ANOTHER UINT32_MAX /* instance of whatever else one may read with */

/* Of what is read amiss, in the terms of ln(1 - chance): at least so much is read amiss afresh at
 * each look; and so much by the same person again, where nobody says with what it is read. */
#define FRESH_LEAST 0.05
#define SAME_PERSON 0.5
#define SLIP_MOST   (1 - 1e-6)

latent look_latent(const net *n, uint32_t source, const sighting *l)
{
    assert(source < n->in.source_count);
    const uint32_t usual = n->in.sources[source].own ? l->person : 0;
    return (latent){source, l->another ? ANOTHER : usual};
}

bool latents_equal(latent a, latent b)
{
    return a.source == b.source && a.instance == b.instance;
}

static bool says_something(const sighting *l, uint32_t states)
{
    double sum = 0;
    bool any = false;
    for (uint32_t a = 0; a < states; a++) {
        assert(l->weights[a] >= 0);
        sum += l->weights[a];
        any |= l->weights[a] != 1;
    }
    assert(sum > 0);
    return any;
}

static looks told(const evidence *seen, uint32_t finding, sighting *one)
{
    if (seen->weights[finding] == NULL) return (looks){NULL, 0};
    if (seen->looks != NULL && seen->looks[finding].count > 0) {
        const looks all = seen->looks[finding];
        const uint32_t left = all.count > LOOKS_MAX ? all.count - LOOKS_MAX : 0;
        return (looks){all.items + left, all.count - left};
    }
    *one = (sighting){.weights = seen->weights[finding]};
    return (looks){one, 1};
}

looks looks_at(const net *n, const evidence *seen, uint32_t finding, sighting *one)
{
    const looks all = told(seen, finding, one);
    for (uint32_t l = 0; l < all.count; l++)
        if (all.items[l].right || says_something(&all.items[l], n->in.findings[finding].states))
            return all;
    return (looks){NULL, 0};
}

/* ---- what may mislead ---- */

/* Something that makes every look it touches wrong: an instrument, a person, the moment. */
typedef struct mishap {
    latent of;       /* an instrument's; else a person's, where none is told */
    double wrong;    /* how often the instrument misleads; 0: this is none */
    uint32_t source; /* its place among those of the finding */
    bool fresh;      /* of one sighting */
    bool is_given, is_wrong;
    uint32_t touches; /* looks, as bits */
} mishap;

typedef struct mishaps {
    const net *n;
    uint32_t finding;
    const net_finding *f;
    looks all;
    mishap items[MISHAPS_MAX];
    uint32_t count;
} mishaps;

static void add_mishap(mishaps *m, mishap x, uint32_t look)
{
    for (uint32_t i = 0; i < m->count && !x.fresh; i++)
        if (!m->items[i].fresh && latents_equal(m->items[i].of, x.of)) {
            m->items[i].touches |= 1U << look;
            return;
        }
    assert(m->count < MISHAPS_MAX);
    x.touches = 1U << look;
    m->items[m->count++] = x;
}

static void find_given(mishap *x, const given_latents *given)
{
    for (uint32_t i = 0; given != NULL && i < given->count; i++)
        if (latents_equal(given->items[i], x->of)) {
            x->is_given = true;
            x->is_wrong = given->wrong >> i & 1;
        }
}

static mishaps mishaps_of(const net *n, uint32_t finding, looks all, const given_latents *given)
{
    mishaps m = {.n = n, .finding = finding, .f = &n->in.findings[finding], .all = all};
    assert(m.f->source_count <= SOURCES_MAX && all.count <= LOOKS_MAX);
    for (uint32_t l = 0; l < all.count; l++) {
        const sighting *x = &all.items[l];
        add_mishap(&m, (mishap){.fresh = true}, l);
        if (m.f->source_count == 0)
            add_mishap(&m, (mishap){.of = {0, x->another ? ANOTHER : x->person}}, l);
        for (uint32_t i = 0; i < m.f->source_count; i++) {
            const uint32_t source = m.f->sources[i];
            mishap one = {
                .of = look_latent(n, source, x), .wrong = n->in.sources[source].wrong, .source = i};
            find_given(&one, given);
            if (one.wrong > 0) add_mishap(&m, one, l);
        }
    }
    return m;
}

/* Each look by itself is read amiss as often as the author says, whatever misled it: an instrument
 * that misleads leaves (1 - wrong)^power of looks right. */
look_parting look_parting_with(const double *wrong, uint32_t count, double slip)
{
    const double all = -log1p(-fmin(slip, SLIP_MOST)), most = (1 - FRESH_LEAST) * all;
    look_parting p = {.fresh = 0};
    double shared = count == 0 ? SAME_PERSON * all : 0, power = 1;
    assert(count <= SOURCES_MAX && slip >= 0);
    if (count == 0) p.person = -expm1(-shared);
    for (uint32_t i = 0; i < count; i++) shared -= log1p(-wrong[i]);
    if (shared > most) power = most / shared;
    for (uint32_t i = 0; i < count; i++)
        if (wrong[i] > 0) p.here[i] = fmin(1, -expm1(power * log1p(-wrong[i])) / wrong[i]);
    p.fresh = -expm1(-(all - fmin(shared, most)));
    return p;
}

look_parting look_parting_of(const net *n, uint32_t finding, double slip)
{
    const net_finding *f = &n->in.findings[finding];
    double wrong[SOURCES_MAX];
    assert(f->source_count <= SOURCES_MAX);
    for (uint32_t i = 0; i < f->source_count; i++) wrong[i] = n->in.sources[f->sources[i]].wrong;
    return look_parting_with(wrong, f->source_count, slip);
}

static double chance_of_mishap(const mishap *x, const look_parting *p)
{
    if (x->fresh) return p->fresh;
    if (x->wrong <= 0) return p->person;
    if (x->is_given) return x->is_wrong ? p->here[x->source] : 0;
    return x->wrong * p->here[x->source];
}

/* ---- what was said, if these happened ---- */

/* Looks that go wrong for the same reason say the same: sets of looks, as bits. */
static uint32_t wrong_together(const mishaps *m, uint32_t happened, uint32_t *sets)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < m->count; i++) {
        if ((happened >> i & 1) == 0) continue;
        uint32_t set = m->items[i].touches, kept = 0;
        for (uint32_t k = 0; k < count; k++)
            if ((sets[k] & set) != 0)
                set |= sets[k];
            else
                sets[kept++] = sets[k];
        sets[kept++] = set;
        count = kept;
    }
    return count;
}

/* One wrong answer, the same at all looks of the set. */
static double chance_of_same(const mishaps *m, const misreading *r, uint32_t state, uint32_t set)
{
    double sum = 0, slips = 0;
    for (uint32_t a = 0; a < m->f->states; a++) {
        if (a == state) continue;
        double said = misread_chance(r, a, state);
        slips += said;
        for (uint32_t l = 0; l < m->all.count; l++)
            if ((set >> l & 1) != 0) said *= m->all.items[l].weights[a];
        sum += said;
    }
    assert(slips > 0);
    return sum / slips;
}

static double chance_if(const mishaps *m, const misreading *r, uint32_t state, uint32_t happened)
{
    uint32_t sets[MISHAPS_MAX], wrong = 0;
    const uint32_t count = wrong_together(m, happened, sets);
    double chance = 1;
    for (uint32_t k = 0; k < count; k++) {
        chance *= chance_of_same(m, r, state, sets[k]);
        wrong |= sets[k];
    }
    for (uint32_t l = 0; l < m->all.count; l++)
        if ((wrong >> l & 1) == 0) chance *= m->all.items[l].weights[state];
    return chance;
}

/* Some look that is to be right would have been read amiss. */
static bool misleads_what_is_right(const mishaps *m, uint32_t happened)
{
    for (uint32_t i = 0; i < m->count; i++)
        for (uint32_t l = 0; l < m->all.count; l++)
            if ((happened >> i & 1) != 0 && (m->items[i].touches >> l & 1) != 0 &&
                m->all.items[l].right)
                return true;
    return false;
}

static double lambda_of(const mishaps *m, const misreading *r, uint32_t state)
{
    const double slip = 1 - misread_chance(r, state, state);
    if (!(slip > 0)) return chance_if(m, r, state, 0);
    const look_parting p = look_parting_of(m->n, m->finding, slip);
    double sum = 0;
    for (uint32_t happened = 0; happened < 1U << m->count; happened++) {
        if (misleads_what_is_right(m, happened)) continue;
        double chance = 1;
        for (uint32_t i = 0; i < m->count && chance > 0; i++) {
            const double its = chance_of_mishap(&m->items[i], &p);
            chance *= (happened >> i & 1) != 0 ? its : 1 - its;
        }
        if (chance > 0) sum += chance * chance_if(m, r, state, happened);
    }
    return sum;
}

static bool any_is_given(const mishaps *m)
{
    for (uint32_t i = 0; i < m->count; i++)
        if (m->items[i].is_given) return true;
    return false;
}

static void weigh_one(const misreading *r, const sighting *l, double *lambda)
{
    if (l->right)
        for (uint32_t v = 0; v < r->states; v++)
            lambda[v] = misread_chance(r, v, v) * l->weights[v];
    else
        misread_weights(r, l->weights, lambda);
}

void looks_lambda(const net *n, uint32_t finding, looks all, const given_latents *given,
                  double *lambda)
{
    const net_finding *f = &n->in.findings[finding];
    const misreading r = misreading_of(f);
    assert(all.count > 0 && f->states <= EXPR_STATES_MAX);
    const bool alone = all.count == 1;
    if (alone && (given == NULL || given->count == 0)) {
        weigh_one(&r, &all.items[0], lambda);
        return;
    }
    const mishaps m = mishaps_of(n, finding, all, given);
    if (alone && !any_is_given(&m))
        weigh_one(&r, &all.items[0], lambda);
    else
        for (uint32_t v = 0; v < f->states; v++) lambda[v] = lambda_of(&m, &r, v);
}

/* ---- for whoever learns how often they mislead ---- */

uint32_t looks_mishaps(const net *n, uint32_t finding, looks all, look_mishap *out)
{
    const mishaps m = mishaps_of(n, finding, all, NULL);
    for (uint32_t i = 0; i < m.count; i++) {
        const bool instrument = m.items[i].wrong > 0;
        out[i] = (look_mishap){instrument ? m.items[i].source : NO_SOURCE, m.items[i].fresh,
                               m.items[i].of};
    }
    return m.count;
}

void looks_said(const net *n, uint32_t finding, looks all, uint32_t state, double *out)
{
    const mishaps m = mishaps_of(n, finding, all, NULL);
    const misreading r = misreading_of(m.f);
    const bool amiss = misread_chance(&r, state, state) < 1;
    for (uint32_t happened = 0; happened < 1U << m.count; happened++)
        out[happened] = chance_if(&m, &r, state, amiss ? happened : 0);
}
