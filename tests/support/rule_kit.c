#include "rule_kit.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

enum { PARTS_MOST = 16 };

static const str state_names[] = {{"a", 1}, {"b", 1}, {"c", 1}, {"d", 1},
                                  {"e", 1}, {"f", 1}, {"g", 1}, {"h", 1}};

rule_kit kit_new(uint32_t room)
{
    rule_kit k = {.keep = arena_new(NULL, NULL), .scratch = arena_new(NULL, NULL), .room = room};
    assert_non_null(k.keep);
    assert_non_null(k.scratch);
    k.list = faults_new(k.keep);
    k.findings = ARENA_ARRAY(k.keep, logic_finding, room);
    k.atoms = ARENA_ARRAY(k.keep, logic_atom, room);
    k.bodies = ARENA_ARRAY(k.keep, logic_body, room);
    k.groups = ARENA_ARRAY(k.keep, logic_group, room);
    return k;
}

void kit_free(rule_kit *k)
{
    arena_free(k->keep);
    arena_free(k->scratch);
}

static span next_place(rule_kit *k)
{
    uint32_t start = 10 * ++k->places;
    return (span){0, start, start + 5};
}

uint32_t kit_finding(rule_kit *k, const char *name, uint32_t states)
{
    assert_true(k->finding_count < k->room);
    k->findings[k->finding_count] =
        (logic_finding){str_copy(k->keep, str_of(name)), states, state_names};
    return k->finding_count++;
}

uint32_t kit_atom(rule_kit *k, const char *name)
{
    assert_true(k->atom_count < k->room);
    k->atoms[k->atom_count] = (logic_atom){str_copy(k->keep, str_of(name)), next_place(k)};
    return k->atom_count++;
}

uint32_t kit_body(rule_kit *k, uint32_t atom, const expr *when)
{
    assert_true(k->body_count < k->room);
    k->bodies[k->body_count] = (logic_body){atom, when, next_place(k)};
    return k->body_count++;
}

void kit_group(rule_kit *k, const char *name, const uint32_t *atoms, uint32_t count)
{
    assert_true(k->group_count < k->room);
    uint32_t *copy = ARENA_ARRAY(k->keep, uint32_t, count);
    for (uint32_t i = 0; i < count; i++) copy[i] = atoms[i];
    k->groups[k->group_count++] = (logic_group){str_copy(k->keep, str_of(name)), copy, count};
}

const expr *kit_is(rule_kit *k, uint32_t finding, state_mask mask)
{
    return expr_is(k->keep, finding, mask, next_place(k));
}

const expr *kit_known(rule_kit *k, uint32_t finding)
{
    return expr_known(k->keep, finding, next_place(k));
}

const expr *kit_needs(rule_kit *k, uint32_t atom)
{
    return expr_atom(k->keep, atom, next_place(k));
}

const expr *kit_not(rule_kit *k, const expr *e)
{
    return expr_not(k->keep, e, next_place(k));
}

static uint32_t parts_of(va_list list, const expr **parts)
{
    uint32_t count = 0;
    for (const expr *e = va_arg(list, const expr *); e != NULL; e = va_arg(list, const expr *)) {
        assert_true(count < PARTS_MOST);
        parts[count++] = e;
    }
    return count;
}

const expr *kit_all(rule_kit *k, ...)
{
    const expr *parts[PARTS_MOST];
    va_list list;
    va_start(list, k);
    uint32_t count = parts_of(list, parts);
    va_end(list);
    return expr_many(k->keep, EXPR_ALL, parts, count, next_place(k));
}

const expr *kit_any(rule_kit *k, ...)
{
    const expr *parts[PARTS_MOST];
    va_list list;
    va_start(list, k);
    uint32_t count = parts_of(list, parts);
    va_end(list);
    return expr_many(k->keep, EXPR_ANY, parts, count, next_place(k));
}

const expr *kit_at_least(rule_kit *k, uint32_t number, ...)
{
    const expr *parts[PARTS_MOST];
    va_list list;
    va_start(list, number);
    uint32_t count = parts_of(list, parts);
    va_end(list);
    return expr_at_least(k->keep, number, parts, count, next_place(k));
}

const logic *kit_build(rule_kit *k)
{
    k->in = (logic_input){.findings = k->findings,
                          .finding_count = k->finding_count,
                          .atoms = k->atoms,
                          .atom_count = k->atom_count,
                          .bodies = k->bodies,
                          .body_count = k->body_count,
                          .groups = k->groups,
                          .group_count = k->group_count};
    return logic_build(k->keep, k->scratch, &k->in, k->list);
}

uint32_t kit_faults(rule_kit *k)
{
    uint32_t count;
    (void)faults_sorted(k->list, k->scratch, &count);
    return count;
}

const fault *kit_fault(rule_kit *k, uint32_t n)
{
    uint32_t count;
    const fault *all = faults_sorted(k->list, k->scratch, &count);
    assert_true(n < count);
    return &all[n];
}
