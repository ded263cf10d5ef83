/* Why a question is asked: reasons in plain words, figures for authors. */
#include <assert.h>

#include "base/sorted.h"
#include "decide/weighed.h"

typedef struct asking_why {
    tt_case *c;
    uint32_t subject;
    tt_reason *reasons;
    uint32_t count;
} asking_why;

/* ---- why is this asked ---- */

const double *row_of(const prediction *p, uint32_t hypothesis)
{
    if (hypothesis == 0) return p->other;
    uint32_t row = place_of_id(p->listed, p->listed_count, hypothesis - 1);
    return row < p->listed_count ? p->rows + (size_t)row * p->states : p->base;
}

/* The likeliest cause if the answer were y, and its chance. */
static uint32_t leader_after(const tt_case *c, const prediction *p, uint32_t y, double *chance)
{
    assert(y < p->states);
    uint32_t causes = c->book->book->cause_count, best = 0;
    double total = 0, most = -1;
    for (uint32_t h = 0; h <= causes; h++) {
        double weight = c->now.planning[h] * row_of(p, h)[y];
        total += weight;
        if (weight > most) {
            most = weight;
            best = h;
        }
    }
    *chance = total > 0 ? most / total : 0;
    return best;
}

const char *state_words(tt_case *c, uint32_t question, uint32_t state)
{
    assert(question < c->book->book->question_count);
    const struct question *q = &c->book->book->questions[question];
    if (q->kind == QUESTION_CHOICE)
        return reply_words(c, question,
                           &(reply){.kind = REPLY_ANSWER, .question = question, .answer = state});
    return c->book->prog->rules == NULL
               ? ""
               : logic_source(c->book->prog->rules)->findings[question].state_names[state].p;
}

static void say(asking_why *w, const char *line)
{
    assert(line != NULL && w->count < 4 * EXPR_STATES_MAX + 5);
    w->reasons[w->count++] = (tt_reason){line, false};
}

/* Figures and places in files mean something to whoever writes rules, and to nobody else. */
static void say_to_authors(asking_why *w, const char *line)
{
    assert(line != NULL && w->count < 4 * EXPR_STATES_MAX + 5);
    w->reasons[w->count++] = (tt_reason){line, true};
}

static const char *leader_words(tt_case *c, uint32_t leader)
{
    return leader == 0 ? case_says(c, TEXT_SOMETHING_ELSE_THEN)
                       : case_text(c, &c->book->book->causes[leader - 1].text);
}

/* The same cause would lead whatever is answered. */
static bool leads_all_the_same(const tt_case *c, const prediction *p)
{
    double chance;
    const uint32_t leader = leader_after(c, p, 0, &chance);
    for (uint32_t y = 1; y < p->states; y++)
        if (leader_after(c, p, y, &chance) != leader) return false;
    return p->states > 1;
}

static void say_what_answers_mean(asking_why *w)
{
    tt_case *c = w->c;
    const bool reckoned = c->book->book->questions[w->subject].kind == QUESTION_QUANTITY;
    const evidence seen = case_evidence(c);
    prediction p = belief_predict(c->derived, c->now.single, &seen, w->subject);
    const bool same = leads_all_the_same(c, &p);
    for (uint32_t y = 0; y < p.states; y++) {
        double chance;
        const char *cause = leader_words(c, leader_after(c, &p, y, &chance)),
                   *state = state_words(c, w->subject, y);
        if (same && y == 0) say(w, FILL(c->derived, c->in, TEXT_WHATEVER_COMES, cause));
        if (!same)
            say(w, FILL(c->derived, c->in, reckoned ? TEXT_IF_COMES_TO : TEXT_IF_ANSWER, state,
                        cause));
        say_to_authors(w, FILL(c->derived, c->in, TEXT_IF_FIGURES, state, cause,
                               str_printf(c->derived, "%.0f", 100 * chance).p));
    }
}

/* It is read for a quantity: what that would tell. */
static void say_quantity(asking_why *w)
{
    tt_case *c = w->c;
    uint32_t reading = w->subject, quantity = c->view.next.quantity;
    say(w, FILL(c->derived, c->in, TEXT_READING_FOR,
                case_text(c, &c->book->book->questions[quantity].ask)));
    w->subject = quantity;
    if (c->book->prog->is_evidence[quantity]) say_what_answers_mean(w);
    w->subject = reading;
}

static tt_status why_asked(void *context)
{
    asking_why *w = context;
    tt_case *c = w->c;
    if (w->subject >= c->book->book->question_count) return TT_FAULTY;
    const struct question *q = &c->book->book->questions[w->subject];
    w->reasons = ARENA_ARRAY(c->derived, tt_reason, 4 * EXPR_STATES_MAX + 6);
    if (q->because.count > 0) say(w, case_text(c, &q->because));
    if (c->view.next.question == w->subject) say(w, c->view.next.reason);
    if (q->about != ABOUT_FAULT) say(w, case_says(c, TEXT_IS_A_FACT));
    if (c->view.next.question == w->subject && c->view.next.quantity != TT_NONE) say_quantity(w);
    if (c->book->prog->is_evidence[w->subject]) say_what_answers_mean(w);
    say_to_authors(
        w, FILL(c->derived, c->in, TEXT_WRITTEN_IN, place_words(c->derived, c->book, q->id.at)));
    return TT_OK;
}

tt_status tt_why_asked(tt_case *c, uint32_t question, const tt_reason **reasons, uint32_t *count)
{
    assert(reasons != NULL && count != NULL);
    const tt_view *view;
    asking_why w = {.c = c, .subject = question};
    tt_status status = tt_look(c, &view);
    if (status == TT_OK) status = guarded_case(c, why_asked, &w);
    *reasons = w.reasons;
    *count = status == TT_OK ? w.count : 0;
    return status;
}
