/* The order of files, entries and keys never changes a book. */
#include "book_dump.h"
#include "luck.h"

enum { BLOCKS_MAX = 64, KEYS_MAX = 32, FILES = 4, ROUNDS = 200 };

static void shuffle(str *items, uint32_t count, uint64_t *seed)
{
    for (uint32_t i = count; i > 1; i--) {
        uint32_t k = luck_below(seed, i);
        str other = items[k];
        items[k] = items[i - 1];
        items[i - 1] = other;
    }
}

/* Cuts a text before every line that is indented by exactly so many spaces. */
static uint32_t blocks(str text, size_t indent, str *out, uint32_t most)
{
    uint32_t count = 0;
    size_t start = 0, line = 0;
    while (line < text.n) {
        size_t end = str_find_byte(str_slice(text, line, text.n), '\n'), spaces = 0;
        while (line + spaces < text.n && text.p[line + spaces] == ' ') spaces++;
        if (spaces == indent && line > start) {
            assert_true(count < most);
            out[count++] = str_slice(text, start, line);
            start = line;
        }
        line += end == SIZE_MAX ? text.n - line : end + 1;
    }
    assert_true(count < most);
    out[count++] = str_slice(text, start, text.n);
    return count;
}

static size_t first_line(str block)
{
    return str_find_byte(block, '\n') + 1;
}

/* An entry with its keys in another order; only maps of keys are shuffled, which stand 4 deep. */
static void add_shuffled_entry(text_builder *b, str entry, uint64_t *seed)
{
    str keys[KEYS_MAX];
    size_t head = first_line(entry);
    text_add(b, str_slice(entry, 0, head));
    if (head == entry.n) return;
    uint32_t count = blocks(str_slice(entry, head, entry.n), 4, keys, KEYS_MAX);
    shuffle(keys, count, seed);
    for (uint32_t i = 0; i < count; i++) text_add(b, keys[i]);
}

/* The site whole, its keys, kinds and pieces in another order. */
static void add_shuffled_map(text_builder *b, str map, size_t indent, uint64_t *seed)
{
    enum { DEEPEST = 6 };
    str parts[KEYS_MAX];
    size_t head = first_line(map);
    text_add(b, str_slice(map, 0, head));
    if (head == map.n) return;
    uint32_t count = blocks(str_slice(map, head, map.n), indent, parts, KEYS_MAX);
    shuffle(parts, count, seed);
    for (uint32_t i = 0; i < count; i++) {
        if (indent < DEEPEST)
            add_shuffled_map(b, parts[i], indent + 2, seed);
        else
            text_add(b, parts[i]);
    }
}

/* Deals the entries of one section out to the files. The manifest is one entry and stays whole. */
static void deal(str section, text_builder *files, uint64_t *seed)
{
    str entries[BLOCKS_MAX];
    bool begun[FILES] = {false};
    size_t head = first_line(section);
    str name = str_slice(section, 0, head);
    bool manifest = str_starts(name, "book:");
    if (str_starts(name, "site:")) {
        add_shuffled_map(&files[luck_below(seed, FILES)], section, 2, seed);
        return;
    }
    uint32_t count = blocks(str_slice(section, head, section.n), 2, entries, BLOCKS_MAX),
             only = luck_below(seed, FILES);
    shuffle(entries, count, seed);
    for (uint32_t i = 0; i < count; i++) {
        uint32_t f = manifest ? only : luck_below(seed, FILES);
        if (!begun[f]) text_add(&files[f], name);
        begun[f] = true;
        if (manifest)
            text_add(&files[f], entries[i]);
        else
            add_shuffled_entry(&files[f], entries[i], seed);
    }
}

static str shuffled_dump(str text, uint64_t *seed, arena *keep)
{
    kit k;
    kit_begin(&k);
    str sections[BLOCKS_MAX];
    text_builder files[FILES];
    uint32_t count = blocks(text, 0, sections, BLOCKS_MAX);
    shuffle(sections, count, seed);
    for (int i = 0; i < FILES; i++) files[i] = (text_builder){.keep = k.keep};
    for (uint32_t i = 0; i < count; i++) deal(sections[i], files, seed);
    for (uint32_t i = 0; i < FILES; i++)
        kit_add(&k, str_printf(k.keep, "%u.yaml", luck_below(seed, 1000) * FILES + i),
                text_done(&files[i]));
    const book *b = kit_read(&k);
    if (b == NULL) print_error("%s\n", kit_said(&k));
    assert_non_null(b);
    str dump = book_dump(keep, b);
    kit_end(&k);
    return dump;
}

static void assert_order_changes_nothing(const char *file)
{
    kit k;
    kit_begin(&k);
    assert_true(kit_add_file(&k, str_of(file)));
    str text = k.items[0].bytes;
    if (kit_read(&k) == NULL) fail_msg("%s", kit_said(&k));
    str straight = book_dump(k.keep, k.book);
    assert_true(straight.n > 2000);
    uint64_t seed = 20260301;
    for (int i = 0; i < ROUNDS; i++) {
        str other = shuffled_dump(text, &seed, k.keep);
        if (!str_eq(other, straight))
            print_error("%.*s\n---\n%.*s\n", STR_ARG(straight), STR_ARG(other));
        assert_true(str_eq(other, straight));
    }
    kit_end(&k);
}

static void test_order_changes_nothing(void **state)
{
    (void)state;
    assert_order_changes_nothing("full.yaml");
}

static void test_order_changes_no_equipment(void **state)
{
    (void)state;
    assert_order_changes_nothing("equipment.yaml");
}

static void test_order_changes_no_quantity(void **state)
{
    (void)state;
    assert_order_changes_nothing("quantities.yaml");
}

/* The comparison itself can see a difference. */
static void test_a_change_changes_the_dump(void **state)
{
    (void)state;
    kit one, two;
    kit_begin(&one);
    kit_begin(&two);
    assert_true(kit_add_file(&one, STR("full.yaml")));
    assert_true(kit_add_file(&two, STR("full.yaml")));
    str bytes = str_copy(two.keep, two.items[0].bytes);
    size_t at = str_find(bytes, STR("below 20 psi"));
    assert_int_not_equal(at, SIZE_MAX);
    ((char *)(uintptr_t)bytes.p)[at + 6] = '3';
    two.items[0].bytes = bytes;
    assert_non_null(kit_read(&one));
    assert_non_null(kit_read(&two));
    assert_false(str_eq(book_dump(one.keep, one.book), book_dump(two.keep, two.book)));
    kit_end(&one);
    kit_end(&two);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_order_changes_nothing),
        cmocka_unit_test(test_order_changes_no_equipment),
        cmocka_unit_test(test_order_changes_no_quantity),
        cmocka_unit_test(test_a_change_changes_the_dump),
    };
    return cmocka_run_group_tests_name("order of a book", tests, NULL, NULL);
}
