/* What a round or a record leads to: a case of the fault, or good values in the site's file. */
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "call/call_parts.h"
#include "call/choose_site.h"
#include "call/dialogue.h"
#include "cases/begin_case.h"
#include "host/clock.h"
#include "host/files.h"
#include "host/held_file.h"
#include "host/memory.h"
#include "say/catalogue.h"
#include "show/told.h"

/* ---- a case of the fault ---- */

/* As in a file of answers. Danger is asked anew: a new sitting begins. */
static const char *answers_of_round(conversation *c)
{
    const tt_view *view = NULL;
    text_builder b = {.keep = c->keep};
    if (!is_told(c->keep, tt_look(tt_talk_case(c->talk), &view))) return "{}\n";
    for (uint32_t i = 0; i < view->fact_count; i++) {
        const tt_fact *f = &view->facts[i];
        tt_question q;
        const bool told = f->question != TT_NONE && strcmp(f->from, "answer") == 0 && !f->stale;
        if (!told || !is_told(c->keep, tt_question_show(tt_talk_case(c->talk), f->question, &q)) ||
            q.gate)
            continue;
        if (strcmp(f->value, "unsure") == 0 || strcmp(f->value, "cannot") == 0) continue;
        text_addf(&b, "%s: %s\n", f->name, fact_as_written(c->keep, f));
    }
    return b.length > 0 ? text_done(&b).p : "{}\n";
}

bool begins_fault(conversation *c)
{
    const tt_turn *turn = c->talk != NULL ? tt_talk_turn(c->talk) : NULL;
    if (turn == NULL || strcmp(turn->how, "fault") != 0 || !is_here(c)) return false;
    const char *answers = arena_copy(c->keep, answers_of_round(c));
    const tt_source file = {.name = "round", .bytes = answers, .length = strlen(answers)};
    c->kind = TT_KIND_FAULT;
    c->kept_count = 0;
    note_failure(c, store_anew(c, NULL, NULL));
    if (c->failure == EXIT_DONE) talk_anew(c, NULL);
    if (c->failure == EXIT_DONE) hear_and_keep(c, &(tt_heard){.answers = &file});
    return c->failure == EXIT_DONE;
}

/* ---- what is good ---- */

static const char *today(conversation *c)
{
    char clock[TT_MOMENT_SIZE];
    clock_now(clock);
    return arena_text(c->keep, "%.10s", c->face->now != NULL ? c->face->now : clock);
}

typedef struct good_list {
    tt_good *items;
    uint32_t count, room;
} good_list;

static void add_good(conversation *c, good_list *all, const tt_walked *w)
{
    tt_question fact, asked;
    tt_case *of = tt_talk_case(c->talk);
    if (!is_told(c->keep, tt_question_show(of, w->good, &fact))) return;
    const char *name = arena_copy(c->keep, fact.name);
    if (!is_told(c->keep, tt_question_show(of, w->question, &asked))) return;
    GROW(c->keep, all->items, all->count, all->room);
    all->items[all->count++] = (tt_good){.fact = name,
                                         .value = arena_copy(c->keep, w->value),
                                         .day = today(c),
                                         .role = arena_copy(c->keep, c->line->values[OPTION_AS]),
                                         .how = arena_copy(c->keep, asked.instrument)};
}

static good_list found_good(conversation *c)
{
    const tt_walked *all = NULL;
    uint32_t count = 0;
    good_list good = {.count = 0};
    note_failure(c, status_of(tt_walk_look(tt_talk_case(c->talk), &all, &count)));
    for (uint32_t i = 0; i < count; i++)
        if (all[i].told && all[i].good != TT_NONE && *all[i].value != 0)
            add_good(c, &good, &all[i]);
    return good;
}

static void tell_by_hand(conversation *c, const good_list *good)
{
    c->told_title = catalogue_text(c->tongue, HOST_BY_HAND);
    for (uint32_t i = 0; i < good->count; i++)
        tell_at_end(c,
                    arena_text(c->keep, "%s: {value: %s, day: %s, role: %s}", good->items[i].fact,
                               good->items[i].value, good->items[i].day, good->items[i].role));
}

/* ---- two who record the same ---- */

/* What the site says is good there, in words. */
static const char *good_words(conversation *c, tt_book *book, tt_case *of, const char *fact)
{
    tt_walked w;
    const uint32_t question = tt_question_find(book, fact);
    const bool seen = question != TT_NONE && is_told(c->keep, tt_good_look(of, question, &w));
    return seen ? arena_copy(c->keep, w.good_text) : "";
}

/* Ours goes over it, for it was read last; but nobody's word goes unseen. */
static void tell_written_over(conversation *c, const tt_source *now, const good_list *good)
{
    opened_book theirs;
    tt_case *of = NULL;
    if (book_open(c->book.folder, now, &theirs) != EXIT_DONE) return;
    const exit_status begun =
        case_begin(&theirs, c->line->values[OPTION_AS], c->language, false, false, &of);
    for (uint32_t i = 0; begun == EXIT_DONE && i < good->count; i++) {
        const tt_good *g = &good->items[i];
        const char *then = good_words(c, theirs.book, of, g->fact),
                   *before = good_words(c, c->book.book, tt_talk_case(c->talk), g->fact);
        if (strcmp(then, before) != 0 && strcmp(then, g->value) != 0)
            tell_at_end(c, FILL(c->keep, c->tongue, HOST_GOOD_OVER, g->fact, then, g->value));
    }
    tt_case_free(of);
    book_close(&theirs);
}

/* The file as it is now, with what others have written there meanwhile, and with ours. */
static void write_merged(conversation *c, const good_list *good)
{
    tt_source now;
    char *text = NULL;
    const bool read = source_read_file(c->site_path, &now) == EXIT_DONE;
    const tt_status status =
        read ? tt_site_with_good(now.bytes, now.length, good->items, good->count, &text)
             : TT_FAULTY;
    const bool others = read && (strlen(c->book.site_text) != now.length ||
                                 memcmp(c->book.site_text, now.bytes, now.length) != 0);
    if (read && others) tell_written_over(c, &now, good);
    if (read) source_free(&now);
    if (status != TT_OK || !book_fits(c->book.folder, text)) {
        tell_by_hand(c, good);
        free(text);
        return;
    }
    c->told_title = catalogue_text(c->tongue, HOST_SITE_FILE);
    const int error = write_whole(c->site_path, text, strlen(text), 0666, true);
    tell_at_end(c, error == 0
                       ? FILL(c->keep, c->tongue, HOST_GOOD_KEPT, c->site_path)
                       : FILL(c->keep, c->tongue, HOST_NOT_WRITTEN, c->site_path, strerror(error)));
    if (error == 0 && others) tell_at_end(c, catalogue_text(c->tongue, HOST_GOOD_MERGED));
    if (error == 0) {
        note_site(&c->book, arena_copy(c->keep, text));
        note_site_of_case(c);
    }
    free(text);
}

void write_good(conversation *c)
{
    const good_list good = found_good(c);
    if (good.count == 0 || c->failure != EXIT_DONE) return;
    held_file held = hold_file(c->site_path);
    write_merged(c, &good);
    let_file_go(&held);
}
