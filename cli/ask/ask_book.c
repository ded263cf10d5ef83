/* Which book, where none was named. */
#include <stdlib.h>
#include <unistd.h>

#include "ask/ask.h"
#include "ask/ask_site.h"
#include "host/plain_text.h"
#include "host/shelf.h"

static const char usual[] = "foam-line";

/* Scripts, and a folder of that name right here, go on as if nobody could be asked. */
static bool can_be_asked(const ask *a)
{
    return a->input.terminal && a->s.terminal && !is_given(a->line, OPTION_NO_INPUT) &&
           access(usual, F_OK) != 0;
}

static char *choose_from(ask *a, const shelf *s)
{
    int chosen = -1;
    while (chosen < 0 && a->leaving == STAYING) {
        say(&a->s, "What is it about?");
        chosen = choose_or_first(a, (const char *const *)s->titles, s->count,
                                 1 << WORD_STOP | 1 << WORD_HELP);
        say_nothing(&a->s);
    }
    return chosen >= 0 && a->leaving == STAYING ? copy_text(s->paths[chosen]) : NULL;
}

static char *usual_book(void)
{
    char *folder = book_folder(usual);
    if (folder == NULL) complain("which book? Name its folder: telltale ask BOOK");
    bool found = folder != NULL;
    free(folder);
    return found ? copy_text(usual) : NULL;
}

exit_status book_wanted(ask *a, char **named)
{
    *named = NULL;
    if (a->line->count > 1) {
        *named = copy_text(a->line->words[1]);
        return EXIT_DONE;
    }
    shelf s = can_be_asked(a) ? shelf_read(TELLTALE_RULES_DIR, usual) : (shelf){.count = 0};
    bool several = s.count > 1;
    *named = several ? choose_from(a, &s) : usual_book();
    shelf_free(&s);
    if (*named != NULL) return EXIT_DONE;
    return several ? left_before_case(a) : EXIT_USAGE;
}
