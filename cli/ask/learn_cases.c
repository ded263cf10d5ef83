/* From a folder of cases to what is counted: which of them were closed as gone, and confirmed. */
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "ask/ask_site.h"
#include "ask/case_replay.h"
#include "ask/learn_cases.h"
#include "host/case_walk.h"
#include "host/door.h"
#include "host/plain_text.h"

/* Cases of one site mostly come together, so the book last opened is kept. */
typedef struct reading {
    tt_learning *l;
    const char *book;
    const command_line *line;
    cases_seen *seen;
    char *title;
    char *site; /* text of the site that `open` was opened for; null: its own */
    opened_book open;
    FILE *nowhere;         /* replay tells people what it leaves out; here nobody reads it */
    long long until, last; /* milliseconds */
    exit_status status;
} reading;

/* ---- moments ---- */

/* Days since 1970-01-01 of a day in the Gregorian calendar, counted from 1 March so that a leap day
 * ends a year. */
static long long days_since_1970(long long year, long long month, long long day)
{
    long long y = month <= 2 ? year - 1 : year, m = (month + 9) % 12;
    return 365 * y + y / 4 - y / 100 + y / 400 + (153 * m + 2) / 5 + day - 1 - 719468;
}

/* RFC 3339 with any offset, in milliseconds since 1970; -1: none. */
static long long moment_of(const char *text)
{
    int year, month, day, hour, minute, used = 0;
    double second;
    if (sscanf(text, "%4d-%2d-%2dT%2d:%2d:%lf%n", &year, &month, &day, &hour, &minute, &second,
               &used) != 6)
        return -1;
    long long minutes = (days_since_1970(year, month, day) * 24 + hour) * 60 + minute;
    int off_hour = 0, off_minute = 0;
    char sign = text[used];
    if ((sign == '+' || sign == '-') &&
        sscanf(text + used + 1, "%2d:%2d", &off_hour, &off_minute) == 2)
        minutes -= (sign == '+' ? 1 : -1) * (off_hour * 60 + off_minute);
    return minutes * 60000 + (long long)(second * 1000 + 0.5);
}

static void write_moment(long long moment, char *out, size_t room)
{
    time_t seconds = (time_t)(moment / 1000);
    struct tm utc;
    char date[32];
    *out = 0;
    if (gmtime_r(&seconds, &utc) == NULL ||
        strftime(date, sizeof date, "%Y-%m-%dT%H:%M:%S", &utc) == 0)
        return;
    snprintf(out, room, "%s.%03dZ", date, (int)(moment % 1000));
}

/* ---- one case ---- */

static const char *text_of(const json_t *data, const char *key)
{
    const char *text = json_string_value(json_object_get(data, key));
    return text != NULL ? text : "";
}

static bool is_gone(const case_file *file)
{
    const char *how = "";
    for (size_t i = 0; i < case_file_count(file); i++)
        if (strcmp(case_file_record(file, i)->kind, "close") == 0)
            how = text_of(case_file_record(file, i)->data, "how");
    return strcmp(how, "gone") == 0;
}

static long long confirmed_at(const case_file *file)
{
    long long last = -1;
    for (size_t i = 0; i < case_file_count(file); i++)
        if (strcmp(case_file_record(file, i)->kind, "confirm") == 0)
            last = moment_of(case_file_record(file, i)->time);
    return last;
}

/* Why a case isn't learned from, as far as its records tell: the count it belongs to; or null and
 * its cause. */
static uint32_t *why_not(reading *r, const case_file *file, const char **cause, long long *when)
{
    const json_t *begun = case_beginning(file), *confirmed = case_confirmed(file);
    if (begun == NULL) return &r->seen->broken;
    if (strcmp(text_of(begun, "title"), r->title) != 0) return &r->seen->of_others;
    if (!case_is_closed(file)) return &r->seen->open;
    if (!is_gone(file)) return &r->seen->not_gone;
    *cause = confirmed != NULL ? text_of(confirmed, "cause") : "";
    *when = confirmed_at(file);
    if (**cause == 0) return &r->seen->unconfirmed;
    if (strcmp(*cause, "something-not-listed") == 0) return &r->seen->not_listed;
    return *when <= r->until ? &r->seen->before : NULL;
}

static bool is_open_for(const reading *r, const char *site)
{
    if (r->open.book == NULL || (site == NULL) != (r->site == NULL)) return false;
    return site == NULL || strcmp(site, r->site) == 0;
}

/* With the site as the case kept it. */
static bool open_book(reading *r, ask *a)
{
    const json_t *kept = case_last_site(a->file);
    const char *site = kept != NULL ? text_of(kept, "text") : NULL;
    if (!is_open_for(r, site)) {
        tt_source source = {.name = "the site kept in the case",
                            .bytes = site,
                            .length = site != NULL ? strlen(site) : 0};
        book_close(&r->open);
        free(r->site);
        r->site = site != NULL ? copy_text(site) : NULL;
        if (book_open(r->book, site != NULL ? &source : NULL, &r->open) != EXIT_DONE) return false;
    }
    a->book = r->open;
    return case_begin_again(a) == EXIT_DONE && replay(a) == EXIT_DONE;
}

static uint32_t *count_case(reading *r, ask *a, const char *cause, long long when)
{
    if (!open_book(r, a)) return &r->seen->broken;
    switch (tt_learning_add(r->l, a->c, cause)) {
    case TT_OK:
        if (when > r->last) r->last = when;
        return &r->seen->counted;
    case TT_NOT_NOW:
        return &r->seen->better;
    case TT_FAULTY:
        return &r->seen->unknown;
    default:
        complain("there is no memory left");
        r->status = EXIT_OUR_BUG;
        return &r->seen->broken;
    }
}

static void read_case(reading *r, const char *folder)
{
    const char *cause = "";
    long long when = -1;
    ask *a = take_memory(sizeof *a);
    *a = (ask){.s = screen_on(r->nowhere),
               .line = r->line,
               .question_shown = TT_NONE,
               .fix_shown = TT_NONE,
               .fix_explained = TT_NONE};
    r->seen->all++;
    uint32_t *counts = &r->seen->broken;
    if (case_file_read("", folder, &a->file) == EXIT_DONE) {
        counts = why_not(r, a->file, &cause, &when);
        if (counts == NULL) counts = count_case(r, a, cause, when);
    }
    ++*counts;
    a->book = (opened_book){.book = NULL}; /* it stays open for the next */
    case_look_end(a);
    free(a);
}

/* ---- the folder ---- */

static void read_found(void *context, const char *month, const char *uuid)
{
    char *folder = format_text("%s/%s", month, uuid);
    read_case(context, folder);
    free(folder);
}

exit_status learn_from_cases(tt_learning *l, const char *book, const char *root, cases_seen *seen)
{
    command_line line = {.program = "telltale"};
    *seen = (cases_seen){.all = 0};
    reading r = {.l = l,
                 .book = book,
                 .line = &line,
                 .seen = seen,
                 .until = -1,
                 .last = -1,
                 .nowhere = door_nowhere()};
    if (r.nowhere == NULL) r.nowhere = stderr;
    if (*tt_learning_until(l) != 0) r.until = moment_of(tt_learning_until(l));
    r.title = copy_text(tt_book_describe(tt_learning_book(l)).title);
    case_walk(root, read_found, &r);
    if (r.last >= 0) write_moment(r.last, seen->until, sizeof seen->until);
    book_close(&r.open);
    free(r.site);
    free(r.title);
    if (r.nowhere != stderr) fclose(r.nowhere);
    return r.status;
}
