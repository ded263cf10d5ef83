/* The case worked out again from its events: what each means, in their order, so that undo is
 * exact. */
#include <assert.h>

#include "base/grow.h"
#include "session/session.h"

/* Ids are of this book: whoever tells of a case was asked for them before. */
static bool is_of_book(const book *b, const event *e)
{
    switch (e->kind) {
    case EVENT_ANSWER:
    case EVENT_RETRACT:
    case EVENT_UNSETTLED_ANSWER:
    case EVENT_TREND:
    case EVENT_OLD:
        return e->subject < b->question_count;
    case EVENT_COMPLAINT:
    case EVENT_SOMEWHERE:
        return e->subject < b->symptom_count;
    case EVENT_OUTCOME:
        if (e->together) assert(e->with < b->fix_count && e->with != e->subject);
        return e->subject < b->fix_count;
    case EVENT_PUT_BACK:
    case EVENT_LEFT_SO:
    case EVENT_CAME_BACK:
    case EVENT_UNSETTLED_FIX:
        return e->subject < b->fix_count;
    case EVENT_NO_COMPLAINT:
    case EVENT_FOCUS:
    case EVENT_SITTING:
    case EVENT_RECHECK:
    case EVENT_DANGER:
        return true;
    }
    return false;
}

void case_changed(tt_case *c)
{
    c->stands = c->fresh = false;
}

void case_push(tt_case *c, event e)
{
    assert(is_of_book(c->book->book, &e));
    GROW(c->keep, c->events, c->event_count, c->event_room);
    e.who = c->speaker;
    c->events[c->event_count++] = e;
    case_changed(c);
}

void case_forget(tt_case *c)
{
    c->played = c->outcomes_weighed = 0;
    case_changed(c);
}

typedef struct telling {
    tt_case *c;
    event e;
} telling;

static tt_status push(void *context)
{
    const telling *t = context;
    case_push(t->c, t->e);
    return TT_OK;
}

tt_status case_tell(tt_case *c, event e)
{
    return guarded_case(c, push, &(telling){c, e});
}

/* ---- what a fix may have changed ---- */

typedef struct marking {
    bool *stale;
} marking;

static void mark_finding(void *context, uint32_t finding)
{
    ((marking *)context)->stale[finding] = true;
}

static bool lists_any(const struct symptom *s, const struct fix *f)
{
    for (uint32_t i = 0; i < s->shown_by_count; i++)
        for (uint32_t k = 0; k < f->cures_count; k++)
            if (s->shown_by[i].cause == f->cures[k].cause) return true;
    return false;
}

const bool *fix_findings(tt_case *c, uint32_t fix)
{
    const program *p = c->book->prog;
    bool *stale = ARENA_ARRAY(c->derived, bool, p->book->question_count);
    for (uint32_t s = 0; s < p->book->symptom_count; s++)
        if (lists_any(&p->book->symptoms[s], &p->book->fixes[fix]))
            expr_each_finding(p->evidence->in.symptoms[s].when, mark_finding, &(marking){stale});
    case_spread_stale(c, stale);
    return stale;
}

static void note_outcome(tt_case *c, uint32_t fix, uint32_t with, tt_outcome outcome)
{
    assert(fix < c->book->book->fix_count);
    if (c->now.tried[fix] && c->now.outcomes[fix] == TT_GONE)
        c->now.closed = false; /* what is told of it last counts */
    c->now.tried[fix] = true;
    c->now.outcomes[fix] = outcome;
    c->now.with[fix] = with;
}

/* What the fix may have changed; of two, what either may. */
static const bool *changed_by(tt_case *c, uint32_t fix, uint32_t with)
{
    const bool *one = fix_findings(c, fix);
    if (with == NO_ID) return one;
    bool *both = ARENA_ARRAY(c->derived, bool, c->book->book->question_count);
    const bool *two = fix_findings(c, with);
    for (uint32_t q = 0; q < c->book->book->question_count; q++) both[q] = one[q] || two[q];
    return both;
}

static void weigh_outcome(tt_case *c, uint32_t fix, uint32_t with, tt_outcome outcome,
                          const bool *stale)
{
    fix_outcome what = outcome == TT_GONE     ? OUTCOME_GONE
                       : outcome == TT_BETTER ? OUTCOME_BETTER
                                              : OUTCOME_SAME;
    const struct fix *fixes = c->book->book->fixes;
    uint32_t count = fixes[fix].cures_count;
    const net_rate *cures = c->book->prog->cures[fix];
    outcome_rates rates = outcome_rates_default;
    rates.done_wrongly = fixes[fix].done_wrongly;
    if (with != NO_ID) {
        cures = cures_together(c, fix, with, &count);
        rates.done_wrongly *= fixes[with].done_wrongly; /* both of them */
    }
    c->outcomes_weighed = 0; /* until both hold it */
    belief_outcome(c->now.single, cures, count, what, &rates, stale);
    if (c->now.pairs != NULL) belief_outcome(c->now.pairs, cures, count, what, &rates, stale);
    c->outcomes_weighed = c->now.playing + 1;
}

static void grow_stale(tt_case *c, const bool *stale)
{
    c->now.any_better = true;
    focus_keep(c);
    for (uint32_t q = 0; q < c->book->book->question_count; q++)
        if (stale[q] && c->now.replies[q] != NULL) {
            c->now.stale[q] = true;
            c->now.weights[q] = NULL;
            look_forget(c, q);
            sitting_look_again(c, q);
        }
}

/* The belief holds the outcomes that it was told of, as long as what came before them stands: each
 * is weighed once. Without the belief none is. */
static bool outcome_is_new(const tt_case *c)
{
    return c->now.weighs && c->now.playing >= c->outcomes_weighed;
}

/* What grows stale depends on it. */
static void learn_focus(tt_case *c)
{
    case_learn(c);
    focus_find(c);
}

/* `with`: the other of two that were done under one lockout, or NO_ID. They have one outcome, so
 * they are weighed as one fix that cures what either does. */
static void play_outcome(tt_case *c, uint32_t fix, uint32_t with, tt_outcome outcome)
{
    note_outcome(c, fix, with, outcome);
    if (with != NO_ID) note_outcome(c, with, fix, outcome);
    if (outcome == TT_COULD_NOT) return;
    if (outcome == TT_GONE) c->now.closed = true;
    const bool new_to_belief = outcome_is_new(c);
    if (new_to_belief)
        case_weigh(c);
    else if (outcome == TT_BETTER)
        learn_focus(c);
    const bool *stale = outcome == TT_BETTER ? changed_by(c, fix, with) : NULL;
    if (new_to_belief) weigh_outcome(c, fix, with, outcome, stale);
    if (stale != NULL) grow_stale(c, stale);
}

/* Complaints about one kind of equipment whose piece is said now. */
static void say_pieces(tt_case *c, const ids *pieces)
{
    const book *b = c->book->book;
    for (uint32_t s = 0; s < b->symptom_count; s++)
        for (uint32_t i = 0; c->now.somewhere[s] && i < pieces->count; i++)
            if (b->pieces[pieces->items[i]].kind == b->pieces[b->symptoms[s].of.piece].kind)
                c->now.somewhere[s] = false;
}

static void play_answer(tt_case *c, const event *e)
{
    assert(e->reply.question == e->subject);
    c->now.complained |= e->complaint || e->filed;
    if (!sitting_takes(c, e)) return;
    if (e->again && !look_again(c, e)) return;
    if (!e->again) look_first(c, e);
    c->now.unsettled_question[e->subject] = c->now.old[e->subject] = c->now.look_due[e->subject] =
        false;
    c->now.replies[e->subject] = &e->reply;
    c->now.cannot[e->subject] = e->cannot;
    c->now.stale[e->subject] = false;
    c->now.of_site[e->subject] = false;
    c->now.reckoned[e->subject] = c->now.trend_told[e->subject] = false;
    if (!adjust_holds(c, e->subject))
        c->now.weights[e->subject] = reply_weights(c->derived, c->book->prog, &e->reply);
    adjust_answered(c, e->subject);
    if (!e->about) return;
    focus_on(c, &e->pieces, true);
    say_pieces(c, &e->pieces);
}

/* What the site's file says holds until the case says otherwise. */
static void play_site_answer(tt_case *c, const site_answer *a)
{
    assert(a->given.question < c->book->book->question_count);
    uint32_t q = a->given.question;
    c->now.replies[q] = &a->given;
    if (!adjust_holds(c, q))
        c->now.weights[q] = reply_weights(c->derived, c->book->prog, &a->given);
    c->now.of_site[q] = true;
}

static const site_answer *answer_of_site(const book *b, uint32_t question)
{
    for (uint32_t i = 0; i < b->site_answer_count; i++)
        if (b->site_answers[i].given.question == question) return &b->site_answers[i];
    return NULL;
}

static void play_retraction(tt_case *c, uint32_t question)
{
    bool own = c->now.replies[question] != NULL && !c->now.of_site[question];
    const site_answer *before = own ? answer_of_site(c->book->book, question) : NULL;
    c->now.replies[question] = NULL;
    c->now.of_site[question] = false;
    c->now.cannot[question] = c->now.trend_told[question] = false;
    c->now.stale[question] = c->now.old[question] = c->now.unsettled_question[question] = false;
    if (!adjust_holds(c, question)) c->now.weights[question] = NULL;
    look_forget(c, question);
    c->now.settings[question].by_fix = false;
    if (before != NULL) play_site_answer(c, before);
}

/* All that its author wants to be looked at again, once more. */
static void want_looks(tt_case *c, uint32_t fix)
{
    const ids *again = &c->book->book->fixes[fix].look_again;
    for (uint32_t i = 0; i < again->count; i++) {
        c->now.look_due[again->items[i]] = true;
        sitting_look_again(c, again->items[i]);
    }
}

static void forget_putting_back(tt_case *c, uint32_t fix)
{
    c->now.restored[fix] = c->now.left_so[fix] = c->now.unsettled_fix[fix] = false;
}

static void play_report(tt_case *c, const event *e)
{
    const uint32_t with = e->together ? e->with : NO_ID;
    c->now.complained = true;
    forget_putting_back(c, e->subject);
    if (with != NO_ID) forget_putting_back(c, with);
    if (!adjust_step(c, e)) play_outcome(c, e->subject, with, e->outcome);
    bool steps_on = c->now.adjust.fix != NO_ID &&
                    e->outcome == TT_BETTER; /* it has its own way of looking again */
    if ((e->outcome != TT_BETTER || steps_on) && e->outcome != TT_WORSE) return;
    want_looks(c, e->subject);
    if (with != NO_ID) want_looks(c, with);
}

static void play_put_back(tt_case *c, uint32_t fix)
{
    c->now.unsettled_fix[fix] = false;
    if (case_adjusts(c, fix))
        play_outcome(c, fix, NO_ID, adjust_put_back(c));
    else
        c->now.restored[fix] = true;
    c->now.left_so[fix] = false;
}

static void play_leaving(tt_case *c, uint32_t fix)
{
    c->now.left_so[fix] = true;
    c->now.restored[fix] = c->now.unsettled_fix[fix] = false;
}

/* A cure that did not last is counted as none. */
static void play_coming_back(tt_case *c, uint32_t fix)
{
    assert(c->now.tried[fix] && c->now.outcomes[fix] == TT_GONE);
    const uint32_t with = c->now.with[fix];
    play_outcome(c, fix, with, TT_NO_CHANGE);
    c->now.outcomes[fix] = TT_GONE; /* it had helped: nothing is to be put back */
    if (with != NO_ID) c->now.outcomes[with] = TT_GONE;
}

static void play_complaint(tt_case *c, const event *e)
{
    c->now.complained = true;
    if (e->kind == EVENT_COMPLAINT) c->now.complaint = e->subject;
    if (e->kind == EVENT_SOMEWHERE) c->now.somewhere[e->subject] = true;
    if (e->kind != EVENT_FOCUS && !e->about) return;
    focus_on(c, &e->pieces, e->about);
    say_pieces(c, &e->pieces);
}

static void play_step(tt_case *c, const event *e)
{
    switch (e->kind) {
    case EVENT_ANSWER:
        play_answer(c, e);
        return;
    case EVENT_RETRACT:
        play_retraction(c, e->subject);
        return;
    case EVENT_COMPLAINT:
    case EVENT_SOMEWHERE:
    case EVENT_NO_COMPLAINT:
    case EVENT_FOCUS:
        play_complaint(c, e);
        return;
    case EVENT_OUTCOME:
        play_report(c, e);
        return;
    case EVENT_PUT_BACK:
        play_put_back(c, e->subject);
        return;
    case EVENT_LEFT_SO:
        play_leaving(c, e->subject);
        return;
    case EVENT_CAME_BACK:
        play_coming_back(c, e->subject);
        return;
    case EVENT_UNSETTLED_ANSWER:
        c->now.unsettled_question[e->subject] = true;
        return;
    case EVENT_UNSETTLED_FIX:
        c->now.unsettled_fix[e->subject] = true;
        return;
    case EVENT_OLD:
        c->now.old[e->subject] = c->now.replies[e->subject] != NULL && !c->now.of_site[e->subject];
        return;
    case EVENT_TREND:
        c->now.trends[e->subject] = e->trend;
        c->now.trend_told[e->subject] =
            c->now.replies[e->subject] != NULL && !c->now.of_site[e->subject];
        return;
    case EVENT_SITTING:
    case EVENT_RECHECK:
    case EVENT_DANGER:
        return;
    }
}

/* They are weighed once what was told is known. */
static void forget_beliefs(tt_case *c)
{
    void (*const forget)(belief *) =
        c->outcomes_weighed > 0 ? belief_forget_answers : belief_forget;
    forget(c->single);
    if (c->pairs != NULL) forget(c->pairs);
}

static void start_afresh(tt_case *c, bool weighs)
{
    const book *b = c->book->book;
    c->played = 0;
    arena_back_to(c->derived, (arena_mark){NULL, 0});
    standing *now = &c->now;
    *now = (standing){.weighs = weighs, .complaint = NO_ID, .adjust = {.fix = NO_ID}};
    now->settings = ARENA_ARRAY(c->derived, setting, b->question_count);
    now->replies = ARENA_ARRAY(c->derived, const reply *, b->question_count);
    now->cannot = ARENA_ARRAY(c->derived, bool, b->question_count);
    now->reckoned = ARENA_ARRAY(c->derived, bool, b->question_count);
    now->reckoned_evidence = ARENA_ARRAY(c->derived, const reply *, b->question_count);
    now->undefined = ARENA_ARRAY(c->derived, formula_lack, b->question_count);
    now->of_site = ARENA_ARRAY(c->derived, bool, b->question_count);
    now->focus = ARENA_ARRAY(c->derived, bool, b->piece_count);
    now->in_focus = ARENA_ARRAY(c->derived, bool, b->piece_count);
    now->of_named_kind = ARENA_ARRAY(c->derived, bool, b->piece_count);
    now->stale = ARENA_ARRAY(c->derived, bool, b->question_count);
    now->weights = ARENA_ARRAY(c->derived, const double *, b->question_count);
    now->looks = ARENA_ARRAY(c->derived, looks, b->question_count);
    now->before = ARENA_ARRAY(c->derived, looks, b->question_count);
    now->last = ARENA_ARRAY(c->derived, sighting, b->question_count);
    now->saw_before = ARENA_ARRAY(c->derived, const char **, b->question_count);
    now->looked = ARENA_ARRAY(c->derived, unsigned, b->question_count);
    now->factor = ARENA_ARRAY(c->derived, double, b->cause_count);
    now->outcomes = ARENA_ARRAY(c->derived, tt_outcome, b->fix_count);
    now->with = ARENA_ARRAY(c->derived, uint32_t, b->fix_count);
    for (uint32_t f = 0; f < b->fix_count; f++) now->with[f] = NO_ID;
    now->tried = ARENA_ARRAY(c->derived, bool, b->fix_count);
    now->restored = ARENA_ARRAY(c->derived, bool, b->fix_count);
    now->left_so = ARENA_ARRAY(c->derived, bool, b->fix_count);
    now->unsettled_fix = ARENA_ARRAY(c->derived, bool, b->fix_count);
    now->unsettled_question = ARENA_ARRAY(c->derived, bool, b->question_count);
    now->trends = ARENA_ARRAY(c->derived, tt_trend, b->question_count);
    now->trend_told = ARENA_ARRAY(c->derived, bool, b->question_count);
    now->old = ARENA_ARRAY(c->derived, bool, b->question_count);
    now->look_due = ARENA_ARRAY(c->derived, bool, b->question_count);
    now->somewhere = ARENA_ARRAY(c->derived, bool, b->symptom_count);
    now->gate.unsafe = ARENA_ARRAY(c->derived, uint32_t, b->question_count);
    now->gate.ended = ARENA_ARRAY(c->derived, uint32_t, b->question_count);
    now->gate.mine = ARENA_ARRAY(c->derived, bool, b->question_count);
    now->gate.mine_ended = ARENA_ARRAY(c->derived, uint32_t, b->question_count);
    now->single = c->single;
    now->pairs = c->pairs;
    now->net = c->book->prog->evidence;
    belief_see_net(c->single, now->net);
    if (c->pairs != NULL) belief_see_net(c->pairs, now->net);
    forget_beliefs(c);
    for (uint32_t i = 0; i < b->site_answer_count; i++) play_site_answer(c, &b->site_answers[i]);
}

static const double two_faults_worth_showing = 0.3;

/* Pairs are shown, and planned with, once two faults are likely or something helped without ending
 * the complaint. */
static void choose_weights(tt_case *c)
{
    standing *now = &c->now;
    now->pairs_matter = now->pairs != NULL && (now->any_better || belief_two_faults(now->pairs) >=
                                                                      two_faults_worth_showing);
    double *planning = ARENA_ARRAY(c->derived, double, c->book->book->cause_count + 1);
    belief_projected(now->pairs_matter ? now->pairs : now->single, planning);
    assert(planning[0] >= 0);
    now->planning = planning;
}

static void mark_skips(tt_case *c)
{
    const book *b = c->book->book;
    c->now.skip_questions = ARENA_ARRAY(c->derived, bool, b->question_count);
    c->now.skip_fixes = ARENA_ARRAY(c->derived, bool, b->fix_count);
    for (uint32_t r = 0; r < b->rule_count; r++) {
        if (case_truth(c, c->book->prog->rule_atom[r]) != TRUTH_TRUE) continue;
        for (uint32_t i = 0; i < b->rules[r].skip_questions.count; i++)
            c->now.skip_questions[b->rules[r].skip_questions.items[i]] = true;
        for (uint32_t i = 0; i < b->rules[r].skip_fixes.count; i++)
            c->now.skip_fixes[b->rules[r].skip_fixes.items[i]] = true;
        for (uint32_t i = 0; i < b->rules[r].holds.count; i++) /* its caution stands */
            c->now.skip_fixes[b->rules[r].holds.items[i]] = true;
    }
}

/* From event `from` on. If memory ends meanwhile, all is played anew the next time. */
static void play_events(tt_case *c, uint32_t from)
{
    assert(from <= c->event_count && c->outcomes_weighed <= c->event_count);
    c->played = 0;
    for (uint32_t i = from; i < c->event_count; i++) {
        c->now.playing = i;
        play_step(c, &c->events[i]);
        sitting_play(c, &c->events[i]);
    }
}

/* What was told since is played on top of what is known, which is the same as all of it anew; after
 * so many times it is anew, for what was laid out meanwhile stays until then. */
void case_stand_unweighed(tt_case *c)
{
    enum { TIMES_ON_TOP = 64 };
    const bool on_top = c->played > 0 && c->on_top < TIMES_ON_TOP;
    c->on_top = on_top ? c->on_top + 1 : 0;
    if (!on_top) start_afresh(c, false);
    play_events(c, on_top ? c->played : 0);
    case_learn(c);
    mark_skips(c);
    case_changed(c);
    c->played = c->event_count;
}

void case_stand(tt_case *c)
{
    start_afresh(c, true);
    play_events(c, 0);
    case_weigh(c);
    mark_skips(c);
    choose_weights(c);
    assert(!c->now.pairs_matter || c->now.pairs != NULL);
    assert(c->now.adjust.fix == NO_ID || c->now.adjust.held != NULL);
}
