/* Which numbers of the book's files can be learned, and where each stands. */
#include <assert.h>

#include "learn/learning.h"

number *learning_number_at(tt_learning *l, tt_learned_kind kind, span key)
{
    for (uint32_t i = 0; i < l->number_count; i++) {
        number *n = &l->numbers[i];
        if (n->kind == kind && n->key.file == key.file && n->key.start == key.start) return n;
    }
    return NULL;
}

static number *new_number(tt_learning *l, tt_learned_kind kind, span key, const node *body)
{
    if (learning_number_at(l, kind, key) != NULL) return NULL;
    number *n = &l->numbers[l->number_count++];
    *n = (number){.kind = kind,
                  .key = key,
                  .said = span_nowhere(),
                  .body = body,
                  .symptom = NO_ID,
                  .looks = 1,
                  .cause = NO_ID,
                  .fix = NO_ID,
                  .instrument = NO_ID};
    return n;
}

static void find_causes(tt_learning *l)
{
    const book *b = l->book->book;
    for (uint32_t i = 0; i < b->cause_count; i++) {
        number *n = new_number(l, TT_HOW_OFTEN, b->causes[i].id.at, b->causes[i].body);
        l->weights += b->causes[i].how_often;
        if (n == NULL) {
            learning_number_at(l, TT_HOW_OFTEN, b->causes[i].id.at)->weight +=
                b->causes[i].how_often;
            continue;
        }
        n->cause = i;
        n->said = b->causes[i].often_said;
        n->weight = b->causes[i].how_often;
    }
    assert(l->number_count == 0 || l->weights > 0);
    l->cause_entries = l->number_count;
    double *written = ARENA_ARRAY(l->keep, double, l->cause_entries);
    for (uint32_t i = 0; i < l->cause_entries; i++) written[i] = l->numbers[i].weight;
    l->shares = learn_shares_new(l->keep, written, l->cause_entries);
}

/* The atoms of a component with one finding in which a symptom is shown. */
static const bool *atoms_of(tt_learning *l, const component *g, uint32_t symptom)
{
    const net *n = l->book->prog->evidence;
    assert(g->finding_count == 1);
    uint32_t *state = ARENA_ARRAY(l->scratch, uint32_t, n->in.finding_count);
    bool *inside = ARENA_ARRAY(l->keep, bool, g->atom_count);
    for (uint32_t x = 0; x < g->cell_count; x++) {
        state[g->findings[0]] = x;
        inside[g->cell_atom[x]] = expr_holds(n->in.symptoms[symptom].when, state);
    }
    return inside;
}

/* The numbers of one row share it: another symptom of its component has made it already, or none
 * has. */
static learn_row *row_of(tt_learning *l, const component *g, uint32_t cause)
{
    const bool base = cause == NO_ID;
    for (uint32_t i = l->cause_entries; i < l->number_count; i++) {
        const number *n = &l->numbers[i];
        const bool same =
            base ? n->kind == TT_OTHERWISE : n->kind == TT_SHOWN_BY && n->cause == cause;
        if (!same || n->row == NULL) continue;
        for (uint32_t k = 0; k < g->symptom_count; k++)
            if (g->symptoms[k] == n->symptom) return n->row;
    }
    learn_row *r = learn_row_new(l->keep, base ? g->base : component_row(g, cause), g->atom_count,
                                 base ? LEARN_BASE_COUNTS : LEARN_ROW_COUNTS);
    r->next = l->rows;
    return l->rows = r;
}

static learn_passing *passing_of(tt_learning *l, const number *n, const rate *r)
{
    learn_passing *p = ARENA_NEW(l->keep, learn_passing);
    *p = (learn_passing){.row = n->row,
                         .inside = n->inside,
                         .written = r->looks,
                         .strength = r->looks_said.file != NO_FILE ? LEARN_ROW_COUNTS : 0};
    return p;
}

static void find_rates(tt_learning *l, const component *g, uint32_t symptom)
{
    const struct symptom *s = &l->book->book->symptoms[symptom];
    for (uint32_t i = 0; i < s->shown_by_count; i++) {
        const rate *r = &s->shown_by[i];
        number *n = r->said.file != NO_FILE ? new_number(l, TT_SHOWN_BY, r->said, s->body) : NULL;
        if (n == NULL) continue;
        n->said = r->said;
        n->symptom = symptom;
        n->cause = r->cause;
        n->looks = r->looks;
        n->row = row_of(l, g, r->cause);
        n->inside = atoms_of(l, g, symptom);
        n->passing = passing_of(l, n, r);
    }
}

static void find_otherwise(tt_learning *l, const component *g, uint32_t symptom)
{
    const struct symptom *s = &l->book->book->symptoms[symptom];
    number *n = s->from_confirms ? NULL : new_number(l, TT_OTHERWISE, s->id.at, s->body);
    if (n == NULL) return;
    n->said = s->otherwise_said;
    n->symptom = symptom;
    n->row = row_of(l, g, NO_ID);
    n->inside = atoms_of(l, g, symptom);
}

/* Compound components are not learned: what one answer of several says of the rest is the engine's
 * own fit. */
static void find_chances(tt_learning *l,
                         void (*find)(tt_learning *l, const component *g, uint32_t symptom))
{
    const net *n = l->book->prog->evidence;
    for (uint32_t s = 0; s < n->in.symptom_count; s++)
        for (uint32_t i = 0; i < n->component_count; i++) {
            const component *g = &n->components[i];
            for (uint32_t k = 0;
                 g->finding_count == 1 && g->slice_count == 0 && k < g->symptom_count; k++)
                if (g->symptoms[k] == s) find(l, g, s);
        }
}

/* Beside each chance that has them, in the same order. */
static void find_passing(tt_learning *l)
{
    const uint32_t before = l->number_count;
    for (uint32_t i = l->cause_entries; i < before; i++) {
        const number shown = l->numbers[i];
        if (shown.passing == NULL) continue;
        const struct symptom *s = &l->book->book->symptoms[shown.symptom];
        number *n = new_number(l, TT_COMES_AND_GOES, shown.key, shown.body);
        assert(n != NULL);
        n->symptom = shown.symptom;
        n->cause = shown.cause;
        n->passing = shown.passing;
        for (uint32_t k = 0; k < s->shown_by_count; k++)
            if (s->shown_by[k].cause == n->cause) n->rate = &s->shown_by[k];
        n->said = n->rate->looks_said;
    }
}

/* A number of the whole book: where it is said, or the section that could say it. */
static number *number_of_book(tt_learning *l, tt_learned_kind kind, span said)
{
    const book *b = l->book->book;
    number *n = new_number(l, kind, said.file != NO_FILE ? said : b->manifest->at, b->manifest);
    assert(n != NULL);
    n->said = said;
    return n;
}

/* A try was done wrongly, or it was not. */
static void done_wrongly_row(tt_learning *l, number *n, double written, double strength)
{
    static const bool wrongly[] = {true, false};
    static const double least = 1e-6; /* what can't be, no case could teach */
    const double chance = written > least ? written : least;
    n->inside = wrongly;
    n->row = learn_row_new(l->keep, (const double[]){chance, 1 - chance}, 2, strength);
    n->row->next = l->rows;
    l->rows = n->row;
}

static void find_done_wrongly(tt_learning *l)
{
    const book *b = l->book->book;
    l->done_wrongly = number_of_book(l, TT_DONE_WRONGLY, b->done_wrongly_said);
    done_wrongly_row(l, l->done_wrongly, b->done_wrongly, LEARN_BASE_COUNTS);
    for (uint32_t f = 0; f < b->fix_count; f++) {
        const span said = b->fixes[f].done_wrongly_said;
        number *n = said.file != NO_FILE ? new_number(l, TT_DONE_WRONGLY, said, NULL) : NULL;
        if (n == NULL) continue;
        n->said = said;
        n->fix = f;
        done_wrongly_row(l, n, b->fixes[f].done_wrongly, LEARN_ROW_COUNTS);
    }
}

static uint32_t new_returning(tt_learning *l, double written, double strength)
{
    l->returning[l->returning_count] = (learn_returning){.written = written, .strength = strength};
    return l->returning_count++;
}

static void find_comes_back(tt_learning *l)
{
    const book *b = l->book->book;
    l->returning = ARENA_ARRAY(l->keep, learn_returning, (size_t)b->cause_count + 1);
    l->comes_back = number_of_book(l, TT_COMES_BACK, b->comes_back_said);
    l->comes_back->returning = new_returning(l, b->comes_back, LEARN_BASE_COUNTS);
    for (uint32_t c = 0; c < b->cause_count; c++) {
        const span said = b->causes[c].comes_back_said;
        number *n = said.file != NO_FILE ? new_number(l, TT_COMES_BACK, said, NULL) : NULL;
        if (n == NULL) continue;
        n->said = said;
        n->cause = c;
        n->returning = new_returning(l, b->causes[c].comes_back, LEARN_ROW_COUNTS);
    }
}

/* Where nobody says how often one is wrong it never is, and that no case could teach. */
static void find_misled(tt_learning *l)
{
    const book *b = l->book->book;
    const net_input *in = &l->book->prog->evidence->in;
    l->misled = learn_misled_new(l->keep, in->sources, in->source_count);
    assert(b->instrument_count == in->source_count);
    for (uint32_t i = 0; i < b->instrument_count; i++) {
        const span said = b->instruments[i].wrong_said;
        number *n = said.file != NO_FILE && b->instruments[i].wrong > 0
                        ? new_number(l, TT_MISLEADS, said, NULL)
                        : NULL;
        if (n == NULL) continue;
        n->said = said;
        n->instrument = i;
    }
}

void learning_find_numbers(tt_learning *l)
{
    const book *b = l->book->book;
    size_t most =
        2 * (size_t)b->cause_count + b->symptom_count + b->fix_count + b->instrument_count + 3;
    for (uint32_t s = 0; s < b->symptom_count; s++)
        most += 2 * (size_t)b->symptoms[s].shown_by_count;
    l->numbers = ARENA_ARRAY(l->keep, number, most);
    find_causes(l);
    find_chances(l, find_rates);
    find_chances(l, find_otherwise);
    find_done_wrongly(l);
    find_comes_back(l);
    find_misled(l);
    find_passing(l);
    number_of_book(l, TT_ANSWERS_COUNT, b->answers_count_said);
    assert(l->number_count <= most);
}
