/* Each word knows the phrases that begin with it. A phrase is compared by the ids of its words,
 * after every word said was looked up once. */
#include "listen/phrasebook.h"

#include <assert.h>

#include "base/unicode.h"

enum { LONGEST_PHRASE = 8 };
#define NOT_A_WORD UINT32_MAX

typedef struct phrase phrase;
struct phrase {
    uint32_t words[LONGEST_PHRASE];
    uint32_t count;
    uint64_t tags;
    phrase *next;
};

phrasebook phrasebook_new(arena *keep, const word_set *language, const word_set *book)
{
    return (phrasebook){.keep = keep, .words = word_set_new(keep), .known = {language, book}};
}

static bool same_words(const phrase *a, const phrase *b)
{
    if (a->count != b->count) return false;
    for (uint32_t i = 0; i < a->count; i++)
        if (a->words[i] != b->words[i]) return false;
    return true;
}

uint64_t *phrasebook_slot(phrasebook *p, str plain_phrase)
{
    phrase new = {0};
    word_entry *head = NULL;
    str word;
    for (size_t at = 0; new.count < LONGEST_PHRASE &&plain_next(plain_phrase, &at, &word);) {
        word_entry *e = word_set_add(&p->words, p->form == NULL ? word : p->form(word));
        if (head == NULL) head = e;
        new.words[new.count++] = e->id;
    }
    assert(head != NULL);
    for (phrase *old = head->data; old != NULL; old = old->next)
        if (same_words(old, &new)) return &old->tags;
    new.next = head->data;
    phrase *kept = ARENA_NEW(p->keep, phrase);
    *kept = new;
    head->data = kept;
    return &kept->tags;
}

void phrasebook_add(phrasebook *p, str plain_phrase, uint64_t tags)
{
    *phrasebook_slot(p, plain_phrase) |= tags;
}

void phrasebook_prefer(phrasebook *p, bool (*wanted)(uint64_t tags))
{
    assert(p->words.count > 0);
    for (word_entry *e = p->words.first; e != NULL; e = e->next)
        for (const phrase *f = e->data; f != NULL; f = f->next)
            e->preferred = e->preferred || (f->count == 1 && wanted(f->tags));
}

void phrasebook_add_all(phrasebook *p, arena *scratch, const char *phrases, uint64_t tags)
{
    str rest = str_of(phrases);
    while (rest.n > 0) {
        size_t length = str_find_byte(rest, '|');
        if (length == SIZE_MAX) length = rest.n;
        str one = unicode_plain(scratch, str_slice(rest, 0, length));
        if (one.n > 0) phrasebook_add(p, one, tags);
        rest = str_slice(rest, length < rest.n ? length + 1 : length, rest.n);
    }
}

/* ---- reading ---- */

typedef struct looked_up {
    const word_entry *entry; /* null: not in the book */
    bool slip;
} looked_up;

static bool people_use(const phrasebook *p, str word)
{
    for (int i = 0; i < 2; i++)
        if (p->known[i] != NULL && word_set_find(p->known[i], word) != NULL) return true;
    return false;
}

/* Another form of a word: "rechinando" of "rechina". All but the last letters are the same, and at
 * least five. */
enum { LEAST_FRONT = 5, MOST_ENDING = 4 };

static looked_up look_up(const phrasebook *p, arena *scratch, const said_word *w,
                         uint32_t *patience)
{
    str word = p->form == NULL ? w->plain : p->form(w->plain);
    const bool whole = w->number || p->form != NULL;
    const word_entry *e =
        whole ? word_set_find(&p->words, word) : word_set_form(&p->words, scratch, word);
    if (e != NULL || w->number || people_use(p, w->plain) || people_use(p, word))
        return (looked_up){e, false};
    if (p->form != NULL) e = word_set_begun(&p->words, word, LEAST_FRONT, MOST_ENDING, patience);
    if (e == NULL) e = word_set_near(&p->words, scratch, word, patience);
    return (looked_up){e, e != NULL};
}

static bool stands_here(const phrase *f, const looked_up *words, const said *s, uint32_t at)
{
    if (at + f->count > s->count) return false;
    for (uint32_t i = 0; i < f->count; i++) {
        const looked_up *w = &words[at + i];
        if (w->entry == NULL || w->entry->id != f->words[i]) return false;
        if (i > 0 && s->words[at + i].stop) return false;
    }
    return true;
}

static phrase_item item_at(const looked_up *words, const said *s, uint32_t at)
{
    phrase_item item = {.first = at, .end = at + 1};
    const phrase *longest = NULL;
    for (const phrase *f = words[at].entry == NULL ? NULL : words[at].entry->data; f != NULL;
         f = f->next)
        if ((longest == NULL || f->count > longest->count) && stands_here(f, words, s, at))
            longest = f;
    if (longest == NULL) return item;
    assert(longest->count > 0 && at + longest->count <= s->count);
    item.end = at + longest->count;
    item.tags = longest->tags;
    item.found = true;
    for (uint32_t i = at; i < item.end; i++) item.slip = item.slip || words[i].slip;
    return item;
}

phrase_items phrasebook_read(const phrasebook *p, arena *keep, arena *scratch, const said *s)
{
    looked_up *words = ARENA_ARRAY(scratch, looked_up, s->count);
    phrase_item *items = ARENA_ARRAY(keep, phrase_item, s->count);
    phrase_items all = {.items = items};
    for (uint32_t i = 0; i < s->count; i++)
        words[i] = look_up(p, scratch, &s->words[i], s->patience);
    for (uint32_t at = 0; at < s->count; at = items[all.count - 1].end) {
        items[all.count++] = item_at(words, s, at);
        assert(items[all.count - 1].end > at);
    }
    return all;
}
