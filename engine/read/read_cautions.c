/* The manifest's cautions: shown before anything else, or before what has their hazards. */
#include <assert.h>
#include <string.h>

#include "read/reader.h"

static bool has_hazards(const node *n)
{
    return n->kind == NODE_MAP && (node_get(n, "from") != NULL || node_get(n, "text") != NULL);
}

static void read_hazard_caution(reader *r, const node *n, hazard_caution *out)
{
    const label here = {STR(""), n->at};
    if (!check_map(r, n, KEYS_BOOK_CAUTION)) return;
    read_keys(r, n, here, KEYS_BOOK_CAUTION, out);
    const node *from = need(r, n, here, KEYS_BOOK_CAUTION, "from");
    safety named = {0};
    if (from != NULL) read_hazards(r, from, &named);
    memcpy(out->hazards, named.hazards, sizeof out->hazards);
}

void read_cautions(reader *r, const node *n)
{
    if (n == NULL) return;
    const bool list = n->kind == NODE_LIST;
    const uint32_t count = list ? n->count : 1;
    if (count == 0)
        fault_add(r->list, FAULT_EMPTY, n->at, "This list is empty. Leave 'cautions' out instead.");
    texts *plain = ARENA_ARRAY(r->keep, texts, count);
    hazard_caution *with = ARENA_ARRAY(r->keep, hazard_caution, count);
    r->book->cautions = (texts_list){plain, 0};
    r->book->hazard_cautions = with;
    for (uint32_t i = 0; i < count; i++) {
        const node *item = list ? n->items[i] : n;
        if (list && item->kind == NODE_TEXT && item_twice(r, n, i)) continue;
        if (has_hazards(item))
            read_hazard_caution(r, item, &with[r->book->hazard_caution_count++]);
        else if (read_texts(r, item, "'cautions'", TEXT_SENTENCE, &plain[r->book->cautions.count]))
            r->book->cautions.count++;
    }
    assert(r->book->cautions.count + r->book->hazard_caution_count <= count);
}
