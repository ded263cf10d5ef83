/* How long one decision takes on large made-up books. Prints milliseconds; asserts nothing. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "choice_twin.h"
#include "choose/choose.h"
#include "luck.h"

enum { STATES = 3, LISTED = 8, REPEATS = 10 };

static void draw_row(uint64_t *random, double *row)
{
    double total = 0;
    for (uint32_t y = 0; y < STATES; y++) total += row[y] = .02 + pow(luck_share(random), 3);
    for (uint32_t y = 0; y < STATES; y++) row[y] /= total;
}

static void draw_prediction(arena *keep, uint32_t causes, uint64_t *random, prediction *p)
{
    double *rows = ARENA_ARRAY(keep, double, STATES *(LISTED + 2));
    uint32_t *listed = ARENA_ARRAY(keep, uint32_t, LISTED);
    for (uint32_t i = 0; i < LISTED + 2; i++) draw_row(random, &rows[i * STATES]);
    for (uint32_t i = 0; i < LISTED; i++)
        listed[i] = i * (causes / LISTED) + luck_below(random, causes / LISTED);
    *p = (prediction){.states = STATES,
                      .base = rows,
                      .other = rows + STATES,
                      .listed_count = LISTED,
                      .listed = listed,
                      .rows = rows + 2 * STATES};
}

static choice_input draw(arena *keep, uint32_t causes, uint32_t questions, uint64_t *random)
{
    fix_option *fixes = ARENA_ARRAY(keep, fix_option, causes);
    question_option *asked = ARENA_ARRAY(keep, question_option, questions);
    prediction *seen = ARENA_ARRAY(keep, prediction, questions);
    for (uint32_t f = 0; f < causes; f++) {
        net_rate *cures = ARENA_ARRAY(keep, net_rate, 2);
        cures[0] = (net_rate){f, .9};
        cures[1] = (net_rate){f + 1, .5};
        fixes[f] = (fix_option){.name = STR("fix"),
                                .minutes = 2 + 88 * luck_share(random),
                                .cures = cures,
                                .open = true};
        fixes[f].cure_count = f + 1 < causes ? 2 : 1;
        fixes[f].level = (risk_level)luck_below(random, 3);
    }
    for (uint32_t q = 0; q < questions; q++) {
        draw_prediction(keep, causes, random, &seen[q]);
        asked[q] = (question_option){.minutes = .5 + 9.5 * luck_share(random), .seen = &seen[q]};
    }
    return (choice_input){.cause_count = causes,
                          .fixes = fixes,
                          .fix_count = causes,
                          .questions = asked,
                          .question_count = questions,
                          .rules = choice_rules_default};
}

/* Every other fix is somebody else's. */
static void hand_over(arena *keep, choice_input *in)
{
    callee *called = ARENA_ARRAY(keep, callee, 1);
    bool *theirs = ARENA_ARRAY(keep, bool, in->fix_count);
    fix_option *fixes = ARENA_ARRAY(keep, fix_option, in->fix_count);
    for (uint32_t f = 0; f < in->fix_count; f++) {
        fixes[f] = in->fixes[f];
        fixes[f].needs_parts = f % 3 == 0;
        fixes[f].open = f % 2 == 0;
        theirs[f] = true;
    }
    *called = (callee){1, theirs, false};
    in->fixes = fixes;
    in->callees = called;
    in->callee_count = 1;
    in->sends = true;
}

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static void measure(uint32_t causes, uint32_t questions, bool gates, double spread, bool calls)
{
    guard way_out;
    arena *keep = arena_new(NULL, &way_out), *scratch = arena_new(NULL, &way_out);
    if (keep == NULL || scratch == NULL) exit(1);
    if (setjmp(way_out.place) != 0) exit(1);
    uint64_t random = 5;
    choice_input in = draw(keep, causes, questions, &random);
    double *w = ARENA_ARRAY(keep, double, (size_t)causes + 1), worst = 0, sum = 0;
    if (calls) hand_over(keep, &in);
    for (int level = 0; level < 4 && !gates; level++)
        in.rules.worth_trying[level] = in.rules.price[level] = 0;
    for (int i = 0; i < REPEATS; i++) {
        for (uint32_t h = 0; h <= causes; h++) w[h] = exp(spread * luck_share(&random));
        double start = seconds();
        choose_step(&in, scratch, w);
        double took = seconds() - start;
        worst = fmax(worst, took);
        sum += took;
    }
    printf("%5u causes, %4u questions, %s, weights within a factor e^%-2.0f%s: mean %.2f ms, worst "
           "%.2f ms\n",
           causes, questions, gates ? "gates   " : "no gates", spread,
           calls ? ", somebody to call" : "", 1e3 * sum / REPEATS, 1e3 * worst);
    arena_free(keep);
    arena_free(scratch);
}

int main(void)
{
    static const uint32_t sizes[][2] = {{25, 40}, {60, 120}, {300, 400}, {1000, 400}};
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++)
        for (int gates = 1; gates >= 0; gates--)
            for (int calls = 0; calls < 2; calls++) {
                measure(sizes[i][0], sizes[i][1], gates != 0, 0, calls != 0);
                measure(sizes[i][0], sizes[i][1], gates != 0, 12, calls != 0);
            }
    return 0;
}
