/* history: what the cases of a site say of it, over time. */
#include <stdlib.h>

#include "call/call_parts.h"
#include "call/past_of_site.h"
#include "call/seen_case.h"
#include "cases/begin_case.h"
#include "cases/case_name.h"
#include "face/history.h"
#include "host/clock.h"
#include "host/files.h"
#include "host/memory.h"
#include "paper/history_page.h"
#include "verb/days_between.h"
#include "verb/page_into.h"
#include "verb/verbs.h"

static exit_status check_history(const command_line *line)
{
    const bool into = is_given(line, OPTION_INTO);
    const char *wrong = NULL;
    if (!is_given(line, OPTION_SITE))
        wrong = "history is about one site: name its file with --site";
    else if (into && is_given(line, OPTION_JSON))
        wrong = "--into writes a page, and --json prints for programs: give one of them";
    else if (!into && is_given(line, OPTION_OVERWRITE))
        wrong = "--overwrite says what may be written over by --into: add --into FILE";
    if (wrong == NULL) return language_typed(line->values[OPTION_LANGUAGE]);
    complain("%s", wrong);
    return EXIT_USAGE;
}

/* ---- shown ---- */

typedef struct page_of {
    const opened_book *book;
    const tt_site_story *story;
} page_of;

static exit_status write_page(FILE *out, const void *context)
{
    const page_of *what = context;
    arena *keep = host_arena();
    history_on_paper(out, &paper_of_html, keep, what->book, what->story);
    arena_free(keep);
    return EXIT_DONE;
}

static exit_status show(const command_line *line, const opened_book *book,
                        const tt_site_story *story)
{
    const screen s = screen_on(stdout);
    if (is_given(line, OPTION_INTO)) return page_put(line, write_page, &(page_of){book, story});
    if (is_given(line, OPTION_JSON))
        print_history_json(stdout, story);
    else
        print_history_words(&s, is_given(line, OPTION_PLAIN), story);
    return EXIT_DONE;
}

/* ---- read ---- */

/* As of the last moment that is asked for; the days after that are not without a round. */
static void moment_asked(int64_t until, char now[TT_MOMENT_SIZE])
{
    tt_moment m;
    clock_now(now);
    if (!tt_moment_read(now, &m) || m.milliseconds <= until) return;
    m.milliseconds = until;
    tt_moment_text(m, now);
}

static exit_status tell(const command_line *line, const opened_book *book,
                        const site_sought *sought)
{
    char now[TT_MOMENT_SIZE];
    tt_past *past = NULL;
    tt_story *story = NULL;
    char *root = cases_root(line->values[OPTION_CASES]);
    size_t failed = 0;
    exit_status status = root != NULL ? past_of_site(root, sought, &past, &failed) : EXIT_NO_FILE;
    if (status == EXIT_DONE) status = all_were_read(failed);
    moment_asked(sought->until, now);
    if (status == EXIT_DONE)
        status =
            status_of(tt_story_new(book->book, past, now, line->values[OPTION_LANGUAGE], &story));
    if (status == EXIT_DONE) status = show(line, book, tt_story_look(story));
    tt_story_free(story);
    tt_past_free(past);
    free(root);
    return status;
}

exit_status verb_history(const command_line *line)
{
    opened_book book;
    site_sought sought = {NULL, "", "", 0, 0};
    exit_status status = check_history(line);
    if (status == EXIT_DONE) status = days_between(line, &sought.since, &sought.until);
    if (status != EXIT_DONE) return status;
    status = book_open_at(line->count > 1 ? line->words[1] : usual_book_name,
                          line->values[OPTION_SITE], &book);
    if (status != EXIT_DONE) return status;
    const tt_book_info info = tt_book_describe(book.book);
    char *path = absolute_path(line->values[OPTION_SITE]);
    sought.path = path;
    sought.title = info.site_title;
    sought.book = info.title;
    status = tell(line, &book, &sought);
    free(path);
    book_close(&book);
    return status;
}
