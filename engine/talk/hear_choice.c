/* What the choice of a turn does. */
#include <assert.h>
#include <string.h>

#include "talk/talk_replies.h"

/* ---- answers ---- */

/* Who sees that it got worse does not read the gauge first. */
static bool says_worse(tt_talk *t, const char *id)
{
    return strcmp(id, "worse") == 0 && talk_is_after_fix(t);
}

static void on_question(tt_talk *t, const char *id)
{
    const uint32_t question = talk_asked(t);
    const uint32_t option = option_named(t->book, question, id);
    if (option == TT_NONE && says_worse(t, id))
        worse_after_fix(t);
    else if (option != TT_NONE)
        answer_turn(t, question, &(tt_reply){.kind = TT_ANSWER, .option = option}, "");
    else
        answer_turn(t, question,
                    &(tt_reply){.kind = strcmp(id, "unsure") == 0 ? TT_UNSURE : TT_CANNOT}, "");
}

/* ---- danger ---- */

static void on_stop(tt_talk *t, const char *id)
{
    if (strcmp(id, "wait") == 0) {
        uint32_t told; /* what to do about it: to stay away may be the opposite of that */
        (void)talk_emergencies(t, &told);
        talk_news(t, TT_PART_NOTE, "", OURS(t, told > 0 ? TEXT_KEEP_DOING : TEXT_STAY_AWAY));
        t->danger_met = t->danger_number;
        keep_waiting(t, "");
    } else if (strcmp(id, "made-safe") == 0) {
        keep_text(t, "made-safe", "post", talk_post(t));
        keep_close(t, "made-safe");
        t->left = true;
        t->how = "made-safe";
    } else {
        t->asks_again = true;
        t->mistaken = strcmp(id, "mistaken") == 0 ? t->danger_words : "";
    }
}

/* ---- complaints ---- */

static uint32_t place_named(const tt_talk *t, const char *name)
{
    for (uint32_t i = 0; i < tt_spot_count(t->book); i++)
        if (strcmp(tt_spot_show(t->book, i, NULL).name, name) == 0) return i;
    return TT_NONE;
}

static void on_place(tt_talk *t, const char *id)
{
    t->doing = strcmp(id, "all") == 0
                   ? (aside){.kind = ASIDE_NONE}
                   : (aside){.kind = ASIDE_AT_PLACE, .question = place_named(t, id)};
}

static void on_complaint(tt_talk *t, const char *id)
{
    if (t->doing.kind == ASIDE_PLACES) {
        on_place(t, id);
        return;
    }
    t->doing = (aside){.kind = ASIDE_NONE};
    if (strcmp(id, "another-place") == 0)
        t->doing.kind = ASIDE_PLACES;
    else if (strcmp(id, "none") == 0)
        keep_record(t, "no-complaint", NULL);
    else
        complain_of(t, complaint_named(t, id), "");
}

/* Of several that were heard each is asked about in its turn. */
static void on_confirm(tt_talk *t, const char *id)
{
    assert(t->doing.kind == ASIDE_CONFIRM);
    const aside heard = t->doing;
    t->doing = (aside){.kind = ASIDE_NONE};
    if (strcmp(id, "none") != 0) {
        complain_of(t, complaint_named(t, id), heard.said);
        return;
    }
    talk_news(t, TT_PART_NOTE, "", OURS(t, TEXT_OTHER_WORDS));
}

static void on_which(tt_talk *t, const char *id)
{
    assert(t->doing.kind == ASIDE_WHICH && t->doing.heard_count > 0);
    uint32_t *pieces = ARENA_ARRAY(t->keep, uint32_t, tt_piece_count(t->book)), count = 0;
    const uint32_t kind = t->complaints.items[t->doing.heard[0]].kind;
    const bool all = strcmp(id, "all") == 0;
    for (uint32_t i = 0; i < tt_piece_count(t->book); i++) {
        const tt_piece piece = tt_piece_show(t->book, i, NULL);
        if (piece.kind == kind && (all || strcmp(piece.name, id) == 0)) pieces[count++] = i;
    }
    take_pieces(t, pieces, count);
}

/* ---- ends ---- */

static void on_call(tt_talk *t, const char *id)
{
    const tt_view *v = talk_look(t);
    if (strcmp(id, "put-back") == 0) {
        keep_put_back(t, talk_left_changed(t)->fix);
        return;
    }
    t->left = true;
    t->how = strcmp(id, "wait") == 0 ? "waiting" : "call";
    if (strcmp(id, "wait") == 0)
        keep_waiting(t, v->call_role != NULL ? v->call_role : "");
    else
        keep_close(t, "call");
}

static void confirm(tt_talk *t, const char *how, const char *cause)
{
    assert(*how != 0);
    keep_confirm(t, how, cause);
    talk_news(t, TT_PART_NOTE, "", OURS(t, cause != NULL ? TEXT_THANKS_KEPT : TEXT_THANKS_LATER));
    t->doing = (aside){.kind = ASIDE_NONE};
    leave_closed(t);
}

static void on_cause(tt_talk *t, const char *id)
{
    assert(t->doing.kind >= ASIDE_CAUSE && t->doing.kind <= ASIDE_CAUSE_ALL);
    const bool which = t->doing.kind != ASIDE_CAUSE;
    if (strcmp(id, "unsure") == 0)
        confirm(t, "unsure", NULL);
    else if (strcmp(id, "something-not-listed") == 0)
        confirm(t, "not-listed", id);
    else if (strcmp(id, "more") == 0)
        t->doing.kind = ASIDE_CAUSE_ALL;
    else if (which)
        confirm(t, "other", id);
    else if (strcmp(id, "yes") == 0)
        confirm(t, "yes", t->turn.subject);
    else
        t->doing =
            (aside){.kind = ASIDE_CAUSE_WHICH, .but = str_copy(t->keep, str_of(t->turn.subject)).p};
}

/* The trouble is there again, or it never was gone; a case that was closed otherwise is only
 * opened. */
static void reopen(tt_talk *t, bool came_back)
{
    const tt_tried *cure = talk_look(t)->step == TT_CLOSED ? talk_last_cure(t) : NULL;
    if (cure != NULL && came_back)
        keep_about_fix(t, "came-back", cure->fix);
    else if (cure != NULL)
        keep_cure_back(t);
    keep_text(t, "sitting", "why", "reopened");
}

static void on_closed(tt_talk *t, const char *id)
{
    assert(t->doing.kind == ASIDE_CLOSED);
    t->doing = (aside){.kind = ASIDE_NONE};
    if (strcmp(id, "leave") == 0)
        leave_closed(t);
    else if (strcmp(id, "say-cause") == 0 && talk_look(t)->step == TT_CLOSED)
        ask_cause(t);
    else if (strcmp(id, "say-cause") == 0)
        t->doing = (aside){.kind = ASIDE_CAUSE_WHICH, .but = ""};
    else
        reopen(t, strcmp(id, "came-back") == 0);
}

static void on_go_on(tt_talk *t, const char *id)
{
    t->doing = t->doing.kind == ASIDE_TAKEN_OVER ? t->overtaken : (aside){.kind = ASIDE_NONE};
    if (strcmp(id, "go-on") != 0) do_word(t, WORD_STOP);
}

/* ---- pages, notes, changes ---- */

static void on_page(tt_talk *t, const char *id)
{
    assert(t->doing.kind == ASIDE_READ);
    const bool help = t->doing.page == TT_TURN_HELP_OR_DANGER;
    if (strcmp(id, "more") == 0) {
        t->doing.more = true;
        return;
    }
    t->doing = t->before_reading;
    if (help && strcmp(id, "danger") == 0)
        do_word(t, WORD_DANGER);
    else if (help && strcmp(id, "how") == 0)
        do_word(t, WORD_HELP);
    else if (t->leaving)
        t->left = true;
    if (help) t->leaving = false;
}

static void on_change(tt_talk *t, const char *id)
{
    static const char before[] = "answer-"; /* see change_id */
    const bool marked =
        strncmp(id, before, strlen(before)) == 0 && word_by_id(id + strlen(before)) != WORD_NONE;
    const uint32_t question = tt_question_find(t->book, marked ? id + strlen(before) : id);
    if (strcmp(id, "of-this-site") == 0)
        t->doing = (aside){.kind = ASIDE_CHANGE_SITE};
    else if (question != TT_NONE)
        t->doing = (aside){.kind = ASIDE_ANEW, .question = question};
    else
        t->doing = (aside){.kind = ASIDE_NONE};
}

static void on_ask_back(tt_talk *t, const char *id)
{
    assert(t->doing.kind == ASIDE_ASK_BACK);
    const aside about = t->doing;
    t->doing = (aside){.kind = ASIDE_NONE};
    const uint32_t question = tt_question_find(t->book, id);
    if (question != TT_NONE) take_reading_of(t, question, about.reading, about.said);
}

static void on_note(tt_talk *t, const char *id)
{
    (void)id;
    take_note(t, "");
}

/* After a reply that could not be taken the same turn comes again. */
static void on_nothing(tt_talk *t, const char *id)
{
    (void)t;
    assert(strcmp(id, "go-on") == 0);
}

static void on_walked(tt_talk *t, const char *id)
{
    if (strcmp(id, "drop") == 0)
        do_word(t, WORD_STOP);
    else
        leave_walk(t, id);
}

/* ---- which of them ---- */

static void (*const on_choice[TT_TURN_KINDS])(tt_talk *t, const char *id) = {
    [TT_TURN_DANGER] = on_question,
    [TT_TURN_EARLY] = on_question,
    [TT_TURN_QUESTION] = on_question,
    [TT_TURN_LOOK_AGAIN] = on_question,
    [TT_TURN_STOP] = on_stop,
    [TT_TURN_COMPLAINT] = on_complaint,
    [TT_TURN_CONFIRM] = on_confirm,
    [TT_TURN_WHICH] = on_which,
    [TT_TURN_EARLIER] = on_earlier,
    [TT_TURN_ASK_BACK] = on_ask_back,
    [TT_TURN_REVIEW] = on_review,
    [TT_TURN_BEFORE_FIX] = on_before,
    [TT_TURN_FIX_STEP] = on_step,
    [TT_TURN_OUTCOME] = on_outcome,
    [TT_TURN_PUT_BACK] = on_put_back,
    [TT_TURN_SETTLE] = on_settle,
    [TT_TURN_CHANGE] = on_change,
    [TT_TURN_WALKED] = on_walked,
    [TT_TURN_CAUSE] = on_cause,
    [TT_TURN_CALL] = on_call,
    [TT_TURN_CLOSED] = on_closed,
    [TT_TURN_CHANGED] = on_go_on,
    [TT_TURN_TAKEN_OVER] = on_go_on,
    [TT_TURN_KNOWN] = on_page,
    [TT_TURN_WHY] = on_page,
    [TT_TURN_WORDS] = on_page,
    [TT_TURN_CAUTIONS] = on_page,
    [TT_TURN_PROCEDURE] = on_page,
    [TT_TURN_HELP_OR_DANGER] = on_page,
    [TT_TURN_NOTE] = on_note,
    [TT_TURN_TO] = on_note,
    [TT_TURN_NOT_KEPT] = on_nothing,
};

static bool is_question(tt_turn_kind kind)
{
    assert(kind < TT_TURN_KINDS);
    return on_choice[kind] == on_question;
}

void take_choice(tt_talk *t, const char *id)
{
    assert(id != NULL);
    const talk_word word = word_by_id(*id == ':' ? id + 1 : id);
    const bool about_question =
        is_question(t->turn.kind) && (word == WORD_UNSURE || word == WORD_CANNOT);
    assert(t->turn.kind < TT_TURN_KINDS);
    if (is_offered(t, id) || says_worse(t, id))
        on_choice[t->turn.kind](t, id);
    else if (about_question)
        on_choice[t->turn.kind](t, word_name(word));
    else if (word != WORD_NONE)
        do_word(t, word);
    else
        nothing_such(t);
}
