/* Every fault of the book reader, each from a tiny file with the exact report beside it; and
 * many at once. */
#include "read_kit.h"

#include "fault_files.h"

static bool of_this_stage(const char *code)
{
    return code[0] == 'T' && (strchr("234", code[1]) != NULL || code[1] == '7');
}

/* ---- one tiny file per way to be wrong ---- */

/* What is said of faults/STEM.yaml, with STEM.2.yaml and STEM.svg beside it, at the site of
 * STEM.site.yaml if there is one; or of the answers STEM.answers.yaml to base.yaml. */
static const char *said_of(kit *k, const char *stem)
{
    str answers = str_printf(k->keep, "faults/%s.answers.yaml", stem);
    if (!kit_add_file(k, answers)) {
        assert_true(kit_add_file(k, str_printf(k->keep, "faults/%s.yaml", stem)));
        kit_add_file(k, str_printf(k->keep, "faults/%s.2.yaml", stem));
        kit_add_file(k, str_printf(k->keep, "faults/%s.svg", stem));
        k->site = kit_source(k, str_printf(k->keep, "faults/%s.site.yaml", stem));
        kit_read(k);
        return kit_said(k);
    }
    source given = k->items[0];
    k->count = 0;
    assert_true(kit_add_file(k, STR("faults/base.yaml")));
    assert_non_null(kit_read(k));
    faults *of_answers = faults_new(k->keep);
    sources only = {&given, 1};
    const node **root = load_sources(k->keep, k->scratch, &only, of_answers);
    told_file told;
    replies_read(k->keep, k->scratch, k->book, root[0], of_answers, &told);
    assert_int_equal(faults_warnings(k->list), 0);
    return faults_text(of_answers, k->keep, &only, 0).p;
}

static str tell(arena *keep, const char *folder, str stem)
{
    kit k;
    (void)folder; /* of the kit's files it is the beginning */
    kit_begin(&k);
    str said = str_copy(keep, str_of(said_of(&k, str_printf(keep, "%.*s", STR_ARG(stem)).p)));
    kit_end(&k);
    return said;
}

#define FOLDER READ_FOLDER "faults"

static void test_each_fault_reads_as_written_beside_it(void **state)
{
    static const char *const helpers[] = {"base", NULL};
    (void)state;
    assert_int_equal(fault_files_check(FOLDER, ".yaml", tell, helpers), 0);
}

static void test_every_code_has_a_file(void **state)
{
    static const char *const beginnings[] = {"T2", "T3", "T4", "T7", NULL}, *const none[] = {NULL};
    (void)state;
    assert_int_equal(fault_codes_without_file(FOLDER, ".yaml", beginnings, none), 0);
}

static void test_every_code_has_a_section(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    str page = kit_file(&k, TT_SOURCE_DIR "/docs/faults-read.md");
    assert_non_null(page.p);
    size_t without = 0;
    for (int code = 0; code < FAULT_COUNT; code++) {
        const char *id = fault_id((fault_code)code);
        str title = str_printf(k.keep, "\n## %s %s\n", id, fault_title((fault_code)code));
        bool found = !of_this_stage(id) || str_find(page, title) != SIZE_MAX;
        if (!found) print_error("docs/faults-read.md lacks%s", title.p);
        without += !found;
    }
    assert_int_equal(without, 0);
    kit_end(&k);
}

/* ---- many at once ---- */

static void test_twenty_faults_give_twenty_reports(void **state)
{
    static const char *const places[] = {
        "book.yaml:4 T401",       "book.yaml:5 T203",       "book.yaml:9 T409",
        "book.yaml:12 T209",      "book.yaml:13 T205",      "questions.yaml:12 T406",
        "questions.yaml:13 T204", "questions.yaml:17 T210", "symptoms.yaml:3 T304",
        "symptoms.yaml:7 T301",   "symptoms.yaml:8 T401",   "symptoms.yaml:11 T404",
        "symptoms.yaml:11 T303",  "symptoms.yaml:12 T208",  "symptoms.yaml:13 T211",
        "symptoms.yaml:16 T307",  "work.yaml:3 T214",       "work.yaml:6 T210",
        "work.yaml:14 T405",      "work.yaml:19 T414",
    };
    enum { TWENTY = sizeof places / sizeof *places };
    (void)state;
    kit k;
    kit_begin(&k);
    const char *const names[] = {"work", "symptoms", "book", "questions"};
    for (int i = 0; i < 4; i++)
        assert_true(kit_add_file(&k, str_printf(k.keep, "twenty/%s.yaml", names[i])));
    assert_null(kit_read(&k));
    uint32_t count;
    const fault *sorted = faults_sorted(k.list, k.scratch, &count);
    for (uint32_t i = 0; i < count && i < TWENTY; i++) {
        str where =
            str_printf(k.keep, "%.*s %s", STR_ARG(span_short(k.keep, &k.files, sorted[i].at)),
                       fault_id(sorted[i].code));
        assert_text(where, places[i]);
    }
    assert_int_equal(TWENTY, 20);
    assert_int_equal(count, TWENTY);
    kit_end(&k);
}

static void test_a_wrong_name_is_reported_once(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    kit_add(&k, STR("rules.yaml"),
            str_of("book:\n  title: T\n  roles: [helper]\ncauses:\n  a:\n    text: A\n    "
                   "never-with: [bb]\n    brought-on-by: [bb]\n"
                   "  b:\n    text: B\n    never-with: [bb]\n"));
    assert_null(kit_read(&k));
    assert_int_equal(faults_errors(k.list), 1);
    kit_end(&k);
}

/* An entry with faults of its own is there all the same for who refers to it. */
static void test_no_cascade_from_a_faulty_entry(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    kit_add(&k, STR("rules.yaml"),
            str_of("book:\n  title: T\n  roles: [helper]\n"
                   "questions:\n  q:\n    ask: Q?\n    answers: [x, y]\n"
                   "symptoms:\n  s:\n    when: {q: x}\n    text: S\n    shown-by: {a: often}\n"
                   "causes:\n  a: none\n"
                   "fixes:\n  f:\n    text: F at {q}\n    role: helper\n    cures: {a: usually}\n  "
                   "  harm: none\n    "
                   "put-back: not needed\n    look-again: [q]\n"
                   "rules:\n  r:\n    when: {q: z, s: shown}\n    then: {cautoin: Ice}\n"
                   "cases:\n  c:\n    answers: {q: x}\n    expect: {leading-cause: a, first-fix: "
                   "f, caution: r}\n"));
    assert_null(kit_read(&k));
    if (faults_errors(k.list) != 3) print_error("%s\n", kit_said(&k));
    assert_int_equal(faults_errors(k.list), 3);
    kit_end(&k);
}

/* 'then' is so like 'when' that it was once taken for it, and a rule without 'when' was let
 * through. */
static void test_a_key_that_is_like_another_is_not_that_one(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    kit_add(&k, STR("rules.yaml"),
            str_of("book:\n  title: T\n  roles: [helper]\ncauses:\n  a:\n    text: A\n"
                   "rules:\n  r:\n    then: {rule-out: [a]}\n  s:\n    when: {}\n"));
    assert_null(kit_read(&k));
    assert_non_null(strstr(kit_said(&k), "The rule 'r' has no 'when'. [T204]"));
    assert_non_null(strstr(kit_said(&k), "The rule 's' has no 'then'. [T204]"));
    kit_end(&k);
}

/* What stood in a file that could not be read is not missed besides; a slip of the pen still is. */
static void test_no_cascade_from_an_unreadable_file(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    kit_add(&k, STR("causes.yaml"), str_of("causes:\n  worn-seal: {text: [\n"));
    kit_add(&k, STR("rules.yaml"),
            str_of("book:\n  title: T\n  roles: [helper]\nquestions:\n  drip:\n    ask: Q?\n"
                   "symptoms:\n  s:\n    text: S\n    when: {drip: yes}\n    shown-by: {worn-seal: "
                   "often}\n"));
    assert_null(kit_read(&k));
    if (faults_errors(k.list) != 1) print_error("%s\n", kit_said(&k));
    assert_int_equal(faults_errors(k.list), 1);
    kit_end(&k);
}

/* Two sections of one name in a file: what stood in the second one is not missed. */
static void test_no_cascade_from_a_section_twice(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    kit_add(&k, STR("rules.yaml"),
            str_of("book:\n  title: T\n  roles: [helper]\nquestions:\n  drip:\n    ask: Q?\n"
                   "causes:\n  a-b:\n    text: A\ncauses:\n  worn-seal:\n    text: B\n"
                   "symptoms:\n  s:\n    text: S\n    when: {drip: yes}\n    shown-by: {worn-seal: "
                   "often}\n"));
    assert_null(kit_read(&k));
    if (faults_errors(k.list) != 1) print_error("%s\n", kit_said(&k));
    assert_int_equal(faults_errors(k.list), 1);
    kit_end(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_fault_reads_as_written_beside_it),
        cmocka_unit_test(test_every_code_has_a_file),
        cmocka_unit_test(test_every_code_has_a_section),
        cmocka_unit_test(test_twenty_faults_give_twenty_reports),
        cmocka_unit_test(test_a_wrong_name_is_reported_once),
        cmocka_unit_test(test_no_cascade_from_a_faulty_entry),
        cmocka_unit_test(test_a_key_that_is_like_another_is_not_that_one),
        cmocka_unit_test(test_no_cascade_from_an_unreadable_file),
        cmocka_unit_test(test_no_cascade_from_a_section_twice),
    };
    return cmocka_run_group_tests_name("faults of the book reader", tests, NULL, NULL);
}
