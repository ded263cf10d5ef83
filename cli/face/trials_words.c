/* Worked cases in words. */
#include "face/trials.h"

#include "base/str.h"
#include "host/memory.h"
#include "say/catalogue.h"
#include "show/figures.h"

void show_failed(const screen *s, const tt_trial *trial)
{
    arena *keep = host_arena();
    say(s, "%s", FILL(keep, TO_AUTHORS, TRY_FAILED, trial->name, trial->at));
    say_item(s, "    ", "%s", trial->why);
    arena_free(keep);
}

static void show_coverage(const screen *s, arena *keep, const tt_trials *trials)
{
    const char *n[2 * TT_COVERED];
    for (size_t i = 0; i < TT_COVERED; i++) {
        n[2 * i] = count_words(keep, trials->covers[i].touched);
        n[2 * i + 1] = count_words(keep, trials->covers[i].of);
    }
    say(s, "%s",
        FILL(keep, TO_AUTHORS, TRY_COVERS, n[0], n[1], n[2], n[3], n[4], n[5], n[6], n[7]));
}

void show_touched(const screen *s, const tt_trials *trials)
{
    arena *keep = host_arena();
    say_list(s, catalogue_text(TO_AUTHORS, TRY_UNTOUCHED), trials->unused, trials->unused_count);
    show_coverage(s, keep, trials);
    arena_free(keep);
}

void show_trials(const screen *s, const tt_trials *trials)
{
    arena *keep = host_arena();
    const char *count = count_words(keep, trials->count),
               *passed = count_words(keep, trials->passed);
    if (trials->passed == trials->count)
        say(s, "%s", FILL(keep, TO_AUTHORS, TRY_ALL_PASSED, count));
    else
        say(s, "%s",
            FILL(keep, TO_AUTHORS, TRY_SOME_PASSED, passed, count,
                 count_words(keep, trials->count - trials->passed)));
    arena_free(keep);
}

static const char *number_words_of(arena *keep, const tt_held *n)
{
    const char *names = n->names[0];
    for (uint32_t i = 1; i < n->name_count; i++)
        names = FILL(keep, TO_AUTHORS, TEXT_WHY_AND, names, n->names[i]);
    return FILL(keep, TO_AUTHORS, TRY_NUMBER, n->kind, names, n->written, n->turned, n->place.at);
}

void show_holding(const screen *s, const tt_holding *all)
{
    arena *keep = host_arena();
    say(s, "%s",
        FILL(keep, TO_AUTHORS, TRY_HELD, count_words(keep, all->held),
             count_words(keep, all->count)));
    if (all->held < all->count) say(s, "%s", catalogue_text(TO_AUTHORS, TRY_NOT_HELD));
    for (uint32_t i = 0; i < all->count; i++)
        if (*all->items[i].by == 0)
            say_item(s, "  - ", "%s", number_words_of(keep, &all->items[i]));
    arena_free(keep);
}
