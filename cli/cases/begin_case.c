#include "cases/begin_case.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "host/plain_text.h"
#include "host/screen.h"

exit_status status_of(tt_status status)
{
    if (status == TT_NO_MEMORY) memory_ended();
    if (status == TT_OK) return EXIT_DONE;
    complain("this is a fault of telltale itself, please report it");
    return EXIT_OUR_BUG;
}

void must_be_done(tt_status status)
{
    if (status == TT_NO_MEMORY) memory_ended();
    assert(status == TT_OK);
}

exit_status role_named(const tt_book *book, const char *name, uint32_t *role)
{
    *role = TT_NONE;
    if (name == NULL) return EXIT_DONE;
    *role = tt_role_find(book, name);
    if (*role != TT_NONE) return EXIT_DONE;
    uint32_t count = tt_book_describe(book).roles;
    char *known = copy_text("");
    for (uint32_t i = 0; i < count; i++) {
        char *longer = format_text("%s%s%s", known, i > 0 ? ", " : "", tt_role_name(book, i));
        free(known);
        known = longer;
    }
    complain("%s is no role of this book. Its roles: %s", name, known);
    free(known);
    return EXIT_USAGE;
}

exit_status language_typed(const char *tag)
{
    if (tag == NULL || is_language_tag(tag)) return EXIT_DONE;
    complain("%s is no language tag; write en, or de-CH", tag);
    return EXIT_USAGE;
}

exit_status case_begin(const opened_book *book, const char *role, const char *language,
                       bool soonest, bool asks, tt_case **out)
{
    *out = NULL;
    tt_options options = {.language = language, .soonest = soonest, .asks_complaint = asks};
    exit_status status = language_typed(language);
    if (status == EXIT_DONE) status = role_named(book->book, role, &options.role);
    if (status != EXIT_DONE) return status;
    return status_of(tt_case_new(book->book, &options, out));
}

exit_status case_answer_file(tt_case *c, const tt_source *file)
{
    tt_report *report = NULL;
    tt_status status = tt_answers_load(c, file, &report);
    show_report(stderr, report);
    tt_report_free(report);
    return status == TT_FAULTY ? EXIT_BAD_DATA : status_of(status);
}
