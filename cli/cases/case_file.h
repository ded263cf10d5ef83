/* A case as one file, as the page on a phone hands it out and takes it in: the lines of all its
 * writers, one behind the other. */
#ifndef TT_CLI_CASE_FILE_H
#define TT_CLI_CASE_FILE_H

#include <stdbool.h>

#include "base/arena.h"
#include "cases/case_store.h"
#include "host/exits.h"

/* A plain file with records that lies in no folder of a case. */
bool is_case_file(const char *path);
/* What the cases under `root` lack of it is added there. *place: of the case. Says what went
 * wrong. */
exit_status case_file_take(arena *keep, const char *root, const char *path, const char **place);
/* Its records behind those of a store that is of no depot, which becomes this case; nothing is
 * written anywhere. Says what went wrong. */
exit_status case_file_read(case_store *s, const char *path);
/* All that is kept of the case, written in the place of the file. Says what went wrong. */
exit_status case_file_give(arena *keep, const char *place, const char *path);
/* Where the case with this id is kept under the root; made if it is not there. Says what went
 * wrong. */
exit_status case_place_for(arena *keep, const char *root, const char *id, const char **place);

#endif
