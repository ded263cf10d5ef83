/* A site over time, for programs: the tables of fields. */
#include "show/history_fields.h"

#include <assert.h>
#include <math.h>

enum { HISTORY_VERSION = 1 };

static const char *const mark_kinds[TT_MARKS] = {"set", "fix"};
static const name_list mark_names = {mark_kinds, TT_MARKS};

/* ---- readings ---- */

static const field point_fields[] = {
    FIELD(tt_point, time, FIELD_TEXT, ALWAYS, 1, "RFC 3339, as written where it was read."),
    FIELD(tt_point, number, FIELD_FIGURE, ALWAYS, 1, "In the unit of the series."),
    FIELD(tt_point, words, FIELD_TEXT, ALWAYS, 1, "The same for people, with the unit."),
    FIELD(tt_point, beyond, FIELD_TRUTH, ALWAYS, 1,
          "It is further from its good value than readings scatter at this site."),
    FIELD(tt_point, after_fix, FIELD_TRUTH, ALWAYS, 1,
          "Something had been done in that case before it was read."),
    FIELD_NAMED(tt_point, of, "case", FIELD_TEXT, ALWAYS, 1, "The number of the case."),
};
static const shape point_shape = SHAPE("point", tt_point, point_fields, "");

typedef struct shown_mark {
    const char *kind, *time, *text, *number, *who;
} shown_mark;
static const field mark_fields[] = {
    FIELD_AMONG(shown_mark, kind, &mark_names, ALWAYS, 1,
                "set: it was recorded as good; fix: something was done."),
    FIELD(shown_mark, time, FIELD_TEXT, ALWAYS, 1, "RFC 3339."),
    FIELD(shown_mark, text, FIELD_TEXT, ALWAYS, 1, "What was done; of a set point its value."),
    FIELD_NAMED(shown_mark, number, "case", FIELD_MAYBE, ALWAYS, 1,
                "null: the site's file says so, and no case is kept of it."),
    FIELD(shown_mark, who, FIELD_MAYBE, ALWAYS, 1, "Whose case it was: a post; null: not told."),
};
static const shape mark_shape = SHAPE("mark", shown_mark, mark_fields, "");

static const field missing_fields[] = {
    FIELD(tt_untold, name, FIELD_TEXT, ALWAYS, 1, "A question of the book."),
    FIELD(tt_untold, ask, FIELD_TEXT, ALWAYS, 1, "What it asks."),
    FIELD(tt_untold, of_site, FIELD_TRUTH, ALWAYS, 1, "The site's file may say it."),
};
static const shape missing_shape = SHAPE("missing", tt_untold, missing_fields, "");

typedef struct shown_good {
    double number;
    const char *words, *day;
} shown_good;
static const field good_fields[] = {
    FIELD(shown_good, number, FIELD_FIGURE, ALWAYS, 1, "In the unit of the series."),
    FIELD(shown_good, words, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(shown_good, day, FIELD_MAYBE, ALWAYS, 1, "When it was found good; null: not told."),
};
static const shape good_shape = SHAPE("good", shown_good, good_fields, "");

typedef struct shown_series {
    const char *name, *text, *unit;
    bool reckoned;
    const shown_good *good;
    const char *trend, *per_week, *jumped_after, *jumped_before;
    bool beyond;
    const tt_point *points;
    uint32_t points_count;
    const shown_mark *marks;
    uint32_t marks_count;
    const char *why;
    const tt_untold *missing;
    uint32_t missing_count;
} shown_series;
static const field series_fields[] = {
    FIELD(shown_series, name, FIELD_TEXT, ALWAYS, 1, "The question, or the quantity, of the book."),
    FIELD(shown_series, text, FIELD_TEXT, ALWAYS, 1, "What it asks, or what it is called."),
    FIELD(shown_series, unit, FIELD_MAYBE, ALWAYS, 1,
          "In which people at the site read it; null: a plain number."),
    FIELD(shown_series, reckoned, FIELD_TRUTH, ALWAYS, 1,
          "Worked out from what was read; else it was read."),
    FIELD_THING(shown_series, good, ALWAYS, 1, &good_shape,
                "What is good now, as the site's file says; null: it says nothing."),
    FIELD(shown_series, trend, FIELD_MAYBE, ALWAYS, 1,
          "steady, rising, falling or jump, since it was good or was changed last; null: it can't "
          "be told."),
    FIELD(shown_series, per_week, FIELD_MAYBE, ALWAYS, 1, "How fast it rises or falls; else null."),
    FIELD(shown_series, jumped_after, FIELD_MAYBE, ALWAYS, 1, "The day before a jump; else null."),
    FIELD(shown_series, jumped_before, FIELD_MAYBE, ALWAYS, 1,
          "The first day after a jump; else null."),
    FIELD(shown_series, beyond, FIELD_TRUTH, ALWAYS, 1, "The last is beyond its good value."),
    FIELD_ALL(shown_series, points, FIELD_LIST, ALWAYS, 1, &point_shape, "By time."),
    FIELD_ALL(shown_series, marks, FIELD_LIST, ALWAYS, 1, &mark_shape, "By time."),
    FIELD(shown_series, why, FIELD_MAYBE, ALWAYS, 1,
          "Why it has no value though all is told; else null."),
    FIELD_ALL(shown_series, missing, FIELD_LIST, ALWAYS, 1, &missing_shape,
              "Of what is worked out, where it has no value yet: what nobody has told. Some of it "
              "may be enough."),
};
static const shape series_shape = SHAPE("series", shown_series, series_fields, "");

/* ---- cases ---- */

typedef struct shown_trouble {
    const char *number, *kind, *state, *began, *ended, *complaint_name, *complaint, *cause_name,
        *cause;
    bool confirmed;
    const char *fix_name, *fix, *came_back;
} shown_trouble;
static const field trouble_fields[] = {
    FIELD_NAMED(shown_trouble, number, "case", FIELD_TEXT, ALWAYS, 1, "The spoken number."),
    FIELD(shown_trouble, kind, FIELD_TEXT, ALWAYS, 1, "fault, round or record."),
    FIELD(shown_trouble, state, FIELD_TEXT, ALWAYS, 1,
          "As `cases --json` names it: open, closed, called …"),
    FIELD(shown_trouble, began, FIELD_MAYBE, ALWAYS, 1, "RFC 3339."),
    FIELD(shown_trouble, ended, FIELD_MAYBE, ALWAYS, 1, "null while it is open."),
    FIELD(shown_trouble, complaint_name, FIELD_MAYBE, ALWAYS, 1, "The symptom."),
    FIELD(shown_trouble, complaint, FIELD_MAYBE, ALWAYS, 1, "Its words."),
    FIELD(shown_trouble, cause_name, FIELD_MAYBE, ALWAYS, 1, "Of a closed fault: what it was."),
    FIELD(shown_trouble, cause, FIELD_MAYBE, ALWAYS, 1, "Its words."),
    FIELD(shown_trouble, confirmed, FIELD_TRUTH, ALWAYS, 1, "Somebody made sure of the cause."),
    FIELD(shown_trouble, fix_name, FIELD_MAYBE, ALWAYS, 1, "What helped."),
    FIELD(shown_trouble, fix, FIELD_MAYBE, ALWAYS, 1, "Its words."),
    FIELD(shown_trouble, came_back, FIELD_MAYBE, ALWAYS, 1,
          "When somebody said that it helped, and came back."),
};
static const shape trouble_shape = SHAPE("case", shown_trouble, trouble_fields, "");

static const field returned_fields[] = {
    FIELD(tt_returned, name, FIELD_TEXT, ALWAYS, 1, "The symptom."),
    FIELD(tt_returned, text, FIELD_TEXT, ALWAYS, 1, "Its words."),
    FIELD(tt_returned, times, FIELD_COUNT, ALWAYS, 1, "Faults that began with it."),
    FIELD(tt_returned, first, FIELD_TEXT, ALWAYS, 1, "When the first began."),
    FIELD(tt_returned, last, FIELD_TEXT, ALWAYS, 1, "When the last began."),
    FIELD(tt_returned, days, FIELD_NUMBER, ALWAYS, 1,
          "From the last cure until it came again; null: nothing had cured it."),
    FIELD_NAMED(tt_returned, fix, "fix_name", FIELD_MAYBE, ALWAYS, 1,
                "What had helped before it came the last time."),
    FIELD_NAMED(tt_returned, fix_text, "fix", FIELD_MAYBE, ALWAYS, 1, "Its words."),
    FIELD(tt_returned, said, FIELD_TRUTH, ALWAYS, 1, "Somebody said: it helped, and came back."),
};
static const shape returned_shape = SHAPE("returned", tt_returned, returned_fields, "");

static const field gap_fields[] = {
    FIELD(tt_gap, from, FIELD_TEXT, ALWAYS, 1, "The first day without a round."),
    FIELD(tt_gap, to, FIELD_TEXT, ALWAYS, 1, "The last."),
    FIELD(tt_gap, days, FIELD_COUNT, ALWAYS, 1, ""),
};
static const shape gap_shape = SHAPE("gap", tt_gap, gap_fields, "");

/* ---- the whole ---- */

typedef struct shown_story {
    uint32_t version;
    const char *book, *site, *from, *to;
    const shown_series *series;
    uint32_t series_count;
    const shown_trouble *cases;
    uint32_t cases_count;
    const tt_returned *returned;
    uint32_t returned_count, rounds, days_without;
    const tt_gap *gaps;
    uint32_t gaps_count;
} shown_story;
static const field story_fields[] = {
    FIELD_VERSION(shown_story, version, HISTORY_VERSION),
    FIELD(shown_story, book, FIELD_TEXT, ALWAYS, 1, "Its title."),
    FIELD(shown_story, site, FIELD_MAYBE, ALWAYS, 1, "Its title."),
    FIELD(shown_story, from, FIELD_MAYBE, ALWAYS, 1, "Day of the first case; null: there is none."),
    FIELD(shown_story, to, FIELD_MAYBE, ALWAYS, 1, "Day on which the last began."),
    FIELD_ALL(shown_story, series, FIELD_LIST, ALWAYS, 1, &series_shape,
              "What was read, then what is worked out from it."),
    FIELD_ALL(shown_story, cases, FIELD_LIST, ALWAYS, 1, &trouble_shape,
              "Faults, rounds and records, by when they began."),
    FIELD_ALL(shown_story, returned, FIELD_LIST, ALWAYS, 1, &returned_shape,
              "Troubles that came more than once, the most frequent first."),
    FIELD(shown_story, rounds, FIELD_COUNT, ALWAYS, 1, "Rounds that were gone to their end."),
    FIELD(shown_story, days_without, FIELD_COUNT, ALWAYS, 1,
          "Days without a round, from the first one until now."),
    FIELD_ALL(shown_story, gaps, FIELD_LIST, ALWAYS, 1, &gap_shape, "Those days, by time."),
};
static const shape story_shape = SHAPE("history", shown_story, story_fields, "");

/* ---- what fills them ---- */

static const shown_mark *marks_of(arena *keep, const tt_series *s)
{
    shown_mark *all = ARENA_ARRAY(keep, shown_mark, s->mark_count + 1);
    for (uint32_t i = 0; i < s->mark_count; i++) {
        const tt_mark *m = &s->marks[i];
        all[i] = (shown_mark){tt_mark_name(m->kind), m->time, m->text, m->number, m->who};
    }
    return all;
}

static shown_series series_of(arena *keep, const tt_series *s)
{
    shown_series shown = {.name = s->name,
                          .text = s->text,
                          .unit = s->unit,
                          .reckoned = s->reckoned,
                          .trend = s->trend_known ? tt_trend_name(s->trend) : "",
                          .per_week = s->per_week,
                          .jumped_after = s->jumped_after,
                          .jumped_before = s->jumped_before,
                          .beyond = s->beyond,
                          .points = s->points,
                          .points_count = s->point_count,
                          .marks = marks_of(keep, s),
                          .marks_count = s->mark_count,
                          .why = s->why,
                          .missing = s->missing,
                          .missing_count = s->missing_count};
    if (!s->has_good) return shown;
    shown_good *good = ARENA_NEW(keep, shown_good);
    *good = (shown_good){s->good, s->good_words, s->good_day};
    shown.good = good;
    return shown;
}

static shown_trouble trouble_of(const tt_past_case *c)
{
    return (shown_trouble){.number = c->number,
                           .kind = tt_case_kind_name(c->says.kind),
                           .state = tt_case_state_name(c->says.state),
                           .began = c->says.began,
                           .ended = c->says.ended,
                           .complaint_name = c->says.complaint_name,
                           .complaint = c->says.complaint,
                           .cause_name = c->says.cause_name,
                           .cause = c->says.cause,
                           .confirmed = c->says.confirmed,
                           .fix_name = c->fix,
                           .fix = c->fix_text,
                           .came_back = c->came_back};
}

tt_value history_value(arena *keep, const tt_site_story *story)
{
    shown_series *series = ARENA_ARRAY(keep, shown_series, story->series_count + 1);
    shown_trouble *cases = ARENA_ARRAY(keep, shown_trouble, story->case_count + 1);
    assert(story->site != NULL && story->book != NULL);
    for (uint32_t i = 0; i < story->series_count; i++)
        series[i] = series_of(keep, &story->series[i]);
    for (uint32_t i = 0; i < story->case_count; i++) cases[i] = trouble_of(&story->cases[i]);
    const shown_story shown = {.version = HISTORY_VERSION,
                               .book = story->book,
                               .site = story->site,
                               .from = story->from,
                               .to = story->to,
                               .series = series,
                               .series_count = story->series_count,
                               .cases = cases,
                               .cases_count = story->case_count,
                               .returned = story->returned,
                               .returned_count = story->returned_count,
                               .rounds = story->rounds,
                               .days_without = story->days_without,
                               .gaps = story->gaps,
                               .gaps_count = story->gap_count};
    return shape_value(keep, &story_shape, &shown);
}

tt_value history_schema(arena *keep)
{
    return whole_schema(
        keep, &story_shape, "What `telltale history --json` prints",
        "Version 1. Keys may be added, and then the version stays; a key never changes its meaning "
        "or goes away without a new version. Numbers have 10 significant digits.");
}
