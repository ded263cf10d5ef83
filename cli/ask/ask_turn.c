/* A prompt as a turn: sent, and answered by a line of JSON. Until that is one, the turn is sent
 * again with what is wrong. */
#include <stdlib.h>

#include "ask/ask.h"
#include "face/standing_json.h"
#include "host/plain_text.h"

static json_t *cautions_now(ask *a)
{
    const tt_view *view = NULL;
    json_t *all = json_array();
    if (a->c == NULL || tt_look(a->c, &view) != TT_OK) return all;
    for (uint32_t i = 0; i < view->caution_count; i++)
        json_array_append_new(all, caution_json(&view->cautions[i]));
    return all;
}

void send_turn(ask *a)
{
    const char *number = a->file != NULL ? case_file_number(a->file) : NULL;
    if (!turn_send(a->turn, number, cautions_now(a))) note_failure(a, EXIT_IO);
    a->s = screen_on(a->turn->shown);
}

/* The rest of a line that is too long is no answer of its own. */
static line_got skip_line(ask *a)
{
    line_got got = GOT_LINE;
    while (a->input.cut && got == GOT_LINE) {
        char *rest = NULL;
        got = line_input_next(&a->input, &rest);
        free(rest);
    }
    return got;
}

static char *refusal_of_length(void)
{
    return format_text("That line is too long: an answer has at most %d bytes.", LINE_INPUT_ROOM);
}

/* One line of JSON, as what a person would have typed. Null: it was none, and the turn has been
 * sent again; or there is no more. */
static char *hear_answer(ask *a)
{
    char *line = NULL, *wrong = NULL, *typed = NULL;
    line_got got = line_input_next(&a->input, &line);
    bool cut = got == GOT_LINE && a->input.cut;
    if (cut) {
        wrong = refusal_of_length();
        got = skip_line(a);
    }
    note_input(a, got);
    if (got == GOT_LINE && !cut) typed = turn_answer(a->turn, line, &wrong);
    if (wrong != NULL && a->leaving == STAYING && !turn_send_again(a->turn, wrong))
        note_failure(a, EXIT_IO);
    free(wrong);
    free(line);
    return typed;
}

char *hear_turn(ask *a)
{
    char *typed = NULL;
    leaving before = a->leaving;
    send_turn(a);
    while (typed == NULL && a->leaving == before) typed = hear_answer(a);
    return typed;
}
