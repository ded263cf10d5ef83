/* A long list on a terminal goes through the program that the person has named for that ($PAGER). */
#ifndef TT_CLI_PAGER_H
#define TT_CLI_PAGER_H

#include <stdbool.h>
#include <stdio.h>

typedef struct pager {
    FILE *pipe; /* null: there is none */
    int was;    /* standard output before */
} pager;

/* From now on standard output goes there, if it is a terminal and one is named. What is shown must
 * know its terminal already (screen_on). */
pager pager_begin(bool wanted);
/* Waits until the person has left it. */
void pager_end(pager *p);

#endif
