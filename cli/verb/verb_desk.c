/* desk: the board of all open cases. One is taken up, put down, and the next taken, in one window:
 * nothing is lost in between, since each case is what its records say. */
#include <stdlib.h>
#include <string.h>

#include "call/call_parts.h"
#include "call/dialogue.h"
#include "cases/case_depot.h"
#include "depots/refuge.h"
#include "host/fold_letters.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "say/catalogue.h"
#include "summary/case_list.h"
#include "summary/case_order.h"
#include "verb/verbs.h"

static const char new_call[] = "new", look_anew[] = "again", carry_over[] = "carry-over";

typedef struct desk {
    const command_line *line;
    face *face;
    char *root;
    case_query query;
    char *at, *to;        /* what the query points into */
    size_t waiting;       /* cases on this machine that belong into the database */
    tongue tongue;        /* of the board */
    const char *language; /* of calls that begin at it: as the options or a word at the board say;
                             null: the book's */
    exit_status failure;
} desk;

/* ---- the board ---- */

static const char *line_on_board(conversation *c, const case_summary *one, const case_reader *me)
{
    case_contact contact;
    const char *line = case_line(c->keep, one, me);
    if (case_contact_read(c->keep, one->folder, &contact) != EXIT_DONE ||
        !case_contact_says_something(&contact))
        return line;
    return FILL(c->keep, c->tongue, HOST_BOARD_CALLER, line,
                contact_words(c->keep, c->tongue, &contact));
}

static void offer_those(conversation *c, tt_turn *turn, const case_list *open, case_stand stand,
                        const case_reader *me)
{
    for (size_t i = 0; i < open->count; i++) {
        const case_summary *one = &open->cases[i];
        if (case_stand_of(one, me) == stand)
            host_choice(c, turn, arena_copy(c->keep, one->folder), line_on_board(c, one, me));
    }
}

/* The most pressing first; of these, who waits longest. */
static tt_turn *board_turn(const desk *d, conversation *c, case_list *open)
{
    const case_reader me = reader_now(d->line);
    tt_turn *turn =
        host_turn(c, TT_TURN_OPEN_CASES,
                  catalogue_text(c->tongue, open->count > 0 ? HOST_BOARD : HOST_BOARD_EMPTY));
    case_list_sort(open, ORDER_MOVED);
    for (case_stand stand = STANDS_DANGER; stand < STANDS_ENDED; stand++)
        offer_those(c, turn, open, stand, &me);
    host_choice(c, turn, new_call, catalogue_text(c->tongue, HOST_NEW_CALL));
    host_choice(c, turn, look_anew, catalogue_text(c->tongue, HOST_LOOK_ANEW));
    if (d->waiting > 0) host_choice(c, turn, carry_over, catalogue_text(c->tongue, HOST_CARRY_NOW));
    return turn;
}

/* While the database is away, those that wait for it on this machine. */
static exit_status read_open(desk *d, arena *keep, case_list *open)
{
    const char *refuge = refuge_of(keep, d->root);
    const exit_status status = case_list_read(d->root, true, &d->query, open);
    const bool away = refuge != NULL && status == EXIT_AWAY;
    d->waiting = refuge != NULL && status == EXIT_DONE ? refuge_count(d->root) : 0;
    return away ? case_list_read(refuge, true, &d->query, open) : status;
}

/* What is said on the board: a case's folder, `new_call` or `look_anew`; null: the desk was left,
 * or danger was spoken of, which a new call hears. */
static const char *ask_board(desk *d, conversation *c)
{
    case_list open = {.cases = NULL};
    note_failure(c, read_open(d, c->keep, &open));
    tt_turn *turn = c->failure == EXIT_DONE ? board_turn(d, c, &open) : NULL;
    const char *told = NULL, *chosen = turn != NULL ? host_choose_or_hear(c, turn, &told) : NULL;
    bool new_one = false;
    while (chosen == NULL && told != NULL && !new_one) {
        new_one = tells_of_new_case(c, turn, told);
        if (!new_one) chosen = host_choose_or_hear(c, turn, &told);
    }
    case_list_free(&open);
    return new_one ? new_call : chosen;
}

/* ---- one after the other ---- */

static void take_one(desk *d, const char *named, const conversation *board)
{
    const exit_status status =
        take_call(d->line, d->face,
                  &(call_wish){.at_desk = true,
                               .named = named,
                               .language = named == NULL ? d->language : NULL,
                               .danger_said = named == NULL ? board->danger_said : NULL,
                               .told_first = board->told_first});
    if (status == EXIT_OUR_BUG) d->failure = status;
}

/* False: the desk is left. */
static bool go_round(desk *d)
{
    conversation board = {.line = d->line,
                          .keep = host_arena(),
                          .face = d->face,
                          .said_why = "",
                          .tongue = d->tongue};
    size_t carried;
    const char *chosen = ask_board(d, &board);
    const bool danger = board.danger_said != NULL;
    d->failure = board.failure;
    if (board.tongue != d->tongue) d->language = tongue_tag(board.tongue);
    d->tongue = board.tongue;
    if (danger || chosen == new_call)
        take_one(d, NULL, &board);
    else if (chosen == carry_over)
        (void)refuge_empty(d->root, &carried); /* what went wrong was said; the rest waits on */
    else if (chosen != NULL && chosen != look_anew)
        take_one(d, chosen, &board);
    for (uint32_t i = 0; i < board.before_count; i++) book_close(&board.before[i]);
    arena_free(board.keep);
    return (danger || chosen != NULL) && d->failure == EXIT_DONE;
}

/* ---- the verb ---- */

static exit_status sit_at(desk *d)
{
    line_input input;
    d->face = face_wanted(d->line, &input);
    while (go_round(d)) continue;
    face_end(d->face);
    return d->failure;
}

exit_status verb_desk(const command_line *line)
{
    const exit_status wrong = check_talk_options(line);
    if (wrong != EXIT_DONE) return wrong;
    desk d = {.line = line,
              .root = cases_root(line->values[OPTION_CASES]),
              .tongue = tongue_of(line->values[OPTION_LANGUAGE]),
              .language = line->values[OPTION_LANGUAGE],
              .at = folded_part(line->values[OPTION_AT]),
              .to = folded_part(line->values[OPTION_TO])};
    d.query =
        (case_query){.kinds = 1u << TT_KIND_FAULT,
                     .states = 1u << TT_CASE_OPEN | 1u << TT_CASE_ON_HOLD | 1u << TT_CASE_WAITING,
                     .since = INT64_MIN,
                     .until = INT64_MAX,
                     .at = d.at,
                     .to = d.to};
    const exit_status status = d.root != NULL ? sit_at(&d) : EXIT_NO_FILE;
    free(d.to);
    free(d.at);
    free(d.root);
    return status;
}
