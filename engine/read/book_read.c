/* Nodes → book, as a list of steps. */
#include <assert.h>

#include "read/reader.h"

static bool blank(str bytes)
{
    return str_trim(bytes).n == 0;
}

/* What stood in a file that could not be read isn't missed; the file itself has been reported. */
/* A section that stands twice in its file: the names in the second one were dropped. */
static bool section_lost(const fault *f, const sources *files)
{
    if (f->code != FAULT_KEY_TWICE || f->at.file >= files->count) return false;
    return f->at.start == 0 || files->items[f->at.file].bytes.p[f->at.start - 1] == '\n';
}

static bool sections_lost(arena *scratch, const sources *files, faults *list)
{
    uint32_t count;
    const fault *all = faults_sorted(list, scratch, &count);
    for (uint32_t i = 0; i < count; i++)
        if (section_lost(&all[i], files)) return true;
    return false;
}

static bool files_lost(const sources *files, const node *const *roots, const faults *list)
{
    for (uint32_t i = 0; i < files->count; i++)
        if (roots[i] == NULL && !source_is_picture(&files->items[i]) &&
            !blank(files->items[i].bytes) && faults_errors(list) > 0)
            return true;
    return false;
}

const book *book_read(arena *keep, arena *scratch, const sources *files, uint32_t site,
                      const node *const *roots, faults *list)
{
    return book_read_names(keep, scratch, files, site, roots, list, NULL);
}

const book *book_read_names(arena *keep, arena *scratch, const sources *files, uint32_t site,
                            const node *const *roots, faults *list, mention_list *names)
{
    assert(files != NULL && list != NULL);
    book *b = ARENA_NEW(keep, book);
    b->files = files;
    b->mentions = names;
    reader r = {.keep = keep,
                .read_key = read_key_value,
                .scratch = scratch,
                .list = list,
                .book = b,
                .site_file = site,
                .here = {STR(""), NO_ID, NO_ID, 0},
                .names_lost =
                    files_lost(files, roots, list) || sections_lost(scratch, files, list)};

    read_fines(&r, roots);
    collect_names(&r, roots);
    read_manifest(&r);
    read_kinds(&r);
    read_protection(&r);
    read_procedures(&r);
    read_harms(&r);
    read_emergencies(&r);
    read_concepts(&r);
    read_places(&r);
    read_instruments(&r);
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
    check_gates(&r);
    check_one_currency(&r);
    check_insert_units(&r);
    check_symptom_conditions(&r);
    check_counted_twice(&r);
    if (faults_errors(list) == 0) check_adjusted(&r);
    if (faults_errors(list) == 0) check_safety(&r);
    check_judged_twice(&r);
    if (faults_errors(list) == 0 && site == NO_FILE)
        check_usage(&r); /* what is used is the author's concern, not a site's */
    return faults_errors(list) == 0 ? b : NULL;
}
