/* A turn as a line, and a line as a reply. */
#include "face/turn_line.h"

#include <assert.h>

#include "base/grow.h"
#include "base/value.h"
#include "face/turn_blocks.h"
#include "say/catalogue.h"
#include "show/json.h"
#include "show/turn_fields.h"

/* As running lines show it. */
static const char *text_of(const turn_lines *lines, arena *shown, const tt_turn *turn)
{
    const blocks all = compose_turn(shown, turn, (compose_wishes){.telephone = lines->telephone});
    text_builder b = {.keep = shown};
    for (uint32_t i = 0; i < all.count; i++) {
        const block *one = &all.items[i];
        if (!one->told_below) text_addf(&b, "%.*s%.*s\n", STR_ARG(one->lead), STR_ARG(one->text));
    }
    return b.length > 0 ? text_done(&b).p : "";
}

/* A caution is new once. */
static void note_cautions(turn_lines *lines, const tt_value *sent)
{
    const tt_value *cautions = value_get(sent, "cautions");
    for (uint32_t i = 0; cautions != NULL && i < cautions->count; i++) {
        if (!value_truth(&cautions->items[i], "new")) continue;
        GROW(lines->keep, lines->told, lines->told_count, lines->told_room);
        lines->told[lines->told_count++] =
            str_copy(lines->keep, str_of(value_text(&cautions->items[i], "text"))).p;
    }
}

str turn_as_line(turn_lines *lines, arena *shown, const tt_turn *turn, const face_about *about,
                 const reply_fault *fault)
{
    assert(lines != NULL && turn != NULL && lines->number > 0);
    const turn_opening opening = {about->revision, about->site_revision};
    const bool is_wrong = *fault->code != 0;
    const turn_about beside = {.number = lines->number,
                               .key = lines->key,
                               .case_number = about->case_number,
                               .book = about->book,
                               .c = about->c,
                               .only_told = lines->only_told,
                               .text = text_of(lines, shown, turn),
                               .cautions_told = lines->told,
                               .cautions_told_count = lines->told_count,
                               .opening = lines->number == 1 ? &opening : NULL,
                               .wrong_code = is_wrong ? fault->code : NULL,
                               .wrong = is_wrong ? fault->text : NULL,
                               .status = about->status};
    const tt_value value = turn_value(shown, turn, &beside);
    note_cautions(lines, &value);
    return json_write(shown, &value, JSON_DIGITS_SHOWN);
}

bool reply_line_value(arena *shown, str line, tt_value *said, reply_fault *fault)
{
    json_fault wrong;
    if (json_read(shown, line, LINE_INPUT_ROOM, said, &wrong)) return true;
    *fault = (reply_fault){
        "no-json", FILL(shown, TO_AUTHORS, PROGRAM_UNREADABLE, str_copy(shown, wrong.text).p)};
    return false;
}

bool reply_line_read(const turn_lines *lines, arena *shown, const tt_turn *turn,
                     const tt_value *said, tt_heard *reply, const char **now, reply_fault *fault)
{
    reply_read_out read;
    assert(said != NULL);
    if (!reply_read_value(shown, turn, lines->number, said, &read, fault)) return false;
    *reply = read.heard;
    *now = read.now;
    return true;
}
