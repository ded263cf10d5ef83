#include "depots/refuge.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cases/case_copy.h"
#include "cases/case_file.h"
#include "depots/database_parts.h"
#include "depots/folder_parts.h"
#include "host/files.h"
#include "host/memory.h"
#include "host/own_folder.h"
#include "host/screen.h"

enum { HASH_SHOWN = 12 };

const char *refuge_root(arena *keep, const char *address)
{
    char hash[LINE_HASH_SIZE];
    char *all = own_path(OWN_DATA, "until-back");
    if (all == NULL) return NULL;
    line_hash(address, strlen(address), hash);
    const char *root = arena_text(keep, "%s/%.*s", all, HASH_SHOWN, hash);
    free(all);
    return root;
}

/* ---- what waits ---- */

typedef struct waiting_cases {
    arena *keep;
    const char *id, *place; /* id: looked for, or null */
    size_t count;
} waiting_cases;

static void note_waiting(void *context, const char *above, const char *id)
{
    waiting_cases *w = context;
    w->count++;
    if (w->id != NULL && strcmp(w->id, id) == 0) w->place = arena_text(w->keep, "%s/%s", above, id);
}

bool refuge_holds(arena *keep, const char *address, const char *id, const char *writer)
{
    struct stat about;
    const char *root = refuge_root(keep, address);
    waiting_cases w = {.keep = keep, .id = id};
    if (root == NULL || stat(root, &about) != 0) return false;
    folder_walk(root, note_waiting, &w);
    return w.place != NULL && lstat(arena_text(keep, "%s/%s.jsonl", w.place, writer), &about) == 0;
}

size_t refuge_count(const char *address)
{
    arena *keep = host_arena();
    waiting_cases w = {.keep = keep};
    const char *root = refuge_root(keep, address);
    if (root != NULL) folder_walk(root, note_waiting, &w);
    arena_free(keep);
    return w.count;
}

/* ---- going there ---- */

static str lines_held(const case_store *s, const char *writer)
{
    text_builder b = {.keep = s->keep};
    for (uint32_t i = 0; i < s->held->count; i++)
        if (strcmp(s->held->lines[i].writer, writer) == 0) text_add(&b, s->held->lines[i].bytes);
    return b.length > 0 ? text_done(&b) : str_of("");
}

static bool put_part(case_store *s, const char *place, const writers_lines *there, case_part *part)
{
    const str lines = lines_held(s, part->name),
              missing = lines_missing(s->keep, lines_of_writer(there, part->name), lines);
    part->path = arena_text(s->keep, "%s/%s.jsonl", place, part->name);
    part->read = (off_t)lines.n;
    return missing.n == 0 || folder_add(s->keep, place, part->name, missing) == EXIT_DONE;
}

static bool put_lines(case_store *s, const char *place)
{
    writers_lines there;
    if (case_part_named(s, s->writer, strlen(s->writer)) == NULL)
        case_part_add(s, s->writer, strlen(s->writer));
    bool fine = folder_lines(s->keep, place, &there) == EXIT_DONE;
    for (uint32_t i = 0; fine && i < s->part_count; i++)
        fine = put_part(s, place, &there, &s->parts[i]);
    return fine;
}

/* Our file there, or the case stays where it is: as it was before, for the next try. */
static bool moves_to(case_store *s, const char *place)
{
    const char *before = s->name.folder;
    const bool joined = s->joined;
    s->name.folder = place;
    const int error = folder_open_as_writer(s);
    if (error == 0) return true;
    s->name.folder = before;
    s->joined = joined;
    say_file_failure(s->path, error);
    return false;
}

bool refuge_take(case_store *s, const char *why)
{
    const char *address, *id, *place;
    place_parts(s->keep, s->name.folder, &address, &id);
    const char *root = refuge_root(s->keep, address);
    if (root == NULL || case_place_for(s->keep, root, s->name.id, &place) != EXIT_DONE ||
        !put_lines(s, place) || !moves_to(s, place))
        return false;
    why = arena_copy(s->keep, why); /* it is the session's */
    s->depot->close(s);
    s->depot = &folder_depot;
    s->root = NULL;
    complain("the database can't be reached. %s\nFrom here on this case is kept on this machine, "
             "in %s, until the database is back",
             why, place);
    return true;
}

/* ---- coming back ---- */

typedef struct carrying {
    const char *address;
    size_t carried;
    exit_status status;
} carrying;

static bool has_all(arena *keep, const char *place, const char *to_place)
{
    writers_lines from, there;
    bool all = folder_lines(keep, place, &from) == EXIT_DONE &&
               depot_of(to_place)->lines(keep, to_place, &there) == EXIT_DONE;
    for (uint32_t i = 0; all && i < from.count; i++)
        all =
            lines_missing(keep, lines_of_writer(&there, from.items[i].writer), from.items[i].bytes)
                .n == 0;
    return all;
}

/* Only files that are ours; the folder goes if nothing else is in it. */
static void remove_case(arena *keep, const char *place)
{
    writers_lines all;
    bool erased;
    if (folder_lines(keep, place, &all) != EXIT_DONE) return;
    for (uint32_t i = 0; i < all.count; i++)
        unlink(arena_text(keep, "%s/%s.jsonl", place, all.items[i].writer));
    folder_contact_erase(keep, place, &erased);
    rmdir(place);
}

static void carry_one(void *context, const char *above, const char *id)
{
    carrying *c = context;
    case_copied copied = {.made = 0};
    arena *keep = host_arena();
    const char *place = arena_text(keep, "%s/%s", above, id), *to_place = NULL;
    if (c->status == EXIT_DONE) c->status = case_place_for(keep, c->address, id, &to_place);
    if (c->status == EXIT_DONE)
        c->status = case_copy(keep, place, c->address, to_place, id, &copied);
    if (c->status == EXIT_DONE && has_all(keep, place, to_place)) {
        remove_case(keep, place);
        c->carried++;
    }
    arena_free(keep);
}

exit_status refuge_empty(const char *address, size_t *carried)
{
    arena *keep = host_arena();
    carrying c = {.address = address};
    const char *root = refuge_root(keep, address);
    if (root != NULL) folder_walk(root, carry_one, &c);
    *carried = c.carried;
    arena_free(keep);
    return c.status;
}
