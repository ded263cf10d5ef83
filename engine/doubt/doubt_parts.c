/* What several kinds of doubts ask of a book. */
#include <assert.h>

#include "doubt/doubt.h"

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
    for (uint32_t i = 0; i < b->rule_count; i++) see(d, b->rules[i].when, "rule", &b->rules[i].id);
}

const rate *rate_of(const symptom *s, uint32_t cause)
{
    uint32_t i = 0;
    for (; s->shown_by[i].cause != cause; i++) assert(i + 1 < s->shown_by_count);
    return &s->shown_by[i];
}

bool rule_sets(const rule *r, const cond *conclusion)
{
    assert(conclusion->kind == COND_CONCLUSION);
    for (uint32_t i = 0; i < r->set_count; i++)
        if (r->sets[i].conclusion == conclusion->subject &&
            (conclusion->answers >> r->sets[i].answer & 1) != 0)
            return true;
    return false;
}

bool is_first_piece(const book *b, uint32_t symptom)
{
    assert(symptom < b->symptom_count);
    return symptom == 0 || !same_written(&b->symptoms[symptom].id, &b->symptoms[symptom - 1].id);
}
