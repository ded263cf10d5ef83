/* Contradictions in words: the answers, then every step from them to either value. */
#include <assert.h>

#include "base/grow.h"
#include "base/sorted.h"
#include "compile/logic_conflicts.h"
#include "compile/logic_trace.h"

enum { STEPS_TOLD = 12, REASONS_TOLD = 8 };

/* One reason met by the trace. */
typedef struct reason {
    bool is_atom;
    uint32_t subject, next; /* next: reason of the same step + 1, 0 at the end */
} reason;

/* A value's steps with their reasons. */
typedef struct conflict_teller {
    arena *scratch;
    const cone *c;
    logic_tracer *tracer;
    uint8_t *truth; /* [node] */
    reason *reasons;
    uint32_t reason_count, reason_room;
    uint32_t *first, *last; /* [step] reason + 1; all 0 between traces */
} story;

conflict_teller *conflict_teller_new(arena *scratch, const cone *c)
{
    story *s = ARENA_NEW(scratch, story);
    uint32_t atoms = c->l->source.atom_count;
    s->scratch = scratch;
    s->c = c;
    s->tracer = tracer_new(scratch, c->l);
    s->truth = ARENA_ARRAY(scratch, uint8_t, c->l->node_count);
    s->first = ARENA_ARRAY(scratch, uint32_t, atoms);
    s->last = ARENA_ARRAY(scratch, uint32_t, atoms);
    return s;
}

static str choice_text(arena *scratch, const cone *c, uint32_t finding)
{
    const logic_finding *f = &c->l->source.findings[finding];
    uint32_t choice = c->chosen[finding];
    if (choice == CHOICE_NOT_KNOWN)
        return str_printf(scratch, "%.*s is not known", STR_ARG(f->name));
    assert(choice < f->states);
    return str_printf(scratch, "%.*s is %.*s", STR_ARG(f->name), STR_ARG(f->state_names[choice]));
}

static void join(text_builder *text, uint32_t index, uint32_t count)
{
    if (index == 0) return;
    text_add(text, index + 1 < count ? STR(", ") : STR(" and "));
}

/* "pump-air is low and foam-look is stiff"; "whatever is answered" if nothing need be. */
static str answers_text(arena *scratch, const cone *c)
{
    text_builder text = {.keep = scratch};
    uint32_t count = 0, done = 0;
    for (uint32_t i = 0; i < c->finding_count; i++)
        count += c->chosen[c->findings[i]] != CHOICE_OPEN;
    if (count == 0) return STR("whatever is answered");
    text_add(&text, STR("when "));
    for (uint32_t i = 0; i < c->finding_count; i++) {
        if (c->chosen[c->findings[i]] == CHOICE_OPEN) continue;
        join(&text, done++, count);
        text_add(&text, choice_text(scratch, c, c->findings[i]));
    }
    return text_done(&text);
}

static void keep_reason(void *context, uint32_t step, bool is_atom, uint32_t subject)
{
    story *s = context;
    for (uint32_t i = s->first[step]; i != 0; i = s->reasons[i - 1].next)
        if (s->reasons[i - 1].is_atom == is_atom && s->reasons[i - 1].subject == subject) return;
    GROW(s->scratch, s->reasons, s->reason_count, s->reason_room);
    s->reasons[s->reason_count++] = (reason){is_atom, subject, 0};
    if (s->last[step] != 0)
        s->reasons[s->last[step] - 1].next = s->reason_count;
    else
        s->first[step] = s->reason_count;
    s->last[step] = s->reason_count;
}

static bool does_hold(const cone *c, uint32_t atom)
{
    return (cone_atom(c, atom) & HOLDS) != 0;
}

static str reason_text(const story *s, const reason *r)
{
    if (!r->is_atom) return choice_text(s->scratch, s->c, r->subject);
    str name = s->c->l->source.atoms[r->subject].name;
    return str_printf(s->scratch,
                      does_hold(s->c, r->subject) ? "\"%.*s\" holds" : "\"%.*s\" does not hold",
                      STR_ARG(name));
}

static str step_text(const story *s, uint32_t step, uint32_t atom)
{
    text_builder text = {.keep = s->scratch};
    uint32_t count = 0, done = 0;
    for (uint32_t i = s->first[step]; i != 0; i = s->reasons[i - 1].next) count++;
    text_addf(&text, "\"%.*s\" %s", STR_ARG(s->c->l->source.atoms[atom].name),
              does_hold(s->c, atom) ? "holds" : "does not hold");
    if (count > 0) text_add(&text, STR(": "));
    for (uint32_t i = s->first[step]; i != 0 && done < REASONS_TOLD; i = s->reasons[i - 1].next) {
        join(&text, done++, count);
        text_add(&text, reason_text(s, &s->reasons[i - 1]));
    }
    if (count > REASONS_TOLD) text_addf(&text, " and %u more", (unsigned)(count - REASONS_TOLD));
    return text_done(&text);
}

static span place_of(const logic *l, const trace_step *step)
{
    return step->body == NO_BODY ? l->source.atoms[step->atom].at : l->source.bodies[step->body].at;
}

/* A step and where it stands in the order of the gates: answers first, the value last. */
typedef struct ranked {
    uint32_t node, step;
} ranked;

static int by_node(const void *a, const void *b)
{
    const ranked *x = a, *y = b;
    return THREE_WAY(x->node, y->node);
}

static void note_chain(const story *s, const trace_step *steps, uint32_t count, fault *f,
                       faults *list)
{
    const logic *l = s->c->l;
    ranked *order = ARENA_ARRAY(s->scratch, ranked, count);
    for (uint32_t i = 0; i < count; i++) order[i] = (ranked){l->atom_node[steps[i].atom], i};
    SORT(order, count, by_node);
    for (uint32_t i = count > STEPS_TOLD ? count - STEPS_TOLD : 0; i < count; i++) {
        const trace_step *step = &steps[order[i].step];
        str text = step_text(s, order[i].step, step->atom);
        fault_note_at(list, f, place_of(l, step), "%.*s", STR_ARG(text));
    }
}

static uint8_t truth_of(uint8_t standing)
{
    return (standing & HOLDS) != 0   ? NODE_TRUE
           : (standing & FAILS) != 0 ? NODE_FALSE
                                     : NODE_UNKNOWN;
}

static void set_truths(story *s)
{
    const cone *c = s->c;
    const uint32_t *leaf_first = c->l->leaf_first;
    for (uint32_t i = 0; i < c->gate_count; i++)
        s->truth[c->gates[i]] = truth_of(c->standing[c->gates[i]]);
    for (uint32_t i = 0; i < c->finding_count; i++)
        for (uint32_t x = leaf_first[c->findings[i]]; x < leaf_first[c->findings[i] + 1]; x++)
            s->truth[x] = truth_of(c->standing[x]);
}

static const trace_step *trace_value(story *s, uint32_t atom, uint32_t *count)
{
    s->reasons = NULL;
    s->reason_count = s->reason_room = 0;
    return trace_from(s->tracer, s->truth, atom, keep_reason, s, count);
}

/* Notes every step from the answers to a value. */
static void note_value(story *s, uint32_t atom, fault *f, faults *list)
{
    uint32_t count;
    const trace_step *steps = trace_value(s, atom, &count);
    note_chain(s, steps, count, f, list);
    for (uint32_t i = 0; i < count; i++) s->first[i] = s->last[i] = 0;
}

/* The body that carries a true atom is the first of its bodies that holds. */
static span carrier(story *s, uint32_t atom)
{
    uint32_t count;
    const trace_step *steps = trace_value(s, atom, &count);
    span at = place_of(s->c->l, &steps[0]);
    for (uint32_t i = 0; i < count; i++) s->first[i] = s->last[i] = 0;
    return at;
}

void conflict_tell(conflict_teller *s, const logic_group *group, uint32_t a, uint32_t b,
                   faults *list)
{
    arena_mark mark = arena_here(s->scratch);
    const logic_atom *atoms = s->c->l->source.atoms;
    set_truths(s);
    str answers = answers_text(s->scratch, s->c);
    fault *f = fault_add(list, FAULT_VALUES_CLASH, carrier(s, a),
                         "\"%.*s\" and \"%.*s\" both hold %.*s, but %.*s can have one value only.",
                         STR_ARG(atoms[a].name), STR_ARG(atoms[b].name), STR_ARG(answers),
                         STR_ARG(group->name));
    fault_help(list, f, "Give one of the rules a condition that keeps it from holding then.");
    note_value(s, a, f, list);
    note_value(s, b, f, list);
    arena_back_to(s->scratch, mark);
}

void conflict_tell_undecided(const logic *l, const logic_group *group, uint32_t a, uint32_t b,
                             uint64_t others, faults *list)
{
    const logic_atom *x = &l->source.atoms[a], *y = &l->source.atoms[b];
    fault *f = fault_add(list, FAULT_CLASH_UNDECIDED, x->at,
                         "Whether \"%.*s\" and \"%.*s\" can hold at once was not decided: too many "
                         "answers play a part.",
                         STR_ARG(x->name), STR_ARG(y->name));
    if (others > 0)
        fault_note_at(list, f, y->at, "and %llu more pairs of values of %.*s",
                      (unsigned long long)others, STR_ARG(group->name));
    else
        fault_note_at(list, f, y->at, "the other value of %.*s", STR_ARG(group->name));
    fault_help(list, f,
               "Let both sets of rules ask for one answer in common, so that it is plain which of "
               "them applies.");
}
