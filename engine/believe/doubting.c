/* What answers say without some of them. */
#include "believe/doubting.h"

#include <assert.h>
#include <math.h>
#include <string.h>

bool doubting_is_seen(const belief *b, const evidence *seen, uint32_t finding)
{
    sighting one;
    return b->n->component_of[finding] != NO_COMPONENT &&
           looks_at(b->n, seen, finding, &one).count > 0;
}

doubting doubting_of(const belief *single, arena *scratch, const evidence *seen)
{
    const uint32_t findings = single->n->in.finding_count;
    doubting d = {.b = single, .scratch = scratch};
    d.weights = ARENA_ARRAY(scratch, const double *, findings);
    memcpy(d.weights, seen->weights, findings * sizeof *d.weights);
    d.looks = ARENA_ARRAY(scratch, looks, findings);
    if (seen->looks != NULL) memcpy(d.looks, seen->looks, findings * sizeof *d.looks);
    d.left = (evidence){.weights = d.weights, .looks = d.looks, .person = seen->person};
    d.says = ARENA_ARRAY(scratch, double, (size_t)single->causes + 1);
    return d;
}

static group_says say_group(const doubting *d, const joined *j)
{
    const joined_says s = joined_weigh(d->scratch, d->b->n, NULL, j, &d->left, UINT32_MAX);
    group_says out = {.base = log(fmax(s.base, LIKELIHOOD_LEAST))};
    double *listed = ARENA_ARRAY(d->scratch, double, j->listed_count);
    out.other = log(fmax(s.other, LIKELIHOOD_LEAST)) - out.base;
    for (uint32_t i = 0; i < j->listed_count; i++)
        listed[i] = log(fmax(s.listed[i], LIKELIHOOD_LEAST)) - out.base;
    out.listed = listed;
    return out;
}

/* Is every answer there that this group had with all of them? Then it says the same. */
static const group_says *says_as_before(const doubting *d, const joined *j)
{
    if (d->of_whole == NULL) return NULL;
    const uint32_t i = d->group_of[j->components[0]] - 1;
    const joined *w = &d->whole.groups[i];
    assert(i < d->whole.count);
    return w->count == j->count && d->untouched[i] ? &d->of_whole[i] : NULL;
}

void doubting_weigh_left(doubting *d)
{
    const net *n = d->b->n;
    const arena_mark mark = arena_here(d->scratch);
    const joining all = joining_of(d->scratch, n, &d->left);
    double base = 0;
    for (uint32_t h = 0; h <= d->b->causes; h++) d->says[h] = 0;
    for (uint32_t i = 0; i < all.count; i++) {
        const joined *j = &all.groups[i];
        const group_says *before = says_as_before(d, j);
        const group_says s = before != NULL ? *before : say_group(d, j);
        base += s.base;
        d->says[0] += s.other;
        for (uint32_t k = 0; k < j->listed_count; k++) d->says[1 + j->listed[k]] += s.listed[k];
    }
    for (uint32_t h = 0; h <= d->b->causes; h++) d->says[h] += base;
    arena_back_to(d->scratch, mark);
}

static void keep_listings(doubting *d)
{
    const joining *all = &d->whole;
    const uint32_t causes = d->b->causes;
    uint32_t *from = ARENA_ARRAY(d->scratch, uint32_t, (size_t)causes + 2);
    for (uint32_t i = 0; i < all->count; i++)
        for (uint32_t k = 0; k < all->groups[i].listed_count; k++)
            from[all->groups[i].listed[k] + 2]++;
    for (uint32_t c = 0; c < causes; c++) from[c + 2] += from[c + 1];
    d->listings = ARENA_ARRAY(d->scratch, listing, from[causes + 1]);
    for (uint32_t i = 0; i < all->count; i++)
        for (uint32_t k = 0; k < all->groups[i].listed_count; k++)
            d->listings[from[all->groups[i].listed[k] + 1]++] = (listing){i, k};
    d->listings_from = from;
}

/* As the groups are added up in weigh_left, one by one and in the same order. */
static void keep_sums(doubting *d)
{
    d->sums = ARENA_ARRAY(d->scratch, double, (size_t)d->b->causes + 1);
    for (uint32_t i = 0; i < d->whole.count; i++) {
        const joined *j = &d->whole.groups[i];
        for (uint32_t k = 0; k < j->listed_count; k++)
            d->sums[1 + j->listed[k]] += d->of_whole[i].listed[k];
    }
}

static void keep_seen(doubting *d)
{
    const uint32_t findings = d->b->n->in.finding_count;
    d->seen = ARENA_ARRAY(d->scratch, uint32_t, findings);
    for (uint32_t f = 0; f < findings; f++)
        if (doubting_is_seen(d->b, &d->left, f)) d->seen[d->seen_count++] = f;
    d->like = ARENA_ARRAY(d->scratch, double *, (size_t)d->b->causes + 1);
}

void doubting_whole(doubting *d)
{
    d->whole = joining_of(d->scratch, d->b->n, &d->left);
    group_says *all = ARENA_ARRAY(d->scratch, group_says, d->whole.count);
    d->untouched = ARENA_ARRAY(d->scratch, bool, d->whole.count);
    d->group_of = ARENA_ARRAY(d->scratch, uint32_t, d->b->n->component_count);
    for (uint32_t i = 0; i < d->whole.count; i++) {
        const joined *j = &d->whole.groups[i];
        for (uint32_t k = 0; k < j->count; k++) d->group_of[j->components[k]] = i + 1;
        all[i] = say_group(d, &d->whole.groups[i]);
        d->untouched[i] = true;
    }
    d->of_whole = all;
    keep_listings(d);
    keep_sums(d);
    keep_seen(d);
}

void doubting_touch(doubting *d, uint32_t finding, bool there)
{
    const uint32_t group = d->group_of[d->b->n->component_of[finding]] - 1;
    assert(group < d->whole.count && (there ? d->touched_count > 0 : d->touched_count < 2));
    if (!there) d->touched[d->touched_count++] = group;
    if (there) d->touched_count--;
    d->untouched[group] = there;
}

/* ---- the same, of what is touched alone ---- */

/* By itself, whatever is left out: then what is left of it is it, or nothing. */
static bool is_simple(const doubting *d, uint32_t group)
{
    return d->whole.groups[group].count == 1 && d->whole.groups[group].latent_count == 0;
}

static bool has_answers(const doubting *d, uint32_t group)
{
    const component *g = &d->b->n->components[d->whole.groups[group].components[0]];
    for (uint32_t i = 0; i < g->finding_count; i++)
        if (doubting_is_seen(d->b, &d->left, g->findings[i])) return true;
    return false;
}

static const group_says *left_of(const doubting *d, const touched_says *t, uint32_t group)
{
    for (uint32_t i = 0; i < d->touched_count; i++)
        if (d->touched[i] == group) return t->there[i] ? &t->says[i] : NULL;
    return &d->of_whole[group];
}

double doubting_sum(const doubting *d, const touched_says *t, uint32_t cause)
{
    double sum = 0;
    for (uint32_t i = d->listings_from[cause]; i < d->listings_from[cause + 1]; i++) {
        const group_says *s = left_of(d, t, d->listings[i].group);
        if (s != NULL) sum += s->listed[d->listings[i].place];
    }
    return sum;
}

double doubting_base(const doubting *d, const touched_says *t, double *other)
{
    double base = 0;
    *other = 0;
    for (uint32_t i = 0; i < d->whole.count; i++) {
        const group_says *s = d->untouched[i] ? &d->of_whole[i] : left_of(d, t, i);
        if (s == NULL) continue;
        base += s->base;
        *other += s->other;
    }
    return base;
}

static void add_whole(doubting *d, const touched_says *t)
{
    double other;
    const double base = doubting_base(d, t, &other);
    d->says[0] = other + base;
    for (uint32_t h = 1; h <= d->b->causes; h++) d->says[h] = d->sums[h] + base;
    for (uint32_t i = 0; i < d->touched_count; i++) {
        const joined *j = &d->whole.groups[d->touched[i]];
        for (uint32_t k = 0; k < j->listed_count; k++)
            d->says[1 + j->listed[k]] = doubting_sum(d, t, j->listed[k]) + base;
    }
}

bool doubting_touched(doubting *d, touched_says *t)
{
    for (uint32_t i = 0; i < d->touched_count; i++)
        if (!is_simple(d, d->touched[i])) return false;
    for (uint32_t i = 0; i < d->touched_count; i++) {
        t->there[i] = has_answers(d, d->touched[i]);
        if (t->there[i]) t->says[i] = say_group(d, &d->whole.groups[d->touched[i]]);
    }
    return true;
}

/* To the same bytes as weigh_left; false as above. */
static bool weigh_touched(doubting *d)
{
    const arena_mark mark = arena_here(d->scratch);
    touched_says t;
    if (!doubting_touched(d, &t)) return false;
    add_whole(d, &t);
    arena_back_to(d->scratch, mark);
    return true;
}

void doubting_weigh(doubting *d)
{
    if (!weigh_touched(d)) doubting_weigh_left(d);
}
