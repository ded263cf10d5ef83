/* The program `telltale`: reads the command line, finds the verb, and sees that all output arrived.
 */
#include <errno.h>
#include <langinfo.h>
#include <locale.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

#include "host/command_line.h"
#include "host/door.h"
#include "host/json_memory.h"
#include "host/pager.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "host/settings.h"
#include "host/signals.h"
#include "verb/verbs.h"

/* Letters and their widths come from the locale; numbers never do. */
static void set_letters(void)
{
    bool set = setlocale(LC_CTYPE, "") != NULL;
    if (!set || strcmp(nl_langinfo(CODESET), "UTF-8") != 0) setlocale(LC_CTYPE, "C.UTF-8");
}

static exit_status check_options(const command_line *line, const verb_entry *verb)
{
    for (int i = 0; i < OPTION_COUNT; i++) {
        if (!is_given(line, (option_id)i) || (option_table[i].verbs & verb->bit) != 0) continue;
        complain("--%s is no option of %s. See telltale help %s", option_table[i].name, verb->name,
                 verb->name);
        return EXIT_USAGE;
    }
    return EXIT_DONE;
}

static exit_status check_words(const command_line *line, const verb_entry *verb)
{
    size_t given = line->count - 1;
    if (given >= verb->least && given <= verb->most) return EXIT_DONE;
    if (given > verb->most)
        complain("%s is one word too many: telltale %s %s", line->words[verb->most + 1], verb->name,
                 verb->words);
    else
        complain("something is missing: telltale %s %s", verb->name, verb->words);
    return EXIT_USAGE;
}

/* What is long and for people goes through a pager: wherever it can be told not to. */
static exit_status run_paged(const command_line *line, const verb_entry *verb)
{
    const bool paged = (option_table[OPTION_NO_PAGER].verbs & verb->bit) != 0;
    pager through = pager_begin(paged && !is_given(line, OPTION_NO_PAGER) &&
                                !is_given(line, OPTION_JSON) && !is_given(line, OPTION_INTO));
    const exit_status status = verb->run(line);
    pager_end(&through);
    return status;
}

static exit_status run_settled(command_line *line, const verb_entry *verb)
{
    settings settled;
    exit_status status =
        verb->bit == FOR_SETTINGS || verb->bit == FOR_HELP ? EXIT_DONE : settings_read(&settled);
    if (verb->bit == FOR_SETTINGS || verb->bit == FOR_HELP) return run_paged(line, verb);
    if (status == EXIT_DONE) {
        settings_apply(&settled, verb->bit, line);
        status = run_paged(line, verb);
    }
    settings_free(&settled);
    return status;
}

static exit_status run_verb(command_line *line)
{
    const verb_entry *verb = verb_find(line->words[0]);
    if (verb == NULL) return EXIT_USAGE;
    if (is_given(line, OPTION_HELP)) {
        help_verb(verb);
        return EXIT_DONE;
    }
    exit_status wrong = check_options(line, verb);
    if (wrong == EXIT_DONE) wrong = check_words(line, verb);
    return wrong != EXIT_DONE ? wrong : run_settled(line, verb);
}

/* No word at all: a person at a terminal wants to begin; a program made a mistake. */
static exit_status run_without_verb(command_line *line)
{
    if (is_given(line, OPTION_HELP)) {
        help_overview();
        return EXIT_DONE;
    }
    if (isatty(STDIN_FILENO) == 1 && isatty(STDOUT_FILENO) == 1)
        return run_settled(line, verb_find("ask"));
    help_short(stderr);
    return EXIT_USAGE;
}

static exit_status run(command_line *line)
{
    if (is_given(line, OPTION_VERSION)) {
        puts("telltale " TELLTALE_VERSION);
        return EXIT_DONE;
    }
    return line->count == 0 ? run_without_verb(line) : run_verb(line);
}

static exit_status see_output_off(exit_status status)
{
    if (fflush(stdout) == 0 && ferror(stdout) == 0) return status;
    complain("the output could not be written: %s", strerror(errno));
    return EXIT_IO;
}

int main(int argc, char **argv)
{
    signal(SIGPIPE, SIG_DFL);          /* whoever reads us may leave: then we leave too, quietly */
    if (!door_begin()) return EXIT_IO; /* nobody could be told why */
    signals_own_faults();
    json_memory_ends_program();
    set_letters();
    command_line line;
    exit_status status = command_line_read(argc, argv, &line);
    if (status == EXIT_DONE) status = run(&line);
    command_line_free(&line);
    status = see_output_off(status);
    signals_pass_on();
    return (int)status;
}
