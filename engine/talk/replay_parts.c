/* What the files of replaying share. */
#include <string.h>

#include "talk/replay_parts.h"

const char *record_text(const tt_value *data, const char *key)
{
    const char *text = value_text(data, key);
    return text != NULL ? text : "";
}

/* The way through a fix is one person's in one sitting: another begins again at isolating. */
bool replay_is_ours(const tt_talk *t, const tt_record *r)
{
    return strcmp(r->writer, t->options.writer) == 0;
}

uint32_t piece_named(const tt_talk *t, const char *name)
{
    for (uint32_t i = 0; name != NULL && i < tt_piece_count(t->book); i++)
        if (strcmp(tt_piece_show(t->book, i, NULL).name, name) == 0) return i;
    return TT_NONE;
}

uint32_t complaint_named(const tt_talk *t, const char *name)
{
    for (uint32_t i = 0; i < t->complaints.count; i++)
        if (strcmp(t->complaints.items[i].name, name) == 0) return i;
    return TT_NONE;
}
