/* What a rehearsal showed, for programs: docs/rehearse.schema.json. */
#include "base/str.h"
#include "face/rehearse.h"
#include "host/memory.h"
#include "show/json.h"
#include "show/rehearsal_fields.h"

void print_rehearsal_json(FILE *out, const opened_book *book, const tt_rehearsal_options *options,
                          const tt_rehearsed *r)
{
    arena *keep = host_arena();
    const tt_origin origin = {book->book, book->revision, book->site_revision};
    const tt_value value = rehearsal_value(keep, &origin, options, r);
    const str text = json_write_lines(keep, &value, JSON_DIGITS_SHOWN, 2);
    fwrite(text.p, 1, text.n, out);
    arena_free(keep);
}
