/* What moved between two editions of a book: its tables of fields. */
#include "show/compare_fields.h"

enum { COMPARE_VERSION = 1 };

static const char *const kinds[] = {"worked", "stored", "call"};
static const name_list kind_names = {kinds, sizeof kinds / sizeof kinds[0]};

static const field course_fields[] = {
    FIELD(tt_course, there, FIELD_TRUTH, ALWAYS, 1, "false: with this edition it can't be played."),
    FIELD(tt_course, passed, FIELD_TRUTH, ALWAYS, 1,
          "A worked case came out as it expects; true of all others."),
    FIELD(tt_course, leading, FIELD_MAYBE, ALWAYS, 1,
          "The cause that leads; null: something not listed. Of a call: at the first fix, or when "
          "somebody is called; `stopped` if it stopped for danger before."),
    FIELD_IN(tt_course, chance, FIELD_FIGURE, ZERO_TO_ONE, 1, "Its chance."),
    FIELD_ALL_OF(tt_course, path, path_count, FIELD_TEXTS, ALWAYS, 1, NULL,
                 "Of a case the question or fix that comes next. Of a call all questions and fixes "
                 "in order, then `cured`, `called` or `stopped`."),
    FIELD_ALL_OF(tt_course, fixes, fix_count, FIELD_TEXTS, ALWAYS, 1, NULL,
                 "Worth trying, in that order; none for calls."),
    FIELD_ALL_OF(tt_course, cautions, caution_count, FIELD_TEXTS, ALWAYS, 1, NULL,
                 "Rules that caution, and what stops; none for calls."),
};
static const shape course_shape = SHAPE("course", tt_course, course_fields, "");

static const field moved_fields[] = {
    FIELD_AMONG(tt_moved, kind, &kind_names, ALWAYS, 1, ""),
    FIELD(tt_moved, name, FIELD_TEXT, ALWAYS, 1, "Of the case; the number of a call, from 0."),
    FIELD_WITHIN(tt_moved, before, "before", 1, &course_shape, ""),
    FIELD_WITHIN(tt_moved, after, "after", 1, &course_shape, ""),
    FIELD(tt_moved, cautions, FIELD_TRUTH, ALWAYS, 1, "The cautions changed."),
    FIELD(tt_moved, leading, FIELD_TRUTH, ALWAYS, 1, "Another cause leads."),
    FIELD(tt_moved, fixes, FIELD_TRUTH, ALWAYS, 1, "Other fixes, or in another order."),
    FIELD(tt_moved, path, FIELD_TRUTH, ALWAYS, 1, "Another path."),
    FIELD(tt_moved, passed, FIELD_TRUTH, ALWAYS, 1, "It passes now and did not, or the reverse."),
    FIELD_IN(tt_moved, shift, FIELD_FIGURE, ZERO_TO_ONE, 1,
             "Share of the chances that lies elsewhere now."),
    FIELD_ALL_OF(
        tt_moved, edits, edit_count, FIELD_TEXTS, ALWAYS, 1, NULL,
        "Entries: each of them alone moves it, with those that it can't be without, or only "
        "all together. Empty: it was not "
        "looked for."),
    FIELD(tt_moved, together, FIELD_TRUTH, ALWAYS, 1, "None of them alone moves it."),
};
static const shape moved_shape = SHAPE("moved", tt_moved, moved_fields, "");

typedef struct shown_compared {
    uint32_t version;
    tt_compared own;
} shown_compared;

static const field compared_fields[] = {
    FIELD_VERSION(shown_compared, version, COMPARE_VERSION),
    FIELD_NAMED(shown_compared, own.worked, "worked", FIELD_COUNT, ALWAYS, 1,
                "Worked cases that both editions have."),
    FIELD_NAMED(shown_compared, own.worked_old, "worked_before", FIELD_COUNT, ALWAYS, 1,
                "Worked cases of the older edition only."),
    FIELD_NAMED(shown_compared, own.worked_new, "worked_after", FIELD_COUNT, ALWAYS, 1,
                "Worked cases of the newer edition only."),
    FIELD_NAMED(shown_compared, own.stored, "stored", FIELD_COUNT, ALWAYS, 1,
                "Cases that were kept."),
    FIELD_NAMED(shown_compared, own.calls, "calls", FIELD_COUNT, ALWAYS, 1, "Made-up calls."),
    {.name = "edits",
     .type = FIELD_TEXTS,
     .need = ALWAYS,
     .since = 1,
     .at = offsetof(shown_compared, own.edits),
     .count_at = offsetof(shown_compared, own.edit_count),
     .doc = "Entries that differ: section and name."},
    {.name = "moved",
     .type = FIELD_LIST,
     .need = ALWAYS,
     .since = 1,
     .at = offsetof(shown_compared, own.moved),
     .count_at = offsetof(shown_compared, own.moved_count),
     .of = &moved_shape,
     .doc = "Whose cautions changed, then those with another cause that leads, with other fixes, "
            "with another path; in each the largest shift first."},
};
static const shape compared_shape = SHAPE("compared", shown_compared, compared_fields, "");

tt_value compared_value(arena *keep, const tt_compared *all)
{
    const shown_compared shown = {COMPARE_VERSION, *all};
    return shape_value(keep, &compared_shape, &shown);
}

tt_value compared_schema(arena *keep)
{
    return whole_schema(keep, &compared_shape, "What `telltale compare --json` prints",
                        "Version 1. Keys may be added; a key never changes its meaning or goes "
                        "away without a new version.");
}
