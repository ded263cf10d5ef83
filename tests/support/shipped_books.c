#include "shipped_books.h"

#include "testing.h"

#include <dirent.h>
#include <stdbool.h>
#include <stdio.h>
#include <sys/stat.h>

#include "test_sources.h"

enum { FILES_MOST = 500 };

static const char rules[] = TT_SOURCE_DIR "/rules";

typedef struct found_files {
    arena *keep;
    size_t above; /* of a path: what stands before the name within the book */
    source items[FILES_MOST];
    uint32_t count;
} found_files;

static const char *joined(arena *keep, const char *folder, const char *name)
{
    return str_printf(keep, "%s/%s", folder, name).p;
}

static bool is_folder(const char *path)
{
    struct stat about;
    return stat(path, &about) == 0 && S_ISDIR(about.st_mode);
}

static bool is_of_book(str name)
{
    return str_ends(name, ".yaml") || str_ends(name, ".yml") || str_ends(name, ".svg");
}

static void find_files(found_files *found, const char *folder)
{
    DIR *d = opendir(folder);
    if (d == NULL) fail_msg("can't open %s", folder);
    for (const struct dirent *e = readdir(d); e != NULL; e = readdir(d)) {
        if (e->d_name[0] == '.') continue;
        const char *path = joined(found->keep, folder, e->d_name);
        if (is_folder(path)) {
            find_files(found, path);
        } else if (is_of_book(str_of(path))) {
            assert_true(found->count < FILES_MOST);
            found->items[found->count++] =
                (source){str_of(path + found->above), file_bytes(found->keep, path)};
        }
    }
    closedir(d);
}

sources files_of_book(arena *keep, const char *path)
{
    found_files *found = ARENA_NEW(keep, found_files);
    found->keep = keep;
    found->above = strlen(path) + 1;
    find_files(found, path);
    return sources_sorted(keep, found->items, found->count);
}

uint32_t shipped_books(arena *keep, shipped_book *out)
{
    uint32_t count = 0;
    DIR *d = opendir(rules);
    assert_non_null(d);
    for (const struct dirent *e = readdir(d); e != NULL; e = readdir(d)) {
        const char *path = joined(keep, rules, e->d_name);
        if (e->d_name[0] == '.' || !is_folder(path)) continue;
        assert_true(count < SHIPPED_MOST);
        out[count++] = (shipped_book){path + strlen(rules) + 1, files_of_book(keep, path)};
    }
    closedir(d);
    assert_true(count > 0);
    return count;
}

shipped_book shipped_named(arena *keep, const char *folder)
{
    return (shipped_book){folder, files_of_book(keep, joined(keep, rules, folder))};
}

tt_book *shipped_load(arena *scratch, const shipped_book *shipped)
{
    tt_book *book;
    tt_report *report;
    tt_source *files = ARENA_ARRAY(scratch, tt_source, shipped->files.count);
    for (uint32_t i = 0; i < shipped->files.count; i++) {
        const source *file = &shipped->files.items[i];
        files[i] = (tt_source){file->name.p, file->bytes.p, file->bytes.n};
    }
    if (tt_book_load(files, shipped->files.count, &book, &report) != TT_OK)
        fail_msg("%s: %s", shipped->folder, tt_report_text(report));
    tt_report_free(report);
    assert_int_equal(tt_book_hear(book), TT_OK);
    return book;
}
