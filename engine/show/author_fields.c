/* Faults and worked cases: their tables of fields. */
#include "show/author_fields.h"

#include "base/str.h"
#include "base/unicode.h"

enum { TRY_VERSION = 1 };

/* ---- faults ---- */

static const char *const severities[] = {"error", "warning"};
static const name_list severity_names = {severities, sizeof severities / sizeof severities[0]};

static const field fault_fields[] = {
    FIELD(tt_fault, code, FIELD_TEXT, ALWAYS, 1,
          "\"T201\": docs/faults.md has a section for each."),
    FIELD_AMONG(tt_fault, severity, &severity_names, ALWAYS, 1, ""),
    FIELD(tt_fault, file, FIELD_TEXT, ALWAYS, 1,
          "Within the folder of the book; \"\" if it is about no one file."),
    FIELD(tt_fault, line, FIELD_COUNT, ALWAYS, 1, "From 1."),
    FIELD(tt_fault, column, FIELD_COUNT, ALWAYS, 1, "From 1."),
    FIELD(tt_fault, end_line, FIELD_COUNT, ALWAYS, 1, ""),
    FIELD(tt_fault, end_column, FIELD_COUNT, ALWAYS, 1, ""),
    FIELD(tt_fault, text, FIELD_TEXT, ALWAYS, 1, "What is wrong, and why."),
    FIELD(tt_fault, help, FIELD_TEXT, ALWAYS, 1, "What to write instead; or \"\"."),
};
static const shape fault_shape = SHAPE("fault", tt_fault, fault_fields, "");

/* Files in which something is wrong may hold anything, and be called anything. */
static const char *clean(arena *keep, const char *text)
{
    return text != NULL && *text != 0 ? unicode_clean(keep, str_of(text)).p : "";
}

tt_value fault_value(arena *keep, const tt_fault *fault)
{
    tt_fault shown = *fault;
    shown.file = clean(keep, fault->file);
    shown.text = clean(keep, fault->text);
    shown.help = clean(keep, fault->help);
    return shape_value(keep, &fault_shape, &shown);
}

/* ---- worked cases ---- */

typedef struct shown_trials {
    uint32_t version, count, passed;
    const tt_trial *cases;
    uint32_t cases_count;
    const char *const *unused;
    uint32_t unused_count;
} shown_trials;

static const field trial_fields[] = {
    FIELD(tt_trial, name, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(tt_trial, at, FIELD_TEXT, ALWAYS, 1, "File and line."),
    FIELD(tt_trial, passed, FIELD_TRUTH, ALWAYS, 1, "It came out as expected."),
    FIELD(tt_trial, why, FIELD_TEXT, ALWAYS, 1, "What was expected and what came; or \"\"."),
};
static const shape trial_shape = SHAPE("case", tt_trial, trial_fields, "");

static const field trials_fields[] = {
    FIELD_VERSION(shown_trials, version, TRY_VERSION),
    FIELD(shown_trials, count, FIELD_COUNT, ALWAYS, 1, "Worked cases."),
    FIELD(shown_trials, passed, FIELD_COUNT, ALWAYS, 1, "Those that came out as expected."),
    FIELD_ALL(shown_trials, cases, FIELD_LIST, ALWAYS, 1, &trial_shape, ""),
    FIELD_ALL(shown_trials, unused, FIELD_TEXTS, ALWAYS, 1, NULL,
              "Rules, causes and fixes that no worked case exercises."),
};
static const shape trials_shape = SHAPE("trials", shown_trials, trials_fields, "");

tt_value trials_value(arena *keep, const tt_trials *trials)
{
    const shown_trials shown = {TRY_VERSION,   trials->count,  trials->passed,      trials->items,
                                trials->count, trials->unused, trials->unused_count};
    return shape_value(keep, &trials_shape, &shown);
}

/* ---- schemas ---- */

#define STAYS \
    "Keys may be added; a key never changes its meaning or goes away without a new version."

tt_value fault_schema(arena *keep)
{
    return whole_schema(keep, &fault_shape, "A line of `telltale check --json`",
                        "Version 1. JSON Lines: one fault a line, none if there is none. " STAYS);
}

tt_value trials_schema(arena *keep)
{
    return whole_schema(keep, &trials_shape, "What `telltale try --json` prints",
                        "Version 1. " STAYS);
}
