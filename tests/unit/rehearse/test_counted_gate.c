/* What rules danger out may be read off or counted: in a made-up call it comes safe, by a number
 * that can be read, whichever range is safe. */
#include <stdio.h>
#include <string.h>

#include "small_book.h"
#include "testing.h"

static const char *const forms[] = {"count: alarms", "reading: volume\n    unit: ml",
                                    "reading: temperature\n    unit: degC"};
static const char *const units[] = {"", " ml", " degC"};
static const char *const ranges[] = {"at most 3", "at most 0", "below 4", "below 1",
                                     "above 2",   "above 3",   "2 to 4",  "at least 9"};

static tt_book *book_with(int form, const char *range, bool plausible)
{
    char text[1024], limits[64] = "";
    if (plausible) snprintf(limits, sizeof limits, "    plausible: 0 to 10%s\n", units[form]);
    snprintf(
        text, sizeof text,
        "book: {title: Gate, roles: [anybody]}\nquestions:\n  alarms:\n"
        "    ask: How much is it?\n    %s\n    about: today\n    takes: 1 min\n%s    safe: %s%s\n"
        "  hum:\n    ask: Does it hum?\n"
        "symptoms:\n  hums: {text: Hums, when: {hum: yes}, heard: [hums], shown-by: {worn: "
        "often}}\n"
        "causes:\n  worn: {text: Worn}\n"
        "fixes:\n  mend: {text: Mend, role: anybody, cures: {worn: usually}, harm: none, "
        "put-back: not needed, takes: 5 min}\n",
        forms[form], limits, range, units[form]);
    return small_book(text);
}

static void assert_opens(tt_book *book, const char *what)
{
    const tt_rehearsal_options options = {.seed = 1, .role = TT_NONE};
    tt_rehearsal *r;
    const tt_rehearsed *all;
    tt_drill *d;
    const tt_view *v;
    const char *seen;
    assert_int_equal(tt_rehearsal_new(book, &options, &r), TT_OK);
    if (tt_rehearsal_play(r, 0, 5) != TT_OK) fail_msg("%s: can't be played", what);
    assert_int_equal(tt_rehearsal_look(r, &all), TT_OK);
    assert_true(all->all.calls.of > 0);
    tt_rehearsal_free(r);
    assert_int_equal(tt_drill_new(book, &(tt_drill_options){.seed = 1, .role = TT_NONE}, &d),
                     TT_OK);
    if (tt_drill_ask(d, tt_question_find(book, "alarms"), &seen) != TT_OK)
        fail_msg("%s: can't be asked", what);
    assert_int_equal(tt_look(tt_drill_case(d), &v), TT_OK);
    if (v->gate.state != TT_GATE_OPEN) fail_msg("%s: %s is not safe", what, seen);
    tt_drill_free(d);
}

static void every_safe_range_opens(void **state)
{
    (void)state;
    for (int form = 0; form < 3; form++)
        for (size_t i = 0; i < sizeof ranges / sizeof *ranges; i++)
            for (int plausible = 0; plausible < 2; plausible++) {
                tt_book *book = book_with(form, ranges[i], plausible == 1);
                assert_opens(book, ranges[i]);
                tt_book_free(book);
            }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_safe_range_opens)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
