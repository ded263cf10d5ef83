/* Quantities in a case: known once their readings are, asked by way of what is missing, undone
 * exactly. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "open_gate.h"
#include "small_book.h"

#define HEAD "book:\n  title: Line\n  roles: [helper, technician]\n"
#define READING(name, what, in) \
    "  " name ":\n    ask: " name "?\n    reading: " what "\n    unit: " in "\n"

/* Speed from rate and pitch, a set point by the season, and a pressure judged by it. */
static const char line[] =
    HEAD "questions:\n" READING("rate", "rate", "cars/h") "    takes: 2 min\n" READING(
        "pitch", "length",
        "ft") "    takes: 3 min\n" READING("gauge", "pressure",
                                           "psi") "    plausible: 0 to 150 psi\n    takes: 30 "
                                                  "min\n" READING("set", "pressure",
                                                                  "psi") "    about: the site\n  "
                                                                         "winter:\n    ask: "
                                                                         "Winter?\n    about: "
                                                                         "today\n"
                                                                         "  look:\n    ask: "
                                                                         "Look?\n    answers: "
                                                                         "{dry: Dry, wet: Wet}\n   "
                                                                         " usual: wet\n    takes: "
                                                                         "50 min\n"
                                                                         "quantities:\n"
                                                                         "  speed:\n    text: Line "
                                                                         "speed\n    formula: rate "
                                                                         "* pitch\n    unit: "
                                                                         "ft/min\n    usual: 25 to "
                                                                         "45 ft/min\n"
                                                                         "  target:\n    text: "
                                                                         "Pressure to set\n    "
                                                                         "formula:\n      - when: "
                                                                         "{winter: yes}\n        "
                                                                         "is: set + 5 psi\n      - "
                                                                         "is: set\n"
                                                                         "    unit: psi\n"
                                                                         "symptoms:\n"
                                                                         "  fast:\n    text: Too "
                                                                         "fast\n    when: {speed: "
                                                                         "above 45 ft/min}\n    "
                                                                         "shown-by: {line-fast: "
                                                                         "almost always}\n"
                                                                         "  off:\n    text: Off "
                                                                         "its set point\n    when: "
                                                                         "{any: [{gauge: above "
                                                                         "target + 3 psi}, {gauge: "
                                                                         "below target - 3 psi}]}\n"
                                                                         "    shown-by: "
                                                                         "{regulator: almost "
                                                                         "always}\n"
                                                                         "  dry:\n    when: {look: "
                                                                         "dry}\n    shown-by: "
                                                                         "{line-fast: sometimes, "
                                                                         "regulator: often}\n"
                                                                         "causes:\n  line-fast: "
                                                                         "{text: Fast}\n  "
                                                                         "regulator: {text: "
                                                                         "Regulator}\n"
                                                                         "fixes:\n"
                                                                         "  slow:\n    text: Slow "
                                                                         "down from {speed, "
                                                                         "m/min}\n    role: "
                                                                         "helper\n    cures: "
                                                                         "{line-fast: usually}\n   "
                                                                         " takes: 60 min\n    "
                                                                         "harm: none\n    "
                                                                         "put-back: not needed\n"
                                                                         "  speed-drive:\n    "
                                                                         "text: Set the drive\n    "
                                                                         "role: helper\n    cures: "
                                                                         "{line-fast: often}\n    "
                                                                         "takes: 90 min\n    harm: "
                                                                         "none\n    put-back: not "
                                                                         "needed\n"
                                                                         "  regulate:\n    text: "
                                                                         "Turn to {target, psi}\n  "
                                                                         "  role: helper\n    "
                                                                         "cures: {regulator: "
                                                                         "usually}\n    takes: 60 "
                                                                         "min\n    harm: none\n    "
                                                                         "put-back: not needed\n";

typedef struct bench {
    tt_book *book;
    tt_case *c;
} bench;

static bench begin(const char *yaml)
{
    bench b = {small_book(yaml), NULL};
    assert_int_equal(tt_case_new(b.book, NULL, &b.c), TT_OK);
    open_gate(b.c);
    return b;
}

static void end(bench b)
{
    tt_case_free(b.c);
    tt_book_free(b.book);
}

static const tt_view *look(bench b)
{
    const tt_view *v;
    assert_int_equal(tt_look(b.c, &v), TT_OK);
    return v;
}

static uint32_t question(bench b, const char *name)
{
    uint32_t q = tt_question_find(b.book, name);
    if (q == TT_NONE) fail_msg("no question %s", name);
    return q;
}

static void say(bench b, const char *name, const char *typed)
{
    tt_reply reply;
    const char *why;
    if (tt_reply_read(b.c, question(b, name), typed, &reply, &why) != TT_OK)
        fail_msg("%s: %s", typed, why);
    assert_int_equal(tt_answer(b.c, question(b, name), &reply), TT_OK);
}

static void say_kind(bench b, const char *name, tt_reply_kind kind)
{
    assert_int_equal(tt_answer(b.c, question(b, name), &(tt_reply){.kind = kind}), TT_OK);
}

static void try(bench b, const char *fix, tt_outcome outcome)
{
    assert_int_equal(tt_fix_tried(b.c, tt_fix_find(b.book, fix), outcome), TT_OK);
}

/* Null if nothing is known of it. */
static const tt_fact *fact(bench b, const char *name)
{
    const tt_view *v = look(b);
    for (uint32_t i = 0; i < v->fact_count; i++)
        if (strcmp(v->facts[i].name, name) == 0) return &v->facts[i];
    return NULL;
}

static void assert_number(bench b, const char *name, double number)
{
    const tt_fact *f = fact(b, name);
    if (f == NULL || !f->is_number) fail_msg("%s is not known", name);
    if (!(fabs(f->number - number) <= 1e-12 * fabs(number)))
        fail_msg("%s is %.17g, not %.17g", name, f->number, number);
}

static void assert_unknown(bench b, const char *name)
{
    const tt_fact *f = fact(b, name);
    if (f != NULL && f->is_number) fail_msg("%s is %.17g", name, f->number);
}

static double chance(bench b, const char *cause)
{
    const tt_view *v = look(b);
    for (uint32_t i = 0; i < v->cause_count; i++)
        if (v->causes[i].name != NULL && strcmp(v->causes[i].name, cause) == 0)
            return v->causes[i].chance;
    fail_msg("no cause %s", cause);
    return 0;
}

/* The next question is `name`, asked for `quantity` (null: for itself). */
static void assert_asks(bench b, const char *name, const char *quantity)
{
    const tt_view *v = look(b);
    assert_int_equal(v->step, TT_ASK);
    tt_question q;
    assert_int_equal(tt_question_show(b.c, v->next.question, &q), TT_OK);
    assert_string_equal(q.name, name);
    if (quantity == NULL)
        assert_int_equal(v->next.quantity, TT_NONE);
    else
        assert_int_equal(v->next.quantity, question(b, quantity));
}

/* ---- known once its readings are ---- */

static void a_quantity_is_known_once_its_readings_are(void **state)
{
    (void)state;
    bench b = begin(line);
    say(b, "rate", "120");
    assert_null(fact(b, "speed"));
    say(b, "pitch", "20 ft");
    assert_number(b, "speed", 40);
    assert_string_equal(fact(b, "speed")->from, "quantity");
    assert_string_equal(fact(b, "speed")->text, "40 ft/min");
    assert_null(fact(b, "fast"));
    say(b, "pitch", "8 m");
    assert_number(b, "speed", 8 / 0.3048 * 2);
    assert_string_equal(fact(b, "fast")->value, "shown");
    end(b);
}

static void its_state_counts_like_an_answer_to_it(void **state)
{
    (void)state;
    bench readings = begin(line), direct = begin(line);
    say(readings, "rate", "180");
    say(readings, "pitch", "20 ft");
    say(direct, "speed", "60 ft/min");
    assert_true(chance(readings, "line-fast") > 0.8);
    assert_float_equal(chance(readings, "line-fast"), chance(direct, "line-fast"), 0);
    assert_string_equal(fact(direct, "speed")->from, "answer");
    end(readings);
    end(direct);
}

static void what_is_not_certain_leaves_it_not_known(void **state)
{
    (void)state;
    bench b = begin(line);
    double before = chance(b, "line-fast");
    say(b, "pitch", "20 ft");
    say_kind(b, "rate", TT_UNSURE);
    assert_null(fact(b, "speed"));
    assert_float_equal(chance(b, "line-fast"), before, 0);
    say_kind(b, "rate", TT_CANNOT);
    assert_null(fact(b, "speed"));
    assert_float_equal(chance(b, "line-fast"), before, 0);
    end(b);
}

static void an_answer_taken_back_leaves_no_trace(void **state)
{
    (void)state;
    bench b = begin(line);
    say(b, "gauge", "60");
    double before = chance(b, "line-fast"), bits = look(b)->next.bits;
    say(b, "rate", "180");
    say(b, "pitch", "20 ft");
    assert_true(chance(b, "line-fast") > before);
    assert_int_equal(tt_undo(b.c), TT_OK);
    assert_null(fact(b, "speed"));
    assert_int_equal(tt_undo(b.c), TT_OK);
    assert_float_equal(chance(b, "line-fast"), before, 0);
    assert_float_equal(look(b)->next.bits, bits, 0);
    say(b, "rate", "180");
    say(b, "pitch", "20 ft");
    assert_int_equal(tt_retract(b.c, question(b, "rate")), TT_OK);
    assert_null(fact(b, "speed"));
    assert_float_equal(chance(b, "line-fast"), before, 0);
    end(b);
}

/* ---- an answer to the quantity itself ---- */

static void an_answer_to_the_quantity_stands(void **state)
{
    (void)state;
    bench b = begin(line);
    say(b, "speed", "30 ft/min");
    say(b, "rate", "180");
    say(b, "pitch", "20 ft");
    assert_number(b, "speed", 30);
    assert_int_equal(tt_retract(b.c, question(b, "speed")), TT_OK);
    assert_number(b, "speed", 60);
    end(b);
}

static void not_sure_of_the_quantity_asks_for_no_reading_of_it_but_takes_them(void **state)
{
    (void)state;
    bench b = begin(line);
    assert_asks(b, "rate", "speed");
    say_kind(b, "speed", TT_UNSURE);
    assert_int_not_equal(look(b)->next.quantity, question(b, "speed"));
    assert_string_equal(fact(b, "speed")->value, "unsure");
    say(b, "rate", "180");
    say(b, "pitch", "20 ft");
    assert_number(b, "speed", 60);
    end(b);
}

static void can_t_be_done_of_the_quantity_gives_way_to_its_readings(void **state)
{
    (void)state;
    bench b = begin(line);
    say_kind(b, "speed", TT_CANNOT);
    say(b, "rate", "180");
    say(b, "pitch", "20 ft");
    assert_string_equal(fact(b, "speed")->text, "60 ft/min");
    end(b);
}

/* ---- cases of a formula ---- */

static void the_first_case_that_holds_gives_the_value(void **state)
{
    (void)state;
    bench b = begin(line);
    say(b, "set", "45 psi");
    assert_null(fact(b, "target"));
    say(b, "winter", "no");
    assert_number(b, "target", 45);
    say(b, "winter", "yes");
    assert_number(b, "target", 50);
    say_kind(b, "winter", TT_UNSURE);
    assert_null(fact(b, "target"));
    end(b);
}

static const char steps[] = HEAD "questions:\n" READING("rate", "rate", "cars/h") READING(
    "pace", "rate",
    "cars/h") "  look:\n    ask: Look?\n    answers: {dry: Dry, wet: Wet, odd: Odd}\n"
              "quantities:\n"
              "  q:\n    text: Q\n    formula:\n"
              "      - when: {any: [{rate: above 100 cars/h}, {pace: below 10 cars/h}]}\n        "
              "is: 1\n"
              "      - when: {at-least: {count: 2, of: [{rate: at least 50 cars/h}, {pace: 20 to "
              "30 cars/h}, {look: odd}]}}\n        is: 2\n"
              "      - when: {none: [{look: dry}, {rate: below 5 cars/h}]}\n        is: 3\n"
              "      - when: {look: {not: [wet]}, rate: known}\n        is: 4\n"
              "symptoms:\n  s:\n    text: S\n    when: {q: 1 to 2}\n    shown-by: {a: often}\n"
              "  d:\n    text: D\n    when: {look: dry}\n    shown-by: {a: often}\n"
              "causes:\n  a: {text: A}\n  b: {text: B}\n"
              "fixes:\n  f:\n    text: F\n    role: helper\n    cures: {a: usually}\n    takes: 60 "
              "min\n    harm: none\n    put-back: not needed\n"
              "  g:\n    text: G\n    role: helper\n    cures: {b: usually}\n    takes: 60 min\n   "
              " harm: none\n    put-back: not needed\n";

static void cases_are_three_valued(void **state)
{
    (void)state;
    static const struct {
        const char *rate, *pace, *look;
        double value; /* 0: not known */
    } table[] = {
        {"101", NULL, NULL, 1}, {"100", NULL, NULL, 0},  {"100", "9", NULL, 1},
        {"100", "10", NULL, 0}, {"100", "10", "odd", 2}, {"50", "20", NULL, 2},
        {"50", "30", "dry", 2}, {"50", "31", "odd", 2},  {"49", "31", "odd", 3},
        {"50", "31", "wet", 3}, {"4", "31", "wet", 0},   {"4", "31", "dry", 4},
        {"5", "31", "dry", 4},  {NULL, "9", "dry", 1},   {NULL, "31", "dry", 0},
    };
    (void)state;
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        bench b = begin(steps);
        if (table[i].rate != NULL) say(b, "rate", table[i].rate);
        if (table[i].pace != NULL) say(b, "pace", table[i].pace);
        if (table[i].look != NULL) say(b, "look", table[i].look);
        const tt_fact *f = fact(b, "q");
        double got = f == NULL ? 0 : f->number;
        if (got != table[i].value) fail_msg("line %zu: %g", i, got);
        end(b);
    }
}

static void what_nobody_can_tell_is_not_asked_for_and_another_may_decide(void **state)
{
    (void)state;
    bench b = begin(steps);
    say_kind(b, "look", TT_UNSURE);
    assert_asks(b, "rate", "q");
    say_kind(b, "rate", TT_UNSURE);
    assert_asks(b, "pace", "q");
    say(b, "pace", "50");
    assert_int_not_equal(look(b)->step, TT_ASK);
    end(b);
}

#define LOAD_FAULTS \
    "symptoms:\n  s:\n    text: S\n    when: {load: above 100 psi}\n    shown-by: {a: almost " \
    "always}\n" \
    "causes:\n  a: {text: A}\n  b: {text: B}\n" \
    "fixes:\n  f:\n    text: F\n    role: helper\n    cures: {a: usually}\n    takes: 60 min\n   " \
    " harm: none\n    put-back: not needed\n" \
    "  g:\n    text: G\n    role: helper\n    cures: {b: usually}\n    takes: 60 min\n    harm: " \
    "none\n    put-back: not needed\n"

/* The reading stands in the formula and decides the case of another quantity in it: it is asked
 * for, once. */
static void a_reading_may_be_missing_twice(void **state)
{
    (void)state;
    static const char book[] = HEAD "questions:\n" READING(
        "gauge", "pressure",
        "psi") "quantities:\n  pull:\n    text: Pull\n    formula:\n"
               "      - when: {gauge: above 50 psi}\n        is: 2\n      - is: 3\n"
               "  load:\n    text: Load\n    formula: gauge * pull\n    unit: psi\n" LOAD_FAULTS;
    bench b = begin(book);
    assert_asks(b, "gauge", "load");
    say(b, "gauge", "40 psi");
    assert_number(b, "load", 120);
    end(b);
}

/* `low` and `high` rest on `twice`. That nobody can tell `low` takes nothing from what `high`
 * needs. */
static void what_is_in_vain_for_one_is_not_for_another(void **state)
{
    (void)state;
    static const char book[] = HEAD "questions:\n" READING("gauge", "pressure", "psi")
        READING("left", "pressure", "psi") READING(
            "right", "pressure",
            "psi") "quantities:\n  twice:\n    text: Twice\n    formula: 2 * gauge\n    unit: psi\n"
                   "  low:\n    text: Low\n    formula: twice + left\n    unit: psi\n"
                   "  high:\n    text: High\n    formula: twice + right\n    unit: psi\n"
                   "  load:\n    text: Load\n    formula:\n"
                   "      - when: {any: [{low: above 50 psi}, {high: above 50 psi}]}\n        is: "
                   "120 psi\n      - is: 10 psi\n"
                   "    unit: psi\n" LOAD_FAULTS;
    bench b = begin(book);
    say_kind(b, "left", TT_UNSURE);
    assert_asks(b, "gauge", "load");
    say(b, "gauge", "10 psi");
    assert_asks(b, "right", "load");
    say(b, "right", "40 psi");
    assert_number(b, "load", 120);
    end(b);
}

/* Nobody answers a difference that a comparison makes: by its name it is as unknown as any other.
 */
static void what_a_comparison_makes_has_no_name_to_be_answered_by(void **state)
{
    (void)state;
    static const char answers[] = "gauge - target: 5 psi\n";
    bench b = begin(line);
    tt_report *report;
    const tt_source file = {"answers.yaml", answers, sizeof answers - 1};
    assert_int_equal(tt_answers_load(b.c, &file, &report), TT_FAULTY);
    assert_non_null(strstr(tt_report_text(report), "The book has no question 'gauge - target'"));
    assert_null(strstr(tt_report_text(report), "Did you mean 'gauge - target"));
    tt_report_free(report);
    end(b);
}

/* ---- what is typed ---- */

static void assert_told(bench b, const char *name, const char *typed, tt_status status,
                        const char *told)
{
    tt_reply reply;
    const char *why;
    assert_int_equal(tt_reply_read(b.c, question(b, name), typed, &reply, &why), status);
    assert_string_equal(why, told);
}

/* No share of 0 or of everything is one part to some of water, and a count may be larger than any
 * machine counts. */
static void numbers_at_the_edge_are_taken_as_they_are(void **state)
{
    (void)state;
    static const char book[] = HEAD "questions:\n" READING("gauge", "pressure", "psi")
        READING("mix", "dilution", "\"1:N\"") "  bays:\n    ask: How many bays?\n    count: bays\n"
                                              "quantities:\n  load:\n    text: Load\n    formula: "
                                              "2 * gauge\n    unit: psi\n" LOAD_FAULTS;
    bench b = begin(book);
    assert_told(b, "mix", "1:50", TT_OK,
                "1:50: product is 1.96 % of the mix, 1 part to 50 of water.");
    assert_told(b, "mix", "0 %", TT_OK, "");
    assert_told(b, "mix", "100 %", TT_OK, "");
    assert_told(b, "bays", "100000000000000000000000", TT_OK, "");
    assert_told(b, "bays", "2.5", TT_FAULTY,
                "Type how many there are as a whole number, for example 3.");
    end(b);
}

/* ---- no value ---- */

static const char ratio[] = HEAD "questions:\n" READING("top", "length", "ft") READING(
    "bottom", "length",
    "ft") "  look:\n    ask: Look?\n    answers: {dry: Dry, wet: Wet}\n"
          "quantities:\n  share:\n    text: Share\n    formula: top / bottom\n"
          "  root:\n    text: Root\n    formula: sqrt(share)\n"
          "  big:\n    text: Big\n    formula: share * share * share * share * share * share * "
          "share * share * share * share * share * share * share * share * share * share\n"
          "symptoms:\n  s:\n    text: S\n    when: {share: above 2}\n    shown-by: {a: often}\n"
          "  r:\n    text: R\n    when: {root: above 20}\n    shown-by: {a: often}\n"
          "  h:\n    text: H\n    when: {big: above 1000000}\n    shown-by: {b: often}\n"
          "  d:\n    when: {look: dry}\n    shown-by: {b: often}\n"
          "causes:\n  a: {text: A}\n  b: {text: B}\n"
          "fixes:\n  f:\n    text: F\n    role: helper\n    cures: {a: usually, b: usually}\n    "
          "harm: none\n    put-back: not needed\n";

/* A value that the gauge's unit still holds, but not the one that people at the site read. */
static void what_no_unit_could_show_has_no_value(void **state)
{
    (void)state;
    static const char book[] = HEAD
        "  show: [mm3]\n"
        "questions:\n" READING(
            "side", "length",
            "km") "quantities:\n  load:\n    text: Load\n    formula: side * side * side * 0.001 "
                  "bar / 1 km^3\n    unit: bar\n"
                  "  room:\n    text: Room\n    formula: side * side * side\n    unit: km^3\n"
                  "symptoms:\n  s:\n    text: S\n    when: {room: above 5 km^3}\n    shown-by: {a: "
                  "often}\n"
                  "  t:\n    text: T\n    when: {load: above 5 bar}\n    shown-by: {b: often}\n"
                  "causes:\n  a: {text: A}\n  b: {text: B}\n"
                  "fixes:\n  f:\n    text: Make it {room, mm^3}\n    role: helper\n    cures: {a: "
                  "usually, b: usually}\n    harm: none\n    put-back: not needed\n";
    bench b = begin(book);
    tt_answer(b.c, question(b, "side"), &(tt_reply){.kind = TT_NUMBER, .number = 1e98});
    assert_string_equal(fact(b, "room")->text, "not known: the number is too large");
    assert_string_equal(fact(b, "load")->text, "not known: the number is too large");
    tt_answer(b.c, question(b, "side"), &(tt_reply){.kind = TT_NUMBER, .number = 1e9});
    assert_true(fact(b, "room")->is_number);
    end(b);
}

static void what_has_no_value_is_not_known_and_says_why(void **state)
{
    (void)state;
    bench b = begin(ratio);
    double before = chance(b, "a");
    say(b, "bottom", "0");
    assert_string_equal(fact(b, "share")->text, "not known: it divides by zero");
    assert_int_equal(look(b)->next.quantity, TT_NONE);
    say(b, "top", "3");
    assert_string_equal(fact(b, "share")->value, "not known");
    assert_string_equal(fact(b, "share")->from, "quantity");
    assert_false(fact(b, "share")->is_number);
    assert_float_equal(chance(b, "a"), before, 0);
    say(b, "bottom", "-1");
    assert_number(b, "share", -3);
    assert_non_null(strstr(fact(b, "root")->text, "not known: "));
    say(b, "bottom", "0.00000000000000000001");
    assert_non_null(strstr(fact(b, "big")->text, "not known: "));
    say(b, "bottom", "1");
    assert_number(b, "root", sqrt(3));
    end(b);
}

/* ---- asking for what is missing ---- */

static void missing_readings_are_asked_by_way_of_the_quantity(void **state)
{
    (void)state;
    bench b = begin(line);
    assert_asks(b, "rate", "speed");
    const tt_reason *reasons;
    uint32_t count;
    assert_int_equal(tt_why_asked(b.c, question(b, "rate"), &reasons, &count), TT_OK);
    bool told = false, meant = false;
    for (uint32_t i = 0; i < count; i++) {
        told |= strcmp(reasons[i].text, "It is one of the readings for: Line speed.") == 0;
        meant |= strncmp(reasons[i].text,
                         "If that comes to 'above 45 ft/min', the likeliest is: Fast", 58) == 0;
    }
    assert_true(told && meant);
    say(b, "rate", "150");
    assert_asks(b, "pitch", "speed");
    say(b, "pitch", "20 ft");
    assert_int_not_equal(look(b)->next.quantity, question(b, "speed"));
    end(b);
}

static void their_minutes_are_added(void **state)
{
    (void)state;
    char text[8192];
    snprintf(text, sizeof text, "%s", line);
    char *minutes = strstr(text, "    takes: 3 min\n");
    memcpy(minutes, "    takes: 9 min\n", strlen("    takes: 9 min\n"));
    bench cheap = begin(line), dear = begin(text);
    /* look takes 50 minutes; speed 2 + 3 or 2 + 9, and its worth is the same */
    assert_float_equal(look(cheap)->next.bits, look(dear)->next.bits, 0);
    assert_true(look(cheap)->next.saves_minutes > look(dear)->next.saves_minutes);
    end(cheap);
    end(dear);
}

static void a_reading_that_nobody_can_tell_makes_the_others_useless(void **state)
{
    (void)state;
    bench b = begin(line);
    say_kind(b, "rate", TT_UNSURE);
    for (int i = 0; i < 8 && look(b)->step == TT_ASK; i++) {
        assert_int_not_equal(look(b)->next.question, question(b, "pitch"));
        say_kind(b, look(b)->next.question == question(b, "look") ? "look" : "gauge", TT_UNSURE);
        if (look(b)->step == TT_ASK && look(b)->next.question == question(b, "winter"))
            say_kind(b, "winter", TT_UNSURE);
        if (look(b)->step == TT_ASK && look(b)->next.question == question(b, "set"))
            say_kind(b, "set", TT_UNSURE);
    }
    end(b);
}

/* A reading that applies only where there is a gauge: whether there is one is asked before. */
static const char waits[] = HEAD "questions:\n" READING(
    "gauge", "pressure", "psi") "    only-when: {has-gauge: yes}\n    takes: 4 "
                                "min\n" READING("set", "pressure",
                                                "psi") "    about: the site\n"
                                                       "  has-gauge:\n    ask: Is there a "
                                                       "gauge?\n    about: the site\n"
                                                       "symptoms:\n  high:\n    text: "
                                                       "High\n    when: {gauge: above set + "
                                                       "5 psi}\n    shown-by: {a: almost "
                                                       "always}\n"
                                                       "causes:\n  a: {text: A}\n  b: "
                                                       "{text: B}\n"
                                                       "fixes:\n  f:\n    text: F\n    "
                                                       "role: helper\n    cures: {a: "
                                                       "usually}\n    harm: none\n    "
                                                       "put-back: not needed\n    takes: 60 "
                                                       "min\n"
                                                       "  g:\n    text: G\n    role: "
                                                       "helper\n    cures: {b: usually}\n   "
                                                       " harm: none\n    put-back: not "
                                                       "needed\n    takes: 60 min\n";

static void the_fact_a_reading_waits_for_comes_first(void **state)
{
    (void)state;
    bench b = begin(waits);
    const tt_view *v = look(b);
    assert_int_equal(v->step, TT_ASK);
    assert_int_equal(v->next.question, question(b, "has-gauge"));
    assert_int_not_equal(v->next.quantity, TT_NONE);
    say(b, "has-gauge", "no");
    assert_int_not_equal(look(b)->step, TT_ASK);
    say(b, "has-gauge", "yes");
    assert_int_equal(look(b)->next.question, question(b, "gauge"));
    say(b, "gauge", "55");
    assert_int_equal(look(b)->next.question, question(b, "set"));
    say(b, "set", "50");
    assert_string_equal(fact(b, "gauge - set")->text, "5 psi");
    assert_null(fact(b, "high"));
    say(b, "set", "49.9");
    assert_non_null(fact(b, "high"));
    end(b);
}

/* ---- after a fix that helped ---- */

static void better_makes_quantities_and_their_readings_stale(void **state)
{
    (void)state;
    bench b = begin(line);
    say(b, "rate", "180");
    say(b, "pitch", "20 ft");
    say(b, "look", "dry");
    try(b, "slow", TT_BETTER);
    assert_unknown(b, "speed");
    assert_true(fact(b, "rate")->stale);
    assert_true(fact(b, "pitch")->stale);
    assert_null(fact(b, "fast"));
    say(b, "rate", "90");
    assert_unknown(b, "speed");
    say(b, "pitch", "20 ft");
    assert_number(b, "speed", 30);
    end(b);
}

static void what_became_stale_is_asked_again_by_way_of_the_quantity(void **state)
{
    (void)state;
    bench b = begin(line);
    say(b, "rate", "180");
    say(b, "pitch", "20 ft");
    say_kind(b, "look", TT_UNSURE);
    say_kind(b, "gauge", TT_UNSURE);
    try(b, "slow", TT_BETTER);
    assert_int_equal(look(b)->next.quantity,
                     question(b, "speed")); /* the best to ask, be it worth asking or not */
    assert_int_equal(look(b)->next.question, question(b, "rate"));
    say(b, "rate", "180");
    assert_int_equal(look(b)->next.question, question(b, "pitch"));
    end(b);
}

static void a_quantity_given_directly_becomes_stale_too(void **state)
{
    (void)state;
    bench b = begin(line);
    say(b, "speed", "60 ft/min");
    say(b, "look", "dry");
    try(b, "slow", TT_BETTER);
    assert_unknown(b, "speed");
    say(b, "rate", "90");
    say(b, "pitch", "20 ft");
    assert_number(b, "speed", 30);
    end(b);
}

static void a_fact_of_the_site_does_not_become_stale(void **state)
{
    (void)state;
    bench b = begin(line);
    say(b, "gauge", "60");
    say(b, "set", "45");
    say(b, "winter", "no");
    try(b, "regulate", TT_BETTER);
    assert_true(fact(b, "gauge")->stale);
    assert_number(b, "target", 45);
    assert_unknown(b, "gauge - target");
    end(b);
}

/* ---- fixes ---- */

static void texts_show_it_in_the_unit_they_ask_for(void **state)
{
    (void)state;
    bench b = begin(line);
    tt_fix_plan plan;
    assert_int_equal(tt_fix_show(b.c, tt_fix_find(b.book, "slow"), &plan), TT_OK);
    assert_string_equal(plan.text, "Slow down from not known yet");
    say(b, "rate", "150");
    say(b, "pitch", "20 ft");
    assert_int_equal(tt_fix_show(b.c, tt_fix_find(b.book, "slow"), &plan), TT_OK);
    assert_string_equal(plan.text, "Slow down from 15.24 m/min");
    end(b);
}

static const char waiting_fix[] = HEAD "questions:\n" READING("rate", "rate", "cars/h")
    READING("pitch", "length",
            "ft") "  look:\n    ask: Look?\n    answers: {dry: Dry, wet: Wet}\n    usual: wet\n"
                  "quantities:\n  speed:\n    text: Line speed\n    formula: rate * pitch\n    "
                  "unit: ft/min\n"
                  "symptoms:\n  dry:\n    when: {look: dry}\n    shown-by: {a: almost always}\n"
                  "causes:\n  a: {text: A}\n"
                  "fixes:\n  slow:\n    text: Slow down\n    only-when: {speed: above 20 ft/min}\n "
                  "   role: helper\n    cures: {a: usually}\n    harm: none\n"
                  "    put-back: not needed\n";

static void a_fix_that_waits_for_a_quantity_has_its_readings_asked(void **state)
{
    (void)state;
    bench b = begin(waiting_fix);
    say(b, "look", "dry");
    assert_int_equal(look(b)->step, TT_ASK);
    assert_int_equal(look(b)->next.question, question(b, "rate"));
    say(b, "rate", "90");
    assert_int_equal(look(b)->next.question, question(b, "pitch"));
    say(b, "pitch", "20 ft");
    assert_int_equal(look(b)->step, TT_FIX);
    say(b, "pitch", "5 ft");
    assert_int_equal(look(b)->fix_count, 0);
    end(b);
}

static const char adjusted[] =
    HEAD "questions:\n" READING("gauge", "pressure", "psi") "    plausible: 0 to 150 psi\n" READING(
        "set", "pressure",
        "psi") "    about: the site\n"
               "  look:\n    ask: Look?\n    answers: {dry: Dry, wet: Wet}\n    usual: wet\n"
               "quantities:\n  excess:\n    text: Too much\n    formula: gauge - set\n    unit: "
               "psi\n"
               "symptoms:\n  high:\n    text: High\n    when: {excess: above 5 psi}\n    shown-by: "
               "{a: often}\n"
               "  dry:\n    when: {look: dry}\n    shown-by: {a: often, b: sometimes}\n"
               "causes:\n  a: {text: A}\n  b: {text: B}\n"
               "fixes:\n  lower:\n    text: Lower it from {excess}\n    role: helper\n    cures: "
               "{a: usually}\n    harm: none\n"
               "    adjust: {reading: gauge, by: -5 psi, within: 20 to 100 psi, at-most: 4 "
               "times}\n    look-again: [excess, look]\n"
               "    put-back: Set it back to {gauge as found}.\n";

static void while_a_setting_is_changed_evidence_stays_as_found(void **state)
{
    (void)state;
    bench b = begin(adjusted);
    say(b, "set", "40");
    say(b, "gauge", "50");
    say(b, "look", "dry");
    double found = chance(b, "a");
    try(b, "lower", TT_BETTER);
    assert_number(b, "excess", 5);
    assert_null(fact(b, "high"));
    assert_float_equal(chance(b, "a"), found, 0);
    try(b, "lower", TT_BETTER);
    assert_number(b, "excess", 0);
    assert_float_equal(chance(b, "a"), found, 0);
    try(b, "lower", TT_NO_CHANGE);
    assert_int_equal(look(b)->step, TT_PUT_BACK);
    assert_int_equal(tt_put_back(b.c, tt_fix_find(b.book, "lower")), TT_OK);
    assert_number(b, "excess", 10);
    assert_non_null(fact(b, "high"));
    end(b);
}

static void looking_again_at_a_quantity_is_looking_at_its_readings(void **state)
{
    (void)state;
    bench b = begin(adjusted);
    tt_fix_plan plan;
    assert_int_equal(tt_fix_show(b.c, tt_fix_find(b.book, "lower"), &plan), TT_OK);
    assert_int_equal(plan.look_again_count, 2);
    assert_int_equal(plan.look_again[0], question(b, "gauge"));
    assert_int_equal(plan.look_again[1], question(b, "look"));
    end(b);
}

/* A walk down quantities that rest on each other in many ways is no longer than they are many. */
static void many_ways_down_cost_one_walk(void **state)
{
    (void)state;
    char text[16384];
    size_t n = (size_t)snprintf(
        text, sizeof text,
        HEAD "questions:\n" READING("rate", "rate", "cars/h")
            READING("pitch", "rate",
                    "cars/h") "quantities:\n  a0: {text: Q, formula: rate + pitch, unit: cars/h}\n"
                              "  b0: {text: Q, formula: rate - pitch, unit: cars/h}\n");
    enum { LEVELS = 60 };
    for (int i = 1; i <= LEVELS; i++)
        n += (size_t)snprintf(text + n, sizeof text - n,
                              "  a%d: {text: Q, formula: (a%d + b%d) / 2, unit: cars/h}\n  b%d: "
                              "{text: Q, formula: (a%d - b%d) / 2, unit: cars/h}\n",
                              i, i - 1, i - 1, i, i - 1, i - 1);
    snprintf(
        text + n, sizeof text - n,
        "symptoms:\n  s:\n    text: S\n    when: {a%d: above 0 cars/h}\n    shown-by: {c: often}\n"
        "causes:\n  c: {text: C}\n  d: {text: D}\n"
        "fixes:\n  f:\n    text: F\n    role: helper\n    cures: {c: usually}\n    harm: none\n    "
        "put-back: not needed\n    takes: 60 min\n",
        LEVELS);
    bench b = begin(text);
    assert_int_equal(look(b)->step, TT_ASK);
    say(b, "rate", "8");
    say(b, "pitch", "2");
    assert_non_null(fact(b, "a60"));
    end(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_quantity_is_known_once_its_readings_are),
        cmocka_unit_test(its_state_counts_like_an_answer_to_it),
        cmocka_unit_test(what_is_not_certain_leaves_it_not_known),
        cmocka_unit_test(an_answer_taken_back_leaves_no_trace),
        cmocka_unit_test(an_answer_to_the_quantity_stands),
        cmocka_unit_test(not_sure_of_the_quantity_asks_for_no_reading_of_it_but_takes_them),
        cmocka_unit_test(can_t_be_done_of_the_quantity_gives_way_to_its_readings),
        cmocka_unit_test(the_first_case_that_holds_gives_the_value),
        cmocka_unit_test(cases_are_three_valued),
        cmocka_unit_test(what_nobody_can_tell_is_not_asked_for_and_another_may_decide),
        cmocka_unit_test(what_no_unit_could_show_has_no_value),
        cmocka_unit_test(what_has_no_value_is_not_known_and_says_why),
        cmocka_unit_test(missing_readings_are_asked_by_way_of_the_quantity),
        cmocka_unit_test(their_minutes_are_added),
        cmocka_unit_test(a_reading_that_nobody_can_tell_makes_the_others_useless),
        cmocka_unit_test(the_fact_a_reading_waits_for_comes_first),
        cmocka_unit_test(better_makes_quantities_and_their_readings_stale),
        cmocka_unit_test(what_became_stale_is_asked_again_by_way_of_the_quantity),
        cmocka_unit_test(a_quantity_given_directly_becomes_stale_too),
        cmocka_unit_test(a_fact_of_the_site_does_not_become_stale),
        cmocka_unit_test(texts_show_it_in_the_unit_they_ask_for),
        cmocka_unit_test(a_fix_that_waits_for_a_quantity_has_its_readings_asked),
        cmocka_unit_test(while_a_setting_is_changed_evidence_stays_as_found),
        cmocka_unit_test(looking_again_at_a_quantity_is_looking_at_its_readings),
        cmocka_unit_test(what_a_comparison_makes_has_no_name_to_be_answered_by),
        cmocka_unit_test(numbers_at_the_edge_are_taken_as_they_are),
        cmocka_unit_test(a_reading_may_be_missing_twice),
        cmocka_unit_test(what_is_in_vain_for_one_is_not_for_another),
        cmocka_unit_test(many_ways_down_cost_one_walk),
    };
    return cmocka_run_group_tests_name("quantities in a case", tests, NULL, NULL);
}
