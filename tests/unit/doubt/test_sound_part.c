/* One error hides nothing else: what errors don't touch of a book is doubted all the same, and what
 * is only missing for them is not. */
#include "testing.h"

#include "base/arena.h"
#include "base/str.h"
#include "telltale.h"

#include <stdio.h>
#include <string.h>

#define BASE TT_SOURCE_DIR "/tests/unit/doubt/faults/base.yaml"

static str base_bytes(arena *keep)
{
    FILE *f = fopen(BASE, "rb");
    assert_non_null(f);
    char *bytes = ARENA_ARRAY(keep, char, 1 << 16);
    const size_t n = fread(bytes, 1, 1 << 16, f);
    fclose(f);
    return (str){bytes, n};
}

static str replaced(arena *keep, str text, const char *find, const char *put)
{
    const size_t at = str_find(text, str_of(find));
    assert_true(at != SIZE_MAX);
    return str_printf(keep, "%.*s%s%s", (int)at, text.p, put, text.p + at + strlen(find));
}

static tt_report *faulty(str text, const char *more)
{
    const tt_source files[] = {{.name = "a.yaml", .bytes = text.p, .length = text.n},
                               {.name = "b.yaml", .bytes = more, .length = strlen(more)}};
    tt_book *book = NULL;
    tt_report *report = NULL;
    assert_int_equal(tt_book_load(files, 2, &book, &report), TT_FAULTY);
    assert_int_equal(tt_report_doubts(report), TT_OK);
    return report;
}

static uint32_t told(const tt_report *report, const char *code)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < tt_report_count(report); i++)
        count += strcmp(tt_report_fault(report, i).code, code) == 0;
    return count;
}

static const char *const more = "questions:\n  hum-loud:\n    ask: It is loud\n    confirms: {yes: "
                                "breaker-off}\n";

static void doubts_are_told_beside_errors(void **state)
{
    static const char *const slips[][2] = {
        {"    shown-by: {worn-seal: often}", "    shown-by: {worn-saal: often}"},
        {"    cures: {loose-gland: usually}", "    cures: {loose-gland: usualy}"},
        {"  loose-gland:\n    text: The gland is loose",
         "  loose-gland:\n    txt: The gland is loose"},
        {"    usual: dry", "    usual: wet"},
        {"    look-again: [drip]", "    look-again: [drip, dripp]"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof slips / sizeof slips[0]; i++) {
        arena *keep = arena_new(NULL, NULL);
        const str text = replaced(keep, base_bytes(keep), slips[i][0], slips[i][1]);
        tt_report *report = faulty(text, more);
        if (told(report, "T940") != 1 || tt_report_warnings(report) != 1)
            fail_msg("slip %zu:\n%s", i, tt_report_text(report));
        tt_report_free(report);
        arena_free(keep);
    }
}

/* Of a file that can't be read nothing is known, and what names it is left out. */
static void a_file_is_lost(void **state)
{
    static const char *const other = "conclusions: [\n";
    (void)state;
    arena *keep = arena_new(NULL, NULL);
    const str text =
        replaced(keep, base_bytes(keep), "    ask: Does the pump hum?", "    ask: It hums");
    tt_report *report = faulty(text, other);
    if (told(report, "T940") != 1 || tt_report_warnings(report) != 1)
        fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    arena_free(keep);
}

/* What a file that can't be read names is there once it is mended: only what it doesn't name is
 * missed. */
static void what_stands_in_a_lost_file_is_not_missed(void **state)
{
    static const char *const lost =
        "causes:\n  worn-seals:\n    how-often common\n    text: It ran dry\n";
    (void)state;
    arena *keep = arena_new(NULL, NULL);
    const str shown = replaced(keep, base_bytes(keep), "    shown-by: {worn-seal: often}",
                               "    shown-by: {worn-seal: often, worn-seals: often}");
    const str text = replaced(keep, shown, "    cures: {loose-gland: usually}",
                              "    cures: {loose-gland: usually, worn-saal: seldom}");
    tt_report *report = faulty(text, lost);
    if (told(report, "T120") != 1 || told(report, "T208") != 1 ||
        strstr(tt_report_text(report), "worn-saal") == NULL)
        fail_msg("%s", tt_report_text(report));
    assert_int_equal(tt_report_errors(report), 2);
    tt_report_free(report);
    arena_free(keep);
}

/* Without a manifest nothing is sound. */
static void nothing_is_sound(void **state)
{
    (void)state;
    arena *keep = arena_new(NULL, NULL);
    const str text =
        replaced(keep, base_bytes(keep), "  roles: [helper, technician]", "  rolls: [helper]");
    tt_report *report = faulty(text, more);
    assert_true(tt_report_errors(report) > 0);
    assert_int_equal(told(report, "T940"), 0);
    tt_report_free(report);
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(doubts_are_told_beside_errors),
        cmocka_unit_test(a_file_is_lost),
        cmocka_unit_test(what_stands_in_a_lost_file_is_not_missed),
        cmocka_unit_test(nothing_is_sound),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
