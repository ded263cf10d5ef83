/* Two logins of one group work in one folder of cases. To be somebody else needs root; without,
 * this says so and is skipped. */
#include "run_telltale.h"

#include <sys/stat.h>
#include <unistd.h>

#include "skips.h"

/* Numbers of nobody: two logins, the group that they share, and one that each has alone. */
#define EAST    "setpriv --reuid 61001 --regid 61001 --groups 61009 env HOME=/nonexistent "
#define WEST    "setpriv --reuid 61002 --regid 61002 --groups 61009 env HOME=/nonexistent "
#define SOUTH   "setpriv --reuid 61003 --regid 61003 --clear-groups env HOME=/nonexistent "
#define SESSION "printf 'no\\nshort cycling\\n1\\nstop\\n' | "

static unsigned rights_of(const char *pattern)
{
    char path[512];
    struct stat about;
    FILE *found = popen(pattern, "r");
    assert_non_null(found);
    assert_non_null(fgets(path, sizeof path, found));
    pclose(found);
    path[strcspn(path, "\n")] = 0;
    assert_int_equal(stat(path, &about), 0);
    return about.st_mode & 07777;
}

/* Beside the test's own folder, into which others may not look; $S is the folder. */
static void make_folder(const char *mode)
{
    char name[64];
    snprintf(name, sizeof name, "/tmp/telltale-shared-%ld", (long)getpid());
    setenv("S", name, 1);
    assert_int_equal(sh("rm -rf $S && mkdir $S && chgrp 61009 $S && chmod %s $S && cp $T "
                        "$S/program && cp -r $WELL $S/book && chmod -R a+rX $S/book $S/program",
                        mode),
                     0);
}

static int drop_folder(void **state)
{
    (void)state;
    return sh("rm -rf /tmp/telltale-shared-%ld", (long)getpid());
}

static void need_two_logins(void)
{
    if (geteuid() != 0 || sh(EAST "true 2>/dev/null") != 0)
        skip_since("two logins on one folder: to be somebody else needs root and setpriv");
}

/* One begins; the other sees it, goes on, and begins one; both see both. */
static void assert_they_share(const char *cases)
{
    assert_int_equal(
        sh("umask 077; " SESSION EAST "$S/program ask $S/book --cases %s >out 2>err", cases), 3);
    assert_int_equal(sh("sed -n 's/^Case number: //p' out | head -1 >east-number"), 0);
    assert_int_equal(sh("umask 077; printf 'no\\nunsure\\nstop\\n' | " WEST
                        "$S/program ask --case $(cat east-number) --cases %s >out 2>err",
                        cases),
                     3);
    assert_holds("out", "Trouble: The pump starts and stops");
    assert_holds("out", "Before you begin: is all of this right?");
    assert_int_equal(
        sh("umask 077; " SESSION WEST "$S/program ask $S/book --cases %s >out 2>err", cases), 3);
    assert_int_equal(sh(EAST "$S/program cases %s --json >east 2>err && test ! -s err && " WEST
                             "$S/program cases %s --json >west",
                        cases, cases),
                     0);
    assert_same("east", "west");
    assert_int_equal(sh("test $(wc -l <east) = 2"), 0);
    assert_int_equal(sh(SOUTH "$S/program cases %s >out 2>err", cases), 74);
    assert_holds("err", "Permission denied");
}

static void a_group_shares_what_is_below_its_folder(void **state)
{
    (void)state;
    need_two_logins();
    make_folder("2770");
    assert_int_equal(sh("chmod o+x $S"), 0);
    assert_they_share("$S/cases");
    assert_int_equal(rights_of("ls -d $S/cases"), 02770);
    assert_int_equal(rights_of("ls $S/cases/*/*/*/*.jsonl"), 0660);
}

static void a_root_of_the_group_is_shared_too(void **state)
{
    (void)state;
    need_two_logins();
    make_folder("755");
    assert_int_equal(sh("mkdir $S/cases && chgrp 61009 $S/cases && chmod 2770 $S/cases"), 0);
    assert_they_share("$S/cases");
}

/* One verb makes such a folder, or takes one that was a single login's, with all that is in it. */
static void a_folder_is_set_up_for_a_group(void **state)
{
    (void)state;
    need_two_logins();
    make_folder("755");
    assert_int_equal(sh("$T cases --set-up $S/desk --group 61009 >out 2>err && test ! -s err"), 0);
    assert_holds("out", "1 folders and 0 files");
    assert_int_equal(rights_of("ls -d $S/desk"), 02770);
    assert_they_share("$S/desk");
    assert_int_equal(rights_of("ls -d $S/desk/*/*/*"), 02770);
    assert_int_equal(
        sh("mkdir $S/home && chown 61001 $S/home && " SESSION EAST
           "$S/program ask $S/book --cases $S/home/cases --caller somebody >out 2>err"),
        3);
    assert_int_equal(rights_of("ls $S/home/cases/*/*/*/contact.json"), 0600);
    assert_int_equal(sh(WEST "$S/program cases $S/home/cases >out 2>err"), 74);
    assert_int_equal(sh(WEST "$S/program cases --set-up $S/home/cases --group 61009 >out 2>err"),
                     77);
    assert_int_equal(sh(EAST "$S/program cases --set-up $S/home/cases --group 61009 >out 2>err"),
                     0);
    assert_holds("out", "4 folders and 2 files");
    assert_int_equal(sh(WEST "$S/program cases $S/home/cases --contact >out 2>err"), 0);
    assert_holds("out", "Caller: somebody");
    assert_int_equal(sh("chmod 700 $S/home && " EAST
                        "$S/program cases --set-up $S/home/cases --group 61009 >out 2>err"),
                     0);
    assert_holds("out", "lets only its owner through");
}

static void what_is_wrong_with_it_is_said(void **state)
{
    (void)state;
    assert_int_equal(sh("$T cases --set-up own 2>err"), 2);
    assert_holds("err", "telltale cases --set-up FOLDER --group GROUP");
    assert_int_equal(sh("$T cases --set-up own --group no-such-group 2>err && test ! -e own"), 2);
    assert_holds("err", "there is no group no-such-group on this computer");
    assert_int_equal(sh("$T cases --set-up not/there --group 0 2>err"), 66);
}

/* What is asked for, what it says, and whether the folder is there afterwards. */
static void what_is_no_group_or_no_folder_is_said(void **state)
{
    static const struct {
        const char *words;
        int status;
        const char *said;
        bool there;
    } rows[] = {{"own --group ''", 2, "there is no group", false},
                {"own --group 12x", 2, "there is no group 12x", false},
                {"own --group -1", 2, "there is no group -1", false},
                {"own --group 4294967295", 2, "there is no group 4294967295", false},
                {"'' --group 0", 2, "telltale cases --set-up FOLDER --group GROUP", false},
                {"file --group 0", 66, "file: Not a directory", false},
                {"file/below --group 0", 66, "Not a directory", false},
                {"loop --group 0", 74, "loop", false},
                {"own --group $(id -gn)", 0, "", true},
                {"own --group $(id -g)", 0, "", true}};
    (void)state;
    assert_int_equal(sh("rm -rf own file loop; : >file; ln -s loop loop"), 0);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_int_equal(sh("$T cases --set-up %s >out 2>err", rows[i].words), rows[i].status);
        assert_holds("err", rows[i].said);
        assert_int_equal(sh("test -d own"), rows[i].there ? 0 : 1);
    }
}

/* Cases of several months; what is no plain file is nobody's to hand down. */
static void all_of_it_is_handed_down_and_nothing_else(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf own; for m in 2025/01 2025/02 2026/01; do "
                        "c=own/$m/019b1b48-9420-7e45-8172-00002235a41$(echo $m | tail -c 2)\n"
                        "mkdir -p $c/folder && : >$c/east.jsonl && mkfifo $c/pipe && "
                        "ln -s $PWD/file $c/link || exit 9; done; : >file; chmod 600 file; "
                        "chmod -R go-rwx own"),
                     0);
    assert_int_equal(sh("$T cases --set-up own --group $(id -g) >out 2>err && test ! -s err"), 0);
    assert_holds("out", "9 folders and 3 files");
    assert_int_equal(sh("test $(find own -type d -perm 2770 | wc -l) = 9 && "
                        "test $(find own -type f -perm 660 | wc -l) = 3 && "
                        "test $(stat -c %%a file) = 600 && "
                        "test -z \"$(find own -name pipe -perm /077)\""),
                     0);
    assert_int_equal(sh("$T cases --set-up own --group $(id -g) >again 2>err && cmp out again"), 0);
}

/* Everybody else's cases stay their own, whatever the umask. */
static void without_a_group_nothing_is_shared(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf own; umask 000; mkdir own; chmod 755 own; " SESSION
                        "$T ask $WELL --cases own/cases >out 2>err"),
                     3);
    assert_int_equal(rights_of("ls -d own/cases"), 0700);
    assert_int_equal(rights_of("ls -d own/cases/*/*/*"), 0700);
    assert_int_equal(rights_of("ls own/cases/*/*/*/*.jsonl"), 0600);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(a_group_shares_what_is_below_its_folder, drop_folder),
        cmocka_unit_test_teardown(a_root_of_the_group_is_shared_too, drop_folder),
        cmocka_unit_test_teardown(a_folder_is_set_up_for_a_group, drop_folder),
        cmocka_unit_test(what_is_wrong_with_it_is_said),
        cmocka_unit_test(what_is_no_group_or_no_folder_is_said),
        cmocka_unit_test(all_of_it_is_handed_down_and_nothing_else),
        cmocka_unit_test(without_a_group_nothing_is_shared),
    };
    return cmocka_run_group_tests_name("shared folder", tests, NULL, NULL);
}
