/* Turns for programs: a line of JSON each. A reply that is wrong as such never reaches the
 * conversation: the same turn comes again, and says what is wrong. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/str.h"
#include "face/face.h"
#include "face/turn_line.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "say/catalogue.h"
#include "show/figures.h"

typedef struct json_lines {
    face face;
    turn_lines lines; /* what it keeps: the moment that was given, and the beginning */
    bool heard;       /* a line was read */
} json_lines;

static void send_turn(json_lines *j, const tt_turn *turn, const reply_fault *fault)
{
    const str line = turn_as_line(&j->lines, j->face.shown, turn, &j->face.about, fault);
    fwrite(line.p, 1, line.n, j->face.out);
    fputc('\n', j->face.out);
    fflush(j->face.out);
}

/* False: *fault says what is wrong. */
static bool read_value(json_lines *j, const char *line, tt_value *said, reply_fault *fault)
{
    if (line != NULL) return reply_line_value(j->face.shown, str_of(line), said, fault);
    *fault = (reply_fault){"too-long", FILL(j->face.shown, TO_AUTHORS, PROGRAM_TOO_LONG,
                                            count_words(j->face.shown, LINE_INPUT_ROOM))};
    return false;
}

static bool take_beginning(json_lines *j, const tt_value *said, reply_fault *fault)
{
    beginning *b = &j->face.begun;
    if (!beginning_read(said, b, fault)) return false;
    b->case_id = arena_copy(j->lines.keep, b->case_id);
    b->writer = arena_copy(j->lines.keep, b->writer);
    b->now = arena_copy(j->lines.keep, b->now);
    j->face.now = b->now;
    j->lines.number = 0; /* its first turn comes anew */
    return true;
}

static void take_reply(json_lines *j, const tt_turn *turn, const tt_value *said, tt_heard *reply,
                       reply_fault *fault)
{
    const char *now = NULL;
    if (!reply_line_read(&j->lines, j->face.shown, turn, said, reply, &now, fault)) return;
    if (now != NULL) j->face.now = arena_copy(j->lines.keep, now);
}

/* One line; FACE_REPLY with a fault: it was none. */
static face_got hear_line(json_lines *j, const tt_turn *turn, tt_heard *reply, reply_fault *fault)
{
    tt_value said;
    const char *line;
    const face_got got = face_read_line(&j->face, &line);
    if (got != FACE_REPLY || !read_value(j, line, &said, fault)) return got;
    const bool begins = !j->heard && j->face.about.may_begin && is_beginning(&said);
    j->heard = true;
    if (begins) return take_beginning(j, &said, fault) ? FACE_BEGINS : FACE_REPLY;
    take_reply(j, turn, &said, reply, fault);
    return FACE_REPLY;
}

static face_got ask(face *f, const tt_turn *turn, tt_heard *reply)
{
    json_lines *j = (json_lines *)f;
    reply_fault fault = {"", ""};
    face_got got;
    j->lines.number++;
    j->lines.only_told = false;
    j->lines.telephone = f->telephone;
    do {
        send_turn(j, turn, &fault);
        arena_back_to(f->shown, (arena_mark){NULL, 0}); /* with what was wrong before */
        fault = (reply_fault){"", ""};
        got = hear_line(j, turn, reply, &fault);
    } while (got == FACE_REPLY && *fault.code != 0);
    return got;
}

static bool tell(face *f, const tt_turn *turn)
{
    json_lines *j = (json_lines *)f;
    j->lines.number++;
    j->lines.only_told = true;
    j->lines.telephone = f->telephone;
    arena_back_to(f->shown, (arena_mark){NULL, 0});
    send_turn(j, turn, &(reply_fault){"", ""});
    return ferror(f->out) == 0;
}

static void end(face *f)
{
    json_lines *j = (json_lines *)f;
    arena_free(j->lines.keep);
    free(j);
}

void json_lines_key(face *f, const char *key)
{
    ((json_lines *)f)->lines.key = key;
}

face *json_lines_new(FILE *out, line_input *input)
{
    json_lines *j = take_memory(sizeof *j);
    j->face = (face){.ask = ask,
                     .tell = tell,
                     .end = end,
                     .input = input,
                     .out = out,
                     .shown = host_arena(),
                     .about = {.case_number = "", .revision = "", .site_revision = ""}};
    j->lines.keep = host_arena();
    return &j->face;
}
