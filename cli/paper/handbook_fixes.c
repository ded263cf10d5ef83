/* Each fix as a person carries it out: what can hurt and what makes it safe stand before the first
 * step. */
#include "cases/begin_case.h"
#include "host/memory.h"
#include "paper/handbook.h"
#include "show/figures.h"

static const char *causes_of(const handbook *h, uint32_t place)
{
    const char **texts = ARENA_ARRAY(h->keep, const char *, h->all.causes.count + 1);
    uint32_t count = 0;
    for (uint32_t i = 0; i < h->all.causes.count; i++)
        for (uint32_t k = 0; k < h->all.causes.items[i].point_count; k++)
            if (h->all.causes.items[i].points[k].to == place)
                texts[count++] = h->all.causes.items[i].text;
    return texts_joined(h->keep, texts, count);
}

static const char *risk_with_protection(const handbook *h, const tt_safety *safety)
{
    if (safety->hazard_count == 0) return risk_words(h->p->in, safety->risk);
    return FILL(h->keep, h->p->in, HANDBOOK_RISK_WITH,
                risk_words(h->p->in, safety->unprotected_risk), risk_words(h->p->in, safety->risk));
}

static void put_about(const handbook *h, uint32_t place, const tt_fix_plan *plan)
{
    h->p->kind->facts_begin(h->p);
    paper_fact(h->p, HANDBOOK_WHO, our_text(plan->role_text));
    paper_fact(h->p, HANDBOOK_CURES, rule_text(causes_of(h, place)));
    paper_fact(h->p, HANDBOOK_RISK, our_text(risk_with_protection(h, &plan->safety)));
    paper_fact(h->p, HANDBOOK_TIME, our_text(minutes_words_of(h->keep, h->p->in, plan->minutes)));
    paper_fact(h->p, HANDBOOK_COST, rule_text(plan->cost));
    paper_fact(h->p, HANDBOOK_HAZARDS,
               rule_text(texts_joined(h->keep, plan->safety.hazards, plan->safety.hazard_count)));
    paper_fact(h->p, HANDBOOK_NEED,
               rule_text(texts_joined(h->keep, plan->parts, plan->part_count)));
    h->p->kind->facts_end(h->p);
}

static void put_look_again(const handbook *h, const tt_fix_plan *plan)
{
    const char **asks = ARENA_ARRAY(h->keep, const char *, plan->look_again_count + 1);
    for (uint32_t i = 0; i < plan->look_again_count; i++) {
        tt_question q;
        must_be_done(tt_question_show(h->c, plan->look_again[i], &q));
        asks[i] = q.ask;
    }
    paper_list(h->p, HANDBOOK_LOOK_AGAIN, asks, plan->look_again_count, false);
}

static void put_undo(const handbook *h, const tt_fix_plan *plan)
{
    if (*plan->put_back != 0)
        h->p->kind->boxed(h->p, false, catalogue_text(h->p->in, HANDBOOK_PUT_BACK),
                          rule_text(plan->put_back));
    if (plan->cannot_put_back)
        h->p->kind->boxed(h->p, false, NULL, our_words(h->p->in, HANDBOOK_CANNOT_PUT_BACK));
}

static void put_first(const handbook *h, const tt_safety *safety)
{
    const lockout *first = lockout_before(h, safety);
    if (first != NULL)
        h->p->kind->boxed(
            h->p, true, NULL,
            our_text(FILL(h->keep, h->p->in, HANDBOOK_LOCKOUT_FIRST, first->letter, first->names)));
    if (*safety->why_running != 0)
        h->p->kind->boxed(h->p, false, catalogue_text(h->p->in, HANDBOOK_RUNNING),
                          rule_text(safety->why_running));
}

static void put_fix(const handbook *h, uint32_t place)
{
    tt_fix_plan plan;
    must_be_done(tt_fix_show(h->c, h->all.fixes.items[place].id, &plan));
    const char *also = handbook_likewise(h, &h->all.fixes.items[place]);
    h->p->kind->subheading(h->p, rule_text(handbook_fix_name(h, place)));
    put_about(h, place, &plan);
    paper_list(h->p, HANDBOOK_WEAR, plan.safety.protect, plan.safety.protect_count, false);
    put_first(h, &plan.safety);
    paper_list(h->p, HANDBOOK_STEPS, plan.steps, plan.step_count, true);
    put_step_drawings(h, plan.step_pictures, plan.step_count);
    if (plan.adjust.reading != TT_NONE)
        h->p->kind->paragraph(h->p, our_text(FILL(h->keep, h->p->in, HANDBOOK_ADJUST,
                                                  count_words(h->keep, plan.adjust.at_most))));
    paper_list(h->p, HANDBOOK_ONCE_RUNNING, plan.once_running, plan.once_running_count, true);
    put_step_drawings(h, plan.once_running_pictures, plan.once_running_count);
    put_look_again(h, &plan);
    put_undo(h, &plan);
    if (*also != 0) h->p->kind->paragraph(h->p, rule_text(also));
}

void put_all_fixes(const handbook *h)
{
    for (uint32_t i = 0; i < h->all.fixes.count; i++) put_fix(h, i);
}
