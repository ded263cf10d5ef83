/* What is said of a name that nothing has: what is like it, and whether it may be lost. */
#include <assert.h>

#include "read/reader_names.h"

enum { LISTED_MAX = 10 };

bool missing_before(reader *r, int where, str name)
{
    assert(where >= 0);
    if (r->missing == NULL) r->missing = ARENA_ARRAY(r->keep, missing_name *, MISSING_BUCKETS);
    uint32_t hash = (uint32_t)where;
    for (size_t i = 0; i < name.n; i++)
        hash = (hash ^ (unsigned char)name.p[i]) * UINT32_C(16777619);
    missing_name **bucket = &r->missing[hash % MISSING_BUCKETS];
    for (const missing_name *m = *bucket; m != NULL; m = m->next)
        if (m->where == where && str_eq(m->name, name)) return true;
    missing_name *m = ARENA_NEW(r->keep, missing_name);
    *m = (missing_name){where, name, *bucket};
    *bucket = m;
    return false;
}

void name_told_already(reader *r, section s, str wrong)
{
    str meant = name_meant(r->scratch, wrong);
    if (meant.n == 0) return;
    missing_before(r, (int)s, str_copy(r->keep, meant));
    if (s <= SECTION_CONCLUSIONS) missing_before(r, WHERE_CONDITION, str_copy(r->keep, meant));
    if (s == SECTION_QUESTIONS) missing_before(r, WHERE_INSERT, str_copy(r->keep, meant));
}

size_t nearest_name(reader *r, str wrong, const str *names, uint32_t count)
{
    assert(r->compared <= SUGGESTIONS_MAX);
    if (count > SUGGESTIONS_MAX - r->compared) return SIZE_MAX;
    r->compared += count;
    return str_nearest(r->scratch, wrong, names, count);
}

static bool is_one_of(str name, const str *names, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++)
        if (str_eq(name, names[i])) return true;
    return false;
}

/* "drum-level foam-look": names between which a comma is missing. */
static bool suggest_comma(reader *r, fault *f, str wrong, const str *names, uint32_t count)
{
    text_builder b = {.keep = r->scratch};
    uint32_t found = 0;
    if (str_find_byte(wrong, ' ') == SIZE_MAX && str_find_byte(wrong, ';') == SIZE_MAX)
        return false;
    for (size_t from = 0, to; from < wrong.n; from = to + 1) {
        for (to = from; to < wrong.n && wrong.p[to] != ' ' && wrong.p[to] != ';';) to++;
        const str one = str_slice(wrong, from, to);
        if (one.n == 0) continue;
        if (!is_one_of(one, names, count)) return false;
        text_addf(&b, "%s%.*s", found++ == 0 ? "" : ", ", STR_ARG(one));
    }
    if (found < 2) return false;
    fault_help(r->list, f, "Write a comma between them: '%.*s'.", STR_ARG(text_done(&b)));
    return true;
}

/* In quotes of a word processor, or only its beginning. */
static size_t other_nearest(reader *r, str wrong, const str *names, uint32_t count)
{
    text_builder b = {.keep = r->scratch};
    size_t begins = SIZE_MAX;
    for (size_t i = 0; i < wrong.n; i++)
        if ((wrong.p[i] & 0x80) == 0) text_add(&b, str_slice(wrong, i, i + 1));
    const str plain = text_done(&b);
    for (uint32_t i = 0; i < count && plain.n > 0; i++) {
        if (str_eq(plain, names[i])) return i;
        const bool more = names[i].n > wrong.n && names[i].p[wrong.n] == '-' &&
                          str_eq(str_slice(names[i], 0, wrong.n), wrong);
        if (more) begins = begins == SIZE_MAX ? i : count;
    }
    return begins < count ? begins : SIZE_MAX;
}

static void suggest_of(reader *r, fault *f, str wrong, const str *names, uint32_t count,
                       bool may_be_lost)
{
    assert(f != NULL);
    size_t nearest = nearest_name(r, wrong, names, count);
    if (nearest == SIZE_MAX && suggest_comma(r, f, wrong, names, count)) return;
    if (nearest == SIZE_MAX) nearest = other_nearest(r, wrong, names, count);
    if (nearest != SIZE_MAX && may_be_lost) {
        fault_help(r->list, f,
                   "First mend the file that can't be read: this may stand there. If not: did you "
                   "mean '%.*s'?",
                   STR_ARG(names[nearest]));
        return;
    }
    if (nearest != SIZE_MAX) {
        fault_help(r->list, f, "Did you mean '%.*s'?", STR_ARG(names[nearest]));
        fault_mend(r->list, f, wrong, names[nearest]);
        return;
    }
    if (count == 0 || count > LISTED_MAX) return;
    text_builder b = {.keep = r->scratch};
    for (uint32_t i = 0; i < count; i++)
        text_addf(&b, "%s%.*s", i == 0 ? "" : ", ", STR_ARG(names[i]));
    fault_help(r->list, f, "%s %.*s.",
               count == 1 ? "There is only" : "Use one of these:", STR_ARG(text_done(&b)));
}

void suggest(reader *r, fault *f, str wrong, const str *names, uint32_t count)
{
    suggest_of(r, f, wrong, names, count, r->names_lost);
}

void suggest_key(reader *r, fault *f, str wrong, const str *names, uint32_t count)
{
    suggest_of(r, f, wrong, names, count, false);
}

/* "drpo of fine" is compared as "drpo" with the names as authors wrote them. */
void suggest_name(reader *r, fault *f, str wrong, const str *bases, uint32_t count)
{
    str base = base_of_name(wrong);
    size_t nearest = base.n == wrong.n ? SIZE_MAX : nearest_name(r, base, bases, count);
    if (nearest == SIZE_MAX || r->names_lost)
        suggest(r, f, base, bases, count);
    else {
        fault_help(r->list, f, "Did you mean '%.*s%.*s'?", STR_ARG(bases[nearest]),
                   STR_ARG(str_slice(wrong, base.n, wrong.n)));
        fault_mend(r->list, f, base, bases[nearest]);
    }
}

bool may_be_lost(reader *r, str name, const str *bases, uint32_t count)
{
    return r->names_lost && name_elsewhere(r, name) == NULL &&
           nearest_name(r, base_of_name(name), bases, count) == SIZE_MAX;
}

const char *name_elsewhere(const reader *r, str name)
{
    for (uint32_t s = 0; s < SECTION_CASES; s++)
        if (base_find(r, (section)s, base_of_name(name)) != NULL) return section_entry((section)s);
    return NULL;
}
