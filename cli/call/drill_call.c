/* A drill: danger where the learner is comes first, and is real; then a made-up call is led through
 * turns of the program's own. What is said of danger at any of them is heard by the talk. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "call/call_parts.h"
#include "call/dialogue.h"
#include "call/drill_review.h"
#include "cases/begin_case.h"
#include "cases/ended.h"
#include "host/clock.h"
#include "host/memory.h"
#include "host/read_number.h"
#include "host/screen.h"
#include "say/catalogue.h"

static const uint64_t SEED_MOST = UINT64_C(1) << 53; /* the largest that JSON holds for everybody */
enum { SEEDS_DRAWN = 1000000 };                      /* short enough to be typed */

/* ---- turns ---- */

static tt_turn *drill_turn(conversation *c, tt_turn_kind kind, text_id prompt)
{
    tt_turn *t = host_turn(c, kind, catalogue_text(c->tongue, prompt));
    t->title = catalogue_text(c->tongue, DRILL_TITLE);
    t->gate_open = true;
    return t;
}

static const char *drill_minutes(conversation *c, double minutes)
{
    return FILL(c->keep, c->tongue, CASES_MINUTES, arena_text(c->keep, "%.0f", minutes));
}

static void note(conversation *c, const char *text)
{
    c->drill->note = text;
}

static bool show_question(conversation *c, uint32_t question, tt_question *out)
{
    note_failure(c, status_of(tt_question_show(tt_drill_case(c->drill->d), question, out)));
    return c->failure == EXIT_DONE;
}

/* A question or a fix may be called as a word that is heard everywhere, "danger": its choice has a
 * name of its own. */
static const char of_look[] = "look-", of_try[] = "try-";

static const char *named_choice(conversation *c, const char *of, const char *name)
{
    return arena_text(c->keep, "%s%s", of, name);
}

/* ---- looking ---- */

static void look_at(conversation *c, const char *name)
{
    const char *seen = "";
    tt_question q;
    const uint32_t question = tt_question_find(c->book.book, name);
    if (question == TT_NONE || !show_question(c, question, &q)) return;
    const char *ask = arena_copy(c->keep, q.ask);
    note_failure(c, status_of(tt_drill_ask(c->drill->d, question, &seen)));
    if (c->failure == EXIT_DONE)
        note(c, FILL(c->keep, c->tongue, DRILL_SEEN, ask, arena_copy(c->keep, seen)));
}

/* Those that are answered at one place; TT_NONE: at none in particular. */
static void choose_look(conversation *c, const tt_drill_stand *s, uint32_t place)
{
    tt_turn *turn = drill_turn(c, TT_TURN_DRILL_LOOK, DRILL_WHICH_LOOK);
    for (uint32_t i = 0; i < s->look_count; i++) {
        tt_question q;
        if (!show_question(c, s->looks[i], &q)) return;
        if (q.place == place)
            host_choice(c, turn, named_choice(c, of_look, q.name), arena_copy(c->keep, q.ask));
    }
    host_choice(c, turn, "none", catalogue_text(c->tongue, DRILL_NOT_THIS));
    const char *chosen = host_choose(c, turn);
    if (chosen != NULL && strcmp(chosen, "none") != 0) look_at(c, chosen + sizeof of_look - 1);
}

/* ---- trying ---- */

static void try_fix(conversation *c, const char *name)
{
    bool held;
    tt_outcome outcome;
    tt_fix_plan plan;
    const uint32_t fix = tt_fix_find(c->book.book, name);
    if (fix == TT_NONE) return;
    note_failure(c, status_of(tt_fix_show(tt_drill_case(c->drill->d), fix, &plan)));
    if (c->failure != EXIT_DONE) return;
    const char *text = arena_copy(c->keep, plan.text);
    note_failure(c, status_of(tt_drill_try(c->drill->d, fix, &held, &outcome)));
    if (c->failure != EXIT_DONE) return;
    const text_id said = held                      ? DRILL_HELD
                         : outcome == TT_GONE      ? DRILL_GONE
                         : outcome == TT_BETTER    ? DRILL_BETTER
                         : outcome == TT_COULD_NOT ? DRILL_COULD_NOT
                                                   : DRILL_NO_CHANGE;
    note(c, FILL(c->keep, c->tongue, said, text));
}

static void choose_fix(conversation *c, const tt_drill_stand *s)
{
    tt_turn *turn = drill_turn(c, TT_TURN_DRILL_TRY, DRILL_WHICH_FIX);
    for (uint32_t i = 0; i < s->fix_count; i++) {
        tt_fix_plan plan;
        note_failure(c, status_of(tt_fix_show(tt_drill_case(c->drill->d), s->fixes[i], &plan)));
        if (c->failure != EXIT_DONE) return;
        host_choice(c, turn, named_choice(c, of_try, plan.name), arena_copy(c->keep, plan.text));
    }
    host_choice(c, turn, "none", catalogue_text(c->tongue, DRILL_NOT_THIS));
    const char *chosen = host_choose(c, turn);
    if (chosen != NULL && strcmp(chosen, "none") != 0) try_fix(c, chosen + sizeof of_try - 1);
}

/* ---- what now ---- */

static bool has_choice(const tt_turn *turn, const char *id)
{
    for (uint32_t i = 0; i < turn->choice_count; i++)
        if (strcmp(turn->choices[i].id, id) == 0) return true;
    return false;
}

static const char *place_id(conversation *c, uint32_t place)
{
    return place == TT_NONE ? "ask" : arena_text(c->keep, "at-%u", place);
}

static void add_place(conversation *c, tt_turn *turn, const tt_question *q)
{
    const char *id = place_id(c, q->place);
    if (has_choice(turn, id)) return;
    host_choice(c, turn, id,
                q->place == TT_NONE
                    ? catalogue_text(c->tongue, DRILL_ASK_CALLER)
                    : FILL(c->keep, c->tongue, DRILL_LOOK_AT, arena_copy(c->keep, q->place_text)));
}

/* What is asked of the caller alone comes first, danger among it: to think of that is the learner's
 * part. */
static void add_places(conversation *c, tt_turn *turn, const tt_drill_stand *s)
{
    for (int anywhere = 1; anywhere >= 0; anywhere--)
        for (uint32_t i = 0; i < s->look_count; i++) {
            tt_question q;
            if (!show_question(c, s->looks[i], &q)) return;
            if ((q.place == TT_NONE) == (anywhere == 1)) add_place(c, turn, &q);
        }
}

static tt_turn *what_now(conversation *c, const tt_drill_stand *s)
{
    tt_turn *turn = drill_turn(c, TT_TURN_DRILL, DRILL_TITLE);
    turn->prompt = turn->say =
        FILL(c->keep, c->tongue, DRILL_WHAT_NOW, drill_minutes(c, s->minutes));
    host_line(c, turn, TT_PART_NOTE, "",
              *s->complaint != 0 ? FILL(c->keep, c->tongue, DRILL_SAYS, s->complaint)
                                 : catalogue_text(c->tongue, DRILL_SAYS_NOTHING));
    if (*c->drill->note != 0) host_line(c, turn, TT_PART_NOTE, "", c->drill->note);
    add_places(c, turn, s);
    if (s->fix_count > 0) host_choice(c, turn, "try", catalogue_text(c->tongue, DRILL_TRY));
    host_choice(c, turn, "call", catalogue_text(c->tongue, DRILL_CALL));
    return turn;
}

static void go_on(conversation *c, const tt_drill_stand *s)
{
    const char *chosen = host_choose(c, what_now(c, s));
    if (chosen == NULL || c->failure != EXIT_DONE) return;
    if (strcmp(chosen, "call") == 0)
        note_failure(c, status_of(tt_drill_call(c->drill->d)));
    else if (strcmp(chosen, "try") == 0)
        choose_fix(c, s);
    else
        choose_look(c, s,
                    strcmp(chosen, "ask") == 0 ? TT_NONE : (uint32_t)strtoul(chosen + 3, NULL, 10));
}

/* In the place of the talk's own turns, as long as danger is ruled out where the learner is. */
static void lead(conversation *c)
{
    tt_drill_stand s;
    note_failure(c, status_of(tt_drill_look_at(c->drill->d, &s)));
    if (c->failure != EXIT_DONE) return;
    if (s.end == TT_DRILL_GOES_ON) {
        go_on(c, &s);
        return;
    }
    show_drill_review(c);
    c->drill->how = s.end == TT_DRILL_CURED ? "gone" : "call";
    c->left = FACE_ENDED;
}

/* ---- the verb ---- */

static exit_status seed_wanted(const command_line *line, uint64_t *seed)
{
    char now[TT_MOMENT_SIZE];
    tt_moment m = {0, 0};
    const char *typed = line->values[OPTION_SEED];
    clock_now(now);
    tt_moment_read(now, &m);
    *seed = (uint64_t)(m.milliseconds % SEEDS_DRAWN);
    if (typed == NULL || whole_number(typed, 0, SEED_MOST, seed)) return EXIT_DONE;
    complain("--seed %s: write a whole number from 0 to %llu", typed,
             (unsigned long long)SEED_MOST);
    return EXIT_USAGE;
}

static exit_status drill_through(conversation *c, drilling *d)
{
    uint32_t role;
    const command_line *line = c->line;
    note_failure(c, role_named(c->book.book, line->values[OPTION_AS], &role));
    if (c->failure == EXIT_DONE) {
        const tt_drill_options options = {d->seed, role, line->values[OPTION_LANGUAGE]};
        note_failure(c, status_of(tt_drill_new(c->book.book, &options, &d->d)));
    }
    if (c->failure == EXIT_DONE) talk_anew(c, NULL);
    if (c->failure == EXIT_DONE) {
        tt_turn *turn = host_turn(c, TT_TURN_DRILL, catalogue_text(c->tongue, DRILL_BEGINS));
        turn->word_count = 0;
        host_tell(c, turn);
        go_on_talking(c);
    }
    return end_drill(c, d->how);
}

exit_status drill_with(const command_line *line)
{
    line_input input;
    drilling d = {.d = NULL, .note = "", .how = ""};
    exit_status status = check_talk_options(line);
    if (status == EXIT_DONE) status = seed_wanted(line, &d.seed);
    if (status != EXIT_DONE) return status;
    conversation c = {.line = line,
                      .keep = host_arena(),
                      .kind = TT_KIND_DRILL,
                      .said_why = "",
                      .practice = !is_given(line, OPTION_SITE),
                      .drill = &d,
                      .instead = lead,
                      .language = line->values[OPTION_LANGUAGE],
                      .tongue = tongue_of(line->values[OPTION_LANGUAGE])};
    status = book_open_at(line->count > 1 ? line->words[1] : usual_book_name,
                          line->values[OPTION_SITE], &c.book);
    if (status == EXIT_DONE) {
        c.face = face_wanted(line, &input);
        status = drill_through(&c, &d);
        tt_talk_free(c.talk);
        tt_drill_free(d.d);
        face_end(c.face);
        book_close(&c.book);
    }
    arena_free(c.keep);
    return status;
}
