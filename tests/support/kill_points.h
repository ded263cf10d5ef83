/* A child that is killed just before its Nth call of the system that writes, syncs, makes, renames
 * or removes something. So a test tries every moment at which a crash can leave something half
 * done, each for certain and on a machine of any speed:
 *
 *     for (unsigned n = 1, status = 128 + SIGKILL; status == 128 + SIGKILL; n++) {
 *         status = run_until_call(&run, n);
 *         ... what must hold after a crash ...
 *     }
 *
 * Output counts too: between a record that is on the disk and the prompt after it lies a moment of
 * its own. Only the child's first thread is counted, and no program that it starts. Needs leave to
 * trace one's own children (ptrace); where there is none, such as in some containers, the test has
 * to be skipped. */
#ifndef TT_SUPPORT_KILL_POINTS_H
#define TT_SUPPORT_KILL_POINTS_H

#include <stdbool.h>

typedef struct system_call {
    const char *name; /* "write", "fdatasync", ... */
    int descriptor;   /* -1: it has none */
    char path[512];   /* of the descriptor's file; "" if it has none */
} system_call;

typedef struct counted_run {
    /* What the child does; it comes back only to end with status 0. Or null: */
    void (*child)(void *context);
    /* telltale with these words (up to a null), what is typed in the file `typed` (null: nothing),
     * output and error output in the file `shown`. Counting begins with the program. */
    const char *const *words;
    const char *typed, *shown;
    /* Told of every call that counts, before it is made; null: nobody. */
    void (*note)(const system_call *call, void *context);
    void *context; /* of both */
} counted_run;

/* False, having said why, if calls can't be counted on this machine. */
bool can_count_calls(void);

/* Runs the child up to its call number `last`, from 1, which is not made any more; 0: to its end.
 * Its exit status, or 128 + the signal that ended it. */
int run_until_call(const counted_run *run, unsigned last);

#endif
