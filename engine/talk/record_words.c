/* Records in words. */
#include <assert.h>
#include <string.h>

#include "base/unicode.h"
#include "talk/talk.h"

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
    const bool known = question != TT_NONE && reply_of_value(t->shown, t->book, question,
                                                             value_get(data, "reply"), &reply);
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
    const char *note = text_in(data, "note"), *to = talk_role(t, text_in(data, "to"));
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
