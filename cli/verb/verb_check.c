/* check: every fault of a book, in one run. */
#include <jansson.h>
#include <stdio.h>

#include "host/read_book.h"
#include "host/screen.h"
#include "verb/verbs.h"

static void print_fault_line(const tt_fault *fault)
{
    json_t *line = json_object();
    json_object_set_new(line, "code", json_string(fault->code));
    json_object_set_new(line, "severity", json_string(fault->severity));
    json_object_set_new(line, "file", json_string(fault->file));
    json_object_set_new(line, "line", json_integer(fault->line));
    json_object_set_new(line, "column", json_integer(fault->column));
    json_object_set_new(line, "end_line", json_integer(fault->end_line));
    json_object_set_new(line, "end_column", json_integer(fault->end_column));
    json_object_set_new(line, "text", json_string(fault->text));
    json_object_set_new(line, "help", json_string(fault->help != NULL ? fault->help : ""));
    json_dumpf(line, stdout, JSON_COMPACT);
    putchar('\n');
    json_decref(line);
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
        for (uint32_t i = 0; i < tt_report_count(report); i++) {
            tt_fault fault = tt_report_fault(report, i);
            print_fault_line(&fault);
        }
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
