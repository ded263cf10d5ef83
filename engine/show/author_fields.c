/* Faults and worked cases: their tables of fields. */
#include "show/author_fields.h"

#include <string.h>

#include "base/str.h"
#include "base/unicode.h"
#include "show/why_fields.h"

enum { TRY_VERSION = 1, CHECK_VERSION = 1 };

/* ---- faults ---- */

static const char *const severities[] = {"error", "warning"};
static const name_list severity_names = {severities, sizeof severities / sizeof severities[0]};

typedef struct shown_fault {
    const char *code, *severity, *file, *text, *help;
    uint32_t version, line, column, end_line, end_column;
    const tt_remark *notes, *replace;
    uint32_t notes_count, replace_count;
} shown_fault;

static const field note_fields[] = {
    FIELD(tt_remark, file, FIELD_TEXT, ALWAYS, 1, "Within the folder of the book."),
    FIELD(tt_remark, line, FIELD_COUNT, ALWAYS, 1, ""),
    FIELD(tt_remark, column, FIELD_COUNT, ALWAYS, 1, ""),
    FIELD(tt_remark, end_line, FIELD_COUNT, ALWAYS, 1, ""),
    FIELD(tt_remark, end_column, FIELD_COUNT, ALWAYS, 1, ""),
    FIELD(tt_remark, text, FIELD_TEXT, ALWAYS, 1, "What stands there."),
};
static const shape note_shape = SHAPE("note", tt_remark, note_fields, "");

static const field replace_fields[] = {
    FIELD(tt_remark, line, FIELD_COUNT, ALWAYS, 1,
          "Of the first character that is replaced, in the fault's file."),
    FIELD(tt_remark, column, FIELD_COUNT, ALWAYS, 1, ""),
    FIELD(tt_remark, end_line, FIELD_COUNT, ALWAYS, 1, "Of the first character behind."),
    FIELD(tt_remark, end_column, FIELD_COUNT, ALWAYS, 1, ""),
    FIELD_NAMED(tt_remark, text, "with", FIELD_TEXT, ALWAYS, 1, "What is to stand there."),
};
static const shape replace_shape = SHAPE("replacement", tt_remark, replace_fields, "");

static const field fault_fields[] = {
    FIELD_VERSION(shown_fault, version, CHECK_VERSION),
    FIELD(shown_fault, code, FIELD_TEXT, ALWAYS, 1,
          "\"T201\": docs/faults.md has a section for each."),
    FIELD_AMONG(shown_fault, severity, &severity_names, ALWAYS, 1, ""),
    FIELD(shown_fault, file, FIELD_TEXT, ALWAYS, 1,
          "Within the folder of the book; \"\" if it is about no one file."),
    FIELD(shown_fault, line, FIELD_COUNT, ALWAYS, 1, "From 1."),
    FIELD(shown_fault, column, FIELD_COUNT, ALWAYS, 1, "From 1, in characters (code points)."),
    FIELD(shown_fault, end_line, FIELD_COUNT, ALWAYS, 1, ""),
    FIELD(shown_fault, end_column, FIELD_COUNT, ALWAYS, 1, ""),
    FIELD(shown_fault, text, FIELD_TEXT, ALWAYS, 1, "What is wrong, and why."),
    FIELD(shown_fault, help, FIELD_TEXT, ALWAYS, 1, "What to write instead; or \"\"."),
    FIELD_ALL(shown_fault, notes, FIELD_LIST, ALWAYS, 1, &note_shape,
              "What stands elsewhere and belongs to it."),
    FIELD_ALL(shown_fault, replace, FIELD_LIST, ALWAYS, 1, &replace_shape,
              "Ranges to be replaced, with which it is mended as `help` says; none where it is not "
              "so simple."),
};
static const shape fault_shape = SHAPE("fault", shown_fault, fault_fields, "");

/* Files in which something is wrong may hold anything, and be called anything. */
static const char *clean(arena *keep, const char *text)
{
    return text != NULL && *text != 0 ? unicode_clean(keep, str_of(text)).p : "";
}

static tt_remark clean_remark(arena *keep, tt_remark one)
{
    one.file = clean(keep, one.file);
    one.text = clean(keep, one.text);
    return one;
}

static const tt_remark *notes_of(arena *keep, const tt_report *report, uint32_t index,
                                 uint32_t *count)
{
    tt_remark one;
    *count = 0;
    while (tt_report_note(report, index, *count, &one)) ++*count;
    tt_remark *all = ARENA_ARRAY(keep, tt_remark, *count);
    for (uint32_t i = 0; i < *count && tt_report_note(report, index, i, &one); i++)
        all[i] = clean_remark(keep, one);
    return all;
}

static shown_fault shown(arena *keep, const tt_report *report, uint32_t index)
{
    const tt_fault f = tt_report_fault(report, index);
    shown_fault s = {.version = CHECK_VERSION,
                     .code = f.code,
                     .severity = f.severity,
                     .file = clean(keep, f.file),
                     .text = clean(keep, f.text),
                     .help = clean(keep, f.help),
                     .line = f.line,
                     .column = f.column,
                     .end_line = f.end_line,
                     .end_column = f.end_column};
    tt_remark *mend = ARENA_NEW(keep, tt_remark);
    s.notes = notes_of(keep, report, index, &s.notes_count);
    s.replace_count = tt_report_mend(report, index, mend) ? 1 : 0;
    s.replace = mend;
    if (s.replace_count > 0) *mend = clean_remark(keep, *mend);
    return s;
}

tt_value fault_value(arena *keep, const tt_report *report, uint32_t index)
{
    const shown_fault s = shown(keep, report, index);
    return shape_value(keep, &fault_shape, &s);
}

/* ---- faults as a log: SARIF 2.1.0, sections 3.13 to 3.55 ---- */

/* Bytes that a URI can't hold, as RFC 3986 section 2.1 writes them. */
static const char *uri(arena *keep, const char *path)
{
    text_builder b = {.keep = keep};
    for (; *path != 0; path++) {
        const char c = *path;
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                           (c >= '0' && c <= '9') || (c != 0 && strchr("-._~/", c) != NULL);
        if (plain)
            text_add(&b, (str){path, 1});
        else
            text_addf(&b, "%%%02X", (unsigned char)c);
    }
    return text_done(&b).p;
}

static tt_value text_value(arena *keep, const char *key, const char *text)
{
    value_builder m = value_map(keep);
    value_put_text(&m, key, text);
    return value_done(&m);
}

static tt_value region(arena *keep, const tt_remark *at)
{
    value_builder m = value_map(keep);
    value_put_number(&m, "startLine", at->line);
    value_put_number(&m, "startColumn", at->column);
    value_put_number(&m, "endLine", at->end_line);
    value_put_number(&m, "endColumn", at->end_column);
    return value_done(&m);
}

static tt_value artifact(arena *keep, const char *file)
{
    value_builder m = value_map(keep);
    value_put_text(&m, "uri", uri(keep, file));
    value_put_text(&m, "uriBaseId", "BOOK");
    return value_done(&m);
}

static tt_value location(arena *keep, const tt_remark *at, bool says)
{
    value_builder place = value_map(keep), m = value_map(keep);
    value_put(&place, "artifactLocation", artifact(keep, at->file));
    value_put(&place, "region", region(keep, at));
    value_put(&m, "physicalLocation", value_done(&place));
    if (says) value_put(&m, "message", text_value(keep, "text", at->text));
    return value_done(&m);
}

static tt_value list_of(arena *keep, tt_value only)
{
    value_builder l = value_list(keep);
    value_add(&l, only);
    return value_done(&l);
}

static tt_value fix_value(arena *keep, const shown_fault *f)
{
    value_builder put = value_map(keep), change = value_map(keep), m = value_map(keep);
    value_put(&put, "deletedRegion", region(keep, &f->replace[0]));
    value_put(&put, "insertedContent", text_value(keep, "text", f->replace[0].text));
    value_put(&change, "artifactLocation", artifact(keep, f->file));
    value_put(&change, "replacements", list_of(keep, value_done(&put)));
    value_put(&m, "description", text_value(keep, "text", f->help));
    value_put(&m, "artifactChanges", list_of(keep, value_done(&change)));
    return value_done(&m);
}

static tt_value result_value(arena *keep, const shown_fault *f)
{
    value_builder m = value_map(keep), others = value_list(keep);
    const tt_remark at = {f->file, f->line, f->column, f->end_line, f->end_column, ""};
    value_put_text(&m, "ruleId", f->code);
    value_put_text(&m, "level", f->severity);
    const char *help = *f->help != 0 ? str_printf(keep, " %s", f->help).p : "";
    value_put(&m, "message", text_value(keep, "text", str_printf(keep, "%s%s", f->text, help).p));
    if (*f->file != 0) value_put(&m, "locations", list_of(keep, location(keep, &at, false)));
    for (uint32_t i = 0; i < f->notes_count; i++)
        if (*f->notes[i].file != 0) value_add(&others, location(keep, &f->notes[i], true));
    if (others.count > 0) value_put(&m, "relatedLocations", value_done(&others));
    if (f->replace_count > 0) value_put(&m, "fixes", list_of(keep, fix_value(keep, f)));
    return value_done(&m);
}

/* The program, and every code there is. */
static tt_value driver(arena *keep, const char *version)
{
    value_builder m = value_map(keep), rules = value_list(keep);
    const char *code, *title;
    for (uint32_t i = 0; tt_fault_code(i, &code, &title); i++) {
        value_builder r = value_map(keep);
        value_put_text(&r, "id", code);
        value_put(&r, "shortDescription", text_value(keep, "text", title));
        value_add(&rules, value_done(&r));
    }
    value_put_text(&m, "name", "telltale");
    value_put_text(&m, "version", version);
    value_put(&m, "rules", value_done(&rules));
    return value_done(&m);
}

tt_value fault_log_value(arena *keep, const tt_report *report, const char *version,
                         const char *folder)
{
    value_builder log = value_map(keep), run = value_map(keep), tool = value_map(keep),
                  bases = value_map(keep), results = value_list(keep);
    value_put(&tool, "driver", driver(keep, version));
    value_put(&bases, "BOOK",
              text_value(keep, "uri", str_printf(keep, "file://%s/", uri(keep, folder)).p));
    for (uint32_t i = 0; i < tt_report_count(report); i++) {
        const shown_fault f = shown(keep, report, i);
        value_add(&results, result_value(keep, &f));
    }
    value_put(&run, "tool", value_done(&tool));
    value_put(&run, "columnKind", value_of_text("unicodeCodePoints"));
    value_put(&run, "originalUriBaseIds", value_done(&bases));
    value_put(&run, "results", value_done(&results));
    value_put_text(&log, "version", "2.1.0");
    value_put(&log, "runs", list_of(keep, value_done(&run)));
    return value_done(&log);
}

/* ---- worked cases ---- */

typedef struct shown_trial {
    const char *name, *at;
    bool passed;
    const char *why;
    const shown_why *because;
} shown_trial;

typedef struct shown_trials {
    uint32_t version, count, passed;
    const shown_trial *cases;
    uint32_t cases_count;
    const char *const *unused;
    uint32_t unused_count;
    const tt_coverage *covers;
    uint32_t covers_count;
} shown_trials;

static const field trial_fields[] = {
    FIELD(shown_trial, name, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(shown_trial, at, FIELD_TEXT, ALWAYS, 1, "File and line."),
    FIELD(shown_trial, passed, FIELD_TRUTH, ALWAYS, 1, "It came out as expected."),
    FIELD(shown_trial, why, FIELD_TEXT, ALWAYS, 1, "What was expected and what came; or \"\"."),
    FIELD_THING(shown_trial, because, IF_ANY, 1, &why_shape,
                "Of the first five that did not come out as expected: the cause that it expects "
                "against its strongest rival."),
};
static const shape trial_shape = SHAPE("case", shown_trial, trial_fields, "");
/* By itself: its why stands beside it. */
static const shape one_trial_shape = SHAPE_OF_FIRST("one-case", shown_trial, trial_fields, 4, "");

static shown_trial trial_of(const tt_trial *t, const shown_why *because)
{
    return (shown_trial){t->name, t->at, t->passed, t->why, because};
}

typedef struct shown_tried_case {
    uint32_t version;
    shown_trial worked;
    const shown_why *because;
} shown_tried_case;

static const field tried_case_fields[] = {
    FIELD_VERSION(shown_tried_case, version, TRY_VERSION),
    FIELD_WITHIN(shown_tried_case, worked, "case", 1, &one_trial_shape, ""),
    FIELD_THING(shown_tried_case, because, ALWAYS, 1, &why_shape,
                "The cause that the case expects, or that leads if it expects none, against its "
                "strongest rival. null: the book lists nothing else."),
};
static const shape tried_case_shape = SHAPE("tried-case", shown_tried_case, tried_case_fields, "");

static const char *const covered[] = {"rules", "symptoms", "causes", "fixes"};
static const name_list covered_names = {covered, sizeof covered / sizeof covered[0]};

static const field coverage_fields[] = {
    FIELD_AMONG(tt_coverage, what, &covered_names, ALWAYS, 1, ""),
    FIELD(tt_coverage, touched, FIELD_COUNT, ALWAYS, 1,
          "Rules in force, symptoms shown, causes that lead, fixes worth trying in some case."),
    FIELD(tt_coverage, of, FIELD_COUNT, ALWAYS, 1, "So many there are, each as it is written."),
};
static const shape coverage_shape = SHAPE("coverage", tt_coverage, coverage_fields, "");

static const field trials_fields[] = {
    FIELD_VERSION(shown_trials, version, TRY_VERSION),
    FIELD(shown_trials, count, FIELD_COUNT, ALWAYS, 1, "Worked cases."),
    FIELD(shown_trials, passed, FIELD_COUNT, ALWAYS, 1, "Those that came out as expected."),
    FIELD_ALL(shown_trials, cases, FIELD_LIST, ALWAYS, 1, &trial_shape, ""),
    FIELD_ALL(shown_trials, unused, FIELD_TEXTS, ALWAYS, 1, NULL,
              "Rules, symptoms, causes and fixes that no worked case touches."),
    FIELD_ALL(shown_trials, covers, FIELD_LIST, ALWAYS, 1, &coverage_shape, ""),
};
static const shape trials_shape = SHAPE("trials", shown_trials, trials_fields, "");

tt_value trials_value(arena *keep, const tt_trials *trials, tt_case *const *failed)
{
    shown_trial *cases = ARENA_ARRAY(keep, shown_trial, trials->count);
    for (uint32_t i = 0; i < trials->count; i++) {
        const tt_trial *t = &trials->items[i];
        cases[i] = trial_of(t, failed[i] != NULL ? why_of(keep, failed[i], t->rank, t->fix) : NULL);
    }
    const shown_trials shown = {.version = TRY_VERSION,
                                .count = trials->count,
                                .passed = trials->passed,
                                .cases = cases,
                                .cases_count = trials->count,
                                .unused = trials->unused,
                                .unused_count = trials->unused_count,
                                .covers = trials->covers,
                                .covers_count = TT_COVERED};
    return shape_value(keep, &trials_shape, &shown);
}

/* ---- numbers that cases hold ---- */

typedef struct shown_holding {
    uint32_t version, count, held;
    const tt_held *numbers;
    uint32_t numbers_count;
} shown_holding;

static const char *const held_kinds[] = {"how-often", "shown-by", "otherwise", "cures"};
static const name_list held_names = {held_kinds, sizeof held_kinds / sizeof held_kinds[0]};

static const field held_fields[] = {
    FIELD_AMONG(tt_held, kind, &held_names, ALWAYS, 1, "The key under which it stands."),
    FIELD_ALL_OF(tt_held, names, name_count, FIELD_TEXTS, ALWAYS, 1, NULL,
                 "Symptom or fix, and cause, as they are written."),
    FIELD(tt_held, written, FIELD_TEXT, ALWAYS, 1, "As it stands."),
    FIELD(tt_held, turned, FIELD_TEXT, ALWAYS, 1, "What was tried in its place."),
    FIELD(tt_held, by, FIELD_MAYBE, ALWAYS, 1,
          "A worked case that then comes out otherwise; null: none does."),
    FIELD_WITHIN(tt_held, place, "place", 1, &place_shape, ""),
};
static const shape held_shape = SHAPE("number", tt_held, held_fields, "");

static const field holding_fields[] = {
    FIELD_VERSION(shown_holding, version, TRY_VERSION),
    FIELD(shown_holding, count, FIELD_COUNT, ALWAYS, 1, "Numbers that are written in the book."),
    FIELD(shown_holding, held, FIELD_COUNT, ALWAYS, 1, "Those that some worked case holds."),
    FIELD_ALL(shown_holding, numbers, FIELD_LIST, ALWAYS, 1, &held_shape, "By file and place."),
};
static const shape holding_shape = SHAPE("holding", shown_holding, holding_fields, "");

tt_value holding_value(arena *keep, const tt_holding *all)
{
    const shown_holding shown = {TRY_VERSION, all->count, all->held, all->items, all->count};
    return shape_value(keep, &holding_shape, &shown);
}

tt_value holding_schema(arena *keep)
{
    return whole_schema(keep, &holding_shape, "What `telltale try --held --json` prints",
                        "Version 1. Keys may be added; a key never changes its meaning or goes "
                        "away without a new version.");
}

tt_value tried_case_value(arena *keep, const tt_trial *trial, tt_case *c)
{
    const shown_tried_case shown = {TRY_VERSION, trial_of(trial, NULL),
                                    why_of(keep, c, trial->rank, trial->fix)};
    return shape_value(keep, &tried_case_shape, &shown);
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

tt_value tried_case_schema(arena *keep)
{
    return whole_schema(keep, &tried_case_shape, "What `telltale try BOOK CASE --json` prints",
                        "Version 1. " STAYS);
}
