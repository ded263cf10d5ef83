/* A list of cases to be read, or read out, from top to bottom: one thing a line, each with its
 * name, no columns. */
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "face/cases.h"
#include "host/case_store.h"
#include "host/plain_text.h"
#include "show/case_fields.h"

static const char *const headings[TT_CASE_STATES] = {
    [TT_CASE_OPEN] = "open",
    [TT_CASE_ON_HOLD] = "on hold",
    [TT_CASE_WAITING] = "waiting for somebody who was called",
    [TT_CASE_CLOSED] = "closed, the trouble is gone",
    [TT_CASE_CALLED] = "closed, somebody was called",
    [TT_CASE_STOPPED] = "closed, stopped for safety",
    [TT_CASE_MADE_SAFE] = "closed, made safe",
    [TT_CASE_UNREADABLE] = "with nothing in it that can be read",
};

/* "2026-11-25 09:12", in the time of whoever reads it; freed by the caller. */
static char *moment_text(const char *written)
{
    tt_moment moment;
    struct tm local;
    char words[32];
    if (!tt_moment_read(written, &moment)) return copy_text(*written != 0 ? written : "an unknown time");
    time_t seconds = (time_t)(moment.milliseconds / 1000);
    if (localtime_r(&seconds, &local) == NULL || strftime(words, sizeof words, "%Y-%m-%d %H:%M", &local) == 0)
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
    if (*text != 0) say_item(s, "  ", "%s: %s", name, text);
}

static void say_complaint(const screen *s, const tt_case_summary *c)
{
    const char *words = *c->complaint != 0 ? c->complaint : c->complaint_name;
    if (*words != 0 && *c->said != 0)
        say_item(s, "  ", "Complaint: %s (said: %s)", words, c->said);
    else
        say_if(s, "Complaint", *words != 0 ? words : c->said);
}

static bool is_of_this_machine(const char *writer)
{
    char here[WRITER_SIZE];
    writer_of_this_machine(here);
    return strncmp(writer, here, strlen(here)) == 0;
}

static void say_note(const screen *s, const tt_case_summary *c)
{
    say_if(s, "For", c->to);
    if (*c->until != 0) {
        char *until = moment_text(c->until);
        say_if(s, "Until", until);
        free(until);
    }
    say_if(s, "Note", c->note);
}

/* Who has it since when, or who left it when. */
static void say_who(const screen *s, const tt_case_summary *c)
{
    if (*c->writer == 0) return;
    char *since = moment_text(c->since);
    const char *person = *c->person != 0                 ? c->person
                         : is_of_this_machine(c->writer) ? "somebody at this computer"
                                                         : c->writer;
    const char *open = *c->place != 0 ? " (" : "", *close = *c->place != 0 ? ")" : "";
    if (c->held)
        say_item(s, "  ", "With: %s%s%s%s, since %s", person, open, c->place, close, since);
    else
        say_item(s, "  ", "Left by: %s%s%s%s, %s", person, open, c->place, close, since);
    free(since);
}

static void say_open(const screen *s, const way_back *way, const case_summary *c)
{
    say_who(s, &c->says);
    say_note(s, &c->says);
    say_if(s, c->says.stands_is == TT_STANDS_NEXT ? "Next" : "Last step", stands_words(&c->says));
    say_item(s, "  ", "Answers: %u. Fixes tried: %u", c->says.answers, c->says.tried);
    say_item(s, "  ", "To go on, type:");
    char *command = go_on_command(way, &(go_on){.number = c->number});
    say_command(s, command);
    free(command);
}

static void say_cause(const screen *s, const tt_case_summary *c)
{
    const char *cause = *c->cause != 0 ? c->cause : c->cause_name;
    if (c->disputed)
        say_item(s, "  ", "Cause: to settle, different ones were named");
    else if (*cause != 0)
        say_item(s, "  ", "Cause: %s (%s)", cause, c->confirmed ? "confirmed" : "likely");
    else if (c->state == TT_CASE_CLOSED)
        say_item(s, "  ", "Cause: not kept");
}

static void say_closed(const screen *s, const tt_case_summary *c)
{
    char *ended = moment_text(c->ended);
    char *took = isnan(c->minutes) ? copy_text("") : span_text(c->minutes);
    say_item(s, "  ", "Ended: %s%s%s", ended, *took != 0 ? ", after " : "", took);
    free(took);
    free(ended);
    say_cause(s, c);
    say_note(s, c);
}

static void say_case(const screen *s, const way_back *way, const case_summary *c)
{
    const tt_case_summary *says = &c->says;
    char *began = moment_text(says->began);
    say_nothing(s);
    say(s, "Case %s, %s", c->number, headings[says->state]);
    if (*says->began != 0) say_item(s, "  ", "Began: %s", began);
    free(began);
    say_if(s, "Book", says->title);
    say_if(s, "Site", says->site);
    say_complaint(s, says);
    if (case_is_open(c))
        say_open(s, way, c);
    else if (says->state != TT_CASE_UNREADABLE)
        say_closed(s, says);
    if (c->left_out > 0)
        say_item(s, "  ", "Left out: %u lines that can't be used, in %s", c->left_out, c->folder);
    else if (says->state == TT_CASE_UNREADABLE)
        say_item(s, "  ", "Folder: %s", c->folder);
}

/* Those that ended first, so that those to work on stand at the end, where a terminal stops. */
void print_cases(const screen *s, const way_back *way, const case_list *list)
{
    for (int pass = 0; pass < 2; pass++)
        for (size_t i = 0; i < list->count; i++)
            if (case_is_open(&list->cases[i]) == (pass == 1)) say_case(s, way, &list->cases[i]);
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
    for (int i = 0; i < TT_CASE_STATES; i++)
        if (counts->states[i] > 0)
            say_item(s, "  - ", "%s: %zu", headings[i], counts->states[i]);
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
