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

/* Those that may be meant first: it may be about another one all the same. */
static tt_turn *book_turn(conversation *c, const shelf *s, const told_books *told,
                          const char *words)
{
    tt_turn *turn = host_turn(c, TT_TURN_BOOK, catalogue_text(c->tongue, HOST_WHICH_BOOK));
    for (int fits = 1; fits >= 0; fits--)
        for (unsigned i = 0; i < s->count; i++)
            if ((told->count > 0 && told->fits[i]) == (fits == 1))
                host_choice(c, turn, s->paths[i], s->titles[i]);
    if (told->count > 1)
        host_line(c, turn, TT_PART_NOTE, "", FILL(c->keep, c->tongue, HOST_BOOKS_HEAR, words));
    else if (words != NULL)
        say_unheard(c, turn, told, words);
    return turn;
}

/* Words that name what is wrong choose the book that knows it; the person says which of several. */
static const char *choose_from(conversation *c, const shelf *s)
{
    const char *words = c->danger_said != NULL ? c->danger_said : c->told_first, *chosen = NULL;
    told_books told = {.count = 0};
    bool asked = false; /* `words` were said here, and not before */
    do {
        if (words != NULL) told = books_told(c, s, words);
        if (c->danger_said == NULL && words != NULL && told.danger != NULL) c->danger_said = words;
        if (c->danger_said != NULL) break; /* every book asks about danger first */
        if (asked && !told.reply) tell_first(c, words);
        if (words != NULL && told.only != NULL) return told.only;
        chosen = host_choose_or_hear(c, book_turn(c, s, &told, words), &words);
        asked = true;
    } while (chosen == NULL && words != NULL && is_here(c));
    if (c->danger_said == NULL) return chosen;
    told = books_told(c, s, c->danger_said);
    return told.only != NULL ? told.only : told.danger != NULL ? told.danger : s->paths[0];
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
