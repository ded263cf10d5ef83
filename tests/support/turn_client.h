/* A program that drives `ask --json` over two pipes, and knows nothing but docs/turn.schema.json:
 * each turn that comes must fit it. */
#ifndef TT_TESTS_TURN_CLIENT_H
#define TT_TESTS_TURN_CLIENT_H

#include <jansson.h>
#include <stdbool.h>
#include <stdio.h>
#include <sys/types.h>

typedef struct turn_client {
    pid_t pid;
    FILE *to, *from;
    json_t *schema;
    json_t *turn;     /* the last one */
    json_int_t turns; /* the number of the last one */
    unsigned lines;   /* how many came, those that were sent again too */
} turn_client;

/* `arguments` stand behind `ask --json`, for a shell; words are parted at line ends only. Reads the
 * first turn. */
void client_begin(turn_client *c, const char *arguments);
/* Of another verb that is held in turns: "drill". */
void client_begin_as(turn_client *c, const char *verb, const char *arguments);
/* Sends the line, and reads the next turn. */
void client_say(turn_client *c, const char *line);
/* The same for an answer, which must fit the schema. Takes it over. */
void client_answer(turn_client *c, json_t *answer);
bool client_is(const turn_client *c, const char *kind);
const char *client_text(const turn_client *c, const char *key); /* "" for null or none */
const char *client_wrong(const turn_client *c); /* the code of what is wrong; "" if nothing is */
bool client_takes(const turn_client *c, const char *way);
/* Reads a turn that comes without an answer. */
void client_wait(turn_client *c);
/* No more answers. The exit status, which the last turn must have told, and nothing behind it. */
int client_end(turn_client *c);

#endif
