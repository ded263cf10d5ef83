/* The data of a record that went the quick way, when it is wanted. */
#include "summary/case_sight.h"

#include <assert.h>

#include "show/json.h"
#include "summary/record_line.h"

static const tt_value *value_in(arena *keep, text_span span)
{
    tt_value *read = ARENA_NEW(keep, tt_value);
    json_fault fault;
    return json_read(keep, (str){span.from, span.length}, LONGEST_LINE, read, &fault) ? read : NULL;
}

bool sight_read(void *sight, uint32_t source, tt_record *record)
{
    case_sight *s = sight;
    assert(source < s->count);
    tt_record *own = &s->records[source];
    const sighted *line = &s->lines[source];
    if (own->data == NULL) own->data = value_in(s->keep, line->data);
    if (own->seen == NULL && line->seen.length > 0) own->seen = value_in(s->keep, line->seen);
    record->data = own->data;
    record->seen = own->seen;
    return own->data != NULL;
}
