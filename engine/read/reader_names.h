/* Names while a book is being read: what a name may be, which entry it means, and what is said of
 * one that nothing has. Each file asks only those above it here. */
#ifndef TT_READ_READER_NAMES_H
#define TT_READ_READER_NAMES_H

#include "read/reader_state.h"

/* From here on entry `e` is being read: bare names mean its piece's. */
static inline void enter(reader *r, const named *e)
{
    r->here = e->of;
}

/* ---- names.c ---- */
bool check_name(reader *r, str name, span at, const char *what);
/* "fan-stuck" for "Fan_Stuck": what check_name says to write instead. */
str name_meant(arena *scratch, str wrong);
str base_of_name(str name); /* what stands before " of " */
uint32_t table_find(const name_table *t, str name);
const named *base_find(const reader *r, section s, str base);

/* ---- suggest.c ---- */
/* Where a name was looked for: a section, or one of these. */
enum {
    WHERE_ROLE = SECTION_COUNT,
    WHERE_INSERT,
    WHERE_CONDITION,
    WHERE_KIND,
    WHERE_PIECE,
    WHERE_PAIR, /* the name of the entry that says "of first", but is written for no pairs */
};
/* Whether this was said already of this name there; from now on it counts as said. */
bool missing_before(reader *r, int where, str name);
/* An entry of the section has a name that can't be used ("Fan_Stuck"): whoever asks for what it
 * should be called ("fan-stuck") is not told besides that there is none. */
void name_told_already(reader *r, section s, str wrong);
/* Index of a name near enough to be meant, or SIZE_MAX. */
size_t nearest_name(reader *r, str wrong, const str *names, uint32_t count);
/* Adds "write 'nearest'" or the list of what there is. */
void suggest(reader *r, fault *f, str wrong, const str *names, uint32_t count);
/* …of the names that the language has: these stand in no file that could be lost. */
void suggest_key(reader *r, fault *f, str wrong, const str *names, uint32_t count);
/* The same for a name of a section's entry, perhaps with "of …" behind it. */
void suggest_name(reader *r, fault *f, str wrong, const str *bases, uint32_t count);
/* Nothing here is like it, and it may stand in what could not be read. */
bool may_be_lost(reader *r, str name, const str *bases, uint32_t count);
/* Where else the name stands, for "'x' is a cause, not a fix"; null if nowhere. */
const char *name_elsewhere(const reader *r, str name);

/* ---- piece_names.c ---- */
str name_of_piece(const reader *r, arena *keep, str base, uint32_t piece, uint32_t second);
uint32_t piece_of_kind(const reader *r, uint32_t kind, str name); /* or NO_ID */
void suggest_pieces(reader *r, fault *f, str wrong, uint32_t kind);
/* The piece among these that is alone of its kind, or NO_ID. */
uint32_t only_piece_of(const book *b, const ids *pieces, uint32_t kind);
/* The piece of this kind on which that one hangs, or NO_ID. */
uint32_t carrier_of_kind(const book *b, uint32_t piece, uint32_t kind);
/* It hangs on one, but on which can't be known: that was told already. */
bool carrier_is_lost(const reader *r, uint32_t piece, uint32_t kind);
/* It hangs on one, and the site has none: tells it. */
bool hangs_on_none(reader *r, uint32_t piece, uint32_t kind);
const node *hangs_on_node(const node *body); /* of a kind or a piece; may be null */
uint32_t first_piece_of(const piece *pieces, uint32_t count, uint32_t kind); /* or NO_ID */

/* ---- look_up.c: names with and without "of …" ---- */
typedef enum names_how { NAMES_ONE, NAMES_ANY, NAMES_EVERY } names_how;
typedef struct names_found {
    names_how how;
    const uint32_t *ids;
    uint32_t count;
} names_found;
typedef enum look_up_state {
    LOOK_UP_FOUND,
    LOOK_UP_MISSING, /* nothing has this name; the caller says so */
    LOOK_UP_REPORTED,
} look_up_state;
/* "foam-look", "foam-look of floor-left", "… of first", "… of any applicator", "… of every
 * applicator". A rule for each pair is "dirt-passes of coarse and fine". */
look_up_state look_up(reader *r, section s, str name, span at, names_found *out);
/* The same where one is wanted. */
look_up_state look_up_one(reader *r, section s, str name, span at, uint32_t *id);

/* ---- resolve.c: the same where it must be there; else a fault ---- */
uint32_t resolve(reader *r, section s, str name, span at); /* or NO_ID */
/* Several at once: "x of any K" and "x of every K" mean each. False: a fault was added. */
bool resolve_many(reader *r, section s, str name, span at, names_found *out);
uint32_t resolve_role(reader *r, const node *n);
uint32_t resolve_kind(reader *r, str name, span at);
ids read_ids(reader *r, section s, const node *n, const char *what);

/* ---- kinds.c: which kinds and pieces of equipment there are ---- */
/* First the names alone, since other names are multiplied by them; then, once the manifest says the
 * language, the texts. */
void collect_kinds(reader *r, const node_entry *const *entries, uint32_t count);
void collect_pieces(reader *r);
void read_kinds(reader *r);
/* `at: [floor-left]` */
ids pieces_named(reader *r, const node *n);
/* comes_before.c: fills in what comes after each piece, through others too */
void read_order(reader *r, piece *pieces);
/* hanging.c: what hangs on what, and of which kinds there is a lone piece. */
void read_hanging(reader *r, piece *pieces);

#endif
