/* Which keys each map of the rule language has: one table a map. The reader checks against it,
 * reads what is alike everywhere by it, and suggests from it; tests hold docs/language.md,
 * docs/sites.md and docs/book.schema.json to the same rows. */
#ifndef TT_READ_KEYS_H
#define TT_READ_KEYS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* How a key is read. All but OWN and OLD go by themselves to their place in the entry, whose
 * default is what stands there before. */
typedef enum key_kind {
    KEY_OWN,        /* read by the code of its section */
    KEY_OLD,        /* of edition 1 of the language: `says` tells what to write now */
    KEY_TEXT,       /* texts: a sentence */
    KEY_HEADED,     /* the same, headed by its piece where there are several and it names none */
    KEY_PHRASE,     /* texts: may stand in brackets */
    KEY_TEXTS,      /* texts_list of sentences */
    KEY_PHRASES,    /* texts_list of phrases */
    KEY_HEARD,      /* heard_list */
    KEY_WORD,       /* str */
    KEY_ROLE,       /* uint32_t */
    KEY_TIME,       /* double: minutes */
    KEY_WHEN,       /* const cond * */
    KEY_PLACE,      /* uint32_t */
    KEY_INSTRUMENT, /* uint32_t */
    KEY_PICTURE,    /* const picture * */
    KEY_STEPS,      /* texts_list of sentences, each perhaps with its picture */
} key_kind;

typedef struct key {
    const char *name, *quoted; /* "look-again", "'look-again'" */
    key_kind kind;
    size_t at;            /* offset in the entry's type */
    const char *example;  /* what to write if it is missing; NULL: it may always be left out. OLD:
                             what to write  in its place, * being the number that stood there, and
                             NULL: as it `says` */
    bool must;            /* it may never be */
    const char *says;     /* what it says, as in the tables of docs */
    const char *left_out; /* what holds without it; "" if that goes without saying */
} key;

/* clang-format off */
#define KEY_MAP_TABLE(MAP) \
    MAP(FILE) \
    MAP(BOOK) \
    MAP(KIND) \
    MAP(QUESTION) \
    MAP(ANSWER) \
    MAP(QUANTITY) \
    MAP(FORMULA_CASE) \
    MAP(SYMPTOM) \
    MAP(CAUSE) \
    MAP(FIX) \
    MAP(HARM) \
    MAP(RISK) \
    MAP(ADJUST) \
    MAP(CONCLUSION) \
    MAP(RULE) \
    MAP(THEN) \
    MAP(CAUTION) \
    MAP(CASE) \
    MAP(EXPECT) \
    MAP(HEARS) \
    MAP(BOOK_CAUTION) \
    MAP(AMONG_FIRST) \
    MAP(EMERGENCY) \
    MAP(SITE) \
    MAP(PIECE) \
    MAP(SITE_VALUE) \
    MAP(CONTACT) \
    MAP(PLACE) \
    MAP(INSTRUMENT) \
    MAP(SIGN) \
    MAP(PICTURE) \
    MAP(STEP) \
    MAP(PROCEDURE) \
    MAP(SITE_PROCEDURE) \
    MAP(ROLE)
/* clang-format on */

typedef enum key_map_id {
#define MAP(id) KEYS_##id,
    KEY_MAP_TABLE(MAP)
#undef MAP
        KEY_MAP_COUNT
} key_map_id;

typedef struct key_map {
    const char *what, *one; /* "A question", "The question": how faults begin */
    const char *definition; /* its name in the schema and in the marks of docs; "" for a file */
    const key *keys;
    uint32_t count;
} key_map;

const key_map *key_map_of(key_map_id id);
const key *key_find(const key_map *map, const char *name); /* it must be there */

#endif
