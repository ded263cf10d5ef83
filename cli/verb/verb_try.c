/* try: the worked cases of a book, what none of them touches, and why one of them comes out as it
 * does. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "books/read_book.h"
#include "cases/begin_case.h"
#include "face/show_standing.h"
#include "face/trials.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "say/catalogue.h"
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

static void show_case(const tt_trial *trial, tt_case *c, bool json)
{
    const screen s = screen_on(stdout);
    if (json) {
        arena *keep = host_arena();
        const tt_value value = tried_case_value(keep, trial, c);
        print_value(keep, &value);
        arena_free(keep);
        return;
    }
    if (trial->passed)
        say(&s, "%s (%s) came out as expected.", trial->name, trial->at);
    else
        show_failed(&s, trial);
    say_nothing(&s);
    show_why(&s, c, trial->rank);
    show_why_fix(&s, c, trial->fix);
}

static exit_status try_one(tt_book *book, uint32_t index, bool json)
{
    tt_trial trial;
    tt_case *c;
    must_be_done(tt_try_case(book, index, &trial, &c));
    show_case(&trial, c, json);
    tt_case_free(c);
    return trial.passed ? EXIT_DONE : EXIT_PROBLEMS;
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
static void show_all_failed(const screen *s, tt_book *book, const tt_trials *trials)
{
    uint32_t shown = 0;
    for (uint32_t i = 0; i < trials->count; i++) {
        const tt_trial *trial = &trials->items[i];
        if (trial->passed) continue;
        const bool whole = shown++ < FAILED_SHOWN_WHOLE;
        if (whole)
            (void)try_one(book, i, false);
        else
            show_failed(s, trial);
        if (whole) say_nothing(s);
    }
    if (shown > FAILED_SHOWN_WHOLE) say(s, "%s", catalogue_text(TO_AUTHORS, TRY_MORE_AT));
}

/* What the cases of one site leave untouched says nothing of the book. */
static void show_all(tt_book *book, const tt_trials *trials, bool of_site)
{
    screen s = screen_on(stdout);
    show_all_failed(&s, book, trials);
    if (!of_site) show_touched(&s, trials);
    show_trials(&s, trials);
}

/* The first few that did not come out as expected, each as it stands. */
static void play_failed(tt_book *book, const tt_trials *trials, tt_case **out)
{
    uint32_t played = 0;
    tt_trial again;
    for (uint32_t i = 0; i < trials->count; i++) {
        if (trials->items[i].passed || played++ >= FAILED_SHOWN_WHOLE) continue;
        must_be_done(tt_try_case(book, i, &again, &out[i]));
    }
}

static void print_json(tt_book *book, const tt_trials *trials)
{
    arena *keep = host_arena();
    tt_case **failed = ARENA_ARRAY(keep, tt_case *, trials->count);
    play_failed(book, trials, failed);
    const tt_value value = trials_value(keep, trials, failed);
    print_value(keep, &value);
    for (uint32_t i = 0; i < trials->count; i++) tt_case_free(failed[i]);
    arena_free(keep);
}

static void tell_all(const command_line *line, tt_book *book, const tt_trials *trials)
{
    if (is_given(line, OPTION_JSON))
        print_json(book, trials);
    else if (is_given(line, OPTION_JUNIT))
        print_junit(book, trials);
    else
        show_all(book, trials, is_given(line, OPTION_SITE));
}

static exit_status try_all(const command_line *line, tt_book *book)
{
    tt_trials trials;
    must_be_done(tt_try(book, &trials));
    tell_all(line, book, &trials);
    return trials.passed < trials.count ? EXIT_PROBLEMS : EXIT_DONE;
}

/* ---- numbers ---- */

static exit_status try_numbers(tt_book *book, bool json)
{
    tt_holding all;
    must_be_done(tt_numbers_held(book, &all));
    if (json) {
        arena *keep = host_arena();
        const tt_value value = holding_value(keep, &all);
        print_value(keep, &value);
        arena_free(keep);
    } else {
        const screen s = screen_on(stdout);
        show_holding(&s, &all);
    }
    return EXIT_DONE;
}

/* One case has neither numbers of its own nor a report. */
static bool is_too_much(const command_line *line)
{
    const bool all_only = is_given(line, OPTION_HELD) || is_given(line, OPTION_JUNIT);
    const bool both = is_given(line, OPTION_HELD) && is_given(line, OPTION_JUNIT);
    if (line->count > 2 && all_only)
        complain("--held and --junit are about all worked cases: leave out %s", line->words[2]);
    else if (both)
        complain("--junit reports on cases, and --held on numbers: leave one out");
    return both || (line->count > 2 && all_only);
}

exit_status verb_try(const command_line *line)
{
    opened_book book;
    const bool json = is_given(line, OPTION_JSON);
    if (is_too_much(line)) return EXIT_USAGE;
    exit_status status = book_open_at(line->words[1], line->values[OPTION_SITE], &book);
    if (status != EXIT_DONE) return status;
    if (is_given(line, OPTION_HELD))
        status = try_numbers(book.book, json);
    else
        status =
            line->count > 2 ? try_named(book.book, line->words[2], json) : try_all(line, book.book);
    book_close(&book);
    return status;
}
