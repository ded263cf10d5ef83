/* After a drill: what was wrong, what each step was worth beside what the program would have done,
 * minutes against minutes, which danger was missed. */
#include "call/drill_review.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "base/grow.h"
#include "call/call_parts.h"
#include "call/dialogue.h"
#include "call/drill_scores.h"
#include "cases/begin_case.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "say/catalogue.h"

static const double next_to_nothing = 0.5; /* decibels */

typedef struct lines {
    const char **items;
    uint32_t count, room;
} lines;

static void add(conversation *c, lines *l, const char *text)
{
    GROW(c->keep, l->items, l->count, l->room);
    l->items[l->count++] = text;
}

static const char *minutes_words(conversation *c, double minutes)
{
    return FILL(c->keep, c->tongue, CASES_MINUTES,
                arena_text(c->keep, minutes < 9.95 ? "%.1f" : "%.0f", minutes));
}

/* ---- steps ---- */

/* How many times as high the odds of what was wrong came to be, or as low: decibels are for those
 * who write rules. */
static const char *odds_words(conversation *c, double decibels)
{
    const double most = 1000, odds = fmin(pow(10, fabs(decibels) / 10), most);
    return arena_text(c->keep, odds < 9.95 ? "%.1f" : "%.0f", odds);
}

static const char *worth_words(conversation *c, bool gate, double decibels)
{
    if (gate) return catalogue_text(c->tongue, DRILL_WORTH_GATE);
    if (fabs(decibels) < next_to_nothing) return catalogue_text(c->tongue, DRILL_WORTH_NONE);
    return FILL(c->keep, c->tongue, decibels > 0 ? DRILL_WORTH_FOR : DRILL_WORTH_AGAINST,
                odds_words(c, decibels));
}

static const char *instead_words(conversation *c, const tt_drill_step *s)
{
    if (s->same) return catalogue_text(c->tongue, DRILL_SAME);
    if (*s->instead == 0) return catalogue_text(c->tongue, DRILL_INSTEAD_CALL);
    if (s->instead_fix) return FILL(c->keep, c->tongue, DRILL_INSTEAD_FIX, s->instead);
    return FILL(c->keep, c->tongue, DRILL_INSTEAD_LOOK, s->instead,
                minutes_words(c, s->instead_minutes),
                worth_words(c, s->instead_gate, s->instead_decibels));
}

static const char *step_words(conversation *c, const tt_drill_step *s)
{
    const char *took = minutes_words(c, s->minutes);
    if (s->held)
        return FILL(c->keep, c->tongue, DRILL_STEP_FIX, s->text,
                    catalogue_text(c->tongue, DRILL_NOT_DONE));
    if (s->fix) return FILL(c->keep, c->tongue, DRILL_STEP_FIX, s->text, took);
    return FILL(c->keep, c->tongue, DRILL_STEP_LOOK, s->text, s->result, took,
                worth_words(c, s->gate, s->decibels));
}

static void add_steps(conversation *c, tt_turn *turn, const tt_drill_review *r)
{
    lines l = {NULL, 0, 0};
    for (uint32_t i = 0; i < r->step_count; i++) {
        add(c, &l, arena_text(c->keep, "%u. %s", i + 1, step_words(c, &r->steps[i])));
        add(c, &l, instead_words(c, &r->steps[i]));
        if (*r->steps[i].because != 0)
            add(c, &l, FILL(c->keep, c->tongue, DRILL_BECAUSE, r->steps[i].because));
    }
    if (l.count > 0)
        host_list(c, turn, TT_PART_REASONS, catalogue_text(c->tongue, DRILL_STEPS), l.items,
                  l.count);
}

/* ---- the rest ---- */

static void add_causes(conversation *c, tt_turn *turn, const tt_drill_review *r)
{
    lines l = {NULL, 0, 0};
    for (uint32_t i = 0; i < r->cause_count; i++)
        add(c, &l,
            *r->causes[i].text == 0
                ? catalogue_text(c->tongue, DRILL_NOT_LISTED)
                : FILL(c->keep, c->tongue, DRILL_CAUSE,
                       arena_text(c->keep, "%s.", r->causes[i].text), r->causes[i].means));
    host_list(c, turn, TT_PART_CAUSES, catalogue_text(c->tongue, DRILL_WRONG), l.items, l.count);
}

static const char *danger_words(conversation *c, const tt_drill_danger *d)
{
    switch (d->kind) {
    case TT_DRILL_TRIED_BEFORE:
        return FILL(c->keep, c->tongue, DRILL_TRIED_BEFORE, d->fix, d->ask, d->answer);
    case TT_DRILL_TRIED_IN_IT:
        return FILL(c->keep, c->tongue, DRILL_TRIED_IN_IT, d->fix, d->ask, d->answer);
    default:
        return FILL(c->keep, c->tongue, DRILL_NEVER_ASKED, d->ask, d->answer);
    }
}

static void add_dangers(conversation *c, tt_turn *turn, const tt_drill_review *r)
{
    lines l = {NULL, 0, 0};
    for (uint32_t i = 0; i < r->danger_count; i++) add(c, &l, danger_words(c, &r->dangers[i]));
    if (l.count == 0)
        host_line(c, turn, TT_PART_NOTE, "", catalogue_text(c->tongue, DRILL_NO_DANGER));
    else
        host_list(c, turn, TT_PART_HAZARDS, catalogue_text(c->tongue, DRILL_DANGERS), l.items,
                  l.count);
}

static void add_minutes(conversation *c, tt_turn *turn, const tt_drill_review *r)
{
    lines l = {NULL, 0, 0};
    add(c, &l,
        FILL(c->keep, c->tongue, DRILL_MINUTES_YOURS, minutes_words(c, r->minutes),
             minutes_words(c, r->engine_minutes)));
    add(c, &l, FILL(c->keep, c->tongue, DRILL_MINUTES_CALL, minutes_words(c, r->call_minutes)));
    host_list(c, turn, TT_PART_NOTE, catalogue_text(c->tongue, DRILL_MINUTES), l.items, l.count);
}

static void add_engine(conversation *c, tt_turn *turn, const tt_drill_review *r)
{
    lines l = {NULL, 0, 0};
    const text_id end = r->engine_end[0] == 'c' && r->engine_end[1] == 'u' ? DRILL_ITS_CURED
                        : r->engine_end[0] == 'c'                          ? DRILL_ITS_CALLED
                                                                           : DRILL_ITS_STOPPED;
    for (uint32_t i = 0; i < r->engine_path_count; i++) add(c, &l, r->engine_path[i]);
    add(c, &l, catalogue_text(c->tongue, end));
    host_list(c, turn, TT_PART_TRIED, catalogue_text(c->tongue, DRILL_ITS_WAY), l.items, l.count);
}

static const char *count_words(conversation *c, uint32_t count)
{
    return arena_text(c->keep, "%u", count);
}

static void add_score(conversation *c, tt_turn *turn, const tt_drill_review *r)
{
    const char *role = c->line->values[OPTION_AS];
    const drill_score score = {.seed = c->drill->seed,
                               .role = role != NULL ? role : tt_role_name(c->book.book, 0),
                               .minutes = r->minutes,
                               .engine_minutes = r->engine_minutes,
                               .cured = r->end == TT_DRILL_CURED,
                               .missed = r->danger_count};
    const drill_tally t =
        drill_scored(c->keep, &c->book, &score, !is_given(c->line, OPTION_UNSAVED));
    c->drill->kept = t.kept;
    host_line(c, turn, TT_PART_NOTE, catalogue_text(c->tongue, DRILL_SCORES),
              FILL(c->keep, c->tongue, DRILL_SCORE, count_words(c, t.drills),
                   count_words(c, t.cured), arena_text(c->keep, "%.2f", t.ratio),
                   count_words(c, t.missed)));
}

/* As it was called, with the seed. */
static void add_command(conversation *c, tt_turn *turn)
{
    static const option_id said[] = {OPTION_SITE, OPTION_AS, OPTION_LANGUAGE};
    char *book = shell_word(c->line->count > 1 ? c->line->words[1] : usual_book_name);
    const char *command = arena_text(c->keep, "%s drill %s --seed %llu", c->line->program, book,
                                     (unsigned long long)c->drill->seed);
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        if (!is_given(c->line, said[i])) continue;
        char *value = shell_word(c->line->values[said[i]]);
        command = arena_text(c->keep, "%s --%s %s", command, option_table[said[i]].name, value);
        free(value);
    }
    free(book);
    host_line(c, turn, TT_PART_COMMAND, catalogue_text(c->tongue, DRILL_AGAIN), command);
}

void show_drill_review(conversation *c)
{
    tt_drill_review r;
    note_failure(c, status_of(tt_drill_review_of(c->drill->d, &r)));
    if (c->failure != EXIT_DONE) return;
    assert(r.engine_end != NULL);
    tt_turn *turn = host_turn(
        c, TT_TURN_DRILL_REVIEW,
        catalogue_text(c->tongue, r.end == TT_DRILL_CURED ? DRILL_OVER_CURED : DRILL_OVER_CALLED));
    turn->word_count = 0;
    if (*c->drill->note != 0) host_line(c, turn, TT_PART_NOTE, "", c->drill->note);
    add_causes(c, turn, &r);
    add_dangers(c, turn, &r);
    add_minutes(c, turn, &r);
    add_steps(c, turn, &r);
    add_engine(c, turn, &r);
    add_score(c, turn, &r);
    add_command(c, turn);
    host_tell(c, turn);
}
