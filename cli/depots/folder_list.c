/* Cases of a folder, in a few words each: found by reading them, several at a time, but those of
 * very many that did not change since they were read last (known_cases.h). */
#include "depots/folder_parts.h"

#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "depots/known_cases.h"
#include "host/clock.h"
#include "host/door.h"
#include "host/files.h"
#include "host/fold_letters.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "telltale.h"

enum { LARGEST_FILE = 64 << 20, ROOM_AT_FIRST = 32 << 10, MOST_READERS = 16, CASES_AT_ONCE = 64 };

typedef struct found_case {
    uint32_t month; /* whose folder it lies in */
    uint8_t digits; /* of its number, so that no other has the same */
    char uuid[TT_CASE_ID_SIZE];
} found_case;

typedef struct found_cases {
    const case_query *query;
    known_cases *known; /* null: all are read */
    char **months;      /* paths */
    size_t month_count;
    found_case *cases; /* all of them, until unwanted ones are dropped */
    size_t count;
} found_cases;

/* ---- which folders there are ---- */

static void note_failure_at(size_t *failed, const char *path, int error)
{
    if ((*failed)++ == 0) say_file_failure(path, error);
}

/* The first 48 bits of a UUID of version 7 are milliseconds since 1970: so most cases of other days
 * are never opened. */
static int64_t began_at(const char *uuid)
{
    char digits[13];
    memcpy(digits, uuid, 8);
    memcpy(digits + 8, uuid + 9, 4);
    digits[12] = 0;
    return (int64_t)strtoull(digits, NULL, 16);
}

static bool is_wanted_name(const case_query *query, const char *uuid)
{
    int64_t began = began_at(uuid);
    if (began < query->since || began > query->until) return false;
    return query->number == NULL || tt_case_number_fits(uuid, query->number);
}

/* Cases of one month come one after the other. */
static void take_case(void *context, const char *month, const char *uuid)
{
    found_cases *all = context;
    if (all->month_count == 0 || strcmp(all->months[all->month_count - 1], month) != 0) {
        all->months = room_for_one(all->months, all->month_count, sizeof *all->months);
        all->months[all->month_count++] = copy_text(month);
    }
    all->cases = room_for_one(all->cases, all->count, sizeof *all->cases);
    found_case *c = &all->cases[all->count++];
    c->month = (uint32_t)all->month_count - 1;
    memcpy(c->uuid, uuid, TT_CASE_ID_SIZE);
}

static void number_cases(found_cases *all)
{
    const char **ids = take_memory((all->count + 1) * sizeof *ids);
    uint8_t *digits = take_memory(all->count + 1);
    for (size_t i = 0; i < all->count; i++) ids[i] = all->cases[i].uuid;
    if (tt_case_number_digits(ids, all->count, digits) != TT_OK) memory_ended();
    for (size_t i = 0; i < all->count; i++) all->cases[i].digits = digits[i];
    free(digits);
    free(ids);
}

static void drop_unwanted(found_cases *all)
{
    size_t kept = 0;
    for (size_t i = 0; i < all->count; i++)
        if (is_wanted_name(all->query, all->cases[i].uuid)) all->cases[kept++] = all->cases[i];
    all->count = kept;
}

/* ---- reading cases, several at a time ---- */

typedef struct readers {
    const found_cases *w;
    atomic_size_t next;
    case_summary *summaries; /* of each case; those not wanted are freed and have no folder */
    int *errors;             /* of each case, 0 for none */
    char **left_out;         /* of each case, lines to be said; null: none */
} readers;

/* What one reader keeps from case to case, so that it needs no new memory for each. */
typedef struct reader {
    readers *all;
    case_bytes *files;
    size_t *rooms;
    size_t file_room;
    case_stamps stamps; /* of the case and its files, as they were before they were read */
    known_news news;
} reader;

static void make_room(reader *r, size_t index)
{
    if (index < r->file_room) return;
    size_t more = index + 1;
    r->files = more_memory(r->files, more * sizeof *r->files);
    r->rooms = more_memory(r->rooms, more * sizeof *r->rooms);
    r->stamps.files = more_memory(r->stamps.files, more * sizeof *r->stamps.files);
    r->files[index].bytes = take_memory(ROOM_AT_FIRST);
    r->rooms[index] = ROOM_AT_FIRST;
    r->file_room = more;
}

/* 0, or errno. `size`: what it had when it was opened, if that is known: then no more is read. */
static int read_whole(int fd, off_t size, case_bytes *file, size_t *room)
{
    file->length = 0;
    for (;;) {
        ssize_t got = read(fd, file->bytes + file->length, *room - 1 - file->length);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return errno;
        file->length += (size_t)got;
        file->bytes[file->length] = 0;
        if (got == 0 || (size > 0 && file->length >= (size_t)size)) return 0;
        if (file->length + 1 < *room) continue;
        if (*room >= LARGEST_FILE) return EFBIG;
        file->bytes = more_memory(file->bytes, *room *= 2);
    }
}

static stamped_file stamp_file(const char *name, const struct stat *about)
{
    stamped_file file = {.stamp = stamp_of(about)};
    if (strlen(name) < sizeof file.name) memcpy(file.name, name, strlen(name));
    return file;
}

static bool is_writers_file(const char *name)
{
    size_t length = strlen(name);
    return name[0] != '.' && length > 6 && strcmp(name + length - 6, ".jsonl") == 0;
}

/* *left_out: what was passed over, since it is no plain file, one a line; the readers' threads say
 * nothing themselves. */
static int read_file_at(DIR *folder, const struct dirent *entry, reader *r, size_t *count,
                        char **left_out)
{
    const char *name = entry->d_name;
    make_room(r, *count);
    door_fault fault;
    struct stat about;
    int fd = door_open_entry(folder, entry, &about, &fault);
    if (fd < 0 && fault.error == 0) {
        char *before = *left_out;
        *left_out = format_text("%s%s is left out: it is %s\n", before != NULL ? before : "", name,
                                fault.is);
        free(before);
    }
    if (fd < 0) return fault.error;
    r->stamps.files[*count] = stamp_file(name, &about);
    int error = read_whole(fd, about.st_size, &r->files[*count], &r->rooms[*count]);
    close(fd);
    ++*count;
    return error;
}

static int read_files(const char *path, reader *r, size_t *count, char **left_out)
{
    door_fault fault;
    DIR *folder = door_list(AT_FDCWD, path, LINKS_REFUSED, &fault);
    int error = 0;
    *count = 0;
    if (folder == NULL) return fault.error != 0 ? fault.error : ENOTDIR;
    struct stat about;
    if (fstat(dirfd(folder), &about) != 0) error = errno;
    r->stamps.folder = stamp_of(&about);
    int listed = 0;
    for (struct dirent *entry; error == 0 && (entry = door_next(folder, &listed)) != NULL;)
        if (is_writers_file(entry->d_name)) error = read_file_at(folder, entry, r, count, left_out);
    closedir(folder);
    return error != 0 ? error : listed;
}

static bool ended_in_time(const case_query *query, const case_summary *s)
{
    tt_moment ended;
    return tt_moment_read(s->says.ended, &ended) && ended.milliseconds <= query->ended_until;
}

static bool is_wanted(const case_query *query, const case_summary *s)
{
    return s->has_text && (!query->by_end || ended_in_time(query, s)) &&
           (query->states >> s->says.state & 1) != 0 && (query->kinds >> s->says.kind & 1) != 0 &&
           (query->book == NULL || strcmp(s->says.title, query->book) == 0) &&
           (query->at == NULL || text_holds(s->says.site, query->at)) &&
           (query->to == NULL || text_holds(s->says.to, query->to)) &&
           (query->cause == NULL || text_holds(s->says.cause, query->cause) ||
            text_holds(s->says.cause_name, query->cause));
}

/* 0, or errno. */
static int summarize(reader *r, const char *path, const char *uuid, case_summary *out,
                     char **left_out)
{
    const case_query *query = r->all->w->query;
    /* Where words are looked for is not kept with what is known. */
    known_cases *known = query->word_count == 0 ? r->all->w->known : NULL;
    if (known != NULL && known_case_find(known, path, uuid, out)) return 0;
    const int error = read_files(path, r, &r->stamps.count, left_out);
    if (error != 0) return error;
    case_summarize(uuid, r->files, r->stamps.count, query->words, query->word_count, out);
    if (known != NULL && *left_out == NULL) known_case_note(known, &r->news, &r->stamps, out);
    return 0;
}

static void read_case(reader *r, size_t index)
{
    readers *all = r->all;
    const found_cases *w = all->w;
    const found_case *c = &w->cases[index];
    case_summary *s = &all->summaries[index];
    char *path = format_text("%s/%s", w->months[c->month], c->uuid);
    all->errors[index] = summarize(r, path, c->uuid, s, &all->left_out[index]);
    if (all->errors[index] == 0) {
        tt_case_number(c->uuid, c->digits, s->number);
        s->folder = path;
        if (is_wanted(w->query, s)) return;
        case_summary_free(s);
        s->folder = NULL;
        return;
    }
    free(path);
}

static void *read_some(void *context)
{
    reader *r = context;
    readers *all = r->all;
    for (size_t from; (from = atomic_fetch_add(&all->next, CASES_AT_ONCE)) < all->w->count;)
        for (size_t i = from; i < from + CASES_AT_ONCE && i < all->w->count; i++) read_case(r, i);
    for (size_t i = 0; i < r->file_room; i++) free(r->files[i].bytes);
    free(r->files);
    free(r->rooms);
    free(r->stamps.files);
    return NULL;
}

static size_t reader_count(size_t cases)
{
    long processors = sysconf(_SC_NPROCESSORS_ONLN);
    size_t count = processors < 1              ? 1
                   : processors > MOST_READERS ? MOST_READERS
                                               : (size_t)processors;
    return cases <= CASES_AT_ONCE ? 1 : count;
}

/* A reader that can't be had leaves its share to the others. */
static void read_all(readers *all)
{
    pthread_t threads[MOST_READERS];
    reader each[MOST_READERS];
    size_t begun = 0, wanted = reader_count(all->w->count);
    for (size_t i = 0; i < wanted; i++) each[i] = (reader){.all = all};
    while (begun + 1 < wanted &&
           pthread_create(&threads[begun], NULL, read_some, &each[begun]) == 0)
        begun++;
    read_some(&each[begun]);
    for (size_t i = 0; i < begun; i++) pthread_join(threads[i], NULL);
    for (size_t i = 0; i <= begun && all->w->known != NULL; i++)
        known_news_take(all->w->known, &each[i].news);
}

/* ---- the list ---- */

static int by_beginning(const void *a, const void *b)
{
    const case_summary *x = a, *y = b;
    int order = strcmp(x->uuid, y->uuid);
    return order != 0 ? order : strcmp(x->folder, y->folder);
}

static void say_left_out(readers *all, size_t index)
{
    const found_case *c = &all->w->cases[index];
    const char *folder = all->w->months[c->month];
    for (const char *line = all->left_out[index]; line != NULL && *line != 0;
         line += strcspn(line, "\n") + 1)
        complain("%s/%s/%.*s", folder, c->uuid, (int)strcspn(line, "\n"), line);
    free(all->left_out[index]);
}

static void keep_wanted(readers *all, case_list *out)
{
    for (size_t i = 0; i < all->w->count; i++) {
        const found_case *c = &all->w->cases[i];
        say_left_out(all, i);
        if (all->errors[i] != 0) {
            char *path = format_text("%s/%s", all->w->months[c->month], c->uuid);
            note_failure_at(&out->failed, path, all->errors[i]);
            free(path);
        } else if (all->summaries[i].folder != NULL) {
            out->cases[out->count++] = all->summaries[i];
        }
    }
    if (out->count > 0) qsort(out->cases, out->count, sizeof *out->cases, by_beginning);
}

static void read_found(const found_cases *w, case_list *out)
{
    readers all = {.w = w,
                   .summaries = take_memory((w->count + 1) * sizeof *all.summaries),
                   .errors = take_memory((w->count + 1) * sizeof *all.errors),
                   .left_out = take_memory((w->count + 1) * sizeof *all.left_out)};
    read_all(&all);
    out->cases = all.summaries; /* in place: the list is no longer than what was found */
    keep_wanted(&all, out);
    free(all.errors);
    free(all.left_out);
}

static void found_end(found_cases *w)
{
    for (size_t i = 0; i < w->month_count; i++) free(w->months[i]);
    free(w->months);
    free(w->cases);
}

static known_cases *known_of(const found_cases *w, const char *root, int64_t now)
{
    known_cases_sweep();
    if (w->count < KNOWN_FROM) known_cases_forget(root);
    if (w->count < KNOWN_FROM || w->query->number != NULL) return NULL; /* few are read */
    known_cases *known = known_cases_read(root, now);
    for (size_t i = 0; i < w->count && known != NULL; i++)
        known_case_is_there(known, w->cases[i].uuid);
    return known;
}

exit_status folder_list_at(const char *root, const case_query *query, int64_t now, case_list *out)
{
    found_cases w = {.query = query};
    const size_t not_walked = folder_walk(root, take_case, &w);
    out->failed = not_walked;
    w.known = known_of(&w, root, now);
    number_cases(&w);
    drop_unwanted(&w);
    out->looked_at = w.count;
    read_found(&w, out);
    if (w.known != NULL) known_cases_end(w.known, not_walked == 0);
    found_end(&w);
    return EXIT_DONE;
}

exit_status folder_list(const char *root, const case_query *query, case_list *out)
{
    return folder_list_at(root, query, clock_milliseconds(), out);
}
