/* Which contact lenses fit? A complete table: 24 rows are all that four questions can be answered
 * with, and each has its one right answer. So rules must get every row right, while a naive Bayes,
 * which takes each question by itself, need not.
 *
 * J. Cendrowska, PRISM: An algorithm for inducing modular rules, International Journal of
 * Man-Machine Studies 27 (1987) 349-370, as its file in Debian's package weka says. */
#include "testing.h"

#include <math.h>
#include <stdio.h>

#include "small_book.h"
#include "table_book.h"
#include "test_sources.h"

static arena *a;
static example_table lenses;

static int read_data(void **state)
{
    (void)state;
    a = test_arena();
    lenses = table_from_weka(a, "contact-lenses.arff");
    return 0;
}

static void assert_near(const char *what, double got, double wanted, double most)
{
    if (!(fabs(got - wanted) <= most)) fail_msg("%s: %.17g here, %.17g there", what, got, wanted);
}

static const uint32_t *answers_of(uint32_t row)
{
    return lenses.cells + (size_t)row * (lenses.column_count + 1);
}

static void the_table_is_complete(void **state)
{
    /* outside-check: contact lenses, 24 rows, no two alike, 5 soft, 4 hard, 15 none
     * source: Cendrowska 1987; Debian package weka 3.6.14, contact-lenses.arff
     * standing: VERIFIED
     */
    (void)state;
    table_counts k = table_count(a, &lenses, 0);
    assert_int_equal(lenses.row_count, 24);
    assert_int_equal(lenses.column_count, 4);
    for (uint32_t r = 0; r < 24; r++)
        for (uint32_t s = 0; s < r; s++)
            assert_memory_not_equal(answers_of(r), answers_of(s), 4 * sizeof(uint32_t));
    assert_int_equal(k.classes[0], 5);
    assert_int_equal(k.classes[1], 4);
    assert_int_equal(k.classes[2], 15);
}

/* ---- as rules ---- */

static const char *const rules = /* read off the table by hand; they cover it without overlap */
    "book:\n"
    "  title: Contact lenses\n"
    "  roles: [anybody]\n"
    "questions:\n"
    "  age:\n"
    "    ask: How old?\n"
    "    answers: {young: Young, pre-presbyopic: Pre-presbyopic, presbyopic: Presbyopic}\n"
    "    about: today\n"
    "  prescription:\n"
    "    ask: What is prescribed?\n"
    "    answers: {myope: Myope, hypermetrope: Hypermetrope}\n"
    "    about: today\n"
    "  astigmatic:\n"
    "    ask: Is there astigmatism?\n"
    "    about: today\n"
    "  tears:\n"
    "    ask: How are the tears?\n"
    "    answers: {reduced: Reduced, normal: Normal}\n"
    "    about: today\n"
    "conclusions:\n"
    "  lens:\n"
    "    text: The lens that fits\n"
    "    answers: {soft: Soft, hard: Hard, no-lens: None}\n"
    "rules:\n"
    "  dry-eyes:\n"
    "    when: {tears: reduced}\n"
    "    then:\n"
    "      set: {lens: no-lens}\n"
    "  soft-for-the-far-sighted:\n"
    "    when: {tears: normal, astigmatic: no, prescription: hypermetrope}\n"
    "    then:\n"
    "      set: {lens: soft}\n"
    "  soft-for-the-younger:\n"
    "    when: {tears: normal, astigmatic: no, prescription: myope, age: {not: presbyopic}}\n"
    "    then:\n"
    "      set: {lens: soft}\n"
    "  no-soft-for-the-old:\n"
    "    when: {tears: normal, astigmatic: no, prescription: myope, age: presbyopic}\n"
    "    then:\n"
    "      set: {lens: no-lens}\n"
    "  hard-for-the-short-sighted:\n"
    "    when: {tears: normal, astigmatic: yes, prescription: myope}\n"
    "    then:\n"
    "      set: {lens: hard}\n"
    "  hard-for-the-young:\n"
    "    when: {tears: normal, astigmatic: yes, prescription: hypermetrope, age: young}\n"
    "    then:\n"
    "      set: {lens: hard}\n"
    "  no-hard-for-the-old:\n"
    "    when: {tears: normal, astigmatic: yes, prescription: hypermetrope, age: {not: young}}\n"
    "    then:\n"
    "      set: {lens: no-lens}\n"
    "causes:\n"
    "  any-cause:\n"
    "    text: Nothing is wrong here\n"
    "    how-often: common\n";

static const char *const question_of_column[] = {"age", "prescription", "astigmatic", "tears"};
static const char *const lens_of_class[] = {"soft", "hard", "no-lens"};

/* Options of a yes-no question: yes is the first; in the table it is the second. */
static uint32_t option_of(uint32_t column, uint32_t value)
{
    return column == 2 ? 1 - value : value;
}

static const char *lens_found(tt_case *c)
{
    const tt_view *view;
    assert_int_equal(tt_look(c, &view), TT_OK);
    for (uint32_t i = 0; i < view->fact_count; i++)
        if (strcmp(view->facts[i].name, "lens") == 0) return view->facts[i].value;
    return NULL;
}

static void answer(tt_book *book, tt_case *c, uint32_t row, uint32_t column)
{
    uint32_t question = tt_question_find(book, question_of_column[column]);
    const tt_reply said = {.kind = TT_ANSWER,
                           .option = option_of(column, table_value(&lenses, row, column))};
    assert_int_equal(tt_answer(c, question, &said), TT_OK);
}

/* Only one lens is left in the rows that agree with the first `known` columns counted from the
 * last. */
static bool is_decided(uint32_t row, uint32_t known)
{
    for (uint32_t r = 0; r < lenses.row_count; r++) {
        bool agrees = true;
        for (uint32_t i = 0; i < known; i++)
            agrees &= table_value(&lenses, r, 3 - i) == table_value(&lenses, row, 3 - i);
        if (agrees && table_class(&lenses, r) != table_class(&lenses, row)) return false;
    }
    return true;
}

static void rules_get_every_row_right(void **state)
{
    /* outside-check: contact lenses, seven rules give each of the 24 rows its lens, as soon as the
     * answers decide it and not before source: Cendrowska 1987; Debian package weka 3.6.14,
     * contact-lenses.arff standing: VERIFIED (table), COMPUTED (when it is decided)
     */
    (void)state;
    tt_book *book = small_book(rules);
    for (uint32_t r = 0; r < lenses.row_count; r++) {
        tt_case *c;
        assert_int_equal(tt_case_new(book, &(tt_options){.role = TT_NONE}, &c), TT_OK);
        for (uint32_t known = 1; known <= 4; known++) {
            answer(book, c, r, 4 - known);
            const char *found = lens_found(c);
            if (is_decided(r, known)) {
                assert_non_null(found);
                assert_string_equal(found, lens_of_class[table_class(&lenses, r)]);
            } else if (found != NULL) {
                fail_msg("row %u: %s with %u answers", r + 1, found, known);
            }
        }
        tt_case_free(c);
    }
    tt_book_free(book);
}

/* ---- as a naive Bayes ---- */

static void each_question_tells_as_much(void **state)
{
    /* outside-check: contact lenses, bits of the four questions: tears .549, astigmatism .377,
     * prescription .040, age .039 source: counts of Debian's weka contact-lenses.arff, by the
     * definition standing: COMPUTED
     */
    (void)state;
    static const double printed[] = {.039, .040, .377, .549};
    table_counts k = table_count(a, &lenses, 0);
    table_book book = table_book_new(a, &k, BOOK_OF_FACTS);
    for (uint32_t c = 0; c < 4; c++) {
        double bits = table_bits(&book, NULL, c);
        assert_near("bits", bits, counted_gain(&k, NULL, c), 1e-12);
        assert_near("bits", bits, printed[c], 5.0001e-4);
    }
    table_book_free(&book);
}

static void naive_bayes_of_every_row(void **state)
{
    /* outside-check: contact lenses, naive Bayes with Laplace's counts for all 24 rows and for
     * every part of their answers source: counts of Debian's weka contact-lenses.arff, by the
     * definition standing: COMPUTED
     */
    (void)state;
    table_counts k = table_count(a, &lenses, 1);
    table_book book = table_book_new(a, &k, BOOK_OF_SYMPTOMS);
    uint32_t classes = table_class_count(&lenses);
    for (uint32_t r = 0; r < lenses.row_count; r++)
        for (uint32_t given = 0; given < 16; given++) {
            uint32_t answers[4];
            double chance[CLASSES_MOST], wanted[CLASSES_MOST];
            for (uint32_t c = 0; c < 4; c++)
                answers[c] = given >> c & 1 ? table_value(&lenses, r, c) : VALUE_MISSING;
            tt_case *c = table_case(&book, answers);
            table_chances(&book, c, chance);
            counted_posterior(&k, answers, wanted);
            for (uint32_t class = 0; class < classes; class ++)
                assert_near("a chance", chance[class], wanted[class], 1e-12);
            tt_case_free(c);
        }
    table_book_free(&book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_table_is_complete),
        cmocka_unit_test(rules_get_every_row_right),
        cmocka_unit_test(each_question_tells_as_much),
        cmocka_unit_test(naive_bayes_of_every_row),
    };
    int skipped = skip_all_without_weka("contact-lenses.arff");
    return skipped != 0 ? skipped
                        : cmocka_run_group_tests_name("contact lenses", tests, read_data, NULL);
}
