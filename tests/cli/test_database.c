/* Cases in a database, as those who use the program meet them. */
#include "database/db_session.h"
#include "database_kit.h"
#include "run_telltale.h"
#include "window.h"

static int fresh(void **state)
{
    (void)state;
    free(database_sql("SET client_min_messages TO warning; TRUNCATE telltale.cases CASCADE"));
    setenv("D", database_address("writer"), 1);
    return sh("rm -rf folder back home .local");
}

/* A call of a well that ends with the trouble gone, a second that is left. */
static void two_calls(void)
{
    assert_int_equal(sh("printf 'no\nno water\n' | $T ask $WELL --practice --plain --cases $D "
                        "--caller 'the night shift' >one 2>err"),
                     3);
    assert_int_equal(
        sh("printf 'no\nno water\n' | $T ask $WELL --practice --plain --cases $D >two 2>err"), 3);
}

static void a_case_is_kept_taken_up_and_listed(void **state)
{
    (void)state;
    two_calls();
    assert_int_equal(sh("$T cases $D >list 2>err"), 0);
    assert_holds("list", "Cases: 2");
    assert_int_equal(
        sh("$T cases $D --json | sed 's/.*\"case\":\"\\([^\"]*\\)\".*/\\1/' | head -n 1 >number"),
        0);
    assert_int_equal(sh("$T sheet $(cat number) --cases $D >sheet 2>err"), 0);
    assert_holds("sheet", "Water leaks away behind the tank");
    assert_int_equal(
        sh("printf 'stop\n' | $T ask --case $(cat number) --plain --cases $D >again 2>err"), 3);
    assert_int_equal(sh("$T cases $D --case $(cat number) --contact >whole 2>err"), 0);
    assert_holds("whole", "the night shift");
    assert_int_equal(sh("$T learn $WELL $D >learn 2>err"), 0);
}

/* What differs is where it is. */
#define WITHOUT_PLACES "sed 's/\"folder\":\"[^\"]*\"//; s/\"go_on\":\"[^\"]*\"//; s/--cases.*//'"

static void ask_both(const char *options)
{
    assert_int_equal(sh("$T cases folder %s 2>err | " WITHOUT_PLACES " >of-folder", options), 0);
    assert_int_equal(sh("$T cases $D %s 2>err | " WITHOUT_PLACES " >of-database", options), 0);
    assert_same("of-folder", "of-database");
}

static void a_folder_and_a_database_give_the_same_list(void **state)
{
    (void)state;
    assert_int_equal(sh("$(dirname $T)/../tests/bench_many_cases folder 60 >made"), 0);
    assert_int_equal(sh("printf 'no\nno water\n' | $T ask $WELL --practice --plain --cases folder "
                        "--caller 'the night shift' >one 2>err"),
                     3);
    assert_int_equal(sh("$T cases folder --copy-to $D >copied 2>err"), 0);
    assert_holds("copied", "Cases copied: 61");
    static const char *const asked[] = {"--json",
                                        "--json --state open",
                                        "--json --state closed,called",
                                        "--json --text WATER",
                                        "--json --text plumbing",
                                        "--json --at 'house 1'",
                                        "--json --for east",
                                        "--json --cause WORN",
                                        "--json --since 2025-01-01 --until 2025-01-01",
                                        "--json --until 2020-01-01",
                                        "--json --ended-for 0",
                                        "--json --count",
                                        "--json --count --state closed --at 1",
                                        "--json --by month",
                                        "--by month",
                                        "--count",
                                        "--limit 7",
                                        "--limit 5 --sort moved",
                                        "--limit 5 --sort began",
                                        "--limit 5 --sort site",
                                        "--limit 50 --sort state",
                                        "--limit 20 --sort until",
                                        "--full",
                                        "--json --contact --kind fault,round"};
    for (size_t i = 0; i < sizeof asked / sizeof asked[0]; i++) ask_both(asked[i]);
    assert_int_equal(sh("test $($T cases $D --json --state closed | wc -l) -gt 20"), 0);
}

/* Lines that are no records, one that was torn, others' writers: all of it comes back. */
static void a_folder_goes_there_and_back_without_a_byte_lost(void **state)
{
    (void)state;
    assert_int_equal(sh("printf 'no\nno water\n' | $T ask $WELL --practice --plain --cases folder "
                        "--caller 'the night shift' >one 2>err"),
                     3);
    assert_int_equal(sh("cd folder/*/*/*\nprintf '\\377\\000 no record\n{\"version\":1\n\n' "
                        ">bbbb0000bbbb.jsonl\nprintf 'torn' >>bbbb0000bbbb.jsonl\n"
                        "head -n 2 bbbb0000bbbb.jsonl >cccc.jsonl"),
                     0);
    assert_int_equal(sh("$T cases folder --copy-to $D >copied 2>err"), 0);
    assert_holds("copied", "Cases copied: 1");
    assert_int_equal(sh("$T cases folder --copy-to $D >copied 2>err"), 0);
    assert_holds("copied", "same: 1");
    assert_int_equal(sh("$T cases $D --copy-to back >copied 2>err"), 0);
    assert_int_equal(sh("diff -r folder back"), 0);
    assert_int_equal(sh("printf '\nmore\n' >>$(echo folder/*/*/*/bbbb*)\n$T cases folder --copy-to "
                        "$D >copied 2>err"),
                     0);
    assert_holds("copied", "got more: 1");
    assert_int_equal(sh("$T cases $D --copy-to back >copied 2>err\ndiff -r folder back"), 0);
}

/* ---- finding one ---- */

static void one_number_for_all(void)
{
    free(database_sql("UPDATE telltale.cases SET digits = left(digits, 6) || '123456'"));
}

static void a_case_is_found_by_id_by_place_and_by_number(void **state)
{
    (void)state;
    two_calls();
    char *id = database_sql("SELECT id FROM telltale.cases ORDER BY id LIMIT 1");
    char *number = database_sql("SELECT number FROM telltale.cases ORDER BY id LIMIT 1");
    setenv("ID", id, 1);
    setenv("N", number, 1);
    assert_int_equal(sh("$T sheet $ID --cases $D >by-id 2>err"), 0);
    assert_int_equal(sh("$T sheet $D/$ID >by-place 2>err"), 0);
    assert_int_equal(sh("$T sheet $N --cases $D >by-number 2>err"), 0);
    assert_same("by-id", "by-place");
    assert_same("by-id", "by-number");
    assert_int_equal(sh("$T sheet 019c0000-0000-7000-8000-000000000001 --cases $D >out 2>err"), 66);
    assert_holds("err", "there is no case 019c0000-0000-7000-8000-000000000001");
    assert_int_equal(sh("$T sheet $D/019c0000-0000-7000-8000-000000000001 >out 2>err"), 66);
    assert_int_equal(sh("$T sheet 12 --cases $D >out 2>err"), 2);
    assert_int_equal(sh("$T sheet $ID --cases $(echo $D | sed s,writer@,stranger@,) >out 2>err"),
                     77);
    assert_holds("err", "the case can't be looked for");
    free(id);
    free(number);
}

/* Short numbers are those of many: each is told with what sets it apart. */
static void a_number_of_several_says_which(void **state)
{
    (void)state;
    two_calls();
    one_number_for_all();
    assert_int_equal(sh("for l in A B C D E F G H J K L M N P Q R S T U V W X Y Z\ndo\n"
                        "$T sheet 123456$l --cases $D >out 2>err\n"
                        "test $? = 2 || exit 9\n"
                        "grep -q 'stands for 2 cases' err && exit 0\ndone\nexit 8"),
                     0);
    char *numbers = database_sql("SELECT string_agg(number, E'\\n') FROM telltale.cases");
    for (char *one = numbers, *end; *one != 0; one = end) {
        end = one + strcspn(one, "\n");
        end += *end != 0;
        if (end[-1] == '\n') end[-1] = 0;
        assert_holds("err", one);
    }
    free(numbers);
}

static void a_row_that_is_damaged_is_counted_and_the_rest_is_listed(void **state)
{
    (void)state;
    two_calls();
    free(database_sql(
        "UPDATE telltale.cases SET number = repeat('9', 40) WHERE id = (SELECT id FROM "
        "telltale.cases ORDER BY id LIMIT 1)"));
    assert_int_equal(sh("$T cases $D >list 2>err"), 74);
    assert_holds("err", "a case in the database can't be read");
    assert_holds("list", "House well");
}

/* ---- two at one case ---- */

/* Neither types anything while the other's words come. */
static void two_desks_see_each_other_at_once(void **state)
{
    (void)state;
    char number[16];
    const char *address = getenv("D");
    window *east = window_open(
        &(window_plan){.words = (const char *const[]){"ask", WELL, "--practice", "--cases", address,
                                                      "--name", "east", NULL}});
    window_await(east, "Case number: ");
    window_await_next_prompt(east);
    window_type(east, "no");
    window_await(east, "What is wrong?");
    window_await_next_prompt(east);
    assert_int_equal(
        sscanf(strstr(window_text(east), "Case number: "), "Case number: %15s", number), 1);
    window *west = window_open(
        &(window_plan){.words = (const char *const[]){"ask", "--case", number, "--cases", address,
                                                      "--name", "west", NULL}});
    window_await(west, "east (");
    window_await(west, "This case is open elsewhere.");
    window_await_next_prompt(west);
    window_type(west, "2");
    window_await_unasked(east, " west: joined");
    window_await(west, "Is there smoke at the pump?");
    window_await_next_prompt(west);
    window_type(west, "no");
    window_await_unasked(east, " west: Is there smoke at the pump? No");
    window_type(east, "no water");
    window_await_unasked(west, " east: ");
    assert_int_equal(window_close(west), 3);
    window_await_unasked(east, " west: ");
    assert_int_equal(window_close(east), 3);
}

#define FILTERED TT_SOURCE_DIR "/tests/cli/filtered-well"

static int call_at(const char *site)
{
    return sh("printf 'no\nshort cycling\n1\nstop\n' | $T ask " FILTERED " --site " FILTERED
              "-sites/%s.yaml --cases $D >out 2>err",
              site);
}

/* A site's cases are found by its name or by its file, without the others being read. */
static void the_past_of_a_site_is_found(void **state)
{
    (void)state;
    assert_int_equal(call_at("farm"), 3);
    assert_false(holds("out", "Is it one of these cases?"));
    assert_int_equal(call_at("garden"), 3);
    assert_false(holds("out", "Is it one of these cases?"));
    assert_int_equal(call_at("farm"), 3);
    assert_holds("out", "Is it one of these cases?");
}

/* ---- who may what ---- */

static void a_reader_reads_and_a_writer_only_adds(void **state)
{
    (void)state;
    two_calls();
    setenv("R", database_address("reader"), 1);
    setenv("S", database_address("stranger"), 1);
    assert_int_equal(sh("$T cases $R >list 2>err"), 0);
    assert_holds("list", "Cases: 2");
    assert_int_equal(sh("$T cases $R --contact >list 2>err\ntest -s err"), 0);
    assert_holds("err", "your role in the database has no right to it");
    assert_int_equal(sh("$T cases $R --erase >list 2>err"), 77);
    assert_int_equal(sh("printf 'no\n' | $T ask $WELL --practice --plain --cases $R >one 2>err"),
                     74);
    assert_holds("err", "can't be kept");
    assert_int_equal(sh("$T cases $S >list 2>err"), 77);
    char *rights = database_sql("SELECT string_agg(DISTINCT privilege_type, ' ' ORDER BY "
                                "privilege_type) FROM information_schema.role_table_grants"
                                " WHERE grantee = 'telltale_writer' AND table_name = 'records'");
    assert_string_equal(rights, "INSERT SELECT");
    free(rights);
    assert_int_equal(sh("$T cases $D --erase >list 2>err"), 0);
    assert_holds("list", "were erased: 1");
    char *left = database_sql("SELECT count(*) FROM telltale.contacts");
    assert_string_equal(left, "0");
    free(left);
}

static void a_password_in_the_address_is_refused_and_not_shown(void **state)
{
    (void)state;
    assert_int_equal(sh("$T cases postgresql://writer:hushhush@/postgres >list 2>err"), 2);
    assert_holds("err", "PGPASSFILE");
    assert_int_equal(sh("grep hushhush list err"), 1);
    assert_int_equal(sh("$T cases 'postgresql://writer@/postgres?password=hushhush' >list 2>err"),
                     2);
    assert_int_equal(sh("grep hushhush list err"), 1);
}

static void without_tables_it_says_who_makes_them(void **state)
{
    (void)state;
    free(database_sql("CREATE DATABASE empty"));
    assert_int_equal(sh("$T cases $(echo $D | sed s,/postgres?,/empty?,) >list 2>err"), 66);
    assert_holds("err", "cases.sql");
}

/* ---- cut off ---- */

static window *case_of_east(char number[16])
{
    window *w = window_open(&(window_plan){
        .words = (const char *const[]){"ask", WELL, "--practice", "--cases", getenv("D"), NULL}});
    window_await(w, "Case number: ");
    window_await_next_prompt(w);
    window_type(w, "no");
    window_await(w, "What is wrong?");
    window_await_next_prompt(w);
    assert_int_equal(sscanf(strstr(window_text(w), "Case number: "), "Case number: %15s", number),
                     1);
    return w;
}

/* The way to the server is lost between two words, and found again: nothing is said of it, and
 * nothing is kept twice. */
static void a_way_that_is_lost_in_a_call_is_found_again(void **state)
{
    char number[16];
    (void)state;
    window *w = case_of_east(number);
    char *before = database_sql("SELECT count(*) FROM telltale.records");
    free(database_sql("SELECT pg_terminate_backend(pid, 5000) FROM pg_stat_activity WHERE usename "
                      "= 'writer'"));
    window_type(w, "short cycling");
    window_await_next_prompt(w);
    window_type(w, "1");
    window_await_next_prompt(w);
    assert_null(strstr(window_text(w), "not kept"));
    assert_null(strstr(window_text(w), "can't be reached"));
    window_type(w, "stop");
    assert_int_equal(window_close(w), 3);
    char *after = database_sql("SELECT count(*) FROM telltale.records");
    assert_true(strtol(after, NULL, 10) > strtol(before, NULL, 10));
    char *gaps = database_sql("SELECT count(*) FROM (SELECT writer, count(*) AS n, max(number) AS "
                              "last FROM telltale.records GROUP BY writer) x WHERE n <> last");
    assert_string_equal(gaps, "0");
    assert_int_equal(sh("find .local -name '*.jsonl' | grep ."), 1); /* none waits here */
    free(before);
    free(after);
    free(gaps);
}

/* The server goes down in a call: what is said from then on waits on this machine, and comes behind
 * what is there. */
static void a_server_that_goes_down_in_a_call_gets_the_rest_later(void **state)
{
    char number[16];
    (void)state;
    window *w = case_of_east(number);
    database_kill();
    window_type(w, "short cycling");
    window_await_next_prompt(w);
    window_type(w, "stop");
    window_await_end(w);
    assert_non_null(strstr(window_text(w), "The case is kept on this machine."));
    assert_int_equal(window_close(w), 3);
    database_again();
    char *before = database_sql("SELECT count(*) FROM telltale.records");
    assert_int_equal(
        sh("$T cases $PWD/.local/share/telltale/until-back/* --copy-to $D >copied 2>err"), 0);
    char *after = database_sql("SELECT count(*) FROM telltale.records");
    assert_true(strtol(after, NULL, 10) > strtol(before, NULL, 10));
    assert_int_equal(sh("$T cases $D --text cycling >list 2>err"), 0);
    assert_holds("list", "Cases: 1");
    free(before);
    free(after);
}

/* The board offers what waits, and shows the case once it is where it belongs. */
static void the_board_offers_to_carry_over(void **state)
{
    (void)state;
    const char *const words[] = {"desk", WELL, "--practice", "--cases", getenv("D"), NULL};
    database_kill();
    window *w = window_open(&(window_plan){.words = words});
    window_await(w, "the database can't be reached");
    window_await(w, " 1  New call");
    window_await_next_prompt(w);
    window_type(w, "1");
    window_await(w, "Is there smoke at the pump?");
    window_await_next_prompt(w);
    window_type(w, "no");
    window_await_next_prompt(w);
    database_again();
    window_type(w, "board");
    window_await(w, "Carry cases over that wait on this machine for the database");
    window_await_next_prompt(w);
    window_type(w, "3");
    window_await(w, " 1  ");
    window_await(w, "House well");
    window_await_next_prompt(w);
    window_close(w);
    assert_int_equal(sh("$T cases $D >list 2>err"), 0);
    assert_holds("list", "Cases: 1");
    assert_int_equal(sh("find .local -name '*.jsonl' | grep ."), 1);
}

static void a_desk_that_is_cut_off_keeps_and_carries_over(void **state)
{
    (void)state;
    database_kill();
    assert_int_equal(
        sh("printf 'no\nno water\n' | $T ask $WELL --practice --plain --cases $D >one 2>err"), 3);
    assert_holds("err", "the database can't be reached");
    assert_holds("err", "kept on this machine, in");
    assert_holds("one", "Once the database is back, this carries it over");
    assert_int_equal(sh("$T cases $D >list 2>err"), 69);
    database_again();
    assert_int_equal(sh("$T cases .local/share/telltale/until-back/* >list 2>err"), 0);
    assert_holds("list", "Cases: 1");
    assert_int_equal(
        sh("$T cases $PWD/.local/share/telltale/until-back/* --copy-to $D >copied 2>err"), 0);
    assert_holds("copied", "Cases carried over: 1");
    assert_int_equal(sh("$T cases $D >list 2>err"), 0);
    assert_holds("list", "Cases: 1");
    assert_int_equal(sh("find .local -name '*.jsonl' | grep ."), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(a_case_is_kept_taken_up_and_listed, fresh),
        cmocka_unit_test_setup(a_folder_and_a_database_give_the_same_list, fresh),
        cmocka_unit_test_setup(a_folder_goes_there_and_back_without_a_byte_lost, fresh),
        cmocka_unit_test_setup(a_case_is_found_by_id_by_place_and_by_number, fresh),
        cmocka_unit_test_setup(a_number_of_several_says_which, fresh),
        cmocka_unit_test_setup(a_row_that_is_damaged_is_counted_and_the_rest_is_listed, fresh),
        cmocka_unit_test_setup(two_desks_see_each_other_at_once, fresh),
        cmocka_unit_test_setup(the_past_of_a_site_is_found, fresh),
        cmocka_unit_test_setup(a_reader_reads_and_a_writer_only_adds, fresh),
        cmocka_unit_test_setup(a_password_in_the_address_is_refused_and_not_shown, fresh),
        cmocka_unit_test_setup(without_tables_it_says_who_makes_them, fresh),
        cmocka_unit_test_setup(a_way_that_is_lost_in_a_call_is_found_again, fresh),
        cmocka_unit_test_setup(a_server_that_goes_down_in_a_call_gets_the_rest_later, fresh),
        cmocka_unit_test_setup(the_board_offers_to_carry_over, fresh),
        cmocka_unit_test_setup(a_desk_that_is_cut_off_keeps_and_carries_over, fresh),
    };
    if (!db_is_built_in() || !database_start()) return skip_all_since(NEEDS_DATABASE);
    const int failed = cmocka_run_group_tests(tests, NULL, NULL);
    database_end();
    return failed;
}
