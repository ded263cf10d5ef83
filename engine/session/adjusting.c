/* Fixes that change a setting step by step. The state is replayed from the events like everything
 * else of a case, so undo is exact. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "session/session.h"

static const adjustment *adjustment_of(const tt_case *c, uint32_t fix)
{
    assert(fix < c->book->book->fix_count);
    return &c->book->book->fixes[fix].adjust;
}

/* ---- the setting ---- */

static bool known_reading(const tt_case *c, uint32_t question, double *number)
{
    const reply *r = c->now.replies[question];
    if (r == NULL || c->now.stale[question] || r->kind != REPLY_READING) return false;
    *number = r->number;
    return true;
}

/* Differences below this are rounding: far finer than anybody reads a gauge. */
static double hair(const adjustment *a)
{
    return 1e-9 * fmax(fabs(a->step), fmax(fabs(a->low), fabs(a->high)));
}

/* The last step is shortened to the limit, if something of it is left. */
bool adjust_next(const adjustment *a, double at, uint32_t steps, double *next)
{
    assert(a->reading != NO_ID && a->low <= a->high);
    if (steps >= a->at_most || at < a->low - hair(a) || at > a->high + hair(a)) return false;
    *next = fmin(fmax(at + a->step, a->low), a->high);
    return fabs(*next - at) > hair(a);
}

bool adjust_from(const tt_case *c, uint32_t fix, double *from)
{
    if (c->now.adjust.fix != fix) return known_reading(c, adjustment_of(c, fix)->reading, from);
    *from = c->now.adjust.at;
    return true;
}

bool adjust_found(const tt_case *c, uint32_t question, double *found)
{
    if (c->now.settings == NULL || !c->now.settings[question].changed) return false;
    *found = c->now.settings[question].found;
    return true;
}

static void set_to(tt_case *c, uint32_t question, double number)
{
    assert(isfinite(number));
    reply *set = ARENA_NEW(c->derived, reply);
    *set = (reply){
        .kind = REPLY_READING, .question = question, .at = span_nowhere(), .number = number};
    c->now.replies[question] = set;
    c->now.cannot[question] = c->now.stale[question] = c->now.of_site[question] = false;
    c->now.settings[question].by_fix = true;
    c->now.adjust.at = number;
}

/* ---- evidence ---- */

const reply *adjust_evidence(const tt_case *c, uint32_t question)
{
    if (c->now.reckoned[question]) return c->now.reckoned_evidence[question];
    return adjust_holds(c, question) ? c->now.adjust.replies[question] : c->now.replies[question];
}

static void hold(tt_case *c, uint32_t question)
{
    adjusting *a = &c->now.adjust;
    a->held[question] = true;
    a->replies[question] = c->now.replies[question];
    a->cannot[question] = c->now.cannot[question];
    a->stale[question] = c->now.stale[question];
    a->of_site[question] = c->now.of_site[question];
}

static void let_go(tt_case *c, uint32_t question)
{
    const adjusting *a = &c->now.adjust;
    c->now.replies[question] = a->replies[question];
    c->now.cannot[question] = a->cannot[question];
    c->now.stale[question] = a->stale[question];
    c->now.of_site[question] = a->of_site[question];
}

/* What is said of danger is about now, not about a setting: it counts at once, and putting the
 * setting back brings no danger back that was ruled out meanwhile. */
static void hold_unless_danger(tt_case *c, uint32_t question)
{
    if (!c->book->book->questions[question].gate) hold(c, question);
}

/* ---- steps ---- */

static void begin(tt_case *c, uint32_t fix)
{
    const struct fix *f = &c->book->book->fixes[fix];
    uint32_t questions = c->book->book->question_count, reading = f->adjust.reading;
    adjusting *a = &c->now.adjust;
    *a = (adjusting){.fix = fix,
                     .held = ARENA_ARRAY(c->derived, bool, questions),
                     .replies = ARENA_ARRAY(c->derived, const reply *, questions),
                     .cannot = ARENA_ARRAY(c->derived, bool, questions),
                     .stale = ARENA_ARRAY(c->derived, bool, questions),
                     .of_site = ARENA_ARRAY(c->derived, bool, questions)};
    bool known = known_reading(c, reading, &a->at);
    assert(known);
    (void)known;
    hold(c, reading);
    for (uint32_t i = 0; i < f->look_again.count; i++)
        hold_unless_danger(c, f->look_again.items[i]);
    c->now.settings[reading] = (setting){.changed = true, .found = a->at};
}

static void make_stale(tt_case *c, const struct fix *f)
{
    for (uint32_t i = 0; i < f->look_again.count; i++) {
        uint32_t q = f->look_again.items[i];
        if (q == f->adjust.reading) continue;
        if (c->now.replies[q] != NULL) c->now.stale[q] = true;
        sitting_look_again(c, q);
    }
}

static void take_step(tt_case *c, const struct fix *f, tt_outcome outcome)
{
    adjusting *a = &c->now.adjust;
    double next;
    bool left = adjust_next(&f->adjust, a->at, a->steps, &next);
    assert(left);
    (void)left;
    a->steps++;
    set_to(c, f->adjust.reading, next);
    if (outcome == TT_BETTER) make_stale(c, f);
    if (outcome == TT_GONE) a->fix = NO_ID;
}

bool adjust_step(tt_case *c, const event *e)
{
    const struct fix *f = &c->book->book->fixes[e->subject];
    adjusting *a = &c->now.adjust;
    if (f->adjust.reading == NO_ID) return false;
    if (a->fix == NO_ID && e->outcome == TT_COULD_NOT) return false;
    if (a->fix == NO_ID) begin(c, e->subject);
    assert(a->fix == e->subject);
    if (a->put_back_due) {
        a->stuck = true;
        return true;
    }
    a->outcome = e->outcome;
    if (e->outcome != TT_COULD_NOT) take_step(c, f, e->outcome);
    if (e->outcome == TT_GONE) return false;
    double next;
    a->put_back_due = e->outcome != TT_BETTER || !adjust_next(&f->adjust, a->at, a->steps, &next);
    return true;
}

bool case_adjusts(const tt_case *c, uint32_t fix)
{
    return c->book->book->fixes[fix].adjust.reading != NO_ID;
}

/* Everything held is again as it was found: answers given in between were about another setting. A
 * sequence that was broken off tells nothing about its causes, since its cure rates are those of
 * the whole. */
tt_outcome adjust_put_back(tt_case *c)
{
    adjusting *a = &c->now.adjust;
    assert(a->fix != NO_ID && a->put_back_due);
    for (uint32_t q = 0; q < c->book->book->question_count; q++)
        if (a->held[q]) let_go(c, q);
    c->now.settings[adjustment_of(c, a->fix)->reading].by_fix = false;
    bool told = a->outcome == TT_COULD_NOT || a->outcome == TT_WORSE;
    tt_outcome outcome = told ? a->outcome : TT_NO_CHANGE;
    *a = (adjusting){.fix = NO_ID};
    return outcome;
}

/* Somebody read the setting again: that is where the next step starts. */
void adjust_answered(tt_case *c, uint32_t question)
{
    adjusting *a = &c->now.adjust;
    c->now.settings[question].by_fix = false;
    if (a->fix == NO_ID || adjustment_of(c, a->fix)->reading != question ||
        !known_reading(c, question, &a->at))
        return;
    double next;
    a->put_back_due |= !adjust_next(adjustment_of(c, a->fix), a->at, a->steps, &next);
}

/* ---- what may be done ---- */

bool adjust_allows(tt_case *c, uint32_t fix, tt_outcome outcome)
{
    const adjusting *a = &c->now.adjust;
    double from, next;
    if (a->fix != NO_ID)
        return a->fix == fix && (!a->put_back_due || (outcome == TT_COULD_NOT && !a->stuck));
    if (adjustment_of(c, fix)->reading == NO_ID || outcome == TT_COULD_NOT) return true;
    return adjust_from(c, fix, &from) && adjust_next(adjustment_of(c, fix), from, 0, &next);
}

uint32_t adjust_asks(tt_case *c, uint32_t fix)
{
    uint32_t reading = adjustment_of(c, fix)->reading;
    double number;
    if (reading == NO_ID || c->now.adjust.fix == fix || known_reading(c, reading, &number))
        return NO_ID;
    if (case_may_ask(c, reading)) return reading;
    uint32_t asks = c->book->prog->ask_atom[reading];
    if (!case_could_ask(c, reading) || case_truth(c, asks) != TRUTH_UNKNOWN) return NO_ID;
    justification why = wm_why(c->memory, c->derived, asks);
    for (uint32_t i = 0; i < why.finding_count; i++)
        if (case_asks_for(c, why.findings[i]) != NO_ID) return case_asks_for(c, why.findings[i]);
    return NO_ID;
}

uint32_t adjust_looks(const tt_case *c)
{
    assert(c->now.adjust.fix != NO_ID);
    const ids *again = &c->book->book->fixes[c->now.adjust.fix].look_again;
    for (uint32_t i = 0; i < again->count && !c->now.adjust.put_back_due; i++)
        if (case_may_ask(c, again->items[i])) return again->items[i];
    return NO_ID;
}

bool adjust_is_possible(tt_case *c, uint32_t fix)
{
    const adjustment *a = adjustment_of(c, fix);
    double from, next;
    if (a->reading == NO_ID || c->now.adjust.fix == fix) return true;
    if (adjust_from(c, fix, &from)) return adjust_next(a, from, 0, &next);
    return !case_may_do(c, fix) || adjust_asks(c, fix) != NO_ID; /* others may read more */
}
