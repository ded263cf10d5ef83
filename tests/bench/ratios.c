/* How fast the engine is, as ratios of two things measured one after the other in one run: machines
 * differ, and are shared, and what is left of that in a ratio is little.
 *
 *     ratios [--runs N] [--only L1,Q1] [--json]
 *     ratios --once L1-10k a          that side once, for tests/bench/counts.py
 *
 * Each round measures A, B, B, A; the first is dropped. Told are medians, the median of the ratios
 * with the range of its middle 80 %, the target, and whether it holds. Status 1: one does not. */
#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include <yaml.h>

#include "base/sorted.h"
#include "chain/working_memory.h"
#include "load/nodes.h"
#include "made_book.h"
#include "ratio_sides.h"
#include "read/book_read.h"
#include "session/session.h"

enum { RUNS_MAX = 101 };

/* ---- what is measured with ---- */

static guard way_out;

static arena *new_arena(void)
{
    arena *a = arena_new(NULL, &way_out);
    if (a == NULL) exit(2);
    return a;
}

static double seconds(clockid_t clock)
{
    struct timespec now;
    clock_gettime(clock, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static void fail(const char *what)
{
    fprintf(stderr, "ratios: %s\n", what);
    exit(2);
}

/* ---- a book: read, checked, and nothing but libyaml's events ---- */

static str book_of(arena *keep, uint32_t entries)
{
    static struct kept {
        uint32_t entries;
        str bytes;
    } made[4];
    for (size_t i = 0; i < 4; i++) {
        if (made[i].entries == 0) made[i] = (struct kept){entries, made_book(keep, entries)};
        if (made[i].entries == entries) return made[i].bytes;
    }
    fail("more sizes than expected");
    return STR("");
}

static arena *books;

static void yaml_events(uint32_t entries)
{
    const str bytes = book_of(books, entries);
    yaml_parser_t parser;
    yaml_event_t event;
    yaml_event_type_t kind = YAML_NO_EVENT;
    if (!yaml_parser_initialize(&parser)) fail("no memory");
    yaml_parser_set_input_string(&parser, (const unsigned char *)bytes.p, bytes.n);
    while (kind != YAML_STREAM_END_EVENT) {
        if (!yaml_parser_parse(&parser, &event)) fail("the made book is no YAML");
        kind = event.type;
        yaml_event_delete(&event);
    }
    yaml_parser_delete(&parser);
}

static void resolved_book(uint32_t entries)
{
    arena *keep = new_arena(), *scratch = new_arena();
    const source file = {STR("made.yaml"), book_of(books, entries)};
    const sources all = {&file, 1};
    faults *list = faults_new(keep);
    const node *const *roots = (const node *const *)load_sources(keep, scratch, &all, list);
    if (book_read(keep, scratch, &all, NO_FILE, roots, list) == NULL)
        fail(faults_text(list, keep, &all, 3).p);
    arena_free(keep);
    arena_free(scratch);
}

static tt_book *loaded(uint32_t entries, tt_report **report)
{
    const str bytes = book_of(books, entries);
    const tt_source file = {"made.yaml", bytes.p, bytes.n};
    tt_book *book = NULL;
    if (tt_book_load(&file, 1, &book, report) != TT_OK) fail(tt_report_text(*report));
    return book;
}

static void checked_book(uint32_t entries)
{
    tt_report *report;
    tt_book *book = loaded(entries, &report);
    if (tt_book_doubts(book, report) != TT_OK) fail("no memory");
    tt_report_free(report);
    tt_book_free(book);
}

/* ---- rules: all of them anew, one answer and its undo, and nothing but reading their gates ----
 */

static struct chaining {
    tt_book *book;
    working_memory *memory;
    uint32_t findings, next;
} chain;

static void chain_ready(uint32_t entries)
{
    static arena *keep;
    tt_report *report;
    if (chain.book != NULL) return;
    keep = new_arena();
    chain.book = loaded(entries, &report);
    tt_report_free(report);
    chain.memory = wm_new(keep, chain.book->prog->rules);
    chain.findings = chain.book->book->question_count;
}

static void set_finding(uint32_t f, bool known)
{
    const uint32_t states = program_states(chain.book->prog, f);
    const state_mask every = ((state_mask)1 << states) - 1;
    wm_set(chain.memory, f, known ? (state_mask)1 << (states - 1) : every, known);
}

static void full_closure(uint32_t entries)
{
    chain_ready(entries);
    for (uint32_t f = 0; f < chain.findings; f++) set_finding(f, true);
    for (uint32_t f = 0; f < chain.findings; f++) set_finding(f, false);
}

static void one_change(uint32_t entries)
{
    chain_ready(entries);
    const uint32_t f = chain.next++ % chain.findings;
    set_finding(f, true);
    set_finding(f, false);
}

/* ---- a start ---- */

static void run_program(char *const *words)
{
    const pid_t child = fork();
    int status;
    if (child == 0) {
        if (freopen("/dev/null", "r", stdin) == NULL || freopen("/dev/null", "w", stdout) == NULL ||
            freopen("/dev/null", "w", stderr) == NULL)
            _exit(127);
        execvp(words[0], words);
        _exit(127);
    }
    if (child < 0 || waitpid(child, &status, 0) != child || !WIFEXITED(status) ||
        WEXITSTATUS(status) == 127)
        fail(words[0]);
}

static void start(uint32_t unused)
{
    (void)unused;
    run_program((char *[]){TT_PROGRAM, "ask", TT_SOURCE_DIR "/tests/cli/well", "--practice",
                           "--unsaved", "--plain", NULL});
}

static void empty_program(uint32_t unused)
{
    (void)unused;
    run_program((char *[]){"true", NULL});
}

static void other_start(uint32_t unused)
{
    (void)unused;
    run_program((char *[]){"jq", "-n", "1", NULL});
}

/* ---- items ---- */

typedef struct item {
    const char *id, *what;
    void (*a)(uint32_t), (*b)(uint32_t);
    uint32_t size_a, size_b;
    double target;
    bool at_least; /* the ratio is to be at least so much; else at most */
    bool wall;     /* by the clock; else by the processor */
    const char *needs;
    double (*figure)(uint32_t); /* what is told instead of how long they take; or null */
} item;

static const item items[] = {
    {"L1-1k", "bytes to a resolved book / libyaml's events, 1,000 entries", resolved_book,
     yaml_events, 1000, 1000, 1.35, false, false, NULL, NULL},
    {"L1-10k", "the same, 10,000 entries", resolved_book, yaml_events, 10000, 10000, 1.35, false,
     false, NULL, NULL},
    {"L1-60k", "the same, 60,000 entries", resolved_book, yaml_events, 60000, 60000, 1.35, false,
     false, NULL, NULL},
    {"L3", "all of check / libyaml's events, 10,000 entries", checked_book, yaml_events, 10000,
     10000, 2.5, false, false, NULL, NULL},
    {"G-load", "a resolved book, 60,000 entries / 1,000", resolved_book, resolved_book, 60000, 1000,
     84, false, false, NULL, NULL},
    {"G-check", "all of check, 10,000 entries / 1,000", checked_book, checked_book, 10000, 1000, 14,
     false, false, NULL, NULL},
    {"L4", "what a load fills / its file, 10,000 entries", NULL, NULL, 10000, 0, 1.5, false, false,
     NULL, load_fills},
    {"C5", "one answer and its undo / all answers and their undo", one_change, full_closure, 50000,
     50000, 0.01, false, false, NULL, NULL},
    {"Q1", "all gains, 10,000 causes / 100", sparse_gains, sparse_gains, 10000, 100, 1.3, false,
     false, NULL, NULL},
    {"Q3", "gains over all causes / ours, 1,000 causes", dense_gains, sparse_gains, 1000, 1000, 300,
     true, false, NULL, NULL},
    {"Q2", "what comes next / adding up all tables, 3,000 causes", next_step, all_rows_read, 3000,
     3000, 2, false, false, NULL, NULL},
    {"G-next", "what comes next, 3,000 causes / 300", next_step, next_step, 3000, 300, 12, false,
     false, NULL, NULL},
    {"W1", "worked cases, each anew with its words / in one room without", cases_anew,
     cases_in_one_room, 0, 0, 1.2, true, false, NULL, NULL},
    {"J1", "a reply that is kept / its bytes written and synced", reply_kept, bytes_synced, 0, 0,
     1.5, false, true, NULL, NULL},
    {"S1", "a start to the first question / an empty program", start, empty_program, 0, 0, 2, false,
     true, "true", NULL},
    {"S2", "the same / jq -n 1", start, other_start, 0, 0, 1, false, true, "jq", NULL},
};

static bool is_installed(const char *program)
{
    char command[64];
    snprintf(command, sizeof command, "command -v %s >/dev/null 2>&1", program);
    return program == NULL || system(command) == 0;
}

/* ---- measuring ---- */

/* Seconds of one go: repeated until it can be told from nothing. */
static double measure(void (*side)(uint32_t), uint32_t size, bool wall)
{
    const clockid_t clock = wall ? CLOCK_MONOTONIC : CLOCK_PROCESS_CPUTIME_ID;
    const double enough = 2e-3, began = seconds(clock);
    double took = 0;
    uint32_t times = 0;
    for (; took < enough; times++, took = seconds(clock) - began) side(size);
    return took / times;
}

static int by_size(const void *left, const void *right)
{
    const double *x = left, *y = right;
    return THREE_WAY(*x, *y);
}

static double part(double *all, uint32_t count, double share)
{
    SORT(all, count, by_size);
    return all[(uint32_t)(share * (count - 1) + 0.5)];
}

typedef struct outcome {
    double a, b, ratio, low, high;
    const char *says;
} outcome;

static const char *judged(const item *x, double ratio)
{
    return (x->at_least ? ratio >= x->target : ratio <= x->target) ? "PASS" : "FAIL";
}

static outcome outcome_of(const item *x, uint32_t runs)
{
    if (x->figure != NULL) {
        const double is = x->figure(x->size_a);
        return (outcome){NAN, NAN, is, is, is, judged(x, is)};
    }
    double a[RUNS_MAX], b[RUNS_MAX], ratio[RUNS_MAX];
    for (uint32_t r = 0; r <= runs; r++) {
        const double a1 = measure(x->a, x->size_a, x->wall), b1 = measure(x->b, x->size_b, x->wall),
                     b2 = measure(x->b, x->size_b, x->wall), a2 = measure(x->a, x->size_a, x->wall);
        if (r == 0) continue;
        a[r - 1] = (a1 + a2) / 2;
        b[r - 1] = (b1 + b2) / 2;
        ratio[r - 1] = (a1 + a2) / (b1 + b2);
    }
    outcome o = {part(a, runs, 0.5),     part(b, runs, 0.5),     part(ratio, runs, 0.5),
                 part(ratio, runs, 0.1), part(ratio, runs, 0.9), ""};
    const bool noisy = o.high - o.low > fabs(o.ratio - x->target);
    o.says = noisy ? "NOISY" : judged(x, o.ratio);
    return o;
}

/* By which power of its size it grows; of one thing in two sizes. */
static double growth_of(const item *x, const outcome *o)
{
    const bool grows = x->a == x->b && x->size_a != x->size_b;
    return grows && x->a != NULL ? log(o->ratio) / log(x->size_a / (double)x->size_b) : NAN;
}

static void tell_number(const char *name, double number)
{
    if (isfinite(number)) printf("\"%s\":%.6g,", name, number);
}

static void tell_json(const item *x, const outcome *o, bool first)
{
    printf("%s{\"id\":\"%s\",\"what\":\"%s\",", first ? "" : ",\n ", x->id, x->what);
    tell_number("a_ms", 1e3 * o->a);
    tell_number("b_ms", 1e3 * o->b);
    tell_number("ratio", o->ratio);
    tell_number("low", o->low);
    tell_number("high", o->high);
    tell_number("growth", growth_of(x, o));
    printf("\"target\":\"%s %g\",\"result\":\"%s\"}", x->at_least ? ">=" : "<=", x->target,
           o->says);
}

static void tell_words(const item *x, const outcome *o)
{
    const double growth = growth_of(x, o);
    printf("%-8s %-62s ", x->id, x->what);
    if (isfinite(o->a)) printf("%9.3f ms / %9.3f ms  ", 1e3 * o->a, 1e3 * o->b);
    printf("%8.4g [%.4g-%.4g]  target %s %g  %s", o->ratio, o->low, o->high,
           x->at_least ? ">=" : "<=", x->target, o->says);
    if (isfinite(growth)) printf("  grows as size^%.2f", growth);
    printf("\n");
}

static void tell(const item *x, const outcome *o, bool json, bool first)
{
    if (json)
        tell_json(x, o, first);
    else
        tell_words(x, o);
    fflush(stdout);
}

static bool is_wanted(const char *only, const char *id)
{
    const size_t length = strlen(id);
    for (const char *at = only; at != NULL && (at = strstr(at, id)) != NULL; at++)
        if ((at == only || at[-1] == ',') && (at[length] == 0 || at[length] == ',')) return true;
    return only == NULL;
}

/* Counted by tests/bench/counts.py while it is in here. */
__attribute__((noinline)) void measured_once(void (*side)(uint32_t), uint32_t size);
__attribute__((noinline)) void measured_once(void (*side)(uint32_t), uint32_t size)
{
    side(size);
}

/* Behind one go that isn't counted: what is made once is no part of what is done each time. */
static int once(const char *id, const char *which)
{
    for (size_t i = 0; i < sizeof items / sizeof *items; i++) {
        if (strcmp(items[i].id, id) != 0) continue;
        const bool second = strcmp(which, "b") == 0;
        void (*side)(uint32_t) = second ? items[i].b : items[i].a;
        const uint32_t size = second ? items[i].size_b : items[i].size_a;
        side(size);
        measured_once(side, size);
        return 0;
    }
    fail("no such item");
    return 2;
}

typedef struct settings {
    uint32_t runs;
    bool json;
    const char *only;
} settings;

static settings settings_of(int argc, char **argv)
{
    settings s = {21, false, NULL};
    for (int i = 1; i < argc; i++) {
        const bool more = i + 1 < argc;
        if (strcmp(argv[i], "--json") == 0)
            s.json = true;
        else if (strcmp(argv[i], "--runs") == 0 && more)
            s.runs = (uint32_t)strtoul(argv[++i], NULL, 10);
        else if (strcmp(argv[i], "--only") == 0 && more)
            s.only = argv[++i];
        else
            fail("[--runs N] [--only L1-1k,Q1] [--json]");
    }
    if (s.runs < 1 || s.runs > RUNS_MAX) fail("1 to 101 runs");
    return s;
}

/* How many did not hold. */
static uint32_t run_all(const settings *s)
{
    uint32_t passed = 0, told = 0;
    if (s->json) printf("[");
    for (size_t i = 0; i < sizeof items / sizeof *items; i++) {
        const item *x = &items[i];
        if (!is_wanted(s->only, x->id) || (x->needs != NULL && !is_installed(x->needs))) continue;
        outcome o = outcome_of(x, s->runs);
        for (int again = 0; again < 3 && strcmp(o.says, "NOISY") == 0; again++)
            o = outcome_of(x, s->runs);
        tell(x, &o, s->json, told++ == 0);
        passed += strcmp(o.says, "PASS") == 0;
    }
    if (s->json)
        printf("]\n");
    else
        printf("%u passed, %u failed or noisy\n", passed, told - passed);
    return told - passed;
}

int main(int argc, char **argv)
{
    if (setjmp(way_out.place) != 0) fail("no memory");
    books = new_arena();
    if (argc == 4 && strcmp(argv[1], "--once") == 0) return once(argv[2], argv[3]);
    const settings s = settings_of(argc, argv);
    const uint32_t failed = run_all(&s);
    arena_free(books);
    return failed > 0;
}
