#include "face/colour.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

bool colour_wish_read(const char *word, colour_wish *out)
{
    static const char *const words[] = {
        [COLOUR_AUTO] = "auto", [COLOUR_ALWAYS] = "always", [COLOUR_NEVER] = "never"};
    if (word == NULL) word = words[COLOUR_AUTO];
    for (unsigned i = 0; i < sizeof words / sizeof words[0]; i++) {
        if (strcmp(words[i], word) != 0) continue;
        *out = (colour_wish)i;
        return true;
    }
    return false;
}

static bool is_set(const char *name)
{
    const char *value = getenv(name);
    return value != NULL && *value != 0;
}

/* "0" is how some programs are told not to. */
static bool is_forced(const char *name)
{
    const char *value = getenv(name);
    return value != NULL && *value != 0 && strcmp(value, "0") != 0;
}

bool colour_is_on(colour_wish wish, bool terminal)
{
    if (wish != COLOUR_AUTO) return wish == COLOUR_ALWAYS;
    if (is_set("NO_COLOR")) return false;
    if (is_forced("FORCE_COLOR") || is_forced("CLICOLOR_FORCE")) return true;
    const char *kind = getenv("TERM");
    return terminal && kind != NULL && *kind != 0 && strcmp(kind, "dumb") != 0;
}

const char *ink_begin(ink i)
{
    static const char *const begin[INK_COUNT] = {
        [INK_PLAIN] = "",
        [INK_DANGER] = "\033[1;37;41m", /* white on red */
        [INK_CAUTION] = "\033[30;43m",  /* black on yellow */
        [INK_WEAR] = "\033[1;37;44m",   /* white on blue, as signs that say what must be worn */
        [INK_CHOICE] = "\033[1m",
        [INK_PROMPT] = "\033[1m",
    };
    assert(i < INK_COUNT);
    return begin[i];
}

const char ink_end[] = "\033[0m";
