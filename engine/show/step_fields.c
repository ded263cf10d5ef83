/* A question and a fix: their tables of fields, and what fills them. */
#include "show/step_fields.h"
#include "show/told.h"

#include <assert.h>
#include <math.h>

/* ---- tables ---- */

static const char *const kinds[] = {[TT_YES_NO] = "yes-no",
                                    [TT_CHOICE] = "choice",
                                    [TT_READING] = "reading",
                                    [TT_COUNT] = "count",
                                    [TT_QUANTITY] = "quantity"};
static const name_list kind_names = {kinds, sizeof kinds / sizeof kinds[0]};

static const char *const second_looks[] = {"again", "another"};
static const name_list second_look_names = {second_looks,
                                            sizeof second_looks / sizeof second_looks[0]};

static const char *const states[] = {"running", "stopped", "isolated"};
static const name_list state_names = {states, sizeof states / sizeof states[0]};

static const field safety_fields[] = {
    FIELD_ALL(shown_safety, hazards, FIELD_TEXTS, ALWAYS, 1, NULL, "In plain words."),
    FIELD_ALL(shown_safety, cautions, FIELD_TEXTS, ALWAYS, 2, NULL,
              "Those of the book that speak of one of these hazards."),
    FIELD(shown_safety, unprotected_risk, FIELD_MAYBE, ALWAYS, 1,
          "Without what follows: low, medium, serious or high; null: no harm is known."),
    FIELD(shown_safety, risk, FIELD_MAYBE, ALWAYS, 1, "With what follows."),
    FIELD_ALL(shown_safety, wear, FIELD_TEXTS, ALWAYS, 1, NULL, "Before switching anything off."),
    {.name = "while",
     .type = FIELD_MAYBE,
     .since = 1,
     .at = offsetof(shown_safety, state),
     .among = &state_names,
     .doc = "How the equipment is while this is done; null: that does not matter."},
    FIELD(shown_safety, why_running, FIELD_MAYBE, ALWAYS, 1, "Why it runs meanwhile."),
    FIELD_ALL(shown_safety, procedures, FIELD_TEXTS, ALWAYS, 1, NULL,
              "Names of the procedures by which its energies are isolated."),
    FIELD_ALL(shown_safety, tell, FIELD_TEXTS, ALWAYS, 1, NULL,
              "Whom to tell, before anything is switched off."),
    FIELD_ALL(shown_safety, isolate, FIELD_TEXTS, ALWAYS, 1, NULL,
              "To be switched off and locked, in this order, before the first step."),
    FIELD_ALL(shown_safety, release, FIELD_TEXTS, ALWAYS, 1, NULL, "To be let go after that."),
    FIELD_ALL(shown_safety, prove, FIELD_TEXTS, ALWAYS, 1, NULL,
              "How it is proved that nothing is left."),
    FIELD_ALL(shown_safety, restore, FIELD_TEXTS, ALWAYS, 1, NULL,
              "How it is given back, after the last step or when it was put back."),
};
static const shape safety_shape = SHAPE("safety", shown_safety, safety_fields, "");

static const field range_fields[] = {
    FIELD(shown_range, low, FIELD_NUMBER, ALWAYS, 1, ""),
    FIELD(shown_range, high, FIELD_NUMBER, ALWAYS, 1, ""),
};
static const shape range_shape = SHAPE("range", shown_range, range_fields, "");

static const field question_fields[] = {
    FIELD(shown_question, name, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(shown_question, ask, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(shown_question, look, FIELD_MAYBE, ALWAYS, 1, "Where and how to look."),
    FIELD(shown_question, say, FIELD_MAYBE, ALWAYS, 1, "To be read aloud to a caller."),
    FIELD(shown_question, place, FIELD_MAYBE, ALWAYS, 2, "Where one stands to answer it."),
    FIELD(shown_question, because, FIELD_MAYBE, ALWAYS, 2, "Why it is asked, for a learner."),
    FIELD(shown_question, instrument, FIELD_MAYBE, ALWAYS, 2, "With which it is answered."),
    FIELD(shown_question, round, FIELD_MAYBE, ALWAYS, 2,
          "It is looked at so often, also without a fault: daily, weekly, monthly."),
    FIELD_AMONG(shown_question, kind, &kind_names, ALWAYS, 1, ""),
    FIELD(shown_question, measures, FIELD_MAYBE, ALWAYS, 1, ""),
    FIELD(shown_question, unit, FIELD_MAYBE, ALWAYS, 1,
          "Of the numbers here, and of a reading without unit."),
    FIELD_THING(shown_question, plausible, ALWAYS, 1, &range_shape,
                "Outside it a reading is refused."),
    FIELD(shown_question, minutes, FIELD_NUMBER, ALWAYS, 1, "How long it takes."),
    FIELD(shown_question, danger_first, FIELD_TRUTH, ALWAYS, 1,
          "It rules out danger, and so is asked first."),
    FIELD(shown_question, once_more, FIELD_TRUTH, ALWAYS, 1, "It has an answer already."),
    FIELD(shown_question, of_site, FIELD_TRUTH, ALWAYS, 1, "A fact of the site."),
    {.name = "second_look",
     .type = FIELD_MAYBE,
     .since = 2,
     .at = offsetof(shown_question, second_look),
     .among = &second_look_names,
     .doc = "It was answered, and one more look is wanted: with the usual instrument, or with "
            "another. Both answers count."},
    FIELD(shown_question, second_with, FIELD_MAYBE, ALWAYS, 2, "With what that look is taken."),
    FIELD(shown_question, clashes_with, FIELD_MAYBE, ALWAYS, 2,
          "The question whose answer doesn't fit together with this one's."),
    FIELD(shown_question, for_whoever_comes, FIELD_TRUTH, ALWAYS, 2,
          "Somebody is called next whatever the answer: it is asked for them."),
    FIELD_THING(shown_question, safety, ALWAYS, 1, &safety_shape, ""),
    FIELD(shown_question, put_back, FIELD_MAYBE, ALWAYS, 1, "What to put back after looking."),
};
const shape question_shape = SHAPE("question", shown_question, question_fields, "");

static const field adjust_fields[] = {
    FIELD(shown_adjust, reading, FIELD_TEXT, ALWAYS, 1, "The question that reads the setting."),
    FIELD(shown_adjust, unit, FIELD_MAYBE, ALWAYS, 1, ""),
    FIELD(shown_adjust, under_way, FIELD_TRUTH, ALWAYS, 1, "A step was taken."),
    FIELD(shown_adjust, step, FIELD_COUNT, ALWAYS, 1,
          "The step to take now, from 1; 0: none, or the reading is not known."),
    FIELD(shown_adjust, at_most, FIELD_COUNT, ALWAYS, 1, ""),
    FIELD(shown_adjust, found, FIELD_NUMBER, ALWAYS, 1, ""),
    FIELD(shown_adjust, from, FIELD_NUMBER, ALWAYS, 1, ""),
    FIELD(shown_adjust, to, FIELD_NUMBER, ALWAYS, 1, ""),
    FIELD(shown_adjust, found_text, FIELD_MAYBE, ALWAYS, 1, ""),
    FIELD(shown_adjust, from_text, FIELD_MAYBE, ALWAYS, 1, ""),
    FIELD(shown_adjust, to_text, FIELD_MAYBE, ALWAYS, 1, ""),
};
static const shape adjust_shape = SHAPE("adjust", shown_adjust, adjust_fields, "");

static const field again_fields[] = {
    FIELD(shown_again, name, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(shown_again, ask, FIELD_TEXT, ALWAYS, 1, ""),
};
static const shape again_shape = SHAPE("look-again", shown_again, again_fields, "");

static const field plan_fields[] = {
    FIELD(shown_plan, name, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(shown_plan, text, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(shown_plan, role, FIELD_MAYBE, ALWAYS, 1, "Whose work it is."),
    FIELD(shown_plan, chance, FIELD_NUMBER, ALWAYS, 1,
          "Probability that it helps; null where it is not known."),
    FIELD(shown_plan, minutes, FIELD_NUMBER, ALWAYS, 1, ""),
    FIELD_THING(shown_plan, safety, ALWAYS, 1, &safety_shape, ""),
    FIELD_ALL(shown_plan, parts, FIELD_TEXTS, ALWAYS, 1, NULL, "What is needed."),
    FIELD(shown_plan, cost, FIELD_MAYBE, ALWAYS, 1, ""),
    FIELD(shown_plan, place, FIELD_MAYBE, ALWAYS, 2, "Where it is done."),
    FIELD(shown_plan, cannot_put_back, FIELD_TRUTH, ALWAYS, 1, ""),
    FIELD(shown_plan, put_back, FIELD_MAYBE, ALWAYS, 1, "If it does not help."),
    FIELD_ALL(shown_plan, steps, FIELD_TEXTS, ALWAYS, 1, NULL,
              "In this order, after all that `safety` says. They come one by one, as turns of the "
              "kind fix-step."),
    FIELD_ALL(shown_plan, after, FIELD_TEXTS, ALWAYS, 1, NULL,
              "Names of fixes that are tried first."),
    FIELD_ALL(shown_plan, once_running, FIELD_TEXTS, ALWAYS, 1, NULL,
              "After that, once it is given back and runs again."),
    FIELD_THING(shown_plan, adjust, ALWAYS, 1, &adjust_shape,
                "A setting that is changed step by step: from what to what now, and what was found "
                "before the first step."),
    FIELD_ALL(shown_plan, look_again, FIELD_LIST, ALWAYS, 1, &again_shape,
              "Questions to look at again afterwards."),
};
const shape plan_shape = SHAPE("fix", shown_plan, plan_fields, "");

/* ---- what fills them ---- */

static const shown_safety *safety_of(arena *keep, const tt_safety *s)
{
    shown_safety *shown = ARENA_NEW(keep, shown_safety);
    *shown = (shown_safety){.hazards = s->hazards,
                            .hazards_count = s->hazard_count,
                            .cautions = s->cautions,
                            .cautions_count = s->caution_count,
                            .unprotected_risk = s->unprotected_risk,
                            .risk = s->risk,
                            .wear = s->protect,
                            .wear_count = s->protect_count,
                            .state = *s->state != 0 ? s->state : NULL,
                            .why_running = s->why_running,
                            .procedures = s->procedures,
                            .procedures_count = s->procedure_count,
                            .tell = s->tell,
                            .tell_count = s->tell_count,
                            .isolate = s->isolate,
                            .isolate_count = s->isolate_count,
                            .release = s->release,
                            .release_count = s->release_count,
                            .prove = s->prove,
                            .prove_count = s->prove_count,
                            .restore = s->restore,
                            .restore_count = s->restore_count};
    return shown;
}

static const shown_range *plausible_of(arena *keep, const tt_question *q)
{
    if (!q->has_plausible) return NULL;
    shown_range *range = ARENA_NEW(keep, shown_range);
    *range = (shown_range){q->plausible_low, q->plausible_high};
    return range;
}

static bool has_answer(arena *keep, tt_case *c, uint32_t question)
{
    const tt_view *view;
    tell_of(keep, tt_look(c, &view));
    for (uint32_t i = 0; i < view->fact_count; i++)
        if (view->facts[i].question == question) return true;
    return false;
}

static bool for_whoever_comes(arena *keep, tt_case *c, uint32_t question)
{
    const tt_view *view;
    tell_of(keep, tt_look(c, &view));
    return view->next.for_callee && view->next.question == question;
}

static void add_second_look(arena *keep, tt_case *c, uint32_t question, shown_question *shown)
{
    const tt_view *view;
    tt_question other;
    tell_of(keep, tt_look(c, &view));
    if (view->next.question != question) return;
    if (view->next.again == TT_FIRST_LOOK) return;
    shown->second_look = second_looks[view->next.again - TT_LOOK_AGAIN];
    shown->second_with = view->next.with;
    if (view->next.clash == TT_NONE) return;
    tell_of(keep, tt_question_show(c, view->next.clash, &other));
    shown->clashes_with = other.name;
}

const shown_question *question_of(arena *keep, tt_case *c, uint32_t question)
{
    tt_question q;
    if (question == TT_NONE) return NULL;
    tell_of(keep, tt_question_show(c, question, &q));
    assert(q.kind <= TT_QUANTITY);
    shown_question *shown = ARENA_NEW(keep, shown_question);
    *shown = (shown_question){.name = q.name,
                              .ask = q.ask,
                              .look = q.look,
                              .say = q.say,
                              .place = q.place_text,
                              .because = q.because,
                              .instrument = q.instrument,
                              .round = q.round,
                              .kind = kinds[q.kind],
                              .measures = q.measures,
                              .unit = q.unit,
                              .plausible = plausible_of(keep, &q),
                              .minutes = q.minutes,
                              .danger_first = q.gate,
                              .once_more = has_answer(keep, c, question),
                              .of_site = q.of_site,
                              .for_whoever_comes = for_whoever_comes(keep, c, question),
                              .safety = safety_of(keep, &q.safety),
                              .put_back = q.put_back};
    add_second_look(keep, c, question, shown);
    return shown;
}

static const shown_adjust *adjust_of(arena *keep, tt_case *c, const tt_adjust *a)
{
    tt_question reading;
    if (a->reading == TT_NONE) return NULL;
    tell_of(keep, tt_question_show(c, a->reading, &reading));
    const bool known = a->known, moves = known && a->step > 0;
    shown_adjust *shown = ARENA_NEW(keep, shown_adjust);
    *shown = (shown_adjust){.reading = reading.name,
                            .unit = reading.unit,
                            .under_way = a->under_way,
                            .step = known ? a->step : 0,
                            .at_most = known ? a->at_most : 0,
                            .found = known ? a->found : NAN,
                            .from = known ? a->from : NAN,
                            .to = moves ? a->to : NAN,
                            .found_text = known ? a->found_text : NULL,
                            .from_text = known ? a->from_text : NULL,
                            .to_text = moves ? a->to_text : NULL};
    return shown;
}

static const shown_again *looks_of(arena *keep, tt_case *c, const tt_fix_plan *plan,
                                   uint32_t *count)
{
    shown_again *all = ARENA_ARRAY(keep, shown_again, plan->look_again_count);
    *count = plan->look_again_count;
    for (uint32_t i = 0; i < *count; i++) {
        tt_question q;
        tell_of(keep, tt_question_show(c, plan->look_again[i], &q));
        all[i] = (shown_again){q.name, q.ask};
    }
    return all;
}

static double chance_of(arena *keep, tt_case *c, uint32_t fix)
{
    const tt_view *view;
    tell_of(keep, tt_look(c, &view));
    for (uint32_t i = 0; i < view->fix_count; i++)
        if (view->fixes[i].fix == fix) return view->fixes[i].chance;
    return NAN;
}

static const char *const *names_of_fixes(arena *keep, tt_case *c, const uint32_t *fixes,
                                         uint32_t count)
{
    const char **names = ARENA_ARRAY(keep, const char *, count);
    for (uint32_t i = 0; i < count; i++) {
        tt_fix_plan p;
        tell_of(keep, tt_fix_show(c, fixes[i], &p));
        names[i] = p.name;
    }
    return names;
}

const shown_plan *plan_of(arena *keep, tt_case *c, uint32_t fix)
{
    tt_fix_plan p;
    if (fix == TT_NONE) return NULL;
    tell_of(keep, tt_fix_show(c, fix, &p));
    shown_plan *shown = ARENA_NEW(keep, shown_plan);
    *shown = (shown_plan){.name = p.name,
                          .text = p.text,
                          .role = p.role,
                          .chance = chance_of(keep, c, fix),
                          .minutes = p.minutes,
                          .safety = safety_of(keep, &p.safety),
                          .parts = p.parts,
                          .parts_count = p.part_count,
                          .cost = p.cost,
                          .place = p.place_text,
                          .cannot_put_back = p.cannot_put_back,
                          .put_back = p.put_back,
                          .steps = p.steps,
                          .steps_count = p.step_count,
                          .once_running = p.once_running,
                          .once_running_count = p.once_running_count,
                          .adjust = adjust_of(keep, c, &p.adjust)};
    shown->after = names_of_fixes(keep, c, p.after, p.after_count);
    shown->after_count = p.after_count;
    shown->look_again = looks_of(keep, c, &p, &shown->look_again_count);
    return shown;
}
