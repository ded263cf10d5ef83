/* Names of cases and the folders that they lie in: found by number or path, chosen and made anew.
 */
#include "depots/folder_parts.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "base/grow.h"
#include "base/str.h"
#include "depots/case_id.h"
#include "host/door.h"
#include "host/files.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "summary/case_apart.h"

enum { MOST_TRIES = 100 };

/* ---- all that are there ---- */

typedef struct found_case {
    const char *month, *id;
} found_case;

typedef struct all_cases {
    arena *keep;
    found_case *items;
    uint32_t count, room;
} all_cases;

static void take_case(void *context, const char *month, const char *id)
{
    all_cases *all = context;
    GROW(all->keep, all->items, all->count, all->room);
    bool same_month = all->count > 0 && strcmp(all->items[all->count - 1].month, month) == 0;
    const char *kept = same_month ? all->items[all->count - 1].month : arena_copy(all->keep, month);
    all->items[all->count++] = (found_case){kept, arena_copy(all->keep, id)};
}

static all_cases cases_under(arena *keep, const char *root)
{
    all_cases all = {.keep = keep};
    folder_walk(root, take_case, &all);
    return all;
}

static bool is_number_shared(const all_cases *all, const char *id, unsigned digits)
{
    char number[TT_CASE_NUMBER_SIZE];
    tt_case_number(id, digits, number);
    for (uint32_t i = 0; i < all->count; i++)
        if (strcmp(all->items[i].id, id) != 0 && tt_case_number_fits(all->items[i].id, number))
            return true;
    return false;
}

/* The shortest that is no other case's. */
static void write_number(const all_cases *all, const char *id, char number[TT_CASE_NUMBER_SIZE])
{
    unsigned digits = LEAST_DIGITS;
    while (digits < MOST_DIGITS && is_number_shared(all, id, digits)) digits += MORE_DIGITS;
    tt_case_number(id, digits, number);
}

/* ---- looking for one ---- */

static bool is_cases_file(const char *path)
{
    const char *end = strrchr(path, '.');
    struct stat about;
    return end != NULL && strcmp(end, ".jsonl") == 0 && stat(path, &about) == 0 &&
           S_ISREG(about.st_mode);
}

/* The folder itself, or that of a file in it, wherever links lead. */
static const char *folder_meant(arena *keep, const char *path)
{
    struct stat about;
    bool file = is_cases_file(path), link = lstat(path, &about) == 0 && S_ISLNK(about.st_mode);
    char *whole = file || link ? real_path(path) : NULL;
    const char *from = whole != NULL ? whole : path;
    size_t length = whole != NULL && file ? (size_t)(strrchr(whole, '/') - whole) : strlen(from);
    while (length > 1 && from[length - 1] == '/') length--;
    const char *folder = arena_text(keep, "%.*s", (int)length, from);
    free(whole);
    return folder;
}

static exit_status use_path(arena *keep, const char *path, case_name *out)
{
    struct stat about;
    const char *meant = folder_meant(keep, path), *slash = strrchr(meant, '/'),
               *name = slash != NULL ? slash + 1 : meant;
    const int error = stat(meant, &about) == 0 ? 0 : errno;
    if (error != 0 && error != ENOENT && error != ENOTDIR) return say_file_failure(path, error);
    if (error != 0 || !S_ISDIR(about.st_mode) || !tt_is_case_id(name)) {
        complain("%s: this is no folder of a case", path);
        return EXIT_NO_FILE;
    }
    memcpy(out->id, name, TT_CASE_ID_SIZE);
    out->folder = meant;
    tt_case_number(name, LEAST_DIGITS, out->number);
    return EXIT_DONE;
}

/* Each with a number that is its own, and what tells it from the others: nobody reads out a path.
 */
static exit_status say_several(arena *keep, const char *number, const char *root)
{
    case_list list;
    text_builder lines = {.keep = keep};
    const case_query query = case_query_of_number(number);
    const exit_status status = case_list_read(root, false, &query, &list);
    if (status != EXIT_DONE) return status;
    for (size_t i = 0; i < list.count; i++)
        text_addf(&lines, "\n  %s", case_apart(keep, &list.cases[i]));
    complain("%s stands for %zu cases. Give the longer number of the one that is meant:%s", number,
             list.count, text_done(&lines).p);
    case_list_free(&list);
    return EXIT_USAGE;
}

static exit_status find_number(arena *keep, const char *root, const char *typed, case_name *out)
{
    const found_case *found = NULL;
    if (case_number_typed(typed, out->number) != EXIT_DONE) return EXIT_USAGE;
    all_cases all = cases_under(keep, root);
    for (uint32_t i = 0; i < all.count; i++) {
        if (!tt_case_number_fits(all.items[i].id, out->number)) continue;
        if (found != NULL) return say_several(keep, out->number, root);
        found = &all.items[i];
    }
    if (found == NULL) {
        complain("there is no case %s in %s", out->number, root);
        return EXIT_NO_FILE;
    }
    out->folder = arena_text(keep, "%s/%s", found->month, found->id);
    memcpy(out->id, found->id, TT_CASE_ID_SIZE);
    write_number(&all, out->id, out->number);
    return EXIT_DONE;
}

exit_status folder_find(arena *keep, const char *root, const char *named, case_name *out)
{
    bool path = strchr(named, '/') != NULL || tt_is_case_id(named) || is_cases_file(named);
    return path ? use_path(keep, named, out) : find_number(keep, root, named, out);
}

/* ---- a new one ---- */

/* Few digits are easier to tell: so an id is drawn again whose number somebody else has. */
static bool choose_id(const all_cases *all, case_name *out)
{
    unsigned tries = 0;
    do
        if (!case_id_new(out->id)) return false;
    while (is_number_shared(all, out->id, LEAST_DIGITS) && ++tries < MOST_TRIES);
    write_number(all, out->id, out->number);
    return true;
}

/* How long the part of the path is that ends with its next name behind `length`. */
static size_t next_part(const char *path, size_t length)
{
    length += strspn(path + length, "/");
    return length + strcspn(path + length, "/");
}

/* What a folder is that a case is kept in. Links are followed up to the root and not beneath it.
 * Null if it will do, or is not there yet (*there). */
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
    return access(last, W_OK | X_OK) == 0 ? NULL
                                          : arena_text(keep, "%s: %s", last, strerror(errno));
}

static exit_status say_cannot_keep(const char *why)
{
    complain("the case can't be kept. %s.\nName another folder with --cases FOLDER, or keep "
             "nothing with --unsaved",
             why);
    return EXIT_CANNOT_CREATE;
}

/* One that somebody wants must be new. */
static bool take_id(const all_cases *all, const char *id, case_name *out)
{
    if (id == NULL) return choose_id(all, out);
    memcpy(out->id, id, TT_CASE_ID_SIZE);
    write_number(all, out->id, out->number);
    errno = EEXIST;
    for (uint32_t i = 0; i < all->count; i++)
        if (strcmp(all->items[i].id, id) == 0) return false;
    return true;
}

exit_status folder_name_new(arena *keep, const char *root, const char *id, case_name *out)
{
    time_t now = time(NULL);
    struct tm utc;
    char month[16];
    all_cases all = cases_under(keep, root);
    if (!take_id(&all, id, out)) return say_cannot_keep(strerror(errno));
    if (gmtime_r(&now, &utc) == NULL || strftime(month, sizeof month, "%Y/%m", &utc) == 0)
        return say_cannot_keep(strerror(EOVERFLOW));
    out->folder = arena_text(keep, "%s/%s/%s", root, month, out->id);
    const char *why = in_the_way(keep, root, out->folder);
    return why == NULL ? EXIT_DONE : say_cannot_keep(why);
}

const char *folder_make_case(arena *keep, const char *root, const char *folder)
{
    int error = make_folders(root);
    if (error != 0) return arena_text(keep, "%s: %s", root, strerror(error));
    for (size_t length = strlen(root); folder[length] != 0;) {
        bool there;
        length = next_part(folder, length);
        const char *part = arena_text(keep, "%.*s", (int)length, folder);
        const char *fault = fault_of_folder(keep, part, true, &there);
        if (fault != NULL) return fault;
        if (!there && (error = make_folder_in(part)) != 0)
            return arena_text(keep, "%s: %s", part, strerror(error));
    }
    return NULL;
}
