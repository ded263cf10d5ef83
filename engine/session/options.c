/* What can be asked and done now, as the balanced test weighs it. */
#include <assert.h>

#include "believe/untold.h"
#include "session/session.h"

/* ---- fixes ---- */

/* A reading that must be asked first takes its time too, and money is time that it could buy. */
static double minutes_of_fix(tt_case *c, uint32_t fix)
{
    uint32_t asked = adjust_asks(c, fix);
    return c->book->book->fixes[fix].minutes + fix_cost_in_minutes(c, fix) +
           (asked == NO_ID ? 0 : c->book->book->questions[asked].minutes);
}

static void add_fixes(tt_case *c, options *o)
{
    const book *b = c->book->book;
    fix_option *all = ARENA_ARRAY(c->derived, fix_option, b->fix_count);
    uint32_t *fix_of = ARENA_ARRAY(c->derived, uint32_t, b->fix_count);
    uint32_t count = 0;
    for (uint32_t f = 0; f < b->fix_count; f++) {
        if (!fix_is_possible(c, f)) continue;
        const struct fix *x = &b->fixes[f];
        bool open = !c->now.tried[f] && case_may_do(c, f) && !fix_waits(c, f);
        fix_of[count] = f;
        all[count++] = (fix_option){.name = x->id.name,
                                    .minutes = minutes_of_fix(c, f),
                                    .level = safety_risk(&x->harm, true),
                                    .cannot_undo = x->undo.kind == PUT_BACK_IMPOSSIBLE,
                                    .cures = c->book->prog->cures[f],
                                    .cure_count = x->cures_count,
                                    .open = open,
                                    .needs_parts = x->parts.count > 0,
                                    .place = x->place};
    }
    o->in.fixes = all;
    o->in.fix_count = count;
    o->fix_of = fix_of;
    options_sequence(c, o, all);
    options_set_ups(c, o, all);
}

/* ---- questions ---- */

/* Null: nobody would believe anything else for knowing it. */
static const prediction *fact_prediction(tt_case *c, uint32_t question)
{
    const facts_outlook *o = c->now.untold;
    const uint32_t causes = c->book->book->cause_count, variable = o->f->variable_of[question];
    if (variable == NO_VARIABLE || o->odds[variable] == NULL) return NULL;
    double *prior = ARENA_ARRAY(c->derived, double, causes);
    for (uint32_t i = 0; i < causes; i++)
        prior[i] = c->book->prog->evidence->in.weights[i] * c->now.factor[i];
    prediction *p = ARENA_NEW(c->derived, prediction);
    const evidence seen = case_evidence(c);
    *p = untold_predict(c->derived, o, question, prior);
    untold_after_answers(c->derived, o, c->now.net, &seen, question, prior, p);
    return p->listed_count == 0 ? NULL : p;
}

/* ---- all together ---- */

static prediction *prediction_made(tt_case *c, arena *keep, const evidence *seen, uint32_t question)
{
    prediction *p = ARENA_NEW(keep, prediction);
    const arena_mark before = arena_here(c->scratch);
    const prediction made = belief_predict(c->scratch, c->now.single, seen, question);
    *p = prediction_copy(keep, &made);
    arena_back_to(c->scratch, before);
    return p;
}

/* Most stand alone until they are answered, and are made once for all turns of the case. */
static const prediction *evidence_prediction(tt_case *c, const evidence *seen, uint32_t question)
{
    assert(c->book->prog->is_evidence[question]);
    if (!belief_predicts_alike(c->now.single, seen, question))
        return prediction_made(c, c->derived, seen, question);
    if (c->foreseen == NULL)
        c->foreseen = ARENA_ARRAY(c->keep, const prediction *, c->book->book->question_count);
    if (c->foreseen[question] != NULL) return c->foreseen[question];
    prediction *p = prediction_made(c, c->keep, seen, question);
    prediction_prepare(c->keep, p);
    return c->foreseen[question] = p;
}

/* A quantity is asked by way of the readings that are missing for it, with their minutes added. */
static bool quantity_asks(tt_case *c, uint32_t quantity, uint32_t *ask, double *minutes)
{
    ids open;
    if (!case_missing(c, quantity, &open)) return false;
    assert(open.count > 0);
    *ask = open.items[0];
    *minutes = 0;
    for (uint32_t i = 0; i < open.count; i++)
        *minutes += c->book->book->questions[open.items[i]].minutes;
    return true;
}

/* Who could not answer often will not answer the next one often either, so an answer costs more
 * questions than one. Chance that the next is answered: (answered + 2) / (asked + 2), as after two
 * answers given before. */
static double questions_per_answer(const tt_case *c)
{
    enum { BEFORE = 2 };
    uint32_t asked = 0, answered = 0;
    for (uint32_t q = 0; q < c->book->book->question_count; q++) {
        const reply *r = c->now.replies[q];
        if (r == NULL || c->now.of_site[q] || c->now.reckoned[q] ||
            c->book->book->questions[q].gate)
            continue;
        asked++;
        answered += r->kind != REPLY_UNSURE;
    }
    assert(answered <= asked);
    return (double)(asked + BEFORE) / (answered + BEFORE);
}

static void add_question(tt_case *c, options *o, const evidence *seen_so_far, uint32_t question)
{
    const struct question *q = &c->book->book->questions[question];
    if (q->gate || !case_could_ask(c, question)) return; /* the gate has its own turn */
    uint32_t ask = question;
    truth applies = case_truth(c, c->book->prog->ask_atom[question]);
    if (applies == TRUTH_UNKNOWN) ask = case_missing_fact(c, question);
    double minutes = q->minutes;
    if (q->kind == QUESTION_QUANTITY && !quantity_asks(c, question, &ask, &minutes)) return;
    if (applies == TRUTH_FALSE || ask == NO_ID) return;
    bool evidence =
        c->book->prog->is_evidence[question] && program_states(c->book->prog, question) > 1;
    const prediction *seen =
        evidence ? evidence_prediction(c, seen_so_far, question) : fact_prediction(c, question);
    if (seen == NULL) return;
    if (q->kind != QUESTION_QUANTITY && ask != question)
        minutes += c->book->book->questions[ask].minutes;
    ((question_option *)o->in.questions)[o->count] = (question_option){
        q->id.name, minutes * o->per_answer, seen, c->book->book->questions[ask].place};
    assert(o->count < c->book->book->question_count && minutes >= 0);
    o->question_of[o->count] = question;
    o->ask_first[o->count++] = ask;
}

/* Of what was answered, with the usual instrument and with another. */
static void add_again(tt_case *c, options *o, const tryout *all, const bool *danger,
                      uint32_t finding, tt_again how)
{
    const program *p = c->book->prog;
    if (!p->is_evidence[finding] || program_states(p, finding) < 2) return;
    const uint32_t ask = look_asks(c, danger, finding, how);
    if (ask == NO_ID) return;
    prediction *seen = ARENA_NEW(c->derived, prediction);
    const arena_mark before = arena_here(c->scratch);
    const prediction made =
        belief_predict_again(c->scratch, c->now.single, all, finding, how == TT_LOOK_ANOTHER);
    *seen = prediction_copy(c->derived, &made);
    arena_back_to(c->scratch, before);
    const struct question *q = &p->book->questions[ask];
    const uint32_t at = o->count + o->in.again_count++;
    ((question_option *)o->in.questions)[at] = (question_option){
        p->book->questions[finding].id.name, q->minutes * o->per_answer, seen, q->place};
    o->question_of[at] = finding;
    o->ask_first[at] = ask;
    o->again_of[at] = how;
}

void options_questions(tt_case *c, options *o)
{
    enum { LOOKS_EACH = 3 };
    const uint32_t count = c->book->book->question_count;
    const size_t room = LOOKS_EACH * (size_t)count;
    o->in.questions = arena_take_unset(c->derived, room * sizeof(question_option));
    o->question_of = ARENA_ARRAY(c->derived, uint32_t, room);
    o->ask_first = ARENA_ARRAY(c->derived, uint32_t, room);
    o->again_of = ARENA_ARRAY(c->derived, tt_again, room);
    o->per_answer = questions_per_answer(c);
    o->count = o->in.again_count = 0;
    const evidence seen = case_evidence(c);
    for (uint32_t q = 0; q < count; q++) add_question(c, o, &seen, q);
    o->in.question_count = o->count;
    const arena_mark before = arena_here(c->scratch);
    const tryout all = tryout_of(c->scratch, c->book->prog->evidence, &seen);
    const bool *danger = look_danger(c);
    for (uint32_t q = 0; q < count; q++) {
        add_again(c, o, &all, danger, q, TT_LOOK_AGAIN);
        add_again(c, o, &all, danger, q, TT_LOOK_ANOTHER);
    }
    arena_back_to(c->scratch, before);
}

options case_options(tt_case *c)
{
    const book *b = c->book->book;
    options o = {.in = {.cause_count = b->cause_count, .rules = choice_rules_default}};
    add_fixes(c, &o);
    add_callees(c, &o);
    options_place(c, &o);
    for (int level = 0; level < 4; level++) {
        o.in.rules.worth_trying[level] = b->worth_trying[level];
        o.in.rules.price[level] = b->price[level];
    }
    o.in.rules.call_minutes = b->call_minutes;
    o.in.rules.soonest = c->soonest;
    return o;
}
