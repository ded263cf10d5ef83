#include "books/shelf.h"

#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "books/read_book.h"
#include "host/door.h"
#include "host/files.h"
#include "host/plain_text.h"

static void put_on(shelf *s, char *path, char *title)
{
    s->paths = room_for_one(s->paths, s->count, sizeof *s->paths);
    s->titles = room_for_one(s->titles, s->count, sizeof *s->titles);
    s->paths[s->count] = path;
    s->titles[s->count++] = title;
}

static bool is_folder(const char *path)
{
    struct stat about;
    return stat(path, &about) == 0 && S_ISDIR(about.st_mode);
}

static int by_name(const void *a, const void *b)
{
    char *const *x = a, *const *y = b;
    return strcmp(*x, *y);
}

static char **names_in(const char *path, size_t *count)
{
    char **names = NULL;
    door_fault fault;
    DIR *list = door_list(AT_FDCWD, path, LINKS_FOLLOWED, &fault);
    *count = 0;
    if (list == NULL) return NULL;
    int error = 0;
    for (struct dirent *entry; (entry = door_next(list, &error)) != NULL;) {
        if (entry->d_name[0] == '.' || !is_clean_name(entry->d_name)) continue;
        names = room_for_one(names, *count, sizeof *names);
        names[(*count)++] = copy_text(entry->d_name);
    }
    if (error != 0) say_file_failure(path, error);
    closedir(list);
    if (names != NULL) qsort(names, *count, sizeof *names, by_name);
    return names;
}

static void look_into(shelf *s, const char *folder, const char *name)
{
    char *path = format_text("%s/%s", folder, name);
    char *title = is_folder(path) ? book_title(path) : NULL;
    if (title != NULL)
        put_on(s, path, title);
    else
        free(path);
}

shelf shelf_read(const char *folder, const char *first)
{
    shelf s = {.count = 0};
    size_t count;
    char **names = names_in(folder, &count);
    for (int pass = 0; pass < 2; pass++)
        for (size_t i = 0; i < count; i++)
            if ((strcmp(names[i], first) == 0) == (pass == 0)) look_into(&s, folder, names[i]);
    for (size_t i = 0; i < count; i++) free(names[i]);
    free(names);
    return s;
}

void shelf_free(shelf *s)
{
    for (unsigned i = 0; i < s->count; i++) {
        free(s->paths[i]);
        free(s->titles[i]);
    }
    free(s->paths);
    free(s->titles);
    *s = (shelf){.count = 0};
}
