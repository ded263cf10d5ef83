/* How dangerous work is, in words: hazards, protection, risk, procedures. */
#include <assert.h>

#include "session/session.h"

const char *risk_name(risk_level level)
{
    static const char *const names[] = {"low", "medium", "serious", "high"};
    assert((size_t)level < sizeof names / sizeof *names);
    return names[level];
}

static const char *hazard_words(tt_case *c, hazard h)
{
    static const text_id words[HAZARD_COUNT] = {
        [HAZARD_MOVING_PARTS] = TEXT_FROM_MOVING_PARTS,
        [HAZARD_ELECTRICITY] = TEXT_FROM_ELECTRICITY,
        [HAZARD_PRESSURE] = TEXT_FROM_PRESSURE,
        [HAZARD_CHEMICALS] = TEXT_FROM_CHEMICALS,
        [HAZARD_HOT_WATER] = TEXT_FROM_HOT_WATER,
        [HAZARD_SLIPS] = TEXT_FROM_SLIPS,
        [HAZARD_HEIGHT] = TEXT_FROM_HEIGHT,
        [HAZARD_VEHICLES] = TEXT_FROM_VEHICLES,
        [HAZARD_LIFTING] = TEXT_FROM_LIFTING,
        [HAZARD_GRAVITY] = TEXT_FROM_GRAVITY,
        [HAZARD_HOT_SURFACE] = TEXT_FROM_HOT_SURFACE,
        [HAZARD_FIRE] = TEXT_FROM_FIRE,
        [HAZARD_FUMES] = TEXT_FROM_FUMES,
        [HAZARD_NOISE] = TEXT_FROM_NOISE,
        [HAZARD_SHARP] = TEXT_FROM_SHARP,
        [HAZARD_STORED_ENERGY] = TEXT_FROM_STORED_ENERGY,
        [HAZARD_CONFINED_SPACE] = TEXT_FROM_CONFINED_SPACE,
    };
    assert((size_t)h < HAZARD_COUNT);
    return case_says(c, words[h]);
}

static const char *state_word(const safety *s)
{
    static const char *const words[] = {[WORK_UNSAID] = "",
                                        [WORK_RUNNING] = "running",
                                        [WORK_STOPPED] = "stopped",
                                        [WORK_ISOLATED] = "isolated"};
    assert((size_t)s->state < sizeof words / sizeof *words);
    return s->state == WORK_UNSAID && safety_isolates(s) ? words[WORK_ISOLATED] : words[s->state];
}

static const char *const *procedure_names(tt_case *c, const safety *s)
{
    const char **names = ARENA_ARRAY(c->derived, const char *, s->procedure_count);
    for (uint32_t i = 0; i < s->procedure_count; i++)
        names[i] = cstr(c->derived, c->book->book->procedures[s->procedures[i]].id.name);
    return names;
}

/* Those of the book that speak of one of these hazards. */
static void add_hazard_cautions(tt_case *c, const safety *s, tt_safety *out)
{
    const book *b = c->book->book;
    const char **all = ARENA_ARRAY(c->derived, const char *, b->hazard_caution_count);
    for (uint32_t i = 0; i < b->hazard_caution_count; i++) {
        bool speaks = false;
        for (int h = 0; h < HAZARD_COUNT; h++)
            speaks |= s->hazards[h] && b->hazard_cautions[i].hazards[h];
        if (speaks) all[out->caution_count++] = case_text(c, &b->hazard_cautions[i].text);
    }
    out->cautions = all;
}

tt_safety safety_words(tt_case *c, const safety *s)
{
    const char **hazards = ARENA_ARRAY(c->derived, const char *, HAZARD_COUNT);
    tt_safety out = {.hazards = hazards,
                     .protect = case_text_list(c, &s->protect),
                     .protect_count = s->protect.count,
                     .tell = case_text_list(c, &s->tell),
                     .tell_count = s->tell.count,
                     .isolate = case_text_list(c, &s->isolate),
                     .isolate_count = s->isolate.count,
                     .release = case_text_list(c, &s->release),
                     .release_count = s->release.count,
                     .prove = case_text_list(c, &s->prove),
                     .prove_count = s->prove.count,
                     .restore = case_text_list(c, &s->restore),
                     .restore_count = s->restore.count,
                     .isolate_pictures = step_pictures(c, &s->isolate),
                     .release_pictures = step_pictures(c, &s->release),
                     .prove_pictures = step_pictures(c, &s->prove),
                     .restore_pictures = step_pictures(c, &s->restore),
                     .procedures = procedure_names(c, s),
                     .procedure_count = s->procedure_count,
                     .state = state_word(s),
                     .why_running = case_text(c, &s->why),
                     .unprotected_risk = s->any ? risk_name(safety_risk(s, false)) : "",
                     .risk = risk_name(safety_risk(s, true))};
    for (int h = 0; h < HAZARD_COUNT; h++)
        if (s->hazards[h]) hazards[out.hazard_count++] = hazard_words(c, (hazard)h);
    add_hazard_cautions(c, s, &out);
    return out;
}
