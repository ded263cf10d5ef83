/* A child is killed before the call that was named, and before no other. */
#include "testing.h"

#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <unistd.h>

#include "kill_points.h"
#include "skips.h"

/* Five calls that count, between others that don't. */
static void make_a_file(void *context)
{
    (void)context;
    int fd = open("made", O_RDWR | O_CREAT | O_TRUNC, 0600);
    (void)!write(fd, "one", 3);
    (void)lseek(fd, 0, SEEK_SET);
    (void)!write(fd, "two", 3);
    (void)fdatasync(fd);
    close(fd);
    (void)rename("made", "renamed");
}

static void gather(const system_call *call, void *context)
{
    char *all = context;
    const char *name = strrchr(call->path, '/');
    size_t length = strlen(all);
    snprintf(all + length, 400 - length, "%s%s ",
             strncmp(call->name, "rename", 6) == 0 ? "rename" : call->name,
             name != NULL ? name : "");
}

static void calls_are_told_in_order(void **state)
{
    (void)state;
    char all[400] = "";
    const counted_run run = {.child = make_a_file, .note = gather, .context = all};
    assert_int_equal(run_until_call(&run, 0), 0);
    assert_string_equal(all, "openat write/made write/made fdatasync/made rename ");
}

static bool is_there(const char *path, const char *text)
{
    char bytes[16] = "";
    FILE *file = fopen(path, "rb");
    if (file == NULL) return false;
    size_t length = fread(bytes, 1, sizeof bytes - 1, file);
    fclose(file);
    return length == strlen(text) && strcmp(bytes, text) == 0;
}

static void the_call_is_not_made_and_those_before_are(void **state)
{
    (void)state;
    const counted_run run = {.child = make_a_file};
    unlink("made");
    assert_int_equal(run_until_call(&run, 1), 128 + SIGKILL);
    assert_false(access("made", F_OK) == 0);
    assert_int_equal(run_until_call(&run, 2), 128 + SIGKILL);
    assert_true(is_there("made", ""));
    assert_int_equal(run_until_call(&run, 3), 128 + SIGKILL);
    assert_true(is_there("made", "one"));
    assert_int_equal(run_until_call(&run, 5), 128 + SIGKILL);
    assert_true(is_there("made", "two"));
    unlink("renamed");
    assert_int_equal(run_until_call(&run, 6), 0);
    assert_true(is_there("renamed", "two"));
}

static void count(const system_call *call, void *context)
{
    (void)call;
    ++*(unsigned *)context;
}

/* Every moment, up to the end. */
static void the_program_can_be_killed_too(void **state)
{
    (void)state;
    unsigned calls = 0;
    const char *const words[] = {"--version", NULL};
    counted_run run = {.words = words, .shown = "shown", .note = count, .context = &calls};
    assert_int_equal(run_until_call(&run, 0), 0);
    assert_true(calls >= 1);
    assert_int_equal(run_until_call(&run, 1), 128 + SIGKILL);
    assert_true(is_there("shown", ""));
    assert_int_equal(run_until_call(&run, calls + 1), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(calls_are_told_in_order),
        cmocka_unit_test(the_call_is_not_made_and_those_before_are),
        cmocka_unit_test(the_program_can_be_killed_too),
    };
    if (!can_count_calls())
        return skip_all_since(
            "kill points: this machine lets nobody trace his own children (ptrace)");
    return cmocka_run_group_tests_name("kill points", tests, NULL, NULL);
}
