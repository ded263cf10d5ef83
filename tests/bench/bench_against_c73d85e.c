/* Minutes that both roles work, waiting aside, on calls that the program of commit c73d85e hands
 * over: ours over its own.
 *
 *     bench_against_c73d85e [FIRST [COUNT]]
 *
 * foam-line-c73d85e/ is that commit's book of the foam line, moved to edition 2, with its word
 * chances as numbers; calls-c73d85e.txt are calls that its program drew (seed 1), with what is
 * wrong, what is true of every question, and how long its attendant and whoever was called worked.
 * Ours plays the same calls with the same luck: slips, cures and reports are drawn by the same
 * names. See docs/mathematics.md, "Against c73d85e". */
#include <assert.h>
#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "rehearse/play.h"

#define HERE TT_SOURCE_DIR "/tests/bench/"

enum { LINE = 1 << 14, FILES = 64, ROLES = 3 };

typedef struct theirs {
    uint64_t number;
    char causes[256], complaint[128], end[32];
    double minutes[ROLES];
} theirs;

typedef struct sums {
    uint64_t calls, cured, cured_by_them, complaints, handed;
    double ours, squares, its, its_squares, product, first, later, its_first, changes;
} sums;

static void *must(void *p)
{
    if (p == NULL) abort();
    return p;
}

static char *read_all(const char *path, size_t *length)
{
    FILE *in = must(fopen(path, "rb"));
    char *bytes = must(calloc(1, 1 << 20));
    *length = fread(bytes, 1, (1 << 20) - 1, in);
    fclose(in);
    return bytes;
}

static int by_name(const void *a, const void *b)
{
    const tt_source *x = a, *y = b;
    return strcmp(x->name, y->name);
}

static tt_book *load_book(void)
{
    tt_source files[FILES];
    size_t count = 0;
    DIR *folder = must(opendir(HERE "foam-line-c73d85e"));
    for (struct dirent *e; (e = readdir(folder)) != NULL;) {
        char path[1024];
        if (strstr(e->d_name, ".yaml") == NULL) continue;
        snprintf(path, sizeof path, "%s/%s", HERE "foam-line-c73d85e", e->d_name);
        tt_source *s = &files[count++];
        s->name = must(strdup(e->d_name));
        s->bytes = read_all(path, &s->length);
    }
    closedir(folder);
    qsort(files, count, sizeof *files, by_name);
    tt_book *book;
    tt_report *report;
    if (tt_book_load(files, count, &book, &report) != TT_OK) fputs(tt_report_text(report), stderr);
    tt_report_free(report);
    return must(book);
}

/* ---- the calls ---- */

typedef struct table { /* theirs, by number */
    char *names[512], *usual[512];
    uint32_t ours[512]; /* question, or TT_NONE */
    uint32_t count;
} table;

static void add_question(table *t, const tt_book *book, char *line)
{
    char *colon = must(strstr(line, ": "));
    *colon = 0;
    t->names[t->count] = must(strdup(line));
    t->usual[t->count] = must(strdup(colon + 2));
    t->ours[t->count++] = tt_question_find(book, line);
}

static bool set_state(made_call *call, uint32_t q, const char *is)
{
    const program *p = call->from->prog;
    const struct question *asked = &p->book->questions[q];
    if (asked->kind == QUESTION_CHOICE) {
        for (uint32_t i = 0; i < asked->answer_count; i++)
            if (str_eq(asked->answers[i].id.name, str_of(is))) call->state[q] = i;
        return true;
    }
    char *end;
    const double number = strtod(is, &end);
    if (*end == 0 && end != is) call->state[q] = program_state_of(p, q, number);
    return *end == 0;
}

/* The next run of other letters than `ends`, cut off; null: none is left. */
static char *next_word(char **at, const char *ends)
{
    char *word = *at + strspn(*at, ends);
    if (*word == 0) return NULL;
    *at = word + strcspn(word, ends);
    if (**at != 0) *(*at)++ = 0;
    return word;
}

static void set_causes(made_call *call, char *names)
{
    const book *b = call->from->prog->book;
    call->size = 0;
    for (char *name; (name = next_word(&names, ",")) != NULL;) {
        while (*name == ' ') name++;
        if (strcmp(name, "-") == 0) continue;
        const uint32_t cause = book_cause(b, str_of(name));
        if (cause == NO_ID) abort();
        call->causes[call->size++] = cause;
    }
    uint32_t size, causes[2];
    for (uint32_t h = 0; h < belief_count(call->in->prior); h++) {
        belief_hypothesis(call->in->prior, h, &size, causes);
        bool same = size == call->size;
        for (uint32_t k = 0; k < size && same; k++) same = call_has(call, causes[k]);
        if (same) call->hypothesis = h;
    }
}

static void set_signs(made_call *call, const table *t, char *line)
{
    for (uint32_t i = 0; i < t->count; i++)
        if (t->ours[i] != TT_NONE) set_state(call, t->ours[i], t->usual[i]);
    for (char *one; (one = next_word(&line, " \n")) != NULL;) {
        char *is = must(strchr(one, '='));
        const uint32_t i = (uint32_t)strtoul(one, NULL, 10);
        if (i >= t->count) abort();
        if (t->ours[i] != TT_NONE) set_state(call, t->ours[i], is + 1);
    }
}

/* "call 5: causes / complaint / minutes / end" */
static theirs read_call(const char *line)
{
    theirs x = {0};
    unsigned long long number;
    char minutes[128];
    if (sscanf(line, "call %llu: %255[^/] / %127[^/] / %127[^/] / %31s", &number, x.causes,
               x.complaint, minutes, x.end) != 5 ||
        sscanf(minutes, "%lf %lf %lf", &x.minutes[0], &x.minutes[1], &x.minutes[2]) != ROLES)
        abort();
    x.number = number;
    while (*x.causes != 0 && x.causes[strlen(x.causes) - 1] == ' ')
        x.causes[strlen(x.causes) - 1] = 0;
    return x;
}

/* ---- played ---- */

typedef struct bench {
    const tt_book *book;
    arena *keep, *of_call;
    made_from from;
    world in;
    sums sum;
} bench;

static tt_case *fresh(const bench *b)
{
    tt_case *c = NULL;
    if (tt_case_new(b->book, NULL, &c) != TT_OK) abort();
    return c;
}

static void note(sums *s, const played *p, const theirs *x)
{
    const double ours = p->working + p->over.minutes,
                 its = x->minutes[0] + x->minutes[1] + x->minutes[2];
    s->calls++;
    s->ours += ours;
    s->squares += ours * ours;
    s->its += its;
    s->its_squares += its * its;
    s->product += ours * its;
    s->first += p->working;
    s->later += p->over.minutes;
    s->its_first += x->minutes[0];
    s->handed += p->over.times > 0;
    s->cured += p->end == END_CURED || p->over.end == END_CURED;
    s->cured_by_them += strcmp(x->end, "cured") == 0;
    s->changes += p->place_changes + p->over.place_changes;
}

static void play(bench *b, const table *t, theirs *x, char *signs)
{
    made_call call;
    played out;
    arena_back_to(b->of_call, (arena_mark){NULL, 0});
    tt_case *c = fresh(b);
    if (call_draw(b->of_call, b->of_call, &b->from, &b->in, x->number, c, &call) != TT_OK) abort();
    tt_case_free(c);
    set_causes(&call, x->causes);
    set_signs(&call, t, signs);
    c = fresh(b);
    if (call_play(b->of_call, c, &call, WAY_TELLTALE, &out) != TT_OK) abort();
    note(&b->sum, &out, x);
    tt_case_free(c);
}

static void print_sums(const sums *s)
{
    const double n = (double)s->calls, ratio = s->ours / s->its;
    const double squares = s->squares - 2 * ratio * s->product + ratio * ratio * s->its_squares;
    printf("%llu calls that c73d85e hands over\n", (unsigned long long)s->calls);
    printf("minutes worked, waiting aside: ours %.1f (%.1f before, %.1f after a hand-over), its "
           "%.1f (%.1f and %.1f)\n",
           s->ours / n, s->first / n, s->later / n, s->its / n, s->its_first / n,
           (s->its - s->its_first) / n);
    printf("ours over its: %.3f ± %.3f\n", ratio,
           1.96 * sqrt(squares / (n - 1) / n) / (s->its / n));
    printf("handed over %llu; cured in the end %llu, by it %llu; changes of place %.1f a call\n",
           (unsigned long long)s->handed, (unsigned long long)s->cured,
           (unsigned long long)s->cured_by_them, s->changes / n);
}

int main(int argc, char **argv)
{
    const uint64_t first = argc > 1 ? strtoull(argv[1], NULL, 10) : 0,
                   most = argc > 2 ? strtoull(argv[2], NULL, 10) : UINT64_MAX;
    bench b = {
        .book = load_book(), .keep = arena_new(NULL, NULL), .of_call = arena_new(NULL, NULL)};
    b.from = (made_from){.prog = b.book->prog, .seed = 1};
    b.in = world_written(b.keep, b.book->prog);
    table *t = must(calloc(1, sizeof *t));
    FILE *in = must(fopen(HERE "calls-c73d85e.txt", "r"));
    static char line[LINE], signs[LINE];
    for (uint64_t i = 0; fgets(line, sizeof line, in) != NULL && i < first + most;) {
        line[strcspn(line, "\n")] = 0;
        if (strncmp(line, "question ", 9) == 0) add_question(t, b.book, line + 9);
        if (strncmp(line, "call ", 5) != 0 || fgets(signs, sizeof signs, in) == NULL) continue;
        theirs x = read_call(line);
        if (i++ >= first) play(&b, t, &x, signs);
    }
    fclose(in);
    print_sums(&b.sum);
    return 0;
}
