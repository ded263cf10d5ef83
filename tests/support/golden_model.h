/* Golden cases: a model, and what brute force in 50-digit arithmetic made of it. The files lie in
 * tests/golden/data. */
#ifndef TT_SUPPORT_GOLDEN_MODEL_H
#define TT_SUPPORT_GOLDEN_MODEL_H

#include <jansson.h>

#include "believe/belief.h"
#include "compile/net.h"

typedef struct golden {
    json_t *root;
    net_input in;
    uint32_t most_faults; /* K */
} golden;

/* Reads tests/golden/data/<name>.json; what it makes lives in `keep`. A file that can't be read
 * fails the test. */
golden golden_load(arena *keep, const char *name);
void golden_free(golden *g);

/* A step's "answers" as evidence over all findings of the case. */
evidence golden_evidence(arena *keep, const golden *g, const json_t *answers);

/* root[key][key]…, the keys with '.' between them; fails the test if it isn't there. */
const json_t *golden_at(const json_t *root, const char *path);
double golden_number(const json_t *root, const char *path);

/* An array of numbers: its length must be `count`, and every value as expected within `tolerance`
 * (absolute). */
void golden_check(const json_t *expected, const double *got, uint32_t count, double tolerance);

#endif
