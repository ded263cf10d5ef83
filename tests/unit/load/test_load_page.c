/* The examples of docs/faults-load.md: each wrong piece shows its section's code, each right piece
 * has no fault. */
#include "testing.h"

#include "load/nodes.h"
#include "test_sources.h"

static const char *faults_in(arena *keep, str bytes)
{
    arena *scratch = test_arena();
    sources all = source_from_text(keep, "page.yaml", bytes);
    faults *list = faults_new(keep);
    load_sources(keep, scratch, &all, list);
    arena_free(scratch);
    str text = faults_text(list, keep, &all, 0);
    return str_copy(keep, text).p;
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

static bool check_section(arena *keep, str section)
{
    str body = str_copy(keep, section), wrong, right;
    const char *code = str_printf(keep, "[%.4s]", section.p).p;
    if (!between(body.p, "```yaml\n# wrong\n", "# right\n", &wrong)) return false;
    assert_true(between(body.p, "# right\n", "```", &right));
    const char *of_wrong = faults_in(keep, wrong), *of_right = faults_in(keep, right);
    if (strstr(of_wrong, code) == NULL)
        fail_msg("%s: the wrong example gives:\n%s", code, of_wrong);
    if (*of_right != '\0') fail_msg("%s: the right example gives:\n%s", code, of_right);
    return true;
}

static void examples(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const char *page = file_bytes(keep, TT_SOURCE_DIR "/docs/faults-load.md").p;
    unsigned sections = 0, shown = 0;
    for (const char *at = strstr(page, "\n## T"); at != NULL; sections++) {
        const char *next = strstr(at + 1, "\n## T"), *start = at + strlen("\n## ");
        size_t length = next == NULL ? strlen(start) : (size_t)(next - start);
        shown += check_section(keep, (str){start, length});
        at = next;
    }
    assert_int_equal(sections, 35);
    assert_true(shown >= 26); /* all that fit in a few lines */
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(examples)};
    return cmocka_run_group_tests_name("load page", tests, NULL, NULL);
}
