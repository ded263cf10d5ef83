/* try: the worked cases of a book, what none of them touches, and why one of them comes out as it
 * does. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "face/show_standing.h"
#include "host/begin_case.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/read_book.h"
#include "host/screen.h"
#include "show/author_fields.h"
#include "show/json.h"
#include "verb/verbs.h"

enum { FAILED_SHOWN_WHOLE = 5 };

static void print_value(arena *keep, const tt_value *value)
{
    const str text = json_write_lines(keep, value, JSON_DIGITS_SHOWN, 2);
    fwrite(text.p, 1, text.n, stdout);
}

/* ---- one of them ---- */

static void say_failed(const screen *s, const tt_trial *trial)
{
    say(s, "FAILED %s (%s)", trial->name, trial->at);
    say_item(s, "    ", "%s", trial->why);
}

static exit_status show_case(const tt_trial *trial, tt_case *c, bool json)
{
    const screen s = screen_on(stdout);
    if (json) {
        arena *keep = host_arena();
        const tt_value value = tried_case_value(keep, trial, c);
        print_value(keep, &value);
        arena_free(keep);
        return EXIT_DONE;
    }
    if (trial->passed)
        say(&s, "%s (%s) came out as expected.", trial->name, trial->at);
    else
        say_failed(&s, trial);
    say_nothing(&s);
    return show_why(&s, c, trial->rank);
}

static exit_status try_one(tt_book *book, uint32_t index, bool json)
{
    tt_trial trial;
    tt_case *c;
    exit_status status = status_of(tt_try_case(book, index, &trial, &c));
    if (status != EXIT_DONE) return status;
    status = show_case(&trial, c, json);
    tt_case_free(c);
    return status == EXIT_DONE && !trial.passed ? EXIT_PROBLEMS : status;
}

static exit_status say_no_such_case(const tt_book *book, const char *name, uint32_t count)
{
    const char **names = calloc((size_t)count + 1, sizeof *names);
    for (uint32_t i = 0; names != NULL && i < count; i++) names[i] = tt_worked_case(book, i);
    const char *meant = names != NULL ? nearest_word(name, names, count) : NULL;
    if (meant != NULL)
        complain("the book has no worked case %s. Did you mean %s?", name, meant);
    else
        complain("the book has no worked case %s, but %u others", name, count);
    free(names);
    return EXIT_USAGE;
}

static exit_status try_named(tt_book *book, const char *name, bool json)
{
    uint32_t index = 0;
    const char *at;
    while ((at = tt_worked_case(book, index)) != NULL && strcmp(at, name) != 0) index++;
    return at != NULL ? try_one(book, index, json) : say_no_such_case(book, name, index);
}

/* ---- all of them ---- */

/* Why the first few did not: what is wrong in one is often wrong in the next. */
static exit_status show_failed(const screen *s, tt_book *book, const tt_trials *trials)
{
    uint32_t shown = 0;
    for (uint32_t i = 0; i < trials->count; i++) {
        const tt_trial *trial = &trials->items[i];
        if (trial->passed) continue;
        const bool whole = shown++ < FAILED_SHOWN_WHOLE;
        exit_status status = EXIT_DONE;
        if (whole)
            status = try_one(book, i, false);
        else
            say_failed(s, trial);
        if (whole) say_nothing(s);
        if (status != EXIT_DONE && status != EXIT_PROBLEMS) return status;
    }
    if (shown > FAILED_SHOWN_WHOLE) say(s, "Name a case after the book to see why it came out so.");
    return EXIT_DONE;
}

static exit_status show_all(tt_book *book, const tt_trials *trials)
{
    screen s = screen_on(stdout);
    exit_status status = show_failed(&s, book, trials);
    say_list(&s, "No worked case touches:", trials->unused, trials->unused_count);
    if (trials->passed == trials->count)
        say(&s, "All %u worked cases came out as expected.", trials->count);
    else
        say(&s, "%u of %u worked cases came out as expected, %u did not.", trials->passed,
            trials->count, trials->count - trials->passed);
    return status;
}

static exit_status print_json(const tt_trials *trials)
{
    arena *keep = host_arena();
    const tt_value value = trials_value(keep, trials);
    print_value(keep, &value);
    arena_free(keep);
    return EXIT_DONE;
}

static exit_status try_all(tt_book *book, bool json)
{
    tt_trials trials;
    exit_status status = status_of(tt_try(book, &trials));
    if (status == EXIT_DONE) status = json ? print_json(&trials) : show_all(book, &trials);
    return status == EXIT_DONE && trials.passed < trials.count ? EXIT_PROBLEMS : status;
}

exit_status verb_try(const command_line *line)
{
    opened_book book;
    const bool json = is_given(line, OPTION_JSON);
    exit_status status = book_open(line->words[1], NULL, &book);
    if (status != EXIT_DONE) return status;
    status =
        line->count > 2 ? try_named(book.book, line->words[2], json) : try_all(book.book, json);
    book_close(&book);
    return status;
}
