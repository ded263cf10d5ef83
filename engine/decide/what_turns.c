/* What would let the other of two causes lead: another answer, one question more, no rule, another
 * number in the book. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/sorted.h"
#include "compile/numbers.h"
#include "decide/weighed.h"

typedef struct turning {
    weighed w;
    const double **without; /* [question] room: the evidence with one answer left out */
    tt_missing *missing;
    tt_pivot *pivots;
    tt_turning out;
} turning;

static const double worth_telling = 0.1; /* decibels */

static bool turns(const turning *t, double then)
{
    const weighed *w = &t->w;
    bool leads = w->total > 0 || (w->total == 0 && w->rank < w->rival);
    return leads ? then < 0 : then > 0;
}

static double decibels(double mine, double theirs)
{
    return 10 * log10(mine / theirs);
}

static const char *text_of(const turning *t, str s)
{
    return cstr(t->w.c->derived, s);
}

/* ---- answers that were not given ---- */

static bool is_same_answer(const double *given, uint32_t states, uint32_t y)
{
    for (uint32_t s = 0; s < states; s++)
        if ((given[s] > 0) != (s == y)) return false;
    return true;
}

static const char *state_name(const turning *t, uint32_t question, uint32_t y)
{
    const struct question *q = &t->w.c->book->book->questions[question];
    return q->kind == QUESTION_CHOICE ? text_of(t, q->answers[y].id.name)
                                      : state_words(t->w.c, question, y);
}

/* Each answer to a question that has none in `seen`, but for one that was given; `base`: decibels
 * without it. */
static tt_instead *all_answers(turning *t, uint32_t question, const double *const *seen,
                               const double *given, double base, double *tells, uint32_t *count)
{
    assert(question < t->w.c->book->book->question_count);
    tt_case *c = t->w.c;
    const evidence all_seen = {.weights = seen, .looks = c->now.looks, .person = c->speaker};
    const prediction p = belief_foresee(c->derived, c->now.single, &all_seen, question);
    const double *mine = row_of(&p, t->w.mine), *theirs = row_of(&p, t->w.theirs);
    tt_instead *all = ARENA_ARRAY(c->derived, tt_instead, p.states + 1);
    const double counts = c->book->book->answers_count;
    *count = 0;
    *tells = 0;
    for (uint32_t y = 0; y < p.states; y++) {
        assert(mine[y] >= 0 && theirs[y] >= 0);
        if (mine[y] == 0 || theirs[y] == 0) continue;
        double moves = counts * decibels(mine[y], theirs[y]);
        *tells += 0.5 * (mine[y] - theirs[y]) * moves;
        if (given != NULL && is_same_answer(given, p.states, y)) continue;
        all[(*count)++] = (tt_instead){state_name(t, question, y), state_words(c, question, y),
                                       moves, base + moves};
    }
    return all;
}

static int least_first(const void *left, const void *right)
{
    const tt_instead *a = left, *b = right;
    const double x = fabs(a->then), y = fabs(b->then);
    return x != y ? THREE_WAY(x, y) : strcmp(a->text, b->text);
}

/* Those that turn it, the least first. */
static const tt_instead *turning_ones(const turning *t, const tt_instead *all, uint32_t count,
                                      uint32_t *left)
{
    tt_instead *kept = ARENA_ARRAY(t->w.c->derived, tt_instead, count);
    *left = 0;
    for (uint32_t i = 0; i < count; i++)
        if (turns(t, all[i].then)) kept[(*left)++] = all[i];
    SORT(kept, *left, least_first);
    return kept;
}

/* ---- questions without an answer ---- */

static bool could_be_asked(tt_case *c, uint32_t question)
{
    const struct question *q = &c->book->book->questions[question];
    return c->now.replies[question] == NULL && !c->now.skip_questions[question] && !q->trend &&
           safety_risk(&q->harm, true) != RISK_HIGH &&
           case_truth(c, c->book->prog->ask_atom[question]) != TRUTH_FALSE;
}

/* A quantity can be known once each of its readings can be asked. */
static bool is_open(tt_case *c, uint32_t question)
{
    const struct question *q = &c->book->book->questions[question];
    if (c->now.weights[question] != NULL || !could_be_asked(c, question)) return false;
    bool open = q->kind != QUESTION_QUANTITY;
    for (uint32_t i = 0; q->kind == QUESTION_QUANTITY && i < q->beneath.count; i++) {
        uint32_t asked = q->beneath.items[i];
        if (c->now.replies[asked] == NULL && !could_be_asked(c, asked)) return false;
        open |= c->now.replies[asked] == NULL;
    }
    return open;
}

/* The highest role among those who must answer; NO_ID: whoever asks may. */
static uint32_t role_wanted(const turning *t, uint32_t question)
{
    assert(question < t->w.c->book->book->question_count);
    const book *b = t->w.c->book->book;
    const struct question *q = &b->questions[question];
    if (!book_may_work(b, t->w.c->role, q->role, &q->harm))
        return book_role_for(b, q->role, &q->harm);
    for (uint32_t i = 0; i < q->beneath.count; i++) {
        uint32_t role = b->questions[q->beneath.items[i]].role;
        if (!book_may(b, t->w.c->role, role)) return role;
    }
    return NO_ID;
}

static void add_missing(turning *t, uint32_t question)
{
    tt_case *c = t->w.c;
    tt_missing m = {.question = text_of(t, c->book->book->questions[question].id.name),
                    .ask = asked_words(c, question)};
    m.answers =
        all_answers(t, question, c->now.weights, NULL, t->w.total, &m.tells, &m.answer_count);
    const uint32_t role = role_wanted(t, question);
    m.role = role == NO_ID ? "" : text_of(t, c->book->book->roles[role].name);
    m.role_text = role == NO_ID ? "" : role_words(c, role);
    for (uint32_t i = 0; i < m.answer_count; i++) m.turns |= turns(t, m.answers[i].then);
    if (m.tells >= worth_telling || m.turns) t->missing[t->out.missing_count++] = m;
}

static int most_telling_first(const void *left, const void *right)
{
    const tt_missing *a = left, *b = right;
    return a->tells != b->tells ? -THREE_WAY(a->tells, b->tells) : strcmp(a->question, b->question);
}

static void find_missing(turning *t)
{
    tt_case *c = t->w.c;
    const book *b = c->book->book;
    t->missing = ARENA_ARRAY(c->derived, tt_missing, b->question_count);
    for (uint32_t q = 0; q < b->question_count; q++)
        if (c->book->prog->is_evidence[q] && is_open(c, q)) add_missing(t, q);
    SORT(t->missing, t->out.missing_count, most_telling_first);
    t->out.missing = t->missing;
}

/* ---- what turns it ---- */

static void add_pivot(turning *t, tt_pivot p)
{
    if (p.instead_count > 0) t->pivots[t->out.pivot_count++] = p;
}

static int nearest_first(const void *left, const void *right)
{
    const tt_pivot *a = left, *b = right;
    const double x = fabs(a->instead[0].then), y = fabs(b->instead[0].then);
    if (x != y) return THREE_WAY(x, y);
    if (a->place != NULL && b->place != NULL) return strcmp(a->place->at, b->place->at);
    return strcmp(a->name, b->name);
}

static void sort_from(turning *t, uint32_t first)
{
    assert(first <= t->out.pivot_count);
    SORT(t->pivots + first, t->out.pivot_count - first, nearest_first);
}

static tt_pivot pivot_of_question(turning *t, const char *kind, uint32_t question)
{
    return (tt_pivot){.kind = kind,
                      .name = text_of(t, t->w.c->book->book->questions[question].id.name),
                      .text = asked_words(t->w.c, question),
                      .was = ""};
}

/* Another answer in the place of this one, or none. */
static void try_answer(turning *t, uint32_t question)
{
    tt_case *c = t->w.c;
    const net *n = c->now.net;
    uint32_t count;
    double tells, base = t->w.total;
    memcpy(t->without, c->now.weights, c->book->book->question_count * sizeof *t->without);
    t->without[question] = NULL;
    const evidence left = {.weights = t->without, .looks = c->now.looks};
    for (uint32_t g = 0; g < n->component_count; g++) base -= t->w.bars[g];
    base += belief_bar_of_answers(n, c->scratch, &left, t->w.mine, t->w.theirs);
    tt_instead *all =
        all_answers(t, question, t->without, c->now.weights[question], base, &tells, &count);
    all[count++] = (tt_instead){"", "", base - t->w.total, base};
    tt_pivot p = pivot_of_question(t, "answer", question);
    p.was =
        c->now.replies[question] != NULL ? reply_words(c, question, c->now.replies[question]) : "";
    p.instead = turning_ones(t, all, count, &p.instead_count);
    add_pivot(t, p);
}

static void try_answers(turning *t)
{
    const tt_case *c = t->w.c;
    for (uint32_t q = 0; q < c->book->book->question_count; q++)
        if (c->book->prog->is_evidence[q] && c->now.weights[q] != NULL) try_answer(t, q);
    sort_from(t, 0);
}

static void try_questions(turning *t)
{
    uint32_t first = t->out.pivot_count;
    for (uint32_t i = 0; i < t->out.missing_count; i++) {
        const tt_missing *m = &t->out.missing[i];
        tt_pivot p = {.kind = "question", .name = m->question, .text = m->ask, .was = ""};
        p.instead = turning_ones(t, m->answers, m->answer_count, &p.instead_count);
        add_pivot(t, p);
    }
    sort_from(t, first);
}

/* All bars but the prior's. */
static double all_but_prior(const turning *t, const net *n)
{
    tt_case *c = t->w.c;
    const evidence seen = case_evidence(c);
    double sum = t->w.fixes;
    if (n != c->book->prog->evidence)
        return sum + belief_bar_of_answers(n, c->scratch, &seen, t->w.mine, t->w.theirs);
    for (uint32_t g = 0; g < n->component_count; g++) sum += t->w.bars[g];
    return sum;
}

static void try_facts(turning *t)
{
    const weighed *w = &t->w;
    tt_pivot p = {.kind = "facts", .name = "", .text = "", .was = ""};
    double then = all_but_prior(t, w->c->book->prog->evidence) + w->as_written;
    if (w->prior == w->as_written || !turns(t, then)) return;
    p.names = factor_rules(w, &p.name_count);
    tt_instead *instead = ARENA_NEW(w->c->derived, tt_instead);
    *instead = (tt_instead){"", "", w->as_written - w->prior, then};
    p.instead = instead;
    p.instead_count = 1;
    add_pivot(t, p);
}

/* ---- another word for a number ---- */

static const char *word_at(const book *b, number_kind kind, uint32_t i, double *value)
{
    assert(kind < NUMBER_CURES);
    if (kind == NUMBER_HOW_OFTEN) return often_word(i, value);
    *value = b->word_chance[i];
    return chance_word(i);
}

/* It stands in a table that was looked at for one of the two. */
static bool bears_on(const turning *t, const written_number *n)
{
    const program *p = t->w.c->book->prog;
    uint32_t cause = number_cause(p, n);
    bool ours = cause != NO_ID && (1 + cause == t->w.mine || 1 + cause == t->w.theirs);
    if (n->kind == NUMBER_CURES || (n->kind == NUMBER_HOW_OFTEN && !ours)) return false;
    for (uint32_t i = 0; n->kind == NUMBER_SHOWN_BY && i < n->count; i++) {
        uint32_t its = p->book->symptoms[n->places[i].entry].shown_by[n->places[i].rate].cause;
        ours |= 1 + its == t->w.mine || 1 + its == t->w.theirs;
    }
    return ours || n->kind == NUMBER_OTHERWISE;
}

static double with_value(const turning *t, const written_number *n, double value)
{
    tt_case *c = t->w.c;
    arena_mark mark = arena_here(c->derived), rest = arena_here(c->scratch);
    const program *changed = program_with(c->derived, c->scratch, c->book->prog, n, value);
    const facts_outlook untold = case_outlook(c, changed->facts);
    double *factor = ARENA_ARRAY(c->derived, double, c->book->book->cause_count);
    case_factors_with(c, &untold, factor);
    double *prior = ARENA_ARRAY(c->derived, double, c->book->book->cause_count);
    for (uint32_t i = 0; i < c->book->book->cause_count; i++)
        prior[i] = changed->evidence->in.weights[i] * factor[i];
    const net *n_then = facts_mix(c->derived, &untold, changed->evidence, prior);
    double then =
        belief_bar_of_prior(n_then, factor, t->w.mine, t->w.theirs) + all_but_prior(t, n_then);
    arena_back_to(c->derived, mark);
    arena_back_to(c->scratch, rest);
    return then;
}

/* The nearest word on one side that turns it. */
static bool next_word(const turning *t, const written_number *n, double written, bool up,
                      tt_instead *out)
{
    const book *b = t->w.c->book->book;
    uint32_t words = n->kind == NUMBER_HOW_OFTEN ? OFTEN_WORDS : CHANCE_WORDS;
    for (uint32_t k = 0; k < words; k++) {
        double value;
        const char *word = word_at(b, n->kind, up ? k : words - 1 - k, &value);
        if (up ? value <= written : value >= written) continue;
        double then = with_value(t, n, value);
        if (!turns(t, then)) continue;
        *out = (tt_instead){word, word, then - t->w.total, then};
        return true;
    }
    return false;
}

static const char *as_written(const turning *t, const label *id, const owner *of)
{
    return text_of(t, of->base.n > 0 ? of->base : id->name);
}

static void name_number(const turning *t, const written_number *n, tt_pivot *p)
{
    static const char *const keys[] = {[NUMBER_HOW_OFTEN] = "how-often",
                                       [NUMBER_SHOWN_BY] = "shown-by",
                                       [NUMBER_OTHERWISE] = "otherwise"};
    const book *b = t->w.c->book->book;
    const char **names = ARENA_ARRAY(t->w.c->derived, const char *, 2);
    uint32_t cause = number_cause(t->w.c->book->prog, n), entry = n->places[0].entry;
    assert(n->kind < NUMBER_CURES);
    if (n->kind != NUMBER_HOW_OFTEN)
        names[p->name_count++] = as_written(t, &b->symptoms[entry].id, &b->symptoms[entry].of);
    if (cause != NO_ID)
        names[p->name_count++] = as_written(t, &b->causes[cause].id, &b->causes[cause].of);
    p->name = keys[n->kind];
    p->names = names;
}

static const tt_place *place_of_number(const turning *t, const written_number *n)
{
    assert(n->count > 0);
    const tt_book *b = t->w.c->book;
    tt_place *place = ARENA_NEW(t->w.c->derived, tt_place);
    *place = (tt_place){place_words(t->w.c->derived, b, n->said),
                        text_of(t, b->files.items[n->said.file].name), n->said.start, n->said.end};
    return place;
}

static void try_number(turning *t, const written_number *n)
{
    tt_case *c = t->w.c;
    const program *p = c->book->prog;
    double written = number_value(p, n);
    tt_instead *instead = ARENA_ARRAY(c->derived, tt_instead, 2);
    uint32_t count = next_word(t, n, written, true, &instead[0]);
    count += next_word(t, n, written, false, &instead[count]);
    SORT(instead, count, least_first);
    tt_pivot pivot = {.kind = "number",
                      .text = "",
                      .was = text_of(t, number_text(p, n)),
                      .instead = instead,
                      .instead_count = count,
                      .place = place_of_number(t, n)};
    name_number(t, n, &pivot);
    add_pivot(t, pivot);
}

static bool is_looked_at(const turning *t, const written_number *n)
{
    const tt_case *c = t->w.c;
    const net *e = c->book->prog->evidence;
    if (n->kind == NUMBER_HOW_OFTEN) return true;
    for (uint32_t g = 0; g < e->component_count; g++) {
        const component *x = &e->components[g];
        bool seen = false, holds = false;
        for (uint32_t i = 0; i < x->finding_count; i++)
            seen |= c->now.weights[x->findings[i]] != NULL;
        for (uint32_t i = 0; i < n->count && seen; i++)
            holds |=
                place_of_id(x->symptoms, x->symptom_count, n->places[i].entry) < x->symptom_count;
        if (holds) return true;
    }
    return false;
}

static void try_numbers(turning *t, const written_number *numbers, uint32_t count)
{
    uint32_t first = t->out.pivot_count;
    for (uint32_t i = 0; i < count; i++)
        if (bears_on(t, &numbers[i]) && is_looked_at(t, &numbers[i])) try_number(t, &numbers[i]);
    sort_from(t, first);
}

/* ---- all of it ---- */

static tt_status what_turns(void *context)
{
    turning *t = context;
    tt_case *c = t->w.c;
    tt_status status = weigh_two(&t->w);
    if (status != TT_OK) return status;
    list_bars(&t->w);
    t->out.why = t->w.out;
    uint32_t questions = c->book->book->question_count, count;
    const written_number *numbers = program_numbers(c->derived, c->derived, c->book->prog, &count);
    t->without = ARENA_ARRAY(c->derived, const double *, questions);
    t->pivots = ARENA_ARRAY(c->derived, tt_pivot, 2 * (size_t)questions + count + 1);
    find_missing(t);
    try_answers(t);
    try_questions(t);
    try_facts(t);
    if (isfinite(t->w.total)) try_numbers(t, numbers, count);
    t->out.pivots = t->pivots;
    return TT_OK;
}

tt_status tt_what_turns(tt_case *c, uint32_t rank, uint32_t rival, tt_turning *out)
{
    const tt_view *view;
    turning t = {.w = {.c = c, .rank = rank, .rival = rival}};
    tt_status status = tt_look(c, &view);
    if (status == TT_OK) status = guarded_case(c, what_turns, &t);
    *out = status == TT_OK ? t.out : (tt_turning){0};
    return status;
}
