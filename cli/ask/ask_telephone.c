#include "ask/ask_telephone.h"

#include <stdlib.h>
#include <string.h>

#include "ask/spoken.h"
#include "host/plain_text.h"

bool on_telephone(const ask *a)
{
    return is_given(a->line, OPTION_TELEPHONE);
}

/* ---- reading aloud ---- */

/* "a; b; or c" */
static char *choices_aloud(const tt_question *question)
{
    char *all = copy_text("");
    for (uint32_t i = 0; i < question->option_count; i++) {
        const char *between = i == 0 ? "" : i + 1 == question->option_count ? "; or " : "; ";
        char *longer = format_text("%s%s%s", all, between, question->options[i].text);
        free(all);
        all = longer;
    }
    return all;
}

void show_read_aloud(ask *a, const tt_question *question)
{
    const char *aloud = *question->say != 0 ? question->say : question->ask;
    say(&a->s, "Say: \"%s\"", aloud);
    if (question->kind == TT_CHOICE) {
        char *choices = choices_aloud(question);
        say(&a->s, "\"Is it: %s?\"", choices);
        free(choices);
    }
}

double minutes_left(const tt_view *view)
{
    double minutes = 0, chances = 0;
    for (uint32_t i = 0; i < view->fix_count; i++) {
        if (view->fixes[i].standing == TT_OTHER_ROLE) continue;
        minutes += view->fixes[i].chance * view->fixes[i].minutes;
        chances += view->fixes[i].chance;
    }
    if (chances > 1) minutes /= chances;
    return minutes + (view->step == TT_ASK ? view->next.minutes : 0);
}

/* ---- answers that nobody asked for ---- */

/* "How does the foam look? Stiff" */
static char *said_back(ask *a, const spoken_part *part)
{
    tt_question question;
    tt_reply reply;
    const char *why = "";
    ask_word word = ask_word_of(part->answer);
    if (tt_question_show(a->c, part->question, &question) != TT_OK) return copy_text(part->said);
    if (word == WORD_UNSURE || word == WORD_CANNOT)
        reply = (tt_reply){.kind = word == WORD_UNSURE ? TT_UNSURE : TT_CANNOT};
    else if (tt_reply_read(a->c, part->question, part->answer, &reply, &why) != TT_OK)
        return copy_text(part->said);
    char *words = words_of_reply(&question, &reply);
    char *back = format_text("%s %s%s%s%s", question.ask, words, *why != 0 ? " (" : "", why,
                             *why != 0 ? ")" : "");
    free(words);
    return back;
}

static void answer_part(ask *a, const spoken_part *part)
{
    tt_question question;
    if (a->leaving != STAYING || tt_question_show(a->c, part->question, &question) != TT_OK) return;
    ask_take_answer(a, part->question, &question, part->answer);
}

/* What may be said to it: all is right, none is, or all but one. */
static int ask_whether_right(ask *a, char *const *backs, unsigned count)
{
    const char **choices = take_memory((count + 2) * sizeof *choices);
    unsigned offered = 2;
    choices[0] = "Yes, all of it";
    choices[1] = "No, leave it all out";
    for (unsigned i = 0; count > 1 && i < count; i++)
        choices[offered++] = format_text("All but this: %s", backs[i]);
    int chosen = NONE_OF_THEM;
    while (chosen == NONE_OF_THEM && a->leaving == STAYING) {
        say_nothing(&a->s);
        say_list(&a->s, "Say back:", (const char *const *)backs, count);
        for (unsigned i = 0; i < count; i++) turn_add(a->turn, "heard", json_string(backs[i]));
        ask_for(a, "heard", "Is that right?");
        chosen = choose_one(a, NULL, choices, offered, AT_ALL);
    }
    for (unsigned i = 2; i < offered; i++) free((char *)(uintptr_t)choices[i]);
    free(choices);
    return chosen;
}

/* Those understood are said back together. */
static void confirm_parts(ask *a, const spoken *all)
{
    char **backs = take_memory((all->count + 1) * sizeof *backs);
    const spoken_part **parts = take_memory((all->count + 1) * sizeof *parts);
    unsigned count = 0;
    for (unsigned i = 0; i < all->count; i++) {
        if (all->parts[i].question == TT_NONE) continue;
        parts[count] = &all->parts[i];
        backs[count++] = said_back(a, &all->parts[i]);
    }
    int chosen = ask_whether_right(a, backs, count);
    for (unsigned i = 0; i < count; i++) {
        if (chosen == 0 || (chosen >= 2 && (unsigned)chosen - 2 != i)) answer_part(a, parts[i]);
        free(backs[i]);
    }
    free(parts);
    free(backs);
}

static char *rest_of(const spoken *all)
{
    char *rest = copy_text("");
    for (unsigned i = 0; i < all->count; i++) {
        if (all->parts[i].question != TT_NONE) continue;
        char *longer = format_text("%s%s%s", rest, *rest != 0 ? ", " : "", all->parts[i].said);
        free(rest);
        rest = longer;
    }
    return rest;
}

bool take_spoken(ask *a, const char *line, uint32_t asked, char **rest)
{
    spoken all = spoken_read(a, line, asked);
    bool any = all.named > 0;
    char *left = rest_of(&all);
    if (any && *left != 0 && rest == NULL)
        say_note(a, "Not understood, or it fits several questions: %s", left);
    if (any) confirm_parts(a, &all);
    spoken_free(&all);
    if (rest != NULL)
        *rest = left;
    else
        free(left);
    return any;
}

bool take_aside(ask *a, const char *line)
{
    bool spoken = on_telephone(a) && a->c != NULL && *line != 0 && *line != ':';
    return spoken && (take_spoken(a, line, TT_NONE, NULL) || jump_to_spoken(a, line));
}

bool jump_to_spoken(ask *a, const char *line)
{
    uint32_t question = spoken_question(a, line);
    if (question != TT_NONE) a->jump = question;
    return question != TT_NONE;
}
