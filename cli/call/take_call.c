/* One call, from its first word to its last page. */
#include <stdlib.h>
#include <string.h>

#include "call/call_parts.h"
#include "call/choose_site.h"
#include "call/dialogue.h"
#include "cases/begin_case.h"
#include "cases/case_file.h"
#include "cases/case_name.h"
#include "cases/ended.h"
#include "host/clock.h"
#include "host/memory.h"
#include "host/screen.h"

/* ---- beginning ---- */

static void complain_of_role(const conversation *c)
{
    const tt_book *book = c->book.book;
    const uint32_t count = tt_book_describe(book).roles;
    const char *others = "";
    for (uint32_t i = 1; i < count; i++)
        others =
            arena_text(c->keep, "%s%s--as %s", others, i == 1 ? "" : " or ", tt_role_name(book, i));
    complain("what is good is recorded by a higher role than %s: add %s if that is yours, else ask "
             "whoever has it",
             tt_role_name(book, 0), *others != 0 ? others : "a role to the book");
}

/* A record is for somebody who knows what good looks like, and needs a file to go into. */
static void check_kind(conversation *c)
{
    const char *role = c->line->values[OPTION_AS];
    if (c->kind != TT_KIND_RECORD) return;
    const bool lowest = role == NULL || tt_role_find(c->book.book, role) == 0;
    if (lowest) complain_of_role(c);
    if (!lowest && c->site_path == NULL)
        complain("what is good goes into the file of a site: name it with --site");
    if (lowest || c->site_path == NULL) note_failure(c, EXIT_USAGE);
}

/* Which round it is: as said, else what is due. */
static void settle_round(conversation *c)
{
    char now[TT_MOMENT_SIZE];
    const char *every = c->line->values[OPTION_EVERY];
    clock_now(now);
    c->every = c->past != NULL ? tt_past_due(c->past, now) : TT_DAILY;
    if (every == NULL || tt_every_find(every, &c->every)) return;
    complain("--every %s: a round is daily, weekly or monthly", every);
    note_failure(c, EXIT_USAGE);
}

static void begin_anew(conversation *c)
{
    uint32_t role;
    const char *book = is_here(c) ? book_wanted(c) : NULL;
    if (book == NULL || c->failure != EXIT_DONE) return;
    note_failure(c, open_for_site(c, book));
    if (c->failure == EXIT_DONE)
        note_failure(c, role_named(c->book.book, c->line->values[OPTION_AS], &role));
    if (c->failure == EXIT_DONE) check_kind(c);
    if (c->failure == EXIT_DONE) note_failure(c, store_anew(c, NULL, NULL));
    if (c->failure == EXIT_DONE) read_past(c);
    if (c->failure == EXIT_DONE) settle_round(c);
    c->unnumbered = is_given(c->line, OPTION_JSON) && !is_given(c->line, OPTION_ANSWERS) &&
                    !is_given(c->line, OPTION_NO_INPUT);
    if (c->failure == EXIT_DONE) talk_anew(c, NULL);
}

/* One that comes as a file goes among our own first; what is added goes back into the file. */
static const char *taken_in(conversation *c, const char *path)
{
    const char *folder = NULL;
    char *root = cases_root(c->line->values[OPTION_CASES]);
    note_failure(c,
                 root != NULL ? case_file_take(c->keep, root, path, &folder) : EXIT_CANNOT_CREATE);
    free(root);
    c->case_file = c->failure == EXIT_DONE ? path : NULL;
    return folder;
}

static void hand_back(conversation *c)
{
    if (c->case_file != NULL && c->store != NULL)
        note_failure(c, case_file_give(c->keep, case_store_folder(c->store), c->case_file));
}

static void begin(conversation *c, const char *wanted)
{
    if (wanted != NULL && is_case_file(wanted)) wanted = taken_in(c, wanted);
    if (c->failure != EXIT_DONE) return;
    if (wanted != NULL)
        take_up(c, wanted);
    else
        begin_anew(c);
}

/* Looked at by itself first, so that its faults are told as such. */
static exit_status check_answers(conversation *c, const tt_source *file)
{
    tt_case *scratch;
    exit_status status = case_begin(&c->book, c->line->values[OPTION_AS],
                                    c->line->values[OPTION_LANGUAGE], false, false, &scratch);
    if (status == EXIT_DONE) status = case_answer_file(scratch, file);
    tt_case_free(scratch);
    return status;
}

static void add_answers(conversation *c)
{
    tt_source file;
    if (!is_given(c->line, OPTION_ANSWERS) || c->failure != EXIT_DONE) return;
    exit_status status = source_read_file(c->line->values[OPTION_ANSWERS], &file);
    if (status == EXIT_DONE) status = check_answers(c, &file);
    note_failure(c, status);
    if (c->failure == EXIT_DONE) hear_and_keep(c, &(tt_heard){.answers = &file});
    source_free(&file);
}

/* ---- with nobody to ask ---- */

/* As it is, but for what could be said to it. */
static void tell_turn(conversation *c)
{
    tt_turn told = *tt_talk_turn(c->talk);
    told.word_count = 0;
    if (told.kind == TT_TURN_KNOWN) {
        told.prompt = told.say = "";
        told.choice_count = 0;
    }
    host_tell(c, &told);
}

/* What is known, and what would come next. */
static void only_tell(conversation *c)
{
    if (tt_talk_turn(c->talk)->kind != TT_TURN_KNOWN)
        hear_and_keep(c, &(tt_heard){.choice = "known"});
    tell_turn(c);
    hear_and_keep(c, &(tt_heard){.choice = "go-on"});
    if (tt_talk_turn(c->talk)->kind != TT_TURN_END) tell_turn(c);
    c->left = FACE_ENDED;
    if (tt_talk_turn(c->talk)->kind != TT_TURN_END) hear_and_keep(c, &(tt_heard){.choice = "stop"});
}

/* ---- the verb ---- */

/* It is the trouble of a case that is there: that one is taken up. Who called goes along. */
static bool goes_on_elsewhere(conversation *c)
{
    const tt_turn *turn = tt_talk_turn(c->talk);
    const bool back = strcmp(turn->how, "came-back") == 0;
    if (turn->kind != TT_TURN_END || !(back || strcmp(turn->how, "elsewhere") == 0)) return false;
    if (!is_here(c) || *turn->subject == 0) return false;
    const char *number = arena_copy(c->keep, turn->subject);
    take_contact_along(c);
    case_store_close(c->store);
    c->store = NULL;
    c->kept_count = 0;
    take_up(c, number);
    if (back && is_here(c) && tt_talk_turn(c->talk)->kind == TT_TURN_CLOSED)
        hear_and_keep(c, &(tt_heard){.choice = "came-back"});
    return is_here(c);
}

/* The last question may be answered with danger: then it goes on. */
static void talk_to_the_end(conversation *c)
{
    do {
        do go_on_talking(c);
        while (goes_on_elsewhere(c));
        if (c->failure != EXIT_DONE || !is_closed(tt_talk_turn(c->talk)->how)) continue;
        if (strcmp(tt_talk_turn(c->talk)->how, "recorded") == 0)
            write_good(c);
        else
            offer_to_keep_facts(c);
    } while ((c->interrupted && is_here(c)) || begins_fault(c));
}

static void talk_it_through(conversation *c)
{
    if (c->danger_said != NULL && is_here(c))
        hear_and_keep(c, &(tt_heard){.words = c->danger_said});
    add_answers(c);
    if (c->failure != EXIT_DONE) return;
    if (is_given(c->line, OPTION_NO_INPUT))
        only_tell(c);
    else
        talk_to_the_end(c);
}

static void free_all(conversation *c)
{
    forget_draft(c);
    tt_talk_free(c->talk);
    case_store_close(c->store);
    book_close(&c->book);
    for (uint32_t i = 0; i < c->before_count; i++) book_close(&c->before[i]);
    tt_past_free(c->past);
    arena_free(c->keep);
}

/* At the desk the options are about new calls alone. */
static const case_contact nothing_said = {"", "", ""};

exit_status take_call(const command_line *line, face *f, const call_wish *wish)
{
    const char *language = wish->language != NULL ? wish->language : line->values[OPTION_LANGUAGE];
    conversation c = {.line = line,
                      .language = language,
                      .tongue = tongue_of(language),
                      .kind = wish->kind,
                      .keep = host_arena(),
                      .face = f,
                      .at_desk = wish->at_desk,
                      .contact = wish->named == NULL ? contact_said(line) : nothing_said,
                      .danger_said = wish->danger_said,
                      .told_first = wish->told_first,
                      .books = wish->books,
                      .said_why = "",
                      .practice = is_given(line, OPTION_PRACTICE),
                      .telephone = is_given(line, OPTION_TELEPHONE)};
    f->telephone = c.telephone;
    const bool new_one = wish->at_desk || wish->kind != TT_KIND_FAULT;
    begin(&c, new_one ? wish->named : case_wanted(&c));
    if (c.talk != NULL && c.failure == EXIT_DONE) talk_it_through(&c);
    exit_status status = end_case(&c);
    hand_back(&c);
    if (c.failure != EXIT_DONE) status = c.failure;
    free_all(&c);
    return status;
}

exit_status talk_of_kind(const command_line *line, tt_case_kind kind)
{
    line_input input;
    const exit_status wrong = check_talk_options(line);
    if (wrong != EXIT_DONE) return wrong;
    face *f = face_wanted(line, &input);
    const exit_status status = take_call(line, f, &(call_wish){.kind = kind});
    face_end(f);
    return status;
}
