/* Names with and without "of …": which entries they mean, once what is written for each piece of a
 * kind is there for each. */
#include "base/str_head.h"
#include "read/reader_names.h"

typedef enum which {
    WHICH_NONE,
    WHICH_PIECE,
    WHICH_FIRST,
    WHICH_SECOND,
    WHICH_ANY,
    WHICH_EVERY
} which;

typedef struct full_name {
    str base, word; /* word: the piece, the kind, or "coarse and fine" */
    which whose;
} full_name;

static full_name take_apart(str name)
{
    size_t of = str_find(name, STR(" of "));
    if (of == SIZE_MAX) return (full_name){name, STR(""), WHICH_NONE};
    full_name n = {base_of_name(name), str_trim(str_slice(name, of + 4, name.n)), WHICH_PIECE};
    if (str_is(n.word, "first")) n.whose = WHICH_FIRST;
    if (str_is(n.word, "second")) n.whose = WHICH_SECOND;
    bool any = str_starts(n.word, "any "), every = str_starts(n.word, "every ");
    if (any || every) {
        n.whose = any ? WHICH_ANY : WHICH_EVERY;
        n.word = str_trim(str_slice(n.word, any ? 4 : 6, n.word.n));
    }
    return n;
}

/* ---- what can be wrong ---- */

static str kind_name(const reader *r, uint32_t kind)
{
    return r->book->kinds[kind].id.name;
}

/* Of what an entry's piece hangs on, or a case's, the error stands where that is said. */
static bool is_told_of_hanging(reader *r, uint32_t kind)
{
    if (r->here.piece != NO_ID && r->here.second == NO_ID)
        return carrier_is_lost(r, r->here.piece, kind) || hangs_on_none(r, r->here.piece, kind);
    bool lost = false;
    for (uint32_t i = 0; i < r->case_at.count; i++)
        lost |= carrier_is_lost(r, r->case_at.items[i], kind);
    return lost;
}

static look_up_state say_which(reader *r, const full_name *n, uint32_t kind, span at)
{
    if (is_told_of_hanging(r, kind)) return LOOK_UP_REPORTED;
    str k = kind_name(r, kind);
    fault *f = fault_add(r->list, FAULT_PIECE_WANTED, at,
                         "'%.*s' is there once for each %.*s, and this does not say for which.",
                         STR_ARG(n->base), STR_ARG(k));
    uint32_t some = first_piece_of(r->book->pieces, r->book->piece_count, kind);
    str one = some == NO_ID ? STR("") : r->book->pieces[some].id.name;
    if (r->in_cases && some != NO_ID)
        fault_help(r->list, f, "Name one, such as '%.*s of %.*s'%s", STR_ARG(n->base), STR_ARG(one),
                   r->case_at.count > 0 ? "."
                                        : ", or say with 'at' which one all bare names mean.");
    else if (r->one_wanted && r->here.second == NO_ID)
        fault_help(r->list, f, "Write this entry 'for-each: %.*s' too, or name one piece.",
                   STR_ARG(k));
    else if (r->here.second != NO_ID)
        fault_help(r->list, f, "Write '%.*s of first' or '%.*s of second'.", STR_ARG(n->base),
                   STR_ARG(n->base));
    else
        fault_help(r->list, f,
                   "Write '%.*s of any %.*s' or '%.*s of every %.*s', or write this entry "
                   "'for-each: %.*s' too.",
                   STR_ARG(n->base), STR_ARG(k), STR_ARG(n->base), STR_ARG(k), STR_ARG(k));
    return LOOK_UP_REPORTED;
}

static look_up_state not_for_each(reader *r, const full_name *n, span at)
{
    fault *f =
        fault_add(r->list, FAULT_PIECE_OF_SHARED, at,
                  "'%.*s' is there once for the whole site, not for each piece of equipment.",
                  STR_ARG(n->base));
    fault_help(r->list, f, "Write '%.*s' alone.", STR_ARG(n->base));
    return LOOK_UP_REPORTED;
}

static look_up_state other_kind(reader *r, const full_name *n, uint32_t kind, span at)
{
    str k = kind_name(r, kind);
    fault *f = fault_add(r->list, FAULT_UNKNOWN_PIECE, at,
                         "'%.*s' is there for each %.*s, not for '%.*s'.", STR_ARG(n->base),
                         STR_ARG(k), STR_ARG(n->word));
    fault_help(r->list, f, "Write '%.*s of %s %.*s'.", STR_ARG(n->base),
               n->whose == WHICH_EVERY ? "every" : "any", STR_ARG(k));
    return LOOK_UP_REPORTED;
}

static look_up_state no_pair(reader *r, const full_name *n, span at)
{
    if (missing_before(r, WHERE_PAIR, r->here.base)) return LOOK_UP_REPORTED;
    fault *f = fault_add(r->list, FAULT_PIECE_WANTED, at,
                         "'%.*s of %s' has a meaning only in a rule for each pair.",
                         STR_ARG(n->base), n->whose == WHICH_FIRST ? "first" : "second");
    fault_help(r->list, f, "Write the rule with 'for-each-pair', or name the piece.");
    return LOOK_UP_REPORTED;
}

static look_up_state no_such_piece(reader *r, const full_name *n, uint32_t kind, span at)
{
    if (r->pieces_lost || missing_before(r, WHERE_PIECE, n->word)) return LOOK_UP_REPORTED;
    str k = kind_name(r, kind);
    fault *f = fault_add(r->list, FAULT_UNKNOWN_PIECE, at, "The site has no %.*s '%.*s'.",
                         STR_ARG(k), STR_ARG(n->word));
    if (str_eq(n->word, k))
        fault_help(r->list, f, "Write 'of any %.*s', 'of every %.*s', or name one.", STR_ARG(k),
                   STR_ARG(k));
    else
        suggest_pieces(r, f, n->word, kind);
    return LOOK_UP_REPORTED;
}

static look_up_state no_such_pair(reader *r, const full_name *n, span at)
{
    if ((r->pieces_lost || r->order_lost) && n->whose == WHICH_PIECE) return LOOK_UP_REPORTED;
    fault *f =
        n->whose == WHICH_PIECE
            ? fault_add(r->list, FAULT_UNKNOWN_PIECE, at,
                        "By 'comes-before' the site has no pair '%.*s'.", STR_ARG(n->word))
            : fault_add(r->list, FAULT_PIECE_WANTED, at,
                        "'%.*s' is there once for each pair, and this does not say for which.",
                        STR_ARG(n->base));
    fault_help(r->list, f,
               "Write '%.*s of' and two pieces with 'and' between them, the one that comes first "
               "before the other.",
               STR_ARG(n->base));
    return LOOK_UP_REPORTED;
}

static look_up_state too_many_meant(reader *r, span at)
{
    fault *f = fault_add(r->list, FAULT_TOO_MANY, at,
                         "All 'of any' and 'of every' together mean more than %d names.",
                         GROUND_NAMES_MAX);
    fault_help(r->list, f, "Name fewer pieces of equipment at the site.");
    r->names_lost = true;
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

/* Where nothing is written for pieces the table of bases is that of entries too. */
static look_up_state found_shared(reader *r, section s, const named *base, names_found *out)
{
    if (r->tables[s].names != r->bases[s].names) return found_one(r, s, base->of.base, out);
    uint32_t *id = arena_take_unset(r->scratch, sizeof *id);
    *id = (uint32_t)(base - r->bases[s].items);
    *out = (names_found){NAMES_ONE, id, 1};
    return LOOK_UP_FOUND;
}

static look_up_state found_of(reader *r, section s, const full_name *n, uint32_t piece,
                              names_found *out)
{
    return found_one(r, s, name_of_piece(r, r->scratch, n->base, piece, NO_ID), out);
}

/* In what is written for a stand, "of any row" means the rows that hang on it. */
static bool hangs_elsewhere(const reader *r, uint32_t piece)
{
    if (r->here.piece == NO_ID || r->here.second != NO_ID) return false;
    const book *b = r->book;
    const bool carries = b->kinds[b->pieces[piece].kind].hangs_on == b->pieces[r->here.piece].kind;
    return carries && b->pieces[piece].hangs_on != r->here.piece;
}

static look_up_state found_each(reader *r, section s, const full_name *n, uint32_t kind, span at,
                                names_found *out)
{
    if (!str_eq(kind_name(r, kind), n->word)) return other_kind(r, n, kind, at);
    const book *b = r->book;
    if (b->piece_count > GROUND_NAMES_MAX - r->ground_names) return too_many_meant(r, at);
    uint32_t *all = ARENA_ARRAY(r->scratch, uint32_t, b->piece_count), count = 0;
    for (uint32_t i = 0; i < b->piece_count; i++) {
        if (b->pieces[i].kind != kind || hangs_elsewhere(r, i)) continue;
        const arena_mark before = arena_here(r->scratch);
        const uint32_t id =
            table_find(&r->tables[s], name_of_piece(r, r->scratch, n->base, i, NO_ID));
        arena_back_to(r->scratch, before);
        if (id != NO_ID) all[count++] = id;
    }
    r->ground_names += count;
    *out = (names_found){n->whose == WHICH_ANY ? NAMES_ANY : NAMES_EVERY, all, count};
    return LOOK_UP_FOUND;
}

/* Which one a bare name means: the entry's own piece, in a case the only one of the kind that the
 * call is about. NO_ID: none, or several. */
static uint32_t piece_meant(const reader *r, uint32_t kind)
{
    const piece *pieces = r->book->pieces;
    if (r->here.piece != NO_ID && r->here.second != NO_ID) return NO_ID;
    if (r->here.piece != NO_ID)
        return pieces[r->here.piece].kind == kind ? r->here.piece
                                                  : carrier_of_kind(r->book, r->here.piece, kind);
    return only_piece_of(r->book, &r->case_at, kind);
}

static bool here_is(const reader *r, uint32_t kind)
{
    return r->here.piece != NO_ID && r->book->pieces[r->here.piece].kind == kind;
}

/* Whether a bare name says enough of a lone piece's: the book must also do for a site that has
 * several. */
static bool lone_is_meant(const reader *r, uint32_t kind)
{
    const book *b = r->book;
    const bool hangs = r->here.piece != NO_ID && r->here.second == NO_ID &&
                       b->kinds[b->pieces[r->here.piece].kind].hangs_on == kind;
    return hangs || r->here.lone == kind + 1 || r->in_cases || r->bare_will_do || here_is(r, kind);
}

static look_up_state look_up_lone(reader *r, section s, const full_name *n, uint32_t kind, span at,
                                  names_found *out)
{
    switch (n->whose) {
    case WHICH_NONE:
        return lone_is_meant(r, kind) ? found_one(r, s, n->base, out) : say_which(r, n, kind, at);
    case WHICH_FIRST:
    case WHICH_SECOND:
        return r->here.second == NO_ID ? no_pair(r, n, at) : other_kind(r, n, kind, at);
    case WHICH_ANY:
    case WHICH_EVERY:
        if (!str_eq(kind_name(r, kind), n->word)) return other_kind(r, n, kind, at);
        const look_up_state state = found_one(r, s, n->base, out);
        out->how = n->whose == WHICH_ANY ? NAMES_ANY : NAMES_EVERY;
        out->count = state == LOOK_UP_FOUND;
        return LOOK_UP_FOUND;
    case WHICH_PIECE:
        break;
    }
    return piece_of_kind(r, kind, n->word) == NO_ID ? no_such_piece(r, n, kind, at)
                                                    : found_one(r, s, n->base, out);
}

static look_up_state look_up_kind(reader *r, section s, const full_name *n, uint32_t kind, span at,
                                  names_found *out)
{
    bool pair = r->here.second != NO_ID;
    switch (n->whose) {
    case WHICH_NONE: {
        uint32_t meant = piece_meant(r, kind);
        return meant == NO_ID ? say_which(r, n, kind, at) : found_of(r, s, n, meant, out);
    }
    case WHICH_FIRST:
    case WHICH_SECOND:
        if (!pair) return no_pair(r, n, at);
        if (!here_is(r, kind)) return other_kind(r, n, kind, at);
        return found_of(r, s, n, n->whose == WHICH_FIRST ? r->here.piece : r->here.second, out);
    case WHICH_ANY:
    case WHICH_EVERY:
        return found_each(r, s, n, kind, at, out);
    case WHICH_PIECE:
        break;
    }
    uint32_t piece = piece_of_kind(r, kind, n->word);
    return piece == NO_ID ? no_such_piece(r, n, kind, at) : found_of(r, s, n, piece, out);
}

/* "dirt-passes of coarse and fine" has its own entry in the table. */
static look_up_state look_up_pair(reader *r, section s, const full_name *n, span at,
                                  names_found *out)
{
    str ground = str_printf(r->scratch, "%.*s of %.*s", STR_ARG(n->base), STR_ARG(n->word));
    bool there = n->whose == WHICH_PIECE && table_find(&r->tables[s], ground) != NO_ID;
    return there ? found_one(r, s, ground, out) : no_such_pair(r, n, at);
}

/* Pieces and kinds behind " of ". */
static void mention_behind(reader *r, const full_name *n, span at)
{
    mention_list *list = r->book->mentions;
    const bool kind = n->whose == WHICH_ANY || n->whose == WHICH_EVERY;
    const size_t and = str_find(n->word, STR(" and "));
    if (n->whose != WHICH_PIECE && !kind) return;
    const mention_form form = r->in_text != NULL ? MENTION_INSERT : MENTION_BEHIND;
    mention m = {kind ? NAMED_KIND : NAMED_PIECE, form, n->word, STR(""), STR(""), at};
    if (and != SIZE_MAX) m.name = str_trim(str_slice(n->word, 0, and));
    if (m.name.n > 0) mention_add(list, m);
    if (and != SIZE_MAX) m.name = str_trim(str_slice(n->word, and+5, n->word.n));
    if (and != SIZE_MAX && m.name.n > 0) mention_add(list, m);
}

static void mention_entry(reader *r, section s, const full_name *n, span at)
{
    if (r->book->mentions == NULL) return;
    const mention_form form = r->in_text != NULL ? MENTION_INSERT : MENTION_ALONE;
    if (r->in_text != NULL) at = r->in_text->at;
    mention_add(r->book->mentions, (mention){(uint32_t)s, form, n->base, STR(""), STR(""), at});
    mention_behind(r, n, at);
}

look_up_state look_up(reader *r, section s, str name, span at, names_found *out)
{
    full_name n = take_apart(name);
    *out = (names_found){0};
    const named *base = base_find(r, s, n.base);
    if (base == NULL) return LOOK_UP_MISSING;
    const uint32_t kind = base_kind(base);
    mention_entry(r, s, &n, at);
    if (base_is_pair(base)) return look_up_pair(r, s, &n, at, out);
    if (kind != NO_ID && r->book->kinds[kind].lone) return look_up_lone(r, s, &n, kind, at, out);
    if (kind != NO_ID) return look_up_kind(r, s, &n, kind, at, out);
    if (n.whose != WHICH_NONE) return not_for_each(r, &n, at);
    return found_shared(r, s, base, out);
}

look_up_state look_up_one(reader *r, section s, str name, span at, uint32_t *id)
{
    names_found found;
    r->one_wanted = true;
    look_up_state state = look_up(r, s, name, at, &found);
    r->one_wanted = false;
    *id = NO_ID;
    if (state != LOOK_UP_FOUND) return state;
    if (found.how == NAMES_ONE) {
        *id = found.ids[0];
        return LOOK_UP_FOUND;
    }
    fault *f =
        fault_add(r->list, FAULT_SEVERAL_FOR_ONE, at, "'%.*s' is several; here one %s is wanted.",
                  STR_ARG(name), section_entry(s));
    if (found.count > 0)
        fault_help(r->list, f, "Name one, such as '%.*s'.",
                   STR_ARG(r->tables[s].names[found.ids[0]]));
    return LOOK_UP_REPORTED;
}
