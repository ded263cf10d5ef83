#include "model/hazard_words.h"

#include <assert.h>
#include <string.h>

typedef struct word_of {
    const char *word;
    hazard of, or_of; /* whichever is named is enough */
} word_of;

#define ONE(hazard) hazard, hazard
static const word_of table[] = {
    {"live", ONE(HAZARD_ELECTRICITY)},
    {"voltage", ONE(HAZARD_ELECTRICITY)},
    {"terminal box", ONE(HAZARD_ELECTRICITY)},
    {"junction box", ONE(HAZARD_ELECTRICITY)},
    {"bare wire", ONE(HAZARD_ELECTRICITY)},
    {"wiring", ONE(HAZARD_ELECTRICITY)},
    {"fuse box", ONE(HAZARD_ELECTRICITY)},
    {"capacitor", HAZARD_ELECTRICITY, HAZARD_STORED_ENERGY},
    {"acid", ONE(HAZARD_CHEMICALS)},
    {"caustic", ONE(HAZARD_CHEMICALS)},
    {"chlorine", HAZARD_CHEMICALS, HAZARD_FUMES},
    {"bleach", HAZARD_CHEMICALS, HAZARD_FUMES},
    {"solvent", HAZARD_CHEMICALS, HAZARD_FUMES},
    {"fumes", HAZARD_FUMES, HAZARD_CHEMICALS},
    {"ladder", ONE(HAZARD_HEIGHT)},
    {"scaffold", ONE(HAZARD_HEIGHT)},
    {"climb", ONE(HAZARD_HEIGHT)},
    {"hoist", HAZARD_GRAVITY, HAZARD_LIFTING},
    {"jack up", HAZARD_GRAVITY, HAZARD_LIFTING},
    {"under the car", HAZARD_VEHICLES, HAZARD_GRAVITY},
    {"chain drive", ONE(HAZARD_MOVING_PARTS)},
    {"drive belt", ONE(HAZARD_MOVING_PARTS)},
    {"fan blade", HAZARD_MOVING_PARTS, HAZARD_SHARP},
    {"grinder", HAZARD_SHARP, HAZARD_MOVING_PARTS},
    {"saw", HAZARD_SHARP, HAZARD_MOVING_PARTS},
    {"weld", HAZARD_FIRE, HAZARD_HOT_SURFACE},
    {"steam", HAZARD_HOT_WATER, HAZARD_HOT_SURFACE},
    {"boiling", HAZARD_HOT_WATER, HAZARD_HOT_SURFACE},
    {"spring", ONE(HAZARD_STORED_ENERGY)},
    {"under pressure", HAZARD_PRESSURE, HAZARD_STORED_ENERGY},
    {"pressure in a drum", HAZARD_PRESSURE, HAZARD_CHEMICALS},
    {"compressed air", ONE(HAZARD_PRESSURE)},
    {"crawl", HAZARD_CONFINED_SPACE, HAZARD_MOVING_PARTS},
    {"inside the tank", ONE(HAZARD_CONFINED_SPACE)},
    {"into the tank", HAZARD_CONFINED_SPACE, HAZARD_CHEMICALS},
    {"into the pit", HAZARD_CONFINED_SPACE, HAZARD_HEIGHT},
    {"corriente", ONE(HAZARD_ELECTRICITY)},
    {"voltaje", ONE(HAZARD_ELECTRICITY)},
    {"cable pelado", ONE(HAZARD_ELECTRICITY)},
    {"cables", ONE(HAZARD_ELECTRICITY)},
    {"ácido", ONE(HAZARD_CHEMICALS)},
    {"sosa", ONE(HAZARD_CHEMICALS)},
    {"cloro", HAZARD_CHEMICALS, HAZARD_FUMES},
    {"solvente", HAZARD_CHEMICALS, HAZARD_FUMES},
    {"vapores", HAZARD_FUMES, HAZARD_CHEMICALS},
    {"escalera", ONE(HAZARD_HEIGHT)},
    {"andamio", ONE(HAZARD_HEIGHT)},
    {"debajo del coche", HAZARD_VEHICLES, HAZARD_GRAVITY},
    {"debajo del carro", HAZARD_VEHICLES, HAZARD_GRAVITY},
    {"soldar", HAZARD_FIRE, HAZARD_HOT_SURFACE},
    {"sierra", HAZARD_SHARP, HAZARD_MOVING_PARTS},
    {"hirviendo", HAZARD_HOT_WATER, HAZARD_HOT_SURFACE},
    {"resorte", ONE(HAZARD_STORED_ENERGY)},
    {"bajo presión", HAZARD_PRESSURE, HAZARD_STORED_ENERGY},
    {"aire comprimido", ONE(HAZARD_PRESSURE)},
    {"dentro del tanque", ONE(HAZARD_CONFINED_SPACE)},
};
enum { WORDS = sizeof table / sizeof table[0] };
_Static_assert(WORDS <= 64, "a bit for each word");

static char small(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

/* Bytes of letters beyond a to z count as letters. */
static inline bool is_letter(str text, size_t i)
{
    if (i >= text.n) return false;
    const unsigned char c = (unsigned char)text.p[i];
    return (unsigned char)((c | 0x20) - 'a') <= 'z' - 'a' || c >= 0x80;
}

/* Where the small letter or its great one stands, from `at` on; text.n: nowhere. */
static size_t letter_at(str text, size_t at, char letter)
{
    const char great = letter >= 'a' && letter <= 'z' ? (char)(letter - 'a' + 'A') : letter;
    const char *from = text.p + at, *first = memchr(from, letter, text.n - at);
    const char *before = memchr(from, great, first != NULL ? (size_t)(first - from) : text.n - at);
    if (before != NULL) first = before;
    return first != NULL ? (size_t)(first - text.p) : text.n;
}

size_t word_at(str text, const char *word)
{
    const str wanted = str_of(word);
    assert(wanted.n > 0);
    for (size_t i = 0; i + wanted.n <= text.n; i++) {
        size_t k = 0;
        i = letter_at(text, i, wanted.p[0]);
        if (i + wanted.n > text.n) break;
        while (k < wanted.n && small(text.p[i + k]) == wanted.p[k]) k++;
        if (k == wanted.n && !(i > 0 && is_letter(text, i - 1)) && !is_letter(text, i + k))
            return i;
    }
    return SIZE_MAX;
}

bool is_forbidden(str text, size_t at)
{
    static const char *const words[] = {"not",   "never", "nobody", "no",  "without",
                                        "leave", "nunca", "nadie",  "sin", NULL};
    size_t from = at;
    assert(at <= text.n);
    while (from > 0 && text.p[from - 1] != '.' && text.p[from - 1] != '!') from--;
    const str before = str_slice(text, from, at);
    for (size_t i = 0; words[i] != NULL; i++)
        if (word_at(before, words[i]) != SIZE_MAX) return true;
    size_t to = at;
    while (to < text.n && text.p[to] != '.') to++;
    const str after = str_slice(text, at, to);
    return str_find(before, STR("n't")) != SIZE_MAX || word_at(after, "is for") != SIZE_MAX ||
           word_at(after, "are for") != SIZE_MAX;
}

/* "{feed-pump}" is called the acid pump there, and that is no more than its name. */
static bool is_called_so(const book *b, const char *word)
{
    for (uint32_t i = 0; i < b->piece_count; i++)
        for (uint32_t k = 0; k < b->pieces[i].text.count; k++)
            if (word_at(b->pieces[i].text.items[k].text, word) != SIZE_MAX) return true;
    return false;
}

static uint32_t letter_as(char letter)
{
    return letter & 31; /* small and great alike */
}

hazard_ear hazard_ear_ready(void)
{
    hazard_ear e = {.first = {0}};
    for (size_t w = 0; w < WORDS; w++) {
        e.first[letter_as(table[w].word[0])] |= UINT64_C(1) << w;
        e.second[letter_as(table[w].word[1])] |= UINT64_C(1) << w;
    }
    return e;
}

/* Those words that begin as a word of the text does; the others are not in it. */
static uint64_t words_begun(const hazard_ear *e, str text)
{
    uint64_t begun = 0;
    bool inside = false;
    for (size_t i = 0; i + 1 < text.n; inside = is_letter(text, i++))
        if (!inside) begun |= e->first[letter_as(text.p[i])] & e->second[letter_as(text.p[i + 1])];
    return begun;
}

const char *hazard_word(const hazard_ear *e, const book *b, const texts *t, const bool *named)
{
    for (uint32_t i = 0; i < t->count; i++) {
        const str text = t->items[i].text;
        for (uint64_t left = words_begun(e, text); left != 0; left &= left - 1) {
            const word_of *w = &table[__builtin_ctzll(left)];
            if (named[w->of] || named[w->or_of]) continue;
            const size_t at = word_at(text, w->word);
            if (at != SIZE_MAX && !is_forbidden(text, at) && !is_called_so(b, w->word))
                return w->word;
        }
    }
    return NULL;
}

hazard hazard_of_word(const char *word)
{
    size_t w = 0;
    while (w < WORDS && strcmp(table[w].word, word) != 0) w++;
    assert(w < WORDS);
    return table[w].of;
}
