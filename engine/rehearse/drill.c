/* A made-up call for somebody who learns. */
#include "rehearse/drill.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "base/sorted.h"
#include "rehearse/drawn_quantity.h"

enum { ONLY_CALL = 1, PUT_BACKS_MOST = 8 };

/* All arenas lead to one guard, also those of the learner's case, whose words are told. */
static tt_status guarded_work(tt_drill *d, tt_status (*work)(void *context), void *context)
{
    const tt_case *c = d->c;
    arena *all[] = {d->keep, d->of_call, d->scratch, d->shown, NULL, NULL, NULL};
    if (c != NULL) memcpy(&all[4], (arena *[]){c->keep, c->derived, c->scratch}, 3 * sizeof *all);
    arena_back_to(d->scratch, (arena_mark){NULL, 0});
    const tt_status status = guarded(all, c != NULL ? 7 : 4, work, context);
    tt_case_free(d->other);
    tt_rehearsal_free(d->engine);
    d->other = NULL;
    d->engine = NULL;
    return status;
}

/* ---- beginning ---- */

static tt_status fresh_case(const tt_drill *d, tt_case **out)
{
    const tt_options options = {.role = d->role, .language = d->language};
    return tt_case_new(d->book, &options, out);
}

/* What is there at the end of the call may be cured by then. */
static void note_causes(tt_drill *d)
{
    const book *b = d->book->book;
    d->cause_count = d->call.size > 0 ? d->call.size : 1;
    d->wrong[0] = NO_ID;
    d->causes[0] = (tt_drill_cause){"", ""};
    for (uint32_t i = 0; i < d->call.size; i++) {
        const uint32_t cause = d->wrong[i] = d->call.causes[i];
        d->causes[i] =
            (tt_drill_cause){str_copy(d->keep, str_of(case_text(d->c, &b->causes[cause].text))).p,
                             str_copy(d->keep, str_of(case_text(d->c, &b->causes[cause].means))).p};
    }
}

/* What no question of this role shows, the caller doesn't see either. */
static const bool *in_sight(tt_drill *d)
{
    const book *b = d->book->book;
    bool *askable = ARENA_ARRAY(d->scratch, bool, b->question_count);
    for (uint32_t q = 0; q < b->question_count; q++)
        askable[q] = book_may_work(b, d->role, b->questions[q].role, &b->questions[q].harm) &&
                     case_truth(d->c, d->book->prog->ask_atom[q]) != TRUTH_FALSE;
    return askable;
}

static void note_told(tt_drill *d, told_event e)
{
    GROW(d->keep, d->told, d->told_count, d->told_room);
    d->told[d->told_count++] = e;
}

static tt_status look(tt_drill *d)
{
    bool changed = false;
    tt_status status = tt_look(d->c, &d->v);
    if (status == TT_OK) status = call_tell_quantities(&d->call, d->c, d->times, &changed);
    if (status == TT_OK && changed) status = tt_look(d->c, &d->v);
    return status;
}

static tt_status complain(tt_drill *d)
{
    d->complaint = "";
    const uint32_t symptom = call_complaint(&d->call, d->scratch, in_sight(d), false);
    if (symptom == TT_NONE) return TT_OK;
    const struct symptom *s = &d->book->book->symptoms[symptom];
    if (s->rests_on_one) d->times[s->one_question]++;
    d->complaint = str_copy(d->keep, str_of(symptom_words(d->c, symptom))).p;
    note_told(d, (told_event){.kind = TOLD_COMPLAINT, .subject = symptom});
    return tt_complain(d->c, symptom);
}

static tt_status begin(void *context)
{
    tt_drill *d = context;
    const book *b = d->book->book;
    d->from.prog = d->book->prog;
    d->in = world_written(d->keep, d->book->prog);
    d->times = ARENA_ARRAY(d->keep, uint32_t, b->question_count + 1);
    d->read = ARENA_ARRAY(d->keep, bool, b->question_count + 1);
    d->tried = ARENA_ARRAY(d->keep, bool, b->fix_count + 1);
    tt_status status = fresh_case(d, &d->other);
    if (status == TT_OK)
        status = call_draw(d->of_call, d->scratch, &d->from, &d->in, ONLY_CALL, d->other, &d->call);
    if (status == TT_OK) status = fresh_case(d, &d->c);
    return status == TT_OK ? look(d) : status;
}

static tt_status hear_complaint(void *context)
{
    tt_drill *d = context;
    note_causes(d);
    const tt_status status = complain(d);
    return status == TT_OK ? look(d) : status;
}

tt_status tt_drill_new(const tt_book *book, const tt_drill_options *options, tt_drill **out)
{
    assert(book != NULL && options != NULL);
    *out = NULL;
    tt_drill *d = calloc(1, sizeof *d);
    if (d == NULL) return TT_NO_MEMORY;
    d->book = book;
    d->role = options->role == TT_NONE ? 0 : options->role;
    d->from = (made_from){.seed = options->seed};
    arena **arenas[] = {&d->keep, &d->of_call, &d->scratch, &d->shown};
    bool memory = true;
    for (int i = 0; i < 4; i++) memory &= (*arenas[i] = arena_new(NULL, NULL)) != NULL;
    tt_status status = !memory                             ? TT_NO_MEMORY
                       : d->role >= book->book->role_count ? TT_FAULTY
                                                           : TT_OK;
    d->language = options->language;
    if (status == TT_OK) status = guarded_work(d, begin, d);
    if (status == TT_OK) status = guarded_work(d, hear_complaint, d);
    if (status == TT_OK)
        *out = d;
    else
        tt_drill_free(d);
    return status;
}

void tt_drill_free(tt_drill *d)
{
    if (d == NULL) return;
    tt_case_free(d->c);
    arena_free(d->keep);
    arena_free(d->of_call);
    arena_free(d->scratch);
    arena_free(d->shown);
    free(d);
}

tt_case *tt_drill_case(tt_drill *d)
{
    assert(d != NULL && d->c != NULL);
    return d->c;
}

/* ---- how it stands ---- */

static bool may_look(const tt_drill *d, uint32_t question)
{
    const struct question *q = &d->book->book->questions[question];
    if (q->kind == QUESTION_QUANTITY || q->about == ABOUT_SITE) return false;
    return case_could_look(d->c, question);
}

static bool may_try(const tt_drill *d, uint32_t fix)
{
    if (d->tried[fix]) return false;
    for (uint32_t i = 0; i < d->v->fix_count; i++)
        if (d->v->fixes[i].fix == fix) return d->v->fixes[i].standing != TT_OTHER_ROLE;
    return false;
}

typedef struct standing_work {
    tt_drill *d;
    tt_drill_stand *out;
} standing_work;

static tt_status stand_in_words(void *context)
{
    const standing_work *w = context;
    tt_drill *d = w->d;
    const book *b = d->book->book;
    arena_back_to(d->shown, (arena_mark){NULL, 0});
    uint32_t *looks = ARENA_ARRAY(d->shown, uint32_t, b->question_count + 1),
             *fixes = ARENA_ARRAY(d->shown, uint32_t, b->fix_count + 1);
    *w->out = (tt_drill_stand){.complaint = d->complaint, .minutes = d->minutes, .end = d->end};
    for (uint32_t q = 0; q < b->question_count; q++)
        if (may_look(d, q)) looks[w->out->look_count++] = q;
    for (uint32_t f = 0; f < b->fix_count; f++)
        if (may_try(d, f)) fixes[w->out->fix_count++] = f;
    w->out->looks = looks;
    w->out->fixes = fixes;
    return TT_OK;
}

tt_status tt_drill_look_at(tt_drill *d, tt_drill_stand *out)
{
    assert(d != NULL && out != NULL);
    return guarded_work(d, stand_in_words, &(standing_work){d, out});
}

/* ---- a step ---- */

static const char *question_words(tt_drill *d, uint32_t question)
{
    return str_copy(d->keep, str_of(case_text(d->c, &d->book->book->questions[question].ask))).p;
}

static const char *fix_words(tt_drill *d, uint32_t fix)
{
    return str_copy(d->keep, str_of(case_text(d->c, &d->book->book->fixes[fix].text))).p;
}

/* Beside the step what the engine would have done. */
static tt_status add_advice(tt_drill *d, tt_drill_step *s, const advice *a, uint32_t subject)
{
    const book *b = d->book->book;
    s->same = a->subject == subject && a->fix == s->fix && !a->calls;
    s->instead = "";
    if (s->same || a->calls || a->subject == TT_NONE) return TT_OK;
    s->instead_fix = a->fix;
    s->instead = a->fix ? fix_words(d, a->subject) : question_words(d, a->subject);
    s->instead_minutes = a->fix ? b->fixes[a->subject].minutes : b->questions[a->subject].minutes;
    s->instead_gate = !a->fix && b->questions[a->subject].gate;
    return a->fix ? TT_OK : drill_worth(d, a->subject, &s->instead_decibels);
}

static void add_step(tt_drill *d, tt_drill_step s)
{
    GROW(d->keep, d->steps, d->step_count, d->step_room);
    d->steps[d->step_count++] = s;
    d->minutes += s.minutes;
}

static const char *seen_words(tt_drill *d, uint32_t question)
{
    const reply *r = d->c->now.replies[question];
    return r != NULL ? str_copy(d->keep, str_of(reply_words(d->c, question, r))).p : "";
}

static double take_minutes(tt_drill *d, uint32_t question)
{
    if (d->read[question]) return 0;
    d->read[question] = true;
    return d->book->book->questions[question].minutes;
}

typedef struct asking {
    tt_drill *d;
    uint32_t question;
    const char **seen;
} asking;

static tt_status ask(void *context)
{
    const asking *x = context;
    tt_drill *d = x->d;
    const struct question *q = &d->book->book->questions[x->question];
    if (d->end != TT_DRILL_GOES_ON || !may_look(d, x->question)) return TT_NOT_NOW;
    const advice a = drill_advice(d);
    const double before = drill_odds(d, d->v);
    tt_drill_step s = {.gate = q->gate, .text = question_words(d, x->question)};
    s.because = str_copy(d->keep, str_of(case_text(d->c, &q->because))).p;
    tt_status status = add_advice(d, &s, &a, x->question);
    const tt_reply reply = call_reply(&d->call, x->question, d->times[x->question]++);
    if (status == TT_OK) status = tt_answer(d->c, x->question, &reply);
    if (status == TT_OK) status = look(d);
    if (status != TT_OK) return status;
    note_told(d, (told_event){.kind = TOLD_ANSWER, .subject = x->question, .reply = reply});
    s.minutes = take_minutes(d, x->question);
    s.decibels = drill_odds(d, d->v) - before;
    *x->seen = s.result = seen_words(d, x->question);
    add_step(d, s);
    return TT_OK;
}

tt_status tt_drill_ask(tt_drill *d, uint32_t question, const char **seen)
{
    assert(d != NULL && seen != NULL);
    if (question >= d->book->book->question_count) return TT_NOT_NOW;
    return guarded_work(d, ask, &(asking){d, question, seen});
}

/* ---- danger ---- */

static const char *told_words(tt_drill *d, uint32_t question)
{
    tt_question q;
    const tt_reply r = call_reply(&d->call, question, d->times[question]);
    if (r.kind != TT_ANSWER) return "";
    const tt_status status = tt_question_show(d->c, question, &q);
    if (status == TT_NO_MEMORY) arena_leave(d->keep);
    assert(status == TT_OK);
    return str_copy(d->keep, str_of(q.options[r.option].text)).p;
}

static uint32_t first_gate(const tt_drill *d)
{
    const book *b = d->book->book;
    if (d->v->gate.question != TT_NONE) return d->v->gate.question;
    for (uint32_t q = 0; q < b->question_count; q++)
        if (b->questions[q].gate) return q;
    return TT_NONE;
}

static void add_danger(tt_drill *d, tt_drill_miss kind, const char *fix)
{
    const uint32_t gate = first_gate(d);
    const bool named = gate != TT_NONE;
    GROW(d->keep, d->dangers, d->danger_count, d->danger_room);
    d->dangers[d->danger_count++] =
        (tt_drill_danger){kind, fix, named ? question_words(d, gate) : "",
                          !named                         ? ""
                          : kind == TT_DRILL_TRIED_IN_IT ? seen_words(d, gate)
                                                         : told_words(d, gate)};
}

/* ---- a fix ---- */

static const bool *kept_findings(tt_drill *d)
{
    const uint32_t count = d->book->book->question_count;
    bool *keeps = ARENA_ARRAY(d->scratch, bool, count);
    for (uint32_t q = 0; q < count; q++)
        keeps[q] = d->call.fixed[q] || (d->c->now.replies[q] != NULL && !d->c->now.stale[q]);
    return keeps;
}

/* A setting that did not help goes back at once, as it does in a call. */
static tt_status put_all_back(tt_drill *d)
{
    tt_status status = TT_OK;
    for (int i = 0; i < PUT_BACKS_MOST && status == TT_OK && d->v->step == TT_PUT_BACK; i++) {
        const uint32_t fix = d->v->fix;
        note_told(d, (told_event){.kind = TOLD_PUT_BACK, .subject = fix});
        status = tt_put_back(d->c, fix);
        if (status == TT_OK) status = look(d);
    }
    return status;
}

/* An adjustment needs its reading, and whatever has to be known before that is asked; it is one fix
 * here, and either helps or is put back. */
static tt_status read_for(tt_drill *d, uint32_t fix, double *minutes)
{
    tt_status status = TT_OK;
    uint32_t question;
    while (status == TT_OK && (question = adjust_asks(d->c, fix)) != NO_ID) {
        const tt_reply reply = call_reply(&d->call, question, d->times[question]++);
        *minutes += take_minutes(d, question);
        note_told(d, (told_event){.kind = TOLD_ANSWER, .subject = question, .reply = reply});
        status = tt_answer(d->c, question, &reply);
        if (status == TT_OK) status = look(d);
    }
    return status;
}

/* On this call nobody can read what it is set by, or there is no room left for a step. */
static bool can_be_set(tt_drill *d, uint32_t fix)
{
    return adjust_allows(d->c, fix, TT_NO_CHANGE);
}

static tt_outcome carry_out(tt_drill *d, uint32_t fix)
{
    const bool adjusts = d->book->book->fixes[fix].adjust.reading != NO_ID;
    if (!adjusts) return call_fix(&d->call, fix);
    if (!can_be_set(d, fix)) return TT_COULD_NOT;
    made_call then = call_copy(d->scratch, &d->call);
    if (call_fix(&then, fix) != TT_GONE) return TT_NO_CHANGE;
    d->call.size = 0;
    return TT_GONE;
}

static tt_status do_fix(tt_drill *d, uint32_t fix, tt_drill_step *s)
{
    s->minutes = 0;
    tt_status status = read_for(d, fix, &s->minutes);
    if (status != TT_OK) return status;
    s->outcome = carry_out(d, fix);
    if (s->outcome != TT_COULD_NOT) s->minutes += d->book->book->fixes[fix].minutes;
    d->tried[fix] = true;
    status = tt_fix_tried(d->c, fix, s->outcome);
    if (status == TT_OK)
        note_told(d, (told_event){.kind = TOLD_TRIED, .subject = fix, .outcome = s->outcome});
    if (status == TT_OK) status = look(d);
    if (status == TT_OK) status = put_all_back(d);
    if (status != TT_OK) return status;
    for (uint32_t q = 0; q < d->book->book->question_count; q++)
        if (d->c->now.replies[q] == NULL || d->c->now.stale[q]) d->read[q] = false;
    call_settle(&d->call, d->scratch, kept_findings(d));
    if (s->outcome == TT_GONE) d->end = TT_DRILL_CURED;
    return TT_OK;
}

typedef struct trying_fix {
    tt_drill *d;
    uint32_t fix;
    bool *held;
    tt_outcome *outcome;
} trying_fix;

static tt_status try_fix(void *context)
{
    const trying_fix *x = context;
    tt_drill *d = x->d;
    if (d->end != TT_DRILL_GOES_ON || !may_try(d, x->fix)) return TT_NOT_NOW;
    const advice a = drill_advice(d);
    tt_drill_step s = {.fix = true, .text = fix_words(d, x->fix), .result = "", .because = ""};
    tt_status status = add_advice(d, &s, &a, x->fix);
    *x->held = s.held = d->v->gate.state != TT_GATE_OPEN;
    if (s.held)
        add_danger(d,
                   d->v->gate.state == TT_GATE_SHUT ? TT_DRILL_TRIED_IN_IT : TT_DRILL_TRIED_BEFORE,
                   s.text);
    if (status == TT_OK && !s.held) status = do_fix(d, x->fix, &s);
    if (status != TT_OK) return status;
    *x->outcome = s.outcome;
    add_step(d, s);
    return TT_OK;
}

tt_status tt_drill_try(tt_drill *d, uint32_t fix, bool *held, tt_outcome *outcome)
{
    assert(d != NULL && held != NULL && outcome != NULL);
    if (fix >= d->book->book->fix_count) return TT_NOT_NOW;
    return guarded_work(d, try_fix, &(trying_fix){d, fix, held, outcome});
}

tt_status tt_drill_call(tt_drill *d)
{
    assert(d != NULL);
    if (d->end != TT_DRILL_GOES_ON) return TT_NOT_NOW;
    d->end = TT_DRILL_CALLED;
    return TT_OK;
}

/* ---- afterwards ---- */

/* The engine's own way through the same call, with the same luck. */
static tt_status play_engine(tt_drill *d, tt_made_call *made)
{
    const tt_rehearsal_options options = {.seed = d->from.seed, .role = d->role};
    const tt_status status = tt_rehearsal_new(d->book, &options, &d->engine);
    return status == TT_OK ? tt_rehearsal_call(d->engine, ONLY_CALL, made) : status;
}

static void note_engine(tt_drill *d, const tt_made_call *made)
{
    const char **path = ARENA_ARRAY(d->keep, const char *, made->path_count + 1);
    for (uint32_t i = 0; i < made->path_count; i++) {
        const uint32_t fix = tt_fix_find(d->book, made->path[i]),
                       question = tt_question_find(d->book, made->path[i]);
        path[i] = fix != TT_NONE        ? fix_words(d, fix)
                  : question != TT_NONE ? question_words(d, question)
                                        : str_copy(d->keep, str_of(made->path[i])).p;
    }
    d->review.engine_path = path;
    d->review.engine_path_count = made->path_count;
    d->review.engine_minutes = made->minutes;
    d->review.engine_end = made->end;
}

static bool was_gate_asked(const tt_drill *d)
{
    for (uint32_t i = 0; i < d->step_count; i++)
        if (d->steps[i].gate) return true;
    return d->danger_count > 0; /* told already */
}

static tt_status review(void *context)
{
    tt_drill *d = context;
    tt_made_call made;
    if (d->review.engine_end != NULL) return TT_OK;
    const tt_status status = play_engine(d, &made);
    if (status != TT_OK) return status;
    if (!was_gate_asked(d)) add_danger(d, TT_DRILL_NEVER_ASKED, "");
    note_engine(d, &made);
    return TT_OK;
}

tt_status tt_drill_review_of(tt_drill *d, tt_drill_review *out)
{
    assert(d != NULL && out != NULL);
    const tt_status status = guarded_work(d, review, d);
    const double call_out = d->end == TT_DRILL_CURED ? 0 : d->book->book->call_minutes;
    *out = d->review;
    out->steps = d->steps;
    out->step_count = d->step_count;
    out->causes = d->causes;
    out->cause_count = d->cause_count;
    out->dangers = d->dangers;
    out->danger_count = d->danger_count;
    out->minutes = d->minutes + call_out;
    out->call_minutes = d->book->book->call_minutes;
    out->end = d->end;
    return status;
}
