/* learn: what closed and confirmed cases say about a book's numbers. Nothing is changed: the
 * author reads, and accepts. */
#include <pthread.h>
#include <stdlib.h>
#include <string.h>

#include "cases/begin_case.h"
#include "cases/case_depot.h"
#include "face/learned.h"
#include "face/patch.h"
#include "host/files.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "verb/learn_cases.h"
#include "verb/verbs.h"

enum { CALLS = 100, SEED = 1 };

/* ---- before and after ---- */

static void note_broken(what_changes *c, const tt_trials *now, const tt_trials *then)
{
    tt_trial *broken = take_memory((now->count + 1) * sizeof *broken);
    for (uint32_t i = 0; i < now->count && i < then->count; i++)
        if (now->items[i].passed && !then->items[i].passed)
            broken[c->broken_count++] = then->items[i];
    c->broken = broken;
}

static void try_both(tt_book *books[2], what_changes *c)
{
    tt_trials trials[2];
    for (int side = 0; side < 2; side++) {
        must_be_done(tt_try(books[side], &trials[side]));
        c->passed[side] = trials[side].passed;
    }
    c->trials = trials[0].count;
    note_broken(c, &trials[0], &trials[1]);
}

/* One side of the comparison, each on a processor of its own. */
typedef struct rehearsed_side {
    const tt_book *book;
    what_changes *into;
    int side;
} rehearsed_side;

static void keep_rehearsed(tt_rehearsal *rehearsal, what_changes *c, int side)
{
    const tt_rehearsed *r;
    must_be_done(tt_rehearsal_play(rehearsal, 0, CALLS));
    must_be_done(tt_rehearsal_look(rehearsal, &r));
    c->leads[side] = r->all.leads;
    c->questions[side] = r->all.questions;
    c->minutes[side] = r->all.minutes;
}

static void *rehearse(void *context)
{
    const rehearsed_side *s = context;
    tt_rehearsal_options options = {.seed = SEED, .role = TT_NONE};
    tt_rehearsal *rehearsal = NULL;
    must_be_done(tt_rehearsal_new(s->book, &options, &rehearsal));
    keep_rehearsed(rehearsal, s->into, s->side);
    tt_rehearsal_free(rehearsal);
    return NULL;
}

static void rehearse_both(tt_book *books[2], what_changes *c)
{
    rehearsed_side sides[2] = {{books[0], c, 0}, {books[1], c, 1}};
    pthread_t other;
    bool apart = pthread_create(&other, NULL, rehearse, &sides[1]) == 0;
    c->calls = CALLS;
    rehearse(&sides[0]);
    if (apart)
        pthread_join(other, NULL);
    else
        rehearse(&sides[1]);
}

static void compare(tt_book *now, tt_book *then, what_changes *c)
{
    tt_book *books[2] = {now, then};
    try_both(books, c);
    rehearse_both(books, c);
}

/* ---- the verb ---- */

static void show(const command_line *line, tt_learning *l, const sources *files,
                 const cases_seen *seen)
{
    const tt_lesson *lesson;
    what_changes changes = {.trials = 0};
    must_be_done(tt_learning_look(l, seen->until, &lesson));
    bool proposes = lesson->edit_count > 0;
    if (is_given(line, OPTION_PATCH)) {
        if (lesson->new_warnings > 0)
            complain("with this patch check warns of %u more things than it does now",
                     lesson->new_warnings);
        print_patch(stdout, files->items, files->count, lesson->edits, lesson->edit_count);
        return;
    }
    if (proposes) compare(tt_learning_book(l), lesson->book, &changes);
    learned all = {tt_book_describe(tt_learning_book(l)).title, tt_learning_until(l), seen, lesson,
                   proposes ? &changes : NULL};
    if (is_given(line, OPTION_JSON))
        print_learned_json(stdout, &all);
    else
        print_learned_words(stdout, &all);
    free((void *)(uintptr_t)changes.broken);
}

static exit_status begin(const command_line *line, const sources *files, tt_learning **l)
{
    tt_report *report = NULL;
    tt_status status = tt_learning_new(files->items, files->count, l, &report);
    if (status == TT_FAULTY) {
        show_report(stderr, report);
        complain("%s can't be used before this is mended", line->words[1]);
    }
    tt_report_free(report);
    return status == TT_FAULTY ? EXIT_BAD_DATA : status_of(status);
}

static exit_status folder_of_cases(const command_line *line, char **root)
{
    bool there;
    const char *named;
    *root = NULL;
    if (!cases_folder_named(line, 2, &named)) return EXIT_USAGE;
    *root = cases_root(named);
    if (*root == NULL) return EXIT_NO_FILE;
    return depot_of(*root)->look(*root, false, &there);
}

exit_status verb_learn(const command_line *line)
{
    sources files = {.count = 0};
    tt_learning *l = NULL;
    cases_seen seen;
    char *root = NULL;
    if (is_given(line, OPTION_PATCH) && is_given(line, OPTION_JSON)) {
        complain("--patch and --json don't go together");
        return EXIT_USAGE;
    }
    exit_status status = folder_of_cases(line, &root);
    if (status == EXIT_DONE) status = sources_read(line->words[1], &files);
    if (status == EXIT_DONE) status = begin(line, &files, &l);
    if (status == EXIT_DONE) status = learn_from_cases(l, line->words[1], root, &seen);
    if (status == EXIT_DONE) show(line, l, &files, &seen);
    tt_learning_free(l);
    sources_free(&files);
    free(root);
    return status;
}
