/* What an author should hear about numbers that can't be, or that mean something else than they
 * seem to. */
#include <assert.h>
#include <math.h>

#include "compile/net_parts.h"

#define SUM_TOO_HIGH    1.02 /* rates over answers that exclude each other */
#define COVERED_OFF     0.05 /* the same where they are all the answers there are */
#define OTHERWISE_MUCH  0.5
#define CONTRADICTION   0.05
#define UNLISTED_FACTOR 2

/* ---- names and numbers of a component's rows ---- */

static const net_symptom *symptom_at(const draft *d, uint32_t s)
{
    assert(s < d->made->symptom_count);
    return &d->n->in.symptoms[d->made->symptoms[s]];
}

static double target_at(const draft *d, uint32_t row, uint32_t s)
{
    return d->target[(size_t)row * d->made->symptom_count + s];
}

static double fitted_at(const draft *d, uint32_t row, uint32_t s)
{
    return d->fitted[(size_t)row * d->made->symptom_count + s];
}

static str subject(arena *scratch, const draft *d, uint32_t row)
{
    assert(row <= d->made->listed_count);
    if (row == d->made->listed_count) return STR("any other cause ('otherwise')");
    str name = d->n->in.cause_names[d->made->listed[row]];
    return str_printf(scratch, "cause '%.*s'", STR_ARG(name));
}

/* ---- T503, T504: answers of one question exclude each other ---- */

typedef struct answer_sum {
    uint32_t count; /* of symptoms given */
    double sum;
    bool disjoint, covered, has_usual;
} answer_sum;

static bool rests_on(const draft *d, uint32_t row, uint32_t slot, uint32_t s)
{
    return d->only[s] == slot && !isnan(target_at(d, row, s));
}

static bool has_usual_state(const draft *d, uint32_t slot, uint32_t s)
{
    uint32_t finding = d->made->findings[slot], usual = d->n->in.findings[finding].usual;
    if (usual == NO_STATE) return false;
    d->state[finding] = usual;
    return expr_holds(symptom_at(d, s)->when, d->state);
}

static answer_sum add_answers(const draft *d, uint32_t row, uint32_t slot)
{
    const component *g = d->made;
    answer_sum all = {.disjoint = true, .covered = true};
    for (uint32_t s = 0; s < g->symptom_count; s++) {
        if (!rests_on(d, row, slot, s)) continue;
        all.count++;
        all.sum += target_at(d, row, s);
        all.has_usual |= has_usual_state(d, slot, s);
    }
    for (uint32_t a = 0; a < g->atom_count; a++) {
        uint32_t holding = 0;
        for (uint32_t s = 0; s < g->symptom_count; s++)
            holding += rests_on(d, row, slot, s) && d->inside[(size_t)s * g->atom_count + a];
        if (holding > 1) all.disjoint = false;
        if (holding == 0) all.covered = false;
    }
    return all;
}

/* How far the sum is from what can be, 0 if it can be. */
static double sum_off(const answer_sum *all)
{
    if (all->count == 0 || !all->disjoint) return 0;
    if (all->sum > SUM_TOO_HIGH) return all->sum - 1;
    return all->covered && fabs(all->sum - 1) > COVERED_OFF ? fabs(all->sum - 1) : 0;
}

/* "'a' 70 % and 'b' 60 %", and alike for what is used: "54 % and 46 %". */
static str list_answers(arena *scratch, const draft *d, uint32_t row, uint32_t slot, uint32_t count,
                        bool used)
{
    text_builder b = {.keep = scratch};
    uint32_t index = 0;
    for (uint32_t s = 0; s < d->made->symptom_count; s++) {
        if (!rests_on(d, row, slot, s)) continue;
        double percent = 100 * (used ? fitted_at(d, row, s) : target_at(d, row, s));
        if (used)
            text_addf(&b, "%s", index == 0 ? "" : index + 1 == count ? " and " : ", ");
        else
            add_name(&b, symptom_at(d, s)->name, index, count);
        text_addf(&b, "%s%.3g %%", used ? "" : " ", percent);
        index++;
    }
    return text_done(&b);
}

static span first_answer(const draft *d, uint32_t row, uint32_t slot)
{
    uint32_t s = 0;
    while (!rests_on(d, row, slot, s)) s++;
    assert(s < d->made->symptom_count);
    return symptom_at(d, s)->at;
}

static void tell_sum(faults *list, arena *scratch, const draft *d, uint32_t row, uint32_t slot,
                     const answer_sum *all, fault **told)
{
    str who = subject(scratch, d, row);
    if (*told != NULL) {
        fault_note_at(list, *told, first_answer(d, row, slot), "likewise with %.*s: %.3g %%",
                      STR_ARG(who), 100 * all->sum);
        return;
    }
    str given = list_answers(scratch, d, row, slot, all->count, false),
        used = list_answers(scratch, d, row, slot, all->count, true);
    str question = d->n->in.findings[d->made->findings[slot]].name;
    assert(all->count > 0 && all->disjoint);
    *told = fault_add(list, FAULT_NET_SUM_OFF, first_answer(d, row, slot),
                      "With %.*s, %.*s make %.3g %%, but %s. Used instead: %.*s.", STR_ARG(who),
                      STR_ARG(given), 100 * all->sum,
                      all->covered ? "these are all the answers" : "answers exclude each other",
                      STR_ARG(used));
    fault_help(list, *told,
               "Each of 100 calls gives '%.*s' one answer: share them out. For two answers as "
               "frequent as each other, "
               "write 'about half the time' for each.",
               STR_ARG(question));
}

static void lint_sums(faults *list, arena *scratch, const draft *d, uint32_t slot, bool *row_told)
{
    fault *told = NULL;
    for (uint32_t row = 0; row <= d->made->listed_count; row++) {
        answer_sum all = add_answers(d, row, slot);
        if (sum_off(&all) <= 0) continue;
        tell_sum(list, scratch, d, row, slot, &all, &told);
        row_told[row] = true;
    }
}

static void lint_otherwise(faults *list, arena *scratch, const draft *d, uint32_t slot)
{
    uint32_t row = d->made->listed_count;
    answer_sum all = add_answers(d, row, slot);
    if (!all.disjoint || all.covered || all.has_usual) return;
    if (all.sum <= OTHERWISE_MUCH || all.sum > SUM_TOO_HIGH) return;
    str given = list_answers(scratch, d, row, slot, all.count, false);
    str question = d->n->in.findings[d->made->findings[slot]].name;
    fault *f = fault_add(list, FAULT_NET_OTHERWISE_MUCH, first_answer(d, row, slot),
                         "'otherwise' gives %.*s: only %.3g %% of the calls with any other cause "
                         "are left for the other answers "
                         "to '%.*s'.",
                         STR_ARG(given), 100 * fmax(0, 1 - all.sum), STR_ARG(question));
    fault_help(list, f,
               "'otherwise' is how many of 100 calls with some other listed cause show it: mostly "
               "'rarely' or 'seldom'.");
}

/* ---- T505 ---- */

static str others_listed(arena *scratch, const draft *d, uint32_t row, uint32_t besides)
{
    text_builder b = {.keep = scratch};
    uint32_t count = 0, index = 0;
    for (uint32_t s = 0; s < d->made->symptom_count; s++)
        count += s != besides && !isnan(target_at(d, row, s));
    for (uint32_t s = 0; s < d->made->symptom_count; s++)
        if (s != besides && !isnan(target_at(d, row, s)))
            add_name(&b, symptom_at(d, s)->name, index++, count);
    return text_done(&b);
}

static void tell_contradiction(faults *list, arena *scratch, const draft *d, uint32_t row,
                               uint32_t s, fault **told)
{
    assert(!isnan(target_at(d, row, s)));
    str who = subject(scratch, d, row), others = others_listed(scratch, d, row, s);
    double wanted = 100 * target_at(d, row, s), used = 100 * fitted_at(d, row, s);
    if (*told != NULL) {
        fault_note_at(list, *told, symptom_at(d, s)->at,
                      "likewise with %.*s: %.3g %% becomes %.3g %%", STR_ARG(who), wanted, used);
        return;
    }
    *told = fault_add(list, FAULT_NET_CONTRADICTION, symptom_at(d, s)->at,
                      "With %.*s, '%.*s' can't be %.3g %%%s%.*s. Used instead: %.3g %%.",
                      STR_ARG(who), STR_ARG(symptom_at(d, s)->name), wanted,
                      others.n > 0 ? ", given what is said of " : "", STR_ARG(others), used);
    fault_help(list, *told, "%s",
               others.n > 0 ? "These symptoms rest on the same questions. Change the number that "
                              "you are least sure of."
                            : "Look at its condition: it can't be met that often.");
}

static void lint_contradictions(faults *list, arena *scratch, const draft *d, const bool *row_told)
{
    for (uint32_t s = 0; s < d->made->symptom_count; s++) {
        fault *told = NULL;
        for (uint32_t row = 0; row <= d->made->listed_count; row++) {
            if (row_told[row] || isnan(target_at(d, row, s))) continue;
            if (fabs(fitted_at(d, row, s) - target_at(d, row, s)) > CONTRADICTION)
                tell_contradiction(list, scratch, d, row, s, &told);
        }
    }
}

/* ---- T506 ---- */

typedef struct surprise {
    uint32_t row, symptom, count;
    double factor, chance;
} surprise;

static void look_at_unlisted(const draft *d, uint32_t row, uint32_t s, surprise *worst)
{
    const component *g = d->made;
    if (d->only[s] != NO_SLOT || !isnan(target_at(d, row, s))) return;
    double chance = chance_inside(g->table + (size_t)row * g->atom_count,
                                  d->inside + (size_t)s * g->atom_count, g->atom_count);
    if (chance <= 0) return; /* the facts of this table leave it no answer to hold in */
    assert(symptom_at(d, s)->otherwise > 0);
    double ratio = chance / symptom_at(d, s)->otherwise, factor = fmax(ratio, 1 / ratio);
    if (factor <= UNLISTED_FACTOR) return;
    worst->count++;
    if (factor <= worst->factor) return;
    worst->row = row;
    worst->symptom = s;
    worst->factor = factor;
    worst->chance = chance;
}

static void lint_unlisted(faults *list, arena *scratch, const draft *d)
{
    surprise worst = {0};
    for (uint32_t row = 0; row < d->made->listed_count; row++)
        for (uint32_t s = 0; s < d->made->symptom_count; s++) look_at_unlisted(d, row, s, &worst);
    if (worst.count == 0) return;
    const net_symptom *symptom = symptom_at(d, worst.symptom);
    str who = subject(scratch, d, worst.row);
    str more = worst.count == 1
                   ? STR("")
                   : str_printf(scratch, " (%u more like this in the same chain)", worst.count - 1);
    fault *f = fault_add(list, FAULT_NET_UNLISTED_OFF, symptom->at,
                         "'%.*s' does not list %.*s, but what that cause has elsewhere makes it "
                         "%.3g %%, and not %.3g %% as "
                         "'otherwise' says%.*s.",
                         STR_ARG(symptom->name), STR_ARG(who), 100 * worst.chance,
                         100 * symptom->otherwise, STR_ARG(more));
    fault_help(list, f, "If you know how often that cause shows it, list the cause there too.");
}

void lint_component(faults *list, arena *scratch, const draft *d)
{
    if (list == NULL) return;
    bool *row_told = ARENA_ARRAY(scratch, bool, d->made->listed_count + 1);
    for (uint32_t slot = 0; slot < d->made->finding_count; slot++) {
        lint_sums(list, scratch, d, slot, row_told);
        lint_otherwise(list, scratch, d, slot);
    }
    lint_contradictions(list, scratch, d, row_told);
    lint_unlisted(list, scratch, d);
}
