#include "host/case_folder.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "host/case_walk.h"
#include "host/door.h"
#include "host/files.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"

enum { MOST_TRIES = 100 };

char *cases_usual_root(void)
{
    const char *home = getenv("HOME");
    return home != NULL && *home == '/' ? format_text("%s/.local/share/telltale/cases", home) : NULL;
}

char *cases_root(const char *given)
{
    if (given == NULL) given = getenv("TELLTALE_CASES");
    if (given != NULL && *given != 0) return copy_text(given);
    const char *data = getenv("XDG_DATA_HOME");
    if (data != NULL && *data == '/') return format_text("%s/telltale/cases", data);
    char *usual = cases_usual_root();
    if (usual != NULL) return usual;
    complain("there is no home folder to keep cases in. Name one with --cases FOLDER, or keep "
             "nothing with --unsaved");
    return NULL;
}

/* ---- looking for one ---- */

/* What a search is about: every case under the root is compared with a number. */
typedef struct search {
    arena *keep;
    const char *number;
    unsigned found;
    const char *folder; /* of the first one found */
    char id[CASE_UUID_SIZE];
} search;

static void compare_case(void *context, const char *month, const char *id)
{
    search *wanted = context;
    char number[CASE_NUMBER_SIZE];
    case_number_of(id, number);
    if (strcmp(number, wanted->number) != 0) return;
    if (wanted->found++ > 0) {
        complain("this number also fits %s/%s", month, id);
        return;
    }
    wanted->folder = arena_text(wanted->keep, "%s/%s", month, id);
    memcpy(wanted->id, id, CASE_UUID_SIZE);
}

static bool is_cases_file(const char *path)
{
    const char *end = strrchr(path, '.');
    struct stat about;
    return end != NULL && strcmp(end, ".jsonl") == 0 && stat(path, &about) == 0 && S_ISREG(about.st_mode);
}

/* The folder itself, or that of a file in it, wherever links lead. */
static const char *folder_meant(arena *keep, const char *path)
{
    struct stat about;
    bool file = is_cases_file(path), link = lstat(path, &about) == 0 && S_ISLNK(about.st_mode);
    char *whole = file || link ? realpath(path, NULL) : NULL;
    const char *from = whole != NULL ? whole : path;
    size_t length = whole != NULL && file ? (size_t)(strrchr(whole, '/') - whole) : strlen(from);
    while (length > 1 && from[length - 1] == '/') length--;
    const char *folder = arena_text(keep, "%.*s", (int)length, from);
    free(whole);
    return folder;
}

static exit_status use_path(arena *keep, const char *path, const char **folder, char id[CASE_UUID_SIZE])
{
    struct stat about;
    const char *meant = folder_meant(keep, path), *slash = strrchr(meant, '/'), *name = slash != NULL ? slash + 1 : meant;
    if (stat(meant, &about) != 0 || !S_ISDIR(about.st_mode) || !is_case_uuid(name)) {
        complain("%s: this is no folder of a case", path);
        return EXIT_NO_FILE;
    }
    memcpy(id, name, CASE_UUID_SIZE);
    *folder = meant;
    return EXIT_DONE;
}

exit_status case_number_typed(const char *typed, char number[CASE_NUMBER_SIZE])
{
    number_read read = case_number_read(typed, number);
    if (read == NUMBER_READ) return EXIT_DONE;
    complain(read == NUMBER_WRONG_LETTER ? "%s can't be right: the letter doesn't fit the digits. Please look at the number again"
                                         : "%s is no case number. One looks like 483201K: six digits and a letter",
             typed);
    return EXIT_USAGE;
}

exit_status case_folder_find(arena *keep, const char *root, const char *named, const char **folder, char id[CASE_UUID_SIZE])
{
    char number[CASE_NUMBER_SIZE];
    *folder = NULL;
    if (strchr(named, '/') != NULL || is_case_uuid(named) || is_cases_file(named)) return use_path(keep, named, folder, id);
    if (case_number_typed(named, number) != EXIT_DONE) return EXIT_USAGE;
    search wanted = {.keep = keep, .number = number};
    case_walk(root, compare_case, &wanted);
    if (wanted.found == 1) {
        *folder = wanted.folder;
        memcpy(id, wanted.id, CASE_UUID_SIZE);
        return EXIT_DONE;
    }
    if (wanted.found == 0) complain("there is no case %s in %s", number, root);
    else complain("and %s. Name the folder: --case %s", wanted.folder, wanted.folder);
    return wanted.found == 0 ? EXIT_NO_FILE : EXIT_USAGE;
}

/* ---- a new one ---- */

static bool is_number_free(arena *keep, const char *root, const char *id)
{
    char number[CASE_NUMBER_SIZE];
    case_number_of(id, number);
    search wanted = {.keep = keep, .number = number};
    case_walk(root, compare_case, &wanted);
    return wanted.found == 0;
}

static bool choose_id(arena *keep, const char *root, char id[CASE_UUID_SIZE])
{
    unsigned tries = 0;
    do
        if (!case_uuid_new(id)) return false;
    while (!is_number_free(keep, root, id) && ++tries < MOST_TRIES);
    return true;
}

/* How long the part of the path is that ends with its next name behind `length`. */
static size_t next_part(const char *path, size_t length)
{
    length += strspn(path + length, "/");
    return length + strcspn(path + length, "/");
}

/* What a folder is that a case is kept in. Links are followed up to the root and not beneath it. Null if it will do, or is not there yet (*there). */
static const char *fault_of_folder(arena *keep, const char *part, bool beneath, bool *there)
{
    struct stat about;
    *there = (beneath ? lstat(part, &about) : stat(part, &about)) == 0;
    if (!*there) return errno == ENOENT ? NULL : arena_text(keep, "%s: %s", part, strerror(errno));
    if (S_ISDIR(about.st_mode)) return NULL;
    return arena_text(keep, "%s is %s, not a folder", part, door_kind_words(about.st_mode));
}

/* Why nothing could be kept in a folder that is to be made; null if it could be. */
static const char *in_the_way(arena *keep, const char *root, const char *folder)
{
    const char *last = *folder == '/' ? "/" : ".";
    for (size_t length = 0; folder[length] != 0;) {
        bool there;
        length = next_part(folder, length);
        const char *part = arena_text(keep, "%.*s", (int)length, folder);
        const char *fault = fault_of_folder(keep, part, length > strlen(root), &there);
        if (fault != NULL) return fault;
        if (!there) break;
        last = part;
    }
    return access(last, W_OK | X_OK) == 0 ? NULL : arena_text(keep, "%s: %s", last, strerror(errno));
}

static exit_status say_cannot_keep(const char *why)
{
    complain("the case can't be kept. %s.\nName another folder with --cases FOLDER, or keep nothing with --unsaved", why);
    return EXIT_CANNOT_CREATE;
}

exit_status case_folder_new(arena *keep, const char *root, const char **folder, char id[CASE_UUID_SIZE])
{
    time_t now = time(NULL);
    struct tm utc;
    char month[16];
    if (!choose_id(keep, root, id)) return say_cannot_keep(strerror(errno));
    if (gmtime_r(&now, &utc) == NULL || strftime(month, sizeof month, "%Y/%m", &utc) == 0) return say_cannot_keep(strerror(EOVERFLOW));
    *folder = arena_text(keep, "%s/%s/%s", root, month, id);
    const char *why = in_the_way(keep, root, *folder);
    return why == NULL ? EXIT_DONE : say_cannot_keep(why);
}

const char *case_folder_make(arena *keep, const char *root, const char *folder)
{
    int error = make_folders(root);
    if (error != 0) return arena_text(keep, "%s: %s", root, strerror(error));
    for (size_t length = strlen(root); folder[length] != 0;) {
        bool there;
        length = next_part(folder, length);
        const char *part = arena_text(keep, "%.*s", (int)length, folder);
        const char *fault = fault_of_folder(keep, part, true, &there);
        if (fault != NULL) return fault;
        if (!there && (error = make_folder_in(part)) != 0) return arena_text(keep, "%s: %s", part, strerror(error));
    }
    return NULL;
}
