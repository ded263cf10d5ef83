/* The book of dosing and pumping against the rows of the fault charts it was made from, as they
 * stand here and not in the book: each symptom by itself brings the causes of its row before
 * all others. Where the book takes two entries of a chart for one, or one for two, both are
 * noted. */
#include "testing.h"

#include <stdio.h>
#include <string.h>

#include "shipped_books.h"
#include "test_sources.h"

enum { CAUSES_MOST = 16 };

typedef struct chart_row {
    const char *symptom;
    const char *question, *typed; /* what shows the symptom */
    const char *causes[CAUSES_MOST];
    const char *added; /* a cause of our own among them, or null */
} chart_row;

static tt_book *load_book(arena *keep)
{
    const shipped_book shipped = shipped_named(keep, "dosing-and-pumping");
    return shipped_load(keep, &shipped);
}

static void answer(const tt_book *book, tt_case *c, const char *question, const char *typed)
{
    tt_reply reply;
    const char *why;
    uint32_t q = tt_question_find(book, question);
    if (q == TT_NONE) fail_msg("there is no question %s", question);
    if (tt_reply_read(c, q, typed, &reply, &why) != TT_OK) fail_msg("%s: %s", typed, why);
    assert_int_equal(tt_answer(c, q, &reply), TT_OK);
}

static bool is_among(const tt_view *v, const char *cause, uint32_t first)
{
    for (uint32_t i = 0; i < first && i < v->cause_count; i++)
        if (v->causes[i].name != NULL && strcmp(v->causes[i].name, cause) == 0) return true;
    return false;
}

static uint32_t causes_of(const chart_row *row)
{
    uint32_t count = 0;
    while (count < CAUSES_MOST && row->causes[count] != NULL) count++;
    return count;
}

static void check_row(const tt_book *book, const chart_row *row)
{
    tt_case *c;
    const tt_view *v;
    uint32_t symptom = tt_symptom_find(book, row->symptom);
    if (symptom == TT_NONE) fail_msg("there is no %s", row->symptom);
    assert_int_equal(tt_case_new(book, NULL, &c), TT_OK);
    answer(book, c, "danger", "safe");
    assert_int_equal(tt_complain(c, symptom), TT_OK);
    answer(book, c, row->question, row->typed);
    assert_int_equal(tt_look(c, &v), TT_OK);
    uint32_t count = causes_of(row), first = count + (row->added != NULL);
    for (uint32_t i = 0; i < count; i++)
        if (!is_among(v, row->causes[i], first))
            fail_msg("%s: %s is not among the first %u", row->symptom, row->causes[i], first);
    if (row->added != NULL) assert_true(is_among(v, row->added, first));
    tt_case_free(c);
}

static void check_rows(const chart_row *rows, size_t count)
{
    arena *keep = test_arena();
    tt_book *book = load_book(keep);
    for (size_t i = 0; i < count; i++) check_row(book, &rows[i]);
    tt_book_free(book);
    arena_free(keep);
}

#define PUMP(name)   name " of well-pump"
#define GAS(name)    name " of gas-unit"
#define FEED(name)   name " of acid-pump"
#define SLURRY(name) name " of lime-feeder"

/* outside-check: four symptoms of progressive-cavity pumps lead to the causes of their rows
 * source: MIL-HDBK-1164 (1997), UFC 3-230-02 (2001), table 13
 * standing: VERIFIED
 */
static void progressive_cavity_pumps(void **state)
{
    (void)state;
    static const chart_row rows[] = {
        {PUMP("no-water"),
         PUMP("delivery"),
         "nothing",
         {PUMP("shaft-broken"), PUMP("head-too-high"), PUMP("suction-plugged"),
          PUMP("suction-uncovered")}, /* "plugged or nonsubmerged suction" */
         NULL},
        {PUMP("less-than-rated"),
         PUMP("delivery"),
         "less",
         {PUMP("speed-low"), PUMP("suction-lift-high"), PUMP("suction-plugged"),
          PUMP("mechanical-defect")},
         NULL},
        {PUMP("stops-after-start"),
         PUMP("delivery"),
         "stops",
         {PUMP("shaft-bent"), PUMP("suction-plugged")},
         NULL},
    };
    check_rows(rows, sizeof rows / sizeof *rows);
}

/* The chart's third row is about a pump that does deliver. */
static const char *const low_pressure[] = {PUMP("head-too-high"), PUMP("speed-low"),
                                           PUMP("relief-set-low"), PUMP("mechanical-defect")};

/* outside-check: pressure that is too low, at a pump that delivers, leads to the causes of its row
 * source: MIL-HDBK-1164 (1997), UFC 3-230-02 (2001), table 13, third row
 * standing: VERIFIED
 */
static void pressure_is_too_low(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_book *book = load_book(keep);
    tt_case *c;
    const tt_view *v;
    assert_int_equal(tt_case_new(book, NULL, &c), TT_OK);
    answer(book, c, "danger", "safe");
    answer(book, c, PUMP("pump-pressure"), "45 psi");
    answer(book, c, PUMP("delivery"), "enough");
    assert_int_equal(tt_look(c, &v), TT_OK);
    for (size_t i = 0; i < sizeof low_pressure / sizeof *low_pressure; i++)
        if (!is_among(v, low_pressure[i], 4)) fail_msg("%s is not among four", low_pressure[i]);
    tt_case_free(c);
    tt_book_free(book);
    arena_free(keep);
}

#define EJECTOR_CAUSES \
    GAS("ejector-water-shut"), GAS("solution-valve-shut"), GAS("ejector-strainer-dirty"), \
        GAS("ejector-dirty"), GAS("solution-line-blocked"), GAS("throat-not-full"), \
        GAS("ejector-water-low")

/* outside-check: no gas flow leads to its eight causes and, as the ninth, to those of the second
 * row source: MIL-HDBK-1164 (1997), UFC 3-230-02 (2001), table 42, first page standing: VERIFIED
 */
static void gas_chlorinators(void **state)
{
    (void)state;
    static const chart_row rows[] = {
        {GAS("no-gas-flow"),
         GAS("gas-flow"),
         "nothing",
         {GAS("gas-valve-shut"), GAS("cylinder-empty"), GAS("gas-filter-dirty"),
          GAS("flowmeter-dirty"), GAS("rate-valve-shut"), GAS("rate-valve-dirty"),
          GAS("regulator-leaks-air"), GAS("regulator-plug-stuck"), EJECTOR_CAUSES},
         NULL},
        {GAS("vacuum-insufficient"), GAS("vacuum-gauge"), "4 inHg", {EJECTOR_CAUSES}, NULL},
        {GAS("vacuum-insufficient"), GAS("vacuum-alarm"), "yes", {EJECTOR_CAUSES}, NULL},
    };
    check_rows(rows, sizeof rows / sizeof *rows);
}

/* outside-check: a chemical pump that runs and gives little leads to the causes of seven steps
 * source: Army TM 10-4610-232-12, table 4-2
 * standing: VERIFIED
 */
static void chemical_feed_pump(void **state)
{
    (void)state;
    static const chart_row row = {
        FEED("feeds-little"),
        FEED("feed-flow"),
        "little",
        {FEED("tank-strainer-dirty"), FEED("level-switch-sticks"), FEED("wrong-chemical"),
         FEED("suction-loose"), FEED("feed-suction-plugged"), FEED("feed-discharge-plugged"),
         FEED("injector-plugged"), FEED("injector-balls-dirty"), FEED("pump-balls-dirty"),
         FEED("feed-electrics"), FEED("priming-valve-faulty"), FEED("diaphragm-torn"),
         FEED("head-cracked"), FEED("feed-pump-worn")},
        FEED("tank-ran-low")};
    check_rows(&row, 1);
}

/* outside-check: a slurry feeder that gives too little leads to the four causes of its item
 * source: Army TM 5-4610-223-12, table 4-2, item 8
 * standing: VERIFIED
 */
static void slurry_feeder(void **state)
{
    (void)state;
    static const chart_row row = {SLURRY("slurry-little"),
                                  SLURRY("slurry-flow"),
                                  "little",
                                  {SLURRY("feeder-water-low"), SLURRY("clutch-slips"),
                                   SLURRY("variators-off"), SLURRY("feeder-clogged")},
                                  NULL};
    check_rows(&row, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(progressive_cavity_pumps),
        cmocka_unit_test(pressure_is_too_low),
        cmocka_unit_test(gas_chlorinators),
        cmocka_unit_test(chemical_feed_pump),
        cmocka_unit_test(slurry_feeder),
    };
    return cmocka_run_group_tests_name("fault charts", tests, NULL, NULL);
}
