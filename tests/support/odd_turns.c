#include "odd_turns.h"

#include <math.h>

#include "base/str.h"

uint32_t odd_number(odd_turns *o, uint32_t limit)
{
    o->state = o->state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (uint32_t)(o->state >> 33) % limit;
}

static const char *words(odd_turns *o, uint32_t least, uint32_t most)
{
    text_builder b = {.keep = o->keep};
    const uint32_t count = least + odd_number(o, most - least + 1);
    for (uint32_t i = 0; i < count; i++) {
        const char *between = i == 0                   ? ""
                              : odd_number(o, 12) == 0 ? "\n"
                              : odd_number(o, 9) == 0  ? "  "
                                                       : " ";
        text_addf(&b, "%sw%u", between, o->word++);
        for (uint32_t k = odd_number(o, 9); k > 0; k--)
            text_add(&b, str_of(odd_number(o, 12) == 0 ? "\xe6\xb3\xa1" : "x"));
    }
    return count == 0 ? "" : text_done(&b).p;
}

static const tt_picture *picture(odd_turns *o, uint32_t longest)
{
    tt_picture *p = ARENA_NEW(o->keep, tt_picture);
    *p = (tt_picture){.file = "fan.svg", .text = words(o, 1, longest), .svg = "<svg/>"};
    return p;
}

static const tt_turn_choice *choices(odd_turns *o, uint32_t count, uint32_t longest)
{
    tt_turn_choice *all = ARENA_ARRAY(o->keep, tt_turn_choice, count);
    for (uint32_t i = 0; i < count; i++)
        all[i] = (tt_turn_choice){words(o, 1, 1), words(o, 1, longest),
                                  odd_number(o, 9) == 0 ? picture(o, longest) : NULL, NULL};
    return all;
}

static tt_turn_part part(odd_turns *o, uint32_t longest)
{
    static const char *const signals[] = {"danger", "warning", "caution", "notice"};
    const tt_part_kind kind = (tt_part_kind)odd_number(o, TT_PART_KINDS);
    const uint32_t count = 1 + odd_number(o, 4);
    const char **items = ARENA_ARRAY(o->keep, const char *, count);
    for (uint32_t i = 0; i < count; i++) items[i] = words(o, 1, longest);
    const char *title = kind == TT_PART_CAUTION ? signals[odd_number(o, 4)]
                        : kind == TT_PART_WEAR  ? ""
                                                : words(o, 0, 4);
    return (tt_turn_part){.kind = kind,
                          .title = title,
                          .items = items,
                          .item_count = count,
                          .numbered = odd_number(o, 3) == 0};
}

static const tt_turn_part *parts(odd_turns *o, uint32_t count, uint32_t longest)
{
    tt_turn_part *all = ARENA_ARRAY(o->keep, tt_turn_part, count);
    for (uint32_t i = 0; i < count; i++) all[i] = part(o, longest);
    return all;
}

/* From a line to far more than any screen takes. */
const tt_turn *odd_turn(odd_turns *o)
{
    static const uint32_t sizes[] = {0, 1, 3, 8, 20};
    const uint32_t longest = 2 + odd_number(o, 30);
    tt_turn *t = ARENA_NEW(o->keep, tt_turn);
    *t = (tt_turn){.number = 1 + odd_number(o, 99),
                   .kind = (tt_turn_kind)odd_number(o, TT_TURN_KINDS),
                   .subject = "",
                   .title = "",
                   .say = "",
                   .place = "",
                   .because = "",
                   .wrong = "",
                   .wrong_code = "",
                   .how = "",
                   .takes = {.unit = "", .low = NAN, .high = NAN}};
    if (odd_number(o, 2) == 0) t->title = words(o, 1, longest);
    t->prompt = words(o, 1, longest);
    if (odd_number(o, 2) == 0) t->place = words(o, 1, 5);
    if (odd_number(o, 3) == 0) t->because = words(o, 1, longest);
    if (odd_number(o, 5) == 0) t->picture = picture(o, longest);
    if (odd_number(o, 3) == 0) t->wrong = words(o, 1, longest);
    t->progress.asked = odd_number(o, 3);
    t->progress.minutes_left = odd_number(o, 2) == 0 ? (double)NAN : (double)odd_number(o, 200);
    const bool ends = t->kind == TT_TURN_END;
    t->choice_count = ends ? 0 : sizes[odd_number(o, 5)];
    t->choices = choices(o, t->choice_count, longest);
    t->word_count = ends ? 0 : odd_number(o, 12);
    t->words = choices(o, t->word_count, 1);
    t->part_count = sizes[odd_number(o, 5)];
    t->parts = parts(o, t->part_count, longest);
    t->news_count = sizes[odd_number(o, 3)];
    t->news = parts(o, t->news_count, longest);
    t->kept = odd_number(o, 3) > 0;
    t->practice = odd_number(o, 3) == 0;
    t->dangerous = odd_number(o, 3) == 0;
    return t;
}
