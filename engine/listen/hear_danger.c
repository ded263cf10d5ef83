/* Is something dangerous going on? The book's own words and the engine's lists. */
#include <assert.h>

#include "base/pattern.h"
#include "base/unicode.h"
#include "listen/listener.h"

#define NONE UINT32_MAX

static const char *const names[] = {
#define DANGER(id, list, name) [DANGER_##id] = name,
    DANGER_TABLE(DANGER)
#undef DANGER
};

typedef struct hearing {
    const listener *l;
    arena *keep;
    said said;
    scene scene;
    danger_heard *items;
    uint32_t count;
} hearing;

static danger_heard *add(hearing *h, danger_list list, uint32_t from, uint32_t to)
{
    assert(from < to && to <= h->said.text.n);
    danger_heard *d = &h->items[h->count++];
    *d = (danger_heard){.list = list,
                        .id = STR(""),
                        .emergency = NO_ID,
                        .question = NO_ID,
                        .answer = NO_ID,
                        .from = from,
                        .to = to};
    d->words = str_slice(h->said.text, from, to);
    return d;
}

/* ---- the engine's lists ---- */

static void add_engines(hearing *h, danger_id id, danger_list list, uint32_t first, uint32_t end)
{
    assert(first < end && end <= h->said.count);
    danger_heard *d = add(h, list, h->said.words[first].from, h->said.words[end - 1].to);
    d->id = str_of(names[id]);
    d->emergency = book_emergency(h->l->book, d->id);
}

static bool is_grave_among(const danger_hits *hits, danger_id id)
{
    for (uint32_t i = 0; i < hits->count; i++)
        if (hits->items[i].id == id && hits->items[i].grave) return true;
    return false;
}

/* The same utterance with no slip forgiven. */
static danger_hits find_as_written(hearing *h)
{
    scene exact = h->scene;
    exact.items = ARENA_ARRAY(h->keep, phrase_item, exact.count);
    for (uint32_t i = 0; i < exact.count; i++) {
        exact.items[i] = h->scene.items[i];
        if (exact.items[i].slip) exact.items[i].tags &= IS_STRANGER | IS_PERSON;
    }
    return danger_find(h->keep, &exact);
}

static void hear_lists(hearing *h)
{
    danger_hits hits = danger_find(h->keep, &h->scene);
    const danger_hits exact = hits.count > 0 ? find_as_written(h) : hits;
    for (uint32_t i = 0; i < hits.count; i++) {
        const danger_hit *hit = &hits.items[i];
        add_engines(h, hit->id, hit->grave ? DANGER_A : DANGER_B, hit->first, hit->end);
        h->items[h->count - 1].slip = hit->grave && !is_grave_among(&exact, hit->id);
    }
    if (hits.count == 0 && danger_is_cry(&h->scene))
        add_engines(h, DANGER_HURT, DANGER_A, 0, h->said.count);
}

/* ---- the book's own words ---- */

static uint32_t item_of_word(const scene *s, uint32_t word)
{
    uint32_t i = 0;
    assert(word < s->said->count);
    while (i + 1 < s->count && s->items[i].end <= word) i++;
    return i;
}

/* "photo eye" hides the word that stands in it from the book's own words too. */
static bool is_hidden(const scene *s, uint32_t first, uint32_t end)
{
    const phrase_item *i = &s->items[item_of_word(s, first)];
    return i->found && i->tags == 0 && i->end - i->first > end - first && i->end >= end;
}

static bool is_as_written(const hearing *h, uint32_t first, str plain)
{
    str word;
    for (size_t at = 0; plain_next(plain, &at, &word); first++)
        if (!str_eq(h->said.words[first].plain, word)) return false;
    return true;
}

/* *unknown: a pattern gave up, so that nobody knows. */
static bool own_phrase_said(hearing *h, const danger_phrase *p, uint32_t *from, uint32_t *to,
                            bool *slip, bool *unknown)
{
    *slip = *unknown = false;
    if (p->pattern != NULL) {
        size_t begin = 0, end = 0;
        str nfc = unicode_nfc(h->keep, h->said.text);
        const pattern_result found =
            pattern_match(p->pattern, h->keep, nfc, h->said.patience, &begin, &end);
        if (found == PATTERN_NO) return false;
        *unknown = found == PATTERN_TOO_HARD;
        *from = 0; /* its place is one of the composed text: the whole utterance is given */
        *to = (uint32_t)h->said.text.n;
        return true;
    }
    uint32_t end = 0, first = phrase_place(h->l, h->keep, &h->said, p->plain, &end);
    if (first == NONE || is_hidden(&h->scene, first, end) ||
        scene_denied(&h->scene, item_of_word(&h->scene, first)))
        return false;
    *slip = !is_as_written(h, first, p->plain);
    *from = h->said.words[first].from;
    *to = h->said.words[end - 1].to;
    return true;
}

/* An emergency counts as list A, but for one that the engine asks about first. */
static danger_list list_of_emergency(str id)
{
    for (int i = 0; i < DANGER_COUNT; i++)
        if (str_is(id, names[i])) return i < DANGER_MIXED_PRODUCTS ? DANGER_A : DANGER_B;
    return DANGER_A;
}

/* Of a note only list A is kept, which no answer is of. */
static uint32_t first_own(const listener *l, listen_where where)
{
    return where == LISTEN_NOTE ? l->of_gates : 0;
}

static void hear_own(hearing *h, listen_where where)
{
    uint32_t from = 0, to = 0;
    bool slip, unknown;
    for (uint32_t i = first_own(h->l, where); i < h->l->own_count; i++) {
        const danger_phrase *p = &h->l->own[i];
        if (!own_phrase_said(h, p, &from, &to, &slip, &unknown)) continue;
        if (unknown) { /* it is asked, and no emergency is named */
            add(h, DANGER_B, from, to);
            continue;
        }
        const bool emergency = p->emergency != NO_ID;
        danger_heard *d = add(
            h,
            emergency ? list_of_emergency(h->l->book->emergencies[p->emergency].id.name) : DANGER_B,
            from, to);
        if (emergency) d->id = h->l->book->emergencies[p->emergency].id.name;
        d->slip = slip && d->list == DANGER_A;
        d->emergency = p->emergency;
        d->question = p->question;
        d->answer = p->answer;
    }
}

/* ---- what is not read ---- */

/* May tell of anything. Where only list A counts it may be of list A. */
static void hear_unread(hearing *h, listen_where where)
{
    if (!h->said.cut) return;
    const uint32_t from = h->said.words[h->said.count - 1].to;
    add(h, where == LISTEN_NOTE ? DANGER_A : DANGER_B, from, (uint32_t)h->said.text.n);
}

/* ---- together ---- */

/* Says no more than that it is one: what says which goes before it, with its own first aid. */
bool danger_is_unspecific(str id)
{
    return str_is(id, names[DANGER_HURT]) || str_is(id, names[DANGER_EMERGENCY]);
}

/* In the order of the table; a book's own after ours. */
uint32_t danger_urgency(str id)
{
    uint32_t i = 0;
    while (i < DANGER_COUNT && !str_is(id, names[i])) i++;
    return danger_is_unspecific(id) ? DANGER_COUNT + 1 : i;
}

static bool goes_before(const danger_heard *a, const danger_heard *b)
{
    if (a->list != b->list) return a->list > b->list;
    return a->list == DANGER_A && danger_urgency(a->id) < danger_urgency(b->id);
}

/* The gravest first, of these the most urgent; else as heard. */
static void sort_dangers(danger_heard *items, uint32_t count)
{
    for (uint32_t i = 1; i < count; i++) {
        const danger_heard moved = items[i];
        uint32_t at = i;
        for (; at > 0 && goes_before(&moved, &items[at - 1]); at--) items[at] = items[at - 1];
        items[at] = moved;
    }
}

static uint32_t keep_grave(danger_heard *items, uint32_t count)
{
    uint32_t kept = 0;
    for (uint32_t i = 0; i < count; i++)
        if (items[i].list == DANGER_A) items[kept++] = items[i];
    assert(kept <= count);
    return kept;
}

dangers listen_danger(const listener *l, arena *keep, str utterance, listen_where where)
{
    hearing h = {.l = l, .keep = keep, .said = said_read(keep, utterance)};
    if (h.said.count == 0) return (dangers){.list = DANGER_NONE};
    h.scene = scene_read(keep, keep, &l->danger, &l->vocabulary, &h.said);
    h.items =
        ARENA_ARRAY(keep, danger_heard, l->own_count - first_own(l, where) + DANGER_COUNT + 1);
    hear_lists(&h);
    hear_own(&h, where);
    hear_unread(&h, where);
    if (where == LISTEN_NOTE) h.count = keep_grave(h.items, h.count);
    sort_dangers(h.items, h.count);
    dangers d = {
        .items = h.items, .count = h.count, .list = h.count > 0 ? h.items[0].list : DANGER_NONE};
    d.doubtful = d.list == DANGER_A;
    for (uint32_t i = 0; i < h.count; i++)
        if (h.items[i].list == DANGER_A && !h.items[i].slip) d.doubtful = false;
    assert(h.count <= l->own_count + DANGER_COUNT + 1);
    if (d.list == DANGER_NONE && where != LISTEN_NOTE && danger_is_help(&h.scene))
        d.list = DANGER_HELP;
    return d;
}

static bool is_grave(arena *scratch, const phrasebook *p, str words)
{
    said s = said_read(scratch, words);
    scene c = scene_read(scratch, scratch, p, NULL, &s);
    danger_hits hits = danger_find(scratch, &c);
    bool one = c.count == 1, grave = hits.count > 0 && hits.items[0].grave;
    return grave || (one && danger_is_grave_word(c.items[0].tags));
}

void listen_are_grave(arena *scratch, const label *words, uint32_t count, bool *grave)
{
    assert(count == 0 || (words != NULL && grave != NULL));
    if (count == 0) return;
    const arena_mark before = arena_here(scratch);
    phrasebook p = phrasebook_new(scratch, NULL, NULL);
    danger_words_add(&p, scratch);
    const arena_mark each = arena_here(scratch);
    for (uint32_t i = 0; i < count; i++) {
        grave[i] = is_grave(scratch, &p, words[i].name);
        arena_back_to(scratch, each);
    }
    arena_back_to(scratch, before);
}
