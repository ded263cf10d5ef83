/* Names looked up where an entry must have them. */
#include <assert.h>

#include "base/str_head.h"
#include "read/reader.h"

static void no_such_name(reader *r, section s, str name, span at)
{
    const name_table *t = &r->bases[s];
    if (missing_before(r, (int)s, name) || may_be_lost(r, name, t->names, t->count)) return;
    const char *elsewhere = name_elsewhere(r, name);
    fault *f = elsewhere != NULL
                   ? fault_add(r->list, FAULT_UNKNOWN_NAME, at,
                               "'%.*s' is a %s; here the name of a %s is wanted.", STR_ARG(name),
                               elsewhere, section_entry(s))
                   : fault_add(r->list, FAULT_UNKNOWN_NAME, at, "There is no %s '%.*s'.",
                               section_entry(s), STR_ARG(name));
    suggest_name(r, f, name, t->names, t->count);
}

uint32_t resolve(reader *r, section s, str name, span at)
{
    uint32_t id;
    if (look_up_one(r, s, name, at, &id) == LOOK_UP_MISSING) no_such_name(r, s, name, at);
    if (id != NO_ID) r->tables[s].items[id].meant = true;
    return id;
}

bool resolve_many(reader *r, section s, str name, span at, names_found *out)
{
    look_up_state state = look_up(r, s, name, at, out);
    if (state == LOOK_UP_MISSING) no_such_name(r, s, name, at);
    return state == LOOK_UP_FOUND;
}

uint32_t resolve_role(reader *r, const node *n)
{
    str name;
    if (!read_word(r, n, "a role", &name)) return NO_ID;
    uint32_t id = book_role(r->book, name);
    if (id != NO_ID)
        mention_add(r->book->mentions, (mention){NAMED_ROLE, MENTION_ALONE, r->book->roles[id].name,
                                                 STR(""), STR(""), n->at});
    if (id != NO_ID || r->roles_lost || missing_before(r, WHERE_ROLE, name)) return id;
    str *roles = ARENA_ARRAY(r->scratch, str, r->book->role_count);
    for (uint32_t i = 0; i < r->book->role_count; i++) roles[i] = r->book->roles[i].name;
    fault *f = fault_add(r->list, FAULT_UNKNOWN_ROLE, n->at,
                         "There is no role '%.*s' among the roles of this book.", STR_ARG(name));
    suggest(r, f, name, roles, r->book->role_count);
    return NO_ID;
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

uint32_t resolve_kind(reader *r, str name, span at)
{
    uint32_t id = book_kind(r->book, name);
    if (id != NO_ID)
        mention_add(r->book->mentions, (mention){NAMED_KIND, MENTION_ALONE,
                                                 r->book->kinds[id].id.name, STR(""), STR(""), at});
    if (id != NO_ID || missing_before(r, WHERE_KIND, name)) return id;
    if (r->names_lost && r->book->kind_count == 0)
        return NO_ID; /* it may stand in what could not be read */
    str *names = ARENA_ARRAY(r->scratch, str, r->book->kind_count);
    for (uint32_t i = 0; i < r->book->kind_count; i++) names[i] = r->book->kinds[i].id.name;
    fault *f = fault_add(r->list, FAULT_UNKNOWN_KIND, at, "There is no kind of equipment '%.*s'.",
                         STR_ARG(name));
    if (r->book->kind_count == 0)
        fault_help(r->list, f,
                   "Name it in a section 'kinds', with 'one: %.*s' and 'ask: Which are there?'.",
                   STR_ARG(name));
    else
        suggest(r, f, name, names, r->book->kind_count);
    return NO_ID;
}
