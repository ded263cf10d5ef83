/* rank: answers in, causes and fixes out, in one go. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "books/read_book.h"
#include "cases/begin_case.h"
#include "face/show_standing.h"
#include "host/screen.h"
#include "verb/verbs.h"

static void print_json(const opened_book *book, tt_case *c, bool why)
{
    char *text;
    const tt_origin origin = {book->book, book->revision, book->site_revision};
    must_be_done(why ? tt_standing_why_json(&origin, c, &text)
                     : tt_standing_json(&origin, c, &text));
    fputs(text, stdout);
    free(text);
}

static void print_words(const command_line *line, const opened_book *book, tt_case *c)
{
    const tt_view *view;
    const screen s = screen_on(stdout);
    must_be_done(tt_look(c, &view));
    show_standing(&s, book->book, c, view);
    if (!is_given(line, OPTION_WHY)) return;
    say_nothing(&s);
    show_why(&s, c, 0);
    show_why_fix(&s, c, TT_NONE);
}

static void print_case(const command_line *line, const opened_book *book, tt_case *c)
{
    if (is_given(line, OPTION_JSON))
        print_json(book, c, is_given(line, OPTION_WHY));
    else
        print_words(line, book, c);
}

static bool take_same_input(const command_line *line)
{
    const char *site = line->values[OPTION_SITE];
    bool same = site != NULL && strcmp(site, "-") == 0 && strcmp(line->words[2], "-") == 0;
    if (same) complain("the site and the answers can't both come from standard input");
    return same;
}

/* Without a site the rules were read for equipment that is made up. */
static exit_status need_site(const opened_book *book)
{
    if (tt_kind_count(book->book) == 0 || tt_book_describe(book->book).has_site) return EXIT_DONE;
    complain("these rules need to know what equipment there is: add --site FILE");
    return EXIT_USAGE;
}

exit_status verb_rank(const command_line *line)
{
    opened_book book;
    tt_source answers = {.name = NULL};
    tt_case *c = NULL;
    if (take_same_input(line)) return EXIT_USAGE;
    exit_status status = book_open_at(line->words[1], line->values[OPTION_SITE], &book);
    if (status == EXIT_DONE) status = need_site(&book);
    if (status == EXIT_DONE) status = source_read_file(line->words[2], &answers);
    if (status == EXIT_DONE)
        status = case_begin(&book, line->values[OPTION_AS], line->values[OPTION_LANGUAGE],
                            is_given(line, OPTION_SOONEST), false, &c);
    if (status == EXIT_DONE) status = case_answer_file(c, &answers);
    if (status == EXIT_DONE) print_case(line, &book, c);
    tt_case_free(c);
    source_free(&answers);
    book_close(&book);
    return status;
}
