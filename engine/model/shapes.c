/* Maps with known keys, lists, fixed words. */
#include <assert.h>
#include <stdlib.h>

#include "model/reader.h"

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

void wrong_kind(reader *r, const node *n, const char *what, const char *wanted)
{
    fault *f = fault_add(r->list, FAULT_WRONG_KIND, n->at, "Here stands %s, but %s must be %s.",
                         node_says(n), what, wanted);
    if (n->kind == NODE_TEXT && str_starts(str_of(wanted), "a list"))
        fault_help(r->list, f, "Write [%.*s].", STR_ARG(n->text));
    else if (n->kind == NODE_MAP && n->count > 0 && str_starts(str_of(wanted), "a list of causes"))
        fault_help(r->list, f, "Write [%.*s].", STR_ARG(n->entries[0].key));
    else if (str_starts(str_of(wanted), "a map of causes to"))
        fault_help(r->list, f, "Write such as {%.*s: often}.", STR_ARG(first_word(n)));
    else if (str_starts(str_of(wanted), "a map of names to texts"))
        fault_help(r->list, f, "Give each a line of its own, such as '%.*s: what people read'.", STR_ARG(first_word(n)));
}

label label_kept(reader *r, str name, span at)
{
    return (label){str_copy(r->keep, name), at};
}

static bool key_known(str key, const char *const *keys)
{
    for (; *keys != NULL; keys++)
        if (str_is(key, *keys)) return true;
    return false;
}

/* Keys that the language had before, and what to write now. */
static const struct {
    const char *what, *key, *now;
} old_keys[] = {
    {"A question", "first",
     "To rule out danger write 'safe' with the answers that let the case go on, such as 'safe: [no]'; for a fact that is told right after "
     "that, 'early: yes'."},
};

static bool is_old_key(reader *r, const node_entry *e, const char *what)
{
    for (size_t i = 0; i < sizeof old_keys / sizeof *old_keys; i++) {
        if (!str_is(str_of(what), old_keys[i].what) || !str_is(e->key, old_keys[i].key)) continue;
        fault *f = fault_add(r->list, FAULT_OLD_WORD, e->key_at, "'%s' is a key of edition 1 of the language.", old_keys[i].key);
        fault_help(r->list, f, "%s", old_keys[i].now);
        return true;
    }
    return false;
}

static void unknown_key(reader *r, const node_entry *e, const char *what, const char *const *keys)
{
    if (is_old_key(r, e, what)) return;
    uint32_t count = 0;
    while (keys[count] != NULL) count++;
    str *names = ARENA_ARRAY(r->scratch, str, count);
    for (uint32_t i = 0; i < count; i++) names[i] = str_of(keys[i]);
    fault *f = fault_add(r->list, FAULT_UNKNOWN_KEY, e->key_at, "%s has no key '%.*s'.", what,
                         STR_ARG(e->key));
    suggest(r, f, e->key, names, count);
}

bool check_map(reader *r, const node *n, const char *what, const char *const *keys)
{
    assert(keys != NULL && keys[0] != NULL);
    if (n->kind != NODE_MAP) {
        wrong_kind(r, n, what, "a map");
        return false;
    }
    for (uint32_t i = 0; i < n->count; i++) {
        if (key_known(n->entries[i].key, keys)) continue;
        unknown_key(r, &n->entries[i], what, keys);
        r->strange = n;
    }
    return true;
}

static bool has_key(const node *map, const char *key)
{
    for (uint32_t i = 0; i < map->count; i++)
        if (str_is(map->entries[i].key, key)) return true;
    return false;
}

/* A misspelt key is reported as unknown; it isn't missing besides. Where no key is unknown none is misspelt, however
 * like another it may be: 'then' and 'when'. */
static bool misspelt(reader *r, const node *map, const char *key)
{
    assert(map->kind == NODE_MAP);
    if (r->strange != map) return false;
    str wanted = str_of(key);
    for (uint32_t i = 0; i < map->count; i++)
        if (nearest_name(r, map->entries[i].key, &wanted, 1) == 0) return true;
    return false;
}

const node *need(reader *r, const node *map, label owner, const char *what, const char *key,
                 const char *example)
{
    assert(map->kind == NODE_MAP);
    const node *value = node_get(map, key);
    if (value != NULL || has_key(map, key) || misspelt(r, map, key)) return value;
    fault *f = owner.name.n > 0
                   ? fault_add(r->list, FAULT_MISSING_KEY, owner.at, "%s '%.*s' has no '%s'.", what,
                               STR_ARG(base_of_name(owner.name)), key)
                   : fault_add(r->list, FAULT_MISSING_KEY, owner.at, "%s has no '%s'.", what, key);
    fault_help(r->list, f, "Add '%s: %s'.", key, example);
    return NULL;
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
    for (uint32_t k = 0; k < i; k++) {
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

static int by_id(const void *a, const void *b)
{
    uint32_t x = *(const uint32_t *)a, y = *(const uint32_t *)b;
    return (x > y) - (x < y);
}

ids ids_of(uint32_t *items, uint32_t count)
{
    uint32_t used = 0;
    if (count > 0) qsort(items, count, sizeof *items, by_id);
    for (uint32_t i = 0; i < count; i++)
        if (used == 0 || items[used - 1] != items[i]) items[used++] = items[i];
    return (ids){items, used};
}

void ids_add(reader *r, ids_draft *all, const names_found *more)
{
    if (all->count + more->count > all->room) {
        uint32_t *items = ARENA_ARRAY(r->keep, uint32_t, (all->count + more->count) * 2);
        for (uint32_t i = 0; i < all->count; i++) items[i] = all->items[i];
        all->items = items;
        all->room = (all->count + more->count) * 2;
    }
    for (uint32_t i = 0; i < more->count; i++) all->items[all->count++] = more->ids[i];
}

ids read_ids(reader *r, section s, const node *n, const char *what)
{
    assert(s < SECTION_COUNT && n != NULL);
    if (n->kind != NODE_LIST) {
        wrong_kind(r, n, what, "a list of names");
        return (ids){0};
    }
    ids_draft all = {0};
    for (uint32_t i = 0; i < n->count; i++) {
        str name;
        names_found found;
        if (!read_word(r, n->items[i], "a name", &name) || item_twice(r, n, i)) continue;
        if (resolve_many(r, s, name, n->items[i]->at, &found)) ids_add(r, &all, &found);
    }
    return ids_of(all.items, all.count);
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
    if (map->count > 0) qsort(sorted, map->count, sizeof *sorted, by_key);
    return sorted;
}
