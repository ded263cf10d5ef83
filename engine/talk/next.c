/* The next turn: read from the top, the first that holds makes it. What the case would do next is
 * the engine's to say (decide/policies.h); before it stand leaving, a page that is being read,
 * danger, and what the person is in the middle of. */
#include <assert.h>

#include "talk/talk_replies.h"

static bool has_left(tt_talk *t)
{
    return t->left;
}

/* A danger that stands comes before a page that says "closed", unless somebody who was called has
 * made it safe. */
static bool is_shown_closed(tt_talk *t)
{
    return talk_look(t)->gate.state != TT_GATE_SHUT || talk_meaning(t)->end == END_MADE_SAFE;
}

/* Reading and leaving are always possible; a closed case is only looked at. */
static bool is_reading(tt_talk *t)
{
    const aside_kind kind = t->doing.kind;
    return kind == ASIDE_READ || kind == ASIDE_NOTE || kind == ASIDE_TO ||
           (kind == ASIDE_CLOSED && is_shown_closed(t));
}

static bool is_about_cause(const tt_talk *t)
{
    const aside_kind kind = t->doing.kind;
    return kind == ASIDE_CAUSE || kind == ASIDE_CAUSE_WHICH || kind == ASIDE_CAUSE_ALL;
}

/* Somebody was called and the case closed; now it is told what they found. */
static bool is_told_afterwards(tt_talk *t)
{
    return is_about_cause(t) && talk_meaning(t)->end == END_CALLED;
}

/* Once the trouble is gone nothing more is to be done at the equipment: then nobody need be asked,
 * unless they said what may be danger; and what is known as danger stays so. */
static bool gate_is_in_the_way(tt_talk *t)
{
    const tt_view *v = talk_look(t);
    const bool over = v->step == TT_CLOSED || is_told_afterwards(t);
    return v->gate.state == TT_GATE_SHUT ||
           (v->gate.state == TT_GATE_ASK && (!over || *t->rechecked != 0));
}

/* Others, or a step taken back, may have overtaken what the person is in the middle of. */
static bool is_overtaken(tt_talk *t)
{
    return is_about_cause(t) && !is_told_afterwards(t) &&
           (talk_look(t)->step != TT_CLOSED ||
            (t->doing.kind == ASIDE_CAUSE && *talk_cured(t) == 0));
}

static bool is_in_the_middle(tt_talk *t)
{
    if (is_overtaken(t)) t->doing = (aside){.kind = ASIDE_NONE};
    return t->doing.kind != ASIDE_NONE || next_in_queue(t);
}

static bool always(tt_talk *t)
{
    (void)t;
    return true;
}

static void make_gate(tt_talk *t)
{
    const tt_gate gate = talk_look(t)->gate;
    const bool asks = gate.state == TT_GATE_ASK || (t->asks_again && gate.question != TT_NONE);
    if (asks)
        make_danger(t);
    else
        make_stop(t);
}

static tt_turn_kind question_kind(const tt_view *v)
{
    if (v->policy == TT_BY_EARLY) return TT_TURN_EARLY;
    const bool again = v->policy == TT_BY_LOOK_AGAIN || v->policy == TT_BY_ADJUSTING;
    return again || v->next.again != TT_FIRST_LOOK ? TT_TURN_LOOK_AGAIN : TT_TURN_QUESTION;
}

/* A complaint that was told before anybody said at which piece. */
static void ask_piece(tt_talk *t, const tt_view *v)
{
    uint32_t *complaint = ARENA_NEW(t->keep, uint32_t);
    while (*complaint + 1 < t->complaints.count &&
           t->complaints.items[*complaint].symptom != v->symptom)
        ++*complaint;
    t->doing = (aside){.kind = ASIDE_WHICH, .heard = complaint, .heard_count = 1, .said = ""};
    make_aside(t);
}

static void make_step(tt_talk *t)
{
    const tt_view *v = talk_look(t);
    switch (v->step) {
    case TT_ASK:
        make_question(t, question_kind(v), v->next.question);
        return;
    case TT_FIX:
        make_fix(t);
        return;
    case TT_PUT_BACK:
        make_put_back(t);
        return;
    case TT_CALL:
        make_call(t);
        return;
    case TT_STOP:
        make_stop(t);
        return;
    case TT_PIECE:
        ask_piece(t, v);
        return;
    case TT_COMPLAINT:
        make_complaint(t);
        return;
    case TT_SETTLE:
        make_settle(t);
        return;
    case TT_WALKED:
        make_walked(t);
        return;
    case TT_CLOSED: /* by somebody else, or after a danger */
        t->doing = (aside){.kind = ASIDE_CLOSED};
        make_closed(t);
        return;
    }
    assert(false);
}

static const struct {
    bool (*holds)(tt_talk *t);
    void (*make)(tt_talk *t);
} turns[] = {
    {has_left, make_end},
    {is_reading, make_aside},
    {gate_is_in_the_way, make_gate},
    {is_in_the_middle, make_aside},
    {earlier_is_offered, make_earlier},
    {always, make_step},
};

static void add_news(tt_talk *t)
{
    t->turn.news = t->news;
    t->turn.news_count = t->news_count;
    t->turn.wrong_code = t->wrong_code;
    t->turn.wrong = t->wrong;
    t->turn.gate_open = talk_look(t)->gate.state == TT_GATE_OPEN;
}

static void add_leading(tt_talk *t)
{
    enum { LEADING = 3 };
    const tt_view *v = talk_look(t);
    tt_turn_choice *leading = ARENA_ARRAY(t->shown, tt_turn_choice, LEADING);
    for (uint32_t i = 0; i < v->cause_count && t->turn.leading_count < LEADING; i++) {
        const tt_cause *cause = &v->causes[i];
        const char *text = cause_words(t->tongue, cause);
        leading[t->turn.leading_count++] = (tt_turn_choice){
            cause->name != NULL ? cause->name : "",
            SAY(t, TEXT_CAUSE_CHANCE, text, talk_percent(t, cause->chance)), NULL, NULL};
    }
    t->turn.leading = leading;
}

/* A danger that was told since the last turn is shown at once, whoever told it and whatever page is
 * open. */
static void heed_danger(tt_talk *t)
{
    const uint32_t told = tt_dangers(t->c);
    if (told > t->dangers_heeded) stop_reading(t);
    if (told > t->dangers_heeded || talk_look(t)->gate.state == TT_GATE_OPEN) t->asks_again = false;
    t->dangers_heeded = told;
}

/* The page that says "closed" holds no longer than that, whoever opened the case. */
static void heed_opening(tt_talk *t)
{
    if (t->doing.kind == ASIDE_CLOSED && talk_meaning(t)->end == END_NONE &&
        talk_look(t)->step != TT_CLOSED)
        t->doing = (aside){.kind = ASIDE_NONE};
}

/* What whoever sits there reads or decides for themselves; a caller has no part in it. */
static bool is_for_the_desk(tt_turn_kind kind)
{
    static const tt_turn_kind all[] = {
        TT_TURN_EARLIER, TT_TURN_SETTLE,     TT_TURN_CHANGE, TT_TURN_CLOSED, TT_TURN_CHANGED,
        TT_TURN_KNOWN,   TT_TURN_TAKEN_OVER, TT_TURN_WHY,    TT_TURN_WORDS,  TT_TURN_CAUTIONS,
        TT_TURN_NOTE,    TT_TURN_TO,         TT_TURN_END};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        if (all[i] == kind) return true;
    return false;
}

void make_turn(tt_talk *t)
{
    size_t i = 0;
    arena_back_to(t->shown, (arena_mark){NULL, 0});
    if (t->works_anew) replay_all(t);
    heed_danger(t);
    heed_opening(t);
    while (!turns[i].holds(t)) i++;
    turns[i].make(t);
    if (is_for_the_desk(t->turn.kind)) t->turn.say = "";
    assert(t->turn.kind == TT_TURN_END || t->turn.choice_count > 0 || t->turn.takes.text ||
           t->turn.takes.reading || t->turn.takes.count);
    add_leading(t);
    add_news(t);
    t->turn.number++;
}
