#include "fault_files.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "test_sources.h"

enum { CODE_LENGTH = 4 }; /* T120 */

static void write_file(const char *path, str text)
{
    FILE *f = fopen(path, "wb");
    if (f == NULL || fwrite(text.p, 1, text.n, f) != text.n || fclose(f) != 0) abort();
}

static str found_text(arena *keep, str bytes, fault_finder find)
{
    arena *scratch = test_arena();
    sources all = source_from_text(keep, "rules.yaml", bytes);
    faults *list = faults_new(keep);
    find(keep, scratch, &all, list);
    str text = faults_text(list, keep, &all, 0);
    arena_free(scratch);
    return text;
}

static bool agrees(str name, str got, str wanted)
{
    char code[CODE_LENGTH + 3];
    snprintf(code, sizeof code, "[%.*s]", CODE_LENGTH, name.p);
    bool same = str_eq(got, wanted), has_code = str_find(got, str_of(code)) != SIZE_MAX;
    if (!same)
        fprintf(stderr, "%.*s: wanted\n%.*sgot\n%.*s", STR_ARG(name), STR_ARG(wanted),
                STR_ARG(got));
    if (!has_code) fprintf(stderr, "%.*s: no fault with the code %s\n", STR_ARG(name), code);
    return same && has_code;
}

static bool check_file(const char *folder, str name, fault_finder find)
{
    arena *keep = test_arena();
    str stem = str_slice(name, 0, name.n - strlen(".yaml"));
    str input = str_printf(keep, "%s/%.*s", folder, STR_ARG(name));
    str expected = str_printf(keep, "%s/%.*s.expected", folder, STR_ARG(stem));
    str got = found_text(keep, file_bytes(keep, input.p), find);
    if (getenv("TT_UPDATE_EXPECTED") != NULL) write_file(expected.p, got);
    bool good = name.n > CODE_LENGTH && agrees(name, got, file_bytes(keep, expected.p));
    arena_free(keep);
    return good;
}

unsigned fault_files_check(const char *folder, fault_finder find)
{
    arena *keep = test_arena();
    file_names names = files_ending(keep, folder, ".yaml");
    unsigned failed = names.count == 0;
    for (size_t i = 0; i < names.count; i++) failed += !check_file(folder, names.items[i], find);
    arena_free(keep);
    return failed;
}

static bool has_file(file_names names, const char *code)
{
    for (size_t i = 0; i < names.count; i++)
        if (str_starts(names.items[i], code)) return true;
    return false;
}

static bool is_listed(const char *const *list, const char *code)
{
    while (*list != NULL && strcmp(*list, code) != 0) list++;
    return *list != NULL;
}

unsigned fault_codes_without_file(const char *folder, const char *beginning,
                                  const char *const *elsewhere)
{
    arena *keep = test_arena();
    file_names names = files_ending(keep, folder, ".yaml");
    unsigned missing = 0;
    for (unsigned i = 0; i < FAULT_COUNT; i++) {
        const char *code = fault_id((fault_code)i);
        if (!str_starts(str_of(code), beginning)) continue;
        if (has_file(names, code) || is_listed(elsewhere, code)) continue;
        fprintf(stderr, "%s has no file in %s\n", code, folder);
        missing++;
    }
    arena_free(keep);
    return missing;
}
