/* The one listener. What somebody types or says, at whatever prompt, is taken apart here: danger,
 * answers, readings, complaints, in any combination, with or without commas, in English and
 * Spanish, with slips of the pen. Pure functions over a book; nothing is decided here, only heard.
 *
 * Spans are bytes of the utterance without its control characters (`said_text`). */
#ifndef TT_LISTEN_LISTEN_H
#define TT_LISTEN_LISTEN_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/str.h"
#include "model/book.h"

/* All that is worked out once for a book: folded words, phrases, tables. Read only afterwards, so
 * many cases share it. */
typedef struct listener listener;
/* `scratch` is another arena than `keep`. */
const listener *listener_new(arena *keep, arena *scratch, const book *b);
/* The fifth of it that listen_danger needs, and nothing else. */
const listener *listener_for_danger(arena *keep, arena *scratch, const book *b);

/* ---- danger ---- */

typedef enum danger_list {
    DANGER_NONE,
    DANGER_HELP, /* nothing but a cry for help: is there danger, or shall it be explained how this
                    works? */
    DANGER_B, /* a leak, a smell …: what was said is kept, and the danger question is asked with
                 these words in it */
    DANGER_A, /* somebody is hurt or caught, fire …: the danger page at once */
} danger_list;

typedef enum listen_where {
    LISTEN_PROMPT, /* a question, a complaint, a fix … */
    LISTEN_NOTE,   /* a note or a name: only list A counts */
} listen_where;

typedef struct danger_heard {
    danger_list list;
    str id; /* "eyes", "leak": danger_table.h; or the id of an emergency of the book; "" if only a
               gate answer says it, or it is what was too long to be read */
    uint32_t emergency;        /* of the book, by its id or its own words; or NO_ID */
    uint32_t question, answer; /* the gate answer in whose words it was said; or NO_ID */
    bool slip;                 /* said only by what may be a slip of the pen; of list A */
    str words;                 /* that said it */
    uint32_t from, to;         /* their span */
} danger_heard;

typedef struct dangers {
    danger_list list;          /* the gravest of them */
    const danger_heard *items; /* the most urgent first; of HELP: none */
    uint32_t count;
    bool doubtful; /* of list A nothing is said but by slips of the pen: a name may read so */
} dangers;

/* First the gate answers' own words and the book's emergencies, then the engine's lists; without
 * what the book says is no danger. Negation is respected, a question counts as said. */
dangers listen_danger(const listener *l, arena *keep, str utterance, listen_where where);

/* Of two that have happened the lower number comes first; what only says that it is one, last. */
uint32_t danger_urgency(str id);
bool danger_is_unspecific(str id);

/* Do these words each tell of list A, or is it a single word by which such a danger is known
 * ("eye", "caught"), so that a book can't call them no danger? Into grave[count]. */
void listen_are_grave(arena *scratch, const label *words, uint32_t count, bool *grave);

/* ---- the danger question itself ---- */

typedef enum gate_kind {
    GATE_SAFE,   /* the answer lets the case go on */
    GATE_DANGER, /* an answer that doesn't, or danger in other words, or a bare yes */
    GATE_UNSURE, /* not known, can't see: counts as danger */
    GATE_NOTHING /* names neither: counts as danger */
} gate_kind;

typedef struct gate_heard {
    gate_kind kind;
    uint32_t answer; /* that was named, or NO_ID */
    double number;   /* of a gate question that is a reading, in its unit */
    dangers danger;  /* what was heard beside it */
} gate_heard;

/* `question`: a gate question of the book. */
gate_heard listen_gate(const listener *l, arena *keep, uint32_t question, str utterance);

/* ---- complaints ---- */

/* Is the symptom one that people put in words? Of one about each piece of a kind, the first
 * piece's. */
bool is_complaint(const book *b, uint32_t symptom);

typedef enum complaint_kind {
    COMPLAINT_NONE,  /* nothing of it is understood: the list by places follows */
    COMPLAINT_CLOSE, /* several are possible: the first ones are offered */
    COMPLAINT_CLEAR, /* the first is meant, and confirmed */
} complaint_kind;

typedef struct complaint_candidate {
    uint32_t symptom; /* of a complaint about each piece of a kind: the first piece's */
    double posterior; /* sums to 1 over the complaints of the book */
    double evidence;  /* of the words alone, in nats; 0 says nothing */
} complaint_candidate;

typedef struct complaint_heard {
    complaint_kind kind; /* not NONE */
    const complaint_candidate *ranked;
    uint32_t count; /* all complaints of the book */
    uint32_t from, to;
} complaint_heard;

typedef struct complaints_heard {
    const complaint_heard *items; /* in the order of the utterance, each about another complaint */
    uint32_t count;               /* 0: not understood */
} complaints_heard;

complaints_heard listen_complaints(const listener *l, arena *keep, str utterance);

/* ---- answers ---- */

typedef enum answer_kind {
    ANSWER_NONE,
    ANSWER_ONE,        /* this answer */
    ANSWER_SEVERAL,    /* one of these, or this one with a doubt: it is asked back */
    ANSWER_NOT,        /* anything but these */
    ANSWER_UNSURE,     /* looked, and can't tell */
    ANSWER_CANNOT,     /* can't look, or won't */
    ANSWER_READING,    /* a number, as it can be typed */
    ANSWER_VAGUE,      /* "40 or 50", "forty something": asked again */
    ANSWER_OTHER_UNIT, /* a number with a unit that doesn't belong here */
} answer_kind;

typedef struct answer_heard {
    answer_kind kind;
    uint64_t answers; /* mask over the answers of the question */
    str typed; /* READING, OTHER_UNIT: "45 psi", of "forty five pounds" too; amount_read reads it */
    bool bare; /* READING: without a unit, so it is in the one that is shown */
    uint32_t from, to; /* the words that it was heard in */
} answer_heard;

/* What the whole utterance answers to the question that is asked. */
answer_heard listen_answer(const listener *l, arena *keep, uint32_t question, str utterance);

/* ---- yes, no, done, worse ---- */

/* All that the whole utterance can be of manner.h, whatever was asked: MANNER_YES | MANNER_GONE …;
 * 0: it says more, or something else. */
uint64_t listen_manner(const listener *l, arena *scratch, str utterance);

/* ---- what came of a fix ---- */

typedef enum told_outcome {
    TOLD_NOTHING, /* it says something else, or more */
    TOLD_UNCLEAR, /* of the outcome, but two things at once: to be asked again */
    TOLD_GONE,
    TOLD_BETTER,
    TOLD_SAME,
    TOLD_WORSE,
    TOLD_COULD_NOT,
    TOLD_NOT_DONE, /* not tried */
} told_outcome;
typedef struct outcome_told {
    told_outcome outcome;
    bool whole; /* no other word is in it; but for WORSE it always is so */
} outcome_told;
outcome_told listen_outcome(const listener *l, arena *scratch, str utterance);

/* ---- all of an utterance ---- */

typedef enum listen_kind {
    LISTEN_ANSWER, /* of the question that is asked, or of another one that is named */
    LISTEN_WHICH,  /* a reading, and it isn't clear of which of these questions: it is asked back */
    LISTEN_COMPLAINT,
    LISTEN_UNUSED, /* served nothing: kept as a note */
} listen_kind;

typedef struct listen_part {
    listen_kind kind;
    uint32_t question;         /* ANSWER */
    answer_heard answer;       /* ANSWER; of WHICH its `typed` */
    const uint32_t *questions; /* WHICH */
    uint32_t question_count;
    const complaint_heard *complaint;
    str words;
    uint32_t from, to; /* their span */
} listen_part;

typedef struct listen_parts {
    /* in the order of the utterance; of the question that is asked at most one */
    const listen_part *items;
    uint32_t count;
} listen_parts;

/* What an utterance says at a prompt. `asked`: the question there, or NO_ID. `others`: the
 * questions that whoever speaks may not answer, which nothing else that is said is taken for; null:
 * none. Danger is listen_danger's, words of the program the caller's. A question about danger is
 * answered only where it is asked. */
listen_parts listen_all(const listener *l, arena *keep, uint32_t asked, const bool *others,
                        str utterance);

#endif
