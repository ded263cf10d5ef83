/* Entries as they are collected, and how tables are made of them: in name order, each name once. */
#ifndef TT_READ_PILES_H
#define TT_READ_PILES_H

#include "read/reader.h"

/* Entries of one section in file order. */
typedef struct pile {
    named *items;
    uint32_t count, room;
} pile;

typedef struct piles {
    pile entries[SECTION_COUNT], bases[SECTION_COUNT];
    bool parted[SECTION_COUNT]; /* false: the bases are all there is */
    /* for which the file that is being collected is written as a whole, or NO_ID */
    uint32_t file_kind;
} piles;

void pile_add(reader *r, pile *p, named entry);
/* From here on entries are others than their bases: something is written for pieces. */
void piles_part(reader *r, section s, piles *p);
/* So many more will come, or nearly so: then no room is left behind where it grew. */
void pile_expect(reader *r, pile *p, uint32_t more);

/* The section's two tables; says which names stand twice. */
void sort_section(reader *r, section s, piles *p);

#endif
