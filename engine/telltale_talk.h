/* Part of telltale.h, which includes it: the conversation.
 *
 * A talk is a case as one person lives it: records in, turns out, records to keep. It holds no file
 * and no clock: the host hands in what was kept, the moment and what was said, keeps the records
 * that come out, and says whether they were kept; only then comes the next turn. With the same
 * book, options, records, moments and replies it says the same, byte for byte. Any number of talks
 * share one book. */
#ifndef TELLTALE_TALK_H
#define TELLTALE_TALK_H

#ifdef __cplusplus
extern "C" {
#endif

typedef struct tt_talk tt_talk;

/* X(id, name for programs) */
/* clang-format off */
#define TT_TURN_TABLE(X) \
    X(TT_TURN_DANGER, "danger")          /* a gate question: nothing else comes before it */ \
    X(TT_TURN_STOP, "stop")              /* the danger page: stays until somebody says that it is safe */ \
    X(TT_TURN_EARLY, "early")            /* a fact that everything else rests on */ \
    X(TT_TURN_COMPLAINT, "complaint")    /* what is wrong */ \
    X(TT_TURN_CONFIRM, "confirm")        /* whether the words meant this complaint */ \
    X(TT_TURN_WHICH, "which")            /* at which pieces of equipment */ \
    X(TT_TURN_EARLIER, "earlier")        /* the site has had this trouble before: is it one of these cases? */ \
    X(TT_TURN_QUESTION, "question") \
    X(TT_TURN_ASK_BACK, "ask-back")      /* words that could mean two things */ \
    X(TT_TURN_REVIEW, "review")          /* the answers, before the first fix that costs or can hurt */ \
    X(TT_TURN_BEFORE_FIX, "before-fix")  /* what it is, what hurts, what to wear; nothing is done yet */ \
    X(TT_TURN_FIX_STEP, "fix-step")      /* one thing to do */ \
    X(TT_TURN_OUTCOME, "fix")            /* did it help? */ \
    X(TT_TURN_LOOK_AGAIN, "look-again")  /* a question, once more, after a fix */ \
    X(TT_TURN_PUT_BACK, "put-back") \
    X(TT_TURN_SETTLE, "settle")          /* two said different things, not knowing of each other */ \
    X(TT_TURN_CHANGE, "change")          /* which answer was wrong */ \
    X(TT_TURN_WALKED, "walked")          /* the round is gone, or all that is good is told: what was found, and how it ends */ \
    X(TT_TURN_CAUSE, "cause")            /* the trouble is gone: what was it? */ \
    X(TT_TURN_CALL, "call")              /* somebody has to come */ \
    X(TT_TURN_WAITING, "waiting")        /* somebody was called; the case stays open */ \
    X(TT_TURN_CLOSED, "closed")          /* the case that is taken up is closed */ \
    X(TT_TURN_CHANGED, "changed")        /* rules or site have changed since */ \
    X(TT_TURN_TAKEN_OVER, "taken-over") \
    X(TT_TURN_KNOWN, "known") X(TT_TURN_WHY, "why") X(TT_TURN_WORDS, "words") X(TT_TURN_CAUTIONS, "cautions") /* read, then go on */ \
    X(TT_TURN_PROCEDURE, "procedure")    /* the whole of it, before it is gone through line by line */ \
    X(TT_TURN_HELP_OR_DANGER, "help")    /* "help": which is meant? */ \
    X(TT_TURN_NOTE, "note") X(TT_TURN_TO, "to") \
    X(TT_TURN_NOT_KEPT, "not-kept")      /* the last reply could not be kept */ \
    /* Asked by the host, before a case and after it; a talk makes none of these: */ \
    X(TT_TURN_BOOK, "book")              /* which rules */ \
    X(TT_TURN_OPEN_CASES, "open-cases")  /* a new case, or one that is open */ \
    X(TT_TURN_OPEN_ELSEWHERE, "open-elsewhere") /* somebody else has the case open */ \
    X(TT_TURN_SITE_FILE, "site-file")    /* nothing says what equipment there is */ \
    X(TT_TURN_SITE_NAME, "site-name") X(TT_TURN_SITE_PIECES, "site-pieces") X(TT_TURN_SITE_RIGHT, "site-right") \
    X(TT_TURN_SITE_KEEP, "site-keep") X(TT_TURN_SITE_PATH, "site-path") X(TT_TURN_SITE_OVER, "site-over") \
    X(TT_TURN_CALLER, "caller") X(TT_TURN_CALL_BACK, "call-back") X(TT_TURN_TICKET, "ticket") /* beside the case, not in it */ \
    X(TT_TURN_DRILL, "drill")            /* a made-up call: what to do now */ \
    X(TT_TURN_DRILL_LOOK, "drill-look") X(TT_TURN_DRILL_TRY, "drill-try") X(TT_TURN_DRILL_REVIEW, "drill-review") \
    X(TT_TURN_KEEP_FACTS, "keep-facts")  /* what was said of the site goes into its file */ \
    X(TT_TURN_REFUSED, "refused")        /* of many calls none was meant by a line: see ask --many */ \
    X(TT_TURN_END, "end")
/* clang-format on */
#define TT_TURN_ENUM(id, name) id,
typedef enum tt_turn_kind { TT_TURN_TABLE(TT_TURN_ENUM) TT_TURN_KINDS } tt_turn_kind;
#undef TT_TURN_ENUM
TT_PUBLIC const char *tt_turn_kind_name(tt_turn_kind kind);

typedef struct tt_turn_choice {
    /* never shown, never changes: "safe", "unsure", "done", "worse", "foam-air-high" */
    const char *id;
    const char *text;          /* from the book or from our catalogue, in the person's language */
    const tt_picture *picture; /* how that looks; or null */
    const char *said; /* a word of ours: what is typed for it in this language; else null */
} tt_turn_choice;

/* X(id, name for programs) */
/* clang-format off */
#define TT_PART_TABLE(X) \
    X(TT_PART_CAUTION, "caution")   /* title: its signal word */ \
    X(TT_PART_DO, "do")             /* danger: one instruction an item, the most urgent first */ \
    X(TT_PART_FIRST_AID, "first-aid") \
    X(TT_PART_CALL, "call")         /* whom, with numbers */ \
    X(TT_PART_TELL, "tell")         /* words to read out to them */ \
    X(TT_PART_LOCKED, "locked")     /* what is locked, opened or set just now: it stays so */ \
    X(TT_PART_HAZARDS, "hazards") X(TT_PART_RISK, "risk") X(TT_PART_WEAR, "wear") X(TT_PART_ISOLATE, "isolate") \
    X(TT_PART_ANNOUNCE, "announce") /* whom to tell before isolating */ X(TT_PART_RELEASE, "release") X(TT_PART_PROVE, "prove") \
    X(TT_PART_RESTORE, "restore")   /* after the work */ \
    X(TT_PART_NEED, "need")         /* parts and tools */ \
    X(TT_PART_STEP, "step") X(TT_PART_CHANGE, "change") /* from - to */ \
    X(TT_PART_LOOK, "look")         /* how to look at what is asked */ \
    X(TT_PART_CAUSES, "causes") X(TT_PART_FIXES, "fixes") X(TT_PART_FACTS, "facts") X(TT_PART_TRIED, "tried") \
    X(TT_PART_DIFFERENT, "different") X(TT_PART_PUT_BACK, "to-put-back") X(TT_PART_BEFORE_AFTER, "before-after") \
    X(TT_PART_DRIFT, "drift")       /* what is not as it was found good, and how it moved */ \
    X(TT_PART_PAST, "past")         /* what earlier cases of the site say of this trouble */ \
    X(TT_PART_REASONS, "reasons") X(TT_PART_WORDS, "words") X(TT_PART_NOTE, "note") \
    X(TT_PART_COMMAND, "command")   /* to be typed as it stands */
/* clang-format on */
#define TT_PART_ENUM(id, name) id,
typedef enum tt_part_kind { TT_PART_TABLE(TT_PART_ENUM) TT_PART_KINDS } tt_part_kind;
#undef TT_PART_ENUM
TT_PUBLIC const char *tt_part_kind_name(tt_part_kind kind);
typedef struct tt_turn_part {
    tt_part_kind kind;
    const char *title; /* or "" */
    const char *const *items;
    uint32_t item_count;
    bool numbered; /* their order matters */
} tt_turn_part;

/* The reading that a fix is about, as it was found before the fix and as it was after it. */
typedef struct tt_measured {
    uint32_t fix, question;     /* question: TT_NONE where the fix is about no reading */
    const char *name, *ask;     /* of the fix; the question in words, or "" */
    const char *before, *after; /* "55 psi"; "" where it was not read */
} tt_measured;

/* Everything that a person sees or hears is in here, and every face draws only this. Texts live
 * until the next call on the talk. */
typedef struct tt_turn {
    uint32_t number; /* a reply names it, so that a stale one is refused */
    tt_turn_kind kind;
    const char *language;     /* BCP 47: of the case, and of our own words if we have them in it */
    const char *subject;      /* name of the question, symptom or fix it is about; "" */
    const char *title;        /* the fix in words, on turns about one: stands on every page; "" */
    const char *together;     /* name of the other fix under the same lockout; "" */
    const char *prompt, *say; /* what is asked; the same to be read aloud to a caller */
    const char *place, *because; /* each may be "" */
    /* or null. With a complaint, the names of its areas are ids of choices */
    const tt_picture *picture;
    struct {
        uint32_t asked;
        double minutes_left;
    } progress;           /* NAN: not known */
    uint32_t step, steps; /* TT_TURN_FIX_STEP: from 1 */
    const tt_turn_choice *choices;
    uint32_t choice_count;
    const tt_turn_choice *words;
    uint32_t word_count; /* words of ours that work here; `danger` is the first */
    struct {
        bool reading, count, text, several;
        const char *unit;
        double low, high;
    } takes; /* low, high NAN: open */
    const tt_turn_part *parts;
    uint32_t part_count; /* in the order to be read */
    const tt_turn_part *news;
    uint32_t news_count;            /* since the last turn: what was understood, what others did */
    const char *wrong_code, *wrong; /* "" if nothing was */
    const tt_turn_choice *leading;
    uint32_t leading_count; /* the likeliest causes, in words with their chance */
    const tt_contact *contacts;
    uint32_t contact_count;
    const tt_measured *measured;
    uint32_t measured_count; /* where the turn tells what was tried: one for each, as tt_tried_fixes
                                orders them */
    bool gate_open;          /* danger is ruled out in this sitting */
    bool kept;               /* false: what is said goes nowhere but into this talk */
    bool practice;   /* the site is the example: no mark and no number in it is the caller's */
    bool dangerous;  /* draw it so */
    const char *how; /* TT_TURN_END: "gone", "call", "stop", "stopped", "left"; of a round
                        "in-order", "drifted", "fault" (a case of it is to be begun); of a record
                        "recorded"; "elsewhere", "came-back": the host goes on with the case whose
                        number is `subject`, and there says "came-back" */
} tt_turn;

/* A reply: one of choice, words, number, or several. */
typedef struct tt_given { /* an answer to any question, by its name: several may come with one reply
                           */
    /* choice: an answer's name, "unsure" or "cannot"; null: number */
    const char *question, *choice;
    double number;
    const char *unit; /* unit null: the question's */
    const char *const *not_these;
    uint32_t not_count;
} tt_given;
typedef struct tt_heard {
    uint32_t turn;      /* which turn it replies to; 0: the last */
    const char *choice; /* id of a choice or of a word of ours; or null */
    const char *const *several;
    uint32_t several_count; /* ids, where turn.takes.several */
    const char *words;      /* typed or spoken, understood by the listener; or null */
    /* …before the turn was shown to its end: what rules danger out is not taken then */
    bool unread;
    const double *number;
    const char *unit;
    const tt_given *given;
    uint32_t given_count;
    const char *language; /* BCP 47: the case is to go on in it; or null. In words, too: "español",
                             "in English" */
    const tt_source *answers; /* a whole file of them, as tt_answers_load takes it; or null */
} tt_heard;

typedef struct tt_talk_options {
    const char *writer; /* who speaks, one id for each person and machine: their records carry it */
    const char *role;   /* null: as the case began, else the lowest */
    const char *language; /* BCP 47; null: what was asked for last in the case, else as it began,
                             else the book's */
    bool soonest, practice, kept, telephone;
    bool look_only;        /* nothing may be said, only read */
    const char *number;    /* of the case, to be told; may be "" */
    const tt_value *about; /* map that goes into the first record: who, where, which book and site;
                              may be null */
    tt_case_kind kind;
    tt_every every; /* of a case that begins. A record is refused to the lowest role (TT_FAULTY) */
    const tt_past *past; /* of a case that begins: what the cases of its site say; read until
                            tt_talk_begin has returned; or null */
    const char *how;     /* a case taken up: "resume", "join", "take-over"; "site": nobody comes, it
                            became known which site it is; null: it begins */
} tt_talk_options;

/* Strings of the options are copied. TT_FAULTY: no such role. */
TT_PUBLIC tt_status tt_talk_new(const tt_book *book, const tt_talk_options *options, tt_talk **out);
TT_PUBLIC void tt_talk_free(tt_talk *talk);
/* What was kept earlier, or by others meanwhile: each record once, in any order. Copied. */
TT_PUBLIC tt_status tt_talk_take(tt_talk *talk, const tt_record *records, size_t count);
/* Instead of tt_talk_begin, for who wants nothing but tt_talk_case: the records that there are,
 * played. There is no turn, and nothing can be said to it. */
TT_PUBLIC tt_status tt_talk_play(tt_talk *talk, const char *now);
/* After the records that there are: the first turn. A case that is taken up has a record to keep at
 * once; one that begins keeps its first with the first reply, so that nothing is kept of a call in
 * which nothing was said. `now`: RFC 3339. */
TT_PUBLIC tt_status tt_talk_begin(tt_talk *talk, const char *now, const tt_record **keep,
                                  uint32_t *count);
/* Valid until the next call. */
TT_PUBLIC const tt_turn *tt_talk_turn(tt_talk *talk);
/* The records that the reply makes; the host keeps them and says so. None: the next turn is there.
 * TT_NOT_NOW: it replies to another turn than the last, or tt_talk_kept is due, or the talk is
 * over; nothing has changed. Words that tell of danger open a talk that is over again. */
TT_PUBLIC tt_status tt_talk_hear(tt_talk *talk, const tt_heard *heard, const char *now,
                                 const tt_record **keep, uint32_t *count);
/* Kept or not. Not: the reply still counts in this talk, which says on each turn from now on that
 * it is not kept. */
TT_PUBLIC tt_status tt_talk_kept(tt_talk *talk, bool kept);

/* What somebody says to a question that the host asks by itself, beside the talk or before there is
 * one. */
typedef struct tt_overheard {
    const char *word; /* id of the word of ours that it is; or "" */
    bool danger;      /* it is to be handed to a talk, whatever was asked */
    bool doubtful; /* ...but what says so may be a slip of the pen: where a name was asked, it may
                      be one */
    bool reply;    /* it is nothing but "yes", "no", "done", "not sure" … */
    double complaint; /* how well complaints of the book say it, in units that books share: 0 not at
                         all, from 1 on as well as the one word that tells it from all others */
    bool told;        /* it says what is wrong, or answers a question of the book: a talk asked for
                         no name would take it; where a name was asked, it clearly says what is wrong */
} tt_overheard;
/* `name`: a name, a note or a path was asked for, in which a leak need be none. Without memory it
 * counts as danger. */
TT_PUBLIC tt_status tt_overhear(const tt_book *book, const char *words, bool name,
                                tt_overheard *out);

/* The language of ours that these words ask for, and nothing else, as a tag; or null. */
TT_PUBLIC const char *tt_language_asked(const char *words);

/* The case beneath, to look at. */
TT_PUBLIC tt_case *tt_talk_case(tt_talk *talk);

/* ---- what happened, for sheets ---- */

/* A record in words. */
typedef struct tt_told {
    const tt_record *record;
    const char *person;              /* as they called themselves then, or "somebody" */
    const char *about;               /* name of the question, symptom or fix; or "" */
    const char *text, *result;       /* what was asked or done; what was said, or came of it */
    const char *typed;               /* in which words; or "" */
    const char *setting, *from, *to; /* what a fix set, from what to what; or "" */
    tt_skip skipped;                 /* why it does not count */
    bool taken_back; /* it does not count: taken back, settled to be wrong, or told by another
                        already */
    bool left_out;   /* the rules no longer know what it is about */
} tt_told;
typedef struct tt_told_caution {
    const char *signal, *text, *time; /* signal "": the book's own, shown at the beginning; time:
                                         when it was shown first */
} tt_told_caution;
typedef struct tt_history {
    const tt_told *items;
    uint32_t count; /* in order; `back` is told by what it took */
    const tt_told_caution *cautions;
    uint32_t caution_count;
} tt_history;
/* All records so far, played once more. Valid until the next call on the talk. */
TT_PUBLIC tt_status tt_talk_history(tt_talk *talk, tt_history *out);
/* One for each fix that was tried, as tt_tried_fixes orders them. Valid until the next call on the
 * talk. */
TT_PUBLIC tt_status tt_talk_measured(tt_talk *talk, const tt_measured **out, uint32_t *count);
/* One line for each thing that several, not knowing of each other, said differently. Valid until
 * the next call on the talk. */
TT_PUBLIC tt_status tt_talk_unsettled(tt_talk *talk, const char *const **out, uint32_t *count);

#ifdef __cplusplus
}
#endif

#endif
