/* What the records mean to this talk: who else works on the case, what they said, and what two said
 * differently. */
#include <string.h>

#include "talk/talk_turns.h"

/* ---- where a case that is taken up stands ---- */

/* How far somebody came in a fix that nobody has told of: what they locked or opened may still be
 * so. */
static void tell_begun_fix(tt_talk *t)
{
    const journal *j = talk_meaning(t);
    const uint32_t begun = journal_fix_begun(j);
    if (begun == NO_ENTRY) return;
    talk_news(t, TT_PART_LOCKED, OURS(t, TEXT_FIX_UNDER_WAY), talk_record_line(t, begun));
    for (uint32_t i = begun + 1; i < j->count; i++)
        if (j->entries[i].kind == RECORD_FIX_STEP &&
            strcmp(entry_text(j, i, "fix"), entry_text(j, begun, "fix")) == 0)
            talk_news(t, TT_PART_LOCKED, "", talk_record_line(t, i));
}

/* What was complained of, and what it points to. */
static void tell_trouble(tt_talk *t)
{
    const journal *j = talk_meaning(t);
    const tt_view *v = talk_see(t);
    for (uint32_t i = 0; i < j->count; i++)
        if (j->entries[i].kind == RECORD_COMPLAINT && entry_counts(j, i))
            talk_news(t, TT_PART_NOTE, "", SAY(t, TEXT_TROUBLE, entry_text(j, i, "text")));
    tell_earlier(t);
    if (v->cause_count == 0 || talk_answers(t) == 0) return;
    const char *leads = cause_words(t->tongue, &v->causes[0]);
    talk_news(t, TT_PART_NOTE, "",
              SAY(t, TEXT_POINTS_TO_ONE, leads, talk_percent(t, v->causes[0].chance)));
}

/* Whoever comes must know what is not as it was. */
static void tell_changes(tt_talk *t)
{
    const tt_tried *tried;
    uint32_t count;
    if (!talk_is_ok(t, tt_tried_fixes(t->c, &tried, &count))) return;
    for (uint32_t i = 0; i < count; i++) {
        if (*tried[i].setting != 0)
            talk_news(t, TT_PART_DIFFERENT, "", SAY(t, TEXT_DIFFERENT_ONE, tried[i].setting));
        if (*tried[i].put_back != 0)
            talk_news(t, TT_PART_PUT_BACK, "", SAY(t, TEXT_TO_PUT_BACK_ONE, tried[i].put_back));
    }
}

/* The last records that tell something, with a note that somebody left first. */
void talk_tell_standing(tt_talk *t)
{
    enum { LAST = 3 };
    const journal *j = talk_meaning(t);
    tell_trouble(t);
    if (j->note.entry != NO_ENTRY)
        talk_news(t, TT_PART_NOTE, OURS(t, TEXT_NOTE_LEFT), talk_record_line(t, j->note.entry));
    uint32_t told[LAST], count = 0;
    for (uint32_t i = j->count; i-- > 0 && count < LAST;)
        if (entry_counts(j, i) && i != j->note.entry) told[count++] = i;
    for (uint32_t i = count; i-- > 0;)
        talk_news(t, TT_PART_NOTE, i + 1 == count ? OURS(t, TEXT_LAST_DONE) : "",
                  talk_record_line(t, told[i]));
    tell_changes(t);
    tell_begun_fix(t);
}

/* ---- two who said different things ---- */
