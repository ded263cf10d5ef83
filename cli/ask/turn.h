/* The machine form of a guided case: each prompt goes out as a turn, one line of JSON, and one line
 * of JSON comes back as its answer. The steps are those of the terminal: what is shown there is
 * also put here, by name. docs/turn.schema.json describes both lines. Where a turn is null, as at a
 * terminal, these do nothing. */
#ifndef TT_CLI_TURN_H
#define TT_CLI_TURN_H

#include <jansson.h>
#include <stdbool.h>
#include <stdio.h>

typedef struct turn {
    FILE *out;             /* where turns go */
    json_t *now;           /* what the next one says */
    json_t *sent;          /* the last one, or null */
    json_t *cautions_sent; /* their texts are its keys */
    json_int_t number;     /* of the last one, from 1 */
    char *text;            /* what a terminal would have shown since, in `shown` */
    size_t length;
    FILE *shown;
} turn;

/* All that is said goes to `shown`, which is another one after each turn. */
turn *turn_new(FILE *out);
void turn_free(turn *t);

/* Takes over `value`. */
void turn_put(turn *t, const char *key, json_t *value);
bool turn_has(const turn *t, const char *key);
/* At the end of the list with this key. */
void turn_add(turn *t, const char *key, json_t *value);
/* What may be chosen, with names that stay the same in every language; null: they have none. */
void turn_choices(turn *t, const char *const *names, const char *const *texts, unsigned count);
/* Another way to answer: a key of an answer. */
void turn_takes(turn *t, const char *way);

/* Sends what was put together, with what is on every turn. False: it can't be written. */
bool turn_send(turn *t, const char *case_number, json_t *cautions);
/* The last one once more, with what is wrong with the answer. */
bool turn_send_again(turn *t, const char *wrong);

/* The line that a person would have typed for this answer to the last turn. Null: it is none, and
 * *wrong says why. Both are freed by the caller. */
char *turn_answer(const turn *t, const char *line, char **wrong);

#endif
