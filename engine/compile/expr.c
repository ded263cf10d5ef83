/* Conditions over findings and atoms: made, and evaluated where every finding is certain. */
#include "compile/expr.h"

#include <assert.h>

static const expr *keep_expr(arena *keep, expr made)
{
    expr *e = ARENA_NEW(keep, expr);
    *e = made;
    return e;
}

const expr *expr_is(arena *keep, uint32_t finding, state_mask mask, span at)
{
    return keep_expr(keep, (expr){.kind = EXPR_IS, .subject = finding, .mask = mask, .at = at});
}

const expr *expr_known(arena *keep, uint32_t finding, span at)
{
    return keep_expr(keep, (expr){.kind = EXPR_KNOWN, .subject = finding, .at = at});
}

const expr *expr_atom(arena *keep, uint32_t atom, span at)
{
    return keep_expr(keep, (expr){.kind = EXPR_ATOM, .subject = atom, .at = at});
}

/* The caller's array of parts may be short-lived. */
static const expr *keep_parts(arena *keep, expr made, const expr *const *parts)
{
    assert(made.count == 0 || parts != NULL);
    const expr **copy = ARENA_ARRAY(keep, const expr *, made.count);
    for (uint32_t i = 0; i < made.count; i++) {
        assert(parts[i] != NULL);
        copy[i] = parts[i];
    }
    made.parts = copy;
    return keep_expr(keep, made);
}

const expr *expr_of_kept(arena *keep, expr_kind kind, uint32_t number, const expr *const *parts,
                         uint32_t count, span at)
{
    assert(kind == EXPR_ALL || kind == EXPR_ANY || kind == EXPR_AT_LEAST);
    return keep_expr(
        keep, (expr){.kind = kind, .number = number, .count = count, .parts = parts, .at = at});
}

const expr *expr_many(arena *keep, expr_kind all_or_any, const expr *const *parts, uint32_t count,
                      span at)
{
    assert(all_or_any == EXPR_ALL || all_or_any == EXPR_ANY);
    return keep_parts(keep, (expr){.kind = all_or_any, .count = count, .at = at}, parts);
}

const expr *expr_at_least(arena *keep, uint32_t number, const expr *const *parts, uint32_t count,
                          span at)
{
    return keep_parts(
        keep, (expr){.kind = EXPR_AT_LEAST, .number = number, .count = count, .at = at}, parts);
}

const expr *expr_not(arena *keep, const expr *part, span at)
{
    return keep_parts(keep, (expr){.kind = EXPR_NOT, .count = 1, .at = at}, &part);
}

static uint32_t parts_that_hold(const expr *e, const uint32_t *state_of_finding)
{
    uint32_t holding = 0;
    for (uint32_t i = 0; i < e->count; i++) holding += expr_holds(e->parts[i], state_of_finding);
    return holding;
}

bool expr_holds(const expr *e, const uint32_t *state_of_finding)
{
    switch (e->kind) {
    case EXPR_IS:
        assert(state_of_finding[e->subject] < EXPR_STATES_MAX);
        return ((e->mask >> state_of_finding[e->subject]) & 1) != 0;
    case EXPR_KNOWN:
        return true; /* every state is certain here */
    case EXPR_ALL:
        return parts_that_hold(e, state_of_finding) == e->count;
    case EXPR_ANY:
        return parts_that_hold(e, state_of_finding) > 0;
    case EXPR_NOT:
        return !expr_holds(e->parts[0], state_of_finding);
    case EXPR_AT_LEAST:
        return parts_that_hold(e, state_of_finding) >= e->number;
    case EXPR_ATOM:
        break;
    }
    assert(false && "a condition over findings names no derived proposition");
    return false;
}

void expr_each_finding(const expr *e, void (*visit)(void *context, uint32_t finding), void *context)
{
    if (e->kind == EXPR_IS || e->kind == EXPR_KNOWN) visit(context, e->subject);
    for (uint32_t i = 0; i < e->count; i++) expr_each_finding(e->parts[i], visit, context);
}
