/* From a folder of cases to what is counted: which of them ended, and how, and were confirmed. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/value.h"
#include "call/cases_in_order.h"
#include "cases/begin_case.h"
#include "cases/case_depot.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "verb/learn_cases.h"
#include "verb/learn_sites.h"

/* Cases of one site mostly come together, so the book last opened is kept. */
typedef struct reading {
    tt_learning *l;
    const char *book;
    cases_seen *seen;
    const char *title;
    char *site; /* text of the site that `open` was opened for; null: its own */
    opened_book open;
    site_troubles troubles;
    int64_t until, last; /* milliseconds since 1970: when it was learned before; when the last one
                            counted was confirmed */
    size_t out_of_reach; /* cases: left out now, they would be for good, for what comes next is
                            learned from this day on */
} reading;

static int64_t milliseconds(const char *text)
{
    tt_moment moment;
    return tt_moment_read(text, &moment) ? moment.milliseconds : INT64_MIN;
}

/* "2026-11-25T19:16:00.123Z" */
static void write_universal(int64_t moment, char out[TT_MOMENT_SIZE])
{
    tt_moment_text((tt_moment){moment, 0}, out);
    char *offset = strchr(out, '+');
    assert(offset != NULL);
    memcpy(offset, "Z", sizeof "Z");
}

/* ---- one case ---- */

/* Whoever was called may cure it and never say so here. */
static bool is_over(const seen_case *c)
{
    return *c->says.ended != 0 || c->says.state == TT_CASE_WAITING;
}

/* Why a case isn't learned from, as far as its records tell: the count it belongs to; or null. */
static uint32_t *why_not(const reading *r, const seen_case *c, const tt_confirmation *cause,
                         int64_t when)
{
    if (c->places.begin == NULL) return &r->seen->broken;
    if (strcmp(seen_case_text(c->places.begin, "title"), r->title) != 0) return &r->seen->of_others;
    if (!is_over(c)) return &r->seen->open;
    const bool told = c->says.state == TT_CASE_CALLED && cause->said == TT_CAUSE_CONFIRMED;
    if (c->says.state != TT_CASE_CLOSED && !told) return &r->seen->not_gone;
    if (cause->said != TT_CAUSE_CONFIRMED) return &r->seen->unconfirmed;
    if (strcmp(cause->cause, "something-not-listed") == 0) return &r->seen->not_listed;
    return when <= r->until ? &r->seen->before : NULL;
}

static bool is_open_for(const reading *r, const char *site)
{
    if (r->open.book == NULL || (site == NULL) != (r->site == NULL)) return false;
    return site == NULL || strcmp(site, r->site) == 0;
}

/* With the site as the case kept it. */
static exit_status open_book(reading *r, seen_case *c)
{
    const char *site = value_text(c->places.site, "text");
    exit_status status = EXIT_DONE;
    if (!is_open_for(r, site)) {
        book_close(&r->open);
        free(r->site);
        r->site = site != NULL ? copy_text(site) : NULL;
        status = seen_case_open(c, r->book);
        r->open = c->book;
    }
    c->book = r->open;
    return status;
}

static bool is_call(seen_case *c, uint32_t entry)
{
    tt_entry e;
    must_be_done(tt_journal_entry(c->journal, entry, &e));
    if (e.skipped != TT_SKIP_NOT) return false;
    const bool close = strcmp(e.record->kind, "close") == 0 &&
                       strcmp(seen_case_text(e.record->data, "how"), "call") == 0;
    return close || strcmp(e.record->kind, "waiting") == 0;
}

/* Somebody was called on the way, whoever ended it. */
static bool was_called(seen_case *c)
{
    bool called = false;
    for (uint32_t i = 0; i < tt_journal_count(c->journal) && !called; i++) called = is_call(c, i);
    return called;
}

/* It ended like those that are learned from, and nobody said what it was. */
static void note_unconfirmed(const reading *r, const seen_case *c, const uint32_t *why, bool called)
{
    const int64_t ended = *c->says.ended != 0 ? milliseconds(c->says.ended) : INT64_MAX;
    const bool stopped = c->says.state == TT_CASE_STOPPED || c->says.state == TT_CASE_MADE_SAFE;
    if ((why == &r->seen->not_gone && !stopped) || why == &r->seen->unconfirmed)
        if (ended > r->until) tt_learning_unconfirmed(r->l, called);
}

/* It is no fault of the case that its book could not be opened. */
static bool is_of_the_machine(exit_status opened)
{
    return opened != EXIT_DONE && opened != EXIT_BAD_DATA;
}

static uint32_t *count_case(reading *r, seen_case *c, const char *cause, int64_t when, bool called)
{
    exit_status status = open_book(r, c);
    r->out_of_reach += is_of_the_machine(status);
    if (status == EXIT_DONE) status = seen_case_evidence(c);
    if (status != EXIT_DONE) return &r->seen->broken;
    switch (tt_learning_add(r->l, tt_talk_case(c->talk), cause, called)) {
    case TT_OK:
        if (when > r->last) r->last = when;
        return &r->seen->counted;
    case TT_NOT_NOW:
        return &r->seen->better;
    case TT_FAULTY:
        return &r->seen->unknown;
    default:
        memory_ended();
    }
}

/* When the cause was confirmed. */
static int64_t confirmed_at(const seen_case *c, const tt_confirmation *cause)
{
    tt_entry entry;
    if (cause->entry == TT_NONE) return INT64_MIN;
    must_be_done(tt_journal_entry(c->journal, cause->entry, &entry));
    return milliseconds(entry.record->time);
}

/* Whatever becomes of it, it is a trouble of its site. */
static void note_trouble(reading *r, seen_case *c, const tt_confirmation *cause, const char *folder)
{
    if (c->places.begin == NULL || strcmp(seen_case_text(c->places.begin, "title"), r->title) != 0)
        return;
    site_troubles_add(&r->troubles, c, cause, folder);
}

static uint32_t *read_meaning(reading *r, seen_case *c, const char *folder)
{
    tt_confirmation cause;
    must_be_done(tt_journal_cause(c->journal, &cause));
    const int64_t when = confirmed_at(c, &cause);
    const bool called = was_called(c);
    note_trouble(r, c, &cause, folder);
    uint32_t *why = why_not(r, c, &cause, when);
    if (why != NULL) note_unconfirmed(r, c, why, called);
    return why != NULL ? why : count_case(r, c, cause.cause, when, called);
}

static void look_at(void *context, const read_case *one)
{
    reading *r = context;
    const bool read = one->read == EXIT_DONE;
    const bool fault =
        !read || one->c->says.kind == TT_KIND_FAULT; /* in a round nothing was cured */
    r->seen->all += fault;
    if (fault) ++*(read ? read_meaning(r, one->c, one->folder) : &r->seen->broken);
    one->c->book = (opened_book){.book = NULL}; /* it stays open for the next */
}

/* ---- the sites ---- */

/* With the book at the site as its last case kept it. What is wrong with that case was said when it
 * was read. */
static void tell_site(reading *r, size_t from, size_t to)
{
    seen_case c;
    exit_status status = seen_case_read(&c, "", r->troubles.items[to - 1].folder);
    if (status == EXIT_DONE) status = open_book(r, &c);
    r->out_of_reach += is_of_the_machine(status);
    if (status == EXIT_DONE &&
        site_troubles_tell(&r->troubles, from, to, r->l, r->open.book, r->until) == TT_NO_MEMORY)
        memory_ended();
    c.book = (opened_book){.book = NULL};
    seen_case_end(&c);
}

static void tell_sites(reading *r)
{
    site_troubles_sort(&r->troubles);
    for (size_t from = 0, to; from < r->troubles.count; from = to) {
        to = site_troubles_end(&r->troubles, from);
        if (to - from > 1)
            tell_site(r, from, to); /* one trouble alone tells nothing of coming back */
    }
    site_troubles_free(&r->troubles);
}

/* ---- the folder ---- */

exit_status learn_from_cases(tt_learning *l, const char *book, const char *root, cases_seen *seen)
{
    *seen = (cases_seen){.all = 0};
    reading r = {.l = l,
                 .book = book,
                 .seen = seen,
                 .until = milliseconds(tt_learning_until(l)),
                 .last = INT64_MIN};
    r.title = tt_book_describe(tt_learning_book(l)).title;
    const size_t out_of_reach = cases_in_order(root, look_at, &r);
    tell_sites(&r);
    if (r.last > INT64_MIN) write_universal(r.last, seen->until);
    book_close(&r.open);
    free(r.site);
    return all_were_read(out_of_reach + r.out_of_reach);
}
