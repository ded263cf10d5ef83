/* Rules for tests without a book around them: findings, atoms and bodies added one by one, then
 * built. */
#ifndef TT_SUPPORT_RULE_KIT_H
#define TT_SUPPORT_RULE_KIT_H

#include "chain/working_memory.h"
#include "compile/logic.h"

typedef struct rule_kit {
    arena *keep, *scratch;
    faults *list;
    logic_finding *findings;
    logic_atom *atoms;
    logic_body *bodies;
    logic_group *groups;
    logic_input in; /* set by kit_build */
    uint32_t finding_count, atom_count, body_count, group_count, room;
    uint32_t places; /* every expression and body has a place of its own */
} rule_kit;

/* `room`: the most findings, atoms, bodies and groups. */
rule_kit kit_new(uint32_t room);
void kit_free(rule_kit *k);

/* Names are copied; states of a finding are called a, b, c and so on. */
uint32_t kit_finding(rule_kit *k, const char *name, uint32_t states);
uint32_t kit_atom(rule_kit *k, const char *name);
uint32_t kit_body(rule_kit *k, uint32_t atom, const expr *when);
void kit_group(rule_kit *k, const char *name, const uint32_t *atoms, uint32_t count);

const expr *kit_is(rule_kit *k, uint32_t finding, state_mask mask);
const expr *kit_known(rule_kit *k, uint32_t finding);
const expr *kit_needs(rule_kit *k, uint32_t atom);
const expr *kit_not(rule_kit *k, const expr *e);

/* Parts end with a null. */
const expr *kit_all(rule_kit *k, ...);
const expr *kit_any(rule_kit *k, ...);
const expr *kit_at_least(rule_kit *k, uint32_t number, ...);

const logic *kit_build(rule_kit *k);

/* Text of the n-th fault in printed order, and how many there are. */
uint32_t kit_faults(rule_kit *k);
const fault *kit_fault(rule_kit *k, uint32_t n);

/* The same numbers in every run. */

#endif
