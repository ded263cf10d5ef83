/* Random edits of random files: what `patch` makes of our patch is the file with the edits spliced
 * in. */
#include <stdio.h>
#include <stdlib.h>

#include "face/patch.h"
#include "luck.h"
#include "skips.h"
#include "testing.h"

enum { FILES = 150, TEXT_MOST = 4096, EDITS_MOST = 12 };

static uint64_t drawn = 11;

/* Lines of words, some empty and some alike; now and then \r\n, and now and then no newline at the
 * end. */
static size_t draw_text(char *text)
{
    size_t length = 0;
    uint32_t lines = 1 + luck_below(&drawn, 40), wide = luck_below(&drawn, 4) == 0;
    for (uint32_t i = 0; i < lines; i++) {
        for (uint32_t words = luck_below(&drawn, 4); words > 0; words--)
            length +=
                (size_t)snprintf(text + length, TEXT_MOST - length, "w%u ", luck_below(&drawn, 3));
        if (i + 1 == lines && luck_below(&drawn, 3) == 0)
            length += (size_t)snprintf(text + length, TEXT_MOST - length, "end");
        else
            length +=
                (size_t)snprintf(text + length, TEXT_MOST - length, "%s", wide ? "\r\n" : "\n");
    }
    return length;
}

/* Within lines, or whole lines before one or at the end; rising, apart. */
static uint32_t draw_edits(const char *text, size_t length, tt_edit *edits)
{
    static const char *const within[] = {"82 %", "x", "1.40", "much longer than before"},
                             *const whole[] = {"    otherwise: 5 %\n", "a: b\n"};
    uint32_t count = 0;
    for (size_t at = 0; at <= length && count < EDITS_MOST; at++) {
        bool starts = at == 0 || text[at - 1] == '\n';
        if (starts && luck_below(&drawn, 8) == 0)
            edits[count++] = (tt_edit){"sub/rules.yaml", at, at, whole[luck_below(&drawn, 2)]};
        const char *end = memchr(text + at, '\n', length - at);
        if (starts && end != NULL && luck_below(&drawn, 8) == 0) {
            edits[count++] = (tt_edit){"sub/rules.yaml", at, (size_t)(end - text) + 1, ""};
            at = (size_t)(end - text);
            continue;
        }
        if (at < length && text[at] == 'w' && luck_below(&drawn, 10) == 0) {
            edits[count++] = (tt_edit){"sub/rules.yaml", at, at + 2, within[luck_below(&drawn, 4)]};
            at++;
        }
    }
    return count;
}

static void write_file(const char *path, const char *bytes, size_t length)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, length, file), length);
    assert_int_equal(fclose(file), 0);
}

static void write_spliced(const char *text, size_t length, const tt_edit *edits, uint32_t count)
{
    FILE *file = fopen("wanted", "wb");
    size_t from = 0;
    assert_non_null(file);
    for (uint32_t i = 0; i < count; i++) {
        fwrite(text + from, 1, edits[i].start - from, file);
        fputs(edits[i].text, file);
        from = edits[i].end;
    }
    fwrite(text + from, 1, length - from, file);
    assert_int_equal(fclose(file), 0);
}

static void patch_makes_what_was_meant(void **state)
{
    (void)state;
    need_program("patch", "patch");
    for (int i = 0; i < FILES; i++) {
        char text[TEXT_MOST];
        tt_edit edits[EDITS_MOST + 1];
        size_t length = draw_text(text);
        uint32_t count = draw_edits(text, length, edits);
        const tt_source files[] = {{"other.yaml", "a: b\n", 5}, {"sub/rules.yaml", text, length}};
        assert_int_equal(system("rm -rf book && mkdir -p book/sub"), 0);
        write_file("book/sub/rules.yaml", text, length);
        write_spliced(text, length, edits, count);
        FILE *out = fopen("patch", "wb");
        assert_non_null(out);
        print_patch(out, files, 2, edits, count);
        assert_int_equal(fclose(out), 0);
        if (count == 0) continue;
        if (system("patch --binary -F0 -s -p1 -d book <patch >said 2>&1 && cmp wanted "
                   "book/sub/rules.yaml") != 0)
            fail_msg("file %d: the patch is not what was meant", i);
        if (system("test -z \"$(cat said)\"") != 0)
            fail_msg("file %d: patch had to look for a place", i);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(patch_makes_what_was_meant)};
    return cmocka_run_group_tests_name("patch applies", tests, NULL, NULL);
}
