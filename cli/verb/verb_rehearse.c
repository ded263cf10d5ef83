/* rehearse: made-up calls, to see how good a book is; all at once, or a part to be kept and added.
 */
#include <assert.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cases/begin_case.h"
#include "face/rehearse.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/read_number.h"
#include "host/screen.h"
#include "paper/rehearse_page.h"
#include "verb/page_into.h"
#include "verb/rehearse_calls.h"
#include "verb/rehearse_parts.h"
#include "verb/verbs.h"

enum { CALLS_USUAL = 500, CALLS_MOST = 100000000, THREADS_MOST = 64 };

static const uint64_t SEED_MOST = UINT64_C(1) << 53; /* the largest that JSON holds for everybody */

/* What the command line asks for. */
typedef struct wanted {
    tt_rehearsal_options options;
    uint64_t first, last, threads; /* calls by number, from 1 */
    bool part;                     /* to be kept and added, not shown */
} wanted;

/* ---- shown ---- */

typedef struct page_of {
    const opened_book *book;
    const tt_rehearsal_options *options;
    const tt_rehearsed *r;
} page_of;

static exit_status write_page(FILE *out, const void *context)
{
    const page_of *what = context;
    arena *keep = host_arena();
    rehearsal_on_paper(out, &paper_of_html, keep, what->book, what->options, what->r);
    arena_free(keep);
    return EXIT_DONE;
}

static exit_status show(const command_line *line, const opened_book *book,
                        const tt_rehearsal_options *options, tt_rehearsal *rehearsal)
{
    const tt_rehearsed *r;
    must_be_done(tt_rehearsal_look(rehearsal, &r));
    if (is_given(line, OPTION_INTO))
        return page_put(line, write_page, &(page_of){book, options, r});
    if (is_given(line, OPTION_JSON))
        print_rehearsal_json(stdout, book, options, r);
    else
        print_rehearsal_words(stdout, book, options, r);
    return EXIT_DONE;
}

static exit_status rehearse(const command_line *line, const opened_book *book, wanted *w)
{
    tt_rehearsal *r = NULL;
    const calls_plan plan = {book->book, &w->options, w->first, w->last, (unsigned)w->threads};
    exit_status status = is_given(line, OPTION_ADD) ? parts_added(line, book, &w->options, &r)
                                                    : calls_played(&plan, &r);
    if (status == EXIT_DONE)
        status = w->part ? part_written(line, book, &w->options, w->first, w->last, r)
                         : show(line, book, &w->options, r);
    tt_rehearsal_free(r);
    return status;
}

/* ---- options ---- */

/* A page is long, and there to be kept: it goes where --into says. */
static exit_status check_form(const command_line *line)
{
    const bool into = is_given(line, OPTION_INTO);
    if (into && is_given(line, OPTION_JSON))
        complain("--into writes a page, and --json prints for programs: give one of them");
    if (!into && is_given(line, OPTION_OVERWRITE))
        complain("--overwrite says what may be written over by --into: add --into FILE");
    return (into && is_given(line, OPTION_JSON)) || (!into && is_given(line, OPTION_OVERWRITE))
               ? EXIT_USAGE
               : EXIT_DONE;
}

/* Parts say themselves how they were played. */
static exit_status check_adding(const command_line *line)
{
    static const option_id told[] = {OPTION_CALLS,      OPTION_SEED,        OPTION_AS,
                                     OPTION_MISREAD,    OPTION_NUMBERS_OFF, OPTION_THREADS,
                                     OPTION_SENSITIVITY};
    const bool adds = is_given(line, OPTION_ADD), files = line->count > 2;
    for (size_t i = 0; adds && i < sizeof told / sizeof told[0]; i++) {
        if (!is_given(line, told[i])) continue;
        complain("--add plays nothing, and its parts say how they were played: leave out --%s",
                 option_table[told[i]].name);
        return EXIT_USAGE;
    }
    if (adds && !files)
        complain("--add needs the files of the parts behind the book: telltale rehearse BOOK --add "
                 "FILE FILE");
    if (!adds && files)
        complain("rehearse takes one book. To add parts that were written with --calls 1..1000, "
                 "write --add in front of their files");
    return adds != files ? EXIT_USAGE : EXIT_DONE;
}

static exit_status whole_option(const command_line *line, option_id option, uint64_t least,
                                uint64_t most, uint64_t *number)
{
    const char *text = line->values[option];
    if (text == NULL || whole_number(text, least, most, number)) return EXIT_DONE;
    complain("--%s %s: write a whole number from %llu to %llu", option_table[option].name, text,
             (unsigned long long)least, (unsigned long long)most);
    return EXIT_USAGE;
}

static exit_status percent_option(const command_line *line, option_id option, double most,
                                  double *share)
{
    const char *text = line->values[option];
    if (text == NULL || (percent_number(text, share) && *share <= most)) return EXIT_DONE;
    complain("--%s %s: write a percentage from 0 to %g", option_table[option].name, text,
             100 * most);
    return EXIT_USAGE;
}

/* "5000", or a part of them: "1001..2000". */
static exit_status calls_option(const command_line *line, wanted *w)
{
    const char *text = line->values[OPTION_CALLS];
    const char *dots = text == NULL ? NULL : strstr(text, "..");
    w->first = 1;
    w->part = dots != NULL;
    if (dots == NULL) return whole_option(line, OPTION_CALLS, 1, CALLS_MOST, &w->last);
    char *first = format_text("%.*s", (int)(dots - text), text);
    const bool fine = whole_number(first, 1, CALLS_MOST, &w->first) &&
                      whole_number(dots + 2, w->first, CALLS_MOST, &w->last);
    free(first);
    if (fine) return EXIT_DONE;
    complain("--calls %s: write a part as its first and last call, such as 1001..2000", text);
    return EXIT_USAGE;
}

static uint64_t processors(void)
{
    long count = sysconf(_SC_NPROCESSORS_ONLN);
    return count < 1 ? 1 : count > THREADS_MOST ? THREADS_MOST : (uint64_t)count;
}

static exit_status read_options(const command_line *line, wanted *w)
{
    *w = (wanted){.options = {.seed = 1}, .last = CALLS_USUAL, .threads = processors()};
    exit_status status = check_form(line);
    if (status == EXIT_DONE) status = check_adding(line);
    if (status == EXIT_DONE) status = calls_option(line, w);
    if (status == EXIT_DONE)
        status = whole_option(line, OPTION_SEED, 0, SEED_MOST, &w->options.seed);
    if (status == EXIT_DONE)
        status = whole_option(line, OPTION_THREADS, 1, THREADS_MOST, &w->threads);
    if (status == EXIT_DONE) status = percent_option(line, OPTION_MISREAD, 1, &w->options.misread);
    if (status == EXIT_DONE)
        status = percent_option(line, OPTION_NUMBERS_OFF, 0.99, &w->options.numbers_off);
    w->options.sensitivity = is_given(line, OPTION_SENSITIVITY);
    if (status == EXIT_DONE && w->options.sensitivity && w->options.numbers_off > 0) {
        complain("--sensitivity asks what each number does by itself, and --numbers-off changes "
                 "all at once: give one of them");
        status = EXIT_USAGE;
    }
    assert(status != EXIT_DONE || (w->first >= 1 && w->first <= w->last));
    return status;
}

exit_status verb_rehearse(const command_line *line)
{
    opened_book book;
    wanted w;
    exit_status status = read_options(line, &w);
    if (status != EXIT_DONE) return status;
    status = book_open_at(line->words[1], line->values[OPTION_SITE], &book);
    if (status != EXIT_DONE) return status;
    status = role_named(book.book, line->values[OPTION_AS], &w.options.role);
    if (status == EXIT_DONE) status = rehearse(line, &book, &w);
    book_close(&book);
    return status;
}
