/* Words in buckets, and in a list in the order of adding. */
#include "listen/word_set.h"

#include <assert.h>

enum { BUCKETS = 1024 };

word_set word_set_new(arena *keep)
{
    return (word_set){.keep = keep, .buckets = ARENA_ARRAY(keep, word_entry *, BUCKETS)};
}

/* FNV-1a */
static uint32_t bucket_of(str word)
{
    uint32_t hash = 2166136261U;
    for (size_t i = 0; i < word.n; i++) hash = (hash ^ (unsigned char)word.p[i]) * 16777619U;
    return hash % BUCKETS;
}

static word_entry *in_bucket(word_entry *e, str word)
{
    while (e != NULL && !str_eq(e->text, word)) e = e->beside;
    return e;
}

word_entry *word_set_find(const word_set *s, str word)
{
    assert(s->buckets != NULL);
    return in_bucket(s->buckets[bucket_of(word)], word);
}

word_entry *word_set_add(word_set *s, str word)
{
    assert(word.n > 0);
    word_entry **bucket = &s->buckets[bucket_of(word)];
    word_entry *e = in_bucket(*bucket, word);
    if (e != NULL) return e;
    e = ARENA_NEW(s->keep, word_entry);
    *e = (word_entry){.text = str_copy(s->keep, word), .id = s->count++, .beside = *bucket};
    *bucket = e;
    if (s->last != NULL) s->last->next = e;
    if (s->first == NULL) s->first = e;
    s->last = e;
    return e;
}

bool plain_next(str plain_text, size_t *at, str *word)
{
    while (*at < plain_text.n && plain_text.p[*at] == ' ') ++*at;
    const size_t from = *at;
    while (*at < plain_text.n && plain_text.p[*at] != ' ') ++*at;
    *word = str_slice(plain_text, from, *at);
    return word->n > 0;
}

void word_set_add_all(word_set *s, str plain_text)
{
    str word;
    for (size_t at = 0; plain_next(plain_text, &at, &word);) word_set_add(s, word);
}

size_t slip_allowed(size_t letters)
{
    if (letters < 4) return 0;
    return letters < 8 ? 1 : 2;
}

static bool begins_alike(str a, str b)
{
    assert(a.n >= 2 && b.n >= 2);
    return a.p[0] == b.p[0] || (a.p[0] == b.p[1] && a.p[1] == b.p[0]);
}

/* How far a word is from one of the set, or SIZE_MAX if that is too far for a slip. */
static size_t slip_distance(arena *scratch, str known, str word)
{
    const size_t shorter = known.n < word.n ? known.n : word.n, longer = known.n + word.n - shorter;
    const size_t allowed = slip_allowed(shorter);
    if (allowed == 0 || longer - shorter > allowed || !begins_alike(known, word)) return SIZE_MAX;
    const size_t distance = str_distance(scratch, known, word);
    return distance <= allowed ? distance : SIZE_MAX;
}

const word_entry *word_set_near(const word_set *s, arena *scratch, str word)
{
    enum { LONGEST = 32 };
    const word_entry *best = NULL;
    size_t least = SIZE_MAX;
    if (word.n > LONGEST) return NULL;
    for (const word_entry *e = s->first; e != NULL; e = e->next) {
        const size_t distance = slip_distance(scratch, e->text, word);
        if (distance == SIZE_MAX || distance > least) continue;
        if (distance == least && (best->preferred || !e->preferred)) continue;
        best = e;
        least = distance;
    }
    assert((best == NULL) == (least == SIZE_MAX));
    return best;
}

static const word_entry *with_ending(const word_set *s, arena *scratch, str word,
                                     const char *ending)
{
    return word_set_find(s, str_printf(scratch, "%.*s%s", STR_ARG(word), ending));
}

static const word_entry *without_ending(const word_set *s, str word, const char *ending)
{
    if (!str_ends(word, ending)) return NULL;
    return word_set_find(s, str_slice(word, 0, word.n - str_of(ending).n));
}

const word_entry *word_set_form(const word_set *s, arena *scratch, str word)
{
    const word_entry *found = word_set_find(s, word);
    if (found != NULL || word.n < 4) return found;
    arena_mark mark = arena_here(scratch);
    if (found == NULL) found = without_ending(s, word, "s");
    if (found == NULL) found = without_ending(s, word, "es");
    if (found == NULL) found = with_ending(s, scratch, word, "s");
    arena_back_to(scratch, mark);
    return found;
}
