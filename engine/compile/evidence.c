#include <assert.h>

#include "compile/program_parts.h"

/* Where a reading's usual range reaches over several states, the one with the most of the range is the usual one. */
static uint32_t usual_state(const program *p, uint32_t question)
{
    const struct question *q = &p->book->questions[question];
    if (!q->has_usual) return NO_STATE;
    if (q->kind == QUESTION_CHOICE) return q->usual_answer;
    return program_state_of(p, question, (q->usual_low + q->usual_high) / 2);
}

static const net_finding *net_findings(arena *keep, const program *p)
{
    net_finding *all = ARENA_ARRAY(keep, net_finding, p->book->question_count);
    for (uint32_t i = 0; i < p->book->question_count; i++) {
        const struct question *q = &p->book->questions[i];
        all[i] = (net_finding){q->id.name, program_states(p, i), usual_state(p, i), q->read_right, q->about != ABOUT_FAULT};
    }
    return all;
}

static const net_rate *net_rates(arena *keep, const rate *rates, uint32_t count)
{
    net_rate *all = ARENA_ARRAY(keep, net_rate, count);
    for (uint32_t i = 0; i < count; i++) all[i] = (net_rate){rates[i].cause, rates[i].chance};
    return all;
}

static const net_symptom *net_symptoms(arena *keep, const program *p)
{
    net_symptom *all = ARENA_ARRAY(keep, net_symptom, p->book->symptom_count);
    for (uint32_t i = 0; i < p->book->symptom_count; i++) {
        const struct symptom *s = &p->book->symptoms[i];
        all[i] = (net_symptom){s->id.name, s->id.at, program_expanded(keep, p, s->when), s->otherwise,
                               net_rates(keep, s->shown_by, s->shown_by_count), s->shown_by_count};
    }
    return all;
}

static void add_causes(arena *keep, const rulebook *b, net_input *in)
{
    str *names = ARENA_ARRAY(keep, str, b->cause_count);
    double *weights = ARENA_ARRAY(keep, double, b->cause_count);
    uint32_t pairs = 0;
    for (uint32_t c = 0; c < b->cause_count; c++) {
        names[c] = b->causes[c].id.name;
        weights[c] = b->causes[c].how_often;
        pairs += b->causes[c].never_with.count;
    }
    net_pair *never = ARENA_ARRAY(keep, net_pair, pairs);
    for (uint32_t c = 0; c < b->cause_count; c++)
        for (uint32_t i = 0; i < b->causes[c].never_with.count; i++) {
            uint32_t other = b->causes[c].never_with.items[i];
            never[in->never_with_count++] = c < other ? (net_pair){c, other} : (net_pair){other, c};
        }
    in->cause_names = names;
    in->weights = weights;
    in->cause_count = b->cause_count;
    in->never_with = never;
}

const net_input *program_evidence(arena *keep, arena *scratch, program *p, faults *list)
{
    (void)scratch;
    (void)list;
    net_input *in = ARENA_NEW(keep, net_input);
    *in = (net_input){.findings = net_findings(keep, p), .finding_count = p->book->question_count,
                      .symptoms = net_symptoms(keep, p), .symptom_count = p->book->symptom_count,
                      .not_listed = p->book->not_listed, .two_faults = p->book->two_faults};
    add_causes(keep, p->book, in);
    return in;
}

static void mark(void *context, const cond *c)
{
    bool *used = context;
    if (c->kind == COND_ANSWER || c->kind == COND_RANGE || c->kind == COND_KNOWN) used[c->subject] = true;
}

static void add_cures(arena *keep, program *p)
{
    const net_rate **cures = ARENA_ARRAY(keep, const net_rate *, p->book->fix_count);
    for (uint32_t f = 0; f < p->book->fix_count; f++)
        cures[f] = net_rates(keep, p->book->fixes[f].cures, p->book->fixes[f].cures_count);
    p->cures = cures;
}

void program_mark_use(arena *keep, program *p)
{
    bool *evidence = ARENA_ARRAY(keep, bool, p->book->question_count), *used = ARENA_ARRAY(keep, bool, p->book->question_count);
    for (uint32_t q = 0; q < p->book->question_count; q++) evidence[q] = p->evidence->component_of[q] != NO_COMPONENT;
    program_each_condition(p->book, mark, used);
    const expr **when = ARENA_ARRAY(keep, const expr *, p->book->question_count);
    for (uint32_t q = 0; q < p->book->question_count; q++)
        if (p->book->questions[q].only_when != NULL) when[q] = program_expanded(keep, p, p->book->questions[q].only_when);
    p->is_evidence = evidence;
    p->is_used = used;
    p->ask_when = when;
    add_cures(keep, p);
}
