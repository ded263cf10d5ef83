/* Words in buckets, and in a list in the order of adding. */
#include "listen/word_set.h"

#include <assert.h>

enum {
    BUCKETS = 256, /* at first */
    ALIKE = 512,
    COMPARING_COSTS = 10, /* of patience, which is counted in items of patterns (base/pattern.h) */
    LOOKING_COSTS = 1,
};

word_set word_set_new(arena *keep)
{
    return (word_set){.keep = keep,
                      .buckets = ARENA_ARRAY(keep, word_entry *, BUCKETS),
                      .alike = ARENA_ARRAY(keep, word_entry *, ALIKE),
                      .bucket_count = BUCKETS};
}

/* FNV-1a */
static uint32_t hash_of(str word)
{
    uint32_t hash = 2166136261U;
    for (size_t i = 0; i < word.n; i++) hash = (hash ^ (unsigned char)word.p[i]) * 16777619U;
    return hash;
}

static word_entry **bucket_of(const word_set *s, uint32_t hash)
{
    return &s->buckets[hash & (s->bucket_count - 1)];
}

static word_entry *in_bucket(word_entry *e, str word, uint32_t hash)
{
    while (e != NULL && (e->hash != hash || !str_eq(e->text, word))) e = e->beside;
    return e;
}

word_entry *word_set_find(const word_set *s, str word)
{
    assert(s->buckets != NULL);
    const uint32_t hash = hash_of(word);
    return in_bucket(*bucket_of(s, hash), word, hash);
}

static void widen(word_set *s)
{
    s->bucket_count *= 2;
    s->buckets = ARENA_ARRAY(s->keep, word_entry *, s->bucket_count);
    for (word_entry *e = s->first; e != NULL; e = e->next) {
        word_entry **bucket = bucket_of(s, e->hash);
        e->beside = *bucket;
        *bucket = e;
    }
}

static word_entry **alike_of(const word_set *s, unsigned char first, size_t length)
{
    return &s->alike[(first * 31U + length) % ALIKE];
}

word_entry *word_set_add(word_set *s, str word)
{
    assert(word.n > 0);
    const uint32_t hash = hash_of(word);
    word_entry *e = in_bucket(*bucket_of(s, hash), word, hash);
    if (e != NULL) return e;
    if (s->count >= s->bucket_count / 2) widen(s);
    word_entry **bucket = bucket_of(s, hash),
               **alike = alike_of(s, (unsigned char)word.p[0], word.n);
    e = ARENA_NEW(s->keep, word_entry);
    *e = (word_entry){.text = str_copy(s->keep, word),
                      .id = s->count++,
                      .hash = hash,
                      .beside = *bucket,
                      .alike = *alike};
    *bucket = *alike = e;
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

static bool spend(uint32_t *patience, uint32_t costs)
{
    const bool left = *patience > costs;
    *patience = left ? *patience - costs : 0;
    return left;
}

/* Whom a slip of the pen may have meant: the nearest, of several one that is preferred, of several
 * of these the one that was added first. */
typedef struct nearest {
    const word_entry *best;
    size_t least;
} nearest;

static bool is_meant_rather(const word_entry *e, const word_entry *than)
{
    return e->preferred != than->preferred ? e->preferred : e->id < than->id;
}

static void come_nearer(nearest *n, const word_entry *e, size_t distance)
{
    if (distance == SIZE_MAX || distance > n->least) return;
    if (distance < n->least || is_meant_rather(e, n->best)) *n = (nearest){e, distance};
}

static void look_among(const word_set *s, arena *scratch, str word, unsigned char first,
                       size_t length, uint32_t *patience, nearest *n)
{
    for (const word_entry *e = *alike_of(s, first, length); e != NULL; e = e->alike) {
        if (!spend(patience, LOOKING_COSTS)) return;
        if (e->text.n != length || (unsigned char)e->text.p[0] != first) continue;
        if (!spend(patience, COMPARING_COSTS)) return;
        come_nearer(n, e, slip_distance(scratch, e->text, word));
    }
}

const word_entry *word_set_near(const word_set *s, arena *scratch, str word, uint32_t *patience)
{
    enum { LONGEST = 32 };
    nearest n = {NULL, SIZE_MAX};
    if (word.n > LONGEST || slip_allowed(word.n) == 0) return NULL;
    const size_t most = slip_allowed(word.n), least = word.n - most;
    const unsigned char first = (unsigned char)word.p[0], second = (unsigned char)word.p[1];
    for (size_t length = least; length <= word.n + most; length++) {
        look_among(s, scratch, word, first, length, patience, &n);
        if (second != first) look_among(s, scratch, word, second, length, patience, &n);
    }
    assert((n.best == NULL) == (n.least == SIZE_MAX));
    return *patience == 0 ? NULL : n.best; /* a nearer one may not have been looked at */
}

static size_t common_front(str a, str b)
{
    size_t n = 0;
    while (n < a.n && n < b.n && a.p[n] == b.p[n]) n++;
    return n;
}

const word_entry *word_set_begun(const word_set *s, str word, size_t front, size_t ending,
                                 uint32_t *patience)
{
    assert(front > 0);
    const word_entry *best = NULL;
    size_t most = front - 1;
    if (word.n < front) return NULL;
    const size_t least = word.n - front > ending ? word.n - ending : front;
    for (size_t length = least; length <= word.n + ending; length++)
        for (const word_entry *e = *alike_of(s, (unsigned char)word.p[0], length); e != NULL;
             e = e->alike) {
            if (!spend(patience, LOOKING_COSTS)) return NULL;
            const size_t common = common_front(e->text, word),
                         longer = e->text.n > word.n ? e->text.n : word.n;
            if (common < front || common < most || longer - common > ending) continue;
            if (common == most && best != NULL && best->id < e->id) continue;
            most = common;
            best = e;
        }
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
