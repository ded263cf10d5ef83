/* docs/many-machines.md: what it says for one computer is run, with a small book and few calls; the
 * sum is that of one run. */
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "page_blocks.h"
#include "skips.h"
#include "testing.h"

#define PAGE TT_SOURCE_DIR "/docs/many-machines.md"
#define BOOK TT_SOURCE_DIR "/tests/cli/well"

/* The first that is marked to be run, into a file; its first line says how many calls of which
 * book. */
static void write_script(const block *b, void *context)
{
    bool *written = context;
    const char *rest = strchr(b->text, '\n') + 1;
    char script[4096];
    if (*written || strcmp(b->heading, "sh run") != 0) return;
    assert_memory_equal(b->text, "calls=20000 part=500 book=", 26);
    const int length = snprintf(script, sizeof script, "set -e\ncalls=40 part=10 book='%s'\n%.*s",
                                BOOK, (int)(b->length - (size_t)(rest - b->text)), rest);
    assert_in_range(length, 1, sizeof script - 1);
    write_page_text("script.sh", script, (size_t)length);
    *written = true;
}

static void parts_come_to_what_one_run_shows(void **state)
{
    bool written = false;
    (void)state;
    if (shell_status("command -v parallel >found") != 0)
        skip_since("GNU parallel cuts a rehearsal into parts: " BY_EVERYTHING);
    char *text = page_text(PAGE);
    each_block_of("many-machines.md", text, write_script, &written);
    free(text);
    assert_true(written);
    assert_int_equal(shell_status("rm -rf parts rehearsal.*; ln -sf '%s' telltale; "
                                  "PATH=\"$PWD:$PATH\" sh script.sh >out 2>err",
                                  TT_PROGRAM),
                     0);
    assert_int_equal(shell_status("test $(ls parts/*.json | wc -l) = 4 && './telltale' rehearse "
                                  "'%s' --calls 40 --json >one 2>err && "
                                  "cmp one rehearsal.json && test -s rehearsal.html",
                                  BOOK),
                     0);
    /* Cut off: what is missing is played again, and nothing else. */
    assert_int_equal(
        shell_status("sed -i '/--calls 21/d' parts/log.txt && rm parts/21.json && cp parts/1.json "
                     "first && touch -d 2020-01-01 parts/1.json && "
                     "PATH=\"$PWD:$PATH\" sh script.sh >out 2>err && cmp first "
                     "parts/1.json && cmp one rehearsal.json && "
                     "test parts/1.json -ot first"),
        0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(parts_come_to_what_one_run_shows)};
    return cmocka_run_group_tests_name("many machines", tests, NULL, NULL);
}
