/* Linear text for people: wrapped at the terminal's width, never wrapped when it goes elsewhere. No
 * colour, no cursor movement, nothing redrawn. Whatever is shown is cleaned first. */
#ifndef TT_CLI_SCREEN_H
#define TT_CLI_SCREEN_H

#include <stdbool.h>
#include <stdio.h>

typedef struct screen {
    FILE *out;
    unsigned width;  /* in cells; 0: lines as long as they come */
    unsigned height; /* in rows; 0: no end */
    bool terminal;
} screen;

screen screen_on(FILE *out);
/* From now on what goes to standard output is shown on this terminal later; -1: it is there at
 * once. */
void screen_behind(int terminal);

/* A paragraph; an item whose further lines stand `hang` cells in, after `lead` ("  1  "). */
void say(const screen *s, const char *format, ...) __attribute__((format(printf, 2, 3)));
void say_item(const screen *s, const char *lead, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
void say_nothing(const screen *s); /* an empty line */
/* One item a line, each with a dash, under a heading; nothing at all if there are none. */
void say_list(const screen *s, const char *heading, const char *const *items, unsigned count);
/* As it stands, on a line of its own: commands to be pasted. */
void say_command(const screen *s, const char *command);
/* Without an end of line, for prompts. */
void say_prompt(const screen *s, const char *text);

/* On standard error, begins with the program's name. */
void complain(const char *format, ...) __attribute__((format(printf, 1, 2)));
/* From now on what this thread complains of goes behind this text (freed by whoever takes it; null:
 * nothing yet), to be shown when its turn has come; `text` null: it is shown at once. */
void complaints_kept(char **text);

#endif
