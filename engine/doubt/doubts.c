/* All doubts, kind by kind. */
#include "doubt/doubt.h"

#include <assert.h>

static void (*const kinds[])(const doubter *d) = {
    doubt_conditions, doubt_paths,  doubt_signs,   doubt_order, doubt_drowned,
    doubt_readings,   doubt_words,  doubt_texts,   doubt_work,  doubt_unused,
    doubt_danger,     doubt_course, doubt_numbers,
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

bool same_written(const label *a, const label *b)
{
    return a->at.file == b->at.file && a->at.start == b->at.start && a->at.end == b->at.end;
}

void each_condition(const doubter *d, condition_seen *see)
{
    const book *b = d->book;
    for (uint32_t i = 0; i < b->symptom_count; i++)
        if (!b->symptoms[i].from_confirms)
            see(d, b->symptoms[i].when, "symptom", &b->symptoms[i].id);
    for (uint32_t i = 0; i < b->question_count; i++)
        if (b->questions[i].only_when != NULL)
            see(d, b->questions[i].only_when, "question", &b->questions[i].id);
    for (uint32_t i = 0; i < b->cause_count; i++)
        if (b->causes[i].only_when != NULL)
            see(d, b->causes[i].only_when, "cause", &b->causes[i].id);
    for (uint32_t i = 0; i < b->fix_count; i++)
        if (b->fixes[i].only_when != NULL) see(d, b->fixes[i].only_when, "fix", &b->fixes[i].id);
    for (uint32_t i = 0; i < b->rule_count; i++)
        if (b->rules[i].when != NULL) see(d, b->rules[i].when, "rule", &b->rules[i].id);
}
