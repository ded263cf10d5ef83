/* One thing that was said, taken: an answer, a complaint, a note. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "talk/talk_replies.h"

void nothing_such(tt_talk *t)
{
    talk_wrong(t, "no-such-choice", OURS(t, TEXT_NONE_OF_THE_ANSWERS));
}

bool is_offered(const tt_talk *t, const char *id)
{
    for (uint32_t i = 0; i < t->turn.choice_count; i++)
        if (strcmp(t->turn.choices[i].id, id) == 0) return true;
    return false;
}

/* A changed answer is said back with the old one. */
static void say_change(tt_talk *t, uint32_t question, const tt_reply *reply)
{
    const tt_fact *fact = talk_fact(t, question);
    const tt_question q = talk_question(t, question);
    const char *now = reply_words_of(t->shown, t->tongue, &q, reply);
    if (fact != NULL && strcmp(fact->text, now) != 0)
        talk_news(t, TT_PART_NOTE, "", SAY(t, TEXT_WAS_NOW, q.ask, fact->text, now));
}

/* What counts as good from now on is not taken for a slip, nor for the number of another gauge:
 * where it is not usual it is asked for once more. */
bool good_is_asked_again(tt_talk *t, uint32_t question, const tt_reply *reply)
{
    tt_walked w;
    double number;
    if (t->kind != TT_KIND_RECORD || reply->kind != TT_NUMBER ||
        !talk_is_ok(t, tt_reply_fits(t->c, question, reply)))
        return false;
    if (!talk_is_ok(t, tt_good_look(t->c, question, &w)) || isnan(w.usual_low)) return false;
    if (!talk_is_ok(t, tt_reading_number(t->c, question, reply->number, reply->unit, &number)) ||
        (number >= w.usual_low && number <= w.usual_high))
        return false;
    const char *now = str_printf(t->keep, "%s %.10g", w.name, number).p;
    const bool again = strcmp(t->doubted_good, now) == 0;
    const tt_question q = talk_question(t, question);
    const char *words = reply_words_of(t->shown, t->tongue, &q, reply);
    t->doubted_good = again ? "" : now;
    if (!again) talk_wrong(t, "unusual-good", SAY(t, TEXT_UNUSUAL_GOOD, words, w.usual_text));
    return !again;
}

bool take_answer(tt_talk *t, uint32_t question, const tt_reply *reply, const char *typed)
{
    if (good_is_asked_again(t, question, reply)) return false;
    const tt_question q = talk_question(t, question);
    const char *put_back = reply->kind != TT_CANNOT ? str_copy(t->keep, str_of(q.put_back)).p : "";
    say_change(t, question, reply);
    if (!keep_answer(t, question, reply, typed)) {
        talk_wrong(t, "does-not-fit",
                   reply->kind == TT_NUMBER ? talk_why_not(t, question, reply)
                                            : OURS(t, TEXT_DOES_NOT_FIT));
        return false;
    }
    if (*put_back != 0) talk_news(t, TT_PART_PUT_BACK, OURS(t, TEXT_NOW_PUT_BACK), put_back);
    talk_tell_moved(t, question);
    return true;
}

void answer_turn(tt_talk *t, uint32_t question, const tt_reply *reply, const char *typed)
{
    assert(question != TT_NONE);
    if (talk_is_after_fix(t)) {
        if (talk_is_ok(t, tt_reply_fits(t->c, question, reply)))
            keep_measured(t, talk_to_measure(t), question, reply);
        else
            talk_wrong(t, "does-not-fit", talk_why_not(t, question, reply));
        return;
    }
    if (!take_answer(t, question, reply, typed)) return;
    if (t->doing.kind == ASIDE_ANEW) t->doing = (aside){.kind = ASIDE_NONE};
}

void complain_of(tt_talk *t, uint32_t complaint, const char *said)
{
    assert(complaint < t->complaints.count);
    uint32_t *kept = ARENA_NEW(t->keep, uint32_t), pieces;
    const uint32_t meant = piece_complained_of(t, complaint, said, &pieces);
    *kept = complaint;
    if (pieces > 1 && meant == TT_NONE)
        t->doing = (aside){.kind = ASIDE_WHICH, .heard = kept, .heard_count = 1, .said = said};
    else
        keep_complaint(t, complaint, said, &meant, pieces > 1 ? 1 : pieces);
}

void take_pieces(tt_talk *t, const uint32_t *pieces, uint32_t count)
{
    const aside about = t->doing;
    t->doing = (aside){.kind = ASIDE_NONE};
    if (!keep_complaint(t, about.heard[0], about.said, pieces, count))
        talk_wrong(t, "not-of-these", OURS(t, TEXT_NOT_OF_THESE));
}

void take_several(tt_talk *t, const char *const *ids, uint32_t id_count)
{
    assert(id_count > 0);
    uint32_t *pieces = ARENA_ARRAY(t->keep, uint32_t, id_count), count = 0;
    if (t->turn.kind != TT_TURN_WHICH) {
        nothing_such(t);
        return;
    }
    for (uint32_t i = 0; i < id_count; i++) {
        const uint32_t piece = piece_named(t, ids[i]);
        if (piece == TT_NONE || !is_offered(t, ids[i])) {
            nothing_such(t);
            return;
        }
        bool said = false;
        for (uint32_t k = 0; k < count; k++) said = said || pieces[k] == piece;
        if (!said) pieces[count++] = piece;
    }
    take_pieces(t, pieces, count);
}

void take_note(tt_talk *t, const char *words)
{
    const aside about = t->doing;
    if (about.kind == ASIDE_TO) {
        t->doing = (aside){
            .kind = ASIDE_NOTE, .hands_over = true, .to = str_copy(t->keep, str_of(words)).p};
        return;
    }
    keep_leaving(t, about.hands_over ? "hand-over" : "hold", about.hands_over ? about.to : NULL,
                 words);
    t->doing = (aside){.kind = ASIDE_NONE};
    t->left = true;
    t->how = "stopped";
}
