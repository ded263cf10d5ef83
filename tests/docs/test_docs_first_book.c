/* docs/first-book.md, done as it says, from the top, in an empty folder:
 *   ```yaml file=PATH    is written;
 *   ```diff edit=PATH    its lines without mark stand in the file, and those with a minus, one
 * after the other at one place; those with a plus come instead;
 *   ```text run          lines after "$ " are run, the rest is what comes;
 *   ```text talk=BOOK    lines after "> " are typed at `telltale ask BOOK`. */
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "page_blocks.h"
#include "testing.h"

typedef struct counts {
    unsigned files, edits, commands, talks, others;
} counts;

static void write_file(const block *b, const char *path)
{
    char file[400];
    snprintf(file, sizeof file, "work/%s", path);
    write_page_text(file, b->text, b->length);
}

/* ---- edits ---- */

/* The lines of a diff that stand in the file before it, or after. */
static char *one_side(const block *b, char left_out)
{
    char *side = calloc(1, b->length + 1), *to = side;
    assert_non_null(side);
    for (const char *line = b->text; line < b->text + b->length;) {
        const size_t length = strcspn(line, "\n") + 1;
        if (strchr("+- ", *line) == NULL)
            fail_msg("%s: %.*s has no mark", b->page, (int)length, line);
        if (*line != left_out) {
            memcpy(to, line + 1, length - 1);
            to += length - 1;
        }
        line += length;
    }
    return side;
}

static void edit_file(const block *b, const char *path)
{
    char file[400];
    snprintf(file, sizeof file, "work/%s", path);
    char *text = page_text(file), *before = one_side(b, '+'), *after = one_side(b, '-');
    const char *at = strstr(text, before);
    if (at == NULL) fail_msg("%s is not in %s:\n%s", before, path, text);
    if (strstr(at + 1, before) != NULL) fail_msg("%s is in %s twice", before, path);
    const size_t room = strlen(text) + strlen(after) + 1;
    char *edited = malloc(room);
    assert_non_null(edited);
    snprintf(edited, room, "%.*s%s%s", (int)(at - text), text, after, at + strlen(before));
    write_page_text(file, edited, strlen(edited));
    free(edited);
    free(after);
    free(before);
    free(text);
}

/* ---- commands ---- */

static void run_one(const block *b, const char *line, size_t length)
{
    const char *end = b->text + b->length, *output = line + length + 1, *next = output;
    while (next < end && strncmp(next, "$ ", 2) != 0) next += strcspn(next, "\n") + 1;
    write_page_text("command", line + 2, length - 2);
    const int status = shell_status("here=$PWD; PATH=\"$here:$PATH\"; cd work && "
                                    "sh \"$here/command\" >\"$here/shown\" 2>&1");
    if (status != 0 && status != 1) fail_msg("%.*s ends with %d", (int)length, line, status);
    assert_block_shown(b, output, (size_t)(next - output));
}

static unsigned run_all(const block *b)
{
    unsigned count = 0;
    assert_memory_equal(b->text, "$ ", 2);
    for (const char *line = b->text; line < b->text + b->length;) {
        const size_t length = strcspn(line, "\n");
        if (strncmp(line, "$ ", 2) == 0) {
            run_one(b, line, length);
            count++;
        }
        line += length + 1;
    }
    return count;
}

static void talk(const block *b, const char *book)
{
    FILE *typed = fopen("typed", "wb");
    assert_non_null(typed);
    for (const char *line = b->text; line < b->text + b->length; line += strcspn(line, "\n") + 1)
        if (strncmp(line, "> ", 2) == 0)
            fprintf(typed, "%.*s\n", (int)strcspn(line + 2, "\n"), line + 2);
    fclose(typed);
    assert_int_equal(
        shell_status("'%s' ask 'work/%s' --unsaved <typed >shown 2>&1", TT_PROGRAM, book), 0);
    assert_block_shown(b, b->text, b->length);
}

static void do_block(const block *b, void *context)
{
    counts *done = context;
    char path[256];
    if (sscanf(b->heading, "yaml file=%255s", path) == 1) {
        write_file(b, path);
        done->files++;
    } else if (sscanf(b->heading, "diff edit=%255s", path) == 1) {
        edit_file(b, path);
        done->edits++;
    } else if (strcmp(b->heading, "text run") == 0) {
        done->commands += run_all(b);
    } else if (sscanf(b->heading, "text talk=%255s", path) == 1) {
        talk(b, path);
        done->talks++;
    } else {
        done->others++;
    }
}

static void the_page_can_be_done(void **state)
{
    (void)state;
    counts done = {0};
    char *page = page_text(TT_SOURCE_DIR "/docs/first-book.md");
    assert_int_equal(shell_status("rm -rf work && mkdir work && ln -sf '%s' telltale", TT_PROGRAM),
                     0);
    each_block_of("first-book.md", page, do_block, &done);
    free(page);
    assert_in_range(done.files, 4, 100);
    assert_in_range(done.edits, 5, 100);
    assert_in_range(done.commands, 9, 100);
    assert_in_range(done.talks, 1, 100);
    assert_int_equal(done.others, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_page_can_be_done),
    };
    return cmocka_run_group_tests_name("docs first book", tests, NULL, NULL);
}
