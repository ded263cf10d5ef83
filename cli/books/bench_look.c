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

enum { PLAYERS_MOST = 8 };

/* Chances that move less are the same to people. */
static const double worth_telling = 0.005;

/* What a look is asked for. */
typedef struct look_at {
    const book_look *before;
    book_look *out;
    void (*told)(const book_look *so_far, void *context);
    void *context;
} look_at;

static void tell_check(const look_at *x)
{
    if (x->told != NULL) x->told(x->out, x->context);
}

/* ---- the cases, played side by side ---- */

/* Cases that are not known already, in the order in which they are played. */
typedef struct case_queue {
    uint32_t *items, count, given;
} case_queue;

typedef struct company {
    case_look *cases;
    pthread_mutex_t lock;  /* guards what is below */
    case_queue all, heard; /* heard: words too, for which whoever plays them needs an ear */
    arena *keep;
    tt_status status;
} company;

typedef struct player {
    company *all;
    tt_book *book;
    pthread_t thread;
    bool apart, hears; /* hears: one of them, so that one ear is made */
} player;

static bool take_case(case_queue *from, uint32_t *index)
{
    if (from->given == from->count) return false;
    *index = from->items[from->given++];
    return true;
}

static bool next_case(void *context, uint32_t *index)
{
    const player *p = context;
    company *all = p->all;
    pthread_mutex_lock(&all->lock);
    const bool any = all->status == TT_OK &&
                     ((p->hears && take_case(&all->heard, index)) || take_case(&all->all, index));
    pthread_mutex_unlock(&all->lock);
    return any;
}

static tt_grounds copy_grounds(arena *keep, tt_grounds of)
{
    uint32_t *questions = ARENA_ARRAY(keep, uint32_t, of.count);
    for (uint32_t i = 0; i < of.count; i++) questions[i] = of.questions[i];
    return (tt_grounds){questions, of.count};
}

static void note(void *context, uint32_t index, const tt_trial *t)
{
    company *all = ((const player *)context)->all;
    pthread_mutex_lock(&all->lock);
    all->cases[index] = (case_look){arena_copy(all->keep, t->name),
                                    arena_copy(all->keep, t->at),
                                    arena_copy(all->keep, t->why),
                                    arena_copy(all->keep, t->leads),
                                    t->chance,
                                    copy_grounds(all->keep, t->grounds)};
    pthread_mutex_unlock(&all->lock);
}

static void *play(void *context)
{
    player *p = context;
    const tt_status status = tt_try_shared(p->book, &(tt_sharing){p, next_case, note});
    if (status == TT_OK) return NULL;
    pthread_mutex_lock(&p->all->lock);
    p->all->status = status;
    pthread_mutex_unlock(&p->all->lock);
    return NULL;
}

/* To look for doubts is one more thing to do. */
static unsigned players_wanted(uint32_t cases)
{
    const long processors = sysconf(_SC_NPROCESSORS_ONLN);
    const unsigned count = processors < 1              ? 1
                           : processors > PLAYERS_MOST ? PLAYERS_MOST
                                                       : (unsigned)processors;
    return cases + 1 < count ? cases + 1 : count;
}

/* Where a thread, or room for its book, can't be had, the others do more. */
static void begin_apart(player *p, company *all, const tt_book *book)
{
    p->all = all;
    if (tt_book_beside(book, &p->book) != TT_OK) return;
    p->apart = pthread_create(&p->thread, NULL, play, p) == 0;
}

/* Whoever asked looks for doubts while the others have begun to play, tells what check says, and
 * then plays with them. */
static tt_status play_all(company *all, const look_at *x)
{
    book_look *out = x->out;
    player players[PLAYERS_MOST] = {{.all = all, .book = out->book, .hears = true}};
    const unsigned count = players_wanted(all->all.count);
    for (unsigned i = 1; i < count; i++) begin_apart(&players[i], all, out->book);
    const tt_status doubted = tt_book_doubts(out->book, out->report);
    if (doubted == TT_OK) tell_check(x);
    play(&players[0]);
    for (unsigned i = 1; i < count; i++) {
        if (players[i].apart) pthread_join(players[i].thread, NULL);
        tt_book_free(players[i].book);
    }
    return doubted != TT_OK ? doubted : all->status;
}

/* ---- a look ---- */

static void describe(book_look *out)
{
    out->info = tt_book_describe(out->book);
    out->count = out->info.cases;
    out->cases = ARENA_ARRAY(out->keep, case_look, out->count);
}

/* What can't have come out otherwise is taken as it came. */
static tt_status take_known(book_look *out, const book_look *before)
{
    const tt_case_alike *alike;
    tt_grounds *grounds = ARENA_ARRAY(out->keep, tt_grounds, before->count);
    for (uint32_t i = 0; i < before->count; i++) grounds[i] = before->cases[i].grounds;
    const tt_status status = tt_cases_alike(out->book, before->book, grounds, &alike);
    for (uint32_t i = 0; status == TT_OK && i < out->count; i++) {
        if (alike[i].before == TT_NONE) continue;
        const case_look *old = &before->cases[alike[i].before];
        out->cases[i] = (case_look){arena_copy(out->keep, old->name),
                                    arena_copy(out->keep, alike[i].at),
                                    arena_copy(out->keep, old->why),
                                    arena_copy(out->keep, old->leads),
                                    old->chance,
                                    copy_grounds(out->keep, old->grounds)};
    }
    return status;
}

/* Long ones first, so that nobody is still at one when the others are done. What is known has its
 * name. */
static case_queue queue_of(const book_look *out, bool hears)
{
    case_queue q = {.items = ARENA_ARRAY(out->keep, uint32_t, out->count)};
    for (int pass = 0; pass < 2; pass++)
        for (uint32_t i = 0; i < out->count; i++)
            if (out->cases[i].name == NULL && tt_worked_case_hears(out->book, i) == hears &&
                tt_worked_case_is_long(out->book, i) == (pass == 0))
                q.items[q.count++] = i;
    return q;
}

static tt_status play_cases(const look_at *x)
{
    book_look *out = x->out;
    company company = {.cases = out->cases,
                       .lock = PTHREAD_MUTEX_INITIALIZER,
                       .all = queue_of(out, false),
                       .heard = queue_of(out, true),
                       .keep = out->keep};
    const tt_status status = play_all(&company, x);
    pthread_mutex_destroy(&company.lock);
    for (uint32_t i = 0; status == TT_OK && i < out->count; i++)
        out->passed += *out->cases[i].why == 0;
    return status;
}

/* What is sound in it is doubted all the same. */
static tt_status look_at_faulty(const look_at *x)
{
    const tt_status status = tt_report_doubts(x->out->report);
    if (status != TT_NO_MEMORY) tell_check(x);
    return status == TT_NO_MEMORY ? status : TT_OK;
}

static tt_status look(const sources *all, const look_at *x)
{
    book_look *out = x->out;
    const tt_book *old = x->before != NULL ? x->before->book : NULL;
    tt_status status = tt_book_load_again(all->items, all->count, old, &out->book, &out->report);
    out->loads = status == TT_OK;
    if (status == TT_FAULTY) return look_at_faulty(x);
    if (!out->loads) return status;
    describe(out);
    if (x->before != NULL) status = take_known(out, x->before);
    return status == TT_OK ? play_cases(x) : status;
}

exit_status book_look_at(const char *folder, const book_look *before, book_look *out,
                         void (*told)(const book_look *so_far, void *context), void *context)
{
    sources all;
    *out = (book_look){.keep = host_arena()};
    exit_status status = sources_read(folder, &all);
    if (status == EXIT_DONE && look(&all, &(look_at){before, out, told, context}) != TT_OK)
        memory_ended();
    sources_free(&all);
    return status;
}

void book_look_free(book_look *looked)
{
    tt_report_free(looked->report);
    tt_book_free(looked->book);
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
