/* Years, months and cases of a root, folder by folder. */
#include "depots/folder_parts.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/grow.h"
#include "host/door.h"
#include "host/memory.h"
#include "host/screen.h"
#include "telltale.h"

typedef struct walk {
    arena *names; /* given back folder by folder */
    case_found *found;
    void *context;
    size_t failed;
} walk;

typedef struct names_in {
    const char **names;
    uint32_t count, room;
    int error; /* there may be more */
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
    const char *const *x = a, *const *y = b;
    return strcmp(*x, *y);
}

/* Folders of years and months are looked at when they are opened. */
static bool is_link(DIR *list, const char *path, const struct dirent *entry)
{
    const bool link = door_is_link(list, entry);
    if (link) complain("%s/%s is left out: it is a link", path, entry->d_name);
    return link;
}

static names_in names_of(walk *w, DIR *list, const char *path, int depth)
{
    names_in in = {.count = 0};
    for (struct dirent *entry; (entry = door_next(list, &in.error)) != NULL;) {
        if (!is_wanted(entry->d_name, depth)) continue;
        if (depth == CASES && is_link(list, path, entry)) continue;
        GROW(w->names, in.names, in.count, in.room);
        in.names[in.count++] = arena_copy(w->names, entry->d_name);
    }
    if (in.count > 0) qsort(in.names, in.count, sizeof *in.names, by_name);
    return in;
}

static void walk_into(walk *w, const char *path, int depth);

static void walk_over(walk *w, const char *path, const names_in *in, int depth)
{
    for (uint32_t i = 0; i < in->count; i++) {
        if (depth == CASES)
            w->found(w->context, path, in->names[i]);
        else
            walk_into(w, arena_text(w->names, "%s/%s", path, in->names[i]), depth + 1);
    }
}

static void note_fault(walk *w, const char *path, int depth, const door_fault *fault)
{
    if (depth == YEARS && fault->error == ENOENT) return;
    if (fault->error == 0)
        complain("%s is left out: it is %s", path, fault->is);
    else if (w->failed++ == 0)
        say_door_fault(path, fault);
}

static void walk_into(walk *w, const char *path, int depth)
{
    door_fault fault;
    DIR *list = door_list(AT_FDCWD, path, depth == YEARS ? LINKS_FOLLOWED : LINKS_REFUSED, &fault);
    if (list == NULL) {
        note_fault(w, path, depth, &fault);
        return;
    }
    arena_mark mark = arena_here(w->names);
    names_in in = names_of(w, list, path, depth);
    closedir(list);
    if (in.error != 0) note_fault(w, path, depth, &(door_fault){.error = in.error});
    walk_over(w, path, &in, depth);
    arena_back_to(w->names, mark);
}

size_t folder_walk(const char *root, case_found *found, void *context)
{
    walk w = {.names = host_arena(), .found = found, .context = context};
    walk_into(&w, root, YEARS);
    arena_free(w.names);
    return w.failed;
}
