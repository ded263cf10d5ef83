/* A file of answers, for a case of a small book. All of it counts, or nothing. */
#include "fuzz_target.h"

#include "fuzz_books.h"

static void one(const uint8_t *bytes, size_t length)
{
    tt_case *c;
    tt_report *report;
    const tt_view *v;
    const tt_source file = {"answers.yaml", (const char *)bytes, length};
    MUST(tt_case_new(fuzz_book_once("tests/cli/filtered-well")->book,
                     &(tt_options){.role = TT_NONE}, &c) == TT_OK);
    MUST(tt_look(c, &v) == TT_OK);
    const uint32_t facts = v->fact_count;
    const tt_status status = tt_answers_load(c, &file, &report);
    MUST(status == TT_OK || status == TT_FAULTY);
    MUST((tt_report_errors(report) == 0) == (status == TT_OK));
    MUST(tt_report_text(report) != NULL);
    MUST(tt_look(c, &v) == TT_OK);
    MUST(status == TT_OK || v->fact_count == facts);
    tt_report_free(report);
    tt_case_free(c);
}

FUZZ_TARGET("answers", one, NULL)
