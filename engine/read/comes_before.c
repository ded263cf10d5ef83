/* Which piece of equipment comes before which, by the site's `comes-before`. */
#include <assert.h>

#include "read/reader.h"

enum { LOOP_SHOWN_MAX = 12 };

static uint32_t later_piece(reader *r, const piece *p, const node *n)
{
    str name;
    if (!read_word(r, n, "a piece of equipment", &name)) return NO_ID;
    uint32_t id = piece_of_kind(r, p->kind, name);
    if (id == NO_ID && !r->pieces_lost) {
        fault *f = fault_add(r->list, FAULT_UNKNOWN_PIECE, n->at, "The site has no %.*s '%.*s'.",
                             STR_ARG(r->book->kinds[p->kind].id.name), STR_ARG(name));
        suggest_pieces(r, f, name, p->kind);
    }
    if (id != NO_ID)
        mention_add(r->book->mentions,
                    (mention){NAMED_PIECE, MENTION_ALONE, name, STR(""), STR(""), n->at});
    return id;
}

static ids read_comes_before(reader *r, const piece *p, const node *n)
{
    if (n->kind != NODE_LIST) {
        wrong_kind(r, n, "'comes-before'", "a list of names");
        return (ids){0};
    }
    uint32_t *items = ARENA_ARRAY(r->scratch, uint32_t, n->count), count = 0;
    for (uint32_t i = 0; i < n->count; i++) {
        uint32_t id = n->items[i]->kind == NODE_TEXT && item_twice(r, n, i)
                          ? NO_ID
                          : later_piece(r, p, n->items[i]);
        if (id != NO_ID) items[count++] = id;
    }
    return ids_of(items, count);
}

/* ---- through others too ---- */

/* From one piece over what follows it. At most PIECES_MAX pieces with LIST_ITEMS_MAX followers
 * each, so that a walk from every piece is still nothing. */
typedef struct walk {
    const ids *direct; /* [piece] */
    bool *seen;        /* [piece] */
    uint32_t *from;    /* [piece] by which it was reached */
    uint32_t *queue, queued;
} walk;

static void step_on(walk *w, uint32_t piece)
{
    const ids *next = &w->direct[piece];
    for (uint32_t i = 0; i < next->count; i++) {
        uint32_t to = next->items[i];
        if (w->seen[to]) continue;
        w->seen[to] = true;
        w->from[to] = piece;
        w->queue[w->queued++] = to;
    }
}

static void walk_from(walk *w, uint32_t start, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) w->seen[i] = false;
    w->queued = 0;
    step_on(w, start);
    for (uint32_t next = 0; next < w->queued; next++) step_on(w, w->queue[next]);
}

/* The shortest way round, told once for all the pieces on it. */
static void order_loop(reader *r, const walk *w, uint32_t start, bool *told)
{
    const piece *pieces = r->book->pieces;
    text_builder way = {.keep = r->scratch};
    uint32_t *back = ARENA_ARRAY(r->scratch, uint32_t, w->queued + 1), length = 0;
    for (uint32_t at = w->from[start]; at != start; at = w->from[at]) back[length++] = at;
    told[start] = true;
    for (uint32_t i = length; i > 0; i--) {
        told[back[i - 1]] = true;
        if (length - i < LOOP_SHOWN_MAX)
            text_addf(&way, "%.*s, then ", STR_ARG(pieces[back[i - 1]].id.name));
    }
    str name = pieces[start].id.name;
    fault *f = fault_add(
        r->list, FAULT_ORDER_LOOP, pieces[start].id.at,
        "By 'comes-before' '%.*s' would come before itself: %.*s, then %.*s%s%.*s.", STR_ARG(name),
        STR_ARG(name), STR_ARG(way.length == 0 ? STR("") : text_done(&way)),
        length > LOOP_SHOWN_MAX ? "…, then " : "", STR_ARG(name));
    fault_help(r->list, f,
               "Say of each piece only what comes after it, in the order the work meets them.");
}

static void close_order(reader *r, piece *pieces, const ids *direct)
{
    uint32_t count = r->book->piece_count;
    bool *told = ARENA_ARRAY(r->scratch, bool, count);
    walk w = {.direct = direct,
              .seen = ARENA_ARRAY(r->scratch, bool, count),
              .from = ARENA_ARRAY(r->scratch, uint32_t, count),
              .queue = ARENA_ARRAY(r->scratch, uint32_t, count)};
    for (uint32_t i = 0; i < count; i++) {
        walk_from(&w, i, count);
        if (w.seen[i] && !told[i]) order_loop(r, &w, i, told);
        if (w.seen[i]) continue;
        uint32_t *after = ARENA_ARRAY(r->keep, uint32_t, w.queued);
        for (uint32_t k = 0; k < w.queued; k++) after[k] = w.queue[k];
        pieces[i].after = ids_of(after, w.queued);
    }
}

/* Of two stand-ins the first comes before the second, so that rules for pairs are read as well. */
static ids after_stand_in(reader *r, const piece *pieces, uint32_t i)
{
    bool next = i + 1 < r->book->piece_count && pieces[i + 1].kind == pieces[i].kind;
    if (!pieces[i].stand_in || !next) return (ids){0};
    uint32_t *one = ARENA_NEW(r->scratch, uint32_t);
    *one = i + 1;
    return (ids){one, 1};
}

void read_order(reader *r, piece *pieces)
{
    uint32_t before = faults_met(r->list);
    uint32_t count = r->book->piece_count;
    ids *direct = ARENA_ARRAY(r->scratch, ids, count);
    for (uint32_t i = 0; i < count; i++) {
        const node *n =
            r->piece_nodes[i] == NULL ? NULL : node_get(r->piece_nodes[i], "comes-before");
        direct[i] = n != NULL ? read_comes_before(r, &pieces[i], n) : after_stand_in(r, pieces, i);
    }
    close_order(r, pieces, direct);
    r->order_lost = faults_met(r->list) > before;
}
