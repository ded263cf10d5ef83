/* A part of a rehearsal as another process hands it back: whole it is what was written, and
 * whatever of it is missing, of another book or not what it should be is told. */
#include <string.h>

#include "show/json.h"
#include "show/part_fields.h"
#include "small_book.h"
#include "test_sources.h"
#include "testing.h"

static const char lamp[] = "book:\n  title: Lamp\n  roles: [anybody]\n"
                           "questions:\n  dark:\n    ask: Is it dark?\n"
                           "causes:\n  bulb: {text: Bulb}\n";

/* The lines of JSON that a part is, with one text in place of another. */
static tt_value part_with(arena *keep, const tt_origin *origin, const char *old, const char *new)
{
    static const uint64_t words[] = {7, UINT64_MAX};
    const rehearsal_part part = {.first = 2,
                                 .last = 9,
                                 .role = "anybody",
                                 .options = {.seed = 5, .misread = .25, .numbers_off = .5},
                                 .words = words,
                                 .word_count = 2};
    const tt_value whole = rehearsal_part_value(keep, origin, &part);
    const str text = json_write(keep, &whole, JSON_DIGITS_SHOWN);
    const size_t at = str_find(text, str_of(old));
    if (at == SIZE_MAX) fail_msg("no %s in %s", old, text.p);
    const str other = str_printf(keep, "%.*s%s%s", (int)at, text.p, new, text.p + at + strlen(old));
    tt_value out;
    json_fault wrong;
    if (!json_read(keep, other, other.n, &out, &wrong)) fail_msg("%s", other.p);
    return out;
}

static const char damaged[] = "is damaged", elsewhere[] = "was played for another site",
                  version[] = "was written by another version", other_book[] = "is of another book",
                  no_part[] = "is no part of a rehearsal";

static const struct {
    const char *old, *new, *said;
} wrong_parts[] = {
    {"\"kind\":\"part of a rehearsal\"", "\"kind\":\"part\"", no_part},
    {"\"kind\":", "\"sort\":", no_part},
    {"\"version\":1", "\"version\":2", version},
    {"\"version\":1", "\"version\":\"1\"", version},
    {"\"program\":", "\"programme\":", version},
    {"\"program\":\"", "\"program\":\"9", version},
    {"\"revision\":\"r1\"", "\"revision\":\"r2\"", other_book},
    {"\"revision\":\"r1\"", "\"revised\":\"r1\"", other_book},
    {"\"first\":2", "\"first\":0", damaged},
    {"\"first\":2", "\"first\":10", damaged},
    {"\"first\":2", "\"first\":\"2\"", damaged},
    {"\"last\":9", "\"last\":-9", damaged},
    {"\"last\":9,", "", damaged},
    {"\"seed\":5", "\"seed\":5.5", damaged},
    {"\"role\":\"anybody\"", "\"role\":1", damaged},
    {"\"misread\":0.25", "\"misread\":null", damaged},
    {"\"numbers_off\":0.5", "\"numbers_off\":[]", damaged},
    {"[\"7\",", "[7,", damaged},
    {"[\"7\",", "[\"-7\",", damaged},
    {"[\"7\",", "[\"\",", damaged},
    {"[\"7\",", "[\"000000000000000000007\",", damaged},
    {"[\"7\",\"18446744073709551615\"]", "\"7\"", damaged},
};

static void what_is_wrong_with_a_part_is_told(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *book = small_book(lamp);
    const tt_origin origin = {book, "r1", NULL};
    rehearsal_part out;
    for (size_t i = 0; i < sizeof wrong_parts / sizeof *wrong_parts; i++) {
        const tt_value v = part_with(keep, &origin, wrong_parts[i].old, wrong_parts[i].new);
        const char *said = rehearsal_part_read(keep, &origin, &v, &out);
        if (said == NULL || strncmp(said, wrong_parts[i].said, strlen(wrong_parts[i].said)) != 0)
            fail_msg("%s: %s", wrong_parts[i].new, said != NULL ? said : "nothing");
    }
    tt_book_free(book);
    arena_free(keep);
}

static void a_whole_part_is_what_was_written(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *book = small_book(lamp);
    const tt_origin origin = {book, "r1", NULL}, empty = {book, "r1", ""};
    rehearsal_part out;
    const tt_value v = part_with(keep, &origin, "", "");
    assert_null(rehearsal_part_read(keep, &empty, &v, &out));
    assert_null(rehearsal_part_read(keep, &origin, &v, &out));
    assert_true(out.first == 2 && out.last == 9 && out.options.seed == 5 && out.word_count == 2);
    assert_true(out.words[0] == 7 && out.words[1] == UINT64_MAX && !out.options.sensitivity);
    assert_true(out.options.misread == .25 && out.options.numbers_off == .5);
    assert_string_equal(out.role, "anybody");
    tt_book_free(book);
    arena_free(keep);
}

static tt_book *at_a_site(void)
{
    const tt_source rules = {"lamp.yaml", lamp, sizeof lamp - 1},
                    site = {"site.yaml", "site: {title: Shed}\n", 20};
    tt_report *report;
    tt_book *book;
    if (tt_book_load_at(&rules, 1, &site, &book, &report) != TT_OK)
        fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    return book;
}

/* Nobody adds calls of two sites, or of one before and after a change. */
static void a_part_is_of_one_site(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *shed = at_a_site(), *alone = small_book(lamp);
    const tt_origin sites[] = {{shed, "r1", "s1"},
                               {shed, "r1", "s2"},
                               {shed, "r1", ""},
                               {shed, "r1", NULL},
                               {alone, "r1", "s1"}};
    enum { SITES = sizeof sites / sizeof *sites };
    rehearsal_part out;
    for (int i = 0; i < SITES; i++)
        for (int k = 0; k < SITES; k++) {
            const tt_value v = part_with(keep, &sites[i], "", "");
            const char *said = rehearsal_part_read(keep, &sites[k], &v, &out);
            const bool same = i == k || (i > 1 && k > 1); /* none is none */
            assert_int_equal(said == NULL, same);
            if (!same) assert_int_equal(strncmp(said, elsewhere, sizeof elsewhere - 1), 0);
        }
    tt_book_free(shed);
    tt_book_free(alone);
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_wrong_with_a_part_is_told),
        cmocka_unit_test(a_whole_part_is_what_was_written),
        cmocka_unit_test(a_part_is_of_one_site),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
