/* drills.jsonl in the user's state folder, as the XDG base directory specification says: one line a
 * drill. */
#include "call/drill_scores.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/str.h"
#include "base/value.h"
#include "host/clock.h"
#include "host/door.h"
#include "host/files.h"
#include "host/memory.h"
#include "host/own_folder.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "show/json.h"

enum { SCORES_VERSION = 1, SCORES_MOST = 16 << 20, NUMBER_MOST = 1000000 };

/* ---- written ---- */

/* After `before`: the end of a line that was cut short. */
static const char *score_line(arena *keep, const opened_book *book, const drill_score *s,
                              const char *before)
{
    char now[TT_MOMENT_SIZE];
    value_builder b = value_map(keep);
    clock_now(now);
    value_put_number(&b, "version", SCORES_VERSION);
    value_put(&b, "time", value_of_str(keep, str_of(now)));
    value_put(&b, "book", value_of_str(keep, str_of(tt_book_describe(book->book).title)));
    value_put(&b, "revision", value_of_str(keep, str_of(book->revision)));
    value_put(&b, "role", value_of_str(keep, str_of(s->role)));
    value_put_number(&b, "seed", (double)s->seed);
    value_put_number(&b, "minutes", s->minutes);
    value_put_number(&b, "engine_minutes", s->engine_minutes);
    value_put_bool(&b, "cured", s->cured);
    value_put_number(&b, "dangers_missed", s->missed);
    const tt_value value = value_done(&b);
    return arena_text(keep, "%s%s\n", before, json_write(keep, &value, JSON_DIGITS_SHOWN).p);
}

/* One call of write, so that two windows' lines don't mix. */
static bool add_line(const char *path, const char *line)
{
    bool made;
    size_t written;
    door_fault fault;
    char *folder = folder_above(path);
    int error = make_folders(folder);
    free(folder);
    const int fd = error == 0 ? door_open_to_add(AT_FDCWD, path, 0600, &made, &fault) : -1;
    if (error == 0 && fd < 0) error = fault.error != 0 ? fault.error : EPERM;
    if (fd >= 0) error = door_write(fd, line, strlen(line), &written);
    if (fd >= 0) close(fd);
    if (error != 0) complain("the score can't be kept in %s: %s", path, strerror(error));
    return error == 0;
}

/* ---- read ---- */

static void count_score(drill_tally *t, double minutes, double engine, bool cured, double missed)
{
    t->drills++;
    t->cured += cured;
    t->missed += (uint32_t)missed;
    t->ratio += ((engine > 0 ? minutes / engine : 1) - t->ratio) / t->drills;
}

/* What a drill writes; somebody may have changed the file. */
static bool is_score(double minutes, double engine, double missed)
{
    return minutes >= 0 && minutes <= NUMBER_MOST && engine >= 0 && engine <= NUMBER_MOST &&
           missed >= 0 && missed <= NUMBER_MOST;
}

static void count_line(drill_tally *t, const char *line, size_t length, const char *title)
{
    tt_document *d = NULL;
    if (length == 0 || tt_document_read(line, length, SCORES_MOST, &d) != TT_OK) {
        tt_document_free(d);
        return;
    }
    const tt_value *v = tt_document_value(d);
    const char *book = value_text(v, "book");
    double minutes, engine, missed;
    if (book != NULL && strcmp(book, title) == 0 && value_number(v, "minutes", &minutes) &&
        value_number(v, "engine_minutes", &engine) && value_number(v, "dangers_missed", &missed) &&
        is_score(minutes, engine, missed))
        count_score(t, minutes, engine, value_truth(v, "cured"), missed);
    tt_document_free(d);
}

/* False: its last line was cut short, and has no end. */
static bool count_file(drill_tally *t, const char *path, const char *title)
{
    bool whole = true;
    door_fault fault;
    char *bytes = NULL;
    const int fd = door_open_file(AT_FDCWD, path, LINKS_FOLLOWED, &fault);
    const ssize_t length = fd >= 0 ? read_descriptor(fd, SCORES_MOST, &bytes) : -1;
    if (fd >= 0) close(fd);
    for (const char *at = bytes; length >= 0 && at != NULL && at < bytes + length;) {
        const char *end = memchr(at, '\n', (size_t)(bytes + length - at));
        if (end == NULL) whole = false;
        if (end == NULL) break;
        count_line(t, at, (size_t)(end - at), title);
        at = end + 1;
    }
    if (length >= 0) free(bytes);
    return whole;
}

drill_tally drill_scored(arena *keep, const opened_book *book, const drill_score *score, bool kept)
{
    drill_tally t = {.drills = 0};
    char *path = own_path(OWN_STATE, "drills.jsonl");
    const bool whole = path == NULL || count_file(&t, path, tt_book_describe(book->book).title);
    count_score(&t, score->minutes, score->engine_minutes, score->cured, score->missed);
    t.kept =
        path != NULL && kept && add_line(path, score_line(keep, book, score, whole ? "" : "\n"));
    free(path);
    return t;
}
