/* What was cured at this site before, and how much likelier that makes each cause now. */
#include <assert.h>
#include <math.h>

#include "believe/recurrence.h"
#include "session/session.h"

/* Of what was confirmed it is known which; of what a fix ended, it was one that the fix cures. */
static const double *what_it_was(tt_case *c, const tt_cure *cure)
{
    const book *b = c->book->book;
    double *of = ARENA_ARRAY(c->keep, double, b->cause_count), sum = 0;
    const uint32_t cause = book_cause(b, str_of(cure->cause)), fix = book_fix(b, str_of(cure->fix));
    if (cause != NO_ID) of[cause] = 1;
    if (cause != NO_ID || fix == NO_ID) return of;
    const struct fix *f = &b->fixes[fix];
    for (uint32_t i = 0; i < f->cures_count; i++) {
        of[f->cures[i].cause] = b->causes[f->cures[i].cause].how_often * f->cures[i].chance;
        sum += of[f->cures[i].cause];
    }
    for (uint32_t i = 0; i < f->cures_count && sum > 0; i++) of[f->cures[i].cause] /= sum;
    return of;
}

static const past_cure *all_cures(tt_case *c, const tt_cured *past)
{
    past_cure *all = ARENA_ARRAY(c->keep, past_cure, past->count);
    for (uint32_t i = 0; i < past->count; i++) {
        const tt_cure *cure = &past->cures[i];
        assert(i == 0 || cure->days <= past->cures[i - 1].days);
        all[i] = (past_cure){what_it_was(c, cure), fmax(0, cure->days), cure->came_back};
    }
    return all;
}

static void add_roots(tt_case *c, recurrence_input *in)
{
    const book *b = c->book->book;
    const uint32_t **roots = ARENA_ARRAY(c->keep, const uint32_t *, b->cause_count);
    uint32_t *count = ARENA_ARRAY(c->keep, uint32_t, b->cause_count);
    for (uint32_t i = 0; i < b->cause_count; i++) {
        roots[i] = b->causes[i].brought_on_by.items;
        count[i] = b->causes[i].brought_on_by.count;
    }
    in->roots = roots;
    in->root_count = count;
}

static const double *returns(tt_case *c)
{
    const book *b = c->book->book;
    double *all = ARENA_ARRAY(c->keep, double, b->cause_count);
    for (uint32_t i = 0; i < b->cause_count; i++) all[i] = b->causes[i].comes_back;
    return all;
}

static const double *shares(tt_case *c)
{
    const book *b = c->book->book;
    double *share = ARENA_ARRAY(c->keep, double, b->cause_count), sum = 0;
    for (uint32_t i = 0; i < b->cause_count; i++) sum += b->causes[i].how_often;
    for (uint32_t i = 0; i < b->cause_count && sum > 0; i++)
        share[i] = b->causes[i].how_often / sum;
    return share;
}

typedef struct telling {
    tt_case *c;
    const tt_cured *past;
} telling;

static tt_status take(void *context)
{
    const telling *t = context;
    tt_case *c = t->c;
    recurrence_input in = {.share = shares(c),
                           .returns = returns(c),
                           .cause_count = c->book->book->cause_count,
                           .cures = all_cures(c, t->past),
                           .cure_count = t->past->count,
                           .calls = t->past->calls,
                           .days = fmax(0, t->past->days)};
    add_roots(c, &in);
    c->returns = recurrence_factors(c->keep, &in);
    case_forget(c);
    return TT_OK;
}

tt_status tt_cured_before(tt_case *c, const tt_cured *past)
{
    assert(c != NULL && past != NULL);
    return guarded_case(c, take, &(telling){c, past});
}
