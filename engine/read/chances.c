/* Chances in words and numbers, minutes, times, how often. */
#include <assert.h>
#include <math.h>

#include "read/reader.h"

void default_word_chances(reader *r)
{
    for (uint32_t i = 0; i < CHANCE_WORDS; i++) r->word_chance[i] = chance_of_word(i);
}

double chance_always(const reader *r)
{
    return r->word_chance[CHANCE_ALWAYS];
}

double chance_rarely(const reader *r)
{
    return r->word_chance[CHANCE_RARELY];
}

static uint32_t word_of(str text)
{
    for (uint32_t i = 0; i < CHANCE_WORDS; i++)
        if (str_is(text, chance_word(i))) return i;
    return NO_ID;
}

bool chance_of(str text, double *chance)
{
    double whole = 1;
    size_t of = str_find(text, STR(" of "));
    if (of != SIZE_MAX) {
        bool numbers = str_to_double(str_trim(str_slice(text, 0, of)), chance) &&
                       str_to_double(str_trim(str_slice(text, of + 4, text.n)), &whole);
        if (!numbers || whole <= 0) return false;
    } else if (str_ends(text, "%")) {
        whole = 100;
        if (!str_to_double(str_trim(str_slice(text, 0, text.n - 1)), chance)) return false;
    } else if (!str_to_double(text, chance)) {
        return false;
    }
    *chance /= whole;
    return true;
}

static bool within_one(reader *r, const node *n, str text, bool with_words, double chance)
{
    if (chance >= 0 && chance <= 1) return true;
    fault *f = fault_add(r->list, FAULT_CHANCE_OUTSIDE, n->at,
                         "'%.*s' is no chance: it must lie from 0 %% to 100 %%.", STR_ARG(text));
    double number;
    if (str_to_double(text, &number) && number > 1 && number <= 100)
        fault_help(r->list, f, "Write '%.*s %%' if you mean %.*s of 100.", STR_ARG(text),
                   STR_ARG(text));
    else
        fault_help(r->list, f, "Write such as '95 %%'%s.",
                   with_words ? ", or a word such as 'usually'" : "");
    return false;
}

/* "5 percent" and "0,05" say what is meant, in another way: "5 %", "0.05". */
static bool suggest_number(reader *r, fault *f, str text)
{
    static const char *const words[] = {"percent", "per cent", "pct", "per 100", "in 100"};
    size_t digits = 0;
    while (digits < text.n && text.p[digits] >= '0' && text.p[digits] <= '9') digits++;
    if (digits == 0) return false;
    const str rest = str_trim(str_slice(text, digits, text.n));
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (str_is(rest, words[i])) {
            const str meant = str_printf(r->scratch, "%.*s %%", (int)digits, text.p);
            fault_help(r->list, f, "Write '%.*s'.", STR_ARG(meant));
            fault_mend(r->list, f, text, meant);
            return true;
        }
    double number;
    str pointed = str_copy(r->scratch, text);
    if (rest.n < 2 || rest.p[0] != ',') return false;
    ((char *)pointed.p)[digits] = '.';
    if (!str_to_double(pointed, &number)) return false;
    fault_help(r->list, f, "Write '%.*s': with a point.", STR_ARG(pointed));
    fault_mend(r->list, f, text, pointed);
    return true;
}

static void no_chance(reader *r, const node *n, const char *what, str text, bool with_words)
{
    assert(n->kind == NODE_TEXT);
    fault *f = fault_add(r->list, FAULT_BAD_CHANCE, n->at, "'%.*s' is no chance for %s.",
                         STR_ARG(text), what);
    if (suggest_number(r, f, text)) return;
    if (!with_words) {
        fault_help(r->list, f, "Write '70 %%', '0.7' or '7 of 10'.");
        return;
    }
    str names[CHANCE_WORDS];
    for (uint32_t i = 0; i < CHANCE_WORDS; i++) names[i] = str_of(chance_word(i));
    size_t nearest = str_nearest(r->scratch, text, names, CHANCE_WORDS);
    if (nearest != SIZE_MAX) {
        fault_help(r->list, f, "Did you mean '%s'?", chance_word((uint32_t)nearest));
        fault_mend(r->list, f, text, names[nearest]);
    } else
        fault_help(r->list, f,
                   "Write never, rarely, seldom, sometimes, about half the time, often, usually, "
                   "almost always "
                   "or always; or '70 %%', '0.7', '7 of 10'.");
}

static bool read_any_chance(reader *r, const node *n, const char *what, bool with_words,
                            double *chance)
{
    assert(r->word_chance[CHANCE_ALWAYS] >= 0);
    str text;
    if (!read_word(r, n, what, &text)) return false;
    uint32_t word = with_words ? word_of(text) : NO_ID;
    if (word != NO_ID) {
        *chance = r->word_chance[word];
        return true;
    }
    if (chance_of(text, chance)) return within_one(r, n, text, with_words, *chance);
    no_chance(r, n, what, text, with_words);
    return false;
}

bool read_chance(reader *r, const node *n, const char *what, double *chance)
{
    return read_any_chance(r, n, what, true, chance);
}

bool read_plain_chance(reader *r, const node *n, const char *what, double *chance)
{
    return read_any_chance(r, n, what, false, chance);
}

/* ---- the words' own chances ---- */

static void check_words_rise(reader *r, const node *map)
{
    assert(map->kind == NODE_MAP);
    for (uint32_t i = 1; i < CHANCE_WORDS; i++) {
        if (r->word_chance[i] > r->word_chance[i - 1]) continue;
        const node *own = node_get(map, chance_word(i));
        if (own == NULL) own = node_get(map, chance_word(i - 1));
        assert(own != NULL); /* the table itself rises */
        fault *f =
            fault_add(r->list, FAULT_WORDS_NOT_RISING, own->at,
                      "'%s' (%g %%) would not be more than '%s' (%g %%).", chance_word(i),
                      r->word_chance[i] * 100, chance_word(i - 1), r->word_chance[i - 1] * 100);
        fault_help(r->list, f, "Keep the words in their order, from never to always.");
        return;
    }
}

void set_word_chances(reader *r, const node *map)
{
    static const char *const keys[] = {
        "never", "rarely",  "seldom",        "sometimes", "about half the time",
        "often", "usually", "almost always", "always",    NULL};
    if (!check_words(r, map, "'words'", keys)) return;
    bool good = true;
    for (uint32_t i = 0; i < map->count; i++) {
        uint32_t word = word_of(map->entries[i].key);
        double chance;
        if (word == NO_ID) continue;
        if (read_plain_chance(r, map->entries[i].value, "a word", &chance))
            r->word_chance[word] = chance;
        else
            good = false;
    }
    if (good) check_words_rise(r, map);
}

/* ---- minutes, times, how often ---- */

enum { MINUTES_MOST = 1000000 };

/* "20 min", as nearly all times are written: no unit need be looked for. */
static bool is_whole_minutes(str text, double *number)
{
    const str end = STR(" min");
    size_t digits = 0;
    uint32_t value = 0;
    for (; digits < text.n && text.p[digits] >= '0' && text.p[digits] <= '9'; digits++)
        value = digits < 7 ? value * 10 + (uint32_t)(text.p[digits] - '0') : 0;
    const bool led = digits > 1 && text.p[0] == '0'; /* by a zero */
    if (digits == 0 || digits > 7 || led || !str_eq(str_slice(text, digits, text.n), end))
        return false;
    *number = value;
    return true;
}

static amount_found minutes_of(reader *r, str text, double *number)
{
    unit minute;
    str bad;
    if (is_whole_minutes(text, number)) return AMOUNT_FOUND;
    unit_read(r->keep, STR("min"), NULL, &minute, &bad);
    return amount_read(r->keep, text, &minute, number, NULL, NULL);
}

static bool is_time(reader *r, const node *n, str text, bool read, double number)
{
    if (read && number >= 0 && number <= MINUTES_MOST) return true;
    fault *f = fault_add(r->list, FAULT_BAD_MINUTES, n->at, "'%.*s' is no time%s.", STR_ARG(text),
                         read ? "; it must lie from 0 to a million minutes" : "");
    fault_help(r->list, f, "Write such as '20 min', '30 s' or '1.5 h'.");
    return false;
}

bool read_minutes(reader *r, const node *n, double *minutes)
{
    assert(minutes != NULL);
    str text;
    double number = 0;
    if (!read_word(r, n, "a number of minutes", &text)) return false;
    amount_found found = minutes_of(r, text, &number);
    bool good = is_time(r, n, text, found == AMOUNT_FOUND || found == AMOUNT_NO_UNIT, number);
    if (good) *minutes = number;
    return good;
}

bool read_time(reader *r, const node *n, double *minutes)
{
    assert(minutes != NULL);
    str text;
    double number = 0;
    if (!read_word(r, n, "a time", &text)) return false;
    amount_found found = minutes_of(r, text, &number);
    if (found == AMOUNT_NO_UNIT) {
        fault *f = fault_add(r->list, FAULT_WRONG_UNIT, n->at,
                             "'%.*s' has no unit, so it could be minutes or hours.", STR_ARG(text));
        fault_help(r->list, f, "Write '%.*s min' if it is minutes.", STR_ARG(text));
        return false;
    }
    bool good = is_time(r, n, text, found == AMOUNT_FOUND, number);
    if (good) *minutes = number;
    return good;
}

bool read_times(reader *r, const node *n, double *factor)
{
    assert(factor != NULL);
    str text;
    double number = 0;
    if (!read_word(r, n, "a number of times", &text)) return false;
    size_t times = str_find(text, STR(" times"));
    bool good = times != SIZE_MAX && times + 6 == text.n &&
                str_to_double(str_slice(text, 0, times), &number);
    if (good && number > 1 && number <= 1000) {
        *factor = number;
        return true;
    }
    fault *f = fault_add(r->list, FAULT_BAD_FACTOR, n->at, "'%.*s' does not say how many times%s.",
                         STR_ARG(text), good ? "; it must be more than 1 and at most 1000" : "");
    fault_help(r->list, f,
               good && number <= 1
                   ? "Swap 'likelier' and 'less-likely' to turn it round, and write '3 times'."
                   : "Write '3 times'.");
    return false;
}

bool read_how_often(reader *r, const node *n, double *often)
{
    str text, names[OFTEN_WORDS];
    if (!read_word(r, n, "how often", &text)) return false;
    for (uint32_t i = 0; i < OFTEN_WORDS; i++) {
        names[i] = str_of(often_word(i, often));
        if (str_eq(text, names[i])) return true;
    }
    if (str_to_double(text, often) && *often > 0 && *often <= 1e6) return true;
    fault *f = fault_add(r->list, FAULT_BAD_HOW_OFTEN, n->at,
                         "'%.*s' does not say how often a cause is met.", STR_ARG(text));
    size_t nearest = str_nearest(r->scratch, text, names, OFTEN_WORDS);
    if (nearest != SIZE_MAX) {
        fault_help(r->list, f, "Did you mean '%.*s'?", STR_ARG(names[nearest]));
        fault_mend(r->list, f, text, names[nearest]);
    } else
        fault_help(r->list, f,
                   "Write very common, common, occasional, uncommon, rare, or a number above 0.");
    return false;
}
