/* A whole book on paper: to be printed, read, signed and hung up. */
#ifndef TT_CLI_HANDBOOK_H
#define TT_CLI_HANDBOOK_H

#include "books/read_book.h"
#include "host/exits.h"
#include "paper/paper_words.h"

/* How energy is isolated and given back, by one letter for all work that goes by the same lines. */
typedef struct lockout {
    const char *letter;
    const char *names; /* of the book's procedures */
    const char *lines; /* all of them, to know it again */
    tt_safety how;
} lockout;

/* On its way to paper. */
typedef struct handbook {
    const paper *p;
    arena *keep;
    const opened_book *book;
    tt_case *c; /* of nobody's call: in it all texts read as before the first answer */
    tt_contents all;
    const lockout *lockouts;
    uint32_t lockout_count;
} handbook;

/* `language` may be null. */
exit_status handbook_on_paper(FILE *out, const paper_kind *kind, arena *keep,
                              const opened_book *book, const char *language);

/* ---- its chapters ---- */
/* what rules it out, and what to do else */
void put_danger(const handbook *h, const char *language);
void put_emergencies(const handbook *h);
void put_pictures(const handbook *h);
/* handbook_drawings.c: the book's own */
void put_whole(const handbook *h);
void put_step_drawings(const handbook *h, const tt_picture *const *pictures, uint32_t count);
void put_cause_drawings(const handbook *h);
void put_question_drawings(const handbook *h);
void put_signs(const handbook *h);
void put_cause_table(const handbook *h);
void find_lockouts(handbook *h);
void put_lockouts(const handbook *h);
void put_all_fixes(const handbook *h);
void put_questions(const handbook *h);

/* "3. Fill the pan": a fix as tables name it. */
const char *handbook_role(const handbook *h, const char *name); /* as people call it */
const char *handbook_fix_name(const handbook *h, uint32_t place);
/* The one that goes before this work; null: none does. */
const lockout *lockout_before(const handbook *h, const tt_safety *safety);
/* The other pieces at which an entry is there too; "" if there are none. */
const char *handbook_likewise(const handbook *h, const tt_listed *entry);

#endif
