/* Part of telltale.h, which includes it: what is for authors of books. Worked cases, what closed
 * cases teach of a book's numbers, and made-up calls. */
#ifndef TELLTALE_AUTHOR_H
#define TELLTALE_AUTHOR_H

#include "telltale_standing.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Where in a book's files something is written. */
typedef struct tt_place {
    const char *at, *file; /* "air.yaml:41" */
    uint64_t start, end;   /* bytes start … end - 1 of the file */
} tt_place;

/* ---- the book as a whole, as a handbook shows it ----
 * What is there once for each piece of a kind stands here once, as it is at the first piece;
 * `likewise` are the others. */
typedef struct tt_pointer {
    uint32_t to; /* place in the list that it points into */
    double chance;
} tt_pointer;
typedef struct tt_listed {
    uint32_t id; /* symptom, cause, fix or question: as for tt_fix_show, tt_question_show */
    const char *name, *text;
    const uint32_t *likewise;
    uint32_t likewise_count; /* pieces */
    const tt_pointer *points;
    /* chance falling: of a symptom to causes, of a cause to fixes; else none */
    uint32_t point_count;
    bool complaint; /* symptom: people put it in words */
    double share;   /* cause: of the calls with a listed cause, with all its pieces */
    const char *means, *part, *confirmed_by; /* cause: each may be "" */
    const char *const *spares;
    uint32_t spare_count;      /* cause */
    const tt_picture *picture; /* cause: or null */
    const char *usual;         /* question: of equipment in order, in words; or "" */
} tt_listed;
typedef struct tt_list {
    const tt_listed *items;
    uint32_t count;
} tt_list;
typedef struct tt_contents {
    tt_list symptoms;  /* complaints first, then by name */
    tt_list causes;    /* share falling, then by name */
    tt_list fixes;     /* in the order in which the causes point to them */
    tt_list questions; /* that people are asked: what rules danger out first, then early facts, then
                          by name */
    const char *const *emergencies;
    uint32_t emergency_count; /* names, for tt_emergency_show: the book's own first */
} tt_contents;
/* In the case's language; valid until the case changes. */
TT_PUBLIC tt_status tt_book_contents(tt_case *c, tt_contents *out);

/* ---- a book that is being written ---- */
/* As tt_book_load, of the same book after an edit: files that are as they were in `before` (may be
 * null) are not parsed again. `before` is not kept. */
TT_PUBLIC tt_status tt_book_load_again(const tt_source *sources, size_t count,
                                       const tt_book *before, tt_book **out, tt_report **report);

/* ---- worked cases ---- */
/* Questions and quantities whose values spoke for or against causes when a case was played. */
typedef struct tt_grounds {
    const uint32_t *questions;
    uint32_t count;
} tt_grounds;
typedef struct tt_trial {
    const char *name, *at;
    bool passed;
    const char *why; /* what was expected and what came, or "" */
    uint32_t rank;   /* where the cause that it expects came in the ranking, from 0; 0 if it expects
                        none */
    const char *leads; /* the text of the cause that leads after its answers */
    double chance;     /* and its chance */
    uint32_t fix;      /* that it expects first; TT_NONE: it expects none */
    tt_grounds grounds;
} tt_trial;
/* How much of the book some case touches: rules in force, symptoms shown, causes that lead, fixes
 * worth trying. Of what is written for each piece of a kind, at some piece. */
typedef enum tt_covered {
    TT_COVERED_RULES,
    TT_COVERED_SYMPTOMS,
    TT_COVERED_CAUSES,
    TT_COVERED_FIXES,
    TT_COVERED
} tt_covered;
typedef struct tt_coverage {
    const char *what; /* "rules" */
    uint32_t touched, of;
} tt_coverage;
/* Runs all worked cases; arrays live in the book. `unused` names what no case touches. */
typedef struct tt_trials {
    const tt_trial *items;
    uint32_t count, passed;
    const char *const *unused;
    uint32_t unused_count;
    tt_coverage covers[TT_COVERED];
} tt_trials;
TT_PUBLIC tt_status tt_try(tt_book *book, tt_trials *out);
/* Runs those that `next` names until it names no more, and tells each: threads share them out so,
 * each with a book of its own (tt_book_beside). */
typedef struct tt_sharing {
    void *context;
    bool (*next)(void *context, uint32_t *index);
    void (*told)(void *context, uint32_t index, const tt_trial *trial);
} tt_sharing;
TT_PUBLIC tt_status tt_try_shared(tt_book *book, const tt_sharing *how);
/* Of each case of `now` where it stands, and the case of `before` as which it must come out, since
 * nothing that is written for either book is different but other cases, comments and layout;
 * TT_NONE: none. `grounds` (null: not known) are those of the cases of `before`: chances of
 * symptoms
 * (`shown-by`, `otherwise`) may then be others too where a case tells nothing that is weighed with
 * them. */
typedef struct tt_case_alike {
    uint32_t before;
    const char *at; /* "air.yaml:41" */
} tt_case_alike;
TT_PUBLIC tt_status tt_cases_alike(tt_book *now, const tt_book *before, const tt_grounds *grounds,
                                   const tt_case_alike **out);
/* It says what comes next, or what never does: the case is led on for it, which takes far longer
 * than to say what it points to. */
TT_PUBLIC bool tt_worked_case_is_long(const tt_book *book, uint32_t index);
/* It says how words are to be understood; what they are heard with (tt_book_hear) is made once for
 * a book. */
TT_PUBLIC bool tt_worked_case_hears(const tt_book *book, uint32_t index);
/* Their names, in order; null past the end. */
TT_PUBLIC const char *tt_worked_case(const tt_book *book, uint32_t index);
/* Runs one of them, and hands it over as it stands after its answers, for the caller to free. */
TT_PUBLIC tt_status tt_try_case(tt_book *book, uint32_t index, tt_trial *trial, tt_case **out);

/* ---- numbers that no worked case holds ---- */

/* A number of the book, and what became of the cases when it was turned round. */
typedef struct tt_held {
    const char *kind; /* "shown-by", "otherwise", "how-often", "cures" */
    const char *const *names;
    uint32_t name_count;          /* symptom or fix, and cause, as the author wrote them */
    const char *written, *turned; /* "usually", "never" */
    const char *by;               /* a case that then comes out otherwise; "": none does */
    tt_place place;
} tt_held;
typedef struct tt_holding {
    const tt_held *items;
    uint32_t count; /* every number that is written, by file and place */
    uint32_t held;
} tt_holding;
/* Turns each number round: a chance of a half or more to "never", a lesser one to "always"; what is
 * common to "rare", what is not to "very common". A case is played again with it if it then moves
 * some chance by a thousandth or more, or stands in the table of a question that the case has
 * something to say of. Only cases that pass hold anything. Arrays live in the book. */
TT_PUBLIC tt_status tt_numbers_held(tt_book *book, tt_holding *out);

/* ---- what would turn it ---- */

/* An answer, or a word for a number, that was not given. */
typedef struct tt_instead {
    const char *name, *text; /* of an answer; "": none. Of a number: the word, twice */
    double decibels;         /* what it would add, against the rival */
    double then;             /* and all together */
} tt_instead;
/* A question without an answer that tells the two apart. */
typedef struct tt_missing {
    const char *question, *ask;
    const char *role, *role_text; /* who may answer it, if whoever asks may not, and what they are
                                     called; else "" */
    double tells;                 /* decibels toward the one that is there, on the mean of both */
    const tt_instead *answers;
    uint32_t answer_count;
    bool turns; /* some answer would turn it */
} tt_missing;
/* The least that would let the other of the two lead. */
typedef struct tt_pivot {
    const char *kind; /* "answer": another to the same question; "question": one more; "facts":
                         without them; "number": another in the book */
    const char *name, *text; /* question and its words; "facts": ""; "number": "shown-by",
                                "otherwise" or "how-often", and whose in names */
    const char *const *names;
    uint32_t name_count; /* "number": symptom, cause; "facts": the rules */
    const char *was;     /* in words; or "" */
    const tt_instead *instead;
    uint32_t instead_count; /* what turns it, the least first */
    const tt_place *place;  /* "number": where it is written; else null */
} tt_pivot;
typedef struct tt_turning {
    tt_why why;
    const tt_missing *missing;
    uint32_t missing_count; /* what tells most first */
    const tt_pivot *pivots;
    uint32_t pivot_count; /* answers, questions, facts, numbers; of each kind the least first */
} tt_turning;
/* As tt_why_cause. Fixes that made it better, but not gone, are taken as they went. */
TT_PUBLIC tt_status tt_what_turns(tt_case *c, uint32_t rank, uint32_t rival, tt_turning *out);

/* ---- why one fix comes before another ---- */

/* What alone would put it first: the least. */
typedef struct tt_fix_pivot {
    const char *kind; /* "takes", "cures"; "cures-less": of the fix that comes first; "how-often":
                         of a cause, as many times as that */
    const char *fix, *cause; /* "": none */
    double was, then;        /* minutes, chances; how-often: 1, and how many times as often */
} tt_fix_pivot;
typedef struct tt_why_fix {
    tt_fix wanted, first; /* first.name null: none is worth trying yet */
    /* Not offered: "tried"; "forbidden", too dangerous for everybody; "role", the work of another;
     * "rule", which holds or skips it; "only-when", does not hold; "only-when-open", not known yet;
     * "setting", outside of `within` or at its limit; "after", another one is tried first. Offered:
     * "worth", less than it takes; "risk", a likely one of less risk is there; "pace", another
     * helps more per minute. */
    const char *reason;
    const char *const *names;
    uint32_t name_count;     /* rules; fixes */
    const char *text;        /* setting: what is read, and from where to where it begins; else "" */
    double least;            /* chance from which it is worth trying */
    double cost, first_cost; /* minutes that they count as: with the way there, and the price of
                                being needless */
    const tt_fix_pivot *pivots;
    uint32_t pivot_count;
} tt_why_fix;
/* `fix`: TT_NONE: the one that cures the likeliest cause most often. TT_NOT_NOW: it comes first, or
 * there is none. Valid until the case changes. */
TT_PUBLIC tt_status tt_why_fix_waits(tt_case *c, uint32_t fix, tt_why_fix *out);

/* ---- learning: closed and confirmed cases against the author's numbers ---- */
typedef struct tt_learning tt_learning;
/* Loads the book without a site of its own. `*out` is null unless TT_OK; *report as for
 * tt_book_load. */
TT_PUBLIC tt_status tt_learning_new(const tt_source *sources, size_t count, tt_learning **out,
                                    tt_report **report);
TT_PUBLIC void tt_learning_free(tt_learning *l);
/* The book that is learned about, as written. */
TT_PUBLIC tt_book *tt_learning_book(tt_learning *l);
/* Up to when the cases are in its numbers: RFC 3339, universal time; "" if none are. */
TT_PUBLIC const char *tt_learning_until(const tt_learning *l);
/* Counts a case, of the same book at any site, in which somebody confirmed that `cause` alone was
 * wrong. `handed_over`: somebody was called on the way, whoever cured it in the end. TT_FAULTY: the
 * book has no such cause, or is another. TT_NOT_NOW: it was not handed over and the trouble is not
 * gone, or it was "better, but not gone" on the way: such cases teach nothing. TT_NO_MEMORY, here
 * and for a site: what is counted is not whole any more, and all is counted anew. */
TT_PUBLIC tt_status tt_learning_add(tt_learning *l, tt_case *c, const char *cause,
                                    bool handed_over);
/* A trouble of a site. */
typedef struct tt_trouble {
    const char *cause;   /* that was confirmed; or "" */
    const char *fix;     /* that ended it; or "" */
    double began, ended; /* days, from any day on; ended: NAN while nobody has cured it, and if
                            nobody knows */
    bool came_back;      /* it was back once before this was its end */
} tt_trouble;
/* Counts what the cures of a site came to, after the day `since` (-INFINITY: all). `at`: the same
 * book at that site. All its troubles that are known, by the day on which they began. TT_FAULTY: it
 * is another book. */
TT_PUBLIC tt_status tt_learning_site(tt_learning *l, const tt_book *at, const tt_trouble *all,
                                     uint32_t count, double since);
/* Counts a case that ended and of which nobody said what the cause was. From these it is known how
 * much one of which somebody did has to stand for. */
TT_PUBLIC void tt_learning_unconfirmed(tt_learning *l, bool handed_over);

typedef enum tt_learned_kind {
    TT_HOW_OFTEN,
    TT_SHOWN_BY,
    TT_OTHERWISE,
    TT_DONE_WRONGLY, /* of tries of a fix that should have helped, or of all fixes that do not say
                        it themselves */
    TT_COMES_BACK,   /* of cures of a cause, or of all causes that do not say it themselves, those
                        after which it is back at that site */
    TT_MISLEADS,     /* of cases in which an instrument is used, those in which it shows what is not
                        so */
    TT_COMES_AND_GOES, /* of looks at a sign while it is there, those that show it */
    TT_ANSWERS_COUNT
} tt_learned_kind;
typedef struct tt_learned {
    tt_learned_kind kind;
    const char *cause, *cause_text;     /* "" where the number is of none. As the author wrote the
                                           names, without piece of equipment */
    const char *symptom, *symptom_text; /* likewise */
    const char *fix, *fix_text;         /* likewise */
    const char *instrument, *instrument_text; /* likewise */
    const char *written;                      /* "usually", "85 %"; "" if left out */
    const char *proposed;                     /* to be written instead; "" if it stays */
    const char *at;                           /* "air.yaml:41" */
    double before; /* chance as the tables have it; of TT_HOW_OFTEN: share of the calls with a
                      listed cause */
    double after, low, high; /* mean, and the 95 % credible interval */
    double cases, of;        /* counted: with it, of those that could have it */
    bool outside; /* `before` lies outside the interval: the cases speak clearly against it */
} tt_learned;
/* Bytes start … end - 1 of a file are to be replaced. */
typedef struct tt_edit {
    const char *file;
    size_t start, end;
    const char *text;
} tt_edit;
typedef struct tt_lesson {
    uint32_t cases, causes; /* counted; entries of the book */
    /* cases in which somebody was called; of these, counted */
    uint32_t handed_over, handed_over_confirmed;
    double handed_over_counts; /* so many times as much as a cured one, since so few of them are
                                  confirmed */
    bool handed_over_held; /* they would have to count more than that: the shares lean towards what
                              is cured */
    uint32_t cases_wanted; /* below it there is nothing to show: no items, no edits */
    const tt_learned *items;
    uint32_t count; /* what cases were counted for, by kind, then by name */
    const tt_edit *edits;
    uint32_t edit_count; /* by file and place; they don't overlap. With them goes 'learned-until' */
    const tt_source *sources;
    uint32_t source_count; /* the book with all edits, by name */
    tt_book *book;         /* made from these; null if there are no edits */
    uint32_t new_warnings; /* so many more than the book has now */
} tt_lesson;
/* `until`: the moment that is written as learned-until. Valid until the next call. */
TT_PUBLIC tt_status tt_learning_look(tt_learning *l, const char *until, const tt_lesson **out);

/* ---- for editors ---- */
typedef struct tt_schema tt_schema;
/* A JSON Schema (draft-07) of this very book: its names, answers and fitting units in their places,
 * with their texts and chances. `*out` is null unless TT_OK; *report as for tt_book_load. */
TT_PUBLIC tt_status tt_schema_new(const tt_source *sources, size_t count, tt_schema **out,
                                  tt_report **report);
TT_PUBLIC void tt_schema_free(tt_schema *s);
TT_PUBLIC const char *tt_schema_text(const tt_schema *s, size_t *length);

/* ---- causes × signs ---- */
typedef struct tt_table tt_table;
typedef struct tt_table_cause {
    const char *name, *text,
        *part;             /* as written: "full", or "full of any filter"; part may be "" */
    const char *how_often; /* as written, "" if it is left out */
    const char *at;
} tt_table_cause;
typedef struct tt_table_sign {
    const char *name, *text, *part;     /* the part of the cause it speaks for most */
    const char *otherwise;              /* as written, "" if it is left out */
    double otherwise_chance, strongest; /* strongest: decibels */
    bool confirmed;                     /* made by `confirms` of a question */
    const char *at;
} tt_table_sign;
typedef struct tt_table_cell {
    uint32_t cause, sign;
    const char *written;     /* "usually", "85 %" */
    double chance, decibels; /* 10 log10 of chance to otherwise: what seeing the sign says for this
                                cause; may be infinite */
    const char *at;
} tt_table_cell;
typedef struct tt_table_view {
    const char *title, *language;
    const tt_table_cause *causes;
    uint32_t cause_count; /* by part, then name; likewise: */
    const tt_table_sign *signs;
    uint32_t sign_count;
    const tt_table_cell *cells;
    uint32_t cell_count; /* by cause, then sign: only where something is written */
} tt_table_view;
/* `*out` is null unless TT_OK; *report as for tt_book_load. */
TT_PUBLIC tt_status tt_table_new(const tt_source *sources, size_t count, tt_table **out,
                                 tt_report **report);
TT_PUBLIC void tt_table_free(tt_table *t);
TT_PUBLIC tt_table_view tt_table_look(const tt_table *t);
/* As CSV (RFC 4180, UTF-8), for a spreadsheet. Lives until the table is read or freed. */
TT_PUBLIC tt_status tt_table_csv(tt_table *t, const char **bytes, size_t *length);
/* That CSV, edited: edits of the book's files that make its numbers those; none where nothing was
 * changed. TT_FAULTY: *report (freed by the caller) says why not. The edits live until the next
 * call. */
TT_PUBLIC tt_status tt_table_read(tt_table *t, const tt_source *file, const tt_edit **edits,
                                  uint32_t *count, tt_report **report);

/* ---- names: one for another, wherever it stands ---- */
typedef struct tt_renaming tt_renaming;
typedef struct tt_renamed {
    /* why the name can't be changed so, with what to write instead; "" if it can */
    const char *refusal;
    const char *what, *at; /* "cause"; where it is described */
    const tt_edit *edits;
    uint32_t edit_count; /* by file and place */
    const tt_source *sources;
    uint32_t source_count; /* the book's files with them, by name */
    const tt_edit *site_edits;
    uint32_t site_edit_count; /* of the site's file */
    const tt_source *site;    /* with them; null: none was given */
} tt_renamed;
/* `old`: a name, or for one that names several things "cause drop" or "question: answer". `site`:
 * the file of a site, in which it is changed too; null: none. TT_FAULTY: with *out, it is refused;
 * without, the book has faults, which *report (freed by the caller) holds. */
TT_PUBLIC tt_status tt_rename(const tt_source *sources, size_t count, const tt_source *site,
                              const char *old, const char *new_name, tt_renaming **out,
                              tt_report **report);
TT_PUBLIC void tt_renaming_free(tt_renaming *r);
TT_PUBLIC tt_renamed tt_renaming_look(const tt_renaming *r);

/* ---- two editions of a book: whom a change moves, and which change it was ---- */

/* How a case or a call comes out. By names, as in the book. */
typedef struct tt_course {
    bool there;          /* false: this edition can't play it */
    bool passed;         /* of a worked case; else true */
    const char *leading; /* null: something not listed */
    double chance;
    const char *const *path;
    uint32_t path_count; /* of a case what comes next; of a call all that is asked and tried, and
                            its end */
    const char *const *fixes;
    uint32_t fix_count; /* worth trying, in their order; none for calls */
    const char *const *cautions;
    uint32_t caution_count; /* rules that caution or stop; none for calls */
} tt_course;
typedef struct tt_moved {
    const char *kind, *name; /* "worked", "stored", "call" */
    tt_course before, after;
    bool leading, path, fixes, cautions, passed; /* which of them changed */
    double shift; /* share of the chances that lies elsewhere now; of a call, of what leads */
    const char *const *edits;
    uint32_t edit_count; /* entries, "symptoms foam-runny": each alone moves it, with those that it
                            can't be without; what moves it most first… */
    bool together;       /* …or they do only together; no edits: it was not looked for */
} tt_moved;
typedef struct tt_compared {
    uint32_t worked, stored, calls;  /* compared */
    uint32_t worked_old, worked_new; /* worked cases of one edition only */
    const char *const *edits;
    uint32_t edit_count; /* entries that differ */
    uint32_t moved_worked, moved_stored, moved_calls;
    const tt_moved *moved;
    /* cautions, then what leads, fixes, path; in each the largest shift first */
    uint32_t moved_count;
} tt_compared;
typedef struct tt_comparison tt_comparison;
/* Both books are copied. TT_FAULTY: one has faults, in its report; both reports are the caller's,
 * and may be null. */
TT_PUBLIC tt_status tt_comparison_new(const tt_source *before, size_t before_count,
                                      const tt_source *after, size_t after_count,
                                      tt_comparison **out, tt_report **of_before,
                                      tt_report **of_after);
TT_PUBLIC void tt_comparison_free(tt_comparison *x);
/* A case that was kept, by the name that it is told by; with the text of its site (null: the book's
 * example). `now`: as it was looked at last. */
typedef struct tt_kept_case {
    const char *name, *site, *writer, *now;
    const tt_record *records;
    size_t record_count;
    bool practice;
} tt_kept_case;
TT_PUBLIC tt_status tt_comparison_case(tt_comparison *x, const tt_kept_case *kept);
/* Worked cases of both, the cases added, and so many made-up calls, drawn alike for both. Valid
 * until it is freed; called once. */
TT_PUBLIC tt_status tt_comparison_look(tt_comparison *x, uint64_t seed, uint64_t calls,
                                       const tt_compared **out);

#ifdef __cplusplus
}
#endif

#endif
