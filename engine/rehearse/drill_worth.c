/* What a look of a drill is worth: by how much it moves the odds of what is wrong. The decibels are
 * those of the weight of evidence (docs/mathematics.md). */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "rehearse/drawn_quantity.h"
#include "rehearse/drill.h"

static const double least_chance = 1e-6; /* beyond it odds are as good as certain */

advice drill_advice(const tt_drill *d)
{
    switch (d->v->step) {
    case TT_ASK:
        return (advice){false, false, d->v->next.question};
    case TT_FIX:
    case TT_PUT_BACK:
        return (advice){true, false, d->v->fix};
    default:
        return (advice){false, true, TT_NONE};
    }
}

static bool is_wrong(const tt_drill *d, const char *cause)
{
    const book *b = d->book->book;
    if (cause == NULL) return d->cause_count == 1 && d->wrong[0] == NO_ID;
    for (uint32_t i = 0; i < d->cause_count; i++)
        if (d->wrong[i] != NO_ID && str_eq(b->causes[d->wrong[i]].id.name, str_of(cause)))
            return true;
    return false;
}

/* Of two things that are wrong the likelier one counts. */
double drill_odds(const tt_drill *d, const tt_view *v)
{
    double chance = 0;
    for (uint32_t i = 0; i < v->cause_count; i++)
        if (is_wrong(d, v->causes[i].name)) chance = fmax(chance, v->causes[i].chance);
    chance = fmin(1 - least_chance, fmax(least_chance, chance));
    return 10 * log10(chance / (1 - chance));
}

static tt_status tell_again(tt_case *c, const told_event *e)
{
    switch (e->kind) {
    case TOLD_COMPLAINT:
        return tt_complain(c, e->subject);
    case TOLD_ANSWER:
        return tt_answer(c, e->subject, &e->reply);
    case TOLD_TRIED:
        return tt_fix_tried(c, e->subject, e->outcome);
    case TOLD_PUT_BACK:
        return tt_put_back(c, e->subject);
    }
    assert(false);
    return TT_NOT_NOW;
}

static tt_status told_so_far(tt_drill *d)
{
    const tt_options options = {.role = d->role, .language = d->language};
    tt_status status = tt_case_new(d->book, &options, &d->other);
    for (uint32_t i = 0; i < d->told_count && status == TT_OK; i++)
        status = tell_again(d->other, &d->told[i]);
    return status;
}

tt_status drill_worth(tt_drill *d, uint32_t question, double *decibels)
{
    const tt_view *v = NULL;
    const uint32_t count = d->book->book->question_count;
    uint32_t *times = ARENA_ARRAY(d->scratch, uint32_t, count);
    memcpy(times, d->times, count * sizeof *times);
    const double before = drill_odds(d, d->v);
    bool changed = false;
    assert(question < count);
    tt_status status = told_so_far(d);
    const tt_reply reply = call_reply(&d->call, question, times[question]++);
    if (status == TT_OK) status = tt_answer(d->other, question, &reply);
    if (status == TT_OK) status = tt_look(d->other, &v);
    if (status == TT_OK) status = call_tell_quantities(&d->call, d->other, times, &changed);
    if (status == TT_OK && changed) status = tt_look(d->other, &v);
    if (status == TT_OK) *decibels = drill_odds(d, v) - before;
    tt_case_free(d->other);
    d->other = NULL;
    return status;
}
