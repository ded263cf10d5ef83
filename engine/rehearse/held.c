/* Which numbers of a book its worked cases hold: each is turned round, and the cases it could
 * matter to are played again. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/sorted.h"
#include "compile/numbers.h"
#include "rehearse/trying.h"

/* What is left of a worked case once it was played: enough to play it again with other numbers. */
typedef struct played_case {
    bool passes;
    bool looks_ahead; /* it says what comes next, or what never does */
    bool two_faults;  /* they had a say in it */
    event *events;
    uint32_t event_count, role;
    const double **weights; /* [question] */
    double *factor;         /* [cause] */
    double *chance;         /* [1 + cause] with one fault */
    choice_input fixes;     /* of it only the fixes and the rules */
    uint32_t *fix_of;       /* [option] */
    bool *may_do;           /* [option] it is for the role, and was not tried */
    uint32_t expects; /* the cause that it is about, or NO_ID: tried first where the number is that
                         cause's */
} played_case;

typedef struct holding {
    tt_book *book;
    arena *work, *scratch; /* back to the beginning with each number; each case */
    trying base, turned;
    played_case *cases;
    const written_number *numbers;
    tt_held *items;
    tt_holding out;
} holding;

static const double moves = 0.001;

/* ---- as the book is ---- */

static event kept_event(arena *keep, event e)
{
    uint32_t *pieces = ARENA_ARRAY(keep, uint32_t, e.pieces.count);
    for (uint32_t i = 0; i < e.pieces.count; i++) pieces[i] = e.pieces.items[i];
    e.pieces.items = pieces;
    return e;
}

static const double **kept_weights(arena *keep, const tt_case *c)
{
    const program *p = c->book->prog;
    const double **all = ARENA_ARRAY(keep, const double *, p->book->question_count);
    for (uint32_t q = 0; q < p->book->question_count; q++) {
        if (c->now.weights[q] == NULL || !p->is_evidence[q]) continue;
        size_t size = program_states(p, q) * sizeof **all;
        all[q] = memcpy(ARENA_ARRAY(keep, double, program_states(p, q)), c->now.weights[q], size);
    }
    return all;
}

/* What a case works out is gone with its next step. */
static const uint32_t *kept_after(arena *keep, const fix_option *fix)
{
    uint32_t *after = ARENA_ARRAY(keep, uint32_t, fix->after_count);
    for (uint32_t i = 0; i < fix->after_count; i++) after[i] = fix->after[i];
    return after;
}

static const double *kept_ways(arena *keep, const choice_input *in)
{
    const size_t ways = (size_t)in->place_count * in->place_count;
    double *walk = in->walk == NULL ? NULL : ARENA_ARRAY(keep, double, ways);
    return walk == NULL ? NULL : memcpy(walk, in->walk, ways * sizeof *walk);
}

/* Which fix comes first follows from these, from where the person is, and from the chances. */
static void keep_fixes(arena *keep, const tt_case *c, played_case *out)
{
    const choice_input *in = &c->options.in;
    fix_option *fixes = ARENA_ARRAY(keep, fix_option, in->fix_count);
    out->fix_of = ARENA_ARRAY(keep, uint32_t, in->fix_count);
    out->may_do = ARENA_ARRAY(keep, bool, in->fix_count);
    for (uint32_t i = 0; i < in->fix_count; i++) {
        const uint32_t f = c->options.fix_of[i];
        fixes[i] = in->fixes[i];
        fixes[i].after = kept_after(keep, &in->fixes[i]);
        out->fix_of[i] = f;
        out->may_do[i] = !c->now.tried[f] && case_may_do(c, f);
    }
    out->fixes = (choice_input){.cause_count = in->cause_count,
                                .fixes = fixes,
                                .fix_count = in->fix_count,
                                .rules = in->rules,
                                .walk = kept_ways(keep, in),
                                .place_count = in->place_count,
                                .here = in->here};
}

/* The answers of a worked case live in the book, and so do those to gate questions. */
static void keep_case(arena *keep, const tt_case *c, played_case *out)
{
    const uint32_t causes = c->book->book->cause_count;
    out->events = ARENA_ARRAY(keep, event, c->event_count);
    for (uint32_t i = 0; i < c->event_count; i++) out->events[i] = kept_event(keep, c->events[i]);
    out->event_count = c->event_count;
    out->role = c->role;
    out->weights = kept_weights(keep, c);
    out->factor = memcpy(ARENA_ARRAY(keep, double, causes), c->now.factor, causes * sizeof(double));
    out->chance = ARENA_ARRAY(keep, double, causes + 1);
    belief_marginals(c->now.single, out->chance);
    out->two_faults = c->now.pairs_matter;
    keep_fixes(keep, c, out);
}

static tt_status play_as_written(holding *h, uint32_t index)
{
    const worked_case *w = &h->book->book->cases[index];
    played_case *out = &h->cases[index];
    text_builder why = {.keep = h->book->keep};
    const tt_view *v;
    tt_status status = trial_play(&h->base, w, &v);
    if (status != TT_OK) return status;
    trial_check(&h->base, w, v, &why);
    out->looks_ahead =
        w->next_question != NO_ID || w->never_asked.count > 0 || w->never_offered.count > 0;
    out->expects = w->leading_cause == CAUSE_NOT_LISTED ? NO_ID : w->leading_cause;
    keep_case(h->book->keep, h->base.c, out);
    status = trial_check_never(&h->base, w, &why);
    out->passes = why.length == 0;
    return status;
}

/* ---- turned round ---- */

static double turned_value(const program *p, const written_number *n, const char **word)
{
    double value, usual;
    if (n->kind == NUMBER_HOW_OFTEN) {
        often_word(OFTEN_WORDS / 2, &usual);
        *word = often_word(number_value(p, n) >= usual ? 0 : OFTEN_WORDS - 1, &value);
        return value;
    }
    const uint32_t i = number_value(p, n) >= 0.5 ? 0 : CHANCE_WORDS - 1;
    *word = chance_word(i);
    return p->book->word_chance[i];
}

static bool stands_at(const program *p, const written_number *n, uint32_t question)
{
    const uint32_t g = p->evidence->component_of[question];
    if (g == NO_COMPONENT || (n->kind != NUMBER_SHOWN_BY && n->kind != NUMBER_OTHERWISE))
        return false;
    const component *x = &p->evidence->components[g];
    for (uint32_t i = 0; i < n->count; i++)
        if (place_of_id(x->symptoms, x->symptom_count, n->places[i].entry) < x->symptom_count)
            return true;
    return false;
}

static bool is_about(const program *p, const written_number *n, const worked_case *w)
{
    if (w->next_question != NO_ID && stands_at(p, n, w->next_question)) return true;
    for (uint32_t i = 0; i < w->never_asked.count; i++)
        if (stands_at(p, n, w->never_asked.items[i])) return true;
    return false;
}

/* A number of a table at which nothing was answered, or of causes that are out of the question,
 * moves nothing. */
static bool could_move(const holding *h, const written_number *n, const played_case *x)
{
    const program *p = h->book->prog;
    if (n->kind == NUMBER_HOW_OFTEN || n->kind == NUMBER_CURES) {
        for (uint32_t i = 0; i < n->count; i++) {
            const number_place *at = &n->places[i];
            const uint32_t cause = n->kind == NUMBER_HOW_OFTEN
                                       ? at->entry
                                       : p->book->fixes[at->entry].cures[at->rate].cause;
            if (x->chance[1 + cause] * 1000 >= moves) return true;
        }
        return false;
    }
    for (uint32_t q = 0; q < p->book->question_count; q++)
        if (x->weights[q] != NULL && stands_at(p, n, q)) return true;
    return false;
}

static bool moved(const holding *h, const played_case *x, const double *then)
{
    for (uint32_t i = 0; i <= h->book->book->cause_count; i++)
        if (fabs(then[i] - x->chance[i]) >= moves) return true;
    return false;
}

/* Causes stand in the order of their names, and what is not listed comes after them. */
static uint32_t rank_with(const holding *h, const double *then, uint32_t cause)
{
    const uint32_t causes = h->book->book->cause_count,
                   own = cause == CAUSE_NOT_LISTED ? 0 : 1 + cause;
    uint32_t rank = own != 0 && then[0] > then[own];
    for (uint32_t i = 1; i <= causes; i++)
        rank +=
            i != own && (then[i] > then[own] || (then[i] == then[own] && (own == 0 || i < own)));
    return rank;
}

/* As the view has it: the first of those for this role, if it is worth trying. */
static uint32_t first_fix_with(holding *h, const played_case *x, const double *then,
                               const net_rate *const *cures)
{
    choice_input in = x->fixes;
    fix_option *fixes = ARENA_ARRAY(h->scratch, fix_option, in.fix_count);
    ranked_fix *order = ARENA_ARRAY(h->scratch, ranked_fix, in.fix_count);
    for (uint32_t i = 0; i < in.fix_count; i++) {
        fixes[i] = x->fixes.fixes[i];
        fixes[i].cures = cures[x->fix_of[i]];
    }
    in.fixes = fixes;
    choose_order(&in, h->scratch, then, order);
    for (uint32_t i = 0; i < in.fix_count; i++)
        if (x->may_do[order[i].fix])
            return order[i].standing <= FIX_POSSIBLE ? x->fix_of[order[i].fix] : NO_ID;
    return NO_ID;
}

/* Not sure of it itself, at either end: then the case is played again. */
static bool is_as_sure(const worked_case *w, const double *then)
{
    const double chance = then[w->leading_cause == CAUSE_NOT_LISTED ? 0 : 1 + w->leading_cause];
    assert(w->leading_cause != NO_ID);
    return chance > w->chance_least && chance < w->chance_most;
}

/* Whether what the case expects would still come, with these chances: all that a number can change
 * in it with one fault. */
static bool still_comes(holding *h, const played_case *x, const worked_case *w, const double *then,
                        const net_rate *const *cures)
{
    const bool leads = w->leading_cause != NO_ID;
    if (leads && (rank_with(h, then, w->leading_cause) != 0 || !is_as_sure(w, then))) return false;
    for (uint32_t i = 0; i < w->among.count; i++)
        if (rank_with(h, then, w->among.items[i]) >= w->among_count) return false;
    return w->first_fix == NO_ID || first_fix_with(h, x, then, cures) == w->first_fix;
}

static tt_status play_again(holding *h, uint32_t index, bool *notices)
{
    const worked_case *w = &h->book->book->cases[index];
    const played_case *x = &h->cases[index];
    trying *t = &h->turned;
    text_builder why = {.keep = h->scratch};
    const tt_view *v = NULL;
    tt_case_free(t->c);
    t->c = NULL;
    tt_status status = tt_case_new(t->book, &(tt_options){.role = x->role}, &t->c);
    for (uint32_t i = 0; i < x->event_count && status == TT_OK; i++)
        status = case_tell(t->c, x->events[i]);
    const bool decides = x->looks_ahead || w->danger != CASE_ANYHOW; /* what comes next has a say */
    if (status == TT_OK) status = decides ? tt_look(t->c, &v) : case_see(t->c);
    if (status != TT_OK) return status;
    trial_check(t, w, &t->c->view, &why);
    if (why.length == 0) status = trial_check_never(t, w, &why);
    *notices = why.length > 0;
    return status;
}

typedef struct turned_number {
    const written_number *n;
    belief *single; /* null: of a cure, which is in no table */
    const net_rate *const *cures;
    bool depends_on_facts; /* tables that depend on facts are looked at by playing alone */
} turned_number;

static bool depends_on_facts(const net *n)
{
    for (uint32_t i = 0; i < n->component_count; i++)
        if (n->components[i].slice_count > 1) return true;
    return false;
}

/* Whether the case is worth playing again: it may notice. */
static bool is_tried(holding *h, const turned_number *x, uint32_t index)
{
    const played_case *one = &h->cases[index];
    const worked_case *w = &h->book->book->cases[index];
    if (!one->passes) return false;
    if (is_about(h->book->prog, x->n, w)) return true;
    if (!could_move(h, x->n, one)) return false;
    const uint32_t count = h->book->book->cause_count + 1;
    double *then = ARENA_ARRAY(h->scratch, double, count);
    memcpy(then, one->chance, count * sizeof *then);
    if (x->single != NULL && !x->depends_on_facts) {
        belief_weigh(x->single, &(evidence){.weights = one->weights}, one->factor);
        belief_marginals(x->single, then);
        if (!one->two_faults && !moved(h, one, then)) return false;
    }
    return one->two_faults || one->looks_ahead || x->depends_on_facts ||
           !still_comes(h, one, w, then, x->cures);
}

/* The cases of the number's own cause come first: they are likeliest to notice. */
static tt_status find_holder(holding *h, const turned_number *x, uint32_t *holder)
{
    const uint32_t cause = number_cause(h->book->prog, x->n);
    *holder = NO_ID;
    for (int pass = 0; pass < 2; pass++)
        for (uint32_t i = 0; i < h->book->book->case_count; i++) {
            bool notices = false, own = cause != NO_ID && h->cases[i].expects == cause;
            arena_back_to(h->scratch, (arena_mark){NULL, 0});
            if (own != (pass == 0) || !is_tried(h, x, i)) continue;
            tt_status status = play_again(h, i, &notices);
            if (status != TT_OK) return status;
            if (!notices) continue;
            *holder = i;
            return TT_OK;
        }
    return TT_OK;
}

/* ---- in words ---- */

static const char *base_name(arena *keep, const label *id, const owner *of)
{
    return cstr(keep, of->base.n > 0 ? of->base : id->name);
}

static const char *const *names_of(const holding *h, const written_number *n, uint32_t *count)
{
    const book *b = h->book->book;
    arena *keep = h->book->keep;
    const char **names = ARENA_ARRAY(keep, const char *, 2);
    const uint32_t cause = number_cause(h->book->prog, n), entry = n->places[0].entry;
    *count = 0;
    if (n->kind == NUMBER_SHOWN_BY || n->kind == NUMBER_OTHERWISE)
        names[(*count)++] = base_name(keep, &b->symptoms[entry].id, &b->symptoms[entry].of);
    if (n->kind == NUMBER_CURES)
        names[(*count)++] = base_name(keep, &b->fixes[entry].id, &b->fixes[entry].of);
    if (cause != NO_ID)
        names[(*count)++] = base_name(keep, &b->causes[cause].id, &b->causes[cause].of);
    return names;
}

static void tell_number(holding *h, uint32_t index, const char *turned, uint32_t holder)
{
    static const char *const kinds[] = {[NUMBER_HOW_OFTEN] = "how-often",
                                        [NUMBER_SHOWN_BY] = "shown-by",
                                        [NUMBER_OTHERWISE] = "otherwise",
                                        [NUMBER_CURES] = "cures"};
    const written_number *n = &h->numbers[index];
    arena *keep = h->book->keep;
    tt_held *out = &h->items[index];
    *out = (tt_held){.kind = kinds[n->kind],
                     .written = cstr(keep, number_text(h->book->prog, n)),
                     .turned = turned,
                     .by = holder == NO_ID ? "" : h->book->book->cases[holder].id.name.p};
    out->names = names_of(h, n, &out->name_count);
    out->place =
        (tt_place){place_words(keep, h->book, n->said),
                   cstr(keep, h->book->files.items[n->said.file].name), n->said.start, n->said.end};
    h->out.held += holder != NO_ID;
}

/* ---- all of them ---- */

static tt_status turn_round(holding *h, uint32_t index)
{
    const written_number *n = &h->numbers[index];
    const char *word;
    uint32_t holder;
    arena_back_to(h->work, (arena_mark){NULL, 0});
    arena_back_to(h->scratch, (arena_mark){NULL, 0});
    const double value = turned_value(h->book->prog, n, &word);
    tt_book other = *h->book;
    other.prog = program_with(h->work, h->scratch, h->book->prog, n, value);
    h->turned.book = &other;
    const turned_number x = {
        n, n->kind == NUMBER_CURES ? NULL : belief_new(h->work, other.prog->evidence, 1),
        other.prog->cures, n->kind != NUMBER_CURES && depends_on_facts(other.prog->evidence)};
    tt_status status = find_holder(h, &x, &holder);
    tt_case_free(h->turned.c);
    h->turned = (trying){0};
    if (status == TT_OK) tell_number(h, index, word, holder);
    return status;
}

static tt_status hold_all(void *context)
{
    holding *h = context;
    const book *b = h->book->book;
    tt_status status = TT_OK;
    h->cases = ARENA_ARRAY(h->book->keep, played_case, b->case_count);
    h->numbers = program_numbers(h->book->keep, h->scratch, h->book->prog, &h->out.count);
    h->items = ARENA_ARRAY(h->book->keep, tt_held, h->out.count);
    for (uint32_t i = 0; i < b->case_count && status == TT_OK; i++) status = play_as_written(h, i);
    for (uint32_t i = 0; i < h->out.count && status == TT_OK; i++) status = turn_round(h, i);
    h->out.items = h->items;
    return status;
}

tt_status tt_numbers_held(tt_book *b, tt_holding *out)
{
    holding h = {.book = b,
                 .work = arena_new(NULL, NULL),
                 .scratch = arena_new(NULL, NULL),
                 .base = {.book = b}};
    tt_status status = TT_NO_MEMORY;
    *out = (tt_holding){0};
    if (h.work != NULL && h.scratch != NULL)
        status = guarded((arena *[]){b->keep, h.work, h.scratch}, 3, hold_all, &h);
    tt_case_free(h.base.c);
    tt_case_free(h.turned.c);
    arena_free(h.work);
    arena_free(h.scratch);
    if (status == TT_OK) *out = h.out;
    return status;
}
