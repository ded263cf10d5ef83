/* Lists, fixed words, names of entries. */
#include <assert.h>

#include "base/sorted.h"
#include "read/reader.h"

const char *node_says(const node *n)
{
    return n->kind == NODE_LIST ? "a list" : n->kind == NODE_MAP ? "a map" : "one value";
}

/* What the author wrote, for an example. */
static str first_word(const node *n)
{
    const node *one = n->kind == NODE_LIST && n->count > 0 ? n->items[0] : n;
    return one != NULL && one->kind == NODE_TEXT && one->text.n > 0 ? one->text : STR("name");
}

fault *wrong_kind(reader *r, const node *n, const char *what, const char *wanted)
{
    const bool begins =
        str_starts(str_of(what), "A ") || str_starts(str_of(what), "An "); /* a sentence */
    fault *f = fault_add(r->list, FAULT_WRONG_KIND, n->at, "Here stands %s, but %s%s must be %s.",
                         node_says(n), begins ? "a" : "", what + begins, wanted);
    if (n->kind == NODE_TEXT && str_starts(str_of(wanted), "a list"))
        fault_help(r->list, f, "Write [%.*s].", STR_ARG(n->text));
    else if (n->kind == NODE_MAP && n->count > 0 &&
             (str_starts(str_of(wanted), "a list of causes") ||
              str_is(str_of(wanted), "a list of names")))
        fault_help(r->list, f, "Write [%.*s].", STR_ARG(n->entries[0].key));
    else if (str_starts(str_of(wanted), "a map of causes to"))
        fault_help(r->list, f, "Write such as {%.*s: often}.", STR_ARG(first_word(n)));
    else if (str_starts(str_of(wanted), "a map, such as {question"))
        fault_help(r->list, f,
                   "Write {question: answer}; two that must both hold are {one: yes, other: no}.");
    else if (str_is(str_of(what), "A risk"))
        fault_help(r->list, f, "Write such as {worst: %.*s, chance: remote}.",
                   STR_ARG(n->kind == NODE_TEXT ? n->text : STR("marginal")));
    else if (str_starts(str_of(wanted), "a map of names to texts"))
        fault_help(r->list, f, "Give each a line of its own, such as '%.*s: what people read'.",
                   STR_ARG(first_word(n)));
    return f;
}

label label_kept(reader *r, str name, span at)
{
    return (label){str_copy(r->keep, name), at};
}

bool read_word(reader *r, const node *n, const char *what, str *word)
{
    assert(n != NULL && word != NULL);
    if (n->kind != NODE_TEXT) {
        wrong_kind(r, n, what, "a single word");
        return false;
    }
    *word = str_trim(n->text);
    if (word->n > 0) return true;
    fault_add(r->list, FAULT_EMPTY, n->at, "Here stands nothing, but %s is wanted.", what);
    return false;
}

uint32_t read_choice(reader *r, const node *n, const char *what, const char *const *words)
{
    assert(words[0] != NULL);
    str word;
    if (!read_word(r, n, what, &word)) return NO_ID;
    uint32_t count = 0;
    for (; words[count] != NULL; count++)
        if (str_is(word, words[count])) return count;
    str *names = ARENA_ARRAY(r->scratch, str, count);
    for (uint32_t i = 0; i < count; i++) names[i] = str_of(words[i]);
    fault *f = fault_add(r->list, FAULT_UNKNOWN_WORD, n->at, "'%.*s' is no word for %s.",
                         STR_ARG(word), what);
    suggest(r, f, word, names, count);
    return NO_ID;
}

bool read_yes(reader *r, const node *n, const char *what, bool *yes)
{
    static const char *const words[] = {"no", "yes", NULL};
    uint32_t word = read_choice(r, n, what, words);
    *yes = word == 1;
    return word != NO_ID;
}

static uint32_t key_of(const node *item)
{
    uint32_t key = 2166136261U; /* FNV-1a */
    if (item->kind != NODE_TEXT) return 0;
    for (size_t i = 0; i < item->text.n; i++) key = (key ^ (uint8_t)item->text.p[i]) * 16777619U;
    return key;
}

/* Of the list that is being read, up to this item: texts with another key are not the same. */
static const uint32_t *keys_until(reader *r, const node *list, uint32_t i)
{
    if (r->keyed != list) r->keyed_count = 0;
    r->keyed = list;
    for (; r->keyed_count <= i; r->keyed_count++)
        r->item_keys[r->keyed_count] = key_of(list->items[r->keyed_count]);
    return r->item_keys;
}

bool item_twice(reader *r, const node *list, uint32_t i)
{
    assert(list->kind == NODE_LIST && i < list->count);
    const node *item = list->items[i];
    if (i == LIST_ITEMS_MAX) {
        fault *f = fault_add(r->list, FAULT_TOO_MANY, item->at, "This list has more than %d items.",
                             LIST_ITEMS_MAX);
        fault_help(r->list, f, "Shorten it.");
    }
    if (i >= LIST_ITEMS_MAX) return true;
    const uint32_t *keys = keys_until(r, list, i);
    for (uint32_t k = 0; k < i; k++) {
        if (keys[k] != keys[i]) continue;
        if (list->items[k]->kind != NODE_TEXT || !str_eq(list->items[k]->text, item->text))
            continue;
        fault *f = fault_add(r->list, FAULT_ITEM_TWICE, item->at,
                             "'%.*s' stands twice in this list.", STR_ARG(item->text));
        fault_note_at(r->list, f, list->items[k]->at, "It stands here already.");
        fault_help(r->list, f, "Leave one of them out.");
        return true;
    }
    return false;
}

ids ids_of(uint32_t *items, uint32_t count)
{
    uint32_t used = 0;
    SORT(items, count, by_rising_id);
    for (uint32_t i = 0; i < count; i++)
        if (used == 0 || items[used - 1] != items[i]) items[used++] = items[i];
    return (ids){items, used};
}

void ids_add(reader *r, ids_draft *all, const names_found *more)
{
    if (all->count + more->count > all->room) {
        const uint32_t room = (all->count + more->count) * 2;
        uint32_t *items = ARENA_ARRAY(r->keep, uint32_t, room);
        for (uint32_t i = 0; i < all->count; i++) items[i] = all->items[i];
        all->items = items;
        all->room = room;
    }
    for (uint32_t i = 0; i < more->count; i++) all->items[all->count++] = more->ids[i];
}

static int by_key(const void *a, const void *b)
{
    const node_entry *x = *(const node_entry *const *)a, *y = *(const node_entry *const *)b;
    return str_cmp(x->key, y->key);
}

const node_entry **entries_by_key(reader *r, const node *map)
{
    assert(map->kind == NODE_MAP);
    const node_entry **sorted = ARENA_ARRAY(r->scratch, const node_entry *, map->count);
    for (uint32_t i = 0; i < map->count; i++) sorted[i] = &map->entries[i];
    SORT(sorted, map->count, by_key);
    return sorted;
}
