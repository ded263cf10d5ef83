/* What people say: patterns that match nothing, or too much, words of
 * danger among harmless ones. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/sorted.h"
#include "base/unicode.h"
#include "doubt/doubt.h"

/* ---- patterns ---- */

/* Words that people say about all sorts of things, long and short: a pattern that is hard on one of
 * them, or meets all, is none. */
static str of_one_letter(arena *keep, char letter)
{
    char *all = ARENA_ARRAY(keep, char, 400);
    memset(all, letter, 400);
    return (str){all, 400};
}

/* Beyond all patience nothing is known of it. */
static pattern_result tried_on(const doubter *d, const pattern *p, str words, uint32_t *patience)
{
    const pattern_result found = pattern_match(p, d->scratch, words, patience, NULL, NULL);
    return *patience == 0 ? PATTERN_NO : found;
}

static bool gives_up(const doubter *d, const pattern *p, uint32_t *patience)
{
    static const char letters[] = "aeosn ";
    for (const char *c = letters; *c != 0; c++)
        if (tried_on(d, p, of_one_letter(d->scratch, *c), patience) == PATTERN_TOO_HARD)
            return true;
    text_builder b = {.keep = d->scratch};
    for (int i = 0; i < 40; i++) text_add(&b, STR("the foam "));
    text_add(
        &b,
        STR("? abcdefghijklmnopqrstuvwxyz 0123456789 .,;:-!")); /* no letter is missed at once */
    return tried_on(d, p, text_done(&b), patience) == PATTERN_TOO_HARD;
}

static bool is_slow(const doubter *d, const pattern *p, uint32_t *patience)
{
    const arena_mark before = arena_here(d->scratch);
    const bool slow = gives_up(d, p, patience);
    arena_back_to(d->scratch, before);
    return slow;
}

static bool meets(const doubter *d, const pattern *p, str words, uint32_t *patience)
{
    assert(p != NULL);
    assert(words.n > 0);
    return tried_on(d, p, words, patience) == PATTERN_YES;
}

/* Two words that have no letter in common, and that nobody says; one that meets any number may well
 * be meant, of a code on a display. */
static bool meets_anything(const doubter *d, const pattern *p, uint32_t *patience)
{
    return meets(d, p, STR("zq"), patience) && meets(d, p, STR("xj"), patience);
}

/* ---- anchors ---- */

/* A letter, digit or space, which stands for itself. */
static bool is_plain(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == ' ' ||
           (unsigned char)c >= 0x80;
}

/* Whether what stands there may be met no time at all. */
static bool may_be_left_out(str source, size_t at)
{
    return at < source.n && (source.p[at] == '?' || source.p[at] == '*' || source.p[at] == '{');
}

/* Behind a class that begins here, such as [^a$]; a bracket that stands first in it is one of its
 * signs. */
static size_t behind_class(str source, size_t at)
{
    size_t i = at + 1;
    if (i < source.n && source.p[i] == '^') i++;
    if (i < source.n && source.p[i] == ']') i++;
    for (; i < source.n && source.p[i] != ']'; i++) {
        const str rest = str_slice(source, i, source.n);
        const size_t named = str_starts(rest, "[:") ? str_find(rest, STR(":]")) : SIZE_MAX;
        if (named != SIZE_MAX) i += named + 1;
        if (source.p[i] == '\\') i++;
    }
    return i + 1;
}

/* A plain sign right behind '$' or before '^' would have to stand outside of what is said. What
 * else may stand there may also be empty. */
static bool can_never_match(str source)
{
    bool plain = false; /* what stands before */
    for (size_t i = 0; i < source.n;) {
        const char c = source.p[i];
        if (c == '$' && i + 1 < source.n && is_plain(source.p[i + 1]) &&
            !may_be_left_out(source, i + 2))
            return true;
        if (c == '^' && plain) return true;
        plain = is_plain(c) && !may_be_left_out(source, i + 1);
        i = c == '\\' ? i + 2 : c == '[' ? behind_class(source, i) : i + 1;
    }
    return false;
}

static str source_of(const doubter *d, span at)
{
    assert(at.file < d->book->files->count);
    const source *file = &d->book->files->items[at.file];
    const str text = str_slice(file->bytes, at.start, at.end);
    size_t from = str_find_byte(text, '/'), to = text.n;
    assert(from != SIZE_MAX);
    while (text.p[to - 1] != '/') to--;
    return str_slice(text, from + 1, to - 1);
}

/* What is beyond is not doubted: half a second of the slowest, or 60,000 matches. */
enum { DOUBT_PATIENCE = 3000000 };

static const heard *meets_other(const doubter *d, const pattern *p, uint32_t symptom,
                                uint32_t *patience, uint32_t *other)
{
    assert(symptom < d->book->symptom_count);
    const book *b = d->book;
    for (uint32_t i = 0; i < b->symptom_count; i++) {
        if (same_written(&b->symptoms[i].id, &b->symptoms[symptom].id)) continue;
        for (uint32_t k = 0; k < b->symptoms[i].heard.count; k++) {
            *other = i;
            const heard *h = &b->symptoms[i].heard.items[k];
            if (*patience == 0) return NULL;
            if (h->pattern != NULL) continue;
            const arena_mark before = arena_here(d->scratch);
            const bool met = meets(d, p, h->plain, patience);
            arena_back_to(d->scratch, before);
            if (met) return h;
        }
    }
    return NULL;
}

static void doubt_pattern(const doubter *d, uint32_t symptom, const heard *h, uint32_t *patience)
{
    assert(h->pattern != NULL);
    uint32_t other = NO_ID;
    if (is_slow(d, h->pattern, patience)) {
        fault *f =
            fault_add(d->list, FAULT_PATTERN_SLOW, h->at,
                      "This pattern gives up on long sentences: it tries too many ways to match.");
        fault_help(
            d->list, f,
            "Leave out a repetition inside of a repetition, such as (a+)+; or write plain words.");
        return;
    }
    if (can_never_match(source_of(d, h->at))) {
        fault *f = fault_add(d->list, FAULT_PATTERN_NEVER, h->at,
                             "This pattern can never match: something would have to stand before "
                             "the beginning or after the end.");
        fault_help(d->list, f,
                   "'^' stands first and '$' last; write '\\$' for the sign itself; or write plain "
                   "words.");
        return;
    }
    const bool all = meets_anything(d, h->pattern, patience);
    const heard *also =
        all || symptom == NO_ID ? NULL : meets_other(d, h->pattern, symptom, patience, &other);
    if (!all && also == NULL) return;
    fault *f = all ? fault_add(d->list, FAULT_PATTERN_TOO_MUCH, h->at,
                               "This pattern matches whatever people say.")
                   : fault_add(d->list, FAULT_PATTERN_TOO_MUCH, h->at,
                               "This pattern also matches '%.*s', which is heard as '%.*s'.",
                               STR_ARG(also->plain), STR_ARG(d->book->symptoms[other].id.name));
    if (also != NULL) fault_note_at(d->list, f, also->at, "heard here");
    fault_help(d->list, f,
               "Write what only this one has in it; or plain words, which are weighed against each "
               "other.");
}

static void doubt_list(const doubter *d, const heard_list *list, uint32_t *patience)
{
    for (uint32_t k = 0; k < list->count; k++)
        if (list->items[k].pattern != NULL) doubt_pattern(d, NO_ID, &list->items[k], patience);
}

static void doubt_patterns(const doubter *d)
{
    const book *b = d->book;
    uint32_t patience = DOUBT_PATIENCE;
    for (uint32_t i = 0; i < b->symptom_count; i++)
        for (uint32_t k = 0; is_first_piece(b, i) && k < b->symptoms[i].heard.count; k++)
            if (b->symptoms[i].heard.items[k].pattern != NULL)
                doubt_pattern(d, i, &b->symptoms[i].heard.items[k], &patience);
    for (uint32_t i = 0; i < b->question_count; i++)
        for (uint32_t a = 0; a < b->questions[i].answer_count; a++)
            doubt_list(d, &b->questions[i].answers[a].heard, &patience);
    for (uint32_t i = 0; i < b->emergency_count; i++)
        doubt_list(d, &b->emergencies[i].heard, &patience);
}

/* ---- words that no other text knows ---- */

enum {
    KNOWN_LETTERS_MAX = 100000000
}; /* a book of 1,000 such words and 10,000 phrases has fewer */

/* All words of `words-for`, plain, each on a line. */
static str known_words(const doubter *d)
{
    const book *b = d->book;
    text_builder all = {.keep = d->scratch};
    for (uint32_t i = 0; i < b->concept_count; i++)
        for (uint32_t k = 0; k < b->concepts[i].count; k++)
            for (uint32_t j = 0; j < b->concepts[i].items[k].words.count; j++) {
                const str word = b->concepts[i].items[k].words.items[j].name;
                text_add(&all, unicode_plain(d->scratch, word));
                text_add(&all, STR("\n"));
            }
    return text_done(&all);
}

/* `left`: so many letters more are looked at for all phrases; what is not looked at is known. */
static bool has_known_word(const doubter *d, str known, str phrase, uint64_t *left)
{
    const str plain = unicode_plain(d->scratch, phrase);
    for (size_t from = 0, to; from < plain.n; from = to + 1) {
        for (to = from; to < plain.n && plain.p[to] != ' ';) to++;
        if (to - from < 3) continue;
        if (known.n > *left) return true;
        *left -= known.n;
        if (str_find(known, str_slice(plain, from, to)) != SIZE_MAX) return true;
    }
    return false;
}

/* More than three of five phrases of the book have no word that `words-for` knows. */
static void doubt_concepts(const doubter *d)
{
    const book *b = d->book;
    const double share = 0.6;
    const str known = known_words(d);
    uint32_t all = 0, strange = 0;
    uint64_t left = KNOWN_LETTERS_MAX;
    const heard *first = NULL;
    for (uint32_t i = 0; i < b->symptom_count; i++)
        for (uint32_t k = 0; is_first_piece(b, i) && k < b->symptoms[i].heard.count; k++) {
            const heard *h = &b->symptoms[i].heard.items[k];
            if (h->pattern != NULL) continue;
            const arena_mark before = arena_here(d->scratch);
            all++;
            if (!has_known_word(d, known, h->plain, &left)) {
                strange++;
                if (first == NULL) first = h;
            }
            arena_back_to(d->scratch, before);
        }
    const uint32_t few = b->concept_count > 0 ? 5 : 40; /* a small book can do without */
    if (all < few || strange <= share * all) return;
    fault *f = fault_add(d->list, FAULT_WORDS_STRANGE, first->at,
                         "%u of %u phrases under 'heard' have no word that 'words-for' knows, so "
                         "people have to say them as written.",
                         strange, all);
    fault_help(d->list, f,
               "Write under 'words-for' what else people call the things in them, such as 'foam: "
               "{en: [soap, suds]}'. Words that stand in %u more of the phrases are enough.",
               strange - (uint32_t)floor(share * all));
}

/* ---- danger in harmless words, and harmless words about danger ---- */

/* What is left of phrases compared with those of the book's emergencies, in all: what is beyond is
 * not doubted. */
typedef struct gravity {
    uint64_t each, left;
} gravity;
enum { GRAVE_MAX = 10000000 };

static gravity gravity_of(const book *b)
{
    gravity g = {1, GRAVE_MAX};
    for (uint32_t i = 0; i < b->emergency_count; i++) g.each += b->emergencies[i].heard.count;
    return g;
}

static bool tells_of_grave(const doubter *d, gravity *g, str words)
{
    if (g->left < g->each) return false;
    g->left -= g->each;
    const arena_mark before = arena_here(d->scratch);
    const bool grave =
        words.n > 0 && listen_danger(d->ear, d->scratch, words, LISTEN_NOTE).list == DANGER_A;
    arena_back_to(d->scratch, before);
    return grave;
}

static void doubt_grave(const doubter *d, gravity *g, const heard_list *list, const label *name)
{
    for (uint32_t i = 0; i < list->count; i++) {
        const heard *h = &list->items[i];
        if (h->pattern != NULL || !tells_of_grave(d, g, h->plain)) continue;
        fault *f = fault_add(d->list, FAULT_HEARD_AS_DANGER, h->at,
                             "'%.*s' tells of somebody hurt or of fire: whoever says it sees the "
                             "danger page, not '%.*s'.",
                             STR_ARG(h->plain), STR_ARG(name->name));
        fault_help(d->list, f,
                   "Leave it out here; what people say in danger belongs under 'emergencies'.");
    }
}

/* Each is there once for all pieces that share it. */
static bool same_as_before(const heard_list *list, const heard_list *before)
{
    return list->count > 0 && list->items == before->items;
}

/* A gate question whose safe answer tells of danger was written the wrong way round. */
static void doubt_gate(const doubter *d, gravity *g, const question *q, bool heard_before)
{
    assert(q != NULL);
    for (uint32_t i = 0; q->gate && i < q->answer_count; i++) {
        const answer_option *a = &q->answers[i];
        const str text = texts_for(&a->text, d->book->language);
        const bool yes = str_is(a->id.name, "yes") && q->yes_no &&
                         tells_of_grave(d, g, texts_for(&q->ask, d->book->language));
        bool grave = yes || (!heard_before && tells_of_grave(d, g, text));
        for (uint32_t k = 0; !heard_before && k < a->heard.count; k++)
            grave = grave || (a->heard.items[k].pattern == NULL &&
                              tells_of_grave(d, g, a->heard.items[k].plain));
        if (!answer_is_safe(q, i) || !grave) continue;
        fault *f = fault_add(
            d->list, FAULT_SAFE_IN_DANGER, a->id.at.file == NO_FILE ? q->id.at : a->id.at,
            "'%.*s' is called a safe answer, and its words tell of danger.", STR_ARG(a->id.name));
        fault_help(d->list, f,
                   "'safe' names the answers after which work may go on, such as 'safe: [no]'.");
    }
}

void doubt_words(const doubter *d)
{
    const book *b = d->book;
    gravity g = gravity_of(b);
    for (uint32_t i = 0; i < b->question_count; i++) {
        const question *q = &b->questions[i];
        doubt_gate(d, &g, q, answers_as_before(b, i));
        for (uint32_t k = 0; k < q->answer_count && !q->gate && !answers_as_before(b, i); k++)
            doubt_grave(d, &g, &q->answers[k].heard, &q->answers[k].id);
    }
    for (uint32_t i = 0; i < b->symptom_count; i++)
        if (i == 0 || !same_as_before(&b->symptoms[i].heard, &b->symptoms[i - 1].heard))
            doubt_grave(d, &g, &b->symptoms[i].heard, &b->symptoms[i].id);
    doubt_patterns(d);
    doubt_concepts(d);
}
