/* A sheet on paper from what stands in it: each thing that whoever goes on has to see is there, in
 * its words, and what there is none of leaves no heading behind. */
#include "paper/sheet.h"
#include "shown_text.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static const shown_sheet bare = {
    .head = {.number = "000001A",
             .kind = "fault",
             .state = "open",
             .begun = "",
             .last = "",
             .closed = "",
             .to = "",
             .to_text = "",
             .until = "",
             .handed_to = "",
             .handed_to_text = "",
             .confirmed = "",
             .role = "",
             .role_text = "",
             .caller = ""},
    .rulebook = {"Drier", "1", "0123abcd", "en", true},
    .next = {.what = "ask", .question = "Does it hum?", .stop = "", .call = "", .call_text = ""}};

static void assert_sheet(const shown_sheet *sheet, const char *has, const char *lacks)
{
    shown_text *s = show_at(0);
    arena *keep = host_arena();
    sheet_on_paper(s->on.out, &paper_of_text, keep, sheet);
    const char *text = shown(s);
    if (has != NULL) assert_shows(text, has);
    if (lacks != NULL) assert_shows_not(text, lacks);
    arena_free(keep);
    shown_free(s);
}

static void how_it_stands(void **state)
{
    (void)state;
    static const struct {
        const char *state, *closed, *line;
    } rows[] = {{"open", "", "State: Open\n"},
                {"on-hold", "", "State: Open, on hold\n"},
                {"waiting", "", "State: Open, waits for somebody who was called\n"},
                {"closed", "gone", "State: Closed: the trouble is gone\n"},
                {"called", "call", "State: Closed: handed to somebody else\n"},
                {"stopped", "stop", "State: Closed: stopped for danger\n"},
                {"made-safe", "made-safe", "State: Closed\n"},
                {"elsewhere", "elsewhere", "State: Closed\n"}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        shown_sheet sheet = bare;
        sheet.head.state = rows[i].state;
        sheet.head.closed = rows[i].closed;
        assert_sheet(&sheet, rows[i].line, NULL);
    }
}

/* ---- what comes next ---- */

static void a_gate_is_asked_once_more(void **state)
{
    (void)state;
    static const char *const safe[] = {"No", "Not here"};
    static const sheet_gate gates[] = {{"Is there smoke?", safe, 2}};
    static const char first[] = "First ask: Is there smoke?",
                      only[] = "Go on only if the answer is: No, Not here.";
    shown_sheet sheet = bare;
    sheet.gates = gates;
    sheet.gates_count = 1;
    assert_sheet(&sheet, first, NULL);
    assert_sheet(&sheet, only, NULL);
    sheet.next.question = "Is there smoke?"; /* it is what is asked: not twice */
    assert_sheet(&sheet, only, first);
    sheet.next = (sheet_next){"call", "", NULL, "", "fitter", "The fitter"};
    assert_sheet(&sheet, "There is nothing left that is worth trying without help.", first);
    sheet.next = (sheet_next){"stop", "", NULL, "Stop: it burns.", "", ""};
    assert_sheet(&sheet, "!!! STOP: Stop: it burns.", first);
}

static const char *const one[] = {"one thing"};

static void a_fix_with_what_can_hurt(void **state)
{
    (void)state;
    sheet_next_fix fix = {.name = "swap",
                          .text = "Swap the seal",
                          .role = "fitter",
                          .role_text = "The fitter",
                          .hazards = one,
                          .hazards_count = 1};
    shown_sheet sheet = bare;
    sheet.next = (sheet_next){"fix", "", &fix, "", "", ""};
    assert_sheet(&sheet, ">>> Try: Swap the seal\n", "Step by step");
    assert_sheet(&sheet, "What can hurt there: one thing\n", NULL);
    fix.steps = one;
    fix.steps_count = 1;
    assert_sheet(&sheet, "Every step is in the appendix", "Not before it is made safe");
    fix.isolate = one;
    fix.isolate_count = 1;
    assert_sheet(&sheet, "Not before it is made safe: every step is in the appendix", NULL);
    sheet.next.what = "put back";
    assert_sheet(&sheet, ">>> Put back before anything else: Swap the seal\n", NULL);
}

static void what_helped_where_it_is_known(void **state)
{
    (void)state;
    static const sheet_tried tried[] = {{.name = "swap",
                                         .text = "Swap the seal",
                                         .outcome = "it helped",
                                         .different = "",
                                         .put_back = "",
                                         .cured = "A worn seal",
                                         .together = ""}};
    shown_sheet sheet = bare;
    sheet.next.what = "nothing";
    assert_sheet(&sheet, "Nothing: the trouble is gone.\n", "What helped");
    sheet.tried = tried;
    sheet.tried_count = 1;
    assert_sheet(&sheet, "What helped: Swap the seal\nWhat it most likely was: A worn seal\n",
                 "Not as it was found");
}

/* Whoever is called may do more than whoever asked. */
static void what_whoever_is_called_may_begin_with(void **state)
{
    (void)state;
    shown_fix fixes[] = {
        {"wipe", "Wipe it", "low", .5, 2, "helper", "The helper", "worth trying", false, NULL, 0},
        {"swap", "Swap the seal", "low", .5, 2, "fitter", "The fitter", "needs another role", true,
         one, 1}};
    shown_sheet sheet = bare;
    sheet.next = (sheet_next){"call", "", NULL, "", "fitter", "The fitter"};
    sheet.fixes = fixes;
    sheet.fixes_count = 2;
    assert_sheet(&sheet, "They may begin with: Swap the seal\n", "Nothing is to be tried until");
    sheet.fixes_count = 1;
    assert_sheet(&sheet, "Fixes left", "They may begin with");
    fixes[0].held = true;
    assert_sheet(&sheet, "Nothing is to be tried until danger is ruled out.", NULL);
    sheet.next.what = "nothing";
    assert_sheet(&sheet, NULL, "Fixes left");
}

/* ---- whom to call ---- */

enum { MANY = 8 };

static void the_one_who_is_wanted_stands_first(void **state)
{
    (void)state;
    tt_contact all[MANY] = {{"fitter", "", "east", "555 0100", "", "The fitter"},
                            {"", "parts", "store", "555 0101", "by day", "The store"}};
    shown_sheet sheet = bare;
    sheet.contacts = all;
    sheet.contacts_count = 2;
    static const char fitter[] = "- The fitter\n  Telephone: 555 0100\n",
                      store[] = "- The store\n  Telephone: 555 0101\n  When: by day\n";
    char both[2 * sizeof store];
    snprintf(both, sizeof both, "%s%s", fitter, store);
    assert_sheet(&sheet, both, "Call:");
    sheet.next = (sheet_next){"call", "", NULL, "", "parts", "The store"};
    snprintf(both, sizeof both, "%s%s", store, fitter);
    assert_sheet(&sheet, both, NULL);
    sheet.next = (sheet_next){"call", "", NULL, "", "", "Somebody from outside"};
    assert_sheet(&sheet, both, NULL);
    assert_sheet(&sheet, ">>> Call: Somebody from outside\n", "in all");
    for (int i = 2; i < MANY; i++) all[i] = all[0];
    sheet.contacts_count = MANY;
    assert_sheet(&sheet, "The site names 8 in all; its file has the others.\n", NULL);
}

/* ---- what is different ---- */

static void what_is_not_as_it_was_found(void **state)
{
    (void)state;
    static const sheet_tried tried[] = {
        {"turn", "Turn the knob", "no", false, true, "", "", "", "", NULL},
        {"open", "Open the valve", "no", false, false, "The valve is open", "", "", "", NULL},
        {"lift", "Lift the lid", "not known", true, false, "", "Close the lid", "", "", NULL}};
    static const sheet_unfinished begun = {"swap", "Swap the seal", one, 0};
    shown_sheet sheet = bare;
    sheet.tried = tried;
    sheet.tried_count = 1;
    assert_sheet(&sheet, "no; put back as found", "Not as it was found");
    sheet.tried_count = 3;
    assert_sheet(&sheet,
                 "- Stays so: The valve is open\n"
                 "- To be put back: Close the lid (after: Lift the lid)\n",
                 "Begun and not finished");
    assert_sheet(&sheet, "not known; not finished", NULL);
    sheet.tried_count = 1;
    sheet.unfinished = &begun;
    assert_sheet(&sheet, "!!! Begun and not finished: Swap the seal\n", "Done of it so far");
    sheet.unfinished = &(sheet_unfinished){"swap", "Swap the seal", one, 1};
    assert_sheet(&sheet,
                 "Done of it so far. What is locked stays locked until whoever locked it is\n"
                 "there:\n\n- one thing\n",
                 NULL);
}

/* ---- what was said ---- */

static sheet_step step(const char *kind, const char *mark)
{
    return (sheet_step){.time = "2026-11-29T09:12:00Z",
                        .by = "east",
                        .writer = "0123456789ab",
                        .kind = kind,
                        .about = "",
                        .text = "Does it hum?",
                        .result = "No",
                        .typed = "",
                        .setting = "",
                        .from = "",
                        .to = "",
                        .mark = mark};
}

static void each_mark_in_words(void **state)
{
    (void)state;
    static const char *const marks[][2] = {
        {"taken-back", "no: taken back"},
        {"settled", "no: two said different things, and the other one was right"},
        {"told-twice", "once: somebody else told the same"},
        {"damaged", "no: the record is damaged"},
        {"left-out", "no: left out, the rules no longer know it"},
        {"replaced", "no: replaced by a later answer"},
        {"read-again", "as it was then: asked again after a fix"}};
    for (size_t i = 0; i < COUNT(marks); i++) {
        const sheet_step steps[] = {step("answer", marks[i][0])};
        char line[128];
        snprintf(line, sizeof line, "  Answer: No\n  Counts: %s\n", marks[i][1]);
        shown_sheet sheet = bare;
        sheet.steps = steps;
        sheet.steps_count = 1;
        assert_sheet(&sheet, line, "Who:");
    }
}

/* What the last one wrote for whoever goes on; a case that is closed needs none. */
static void the_last_note_stands_at_the_top(void **state)
{
    (void)state;
    sheet_step steps[] = {step("hold", ""), step("hand-over", ""), step("answer", "")};
    steps[0].text = "an old note";
    steps[1].text = "look at the valve";
    steps[1].by = "west";
    shown_sheet sheet = bare;
    sheet.steps = steps;
    sheet.steps_count = 3;
    assert_sheet(&sheet, ">>> west: look at the valve\n", ">>> east: an old note");
    assert_sheet(&sheet, "  Who: west\n", NULL);
    sheet.head.state = "closed";
    sheet.head.closed = "gone";
    assert_sheet(&sheet, NULL, ">>> west: look at the valve");
}

static void what_is_known_of_the_site(void **state)
{
    (void)state;
    static const sheet_fact facts[] = {
        {.name = "air", .text = "The air", .value = "30 psi", .from = "site", .source = "by day"},
        {.name = "flow",
         .text = "The flow",
         .value = "9",
         .from = "site",
         .source = "",
         .reckoned = true},
        {.name = "age",
         .text = "The age",
         .value = "not known",
         .from = "site",
         .source = "",
         .unknown = true},
        {.name = "none", .text = "Nothing of it", .value = "", .from = "site", .source = ""},
        {.name = "cold", .text = "It is cold", .value = "", .from = "rule", .source = ""},
        {.name = "a - b",
         .text = "The difference",
         .value = "1",
         .from = "quantity",
         .source = ""}};
    shown_sheet sheet = bare;
    sheet.facts = facts;
    sheet.facts_count = COUNT(facts);
    assert_sheet(&sheet, "Known of this site\n..................\n\n- The air 30 psi (by day)\n\n",
                 "The flow");
    assert_sheet(&sheet,
                 "What follows from the answers\n.............................\n\n"
                 "- It is cold\n\n",
                 "The difference");
}

static void what_the_answers_leave_open(void **state)
{
    (void)state;
    static const shown_cause causes[] = {{"worn", "Worn", .6, ""}, {"", "Not listed", .4, ""}};
    shown_sheet sheet = bare;
    sheet.causes = causes;
    sheet.causes_count = 2;
    sheet.all_ruled_out = true;
    assert_sheet(&sheet, "The answers rule out every listed fault.", "it is the first");
    sheet.likely = (shown_likely){1, .95};
    assert_sheet(&sheet, "With a chance of 95 % it is the first.", NULL);
    sheet.likely = (shown_likely){7, .9};
    assert_sheet(&sheet, "only 7 causes together have a chance of 90 %", NULL);
    sheet.nothing_wrong = true;
    assert_sheet(&sheet, "Nothing here is out of order, as far as it was looked at.", NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(how_it_stands),
        cmocka_unit_test(a_gate_is_asked_once_more),
        cmocka_unit_test(a_fix_with_what_can_hurt),
        cmocka_unit_test(what_helped_where_it_is_known),
        cmocka_unit_test(what_whoever_is_called_may_begin_with),
        cmocka_unit_test(the_one_who_is_wanted_stands_first),
        cmocka_unit_test(what_is_not_as_it_was_found),
        cmocka_unit_test(each_mark_in_words),
        cmocka_unit_test(the_last_note_stands_at_the_top),
        cmocka_unit_test(what_is_known_of_the_site),
        cmocka_unit_test(what_the_answers_leave_open),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
