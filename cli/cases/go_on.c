/* Puts the command together that takes a case up again. */
#include "cases/go_on.h"

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "cases/case_depot.h"
#include "host/files.h"
#include "host/plain_text.h"

/* An address of a database is the same from everywhere. */
static char *from_everywhere(const char *root)
{
    return depot_of(root)->in_files ? absolute_path(root) : copy_text(root);
}

/* Found by its name in PATH it is found so everywhere. */
static char *program_word(const char *program)
{
    char *path = strchr(program, '/') != NULL ? absolute_path(program) : copy_text("telltale");
    char *word = shell_word(path);
    free(path);
    return word;
}

static char *option(const char *name, const char *value)
{
    char *word = shell_word(value), *text = format_text(" %s %s", name, word);
    free(word);
    return text;
}

way_back way_back_to(const char *program, const char *cases)
{
    char *named = cases_root(cases), *usual = cases_usual_root();
    way_back way = {.program = program_word(program),
                    .root = named != NULL ? from_everywhere(named) : copy_text("")};
    bool is_usual = named == NULL || (usual != NULL && strcmp(named, usual) == 0);
    way.cases = is_usual ? copy_text("") : option("--cases", way.root);
    free(usual);
    free(named);
    return way;
}

void way_back_free(way_back *way)
{
    free(way->program);
    free(way->root);
    free(way->cases);
}

static bool lies_under(const char *root, const char *folder)
{
    if (folder == NULL) return true;
    char *whole = from_everywhere(folder);
    size_t length = strlen(root);
    bool under = strncmp(whole, root, length) == 0 && whole[length] == '/';
    free(whole);
    return under;
}

char *go_on_command(const way_back *way, const go_on *c)
{
    bool within = lies_under(way->root, c->folder);
    char *folder = within ? NULL : from_everywhere(c->folder);
    char *named = option("--case", within ? c->number : folder);
    char *book = c->book != NULL ? shell_word(c->book) : copy_text("");
    char *command =
        format_text("%s ask%s%s%s%s%s", way->program, *book != 0 ? " " : "", book, named,
                    within ? way->cases : "", c->options != NULL ? c->options : "");
    free(book);
    free(named);
    free(folder);
    return command;
}
