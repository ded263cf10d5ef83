/* Where a case stands, as parts of a turn: what is known, what follows, what was tried and how it was left. */
#include <assert.h>
#include <string.h>

#include "talk/talk.h"

/* ---- what is known ---- */

static bool is_answer(const tt_fact *fact)
{
    return fact->question != TT_NONE;
}

static bool is_of_site(const tt_fact *fact)
{
    return is_answer(fact) && strcmp(fact->from, "site") == 0;
}

/* A quantity that was reckoned; one that somebody gave is an answer. */
static bool follows(const tt_fact *fact)
{
    return strcmp(fact->from, "quantity") == 0;
}

/* The difference that a comparison with a set point has made: both its sides are shown already. */
static bool is_difference(const tt_fact *fact)
{
    return strstr(fact->name, " - ") != NULL;
}

static bool tells_nothing(const tt_fact *fact)
{
    return strcmp(fact->value, "unsure") == 0 || strcmp(fact->value, "cannot") == 0;
}

/* A symptom that says no more than an answer did is not said again. */
static bool is_repeated(const tt_view *v, const tt_fact *fact)
{
    for (uint32_t i = 0; i < v->fact_count; i++)
        if (is_answer(&v->facts[i]) && strcmp(v->facts[i].text, fact->text) == 0) return true;
    return false;
}

const char *talk_fact_words(tt_talk *t, const tt_fact *fact)
{
    const char *asked = is_answer(fact) ? talk_question(t, fact->question).ask : fact->name;
    const char *source = fact->source != NULL ? fact->source : "";
    const char *words = SAY(t, TEXT_ASKED_ANSWERED, asked, fact->text);
    if (fact->stale) words = SAY(t, TEXT_FACT_STALE, words);
    else if (strcmp(fact->from, "fix") == 0) words = SAY(t, TEXT_FACT_OF_FIX, words);
    return *source != 0 ? SAY(t, TEXT_FACT_SOURCE, words, source) : words;
}

static void add_answers(tt_talk *t, const tt_view *v)
{
    tt_turn_part *part = turn_part(t, TT_PART_FACTS, OURS(TEXT_KNOWN_SO_FAR));
    uint32_t untold = 0;
    for (uint32_t i = 0; i < v->fact_count; i++) {
        const tt_fact *fact = &v->facts[i];
        if (!is_answer(fact) || is_of_site(fact) || follows(fact)) continue;
        if (tells_nothing(fact)) untold++;
        else part_item(t, part, talk_fact_words(t, fact));
    }
    if (untold > 0) part_item(t, part, SAY(t, untold == 1 ? TEXT_ONE_UNTOLD : TEXT_SOME_UNTOLD, talk_number(t, untold)));
    if (part->item_count == 0) part->title = OURS(TEXT_NOTHING_KNOWN);
}

static void add_what_follows(tt_talk *t, const tt_view *v)
{
    tt_turn_part *part = NULL;
    for (uint32_t i = 0; i < v->fact_count; i++) {
        const tt_fact *fact = &v->facts[i];
        if (follows(fact) ? is_difference(fact) : is_answer(fact) || is_repeated(v, fact)) continue;
        if (part == NULL) part = turn_part(t, TT_PART_FACTS, OURS(TEXT_FOLLOWS));
        bool plain = strcmp(fact->value, "shown") == 0 || strcmp(fact->value, "yes") == 0;
        const char *words = follows(fact) ? SAY(t, TEXT_ASKED_ANSWERED, talk_question(t, fact->question).ask, fact->text)
                            : plain       ? fact->text
                                          : SAY(t, TEXT_NAMED, fact->text, fact->value);
        part_item(t, part, words);
    }
}

/* Within a case a long list would hide what matters; `change` lists them. */
static void add_site(tt_talk *t, const tt_view *v)
{
    enum { FEW = 6 };
    uint32_t count = 0;
    for (uint32_t i = 0; i < v->fact_count; i++)
        count += is_of_site(&v->facts[i]) && !tells_nothing(&v->facts[i]) && talk_question(t, v->facts[i].question).kind != TT_QUANTITY;
    if (count == 0) return;
    tt_turn_part *part = turn_part(t, TT_PART_FACTS, OURS(t->options.practice ? TEXT_KNOWN_OF_EXAMPLE : TEXT_KNOWN_OF_SITE));
    if (count > FEW) part_item(t, part, SAY(t, TEXT_FACTS_COUNTED, talk_number(t, count)));
    for (uint32_t i = 0; i < v->fact_count && count <= FEW; i++)
        if (is_of_site(&v->facts[i]) && !tells_nothing(&v->facts[i]) && talk_question(t, v->facts[i].question).kind != TT_QUANTITY)
            part_item(t, part, talk_fact_words(t, &v->facts[i]));
}

static bool is_in_focus(const tt_view *v, uint32_t piece)
{
    for (uint32_t i = 0; i < v->focus_count; i++)
        if (v->focus[i] == piece) return true;
    return false;
}

static void add_focus(tt_talk *t, const tt_view *v)
{
    if (v->focus_count == 0) return;
    tt_turn_part *part = turn_part(t, TT_PART_FACTS, OURS(TEXT_IT_IS_ABOUT));
    const uint32_t *order = talk_piece_order(t);
    for (uint32_t i = 0; i < tt_piece_count(t->book); i++)
        if (is_in_focus(v, order[i])) part_item(t, part, tt_piece_show(t->book, order[i]).text);
}

void turn_facts(tt_talk *t)
{
    const tt_view *v = talk_look(t);
    add_focus(t, v);
    add_answers(t, v);
    add_what_follows(t, v);
    add_site(t, v);
}

/* ---- what was tried ---- */

static const char *tried_words(tt_talk *t, const tt_tried *tried)
{
    const char *words = talk_outcome(tried->outcome);
    tt_fix_plan plan = talk_plan(t, tried->fix);
    bool adjusts = plan.adjust.reading != TT_NONE;
    if (tried->was_put_back && tried->outcome == TT_NO_CHANGE && adjusts) words = OURS(TEXT_NOT_GONE); /* some steps may have made it better */
    words = SAY(t, TEXT_NAMED, tried->text, words);
    if (tried->was_put_back) return SAY(t, TEXT_TRIED_PUT_BACK, words);
    return tried->under_way ? SAY(t, TEXT_TRIED_UNDER_WAY, words) : words;
}

/* What a fix that stays has changed: it helped, or can't be undone. Null: nothing that could be put back. */
static const char *change_words(tt_talk *t, const tt_tried *tried)
{
    if (*tried->setting != 0) return tried->setting;
    tt_fix_plan plan = talk_plan(t, tried->fix);
    if (plan.adjust.reading != TT_NONE) return NULL;
    bool helped = tried->outcome == TT_GONE || tried->outcome == TT_BETTER;
    bool stays = plan.cannot_put_back ? tried->outcome != TT_COULD_NOT : helped && *plan.put_back != 0;
    if (!stays) return NULL;
    return SAY(t, plan.cannot_put_back ? TEXT_DONE_FOR_GOOD : TEXT_DONE, plan.text);
}

static void add_different(tt_talk *t, const tt_tried *tried, uint32_t count)
{
    tt_turn_part *part = NULL;
    for (uint32_t i = 0; i < count; i++) {
        const char *words = change_words(t, &tried[i]);
        if (words == NULL) continue;
        if (part == NULL) part = turn_part(t, TT_PART_DIFFERENT, OURS(TEXT_DIFFERENT));
        part_item(t, part, words);
    }
}

static void add_to_put_back(tt_talk *t, const tt_tried *tried, uint32_t count)
{
    tt_turn_part *part = NULL;
    for (uint32_t i = 0; i < count; i++) {
        if (*tried[i].put_back == 0) continue;
        if (part == NULL) part = turn_part(t, TT_PART_PUT_BACK, OURS(TEXT_SEE_PUT_BACK));
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
        if (part == NULL) part = turn_part(t, TT_PART_BEFORE_AFTER, OURS(TEXT_BEFORE_AFTER));
        part_item(t, part, SAY(t, TEXT_FROM_TO, talk_question(t, m->question).ask, m->before, m->after));
    }
}

void turn_tried(tt_talk *t)
{
    const tt_tried *tried;
    uint32_t count;
    if (tt_tried_fixes(t->c, &tried, &count) != TT_OK) return;
    if (count > 0) {
        tt_turn_part *part = turn_part(t, TT_PART_TRIED, OURS(TEXT_WAS_TRIED));
        for (uint32_t i = 0; i < count; i++) part_item(t, part, tried_words(t, &tried[i]));
    }
    add_before_after(t);
    add_different(t, tried, count);
    add_to_put_back(t, tried, count);
}
