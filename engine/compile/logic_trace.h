/* Why a node has its truth: walks from an atom to the findings that suffice for it, nearest atoms
 * first. */
#ifndef TT_COMPILE_LOGIC_TRACE_H
#define TT_COMPILE_LOGIC_TRACE_H

#include "compile/logic_gates.h"

typedef struct logic_tracer logic_tracer;

/* Room for traces over one logic; a trace takes no memory and costs what it visits. */
logic_tracer *tracer_new(arena *keep, const logic *l);

typedef struct trace_step {
    uint32_t atom;
    uint32_t body; /* carries it: the lowest-numbered that holds; NO_BODY unless the atom is true */
} trace_step;

/* A direct reason of the atom of step `step`: another atom, or a finding. */
typedef void trace_visit(void *context, uint32_t step, bool is_atom, uint32_t subject);

/* Truth of the nodes as NODE_*, settled; returns the steps, the atom itself first. Valid until the
 * next trace. A reason may be visited more than once. True: inputs that suffice, never leaning on
 * themselves. False: inputs that suffice, where a loop may lean on its own falsity. Unknown: all
 * inputs it waits for. */
const trace_step *trace_from(logic_tracer *t, const uint8_t *truth, uint32_t atom,
                             trace_visit *visit, void *context, uint32_t *count);

#endif
