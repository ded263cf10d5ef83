/* Pictures come with what they belong to: the whole with the complaint, a question's and its
 * answers', a step's, that of the likeliest cause; and to programs as a drawing that can be put on
 * a page. */
#include "book_folder.h"
#include "talk_kit.h"
#include "testing.h"

#include "base/value.h"
#include "show/turn_fields.h"
#include "test_sources.h"

#define FOLDER "tests/unit/talk/pictured"

static void shows(const tt_picture *p, const char *text)
{
    assert_non_null(p);
    assert_string_equal(p->text, text);
    assert_non_null(strstr(p->svg, "<svg xmlns="));
}

static void each_turn_has_its_own(void **state)
{
    (void)state;
    tt_book *b = book_folder(FOLDER);
    record_folder *f = record_folder_new();
    told_talk t = talk_open(b, f, "east", NULL, NULL, "2026-11-29T09:00:00+01:00");
    assert_null(turn_of(&t)->picture);
    const tt_turn *turn = choose(&t, "no");
    assert_turn(turn, TT_TURN_COMPLAINT);
    shows(turn->picture, "Both pumps");
    /* from the top; names are those of the choices */
    assert_int_equal(turn->picture->area_count, 2);
    assert_string_equal(turn->picture->areas[0].name, "hums");
    assert_string_equal(turn->picture->areas[0].text, "Pump hums");
    assert_string_equal(turn->picture->areas[1].name, "leaks");
    for (uint32_t i = 0; i < 2; i++) assert_true(turn_offers(turn, turn->picture->areas[i].name));
    turn = choose(&t, "none");
    while (turn->kind == TT_TURN_QUESTION && strcmp(turn->subject, "puddle") != 0)
        turn = choose(&t, "still"); /* of one pump or the other */
    assert_turn(turn, TT_TURN_QUESTION);
    shows(turn->picture, "A puddle");
    shows(turn->choices[0].picture, "As wide as a door");
    assert_null(turn->choices[1].picture);
    turn = choose(&t, "wide");
    while (turn->kind == TT_TURN_QUESTION) turn = choose(&t, "unsure");
    assert_turn(turn, TT_TURN_BEFORE_FIX);
    shows(turn->picture, "A worn seal");
    turn = choose(&t, "begin");
    assert_turn(turn, TT_TURN_FIX_STEP);
    assert_null(turn->picture);
    shows(choose(&t, "done")->picture, "The seal in its seat");
    talk_close(&t);
    record_folder_free(f);
    tt_book_free(b);
}

static void programs_get_the_drawing(void **state)
{
    (void)state;
    tt_book *b = book_folder(FOLDER);
    arena *a = test_arena();
    record_folder *f = record_folder_new();
    told_talk t = talk_open(b, f, "east", NULL, NULL, "2026-11-29T09:00:00+01:00");
    const tt_turn *turn = choose(&t, "no");
    const turn_about about = {.book = b, .number = 2, .case_number = "", .text = "all"};
    const tt_value shown = turn_value(a, turn, &about);
    const tt_value *picture = value_get(&shown, "picture"), *areas = value_get(picture, "areas");
    assert_string_equal(value_text(picture, "file"), "all.svg");
    assert_string_equal(value_text(picture, "text"), "Both pumps");
    assert_string_equal(value_text(picture, "svg"),
                        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 100 60\">"
                        "<rect x=\"1\" y=\"1\" width=\"9\" height=\"9\"/></svg>");
    assert_int_equal(areas->count, 2);
    assert_string_equal(value_text(&areas->items[1], "name"), "leaks");
    talk_close(&t);
    record_folder_free(f);
    arena_free(a);
    tt_book_free(b);
}

/* A drawing with a fault makes the book faulty, at the place in the drawing. */
static void what_a_drawing_does_is_no_book(void **state)
{
    (void)state;
    arena *a = test_arena();
    const str rules = file_bytes(a, TT_SOURCE_DIR "/" FOLDER "/rules.yaml"),
              all = file_bytes(a, TT_SOURCE_DIR "/" FOLDER "/all.svg");
    const char *puddle = "<svg viewBox='0 0 9 9'><circle r='4' onclick=''/></svg>";
    const tt_source files[] = {{"all.svg", all.p, all.n},
                               {"puddle.svg", puddle, strlen(puddle)},
                               {"rules.yaml", rules.p, rules.n}};
    tt_book *b;
    tt_report *report;
    assert_int_equal(tt_book_load(files, 3, &b, &report), TT_FAULTY);
    assert_int_equal(tt_report_errors(report), 1);
    const tt_fault fault = tt_report_fault(report, 0);
    assert_string_equal(fault.code, "T153");
    assert_string_equal(fault.file, "puddle.svg");
    assert_int_equal(fault.line, 1);
    assert_int_equal(fault.column, 38);
    tt_report_free(report);
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_turn_has_its_own),
        cmocka_unit_test(programs_get_the_drawing),
        cmocka_unit_test(what_a_drawing_does_is_no_book),
    };
    return cmocka_run_group_tests_name("talk pictures", tests, NULL, NULL);
}
