/* What two people said differently: known to the case, and asked about. */
#include <assert.h>

#include "talk/talk_turns.h"

uint32_t dispute_question(tt_talk *t, const dispute *d)
{
    assert(d->count > 0);
    return tt_question_find(t->book, entry_text(talk_meaning(t), d->items[0], "question"));
}

static uint32_t dispute_fix(tt_talk *t, const dispute *d)
{
    assert(d->count > 0);
    return tt_fix_find(t->book, entry_text(talk_meaning(t), d->items[0], "fix"));
}

/* Whatever is in dispute is settled before the case goes on with it; but not what the rules no
 * longer know. */
void talk_tell_unsettled(tt_talk *t)
{
    const disputes all = journal_disputes(t->scratch, talk_meaning(t));
    for (uint32_t i = 0; i < all.count; i++) {
        const uint32_t question = dispute_question(t, &all.items[i]),
                       fix = dispute_fix(t, &all.items[i]);
        if (question != TT_NONE)
            talk_check(t, tt_unsettled(t->c, question));
        else if (fix != TT_NONE)
            talk_check(t, tt_unsettled_fix(t->c, fix));
    }
}

static bool is_known(tt_talk *t, const dispute *d)
{
    return dispute_question(t, d) != TT_NONE || dispute_fix(t, d) != TT_NONE;
}

dispute dispute_first(tt_talk *t)
{
    const disputes all = journal_disputes(t->shown, talk_meaning(t));
    uint32_t i = 0;
    while (i < all.count && !is_known(t, &all.items[i])) i++;
    assert(i < all.count);
    return all.items[i];
}

/* The first that gave each of the different answers. */
uint32_t dispute_said(const dispute *d, uint32_t answer)
{
    assert(d->count > 0);
    uint32_t i = 0;
    while (d->answer[i] != answer) i++;
    return d->items[i];
}

void make_settle(tt_talk *t)
{
    const journal *j = talk_meaning(t);
    const dispute d = dispute_first(t);
    const bool answers = j->entries[d.items[0]].kind == RECORD_ANSWER;
    assert(d.answers > 1 && d.answers <= d.count);
    turn_afresh(t, TT_TURN_SETTLE);
    t->turn.prompt = t->turn.say =
        OURS(t, answers ? TEXT_ANSWERED_DIFFERENTLY : TEXT_REPORTED_DIFFERENTLY);
    for (uint32_t i = 0; i < d.answers; i++)
        turn_choice(t, str_printf(t->shown, "said-%u", i + 1).p,
                    talk_record_line(t, dispute_said(&d, i)));
    if (answers) turn_choice(t, "ask-again", OURS(t, TEXT_ASK_AGAIN));
    turn_words(t, OFFER_MORE);
}
