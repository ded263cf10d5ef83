/* A standing for programs: its table of fields, and what fills it. */
#include "show/rank_fields.h"

#include <assert.h>

#include "show/book_fields.h"
#include "show/standing_fields.h"
#include "show/told.h"
#include "show/why_fields.h"

enum { RANK_VERSION = 1 };

/* ---- what is shown ---- */

typedef struct shown_next {
    const char *question, *ask;
    double bits, minutes, saves_minutes;
} shown_next;
typedef struct shown_gate {
    bool open;
    const char *question;
} shown_gate;
typedef struct shown_stop {
    const char *text, *call;
} shown_stop;
typedef struct shown_standing {
    uint32_t version;
    shown_book rulebook;
    const shown_site *site;
    const char *const *focus;
    uint32_t focus_count;
    const shown_fact *facts;
    uint32_t facts_count;
    const shown_cause *causes;
    uint32_t causes_count;
    shown_likely likely;
    bool probably_none, nothing_wrong;
    const shown_pair *pairs;
    uint32_t pairs_count;
    double two_faults;
    const shown_next *next;
    const shown_fix *fixes;
    uint32_t fixes_count;
    shown_gate gate;
    const char *do_next, *together;
    const shown_caution *cautions;
    uint32_t cautions_count;
    const shown_stop *stop;
    const shown_why *why;
} shown_standing;

/* ---- tables ---- */

static const char *const steps[] = {"ask", "fix", "call"};
static const name_list step_names = {steps, sizeof steps / sizeof steps[0]};

static const field next_fields[] = {
    FIELD(shown_next, question, FIELD_TEXT, ALWAYS, 1, "Its name."),
    FIELD(shown_next, ask, FIELD_TEXT, ALWAYS, 1, "Its words."),
    FIELD_IN(shown_next, bits, FIELD_FIGURE, FROM_ZERO, 1, "How much it is expected to tell."),
    FIELD_IN(shown_next, minutes, FIELD_FIGURE, FROM_ZERO, 1, "How long it takes."),
    FIELD_IN(shown_next, saves_minutes, FIELD_FIGURE, ANY_NUMBER, 1,
             "What asking it before the first fix is expected to save."),
};
static const shape next_shape = SHAPE("next", shown_next, next_fields, "");

static const field gate_fields[] = {
    FIELD(shown_gate, open, FIELD_TRUTH, ALWAYS, 1, ""),
    FIELD(shown_gate, question, FIELD_MAYBE, ALWAYS, 1,
          "If it is not open: the question whose safe answer is wanted. With `do_next` \"ask\" "
          "nobody has answered it (or what decides whether it applies); "
          "with \"call\" it was answered otherwise, unsure included. null: the gate is open, or a "
          "rule stops everything for another answer."),
};
static const shape gate_shape = SHAPE("gate", shown_gate, gate_fields, "");

static const field stop_fields[] = {
    FIELD(shown_stop, text, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(shown_stop, call, FIELD_MAYBE, ALWAYS, 1, "The role to call."),
};
static const shape stop_shape = SHAPE("stop", shown_stop, stop_fields, "");

static const field standing_fields[] = {
    FIELD_VERSION(shown_standing, version, RANK_VERSION),
    FIELD_WITHIN(shown_standing, rulebook, "rulebook", 1, &book_shape, ""),
    FIELD_THING(shown_standing, site, ALWAYS, 1, &site_shape,
                "The site that the book was read for; null if there is none."),
    FIELD_ALL(
        shown_standing, focus, FIELD_TEXTS, ALWAYS, 1, NULL,
        "Names of the pieces of equipment that the call is about; empty: none was named, so all."),
    FIELD_ALL(shown_standing, facts, FIELD_LIST, ALWAYS, 1, &fact_shape, "What is known, by name."),
    FIELD_ALL(shown_standing, causes, FIELD_LIST, ALWAYS, 1, &cause_shape,
              "Likeliest first, then by name."),
    FIELD_WITHIN(shown_standing, likely, "likely", 1, &likely_shape,
                 "The fewest causes that hold 90 % of the belief."),
    FIELD(shown_standing, probably_none, FIELD_TRUTH, ALWAYS, 1,
          "Something not listed leads, and three fixes or more were in vain."),
    FIELD(shown_standing, nothing_wrong, FIELD_TRUTH, ALWAYS, 1,
          "Three things or more were looked at, and each is as in equipment in order."),
    FIELD_ALL(shown_standing, pairs, FIELD_LIST, ALWAYS, 1, &pair_shape,
              "Two faults at once, likeliest first, at most 10."),
    FIELD_IN(shown_standing, two_faults, FIELD_FIGURE, ZERO_TO_ONE, 1,
             "Chance that two faults are there at once."),
    FIELD_THING(shown_standing, next, ALWAYS, 1, &next_shape,
                "The question that tells most, or null if there is none."),
    FIELD_ALL(shown_standing, fixes, FIELD_LIST, ALWAYS, 1, &fix_shape,
              "In the order to try them: the likely ones safest first, then the possible ones, "
              "then the rest."),
    FIELD_WITHIN(shown_standing, gate, "gate", 1, &gate_shape,
                 "Whether danger is ruled out by the answers. Until it is, no fix is to be tried, "
                 "whoever asks and however the rest looks."),
    FIELD_AMONG(shown_standing, do_next, &step_names, ALWAYS, 1,
                "What comes next. A gate question without an answer: ask; one that was answered in "
                "any other way than as safe: call, with `stop`."),
    FIELD(
        shown_standing, together, FIELD_MAYBE, IF_ANY, 1,
        "Where the first fix comes next: name of another to be done under the same lockout, which "
        "counts once, before it is given back. Left out if there is none."),
    FIELD_ALL(shown_standing, cautions, FIELD_LIST, ALWAYS, 1, &standing_caution_shape,
              "Gravest first."),
    FIELD_THING(shown_standing, stop, ALWAYS, 1, &stop_shape, "null: nothing stops it."),
    FIELD_THING(shown_standing, why, IF_ANY, 1, &why_shape,
                "With `--why`: the first cause against its strongest rival. Left out if there is "
                "none."),
};
static const shape standing_shape = SHAPE("standing", shown_standing, standing_fields, "");

/* ---- what fills them ---- */

/* A sum of differences: what tells nothing may come out as a hair below nothing. */
static const shown_next *next_of(arena *keep, tt_case *c, const tt_next *next)
{
    tt_question question;
    if (next->question == TT_NONE) return NULL;
    tell_of(keep, tt_question_show(c, next->question, &question));
    shown_next *shown = ARENA_NEW(keep, shown_next);
    *shown = (shown_next){question.name, question.ask, next->bits > 0 ? next->bits : 0,
                          next->minutes, next->saves_minutes};
    return shown;
}

/* What is wanted of whoever asks: an answer to it, or a safe one in place of the one that was
 * given. */
static shown_gate gate_of(arena *keep, tt_case *c, const tt_gate *gate)
{
    tt_question question;
    const bool open = gate->state == TT_GATE_OPEN;
    if (gate->question == TT_NONE) return (shown_gate){open, NULL};
    tell_of(keep, tt_question_show(c, gate->question, &question));
    return (shown_gate){open, question.name};
}

static const shown_stop *stop_of(arena *keep, const tt_view *view)
{
    if (view->stop_text == NULL) return NULL;
    shown_stop *stop = ARENA_NEW(keep, shown_stop);
    *stop = (shown_stop){view->stop_text, view->call_role};
    return stop;
}

static const char *do_next(tt_step step)
{
    return step == TT_ASK ? "ask" : step == TT_FIX ? "fix" : "call";
}

static const char *together_of(arena *keep, tt_case *c, const tt_view *view)
{
    tt_fix_plan plan;
    if (view->step != TT_FIX || view->with == TT_NONE) return "";
    tell_of(keep, tt_fix_show(c, view->with, &plan));
    return plan.name;
}

static void put_known(shown_standing *s, const shown_known *known)
{
    s->focus = known->focus;
    s->focus_count = known->focus_count;
    s->facts = known->facts;
    s->facts_count = known->facts_count;
    s->causes = known->causes;
    s->causes_count = known->causes_count;
    s->fixes = known->fixes;
    s->fixes_count = known->fixes_count;
}

tt_value standing_value(arena *keep, const tt_origin *origin, tt_case *c, bool with_why)
{
    const tt_view *view;
    const shown_known *known = known_of(keep, origin->book, c);
    tell_of(keep, tt_look(c, &view));
    shown_standing s = {.version = RANK_VERSION,
                        .rulebook = book_of(origin),
                        .site = site_of(keep, origin),
                        .likely = {view->likely_count, view->likely_chance},
                        .probably_none = view->probably_none,
                        .nothing_wrong = view->nothing_wrong,
                        .pairs = pairs_of(keep, view),
                        .pairs_count = view->pair_count,
                        .two_faults = view->two_faults,
                        .next = next_of(keep, c, &view->next),
                        .gate = gate_of(keep, c, &view->gate),
                        .do_next = do_next(view->step),
                        .together = together_of(keep, c, view),
                        .stop = stop_of(keep, view),
                        .why = with_why ? why_of(keep, c, 0, TT_NONE) : NULL};
    put_known(&s, known);
    s.cautions = cautions_of(keep, c, &s.cautions_count);
    assert(s.causes_count > 0);
    return shape_value(keep, &standing_shape, &s);
}

static const char schema_doc[] =
    "Version 1. Keys may be added, and then the version stays; a key never changes its meaning or "
    "goes away without a new version. Numbers have 10 "
    "significant digits. The same book and answers give the same bytes on every machine.";

tt_value standing_schema(arena *keep)
{
    return whole_schema(keep, &standing_shape, "What `telltale rank --json` prints", schema_doc);
}
