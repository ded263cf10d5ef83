/* Turn after turn: shown, replied to, kept. */
#include "call/conversation.h"

#include <assert.h>

#include "base/grow.h"
#include "call/choose_site.h"
#include "call/dialogue.h"
#include "cases/begin_case.h"

/* ---- a turn ---- */

/* What others have added is told with the next turn. */
static void take_news(conversation *c)
{
    const tt_record *records;
    size_t count;
    if (c->store == NULL || !case_store_is_on_disk(c->store) || !case_store_has_news(c->store))
        return;
    note_failure(c, case_store_news(c->store, &records, &count));
    if (c->failure == EXIT_DONE) note_failure(c, status_of(tt_talk_take(c->talk, records, count)));
}

/* A program's first line may say as what the case begins. Until it came, nothing that was sent
 * depends on chance: so a conversation can be played again byte for byte. */
static void begin_as(conversation *c, const beginning *b)
{
    c->unnumbered = false;
    if (c->store != NULL) note_failure(c, store_anew(c, b->case_id, b->writer));
    if (c->failure == EXIT_DONE) talk_anew(c, NULL);
}

static void hear_first(conversation *c, const tt_heard *heard)
{
    tt_talk *before = c->talk; /* the reply leans on its turn */
    tt_heard first = *heard;
    first.turn = 0;
    c->unnumbered = false;
    c->talk = NULL;
    talk_anew(c, NULL);
    if (c->failure == EXIT_DONE) hear_and_keep(c, &first);
    tt_talk_free(before);
}

static const tt_turn *with_words_of_desk(conversation *c, const tt_turn *turn)
{
    if (!c->at_desk) return turn;
    tt_turn *more = ARENA_NEW(c->keep, tt_turn);
    *more = *turn;
    if (c->store != NULL) host_word(c, more, word_caller, TYPED_CALLER);
    host_word(c, more, word_board, TYPED_BOARD);
    return more;
}

/* What was told before stands by, while danger is asked first. */
static const tt_turn *with_what_was_told(conversation *c, const tt_turn *turn)
{
    if (c->told_first == NULL || turn->kind != TT_TURN_DANGER || c->danger_said != NULL)
        return turn;
    tt_turn *more = ARENA_NEW(c->keep, tt_turn);
    *more = *turn;
    host_line(c, more, TT_PART_NOTE, "", FILL(c->keep, c->tongue, HOST_HEARD_FIRST, c->told_first));
    return more;
}

static int descriptor_of_others(void *context)
{
    const conversation *c = context;
    return c->store != NULL ? case_store_descriptor(c->store) : -1;
}

static bool others_added(void *context)
{
    const conversation *c = context;
    return case_store_has_news(c->store);
}

/* What others add meanwhile is shown to a person at once; a program gets a turn for each reply, and
 * no others. */
static face_got ask(conversation *c, const tt_turn *turn, tt_heard *heard)
{
    const line_news news = {descriptor_of_others, others_added, c};
    c->face->input->news = is_given(c->line, OPTION_JSON) ? NULL : &news;
    const face_got got = c->face->ask(c->face, turn, heard);
    c->face->input->news = NULL;
    return got;
}

static void take_turn(conversation *c, const tt_turn *turn)
{
    tt_heard heard;
    show_about(c);
    const face_got got = ask(c, with_words_of_desk(c, with_what_was_told(c, turn)), &heard);
    if (got == FACE_NEWS) return; /* the same turn comes again, with what is new */
    if (got == FACE_REPLY && puts_down(c, &heard)) return;
    if (got == FACE_REPLY && asks_contact(c, &heard)) {
        ask_contact(c);
        return;
    }
    if (got == FACE_BEGINS)
        begin_as(c, &c->face->begun);
    else if (got != FACE_REPLY)
        c->left = got;
    else if (c->unnumbered)
        hear_first(c, &heard);
    else
        hear_and_keep(c, &heard);
}

/* What was said of the trouble before anybody asked for it. */
static void hear_told_first(conversation *c)
{
    const char *told = c->told_first;
    assert(told != NULL);
    c->told_first = NULL;
    hear_and_keep(c, &(tt_heard){.words = told});
}

/* Others see that the case was left, whatever way. */
static void leave(conversation *c)
{
    const bool left = c->failure == EXIT_DONE && c->left != FACE_REPLY;
    if (left && c->told_first != NULL && tt_talk_turn(c->talk)->kind != TT_TURN_DANGER)
        hear_told_first(c); /* of danger it says nothing */
    if (c->failure == EXIT_DONE && c->left != FACE_REPLY)
        hear_and_keep(c, &(tt_heard){.choice = "stop"});
}

/* "Help", said at a question of ours, is answered before that is asked again. */
static bool answers_help(const tt_turn *turn)
{
    return turn->kind == TT_TURN_HELP_OR_DANGER || turn->kind == TT_TURN_WORDS;
}

void go_on_talking(conversation *c)
{
    while (is_here(c)) {
        c->interrupted = false;
        take_news(c);
        const tt_turn *turn = tt_talk_turn(c->talk);
        if (c->failure != EXIT_DONE || turn->kind == TT_TURN_END) break;
        if (answers_help(turn))
            take_turn(c, turn);
        else if (c->instead != NULL && turn->gate_open)
            c->instead(c);
        else if (c->asks_site && turn->gate_open)
            decide_site(c);
        else if (c->keeps_site && turn->gate_open)
            keep_site(c);
        else if (c->told_first != NULL && turn->gate_open)
            hear_told_first(c);
        else
            take_turn(c, turn);
    }
    leave(c);
}
