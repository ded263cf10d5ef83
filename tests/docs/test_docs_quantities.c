/* What docs/formulas.md shows holds in a book, too: its names are readings, each formula is a
 * quantity, and what comes out is what the page says, as people are shown it. What it refuses, the
 * reader refuses. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "measure/amount.h"
#include "telltale.h"
#include "test_sources.h"

enum { NAMES = 32, ROOM = 16384 };

typedef struct page_name {
    const char *name, *amount;
} page_name;

typedef struct page {
    arena *keep;
    page_name names[NAMES];
    uint32_t count, shown, refused, undefined;
} page;

/* The unit that a question over such an amount has. */
static unit unit_of(const page *p, const char *amount)
{
    unit u;
    str bad;
    const char *word = strchr(amount, ' ');
    const char *text = word != NULL ? word + 1 : strncmp(amount, "1:", 2) == 0 ? "1:N" : "";
    if (*text == 0) return unit_none;
    assert_int_equal(unit_read(p->keep, str_of(text), NULL, &u, &bad), UNIT_FOUND);
    return u;
}

/* Names of one of several pieces ("drop of left-filter") stand for a kind; here they get a hyphen.
 */
static const char *plain(const page *p, const char *text)
{
    char *out = (char *)(uintptr_t)str_copy(p->keep, str_of(text)).p;
    for (char *of = out; (of = strstr(of, " of ")) != NULL; of++)
        if (strncmp(of, " of left-", 9) == 0 || strncmp(of, " of right-", 10) == 0)
            of[0] = of[3] = '-';
    return out;
}

static void put_names(const page *p, char *text, size_t room)
{
    size_t n = strlen(text);
    for (uint32_t i = 0; i < p->count; i++) {
        unit u = unit_of(p, p->names[i].amount);
        n += (size_t)snprintf(text + n, room - n, "  %s:\n    ask: Q?\n    reading: %s\n",
                              p->names[i].name, "some");
        if (u.text.n > 0)
            n += (size_t)snprintf(text + n, room - n, "    unit: \"%.*s\"\n", STR_ARG(u.text));
        assert_true(n < room);
    }
}

static tt_status load(const page *p, const char *formula, const char *unit, tt_book **book,
                      tt_report **report)
{
    char text[ROOM] = "book:\n  title: T\n  roles: [helper]\nquestions:\n";
    put_names(p, text, sizeof text);
    size_t n = strlen(text);
    n += (size_t)snprintf(text + n, sizeof text - n,
                          "quantities:\n  q:\n    text: Q\n    formula: \"%s\"\n", formula);
    if (*unit != 0) n += (size_t)snprintf(text + n, sizeof text - n, "    unit: \"%s\"\n", unit);
    snprintf(text + n, sizeof text - n, "causes:\n  c: {text: C}\n");
    const tt_source source = {"page.yaml", text, strlen(text)};
    return tt_book_load(&source, 1, book, report);
}

static tt_case *begin(const page *p, const char *formula, const char *unit, tt_book **book)
{
    tt_report *report;
    tt_case *c;
    if (load(p, formula, unit, book, &report) != TT_OK)
        fail_msg("'%s': %s", formula, tt_report_text(report));
    tt_report_free(report);
    assert_int_equal(tt_case_new(*book, NULL, &c), TT_OK);
    for (uint32_t i = 0; i < p->count; i++) {
        tt_reply reply;
        const char *why;
        uint32_t q = tt_question_find(*book, p->names[i].name);
        if (tt_reply_read(c, q, p->names[i].amount, &reply, &why) != TT_OK)
            fail_msg("%s: %s", p->names[i].amount, why);
        assert_int_equal(tt_answer(c, q, &reply), TT_OK);
    }
    return c;
}

static const tt_fact *fact_of_q(tt_case *c)
{
    const tt_view *v;
    assert_int_equal(tt_look(c, &v), TT_OK);
    for (uint32_t i = 0; i < v->fact_count; i++)
        if (strcmp(v->facts[i].name, "q") == 0) return &v->facts[i];
    fail_msg("nothing is known of q");
    return NULL;
}

static void check_value(page *p, const char *formula, const char *wanted)
{
    tt_book *book;
    str amount_text = str_trim(str_of(wanted + 1)), bad;
    size_t gap = str_find_byte(amount_text, ' ');
    str unit_text =
        gap == SIZE_MAX ? STR("") : str_trim(str_slice(amount_text, gap, amount_text.n));
    bool ratio = str_find_byte(amount_text, ':') != SIZE_MAX;
    if (ratio) unit_text = STR("1:N");
    tt_case *c = begin(p, formula, str_copy(p->keep, unit_text).p, &book);
    const tt_fact *f = fact_of_q(c);
    unit u = unit_none;
    double number;
    amount as;
    if (unit_text.n > 0)
        assert_int_equal(unit_read(p->keep, unit_text, NULL, &u, &bad), UNIT_FOUND);
    assert_int_equal(amount_read(p->keep, amount_text, &u, &number, &as, &bad), AMOUNT_FOUND);
    if (!f->is_number || !(fabs(f->number - number) <= 5e-5 * fabs(number)))
        fail_msg("'%s' is '%s', not '%s'", formula, f->text, wanted);
    tt_case_free(c);
    tt_book_free(book);
    p->shown++;
}

static void check_refused(page *p, const char *formula, const char *words)
{
    tt_book *book;
    tt_report *report;
    assert_int_not_equal(load(p, formula, "", &book, &report), TT_OK);
    if (strstr(tt_report_text(report), words) == NULL)
        fail_msg("'%s': %s", formula, tt_report_text(report));
    tt_report_free(report);
    p->refused++;
}

static void check_undefined(page *p, const char *formula, const char *why)
{
    tt_book *book;
    tt_case *c = begin(p, formula,
                       strncmp(formula, "zone /", 6) == 0 ? "min"
                       : strncmp(formula, "1 /", 3) == 0  ? "/psi"
                                                          : "",
                       &book);
    assert_string_equal(fact_of_q(c)->text, str_printf(p->keep, "not known: %s", why).p);
    tt_case_free(c);
    tt_book_free(book);
    p->undefined++;
}

static void check_line(page *p, str block, str line)
{
    size_t gap = str_find(line, STR("  "));
    assert_int_not_equal(gap, SIZE_MAX);
    const char *left = plain(p, str_copy(p->keep, str_slice(line, 0, gap)).p);
    const char *right = str_copy(p->keep, str_trim(str_slice(line, gap, line.n))).p;
    if (str_is(block, "names"))
        p->names[p->count++] = (page_name){left, right};
    else if (str_is(block, "formula"))
        check_value(p, left, right);
    else if (str_is(block, "refused"))
        check_refused(p, left, right);
    else
        check_undefined(p, left, right);
}

static void the_page_holds_in_a_book(void **state)
{
    (void)state;
    page p = {.keep = test_arena()};
    str text = file_bytes(p.keep, TT_SOURCE_DIR "/docs/formulas.md"), block = STR("");
    while (text.n > 0) {
        size_t end = str_find_byte(text, '\n');
        str line = str_slice(text, 0, end);
        text = str_slice(text, end + 1, text.n);
        if (str_starts(line, "```"))
            block = str_slice(line, 3, line.n);
        else if (block.n > 0)
            check_line(&p, block, line);
    }
    assert_true(p.count >= 10 && p.shown >= 20 && p.refused >= 5 && p.undefined >= 3);
    arena_free(p.keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(the_page_holds_in_a_book)};
    return cmocka_run_group_tests_name("docs: formulas in a book", tests, NULL, NULL);
}
