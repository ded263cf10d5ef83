/* check: every fault of a book, in one run. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "books/read_book.h"
#include "host/files.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "show/author_fields.h"
#include "show/json.h"
#include "verb/verbs.h"

/* ---- for programs ---- */

static void print_value(arena *keep, const tt_value *value)
{
    const str line = json_write(keep, value, JSON_DIGITS_SHOWN);
    fwrite(line.p, 1, line.n, stdout);
    putchar('\n');
}

static void print_json(const tt_report *report)
{
    arena *keep = host_arena();
    for (uint32_t i = 0; i < tt_report_count(report); i++) {
        const tt_value value = fault_value(keep, report, i);
        print_value(keep, &value);
    }
    arena_free(keep);
}

/* What was named on the command line, so that a path is right where the program was called; or, of
 * a book that came with the program, where it lies. */
static char *folder_of(const char *named)
{
    char *found = book_folder(named), *here = absolute_path(named);
    const bool is_here = found != NULL && here != NULL && strcmp(found, here) == 0;
    char *folder = copy_text(is_here || found == NULL ? named : found);
    size_t length = strlen(folder);
    while (length > 1 && folder[length - 1] == '/') folder[--length] = 0;
    free(found);
    free(here);
    return folder;
}

static void print_log(const tt_report *report, const char *named)
{
    char *folder = book_folder(named);
    arena *keep = host_arena();
    const tt_value log =
        fault_log_value(keep, report, TELLTALE_VERSION, folder != NULL ? folder : named);
    print_value(keep, &log);
    arena_free(keep);
    free(folder);
}

/* ---- lines, as the GNU Coding Standards have them in "Formatting Error Messages" ---- */

/* The site's file was named by itself; all others lie in the book's folder. */
static void print_place(const char *folder, const char *site, const char *file, uint32_t line,
                        uint32_t column)
{
    if (*file == 0) {
        printf("%s: ", folder);
        return;
    }
    char *clean = clean_text(file);
    if (site == NULL || strcmp(file, site) != 0) printf("%s/", folder);
    printf("%s:%u:%u: ", clean, line, column);
    free(clean);
}

static void print_line(const tt_report *report, uint32_t i, const char *folder, const char *site)
{
    const tt_fault f = tt_report_fault(report, i);
    tt_remark note;
    print_place(folder, site, f.file, f.line, f.column);
    printf("%s: %s%s%s [%s]\n", f.severity, f.text, *f.help != 0 ? " " : "", f.help, f.code);
    for (uint32_t n = 0; tt_report_note(report, i, n, &note); n++) {
        print_place(folder, site, note.file, note.line, note.column);
        printf("note: %s\n", note.text);
    }
}

static void print_lines(const tt_report *report, const char *named, const char *site)
{
    char *folder = folder_of(named);
    for (uint32_t i = 0; i < tt_report_count(report); i++) print_line(report, i, folder, site);
    free(folder);
}

/* ---- for people ---- */

static void print_size(const screen *s, const tt_book *book)
{
    tt_book_info info = tt_book_describe(book);
    say(s,
        "%s, edition %s: %u questions, %u symptoms, %u causes, %u fixes, %u rules, %u worked "
        "cases.",
        info.title, info.edition, info.questions, info.symptoms, info.causes, info.fixes,
        info.rules, info.cases);
    say(s, "No faults.");
}

static void print_words(const tt_report *report, const tt_book *book)
{
    screen s = screen_on(stdout);
    show_report(stdout, report);
    if (tt_report_errors(report) > 0)
        say(&s, "%s",
            tt_report_errors(report) == 1 ? "More may come once it is mended."
                                          : "More may come once these are mended.");
    else if (tt_report_warnings(report) == 0)
        print_size(&s, book);
}

static void print_report(const command_line *line, const tt_report *report, const tt_book *book,
                         const char *site)
{
    if (is_given(line, OPTION_JSON))
        print_json(report);
    else if (is_given(line, OPTION_SARIF))
        print_log(report, line->words[1]);
    else if (is_given(line, OPTION_LINES))
        print_lines(report, line->words[1], site);
    else
        print_words(report, book);
}

static bool one_form(const command_line *line)
{
    const int forms =
        is_given(line, OPTION_JSON) + is_given(line, OPTION_SARIF) + is_given(line, OPTION_LINES);
    if (forms > 1) complain("--json, --lines and --sarif don't go together");
    return forms <= 1;
}

exit_status verb_check(const command_line *line)
{
    sources all = {.count = 0};
    tt_source site = {.name = NULL};
    tt_book *book = NULL;
    tt_report *report = NULL;
    const char *site_path = line->values[OPTION_SITE];
    if (!one_form(line)) return EXIT_USAGE;
    exit_status status = sources_read(line->words[1], &all);
    if (status == EXIT_DONE && site_path != NULL) status = source_read_file(site_path, &site);
    if (status == EXIT_DONE) {
        tt_status loaded =
            tt_book_load_at(all.items, all.count, site_path != NULL ? &site : NULL, &book, &report);
        if (loaded == TT_OK && site_path == NULL) loaded = tt_book_doubts(book, report);
        if (loaded == TT_FAULTY && site_path == NULL && tt_report_doubts(report) == TT_NO_MEMORY)
            loaded = TT_NO_MEMORY;
        if (loaded == TT_NO_MEMORY) memory_ended();
        const bool counts = is_given(line, OPTION_STRICT) && tt_report_warnings(report) > 0;
        print_report(line, report, book, site.name);
        status = loaded == TT_OK && !counts ? EXIT_DONE : EXIT_PROBLEMS;
    }
    tt_report_free(report);
    tt_book_free(book);
    source_free(&site);
    sources_free(&all);
    return status;
}
