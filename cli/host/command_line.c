#include "host/command_line.h"

#include <assert.h>
#include <getopt.h>
#include <stdlib.h>
#include <string.h>

#include "host/files.h"
#include "host/plain_text.h"
#include "host/screen.h"

#define OPTION_ENTRY(id, name, letter, value, verbs, help) \
    [id] = {name, letter, value, verbs, help},
const option_entry option_table[OPTION_COUNT] = {OPTION_TABLE(OPTION_ENTRY)};

/* getopt_long returns FIRST_LONG + id, whether the short or the long form was written. */
enum { FIRST_LONG = 1000 };

static void fill_getopt(struct option *longs, char *shorts)
{
    *shorts++ = '-'; /* words come in their place, wherever options stand */
    *shorts++ = ':';
    for (int i = 0; i < OPTION_COUNT; i++) {
        const option_entry *entry = &option_table[i];
        longs[i] = (struct option){
            .name = entry->name,
            .has_arg = entry->value != NULL ? required_argument : no_argument,
            .val = FIRST_LONG + i,
        };
        if (entry->letter == 0) continue;
        assert(entry->value == NULL); /* what takes a value is written out */
        *shorts++ = entry->letter;
    }
    *shorts = 0;
}

static int option_of_letter(int letter)
{
    for (int i = 0; i < OPTION_COUNT; i++)
        if (option_table[i].letter == letter) return i;
    return OPTION_COUNT;
}

static void complain_unknown(const char *written)
{
    const char *names[OPTION_COUNT];
    for (int i = 0; i < OPTION_COUNT; i++) names[i] = option_table[i].name;
    char *bare = copy_text(written + strspn(written, "-"));
    bare[strcspn(bare, "=")] = 0;
    const char *meant = nearest_word(bare, names, OPTION_COUNT);
    if (meant != NULL)
        complain("there is no option %s. Did you mean --%s? See telltale help", written, meant);
    else
        complain("there is no option %s. See telltale help", written);
    free(bare);
}

/* `written`: the word that it stands in. */
static exit_status wrong_option(int got, const char *written)
{
    if (got != ':') {
        complain_unknown(written);
        return EXIT_USAGE;
    }
    const int id = optopt - FIRST_LONG;
    assert(id >= 0 && id < OPTION_COUNT);
    complain("--%s needs a value: --%s %s", option_table[id].name, option_table[id].name,
             option_table[id].value);
    return EXIT_USAGE;
}

/* A shell has put the home folder in the place of a "~" that begins a word and is not quoted; one
 * that is left would make a folder called so. */
static exit_status check_home(const option_entry *option, const char *value)
{
    const bool path = option->value != NULL &&
                      (strcmp(option->value, "FILE") == 0 || strcmp(option->value, "FOLDER") == 0 ||
                       strcmp(option->value, "WHERE") == 0);
    if (!path || !begins_at_home(value)) return EXIT_DONE;
    complain("--%s %s: a ~ is your home folder only where a shell reads it, at the beginning of a "
             "word and without quotes. Write --%s %s (a space, no =), or the path from / on; a "
             "folder that is really called ~ is ./%s",
             option->name, value, option->name, value, value);
    return EXIT_USAGE;
}

static void add_word(command_line *out, const char *word)
{
    out->words[out->count++] = word;
}

exit_status command_line_read(int argc, char **argv, command_line *out)
{
    assert(argc >= 1);
    struct option longs[OPTION_COUNT + 1] = {{.name = NULL}};
    char shorts[2 * OPTION_COUNT + 3];
    fill_getopt(longs, shorts);
    *out = (command_line){.program = argv[0]};
    out->words = take_memory(((size_t)argc + 1) * sizeof *out->words);
    opterr = 0;
    for (int got, from = optind; (got = getopt_long(argc, argv, shorts, longs, NULL)) != -1;
         from = optind) {
        if (got == 1) {
            add_word(out, optarg);
            continue;
        }
        if (got == '?' || got == ':') /* of several letters the word is left after the last */
            return wrong_option(got, argv[optind == from ? from : optind - 1]);
        const int id = got >= FIRST_LONG ? got - FIRST_LONG : option_of_letter(got);
        assert(id < OPTION_COUNT);
        out->values[id] = optarg != NULL ? optarg : "";
        const exit_status status = check_home(&option_table[id], out->values[id]);
        if (status != EXIT_DONE) return status;
    }
    while (optind < argc) add_word(out, argv[optind++]);
    return EXIT_DONE;
}

void command_line_free(command_line *line)
{
    free(line->words);
    line->words = NULL;
}

bool is_given(const command_line *line, option_id option)
{
    assert(option < OPTION_COUNT);
    return line->values[option] != NULL;
}

bool cases_folder_named(const command_line *line, size_t word, const char **named)
{
    const char *as_word = line->count > word ? line->words[word] : NULL,
               *as_option = line->values[OPTION_CASES];
    *named = as_word != NULL ? as_word : as_option;
    if (as_word == NULL || as_option == NULL) return true;
    complain("%s and --cases %s are two folders of cases. Name one of them", as_word, as_option);
    return false;
}
