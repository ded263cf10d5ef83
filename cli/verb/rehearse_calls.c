/* Made-up calls, played on all processors: each thread has a rehearsal of its own, takes a few
 * calls at a time, and at the end all are added. Sums are of whole numbers, so which thread plays
 * which calls changes nothing. Threads, not processes: a book is read once and never changes, and
 * nothing has to come back through a pipe. */
#include "verb/rehearse_calls.h"

#include <assert.h>
#include <pthread.h>
#include <stdlib.h>
#include <unistd.h>

#include "cases/begin_case.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "host/signals.h"
#include "verb/verbs.h"

enum { CHUNK = 10 };

/* What the threads share; `lock` guards what is below it. */
typedef struct company {
    const calls_plan *plan;
    uint64_t calls;
    bool tell; /* a line each tenth, for a person who waits */
    pthread_mutex_t lock;
    uint64_t given, done; /* calls handed out, and played */
    unsigned tenths;
    tt_status status;
} company;

typedef struct player {
    company *all;
    pthread_t thread;
    bool apart; /* in a thread of its own */
    tt_rehearsal *r;
} player;

/* False if there is nothing left, some thread failed, or somebody wants it to end. */
static bool take_calls(company *all, uint64_t *first, uint64_t *count)
{
    pthread_mutex_lock(&all->lock);
    *first = all->plan->first - 1 + all->given;
    *count = all->calls - all->given < CHUNK ? all->calls - all->given : CHUNK;
    if (all->status != TT_OK || signals_noted() != 0) *count = 0;
    all->given += *count;
    pthread_mutex_unlock(&all->lock);
    return *count > 0;
}

static void played(company *all, uint64_t count, tt_status status)
{
    pthread_mutex_lock(&all->lock);
    if (status != TT_OK) all->status = status;
    all->done += count;
    unsigned tenths = (unsigned)(all->done * 10 / all->calls);
    if (all->tell && tenths > all->tenths && tenths < 10)
        fprintf(stderr, "%u %% of %llu calls\n", tenths * 10, (unsigned long long)all->calls);
    all->tenths = tenths;
    pthread_mutex_unlock(&all->lock);
}

static void *play(void *context)
{
    player *p = context;
    uint64_t first, count;
    tt_status status = tt_rehearsal_new(p->all->plan->book, p->all->plan->options, &p->r);
    if (status != TT_OK) played(p->all, 0, status);
    while (status == TT_OK && take_calls(p->all, &first, &count)) {
        status = tt_rehearsal_play(p->r, first, count);
        played(p->all, count, status);
    }
    return NULL;
}

/* The first player plays here; where a thread can't be had, the others do more. */
static void play_together(player *players, unsigned count)
{
    for (unsigned i = 1; i < count; i++)
        players[i].apart = pthread_create(&players[i].thread, NULL, play, &players[i]) == 0;
    play(&players[0]);
    for (unsigned i = 1; i < count; i++)
        if (players[i].apart) pthread_join(players[i].thread, NULL);
}

static tt_status gather(player *players, unsigned count)
{
    tt_status status = players[0].all->status;
    for (unsigned i = 1; i < count && status == TT_OK; i++)
        if (players[i].r != NULL) status = tt_rehearsal_add(players[0].r, players[i].r);
    return status;
}

static void say_stopped(const company *all)
{
    complain("stopped after %llu of %llu calls, and nothing of them is kept. "
             "--calls %llu..%llu plays a part that can be kept, and added with --add",
             (unsigned long long)all->done, (unsigned long long)all->calls,
             (unsigned long long)all->plan->first,
             (unsigned long long)(all->plan->first - 1 + (all->done > 0 ? all->done : 1)));
}

exit_status calls_played(const calls_plan *plan, tt_rehearsal **out)
{
    assert(plan->first >= 1 && plan->first <= plan->last && plan->threads >= 1);
    company all = {.plan = plan,
                   .calls = plan->last - plan->first + 1,
                   .tell = isatty(STDERR_FILENO) == 1,
                   .lock = PTHREAD_MUTEX_INITIALIZER};
    player *players = take_memory(plan->threads * sizeof *players);
    signals_note();
    for (unsigned i = 0; i < plan->threads; i++) players[i].all = &all;
    play_together(players, plan->threads);
    exit_status status = status_of(gather(players, plan->threads));
    if (status == EXIT_DONE && all.done < all.calls) {
        say_stopped(&all);
        status = EXIT_UNFINISHED;
    }
    *out = status == EXIT_DONE ? players[0].r : NULL;
    for (unsigned i = status == EXIT_DONE ? 1 : 0; i < plan->threads; i++)
        tt_rehearsal_free(players[i].r);
    free(players);
    pthread_mutex_destroy(&all.lock);
    return status;
}
