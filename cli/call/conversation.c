/* Turn after turn: shown, replied to, kept. */
#include "call/conversation.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "call/choose_site.h"
#include "call/dialogue.h"
#include "cases/begin_case.h"
#include "cases/case_name.h"
#include "host/clock.h"
#include "host/memory.h"
#include "host/screen.h"

bool is_here(const conversation *c)
{
    return c->left == FACE_REPLY && c->failure == EXIT_DONE;
}

bool may_ask(const conversation *c)
{
    return is_here(c) && !c->interrupted;
}

void note_failure(conversation *c, exit_status failure)
{
    if (c->failure == EXIT_DONE) c->failure = failure;
}

static const char *moment_of(const conversation *c, char clock[TT_MOMENT_SIZE])
{
    if (c->face->now != NULL) return c->face->now;
    clock_now(clock);
    return clock;
}

static void remember(conversation *c, const tt_record *r)
{
    tt_value *trees = ARENA_ARRAY(c->keep, tt_value, 2);
    trees[0] = value_copy(c->keep, r->data);
    if (r->seen != NULL) trees[1] = value_copy(c->keep, r->seen);
    GROW(c->keep, c->kept, c->kept_count, c->kept_room);
    tt_record *copy = &c->kept[c->kept_count++];
    *copy = *r;
    copy->writer = arena_copy(c->keep, r->writer);
    copy->time = arena_copy(c->keep, r->time);
    copy->kind = arena_copy(c->keep, r->kind);
    copy->data = &trees[0];
    copy->seen = r->seen != NULL ? &trees[1] : NULL;
}

/* The same reason once, until something could be kept again. */
static void say_why(conversation *c, const char *why)
{
    if (strcmp(c->said_why, why) == 0) return;
    complain("%s", why);
    c->said_why = arena_copy(c->keep, why);
}

/* What can't be kept is said on each turn from then on; the case goes on. */
static void keep(conversation *c, const tt_record *records, uint32_t count)
{
    const char *why = "";
    if (count == 0) return;
    for (uint32_t i = 0; i < count; i++) remember(c, &records[i]);
    const bool kept = c->store != NULL && case_store_keep(c->store, records, count, &why);
    if (!kept && c->store != NULL) say_why(c, why);
    if (kept) c->said_why = "";
    if (kept) keep_contact(c);
    const bool as_meant = kept || c->kind == TT_KIND_DRILL; /* of which nothing is to be kept */
    note_failure(c, status_of(tt_talk_kept(c->talk, as_meant)));
}

/* ---- beginning ---- */

static void take_records(conversation *c)
{
    size_t count = 0;
    const tt_record *records = c->store != NULL ? case_store_records(c->store, &count) : NULL;
    note_failure(c, status_of(tt_talk_take(c->talk, records, count)));
    note_failure(c, status_of(tt_talk_take(c->talk, c->kept, c->kept_count)));
}

/* The program asks in the language that the talk speaks, and a talk begun anew goes on in it. */
static void note_language(conversation *c)
{
    const char *language = c->talk != NULL ? tt_talk_turn(c->talk)->language : NULL;
    if (c->failure != EXIT_DONE || language == NULL) return;
    c->tongue = tongue_of(language);
    if (c->language != NULL && strcmp(c->language, language) != 0)
        c->language = arena_copy(c->keep, language);
}

void talk_anew(conversation *c, const char *how)
{
    char clock[TT_MOMENT_SIZE];
    const tt_record *records = NULL;
    uint32_t count = 0;
    const bool joined = c->store != NULL && case_store_is_joined(c->store),
               looks = c->store != NULL && !joined;
    const tt_talk_options options = {
        .writer = joined ? case_store_writer(c->store) : "nobody",
        .role = c->line->values[OPTION_AS],
        .language = c->language,
        .soonest = is_given(c->line, OPTION_SOONEST),
        .practice = c->practice,
        .kept = c->store != NULL || c->kind == TT_KIND_DRILL, /* of which nothing is to be kept */
        .telephone = c->telephone,
        .look_only = looks,
        .number = c->store != NULL && !c->unnumbered ? case_store_number(c->store) : "",
        .about = about_case(c),
        .kind = c->kind,
        .every = c->every,
        .past = how == NULL || strcmp(how, "site") == 0 ? c->past : NULL,
        .how = how};
    tt_talk_free(c->talk);
    c->talk = NULL;
    note_failure(c, status_of(tt_talk_new(c->book.book, &options, &c->talk)));
    if (c->failure != EXIT_DONE) return;
    take_records(c);
    note_failure(c, status_of(tt_talk_begin(c->talk, moment_of(c, clock), &records, &count)));
    if (c->failure == EXIT_DONE) keep(c, records, count);
    note_language(c);
}

exit_status store_anew(conversation *c, const char *id, const char *writer)
{
    if (is_given(c->line, OPTION_UNSAVED)) return EXIT_DONE;
    char *root = cases_root(c->line->values[OPTION_CASES]);
    case_store_close(c->store);
    c->store = NULL;
    const exit_status status =
        root != NULL ? case_store_new_as(root, id, writer, &c->store) : EXIT_CANNOT_CREATE;
    free(root);
    return status;
}

/* ---- a turn ---- */

void show_about(conversation *c)
{
    const bool kept = c->store != NULL && case_store_is_on_disk(c->store);
    c->face->about = (face_about){.c = c->talk != NULL ? tt_talk_case(c->talk) : NULL,
                                  .book = c->book.book,
                                  .case_number = kept ? case_store_number(c->store) : "",
                                  .revision = c->book.revision,
                                  .site_revision = c->book.site_revision,
                                  .status = (uint32_t)c->status,
                                  .may_begin = c->unnumbered};
}

void hear_and_keep(conversation *c, const tt_heard *heard)
{
    char clock[TT_MOMENT_SIZE];
    const tt_record *records = NULL;
    uint32_t count = 0;
    if (heard->words != NULL)
        (void)tt_book_hear(c->book.book); /* without memory the talk says so */
    note_failure(c, status_of(tt_talk_hear(c->talk, heard, moment_of(c, clock), &records, &count)));
    if (c->failure == EXIT_DONE) keep(c, records, count);
    note_language(c); /* the turn that is in another is there only now */
}

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
    const face_got got = ask(c, with_words_of_desk(c, turn), &heard);
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

void go_on_talking(conversation *c)
{
    while (is_here(c)) {
        c->interrupted = false;
        take_news(c);
        const tt_turn *turn = tt_talk_turn(c->talk);
        if (c->failure != EXIT_DONE || turn->kind == TT_TURN_END) break;
        if (c->instead != NULL && turn->gate_open)
            c->instead(c);
        else if (c->asks_site && turn->gate_open)
            decide_site(c);
        else if (c->told_first != NULL && turn->gate_open)
            hear_told_first(c);
        else
            take_turn(c, turn);
    }
    leave(c);
}
