/* table: causes and signs of a book, and back from a spreadsheet as a patch. */
#include "books/read_book.h"
#include "face/patch.h"
#include "face/show_table.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "verb/verbs.h"

static void print_csv(tt_table *t)
{
    const char *bytes;
    size_t length;
    if (tt_table_csv(t, &bytes, &length) != TT_OK) memory_ended();
    fwrite(bytes, 1, length, stdout);
}

static void print_table(const command_line *line, tt_table *t)
{
    const tt_table_view view = tt_table_look(t);
    const screen s = screen_on(stdout);
    if (is_given(line, OPTION_CSV))
        print_csv(t);
    else if (is_given(line, OPTION_HTML))
        table_on_paper(stdout, &paper_of_html, &view);
    else
        table_in_words(&s, &view);
}

/* The patch, or what is wrong with the table. */
static exit_status read_back(tt_table *t, const tt_source *file, const sources *files)
{
    const tt_edit *edits;
    uint32_t count;
    tt_report *report = NULL;
    tt_status done = tt_table_read(t, file, &edits, &count, &report);
    if (done == TT_NO_MEMORY) memory_ended();
    if (done == TT_OK)
        print_patch(stdout, files->items, files->count, edits, count);
    else {
        show_report(stderr, report);
        complain("%s can't be taken over before this is mended", file->name);
    }
    if (done == TT_OK && count == 0)
        complain("no number is another than in the book: there is nothing to patch");
    tt_report_free(report);
    return done == TT_OK ? EXIT_DONE : EXIT_BAD_DATA;
}

static exit_status work(const command_line *line, const sources *files, const tt_source *edited)
{
    tt_table *t = NULL;
    tt_report *report = NULL;
    exit_status status = EXIT_BAD_DATA;
    tt_status made = tt_table_new(files->items, files->count, &t, &report);
    if (made == TT_NO_MEMORY) memory_ended();
    if (made == TT_FAULTY) {
        show_report(stderr, report);
        complain("%s can't be used before this is mended", line->words[1]);
    }
    if (made == TT_OK && edited->bytes != NULL)
        status = read_back(t, edited, files);
    else if (made == TT_OK) {
        print_table(line, t);
        status = EXIT_DONE;
    }
    tt_report_free(report);
    tt_table_free(t);
    return status;
}

exit_status verb_show_table(const command_line *line)
{
    sources files = {.count = 0};
    tt_source edited = {.name = NULL};
    const char *from = line->values[OPTION_FROM];
    if (is_given(line, OPTION_CSV) + is_given(line, OPTION_HTML) + (from != NULL) > 1) {
        complain("--csv, --html and --from don't go together");
        return EXIT_USAGE;
    }
    exit_status status = sources_read(line->words[1], &files);
    if (status == EXIT_DONE && from != NULL) status = source_read_large(from, &edited);
    if (status == EXIT_DONE) status = work(line, &files, &edited);
    source_free(&edited);
    sources_free(&files);
    return status;
}
