/* What a reply does: a choice by its id, a reading as such, several answers, or words. */

#include "session/session.h"
#include "talk/talk_replies.h"

static void take_number(tt_talk *t, double number, const char *unit)
{
    const tt_reply reply = {.kind = TT_NUMBER, .number = number, .unit = unit};
    if (!t->turn.takes.reading && !t->turn.takes.count)
        talk_wrong(t, "no-number-here", OURS(t, TEXT_NO_NUMBER_HERE));
    else
        answer_turn(t, talk_asked(t), &reply, "");
}

/* What it says is wrong stands beside it, for those who read lines and no files. */
static void put_complaint_of(tt_talk *t, value_builder *b, const tt_source *file)
{
    const uint32_t symptom = file_complaint(t->keep, t->scratch, t->book, file);
    if (symptom == NO_ID) return;
    value_put(b, "symptom", value_of_str(t->keep, t->book->book->symptoms[symptom].id.name));
    value_put_text(b, "complaint", tt_complaint_text(t->c, symptom));
}

/* Its text is kept: it says more than what came of it. */
static void take_file(tt_talk *t, const tt_source *file)
{
    value_builder b = value_map(t->keep);
    put_complaint_of(t, &b, file);
    value_put(&b, "name", value_of_str(t->keep, str_of(file->name)));
    value_put(&b, "text", value_of_str(t->keep, (str){file->bytes, file->length}));
    if (!keep_record(t, "answers", &b))
        talk_wrong(t, "no-answers", SAY(t, TEXT_NO_ANSWERS_FILE, file->name));
}

/* Whoever only looks may turn pages, and go; danger is heard from them, too. */
static void look_on(tt_talk *t, const tt_heard *heard)
{
    enum {
        READS = 1 << WORD_DANGER | 1 << WORD_WHY | 1 << WORD_KNOWN | 1 << WORD_CAUTIONS |
                1 << WORD_BACK | 1 << WORD_STOP | 1 << WORD_HELP
    };
    const bool enter = heard->choice == NULL && heard->words != NULL && *heard->words == 0;
    const char *id = heard->choice != NULL  ? heard->choice
                     : heard->words != NULL ? exactly_said(t, heard->words)
                                            : NULL;
    const talk_word word = id != NULL ? word_by_id(id) : WORD_NONE;
    if (enter)
        take_choice(t, "go-on");
    else if (id != NULL && (is_offered(t, id) || (word != WORD_NONE && (READS & 1u << word) != 0)))
        take_choice(t, id);
    else if (heard->words == NULL || !take_grave_words(t, heard->words))
        talk_wrong(t, "look-only", OURS(t, TEXT_LOOK_ONLY));
}

void hear_reply(tt_talk *t, const tt_heard *heard)
{
    if (t->turn.kind == TT_TURN_END) {
        take_words_at_end(t, heard->words);
        return;
    }
    if (speaks_otherwise(t, heard)) return;
    if (t->options.look_only && t->doing.kind == ASIDE_READ)
        look_on(t, heard);
    else if (heard->choice != NULL)
        take_choice(t, heard->choice);
    else if (heard->several_count > 0)
        take_several(t, heard->several, heard->several_count);
    else if (heard->number != NULL)
        take_number(t, *heard->number, heard->unit);
    else if (heard->answers != NULL)
        take_file(t, heard->answers);
    else if (heard->given_count > 0)
        take_given(t, heard->given, heard->given_count);
    else if (heard->words != NULL)
        take_words(t, heard->words, heard->unread);
    else
        nothing_such(t);
    take_mistaken(t);
}
