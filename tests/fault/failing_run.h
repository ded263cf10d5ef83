/* Runs of the program in which a call fails (failing_calls.c), at each place that such a call has:
 * the way to it, from function to function, is its own. */
#ifndef TT_TESTS_FAULT_FAILING_RUN_H
#define TT_TESTS_FAULT_FAILING_RUN_H

#include "../cli/run_telltale.h"

#ifdef TT_FAILING_CALLS

enum { PLACES = 12, OUR_BUG = 70, MOST_CALLS = 1 << 14 };

/* The numbers of the calls that came by a way of their own. */
typedef struct call_places {
    unsigned long at[MOST_CALLS];
    size_t count;
} call_places;

/* TELLTALE_PLACES raises it, where the way to each place is counted (tests/coverage). */
static inline unsigned long places(void)
{
    const char *asked = getenv("TELLTALE_PLACES");
    return asked != NULL ? strtoul(asked, NULL, 10) : PLACES;
}

typedef struct failing_run {
    const char *words; /* as at a shell: $T, $WELL */
    const char *made;  /* what it writes; null: nothing */
    bool partly;   /* it may show less: it asks, until a fault comes; or it offers what it finds */
    bool looks_up; /* a group or a user: there the C library itself stops where memory ends */
    const char *before; /* makes what it changes anew; null: nothing */
    void (*anew)(void); /* the same; null: nothing */
    const char *(*wrong_after)(
        int status); /* what is wrong with what it has left; null: nothing is asked */
} failing_run;

static inline void put(const char *path, const char *text)
{
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs(text, file);
    assert_int_equal(fclose(file), 0);
}

/* The status; the output is in `out` and `err`, what was written lies there. */
static inline int run_failing(const failing_run *r, const char *kind, const char *how,
                              unsigned long at)
{
    if (r->anew != NULL) r->anew();
    return sh("rm -rf made written copied *.html part.json calls\n%s\nexport "
              "TELLTALE_FAILS='%s %s %lu' TELLTALE_CALLS=calls LD_PRELOAD=" TT_FAILING_CALLS
              "\n%s >out 2>err",
              r->before != NULL ? r->before : "true", kind, how, at, r->words);
}

static inline bool same_files(const char *one, const char *other)
{
    return sh("unset LD_PRELOAD\ndiff -r %s %s >differ 2>&1", one, other) == 0;
}

/* No file is there in part, or in another's place. If a second thing fails, some of several may
 * stay, and one under another name. */
static inline bool is_whole(const char *made, bool all)
{
    return same_files("whole.made", made) || (!all && sh("grep -qv '^Only in ' differ") != 0);
}

/* What is wrong, or null. */
static inline const char *fault_of(const failing_run *r, const char *kind, const char *how,
                                   int status, int whole)
{
    const bool same = !r->partly && status == whole && same_files("out", "whole.out");
    const bool taken_back = strcmp(kind, "files") == 0 && strcmp(how, "once") == 0;
    if (status > 128) return "ended by a signal";
    if (!r->partly && status == whole && !same) return "as if all were well, and isn't";
    if (status != whole && sh("test -s err") != 0) return "not a word";
    if (strcmp(kind, "memory") == 0 && status != whole && status != OUR_BUG)
        return "it tells of something else";
    if (r->made != NULL && sh("test -e %s", r->made) == 0 && !is_whole(r->made, taken_back))
        return "what was written is not whole";
    return NULL;
}

static size_t faults;

/* Each is told, and the test goes on. */
static inline int check_failing(const failing_run *r, const char *kind, const char *how,
                                unsigned long at, int whole)
{
    const int status = run_failing(r, kind, how, at);
    const char *fault = fault_of(r, kind, how, status, whole);
    if (fault == NULL && r->wrong_after != NULL) fault = r->wrong_after(status);
    if (fault != NULL)
        print_error("%s, %s %s %lu: status %d, %s\n", r->words, kind, how, at, status, fault);
    faults += fault != NULL;
    return status;
}

/* What failing_calls.c left: how many there were, and which of them come first by their way. */
static inline void read_places(call_places *out)
{
    char *text = contents("calls"), *at = text;
    strtoul(at, &at, 10);
    for (out->count = 0; out->count < MOST_CALLS && strspn(at, "\n") < strlen(at); out->count++)
        out->at[out->count] = strtoul(at, &at, 10);
    free(text);
}

static inline void fail_along(const failing_run *r, const char *kind)
{
    const int whole = run_failing(r, kind, "once", 0);
    static const char *const hows[] = {"once", "always"};
    static call_places all;
    read_places(&all);
    const size_t step = strcmp(kind, "memory") == 0 ? all.count / places() + 1 : 1;
    assert_int_equal(sh("rm -rf whole.out whole.made && mv out whole.out"), 0);
    if (r->made != NULL) assert_int_equal(sh("mv %s whole.made", r->made), 0);
    for (int how = 0; how < 2; how++)
        for (size_t i = 0; i < all.count; i += step)
            check_failing(r, kind, hows[how], all.at[i], whole);
}

#endif

#endif
