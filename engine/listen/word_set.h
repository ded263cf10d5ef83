/* A set of plain words, each with something known of it, and the search for the word that a slip of
 * the pen was meant to be. */
#ifndef TT_LISTEN_WORD_SET_H
#define TT_LISTEN_WORD_SET_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/str.h"

typedef struct word_entry word_entry;
struct word_entry {
    str text;
    uint32_t id; /* 0, 1, 2 … in the order of adding */
    uint32_t hash;
    word_entry *beside, *next;
    word_entry *alike; /* the next one that begins alike and is as long */
    void *data;        /* the owner's */
    bool preferred;    /* rather this than another one that is as near to a slip */
};

typedef struct word_set {
    arena *keep;
    word_entry **buckets; /* as many as twice the words, a power of two */
    word_entry **alike;   /* by first byte and length */
    word_entry *first, *last;
    uint32_t count, bucket_count;
} word_set;

word_set word_set_new(arena *keep);
/* The entry of a word, made if it is new; its text is copied. */
word_entry *word_set_add(word_set *s, str word);
word_entry *word_set_find(const word_set *s, str word); /* or null */
/* Adds every word of a text that is plain already. */
void word_set_add_all(word_set *s, str plain_text);

/* How far a word may be from the one that was meant: 1 from 4 letters, 2 from 8; the shorter of the
 * two counts. */
size_t slip_allowed(size_t letters);
/* The word of the set nearest to one that nobody knows: the first letter is right, or changed
 * places with the second. Null if none is near, or if there is no more patience: each word that is
 * compared takes of it. */
const word_entry *word_set_near(const word_set *s, arena *scratch, str word, uint32_t *patience);
/* The word that has most letters of its beginning in common with this one, at least `front`, and at
 * most `ending` others. Null if there is none, or no more patience. */
const word_entry *word_set_begun(const word_set *s, str word, size_t front, size_t ending,
                                 uint32_t *patience);
/* Without the ending of a plural or of a third person: exact, or with one "s" or "es" more or less.
 * Null if there is none. */
const word_entry *word_set_form(const word_set *s, arena *scratch, str word);

/* The next word of a plain text; *at is moved behind it. False at the end. */
bool plain_next(str plain_text, size_t *at, str *word);

#endif
