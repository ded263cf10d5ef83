/* A pump with two fixes under one lockout, so that the second can be done while all is locked:
 * "renew" (35 minutes, for what is worn) before "tighten" (36, for what is slack). The complaint is
 * "bad-look". */
#ifndef TT_SUPPORT_TWO_JOBS_H
#define TT_SUPPORT_TWO_JOBS_H

#include "telltale.h"

typedef struct two_jobs {
    const char *roles;           /* "[{hand: {authorised: yes}}]" */
    const char *questions;       /* more of them; null: none */
    const char *renew, *tighten; /* more lines of each fix: its role, what is worn, its steps */
} two_jobs;
/* Freed by tt_book_free. */
tt_book *two_jobs_book(const two_jobs *how);

#endif
