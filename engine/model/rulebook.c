/* Looking things up in a rulebook that has been read. */
#include <assert.h>

#include "model/rulebook.h"

static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool same_tag(str a, str b)
{
    if (a.n != b.n) return false;
    for (size_t i = 0; i < a.n; i++)
        if (lower(a.p[i]) != lower(b.p[i])) return false;
    return true;
}

/* RFC 4647, 3.4: cut the last part off, and a single letter left hanging before it too. */
static str shorter(str tag)
{
    while (tag.n > 0 && tag.p[tag.n - 1] != '-') tag.n--;
    if (tag.n > 0) tag.n--;
    if (tag.n >= 2 && tag.p[tag.n - 2] == '-') tag.n -= 2;
    return tag;
}

str texts_for(const texts *t, str language)
{
    for (str tag = language; tag.n > 0; tag = shorter(tag))
        for (uint32_t i = 0; i < t->count; i++)
            if (same_tag(t->items[i].language, tag)) return t->items[i].text;
    return t->count == 0 ? STR("") : t->items[0].text;
}

/* Every section's entries begin with their label and stand in name order. */
static uint32_t find(const void *items, uint32_t count, size_t size, str name)
{
    assert(count == 0 || items != NULL);
    uint32_t low = 0, high = count;
    while (low < high) {
        uint32_t middle = low + (high - low) / 2;
        const label *id = (const label *)(const void *)((const char *)items + middle * size);
        int order = str_cmp(id->name, name);
        if (order == 0) return middle;
        if (order < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return NO_ID;
}

uint32_t rulebook_question(const rulebook *r, str name)
{
    return find(r->questions, r->named_questions, sizeof *r->questions, name);
}

uint32_t rulebook_symptom(const rulebook *r, str name)
{
    return find(r->symptoms, r->symptom_count, sizeof *r->symptoms, name);
}

uint32_t rulebook_cause(const rulebook *r, str name)
{
    return find(r->causes, r->cause_count, sizeof *r->causes, name);
}

uint32_t rulebook_fix(const rulebook *r, str name)
{
    return find(r->fixes, r->fix_count, sizeof *r->fixes, name);
}

uint32_t rulebook_role(const rulebook *r, str name)
{
    for (uint32_t i = 0; i < r->role_count; i++)
        if (str_eq(r->roles[i].name, name)) return i;
    return NO_ID;
}

uint32_t rulebook_kind(const rulebook *r, str name)
{
    return find(r->kinds, r->kind_count, sizeof *r->kinds, name);
}

uint32_t rulebook_piece(const rulebook *r, str name)
{
    for (uint32_t i = 0; i < r->piece_count; i++)
        if (str_eq(r->pieces[i].id.name, name)) return i;
    return NO_ID;
}
