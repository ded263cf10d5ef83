/* The tree of a file that is loaded again with the same bytes. */
#ifndef TT_LOAD_MOVED_TREE_H
#define TT_LOAD_MOVED_TREE_H

#include "load/nodes.h"

typedef struct moved_tree {
    arena *keep;
    uint32_t file; /* its place among the files now */
} moved_tree;

/* Null for null. Nothing of it stands in what the tree was built in. */
const node *node_moved(const moved_tree *m, const node *n);

#endif
