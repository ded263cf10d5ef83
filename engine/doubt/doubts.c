/* All doubts, kind by kind. */
#include "doubt/doubt.h"

#include <assert.h>

static void (*const kinds[])(const doubter *d) = {
    doubt_conditions, doubt_paths,   doubt_signs,  doubt_order,   doubt_drowned,
    doubt_readings,   doubt_phrases, doubt_words,  doubt_texts,   doubt_work,
    doubt_unused,     doubt_danger,  doubt_course, doubt_numbers,
};

void find_doubts(const doubter *d)
{
    assert(d->book != NULL && d->ear != NULL && d->list != NULL);
    const arena_mark before = arena_here(d->scratch);
    doubter with = *d;
    with.index = doubt_index_of(d->scratch, d->book);
    const arena_mark each = arena_here(d->scratch);
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        kinds[i](&with);
        arena_back_to(d->scratch, each);
    }
    arena_back_to(d->scratch, before);
    faults_doubt_fine(d->list);
}
