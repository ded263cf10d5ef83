/* Names with and without "of …": which ground entries they mean. */
#include <assert.h>

#include "model/reader.h"

enum { WHERE_PIECE = SECTION_COUNT + 4 };

typedef enum which { WHICH_NONE, WHICH_PIECE, WHICH_FIRST, WHICH_SECOND, WHICH_ANY, WHICH_EVERY } which;

typedef struct full_name {
    str base, word; /* word: the piece or the kind */
    which whose;
} full_name;

static full_name take_apart(str name)
{
    size_t of = str_find(name, STR(" of "));
    if (of == SIZE_MAX) return (full_name){name, STR(""), WHICH_NONE};
    full_name n = {str_trim(str_slice(name, 0, of)), str_trim(str_slice(name, of + 4, name.n)), WHICH_PIECE};
    if (str_is(n.word, "first")) n.whose = WHICH_FIRST;
    if (str_is(n.word, "second")) n.whose = WHICH_SECOND;
    bool any = str_starts(n.word, "any "), every = str_starts(n.word, "every ");
    if (any || every) {
        n.whose = any ? WHICH_ANY : WHICH_EVERY;
        n.word = str_trim(str_slice(n.word, any ? 4 : 6, n.word.n));
    }
    return n;
}

str base_of_name(str name)
{
    return take_apart(name).base;
}

static const base_name *base_find(const base_table *t, str name)
{
    uint32_t low = 0, high = t->count;
    while (low < high) {
        uint32_t middle = low + (high - low) / 2;
        int order = str_cmp(t->items[middle].name, name);
        if (order == 0) return &t->items[middle];
        if (order < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return NULL;
}

bool has_base(const reader *r, section s, str base)
{
    return base_find(&r->bases[s], base) != NULL;
}

void suggest_pieces(reader *r, fault *f, str wrong, uint32_t kind)
{
    str *names = ARENA_ARRAY(r->scratch, str, r->book->piece_count);
    uint32_t count = 0;
    for (uint32_t i = 0; i < r->book->piece_count; i++)
        if (r->book->pieces[i].kind == kind) names[count++] = r->book->pieces[i].id.name;
    suggest(r, f, wrong, names, count);
}

/* ---- what can be wrong ---- */

static str kind_name(const reader *r, uint32_t kind)
{
    return r->book->kinds[kind].id.name;
}

static look_up_state say_which(reader *r, const full_name *n, uint32_t kind, span at)
{
    str k = kind_name(r, kind);
    fault *f = fault_add(r->list, FAULT_PIECE_WANTED, at,
                         "'%.*s' is there once for each %.*s, and this does not say for which.", STR_ARG(n->base), STR_ARG(k));
    if (r->here.second != NO_ID)
        fault_help(r->list, f, "Write '%.*s of first' or '%.*s of second'.", STR_ARG(n->base), STR_ARG(n->base));
    else
        fault_help(r->list, f, "Write '%.*s of any %.*s' or '%.*s of every %.*s', or write this entry 'for-each: %.*s' too.",
                   STR_ARG(n->base), STR_ARG(k), STR_ARG(n->base), STR_ARG(k), STR_ARG(k));
    return LOOK_UP_REPORTED;
}

static look_up_state not_for_each(reader *r, const full_name *n, span at)
{
    fault *f = fault_add(r->list, FAULT_PIECE_OF_SHARED, at,
                         "'%.*s' is there once for the whole site, not for each piece of equipment.", STR_ARG(n->base));
    fault_help(r->list, f, "Write '%.*s' alone.", STR_ARG(n->base));
    return LOOK_UP_REPORTED;
}

static look_up_state other_kind(reader *r, const full_name *n, uint32_t kind, span at)
{
    str k = kind_name(r, kind);
    fault *f = fault_add(r->list, FAULT_UNKNOWN_PIECE, at, "'%.*s' is there for each %.*s, not for '%.*s'.",
                         STR_ARG(n->base), STR_ARG(k), STR_ARG(n->word));
    fault_help(r->list, f, "Write '%.*s of %s %.*s'.", STR_ARG(n->base), n->whose == WHICH_EVERY ? "every" : "any", STR_ARG(k));
    return LOOK_UP_REPORTED;
}

static look_up_state no_pair(reader *r, const full_name *n, span at)
{
    fault *f = fault_add(r->list, FAULT_PIECE_WANTED, at, "'%.*s of %s' has a meaning only in a rule for each pair.",
                         STR_ARG(n->base), n->whose == WHICH_FIRST ? "first" : "second");
    fault_help(r->list, f, "Write the rule with 'for-each-pair', or name the piece.");
    return LOOK_UP_REPORTED;
}

static look_up_state no_such_piece(reader *r, const full_name *n, uint32_t kind, span at)
{
    if (missing_before(r, WHERE_PIECE, n->word)) return LOOK_UP_REPORTED;
    str k = kind_name(r, kind);
    fault *f = fault_add(r->list, FAULT_UNKNOWN_PIECE, at, "The site has no %.*s '%.*s'.", STR_ARG(k), STR_ARG(n->word));
    suggest_pieces(r, f, n->word, kind);
    return LOOK_UP_REPORTED;
}

/* ---- what it means ---- */

static look_up_state found_one(reader *r, section s, str ground, names_found *out)
{
    uint32_t *id = ARENA_NEW(r->scratch, uint32_t);
    *id = table_find(&r->tables[s], ground);
    *out = (names_found){NAMES_ONE, id, 1};
    return *id == NO_ID ? LOOK_UP_REPORTED : LOOK_UP_FOUND;
}

static look_up_state found_of(reader *r, section s, const full_name *n, uint32_t piece, names_found *out)
{
    return found_one(r, s, name_of_piece(r, n->base, piece, NO_ID), out);
}

static look_up_state found_each(reader *r, section s, const full_name *n, uint32_t kind, span at, names_found *out)
{
    if (!str_eq(kind_name(r, kind), n->word)) return other_kind(r, n, kind, at);
    const rulebook *b = r->book;
    uint32_t *all = ARENA_ARRAY(r->scratch, uint32_t, b->piece_count), count = 0;
    for (uint32_t i = 0; i < b->piece_count; i++) {
        if (b->pieces[i].kind != kind) continue;
        names_found one;
        if (found_of(r, s, n, i, &one) == LOOK_UP_FOUND) all[count++] = one.ids[0];
    }
    *out = (names_found){n->whose == WHICH_ANY ? NAMES_ANY : NAMES_EVERY, all, count};
    return LOOK_UP_FOUND;
}

static bool here_is(const reader *r, uint32_t kind)
{
    return r->here.piece != NO_ID && r->book->pieces[r->here.piece].kind == kind;
}

static look_up_state look_up_kind(reader *r, section s, const full_name *n, uint32_t kind, span at, names_found *out)
{
    bool pair = r->here.second != NO_ID;
    uint32_t piece = NO_ID;
    switch (n->whose) {
    case WHICH_NONE:
        if (pair || !here_is(r, kind)) return say_which(r, n, kind, at);
        return found_of(r, s, n, r->here.piece, out);
    case WHICH_FIRST:
    case WHICH_SECOND:
        if (!pair) return no_pair(r, n, at);
        if (!here_is(r, kind)) return other_kind(r, n, kind, at);
        return found_of(r, s, n, n->whose == WHICH_FIRST ? r->here.piece : r->here.second, out);
    case WHICH_ANY:
    case WHICH_EVERY: return found_each(r, s, n, kind, at, out);
    case WHICH_PIECE: break;
    }
    for (uint32_t i = 0; i < r->book->piece_count; i++)
        if (r->book->pieces[i].kind == kind && str_eq(r->book->pieces[i].id.name, n->word)) piece = i;
    return piece == NO_ID ? no_such_piece(r, n, kind, at) : found_of(r, s, n, piece, out);
}

look_up_state look_up(reader *r, section s, str name, span at, names_found *out)
{
    full_name n = take_apart(name);
    *out = (names_found){0};
    const base_name *base = base_find(&r->bases[s], n.base);
    if (base == NULL) return LOOK_UP_MISSING;
    if (base->kind != NO_ID) return look_up_kind(r, s, &n, base->kind, at, out);
    if (n.whose != WHICH_NONE) return not_for_each(r, &n, at);
    return found_one(r, s, n.base, out);
}

look_up_state look_up_one(reader *r, section s, str name, span at, uint32_t *id)
{
    names_found found;
    look_up_state state = look_up(r, s, name, at, &found);
    *id = NO_ID;
    if (state != LOOK_UP_FOUND) return state;
    if (found.how == NAMES_ONE) {
        *id = found.ids[0];
        return LOOK_UP_FOUND;
    }
    fault *f = fault_add(r->list, FAULT_SEVERAL_FOR_ONE, at, "'%.*s' is several; here one %s is wanted.", STR_ARG(name),
                         section_entry(s));
    fault_help(r->list, f, "Name one piece, or write this entry 'for-each' as well.");
    return LOOK_UP_REPORTED;
}
