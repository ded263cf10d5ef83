/* One made-up call, played to its end in one way. */
#include "rehearse/play.h"

#include <assert.h>
#include <string.h>

#include "base/grow.h"
#include "rehearse/clairvoyant.h"
#include "rehearse/drawn_quantity.h"
#include "rehearse/judge.h"
#include "rehearse/sight.h"

/* An adjustment under way: the steps that the person still takes, and how the last of them comes
 * out. */
typedef struct adjustment_plan {
    uint32_t steps_left;
    tt_outcome last;
} adjustment_plan;

typedef struct player {
    arena *scratch;
    tt_case *c;
    made_call *call;
    way how;
    played *out;
    const tt_view *v;
    uint32_t *times; /* [question] asked so often */
    played_step *path;
    uint32_t path_room;
    uint32_t place;  /* where they are, or NO_ID */
    uint32_t called; /* the role that the last step calls, or TT_NONE */
    bool *read;      /* [question] its minutes are counted, until it may have changed */
    adjustment_plan adjusting;
} player;

/* The first time counts: there advice turns into work. */
static void judge_now(player *p)
{
    if (!p->out->ranked) p->out->first = judge(p->scratch, p->c, p->v, p->call);
    p->out->ranked = true;
}

/* ---- steps ---- */

static bool is_adjusting(const player *p)
{
    return p->c->now.adjust.fix != NO_ID;
}

static bool is_drawn_quantity(const player *p, uint32_t question)
{
    return call_draws_quantity(p->call, question);
}

static tt_status tell_quantity(player *p, uint32_t quantity)
{
    return call_tell_quantity(p->call, p->c, quantity, p->times);
}

static tt_status tell_quantities(player *p, bool *changed)
{
    return call_tell_quantities(p->call, p->c, p->times, changed);
}

static bool offers_something(const tt_view *v)
{
    return v->step == TT_FIX || v->step == TT_PUT_BACK;
}

static tt_status look(player *p)
{
    bool changed = false;
    tt_status status = tt_look(p->c, &p->v);
    if (status == TT_OK) status = tell_quantities(p, &changed);
    if (status == TT_OK && changed) status = tt_look(p->c, &p->v);
    if (status == TT_OK) assert(!offers_something(p->v) || p->v->gate.state == TT_GATE_OPEN);
    return status;
}

static bool knows_answers(const player *p)
{
    return p->how == WAY_ALL_KNOWN || p->how == WAY_CLAIRVOYANT;
}

static void go_to(player *p, uint32_t place)
{
    if (place == NO_ID) return;
    p->out->place_changes += p->place != NO_ID && p->place != place;
    p->place = place;
}

/* What is looked at between two steps of an adjustment belongs to it, and so do its minutes; a
 * gauge read for a quantity need not be read again. Danger is ruled out by everybody; other answers
 * may be known. */
static void count_question(player *p, uint32_t question)
{
    const struct question *q = &p->c->book->book->questions[question];
    if (is_adjusting(p) || p->read[question] || (knows_answers(p) && !q->gate)) return;
    p->read[question] = true;
    p->out->questions++;
    p->out->working += q->minutes;
    go_to(p, q->place);
}

static void note_step(player *p, bool fix, uint32_t subject)
{
    GROW(p->scratch, p->path, p->out->path_count, p->path_room);
    p->path[p->out->path_count++] = (played_step){.fix = fix, .subject = subject};
    p->out->path = p->path;
}

static tt_status ask(player *p, uint32_t question)
{
    assert(question < p->c->book->book->question_count);
    tt_reply reply = call_reply(p->call, question, p->times[question]++);
    note_step(p, false, question);
    count_question(p, question);
    return tt_answer(p->c, question, &reply);
}

/* The minutes of all readings that are missing for it. */
static tt_status ask_quantity(player *p, uint32_t quantity)
{
    const ids *beneath = &p->c->book->book->questions[quantity].beneath;
    note_step(p, false, quantity);
    for (uint32_t i = 0; i < beneath->count; i++)
        if (case_may_ask(p->c, beneath->items[i])) count_question(p, beneath->items[i]);
    return tell_quantity(p, quantity);
}

static void count_look(player *p)
{
    const tt_next *next = &p->v->next;
    p->out->looks++;
    if (next->clash == TT_NONE) return;
    p->out->clashes++;
    const double *const *said = p->c->now.weights;
    p->out->false_clashes +=
        !is_amiss(p->call, next->question, said) && !is_amiss(p->call, next->clash, said);
}

/* One more look at what was answered: at the quantity, where it is drawn and not reckoned. */
static tt_status ask_again(player *p)
{
    const tt_next *next = &p->v->next;
    const bool drawn = next->quantity != TT_NONE && is_drawn_quantity(p, next->quantity);
    const uint32_t subject = drawn ? next->quantity : next->question;
    const tt_again how = next->again;
    const tt_reply reply = call_look(p->call, subject, p->times[subject]++, how == TT_LOOK_ANOTHER);
    note_step(p, false, subject);
    p->read[next->question] = false;
    count_question(p, next->question);
    count_look(p);
    return tt_answer_again(p->c, subject, &reply, how);
}

static tt_status ask_next(player *p)
{
    if (p->v->next.again != TT_FIRST_LOOK) return ask_again(p);
    uint32_t quantity = p->v->next.quantity;
    bool drawn = quantity != TT_NONE && is_drawn_quantity(p, quantity);
    return drawn && !is_adjusting(p) ? ask_quantity(p, quantity) : ask(p, p->v->next.question);
}

/* Before anything else the program rules out dangers. */
static tt_status rule_out_dangers(player *p)
{
    tt_status status = look(p);
    while (status == TT_OK && p->v->step == TT_ASK && p->v->next.first)
        if ((status = ask_next(p)) == TT_OK) status = look(p);
    return status;
}

/* What no question of this role shows, the person doesn't see; what doesn't apply here can't be
 * wrong. */
static const bool *questions_in_sight(player *p)
{
    const book *b = p->c->book->book;
    bool *askable = ARENA_ARRAY(p->scratch, bool, b->question_count);
    for (uint32_t q = 0; q < b->question_count; q++)
        askable[q] = book_may_work(b, p->c->role, b->questions[q].role, &b->questions[q].harm) &&
                     case_truth(p->c, p->c->book->prog->ask_atom[q]) != TRUTH_FALSE;
    return askable;
}

static bool asks_all(const player *p)
{
    return p->how == WAY_EVERYTHING || knows_answers(p);
}

/* A complaint over several answers makes the engine ask for these first, which would not be the way
 * of a fixed list. */
static tt_status complain(player *p)
{
    bool of_one = p->how == WAY_IN_ORDER || asks_all(p);
    uint32_t symptom = call_complaint(p->call, p->scratch, questions_in_sight(p), of_one);
    if (symptom == TT_NONE) return TT_OK;
    const struct symptom *s = &p->c->book->book->symptoms[symptom];
    if (s->rests_on_one) p->times[s->one_question]++;
    return tt_complain(p->c, symptom);
}

static bool helps(const made_call *call, uint32_t fix)
{
    const net_rate *cures = call->in->cures[fix];
    for (uint32_t i = 0; i < call->from->prog->book->fixes[fix].cures_count; i++)
        if (cures[i].chance > 0 && call_has(call, cures[i].cause)) return true;
    return false;
}

static const bool *kept_findings(const player *p)
{
    const book *b = p->c->book->book;
    bool *keeps = ARENA_ARRAY(p->scratch, bool, b->question_count);
    for (uint32_t q = 0; q < b->question_count; q++)
        keeps[q] = p->call->fixed[q] || (p->c->now.replies[q] != NULL && !p->c->now.stale[q]);
    return keeps;
}

/* After "better" whatever is asked again must be looked at again. */
static void forget_readings(player *p)
{
    for (uint32_t q = 0; q < p->c->book->book->question_count; q++)
        if (p->c->now.replies[q] == NULL || p->c->now.stale[q] || p->c->now.look_due[q])
            p->read[q] = false;
}

static void count_fix(player *p, uint32_t fix)
{
    const struct fix *f = &p->c->book->book->fixes[fix];
    note_step(p, true, fix);
    p->out->fixes++;
    p->out->working += f->minutes;
    go_to(p, f->place);
    if (helps(p->call, fix)) return;
    risk_level level = safety_risk(&f->harm, true);
    assert((int)level < LEVELS_OFFERED); /* High is never offered */
    p->out->needless[level]++;
}

/* An adjustment is one fix: either all that was wrong is gone after some step, or the setting is
 * put back and nothing has changed. A setting that does a little good is kept for one more step. */
static bool plan_adjustment(player *p, uint32_t fix)
{
    const adjustment *a = &p->c->book->book->fixes[fix].adjust;
    made_call then = *p->call;
    uint32_t steps = 0;
    double at;
    if (!adjust_from(p->c, fix, &at)) return false;
    while (adjust_next(a, at, steps, &at)) steps++;
    if (steps == 0) return false;
    tt_outcome whole = call_fix(&then, fix);
    const str name = p->c->book->book->fixes[fix].id.name;
    dice d = dice_for(p->call->from->seed, p->call->number, DICE_STEPS, dice_named(name, 0));
    p->adjusting.last = whole == TT_GONE ? TT_GONE : TT_NO_CHANGE;
    p->adjusting.steps_left = whole == TT_GONE                  ? 1 + dice_below(&d, steps)
                              : whole == TT_BETTER && steps > 1 ? 2
                                                                : 1;
    assert(p->adjusting.steps_left >= 1 && p->adjusting.steps_left <= steps);
    return true;
}

static tt_status adjust(player *p, uint32_t fix)
{
    if (!is_adjusting(p)) {
        judge_now(p);
        count_fix(p, fix);
        if (!plan_adjustment(p, fix)) return TT_NOT_NOW;
    }
    bool last = p->adjusting.steps_left <= 1;
    if (!last) p->adjusting.steps_left--;
    tt_outcome outcome = last ? p->adjusting.last : TT_BETTER;
    if (outcome == TT_GONE) p->call->size = 0;
    return tt_fix_tried(p->c, fix, outcome);
}

/* `with`: under the same lockout, or TT_NONE. */
static tt_status try_fix(player *p, uint32_t fix, uint32_t with)
{
    assert(fix < p->c->book->book->fix_count);
    if (p->c->book->book->fixes[fix].adjust.reading != NO_ID) return adjust(p, fix);
    judge_now(p);
    count_fix(p, fix);
    if (with != TT_NONE) {
        count_fix(p, with);
        p->path[p->out->path_count - 1].joined = true;
        p->out->working -= set_up_shared(p->c, fix, with);
    }
    tt_outcome outcome = call_fixes(p->call, fix, with);
    tt_status status = tt_fixes_tried(p->c, fix, with, outcome);
    if (status == TT_OK) status = look(p);
    if (status == TT_OK && outcome == TT_BETTER) forget_readings(p);
    if (status == TT_OK) call_settle(p->call, p->scratch, kept_findings(p));
    return status;
}

/* ---- what to ask in which way ---- */

static bool can_be_asked(const tt_case *c, uint32_t question)
{
    return c->book->book->questions[question].kind != QUESTION_QUANTITY &&
           case_may_ask(c, question);
}

static uint32_t first_askable(const tt_case *c)
{
    for (uint32_t q = 0; q < c->book->book->question_count; q++)
        if (can_be_asked(c, q)) return q;
    return TT_NONE;
}

/* Everything that may be asked as things stand, before looking where that leads. */
static tt_status ask_all(player *p)
{
    uint32_t questions = p->c->book->book->question_count;
    bool *open = ARENA_ARRAY(p->scratch, bool, questions);
    for (uint32_t q = 0; q < questions; q++) open[q] = can_be_asked(p->c, q);
    for (uint32_t q = 0; q < questions; q++) {
        tt_status status = open[q] ? ask(p, q) : TT_OK;
        if (status != TT_OK) return status;
    }
    return TT_OK;
}

static tt_status ask_in_its_way(player *p)
{
    bool in_order = p->how == WAY_IN_ORDER && !is_adjusting(p);
    uint32_t first = in_order ? first_askable(p->c) : TT_NONE;
    return first == TT_NONE ? ask_next(p) : ask(p, first);
}

static tt_status end(player *p, call_end how)
{
    p->out->end = how;
    if (how == END_CALLED) judge_now(p);
    if (how == END_CALLED && p->v->call_role != NULL)
        p->called = tt_role_find(p->c->book, p->v->call_role);
    return TT_OK;
}

/* What the clairvoyant does where others weigh what to do. */
static bool is_for_clairvoyant(const player *p)
{
    return p->how == WAY_CLAIRVOYANT && !is_adjusting(p) &&
           (p->v->policy == TT_BY_BALANCED || p->v->policy == TT_BY_READING);
}

static tt_status do_what_is_cheapest(player *p, bool *ended)
{
    const uint32_t fix = clairvoyant_fix(p->scratch, p->c, p->call);
    *ended = fix == NO_ID;
    if (fix == NO_ID) return end(p, END_CALLED);
    const uint32_t asked = adjust_asks(p->c, fix);
    return asked != NO_ID ? ask(p, asked) : try_fix(p, fix, TT_NONE);
}

/* One step, and how it ended if it did. */
static tt_status step(player *p, bool *ended)
{
    bool over = p->v->step == TT_STOP || p->v->step == TT_CLOSED;
    bool all_first = asks_all(p) && !over && !is_adjusting(p);
    if (all_first && first_askable(p->c) != TT_NONE) return ask_all(p);
    if (is_for_clairvoyant(p)) return do_what_is_cheapest(p, ended);
    switch (p->v->step) {
    case TT_ASK:
        return ask_in_its_way(p);
    case TT_FIX:
        return try_fix(p, p->v->fix, p->v->with);
    case TT_PUT_BACK:
        return tt_put_back(p->c, p->v->fix);
    case TT_CALL:
        *ended = true;
        return end(p, END_CALLED);
    case TT_STOP:
        *ended = true;
        return end(p, END_STOPPED);
    case TT_CLOSED:
        *ended = true;
        return end(p, END_CURED);
    case TT_PIECE:
    case TT_SETTLE:
    case TT_COMPLAINT:
    case TT_WALKED:
        break; /* the call itself names piece and complaint, has one person, and is no round */
    }
    assert(false);
    return TT_NOT_NOW;
}

/* More steps than any call can take: a fix is tried once, an adjustment so many times, and only
 * these open questions again. */
static uint64_t steps_at_most(const book *b)
{
    uint64_t tries = 1;
    for (uint32_t f = 0; f < b->fix_count; f++)
        tries += b->fixes[f].adjust.reading == NO_ID ? 1 : (uint64_t)b->fixes[f].adjust.at_most + 1;
    return tries * (3 * (uint64_t)b->question_count + 3);
}

static tt_status play_to_end(player *p)
{
    uint64_t steps = steps_at_most(p->c->book->book);
    tt_status status = TT_OK;
    for (bool ended = false; status == TT_OK && !ended; steps--) {
        if (steps == 0) return TT_NOT_NOW;
        if ((status = look(p)) == TT_OK) status = step(p, &ended);
    }
    return status;
}

/* ---- handed over ---- */

static void add_part(taken_over *over, const played *part)
{
    over->times++;
    over->end = part->end;
    over->minutes += part->working;
    over->questions += part->questions;
    over->looks += part->looks;
    over->fixes += part->fixes;
    over->place_changes += part->place_changes;
}

/* Whoever is called rules out danger, and goes on with the same case. */
static tt_status take_over(player *p, uint32_t role, played *part)
{
    assert(role < p->c->book->book->role_count);
    p->out = part;
    p->path_room = 0; /* the path told is that of whoever asked first */
    for (uint32_t q = 0; q < p->c->book->book->question_count; q++)
        if (p->c->book->book->questions[q].gate) p->read[q] = false;
    tt_status status = case_take_over(p->c, role);
    p->call->person = p->c->speaker;
    if (status == TT_OK) status = rule_out_dangers(p);
    return status == TT_OK ? play_to_end(p) : status;
}

/* On to the end: cured, stopped, or nobody left who was not there. */
static tt_status play_on(player *p)
{
    const book *b = p->c->book->book;
    played *first = p->out;
    double *worked = ARENA_ARRAY(p->scratch, double, b->role_count);
    bool *was_there = ARENA_ARRAY(p->scratch, bool, b->role_count);
    tt_status status = TT_OK;
    uint32_t role = p->c->role;
    worked[role] = first->working;
    was_there[role] = true;
    first->over.end = first->end;
    while (status == TT_OK && first->over.end == END_CALLED && p->called != TT_NONE &&
           !was_there[p->called]) {
        played part = {0};
        role = p->called;
        was_there[role] = true;
        status = take_over(p, role, &part);
        worked[role] = part.working;
        add_part(&first->over, &part);
    }
    first->worked = worked;
    return status;
}

tt_status call_play(arena *scratch, tt_case *c, made_call *call, way how, played *out)
{
    player p = {.scratch = scratch,
                .c = c,
                .call = call,
                .how = how,
                .out = out,
                .place = NO_ID,
                .called = TT_NONE};
    p.times = ARENA_ARRAY(scratch, uint32_t, c->book->book->question_count);
    p.read = ARENA_ARRAY(scratch, bool, c->book->book->question_count);
    *out = (played){0};
    tt_status status = rule_out_dangers(&p);
    if (status == TT_OK && p.v->step != TT_STOP) status = complain(&p);
    if (status == TT_OK) status = play_to_end(&p);
    out->minutes = out->working + (out->end == END_CURED ? 0 : c->book->book->call_minutes);
    return status == TT_OK && how == WAY_TELLTALE ? play_on(&p) : status;
}
