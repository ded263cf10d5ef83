/* The keys in docs/telltale-book.5 are those of the reader's own tables; TT_UPDATE_EXPECTED=1
 * writes them anew. */
#include "testing.h"

#include <stdio.h>
#include <stdlib.h>

#include "read/keys.h"
#include "test_sources.h"

static const char page_path[] = TT_SOURCE_DIR "/docs/telltale-book.5",
                  begins[] = ".\\\" keys begin\n", ends[] = ".\\\" keys end\n";
enum { LINE_CELLS = 78 };

/* One word more, on the line or the next; words that roff would take for a request are kept from
 * it. */
static void add_word(text_builder *b, size_t *column, str word)
{
    if (*column > 0 && *column + 1 + word.n > LINE_CELLS) {
        text_add(b, STR("\n"));
        *column = 0;
    } else if (*column > 0) {
        text_add(b, STR(" "));
        (*column)++;
    }
    if (*column == 0 && (word.p[0] == '.' || word.p[0] == '\'')) text_add(b, STR("\\&"));
    text_add(b, word);
    *column += word.n;
    const size_t stop = word.n > 1 && word.p[word.n - 1] == ')'
                            ? word.n - 2
                            : word.n - 1; /* a sentence has a line of its own */
    if (word.p[stop] == '.' || word.p[stop] == ':') *column = LINE_CELLS;
}

static void add_letter(text_builder *word, const char **at)
{
    const unsigned char c = (unsigned char)**at;
    if (c == '`')
        text_add(word, STR("\\(aq"));
    else if (c == '\\')
        text_add(word, STR("\\e"));
    else if (c < 0x80)
        text_add(word, (str){*at, 1});
    else {
        const unsigned bytes = c >= 0xF0 ? 4 : c >= 0xE0 ? 3 : 2;
        uint32_t point = c & (0x7Fu >> bytes);
        for (unsigned i = 1; i < bytes; i++) point = point << 6 | ((unsigned char)(*at)[i] & 0x3F);
        text_addf(word, "\\[u%04X]", (unsigned)point);
        *at += bytes - 1;
    }
}

/* Markdown's marks go: "[a gate](#danger)" is "a gate", *so* is so; what is to be typed keeps its
 * quotes. */
static void add_said(arena *keep, text_builder *b, const char *said)
{
    size_t column = 0;
    text_builder word = {.keep = keep};
    bool typed = false;
    for (const char *c = said; *c != 0; c++) {
        const char *link_ends = !typed && *c == ']' && c[1] == '(' ? strchr(c, ')') : NULL;
        const char *link = !typed && *c == '[' ? strchr(c, ']') : NULL;
        typed ^= *c == '`';
        if (link_ends != NULL)
            c = link_ends;
        else if ((*c == '*' && !typed) || (link != NULL && link[1] == '('))
            continue;
        else if (*c == ' ') {
            add_word(b, &column, text_done(&word));
            word = (text_builder){.keep = keep};
        } else
            add_letter(&word, &c);
    }
    add_word(b, &column, text_done(&word));
    text_add(b, STR("\n"));
}

static void add_map(arena *keep, text_builder *b, const key_map *map)
{
    text_addf(b, ".Ss %s\n.Bl -tag -width Ds\n", map->what);
    for (uint32_t i = 0; i < map->count; i++) {
        const key *k = &map->keys[i];
        if (k->kind == KEY_OLD) continue;
        text_addf(b, ".It Cm %s\n", k->name);
        add_said(keep, b, k->says);
        if (*k->left_out == 0) continue;
        text_add(b, STR(".br\n"));
        add_said(keep, b,
                 strncmp(k->left_out, "must be", 7) == 0
                     ? str_printf(keep, "It %s.", k->left_out).p
                     : str_printf(keep, "Left out: %s.", k->left_out).p);
    }
    text_add(b, STR(".El\n"));
}

static void the_manual_has_the_keys_of_the_tables(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const str page = file_bytes(keep, page_path);
    const size_t from = str_find(page, str_of(begins)) + sizeof begins - 1,
                 to = str_find(page, str_of(ends));
    assert_true(from <= to && to != SIZE_MAX);
    text_builder b = {.keep = keep};
    text_add(&b, str_slice(page, 0, from));
    for (int id = 0; id < KEY_MAP_COUNT; id++) add_map(keep, &b, key_map_of((key_map_id)id));
    text_add(&b, str_slice(page, to, page.n));
    const str made = text_done(&b);
    if (!str_eq(made, page) && getenv("TT_UPDATE_EXPECTED") != NULL) {
        FILE *out = fopen(page_path, "wb");
        assert_non_null(out);
        assert_int_equal(fwrite(made.p, 1, made.n, out), made.n);
        assert_int_equal(fclose(out), 0);
    } else if (!str_eq(made, page)) {
        fail_msg("docs/telltale-book.5 has not the keys of engine/read/key_tables.c; "
                 "TT_UPDATE_EXPECTED=1 writes them");
    }
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(the_manual_has_the_keys_of_the_tables)};
    return cmocka_run_group_tests_name("docs_book_manual", tests, NULL, NULL);
}
