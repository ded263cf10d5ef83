/* Bytes → nodes. YAML 1.2 syntax through libyaml's events, with no implicit types: every scalar is
 * its text. Refused, each with its own fault: a name twice in one map, anchor, alias, tag, merge
 * key, directive, second document, tab as indentation, a key without a value, a key that is not
 * plain text, control and bidi characters after decoding, anything above the limits below. After a
 * fault inside one file loading goes on as far as it makes sense, never cascading. */
#ifndef TT_LOAD_NODES_H
#define TT_LOAD_NODES_H

#include "base/arena.h"
#include "base/faults.h"
#include "base/source.h"
#include "base/str.h"

enum {
    LOAD_DEPTH_MAX = 32,
    LOAD_SCALAR_MAX = 16 * 1024,
    LOAD_NODES_MAX = 1000000,         /* of all files together */
    LOAD_FILE_MAX = 64 * 1024 * 1024, /* bytes of one file */
    LOAD_FILES_MAX = 10000,
};

typedef enum node_kind { NODE_TEXT, NODE_LIST, NODE_MAP } node_kind;

typedef enum node_style {
    STYLE_PLAIN,
    STYLE_SINGLE,
    STYLE_DOUBLE,
    STYLE_LITERAL,
    STYLE_FOLDED,
    STYLE_FLOW,
    STYLE_BLOCK
} node_style;

typedef struct node node;

typedef struct node_entry {
    str key;
    span key_at;
    const node *value;
} node_entry;

struct node { /* small: a book has many for each of its entries */
    node_kind kind : 8;
    node_style style : 8; /* text: how quoted; list and map: flow or block */
    bool in_flow;         /* stands inside { } or [ ] */
    span at; /* the scalar's own bytes (quotes included); list and map: first byte to end of last
                item */
    union {
        str text; /* NODE_TEXT; a NUL stands behind it */
        struct {  /* NODE_LIST, NODE_MAP */
            union {
                const node *const *items;
                const node_entry *entries; /* in file order */
            };
            uint32_t letters; /* NODE_MAP: what its keys begin with, a bit each (letter_bit) */
            uint32_t count;
        };
    };
};

/* Loads one source; returns its root, or null if it is empty or could not be read to its end.
 * `budget` counts nodes left over all files; 0 means that this has been reported and nothing more
 * is read. The list keeps its faults elsewhere than in `scratch`. What was reported and left out is
 * silenced (faults_silence): a value that was missing is an empty text. */
const node *load_source(arena *keep, arena *scratch, const sources *all, uint32_t file,
                        uint32_t *budget, faults *list);

/* Loads the files of a book; roots[i] may be null, and is for a picture. */
const node **load_sources(arena *keep, arena *scratch, const sources *all, faults *list);

typedef struct loaded_files {
    const node **roots;
    const uint32_t *nodes; /* [file] how many of the limit it took; 0 if something was said of it,
                              or it has no tree */
} loaded_files;
typedef struct loaded_before {
    const sources *files;
    const node *const *roots;
    const uint32_t *nodes;
} loaded_before;
/* The same after an edit. The tree of a file that was there before (may be null) with the same name
 * and bytes, and of which nothing was said, is copied; what it was part of need not outlive the
 * call. */
loaded_files load_sources_again(arena *keep, arena *scratch, const sources *all,
                                const loaded_before *before, faults *list);

static inline uint32_t letter_bit(char first)
{
    return UINT32_C(1) << (first & 31);
}

const node *node_find(const node *map, const char *key);
/* Null if absent or not a map. Most keys that are looked for are not there, and no other key begins
 * as they do. */
static inline const node *node_get(const node *map, const char *key)
{
    const bool may_have =
        map != NULL && map->kind == NODE_MAP && (map->letters & letter_bit(key[0])) != 0;
    return may_have ? node_find(map, key) : NULL;
}

#endif
