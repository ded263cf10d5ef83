/* A program that sends anything at any turn, and records in which anything stands: a talk takes it
 * or says what is wrong, stops at nothing, and keeps only what can be read again. Whoever only
 * looks keeps nothing. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/unicode.h"
#include "base/value.h"
#include "book_folder.h"
#include "luck.h"
#include "telltale.h"
#include "test_sources.h"

#ifdef __SANITIZE_ADDRESS__
enum { CALLS = 30 };
#else
enum { CALLS = 150 };
#endif
enum { REPLIES = 40, MOST_RECORDS = 2048, LONG = 100000 };

static uint64_t luck;

static struct {
    uint64_t replies, refused, wrong, records, mixed, looks;
} seen;

/* ---- odd things ---- */

static char long_words[LONG + 1], long_line[LONG + 1];

static void make_long_words(void)
{
    static const char some[] = "fire 55 psi no dry \xc3\xa9 , ";
    for (size_t i = 0; i < LONG; i++) long_words[i] = some[i % (sizeof some - 1)];
    memset(long_line, 'a', LONG);
}

static const char *odd_text(void)
{
    static const char *const odd[] = {
        "",
        " ",
        "\n",
        "\t\r",
        "\x01\x02\x1b[2J",
        "\xff\xfe",
        "\xc3",
        "a\xe2\x80\xae"
        "b",
        "NaN",
        "inf",
        "-1",
        "1e400",
        "0x10",
        "%s%n",
        "../..",
        ":",
        "::",
        ":danger",
        ":back",
        "danger",
        "unsure",
        "cannot",
        "safe",
        "none",
        "all",
        "more",
        "yes",
        "no",
        "gone",
        "worse",
        "begin",
        "done",
        "go-on",
        "close",
        "wait",
        "put-back",
        "leave",
        "reopen",
        "came-back",
        "say-cause",
        "said-1",
        "said-99",
        "ask-again",
        "mistaken",
        "safe-now",
        "made-safe",
        "of-this-site",
        "answer-danger",
        "how",
        "1",
        "999999999999",
        "psi",
        "furlong",
        "no-such-thing",
        "stop",
        "hold",
        "hand over",
        "change",
        "known",
        "why",
        "?",
        "right",
        "i can not breathe",
        "it leaks",
        "55 psi and 40 psi",
        "\xf0\x9f\x94\xa5",
    };
    const uint32_t which = luck_below(&luck, sizeof odd / sizeof odd[0] + 6);
    if (which < sizeof odd / sizeof odd[0]) return odd[which];
    return which % 3 == 0 ? "foam-air" : which % 3 == 1 ? "foam-too-dry" : "danger";
}

static const char *odd_words(void)
{
    const uint32_t which = luck_below(&luck, 60);
    return which == 0 ? long_words : which == 1 ? long_line : odd_text();
}

static double odd_number(void)
{
    static const double odd[] = {0, -0.0, 1, 55, 1e-320, 1e308, -1e308, 12345678901234567890.0};
    const uint32_t which = luck_below(&luck, 11);
    return which == 8 ? NAN : which == 9 ? INFINITY : which == 10 ? -INFINITY : odd[which];
}

static const char *any_question(tt_case *c, const tt_book *b)
{
    const tt_book_info info = tt_book_describe(b);
    tt_question q;
    if (luck_below(&luck, 8) == 0 || c == NULL ||
        tt_question_show(c, luck_below(&luck, info.questions), &q) != TT_OK)
        return odd_text();
    return q.name;
}

enum { GIVEN = 4 };
typedef struct odd_reply {
    tt_heard heard;
    double number;
    const char *several[GIVEN];
    tt_given given[GIVEN];
    tt_source file;
} odd_reply;

static void odd_given(const tt_book *b, tt_case *c, odd_reply *r)
{
    r->heard.given_count = 1 + luck_below(&luck, GIVEN);
    r->heard.given = r->given;
    for (uint32_t i = 0; i < r->heard.given_count; i++) {
        r->several[i] = odd_text();
        r->given[i] = (tt_given){.question = luck_below(&luck, 40) == 0 ? NULL : any_question(c, b),
                                 .choice = luck_below(&luck, 2) == 0 ? odd_text() : NULL,
                                 .number = odd_number(),
                                 .unit = luck_below(&luck, 2) == 0 ? odd_text() : NULL,
                                 .not_these = r->several,
                                 .not_count = luck_below(&luck, 4) == 0 ? i : 0};
    }
}

static void odd(const tt_book *b, tt_talk *talk, odd_reply *r)
{
    const tt_turn *turn = tt_talk_turn(talk);
    *r = (odd_reply){.number = odd_number()};
    const uint32_t how = luck_below(&luck, 12);
    if (how < 4 && turn->choice_count > 0)
        r->heard.choice = turn->choices[luck_below(&luck, turn->choice_count)].id;
    else if (how == 4)
        r->heard.choice = odd_words();
    else if (how == 5) {
        r->heard.several_count = 1 + luck_below(&luck, GIVEN);
        for (uint32_t i = 0; i < r->heard.several_count; i++)
            r->several[i] = turn->choice_count > 0 && luck_below(&luck, 3) != 0
                                ? turn->choices[luck_below(&luck, turn->choice_count)].id
                            : luck_below(&luck, 20) == 0 ? NULL
                                                         : odd_text();
        r->heard.several = r->several;
    } else if (how == 6)
        r->heard.number = &r->number, r->heard.unit = luck_below(&luck, 2) == 0 ? odd_text() : NULL;
    else if (how == 7)
        odd_given(b, tt_talk_case(talk), r);
    else if (how == 8 && luck_below(&luck, 4) == 0) {
        r->file = (tt_source){.name = odd_text(), .bytes = odd_words()};
        r->file.length = strlen(r->file.bytes);
        r->heard.answers = &r->file;
    } else if (how == 9 && turn->takes.reading) {
        r->number = (double)luck_below(&luck, 100);
        r->heard.number = &r->number;
    } else if (how < 11)
        r->heard.words = odd_words();
}

/* ---- what must hold ---- */

static void is_sound(const char *text)
{
    assert_non_null(text);
    arena *a = test_arena();
    const str all = str_of(text), clean = unicode_clean(a, all);
    if (!str_eq(all, clean)) print_message("not clean: %.200s\n", text);
    assert_true(str_eq(all, clean));
    arena_free(a);
}

static void check_turn(const tt_turn *turn)
{
    is_sound(turn->prompt);
    is_sound(turn->wrong);
    for (uint32_t i = 0; i < turn->choice_count; i++) is_sound(turn->choices[i].text);
    for (uint32_t i = 0; i < turn->news_count; i++)
        for (uint32_t k = 0; k < turn->news[i].item_count; k++) is_sound(turn->news[i].items[k]);
    assert_true(turn->kind == TT_TURN_END || turn->choice_count > 0 || turn->takes.text ||
                turn->takes.reading || turn->takes.count);
    seen.wrong += *turn->wrong != 0;
}

typedef struct folder {
    arena *keep;
    tt_record records[MOST_RECORDS];
    uint32_t count;
} folder;

static void put(folder *f, const tt_record *r)
{
    char *line;
    assert_true(f->count < MOST_RECORDS);
    assert_int_equal(tt_value_json(r->data, 17, &line), TT_OK);
    free(line);
    tt_value *both = ARENA_ARRAY(f->keep, tt_value, 2);
    both[0] = value_copy(f->keep, r->seen);
    both[1] = value_copy(f->keep, r->data);
    f->records[f->count] = *r;
    f->records[f->count].writer = str_copy(f->keep, str_of(r->writer)).p;
    f->records[f->count].time = str_copy(f->keep, str_of(r->time)).p;
    f->records[f->count].kind = str_copy(f->keep, str_of(r->kind)).p;
    f->records[f->count].seen = r->seen != NULL ? &both[0] : NULL;
    f->records[f->count++].data = &both[1];
    seen.records++;
}

static void say(const tt_book *b, folder *f, tt_talk *talk, const char *now, bool only_looks)
{
    odd_reply r;
    const tt_record *records;
    uint32_t count;
    odd(b, talk, &r);
    const tt_status status = tt_talk_hear(talk, &r.heard, now, &records, &count);
    seen.replies++;
    seen.refused += status != TT_OK;
    assert_true(status == TT_OK || status == TT_NOT_NOW);
    assert_true(!only_looks || count == 0);
    for (uint32_t i = 0; i < count; i++) put(f, &records[i]);
    if (count > 0) assert_int_equal(tt_talk_kept(talk, luck_below(&luck, 10) != 0), TT_OK);
    check_turn(tt_talk_turn(talk));
}

static tt_talk *open_talk(const tt_book *b, folder *f, const char *writer, bool only_looks)
{
    static const char *const ways[] = {"resume", "join", "take-over"};
    const tt_talk_options options = {
        .writer = writer,
        .kept = luck_below(&luck, 5) != 0,
        .practice = luck_below(&luck, 5) == 0,
        .telephone = luck_below(&luck, 2) == 0,
        .soonest = luck_below(&luck, 2) == 0,
        .role = luck_below(&luck, 2) == 0
                    ? tt_role_name(b, luck_below(&luck, tt_book_describe(b).roles))
                    : NULL,
        .look_only = only_looks,
        .how = f->count > 0 ? ways[luck_below(&luck, 3)] : NULL};
    tt_talk *talk;
    const tt_record *records;
    uint32_t count;
    assert_int_equal(tt_talk_new(b, &options, &talk), TT_OK);
    assert_int_equal(tt_talk_take(talk, f->records, f->count), TT_OK);
    assert_int_equal(tt_talk_begin(talk, "2026-11-29T09:00:00Z", &records, &count), TT_OK);
    assert_true(!only_looks || count == 0);
    for (uint32_t i = 0; i < count; i++) put(f, &records[i]);
    if (count > 0) assert_int_equal(tt_talk_kept(talk, true), TT_OK);
    check_turn(tt_talk_turn(talk));
    return talk;
}

static const char *const times[] = {
    "2026-11-29T09:00:00Z",     "2026-11-29T10:00:00Z", "2026-11-29T08:00:00Z", "yesterday", "",
    "2026-11-29T09:10:00+14:00"};

static void talk_a_while(const tt_book *b, folder *f, const char *writer, bool only_looks)
{
    tt_talk *talk = open_talk(b, f, writer, only_looks);
    for (uint32_t i = 0; i < REPLIES && f->count + 64 < MOST_RECORDS; i++)
        say(b, f, talk, times[luck_below(&luck, 8) == 0 ? luck_below(&luck, 6) : 0], only_looks);
    tt_history told;
    const char *const *unsettled;
    uint32_t count;
    assert_int_equal(tt_talk_history(talk, &told), TT_OK);
    assert_int_equal(tt_talk_unsettled(talk, &unsettled, &count), TT_OK);
    tt_talk_free(talk);
    seen.looks += only_looks;
}

/* ---- records in which anything stands ---- */

static tt_value odd_value(arena *keep, uint32_t depth)
{
    const uint32_t kind = luck_below(&luck, depth == 0 ? 4 : 6);
    if (kind == 0) return value_null;
    if (kind == 1) return value_of_bool(luck_below(&luck, 2) == 0);
    if (kind == 2)
        return value_of_number(luck_below(&luck, 2) == 0 ? odd_number()
                                                         : (double)luck_below(&luck, 5));
    if (kind == 3) return value_of_text(odd_text());
    value_builder of = kind == 4 ? value_list(keep) : value_map(keep);
    for (uint32_t i = luck_below(&luck, 4); i > 0; i--) {
        static const char *const keys[] = {"a", "kind", "option", "number"};
        if (kind == 4)
            value_add(&of, odd_value(keep, depth - 1));
        else
            value_put(&of, keys[i], odd_value(keep, depth - 1));
    }
    return value_done(&of);
}

/* Fields of its own that hold something else, and those of some other kind. */
static void mix(folder *f)
{
    for (uint32_t i = 0; i < f->count; i++) {
        tt_record *r = &f->records[i];
        if (luck_below(&luck, 4) != 0) continue;
        value_builder data = value_map(f->keep);
        for (uint32_t k = 0; r->data != NULL && k < r->data->count; k++) {
            if (luck_below(&luck, 5) == 0) continue;
            value_put(&data, r->data->keys[k],
                      luck_below(&luck, 3) == 0 ? odd_value(f->keep, 3) : r->data->items[k]);
        }
        r->data = luck_below(&luck, 20) == 0 ? NULL : value_keep(&data);
        if (luck_below(&luck, 5) == 0) r->kind = f->records[luck_below(&luck, f->count)].kind;
        if (luck_below(&luck, 10) == 0) r->time = odd_text();
        if (luck_below(&luck, 20) == 0) r->seen = NULL;
        seen.mixed++;
    }
}

static void play(const tt_book *b, uint64_t call)
{
    folder *f = calloc(1, sizeof *f);
    assert_non_null(f);
    f->keep = test_arena();
    luck = call;
    talk_a_while(b, f, "east", false);
    talk_a_while(b, f, luck_below(&luck, 2) == 0 ? "west" : "east", false);
    if (f->count > 0) talk_a_while(b, f, "somebody", true);
    mix(f);
    if (f->count > 0) talk_a_while(b, f, "third", luck_below(&luck, 4) == 0);
    arena_free(f->keep);
    free(f);
}

static const char *const books[] = {"rules/foam-line", "rules/dosing-and-pumping",
                                    "tests/cli/regulator", "tests/cli/gauges", "tests/cli/filters"};
enum { BOOKS = sizeof books / sizeof books[0] };

static void nothing_stops_a_talk(void **state)
{
    (void)state;
    const char *wanted = getenv("TT_CALLS"), *first = getenv("TT_CALL");
    const uint64_t calls = wanted != NULL ? strtoull(wanted, NULL, 10) : CALLS,
                   from = first != NULL ? strtoull(first, NULL, 10) : 0;
    make_long_words();
    for (uint32_t i = 0; i < BOOKS; i++) {
        tt_book *b = book_folder(books[i]);
        for (uint64_t call = from / BOOKS; call < from / BOOKS + calls / BOOKS; call++) {
            if (first != NULL) print_message("%s, call %llu\n", books[i], (unsigned long long)call);
            play(b, call * BOOKS + i);
        }
        tt_book_free(b);
    }
    printf("replies: %llu, not taken: %llu, said to be wrong: %llu, records: %llu, mixed: %llu, "
           "only looking: %llu\n",
           (unsigned long long)seen.replies, (unsigned long long)seen.refused,
           (unsigned long long)seen.wrong, (unsigned long long)seen.records,
           (unsigned long long)seen.mixed, (unsigned long long)seen.looks);
    assert_true(seen.wrong > 0 && seen.records > 0 && seen.mixed > 0 && seen.looks > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(nothing_stops_a_talk)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
