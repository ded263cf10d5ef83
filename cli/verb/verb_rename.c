/* rename: one name for another, in all files of a book, as a patch. */
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "books/read_book.h"
#include "face/patch.h"
#include "host/files.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "verb/verbs.h"

/* How much of both paths is the folder that both lie in; they are absolute. */
static size_t above_both(const char *folder, const char *file)
{
    size_t above = 0, i = 0;
    for (; folder[i] == file[i] && folder[i] != 0; i++)
        if (folder[i] == '/') above = i + 1;
    return folder[i] == 0 && file[i] == '/' ? i + 1 : above;
}

/* The book's file as it is called from there. */
static char *name_from(const char *folder, size_t above, const char *file)
{
    const char *rest = above < strlen(folder) ? folder + above : "";
    return format_text("%s%s%s", rest, *rest != 0 ? "/" : "", file);
}

/* One patch for files that lie in different folders: named from the folder above all of them. */
static void print_with_site(const tt_renamed *done, const sources *files, const tt_source *site,
                            const char *folder, const char *path)
{
    const size_t above = above_both(folder, path);
    const uint32_t all = done->edit_count + done->site_edit_count;
    tt_source *named = take_memory((files->count + 1) * sizeof *named);
    tt_edit *edits = take_memory(((size_t)all + 1) * sizeof *edits);
    uint32_t e = 0;
    for (size_t i = 0; i < files->count; i++) {
        named[i] = files->items[i];
        named[i].name = name_from(folder, above, files->items[i].name);
        for (; e < done->edit_count && strcmp(done->edits[e].file, files->items[i].name) == 0;
             e++) {
            edits[e] = done->edits[e];
            edits[e].file = named[i].name;
        }
    }
    named[files->count] = *site;
    named[files->count].name = path + above;
    for (uint32_t i = 0; i < done->site_edit_count; i++) {
        edits[e + i] = done->site_edits[i];
        edits[e + i].file = named[files->count].name;
    }
    print_patch(stdout, named, files->count + 1, edits, all);
    for (size_t i = 0; i < files->count; i++) free((char *)(uintptr_t)named[i].name);
    free(named);
    free(edits);
    complain("the patch is for the folder above book and site: patch -p1 -d %.*s", (int)above,
             path);
}

/* Where both lie is asked once more, of a disk that may not answer. */
static exit_status print_edits(const command_line *line, const tt_renamed *done,
                               const sources *files, const tt_source *site)
{
    if (site == NULL) {
        print_patch(stdout, files->items, files->count, done->edits, done->edit_count);
        return EXIT_DONE;
    }
    char *path = real_path(line->values[OPTION_SITE]);
    exit_status status = path != NULL ? EXIT_DONE : say_file_failure(site->name, errno);
    char *folder = status == EXIT_DONE ? book_folder(line->words[1]) : NULL;
    if (status == EXIT_DONE && folder == NULL) status = say_file_failure(line->words[1], errno);
    if (status == EXIT_DONE) print_with_site(done, files, site, folder, path);
    if (status == EXIT_DONE && done->site_edit_count == 0)
        complain("it does not stand in %s: nothing is to be changed there", site->name);
    free(folder);
    free(path);
    return status;
}

static exit_status show(const command_line *line, tt_status status, const tt_renaming *renaming,
                        const tt_report *report, const sources *files, const tt_source *site)
{
    if (status == TT_NO_MEMORY) memory_ended();
    if (renaming == NULL) {
        show_report(stderr, report);
        complain("%s can't be used before this is mended", line->words[1]);
        return EXIT_BAD_DATA;
    }
    const tt_renamed done = tt_renaming_look(renaming);
    if (status != TT_OK) {
        complain("%s", done.refusal);
        return EXIT_PROBLEMS;
    }
    return print_edits(line, &done, files, site);
}

exit_status verb_rename(const command_line *line)
{
    sources files = {.count = 0};
    tt_source site = {.name = NULL};
    tt_renaming *renaming = NULL;
    tt_report *report = NULL;
    const char *site_path = line->values[OPTION_SITE];
    if (site_path != NULL && strcmp(site_path, "-") == 0) {
        complain("--site - has no place that a patch could name: name a file");
        return EXIT_USAGE;
    }
    exit_status status = sources_read(line->words[1], &files);
    if (status == EXIT_DONE && site_path != NULL) status = source_read_file(site_path, &site);
    if (status == EXIT_DONE) {
        const tt_source *at = site_path != NULL ? &site : NULL;
        tt_status done = tt_rename(files.items, files.count, at, line->words[2], line->words[3],
                                   &renaming, &report);
        status = show(line, done, renaming, report, &files, at);
    }
    tt_report_free(report);
    tt_renaming_free(renaming);
    source_free(&site);
    sources_free(&files);
    return status;
}
