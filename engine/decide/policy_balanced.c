/* Ask, fix or call: the balanced test (engine/choose). What a complaint rests on comes before other
 * questions. */
#include <assert.h>
#include <math.h>

#include "decide/situation.h"

static bool belongs_to_complaint(const tt_case *c, uint32_t question)
{
    assert(question < c->book->book->question_count);
    const net *n = c->book->prog->evidence;
    uint32_t at = n->component_of[question];
    for (uint32_t i = 0; at != NO_COMPONENT && i < n->components[at].symptom_count; i++)
        if (n->components[at].symptoms[i] == c->now.complaint) return true;
    return false;
}

static double bits_of(const situation *s, uint32_t option)
{
    assert(option < s->o->count + s->o->in.again_count);
    return prediction_gain(s->o->in.questions[option].seen, s->c->now.planning,
                           s->o->in.cause_count, NULL);
}

/* A complaint that rests on several answers puts the questions beneath it first, the most telling
 * one at the head. */
uint32_t option_beneath_complaint(situation *s)
{
    uint32_t best = NO_ID;
    double most = -1;
    for (uint32_t i = 0; s->c->now.complaint != NO_ID && i < s->o->count; i++) {
        if (!belongs_to_complaint(s->c, s->o->question_of[i])) continue;
        double bits = bits_of(s, i);
        if (bits > most) best = i;
        if (bits > most) most = bits;
    }
    return best;
}

/* Below this a gain is rounding, which may differ between machines. */
static double clean_bits(double bits)
{
    return fabs(bits) < 1e-12 ? 0 : bits;
}

static const char *reason_words(tt_case *c, const choice *step, bool beneath)
{
    if (beneath) return case_says(c, TEXT_BECAUSE_COMPLAINT);
    if (step->again) return case_says(c, TEXT_BECAUSE_SECOND_LOOK);
    if (step->for_callee) return case_says(c, TEXT_BECAUSE_CALLEE);
    if (step->settles) return case_says(c, TEXT_BECAUSE_SETTLES);
    if (step->saves_minutes >= 0.5)
        return FILL(c->derived, c->in, TEXT_BECAUSE_SAVES,
                    str_printf(c->derived, "%.0f", step->saves_minutes).p);
    if (step->saves_minutes < 0) return case_says(c, TEXT_BECAUSE_NOTHING_LIKELY);
    return case_says(c, TEXT_BECAUSE_QUICK);
}

static uint32_t quantity_of(const tt_case *c, uint32_t question)
{
    return c->book->book->questions[question].kind == QUESTION_QUANTITY ? question : TT_NONE;
}

/* Told also where the step is another: it is the question that would tell most. */
static void show_best_question(situation *s, uint32_t option, bool beneath)
{
    const choice *step = balanced_choice(s);
    if (option == UINT32_MAX) return;
    assert(option < s->o->count + s->o->in.again_count);
    uint32_t asked = s->o->ask_first[option];
    s->view->next =
        (tt_next){.question = asked,
                  .bits = clean_bits(bits_of(s, option)),
                  .minutes = s->c->book->book->questions[asked].minutes,
                  .saves_minutes = isfinite(step->saves_minutes) ? step->saves_minutes : 0,
                  .reason = reason_words(s->c, step, beneath),
                  .quantity = quantity_of(s->c, s->o->question_of[option]),
                  .for_callee = step->for_callee && !beneath,
                  .again = s->o->again_of[option],
                  .with = look_words(s->c, asked, s->o->again_of[option]),
                  .clash = TT_NONE};
}

bool trouble_remains(situation *s)
{
    return !s->c->now.closed;
}

/* Another fix that is done before the lockout is given back, if that is better than giving it back
 * between them. */
static void show_together(situation *s, const choice *step)
{
    if (step->with == UINT32_MAX) return;
    const uint32_t with = s->o->fix_of[step->with];
    s->view->with = with;
    s->view->with_saves = set_up_shared(s->c, s->view->fix, with);
    assert(s->view->with_saves > 0);
}

void balanced_step(situation *s)
{
    uint32_t beneath = option_beneath_complaint(s);
    const choice *step = balanced_choice(s);
    show_best_question(s, beneath != NO_ID ? beneath : step->question, beneath != NO_ID);
    if (beneath != NO_ID || step->step == STEP_ASK) {
        s->view->step = TT_ASK;
    } else if (step->step == STEP_FIX) {
        s->view->step = TT_FIX;
        s->view->fix = s->o->fix_of[step->fix];
        show_together(s, step);
    } else {
        call_step(s);
    }
}
