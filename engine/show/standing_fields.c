/* Where a case stands: its tables of fields, and what fills them. */
#include "show/standing_fields.h"

#include <assert.h>

#include "show/figures.h"
#include "show/told.h"

/* ---- tables ---- */

static const char *const froms[] = {"answer", "site", "rule", "quantity", "fix"};
static const char *const risks[] = {"low", "medium", "serious", "high"};
static const char *const standings[] = {[TT_LIKELY_FIX] = "likely",
                                        [TT_POSSIBLE_FIX] = "possible",
                                        [TT_NOT_YET] = "not yet",
                                        [TT_OTHER_ROLE] = "needs another role"};
static const char *const outcomes[] = {"gone", "better", "no-change", "could-not", "worse"};
static const char *const signals[] = {"danger", "warning", "caution", "notice"};
#define NAMES(list) \
    { \
        list, sizeof(list) / sizeof((list)[0]) \
    }
const name_list from_names = NAMES(froms), risk_names = NAMES(risks),
                standing_names = NAMES(standings), signal_names = NAMES(signals);
static const name_list outcome_names = NAMES(outcomes);

static const field fact_fields[] = {
    FIELD(shown_fact, name, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(shown_fact, value, FIELD_ANSWER, ALWAYS, 1,
          "A reading as a number; an answer by its name; `shown` for a symptom; `unsure` or "
          "`cannot`."),
    FIELD(shown_fact, unit, FIELD_MAYBE, ALWAYS, 1,
          "Of a number; null where it has none. A dilution is a share without unit: 1:50 is 1/51."),
    FIELD_AMONG(shown_fact, from, &from_names, ALWAYS, 1, "fix: a setting as a fix left it."),
    FIELD(shown_fact, source, FIELD_MAYBE, IF_ANY, 1,
          "How the site's file knows it; left out where it doesn't say."),
    FIELD(shown_fact, at, FIELD_MAYBE, ALWAYS, 1,
          "Where the rule, or the line of the site's file, stands: file and line."),
    FIELD(shown_fact, ask, FIELD_MAYBE, ALWAYS, 1, "The question that it answers."),
    FIELD(shown_fact, text, FIELD_TEXT, ALWAYS, 1, "In words."),
    FIELD(
        shown_fact, before, FIELD_MAYBE, IF_ANY, 2,
        "What was seen at the looks before the last, in words; left out where there was one look."),
    FIELD(shown_fact, stale, FIELD_TRUTH, ALWAYS, 1, "Answered before a fix changed things."),
};
const shape fact_shape = SHAPE("fact", shown_fact, fact_fields, "");

static const field cause_fields[] = {
    FIELD(shown_cause, name, FIELD_MAYBE, ALWAYS, 1,
          "null: something that the book does not list."),
    FIELD(shown_cause, text, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD_IN(shown_cause, chance, FIELD_FIGURE, ZERO_TO_ONE, 1,
             "Chance that this is the cause; with one fault at a time they sum to 1."),
    FIELD(shown_cause, means, FIELD_TEXT, ALWAYS, 1, "What happens; or \"\"."),
};
const shape cause_shape = SHAPE_OF_FIRST("cause", shown_cause, cause_fields, 3, "");
const shape sheet_cause_shape = SHAPE("cause", shown_cause, cause_fields, "");

static const field likely_fields[] = {
    FIELD(shown_likely, count, FIELD_COUNT, ALWAYS, 1, "So many from the head of `causes`."),
    FIELD_IN(shown_likely, chance, FIELD_FIGURE, ZERO_TO_ONE, 1,
             "Chance that one of them is there: 0.9 or more."),
};
const shape likely_shape = SHAPE("likely", shown_likely, likely_fields, "");

static const field pair_fields[] = {
    FIELD_ALL(shown_pair, names, FIELD_TEXTS, ALWAYS, 1, NULL, "Of the two causes."),
    FIELD_IN(shown_pair, chance, FIELD_FIGURE, ZERO_TO_ONE, 1, ""),
    FIELD(shown_pair, first, FIELD_TEXT, ALWAYS, 1, "The one in words."),
    FIELD(shown_pair, second, FIELD_TEXT, ALWAYS, 1, "The other."),
};
const shape pair_shape = SHAPE_OF_FIRST("pair", shown_pair, pair_fields, 2, "");
const shape sheet_pair_shape = SHAPE("pair", shown_pair, pair_fields, "");

static const field fix_fields[] = {
    FIELD(shown_fix, name, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(shown_fix, text, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD_AMONG(shown_fix, risk, &risk_names, ALWAYS, 1, "With its protection in place."),
    FIELD_IN(shown_fix, chance, FIELD_FIGURE, ZERO_TO_ONE, 1, "Chance that it helps."),
    FIELD_IN(shown_fix, minutes, FIELD_FIGURE, FROM_ZERO, 1, ""),
    FIELD(shown_fix, role, FIELD_TEXT, ALWAYS, 1, "Who may do it."),
    FIELD_AMONG(shown_fix, standing, &standing_names, ALWAYS, 1, ""),
    FIELD(shown_fix, held, FIELD_TRUTH, ALWAYS, 1,
          "Danger is not ruled out (`gate`): whatever its standing, it is not to be tried now."),
    FIELD_ALL(shown_fix, needs, FIELD_TEXTS, ALWAYS, 1, NULL, "Tools and parts."),
};
const shape fix_shape = SHAPE_OF_FIRST("listed-fix", shown_fix, fix_fields, 8, "");
const shape sheet_fix_shape = SHAPE("listed-fix", shown_fix, fix_fields, "");

static const field known_fields[] = {
    FIELD_ALL(shown_known, focus, FIELD_TEXTS, ALWAYS, 1, NULL,
              "Names of the pieces that the case is about; empty: none was named."),
    FIELD_ALL(shown_known, facts, FIELD_LIST, ALWAYS, 1, &fact_shape, ""),
    FIELD_ALL(shown_known, causes, FIELD_LIST, ALWAYS, 1, &cause_shape, "The likeliest first."),
    FIELD_WITHIN(shown_known, likely, "likely", 2, &likely_shape,
                 "The fewest causes that hold 90 % of the belief."),
    FIELD(shown_known, probably_none, FIELD_TRUTH, ALWAYS, 2,
          "Something not listed leads, and three fixes or more were in vain."),
    FIELD(shown_known, nothing_wrong, FIELD_TRUTH, ALWAYS, 2,
          "Three things or more were looked at, and each is as in equipment in order."),
    FIELD_ALL(shown_known, fixes, FIELD_LIST, ALWAYS, 1, &fix_shape,
              "In the order in which to try them."),
};
const shape known_shape =
    SHAPE("known", shown_known, known_fields, "What is known, and what it points to.");

static const field measured_fields[] = {
    FIELD(shown_measured, question, FIELD_TEXT, ALWAYS, 2, "What is read, in words."),
    FIELD(shown_measured, before, FIELD_MAYBE, ALWAYS, 2, "With its unit; null: it was not read."),
    FIELD(shown_measured, after, FIELD_MAYBE, ALWAYS, 2, "The same, after the fix."),
};
const shape measured_shape =
    SHAPE("measured", shown_measured, measured_fields, "The reading that a fix is about.");

static const field tried_fields[] = {
    FIELD(shown_tried, name, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(shown_tried, text, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD_AMONG(shown_tried, outcome, &outcome_names, ALWAYS, 1, ""),
    FIELD(shown_tried, under_way, FIELD_TRUTH, ALWAYS, 1,
          "A setting that is being changed step by step."),
    FIELD(shown_tried, was_put_back, FIELD_TRUTH, ALWAYS, 1, "It was set back as found."),
    FIELD(shown_tried, left_so, FIELD_TRUTH, ALWAYS, 2, "It did not help, and stays as it is now."),
    FIELD(shown_tried, came_back, FIELD_TRUTH, ALWAYS, 2, "It helped, and the trouble came back."),
    FIELD(shown_tried, put_back, FIELD_MAYBE, ALWAYS, 1, "What has to be put back."),
    FIELD(shown_tried, cured, FIELD_MAYBE, ALWAYS, 1, "The cause that it most likely cured."),
    FIELD(shown_tried, together, FIELD_MAYBE, IF_ANY, 2,
          "Name of the other of two that were done under one lockout. Left out if it was done by "
          "itself."),
    FIELD_THING(
        shown_tried, measured, IF_ANY, 2, &measured_shape,
        "The reading that it is about, before and after it. Left out where nothing was read."),
};
const shape tried_shape = SHAPE("tried", shown_tried, tried_fields, "");

static const field caution_fields[] = {
    FIELD_AMONG(shown_caution, signal, &signal_names, ALWAYS, 1, ""),
    FIELD(shown_caution, text, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD_NAMED(shown_caution, is_new, "new", FIELD_TRUTH, ALWAYS, 1,
                "Told with this turn for the first time."),
};
const shape caution_shape = SHAPE("caution", shown_caution, caution_fields, "");
const shape standing_caution_shape =
    SHAPE_OF_FIRST("caution", shown_caution, caution_fields, 2, "");

/* ---- what fills them ---- */

const char *standing_name(tt_standing standing)
{
    assert(standing <= TT_OTHER_ROLE);
    return standings[standing];
}

static const shown_fact *facts_of(arena *keep, tt_case *c, const tt_view *view)
{
    shown_fact *all = ARENA_ARRAY(keep, shown_fact, view->fact_count);
    for (uint32_t i = 0; i < view->fact_count; i++) {
        const tt_fact *f = &view->facts[i];
        tt_question question;
        const bool asked =
            f->question != TT_NONE && is_told(keep, tt_question_show(c, f->question, &question));
        all[i] = (shown_fact){.name = f->name,
                              .value = f->is_number ? value_of_measure(f->number)
                                                    : value_of_text(f->value),
                              .unit = f->unit,
                              .from = f->from,
                              .source = f->source,
                              .at = f->at,
                              .ask = asked ? question.ask : NULL,
                              .text = f->text,
                              .before = f->before,
                              .stale = f->stale};
    }
    return all;
}

static const shown_cause *shown_causes(arena *keep, tongue in, const tt_view *view)
{
    shown_cause *all = ARENA_ARRAY(keep, shown_cause, view->cause_count);
    for (uint32_t i = 0; i < view->cause_count; i++) {
        const tt_cause *cause = &view->causes[i];
        all[i] = (shown_cause){cause->name, cause_words(in, cause), cause->chance, cause->means};
    }
    return all;
}

static const shown_fix *fixes_of(arena *keep, const tt_view *view)
{
    shown_fix *all = ARENA_ARRAY(keep, shown_fix, view->fix_count);
    for (uint32_t i = 0; i < view->fix_count; i++) {
        const tt_fix *fix = &view->fixes[i];
        all[i] = (shown_fix){.name = fix->name,
                             .text = fix->text,
                             .risk = fix->risk,
                             .chance = fix->chance,
                             .minutes = fix->minutes,
                             .role = fix->role,
                             .standing = standing_name(fix->standing),
                             .held = fix->held};
    }
    return all;
}

const shown_pair *pairs_of(arena *keep, const tt_view *view)
{
    shown_pair *all = ARENA_ARRAY(keep, shown_pair, view->pair_count);
    for (uint32_t i = 0; i < view->pair_count; i++) {
        const tt_pair *pair = &view->pairs[i];
        const char **names = ARENA_ARRAY(keep, const char *, 2);
        names[0] = pair->first;
        names[1] = pair->second;
        all[i] = (shown_pair){names, 2, pair->chance, pair->first_text, pair->second_text};
    }
    return all;
}

const shown_known *known_of(arena *keep, const tt_book *book, tt_case *c)
{
    const tt_view *view;
    tell_of(keep, tt_look(c, &view));
    const char **focus = ARENA_ARRAY(keep, const char *, view->focus_count);
    for (uint32_t i = 0; i < view->focus_count; i++)
        focus[i] = tt_piece_show(book, view->focus[i], NULL).name;
    shown_known *known = ARENA_NEW(keep, shown_known);
    *known = (shown_known){focus,
                           view->focus_count,
                           facts_of(keep, c, view),
                           view->fact_count,
                           shown_causes(keep, tongue_of(tt_case_language(c)), view),
                           view->cause_count,
                           {view->likely_count, view->likely_chance},
                           view->probably_none,
                           view->nothing_wrong,
                           fixes_of(keep, view),
                           view->fix_count};
    return known;
}

const shown_likely *likely_of(arena *keep, tt_case *c)
{
    const tt_view *view;
    tell_of(keep, tt_look(c, &view));
    shown_likely *likely = ARENA_NEW(keep, shown_likely);
    *likely = (shown_likely){view->likely_count, view->likely_chance};
    return likely;
}

const shown_cause *causes_of(arena *keep, tt_case *c, uint32_t *count)
{
    const tt_view *view;
    *count = 0;
    tell_of(keep, tt_look(c, &view));
    *count = view->cause_count;
    return shown_causes(keep, tongue_of(tt_case_language(c)), view);
}

const shown_measured *measured_of(arena *keep, const tt_measured *m)
{
    if (*m->before == 0 && *m->after == 0) return NULL;
    shown_measured *shown = ARENA_NEW(keep, shown_measured);
    *shown = (shown_measured){m->ask, m->before, m->after};
    return shown;
}

const shown_tried *tried_of(arena *keep, tt_case *c, const tt_measured *measured, uint32_t *count)
{
    const tt_tried *tried;
    tell_of(keep, tt_tried_fixes(c, &tried, count));
    shown_tried *all = ARENA_ARRAY(keep, shown_tried, *count);
    for (uint32_t i = 0; i < *count; i++)
        all[i] =
            (shown_tried){.name = tried[i].name,
                          .text = tried[i].text,
                          .outcome = tt_outcome_name(tried[i].outcome),
                          .under_way = tried[i].under_way,
                          .was_put_back = tried[i].was_put_back,
                          .left_so = tried[i].left_so,
                          .came_back = tried[i].came_back,
                          .put_back = tried[i].put_back,
                          .cured = tried[i].cured,
                          .together = tried[i].with_name,
                          .measured = measured != NULL ? measured_of(keep, &measured[i]) : NULL};
    return all;
}

const char *const *different_of(arena *keep, tt_case *c, uint32_t *count)
{
    const tt_tried *tried;
    uint32_t all = 0;
    *count = 0;
    tell_of(keep, tt_tried_fixes(c, &tried, &all));
    const char **texts = ARENA_ARRAY(keep, const char *, all);
    for (uint32_t i = 0; i < all; i++)
        if (*tried[i].setting != 0) texts[(*count)++] = tried[i].setting;
    return texts;
}

const shown_caution *cautions_of(arena *keep, tt_case *c, uint32_t *count)
{
    const tt_view *view;
    *count = 0;
    tell_of(keep, tt_look(c, &view));
    shown_caution *all = ARENA_ARRAY(keep, shown_caution, view->caution_count);
    for (uint32_t i = 0; i < view->caution_count; i++)
        all[i] = (shown_caution){view->cautions[i].signal, view->cautions[i].text, false};
    *count = view->caution_count;
    return all;
}
