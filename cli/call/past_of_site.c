/* What the cases of a site say of it: found in the folder of cases, read through the journal. */
#include "call/past_of_site.h"

#include <stdlib.h>
#include <string.h>

#include "base/value.h"
#include "call/call_parts.h"
#include "call/seen_case.h"
#include "cases/begin_case.h"
#include "cases/case_depot.h"
#include "cases/case_name.h"
#include "cases/case_store.h"
#include "host/clock.h"
#include "summary/case_list.h"

enum { DAYS_LOOKED_BACK = 400 };

/* The file it lay in, or, where files were moved, what the place is called. */
static bool is_same_site(const site_sought *s, const tt_case_places *places)
{
    const char *path = value_text(places->site, "path"),
               *title = value_text(places->begin, "site_title");
    if (is_practice_case(places)) return false;
    if (path != NULL && s->path != NULL && strcmp(path, s->path) == 0) return true;
    return title != NULL && *title != 0 && strcmp(title, s->title) == 0;
}

/* False: it could not be read. */
static bool add_case(tt_past *past, const site_sought *s, const case_summary *listed)
{
    seen_case c;
    size_t count;
    const bool read = seen_case_read(&c, "", listed->folder) == EXIT_DONE;
    if (read && is_same_site(s, &c.places)) {
        const tt_record *records = case_store_records(c.store, &count);
        must_be_done(tt_past_add(past, listed->number, records, count));
    }
    seen_case_end(&c);
    return read;
}

exit_status past_of_site(const char *root, const site_sought *s, tt_past **out, size_t *failed)
{
    case_list list;
    const case_query query = {.states = (1u << TT_CASE_STATES) - 1,
                              .kinds = (1u << TT_CASE_KINDS) - 1,
                              .since = s->since,
                              .until = s->until,
                              .book = s->book,
                              .site_path = s->path != NULL ? s->path : "",
                              .site_title = s->title};
    *failed = 0;
    must_be_done(tt_past_new(out));
    const exit_status status = case_list_read(root, true, &query, &list);
    if (status != EXIT_DONE) return status;
    *failed = list.failed;
    for (size_t i = 0; i < list.count; i++) *failed += !add_case(*out, s, &list.cases[i]);
    case_list_free(&list);
    return EXIT_DONE;
}

/* What can't be read was told of, and is no past: nobody at the machine has to wait for it. */
void read_past(conversation *c)
{
    char text[TT_MOMENT_SIZE];
    tt_moment now;
    const tt_book_info info = tt_book_describe(c->book.book);
    const bool named = info.has_site && !info.site_is_example;
    if (c->practice || !named || (c->site_path == NULL && *info.site_title == 0)) return;
    char *root = cases_root(c->line->values[OPTION_CASES]);
    clock_now(text);
    const int64_t since = tt_moment_read(text, &now)
                              ? now.milliseconds - (int64_t)DAYS_LOOKED_BACK * 86400000
                              : INT64_MIN;
    const site_sought s = {c->site_path, info.site_title, info.title, since, INT64_MAX};
    size_t failed;
    if (root != NULL) past_of_site(root, &s, &c->past, &failed);
    free(root);
}
