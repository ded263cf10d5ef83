#include "host/case_folder.h"

#include <assert.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>

#include "host/case_walk.h"
#include "host/files.h"
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

/* What a search is about: every case under the root is compared with a number. */
typedef struct search {
    const char *number;
    unsigned found;
    char *folder; /* of the first one found */
    char uuid[CASE_UUID_SIZE];
} search;

static void compare_case(void *context, const char *month, const char *uuid)
{
    search *wanted = context;
    char number[CASE_NUMBER_SIZE];
    case_number_of(uuid, number);
    if (strcmp(number, wanted->number) != 0) return;
    if (wanted->found++ > 0) {
        complain("this number also fits %s/%s", month, uuid);
        return;
    }
    wanted->folder = format_text("%s/%s", month, uuid);
    memcpy(wanted->uuid, uuid, CASE_UUID_SIZE);
}

static bool is_number_free(const char *root, const char *uuid)
{
    char number[CASE_NUMBER_SIZE];
    case_number_of(uuid, number);
    search wanted = {.number = number};
    case_walk(root, compare_case, &wanted);
    free(wanted.folder);
    return wanted.found == 0;
}

static exit_status say_cannot_keep(const char *path, int error)
{
    complain("the case can't be kept in %s: %s.\nName another folder with --cases FOLDER, or keep "
             "nothing with --unsaved",
             path, strerror(error));
    return EXIT_CANNOT_CREATE;
}

exit_status case_folder_new(const char *root, char **folder, char uuid[CASE_UUID_SIZE])
{
    unsigned tries = 0;
    do
        if (!case_uuid_new(uuid)) return say_cannot_keep(root, errno);
    while (!is_number_free(root, uuid) && ++tries < MOST_TRIES);
    time_t now = time(NULL);
    struct tm utc;
    char month[16];
    if (gmtime_r(&now, &utc) == NULL || strftime(month, sizeof month, "%Y/%m", &utc) == 0)
        return say_cannot_keep(root, EOVERFLOW);
    *folder = format_text("%s/%s/%s", root, month, uuid);
    int error = make_folders(*folder);
    if (error == 0) return EXIT_DONE;
    free(*folder);
    *folder = NULL;
    return say_cannot_keep(root, error);
}

static bool is_cases_file(const char *path)
{
    const char *end = strrchr(path, '.');
    struct stat about;
    return end != NULL && strcmp(end, ".jsonl") == 0 && stat(path, &about) == 0 && S_ISREG(about.st_mode);
}

/* The folder itself, or that of a file in it, wherever links lead; freed by the caller. */
static char *folder_meant(const char *path)
{
    struct stat about;
    bool file = is_cases_file(path), link = lstat(path, &about) == 0 && S_ISLNK(about.st_mode);
    char *whole = file || link ? realpath(path, NULL) : NULL;
    char *folder = copy_text(whole != NULL ? whole : path);
    size_t length = strlen(folder);
    if (whole != NULL && file) *strrchr(folder, '/') = 0;
    else while (length > 1 && folder[length - 1] == '/') folder[--length] = 0;
    free(whole);
    return folder;
}

static exit_status use_path(const char *path, char **folder, char uuid[CASE_UUID_SIZE])
{
    struct stat about;
    char *meant = folder_meant(path);
    const char *slash = strrchr(meant, '/'), *name = slash != NULL ? slash + 1 : meant;
    if (stat(meant, &about) != 0 || !S_ISDIR(about.st_mode) || !is_case_uuid(name)) {
        complain("%s: this is no folder of a case", path);
        free(meant);
        return EXIT_NO_FILE;
    }
    memcpy(uuid, name, CASE_UUID_SIZE);
    *folder = meant;
    return EXIT_DONE;
}

exit_status case_number_typed(const char *typed, char number[CASE_NUMBER_SIZE])
{
    number_read read = case_number_read(typed, number);
    if (read != NUMBER_READ) {
        complain(read == NUMBER_WRONG_LETTER
                     ? "%s can't be right: the letter doesn't fit the digits. Please look at the "
                       "number again"
                     : "%s is no case number. One looks like 483201K: six digits and a letter",
                 typed);
        return EXIT_USAGE;
    }
    return EXIT_DONE;
}

exit_status case_folder_find(const char *root, const char *named, char **folder,
                             char uuid[CASE_UUID_SIZE])
{
    char number[CASE_NUMBER_SIZE];
    *folder = NULL;
    if (strchr(named, '/') != NULL || is_case_uuid(named) || is_cases_file(named)) return use_path(named, folder, uuid);
    if (case_number_typed(named, number) != EXIT_DONE) return EXIT_USAGE;
    search wanted = {.number = number};
    case_walk(root, compare_case, &wanted);
    if (wanted.found == 1) {
        *folder = wanted.folder;
        memcpy(uuid, wanted.uuid, CASE_UUID_SIZE);
        return EXIT_DONE;
    }
    if (wanted.found == 0)
        complain("there is no case %s in %s", number, root);
    else
        complain("and %s. Name the folder: --case %s", wanted.folder, wanted.folder);
    free(wanted.folder);
    return wanted.found == 0 ? EXIT_NO_FILE : EXIT_USAGE;
}
