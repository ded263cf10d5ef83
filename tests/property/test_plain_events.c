/* What is read without the parser is what the parser reads: of the books that come with the
 * program and those of the tests, of pieces of them with letters and indents changed, and of any
 * signs of YAML in a row. */
#include "luck.h"
#include "testing.h"

#include <stdlib.h>
#include <string.h>

#include "base/faults.h"
#include "load/checks.h"
#include "load/plain_events.h"
#include "shipped_books.h"
#include "test_sources.h"

enum { PIECES = 40, PIECE_MOST = 600, CHANGES = 3, SOUPS = 60000, SOUP_MOST = 14, LINES_MOST = 5 };

static struct {
    uint32_t plain, all;
} seen;

/* How many more there are to be than this test takes by itself. */
static uint32_t times_more(void)
{
    const char *more = getenv("TELLTALE_FUZZ");
    return more == NULL ? 1 : 1 + (uint32_t)strtoul(more, NULL, 10);
}

static bool same_event(const event *a, const event *b)
{
    return a->kind == b->kind && a->start == b->start && a->end == b->end &&
           a->children == b->children && !b->anchored && !b->tagged && !b->too_long &&
           (a->kind == EVENT_LIST_END || a->kind == EVENT_MAP_END || a->style == b->style) &&
           str_eq(a->text, b->text) && (a->text.n == 0 || a->text.p[a->text.n] == '\0');
}

static void told(str bytes, const events *ours, const events *parsers, uint32_t i)
{
    if (parsers->stop != STOP_AT_END)
        fail_msg("refused by the parser at byte %u (%s):\n%.*s\n", parsers->at, parsers->problem,
                 STR_ARG(bytes));
    const event *a = &ours->items[i], *b = &parsers->items[i];
    fail_msg("event %u of %u and %u: kind %d, bytes %u-%u, '%.*s'; the parser says kind %d, bytes "
             "%u-%u, '%.*s':\n%.*s\n",
             i, ours->count, parsers->count, a->kind, a->start, a->end, STR_ARG(a->text), b->kind,
             b->start, b->end, STR_ARG(b->text), STR_ARG(bytes));
}

/* Both ways; false: only the parser reads it. */
static bool read_both(str bytes, uint32_t limit)
{
    arena *a = test_arena(), *scratch = test_arena();
    const sources all = source_from_text(a, "a.yaml", bytes);
    const source *s = &all.items[0];
    uint32_t ours_left = limit, left = limit;
    events ours, parsers;
    bool plain = false;
    if (check_bytes(&all, 0, faults_new(a))) plain = plain_events(a, scratch, s, &ours_left, &ours);
    if (plain) {
        parsers = parsed_events(a, scratch, s, &left);
        const uint32_t most = parsers.count < ours.count ? parsers.count : ours.count;
        uint32_t i = 0;
        while (i < most && same_event(&ours.items[i], &parsers.items[i])) i++;
        if (parsers.stop != STOP_AT_END || i < ours.count || i < parsers.count)
            told(bytes, &ours, &parsers, i);
        assert_int_equal(left, ours_left);
    } else {
        assert_int_equal(ours_left, limit);
    }
    arena_free(a);
    arena_free(scratch);
    seen.all++;
    seen.plain += plain;
    return plain;
}

static const char *const signs[] = {
    "a",    "b c",  ": ",   ":", "- ",    "-",     "\n",     "\n", "\n  ",
    "\n ",  "\n\n", "  ",   " ", "{",     "}",     "[",      "]",  ", ",
    "\"",   "'",    "# c",  "#", "? ",    "a: ",   "&a ",    "*a", "!t ",
    "|\n ", ">\n ", "\\",   "%", "---\n", "\t",    "\r\n",   "é",  "...",
    "\\\"", "''",   "|",    ">", "a:\n",  "- a\n", "a: b\n", "@",  "\xEF\xBB\xBF",
    ",",    "-1",   "<<: ",
};
enum { SIGNS = sizeof signs / sizeof *signs };

static void put(char *bytes, size_t *length, const char *sign)
{
    memcpy(bytes + *length, sign, strlen(sign));
    *length += strlen(sign);
}

static void any_signs(void **state)
{
    (void)state;
    uint64_t luck = 11;
    char bytes[SOUP_MOST * 8];
    seen.plain = seen.all = 0;
    for (uint32_t i = 0; i < SOUPS * times_more(); i++) {
        size_t length = 0;
        const uint32_t few =
            i % 2 == 0 ? 28 : SIGNS; /* every second one mostly of the usual signs */
        for (uint32_t k = 1 + luck_below(&luck, SOUP_MOST); k > 0; k--)
            put(bytes, &length, signs[luck_below(&luck, few)]);
        read_both((str){bytes, length}, LOAD_NODES_MAX);
    }
    print_message("%u of %u read without the parser\n", seen.plain, seen.all);
    assert_true(seen.plain > seen.all / 150);
}

/* Lines as books have them, in any order and at any indent. */
static void any_lines(void **state)
{
    (void)state;
    static const char *const indents[] = {"", "", "  ", "  ", "    ", "      ", " "},
                             *const heads[] = {"a: ", "b: ", "k é: ",   "- ",       "- - ", "- c: ",
                                               "d:",  "-",   "'q r': ", "\"s\" : ", "",     ""},
                             *const values[] = {"x",
                                                "y z",
                                                "'it''s'",
                                                "\"a \\\" b\"",
                                                "'two",
                                                "lines' ",
                                                "{a: b, c: d}",
                                                "[e, f]",
                                                "[",
                                                "]",
                                                "{x: [1, {y: z}],",
                                                "u: v}",
                                                "",
                                                "",
                                                "",
                                                "# c",
                                                "-5",
                                                "a # c",
                                                "é:é",
                                                "\"w \\n",
                                                "v\"",
                                                "p:",
                                                "- l",
                                                "[]",
                                                "{}"};
    uint64_t luck = 3;
    char bytes[LINES_MOST * 64];
    seen.plain = seen.all = 0;
    for (uint32_t i = 0; i < SOUPS * times_more(); i++) {
        size_t length = 0;
        for (uint32_t k = 1 + luck_below(&luck, LINES_MOST); k > 0; k--) {
            put(bytes, &length, indents[luck_below(&luck, sizeof indents / sizeof *indents)]);
            put(bytes, &length, heads[luck_below(&luck, sizeof heads / sizeof *heads)]);
            put(bytes, &length, values[luck_below(&luck, sizeof values / sizeof *values)]);
            put(bytes, &length, "\n");
        }
        read_both((str){bytes, length}, LOAD_NODES_MAX);
    }
    print_message("%u of %u read without the parser\n", seen.plain, seen.all);
    assert_true(seen.plain > seen.all / 50);
}

/* ---- pieces of books ---- */

typedef struct changed {
    char bytes[PIECE_MOST + CHANGES * 16];
    size_t n;
} changed;

static void replace(changed *c, size_t from, size_t gone, const char *with)
{
    const size_t more = strlen(with);
    memmove(c->bytes + from + more, c->bytes + from + gone, c->n - from - gone);
    memcpy(c->bytes + from, with, more);
    c->n = c->n - gone + more;
}

static void change(changed *c, uint64_t *luck)
{
    const size_t at = luck_below(luck, (uint32_t)c->n);
    switch (luck_below(luck, 4)) {
    case 0:
        replace(c, at, 1, "");
        break;
    case 1:
        replace(c, at, 0, signs[luck_below(luck, SIGNS)]);
        break;
    case 2:
        replace(c, at, 1, signs[luck_below(luck, SIGNS)]);
        break;
    default: { /* a line further in or out */
        size_t start = at;
        while (start > 0 && c->bytes[start - 1] != '\n') start--;
        const bool out = luck_below(luck, 2) == 0 && c->bytes[start] == ' ';
        replace(c, start, out, out ? "" : " ");
    }
    }
}

static void changed_pieces(str bytes, uint64_t *luck)
{
    if (bytes.n < 4) return;
    for (uint32_t i = 0; i < PIECES * times_more(); i++) {
        changed c;
        size_t from = luck_below(luck, (uint32_t)bytes.n);
        while (from > 0 && bytes.p[from - 1] != '\n') from--;
        const size_t rest = bytes.n - from;
        c.n = 1 + luck_below(luck, (uint32_t)(rest < PIECE_MOST ? rest : PIECE_MOST));
        memcpy(c.bytes, bytes.p + from, c.n);
        for (uint32_t k = luck_below(luck, CHANGES + 1); k > 0 && c.n > 1; k--) change(&c, luck);
        read_both((str){c.bytes, c.n}, LOAD_NODES_MAX);
    }
}

static void books_that_come_along(void **state)
{
    (void)state;
    arena *a = test_arena();
    shipped_book books[SHIPPED_MOST];
    const uint32_t count = shipped_books(a, books);
    uint64_t luck = 7;
    for (uint32_t i = 0; i < count; i++)
        for (uint32_t k = 0; k < books[i].files.count; k++) {
            const str bytes = books[i].files.items[k].bytes;
            if (source_is_picture(&books[i].files.items[k])) continue;
            if (!read_both(bytes, LOAD_NODES_MAX))
                fail_msg("%.*s of %s is read by the parser alone",
                         STR_ARG(books[i].files.items[k].name), books[i].folder);
            assert_false(read_both(bytes, 20));
            changed_pieces(bytes, &luck);
        }
    arena_free(a);
}

static void faulty_files(void **state)
{
    (void)state;
    static const char *const folders[] = {"unit/load/faults", "unit/read/faults",
                                          "unit/doubt/faults", "fuzz/seeds/site"};
    arena *a = test_arena();
    uint64_t luck = 5;
    for (size_t i = 0; i < sizeof folders / sizeof *folders; i++) {
        const str folder = str_printf(a, TT_SOURCE_DIR "/tests/%s", folders[i]);
        const file_names names = files_ending(a, folder.p, ".yaml");
        for (size_t k = 0; k < names.count; k++) {
            const str bytes =
                file_bytes(a, str_printf(a, "%s/%.*s", folder.p, STR_ARG(names.items[k])).p);
            read_both(bytes, LOAD_NODES_MAX);
            changed_pieces(bytes, &luck);
        }
    }
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(any_signs),
        cmocka_unit_test(any_lines),
        cmocka_unit_test(books_that_come_along),
        cmocka_unit_test(faulty_files),
    };
    return cmocka_run_group_tests_name("plain events", tests, NULL, NULL);
}
