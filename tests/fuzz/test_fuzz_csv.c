/* A table that came back from a spreadsheet. Its edits, if it has any, make a book that loads. */
#include "fuzz_target.h"

#include "fuzz_books.h"
#include "telltale_author.h"

static void one(const uint8_t *bytes, size_t length)
{
    tt_table *t;
    tt_report *report, *of_csv;
    uint32_t count;
    const tt_edit *edits;
    const fuzz_book *book = fuzz_book_once("tests/cli/filtered-well");
    MUST(tt_table_new(book->files, book->count, &t, &report) == TT_OK);
    const tt_source file = {"table.csv", (const char *)bytes, length};
    const tt_status status = tt_table_read(t, &file, &edits, &count, &of_csv);
    MUST(status == TT_OK || status == TT_FAULTY);
    MUST((tt_report_errors(of_csv) == 0) == (status == TT_OK));
    MUST(tt_report_text(of_csv) != NULL);
    for (uint32_t i = 0; status == TT_OK && i < count; i++) MUST(edits[i].start <= edits[i].end);
    tt_report_free(of_csv);
    tt_report_free(report);
    tt_table_free(t);
}

FUZZ_TARGET("csv", one, NULL)
