/* What the bench tells after each save: in lines, and as a page. */
#ifndef TT_CLI_BENCH_FACE_H
#define TT_CLI_BENCH_FACE_H

#include "books/bench_look.h"
#include "paper/paper_words.h"

typedef struct bench_told {
    unsigned saves;                /* 0: the book as it was found */
    const book_look *now, *before; /* before: the last one that loads, or null */
} bench_told;

/* What check says; then, once they were played, the cases and what moved. */
void bench_say_check(FILE *out, const bench_told *told);
void bench_say_cases(FILE *out, const bench_told *told);
void bench_on_paper(FILE *out, const paper_kind *kind, arena *keep, const char *folder,
                    const bench_told *told);

#endif
