/* A case that is there: who has it open, its book and site as it was last worked on, and the talk
 * that goes on with it. */
#include <stdlib.h>
#include <string.h>

#include "base/moment.h"
#include "base/value.h"
#include "call/call_parts.h"
#include "call/choose_site.h"
#include "call/dialogue.h"
#include "call/seen_case.h"
#include "cases/begin_case.h"
#include "cases/case_depot.h"
#include "cases/case_name.h"
#include "host/clock.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "say/catalogue.h"
#include "summary/case_apart.h"

/* ---- others who have it open ---- */

static case_writer writer_named(const case_store *s, const char *name)
{
    for (size_t i = 0; i < case_store_writers(s); i++)
        if (strcmp(case_store_writer_at(s, i).name, name) == 0) return case_store_writer_at(s, i);
    return (case_writer){.name = name};
}

static const char *moment_words(conversation *c, const char *time)
{
    char here[TT_MOMENT_SIZE];
    tt_moment then, now;
    clock_now(here);
    return tt_moment_read(time, &then) && tt_moment_read(here, &now)
               ? moment_for_people(c->keep, then, now).p
               : time;
}

static void tell_holder(conversation *c, tt_turn *turn, const tt_holder *h, bool sure)
{
    const char *person = *h->person != 0 ? h->person : catalogue_text(c->tongue, HOST_SOMEBODY);
    if (*h->place != 0) person = FILL(c->keep, c->tongue, HOST_PERSON_AT, person, h->place);
    host_line(c, turn, TT_PART_NOTE, "",
              FILL(c->keep, c->tongue, sure ? HOST_HELD_BY : HOST_MAYBE_HELD_BY, person,
                   moment_words(c, h->since)));
}

/* One of ours that no program has open any more was left by a crash, or by a power cut. False:
 * nobody else has it. */
static bool tell_holders(conversation *c, tt_turn *turn, tt_journal *j)
{
    const tt_holder *holders;
    uint32_t count, told = 0;
    note_failure(c, status_of(tt_journal_holders(j, &holders, &count)));
    for (uint32_t i = 0; i < count; i++) {
        const case_writer who = writer_named(c->store, holders[i].writer);
        if (!who.is_alive && who.is_here) continue;
        tell_holder(c, turn, &holders[i], who.is_alive);
        told++;
    }
    return told > 0;
}

/* "view", "join", "take-over"; "resume" where nobody has it. Null: the person left. */
static const char *meet_others(conversation *c, tt_journal *j)
{
    tt_turn *turn =
        host_turn(c, TT_TURN_OPEN_ELSEWHERE, catalogue_text(c->tongue, HOST_OPEN_ELSEWHERE));
    if (!tell_holders(c, turn, j)) return c->failure == EXIT_DONE ? "resume" : NULL;
    host_choice(c, turn, "view", catalogue_text(c->tongue, HOST_VIEW));
    host_choice(c, turn, "join", catalogue_text(c->tongue, HOST_JOIN));
    host_choice(c, turn, "take-over", catalogue_text(c->tongue, HOST_TAKE_OVER));
    const char *chosen = host_choose(c, turn);
    if (c->danger_said != NULL) return "join"; /* danger can't wait for who has it */
    if (chosen != NULL || c->failure != EXIT_DONE) return chosen;
    complain("case %s is left as it is: others have it open", case_store_number(c->store));
    note_failure(c, EXIT_BUSY);
    return NULL;
}

/* ---- opening ---- */

static const char *book_of(conversation *c, const tt_case_places *places)
{
    const char *folder = c->line->count > 1 && !c->at_desk ? c->line->words[1]
                                                           : value_text(places->begin, "rulebook");
    if (folder != NULL) return folder;
    complain("%s does not say which book it is about. Name it: telltale ask BOOK --case ...",
             case_store_folder(c->store));
    note_failure(c, EXIT_BAD_DATA);
    return NULL;
}

/* What was practice stays it; only of a case that does not say so can the site be named now. */
static bool was_practice(const conversation *c, const tt_case_places *places)
{
    const bool named =
        is_given(c->line, OPTION_SITE) && !c->at_desk && !value_truth(places->begin, "practice");
    return is_given(c->line, OPTION_PRACTICE) || (is_practice_case(places) && !named);
}

static void open_book_of(conversation *c, const tt_case_places *places)
{
    uint32_t role;
    const char *book = book_of(c, places);
    if (book == NULL) return;
    c->practice = was_practice(c, places);
    c->telephone = c->telephone || value_truth(places->begin, "telephone");
    c->face->telephone = c->telephone;
    note_failure(c, open_for_site_again(c, book, places->site));
    if (c->failure == EXIT_DONE)
        note_failure(c, role_named(c->book.book, c->line->values[OPTION_AS], &role));
}

/* Where nothing is asked and nothing is answered, nothing is written either. */
static void join(conversation *c, const char *how)
{
    const bool looks = strcmp(how, "view") == 0 ||
                       (is_given(c->line, OPTION_NO_INPUT) && !is_given(c->line, OPTION_ANSWERS));
    if (looks) return;
    const exit_status status = case_store_join(c->store);
    if (status == EXIT_CANNOT_CREATE) complain("to look at the case only, add --no-input");
    note_failure(c, status);
}

static void take_up_from(conversation *c, tt_journal *j)
{
    tt_case_places places;
    note_failure(c, status_of(tt_journal_places(j, &places)));
    const char *how = c->failure != EXIT_DONE              ? NULL
                      : is_given(c->line, OPTION_NO_INPUT) ? "resume"
                                                           : meet_others(c, j);
    if (how != NULL && is_here(c)) open_book_of(c, &places);
    if (how != NULL && is_here(c)) join(c, how);
    if (how != NULL && is_here(c)) talk_anew(c, strcmp(how, "view") == 0 ? "resume" : how);
}

/* ---- which one ---- */

static const char *choose_of(conversation *c, const case_list *list)
{
    tt_turn *turn =
        host_turn(c, TT_TURN_OPEN_CASES, catalogue_text(c->tongue, HOST_WHICH_OF_NUMBER));
    for (size_t i = 0; i < list->count; i++)
        host_choice(c, turn, arena_copy(c->keep, list->cases[i].number),
                    case_apart(c->keep, &list->cases[i]));
    return host_choose(c, turn);
}

/* A number that two desks have drawn stands for several cases: somebody who is there says which.
 * Null: they left. */
static const char *which_is_meant(conversation *c, const char *root, const char *named)
{
    char number[TT_CASE_NUMBER_SIZE];
    case_list list = {.cases = NULL};
    const bool can_say = (c->face->input->terminal || is_given(c->line, OPTION_JSON)) &&
                         !is_given(c->line, OPTION_NO_INPUT);
    if (!can_say || tt_case_number_read(named, number) != TT_NUMBER_READ) return named;
    const case_query query = case_query_of_number(number);
    if (case_list_read(root, true, &query, &list) == EXIT_DONE && list.count > 1)
        named = choose_of(c, &list);
    case_list_free(&list);
    return named;
}

void take_up(conversation *c, const char *named)
{
    size_t count;
    tt_journal *j = NULL;
    char *root = cases_root(c->line->values[OPTION_CASES]);
    if (root != NULL) named = which_is_meant(c, root, named);
    if (named == NULL) {
        free(root);
        return;
    }
    note_failure(c, root != NULL ? case_store_look(root, named, &c->store) : EXIT_CANNOT_CREATE);
    free(root);
    if (c->failure != EXIT_DONE) return;
    const tt_record *records = case_store_records(c->store, &count);
    note_failure(c, status_of(tt_journal_new(records, count, NULL, &j)));
    if (c->failure == EXIT_DONE) take_up_from(c, j);
    tt_journal_free(j);
}
