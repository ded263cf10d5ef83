#include "small_book.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

tt_book *small_book(const char *yaml)
{
    tt_book *book;
    tt_report *report;
    const tt_source file = {"small.yaml", yaml, strlen(yaml)};
    tt_status status = tt_book_load(&file, 1, &book, &report);
    if (status != TT_OK) print_error("%s\n", report == NULL ? "no memory" : tt_report_text(report));
    assert_int_equal(status, TT_OK);
    tt_report_free(report);
    return book;
}
