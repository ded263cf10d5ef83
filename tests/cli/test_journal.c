/* Nothing that was answered is lost: end of input, signals, kill -9, torn lines, full disks; and
 * taking a case up again. */
#include "run_telltale.h"

#include <unistd.h>

#include "cut_short.h"
#include "kill_points.h"
#include "skips.h"

static int fresh(void **state)
{
    (void)state;
    return sh("rm -rf cases && mkdir cases");
}

static int session(const char *lines, const char *more)
{
    return sh("printf '%s\\n' | $T ask --cases cases %s >out 2>err", lines, more);
}

/* The number of the only case there is, in "number". */
static void note_number(void)
{
    assert_int_equal(sh("sed -n 's/^Case number: //p' out | head -1 >number && test -s number"), 0);
}

static int resume(const char *lines)
{
    return sh("printf '%s\\n' | $T ask --cases cases --case \"$(cat number)\" >out 2>err", lines);
}

static void end_of_input_keeps_everything(void **state)
{
    (void)state;
    assert_int_equal(session("no\\nshort cycling\\n1", "$WELL"), 3);
    note_number();
    assert_int_equal(
        sh("tail -n 1 out | grep -q \"^'*/.* ask --case $(cat number) --cases '*$PWD/cases'*$\""),
        0);
    assert_int_equal(sh("tail -n 1 out >command && echo no | eval \"$(cat command)\" >again"), 3);
    assert_holds("again", "Trouble: The pump starts and stops\n");
    assert_holds("again", ": Is there smoke at the pump? No\n");
    assert_holds("again", "What does the gauge at the tank read");
}

/* What was safe when the case was left need not be now. */
static void danger_is_asked_again_by_whoever_goes_on(void **state)
{
    (void)state;
    assert_int_equal(session("no\\nshort cycling\\n1", "$WELL"), 3);
    note_number();
    assert_int_equal(resume("yes"), 3); /* now there is smoke */
    assert_holds("out", "Danger first:\nIs there smoke at the pump?");
    assert_holds("out", "Is there smoke at the pump? It was: No. Now: Yes.\n");
    assert_holds("out", "STOP. Nothing else is done until this is safe.");
    assert_int_equal(resume(""), 3);
    assert_holds("out", "STOP. Nothing else is done until this is safe.");
}

static void one_record_a_step(void **state)
{
    (void)state;
    assert_int_equal(session("no\\nshort cycling\\n1\\nback\\nshort cycling\\n1\\nstop", "$WELL"),
                     3);
    sh("cat cases/*/*/*/*.jsonl >lines");
    assert_int_equal(sh("sed -E 's/.*\"kind\":\"([^\"]*)\".*/\\1/' lines | tr '\\n' ' ' >kinds"),
                     0);
    assert_holds("kinds", "begin answer said complaint back said complaint stop ");
    assert_int_equal(sh("test \"$(wc -l <lines)\" = 8"), 0);
    assert_int_equal(
        sh("grep -cE "
           "'^\\{\"version\":1,\"case\":\"[0-9a-f-]{36}\",\"writer\":\"[0-9a-f]{12}\",\"seq\":[0-9]"
           "+,"
           "\"lamport\":[0-9]+,\"time\":\"[0-9]{4}-[0-9-]{5}T[0-9:.]{12}[+-][0-9]{2}:[0-9]{2}\","
           "\"before\":\"([0-9a-f]{64})?\",' lines | grep -qx 8"),
        0);
    assert_int_equal(
        sh("test \"$(sed -n 2p lines | sed -E 's/.*\"before\":\"([0-9a-f]*)\".*/\\1/')\" ="
           " \"$(head -1 lines | tr -d '\\n' | sha256sum | cut -c1-64)\""),
        0);
    assert_int_equal(sh("ls -d cases/*/*/*/ | grep -qEx "
                        "'cases/[0-9]{4}/[0-9]{2}/"
                        "[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[0-9a-f]{4}-[0-9a-f]{12}/'"),
                     0);
}

/* The record that begins the case, and one for each of these. */
#define TO_THE_OUTCOME \
    "no\nshort " \
    "cycling\n1\nunsure\nright\nbegin\ndone\ndone\ndone\ndone\ndone\ndone\ndone\ndone\ndone\nunsu" \
    "re"
#define RECORDS_TO_THERE "17"

static void killed_outright_nothing_is_lost(void **state)
{
    (void)state;
    cut_case_short(WELL, TO_THE_OUTCOME, "did it help?", SIGKILL);
    note_number();
    assert_int_equal(sh("test \"$(wc -l <before)\" = " RECORDS_TO_THERE), 0);
    assert_int_equal(resume("no\\nright\\nbegin\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\n"
                            "done\\ndone\\nunsure\\n1"),
                     0);
    assert_holds("out", "This was begun, and nobody told how it ended. Locks may be on:\n");
    assert_holds("out", "Charge the tank with air: begun\n");
    assert_holds("out", "The trouble is gone.");
    assert_int_equal(sh("head -n " RECORDS_TO_THERE " cases/*/*/*/*.jsonl | cmp - before"), 0);
}

/* How many lines the records have; without any file, none. */
static unsigned records_kept(void)
{
    unsigned count = 0;
    assert_int_equal(sh("cat cases/*/*/*/*.jsonl 2>err | wc -l >kept"), 0);
    char *text = contents("kept");
    assert_int_equal(sscanf(text, "%u", &count), 1);
    free(text);
    return count;
}

/* Each prompt after the first shows that what was typed before is kept, and with the first of it
 * the record that begins the case: at the Nth there are N records; at the first nothing was said,
 * and there is no case. */
static void killed_at_any_prompt_no_answer_is_lost(void **state)
{
    (void)state;
    for (unsigned prompt = 1; prompt <= 12; prompt++) {
        fresh(state);
        window *w = window_open(
            &(window_plan){.words = (const char *const[]){"ask", WELL, "--cases", "cases", NULL}});
        for (unsigned i = 1; i < prompt; i++) window_type(w, i % 2 == 1 ? "no" : "back");
        window_await_prompt(w, prompt);
        window_signal(w, SIGKILL);
        assert_int_equal(window_close(w), 128 + SIGKILL);
        assert_int_equal(records_kept(), prompt == 1 ? 0 : prompt);
    }
}

static void need_counted_calls(void)
{
    if (can_count_calls()) return;
    skip_since(
        "order and loss of records: this machine lets nobody trace his own children (ptrace)");
}

/* So many prompts are in "out". */
static unsigned prompts_shown(void)
{
    unsigned count = 0;
    char *text = contents("out");
    for (const char *p = text; (p = strstr(p, "\n> ")) != NULL; p++) count++;
    free(text);
    return count;
}

/* Killed before any of the calls that write, sync, make or rename something, one after the other:
 * what was answered is there, and the case can be looked at as soon as there is one. */
static void killed_at_any_call_no_answer_is_lost(void **state)
{
    const char *const words[] = {"ask", WELL, "--cases", "cases", NULL};
    const counted_run run = {.words = words, .typed = "typed", .shown = "out"};
    need_counted_calls();
    unsigned calls = 0, most = 0;
    for (int status = 128 + SIGKILL; status == 128 + SIGKILL; calls++) {
        fresh(state);
        assert_int_equal(sh("printf 'no\\nback\\nno\\nback\\nno\\n' >typed"), 0);
        status = run_until_call(&run, calls + 1);
        unsigned kept = records_kept(), prompts = prompts_shown(),
                 least = prompts < 2 ? 0 : prompts;
        if (kept < least || kept > prompts + 1)
            fail_msg("call %u: %u records, %u prompts", calls + 1, kept, prompts);
        if (kept > 0) assert_int_equal(sh("$T ask --case cases/*/*/* --no-input >seen 2>&1"), 3);
        if (prompts > most) most = prompts;
    }
    assert_int_equal(most, 6);
    assert_true(calls > 20);
}

static void interrupted_it_says_how_to_go_on(void **state)
{
    cut_case_short(WELL, TO_THE_OUTCOME, "did it help?", SIGTERM);
    assert_holds("out", "To go on with it:\n");
    fresh(state);
    cut_case_short(WELL, TO_THE_OUTCOME, "did it help?", SIGHUP);
}

static void a_torn_line_stays_and_is_reported(void **state)
{
    (void)state;
    session("no\\nshort cycling\\n1", "$WELL");
    note_number();
    assert_int_equal(
        sh("f=$(ls cases/*/*/*/*.jsonl); printf '{\"version\":1,\"case\":\"x' >>$f; cp $f torn"),
        0);
    assert_int_equal(resume("no\\nunsure"), 3);
    assert_holds("err", "line 6 is left out: it was not written to its end");
    assert_holds("out", "Before you begin: is all of this right?");
    assert_int_equal(sh("f=$(ls cases/*/*/*/*.jsonl); head -c $(wc -c <torn) $f | cmp - torn"), 0);
    assert_int_equal(resume(""), 3);
    assert_int_equal(sh("grep -c 'left out' err | grep -qx 1"), 0);
    assert_false(holds("err", "does not follow"));
    assert_holds("out",
                 "What does the gauge at the tank read while nobody draws water? not sure\n");
}

/* Cut anywhere, the file still gives the steps that are whole. */
static void cut_at_any_byte_it_can_be_read(void **state)
{
    (void)state;
    session("no\\nshort cycling\\n1\\nunsure", "$WELL");
    note_number();
    assert_int_equal(
        sh("f=$(ls cases/*/*/*/*.jsonl); cp $f whole; n=$(wc -c <whole); first=$(head -1 whole | "
           "wc -c);"
           " at=$first; while [ $at -lt $n ]; do head -c $at whole >$f;"
           " $T ask --cases cases --case $(cat number) </dev/null >out 2>err; [ $? = 3 ] || exit 1;"
           " at=$((at + 37)); done"),
        0);
}

static void a_damaged_line_is_left_out(void **state)
{
    (void)state;
    session("no\\nshort cycling\\n1", "$WELL");
    note_number();
    assert_int_equal(sh("sed -i '2s/\"no\"/\"xx\"/; 4s/short/shore/' cases/*/*/*/*.jsonl"), 0);
    assert_int_equal(resume(""), 3);
    assert_holds("err", "line 3 does not follow from the one before");
    assert_holds("err", "line 5 does not follow from the one before");
    assert_holds("out",
                 "Left out, because it does not fit the rules as they are now: answer smoke\n");
    assert_holds("out",
                 "STOP. Nothing else is done until this is safe."); /* what was said of danger can't
                                                                       be read */
    assert_int_equal(sh("sed -i '3s/\"version\":1/\"version\":9/' cases/*/*/*/*.jsonl"), 0);
    assert_int_equal(resume(""), 3);
    assert_holds("err", "another version of telltale wrote it");
}

static void other_writers_count_too(void **state)
{
    (void)state;
    session("no", "$WELL");
    note_number();
    assert_int_equal(
        sh("d=$(dirname cases/*/*/*/*.jsonl); u=$(basename $d); f=$(ls $d/*.jsonl);"
           " sed -n 1p $f | sed -E 's/\"writer\":\"[^\"]*\"/\"writer\":\"0000aaaa0000\"/; "
           "s/\"seq\":[0-9]+/\"seq\":1/;"
           " s/\"lamport\":[0-9]+/\"lamport\":77/; "
           "s/\"kind\".*/\"kind\":\"answer\",\"data\":{\"question\":\"drip\","
           "\"reply\":{\"kind\":\"answer\",\"option\":\"yes\"},\"typed\":\"yes\"}}/' "
           ">$d/0000aaaa0000.jsonl"),
        0);
    assert_int_equal(resume("no\\nknown"), 3);
    assert_holds("out", "  - Is the floor behind the tank wet? Yes\n");
    assert_int_equal(sh("test \"$(cat cases/*/*/*/*.jsonl | grep -c '\"lamport\":78,')\" = 1"), 0);
}

static void a_wrong_number_is_caught(void **state)
{
    (void)state;
    session("no", "$WELL");
    note_number();
    assert_int_equal(sh("$T ask --cases cases --case 12345 </dev/null 2>err"), 2);
    assert_holds("err", "six digits and a letter");
    char *number = contents("number");
    number[0] = number[0] == '9' ? '0' : (char)(number[0] + 1);
    number[7] = 0;
    assert_int_equal(sh("$T ask --cases cases --case %s </dev/null 2>err", number), 2);
    assert_holds("err", "the letter doesn't fit");
    free(number);
    assert_int_equal(sh("n=$(cut -c1-3 number)-$(cut -c4-6 number)-$(cut -c7 number | tr A-Z a-z);"
                        " $T ask --cases cases --case \"$n\" </dev/null >out 2>err"),
                     3);
    assert_int_equal(
        sh("rm -r cases/*; $T ask --cases cases --case $(cat number) </dev/null 2>err"), 66);
}

static void one_window_at_a_time(void **state)
{
    (void)state;
    session("no", "$WELL");
    note_number();
    char *number = contents("number");
    number[strcspn(number, "\n")] = 0;
    window *first = window_open(&(window_plan){
        .words = (const char *const[]){"ask", "--case", number, "--cases", "cases", NULL}});
    window_await_prompt(first, 1);
    assert_int_equal(sh("$T ask --case $(cat number) --cases cases </dev/null >out 2>err"), 75);
    assert_holds("out", "This case is open elsewhere.");
    assert_holds("err", " is left as it is: others have it open");
    assert_int_equal(window_close(first), 3);
    free(number);
}

static void where_it_cant_be_kept_is_said(void **state)
{
    (void)state;
    assert_int_equal(sh("echo >file; echo no | $T ask $WELL --cases file/cases >out 2>err"), 73);
    assert_holds("err", "--unsaved");
    assert_false(holds("out", "Danger first:"));
    assert_int_equal(sh("echo no | $T ask $WELL --cases file/cases --unsaved >out 2>err"), 3);
    assert_holds("out", "NOT KEPT: nobody can go on with this later.\nWhat is wrong?");
    assert_holds("out", "Stopped. Nothing of this case is kept.");
    assert_false(holds("out", "To go on"));
    assert_int_equal(sh("(unset HOME XDG_DATA_HOME; echo no | $T ask $WELL >out 2>err)"), 73);
}

typedef struct disk_order {
    unsigned written, synced, early, folders;
    bool open; /* written and not yet synced */
} disk_order;

static void note_order(const system_call *call, void *context)
{
    disk_order *order = context;
    bool journal = strstr(call->path, ".jsonl") != NULL, writes = strcmp(call->name, "write") == 0;
    if (journal && writes) {
        order->written++;
        order->open = true;
    } else if (journal && strcmp(call->name, "fdatasync") == 0) {
        order->synced += order->open;
        order->open = false;
    } else if (writes && call->descriptor == STDOUT_FILENO) {
        order->early += order->open;
    } else if (strcmp(call->name, "fsync") == 0) {
        order->folders += strstr(call->path, "cases") != NULL;
    }
}

/* In this order: the record is written, it is on the disk, what comes next is shown. */
static void a_record_is_on_the_disk_before_the_next_prompt(void **state)
{
    (void)state;
    const char *const words[] = {"ask", WELL, "--cases", "cases", NULL};
    disk_order order = {0};
    const counted_run run = {
        .words = words, .typed = "typed", .shown = "out", .note = note_order, .context = &order};
    need_counted_calls();
    assert_int_equal(sh("printf 'no\\nshort cycling\\n1\\nunsure\\n' >typed"), 0);
    assert_int_equal(run_until_call(&run, 0), 3);
    assert_int_equal(order.written, 6);
    assert_int_equal(order.synced, 5); /* the first reply has two records */
    assert_int_equal(order.early, 0);
    assert_true(order.folders > 3);
}

/* A limit on file size stands in for a full disk. */
static void a_full_disk_is_said_and_the_case_goes_on(void **state)
{
    (void)state;
    assert_int_equal(
        sh("n=0; { while [ $n -lt 20 ]; do printf 'no\\nback\\n'; n=$((n+1)); done; } >lines;"
           "(trap '' XFSZ; ulimit -f 6; $T ask $WELL --cases cases <lines 2>err; echo status $?) | "
           "cat >out"),
        0);
    assert_holds(
        "out",
        "NOT KEPT: nobody can go on with this later.\nThis could not be kept: the disk is full");
    assert_holds("out", "Stopped. Not all that was said could be kept");
    assert_holds("out", "status 74");
    assert_holds("err", ".jsonl: File too large");
    assert_int_equal(sh("grep -c 'File too large' err | grep -qx 1"),
                     0); /* the reason is said once */
    assert_int_equal(sh("grep -c '^Is there smoke' out | grep -qx 21"), 0);
    note_number();
    assert_int_equal(resume(""), 3);
    assert_holds("out", ": Is there smoke at the pump? No\n");
}

static void changed_rules_are_asked_about(void **state)
{
    (void)state;
    sh("rm -rf book && cp -r $WELL book");
    session("no\\nshort cycling\\n1", "book");
    note_number();
    sh("echo '# a remark' >>book/book.yaml");
    assert_int_equal(resume("no\\n2"), 3);
    assert_holds("out", "The rules have changed since this case was last worked on.\n");
    assert_false(holds("out", "What does the gauge"));
    assert_int_equal(resume("no\\n1"), 3);
    assert_holds("out", "What does the gauge");
    assert_int_equal(resume("no"), 3);
    assert_false(holds("out", "The rules have changed"));
    sh("sed -i 's/^  smoke:/  fire:/; s/smoke: no/fire: no/; s/{smoke: yes}/{fire: yes}/' "
       "book/*.yaml book/parts/*");
    assert_int_equal(resume("no\\n1"), 3);
    assert_holds("out",
                 "Left out, because it does not fit the rules as they are now: answer smoke\n");
    assert_holds("out", "What does the gauge");
    sh("rm -rf book");
    assert_int_equal(resume(""), 66);
}

static void a_closed_case_can_be_opened_again(void **state)
{
    (void)state;
    session("no\\nshort "
            "cycling\\n1\\nunsure\\nright\\nbegin\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone"
            "\\ndone\\ndone\\nunsure\\ngone",
            "$WELL");
    note_number();
    assert_int_equal(resume("1"), 0);
    assert_holds("out", "The trouble is gone.");
    assert_int_equal(resume("2\\nno\\nstop"), 3);
    assert_holds(
        "out",
        "This case is closed.\n 1  Leave it closed\n 2  Closing it was a mistake: open it again\n");
    assert_holds("out", "Begun, and not finished: Charge the tank with air\n");
    assert_int_equal(resume("no"), 3);
    assert_holds("out", "Before you begin: is all of this right?");
    assert_false(holds("out", "This case is closed."));
}

static void data_folders_are_where_they_should_be(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf home data; mkdir home; echo no | HOME=$PWD/home "
                        "XDG_DATA_HOME=relative $T ask $WELL >out"),
                     3);
    assert_int_equal(sh("test -d home/.local/share/telltale/cases -a ! -e relative"), 0);
    assert_int_equal(sh("echo no | XDG_DATA_HOME=$PWD/data $T ask $WELL >out && false || test "
                        "-d data/telltale/cases"),
                     0);
    assert_int_equal(sh("echo no | TELLTALE_CASES=cases $T ask $WELL >out && false || ls "
                        "cases/*/*/*/*.jsonl"),
                     0);
    assert_int_equal(sh("find home/.local data -perm /077 | grep -q ."), 1);
}

#define IN_FRESH_FOLDER(test) cmocka_unit_test_setup(test, fresh)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_FRESH_FOLDER(end_of_input_keeps_everything),
        IN_FRESH_FOLDER(danger_is_asked_again_by_whoever_goes_on),
        IN_FRESH_FOLDER(one_record_a_step),
        IN_FRESH_FOLDER(killed_outright_nothing_is_lost),
        IN_FRESH_FOLDER(interrupted_it_says_how_to_go_on),
        IN_FRESH_FOLDER(a_torn_line_stays_and_is_reported),
        IN_FRESH_FOLDER(cut_at_any_byte_it_can_be_read),
        IN_FRESH_FOLDER(a_damaged_line_is_left_out),
        IN_FRESH_FOLDER(other_writers_count_too),
        IN_FRESH_FOLDER(a_wrong_number_is_caught),
        IN_FRESH_FOLDER(one_window_at_a_time),
        IN_FRESH_FOLDER(where_it_cant_be_kept_is_said),
        IN_FRESH_FOLDER(a_record_is_on_the_disk_before_the_next_prompt),
        IN_FRESH_FOLDER(killed_at_any_prompt_no_answer_is_lost),
        IN_FRESH_FOLDER(killed_at_any_call_no_answer_is_lost),
        IN_FRESH_FOLDER(a_full_disk_is_said_and_the_case_goes_on),
        IN_FRESH_FOLDER(changed_rules_are_asked_about),
        IN_FRESH_FOLDER(a_closed_case_can_be_opened_again),
        IN_FRESH_FOLDER(data_folders_are_where_they_should_be),
    };
    return cmocka_run_group_tests_name("journal", tests, NULL, NULL);
}
