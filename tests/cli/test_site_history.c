/* history, and what is counted by month, of the example site a year old: in words at several
 * widths, for programs, and as a page. The year is invented; see example_year.h. */
#include "run_telltale.h"

#include "example_year.h"
#include "json_schema.h"
#include "window.h"

#define BOOK    TT_SOURCE_DIR "/rules/foam-line"
#define HISTORY "$T history '" BOOK "' --site '" BOOK "/site.yaml' --cases year --until 2026-11-29 "

static int make_year(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf year"), 0);
    write_example_year("year");
    return 0;
}

static void a_year_in_words(void **state)
{
    (void)state;
    assert_int_equal(sh(HISTORY ">out 2>err"), 0);
    assert_int_equal(sh("test -s err"), 1);
    assert_holds("out",
                 "Faults: 7. Rounds: 284. Days without a round: 79. Records of what is good: 2.");
    assert_holds("out", "Good: 30 psi.");
    assert_holds("out", "2026-04-29: Set the foam air back to its mark");
    assert_holds("out", "2026-06-29: recorded as good, 30 psi");
    assert_holds("out", "It helped, and came back: 2026-06-10");
    assert_holds("out", "The foam is too dry: 4 times, 2026-04-29 to 2026-09-19.");
    assert_holds("out", "Only liquid comes out: 2 times");
    assert_holds("out", "What the product for a car costs");
    assert_holds("out", "- 2026-10: 04\u201305, 11, 18, 25. Days: 5.");
    assert_holds("out", "█");
}

/* Cases that were told in another language are told in the book's words for them. */
static void a_year_in_another_language(void **state)
{
    (void)state;
    assert_int_equal(sh(HISTORY "--language es >out"), 0);
    assert_holds("out", "2026-01-01, caso 677678F: El viento se lleva la espuma");
    assert_holds("out", "Lo que ayudó: Regresar el aire de espuma a su marca");
    assert_holds("out", "Era, y alguien se aseguró: El aire de la espuma está muy alto");
    assert_holds("out", "La espuma está muy seca: 4 veces");
    assert_int_equal(sh(HISTORY "--language es --json | grep -c 'The foam' >out"), 1);
}

/* What is reckoned, against hand: 4 gal/min for 9 s is 0.6 gal; 1 part in 81 of it is 0.948 fl oz;
 * of 55 gal for 980 that is 0.132. */
static void money_and_product_for_a_car(void **state)
{
    (void)state;
    assert_int_equal(sh(HISTORY "--until 2025-12-02 >out"), 0);
    assert_holds("out", "One value: 0.6 gal on 2025-12-01.");
    assert_holds("out", "One value: 0.9481 fl oz on");
    assert_holds("out", "One value: 0.132 on 2025-12-01.");
}

static void what_is_missing_is_said(void **state)
{
    (void)state;
    assert_int_equal(sh("grep -v drum-price '" BOOK "/site.yaml' >north.yaml && mkdir -p none && "
                        "$T history '" BOOK "' --site north.yaml --cases none >out"),
                     0);
    assert_holds("out", "No case of this site is kept here yet.");
    assert_holds(
        "out",
        "- What does a full drum of the foam's product cost? (the site's file, or a record)");
    assert_holds("out", "- How many seconds does the foam run on one car?");
    assert_holds("out", "Nobody has read it yet.");
}

static void for_programs_by_the_schema(void **state)
{
    (void)state;
    assert_int_equal(sh(HISTORY "--json >out.json"), 0);
    json_t *schema = json_load_file(TT_SOURCE_DIR "/docs/history.schema.json", 0, NULL),
           *value = json_load_file("out.json", 0, NULL);
    assert_non_null(schema);
    assert_non_null(value);
    assert_true(fits_schema(schema, value));
    json_decref(schema);
    json_decref(value);
    assert_holds("out.json", "\"days_without\": 79");
}

/* Each thing that was done has its number on the first picture, and the days at its foot are those
 * of all readings, also where a series began later or ended before. */
static void all_is_numbered(void)
{
    char *page = contents("page.html"), *at = strstr(page, "<svg class=\"course\"");
    for (unsigned pictures = 0; at != NULL; pictures++) {
        char *end = strstr(at, "</svg>");
        assert_non_null(end);
        *end = 0;
        for (char number = '1'; pictures == 0 && number <= '7'; number++)
            assert_non_null(strstr(at, (char[]){'>', number, '<', 0}));
        assert_non_null(strstr(at, ">2025-12-01<"));
        assert_non_null(strstr(at, ">2026-11-28<"));
        at = strstr(end + 1, "<svg class=\"course\"");
        assert_true(at != NULL || pictures > 5);
    }
    free(page);
}

static void a_page_with_its_pictures(void **state)
{
    (void)state;
    assert_int_equal(sh(HISTORY "--into page.html --overwrite"), 0);
    assert_holds("page.html", "<h1>The example tunnel: what it was like over time</h1>");
    assert_holds("page.html", "<svg ");
    assert_holds("page.html", "Set the foam air back to its mark");
    assert_holds("page.html", "Recorded as good: 30 psi");
    assert_holds("page.html", "2026-04");
    assert_holds("page.html", "Who: </span>the technician</td>");
    assert_holds("page.html", "Which: </span>04\u201305, 11, 18, 25</td>");
    assert_holds("page.html", "<title>Picture: What does the foam-air gauge read while foam is on? "
                              "296 readings, from 29 psi to 45 psi.");
    all_is_numbered();
    assert_int_equal(sh(HISTORY "--into page.html --json 2>err"), 2);
    assert_holds("err", "give one of them");
}

/* No line is wider than the terminal, and in plain nothing is drawn. */
static void fits_narrow_screens(void **state)
{
    (void)state;
    static const char *const words[] = {"history",         BOOK,         "--site",
                                        BOOK "/site.yaml", "--cases",    "year",
                                        "--until",         "2026-11-29", NULL};
    for (unsigned columns = 40; columns <= 100; columns += 20) {
        window *w = window_open(&(window_plan){.words = words, .rows = 400, .columns = columns});
        window_await_end(w);
        assert_in_range(widest_line(window_text(w)), 30, columns);
        assert_non_null(strstr(window_text(w), "█"));
        assert_int_equal(window_close(w), 0);
    }
    assert_int_equal(sh(HISTORY "--plain >out"), 0);
    assert_int_equal(sh("grep -q '█' out"), 1);
}

static void counted_by_month(void **state)
{
    (void)state;
    assert_int_equal(sh("$T cases year --by month >out"), 0);
    assert_holds("out", "2026-02\n  - The example tunnel: The product drum is empty or nearly so: "
                        "1, 1 of them confirmed");
    assert_holds("out", "2026-09\n  - The example tunnel: The foam air is set too high: 1");
}

static void it_needs_a_site(void **state)
{
    (void)state;
    assert_int_equal(sh("$T history '" BOOK "' 2>err"), 2);
    assert_holds("err", "name its file with --site");
    assert_int_equal(sh(HISTORY "--since 2027-01-01 2>err"), 2);
    assert_int_equal(sh(HISTORY ">&- 2>err"), 74);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_year_in_words),
        cmocka_unit_test(money_and_product_for_a_car),
        cmocka_unit_test(what_is_missing_is_said),
        cmocka_unit_test(for_programs_by_the_schema),
        cmocka_unit_test(a_year_in_another_language),
        cmocka_unit_test(a_page_with_its_pictures),
        cmocka_unit_test(fits_narrow_screens),
        cmocka_unit_test(counted_by_month),
        cmocka_unit_test(it_needs_a_site),
    };
    return cmocka_run_group_tests(tests, make_year, NULL);
}
