/* A list of cases to be read, or read out, from top to bottom: one thing a line, each with its
 * name, no columns. */
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "cases/case_store.h"
#include "face/cases.h"
#include "face/speaker.h"
#include "show/case_fields.h"

/* "2026-11-25 09:12", in the time of whoever reads it. */
static const char *local_time(const speaker *by, const char *written)
{
    tt_moment moment;
    struct tm local;
    char words[32];
    if (!tt_moment_read(written, &moment))
        return *written != 0 ? written : catalogue_text(TO_AUTHORS, CASES_UNKNOWN_TIME);
    time_t seconds = (time_t)(moment.milliseconds / 1000);
    if (localtime_r(&seconds, &local) == NULL ||
        strftime(words, sizeof words, "%Y-%m-%d %H:%M", &local) == 0)
        return written;
    return arena_copy(by->keep, words);
}

/* "4.5 min", "2 h 5 min", "3 d 4 h" */
static const char *span_words(const speaker *by, double minutes)
{
    if (minutes < .95) return catalogue_text(TO_AUTHORS, CASES_UNDER_A_MINUTE);
    if (minutes < 9.95) return FILL(by->keep, TO_AUTHORS, CASES_MINUTES, tenths(by, minutes));
    const unsigned long all = (unsigned long)lround(minutes), day = 24UL * 60;
    if (all < 60) return FILL(by->keep, TO_AUTHORS, CASES_MINUTES, whole(by, all));
    if (all < day)
        return FILL(by->keep, TO_AUTHORS, CASES_HOURS, whole(by, all / 60), whole(by, all % 60));
    return FILL(by->keep, TO_AUTHORS, CASES_DAYS, whole(by, all / day), whole(by, all / 60 % 24));
}

static void say_if(const speaker *by, text_id id, const char *text)
{
    if (*text != 0) SPEAK(by, "  ", id, text);
}

static void say_complaint(const speaker *by, const tt_case_summary *c)
{
    const char *words = *c->complaint != 0 ? c->complaint : c->complaint_name;
    if (*words != 0 && *c->said != 0)
        SPEAK(by, "  ", CASES_COMPLAINT_SAID, words, c->said);
    else
        say_if(by, CASES_COMPLAINT, *words != 0 ? words : c->said);
}

static bool is_of_this_machine(const char *writer)
{
    char here[WRITER_SIZE];
    writer_of_this_machine(here);
    return strncmp(writer, here, strlen(here)) == 0;
}

static void say_note(const speaker *by, const tt_case_summary *c)
{
    say_if(by, CASES_FOR, c->to_text);
    if (*c->until != 0) say_if(by, CASES_UNTIL, local_time(by, c->until));
    say_if(by, CASES_NOTE, c->note);
}

/* Who has it since when, or who left it when. */
static void say_who(const speaker *by, const tt_case_summary *c)
{
    if (*c->writer == 0) return;
    const char *person = *c->person != 0 ? c->person
                         : is_of_this_machine(c->writer)
                             ? catalogue_text(TO_AUTHORS, CASES_SOMEBODY_HERE)
                             : c->writer;
    if (*c->place != 0) person = FILL(by->keep, TO_AUTHORS, CASES_PERSON_AT, person, c->place);
    SPEAK(by, "  ", c->held ? CASES_WITH : CASES_LEFT_BY, person, local_time(by, c->since));
}

static void say_open(const speaker *by, const way_back *way, const case_summary *c)
{
    say_who(by, &c->says);
    say_note(by, &c->says);
    say_if(by, c->says.stands_is == TT_STANDS_NEXT ? CASES_NEXT : CASES_LAST_STEP,
           stands_words(TO_AUTHORS, &c->says));
    SPEAK(by, "  ", CASES_ANSWERS, whole(by, c->says.answers), whole(by, c->says.tried));
    speak(by, "  ", CASES_GO_ON);
    char *command = go_on_command(way, &(go_on){.number = c->number});
    say_command(by->s, command);
    free(command);
}

static void say_cause(const speaker *by, const tt_case_summary *c)
{
    const char *cause = *c->cause != 0 ? c->cause : c->cause_name;
    if (c->disputed)
        speak(by, "  ", CASES_CAUSE_TO_SETTLE);
    else if (*cause != 0)
        SPEAK(by, "  ", c->confirmed ? CASES_CAUSE_CONFIRMED : CASES_CAUSE_LIKELY, cause);
    else if (c->state == TT_CASE_CLOSED)
        speak(by, "  ", CASES_CAUSE_NOT_KEPT);
}

static void say_closed(const speaker *by, const tt_case_summary *c)
{
    const char *ended = local_time(by, c->ended);
    if (isnan(c->minutes))
        SPEAK(by, "  ", CASES_ENDED, ended);
    else
        SPEAK(by, "  ", CASES_ENDED_AFTER, ended, span_words(by, c->minutes));
    if (c->kind == TT_KIND_FAULT) say_cause(by, c);
    say_note(by, c);
}

static void say_case(const speaker *by, const way_back *way, const case_summary *c)
{
    const tt_case_summary *says = &c->says;
    say_nothing(by->s);
    const bool done = says->kind != TT_KIND_FAULT && says->state == TT_CASE_CLOSED;
    SPEAK(by, "", CASES_CASE, c->number,
          done ? catalogue_text(TO_AUTHORS, CASES_DONE)
               : case_state_words(TO_AUTHORS, says->state));
    if (says->kind == TT_KIND_ROUND)
        say_if(by, CASES_ROUND, tt_every_name(says->every));
    else if (says->kind != TT_KIND_FAULT)
        say_if(by, CASES_KIND, tt_case_kind_name(says->kind));
    if (*says->began != 0) say_if(by, CASES_BEGAN, local_time(by, says->began));
    say_if(by, CASES_BOOK, says->title);
    say_if(by, CASES_SITE, says->site);
    say_complaint(by, says);
    if (case_is_open(c))
        say_open(by, way, c);
    else if (says->state != TT_CASE_UNREADABLE)
        say_closed(by, says);
    if (c->left_out > 0)
        SPEAK(by, "  ", CASES_LEFT_OUT, whole(by, c->left_out), c->folder);
    else if (says->state == TT_CASE_UNREADABLE)
        SPEAK(by, "  ", CASES_FOLDER, c->folder);
}

static void say_contact(const speaker *by, const char *lead, const case_summary *c,
                        exit_status *worst)
{
    case_contact contact;
    const exit_status read = case_contact_read(by->keep, c->folder, &contact);
    if (*worst == EXIT_DONE) *worst = read;
    if (read == EXIT_DONE && case_contact_says_something(&contact))
        SPEAK(by, lead, LINE_CALLER, contact_words(by->keep, TO_AUTHORS, &contact));
}

exit_status print_cases(const screen *s, const way_back *way, const case_list *list, bool contacts)
{
    exit_status worst = EXIT_DONE;
    const speaker by = {s, host_arena(), TO_AUTHORS};
    const arena_mark before = arena_here(by.keep);
    for (size_t i = 0; i < list->count; i++) {
        say_case(&by, way, &list->cases[i]);
        if (contacts) say_contact(&by, "  ", &list->cases[i], &worst);
        arena_back_to(by.keep, before);
    }
    arena_free(by.keep);
    return worst;
}

exit_status print_case_lines(const screen *s, const case_list *list, const case_reader *r,
                             bool contacts)
{
    exit_status worst = EXIT_DONE;
    const speaker by = {s, host_arena(), TO_AUTHORS};
    const arena_mark before = arena_here(by.keep);
    for (size_t i = 0; i < list->count; i++) {
        say_item(s, "", "%s", case_line(by.keep, &list->cases[i], r));
        if (contacts) say_contact(&by, "    ", &list->cases[i], &worst);
        arena_back_to(by.keep, before);
    }
    arena_free(by.keep);
    return worst;
}

/* ---- counts ---- */

void print_months(const screen *s, const month_counts *months)
{
    const speaker by = {s, host_arena(), TO_AUTHORS};
    for (size_t i = 0; i < months->count; i++) {
        const month_count *m = &months->items[i];
        const cause_count cause = {.name = m->name, .text = m->text};
        if (i == 0 || strcmp(months->items[i - 1].month, m->month) != 0) {
            say_nothing(s);
            say(s, "%s", m->month);
        }
        SPEAK(&by, "  - ", CASES_IN_MONTH,
              *m->site != 0 ? m->site : catalogue_text(TO_AUTHORS, LINE_SOMEWHERE),
              cause_count_words(&cause), whole(&by, m->count), whole(&by, m->confirmed));
    }
    arena_free(by.keep);
}

static void say_spread(const speaker *by, const char *lead, text_id id, const minutes_spread *m)
{
    if (m->count == 0) return;
    SPEAK(by, lead, id, span_words(by, m->median), span_words(by, m->low), span_words(by, m->high),
          whole(by, m->count));
}

static void say_cause_count(const speaker *by, const cause_count *c)
{
    SPEAK(by, "  - ", CASES_COUNT_OF_CAUSE, cause_count_words(c), whole(by, c->count),
          whole(by, c->confirmed));
    say_spread(by, "      ", CASES_TIME_OF_CAUSE, &c->minutes);
}

void print_counts(const screen *s, const cases_counts *counts)
{
    const speaker by = {s, host_arena(), TO_AUTHORS};
    say_nothing(s);
    SPEAK(&by, "", CASES_COUNT, whole(&by, counts->all));
    for (int i = 0; i < TT_CASE_STATES; i++)
        if (counts->states[i] > (i == TT_CASE_CLOSED ? counts->done : 0))
            SPEAK(&by, "  - ", CASES_COUNT_OF, case_state_words(TO_AUTHORS, (tt_case_state)i),
                  whole(&by, counts->states[i] - (i == TT_CASE_CLOSED ? counts->done : 0)));
    if (counts->done > 0)
        SPEAK(&by, "  - ", CASES_COUNT_OF, catalogue_text(TO_AUTHORS, CASES_DONE),
              whole(&by, counts->done));
    if (counts->cause_count > 0) speak(&by, "", CASES_CAUSES);
    for (size_t i = 0; i < counts->cause_count; i++) say_cause_count(&by, &counts->causes[i]);
    say_spread(&by, "", CASES_TIME, &counts->minutes);
    if (counts->left_out > 0) SPEAK(&by, "", CASES_BAD_LINES, whole(&by, counts->left_out));
    arena_free(by.keep);
}
