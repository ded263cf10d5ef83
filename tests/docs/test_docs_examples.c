/* What README and docs/ show is what the program does. In the pages:
 *   ```yaml example=FOLDER/FILE   all blocks of one FOLDER are one book, which check finds
 * without fault and try passes;
 *   ```yaml site=FOLDER/FILE      a site file for the book of that FOLDER, on any page: rank
 * takes it;
 *   ```console session=BOOK   lines after "> " are typed at `telltale ask BOOK`, the rest
 * is what comes;
 *   ```console                    lines after "$ " are run in the top folder, the rest is what
 * comes. A line of dots leaves something out; how lines are broken does not count. */
#include <dirent.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#include <cmocka.h>

enum { TEXT_ROOM = 1 << 20 };

static char *file_text(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) fail_msg("%s can't be read", path);
    char *text = calloc(1, TEXT_ROOM);
    assert_non_null(text);
    text[fread(text, 1, TEXT_ROOM - 1, file)] = 0;
    fclose(file);
    return text;
}

static void write_text(const char *path, const char *text, size_t length)
{
    FILE *file = fopen(path, "wb");
    if (file == NULL) fail_msg("%s can't be written", path);
    assert_int_equal(fwrite(text, 1, length, file), length);
    assert_int_equal(fclose(file), 0);
}

__attribute__((format(printf, 1, 2))) static int sh(const char *format, ...)
{
    char command[4096];
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(command, sizeof command, format, arguments);
    va_end(arguments);
    assert_in_range(length, 1, sizeof command - 1);
    int status = system(command);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/* ---- fenced blocks ---- */

typedef struct block {
    const char *page;
    char heading[256]; /* what stands behind the three backticks */
    const char *text;
    size_t length;
} block;
typedef void on_block(const block *b, void *context);

static void each_block_of(const char *page, const char *text, on_block *visit, void *context)
{
    for (const char *at = text; (at = strstr(at, "\n```")) != NULL;) {
        block b = {.page = page};
        at += 4;
        size_t line = strcspn(at, "\n");
        assert_in_range(line, 0, sizeof b.heading - 1);
        memcpy(b.heading, at, line);
        b.text = at + line + 1;
        const char *end = strstr(at + line, "\n```");
        if (end == NULL) fail_msg("%s: a block is not closed", page);
        b.length = end >= b.text ? (size_t)(end + 1 - b.text) : 0;
        visit(&b, context);
        at = end + 4;
    }
}

static int only_pages(const struct dirent *entry)
{
    const char *end = strrchr(entry->d_name, '.');
    return end != NULL && strcmp(end, ".md") == 0;
}

static void each_block(on_block *visit, void *context)
{
    char path[4096];
    struct dirent **pages;
    int count = scandir(TT_SOURCE_DIR "/docs", &pages, only_pages, alphasort);
    assert_true(count > 0);
    for (int i = 0; i <= count; i++) {
        const char *page = i < count ? pages[i]->d_name : "../README.md";
        snprintf(path, sizeof path, "%s/docs/%s", TT_SOURCE_DIR, page);
        char *text = file_text(path);
        each_block_of(page, text, visit, context);
        free(text);
        if (i < count) free(pages[i]);
    }
    free(pages);
}

/* ---- books ---- */

static void write_below(const block *b, const char *top, const char *path)
{
    char folder[512], whole[600];
    snprintf(folder, sizeof folder, "%s", path);
    char *slash = strrchr(folder, '/');
    if (slash == NULL || strstr(path, "..") != NULL)
        fail_msg("%s: %s is no FOLDER/FILE", b->page, path);
    *slash = 0;
    assert_int_equal(sh("mkdir -p '%s/%s'", top, folder), 0);
    snprintf(whole, sizeof whole, "%s/%s", top, path);
    write_text(whole, b->text, b->length);
}

static void write_example(const block *b, void *context)
{
    char path[256];
    if (sscanf(b->heading, "yaml example=%255s", path) != 1) return;
    write_below(b, "examples", path);
    ++*(unsigned *)context;
}

static void write_site(const block *b, void *context)
{
    char path[256];
    if (sscanf(b->heading, "yaml site=%255s", path) != 1) return;
    write_below(b, "sites", path);
    ++*(unsigned *)context;
}

static void books_in_the_pages_are_sound(void **state)
{
    (void)state;
    unsigned count = 0;
    assert_int_equal(sh("rm -rf examples && mkdir examples"), 0);
    each_block(write_example, &count);
    assert_true(count > 0);
    assert_int_equal(sh("for r in examples/*; do '%s' check $r && '%s' try $r >tried || { cat "
                        "tried; exit 1; }; done",
                        TT_PROGRAM, TT_PROGRAM),
                     0);
}

static void sites_in_the_pages_are_sound(void **state)
{
    (void)state;
    unsigned count = 0;
    assert_int_equal(sh("rm -rf examples sites && mkdir examples sites"), 0);
    each_block(write_example, &count);
    count = 0;
    each_block(write_site, &count);
    assert_true(count >= 3);
    assert_int_equal(sh("for s in sites/*/*; do r=${s#sites/}; echo '{}' | '%s' rank examples/${r%%/*} - "
                        "--site $s >ranked || exit 1; done",
                        TT_PROGRAM),
                     0);
}

/* ---- what the program says ---- */

/* Runs of white space become one space; "…" and "..." on a line of their own become a mark. */
static char *flattened(const char *text, size_t length)
{
    char *out = calloc(1, length + 2), *end = out;
    assert_non_null(out);
    for (size_t i = 0; i < length; i++) {
        bool dots = (i == 0 || text[i - 1] == '\n') && length - i >= 4 &&
                    strncmp(text + i, "...\n", 4) == 0;
        if (dots) {
            while (end > out && end[-1] == ' ') end--;
            *end++ = '\001';
            i += 3;
        } else if (text[i] != ' ' && text[i] != '\n') {
            *end++ = text[i];
        } else if (end > out && end[-1] != ' ' && end[-1] != '\001') {
            *end++ = ' ';
        }
    }
    while (end > out && end[-1] == ' ') end--;
    *end = 0;
    return out;
}

static void assert_shown(const block *b, const char *expected, size_t length)
{
    char *got = file_text("shown"), *flat = flattened(got, strlen(got)),
         *wanted = flattened(expected, length);
    const char *from = flat;
    for (char *piece = wanted; piece != NULL;) {
        char *mark = strchr(piece, '\001');
        if (mark != NULL) *mark = 0;
        const char *found = strstr(from, piece);
        if (found == NULL)
            fail_msg("%s shows\n%s\nwhich is not (or not here) in\n%s", b->page, piece, got);
        from = found + strlen(piece);
        piece = mark != NULL ? mark + 1 : NULL;
    }
    free(wanted);
    free(flat);
    free(got);
}

/* `how`: further options. */
static void play_session(const block *b, const char *book, const char *how)
{
    FILE *typed = fopen("typed", "wb");
    assert_non_null(typed);
    for (const char *line = b->text; line < b->text + b->length; line += strcspn(line, "\n") + 1)
        if (strncmp(line, "> ", 2) == 0)
            fprintf(typed, "%.*s\n", (int)strcspn(line + 2, "\n"), line + 2);
    fclose(typed);
    int status =
        sh("'%s' ask '%s/%s' --unsaved %s <typed >shown 2>&1", TT_PROGRAM, TT_SOURCE_DIR, book, how);
    if (status != 0 && status != 1 && status != 3)
        fail_msg("%s: %s ends with %d", b->page, b->heading, status);
    assert_shown(b, b->text, b->length);
}

static void run_commands(const block *b)
{
    const char *end = b->text + b->length, *line = b->text;
    while (line < end) {
        if (strncmp(line, "$ ", 2) != 0) fail_msg("%s: output without a command", b->page);
        size_t length = strcspn(line, "\n");
        char command[1024];
        assert_in_range(length, 3, sizeof command - 1);
        snprintf(command, sizeof command, "%.*s", (int)length - 2, line + 2);
        const char *output = line + length + 1;
        for (line = output; line < end && strncmp(line, "$ ", 2) != 0;)
            line += strcspn(line, "\n") + 1;
        write_text("command", command, strlen(command));
        sh("here=$PWD; ln -sf '%s' telltale; PATH=\"$here:$PATH\"; cd '%s' && "
           "sh \"$here/command\" >\"$here/shown\" 2>&1",
           TT_PROGRAM, TT_SOURCE_DIR);
        assert_shown(b, output, (size_t)(line - output));
    }
}

static void play_block(const block *b, void *context)
{
    char book[256];
    if (strncmp(b->heading, "console", 7) != 0) return;
    ++*(unsigned *)context;
    if (sscanf(b->heading, "console session=%255s", book) == 1)
        play_session(b, book, "");
    else if (sscanf(b->heading, "console practice=%255s", book) == 1)
        play_session(b, book, "--practice");
    else
        run_commands(b);
}

static void what_the_pages_show_is_what_comes(void **state)
{
    (void)state;
    unsigned count = 0;
    each_block(play_block, &count);
    assert_true(count >= 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(books_in_the_pages_are_sound),
        cmocka_unit_test(sites_in_the_pages_are_sound),
        cmocka_unit_test(what_the_pages_show_is_what_comes),
    };
    return cmocka_run_group_tests_name("docs examples", tests, NULL, NULL);
}
