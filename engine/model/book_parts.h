/* What several sections of a book are made of: equipment, conditions, what people say, and harm. */
#ifndef TT_MODEL_BOOK_PARTS_H
#define TT_MODEL_BOOK_PARTS_H

#include <stdbool.h>
#include <stdint.h>

#include "base/pattern.h"
#include "base/str.h"
#include "measure/amount.h"
#include "measure/formula.h"
#include "model/basics.h"

/* ---- equipment ---- */
/* A kind of equipment (foam applicator), and its pieces at the site (the left floor applicator).
 * What is written once for each piece of a kind is read once for each piece there is, so all that
 * follows sees ground entries only, named "foam-look of floor-left". */
typedef struct equipment_kind {
    label id;
    texts one, ask, unnamed; /* "applicator"; "Which applicators are there, in the order …?"; what
                                one is called of which a site need name none */
    uint32_t hangs_on;       /* the kind on one of whose pieces each of these hangs, or NO_ID */
    bool lone; /* no more than one, of which a site need name none: what is written for each keeps
                  its bare name */
} equipment_kind;
typedef struct piece {
    label id;
    uint32_t kind;
    texts text;
    ids after;         /* pieces that come after it, also by way of others */
    uint32_t hangs_on; /* the piece on which this one hangs; NO_ID: on none, or on a lone one */
    bool stand_in;     /* no site says what there is: the rules are read with two of each kind */
} piece;
typedef struct owner { /* whose an entry is */
    str base;          /* its name as the author wrote it */
    uint32_t piece;    /* NO_ID: shared, or of a lone one */
    uint32_t second;   /* rules for each pair: the later piece; else NO_ID */
    uint32_t lone;     /* 1 + the kind whose lone piece it is of; 0: none */
} owner;

/* ---- conditions ---- */
typedef enum cond_kind {
    COND_ANSWER,     /* question `subject` has one of `answers` (mask over its answers) */
    COND_RANGE,      /* reading or count `subject` lies in the interval */
    COND_KNOWN,      /* question answered with certainty */
    COND_SYMPTOM,    /* symptom `subject` shown */
    COND_CONCLUSION, /* conclusion `subject` has one of `answers` */
    COND_ALL,
    COND_ANY,
    COND_NONE,
    COND_AT_LEAST,
    COND_NOT /* NOT: parts[0] */
} cond_kind;
typedef struct cond cond;
struct cond {
    cond_kind kind;
    span at;
    uint32_t subject;
    uint32_t number; /* AT_LEAST */
    uint64_t answers;
    double low, high; /* -INFINITY, INFINITY: open ended */
    const cond *const *parts;
    uint32_t count;
    bool low_in, high_in; /* does the interval include that end? */
};

/* ---- words ---- */
typedef struct heard { /* one of: */
    span at;
    str plain;              /* plain words, matched loosely */
    const pattern *pattern; /* or a compiled pattern */
} heard;
typedef struct heard_list {
    const heard *items;
    uint32_t count;
} heard_list;

/* What to do in a danger that has happened: the book's own, and ours where the book replaces none.
 */
typedef struct emergency {
    label id;
    str replaces; /* id of one of ours that stands no longer; may be empty */
    bool ours;
    texts text; /* what has happened */
    heard_list heard;
    texts_list do_now,
        then;      /* one instruction a line, the most urgent first; what comes after that */
    uint32_t call; /* role or NO_ID */
    texts source;
} emergency;

typedef struct contact {        /* whom to call at the site */
    uint32_t role;              /* or NO_ID: `purpose` says for what */
    texts purpose, post, hours; /* purpose and hours may be empty */
    str telephone;
    span at;
} contact;

/* ---- harm ---- */
typedef enum harm_worst {
    HARM_CATASTROPHIC,
    HARM_CRITICAL,
    HARM_MARGINAL,
    HARM_NEGLIGIBLE
} harm_worst;
typedef enum harm_chance {
    CHANCE_FREQUENT,
    CHANCE_PROBABLE,
    CHANCE_OCCASIONAL,
    CHANCE_REMOTE,
    CHANCE_IMPROBABLE,
    CHANCE_ELIMINATED
} harm_chance;
typedef enum hazard {
    HAZARD_MOVING_PARTS,
    HAZARD_ELECTRICITY,
    HAZARD_PRESSURE,
    HAZARD_CHEMICALS,
    HAZARD_HOT_WATER,
    HAZARD_SLIPS,
    HAZARD_HEIGHT,
    HAZARD_VEHICLES,
    HAZARD_LIFTING,
    HAZARD_GRAVITY,
    HAZARD_HOT_SURFACE,
    HAZARD_FIRE,
    HAZARD_FUMES,
    HAZARD_NOISE,
    HAZARD_SHARP,
    HAZARD_STORED_ENERGY,
    HAZARD_CONFINED_SPACE,
    HAZARD_COUNT
} hazard;
const char *hazard_name(hazard h);                       /* as the author writes it */
extern const char *const hazard_names[HAZARD_COUNT + 1]; /* all of them; NULL ends */
/* What a procedure isolates. */
typedef enum energy {
    ENERGY_ELECTRICITY,
    ENERGY_PRESSURE,
    ENERGY_MOVING_PARTS,
    ENERGY_GRAVITY,
    ENERGY_HEAT,
    ENERGY_STORED,
    ENERGY_COUNT
} energy;
const char *energy_name(energy e);                       /* as the author writes it */
extern const char *const energy_names[ENERGY_COUNT + 1]; /* all of them; NULL ends */
typedef enum work_state {
    WORK_UNSAID,
    WORK_RUNNING,
    WORK_STOPPED,
    WORK_ISOLATED
} work_state; /* how the equipment is meanwhile */
typedef struct safety {
    bool any; /* false: harm: none */
    bool hazards[HAZARD_COUNT];
    harm_worst unprotected_worst, protected_worst;
    harm_chance unprotected_chance, protected_chance;
    texts_list protect; /* what to wear, also for its procedures */
    /* In the order of 29 CFR 1910.147 (c)(9), (d), (e): its procedures' one after the other, giving
     * back the last one first. */
    texts_list tell, isolate, release, prove, restore;
    const uint32_t *procedures; /* in the order as written */
    uint32_t procedure_count;
    bool by_hand; /* it isolates by lines of its own */
    work_state state;
    texts why; /* RUNNING: why it must run; may be empty */
    span at;   /* of what says it; nowhere: nothing does */
} safety;

/* Entries of `protection` and `harms`. Whatever names one has a copy, so they are here for who
 * lists names alone. */
typedef struct named_wear {
    label id;
    texts_list worn;
} named_wear;
typedef struct named_harm {
    label id;
    safety harm;
} named_harm;
/* Whoever does it isolates and locks. */
static inline bool safety_isolates(const safety *s)
{
    return s->procedure_count > 0 || s->isolate.count > 0;
}
/* How energy is isolated and given back, written once. */
typedef struct procedure {
    label id;
    owner of;
    bool energies[ENERGY_COUNT];
    texts tell;
    texts_list isolate, release, prove, restore, wear;
    double minutes; /* of those of each fix by it; 0: nobody said */
} procedure;

typedef enum put_back_kind {
    PUT_BACK_TEXT,
    PUT_BACK_NOT_NEEDED,
    PUT_BACK_IMPOSSIBLE
} put_back_kind;
typedef struct put_back {
    put_back_kind kind;
    texts text;
} put_back;

#endif
