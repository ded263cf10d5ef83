#include "summary/case_summary.h"

#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "base/value.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "summary/case_sight.h"
#include "summary/record_line.h"

/* ---- lines ---- */

static bool take_slowly(case_sight *s, const char *line, size_t length, scanned_line *out)
{
    bool follows;
    *out = (scanned_line){.data = {NULL, 0}};
    return record_of_line(s->keep, line, length, s->uuid, "", &out->record, &follows) == NULL;
}

static void take_line(case_sight *s, char *line, size_t length, bool ends)
{
    scanned_line taken;
    if (!(ends && line_scan(line, length, s->uuid, &taken)) &&
        !take_slowly(s, line, length, &taken)) {
        s->left_out++;
        return;
    }
    GROW(s->keep, s->records, s->count, s->room);
    GROW(s->keep, s->lines, s->count, s->line_room);
    s->records[s->count] = taken.record;
    s->lines[s->count++] = (sighted){taken.data, taken.seen};
}

static void take_lines(case_sight *s, const case_bytes *file)
{
    for (size_t from = 0; from < file->length;) {
        char *line = file->bytes + from;
        const char *end = memchr(line, '\n', file->length - from);
        size_t length = end != NULL ? (size_t)(end - line) : file->length - from;
        take_line(s, line, length, end != NULL);
        from += length + 1;
    }
}

/* ---- in a few words ---- */

/* What is to be kept of a case in one piece of memory: its bytes belong to the next case soon. */
static size_t texts_size(const tt_case_summary *s)
{
    size_t size = 0;
#define TEXT_SIZE(name) size += strlen(s->name) + 1;
    TT_SUMMARY_TEXTS(TEXT_SIZE)
#undef TEXT_SIZE
    return size;
}

static const char *move_text(char **to, const char *text)
{
    size_t size = strlen(text) + 1;
    char *moved = memcpy(*to, text, size);
    *to += size;
    return moved;
}

void case_summary_keep(case_summary *out)
{
    char *at = take_memory(texts_size(&out->says));
    out->texts = at;
#define MOVE_TEXT(name) out->says.name = move_text(&at, out->says.name);
    TT_SUMMARY_TEXTS(MOVE_TEXT)
#undef MOVE_TEXT
}

static char *site_path_of(tt_journal *journal)
{
    tt_case_places places;
    if (tt_journal_places(journal, &places) != TT_OK) memory_ended();
    const char *path = value_text(places.site, "path");
    return copy_text(path != NULL ? path : "");
}

/* *site_path: see case_findable; null: not wanted. */
static void say_what_it_means(case_sight *s, case_summary *out, char **site_path)
{
    const tt_record_reader reader = {sight_read, s};
    tt_journal *journal = NULL;
    if (tt_journal_new(s->records, s->count, &reader, &journal) != TT_OK ||
        tt_journal_summary(journal, &out->says) != TT_OK)
        memory_ended();
    case_summary_keep(out);
    if (site_path != NULL) *site_path = site_path_of(journal);
    out->left_out = s->left_out + out->says.damaged;
    tt_journal_free(journal);
}

void case_summarize(const char *uuid, const case_bytes *files, size_t file_count,
                    char *const *words, size_t word_count, case_summary *out)
{
    *out = (case_summary){.has_text = words_may_hold(files, file_count, words, word_count)};
    memcpy(out->uuid, uuid, TT_CASE_ID_SIZE);
    if (!out->has_text) return; /* most cases, when words are looked for */
    case_sight s = {.keep = host_arena(), .uuid = uuid};
    for (size_t i = 0; i < file_count; i++) take_lines(&s, &files[i]);
    say_what_it_means(&s, out, NULL);
    out->has_text = sight_holds(&s, words, word_count);
    arena_free(s.keep);
}

void case_summarize_whole(const char *uuid, const case_bytes *files, size_t file_count,
                          case_summary *out, case_findable *by)
{
    *out = (case_summary){.has_text = true};
    memcpy(out->uuid, uuid, TT_CASE_ID_SIZE);
    case_sight s = {.keep = host_arena(), .uuid = uuid};
    for (size_t i = 0; i < file_count; i++) take_lines(&s, &files[i]);
    say_what_it_means(&s, out, &by->site_path);
    by->words = sight_words(&s);
    arena_free(s.keep);
}

void case_summary_free(case_summary *s)
{
    free(s->folder);
    free(s->texts);
}

bool case_is_open(const case_summary *s)
{
    return s->says.state == TT_CASE_OPEN || s->says.state == TT_CASE_ON_HOLD ||
           s->says.state == TT_CASE_WAITING;
}
