/* Words of ours: what each does. */
#include <assert.h>
#include <string.h>

#include "talk/talk_replies.h"

/* Kept, so that whoever takes the case up goes on in it. */
void speak_language(tt_talk *t, const char *tag)
{
    assert(tag != NULL && *tag != 0);
    t->language = str_copy(t->keep, str_of(tag)).p;
    t->tongue = tongue_of(t->language);
    const char *last = talk_last_language(t);
    value_builder b = value_map(t->keep);
    value_put_text(&b, "language", t->language);
    if (last == NULL || strcmp(last, t->language) != 0)
        keep_record(t, "language", &b);
    else
        replay_all(t); /* its texts are worked out in the language of the case */
    talk_news(t, TT_PART_NOTE, "", OURS(t, TEXT_NOW_SPOKEN));
}

static void read_page(tt_talk *t, tt_turn_kind page, uint32_t question)
{
    t->before_reading = t->doing.kind == ASIDE_READ ? t->before_reading : t->doing;
    t->doing = (aside){.kind = ASIDE_READ, .page = page, .question = question};
}

static void ask_why(tt_talk *t)
{
    const bool again = t->doing.kind == ASIDE_READ && t->doing.page == TT_TURN_WHY;
    const uint32_t about = again ? t->doing.question : talk_asked(t);
    read_page(t, TT_TURN_WHY, about);
    t->doing.more = again;
}

/* The trouble is gone, the case is closed, and only what it was is still asked. */
static bool asks_cause(const tt_talk *t)
{
    return t->doing.kind == ASIDE_CAUSE || t->doing.kind == ASIDE_CAUSE_WHICH ||
           t->doing.kind == ASIDE_CAUSE_ALL;
}

/* What danger was told over is no step that is seen, so none is taken back behind its page. */
static void go_back(tt_talk *t)
{
    if (t->turn.kind == TT_TURN_STOP) {
        talk_wrong(t, "nothing-back", OURS(t, TEXT_NOTHING_BACK));
        return;
    }
    if (asks_cause(t) && talk_meaning(t)->end == END_CALLED) {
        t->doing = (aside){.kind = ASIDE_CLOSED};
        return;
    }
    if (asks_cause(t))
        t->doing = (aside){.kind = ASIDE_NONE}; /* what is taken back is that the trouble is gone */
    leave_queue(t);
    if (t->doing.kind != ASIDE_NONE) { /* a menu is left without a change */
        t->doing = t->doing.kind == ASIDE_READ ? t->before_reading : (aside){.kind = ASIDE_NONE};
        return;
    }
    if (talk_walks(t)) {
        if (t->fix.done > 0)
            keep_thing(t, t->fix.fix, t->fix.done - 1, "back");
        else
            keep_thing(t, t->fix.fix, 0, "not-begun");
        return;
    }
    if (keep_back(t))
        talk_news(t, TT_PART_NOTE, "", OURS(t, TEXT_ONE_BACK));
    else
        talk_wrong(t, "nothing-back", OURS(t, TEXT_NOTHING_BACK));
}

static void leave(tt_talk *t, const char *how)
{
    assert(*how != 0);
    t->left = true;
    t->how = how;
}

static bool can_be_left(tt_talk *t)
{
    if (!t->options.kept) talk_wrong(t, "not-kept", OURS(t, TEXT_NOBODY_GOES_ON));
    return t->options.kept;
}

/* Danger at a touch: the page comes at once, and asks afterwards. */
static void say_danger(tt_talk *t)
{
    keep_danger(t, "danger", (danger_names){0}, "");
}

void leave_walk(tt_talk *t, const char *id)
{
    assert(talk_is_walk(t));
    const char *how = t->kind == TT_KIND_RECORD ? "recorded"
                      : walk_is_off(t)          ? "drifted"
                                                : "in-order";
    keep_close(t, how);
    t->left = true;
    t->how = strcmp(id, "fault") == 0 ? "fault" : how;
}

static const char *how_it_ended(tt_talk *t)
{
    const case_end end = talk_meaning(t)->end;
    if (end == END_DONE) return entry_text(talk_meaning(t), talk_meaning(t)->ended, "how");
    return end == END_CALLED      ? "call"
           : end == END_STOPPED   ? "stop"
           : end == END_MADE_SAFE ? "made-safe"
           : end == END_ELSEWHERE ? "elsewhere"
                                  : "gone";
}

/* What opened it since, a danger or what two said differently, is over: it is closed once more. */
void leave_closed(tt_talk *t)
{
    t->left = true;
    t->how = how_it_ended(t);
    if (talk_meaning(t)->end == END_NONE) keep_close(t, t->how);
}

void do_word(tt_talk *t, talk_word word)
{
    assert(word < WORD_NONE);
    switch (word) {
    case WORD_DANGER:
        say_danger(t);
        return;
    case WORD_WHY:
        ask_why(t);
        return;
    case WORD_KNOWN:
        read_page(t, TT_TURN_KNOWN, TT_NONE);
        return;
    case WORD_CAUTIONS:
        read_page(t, TT_TURN_CAUTIONS, TT_NONE);
        return;
    case WORD_HELP:
        read_page(t, TT_TURN_WORDS, TT_NONE);
        return;
    case WORD_CHANGE:
        t->doing = (aside){.kind = ASIDE_CHANGE};
        return;
    case WORD_BACK:
        go_back(t);
        return;
    case WORD_STOP:
        if (asks_cause(t) && talk_look(t)->gate.state != TT_GATE_SHUT) {
            t->doing = (aside){.kind = ASIDE_NONE};
            leave_closed(t);
            return;
        }
        if (t->opening > 0) { /* nothing was said: nothing is kept */
            leave(t, "left");
            return;
        }
        if (walk_is_over(t)) { /* all was seen, and is in order: nothing is left to be said */
            leave_walk(t, "close");
            return;
        }
        if (!t->options.look_only) keep_leaving(t, "stop", NULL, NULL);
        leave(t, "stopped");
        return;
    case WORD_HOLD:
        if (can_be_left(t)) t->doing = (aside){.kind = ASIDE_NOTE};
        return;
    case WORD_HAND:
        if (can_be_left(t)) t->doing = (aside){.kind = ASIDE_TO, .hands_over = true};
        return;
    case WORD_UNSURE:
    case WORD_CANNOT:
        if (t->doing.kind == ASIDE_ASK_BACK) { /* which was meant: none that is kept */
            t->doing = (aside){.kind = ASIDE_NONE};
            return;
        }
        talk_wrong(t, "no-answer-here", OURS(t, TEXT_NO_ANSWER_HERE));
        return;
    case WORD_NONE:
        return;
    }
}
