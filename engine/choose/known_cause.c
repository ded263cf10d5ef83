/* A choice of one cause made out of one of many. */
#include "choose/known_cause.h"

#include <assert.h>
#include <math.h>

#include "base/sorted.h"
#include "choose/call_out.h"
#include "choose/course_value.h"

struct known_causes {
    arena *scratch;
    const fix_course *own;
    const uint32_t *cure_start, *cure_fixes; /* of all fixes, open or not */
    uint32_t *place; /* [fix] in the list, of those that are in it; others: NO_FIX */
    uint32_t *list;  /* the fixes that count, rising */
    uint32_t count;
    uint32_t *set_ups; /* [set-up] its number among those of the list */
};

known_causes *known_causes_of(arena *scratch, const fix_course *own)
{
    const choice_input *in = own->in;
    known_causes *k = ARENA_NEW(scratch, known_causes);
    *k = (known_causes){.scratch = scratch, .own = own};
    fixes_by_cause(scratch, in, NULL, &k->cure_start, &k->cure_fixes);
    k->list = ARENA_ARRAY(scratch, uint32_t, in->fix_count);
    k->place = ARENA_ARRAY(scratch, uint32_t, in->fix_count);
    for (uint32_t f = 0; f < in->fix_count; f++) k->place[f] = NO_FIX;
    k->set_ups = ARENA_ARRAY(scratch, uint32_t, (size_t)fixes_set_up_most(in) + 1);
    return k;
}

/* ---- the fixes that count ---- */

static void add(known_causes *k, uint32_t f)
{
    if (k->place[f] != NO_FIX) return;
    k->place[f] = k->count;
    k->list[k->count++] = f;
}

static void list_fixes(known_causes *k, uint32_t cause)
{
    const fix_option *fixes = k->own->in->fixes;
    k->count = 0;
    for (uint32_t i = k->cure_start[cause]; i < k->cure_start[cause + 1]; i++)
        add(k, k->cure_fixes[i]);
    for (uint32_t next = 0; next < k->count; next++) {
        const fix_option *fix = &fixes[k->list[next]];
        for (uint32_t i = 0; i < fix->after_count; i++) add(k, fix->after[i]);
    }
    SORT(k->list, k->count, by_rising_id);
    for (uint32_t i = 0; i < k->count; i++) k->place[k->list[i]] = i;
}

static void forget_fixes(known_causes *k)
{
    for (uint32_t i = 0; i < k->count; i++) {
        k->place[k->list[i]] = NO_FIX;
        k->set_ups[k->own->in->fixes[k->list[i]].set_up] = 0;
    }
}

/* ---- the choice of one cause ---- */

static void keep_cure(known_causes *k, uint32_t cause, fix_option *fix)
{
    const net_rate *all = fix->cures;
    uint32_t at;
    SORTED_PLACE(at, fix->cure_count, i, all[i].cause < cause);
    fix->cure_count = at < fix->cure_count && all[at].cause == cause;
    net_rate *own = ARENA_ARRAY(k->scratch, net_rate, fix->cure_count);
    if (fix->cure_count > 0) *own = (net_rate){.cause = 0, .chance = all[at].chance};
    fix->cures = own;
}

static const fix_option *fixes_of(known_causes *k, uint32_t cause)
{
    fix_option *all = ARENA_ARRAY(k->scratch, fix_option, k->count);
    uint32_t set_ups = 0;
    for (uint32_t i = 0; i < k->count; i++) {
        all[i] = k->own->in->fixes[k->list[i]];
        keep_cure(k, cause, &all[i]);
        uint32_t *set_up = &k->set_ups[all[i].set_up];
        if (all[i].set_up != NO_SET_UP && *set_up == 0) *set_up = ++set_ups;
        all[i].set_up = *set_up;
        uint32_t *after = ARENA_ARRAY(k->scratch, uint32_t, all[i].after_count);
        for (uint32_t a = 0; a < all[i].after_count; a++) after[a] = k->place[all[i].after[a]];
        all[i].after = after;
    }
    return all;
}

static const callee *callees_of(known_causes *k)
{
    const choice_input *in = k->own->in;
    callee *all = ARENA_ARRAY(k->scratch, callee, in->callee_count);
    for (uint32_t c = 0; c < in->callee_count; c++) {
        bool *open = ARENA_ARRAY(k->scratch, bool, k->count);
        for (uint32_t i = 0; i < k->count; i++) open[i] = in->callees[c].open[k->list[i]];
        all[c] = in->callees[c];
        all[c].open = open;
    }
    return all;
}

static choice_input choice_of(known_causes *k, uint32_t cause)
{
    choice_input in = *k->own->in;
    in.cause_count = 1;
    in.fixes = fixes_of(k, cause);
    in.fix_count = k->count;
    in.callees = callees_of(k);
    in.question_count = in.again_count = 0;
    return in;
}

/* What plans cost does not depend on what is known; those of this cause are taken over. */
static void take_over_plans(known_causes *k, uint32_t cause, fix_course *run)
{
    const call_plans *from = &k->own->calls->plans;
    call_plans *plans = &run->calls->plans;
    *plans = *from;
    plans->minutes = ARENA_ARRAY(k->scratch, const double *, from->count);
    for (uint32_t i = 0; i < from->count; i++) {
        double *minutes = ARENA_ARRAY(k->scratch, double, 2);
        minutes[0] = from->minutes[i][0];
        minutes[1] = from->minutes[i][1 + cause];
        plans->minutes[i] = minutes;
    }
}

double known_cause_saves(known_causes *k, uint32_t cause)
{
    static const double known[] = {0, 1};
    assert(cause < k->own->in->cause_count);
    if (k->own->cure_start[cause] == k->own->cure_start[cause + 1]) return 0;
    const arena_mark before = arena_here(k->scratch);
    list_fixes(k, cause);
    const choice_input in = choice_of(k, cause);
    fix_course *run = fix_course_new(k->scratch, &in);
    take_over_plans(k, cause, run);
    run->here = k->own->here;
    const double fixing = fix_course_value(run, known, (fix_pair){NO_FIX, NO_FIX}, 0);
    fix_course_begin(run, NULL, known);
    const double calling = call_value(run, known, 1, 0, INFINITY);
    arena_back_to(k->scratch, before);
    forget_fixes(k);
    return calling - fixing;
}
