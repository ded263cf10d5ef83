/* What a site answers in advance, and the site's own file. */
#include "read_kit.h"

#define RULES \
    "book:\n  title: T\n  roles: [helper]\n" \
    "kinds:\n  filter:\n    one: filter\n    ask: Which?\n" \
    "questions:\n" \
    "  hard:\n    ask: Is the water hard?\n    about: the site\n" \
    "  cut-in:\n    ask: Where does it start?\n    reading: pressure\n    unit: psi\n    about: " \
    "the site\n" \
    "  season:\n    ask: Is it winter?\n    about: today\n" \
    "  size:\n    for-each: filter\n    ask: How large?\n    answers:\n      small: Small\n      " \
    "large: Large\n" \
    "    about: the site\n" \
    "  look:\n    for-each: filter\n    ask: How does it look?\n" \
    "causes:\n  worn:\n    text: Worn\n  full:\n    for-each: filter\n    text: Full {filter}\n"
#define EXAMPLE \
    "site:\n  title: The north house\n  units:\n    filter:\n" \
    "      coarse: {size: large}\n      fine: {}\n" \
    "  answers:\n    cut-in: 30 psi\n"
#define CASES \
    "cases:\n  c:\n    answers: {look of fine: yes}\n    expect: {leading-cause: full of fine}\n"

static const book *read_at(kit *k, const char *rules, const char *site)
{
    kit_begin(k);
    kit_add(k, STR("rules.yaml"), str_of(rules));
    if (site != NULL) k->site = (source){STR("site.yaml"), str_of(site)};
    return kit_read(k);
}

static const site_answer *answer_of(const book *b, const char *question)
{
    uint32_t id = book_question(b, str_of(question));
    assert_int_not_equal(id, NO_ID);
    for (uint32_t i = 0; i < b->site_answer_count; i++)
        if (b->site_answers[i].given.question == id) return &b->site_answers[i];
    return NULL;
}

static bool said(kit *k, const char *part)
{
    bool found = strstr(kit_said(k), part) != NULL;
    if (!found) print_error("%s\n", kit_said(k));
    return found;
}

static void test_answers_of_the_site_and_of_its_pieces(void **state)
{
    (void)state;
    kit k;
    const book *b = read_at(&k,
                            RULES "site:\n  title: North\n  units:\n    filter:\n"
                                  "      coarse: {size: large}\n"
                                  "      fine:\n        size: {value: small, source: the label}\n"
                                  "  answers:\n    hard: no\n"
                                  "    cut-in: {value: 30 psi, source: measured in spring}\n",
                            NULL);
    assert_non_null(b);
    assert_text(texts_for(&b->site_title, STR("en")), "North");
    assert_int_equal(b->site_answer_count, 4);
    for (uint32_t i = 1; i < 4; i++)
        assert_true(b->site_answers[i - 1].given.question < b->site_answers[i].given.question);
    assert_near(answer_of(b, "cut-in")->given.number, 30);
    assert_text(texts_for(&answer_of(b, "cut-in")->source, STR("en")), "measured in spring");
    assert_int_equal(answer_of(b, "hard")->source.count, 0);
    const question *size = &b->questions[book_question(b, STR("size of coarse"))];
    assert_text(size->answers[answer_of(b, "size of coarse")->given.answer].id.name, "large");
    assert_text(texts_for(&answer_of(b, "size of fine")->source, STR("en")), "the label");
    kit_end(&k);
}

#define LOCKS \
    "procedures:\n  lock:\n    for-each: filter\n    energies: [pressure]\n    tell: Tell them.\n" \
    "    isolate: Shut {filter} off\n    release: Drain it\n    prove: Read the gauge\n    " \
    "restore: Open it\n" \
    "fixes:\n  renew:\n    for-each: filter\n    text: Renew\n    role: helper\n    cures: " \
    "{full: often}\n" \
    "    procedure: lock\n    put-back: not needed\n    harm:\n      from: [pressure]\n" \
    "      unprotected: {worst: marginal, chance: remote}\n      protected: {worst: negligible, " \
    "chance: remote}\n"

/* Each point that the site names stands in place of the book's; what it leaves out is the book's.
 */
static void test_procedures_by_the_sites_own_names(void **state)
{
    (void)state;
    kit k;
    const book *b = read_at(&k, RULES LOCKS,
                            "site:\n  units:\n    filter: {coarse: {}, fine: {}}\n  procedures:\n"
                            "    lock of fine:\n      isolate:\n        - Shut valve 7 and lock "
                            "it.\n        - Shut valve 8.\n");
    assert_non_null(b);
    const safety *fine = &b->fixes[book_fix(b, STR("renew of fine"))].harm,
                 *coarse = &b->fixes[book_fix(b, STR("renew of coarse"))].harm;
    assert_int_equal(fine->isolate.count, 2);
    assert_text(texts_for(&fine->isolate.items[0], STR("en")), "Shut valve 7 and lock it.");
    assert_text(texts_for(&fine->release.items[0], STR("en")), "Drain it");
    assert_int_equal(coarse->isolate.count, 1);
    kit_end(&k);
}

/* A fact of a piece may stand under 'answers' too, said in full. */
static void test_a_fact_of_a_piece_said_in_full(void **state)
{
    (void)state;
    kit k;
    const book *b = read_at(
        &k, RULES "site:\n  units: {filter: {fine: {}}}\n  answers:\n    size of fine: small\n",
        NULL);
    assert_non_null(b);
    assert_int_equal(b->site_answer_count, 1);
    assert_non_null(answer_of(b, "size of fine"));
    kit_end(&k);
}

static void test_one_fact_is_answered_once(void **state)
{
    (void)state;
    kit k;
    assert_null(read_at(
        &k,
        RULES
        "site:\n  units: {filter: {fine: {size: large}}}\n  answers:\n    size of fine: small\n",
        NULL));
    assert_true(said(&k, "The site answers 'size of fine' twice. [T211]"));
    assert_int_equal(faults_errors(k.list), 1);
    kit_end(&k);
}

static void test_a_wrong_answer_is_told_where_it_stands(void **state)
{
    (void)state;
    kit k;
    assert_null(read_at(&k, RULES,
                        "site:\n  units:\n    filter:\n      fine: {size: huge}\n  answers:\n    "
                        "cut-in: soon\n    season: no\n"));
    assert_true(said(&k, "site.yaml:4:20: error: 'huge' is no answer of 'size of fine'."));
    assert_true(said(&k, "site.yaml:6:13: error: 'soon' is no reading for 'cut-in'."));
    assert_true(said(&k, "site.yaml:7:5: error: 'season' is no fact of the site"));
    assert_int_equal(faults_errors(k.list), 3);
    kit_end(&k);
}

/* ---- a file of its own ---- */

static void test_the_file_takes_the_place_of_the_example(void **state)
{
    (void)state;
    kit k;
    const book *b =
        read_at(&k, RULES EXAMPLE CASES,
                "site:\n  title: The cottage\n  units:\n    filter:\n      sediment: {}\n");
    assert_non_null(b);
    assert_true(b->has_site);
    assert_text(texts_for(&b->site_title, STR("en")), "The cottage");
    assert_int_equal(b->piece_count, 1);
    assert_int_equal(book_question(b, STR("look of fine")), NO_ID);
    assert_int_not_equal(book_question(b, STR("look of sediment")), NO_ID);
    assert_int_equal(b->site_answer_count, 0);
    kit_end(&k);
}

/* Worked cases are about the example: their names would mean nothing here. */
static void test_worked_cases_are_left_out(void **state)
{
    (void)state;
    kit with, without;
    assert_int_equal(read_at(&with, RULES EXAMPLE CASES, NULL)->case_count, 1);
    const book *b = read_at(&without, RULES EXAMPLE CASES,
                            "site:\n  units:\n    filter:\n      sediment: {}\n");
    assert_non_null(b);
    assert_int_equal(b->case_count, 0);
    assert_int_equal(faults_errors(without.list), 0);
    kit_end(&with);
    kit_end(&without);
}

/* Those that a site file holds are about that site. */
static void test_a_site_has_worked_cases_of_its_own(void **state)
{
    (void)state;
    kit k;
    const book *b = read_at(&k, RULES EXAMPLE CASES,
                            "site:\n  units:\n    filter:\n      sediment: {}\n"
                            "cases:\n  own:\n    at: [sediment]\n    answers: {look: yes}\n    "
                            "expect: {leading-cause: full}\n");
    if (b == NULL) fail_msg("%s", kit_said(&k));
    assert_int_equal(b->case_count, 1);
    assert_text(b->cases[0].id.name, "own");
    assert_int_equal(b->cases[0].leading_cause, book_cause(b, STR("full of sediment")));
    kit_end(&k);
}

/* What the author left unused is no concern of those who own a site. */
static void test_a_sites_owner_is_not_told_what_is_unused(void **state)
{
    (void)state;
    kit author, owner;
    assert_non_null(read_at(&author, RULES EXAMPLE, NULL));
    assert_true(faults_warnings(author.list) > 0);
    assert_non_null(read_at(&owner, RULES EXAMPLE, EXAMPLE));
    assert_int_equal(faults_warnings(owner.list), 0);
    kit_end(&author);
    kit_end(&owner);
}

/* An error of the book is one at any site. */
static void test_a_fix_quicker_than_its_lockout_is_told_at_a_site_too(void **state)
{
    (void)state;
    kit k;
    const book *b = read_at(
        &k,
        RULES "fixes:\n  change:\n    text: Change it\n    role: helper\n    takes: 5 min\n"
              "    cures: {worn: usually}\n    put-back: not needed\n    protect: [Gloves]\n"
              "    procedure: lock\n    harm:\n      from: [electricity]\n"
              "      unprotected: {worst: marginal, chance: occasional}\n"
              "      protected: {worst: marginal, chance: improbable}\n"
              "procedures:\n  lock:\n    takes: 20 min\n    energies: [electricity]\n"
              "    tell: Tell the desk.\n    isolate: Switch off\n    release: Wait\n"
              "    prove: Try\n    restore: Take off your lock\n",
        "site:\n  title: North\n  units:\n    filter:\n      coarse: {}\n");
    assert_null(b);
    assert_true(said(&k, "T480"));
    kit_end(&k);
}

static void test_a_site_may_have_none_of_a_kind(void **state)
{
    (void)state;
    kit k;
    const book *b = read_at(&k,
                            RULES EXAMPLE "rules:\n  r:\n    when: {look of every filter: yes}\n   "
                                          " then: {likelier: {full of any filter: 2 times}}\n",
                            "site:\n  units: {}\n");
    assert_non_null(b);
    assert_int_equal(b->piece_count, 0);
    assert_int_equal(b->cause_count, 1);
    assert_int_equal(b->rules[0].factor_count, 0);
    assert_int_equal(b->rules[0].when->count, 0);
    kit_end(&k);
}

/* A file that can't be read to its end is reported once, and nothing that only follows from it. */
static void test_no_cascade_from_an_unreadable_site(void **state)
{
    (void)state;
    kit k;
    assert_null(read_at(
        &k,
        RULES EXAMPLE
        "rules:\n  r:\n    when: {look of fine: yes}\n    then: {likelier: {worn: 2 times}}\n",
        "site:\n  units: {filter: [\n"));
    if (faults_errors(k.list) != 1) print_error("%s\n", kit_said(&k));
    assert_int_equal(faults_errors(k.list), 1);
    kit_end(&k);
}

/* What the site has could not be read: nobody knows what is missing. */
static void test_no_cascade_from_lost_pieces(void **state)
{
    (void)state;
    kit k;
    assert_null(read_at(
        &k,
        RULES CASES
        "site:\n  units:\n    filter: [coarse, fine]\n  answers:\n    size of coarse: large\n",
        NULL));
    if (faults_errors(k.list) != 1) print_error("%s\n", kit_said(&k));
    assert_int_equal(faults_errors(k.list), 1);
    kit_end(&k);
}

/* A formula over every piece, where there is none. */
static void test_a_formula_over_none_is_of_no_type(void **state)
{
    (void)state;
    kit k;
    const book *b = read_at(&k,
                            RULES EXAMPLE "quantities:\n  worst:\n    text: The worst\n    "
                                          "formula: max(drop of every filter)\n    unit: psi\n"
                                          "  drop:\n    for-each: filter\n    text: The drop\n    "
                                          "formula: cut-in - 5 psi\n    unit: psi\n",
                            "site:\n  units: {}\n");
    assert_non_null(b);
    assert_int_not_equal(book_question(b, STR("worst")), NO_ID);
    kit_end(&k);
}

/* ---- hostile ---- */

static void assert_told(const char *site, const char *part)
{
    kit k;
    assert_null(read_at(&k, RULES, site));
    assert_true(said(&k, part));
    kit_end(&k);
}

static void test_shapes_that_do_not_fit_are_told(void **state)
{
    (void)state;
    assert_told("site: [a, b]\n", "[T201]");
    assert_told("site: north\n", "[T201]");
    assert_told("site: {}\nsite: {}\n", "[T1");
    assert_told("site:\n  units: [filter]\n", "'units' must be a map of kinds of equipment");
    assert_told("site:\n  units: {filter: {fine: [a, b]}}\n", "a piece of equipment must be a map");
    assert_told("site:\n  units: {filter: {fine: new}}\n", "a piece of equipment must be a map");
    assert_told("site:\n  units: {filter: {fine: {comes-before: {a: b}}}}\n",
                "'comes-before' must be a list of names");
    assert_told("site:\n  units: {filter: {fine: {comes-before: [[fine]]}}}\n",
                "a piece of equipment must be a single word");
    assert_told("site:\n  units: {filter: {fine: {comes-before: [fine]}}}\n", "[T246]");
    assert_told("site:\n  units: {filter: {Fine Filter: {}}}\n", "Write 'fine-filter'.");
    assert_told("site:\n  units: {filter: {second: {}}}\n", "[T205]");
    assert_told("site:\n  units: {filter: {fine: {size: {source: the label}}}}\n", "[T706]");
    assert_told("site:\n  answers: [cut-in]\n", "'answers' must be a map from question to answer");
    assert_told("site:\n  unit: {}\n", "Did you mean 'units'?");
    assert_told("", "[T250]");
    assert_told("units: {}\n", "[T248]");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_answers_of_the_site_and_of_its_pieces),
        cmocka_unit_test(test_procedures_by_the_sites_own_names),
        cmocka_unit_test(test_a_fact_of_a_piece_said_in_full),
        cmocka_unit_test(test_one_fact_is_answered_once),
        cmocka_unit_test(test_a_wrong_answer_is_told_where_it_stands),
        cmocka_unit_test(test_the_file_takes_the_place_of_the_example),
        cmocka_unit_test(test_worked_cases_are_left_out),
        cmocka_unit_test(test_a_site_has_worked_cases_of_its_own),
        cmocka_unit_test(test_a_sites_owner_is_not_told_what_is_unused),
        cmocka_unit_test(test_a_fix_quicker_than_its_lockout_is_told_at_a_site_too),
        cmocka_unit_test(test_a_site_may_have_none_of_a_kind),
        cmocka_unit_test(test_no_cascade_from_an_unreadable_site),
        cmocka_unit_test(test_no_cascade_from_lost_pieces),
        cmocka_unit_test(test_a_formula_over_none_is_of_no_type),
        cmocka_unit_test(test_shapes_that_do_not_fit_are_told),
    };
    return cmocka_run_group_tests_name("the site", tests, NULL, NULL);
}
