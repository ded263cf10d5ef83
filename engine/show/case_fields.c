/* Cases in a list, and their counts: the tables of fields, and what fills them. */
#include "show/case_fields.h"

#include <assert.h>
#include <string.h>

#include "say/catalogue.h"

enum { CASES_VERSION = 1 };

/* ---- what is shown of a case ---- */

typedef struct shown_case_book {
    const char *name, *edition, *revision, *folder;
} shown_case_book;
typedef struct shown_complaint {
    const char *name, *text, *said;
} shown_complaint;
typedef struct shown_case_cause {
    const char *name, *text;
    bool confirmed;
} shown_case_cause;
typedef struct shown_stands {
    const char *is, *text;
} shown_stands;
typedef struct shown_holder {
    const char *writer, *person, *place, *since;
    bool left;
    const char *to, *until, *note;
} shown_holder;
typedef struct shown_case {
    uint32_t version;
    const char *number, *id, *folder, *state, *kind, *every, *began, *last, *ended;
    double minutes;
    shown_case_book rulebook;
    const char *site;
    const shown_complaint *complaint;
    const shown_case_cause *cause;
    bool cause_disputed, danger;
    uint32_t answers, tried;
    const shown_stands *stands;
    const shown_holder *holder;
    const char *go_on;
    uint32_t left_out;
    const shown_contact *contact;
} shown_case;

/* ---- tables ---- */

static const char *const states[TT_CASE_STATES] = {"open",      "on-hold",   "waiting",
                                                   "closed",    "called",    "stopped",
                                                   "made-safe", "elsewhere", "unreadable"};
static const char *const stands_is[] = {"next", "last"};
static const char *const kinds[TT_CASE_KINDS] = {"fault", "round", "record", "drill"};
static const name_list kind_names = {kinds, TT_CASE_KINDS};
static const name_list state_names = {states, TT_CASE_STATES}, stands_names = {stands_is, 2};

static const field case_book_fields[] = {
    FIELD(shown_case_book, name, FIELD_MAYBE, ALWAYS, 1, "Its title."),
    FIELD(shown_case_book, edition, FIELD_MAYBE, ALWAYS, 1, ""),
    FIELD(shown_case_book, revision, FIELD_MAYBE, ALWAYS, 1,
          "SHA-256 of its sources, when last worked with."),
    FIELD(shown_case_book, folder, FIELD_MAYBE, ALWAYS, 1,
          "Where it lay, on the machine that began the case."),
};
static const shape case_book_shape = SHAPE("book", shown_case_book, case_book_fields, "");

static const field complaint_fields[] = {
    FIELD(shown_complaint, name, FIELD_MAYBE, ALWAYS, 1, "The symptom."),
    FIELD(shown_complaint, text, FIELD_MAYBE, ALWAYS, 1, "Its words; null in older cases."),
    FIELD(shown_complaint, said, FIELD_MAYBE, ALWAYS, 1, "The person's own words."),
};
static const shape complaint_shape = SHAPE("complaint", shown_complaint, complaint_fields, "");

static const field case_cause_fields[] = {
    FIELD(shown_case_cause, name, FIELD_MAYBE, ALWAYS, 1,
          "Of the book; something-not-listed if none of it."),
    FIELD(shown_case_cause, text, FIELD_MAYBE, ALWAYS, 1, "Its words; null in older cases."),
    FIELD(shown_case_cause, confirmed, FIELD_TRUTH, ALWAYS, 1,
          "Somebody said so; else it is only the likeliest."),
};
static const shape case_cause_shape = SHAPE("cause", shown_case_cause, case_cause_fields, "");

static const field stands_fields[] = {
    FIELD_AMONG(
        shown_stands, is, &stands_names, ALWAYS, 1,
        "next: what comes next; last: what was done last, where nobody said what comes next."),
    FIELD(shown_stands, text, FIELD_TEXT, ALWAYS, 1, "In words."),
};
static const shape stands_shape = SHAPE("stands", shown_stands, stands_fields, "");

static const field holder_fields[] = {
    FIELD(shown_holder, writer, FIELD_TEXT, ALWAYS, 1,
          "Twelve digits for a user on a machine, and what tells windows apart."),
    FIELD(shown_holder, person, FIELD_MAYBE, ALWAYS, 1, "As they called themselves."),
    FIELD(shown_holder, place, FIELD_MAYBE, ALWAYS, 1, "Their machine."),
    FIELD(shown_holder, since, FIELD_MAYBE, ALWAYS, 1,
          "When they opened it; or, if they left it, when they left."),
    FIELD(shown_holder, left, FIELD_TRUTH, ALWAYS, 1, "They left it since."),
    FIELD_NAMED(shown_holder, to, "for", FIELD_MAYBE, ALWAYS, 1,
                "To whom it was handed over, or for whom it waits: until somebody else goes on "
                "with it, or takes it."),
    FIELD(shown_holder, until, FIELD_MAYBE, ALWAYS, 1, "When they are expected, RFC 3339."),
    FIELD(shown_holder, note, FIELD_MAYBE, ALWAYS, 1,
          "Left for whoever comes next: until the case goes on. Whoever only looks in changes "
          "nothing."),
};
static const shape holder_shape = SHAPE("holder", shown_holder, holder_fields, "");

static const field contact_fields[] = {
    FIELD(shown_contact, caller, FIELD_MAYBE, ALWAYS, 1, "Who called."),
    FIELD_NAMED(shown_contact, call_back, "call-back", FIELD_MAYBE, ALWAYS, 1,
                "How they are called back."),
    FIELD(shown_contact, ticket, FIELD_MAYBE, ALWAYS, 1, "What another system calls the case."),
};
static const shape contact_shape = SHAPE("contact", shown_contact, contact_fields, "");

static const char states_doc[] =
    "on-hold: nobody has it, and a note says so; waiting: for somebody who was called; closed: the "
    "trouble is gone, or the round or record is done; called: ended with somebody to call; "
    "stopped: ended for safety; made-safe: somebody who was called has made it safe; elsewhere: it "
    "is the "
    "trouble of another case, and goes on there; unreadable: "
    "no record of it can be used.";

static const field case_fields[] = {
    FIELD_VERSION(shown_case, version, CASES_VERSION),
    FIELD_NAMED(shown_case, number, "case", FIELD_TEXT, ALWAYS, 1,
                "The spoken number: six digits and a check letter; nine or twelve digits where "
                "another case has the same six."),
    FIELD(shown_case, id, FIELD_TEXT, ALWAYS, 1,
          "The UUID of the case; ids sort by the time of the beginning, and so do the lines."),
    FIELD(shown_case, folder, FIELD_TEXT, ALWAYS, 1, "Where its records lie."),
    FIELD_AMONG(shown_case, state, &state_names, ALWAYS, 1, states_doc),
    FIELD_AMONG(shown_case, kind, &kind_names, ALWAYS, 1,
                "fault: something was wrong; round: what is looked at regularly; record: what good "
                "looks like."),
    FIELD(shown_case, every, FIELD_MAYBE, ALWAYS, 1,
          "Of a round: daily, weekly or monthly; else null."),
    FIELD(shown_case, began, FIELD_MAYBE, ALWAYS, 1, "RFC 3339, as written where it was."),
    FIELD(shown_case, last, FIELD_MAYBE, ALWAYS, 1, "Time of the last record."),
    FIELD(shown_case, ended, FIELD_MAYBE, ALWAYS, 1, "null while it is open."),
    FIELD_IN(shown_case, minutes, FIELD_NUMBER, FROM_ZERO, 1,
             "From the beginning to the end by the clock; null while it is open, and where clocks "
             "disagree."),
    FIELD_WITHIN(shown_case, rulebook, "rulebook", 1, &case_book_shape,
                 "As the case began with it."),
    FIELD(shown_case, site, FIELD_MAYBE, ALWAYS, 1,
          "The site's title; else the name of its file; null if none was said."),
    FIELD_THING(shown_case, complaint, ALWAYS, 1, &complaint_shape,
                "The last one that was not taken back."),
    FIELD_THING(shown_case, cause, ALWAYS, 1, &case_cause_shape,
                "Of closed cases: what it was, as far as the case knows."),
    FIELD(shown_case, cause_disputed, FIELD_TRUTH, ALWAYS, 1,
          "Several who did not know of each other named different causes, and nobody who knew of "
          "all has said anew: then cause is null."),
    FIELD(shown_case, danger, FIELD_TRUTH, ALWAYS, 1,
          "It is open, somebody told of danger, and nobody has said since that it is over."),
    FIELD(shown_case, answers, FIELD_COUNT, ALWAYS, 1, "Answers given and not taken back."),
    FIELD(shown_case, tried, FIELD_COUNT, ALWAYS, 1, "Fixes tried and not taken back."),
    FIELD_THING(shown_case, stands, ALWAYS, 1, &stands_shape,
                "Where an open case stands; null for others."),
    FIELD_THING(shown_case, holder, ALWAYS, 1, &holder_shape,
                "Who has the case open, or had it last."),
    FIELD(shown_case, go_on, FIELD_MAYBE, ALWAYS, 1,
          "The command with which to go on; null for cases that ended."),
    FIELD(shown_case, left_out, FIELD_COUNT, ALWAYS, 1,
          "Lines of its files that are no records, or are damaged."),
    FIELD_THING(shown_case, contact, ALWAYS, 1, &contact_shape,
                "Who called: only with --contact, else null, as where nothing is kept."),
};
static const shape case_shape =
    SHAPE("case", shown_case, case_fields, "One case. Without --count, every line is one.");

/* ---- of counts ---- */

static const field spread_fields[] = {
    FIELD(shown_spread, count, FIELD_TALLY, ALWAYS, 1, "Cases with a time; 0: the rest is null."),
    FIELD_IN(shown_spread, low, FIELD_NUMBER, FROM_ZERO, 1, "Lower quartile."),
    FIELD_IN(shown_spread, median, FIELD_NUMBER, FROM_ZERO, 1, "Median."),
    FIELD_IN(shown_spread, high, FIELD_NUMBER, FROM_ZERO, 1, "Upper quartile."),
};
static const shape spread_shape = SHAPE(
    "minutes", shown_spread, spread_fields,
    "From the beginning until the trouble was gone. Quartiles lie between two cases linearly.");

static const field cause_count_fields[] = {
    FIELD(shown_cause_count, name, FIELD_MAYBE, ALWAYS, 1, "null: not kept, or nobody knows."),
    FIELD(shown_cause_count, text, FIELD_MAYBE, ALWAYS, 1, "Its words."),
    FIELD(shown_cause_count, count, FIELD_TALLY, ALWAYS, 1, "Cases."),
    FIELD(shown_cause_count, confirmed, FIELD_TALLY, ALWAYS, 1,
          "Of these, those in which somebody said so."),
    FIELD_WITHIN(shown_cause_count, minutes, "minutes", 1, &spread_shape, ""),
};
static const shape cause_count_shape =
    SHAPE("cause-count", shown_cause_count, cause_count_fields, "How often one cause was it.");

static const field month_fields[] = {
    FIELD(shown_month, month, FIELD_TEXT, ALWAYS, 1, "Year and month in which the cases began."),
    FIELD(shown_month, site, FIELD_MAYBE, ALWAYS, 1, ""),
    FIELD(shown_month, name, FIELD_MAYBE, ALWAYS, 1, "The cause; null: not kept, or nobody knows."),
    FIELD(shown_month, text, FIELD_MAYBE, ALWAYS, 1, "Its words."),
    FIELD(shown_month, count, FIELD_TALLY, ALWAYS, 1, "Cases."),
    FIELD(shown_month, confirmed, FIELD_TALLY, ALWAYS, 1,
          "Of which somebody said what the cause was."),
};
static const shape month_shape = SHAPE("month", shown_month, month_fields, "");

#define STATE_FIELD(name_, state) \
    { \
        .name = name_, .type = FIELD_TALLY, .since = 1, .at = (state) * sizeof(uint64_t), \
        .doc = "" \
    }
static const field state_fields[TT_CASE_STATES] = {
    STATE_FIELD("open", TT_CASE_OPEN),
    STATE_FIELD("on-hold", TT_CASE_ON_HOLD),
    STATE_FIELD("waiting", TT_CASE_WAITING),
    STATE_FIELD("closed", TT_CASE_CLOSED),
    STATE_FIELD("called", TT_CASE_CALLED),
    STATE_FIELD("stopped", TT_CASE_STOPPED),
    STATE_FIELD("made-safe", TT_CASE_MADE_SAFE),
    STATE_FIELD("elsewhere", TT_CASE_ELSEWHERE),
    STATE_FIELD("unreadable", TT_CASE_UNREADABLE),
};
static const shape states_shape = {"states", "", sizeof(uint64_t[TT_CASE_STATES]), state_fields,
                                   TT_CASE_STATES};

static const field counts_fields[] = {
    FIELD_VERSION(shown_counts, version, CASES_VERSION),
    FIELD(shown_counts, cases, FIELD_TALLY, ALWAYS, 1, "How many fit what was asked for."),
    FIELD_WITHIN(shown_counts, states, "states", 1, &states_shape,
                 "How many of them are in each state."),
    FIELD_ALL(shown_counts, causes, FIELD_LIST, ALWAYS, 1, &cause_count_shape,
              "Of closed cases; the most frequent first, then by text."),
    FIELD_ALL(shown_counts, months, FIELD_LIST, ALWAYS, 1, &month_shape,
              "Causes by month and site, of the cases whose trouble is gone."),
    FIELD_WITHIN(shown_counts, minutes, "minutes", 1, &spread_shape, ""),
    FIELD(shown_counts, left_out, FIELD_TALLY, ALWAYS, 1,
          "Lines that are no records, in all these cases."),
    FIELD(shown_counts, failed, FIELD_TALLY, ALWAYS, 1,
          "Folders or cases that could not be read, and are not counted."),
};
static const shape counts_shape =
    SHAPE("counts", shown_counts, counts_fields, "With --count, the only line.");

/* ---- what fills them ---- */

const char *case_state_words(tongue in, tt_case_state state)
{
    static const text_id words[TT_CASE_STATES] = {
        [TT_CASE_OPEN] = CASES_OPEN,
        [TT_CASE_ON_HOLD] = CASES_ON_HOLD,
        [TT_CASE_WAITING] = CASES_WAITING,
        [TT_CASE_CLOSED] = CASES_CLOSED,
        [TT_CASE_CALLED] = CASES_CALLED,
        [TT_CASE_STOPPED] = CASES_STOPPED,
        [TT_CASE_MADE_SAFE] = CASES_MADE_SAFE,
        [TT_CASE_ELSEWHERE] = CASES_ELSEWHERE,
        [TT_CASE_UNREADABLE] = CASES_UNREADABLE,
    };
    assert((unsigned)state < TT_CASE_STATES);
    return catalogue_text(in, words[state]);
}

const char *stands_words(tongue in, const tt_case_summary *says)
{
    switch (says->stands_is) {
    case TT_STANDS_NOTHING:
        return "";
    case TT_STANDS_NEXT:
    case TT_STANDS_STEP:
        return says->stands;
    case TT_STANDS_FILE:
        return catalogue_text(in, LIST_STANDS_FILE);
    case TT_STANDS_SETTLED:
        return catalogue_text(in, LIST_STANDS_SETTLED);
    case TT_STANDS_NO_COMPLAINT:
        return catalogue_text(in, LIST_STANDS_NO_COMPLAINT);
    }
    assert(false);
    return "";
}

static const shown_complaint *complaint_of(arena *keep, const tt_case_summary *says)
{
    if (*says->complaint_name == 0 && *says->said == 0) return NULL;
    shown_complaint *complaint = ARENA_NEW(keep, shown_complaint);
    *complaint = (shown_complaint){says->complaint_name, says->complaint, says->said};
    return complaint;
}

static const shown_case_cause *cause_of(arena *keep, const tt_case_summary *says)
{
    if (*says->cause_name == 0 && *says->cause == 0) return NULL;
    shown_case_cause *cause = ARENA_NEW(keep, shown_case_cause);
    *cause = (shown_case_cause){says->cause_name, says->cause, says->confirmed};
    return cause;
}

static const shown_stands *stands_of(arena *keep, const tt_case_summary *says)
{
    if (says->stands_is == TT_STANDS_NOTHING) return NULL;
    shown_stands *stands = ARENA_NEW(keep, shown_stands);
    *stands = (shown_stands){stands_is[says->stands_is == TT_STANDS_NEXT ? 0 : 1],
                             stands_words(TO_AUTHORS, says)};
    return stands;
}

static const shown_holder *holder_of(arena *keep, const tt_case_summary *says)
{
    if (*says->writer == 0) return NULL;
    shown_holder *holder = ARENA_NEW(keep, shown_holder);
    *holder = (shown_holder){says->writer, says->person, says->place, says->since,
                             !says->held,  says->to,     says->until, says->note};
    return holder;
}

tt_value listed_case_value(arena *keep, const listed_case *c)
{
    const tt_case_summary *says = c->says;
    assert(says->state < TT_CASE_STATES &&
           strcmp(states[says->state], tt_case_state_name(says->state)) == 0);
    const shown_case shown = {.version = CASES_VERSION,
                              .number = c->number,
                              .id = c->id,
                              .folder = c->folder,
                              .state = states[says->state],
                              .kind = tt_case_kind_name(says->kind),
                              .every =
                                  says->kind == TT_KIND_ROUND ? tt_every_name(says->every) : "",
                              .began = says->began,
                              .last = says->last,
                              .ended = says->ended,
                              .minutes = says->minutes,
                              .rulebook = {says->title, says->edition, says->revision, says->book},
                              .site = says->site,
                              .complaint = complaint_of(keep, says),
                              .cause = cause_of(keep, says),
                              .cause_disputed = says->disputed,
                              .danger = says->danger,
                              .answers = says->answers,
                              .tried = says->tried,
                              .stands = c->go_on != NULL ? stands_of(keep, says) : NULL,
                              .holder = holder_of(keep, says),
                              .go_on = c->go_on,
                              .left_out = c->left_out,
                              .contact = c->contact};
    return shape_value(keep, &case_shape, &shown);
}

tt_value counts_value(arena *keep, const shown_counts *counts)
{
    shown_counts shown = *counts;
    shown.version = CASES_VERSION;
    for (uint32_t i = 0; i < TT_CASE_STATES; i++)
        assert(strcmp(state_fields[i].name, tt_case_state_name((tt_case_state)i)) == 0);
    return shape_value(keep, &counts_shape, &shown);
}

tt_value cases_schema(arena *keep)
{
    value_builder definitions = value_map(keep), either = value_list(keep);
    value_builder schema =
        schema_head(keep, "A line of `telltale cases --json`",
                    "Version 1. JSON Lines: one object a line. Without --count each is a case, "
                    "with --count the only one is the counts. Keys "
                    "may be added, and then the version stays; a key never changes its meaning or "
                    "goes away without a new version. Numbers "
                    "have 10 significant digits.");
    value_add(&either, shape_reference(keep, &case_shape, &definitions));
    value_add(&either, shape_reference(keep, &counts_shape, &definitions));
    value_put(&schema, "oneOf", value_done(&either));
    value_put(&schema, "definitions", value_done(&definitions));
    return value_done(&schema);
}
