/* What the files of this room share while a book is being read: what was collected, and where the
 * reading stands. */
#ifndef TT_READ_READER_STATE_H
#define TT_READ_READER_STATE_H

#include "measure/amount.h"
#include "measure/formula.h"
#include "model/book.h"
#include "model/mentions.h"
#include "read/book_read.h"
#include "read/keys.h"

typedef struct named { /* an entry of a section, for one piece if it is written for each */
    label id;
    owner of;
    const node *body; /* null for a symptom made from `confirms` */
    bool broken;
    bool meant;             /* something names it */
    bool quantity;          /* in the table of questions: computed, not asked */
    uint32_t made_question; /* symptoms made from `confirms`; else NO_ID */
    str made_answer;
    const node *made_cause;
} named;

typedef struct name_table { /* in name order, each name once */
    named *items;
    const str *names;
    const uint64_t *heads; /* of the names (str_head.h) */
    uint32_t count;
} name_table;

/* A name as written, before it is multiplied by the pieces of its kind, is an entry too: in the
 * place of a piece stands its kind (NO_ID: shared), and in that of a second one too if it is there
 * for each two pieces, one after the other. */
static inline uint32_t base_kind(const named *base)
{
    return base->of.piece;
}
static inline bool base_is_pair(const named *base)
{
    return base->of.second != NO_ID;
}

typedef struct missing_name { /* reported once is enough */
    int where;
    str name;
    struct missing_name *next;
} missing_name;

enum {
    ANSWERS_MAX = 64, /* a condition holds a question's answers as bits */
    NAME_LENGTH_MAX = 64,
    SECTION_ENTRIES_MAX = 20000,
    KINDS_MAX = 100,
    PIECES_MAX = 500,
    PLACES_MAX = 500,                   /* a case knows the way from each to each */
    FIRST_FIXES_MAX = 100,              /* that one fix waits for, all counted */
    WAITING_FIXES_MAX = 10000,          /* the same, of all fixes together */
    GROUND_BYTES_MAX = 8 * 1024 * 1024, /* of what is written for each piece, times the pieces */
    GROUND_NODES_MAX = 200000,          /* of its entries, lists and texts, the same */
    GROUND_NAMES_MAX =
        100000, /* meant by "of any" and "of every" in all; readings beneath quantities in all */
    PATTERN_BYTES_MAX = 8 * 1024 * 1024, /* that all patterns fill, made ready for matching */
    PATTERN_REFUSED_BYTES = 4096,        /* what one counts for that can't be made ready */
    QUANTITIES_DEEPEST = 250,  /* each resting on the next; what walks down them calls itself */
    GATE_FACTS_MAX = 20000,    /* before all gate questions together */
    DANGER_PHRASES_MAX = 2000, /* that tell of danger, which every reply is searched for */
    LIST_ITEMS_MAX = 250,
    ROLES_MAX = 20, /* of each, what they may do is weighed where somebody may be called */
    SUGGESTIONS_MAX = 200000, /* names compared for suggestions in all, so that a million wrong
                                 names take no hours */
    MISSING_BUCKETS = 4096,
    CONDITION_DEPTH_MAX = 12, /* within what the loader's own depth lets through */
};

typedef struct unit_insert { /* "{foam-air, bar}": does the unit fit the reading? */
    uint32_t question;
    str unit;
    span at;
    struct unit_insert *next;
} unit_insert;

typedef struct when_insert { /* "{foam-air as found}": does any fix adjust the reading? */
    uint32_t question;
    span at;
    struct when_insert *next;
} when_insert;
typedef struct made_cond {
    cond *c;
    struct made_cond *next;
} made_cond;

typedef enum shared_kind {
    SHARED_TEXTS,
    SHARED_STEPS,
    SHARED_HEARD,
    SHARED_ANSWERS,
    SHARED_YES_NO,
    SHARED_KINDS
} shared_kind;
typedef struct shared_read { /* what came of a node for the piece before */
    const node *from;
    const void *items; /* texts, heard, one option_list, or answers */
    uint32_t count;
} shared_read;
enum { SHARED_READS = 64 };

typedef struct option_list {
    answer_option *options;
    uint32_t count;
    const uint32_t *shown_order;
} option_list;

struct reader;
/* Reads the value of a key into its place in the entry. */
typedef void key_reader(struct reader *r, const node *n, const key *k, void *entry);

typedef struct reader {
    arena *keep, *scratch;
    key_reader *read_key; /* key_kinds.c: what stands in a map may be a map with keys itself */
    faults *list;
    book *book; /* being built */
    const node *manifest;
    span manifest_at;
    name_table tables[SECTION_COUNT];
    name_table bases[SECTION_COUNT]; /* of nothing for pieces, the same */
    const node *site;                /* the section, or null */
    span site_at;
    /* file that stands in its place, NO_FILE: none does, NO_SITE: it is left out */
    uint32_t site_file;
    const node *const *kind_nodes;  /* [kind] */
    const node *const *piece_nodes; /* [piece], or null */
    owner here;                     /* the entry that is being read */
    bool of_any;                    /* …and texts name its kind, not its piece */
    bool to_be_headed;              /* …and a text that does not name its piece begins with it */
    bool piece_said;                /* the text that was read last names it, in its language */
    bool bare_will_do;    /* the site is read: of what a lone one has, the bare name is enough */
    bool one_wanted;      /* …and the name looked up must mean one entry */
    const node *in_text;  /* names in the braces of this text are looked up */
    bool in_cases;        /* worked cases are read, which have no 'for-each' */
    ids case_at;          /* …and the pieces that this one is about */
    bool in_symptom;      /* …and it is the condition of a symptom */
    size_t pattern_bytes; /* filled by patterns so far */
    bool numbers_only;    /* a range is read that must be the same at every site: no formula */
    bool gate_wanted;     /* no gate question is asked in every call: the engine adds its own */
    str gate_name;        /* …under this name */
    const node *strange;  /* the map in which a key was unknown last */
    bool names_lost;      /* a file could not be read: names may be missing for that reason */
    bool roles_lost;
    bool pieces_lost; /* what the site has could not be read to its end */
    bool order_lost;  /* nor could 'comes-before', or it runs in a circle: pairs may be missing */
    double word_chance[CHANCE_WORDS];
    missing_name **missing; /* [MISSING_BUCKETS] */
    unit_insert *unit_inserts;
    when_insert *when_inserts;
    question *made; /* quantities that comparisons make, as they come; numbered after the named
                       questions */
    uint32_t made_count, made_room;
    made_cond *made_conds;      /* conditions on them, to be renumbered */
    const str *condition_names; /* all that may stand in a condition; made when first wanted */
    uint32_t condition_name_count;
    uint32_t compared;
    /* [file], of those that pictures have named so far; made when first wanted */
    svg_drawing *drawings;
    question *questions; /* the book's, while they are being read */
    shared_read shared[SHARED_KINDS][SHARED_READS];
    formula_input *inputs; /* what the name that was looked up last stands for in a formula */
    uint32_t input_room;
    const node *keyed; /* the list whose items were looked at last, for what stands twice */
    uint32_t item_keys[LIST_ITEMS_MAX], keyed_count;
    uint64_t ground_bytes, ground_nodes;
    const node *counted; /* what was counted last is mostly counted again, for the next piece */
    uint32_t counted_nodes;
    uint32_t ground_names;
} reader;

#endif
