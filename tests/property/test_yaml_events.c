/* What is read to their end is what the parser reads: of the books that come with the
 * program and those of the tests, of pieces of them with letters and indents changed, and of any
 * signs of YAML in a row. */
#include "luck.h"
#include "testing.h"

#include <stdlib.h>
#include <string.h>
#include <yaml.h>

#include "base/faults.h"
#include "load/checks.h"
#include "shipped_books.h"
#include "test_sources.h"

enum { PIECES = 40, PIECE_MOST = 600, CHANGES = 3, SOUPS = 60000, SOUP_MOST = 14, LINES_MOST = 5 };

static struct {
    uint32_t whole, all;
    uint32_t fine,
        said; /* texts that were looked at no further; others, of which something is said */
} seen;

/* How many more there are to be than this test takes by itself. */
static uint32_t times_more(void)
{
    const char *more = getenv("TELLTALE_FUZZ");
    return more == NULL ? 1 : 1 + (uint32_t)strtoul(more, NULL, 10);
}

/* Where each character begins, counted from the front one by one; behind the last is the end. */
static uint32_t *places_of(arena *a, str bytes, size_t first)
{
    uint32_t *at = ARENA_ARRAY(a, uint32_t, bytes.n + 2), count = 0;
    for (size_t i = first; i < bytes.n; i++)
        if (((unsigned char)bytes.p[i] & 0xC0) != 0x80) at[count++] = (uint32_t)i;
    for (size_t i = count; i < bytes.n + 2; i++) at[i] = (uint32_t)bytes.n;
    return at;
}

static bool is_node(yaml_event_type_t type)
{
    return type >= YAML_ALIAS_EVENT;
}

static event_kind kind_of(yaml_event_type_t type)
{
    static const event_kind kinds[] = {
        [YAML_ALIAS_EVENT] = EVENT_ALIAS,
        [YAML_SCALAR_EVENT] = EVENT_TEXT,
        [YAML_SEQUENCE_START_EVENT] = EVENT_LIST_START,
        [YAML_SEQUENCE_END_EVENT] = EVENT_LIST_END,
        [YAML_MAPPING_START_EVENT] = EVENT_MAP_START,
        [YAML_MAPPING_END_EVENT] = EVENT_MAP_END,
    };
    return kinds[type];
}

static bool same_event(const event *e, str ours, const yaml_event_t *y, const uint32_t *places)
{
    if (e->kind != kind_of(y->type) || e->start != places[y->start_mark.index] ||
        e->end != places[y->end_mark.index])
        return false;
    if (e->kind != EVENT_TEXT) return true;
    const str text = {(const char *)y->data.scalar.value, y->data.scalar.length};
    return ((e->marks & MARK_ANCHORED) != 0) == (y->data.scalar.anchor != NULL) &&
           ((e->marks & MARK_TAGGED) != 0) == (y->data.scalar.tag != NULL) &&
           ((e->marks & MARK_TOO_LONG) != 0 ? text.n > LOAD_SCALAR_MAX : str_eq(ours, text)) &&
           ours.p[ours.n] == '\0';
}

/* The parser's events one after the other, as far as ours go; how many children each has is told
 * by the tree, which asserts it. */
static void compare(str bytes, size_t first, const events *ours, const uint32_t *places)
{
    yaml_parser_t parser;
    yaml_event_t y;
    const text_apart *apart = ours->apart;
    uint32_t i = 0;
    assert_true(yaml_parser_initialize(&parser));
    yaml_parser_set_encoding(&parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&parser, (const unsigned char *)bytes.p + first, bytes.n - first);
    while (i < ours->count) {
        if (!yaml_parser_parse(&parser, &y))
            fail_msg("more than the parser reads:\n%.*s\n", STR_ARG(bytes));
        const event *e = event_at(ours, i);
        const str text =
            is_node(y.type) && e->kind == EVENT_TEXT ? event_text(ours, e, &apart) : STR("");
        if (is_node(y.type) && !same_event(e, text, &y, places))
            fail_msg("event %u of %u, kind %d, bytes %u-%u, '%.*s':\n%.*s\n", i, ours->count,
                     e->kind, e->start, e->end, STR_ARG(text), STR_ARG(bytes));
        i += is_node(y.type);
        yaml_event_delete(&y);
    }
    bool ends = false, failed = false;
    while (!ends && !failed) {
        failed = !yaml_parser_parse(&parser, &y);
        ends = !failed && y.type == YAML_STREAM_END_EVENT;
        if (!failed) yaml_event_delete(&y);
    }
    if (ours->stop == STOP_AT_END && !ends) fail_msg("refused:\n%.*s\n", STR_ARG(bytes));
    if (ours->stop == STOP_SYNTAX) {
        assert_true(failed);
        assert_int_equal(ours->at, places[parser.problem_mark.index]);
        assert_int_equal(ours->context, places[parser.context_mark.index]);
    }
    yaml_parser_delete(&parser);
}

/* A text that stands in the file as it is, and one of which a glance says that nothing is wrong
 * with it: looked at whole. */
static void compare_glances(arena *a, const source *s, const events *ours)
{
    faults *list = faults_new(a);
    for (uint32_t i = 0; i < ours->count; i++) {
        const event *e = event_at(ours, i);
        if ((e->marks & MARK_AS_WRITTEN) == 0) continue;
        const str raw = str_slice(s->bytes, e->start, e->end), text = event_text(ours, e, NULL);
        const uint32_t before = faults_errors(list) + faults_warnings(list);
        assert_true(e->kind == EVENT_TEXT && e->style == STYLE_PLAIN &&
                    e->marks == MARK_AS_WRITTEN);
        assert_true(raw.n > 0 && str_eq(text, raw) && str_find_byte(raw, '\n') == SIZE_MAX);
        const span at = {0, e->start, e->end};
        check_value(s, text, STYLE_PLAIN, at, list);
        const bool said = faults_errors(list) + faults_warnings(list) > before;
        if (is_fine_as_written(s, text, at) && said)
            fail_msg("'%.*s' is not fine:\n%.*s\n", STR_ARG(text), STR_ARG(s->bytes));
        seen.fine += is_fine_as_written(s, text, at);
        seen.said += said;
    }
}

/* Both ways; false: not to its end. */
static bool read_both(str bytes, uint32_t limit)
{
    arena *a = test_arena(), *scratch = test_arena();
    const sources all = source_from_text(a, "a.yaml", bytes);
    const source *s = &all.items[0];
    const size_t first = source_text_start(s);
    bool whole = false;
    if (check_bytes(&all, 0, faults_new(a))) {
        const events ours = read_events(a, scratch, s, &limit);
        compare(s->bytes, first, &ours, places_of(scratch, s->bytes, first));
        compare_glances(a, s, &ours);
        whole = ours.stop == STOP_AT_END;
    }
    arena_free(a);
    arena_free(scratch);
    seen.all++;
    seen.whole += whole;
    return whole;
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
    seen.whole = seen.all = 0;
    for (uint32_t i = 0; i < SOUPS * times_more(); i++) {
        size_t length = 0;
        const uint32_t few =
            i % 2 == 0 ? 28 : SIGNS; /* every second one mostly of the usual signs */
        for (uint32_t k = 1 + luck_below(&luck, SOUP_MOST); k > 0; k--)
            put(bytes, &length, signs[luck_below(&luck, few)]);
        read_both((str){bytes, length}, LOAD_NODES_MAX);
    }
    print_message("%u of %u read to their end\n", seen.whole, seen.all);
    assert_true(seen.whole > seen.all / 150);
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
    memset(&seen, 0, sizeof seen);
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
    print_message("%u of %u read to their end\n", seen.whole, seen.all);
    assert_true(seen.whole > seen.all / 50);
    print_message("%u texts are fine, and something is said of %u\n", seen.fine, seen.said);
    assert_true(seen.fine > SOUPS / 2 && seen.said > SOUPS / 100);
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
                fail_msg("%.*s of %s is not read to its end", STR_ARG(books[i].files.items[k].name),
                         books[i].folder);
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
