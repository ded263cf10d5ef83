/* A case in one line: its number, where it is, what is wrong, and how it stands for whoever reads
 * it. The board, the list of cases and `ask` say it so. */
#ifndef TT_CLI_CASE_LINE_H
#define TT_CLI_CASE_LINE_H

#include "base/arena.h"
#include "cases/case_contact.h"
#include "say/catalogue.h"
#include "summary/case_summary.h"

/* Who reads, and when: what was left for them, or is theirs, is said as such. */
typedef struct case_reader {
    const char *name; /* as others see them; "" nobody in particular */
    tt_moment now;
    tongue in; /* which language of ours */
} case_reader;

/* How a case stands to the reader, the most pressing first. */
typedef enum case_stand {
    STANDS_DANGER,  /* somebody told of danger, and nobody that it is over */
    STANDS_FOR_YOU, /* left for the reader by name */
    STANDS_YOURS,   /* the reader had it last */
    STANDS_NOBODYS, /* put on hold */
    STANDS_WAITING, /* for somebody who was called */
    STANDS_OTHERS,  /* somebody else has it, had it last, or it was left for somebody else */
    STANDS_ENDED
} case_stand;
case_stand case_stand_of(const case_summary *c, const case_reader *r);

/* "east gate, 555 0100, ticket 812"; only for whoever asked for it. */
const char *contact_words(arena *keep, tongue in, const case_contact *c);
const char *case_line(arena *keep, const case_summary *c, const case_reader *r);

#endif
