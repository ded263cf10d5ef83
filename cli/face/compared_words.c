/* What moved between two editions of a book, in words. */
#include "face/compared.h"

#include <string.h>

#include "face/speaker.h"
#include "show/figures.h"

enum { MOST_SHOWN = 20 };

static const char *joined(const speaker *by, const char *const *items, uint32_t count)
{
    const char *all = catalogue_text(TO_AUTHORS, COMPARE_NOTHING);
    for (uint32_t i = 0; i < count; i++)
        all = i == 0 ? items[0] : FILL(by->keep, TO_AUTHORS, TEXT_WHY_AND, all, items[i]);
    return all;
}

static const char *cause_of(const tt_course *c)
{
    return c->leading != NULL ? c->leading : catalogue_text(TO_AUTHORS, TEXT_NOT_LISTED);
}

static const char *step_at(const tt_course *c, uint32_t i)
{
    return i < c->path_count ? c->path[i] : catalogue_text(TO_AUTHORS, COMPARE_NOTHING);
}

static void say_path(const speaker *by, const tt_moved *m)
{
    const tt_course *a = &m->before, *b = &m->after;
    uint32_t same = 0;
    while (same < a->path_count && same < b->path_count &&
           strcmp(a->path[same], b->path[same]) == 0)
        same++;
    if (strcmp(m->kind, "call") != 0)
        SPEAK(by, "    ", COMPARE_NEXT, step_at(b, 0), step_at(a, 0));
    else
        SPEAK(by, "    ", COMPARE_PATH, whole(by, same), step_at(b, same), step_at(a, same));
}

static void say_changes(const speaker *by, const tt_moved *m)
{
    const tt_course *a = &m->before, *b = &m->after;
    if (m->cautions)
        SPEAK(by, "    ", COMPARE_CAUTIONS, joined(by, b->cautions, b->caution_count),
              joined(by, a->cautions, a->caution_count));
    if (m->leading)
        SPEAK(by, "    ", COMPARE_LEADS, cause_of(b),
              percent_words(by->keep, TO_AUTHORS, b->chance), cause_of(a),
              percent_words(by->keep, TO_AUTHORS, a->chance));
    if (m->passed) speak(by, "    ", b->passed ? COMPARE_PASSES : COMPARE_FAILS);
    if (m->fixes)
        SPEAK(by, "    ", COMPARE_FIXES, joined(by, b->fixes, b->fix_count),
              joined(by, a->fixes, a->fix_count));
    if (m->path) say_path(by, m);
}

static void say_title(const speaker *by, const tt_moved *m)
{
    const char *name =
        strcmp(m->kind, "call") == 0     ? FILL(by->keep, TO_AUTHORS, COMPARE_CALL, m->name)
        : strcmp(m->kind, "stored") == 0 ? FILL(by->keep, TO_AUTHORS, COMPARE_KEPT, m->name)
                                         : m->name;
    SPEAK(by, "  ", COMPARE_CASE, name, places(by, 0, 100 * m->shift));
}

static void say_moved(const speaker *by, const tt_moved *m)
{
    say_title(by, m);
    if (!m->before.there || !m->after.there)
        SPEAK(by, "    ", COMPARE_NOT_PLAYED,
              catalogue_text(TO_AUTHORS, m->before.there ? COMPARE_NEWER : COMPARE_OLDER));
    else
        say_changes(by, m);
    if (m->edit_count > 0)
        SPEAK(by, "    ", m->together ? COMPARE_BY_ALL : COMPARE_BY_EACH,
              joined(by, m->edits, m->edit_count));
}

static void say_count(const speaker *by, text_id what, uint32_t moved, uint32_t of)
{
    if (of > 0)
        SPEAK(by, "", COMPARE_OF, catalogue_text(TO_AUTHORS, what), whole(by, moved),
              whole(by, of));
}

void show_compared(const screen *s, const tt_compared *all)
{
    const speaker by = {s, host_arena(), TO_AUTHORS};
    SPEAK(&by, "", COMPARE_EDITS, whole(&by, all->edit_count));
    say_count(&by, COMPARE_WORKED, all->moved_worked, all->worked);
    if (all->worked_old + all->worked_new > 0)
        SPEAK(&by, "", COMPARE_ONE_SIDED, whole(&by, all->worked_old), whole(&by, all->worked_new));
    say_count(&by, COMPARE_STORED, all->moved_stored, all->stored);
    say_count(&by, COMPARE_CALLS, all->moved_calls, all->calls);
    for (uint32_t i = 0; i < all->moved_count && i < MOST_SHOWN; i++)
        say_moved(&by, &all->moved[i]);
    if (all->moved_count > MOST_SHOWN)
        SPEAK(&by, "", COMPARE_MORE, whole(&by, all->moved_count - MOST_SHOWN));
    arena_free(by.keep);
}
