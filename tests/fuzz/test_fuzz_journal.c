/* A writer's file of a case. A line is a record or it is not, whichever way it is read; a case can
 * be told in a few words, and a talk takes all of it, whatever stands there. */
#include "fuzz_target.h"

#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "fuzz_books.h"
#include "summary/case_scan.h"
#include "summary/case_summary.h"
#include "summary/record_line.h"
#include "telltale_talk.h"
#include "test_sources.h"

static const char id[] = "019c0000-0000-7000-8000-000000000001";

typedef struct lines {
    arena *keep;
    tt_record *records;
    uint32_t count, room;
} lines;

static void read_both_ways(lines *l, const char *at, size_t length)
{
    char hash[LINE_HASH_SIZE] = "";
    bool follows;
    tt_record slow;
    scanned_line quick;
    char *copy = malloc(length + 1);
    MUST(copy != NULL);
    memcpy(copy, at, length);
    copy[length] = 0;
    const bool fine = record_of_line(l->keep, at, length, id, hash, &slow, &follows) == NULL;
    if (line_scan(copy, length, id, &quick) && fine) {
        MUST(quick.record.number == slow.number && quick.record.lamport == slow.lamport);
        MUST(strcmp(quick.record.kind, slow.kind) == 0 &&
             strcmp(quick.record.writer, slow.writer) == 0);
        MUST(strcmp(quick.record.time, slow.time) == 0);
    }
    free(copy);
    if (!fine) return;
    GROW(l->keep, l->records, l->count, l->room);
    l->records[l->count++] = slow;
    const str again = record_line(l->keep, id, hash, &slow, NULL);
    tt_record same;
    MUST(record_of_line(l->keep, again.p, again.n, id, hash, &same, &follows) == NULL && follows);
    MUST(same.number == slow.number && strcmp(same.kind, slow.kind) == 0);
}

static void tell_in_few_words(const uint8_t *bytes, size_t length)
{
    case_summary s;
    char *copy = malloc(length + 1);
    MUST(copy != NULL);
    if (length > 0) memcpy(copy, bytes, length);
    copy[length] = 0;
    const case_bytes file = {copy, length};
    case_summarize(id, &file, 1, NULL, 0, &s);
    MUST(s.has_text);
    case_summary_free(&s);
    free(copy);
}

static void take_up(const lines *l)
{
    tt_talk *talk;
    const tt_record *records;
    uint32_t count;
    tt_history history;
    const tt_talk_options options = {
        .writer = "west", .number = "000001A", .kept = true, .how = "take-over"};
    MUST(tt_talk_new(fuzz_book_once("tests/cli/well")->book, &options, &talk) == TT_OK);
    MUST(tt_talk_take(talk, l->records, l->count) == TT_OK);
    const tt_status status = tt_talk_begin(talk, "2026-11-29T10:00:00Z", &records, &count);
    MUST(status == TT_OK || status == TT_FAULTY);
    if (status == TT_OK) {
        if (count > 0) MUST(tt_talk_kept(talk, true) == TT_OK);
        MUST(tt_talk_turn(talk) != NULL && tt_talk_history(talk, &history) == TT_OK);
    }
    tt_talk_free(talk);
}

static void one(const uint8_t *bytes, size_t length)
{
    lines l = {.keep = test_arena()};
    const char *at = (const char *)bytes, *end = at + length;
    while (at < end) {
        const char *line_end = memchr(at, '\n', (size_t)(end - at));
        if (line_end == NULL) line_end = end;
        read_both_ways(&l, at, (size_t)(line_end - at));
        at = line_end + 1;
    }
    tell_in_few_words(bytes, length);
    if (l.count > 0) take_up(&l);
    arena_free(l.keep);
}

FUZZ_TARGET("journal", one, NULL)
