/* A site over time, in words: each reading with a small line, the days without a round; last, where
 * it stays on the screen, the faults and what came back. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "face/history.h"
#include "face/history_strip.h"
#include "face/speaker.h"
#include "host/plain_text.h"
#include "show/case_fields.h"

enum {
    CELLS_MOST = 60,
    CELLS_LEAST = 10,
    MONTHS_SHOWN = 24,
    MARGIN = 4 /* of a line that is not wrapped */,
    LABELS_FROM = 60
};

/* ---- one reading ---- */

typedef struct label_widths {
    unsigned lowest, highest;
} label_widths;

static unsigned wider(unsigned widest, const char *words)
{
    const size_t width = display_width(words, strlen(words));
    return width > widest ? (unsigned)width : widest;
}

/* On a narrow screen a line has no labels: the lowest and the highest stand beneath it in words. */
static label_widths labels_of(const screen *s, const tt_site_story *story)
{
    label_widths l = {0, 0};
    if (s->width > 0 && s->width < LABELS_FROM) return l;
    for (uint32_t i = 0; i < story->series_count; i++) {
        const tt_series *x = &story->series[i];
        if (x->point_count < 2) continue;
        const series_ends ends = ends_of(x);
        l.lowest = wider(l.lowest, ends.low->words);
        l.highest = wider(l.highest, ends.high->words);
    }
    return l;
}

static unsigned cells_for(const screen *s, const label_widths *l)
{
    const unsigned labels = l->lowest > 0 ? l->lowest + l->highest + 2 : 0,
                   around = MARGIN + labels;
    if (s->width == 0) return CELLS_MOST;
    if (s->width < around + CELLS_LEAST) return 0;
    return s->width - around < CELLS_MOST ? s->width - around : CELLS_MOST;
}

typedef struct history_words {
    speaker by;
    const tt_site_story *story;
    label_widths labels;
    strip_span span;
    bool plain;
} history_words;

static const char *day(const history_words *w, const char *time)
{
    return arena_text(w->by.keep, "%.10s", time);
}

static void say_title(const history_words *w, text_id id)
{
    say_nothing(w->by.s);
    speak(&w->by, "", id);
}

static const char *blanks(const history_words *w, size_t count)
{
    return arena_text(w->by.keep, "%*s", (int)count, "");
}

static void draw(const history_words *w, const tt_series *s)
{
    strip drawn;
    if (w->plain || !strip_of(w->by.keep, &w->span, s, &drawn)) return;
    const series_ends ends = ends_of(s);
    const bool beside = w->labels.lowest > 0;
    const size_t own = display_width(ends.low->words, strlen(ends.low->words));
    assert(!beside || own <= w->labels.lowest);
    const char *lead = beside ? arena_text(w->by.keep, "%s%s ", blanks(w, w->labels.lowest - own),
                                           ends.low->words)
                              : "",
               *tail = beside ? arena_text(w->by.keep, " %s", ends.high->words) : "";
    say_command(w->by.s, arena_text(w->by.keep, "%s%s%s", lead, drawn.line, tail));
    if (*drawn.marks == 0) return;
    say_command(w->by.s, arena_text(w->by.keep, "%s%s",
                                    blanks(w, beside ? w->labels.lowest + 1 : 0), drawn.marks));
}

static void say_good(const history_words *w, const tt_series *s)
{
    if (!s->may_have_good) return;
    if (!s->has_good)
        speak(&w->by, "  ", HISTORY_NO_GOOD);
    else if (*s->good_day != 0)
        SPEAK(&w->by, "  ", HISTORY_GOOD_ON, s->good_words, s->good_day);
    else
        SPEAK(&w->by, "  ", HISTORY_GOOD, s->good_words);
}

static void say_range(const history_words *w, const tt_series *s)
{
    const tt_point *last = &s->points[s->point_count - 1];
    const series_ends ends = ends_of(s);
    if (s->point_count == 1) {
        SPEAK(&w->by, "  ", s->reckoned ? HISTORY_ONE_VALUE : HISTORY_ONE, last->words,
              day(w, last->time));
        return;
    }
    SPEAK(&w->by, "  ", s->reckoned ? HISTORY_VALUES : HISTORY_RANGE, whole(&w->by, s->point_count),
          ends.low->words, ends.high->words, last->words, day(w, last->time));
}

static void say_trend(const history_words *w, const tt_series *s)
{
    if (s->beyond) speak(&w->by, "  ", HISTORY_BEYOND);
    if (!s->trend_known) return;
    if (s->trend == TT_RISING) SPEAK(&w->by, "  ", HISTORY_UP, s->per_week);
    if (s->trend == TT_FALLING) SPEAK(&w->by, "  ", HISTORY_DOWN, s->per_week);
    if (s->trend == TT_JUMP) SPEAK(&w->by, "  ", HISTORY_JUMPED, s->jumped_after, s->jumped_before);
    if (s->trend == TT_STEADY) speak(&w->by, "  ", HISTORY_STEADY);
}

static void say_missing(const history_words *w, const tt_series *s)
{
    if (*s->why != 0) {
        SPEAK(&w->by, "  ", HISTORY_NO_VALUE, s->why);
        return;
    }
    speak(&w->by, "  ", HISTORY_NOT_KNOWN);
    for (uint32_t i = 0; i < s->missing_count; i++) {
        const char *ask = s->missing[i].ask;
        say_item(w->by.s, "  - ", "%s",
                 s->missing[i].of_site ? FILL(w->by.keep, w->by.in, HISTORY_FILE_OR_RECORD, ask)
                                       : ask);
    }
}

static void say_marks(const history_words *w, const tt_series *s)
{
    for (uint32_t i = 0; i < s->mark_count; i++) {
        const tt_mark *m = &s->marks[i];
        const char *of = m->kind == TT_MARK_SET
                             ? FILL(w->by.keep, w->by.in, HISTORY_SET, day(w, m->time), m->text)
                             : FILL(w->by.keep, w->by.in, HISTORY_FIX, day(w, m->time), m->text);
        say_item(w->by.s, "  - ", "%s", of);
    }
}

static void say_series(const history_words *w, const tt_series *s)
{
    say_nothing(w->by.s);
    say_item(w->by.s, "", "%s", s->text);
    say_good(w, s);
    draw(w, s);
    if (s->point_count > 0)
        say_range(w, s);
    else if (s->reckoned)
        say_missing(w, s);
    else
        speak(&w->by, "  ", HISTORY_NEVER_READ);
    say_trend(w, s);
    say_marks(w, s);
}

static void say_all_series(const history_words *w, bool reckoned, text_id title)
{
    bool any = false;
    for (uint32_t i = 0; i < w->story->series_count; i++) {
        const tt_series *s = &w->story->series[i];
        if (s->reckoned != reckoned) continue;
        if (!any) say_title(w, title);
        if (!any && !reckoned && !w->plain && w->span.cells > 0) speak(&w->by, "", HISTORY_LEGEND);
        any = true;
        say_series(w, s);
    }
}

/* ---- faults ---- */

static void say_fault(const history_words *w, const tt_past_case *c)
{
    const char *complaint = *c->says.complaint != 0
                                ? c->says.complaint
                                : catalogue_text(w->by.in, HISTORY_NO_COMPLAINT);
    SPEAK(&w->by, "- ", HISTORY_CASE, day(w, c->says.began), c->number, complaint);
    if (c->says.state != TT_CASE_CLOSED)
        say_item(w->by.s, "  ", "%s", case_state_words(w->by.in, c->says.state));
    if (*c->says.cause != 0)
        SPEAK(&w->by, "  ", c->says.confirmed ? HISTORY_WAS_CONFIRMED : HISTORY_WAS, c->says.cause);
    if (*c->fix_text != 0) SPEAK(&w->by, "  ", HISTORY_HELPED, c->fix_text);
    if (*c->came_back != 0) SPEAK(&w->by, "  ", HISTORY_CAME_BACK_ON, day(w, c->came_back));
}

static void say_faults(const history_words *w)
{
    bool any = false;
    say_title(w, HISTORY_FAULTS);
    for (uint32_t i = 0; i < w->story->case_count; i++) {
        if (w->story->cases[i].says.kind != TT_KIND_FAULT) continue;
        any = true;
        say_fault(w, &w->story->cases[i]);
    }
    if (!any) speak(&w->by, "", HISTORY_NO_FAULTS);
}

static void say_returned(const history_words *w)
{
    say_title(w, HISTORY_RETURNED);
    if (w->story->returned_count == 0) speak(&w->by, "", HISTORY_NONE_RETURNED);
    for (uint32_t i = 0; i < w->story->returned_count; i++) {
        const tt_returned *r = &w->story->returned[i];
        SPEAK(&w->by, "- ", HISTORY_TIMES, r->text, whole(&w->by, r->times), day(w, r->first),
              day(w, r->last));
        if (isfinite(r->days) && *r->fix_text != 0)
            SPEAK(&w->by, "  ", HISTORY_HAD_HELPED, places(&w->by, 0, r->days), r->fix_text);
        else
            speak(&w->by, "  ", HISTORY_NEVER_CURED);
    }
}

/* ---- rounds ---- */

static void say_gaps(const history_words *w)
{
    const uint32_t count = w->story->gap_month_count,
                   first = count > MONTHS_SHOWN ? count - MONTHS_SHOWN : 0;
    say_title(w, HISTORY_ROUNDS);
    if (w->story->rounds == 0)
        speak(&w->by, "", HISTORY_NO_ROUNDS);
    else if (count == 0)
        speak(&w->by, "", HISTORY_ALL_ROUNDS);
    if (first > 0) SPEAK(&w->by, "- ", HISTORY_GAPS_MORE, whole(&w->by, first));
    for (uint32_t i = first; i < count; i++) {
        const tt_gap_month *g = &w->story->gap_months[i];
        SPEAK(&w->by, "- ", HISTORY_GAP, g->month, g->which, whole(&w->by, g->days));
    }
}

/* ---- the whole ---- */

static uint32_t cases_of(const tt_site_story *story, tt_case_kind kind)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < story->case_count; i++) count += story->cases[i].says.kind == kind;
    return count;
}

static void say_head(const history_words *w)
{
    const tt_site_story *story = w->story;
    SPEAK(&w->by, "", HISTORY_TITLE, *story->site != 0 ? story->site : story->book);
    say_item(w->by.s, "", "%s", story->book);
    if (story->case_count == 0) {
        speak(&w->by, "", HISTORY_NOTHING);
        return;
    }
    SPEAK(&w->by, "", HISTORY_SPAN, story->from, story->to);
    SPEAK(&w->by, "", HISTORY_COUNTS, whole(&w->by, cases_of(story, TT_KIND_FAULT)),
          whole(&w->by, story->rounds), whole(&w->by, story->days_without),
          whole(&w->by, cases_of(story, TT_KIND_RECORD)));
}

void print_history_words(const screen *s, bool plain, const tt_site_story *story)
{
    const label_widths labels = labels_of(s, story);
    const history_words w = {.by = {s, host_arena(), tongue_of(story->language)},
                             .story = story,
                             .labels = labels,
                             .span = strip_span_of(story, cells_for(s, &labels)),
                             .plain = plain};
    say_head(&w);
    say_all_series(&w, false, HISTORY_READINGS);
    say_all_series(&w, true, HISTORY_RECKONED);
    if (story->case_count > 0) {
        say_gaps(&w);
        say_faults(&w);
        say_returned(&w);
    }
    arena_free(w.by.keep);
}
