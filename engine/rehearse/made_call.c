/* A made-up call: drawn, told, and changed by fixes. */
#include "rehearse/made_call.h"

#include <assert.h>
#include <math.h>

#include "rehearse/draw_facts.h"
#include "rehearse/sight.h"

/* ---- names ---- */

static dice dice_of_question(const made_call *call, dice_use use, uint32_t question, uint32_t time)
{
    const str name = call->from->prog->book->questions[question].id.name;
    return dice_for(call->from->seed, call->number, use, dice_named(name, time));
}

static dice dice_of_fix(const made_call *call, dice_use use, uint32_t fix)
{
    const str name = call->from->prog->book->fixes[fix].id.name;
    return dice_for(call->from->seed, call->number, use, dice_named(name, 0));
}

/* ---- facts ---- */

static bool is_fact(const program *p, uint32_t question)
{
    return p->book->questions[question].about != ABOUT_FAULT;
}

static tt_reply reply_of_state(const program *p, uint32_t question, uint32_t state, dice *d)
{
    assert(state < program_states(p, question));
    const struct question *q = &p->book->questions[question];
    tt_reply reply = {.kind = TT_UNSURE};
    if (q->kind == QUESTION_CHOICE) {
        for (uint32_t i = 0; i < q->answer_count; i++)
            if (q->shown_order[i] == state) reply = (tt_reply){.kind = TT_ANSWER, .option = i};
    } else if (number_in_state(p, question, state, d, &reply.number)) {
        reply.kind = TT_NUMBER;
    }
    return reply;
}

/* Tells the case the facts that apply; a fact may decide whether another applies, so as often as
 * something is new. What is reckoned from facts is left to the case: telling it would make it
 * disagree with them. */
static tt_status tell_facts(const made_call *call, tt_case *site, bool *told)
{
    const program *p = call->from->prog;
    for (bool more = true; more;) {
        tt_status status = case_stood(site);
        if (status != TT_OK) return status;
        more = false;
        for (uint32_t q = 0; q < p->book->question_count; q++) {
            if (!is_fact(p, q) || told[q] || site->now.skip_questions[q]) continue;
            if (p->book->questions[q].kind == QUESTION_QUANTITY) continue;
            if (case_truth(site, p->ask_atom[q]) != TRUTH_TRUE) continue;
            dice d = dice_of_question(call, DICE_READING, q, 0);
            tt_reply reply = reply_of_state(p, q, call->state[q], &d);
            if ((status = tt_answer(site, q, &reply)) != TT_OK) return status;
            told[q] = more = true;
        }
    }
    return TT_OK;
}

/* What the site's file answers is so. */
static void take_from_site(made_call *call)
{
    const program *p = call->from->prog;
    for (uint32_t i = 0; i < p->book->site_answer_count; i++) {
        const reply *given = &p->book->site_answers[i].given;
        if (given->kind == REPLY_ANSWER) call->state[given->question] = given->answer;
        if (given->kind == REPLY_READING)
            call->state[given->question] = program_state_of(p, given->question, given->number);
    }
}

/* Quantities over facts alone are what the facts make them. */
static void take_reckoned(made_call *call, const tt_case *site)
{
    const book *b = call->from->prog->book;
    for (uint32_t i = 0; i < b->reckon_count; i++) {
        uint32_t q = b->reckon_order[i];
        const reply *r = site->now.reckoned[q] ? site->now.replies[q] : NULL;
        if (r == NULL) continue;
        call->state[q] = program_state_near(call->from->prog, q, r->number, r->magnitude);
        call->fixed[q] = true;
    }
}

static tt_status draw_facts(made_call *call, arena *scratch, tt_case *site)
{
    const program *p = call->from->prog;
    bool *told = ARENA_ARRAY(scratch, bool, p->book->question_count);
    for (uint32_t i = 0; i < p->book->site_answer_count; i++)
        told[p->book->site_answers[i].given.question] = true;
    facts_draw(scratch, p, call->from->seed, call->number, call->state);
    take_from_site(call);
    tt_status status = tell_facts(call, site, told);
    if (status == TT_OK) take_reckoned(call, site);
    return status;
}

/* ---- what is wrong ---- */

static str cause_name(const made_call *call, uint32_t cause)
{
    return call->from->prog->book->causes[cause].id.name;
}

/* Of hypotheses with so many causes: who is there first. */
static uint32_t first_of_size(const made_call *call, uint32_t size)
{
    belief *prior = call->in->prior;
    const double *chance = belief_posterior(prior);
    uint32_t first = 0, its, causes[2];
    double least = INFINITY;
    for (uint32_t h = 1; h < belief_count(prior); h++) {
        if (!(chance[h] > 0)) continue;
        belief_hypothesis(prior, h, &its, causes);
        if (its != size) continue;
        uint64_t which =
            size == 1 ? dice_named(cause_name(call, causes[0]), 0)
                      : dice_named_both(cause_name(call, causes[0]), cause_name(call, causes[1]));
        dice d = dice_for(call->from->seed, call->number, DICE_CAUSE, which);
        double wait = dice_wait(&d, chance[h]);
        if (wait >= least) continue;
        least = wait;
        first = h;
    }
    assert(first > 0);
    return first;
}

/* First how many causes there are, then which: each has dice of its own. */
static void draw_cause(made_call *call, arena *keep, arena *scratch, const tt_case *site)
{
    const uint32_t questions = call->from->prog->book->question_count;
    const net *n = call->in->n;
    const double *factor = site->now.factor;
    belief *prior = call->in->prior;
    double *share = ARENA_ARRAY(scratch, double, n->in.cause_count);
    for (uint32_t c = 0; c < n->in.cause_count; c++) share[c] = n->in.weights[c] * factor[c];
    belief_see_net(prior, facts_mix(keep, site->now.untold, n, share));
    belief_weigh(prior, &(evidence){.weights = ARENA_ARRAY(scratch, const double *, questions)},
                 factor);
    const double *chance = belief_posterior(prior);
    double sizes[3] = {chance[0], 0, belief_two_faults(prior)};
    sizes[1] = fmax(0, 1 - sizes[0] - sizes[2]);
    dice d = dice_for(call->from->seed, call->number, DICE_SIZE, 0);
    uint32_t size = dice_pick(&d, sizes, 3);
    call->hypothesis = size == 0 ? 0 : first_of_size(call, size);
    belief_hypothesis(prior, call->hypothesis, &call->size, call->causes);
    assert(call->size == size);
}

/* ---- what it shows ---- */

static bool agrees(const made_call *call, const component *g, uint32_t cell, const bool *keeps)
{
    const net_finding *findings = call->in->n->in.findings;
    for (uint32_t i = 0; i < g->finding_count; i++) {
        uint32_t f = g->findings[i], state = cell / g->stride[i] % findings[f].states;
        if (keeps[f] && state != call->state[f]) return false;
    }
    return true;
}

/* Draws the findings of a component that are not kept, given those that are. */
static void draw_component(made_call *call, arena *scratch, uint32_t index, const bool *keeps)
{
    assert(index < call->in->n->component_count);
    const component *g = &call->in->n->components[index];
    double *row = ARENA_ARRAY(scratch, double, g->atom_count), sum = 0;
    double *odds = ARENA_ARRAY(scratch, double, g->cell_count);
    belief_row(call->in->prior, index, call->hypothesis, row);
    for (uint32_t x = 0; x < g->cell_count; x++) {
        if (!agrees(call, g, x, keeps)) continue;
        odds[x] = row[g->cell_atom[x]] * g->within[x];
        sum += odds[x];
    }
    if (!(sum > 0)) return; /* two causes may rule a state out: what was seen stays */
    dice d = dice_of_question(call, DICE_SIGNS, g->findings[0], call->changes);
    uint32_t cell = dice_pick(&d, odds, g->cell_count);
    for (uint32_t i = 0; i < g->finding_count; i++) {
        uint32_t f = g->findings[i];
        call->state[f] = cell / g->stride[i] % call->in->n->in.findings[f].states;
    }
}

/* No symptom rests on it: as what is wrong goes with it, or as it usually is. */
static void draw_unlisted(made_call *call, arena *scratch, const tt_case *site, uint32_t question)
{
    assert(call->in->n->component_of[question] == NO_COMPONENT);
    const struct question *q = &call->from->prog->book->questions[question];
    uint32_t usual = call->in->n->in.findings[question].usual;
    const double *odds = facts_odds_with(scratch, call->from->prog, site, question,
                                         call->size > 0 ? call->causes[0] : NO_ID);
    dice d = dice_of_question(call, DICE_FACT, question, 0);
    uint32_t states = program_states(call->from->prog, question);
    if (odds != NULL)
        call->state[question] = dice_pick(&d, odds, states);
    else
        call->state[question] = q->has_usual ? usual : dice_below(&d, states);
}

static void draw_signs(made_call *call, arena *scratch, const tt_case *site)
{
    const program *p = call->from->prog;
    for (uint32_t q = 0; q < p->book->question_count; q++)
        if (!call->fixed[q] && call->in->n->component_of[q] == NO_COMPONENT)
            draw_unlisted(call, scratch, site, q);
    for (uint32_t i = 0; i < call->in->n->component_count; i++)
        draw_component(call, scratch, i, call->fixed);
}

tt_status call_draw(arena *keep, arena *scratch, const made_from *from, const world *in,
                    uint64_t number, tt_case *site, made_call *out)
{
    *out = (made_call){.from = from, .in = in, .number = number};
    out->state = ARENA_ARRAY(keep, uint32_t, from->prog->book->question_count);
    out->fixed = ARENA_ARRAY(keep, bool, from->prog->book->question_count);
    for (uint32_t q = 0; q < from->prog->book->question_count; q++)
        out->fixed[q] = is_fact(from->prog, q);
    tt_status status = draw_facts(out, scratch, site);
    if (status == TT_OK) status = case_stood(site);
    if (status != TT_OK) return status;
    double *factor = ARENA_ARRAY(keep, double, from->prog->book->cause_count);
    for (uint32_t c = 0; c < from->prog->book->cause_count; c++) factor[c] = site->now.factor[c];
    out->factor = factor;
    draw_cause(out, keep, scratch, site);
    draw_signs(out, scratch, site);
    return TT_OK;
}

made_call call_copy(arena *keep, const made_call *call)
{
    made_call copy = *call;
    uint32_t questions = call->from->prog->book->question_count;
    copy.state = ARENA_ARRAY(keep, uint32_t, questions);
    for (uint32_t q = 0; q < questions; q++) copy.state[q] = call->state[q];
    return copy;
}

bool call_has(const made_call *call, uint32_t cause)
{
    for (uint32_t i = 0; i < call->size; i++)
        if (call->causes[i] == cause) return true;
    return false;
}

/* ---- what the person says ---- */

uint32_t call_seen(const made_call *call, uint32_t question, uint32_t time)
{
    return sight_of(call, question, time, false);
}

/* A gate question of which no number speaks: neither a share nor a table. */
static bool comes_safe(const made_call *call, uint32_t question)
{
    const program *p = call->from->prog;
    bool drawn = is_fact(p, question) && p->book->questions[question].kind == QUESTION_CHOICE;
    return p->book->questions[question].gate && !drawn &&
           call->in->n->component_of[question] == NO_COMPONENT;
}

static tt_reply safe_of(const book *b, uint32_t question)
{
    const struct question *q = &b->questions[question];
    const reply safe = safe_reply(b, question);
    tt_reply out = {.kind = TT_ANSWER};
    while (q->kind == QUESTION_CHOICE && q->shown_order[out.option] != safe.answer) out.option++;
    if (q->kind == QUESTION_CHOICE) return out;
    const unit shown = book_shown_unit(b, &q->in);
    return (tt_reply){.kind = TT_NUMBER, .number = unit_convert(&q->in, &shown, safe.number)};
}

tt_reply call_look(const made_call *call, uint32_t question, uint32_t time, bool another)
{
    if (comes_safe(call, question)) return safe_of(call->from->prog->book, question);
    dice d = dice_of_question(call, DICE_READING, question, time);
    return reply_of_state(call->from->prog, question, sight_of(call, question, time, another), &d);
}

tt_reply call_reply(const made_call *call, uint32_t question, uint32_t time)
{
    return call_look(call, question, time, false);
}

static void note_unseen(void *context, uint32_t finding)
{
    const bool **askable = context;
    if (*askable != NULL && !(*askable)[finding]) *askable = NULL;
}

static bool can_be_seen(const expr *when, const bool *askable)
{
    const bool *all = askable;
    expr_each_finding(when, note_unseen, &all);
    return all != NULL;
}

/* A caller names the piece that is at fault: no complaint is about a piece of a kind while all that
 * is wrong with the kind is at others, since causes there are no hypotheses until they show. */
static bool blames_wrong_piece(const made_call *call, uint32_t piece)
{
    const book *b = call->from->prog->book;
    bool elsewhere = false;
    for (uint32_t i = 0; i < call->size && piece != NO_ID; i++) {
        uint32_t at = b->causes[call->causes[i]].of.piece;
        if (at == piece) return false;
        elsewhere |= at != NO_ID && b->pieces[at].kind == b->pieces[piece].kind;
    }
    return elsewhere;
}

static bool is_heard(const made_call *call, uint32_t symptom, bool resting_on_one)
{
    const struct symptom *x = &call->from->prog->book->symptoms[symptom];
    return x->heard.count > 0 && (!resting_on_one || x->rests_on_one) &&
           !blames_wrong_piece(call, x->of.piece);
}

uint32_t call_complaint(const made_call *call, arena *scratch, const bool *askable,
                        bool resting_on_one)
{
    const program *p = call->from->prog;
    uint32_t *seen = ARENA_ARRAY(scratch, uint32_t, p->book->question_count), first = TT_NONE;
    double least = INFINITY;
    for (uint32_t q = 0; q < p->book->question_count; q++) seen[q] = call_seen(call, q, 0);
    for (uint32_t s = 0; s < p->book->symptom_count; s++) {
        const expr *when = p->evidence->in.symptoms[s].when;
        if (!is_heard(call, s, resting_on_one) || !can_be_seen(when, askable) ||
            !expr_holds(when, seen))
            continue;
        dice d = dice_for(call->from->seed, call->number, DICE_COMPLAINT,
                          dice_named(p->book->symptoms[s].id.name, 0));
        double wait = dice_wait(&d, 1);
        if (wait >= least) continue;
        least = wait;
        first = s;
    }
    return first;
}

/* ---- what a fix does ---- */

/* Which of what is wrong the fix removes: nothing, if it is done wrongly. */
static bool draw_cures(const made_call *call, uint32_t fix, bool gone[2])
{
    const struct fix *f = &call->from->prog->book->fixes[fix];
    const str name = f->id.name;
    dice done = dice_of_fix(call, DICE_DONE, fix);
    const double rightly = dice_falls(&done, f->done_wrongly) ? 0 : 1 / (1 - f->done_wrongly);
    bool aimed = false;
    for (uint32_t i = 0; i < f->cures_count; i++) {
        net_rate cure = call->in->cures[fix][i];
        dice d = dice_for(call->from->seed, call->number, DICE_CURE,
                          dice_named_both(name, cause_name(call, cure.cause)));
        bool falls = dice_falls(&d, fmin(1, cure.chance * rightly));
        for (uint32_t k = 0; k < call->size; k++) {
            if (call->causes[k] != cure.cause || !(cure.chance > 0)) continue;
            aimed = true;
            gone[k] = falls;
        }
    }
    return aimed;
}

static void remove_gone(made_call *call, const bool gone[2])
{
    assert(call->size <= 2);
    uint32_t kept = 0;
    call->gone_count = 0;
    for (uint32_t k = 0; k < call->size; k++) {
        uint32_t cause = call->causes[k];
        if (gone[k])
            call->gone[call->gone_count++] = cause;
        else
            call->causes[kept++] = cause;
    }
    call->size = kept;
}

tt_outcome call_fix(made_call *call, uint32_t fix)
{
    return call_fixes(call, fix, NO_ID);
}

tt_outcome call_fixes(made_call *call, uint32_t fix, uint32_t with)
{
    assert(fix < call->from->prog->book->fix_count && with != fix);
    const outcome_rates *rates = &outcome_rates_default;
    bool gone[2] = {false, false}, also[2] = {false, false};
    bool aimed = draw_cures(call, fix, gone);
    if (with != NO_ID) aimed |= draw_cures(call, with, also);
    for (int k = 0; k < 2; k++) gone[k] |= also[k];
    remove_gone(call, gone);
    if (call->gone_count > 0 && call->size == 0) return TT_GONE;
    double better = call->gone_count > 0 ? 1 - rates->same_though_removed
                    : aimed              ? rates->better_though_kept
                                         : rates->better_untargeted;
    dice d = dice_of_fix(call, DICE_REPORT, fix);
    return dice_falls(&d, better) ? TT_BETTER : TT_NO_CHANGE;
}

static bool lists_gone(const made_call *call, const component *g)
{
    for (uint32_t i = 0; i < g->listed_count; i++)
        for (uint32_t k = 0; k < call->gone_count; k++)
            if (g->listed[i] == call->gone[k]) return true;
    return false;
}

void call_settle(made_call *call, arena *scratch, const bool *keeps)
{
    if (call->gone_count == 0 || call->size == 0) return;
    assert(call->size == 1 && call->gone_count == 1);
    call->hypothesis = 1 + call->causes[0];
    call->changes++;
    for (uint32_t i = 0; i < call->in->n->component_count; i++)
        if (lists_gone(call, &call->in->n->components[i])) draw_component(call, scratch, i, keeps);
    call->gone_count = 0;
}

/* ---- numbers ---- */

/* As it will be read back: in the unit of people at the site, and from there in the question's own.
 */
static bool is_number_of(const program *p, uint32_t question, uint32_t state, double own,
                         double *shown)
{
    const struct question *q = &p->book->questions[question];
    unit in = book_shown_unit(p->book, &q->in);
    *shown = unit_convert(&q->in, &in, own);
    double back = unit_convert(&in, &q->in, *shown);
    return isfinite(back) && is_plausible(q, back) && program_state_of(p, question, back) == state;
}

/* Between the ends, which may belong to the neighbours; a whole number where things are counted. */
static bool number_between(const program *p, uint32_t question, uint32_t state, dice *d, double low,
                           double high, double *number)
{
    assert(low <= high);
    double at = low + (high - low) * (0.01 + 0.98 * dice_share(d));
    const double whole[] = {round(at), ceil(low), floor(high)},
                 any[] = {at, (low + high) / 2, low, high};
    for (int i = 0; p->book->questions[question].kind == QUESTION_COUNT && i < 3; i++)
        if (is_number_of(p, question, state, whole[i], number)) return true;
    for (int i = 0; i < 4; i++)
        if (is_number_of(p, question, state, any[i], number)) return true;
    return false;
}

bool number_in_state(const program *p, uint32_t question, uint32_t state, dice *d, double *number)
{
    assert(state <= p->tables[question].cut_count);
    const struct question *q = &p->book->questions[question];
    const state_table *t = &p->tables[question];
    double low = state == 0 ? -INFINITY : t->cuts[state - 1].at;
    double high = state == t->cut_count ? INFINITY : t->cuts[state].at;
    if (q->has_usual) {
        double from = fmax(low, q->usual_low), to = fmin(high, q->usual_high);
        if (from <= to && number_between(p, question, state, d, from, to, number)) return true;
    }
    if (q->has_plausible) {
        low = fmax(low, q->plausible_low);
        high = fmin(high, q->plausible_high);
    }
    if (!isfinite(low) && !isfinite(high)) low = 0;
    if (!isfinite(low)) low = high - fmax(fabs(high), 1);
    if (!isfinite(high)) high = low + fmax(fabs(low), 1);
    return low <= high && number_between(p, question, state, d, low, high, number);
}
