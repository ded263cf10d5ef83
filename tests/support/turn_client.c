#include "turn_client.h"

#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#include "json_schema.h"

static void start(turn_client *c, const char *command)
{
    int in[2], out[2];
    assert_int_equal(pipe(in), 0);
    assert_int_equal(pipe(out), 0);
    c->pid = fork();
    assert_true(c->pid >= 0);
    if (c->pid == 0) {
        dup2(in[0], STDIN_FILENO);
        dup2(out[1], STDOUT_FILENO);
        for (unsigned i = 0; i < 2; i++) {
            close(in[i]);
            close(out[i]);
        }
        execl("/bin/sh", "sh", "-c", command, (char *)NULL);
        _exit(127);
    }
    close(in[0]);
    close(out[1]);
    c->to = fdopen(in[1], "w");
    c->from = fdopen(out[0], "r");
}

/* The next line, which must be a turn; false if there is none. */
static bool read_turn(turn_client *c)
{
    char *line = NULL;
    size_t room = 0;
    ssize_t length = getline(&line, &room, c->from);
    if (length < 0) {
        free(line);
        return false;
    }
    assert_int_equal(line[length - 1], '\n');
    json_decref(c->turn);
    c->turn = json_loads(line, JSON_REJECT_DUPLICATES, NULL);
    if (c->turn == NULL || !fits_schema(c->schema, c->turn)) fail_msg("no turn: %s", line);
    free(line);
    const json_int_t number = json_integer_value(json_object_get(c->turn, "turn"));
    const bool again =
        number == c->turns && *client_wrong(c) != 0; /* the reply was wrong as such */
    assert_true(again || number == c->turns + 1);
    c->turns = number;
    c->lines++;
    return true;
}

void client_begin(turn_client *c, const char *arguments)
{
    client_begin_as(c, "ask", arguments);
}

void client_begin_as(turn_client *c, const char *verb, const char *arguments)
{
    char command[4096];
    *c = (turn_client){.schema = json_load_file(TT_SOURCE_DIR "/docs/turn.schema.json", 0, NULL)};
    assert_non_null(c->schema);
    signal(SIGPIPE, SIG_IGN);
    int length = snprintf(command, sizeof command, "IFS='\n'; exec '%s' %s --json %s 2>client-err",
                          TT_PROGRAM, verb, arguments);
    assert_in_range(length, 1, sizeof command - 1);
    start(c, command);
    assert_true(read_turn(c));
}

void client_say(turn_client *c, const char *line)
{
    fprintf(c->to, "%s\n", line);
    fflush(c->to);
    assert_true(read_turn(c));
}

void client_answer(turn_client *c, json_t *answer)
{
    assert_true(fits_definition(c->schema, "reply", answer));
    char *line = json_dumps(answer, JSON_COMPACT);
    client_say(c, line);
    free(line);
    json_decref(answer);
}

void client_wait(turn_client *c)
{
    assert_true(read_turn(c));
}

bool client_is(const turn_client *c, const char *kind)
{
    return strcmp(client_text(c, "kind"), kind) == 0;
}

const char *client_text(const turn_client *c, const char *key)
{
    const char *text = json_string_value(json_object_get(c->turn, key));
    return text != NULL ? text : "";
}

const char *client_wrong(const turn_client *c)
{
    const char *code =
        json_string_value(json_object_get(json_object_get(c->turn, "wrong"), "code"));
    return code != NULL ? code : "";
}

bool client_takes(const turn_client *c, const char *way)
{
    size_t i;
    const json_t *taken;
    json_array_foreach(json_object_get(c->turn, "takes"), i,
                       taken) if (strcmp(json_string_value(taken), way) == 0) return true;
    return false;
}

int client_end(turn_client *c)
{
    int status;
    fclose(c->to);
    while (read_turn(c)) {
    }
    fclose(c->from);
    assert_int_equal(waitpid(c->pid, &status, 0), c->pid);
    assert_true(client_is(c, "end"));
    if (WIFEXITED(status))
        assert_int_equal(json_integer_value(json_object_get(c->turn, "status")),
                         WEXITSTATUS(status));
    json_decref(c->schema);
    json_decref(c->turn);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}
