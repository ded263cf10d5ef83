/* A case that is taken up again: what has changed since, and where it stands. */
#include <stdlib.h>
#include <string.h>

#include "ask/ask.h"
#include "ask/ask_site.h"
#include "ask/case_replay.h"
#include "ask/record_texts.h"
#include "ask/turn_parts.h"
#include "face/show_standing.h"
#include "face/wordings.h"
#include "host/begin_case.h"
#include "host/case_people.h"
#include "host/case_skips.h"
#include "host/plain_text.h"


/* ---- what has changed ---- */

static void agree_to_changes(ask *a)
{
    static const char *const go_on[] = {NULL, "Go on with the rules as they are now",
                                        "Go on with the site as it is now",
                                        "Go on with both as they are now"};
    bool rules = strcmp(case_last_revision(a->file), a->book.revision) != 0, site = is_other_site(a);
    if (!rules && !site) return;
    static const char *const names[] = {"go-on", "stop"};
    const char *choices[] = {go_on[rules + 2 * site], "Stop here"};
    int chosen = -1;
    while (chosen < 0 && a->leaving == STAYING) {
        say_nothing(&a->s);
        ask_silently(a, "changed", choices[0]);
        if (rules) say_note(a, "The rules have changed since this case was last worked on.");
        if (site)
            say_note(a,
                     "What is said about the site has changed since this case was last worked on.");
        chosen = choose_one(a, names, choices, 2, 1 << WORD_STOP | 1 << WORD_HELP);
    }
    if (chosen == 1) a->leaving = LEAVING_STOPPED;
}

/* A closed case stays so, unless its last step was a mistake. What the cause was may be found out later. */
static void open_again(ask *a)
{
    static const char *const names[] = {"leave", "reopen", "say-cause"};
    static const char *const choices[] = {"Leave it closed", "Open it again and take its last step back",
                                          "Say what the cause was"};
    const tt_view *view = look(a);
    if (view == NULL) return;
    unsigned count = view->step == TT_CLOSED ? 3 : 2;
    show_summary(a);
    int chosen = -1;
    while (chosen < 0 && a->leaving == STAYING) {
        say_nothing(&a->s);
        ask_for(a, "closed", "This case is closed.");
        turn_standing(a);
        chosen = choose_one(a, names, choices, count, 1 << WORD_KNOWN | 1 << WORD_STOP | 1 << WORD_HELP);
    }
    if (a->leaving != STAYING) return;
    a->confirm_due = chosen == 2;
    if (chosen == 1)
        step_back(a);
    else
        a->leaving = LEAVING_CLOSED;
}

/* ---- where it stands ---- */

/* Adds a part to a line that is being made, with a mark between. */
static char *joined(char *line, const char *mark, char *part)
{
    char *longer = *line != 0 ? format_text("%s%s%s", line, mark, part) : copy_text(part);
    free(line);
    free(part);
    return longer;
}

static char *pieces_words(const ask *a, const tt_view *view)
{
    char *words = copy_text("");
    for (uint32_t i = 0; i < view->focus_count; i++)
        words = joined(words, ", ", copy_text(tt_piece_show(a->book.book, view->focus[i]).text));
    return words;
}

static void show_trouble(ask *a, const tt_view *view)
{
    char *words = copy_text(""), *pieces = pieces_words(a, view);
    for (size_t i = 0; i < a->step_count; i++) {
        if (a->steps[i].kind != STEP_COMPLAINT) continue;
        char *said = record_words(a, case_file_record(a->file, a->steps[i].record));
        const char *text = strchr(said, ':');
        words = joined(words, "; ", copy_text(text != NULL ? text + 2 : said));
        free(said);
    }
    say_item(&a->s, "Trouble: ", "%s%s%s", *words != 0 ? words : "nothing was said yet", *pieces != 0 ? "; at: " : "", pieces);
    free(pieces);
    free(words);
}

/* The last of them are the ones that somebody who has just come would ask about. */
static void show_answers(ask *a)
{
    enum { LAST = 3 };
    size_t count = 0, shown = 0;
    char *words = copy_text("");
    for (size_t i = 0; i < a->step_count; i++)
        count += a->steps[i].kind == STEP_ANSWER || a->steps[i].kind == STEP_CHANGED;
    for (size_t i = 0; i < a->step_count; i++) {
        bool answer = a->steps[i].kind == STEP_ANSWER || a->steps[i].kind == STEP_CHANGED;
        if (!answer || shown++ + LAST < count) continue;
        words = joined(words, "; ", record_words(a, case_file_record(a->file, a->steps[i].record)));
    }
    if (count > LAST) say_item(&a->s, "Answers: ", "%zu ('known' shows them), the last: %s", count, words);
    else say_item(&a->s, "Answers: ", "%s", count > 0 ? words : "none yet");
    free(words);
}

static void show_leading(ask *a, const tt_view *view)
{
    enum { MOST = 2 };
    char *words = copy_text("");
    for (uint32_t i = 0; i < view->cause_count && i < MOST; i++) {
        char *chance = percent_words(view->causes[i].chance);
        words = joined(words, "; ", format_text("%s (%s)", cause_words(&view->causes[i]), chance));
        free(chance);
    }
    if (view->all_ruled_out) words = joined(words, "; ", copy_text("the answers rule out every listed fault"));
    say_item(&a->s, "Points to: ", "%s", words);
    free(words);
}

static char *tried_words(const tt_tried *t)
{
    const char *end = t->under_way ? ", not finished" : t->was_put_back ? ", put back as found" : "";
    char *words = format_text("%s: %s%s", t->text, outcome_words(t->outcome), end);
    if (*t->setting != 0) words = joined(words, "; ", format_text("different from before: %s", t->setting));
    if (*t->put_back != 0) words = joined(words, "; ", format_text("to be put back: %s", t->put_back));
    return words;
}

static void show_tried_briefly(ask *a)
{
    const tt_tried *tried;
    uint32_t count;
    note_failure(a, status_of(tt_tried_fixes(a->c, &tried, &count)));
    if (a->leaving != STAYING) return;
    char *words = copy_text("");
    for (uint32_t i = 0; i < count; i++) words = joined(words, ". ", tried_words(&tried[i]));
    say_item(&a->s, "Tried: ", "%s", count > 0 ? words : "nothing yet");
    free(words);
}

/* The last record by which somebody came or went, before this window came. */
static const case_record *last_visit(const case_file *file)
{
    const case_record *last = NULL;
    for (size_t i = 0; i < case_file_count(file); i++) {
        const char *kind = case_file_record(file, i)->kind;
        if (is_case_step(kind) || strcmp(kind, "back") == 0 || strcmp(kind, "site") == 0) continue;
        last = case_file_record(file, i);
    }
    return last;
}

static void show_last_visit(ask *a)
{
    const case_record *last = last_visit(a->file);
    if (last == NULL) return;
    char *since = moment_words(last->time), *what = record_words(a, last);
    say_item(&a->s, "Last here: ", "%s %s: %s", since, case_record_person(a->file, last), what);
    free(what);
    free(since);
}

static void show_five_lines(ask *a)
{
    const tt_view *view = look(a);
    if (view == NULL) return;
    show_trouble(a, view);
    show_answers(a);
    show_leading(a, view);
    show_tried_briefly(a);
    show_last_visit(a);
}

static void keep_coming(ask *a)
{
    json_t *data = json_object();
    json_object_set_new(data, "revision", json_string(a->book.revision));
    if (is_other_site(a)) json_object_set_new(data, "site", site_record(a));
    add_site_title(a, data);
    if (a->coming != NULL) json_object_set_new(data, "how", json_string(a->coming));
    add_person(data, a->line->values[OPTION_NAME]);
    keep_note(a, "resume", data);
}

/* ---- danger, once more ---- */

static bool was_left_long(const case_file *file)
{
    enum { LONG_MINUTES = 30 };
    size_t count = case_file_count(file);
    return count > 0 && minutes_since(case_file_record(file, count - 1)->time) >= LONG_MINUTES;
}

static bool is_answered(const tt_view *view, uint32_t question)
{
    for (uint32_t i = 0; i < view->fact_count; i++)
        if (view->facts[i].question == question) return true;
    return false;
}

bool ask_danger_again(ask *a, const tt_view *view)
{
    if (a->danger_next == TT_NONE || view->step == TT_CLOSED) return false;
    tt_question shown;
    for (; tt_question_show(a->c, a->danger_next, &shown) == TT_OK; a->danger_next++) {
        uint32_t question = a->danger_next;
        if (!shown.gate || !is_answered(view, question)) continue;
        say_nothing(&a->s);
        say(&a->s, "It is a while since this was asked, so first:");
        if (ask_question(a, question)) a->danger_next++;
        return true;
    }
    a->danger_next = TT_NONE;
    return false;
}

void take_up_again(ask *a)
{
    bool looking = !case_file_is_open(a->file);
    say(&a->s, looking ? "Case %s, only viewed." : "Case %s is taken up again.", case_file_number(a->file));
    if (!looking) agree_to_changes(a);
    if (a->leaving != STAYING) return;
    if (!looking && case_is_closed(a->file)) open_again(a);
    if (a->leaving != STAYING) return;
    say_nothing(&a->s);
    show_five_lines(a);
    show_unsettled(a);
    turn_standing(a);
    if (!looking && was_left_long(a->file)) a->danger_next = 0;
    if (a->leaving == STAYING) keep_coming(a);
}
