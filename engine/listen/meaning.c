/* Words, their endings taken off, their concepts, and what is denied. */
#include "listen/meaning.h"

#include <assert.h>
#include <string.h>

#include "base/grow.h"
#include "base/unicode.h"

enum { FEATURES_OF_ONE = 6, SCOPE_WORDS = 5 };

typedef struct meaning_of {
    feature_id features[FEATURES_OF_ONE];
    uint32_t count, concepts; /* the first `concepts` of them are such */
} meaning_of;

/* ---- endings ---- */

static str without(str word, const char *ending, size_t least)
{
    const size_t n = str_of(ending).n;
    return str_ends(word, ending) && word.n >= n + least ? str_slice(word, 0, word.n - n) : word;
}

/* "dragging": drag */
static str without_double(str word)
{
    const bool twice = word.n >= 4 && word.p[word.n - 1] == word.p[word.n - 2] &&
                       strchr("bdgmnprt", word.p[word.n - 1]) != NULL;
    return twice ? str_slice(word, 0, word.n - 1) : word;
}

/* Plurals, -ing, -ed, -ly, the vowel that tells Spanish genders apart. Short words keep theirs. */
static str stem_of(str word)
{
    assert(word.n > 0);
    static const char *const endings[] = {"ing", "ed", "ly", "ndo"};
    str stem = without(word, "s", 3);
    for (size_t i = 0; i < sizeof endings / sizeof *endings; i++) {
        str shorter = without(stem, endings[i], 4);
        if (shorter.n < stem.n) return without_double(shorter);
    }
    static const char *const vowels[] = {"a", "o", "e"};
    for (size_t i = 0; i < sizeof vowels / sizeof *vowels; i++) {
        str shorter = without(stem, vowels[i], 4);
        if (shorter.n < stem.n) return shorter;
    }
    return stem;
}

/* ---- learning ---- */

static meaning_of *meaning_at(meaning *m, str plain_phrase)
{
    uint64_t *tag = phrasebook_slot(&m->words, plain_phrase);
    if (*tag == 0) {
        GROW(m->keep, m->of, m->of_count, m->of_room);
        m->of[m->of_count++] = ARENA_NEW(m->keep, meaning_of);
        *tag = m->of_count;
    }
    return m->of[*tag - 1];
}

static void add_feature(meaning_of *of, feature_id id, bool concept)
{
    for (uint32_t i = 0; i < of->count; i++)
        if (of->features[i] == id) return;
    if (of->count == FEATURES_OF_ONE) return;
    of->features[of->count++] = id;
    of->concepts += concept;
    assert(of->concepts <= of->count); /* concepts were learned before words */
}

static feature_id feature_of_stem(meaning *m, str word)
{
    return m->book->concept_count + word_set_add(&m->words.words, stem_of(word))->id;
}

static void learn_concept_word(meaning *m, arena *scratch, uint32_t concept, str phrase)
{
    str plain = unicode_plain(scratch, phrase);
    if (plain.n > 0) add_feature(meaning_at(m, plain), concept, true);
}

static void learn_concepts(meaning *m, arena *scratch)
{
    const book *b = m->book;
    for (uint32_t c = 0; c < b->concept_count; c++)
        for (uint32_t k = 0; k < b->concepts[c].count; k++)
            for (uint32_t w = 0; w < b->concepts[c].items[k].words.count; w++)
                learn_concept_word(m, scratch, c, b->concepts[c].items[k].words.items[w].name);
}

uint32_t meaning_features(const meaning *m)
{
    return m->book->concept_count + m->words.words.count;
}

static bool is_empty_word(const meaning *m, arena *scratch, str word)
{
    const uint64_t of = manner_of(m->manner, scratch, word);
    return (of & (MANNER_EMPTY | MANNER_JOINS | MANNER_DENIES)) != 0;
}

/* Concepts were learned before, so that theirs are the first features. */
void meaning_learn(meaning *m, arena *scratch, str text)
{
    assert(scratch != m->keep);
    const arena_mark mark = arena_here(scratch);
    str plain = unicode_plain(scratch, text), word;
    for (size_t at = 0; plain_next(plain, &at, &word);)
        if (!is_empty_word(m, scratch, word))
            add_feature(meaning_at(m, word), feature_of_stem(m, word), false);
    arena_back_to(scratch, mark);
}

meaning meaning_new(arena *keep, arena *scratch, const book *b, const phrasebook *manner,
                    const word_set *language)
{
    meaning m = {
        .keep = keep, .book = b, .manner = manner, .words = phrasebook_new(keep, language, NULL)};
    m.words.form = stem_of;
    learn_concepts(&m, scratch);
    return m;
}

/* ---- reading ---- */

typedef struct reading {
    const meaning *m;
    const said *s;
    phrase_items items;
    bool *denies, *joins, *silent, *fine; /* [word] */
    feature *out;
    uint32_t count;
} reading;

static void mark(const phrase_items *all, uint64_t manner, bool *marks)
{
    for (uint32_t i = 0; i < all->count; i++)
        for (uint32_t w = all->items[i].first;
             (all->items[i].tags & manner) != 0 && w < all->items[i].end; w++)
            marks[w] = true;
}

/* A concept's phrase that has a "no" in it ("no bubbles") denies nothing beyond itself. */
static void use_up_denials(reading *r)
{
    for (uint32_t i = 0; i < r->items.count; i++) {
        const phrase_item *it = &r->items.items[i];
        for (uint32_t w = it->first; it->tags != 0 && it->end > it->first + 1 && w < it->end; w++)
            r->denies[w] = false;
    }
}

static bool ends_scope(const reading *r, uint32_t word)
{
    const said_word *w = &r->s->words[word];
    return w->pause || w->stop;
}

/* Is there a "no" before it, with nothing between that means something? */
static bool is_denied(const reading *r, uint32_t item)
{
    const phrase_item *it = &r->items.items[item];
    if (r->denies[it->first]) return false;
    for (uint32_t i = item; i-- > 0 && it->first - r->items.items[i].first <= SCOPE_WORDS;) {
        const phrase_item *before = &r->items.items[i];
        if (ends_scope(r, r->items.items[i + 1].first)) return false;
        if (r->denies[before->first]) return true;
        if (before->tags != 0 || r->joins[before->first]) return false;
    }
    return false;
}

static void add(reading *r, const phrase_item *it, feature_id id, bool denied, float weight)
{
    r->out[r->count++] = (feature){id, denied, weight, it->first, it->end};
}

static void read_item(reading *r, uint32_t item)
{
    const phrase_item *it = &r->items.items[item];
    if (r->denies[it->first]) add(r, it, FEATURE_DENIAL, false, 0.5F);
    if (it->tags == 0) return;
    assert(it->tags <= r->m->of_count);
    const meaning_of *of = r->m->of[it->tags - 1];
    const bool denied = is_denied(r, item);
    for (uint32_t i = 0; i < of->count; i++)
        add(r, it, of->features[i], denied, i >= of->concepts && of->concepts > 0 ? 0.4F : 1.0F);
}

/* "bien seca": very dry; "todo bien" is fine. */
static bool is_only_very(const reading *r, uint32_t item)
{
    const phrase_item *it = &r->items.items[item];
    return item + 1 < r->items.count && !ends_scope(r, it->end) &&
           str_is(r->s->words[it->first].plain, "bien");
}

static void look_around(const reading *r, features *all)
{
    bool denial = false;
    for (uint32_t i = 0; i < r->items.count; i++) {
        const phrase_item *it = &r->items.items[i];
        const bool known = it->tags != 0;
        all->strangers += !known && !r->silent[it->first] && !r->s->words[it->first].number;
        all->fine = all->fine || (!known && r->fine[it->first] && !is_only_very(r, i));
        denial = denial || r->denies[it->first];
    }
    all->fine = all->fine && !denial;
}

features meaning_read(const meaning *m, arena *keep, const said *s, uint32_t first, uint32_t end)
{
    assert(first <= end && end <= s->count);
    const said part = said_within(s, first, end);
    reading r = {.m = m, .s = &part, .items = phrasebook_read(&m->words, keep, keep, &part)};
    phrase_items manners = phrasebook_read(m->manner, keep, keep, &part);
    r.denies = ARENA_ARRAY(keep, bool, part.count);
    r.joins = ARENA_ARRAY(keep, bool, part.count);
    r.silent = ARENA_ARRAY(keep, bool, part.count);
    r.fine = ARENA_ARRAY(keep, bool, part.count);
    r.out = ARENA_ARRAY(keep, feature, (size_t)(FEATURES_OF_ONE + 1) * part.count);
    mark(&manners, MANNER_DENIES, r.denies);
    mark(&manners, MANNER_JOINS, r.joins);
    mark(&manners,
         ~(uint64_t)(MANNER_BROKEN | MANNER_WORKS | MANNER_CANNOT | MANNER_DONE | MANNER_HEDGES),
         r.silent);
    mark(&manners, MANNER_FINE, r.fine);
    use_up_denials(&r);
    for (uint32_t i = 0; i < r.items.count; i++) read_item(&r, i);
    for (uint32_t i = 0; i < r.count; i++) {
        r.out[i].first += first;
        r.out[i].end += first;
    }
    assert(r.count <= (FEATURES_OF_ONE + 1) * part.count);
    features all = {.items = r.out, .count = r.count};
    look_around(&r, &all);
    return all;
}

bool meaning_knows(const meaning *m, arena *scratch, const said *s, uint32_t word)
{
    features f = meaning_read(m, scratch, s, word, word + 1);
    return f.count > 0;
}
