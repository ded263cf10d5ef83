/* rehearse: made-up calls, played on all processors. Which thread plays which calls changes
 * nothing. */
#include <assert.h>
#include <pthread.h>
#include <stdlib.h>
#include <unistd.h>

#include "cases/begin_case.h"
#include "face/rehearse.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/read_number.h"
#include "host/screen.h"
#include "paper/rehearse_page.h"
#include "verb/page_into.h"
#include "verb/verbs.h"

enum { CALLS_USUAL = 500, CALLS_MOST = 100000000, THREADS_MOST = 64, CHUNK = 10 };

static const uint64_t SEED_MOST = UINT64_C(1) << 53; /* the largest that JSON holds for everybody */

/* What the threads share; `lock` guards what is below it. */
typedef struct company {
    const tt_book *book;
    const tt_rehearsal_options *options;
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

/* False if there is nothing left, or some thread failed. */
static bool take_calls(company *all, uint64_t *first, uint64_t *count)
{
    pthread_mutex_lock(&all->lock);
    *first = all->given;
    *count = all->calls - all->given < CHUNK ? all->calls - all->given : CHUNK;
    if (all->status != TT_OK) *count = 0;
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
    tt_status status = tt_rehearsal_new(p->all->book, p->all->options, &p->r);
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

typedef struct page_of {
    const opened_book *book;
    const tt_rehearsal_options *options;
    const tt_rehearsed *r;
} page_of;

static exit_status write_page(FILE *out, const void *context)
{
    const page_of *what = context;
    arena *keep = host_arena();
    rehearsal_on_paper(out, &paper_of_html, keep, what->book, what->options, what->r);
    arena_free(keep);
    return EXIT_DONE;
}

/* A page is long, and there to be kept: it goes where --into says. */
static exit_status check_form(const command_line *line)
{
    const bool into = is_given(line, OPTION_INTO);
    if (into && is_given(line, OPTION_JSON)) complain("--into writes a page, and --json prints for programs: give one of them");
    if (!into && is_given(line, OPTION_OVERWRITE)) complain("--overwrite says what may be written over by --into: add --into FILE");
    return (into && is_given(line, OPTION_JSON)) || (!into && is_given(line, OPTION_OVERWRITE)) ? EXIT_USAGE : EXIT_DONE;
}

static exit_status show(const command_line *line, const opened_book *book, company *all,
                        player *players, unsigned count)
{
    const tt_rehearsed *r;
    tt_status status = gather(players, count);
    if (status == TT_OK) status = tt_rehearsal_look(players[0].r, &r);
    if (status != TT_OK) return status_of(status);
    if (is_given(line, OPTION_INTO)) return page_put(line, write_page, &(page_of){book, all->options, r});
    if (is_given(line, OPTION_JSON))
        print_rehearsal_json(stdout, book, all->options, r);
    else
        print_rehearsal_words(stdout, book, all->options, r);
    return EXIT_DONE;
}

static exit_status rehearse(const command_line *line, const opened_book *book,
                            const tt_rehearsal_options *options, uint64_t calls, unsigned threads)
{
    company all = {.book = book->book,
                   .options = options,
                   .calls = calls,
                   .tell = isatty(STDERR_FILENO) == 1,
                   .lock = PTHREAD_MUTEX_INITIALIZER};
    player *players = take_memory(threads * sizeof *players);
    for (unsigned i = 0; i < threads; i++) players[i].all = &all;
    play_together(players, threads);
    exit_status status = show(line, book, &all, players, threads);
    for (unsigned i = 0; i < threads; i++) tt_rehearsal_free(players[i].r);
    free(players);
    pthread_mutex_destroy(&all.lock);
    return status;
}

/* ---- options ---- */

static exit_status whole_option(const command_line *line, option_id option, uint64_t least,
                                uint64_t most, uint64_t *number)
{
    const char *text = line->values[option];
    if (text == NULL || whole_number(text, least, most, number)) return EXIT_DONE;
    complain("--%s %s: write a whole number from %llu to %llu", option_table[option].name, text,
             (unsigned long long)least, (unsigned long long)most);
    return EXIT_USAGE;
}

static exit_status percent_option(const command_line *line, option_id option, double most,
                                  double *share)
{
    const char *text = line->values[option];
    if (text == NULL || (percent_number(text, share) && *share <= most)) return EXIT_DONE;
    complain("--%s %s: write a percentage from 0 to %g", option_table[option].name, text,
             100 * most);
    return EXIT_USAGE;
}

static uint64_t processors(void)
{
    long count = sysconf(_SC_NPROCESSORS_ONLN);
    return count < 1 ? 1 : count > THREADS_MOST ? THREADS_MOST : (uint64_t)count;
}

exit_status verb_rehearse(const command_line *line)
{
    opened_book book;
    tt_rehearsal_options options = {.seed = 1};
    uint64_t calls = CALLS_USUAL, threads = processors();
    exit_status status = check_form(line);
    if (status == EXIT_DONE) status = whole_option(line, OPTION_CALLS, 1, CALLS_MOST, &calls);
    if (status == EXIT_DONE) status = whole_option(line, OPTION_SEED, 0, SEED_MOST, &options.seed);
    if (status == EXIT_DONE) status = whole_option(line, OPTION_THREADS, 1, THREADS_MOST, &threads);
    if (status == EXIT_DONE) status = percent_option(line, OPTION_MISREAD, 1, &options.misread);
    if (status == EXIT_DONE)
        status = percent_option(line, OPTION_NUMBERS_OFF, 0.99, &options.numbers_off);
    if (status != EXIT_DONE) return status;
    status = book_open_at(line->words[1], line->values[OPTION_SITE], &book);
    if (status != EXIT_DONE) return status;
    status = role_named(book.book, line->values[OPTION_AS], &options.role);
    if (status == EXIT_DONE) status = rehearse(line, &book, &options, calls, (unsigned)threads);
    book_close(&book);
    return status;
}
