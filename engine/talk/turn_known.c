/* Where a case stands, as parts of a turn: what is known, what follows, what was tried and how it
 * was left. */
#include <assert.h>

#include "show/standing_text.h"
#include "talk/talk_turns.h"

void turn_facts(tt_talk *t)
{
    enum { FEW_OF_SITE = 6 }; /* `change` lists them all */
    const standing_about about = {t->book, t->c, talk_look(t), t->options.practice, FEW_OF_SITE};
    part_list parts = {.keep = t->shown, .in = t->tongue};
    tell_facts(&parts, &about);
    turn_take(t, &parts);
}

/* ---- what was tried ---- */

static const char *tried_words(tt_talk *t, const tt_tried *tried)
{
    assert(tried->text != NULL);
    const char *words =
        SAY(t, TEXT_NAMED, tried->text, tried_outcome(t->shown, t->tongue, t->c, tried));
    if (tried->was_put_back) return SAY(t, TEXT_TRIED_PUT_BACK, words);
    return tried->under_way ? SAY(t, TEXT_TRIED_UNDER_WAY, words) : words;
}

static void add_different(tt_talk *t, const tt_tried *tried, uint32_t count)
{
    tt_turn_part *part = NULL;
    for (uint32_t i = 0; i < count; i++) {
        const char *words =
            different_words(t->shown, t->tongue, t->c, &tried[i], &t->turn.measured[i]);
        if (words == NULL) continue;
        if (part == NULL) part = turn_part(t, TT_PART_DIFFERENT, OURS(t, TEXT_DIFFERENT));
        part_item(t, part, words);
    }
}

/* What only others may put back is told to them. */
static void add_to_put_back(tt_talk *t, const tt_tried *tried, uint32_t count, bool own)
{
    tt_turn_part *part = NULL;
    for (uint32_t i = 0; i < count; i++) {
        if (*tried[i].put_back == 0 || talk_may_do(t, tried[i].fix) != own) continue;
        if (part == NULL && own) part = turn_part(t, TT_PART_PUT_BACK, OURS(t, TEXT_SEE_PUT_BACK));
        if (part == NULL) part = turn_part(t, TT_PART_TELL, OURS(t, TEXT_THEY_PUT_BACK));
        part_item(t, part, SAY(t, TEXT_PUT_BACK_AFTER, tried[i].put_back, tried[i].text));
    }
}

/* Both readings stand in records, so that they are shown whatever the case made of them later. */
static void add_before_after(tt_talk *t)
{
    tt_turn_part *part = NULL;
    for (uint32_t i = 0; i < t->measure_count; i++) {
        const measure *m = &t->measures[i];
        if (m->before == NULL || m->after == NULL) continue;
        if (part == NULL) part = turn_part(t, TT_PART_BEFORE_AFTER, OURS(t, TEXT_BEFORE_AFTER));
        part_item(t, part,
                  SAY(t, TEXT_FROM_TO, talk_question(t, m->question).ask, m->before, m->after));
    }
}

void turn_tried(tt_talk *t)
{
    const tt_tried *tried;
    uint32_t count;
    if (!talk_is_ok(t, tt_tried_fixes(t->c, &tried, &count))) return;
    t->turn.measured = talk_measured(t, tried, count);
    t->turn.measured_count = count;
    if (count > 0) {
        tt_turn_part *part = turn_part(t, TT_PART_TRIED, OURS(t, TEXT_WAS_TRIED));
        for (uint32_t i = 0; i < count; i++) part_item(t, part, tried_words(t, &tried[i]));
    }
    add_before_after(t);
    add_different(t, tried, count);
    add_to_put_back(t, tried, count, true);
    add_to_put_back(t, tried, count, false);
}
