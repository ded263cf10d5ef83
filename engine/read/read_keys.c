/* Maps with known keys, read by the tables of key_tables.c. */
#include <assert.h>
#include <string.h>

#include "read/reader.h"

/* ---- which keys there are ---- */

static bool is_among(str word, const char *const *words)
{
    for (; *words != NULL; words++)
        if (str_is(word, *words)) return true;
    return false;
}

/* `from`: one of its keys, where the search begins; people write keys in the order of their table.
 */
static const key *find_key_from(const key_map *map, const key *from, str name)
{
    const key *const end = map->keys + map->count;
    if (name.n == 0) return NULL;
    for (uint32_t left = map->count; left > 0; left--, from++) {
        if (from == end) from = map->keys;
        if (name.p[0] == from->name[0] && str_is(name, from->name)) return from;
    }
    return NULL;
}

static const key *find_key(const key_map *map, str name)
{
    return find_key_from(map, map->keys, name);
}

/* "how-often common" lacks its colon, which no YAML can know. */
static void suggest_colon(reader *r, fault *f, const key_map *keys, str text)
{
    for (uint32_t i = 0; i < keys->count; i++) {
        const str key = str_of(keys->keys[i].name);
        if (!str_starts(text, keys->keys[i].name) || text.n <= key.n || text.p[key.n] != ' ')
            continue;
        const str rest = str_trim(str_slice(text, key.n, text.n));
        fault_help(r->list, f, "There is no colon: write '%.*s: %.*s'.", STR_ARG(key),
                   STR_ARG(rest));
        return;
    }
}

/* `keys`: those that it may have; or null. */
static bool is_map(reader *r, const key_map *keys, const node *n, const char *what)
{
    if (n->kind == NODE_MAP) return true;
    fault *f = wrong_kind(r, n, what, "a map");
    if (n->kind == NODE_TEXT && keys != NULL) suggest_colon(r, f, keys, n->text);
    return false;
}

/* What has such a key: somebody wrote one thing in the section of another. */
static const char *key_elsewhere(str name)
{
    static const struct {
        key_map_id keys;
        const char *what;
    } maps[] = {{KEYS_QUESTION, "question"},  {KEYS_SYMPTOM, "symptom"},
                {KEYS_CAUSE, "cause"},        {KEYS_FIX, "fix"},
                {KEYS_RULE, "rule"},          {KEYS_CASE, "case"},
                {KEYS_PROCEDURE, "procedure"}};
    for (size_t i = 0; i < sizeof maps / sizeof maps[0]; i++)
        if (find_key(key_map_of(maps[i].keys), name) != NULL) return maps[i].what;
    return NULL;
}

static void unknown_key(reader *r, const node *map, const node_entry *e, const char *what,
                        const str *names, uint32_t count)
{
    fault *f = fault_add(r->list, FAULT_UNKNOWN_KEY, e->key_at, "%s has no key '%.*s'.", what,
                         STR_ARG(e->key));
    suggest_key(r, f, e->key, names, count);
    const char *elsewhere = f->help.n == 0 ? key_elsewhere(e->key) : NULL;
    if (elsewhere != NULL)
        fault_help(r->list, f, "'%.*s' is a key of a %s; here it has no meaning.", STR_ARG(e->key),
                   elsewhere);
    r->strange = map;
}

bool wrong_together(reader *r, const node *map, const char *key, const char *why,
                    const char *remedy)
{
    for (uint32_t i = 0; i < map->count; i++) {
        if (!str_is(map->entries[i].key, key)) continue;
        fault *f = fault_add(r->list, FAULT_KEY_OUT_OF_PLACE, map->entries[i].key_at,
                             "'%s' has no meaning here: %s.", key, why);
        fault_help(r->list, f, "%s", remedy);
        return true;
    }
    return false;
}

bool check_words(reader *r, const node *n, const char *what, const char *const *words)
{
    assert(words != NULL && words[0] != NULL);
    if (!is_map(r, NULL, n, what)) return false;
    uint32_t count = 0;
    while (words[count] != NULL) count++;
    str *names = ARENA_ARRAY(r->scratch, str, count);
    for (uint32_t i = 0; i < count; i++) names[i] = str_of(words[i]);
    for (uint32_t i = 0; i < n->count; i++)
        if (!is_among(n->entries[i].key, words))
            unknown_key(r, n, &n->entries[i], what, names, count);
    return true;
}

/* Those of this edition. */
static const str *names_of(reader *r, const key_map *map, uint32_t *count)
{
    str *names = ARENA_ARRAY(r->scratch, str, map->count);
    *count = 0;
    for (uint32_t i = 0; i < map->count; i++)
        if (map->keys[i].kind != KEY_OLD) names[(*count)++] = str_of(map->keys[i].name);
    return names;
}

/* "takes: 90 min" for "minutes: 90", "takes: 1.5 h" for "minutes: 1.5 h"; empty if it depends on
 * what is meant. */
static str written_now(reader *r, const key *k, const node *value)
{
    const char *gap = k->example == NULL ? NULL : strchr(k->example, '*');
    if (gap == NULL || value == NULL || value->kind != NODE_TEXT) return STR("");
    double number;
    str text = str_trim(value->text), before = {k->example, (size_t)(gap - k->example)};
    return str_printf(r->scratch, "%.*s%.*s%s", STR_ARG(before), STR_ARG(text),
                      str_to_double(text, &number) ? gap + 1 : "");
}

static bool told_old(reader *r, const node_entry *e, const key *k)
{
    if (k->kind != KEY_OLD) return false;
    fault *f = fault_add(r->list, FAULT_OLD_WORD, e->key_at,
                         "'%s' is a word of edition 1 of the rule language.", k->name);
    str now = written_now(r, k, e->value);
    if (now.n > 0)
        fault_help(r->list, f, "Write '%.*s'.", STR_ARG(now));
    else
        fault_help(r->list, f, "%s", k->says);
    return true;
}

bool old_key(reader *r, const node_entry *e, key_map_id which)
{
    const key *k = find_key(key_map_of(which), e->key);
    return k != NULL && told_old(r, e, k);
}

bool check_map(reader *r, const node *n, key_map_id which)
{
    const key_map *map = key_map_of(which);
    if (!is_map(r, map, n, map->what)) return false;
    const key *last = map->keys;
    for (uint32_t i = 0; i < n->count; i++) {
        uint32_t count;
        const key *k = find_key_from(map, last, n->entries[i].key);
        if (k != NULL) {
            told_old(r, &n->entries[i], k);
            last = k;
            continue;
        }
        const str *names = names_of(r, map, &count);
        unknown_key(r, n, &n->entries[i], map->what, names, count);
    }
    return true;
}

void unknown_section(reader *r, const node_entry *e)
{
    const key_map *file = key_map_of(KEYS_FILE);
    uint32_t count;
    fault *f = fault_add(r->list, FAULT_UNKNOWN_SECTION, e->key_at, "There is no section '%.*s'.",
                         STR_ARG(e->key));
    const str *names = names_of(r, file, &count);
    suggest_key(r, f, e->key, names, count);
}

/* ---- keys that must be there ---- */

static bool has_key(const node *map, const char *key)
{
    for (uint32_t i = 0; i < map->count; i++)
        if (str_is(map->entries[i].key, key)) return true;
    return false;
}

/* A misspelt key is reported as unknown; it isn't missing besides. Where no key is unknown none is
 * misspelt, however like another it may be: 'then' and 'when'. */
static bool misspelt(reader *r, const node *map, const char *key)
{
    assert(map->kind == NODE_MAP);
    if (r->strange != map) return false;
    str wanted = str_of(key);
    for (uint32_t i = 0; i < map->count; i++)
        if (nearest_name(r, map->entries[i].key, &wanted, 1) == 0) return true;
    return false;
}

/* Whose work it is: an example would be some other book's role. */
static void help_role(reader *r, fault *f, const char *name)
{
    text_builder b = {.keep = r->scratch};
    for (uint32_t i = 0; i < r->book->role_count; i++)
        text_addf(&b, "%s'%s: %.*s'",
                  i == 0                         ? ""
                  : i + 1 == r->book->role_count ? " or "
                                                 : ", ",
                  name, STR_ARG(r->book->roles[i].name));
    if (b.length > 0) fault_help(r->list, f, "Add %.*s.", STR_ARG(text_done(&b)));
}

const node *need(reader *r, const node *map, label owner, key_map_id which, const char *name)
{
    assert(map->kind == NODE_MAP);
    const node *value = node_get(map, name);
    if (value != NULL || has_key(map, name) || misspelt(r, map, name)) return value;
    const char *one = key_map_of(which)->one;
    const key *k = key_find(key_map_of(which), name);
    assert(k->example != NULL);
    fault *f = owner.name.n > 0
                   ? fault_add(r->list, FAULT_MISSING_KEY, owner.at, "%s '%.*s' has no '%s'.", one,
                               STR_ARG(base_of_name(owner.name)), name)
                   : fault_add(r->list, FAULT_MISSING_KEY, owner.at, "%s has no '%s'.", one, name);
    if (k->kind == KEY_ROLE)
        help_role(r, f, name);
    else
        fault_help(r->list, f, "Add '%s: %s'.", name, k->example);
    return NULL;
}

void read_keys(reader *r, const node *map, label owner, key_map_id which, void *entry)
{
    const key_map *keys = key_map_of(which);
    const key *const end = keys->keys + keys->count;
    for (const key *k = keys->keys; k < end; k++) {
        if (k->kind == KEY_OWN || k->kind == KEY_OLD) continue;
        const node *n = k->must ? need(r, map, owner, which, k->name) : node_get(map, k->name);
        if (n != NULL) r->read_key(r, n, k, entry);
    }
}
