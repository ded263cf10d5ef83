#include "call/cases_in_order.h"

#ifdef __GLIBC__
#include <malloc.h>
#endif
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "base/grow.h"
#include "cases/case_depot.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"

/* AHEAD: cases that wait to be looked at. MOST_BYTES: what they may take in all, beside the next
 * one, so that a folder of huge cases takes no more memory than they do one by one. */
enum { AHEAD = 64, MOST_READERS = 16, FEW = 8 };
static const size_t MOST_BYTES = (size_t)4 << 20;

typedef struct slot {
    seen_case c;
    exit_status read;
    char *complaints; /* said when it is looked at; or null */
    size_t bytes;
    bool is_ready;
} slot;

typedef struct place {
    const char *folder, *uuid;
} place;

/* What the threads share; `lock` guards what is below it. */
typedef struct company {
    arena *keep;
    place *places;
    uint32_t count, room;
    pthread_mutex_t lock;
    pthread_cond_t changed;
    uint32_t next, looked_at; /* the next one to be read; those that were looked at */
    size_t bytes;             /* of those that are ready */
    slot slots[AHEAD];
} company;

static void note_place(void *context, const char *month, const char *uuid)
{
    company *all = context;
    GROW(all->keep, all->places, all->count, all->room);
    const char *folder = arena_text(all->keep, "%s/%s", month, uuid);
    all->places[all->count++] = (place){folder, arena_copy(all->keep, uuid)};
}

static slot *slot_of(company *all, uint32_t index)
{
    return &all->slots[index % AHEAD];
}

/* ---- reading ---- */

/* Under the lock, which is given up while it reads. */
static void read_next(company *all)
{
    const uint32_t index = all->next++;
    slot *s = slot_of(all, index);
    pthread_mutex_unlock(&all->lock);
    s->complaints = NULL;
    complaints_kept(&s->complaints);
    s->read = seen_case_read(&s->c, "", all->places[index].folder);
    complaints_kept(NULL);
    pthread_mutex_lock(&all->lock);
    s->bytes = s->c.store != NULL ? case_store_bytes(s->c.store) : 0;
    s->is_ready = true;
    all->bytes += s->bytes;
    pthread_cond_broadcast(&all->changed);
}

static bool has_room(const company *all)
{
    return all->next < all->looked_at + AHEAD &&
           (all->bytes <= MOST_BYTES || all->next == all->looked_at);
}

static void *read_ahead(void *context)
{
    company *all = context;
    pthread_mutex_lock(&all->lock);
    while (all->next < all->count)
        if (has_room(all))
            read_next(all);
        else
            pthread_cond_wait(&all->changed, &all->lock);
    pthread_mutex_unlock(&all->lock);
    return NULL;
}

/* What one case gives back the next one takes: where the system gets it in between, it clears each
 * page anew, and all threads wait for that (a third of the time). */
static void keep_memory(void)
{
#ifdef __GLIBC__
    enum { KEPT_MOST = 64 << 20, PIECE_MOST = 32 << 20 };
    mallopt(M_TRIM_THRESHOLD, KEPT_MOST);
    mallopt(M_MMAP_THRESHOLD, PIECE_MOST);
#endif
}

/* A database has one connection, and few cases are read before a thread has begun. */
static size_t readers_wanted(const char *root, uint32_t cases)
{
    const long processors = sysconf(_SC_NPROCESSORS_ONLN);
    if (depot_of(root) != &folder_depot || cases < FEW || processors < 2) return 0;
    return processors < MOST_READERS ? (size_t)processors : MOST_READERS;
}

/* ---- looking ---- */

/* Whoever looks reads what nobody has begun. */
static slot *wait_for(company *all, uint32_t index)
{
    slot *s = slot_of(all, index);
    pthread_mutex_lock(&all->lock);
    while (!s->is_ready)
        if (all->next == index)
            read_next(all);
        else
            pthread_cond_wait(&all->changed, &all->lock);
    pthread_mutex_unlock(&all->lock);
    return s;
}

static void give_back(company *all, slot *s)
{
    pthread_mutex_lock(&all->lock);
    s->is_ready = false;
    all->bytes -= s->bytes;
    all->looked_at++;
    pthread_cond_broadcast(&all->changed);
    pthread_mutex_unlock(&all->lock);
}

static void say_kept(slot *s)
{
    fflush(stdout);
    if (s->complaints != NULL) fputs(s->complaints, stderr);
    free(s->complaints);
    s->complaints = NULL;
}

static size_t look_at_all(company *all, look_at_case *look, void *context)
{
    size_t out_of_reach = 0;
    for (uint32_t i = 0; i < all->count; i++) {
        slot *s = wait_for(all, i);
        say_kept(s);
        const read_case one = {all->places[i].folder, all->places[i].uuid, s->read, &s->c};
        out_of_reach += is_out_of_reach(s->read);
        look(context, &one);
        seen_case_end(&s->c);
        give_back(all, s);
    }
    return out_of_reach;
}

size_t cases_in_order(const char *root, look_at_case *look, void *context)
{
    company all = {.keep = host_arena(),
                   .lock = PTHREAD_MUTEX_INITIALIZER,
                   .changed = PTHREAD_COND_INITIALIZER};
    pthread_t readers[MOST_READERS];
    size_t begun = 0;
    const size_t folders = case_walk(root, note_place, &all),
                 wanted = readers_wanted(root, all.count);
    if (wanted > 0) keep_memory();
    while (begun < wanted && pthread_create(&readers[begun], NULL, read_ahead, &all) == 0) begun++;
    const size_t out_of_reach = look_at_all(&all, look, context);
    for (size_t i = 0; i < begun; i++) pthread_join(readers[i], NULL);
    pthread_cond_destroy(&all.changed);
    pthread_mutex_destroy(&all.lock);
    arena_free(all.keep);
    return folders + out_of_reach;
}
