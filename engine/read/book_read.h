/* The room's face: nodes → book, and nodes → replies. */
#ifndef TT_READ_BOOK_READ_H
#define TT_READ_BOOK_READ_H

#include "base/faults.h"
#include "load/nodes.h"
#include "model/book.h"

/* Nodes → book. `site` is the file of `files` that says what equipment there is (it then stands in
 * place of the book's own section `site`, and the worked cases, which are about that one, are left
 * out); NO_FILE: none; NO_SITE: it is left out all the same, and two stand-ins of each kind are
 * taken. Every fault of every file is reported; the result is null if there were errors. roots[i]
 * belongs to files->items[i]; what entries and answers are called is the text of their keys, so a
 * tree lives as long as its book. */
#define NO_SITE (UINT32_MAX - 1)
const book *book_read(arena *keep, arena *scratch, const sources *files, uint32_t site,
                      const node *const *roots, faults *list);
/* The same, and where names stand, also if there were errors: of what could be read. */
const book *book_read_names(arena *keep, arena *scratch, const sources *files, uint32_t site,
                            const node *const *roots, faults *list, mention_list *names);

/* Reads one answer as the answers file and the prompt's machine form give it (node) against a
 * question. False: a fault was added. */
bool reply_read(arena *keep, arena *scratch, const book *r, uint32_t question, const node *value,
                faults *list, reply *out);

typedef struct told_file {
    ids at;             /* pieces of equipment; none: count 0 */
    uint32_t complaint; /* symptom or NO_ID */
    uint32_t count;     /* of the replies */
} told_file;
/* Reads an answers file's root into replies in question order: a case without its `expect`, or
 * nothing but answers. `files` of the faults list are the answers file's own. */
const reply *replies_read(arena *keep, arena *scratch, const book *r, const node *root,
                          faults *list, told_file *told);

#endif
