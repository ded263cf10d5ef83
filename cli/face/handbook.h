/* A whole book on paper: to be printed, read, signed and hung up. */
#ifndef TT_CLI_HANDBOOK_H
#define TT_CLI_HANDBOOK_H

#include "face/paper_words.h"
#include "host/exits.h"
#include "host/read_book.h"

/* On its way to paper. */
typedef struct handbook {
    const paper *p;
    arena *keep;
    const opened_book *book;
    tt_case *c; /* of nobody's call: in it all texts read as before the first answer */
    tt_contents all;
} handbook;

/* `language` may be null. */
exit_status handbook_on_paper(FILE *out, const paper_kind *kind, arena *keep,
                              const opened_book *book, const char *language);

/* ---- its chapters ---- */
exit_status put_danger(const handbook *h,
                       const char *language); /* what rules it out, and what to do else */
exit_status put_emergencies(const handbook *h);
void put_pictures(const handbook *h);
exit_status put_signs(const handbook *h);
void put_cause_table(const handbook *h);
exit_status put_procedures(const handbook *h);
exit_status put_questions(const handbook *h);

/* "3. Fill the pan": a fix as tables name it. */
const char *handbook_fix_name(const handbook *h, uint32_t place);
/* The other pieces at which an entry is there too; "" if there are none. */
const char *handbook_likewise(const handbook *h, const tt_listed *entry);

#endif
