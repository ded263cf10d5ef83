#include "book_folder.h"

#include "test_sources.h"
#include "testing.h"

static tt_book *load(const char *folder, const tt_source *site)
{
    arena *keep = test_arena();
    const char *path = str_printf(keep, TT_SOURCE_DIR "/%s", folder).p;
    const file_names names = files_ending(keep, path, ".yaml");
    tt_source *files = ARENA_ARRAY(keep, tt_source, names.count);
    for (size_t i = 0; i < names.count; i++) {
        const str bytes = file_bytes(keep, str_printf(keep, "%s/%.*s", path, STR_ARG(names.items[i])).p);
        files[i] = (tt_source){.name = str_copy(keep, names.items[i]).p, .bytes = bytes.p, .length = bytes.n};
    }
    tt_book *b = NULL;
    tt_report *report = NULL;
    if (tt_book_load_at(files, names.count, site, &b, &report) != TT_OK) fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    arena_free(keep);
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
