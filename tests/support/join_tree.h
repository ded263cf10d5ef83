/* Networks for the program tests/reference/exact_by_join_tree.cpp: written one by one, answered
 * all at once. */
#ifndef TT_SUPPORT_JOIN_TREE_H
#define TT_SUPPORT_JOIN_TREE_H

#include <stdint.h>
#include <stdio.h>

enum { JOIN_NODES = 64, JOIN_PARENTS = 8 };

/* Nodes have two values. `chance(context, parents)` is that of 1, where bit i of `parents` is the
 * value of the node's parent i. */
typedef double (*join_chance)(const void *context, uint32_t parents);

typedef struct join_network {
    struct join_node {
        uint32_t parents[JOIN_PARENTS], parent_count;
        double table[1 << JOIN_PARENTS]; /* [parents] of 1 */
    } nodes[JOIN_NODES];
    uint32_t count;
    uint32_t known[JOIN_NODES]; /* value, or JOIN_NOT_KNOWN */
} join_network;
#define JOIN_NOT_KNOWN 2

/* Returns the node's number. Parents were added before. */
uint32_t join_add(join_network *n, const uint32_t *parents, uint32_t parent_count,
                  join_chance chance, const void *context);
void join_write(FILE *out, const join_network *n);
/* Of the next network: [node] chance of 1. A line that is missing fails the test. */
void join_read(FILE *in, const join_network *n, double *chance);

#endif
