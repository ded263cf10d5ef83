/* The next step: ask, fix, or call somebody. The balanced test, with thresholds and prices that put
 * safe fixes first. Mathematics: docs/mathematics.md (fixes; next step). */
#ifndef TT_CHOOSE_CHOOSE_H
#define TT_CHOOSE_CHOOSE_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/risk_matrix.h"
#include "base/str.h"
#include "believe/belief.h"
#include "compile/net.h"

typedef struct choice_rules {
    double worth_trying[4]; /* a fix of this level is worth trying from this chance on */
    double price[4];        /* minutes that a needless job of this level counts as, more */
    double likely;          /* chance from which a fix is among the likely ones */
    double call_minutes; /* what waiting for somebody costs, and what calling costs where nobody is
                            left */
    double bring;        /* whoever is called brings the parts of fixes that are as likely */
    double elsewhere;    /* what a question tells that one has to walk to counts as this share */
    uint32_t short_list; /* questions looked at closely; 12 */
    bool soonest;        /* no likely group: order by ratio alone */
} choice_rules;
/* .05 .05 .20 .40 · 0 10 30 120 · .20 · 240 · .05 · .6 · 12 */
extern const choice_rules choice_rules_default;

typedef struct fix_option {
    str name; /* ties go to the lower level, then to the name */
    double minutes;
    risk_level level;
    bool cannot_undo;      /* next level's threshold and price */
    const net_rate *cures; /* rising causes */
    uint32_t cure_count;
    bool open;             /* within the role, not tried yet, applicable, below High */
    bool needs_parts;      /* whoever is called must have brought them */
    uint32_t place;        /* where it is done; NO_PLACE: anywhere */
    const uint32_t *after; /* it waits while one of these fixes is open */
    uint32_t after_count;
    uint32_t set_up; /* its lockout; fixes with the same one may be done together. NO_SET_UP: it is
                        done by itself */
    double set_up_minutes; /* of its minutes */
} fix_option;
#define NO_PLACE  UINT32_MAX
#define NO_SET_UP 0

/* Somebody who may be called: first those that come next, then those above them. */
typedef struct callee {
    uint32_t level;   /* rising along the list; those beside each other have the same */
    const bool *open; /* [fix] theirs to try, not tried yet, applicable, below High */
    bool sends;       /* as of whoever asks, below */
} callee;
#define NO_CALLEE UINT32_MAX

typedef struct question_option {
    str name;
    double minutes;         /* counts as at least 0.1 */
    const prediction *seen; /* P(answer | hypothesis); rows need not sum to 1 per hypothesis (facts
                               that move the prior) */
    uint32_t place;         /* where it is answered; NO_PLACE: anywhere */
} question_option;

typedef struct choice_input {
    uint32_t cause_count;
    const fix_option *fixes;
    uint32_t fix_count;
    const question_option *questions; /* those that may be asked now */
    uint32_t question_count;
    uint32_t again_count; /* behind those: further looks at what was answered */
    choice_rules rules;
    const callee *callees; /* none: calling costs the same whatever is known */
    uint32_t callee_count;
    bool sends; /* whoever asks sends for those who come next, whatever is known; else for somebody
                   from outside where none of them is likely to be of use */
    /* [from * place_count + to] minutes; null: nobody walks, and places say nothing */
    const double *walk;
    uint32_t place_count;
    uint32_t here; /* where the person is, or NO_PLACE: nobody knows */
} choice_input;

/* Minutes from one place to another, and where somebody is afterwards. */
double choose_walk(const choice_input *in, uint32_t from, uint32_t to);
uint32_t choose_stand(const choice_input *in, uint32_t from, uint32_t to);

typedef enum fix_standing { FIX_LIKELY, FIX_POSSIBLE, FIX_NOT_YET, FIX_CLOSED } fix_standing;

typedef struct ranked_fix {
    uint32_t fix;
    fix_standing standing;
    double chance; /* rho: chance that it cures, of the weights given */
} ranked_fix;

/* Order to try now: likely ones lowest level first, but a possible one before the first likely one
 * that is not safer and cures less per minute; then possible ones by ratio, then not yet (by ratio;
 * those that wait for another too), then closed (by ratio). What opens the way to a better one
 * stands where the two of them together would. w[0] something not listed, w[1 + c] cause c; need
 * not be normalised. out[fix_count]. */
void choose_order(const choice_input *in, arena *scratch, const double *w, ranked_fix *out);
/* The same, and cheaper where the order was about that of `near` (all of the fixes) not long ago.
 */
void choose_order_near(const choice_input *in, arena *scratch, const double *w,
                       const uint32_t *near, ranked_fix *out);

/* What the order goes by, of one fix on these weights. */
typedef struct fix_measure {
    fix_standing standing;
    bool waits;    /* for another one that is to be tried first */
    double chance; /* that it cures */
    double least;  /* chance from which it is worth trying */
    double cost;   /* minutes, with walking there and the price of its being needless */
} fix_measure;
fix_measure choose_measure(const choice_input *in, arena *scratch, const double *w, uint32_t fix);

/* UF(w): expected minutes (unnormalised: times Σw) of trying fixes in order under the thresholds,
 * recomputed after each failure, stopping at the cheapest prefix and calling then, which costs
 * waiting and what whoever comes needs (call_value.h). `first` (may be null) gets the first fix, or
 * UINT32_MAX. */
double choose_fix_value(const choice_input *in, arena *scratch, const double *w, uint32_t *first);

typedef enum step_kind { STEP_ASK, STEP_FIX, STEP_CALL } step_kind;

typedef struct choice {
    step_kind step;
    uint32_t question; /* q*, the best question, or UINT32_MAX; also when the step is not ASK */
    uint32_t fix;      /* the first fix, or UINT32_MAX */
    uint32_t with;     /* the fix that is done under the same set-up before that is given back, or
                          UINT32_MAX */
    double bits;       /* gain of q* */
    double value_ask, value_fix,
        value_call;  /* minutes per call (normalised); INFINITY where there is none */
    uint32_t callee; /* whom to call: likely to be of use at what is known, and costs least; or
                        NO_CALLEE */
    bool for_callee; /* q* is asked, and somebody is called next whatever the answer: it is for them
                      */
    double saves_minutes; /* min(fix, call) − ask: what asking first saves */
    bool again; /* the question is one of the further looks: it may spare a fix that costs more than
                   its minutes */
    bool settles; /* it would be time for the fix, but this question is where it is done and settles
                     whether it is needed */
} choice;

choice choose_step(const choice_input *in, arena *scratch, const double *w);

/* Parts of it, for tests and golden cases: minutes_q Z + Σ_y UF(w_y), and V_ask, V_fix, U1 as in
 * the mathematics (unnormalised). */
double choose_ask_once(const choice_input *in, arena *scratch, const double *w, uint32_t question);

#endif
