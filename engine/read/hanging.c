/* Which equipment hangs on which, by `hangs-on` of its kind and of the site: a row on its pump
 * stand. */

#include "read/reader.h"

/* ---- kinds ---- */

static void kind_on_itself(reader *r, const equipment_kind *k, span at)
{
    fault *f = fault_add(r->list, FAULT_HANGS_WRONG, at,
                         "A piece of equipment can't hang on another '%.*s'.", STR_ARG(k->id.name));
    fault_help(r->list, f,
               "Name the other kind that feeds or carries it, or leave 'hangs-on' out.");
}

static void kind_in_a_chain(reader *r, const equipment_kind *k, const equipment_kind *carrier,
                            span at)
{
    fault *f = fault_add(r->list, FAULT_HANGS_WRONG, at,
                         "'%.*s' hangs on '%.*s', which hangs on something itself; one step is all "
                         "that is followed.",
                         STR_ARG(k->id.name), STR_ARG(carrier->id.name));
    fault_note_at(r->list, f, carrier->id.at, "'%.*s' stands here.", STR_ARG(carrier->id.name));
    fault_help(r->list, f,
               "Keep the one of which rules speak most, and leave 'hangs-on' out of the other.");
}

static void read_kind_hanging(reader *r, equipment_kind *k, const node *n)
{
    str word;
    if (!read_word(r, n, "a kind of equipment", &word)) return;
    const uint32_t carrier = resolve_kind(r, word, n->at);
    if (carrier == NO_ID) return;
    if (str_eq(r->book->kinds[carrier].id.name, k->id.name))
        kind_on_itself(r, k, n->at);
    else
        k->hangs_on = carrier;
}

static void check_chains(reader *r, equipment_kind *kinds)
{
    for (uint32_t i = 0; i < r->book->kind_count; i++) {
        const uint32_t on = kinds[i].hangs_on;
        if (on == NO_ID || hangs_on_node(r->kind_nodes[on]) == NULL) continue;
        kind_in_a_chain(r, &kinds[i], &kinds[on], hangs_on_node(r->kind_nodes[i])->at);
        kinds[i].hangs_on = NO_ID;
    }
}

/* ---- pieces ---- */

static uint32_t pieces_of(const piece *pieces, uint32_t count, uint32_t kind)
{
    uint32_t of_it = 0;
    for (uint32_t i = 0; i < count; i++) of_it += pieces[i].kind == kind;
    return of_it;
}

static void hangs_on_nothing(reader *r, const piece *p, const node *n)
{
    str kind = r->book->kinds[p->kind].id.name;
    fault *f = fault_add(r->list, FAULT_HANGS_WRONG, n->at,
                         "By the book no %.*s hangs on anything, so '%.*s' can't either.",
                         STR_ARG(kind), STR_ARG(p->id.name));
    fault_help(r->list, f,
               "Leave 'hangs-on' out here; it belongs to pieces whose kind says it too.");
}

static void hangs_unsaid(reader *r, const piece *p, uint32_t carrier)
{
    str kind = r->book->kinds[carrier].id.name;
    fault *f =
        fault_add(r->list, FAULT_HANGS_WRONG, p->id.at,
                  "There are several of '%.*s' here, and of '%.*s' is not said on which it hangs.",
                  STR_ARG(kind), STR_ARG(p->id.name));
    const uint32_t first = first_piece_of(r->book->pieces, r->book->piece_count, carrier);
    fault_help(r->list, f, "Write 'hangs-on: %.*s', or which one it is.",
               STR_ARG(r->book->pieces[first].id.name));
}

static void no_such_carrier(reader *r, uint32_t carrier, str name, span at)
{
    if (r->pieces_lost) return;
    fault *f = fault_add(r->list, FAULT_UNKNOWN_PIECE, at, "The site has no %.*s '%.*s'.",
                         STR_ARG(r->book->kinds[carrier].id.name), STR_ARG(name));
    suggest_pieces(r, f, name, carrier);
}

static uint32_t carrier_said(reader *r, const node *n, uint32_t kind)
{
    str name;
    if (!read_word(r, n, "a piece of equipment", &name)) return NO_ID;
    const uint32_t carrier = piece_of_kind(r, kind, name);
    if (carrier == NO_ID)
        no_such_carrier(r, kind, name, n->at);
    else
        mention_add(r->book->mentions,
                    (mention){NAMED_PIECE, MENTION_ALONE, name, STR(""), STR(""), n->at});
    return carrier;
}

/* Of stand-ins the first hangs on the first. */
static uint32_t carrier_stood_in(const piece *pieces, uint32_t count, uint32_t i, uint32_t kind)
{
    const uint32_t nth = i - first_piece_of(pieces, count, pieces[i].kind);
    return first_piece_of(pieces, count, kind) + nth;
}

static void read_piece_hanging(reader *r, piece *pieces, uint32_t i)
{
    const book *b = r->book;
    const uint32_t kind = b->kinds[pieces[i].kind].hangs_on;
    const node *n = hangs_on_node(r->piece_nodes[i]);
    pieces[i].hangs_on = NO_ID;
    if (kind == NO_ID) {
        if (n != NULL && hangs_on_node(r->kind_nodes[pieces[i].kind]) == NULL)
            hangs_on_nothing(r, &pieces[i], n);
        return;
    }
    const uint32_t carriers = pieces_of(pieces, b->piece_count, kind);
    if (pieces[i].stand_in)
        pieces[i].hangs_on = carrier_stood_in(pieces, b->piece_count, i, kind);
    else if (n != NULL)
        pieces[i].hangs_on = carrier_said(r, n, kind);
    else if (carriers > 1)
        hangs_unsaid(r, &pieces[i], kind);
    else if (carriers == 1)
        pieces[i].hangs_on = first_piece_of(pieces, b->piece_count, kind);
}

void read_hanging(reader *r, piece *pieces)
{
    const uint32_t count = r->book->kind_count;
    equipment_kind *kinds = ARENA_ARRAY(r->keep, equipment_kind, count);
    for (uint32_t i = 0; i < count; i++) {
        const node *body = r->kind_nodes[i], *n = hangs_on_node(body);
        const bool unnamed = node_get(body, "unnamed") != NULL;
        kinds[i] = r->book->kinds[i];
        kinds[i].lone = unnamed && pieces_of(pieces, r->book->piece_count, i) <= 1;
        kinds[i].hangs_on = NO_ID;
        if (n != NULL) read_kind_hanging(r, &kinds[i], n);
    }
    check_chains(r, kinds);
    r->book->kinds = kinds;
    for (uint32_t i = 0; i < r->book->piece_count; i++) read_piece_hanging(r, pieces, i);
}
