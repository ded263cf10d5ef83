/* What check prints for programs: lines, JSON, a log; and what counts. */
#include "run_telltale.h"

#include <jansson.h>

#include "window.h"

/* A cause that is misspelt, and a name that stands twice. */
static void make_wrong(void)
{
    assert_int_equal(
        sh("rm -rf wrong && cp -r $WELL wrong && chmod -R u+w wrong && printf '%%s\n' 'symptoms:' "
           "'  damp:' "
           "'    when: {smoke: yes}' '    text: Damp' '    shown-by: {tank-waterlogd: often}' "
           "'questions:' '  smoke:' '    ask: Twice?' >wrong/more.yaml"),
        0);
}

/* A warning, and nothing else. */
static void make_odd(void)
{
    assert_int_equal(sh("rm -rf odd && cp -r $WELL odd && chmod -R u+w odd && printf '%%s\n' "
                        "'questions:' '  idle:' "
                        "'    ask: Is it idle?' >odd/more.yaml"),
                     0);
}

static json_t *fault_of(const char *path, const char *code)
{
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    json_t *found = NULL, *one;
    while (found == NULL && (one = json_loadf(file, JSON_DISABLE_EOF_CHECK, NULL)) != NULL) {
        if (strcmp(json_string_value(json_object_get(one, "code")), code) == 0)
            found = json_incref(one);
        json_decref(one);
    }
    fclose(file);
    if (found == NULL) fail_msg("%s has no %s", path, code);
    return found;
}

static long number_in(const json_t *map, const char *key)
{
    assert_true(json_is_integer(json_object_get(map, key)));
    return (long)json_integer_value(json_object_get(map, key));
}

/* A path that is right where the program was called, even from another folder. */
static void lines_lead_to_the_place(void **state)
{
    (void)state;
    make_wrong();
    assert_int_equal(sh("$T check wrong/ --lines >out"), 1);
    assert_holds("out", "wrong/more.yaml:5:16: error: There is no cause 'tank-waterlogd'. Did you "
                        "mean 'tank-waterlogged'? [T");
    assert_holds("out", "note: The other one stands here.\n");
    assert_int_equal(sh("grep -cv '^wrong/[a-z/]*.yaml:[0-9]*:[0-9]*: "
                        "\\(error\\|warning\\|note\\): ' out >count"),
                     1);
    assert_int_equal(sh("mkdir -p else && cd else && $T check ../wrong --lines >out; cut -d: -f1 "
                        "out | sort -u >files; xargs ls <files >listed"),
                     0);
    assert_int_equal(sh("$T check $WELL --lines >out && ! test -s out"), 0);
}

static void a_site_file_keeps_its_own_path(void **state)
{
    (void)state;
    assert_int_equal(sh("printf 'site:\n  untis: {}\n' >mine.yaml; $T check $WELL --site mine.yaml "
                        "--lines >out"),
                     1);
    assert_holds("out", "mine.yaml:2:3: error: ");
    assert_int_equal(sh("grep '/mine.yaml' out"), 1);
}

/* Whoever puts the replacement in has mended the fault. */
static void json_says_what_to_replace(void **state)
{
    (void)state;
    make_wrong();
    assert_int_equal(sh("$T check wrong --json >out"), 1);
    json_t *fault = fault_of("out", "T208");
    const json_t *replace = json_object_get(fault, "replace"), *one = json_array_get(replace, 0);
    assert_int_equal(json_array_size(replace), 1);
    assert_int_equal(number_in(fault, "version"), 1);
    assert_string_equal(json_string_value(json_object_get(one, "with")), "tank-waterlogged");
    assert_int_equal(number_in(one, "line"), 5);
    assert_int_equal(sh("sed -i '%lds/^\\(.\\{%ld\\}\\).\\{%ld\\}/\\1%s/' wrong/more.yaml",
                        number_in(one, "line"), number_in(one, "column") - 1,
                        number_in(one, "end_column") - number_in(one, "column"),
                        json_string_value(json_object_get(one, "with"))),
                     0);
    assert_int_equal(sh("$T check wrong --json >out; grep T208 out"), 1);
    json_decref(fault);
}

static void json_tells_what_stands_elsewhere(void **state)
{
    (void)state;
    make_wrong();
    assert_int_equal(sh("$T check wrong --json >out"), 1);
    json_t *fault = fault_of("out", "T206");
    const json_t *note = json_array_get(json_object_get(fault, "notes"), 0);
    assert_non_null(note);
    assert_true(number_in(note, "line") > 0 &&
                number_in(note, "end_column") > number_in(note, "column"));
    assert_int_equal(json_array_size(json_object_get(fault, "replace")), 0);
    json_decref(fault);
}

static void a_log_names_the_folder_and_every_code(void **state)
{
    (void)state;
    make_wrong();
    assert_int_equal(
        sh("mv wrong 'wr ong' && $T check 'wr ong' --sarif >out; s=$?; rm -r 'wr ong'; exit $s"),
        1);
    json_t *log = json_load_file("out", 0, NULL),
           *run = json_array_get(json_object_get(log, "runs"), 0);
    assert_string_equal(json_string_value(json_object_get(log, "version")), "2.1.0");
    const json_t *base = json_object_get(json_object_get(run, "originalUriBaseIds"), "BOOK");
    const char *uri = json_string_value(json_object_get(base, "uri"));
    assert_true(strncmp(uri, "file:///", 8) == 0 && strstr(uri, "/wr%20ong/") != NULL);
    assert_true(json_array_size(json_object_get(run, "results")) >= 2);
    assert_true(json_array_size(json_object_get(
                    json_object_get(json_object_get(run, "tool"), "driver"), "rules")) > 100);
    json_decref(log);
}

static void strict_counts_warnings(void **state)
{
    (void)state;
    make_odd();
    assert_int_equal(sh("$T check odd >out"), 0);
    assert_holds("out", "warning");
    assert_int_equal(sh("$T check odd --strict >strict"), 1);
    assert_same("out", "strict");
    assert_int_equal(sh("$T check odd --strict --json >out"), 1);
    assert_int_equal(sh("$T check $WELL --strict >out"), 0);
}

static void one_form_at_a_time(void **state)
{
    (void)state;
    assert_int_equal(sh("$T check $WELL --json --lines 2>err"), 2);
    assert_holds("err", "don't go together");
    assert_int_equal(sh("$T check $WELL --sarif --lines 2>err"), 2);
    assert_int_equal(sh("$T try $WELL --strict 2>err"), 2);
}

static bool is_quote(const char *line)
{
    line += strspn(line, " ");
    line += strspn(line, "0123456789");
    return line[strspn(line, " ")] == '|';
}

/* What was shown, as one line of words; what is quoted left out. */
static char *words_shown(const char *text, unsigned columns, unsigned *quoted)
{
    char *words = calloc(strlen(text) + 2, 1), *to = words;
    assert_non_null(words);
    *quoted = 0;
    for (const char *line = text; *line != 0; line += strcspn(line, "\n") + 1) {
        const size_t length = strcspn(line, "\n");
        *quoted += is_quote(line);
        if (is_quote(line)) continue;
        if (columns > 0) assert_true(length <= columns);
        memcpy(to, line, length);
        to += length;
        *to++ = ' ';
        if (line[length] == 0) break;
    }
    return words;
}

/* On a narrow terminal no word is torn, and what is quoted stands as elsewhere, its marks beneath.
 */
static void on_a_terminal_lines_end_between_words(void **state)
{
    (void)state;
    unsigned quoted, quoted_elsewhere;
    make_wrong();
    assert_int_equal(sh("$T check wrong >out"), 1);
    window *w = window_open(
        &(window_plan){.words = (const char *const[]){"check", "wrong", "--no-pager", NULL},
                       .rows = 60,
                       .columns = 40});
    window_await_end(w);
    char *elsewhere = contents("out"), *there = words_shown(elsewhere, 0, &quoted_elsewhere),
         *here = words_shown(window_text(w), 40, &quoted);
    assert_string_equal(here, there);
    assert_true(quoted >= 4);
    assert_int_equal(quoted, quoted_elsewhere);
    for (char *line = elsewhere, *next; *line != 0; line = next) {
        char *end = line + strcspn(line, "\n");
        next = *end != 0 ? end + 1 : end;
        *end = 0;
        if (is_quote(line)) assert_non_null(strstr(window_text(w), line));
    }
    assert_int_equal(window_close(w), 1);
    free(elsewhere);
    free(there);
    free(here);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(on_a_terminal_lines_end_between_words),
        cmocka_unit_test(lines_lead_to_the_place),
        cmocka_unit_test(a_site_file_keeps_its_own_path),
        cmocka_unit_test(json_says_what_to_replace),
        cmocka_unit_test(json_tells_what_stands_elsewhere),
        cmocka_unit_test(a_log_names_the_folder_and_every_code),
        cmocka_unit_test(strict_counts_warnings),
        cmocka_unit_test(one_form_at_a_time),
    };
    return cmocka_run_group_tests_name("check forms", tests, NULL, NULL);
}
