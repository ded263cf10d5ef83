/* Others who work on the same case: who has it, and what they did meanwhile. */
#include <stdlib.h>
#include <string.h>

#include "ask/ask.h"
#include "face/wordings.h"
#include "host/case_people.h"
#include "host/plain_text.h"
#include "host/reply_json.h"

/* "east (desk-3)"; freed by the caller. */
static char *person_words(const case_file *file, const case_record *record)
{
    const char *person = case_record_person(file, record), *place = case_record_place(file, record);
    return *place != 0 ? format_text("%s (%s)", person, place) : copy_text(person);
}

/* Says who has it since when; false if nobody has. */
static bool show_holders(ask *a)
{
    size_t index = 0;
    bool any = false, sure = false;
    for (const case_record *r; (r = case_next_holder(a->file, &index, &sure)) != NULL; any = true) {
        char *person = person_words(a->file, r), *since = moment_words(r->time);
        say_note(a, sure ? "Case %s is open elsewhere: %s, since %s."
                        : "Case %s was opened elsewhere and not left, as far as can be seen from here: %s, since %s.",
            case_file_number(a->file), person, since);
        free(since);
        free(person);
    }
    return any;
}

exit_status meet_others(ask *a, bool *views)
{
    static const char *const names[] = {"view", "join", "take-over"};
    static const char *const choices[] = {"Only view it", "Join: work on it together", "Take it over"};
    if (!show_holders(a)) return EXIT_DONE;
    int chosen = -1;
    while (chosen < 0 && a->leaving == STAYING) {
        ask_silently(a, "open-elsewhere", "This case is open elsewhere.");
        chosen = choose_one(a, names, choices, 3, 1 << WORD_STOP | 1 << WORD_HELP);
        if (chosen < 0 && a->leaving == STAYING) say_nothing(&a->s);
    }
    if (a->leaving == LEAVING_FAILED) return a->failure;
    *views = chosen == 0;
    if (chosen > 0) a->coming = chosen == 1 ? "join" : "take-over";
    if (chosen >= 0) return EXIT_DONE;
    complain("case %s is left as it is: others have it open", case_file_number(a->file));
    return EXIT_BUSY;
}

/* ---- records in words ---- */

static const char *text_in(const json_t *data, const char *key)
{
    const char *text = json_string_value(json_object_get(data, key));
    return text != NULL ? text : "";
}

static char *not_words(const tt_question *q, uint64_t options)
{
    char *words = copy_text("not");
    for (uint32_t i = 0, named = 0; i < q->option_count; i++) {
        if ((options >> i & 1) == 0) continue;
        char *longer = format_text("%s%s %s", words, named++ > 0 ? ", not" : "", q->options[i].text);
        free(words);
        words = longer;
    }
    return words;
}

char *words_of_reply(const tt_question *q, const tt_reply *reply)
{
    const char *unit = reply->unit != NULL ? reply->unit : q->unit;
    switch (reply->kind) {
    case TT_UNSURE: return copy_text("not sure");
    case TT_CANNOT: return copy_text("can't look there");
    case TT_ANSWER: return copy_text(q->options[reply->option].text);
    case TT_NUMBER: return format_text("%.10g%s%s", reply->number, *unit != 0 ? " " : "", unit);
    case TT_NOT: return not_words(q, reply->not_options);
    case TT_LIKELY: return copy_text("a guess");
    }
    return copy_text("");
}

char *answer_said(ask *a, const json_t *data)
{
    uint32_t question = tt_question_find(a->book.book, text_in(data, "question"));
    tt_question shown;
    tt_reply reply;
    if (question == TT_NONE || tt_question_show(a->c, question, &shown) != TT_OK)
        return copy_text(text_in(data, "typed"));
    double *weights = take_memory((shown.option_count + 1) * sizeof *weights);
    bool fits = reply_of_json(&shown, json_object_get(data, "reply"), weights, &reply);
    char *said = fits ? words_of_reply(&shown, &reply) : copy_text(text_in(data, "typed"));
    free(weights);
    return said;
}

static char *answer_words(ask *a, const json_t *data)
{
    uint32_t question = tt_question_find(a->book.book, text_in(data, "question"));
    tt_question shown;
    bool known = question != TT_NONE && tt_question_show(a->c, question, &shown) == TT_OK;
    char *said = answer_said(a, data);
    char *words = format_text("%s%s%s", known ? shown.ask : text_in(data, "question"), known ? " " : ": ", said);
    free(said);
    return words;
}

static char *complaint_words(ask *a, const json_t *data)
{
    tt_complaint *all = NULL;
    uint32_t count = 0, i = 0;
    const char *name = text_in(data, "symptom");
    if (tt_complaints(a->book.book, &all, &count) != TT_OK) count = 0;
    while (i < count && strcmp(all[i].name, name) != 0) i++;
    char *words = format_text("the trouble: %s", i < count ? all[i].text : name);
    free(all);
    return words;
}

static char *fix_words(ask *a, const json_t *data, const char *what)
{
    uint32_t fix = tt_fix_find(a->book.book, text_in(data, "fix"));
    tt_fix_plan plan;
    bool known = fix != TT_NONE && tt_fix_show(a->c, fix, &plan) == TT_OK;
    return format_text("%s: %s", known ? plan.text : text_in(data, "fix"), what);
}

static char *note_words(const char *what, const json_t *data)
{
    const char *note = text_in(data, "note"), *to = text_in(data, "to");
    return format_text("%s%s%s%s%s", what, *to != 0 ? " to " : "", to, *note != 0 ? ": " : "", note);
}

static char *tried_words(ask *a, const json_t *data)
{
    tt_outcome outcome = outcome_of_name(text_in(data, "outcome"));
    return fix_words(a, data, outcome <= TT_WORSE ? outcome_words(outcome) : "tried");
}

static char *coming_words(const json_t *data)
{
    const char *how = text_in(data, "how");
    return copy_text(strcmp(how, "join") == 0        ? "joined"
                     : strcmp(how, "take-over") == 0 ? "took the case over"
                                                     : "took the case up again");
}

char *record_words(ask *a, const case_record *record)
{
    const char *kind = record->kind;
    if (strcmp(kind, "answer") == 0) return answer_words(a, record->data);
    if (strcmp(kind, "complaint") == 0) return complaint_words(a, record->data);
    if (strcmp(kind, "tried") == 0) return tried_words(a, record->data);
    if (strcmp(kind, "put-back") == 0) return fix_words(a, record->data, "put back");
    if (strcmp(kind, "left") == 0) return fix_words(a, record->data, "left as it is now");
    if (strcmp(kind, "resume") == 0) return coming_words(record->data);
    if (strcmp(kind, "hold") == 0) return note_words("put the case on hold", record->data);
    if (strcmp(kind, "hand-over") == 0) return note_words("handed the case over", record->data);
    if (strcmp(kind, "back") == 0) return copy_text("took a step back");
    if (strcmp(kind, "settle") == 0) return copy_text("settled which answer is right");
    if (strcmp(kind, "close") == 0) return copy_text("closed the case");
    if (strcmp(kind, "begin") == 0) return copy_text("began the case");
    if (strcmp(kind, "stop") == 0) return copy_text("stopped");
    return copy_text(kind);
}

/* ---- meanwhile ---- */

static bool is_news(const case_file *file, const case_record *r, const json_t *seen)
{
    return strcmp(r->writer, case_file_writer(file)) != 0 &&
           (json_int_t)r->number > json_integer_value(json_object_get(seen, r->writer));
}

/* True if somebody took it over. */
static bool show_news(ask *a, const json_t *seen)
{
    bool taken = false, first = true;
    for (size_t i = 0; i < case_file_count(a->file); i++) {
        const case_record *r = case_file_record(a->file, i);
        if (!is_news(a->file, r, seen)) continue;
        if (first) {
            say_nothing(&a->s);
            say(&a->s, "Meanwhile:");
        }
        first = false;
        char *since = moment_words(r->time), *words = record_words(a, r);
        char *line = format_text("%s %s: %s", since, case_record_person(a->file, r), words);
        turn_add(a->turn, "meanwhile", json_string(line));
        say_item(&a->s, "  - ", "%s", line);
        free(line);
        free(words);
        free(since);
        taken = taken || (strcmp(r->kind, "resume") == 0 && strcmp(text_in(r->data, "how"), "take-over") == 0);
    }
    return taken;
}

static bool leaves_it_to_them(ask *a)
{
    static const char *const names[] = {"leave", "go-on"};
    static const char *const choices[] = {"Leave it to them", "Go on too"};
    int chosen = -1;
    while (chosen < 0 && a->leaving == STAYING) {
        say_nothing(&a->s);
        ask_for(a, "taken-over", "Somebody has taken this case over.");
        chosen = choose_one(a, names, choices, 2, 1 << WORD_KNOWN | 1 << WORD_STOP | 1 << WORD_HELP);
    }
    if (chosen == 0) ask_do_word(a, WORD_STOP, TT_NONE);
    return a->leaving != STAYING;
}

bool keep_up(ask *a)
{
    if (a->file == NULL || !case_file_is_open(a->file) || !case_file_has_news(a->file)) return true;
    json_t *seen = case_file_seen(a->file);
    note_failure(a, case_file_again(a->file));
    if (a->leaving == STAYING) replay_again(a);
    bool taken = a->leaving == STAYING && show_news(a, seen);
    json_decref(seen);
    return a->leaving == STAYING && !(taken && leaves_it_to_them(a));
}
