/* Where a case stands, on demand; why a question is asked; cautions, each said once. */
#include <stdlib.h>
#include <string.h>

#include "ask/ask.h"
#include "ask/turn_parts.h"
#include "face/show_standing.h"
#include "face/wordings.h"
#include "host/begin_case.h"
#include "host/json_parts.h"
#include "host/plain_text.h"

enum { CAUSES_SHOWN = 5, FIXES_SHOWN = 5 };

const tt_view *look(ask *a)
{
    const tt_view *view = NULL;
    note_failure(a, status_of(tt_look(a->c, &view)));
    return view;
}

bool has_answer(ask *a, uint32_t question)
{
    const tt_view *view = look(a);
    for (uint32_t i = 0; view != NULL && i < view->fact_count; i++)
        if (view->facts[i].question == question) return true;
    return false;
}

void show_known(ask *a)
{
    const tt_view *view = look(a);
    if (view == NULL) return;
    if (a->turn != NULL) turn_put(a->turn, "known", known_json(a, view));
    show_focus(&a->s, a->book.book, view);
    show_facts_briefly(&a->s, a->c, view);
    say_nothing(&a->s);
    show_causes(&a->s, view, CAUSES_SHOWN);
    say_nothing(&a->s);
    show_fixes(&a->s, view, FIXES_SHOWN);
}

static void __attribute__((format(printf, 3, 4)))
say_reason(ask *a, const char *lead, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *reason = format_text_list(format, arguments);
    va_end(arguments);
    turn_add(a->turn, "why", json_string(reason));
    say_item(&a->s, lead, "%s", reason);
    free(reason);
}

static void show_bars(ask *a, const tt_view *view)
{
    const char *rival;
    const tt_bar *bars;
    uint32_t count;
    if (view->step == TT_STOP) {
        say_reason(a, "", "What was answered asks for this stop. 'known' shows it; if it was wrong, or is over, 'change' it.");
        return;
    }
    if (view->cause_count == 0 || tt_why_cause(a->c, 0, &rival, &bars, &count) != TT_OK) {
        say_reason(a, "", "The answers so far fit nothing that these rules list.");
        return;
    }
    say_reason(a, "", "Why rather this: %s", cause_words(&view->causes[0]));
    say_reason(a, "", "than this: %s", rival);
    for (uint32_t i = 0; i < count; i++) {
        if (bars[i].decibels == 0) continue;
        say_reason(a, "  - ", "%s: %s sign %s it", bars[i].text, bars[i].strength,
                   bars[i].decibels > 0 ? "for" : "against");
    }
}

static void show_lines(ask *a, const tt_reason *reasons, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) say_reason(a, "  ", "%s", reasons[i].text);
}

void show_why(ask *a, uint32_t question)
{
    const tt_view *view = look(a);
    if (view == NULL) return;
    if (question == TT_NONE) {
        show_bars(a, view);
        return;
    }
    const tt_reason *lines;
    uint32_t count;
    note_failure(a, status_of(tt_why_asked(a->c, question, &lines, &count)));
    if (a->leaving == STAYING) show_lines(a, lines, count);
}

static bool was_shown(const ask *a, const char *text)
{
    for (size_t i = 0; i < a->caution_count; i++)
        if (strcmp(a->cautions_shown[i], text) == 0) return true;
    return false;
}

void show_new_cautions(ask *a, const tt_view *view)
{
    for (uint32_t i = 0; i < view->caution_count; i++) {
        const tt_caution *caution = &view->cautions[i];
        if (was_shown(a, caution->text)) continue;
        a->cautions_shown =
            room_for_one(a->cautions_shown, a->caution_count, sizeof *a->cautions_shown);
        a->cautions_shown[a->caution_count++] = copy_text(caution->text);
        say_nothing(&a->s);
        show_caution(&a->s, caution);
    }
}

static void put_book(ask *a, const tt_book_info *info)
{
    if (a->turn == NULL) return;
    json_t *book = book_json(&a->book);
    json_object_set_new(book, "cautions", texts_json(info->cautions, info->caution_count));
    turn_put(a->turn, "rulebook", book);
}

void show_book_cautions(ask *a)
{
    tt_book_info info = tt_book_describe(a->book.book);
    a->cautions_seen = true;
    put_book(a, &info);
    say(&a->s, "%s", info.title);
    if (info.caution_count == 0) return;
    say_nothing(&a->s);
    say_list(&a->s, "Before you begin:", info.cautions, info.caution_count);
}
