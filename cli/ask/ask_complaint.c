/* How a case begins: what is wrong, in the person's own words or from the list, and confirmed. */
#include <stdlib.h>
#include <string.h>

#include "ask/ask_telephone.h"
#include "host/begin_case.h"
#include "host/plain_text.h"

enum { MOST_OFFERED = 4 };

static const char none_of_these[] = "None of these";

/* The texts of the complaints, "none of these" behind them. */
static const char **choices_of(const tt_complaint *all, uint32_t count)
{
    const char **choices = take_memory((count + 1) * sizeof *choices);
    for (uint32_t i = 0; i < count; i++) choices[i] = all[i].text;
    choices[count] = none_of_these;
    return choices;
}

static const char **names_of(const tt_complaint *all, uint32_t count)
{
    const char **names = take_memory((count + 1) * sizeof *names);
    for (uint32_t i = 0; i < count; i++) names[i] = all[i].name;
    names[count] = "none";
    return names;
}

static void confirm(ask *a, const tt_complaint *heard, uint32_t count, const char *said)
{
    if (count > MOST_OFFERED) count = MOST_OFFERED;
    const char **choices = choices_of(heard, count);
    choices[0] = "Yes";
    for (uint32_t i = 1; i < count; i++) choices[i] = format_text("No: %s", heard[i].text);
    if (count == 1) choices[count] = "No";
    const char **names = names_of(heard, count);
    int chosen = NONE_OF_THEM;
    const size_t steps = a->step_count; /* after a word that only tells something, it is asked once more */
    while ((chosen == NONE_OF_THEM || (chosen == DONE_INSTEAD && a->step_count == steps)) && a->leaving == STAYING) {
        say_nothing(&a->s);
        ask_for(a, "confirm", "Is it this: %s?", heard[0].text);
        chosen = choose_one(a, names, choices, count + 1, AT_ALL);
    }
    free(names);
    if (chosen == (int)count)
        say_note(a, "Then try other words, or type a number from the list.");
    else if (chosen >= 0)
        ask_complain_of(a, &heard[chosen], said);
    for (uint32_t i = 1; i < count; i++) free((char *)(uintptr_t)choices[i]);
    free(choices);
}

static bool is_heard(ask *a, const char *said)
{
    tt_complaint *heard = NULL;
    uint32_t count = 0;
    note_failure(a, status_of(tt_complaints_heard(a->book.book, said, &heard, &count)));
    free(heard);
    return count > 0;
}

static void not_heard(ask *a, const char *what)
{
    say_wrong(a, "%s", what);
    a->complaints_shown = true;
}

static void listen(ask *a, const char *said)
{
    tt_complaint *heard = NULL;
    uint32_t count = 0;
    note_failure(a, status_of(tt_complaints_heard(a->book.book, said, &heard, &count)));
    if (a->leaving == STAYING && count > 0)
        confirm(a, heard, count, said);
    else if (a->leaving == STAYING)
        not_heard(a, "These words are not in the list. Try other words, or type a number.");
    free(heard);
}

/* The number of a complaint, its name or its whole text; `count` for none of them; -1 for other
 * words. */
static int pick(const tt_complaint *all, uint32_t count, const char *line)
{
    char *plain = fold_text(line), *end;
    long number = strtol(plain, &end, 10);
    int picked = -1;
    if (*plain != 0 && *end == 0 && number >= 1 && number <= (long)count + 1)
        picked = (int)number - 1;
    for (uint32_t i = 0; picked < 0 && i <= count; i++) {
        char *text = fold_text(i < count ? all[i].text : none_of_these);
        if (strcmp(plain, text) == 0 || (i < count && strcmp(plain, all[i].name) == 0))
            picked = (int)i;
        free(text);
    }
    free(plain);
    return picked;
}

/* What of it is no complaint is told; the rest is heard. */
static void listen_to_rest(ask *a, char *rest)
{
    char *heard = copy_text(""), *at = NULL;
    for (char *part = strtok_r(rest, ",;", &at); part != NULL; part = strtok_r(NULL, ",;", &at)) {
        char *said = trim_text(part);
        if (is_heard(a, said)) {
            char *longer = format_text("%s%s%s", heard, *heard != 0 ? ", " : "", said);
            free(heard);
            heard = longer;
        } else if (*said != 0) {
            say_note(a, "Not understood, or it fits several questions: %s", said);
        }
        free(said);
    }
    if (*heard != 0 && a->leaving == STAYING) listen(a, heard);
    free(heard);
}

/* On the telephone answers may come with the complaint. Words that are a complaint are not held against the
 * questions, if they come alone. */
static void listen_beside(ask *a, const char *line)
{
    char *rest = NULL;
    bool spoken = on_telephone(a) && (strpbrk(line, ",;") != NULL || !is_heard(a, line));
    if (spoken && take_spoken(a, line, TT_NONE, &rest))
        listen_to_rest(a, rest);
    else if (!spoken || is_heard(a, line) || !jump_to_spoken(a, line))
        listen(a, line);
    free(rest);
}

static void take(ask *a, const tt_complaint *all, uint32_t count, const char *line)
{
    int picked = *line != ':' ? pick(all, count, line) : -1;
    ask_word word = picked < 0 ? ask_word_of(line) : WORD_NONE;
    if (word == WORD_UNSURE || word == WORD_CANNOT) {
        say_nothing(&a->s);
        say_wrong(a, "That is no answer here. If you can't say what is wrong, type %u.", count + 1);
        a->complaints_shown = true;
    } else if (word != WORD_NONE) {
        ask_do_word(a, word, TT_NONE);
        a->complaints_shown = word == WORD_HELP;
    } else if (picked == (int)count) {
        step_no_complaint(a);
    } else if (picked >= 0) {
        ask_complain_of(a, &all[picked], "");
    } else if (*line != 0) {
        listen_beside(a, line);
    }
}

void ask_complaint(ask *a)
{
    tt_complaint *all = NULL;
    uint32_t count = 0;
    note_failure(a, status_of(tt_complaints(a->book.book, &all, &count)));
    if (a->leaving == STAYING && count == 0) step_no_complaint(a);
    if (a->leaving == STAYING && count > 0) {
        const char **choices = choices_of(all, count);
        say_nothing(&a->s);
        const char **names = names_of(all, count);
        ask_for(a, "complaint", "What is wrong? Say it in your own words, or type a number.");
        if (a->complaints_shown && a->turn == NULL)
            say(&a->s, "Enter alone shows the list.");
        else
            show_choices(a, choices, count + 1);
        turn_choices(a->turn, names, choices, count + 1);
        free(names);
        offer_words(a, AT_ALL, TT_NONE);
        a->complaints_shown = false;
        char *line = hear(a);
        if (line != NULL) take(a, all, count, line);
        free(line);
        free(choices);
    }
    free(all);
}
