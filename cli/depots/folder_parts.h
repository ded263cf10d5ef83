/* What the files of the folder as a depot share: folder_depot.c is its table, folder_walk.c finds
 * cases, folder_names.c chooses and makes their folders, folder_list.c lists them (known_cases.c:
 * those of very many that changed), folder_reading.c reads, folder_keeping.c keeps,
 * folder_contact.c is who calls, folder_whole.c a case whole. */
#ifndef TT_CLI_FOLDER_PARTS_H
#define TT_CLI_FOLDER_PARTS_H

#include "cases/case_depot.h"
#include "cases/case_store_parts.h"

exit_status folder_list(const char *root, const case_query *query, case_list *out);
/* As at that time, in milliseconds since 1970. */
exit_status folder_list_at(const char *root, const case_query *query, int64_t now, case_list *out);
size_t folder_walk(const char *root, case_found *found, void *context);

/* `named` is a case number as typed, the path of a case's folder, or of a file in it. Says what
 * went wrong, as does the next. */
exit_status folder_find(arena *keep, const char *root, const char *named, case_name *out);
/* What a new case is to be called; `id` is one that somebody wants, or null. Nothing is made; but
 * it is said if it could not be. */
exit_status folder_name_new(arena *keep, const char *root, const char *id, case_name *out);
/* Makes the folder of a case, and those above it. Null, or what is in the way, in words. */
const char *folder_make_case(arena *keep, const char *root, const char *folder);

exit_status folder_read(case_store *s, bool takes_own, bool aloud);
bool folder_has_news(const case_store *s);
const char *folder_join(case_store *s, bool *busy);
bool folder_keep(case_store *s);
bool folder_is_alive(const case_store *s, const char *writer);
void folder_close(case_store *s);
/* Our own file, under the name of the writer that we are already. 0, or errno. */
int folder_open_as_writer(case_store *s);

exit_status folder_make(arena *keep, const char *root, const char *id, const char **place);
exit_status folder_lines(arena *keep, const char *folder, writers_lines *out);
exit_status folder_add(arena *keep, const char *folder, const char *writer, str bytes);

exit_status folder_contact_read(arena *keep, const char *folder, str *out);
exit_status folder_contact_write(arena *keep, const char *folder, str text);
exit_status folder_contact_erase(arena *keep, const char *folder, bool *erased);

#endif
