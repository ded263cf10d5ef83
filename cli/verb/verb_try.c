/* try: the worked cases of a book, and what none of them touches. */
#include <jansson.h>
#include <stdio.h>

#include "host/read_book.h"
#include "host/screen.h"
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

static json_t *trial_json(const tt_trial *trial)
{
    json_t *item = json_object();
    json_object_set_new(item, "name", json_string(trial->name));
    json_object_set_new(item, "at", json_string(trial->at));
    json_object_set_new(item, "passed", json_boolean(trial->passed));
    json_object_set_new(item, "why", json_string(trial->why));
    return item;
}

static void print_json(const tt_trials *trials)
{
    json_t *all = json_object(), *cases = json_array(), *unused = json_array();
    for (uint32_t i = 0; i < trials->count; i++)
        json_array_append_new(cases, trial_json(&trials->items[i]));
    for (uint32_t i = 0; i < trials->unused_count; i++)
        json_array_append_new(unused, json_string(trials->unused[i]));
    json_object_set_new(all, "version", json_integer(1));
    json_object_set_new(all, "count", json_integer(trials->count));
    json_object_set_new(all, "passed", json_integer(trials->passed));
    json_object_set_new(all, "cases", cases);
    json_object_set_new(all, "unused", unused);
    json_dumpf(all, stdout, JSON_INDENT(2));
    putchar('\n');
    json_decref(all);
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
