/* The talk of a case, and its records on their way to where they are kept. */
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "call/conversation.h"
#include "cases/begin_case.h"
#include "cases/case_name.h"
#include "host/clock.h"
#include "host/memory.h"
#include "host/screen.h"

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
