/* The history on a sheet from records by hand: what a later answer does to an earlier one, what
 * counts as danger, and what of a fix is half done. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "base/value.h"
#include "host/memory.h"
#include "verb/sheet_case.h"

enum { MOST = 8 };

typedef struct telling_of {
    arena *keep;
    tt_record records[MOST];
    tt_told items[MOST];
    uint32_t count;
} telling_of;

static telling_of begin(void)
{
    return (telling_of){.keep = host_arena()};
}

static void end(telling_of *t)
{
    arena_free(t->keep);
}

static value_builder data_of(telling_of *t)
{
    return value_map(t->keep);
}

static tt_told *add(telling_of *t, const char *kind, const char *writer, value_builder data)
{
    assert_true(t->count < MOST);
    tt_record *r = &t->records[t->count];
    *r = (tt_record){.writer = writer,
                     .number = t->count + 1,
                     .time = "2026-11-29T09:12:00Z",
                     .kind = kind,
                     .data = value_keep(&data)};
    tt_told *told = &t->items[t->count++];
    *told = (tt_told){.record = r,
                      .person = "east",
                      .about = "",
                      .text = "asked",
                      .result = "said",
                      .typed = "",
                      .setting = "",
                      .from = "",
                      .to = ""};
    return told;
}

static shown_sheet sheet_of(const telling_of *t)
{
    shown_sheet sheet = {.version = 0};
    sheet_put_history(t->keep, TO_AUTHORS, &(tt_history){.items = t->items, .count = t->count},
                      &sheet);
    return sheet;
}

static void assert_marks(telling_of *t, const char *first)
{
    const shown_sheet sheet = sheet_of(t);
    assert_int_equal(sheet.steps_count, t->count);
    assert_string_equal(sheet.steps[0].mark, first);
    end(t);
}

/* ---- answers ---- */

static tt_told *answer(telling_of *t, const char *writer, const char *question)
{
    tt_told *told = add(t, "answer", writer, data_of(t));
    told->about = question;
    return told;
}

static void a_later_answer_replaces_an_earlier_one(void **state)
{
    (void)state;
    telling_of t = begin();
    answer(&t, "east", "hums");
    answer(&t, "east", "smells");
    assert_marks(&t, "");
    t = begin();
    answer(&t, "east", "hums");
    answer(&t, "east", "hums");
    assert_marks(&t, "replaced");
    static const char *const changes[] = {"fix-begun", "tried", "put-back"};
    for (size_t i = 0; i < 3; i++) {
        t = begin();
        answer(&t, "east", "hums");
        add(&t, changes[i], "east", data_of(&t));
        answer(&t, "east", "hums");
        assert_marks(&t, "read-again");
    }
}

static void what_does_not_count_replaces_nothing(void **state)
{
    (void)state;
    telling_of t = begin();
    answer(&t, "east", "hums");
    answer(&t, "east", "hums")->skipped = TT_SKIP_TAKEN_BACK;
    assert_marks(&t, "");
    t = begin();
    answer(&t, "east", "hums");
    answer(&t, "east", "hums")->left_out = true;
    assert_marks(&t, "");
    t = begin();
    answer(&t, "east", "hums")->left_out = true;
    assert_marks(&t, "left-out");
    t = begin();
    answer(&t, "east", "hums")->skipped = TT_SKIP_DAMAGED;
    assert_marks(&t, "damaged");
}

/* Two who did not know of each other have not replaced anything. */
static void who_did_not_know_of_it_replaced_nothing(void **state)
{
    (void)state;
    static const struct {
        int seen; /* of the first one's records; below 0: nothing of anybody's */
        const char *mark;
    } rows[] = {{-1, ""}, {0, ""}, {1, "replaced"}, {7, "replaced"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        telling_of t = begin();
        answer(&t, "east", "hums");
        answer(&t, "west", "hums");
        value_builder seen = value_map(t.keep);
        if (rows[i].seen > 0) value_put_number(&seen, "east", rows[i].seen);
        if (rows[i].seen >= 0) t.records[1].seen = value_keep(&seen);
        assert_marks(&t, rows[i].mark);
    }
}

/* ---- danger ---- */

static void danger_is_told_however_it_was_said(void **state)
{
    (void)state;
    telling_of t = begin();
    value_builder grave = data_of(&t), calm = data_of(&t);
    value_put_bool(&grave, "danger", true);
    value_put_bool(&calm, "danger", false);
    add(&t, "danger", "east", data_of(&t))->text = "it smokes";
    add(&t, "recheck", "east", data_of(&t))->text = "it still smokes";
    add(&t, "answer", "east", grave);
    add(&t, "answer", "east", calm);
    add(&t, "danger", "east", data_of(&t))->skipped = TT_SKIP_DAMAGED;
    add(&t, "danger", "east", data_of(&t))->skipped = TT_SKIP_TAKEN_BACK; /* it was told, though */
    const shown_sheet sheet = sheet_of(&t);
    assert_int_equal(sheet.dangers_count, 4);
    assert_string_equal(sheet.dangers[0].text, "it smokes");
    assert_string_equal(sheet.dangers[1].text, "it still smokes");
    assert_string_equal(sheet.dangers[2].text, "asked said");
    end(&t);
}

/* ---- what is half done ---- */

static void of_fix(telling_of *t, const char *kind, const char *fix)
{
    value_builder data = data_of(t);
    value_put_text(&data, "fix", fix);
    add(t, kind, "east", data)->text = fix;
}

static void stepped(telling_of *t, const char *fix, const char *how, int index, const char *text)
{
    value_builder data = data_of(t);
    value_put_text(&data, "fix", fix);
    value_put_text(&data, "how", how);
    value_put_number(&data, "index", index);
    value_put_text(&data, "text", text);
    add(t, "step", "east", data);
}

/* The steps that were done of what is begun; "-": nothing is. */
static void assert_half_done(telling_of *t, const char *done)
{
    const shown_sheet sheet = sheet_of(t);
    char all[256] = "-";
    if (sheet.unfinished != NULL) {
        size_t length = 0;
        *all = 0;
        for (uint32_t i = 0; i < sheet.unfinished->done_count; i++)
            length += (size_t)snprintf(all + length, sizeof all - length, "%s%s", i > 0 ? ", " : "",
                                       sheet.unfinished->done[i]);
    }
    assert_string_equal(all, done);
    end(t);
}

static void what_was_done_of_a_fix(void **state)
{
    (void)state;
    telling_of t = begin();
    of_fix(&t, "fix-begun", "swap");
    assert_half_done(&t, "");
    t = begin();
    of_fix(&t, "fix-begun", "swap");
    stepped(&t, "swap", "done", 0, "lock");
    stepped(&t, "swap", "done", 1, "drain");
    stepped(&t, "swap", "done", 1, "drain it all"); /* twice the same */
    stepped(&t, "wipe", "done", 2, "of another");
    stepped(&t, "swap", "done", 5, "out of its turn");
    assert_half_done(&t, "lock, drain it all");
    t = begin();
    of_fix(&t, "fix-begun", "swap");
    stepped(&t, "swap", "done", 0, "lock");
    stepped(&t, "swap", "done", 1, "drain");
    stepped(&t, "swap", "back", 1, "");
    assert_half_done(&t, "lock");
    t = begin();
    of_fix(&t, "fix-begun", "swap");
    stepped(&t, "swap", "done", 0, "lock");
    stepped(&t, "swap", "back", 3, "");
    assert_half_done(&t, "lock");
}

static void what_ends_a_fix(void **state)
{
    (void)state;
    static const char *const ends[] = {"tried", "put-back", "left"};
    for (size_t i = 0; i < 3; i++) {
        telling_of t = begin();
        of_fix(&t, "fix-begun", "swap");
        of_fix(&t, ends[i], "wipe");
        assert_half_done(&t, "");
        t = begin();
        of_fix(&t, "fix-begun", "swap");
        of_fix(&t, ends[i], "swap");
        assert_half_done(&t, "-");
    }
    telling_of t = begin();
    of_fix(&t, "fix-begun", "swap");
    stepped(&t, "swap", "not-begun", 0, "");
    assert_half_done(&t, "-");
    t = begin();
    of_fix(&t, "fix-begun", "swap");
    t.items[0].skipped = TT_SKIP_TAKEN_BACK;
    assert_half_done(&t, "-");
}

/* What was done before it was begun anew stands as it was left: a lock that is on stays told. */
static void begun_anew_keeps_what_was_done(void **state)
{
    (void)state;
    telling_of t = begin();
    of_fix(&t, "fix-begun", "swap");
    stepped(&t, "swap", "done", 0, "lock");
    of_fix(&t, "fix-begun", "swap");
    assert_half_done(&t, "lock");
    t = begin();
    of_fix(&t, "fix-begun", "swap");
    stepped(&t, "swap", "done", 0, "lock");
    of_fix(&t, "fix-begun", "swap");
    stepped(&t, "swap", "back", 0, "");
    stepped(&t, "swap", "not-begun", 0, "");
    assert_half_done(&t, "lock");
    t = begin();
    of_fix(&t, "fix-begun", "swap");
    stepped(&t, "swap", "done", 0, "lock");
    of_fix(&t, "fix-begun", "wipe");
    assert_half_done(&t, "");
}

/* Of two under one lockout the second is begun with the first. */
static void the_second_of_two_begins_nothing_new(void **state)
{
    (void)state;
    telling_of t = begin();
    of_fix(&t, "fix-begun", "swap");
    stepped(&t, "swap", "done", 0, "lock");
    value_builder data = data_of(&t);
    value_put_text(&data, "fix", "wipe");
    value_put_text(&data, "with", "swap");
    add(&t, "fix-begun", "east", data);
    const shown_sheet sheet = sheet_of(&t);
    assert_non_null(sheet.unfinished);
    assert_string_equal(sheet.unfinished->name, "swap");
    assert_int_equal(sheet.unfinished->done_count, 1);
    end(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_later_answer_replaces_an_earlier_one),
        cmocka_unit_test(what_does_not_count_replaces_nothing),
        cmocka_unit_test(who_did_not_know_of_it_replaced_nothing),
        cmocka_unit_test(danger_is_told_however_it_was_said),
        cmocka_unit_test(what_was_done_of_a_fix),
        cmocka_unit_test(what_ends_a_fix),
        cmocka_unit_test(begun_anew_keeps_what_was_done),
        cmocka_unit_test(the_second_of_two_begins_nothing_new),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
