/* Some of many cases, in a few words each. */
#ifndef TT_CLI_CASE_LIST_H
#define TT_CLI_CASE_LIST_H

#include <stddef.h>
#include <stdint.h>

#include "host/exits.h"
#include "summary/case_summary.h"

typedef struct case_query {
    unsigned states;             /* bits: 1 << tt_case_state */
    unsigned kinds;              /* bits: 1 << tt_case_kind */
    int64_t since, until;        /* when it began, in milliseconds since 1970; both are in */
    const char *number;          /* as case_number_typed writes it; null: any */
    const char *at, *cause, *to; /* folded parts of the site, of the cause's words or name, of whom
                                    it is for; null: any */
    bool by_end;                 /* only those that ended… */
    int64_t ended_until;         /* …then or earlier */
    const char *book;            /* only of the book with this title; null: any */
    const char *site_path, *site_title; /* whoever asks wants one site alone, and will look for
                                           himself: others may be left out */
    char **words;                       /* folded, all of them in the case's texts */
    size_t word_count;
} case_query;

typedef struct case_list {
    case_summary *cases; /* in the order in which they began */
    size_t count;
    size_t looked_at; /* cases of that number and time, whether they fit the rest or not */
    size_t failed;    /* folders or files that could not be read; the first of them was said */
} case_list;

void case_list_free(case_list *list);

#endif
