#include "host/case_walk.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "host/door.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "telltale.h"

typedef struct walk {
    case_found *found;
    void *context;
    size_t failed;
} walk;

typedef struct names_in {
    char **names;
    size_t count;
} names_in;

enum { YEARS, MONTHS, CASES };

static bool is_wanted(const char *name, int depth)
{
    static const size_t digits[] = {[YEARS] = 4, [MONTHS] = 2};
    if (depth == CASES) return tt_is_case_id(name);
    return strlen(name) == digits[depth] && strspn(name, "0123456789") == digits[depth];
}

static int by_name(const void *a, const void *b)
{
    char *const *x = a, *const *y = b;
    return strcmp(*x, *y);
}

/* Folders of years and months are looked at when they are opened. */
static bool is_link(DIR *list, const char *path, const char *name)
{
    struct stat about;
    if (fstatat(dirfd(list), name, &about, AT_SYMLINK_NOFOLLOW) != 0 || !S_ISLNK(about.st_mode)) return false;
    complain("%s/%s is left out: it is a link", path, name);
    return true;
}

static names_in names_of(DIR *list, const char *path, int depth)
{
    names_in in = {.count = 0};
    for (struct dirent *entry; (entry = readdir(list)) != NULL;) {
        if (!is_wanted(entry->d_name, depth)) continue;
        if (depth == CASES && is_link(list, path, entry->d_name)) continue;
        in.names = room_for_one(in.names, in.count, sizeof *in.names);
        in.names[in.count++] = copy_text(entry->d_name);
    }
    if (in.count > 0) qsort(in.names, in.count, sizeof *in.names, by_name);
    return in;
}

static void walk_into(walk *w, const char *path, int depth);

static void walk_over(walk *w, const char *path, const names_in *in, int depth)
{
    for (size_t i = 0; i < in->count; i++) {
        if (depth == CASES) {
            w->found(w->context, path, in->names[i]);
            continue;
        }
        char *within = format_text("%s/%s", path, in->names[i]);
        walk_into(w, within, depth + 1);
        free(within);
    }
}

static void note_fault(walk *w, const char *path, int depth, const door_fault *fault)
{
    if (depth == YEARS && fault->error == ENOENT) return;
    if (fault->error == 0) complain("%s is left out: it is %s", path, fault->is);
    else if (w->failed++ == 0) say_door_fault(path, fault);
}

static void walk_into(walk *w, const char *path, int depth)
{
    door_fault fault;
    DIR *list = door_list(AT_FDCWD, path, depth == YEARS ? LINKS_FOLLOWED : LINKS_REFUSED, &fault);
    if (list == NULL) {
        note_fault(w, path, depth, &fault);
        return;
    }
    names_in in = names_of(list, path, depth);
    closedir(list);
    walk_over(w, path, &in, depth);
    for (size_t i = 0; i < in.count; i++) free(in.names[i]);
    free(in.names);
}

size_t case_walk(const char *root, case_found *found, void *context)
{
    walk w = {.found = found, .context = context};
    walk_into(&w, root, YEARS);
    return w.failed;
}
