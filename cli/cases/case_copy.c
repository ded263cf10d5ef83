#include "cases/case_copy.h"

#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "cases/case_depot.h"
#include "host/memory.h"
#include "host/screen.h"

/* ---- lines ---- */

/* The next line, without its newline; what is left stands behind it. */
static str next_line(str *rest)
{
    const char *stop = memchr(rest->p, '\n', rest->n);
    const str line = {rest->p, stop != NULL ? (size_t)(stop - rest->p) : rest->n};
    const size_t done = line.n + (stop != NULL);
    *rest = (str){rest->p + done, rest->n - done};
    return line;
}

static bool has_line(str bytes, str line)
{
    while (bytes.n > 0)
        if (str_eq(next_line(&bytes), line)) return true;
    return false;
}

str lines_missing(arena *keep, str there, str lines)
{
    if (lines.n >= there.n && memcmp(lines.p, there.p, there.n) == 0)
        return str_slice(lines, there.n, lines.n);
    text_builder b = {.keep = keep};
    while (lines.n > 0) {
        const str line = next_line(&lines);
        if (has_line(there, line)) continue;
        if (b.length == 0 && there.n > 0 && there.p[there.n - 1] != '\n')
            text_add(&b, str_of("\n"));
        text_add(&b, line);
        text_add(&b, str_of("\n"));
    }
    return b.length > 0 ? text_done(&b) : str_of("");
}

/* ---- one case ---- */

static exit_status copy_lines(arena *keep, const writers_lines *from, const char *to_place,
                              bool *added)
{
    writers_lines there;
    exit_status status = depot_of(to_place)->lines(keep, to_place, &there);
    for (uint32_t i = 0; i < from->count && status == EXIT_DONE; i++) {
        const writer_lines *w = &from->items[i];
        const str missing = lines_missing(keep, lines_of_writer(&there, w->writer), w->bytes);
        if (missing.n == 0) continue;
        status = depot_of(to_place)->add(keep, to_place, w->writer, missing);
        *added = true;
    }
    return status;
}

/* Who called is said where nobody has said it yet. */
static exit_status copy_contact(arena *keep, const char *place, const char *to_place)
{
    str said, there;
    exit_status status = depot_of(place)->contact_read(keep, place, &said);
    if (status != EXIT_DONE || said.n == 0) return status;
    status = depot_of(to_place)->contact_read(keep, to_place, &there);
    if (status != EXIT_DONE || there.n > 0) return status;
    return depot_of(to_place)->contact_write(keep, to_place, said);
}

exit_status case_copy(arena *keep, const char *place, const char *to, const char *to_place,
                      const char *id, case_copied *out)
{
    writers_lines from;
    const bool is_new = to_place == NULL;
    bool added = false;
    exit_status status = depot_of(place)->lines(keep, place, &from);
    if (status == EXIT_DONE && is_new) status = depot_of(to)->make(keep, to, id, &to_place);
    if (status == EXIT_DONE) status = copy_lines(keep, &from, to_place, &added);
    if (status == EXIT_DONE) status = copy_contact(keep, place, to_place);
    if (status != EXIT_DONE) return status;
    ++*(is_new ? &out->made : added ? &out->added_to : &out->same);
    return EXIT_DONE;
}

/* ---- all ---- */

typedef struct known_case {
    const char *place, *id;
} known_case;
typedef struct known_cases {
    arena *keep;
    known_case *items;
    uint32_t count, room;
} known_cases;

static void note_known(void *context, const char *above, const char *id)
{
    known_cases *k = context;
    GROW(k->keep, k->items, k->count, k->room);
    const char *place = arena_text(k->keep, "%s/%s", above, id);
    k->items[k->count++] = (known_case){place, strrchr(place, '/') + 1};
}

static int by_id(const void *a, const void *b)
{
    const known_case *x = a, *y = b;
    return strcmp(x->id, y->id);
}

static const char *place_of(const known_cases *k, const char *id)
{
    const known_case wanted = {.id = id};
    const known_case *found =
        k->count > 0 ? bsearch(&wanted, k->items, k->count, sizeof wanted, by_id) : NULL;
    return found != NULL ? found->place : NULL;
}

static exit_status copy_all(const known_cases *from, const char *to, const known_cases *there,
                            case_copied *out)
{
    exit_status status = EXIT_DONE;
    for (uint32_t i = 0; i < from->count && status == EXIT_DONE; i++) {
        arena *scratch = host_arena();
        const known_case *c = &from->items[i];
        status = case_copy(scratch, c->place, to, place_of(there, c->id), c->id, out);
        arena_free(scratch);
    }
    return status;
}

exit_status cases_copy(const char *from, const char *to, case_copied *out)
{
    bool there;
    arena *keep = host_arena();
    known_cases of_from = {.keep = keep}, of_to = {.keep = keep};
    *out = (case_copied){.made = 0};
    exit_status status = depot_of(from)->look(from, false, &there);
    if (status == EXIT_DONE) status = depot_of(to)->look(to, true, &there);
    if (status == EXIT_DONE && case_walk(from, note_known, &of_from) > 0) status = EXIT_IO;
    if (status == EXIT_DONE && there && case_walk(to, note_known, &of_to) > 0) status = EXIT_IO;
    if (of_to.count > 0) qsort(of_to.items, of_to.count, sizeof *of_to.items, by_id);
    if (status == EXIT_DONE) status = copy_all(&of_from, to, &of_to, out);
    arena_free(keep);
    return status;
}
