/* A site's file, for a book with kinds of equipment, amounts and answers of the site; and a good
 * value written into it. */
#include "fuzz_target.h"

#include <stdlib.h>
#include <string.h>

#include "fuzz_books.h"

static bool loads(const char *bytes, size_t length)
{
    tt_book *b;
    tt_report *report;
    const fuzz_book *book = fuzz_book_once("tests/cli/filtered-well");
    const tt_source site = {"site.yaml", bytes, length};
    const tt_status status = tt_book_load_at(book->files, book->count, &site, &b, &report);
    MUST(status == TT_OK || status == TT_FAULTY);
    MUST((status == TT_OK) == (b != NULL) && (b != NULL) == (tt_report_errors(report) == 0));
    MUST(tt_report_text(report) != NULL);
    if (b != NULL) {
        tt_case *c;
        const tt_view *v;
        MUST(tt_case_new(b, &(tt_options){.role = TT_NONE}, &c) == TT_OK &&
             tt_look(c, &v) == TT_OK);
        tt_case_free(c);
    }
    tt_report_free(report);
    tt_book_free(b);
    return status == TT_OK;
}

static bool has_coarse(const char *bytes, size_t length)
{
    char *text = calloc(1, length + 1);
    MUST(text != NULL);
    memcpy(text, bytes, length);
    const bool has = strstr(text, "\n      coarse:\n") != NULL;
    free(text);
    return has;
}

/* What is a site stays one with a value of a piece that it has. */
static void one(const uint8_t *bytes, size_t length)
{
    char *with = NULL;
    const bool good = loads((const char *)bytes, length);
    const tt_good value = {"drop-limit of coarse", "8 psi", "2026-05-03", "technician", "gauge"};
    if (tt_site_with_good((const char *)bytes, length, &value, 1, &with) != TT_OK) return;
    const bool fine = loads(with, strlen(with));
    MUST(!good || fine || !has_coarse((const char *)bytes, length));
    free(with);
}

static const char *const more[] = {"tests/cli/filtered-well-sites", NULL};

FUZZ_TARGET("site", one, more)
