/* A case on paper: its tables of fields. */
#include "show/sheet_fields.h"

#include <assert.h>

enum { SHEET_VERSION = 1 };

static const field head_fields[] = {
    FIELD(sheet_head, number, FIELD_TEXT, ALWAYS, 1,
          "For the telephone: six digits and a letter; more digits where another case has the same "
          "six."),
    FIELD(sheet_head, kind, FIELD_TEXT, ALWAYS, 1,
          "`fault`, `round` or `record`: what the case was begun for."),
    FIELD(sheet_head, state, FIELD_TEXT, ALWAYS, 1,
          "As in cases.schema.json: `open`, `on-hold`, `waiting` for somebody who was called, "
          "`closed`, ..."),
    FIELD(sheet_head, begun, FIELD_MAYBE, ALWAYS, 1,
          "When its first record was written (RFC 3339)."),
    FIELD(sheet_head, last, FIELD_MAYBE, ALWAYS, 1, "When its last was."),
    FIELD(sheet_head, closed, FIELD_MAYBE, ALWAYS, 1,
          "null: it is open. `gone`: the trouble is gone; `done`: the round was gone, or what is "
          "good "
          "was recorded; `call`: somebody else goes on; `stop`: "
          "stopped for danger; `made-safe`: whoever was called made it "
          "safe; `elsewhere`: it is the trouble of another case."),
    FIELD(sheet_head, to, FIELD_MAYBE, ALWAYS, 1,
          "For whom it was left, while nobody has taken it."),
    FIELD(sheet_head, until, FIELD_MAYBE, ALWAYS, 1,
          "When it is to be looked at again, as somebody said."),
    FIELD(sheet_head, handed_to, FIELD_MAYBE, ALWAYS, 1,
          "The role that was called when it was closed without a cure."),
    FIELD(sheet_head, confirmed, FIELD_MAYBE, ALWAYS, 1,
          "What it was, as somebody said afterwards."),
    FIELD(sheet_head, role, FIELD_MAYBE, ALWAYS, 1, "Who asked; null: the lowest role."),
    FIELD(sheet_head, caller, FIELD_MAYBE, ALWAYS, 1, "Who called, in words: only with --contact."),
    FIELD(sheet_head, practice, FIELD_TRUTH, ALWAYS, 1,
          "It is about the example site: no mark and no number in it is anybody's."),
};
static const shape head_shape = SHAPE("case", sheet_head, head_fields, "");

static const field book_fields[] = {
    FIELD(sheet_book, name, FIELD_TEXT, ALWAYS, 1, "Title of the book."),
    FIELD(sheet_book, edition, FIELD_TEXT, ALWAYS, 1, ""),
    {.name = "revision",
     .type = FIELD_TEXT,
     .since = 1,
     .at = offsetof(sheet_book, revision),
     .pattern = DIGEST_PATTERN,
     .doc = "SHA-256 over the sources, as in rank.schema.json."},
    FIELD(sheet_book, language, FIELD_TEXT, ALWAYS, 1, "Of the texts, BCP 47."),
    FIELD(sheet_book, same_as_in_case, FIELD_TRUTH, ALWAYS, 1,
          "The revision is the one with which the case was last worked on."),
};
static const shape sheet_book_shape = SHAPE("book", sheet_book, book_fields, "");

static const field sheet_site_fields[] = {
    FIELD(shown_site, title, FIELD_TEXT, ALWAYS, 1, "\"\" if it has none."),
    FIELD(shown_site, revision, FIELD_MAYBE, ALWAYS, 1,
          "SHA-256 of its file; null for the example in the book."),
};
static const shape sheet_site_shape = SHAPE("site", shown_site, sheet_site_fields, "");

static const char *const marks[] = {"taken-back", "settled",  "told-twice", "damaged",
                                    "left-out",   "replaced", "read-again"};
static const name_list mark_names = {marks, sizeof marks / sizeof marks[0]};

static const field step_fields[] = {
    FIELD(sheet_step, time, FIELD_TEXT, ALWAYS, 1, "RFC 3339, as the record says it."),
    FIELD(sheet_step, by, FIELD_TEXT, ALWAYS, 1, "Who wrote it."),
    FIELD(sheet_step, writer, FIELD_TEXT, ALWAYS, 1, "The file of the case in which it stands."),
    FIELD(sheet_step, kind, FIELD_TEXT, ALWAYS, 1,
          "Of the record: `begin`, `complaint`, `no-complaint`, `answer`, `answers`, `tried`, "
          "`put-back`, `close`, ... New kinds may come."),
    FIELD(sheet_step, about, FIELD_MAYBE, ALWAYS, 1,
          "Name of the question, the symptom or the fix."),
    FIELD(sheet_step, text, FIELD_TEXT, ALWAYS, 1, "What was asked or done."),
    FIELD(sheet_step, result, FIELD_TEXT, ALWAYS, 1, "What was said, or came of it."),
    FIELD(sheet_step, typed, FIELD_TEXT, ALWAYS, 1, "In which words; or \"\"."),
    FIELD(sheet_step, setting, FIELD_MAYBE, ALWAYS, 1, "What was set, in words."),
    FIELD(sheet_step, from, FIELD_MAYBE, ALWAYS, 1, "Before."),
    FIELD(sheet_step, to, FIELD_MAYBE, ALWAYS, 1, "After."),
    FIELD(sheet_step, taken_back, FIELD_TRUTH, ALWAYS, 1,
          "It does not count any more: taken back, or settled to be wrong."),
    FIELD(sheet_step, left_out, FIELD_TRUTH, ALWAYS, 1,
          "The rules no longer know what it is about."),
    {.name = "mark",
     .type = FIELD_MAYBE,
     .since = 1,
     .at = offsetof(sheet_step, mark),
     .among = &mark_names,
     .doc = "Why it does not count, or no longer; null: it does. `taken-back`: by `back`; "
            "`settled`: two said different things, and the "
            "other was right; `told-twice`: somebody else had told the same; `replaced`: the "
            "question was answered again later; "
            "`read-again`: so it was before a fix, and it was asked again after it."},
};
static const shape step_shape = SHAPE("step", sheet_step, step_fields, "");

static const field fact_fields[] = {
    FIELD(sheet_fact, name, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(sheet_fact, text, FIELD_TEXT, ALWAYS, 1, "The question, or what holds."),
    FIELD(sheet_fact, value, FIELD_MAYBE, ALWAYS, 1,
          "The answer in words; null where the text says all."),
    FIELD_AMONG(sheet_fact, from, &from_names, ALWAYS, 1, ""),
    FIELD(sheet_fact, source, FIELD_MAYBE, ALWAYS, 1, "How the site's file knows it."),
    FIELD(sheet_fact, reckoned, FIELD_TRUTH, ALWAYS, 1, "Worked out from others."),
    FIELD(sheet_fact, stale, FIELD_TRUTH, ALWAYS, 1, "Answered before a fix changed things."),
    FIELD(sheet_fact, unknown, FIELD_TRUTH, ALWAYS, 1, "It was asked, and nobody could tell."),
    FIELD(sheet_fact, unit, FIELD_MAYBE, ALWAYS, 1, "Of a number; null where it has none."),
    FIELD(sheet_fact, at, FIELD_MAYBE, ALWAYS, 1,
          "Where the rule, or the line of the site's file, stands: file and line."),
};
static const shape sheet_fact_shape = SHAPE("fact", sheet_fact, fact_fields, "");

static const field tried_fields[] = {
    FIELD(sheet_tried, name, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(sheet_tried, text, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(sheet_tried, outcome, FIELD_TEXT, ALWAYS, 1, "In words."),
    FIELD(sheet_tried, under_way, FIELD_TRUTH, ALWAYS, 1, "An adjustment that has not ended."),
    FIELD(sheet_tried, was_put_back, FIELD_TRUTH, ALWAYS, 1, ""),
    FIELD(sheet_tried, different, FIELD_MAYBE, ALWAYS, 1, "What is different from before."),
    FIELD(sheet_tried, put_back, FIELD_MAYBE, ALWAYS, 1, "What must be put back."),
    FIELD(sheet_tried, cured, FIELD_MAYBE, ALWAYS, 1, "The cause that it most likely cured."),
    FIELD(sheet_tried, together, FIELD_MAYBE, IF_ANY, 1,
          "Name of the other of two that were done under one lockout. Left out if it was done by "
          "itself."),
    FIELD_THING(
        sheet_tried, measured, IF_ANY, 1, &measured_shape,
        "The reading that it is about, before and after it. Left out where nothing was read."),
};
static const shape sheet_tried_shape = SHAPE("tried", sheet_tried, tried_fields, "");

static const field caution_fields[] = {
    {.name = "signal",
     .type = FIELD_MAYBE,
     .since = 1,
     .at = offsetof(sheet_caution, signal),
     .among = &signal_names,
     .doc = "null: the book says it before anything else."},
    FIELD(sheet_caution, text, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(sheet_caution, time, FIELD_TEXT, ALWAYS, 1, "When it was shown first."),
};
static const shape sheet_caution_shape = SHAPE("caution", sheet_caution, caution_fields, "");

static const field danger_fields[] = {
    FIELD(sheet_danger, time, FIELD_TEXT, ALWAYS, 1, "RFC 3339."),
    FIELD(sheet_danger, by, FIELD_TEXT, ALWAYS, 1, "Who wrote it."),
    FIELD(sheet_danger, text, FIELD_TEXT, ALWAYS, 1,
          "What was said, or which question about danger was answered how."),
};
static const shape danger_shape = SHAPE("danger", sheet_danger, danger_fields, "");

static const field unfinished_fields[] = {
    FIELD(sheet_unfinished, name, FIELD_TEXT, ALWAYS, 1, "Of the fix."),
    FIELD(sheet_unfinished, text, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD_ALL(sheet_unfinished, done, FIELD_TEXTS, ALWAYS, 1, NULL,
              "What was done of it, in order: locks may still be on."),
};
static const shape unfinished_shape = SHAPE("unfinished", sheet_unfinished, unfinished_fields, "");

static const field next_fix_fields[] = {
    FIELD(sheet_next_fix, name, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(sheet_next_fix, text, FIELD_TEXT, ALWAYS, 1, "What to do, or what to put back."),
    FIELD(sheet_next_fix, role, FIELD_TEXT, ALWAYS, 1,
          "Whose work it is: nobody below it does it."),
    FIELD_ALL(sheet_next_fix, hazards, FIELD_TEXTS, ALWAYS, 1, NULL, "What can hurt there."),
    FIELD_ALL(sheet_next_fix, tell, FIELD_TEXTS, ALWAYS, 1, NULL, "Whom to tell first."),
    FIELD_ALL(sheet_next_fix, isolate, FIELD_TEXTS, ALWAYS, 1, NULL, "What to make safe first."),
    FIELD_ALL(sheet_next_fix, release, FIELD_TEXTS, ALWAYS, 1, NULL, "What to let go then."),
    FIELD_ALL(sheet_next_fix, prove, FIELD_TEXTS, ALWAYS, 1, NULL,
              "How it is proved that nothing is left."),
    FIELD_ALL(sheet_next_fix, protect, FIELD_TEXTS, ALWAYS, 1, NULL, "What to wear."),
    FIELD_ALL(sheet_next_fix, steps, FIELD_TEXTS, ALWAYS, 1, NULL, ""),
    FIELD_ALL(sheet_next_fix, restore, FIELD_TEXTS, ALWAYS, 1, NULL,
              "How it is given back at the end."),
    FIELD_ALL(sheet_next_fix, once_running, FIELD_TEXTS, ALWAYS, 1, NULL,
              "What comes once it runs again."),
    FIELD_ALL(sheet_next_fix, needs, FIELD_TEXTS, ALWAYS, 1, NULL, "Tools and parts."),
};
static const shape next_fix_shape = SHAPE("next-fix", sheet_next_fix, next_fix_fields, "");

static const field gate_fields[] = {
    FIELD(sheet_gate, question, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD_ALL(
        sheet_gate, safe, FIELD_TEXTS, ALWAYS, 1, NULL,
        "Answers that let it go on; after any other, not knowing among them, nothing is done."),
};
static const shape gate_shape = SHAPE("gate", sheet_gate, gate_fields, "");

static const char *const steps[] = {"ask", "fix", "put back", "call", "stop", "nothing"};
static const name_list step_names = {steps, sizeof steps / sizeof steps[0]};

static const field next_fields[] = {
    {.name = "do",
     .type = FIELD_TEXT,
     .since = 1,
     .at = offsetof(sheet_next, what),
     .among = &step_names,
     .doc = ""},
    FIELD(sheet_next, question, FIELD_MAYBE, ALWAYS, 1, "To be asked."),
    FIELD_THING(sheet_next, fix, ALWAYS, 1, &next_fix_shape,
                "With all that keeps whoever does it safe."),
    FIELD(sheet_next, stop, FIELD_MAYBE, ALWAYS, 1, ""),
    FIELD(sheet_next, call, FIELD_MAYBE, ALWAYS, 1,
          "The role to call; null where `what` is `call`: somebody from outside."),
};
static const shape next_shape = SHAPE("next", sheet_next, next_fields, "");

static const field part_fields[] = {
    FIELD(sheet_part, text, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD_IN(sheet_part, chance, FIELD_FIGURE, ZERO_TO_ONE, 1,
             "That at least one cause is there that calls for it."),
};
static const shape part_shape = SHAPE("part", sheet_part, part_fields, "");

static const field sheet_fields[] = {
    FIELD_VERSION(shown_sheet, version, SHEET_VERSION),
    FIELD_WITHIN(shown_sheet, head, "case", 1, &head_shape, ""),
    FIELD_WITHIN(shown_sheet, rulebook, "rulebook", 1, &sheet_book_shape,
                 "What the sheet was worked out with."),
    FIELD_THING(shown_sheet, site, ALWAYS, 1, &sheet_site_shape,
                "Null: nothing says what equipment there is."),
    FIELD_ALL(shown_sheet, about, FIELD_TEXTS, ALWAYS, 1, NULL,
              "The pieces of equipment that the case is about; empty: none was named."),
    FIELD_ALL(shown_sheet, steps, FIELD_LIST, ALWAYS, 1, &step_shape,
              "What was said and done, in order; nothing is left away."),
    FIELD_ALL(shown_sheet, to_settle, FIELD_TEXTS, ALWAYS, 1, NULL,
              "What people who did not know of each other said differently."),
    FIELD_ALL(shown_sheet, facts, FIELD_LIST, ALWAYS, 1, &sheet_fact_shape,
              "What is known, by name."),
    FIELD_ALL(shown_sheet, causes, FIELD_LIST, ALWAYS, 1, &sheet_cause_shape,
              "Likeliest first, then by name."),
    FIELD_WITHIN(shown_sheet, likely, "likely", 1, &likely_shape,
                 "The fewest causes that hold 90 % of the belief."),
    FIELD(shown_sheet, probably_none, FIELD_TRUTH, ALWAYS, 1,
          "Something not listed leads, and three fixes or more were in vain."),
    FIELD(shown_sheet, nothing_wrong, FIELD_TRUTH, ALWAYS, 1,
          "Three things or more were looked at, and each is as in equipment in order."),
    FIELD(shown_sheet, not_listed_leads, FIELD_TRUTH, ALWAYS, 1,
          "The answers fit no listed cause well."),
    FIELD(shown_sheet, all_ruled_out, FIELD_TRUTH, ALWAYS, 1,
          "The answers rule out every listed cause."),
    FIELD_IN(shown_sheet, two_faults, FIELD_FIGURE, ZERO_TO_ONE, 1,
             "Chance that two faults are there at once."),
    FIELD_ALL(shown_sheet, pairs, FIELD_LIST, ALWAYS, 1, &sheet_pair_shape,
              "Two faults at once, likeliest first; empty unless they matter."),
    FIELD_ALL(shown_sheet, tried, FIELD_LIST, ALWAYS, 1, &sheet_tried_shape,
              "Fixes in the order in which they were tried; all steps of an adjustment are one."),
    FIELD_ALL(shown_sheet, cautions, FIELD_LIST, ALWAYS, 1, &sheet_caution_shape,
              "Every caution that was shown, in the order in which they came up."),
    FIELD_ALL(shown_sheet, dangers, FIELD_LIST, ALWAYS, 1, &danger_shape,
              "Danger that was told, in its order."),
    FIELD_THING(shown_sheet, unfinished, ALWAYS, 1, &unfinished_shape,
                "A fix that was begun and not finished; null: none."),
    FIELD_ALL(shown_sheet, contacts, FIELD_LIST, ALWAYS, 1, &contact_shape,
              "Whom to call at the site, as its file says; never of the example."),
    FIELD_ALL(shown_sheet, gates, FIELD_LIST, ALWAYS, 1, &gate_shape,
              "What is asked first of whoever goes on, before anything is looked at or done."),
    FIELD_WITHIN(shown_sheet, next, "next", 1, &next_shape, "What comes next."),
    FIELD_ALL(shown_sheet, fixes, FIELD_LIST, ALWAYS, 1, &sheet_fix_shape,
              "Those left, in the order to try them."),
    FIELD_ALL(shown_sheet, parts, FIELD_LIST, ALWAYS, 1, &part_shape,
              "Spare parts that the causes call for, likeliest first."),
};
static const shape sheet_shape = SHAPE("sheet", shown_sheet, sheet_fields, "");

const char *sheet_step_name(tt_step step)
{
    switch (step) {
    case TT_ASK:
    case TT_PIECE:
    case TT_SETTLE:
    case TT_COMPLAINT:
        return "ask";
    case TT_FIX:
        return "fix";
    case TT_PUT_BACK:
        return "put back";
    case TT_CALL:
        return "call";
    case TT_STOP:
        return "stop";
    case TT_CLOSED:
    case TT_WALKED:
        return "nothing";
    }
    assert(false);
    return "call";
}

tt_value sheet_value(arena *keep, const shown_sheet *sheet)
{
    shown_sheet shown = *sheet;
    shown.version = SHEET_VERSION;
    return shape_value(keep, &sheet_shape, &shown);
}

static const char schema_doc[] =
    "Version 1. Keys may be added, and then the version stays; a key never changes its meaning or "
    "goes away without a new version. Numbers have 10 "
    "significant digits. Texts are for people: in the language of the book, without control "
    "characters.";

tt_value sheet_schema(arena *keep)
{
    return whole_schema(keep, &sheet_shape, "What `telltale sheet --json` prints", schema_doc);
}
