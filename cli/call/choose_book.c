/* Which book, where none was named. */
#include <stdlib.h>
#include <unistd.h>

#include "books/shelf.h"
#include "call/call_parts.h"
#include "call/dialogue.h"
#include "host/installed.h"
#include "host/memory.h"
#include "host/screen.h"
#include "say/catalogue.h"

/* Scripts, and a folder of that name right here, go on as if nobody could be asked. */
static bool can_be_asked(const conversation *c)
{
    return c->face->input->terminal && screen_on(c->face->out).terminal &&
           !is_given(c->line, OPTION_NO_INPUT) && access(usual_book_name, F_OK) != 0;
}

static const char *choose_from(conversation *c, const shelf *s)
{
    if (c->danger_said != NULL) return s->paths[0]; /* every book asks about danger first */
    tt_turn *turn = host_turn(c, TT_TURN_BOOK, catalogue_text(c->tongue, HOST_WHICH_BOOK));
    for (unsigned i = 0; i < s->count; i++) host_choice(c, turn, s->paths[i], s->titles[i]);
    const char *chosen = host_choose(c, turn);
    return c->danger_said != NULL ? s->paths[0] : chosen;
}

static const char *usual_book(conversation *c)
{
    char *folder = book_folder(usual_book_name);
    if (folder == NULL) {
        complain("which book? Name its folder: telltale ask BOOK");
        note_failure(c, EXIT_USAGE);
    }
    free(folder);
    return c->failure == EXIT_DONE ? usual_book_name : NULL;
}

const char *book_wanted(conversation *c)
{
    if (c->line->count > 1) return c->line->words[1];
    char *folder = installed_folder(TELLTALE_RULES_DIR);
    shelf s = can_be_asked(c) ? shelf_read(folder, usual_book_name) : (shelf){.count = 0};
    free(folder);
    const char *wanted = arena_copy(c->keep, s.count > 1 ? choose_from(c, &s) : usual_book(c));
    shelf_free(&s);
    return wanted;
}
