/* Every text of the book that people read, or have read to them. A list that all pieces of a kind
 * share is there once. */
#ifndef TT_DOUBT_PEOPLE_READ_H
#define TT_DOUBT_PEOPLE_READ_H

#include "doubt/doubts.h"

typedef struct read_text {
    const texts *text;
    span at;
    const char *what; /* "question", "picture" */
    const label *name;
    const cond *only_when; /* of whole entries; null: always */
    uint32_t role;         /* the lowest that reads it */
    uint32_t times;        /* for how many entries it is there */
} read_text;
typedef struct read_list {
    read_text *items;
    uint32_t count;
} read_list;
read_list what_people_read(const doubter *d);

#endif
