#include "depots/known_entry.h"

#include <stdlib.h>
#include <string.h>

#include "host/plain_text.h"

enum {
#define ONE_TEXT(name) +1
    TEXTS = 0 TT_SUMMARY_TEXTS(ONE_TEXT)
#undef ONE_TEXT
};

/* Beyond the year 2255 a time is no clock's. */
static int64_t nanoseconds(struct timespec t)
{
    const int64_t second = 1000000000, most = 9 * second,
                  seconds = t.tv_sec > most    ? most
                            : t.tv_sec < -most ? -most
                                               : t.tv_sec;
    return seconds * second + t.tv_nsec;
}

file_stamp stamp_of(const struct stat *about)
{
    return (file_stamp){about->st_ino, about->st_size, nanoseconds(about->st_mtim),
                        nanoseconds(about->st_ctim)};
}

const stamped_file *known_entry_files(const known_entry *e)
{
    return (const stamped_file *)(const void *)(e + 1);
}

/* ---- read ---- */

static bool has_its_texts(const known_entry *e, const char *at, size_t length)
{
    for (int i = 0; i < TEXTS; i++) {
        const char *zero = length > 0 ? memchr(at, 0, length) : NULL;
        if (zero == NULL) return false;
        length -= (size_t)(zero + 1 - at);
        at = zero + 1;
    }
    return memchr(e->uuid, 0, sizeof e->uuid) != NULL;
}

/* The sum says that it is as it was written; nothing that could not have been is looked at. */
bool known_entry_is_sound(const known_entry *e, size_t room)
{
    if (e->length < sizeof *e || e->length > room || e->length % ENTRY_ALIGNED != 0) return false;
    const size_t behind = e->length - sizeof *e, files = e->file_count * sizeof(stamped_file);
    if (e->file_count > behind / sizeof(stamped_file)) return false;
    for (uint32_t i = 0; i < e->file_count; i++)
        if (memchr(known_entry_files(e)[i].name, 0, NAME_ROOM) == NULL) return false;
    return e->state < TT_CASE_STATES && e->kind < TT_CASE_KINDS && e->every < TT_EVERIES &&
           e->stands_is <= TT_STANDS_NO_COMPLAINT &&
           has_its_texts(e, (const char *)known_entry_files(e) + files, behind - files);
}

static const char *next_text(const char **at)
{
    const char *text = *at;
    *at += strlen(text) + 1;
    return text;
}

static tt_case_summary figures_of(const known_entry *e)
{
    return (tt_case_summary){.state = e->state,
                             .kind = e->kind,
                             .every = e->every,
                             .last_moment = e->last_moment,
                             .minutes = e->minutes,
                             .confirmed = e->confirmed != 0,
                             .disputed = e->disputed != 0,
                             .danger = e->danger != 0,
                             .stands_is = e->stands_is,
                             .held = e->held != 0,
                             .answers = e->answers,
                             .tried = e->tried,
                             .damaged = e->damaged};
}

void known_entry_read(const known_entry *e, case_summary *out)
{
    const char *text = (const char *)(known_entry_files(e) + e->file_count);
    *out = (case_summary){.says = figures_of(e), .left_out = e->left_out, .has_text = true};
    memcpy(out->uuid, e->uuid, TT_CASE_ID_SIZE);
#define TAKE_TEXT(name) out->says.name = next_text(&text);
    TT_SUMMARY_TEXTS(TAKE_TEXT)
#undef TAKE_TEXT
    case_summary_keep(out);
}

/* ---- written ---- */

void known_put(known_news *news, const void *bytes, size_t length)
{
    while (news->room < news->length + length) {
        news->room = news->room == 0 ? 1 << 16 : news->room * 2;
        news->bytes = more_memory(news->bytes, news->room);
    }
    if (length > 0) memcpy(news->bytes + news->length, bytes, length);
    news->length += length;
}

static known_entry entry_of(const case_stamps *stamps, const case_summary *summary)
{
    const tt_case_summary *says = &summary->says;
    known_entry e = {.file_count = (uint32_t)stamps->count,
                     .folder = stamps->folder,
                     .last_moment = says->last_moment,
                     .minutes = says->minutes,
                     .answers = says->answers,
                     .tried = says->tried,
                     .damaged = says->damaged,
                     .left_out = summary->left_out,
                     .state = (uint8_t)says->state,
                     .kind = (uint8_t)says->kind,
                     .every = (uint8_t)says->every,
                     .stands_is = (uint8_t)says->stands_is,
                     .confirmed = says->confirmed,
                     .disputed = says->disputed,
                     .danger = says->danger,
                     .held = says->held};
    memcpy(e.uuid, summary->uuid, TT_CASE_ID_SIZE);
    return e;
}

void known_entry_write(known_news *news, const case_stamps *stamps, const case_summary *summary)
{
    static const char nothing[ENTRY_ALIGNED];
    const size_t from = news->length;
    known_entry e = entry_of(stamps, summary);
    known_put(news, &e, sizeof e);
    known_put(news, stamps->files, stamps->count * sizeof *stamps->files);
#define PUT_TEXT(name) known_put(news, summary->says.name, strlen(summary->says.name) + 1);
    TT_SUMMARY_TEXTS(PUT_TEXT)
#undef PUT_TEXT
    known_put(news, nothing,
              (ENTRY_ALIGNED - (news->length - from) % ENTRY_ALIGNED) % ENTRY_ALIGNED);
    e.length = (uint32_t)(news->length - from);
    memcpy(news->bytes + from, &e, sizeof e);
}
