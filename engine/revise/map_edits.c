/* Entries taken out of a map and put into it. */
#include "revise/map_edits.h"

#include <assert.h>
#include <string.h>

/* ---- between braces: { a: 1, b: 2 } ---- */

static uint32_t comma_before(const edit_list *e, span key)
{
    const char *bytes = e->sources[key.file].bytes;
    uint32_t at = key.start;
    while (at > 0 && bytes[at - 1] != ',') at--;
    assert(at > 0);
    return at - 1;
}

/* Entries from first to last go, and behind them stands another, or not. */
static void cut_run(edit_list *e, const node *map, uint32_t first, uint32_t last,
                    const char *instead)
{
    const span from = map->entries[first].key_at, end = map->entries[last].value->at;
    if (last + 1 < map->count)
        edit_at(e, (span){from.file, from.start, map->entries[last + 1].key_at.start}, instead);
    else if (first > 0)
        edit_at(e, (span){from.file, comma_before(e, from), end.end}, instead);
    else
        edit_at(e, (span){from.file, from.start, end.end}, instead);
}

static bool on_one_line(const edit_list *e, const node *map)
{
    const span first = map->entries[0].key_at;
    const uint32_t end = map->entries[map->count - 1].value->at.end;
    return memchr(e->sources[first.file].bytes + first.start, '\n', end - first.start) == NULL;
}

/* Behind blanks, lines and comments stands the comma after an entry, or what closes the map. */
static uint32_t behind_entry(const tt_source *s, uint32_t at)
{
    while (strchr(" \t\r\n#", s->bytes[at]) != NULL)
        if (s->bytes[at++] == '#')
            while (s->bytes[at] != '\n') at++;
    return at;
}

/* Of a map over several lines, with its comma: edits stay within a line. What is left may end with
 * a comma, which YAML allows. A comment keeps the blank that makes it one. */
static void cut_entry(edit_list *e, const node_entry *entry, const char *instead)
{
    const tt_source *s = &e->sources[entry->key_at.file];
    const uint32_t value = entry->value->at.end, comma = behind_entry(s, value);
    const bool has_comma = s->bytes[comma] == ',';
    const uint32_t end = has_comma && comma == value ? comma + 1 : value;
    uint32_t next = end;
    while (s->bytes[next] == ' ') next++;
    const bool comment = s->bytes[next] == '#';
    const char *text = comment && next == end ? str_printf(e->keep, "%s ", instead).p : instead;
    edit_at(e, (span){entry->key_at.file, entry->key_at.start, comment ? end : next}, text);
    if (has_comma && comma >= next) edit_at(e, (span){entry->key_at.file, comma, comma + 1}, "");
}

static void edit_flow(edit_list *e, const node *map, const bool *taken, const added_entry *added,
                      uint32_t added_count)
{
    bool all = true;
    const bool one_line = on_one_line(e, map);
    text_builder b = {.keep = e->keep};
    for (uint32_t i = 0; i < map->count; i++) all = all && taken[i];
    for (uint32_t i = 0; i < added_count; i++)
        text_addf(&b, "%s: %s%s", added[i].key, added[i].value,
                  !all || i + 1 < added_count ? ", "
                  : one_line                  ? ""
                                              : ",");
    const char *front = b.length == 0 ? "" : text_done(&b).p;
    const span first = map->entries[0].key_at;
    if (!taken[0] && *front != 0) edit_at(e, (span){first.file, first.start, first.start}, front);
    for (uint32_t i = 0; i < map->count; i++) {
        uint32_t last = i;
        if (!taken[i]) continue;
        if (!one_line) {
            cut_entry(e, &map->entries[i], i == 0 ? front : "");
            continue;
        }
        while (last + 1 < map->count && taken[last + 1]) last++;
        cut_run(e, map, i, last, i == 0 ? front : "");
        i = last;
    }
}

/* ---- a line each ---- */

/* The whole line; or, if a comment follows, all of it before that but for the blanks at its front.
 */
static void cut_line(edit_list *e, const node_entry *entry)
{
    const tt_source *s = &e->sources[entry->key_at.file];
    uint32_t start = entry->key_at.start, end = entry->value->at.end, line = start;
    while (line > 0 && s->bytes[line - 1] != '\n') line--;
    while (end < s->length && (s->bytes[end] == ' ' || s->bytes[end] == '\t')) end++;
    bool comment = end < s->length && s->bytes[end] == '#';
    if (!comment && end < s->length && s->bytes[end] == '\r') end++;
    if (!comment && end < s->length && s->bytes[end] == '\n') end++;
    edit_at(e, (span){entry->key_at.file, comment ? start : line, end}, "");
}

static void edit_block(edit_list *e, const node *map, const bool *taken, const added_entry *added,
                       uint32_t added_count)
{
    for (uint32_t i = 0; i < map->count; i++)
        if (taken[i]) cut_line(e, &map->entries[i]);
    const char *last = str_copy(e->keep, map->entries[map->count - 1].key).p;
    for (uint32_t i = 0; i < added_count; i++)
        edit_add_key(e, map, last, added[i].key, added[i].value);
}

void edit_map(edit_list *e, const node *map, const bool *taken, const added_entry *added,
              uint32_t added_count)
{
    assert(map->kind == NODE_MAP && map->count > 0);
    if (map->style == STYLE_FLOW || map->in_flow)
        edit_flow(e, map, taken, added, added_count);
    else
        edit_block(e, map, taken, added, added_count);
}
