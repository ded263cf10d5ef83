/* "forty five", "32 and a half", "45 libras": numbers and units as they would be typed. */
#include "listen/said_number.h"

#include <assert.h>

#include "base/unicode.h"
#include "listen/number_words.h"

/* What a word stands for: its kind, and above that its number. */
enum {
    KIND_NUMBER = 1,
    KIND_TENS,
    KIND_HALF,
    KIND_MENU,
    KIND_VAGUE,
    KIND_ORDINAL,
    KIND_MASK = 7,
    VALUE_SHIFT = 3
};

/* The first meaning of a word stays: "second" is the number. */
static void add_words(phrasebook *p, arena *scratch, const char *words, uint64_t tag)
{
    str rest = str_of(words);
    for (size_t at = 0; at < rest.n;) {
        size_t length = str_find_byte(str_slice(rest, at, rest.n), '|');
        if (length == SIZE_MAX) length = rest.n - at;
        uint64_t *slot =
            phrasebook_slot(p, unicode_plain(scratch, str_slice(rest, at, at + length)));
        if (*slot == 0) *slot = tag;
        at += length + 1;
    }
}

phrasebook number_words_new(arena *keep, arena *scratch, const word_set *language)
{
    phrasebook p = phrasebook_new(keep, language, NULL);
#define NUMBER(value, words) \
    add_words(&p, scratch, words, KIND_NUMBER | (uint64_t)(value) << VALUE_SHIFT);
    NUMBER_WORDS(NUMBER)
#undef NUMBER
#define NUMBER(value, words) \
    add_words(&p, scratch, words, KIND_TENS | (uint64_t)(value) << VALUE_SHIFT);
    TENS_WORDS(NUMBER)
#undef NUMBER
#define NUMBER(value, words) \
    add_words(&p, scratch, words, KIND_ORDINAL | (uint64_t)(value) << VALUE_SHIFT);
    ORDINAL_WORDS(NUMBER)
#undef NUMBER
    add_words(&p, scratch, HALF_WORDS, KIND_HALF);
    add_words(&p, scratch, MENU_WORDS, KIND_MENU);
    add_words(&p, scratch, VAGUE_WORDS, KIND_VAGUE);
    return p;
}

static uint64_t kind(const phrase_item *i)
{
    return i->tags & KIND_MASK;
}

static double value(const phrase_item *i)
{
    return (double)(i->tags >> VALUE_SHIFT);
}

/* ---- finding ---- */

typedef struct search {
    const said *s;
    phrase_items items; /* of the words looked at */
    uint32_t offset;    /* of their first in the utterance */
    arena *keep;
    said_number *out;
    uint32_t count;
} search;

static const said_word *word_of(const search *f, uint32_t item)
{
    assert(item < f->items.count);
    return &f->s->words[f->offset + f->items.items[item].first];
}

static bool touches(const search *f, uint32_t item)
{
    assert(item > 0);
    const said_word *w = word_of(f, item);
    return w->number && w->from <= word_of(f, item - 1)->to + 1;
}

static bool is_one_of(str word, const char *const *all)
{
    for (; *all != NULL; all++)
        if (str_is(word, *all)) return true;
    return false;
}

typedef enum sign { SIGN_NONE, SIGN_MINUS, SIGN_UNCLEAR } sign;

/* "minus five", "marca menos cinco". In Spanish it is the word for "less", too: "mucho menos 40" is
 * unclear, and "más o menos cuarenta" is forty. */
static sign sign_in_words(const search *f, uint32_t first)
{
    static const char *const words[] = {"minus", "negative", "negativo", NULL};
    static const char *const ors[] = {"or", "o", NULL};
    static const char *const reads[] = {"marca", "dice", "lee", "indica", "es",
                                        "esta",  "son",  "a",   "hay",    NULL};
    const str before = first > 0 ? f->s->words[first - 1].plain : STR("");
    if (is_one_of(before, words)) return SIGN_MINUS;
    if (!str_is(before, "menos")) return SIGN_NONE;
    if (first == 1 || is_one_of(f->s->words[first - 2].plain, reads)) return SIGN_MINUS;
    return is_one_of(f->s->words[first - 2].plain, ors) ? SIGN_NONE : SIGN_UNCLEAR;
}

/* "it reads -5", "(-5)", "- 5"; not "10-20", and not the 5 of "P-5". With a blank on both sides it
 * may be a dash between words. */
static sign sign_in_front(str before)
{
    static const char *const signs[] = {"-", "\xE2\x88\x92", NULL};
    const str near = str_trim(before);
    const bool apart = before.n > 0 && before.p[before.n - 1] == ' ';
    for (size_t i = 0; signs[i] != NULL; i++) {
        const size_t n = str_of(signs[i]).n;
        if (!str_ends(near, signs[i])) continue;
        const char *at = near.p + near.n - n; /* of the sign */
        if (at == near.p || at[-1] == '(' || at[-1] == ':' || at[-1] == '=') return SIGN_MINUS;
        if (at[-1] == ' ') return apart ? SIGN_UNCLEAR : SIGN_MINUS;
    }
    return SIGN_NONE;
}

static sign sign_of(const search *f, uint32_t item)
{
    const said_word *w = word_of(f, item);
    const sign in_words = sign_in_words(f, (uint32_t)(w - f->s->words));
    return in_words != SIGN_NONE ? in_words : sign_in_front(str_slice(f->s->text, 0, w->from));
}

static void add_number(search *f, uint32_t item, said_number n)
{
    const sign its = sign_of(f, item);
    if (its == SIGN_MINUS) n.figures = str_printf(f->keep, "-%.*s", STR_ARG(n.figures));
    n.vague = its == SIGN_UNCLEAR;
    f->out[f->count++] = n;
}

/* "1:50" and "32,5" are two words and one number. */
static uint32_t add_figures(search *f, uint32_t item)
{
    uint32_t end = item + 1;
    double half = 0;
    while (end < f->items.count && touches(f, end)) end++;
    said_number n = {.first = f->offset + f->items.items[item].first,
                     .end = f->offset + f->items.items[end - 1].end};
    n.figures = said_part(f->s, n.first, n.end);
    if (end < f->items.count && kind(&f->items.items[end]) == KIND_HALF &&
        str_to_double(n.figures, &half)) {
        n.figures = str_printf(f->keep, "%g", half + 0.5);
        n.end = f->offset + f->items.items[end++].end;
    }
    add_number(f, item, n);
    return end;
}

static bool is_and(const search *f, uint32_t item)
{
    return str_is(word_of(f, item)->plain, "y") || str_is(word_of(f, item)->plain, "and");
}

static bool is_unit_after_tens(const search *f, uint32_t item, double tens)
{
    return item < f->items.count && kind(&f->items.items[item]) == KIND_NUMBER &&
           value(&f->items.items[item]) < (tens < 100 ? 10 : 100) &&
           value(&f->items.items[item]) > 0;
}

/* "twenty" of "one hundred and twenty". */
static bool is_tens_after_hundreds(const search *f, uint32_t item, double hundreds)
{
    return item < f->items.count && kind(&f->items.items[item]) == KIND_TENS &&
           value(&f->items.items[item]) < 100 && hundreds >= 100;
}

/* "forty five", "cuarenta y cinco", "one hundred and twenty", "thirty two and a half". */
static uint32_t add_words_of_number(search *f, uint32_t item)
{
    const uint32_t first = item;
    double number = 0, last = 0;
    for (; item < f->items.count; item++) {
        const phrase_item *i = &f->items.items[item];
        if (item > first && is_and(f, item) &&
            (is_unit_after_tens(f, item + 1, last) || is_tens_after_hundreds(f, item + 1, last)))
            continue;
        const bool tens =
            item == first ? kind(i) == KIND_TENS : is_tens_after_hundreds(f, item, last);
        const bool unit =
            item == first ? kind(i) == KIND_NUMBER : is_unit_after_tens(f, item, last);
        if (!tens && !unit) break;
        number += value(i);
        last = value(i);
        if (kind(i) == KIND_NUMBER) {
            item++;
            break;
        }
    }
    if (item < f->items.count && kind(&f->items.items[item]) == KIND_HALF) {
        number += 0.5;
        item++;
    }
    assert(item > first);
    add_number(f, first,
               (said_number){.first = f->offset + f->items.items[first].first,
                             .end = f->offset + f->items.items[item - 1].end,
                             .figures = str_printf(f->keep, "%g", number)});
    return item;
}

/* "one" and "uno" are no reading: "the pump one reads 45". */
static bool begins_number(const search *f, uint32_t item)
{
    const phrase_item *i = &f->items.items[item];
    if (word_of(f, item)->number) return true;
    return kind(i) == KIND_TENS || (kind(i) == KIND_NUMBER && value(i) != 1 && value(i) != 2);
}

/* "one in fifty", "uno a cincuenta" */
static bool is_second_of_ratio(const search *f, uint32_t first)
{
    static const char *const ones[] = {"one", "uno", "una", NULL}, *const between[] = {"in",  "to",
                                                                                       "a",   "en",
                                                                                       "por", NULL};
    return first > 1 && is_one_of(f->s->words[first - 1].plain, between) &&
           is_one_of(f->s->words[first - 2].plain, ones);
}

/* "two thousand five hundred", "dos coma cinco", "three quarters": what is put together in more
 * ways than are known here is none of its parts. */
static bool is_part_of_another(const search *f, const said_number *n)
{
    static const char *const joins[] = {"thousand", "thousands", "million", "millon", "point",
                                        "punto",    "coma",      "comma",   NULL};
    static const char *const parts[] = {"quarter", "quarters", "cuarto",  "cuartos", "third",
                                        "thirds",  "tercio",   "tercios", "eighths", "octavos",
                                        "tenths",  "decimas",  NULL};
    static const char *const ands[] = {"and", "y", NULL};
    const said_word *words = f->s->words;
    uint32_t first = n->first; /* "one thousand and five" */
    if (first > 1 && is_one_of(words[first - 1].plain, ands)) first--;
    const str before = first > 0 ? words[first - 1].plain : STR(""),
              after = n->end < f->s->count ? words[n->end].plain : STR("");
    if (is_one_of(before, joins) || is_one_of(after, joins) || is_one_of(after, parts)) return true;
    if (str_is(before, "mil") || is_second_of_ratio(f, first)) return true;
    if (!str_is(after, "mil")) return false;
    return !words[n->first].number || (n->end + 1 < f->s->count && words[n->end + 1].number);
}

/* A word of the utterance; empty beyond its ends. */
static str word_at_place(const search *f, uint32_t word)
{
    return word < f->s->count ? f->s->words[word].plain : STR("");
}

/* "no marca 20"; not "no it is 20", "no, es 20". */
static bool is_denied(const search *f, uint32_t first)
{
    static const char *const denials[] = {"not",   "isnt",  "doesnt", "dont",  "wasnt",   "cant",
                                          "never", "nunca", "isn",    "doesn", "nothing", NULL};
    static const char *const answers[] = {"it", "its", "the", NULL};
    enum { NEAR = 3 };
    for (uint32_t back = 1; back <= NEAR && back <= first; back++) {
        const said_word *behind = &f->s->words[first - back + 1];
        if (behind->pause || behind->stop) return false;
        if (is_one_of(word_at_place(f, first - back), denials)) return true;
    }
    return first > 1 && str_is(word_at_place(f, first - 2), "no") &&
           !is_one_of(word_at_place(f, first - 1), answers);
}

/* "less than 20", "menos de 20", "20 or less", "> 20", "not 20": that is no reading of 20. */
static bool is_a_bound(const search *f, const said_number *n)
{
    static const char *const bounds[] = {"than",   "under", "below", "over", "above",
                                         "beyond", "least", "most",  "bajo", "sobre",
                                         "debajo", "hasta", NULL};
    static const char *const sides[] = {"less",  "more",  "lower", "higher", "under", "over",
                                        "below", "above", "menos", "mas",    NULL};
    static const char *const places[] = {"under", "over", "below", "above", NULL};
    static const char *const ors[] = {"or", "o", NULL}, *const ofs[] = {"de", "a", NULL},
                             *const reaches[] = {"menos", "mas",  "llega", "llegan",
                                                 "pasa",  "baja", "sube",  NULL};
    const str before = n->first > 0 ? word_at_place(f, n->first - 1) : STR(""),
              earlier = n->first > 1 ? word_at_place(f, n->first - 2) : STR(""),
              after = word_at_place(f, n->end), later = word_at_place(f, n->end + 1);
    if (is_one_of(before, bounds) || (str_is(before, "to") && str_is(earlier, "up"))) return true;
    if (is_one_of(before, ofs) && is_one_of(earlier, reaches)) return true;
    /* "40 more or less", "40 over here" */
    const bool is_place = is_one_of(after, places) && later.n > 0 && !str_is(later, "zero");
    if (is_one_of(after, sides) && !is_one_of(later, ors) && !is_place) return true;
    if (is_one_of(after, ors) && is_one_of(later, sides)) return true;
    const str text = str_trim(str_slice(f->s->text, 0, f->s->words[n->first].from));
    return str_ends(text, "<") || str_ends(text, ">") || is_denied(f, n->first);
}

/* "40 or 50", "forty something". */
static void mark_vague(search *f)
{
    for (uint32_t i = 0; i < f->count; i++) {
        const uint32_t after = f->out[i].end;
        f->out[i].vague =
            f->out[i].vague || is_part_of_another(f, &f->out[i]) || is_a_bound(f, &f->out[i]);
        for (uint32_t k = 0; k < f->items.count; k++) {
            if (f->offset + f->items.items[k].first != after ||
                kind(&f->items.items[k]) != KIND_VAGUE)
                continue;
            const bool next = i + 1 < f->count && f->out[i + 1].first == after + 1;
            const bool alone = str_is(word_of(f, k)->plain, "something") ||
                               f->items.items[k].end > f->items.items[k].first + 1;
            if (next) f->out[i + 1].vague = true;
            f->out[i].vague = f->out[i].vague || next || alone;
        }
    }
}

/* "died" is a letter from "diez" and from no number that was meant: of short words only what is
 * written so is one. */
static phrase_items without_short_slips(const phrasebook *words, arena *keep, const said *part)
{
    enum { SHORT = 4 };
    const phrase_items all = phrasebook_read(words, keep, keep, part);
    phrase_item *items = ARENA_ARRAY(keep, phrase_item, all.count);
    for (uint32_t i = 0; i < all.count; i++) {
        items[i] = all.items[i];
        if (items[i].slip && part->words[items[i].first].plain.n <= SHORT)
            items[i] = (phrase_item){.first = items[i].first, .end = items[i].end};
    }
    return (phrase_items){items, all.count};
}

said_numbers said_numbers_find(const phrasebook *words, arena *keep, const said *s, uint32_t first,
                               uint32_t end)
{
    assert(first <= end && end <= s->count);
    const said part = said_within(s, first, end);
    search f = {
        .s = s, .items = without_short_slips(words, keep, &part), .offset = first, .keep = keep};
    f.out = ARENA_ARRAY(keep, said_number, part.count);
    for (uint32_t i = 0; i < f.items.count;) {
        if (!begins_number(&f, i))
            i++;
        else if (word_of(&f, i)->number)
            i = add_figures(&f, i);
        else
            i = add_words_of_number(&f, i);
    }
    mark_vague(&f);
    assert(f.count <= part.count);
    return (said_numbers){f.out, f.count};
}

/* ---- units ---- */

static bool reads(arena *keep, str text, const unit *wanted, amount_found *found)
{
    double number;
    amount as;
    str bad;
    *found = amount_read(keep, text, wanted, &number, &as, &bad);
    return *found == AMOUNT_FOUND;
}

/* The unit that these words are known for, and is of the wanted kind: "libras" where a pressure is
 * asked for is psi. */
static bool unit_in_words(arena *keep, str plain, str figures, const unit *wanted, str *typed)
{
    static const struct {
        const char *words, *unit;
    } rows[] = {
#define UNIT(words, unit) {words, unit},
        UNIT_WORDS(UNIT)
#undef UNIT
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        str rest = str_of(rows[i].words);
        for (size_t at = 0; at < rest.n;) {
            size_t length = str_find_byte(str_slice(rest, at, rest.n), '|');
            if (length == SIZE_MAX) length = rest.n - at;
            amount_found found;
            *typed = str_printf(keep, "%.*s %s", STR_ARG(figures), rows[i].unit);
            if (str_eq(plain, str_slice(rest, at, at + length)) &&
                reads(keep, *typed, wanted, &found))
                return true;
            at += length + 1;
        }
    }
    return false;
}

amount_fit said_amount(arena *keep, const said *s, const said_number *n, uint32_t last,
                       const unit *wanted, str *typed, uint32_t *end)
{
    enum { LONGEST_UNIT_WORDS = 4 };
    const uint32_t farthest =
        n->end + LONGEST_UNIT_WORDS < last ? n->end + LONGEST_UNIT_WORDS : last;
    amount_fit fit = AMOUNT_BARE;
    assert(n->first < n->end && n->end <= last);
    amount_found found;
    str elsewhere = n->figures; /* with its unit of another kind */
    for (uint32_t to = farthest; to > n->end; to--) {
        str words = said_part(s, n->end, to);
        const str with_unit = str_printf(keep, "%.*s %.*s", STR_ARG(n->figures), STR_ARG(words));
        *typed = with_unit;
        *end = to;
        if (reads(keep, *typed, wanted, &found) ||
            unit_in_words(keep, unicode_plain(keep, words), n->figures, wanted, typed))
            return AMOUNT_FITS;
        if (found != AMOUNT_OTHER_KIND && found != AMOUNT_OTHER_FORM) continue;
        fit = AMOUNT_ELSEWHERE;
        elsewhere = with_unit;
    }
    *typed = n->figures;
    *end = n->end;
    if (fit == AMOUNT_BARE && reads(keep, *typed, wanted, &found))
        return AMOUNT_FITS; /* of a count the number alone would fit, whatever stands behind it */
    *typed = elsewhere;
    return found == AMOUNT_OTHER_KIND || found == AMOUNT_OTHER_FORM ? AMOUNT_ELSEWHERE : fit;
}

/* ---- choices ---- */

uint32_t said_choice(const phrasebook *words, arena *keep, const said *s)
{
    phrase_items items = phrasebook_read(words, keep, keep, s);
    double number = 0;
    bool any = false;
    for (uint32_t i = 0; i < items.count; i++) {
        const said_word *w = &s->words[items.items[i].first];
        const bool said = w->number || kind(&items.items[i]) == KIND_NUMBER ||
                          kind(&items.items[i]) == KIND_ORDINAL;
        if (!said && kind(&items.items[i]) == KIND_MENU) continue;
        if (!said || any) return 0; /* another word; "3 4", "0.5" */
        any = true;
        if (!w->number)
            number = value(&items.items[i]);
        else if (!str_to_double(w->plain, &number))
            return 0;
    }
    return number >= 1 && number <= 64 ? (uint32_t)number : 0;
}
