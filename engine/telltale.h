/* Telltale: fault diagnosis from symptom rules. The public face of the library.
 *
 * The library takes and gives buffers: it opens no file and no terminal, reads no clock and no
 * locale, and has no global state. Text is UTF-8, NUL-ended where it is a `const char *`. What a
 * call returns belongs to the object it came from and lives until that object is freed, unless said
 * otherwise. Objects of one book may be used from several threads if each session stays in one. */
#ifndef TELLTALE_H
#define TELLTALE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "telltale_records.h" /* results of calls, values, records of cases */

#ifdef __cplusplus
extern "C" {
#endif

/* One file as read; `name` is its path inside the book's folder. */
typedef struct tt_source {
    const char *name;
    const char *bytes;
    size_t length;
} tt_source;

/* ---- what was wrong with an input ---- */
typedef struct tt_report tt_report;
TT_PUBLIC void tt_report_free(tt_report *report);
TT_PUBLIC uint32_t tt_report_errors(const tt_report *report);
TT_PUBLIC uint32_t tt_report_warnings(const tt_report *report);
/* as shown to people; empty if nothing was wrong */
TT_PUBLIC const char *tt_report_text(const tt_report *report);
typedef struct tt_fault {
    const char *code, *severity, *file; /* "T201"; "error" or "warning"; file may be "" */
    uint32_t line, column, end_line, end_column;
    const char *text, *help;
} tt_fault;
TT_PUBLIC uint32_t tt_report_count(const tt_report *report);
TT_PUBLIC tt_fault tt_report_fault(const tt_report *report, uint32_t index);
/* A place, from the first character to before the last, and a text about it or for it. */
typedef struct tt_remark {
    const char *file;
    uint32_t line, column, end_line, end_column;
    const char *text;
} tt_remark;
/* What stands elsewhere and belongs to the fault. False: it has no such many. */
TT_PUBLIC bool tt_report_note(const tt_report *report, uint32_t fault, uint32_t index,
                              tt_remark *out);
/* What mends the fault if the text is put in the place of what stands there. False: it is not so
 * simple. */
TT_PUBLIC bool tt_report_mend(const tt_report *report, uint32_t fault, tt_remark *out);
/* Every code there is, for the documentation: returns false past the end. */
TT_PUBLIC bool tt_fault_code(uint32_t index, const char **code, const char **title);

/* ---- book ---- */
typedef struct tt_book tt_book;

/* Loads, checks and compiles. `*out` is null unless TT_OK. `*report` (freed by the caller) holds
 * faults, also the warnings of a good book. */
TT_PUBLIC tt_status tt_book_load(const tt_source *sources, size_t count, tt_book **out,
                                 tt_report **report);
/* The same for a site, whose file says what equipment there is; it takes the place of the section
 * `site` in the book, and the book's worked cases, which are about that one, are left out. `site`
 * null: as above. Its bytes null: for no site, so that nothing of the book's example is taken for
 * anybody's. */
TT_PUBLIC tt_status tt_book_load_at(const tt_source *sources, size_t count, const tt_source *site,
                                    tt_book **out, tt_report **report);
/* Makes ready what words are heard with, which takes longer than reading a small book: once, before
 * the first words, and before the book is shared (tt_book_beside). Where it was not done each talk,
 * and each call that hears words, does it for itself. */
TT_PUBLIC tt_status tt_book_hear(tt_book *book);
/* Adds what a colleague would ask (warnings T9xx) to the report of a book that was loaded without a
 * site. It takes longer than loading, so it is for whoever writes rules. */
TT_PUBLIC tt_status tt_book_doubts(const tt_book *book, tt_report *report);
/* The same of a book with errors, which could not be loaded: what a colleague would ask about the
 * part that they don't touch. What may only be missing there is not asked. */
TT_PUBLIC tt_status tt_report_doubts(tt_report *report);
TT_PUBLIC void tt_book_free(tt_book *book);
/* The same book for another thread, which nothing is read for: it is freed before the one that it
 * stands beside. */
TT_PUBLIC tt_status tt_book_beside(const tt_book *of, tt_book **out);

typedef struct tt_book_info {
    const char *title, *edition, *language;
    uint32_t roles, questions, symptoms, causes, fixes, rules, conclusions, cases;
    const char *const *cautions; /* shown before anything else */
    uint32_t caution_count;
    const char *const *hazard_cautions; /* shown before what has their hazards */
    uint32_t hazard_caution_count;
    const char *site_title; /* of the site it was loaded for; "" if it has no title */
    bool site_is_example; /* it was loaded for none: marks, numbers and names of the book's example
                             are nobody's */
    bool has_site; /* false: nothing says what equipment there is; two stand-ins of each kind are
                      taken */
} tt_book_info;
TT_PUBLIC tt_book_info tt_book_describe(const tt_book *book);
/* Its title, and that of the site it was loaded for ("" if it has none), in a language (BCP 47;
 * null: the book's). They live as long as the book. What cases are told apart by is the title in
 * the book's language. */
TT_PUBLIC const char *tt_book_title(const tt_book *book, const char *language);
TT_PUBLIC const char *tt_site_title(const tt_book *book, const char *language);
TT_PUBLIC const char *tt_role_name(const tt_book *book, uint32_t role);
/* What a role is called in a language (BCP 47; null: the book's), named by its id or by what it is
 * called in another; what names no role, as it is. Lives as long as the book. */
TT_PUBLIC const char *tt_role_text(const tt_book *book, const char *name, const char *language);
TT_PUBLIC uint32_t tt_role_find(const tt_book *book, const char *name); /* or TT_NONE */
TT_PUBLIC uint32_t tt_question_find(const tt_book *book, const char *name);
TT_PUBLIC uint32_t tt_fix_find(const tt_book *book, const char *name);
TT_PUBLIC uint32_t tt_symptom_find(const tt_book *book, const char *name);

/* Whom to call at the site, in its order. Of the book's example site nobody is: then there are
 * none, and "". `language`: BCP 47; null: the book's. They live as long as the book. */
typedef struct tt_contact {
    const char *role, *purpose, *post, *telephone,
        *hours;      /* role or purpose; each but post and telephone may be "" */
    const char *who; /* the post; in a turn also who answers at the emergency number */
} tt_contact;
TT_PUBLIC uint32_t tt_contact_count(const tt_book *book);
TT_PUBLIC tt_contact tt_contact_show(const tt_book *book, uint32_t contact, const char *language);
TT_PUBLIC const char *tt_emergency_number(const tt_book *book);

/* Kinds of equipment and the pieces of each. `language`: BCP 47; null: the book's. */
typedef struct tt_kind {
    const char *name, *one, *ask; /* "applicator", "foam applicator", "Which foam applicators are
                                     there, in the order …?" */
    bool unnamed; /* a site whose file names none has one, so nobody is asked which there are */
} tt_kind;
typedef struct tt_piece {
    const char *name, *text; /* "floor-left", "the left floor applicator" */
    uint32_t kind;
    /* how many of its kind come before it, as the site says: their order for people */
    uint32_t before;
} tt_piece;
TT_PUBLIC uint32_t tt_kind_count(const tt_book *book);
TT_PUBLIC tt_kind tt_kind_show(const tt_book *book, uint32_t kind, const char *language);
TT_PUBLIC uint32_t tt_piece_count(const tt_book *book);
TT_PUBLIC tt_piece tt_piece_show(const tt_book *book, uint32_t piece, const char *language);
/* The same symptom at another piece of its kind, or TT_NONE. */
TT_PUBLIC uint32_t tt_symptom_at(const tt_book *book, uint32_t symptom, uint32_t piece);

/* Where one stands to look or to work. `language`: BCP 47; null: the book's. */
typedef struct tt_spot {
    const char *name, *text; /* "drums", "the drum room" */
    uint32_t before;         /* how many the author writes before it: their order for people */
} tt_spot;
TT_PUBLIC uint32_t tt_spot_count(const tt_book *book);
TT_PUBLIC tt_spot tt_spot_show(const tt_book *book, uint32_t place, const char *language);
/* Minutes from one to the other. */
TT_PUBLIC double tt_walk(const tt_book *book, uint32_t from, uint32_t to);

/* A complaint: a symptom that people put in words. */
typedef struct tt_complaint {
    uint32_t symptom;
    const char *name, *text;
    double match;   /* how likely it was meant, (0, 1]; 1 for tt_complaints */
    uint32_t kind;  /* kind of equipment, one complaint for all its pieces: ask which, then take
                       tt_symptom_at; TT_NONE: shared */
    uint32_t place; /* where it is seen; TT_NONE: not told, or at several places */
} tt_complaint;
/* All complaints of the book, by name. The array is freed by the caller with free(). */
TT_PUBLIC tt_status tt_complaints(const tt_book *book, tt_complaint **out, uint32_t *count);
/* Those that the words speak of: the likeliest of each complaint in them, in their order, then what
 * else may have been meant. None: not understood. */
TT_PUBLIC tt_status tt_complaints_heard(const tt_book *book, const char *words, tt_complaint **out,
                                        uint32_t *count);
/* ---- pictures ---- */
/* Where in a picture a sign is seen, in the numbers of its frame. */
typedef struct tt_area {
    /* of the symptom; of one that any piece may show, as tt_complaint names it */
    const char *name, *text;
    double x, y, width, height;
} tt_area;
/* A drawing that can do nothing, lead nowhere and fetch nothing. */
typedef struct tt_picture {
    const char *file, *text; /* in the book's folder; what it shows, for whoever does not see it */
    const char *svg;         /* one <svg> with a viewBox, without a title */
    double x, y, width, height; /* its frame */
    const tt_area *areas;
    uint32_t area_count; /* from the top */
} tt_picture;

/* ---- a question as a person sees it ---- */
typedef enum tt_question_kind {
    TT_YES_NO,
    TT_CHOICE,
    TT_READING,
    TT_COUNT,
    TT_QUANTITY
} tt_question_kind; /* TT_QUANTITY: nobody is asked */
typedef struct tt_option {
    const char *name, *text;
    const tt_picture *picture; /* or null, as all of them */
} tt_option;
typedef struct tt_safety {
    const char *const *hazards;
    uint32_t hazard_count; /* plain words: "moving parts" */
    const char *const *cautions;
    uint32_t caution_count; /* of the book, from these hazards */
    const char *const *protect;
    uint32_t protect_count;
    /* In the order of 29 CFR 1910.147 (c)(9), (d), (e), each in order too: whom to tell, what to
     * switch off and lock, what to let go, how to prove that nothing is left; after the work, how
     * it is given back. */
    const char *const *tell;
    uint32_t tell_count;
    const char *const *isolate;
    uint32_t isolate_count;
    const char *const *release;
    uint32_t release_count;
    const char *const *prove;
    uint32_t prove_count;
    const char *const *restore;
    uint32_t restore_count;
    const tt_picture *const *isolate_pictures,
        *const *release_pictures, *const *prove_pictures,
                                      *const *restore_pictures; /* as step_pictures */
    const char *const *procedures;
    uint32_t procedure_count; /* their names */
    const char *state; /* how the equipment is meanwhile: "running", "stopped", "isolated", or "" if
                          that does not matter */
    const char *why_running;             /* or "" */
    const char *unprotected_risk, *risk; /* "low", "medium", "serious", "high"; without and with
                                            protection; unprotected may be "" for harm: none */
} tt_safety;
typedef struct tt_question {
    const char *name, *ask, *look, *say; /* look and say may be "" */
    tt_question_kind kind;
    const tt_option *options;
    uint32_t option_count;       /* in the author's order */
    const char *measures, *unit; /* readings; the unit in which people at the site read it, in which
                                    all numbers here are too */
    bool has_plausible;
    double plausible_low, plausible_high;
    double minutes;
    uint32_t role;
    tt_safety safety;
    const char *put_back; /* or "" */
    uint32_t place;
    const char *place_text; /* where one stands to answer it; TT_NONE and "" if not told */
    const char *because;    /* why it is asked, for a learner; or "" */
    const tt_picture *picture;
    const char *instrument; /* with which it is answered; or "" */
    const char *round;      /* "daily", "weekly", "monthly"; or "" */
    uint32_t good;          /* the fact of the site that holds its good value; or TT_NONE */
    bool gate; /* rules out danger: comes before anything else, and again in every sitting */
    uint64_t safe_options;      /* gate: mask over options; any other answer counts as danger… */
    double safe_low, safe_high; /* …and a reading outside this range… */
    bool safe_low_in, safe_high_in; /* …or at an end of it that is not safe itself */
    bool early;                     /* a fact that is told right after that */
    bool is_fact;
    bool of_site;   /* a fact of the site, which the site's file may answer */
    const char *at; /* "air.yaml:41" */
} tt_question;

/* ---- a case ---- */
typedef struct tt_case tt_case;
typedef struct tt_options {
    uint32_t role;        /* who asks; TT_NONE: the lowest */
    const char *language; /* BCP 47; null: the book's */
    bool soonest;         /* order fixes by minutes alone within the gates */
    tt_case_kind kind; /* a round and a record ask their questions, place by place, and nothing else
                          after danger: see tt_walk */
    tt_every every;    /* of a round */
    bool asks_complaint; /* somebody is to be asked what is wrong (TT_COMPLAINT) before the best
                            question comes */
} tt_options;
TT_PUBLIC tt_status tt_case_new(const tt_book *book, const tt_options *options, tt_case **out);
TT_PUBLIC void tt_case_free(tt_case *c);
/* The language that it is shown in: what was asked for, or the book's. */
TT_PUBLIC const char *tt_case_language(const tt_case *c);
/* Its book, in that language; valid until the case changes. */
TT_PUBLIC tt_status tt_case_describe(tt_case *c, tt_book_info *out);
/* A complaint in the language of the case. Lives as long as the book. */
TT_PUBLIC const char *tt_complaint_text(const tt_case *c, uint32_t symptom);
/* What the book calls a complaint (tt_complaint.name), a cause or a fix that a case of another day
 * was kept with, in the language of this one. Null: it knows none of that name, or its words tell a
 * reading, which was another then. Lives as long as the book. */
typedef enum tt_named { TT_NAMED_COMPLAINT, TT_NAMED_CAUSE, TT_NAMED_FIX } tt_named;
TT_PUBLIC const char *tt_named_text(const tt_case *c, tt_named what, const char *name);
/* Of the whole, from the manifest; `*out` null: there is none. */
TT_PUBLIC tt_status tt_book_picture(tt_case *c, const tt_picture **out);
TT_PUBLIC tt_status tt_question_show(tt_case *c, uint32_t question, tt_question *out);

/* What to do in a danger that has happened: the book's `emergencies`, and those that every book
 * has. */
typedef struct tt_emergency {
    const char *name, *text; /* "eyes", "Product is in somebody's eyes" */
    const char *const *do_now;
    uint32_t do_count; /* one instruction a line, the most urgent first */
    const char *const *then;
    uint32_t then_count;
    const char *call, *source; /* a role; where it stands; each may be "" */
} tt_emergency;
/* In the case's language, valid until the case changes. Also by the name of the one it replaces.
 * TT_FAULTY: there is none. */
TT_PUBLIC tt_status tt_emergency_show(tt_case *c, const char *name, tt_emergency *out);

/* An answer. */
typedef enum tt_reply_kind {
    TT_UNSURE,
    TT_CANNOT,
    TT_ANSWER,
    TT_NUMBER,
    TT_NOT,
    TT_LIKELY
} tt_reply_kind;
typedef struct tt_reply {
    tt_reply_kind kind;
    uint32_t option;       /* TT_ANSWER: index into tt_question.options */
    double number;         /* TT_NUMBER, in `unit` */
    const char *unit;      /* TT_NUMBER: any that fits; null: tt_question.unit */
    uint64_t not_options;  /* TT_NOT: mask over options */
    const double *weights; /* TT_LIKELY: [option_count] */
} tt_reply;
/* Answers or changes an answer; everything that follows is worked out again. TT_FAULTY: not an
 * answer to this question. */
TT_PUBLIC tt_status tt_answer(tt_case *c, uint32_t question, const tt_reply *reply);
/* One more look at what was answered (tt_next.again): both count, and the last is what is known.
 * "Not sure" leaves it as it is. TT_FAULTY: also of a question that rules out danger. */
typedef enum tt_again {
    TT_FIRST_LOOK,
    TT_LOOK_AGAIN,
    TT_LOOK_ANOTHER
} tt_again; /* TT_LOOK_ANOTHER: with another instrument, or somebody else's eyes */
TT_PUBLIC tt_status tt_answer_again(tt_case *c, uint32_t question, const tt_reply *reply,
                                    tt_again how);
TT_PUBLIC tt_status tt_retract(tt_case *c, uint32_t question);
/* The pieces that the case is about, in place of those named before (of a kind of which none is
 * named: all). A complaint about a piece adds it. */
TT_PUBLIC tt_status tt_focus(tt_case *c, const uint32_t *pieces, uint32_t count);
/* The complaint, confirmed: an answer if it rests on one; else the questions beneath it come first.
 */
TT_PUBLIC tt_status tt_complain(tt_case *c, uint32_t symptom);
/* What a person typed at the prompt of this question: number of an option, its name or words, a
 * reading with or without unit. TT_OK: *out is the answer, and *why what was understood if that
 * should be said back ("3 bar is 43.51 psi."), else "". TT_FAULTY: *why says what to type instead
 * (lives until the next call on this case). */
/* TT_OK if tt_answer would take it; nothing changes */
TT_PUBLIC tt_status tt_reply_fits(tt_case *c, uint32_t question, const tt_reply *reply);
TT_PUBLIC tt_status tt_reply_read(tt_case *c, uint32_t question, const char *typed, tt_reply *out,
                                  const char **why);
/* Answers file (YAML or JSON): answers all of it, or nothing and a report. */
TT_PUBLIC tt_status tt_answers_load(tt_case *c, const tt_source *file, tt_report **report);

/* ---- danger: the gate ----
 * It is open only while every gate question that applies was answered as safe by whoever speaks, in
 * their sitting (tt_view.gate). Answers of the site's file and what is reckoned never open it.
 * Without tt_sitting every answer counts as of this sitting. */
/* Several people may be on one case. From here on `who` speaks (any number; 0 at first), and the
 * gate is judged for them. */
TT_PUBLIC void tt_speaker(tt_case *c, uint32_t who);
/* The speaker's sitting begins: they rule danger out once more, and can take nothing back from
 * before. */
TT_PUBLIC tt_status tt_sitting(tt_case *c);
/* The speaker must rule danger out once more in this sitting. */
TT_PUBLIC tt_status tt_recheck(tt_case *c);
/* Somebody said that there is danger. Like an answer to a gate question that is not exactly safe
 * (unsure and cannot among them) it shuts the gate for everybody; what ends it is a later safe
 * answer (here: to each gate question that applies) of somebody who knew of it. Then the others
 * still give their own. */
TT_PUBLIC tt_status tt_danger_said(tt_case *c);
/* How many dangers were told so far; they are numbered from 0. */
TT_PUBLIC uint32_t tt_dangers(const tt_case *c);
/* As tt_answer, of somebody who did not know of the dangers from number `first_unseen` on: it
 * doesn't end these. */
TT_PUBLIC tt_status tt_answer_unaware(tt_case *c, uint32_t question, const tt_reply *reply,
                                      uint32_t first_unseen);
/* …and as tt_answers_load. */
TT_PUBLIC tt_status tt_answers_load_unaware(tt_case *c, const tt_source *file,
                                            uint32_t first_unseen, tt_report **report);

/* ---- what else is said ---- */
/* A complaint about one of several pieces of equipment, and nobody said which (TT_PIECE) until one
 * is complained of or the focus names some. Where there is but one, or none, it is tt_complain. */
TT_PUBLIC tt_status tt_complain_somewhere(tt_case *c, uint32_t symptom);
/* It is none of the complaints that the book lists. */
TT_PUBLIC tt_status tt_no_complaint(tt_case *c);
/* People who did not know of each other answered it, or reported on the fix, differently:
 * TT_SETTLE, until it is told anew. */
TT_PUBLIC tt_status tt_unsettled(tt_case *c, uint32_t question);
TT_PUBLIC tt_status tt_unsettled_fix(tt_case *c, uint32_t fix);
/* Its answer was given long ago. It stays evidence, and is asked again before a fix rests on it. */
TT_PUBLIC tt_status tt_stale(tt_case *c, uint32_t question);

/* WORSE, or something new happened: counts as a fix that did not help, and the speaker must rule
 * danger out once more. After BETTER and WORSE all that is to be looked at again is asked. */
typedef enum tt_outcome { TT_GONE, TT_BETTER, TT_NO_CHANGE, TT_COULD_NOT, TT_WORSE } tt_outcome;
/* Of a fix that adjusts (tt_fix_plan.adjust): the outcome of the step it shows. BETTER keeps the
 * step; what is to be looked at again is asked (TT_ASK), then the next step follows. NO_CHANGE, the
 * last step, and COULD_NOT after a step lead to TT_PUT_BACK. TT_NOT_NOW: another adjustment is
 * under way, the setting is not known, no step is left, or it must be put back (then TT_COULD_NOT
 * says that it can't be, and somebody is called). */
/* As programs and records name it: "gone". */
TT_PUBLIC const char *tt_outcome_name(tt_outcome outcome);
TT_PUBLIC bool tt_outcome_find(const char *name, tt_outcome *out); /* false: no such outcome */
TT_PUBLIC tt_status tt_fix_tried(tt_case *c, uint32_t fix, tt_outcome outcome);
/* Two that were done under one lockout, with one outcome (with TT_NONE: the first alone).
 * TT_FAULTY: they don't have the same. */
TT_PUBLIC tt_status tt_fixes_tried(tt_case *c, uint32_t fix, uint32_t with, tt_outcome outcome);
/* The setting, or what else a fix has changed that did not help, is as found again. TT_NOT_NOW:
 * nothing was to be put back. */
TT_PUBLIC tt_status tt_put_back(tt_case *c, uint32_t fix);
/* What this fix has changed, which did not help, stays as it is now, and TT_PUT_BACK no longer asks
 * for it. TT_NOT_NOW: nothing was to be put back, or it is a setting. */
TT_PUBLIC tt_status tt_left_so(tt_case *c, uint32_t fix);
/* The trouble that this fix had ended is there again: the case is open, and the fix counts as one
 * that did not help. TT_NOT_NOW: it had not. */
TT_PUBLIC tt_status tt_came_back(tt_case *c, uint32_t fix);
/* Takes the last step back (answer, complaint, outcome, putting back …). TT_NOT_NOW: there is none
 * since the speaker's sitting began, it was somebody else's, or danger was told by it: only a safe
 * answer ends that. */
TT_PUBLIC tt_status tt_undo(tt_case *c);

#ifdef __cplusplus
}
#endif

#include "telltale_author.h"    /* worked cases, learning */
#include "telltale_drill.h"     /* a made-up call to learn on */
#include "telltale_rehearsal.h" /* made-up calls */
#include "telltale_rounds.h"    /* rounds, what is good, and how readings move */
#include "telltale_show.h"      /* what is shown to programs */
#include "telltale_standing.h"  /* where a case stands */
#include "telltale_talk.h"      /* the conversation */
#endif
