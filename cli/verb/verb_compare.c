/* compare: whom a change of the rules moves, and which change it was. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/value.h"
#include "books/read_book.h"
#include "call/cases_in_order.h"
#include "cases/begin_case.h"
#include "cases/case_depot.h"
#include "face/compared.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/read_number.h"
#include "host/screen.h"
#include "show/compare_fields.h"
#include "show/json.h"
#include "verb/verbs.h"

enum { CALLS_USUAL = 50, CALLS_MOST = 100000 };

/* ---- cases that were kept ---- */

typedef struct taking {
    tt_comparison *x;
    const char *title; /* of the older edition */
    exit_status status;
} taking;

static void take_case(taking *t, const seen_case *c, const char *uuid)
{
    size_t count;
    char number[TT_CASE_NUMBER_SIZE];
    const tt_record *records = case_store_records(c->store, &count);
    if (c->places.begin == NULL || strcmp(seen_case_text(c->places.begin, "title"), t->title) != 0)
        return;
    tt_case_number(uuid, 6, number);
    const tt_kept_case kept = {.name = number,
                               .site = value_text(c->places.site, "text"),
                               .writer = c->says.writer,
                               .now = c->says.last,
                               .records = records,
                               .record_count = count,
                               .practice = is_practice_case(&c->places)};
    const exit_status status = status_of(tt_comparison_case(t->x, &kept));
    if (t->status == EXIT_DONE) t->status = status;
}

static void look_at(void *context, const read_case *one)
{
    if (one->read == EXIT_DONE && one->c->says.kind == TT_KIND_FAULT)
        take_case(context, one->c, one->uuid);
}

static exit_status take_cases(tt_comparison *x, const char *old, const char *root)
{
    bool there;
    if (root == NULL) return EXIT_DONE;
    opened_book book;
    exit_status status = depot_of(root)->look(root, false, &there);
    if (status == EXIT_DONE) status = book_open(old, NULL, &book);
    if (status != EXIT_DONE) return status;
    char *title = clean_text(tt_book_describe(book.book).title);
    book_close(&book);
    taking t = {.x = x, .title = title};
    const size_t out_of_reach = cases_in_order(root, look_at, &t);
    free(title);
    return t.status == EXIT_DONE ? all_were_read(out_of_reach) : t.status;
}

/* ---- two editions ---- */

static exit_status say_faulty(const char *folder, const tt_report *report)
{
    if (report == NULL || tt_report_errors(report) == 0) return EXIT_DONE;
    show_report(stderr, report);
    complain("%s can't be used before this is mended", folder);
    return EXIT_BAD_DATA;
}

static exit_status begin(const command_line *line, tt_comparison **out)
{
    sources before = {.count = 0}, after = {.count = 0};
    tt_report *of_before = NULL, *of_after = NULL;
    exit_status status = sources_read(line->words[1], &before);
    if (status == EXIT_DONE) status = sources_read(line->words[2], &after);
    if (status == EXIT_DONE) {
        tt_status made = tt_comparison_new(before.items, before.count, after.items, after.count,
                                           out, &of_before, &of_after);
        status = made == TT_FAULTY ? EXIT_BAD_DATA : status_of(made);
        say_faulty(line->words[1], of_before);
        say_faulty(line->words[2], of_after);
    }
    tt_report_free(of_before);
    tt_report_free(of_after);
    sources_free(&before);
    sources_free(&after);
    return status;
}

static void print_json(const tt_compared *all)
{
    arena *keep = host_arena();
    const tt_value value = compared_value(keep, all);
    const str text = json_write_lines(keep, &value, JSON_DIGITS_SHOWN, 2);
    fwrite(text.p, 1, text.n, stdout);
    arena_free(keep);
}

static exit_status look(const command_line *line, tt_comparison *x, uint64_t seed, uint64_t calls)
{
    const tt_compared *all;
    const screen s = screen_on(stdout);
    must_be_done(tt_comparison_look(x, seed, calls, &all));
    if (is_given(line, OPTION_JSON))
        print_json(all);
    else
        show_compared(&s, all);
    return EXIT_DONE;
}

static exit_status whole_option(const command_line *line, option_id option, uint64_t most,
                                uint64_t *number)
{
    const char *text = line->values[option];
    if (text == NULL || whole_number(text, 0, most, number)) return EXIT_DONE;
    complain("--%s %s: write a whole number from 0 to %llu", option_table[option].name, text,
             (unsigned long long)most);
    return EXIT_USAGE;
}

exit_status verb_compare(const command_line *line)
{
    tt_comparison *x = NULL;
    uint64_t seed = 1, calls = CALLS_USUAL;
    exit_status status = whole_option(line, OPTION_CALLS, CALLS_MOST, &calls);
    if (status == EXIT_DONE) status = whole_option(line, OPTION_SEED, UINT32_MAX, &seed);
    if (status == EXIT_DONE) status = begin(line, &x);
    if (status == EXIT_DONE) status = take_cases(x, line->words[1], line->values[OPTION_CASES]);
    if (status == EXIT_DONE) status = look(line, x, seed, calls);
    tt_comparison_free(x);
    return status;
}
