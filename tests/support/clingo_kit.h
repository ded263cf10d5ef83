/* Our rules in the language of answer set programs, and the program `clingo` (Debian package
 * gringo) to read them. Each rule set of a batch has a number of its own, so that one run answers
 * for all. */
#ifndef TT_SUPPORT_CLINGO_KIT_H
#define TT_SUPPORT_CLINGO_KIT_H

#include <stdint.h>
#include <stdio.h>

#include "rule_kit.h"

/* Writes rule set `set`: its bodies, and as facts the state that each finding was answered to be
 * in. Atom a becomes a(set,a). */
void clingo_write(FILE *out, uint32_t set, const rule_kit *k, const uint32_t *answered);

/* What it found: at most two models, the atoms of the first. */
typedef struct clingo_found {
    uint32_t models; /* 0: no model at all; 2: more than one */
    uint32_t count;
    struct {
        uint32_t set, atom;
    } * atoms; /* in no order; freed by clingo_free */
} clingo_found;

/* Runs it on the file of that name in the test's folder. The test fails, and says what is missing,
 * if the machine has no clingo or clingo complains. */
clingo_found clingo_run(const char *program);
void clingo_free(clingo_found *found);

#endif
