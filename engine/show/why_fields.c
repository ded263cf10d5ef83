/* Why one cause rather than another: its tables of fields, and what fills them. */
#include "show/why_fields.h"

#include "show/figures.h"
#include "show/told.h"

#define NAMES(list) \
    { \
        list, sizeof(list) / sizeof((list)[0]) \
    }
static const char *const bar_kinds[] = {"start", "earlier", "facts", "fixes", "answers"};
static const char *const strengths[] = {"slight", "some", "strong", "very strong"};
static const char *const pivot_kinds[] = {"answer", "question", "facts", "number"};
static const name_list bar_names = NAMES(bar_kinds), strength_names = NAMES(strengths),
                       pivot_names = NAMES(pivot_kinds);

static const field side_fields[] = {
    FIELD(shown_side, name, FIELD_MAYBE, ALWAYS, 1, "null: something that the book does not list."),
    FIELD(shown_side, text, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD_IN(shown_side, chance, FIELD_FIGURE, ZERO_TO_ONE, 1, ""),
};
static const shape side_shape = SHAPE("weighed-cause", shown_side, side_fields, "");

static const field bar_fields[] = {
    FIELD_AMONG(tt_bar, kind, &bar_names, ALWAYS, 1,
                "start: how often each occurs, as the book says. earlier: what was cured at this "
                "site before, and may be back. facts: what rules in force, and "
                "the pieces that it is about, make of that. fixes: that were tried in vain. "
                "answers: that are judged together."),
    FIELD(tt_bar, text, FIELD_TEXT, ALWAYS, 1, "The answers in words; else \"\"."),
    FIELD_ALL_OF(tt_bar, names, name_count, FIELD_TEXTS, ALWAYS, 1, NULL,
                 "Questions; rules; fixes."),
    FIELD_IN(tt_bar, decibels, FIELD_NUMBER, ANY_NUMBER, 1,
             "10 log10 of how many times likelier it is with the cause than with its rival; null: "
             "one of the two is ruled out."),
    FIELD_AMONG(tt_bar, strength, &strength_names, ALWAYS, 1,
                "Below 3 decibels slight, to 7 some, to 13 strong."),
};
static const shape bar_shape = SHAPE("bar", tt_bar, bar_fields, "");

static const field instead_fields[] = {
    FIELD(tt_instead, name, FIELD_MAYBE, ALWAYS, 1,
          "Of the answer; or the word for a number. null: no answer, or no rule."),
    FIELD(tt_instead, text, FIELD_TEXT, ALWAYS, 1, "In words."),
    FIELD_IN(tt_instead, decibels, FIELD_NUMBER, ANY_NUMBER, 1, "What it adds."),
    FIELD_IN(tt_instead, then, FIELD_NUMBER, ANY_NUMBER, 1, "All together, then."),
};
static const shape instead_shape = SHAPE("instead", tt_instead, instead_fields, "");

static const field missing_fields[] = {
    FIELD(tt_missing, question, FIELD_TEXT, ALWAYS, 1, "Its name."),
    FIELD(tt_missing, ask, FIELD_TEXT, ALWAYS, 1, "Its words."),
    FIELD(tt_missing, role, FIELD_MAYBE, ALWAYS, 1, "Who may answer it, if whoever asks may not."),
    FIELD_IN(tt_missing, tells, FIELD_FIGURE, ANY_NUMBER, 1,
             "Decibels toward the one of the two that is there, on the mean of both."),
    FIELD_ALL_OF(tt_missing, answers, answer_count, FIELD_LIST, ALWAYS, 1, &instead_shape, ""),
    FIELD(tt_missing, turns, FIELD_TRUTH, ALWAYS, 1, "Some answer would let the other one lead."),
};
static const shape missing_shape = SHAPE("missing", tt_missing, missing_fields, "");

static const field place_fields[] = {
    FIELD(tt_place, at, FIELD_TEXT, ALWAYS, 1, "File and line."),
    FIELD(tt_place, file, FIELD_TEXT, ALWAYS, 1, "Within the folder of the book."),
    FIELD(tt_place, start, FIELD_TALLY, ALWAYS, 1, "The first byte of the number."),
    FIELD(tt_place, end, FIELD_TALLY, ALWAYS, 1, "The byte after its last."),
};
const shape place_shape = SHAPE("place", tt_place, place_fields, "");

static const field pivot_fields[] = {
    FIELD_AMONG(tt_pivot, kind, &pivot_names, ALWAYS, 1,
                "answer: another one to a question that was answered. question: an answer to one "
                "more. facts: without rules and pieces. number: another word in the book."),
    FIELD(tt_pivot, name, FIELD_MAYBE, ALWAYS, 1,
          "The question; of a number `how-often`, `shown-by` or `otherwise`."),
    FIELD(tt_pivot, text, FIELD_TEXT, ALWAYS, 1, "The question in words; else \"\"."),
    FIELD_ALL_OF(tt_pivot, names, name_count, FIELD_TEXTS, ALWAYS, 1, NULL,
                 "Of a number its symptom and cause; of facts the rules."),
    FIELD(tt_pivot, was, FIELD_TEXT, ALWAYS, 1, "The answer in words, or the number as written."),
    FIELD_ALL_OF(tt_pivot, instead, instead_count, FIELD_LIST, ALWAYS, 1, &instead_shape,
                 "Each of these turns it; the least first."),
    FIELD_THING(tt_pivot, place, ALWAYS, 1, &place_shape, "Where the number is written."),
};
static const shape pivot_shape = SHAPE("pivot", tt_pivot, pivot_fields, "");

static const char *const fix_reasons[] = {"tried",     "forbidden",      "role",    "rule",
                                          "only-when", "only-when-open", "setting", "after",
                                          "worth",     "risk",           "pace"};
static const char *const fix_pivot_kinds[] = {"takes", "cures", "cures-less", "how-often"};
static const name_list reason_names = NAMES(fix_reasons), fix_pivot_names = NAMES(fix_pivot_kinds);

static const field fix_pivot_fields[] = {
    FIELD_AMONG(
        tt_fix_pivot, kind, &fix_pivot_names, ALWAYS, 1,
        "takes, cures: of this fix. cures-less: of the one that comes first. how-often: how "
        "much likelier the cause would have to be."),
    FIELD(tt_fix_pivot, fix, FIELD_TEXT, ALWAYS, 1, "Its name."),
    FIELD(tt_fix_pivot, cause, FIELD_MAYBE, ALWAYS, 1, "The cause; null: of takes."),
    FIELD_IN(tt_fix_pivot, was, FIELD_NUMBER, ANY_NUMBER, 1, "Minutes, a chance, or 1."),
    FIELD_IN(tt_fix_pivot, then, FIELD_NUMBER, ANY_NUMBER, 1,
             "The same, from which on it comes first."),
};
static const shape fix_pivot_shape = SHAPE("fix-pivot", tt_fix_pivot, fix_pivot_fields, "");

static const field fix_why_fields[] = {
    FIELD(shown_fix_why, fix, FIELD_TEXT, ALWAYS, 1,
          "The fix that was expected, or that cures the likeliest cause most often."),
    FIELD(shown_fix_why, text, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(shown_fix_why, first, FIELD_MAYBE, ALWAYS, 1,
          "The one that comes first; null: none is worth trying yet."),
    FIELD(shown_fix_why, first_text, FIELD_MAYBE, ALWAYS, 1, ""),
    FIELD_AMONG(shown_fix_why, reason, &reason_names, ALWAYS, 1,
                "Not offered: tried; forbidden, too dangerous; role, the work of another; rule, "
                "one in force holds or skips it; only-when, "
                "does not hold, or -open is not known; setting, outside of within; after, another "
                "one first. Offered: worth, too small a "
                "chance; risk, a likely one of less risk is there; pace, another helps more for "
                "each minute."),
    FIELD_ALL(shown_fix_why, names, FIELD_TEXTS, ALWAYS, 1, NULL, "Rules; fixes."),
    FIELD(shown_fix_why, setting, FIELD_MAYBE, ALWAYS, 1,
          "What is read, and from where to where it begins."),
    FIELD_IN(shown_fix_why, chance, FIELD_FIGURE, ZERO_TO_ONE, 1, "To help."),
    FIELD_IN(shown_fix_why, least, FIELD_FIGURE, ZERO_TO_ONE, 1, "From which it is worth trying."),
    FIELD_IN(shown_fix_why, minutes, FIELD_NUMBER, ANY_NUMBER, 1,
             "With the way there, and the price of its being needless."),
    FIELD_IN(shown_fix_why, first_chance, FIELD_FIGURE, ZERO_TO_ONE, 1, ""),
    FIELD_IN(shown_fix_why, first_minutes, FIELD_NUMBER, ANY_NUMBER, 1, ""),
    FIELD_ALL(shown_fix_why, pivots, FIELD_LIST, ALWAYS, 1, &fix_pivot_shape,
              "What alone would put it first."),
};
static const shape fix_why_shape = SHAPE("why-fix", shown_fix_why, fix_why_fields, "");

static const field why_fields[] = {
    FIELD_WITHIN(shown_why, cause, "cause", 1, &side_shape, ""),
    FIELD_WITHIN(shown_why, rival, "rival", 1, &side_shape, "The likeliest other one."),
    FIELD_IN(shown_why, decibels, FIELD_NUMBER, ANY_NUMBER, 1,
             "The bars together: 10 log10 of the odds between the two. null: one is ruled out."),
    FIELD(shown_why, two_faults, FIELD_TRUTH, ALWAYS, 1,
          "The chances also count two faults at once, which the decibels don't."),
    FIELD_ALL(shown_why, bars, FIELD_LIST, ALWAYS, 1, &bar_shape, ""),
    FIELD_ALL(shown_why, missing, FIELD_LIST, ALWAYS, 1, &missing_shape,
              "Questions without an answer that tell the two apart, what tells most first."),
    FIELD_ALL(shown_why, pivots, FIELD_LIST, ALWAYS, 1, &pivot_shape,
              "What alone would let the other of the two lead."),
    FIELD_THING(shown_why, fix, IF_ANY, 1, &fix_why_shape,
                "Why a fix does not come first; left out: it does."),
};
const shape why_shape = SHAPE("why", shown_why, why_fields, "");

static shown_side side_of(tongue in, const tt_cause *cause)
{
    return (shown_side){cause->name, cause_words(in, cause), cause->chance};
}

static const shown_fix_why *fix_why_of(arena *keep, tt_case *c, uint32_t fix)
{
    tt_why_fix w;
    if (!is_told(keep, tt_why_fix_waits(c, fix, &w))) return NULL;
    shown_fix_why *s = ARENA_NEW(keep, shown_fix_why);
    *s = (shown_fix_why){w.wanted.name,   w.wanted.text, w.first.name, w.first.text,
                         w.reason,        w.names,       w.name_count, w.text,
                         w.wanted.chance, w.least,       w.cost,       w.first.chance,
                         w.first_cost,    w.pivots,      w.pivot_count};
    return s;
}

const shown_why *why_of(arena *keep, tt_case *c, uint32_t rank, uint32_t fix)
{
    tt_turning t;
    if (!is_told(keep, tt_what_turns(c, rank, TT_NONE, &t))) return NULL;
    shown_why *why = ARENA_NEW(keep, shown_why);
    *why = (shown_why){side_of(tongue_of(tt_case_language(c)), &t.why.cause),
                       side_of(tongue_of(tt_case_language(c)), &t.why.rival),
                       t.why.decibels,
                       t.why.two_faults,
                       t.why.bars,
                       t.why.bar_count,
                       t.missing,
                       t.missing_count,
                       t.pivots,
                       t.pivot_count,
                       fix_why_of(keep, c, fix)};
    return why;
}
