/* The last page of `ask`, and the status that follows from how it ended. */
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "base/value.h"
#include "call/call_parts.h"
#include "call/dialogue.h"
#include "call/drill_review.h"
#include "cases/case_depot.h"
#include "cases/ended.h"
#include "cases/go_on.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "say/catalogue.h"

/* ---- how to go on ---- */

/* What the case remembers from its beginning need not be said again, unless it was said otherwise
 * now. */
static const char *options_said(conversation *c)
{
    static const option_id said_anew[] = {OPTION_AS, OPTION_LANGUAGE, OPTION_SOONEST};
    text_builder b = {.keep = c->keep};
    for (size_t i = 0; i < sizeof said_anew / sizeof said_anew[0] && is_given(c->line, OPTION_CASE);
         i++) {
        const option_entry *option = &option_table[said_anew[i]];
        if (!is_given(c->line, said_anew[i])) continue;
        char *value = shell_word(c->line->values[said_anew[i]]);
        text_addf(&b, " --%s%s%s", option->name, option->value != NULL ? " " : "",
                  option->value != NULL ? value : "");
        free(value);
    }
    return b.length > 0 ? text_done(&b).p : "";
}

static const char *command_to_go_on(conversation *c)
{
    const bool other_book = is_given(c->line, OPTION_CASE) && c->line->count > 1;
    way_back way = way_back_to(c->line->program, c->line->values[OPTION_CASES]);
    char *command = go_on_command(&way, &(go_on){.number = case_store_number(c->store),
                                                 .folder = case_store_folder(c->store),
                                                 .book = other_book ? c->line->words[1] : NULL,
                                                 .options = options_said(c)});
    const char *kept = arena_copy(c->keep, command);
    free(command);
    way_back_free(&way);
    return kept;
}

/* Of a case whose database went away meanwhile, or was away when it began; else null. */
static const char *command_to_carry_over(conversation *c)
{
    char *root = cases_root(c->line->values[OPTION_CASES]);
    const bool waits = root != NULL && depot_of(root) != depot_of(case_store_folder(c->store));
    const char *refuge = waits ? refuge_of(c->keep, root) : NULL;
    way_back way = way_back_to(c->line->program, c->line->values[OPTION_CASES]);
    char *from = shell_word(refuge != NULL ? refuge : ""), *to = shell_word(waits ? root : "");
    const char *command =
        refuge != NULL ? arena_text(c->keep, "%s cases %s --copy-to %s", way.program, from, to)
                       : NULL;
    free(to);
    free(from);
    way_back_free(&way);
    free(root);
    return command;
}

static void tell_carrying(conversation *c, tt_turn *shown)
{
    const char *command =
        c->store != NULL && case_store_is_on_disk(c->store) ? command_to_carry_over(c) : NULL;
    if (command != NULL)
        host_line(c, shown, TT_PART_COMMAND, catalogue_text(c->tongue, HOST_CARRY_OVER), command);
}

/* ---- the page ---- */

static exit_status status_at_end(const conversation *c, const char *how)
{
    if (c->failure != EXIT_DONE) return c->failure;
    if (c->store != NULL && case_store_unkept(c->store) > 0) return EXIT_IO;
    return status_of_end(how);
}

/* The person, or their line, is gone: it was not the word that ended it. */
static const char *how_it_ended(const conversation *c, const tt_turn *turn)
{
    if (c->failure != EXIT_DONE) return "failed";
    if (c->left == FACE_SIGNAL) return "signal";
    return c->left == FACE_REPLY || is_closed(turn->how) ? turn->how : "input-ended";
}

static const tt_turn *last_turn(conversation *c)
{
    const tt_turn *turn = c->talk != NULL ? tt_talk_turn(c->talk) : NULL;
    if (turn != NULL && turn->kind == TT_TURN_END) return turn;
    tt_turn *made = host_turn(
        c, TT_TURN_END,
        turn == NULL && c->failure == EXIT_DONE ? catalogue_text(c->tongue, HOST_NO_CASE) : "");
    made->how = "left";
    made->word_count = 0;
    return made;
}

/* Each line of a file is named by the one behind it: this one names what closed the case. */
static void seal(conversation *c, const char *how)
{
    const char *why;
    const bool kept =
        c->store != NULL && case_store_is_on_disk(c->store) && case_store_unkept(c->store) == 0;
    if (!kept || !is_closed(how) || c->kept_count == 0 || c->failure != EXIT_DONE) return;
    tt_record r = c->kept[c->kept_count - 1];
    value_builder nothing = value_map(c->keep);
    const tt_value data = value_done(&nothing);
    r.number++;
    r.lamport++;
    r.kind = "seal";
    r.data = &data;
    if (!case_store_keep(c->store, &r, 1, &why)) complain("%s", why);
}

exit_status end_case(conversation *c)
{
    if (c->put_down && c->failure == EXIT_DONE)
        return EXIT_UNFINISHED; /* the board says how it stands */
    const tt_turn *last = last_turn(c);
    seal(c, last->how);
    tt_turn *shown = ARENA_NEW(c->keep, tt_turn);
    *shown = *last;
    shown->how = how_it_ended(c, last);
    if (c->told_count > 0)
        host_list(c, shown, TT_PART_NOTE, c->told_title != NULL ? c->told_title : "", c->told,
                  c->told_count);
    const bool goes_on = c->store != NULL && !c->at_desk && case_store_is_on_disk(c->store) &&
                         !is_closed(last->how) && strcmp(last->how, "left") != 0;
    if (goes_on)
        host_line(c, shown, TT_PART_COMMAND, catalogue_text(c->tongue, HOST_GO_ON_WITH),
                  command_to_go_on(c));
    tell_carrying(c, shown);
    c->status = status_at_end(c, last->how);
    if (c->failure != EXIT_IO) host_tell(c, shown);
    return c->failure == EXIT_IO ? EXIT_IO : c->status;
}

/* A person has read the review of one that came to its end; a program is told in the words that it
 * knows from a case. What is dangerous where the learner is goes with whoever leaves. */
exit_status end_drill(conversation *c, const char *how)
{
    const tt_turn *last = last_turn(c);
    tt_turn *shown = ARENA_NEW(c->keep, tt_turn);
    *shown = *last;
    shown->how = *how != 0 && c->failure == EXIT_DONE ? how : how_it_ended(c, last);
    shown->prompt = catalogue_text(c->tongue, *how == 0                  ? DRILL_LEFT
                                              : strcmp(how, "gone") == 0 ? DRILL_OVER_CURED
                                                                         : DRILL_OVER_CALLED);
    shown->say = "";
    shown->kept = c->drill->kept; /* its score */
    if (!shown->dangerous) shown->part_count = 0;
    c->status = c->failure != EXIT_DONE ? c->failure : *how != 0 ? EXIT_DONE : EXIT_UNFINISHED;
    if (c->failure != EXIT_IO && (*how == 0 || is_given(c->line, OPTION_JSON))) host_tell(c, shown);
    return c->failure == EXIT_IO ? EXIT_IO : c->status;
}
