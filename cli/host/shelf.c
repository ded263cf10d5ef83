#include "host/shelf.h"

#include <dirent.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "host/plain_text.h"
#include "host/read_book.h"

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

static int by_name(const struct dirent **a, const struct dirent **b)
{
    return strcmp((*a)->d_name, (*b)->d_name);
}

static int may_be_a_book(const struct dirent *entry)
{
    return entry->d_name[0] != '.' && is_clean_name(entry->d_name);
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
    struct dirent **entries = NULL;
    int count = scandir(folder, &entries, may_be_a_book, by_name);
    for (int pass = 0; pass < 2; pass++)
        for (int i = 0; i < count; i++)
            if ((strcmp(entries[i]->d_name, first) == 0) == (pass == 0))
                look_into(&s, folder, entries[i]->d_name);
    for (int i = 0; i < count; i++) free(entries[i]);
    free(entries);
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
