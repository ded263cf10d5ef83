/* Sums over facts that are not told: means of a cause's factors, block by block. */
#include <assert.h>
#include <string.h>

#include "compile/facts_parts.h"

/* ---- what is left of each variable ---- */

/* Whoever told a fact knew that it applies: of the fact that decides this, only such states are
 * left. */
static const state_mask *left_by_children(arena *keep, const facts *f, const facts_told *told)
{
    state_mask *left = ARENA_ARRAY(keep, state_mask, f->variable_count);
    for (uint32_t v = 0; v < f->variable_count; v++) left[v] = f->every[f->variables[v].finding];
    for (uint32_t v = 0; v < f->variable_count; v++) {
        const fact_variable *child = &f->variables[v];
        if (child->parent != NO_VARIABLE && told->known[child->finding])
            left[child->parent] &= child->parent_states;
    }
    return left;
}

static double spread_odds(const fact_variable *v, state_mask left, const double *soft, double *odds)
{
    double sum = 0;
    for (uint32_t s = 0; s < v->states; s++) {
        odds[s] = ((left >> s) & 1) != 0 ? v->weight[s] * (soft == NULL ? 1 : soft[s]) : 0;
        sum += odds[s];
    }
    for (uint32_t s = 0; s < v->states && sum > 0; s++) odds[s] /= sum;
    return sum;
}

void facts_weigh_anew(facts_range *r, uint32_t variable)
{
    const fact_variable *v = &r->f->variables[variable];
    const state_mask told = r->told->possible[v->finding];
    const double *soft = r->told->weights == NULL ? NULL : r->told->weights[v->finding];
    double *odds = r->odds[variable];
    assert(odds != NULL);
    bool any = spread_odds(v, told & r->left[variable], soft, odds) > 0 ||
               spread_odds(v, told, soft, odds) > 0 || spread_odds(v, told, NULL, odds) > 0;
    r->live_count[variable] = 0;
    for (uint32_t s = 0; s < v->states; s++)
        if (odds[s] > 0) r->live[variable][r->live_count[variable]++] = s;
    if (!any) r->odds[variable] = NULL; /* its shares rule out what was told */
}

facts_range facts_range_of(arena *keep, const facts *f, const facts_told *told)
{
    uint32_t **live = ARENA_ARRAY(keep, uint32_t *, f->variable_count);
    facts_range r = {f,
                     told,
                     ARENA_ARRAY(keep, double *, f->variable_count),
                     live,
                     ARENA_ARRAY(keep, uint32_t, f->variable_count),
                     ARENA_ARRAY(keep, uint32_t, f->finding_count),
                     left_by_children(keep, f, told),
                     keep};
    for (uint32_t q = 0; q < f->finding_count; q++) r.state[q] = NO_STATE;
    for (uint32_t v = 0; v < f->variable_count; v++) {
        live[v] = ARENA_ARRAY(keep, uint32_t, f->variables[v].states);
        r.odds[v] = ARENA_ARRAY(keep, double, f->variables[v].states);
        facts_weigh_anew(&r, v);
    }
    return r;
}

/* ---- Kleene's three values of a condition ---- */

static truth truth_of(const facts_range *r, const expr *e);

static truth truth_of_told(const facts_range *r, const expr *e)
{
    const state_mask left = r->told->possible[e->subject];
    if (e->kind == EXPR_KNOWN) return r->told->known[e->subject] ? TRUTH_TRUE : TRUTH_FALSE;
    if ((left & ~e->mask) == 0) return TRUTH_TRUE;
    return (left & e->mask) == 0 ? TRUTH_FALSE : TRUTH_UNKNOWN;
}

/* Whether the fact applies in this combination; where facts wait for each other in a circle, the
 * walk ends. Whoever told it knew that it does. */
static bool applies_here(const facts_range *r, const fact_variable *v)
{
    const expr *applies = r->f->applies[v->finding];
    uint32_t *state = &r->state[v->finding];
    if (applies == NULL || r->told->known[v->finding]) return true;
    if (v->parent != NO_VARIABLE) {
        const fact_variable *parent = &r->f->variables[v->parent];
        const uint32_t at = r->state[parent->finding];
        const state_mask is =
            at == NO_STATE ? r->told->possible[parent->finding] : (state_mask)1 << at;
        return (is & v->parent_states) != 0 && applies_here(r, parent);
    }
    const uint32_t before = *state;
    *state = NO_STATE;
    truth is = truth_of(r, applies);
    *state = before;
    return is != TRUTH_FALSE;
}

/* A fact that doesn't apply is never told, so nothing that reads it is known. */
static truth truth_of_leaf(const facts_range *r, const expr *e)
{
    const uint32_t state = r->state[e->subject];
    if (state == NO_STATE) return truth_of_told(r, e);
    assert(r->f->variable_of[e->subject] != NO_VARIABLE);
    const bool known = e->kind == EXPR_KNOWN;
    if (!applies_here(r, &r->f->variables[r->f->variable_of[e->subject]]))
        return known ? TRUTH_FALSE : TRUTH_UNKNOWN;
    return known || ((e->mask >> state) & 1) != 0 ? TRUTH_TRUE : TRUTH_FALSE;
}

static truth truth_of(const facts_range *r, const expr *e)
{
    uint32_t holding = 0, open = 0, needed = e->number;
    if (e->kind == EXPR_IS || e->kind == EXPR_KNOWN) return truth_of_leaf(r, e);
    assert(e->kind != EXPR_ATOM);
    for (uint32_t i = 0; i < e->count; i++) {
        truth part = truth_of(r, e->parts[i]);
        holding += part == TRUTH_TRUE;
        open += part == TRUTH_UNKNOWN;
    }
    if (e->kind == EXPR_NOT)
        return open > 0 ? TRUTH_UNKNOWN : holding > 0 ? TRUTH_FALSE : TRUTH_TRUE;
    if (e->kind == EXPR_ALL) needed = e->count;
    if (e->kind == EXPR_ANY) needed = 1;
    if (holding >= needed) return TRUTH_TRUE;
    return holding + open < needed ? TRUTH_FALSE : TRUTH_UNKNOWN;
}

/* ---- one combination ---- */

static bool can_be(const facts_range *r, uint32_t cause)
{
    const uint32_t piece = r->f->book->causes[cause].of.piece;
    if (piece != NO_ID && r->told->in_focus != NULL && !r->told->in_focus[piece]) return false;
    const expr *when = r->f->cause_when[cause];
    return when == NULL || truth_of(r, when) != TRUTH_FALSE;
}

/* What is one cause at all pieces of a kind is parted among those where it can be. */
static double part_of(const facts_range *r, uint32_t cause)
{
    uint32_t among = 0, begin = r->f->span_begin[cause], end = r->f->span_end[cause];
    if (!can_be(r, cause)) return 0;
    for (uint32_t c = begin; c < end; c++) among += can_be(r, c);
    assert(among > 0 && among <= end - begin);
    return r->f->book->causes[cause].each ? 1 : (double)(end - begin) / among;
}

static double value_of_term(const facts_range *r, const fact_block *b, const fact_term *t)
{
    if (t->when == NULL) return part_of(r, b->cause);
    return truth_of(r, t->when) == TRUTH_TRUE ? t->factor : 1;
}

static double value_of_terms(const facts_range *r, const fact_block *b, const fact_term *terms,
                             uint32_t count)
{
    double value = 1;
    for (uint32_t t = 0; t < count && value > 0; t++) value *= value_of_term(r, b, &terms[t]);
    return value;
}

/* ---- all combinations ---- */

/* A variable in such a sum. */
typedef struct walked {
    uint32_t variable;
    const double *odds; /* null: it stays as it is told */
    bool always;        /* whatever the others are, it applies */
    uint32_t digit;     /* which of the states left */
    double chance;      /* of the digits up to this one */
    uint32_t at;        /* where these stand in the block's table */
} walked;

/* A sum over some of a block's variables. */
typedef struct facts_walk {
    facts_range *r;
    const fact_block *b;
    const uint32_t *places; /* in the block; null: all of it */
    uint32_t count;
    walked *on; /* [i] */
    const fact_term *terms;
    uint32_t term_count;
    const double *table; /* null: the terms are worked out */
} facts_walk;

static uint32_t place_at(const facts_walk *w, uint32_t i)
{
    assert(i < w->count && (w->places == NULL || w->places[i] < w->b->variable_count));
    return w->places == NULL ? i : w->places[i];
}

/* All from i on stand at their first state but i itself, and what the ones before them come to is
 * known. */
static void go_to(facts_walk *w, uint32_t i, uint32_t digit)
{
    for (; i < w->count; i++, digit = 0) {
        walked *x = &w->on[i];
        x->digit = digit;
        x->chance = i == 0 ? 1 : w->on[i - 1].chance;
        x->at = i == 0 ? 0 : w->on[i - 1].at;
        if (x->odds == NULL) continue;
        const uint32_t state = w->r->live[x->variable][digit];
        w->r->state[w->r->f->variables[x->variable].finding] = state;
        x->chance *= x->odds[state];
        x->at += state * w->b->stride[place_at(w, i)];
    }
}

static void begin(facts_walk *w)
{
    w->on = ARENA_ARRAY(w->r->room, walked, w->count);
    for (uint32_t i = 0; i < w->count; i++) {
        const uint32_t v = w->b->variables[place_at(w, i)];
        const uint32_t finding = w->r->f->variables[v].finding;
        w->on[i].variable = v;
        w->on[i].odds = w->r->odds[v];
        w->on[i].always = w->r->f->applies[finding] == NULL || w->r->told->known[finding];
    }
    go_to(w, 0, 0);
}

static bool go_on(facts_walk *w)
{
    for (uint32_t i = w->count; i-- > 0;)
        if (w->on[i].digit + 1 < w->r->live_count[w->on[i].variable]) {
            go_to(w, i, w->on[i].digit + 1);
            return true;
        }
    return false;
}

static void end(const facts_walk *w)
{
    for (uint32_t i = 0; i < w->count; i++)
        w->r->state[w->r->f->variables[w->on[i].variable].finding] = NO_STATE;
}

static double chance_here(const facts_walk *w, uint32_t *at)
{
    *at = w->count == 0 ? 0 : w->on[w->count - 1].at;
    return w->count == 0 ? 1 : w->on[w->count - 1].chance;
}

static void add_here(const facts_walk *w, double part, double *with)
{
    for (uint32_t i = 0; i < w->count; i++) {
        const walked *x = &w->on[i];
        if (x->odds == NULL) continue;
        if (x->always || applies_here(w->r, &w->r->f->variables[x->variable]))
            with[w->b->room[place_at(w, i)] + w->r->live[x->variable][x->digit]] += part;
    }
}

static double walk_all(facts_walk *w, double *with)
{
    double sum = 0;
    uint32_t at;
    begin(w);
    do {
        double part = chance_here(w, &at);
        part *=
            w->table != NULL ? w->table[at] : value_of_terms(w->r, w->b, w->terms, w->term_count);
        if (part > 0) add_here(w, part, with);
        sum += part;
    } while (go_on(w));
    end(w);
    return sum;
}

static uint64_t combinations(const facts_range *r, const fact_block *b, const uint32_t *places,
                             uint32_t count)
{
    uint64_t all = 1;
    for (uint32_t i = 0; i < count && all <= FACTS_COMBINATIONS_MAX; i++) {
        const uint32_t v = b->variables[places == NULL ? i : places[i]];
        if (r->odds[v] != NULL) all *= r->live_count[v];
    }
    return all;
}

/* ---- too many for one sum: each rule by itself ---- */

static double sum_term(facts_range *r, const fact_block *b, const fact_term *t, double *with)
{
    if (combinations(r, b, t->variables, t->variable_count) > FACTS_COMBINATIONS_MAX)
        return value_of_term(r, b, t); /* what is not told is not known */
    facts_walk w = {r, b, t->variables, t->variable_count, NULL, t, 1, NULL};
    return walk_all(&w, with);
}

/* As if the rules had nothing to do with each other. */
static double sum_term_by_term(facts_range *r, const fact_block *b, double *with)
{
    double sum = 1;
    double *one = ARENA_ARRAY(r->room, double, b->state_count);
    for (uint32_t i = 0; i < b->variable_count; i++)
        for (uint32_t s = 0; s < r->f->variables[b->variables[i]].states; s++)
            with[b->room[i] + s] =
                r->odds[b->variables[i]] == NULL ? 0 : r->odds[b->variables[i]][s];
    for (uint32_t t = 0; t < b->term_count; t++) {
        const fact_term *term = &b->terms[t];
        memset(one, 0, b->state_count * sizeof *one);
        double mean = sum_term(r, b, term, one);
        bool whole =
            combinations(r, b, term->variables, term->variable_count) <= FACTS_COMBINATIONS_MAX;
        for (uint32_t i = 0; i < b->variable_count; i++) {
            bool its = false;
            for (uint32_t k = 0; k < term->variable_count && whole; k++)
                its |= term->variables[k] == i;
            const double *odds = r->odds[b->variables[i]];
            for (uint32_t s = 0; odds != NULL && s < r->f->variables[b->variables[i]].states; s++)
                with[b->room[i] + s] *= !its          ? mean
                                        : odds[s] > 0 ? one[b->room[i] + s] / odds[s]
                                                      : 0;
        }
        sum *= mean;
    }
    return sum;
}

/* ---- blocks ---- */

static bool table_holds(const facts_range *r, const fact_block *b)
{
    if (b->table == NULL || (b->splits && r->told->in_focus != NULL)) return false;
    for (uint32_t i = 0; i < b->other_count; i++)
        if (r->told->known[b->others[i]] ||
            r->told->possible[b->others[i]] != r->f->every[b->others[i]])
            return false;
    for (uint32_t i = 0; i < b->variable_count; i++) {
        const fact_variable *v = &r->f->variables[b->variables[i]];
        if (r->odds[b->variables[i]] == NULL) return false;
        if (r->f->applies[v->finding] != NULL && r->told->known[v->finding])
            return false; /* told, so it applies */
    }
    return true;
}

static facts_walk walk_of(facts_range *r, const fact_block *b, const double *table)
{
    return (facts_walk){r, b, NULL, b->variable_count, NULL, b->terms, b->term_count, table};
}

double facts_sum_block(facts_range *r, const fact_block *b, double *with)
{
    memset(with, 0, b->state_count * sizeof *with);
    arena_mark mark = arena_here(r->room);
    facts_walk w = walk_of(r, b, table_holds(r, b) ? b->table : NULL);
    double sum = combinations(r, b, NULL, w.count) <= FACTS_COMBINATIONS_MAX
                     ? walk_all(&w, with)
                     : sum_term_by_term(r, b, with);
    arena_back_to(r->room, mark);
    assert(sum >= 0);
    return sum;
}

void facts_fill_table(facts_range *r, const fact_block *b, double *table)
{
    arena_mark mark = arena_here(r->room);
    facts_walk w = walk_of(r, b, NULL);
    uint32_t at;
    begin(&w);
    do {
        chance_here(&w, &at);
        table[at] = value_of_terms(r, b, b->terms, b->term_count);
    } while (go_on(&w));
    end(&w);
    arena_back_to(r->room, mark);
}

facts_outlook facts_look(arena *keep, const facts *f, const facts_told *told)
{
    facts_range r = facts_range_of(keep, f, told);
    double **with = ARENA_ARRAY(keep, double *, f->block_count);
    facts_outlook o = {f,      *told,
                       r.odds, ARENA_ARRAY(keep, double, f->block_count),
                       with,   ARENA_ARRAY(keep, double, f->book->cause_count)};
    for (uint32_t c = 0; c < f->book->cause_count; c++) {
        o.factor[c] = 1;
        for (uint32_t k = f->first_block[c]; k < f->first_block[c + 1]; k++) {
            with[k] = ARENA_ARRAY(keep, double, f->blocks[k].state_count);
            o.sum[k] = facts_sum_block(&r, &f->blocks[k], with[k]);
            o.factor[c] *= o.sum[k];
        }
    }
    return o;
}
