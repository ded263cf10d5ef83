/* What is long on a terminal goes through the program that the person has named for that ($PAGER):
 * once it is whole, so that what is asked, waited for or gone wrong until then has the terminal. */
#ifndef TT_CLI_PAGER_H
#define TT_CLI_PAGER_H

#include <stdbool.h>
#include <stdio.h>

typedef struct pager {
    FILE *kept; /* what it is to show; null: there is none */
    int was;    /* standard output before */
} pager;

/* From now on standard output goes there, if it is a terminal and one is named. It is laid out as
 * for that terminal (screen_on). */
pager pager_begin(bool wanted);
/* Shows it, if there is anything, and waits until the person has left. */
void pager_end(pager *p);

#endif
