/* What ended cases of a folder said when they were last read, kept in the user's cache folder, so
 * that a list of very many reads only those that are open and those whose files are others by now.
 * Nothing hangs on it: without it, or if it was damaged, all are read.
 *
 * A case is taken from there only if its folder and each of its files still have the same inode,
 * size and times, which any change of them gives them anew, with whoever may read them; and it
 * gets there only if the last of these changes is so long ago that no other can bear the same time.
 */
#ifndef TT_CLI_KNOWN_CASES_H
#define TT_CLI_KNOWN_CASES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <sys/stat.h>

#include "summary/case_summary.h"

/* Fewer cases are read as fast as they are looked up; files of longer names are none of ours. */
enum { KNOWN_FROM = 1000, NAME_ROOM = 24 };

/* Times in nanoseconds since 1970. */
typedef struct file_stamp {
    uint64_t inode;
    int64_t size, written, changed;
} file_stamp;
file_stamp stamp_of(const struct stat *about);

typedef struct stamped_file {
    file_stamp stamp;
    char name[NAME_ROOM];
} stamped_file;

/* As a case lies there. Taken before it is read. */
typedef struct case_stamps {
    file_stamp folder;
    stamped_file *files;
    size_t count;
} case_stamps;

/* What one reader found out. Zeroed to begin with. */
typedef struct known_news {
    char *bytes;
    size_t length, room, count;
} known_news;

typedef struct known_cases known_cases;

/* Of this root. `now`: milliseconds since 1970. Null: the user has no cache folder. */
known_cases *known_cases_read(const char *root, int64_t now);
/* Of roots that are gone nothing stays. */
void known_cases_sweep(void);
/* What is kept of a root whose cases are too few by now. */
void known_cases_forget(const char *root);
/* A case of that id is still in the root. */
void known_case_is_there(known_cases *k, const char *uuid);
/* True: nothing of it changed; *out as case_summarize left it, without `folder`. Several threads
 * may ask, each for cases of its own. */
bool known_case_find(known_cases *k, const char *folder, const char *uuid, case_summary *out);
/* Nothing is noted of what is open: others work on it, and a network may show late that they did;
 * nor of what changed a moment ago. */
void known_case_note(const known_cases *k, known_news *news, const case_stamps *stamps,
                     const case_summary *summary);
void known_news_take(known_cases *k, known_news *news); /* `news` is empty then */
/* Writes it, if enough is new, or something in it is gone from the root (`all_seen`: each case of
 * the root was said to be there). That it can't be written is nobody's trouble. Frees it. */
void known_cases_end(known_cases *k, bool all_seen);

#endif
