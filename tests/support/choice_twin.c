#include "choice_twin.h"

#include <assert.h>
#include <math.h>

static double sum(const choice_input *in, const double *w)
{
    double total = 0;
    for (uint32_t h = 0; h <= in->cause_count; h++) total += w[h];
    return total;
}

static double cure_chance(const fix_option *f, uint32_t cause)
{
    for (uint32_t i = 0; i < f->cure_count; i++)
        if (f->cures[i].cause == cause) return f->cures[i].chance;
    return 0;
}

/* `theirs`: whose fixes; null: those of whoever asks. */
static uint32_t first_of(const choice_input *in, arena *scratch, const double *w, uint32_t failed,
                         const bool *theirs)
{
    assert(in->cause_count <= TWIN_CAUSES && in->fix_count <= TWIN_FIXES);
    fix_option fixes[TWIN_FIXES];
    ranked_fix order[TWIN_FIXES];
    choice_input now = *in;
    for (uint32_t f = 0; f < in->fix_count; f++) {
        fixes[f] = in->fixes[f];
        if (theirs != NULL) fixes[f].open = theirs[f];
        if (failed >> f & 1) fixes[f].open = false;
    }
    now.fixes = fixes;
    choose_order(&now, scratch, w, order);
    return in->fix_count > 0 && order[0].standing <= FIX_POSSIBLE ? order[0].fix : UINT32_MAX;
}

uint32_t twin_first(const choice_input *in, arena *scratch, const double *w, twin_course so_far)
{
    return first_of(in, scratch, w, so_far.failed, NULL);
}

static double way(const choice_input *in, uint32_t to)
{
    bool known = in->walk != NULL && in->here != NO_PLACE && to != NO_PLACE;
    return known ? in->walk[in->here * in->place_count + to] : 0;
}

/* The same for somebody who stands there now. */
static choice_input standing_at(const choice_input *in, uint32_t place)
{
    choice_input there = *in;
    if (place != NO_PLACE) there.here = place;
    return there;
}

double twin_cost(const choice_input *in, uint32_t f, const double *w)
{
    const fix_option *fix = &in->fixes[f];
    double needless = w[0];
    for (uint32_t c = 0; c < in->cause_count; c++)
        if (cure_chance(fix, c) <= 0) needless += w[1 + c];
    int level = (int)fix->level + (fix->cannot_undo ? 1 : 0);
    return (fix->minutes + way(in, fix->place)) * sum(in, w) + in->rules.price[level] * needless;
}

/* ---- two under one set-up ---- */

static bool is_after(const fix_option *fix, uint32_t first)
{
    for (uint32_t i = 0; i < fix->after_count; i++)
        if (fix->after[i] == first) return true;
    return false;
}

static bool still_waits(const choice_input *in, uint32_t g, uint32_t failed, const bool *theirs)
{
    for (uint32_t i = 0; i < in->fixes[g].after_count; i++) {
        const uint32_t first = in->fixes[g].after[i];
        const bool own = in->fixes[first].open && in->fixes[first].level < RISK_HIGH,
                   open = theirs != NULL ? theirs[first] : own;
        if (open && !(failed >> first & 1)) return true;
    }
    return false;
}

static bool joins(const choice_input *in, uint32_t f, uint32_t g, const double *w,
                  const double *left, uint32_t failed, const bool *theirs)
{
    const fix_option *first = &in->fixes[f], *fix = &in->fixes[g];
    const bool open = theirs != NULL ? theirs[g] : fix->open;
    const int level = (int)fix->level + (fix->cannot_undo ? 1 : 0) + (int)first->level +
                      (first->cannot_undo ? 1 : 0);
    double cured = 0;
    for (uint32_t c = 0; c < in->cause_count; c++) cured += left[1 + c] * cure_chance(fix, c);
    return open && !(failed >> g & 1) && g != f && first->set_up != NO_SET_UP &&
           fix->set_up == first->set_up && level == RISK_LOW && !is_after(fix, f) &&
           !still_waits(in, g, failed, theirs) && cured > 0 &&
           cured >= in->rules.worth_trying[RISK_LOW] * sum(in, w);
}

uint32_t twin_partner(const choice_input *in, arena *scratch, const double *w, uint32_t failed,
                      uint32_t f, const bool *theirs, uint32_t brought)
{
    double left[TWIN_CAUSES + 1];
    fix_option fixes[TWIN_FIXES];
    bool may[TWIN_FIXES];
    choice_input under = *in;
    twin_fail(in, f, w, left);
    if (sum(in, left) <= 0) return UINT32_MAX;
    for (uint32_t g = 0; g < in->fix_count; g++) {
        fixes[g] = in->fixes[g];
        fixes[g].set_up = NO_SET_UP;
        may[g] = (brought >> g & 1) && joins(in, f, g, w, left, failed | UINT32_C(1) << f, theirs);
        if (may[g])
            fixes[g].minutes =
                (fixes[g].minutes - fixes[g].set_up_minutes) * (sum(in, w) / sum(in, left));
    }
    under.fixes = fixes;
    if (in->walk != NULL && in->fixes[f].place != NO_PLACE) under.here = in->fixes[f].place;
    const uint32_t g = first_of(&under, scratch, left, failed | UINT32_C(1) << f, theirs);
    return g != UINT32_MAX && may[g] && fixes[g].minutes < in->fixes[g].minutes ? g : UINT32_MAX;
}

double twin_cost_under(const choice_input *in, uint32_t f, uint32_t g, const double *w)
{
    choice_input there = *in;
    if (in->walk != NULL && in->fixes[f].place != NO_PLACE) there.here = in->fixes[f].place;
    return twin_cost(&there, g, w) - in->fixes[g].set_up_minutes * sum(in, w);
}

void twin_fail(const choice_input *in, uint32_t f, const double *w, double *out)
{
    out[0] = w[0];
    for (uint32_t c = 0; c < in->cause_count; c++)
        out[1 + c] = w[1 + c] * (1 - cure_chance(&in->fixes[f], c));
}

void twin_answer(const choice_input *in, uint32_t q, uint32_t y, const double *w, double *out)
{
    const prediction *seen = in->questions[q].seen;
    out[0] = w[0] * seen->other[y];
    for (uint32_t c = 0; c < in->cause_count; c++) {
        const double *row = seen->base;
        for (uint32_t i = 0; i < seen->listed_count; i++)
            if (seen->listed[i] == c) row = &seen->rows[i * seen->states];
        out[1 + c] = w[1 + c] * row[y];
    }
}

/* ---- whoever may be called ---- */

/* A plan is decided on the weights it was made for, and paid on others. */
typedef struct twin_pair {
    double decided[TWIN_CAUSES + 1], paid[TWIN_CAUSES + 1];
} twin_pair;

typedef struct twin_minutes {
    double decided, paid;
} twin_minutes;

enum { NOBODY = 1000 };

static void copy(const choice_input *in, const double *w, double *out)
{
    for (uint32_t h = 0; h <= in->cause_count; h++) out[h] = w[h];
}

static twin_pair pair_of(const choice_input *in, const double *decided, const double *paid)
{
    twin_pair p;
    copy(in, decided, p.decided);
    copy(in, paid, p.paid);
    return p;
}

static twin_pair pair_after(const choice_input *in, uint32_t q, uint32_t y, const twin_pair *w)
{
    twin_pair p;
    twin_answer(in, q, y, w->decided, p.decided);
    twin_answer(in, q, y, w->paid, p.paid);
    return p;
}

static bool may_cure(const choice_input *in, const bool *open, uint32_t cause)
{
    for (uint32_t f = 0; f < in->fix_count; f++)
        for (uint32_t i = 0; i < in->fixes[f].cure_count; i++)
            if ((open != NULL ? open[f] : in->fixes[f].open && in->fixes[f].level < RISK_HIGH) &&
                in->fixes[f].cures[i].cause == cause)
                return true;
    return false;
}

/* Weight of the causes that this callee may cure, and neither whoever asks nor somebody below. */
static double share_of(const choice_input *in, uint32_t callee, const double *w)
{
    double share = 0;
    for (uint32_t c = 0; c < in->cause_count; c++) {
        bool theirs = may_cure(in, in->callees[callee].open, c) && !may_cure(in, NULL, c);
        for (uint32_t i = 0; i < in->callee_count; i++)
            if (in->callees[i].level < in->callees[callee].level)
                theirs &= !may_cure(in, in->callees[i].open, c);
        share += theirs ? w[1 + c] : 0;
    }
    return share;
}

/* The level of those who come, above `level`. */
static uint32_t who_comes(const choice_input *in, uint32_t level, const double *w)
{
    for (uint32_t i = 0; i < in->callee_count; i++) {
        double share = share_of(in, i, w);
        if (in->callees[i].level > level && share > 0 && share >= in->rules.likely * sum(in, w))
            return in->callees[i].level;
    }
    return NOBODY;
}

static bool anybody_may(const choice_input *in, uint32_t f)
{
    for (uint32_t i = 0; i < in->callee_count; i++)
        if (in->callees[i].open[f]) return true;
    return false;
}

/* Minutes that somebody needs who knows what is wrong, and may do all that one of the callees may.
 */
static double least_of(const choice_input *in, uint32_t cause)
{
    double left = 1, cheapest = in->rules.call_minutes;
    for (uint32_t f = 0; f < in->fix_count; f++) {
        const double chance = cure_chance(&in->fixes[f], cause);
        if (chance <= 0 || !anybody_may(in, f)) continue;
        left *= 1 - chance;
        cheapest = fmin(cheapest, (in->fixes[f].minutes - in->fixes[f].set_up_minutes) / chance);
    }
    return cheapest * (1 - left) + in->rules.call_minutes * left;
}

static double least_minutes(const choice_input *in, const double *w)
{
    double minutes = w[0] * in->rules.call_minutes;
    for (uint32_t c = 0; c < in->cause_count; c++) minutes += w[1 + c] * least_of(in, c);
    return minutes;
}

/* Fixes whose parts are brought, or that need none. */
static uint32_t brought_at(const choice_input *in, const double *w)
{
    uint32_t brought = 0;
    for (uint32_t f = 0; f < in->fix_count; f++) {
        double cured = 0;
        for (uint32_t c = 0; c < in->cause_count; c++)
            cured += w[1 + c] * cure_chance(&in->fixes[f], c);
        if (!in->fixes[f].needs_parts || cured >= in->rules.bring * sum(in, w))
            brought |= UINT32_C(1) << f;
    }
    return brought;
}

typedef struct caller {
    uint32_t level;
    bool sends;
} caller;

static caller who_asks(const choice_input *in)
{
    return (caller){0, in->sends};
}

static caller callee_k(const choice_input *in, uint32_t k)
{
    return (caller){in->callees[k].level, in->callees[k].sends};
}

static twin_minutes send_for(const choice_input *in, arena *scratch, caller by, uint32_t failed,
                             const twin_pair *w, uint32_t *who);

/* Callee k tries what comes first, and so on; or calls. */
static twin_minutes come(const choice_input *in, arena *scratch, uint32_t k, uint32_t failed,
                         const twin_pair *w, uint32_t brought)
{
    twin_minutes best = send_for(in, scratch, callee_k(in, k), failed, w, NULL);
    uint32_t f = first_of(in, scratch, w->decided, failed, in->callees[k].open);
    if (f == UINT32_MAX) return best;
    twin_pair left;
    twin_fail(in, f, w->decided, left.decided);
    twin_fail(in, f, w->paid, left.paid);
    failed |= UINT32_C(1) << f;
    const uint32_t g =
        twin_partner(in, scratch, w->decided, failed, f, in->callees[k].open, brought);
    twin_minutes rest;
    if (g == UINT32_MAX) {
        rest = come(in, scratch, k, failed, &left, brought);
    } else {
        twin_pair both;
        twin_fail(in, g, left.decided, both.decided);
        twin_fail(in, g, left.paid, both.paid);
        rest = come(in, scratch, k, failed | UINT32_C(1) << g, &both, brought);
        rest.decided += twin_cost_under(in, f, g, w->decided);
        rest.paid += twin_cost_under(in, f, g, w->paid);
        twin_minutes call = send_for(in, scratch, callee_k(in, k), failed, &left, NULL);
        if (call.decided <= rest.decided) rest = call;
    }
    double fetch = brought >> f & 1 ? 0 : in->rules.call_minutes;
    rest.decided += twin_cost(in, f, w->decided) + fetch * sum(in, w->decided);
    rest.paid += twin_cost(in, f, w->paid) + fetch * sum(in, w->paid);
    return rest.decided < best.decided ? rest : best;
}

static bool somebody_above(const choice_input *in, uint32_t level)
{
    return in->callee_count > 0 && in->callees[in->callee_count - 1].level > level;
}

static twin_minutes send_for(const choice_input *in, arena *scratch, caller by, uint32_t failed,
                             const twin_pair *w, uint32_t *who)
{
    const double call = in->rules.call_minutes;
    twin_minutes wait = {call * sum(in, w->decided), call * sum(in, w->paid)}, best = {INFINITY, 0};
    uint32_t comes = who_comes(in, by.level, w->decided);
    if (who != NULL) *who = UINT32_MAX;
    if (!by.sends && somebody_above(in, by.level))
        return (twin_minutes){wait.decided + least_minutes(in, w->decided),
                              wait.paid + least_minutes(in, w->paid)};
    if (comes == NOBODY) return wait;
    for (uint32_t k = 0; k < in->callee_count; k++) {
        if (in->callees[k].level != comes) continue;
        twin_minutes one = come(in, scratch, k, failed, w, brought_at(in, w->decided));
        if (one.decided < best.decided && who != NULL) *who = k;
        if (one.decided < best.decided) best = one;
    }
    return (twin_minutes){wait.decided + best.decided, wait.paid + best.paid};
}

/* ---- plans of those who come next ---- */

/* Everything of one's own fails that is worth trying. Returns it as bits. */
static uint32_t own_fails(const choice_input *in, arena *scratch, const twin_outlook *o, double *w)
{
    uint32_t failed = 0;
    choice_input own = *in;
    own.walk = o->walk;
    own.here = o->here;
    for (uint32_t f; (f = first_of(&own, scratch, w, failed, NULL)) != UINT32_MAX;) {
        twin_fail(in, f, w, w);
        failed |= UINT32_C(1) << f;
        own = standing_at(&own, in->fixes[f].place);
    }
    return failed;
}

static double plain_plan(const choice_input *in, arena *scratch, const twin_outlook *o,
                         const double *made_for, const double *w)
{
    twin_pair p = pair_of(in, made_for, w);
    uint32_t failed = own_fails(in, scratch, o, p.decided);
    if (who_comes(in, 0, p.decided) != in->callees[0].level) return INFINITY;
    return send_for(in, scratch, who_asks(in), failed, &p, NULL).paid;
}

typedef struct asking_plan {
    double start[TWIN_CAUSES + 1];
    uint32_t failed, brought, who;
} asking_plan;

static bool asking_plan_starts(const choice_input *in, arena *scratch, const twin_outlook *o,
                               asking_plan *p)
{
    copy(in, o->now, p->start);
    p->failed = own_fails(in, scratch, o, p->start);
    p->brought = brought_at(in, p->start);
    twin_pair w = pair_of(in, p->start, p->start);
    send_for(in, scratch, who_asks(in), p->failed, &w, &p->who);
    return who_comes(in, 0, p->start) == in->callees[0].level;
}

static double minutes_asked(const choice_input *in, uint32_t q)
{
    return fmax(.1, in->questions[q].minutes);
}

/* Minutes after waiting, on weights w. */
static double plan_asking(const choice_input *in, arena *scratch, const asking_plan *p, uint32_t q,
                          const double *w)
{
    twin_pair before = pair_of(in, p->start, w);
    double minutes = minutes_asked(in, q) * sum(in, w);
    for (uint32_t y = 0; y < in->questions[q].seen->states; y++) {
        twin_pair after = pair_after(in, q, y, &before);
        minutes += come(in, scratch, p->who, p->failed, &after, p->brought).paid;
    }
    return minutes;
}

static double plan_asking_twice(const choice_input *in, arena *scratch, const twin_outlook *o,
                                const asking_plan *p, uint32_t q, const double *w)
{
    twin_pair before = pair_of(in, p->start, w);
    double minutes = minutes_asked(in, q) * sum(in, w);
    for (uint32_t y = 0; y < in->questions[q].seen->states; y++) {
        twin_pair after = pair_after(in, q, y, &before);
        twin_minutes best = come(in, scratch, p->who, p->failed, &after, p->brought);
        for (uint32_t second = 0; second < in->question_count; second++) {
            if (second == q || !(o->listed >> second & 1)) continue;
            double decided = plan_asking(in, scratch, p, second, after.decided);
            if (decided < best.decided)
                best = (twin_minutes){decided, plan_asking(in, scratch, p, second, after.paid)};
        }
        minutes += best.paid;
    }
    return minutes;
}

static double best_plan(const choice_input *in, arena *scratch, const twin_outlook *o,
                        const double *w, int asks)
{
    double best = plain_plan(in, scratch, o, o->now, w), after[TWIN_CAUSES + 1];
    asking_plan p;
    bool starts = asking_plan_starts(in, scratch, o, &p);
    for (uint32_t q = 0; q < in->question_count; q++) {
        if (!(o->listed >> q & 1)) continue;
        for (uint32_t y = 0; y < in->questions[q].seen->states; y++) {
            twin_answer(in, q, y, o->now, after);
            best = fmin(best, plain_plan(in, scratch, o, after, w));
        }
        double wait = in->rules.call_minutes * sum(in, w);
        if (starts && asks >= 1) best = fmin(best, wait + plan_asking(in, scratch, &p, q, w));
        if (starts && asks >= 2)
            best = fmin(best, wait + plan_asking_twice(in, scratch, o, &p, q, w));
    }
    return best;
}

double twin_call(const choice_input *in, arena *scratch, const twin_outlook *o, const double *w,
                 uint32_t failed, int asks)
{
    twin_pair both = pair_of(in, w, w);
    choice_input far = *in; /* whoever is called comes from nobody knows where */
    far.walk = NULL;
    bool next = in->callee_count > 0 && in->sends && who_comes(in, 0, w) == in->callees[0].level;
    double planned = next ? best_plan(&far, scratch, o, w, asks) : INFINITY;
    return isfinite(planned) ? planned
                             : send_for(&far, scratch, who_asks(in), failed, &both, NULL).paid;
}

/* ---- whoever asks ---- */

double twin_fix_value(const choice_input *in, arena *scratch, const twin_outlook *o,
                      const double *w, twin_course so_far, int asks)
{
    double call = twin_call(in, scratch, o, w, so_far.failed, asks);
    uint32_t f = twin_first(in, scratch, w, so_far);
    if (f == UINT32_MAX) return call;
    double left[TWIN_CAUSES + 1];
    twin_fail(in, f, w, left);
    so_far.failed |= UINT32_C(1) << f;
    choice_input there = standing_at(in, in->fixes[f].place);
    const uint32_t g = twin_partner(in, scratch, w, so_far.failed, f, NULL, ~UINT32_C(0));
    if (g == UINT32_MAX)
        return fmin(call,
                    twin_cost(in, f, w) + twin_fix_value(&there, scratch, o, left, so_far, asks));
    const double between = twin_call(in, scratch, o, left, so_far.failed, asks);
    double both[TWIN_CAUSES + 1];
    twin_fail(in, g, left, both);
    so_far.failed |= UINT32_C(1) << g;
    there = standing_at(&there, in->fixes[g].place);
    const double after =
        twin_cost_under(in, f, g, w) + twin_fix_value(&there, scratch, o, both, so_far, asks);
    return fmin(call, twin_cost(in, f, w) + fmin(between, after));
}

double twin_value(const choice_input *in, arena *scratch, const twin_outlook *o, const double *w,
                  twin_course so_far, int ahead)
{
    double best = twin_fix_value(in, scratch, o, w, so_far, ahead);
    for (uint32_t q = 0; ahead > 0 && q < in->question_count; q++)
        if ((o->listed & ~so_far.asked) >> q & 1)
            best = fmin(best, twin_ask(in, scratch, o, w, q, so_far, ahead - 1));
    return best;
}

double twin_ask(const choice_input *in, arena *scratch, const twin_outlook *o, const double *w,
                uint32_t q, twin_course so_far, int ahead)
{
    const question_option *question = &in->questions[q];
    const double minutes = minutes_asked(in, q) + way(in, question->place);
    double after[TWIN_CAUSES + 1], value = minutes * sum(in, w);
    choice_input there = standing_at(in, question->place);
    so_far.asked |= UINT32_C(1) << q;
    for (uint32_t y = 0; y < in->questions[q].seen->states; y++) {
        twin_answer(in, q, y, w, after);
        value += twin_value(&there, scratch, o, after, so_far, ahead);
    }
    return value;
}
