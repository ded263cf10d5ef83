/* check: every fault of a book, in one run. */
#include <stdio.h>

#include "host/memory.h"
#include "host/read_book.h"
#include "host/screen.h"
#include "show/author_fields.h"
#include "show/json.h"
#include "verb/verbs.h"

static void print_faults_json(const tt_report *report)
{
    arena *keep = host_arena();
    for (uint32_t i = 0; i < tt_report_count(report); i++) {
        const tt_fault fault = tt_report_fault(report, i);
        const tt_value value = fault_value(keep, &fault);
        const str line = json_write(keep, &value, JSON_DIGITS_SHOWN);
        fwrite(line.p, 1, line.n, stdout);
        putchar('\n');
    }
    arena_free(keep);
}

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

static void print_report(const tt_report *report, const tt_book *book, bool as_json)
{
    if (as_json) {
        print_faults_json(report);
        return;
    }
    screen s = screen_on(stdout);
    show_report(stdout, report);
    if (tt_report_errors(report) == 0 && tt_report_warnings(report) == 0) print_size(&s, book);
}

exit_status verb_check(const command_line *line)
{
    sources all;
    tt_source site = {.name = NULL};
    tt_book *book = NULL;
    tt_report *report = NULL;
    const char *site_path = line->values[OPTION_SITE];
    exit_status status = sources_read(line->words[1], &all);
    if (status == EXIT_DONE && site_path != NULL) status = source_read_file(site_path, &site);
    if (status == EXIT_DONE) {
        tt_status loaded =
            tt_book_load_at(all.items, all.count, site_path != NULL ? &site : NULL, &book, &report);
        if (loaded == TT_NO_MEMORY) {
            complain("there is no memory left");
            status = EXIT_OUR_BUG;
        } else {
            print_report(report, book, is_given(line, OPTION_JSON));
            status = loaded == TT_OK ? EXIT_DONE : EXIT_PROBLEMS;
        }
    }
    tt_report_free(report);
    tt_book_free(book);
    source_free(&site);
    sources_free(&all);
    return status;
}
