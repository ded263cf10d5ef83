/* What the records mean to this talk: who else works on the case, what they said, and what two said
 * differently. */
#include <assert.h>
#include <string.h>

#include "base/unicode.h"
#include "talk/talk.h"

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

/* ---- records in words ---- */

static const char *text_in(const tt_value *data, const char *key)
{
    const char *text = value_text(data, key);
    return text != NULL ? text : "";
}

static const char *said_words(tt_talk *t, const tt_value *data)
{
    const uint32_t question = tt_question_find(t->book, text_in(data, "question"));
    tt_reply reply;
    const tt_question q = question != TT_NONE ? talk_question(t, question)
                                              : (tt_question){.ask = text_in(data, "asked")};
    const bool known =
        question != TT_NONE && reply_of_value(t->shown, &q, value_get(data, "reply"), &reply);
    return SAY(t, TEXT_ASKED_ANSWERED, q.ask,
               known ? reply_words_of(t->shown, t->tongue, &q, &reply) : text_in(data, "words"));
}

static const char *one_fix(tt_talk *t, const char *name)
{
    const uint32_t fix = tt_fix_find(t->book, name);
    return fix != TT_NONE ? str_copy(t->shown, str_of(talk_plan(t, fix).text)).p : name;
}

const char *talk_fix_words(tt_talk *t, const tt_value *data)
{
    const char *first = one_fix(t, text_in(data, "fix")), *with = text_in(data, "with");
    return *with == 0 ? first : SAY(t, TEXT_TWO_FIXES, first, one_fix(t, with));
}

static const char *fix_words(tt_talk *t, const tt_value *data, const char *what)
{
    return SAY(t, TEXT_NAMED, talk_fix_words(t, data), what);
}

static const char *note_words(tt_talk *t, text_id what, const tt_value *data)
{
    const char *note = text_in(data, "note"), *to = text_in(data, "to");
    const char *words = *to != 0 ? SAY(t, TEXT_DID_TO, OURS(t, what), to) : OURS(t, what);
    return *note != 0 ? SAY(t, TEXT_NAMED, words, note) : words;
}

static const char *coming_words(tt_talk *t, const tt_value *data)
{
    const char *how = text_in(data, "how");
    return OURS(t, strcmp(how, "join") == 0        ? TEXT_DID_JOIN
                   : strcmp(how, "take-over") == 0 ? TEXT_DID_TAKE_OVER
                                                   : TEXT_DID_RESUME);
}

static const char *tried_words(tt_talk *t, const tt_value *data)
{
    tt_outcome outcome;
    return fix_words(t, data,
                     tt_outcome_find(text_in(data, "outcome"), &outcome)
                         ? outcome_words(t->tongue, outcome)
                         : text_in(data, "outcome"));
}

static const char *step_words(tt_talk *t, const tt_value *data)
{
    const char *how = text_in(data, "how");
    const bool back = strcmp(how, "back") == 0 || strcmp(how, "not-begun") == 0;
    return SAY(t, back ? TEXT_DID_STEP_BACK : TEXT_DID_STEP, text_in(data, "text"));
}

const char *talk_record_words(tt_talk *t, const tt_record *r)
{
    switch (record_kind_of(r->kind)) {
    case RECORD_AGAIN:
        return SAY(t, TEXT_DID_LOOK_AGAIN, said_words(t, r->data));
    case RECORD_ANSWER:
    case RECORD_MEASURED:
        return said_words(t, r->data);
    case RECORD_COMPLAINT:
        return SAY(t, TEXT_DID_COMPLAIN, text_in(r->data, "text"));
    case RECORD_TRIED:
        return tried_words(t, r->data);
    case RECORD_PUT_BACK:
        return fix_words(t, r->data, OURS(t, TEXT_DID_PUT_BACK));
    case RECORD_LEFT:
        return fix_words(t, r->data, OURS(t, TEXT_DID_LEAVE_SO));
    case RECORD_CAME_BACK:
        return fix_words(t, r->data, OURS(t, TEXT_DID_COME_BACK));
    case RECORD_FIX_BEGUN:
        return fix_words(t, r->data, OURS(t, TEXT_DID_BEGIN_FIX));
    case RECORD_FIX_STEP:
        return step_words(t, r->data);
    case RECORD_DANGER:
        if (*text_in(r->data, "words") == 0) return OURS(t, TEXT_DID_TOUCH_DANGER);
        return SAY(t, TEXT_DID_SAY_DANGER, text_in(r->data, "words"));
    case RECORD_RECHECK:
        if (*text_in(r->data, "words") == 0) return OURS(t, TEXT_DID_RECHECK_WORSE);
        return SAY(t, TEXT_DID_RECHECK, text_in(r->data, "words"));
    case RECORD_SAID:
        return SAY(t, TEXT_DID_SAY, text_in(r->data, "words"));
    case RECORD_MADE_SAFE:
        return SAY(t, TEXT_DID_MAKE_SAFE, text_in(r->data, "post"));
    case RECORD_WAITING:
        return OURS(t, TEXT_DID_WAIT);
    case RECORD_RESUME:
        return coming_words(t, r->data);
    case RECORD_HOLD:
        return note_words(t, TEXT_DID_HOLD, r->data);
    case RECORD_HAND_OVER:
        return note_words(t, TEXT_DID_HAND_OVER, r->data);
    case RECORD_BACK:
        return OURS(t, TEXT_DID_BACK);
    case RECORD_SETTLE:
        return OURS(t, TEXT_DID_SETTLE);
    case RECORD_CLOSE:
        return OURS(t, TEXT_DID_CLOSE);
    case RECORD_BEGIN:
        return OURS(t, TEXT_DID_BEGIN);
    case RECORD_STOP:
        return OURS(t, TEXT_DID_STOP);
    case RECORD_NO_COMPLAINT:
        return OURS(t, TEXT_DID_NO_COMPLAINT);
    case RECORD_REVIEWED:
        return OURS(t, TEXT_DID_REVIEW);
    case RECORD_CONFIRM:
        return SAY(t, TEXT_DID_CONFIRM, text_in(r->data, "cause_text"));
    case RECORD_SITTING:
        return OURS(t, strcmp(text_in(r->data, "why"), "pause") == 0 ? TEXT_DID_PAUSE
                                                                     : TEXT_DID_RESUME);
    case RECORD_LANGUAGE:
        return SAY(t, TEXT_DID_LANGUAGE, tongue_name(text_in(r->data, "language")));
    case RECORD_APART:
        return OURS(t, TEXT_DID_TELL_APART);
    case RECORD_SITE:
        return OURS(t, TEXT_DID_SITE);
    case RECORD_ANSWERS:
    case RECORD_PAST:
    case RECORD_SEAL:
    case RECORD_UNKNOWN:
        break;
    }
    return r->kind;
}

/* "09:12 east: took the case over" */
const char *talk_record_line(tt_talk *t, uint32_t entry)
{
    const journal *j = talk_meaning(t);
    const journal_entry *e = &j->entries[entry];
    assert(entry < j->count);
    const char *line =
        SAY(t, TEXT_WHO_WHAT, talk_moment(t, e->record.time),
            *e->person != 0 ? e->person : OURS(t, TEXT_SOMEBODY), talk_record_words(t, &e->record));
    return str_copy(t->shown, unicode_clean(t->scratch, str_of(line))).p;
}

/* "09:12", or "2026-11-25 09:12" if that is another day than this: by the clock of whoever reads
 * it. */
const char *talk_moment(tt_talk *t, const char *time)
{
    tt_moment then, now;
    if (!tt_moment_read(time, &then) || !tt_moment_read(t->now, &now)) return time;
    return moment_for_people(t->shown, then, now).p;
}

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
    const tt_view *v = talk_look(t);
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
    if (tt_tried_fixes(t->c, &tried, &count) != TT_OK) return;
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

static uint32_t disputed_question(tt_talk *t, const dispute *d)
{
    assert(d->count > 0);
    return tt_question_find(t->book, entry_text(talk_meaning(t), d->items[0], "question"));
}

static uint32_t disputed_fix(tt_talk *t, const dispute *d)
{
    assert(d->count > 0);
    return tt_fix_find(t->book, entry_text(talk_meaning(t), d->items[0], "fix"));
}

/* Whatever is in dispute is settled before the case goes on with it; but not what the rules no
 * longer know. */
void talk_tell_unsettled(tt_talk *t)
{
    const disputes all = journal_disputes(t->scratch, talk_meaning(t));
    for (uint32_t i = 0; i < all.count; i++) {
        const uint32_t question = disputed_question(t, &all.items[i]),
                       fix = disputed_fix(t, &all.items[i]);
        if (question != TT_NONE)
            talk_check(t, tt_unsettled(t->c, question));
        else if (fix != TT_NONE)
            talk_check(t, tt_unsettled_fix(t->c, fix));
    }
}

static bool is_known(tt_talk *t, const dispute *d)
{
    return disputed_question(t, d) != TT_NONE || disputed_fix(t, d) != TT_NONE;
}

static dispute first_dispute(tt_talk *t)
{
    const disputes all = journal_disputes(t->shown, talk_meaning(t));
    uint32_t i = 0;
    while (i < all.count && !is_known(t, &all.items[i])) i++;
    assert(i < all.count);
    return all.items[i];
}

/* The first that gave each of the different answers. */
static uint32_t first_with(const dispute *d, uint32_t answer)
{
    assert(d->count > 0);
    uint32_t i = 0;
    while (d->answer[i] != answer) i++;
    return d->items[i];
}

void make_settle(tt_talk *t)
{
    const journal *j = talk_meaning(t);
    const dispute d = first_dispute(t);
    const bool answers = j->entries[d.items[0]].kind == RECORD_ANSWER;
    assert(d.answers > 1 && d.answers <= d.count);
    turn_afresh(t, TT_TURN_SETTLE);
    t->turn.prompt = t->turn.say =
        OURS(t, answers ? TEXT_ANSWERED_DIFFERENTLY : TEXT_REPORTED_DIFFERENTLY);
    for (uint32_t i = 0; i < d.answers; i++)
        turn_choice(t, str_printf(t->shown, "said-%u", i + 1).p,
                    talk_record_line(t, first_with(&d, i)));
    if (answers) turn_choice(t, "ask-again", OURS(t, TEXT_ASK_AGAIN));
    turn_words(t, OFFER_MORE);
}

static void settle(tt_talk *t, const dispute *d, uint32_t right)
{
    assert(right < d->answers && d->answers > 1);
    const journal *j = talk_meaning(t);
    uint32_t *wrong = ARENA_ARRAY(t->shown, uint32_t, d->count), count = 0;
    for (uint32_t i = 0; i < d->count; i++)
        if (d->answer[i] != right) wrong[count++] = d->items[i];
    keep_settled(t, j, first_with(d, right), wrong, count);
}

void on_settle(tt_talk *t, const char *id)
{
    assert(t->turn.kind == TT_TURN_SETTLE);
    const dispute d = first_dispute(t);
    if (strcmp(id, "ask-again") == 0) {
        t->doing = (aside){.kind = ASIDE_ANEW, .question = disputed_question(t, &d)};
        return;
    }
    for (uint32_t i = 0; i < t->turn.choice_count; i++)
        if (strcmp(t->turn.choices[i].id, id) == 0) settle(t, &d, i);
}
