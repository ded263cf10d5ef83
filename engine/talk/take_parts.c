/* All that is said in one breath. Answers are kept at once and said back; what is doubtful or has
 * to be confirmed is asked, one after the other; what served nothing is kept as a note. */
#include <assert.h>
#include <string.h>

#include "listen/listen.h"
#include "listen/manner.h"
#include "session/session.h"
#include "talk/talk_replies.h"

typedef struct breath {
    tt_talk *t;
    const char *words;
    uint32_t asked; /* TT_NONE: the turn asks for no answer */
    bool taken;     /* something of it served */
    bool to_note;   /* not all of it stands in a record yet */
    bool complains;
    bool afresh; /* what is asked was known once: how it is now */
} breath;

static const char *kept(tt_talk *t, str words)
{
    return str_copy(t->keep, words).p;
}

/* ---- what is still to be asked ---- */

static void ask_later(breath *b, const aside *a)
{
    queue_add(b->t, a);
    b->taken = b->to_note = true;
}

/* ---- answers ---- */

bool turn_asks(const tt_talk *t)
{
    const tt_turn_kind kind = t->turn.kind;
    return kind == TT_TURN_QUESTION || kind == TT_TURN_EARLY || kind == TT_TURN_LOOK_AGAIN ||
           kind == TT_TURN_DANGER;
}

static bool read_part(tt_talk *t, uint32_t question, const char *words, const answer_heard *heard,
                      tt_reply *reply, const char **why)
{
    const tt_status status = reply_heard(t->c, question, words, heard, reply, why);
    talk_check(t, status);
    *why = kept(t, str_of(*why));
    if (reply->kind == TT_NUMBER && reply->unit != NULL)
        reply->unit = kept(t, str_of(reply->unit)); /* the case's own lives until it changes */
    return status == TT_OK;
}

static bool take_asked(breath *b, const char *words, const answer_heard *heard)
{
    tt_talk *t = b->t;
    tt_reply reply = {.kind = TT_UNSURE};
    const char *why = "";
    if (!read_part(t, b->asked, words, heard, &reply, &why)) {
        t->why_no_answer = why;
        return false;
    }
    if (*why != 0) talk_news(t, TT_PART_NOTE, "", why);
    answer_turn(t, b->asked, &reply, b->words);
    return true;
}

static bool fits(tt_talk *t, uint32_t question, const tt_reply *reply)
{
    return talk_is_ok(t, tt_reply_fits(t->c, question, reply));
}

static bool is_among(const aside *a, uint32_t question)
{
    for (uint32_t i = 0; i < a->heard_count; i++)
        if (a->heard[i] == question) return true;
    return false;
}

/* Of a question that was not asked only what is certain counts, and it is said back. */
static bool take_told(breath *b, uint32_t question, const char *words, const answer_heard *heard)
{
    tt_talk *t = b->t;
    tt_reply reply = {.kind = TT_UNSURE};
    const char *why = "";
    if (!read_part(t, question, words, heard, &reply, &why)) {
        talk_news(t, TT_PART_NOTE, "", SAY(t, TEXT_NOT_TAKEN, words, why));
        return false;
    }
    const tt_question q = talk_question(t, question);
    const bool known = talk_fact(t, question) != NULL; /* then a change is said back as one */
    const char *ask = kept(t, str_of(q.ask)),
               *answer = kept(t, str_of(reply_words_of(t->shown, t->tongue, &q, &reply)));
    if (q.gate || !fits(t, question, &reply) || !take_answer(t, question, &reply, b->words))
        return false;
    if (!known) talk_news(t, TT_PART_NOTE, "", SAY(t, TEXT_UNDERSTOOD, ask, answer));
    if (t->doing.kind == ASIDE_ASK_BACK && is_among(&t->doing, question))
        t->doing = (aside){.kind = ASIDE_NONE}; /* then it is said */
    return true;
}

static void take_answer_in(breath *b, const listen_part *p)
{
    const char *words = kept(b->t, p->words);
    const bool taken = p->question == b->asked ? take_asked(b, words, &p->answer)
                                               : take_told(b, p->question, words, &p->answer);
    if (taken)
        b->taken = true;
    else
        b->to_note = true;
}

void take_reading_of(tt_talk *t, uint32_t question, const char *reading, const char *said)
{
    assert(question != TT_NONE && reading != NULL);
    take_told(&(breath){.t = t, .words = said}, question, reading, NULL);
}

/* ---- asked back ---- */

/* In a call about one pump stand, what is said of a gauge is said of that one's. */
static bool call_is_about(const tt_talk *t, uint32_t question)
{
    assert(question < t->book->book->question_count);
    const uint32_t piece = t->book->book->questions[question].of.piece;
    return piece == NO_ID || !t->c->now.of_named_kind[piece] || t->c->now.in_focus[piece];
}

static uint32_t those_meant(tt_talk *t, const listen_part *p, uint32_t *out)
{
    uint32_t count = 0;
    talk_look(t);
    for (uint32_t i = 0; i < p->question_count; i++)
        if (call_is_about(t, p->questions[i])) out[count++] = p->questions[i];
    if (count > 0) return count;
    memcpy(out, p->questions, p->question_count * sizeof *out);
    return p->question_count;
}

static void ask_which_reading(breath *b, const listen_part *p)
{
    tt_talk *t = b->t;
    uint32_t *questions = ARENA_ARRAY(t->keep, uint32_t, p->question_count);
    const uint32_t count = those_meant(t, p, questions);
    listen_part meant = *p;
    meant.question = questions[0];
    if (count == 1 && p->question_count > 1)
        take_answer_in(b, &meant);
    else
        ask_later(b, &(aside){.kind = ASIDE_ASK_BACK,
                              .heard = questions,
                              .heard_count = count,
                              .said = kept(t, p->words),
                              .reading = kept(t, p->answer.typed)});
}

/* "the foam one": together with the number it names one of them. */
bool take_which_meant(tt_talk *t, const char *words)
{
    if (t->turn.kind != TT_TURN_ASK_BACK || t->doing.kind != ASIDE_ASK_BACK) return false;
    const aside about = t->doing;
    const str both = str_printf(t->scratch, "%s %s", words, about.said);
    const listen_parts parts = listen_all(talk_ear(t), t->scratch, NO_ID, NULL, both);
    for (uint32_t i = 0; i < parts.count; i++) {
        const listen_part *p = &parts.items[i];
        if (p->kind != LISTEN_ANSWER || !is_among(&about, p->question)) continue;
        t->doing = (aside){.kind = ASIDE_NONE};
        take_reading_of(t, p->question, about.reading, kept(t, both));
        return true;
    }
    return false;
}

/* ---- complaints ---- */

static uint32_t complaint_of_symptom(const tt_talk *t, uint32_t symptom)
{
    uint32_t i = 0;
    while (i < t->complaints.count && t->complaints.items[i].symptom != symptom) i++;
    assert(i < t->complaints.count);
    return i;
}

/* The likeliest is confirmed, and what else may have been meant stands beside it. */
static void ask_whether(breath *b, const listen_part *p)
{
    enum { OFFERED = 4 };
    const double worth_offering = 0.15;
    tt_talk *t = b->t;
    const complaint_heard *heard = p->complaint;
    uint32_t *all = ARENA_ARRAY(t->keep, uint32_t, OFFERED), count = 0;
    for (uint32_t i = 0; i < heard->count && count < OFFERED; i++)
        if (i == 0 || heard->ranked[i].posterior >= worth_offering)
            all[count++] = complaint_of_symptom(t, heard->ranked[i].symptom);
    ask_later(b, &(aside){.kind = ASIDE_CONFIRM,
                          .heard = all,
                          .heard_count = count,
                          .said = kept(t, p->words)});
    b->complains = true;
}

/* "done" and "same" answer what was asked; where they don't, they are no complaint either. */
static void take_complaint(breath *b, const listen_part *p)
{
    const uint64_t replies = MANNER_YES | MANNER_NO | MANNER_FINE | MANNER_USUAL | MANNER_UNSURE |
                             MANNER_CANNOT | MANNER_DONE | MANNER_OFFER | MANNER_BEGINS |
                             MANNER_GONE | MANNER_SAME | MANNER_WORSE | MANNER_BETTER |
                             MANNER_COULD_NOT;
    if ((listen_manner(talk_ear(b->t), b->t->scratch, p->words) & replies) == 0)
        ask_whether(b, p);
    else
        b->to_note = true;
}

/* ---- together ---- */

/* Heard as a whole where nothing was heard in its parts; if that is none either, it says why. */
static void take_as_a_whole(breath *b)
{
    const bool heard = b->taken || *b->t->why_no_answer != 0;
    if (!heard && b->asked != TT_NONE) b->taken = take_asked(b, b->words, NULL);
}

/* Known already: it is said so, and what was asked is asked again. */
static bool take_said_again(breath *b, const listen_part *p)
{
    tt_talk *t = b->t;
    const bool reading =
        p->kind == LISTEN_WHICH || (p->kind == LISTEN_ANSWER && p->answer.kind == ANSWER_READING);
    const bool anew = b->afresh && p->kind == LISTEN_ANSWER && p->question == b->asked;
    if (reading || anew) return false;
    const uint32_t again = complaint_said_again(t, b->asked, p->words);
    if (again == TT_NONE) return false;
    talk_news(t, TT_PART_NOTE, "", SAY(t, TEXT_KNOWN_ALREADY, t->complaints.items[again].text));
    b->taken = b->to_note = true;
    return true;
}

static void take_part(breath *b, const listen_part *p)
{
    if (take_said_again(b, p)) return;
    switch (p->kind) {
    case LISTEN_ANSWER:
        take_answer_in(b, p);
        return;
    case LISTEN_WHICH:
        ask_which_reading(b, p);
        return;
    case LISTEN_COMPLAINT:
        take_complaint(b, p);
        return;
    case LISTEN_UNUSED:
        b->to_note = true;
        return;
    }
}

/* What is said instead of an answer to a menu, a page or "is it this?" leaves it. */
static void leave_what_was_asked(breath *b)
{
    tt_talk *t = b->t;
    const aside_kind kind = t->doing.kind;
    t->leaving = false;
    stop_reading(t);
    if (kind == ASIDE_CHANGE || kind == ASIDE_CHANGE_SITE ||
        (b->complains && (kind == ASIDE_PLACES || kind == ASIDE_AT_PLACE)) ||
        (kind == ASIDE_CONFIRM && t->turn.kind == TT_TURN_CONFIRM && b->complains))
        t->doing = (aside){.kind = ASIDE_NONE};
}

static void tell_what_is_noted(breath *b, const listen_parts *parts)
{
    tt_talk *t = b->t;
    for (uint32_t i = 0; i < parts->count; i++)
        if (parts->items[i].kind == LISTEN_UNUSED)
            talk_news(t, TT_PART_NOTE, "", SAY(t, TEXT_NOTED, kept(t, parts->items[i].words)));
}

/* The questions that need work which whoever speaks may not do. */
static const bool *others_work(tt_talk *t)
{
    const book *b = t->book->book;
    bool *others = ARENA_ARRAY(t->scratch, bool, b->question_count);
    talk_look(t);
    for (uint32_t i = 0; i < b->question_count; i++)
        others[i] = !book_may_work(b, t->c->role, b->questions[i].role, &b->questions[i].harm);
    return others;
}

/* "No, the foam is dry" at the danger question: the no was taken by then. */
void take_parts_beside(tt_talk *t, const char *words)
{
    breath b = {.t = t, .words = words, .asked = TT_NONE};
    const listen_parts parts =
        listen_all(talk_ear(t), t->scratch, NO_ID, others_work(t), str_of(words));
    for (uint32_t i = 0; i < parts.count; i++) take_part(&b, &parts.items[i]);
    if (b.taken && b.to_note) keep_text(t, "said", "words", words);
}

/* "Black smoke from the exhaust" was no danger: once that is ruled out it is what else it says. */
void take_mistaken(tt_talk *t)
{
    const char *words = t->mistaken;
    assert(words != NULL);
    if (*words == 0 || talk_look(t)->gate.state != TT_GATE_OPEN) return;
    t->mistaken = "";
    take_parts_beside(t, words);
}

bool take_parts(tt_talk *t, const char *words)
{
    breath b = {.t = t,
                .words = words,
                .asked = turn_asks(t) ? talk_asked(t) : TT_NONE,
                .afresh = t->turn.kind == TT_TURN_LOOK_AGAIN};
    if (talk_look(t)->step == TT_CLOSED) return false;
    const listen_parts parts =
        listen_all(talk_ear(t), t->scratch, b.asked, others_work(t), str_of(words));
    for (uint32_t i = 0; i < parts.count; i++) take_part(&b, &parts.items[i]);
    take_as_a_whole(&b);
    if (!b.taken) return false;
    if (*t->why_no_answer != 0) talk_wrong(t, "not-understood", t->why_no_answer);
    leave_what_was_asked(&b);
    tell_what_is_noted(&b, &parts);
    if (b.to_note) keep_text(t, "said", "words", words);
    return true;
}
