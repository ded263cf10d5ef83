/* The pieces of equipment that a case is about. A kind's cause carries the whole kind's share,
 * split evenly over the pieces in focus; at other pieces it is no hypothesis until a symptom of it
 * is shown there. Naming pieces of one kind says nothing about other kinds, but for those on which
 * they hang, or which hang on them: a row's stand, a stand's rows. */
#include <assert.h>

#include "session/session.h"

void focus_on(tt_case *c, const ids *pieces, bool more)
{
    const book *b = c->book->book;
    if (!more || !c->now.focused)
        for (uint32_t i = 0; i < b->piece_count; i++) c->now.focus[i] = false;
    c->now.focused = true;
    for (uint32_t i = 0; i < pieces->count; i++) c->now.focus[pieces->items[i]] = true;
}

static bool lists_cause_of(const book *b, const struct symptom *s, uint32_t piece)
{
    assert(piece < b->piece_count);
    for (uint32_t i = 0; i < s->shown_by_count; i++)
        if (b->causes[s->shown_by[i].cause].of.piece == piece) return true;
    return false;
}

/* Pieces stand by kind. */
static uint32_t end_of_kind(const book *b, uint32_t from)
{
    assert(from < b->piece_count);
    uint32_t to = from + 1;
    while (to < b->piece_count && b->pieces[to].kind == b->pieces[from].kind) to++;
    return to;
}

static bool named_any(const tt_case *c, uint32_t from, uint32_t to)
{
    for (uint32_t i = from; i < to; i++)
        if (c->now.focus[i]) return true;
    return false;
}

static void take_in(tt_case *c, const struct symptom *s, uint32_t piece)
{
    if (piece != NO_ID && !c->now.in_focus[piece])
        c->now.in_focus[piece] = lists_cause_of(c->book->book, s, piece);
}

static void take_in_shown(tt_case *c)
{
    const book *b = c->book->book;
    for (uint32_t s = 0; s < b->symptom_count; s++) {
        const uint32_t piece = b->symptoms[s].of.piece,
                       carrier = piece == NO_ID ? NO_ID : b->pieces[piece].hangs_on;
        const bool all_in = piece == NO_ID || (c->now.in_focus[piece] &&
                                               (carrier == NO_ID || c->now.in_focus[carrier]));
        if (all_in || case_truth(c, c->book->prog->symptom_atom[s]) != TRUTH_TRUE) continue;
        take_in(c, &b->symptoms[s], piece);
        take_in(c, &b->symptoms[s], carrier);
    }
}

static bool carries_named(const tt_case *c, uint32_t piece)
{
    const book *b = c->book->book;
    for (uint32_t i = 0; i < b->piece_count; i++)
        if (b->pieces[i].hangs_on == piece && c->now.focus[i]) return true;
    return false;
}

/* A named row's stand, and a named stand's rows. */
static bool goes_with_named(const tt_case *c, uint32_t piece)
{
    const book *b = c->book->book;
    const uint32_t carrier = b->pieces[piece].hangs_on;
    return (carrier != NO_ID && c->now.focus[carrier]) || carries_named(c, piece);
}

/* A row that is named brings its stand, though another stand is named as well. */
static bool is_in_focus(const tt_case *c, uint32_t piece, bool named, bool with)
{
    if (with) return goes_with_named(c, piece);
    return !named || c->now.focus[piece] || carries_named(c, piece);
}

void focus_find(tt_case *c)
{
    const book *b = c->book->book;
    for (uint32_t from = 0, to; from < b->piece_count; from = to) {
        to = end_of_kind(b, from);
        const bool named = named_any(c, from, to);
        bool with = false;
        for (uint32_t i = from; i < to && !named; i++) with |= goes_with_named(c, i);
        for (uint32_t i = from; i < to; i++) {
            c->now.of_named_kind[i] = named || with;
            c->now.in_focus[i] = is_in_focus(c, i, named, with);
        }
    }
    if (c->now.focused) take_in_shown(c);
}

void focus_keep(tt_case *c)
{
    for (uint32_t i = 0; i < c->book->book->piece_count; i++)
        c->now.focus[i] |= c->now.of_named_kind[i] && c->now.in_focus[i];
}

static bool is_possible(const tt_case *c, uint32_t cause)
{
    uint32_t piece = c->book->book->causes[cause].of.piece;
    return (piece == NO_ID || c->now.in_focus[piece]) &&
           case_truth(c, c->book->prog->cause_atom[cause]) != TRUTH_FALSE;
}

/* Causes [from, to) are one cause at all the pieces of its kind: the compiled shares split it over
 * all of them, here over those in focus. */
static void split(const tt_case *c, uint32_t from, uint32_t to, double *factor)
{
    assert(from < to && to <= c->book->book->cause_count);
    uint32_t among = 0;
    for (uint32_t i = from; i < to; i++) among += is_possible(c, i);
    for (uint32_t i = from; i < to; i++) {
        double part = c->book->book->causes[i].each || among == 0 ? 1 : (double)(to - from) / among;
        factor[i] *= is_possible(c, i) ? part : 0;
    }
}

static void focus_share(const tt_case *c, double *factor)
{
    const book *b = c->book->book;
    const facts *f = c->book->prog->facts;
    for (uint32_t from = 0, to; from < b->cause_count; from = to) {
        to = f->span_end[from];
        assert(to > from && to <= b->cause_count);
        bool parted = b->causes[from].of.piece != NO_ID || c->book->prog->cause_atom[from] != NO_ID;
        if (parted && !f->split_in_blocks[from]) split(c, from, to, factor);
    }
}

facts_outlook case_outlook(tt_case *c, const facts *f)
{
    const facts_told told = {c->told, c->told_known, c->now.weights,
                             c->now.focused ? c->now.in_focus : NULL};
    return facts_look(c->derived, f, &told);
}

void case_factors_with(const tt_case *c, const facts_outlook *of, double *factor)
{
    const book *b = c->book->book;
    for (uint32_t i = 0; i < b->cause_count; i++) factor[i] = of->factor[i];
    for (uint32_t r = 0; r < b->rule_count; r++) {
        if (of->f->in_blocks[r] || case_truth(c, c->book->prog->rule_atom[r]) != TRUTH_TRUE)
            continue;
        for (uint32_t i = 0; i < b->rules[r].factor_count; i++)
            factor[b->rules[r].factors[i].cause] *= b->rules[r].factors[i].factor;
    }
    for (uint32_t i = 0; i < b->cause_count && c->returns != NULL; i++) factor[i] *= c->returns[i];
    focus_share(c, factor);
}

void case_factors(tt_case *c, double *factor)
{
    facts_outlook *o = ARENA_NEW(c->derived, facts_outlook);
    *o = case_outlook(c, c->book->prog->facts);
    c->now.untold = o;
    case_factors_with(c, o, factor);
}
