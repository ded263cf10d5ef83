/* ask: the guided case, from the complaint to the end. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "ask/ask.h"
#include "ask/ask_site.h"
#include "ask/case_replay.h"
#include "ask/record_texts.h"
#include "ask/turn_parts.h"
#include "face/show_standing.h"
#include "face/wordings.h"
#include "host/begin_case.h"
#include "host/case_folder.h"
#include "host/case_people.h"
#include "host/plain_text.h"
#include "verb/verbs.h"

/* ---- beginning ---- */

static exit_status keep_beginning(ask *a)
{
    tt_book_info info = tt_book_describe(a->book.book);
    const char *role = a->line->values[OPTION_AS], *language = a->line->values[OPTION_LANGUAGE];
    json_t *data = json_object();
    json_object_set_new(data, "number", json_string(case_file_number(a->file)));
    json_object_set_new(data, "rulebook", json_string(a->book.folder));
    json_object_set_new(data, "title", json_string(info.title));
    json_object_set_new(data, "edition", json_string(info.edition));
    json_object_set_new(data, "revision", json_string(a->book.revision));
    json_object_set_new(data, "site", site_record(a));
    add_site_title(a, data);
    json_object_set_new(data, "role", role != NULL ? json_string(role) : json_null());
    json_object_set_new(data, "language", language != NULL ? json_string(language) : json_null());
    json_object_set_new(data, "soonest", json_boolean(is_given(a->line, OPTION_SOONEST)));
    json_object_set_new(data, "program", json_string(TELLTALE_VERSION));
    add_person(data, a->line->values[OPTION_NAME]);
    return case_file_add(a->file, "begin", data);
}

static exit_status begin_anew(ask *a)
{
    char *named;
    exit_status status = book_wanted(a, &named);
    if (status == EXIT_DONE) status = open_for_site(a, named);
    free(named);
    if (status == EXIT_DONE)
        status =
            case_begin(&a->book, a->line->values[OPTION_AS], a->line->values[OPTION_LANGUAGE],
                       is_given(a->line, OPTION_SOONEST), true, &a->c);
    if (status != EXIT_DONE || is_given(a->line, OPTION_UNSAVED)) return status;
    char *root = cases_root(a->line->values[OPTION_CASES]);
    status = root != NULL ? case_file_new(root, &a->file) : EXIT_CANNOT_CREATE;
    free(root);
    return status == EXIT_DONE ? keep_beginning(a) : status;
}

/* ---- taking up again ---- */

static exit_status open_its_book(ask *a)
{
    const char *folder = case_book(a->file, a->line->count > 1 ? a->line->words[1] : NULL);
    exit_status status = folder != NULL ? open_for_site_again(a, folder) : EXIT_BAD_DATA;
    return status == EXIT_DONE ? case_begin_again(a) : status;
}

/* Where nothing is asked and nothing is answered, nothing is written either. */
static exit_status join_case(ask *a)
{
    bool asks = !is_given(a->line, OPTION_NO_INPUT);
    if (!asks && !is_given(a->line, OPTION_ANSWERS)) return EXIT_DONE;
    bool views = false;
    exit_status status = asks ? meet_others(a, &views) : EXIT_DONE;
    if (status != EXIT_DONE || views) return status;
    status = case_file_join(a->file);
    if (status == EXIT_CANNOT_CREATE) complain("to look at the case only, add --no-input");
    return status;
}

static exit_status take_up(ask *a)
{
    char *root = cases_root(a->line->values[OPTION_CASES]);
    if (root == NULL) return EXIT_CANNOT_CREATE;
    exit_status status = case_file_read(root, a->line->values[OPTION_CASE], &a->file);
    free(root);
    if (status == EXIT_DONE) status = join_case(a);
    if (status == EXIT_DONE) status = open_its_book(a);
    return status == EXIT_DONE ? replay(a) : status;
}

/* ---- the case ---- */

static void close_cured(ask *a)
{
    json_t *data = json_object();
    json_object_set_new(data, "how", json_string("gone"));
    add_ending_texts(a, data);
    keep_note(a, "close", data);
    if (a->leaving != STAYING) return;
    a->leaving = LEAVING_CLOSED;
    a->confirm_due = true;
    show_summary(a);
}

/* To a question that was asked for by its words; but not before danger is ruled out and what has to be is
 * put back. */
static bool jumps(ask *a, const tt_view *view, bool danger)
{
    uint32_t question = a->jump;
    if (question == TT_NONE || danger || view->step == TT_PUT_BACK || view->step == TT_CLOSED)
        return false;
    a->jump = TT_NONE;
    if (!ask_question(a, question)) a->jump = question;
    return true;
}

static void take_turn(ask *a)
{
    if (!keep_up(a)) return;
    const tt_view *view = look(a);
    if (view == NULL) return;
    show_new_cautions(a, view);
    bool danger = view->step == TT_STOP || (view->step == TT_ASK && view->next.first);
    if (view->step == TT_STOP) show_unsettled(a);
    else if (settle_one(a)) return;
    if (!danger && ask_danger_again(a, view)) return;
    if (jumps(a, view, danger)) return;
    switch (view->step) {
    case TT_ASK:
        ask_question(a, view->next.question);
        return;
    case TT_FIX:
        ask_fix(a, view);
        return;
    case TT_PUT_BACK:
        ask_put_back(a, view);
        return;
    case TT_CALL:
    case TT_STOP:
        ask_whom_to_call(a, view);
        return;
    case TT_CLOSED:
        close_cured(a);
        return;
    case TT_COMPLAINT:
        ask_complaint(a);
        return;
    case TT_PIECE: /* asked with the complaint */
    case TT_SETTLE: /* asked above */
        break;
    }
    assert(false);
}

/* With --no-input: what would come next, and the end. */
static void show_without_asking(ask *a)
{
    const tt_view *view = look(a);
    if (view == NULL) return;
    show_new_cautions(a, view);
    say_nothing(&a->s);
    show_known(a);
    show_stop(&a->s, view);
    tt_question question;
    if (view->step == TT_ASK && tt_question_show(a->c, view->next.question, &question) == TT_OK)
        say(&a->s, "Next question: %s", question.ask);
    turn_next(a, view);
    a->leaving = LEAVING_ENDED;
}

static exit_status add_answers(ask *a)
{
    if (!is_given(a->line, OPTION_ANSWERS)) return EXIT_DONE;
    tt_source file;
    exit_status status = source_read_file(a->line->values[OPTION_ANSWERS], &file);
    if (status == EXIT_DONE) status = step_file(a, &file);
    source_free(&file);
    return status;
}

static exit_status status_at_end(const ask *a, tt_step step)
{
    switch (a->leaving) {
    case LEAVING_CLOSED:
        return step == TT_CLOSED ? EXIT_DONE : EXIT_PROBLEMS;
    case LEAVING_FAILED:
        return a->failure;
    default:
        return EXIT_UNFINISHED;
    }
}

static void go_on_to_the_end(ask *a)
{
    do {
        while (a->leaving == STAYING) take_turn(a);
        if (a->leaving == LEAVING_CLOSED) offer_to_keep_facts(a);
    } while (a->leaving == LEAVING_CLOSED && offer_to_confirm(a));
}

static bool is_only_viewed(const ask *a)
{
    return a->file != NULL && !case_file_is_open(a->file);
}

/* Others see that it was left, whatever way. */
static void keep_leaving(ask *a)
{
    if (a->leaving != LEAVING_ENDED && a->leaving != LEAVING_SIGNAL) return;
    leaving how = a->leaving;
    keep_stop(a);
    if (a->leaving != LEAVING_FAILED) a->leaving = how;
}

static exit_status hold_session(ask *a)
{
    if (!a->cautions_seen) show_book_cautions(a);
    show_site(a);
    if (is_given(a->line, OPTION_CASE))
        take_up_again(a);
    else if (a->file != NULL)
        say(&a->s, "Case number: %s", case_file_number(a->file));
    bool views = is_given(a->line, OPTION_NO_INPUT) || is_only_viewed(a);
    if (a->leaving == STAYING && views) show_without_asking(a);
    go_on_to_the_end(a);
    keep_leaving(a);
    const tt_view *view = NULL;
    tt_step step = tt_look(a->c, &view) == TT_OK ? view->step : TT_CALL;
    if (a->leaving == LEAVING_STOPPED) show_summary(a);
    if (a->leaving != LEAVING_FAILED || a->failure != EXIT_IO) show_leaving(a);
    return status_at_end(a, step);
}

static exit_status check_together(const command_line *line)
{
    bool resumes = is_given(line, OPTION_CASE);
    if (resumes && is_given(line, OPTION_UNSAVED)) {
        complain("--case and --unsaved don't go together");
        return EXIT_USAGE;
    }
    const char *answers = line->values[OPTION_ANSWERS];
    const char *site = line->values[OPTION_SITE];
    if (site != NULL && strcmp(site, "-") == 0) {
        complain("--site - takes standard input, where your answers come from: name a file");
        return EXIT_USAGE;
    }
    bool takes_input = answers != NULL && strcmp(answers, "-") == 0;
    if (takes_input && !is_given(line, OPTION_NO_INPUT)) {
        complain(
            "--answers - takes all of standard input, so nothing can be asked: add --no-input");
        return EXIT_USAGE;
    }
    return EXIT_DONE;
}

exit_status verb_ask(const command_line *line)
{
    exit_status status = check_together(line);
    if (status != EXIT_DONE) return status;
    ask *a = take_memory(sizeof *a);
    *a = (ask){
        .line = line, .question_shown = TT_NONE, .jump = TT_NONE, .danger_next = TT_NONE, .fix_shown = TT_NONE, .fix_explained = TT_NONE, .asks = true};
    if (is_given(line, OPTION_JSON)) a->turn = turn_new(stdout);
    a->s = screen_on(a->turn != NULL ? a->turn->shown : stdout);
    line_input_begin(&a->input, STDIN_FILENO);
    status = is_given(line, OPTION_CASE) ? take_up(a) : begin_anew(a);
    if (status == EXIT_DONE) status = add_answers(a);
    if (status == EXIT_DONE) status = hold_session(a);
    turn_end(a, status);
    if (a->leaving == LEAVING_FAILED && status < EXIT_BAD_DATA) status = a->failure;
    case_look_end(a);
    turn_free(a->turn);
    free(a);
    return status;
}
