/* A case that is there: who has it open, its book and site as it was last worked on, and the talk that goes on with it. */
#include <stdlib.h>
#include <string.h>

#include "host/begin_case.h"
#include "host/case_folder.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "show/catalogue.h"
#include "verb/ask_parts.h"
#include "verb/choose_site.h"
#include "verb/dialogue.h"

/* What its records say before they mean anything to a book. */
typedef struct case_facts {
    const tt_value *begun; /* data of its first record; null: none can be read */
    const tt_value *site;  /* {"path", "revision", "text"}; null: none that was said */
    bool names_site;       /* some record says which, or that there is none */
    tt_case_summary summary;
} case_facts;

static const tt_value *data_of(tt_journal *j, uint32_t entry, const char **kind)
{
    tt_entry e;
    if (tt_journal_entry(j, entry, &e) != TT_OK) return NULL;
    *kind = e.record->kind;
    return e.record->data;
}

static void read_facts(tt_journal *j, case_facts *facts)
{
    for (uint32_t i = 0; i < tt_journal_count(j); i++) {
        const char *kind = "";
        const tt_value *data = data_of(j, i, &kind), *site = value_get(data, "site");
        if (facts->begun == NULL && strcmp(kind, "begin") == 0) facts->begun = data;
        const bool places = strcmp(kind, "begin") == 0 || strcmp(kind, "resume") == 0 || strcmp(kind, "sitting") == 0 || strcmp(kind, "site") == 0;
        if (places && site != NULL) facts->site = value_is(site, TT_VALUE_MAP) ? site : NULL;
    }
}

/* ---- others who have it open ---- */

static case_writer writer_named(const case_store *s, const char *name)
{
    for (size_t i = 0; i < case_store_writers(s); i++)
        if (strcmp(case_store_writer_at(s, i).name, name) == 0) return case_store_writer_at(s, i);
    return (case_writer){.name = name};
}

/* One of ours that no program has open any more was left by a crash, or by a power cut. */
static bool is_held_by_another(const conversation *c, const tt_case_summary *s, bool *sure)
{
    const case_writer who = writer_named(c->store, s->writer);
    *sure = who.is_alive;
    return s->held && (who.is_alive || !who.is_here);
}

/* "view", "join", "take-over"; "resume" where nobody has it. Null: the person left. */
static const char *meet_others(conversation *c, const tt_case_summary *s)
{
    bool sure = false;
    if (!is_held_by_another(c, s, &sure)) return "resume";
    const char *person = *s->person != 0 ? s->person : catalogue_text(HOST_SOMEBODY);
    if (*s->place != 0) person = FILL(c->keep, HOST_PERSON_AT, person, s->place);
    tt_turn *turn = host_turn(c, TT_TURN_OPEN_ELSEWHERE, catalogue_text(HOST_OPEN_ELSEWHERE));
    host_line(c, turn, TT_PART_NOTE, "", FILL(c->keep, sure ? HOST_HELD_BY : HOST_MAYBE_HELD_BY, person, s->since));
    host_choice(c, turn, "view", catalogue_text(HOST_VIEW));
    host_choice(c, turn, "join", catalogue_text(HOST_JOIN));
    host_choice(c, turn, "take-over", catalogue_text(HOST_TAKE_OVER));
    const char *chosen = host_choose(c, turn);
    if (c->danger_said) return "join"; /* danger can't wait for who has it */
    if (chosen != NULL || c->failure != EXIT_DONE) return chosen;
    complain("case %s is left as it is: others have it open", case_store_number(c->store));
    note_failure(c, EXIT_BUSY);
    return NULL;
}

/* ---- opening ---- */

static const char *book_of(conversation *c, const case_facts *facts)
{
    const char *folder = c->line->count > 1 ? c->line->words[1] : value_text(facts->begun, "rulebook");
    if (facts->begun != NULL && folder != NULL) return folder;
    complain("%s does not say which book it is about. Name it: telltale ask BOOK --case ...", case_store_folder(c->store));
    note_failure(c, EXIT_BAD_DATA);
    return NULL;
}

/* Cases of version 1 that name no site were about the example, and say nothing of practice. */
static bool was_practice(const conversation *c, const case_facts *facts)
{
    if (is_given(c->line, OPTION_PRACTICE)) return true;
    if (value_get(facts->begun, "practice") == NULL) return facts->site == NULL && !is_given(c->line, OPTION_SITE);
    return value_truth(facts->begun, "practice");
}

static void open_book_of(conversation *c, const case_facts *facts)
{
    uint32_t role;
    const char *book = book_of(c, facts);
    if (book == NULL) return;
    c->practice = was_practice(c, facts);
    c->telephone = c->telephone || value_truth(facts->begun, "telephone");
    c->face->telephone = c->telephone;
    note_failure(c, open_for_site_again(c, book, facts->site));
    if (c->failure == EXIT_DONE) note_failure(c, role_named(c->book.book, c->line->values[OPTION_AS], &role));
}

/* Where nothing is asked and nothing is answered, nothing is written either. */
static void join(conversation *c, const char *how)
{
    const bool looks = strcmp(how, "view") == 0 || (is_given(c->line, OPTION_NO_INPUT) && !is_given(c->line, OPTION_ANSWERS));
    if (looks) return;
    const exit_status status = case_store_join(c->store);
    if (status == EXIT_CANNOT_CREATE) complain("to look at the case only, add --no-input");
    note_failure(c, status);
}

static void take_up_from(conversation *c, tt_journal *j)
{
    case_facts facts = {0};
    read_facts(j, &facts);
    note_failure(c, status_of(tt_journal_summary(j, &facts.summary)));
    const char *how = c->failure != EXIT_DONE ? NULL : is_given(c->line, OPTION_NO_INPUT) ? "resume" : meet_others(c, &facts.summary);
    if (how != NULL && is_here(c)) open_book_of(c, &facts);
    if (how != NULL && is_here(c)) join(c, how);
    if (how != NULL && is_here(c)) talk_anew(c, strcmp(how, "view") == 0 ? "resume" : how);
}

void take_up(conversation *c, const char *named)
{
    size_t count;
    tt_journal *j = NULL;
    char *root = cases_root(c->line->values[OPTION_CASES]);
    note_failure(c, root != NULL ? case_store_look(root, named, &c->store) : EXIT_CANNOT_CREATE);
    free(root);
    if (c->failure != EXIT_DONE) return;
    const tt_record *records = case_store_records(c->store, &count);
    note_failure(c, status_of(tt_journal_new(records, count, NULL, &j)));
    if (c->failure == EXIT_DONE) take_up_from(c, j);
    tt_journal_free(j);
}
