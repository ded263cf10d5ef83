#include "fault_files.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/faults.h"
#include "test_sources.h"

enum { CODE_LENGTH = 4 }; /* T120 */

static void write_file(const char *path, str text)
{
    FILE *f = fopen(path, "wb");
    if (f == NULL || fwrite(text.p, 1, text.n, f) != text.n || fclose(f) != 0) abort();
}

static bool is_listed(const char *const *list, str name)
{
    while (*list != NULL && !str_is(name, *list)) list++;
    return *list != NULL;
}

/* What a fixture's files have in common: up to the first point. */
static str stem_of(str name)
{
    size_t point = str_find_byte(name, '.');
    return point == SIZE_MAX ? name : str_slice(name, 0, point);
}

static bool has_stem(file_names names, str stem)
{
    for (size_t i = 0; i < names.count; i++)
        if (str_eq(stem_of(names.items[i]), stem)) return true;
    return false;
}

/* ---- one fixture ---- */

static bool begins_with_a_code(str stem)
{
    char code[CODE_LENGTH + 1] = "";
    if (stem.n > CODE_LENGTH) memcpy(code, stem.p, CODE_LENGTH);
    for (unsigned i = 0; i < FAULT_COUNT; i++)
        if (strcmp(fault_id((fault_code)i), code) == 0) return true;
    fprintf(stderr, "%.*s: its name begins with no code\n", STR_ARG(stem));
    return false;
}

static bool shows_its_code(str stem, str said)
{
    char code[CODE_LENGTH + 3];
    snprintf(code, sizeof code, "[%.*s]", CODE_LENGTH, stem.p);
    if (str_find(said, str_of(code)) != SIZE_MAX) return true;
    fprintf(stderr, "%.*s: no fault with the code %s\n", STR_ARG(stem), code);
    return false;
}

static bool is_expected(arena *keep, const char *folder, str stem, str said)
{
    str path = str_printf(keep, "%s/%.*s.expected", folder, STR_ARG(stem));
    if (getenv("TT_UPDATE_EXPECTED") != NULL) write_file(path.p, said);
    if (access(path.p, R_OK) != 0) {
        fprintf(stderr,
                "%.*s.expected is missing: run the test once with TT_UPDATE_EXPECTED=1, and read "
                "what it wrote\n",
                STR_ARG(stem));
        return false;
    }
    str expected = file_bytes(keep, path.p);
    if (str_eq(said, expected)) return true;
    fprintf(stderr, "%.*s: wanted\n%.*sgot\n%.*s", STR_ARG(stem), STR_ARG(expected), STR_ARG(said));
    return false;
}

static bool check_fixture(const char *folder, str stem, fault_teller tell)
{
    if (!begins_with_a_code(stem)) return false;
    arena *keep = test_arena();
    str said = tell(keep, folder, stem);
    bool expected = is_expected(keep, folder, stem, said), shows = shows_its_code(stem, said);
    arena_free(keep);
    return expected && shows;
}

/* ---- a folder of them ---- */

static unsigned messages_without_fixture(arena *keep, const char *folder, file_names fixtures)
{
    file_names messages = files_ending(keep, folder, ".expected");
    unsigned alone = 0;
    for (size_t i = 0; i < messages.count; i++) {
        if (has_stem(fixtures, stem_of(messages.items[i]))) continue;
        fprintf(stderr, "%.*s belongs to no fixture\n", STR_ARG(messages.items[i]));
        alone++;
    }
    return alone;
}

unsigned fault_files_check(const char *folder, const char *ending, fault_teller tell,
                           const char *const *helpers)
{
    arena *keep = test_arena();
    file_names names = files_ending(keep, folder, ending);
    unsigned failed = names.count == 0;
    str before = STR("");
    for (size_t i = 0; i < names.count; i++) {
        str stem = stem_of(names.items[i]);
        if (!str_eq(stem, before) && !is_listed(helpers, stem))
            failed += !check_fixture(folder, stem, tell);
        before = stem;
    }
    failed += messages_without_fixture(keep, folder, names);
    arena_free(keep);
    return failed;
}

static bool begins_as_one(const char *const *beginnings, str code)
{
    while (*beginnings != NULL && !str_starts(code, *beginnings)) beginnings++;
    return *beginnings != NULL;
}

static bool has_file(file_names names, const char *code)
{
    for (size_t i = 0; i < names.count; i++)
        if (str_starts(names.items[i], code)) return true;
    return false;
}

unsigned fault_codes_without_file(const char *folder, const char *ending,
                                  const char *const *beginnings, const char *const *elsewhere)
{
    arena *keep = test_arena();
    file_names names = files_ending(keep, folder, ending);
    unsigned missing = 0;
    for (unsigned i = 0; i < FAULT_COUNT; i++) {
        const char *code = fault_id((fault_code)i);
        if (!begins_as_one(beginnings, str_of(code))) continue;
        if (has_file(names, code) || is_listed(elsewhere, str_of(code))) continue;
        fprintf(stderr, "%s has no file in %s\n", code, folder);
        missing++;
    }
    arena_free(keep);
    return missing;
}
