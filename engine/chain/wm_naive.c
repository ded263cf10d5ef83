/* The rules read straight from their conditions, again and again until nothing changes, by the
 * alternating fixpoint (Van Gelder 1989, "The alternating fixpoint of logic programs with
 * negation"): no gates, no counts, no order. */
#include <assert.h>
#include <string.h>

#include "chain/working_memory.h"

/* Atoms that certainly hold, and atoms that may, as far as has been found. */
typedef struct reading {
    const logic_input *in;
    const state_mask *possible;
    const bool *known;
    bool *certain, *may;
} reading;

static bool holds(const reading *r, const expr *e, bool surely);

/* Not e surely holds if e can't hold; it may hold unless e surely does. */
static uint32_t holding_parts(const reading *r, const expr *e, bool surely)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < e->count; i++) count += holds(r, e->parts[i], surely) ? 1 : 0;
    return count;
}

static bool state_holds(const reading *r, const expr *e, bool surely)
{
    const state_mask possible = r->possible[e->subject];
    const uint32_t states = r->in->findings[e->subject].states;
    assert(states == EXPR_STATES_MAX || possible >> states == 0);
    return surely ? (possible & ~e->mask) == 0 : (possible & e->mask) != 0;
}

static bool holds(const reading *r, const expr *e, bool surely)
{
    switch (e->kind) {
    case EXPR_IS:
        return state_holds(r, e, surely);
    case EXPR_KNOWN:
        return r->known[e->subject];
    case EXPR_ATOM:
        return surely ? r->certain[e->subject] : r->may[e->subject];
    case EXPR_ALL:
        return holding_parts(r, e, surely) == e->count;
    case EXPR_ANY:
        return holding_parts(r, e, surely) > 0;
    case EXPR_NOT:
        return !holds(r, e->parts[0], !surely);
    case EXPR_AT_LEAST:
        break;
    }
    return holding_parts(r, e, surely) >= e->number;
}

/* Adds to the set what follows from it, until nothing more does. */
static void close_up(const reading *r, bool *set, bool surely)
{
    bool changed = true;
    while (changed) {
        changed = false;
        for (uint32_t i = 0; i < r->in->body_count; i++) {
            const logic_body *b = &r->in->bodies[i];
            if (set[b->atom] || !holds(r, b->when, surely)) continue;
            set[b->atom] = changed = true;
        }
    }
}

void wm_naive(arena *scratch, const logic *l, const state_mask *possible, const bool *known,
              truth *out)
{
    const logic_input *in = logic_source(l);
    uint32_t atoms = in->atom_count;
    arena_mark mark = arena_here(scratch);
    reading r = {.in = in, .possible = possible, .known = known};
    r.certain = ARENA_ARRAY(scratch, bool, atoms);
    r.may = ARENA_ARRAY(scratch, bool, atoms);
    bool *before = ARENA_ARRAY(scratch, bool, atoms);
    do {
        memcpy(before, r.certain, atoms * sizeof *before);
        memset(r.may, 0, atoms * sizeof *r.may);
        close_up(&r, r.may, false);
        memset(r.certain, 0, atoms * sizeof *r.certain);
        close_up(&r, r.certain, true);
    } while (memcmp(before, r.certain, atoms * sizeof *before) != 0);
    for (uint32_t a = 0; a < atoms; a++)
        out[a] = r.certain[a] ? TRUTH_TRUE : r.may[a] ? TRUTH_UNKNOWN : TRUTH_FALSE;
    arena_back_to(scratch, mark);
}
