#include "fuzz_books.h"

#include "fuzz_target.h"
#include "shipped_books.h"
#include "test_sources.h"

const fuzz_book *fuzz_book_once(const char *folder)
{
    static fuzz_book known; /* a target has one */
    if (known.book != NULL) return &known;
    arena *keep = test_arena(); /* lives as long as the program */
    const sources all = files_of_book(keep, str_printf(keep, "%s/%s", TT_SOURCE_DIR, folder).p);
    tt_source *files = ARENA_ARRAY(keep, tt_source, all.count);
    for (uint32_t i = 0; i < all.count; i++)
        files[i] = (tt_source){all.items[i].name.p, all.items[i].bytes.p, all.items[i].bytes.n};
    tt_book *book;
    tt_report *report;
    MUST(tt_book_load(files, all.count, &book, &report) == TT_OK);
    tt_report_free(report);
    MUST(tt_book_hear(book) == TT_OK);
    known = (fuzz_book){files, all.count, book};
    return &known;
}
