/* A call: each line is one reply. "#3" takes the fourth choice of the turn, "=45 psi" a number with
 * its unit, "!" says that what came was not kept; anything else is typed. Whatever is said, a turn
 * follows, and what was kept can be read again. */
#include "fuzz_target.h"

#include <stdlib.h>
#include <string.h>

#include "base/value.h"
#include "fuzz_books.h"
#include "telltale_talk.h"
#include "test_sources.h"

enum { MOST_REPLIES = 40, MOST_RECORDS = 400 };

typedef struct call {
    arena *keep;
    tt_talk *talk;
    tt_record records[MOST_RECORDS];
    uint32_t count;
    bool lost; /* something was said not to be kept */
} call;

static void put(call *c, const tt_record *records, uint32_t count, bool kept)
{
    for (uint32_t i = 0; i < count && kept && c->count < MOST_RECORDS; i++) {
        tt_record *r = &c->records[c->count++];
        *r = records[i];
        r->writer = str_copy(c->keep, str_of(r->writer)).p;
        r->time = str_copy(c->keep, str_of(r->time)).p;
        r->kind = str_copy(c->keep, str_of(r->kind)).p;
        tt_value *copies = ARENA_ARRAY(c->keep, tt_value, 2);
        copies[0] = value_copy(c->keep, r->data);
        if (r->seen != NULL) copies[1] = value_copy(c->keep, r->seen);
        r->data = &copies[0];
        r->seen = r->seen != NULL ? &copies[1] : NULL;
    }
    c->lost = c->lost || (count > 0 && !kept);
    if (count > 0) MUST(tt_talk_kept(c->talk, kept) == TT_OK);
}

static void check_turn(const tt_turn *t)
{
    MUST(t != NULL && t->kind < TT_TURN_KINDS);
    MUST(t->kind == TT_TURN_END || (t->word_count > 0 && strcmp(t->words[0].id, "danger") == 0));
    for (uint32_t i = 0; i < t->choice_count; i++)
        MUST(t->choices[i].id[0] != 0 && t->choices[i].text[0] != 0);
    MUST(t->gate_open || !(t->kind == TT_TURN_FIX_STEP || t->kind == TT_TURN_BEFORE_FIX));
}

static void reply(call *c, const char *line)
{
    const tt_turn *t = tt_talk_turn(c->talk);
    const tt_record *records;
    uint32_t count;
    double number;
    char *end;
    tt_heard heard = {.words = line};
    bool kept = true;
    if (line[0] == '#' && t->choice_count > 0)
        heard = (tt_heard){.choice = t->choices[strtoul(line + 1, NULL, 10) % t->choice_count].id};
    if (line[0] == '!') kept = false, heard.words = line + 1;
    if (line[0] == '=') {
        number = strtod(line + 1, &end);
        while (*end == ' ') end++;
        heard = (tt_heard){.number = &number, .unit = *end != 0 ? end : NULL};
    }
    const tt_status status =
        tt_talk_hear(c->talk, &heard, "2026-11-29T09:00:00Z", &records, &count);
    MUST(status == TT_OK || status == TT_FAULTY);
    if (status == TT_OK) put(c, records, count, kept);
    check_turn(tt_talk_turn(c->talk));
}

/* Somebody else looks at it. */
static void read_again(const call *c, const tt_book *b)
{
    tt_talk *again;
    const tt_record *records;
    uint32_t count;
    tt_history history;
    const tt_talk_options options = {
        .writer = "west", .number = "000001A", .look_only = true, .how = "resume"};
    if (c->count == 0 || c->count == MOST_RECORDS) return;
    MUST(tt_talk_new(b, &options, &again) == TT_OK);
    MUST(tt_talk_take(again, c->records, c->count) == TT_OK);
    MUST(tt_talk_begin(again, "2026-11-29T10:00:00Z", &records, &count) == TT_OK && count == 0);
    MUST(tt_talk_turn(again) != NULL && tt_talk_history(again, &history) == TT_OK);
    for (uint32_t i = 0; i < history.count; i++) MUST(!history.items[i].left_out);
    tt_talk_free(again);
}

static void one(const uint8_t *bytes, size_t length)
{
    const tt_book *b = fuzz_book_once("tests/cli/well")->book;
    call c = {.keep = test_arena()};
    const tt_record *records;
    uint32_t count;
    const tt_talk_options options = {.writer = "east",
                                     .kept = true,
                                     .number = "000001A",
                                     .role = length > 0 && bytes[0] == '@' ? "technician" : NULL};
    MUST(tt_talk_new(b, &options, &c.talk) == TT_OK);
    MUST(tt_talk_begin(c.talk, "2026-11-29T08:00:00Z", &records, &count) == TT_OK);
    put(&c, records, count, true);
    check_turn(tt_talk_turn(c.talk));
    const char *at = (const char *)bytes, *end = at + length;
    for (int replies = 0;
         at < end && replies < MOST_REPLIES && tt_talk_turn(c.talk)->kind != TT_TURN_END;
         replies++) {
        const char *line_end = memchr(at, '\n', (size_t)(end - at));
        if (line_end == NULL) line_end = end;
        reply(&c, str_copy(c.keep, (str){at, (size_t)(line_end - at)}).p);
        at = line_end + 1;
    }
    if (!c.lost) read_again(&c, b);
    tt_talk_free(c.talk);
    arena_free(c.keep);
}

FUZZ_TARGET("turns", one, NULL)
