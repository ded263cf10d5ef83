/* Memory ends at every place in turn while somebody talks, once and from then on. What the host was
 * told is kept stays; what it was not told counts for nothing; the turn says so; said again it is
 * taken; and in the end the same records are there as if nothing had happened. */
#include "testing.h"

#include <stdlib.h>

#include "base/value.h"
#include "book_folder.h"
#include "ending_memory.h"
#include "talk_kit.h"

#if OWN_MALLOC
/* ---- a short case ---- */

static const char now[] = "2026-11-29T09:00:00Z";

typedef struct said {
    const char *choice, *words;
    double number;
    const char *unit;
} said;
static const said script[] = {
    {.words = "perhaps"},
    {.choice = "mistaken"},
    {.choice = "safe"},
    {.words = "it smells of gas"},
    {.choice = "safe"},
    {.choice = "foam-too-dry"},
    {.choice = "hiss"},
    {.choice = "even"},
    {.number = 55, .unit = "psi"},
    {.choice = "known"},
    {.choice = "go-on"},
    {.choice = "begin"},
    {.choice = "done"},
    {.choice = "back"},
    {.choice = "worse"},
    {.choice = "safe"},
    {.choice = "back"},
    {.choice = "hold"},
    {.words = "until tomorrow"},
};
enum {
    SCRIPT = sizeof script / sizeof script[0],
    BEGINNING = 12 /* takings, of which each is tried: arenas are made one after the other */
};

static const tt_record from_west[] = {
    {.writer = "west", .number = 1, .lamport = 3, .time = now, .kind = "resume", .data = NULL}};

typedef struct run {
    record_folder *folder;
    tt_talk *talk;
    bool failed;
} run;

static void keep(run *r, const tt_record *records, uint32_t count)
{
    record_folder *f = r->folder;
    const bool on = memory.on;
    memory.on = memory.counts = false; /* the host has its own */
    for (uint32_t i = 0; i < count; i++) {
        assert_true(f->count < TALK_RECORDS_MOST);
        tt_record *copy = &f->records[f->count++];
        *copy = records[i];
        copy->kind = str_copy(f->keep, str_of(records[i].kind)).p;
    }
    memory.on = on;
    memory.counts = true;
}

/* Whatever ran out of memory is done again once there is some. */
static tt_status with_memory_off(run *r, tt_status status)
{
    if (status != TT_NO_MEMORY) return status;
    memory.on = false;
    r->failed = true;
    return TT_NO_MEMORY;
}

static void begin(run *r, const tt_book *b)
{
    const tt_value about = {.kind = TT_VALUE_MAP};
    const tt_talk_options options = {
        .writer = "east", .kept = true, .number = "000001A", .about = &about};
    const tt_record *records;
    uint32_t count;
    while (with_memory_off(r, tt_talk_new(b, &options, &r->talk)) == TT_NO_MEMORY)
        assert_null(r->talk);
    assert_non_null(r->talk);
    while (with_memory_off(r, tt_talk_begin(r->talk, now, &records, &count)) == TT_NO_MEMORY)
        assert_int_equal(count, 0);
    assert_int_equal(count, 0);
}

/* After memory has ended the turn says so, and the reply is said once more. */
static void say(run *r, const said *s)
{
    const tt_heard heard = {.choice = s->choice,
                            .words = s->words,
                            .number = s->unit != NULL ? &s->number : NULL,
                            .unit = s->unit};
    const tt_heard go_on = {.choice = "go-on"};
    const tt_record *records;
    uint32_t count;
    while (with_memory_off(r, tt_talk_hear(r->talk, &heard, now, &records, &count)) ==
           TT_NO_MEMORY) {
        assert_int_equal(count, 0);
        assert_turn(tt_talk_turn(r->talk), TT_TURN_NOT_KEPT);
        assert_string_equal(tt_talk_turn(r->talk)->words[0].id, "danger");
        assert_int_equal(tt_talk_hear(r->talk, &go_on, now, &records, &count), TT_OK);
        assert_int_equal(count, 0);
    }
    keep(r, records, count);
    if (count > 0 && with_memory_off(r, tt_talk_kept(r->talk, true)) == TT_NO_MEMORY) {
        assert_turn(
            tt_talk_turn(r->talk),
            TT_TURN_NOT_KEPT); /* it is kept all the same; only the turn could not be made */
        assert_int_equal(tt_talk_hear(r->talk, &go_on, now, &records, &count), TT_OK);
        assert_int_equal(count, 0);
    }
}

static void hear_of_west(run *r)
{
    const tt_value data = {.kind = TT_VALUE_MAP};
    tt_record joined = from_west[0];
    joined.data = &data;
    while (with_memory_off(r, tt_talk_take(r->talk, &joined, 1)) == TT_NO_MEMORY) {
        const tt_record *records;
        uint32_t count;
        assert_int_equal(
            tt_talk_hear(r->talk, &(tt_heard){.choice = "go-on"}, now, &records, &count), TT_OK);
    }
}

static void play(run *r, const tt_book *b)
{
    memory.live = 0;
    memory.counts = true;
    begin(r, b);
    for (uint32_t i = 0; i < SCRIPT; i++) {
        say(r, &script[i]);
        if (i == 5) hear_of_west(r);
    }
    assert_turn(tt_talk_turn(r->talk), TT_TURN_END);
    memory.on = false;
    tt_talk_free(r->talk);
    memory.counts = false;
    assert_int_equal(memory.live, 0); /* all of it was given back */
}

static void same_records(const record_folder *f, const record_folder *as)
{
    assert_int_equal(f->count, as->count);
    for (uint32_t i = 0; i < f->count; i++) {
        assert_string_equal(f->records[i].kind, as->records[i].kind);
        assert_int_equal(f->records[i].number, as->records[i].number);
        assert_int_equal(f->records[i].lamport, as->records[i].lamport);
    }
}

static void fail_everywhere(bool from_then_on)
{
    tt_book *b = book_folder("rules/foam-line");
    run whole = {.folder = record_folder_new()};
    memory.on = true;
    memory.takings = memory.fail_at = 0;
    play(&whole, b);
    const size_t takings = memory.takings;
    assert_true(takings > 0 && !whole.failed);
    uint32_t failed = 0, tried = 0;
    const size_t step = takings / 400 + 1; /* evenly, and the last ones too */
    for (size_t at = 1; at <= takings; at += at < BEGINNING ? 1 : step) {
        run r = {.folder = record_folder_new()};
        memory.on = true;
        memory.from_then_on = from_then_on;
        memory.takings = 0;
        memory.fail_at = at;
        play(&r, b);
        same_records(r.folder, whole.folder);
        failed += r.failed;
        tried++;
        record_folder_free(r.folder);
    }
    print_message("%zu takings, %u of %u ran out of memory\n", takings, failed, tried);
    assert_true(failed > 0);
    record_folder_free(whole.folder);
    tt_book_free(b);
}
#else
static void fail_everywhere(bool from_then_on)
{
    (void)from_then_on;
    skip(); /* the sanitizers' malloc stands before ours */
}
#endif

int main(void)
{
    return ending_memory_tests(fail_everywhere);
}
