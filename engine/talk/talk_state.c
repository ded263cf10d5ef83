/* What every part of a talk asks first: memory, ears, what the records mean, who speaks. */
#include <assert.h>
#include <string.h>

#include "base/unicode.h"
#include "session/session.h"
#include "talk/talk.h"

/* Whatever of the engine ran out of memory is left by the talk's own guard. */
void talk_check(tt_talk *t, tt_status status)
{
    if (status == TT_NO_MEMORY) arena_leave(t->scratch);
}

/* Without memory nobody knows whether it would be: a record is not left out, but played once more,
 * and nothing is told as if it weren't there. */
bool talk_is_ok(tt_talk *t, tt_status status)
{
    talk_check(t, status);
    return status == TT_OK;
}

/* Where memory ended nobody knows how much of the case was worked out. */
tt_status guarded_talk(tt_talk *t, tt_status (*work)(void *context), void *context)
{
    arena *all[] = {t->keep, t->shown, t->scratch, t->meant};
    const tt_status status = guarded(all, 4, work, context);
    if (status == TT_NO_MEMORY) {
        t->works_anew = true;
        t->meaning = NULL;
    }
    return status;
}

const listener *talk_ear(tt_talk *t)
{
    if (t->ear == NULL) t->ear = book_ear(t->book, t->keep, t->scratch);
    assert(t->ear != NULL);
    return t->ear;
}

const journal *talk_meaning(tt_talk *t)
{
    if (t->meaning != NULL) return t->meaning;
    arena_back_to(t->meant, (arena_mark){NULL, 0});
    t->meaning = journal_read(t->meant, t->records, t->record_count, NULL);
    return t->meaning;
}

const tt_value *talk_beginning(tt_talk *t)
{
    const journal *j = talk_meaning(t);
    return j->beginning != NO_ENTRY ? entry_data(j, j->beginning) : NULL;
}

/* Speakers are numbered as their names are ordered: 0 is the first, whoever that is. */
uint32_t talk_speaker(tt_talk *t, const char *writer)
{
    assert(writer != NULL);
    for (uint32_t i = 0; i < t->speaker_count; i++)
        if (strcmp(t->speakers[i], writer) == 0) return i;
    GROW(t->keep, t->speakers, t->speaker_count, t->speaker_room);
    t->speakers[t->speaker_count] = str_copy(t->keep, str_of(writer)).p;
    return t->speaker_count++;
}

/* "09:12", or "2026-11-25 09:12" if that is another day than this: by the clock of whoever reads
 * it. */
const char *talk_moment(tt_talk *t, const char *time)
{
    tt_moment then, now;
    if (!tt_moment_read(time, &then) || !tt_moment_read(t->now, &now)) return time;
    return moment_for_people(t->shown, then, now).p;
}

/* The one that was asked for last, whoever did. */
const char *talk_last_language(tt_talk *t)
{
    const journal *j = talk_meaning(t);
    for (uint32_t i = j->count; i > 0; i--)
        if (j->entries[i - 1].kind == RECORD_LANGUAGE && entry_data(j, i - 1) != NULL &&
            *entry_text(j, i - 1, "language") != 0)
            return entry_text(j, i - 1, "language");
    return value_text(talk_beginning(t), "language");
}

void stop_reading(tt_talk *t)
{
    assert(t->begun);
    if (t->doing.kind == ASIDE_READ) t->doing = t->before_reading;
    if (t->doing.kind == ASIDE_NOTE || t->doing.kind == ASIDE_TO)
        t->doing = (aside){.kind = ASIDE_NONE};
}

/* Records of others may hold what no screen should get. */
void talk_news(tt_talk *t, tt_part_kind kind, const char *title, const char *item)
{
    assert(title != NULL && item != NULL);
    GROW(t->keep, t->news, t->news_count, t->news_room);
    const char **items = ARENA_NEW(t->keep, const char *);
    *items = str_copy(t->keep, unicode_clean(t->scratch, str_of(item))).p;
    t->news[t->news_count++] = (tt_turn_part){
        .kind = kind, .title = str_copy(t->keep, str_of(title)).p, .items = items, .item_count = 1};
}

void talk_wrong(tt_talk *t, const char *code, const char *text)
{
    assert(*code != 0);
    t->wrong_code = str_copy(t->keep, str_of(code)).p;
    t->wrong = str_copy(t->keep, unicode_clean(t->scratch, str_of(text))).p;
}
