#include "testing.h"

#include <stdio.h>

#include "base/faults.h"
#include "base/unicode.h"
#include "test_sources.h"

typedef struct kit {
    arena *keep;
    faults *list;
    sources all;
} kit;

static kit kit_of(const char *first, const char *second)
{
    kit k = {.keep = test_arena()};
    k.list = faults_new(k.keep);
    k.all = sources_from_texts(k.keep, "a.yaml", first, "b.yaml", second, NULL);
    return k;
}

static const char *text_of(kit *k, uint32_t most)
{
    return faults_text(k->list, k->keep, &k->all, most).p;
}

static span at(uint32_t file, uint32_t start, uint32_t end)
{
    return (span){file, start, end};
}

static void nothing_is_wrong(void **state)
{
    (void)state;
    kit k = kit_of("", "");
    assert_string_equal(text_of(&k, 0), "");
    assert_int_equal(faults_errors(k.list) + faults_warnings(k.list), 0);
    arena_free(k.keep);
}

static void the_whole_form(void **state)
{
    (void)state;
    kit k = kit_of("one: two\n    shown-by: {foam-air-hihg: often}\n", "x: y\n");
    fault *f = fault_add(k.list, FAULT_KEY_TWICE, at(0, 24, 37), "There is no cause '%s'",
                         "foam-air-hihg");
    fault_help(k.list, f, "write '%s'", "foam-air-high");
    fault_note_at(k.list, f, at(1, 3, 4), "it stands here");
    fault_note_at(k.list, f, at(0, 5, 8), "and here");
    fault_add(k.list, FAULT_LOST_WORDS, at(1, 0, 1), "Words are lost");
    fault_add(k.list, FAULT_KEY_TWICE, span_nowhere(), "There is no section 'book'");
    assert_string_equal(text_of(&k, 0),
                        "a.yaml:2:16: error: There is no cause 'foam-air-hihg' [T115]\n"
                        "    2 |     shown-by: {foam-air-hihg: often}\n"
                        "      |                ^~~~~~~~~~~~~\n"
                        "b.yaml:1:4: note: it stands here\n"
                        "a.yaml:1:6: note: and here\n"
                        "help: write 'foam-air-high'\n"
                        "b.yaml:1:1: warning: Words are lost [T132]\n"
                        "    1 | x: y\n"
                        "      | ^\n"
                        "error: There is no section 'book' [T115]\n"
                        "2 errors, 1 warning\n");
    arena_free(k.keep);
}

static void sorted_by_file_place_and_code(void **state)
{
    (void)state;
    kit k = kit_of("aaaa", "bbbb");
    fault_add(k.list, FAULT_KEY_TWICE, span_nowhere(), "6");
    fault_add(k.list, FAULT_KEY_TWICE, at(1, 0, 1), "5");
    fault_add(k.list, FAULT_KEY_TWICE, at(0, 2, 3), "4");
    fault_add(k.list, FAULT_ALIAS, at(0, 2, 4), "2");
    fault_add(k.list, FAULT_ALIAS, at(0, 2, 3), "1");
    fault_add(k.list, FAULT_NOT_UTF8, at(0, 3, 3), "after 4");
    fault_add(k.list, FAULT_TAG, at(0, 0, 1), "0");
    uint32_t count;
    const fault *sorted = faults_sorted(k.list, k.keep, &count);
    static const char *const wanted[] = {"0", "1", "2", "4", "after 4", "5", "6"};
    assert_int_equal(count, 7);
    for (uint32_t i = 0; i < count; i++) assert_str(sorted[i].text, wanted[i]);
    arena_free(k.keep);
}

static void the_same_is_said_once(void **state)
{
    (void)state;
    kit k = kit_of("aaaa", "");
    fault *f = fault_add(k.list, FAULT_TAG, at(0, 0, 1), "first");
    fault_help(k.list, f, "help of the first");
    fault *again = fault_add(k.list, FAULT_TAG, at(0, 0, 1), "second");
    assert_ptr_equal(f, again);
    fault_help(k.list, again, "help of the second");
    fault_note_at(k.list, f, at(0, 2, 3), "note");
    fault_note_at(k.list, again, at(0, 2, 3), "note again");
    fault_note_at(k.list, again, at(0, 3, 4), "other note");
    assert_str(f->text, "first");
    assert_str(f->help, "help of the first");
    assert_non_null(f->notes->next);
    assert_null(f->notes->next->next);
    fault_add(k.list, FAULT_ALIAS, at(0, 0, 1), "another code");
    fault_add(k.list, FAULT_TAG, at(0, 0, 2), "another end");
    fault_add(k.list, FAULT_TAG, at(1, 0, 1), "another file");
    assert_int_equal(faults_errors(k.list), 4);
    assert_int_equal(faults_met(k.list), 5);
    /* what has no place is told apart by its text */
    fault_add(k.list, FAULT_TAG, span_nowhere(), "x is missing");
    fault_add(k.list, FAULT_TAG, span_nowhere(), "y is missing");
    fault_add(k.list, FAULT_TAG, span_nowhere(), "x is missing");
    assert_int_equal(faults_errors(k.list), 6);
    arena_free(k.keep);
}

static void silence(void **state)
{
    (void)state;
    kit k = kit_of("aaaaaaaaaa", "bbbbbbbbbb");
    fault_add(k.list, FAULT_TAG, at(0, 3, 4), "before");
    faults_silence(k.list, at(0, 2, 6));
    fault *f = fault_add(k.list, FAULT_ALIAS, at(0, 2, 6), "inside");
    assert_non_null(f);
    fault_help(k.list, f, "goes nowhere");
    fault_note_at(k.list, f, at(0, 0, 1), "goes nowhere");
    fault_add(k.list, FAULT_ALIAS, at(0, 4, 4), "inside");
    fault_add(k.list, FAULT_ALIAS, at(0, 1, 3), "across");
    fault_add(k.list, FAULT_ALIAS, at(1, 3, 4), "other file");
    fault_add(k.list, FAULT_ALIAS, at(0, 6, 7), "behind");
    assert_int_equal(faults_errors(k.list), 4);
    assert_null(strstr(text_of(&k, 0), "inside"));
    arena_free(k.keep);
}

/* Ranges in any order, inside each other and apart, against asking each of them. */
static void silences_in_any_order(void **state)
{
    (void)state;
    uint32_t random = 7;
    for (int run = 0; run < 300; run++) {
        kit k = kit_of("", "");
        span said[12];
        for (size_t i = 0; i < 12; i++) {
            random = random * 1664525U + 1013904223U;
            uint32_t start = (random >> 20) % 8 * 10, length = (random >> 24) % 3;
            said[i] = at((random >> 28) % 2, start + 2 * length,
                         start + 10 - 2 * length); /* nested or apart */
            faults_silence(k.list, said[i]);
        }
        for (uint32_t file = 0; file < 2; file++) {
            for (uint32_t start = 0; start < 90; start++) {
                bool inside = false;
                for (size_t i = 0; i < 12; i++)
                    inside = inside || (said[i].file == file && said[i].start <= start &&
                                        start + 1 <= said[i].end);
                uint32_t before = faults_errors(k.list);
                fault_add(k.list, FAULT_TAG, at(file, start, start + 1), "x");
                assert_int_equal(faults_errors(k.list) - before, inside ? 0 : 1);
            }
        }
        arena_free(k.keep);
    }
}

static void many_are_capped_with_a_count(void **state)
{
    (void)state;
    kit k = kit_of("aaaaaaaaaaaaaaaaaaaa", "");
    for (uint32_t i = 0; i < 20; i++) fault_add(k.list, FAULT_TAG, at(0, i, i + 1), "number %u", i);
    const char *text = text_of(&k, 3);
    assert_non_null(strstr(text, "number 2 "));
    assert_null(strstr(text, "number 3 "));
    assert_non_null(strstr(text, "20 errors; 17 not shown\n"));
    assert_null(strstr(text_of(&k, 20), "not shown"));
    arena_free(k.keep);
}

static void beyond_the_limit_they_are_only_counted(void **state)
{
    (void)state;
    arena *keep = test_arena();
    faults *list = faults_new(keep);
    for (uint32_t i = 0; i < FAULTS_KEPT_MAX + 10; i++) {
        fault *f = fault_add(list, i % 2 == 0 ? FAULT_TAG : FAULT_LOST_WORDS, at(0, i, i), "x");
        fault_help(list, f, "y");
    }
    uint32_t count;
    faults_sorted(list, keep, &count);
    assert_int_equal(count, FAULTS_KEPT_MAX);
    assert_int_equal(faults_errors(list), FAULTS_KEPT_MAX / 2 + 5);
    assert_int_equal(faults_warnings(list), FAULTS_KEPT_MAX / 2 + 5);
    fault_add(list, FAULT_TAG, at(0, 0, 0), "known already");
    assert_int_equal(faults_errors(list), FAULTS_KEPT_MAX / 2 + 5);
    arena_free(keep);
}

/* The two lines under a fault at [start, end) of the text. */
static void check_mark(const char *text, uint32_t start, uint32_t end, const char *line,
                       const char *mark)
{
    kit k = kit_of(text, "");
    fault_add(k.list, FAULT_TAG, at(0, start, end), "x");
    const char *all = text_of(&k, 0), *first = strchr(all, '\n') + 1;
    char wanted[1000];
    snprintf(wanted, sizeof wanted, "%s\n      | %s\n", line, mark);
    assert_memory_equal(strstr(first, "| ") + 2, wanted, strlen(wanted));
    arena_free(k.keep);
}

static void marks_stand_under_what_is_meant(void **state)
{
    (void)state;
    check_mark("a: bcd\n", 3, 6, "a: bcd", "   ^~~");
    check_mark("a: bcd\n", 3, 3, "a: bcd", "   ^");
    check_mark("a: bcd\nefg", 3, 9, "a: bcd", "   ^~~");
    check_mark("a: bcd\r\nefg", 3, 9, "a: bcd", "   ^~~");
    check_mark("a\nb", 1, 1, "a", " ^");
    check_mark("a\nb", 3, 3, "b", " ^");
    check_mark("a\nb", 99, 99, "b", " ^");
    check_mark("", 0, 0, "", "^");
    check_mark("\n\nx", 1, 1, "", "^");
    check_mark("\ta: b\n", 1, 2, "        a: b", "        ^");
    check_mark("ab\tc: d\n", 3, 4, "ab      c: d", "        ^");
    check_mark("\tb", 0, 1, "        b", "^~~~~~~~");
    check_mark("\xE6\xB0\xB4: x\n", 5, 6, "\xE6\xB0\xB4: x", "    ^"); /* wide */
    check_mark("\xE6\xB0\xB4: x\n", 0, 3, "\xE6\xB0\xB4: x", "^~");    /* wide */
    check_mark("e\xCC\x81: x\n", 5, 6, "e\xCC\x81: x", "   ^");        /* combining */
    check_mark("\xEF\xBB\xBF"
               "a: b\n",
               3, 4, "a: b", "^"); /* byte-order mark */
    check_mark("a\x1B[1m\xE2\x80\xAE: b", 10, 11, "a\xEF\xBF\xBD[1m\xEF\xBF\xBD: b", "        ^");
    check_mark("b\xFC: c", 4, 5, "b\xEF\xBF\xBD: c", "    ^");
}

static void of_a_long_line_a_window_is_shown(void **state)
{
    (void)state;
    arena *a = test_arena();
    text_builder b = {.keep = a};
    for (int i = 0; i < 3000; i++) text_addf(&b, "%d", i % 10);
    kit k = kit_of(b.bytes, "");
    fault_add(k.list, FAULT_TAG, at(0, 5, 7), "near");
    fault_add(k.list, FAULT_TAG, at(0, 1500, 2900), "middle");
    const char *text = text_of(&k, 0);
    size_t longest = 0;
    for (const char *line = text; *line != '\0'; line += strcspn(line, "\n") + 1)
        if (strcspn(line, "\n") > longest) longest = strcspn(line, "\n");
    assert_true(longest <= 8 + 3 + 120 + 3);
    assert_non_null(strstr(text, "| 0123456"));
    assert_non_null(strstr(text, "| ...0123456789"));
    assert_non_null(strstr(text, "\n      |                                  ^~~~"));
    arena_free(k.keep);
    arena_free(a);
}

static void words_of_others_cannot_rule_the_terminal(void **state)
{
    (void)state;
    kit k = kit_of("x", "");
    fault *f = fault_add(k.list, FAULT_TAG, at(0, 0, 1), "'%s' and '%s'", "one\ntwo\x1B[31m",
                         "\xE2\x80\xAE\xFF");
    fault_help(k.list, f, "not '%s'", "\x07");
    fault_note_at(k.list, f, at(0, 0, 1), "'%s'", "a\r\tb");
    assert_str(f->text, "'one two\xEF\xBF\xBD[31m' and '\xEF\xBF\xBD\xEF\xBF\xBD'");
    assert_str(f->help, "not '\xEF\xBF\xBD'");
    assert_str(f->notes->text, "'a\xEF\xBF\xBD b'");
    sources evil = source_from_text(k.keep, "a\x1B[2Jb.yaml", STR("\x1B[2J"));
    str text = faults_text(k.list, k.keep, &evil, 0);
    assert_int_equal(unicode_first_unsafe(text), SIZE_MAX);
    assert_true(str_starts(text, "ab.yaml:1:1: error"));
    arena_free(k.keep);
}

/* What is to be replaced is found where it stands alone, and once. */
static void what_mends_it_has_a_place(void **state)
{
    (void)state;
    kit k = kit_of("shown-by: {drop: often, drop-end: rarely}\n", "x");
    const span whole = at(0, 10, 41);
    span found;
    fault *f = fault_add(k.list, FAULT_UNKNOWN_NAME, whole, "No drop.");
    assert_false(fault_mend_at(f, &k.all, &found));
    fault_mend(k.list, f, STR("drop"), STR("drip"));
    fault_mend(k.list, f, STR("often"), STR("later words change nothing"));
    assert_true(fault_mend_at(f, &k.all, &found));
    assert_true(found.file == 0 && found.start == 11 && found.end == 15);
    assert_str(f->mended, "drip");
    fault *none = fault_add(k.list, FAULT_UNKNOWN_KEY, whole, "No such word."),
          *twice = fault_add(k.list, FAULT_BAD_CHANCE, at(0, 0, 41), "Which?"),
          *nowhere = fault_add(k.list, FAULT_BAD_CHANCE, span_nowhere(), "Nowhere.");
    fault_mend(k.list, none, STR("dro"), STR("drop"));
    fault_mend(k.list, twice, STR("r"), STR("s"));
    fault_mend(k.list, nowhere, STR("drop"), STR("drip"));
    assert_false(fault_mend_at(none, &k.all, &found));
    assert_false(fault_mend_at(nowhere, &k.all, &found));
    assert_false(fault_mend_at(twice, &k.all, &found));
    arena_free(k.keep);
}

/* The table: codes rise, none twice, and the first digit belongs to the section. */
static void the_table_is_sound(void **state)
{
    (void)state;
    for (unsigned i = 0; i < FAULT_COUNT; i++) {
        const char *code = fault_id((fault_code)i);
        assert_int_equal(strlen(code), 4);
        assert_int_equal(code[0], 'T');
        assert_true(code[1] >= '1' && code[1] <= '9');
        assert_int_equal(strspn(code + 1, "0123456789"), 3);
        const char *title = fault_title((fault_code)i);
        assert_true(strlen(title) >= 5);
        assert_null(strchr(".:", title[strlen(title) - 1]));
        for (unsigned j = 0; j < i; j++) {
            if (strcmp(fault_id((fault_code)j), code) == 0) fail_msg("%s stands twice", code);
            if (strcmp(fault_title((fault_code)j), title) == 0)
                fail_msg("%s: '%s' stands twice", code, title);
        }
    }
    assert_int_equal(fault_severity_of(FAULT_LOST_WORDS), SEVERITY_WARNING);
    assert_string_equal(fault_id(FAULT_NOT_UTF8), "T101");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_is_wrong),
        cmocka_unit_test(the_whole_form),
        cmocka_unit_test(sorted_by_file_place_and_code),
        cmocka_unit_test(the_same_is_said_once),
        cmocka_unit_test(silence),
        cmocka_unit_test(silences_in_any_order),
        cmocka_unit_test(many_are_capped_with_a_count),
        cmocka_unit_test(beyond_the_limit_they_are_only_counted),
        cmocka_unit_test(marks_stand_under_what_is_meant),
        cmocka_unit_test(of_a_long_line_a_window_is_shown),
        cmocka_unit_test(words_of_others_cannot_rule_the_terminal),
        cmocka_unit_test(what_mends_it_has_a_place),
        cmocka_unit_test(the_table_is_sound),
    };
    return cmocka_run_group_tests_name("faults", tests, NULL, NULL);
}
