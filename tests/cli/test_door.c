/* What the program opens, and what it leaves alone: descriptors that are closed, names that lead to
 * no plain file, links in a folder of cases, signals while it waits, and where a sheet goes. */
#include "run_telltale.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "host/door.h"
#include "host/files.h"
#include "window.h"

/* A case that was begun and left, kept under `root`; its folder is $C from here on. */
static void begin_case(const char *root)
{
    assert_int_equal(sh("rm -rf %s; printf 'no\\nshort cycling\\n1\\nstop\\n' | $T ask $WELL "
                        "--cases %s >out 2>err",
                        root, root),
                     3);
    assert_int_equal(
        sh("echo %s/*/*/* >case-folder && sed -n 's/.*Case number: //p' out | head -1 >case-number",
           root),
        0);
    char *folder = contents("case-folder"), *number = contents("case-number");
    folder[strcspn(folder, "\n")] = number[strcspn(number, "\n")] = 0;
    setenv("C", folder, 1);
    setenv("N", number, 1);
    free(number);
    free(folder);
}

/* ---- descriptors ---- */

/* A folder that can't be read to its end is no shorter one: rules, or what others kept, would be
 * missing without a word. */
static void a_folder_that_fails_has_not_ended(void **state)
{
    (void)state;
    door_fault fault;
    int error = -1;
    assert_int_equal(sh("rm -rf with-one && mkdir with-one && touch with-one/file"), 0);
    DIR *list = door_list(AT_FDCWD, "with-one", LINKS_REFUSED, &fault);
    assert_non_null(list);
    unsigned count = 0;
    while (door_next(list, &error) != NULL) count++;
    assert_int_equal(count, 3); /* itself, what it is in, and the file */
    assert_int_equal(error, 0);
    rewinddir(list);
    const int nothing = open("err", O_RDONLY | O_CREAT, 0600); /* no folder takes its place */
    assert_true(nothing >= 0 && dup2(nothing, dirfd(list)) >= 0);
    assert_null(door_next(list, &error));
    assert_int_equal(error, ENOTDIR);
    closedir(list);
    close(nothing);
}

/* Every line of every journal is a record, whatever was closed. */
static void no_journal_is_a_standard_descriptor(void **state)
{
    (void)state;
    static const char *const closed[] = {">&-", "2>&-", ">&- 2>&-"};
    static const char session[] = "printf 'no\\nshort cycling\\n1\\nstop\\n'";
    for (unsigned i = 0; i < sizeof closed / sizeof closed[0]; i++) {
        assert_int_equal(sh("rm -rf c; %s | $T ask $WELL --cases c %s", session, closed[i]),
                         strstr(closed[i], ">&-") == closed[i] ? 74 : 3);
        assert_int_equal(
            sh("mkdir -p c && cat /dev/null $(find c -name '*.jsonl') | grep -qv '^{\"version\"'"),
            1);
    }
    assert_int_equal(sh("rm -rf c; $T ask $WELL --cases c <&- >out 2>err"), 3);
    assert_holds("out", "Is there smoke");
    assert_int_equal(sh("rm -rf c; $T ask $WELL --cases c <&- >&- 2>&-"), 74);
}

static void closed_output_is_noticed(void **state)
{
    (void)state;
    assert_int_equal(sh("$T check $WELL >&- 2>err"), 74);
    assert_holds("err", "the output could not be written");
}

/* ---- names that lead to no plain file ---- */

static void what_is_no_plain_file_is_named_and_not_waited_for(void **state)
{
    (void)state;
    static const char *const names[][2] = {{"pipe", "this is a pipe"},
                                           {"/dev/zero", "this is a device"},
                                           {"folder", "this is a folder"},
                                           {"to-pipe", "this is a pipe"}};
    assert_int_equal(
        sh("rm -rf pipe to-pipe folder; mkfifo pipe && mkdir folder && ln -s pipe to-pipe"), 0);
    for (unsigned i = 0; i < sizeof names / sizeof names[0]; i++) {
        assert_int_equal(sh("$T rank $WELL %s 2>err", names[i][0]), 66);
        assert_holds("err", names[i][1]);
        assert_int_equal(sh("$T ask $WELL --site %s --no-input --unsaved 2>err", names[i][0]), 66);
        assert_holds("err", names[i][1]);
        assert_int_equal(sh("$T ask $WELL --answers %s --no-input --unsaved 2>err", names[i][0]),
                         66);
        assert_holds("err", names[i][1]);
    }
    assert_int_equal(sh("$T check pipe 2>err"), 66);
    assert_holds("err", "this is a pipe; a book is a folder");
}

static void a_link_that_somebody_names_is_followed(void **state)
{
    (void)state;
    assert_int_equal(sh("echo 'pump-sound: rapid' >answers.yaml; ln -sf answers.yaml linked.yaml; "
                        "ln -sfn $WELL linked-book"),
                     0);
    assert_int_equal(sh("$T rank linked-book linked.yaml >one && $T rank $WELL answers.yaml >two"),
                     0);
    assert_same("one", "two");
}

/* ---- signals ---- */

static void signals_end_what_waits(void **state)
{
    (void)state;
    static const int numbers[] = {SIGINT, SIGTERM, SIGHUP};
    for (unsigned i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        window *w = window_open(
            &(window_plan){.words = (const char *const[]){"ask", WELL, "--cases", "c", NULL}});
        window_await(w, "Is there smoke");
        window_type(w, "no");
        window_await_prompt(w, 2);
        window_signal(w, numbers[i]);
        window_await(w, "To go on with it:");
        assert_int_equal(window_close(w), 128 + numbers[i]);
    }
}

/* Nobody was asked anything, so there is nothing to tell. */
static void signals_end_what_reads_its_input(void **state)
{
    (void)state;
    window *w =
        window_open(&(window_plan){.words = (const char *const[]){"rank", WELL, "-", NULL}});
    window_type(w, "pump-sound: rapid");
    window_signal(w, SIGTERM);
    assert_int_equal(window_close(w), 128 + SIGTERM);
    w = window_open(
        &(window_plan){.words = (const char *const[]){"ask", WELL, "--answers", "-", "--no-input",
                                                      "--unsaved", NULL}});
    window_signal(w, SIGINT);
    assert_int_equal(window_close(w), 128 + SIGINT);
}

/* ---- links in a folder of cases ---- */

static void a_link_in_a_case_is_left_out_by_all_alike(void **state)
{
    (void)state;
    begin_case("c");
    assert_int_equal(sh("$T sheet $C >before && $T cases c --json >listed && mkfifo $C/fifo.jsonl"),
                     0);
    assert_int_equal(sh("echo '{}' >elsewhere && ln -s $PWD/elsewhere $C/more.jsonl"), 0);
    assert_int_equal(sh("$T cases c --json >out 2>err"), 0);
    assert_holds("err", "more.jsonl is left out: it is a link");
    assert_holds("err", "fifo.jsonl is left out: it is a pipe");
    assert_same("out", "listed");
    assert_int_equal(sh("$T sheet $C >out 2>err"), 0);
    assert_holds("err", "more.jsonl is left out: it is a link");
    assert_same("out", "before");
    assert_int_equal(sh("$T learn $WELL c >out 2>err"), 0);
    assert_holds("err", "more.jsonl is left out: it is a link");
    assert_holds("err", "fifo.jsonl is left out: it is a pipe");
}

static void a_linked_folder_is_not_followed_and_said(void **state)
{
    (void)state;
    begin_case("other");
    assert_int_equal(sh("rm -rf c && mkdir -p c/2025/03 && ln -s $PWD/other/* c/2024"), 0);
    assert_int_equal(sh("ln -s $PWD/$C c/2025/03/"), 0);
    static const char *const runs[] = {"cases c", "learn $WELL c",
                                       "ask --case $N --cases c --no-input"};
    for (unsigned i = 0; i < sizeof runs / sizeof runs[0]; i++) {
        int status = sh("$T %s >out 2>err", runs[i]);
        assert_int_equal(status, strncmp(runs[i], "ask", 3) == 0 ? 66 : 0);
        assert_holds("err", "c/2024 is left out: it is a link");
        assert_int_equal(sh("grep -q \"c/2025/03/$(basename $C) is left out: it is a link\" err"),
                         0);
        assert_int_equal(sh("grep -q $N out"), 1);
    }
    assert_int_equal(sh("$T sheet c/2025/03/$(basename $C) >out 2>err"), 0); /* named by a person */
}

/* ---- where a sheet goes ---- */

static unsigned rights_of(const char *path)
{
    struct stat about;
    assert_int_equal(stat(path, &about), 0);
    return about.st_mode & 0777;
}

static void a_sheet_takes_the_place_of_a_sheet_only(void **state)
{
    (void)state;
    static const char *const names[] = {"sheet.html", "sheet.md", "sheet.json", "sheet"};
    begin_case("c");
    for (unsigned i = 0; i < sizeof names / sizeof names[0]; i++) {
        const char *name = names[i];
        assert_int_equal(
            sh("rm -f %s; umask 000; $T sheet $C --into %s && cp %s before", name, name, name), 0);
        assert_int_equal(rights_of(name), 0600);
        assert_int_equal(sh("chmod 640 %s && $T sheet $C --into %s", name, name), 0);
        assert_int_equal(rights_of(name), 0640);
        assert_same(name, "before");
        assert_int_equal(
            sh("echo '{\"version\": 1, \"mine\": true}' >%s; $T sheet $C --into %s 2>err", name,
               name),
            73);
        assert_holds("err", "that telltale did not make");
        assert_holds("err", "--overwrite");
        assert_holds(name, "\"mine\"");
        assert_int_equal(sh("$T sheet $C --into %s --overwrite", name), 0);
        assert_same(name, "before");
        assert_int_equal(sh(": >%s; $T sheet $C --into %s", name, name), 0); /* nothing to lose */
        assert_same(name, "before");
    }
    assert_int_equal(sh("$T sheet $C --overwrite 2>err"), 2);
    assert_holds("err", "add --into FILE");
}

static void links_are_written_through_and_never_made(void **state)
{
    (void)state;
    begin_case("c");
    assert_int_equal(sh("rm -f real link astray; $T sheet $C --into real && ln -s real link && ln "
                        "-s nowhere/at-all astray"),
                     0);
    assert_int_equal(
        sh("$T sheet $C --into link && test -L link && test -f real && test ! -L real"), 0);
    assert_int_equal(sh("$T sheet $C --into astray 2>err"), 66);
    assert_holds("err", "astray is a link to a file that is not there");
    assert_int_equal(sh("mkdir -p folder; $T sheet $C --into folder 2>err"), 73);
    assert_holds("err", "folder is a folder");
}

static void what_is_no_file_gets_the_sheet_as_it_comes(void **state)
{
    (void)state;
    begin_case("c");
    assert_int_equal(sh("$T sheet $C >whole; rm -f pipe; mkfifo pipe; cat pipe >out & $T sheet $C "
                        "--into pipe && wait && test -p pipe"),
                     0);
    assert_same("out", "whole");
    assert_int_equal(sh("{ echo before >&3; $T sheet $C --into /dev/fd/3; echo after >&3; } 3>out "
                        "&& { echo before; cat whole; echo after; } >two"),
                     0);
    assert_same("out", "two");
    assert_int_equal(sh("$T sheet $C --into /dev/null && test -c /dev/null"), 0);
    assert_int_equal(sh("$T sheet $C --into /dev/fd/9 2>err 9>&-"), 74);
    assert_holds("err", "/dev/fd/9 could not be written");
    assert_int_equal(sh("test -c /dev/full || exit 74; $T sheet $C --into /dev/full 2>err"), 74);
}

/* Bytes without end are no answer, and not read for ever. */
static void what_has_no_lines_is_not_read_for_ever(void **state)
{
    (void)state;
    assert_int_equal(sh("head -c 3000000 /dev/zero | tr '\\000' a >long; echo >>long; "
                        "$T ask $WELL --unsaved --plain <long >out 2>err"),
                     3);
    assert_holds("err", "a megabyte came without the end of a line");
    assert_int_equal(sh("{ head -c 500000 long; echo; echo no; } >short; "
                        "$T ask $WELL --unsaved --plain <short >out 2>err"),
                     3);
    assert_holds("out", "That line is too long");
    assert_holds("out", "What is wrong?"); /* the line behind it counts */
    assert_int_equal(sh("test ! -s err || ! grep -q megabyte err"), 0);
}

/* Somebody who waits in vain for a reader can leave. */
static void a_signal_ends_waiting_for_a_reader(void **state)
{
    (void)state;
    begin_case("c");
    assert_int_equal(sh("rm -f pipe; mkfifo pipe"), 0);
    window *w = window_open(&(window_plan){
        .words = (const char *const[]){"sheet", getenv("C"), "--into", "pipe", NULL}});
    window_signal(w, SIGINT);
    assert_int_equal(window_close(w), 128 + SIGINT);
}

/* What somebody says about a site goes into a file, and never in the place of a device. */
static void a_device_is_not_replaced_by_a_site(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -f null pipe; ln -s /dev/null null; mkfifo pipe"), 0);
    assert_int_equal(write_whole("null", "site", 4, 0666, true), EPERM);
    assert_int_equal(write_whole("pipe", "site", 4, 0666, true), EPERM);
    assert_int_equal(write_whole("pipe", "site", 4, 0666, false), EEXIST);
    assert_int_equal(sh("test -c /dev/null && test -L null && test -p pipe"), 0);
}

/* Numbers of processes come again, above all where there are few of them. */
static void what_a_killed_process_left_is_in_nobodys_way(void **state)
{
    (void)state;
    char left[64], command[256];
    snprintf(left, sizeof left, "site.yaml.%ld.new", (long)getpid());
    snprintf(command, sizeof command, "rm -f site.yaml*; echo half >%s", left);
    assert_int_equal(sh("%s", command), 0);
    assert_int_equal(write_whole("site.yaml", "whole", 5, 0666, false), 0);
    assert_int_equal(write_whole("site.yaml", "again", 5, 0666, true), 0);
    assert_holds("site.yaml", "again");
    assert_int_equal(sh("test \"$(echo site.yaml*)\" = site.yaml"), 0);
}

/* A process of the same number on another machine that is still at it. */
static void what_another_holds_is_left_alone(void **state)
{
    (void)state;
    char theirs[64];
    int ready[2], done[2];
    char byte = 0;
    snprintf(theirs, sizeof theirs, "site.yaml.%ld.new", (long)getpid());
    assert_int_equal(sh("rm -f site.yaml*"), 0);
    assert_int_equal(pipe(ready), 0);
    assert_int_equal(pipe(done), 0);
    const pid_t other = fork();
    if (other == 0) {
        struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
        const int fd = open(theirs, O_CREAT | O_EXCL | O_RDWR, 0600);
        const bool held = fd >= 0 && fcntl(fd, F_SETLK, &whole) == 0 && write(fd, "half", 4) == 4;
        byte = held ? 'y' : 'n';
        close(done[1]);
        if (write(ready[1], &byte, 1) == 1) (void)!read(done[0], &byte, 1);
        _exit(0);
    }
    assert_true(other > 0);
    assert_int_equal(read(ready[0], &byte, 1), 1);
    assert_int_equal(byte, 'y');
    assert_int_equal(write_whole("site.yaml", "whole", 5, 0666, false), 0);
    assert_holds(theirs, "half");
    assert_holds("site.yaml", "whole");
    close(done[1]);
    int status;
    assert_int_equal(waitpid(other, &status, 0), other);
    for (int i = 0; i < 2; i++) close(ready[i]);
    close(done[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_journal_is_a_standard_descriptor),
        cmocka_unit_test(closed_output_is_noticed),
        cmocka_unit_test(what_is_no_plain_file_is_named_and_not_waited_for),
        cmocka_unit_test(a_link_that_somebody_names_is_followed),
        cmocka_unit_test(signals_end_what_waits),
        cmocka_unit_test(signals_end_what_reads_its_input),
        cmocka_unit_test(a_link_in_a_case_is_left_out_by_all_alike),
        cmocka_unit_test(a_linked_folder_is_not_followed_and_said),
        cmocka_unit_test(a_sheet_takes_the_place_of_a_sheet_only),
        cmocka_unit_test(links_are_written_through_and_never_made),
        cmocka_unit_test(a_device_is_not_replaced_by_a_site),
        cmocka_unit_test(what_a_killed_process_left_is_in_nobodys_way),
        cmocka_unit_test(what_another_holds_is_left_alone),
        cmocka_unit_test(a_folder_that_fails_has_not_ended),
        cmocka_unit_test(what_is_no_file_gets_the_sheet_as_it_comes),
        cmocka_unit_test(what_has_no_lines_is_not_read_for_ever),
        cmocka_unit_test(a_signal_ends_waiting_for_a_reader),
    };
    return cmocka_run_group_tests_name("door", tests, NULL, NULL);
}
