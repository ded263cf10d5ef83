/* The options of a talk: which don't go together, and the face they ask for. */
#include <string.h>
#include <unistd.h>

#include "call/call_parts.h"
#include "cases/begin_case.h"
#include "host/screen.h"

typedef struct conflict {
    option_id one, other;
    const char *why;
} conflict;

static const conflict conflicts[] = {
    {OPTION_CASE, OPTION_UNSAVED, "--case and --unsaved don't go together"},
    {OPTION_PRACTICE, OPTION_SITE,
     "--practice is about the example in the book, --site about another site: leave one of them "
     "out"},
    {OPTION_JSON, OPTION_PLAIN, "--json and --plain don't go together"},
    {OPTION_COLOR, OPTION_NO_COLOR, "--color and --no-color don't go together"},
};

static const char *what_is_wrong(const command_line *line)
{
    const char *answers = line->values[OPTION_ANSWERS], *site = line->values[OPTION_SITE];
    colour_wish wish;
    for (size_t i = 0; i < sizeof conflicts / sizeof conflicts[0]; i++)
        if (is_given(line, conflicts[i].one) && is_given(line, conflicts[i].other))
            return conflicts[i].why;
    if (site != NULL && strcmp(site, "-") == 0)
        return "--site - takes standard input, where your answers come from: name a file";
    if (answers != NULL && strcmp(answers, "-") == 0 && !is_given(line, OPTION_NO_INPUT))
        return "--answers - takes all of standard input, so nothing can be asked: add --no-input";
    return colour_wish_read(line->values[OPTION_COLOR], &wish) ? NULL
                                                               : "--color is auto, always or never";
}

exit_status check_talk_options(const command_line *line)
{
    const char *wrong = what_is_wrong(line);
    if (wrong == NULL) return language_typed(line->values[OPTION_LANGUAGE]);
    complain("%s", wrong);
    return EXIT_USAGE;
}

face *face_wanted(const command_line *line, line_input *input)
{
    line_input_begin(input, STDIN_FILENO);
    terminal_wishes wishes = {.plain = is_given(line, OPTION_PLAIN),
                              .asks_nothing = is_given(line, OPTION_NO_INPUT)};
    colour_wish_read(is_given(line, OPTION_NO_COLOR) ? "never" : line->values[OPTION_COLOR],
                     &wishes.colour);
    return is_given(line, OPTION_JSON) ? json_lines_new(stdout, input)
                                       : terminal_new(stdout, input, wishes);
}
