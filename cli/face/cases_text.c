/* A list of cases to be read, or read out, from top to bottom: one thing a line, each with its
 * name, no columns. */
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "face/cases.h"
#include "host/case_store.h"
#include "host/case_scan.h"
#include "host/plain_text.h"

/* "2026-11-25 09:12", in the time of whoever reads it; freed by the caller. */
static char *moment_text(const char *written)
{
    int64_t moment;
    struct tm local;
    char words[32];
    if (written == NULL || !moment_read(written, strlen(written), &moment))
        return copy_text(written != NULL ? written : "an unknown time");
    time_t seconds = (time_t)(moment / 1000);
    if (localtime_r(&seconds, &local) == NULL ||
        strftime(words, sizeof words, "%Y-%m-%d %H:%M", &local) == 0)
        return copy_text(written);
    return copy_text(words);
}

/* "12 minutes", "2 h 5 min", "3 days 4 h"; freed by the caller. */
static char *span_text(double minutes)
{
    if (minutes < .95) return copy_text("under a minute");
    if (minutes < 9.95) return format_text("%.1f min", minutes);
    long whole = lround(minutes);
    if (whole < 60) return format_text("%ld min", whole);
    if (whole < 24 * 60) return format_text("%ld h %ld min", whole / 60, whole % 60);
    return format_text("%ld d %ld h", whole / (24 * 60), whole / 60 % 24);
}

static void say_if(const screen *s, const char *name, const char *text)
{
    if (text != NULL) say_item(s, "  ", "%s: %s", name, text);
}

static void say_complaint(const screen *s, const case_summary *c)
{
    const char *words = c->complaint != NULL ? c->complaint : c->complaint_name;
    if (words != NULL && c->said != NULL)
        say_item(s, "  ", "Complaint: %s (said: %s)", words, c->said);
    else
        say_if(s, "Complaint", words != NULL ? words : c->said);
}

static bool is_of_this_machine(const char *writer)
{
    char here[WRITER_SIZE];
    writer_of_this_machine(here);
    return strncmp(writer, here, strlen(here)) == 0;
}

/* Who has it since when, or who left it when. */
static void say_who(const screen *s, const case_summary *c)
{
    if (c->writer == NULL) return;
    char *since = moment_text(c->since);
    const char *person = c->person != NULL               ? c->person
                         : is_of_this_machine(c->writer) ? "somebody at this computer"
                                                         : c->writer;
    const char *place = c->place != NULL ? c->place : "";
    const char *open = *place != 0 ? " (" : "", *close = *place != 0 ? ")" : "";
    if (c->held)
        say_item(s, "  ", "With: %s%s%s%s, since %s", person, open, place, close, since);
    else
        say_item(s, "  ", "Left by: %s%s%s%s, %s", person, open, place, close, since);
    say_if(s, "For", c->to);
    say_if(s, "Note", c->note);
    free(since);
}

static void say_open(const screen *s, const way_back *way, const case_summary *c)
{
    say_who(s, c);
    say_if(s, c->stands_next ? "Next" : "Last step", c->stands);
    say_item(s, "  ", "Answers: %u. Fixes tried: %u", c->answers, c->tried);
    say_item(s, "  ", "To go on, type:");
    char *command = go_on_command(way, &(go_on){.number = c->number});
    say_command(s, command);
    free(command);
}

static void say_closed(const screen *s, const case_summary *c)
{
    char *ended = moment_text(c->ended);
    char *took = isnan(c->minutes) ? copy_text("") : span_text(c->minutes);
    say_item(s, "  ", "Ended: %s%s%s", ended, *took != 0 ? ", after " : "", took);
    free(took);
    free(ended);
    if (c->state != CASE_CLOSED) return;
    const char *cause = c->cause != NULL ? c->cause : c->cause_name;
    say_item(s, "  ", "Cause: %s%s", cause != NULL ? cause : "not kept",
             c->confirmed    ? " (confirmed)"
             : cause != NULL ? " (likely)"
                             : "");
}

static void say_case(const screen *s, const way_back *way, const case_summary *c)
{
    char *began = moment_text(c->began);
    say_nothing(s);
    say(s, "Case %s, %s", c->number, state_headings[c->state]);
    if (c->began != NULL) say_item(s, "  ", "Began: %s", began);
    free(began);
    say_if(s, "Book", c->title);
    say_if(s, "Site", c->site);
    say_complaint(s, c);
    if (c->state == CASE_OPEN || c->state == CASE_ON_HOLD)
        say_open(s, way, c);
    else if (c->state != CASE_UNREADABLE)
        say_closed(s, c);
    if (c->left_out > 0)
        say_item(s, "  ", "Left out: %u lines that can't be used, in %s", c->left_out, c->folder);
    else if (c->state == CASE_UNREADABLE)
        say_item(s, "  ", "Folder: %s", c->folder);
}

/* Those that ended first, so that those to work on stand at the end, where a terminal stops. */
void print_cases(const screen *s, const way_back *way, const case_list *list)
{
    for (int pass = 0; pass < 2; pass++)
        for (size_t i = 0; i < list->count; i++) {
            bool open = list->cases[i].state == CASE_OPEN || list->cases[i].state == CASE_ON_HOLD;
            if (open == (pass == 1)) say_case(s, way, &list->cases[i]);
        }
}

static void say_spread(const screen *s, const char *lead, const char *what, const minutes_spread *m)
{
    if (m->count == 0) return;
    char *low = span_text(m->low), *median = span_text(m->median), *high = span_text(m->high);
    say_item(s, lead, "%s: median %s, quartiles %s and %s (of %zu)", what, median, low, high,
             m->count);
    free(high);
    free(median);
    free(low);
}

void print_counts(const screen *s, const cases_counts *counts)
{
    say_nothing(s);
    say(s, "Cases: %zu", counts->all);
    for (int i = 0; i < CASE_STATES; i++)
        if (counts->states[i] > 0)
            say_item(s, "  - ", "%s: %zu", state_headings[i], counts->states[i]);
    if (counts->cause_count > 0) say(s, "What it was, where the trouble is gone:");
    for (size_t i = 0; i < counts->cause_count; i++) {
        const cause_count *c = &counts->causes[i];
        say_item(s, "  - ", "%s: %zu, %zu of them confirmed", cause_count_words(c), c->count,
                 c->confirmed);
        say_spread(s, "      ", "time", &c->minutes);
    }
    say_spread(s, "", "From the beginning until the trouble was gone", &counts->minutes);
    if (counts->left_out > 0) say(s, "Lines that can't be used: %zu", counts->left_out);
}
