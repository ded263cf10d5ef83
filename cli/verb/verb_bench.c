/* bench: watches a book while somebody writes it, and answers each save. */
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "books/read_book.h"
#include "books/watch.h"
#include "face/bench_face.h"
#include "host/files.h"
#include "host/into.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "host/signals.h"
#include "verb/page_into.h"
#include "verb/verbs.h"

typedef struct bench {
    const command_line *line;
    const char *folder;
    unsigned saves;
    book_look now, good; /* good: the last one that loads, if `has_good` */
    bool has_good;
} bench;

static bench_told told_of(const bench *b, const book_look *now)
{
    return (bench_told){b->saves, now, b->has_good ? &b->good : NULL};
}

/* What check says is there before the cases are played. */
static void say_check(const book_look *so_far, void *context)
{
    const bench_told told = told_of(context, so_far);
    bench_say_check(stdout, &told);
}

static exit_status write_page(FILE *out, const void *context)
{
    const bench *b = context;
    const bench_told told = told_of(b, &b->now);
    arena *keep = host_arena();
    bench_on_paper(out, &paper_of_html, keep, b->folder, &told);
    arena_free(keep);
    return EXIT_DONE;
}

static exit_status put_page(const bench *b)
{
    const char *into = b->line->values[OPTION_INTO];
    /* From the second time on it is the page of this very bench. */
    return into != NULL ? page_put_at(into, is_given(b->line, OPTION_OVERWRITE), write_page, b)
                        : EXIT_DONE;
}

/* ---- what editors know the book by ---- */

static bool is_schema(const char *bytes, size_t length)
{
    static const char begins[] = "{\n \"$schema\": \"http://json-schema.org/draft-07/schema#\"";
    return length >= sizeof begins - 1 && memcmp(bytes, begins, sizeof begins - 1) == 0;
}

/* A book that does not load keeps the one of the last that did. */
static exit_status put_schema_of(const char *path, const sources *files)
{
    tt_schema *s = NULL;
    tt_report *report = NULL;
    size_t length;
    exit_status status = EXIT_DONE;
    const tt_status made = tt_schema_new(files->items, files->count, &s, &report);
    if (made == TT_OK) {
        const char *text = tt_schema_text(s, &length);
        status = put_into(path, text, length, is_schema, false);
    } else if (made == TT_NO_MEMORY) {
        memory_ended();
    }
    tt_report_free(report);
    tt_schema_free(s);
    return status;
}

/* Comes after the answer: whoever saved waits for that, and an editor for nothing. A folder that is
 * being moved about is read again with the next save. */
static exit_status put_schema(const bench *b)
{
    const char *path = b->line->values[OPTION_SCHEMA];
    sources files = {.count = 0};
    if (path == NULL || sources_read(b->folder, &files) != EXIT_DONE) return EXIT_DONE;
    exit_status status = put_schema_of(path, &files);
    sources_free(&files);
    return status;
}

/* The page stands when the last line is shown, so whoever reads that can look at it. */
static exit_status answer(bench *b)
{
    const book_look *before = b->has_good ? &b->good : NULL;
    exit_status status = book_look_at(b->folder, before, &b->now, say_check, b);
    if (status == EXIT_DONE) status = put_page(b);
    if (status == EXIT_DONE) {
        const bench_told told = told_of(b, &b->now);
        bench_say_cases(stdout, &told);
    }
    if (status == EXIT_DONE && b->now.loads) {
        if (b->has_good) book_look_free(&b->good);
        b->good = b->now;
        b->has_good = true;
    } else {
        book_look_free(&b->now);
    }
    return status == EXIT_DONE ? put_schema(b) : status;
}

/* A folder that is empty for a moment, while an editor or git moves files, is no end; one that is
 * gone is. */
static bool goes_on(const bench *b, exit_status status)
{
    char *there = book_folder(b->folder);
    const bool goes_on = status == EXIT_DONE || (status == EXIT_NO_FILE && there != NULL);
    free(there);
    return goes_on;
}

static exit_status watch_on(bench *b, watch *w)
{
    exit_status status = answer(b);
    if (status != EXIT_DONE) return status;
    for (;;) {
        const watch_got got = watch_wait(w);
        if (got == WATCH_SIGNAL) return EXIT_DONE;
        if (got == WATCH_FAILED) return say_file_failure(b->folder, errno);
        b->saves++;
        status = answer(b);
        if (!goes_on(b, status)) return status;
    }
}

static exit_status check_options(const command_line *line)
{
    const char *into = line->values[OPTION_INTO];
    if (into == NULL && is_given(line, OPTION_OVERWRITE))
        complain("--overwrite says what may be written over by --into: add --into FILE");
    if (into != NULL && strcmp(into, "-") == 0)
        complain("--into - has no place to write a page anew: name a file");
    return (into == NULL && is_given(line, OPTION_OVERWRITE)) ||
                   (into != NULL && strcmp(into, "-") == 0)
               ? EXIT_USAGE
               : EXIT_DONE;
}

exit_status verb_bench(const command_line *line)
{
    exit_status status = check_options(line);
    if (status != EXIT_DONE) return status;
    char *folder = book_folder(line->words[1]);
    if (folder == NULL) {
        complain("%s: there is no such folder", line->words[1]);
        return EXIT_NO_FILE;
    }
    signals_note();
    watch *w = watch_new(folder);
    bench b = {.line = line, .folder = folder};
    status = w != NULL ? watch_on(&b, w) : say_file_failure(folder, errno);
    if (b.has_good) book_look_free(&b.good);
    watch_free(w);
    free(folder);
    return status;
}
