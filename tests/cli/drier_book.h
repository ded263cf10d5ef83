/* A small sound book of an invented drier, for faces that name the book they speak of. */
#ifndef TT_TESTS_CLI_DRIER_BOOK_H
#define TT_TESTS_CLI_DRIER_BOOK_H

#include "shown_text.h"
#include "telltale.h"

#define DRIER_BOOK \
    "book:\n  title: Drier\n  roles: [helper, {fitter: {authorised: yes}}]\n" \
    "questions:\n  hums:\n    ask: Does it hum?\n" \
    "symptoms:\n  weak:\n    text: It is weak\n    heard: [it is weak]\n    when: {hums: no}\n" \
    "    shown-by: {worn: usually}\n" \
    "causes:\n  worn:\n    text: Worn\n" \
    "fixes:\n  swap:\n    text: Swap it\n    cures: {worn: 90 %}\n    role: helper\n" \
    "    harm: none\n    takes: 2 min\n    put-back: not needed\n    steps:\n      - Swap it.\n" \
    "    look-again: [hums]\n"

/* The report of what check says of it; or null: not wanted. */
static inline tt_book *drier_book(tt_report **report)
{
    static const char text[] = DRIER_BOOK;
    const tt_source source = {"book.yaml", text, strlen(text)};
    tt_report *said;
    tt_book *book;
    if (tt_book_load(&source, 1, &book, &said) != TT_OK) fail_msg("%s", tt_report_text(said));
    if (report != NULL)
        *report = said;
    else
        tt_report_free(said);
    return book;
}

#endif
