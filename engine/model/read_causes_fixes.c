/* Causes, and what cures them. */
#include <assert.h>

#include "model/reader.h"

static const char *const cause_keys[] = {"text",       "how-often",     "part",
                                         "means",      "spare-parts",   "confirmed-by",
                                         "never-with", "brought-on-by", "only-when",
                                         "for-each",   "each",          NULL};
static const char *const fix_keys[] = {"text",       "steps",   "cures",   "minutes",  "role",
                                       "harm",       "protect", "isolate", "put-back", "only-when",
                                       "look-again", "parts",   "cost",    "for-each",
                                       "adjust",     NULL};
enum { HOW_OFTEN_LEFT_OUT = 1 };

/* The cause by its own name, bare or with its piece; "of any" means the others. */
static void check_not_itself(reader *r, const node *n, const char *key, const cause *self)
{
    str full = self->id.name, base = self->of.base;
    for (uint32_t i = 0; n->kind == NODE_LIST && i < n->count; i++) {
        const node *item = n->items[i];
        if (item->kind != NODE_TEXT || (!str_eq(item->text, full) && !str_eq(item->text, base))) continue;
        fault *f = fault_add(r->list, FAULT_WITH_ITSELF, item->at, "'%.*s' stands in its own '%s'.", STR_ARG(base), key);
        fault_help(r->list, f, "Leave it out; name other causes only.");
    }
}

static ids without(ids all, uint32_t self)
{
    uint32_t *items = (uint32_t *)(uintptr_t)all.items, used = 0;
    for (uint32_t i = 0; i < all.count; i++)
        if (all.items[i] != self) items[used++] = all.items[i];
    return (ids){items, used};
}

static ids read_other_causes(reader *r, const node *map, const char *key, const cause *self)
{
    assert(map->kind == NODE_MAP);
    const node *n = node_get(map, key);
    if (n == NULL) return (ids){0};
    check_not_itself(r, n, key, self);
    return without(read_ids(r, SECTION_CAUSES, n, key), table_find(&r->tables[SECTION_CAUSES], self->id.name));
}

static void check_not_reserved(reader *r, const cause *c)
{
    if (!str_is(c->id.name, "something-not-listed")) return;
    fault *f = fault_add(
        r->list, FAULT_BAD_NAME, c->id.at,
        "'something-not-listed' can't name a cause: it stands for all that has no name here.");
    fault_help(r->list, f, "Give the cause a name of its own.");
}

static void each_of_one(reader *r, const node *n)
{
    fault *f = fault_add(r->list, FAULT_KEY_OUT_OF_PLACE, n->at,
                         "'each' has no meaning here: this cause is there once, not for each piece of equipment.");
    fault_help(r->list, f, "Leave it out, or write the cause 'for-each' with a kind.");
}

/* How often is said of the kind together, unless "each: yes". */
static void read_each(reader *r, const node *n, cause *c)
{
    if (n != NULL) read_yes(r, n, "'each'", &c->each);
    if (n != NULL && c->of.piece == NO_ID) each_of_one(r, n);
    if (c->of.piece == NO_ID || c->each) return;
    uint32_t kind = r->book->pieces[c->of.piece].kind, count = 0;
    for (uint32_t i = 0; i < r->book->piece_count; i++) count += r->book->pieces[i].kind == kind;
    c->how_often /= count;
}

static void read_cause(reader *r, const node *map, cause *c)
{
    c->how_often = HOW_OFTEN_LEFT_OUT;
    c->confirmed_by = NO_ID;
    check_not_reserved(r, c);
    if (!check_map(r, map, "A cause", cause_keys)) return;
    const node *text = need(r, map, c->id, "The cause", "text", "what is wrong"),
               *often = node_get(map, "how-often");
    const node *spare = node_get(map, "spare-parts"), *role = node_get(map, "confirmed-by");
    if (text != NULL) read_texts(r, text, "'text'", TEXT_SENTENCE, &c->text);
    if (often != NULL) read_how_often(r, often, &c->how_often);
    c->often_said = often != NULL ? often->at : span_nowhere();
    c->body = map;
    read_texts_at(r, map, "part", &c->part);
    read_texts_at(r, map, "means", &c->means);
    if (spare != NULL) read_texts_list(r, spare, "'spare-parts'", TEXT_PHRASE, &c->spare_parts);
    if (role != NULL) c->confirmed_by = resolve_role(r, role);
    c->only_when = read_condition_at(r, map, "only-when");
    read_each(r, node_get(map, "each"), c);
    c->never_with = read_other_causes(r, map, "never-with", c);
    c->brought_on_by = read_other_causes(r, map, "brought-on-by", c);
}

void read_causes(reader *r)
{
    const name_table *t = &r->tables[SECTION_CAUSES];
    cause *causes = ARENA_ARRAY(r->keep, cause, t->count);
    r->book->causes = causes;
    r->book->cause_count = t->count;
    for (uint32_t i = 0; i < t->count; i++) {
        enter(r, &t->items[i]);
        causes[i].id = t->items[i].id;
        causes[i].of = t->items[i].of;
        if (t->items[i].body != NULL) read_cause(r, t->items[i].body, &causes[i]);
    }
    if (t->count > 0 || r->names_lost) return;
    fault *f = fault_add(r->list, FAULT_NO_CAUSE, span_nowhere(),
                         "No file names a cause, so there is nothing to find.");
    fault_help(r->list, f, "Add a section 'causes' with at least one cause.");
}

static void read_fix_work(reader *r, const node *map, fix *f)
{
    assert(r->book->named_questions == r->tables[SECTION_QUESTIONS].count);
    const node *minutes = node_get(map, "minutes"), *role = node_get(map, "role");
    const node *look_again = node_get(map, "look-again");
    f->minutes = 2;
    if (minutes != NULL) read_minutes(r, minutes, &f->minutes);
    uint32_t id = role == NULL ? 0 : resolve_role(r, role);
    f->role = id == NO_ID ? 0 : id;
    f->only_when = read_condition_at(r, map, "only-when");
    if (look_again != NULL)
        f->look_again = read_ids(r, SECTION_QUESTIONS, look_again, "'look-again'");
}

static void read_fix(reader *r, const node *map, fix *f)
{
    if (!check_map(r, map, "A fix", fix_keys)) return;
    const node *text = need(r, map, f->id, "The fix", "text", "what to do");
    const node *cures = need(r, map, f->id, "The fix", "cures", "{cause: usually}");
    const node *back = need(r, map, f->id, "The fix", "put-back", "not needed");
    const node *steps = node_get(map, "steps"), *parts = node_get(map, "parts");
    const node *adjust = node_get(map, "adjust");
    if (text != NULL) read_texts(r, text, "'text'", TEXT_SENTENCE, &f->text);
    if (steps != NULL) read_texts_list(r, steps, "'steps'", TEXT_SENTENCE, &f->steps);
    if (parts != NULL) read_texts_list(r, parts, "'parts'", TEXT_PHRASE, &f->parts);
    read_texts_at(r, map, "cost", &f->cost);
    if (cures != NULL) f->cures = read_rates(r, cures, "'cures'", &f->cures_count);
    read_fix_work(r, map, f);
    read_safety(r, map, f->id, "The fix", true, &f->harm);
    if (back != NULL) read_put_back(r, back, &f->undo);
    if (adjust != NULL) read_adjust(r, adjust, f);
}

void read_fixes(reader *r)
{
    const name_table *t = &r->tables[SECTION_FIXES];
    fix *fixes = ARENA_ARRAY(r->keep, fix, t->count);
    r->book->fixes = fixes;
    r->book->fix_count = t->count;
    for (uint32_t i = 0; i < t->count; i++) {
        enter(r, &t->items[i]);
        fixes[i].id = t->items[i].id;
        fixes[i].of = t->items[i].of;
        fixes[i].adjust.reading = NO_ID;
        if (t->items[i].body != NULL) read_fix(r, t->items[i].body, &fixes[i]);
    }
}
