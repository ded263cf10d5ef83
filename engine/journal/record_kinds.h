/* Kinds of records, by their words. */
#ifndef TT_JOURNAL_RECORD_KINDS_H
#define TT_JOURNAL_RECORD_KINDS_H

#include <stdbool.h>
#include <stdint.h>

#include "journal/record_table.h"

/* What a record does; see record_table.h. */
enum {
    NOTHING = 0,
    STEP = 1 << 0,
    GIVES_BACK = 1 << 1,
    MOVES = 1 << 2,
    COMES = 1 << 3,
    LEAVES = 1 << 4,
    SITS = 1 << 5,
    CLOSES = 1 << 6,
    NOTES = 1 << 7,
    ONCE = 1 << 8,
    PLACES = 1 << 9,
    RIVAL_A = 1 << 10,
    RIVAL_B = 1 << 11,
    RIVAL_C = 1 << 12,
    RIVALS = RIVAL_A | RIVAL_B | RIVAL_C,
};

/* Whoever may add a record of a kind. A called role is one that somebody else is called for; a desk
 * is whoever looks after cases without being at the place. */
typedef enum record_author { ANYBODY, DESK, CALLED_ROLE } record_author;

#define RECORD_ENUM(id, word, does, who, about, says, fields) id,
typedef enum record_kind { RECORD_TABLE(RECORD_ENUM) RECORD_UNKNOWN } record_kind;
#undef RECORD_ENUM
enum { RECORD_KINDS = RECORD_UNKNOWN };

record_kind record_kind_of(const char *word); /* RECORD_UNKNOWN: none of this program */
unsigned record_does(record_kind kind);
const char *record_about(record_kind kind); /* field that names its subject, or "" */
const char *record_says(record_kind kind);  /* field with what it says of it, or "" */
/* Whether its data may have this field. */
bool record_has_field(record_kind kind, const char *field);
/* A desk may add what a called role may. */
bool record_may_add(record_kind kind, record_author author);

#endif
