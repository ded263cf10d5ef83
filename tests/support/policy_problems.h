/* Random problems small enough for their best policy to be found exactly, and policies judged
 * exactly on them.
 *
 * A problem: six causes and something not listed (0.03); shares exponential (mean 1) plus 0.1.
 * Eight yes/no questions of 0.5 to 10 minutes (uniform), right with chance 0.90, 0.95 or 0.98. Each
 * is a symptom of one to four causes with rates from the scale of words (.30 .50 .70 .85 .95),
 * otherwise .01, .05 or .15. The first two also share a compound symptom (either of them), so that
 * they lie in one component. Five or six fixes: the f-th cures cause f, and one in three another
 * cause too, each with chance 0.7 to 0.95; minutes log-uniform in the range given. Calling costs
 * 240 minutes. One cause is present; a fix that failed leaves everything else as it was.
 *
 * With somebody to be called: about half of the fixes are not for whoever begins. Who is called
 * after 240 minutes may do all that is left and ask what was not asked, and calls for another 240.
 * Where there is no cause that they alone can cure, they are passed over, as the engine has it:
 * then calling costs 240 minutes and that is all.
 *
 * The tables come through the engine's own network and belief, so what the policies plan with is
 * what they meet. */
#ifndef TT_TESTS_POLICY_PROBLEMS_H
#define TT_TESTS_POLICY_PROBLEMS_H

#include "choose/choose.h"

enum {
    POLICY_CAUSES = 6,
    POLICY_WEIGHTS = POLICY_CAUSES + 1,
    POLICY_QUESTIONS = 8,
    POLICY_FIXES = 6,
    /* 3^8: every question unasked (0), no (1) or yes (2); question 0 counts least. */
    POLICY_ANSWERS = 6561,
    POLICY_TRIED = 64, /* sets of fixes that failed */
};

typedef struct minutes_range {
    double least, most;
} minutes_range;

/* Per call: real minutes; the same with the price of needless jobs; needless jobs of level Medium
 * and up. */
typedef struct policy_cost {
    double minutes, priced, needless;
} policy_cost;

typedef struct policy_problem policy_problem;

/* `under_rules`: levels Low, Medium, Serious at random, gates, prices, likely ones first; else none
 * of it. */
policy_problem *policy_problem_new(arena *keep, arena *scratch, uint64_t seed, minutes_range fixes,
                                   bool under_rules);

/* From now on there are two roles. */
void policy_problem_hand_over(policy_problem *p, arena *keep, uint64_t seed);

/* The least expected minutes of any policy whatever, of both roles: dynamic programming over all
 * answers and all sets of failed fixes. */
double policy_optimum(const policy_problem *p, arena *scratch);

/* The policy with the least priced minutes among those that ask any question, do only the fix which
 * the order puts first, or call. */
policy_cost policy_best_under_rules(const policy_problem *p, arena *scratch);

/* What choose_step costs when it is followed in every state that it leads to. */
policy_cost policy_followed(policy_problem *p, arena *scratch);

/* Two lockouts, of which each fix has one for a part of its minutes; and each by itself again. */
void policy_problem_lock(policy_problem *p, uint64_t seed);
void policy_problem_unlock(policy_problem *p);

#endif
