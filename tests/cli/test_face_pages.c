/* Turns on pages: no page is over the screen, nothing is lost and nothing is told twice, whatever
 * the turn and the screen. */
#include "testing.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/unicode.h"
#include "face/page_layout.h"
#include "odd_turns.h"
#include "test_sources.h"

static uint32_t cells(const row *r)
{
    return (uint32_t)(unicode_width(r->lead, 0) + unicode_width(r->text, 0));
}

static void no_page_is_over_the_screen(const pages *p, uint32_t width, uint32_t height)
{
    for (uint32_t i = 0; i < p->count; i++) {
        assert_true(p->items[i].count + (i + 1 < p->count ? 2 : 1) <= height);
        for (uint32_t k = 0; k < p->items[i].count; k++)
            assert_true(cells(&p->items[i].rows[k]) <= width);
    }
}

/* How often each word of the turn stands in the rows of a place, with the number of the page where
 * it stood first. */
typedef struct tally {
    uint32_t from, count;
    uint32_t *seen, *first_at;
} tally;

static void count_words_in(tally *t, str text, uint32_t at)
{
    for (size_t i = 0; i + 1 < text.n; i++) {
        const bool begins =
            text.p[i] == 'w' && (i == 0 || text.p[i - 1] == ' ' || text.p[i - 1] == ',');
        const unsigned long word = begins ? strtoul(text.p + i + 1, NULL, 10) : 0;
        if (!begins || word < t->from || word >= t->from + t->count) continue;
        if (t->seen[word - t->from]++ == 0) t->first_at[word - t->from] = at;
    }
}

static tally count_all(arena *a, const pages *p, block_place place, uint32_t from, uint32_t to)
{
    tally t = {.from = from, .count = to - from};
    t.seen = ARENA_ARRAY(a, uint32_t, t.count);
    t.first_at = ARENA_ARRAY(a, uint32_t, t.count);
    for (uint32_t i = 0, at = 0; i < p->count; i++)
        for (uint32_t k = 0; k < p->items[i].count; k++, at++) {
            const row *r = &p->items[i].rows[k];
            if (r->block != NULL && r->block->place == place && !r->block->as_it_stands)
                count_words_in(&t, r->text, at);
        }
    return t;
}

static void count_blocks(arena *a, tally *t, const blocks *all, block_place place)
{
    for (uint32_t i = 0; i < all->count; i++) {
        if (all->items[i].place != place || all->items[i].as_it_stands) continue;
        str text = str_copy(a, all->items[i].text);
        for (size_t k = 0; k < text.n; k++)
            if (text.p[k] == '\n') ((char *)(uintptr_t)text.p)[k] = ' ';
        count_words_in(t, text, 0);
    }
}

static void body_and_choices_are_told_once(arena *a, const pages *p, const blocks *all,
                                           block_place place, uint32_t from, uint32_t to)
{
    const tally shown = count_all(a, p, place, from, to);
    tally wanted = {.from = from,
                    .count = to - from,
                    .seen = ARENA_ARRAY(a, uint32_t, to - from),
                    .first_at = ARENA_ARRAY(a, uint32_t, to - from)};
    count_blocks(a, &wanted, all, place);
    for (uint32_t i = 0, last = 0; i < shown.count; i++) {
        assert_int_equal(shown.seen[i], wanted.seen[i]);
        assert_true(wanted.seen[i] <= 1);
        if (shown.seen[i] == 0 || place != IN_CHOICES) continue;
        assert_true(shown.first_at[i] >= last);
        last = shown.first_at[i];
    }
}

static void the_rest_is_told(arena *a, const pages *p, const blocks *all, block_place place,
                             uint32_t from, uint32_t to)
{
    const tally shown = count_all(a, p, place, from, to);
    tally wanted = {.from = from,
                    .count = to - from,
                    .seen = ARENA_ARRAY(a, uint32_t, to - from),
                    .first_at = ARENA_ARRAY(a, uint32_t, to - from)};
    count_blocks(a, &wanted, all, place);
    for (uint32_t i = 0; i < shown.count; i++) assert_true(shown.seen[i] >= wanted.seen[i]);
}

static bool stands_on(const page *p, block_place place)
{
    bool stands = false;
    for (uint32_t i = 0; i < p->count; i++)
        stands = stands || (p->rows[i].block != NULL && p->rows[i].block->place == place);
    return stands;
}

static bool has_block(const blocks *all, block_place place, bool always)
{
    bool has = false;
    for (uint32_t i = 0; i < all->count; i++)
        has = has || (all->items[i].place == place && !(always && all->items[i].told_below));
    return has;
}

static void what_matters_is_where_it_must_be(const pages *p, const blocks *all)
{
    const page *last = &p->items[p->count - 1];
    assert_true(!has_block(all, AT_PROMPT, false) || stands_on(last, AT_PROMPT));
    assert_true(!has_block(all, AT_WORDS, false) || stands_on(last, AT_WORDS));
    assert_true(!has_block(all, IN_CHOICES, false) || stands_on(last, IN_CHOICES));
    for (uint32_t i = 0; i < p->count; i++) {
        assert_true(!has_block(all, AT_HEAD, true) || stands_on(&p->items[i], AT_HEAD));
        assert_true(!stands_on(&p->items[i], IN_CHOICES) || stands_on(&p->items[i], AT_PROMPT));
        assert_true(!stands_on(&p->items[i], BY_PROMPT) || !has_block(all, AT_PROMPT, false) ||
                    stands_on(&p->items[i], AT_PROMPT));
    }
}

/* What is to be copied is broken by the terminal alone: its rows are full, and together they are
 * what it is. */
static void a_command_stays_whole(void **state)
{
    (void)state;
    arena *a = test_arena();
    const char *command =
        "/usr/bin/telltale ask --case 483201K --cases /srv/cases/of/the/north/side";
    const tt_turn_part part = {
        .kind = TT_PART_COMMAND, .title = "To go on:", .items = &command, .item_count = 1};
    odd_turns o = {.keep = a, .state = 1, .word = 1};
    tt_turn turn = *odd_turn(&o);
    turn.parts = &part;
    turn.part_count = 1;
    const blocks all = compose_turn(a, &turn, (compose_wishes){.enter = true});
    const pages p = lay_out(a, &all, 40, 50);
    text_builder shown = {.keep = a};
    for (uint32_t k = 0; k < p.items[0].count; k++) {
        const row *r = &p.items[0].rows[k];
        if (r->block == NULL || !r->block->as_it_stands) continue;
        assert_true(!r->runs_on || cells(r) == 40);
        text_add(&shown, r->text);
    }
    assert_str(text_done(&shown), command);
    arena_free(a);
}

static void any_turn_fits_any_screen(void **state)
{
    static const uint32_t widths[] = {20, 40, 41, 80, 88}, heights[] = {12, 24, 25, 30, 50};
    (void)state;
    arena *a = test_arena();
    odd_turns o = {.keep = a, .state = 9, .word = 1};
    uint32_t most = 0;
    for (unsigned round = 0; round < 4000; round++) {
        const uint32_t from = o.word, width = widths[odd_number(&o, 5)],
                       height = heights[odd_number(&o, 5)];
        const tt_turn *turn = odd_turn(&o);
        const blocks all = compose_turn(
            a, turn, (compose_wishes){.telephone = odd_number(&o, 4) == 0, .enter = true});
        const pages p = lay_out(a, &all, width, height);
        no_page_is_over_the_screen(&p, width, height);
        body_and_choices_are_told_once(a, &p, &all, IN_BODY, from, o.word);
        body_and_choices_are_told_once(a, &p, &all, BY_PROMPT, from, o.word);
        body_and_choices_are_told_once(a, &p, &all, IN_CHOICES, from, o.word);
        the_rest_is_told(a, &p, &all, AT_HEAD, from, o.word);
        the_rest_is_told(a, &p, &all, AT_PROMPT, from, o.word);
        the_rest_is_told(a, &p, &all, AT_WORDS, from, o.word);
        what_matters_is_where_it_must_be(&p, &all);
        most = p.count > most ? p.count : most;
        arena_back_to(a, (arena_mark){NULL, 0});
    }
    assert_true(most > 10); /* small and large ones were met */
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_command_stays_whole),
        cmocka_unit_test(any_turn_fits_any_screen),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
