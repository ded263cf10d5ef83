/* Cases on the disk: <root>/YYYY/MM/<uuid>/<writer>.jsonl, one file for each writer, JSON Lines,
 * only ever added to. A record is on the disk before it counts as kept. What records mean is none
 * of this file's business: it reads and keeps them. A second window is a writer of its own.
 *
 *     case_store *s;
 *     exit_status status = case_store_new(root, &s);          // or _look, and then _join
 *     ... records of case_store_records go in, turns are shown, a reply gives records to keep ...
 *     if (!case_store_keep(s, records, count, &why)) ...      // the call goes on, and each turn
 * says that it is not kept
 *     ... before the next turn: case_store_news ...
 *     case_store_close(s);
 */
#ifndef TT_CLI_CASE_STORE_H
#define TT_CLI_CASE_STORE_H

#include <stdbool.h>
#include <stddef.h>

#include "host/exits.h"
#include "telltale.h"

typedef struct case_store case_store;

/* Twelve digits that stand for this user on this machine: what its writers' names begin with. */
enum { WRITER_SIZE = 13 };
void writer_of_this_machine(char writer[WRITER_SIZE]);

/* ---- opening; each says what went wrong ---- */

/* A new case, of which nothing is on the disk until something of it is kept. What would be in the
 * way of that is said now. */
exit_status case_store_new(const char *root, case_store **out);
/* The same with an identifier and a writer that somebody wants; each may be null. A writer is made
 * of at most 12 small letters, digits and hyphens. */
exit_status case_store_new_as(const char *root, const char *id, const char *writer,
                              case_store **out);
/* A case that is there, to be looked at: no file is made, no lock taken. `named`: its number, its
 * folder, or a file in that. Lines that can't be used are reported; they stay where they are. */
exit_status case_store_look(const char *root, const char *named, case_store **out);
/* The same of a case that comes as one file (case_file.h), and is taken in nowhere: it can't be
 * joined. */
exit_status case_store_look_file(const char *path, case_store **out);
/* From now on records can be kept: as this machine's and user's writer, or, if that one is in use
 * in another window, as a further one. What others have added meanwhile is among the records then.
 */
exit_status case_store_join(case_store *s);
void case_store_close(case_store *s); /* null is fine */

/* ---- what it is ---- */

const char *case_store_id(const case_store *s);     /* UUID */
const char *case_store_number(const case_store *s); /* "483201K" */
const char *case_store_folder(const case_store *s);
/* as whom records are kept; "" before it is joined */
const char *case_store_writer(const case_store *s);
bool case_store_is_joined(const case_store *s);
bool case_store_is_on_disk(const case_store *s); /* something of it */
bool case_store_is_a_file(const case_store *s);  /* looked at as one file, and kept nowhere */

/* ---- what there is ---- */

/* All that were read, from each writer in order, the writers in any; none of those kept since. If
 * somebody has copied a file, its records are there twice. Valid until case_store_join or
 * case_store_news. */
const tt_record *case_store_records(const case_store *s, size_t *count);
size_t case_store_bytes(const case_store *s); /* of their lines */
/* What others have added since; cheap if nothing. Valid until the next call. Says what went wrong.
 */
exit_status case_store_news(case_store *s, const tt_record **records, size_t *count);
bool case_store_has_news(const case_store *s);
/* Readable when others may have added something; -1: nothing tells of it, so it has to be asked. */
int case_store_descriptor(const case_store *s);

/* ---- keeping ---- */

/* Adds records of our own writer, with numbers that rise. True: they are on the disk, with all that
 * could not be kept before. False: *why says in words what is in the way (valid until the next
 * call); they are remembered, and tried again with the next, or with none. */
bool case_store_keep(case_store *s, const tt_record *records, size_t count, const char **why);
size_t case_store_unkept(const case_store *s); /* so many are waiting to be kept */

/* ---- who writes ---- */

typedef struct case_writer {
    const char *name;
    bool is_ours;  /* the one as whom records are kept */
    bool is_here;  /* of this machine and user, in this window or another */
    bool is_alive; /* a program has it open now, as far as this machine can see */
} case_writer;
size_t case_store_writers(const case_store *s);
case_writer case_store_writer_at(const case_store *s, size_t index);

#endif
