#include "fuzz_target.h"
#include "luck.h"

#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "test_sources.h"

enum { MUTANTS = 20, LONGEST = 64 << 10, MOST_CHANGES = 6 };

/* One run, told where something goes wrong: also to a signal's handler. */
static struct {
    const char *name;
    fuzz_one *one;
    const char *const *folders;
    char running[512];
} plan;

_Noreturn void fuzz_failed(const char *condition, const char *file, int line)
{
    fprintf(stderr, "%s:%d: not so: %s\n", file, line, condition);
    abort();
}

static void name_input(int number)
{
    static const char begins[] = "\nthe input was ";
    const ssize_t done = write(2, begins, sizeof begins - 1) +
                         write(2, plan.running, strlen(plan.running)) + write(2, "\n", 1);
    (void)done;
    signal(number, SIG_DFL);
    raise(number);
}

/* ---- mutants: always the same ones of a seed ---- */

static size_t below(uint64_t *luck, size_t limit)
{
    assert_in_range(limit, 1, UINT32_MAX);
    return luck_below(luck, (uint32_t)limit);
}

typedef struct bytes {
    uint8_t *at;
    size_t length;
} bytes;

/* The part from `from` to `to` becomes `with`; what grows too long stays as it is. */
static void replace(bytes *b, size_t from, size_t to, const void *with, size_t length)
{
    if (b->length - (to - from) + length > LONGEST) return;
    memmove(b->at + from + length, b->at + to, b->length - to);
    memmove(b->at + from, with, length);
    b->length = b->length - (to - from) + length;
}

static void put_odd(bytes *b, uint64_t *luck)
{
    static const char *const odd[] = {
        "\n",
        "\t",
        ": ",
        "- ",
        "{",
        "}",
        "[",
        "]",
        "\"",
        "'",
        "#",
        "&a ",
        "*a",
        "!t ",
        "|\n",
        ">\n",
        "%",
        "@",
        "`",
        "\\",
        ",",
        "of ",
        "every ",
        "first",
        "0",
        "-1",
        "1e308",
        "1e-308",
        "99999999999999999999",
        "nan",
        "inf",
        "0x1",
        "1:0",
        "1/0",
        "\xff",
        "\xc0\x80",
        "\xed\xa0\x80",
        "\xe2\x80\xae",
        "\xef\xbb\xbf",
        "\x1b[2J",
        "\x7f",
        "~",
        "null",
        "true",
        "each",
        "danger",
        "unsure",
        "yes",
        "no",
        "100 %",
        "psi",
        "2026-02-30",
    };
    const char *with = odd[below(luck, sizeof odd / sizeof odd[0])];
    const size_t at = below(luck, b->length + 1);
    replace(b, at, at, with, strlen(with));
}

static void change_byte(bytes *b, uint64_t *luck)
{
    const size_t at = below(luck, b->length);
    const unsigned turned = b->at[at] ^ (1u << below(luck, 8));
    b->at[at] = (uint8_t)(below(luck, 2) == 0 ? below(luck, 256) : turned);
}

static void drop(bytes *b, uint64_t *luck)
{
    const size_t from = below(luck, b->length), most = below(luck, 4) == 0 ? b->length - from : 8;
    const size_t to = from + 1 + below(luck, most);
    replace(b, from, to < b->length ? to : b->length, "", 0);
}

/* A part of it, once more, elsewhere. */
static void repeat(bytes *b, uint64_t *luck)
{
    uint8_t part[256];
    const size_t from = below(luck, b->length), rest = b->length - from;
    const size_t length = 1 + below(luck, rest < sizeof part ? rest : sizeof part);
    memcpy(part, b->at + from, length);
    const size_t at = below(luck, b->length + 1);
    for (size_t times = 1 + below(luck, 3); times-- > 0;) replace(b, at, at, part, length);
}

static size_t line_at(const bytes *b, size_t at)
{
    while (at > 0 && b->at[at - 1] != '\n') at--;
    return at;
}

static void move_line(bytes *b, uint64_t *luck)
{
    uint8_t line[512];
    const size_t from = line_at(b, below(luck, b->length));
    size_t to = from;
    while (to < b->length && b->at[to++] != '\n') continue;
    if (to - from > sizeof line) return;
    memcpy(line, b->at + from, to - from);
    const size_t length = to - from;
    replace(b, from, to, "", 0);
    const size_t at = b->length > 0 ? line_at(b, below(luck, b->length)) : 0;
    replace(b, at, at, line, length);
}

static void mutate(bytes *b, uint64_t *luck)
{
    static void (*const ways[])(bytes *, uint64_t *) = {change_byte, drop, repeat, move_line};
    for (size_t changes = 1 + below(luck, MOST_CHANGES); changes > 0; changes--) {
        const size_t way = below(luck, 1 + sizeof ways / sizeof ways[0]);
        if (way == 0 || b->length == 0)
            put_odd(b, luck);
        else
            ways[way - 1](b, luck);
    }
}

/* ---- a folder of seeds ---- */

/* Of its own length, so that whoever reads past its end is found out. */
static void run(const uint8_t *at, size_t length)
{
    uint8_t *copy = malloc(length > 0 ? length : 1);
    assert_non_null(copy);
    if (length > 0) memcpy(copy, at, length);
    plan.one(copy, length);
    free(copy);
}

/* Of an own seed; of files that are there for other tests too, and many, a hundredth. */
static size_t mutants_wanted(void)
{
    const char *wanted = getenv("TELLTALE_FUZZ");
    return wanted != NULL ? strtoul(wanted, NULL, 10) : MUTANTS;
}

static void run_seed(const char *path, str seed, size_t mutants)
{
    uint8_t *room = malloc(LONGEST);
    assert_non_null(room);
    snprintf(plan.running, sizeof plan.running, "%s", path);
    run((const uint8_t *)seed.p, seed.n);
    for (size_t i = 0; i < mutants && seed.n <= LONGEST; i++) {
        uint64_t luck = (uint64_t)seed.n << 32 | i;
        bytes b = {room, seed.n};
        memcpy(room, seed.p, seed.n);
        mutate(&b, &luck);
        snprintf(plan.running, sizeof plan.running, "%s, mutant %zu", path, i);
        run(b.at, b.length);
    }
    free(room);
}

static size_t run_folder(const char *folder, size_t mutants)
{
    arena *keep = test_arena();
    const str root = str_printf(keep, "%s/%s", TT_SOURCE_DIR, folder);
    const file_names names = files_ending(keep, root.p, "");
    for (size_t i = 0; i < names.count; i++) {
        const str path = str_printf(keep, "%s/%.*s", root.p, STR_ARG(names.items[i]));
        if (names.items[i].p[0] != '.' && !str_ends(names.items[i], ".expected"))
            run_seed(path.p, file_bytes(keep, path.p), mutants);
    }
    arena_free(keep);
    return names.count;
}

static void seeds_and_their_mutants(void **state)
{
    char own[256];
    (void)state;
    snprintf(own, sizeof own, "tests/fuzz/seeds/%s", plan.name);
    assert_true(run_folder(own, mutants_wanted()) > 0);
    for (size_t i = 0; plan.folders != NULL && plan.folders[i] != NULL; i++)
        assert_true(run_folder(plan.folders[i], mutants_wanted() / 100) > 0);
}

/* What a search led by coverage has found, as tests/keep_found packs it: LENGTH:BYTES, one behind
 * the other. */
static void what_a_search_has_found(void **state)
{
    arena *keep = test_arena();
    const str path = str_printf(keep, "%s/tests/fuzz/found/%s", TT_SOURCE_DIR, plan.name);
    const str all = file_bytes(keep, path.p);
    size_t count = 0;
    (void)state;
    for (size_t at = 0; at < all.n; count++) {
        char *colon;
        const size_t length = strtoul(all.p + at, &colon, 10);
        const size_t from = (size_t)(colon + 1 - all.p);
        assert_int_equal(*colon, ':');
        assert_true(from + length <= all.n);
        snprintf(plan.running, sizeof plan.running, "%s, number %zu", path.p, count);
        run((const uint8_t *)all.p + from, length);
        at = from + length;
    }
    assert_true(count > 0);
    arena_free(keep);
}

static void nothing_at_all(void **state)
{
    (void)state;
    snprintf(plan.running, sizeof plan.running, "no bytes");
    run((const uint8_t *)"", 0);
}

int fuzz_as_test(const char *name, fuzz_one *one, const char *const *folders)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_at_all),
        cmocka_unit_test(seeds_and_their_mutants),
        cmocka_unit_test(what_a_search_has_found),
    };
    plan.name = name;
    plan.one = one;
    plan.folders = folders;
    signal(SIGABRT, name_input);
    return cmocka_run_group_tests_name(name, tests, NULL, NULL);
}
