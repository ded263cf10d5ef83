/* The public face of learning: cases are counted for the numbers of the book's files. */
#include "learn/learning.h"

#include <assert.h>
#include <stdlib.h>

/* ---- beginning and end ---- */

/* By name, as the book has its files. */
static tt_status begin(void *context)
{
    tt_learning *l = context;
    const sources *files = &l->book->files;
    tt_source *all = ARENA_ARRAY(l->keep, tt_source, files->count);
    for (uint32_t i = 0; i < files->count; i++) {
        const source *s = &files->items[i];
        all[i] = (tt_source){cstr(l->keep, s->name), str_copy(l->keep, s->bytes).p, s->bytes.n};
    }
    l->sources = all;
    l->source_count = files->count;
    learning_find_numbers(l);
    return TT_OK;
}

static tt_status guarded_learning(tt_learning *l, tt_status (*work)(void *context), void *context)
{
    return guarded((arena *[]){l->keep, l->shown, l->scratch}, 3, work, context);
}

tt_status tt_learning_new(const tt_source *files, size_t count, tt_learning **out,
                          tt_report **report)
{
    *out = NULL;
    tt_book *b;
    tt_status status = tt_book_load(files, count, &b, report);
    if (status != TT_OK) return status;
    tt_learning *l = calloc(1, sizeof *l);
    if (l == NULL) {
        tt_book_free(b);
        return TT_NO_MEMORY;
    }
    *l = (tt_learning){.keep = arena_new(NULL, NULL),
                       .shown = arena_new(NULL, NULL),
                       .scratch = arena_new(NULL, NULL),
                       .book = b};
    l->warnings = tt_report_warnings(*report);
    bool memory = l->keep != NULL && l->shown != NULL && l->scratch != NULL;
    status = memory ? guarded_learning(l, begin, l) : TT_NO_MEMORY;
    if (status == TT_OK)
        *out = l;
    else
        tt_learning_free(l);
    return status;
}

void tt_learning_free(tt_learning *l)
{
    if (l == NULL) return;
    tt_book_free(l->lesson.book);
    tt_book_free(l->book);
    arena_free(l->keep);
    arena_free(l->shown);
    arena_free(l->scratch);
    free(l);
}

tt_book *tt_learning_book(tt_learning *l)
{
    return l->book;
}

const char *tt_learning_until(const tt_learning *l)
{
    return l->book->book->learned_until.n == 0 ? "" : l->book->book->learned_until.p;
}

/* ---- cases ---- */

static number *number_at(tt_learning *l, tt_learned_kind kind, span key)
{
    for (uint32_t i = 0; i < l->number_count; i++) {
        number *n = &l->numbers[i];
        if (n->kind == kind && n->key.file == key.file && n->key.start == key.start) return n;
    }
    return NULL;
}

static bool is_listed(const component *g, uint32_t cause)
{
    for (uint32_t i = 0; i < g->listed_count; i++)
        if (g->listed[i] == cause) return true;
    return false;
}

/* Chance of a symptom under a distribution over the atoms of its component, which has one finding.
 */
static double shown_chance(arena *scratch, const net *n, const component *g, uint32_t symptom,
                           const double *atoms)
{
    assert(g->finding_count == 1);
    uint32_t *state = ARENA_ARRAY(scratch, uint32_t, n->in.finding_count);
    double chance = 0;
    for (uint32_t a = 0; a < g->atom_count; a++) {
        for (uint32_t x = 0; g->cell_atom[x] != a;) state[g->findings[0]] = ++x;
        if (expr_holds(n->in.symptoms[symptom].when, state)) chance += atoms[a];
        state[g->findings[0]] = 0;
    }
    return chance;
}

static const rate *rate_of(const struct symptom *s, uint32_t cause)
{
    for (uint32_t i = 0; i < s->shown_by_count; i++)
        if (s->shown_by[i].cause == cause) return &s->shown_by[i];
    return NULL;
}

static void count_symptom(tt_learning *l, const struct symptom *s, const component *g,
                          uint32_t cause, double chance)
{
    assert(chance >= 0 && chance <= 1 + 1e-9);
    const rate *r = rate_of(s, cause);
    number *n = NULL;
    if (r != NULL)
        n = r->said.file != NO_FILE ? number_at(l, TT_SHOWN_BY, r->said) : NULL;
    else if (!is_listed(g, cause))
        n = number_at(l, TT_OTHERWISE, s->id.at);
    if (n == NULL) return;
    n->count.yes += chance;
    n->count.of += 1;
}

static void count_answer(tt_learning *l, const tt_case *c, uint32_t component_index, uint32_t cause)
{
    const net *n = c->book->prog->evidence;
    const component *g = &n->components[component_index];
    if (g->finding_count != 1 || c->now.weights[g->findings[0]] == NULL) return;
    double *atoms = ARENA_ARRAY(l->scratch, double, g->atom_count);
    learn_atoms(n, component_index, cause, c->now.weights[g->findings[0]], atoms);
    for (uint32_t i = 0; i < g->symptom_count; i++)
        count_symptom(l, &c->book->book->symptoms[g->symptoms[i]], g, cause,
                      shown_chance(l->scratch, n, g, g->symptoms[i], atoms));
}

static bool is_same_book(const tt_learning *l, const tt_book *other)
{
    const sources *ours = &l->book->files, *theirs = &other->files;
    if (theirs->count < ours->count) return false;
    for (uint32_t i = 0; i < ours->count; i++)
        if (!str_eq(ours->items[i].name, theirs->items[i].name) ||
            !str_eq(ours->items[i].bytes, theirs->items[i].bytes))
            return false;
    return true;
}

typedef struct adding {
    tt_learning *l;
    tt_case *c;
    const char *cause;
} adding;

static tt_status add(void *context)
{
    const adding *a = context;
    tt_learning *l = a->l;
    const book *b = a->c->book->book;
    uint32_t cause = book_cause(b, str_of(a->cause));
    if (cause == NO_ID || !is_same_book(l, a->c->book)) return TT_FAULTY;
    if (!a->c->now.closed || a->c->now.any_better) return TT_NOT_NOW;
    arena_back_to(l->scratch, (arena_mark){NULL, 0});
    number *often = number_at(l, TT_HOW_OFTEN, b->causes[cause].id.at);
    if (often == NULL) return TT_FAULTY;
    often->count.yes += 1;
    l->cases++;
    for (uint32_t g = 0; g < a->c->book->prog->evidence->component_count; g++)
        count_answer(l, a->c, g, cause);
    return TT_OK;
}

static tt_status stand(void *context)
{
    case_stand(context);
    return TT_OK;
}

/* What comes next in the case doesn't matter here, and takes most of the time. */
tt_status tt_learning_add(tt_learning *l, tt_case *c, const char *cause)
{
    tt_status status = c->fresh ? TT_OK : guarded_case(c, stand, c);
    return status == TT_OK ? guarded_learning(l, add, &(adding){l, c, cause}) : status;
}

/* ---- the numbers ---- */

static number *new_number(tt_learning *l, tt_learned_kind kind, span key, const node *body)
{
    if (number_at(l, kind, key) != NULL) return NULL;
    number *n = &l->numbers[l->number_count++];
    *n = (number){.kind = kind,
                  .key = key,
                  .said = span_nowhere(),
                  .body = body,
                  .symptom = NO_ID,
                  .cause = NO_ID};
    return n;
}

static void find_causes(tt_learning *l)
{
    const book *b = l->book->book;
    for (uint32_t i = 0; i < b->cause_count; i++) {
        number *n = new_number(l, TT_HOW_OFTEN, b->causes[i].id.at, b->causes[i].body);
        l->weights += b->causes[i].how_often;
        if (n == NULL) {
            number_at(l, TT_HOW_OFTEN, b->causes[i].id.at)->weight += b->causes[i].how_often;
            continue;
        }
        n->cause = i;
        n->said = b->causes[i].often_said;
        n->weight = b->causes[i].how_often;
    }
    assert(l->number_count == 0 || l->weights > 0);
    l->cause_entries = l->number_count;
    for (uint32_t i = 0; i < l->number_count; i++)
        l->numbers[i].count =
            (learn_count){l->numbers[i].weight / l->weights, LEARN_SHARES_COUNT, 0, 0};
}

static void find_rates(tt_learning *l, const component *g, uint32_t symptom)
{
    const struct symptom *s = &l->book->book->symptoms[symptom];
    for (uint32_t i = 0; i < s->shown_by_count; i++) {
        const rate *r = &s->shown_by[i];
        number *n = r->said.file != NO_FILE ? new_number(l, TT_SHOWN_BY, r->said, s->body) : NULL;
        if (n == NULL) continue;
        double chance = shown_chance(l->scratch, l->book->prog->evidence, g, symptom,
                                     component_row(g, r->cause));
        n->said = r->said;
        n->symptom = symptom;
        n->cause = r->cause;
        n->count = (learn_count){chance, LEARN_ROW_COUNTS, 0, 0};
    }
}

static void find_otherwise(tt_learning *l, const component *g, uint32_t symptom)
{
    const struct symptom *s = &l->book->book->symptoms[symptom];
    number *n = s->from_confirms ? NULL : new_number(l, TT_OTHERWISE, s->id.at, s->body);
    if (n == NULL) return;
    n->said = s->otherwise_said;
    n->symptom = symptom;
    n->count = (learn_count){shown_chance(l->scratch, l->book->prog->evidence, g, symptom, g->base),
                             LEARN_BASE_COUNTS, 0, 0};
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
            for (uint32_t k = 0; g->finding_count == 1 && k < g->symptom_count; k++)
                if (g->symptoms[k] == s) find(l, g, s);
        }
}

void learning_find_numbers(tt_learning *l)
{
    const book *b = l->book->book;
    size_t most = (size_t)b->cause_count + b->symptom_count;
    for (uint32_t s = 0; s < b->symptom_count; s++) most += b->symptoms[s].shown_by_count;
    l->numbers = ARENA_ARRAY(l->keep, number, most);
    find_causes(l);
    find_chances(l, find_rates);
    find_chances(l, find_otherwise);
    assert(l->number_count <= most);
}
