/* Blocks on pages. */
#include "face/page_layout.h"

#include <assert.h>

#include "base/grow.h"
#include "face/row_wrap.h"

/* The rows by where they stand. What flows from page to page is the body, and the choices too if
 * they don't fit beside what is asked. */
typedef struct sheet {
    arena *keep;
    uint32_t width, room; /* rows on a page */
    rows head, flow, prompt, beside, choices, words;
    page *pages;
    uint32_t count, page_room;
} sheet;

/* ---- rows ---- */

static void add_rows(sheet *s, rows *to, const row *more, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        GROW(s->keep, to->items, to->count, to->room);
        to->items[to->count++] = more[i];
    }
}

static void add_all(sheet *s, rows *to, const rows *more)
{
    add_rows(s, to, more->items, more->count);
}

static rows *column_of(sheet *s, block_place place)
{
    switch (place) {
    case AT_HEAD:
        return &s->head;
    case IN_BODY:
        return &s->flow;
    case AT_PROMPT:
        return &s->prompt;
    case BY_PROMPT:
        return &s->beside;
    case IN_CHOICES:
        return &s->choices;
    case AT_WORDS:
        return &s->words;
    }
    assert(false);
    return &s->flow;
}

static bool starts_block(const rows *all, uint32_t at)
{
    return at == 0 || all->items[at].block != all->items[at - 1].block;
}

static bool is_choice(const row *r)
{
    return r->block != NULL && r->block->place == IN_CHOICES;
}

/* What belongs below what is asked: how to look, and the choices. */
static bool is_below_prompt(const row *r)
{
    return is_choice(r) || (r->block != NULL && r->block->place == BY_PROMPT);
}

/* Pages that have the prompt don't say again at their head what it says. */
static void add_head(sheet *s, rows *to, bool with_prompt)
{
    for (uint32_t i = 0; i < s->head.count; i++)
        if (!with_prompt || !s->head.items[i].block->told_below)
            add_rows(s, to, &s->head.items[i], 1);
}

static uint32_t head_height(const sheet *s, bool with_prompt)
{
    uint32_t height = 0;
    for (uint32_t i = 0; i < s->head.count; i++)
        height += !with_prompt || !s->head.items[i].block->told_below;
    return height;
}

static void add_page(sheet *s, const rows *on_it, uint32_t room)
{
    assert(on_it->count <= room);
    rows all = {0};
    const row empty = {.ink = INK_PLAIN};
    if (on_it->count < room) add_rows(s, &all, &empty, 1);
    add_all(s, &all, on_it);
    GROW(s->keep, s->pages, s->count, s->page_room);
    s->pages[s->count++] = (page){all.items, all.count};
}

/* ---- all on one page ---- */

static rows one_after_the_other(sheet *s)
{
    rows all = {0};
    add_head(s, &all, true);
    add_all(s, &all, &s->flow);
    add_all(s, &all, &s->prompt);
    add_all(s, &all, &s->beside);
    add_all(s, &all, &s->choices);
    add_all(s, &all, &s->words);
    return all;
}

static rows with_gaps(sheet *s, const rows *tight)
{
    rows loose = {0};
    const row empty = {.ink = INK_PLAIN};
    for (uint32_t i = 0; i < tight->count; i++) {
        if (i > 0 && starts_block(tight, i) && tight->items[i].block->gap)
            add_rows(s, &loose, &empty, 1);
        add_rows(s, &loose, &tight->items[i], 1);
    }
    return loose;
}

static bool fits_one_page(sheet *s)
{
    const rows tight = one_after_the_other(s), loose = with_gaps(s, &tight);
    if (tight.count > s->room) return false;
    add_page(s, loose.count < s->room ? &loose : &tight, s->room);
    return true;
}

/* ---- on several ---- */

/* What is on several pages must leave room for what comes: a higher one is told in full once, and
 * shortened where it stands. */
static void shorten(sheet *s, rows *column, uint32_t most, bool before)
{
    if (column->count <= most) return;
    rows flow = {0}, cut = {0};
    if (before) add_all(s, &flow, column);
    add_all(s, &flow, &s->flow);
    if (!before) add_all(s, &flow, column);
    add_rows(s, &cut, column->items, most);
    cut.items[most - 1] = cut_row(s->keep, cut.items[most - 1], s->width);
    s->flow = flow;
    *column = cut;
}

static uint32_t at_least(uint32_t number, uint32_t least)
{
    return number > least ? number : least;
}

static uint32_t foot_height(const sheet *s)
{
    return s->prompt.count + s->beside.count + s->choices.count + s->words.count;
}

/* What belongs below the prompt comes last in the flow: a page has some of it if its last row is
 * such, and then it has the prompt too. */
static bool has_prompt(const sheet *s, uint32_t from, uint32_t end)
{
    return end > from && is_below_prompt(&s->flow.items[end - 1]);
}

static bool rest_fits(const sheet *s, uint32_t from)
{
    return head_height(s, true) + s->flow.count - from + foot_height(s) <= s->room;
}

/* The last of the choices stay for the last page, with the prompt. */
static uint32_t end_of_middle(const sheet *s, uint32_t from)
{
    uint32_t end = s->flow.count;
    if (end == from || !is_choice(&s->flow.items[end - 1])) return end;
    do end--;
    while (end > from && !starts_block(&s->flow, end));
    return end > from ? end : at_least(s->flow.count - 1, from + 1);
}

/* Below it stands that there is more. */
static uint32_t middle_room(const sheet *s)
{
    return s->room - 1;
}

static bool fits(const sheet *s, uint32_t from, uint32_t end)
{
    const bool prompt = has_prompt(s, from, end);
    return head_height(s, prompt) + (prompt ? s->prompt.count : 0) + end - from <= middle_room(s);
}

/* A page is best ended between two blocks, and not behind a heading. */
static bool is_good_end(const sheet *s, uint32_t end)
{
    return end == s->flow.count ||
           (starts_block(&s->flow, end) && !s->flow.items[end - 1].block->with_next);
}

static uint32_t page_end(const sheet *s, uint32_t from)
{
    uint32_t end = end_of_middle(s, from);
    while (end > from + 1 && !fits(s, from, end)) end--;
    uint32_t good = end;
    while (good > from && !is_good_end(s, good)) good--;
    return good > from ? good : end;
}

static void add_flow(sheet *s, rows *to, uint32_t from, uint32_t end, bool with_prompt)
{
    uint32_t body = from;
    while (body < end && !is_below_prompt(&s->flow.items[body])) body++;
    add_head(s, to, with_prompt);
    add_rows(s, to, s->flow.items + from, body - from);
    if (with_prompt) add_all(s, to, &s->prompt);
    add_rows(s, to, s->flow.items + body, end - body);
}

static void add_middle_page(sheet *s, uint32_t from, uint32_t end)
{
    rows on_it = {0};
    add_flow(s, &on_it, from, end, has_prompt(s, from, end));
    add_page(s, &on_it, middle_room(s));
}

static void add_last_page(sheet *s, uint32_t from)
{
    rows on_it = {0};
    add_flow(s, &on_it, from, s->flow.count, true);
    add_all(s, &on_it, &s->beside);
    add_all(s, &on_it, &s->choices);
    add_all(s, &on_it, &s->words);
    add_page(s, &on_it, s->room);
}

static bool foot_fits(const sheet *s)
{
    return head_height(s, true) + foot_height(s) <= s->room;
}

static void let_flow(sheet *s, rows *column)
{
    add_all(s, &s->flow, column);
    *column = (rows){0};
}

static void make_room(sheet *s)
{
    shorten(s, &s->head, s->room * 2 / 5, true);
    shorten(s, &s->prompt, at_least(s->room / 3, 2), false);
    shorten(s, &s->words, at_least(s->room / 6, 2), false);
    if (!foot_fits(s)) let_flow(s, &s->beside);
    if (!foot_fits(s)) let_flow(s, &s->choices);
}

static void use_several_pages(sheet *s)
{
    uint32_t from = 0;
    make_room(s);
    while (!rest_fits(s, from)) {
        const uint32_t end = page_end(s, from);
        assert(end > from);
        add_middle_page(s, from, end);
        from = end;
    }
    add_last_page(s, from);
}

pages lay_out(arena *keep, const blocks *all, uint32_t width, uint32_t height)
{
    sheet s = {.keep = keep,
               .width = at_least(width, LEAST_WIDTH),
               .room = at_least(height, LEAST_HEIGHT) - 1};
    for (uint32_t i = 0; i < all->count; i++)
        wrap_block(keep, column_of(&s, all->items[i].place), &all->items[i], s.width);
    if (!fits_one_page(&s)) use_several_pages(&s);
    return (pages){s.pages, s.count};
}
