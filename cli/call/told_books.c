/* Which books know what somebody said before any was chosen. */
#include <stdint.h>
#include <stdlib.h>

#include "books/shelf.h"
#include "call/call_parts.h"
#include "call/dialogue.h"
#include "cases/begin_case.h"
#include "host/installed.h"
#include "host/memory.h"
#include "host/screen.h"
#include "say/catalogue.h"

/* Tried on the halves of tests/corpus that may be seen: a book whose complaint is said less than so
 * much as well as the best is not meant; what is said so little of one alone is asked. */
static const double nearly = 0.6, clearly = 1.0;

static tt_overheard overheard_by(conversation *c, const char *path, const char *words)
{
    opened_book opened;
    tt_overheard over = {.word = ""};
    const exit_status status = book_open(path, NULL, &opened);
    if (status != EXIT_DONE) return over;
    note_failure(c, status_of(tt_overhear(opened.book, words, false, &over)));
    book_close(&opened);
    return over;
}

told_books books_told(conversation *c, const shelf *s, const char *words)
{
    double *heard = ARENA_ARRAY(c->keep, double, s->count + 1), best = 0;
    told_books told = {.fits = ARENA_ARRAY(c->keep, bool, s->count + 1)};
    for (unsigned i = 0; i < s->count; i++) {
        const tt_overheard over = overheard_by(c, s->paths[i], words);
        heard[i] = over.complaint;
        if (heard[i] > best) best = heard[i];
        told.reply = told.reply || over.reply;
        if (over.danger && told.danger == NULL) told.danger = s->paths[i];
    }
    for (unsigned i = 0; i < s->count && best > 0; i++) {
        told.fits[i] = heard[i] >= nearly * best;
        told.count += told.fits[i];
        if (told.fits[i]) told.only = s->paths[i];
    }
    if (told.count != 1 || best < clearly) told.only = NULL;
    return told;
}

void say_unheard(conversation *c, tt_turn *turn, const told_books *told, const char *words)
{
    turn->wrong_code = "not-understood";
    turn->wrong = told->reply ? catalogue_text(c->tongue, HOST_NONE_OF_THESE)
                              : FILL(c->keep, c->tongue, HOST_NO_BOOK_HEARS, words);
}

bool tells_of_new_case(conversation *c, tt_turn *turn, const char *words)
{
    char *folder = installed_folder(TELLTALE_RULES_DIR);
    char *named = (char *)(uintptr_t)(c->line->count > 1 ? c->line->words[1] : usual_book_name);
    shelf s = c->line->count > 1 ? (shelf){.count = 0} : shelf_read(folder, usual_book_name);
    const shelf one = {.paths = &named, .titles = NULL, .count = 1};
    const told_books told = books_told(c, s.count > 0 ? &s : &one, words);
    const bool danger = told.danger != NULL;
    shelf_free(&s);
    free(folder);
    if (danger)
        c->danger_said = words; /* and whatever else it says is heard with it */
    else if (!told.reply)
        tell_first(c, words);
    if (told.count > 0 || danger) return true;
    say_unheard(c, turn, &told, words);
    return false;
}
