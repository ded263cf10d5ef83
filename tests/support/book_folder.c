#include "book_folder.h"

#include "test_sources.h"
#include "testing.h"

enum { BOOK_FILES_MOST = 200 };

static tt_book *load(const char *folder, const tt_source *site)
{
    arena *keep = test_arena();
    const char *path = str_printf(keep, TT_SOURCE_DIR "/%s", folder).p;
    static const char *const endings[] = {".yaml", ".svg"};
    tt_source *files = ARENA_ARRAY(keep, tt_source, BOOK_FILES_MOST);
    size_t count = 0;
    for (size_t e = 0; e < sizeof endings / sizeof *endings; e++) {
        const file_names names = files_ending(keep, path, endings[e]);
        for (size_t i = 0; i < names.count; i++) {
            const str bytes =
                file_bytes(keep, str_printf(keep, "%s/%.*s", path, STR_ARG(names.items[i])).p);
            assert_true(count < BOOK_FILES_MOST);
            files[count++] = (tt_source){
                .name = str_copy(keep, names.items[i]).p, .bytes = bytes.p, .length = bytes.n};
        }
    }
    tt_book *b = NULL;
    tt_report *report = NULL;
    if (tt_book_load_at(files, count, site, &b, &report) != TT_OK)
        fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    arena_free(keep);
    assert_int_equal(tt_book_hear(b), TT_OK);
    return b;
}

tt_book *book_folder(const char *folder)
{
    return load(folder, NULL);
}

tt_book *book_folder_bare(const char *folder)
{
    return load(folder, &(tt_source){.name = "", .bytes = NULL});
}

tt_book *book_folder_at(const char *folder, const char *site)
{
    arena *keep = test_arena();
    const str bytes = file_bytes(keep, str_printf(keep, TT_SOURCE_DIR "/%s", site).p);
    tt_book *b = load(folder, &(tt_source){.name = site, .bytes = bytes.p, .length = bytes.n});
    arena_free(keep);
    return b;
}
