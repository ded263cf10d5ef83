/* Nodes → rulebook, as a list of steps. */
#include <assert.h>

#include "model/reader.h"

static bool blank(str bytes)
{
    return str_trim(bytes).n == 0;
}

/* What stood in a file that could not be read isn't missed; the file itself has been reported. */
static bool files_lost(const sources *files, const node *const *roots, const faults *list)
{
    for (uint32_t i = 0; i < files->count; i++)
        if (roots[i] == NULL && !blank(files->items[i].bytes) && faults_errors(list) > 0)
            return true;
    return false;
}

const rulebook *rulebook_read(arena *keep, arena *scratch, const sources *files, uint32_t site,
                              const node *const *roots, faults *list)
{
    assert(files != NULL && list != NULL);
    rulebook *book = ARENA_NEW(keep, rulebook);
    book->files = files;
    reader r = {.keep = keep,
                .scratch = scratch,
                .list = list,
                .book = book,
                .site_file = site,
                .here = {STR(""), NO_ID, NO_ID},
                .names_lost = files_lost(files, roots, list)};

    collect_names(&r, roots);
    read_manifest(&r);
    read_kinds(&r);
    read_questions(&r);
    read_conclusions(&r);
    read_quantities(&r);
    read_question_conditions(&r);
    read_site(&r);
    read_causes(&r);
    read_symptoms(&r);
    read_fixes(&r);
    read_rules(&r);
    read_cases(&r);
    join_quantities(&r);
    settle_quantities(&r);
    check_insert_units(&r);
    check_symptom_conditions(&r);
    check_counted_twice(&r);
    if (faults_errors(list) == 0) check_adjusted(&r);
    check_judged_twice(&r);
    if (faults_errors(list) == 0 && site == NO_FILE) check_usage(&r); /* what is used is the author's concern, not a site's */
    return faults_errors(list) == 0 ? book : NULL;
}
