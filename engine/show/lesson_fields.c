/* A lesson for programs: its tables of fields, and what fills them. */
#include "show/lesson_fields.h"

#include <assert.h>

enum { LEARN_VERSION = 1 };

typedef struct shown_number {
    const char *number;
    tt_learned learned;
} shown_number;
typedef struct shown_lesson {
    uint32_t version;
    const char *rulebook, *learned_until;
    shown_seen cases;
    uint32_t causes, cases_wanted;
    bool enough;
    uint32_t handed_over, handed_over_confirmed;
    double handed_over_counts;
    const shown_number *numbers;
    uint32_t numbers_count;
    uint32_t new_warnings;
    const shown_changes *changes;
} shown_lesson;

/* ---- tables ---- */

static const field seen_fields[] = {
    FIELD(shown_seen, all, FIELD_COUNT, ALWAYS, 1,
          "Cases in the folder; the counts below add up to it, but for `until`."),
    FIELD(shown_seen, counted, FIELD_COUNT, ALWAYS, 1, "Learned from."),
    FIELD(shown_seen, other_rulebooks, FIELD_COUNT, ALWAYS, 1, "Of other books."),
    FIELD(shown_seen, open, FIELD_COUNT, ALWAYS, 1, "Not closed."),
    FIELD(shown_seen, not_gone, FIELD_COUNT, ALWAYS, 1,
          "Closed because somebody was called, and nobody said what it was; or for danger."),
    FIELD(shown_seen, better, FIELD_COUNT, ALWAYS, 1, "Better, but not gone on the way."),
    FIELD(shown_seen, unconfirmed, FIELD_COUNT, ALWAYS, 1,
          "Nobody said what the cause was, nobody was sure, or several named different ones."),
    FIELD(shown_seen, not_listed, FIELD_COUNT, ALWAYS, 1, "Something that the rules don't list."),
    FIELD(shown_seen, unknown_cause, FIELD_COUNT, ALWAYS, 1,
          "Of a cause that the rules no longer have."),
    FIELD(shown_seen, unreadable, FIELD_COUNT, ALWAYS, 1, ""),
    FIELD(shown_seen, learned_before, FIELD_COUNT, ALWAYS, 1,
          "Confirmed until `learned_until`: in the numbers already."),
    FIELD(shown_seen, until, FIELD_MAYBE, ALWAYS, 1,
          "When the last case counted was confirmed, RFC 3339 in universal time."),
};
static const shape seen_shape = SHAPE("seen", shown_seen, seen_fields, "");

static const char *const kinds[] = {
    [TT_HOW_OFTEN] = "how-often",           [TT_SHOWN_BY] = "shown-by",
    [TT_OTHERWISE] = "otherwise",           [TT_DONE_WRONGLY] = "done-wrongly",
    [TT_COMES_BACK] = "comes-back",         [TT_MISLEADS] = "wrong",
    [TT_COMES_AND_GOES] = "comes-and-goes", [TT_ANSWERS_COUNT] = "answers-count"};
static const name_list kind_names = {kinds, sizeof kinds / sizeof kinds[0]};

#define LEARNED(member, type_, doc_) \
    { \
        .name = #member, .type = type_, .since = 1, .at = offsetof(shown_number, learned.member), \
        .doc = doc_ \
    }
#define LEARNED_IN(member, range_, doc_) \
    { \
        .name = #member, .type = FIELD_FIGURE, .since = 1, \
        .at = offsetof(shown_number, learned.member), .range = range_, .doc = doc_ \
    }
static const field number_fields[] = {
    FIELD_AMONG(shown_number, number, &kind_names, ALWAYS, 1, ""),
    LEARNED(
        cause, FIELD_MAYBE,
        "null where the number is of none: `otherwise`, `done-wrongly`, `wrong`, `answers-count`, "
        "and `comes-back` of the book; names as written, without piece of equipment."),
    LEARNED(symptom, FIELD_MAYBE, "Of `shown-by`, `otherwise` and `comes-and-goes`; else null."),
    LEARNED(fix, FIELD_MAYBE, "Of `done-wrongly`, where a fix says it itself; else null."),
    LEARNED(instrument, FIELD_MAYBE, "Of `wrong`; else null."),
    LEARNED(at, FIELD_TEXT, "File and line."),
    LEARNED(written, FIELD_MAYBE, "As it stands in the file; null: left out."),
    LEARNED(proposed, FIELD_MAYBE, "To be written instead; null: it stays."),
    LEARNED_IN(before, ZERO_TO_ONE,
               "Chance before; of `how-often`, share of the calls with a listed cause; of "
               "`done-wrongly`, of tries; of `comes-back`, of cures; of `wrong`, of cases in which "
               "the instrument is used; of `comes-and-goes`, of looks at a sign that is there; of "
               "`answers-count`, the power to which answers count."),
    LEARNED_IN(after, ZERO_TO_ONE, "The same, with the cases."),
    LEARNED_IN(low, ZERO_TO_ONE, "`low` to `high`: 95 % credible interval of `after`."),
    LEARNED_IN(high, ZERO_TO_ONE, ""),
    LEARNED_IN(cases, FROM_ZERO, "Counted with it."),
    LEARNED_IN(of, FROM_ZERO, "Of those that could have it."),
    LEARNED(outside, FIELD_TRUTH, "`before` lies outside the interval."),
};
static const shape number_shape = SHAPE("number", shown_number, number_fields, "");

static const field leads_fields[] = {
    FIELD_IN(tt_share, share, FIELD_FIGURE, ZERO_TO_ONE, 1, ""),
    FIELD_IN(tt_share, low, FIELD_FIGURE, ZERO_TO_ONE, 1, ""),
    FIELD_IN(tt_share, high, FIELD_FIGURE, ZERO_TO_ONE, 1, ""),
};
static const shape leads_shape =
    SHAPE("leads", tt_share, leads_fields,
          "The right cause leads at the first fix: a share, with its 95 % confidence interval.");

static const field side_fields[] = {
    FIELD(shown_side, worked_cases_passed, FIELD_COUNT, ALWAYS, 1, ""),
    FIELD_WITHIN(shown_side, leads, "leads", 1, &leads_shape, ""),
    FIELD_IN(shown_side, questions, FIELD_FIGURE, FROM_ZERO, 1, "A call."),
    FIELD_IN(shown_side, minutes, FIELD_FIGURE, FROM_ZERO, 1, "A call."),
};
static const shape side_shape = SHAPE("side", shown_side, side_fields, "");

static const field changes_fields[] = {
    FIELD(shown_changes, worked_cases, FIELD_COUNT, ALWAYS, 1, ""),
    FIELD_ALL(shown_changes, worked_cases_broken, FIELD_TEXTS, ALWAYS, 1, NULL,
              "Names of those that come out as expected now and then would not."),
    FIELD(shown_changes, calls, FIELD_TALLY, ALWAYS, 1,
          "Made-up calls, the same seed on both sides, each drawn from its own numbers."),
    FIELD_WITHIN(shown_changes, now, "now", 1, &side_shape, ""),
    FIELD_WITHIN(shown_changes, then, "then", 1, &side_shape, ""),
};
static const shape changes_shape = SHAPE("changes", shown_changes, changes_fields, "");

static const field lesson_fields[] = {
    FIELD_VERSION(shown_lesson, version, LEARN_VERSION),
    FIELD(shown_lesson, rulebook, FIELD_TEXT, ALWAYS, 1, "Title."),
    FIELD(shown_lesson, learned_until, FIELD_MAYBE, ALWAYS, 1, "What the book says."),
    FIELD_WITHIN(shown_lesson, cases, "cases", 1, &seen_shape, ""),
    FIELD(shown_lesson, causes, FIELD_COUNT, ALWAYS, 1, "Entries of the book."),
    FIELD(shown_lesson, cases_wanted, FIELD_COUNT, ALWAYS, 1,
          "Below so many cases counted there are no numbers."),
    FIELD(shown_lesson, enough, FIELD_TRUTH, ALWAYS, 1, ""),
    FIELD(shown_lesson, handed_over, FIELD_COUNT, ALWAYS, 1,
          "Cases that ended, in which somebody was called on the way."),
    FIELD(shown_lesson, handed_over_confirmed, FIELD_COUNT, ALWAYS, 1,
          "Of these, learned from. 0: the numbers are those of cured calls."),
    FIELD_IN(shown_lesson, handed_over_counts, FIELD_FIGURE, FROM_ZERO, 1,
             "So many times as much as a cured case each of these counts, since their cause is "
             "confirmed more seldom; 4 at most. 1 while there are not enough cases."),
    FIELD_ALL(shown_lesson, numbers, FIELD_LIST, ALWAYS, 1, &number_shape,
              "What cases were counted for."),
    FIELD(shown_lesson, new_warnings, FIELD_COUNT, ALWAYS, 1,
          "So many more warnings `check` would give."),
    FIELD_THING(shown_lesson, changes, ALWAYS, 1, &changes_shape, "null: nothing is proposed."),
};
static const shape lesson_shape = SHAPE("lesson", shown_lesson, lesson_fields, "");

/* ---- what fills them ---- */

tt_value lesson_value(arena *keep, const lesson_about *about)
{
    const tt_lesson *lesson = about->lesson;
    shown_number *numbers = ARENA_ARRAY(keep, shown_number, lesson->count);
    for (uint32_t i = 0; i < lesson->count; i++) {
        assert(lesson->items[i].kind <= TT_ANSWERS_COUNT);
        numbers[i] = (shown_number){kinds[lesson->items[i].kind], lesson->items[i]};
    }
    const shown_lesson shown = {.version = LEARN_VERSION,
                                .rulebook = about->title,
                                .learned_until = about->learned_until,
                                .cases = about->seen,
                                .causes = lesson->causes,
                                .cases_wanted = lesson->cases_wanted,
                                .enough = lesson->cases >= lesson->cases_wanted,
                                .handed_over = lesson->handed_over,
                                .handed_over_confirmed = lesson->handed_over_confirmed,
                                .handed_over_counts =
                                    lesson->handed_over_counts > 0 ? lesson->handed_over_counts : 1,
                                .numbers = numbers,
                                .numbers_count = lesson->count,
                                .new_warnings = lesson->new_warnings,
                                .changes = about->changes};
    return shape_value(keep, &lesson_shape, &shown);
}

static const char schema_doc[] =
    "Version 1. Keys may be added, and then the version stays; a key never changes its meaning or "
    "goes away without a new version. Numbers have 10 "
    "significant digits.";

tt_value lesson_schema(arena *keep)
{
    return whole_schema(keep, &lesson_shape, "What `telltale learn --json` prints", schema_doc);
}
