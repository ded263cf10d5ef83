/* `cases`: what it lists, finds and counts, without a book; its numbers; its lines for programs
 * and for a narrow screen. */
#include "run_telltale.h"

#include "summary/case_list.h"
#include "summary/cases_counts.h"
#include "window.h"

#include <math.h>

static int fresh(void **state)
{
    (void)state;
    return sh("rm -rf cases book out err && mkdir cases && cp -r $WELL book");
}

static int session(const char *lines, const char *more)
{
    return sh("printf '%s\\n' | $T ask --cases cases book %s >out 2>err", lines, more);
}

static void note_number(const char *file)
{
    assert_int_equal(sh("sed -n 's/^Case number: //p' out | head -1 >%s && test -s %s", file, file),
                     0);
}

/* From the complaint that is meant to what was the cause, and that it is so. */
#define CURED \
    "\\n1\\nunsure\\nright\\nbegin\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone" \
    "\\nunsure\\ngone\\n1"

/* One left at a fix, one whose trouble is gone and confirmed. */
static void make_two(void)
{
    assert_int_equal(session("no\\nshort cycling\\n1\\nunsure\\nright\\nstop", ""), 3);
    note_number("left");
    assert_int_equal(session("no\\nmurmurs and then SHORT CYCLING" CURED, ""), 0);
    note_number("gone");
}

static int cases(const char *more)
{
    return sh("$T cases cases --full %s >out 2>err", more);
}

static void it_says_where_cases_stand_without_their_book(void **state)
{
    (void)state;
    make_two();
    assert_int_equal(sh("rm -r book"), 0);
    assert_int_equal(cases(""), 0);
    assert_int_equal(sh("grep -qx \"Case $(cat left), open\" out && grep -qx \"Case $(cat gone), "
                        "closed, the trouble is gone\" out"),
                     0);
    assert_holds("out", "  Complaint: The pump starts and stops (said: short cycling)");
    assert_holds("out", "  Next: Charge the tank with air");
    assert_holds("out", "  Left by: ");
    assert_holds("out", "  Cause: The tank has lost its air cushion (confirmed)");
    assert_holds("out", "Cases: 2");
    assert_holds("out", "  - The tank has lost its air cushion: 1, 1 of them confirmed");
    assert_int_equal(sh("test ! -s err"), 0);
}

static void the_command_it_shows_goes_on(void **state)
{
    (void)state;
    make_two();
    assert_int_equal(cases("--state open"), 0);
    assert_int_equal(sh("sed -n 's/^    \\(.* ask --case .*\\)/\\1/p' out >command; printf "
                        "'no\\nright\\n' | eval \"$(cat command)\" >again"),
                     3);
    assert_holds("again", "Try this: Charge the tank with air");
    assert_int_equal(sh("sed -i '$d' cases/*/*/*/*.jsonl"), 0); /* as if it had been killed */
    assert_int_equal(cases("--state open"), 0);
    assert_holds("out", "  With: ");
}

static void count_is(const char *options, int wanted)
{
    assert_int_equal(cases(options), 0);
    if (sh("test \"$(grep -c '^Case ' out)\" = %d && grep -qx 'Cases: %d' out", wanted, wanted) !=
        0) {
        char *text = contents("out");
        print_error("%s:\n%s", options, text);
        free(text);
        fail();
    }
}

static void it_finds_by_what_is_asked_for(void **state)
{
    (void)state;
    make_two();
    count_is("--state open", 1);
    count_is("--state closed", 1);
    count_is("--state open,closed", 2);
    count_is("--state 'on hold'", 0);
    count_is("--text 'cycling Murmurs'", 1);
    count_is("--text 'smoke no'", 2);
    count_is("--text 'House well'", 0); /* the book's title is not the case's word */
    count_is("--text 'murmurs absent'", 0);
    count_is("--cause AIR", 1);
    count_is("--cause tank-waterlogged", 1);
    count_is("--at nowhere", 0);
    count_is("--since 2020-02-29", 2);
    count_is("--since 2020-02-29 --until 2020-03-01", 0);
    count_is("--until \"$(date +%Y-%m-%d)\"", 2);
    count_is("--since \"$(date -d '2 days' +%Y-%m-%d)\"", 0);
    count_is("--case \"$(cat left)\"", 1);
    count_is("--case \"$(cat left)\" --state closed", 0);
}

static void what_is_written_wrongly_is_said(void **state)
{
    (void)state;
    make_two();
    assert_int_equal(cases("--since 2025-02-29"), 2);
    assert_holds("err", "--since 2025-02-29 is no day");
    assert_int_equal(cases("--since yesterday"), 2);
    assert_int_equal(cases("--since 2025-02-02 --until 2025-02-01"), 2);
    static const char *const wrong[][2] = {
        {"--since 2025/02/02", "is no day"},
        {"--since 2025-02/02", "is no day"},
        {"--since 25-02-02-02", "is no day"},
        {"--since 2025-13-01", "is no day"},
        {"--until 2025--1-01", "--until 2025--1-01 is no day"},
        {"--until 2025-01-0x", "is no day"},
        {"--since=-025-01-01", "--since -025-01-01 is no day"},
        {"--since 2025-01-010", "is no day"},
        {"--since 2025-01-1", "is no day"},
        {"--since ''", "is no day"},
        {"--until 2025-01---", "is no day"},
        {"--kind drill", "There are: fault, round, record"},
        {"--kind fault,faults", "faults is no kind"},
        {"--state open,", "is no state"},
        {"--sort listed", "There are: began, moved, site, state, until"},
        {"--by day", "There is: --by month"},
        {"--limit 0", "is no number of cases"},
        {"--limit -1", "is no number of cases"},
        {"--limit 2x", "is no number of cases"},
        {"--limit ''", "is no number of cases"},
        {"--limit 99999999999999999999", "is no number of cases"},
        {"--ended-for -1", "is no number of days"},
        {"--ended-for 9d", "is no number of days"},
        {"--ended-for ''", "is no number of days"},
        {"--ended-for 999999999999", "is no number of days"},
        {"--case ''", "number"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        if (cases(wrong[i][0]) != 2) fail_msg("%s is taken", wrong[i][0]);
        assert_holds("err", wrong[i][1]);
    }
    count_is("--kind round,fault", 2);
    count_is("--text '  smoke   no '", 2); /* words, however they are parted */
    assert_int_equal(cases("--state opened"), 2);
    assert_holds("err", "There are: open, on-hold, waiting, closed, called, stopped, made-safe");
    assert_int_equal(cases("--case 123"), 2);
    assert_int_equal(sh("n=$(cut -c1-6 left); l=$(cut -c7 left); $T cases cases --case $n$(echo $l "
                        "| tr A-Z B-ZA) 2>err"),
                     2);
    assert_holds("err", "the letter doesn't fit");
    assert_int_equal(sh("$T cases nowhere 2>err"), 66);
    assert_int_equal(sh("rm -r cases/* && $T cases cases --case $(cat left) 2>err"), 66);
}

static void no_cases_yet_is_no_mistake(void **state)
{
    (void)state;
    assert_int_equal(sh("XDG_DATA_HOME=$PWD/none $T cases >out 2>err && grep -qx 'Cases: 0' out && "
                        "test ! -s err"),
                     0);
}

static void a_case_taken_up_again_is_open(void **state)
{
    (void)state;
    make_two();
    assert_int_equal(sh("printf '2\\nno\\nstop\\n' | $T ask --cases cases --case $(cat gone) >out"),
                     3);
    count_is("--state open", 2);
    count_is("--state closed", 0);
    assert_int_equal(cases("--json"), 0);
    assert_int_equal(
        sh("tail -1 out | grep -q '\"tried\":0,' && tail -1 out | grep -q '\"cause\":null'"), 0);
}

/* Another writer's last record, made from ours: `how` it differs, and what he had seen. */
static void confirm_elsewhere(const char *cause, const char *seen)
{
    assert_int_equal(sh("f=$(ls cases/*/*/*/*.jsonl | grep -v 0000aaaa0000 | head -1); grep "
                        "'\"confirm\"' $f | tail -1 | sed -E "
                        "'s/\"writer\":\"[^\"]*\",\"seq\":[0-9]+/"
                        "\"writer\":\"0000aaaa0000\",\"seq\":1/; "
                        "s/\"before\":\"[^\"]*\",\"seen\":\\{[^}]*\\}/\"before\":\"\",\"seen\":%s/;"
                        " s/\"data\":.*/\"data\":{\"how\":\"other\",\"cause\":\"%s\"}}/' "
                        ">$(dirname $f)/0000aaaa0000.jsonl",
                        seen, cause),
                     0);
}

static void causes_that_contradict_are_not_confirmed(void **state)
{
    (void)state;
    assert_int_equal(session("no\\nshort cycling" CURED, ""), 0);
    assert_int_equal(sh("tail -qn 1 cases/*/*/*/*.jsonl | grep -q '\"seen\":{'"), 0);
    confirm_elsewhere("tank-waterlogged", "{}");
    assert_int_equal(cases(""), 0);
    assert_holds("out", "  Cause: The tank has lost its air cushion (confirmed)");
    confirm_elsewhere("leak-after-tank", "{}");
    assert_int_equal(cases(""), 0);
    assert_holds("out", "  Cause: to settle, different ones were named");
    assert_int_equal(sh("f=$(ls cases/*/*/*/*.jsonl | grep -v 0000aaaa0000); sed -i "
                        "\"s/\\\"seen\\\":{}/\\\"seen\\\":{\\\"$(basename $f "
                        ".jsonl)\\\":99}/; s/\\\"lamport\\\":[0-9]*/\\\"lamport\\\":99/\" "
                        "cases/*/*/*/0000aaaa0000.jsonl"),
                     0);
    assert_int_equal(cases(""), 0);
    assert_holds("out", "  Cause: leak-after-tank (confirmed)"); /* who said it knew of the other */
}

/* Two desks name different causes, not knowing of each other, and a third knows one of them: the
 * list, the sheet and learning say the same. */
static void a_third_desk_settles_nothing(void **state)
{
    (void)state;
    assert_int_equal(session("no\\nshort cycling" CURED, ""), 0);
    confirm_elsewhere("leak-after-tank", "{}");
    assert_int_equal(
        sh("cd cases/*/*/*/ && first=$(ls | grep -v 0000aaaa0000) && sed "
           "\"s/0000aaaa0000/0000bbbb0000/; s/\\\"lamport\\\":[0-9]*/\\\"lamport\\\":99/; "
           "s/\\\"seen\\\":{}/\\\"seen\\\":{\\\"${first%%.jsonl}\\\":99}/\" 0000aaaa0000.jsonl "
           ">0000bbbb0000.jsonl"),
        0);
    assert_int_equal(sh("grep -q '\"seen\":{\"' cases/*/*/*/0000bbbb0000.jsonl"), 0);
    assert_int_equal(cases("--json"), 0);
    assert_int_equal(sh("grep -q '\"cause\":null,\"cause_disputed\":true' out"), 0);
    assert_int_equal(sh("$T sheet cases/*/*/* --json | grep -q '\"confirmed\": null'"), 0);
    assert_int_equal(sh("$T learn book --cases cases --json | grep -q '\"unconfirmed\": 1,'"), 0);
}

/* Somebody leaves a note, another looks in and stops: it stands till the case goes on. */
static void a_look_wipes_no_note(void **state)
{
    (void)state;
    assert_int_equal(session("no\\nshort cycling\\n1\\nhold\\nback at noon", ""), 3);
    note_number("left");
    assert_int_equal(sh("printf 'stop\\n' | $T ask --cases cases --case $(cat left) >out"), 3);
    count_is("--state on-hold", 1);
    assert_holds("out", "  Note: back at noon");
    assert_int_equal(sh("printf 'no\\nhand over\\nthe night shift\\nlook at the gauge\\n' | $T ask "
                        "--cases cases --case $(cat left) >out"),
                     3);
    assert_int_equal(sh("printf 'stop\\n' | $T ask --cases cases --case $(cat left) >out"), 3);
    count_is("--state open", 1);
    assert_holds("out", "  For: the night shift");
    assert_holds("out", "  Note: look at the gauge");
}

static void every_end_has_its_state(void **state)
{
    (void)state;
    assert_int_equal(session("yes\\nI do this now, and wait for help", ""), 3);
    assert_int_equal(session("no\\nshort cycling\\n1\\nhold\\nback at noon", ""), 3);
    assert_int_equal(
        session("no\\nshort cycling\\n1\\nhand over\\nthe night shift\\nlook at the gauge", ""), 3);
    count_is("--state waiting", 1);
    assert_holds("out", ", waiting for somebody who was called\n");
    assert_holds("out", "  Next: Leave the room and close the door.\n");
    count_is("--state on-hold", 1);
    assert_holds("out", "  Note: back at noon");
    count_is("--state open", 1);
    assert_holds("out", "  For: the night shift");
    assert_holds("out", "  Note: look at the gauge");
    count_is("--text noon", 1);
    assert_int_equal(session("no\\nshort cycling" CURED, ""), 0);
    static const char *const once_closed[][2] = {{"call", "--state called"},
                                                 {"stop", "--state stopped"}};
    for (unsigned i = 0; i < 2; i++) {
        count_is(once_closed[i][1], 0);
        assert_int_equal(
            sh("sed -Ei 's/\"how\":\"(gone|call)\"/\"how\":\"%s\"/' cases/*/*/*/*.jsonl",
               once_closed[i][0]),
            0);
        count_is(once_closed[i][1], 1);
    }
    assert_holds("out", "stopped for safety");
}

/* Records as they were kept before they held words. */
static void older_cases_are_listed_too(void **state)
{
    (void)state;
    make_two();
    assert_int_equal(sh("sed -Ei "
                        "'s/"
                        ",?\"(asked|words|text|fix|fix_text|cause|cause_text|next|site_title)\":("
                        "\"[^\"]*\"|null)//g; s/\\{,/{/g' cases/*/*/*/*"),
                     0);
    assert_int_equal(cases(""), 0);
    assert_holds("out", "  Complaint: short-cycling (said: short cycling)");
    assert_holds("out", "  Last step: tank-gauge");
    assert_holds("out", "  Cause: not kept");
    assert_holds("out", "Cases: 2");
}

static void damage_is_said_and_the_rest_is_read(void **state)
{
    (void)state;
    make_two();
    assert_int_equal(
        sh("f=$(ls -d cases/*/*/* | head -1)/*.jsonl; printf '{\"version\":1,\"case' >>$(echo $f);"
           " mkdir -p cases/2026/01/019b1b48-9420-7e45-8172-00002235a41d; mkdir -p "
           "cases/2026/01/no-case cases/notes"),
        0);
    assert_int_equal(cases(""), 0);
    assert_holds("out", "Left out: 1 lines that can't be used");
    assert_holds("out", "with nothing in it that can be read");
    assert_holds("out", "Cases: 3");
    assert_holds("out", "Lines that can't be used: 1");
    count_is("--state unreadable", 1);
}

static void for_programs_a_line_each(void **state)
{
    (void)state;
    make_two();
    assert_int_equal(cases("--json"), 0);
    assert_int_equal(sh("test \"$(wc -l <out)\" = 2 && head -1 out | grep -q "
                        "\"\\\"case\\\":\\\"$(cat left)\\\".*\\\"is\\\":\\\"next\\\"\""),
                     0);
    assert_int_equal(cases("--json --count"), 0);
    assert_int_equal(sh("test \"$(wc -l <out)\" = 1 && grep -q '\"cases\":2,' out"), 0);
}

/* Through a terminal of 40 cells: nothing is wider, but commands to be copied. */
static void on_a_narrow_screen_nothing_is_cut_off(void **state)
{
    (void)state;
    make_two();
    const char *const words[] = {"cases", "--full", "cases", NULL};
    window *w =
        window_open(&(window_plan){.words = words, .rows = 24, .columns = 40, .copy = "shown"});
    assert_int_equal(window_close(w), 0);
    assert_int_equal(sh("tr -d '\\r' <shown >wide"), 0);
    assert_int_equal(sh("grep -v 'ask --case' wide | grep -E '^.{41}'"), 1);
    assert_int_equal(sh("grep -q '^Cases: 2' wide && grep -q \"^Case $(cat gone), closed\" wide"),
                     0);
}

/* ---- the parts ---- */

/* Seven values, worked by hand: places 1 + 6/4 and 1 + 18/4 are halfway between two values. */
static void quartiles_lie_between_cases(void **state)
{
    (void)state;
    static const double minutes[] = {60, 10, 40, 20, 30, 100, 50};
    case_summary all[8];
    memset(all, 0, sizeof all);
    for (size_t i = 0; i < 8; i++)
        all[i] = (case_summary){.says = {.state = TT_CASE_CLOSED,
                                         .minutes = i < 7 ? minutes[i] : (double)NAN,
                                         .title = "",
                                         .cause = "",
                                         .cause_name = i < 3 ? "a" : "b",
                                         .confirmed = i == 0}};
    cases_counts counts = cases_count(&(case_list){.cases = all, .count = 8});
    assert_int_equal(counts.minutes.count, 7);
    assert_true(counts.minutes.low == 25 && counts.minutes.median == 40 &&
                counts.minutes.high == 55);
    assert_int_equal(counts.cause_count, 2);
    assert_string_equal(counts.causes[0].name, "b");
    assert_int_equal(counts.causes[0].count, 5);
    assert_int_equal(counts.causes[0].minutes.count, 4);
    assert_true(counts.causes[1].minutes.median == 40 && counts.causes[1].confirmed == 1);
    cases_counts_free(&counts);
}

/* The fast way and the slow way say the same: a blank more, which JSON allows, makes a line go the
 * slow way. */
static void both_ways_of_reading_agree(void **state)
{
    (void)state;
    make_two();
    assert_int_equal(cases("--json"), 0);
    assert_int_equal(
        sh("mv out fast && sed -i 's/\"version\":1/\"version\": 1/' cases/*/*/*/*.jsonl"), 0);
    assert_int_equal(cases("--json"), 0);
    assert_same("out", "fast");
}

/* Of a round nobody says what is wrong, and none is waited for. */
static void a_round_is_called_one(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf cases; printf 'no\\nstop\\n' | $T round '" TT_SOURCE_DIR
                        "/rules/foam-line' --cases cases >out 2>err"),
                     3);
    assert_int_equal(sh("$T cases cases --kind round >out 2>err"), 0);
    assert_holds("out", ": a round. ");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(it_says_where_cases_stand_without_their_book, fresh),
        cmocka_unit_test_setup(the_command_it_shows_goes_on, fresh),
        cmocka_unit_test_setup(it_finds_by_what_is_asked_for, fresh),
        cmocka_unit_test_setup(what_is_written_wrongly_is_said, fresh),
        cmocka_unit_test_setup(no_cases_yet_is_no_mistake, fresh),
        cmocka_unit_test_setup(a_case_taken_up_again_is_open, fresh),
        cmocka_unit_test_setup(causes_that_contradict_are_not_confirmed, fresh),
        cmocka_unit_test_setup(a_third_desk_settles_nothing, fresh),
        cmocka_unit_test_setup(a_look_wipes_no_note, fresh),
        cmocka_unit_test_setup(every_end_has_its_state, fresh),
        cmocka_unit_test_setup(older_cases_are_listed_too, fresh),
        cmocka_unit_test_setup(damage_is_said_and_the_rest_is_read, fresh),
        cmocka_unit_test_setup(for_programs_a_line_each, fresh),
        cmocka_unit_test_setup(on_a_narrow_screen_nothing_is_cut_off, fresh),
        cmocka_unit_test(quartiles_lie_between_cases),
        cmocka_unit_test(a_round_is_called_one),
        cmocka_unit_test_setup(both_ways_of_reading_agree, fresh),
    };
    return cmocka_run_group_tests_name("cases", tests, NULL, NULL);
}
