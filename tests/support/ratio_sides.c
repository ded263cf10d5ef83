#include "ratio_sides.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/sorted.h"
#include "believe/belief.h"
#include "choice_twin.h"
#include "luck.h"
#include "made_book.h"
#include "session/session.h"
#include "shipped_books.h"

enum { STATES = 3, LISTED = 8, QUESTIONS = 2000 };
enum { A_FIFTH = 5 }; /* of the entries of a made-up book are causes */

static void fail(const char *what)
{
    fprintf(stderr, "ratios: %s\n", what);
    exit(2);
}

static void must(bool done, const char *what)
{
    if (!done) fail(what);
}

static tt_book *made(uint32_t entries, size_t *size)
{
    arena *keep = arena_new(NULL, NULL);
    must(keep != NULL, "no memory");
    const str bytes = made_book(keep, entries);
    const tt_source file = {"made.yaml", bytes.p, bytes.n};
    tt_book *book = NULL;
    tt_report *report = NULL;
    must(tt_book_load(&file, 1, &book, &report) == TT_OK, "the made book does not load");
    tt_report_free(report);
    *size = bytes.n;
    arena_free(keep);
    return book;
}

/* ---- the next question ---- */

typedef struct asking {
    uint32_t causes;
    prediction *seen;
    double *weights, *logs;
    double best;
} asking;

static asking drawn[3];

static void draw_row(uint64_t *random, double *row)
{
    double total = 0;
    for (uint32_t y = 0; y < STATES; y++) total += row[y] = .02 + pow(luck_share(random), 3);
    for (uint32_t y = 0; y < STATES; y++) row[y] /= total;
}

static asking *asking_of(uint32_t causes)
{
    static arena *keep;
    asking *a = drawn;
    while (a->causes != 0 && a->causes != causes) a++;
    if (a->causes == causes) return a;
    if (keep == NULL) keep = arena_new(NULL, NULL);
    must(keep != NULL, "no memory");
    uint64_t random = 5;
    *a = (asking){causes, ARENA_ARRAY(keep, prediction, QUESTIONS),
                  ARENA_ARRAY(keep, double, (size_t)causes + 1),
                  ARENA_ARRAY(keep, double, (size_t)causes + 1), 0};
    for (uint32_t q = 0; q < QUESTIONS; q++) {
        double *rows = ARENA_ARRAY(keep, double, STATES *(LISTED + 2));
        uint32_t *listed = ARENA_ARRAY(keep, uint32_t, LISTED);
        for (uint32_t i = 0; i < LISTED + 2; i++) draw_row(&random, &rows[i * STATES]);
        for (uint32_t i = 0; i < LISTED; i++)
            listed[i] = i * (causes / LISTED) + luck_below(&random, causes / LISTED);
        a->seen[q] = (prediction){.states = STATES,
                                  .base = rows,
                                  .other = rows + STATES,
                                  .listed_count = LISTED,
                                  .listed = listed,
                                  .rows = rows + 2 * STATES};
        prediction_prepare(keep, &a->seen[q]);
    }
    for (uint32_t h = 0; h <= causes; h++) a->weights[h] = exp(6 * luck_share(&random));
    return a;
}

void sparse_gains(uint32_t causes)
{
    asking *a = asking_of(causes);
    const weight_totals all = weight_totals_of(a->weights, causes + 1, a->logs);
    a->best = 0;
    for (uint32_t q = 0; q < QUESTIONS; q++)
        a->best = fmax(a->best, prediction_gain_given(&a->seen[q], a->weights, all, NULL));
}

static const double *dense_row(const prediction *p, uint32_t h)
{
    if (h == 0) return p->other;
    const uint32_t place = place_of_id(p->listed, p->listed_count, h - 1);
    return place < p->listed_count ? p->rows + (size_t)place * p->states : p->base;
}

static double x_log_x(double x)
{
    return x > 0 ? x * log2(x) : 0;
}

/* H(cause) + H(answer) - H(both), over all causes. */
static double dense_gain(const asking *a, const prediction *p)
{
    double sum = 0, causes = 0, both = 0, answers = 0, mass[STATES] = {0};
    for (uint32_t h = 0; h <= a->causes; h++) sum += a->weights[h];
    for (uint32_t h = 0; h <= a->causes; h++) {
        const double w = a->weights[h] / sum, *row = dense_row(p, h);
        causes -= x_log_x(w);
        for (uint32_t y = 0; y < STATES; y++) {
            mass[y] += w * row[y];
            both -= x_log_x(w * row[y]);
        }
    }
    for (uint32_t y = 0; y < STATES; y++) answers -= x_log_x(mass[y]);
    return causes + answers - both;
}

void dense_gains(uint32_t causes)
{
    const asking *a = asking_of(causes);
    double best = 0;
    for (uint32_t q = 0; q < QUESTIONS; q++) best = fmax(best, dense_gain(a, &a->seen[q]));
    if (a->best != 0 && fabs(best - a->best) > 1e-12 * fmax(1, best)) fail("gains differ");
}

/* ---- decisions ---- */

typedef struct deciding {
    uint32_t causes, next;
    tt_book *book;
    tt_case *c;
} deciding;

/* Else the next step is the gate's question, and nothing is weighed. */
static void rule_danger_out(tt_case *c)
{
    const tt_view *v;
    tt_question asked;
    must(tt_look(c, &v) == TT_OK && v->gate.state == TT_GATE_ASK, "no gate");
    must(tt_question_show(c, v->gate.question, &asked) == TT_OK, "no gate");
    tt_reply safe = {.kind = TT_ANSWER};
    while ((asked.safe_options >> safe.option & 1) == 0) safe.option++;
    must(tt_answer(c, v->gate.question, &safe) == TT_OK, "not answered");
    must(tt_look(c, &v) == TT_OK && v->gate.state == TT_GATE_OPEN, "the gate stays shut");
}

static deciding *deciding_on(uint32_t causes)
{
    static deciding all[3];
    size_t size;
    deciding *d = all;
    while (d->causes != 0 && d->causes != causes) d++;
    must(d < all + 3, "more sizes than expected");
    if (d->causes == causes) return d;
    *d = (deciding){.causes = causes, .book = made(causes * A_FIFTH, &size)};
    must(tt_case_new(d->book, &(tt_options){.role = TT_NONE}, &d->c) == TT_OK, "no case");
    must(tt_no_complaint(d->c) == TT_OK, "no case");
    rule_danger_out(d->c);
    return d;
}

void next_step(uint32_t causes)
{
    deciding *d = deciding_on(causes);
    const tt_view *v;
    const uint32_t questions = d->book->book->question_count;
    uint32_t question = d->next++ % questions;
    while (d->book->book->questions[question].kind != QUESTION_CHOICE)
        question = d->next++ % questions;
    const tt_reply reply = {.kind = TT_ANSWER, .option = 0};
    must(tt_answer(d->c, question, &reply) == TT_OK, "no answer");
    must(tt_look(d->c, &v) == TT_OK, "no look");
    must(tt_undo(d->c) == TT_OK, "not taken back");
}

static double sum_of(const double *numbers, size_t count)
{
    double sum = 0;
    for (size_t i = 0; numbers != NULL && i < count; i++) sum += numbers[i];
    return sum;
}

void all_rows_read(uint32_t causes)
{
    static volatile double read;
    const net *n = deciding_on(causes)->book->prog->evidence;
    double sum = 0;
    for (uint32_t i = 0; i < n->component_count; i++) {
        const component *g = &n->components[i];
        const size_t rows = (size_t)g->listed_count + 2;
        sum += sum_of(g->table, (size_t)g->listed_count * g->atom_count) +
               sum_of(g->base, g->atom_count) + sum_of(g->other, g->atom_count) +
               sum_of(g->slices, g->slice_count * rows * g->atom_count);
    }
    read = sum;
    (void)read;
}

/* ---- worked cases ---- */

static tt_book *foam_line(void)
{
    static tt_book *book;
    arena *keep = arena_new(NULL, NULL);
    must(keep != NULL, "no memory");
    const shipped_book shipped = shipped_named(keep, "foam-line");
    if (book == NULL) book = shipped_load(keep, &shipped);
    arena_free(keep);
    return book;
}

static void same_trial(const tt_trial *a, const tt_trial *b)
{
    must(strcmp(a->name, b->name) == 0 && strcmp(a->leads, b->leads) == 0 &&
             memcmp(&a->chance, &b->chance, sizeof a->chance) == 0 && a->rank == b->rank &&
             a->fix == b->fix,
         "a worked case comes out otherwise");
}

void cases_in_one_room(uint32_t unused)
{
    (void)unused;
    tt_trials all;
    must(tt_try(foam_line(), &all) == TT_OK && all.count > 0, "no worked cases");
}

void cases_anew(uint32_t unused)
{
    (void)unused;
    static tt_trials quick;
    if (quick.count == 0) must(tt_try(foam_line(), &quick) == TT_OK, "no worked cases");
    for (uint32_t i = 0; i < quick.count; i++) {
        tt_trial slow;
        tt_case *c;
        must(tt_try_case(foam_line(), i, &slow, &c) == TT_OK, "no worked case");
        same_trial(&quick.items[i], &slow);
        tt_case_free(c);
    }
}

/* ---- memory ---- */

static long most_pages(void)
{
    struct rusage use;
    getrusage(RUSAGE_SELF, &use);
    return use.ru_maxrss; /* in kilobytes */
}

double load_fills(uint32_t entries)
{
    int ends[2];
    double ratio = 0;
    must(pipe(ends) == 0, "no pipe");
    const pid_t child = fork();
    must(child >= 0, "no process");
    if (child == 0) {
        size_t size;
        const long before = most_pages();
        tt_book *book = made(entries, &size);
        ratio = 1024.0 * (double)(most_pages() - before) / (double)size - 1; /* the file itself */
        tt_book_free(book);
        _exit(write(ends[1], &ratio, sizeof ratio) == (ssize_t)sizeof ratio ? 0 : 1);
    }
    must(read(ends[0], &ratio, sizeof ratio) == (ssize_t)sizeof ratio, "the process tells nothing");
    must(waitpid(child, NULL, 0) == child, "no process");
    close(ends[0]);
    close(ends[1]);
    return ratio;
}
