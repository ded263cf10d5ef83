/* Help, made from the tables of verbs and options. */
#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "host/plain_text.h"
#include "host/screen.h"
#include "verb/verbs.h"

enum { LEAD_CELLS = 14 };

/* On wide screens beside each other, on narrow ones beneath. */
static void say_entry(const screen *s, const char *head, const char *text)
{
    size_t cells = strlen(head);
    if (s->width > 0 && s->width < 60) {
        say_item(s, "  ", "%s", head);
        say_item(s, "      ", "%s", text);
        return;
    }
    int gap = cells + 2 < LEAD_CELLS ? LEAD_CELLS - (int)cells - 2 : 2;
    char *lead = format_text("  %s%*s", head, gap, "");
    say_item(s, lead, "%s", text);
    free(lead);
}

static void say_option(const screen *s, const option_entry *option)
{
    char *letter = option->letter != 0 ? format_text("-%c, ", option->letter) : copy_text("");
    char *head = format_text("%s--%s%s%s", letter, option->name, option->value != NULL ? " " : "",
                             option->value != NULL ? option->value : "");
    char *padded = format_text("%-18s", head);
    say_entry(s, s->width > 0 && s->width < 60 ? head : padded, option->help);
    free(padded);
    free(head);
    free(letter);
}

void help_short(FILE *out)
{
    screen s = screen_on(out);
    say(&s, "telltale finds out what is wrong with a piece of equipment, by the rules of those who "
            "know it.");
    say_nothing(&s);
    say_command(&s, "telltale ask foam-line");
    say_command(&s, "telltale help");
}

void help_overview(void)
{
    screen s = screen_on(stdout);
    say(&s, "telltale finds out what is wrong with a piece of equipment, by the rules of those who "
            "know it.");
    say_nothing(&s);
    say(&s, "Examples");
    say_command(&s, "telltale ask foam-line");
    say_command(&s, "telltale rank foam-line answers.yaml --json");
    say_nothing(&s);
    say(&s, "Verbs");
    for (unsigned i = 0; i < verb_count; i++) say_entry(&s, verb_table[i].name, verb_table[i].help);
    say_nothing(&s);
    say(&s, "Options");
    for (int i = 0; i < OPTION_COUNT; i++)
        if (option_table[i].verbs == FOR_ALL) say_option(&s, &option_table[i]);
    say_nothing(&s);
    say(&s, "More about a verb: telltale help VERB. All of it: man telltale; how rules are "
            "written: man telltale-book");
    say(&s, "A fault of the program itself? Tell " TELLTALE_BUG_ADDRESS
            ": what you typed, what it said, and telltale --version");
}

/* "BOOK [CASE] ": what may be left out, in brackets; "" of a verb that takes no word. */
static const char *words_of(const verb_entry *verb, char *out, size_t room)
{
    size_t length = 0;
    unsigned number = 0;
    assert(room > 0);
    out[0] = 0;
    for (const char *at = verb->words; *at != 0; number++) {
        const int size = (int)strcspn(at, " ");
        const char *form = number < verb->least ? "%.*s " : "[%.*s] ";
        const int added = snprintf(out + length, room - length, form, size, at);
        assert(added > 0 && length + (size_t)added < room);
        length += (size_t)added;
        at += size + (at[size] == ' ');
    }
    return out;
}

void help_verb(const verb_entry *verb)
{
    screen s = screen_on(stdout);
    char words[64];
    say(&s, "telltale %s %s[OPTIONS]", verb->name, words_of(verb, words, sizeof words));
    say_nothing(&s);
    say(&s, "%c%s.", verb->help[0] - 'a' + 'A', verb->help + 1);
    say(&s, "%s", verb->more);
    say_nothing(&s);
    say(&s, "Example");
    say_command(&s, verb->example);
    say_nothing(&s);
    say(&s, "Options");
    for (int i = 0; i < OPTION_COUNT; i++)
        if ((option_table[i].verbs & verb->bit) != 0) say_option(&s, &option_table[i]);
}

exit_status verb_help(const command_line *line)
{
    if (line->count < 2) {
        help_overview();
        return EXIT_DONE;
    }
    const verb_entry *verb = verb_find(line->words[1]);
    if (verb == NULL) return EXIT_USAGE;
    help_verb(verb);
    return EXIT_DONE;
}
