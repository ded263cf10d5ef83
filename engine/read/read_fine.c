/* What an author stands by: `fine: {T910: why}` in an entry, or in the manifest for the whole book.
 * Read before anything is checked, so that it holds for every later stage. */
#include <assert.h>

#include "read/reader.h"

static void read_one(reader *r, const node_entry *e, span within)
{
    fault_code code = FAULT_FINE_FOR_NOTHING;
    if (!fault_warning_of(e->key, &code)) {
        fault *f = fault_add(r->list, FAULT_FINE_NO_DOUBT, e->key_at,
                             "'%.*s' is no doubt that can be called fine.", STR_ARG(e->key));
        fault_help(r->list, f,
                   "Write the code of the warning as 'check' prints it, such as T910; an error has "
                   "to be mended.");
    } else if (e->value->kind != NODE_TEXT || str_trim(e->value->text).n == 0) {
        fault *f = fault_add(r->list, FAULT_FINE_NO_DOUBT, e->key_at,
                             "Why %.*s is fine here is not said.", STR_ARG(e->key));
        fault_help(r->list, f, "Write the reason, such as '%.*s: both are seen only in frost'.",
                   STR_ARG(e->key));
    } else {
        faults_call_fine(r->list, code, within, e->key_at);
    }
}

static void read_fine(reader *r, const node *n, span within)
{
    if (n->kind != NODE_MAP) {
        fault *f = fault_add(r->list, FAULT_FINE_NO_DOUBT, n->at,
                             "'fine' is a map of doubts, each with its reason.");
        fault_help(r->list, f, "Write 'fine: {T910: why}'.");
        return;
    }
    for (uint32_t i = 0; i < n->count; i++) read_one(r, &n->entries[i], within);
}

/* An entry reaches from its name to the end of what stands beneath it. */
static void read_entries(reader *r, const node *section, bool manifest)
{
    const span everywhere = {.file = NO_FILE};
    for (uint32_t i = 0; section != NULL && section->kind == NODE_MAP && i < section->count; i++) {
        const node_entry *e = &section->entries[i];
        const node *fine =
            manifest ? (str_is(e->key, "fine") ? e->value : NULL) : node_get(e->value, "fine");
        const span entry = {e->key_at.file, e->key_at.start, e->value->at.end};
        if (fine != NULL) read_fine(r, fine, manifest ? everywhere : entry);
    }
}

void read_fines(reader *r, const node *const *roots)
{
    static const char *const sections[] = {"kinds",       "questions",   "quantities", "symptoms",
                                           "conclusions", "causes",      "fixes",      "rules",
                                           "cases",       "emergencies", NULL};
    assert(r->list != NULL);
    for (uint32_t f = 0; f < r->book->files->count; f++) {
        if (roots[f] == NULL) continue;
        read_entries(r, node_get(roots[f], "book"), true);
        for (uint32_t s = 0; sections[s] != NULL; s++)
            read_entries(r, node_get(roots[f], sections[s]), false);
    }
}
