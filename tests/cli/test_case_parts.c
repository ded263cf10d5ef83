/* The small parts that lists and copies of cases are made of, in tables: a line taken apart where
 * it lies, a file read line by line, what another file lacks, an order in which no two are left
 * alike. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <errno.h>
#include <unistd.h>

#include "cases/case_copy.h"
#include "face/colour.h"
#include "host/memory.h"
#include "summary/case_lines.h"
#include "summary/case_order.h"
#include "summary/case_scan.h"
#include "summary/record_line.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

/* ---- a line ---- */

static const char id[] = "019b1b48-9420-7e45-8172-00002235a41d";

#define LINE(seq, lamport, time, seen, kind, data) \
    "{\"version\":1,\"case\":\"019b1b48-9420-7e45-8172-00002235a41d\",\"writer\":\"east\"," \
    "\"seq\":" seq ",\"lamport\":" lamport ",\"time\":\"" time "\",\"before\":\"\"" seen \
    ",\"kind\":\"" kind "\",\"data\":" data "}"

/* Whatever is not written just so goes the slow way, and the line stays as it was for it. */
static void a_line_is_taken_apart_or_left_alone(void **state)
{
    (void)state;
    static const struct {
        const char *line;
        bool taken;
    } rows[] = {
        {LINE("1", "1", "now", "", "stop", "{}"), true},
        {LINE("1", "1", "now", ",\"seen\":{}", "stop", "{\"a\":{}}"), true},
        {LINE("12", "345678901234567", "now", ",\"seen\":{\"west\":3}", "stop", "{}"), true},
        {LINE("1", "1", "now", ",\"seen\":{\"west\":3,\"north\":4}", "stop", "{}"), true},
        {LINE("0", "0", "", "", "stop", "{}"), true},
        {LINE("01", "1", "now", "", "stop", "{}"), false},
        {LINE("", "1", "now", "", "stop", "{}"), false},
        {LINE("1", "3456789012345678", "now", "", "stop", "{}"), false},
        {LINE("1", "1", "n\\u006fw", "", "stop", "{}"), false},
        {LINE("1", "1", "n\now", "", "stop", "{}"), false},
        {LINE("1", "1", "n\xFFow", "", "stop", "{}"), false},
        {LINE("1", "1", "now", ",\"seen\":{\"west\"}", "stop", "{}"), false},
        {LINE("1", "1", "now", ",\"seen\":{\"west\":x}", "stop", "{}"), false},
        {LINE("1", "1", "now", ",\"seen\":{\"west\":3", "stop", "{}"), false},
        {LINE("1", "1", "now", ",\"seen\":{\"west\":3,}", "stop", "{}"), false},
        {LINE("1", "1", "now", ",\"seen\":[]", "stop", "{}"), false},
        {LINE("1", "1", "now", "", "stop", "7"), false},
        {LINE("1", "1", "now", "", "stop", "{}, \"more\":1"), false},
        {LINE("1", "1", "now", "", "stop", ""), false},
        {"{\"version\":1,\"case\":\"019b1b48-9420-7e45-8172-00002235a41e\",\"writer\":\"east\"}",
         false},
        {"{\"version\":1,\"case\":\"019b", false},
        {"{}", false},
        {"", false},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        scanned_line out;
        char line[512];
        const size_t length = strlen(rows[i].line);
        memcpy(line, rows[i].line, length + 1);
        if (line_scan(line, length, id, &out) != rows[i].taken) fail_msg("row %zu", i);
        if (!rows[i].taken) assert_string_equal(line, rows[i].line);
        if (!rows[i].taken) continue;
        assert_string_equal(out.record.writer, "east");
        assert_string_equal(out.record.kind, "stop");
        assert_int_equal(out.data.from[0], '{');
        assert_int_equal(out.data.from + out.data.length - line, length - 1);
    }
}

/* ---- a file of lines ---- */

enum { MOST_LINES = 4 };

typedef struct taken_lines {
    size_t lengths[MOST_LINES];
    bool whole[MOST_LINES];
    off_t ends[MOST_LINES];
    unsigned count, stop_at; /* stop_at: after so many nothing more is wanted */
} taken_lines;

static bool take(void *context, const case_line *line)
{
    taken_lines *t = context;
    assert_true(t->count < MOST_LINES);
    t->lengths[t->count] = line->length;
    t->whole[t->count] = line->whole;
    t->ends[t->count++] = line->end;
    assert_int_equal(line->place, t->count);
    return t->count != t->stop_at;
}

static taken_lines read_lines(const char *bytes, size_t length, off_t from, unsigned stop_at)
{
    taken_lines t = {.stop_at = stop_at};
    FILE *file = tmpfile();
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, length, file), length);
    assert_int_equal(fflush(file), 0);
    assert_int_equal(case_lines_read(fileno(file), from, take, &t), 0);
    fclose(file);
    return t;
}

static void lines_are_read_one_at_a_time(void **state)
{
    (void)state;
    taken_lines t = read_lines("one\n\ntorn", 9, 0, 0);
    assert_int_equal(t.count, 3);
    assert_true(t.whole[0] && t.whole[1] && !t.whole[2]);
    assert_int_equal(t.lengths[1], 0);
    assert_int_equal(t.ends[1], 5);
    assert_int_equal(t.ends[2], 9);
    t = read_lines("one\n\ntorn", 9, 5, 0);
    assert_int_equal(t.count, 1);
    assert_int_equal(t.ends[0], 9);
    t = read_lines("one\ntwo\ntorn", 12, 0, 2); /* what is torn is not wanted either */
    assert_int_equal(t.count, 2);
    t = read_lines("", 0, 0, 0);
    assert_int_equal(t.count, 0);
}

/* Of a line that can be no record no more is kept than shows that. */
static void a_line_without_an_end_takes_no_memory(void **state)
{
    (void)state;
    const size_t length = 3 * (size_t)LONGEST_LINE;
    char *bytes = calloc(1, length);
    assert_non_null(bytes);
    memset(bytes, 'x', length);
    bytes[length - 2] = '\n';
    const taken_lines t = read_lines(bytes, length, 0, 0);
    assert_int_equal(t.count, 2);
    assert_int_equal(t.lengths[0], LONGEST_LINE + 1);
    assert_int_equal(t.ends[0], length - 1);
    assert_int_equal(t.lengths[1], 1);
    free(bytes);
}

static void what_can_not_be_read_says_why(void **state)
{
    (void)state;
    taken_lines t = {.count = 0};
    int ends[2];
    assert_int_equal(case_lines_read(-1, 0, take, &t), EBADF);
    assert_int_equal(pipe(ends), 0);
    assert_int_equal(case_lines_read(ends[0], 0, take, &t), ESPIPE);
    close(ends[0]);
    close(ends[1]);
    assert_int_equal(t.count, 0);
}

/* ---- what another file lacks ---- */

static void only_what_is_missing_is_put_behind(void **state)
{
    (void)state;
    static const struct {
        const char *there, *lines, *missing;
    } rows[] = {
        {"", "a\nb\n", "a\nb\n"},       {"a\n", "a\nb\n", "b\n"},
        {"a\nb\n", "a\nb\n", ""},       {"a\nb\n", "a\n", ""},
        {"b\na\n", "a\nb\nc\n", "c\n"}, {"a\nx\n", "a\nb\n", "b\n"},
        {"a\ntor", "a\nb\n", "\nb\n"},  {"x", "a\nb\n", "\na\nb\n"},
        {"a\nx\n", "a\nb", "b\n"},      {"", "", ""},
        {"a\n", "b\n\n", "b\n\n"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        arena *keep = host_arena();
        const str missing = lines_missing(keep, str_of(rows[i].there), str_of(rows[i].lines));
        if (!str_is(missing, rows[i].missing)) fail_msg("row %zu: \"%.*s\"", i, STR_ARG(missing));
        arena_free(keep);
    }
}

/* ---- an order ---- */

static case_summary summary(const char *uuid, const char *site, const char *until,
                            tt_case_state state, int64_t last)
{
    static char folders[] = "a";
    case_summary c = {.folder = folders,
                      .says = {.site = site, .until = until, .state = state, .last_moment = last}};
    snprintf(c.uuid, sizeof c.uuid, "%s", uuid);
    return c;
}

static void each_order_tells_all_apart(void **state)
{
    (void)state;
    static const struct {
        case_order order;
        const char *name, *sorted;
    } rows[] = {{ORDER_LISTED, "listed", "4123"}, {ORDER_BEGAN, "began", "1234"},
                {ORDER_MOVED, "moved", "2134"},   {ORDER_SITE, "site", "3124"},
                {ORDER_STATE, "state", "1324"},   {ORDER_UNTIL, "until", "3124"}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        case_summary cases[] = {summary("3", "east", "2026-11-29T09:00:00Z", TT_CASE_OPEN, 7),
                                summary("1", "west", "", TT_CASE_OPEN, 7),
                                summary("4", "west", "soon", TT_CASE_CLOSED, 7),
                                summary("2", "west", "", TT_CASE_WAITING, 3)};
        case_list list = {.cases = cases, .count = COUNT(cases)};
        char sorted[COUNT(cases) + 1] = "";
        case_list_sort(&list, rows[i].order);
        for (size_t k = 0; k < COUNT(cases); k++) sorted[k] = cases[k].uuid[0];
        assert_string_equal(sorted, rows[i].sorted);
        assert_string_equal(case_order_name(rows[i].order), rows[i].name);
    }
    case_list one = {.cases = NULL, .count = 0};
    case_list_sort(&one, ORDER_UNTIL);
}

/* One case in two folders, as after a copy by hand. */
static void one_case_twice_stands_by_its_folder(void **state)
{
    (void)state;
    static char first[] = "a", second[] = "b";
    case_summary cases[] = {summary("1", "", "", TT_CASE_OPEN, 1),
                            summary("1", "", "", TT_CASE_OPEN, 1)};
    cases[0].folder = second;
    cases[1].folder = first;
    for (case_order order = ORDER_LISTED; order < CASE_ORDERS; order++) {
        case_list list = {.cases = cases, .count = 2};
        case_list_sort(&list, order);
        assert_string_equal(cases[0].folder, "a");
    }
}

/* ---- colour ---- */

static void colour_as_it_was_wished(void **state)
{
    (void)state;
    static const struct {
        const char *no, *force, *other, *term;
        colour_wish wish;
        bool terminal, on;
    } rows[] = {
        {NULL, NULL, NULL, "xterm", COLOUR_AUTO, true, true},
        {NULL, NULL, NULL, "xterm", COLOUR_AUTO, false, false},
        {NULL, NULL, NULL, "dumb", COLOUR_AUTO, true, false},
        {NULL, NULL, NULL, "", COLOUR_AUTO, true, false},
        {NULL, NULL, NULL, NULL, COLOUR_AUTO, true, false},
        {"", NULL, NULL, "xterm", COLOUR_AUTO, true, true},
        {"1", "1", "1", "xterm", COLOUR_AUTO, true, false},
        {"1", NULL, NULL, "xterm", COLOUR_ALWAYS, false, true},
        {NULL, "1", NULL, "xterm", COLOUR_NEVER, true, false},
        {NULL, "1", NULL, NULL, COLOUR_AUTO, false, true},
        {NULL, "0", NULL, NULL, COLOUR_AUTO, false, false},
        {NULL, "", "1", NULL, COLOUR_AUTO, false, true},
        {NULL, NULL, "0", NULL, COLOUR_AUTO, false, false},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        const char *const set[][2] = {{"NO_COLOR", rows[i].no},
                                      {"FORCE_COLOR", rows[i].force},
                                      {"CLICOLOR_FORCE", rows[i].other},
                                      {"TERM", rows[i].term}};
        for (size_t k = 0; k < COUNT(set); k++)
            if (set[k][1] != NULL)
                setenv(set[k][0], set[k][1], 1);
            else
                unsetenv(set[k][0]);
        if (colour_is_on(rows[i].wish, rows[i].terminal) != rows[i].on) fail_msg("row %zu", i);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_line_is_taken_apart_or_left_alone),
        cmocka_unit_test(lines_are_read_one_at_a_time),
        cmocka_unit_test(a_line_without_an_end_takes_no_memory),
        cmocka_unit_test(what_can_not_be_read_says_why),
        cmocka_unit_test(only_what_is_missing_is_put_behind),
        cmocka_unit_test(each_order_tells_all_apart),
        cmocka_unit_test(one_case_twice_stands_by_its_folder),
        cmocka_unit_test(colour_as_it_was_wished),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
