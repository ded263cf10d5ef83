/* The command that takes a case up again, with all that it needs to be typed anywhere and at any
 * time. */
#ifndef TT_CLI_GO_ON_H
#define TT_CLI_GO_ON_H

/* What is the same for all cases: the program, and where they are kept. */
typedef struct way_back {
    char *program; /* a word for the shell */
    char *root;    /* absolute */
    char *cases;   /* the option that names it, or "": it is the one that is used where nothing is
                      said */
} way_back;
/* `program`: as it was called. `cases`: the folder as it was named, or null. */
way_back way_back_to(const char *program, const char *cases);
void way_back_free(way_back *way);

typedef struct go_on {
    const char *number, *folder; /* folder: null if it lies where cases are kept, for sure */
    const char *book;            /* another than the case names; or null */
    const char *options; /* that the case does not remember, each with a space before it; or null */
} go_on;
/* Freed by the caller. A case that does not lie where cases are kept is named by its folder. */
char *go_on_command(const way_back *way, const go_on *c);

#endif
