/* Justifications: the trace of an atom, with every finding once. */
#include <assert.h>
#include <string.h>

#include "chain/wm_state.h"

/* Findings met so far. The marks belong to the working memory, whose truths they leave alone. */
typedef struct gathering {
    const working_memory *m;
    uint32_t why, count;
} gathering;

static void gather(void *context, uint32_t at_step, bool is_atom, uint32_t subject)
{
    gathering *g = context;
    (void)at_step;
    if (is_atom || g->m->finding_mark[subject] == g->why) return;
    g->m->finding_mark[subject] = g->why;
    g->m->finding_list[g->count++] = subject;
}

static uint32_t next_why(const working_memory *m)
{
    if (*m->why_count == UINT32_MAX) {
        memset(m->finding_mark, 0, m->l->source.finding_count * sizeof *m->finding_mark);
        *m->why_count = 0;
    }
    return ++*m->why_count;
}

justification wm_why(const working_memory *m, arena *keep, uint32_t atom)
{
    gathering g = {.m = m, .why = next_why(m)};
    uint32_t steps;
    const trace_step *trace = trace_from(m->tracer, m->truth, atom, gather, &g, &steps);
    uint32_t *findings = ARENA_ARRAY(keep, uint32_t, g.count),
             *atoms = ARENA_ARRAY(keep, uint32_t, steps - 1);
    memcpy(findings, m->finding_list, g.count * sizeof *findings);
    for (uint32_t i = 1; i < steps; i++) atoms[i - 1] = trace[i].atom;
    assert(trace[0].atom == atom);
    return (justification){.findings = findings,
                           .finding_count = g.count,
                           .atoms = atoms,
                           .atom_count = steps - 1,
                           .body = trace[0].body};
}
