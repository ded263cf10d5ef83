/* rename: one name for another, in all files of a book, as a patch. */
#include <stdlib.h>
#include <string.h>

#include "books/read_book.h"
#include "face/patch.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "verb/verbs.h"

/* In the folder of the file. */
static void print_site_edits(const tt_renamed *done, const tt_source *site)
{
    const char *stroke = strrchr(site->name, '/');
    tt_source there = *site;
    there.name = stroke != NULL ? stroke + 1 : site->name;
    tt_edit *edits = take_memory((done->site_edit_count + 1) * sizeof *edits);
    for (uint32_t i = 0; i < done->site_edit_count; i++) {
        edits[i] = done->site_edits[i];
        edits[i].file = there.name;
    }
    print_patch(stdout, &there, 1, edits, done->site_edit_count);
    free(edits);
}

/* The book's files, or the site's alone: they lie in different folders. */
static void print_edits(const tt_renamed *done, const sources *files, const tt_source *site)
{
    if (site == NULL) {
        print_patch(stdout, files->items, files->count, done->edits, done->edit_count);
        return;
    }
    print_site_edits(done, site);
    if (done->site_edit_count == 0)
        complain("it does not stand in %s: nothing is to be changed there", site->name);
}

static exit_status show(const command_line *line, tt_status status, const tt_renaming *renaming,
                        const tt_report *report, const sources *files, const tt_source *site)
{
    if (status == TT_NO_MEMORY) {
        complain("there is no memory left");
        return EXIT_OUR_BUG;
    }
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
    print_edits(&done, files, site);
    return EXIT_DONE;
}

exit_status verb_rename(const command_line *line)
{
    sources files = {.count = 0};
    tt_source site = {.name = NULL};
    tt_renaming *renaming = NULL;
    tt_report *report = NULL;
    const char *site_path = line->values[OPTION_SITE];
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
