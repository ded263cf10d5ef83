/* Every way a picture can be wrong: one tiny file each in faults/, with the exact message beside
 * it; and the examples of docs/faults-draw.md, of which each wrong one shows its section's code and
 * each right one has no fault. */
#include "testing.h"

#include "draw/svg_file.h"
#include "fault_files.h"
#include "test_sources.h"

#define FOLDER TT_SOURCE_DIR "/tests/unit/draw/faults"

static const char *const none[] = {NULL};

static str said_of(arena *keep, str bytes)
{
    arena *scratch = test_arena();
    sources all = source_from_text(keep, "fan.svg", bytes);
    faults *list = faults_new(keep);
    const svg_drawing d = draw_file(keep, scratch, &all, 0, list);
    arena_free(scratch);
    assert_true(d.read);
    assert_true(d.good == (faults_errors(list) == 0));
    return faults_text(list, keep, &all, 0);
}

static str tell(arena *keep, const char *folder, str stem)
{
    return said_of(keep,
                   file_bytes(keep, str_printf(keep, "%s/%.*s.svg", folder, STR_ARG(stem)).p));
}

static void each_file_has_its_message(void **state)
{
    (void)state;
    assert_int_equal(fault_files_check(FOLDER, ".svg", tell, none), 0);
}

static void each_code_has_a_file(void **state)
{
    (void)state;
    assert_int_equal(
        fault_codes_without_file(FOLDER, ".svg", (const char *const[]){"T15", NULL}, none), 0);
}

/* The text between two marks after `from`, or nothing. */
static bool between(const char *from, const char *begin, const char *end, str *found)
{
    const char *start = strstr(from, begin);
    if (start == NULL) return false;
    start += strlen(begin);
    const char *stop = strstr(start, end);
    assert_non_null(stop);
    *found = (str){start, (size_t)(stop - start)};
    return true;
}

static void check_section(arena *keep, str section)
{
    const str body = str_copy(keep, section);
    str wrong, right;
    const char *code = str_printf(keep, "[%.4s]", section.p).p;
    assert_true(between(body.p, "```svg\n<!-- wrong -->\n", "<!-- right -->\n", &wrong));
    assert_true(between(body.p, "<!-- right -->\n", "```", &right));
    const str of_wrong = said_of(keep, wrong), of_right = said_of(keep, right);
    if (str_find(of_wrong, str_of(code)) == SIZE_MAX)
        fail_msg("%s: the wrong example gives:\n%s", code, of_wrong.p);
    if (of_right.n > 0) fail_msg("%s: the right example gives:\n%s", code, of_right.p);
}

static void the_page_has_each_code_with_examples(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const str page = file_bytes(keep, TT_SOURCE_DIR "/docs/faults-draw.md");
    for (int code = FAULT_DRAWING_CUT; code <= FAULT_DRAWING_LARGE; code++) {
        const str title = str_printf(keep, "\n## %s %s\n", fault_id((fault_code)code),
                                     fault_title((fault_code)code));
        const size_t at = str_find(page, title);
        if (at == SIZE_MAX) fail_msg("docs/faults-draw.md lacks%s", title.p);
        const str rest = str_slice(page, at + 4, page.n);
        const size_t end = str_find(rest, STR("\n## "));
        if (code != FAULT_DRAWING_LARGE)
            check_section(keep, str_slice(rest, 0, end == SIZE_MAX ? rest.n : end));
    }
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_file_has_its_message),
        cmocka_unit_test(each_code_has_a_file),
        cmocka_unit_test(the_page_has_each_code_with_examples),
    };
    return cmocka_run_group_tests_name("draw faults", tests, NULL, NULL);
}
