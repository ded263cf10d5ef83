/* Inside of a talk: what its parts share. Above it nothing is known of sentences, below it nothing
 * of persons. Turns are made by talk_turns.h, replies taken by talk_replies.h. */
#ifndef TT_TALK_TALK_H
#define TT_TALK_TALK_H

#include "base/arena.h"
#include "base/grow.h"
#include "base/moment.h"
#include "base/str.h"
#include "base/value.h"
#include "journal/journal.h"
#include "say/catalogue.h"
#include "show/figures.h"
#include "show/part_list.h"
#include "show/pieces.h"
#include "telltale.h"

/* Something that the person is in the middle of, which no record says: it comes before what the
 * case would do next, and after the danger gate. */
typedef enum aside_kind {
    ASIDE_NONE,
    ASIDE_CONFIRM,     /* complaints that were heard */
    ASIDE_WHICH,       /* at which pieces; about the first complaint heard */
    ASIDE_ASK_BACK,    /* which of these questions the number belongs to */
    ASIDE_PLACES,      /* where it is wrong, after words that were not understood */
    ASIDE_AT_PLACE,    /* what can be wrong there; `question` is the place, TT_NONE: at none that is
                          told */
    ASIDE_CHANGE,      /* a list of answers */
    ASIDE_CHANGE_SITE, /* a list of what the site says */
    ASIDE_ANEW,        /* one question, once more */
    ASIDE_NOTE,
    ASIDE_TO,
    ASIDE_CAUSE,
    ASIDE_CAUSE_WHICH,
    ASIDE_CAUSE_ALL,
    ASIDE_CHANGED,
    ASIDE_CLOSED,
    ASIDE_TAKEN_OVER,
    ASIDE_READ, /* a page to read; `page` says which */
} aside_kind;

typedef struct aside {
    aside_kind kind;
    tt_turn_kind page; /* READ */
    uint32_t question; /* ANEW, READ why; or TT_NONE */
    /* CONFIRM, WHICH: complaints, as tt_complaints numbers them; ASK_BACK: questions */
    const uint32_t *heard;
    uint32_t heard_count;
    const char *said;    /* in which words */
    const char *reading; /* ASK_BACK: the number with its unit, as it is typed */
    bool more;           /* READ why: all of it */
    bool hands_over;     /* NOTE */
    const char *to;      /* NOTE after TO */
    const char *but;     /* CAUSE_WHICH: not this one */
} aside;

/* The fix that is being done, as the records of this sitting say. */
typedef struct walk {
    uint32_t fix;    /* TT_NONE: none is begun */
    uint32_t done;   /* things done of it, from the first to isolate on */
    uint32_t before; /* so many were done before it was begun anew, and nobody undid them */
    uint32_t with;   /* another under the same lockout, done before it is given back; or TT_NONE */
    bool alone;      /* that was asked, and it is given back first */
    bool goes_on; /* one more step of a setting: what was isolated for the one before it still is */
    bool back;    /* it did not help, and is being put back */
    /* the reading it is about was taken after it, and that of the other: */
    bool measured, measured_with;
    tt_reply after, after_with;
} walk;

/* How it stood when one was begun last: so it stands again if it was not begun after all. */
typedef struct walk_before {
    walk fix;
    bool interrupted;
    uint32_t measure_count;
} walk_before;

/* The reading that a fix is about, before and after it, in words. */
typedef struct measure {
    uint32_t fix, question;
    const char *before, *after; /* or null */
    bool ended;                 /* somebody said what came of the fix */
} measure;

typedef struct tt_complaint_list {
    tt_complaint *items;
    uint32_t count;
} tt_complaint_list;

struct tt_talk {
    const tt_book *book;
    tt_case *c;
    arena *keep, *shown, *scratch; /* the talk; the turn; a computation */
    const struct listener *ear;    /* once something was said */
    tt_talk_options options;
    tt_complaint_list complaints;

    tt_record *records; /* kept, in any order */
    uint32_t record_count, record_room;
    const journal *meaning; /* of them; in `meant`, made anew when they change */
    arena *meant;
    uint32_t entry; /* the one that is replayed; NO_ENTRY: the newest, whose writer has seen all the
                       others */
    /* Entry of each danger that the case counts; NO_ENTRY: said in this talk. */
    uint32_t *dangers;
    uint32_t danger_count, danger_room;
    const char **speakers;
    uint32_t speaker_count, speaker_room;
    tt_record *pending; /* made by the last reply, not yet kept */
    uint32_t pending_count, pending_room;
    uint64_t replies_from; /* number of the first record that this reply makes: `back` takes
                              together what came together; 0: none yet */
    bool kept_is_due, ever_failed, begun;
    bool works_anew;     /* memory ended in the middle: the case is played once more before anything
                            else */
    bool only_case;      /* nobody will be shown a turn */
    uint32_t told_until; /* what the rules no longer know of the records before this one is told */
    uint32_t opening;    /* records to be kept before the first reply's own */

    const char *now;  /* moment of the reply that is worked on */
    const char *last; /* moment of the reply before */
    aside doing;
    aside *queue; /* what was said in one breath and is still to be asked, in order */
    uint32_t queue_from, queue_count, queue_room;
    walk fix;
    walk_before before;
    measure *measures;
    uint32_t measure_count, measure_room;
    bool reviewed;   /* in this sitting */
    bool asks_again; /* the danger page was answered with "it is safe now": the question comes, not
                        the page */
    uint32_t dangers_heeded; /* so many were told when the last turn was made */
    bool leaving;            /* a note was left that may tell of danger: that is asked first */
    bool interrupted; /* danger was told, or a sitting has begun, since the fix was begun: it begins
                         again at the top */
    bool complained;  /* somebody said what is wrong, or that it is nothing of the list */
    aside before_reading, overtaken; /* what comes back after a page; after somebody took over */
    bool danger_told; /* in words, or at a touch, and nobody who knew of it said since that it is
                         safe */
    uint32_t danger_number; /* so many were told with it */
    uint32_t danger_met;    /* the number of that which somebody here acts on: it is no mistake, and
                               can only be over */
    const char *danger_words; /* the last of the words that told of it; or "" */
    const char **emergencies; /* what they meant, the most urgent first; from the first word to the
                                 safe answer */
    uint32_t emergency_count, emergency_room;
    const char *mistaken;  /* words that sounded like danger and told of none; or "" */
    const char *rechecked; /* words that asked for danger once more, in this sitting */
    uint32_t role;
    const char *language;
    tongue tongue; /* of our own words */
    tt_case_kind kind;
    tt_every every;           /* ROUND */
    const tt_value *past;     /* what the site's cases had said when this one began; or null */
    const char *doubted_good; /* RECORD: "foam-air 45": far from usual, asked once more; or "" */
    bool soonest;
    bool apart;            /* it is none of the earlier cases, somebody said */
    bool left;             /* the person has left */
    const char *how;       /* and how */
    const char *elsewhere; /* the number of the case in which it goes on; or null */
    uint32_t explained;    /* the fix whose dangers were shown last */

    tt_turn turn;
    tt_turn_choice only_choice, only_word; /* of a turn for which there is no memory */
    const char *wrong_code, *wrong, *why_no_answer;
    tt_turn_part *news;
    uint32_t news_count, news_room; /* in `keep` until the turn is made */
    tt_turn_choice *choices;
    uint32_t choice_room;
    tt_turn_choice *words;
    uint32_t word_room;
    tt_turn_part *parts;
    uint32_t part_room;
    const char **cautions_seen;
    uint32_t caution_count, caution_room;
};

/* ---- say.c: our words, in the arena of the turn ---- */
const char *talk_fill(tt_talk *t, text_id id, const char *const *inserts, uint32_t count);
/* With inserts, and without. */
#define SAY(t, id, ...) \
    talk_fill((t), (id), (const char *const[]){__VA_ARGS__}, \
              (uint32_t)(sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *)))
#define OURS(t, id) catalogue_text((t)->tongue, (id))
/* what a role is called; a name that is none as it is */
const char *talk_role(tt_talk *t, const char *name);
const char *talk_number(tt_talk *t, uint32_t number);
const char *talk_minutes(tt_talk *t, double minutes); /* "about 8 minutes" */
const char *talk_percent(tt_talk *t, double chance);  /* "72 %" */

/* ---- talk_state.c ---- */
void talk_check(tt_talk *t, tt_status status);
bool talk_is_ok(tt_talk *t, tt_status status); /* the same; what else it is, is no answer */
tt_status guarded_talk(tt_talk *t, tt_status (*work)(void *context), void *context);
const struct listener *talk_ear(tt_talk *t); /* what words are heard with */
const journal *talk_meaning(tt_talk *t);
const tt_value *talk_beginning(tt_talk *t); /* or null */
/* that somebody asked for in the case, or that it began in; or null */
const char *talk_last_language(tt_talk *t);
uint32_t talk_speaker(tt_talk *t, const char *writer);
const char *talk_moment(tt_talk *t, const char *time);
void stop_reading(tt_talk *t); /* something comes before the page, or the note */

/* told with the next turn */
void talk_news(tt_talk *t, tt_part_kind kind, const char *title, const char *item);
void talk_wrong(tt_talk *t, const char *code, const char *text);

/* ---- record_words.c ---- */
const char *talk_record_words(tt_talk *t, const tt_record *r);
const char *talk_record_line(tt_talk *t, uint32_t entry);
/* of a record about one, or two under one lockout */
const char *talk_fix_words(tt_talk *t, const tt_value *data);

/* ---- talk_case.c: what a talk asks of the case ---- */
const tt_view *talk_look(tt_talk *t);
/* What is known, believed and held back; what comes next (its step, and what that is about) may be
 * of before. */
const tt_view *talk_see(tt_talk *t);
tt_question talk_question(tt_talk *t, uint32_t question);
const tt_picture *talk_picture(tt_talk *t);       /* of the whole, or null */
const tt_picture *talk_cause_picture(tt_talk *t); /* of the likeliest cause, or null */
tt_book_info talk_book(tt_talk *t);               /* in the language of the case */
tt_fix_plan talk_plan(tt_talk *t, uint32_t fix);
const tt_fact *talk_fact(tt_talk *t, uint32_t question); /* or null */
uint32_t talk_answers(tt_talk *t);
bool talk_complained(const tt_talk *t);
uint32_t talk_asked(tt_talk *t); /* the question of this turn, or TT_NONE */
bool talk_is_called(const tt_talk *t);
const char *talk_post(const tt_talk *t);
/* what to do in the danger that was said; false: none of the list */
const tt_emergency *talk_emergencies(tt_talk *t, uint32_t *count); /* each once */
const uint32_t *talk_piece_order(tt_talk *t);
const char *talk_why_not(tt_talk *t, uint32_t question, const tt_reply *reply);
const char *talk_cured(tt_talk *t);
bool talk_was_told(tt_talk *t, uint32_t complaint); /* of whatever piece */
bool talk_is_told(tt_talk *t, uint32_t complaint);  /* of no piece, and already taken */
const tt_tried *talk_left_changed(tt_talk *t);      /* a setting under way; or null */
const tt_tried *talk_last_tried(tt_talk *t);        /* or null */
/* the last that helped, and whose trouble has not come back; or null */
const tt_tried *talk_last_cure(tt_talk *t);
bool talk_may_look(tt_talk *t, uint32_t question);
/* What the book says of a question, whatever the case knows: it rules danger out; it is read off an
 * instrument. */
bool talk_is_gate(const tt_talk *t, uint32_t question);
bool talk_is_read_off(const tt_talk *t, uint32_t question);
bool talk_is_safe(tt_talk *t, uint32_t question, const tt_reply *reply); /* of a gate question */
/* whoever speaks may do the work of this fix, and isolate for it */
bool talk_may_do(const tt_talk *t, uint32_t fix);

/* ---- word_table.c: words of ours ---- */
/* X(id, word for programs, what is typed for it, what it does), the latter two as texts of the
 * catalogue */
#define TALK_WORDS(X) \
    X(WORD_DANGER, "danger", TYPED_DANGER, TEXT_WORD_DANGER) \
    X(WORD_UNSURE, "unsure", TYPED_UNSURE, TEXT_WORD_UNSURE) \
    X(WORD_CANNOT, "cannot", TYPED_CANNOT, TEXT_WORD_CANNOT) \
    X(WORD_WHY, "why", TYPED_WHY, TEXT_WORD_WHY) \
    X(WORD_KNOWN, "known", TYPED_KNOWN, TEXT_WORD_KNOWN) \
    X(WORD_CAUTIONS, "cautions", TYPED_CAUTIONS, TEXT_WORD_CAUTIONS) \
    X(WORD_CHANGE, "change", TYPED_CHANGE, TEXT_WORD_CHANGE) \
    X(WORD_BACK, "back", TYPED_BACK, TEXT_WORD_BACK) \
    X(WORD_STOP, "stop", TYPED_STOP, TEXT_WORD_STOP) \
    X(WORD_HOLD, "hold", TYPED_HOLD, TEXT_WORD_HOLD) \
    X(WORD_HAND, "hand over", TYPED_HAND, TEXT_WORD_HAND) \
    X(WORD_HELP, "?", TYPED_HELP, TEXT_WORD_HELP)
#define TALK_WORD_ENUM(id, word, typed, meaning) id,
typedef enum talk_word { TALK_WORDS(TALK_WORD_ENUM) WORD_NONE } talk_word;
#undef TALK_WORD_ENUM
const char *word_name(talk_word word);
text_id word_meaning(talk_word word);
text_id word_typed(talk_word word);
/* Which word of ours a line is: the word itself, or what people also type for it; one with a colon
 * before it always is one. */
talk_word word_of(tt_talk *t, const char *line);
talk_word word_said(arena *scratch, str line);
/* The language of ours that a line asks for, and nothing else; TONGUE_COUNT: none. */
tongue tongue_asked(arena *scratch, str line);
talk_word word_by_id(const char *id);
enum {
    OFFER_ALWAYS =
        1 << WORD_DANGER | 1 << WORD_KNOWN | 1 << WORD_BACK | 1 << WORD_STOP | 1 << WORD_HELP,
    OFFER_MORE = OFFER_ALWAYS | 1 << WORD_CHANGE,
    OFFER_FIX = OFFER_MORE | 1 << WORD_WHY,
    OFFER_QUESTION = OFFER_FIX | 1 << WORD_UNSURE | 1 << WORD_CANNOT,
};

/* ---- reply_value.c ---- */
tt_value reply_to_value(arena *keep, const tt_question *q, const tt_reply *reply);
/* Needs nothing of the case, which would have to be worked out first. */
bool reply_of_value(arena *keep, const tt_book *book, uint32_t question, const tt_value *v,
                    tt_reply *reply);
const char *reply_words_of(arena *keep, tongue in, const tt_question *q, const tt_reply *reply);
/* as it is shown; or TT_NONE */
uint32_t option_named(const tt_book *book, uint32_t question, const char *name);

/* ---- unsettled.c: what two people said differently ---- */
void talk_tell_unsettled(tt_talk *t);
dispute dispute_first(tt_talk *t);                        /* of those that the rules still know */
uint32_t dispute_question(tt_talk *t, const dispute *d);  /* or TT_NONE */
uint32_t dispute_said(const dispute *d, uint32_t answer); /* the first entry that gave it */

/* ---- walk_list.c ---- */

/* The things to do of a fix, in order: telling, isolating, letting go, proving; its steps and what
 * it sets, or how it is put back; giving back. */
typedef struct walk_thing {
    tt_part_kind kind;
    const char *text;
    const tt_picture *picture; /* or null */
    uint32_t fix;              /* whose it is, of two under one lockout */
} walk_thing;
typedef struct walk_things {
    walk_thing *items;
    uint32_t count, room;
} walk_things;
walk_things walk_list(tt_talk *t, uint32_t fix);
uint32_t walk_reached(const walk *w); /* things done, now or before it was begun anew */
/* Whether this thing of the fix that is begun is done, and not given back since. */
bool walk_stands(const tt_talk *t, const walk_things *things, uint32_t thing);
uint32_t walk_begins(const walk_things *things,
                     uint32_t fix);                  /* the first step of this fix's own */
uint32_t walk_gives_back(const walk_things *things); /* the first of giving back, or their count */
uint32_t talk_with(const tt_talk *t, uint32_t fix);  /* done under its lockout too, or TT_NONE */
bool talk_is_isolating(tt_part_kind kind);           /* a part of a procedure before the work */
bool talk_asks_second(tt_talk *t); /* whether another fix is done under the lockout that stands */
bool talk_walks(tt_talk *t);       /* the person is in the middle of the fix that comes next */
/* …of the fix that was begun, and of the second under its lockout: they may undo it */
bool talk_may_undo_begun(const tt_talk *t);
bool walk_is_procedure(tt_part_kind kind); /* it is given back as its procedure says */
/* It stands, and whoever does not finish undoes it themselves. `restores`: a procedure gives back
 * what was isolated. */
bool walk_is_undone(const tt_talk *t, const walk_things *things, uint32_t thing, bool restores);
/* Another person has tried the second of two meanwhile, or a caution holds it. */
bool walk_lost_second(tt_talk *t);
const tt_fix *talk_standing_of(tt_talk *t, uint32_t fix); /* or null */

/* ---- measures.c ---- */
/* Of the fix that is done, and of the other under its lockout, the one whose reading is to be taken
 * now; or TT_NONE. */
uint32_t talk_to_measure(tt_talk *t);
/* The reading that is still to be taken before the fix, or what is done under its lockout too, is
 * begun; or TT_NONE. */
uint32_t talk_reading_before(tt_talk *t, uint32_t fix);
measure *measure_of(tt_talk *t, uint32_t fix); /* the last of it, or null */
void measure_before(tt_talk *t, uint32_t fix); /* the fix is begun: what the reading is now */
void measure_ended(tt_talk *t, uint32_t fix);  /* its outcome is told */
/* one for each */
const tt_measured *talk_measured(tt_talk *t, const tt_tried *tried, uint32_t count);
/* The reading that a fix is about is asked, after it: it says whether the fix did what it should,
 * and counts as an answer once it is told whether that helped. */
bool talk_is_after_fix(tt_talk *t);

/* ---- moved.c: how a reading moved ---- */
typedef struct moved {
    tt_walked now; /* of the reading, with its good value */
    tt_drift drift;
    const char *jumped_after, *jumped_before; /* JUMP: days; "" */
} moved;
/* False: nothing says what is good. */
bool talk_moved(tt_talk *t, uint32_t question, double number, const char *time, moved *out);
/* "30 psi was found good on …; it is 44 psi now. It has crept up …" */
const char *talk_moved_words(tt_talk *t, const moved *m);
void talk_tell_moved(tt_talk *t, uint32_t question); /* with the next turn, if it is beyond */
void talk_tell_trend(tt_talk *t, uint32_t question, const tt_reply *reply, const char *time);

/* ---- earlier.c: what the site's earlier cases say of this trouble, and going on with one ---- */
enum { EARLIER_LINES = 3 };
uint32_t earlier_lines(tt_talk *t, const char *lines[EARLIER_LINES]); /* in words; how many */
void tell_earlier(tt_talk *t);                                        /* with the next turn */
bool earlier_is_offered(tt_talk *t);
extern const char earlier_open[], earlier_back[], earlier_none[]; /* how choices begin */

/* ---- replay.c: what records do to the case ---- */
void replay_all(tt_talk *t); /* works the case out anew */
/* An entry was played; not `taken`: the rules no longer know what it is about. */
typedef void replay_watch(void *context, uint32_t entry, bool taken);
/* the same; a watcher sees each entry instead of the person */
void replay_watched(tt_talk *t, replay_watch *watch, void *context);
bool replay_newest(tt_talk *t); /* false: the case does not take it */
/* replay_parts.c; each or TT_NONE */
uint32_t piece_named(const tt_talk *t, const char *name);
uint32_t complaint_named(const tt_talk *t, const char *name);

/* ---- keep.c: records that a reply makes; they count in the case at once. False: the case does not
 * take it, and nothing is kept ---- */
bool keep_record(tt_talk *t, const char *kind, value_builder *data); /* data null: an empty map */
bool keep_answer(tt_talk *t, uint32_t question, const tt_reply *reply, const char *typed);
bool keep_complaint(tt_talk *t, uint32_t complaint, const char *said, const uint32_t *at,
                    uint32_t count);
/* with: done under the same lockout, or TT_NONE */
bool keep_tried(tt_talk *t, uint32_t fix, uint32_t with, tt_outcome outcome);
void keep_together(tt_talk *t, uint32_t fix, uint32_t with);
bool keep_put_back(tt_talk *t, uint32_t fix);
bool keep_about_fix(tt_talk *t, const char *kind, uint32_t fix);
void keep_thing(tt_talk *t, uint32_t fix, uint32_t index, const char *how);
void keep_measured(tt_talk *t, uint32_t fix, uint32_t question, const tt_reply *reply);
void keep_text(tt_talk *t, const char *kind, const char *key, const char *text);
void keep_waiting(tt_talk *t, const char *role); /* "": somebody from outside */
void keep_leaving(tt_talk *t, const char *kind, const char *to, const char *note);
void keep_close(tt_talk *t, const char *how);
void keep_confirm(tt_talk *t, const char *how, const char *cause);
bool keep_back(tt_talk *t); /* false: there is no step to take back in this sitting */
void keep_cure_back(tt_talk *t);
void keep_settled(tt_talk *t, const journal *j, uint32_t right, const uint32_t *wrong,
                  uint32_t count);
void keep_coming(tt_talk *t, const char *kind);
typedef struct danger_names {
    const char *const *items;
    uint32_t count;
} danger_names;
void keep_danger(tt_talk *t, const char *kind, danger_names which, const char *words);
void talk_add_record(tt_talk *t, const tt_record *r);
/* keep_past.c: what the site's cases had said when this one began */
void keep_past(tt_talk *t);

#endif
