/* A site over time, for programs: docs/history.schema.json. */
#include "base/str.h"
#include "face/history.h"
#include "host/memory.h"
#include "show/history_fields.h"
#include "show/json.h"

void print_history_json(FILE *out, const tt_site_story *story)
{
    arena *keep = host_arena();
    const tt_value value = history_value(keep, story);
    const str text = json_write_lines(keep, &value, JSON_DIGITS_SHOWN, 2);
    fwrite(text.p, 1, text.n, out);
    arena_free(keep);
}
