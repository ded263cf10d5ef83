/* `ask` alone, with cases open: whoever comes to the desk may want to go on with one of them. */
#include <stdlib.h>

#include "call/call_parts.h"
#include "call/dialogue.h"
#include "cases/case_depot.h"
#include "cases/case_name.h"
#include "face/case_line.h"
#include "host/memory.h"
#include "host/screen.h"
#include "say/catalogue.h"
#include "show/figures.h"
#include "summary/case_list.h"

enum { MOST_OFFERED = 6 };

/* A person at a terminal who has said nothing but `ask`. */
static bool can_be_asked(const conversation *c)
{
    const command_line *line = c->line;
    const bool bare = line->count <= 1 && !is_given(line, OPTION_SITE) &&
                      !is_given(line, OPTION_UNSAVED) && !is_given(line, OPTION_ANSWERS) &&
                      !c->practice;
    return bare && c->face->input->terminal && screen_on(c->face->out).terminal &&
           !is_given(line, OPTION_NO_INPUT) && !is_given(line, OPTION_JSON);
}

static int latest_first(const void *a, const void *b)
{
    const case_summary *one = a, *other = b;
    return (one->says.last_moment < other->says.last_moment) -
           (one->says.last_moment > other->says.last_moment);
}

static const char *offer(conversation *c, const case_list *open)
{
    const case_reader me = reader_now(c->line);
    tt_turn *turn = host_turn(c, TT_TURN_OPEN_CASES, catalogue_text(c->tongue, HOST_OPEN_CASES));
    host_choice(c, turn, "new", catalogue_text(c->tongue, HOST_NEW_CASE));
    for (size_t i = 0; i < open->count && i < MOST_OFFERED; i++)
        host_choice(c, turn, arena_copy(c->keep, open->cases[i].folder),
                    case_line(c->keep, &open->cases[i], &me));
    if (open->count > MOST_OFFERED)
        host_line(c, turn, TT_PART_NOTE, "",
                  FILL(c->keep, c->tongue, HOST_MORE_CASES,
                       count_words(c->keep, (unsigned)(open->count - MOST_OFFERED))));
    const char *told, *chosen = host_choose_or_hear(c, turn, &told);
    while (chosen == NULL && told != NULL && !tells_of_new_case(c, turn, told))
        chosen = host_choose_or_hear(c, turn, &told);
    return chosen != NULL && chosen != turn->choices[0].id ? chosen : NULL;
}

const char *case_wanted(conversation *c)
{
    const char *wanted = c->line->values[OPTION_CASE];
    case_list open = {.cases = NULL};
    const case_query query = {.kinds = 1u << TT_KIND_FAULT,
                              .states = 1u << TT_CASE_OPEN | 1u << TT_CASE_ON_HOLD |
                                        1u << TT_CASE_WAITING,
                              .since = INT64_MIN,
                              .until = INT64_MAX};
    if (wanted != NULL || !can_be_asked(c)) return wanted;
    char *root = cases_root(c->line->values[OPTION_CASES]);
    if (root != NULL && case_list_read(root, true, &query, &open) == EXIT_DONE && open.count > 0) {
        qsort(open.cases, open.count, sizeof *open.cases, latest_first);
        wanted = offer(c, &open);
    }
    case_list_free(&open);
    free(root);
    return wanted;
}
