/* try: the worked cases of a book, and what none of them touches. */
#include <stdio.h>

#include "host/memory.h"
#include "host/read_book.h"
#include "host/screen.h"
#include "show/author_fields.h"
#include "show/json.h"
#include "verb/verbs.h"

static void print_words(const tt_trials *trials)
{
    screen s = screen_on(stdout);
    for (uint32_t i = 0; i < trials->count; i++) {
        const tt_trial *trial = &trials->items[i];
        if (trial->passed) continue;
        say(&s, "FAILED %s (%s)", trial->name, trial->at);
        say_item(&s, "    ", "%s", trial->why);
    }
    say_list(&s, "No worked case touches:", trials->unused, trials->unused_count);
    if (trials->passed == trials->count)
        say(&s, "All %u worked cases came out as expected.", trials->count);
    else
        say(&s, "%u of %u worked cases came out as expected, %u did not.", trials->passed,
            trials->count, trials->count - trials->passed);
}

static void print_json(const tt_trials *trials)
{
    arena *keep = host_arena();
    const tt_value value = trials_value(keep, trials);
    const str text = json_write_lines(keep, &value, JSON_DIGITS_SHOWN, 2);
    fwrite(text.p, 1, text.n, stdout);
    arena_free(keep);
}

exit_status verb_try(const command_line *line)
{
    opened_book book;
    exit_status status = book_open(line->words[1], NULL, &book);
    if (status != EXIT_DONE) return status;
    tt_trials trials;
    if (tt_try(book.book, &trials) != TT_OK) {
        complain("there is no memory left");
        status = EXIT_OUR_BUG;
    } else {
        if (is_given(line, OPTION_JSON))
            print_json(&trials);
        else
            print_words(&trials);
        status = trials.passed == trials.count ? EXIT_DONE : EXIT_PROBLEMS;
    }
    book_close(&book);
    return status;
}
