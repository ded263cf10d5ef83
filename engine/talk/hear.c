/* What a reply does: a choice by its id, a reading as such, several answers, or words. */
#include <assert.h>
#include <string.h>

#include "talk/talk.h"

void nothing_such(tt_talk *t)
{
    talk_wrong(t, "no-such-choice", OURS(t, TEXT_NONE_OF_THE_ANSWERS));
}

static bool is_choice(const tt_talk *t, const char *id)
{
    for (uint32_t i = 0; i < t->turn.choice_count; i++)
        if (strcmp(t->turn.choices[i].id, id) == 0) return true;
    return false;
}

/* ---- answers ---- */

/* A changed answer is said back with the old one. */
static void say_change(tt_talk *t, uint32_t question, const tt_reply *reply)
{
    const tt_fact *fact = talk_fact(t, question);
    const tt_question q = talk_question(t, question);
    const char *now = reply_words_of(t->shown, t->tongue, &q, reply);
    if (fact != NULL && strcmp(fact->text, now) != 0)
        talk_news(t, TT_PART_NOTE, "", SAY(t, TEXT_WAS_NOW, q.ask, fact->text, now));
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

/* The reading that a fix is about, after it: it says whether the fix did what it should, and counts
 * as an answer once it is told whether that helped. */
bool talk_is_after_fix(tt_talk *t)
{
    const tt_view *v = talk_look(t);
    return t->turn.kind == TT_TURN_LOOK_AGAIN && v->step == TT_FIX && t->fix.fix == v->fix &&
           !t->interrupted && talk_to_measure(t) != TT_NONE;
}

void answer_turn(tt_talk *t, uint32_t question, const tt_reply *reply, const char *typed)
{
    assert(question != TT_NONE);
    if (talk_is_after_fix(t)) {
        if (tt_reply_fits(t->c, question, reply) == TT_OK)
            keep_measured(t, talk_to_measure(t), question, reply);
        else
            talk_wrong(t, "does-not-fit", talk_why_not(t, question, reply));
        return;
    }
    if (!take_answer(t, question, reply, typed)) return;
    if (t->doing.kind == ASIDE_ANEW) t->doing = (aside){.kind = ASIDE_NONE};
    take_mistaken(t);
}

/* Who sees that it got worse does not read the gauge first. */
static bool says_worse(tt_talk *t, const char *id)
{
    return strcmp(id, "worse") == 0 && talk_is_after_fix(t);
}

static void on_question(tt_talk *t, const char *id)
{
    const uint32_t question = talk_asked(t);
    const tt_question q = talk_question(t, question);
    const uint32_t option = option_named(&q, id);
    if (option == TT_NONE && says_worse(t, id))
        worse_after_fix(t);
    else if (option != TT_NONE)
        answer_turn(t, question, &(tt_reply){.kind = TT_ANSWER, .option = option}, "");
    else if (strcmp(id, "unsure") == 0)
        answer_turn(t, question, &(tt_reply){.kind = TT_UNSURE}, "");
    else if (strcmp(id, "cannot") == 0)
        answer_turn(t, question, &(tt_reply){.kind = TT_CANNOT}, "");
    else
        nothing_such(t);
}

/* ---- danger ---- */

static void on_stop(tt_talk *t, const char *id)
{
    if (strcmp(id, "wait") == 0) {
        talk_news(t, TT_PART_NOTE, "", OURS(t, TEXT_STAY_AWAY));
        keep_text(t, "waiting", "whom", "");
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

static void take_pieces(tt_talk *t, const uint32_t *pieces, uint32_t count)
{
    const aside about = t->doing;
    t->doing = (aside){.kind = ASIDE_NONE};
    if (!keep_complaint(t, about.heard[0], about.said, pieces, count))
        talk_wrong(t, "not-of-these", OURS(t, TEXT_NOT_OF_THESE));
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
        if (piece == TT_NONE || !is_choice(t, ids[i])) {
            nothing_such(t);
            return;
        }
        bool said = false;
        for (uint32_t k = 0; k < count; k++) said = said || pieces[k] == piece;
        if (!said) pieces[count++] = piece;
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
        keep_text(t, "waiting", "whom", v->call_role != NULL ? v->call_role : "");
    else
        keep_close(t, "call");
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
    if (is_choice(t, id) || about_question || says_worse(t, id))
        on_choice[t->turn.kind](t, id);
    else if (word != WORD_NONE)
        do_word(t, word);
    else
        nothing_such(t);
}

static void take_number(tt_talk *t, double number, const char *unit)
{
    const tt_reply reply = {.kind = TT_NUMBER, .number = number, .unit = unit};
    if (!t->turn.takes.reading && !t->turn.takes.count)
        talk_wrong(t, "no-number-here", OURS(t, TEXT_NO_NUMBER_HERE));
    else
        answer_turn(t, talk_asked(t), &reply, "");
}

/* Its text is kept: it says more than what came of it. */
static void take_file(tt_talk *t, const tt_source *file)
{
    value_builder b = value_map(t->keep);
    value_put(&b, "name", value_of_str(t->keep, str_of(file->name)));
    value_put(&b, "text", value_of_str(t->keep, (str){file->bytes, file->length}));
    if (!keep_record(t, "answers", &b))
        talk_wrong(t, "no-answers", SAY(t, TEXT_NO_ANSWERS_FILE, file->name));
}

/* Whoever only looks may turn pages, and go; danger is heard from them, too. */
static void look_on(tt_talk *t, const tt_heard *heard)
{
    enum {
        READS = 1 << WORD_DANGER | 1 << WORD_WHY | 1 << WORD_KNOWN | 1 << WORD_CAUTIONS |
                1 << WORD_BACK | 1 << WORD_STOP | 1 << WORD_HELP
    };
    const bool enter = heard->choice == NULL && heard->words != NULL && *heard->words == 0;
    const char *id = heard->choice != NULL  ? heard->choice
                     : heard->words != NULL ? exactly_said(t, heard->words)
                                            : NULL;
    const talk_word word = id != NULL ? word_by_id(id) : WORD_NONE;
    if (enter)
        take_choice(t, "go-on");
    else if (id != NULL && (is_choice(t, id) || (word != WORD_NONE && (READS & 1u << word) != 0)))
        take_choice(t, id);
    else if (heard->words == NULL || !take_grave_words(t, heard->words))
        talk_wrong(t, "look-only", OURS(t, TEXT_LOOK_ONLY));
}

void hear_reply(tt_talk *t, const tt_heard *heard)
{
    if (speaks_otherwise(t, heard)) return;
    if (t->options.look_only && t->doing.kind == ASIDE_READ)
        look_on(t, heard);
    else if (heard->choice != NULL)
        take_choice(t, heard->choice);
    else if (heard->several_count > 0)
        take_several(t, heard->several, heard->several_count);
    else if (heard->number != NULL)
        take_number(t, *heard->number, heard->unit);
    else if (heard->answers != NULL)
        take_file(t, heard->answers);
    else if (heard->given_count > 0)
        take_given(t, heard->given, heard->given_count);
    else if (heard->words != NULL)
        take_words(t, heard->words, heard->unread);
    else
        nothing_such(t);
}
