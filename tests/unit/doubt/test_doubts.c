/* Every doubt, each from a small book with the exact report beside it; base.yaml has none. */
#include "fault_files.h"
#include "testing.h"

#include "base/faults.h"
#include "telltale.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define FOLDER TT_SOURCE_DIR "/tests/unit/doubt/faults"

/* Books without a doubt, up to a null. */
static const char *const without[] = {
    "base",                   /* what all the others differ from */
    "called-fine",            /* one whose author stands by it */
    "cases-differ",           /* one whose worked cases each differ in one thing */
    "sound-conditions",       /* conditions of each kind, each with its use */
    "sound-one-role",         /* nobody else is there to be called */
    "sound-unread-language",  /* locks in a language whose words are not known here */
    "sound-another-fix",      /* what can't be set right is mended otherwise */
    "sound-no-end",           /* nothing says how far off a reading can be */
    "sound-tried-twice",      /* a start tried too soon, and again at the end */
    "sound-large-conditions", /* more parts than are searched through */
    NULL,
};

static char *file_read(const char *path, size_t *length)
{
    FILE *f = fopen(path, "rb");
    assert_non_null(f);
    char *bytes = malloc(1 << 16);
    assert_non_null(bytes);
    *length = fread(bytes, 1, 1 << 16, f);
    fclose(f);
    return bytes;
}

/* A book with a picture has it beside it, under its own name; null: it has none. */
static char *drawing_beside(arena *keep, const char *folder, str stem, tt_source *out)
{
    const str path = str_printf(keep, "%s/%.*s.svg", folder, STR_ARG(stem));
    if (access(path.p, R_OK) != 0) return NULL;
    size_t length = 0;
    char *bytes = file_read(path.p, &length);
    *out = (tt_source){
        .name = str_printf(keep, "%.*s.svg", STR_ARG(stem)).p, .bytes = bytes, .length = length};
    return bytes;
}

static str tell(arena *keep, const char *folder, str stem)
{
    size_t length = 0;
    char *bytes = file_read(str_printf(keep, "%s/%.*s.yaml", folder, STR_ARG(stem)).p, &length);
    const str name = str_printf(keep, "%.*s.yaml", STR_ARG(stem));
    tt_source files[2] = {{.name = name.p, .bytes = bytes, .length = length}};
    char *drawing = drawing_beside(keep, folder, stem, &files[1]);
    tt_book *book = NULL;
    tt_report *report = NULL;
    if (tt_book_load(files, drawing != NULL ? 2 : 1, &book, &report) == TT_OK)
        assert_int_equal(tt_book_doubts(book, report), TT_OK);
    const str said = str_copy(keep, str_of(tt_report_text(report)));
    tt_report_free(report);
    tt_book_free(book);
    free(drawing);
    free(bytes);
    return said;
}

static void each_doubt_reads_as_written_beside_it(void **state)
{
    (void)state;
    assert_int_equal(fault_files_check(FOLDER, ".yaml", tell, without), 0);
}

static void every_code_has_a_file(void **state)
{
    static const char *const beginnings[] = {"T9", NULL}, *const none[] = {NULL};
    (void)state;
    assert_int_equal(fault_codes_without_file(FOLDER, ".yaml", beginnings, none), 0);
}

static void books_without_a_doubt_have_none(void **state)
{
    (void)state;
    arena *keep = arena_new(NULL, NULL);
    for (size_t i = 0; without[i] != NULL; i++)
        assert_string_equal(tell(keep, FOLDER, str_of(without[i])).p, "");
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_doubt_reads_as_written_beside_it),
        cmocka_unit_test(every_code_has_a_file),
        cmocka_unit_test(books_without_a_doubt_have_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
