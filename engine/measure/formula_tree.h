/* What a formula is made of: for the files of this folder that read and compute it. */
#ifndef TT_MEASURE_FORMULA_TREE_H
#define TT_MEASURE_FORMULA_TREE_H

#include "measure/formula.h"

typedef enum formula_kind {
    FORMULA_NUMBER,
    FORMULA_INPUT,
    FORMULA_SUM,     /* parts added, those `against` taken away */
    FORMULA_PRODUCT, /* parts multiplied, those `against` divided by */
    FORMULA_MINUS,   /* the one part, negative */
    FORMULA_CALL,
} formula_kind;

typedef enum formula_call {
    CALL_MIN,
    CALL_MAX,
    CALL_ABS,
    CALL_SQRT,
    CALL_SUM,
    CALL_MEAN
} formula_call;
enum { CALL_COUNT = CALL_MEAN + 1 };

/* Sums and products have any number of parts, so the tree is no deeper than the brackets are. */
typedef struct formula_node {
    formula_kind kind;
    formula_call call;
    value_type type;
    bool open;         /* fits any type: no unit of its kind exists, or its name is not known */
    bool against;      /* see SUM and PRODUCT */
    uint32_t from, to; /* bytes of the text, brackets round it included */
    struct formula_node *first, *next; /* parts; the next part of the same whole */

    str digits;          /* NUMBER: as written, "1 1/2", "-5", "1:50" */
    double number;       /* NUMBER: in unit `in` */
    uint32_t subject;    /* INPUT */
    unit in;             /* NUMBER, INPUT */
    double base, weight; /* NUMBER: in base units, and the largest magnitude on the way there */
} formula_node;

struct formula {
    const formula_node *root;
    const uint32_t *subjects;
    uint32_t subject_count;
};

extern const char *const formula_call_names[CALL_COUNT];

/* min, max, sum, mean: they take a list, and "of every". */
bool formula_call_lists(formula_call c);

/* A number in a unit, in base units; `weight` is the largest magnitude met. */
double formula_to_base(const unit *in, double number, double *weight);

#endif
