/* The public face of learning: cases are counted for the numbers of the book's files. */
#include "learn/learning.h"

#include <assert.h>
#include <math.h>
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

static bool is_listed(const component *g, uint32_t cause)
{
    for (uint32_t i = 0; i < g->listed_count; i++)
        if (g->listed[i] == cause) return true;
    return false;
}

static const rate *rate_of(const struct symptom *s, uint32_t cause)
{
    for (uint32_t i = 0; i < s->shown_by_count; i++)
        if (s->shown_by[i].cause == cause) return &s->shown_by[i];
    return NULL;
}

/* The number that a symptom has for a cause: its own, or what it has otherwise; or null. */
static number *number_for(tt_learning *l, const struct symptom *s, const component *g,
                          uint32_t cause)
{
    const rate *r = rate_of(s, cause);
    if (r != NULL)
        return r->said.file != NO_FILE ? learning_number_at(l, TT_SHOWN_BY, r->said) : NULL;
    return is_listed(g, cause) ? NULL : learning_number_at(l, TT_OTHERWISE, s->id.at);
}

/* The row in which such a cause stands. A piece of equipment that has signs which its like have
 * not has other atoms, and is left out. */
static learn_row *row_for(tt_learning *l, const book *b, const component *g, uint32_t cause)
{
    for (uint32_t i = 0; i < g->symptom_count; i++) {
        const number *n = number_for(l, &b->symptoms[g->symptoms[i]], g, cause);
        if (n != NULL) return n->row->atoms == g->atom_count ? n->row : NULL;
    }
    return NULL;
}

/* What was answered in the row of what was wrong; null if nothing was, or there is no such row. */
static learn_row *count_answer(tt_learning *l, const tt_case *c, const component *g, uint32_t cause,
                               learn_end end)
{
    const net *n = c->book->prog->evidence;
    if (g->finding_count != 1 || g->slice_count > 0 || c->now.weights[g->findings[0]] == NULL)
        return NULL;
    learn_row *r = row_for(l, c->book->book, g, cause);
    if (r != NULL) learn_row_add(l->keep, r, n, g, c->now.weights[g->findings[0]], end);
    return r;
}

static void count_looks(tt_learning *l, const tt_case *c, const component *g, uint32_t cause,
                        learn_end end)
{
    const net *n = c->book->prog->evidence;
    const evidence seen = case_evidence(c);
    sighting one;
    const looks all = looks_at(n, &seen, g->findings[0], &one);
    for (uint32_t i = 0; i < g->symptom_count; i++) {
        const number *its = number_for(l, &c->book->book->symptoms[g->symptoms[i]], g, cause);
        if (its != NULL && its->passing != NULL)
            learn_passing_add(l->keep, its->passing, n, g, all, end);
    }
}

static void count_answers(tt_learning *l, const tt_case *c, uint32_t cause, learn_end end)
{
    const net *n = c->book->prog->evidence;
    const evidence seen = case_evidence(c);
    learn_row **rows = ARENA_ARRAY(l->scratch, learn_row *, n->component_count);
    for (uint32_t g = 0; g < n->component_count; g++) {
        rows[g] = count_answer(l, c, &n->components[g], cause, end);
        if (rows[g] != NULL) count_looks(l, c, &n->components[g], cause, end);
    }
    learn_misled_add(l->keep, l->scratch, l->misled, n, &seen, rows, end);
}

/* By the place of its entry. Causes stand in the same order at every site, so the next is mostly
 * the one looked for. */
uint32_t learning_entry_at(const tt_learning *l, span key, uint32_t near)
{
    for (uint32_t i = 0; i < l->cause_entries; i++) {
        uint32_t at = (near + i) % l->cause_entries;
        const span *own = &l->numbers[at].key;
        if (own->file == key.file && own->start == key.start) return at;
    }
    return NO_ID;
}

/* How much likelier than the author says each entry was in this case: by rules in force, by the
 * pieces that it was about, by the pieces there are, and by what was cured at the site before. */
static double *factors_in(tt_learning *l, const tt_case *c)
{
    const book *b = c->book->book;
    double *factor = ARENA_ARRAY(l->scratch, double, l->cause_entries);
    for (uint32_t i = 0, at = 0; i < b->cause_count; i++) {
        at = learning_entry_at(l, b->causes[i].id.at, at);
        if (at == NO_ID) return NULL;
        factor[at] += b->causes[i].how_often * c->now.factor[i];
    }
    for (uint32_t i = 0; i < l->cause_entries; i++) factor[i] /= l->numbers[i].weight;
    return factor;
}

/* Of tries that would have cured it, done rightly: it was gone, or it was not. Of two under one
 * lockout it is not known which was done how. */
static void count_tries(tt_learning *l, const tt_case *c, uint32_t cause, learn_end end)
{
    const book *b = c->book->book;
    for (uint32_t f = 0; f < b->fix_count; f++) {
        const tt_outcome outcome = c->now.outcomes[f];
        if (!c->now.tried[f] || c->now.with[f] != NO_ID || outcome == TT_COULD_NOT ||
            outcome == TT_BETTER)
            continue;
        for (uint32_t i = 0; i < b->fixes[f].cures_count; i++) {
            const rate *cures = &b->fixes[f].cures[i];
            if (cures->cause != cause || cures->chance <= 0) continue;
            const bool gone = outcome == TT_GONE;
            const number *n = learning_number_at(l, TT_DONE_WRONGLY, b->fixes[f].done_wrongly_said);
            if (n == NULL) n = l->done_wrongly;
            learn_row_saw(l->keep, n->row,
                          (const double[]){gone ? 0 : 1, gone ? cures->chance : 1 - cures->chance},
                          end);
        }
    }
}

bool learning_is_about(const tt_learning *l, const tt_book *other)
{
    const sources *ours = &l->book->files, *theirs = &other->files;
    if (theirs->count < ours->count) return false;
    for (uint32_t i = 0; i < ours->count; i++)
        if (!str_eq(ours->items[i].name, theirs->items[i].name) ||
            !str_eq(ours->items[i].bytes, theirs->items[i].bytes))
            return false;
    return true;
}

/* Causes that were ruled out take no part; if what was confirmed is one of them, the case says
 * nothing here. */
static void note_verdict(tt_learning *l, const tt_case *c, uint32_t cause, learn_end end)
{
    const belief *b = c->now.single;
    const double *chance = belief_posterior(b), power = c->book->book->answers_count;
    const uint32_t most = c->book->book->cause_count + 1;
    if (!(chance[1 + cause] > 0)) return;
    double *before = ARENA_ARRAY(l->keep, double, most), *says = ARENA_ARRAY(l->keep, double, most);
    learn_verdict *v = ARENA_NEW(l->keep, learn_verdict);
    *v = (learn_verdict){.before = before, .says = says, .end = end, .next = l->verdicts};
    for (uint32_t h = 0; h < most; h++) {
        if (!(chance[h] > 0)) continue;
        if (h == 1 + cause) v->truth = v->count;
        says[v->count] = belief_log_says(b, h);
        before[v->count] = log(chance[h]) - power * says[v->count];
        v->count++;
    }
    l->verdicts = v;
}

typedef struct adding {
    tt_learning *l;
    tt_case *c;
    const char *cause;
    learn_end end;
} adding;

/* A cause that rules had ruled out says nothing of how often it is met where they don't. */
static tt_status add(void *context)
{
    const adding *a = context;
    tt_learning *l = a->l;
    const book *b = a->c->book->book;
    uint32_t cause = book_cause(b, str_of(a->cause));
    if (cause == NO_ID || !learning_is_about(l, a->c->book)) return TT_FAULTY;
    if (a->c->now.any_better || (a->end == LEARN_CURED && !a->c->now.closed)) return TT_NOT_NOW;
    arena_back_to(l->scratch, (arena_mark){NULL, 0});
    uint32_t entry = learning_entry_at(l, b->causes[cause].id.at, 0);
    const double *factor = factors_in(l, a->c);
    if (entry == NO_ID || factor == NULL) return TT_FAULTY;
    if (factor[entry] > 0) learn_shares_add(l->keep, l->shares, factor, entry, a->end);
    count_tries(l, a->c, cause, a->end);
    note_verdict(l, a->c, cause, a->end);
    l->cases++;
    l->confirmed[a->end]++;
    l->ended[a->end]++;
    count_answers(l, a->c, cause, a->end);
    return TT_OK;
}

/* What comes next in the case doesn't matter here, and what two faults together would say isn't
 * read: they take most of the time. */
tt_status tt_learning_add(tt_learning *l, tt_case *c, const char *cause, bool handed_over)
{
    adding a = {l, c, cause, handed_over ? LEARN_HANDED_OVER : LEARN_CURED};
    belief *const pairs = c->pairs;
    const bool alone = pairs != NULL && !c->stands;
    if (alone) c->pairs = NULL;
    tt_status status = case_stood(c);
    if (status == TT_OK) status = guarded_learning(l, add, &a);
    if (!alone) return status;
    c->pairs = pairs;
    case_changed(c); /* it stood for this alone */
    return status;
}

void tt_learning_unconfirmed(tt_learning *l, bool handed_over)
{
    l->ended[handed_over ? LEARN_HANDED_OVER : LEARN_CURED]++;
}

/* ---- what comes out ---- */

/* Nobody said that a sign comes and goes: then the looks have to say so clearly. */
bool learned_passing(const learn_passing *p)
{
    if (p->of <= 0) return false;
    if (p->strength <= 0) return p->high < p->written;
    return fabs(p->mean - p->written) >= (p->high - p->low) / 10;
}

/* From how often a look shows it to how often it is there at all, which is what the author writes.
 */
static void see_past_looks(number *n)
{
    double *const all[] = {&n->count.mean, &n->is.mean, &n->is.low, &n->is.high};
    assert(n->looks > 0 && n->looks <= 1);
    const double looks =
        n->passing != NULL && learned_passing(n->passing) ? n->passing->mean : n->looks;
    if (n->looks < 1) n->count.written = fmin(1, n->count.written / n->looks);
    for (size_t i = 0; i < sizeof all / sizeof *all && looks < 1; i++)
        *all[i] = fmin(1, *all[i] / looks);
}

static void settle_passing(tt_learning *l)
{
    for (uint32_t i = l->cause_entries; i < l->number_count; i++) {
        number *n = &l->numbers[i];
        if (n->kind != TT_COMES_AND_GOES) continue;
        const learn_passing *p = n->passing;
        n->count =
            (learn_count){.written = p->written, .mean = p->mean, .cases = p->shown, .of = p->of};
        n->is = (learn_belief){p->mean, p->low, p->high};
    }
}

static double spread_of(const learn_count *c)
{
    static const double least = 1e-6;
    return fmax(least, sqrt(c->mean * (1 - c->mean) / c->worth));
}

static void settle_chances(tt_learning *l)
{
    for (learn_row *r = l->rows; r != NULL; r = r->next) learn_row_fit(l->scratch, r, &l->each);
    for (uint32_t i = l->cause_entries; i < l->number_count; i++) {
        number *n = &l->numbers[i];
        arena_back_to(l->scratch, (arena_mark){NULL, 0});
        if (n->row == NULL) continue;
        n->count = learn_row_count(l->scratch, n->row, &l->each, n->inside);
        if (n->passing != NULL) learn_passing_fit(n->passing, &l->each, spread_of(&n->count));
        n->is = learn_belief_of(n->count.mean, n->count.worth);
        see_past_looks(n);
    }
}

static void settle_shares(tt_learning *l)
{
    const learn_shares *s = l->shares;
    learn_shares_fit(l->scratch, l->shares, &l->each);
    double sum = 0;
    for (uint32_t i = 0; i < l->cause_entries; i++) sum += s->weight[i];
    for (uint32_t i = 0; i < l->cause_entries; i++) {
        uint32_t cases = s->confirmed[LEARN_CURED][i] + s->confirmed[LEARN_HANDED_OVER][i];
        l->numbers[i].count = (learn_count){.written = s->written[i] / l->weights,
                                            .mean = s->weight[i] / sum,
                                            .cases = cases,
                                            .of = l->cases,
                                            .worth = s->worth[i]};
        l->numbers[i].is = learn_belief_of(l->numbers[i].count.mean, s->worth[i]);
    }
}

static void settle_returns(tt_learning *l)
{
    double *share = ARENA_ARRAY(l->scratch, double, l->cause_entries);
    for (uint32_t i = 0; i < l->cause_entries; i++) share[i] = l->numbers[i].weight / l->weights;
    learn_returns_fit(l->scratch, l->returning, l->returning_count, l->sites, share,
                      l->cause_entries);
    for (uint32_t i = l->cause_entries; i < l->number_count; i++) {
        number *n = &l->numbers[i];
        if (n->kind != TT_COMES_BACK) continue;
        const learn_returning *r = &l->returning[n->returning];
        n->count = (learn_count){r->written, r->mean, r->back, r->cures + r->surely, r->worth};
        n->is = learn_belief_of(r->mean, r->worth);
    }
}

static void settle_misled(tt_learning *l)
{
    learn_misled_fit(l->scratch, l->misled, &l->each);
    for (uint32_t i = l->cause_entries; i < l->number_count; i++) {
        number *n = &l->numbers[i];
        if (n->kind != TT_MISLEADS) continue;
        const learn_instrument *x = &l->misled->all[n->instrument];
        n->count = (learn_count){
            .written = x->written, .mean = x->mean, .cases = x->misled, .of = x->uses};
        n->is = (learn_belief){x->mean, x->low, x->high};
    }
}

static void settle_reliance(tt_learning *l)
{
    number *n = &l->numbers[l->number_count - 1];
    const double written = l->book->book->answers_count;
    const learn_reliance r = learn_reliance_fit(l->verdicts, &l->each, written);
    double cases = 0;
    assert(n->kind == TT_ANSWERS_COUNT);
    for (const learn_verdict *v = l->verdicts; v != NULL; v = v->next) cases++;
    n->count = (learn_count){.written = written, .mean = r.power, .cases = cases, .of = cases};
    n->is = (learn_belief){r.power, r.low, r.high};
}

void learning_settle(tt_learning *l)
{
    arena_back_to(l->scratch, (arena_mark){NULL, 0});
    l->each = learn_weights_of(l->confirmed, l->ended);
    settle_shares(l);
    settle_returns(l);
    settle_chances(l);
    settle_passing(l);
    settle_misled(l); /* by the chances just learned */
    settle_reliance(l);
}
