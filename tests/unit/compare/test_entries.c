/* Entries of a book's files: with all edits made the older files say what the newer ones say. */
#include "testing.h"

#include "compare/entries.h"
#include "shipped_books.h"
#include "test_sources.h"

static sources texts(arena *keep, const tt_source *files, uint32_t count)
{
    source *all = ARENA_ARRAY(keep, source, count);
    for (uint32_t i = 0; i < count; i++)
        all[i] = (source){str_of(files[i].name), {files[i].bytes, files[i].length}};
    return sources_sorted(keep, all, count);
}

static entry_list listed(arena *keep, const sources *files)
{
    arena *scratch = test_arena();
    const entry_list all = entries_of(keep, scratch, files);
    arena_free(scratch);
    return all;
}

/* Makes all edits at once, and looks for what is still different. */
static void all_edits_lead_there(arena *keep, const sources *before, const sources *after,
                                 uint32_t wanted)
{
    const entry_list a = listed(keep, before), b = listed(keep, after);
    uint32_t count, groups, files;
    edit *edits = entry_edits(keep, &a, &b, &count, &groups);
    assert_int_equal(count, wanted);
    assert_true(groups <= count);
    bool *made = ARENA_ARRAY(keep, bool, groups + 1);
    for (uint32_t g = 0; g < groups; g++) made[g] = true;
    const tt_source *edited = edited_files(keep, &a, &b, edits, count, made, &files);
    const sources there = texts(keep, edited, files);
    const entry_list c = listed(keep, &there);
    entry_edits(keep, &c, &b, &count, &groups);
    assert_int_equal(count, 0);
}

static void every_kind_of_change_is_made(void **state)
{
    (void)state;
    static const char one[] =
        "# Words.\nquestions:\n  a: {ask: A}\n  b:\n    ask: B\ncauses:\n  x: {text: X}\n";
    static const char each[] = "for-each: pump\nfixes:\n    f:\n        text: F\n";
    static const char other[] =
        "questions:\n    a: {ask: AA}\n    c:\n        ask: C, and y\ncauses:\n  y: {text: Y}\n";
    static const char shared[] = "fixes:\n  f:\n    text: F\n";
    arena *keep = test_arena();
    const sources before =
        sources_from_texts(keep, "each.yaml", each, "one.yaml", one, (char *)NULL);
    const sources after =
        sources_from_texts(keep, "other.yaml", other, "shared.yaml", shared, (char *)NULL);
    all_edits_lead_there(keep, &before, &after, 6); /* a, b, c, x, y; f is no longer for each */
    all_edits_lead_there(keep, &after, &before, 6);
    all_edits_lead_there(keep, &before, &before, 0);
    arena_free(keep);
}

/* The same entries in every layout: entries between braces are entries, too. */
static void however_a_file_is_laid_out(void **state)
{
    (void)state;
    static const char *const before[] = {
        "questions:\n  a:\n    ask: A\n  b: {ask: B}\ncauses:\n  x: {text: X}\nfixes: {}\n",
        "\xEF\xBB\xBFquestions:\r\n  a: {ask: A}\r\n  b: {ask: B}\r\ncauses:\r\n  x: {text: X}"
        "\r\nfixes: {}\r\n",
        "---\nfixes: {}\ncauses:\n  x:\n    text: X\nquestions:\n  b: {ask: B}\n  a: {ask: "
        "A}\n...\n",
        "questions: {a: {ask: A},\n b: {ask:\n  B}}\ncauses: {x: {text: X}}\nfixes: {}",
        "{\"questions\":{\"a\":{\"ask\":\"A\"},\"b\":{\"ask\":\"B\"}},\"causes\":{\"x\":{\"text\":"
        "\"X\"}},\"fixes\":{}}",
        "{\n  questions: {\n    b: {\n      ask: B\n    },\n    a: { ask: A }\n  },\n  fixes: {},\n"
        "  causes: { x: { text: X, } } # of a lamp\n}\n"};
    static const char *const after[] = {
        "questions:\n  b: {ask: BB ...}\n  c: {ask: C}\ncauses:\n  x: {text: X}\n  aa: {text: "
        "A}\nbook: {title: "
        "L}\n",
        "book:\n  title: L\nquestions:\n  b: {ask: BB ...}\n  c: {ask: C}\ncauses:\n  x: {text: "
        "X}\n  "
        "aa: {text: A}\n...\n",
        "\xEF\xBB\xBF{\"book\":{\"title\":\"L\"},\"questions\":{\"b\":{\"ask\":\"BB ...\"},\"c\":{"
        "\"ask\":\"C\"}},\n\"causes\":{\"x\":{\"text\":\"X\"},\n\"aa\":{\"text\":\"A\"}}}"};
    arena *keep = test_arena();
    for (size_t i = 0; i < sizeof before / sizeof *before; i++) {
        const sources one = source_from_text(keep, "a.yaml", str_of(before[i]));
        for (size_t k = 0; k < sizeof before / sizeof *before; k++) {
            const sources other = source_from_text(keep, "a.yaml", str_of(before[k]));
            all_edits_lead_there(keep, &one, &other, 0);
        }
        for (size_t k = 0; k < sizeof after / sizeof *after; k++) {
            const sources other = source_from_text(keep, "b.yaml", str_of(after[k]));
            all_edits_lead_there(keep, &one, &other, 6); /* a, b, c, aa, book, fixes */
            all_edits_lead_there(keep, &other, &one, 6);
        }
    }
    arena_free(keep);
}

static void what_speaks_of_the_new_is_one_group(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const sources before = source_from_text(
        keep, "a.yaml", STR("questions:\n  a: {ask: A}\ncauses:\n  x: {text: X}\n"));
    const sources after = source_from_text(keep, "a.yaml",
                                           STR("questions:\n  a: {ask: of new-one}\ncauses:\n  "
                                               "new-one: {text: N}\n  x: {text: XX}\n"));
    const entry_list a = listed(keep, &before), b = listed(keep, &after);
    uint32_t count, groups;
    const edit *edits = entry_edits(keep, &a, &b, &count, &groups);
    assert_int_equal(count, 3);
    assert_int_equal(groups, 2);
    assert_string_equal(edits[0].name, "causes new-one");
    assert_int_equal(edits[0].group, edits[2].group); /* questions a */
    assert_int_not_equal(edits[0].group, edits[1].group);
    arena_free(keep);
}

/* Each shipped book turned into the other, and back. */
static void a_whole_book_becomes_another(void **state)
{
    (void)state;
    arena *keep = test_arena();
    shipped_book books[SHIPPED_MOST];
    uint32_t count = shipped_books(keep, books);
    for (uint32_t i = 0; i < count; i++)
        for (uint32_t k = 0; k < count; k++) {
            const entry_list a = listed(keep, &books[i].files), b = listed(keep, &books[k].files);
            uint32_t edits, groups;
            entry_edits(keep, &a, &b, &edits, &groups);
            assert_int_equal(edits == 0, i == k);
            all_edits_lead_there(keep, &books[i].files, &books[k].files, edits);
        }
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_kind_of_change_is_made),
        cmocka_unit_test(however_a_file_is_laid_out),
        cmocka_unit_test(what_speaks_of_the_new_is_one_group),
        cmocka_unit_test(a_whole_book_becomes_another),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
