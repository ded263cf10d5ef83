/* The cases of a site as one story: its readings over time, what is reckoned from them, what came
 * back, and the days without a round. */
#include <math.h>
#include <stdlib.h>

#include "base/guard.h"
#include "base/sorted.h"
#include "history/telling.h"

struct tt_story {
    arena *keep;
    tt_site_story out;
};

const char *tt_mark_name(tt_mark_kind kind)
{
    static const char *const names[TT_MARKS] = {"set", "fix"};
    assert((unsigned)kind < TT_MARKS);
    return names[kind];
}

/* ---- the cases ---- */

typedef struct begun {
    double days;
    uint32_t index;
} begun;

static int by_beginning(const void *left, const void *right)
{
    const begun *a = left, *b = right;
    const int order = THREE_WAY(a->days, b->days);
    return order != 0 ? order : THREE_WAY(a->index, b->index);
}

/* In the book's words, in the language of the story; else in those it was kept with. */
static const char *words_kept(const telling *t, tt_named what, const char *name, const char *text)
{
    const char *called = tt_named_text(t->c, what, name);
    return called != NULL ? called : text;
}

static tt_past_case case_told(const telling *t, const tt_past_case *kept)
{
    tt_past_case c = *kept;
    c.says.complaint = words_kept(t, TT_NAMED_COMPLAINT, c.says.complaint_name, c.says.complaint);
    c.says.cause = words_kept(t, TT_NAMED_CAUSE, c.says.cause_name, c.says.cause);
    c.fix_text = words_kept(t, TT_NAMED_FIX, c.fix, c.fix_text);
    return c;
}

/* What can't be placed in time comes first. */
static void order_cases(telling *t)
{
    begun *all = ARENA_ARRAY(t->keep, begun, t->case_count + 1);
    for (uint32_t i = 0; i < t->case_count; i++) {
        const double days = telling_days(t->cases[i].says.began);
        all[i] = (begun){isfinite(days) ? days : -INFINITY, i};
    }
    SORT(all, t->case_count, by_beginning);
    t->in_order = ARENA_ARRAY(t->keep, uint32_t, t->case_count + 1);
    tt_past_case *told = ARENA_ARRAY(t->keep, tt_past_case, t->case_count + 1);
    for (uint32_t i = 0; i < t->case_count; i++) {
        t->in_order[i] = all[i].index;
        told[i] = case_told(t, &t->cases[all[i].index]);
    }
    t->out.cases = told;
    t->out.case_count = t->case_count;
}

static const char *day_of(telling *t, const char *time)
{
    tt_moment m;
    return tt_moment_read(time, &m) ? str_printf(t->keep, "%.10s", time).p : "";
}

static void tell_head(telling *t)
{
    t->out.book = telling_copy(t, tt_book_title(t->book, t->language));
    t->out.site = telling_copy(t, tt_site_title(t->book, t->language));
    t->out.from = t->out.to = "";
    for (uint32_t i = 0; i < t->case_count; i++) {
        const char *day = day_of(t, t->out.cases[i].says.began);
        if (*t->out.from == 0) t->out.from = day;
        if (*day != 0) t->out.to = day;
    }
}

/* ---- the public face ---- */

static void tell(telling *t)
{
    t->readings = tt_past_readings(t->past, &t->reading_count);
    t->cases = tt_past_cases(t->past, &t->case_count);
    order_cases(t);
    t->out.language = telling_copy(t, tt_case_language(t->c));
    tell_head(t);
    tell_readings(t);
    tell_reckoned(t);
    tell_returned(t);
    tell_rounds(t);
    t->out.series = t->series;
}

static tt_status tell_guarded(telling *t)
{
    guard way_out;
    const tt_options options = {.role = TT_NONE, .language = t->language};
    tt_status status = tt_case_new(t->book, &options, &t->c);
    if (status != TT_OK) return status;
    arena_guard(t->keep, &way_out);
    const bool ended = setjmp(way_out.place) != 0;
    if (!ended) tell(t);
    arena_guard(t->keep, NULL);
    tt_case_free(t->at_work);
    tt_case_free(t->c);
    return ended ? TT_NO_MEMORY : TT_OK;
}

tt_status tt_story_new(const tt_book *book, const tt_past *past, const char *now,
                       const char *language, tt_story **out)
{
    assert(book != NULL && past != NULL && now != NULL);
    *out = NULL;
    arena *keep = arena_new(NULL, NULL);
    tt_story *s = keep != NULL ? arena_try(keep, sizeof *s) : NULL;
    telling *t = s != NULL ? arena_try(keep, sizeof *t) : NULL;
    if (t == NULL) {
        arena_free(keep);
        return TT_NO_MEMORY;
    }
    *t = (telling){.keep = keep, .book = book, .past = past, .language = language};
    tt_status status = TT_FAULTY;
    if (tt_moment_read(now, &t->now)) status = tell_guarded(t);
    *s = (tt_story){keep, t->out};
    if (status == TT_OK)
        *out = s;
    else
        arena_free(keep);
    return status;
}

void tt_story_free(tt_story *s)
{
    if (s != NULL) arena_free(s->keep);
}

const tt_site_story *tt_story_look(const tt_story *s)
{
    assert(s != NULL);
    return &s->out;
}
