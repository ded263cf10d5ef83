/* Some of the worked cases, or one by itself, for whoever shares them out or wants to see where it
 * ends. */
#include <assert.h>

#include "rehearse/trying.h"

typedef struct trying_shared {
    trying t;
    const tt_sharing *how;
} trying_shared;

static tt_status run_shared(void *context)
{
    trying_shared *x = context;
    tt_status status = TT_OK;
    uint32_t index;
    trial_room(&x->t);
    while (status == TT_OK && x->how->next(x->how->context, &index)) {
        assert(index < x->t.book->book->case_count);
        status = trial_run(&x->t, index);
        if (status == TT_OK) x->how->told(x->how->context, index, &x->t.trials[index]);
    }
    return status;
}

tt_status tt_try_shared(tt_book *b, const tt_sharing *how)
{
    assert(b != NULL && how->next != NULL && how->told != NULL);
    trying_shared x = {.t = {.book = b}, .how = how};
    const tt_status status = guarded(&b->keep, 1, run_shared, &x);
    tt_case_free(x.t.c);
    return status;
}

/* ---- one by itself ---- */

const char *tt_worked_case(const tt_book *b, uint32_t index)
{
    return index < b->book->case_count ? b->book->cases[index].id.name.p : NULL;
}

bool tt_worked_case_is_long(const tt_book *b, uint32_t index)
{
    assert(index < b->book->case_count);
    const worked_case *w = &b->book->cases[index];
    return w->next_question != NO_ID || w->danger != CASE_ANYHOW || w->never_asked.count > 0 ||
           w->never_offered.count > 0;
}

bool tt_worked_case_hears(const tt_book *b, uint32_t index)
{
    assert(index < b->book->case_count);
    return b->book->cases[index].hears_count > 0;
}

typedef struct trying_one {
    trying t;
    uint32_t index;
} trying_one;

/* Looking for what is never asked goes on from there, so it is told once more. */
static tt_status run_just_one(void *context)
{
    trying_one *x = context;
    const worked_case *w = &x->t.book->book->cases[x->index];
    const tt_view *v;
    trial_room(&x->t);
    tt_status status = trial_run(&x->t, x->index);
    if (status == TT_OK) status = trial_play(&x->t, w, &v);
    if (status != TT_OK) return status;
    x->t.c->wordless = x->t.c->fresh = false;
    return TT_OK;
}

tt_status tt_try_case(tt_book *b, uint32_t index, tt_trial *trial, tt_case **out)
{
    assert(index < b->book->case_count);
    trying_one x = {.t = {.book = b}, .index = index};
    tt_status status = guarded(&b->keep, 1, run_just_one, &x);
    *out = status == TT_OK ? x.t.c : NULL;
    if (status != TT_OK)
        tt_case_free(x.t.c);
    else
        *trial = x.t.trials[index];
    return status;
}
