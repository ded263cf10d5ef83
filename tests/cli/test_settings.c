/* What is settled once holds where an option is not given, in the order option, environment,
 * folder, person, system; and `settings` says who says so. */
#include "run_telltale.h"

#include "skips.h"
#include "window.h"

#define HERE "XDG_CONFIG_HOME=$PWD/own XDG_CONFIG_DIRS=$PWD/system:/nowhere "

static int fresh(void **state)
{
    (void)state;
    return sh("chmod -f u+rwx own; rm -rf 'data#1' book seen own system out err cases "
              "telltale.settings && mkdir -p own/telltale "
              "system/telltale");
}

static void who_comes_first_holds(void **state)
{
    (void)state;
    assert_int_equal(sh(HERE "$T settings >out 2>err && test ! -s err"), 0);
    assert_holds("out", "# language: not set; that of the book or the case\n");
    assert_holds("out", "/own/telltale/settings\n");
    assert_int_equal(
        sh("echo 'language: de' >system/telltale/settings && " HERE "$T settings >out"), 0);
    assert_holds("out", "language: de   # ");
    assert_holds("out", "/system/telltale/settings:1\n");
    assert_int_equal(sh("printf '# mine\\n\\nlanguage: fr # so\\nas: technician\\n' "
                        ">own/telltale/settings && " HERE "$T settings >out"),
                     0);
    assert_holds("out", "language: fr   # ");
    assert_holds("out", "/own/telltale/settings:3\n");
    assert_holds("out", "as: technician   # ");
    assert_int_equal(sh("echo 'language: es' >telltale.settings && " HERE "$T settings >out"), 0);
    assert_holds("out", "language: es   # telltale.settings:1\n");
    assert_int_equal(sh("TELLTALE_LANGUAGE=en " HERE "$T settings >out"), 0);
    assert_holds("out", "language: en   # the environment, TELLTALE_LANGUAGE\n");
    assert_int_equal(sh("cp out own/telltale/settings && " HERE "$T settings >again"),
                     0); /* what is shown is such a file */
}

/* A desktop puts folders of its own before the usual one; what is not named whole is none. */
static void the_system_has_several_folders(void **state)
{
    (void)state;
    assert_int_equal(sh("echo 'language: de' >system/telltale/settings && "
                        "XDG_CONFIG_HOME=$PWD/own XDG_CONFIG_DIRS=here::/nowhere:$PWD/system:/ "
                        "$T settings >out"),
                     0);
    assert_holds("out", "language: de   # ");
    assert_holds("out", "/system/telltale/settings:1\n");
    assert_int_equal(sh("XDG_CONFIG_HOME=$PWD/own XDG_CONFIG_DIRS=/nowhere:/none $T settings "
                        ">out && grep -q '^#   /nowhere/telltale/settings$' out"),
                     0);
}

/* What no shell has read would be a folder called "~". In the environment it is read as in a file
 * of settings; where no home is known it is refused, and why. */
static void a_home_that_no_shell_read_is_none(void **state)
{
    (void)state;
    assert_int_equal(sh(HERE "$T cases '--cases=~/cases' >out 2>err"), 2);
    assert_holds("err", "--cases ~/cases: a ~ is your home folder only where a shell reads it");
    assert_int_equal(sh(HERE "$T cases --cases '~' 2>err"), 2);
    assert_int_equal(sh(HERE "$T cases --cases '~root/cases' 2>err"), 2);
    assert_int_equal(sh(HERE "$T sheet 1 --into '~/sheet.html' 2>err"), 2);
    assert_holds("err", "--into ~/sheet.html: ");
    assert_int_equal(sh("TELLTALE_CASES='~/kept' " HERE "$T settings >out 2>err"), 0);
    assert_int_equal(sh("grep -q \"^cases: $HOME/kept \" out"), 0);
    assert_int_equal(sh("TELLTALE_CASES='~/kept' " HERE "env -u HOME $T cases 2>err"), 2);
    assert_holds("err", "TELLTALE_CASES=~/kept: ~ stands for no folder here");
    assert_int_equal(
        sh("echo 'cases: ~/kept' >own/telltale/settings && " HERE "env -u HOME $T cases 2>err"),
        65);
    assert_holds("err", "/own/telltale/settings:1: ~ stands for no folder here");
    assert_int_equal(sh("test -e '~'"), 1);
}

/* Whose home that is has settled nothing for somebody who can't look into it; a file that is there
 * and can't be read is told. */
static void anothers_home_is_nobodys_settings(void **state)
{
    (void)state;
    if (sh("echo 'language: es' >own/telltale/settings && chmod 0 own && test -x own") == 0)
        skip_since("settings that can't be read: this runs as root");
    assert_int_equal(sh(HERE "$T settings >out 2>err && test ! -s err"), 0);
    assert_holds("out", "# language: not set");
    assert_int_equal(
        sh("chmod 700 own && chmod 0 own/telltale/settings && " HERE "$T settings >out 2>err"), 77);
}

static void they_hold_in_a_talk(void **state)
{
    (void)state;
    assert_int_equal(sh("printf 'language: es\\n' >own/telltale/settings; echo stop | " HERE
                        "$T ask $WELL --unsaved --plain >out 2>err"),
                     3);
    assert_holds("out", "Primero el peligro");
    assert_int_equal(sh(HERE "$T ask $WELL --unsaved --json </dev/null >out 2>err"), 3);
    assert_holds("out", "Danger first"); /* a program speaks for somebody else */
    assert_int_equal(
        sh("echo stop | " HERE "$T ask $WELL --unsaved --plain --language en >out 2>err"), 3);
    assert_holds("out", "Danger first");
    assert_int_equal(sh("printf 'as: plumber\\n' >own/telltale/settings; echo stop | " HERE
                        "$T ask $WELL --unsaved >out 2>err"),
                     2);
    assert_holds("err", "plumber");
    assert_int_equal(sh("echo 'smoke: no' >a.yaml && " HERE "$T rank $WELL a.yaml >out 2>err"),
                     0); /* programs are not concerned */
}

static void cases_are_kept_where_it_says(void **state)
{
    (void)state;
    assert_int_equal(sh("echo \"cases: $PWD/cases\" >telltale.settings; printf 'no\\nshort "
                        "cycling\\nstop\\n' | " HERE "$T ask $WELL >out 2>err"),
                     3);
    assert_int_equal(
        sh("grep -qF \"cases are kept in $PWD/cases, as telltale.settings:1 says\" err"),
        0); /* where one stands is not silently the place */
    assert_int_equal(sh(HERE "$T cases >out 2>err && test ! -s err && grep -q 'Cases: 1' out"), 0);
    assert_int_equal(sh("echo stop | " HERE "$T ask $WELL --unsaved >out 2>err; test ! -s err"), 0);
    assert_int_equal(sh(HERE "$T cases $PWD/elsewhere >out 2>err"),
                     66); /* a folder that is named is that one */
    assert_int_equal(sh("echo 'cases: cases' >telltale.settings; " HERE "$T cases 2>err"), 65);
    assert_holds("err", "telltale.settings:1: cases lie in a folder that is named whole");
    assert_int_equal(sh("rm telltale.settings; echo \"cases: $PWD/data#1 # so\" "
                        ">own/telltale/settings; printf 'no\\nshort cycling\\nstop\\n' | " HERE
                        "$T ask $WELL >out 2>err; test ! -s err && test -d 'data#1'"),
                     0);
}

/* What a person's own file and the environment come to. */
static void what_is_settled_means_the_same_everywhere(void **state)
{
    static const struct {
        const char *line, *how; /* how: before the program */
        int status;
        const char *says;
    } rows[] = {
        {"cases: ~/cases", "HOME=/home/east ", 0, "cases: /home/east/cases   # "},
        {"cases: ~/cases", "env -u HOME ", 65, "~ stands for no folder here: HOME is not set"},
        {"cases: ~/cases", "HOME=kept ", 65, "or is not written from / on"},
        {"cases: here", "", 65, "named whole: write it from / or ~/ on"},
        {"cases: ~east/cases", "", 65, "named whole: write it from / or ~/ on"},
        {"cases: /all#1\\t# so", "", 0, "cases: /all#1   # "},
        {"cases: postgresql://h/d", "", 0, "cases: postgresql://h/d   # "},
        {"name: east", "TELLTALE_NAME= ", 0, "name: east   # "},
        {"name: east", "TELLTALE_NAME=west ", 0, "name: west   # the environment, TELLTALE_NAME"},
        {"#", "env -u XDG_CONFIG_HOME HOME=/home/east ", 0, "/home/east/.config/telltale/settings"},
        {"#", "env -u XDG_CONFIG_HOME HOME=east ", 0, "#   /nowhere/telltale/settings"},
        {"#", "env -u XDG_CONFIG_HOME -u HOME ", 0, "#   /nowhere/telltale/settings"},
        {"#", "XDG_CONFIG_DIRS= ", 0, "#   /etc/xdg/telltale/settings"},
        {"#", "env -u XDG_CONFIG_DIRS ", 0, "#   /etc/xdg/telltale/settings"},
        {"#", "XDG_CONFIG_DIRS=here::there ", 0, "#   /etc/xdg/telltale/settings"}};
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_int_equal(sh("printf '%s' >own/telltale/settings", rows[i].line), 0);
        const int status = sh("export XDG_CONFIG_HOME=$PWD/own XDG_CONFIG_DIRS=/nowhere\n%s$T "
                              "settings >out 2>&1",
                              rows[i].how);
        assert_holds("out", rows[i].says);
        assert_int_equal(status, rows[i].status);
    }
    assert_int_equal(
        sh("yes '# so' | head -n 20000 >own/telltale/settings; " HERE "$T settings >out 2>err"),
        74); /* no settings are as long as that */
    assert_holds("err", "/own/telltale/settings: File too large");
}

static void slips_are_told_with_their_place(void **state)
{
    static const struct {
        const char *line, *says;
    } slips[] = {{"langauge: es", "there is no such setting"},
                 {"language", "a line reads 'key: value'"},
                 {"language:", "the value is missing"},
                 {"as: technician", "a folder can't set who asks"},
                 {"name: east", "a folder can't set who asks"},
                 {"cases: postgresql://127.0.0.1:1/none", "a folder can't send cases to another"},
                 {"language: klingon", "that is no language tag; write en, or de-CH"},
                 {"language: es\\000", "that is no plain text. Save the file as UTF-8"},
                 {"language: \\351s", "that is no plain text. Save the file as UTF-8"}};
    (void)state;
    for (size_t i = 0; i < sizeof slips / sizeof slips[0]; i++) {
        assert_int_equal(
            sh("printf '\\n%s\\n' >telltale.settings; " HERE "$T cases >out 2>err", slips[i].line),
            65);
        assert_holds("err", "telltale.settings:2: ");
        assert_holds("err", slips[i].says);
        assert_int_equal(sh(HERE "$T settings >out 2>err"), 65);
    }
    assert_int_equal(sh("rm telltale.settings; " HERE
                        "$T ask $WELL --unsaved --language english </dev/null >out 2>err"),
                     2);
    assert_holds("err", "english is no language tag; write en, or de-CH");
    assert_int_equal(
        sh("printf 'cases: /d\\033]0;x\\007\\r\\n' >telltale.settings; " HERE
           "$T settings >out 2>err && LC_ALL=C grep -q \"$(printf '[\\033\\007\\r]')\" out"),
        1); /* nothing in it steers a terminal */
    assert_int_equal(sh("printf '\\357\\273\\277language: es\\n' >telltale.settings; " HERE
                        "$T settings >out 2>err && test ! -s err && grep -q '^language: es ' out"),
                     0); /* an editor put a mark before it */
    assert_int_equal(
        sh("rm telltale.settings && mkdir telltale.settings && " HERE "$T cases >out 2>err"), 66);
    assert_holds("err", "telltale.settings: this is a folder; name a file in it");
    assert_int_equal(sh("rmdir telltale.settings && touch telltale.settings"), 0);
    assert_int_equal(
        sh("rm telltale.settings && mkfifo telltale.settings && " HERE "$T cases >out 2>err"),
        66); /* never waited for */
}

/* What is long goes through it, on a terminal only. */
static void a_pager_is_used_where_it_can_be_refused(void **state)
{
    (void)state;
    setenv("PAGER", "sed 's/^/paged: /'", 1);
    window *w = window_open(&(window_plan){
        .words = (const char *const[]){"check", WELL, NULL}, .rows = 24, .columns = 80});
    window_await(w, "paged: No faults.");
    assert_int_equal(window_close(w), 0);
    w = window_open(
        &(window_plan){.words = (const char *const[]){"check", WELL, "--no-pager", NULL},
                       .rows = 24,
                       .columns = 80});
    window_await(w, "No faults.");
    assert_null(strstr(window_text(w), "paged"));
    assert_int_equal(window_close(w), 0);
    assert_int_equal(sh("$T check $WELL >out && ! grep -q paged out"), 0);
    /* It is not there before there is something to show: what is asked, or wrong, has the terminal.
     */
    setenv("PAGER", "echo began; sed 's/^/paged: /'", 1);
    w = window_open(&(window_plan){
        .words = (const char *const[]){"rank", WELL, "-", NULL}, .rows = 24, .columns = 80});
    window_type(w, "smoke: no");
    window_await(w, "smoke: no");
    assert_null(strstr(window_text(w), "began"));
    window_type_bytes(w, "\004", 1);
    window_await(w, "paged: ");
    assert_int_equal(window_close(w), 0);
    w = window_open(&(window_plan){
        .words = (const char *const[]){"check", "./nowhere", NULL}, .rows = 24, .columns = 80});
    window_await(w, "there is no such folder");
    window_await_end(w);
    assert_null(strstr(window_text(w), "began"));
    assert_int_equal(window_close(w), 66);
    unsetenv("PAGER");
}

/* Through a pager it is what it would be without one, as wide as the terminal; and whoever leaves
 * it early still gets the status. */
static void a_pager_changes_nothing_that_is_shown(void **state)
{
    static const char *const pagers[] = {"PAGER=cat >seen; cat seen", "PAGER="};
    char *shown[2];
    (void)state;
    for (int i = 0; i < 2; i++) {
        window *w =
            window_open(&(window_plan){.words = (const char *const[]){"help", "ask", NULL},
                                       .environment = (const char *const[]){pagers[i], NULL},
                                       .rows = 24,
                                       .columns = 40});
        window_await_end(w);
        shown[i] = strdup(window_text(w));
        assert_non_null(strstr(shown[i], "telltale ask"));
        assert_int_equal(window_close(w), 0);
    }
    assert_string_equal(shown[0], shown[1]);
    assert_int_equal(sh("test -s seen"), 0);
    free(shown[0]);
    free(shown[1]);
    assert_int_equal(sh("cp -r $WELL book && echo 'causes: {x-x: {}}' >book/more.yaml"), 0);
    window *w = window_open(&(window_plan){.words = (const char *const[]){"check", "book", NULL},
                                           .environment = (const char *const[]){"PAGER=true", NULL},
                                           .rows = 24,
                                           .columns = 80});
    window_await_end(w);
    assert_int_equal(window_close(w), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(who_comes_first_holds, fresh),
        cmocka_unit_test_setup(the_system_has_several_folders, fresh),
        cmocka_unit_test_setup(a_home_that_no_shell_read_is_none, fresh),
        cmocka_unit_test_setup(anothers_home_is_nobodys_settings, fresh),
        cmocka_unit_test_setup(they_hold_in_a_talk, fresh),
        cmocka_unit_test_setup(cases_are_kept_where_it_says, fresh),
        cmocka_unit_test_setup(what_is_settled_means_the_same_everywhere, fresh),
        cmocka_unit_test_setup(slips_are_told_with_their_place, fresh),
        cmocka_unit_test_setup(a_pager_is_used_where_it_can_be_refused, fresh),
        cmocka_unit_test_setup(a_pager_changes_nothing_that_is_shown, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
