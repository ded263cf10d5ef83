/* The verb of a name. */
#include <string.h>

#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "verb/verbs.h"

static void say_which(const char *name)
{
    arena *scratch = host_arena();
    const char **names = ARENA_ARRAY(scratch, const char *, verb_count);
    for (unsigned i = 0; i < verb_count; i++) names[i] = verb_table[i].name;
    const char *meant = nearest_word(name, names, verb_count);
    if (meant != NULL)
        complain("there is no verb %s. Did you mean %s? See telltale help", name, meant);
    else
        complain("there is no verb %s. See telltale help", name);
    arena_free(scratch);
}

const verb_entry *verb_find(const char *name)
{
    for (unsigned i = 0; i < verb_count; i++)
        if (strcmp(verb_table[i].name, name) == 0) return &verb_table[i];
    say_which(name);
    return NULL;
}
