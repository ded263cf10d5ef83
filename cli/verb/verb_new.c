/* new: a small book that teaches, in a folder of its own. */
#include <stdlib.h>
#include <string.h>

#include "books/new_book.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "verb/verbs.h"

static char *without_end_slashes(const char *path)
{
    char *folder = copy_text(path);
    for (size_t length = strlen(folder); length > 1 && folder[length - 1] == '/';)
        folder[--length] = 0;
    return folder;
}

static void say_how(const screen *s, const char *folder, const char *verb)
{
    char *word = shell_word(folder), *command = format_text("telltale %s %s", verb, word);
    say_command(s, command);
    free(command);
    free(word);
}

static void say_what_came(const char *folder)
{
    const screen s = screen_on(stdout);
    const char *names[64];
    unsigned count = 0;
    while (count < sample_file_count && count < sizeof names / sizeof names[0]) {
        names[count] = sample_files[count].name;
        count++;
    }
    char *heading =
        format_text("A small book is in %s. Read it with any editor, book.yaml first:", folder);
    say_list(&s, heading, names, count);
    free(heading);
    say(&s, "It works as it stands:");
    say_how(&s, folder, "check");
    say_how(&s, folder, "try");
    say_how(&s, folder, "ask");
}

exit_status verb_new(const command_line *line)
{
    char *folder = without_end_slashes(line->words[1]);
    exit_status status = EXIT_USAGE;
    if (*folder == 0)
        complain("the folder has no name: telltale new FOLDER");
    else
        status = new_book_write(folder);
    if (status == EXIT_DONE) say_what_came(folder);
    free(folder);
    return status;
}
