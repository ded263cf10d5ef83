/* Part of telltale.h, which includes it: where a case stands. Valid until the case changes. */
#ifndef TELLTALE_STANDING_H
#define TELLTALE_STANDING_H

#include "telltale_next.h" /* what comes next */

#ifdef __cplusplus
extern "C" {
#endif

typedef struct tt_fact {
    const char *name, *text; /* text: in words */
    const char *value;       /* option name, number, "yes"; "unsure"; "cannot"; a soft answer in the
                                answers file's JSON form */
    bool is_number;
    double number;
    const char *unit; /* or null; a dilution is a plain share, 1:50 is 1/51 */
    const char *from; /* "answer", "site", "rule", "quantity", "fix" (a setting as a fix left it) */
    const char *source; /* site: how it is known, in the file's words; else "" */
    const char *at;     /* "air.yaml:41", or null */
    uint32_t question;  /* or TT_NONE */
    bool stale;         /* answered before a fix changed things */
    bool old;           /* answered long ago (tt_stale) */
    const char *before; /* what was seen at the looks before the last, in words; or null */
} tt_fact;
typedef struct tt_cause {
    const char *name; /* null: something not listed */
    const char *text, *means;
    double chance;
    const char *at;
    const tt_picture *picture;
} tt_cause;
typedef struct tt_pair {
    const char *first, *second, *first_text, *second_text;
    double chance;
} tt_pair;
typedef enum tt_standing { TT_LIKELY_FIX, TT_POSSIBLE_FIX, TT_NOT_YET, TT_OTHER_ROLE } tt_standing;
typedef struct tt_fix {
    uint32_t fix;
    const char *name, *text, *risk; /* "low", "medium", "serious" */
    double chance, minutes;
    const char *role, *role_text; /* its name, and what it is called */
    tt_standing standing;
    bool held; /* the gate is not open: whatever its standing, it is not to be tried now */
} tt_fix;
typedef struct tt_caution {
    const char *signal, *text, *rule, *at; /* "danger", "warning", "caution", "notice" */
} tt_caution;
typedef enum tt_gate_state { TT_GATE_OPEN, TT_GATE_ASK, TT_GATE_SHUT } tt_gate_state;
typedef struct tt_gate {
    tt_gate_state state;
    uint32_t question; /* ASK: to be asked now, a gate question or what must be known before it.
                          SHUT: a safe answer to it is wanted, or TT_NONE */
    const char *stop_text, *call_role; /* SHUT: what to do now; whom to call, or null */
} tt_gate;
typedef struct tt_view {
    const tt_fact *facts;
    uint32_t fact_count; /* by name */
    const tt_cause *causes;
    uint32_t cause_count; /* chance falling, then name */
    const tt_pair *pairs;
    uint32_t pair_count; /* chance falling, at most 10 */
    double two_faults;
    bool pairs_matter; /* show them: two faults likely, or "better, not gone" */
    const tt_fix *fixes;
    uint32_t fix_count; /* in the order to try */
    const tt_caution *cautions;
    uint32_t caution_count; /* gravest first */
    tt_next next;
    tt_step step;
    tt_policy policy; /* …and what made it so */
    tt_gate gate;
    uint32_t fix;  /* TT_FIX, TT_PUT_BACK, TT_SETTLE: which, or TT_NONE */
    uint32_t with; /* TT_FIX: another to be done before its lockout is given back, or TT_NONE; */
    double with_saves;                 /* …minutes of the lockout, which count once */
    uint32_t symptom, kind;            /* TT_PIECE; else TT_NONE */
    const char *stop_text;             /* TT_STOP */
    const char *call_role, *call_text; /* TT_STOP, TT_CALL: whom to call, the name of the role and
                                          what it is called. TT_CALL without a role: somebody from
                                          outside, which call_text says; none of those whom the
                                          book knows is likely to be of use */
    const uint32_t *focus;
    uint32_t focus_count;  /* pieces that the case is about; none named: count 0 */
    bool not_listed_leads; /* 'your answers do not fit any listed fault' */
    uint32_t likely_count; /* so many from the head of `causes`: the fewest that hold 90 % of the
                              belief */
    double likely_chance;  /* chance that one of them is there */
    bool probably_none;    /* something not listed leads, and three fixes or more were in vain */
    bool nothing_wrong; /* all that was looked at is in order: no answer is a sign of a fault, and
                           none speaks for a cause */
    bool all_ruled_out;
} tt_view;
TT_PUBLIC tt_status tt_look(tt_case *c, const tt_view **out);

/* A fix that changes a setting step by step: one step, look again, and so on. Numbers are in the
 * unit of the reading. */
typedef struct tt_adjust {
    uint32_t reading;       /* question, or TT_NONE: the fix adjusts nothing */
    bool under_way;         /* a step was taken, and the fix has not ended */
    bool known;             /* what follows is; else the reading is asked before the first step */
    uint32_t step, at_most; /* the step to take now, from 1; 0: none is left */
    double found, from, to; /* before the first step; before and after this one */
    const char *found_text, *from_text, *to_text; /* "52 psi"; "" if not known */
} tt_adjust;

/* A fix as a person carries it out. */
typedef struct tt_fix_plan {
    const char *name, *text, *role, *role_text;
    const char *const *steps;
    uint32_t step_count;
    /* one for each, each perhaps null; null: there are none */
    const tt_picture *const *step_pictures, *const *once_running_pictures;
    const uint32_t *after;
    uint32_t after_count; /* fixes that are tried first */
    const char *const *once_running;
    uint32_t once_running_count; /* steps once it is given back and runs again */
    double minutes;
    tt_safety safety;
    const char *put_back; /* text; "" if not needed */
    bool cannot_put_back;
    const uint32_t *look_again;
    uint32_t look_again_count; /* questions */
    const char *const *parts;
    uint32_t part_count;
    const char *cost;
    uint32_t place;
    const char *place_text; /* where it is done; TT_NONE and "" if not told */
    tt_adjust adjust;
    uint32_t about;   /* the reading it changes, else the first reading to be looked at again; or
                         TT_NONE */
    bool about_known; /* it is known, and neither stale nor old */
    const char *at;
} tt_fix_plan;
TT_PUBLIC tt_status tt_fix_show(tt_case *c, uint32_t fix, tt_fix_plan *out);

/* Fixes that were tried, in order. All steps of an adjustment are one, with the outcome of the
 * whole, or of the last step while it is under way. */
typedef struct tt_tried {
    uint32_t fix;
    const char *name, *text;
    tt_outcome outcome;
    const char *put_back;   /* what to put back now, or "" */
    const char *cured;      /* GONE: text of the cause it most likely cured, or "" */
    const char *cured_name; /* and its name, or "" */
    bool under_way;         /* an adjustment that has not ended */
    bool was_put_back;      /* it did not help, and is as found again */
    bool left_so;           /* it did not help, and somebody said that it stays as it is now */
    bool came_back;         /* it helped, and the trouble came back */
    const char *setting; /* what is different from before: "What does the gauge read? 52 psi found,
                            47 psi left", or "" */
    uint32_t reading;    /* the question that was set so, or TT_NONE; */
    const char *found, *left; /* "52 psi", "47 psi"; or "" */
    uint32_t with;            /* the other of two that were done under one lockout, or TT_NONE; */
    const char *with_name, *with_text; /* its name and text, or "" */
} tt_tried;
TT_PUBLIC tt_status tt_tried_fixes(tt_case *c, const tt_tried **out, uint32_t *count);

/* Who confirms that a cause was the one: the name of a role, or "" if whoever asks may. Lives as
 * long as the book. */
TT_PUBLIC const char *tt_who_confirms(const tt_case *c, const char *cause);

/* Parts that the causes call for ('spare-parts'), likeliest first, then by text. `chance`: that at
 * least one cause is there that calls for it, as the causes' own chances say. Valid until the case
 * changes. */
typedef struct tt_spare {
    const char *text;
    double chance;
} tt_spare;
TT_PUBLIC tt_status tt_spare_parts(tt_case *c, const tt_spare **out, uint32_t *count);

/* Causes that are seen in one call of a hundred or more, and that by now have less than a tenth of
 * that chance: what whoever comes need not begin with. The commonest first, then by name. Valid
 * until the case changes. */
typedef struct tt_against {
    const char *name, *text;
    double before, now;
} tt_against;
TT_PUBLIC tt_status tt_spoken_against(tt_case *c, const tt_against **out, uint32_t *count);

/* A number in the unit of this reading, in words: "52 psi". Valid until the case changes.
 * TT_FAULTY: no such question, or no reading. */
TT_PUBLIC tt_status tt_reading_text(tt_case *c, uint32_t question, double number, const char **out);

/* Why is this asked: reasons as lines of plain words. Valid until the case changes. */
typedef struct tt_reason {
    const char *text;
    bool for_authors; /* figures and places in files */
} tt_reason;
TT_PUBLIC tt_status tt_why_asked(tt_case *c, uint32_t question, const tt_reason **reasons,
                                 uint32_t *count);

/* Why one cause rather than another: the weight of evidence (Good 1950) in decibels, 10 log10 of
 * how many times likelier something is with the cause than with its rival. Above 0 speaks for the
 * cause. What is there adds up to the odds between the two, if one fault alone is there. */
typedef struct tt_bar {
    const char *kind; /* "start": how often each occurs; "earlier": what was cured at this site;
                         "facts": rules in force, and the pieces that it is about; "answers";
                         "fixes": tried in vain */
    const char *text; /* answers that are judged together, in words; else "" */
    const char *const *names;
    uint32_t name_count;  /* questions; rules; fixes */
    double decibels;      /* not finite: a fact rules one of the two out */
    const char *strength; /* "slight", "some", "strong", "very strong" */
} tt_bar;
typedef struct tt_why {
    tt_cause cause, rival;
    double decibels; /* of all bars together */
    const tt_bar *bars;
    uint32_t bar_count; /* start, facts, fixes, then the answers that weigh most */
    bool two_faults;    /* the chances also count two faults at once, the decibels don't */
} tt_why;
/* `rank`, `rival`: places in tt_view.causes; rival TT_NONE: the likeliest other one. TT_NOT_NOW:
 * there is none. Valid until the case changes. */
TT_PUBLIC tt_status tt_why_cause(tt_case *c, uint32_t rank, uint32_t rival, tt_why *out);

#ifdef __cplusplus
}
#endif

#endif
