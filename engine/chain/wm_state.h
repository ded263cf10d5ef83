/* Working memory from inside; only chain's own files see this. */
#ifndef TT_CHAIN_WM_STATE_H
#define TT_CHAIN_WM_STATE_H

#include "chain/agenda.h"
#include "chain/working_memory.h"
#include "compile/logic_gates.h"
#include "compile/logic_trace.h"

/* What loops keep besides: two least fixpoints over the same gates, "certain" (unknown inputs don't
 * count) and "possible" (they do). Every gate in a fixpoint has a stamp above those of enough of
 * its inputs, so what leans on itself alone is found by looking around it. */
typedef struct wm_loops {
    uint8_t *marks;     /* [slot] in which layers it is, and whether it stands in a list */
    uint64_t *stamp[2]; /* [layer][slot] */
    uint64_t last_stamp;
    uint32_t *touched; /* gates of the loop under way that may have changed */
    uint32_t touched_count;
    uint32_t *stack;
    uint32_t height;
} wm_loops;

struct working_memory {
    const logic *l;
    uint8_t *truth;       /* [node] NODE_* */
    uint64_t *counts;     /* [node] of its inputs, see below; unused for leaves */
    state_mask *possible; /* [finding] */
    bool *known;          /* [finding] */
    agenda open;          /* gates to look at again */
    agenda changed;       /* atoms that changed since they were seen, some of them back again */
    uint8_t *seen;        /* [atom] truth when changes were last seen */
    uint32_t *change_list;
    logic_tracer *tracer;
    uint32_t *finding_mark; /* [finding] why-number that listed it */
    uint32_t *finding_list;
    uint32_t *why_count; /* one number */
    uint64_t work;
    wm_loops loops;
};

/* Counts of a gate: its true inputs in the lower half, its false ones in the upper, both begun so
 * far below 2^31 that the half's highest bit says that there are enough. */
static inline uint64_t wm_no_inputs(const logic_gate *g)
{
    return (uint64_t)((UINT32_C(1) << 31) - g->fails) << 32 | ((UINT32_C(1) << 31) - g->least);
}

/* What a true and a false input add. */
#define WM_ONE_TRUE  UINT64_C(1)
#define WM_ONE_FALSE (UINT64_C(1) << 32)

static inline bool wm_is_true(uint64_t counts)
{
    return (counts >> 31 & 1) != 0;
}
static inline bool wm_is_false(uint64_t counts)
{
    return counts >> 63 != 0;
}

/* Without a branch, since no two gates in a row have much in common. */
static inline uint8_t wm_gate_truth(uint64_t counts)
{
    unsigned holds = (unsigned)(counts >> 31) & 1, fails = (unsigned)(counts >> 63);
    return (uint8_t)(holds | ((holds | fails) ^ 1) << 1);
}

void wm_loops_make(wm_loops *s, arena *keep, const logic *l);

/* Says that a gate of a loop has to be looked at. */
void wm_loops_touch(working_memory *m, uint32_t node);

/* Settles the loop from the gates touched: brings the counts within it up to date, leaves their
 * truth to the caller, who takes every touched gate's from wm_loops_truth and then calls
 * wm_loops_done. */
void wm_loops_settle(working_memory *m, const logic_loop *p);
uint8_t wm_loops_truth(const working_memory *m, const logic_loop *p, uint32_t node);
void wm_loops_done(working_memory *m, const logic_loop *p);

#endif
