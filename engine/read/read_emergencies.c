/* What to do in a danger that has happened: the book's `emergencies`, and the engine's own where
 * none of them replaces it. */
#include <assert.h>

#include "read/ours.h"

/* ---- the engine's own ---- */

static texts_list said_by_us(reader *r, const our_lines *lines)
{
    texts *all = ARENA_ARRAY(r->keep, texts, lines->count);
    for (uint32_t i = 0; i < lines->count; i++) all[i] = our_texts(r, lines->ids[i]);
    return (texts_list){all, lines->count};
}

/* Named alike in every language. */
static texts source_of(reader *r, const char *source)
{
    text_item *item = ARENA_NEW(r->keep, text_item);
    *item = (text_item){r->book->language, str_of(source)};
    return (texts){.items = item, .count = 1, .at = span_nowhere()};
}

static heard_list our_heard(reader *r, const our_emergency *from)
{
    heard *all = ARENA_ARRAY(r->keep, heard, OUR_HEARD_MAX);
    uint32_t count = 0;
    for (; count < OUR_HEARD_MAX && from->heard[count] != NULL; count++)
        all[count] = (heard){.at = span_nowhere(), .plain = str_of(from->heard[count])};
    return (heard_list){all, count};
}

static emergency of_ours(reader *r, const our_emergency *from)
{
    emergency e = {.id = {str_of(from->id), span_nowhere()},
                   .replaces = STR(""),
                   .ours = true,
                   .text = our_texts(r, from->text),
                   .heard = our_heard(r, from),
                   .do_now = said_by_us(r, &from->do_now),
                   .then = said_by_us(r, &from->then),
                   .call = NO_ID,
                   .source = source_of(r, from->source)};
    assert(e.do_now.count > 0);
    return e;
}

/* Index among ours, or NO_ID. */
static uint32_t find_ours(str name)
{
    uint32_t count;
    const our_emergency *ours = our_emergencies(&count);
    for (uint32_t i = 0; i < count; i++)
        if (str_is(name, ours[i].id)) return i;
    return NO_ID;
}

static uint32_t read_replaces(reader *r, const node *n)
{
    uint32_t count;
    const our_emergency *ours = our_emergencies(&count);
    const char **ids = ARENA_ARRAY(r->scratch, const char *, (size_t)count + 1);
    for (uint32_t i = 0; i < count; i++) ids[i] = ours[i].id;
    return read_choice(r, n, "one of the emergencies that every book has", ids);
}

/* ---- the book's ---- */

static void is_ours(reader *r, const emergency *e)
{
    fault *f = fault_add(r->list, FAULT_EMERGENCY_OURS, e->id.at,
                         "Every book has an emergency '%.*s' already.", STR_ARG(e->id.name));
    fault_help(r->list, f,
               "Add 'replaces: %.*s' and 'source' to say otherwise what to do then, or choose "
               "another name.",
               STR_ARG(e->id.name));
}

static void read_emergency(reader *r, const node *map, emergency *e)
{
    if (!check_map(r, map, KEYS_EMERGENCY)) return;
    read_keys(r, map, e->id, KEYS_EMERGENCY, e);
    const node *replaces = node_get(map, "replaces");
    need(r, map, e->id, KEYS_EMERGENCY, replaces == NULL ? "heard" : "source");
    uint32_t ours = replaces == NULL ? NO_ID : read_replaces(r, replaces),
             same = find_ours(e->id.name);
    if (ours != NO_ID) e->replaces = str_copy(r->keep, str_trim(replaces->text));
    if (same != NO_ID && same != ours) is_ours(r, e);
}

/* ---- what one that replaces ours leaves out ---- */

static bool has_line(const texts_list *lines, str line)
{
    for (uint32_t i = 0; i < lines->count; i++)
        for (uint32_t k = 0; k < lines->items[i].count; k++)
            if (str_eq(lines->items[i].items[k].text, line)) return true;
    return false;
}

static void add_lost(const emergency *by, const texts_list *lines, str language, text_builder *lost)
{
    for (uint32_t i = 0; i < lines->count; i++) {
        str line = texts_for(&lines->items[i], language);
        if (has_line(&by->do_now, line) || has_line(&by->then, line)) continue;
        text_addf(lost, "%s\"%.*s\"", lost->length == 0 ? "" : ", ", STR_ARG(line));
    }
}

static void check_lost(reader *r, const emergency *by)
{
    uint32_t count;
    const emergency old = of_ours(r, &our_emergencies(&count)[find_ours(by->replaces)]);
    assert(by->replaces.n > 0 && !by->ours);
    text_builder lost = {.keep = r->scratch};
    add_lost(by, &old.do_now, r->book->language, &lost);
    add_lost(by, &old.then, r->book->language, &lost);
    if (lost.length == 0) return;
    fault *f = fault_add(r->list, FAULT_EMERGENCY_LOST, by->id.at,
                         "'%.*s' replaces '%.*s', so these lines are shown no longer: %.*s.",
                         STR_ARG(by->id.name), STR_ARG(by->replaces), STR_ARG(text_done(&lost)));
    fault_help(r->list, f, "Take over the lines that hold at your site too, word for word.");
}

static void replaced_twice(reader *r, const emergency *again, const emergency *before)
{
    fault *f =
        fault_add(r->list, FAULT_ITEM_TWICE, again->id.at, "'%.*s' and '%.*s' both replace '%.*s'.",
                  STR_ARG(before->id.name), STR_ARG(again->id.name), STR_ARG(again->replaces));
    fault_note_at(r->list, f, before->id.at, "The other one stands here.");
    fault_help(r->list, f, "Keep one of them, or join the two.");
}

static void check_replaced(reader *r, const emergency *all, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        if (all[i].replaces.n == 0) continue;
        uint32_t k = 0;
        while (!str_eq(all[k].replaces, all[i].replaces)) k++;
        if (k < i)
            replaced_twice(r, &all[i], &all[k]);
        else if (r->site_file == NO_FILE && all[i].do_now.count > 0)
            check_lost(r, &all[i]);
    }
}

/* ---- all together ---- */

static bool is_replaced(const emergency *all, uint32_t count, str name)
{
    for (uint32_t i = 0; i < count; i++)
        if (str_eq(all[i].replaces, name)) return true;
    return false;
}

/* Both are in name order. */
static void join(reader *r, const emergency *own, uint32_t own_count)
{
    uint32_t our_count, next = 0, count = 0;
    const our_emergency *ours = our_emergencies(&our_count);
    emergency *all = ARENA_ARRAY(r->keep, emergency, (size_t)own_count + our_count);
    for (uint32_t i = 0; i < our_count; i++) {
        str id = str_of(ours[i].id);
        while (next < own_count && str_cmp(own[next].id.name, id) <= 0) all[count++] = own[next++];
        if (!is_replaced(own, own_count, id)) all[count++] = of_ours(r, &ours[i]);
    }
    while (next < own_count) all[count++] = own[next++];
    assert(count >= own_count && count <= own_count + our_count);
    r->book->emergencies = all;
    r->book->emergency_count = count;
}

void read_emergencies(reader *r)
{
    const name_table *t = &r->tables[SECTION_EMERGENCIES];
    emergency *own = ARENA_ARRAY(r->scratch, emergency, t->count);
    for (uint32_t i = 0; i < t->count; i++) {
        own[i] = (emergency){.id = t->items[i].id, .replaces = STR(""), .call = NO_ID};
        enter(r, &t->items[i]);
        read_emergency(r, t->items[i].body, &own[i]);
    }
    check_replaced(r, own, t->count);
    join(r, own, t->count);
}
