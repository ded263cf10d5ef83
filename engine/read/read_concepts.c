/* Words that mean the same: `words-for`, and the manifest's `not-danger`. */
#include <assert.h>

#include "base/unicode.h"
#include "read/reader.h"

static bool read_phrase(reader *r, const node *n, const char *what, label *out)
{
    str text;
    if (!read_word(r, n, what, &text)) return false;
    *out = label_kept(r, text, n->at);
    if (unicode_plain(r->scratch, text).n > 0) return true;
    fault *f = fault_add(r->list, FAULT_EMPTY, n->at,
                         "'%.*s' has no letter or digit that could be heard.", STR_ARG(text));
    fault_help(r->list, f, "Write words as people say them.");
    return false;
}

void read_plain_words(reader *r, const node *n, const char *what, phrases *out)
{
    bool list = n->kind == NODE_LIST;
    *out = (phrases){0};
    if (n->kind == NODE_MAP) {
        wrong_kind(r, n, what, "a list of words");
        return;
    }
    if (list && n->count == 0)
        fault_add(r->list, FAULT_EMPTY, n->at, "This list is empty. Leave %s out instead.", what);
    label *all = ARENA_ARRAY(r->keep, label, list ? n->count : 1);
    for (uint32_t i = 0; i < (list ? n->count : 1); i++) {
        const node *item = list ? n->items[i] : n;
        if (list && item->kind == NODE_TEXT && item_twice(r, n, i)) continue;
        if (read_phrase(r, item, "a word", &all[out->count])) out->count++;
    }
    out->items = all;
    assert(out->count <= (list ? n->count : 1));
}

/* ---- by language ---- */

static void add_words(reader *r, concept *c, str language, const node *n)
{
    concept_words *one = (concept_words *)(uintptr_t)&c->items[c->count];
    assert(language.n > 0);
    *one = (concept_words){.language = language};
    read_plain_words(r, n, "'words-for'", &one->words);
    if (one->words.count > 0) c->count++;
}

static bool is_language_key(reader *r, const node_entry *e)
{
    if (is_language(e->key)) return true;
    fault *f = fault_add(r->list, FAULT_BAD_LANGUAGE, e->key_at, "'%.*s' is no language tag.",
                         STR_ARG(e->key));
    fault_help(r->list, f,
               "Write a tag such as 'en' or 'es', and the words beneath it; or only a list of "
               "words in the book's own language.");
    return false;
}

static void read_concept(reader *r, const node *n, concept *c)
{
    bool map = n->kind == NODE_MAP;
    c->items = ARENA_ARRAY(r->keep, concept_words, map ? n->count : 1);
    if (!map) {
        add_words(r, c, r->book->language, n);
        return;
    }
    if (n->count == 0)
        fault_add(r->list, FAULT_EMPTY, n->at, "No words stand here for '%.*s'.",
                  STR_ARG(c->id.name));
    const node_entry **sorted = entries_by_key(r, n);
    for (int own = 1; own >= 0; own--) /* the book's own language first */
        for (uint32_t i = 0; i < n->count; i++) {
            if (str_eq(sorted[i]->key, r->book->language) != (own == 1)) continue;
            if (is_language_key(r, sorted[i]))
                add_words(r, c, str_copy(r->keep, sorted[i]->key), sorted[i]->value);
        }
}

void read_concepts(reader *r)
{
    const name_table *t = &r->tables[SECTION_CONCEPTS];
    concept *all = ARENA_ARRAY(r->keep, concept, t->count);
    for (uint32_t i = 0; i < t->count; i++) {
        all[i] = (concept){.id = t->items[i].id};
        read_concept(r, t->items[i].body, &all[i]);
    }
    r->book->concepts = all;
    r->book->concept_count = t->count;
}
