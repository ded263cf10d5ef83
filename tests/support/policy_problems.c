#include "policy_problems.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "choice_twin.h"
#include "luck.h"

struct policy_problem {
    choice_input in; /* without questions */
    fix_option fixes[POLICY_FIXES];
    char fix_names[POLICY_FIXES][8];
    net_rate cures[POLICY_FIXES][2];
    double minutes[POLICY_QUESTIONS];
    net_finding findings[POLICY_QUESTIONS];
    net_symptom symptoms[POLICY_QUESTIONS + 1];
    net_rate listed[POLICY_QUESTIONS + 1][POLICY_CAUSES];
    str cause_names[POLICY_CAUSES];
    double shares[POLICY_CAUSES];
    belief *b;
    double (*joint)[POLICY_WEIGHTS]; /* [answers] P(hypothesis and answers) */
    double (*kept)[POLICY_WEIGHTS];  /* [tried] P(all of them fail | hypothesis) */
    uint32_t own;                    /* fixes that whoever begins may do, as bits */
    double (*called)[POLICY_TRIED];  /* [answers][tried] the best that whoever is called can do;
                                        null: nobody may be */
};

/* What is known of a state of the call. */
typedef struct memory {
    bool known;
    policy_cost cost;
} memory;

static const double no_answer[2] = {0, 1}, yes_answer[2] = {1, 0};

/* ---- making a problem ---- */

static double between(uint64_t *random, double least, double most)
{
    return least + (most - least) * luck_share(random);
}

static double one_of(uint64_t *random, const double *values, uint32_t count)
{
    return values[luck_below(random, count)];
}

/* Some causes, rising, at least one and at most four. */
static void draw_listed(policy_problem *p, uint32_t s, uint64_t *random)
{
    static const double rates[] = {.30, .50, .70, .85, .95};
    net_symptom *symptom = &p->symptoms[s];
    uint32_t wanted = 1 + luck_below(random, 4), left = wanted;
    for (uint32_t c = 0; c < POLICY_CAUSES; c++) {
        if (luck_below(random, POLICY_CAUSES - c) >= left) continue;
        p->listed[s][symptom->listed_count++] = (net_rate){c, one_of(random, rates, 5)};
        left--;
    }
    symptom->listed = p->listed[s];
}

static void draw_question(policy_problem *p, arena *keep, uint32_t q, uint64_t *random)
{
    static const double right[] = {.90, .95, .98}, otherwise[] = {.01, .05, .15};
    p->minutes[q] = between(random, .5, 10);
    p->findings[q] = (net_finding){
        .name = STR("question"), .states = 2, .usual = 1, .right = one_of(random, right, 3)};
    p->symptoms[q] =
        (net_symptom){.name = STR("symptom"), .when = expr_is(keep, q, 1, span_nowhere())};
    p->symptoms[q].otherwise = one_of(random, otherwise, 3);
    draw_listed(p, q, random);
}

/* Either of the first two questions: the chance of it agrees with theirs if they are independent
 * given the cause. */
static void draw_compound(policy_problem *p, arena *keep, uint64_t *random)
{
    net_symptom *either = &p->symptoms[POLICY_QUESTIONS];
    const expr *parts[2] = {p->symptoms[0].when, p->symptoms[1].when};
    *either = (net_symptom){.name = STR("either"),
                            .when = expr_many(keep, EXPR_ANY, parts, 2, span_nowhere())};
    either->otherwise = 1 - (1 - p->symptoms[0].otherwise) * (1 - p->symptoms[1].otherwise);
    net_rate *own = &p->listed[POLICY_QUESTIONS][0];
    *own = p->listed[0][luck_below(random, p->symptoms[0].listed_count)];
    own->chance = 1 - (1 - own->chance) * (1 - p->symptoms[1].otherwise);
    for (uint32_t i = 0; i < p->symptoms[1].listed_count; i++) {
        const net_rate *second = &p->symptoms[1].listed[i];
        if (second->cause == own->cause)
            own->chance =
                1 - (1 - own->chance) / (1 - p->symptoms[1].otherwise) * (1 - second->chance);
    }
    either->listed = own;
    either->listed_count = 1;
}

static void draw_fix(policy_problem *p, uint32_t f, uint64_t *random, minutes_range range)
{
    uint32_t level = luck_below(random, 3), other = luck_below(random, POLICY_CAUSES);
    snprintf(p->fix_names[f], sizeof p->fix_names[f], "fix %u", f % 10);
    p->fixes[f] = (fix_option){
        .name = str_of(p->fix_names[f]), .cures = p->cures[f], .cure_count = 1, .open = true};
    p->fixes[f].minutes = range.least * pow(range.most / range.least, luck_share(random));
    p->fixes[f].level = (risk_level)level;
    p->cures[f][0] = (net_rate){f, between(random, .7, .95)};
    if (luck_share(random) >= 1. / 3 || other == f) return;
    p->cures[f][1] = (net_rate){other, between(random, .7, .95)};
    p->fixes[f].cure_count = 2;
    if (other > f) return;
    net_rate first = p->cures[f][0];
    p->cures[f][0] = p->cures[f][1];
    p->cures[f][1] = first;
}

static void without_rules(policy_problem *p)
{
    memset(p->in.rules.worth_trying, 0, sizeof p->in.rules.worth_trying);
    memset(p->in.rules.price, 0, sizeof p->in.rules.price);
    p->in.rules.soonest = true;
    for (uint32_t f = 0; f < POLICY_FIXES; f++) p->fixes[f].level = RISK_LOW;
}

static const net *make_net(policy_problem *p, arena *keep, arena *scratch)
{
    const net_input in = {
        .findings = p->findings,
        .finding_count = POLICY_QUESTIONS,
        .symptoms = p->symptoms,
        .symptom_count = POLICY_QUESTIONS + 1,
        .cause_names = p->cause_names,
        .weights = p->shares,
        .cause_count = POLICY_CAUSES,
        .not_listed = .03,
    };
    const net *n = net_build(keep, scratch, &in, NULL);
    assert(n != NULL && n->component_count == POLICY_QUESTIONS - 1);
    return n;
}

static uint32_t digit(uint32_t answers, uint32_t question)
{
    for (; question > 0; question--) answers /= 3;
    return answers % 3;
}

static uint32_t power_of_3(uint32_t exponent)
{
    uint32_t power = 1;
    for (; exponent > 0; exponent--) power *= 3;
    return power;
}

/* State 0 is yes in the findings, so that the symptom's mask is 1. */
static evidence evidence_of(uint32_t answers, const double *weights[POLICY_QUESTIONS])
{
    for (uint32_t q = 0; q < POLICY_QUESTIONS; q++) {
        uint32_t given = digit(answers, q);
        weights[q] = given == 0 ? NULL : given == 1 ? no_answer : yes_answer;
    }
    return (evidence){.weights = weights};
}

static void fill_tables(policy_problem *p)
{
    for (uint32_t a = 0; a < POLICY_ANSWERS; a++) {
        const double *weights[POLICY_QUESTIONS];
        evidence seen = evidence_of(a, weights);
        belief_weigh(p->b, &seen, NULL);
        double mass = exp(belief_log_evidence(p->b));
        for (uint32_t h = 0; h < POLICY_WEIGHTS; h++)
            p->joint[a][h] = mass * belief_posterior(p->b)[h];
    }
    for (uint32_t t = 0; t < POLICY_TRIED; t++) {
        for (uint32_t h = 0; h < POLICY_WEIGHTS; h++) p->kept[t][h] = 1;
        for (uint32_t f = 0; f < p->in.fix_count; f++)
            if (t >> f & 1) twin_fail(&p->in, f, p->kept[t], p->kept[t]);
    }
}

policy_problem *policy_problem_new(arena *keep, arena *scratch, uint64_t seed, minutes_range fixes,
                                   bool under_rules)
{
    policy_problem *p = ARENA_NEW(keep, policy_problem);
    uint64_t random = seed;
    p->in = (choice_input){
        .cause_count = POLICY_CAUSES, .fixes = p->fixes, .rules = choice_rules_default};
    p->in.fix_count = 5 + luck_below(&random, 2);
    p->own = (UINT32_C(1) << p->in.fix_count) - 1;
    for (uint32_t c = 0; c < POLICY_CAUSES; c++) {
        p->cause_names[c] = STR("cause");
        p->shares[c] = .1 - log(1 - luck_share(&random));
    }
    for (uint32_t q = 0; q < POLICY_QUESTIONS; q++) draw_question(p, keep, q, &random);
    draw_compound(p, keep, &random);
    for (uint32_t f = 0; f < POLICY_FIXES; f++) draw_fix(p, f, &random, fixes);
    if (!under_rules) without_rules(p);
    p->b = belief_new(keep, make_net(p, keep, scratch), 1);
    p->joint = arena_take_array(keep, POLICY_ANSWERS, sizeof *p->joint);
    p->kept = arena_take_array(keep, POLICY_TRIED, sizeof *p->kept);
    fill_tables(p);
    return p;
}

/* ---- states of the call ---- */

static double weights_of(const policy_problem *p, uint32_t answers, uint32_t tried, double *w)
{
    double total = 0;
    for (uint32_t h = 0; h < POLICY_WEIGHTS; h++)
        total += w[h] = p->joint[answers][h] * p->kept[tried][h];
    return total;
}

static double needless_weight(const policy_problem *p, uint32_t f, const double *w)
{
    double weight = w[0];
    for (uint32_t c = 0; c < POLICY_CAUSES; c++) {
        bool helps = false;
        for (uint32_t i = 0; i < p->fixes[f].cure_count; i++) helps |= p->cures[f][i].cause == c;
        if (!helps) weight += w[1 + c];
    }
    return weight;
}

static double calling_costs(const policy_problem *p, uint32_t a, uint32_t t, double total)
{
    return p->in.rules.call_minutes * total + (p->called != NULL ? p->called[a][t] : 0);
}

/* Asking and failing lead to higher numbers only. */
static void find_best(const policy_problem *p, uint32_t own, double (*best)[POLICY_TRIED])
{
    uint32_t sets = UINT32_C(1) << p->in.fix_count;
    for (uint32_t a = POLICY_ANSWERS; a-- > 0;)
        for (uint32_t t = sets; t-- > 0;) {
            double w[POLICY_WEIGHTS], total = weights_of(p, a, t, w);
            double value = calling_costs(p, a, t, total);
            for (uint32_t f = 0; f < p->in.fix_count; f++)
                if (own >> f & 1 && !(t >> f & 1))
                    value =
                        fmin(value, p->fixes[f].minutes * total + best[a][t | UINT32_C(1) << f]);
            for (uint32_t q = 0, place = 1; q < POLICY_QUESTIONS; q++, place *= 3)
                if (a / place % 3 == 0)
                    value = fmin(value, p->minutes[q] * total + best[a + place][t] +
                                            best[a + 2 * place][t]);
            best[a][t] = value;
        }
}

double policy_optimum(const policy_problem *p, arena *scratch)
{
    arena_mark before = arena_here(scratch);
    double(*best)[POLICY_TRIED] = arena_take_array(scratch, POLICY_ANSWERS, sizeof *best);
    find_best(p, p->own, best);
    double optimum = best[0][0];
    arena_back_to(scratch, before);
    return optimum;
}

static bool may_cure(const policy_problem *p, uint32_t fixes, uint32_t cause)
{
    bool found = false;
    for (uint32_t f = 0; f < p->in.fix_count; f++)
        for (uint32_t i = 0; fixes >> f & 1 && i < p->fixes[f].cure_count; i++)
            found |= p->cures[f][i].cause == cause;
    return found;
}

static bool any_is_theirs(const policy_problem *p, uint32_t all)
{
    bool found = false;
    for (uint32_t c = 0; c < POLICY_CAUSES; c++)
        found |= may_cure(p, all, c) && !may_cure(p, p->own, c);
    return found;
}

void policy_problem_hand_over(policy_problem *p, arena *keep, uint64_t seed)
{
    uint64_t random = seed;
    double(*called)[POLICY_TRIED] = arena_take_array(keep, POLICY_ANSWERS, sizeof *called);
    assert(p->called == NULL);
    find_best(p, p->own, called);
    const uint32_t all = p->own;
    p->own &= luck_below(&random, UINT32_C(1) << p->in.fix_count);
    if (any_is_theirs(p, all)) p->called = called;
    p->in.rules.likely = 0; /* whoever is called comes, however little is theirs alone */
}

static policy_cost cost_of_minutes(double minutes)
{
    return (policy_cost){minutes, minutes, 0};
}

static policy_cost cost_of_fix(const policy_problem *p, uint32_t f, const double *w, double total)
{
    double needless = needless_weight(p, f, w), minutes = p->fixes[f].minutes * total;
    return (policy_cost){minutes, minutes + p->in.rules.price[p->fixes[f].level] * needless,
                         p->fixes[f].level >= RISK_MEDIUM ? needless : 0};
}

/* g under the set-up of the fix before it, on the weights from before that one. */
static policy_cost cost_under(const policy_problem *p, uint32_t g, const double *w, double total)
{
    policy_cost cost = cost_of_fix(p, g, w, total);
    cost.minutes -= p->fixes[g].set_up_minutes * total;
    cost.priced -= p->fixes[g].set_up_minutes * total;
    return cost;
}

void policy_problem_lock(policy_problem *p, uint64_t seed)
{
    uint64_t random = seed;
    for (uint32_t f = 0; f < p->in.fix_count; f++) {
        p->fixes[f].set_up = 1 + luck_below(&random, 2);
        p->fixes[f].set_up_minutes = p->fixes[f].minutes * between(&random, .3, .8);
    }
}

void policy_problem_unlock(policy_problem *p)
{
    for (uint32_t f = 0; f < p->in.fix_count; f++) p->fixes[f].set_up = NO_SET_UP;
    for (uint32_t f = 0; f < p->in.fix_count; f++) p->fixes[f].set_up_minutes = 0;
}

static policy_cost plus(policy_cost a, policy_cost b)
{
    return (policy_cost){a.minutes + b.minutes, a.priced + b.priced, a.needless + b.needless};
}

/* ---- the best under the same rules ---- */

static policy_cost best_from(const policy_problem *p, arena *scratch, memory (*seen)[POLICY_TRIED],
                             uint32_t a, uint32_t t)
{
    if (seen[a][t].known) return seen[a][t].cost;
    double w[POLICY_WEIGHTS], total = weights_of(p, a, t, w);
    policy_cost best = cost_of_minutes(p->in.rules.call_minutes * total);
    uint32_t f = twin_first(&p->in, scratch, w, (twin_course){t, 0});
    if (f != UINT32_MAX) {
        policy_cost fix =
            plus(cost_of_fix(p, f, w, total), best_from(p, scratch, seen, a, t | UINT32_C(1) << f));
        if (fix.priced < best.priced) best = fix;
    }
    for (uint32_t q = 0; q < POLICY_QUESTIONS; q++) {
        if (digit(a, q) != 0) continue;
        policy_cost ask = cost_of_minutes(p->minutes[q] * total);
        for (uint32_t y = 1; y <= 2; y++)
            ask = plus(ask, best_from(p, scratch, seen, a + y * power_of_3(q), t));
        if (ask.priced < best.priced) best = ask;
    }
    seen[a][t] = (memory){true, best};
    return best;
}

policy_cost policy_best_under_rules(const policy_problem *p, arena *scratch)
{
    arena_mark before = arena_here(scratch);
    memory(*seen)[POLICY_TRIED] = arena_take_array(scratch, POLICY_ANSWERS, sizeof *seen);
    policy_cost best = best_from(p, scratch, seen, 0, 0);
    arena_back_to(scratch, before);
    return best;
}

/* ---- the policy under test ---- */

typedef struct table_of_questions {
    choice_input in;
    fix_option fixes[POLICY_FIXES];
    question_option questions[POLICY_QUESTIONS];
    prediction seen[POLICY_QUESTIONS];
    uint32_t finding[POLICY_QUESTIONS];
    bool theirs[POLICY_FIXES];
    callee called;
} table_of_questions;

/* A prediction must lead to the weights that the belief has after the answer. */
static void check_prediction(const policy_problem *p, const prediction *seen, uint32_t a,
                             uint32_t q)
{
    for (uint32_t y = 0; y < 2; y++) {
        choice_input one = {.cause_count = POLICY_CAUSES,
                            .questions = &(question_option){.seen = seen}};
        double after[POLICY_WEIGHTS];
        twin_answer(&one, 0, y, p->joint[a], after);
        const double *belief_says = p->joint[a + (y == 0 ? 2 : 1) * power_of_3(q)];
        for (uint32_t h = 0; h < POLICY_WEIGHTS; h++)
            assert(fabs(after[h] - belief_says[h]) <= 1e-12 * p->joint[a][h]);
    }
}

static void lay_out(policy_problem *p, arena *scratch, uint32_t a, uint32_t t,
                    table_of_questions *o)
{
    const double *weights[POLICY_QUESTIONS];
    evidence seen = evidence_of(a, weights);
    *o = (table_of_questions){.in = p->in};
    belief_weigh(p->b, &seen, NULL);
    for (uint32_t q = 0; q < POLICY_QUESTIONS; q++) {
        if (weights[q] != NULL) continue;
        uint32_t i = o->in.question_count++;
        o->finding[i] = q;
        o->seen[i] = belief_predict(scratch, p->b, &seen, q);
        check_prediction(p, &o->seen[i], a, q);
        o->questions[i] = (question_option){.minutes = p->minutes[q], .seen = &o->seen[i]};
    }
    for (uint32_t f = 0; f < p->in.fix_count; f++) {
        o->fixes[f] = p->fixes[f];
        o->theirs[f] = !(t >> f & 1);
        o->fixes[f].open = o->theirs[f] && p->own >> f & 1;
    }
    o->called = (callee){1, o->theirs, false};
    o->in.callees = &o->called;
    o->in.callee_count = p->called != NULL ? 1 : 0;
    o->in.sends = true;
    o->in.questions = o->questions;
    o->in.fixes = o->fixes;
}

static policy_cost follow(policy_problem *p, arena *scratch, memory (*seen)[POLICY_TRIED],
                          uint32_t a, uint32_t t)
{
    if (seen[a][t].known) return seen[a][t].cost;
    double w[POLICY_WEIGHTS], total = weights_of(p, a, t, w);
    arena_mark before = arena_here(scratch);
    table_of_questions offer;
    lay_out(p, scratch, a, t, &offer);
    choice c = choose_step(&offer.in, scratch, w);
    arena_back_to(scratch, before);

    policy_cost cost = cost_of_minutes(calling_costs(p, a, t, total));
    if (c.step == STEP_FIX) {
        assert(!(t >> c.fix & 1));
        uint32_t failed = t | UINT32_C(1) << c.fix;
        cost = cost_of_fix(p, c.fix, w, total);
        if (c.with != UINT32_MAX) {
            cost = plus(cost, cost_under(p, c.with, w, total));
            failed |= UINT32_C(1) << c.with;
        }
        cost = plus(cost, follow(p, scratch, seen, a, failed));
    } else if (c.step == STEP_ASK) {
        uint32_t q = offer.finding[c.question];
        cost = cost_of_minutes(p->minutes[q] * total);
        for (uint32_t y = 1; y <= 2; y++)
            cost = plus(cost, follow(p, scratch, seen, a + y * power_of_3(q), t));
    }
    seen[a][t] = (memory){true, cost};
    return cost;
}

policy_cost policy_followed(policy_problem *p, arena *scratch)
{
    arena_mark before = arena_here(scratch);
    memory(*seen)[POLICY_TRIED] = arena_take_array(scratch, POLICY_ANSWERS, sizeof *seen);
    policy_cost cost = follow(p, scratch, seen, 0, 0);
    arena_back_to(scratch, before);
    return cost;
}
