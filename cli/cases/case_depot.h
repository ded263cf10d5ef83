/* Where cases are kept, behind one table of functions: a folder on the disk (folder_depot.c), or a
 * database (database_depot.c). Which one is meant is seen from how it is named. What the lines mean
 * is nobody's business here: a depot keeps each writer's lines in their order, byte for byte, and
 * gives them back.
 *
 * A root names all that is kept in one depot; a place names one case in it: its folder, or the
 * root, a slash, and its id. */
#ifndef TT_CLI_CASE_DEPOT_H
#define TT_CLI_CASE_DEPOT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/str.h"
#include "cases/case_name.h"
#include "cases/case_overview.h"
#include "cases/case_store.h"
#include "summary/case_list.h"

/* `above`: the path that the case's folder lies in, or the root. */
typedef void case_found(void *context, const char *above, const char *id);

/* All lines of one writer, one behind the other, as they are kept. */
typedef struct writer_lines {
    const char *writer;
    str bytes;
} writer_lines;
typedef struct writers_lines {
    writer_lines *items;
    uint32_t count, room;
} writers_lines;
str lines_of_writer(const writers_lines *all, const char *writer); /* empty: there are none */

/* What gives a status has said what went wrong. */
typedef struct case_depot {
    bool in_files; /* roots and places are paths */

    /* ---- which cases there are ---- */
    exit_status (*look)(const char *root, bool may_be_missing, bool *there);
    size_t (*walk)(const char *root, case_found *found, void *context);
    /* of one that is there */
    exit_status (*list)(const char *root, const case_query *query, case_list *out);
    /* null: by reading the list */
    exit_status (*overview)(const char *root, const case_wish *wish, case_overview *out);
    exit_status (*find)(arena *keep, const char *root, const char *named, case_name *out);
    /* a new one; id: wanted, or null */
    exit_status (*name)(arena *keep, const char *root, const char *id, case_name *out);

    /* ---- a case that is open: case_store_parts.h ---- */
    exit_status (*read)(case_store *s, bool takes_own, bool aloud);
    bool (*has_news)(const case_store *s);
    /* null, or what is in the way; busy: too many have it open */
    const char *(*join)(case_store *s, bool *busy);
    /* what waits; false: s->why, and what is kept of it waits no more */
    bool (*keep)(case_store *s);
    bool (*is_alive)(const case_store *s, const char *writer);
    int (*descriptor)(const case_store *s); /* readable when others may have added something; -1, or
                                               null: nothing tells of it */
    void (*close)(case_store *s);           /* what it holds of the outside */
    const char *(*refuge)(arena *keep, const char *root); /* see refuge_of; null: there is none */

    /* ---- a case whole, for carrying it elsewhere ---- */
    /* of one that is not there */
    exit_status (*make)(arena *keep, const char *root, const char *id, const char **place);
    exit_status (*lines)(arena *keep, const char *place, writers_lines *out);
    /* behind what there is */
    exit_status (*add)(arena *keep, const char *place, const char *writer, str bytes);

    /* ---- who calls: one small text beside a case ---- */
    /* empty: there is none */
    exit_status (*contact_read)(arena *keep, const char *place, str *out);
    exit_status (*contact_write)(arena *keep, const char *place, str text);
    exit_status (*contact_erase)(arena *keep, const char *place, bool *erased);
} case_depot;

/* Every case under a root, in the order of their ids, which is the order in which they began. How
 * many folders could not be read: the first was said, and each link, which is not followed: it
 * could lead anywhere, and round in circles. */
size_t case_walk(const char *root, case_found *found, void *context);

/* Those under a root that fit. Says what went wrong. A root that is not there: EXIT_NO_FILE, or, if
 * it `may_be_missing`, an empty list. */
exit_status case_list_read(const char *root, bool may_be_missing, const case_query *query,
                           case_list *out);

/* Of a root or of a place. */
const case_depot *depot_of(const char *root_or_place);
/* Where cases of this root go while it is away: a folder. Null: there is no such place. */
const char *refuge_of(arena *keep, const char *root);

extern const case_depot folder_depot, database_depot;

#endif
