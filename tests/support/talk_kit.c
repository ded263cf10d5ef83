#include "talk_kit.h"

#include <stdio.h>
#include <stdlib.h>

#include "base/value.h"
#include "test_sources.h"
#include "testing.h"

record_folder *record_folder_new(void)
{
    record_folder *f = calloc(1, sizeof *f);
    assert_non_null(f);
    f->keep = test_arena();
    return f;
}

void record_folder_free(record_folder *f)
{
    arena_free(f->keep);
    free(f);
}

static void put(record_folder *f, const tt_record *r)
{
    assert_true(f->count < TALK_RECORDS_MOST);
    tt_value *both = ARENA_ARRAY(f->keep, tt_value, 2);
    both[0] = value_copy(f->keep, r->seen);
    both[1] = value_copy(f->keep, r->data);
    tt_record *copy = &f->records[f->count++];
    *copy = *r;
    copy->writer = str_copy(f->keep, str_of(r->writer)).p;
    copy->time = str_copy(f->keep, str_of(r->time)).p;
    copy->kind = str_copy(f->keep, str_of(r->kind)).p;
    copy->seen = r->seen != NULL ? &both[0] : NULL;
    copy->data = &both[1];
}

const tt_record *last_record(const record_folder *f, const char *kind)
{
    for (uint32_t i = f->count; i-- > 0;)
        if (strcmp(f->records[i].kind, kind) == 0) return &f->records[i];
    return NULL;
}

static void keep(told_talk *t, const tt_record *records, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) put(t->folder, &records[i]);
    if (count > 0) assert_int_equal(tt_talk_kept(t->talk, true), TT_OK);
}

told_talk talk_open(const tt_book *b, record_folder *f, const char *writer, const char *role,
                    const char *how, const char *now)
{
    const tt_talk_options options = {
        .writer = writer, .role = role, .kept = true, .number = "000001A", .how = how};
    return talk_open_with(b, f, &options, now);
}

told_talk talk_open_with(const tt_book *b, record_folder *f, const tt_talk_options *options,
                         const char *now)
{
    told_talk t = {.folder = f, .writer = options->writer};
    const tt_record *records;
    uint32_t count;
    snprintf(t.now, sizeof t.now, "%s", now);
    assert_int_equal(tt_talk_new(b, options, &t.talk), TT_OK);
    assert_int_equal(tt_talk_take(t.talk, f->records, f->count), TT_OK);
    t.taken = f->count;
    assert_int_equal(tt_talk_begin(t.talk, now, &records, &count), TT_OK);
    keep(&t, records, count);
    return t;
}

void talk_close(told_talk *t)
{
    tt_talk_free(t->talk);
    t->talk = NULL;
}

void talk_news_of_others(told_talk *t)
{
    for (; t->taken < t->folder->count; t->taken++) {
        const tt_record *r = &t->folder->records[t->taken];
        if (strcmp(r->writer, t->writer) != 0) assert_int_equal(tt_talk_take(t->talk, r, 1), TT_OK);
    }
}

const tt_turn *hand_in(told_talk *t, const tt_heard *heard)
{
    const tt_record *records;
    uint32_t count;
    assert_int_equal(tt_talk_hear(t->talk, heard, t->now, &records, &count), TT_OK);
    keep(t, records, count);
    return tt_talk_turn(t->talk);
}

const tt_turn *choose(told_talk *t, const char *id)
{
    return hand_in(t, &(tt_heard){.choice = id});
}

const tt_turn *type(told_talk *t, const char *words)
{
    return hand_in(t, &(tt_heard){.words = words});
}

const tt_turn *read_off(told_talk *t, double number, const char *unit)
{
    return hand_in(t, &(tt_heard){.number = &number, .unit = unit});
}

const tt_turn *turn_of(const told_talk *t)
{
    return tt_talk_turn(t->talk);
}

bool turn_offers(const tt_turn *turn, const char *choice)
{
    for (uint32_t i = 0; i < turn->choice_count; i++)
        if (strcmp(turn->choices[i].id, choice) == 0) return true;
    return false;
}

static bool tells(const tt_turn_part *parts, uint32_t count, tt_part_kind kind, const char *words)
{
    for (uint32_t i = 0; i < count; i++)
        for (uint32_t k = 0; k < parts[i].item_count; k++)
            if ((kind == TT_PART_KINDS || parts[i].kind == kind) &&
                strstr(parts[i].items[k], words) != NULL)
                return true;
    return false;
}

bool turn_tells(const tt_turn *turn, tt_part_kind kind, const char *words)
{
    return tells(turn->parts, turn->part_count, kind, words) ||
           tells(turn->news, turn->news_count, kind, words);
}

const char *turn_locked_title(const tt_turn *turn)
{
    for (uint32_t i = 0; i < turn->part_count; i++)
        if (turn->parts[i].kind == TT_PART_LOCKED) return turn->parts[i].title;
    fail_msg("nothing is told to stay as it is");
    return "";
}

bool turn_offers_fix(const tt_turn *turn)
{
    return turn->kind == TT_TURN_BEFORE_FIX || turn->kind == TT_TURN_FIX_STEP ||
           turn->kind == TT_TURN_OUTCOME || turn->kind == TT_TURN_PUT_BACK;
}
