/* Of very many cases only those are read that changed: and the list is always the one that reading
 * all of them gives. */
#include "testing.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "base/arena.h"
#include "depots/folder_parts.h"
#include "depots/known_cases.h"
#include "host/memory.h"
#include "many_cases.h"
#include "summary/summary_row.h"
#include "test_sources.h"

enum { CASES = KNOWN_FROM + 200, HOUR = 3600000 };

#define KNOWN ".cache/telltale/known-cases"

static const case_query all = {
    .states = UINT32_MAX, .kinds = UINT32_MAX, .since = INT64_MIN, .until = INT64_MAX};

static int64_t real_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_REALTIME, &now);
    return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static int nothing_known(void **state)
{
    (void)state;
    return system("rm -rf .cache");
}

static int fresh(void **state)
{
    assert_int_equal(system("rm -rf cases"), 0);
    many_cases("cases", CASES);
    return nothing_known(state);
}

/* How many bytes this process has read so far; -1: nothing tells. */
static long long bytes_read(void)
{
    long long bytes = -1;
    FILE *f = fopen("/proc/self/io", "r");
    if (f == NULL || fscanf(f, "rchar: %lld", &bytes) != 1) bytes = -1;
    if (f != NULL) fclose(f);
    return bytes;
}

/* All of it in words, to be compared. */
static char *list_at(const case_query *query, int64_t now)
{
    case_list list = {.cases = NULL};
    char *out = NULL;
    size_t length = 0;
    arena *keep = host_arena();
    FILE *f = open_memstream(&out, &length);
    assert_non_null(f);
    assert_int_equal(folder_list_at("cases", query, now, &list), EXIT_DONE);
    for (size_t i = 0; i < list.count; i++) {
        const case_summary *s = &list.cases[i];
        const case_findable none = {"", ""};
        fprintf(f, "%s %s %s %u %s\n", s->uuid, s->number, s->folder, s->says.damaged,
                summary_row_text(keep, s, &none, 0));
    }
    fprintf(f, "%zu of %zu, %zu failed\n", list.count, list.looked_at, list.failed);
    fclose(f);
    case_list_free(&list);
    arena_free(keep);
    return out;
}

/* An hour from now nothing is too new to be noted. */
static char *list_later(const case_query *query)
{
    return list_at(query, real_now() + HOUR);
}

/* With what is known, and with that put aside: the same. Whether anything is known is left as it
 * was. */
static void assert_same(const case_query *query)
{
    const bool known = rename(".cache", "aside") == 0;
    char *wanted = list_later(query);
    if (known) assert_int_equal(system("rm -rf .cache && mv aside .cache"), 0);
    char *got = list_later(query);
    assert_string_equal(got, wanted);
    free(got);
    free(wanted);
}

static int names_known(void)
{
    return system("test -d " KNOWN " || exit 0; exit $(ls " KNOWN " | wc -l)") >> 8;
}

static void what_did_not_change_is_not_read(void **state)
{
    (void)state;
    char *first = list_later(&all);
    const long long before = bytes_read();
    char *second = list_later(&all);
    const long long after = bytes_read();
    assert_string_equal(first, second);
    assert_non_null(strstr(first, "1200 of 1200, 0 failed"));
    struct stat about;
    assert_int_equal(system("cp " KNOWN "/* known"), 0);
    assert_int_equal(stat("known", &about), 0);
    assert_true(about.st_size > 200 * CASES);
    if (before >= 0) assert_true(after - before < 2 * about.st_size); /* cases are ten times that */
    free(first);
    free(second);
}

static void what_was_written_a_moment_ago_is_not_noted(void **state)
{
    (void)state;
    /* as if it were when the first of them was written, however long the others took */
    struct stat first;
    FILE *f = popen("ls -d cases/2025/01/* | head -1", "r");
    char folder[512];
    assert_non_null(f);
    assert_int_equal(fscanf(f, "%511s", folder), 1);
    pclose(f);
    assert_int_equal(stat(folder, &first), 0);
    free(list_at(&all, (int64_t)first.st_ctim.tv_sec * 1000));
    assert_int_equal(names_known(), 0);
    free(list_later(&all));
    assert_int_equal(names_known(), 1);
}

/* A change leaves times behind that were not there before: where they are coarse, it is made again
 * until it does. */
static void change(const char *path, const char *command)
{
    struct stat before, now;
    assert_int_equal(stat(path, &before), 0);
    do {
        assert_int_equal(system(command), 0);
        assert_int_equal(stat(path, &now), 0);
    } while (memcmp(&before.st_ctim, &now.st_ctim, sizeof now.st_ctim) == 0);
}

static char *command_of(const char *format, const char *folder)
{
    static char command[8192];
    size_t length = 0;
    for (const char *p = format; *p != 0; p++) {
        if (*p == '@')
            length += (size_t)snprintf(command + length, sizeof command - length, "%s", folder);
        else
            command[length++] = *p;
        assert_true(length < sizeof command - 1);
    }
    command[length] = 0;
    return command;
}

static void each_change_of_a_case_is_seen(void **state)
{
    (void)state;
    static const struct {
        const char *changed, *command;
    } changes[] = {
        {"@/0123456789ab.jsonl", "echo damaged >>@/0123456789ab.jsonl"},
        {"@/0123456789ab.jsonl",
         "sed 's/it stops/it halts/' @/0123456789ab.jsonl >x && cat x >@/0123456789ab.jsonl"},
        {"@", "sed 's/it halts/it jumps/' @/0123456789ab.jsonl >x && mv x @/0123456789ab.jsonl"},
        {"@/0123456789ab.jsonl",
         "cp -p @/0123456789ab.jsonl x && sed 's/it jumps/it sinks/' x >@/0123456789ab.jsonl && "
         "touch -r x @/0123456789ab.jsonl"},
        {"@", "touch x; sed 's/0123456789ab/ba9876543211/' @/0123456789ab.jsonl "
              ">@/ba9876543211.jsonl; test -s @/ba9876543211.jsonl"},
        {"@", "rm -f @/ba9876543211.jsonl; touch @/y.jsonl"},
        {"@", "rm -f @/z.jsonl; ln -s /etc/passwd @/z.jsonl"},
        {"cases/2025/01", "rm -rf moved; mv @ moved; mkdir @; mv moved/* @"},
    };
    FILE *f = popen("ls -d cases/2025/01/* | sed -n 77p", "r");
    char folder[512], changed[8192];
    assert_non_null(f);
    assert_int_equal(fscanf(f, "%511s", folder), 1);
    pclose(f);
    for (size_t i = 0; i < sizeof changes / sizeof changes[0]; i++) {
        free(list_later(&all));
        char *before = list_later(&all);
        memcpy(changed, command_of(changes[i].changed, folder), sizeof changed);
        change(changed, command_of(changes[i].command, folder));
        assert_same(&all);
        char *after = list_later(&all);
        if (i < 5) assert_string_not_equal(before, after);
        free(before);
        free(after);
    }
}

static void cases_come_and_go(void **state)
{
    (void)state;
    free(list_later(&all));
    change("cases/2025/01", "rm -r $(ls -d cases/2025/01/* | sed -n 5p)");
    assert_same(&all);
    change("cases/2025/01", "cp -r $(ls -d cases/2025/01/* | sed -n 5p) "
                            "cases/2025/01/01941e00-0000-7abc-8def-000000000000");
    assert_same(&all);
    /* the same case in two months */
    assert_int_equal(system("mkdir -p cases/2025/02 && cp -r $(ls -d cases/2025/01/* | sed -n 9p) "
                            "cases/2025/02/"),
                     0);
    assert_same(&all);
    assert_same(&all);
}

static void of_what_is_deleted_nothing_is_kept(void **state)
{
    (void)state;
    free(list_later(&all));
    static const char looked[] = "tr '\\0' '\\n' <$(ls -d " KNOWN "/* | head -1) >told; "
                                 "grep -q 'it stops again, number 7$' told";
    assert_int_equal(system(looked), 0);
    change("cases/2025/01", "rm -r $(grep -l 'stops again, number 7\"' -r cases | head -1 | xargs "
                            "dirname)");
    free(list_later(&all));
    assert_int_not_equal(system(looked), 0);
    /* so few that all are read: nothing is kept of any */
    assert_int_equal(names_known(), 1);
    assert_int_equal(system("rm -r $(ls -d cases/2025/01/* | tail -n 300)"), 0);
    free(list_later(&all));
    assert_int_equal(names_known(), 0);
}

/* What can't be said is looked at whole: the file as it is, zeros as line ends. */
static bool holds(const char *words)
{
    char command[512];
    snprintf(command, sizeof command, "cat " KNOWN "/* 2>/dev/null | tr '\\0' '\\n' | grep -q '%s'",
             words);
    return system(command) == 0;
}

static void what_is_struck_out_of_a_case_is_not_kept(void **state)
{
    (void)state;
    free(list_later(&all));
    assert_true(holds("it stops again, number 7$"));
    FILE *f = popen("grep -l 'stops again, number 7\"' -r cases | head -1", "r");
    char file[512], command[2048];
    assert_non_null(f);
    assert_int_equal(fscanf(f, "%511s", file), 1);
    pclose(f);
    snprintf(command, sizeof command,
             "sed 's/again, number 7\"/again, number x\"/' %s >x && cat x >%s", file, file);
    change(file, command);
    free(list_later(&all));
    assert_false(holds("it stops again, number 7$"));
}

static void a_search_for_words_forgets_what_is_deleted(void **state)
{
    (void)state;
    free(list_later(&all));
    assert_true(holds("it stops again, number 9$"));
    change("cases/2025/01", "rm -r $(grep -l 'stops again, number 9\"' -r cases | head -1 | xargs "
                            "dirname)");
    char word[] = "number";
    char *words[] = {word};
    case_query said = all;
    said.words = words;
    said.word_count = 1;
    free(list_later(&said));
    assert_false(holds("it stops again, number 9$"));
}

static void of_a_root_that_is_not_there_nothing_is_kept(void **state)
{
    (void)state;
    free(list_later(&all));
    assert_int_equal(names_known(), 1);
    assert_int_equal(system("mv cases elsewhere"), 0);
    assert_int_equal(system(TT_PROGRAM " cases cases --count >out 2>&1") >> 8, EXIT_NO_FILE);
    assert_int_equal(names_known(), 0);
    assert_int_equal(system("mv elsewhere cases"), 0);
}

static void of_a_folder_that_is_gone_nothing_is_kept(void **state)
{
    (void)state;
    free(list_later(&all));
    assert_int_equal(names_known(), 1);
    assert_int_equal(system("rm -rf elsewhere && mkdir elsewhere && mv cases elsewhere/"), 0);
    many_cases("cases", CASES);
    assert_int_equal(chdir("elsewhere"), 0);
    setenv("XDG_CACHE_HOME", "../.cache", 1); /* no whole path: passed over */
    char *home = realpath("..", NULL);
    setenv("HOME", home, 1);
    free(list_later(&all));
    unsetenv("XDG_CACHE_HOME");
    assert_int_equal(chdir(".."), 0);
    assert_int_equal(names_known(), 2);
    assert_int_equal(system("rm -rf elsewhere cases"), 0);
    many_cases("cases", CASES);
    free(list_later(&all));
    assert_int_equal(names_known(), 1);
    free(home);
}

static void a_part_of_them_is_the_same_part(void **state)
{
    (void)state;
    const case_query open = {
        .states = 1u << TT_CASE_OPEN, .kinds = UINT32_MAX, .since = INT64_MIN, .until = INT64_MAX};
    const case_query early = {.states = UINT32_MAX,
                              .kinds = UINT32_MAX,
                              .since = INT64_MIN,
                              .until = (int64_t)1735689600 * 1000 + 100 * 300000};
    char word[] = "number 77";
    char *words[] = {word};
    case_query said = all, cause = all;
    said.words = words;
    said.word_count = 1;
    cause.cause = "cause-3";
    free(list_later(&early)); /* notes only these */
    assert_same(&all);
    free(list_later(&all));
    assert_same(&open);
    assert_same(&early);
    assert_same(&said);
    assert_same(&cause);
}

/* ---- what others, or a failing disk, may make of it ---- */

static char *known_file(void)
{
    static char path[512];
    FILE *f = popen("ls -d " KNOWN "/*", "r");
    assert_non_null(f);
    assert_int_equal(fscanf(f, "%511s", path), 1);
    pclose(f);
    return path;
}

static void damage(const char *path, long at)
{
    FILE *f = fopen(path, "r+b");
    assert_non_null(f);
    assert_int_equal(fseek(f, at, SEEK_SET), 0);
    const int byte = getc(f);
    assert_int_equal(fseek(f, at, SEEK_SET), 0);
    putc(byte ^ 0x11, f);
    assert_int_equal(fclose(f), 0);
}

static void what_is_damaged_or_of_somebody_else_is_not_used(void **state)
{
    (void)state;
    free(list_later(&all));
    char *wanted = list_later(&all);
    struct stat about;
    assert_int_equal(stat(known_file(), &about), 0);
    assert_int_equal(system("cp -r " KNOWN " spare"), 0);
    for (int i = 0; i < 16; i++) {
        const long at = i < 8 ? i * 16 : about.st_size / 8 * (i - 8);
        assert_int_equal(system("rm -rf " KNOWN " && cp -r spare " KNOWN), 0);
        if (i % 2 == 0)
            damage(known_file(), at);
        else
            assert_int_equal(truncate(known_file(), at), 0);
        char *got = list_later(&all);
        assert_string_equal(got, wanted);
        free(got);
    }
    static const char *const ways[] = {
        "chmod g+w " KNOWN "/*",
        "mv " KNOWN "/* elsewhere && ln -s $PWD/elsewhere $(echo " KNOWN ")/$(ls spare)",
        "rm " KNOWN "/* && mkdir $(echo " KNOWN ")/$(ls spare)",
        "rm " KNOWN "/* && mkfifo $(echo " KNOWN ")/$(ls spare)",
        "rm -r " KNOWN " && touch " KNOWN,
        "rm -r .cache && touch .cache",
    };
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        assert_int_equal(
            system("rm -rf .cache elsewhere && mkdir -p " KNOWN " && cp spare/* " KNOWN), 0);
        assert_int_equal(system(ways[i]), 0);
        char *got = list_later(&all);
        assert_string_equal(got, wanted);
        free(got);
    }
    assert_int_equal(system("rm -rf .cache spare elsewhere"), 0);
    free(wanted);
}

static void without_a_home_all_are_read(void **state)
{
    (void)state;
    char *wanted = list_later(&all), *home = strdup(getenv("HOME"));
    unsetenv("HOME");
    char *got = list_later(&all);
    assert_string_equal(got, wanted);
    setenv("HOME", home, 1);
    free(home);
    free(got);
    free(wanted);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(what_did_not_change_is_not_read, fresh),
        cmocka_unit_test_setup(what_was_written_a_moment_ago_is_not_noted, nothing_known),
        cmocka_unit_test_setup(a_part_of_them_is_the_same_part, nothing_known),
        cmocka_unit_test_setup(what_is_damaged_or_of_somebody_else_is_not_used, nothing_known),
        cmocka_unit_test_setup(without_a_home_all_are_read, nothing_known),
        cmocka_unit_test_setup(each_change_of_a_case_is_seen, nothing_known),
        cmocka_unit_test_setup(cases_come_and_go, nothing_known),
        cmocka_unit_test_setup(of_a_root_that_is_not_there_nothing_is_kept, nothing_known),
        cmocka_unit_test_setup(a_search_for_words_forgets_what_is_deleted, fresh),
        cmocka_unit_test_setup(what_is_struck_out_of_a_case_is_not_kept, nothing_known),
        cmocka_unit_test_setup(of_what_is_deleted_nothing_is_kept, fresh),
        cmocka_unit_test_setup(of_a_folder_that_is_gone_nothing_is_kept, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
