/* What every prompt shares: hearing a line, the words that always work, numbered choices. */
#include <assert.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "ask/ask_telephone.h"
#include "ask/record_texts.h"
#include "host/plain_text.h"

#define WORD_ENTRY(id, word, meaning) [id] = {word, meaning},
static const struct {
    const char *word, *meaning;
} word_table[WORD_NONE] = {WORD_TABLE(WORD_ENTRY)};

/* What people also type when they mean a word of ours. */
static const struct {
    const char *typed;
    ask_word meant;
} also_meant[] = {{"handover", WORD_HAND}, {"hand-over", WORD_HAND}, {"quit", WORD_STOP}, {"exit", WORD_STOP}, {"help", WORD_HELP}, {"not sure", WORD_UNSURE}, {"i'm not sure", WORD_UNSURE}, {"i am not sure", WORD_UNSURE}, {"don't know", WORD_UNSURE},
                  {"dont know", WORD_UNSURE}, {"i don't know", WORD_UNSURE}, {"can't tell", WORD_UNSURE}, {"i can't tell", WORD_UNSURE},
                  {"no idea", WORD_UNSURE}, {"can't", WORD_CANNOT}, {"i can't", WORD_CANNOT}};

ask_word ask_word_of(const char *line)
{
    char *plain = fold_text(*line == ':' ? line + 1 : line);
    unsigned i = 0;
    while (i < WORD_NONE && strcmp(word_table[i].word, plain) != 0) i++;
    for (unsigned k = 0; i == WORD_NONE && k < sizeof also_meant / sizeof also_meant[0]; k++)
        if (strcmp(also_meant[k].typed, plain) == 0) i = also_meant[k].meant;
    free(plain);
    return (ask_word)i;
}

void put_words(ask *a, unsigned offered)
{
    if (turn_has(a->turn, "words")) return;
    bool may_pass_on = (offered & 1u << WORD_STOP) != 0 && a->c != NULL && a->file != NULL;
    if (may_pass_on) offered |= 1u << WORD_HOLD | 1u << WORD_HAND; /* they work unoffered too */
    for (unsigned i = 0; i < WORD_NONE; i++)
        if ((offered & 1u << i) != 0)
            turn_add(a->turn, "words", json_string(word_table[i].word));
    turn_takes(a->turn, "answer");
    turn_takes(a->turn, "word");
}

void offer_words(ask *a, unsigned offered, uint32_t question)
{
    char *all = copy_text("Or type");
    bool first = true;
    for (unsigned i = 0; i < WORD_NONE; i++) {
        if ((offered & 1u << i) == 0) continue;
        tt_reply reply;
        const char *why;
        bool taken =
            question != TT_NONE && is_answer(a, question, word_table[i].word, &reply, &why);
        char *longer =
            format_text("%s%s %s%s", all, first ? ":" : ",", taken ? ":" : "", word_table[i].word);
        first = false;
        free(all);
        all = longer;
    }
    put_words(a, offered);
    say(&a->s, "%s", all);
    free(all);
}

void ask_silently(ask *a, const char *kind, const char *prompt)
{
    turn_put(a->turn, "kind", json_string(kind));
    turn_put(a->turn, "prompt", json_string(prompt));
}

void ask_for(ask *a, const char *kind, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *prompt = format_text_list(format, arguments);
    va_end(arguments);
    ask_silently(a, kind, prompt);
    say(&a->s, "%s", prompt);
    free(prompt);
}

void say_wrong(ask *a, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *why = format_text_list(format, arguments);
    va_end(arguments);
    turn_put(a->turn, "wrong", json_string(why));
    say(&a->s, "%s", why);
    free(why);
}

void say_note(ask *a, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *note = format_text_list(format, arguments);
    va_end(arguments);
    turn_add(a->turn, "notes", json_string(note));
    say(&a->s, "%s", note);
    free(note);
}

void note_input(ask *a, line_got got)
{
    if (got == GOT_END) a->leaving = LEAVING_ENDED;
    if (got == GOT_SIGNAL) a->leaving = LEAVING_SIGNAL;
    if (got == GOT_FAILURE) {
        complain("what you type can't be read: %s", strerror(errno));
        note_failure(a, EXIT_IO);
    }
}

char *hear(ask *a)
{
    char *line = NULL;
    if (a->turn != NULL) return hear_turn(a);
    say_prompt(&a->s, "> ");
    if (ferror(a->s.out) != 0) {
        note_failure(a, EXIT_IO);
        return NULL;
    }
    line_got got = line_input_next(&a->input, &line);
    if (got != GOT_LINE || !a->input.terminal) fprintf(a->s.out, "%s\n", line != NULL ? line : "");
    a->s = screen_on(a->s.out); /* the window may have another width by now */
    note_input(a, got);
    return line;
}

static void show_words(const ask *a)
{
    const bool begun = a->c != NULL; /* while the site is asked for, nothing is kept yet */
    say(&a->s, "Type the number beside your answer, or the answer itself. These words %s work:", begun ? "always" : "also");
    for (unsigned i = 0; i < WORD_NONE; i++) {
        if (!begun && i != WORD_STOP && i != WORD_HELP) continue;
        char *lead = format_text("  %-9s ", word_table[i].word);
        say_item(&a->s, lead, "%s", word_table[i].meaning);
        free(lead);
    }
    say(&a->s, "If one of them is also an answer, the answer counts: then put a colon before the "
               "word, like :stop.");
    if (begun && a->file != NULL) say(&a->s, "Every answer is kept at once. You can close this window at any time.");
}

void ask_do_word(ask *a, ask_word word, uint32_t question)
{
    say_nothing(&a->s);
    if (a->c == NULL && word != WORD_STOP && word != WORD_HELP) { /* the site comes first */
        bool no_answer = word == WORD_UNSURE || word == WORD_CANNOT;
        say_wrong(a, no_answer ? "That is no answer here." : "That can be done once the case has begun.");
        return;
    }
    switch (word) {
    case WORD_WHY:
        show_why(a, question);
        return;
    case WORD_KNOWN:
        show_known(a);
        return;
    case WORD_CHANGE:
        ask_change(a);
        return;
    case WORD_BACK:
        if (step_back(a)) say_note(a, "One step back.");
        else say_wrong(a, "There is no step to take back.");
        return;
    case WORD_STOP:
        keep_stop(a);
        if (a->leaving == STAYING) a->leaving = LEAVING_STOPPED;
        return;
    case WORD_HOLD:
        ask_hold(a);
        return;
    case WORD_HAND:
        ask_hand_over(a);
        return;
    case WORD_HELP:
        show_words(a);
        return;
    case WORD_UNSURE:
    case WORD_CANNOT:
        say_wrong(a, "That is no answer here.");
        return;
    case WORD_NONE:
        return;
    }
}

void show_choices(const ask *a, const char *const *choices, unsigned count)
{
    for (unsigned i = 0; i < count; i++) {
        char *lead = format_text("%3u. ", i + 1);
        say_item(&a->s, lead, "%s", choices[i]);
        free(lead);
    }
}

int choice_of(const char *line, const char *const *choices, unsigned count)
{
    char *end, *plain = fold_text(line);
    long number = strtol(plain, &end, 10);
    int found = -1;
    size_t length = strlen(plain);
    if (length > 0 && *end == 0) {
        found = number >= 1 && number <= (long)count ? (int)number - 1 : -1;
    } else if (length > 0) {
        for (unsigned i = 0; i < count; i++) {
            char *choice = fold_text(choices[i]);
            if (strncmp(choice, plain, length) == 0)
                found = found == -1 || choice[length] == 0 ? (int)i : -2;
            free(choice);
        }
    }
    free(plain);
    return found;
}

/* `of_nothing`: what an empty line means, or -1. */
static int hear_choice(ask *a, const char *const *choices, unsigned count, unsigned offered,
                       int of_nothing)
{
    char *line = hear(a);
    if (line == NULL) return DONE_INSTEAD;
    int chosen = -1;
    if (*line == 0) chosen = of_nothing;
    if (*line != 0 && *line != ':') chosen = choice_of(line, choices, count);
    ask_word word = chosen < 0 ? ask_word_of(line) : WORD_NONE;
    if (word == WORD_UNSURE) chosen = choice_of("not sure", choices, count); /* where that is a choice */
    if (word == WORD_CANNOT) chosen = choice_of("i could not do it", choices, count);
    if (word == WORD_CANNOT && chosen < 0) chosen = choice_of("i can't", choices, count);
    if (chosen >= 0) word = WORD_NONE;
    bool aside = chosen < 0 && word == WORD_NONE && offered == AT_FIX && take_aside(a, line);
    if (word == WORD_UNSURE && choice_of("no change", choices, count) >= 0)
        say_wrong(a, "Look once more. If you see no difference, that is no change.");
    else if (word != WORD_NONE)
        ask_do_word(a, word, TT_NONE);
    else if (chosen < 0 && !aside && count == 1)
        say_wrong(a, "That is none of the answers. Type 1, or one of the words.");
    else if (chosen < 0 && !aside)
        say_wrong(a, "That is none of the answers. Type a number from 1 to %u, or one of the words.",
                  count);
    free(line);
    if (chosen >= 0) return chosen;
    return word != WORD_NONE || aside ? DONE_INSTEAD : NONE_OF_THEM;
}

int choose_one(ask *a, const char *const *names, const char *const *choices, unsigned count,
               unsigned offered)
{
    assert(count > 0);
    turn_choices(a->turn, names, choices, count);
    show_choices(a, choices, count);
    offer_words(a, offered, TT_NONE);
    return hear_choice(a, choices, count, offered, -1);
}

int choose_or_first(ask *a, const char *const *choices, unsigned count, unsigned offered)
{
    assert(count > 0);
    show_choices(a, choices, count);
    say(&a->s, "Enter alone takes the first.");
    offer_words(a, offered, TT_NONE);
    return hear_choice(a, choices, count, offered, 0);
}
