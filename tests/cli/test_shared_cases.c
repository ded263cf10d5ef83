/* One folder of cases, two people, two copies: git and rsync bring them together without a
 * conflict, in either order, to the same state. */
#include "run_telltale.h"

#include <fcntl.h>
#include <sys/types.h>
#include <unistd.h>

#include "skips.h"
#include "verb/verbs.h"

/* Who the program takes us for: a writer is a user on a machine, and this stands in for the C
 * library's own. */
static uid_t pretended = 1001;
uid_t getuid(void);
uid_t getuid(void)
{
    return pretended;
}

static void take_file(const char *path, int how, int as)
{
    int fd = open(path, how, 0600);
    if (fd < 0 || dup2(fd, as) < 0) _exit(126);
    close(fd);
}

/* `telltale` as this user in this folder, with what is typed in `typed`; output goes to said. Its
 * exit status. */
static int run_as(uid_t user, const char *folder, const char *typed, char **words)
{
    int count = 0;
    while (words[count] != NULL) count++;
    assert_int_equal(sh("printf '%s\\n' >%s/typed", typed, folder), 0);
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        command_line line;
        pretended = user;
        if (chdir(folder) != 0) _exit(126);
        take_file("typed", O_RDONLY, STDIN_FILENO);
        take_file("said", O_WRONLY | O_CREAT | O_TRUNC, STDOUT_FILENO);
        exit_status status = command_line_read(count, words, &line);
        const verb_entry *verb = status == EXIT_DONE ? verb_find(line.words[0]) : NULL;
        status = verb != NULL ? verb->run(&line) : EXIT_USAGE;
        fflush(stdout);
        _exit((int)status);
    }
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

static char book[] = WELL, cases[] = "cases";

static int begin(uid_t user, const char *folder, const char *typed)
{
    char *words[] = {"telltale", "ask", book, "--cases", cases, NULL};
    return run_as(user, folder, typed, words);
}

static int go_on(uid_t user, const char *folder, const char *typed)
{
    char *number = contents("number");
    number[strcspn(number, "\n")] = 0;
    char *words[] = {"telltale", "ask", "--case", number, "--cases", cases, NULL};
    int status = run_as(user, folder, typed, words);
    free(number);
    return status;
}

/* What the copy says: the list for programs, the bytes, and how the case reads; where the copy lies
 * is no part of it. */
static void look_at(const char *folder)
{
    char *words[] = {"telltale", "cases", cases, "--json", NULL};
    assert_int_equal(run_as(1003, folder, "", words), 0);
    assert_int_equal(
        sh("cd %s && $T ask --case \"$(cat ../number)\" --cases cases --no-input </dev/null >view",
           folder),
        3);
    assert_int_equal(sh("cd %s && sed \"s|$PWD|HERE|g\" said >../%s.list && sed \"s|$PWD|HERE|g\" "
                        "view >../%s.view",
                        folder, folder, folder),
                     0);
    assert_int_equal(
        sh("(cd %s && find cases -name '*.jsonl' | sort | xargs -d '\\n' sha256sum) >%s.bytes",
           folder, folder),
        0);
}

static void assert_same_state(const char *one, const char *other)
{
    static const char *const what[] = {"list", "bytes", "view"};
    look_at(one);
    look_at(other);
    for (size_t i = 0; i < sizeof what / sizeof what[0]; i++) {
        char a[64], b[64];
        snprintf(a, sizeof a, "%s.%s", one, what[i]);
        snprintf(b, sizeof b, "%s.%s", other, what[i]);
        assert_same(a, b);
    }
}

/* Everything that both have done is there, and is said. */
static void assert_all_there(const char *folder)
{
    char name[64];
    snprintf(name, sizeof name, "%s.list", folder);
    assert_int_equal(
        sh("test \"$(wc -l <%s)\" = 3 && test \"$(wc -l <%s.bytes)\" = 4", name, folder), 0);
    assert_int_equal(sh("grep \"\\\"$(cat number)\\\"\" %s >its-line", name), 0);
    assert_holds("its-line", "\"tried\":1,");
    assert_holds("its-line", "\"note\":\"back at noon\"");
    assert_int_equal(
        sh("test \"$(grep -c silent %s)\" = 2 && grep -q 'short cycling' %s", name, name), 0);
}

/* Copy `one` has a case that is left at a fix. */
static void begin_one(void)
{
    assert_int_equal(sh("rm -rf one two one.* two.* number && mkdir -p one/cases"), 0);
    assert_int_equal(begin(1001, "one", "no\\nsilent\\n1\\nbegin\\ndone\\nstop"), 3);
    assert_int_equal(
        sh("sed -n 's/^Case number: //p' one/said | head -1 >number && test -s number"), 0);
}

/* Each goes on with the same case, not knowing of the other, and begins one more. */
static void both_go_on(void)
{
    assert_int_equal(go_on(1001, "one", "no\\nhold\\nback at noon"), 3);
    assert_int_equal(go_on(1002, "two", "no\\nbegin\\ndone\\nno change\\nstop"), 3);
    assert_int_equal(begin(1001, "one", "no\\nsilent\\n1\\nbegin\\ndone\\nstop"), 3);
    assert_int_equal(begin(1002, "two", "no\\nshort cycling\\n1\\nstop"), 3);
}

/* ---- git ---- */

#define GIT \
    "git -c user.name=somebody -c user.email=somebody@example.invalid -c init.defaultBranch=main"

static void commit(const char *folder)
{
    assert_int_equal(sh("cd %s && " GIT " add cases && " GIT " commit -qm cases", folder), 0);
}

static void pull(const char *folder, const char *from)
{
    assert_int_equal(
        sh("cd %s && " GIT " pull -q --no-rebase --no-edit ../%s main 2>../err", folder, from), 0);
    assert_int_equal(sh("cd %s && test -z \"$(git ls-files -u)\"", folder), 0);
}

static void share_by_git(const char *first, const char *second)
{
    need_program("git", "git");
    begin_one();
    assert_int_equal(sh("cd one && " GIT " init -q"), 0);
    commit("one");
    assert_int_equal(sh(GIT " clone -q one two"), 0);
    both_go_on();
    commit("one");
    commit("two");
    pull(first, second);
    pull(second, first);
    assert_same_state("one", "two");
    assert_all_there("one");
}

static void git_brings_copies_together(void **state)
{
    (void)state;
    share_by_git("one", "two");
}

static void git_in_the_other_order_too(void **state)
{
    (void)state;
    share_by_git("two", "one");
}

/* ---- rsync ---- */

/* With --append the longer file stays: it has all that the shorter one has. (--update goes by the
 * second in which a file was changed, and would put an older one over one of the same second.) */
static void copy_news(const char *from, const char *to)
{
    assert_int_equal(sh("rsync -a --append %s/cases/ %s/cases/", from, to), 0);
}

static void share_by_rsync(const char *first, const char *second)
{
    need_program("rsync", "rsync");
    begin_one();
    assert_int_equal(sh("mkdir -p two/cases"), 0);
    copy_news("one", "two");
    both_go_on();
    copy_news(first, second);
    copy_news(second, first);
    assert_same_state("one", "two");
    assert_all_there("two");
    copy_news(first, second); /* once more changes nothing */
    assert_same_state("one", "two");
}

static void rsync_brings_copies_together(void **state)
{
    (void)state;
    share_by_rsync("one", "two");
}

static void rsync_in_the_other_order_too(void **state)
{
    (void)state;
    share_by_rsync("two", "one");
}

/* ---- one folder for both ---- */

static void in_one_folder_both_are_heard(void **state)
{
    (void)state;
    begin_one();
    assert_int_equal(sh("ln -s one two"), 0);
    both_go_on();
    look_at("one");
    assert_int_equal(sh("test \"$(wc -l <one.list)\" = 3 && test \"$(grep -l back.at.noon "
                        "one/cases/*/*/*/*.jsonl | wc -l)\" = 1"),
                     0);
    assert_int_equal(sh("grep -q '\"tried\":1,.*\"note\":null' one.list"),
                     0); /* somebody has gone on since */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(git_brings_copies_together),
        cmocka_unit_test(git_in_the_other_order_too),
        cmocka_unit_test(rsync_brings_copies_together),
        cmocka_unit_test(rsync_in_the_other_order_too),
        cmocka_unit_test(in_one_folder_both_are_heard),
    };
    return cmocka_run_group_tests_name("shared cases", tests, NULL, NULL);
}
