/* Turns for programs: a line of JSON each. A reply that is wrong as such never reaches the
 * conversation: the same turn comes again, and says what is wrong. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "base/str.h"
#include "face/face.h"
#include "face/turn_blocks.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "show/catalogue.h"
#include "show/figures.h"
#include "show/json.h"
#include "show/turn_fields.h"

typedef struct json_lines {
    face face;
    arena *keep;       /* what stays: the moment that was given, and the beginning */
    uint32_t number;   /* of the turn that was sent last */
    bool heard;        /* a line was read */
    const char **told; /* cautions that were sent */
    uint32_t told_count, told_room;
} json_lines;

/* As running lines show it. */
static const char *text_of(json_lines *j, const tt_turn *turn)
{
    const blocks all =
        compose_turn(j->face.shown, turn, (compose_wishes){.telephone = j->face.telephone});
    text_builder b = {.keep = j->face.shown};
    for (uint32_t i = 0; i < all.count; i++) {
        const block *one = &all.items[i];
        if (!one->told_below) text_addf(&b, "%.*s%.*s\n", STR_ARG(one->lead), STR_ARG(one->text));
    }
    return b.length > 0 ? text_done(&b).p : "";
}

/* A caution is new once. */
static void note_cautions(json_lines *j, const tt_value *sent)
{
    const tt_value *cautions = value_get(sent, "cautions");
    for (uint32_t i = 0; cautions != NULL && i < cautions->count; i++) {
        if (!value_truth(&cautions->items[i], "new")) continue;
        GROW(j->keep, j->told, j->told_count, j->told_room);
        j->told[j->told_count++] = arena_copy(j->keep, value_text(&cautions->items[i], "text"));
    }
}

static void send_turn(json_lines *j, const tt_turn *turn, const reply_fault *fault)
{
    const face_about *about = &j->face.about;
    const turn_opening opening = {about->revision, about->site_revision};
    const bool is_wrong = *fault->code != 0;
    const turn_about beside = {.number = j->number,
                               .case_number = about->case_number,
                               .book = about->book,
                               .c = about->c,
                               .text = text_of(j, turn),
                               .cautions_told = j->told,
                               .cautions_told_count = j->told_count,
                               .opening = j->number == 1 ? &opening : NULL,
                               .wrong_code = is_wrong ? fault->code : NULL,
                               .wrong = is_wrong ? fault->text : NULL,
                               .status = about->status};
    const tt_value value = turn_value(j->face.shown, turn, &beside);
    const str line = json_write(j->face.shown, &value, JSON_DIGITS_SHOWN);
    fwrite(line.p, 1, line.n, j->face.out);
    fputc('\n', j->face.out);
    fflush(j->face.out);
    note_cautions(j, &value);
}

static bool refuse(reply_fault *fault, const char *code, const char *text)
{
    *fault = (reply_fault){code, text};
    return false;
}

/* False: *fault says what is wrong. */
static bool read_value(json_lines *j, const char *line, tt_value *said, reply_fault *fault)
{
    json_fault wrong;
    if (line == NULL)
        return refuse(
            fault, "too-long",
            FILL(j->face.shown, PROGRAM_TOO_LONG, count_words(j->face.shown, LINE_INPUT_ROOM)));
    if (json_read(j->face.shown, str_of(line), LINE_INPUT_ROOM, said, &wrong)) return true;
    return refuse(fault, "no-json",
                  FILL(j->face.shown, PROGRAM_UNREADABLE, str_copy(j->face.shown, wrong.text).p));
}

static bool take_beginning(json_lines *j, const tt_value *said, reply_fault *fault)
{
    beginning *b = &j->face.begun;
    if (!beginning_read(said, b, fault)) return false;
    b->case_id = arena_copy(j->keep, b->case_id);
    b->writer = arena_copy(j->keep, b->writer);
    b->now = arena_copy(j->keep, b->now);
    j->face.now = b->now;
    j->number = 0; /* its first turn comes anew */
    return true;
}

static bool take_reply(json_lines *j, const tt_turn *turn, const tt_value *said, tt_heard *reply,
                       reply_fault *fault)
{
    reply_read_out read;
    if (!reply_read_value(j->face.shown, turn, j->number, said, &read, fault)) return false;
    *reply = read.heard;
    if (read.now != NULL) j->face.now = arena_copy(j->keep, read.now);
    return true;
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
    j->number++;
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
    j->number++;
    arena_back_to(f->shown, (arena_mark){NULL, 0});
    send_turn(j, turn, &(reply_fault){"", ""});
    return ferror(f->out) == 0;
}

static void end(face *f)
{
    json_lines *j = (json_lines *)f;
    arena_free(j->keep);
    free(j);
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
    j->keep = host_arena();
    return &j->face;
}
