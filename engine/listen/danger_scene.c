/* Who does what to whom, as far as a few words in any order and of two languages tell it. */
#include "listen/danger_scene.h"

#include <assert.h>

#define NONE UINT32_MAX
enum { OBJECT_WITHIN = 4, DENIED_WITHIN = 4 };

uint64_t scene_people(void)
{
    return IS_PERSON | IS_OBJECT | IS_BODY | IS_CLOTHES | IS_EYES | IS_MOUTH;
}

uint64_t scene_things(void)
{
    return IS_MACHINE | IS_THING | IS_HOSE | IS_NOZZLE | IS_CHEMICAL | IS_STRONG | IS_IT | IS_ROOM |
           IS_EYE | IS_WEAK;
}

static bool is_a(const scene *s, uint32_t item, uint64_t classes)
{
    assert(item < s->count);
    return (s->items[item].tags & classes) != 0;
}

static bool stops_before(const scene *s, uint32_t item)
{
    assert(item < s->count);
    return s->said->words[s->items[item].first].stop;
}

static bool pauses_before(const scene *s, uint32_t item)
{
    const said_word *w = &s->said->words[s->items[item].first];
    return w->stop || w->pause;
}

/* "head of the pump" and "my head": a weak part is a person's where it is said whose it is. */
static void promote_weak_parts(scene *s)
{
    for (uint32_t i = 1; i < s->count; i++) {
        if (!is_a(s, i - 1, IS_MINE) || pauses_before(s, i)) continue;
        if (is_a(s, i, IS_WEAK)) s->items[i].tags |= IS_BODY;
        if (is_a(s, i, IS_EYE)) s->items[i].tags |= IS_EYES;
    }
}

/* Telephones write names with a capital; so what begins with one in mid-sentence is no slip of a
 * word that we know. */
static bool has_capital(const said *s, const said_word *w)
{
    const char *p = s->text.p;
    return w->to - w->from > 1 && p[w->from] >= 'A' && p[w->from] <= 'Z' && p[w->from + 1] >= 'a' &&
           p[w->from + 1] <= 'z';
}

/* A slip may be a name too: it is a letter from many a thing. */
static bool is_unheard_of(const phrasebook *words, const said_word *w)
{
    for (int i = 0; i < 2; i++)
        if (words->known[i] == NULL || word_set_find(words->known[i], w->plain) != NULL)
            return false;
    return !w->number;
}

/* "leag told me": what says something is somebody, though it be a letter from a thing. Of a thing
 * nobody would say these; it may well be found, seen or called. */
static bool speaks(const scene *s, uint32_t item)
{
    static const char *const words[] = {"says", "said",   "say",      "told",     "tells", "thinks",
                                        "asks", "asked",  "wants",    "dice",     "dijo",  "dicen",
                                        "cree", "quiere", "pregunta", "pregunto", "avisa"};
    if (item + 1 >= s->count) return false;
    const said_word *next = &s->said->words[s->items[item + 1].first];
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (!next->stop && str_is(next->plain, words[i])) return true;
    return false;
}

static void mark_strangers(scene *s, const phrasebook *words)
{
    for (uint32_t i = 0; i < s->count; i++) {
        phrase_item *at = &s->items[i];
        const said_word *w = &s->said->words[at->first];
        const bool named = (i > 0 && !w->stop && has_capital(s->said, w)) || speaks(s, i);
        if (at->end > at->first + 1 || (at->found && !at->slip) || !is_unheard_of(words, w))
            continue;
        at->tags = named ? IS_STRANGER | IS_PERSON : at->tags | IS_STRANGER;
    }
}

scene scene_read(arena *keep, arena *scratch, const phrasebook *words, const word_set *book_words,
                 const said *said)
{
    phrase_items all = phrasebook_read(words, keep, scratch, said);
    phrase_item *items = ARENA_ARRAY(keep, phrase_item, all.count);
    for (uint32_t i = 0; i < all.count; i++) items[i] = all.items[i];
    scene s = {.said = said, .items = items, .count = all.count, .book_words = book_words};
    mark_strangers(&s, words);
    promote_weak_parts(&s);
    assert(s.count <= said->count);
    return s;
}

/* ---- whose ---- */

static bool says_nothing(const scene *s, uint32_t item)
{
    const uint64_t nouns = scene_people() | scene_things();
    return is_a(s, item, IS_AUX | IS_MINE) && !is_a(s, item, nouns);
}

/* "he got", "his hand is": a person right before, with nothing between that says anything. */
static uint64_t person_right_before(const scene *s, uint32_t item)
{
    for (uint32_t j = item; j-- > 0 && !stops_before(s, j + 1);) {
        if (is_a(s, j, scene_people()) && !is_a(s, j, IS_NEGATES)) return s->items[j].tags;
        if (!says_nothing(s, j)) return 0;
    }
    return 0;
}

static bool turns_away(const scene *s, uint32_t item)
{
    return stops_before(s, item) || is_a(s, item, IS_BUT | IS_AND | IS_INTO | IS_ONTO | IS_BY);
}

/* "her" alone is somebody, before a noun it says whose that is. */
static bool says_whose(const scene *s, uint32_t item)
{
    if (!is_a(s, item, IS_MINE)) return false;
    const bool noun_next = item + 1 < s->count && !stops_before(s, item + 1) &&
                           is_a(s, item + 1, scene_people() | scene_things());
    return !is_a(s, item, IS_OBJECT) || noun_next;
}

/* "caught his hand", "se cayó una persona" */
uint64_t scene_object(const scene *s, uint32_t item)
{
    if (is_a(s, item, IS_INTO | IS_ONTO)) return 0; /* "fell into" */
    for (uint32_t j = item + 1; j < s->count && j <= item + OBJECT_WITHIN; j++) {
        if (stops_before(s, j) || turns_away(s, j)) return 0;
        if (is_a(s, j, scene_people() | scene_things()) && !says_whose(s, j))
            return s->items[j].tags;
    }
    return 0;
}

/* Is the noun governed by a "in", "by", "of" before it? */
static bool stands_aside(const scene *s, uint32_t item)
{
    for (uint32_t j = item; j-- > 0 && !stops_before(s, j + 1);) {
        if (is_a(s, j, IS_INTO | IS_ONTO | IS_BY | IS_ENTERS)) return true;
        if (!says_nothing(s, j)) return false;
    }
    return false;
}

static bool word_of_book(const scene *s, uint32_t item)
{
    const phrase_item *i = &s->items[item];
    return !i->found && s->book_words != NULL &&
           word_set_find(s->book_words, s->said->words[i->first].plain) != NULL;
}

uint64_t scene_doer(const scene *s, uint32_t item)
{
    bool close = true, of_book = false; /* "it" or a word of the book right before is what it is
                                           said of, unless somebody is: "the man fixing it fell" */
    for (uint32_t j = item; j-- > 0 && !stops_before(s, j + 1);) {
        if (is_a(s, j, IS_BUT)) break;
        const bool noun = is_a(s, j, scene_people() | (scene_things() & ~IS_IT));
        if (noun && !is_a(s, j, IS_INTO) && !stands_aside(s, j)) return s->items[j].tags;
        of_book = of_book || (close && (word_of_book(s, j) || is_a(s, j, IS_IT)));
        close = close && says_nothing(s, j);
    }
    return of_book ? IS_THING : 0;
}

uint64_t scene_subject(const scene *s, uint32_t item)
{
    uint64_t subject = person_right_before(s, item);
    if (subject == 0) subject = scene_object(s, item);
    if (subject == 0) subject = scene_doer(s, item);
    return subject;
}

/* ---- what is denied ---- */

/* "no he is hurt", "no there is smoke": the no answers, it denies nothing. */
static bool only_answers(const scene *s, uint32_t no)
{
    return no + 1 < s->count && is_a(s, no + 1, IS_SUBJECT | IS_IT) &&
           !is_a(s, no + 1, IS_NEGATES) && str_is(s->said->words[s->items[no].first].plain, "no");
}

/* "nobody in the brush", "no man is hurt" deny what comes behind the noun; "can't see, my eyes
 * burn" doesn't. */
static bool denies_across(const scene *s, uint32_t no, uint64_t crossed)
{
    assert(is_a(s, no, IS_NEGATES) && no + 1 < s->count);
    if (is_a(s, no, IS_SUBJECT)) return (crossed & IS_SUBJECT) == 0;
    return (crossed & (IS_PERSON | IS_BODY | IS_CLOTHES | IS_EYES | IS_IT)) == 0 ||
           (is_a(s, no + 1, IS_PERSON) && !is_a(s, no + 1, IS_SUBJECT));
}

/* "no ve nada, le cayó ácido": the second no closes the first, and denies nothing behind it. */
static bool closes_a_denial(const scene *s, uint32_t no)
{
    if (!str_is(s->said->words[s->items[no].first].plain, "nada")) return false;
    for (uint32_t j = no;
         j-- > 0 && j + 3 >= no && !turns_away(s, j + 1) && !pauses_before(s, j + 1);)
        if (is_a(s, j, IS_NEGATES)) return true;
    return false;
}

bool scene_denied(const scene *s, uint32_t item)
{
    uint64_t crossed = 0; /* nouns between: the denial was about them */
    uint32_t counted = 0, things = 0;
    for (uint32_t j = item; j-- > 0 && counted <= DENIED_WITHIN;) {
        if (pauses_before(s, j + 1)) return false;
        if (is_a(s, j, IS_NEGATES))
            return !only_answers(s, j) && !closes_a_denial(s, j) && denies_across(s, j, crossed) &&
                   things < 2;
        if (is_a(s, j, IS_BUT | IS_AND) && !is_a(s, j, IS_OR | IS_AUX)) return false;
        crossed |= s->items[j].tags;
        things += is_a(s, j, scene_things()) && !is_a(s, j, IS_INTO);
        counted += !is_a(s, j, IS_AUX | IS_OR);
    }
    return false;
}

/* ---- what stands near ---- */

static bool parts(const scene *s, uint32_t item)
{
    return is_a(s, item, IS_BUT) && !is_a(s, item, IS_AUX);
}

uint32_t scene_after(const scene *s, uint32_t item, uint64_t classes, uint32_t within)
{
    assert(item < s->count);
    for (uint32_t j = item + 1; j < s->count && j <= item + within; j++) {
        if (stops_before(s, j)) return NONE;
        if (is_a(s, j, classes)) return j;
        if (parts(s, j)) return NONE;
    }
    return NONE;
}

uint32_t scene_before(const scene *s, uint32_t item, uint64_t classes, uint32_t within)
{
    assert(item < s->count);
    for (uint32_t j = item; j-- > 0 && j + within >= item;) {
        if (stops_before(s, j + 1)) return NONE;
        if (is_a(s, j, classes)) return j;
        if (parts(s, j)) return NONE;
    }
    return NONE;
}

uint32_t scene_near(const scene *s, uint32_t item, uint64_t classes, uint32_t within)
{
    if (is_a(s, item, classes)) return item;
    const uint32_t before = scene_before(s, item, classes, within),
                   after = scene_after(s, item, classes, within);
    if (before == NONE || after == NONE) return before == NONE ? after : before;
    return item - before <= after - item ? before : after;
}
