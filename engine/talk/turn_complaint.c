/* What is wrong: the list, whether words meant this one, at which pieces of equipment, and words
 * that could mean two things. */
#include <assert.h>

#include "talk/talk_turns.h"

void make_complaint(tt_talk *t)
{
    turn_afresh(t, TT_TURN_COMPLAINT);
    turn_cautions(t);
    const bool more = talk_complained(t);
    t->turn.prompt = t->turn.say = OURS(t, more ? TEXT_WHAT_ELSE : TEXT_WHAT_IS_WRONG);
    for (uint32_t i = 0; i < t->complaints.count; i++)
        turn_choice(t, t->complaints.items[i].name, t->complaints.items[i].text);
    turn_choice(t, "none", OURS(t, TEXT_NONE_OF_THESE));
    t->turn.takes.text = true;
    t->turn.picture = talk_picture(t);
    turn_words(t, OFFER_MORE | 1u << WORD_CAUTIONS);
}

/* ---- by places: where words were not understood ---- */

static uint32_t complaints_at(const tt_talk *t, uint32_t place)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < t->complaints.count; i++)
        count += t->complaints.items[i].place == place;
    return count;
}

bool talk_has_places(tt_talk *t)
{
    uint32_t places = complaints_at(t, TT_NONE) > 0;
    for (uint32_t i = 0; i < tt_spot_count(t->book); i++) places += complaints_at(t, i) > 0;
    return places > 1;
}

/* In the author's order. */
static uint32_t place_before(const tt_talk *t, uint32_t before)
{
    uint32_t i = 0;
    while (i < tt_spot_count(t->book) && tt_spot_show(t->book, i, NULL).before != before) i++;
    return i;
}

static void offer_spot(tt_talk *t, uint32_t place)
{
    const tt_spot spot = tt_spot_show(t->book, place, tt_case_language(t->c));
    turn_choice(t, spot.name, spot.text);
}

void make_places(tt_talk *t)
{
    turn_afresh(t, TT_TURN_COMPLAINT);
    t->turn.prompt = t->turn.say = OURS(t, TEXT_WHERE_IS_IT);
    for (uint32_t k = 0; k < tt_spot_count(t->book); k++) {
        const uint32_t i = place_before(t, k);
        assert(i < tt_spot_count(t->book));
        if (complaints_at(t, i) > 0) offer_spot(t, i);
    }
    if (complaints_at(t, TT_NONE) > 0) turn_choice(t, "elsewhere", OURS(t, TEXT_ELSEWHERE));
    turn_choice(t, "all", OURS(t, TEXT_WHOLE_LIST));
    t->turn.takes.text = true;
    turn_words(t, OFFER_MORE);
}

void make_at_place(tt_talk *t)
{
    assert(t->doing.kind == ASIDE_AT_PLACE);
    turn_afresh(t, TT_TURN_COMPLAINT);
    t->turn.prompt = t->turn.say = OURS(t, TEXT_WHAT_IS_WRONG);
    for (uint32_t i = 0; i < t->complaints.count; i++)
        if (t->complaints.items[i].place == t->doing.question)
            turn_choice(t, t->complaints.items[i].name, t->complaints.items[i].text);
    turn_choice(t, "another-place", OURS(t, TEXT_ANOTHER_PLACE));
    turn_choice(t, "none", OURS(t, TEXT_NONE_OF_THESE));
    t->turn.takes.text = true;
    turn_words(t, OFFER_MORE);
}

void make_confirm(tt_talk *t)
{
    const aside *a = &t->doing;
    assert(a->heard_count > 0);
    turn_afresh(t, TT_TURN_CONFIRM);
    const tt_complaint *first = &t->complaints.items[a->heard[0]];
    t->turn.subject = first->name;
    t->turn.prompt = t->turn.say = SAY(t, TEXT_IS_IT_THIS, first->text);
    turn_choice(t, first->name, OURS(t, TEXT_YES));
    for (uint32_t i = 1; i < a->heard_count; i++) {
        const tt_complaint *other = &t->complaints.items[a->heard[i]];
        turn_choice(t, other->name, SAY(t, TEXT_NO_BUT, other->text));
    }
    turn_choice(t, "none", OURS(t, a->heard_count == 1 ? TEXT_NO : TEXT_NONE_OF_THESE));
    t->turn.takes.text = true;
    turn_words(t, OFFER_MORE);
}

void make_which(tt_talk *t)
{
    assert(t->doing.kind == ASIDE_WHICH && t->doing.heard_count > 0);
    const tt_complaint *complaint = &t->complaints.items[t->doing.heard[0]];
    const tt_kind kind = tt_kind_show(t->book, complaint->kind, tt_case_language(t->c));
    turn_afresh(t, TT_TURN_WHICH);
    t->turn.subject = complaint->name;
    t->turn.prompt = t->turn.say = SAY(t, TEXT_WHICH_ONE, kind.one);
    const uint32_t *order = talk_piece_order(t);
    for (uint32_t i = 0; i < tt_piece_count(t->book); i++) {
        const tt_piece piece = tt_piece_show(t->book, order[i], tt_case_language(t->c));
        if (piece.kind == complaint->kind) turn_choice(t, piece.name, piece.text);
    }
    turn_choice(t, "all", OURS(t, TEXT_ALL_OF_THEM));
    turn_choice(t, "unsure", OURS(t, TEXT_NOT_SURE_WHICH));
    t->turn.takes.several = true;
    turn_words(t, OFFER_ALWAYS);
}

/* A number without a name, or one whose name fits two gauges. */
void make_ask_back(tt_talk *t)
{
    assert(t->doing.kind == ASIDE_ASK_BACK && t->doing.heard_count > 0);
    const aside *a = &t->doing;
    turn_afresh(t, TT_TURN_ASK_BACK);
    t->turn.prompt = t->turn.say = SAY(t, TEXT_WHICH_IS_MEANT, a->said);
    for (uint32_t i = 0; i < a->heard_count; i++) {
        const tt_question q = talk_question(t, a->heard[i]);
        turn_choice(t, q.name, q.ask);
    }
    turn_choice(t, "none", OURS(t, TEXT_NONE_OF_THESE));
    turn_words(t, OFFER_ALWAYS);
}
