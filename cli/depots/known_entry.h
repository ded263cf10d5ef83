/* One case as it lies among what is known of cases: known_cases.h. */
#ifndef TT_CLI_KNOWN_ENTRY_H
#define TT_CLI_KNOWN_ENTRY_H

#include <assert.h>

#include "depots/known_cases.h"

/* Behind it come its files, then the texts of a summary in their order, each with its zero. */
typedef struct known_entry {
    uint32_t length, file_count; /* length: of all of it, a multiple of ENTRY_ALIGNED */
    file_stamp folder;
    int64_t last_moment;
    double minutes;
    uint32_t answers, tried, damaged, left_out;
    uint8_t state, kind, every, stands_is, confirmed, disputed, danger, held;
    char uuid[TT_CASE_ID_SIZE], gap[3];
} known_entry;
enum { ENTRY_ALIGNED = sizeof(int64_t) };
static_assert(sizeof(known_entry) == 120, "written as it is, so without gaps");

const stamped_file *known_entry_files(const known_entry *e);
/* What could not have been written is none. `room`: bytes from its beginning. */
bool known_entry_is_sound(const known_entry *e, size_t room);
/* As known_case_find. */
void known_entry_read(const known_entry *e, case_summary *out);
/* Behind what there is. */
void known_entry_write(known_news *news, const case_stamps *stamps, const case_summary *summary);
void known_put(known_news *news, const void *bytes, size_t length);

#endif
