/* Files of a case that somebody or something has damaged: a clear word about each line, and every
 * good record is still there. */
#include "case_bench.h"
#include "luck.h"

enum { GOOD = 4 };

static char *folder, *path, *text;
static size_t length;

/* A case of GOOD records; `text` is its file. */
static int with_case(void **state)
{
    (void)state;
    bench *file;
    folder = new_case("hostile");
    if (open_case(folder, &file) != EXIT_DONE) return 1;
    for (long n = 0; n < GOOD; n++)
        if (!add_number(file, n)) return 1;
    close_bench(file);
    path = only_file(folder);
    text = text_of_file(path, &length);
    return 0;
}

static int without_case(void **state)
{
    (void)state;
    free(text);
    free(path);
    free(folder);
    return 0;
}

/* The whole line with this number, from 0; freed by the caller. */
static char *line_at(size_t index)
{
    const char *start = text;
    while (index-- > 0) start = strchr(start, '\n') + 1;
    return strndup(start, (size_t)(strchr(start, '\n') - start));
}

/* The line with one part put in place of another; freed by the caller. */
static char *changed(size_t index, const char *part, const char *by)
{
    char *line = line_at(index), *at = strstr(line, part);
    assert_non_null(at);
    size_t room = strlen(line) + strlen(by) + 1;
    char *out = malloc(room);
    snprintf(out, room, "%.*s%s%s", (int)(at - line), line, by, at + strlen(part));
    free(line);
    return out;
}

/* The bytes stand between the second line and the third. */
static void put_between(const char *bytes, size_t count)
{
    char *second = strchr(strchr(text, '\n') + 1, '\n') + 1, *all = calloc(1, length + count + 2);
    size_t before = (size_t)(second - text);
    memcpy(all, text, before);
    memcpy(all + before, bytes, count);
    all[before + count] = '\n';
    memcpy(all + before + count + 1, second, length - before);
    put_file(path, all, length + count + 1);
    free(all);
}

static void assert_good_ones(void)
{
    long next = 0;
    bench *file = read_case(folder);
    assert_int_equal(file->count, GOOD);
    for (size_t i = 0; i < GOOD; i++) assert_int_equal(number_at(file, i), next++);
    close_bench(file);
}

/* It is told, by its place, and why; then something can be added, and is found. */
static void assert_told(const char *bytes, size_t count, const char *why)
{
    char told[128];
    bench *file;
    put_between(bytes, count);
    assert_good_ones();
    snprintf(told, sizeof told, "line 3 is left out: %s", why);
    assert_true(was_said(told));
    assert_int_equal(open_case(folder, &file), EXIT_DONE);
    assert_true(add_number(file, GOOD));
    close_bench(file);
    file = read_case(folder);
    assert_int_equal(file->count, GOOD + 1);
    close_bench(file);
}

static void assert_line_told(char *line, const char *why)
{
    assert_told(line, strlen(line), why);
    free(line);
}

static const char damaged[] = "it was not written to its end, or was damaged";

static void a_huge_line(void **state)
{
    (void)state;
    size_t count = 24 << 20;
    char *bytes = malloc(count);
    memset(bytes, 'x', count);
    assert_told(bytes, count, "it is too long");
    free(bytes);
}

static void bytes_that_are_no_text(void **state)
{
    (void)state;
    assert_told("\xff\xfe\x00{\x80", 5, damaged);
    assert_line_told(changed(1, "\"n\":1", "\"n\":\"\xc3\x28\""), damaged);
    assert_told("", 0, damaged);
}

static void nesting_without_end(void **state)
{
    (void)state;
    size_t count = 1 << 20;
    char *bytes = malloc(count);
    memset(bytes, '[', count);
    assert_told(bytes, count, damaged);
    free(bytes);
}

static void a_version_of_the_future(void **state)
{
    (void)state;
    assert_line_told(changed(1, "\"version\":1", "\"version\":2"),
                     "another version of telltale wrote it");
}

static void another_case(void **state)
{
    (void)state;
    assert_line_told(changed(1, "\"case\":\"0", "\"case\":\"f"), "it belongs to another case");
}

static void what_is_missing_or_of_another_kind(void **state)
{
    (void)state;
    static const char *const changes[][2] = {
        {"\"data\":{\"n\":1}", "\"data\":[]"}, {"\"kind\":\"answer\"", "\"kind\":7"},
        {"\"seq\":2", "\"seq\":-2"},           {"\"seq\":2", "\"seq\":2.5"},
        {"\"lamport\":2", "\"lamport\":true"}, {"\"time\":", "\"tide\":"}};
    for (size_t i = 0; i < sizeof changes / sizeof changes[0]; i++)
        assert_line_told(changed(1, changes[i][0], changes[i][1]), "something is missing in it");
    assert_line_told(changed(1, "\"lamport\":2", "\"lamport\":9223372036854775807"), damaged);
    assert_line_told(changed(1, "\"lamport\":2", "\"lamport\":99999999999999999999"), damaged);
    assert_line_told(changed(1, "\"seq\":2", "\"seq\":2,\"seq\":2"), damaged);
}

/* What was changed within a line still counts; that it was changed is told. */
static void a_wrong_hash(void **state)
{
    (void)state;
    char *line = strstr(text, "\"n\":1");
    line[4] = '8';
    put_file(path, text, length);
    bench *file = read_case(folder);
    assert_int_equal(file->count, GOOD);
    assert_true(was_said("line 3 does not follow from the one before"));
    assert_int_equal(lines_said(), 1);
    close_bench(file);
}

static void many_bad_lines_are_counted(void **state)
{
    (void)state;
    char rubbish[2000];
    for (size_t i = 0; i < sizeof rubbish; i++) rubbish[i] = i % 2 == 0 ? '?' : '\n';
    put_between(rubbish, sizeof rubbish - 1);
    assert_good_ones();
    assert_true(was_said("992 more lines are left out"));
    assert_true(lines_said() < 15);
}

static void what_is_no_plain_file(void **state)
{
    (void)state;
    char name[600];
    snprintf(name, sizeof name, "%s/0000pipe0000.jsonl", folder);
    assert_int_equal(mkfifo(name, 0600), 0);
    snprintf(name, sizeof name, "%s/0000link0000.jsonl", folder);
    assert_int_equal(symlink(path, name), 0);
    snprintf(name, sizeof name, "%s/0000fold0000.jsonl", folder);
    assert_int_equal(mkdir(name, 0700), 0);
    assert_good_ones();
    assert_true(was_said("0000pipe0000.jsonl is left out: it is a pipe"));
    assert_true(was_said("0000link0000.jsonl is left out: it is a link"));
    assert_true(was_said("0000fold0000.jsonl is left out: it is a folder"));
}

/* A record that says it comes from far ahead: what is added goes behind it. */
static void a_counter_far_ahead(void **state)
{
    (void)state;
    bench *file;
    char *line = changed(3, "\"lamport\":4", "\"lamport\":9007199254740991");
    char *last = text + length - 1;
    while (last > text && last[-1] != '\n') last--;
    char all[8192];
    int count = snprintf(all, sizeof all, "%.*s%s\n", (int)(last - text), text, line);
    put_file(path, all, (size_t)count);
    assert_int_equal(open_case(folder, &file), EXIT_DONE);
    for (long n = GOOD; n < 2 * GOOD; n++) assert_true(add_number(file, n));
    close_bench(file);
    file = read_case(folder);
    assert_int_equal(lines_said(), 0);
    assert_int_equal(file->count, 2 * GOOD);
    for (size_t i = 0; i < 2 * GOOD; i++) assert_int_equal(number_at(file, i), i);
    close_bench(file);
    free(line);
}

/* ---- any damage at all ---- */

static uint64_t random_state = 99;

/* Lines that were not touched are good ones, whatever became of the others. */
static void random_damage_harms_no_other_line(void **state)
{
    (void)state;
    for (int round = 0; round < 400; round++) {
        char *copy = calloc(1, length + 1);
        memcpy(copy, text, length);
        size_t at = luck_below(&random_state, (uint32_t)length), hurt = 0;
        bool newline = copy[at] == '\n';
        copy[at] = (char)luck_below(&random_state, 256);
        for (size_t i = 0; i < at; i++) hurt += text[i] == '\n';
        put_file(path, copy, length);
        bench *file = read_case(folder);
        bool found[GOOD] = {false};
        for (size_t i = 0; i < file->count; i++) {
            long n = number_at(file, i);
            if (n >= 0 && n < GOOD) found[n] = true;
        }
        tt_journal *meaning;
        assert_int_equal(tt_journal_new(file->records, file->count, NULL, &meaning), TT_OK);
        tt_journal_free(meaning);
        for (size_t i = 0; i < GOOD; i++) {
            bool touched = i == hurt || (newline && i == hurt + 1);
            if (!found[i] && !touched) fail_msg("byte %zu: record %zu is lost", at, i);
        }
        close_bench(file);
        free(copy);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_huge_line, with_case, without_case),
        cmocka_unit_test_setup_teardown(bytes_that_are_no_text, with_case, without_case),
        cmocka_unit_test_setup_teardown(nesting_without_end, with_case, without_case),
        cmocka_unit_test_setup_teardown(a_version_of_the_future, with_case, without_case),
        cmocka_unit_test_setup_teardown(another_case, with_case, without_case),
        cmocka_unit_test_setup_teardown(what_is_missing_or_of_another_kind, with_case,
                                        without_case),
        cmocka_unit_test_setup_teardown(a_wrong_hash, with_case, without_case),
        cmocka_unit_test_setup_teardown(many_bad_lines_are_counted, with_case, without_case),
        cmocka_unit_test_setup_teardown(what_is_no_plain_file, with_case, without_case),
        cmocka_unit_test_setup_teardown(a_counter_far_ahead, with_case, without_case),
        cmocka_unit_test_setup_teardown(random_damage_harms_no_other_line, with_case, without_case),
    };
    return cmocka_run_group_tests_name("hostile case files", tests, NULL, NULL);
}
