/* One question: shown, answered, or changed later. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "ask/ask_telephone.h"
#include "ask/turn_parts.h"
#include "face/wordings.h"
#include "host/begin_case.h"
#include "host/plain_text.h"

void show_safety(const ask *a, const tt_safety *safety)
{
    const screen *s = &a->s;
    if (safety->hazard_count > 0)
        say_list(s, "Danger from:", safety->hazards, safety->hazard_count);
    if (*safety->unprotected_risk != 0 && strcmp(safety->unprotected_risk, safety->risk) != 0)
        say(s, "Risk: %s; with what follows: %s", safety->unprotected_risk, safety->risk);
    else if (*safety->unprotected_risk != 0)
        say(s, "Risk: %s", safety->risk);
    say_list(s, "Wear:", safety->protect, safety->protect_count); /* isolating may already let out air or product */
    if (safety->isolate_count > 0)
        say(s, safety->protect_count > 0 ? "Then switch off and lock, in this order:" : "First switch off and lock, in this order:");
    show_choices(a, safety->isolate, safety->isolate_count);
}

static unsigned answers_so_far(const ask *a)
{
    unsigned count = 0;
    for (size_t i = 0; i < a->step_count; i++) count += a->steps[i].kind == STEP_ANSWER;
    return count;
}

/* How a reading is typed. Units of dilution are a form (1:N), nothing to stand behind a number. */
static void show_unit(const ask *a, const char *unit, bool shown_before)
{
    if (strncmp(unit, "1:", 2) == 0)
        say(&a->s, "Type it such as 1:50, which is 1 part of product to 50 of water.");
    else if (strncmp(unit, "1 in", 4) == 0)
        say(&a->s, "Type it such as 1 in 50, which is 1 part of product in 50 of the mix.");
    else
        say(&a->s, "Type the number%s%s.%s", *unit != 0 ? " in " : "", unit,
            *unit != 0 && !shown_before ? " If you read another unit, type it too." : "");
}

static void show_options(const ask *a, const tt_question *question, bool shown_before)
{
    if (question->kind == TT_READING) show_unit(a, question->unit, shown_before);
    if (question->kind == TT_COUNT) say(&a->s, "Type how many.");
    for (uint32_t i = 0; i < question->option_count; i++) {
        char *lead = format_text("%3u. ", i + 1);
        say_item(&a->s, lead, "%s", question->options[i].text);
        free(lead);
    }
}

static void put_question(ask *a, uint32_t index, const tt_question *question)
{
    if (a->turn == NULL) return;
    bool number = question->kind == TT_READING || question->kind == TT_COUNT;
    turn_put(a->turn, "question", question_json(a, index, question));
    const char **names = take_memory((question->option_count + 1) * sizeof *names);
    const char **texts = take_memory((question->option_count + 1) * sizeof *texts);
    for (uint32_t i = 0; i < question->option_count; i++) {
        names[i] = question->options[i].name;
        texts[i] = question->options[i].text;
    }
    turn_choices(a->turn, names, texts, question->option_count);
    free(texts);
    free(names);
    if (number) turn_takes(a->turn, "reading");
}

static void show_number(ask *a)
{
    const tt_view *view = look(a);
    if (view == NULL || !on_telephone(a) || view->fix_count == 0) {
        say(&a->s, "Question %u", answers_so_far(a) + 1);
        return;
    }
    char *left = minutes_words(minutes_left(view));
    say(&a->s, "Question %u; expect %s more, or longer", answers_so_far(a) + 1, left);
    free(left);
}

static void show_question(ask *a, uint32_t index, const tt_question *question)
{
    bool shown_before = a->question_shown == index;
    say_nothing(&a->s);
    if (has_answer(a, index))
        say(&a->s, "Once more:");
    else
        show_number(a);
    if (on_telephone(a)) show_read_aloud(a, question);
    else say(&a->s, "%s", question->ask);
    ask_silently(a, "question", question->ask);
    if (!shown_before) {
        show_safety(a, &question->safety);
        if (*question->look != 0) say_item(&a->s, "  ", "%s", question->look);
        if (question->minutes >= 3) {
            char *minutes = minutes_words(question->minutes);
            say_item(&a->s, "  ", "This takes %s.", minutes);
            free(minutes);
        }
    }
    a->question_shown = index;
    show_options(a, question, shown_before);
    put_question(a, index, question);
    offer_words(a, AT_QUESTION, index);
}

static void answer(ask *a, uint32_t index, const tt_reply *reply, const char *typed,
                   const char *put_back)
{
    char *back = copy_text(put_back);
    if (!step_answer(a, index, reply, typed))
        say_wrong(a, "That does not fit this question.");
    else if (*back != 0)
        say_note(a, "Now put it back: %s", back);
    free(back);
}

static bool begins(const char *text, const char *start)
{
    char *folded = fold_text(text);
    size_t length = strlen(start);
    bool longer = strncmp(folded, start, length) == 0 && folded[length] != 0;
    free(folded);
    return longer;
}

bool is_answer(ask *a, uint32_t index, const char *line, tt_reply *reply, const char **why)
{
    tt_question question;
    *why = "";
    if (*line == ':' || tt_question_show(a->c, index, &question) != TT_OK) return false;
    if (tt_reply_read(a->c, index, line, reply, why) != TT_OK) return false;
    ask_word word = ask_word_of(line);
    if (word == WORD_NONE || reply->kind != TT_ANSWER) return true;
    assert(reply->option < question.option_count);
    const tt_option *option = &question.options[reply->option];
    char *plain = fold_text(line);
    bool shortened = begins(option->name, plain) || begins(option->text, plain);
    bool exact = strcmp(option->name, plain) == 0;
    free(plain);
    return exact || !shortened;
}

bool ask_take_answer(ask *a, uint32_t index, const tt_question *question, const char *line)
{
    tt_reply reply;
    const char *why;
    if (is_answer(a, index, line, &reply, &why)) {
        if (*why != 0) say_note(a, "%s", why);
        answer(a, index, &reply, line, question->put_back);
        return true;
    }
    ask_word word = ask_word_of(line);
    if (word == WORD_UNSURE || word == WORD_CANNOT) {
        reply = (tt_reply){.kind = word == WORD_UNSURE ? TT_UNSURE : TT_CANNOT};
        answer(a, index, &reply, line, word == WORD_UNSURE ? question->put_back : "");
        return true;
    }
    if (word != WORD_NONE) {
        ask_do_word(a, word, index);
        return true;
    }
    say_nothing(&a->s);
    say_wrong(a, "%s", *why != 0 ? why : "That is none of the answers.");
    return false;
}

/* On the telephone more may be said than was asked. A whole line that is an answer is that, if it names no
 * other question. */
static bool take_line(ask *a, uint32_t index, const tt_question *question, const char *line)
{
    tt_reply reply;
    const char *why;
    bool spoken = on_telephone(a) && *line != 0 && *line != ':' && ask_word_of(line) == WORD_NONE;
    bool several = spoken && strpbrk(line, ",;") != NULL;
    bool answers = spoken && !several && is_answer(a, index, line, &reply, &why);
    if (spoken && !answers) {
        if (take_spoken(a, line, index, NULL)) return true;
        if (!several && !is_answer(a, index, line, &reply, &why) && jump_to_spoken(a, line)) return true;
    }
    return ask_take_answer(a, index, question, line);
}

bool ask_question(ask *a, uint32_t index)
{
    tt_question question;
    note_failure(a, status_of(tt_question_show(a->c, index, &question)));
    if (a->leaving != STAYING) return true;
    show_question(a, index, &question);
    char *line = hear(a);
    bool done = line == NULL || take_line(a, index, &question, line);
    free(line);
    return done;
}
