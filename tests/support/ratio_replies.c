/* The sides of ratio_sides.h that keep a reply: with the program's own hands, so without the
 * engine's inside. */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "books/read_book.h"
#include "cases/case_store.h"
#include "ratio_sides.h"

static void must(bool done, const char *what)
{
    if (done) return;
    fprintf(stderr, "ratios: %s\n", what);
    exit(2);
}

typedef struct keeping {
    opened_book book;
    tt_talk *talk;
    case_store *store;
    int fd;
    bool answered;
    size_t bytes; /* of the last line */
} keeping;

static void keep_new(keeping *k, const tt_record *records, uint32_t count)
{
    const char *why;
    const bool on_disk = case_store_keep(k->store, records, count, &why);
    must(on_disk, why);
    must(tt_talk_kept(k->talk, true) == TT_OK, "not kept");
}

static keeping *kept_talk(void)
{
    static keeping k;
    const tt_record *records;
    uint32_t count;
    if (k.talk != NULL) return &k;
    must(book_open(TT_SOURCE_DIR "/rules/foam-line", NULL, &k.book) == EXIT_DONE, "no book");
    must(case_store_new("ratio-cases", &k.store) == EXIT_DONE, "no folder for cases");
    const tt_talk_options options = {.writer = case_store_writer(k.store), .kept = true};
    must(tt_talk_new(k.book.book, &options, &k.talk) == TT_OK, "no talk");
    must(tt_talk_begin(k.talk, "2026-11-30T09:00:00Z", &records, &count) == TT_OK, "no talk");
    k.fd = open("ratio-bytes", O_WRONLY | O_CREAT | O_TRUNC | O_APPEND | O_CLOEXEC, 0600);
    must(k.fd >= 0, "no file to write to");
    return &k;
}

/* There and back again: "no danger", and that taken back. */
void reply_kept(uint32_t unused)
{
    (void)unused;
    keeping *k = kept_talk();
    const tt_record *records;
    uint32_t count;
    const tt_turn *turn = tt_talk_turn(k->talk);
    const tt_heard heard = {.choice = k->answered ? "back" : turn->choices[0].id};
    must(tt_talk_hear(k->talk, &heard, "2026-11-30T09:00:00Z", &records, &count) == TT_OK &&
             count > 0,
         "the reply makes no record");
    keep_new(k, records, count);
    k->answered = !k->answered;
}

void bytes_synced(uint32_t unused)
{
    (void)unused;
    enum { A_LINE = 800 }; /* of such a record, with its hash */
    char line[A_LINE];
    memset(line, 'x', sizeof line);
    must(write(kept_talk()->fd, line, sizeof line) == (ssize_t)sizeof line, "not written");
    must(fdatasync(kept_talk()->fd) == 0, "not synced");
}
