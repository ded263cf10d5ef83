/* What the tables of causes against evidence are built from: findings, symptoms, shares, cures. */
#include <assert.h>

#include "compile/program_parts.h"

/* Where a reading's usual range reaches over several states, the one with the most of the range is
 * the usual one. */
static uint32_t usual_state(const program *p, uint32_t question)
{
    const struct question *q = &p->book->questions[question];
    if (!q->has_usual) return NO_STATE;
    if (q->kind == QUESTION_CHOICE) return q->usual_answer;
    assert(q->usual_low <= q->usual_high);
    return program_state_of(p, question, (q->usual_low + q->usual_high) / 2);
}

/* An instrument once, however many readings beneath a quantity are taken with it. */
static void add_source(uint32_t *sources, net_finding *f, uint32_t instrument)
{
    bool has = instrument == NO_ID || f->source_count == SOURCES_MAX;
    for (uint32_t i = 0; i < f->source_count && !has; i++) has = sources[i] == instrument;
    if (!has) sources[f->source_count++] = instrument;
}

static void add_sources(arena *keep, const book *b, const struct question *q, net_finding *f)
{
    uint32_t *sources = ARENA_ARRAY(keep, uint32_t, SOURCES_MAX);
    add_source(sources, f, q->instrument);
    for (uint32_t i = 0; q->kind == QUESTION_QUANTITY && i < q->beneath.count; i++)
        add_source(sources, f, b->questions[q->beneath.items[i]].instrument);
    f->sources = sources;
}

static const net_source *net_sources(arena *keep, const book *b)
{
    net_source *all = ARENA_ARRAY(keep, net_source, b->instrument_count);
    for (uint32_t i = 0; i < b->instrument_count; i++)
        all[i] = (net_source){b->instruments[i].wrong, b->instruments[i].own};
    return all;
}

static void mark_settling(net_finding *all, const book *b)
{
    for (uint32_t i = 0; i < b->symptom_count; i++) {
        const struct symptom *s = &b->symptoms[i];
        if (!s->from_confirms || s->when == NULL) continue;
        assert(s->rests_on_one && s->one_answer < all[s->one_question].states);
        all[s->one_question].settling |= (state_mask)1 << s->one_answer;
    }
}

static const net_finding *net_findings(arena *keep, const program *p)
{
    net_finding *all = ARENA_ARRAY(keep, net_finding, p->book->question_count);
    for (uint32_t i = 0; i < p->book->question_count; i++) {
        const struct question *q = &p->book->questions[i];
        all[i] = (net_finding){.name = q->id.name,
                               .states = program_states(p, i),
                               .usual = usual_state(p, i),
                               .right = q->read_right,
                               .toward = q->wrongly_confirmed,
                               .fact = q->about != ABOUT_FAULT};
        add_sources(keep, p->book, q, &all[i]);
    }
    mark_settling(all, p->book);
    return all;
}

/* An answer is one look. Where a sign comes and goes, most looks may miss it: then "not now" tells
 * little, and what a look that finds it tells is what finding it has over the other causes. */
static const net_rate *seen_rates(arena *keep, const struct symptom *s)
{
    net_rate *all = ARENA_ARRAY(keep, net_rate, s->shown_by_count);
    for (uint32_t i = 0; i < s->shown_by_count; i++)
        all[i] = (net_rate){s->shown_by[i].cause, rate_seen(&s->shown_by[i])};
    return all;
}

static void tell_too_long(const struct symptom *s, faults *list)
{
    fault *f = fault_add(
        list, FAULT_SYMPTOM_TOO_LONG, s->when->at,
        "The symptom '%.*s' rests on rules that rest on rules, more than %d conditions in all.",
        STR_ARG(s->id.name), EXPANDED_PARTS_MAX);
    fault_help(list, f, "Let the symptom rest on the questions themselves.");
}

/* Null if one of them rests on too much. */
static const net_symptom *net_symptoms(arena *keep, const program *p, faults *list)
{
    net_symptom *all = ARENA_ARRAY(keep, net_symptom, p->book->symptom_count);
    expander *x = program_expander(keep, p);
    bool fit = true;
    for (uint32_t i = 0; i < p->book->symptom_count; i++) {
        const struct symptom *s = &p->book->symptoms[i];
        all[i] = (net_symptom){.name = s->id.name,
                               .at = s->id.at,
                               .when = program_expanded(x, s->when),
                               .confirms = s->from_confirms,
                               .otherwise = s->otherwise,
                               .listed = seen_rates(keep, s),
                               .listed_count = s->shown_by_count};
        if (all[i].when == NULL) tell_too_long(s, list);
        fit &= all[i].when != NULL;
    }
    return fit ? all : NULL;
}

static void add_causes(arena *keep, const book *b, net_input *in)
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
            assert(other < b->cause_count && other != c);
            never[in->never_with_count++] = c < other ? (net_pair){c, other} : (net_pair){other, c};
        }
    in->cause_names = names;
    in->weights = weights;
    in->cause_count = b->cause_count;
    in->never_with = never;
}

net_input *program_evidence(arena *keep, const program *p, faults *list)
{
    net_input *in = ARENA_NEW(keep, net_input);
    *in = (net_input){.at = p->book->manifest_at,
                      .findings = net_findings(keep, p),
                      .finding_count = p->book->question_count,
                      .sources = net_sources(keep, p->book),
                      .source_count = p->book->instrument_count,
                      .symptoms = net_symptoms(keep, p, list),
                      .symptom_count = p->book->symptom_count,
                      .answers_count = p->book->answers_count,
                      .not_listed = p->book->not_listed,
                      .two_faults = p->book->two_faults};
    add_causes(keep, p->book, in);
    return in->symptoms == NULL ? NULL : in;
}

/* What a try of it cures: the author's chance is of a fix that was done rightly. */
static const net_rate *cures_of_a_try(arena *keep, const struct fix *f)
{
    net_rate *all = ARENA_ARRAY(keep, net_rate, f->cures_count);
    assert(f->done_wrongly >= 0 && f->done_wrongly < 1);
    for (uint32_t i = 0; i < f->cures_count; i++)
        all[i] = (net_rate){f->cures[i].cause, f->cures[i].chance * (1 - f->done_wrongly)};
    return all;
}

static void add_cures(arena *keep, program *p)
{
    const net_rate **cures = ARENA_ARRAY(keep, const net_rate *, p->book->fix_count);
    for (uint32_t f = 0; f < p->book->fix_count; f++)
        cures[f] = cures_of_a_try(keep, &p->book->fixes[f]);
    p->cures = cures;
}

static void mark_named(void *context, uint32_t finding)
{
    ((bool *)context)[finding] = true;
}

/* What stands in a symptom has a table; facts don't, tables depend on them. */
void program_mark_use(arena *keep, program *p, const net_input *in)
{
    bool *evidence = ARENA_ARRAY(keep, bool, p->book->question_count);
    for (uint32_t s = 0; s < in->symptom_count; s++)
        expr_each_finding(in->symptoms[s].when, mark_named, evidence);
    for (uint32_t q = 0; q < p->book->question_count; q++) evidence[q] &= !in->findings[q].fact;
    p->is_evidence = evidence;
    add_cures(keep, p);
}
