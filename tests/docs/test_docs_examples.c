/* What README and docs/ show is what the program does. In the pages:
 *   ```yaml example=FOLDER/FILE   (or svg) all blocks of one FOLDER are one book, which check finds
 * without fault and try passes;
 *   ```yaml site=FOLDER/FILE      a site file for the book of that FOLDER, on any page: rank
 * takes it;
 *   ```console session=BOOK   lines after "> " are typed at `telltale ask BOOK`, the rest
 * is what comes;
 *   ```console                    lines after "$ " are run in the top folder, the rest is what
 * comes; with `console example-year` among the cases of the example site's made-up year. A line of
 * dots leaves something out; how lines are broken does not count. */
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "example_year.h"
#include "page_blocks.h"
#include "testing.h"

/* ---- fenced blocks ---- */

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
        char *text = page_text(path);
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
    assert_int_equal(shell_status("mkdir -p '%s/%s'", top, folder), 0);
    snprintf(whole, sizeof whole, "%s/%s", top, path);
    write_page_text(whole, b->text, b->length);
}

static void write_example(const block *b, void *context)
{
    char path[256];
    if (sscanf(b->heading, "%*[a-z] example=%255s", path) != 1) return;
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
    assert_int_equal(shell_status("rm -rf examples && mkdir examples"), 0);
    each_block(write_example, &count);
    assert_true(count > 0);
    assert_int_equal(
        shell_status("for r in examples/*; do '%s' check $r && '%s' try $r >tried || { cat "
                     "tried; exit 1; }; done",
                     TT_PROGRAM, TT_PROGRAM),
        0);
}

static void sites_in_the_pages_are_sound(void **state)
{
    (void)state;
    unsigned count = 0;
    assert_int_equal(shell_status("rm -rf examples sites && mkdir examples sites"), 0);
    each_block(write_example, &count);
    count = 0;
    each_block(write_site, &count);
    assert_true(count >= 3);
    assert_int_equal(
        shell_status(
            "for s in sites/*/*; do r=${s#sites/}; echo '{}' | '%s' rank examples/${r%%/*} - "
            "--site $s >ranked || exit 1; done",
            TT_PROGRAM),
        0);
}

/* ---- what the program says ---- */

/* `how`: further options. */
static void play_session(const block *b, const char *book, const char *how)
{
    FILE *typed = fopen("typed", "wb");
    assert_non_null(typed);
    for (const char *line = b->text; line < b->text + b->length; line += strcspn(line, "\n") + 1)
        if (strncmp(line, "> ", 2) == 0)
            fprintf(typed, "%.*s\n", (int)strcspn(line + 2, "\n"), line + 2);
    fclose(typed);
    int status = shell_status("'%s' ask '%s/%s' --unsaved %s <typed >shown 2>&1", TT_PROGRAM,
                              TT_SOURCE_DIR, book, how);
    if (status != 0 && status != 1 && status != 3)
        fail_msg("%s: %s ends with %d", b->page, b->heading, status);
    assert_block_shown(b, b->text, b->length);
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
        write_page_text("command", command, strlen(command));
        shell_status("here=$PWD; ln -sf '%s' telltale; PATH=\"$here:$PATH\"; cd '%s' && "
                     "sh \"$here/command\" >\"$here/shown\" 2>&1",
                     TT_PROGRAM, TT_SOURCE_DIR);
        assert_block_shown(b, output, (size_t)(line - output));
    }
}

/* As run_commands, where the cases lie that a year has left at the example site. */
static void run_in_example_year(const block *b)
{
    char here[4096], folder[4200];
    assert_non_null(getcwd(here, sizeof here));
    snprintf(folder, sizeof folder, "%s/year", here);
    if (access(folder, F_OK) != 0) write_example_year(folder);
    assert_int_equal(setenv("TELLTALE_CASES", folder, 1), 0);
    run_commands(b);
    assert_int_equal(unsetenv("TELLTALE_CASES"), 0);
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
    else if (strcmp(b->heading, "console example-year") == 0)
        run_in_example_year(b);
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
