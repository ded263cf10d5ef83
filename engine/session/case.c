/* A case: its beginning and end, and what is told of it: answers, complaints, pieces, outcomes.
 * Each becomes an event. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "session/session.h"

/* ---- beginning and end ---- */

typedef struct opening {
    tt_case *c;
    const tt_options *options;
} opening;

static tt_status open_case(void *context)
{
    const opening *o = context;
    tt_case *c = o->c;
    const book *b = c->book->book;
    const char *language = o->options == NULL ? NULL : o->options->language;
    c->role = o->options == NULL || o->options->role == TT_NONE ? 0 : o->options->role;
    c->soonest = o->options != NULL && o->options->soonest;
    c->asks_complaint = o->options != NULL && o->options->asks_complaint;
    c->language = language == NULL ? b->language : str_copy(c->keep, str_of(language));
    c->in = tongue_of(cstr(o->c->keep, c->language));
    c->memory = wm_new(c->keep, c->book->prog->rules);
    c->told = ARENA_ARRAY(c->keep, state_mask, b->question_count);
    c->told_known = ARENA_ARRAY(c->keep, bool, b->question_count);
    c->single = belief_room(c->keep, c->book->prog->evidence, 1);
    c->pairs = net_weighs_pairs(c->book->prog->evidence)
                   ? belief_room(c->keep, c->book->prog->evidence, 2)
                   : NULL;
    if (c->role >= b->role_count) return TT_FAULTY;
    c->kind = o->options == NULL ? TT_KIND_FAULT : o->options->kind;
    walk_lay_out(c, o->options == NULL ? TT_DAILY : o->options->every);
    return TT_OK;
}

void case_begin_again(tt_case *c, uint32_t role)
{
    assert(role < c->book->book->role_count && c->kind == TT_KIND_FAULT);
    c->role = role;
    c->speaker = 0;
    c->event_count = 0;
    case_forget(c);
}

const char *tt_case_language(const tt_case *c)
{
    assert(c != NULL && c->language.p != NULL);
    return c->language.p;
}

tt_status tt_case_new(const tt_book *b, const tt_options *settings, tt_case **out)
{
    assert(b != NULL && out != NULL);
    *out = NULL;
    tt_case *c = calloc(1, sizeof *c);
    if (c == NULL) return TT_NO_MEMORY;
    c->book = b;
    c->keep = arena_new(NULL, NULL);
    c->derived = arena_new(NULL, NULL);
    c->scratch = arena_new(NULL, NULL);
    tt_status status = TT_NO_MEMORY;
    if (c->keep != NULL && c->derived != NULL && c->scratch != NULL)
        status = guarded_case(c, open_case, &(opening){c, settings});
    if (status == TT_OK)
        *out = c;
    else
        tt_case_free(c);
    return status;
}

void tt_case_free(tt_case *c)
{
    if (c == NULL) return;
    arena_free(c->keep);
    arena_free(c->derived);
    arena_free(c->scratch);
    free(c);
}

/* ---- changes ---- */

typedef struct change {
    tt_case *c;
    uint32_t subject;
    const tt_reply *given;
    tt_outcome outcome;
    uint32_t with; /* OUTCOME: another fix under the same lockout, or TT_NONE */
    bool unaware;
    uint32_t first_unseen;
    tt_again again;
} change;

static uint64_t answers_mask(const struct question *q, uint64_t options_mask)
{
    assert(q->answer_count <= 64);
    uint64_t mask = 0;
    for (uint32_t i = 0; i < q->answer_count; i++)
        if (((options_mask >> i) & 1) != 0) mask |= (uint64_t)1 << q->shown_order[i];
    return mask;
}

static bool read_likely(arena *keep, const struct question *q, const double *given, reply *r)
{
    assert(q->kind == QUESTION_CHOICE && given != NULL);
    double *weights = ARENA_ARRAY(keep, double, q->answer_count), sum = 0;
    for (uint32_t i = 0; i < q->answer_count; i++) {
        if (!(given[i] >= 0) || !isfinite(given[i])) return false;
        weights[q->shown_order[i]] = given[i];
        sum += given[i];
    }
    r->kind = REPLY_LIKELY;
    r->weights = weights;
    return sum > 0;
}

/* In the unit it was given in, else in the one that people at the site read. */
static bool read_given_number(arena *keep, const book *b, const struct question *q,
                              const tt_reply *given, double *number)
{
    unit in = book_shown_unit(b, &q->in);
    str bad;
    if (given->unit != NULL && (unit_read(keep, str_copy(keep, str_of(given->unit)), &q->in.dim,
                                          &in, &bad) != UNIT_FOUND ||
                                !unit_fits(&in, &q->in)))
        return false;
    assert(unit_fits(&in, &q->in));
    *number = unit_convert(&in, &q->in, given->number);
    return true;
}

/* A count is whole and none is below 0, whichever way it comes. */
static bool can_be_read(const struct question *q, double number)
{
    const bool countable = q->kind != QUESTION_COUNT || (number >= 0 && floor(number) >= number);
    return isfinite(number) && countable && is_plausible(q, number);
}

/* Options are numbered as shown, answers by name. */
static bool read_reply(arena *keep, const book *b, const struct question *q, const tt_reply *given,
                       reply *r)
{
    bool choice = q->kind == QUESTION_CHOICE;
    uint64_t all =
        choice && q->answer_count < 64 ? ((uint64_t)1 << q->answer_count) - 1 : ~(uint64_t)0;
    switch (given->kind) {
    case TT_UNSURE:
    case TT_CANNOT:
        r->kind = REPLY_UNSURE;
        return true;
    case TT_ANSWER:
        if (!choice || given->option >= q->answer_count) return false;
        r->kind = REPLY_ANSWER;
        r->answer = q->shown_order[given->option];
        assert(r->answer < q->answer_count);
        return true;
    case TT_NUMBER:
        r->kind = REPLY_READING;
        if (choice || !read_given_number(keep, b, q, given, &r->number)) return false;
        return can_be_read(q, r->number);
    case TT_NOT:
        r->kind = REPLY_NOT;
        r->excluded = choice ? answers_mask(q, given->not_options) : 0;
        return choice && r->excluded != 0 && r->excluded != all;
    case TT_LIKELY:
        return choice && given->weights != NULL && read_likely(keep, q, given->weights, r);
    }
    return false;
}

static tt_status do_answer(void *context)
{
    assert(context != NULL && ((const change *)context)->given != NULL);
    const change *x = context;
    tt_case *c = x->c;
    if (x->subject >= c->book->book->question_count) return TT_FAULTY;
    event e = {.kind = EVENT_ANSWER,
               .subject = x->subject,
               .cannot = x->given->kind == TT_CANNOT,
               .again = x->again != TT_FIRST_LOOK,
               .another = x->again == TT_LOOK_ANOTHER,
               .unaware = x->unaware,
               .first_unseen = x->first_unseen,
               .reply = {.question = x->subject, .at = span_nowhere()}};
    if (!read_reply(c->keep, c->book->book, &c->book->book->questions[x->subject], x->given,
                    &e.reply))
        return TT_FAULTY;
    case_push(c, e);
    return TT_OK;
}

tt_status tt_answer(tt_case *c, uint32_t question, const tt_reply *reply)
{
    return guarded_case(c, do_answer, &(change){.c = c, .subject = question, .given = reply});
}

tt_status tt_answer_unaware(tt_case *c, uint32_t question, const tt_reply *reply,
                            uint32_t first_unseen)
{
    change x = {
        .c = c, .subject = question, .given = reply, .unaware = true, .first_unseen = first_unseen};
    return guarded_case(c, do_answer, &x);
}

tt_status tt_answer_again(tt_case *c, uint32_t question, const tt_reply *reply, tt_again how)
{
    assert(how != TT_FIRST_LOOK);
    change x = {.c = c, .subject = question, .given = reply, .again = how};
    const book *b = c->book->book;
    if (question >= b->question_count || b->questions[question].gate) return TT_FAULTY;
    return guarded_case(c, do_answer, &x);
}

static tt_status check_reply(void *context)
{
    const change *x = context;
    const book *b = x->c->book->book;
    reply r = {.question = x->subject};
    if (x->subject >= b->question_count) return TT_FAULTY;
    return read_reply(x->c->scratch, b, &b->questions[x->subject], x->given, &r) ? TT_OK
                                                                                 : TT_FAULTY;
}

tt_status tt_reply_fits(tt_case *c, uint32_t question, const tt_reply *reply)
{
    return guarded_case(c, check_reply, &(change){.c = c, .subject = question, .given = reply});
}

static tt_status check_safe(void *context)
{
    const change *x = context;
    const struct question *q = &x->c->book->book->questions[x->subject];
    reply r = {.question = x->subject};
    const bool read = read_reply(x->c->scratch, x->c->book->book, q, x->given, &r);
    return read && reply_is_safe(q, &r) ? TT_OK : TT_FAULTY;
}

tt_status case_reply_safe(tt_case *c, uint32_t question, const tt_reply *given)
{
    assert(question < c->book->book->question_count && c->book->book->questions[question].gate);
    change x = {.c = c, .subject = question, .given = given};
    return guarded_case(c, check_safe, &x);
}

static tt_status do_retract(void *context)
{
    const change *x = context;
    if (x->subject >= x->c->book->book->question_count) return TT_FAULTY;
    case_push(x->c, (event){.kind = EVENT_RETRACT, .subject = x->subject});
    return TT_OK;
}

/* A danger that was told by an answer ends only by another one. */
tt_status tt_retract(tt_case *c, uint32_t question)
{
    const book *b = c->book->book;
    bool gate = question < b->question_count && b->questions[question].gate;
    tt_status status = gate ? case_known(c) : TT_OK;
    if (status == TT_OK && gate && sitting_told_danger(c, question)) status = TT_NOT_NOW;
    if (status != TT_OK) return status;
    return guarded_case(c, do_retract, &(change){.c = c, .subject = question});
}

void case_complain(tt_case *c, uint32_t symptom)
{
    const book *b = c->book->book;
    const struct symptom *s = &b->symptoms[symptom];
    bool about = s->of.piece != NO_ID;
    uint32_t *piece = ARENA_NEW(c->keep, uint32_t);
    *piece = s->of.piece;
    const ids pieces = {piece, about ? 1 : 0};
    if (!s->rests_on_one) {
        case_push(
            c,
            (event){.kind = EVENT_COMPLAINT, .subject = symptom, .about = about, .pieces = pieces});
        return;
    }
    assert(s->one_question < b->question_count &&
           s->one_answer < b->questions[s->one_question].answer_count);
    reply said = {.kind = REPLY_ANSWER,
                  .question = s->one_question,
                  .answer = s->one_answer,
                  .at = span_nowhere()};
    case_push(c, (event){.kind = EVENT_ANSWER,
                         .subject = s->one_question,
                         .complaint = true,
                         .reply = said,
                         .about = about,
                         .pieces = pieces});
}

static tt_status do_complain(void *context)
{
    const change *x = context;
    if (x->subject >= x->c->book->book->symptom_count) return TT_FAULTY;
    case_complain(x->c, x->subject);
    return TT_OK;
}

tt_status tt_complain(tt_case *c, uint32_t symptom)
{
    return guarded_case(c, do_complain, &(change){.c = c, .subject = symptom});
}

typedef struct focusing {
    tt_case *c;
    const uint32_t *pieces;
    uint32_t count;
} focusing;

static tt_status do_focus(void *context)
{
    const focusing *x = context;
    assert(x->count == 0 || x->pieces != NULL);
    uint32_t *pieces = ARENA_ARRAY(x->c->keep, uint32_t, x->count);
    for (uint32_t i = 0; i < x->count; i++) {
        if (x->pieces[i] >= x->c->book->book->piece_count) return TT_FAULTY;
        pieces[i] = x->pieces[i];
    }
    if (x->count > 0) case_push(x->c, (event){.kind = EVENT_FOCUS, .pieces = {pieces, x->count}});
    return x->count > 0 ? TT_OK : TT_FAULTY;
}

tt_status tt_focus(tt_case *c, const uint32_t *pieces, uint32_t count)
{
    return guarded_case(c, do_focus, &(focusing){c, pieces, count});
}

static tt_status do_outcome(void *context)
{
    const change *x = context;
    if (x->subject >= x->c->book->book->fix_count) return TT_FAULTY;
    if (!adjust_allows(x->c, x->subject, x->outcome)) return TT_NOT_NOW;
    const bool together = x->with != TT_NONE;
    if (together && (x->with >= x->c->book->book->fix_count || x->with == x->subject))
        return TT_FAULTY;
    if (together && !fixes_share_set_up(x->c, x->subject, x->with)) return TT_FAULTY;
    case_push(x->c, (event){.kind = EVENT_OUTCOME,
                            .subject = x->subject,
                            .outcome = x->outcome,
                            .together = together,
                            .with = x->with});
    return TT_OK;
}

tt_status tt_fix_tried(tt_case *c, uint32_t fix, tt_outcome outcome)
{
    return tt_fixes_tried(c, fix, TT_NONE, outcome);
}

tt_status tt_fixes_tried(tt_case *c, uint32_t fix, uint32_t with, tt_outcome outcome)
{
    tt_status status = case_known(c);
    if (status != TT_OK) return status;
    return guarded_case(c, do_outcome,
                        &(change){.c = c, .subject = fix, .with = with, .outcome = outcome});
}

static tt_status do_put_back(void *context)
{
    const change *x = context;
    if (x->subject >= x->c->book->book->fix_count) return TT_FAULTY;
    if (!fix_changed_in_vain(x->c, x->subject) || x->c->now.restored[x->subject]) return TT_NOT_NOW;
    case_push(x->c, (event){.kind = EVENT_PUT_BACK, .subject = x->subject});
    return TT_OK;
}

tt_status tt_put_back(tt_case *c, uint32_t fix)
{
    tt_status status = case_known(c);
    if (status != TT_OK) return status;
    return guarded_case(c, do_put_back, &(change){.c = c, .subject = fix});
}
