/* Why one cause rather than another: the weight of evidence, answer by answer. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/sorted.h"
#include "decide/weighed.h"

static const char *strength_of(double decibels)
{
    double size = fabs(decibels);
    return size < 3 ? "slight" : size < 7 ? "some" : size <= 13 ? "strong" : "very strong";
}

/* ---- in words ---- */

/* A comparison with a set point is told by the reading that was compared: the difference itself is
 * nobody's word. */
static uint32_t told_by(const tt_case *c, uint32_t question)
{
    assert(question < c->book->book->question_count);
    const struct question *q = &c->book->book->questions[question];
    return q->made ? q->judged : question;
}

const char *asked_words(tt_case *c, uint32_t question)
{
    return case_text(c, &c->book->book->questions[told_by(c, question)].ask);
}

static const char *finding_words(tt_case *c, uint32_t question)
{
    const uint32_t told = told_by(c, question);
    const bool read = told != question && c->now.replies[told] != NULL;
    const reply *r = read ? c->now.replies[told] : adjust_evidence(c, question);
    const struct question *asked = &c->book->book->questions[read ? told : question];
    return str_printf(c->derived, "%s %s", case_text(c, &asked->ask),
                      reply_words(c, read ? told : question, r))
        .p;
}

/* The answers that stand in one component, in words; null if none. */
static const char *component_words(tt_case *c, const component *g, const char **names,
                                   uint32_t *count)
{
    text_builder b = {.keep = c->derived};
    for (uint32_t i = 0; i < g->finding_count; i++) {
        uint32_t q = g->findings[i];
        if (c->now.weights[q] == NULL) continue;
        text_addf(&b, "%s%s", b.length == 0 ? "" : case_says(c, TEXT_AND), finding_words(c, q));
        names[(*count)++] = cstr(c->derived, c->book->book->questions[told_by(c, q)].id.name);
    }
    return b.length == 0 ? NULL : text_done(&b).p;
}

static bool moves(const weighed *w, const struct rule *r)
{
    for (uint32_t i = 0; i < r->factor_count; i++)
        if (1 + r->factors[i].cause == w->mine || 1 + r->factors[i].cause == w->theirs) return true;
    return false;
}

const char *const *factor_rules(const weighed *w, uint32_t *count)
{
    const book *b = w->c->book->book;
    const char **names = ARENA_ARRAY(w->c->derived, const char *, b->rule_count);
    *count = 0;
    for (uint32_t r = 0; r < b->rule_count; r++)
        if (moves(w, &b->rules[r]) &&
            case_truth(w->c, w->c->book->prog->rule_atom[r]) == TRUTH_TRUE)
            names[(*count)++] = cstr(w->c->derived, b->rules[r].id.name);
    return names;
}

static const char *const *tried_names(const weighed *w, uint32_t *count)
{
    const book *b = w->c->book->book;
    const char **names = ARENA_ARRAY(w->c->derived, const char *, b->fix_count);
    *count = 0;
    for (uint32_t f = 0; f < b->fix_count; f++)
        if (w->c->now.tried[f]) names[(*count)++] = cstr(w->c->derived, b->fixes[f].id.name);
    return names;
}

/* ---- bars ---- */

/* What is told in the same words is one sign: one reading may be compared with two limits. */
static void add_answers(tt_bar *bars, uint32_t first, uint32_t *count, tt_bar one)
{
    assert(first <= *count);
    for (uint32_t i = first; i < *count; i++) {
        if (strcmp(bars[i].text, one.text) != 0) continue;
        bars[i].decibels += one.decibels;
        return;
    }
    bars[(*count)++] = one;
}

static int heaviest_first(const void *left, const void *right)
{
    const tt_bar *a = left, *b = right;
    const double x = fabs(a->decibels), y = fabs(b->decibels);
    return x != y ? -THREE_WAY(x, y) : strcmp(a->text, b->text);
}

static void add_whole(weighed *w, tt_bar *bars, const char *kind, double decibels,
                      const char *const *names, uint32_t names_count)
{
    bars[w->out.bar_count++] = (tt_bar){
        .kind = kind, .text = "", .names = names, .name_count = names_count, .decibels = decibels};
}

static void add_all_answers(weighed *w, tt_bar *bars)
{
    tt_case *c = w->c;
    const net *n = c->book->prog->evidence;
    uint32_t first = w->out.bar_count, count = first;
    for (uint32_t g = 0; g < n->component_count; g++) {
        tt_bar one = {.kind = "answers", .decibels = w->bars[g]};
        const char **names = ARENA_ARRAY(c->derived, const char *, n->components[g].finding_count);
        one.text = component_words(c, &n->components[g], names, &one.name_count);
        one.names = names;
        if (one.text != NULL) add_answers(bars, first, &count, one);
    }
    SORT(bars + first, count - first, heaviest_first);
    w->out.bar_count = count;
}

void list_bars(weighed *w)
{
    tt_bar *bars =
        ARENA_ARRAY(w->c->derived, tt_bar, w->c->book->prog->evidence->component_count + 4);
    uint32_t count;
    add_whole(w, bars, "start", w->as_written - w->earlier, NULL, 0);
    if (w->earlier != 0) add_whole(w, bars, "earlier", w->earlier, NULL, 0);
    const char *const *names = factor_rules(w, &count);
    if (w->prior != w->as_written)
        add_whole(w, bars, "facts", w->prior - w->as_written, names, count);
    names = tried_names(w, &count);
    if (w->fixes != 0) add_whole(w, bars, "fixes", w->fixes, names, count);
    add_all_answers(w, bars);
    for (uint32_t i = 0; i < w->out.bar_count; i++)
        bars[i].strength = strength_of(bars[i].decibels);
    w->out.bars = bars;
}

/* ---- the two ---- */

static uint32_t hypothesis_at(const tt_case *c, uint32_t rank)
{
    assert(rank < c->view.cause_count);
    const char *name = c->view.causes[rank].name;
    return name == NULL ? 0 : 1 + book_cause(c->book->book, str_of(name));
}

/* With something not listed that can't be, and a cause that is ruled out, there is nothing to
 * weigh. */
static bool can_be_weighed(const weighed *w)
{
    assert(w->rank < w->c->view.cause_count && w->rival < w->c->view.cause_count);
    return w->c->view.causes[w->rank].chance > 0 || w->c->view.causes[w->rival].chance > 0;
}

/* Nothing but rounding stands between them. */
static bool are_alike(double one, double other)
{
    return fabs(one - other) < 1e-9;
}

/* As the author wrote it, with what was cured here before: that makes a cause likelier, and beside
 * it what is not listed less so, by as much as it is then likelier than all that is. */
static void weigh_prior(weighed *w)
{
    const net *n = w->c->book->prog->evidence;
    const double alone = belief_bar_of_prior(n, NULL, w->mine, w->theirs);
    w->as_written = belief_bar_of_prior(n, w->c->returns, w->mine, w->theirs);
    if (are_alike(w->as_written, alone)) w->as_written = alone;
    w->earlier = w->as_written - alone;
    if (are_alike(w->prior, w->as_written)) w->as_written = w->prior;
}

tt_status weigh_two(weighed *w)
{
    tt_case *c = w->c;
    const net *n = c->book->prog->evidence;
    if (w->rival == TT_NONE) w->rival = w->rank == 0 ? 1 : 0;
    if (w->rank >= c->view.cause_count || w->rival >= c->view.cause_count || w->rank == w->rival ||
        !can_be_weighed(w))
        return TT_NOT_NOW;
    w->mine = hypothesis_at(c, w->rank);
    w->theirs = hypothesis_at(c, w->rival);
    double *bars = ARENA_ARRAY(c->derived, double, n->component_count);
    const evidence seen = case_evidence(c);
    belief_bars(c->now.single, c->scratch, &seen, w->mine, w->theirs, &w->prior, bars);
    w->bars = bars;
    weigh_prior(w);
    w->fixes = belief_bar_of_outcomes(c->now.single, w->mine, w->theirs);
    w->total = w->prior + w->fixes;
    for (uint32_t g = 0; g < n->component_count; g++) w->total += bars[g];
    w->out = (tt_why){.cause = c->view.causes[w->rank],
                      .rival = c->view.causes[w->rival],
                      .decibels = w->total,
                      .two_faults = c->now.pairs_matter};
    return TT_OK;
}

static tt_status why_cause(void *context)
{
    weighed *w = context;
    tt_status status = weigh_two(w);
    if (status == TT_OK) list_bars(w);
    return status;
}

tt_status tt_why_cause(tt_case *c, uint32_t rank, uint32_t rival, tt_why *out)
{
    assert(out != NULL);
    const tt_view *view;
    weighed w = {.c = c, .rank = rank, .rival = rival};
    tt_status status = tt_look(c, &view);
    if (status == TT_OK) status = guarded_case(c, why_cause, &w);
    *out = status == TT_OK ? w.out : (tt_why){0};
    return status;
}
