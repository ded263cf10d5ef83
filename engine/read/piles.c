/* From piles to tables. */
#include "read/piles.h"

#include <assert.h>

#include "base/str_head.h"

static void make_room(reader *r, pile *p, uint32_t room)
{
    named *items = arena_take_unset(r->scratch, room * sizeof *items);
    for (uint32_t i = 0; i < p->count; i++) items[i] = p->items[i];
    p->items = items;
    p->room = room;
}

void pile_expect(reader *r, pile *p, uint32_t more)
{
    const uint32_t all = p->count + more;
    if (p->room < all) make_room(r, p, all > p->room * 2 ? all : p->room * 2);
}

void piles_part(reader *r, section s, piles *p)
{
    if (p->parted[s]) return;
    p->parted[s] = true;
    make_room(r, &p->entries[s], p->bases[s].room);
    for (uint32_t i = 0; i < p->bases[s].count; i++)
        pile_add(r, &p->entries[s], p->bases[s].items[i]);
}

void pile_add(reader *r, pile *p, named entry)
{
    if (p->count == p->room) make_room(r, p, p->room == 0 ? 16 : p->room * 2);
    p->items[p->count++] = entry;
}

typedef struct headed {
    uint64_t head;
    const named *entry;
} headed;

static int by_name_and_place(const void *a, const void *b)
{
    const headed *x = a, *y = b;
    if (x->head != y->head) return THREE_WAY(x->head, y->head);
    const label *one = &x->entry->id, *other = &y->entry->id;
    const int order = str_cmp(one->name, other->name);
    if (order != 0) return order;
    if (one->at.file != other->at.file) return THREE_WAY(one->at.file, other->at.file);
    return THREE_WAY(one->at.start, other->at.start);
}

/* Each goes where it belongs, and the one from there on in the same way: many are large, and there
 * is no second place for them all. */
static void put_in_order(named *items, headed *order, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        const named first = items[i];
        uint32_t at = i;
        for (const named *from; (from = order[at].entry) != &items[i];) {
            items[at] = *from;
            order[at].entry = &items[at];
            at = (uint32_t)(from - items);
        }
        items[at] = first;
        order[at].entry = &items[at];
    }
}

static void sort_pile(reader *r, pile *p)
{
    const arena_mark before = arena_here(r->scratch);
    headed *order = arena_take_unset(r->scratch, p->count * sizeof *order);
    for (uint32_t i = 0; i < p->count; i++)
        order[i] = (headed){str_head(p->items[i].id.name), &p->items[i]};
    SORT(order, p->count, by_name_and_place);
    put_in_order(p->items, order, p->count);
    arena_back_to(r->scratch, before);
}

static void report_twice(reader *r, section s, const named *again, const named *before)
{
    assert(str_eq(again->id.name, before->id.name));
    if (again->made_question != NO_ID || before->made_question != NO_ID) {
        const named *made = again->made_question != NO_ID ? again : before;
        const named *other = made == again ? before : again;
        fault *f = fault_add(
            r->list, FAULT_MADE_NAME_TAKEN, other->id.at,
            "The name '%.*s' is taken: 'confirms' of a question makes a symptom of this name.",
            STR_ARG(other->id.name));
        fault_note_at(r->list, f, made->id.at, "'confirms' stands here.");
        fault_help(
            r->list, f,
            "Name this symptom otherwise, or leave out 'confirms' and write the symptom in full.");
        return;
    }
    fault *f = fault_add(r->list, FAULT_NAME_TWICE, again->id.at,
                         "There are two %s named '%.*s', so nobody could tell which is meant.",
                         section_key(s), STR_ARG(again->id.name));
    fault_note_at(r->list, f, before->id.at, "The other one stands here.");
    fault_help(r->list, f, "Rename one of them, or join the two.");
}

/* In name order, each name once; what `confirms` makes for several pieces has one base. Names are
 * compared as they are written, without pieces, so only the pile of bases says what stands twice.
 */
static uint32_t sorted_once(reader *r, section s, pile *p, bool report)
{
    uint32_t count = 0;
    sort_pile(r, p);
    for (uint32_t i = 0; i < p->count; i++) {
        named *last = count > 0 ? &p->items[count - 1] : NULL;
        bool twice = last != NULL && str_eq(last->id.name, p->items[i].id.name);
        bool same = twice && last->made_question != NO_ID &&
                    last->id.at.file == p->items[i].id.at.file &&
                    last->id.at.start == p->items[i].id.at.start;
        if (report && twice && !same) report_twice(r, s, &p->items[i], last);
        if (!twice) p->items[count++] = p->items[i];
    }
    return count;
}

static const uint64_t *heads_of(reader *r, const str *names, uint32_t count)
{
    uint64_t *heads = arena_take_unset(r->scratch, count * sizeof *heads);
    for (uint32_t i = 0; i < count; i++) heads[i] = str_head(names[i]);
    return heads;
}

static void sort_table(reader *r, section s, pile *p, name_table *t)
{
    t->count = sorted_once(r, s, p, t == &r->bases[s]);
    t->items = p->items;
    str *names = ARENA_ARRAY(r->scratch, str, t->count);
    for (uint32_t i = 0; i < t->count; i++) names[i] = t->items[i].id.name;
    t->names = names;
    t->heads = heads_of(r, names, t->count);
}

/* None is written for pieces: then bases and entries are the same. */
static bool all_shared(const name_table *bases)
{
    for (uint32_t i = 0; i < bases->count; i++)
        if (base_kind(&bases->items[i]) != NO_ID) return false;
    return true;
}

void sort_section(reader *r, section s, piles *p)
{
    sort_table(r, s, &p->bases[s], &r->bases[s]);
    if (all_shared(&r->bases[s]))
        r->tables[s] = r->bases[s];
    else
        sort_table(r, s, &p->entries[s], &r->tables[s]);
}
