#include "test_sources.h"

#include <dirent.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FILES_MOST = 2000 };

static _Noreturn void give_up(const char *what, const char *path)
{
    fprintf(stderr, "%s: %s\n", what, path);
    abort();
}

sources source_from_text(arena *keep, const char *name, str bytes)
{
    source *s = ARENA_NEW(keep, source);
    *s = (source){str_of(name), bytes};
    return (sources){s, 1};
}

sources sources_from_texts(arena *keep, const char *name, const char *text, ...)
{
    source items[16] = {{str_of(name), str_of(text)}};
    uint32_t count = 1;
    va_list more;
    va_start(more, text);
    for (const char *next = va_arg(more, const char *); next != NULL;
         next = va_arg(more, const char *)) {
        if (count == 16) give_up("more than 16 sources", next);
        items[count++] = (source){str_of(next), str_of(va_arg(more, const char *))};
    }
    va_end(more);
    return sources_sorted(keep, items, count);
}

static FILE *opened(const char *path)
{
    FILE *f = fopen(path, "rb");
    if (f == NULL) give_up("can't open", path);
    return f;
}

str file_bytes(arena *keep, const char *path)
{
    FILE *f = opened(path);
    text_builder b = {.keep = keep};
    char piece[4096];
    for (size_t n = fread(piece, 1, sizeof piece, f); n > 0; n = fread(piece, 1, sizeof piece, f))
        text_add(&b, (str){piece, n});
    if (ferror(f)) give_up("can't read", path);
    fclose(f);
    return text_done(&b);
}

static int by_name(const void *a, const void *b)
{
    return str_cmp(*(const str *)a, *(const str *)b);
}

file_names files_ending(arena *keep, const char *folder, const char *ending)
{
    DIR *d = opendir(folder);
    if (d == NULL) give_up("can't open folder", folder);
    str *names = ARENA_ARRAY(keep, str, FILES_MOST);
    size_t count = 0;
    for (const struct dirent *e = readdir(d); e != NULL; e = readdir(d)) {
        if (!str_ends(str_of(e->d_name), ending)) continue;
        if (count == FILES_MOST) give_up("too many files in", folder);
        names[count++] = str_copy(keep, str_of(e->d_name));
    }
    closedir(d);
    qsort(names, count, sizeof *names, by_name);
    return (file_names){names, count};
}

static void *take(void *context, size_t size)
{
    (void)context;
    void *block = malloc(size);
    if (block == NULL) give_up("no memory", "");
    return block;
}

static void give_back(void *context, void *block)
{
    (void)context;
    free(block);
}

arena *test_arena(void)
{
    const memory_source memory = {.take = take, .give_back = give_back};
    return arena_new(&memory, NULL);
}
