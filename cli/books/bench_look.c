/* A book looked at, on all processors: whoever has just saved a file waits for it. */
#include "books/bench_look.h"

#include <assert.h>
#include <math.h>
#include <pthread.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/sorted.h"
#include "books/read_book.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"

enum { PLAYERS_MOST = 8, CHUNK = 4 };

/* Chances that move less are the same to people. */
static const double worth_telling = 0.005;

/* ---- the cases, each player with a book of its own ---- */

typedef struct company {
    const sources *all;
    case_look *cases;
    uint32_t count;
    pthread_mutex_t lock; /* guards what is below */
    uint32_t given;
    arena *keep;
    tt_status status;
} company;

typedef struct player {
    company *all;
    tt_book *book; /* null: it loads one */
    pthread_t thread;
    bool apart;
} player;

static bool take_cases(company *all, uint32_t *first, uint32_t *count)
{
    pthread_mutex_lock(&all->lock);
    *first = all->given;
    *count = all->count - all->given < CHUNK ? all->count - all->given : CHUNK;
    if (all->status != TT_OK) *count = 0;
    all->given += *count;
    pthread_mutex_unlock(&all->lock);
    return *count > 0;
}

static void note(company *all, uint32_t first, const tt_trials *played, tt_status status)
{
    pthread_mutex_lock(&all->lock);
    if (status != TT_OK) all->status = status;
    for (uint32_t i = 0; status == TT_OK && i < played->count; i++) {
        const tt_trial *t = &played->items[i];
        all->cases[first + i] =
            (case_look){arena_copy(all->keep, t->name), arena_copy(all->keep, t->at),
                        arena_copy(all->keep, t->why), arena_copy(all->keep, t->leads), t->chance};
    }
    pthread_mutex_unlock(&all->lock);
}

static void *play(void *context)
{
    player *p = context;
    tt_status status = TT_OK;
    tt_book *own = NULL;
    tt_report *report = NULL;
    if (p->book == NULL)
        status = tt_book_load(p->all->all->items, p->all->all->count, &own, &report);
    tt_book *book = p->book != NULL ? p->book : own;
    uint32_t first, count;
    if (status != TT_OK) note(p->all, 0, &(tt_trials){.count = 0}, status);
    while (status == TT_OK && take_cases(p->all, &first, &count)) {
        tt_trials played;
        status = tt_try_some(book, first, count, &played);
        note(p->all, first, &played, status);
    }
    tt_report_free(report);
    tt_book_free(own);
    return NULL;
}

static unsigned players_wanted(uint32_t cases)
{
    const long processors = sysconf(_SC_NPROCESSORS_ONLN);
    unsigned count = processors < 1              ? 1
                     : processors > PLAYERS_MOST ? PLAYERS_MOST
                                                 : (unsigned)processors;
    while (count > 1 && cases < count * CHUNK * 2)
        count--; /* a few are played before another book is read */
    return count;
}

/* The first plays here; where a thread can't be had, the others do more. */
static tt_status play_all(company *all, tt_book *book)
{
    player players[PLAYERS_MOST] = {{.all = all, .book = book}};
    const unsigned count = players_wanted(all->count);
    for (unsigned i = 1; i < count; i++) {
        players[i].all = all;
        players[i].apart = pthread_create(&players[i].thread, NULL, play, &players[i]) == 0;
    }
    play(&players[0]);
    for (unsigned i = 1; i < count; i++)
        if (players[i].apart) pthread_join(players[i].thread, NULL);
    return all->status;
}

/* ---- a look ---- */

static tt_status look(const sources *all, book_look *out,
                      void (*told)(const book_look *so_far, void *context), void *context)
{
    tt_book *book = NULL;
    tt_status status = tt_book_load(all->items, all->count, &book, &out->report);
    out->loads = status == TT_OK;
    if (out->loads) {
        out->info = tt_book_describe(book);
        out->info.title = arena_copy(out->keep, out->info.title);
        out->info.edition = arena_copy(out->keep, out->info.edition);
        out->info.language = arena_copy(out->keep, out->info.language);
        out->count = out->info.cases;
    }
    if (told != NULL && status != TT_NO_MEMORY) told(out, context);
    if (out->loads && out->count > 0) {
        out->cases = ARENA_ARRAY(out->keep, case_look, out->count);
        company company = {.all = all,
                           .cases = out->cases,
                           .count = out->count,
                           .lock = PTHREAD_MUTEX_INITIALIZER,
                           .keep = out->keep};
        status = play_all(&company, book);
        pthread_mutex_destroy(&company.lock);
    }
    for (uint32_t i = 0; status == TT_OK && i < out->count; i++)
        out->passed += *out->cases[i].why == 0;
    tt_book_free(book);
    return status == TT_FAULTY ? TT_OK : status;
}

exit_status book_look_at(const char *folder, book_look *out,
                         void (*told)(const book_look *so_far, void *context), void *context)
{
    sources all;
    *out = (book_look){.keep = host_arena()};
    exit_status status = sources_read(folder, &all);
    if (status == EXIT_DONE) {
        const tt_status looked = look(&all, out, told, context);
        if (looked == TT_NO_MEMORY) complain("there is no memory left");
        status = looked == TT_OK ? EXIT_DONE : EXIT_OUR_BUG;
    }
    sources_free(&all);
    return status;
}

void book_look_free(book_look *looked)
{
    tt_report_free(looked->report);
    arena_free(looked->keep);
    *looked = (book_look){.keep = NULL};
}

/* ---- what has moved ---- */

static double weight_of(const case_look *before, const case_look *now)
{
    if (before == NULL || now == NULL) return 1;
    const double by = fabs(now->chance - before->chance);
    const bool flipped = (*before->why == 0) != (*now->why == 0),
               other = strcmp(before->leads, now->leads) != 0;
    if (!flipped && !other && by < worth_telling) return 0;
    return by + (flipped ? 4 : 0) + (other ? 2 : 0);
}

static int heaviest_first(const void *a, const void *b)
{
    const case_move *x = a, *y = b;
    const char *one = x->now != NULL ? x->now->name : x->before->name,
               *two = y->now != NULL ? y->now->name : y->before->name;
    return x->weight != y->weight ? THREE_WAY(y->weight, x->weight) : strcmp(one, two);
}

/* Both are by name. */
case_move *book_moves(arena *keep, const book_look *before, const book_look *now, uint32_t *count)
{
    case_move *all = ARENA_ARRAY(keep, case_move, (size_t)before->count + now->count + 1);
    uint32_t i = 0, k = 0;
    *count = 0;
    while (i < before->count || k < now->count) {
        const int order = i == before->count ? 1
                          : k == now->count  ? -1
                                             : strcmp(before->cases[i].name, now->cases[k].name);
        const case_look *old = order <= 0 ? &before->cases[i++] : NULL,
                        *new = order >= 0 ? &now->cases[k++] : NULL;
        const double weight = weight_of(old, new);
        if (weight > 0) all[(*count)++] = (case_move){old, new, weight};
    }
    SORT(all, *count, heaviest_first);
    return all;
}
