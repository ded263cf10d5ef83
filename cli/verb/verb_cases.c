/* cases: lists the cases of a folder, finds some of them, counts. Needs no book. */
#include <inttypes.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>

#include "call/conversation.h"
#include "cases/case_name.h"
#include "cases/case_overview.h"
#include "depots/set_up.h"
#include "face/cases.h"
#include "face/speaker.h"
#include "host/clock.h"
#include "host/fold_letters.h"
#include "host/plain_text.h"
#include "verb/copy_cases.h"
#include "verb/days_between.h"
#include "verb/verbs.h"

/* ---- what is wanted ---- */

enum { MOST_DAYS = 36500 };

typedef struct wanted {
    case_query query;
    case_order order;
    size_t limit;
    char *at, *cause, *to, *phrase; /* what the query points into */
    char number[TT_CASE_NUMBER_SIZE];
} wanted;

static char *known_states(void)
{
    char *known = copy_text("");
    for (int i = 0; i < TT_CASE_STATES; i++) {
        char *longer =
            format_text("%s%s%s", known, i > 0 ? ", " : "", tt_case_state_name((tt_case_state)i));
        free(known);
        known = longer;
    }
    return known;
}

/* "open", "on hold", "On-Hold". */
static bool is_state(const char *typed, const char *name)
{
    char *plain = fold_text(typed);
    for (char *c = plain; *c != 0; c++)
        if (*c == ' ') *c = '-';
    bool same = strcmp(plain, name) == 0;
    free(plain);
    return same;
}

static exit_status read_state(const char *typed, unsigned *states)
{
    for (int i = 0; i < TT_CASE_STATES; i++) {
        if (!is_state(typed, tt_case_state_name((tt_case_state)i))) continue;
        *states |= 1u << i;
        return EXIT_DONE;
    }
    char *known = known_states();
    complain("%s is no state of a case. There are: %s; several with commas between", typed, known);
    free(known);
    return EXIT_USAGE;
}

static exit_status read_states(const char *typed, unsigned *states)
{
    if (typed == NULL) {
        *states = (1u << TT_CASE_STATES) - 1;
        return EXIT_DONE;
    }
    exit_status status = EXIT_DONE;
    for (*states = 0; status == EXIT_DONE; typed++) {
        size_t length = strcspn(typed, ",");
        char *one = format_text("%.*s", (int)length, typed);
        status = read_state(one, states);
        free(one);
        typed += length;
        if (*typed == 0) break;
    }
    return status;
}

static exit_status read_kind(const char *typed, unsigned *kinds)
{
    char *plain = fold_text(typed);
    tt_case_kind kind;
    const bool known = tt_case_kind_find(plain, &kind) && kind != TT_KIND_DRILL;
    free(plain);
    if (known) *kinds |= 1u << kind;
    if (!known)
        complain(
            "%s is no kind of case. There are: fault, round, record; several with commas between",
            typed);
    return known ? EXIT_DONE : EXIT_USAGE;
}

/* Faults, unless others are asked for. */
static exit_status read_kinds(const command_line *line, unsigned *kinds)
{
    const char *typed = line->values[OPTION_KIND];
    *kinds = is_given(line, OPTION_CASE) ? (1u << TT_CASE_KINDS) - 1 : 1u << TT_KIND_FAULT;
    if (typed == NULL) return EXIT_DONE;
    exit_status status = EXIT_DONE;
    for (*kinds = 0; status == EXIT_DONE; typed++) {
        const size_t length = strcspn(typed, ",");
        char *one = format_text("%.*s", (int)length, typed);
        status = read_kind(one, kinds);
        free(one);
        typed += length;
        if (*typed == 0) break;
    }
    return status;
}

static exit_status read_case_number(const command_line *line, wanted *w)
{
    const char *typed = line->values[OPTION_CASE];
    if (typed == NULL) return EXIT_DONE;
    exit_status status = case_number_typed(typed, w->number);
    w->query.number = w->number;
    return status;
}

static exit_status read_order(const command_line *line, wanted *w)
{
    const char *typed = line->values[OPTION_SORT];
    w->order = ORDER_LISTED;
    if (typed == NULL) return EXIT_DONE;
    for (int i = 0; i < CASE_ORDERS; i++) {
        if (i == ORDER_LISTED || strcmp(typed, case_order_name((case_order)i)) != 0) continue;
        w->order = (case_order)i;
        return EXIT_DONE;
    }
    complain("--sort %s is no order. There are: began, moved, site, state, until", typed);
    return EXIT_USAGE;
}

static exit_status check_by(const command_line *line)
{
    const char *by = line->values[OPTION_BY];
    if (by == NULL || strcmp(by, "month") == 0) return EXIT_DONE;
    complain("--by %s is not known. There is: --by month", by);
    return EXIT_USAGE;
}

static exit_status read_limit(const command_line *line, wanted *w)
{
    const char *typed = line->values[OPTION_LIMIT];
    char *end = NULL;
    w->limit = SIZE_MAX;
    if (typed == NULL) return EXIT_DONE;
    const unsigned long limit = strtoul(typed, &end, 10);
    if (typed[0] < '0' || typed[0] > '9' || *end != 0 || limit == 0 || limit == ULONG_MAX) {
        complain("--limit %s is no number of cases. Write one from 1, such as --limit 20", typed);
        return EXIT_USAGE;
    }
    w->limit = limit;
    return EXIT_DONE;
}

static exit_status read_ended_for(const command_line *line, wanted *w)
{
    const char *typed = line->values[OPTION_ENDED_FOR];
    char *end = NULL, clock[TT_MOMENT_SIZE];
    tt_moment now;
    if (typed == NULL) return EXIT_DONE;
    const unsigned long days = strtoul(typed, &end, 10);
    clock_now(clock);
    if (typed[0] < '0' || typed[0] > '9' || *end != 0 || days > MOST_DAYS ||
        !tt_moment_read(clock, &now)) {
        complain("--ended-for %s is no number of days. Write one such as --ended-for 90", typed);
        return EXIT_USAGE;
    }
    w->query.by_end = true;
    w->query.ended_until = now.milliseconds - (int64_t)days * 86400000;
    return EXIT_DONE;
}

/* Cuts the phrase into its words. */
static void read_words(wanted *w)
{
    for (char *at = w->phrase; at != NULL && *at != 0;) {
        char *end = at + strcspn(at, " ");
        bool last = *end == 0;
        *end = 0;
        if (end > at) {
            w->query.words =
                room_for_one(w->query.words, w->query.word_count, sizeof *w->query.words);
            w->query.words[w->query.word_count++] = at;
        }
        at = last ? end : end + 1;
    }
}

static exit_status read_wanted(const command_line *line, wanted *w)
{
    *w = (wanted){.at = folded_part(line->values[OPTION_AT]),
                  .cause = folded_part(line->values[OPTION_CAUSE]),
                  .to = folded_part(line->values[OPTION_TO]),
                  .phrase = folded_part(line->values[OPTION_TEXT])};
    w->query.at = w->at;
    w->query.cause = w->cause;
    w->query.to = w->to;
    read_words(w);
    exit_status status = read_states(line->values[OPTION_STATE], &w->query.states);
    if (status == EXIT_DONE) status = read_kinds(line, &w->query.kinds);
    if (status == EXIT_DONE) status = days_between(line, &w->query.since, &w->query.until);
    if (status == EXIT_DONE) status = read_order(line, w);
    if (status == EXIT_DONE) status = read_limit(line, w);
    if (status == EXIT_DONE) status = check_by(line);
    if (status == EXIT_DONE) status = read_ended_for(line, w);
    return status == EXIT_DONE ? read_case_number(line, w) : status;
}

static void wanted_end(wanted *w)
{
    free(w->query.words);
    free(w->phrase);
    free(w->cause);
    free(w->to);
    free(w->at);
}

/* ---- what comes out ---- */

/* A single one that was asked for is told whole. */
static exit_status print_list(const command_line *line, const screen *s, const way_back *way,
                              const case_list *list)
{
    const case_reader reader = reader_now(line);
    const bool contacts = is_given(line, OPTION_CONTACT);
    if (is_given(line, OPTION_FULL) || is_given(line, OPTION_CASE))
        return print_cases(s, way, list, contacts);
    return print_case_lines(s, list, &reader, contacts);
}

static exit_status print_text(const command_line *line, const screen *s, const way_back *way,
                              const case_overview *o)
{
    exit_status status = EXIT_DONE;
    const bool by_month = is_given(line, OPTION_BY);
    if (!by_month && !is_given(line, OPTION_COUNT_ONLY))
        status = print_list(line, s, way, &o->shown);
    if (by_month) print_months(s, &o->months);
    print_counts(s, &o->counts);
    return status;
}

static exit_status print_json(const command_line *line, const way_back *way, const case_overview *o)
{
    if (!is_given(line, OPTION_COUNT_ONLY) && !is_given(line, OPTION_BY))
        return print_cases_json(stdout, way, &o->shown, is_given(line, OPTION_CONTACT));
    print_counts_json(stdout, &o->counts, &o->months, o->list.failed);
    return EXIT_DONE;
}

static exit_status print(const command_line *line, const char *named, const case_overview *o)
{
    way_back way = way_back_to(line->program, named);
    const screen s = screen_on(stdout);
    const exit_status status =
        is_given(line, OPTION_JSON) ? print_json(line, &way, o) : print_text(line, &s, &way, o);
    way_back_free(&way);
    return status;
}

/* ---- who called ---- */

static exit_status erase_contacts(const case_list *list)
{
    size_t erased = 0;
    exit_status status = EXIT_DONE;
    for (size_t i = 0; i < list->count && status == EXIT_DONE; i++) {
        bool one;
        status = case_contact_erase(list->cases[i].folder, &one);
        erased += one;
    }
    const screen s = screen_on(stdout);
    const speaker by = {&s, host_arena(), TO_AUTHORS};
    SPEAK(&by, "", LINE_ERASED, whole(&by, erased));
    arena_free(by.keep);
    return status;
}

static exit_status keep_contact_of(const case_list *list, const case_contact *said)
{
    arena *keep = host_arena();
    exit_status status = EXIT_USAGE;
    if (list->count == 1)
        status = case_contact_keep(keep, list->cases[0].folder, said);
    else
        complain(
            "--caller, --call-back and --ticket are said of one case. Name it with --case NUMBER");
    arena_free(keep);
    return status;
}

/* What is to be done with them, rather than to list them; EXIT_DONE where nothing is. */
static exit_status change_contacts(const command_line *line, const case_list *list)
{
    const case_contact said = contact_said(line);
    if (case_contact_says_something(&said)) return keep_contact_of(list, &said);
    return is_given(line, OPTION_ERASE) ? erase_contacts(list) : EXIT_DONE;
}

/* All that fit, where something is done with them. */
static case_wish wish_of(const command_line *line, const wanted *w)
{
    const case_contact said = contact_said(line);
    const bool changes = case_contact_says_something(&said) || is_given(line, OPTION_ERASE),
               json = is_given(line, OPTION_JSON),
               sums = is_given(line, OPTION_COUNT_ONLY) || is_given(line, OPTION_BY);
    return (case_wish){.query = w->query,
                       .order = json && !is_given(line, OPTION_SORT) ? ORDER_BEGAN : w->order,
                       .limit = changes ? SIZE_MAX : w->limit,
                       .lists = changes || !sums || w->query.number != NULL,
                       .counts = sums || !json,
                       .months = sums};
}

static exit_status list_cases(const command_line *line, const wanted *w, const char *named,
                              const char *root)
{
    case_overview o;
    const case_wish wish = wish_of(line, w);
    exit_status status = case_overview_read(root, named == NULL, &wish, &o);
    if (status == EXIT_DONE) status = change_contacts(line, &o.list);
    if (status == EXIT_DONE && !is_given(line, OPTION_ERASE)) status = print(line, named, &o);
    if (o.list.failed > 0) {
        complain("%zu folders or cases could not be read; the numbers are without them",
                 o.list.failed);
        status = EXIT_IO;
    } else if (status == EXIT_DONE && w->query.number != NULL && o.list.looked_at == 0) {
        complain("there is no such case %s in %s", w->number, root);
        status = EXIT_NO_FILE;
    }
    case_overview_free(&o);
    return status;
}

/* ---- a folder for a group ---- */

static exit_status set_up_folder(const command_line *line)
{
    const char *folder = line->values[OPTION_SET_UP], *group = line->values[OPTION_GROUP];
    if (folder == NULL || *folder == 0 || group == NULL) {
        complain("a folder is set up for a group: telltale cases --set-up FOLDER --group GROUP");
        return EXIT_USAGE;
    }
    const screen s = screen_on(stdout);
    const speaker by = {&s, host_arena(), TO_AUTHORS};
    set_up done;
    const exit_status status = cases_set_up(by.keep, folder, group, &done);
    if (status == EXIT_DONE)
        SPEAK(&by, "", SET_UP_DONE, folder, group, whole(&by, done.folders),
              whole(&by, done.files));
    if (status == EXIT_DONE && done.closed != NULL)
        SPEAK(&by, "", SET_UP_CLOSED, done.closed, group);
    arena_free(by.keep);
    return status;
}

exit_status verb_cases(const command_line *line)
{
    if (is_given(line, OPTION_SET_UP) || is_given(line, OPTION_GROUP)) return set_up_folder(line);
    wanted w;
    const char *named;
    if (!cases_folder_named(line, 1, &named)) return EXIT_USAGE;
    char *root = cases_root(named);
    if (root == NULL) return EXIT_NO_FILE;
    exit_status status = read_wanted(line, &w);
    if (status == EXIT_DONE)
        status = is_given(line, OPTION_COPY_TO) ? copy_cases(root, line->values[OPTION_COPY_TO])
                                                : list_cases(line, &w, named, root);
    wanted_end(&w);
    free(root);
    return status;
}
