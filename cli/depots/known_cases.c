#include "depots/known_cases.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/statvfs.h>
#include <unistd.h>

#include "base/sorted.h"
#include "depots/known_entry.h"
#include "host/door.h"
#include "host/files.h"
#include "host/own_folder.h"
#include "host/plain_text.h"
#include "summary/record_line.h"
#include "summary/summary_row.h"

enum {
    LARGEST = 1 << 30,
    LARGEST_ROOT = 4096,
    SETTLED_AFTER = 300000, /* milliseconds: a file system's clock may be another than ours */
    NEW_ONE_IN = 20,        /* fewer new ones are read again sooner than all is written anew */
    FREE_AT_LEAST = 16,     /* times as much: what people say needs room, this does not */
    HASH_SHOWN = 12,
    ORDER_OF_BYTES = 0x01020304
};

/* In front of all. What another edition or another kind of machine wrote differs in it. */
typedef struct front {
    char mark[16], edition[24];
    uint32_t order, entry_size, meaning, root_length;
    uint64_t sum; /* of all behind it: the root, and the entries */
} front;
static_assert(sizeof(front) == 64, "compared as bytes, so without gaps");

struct known_cases {
    char *path, *root;
    int64_t settled_before;      /* nanoseconds since 1970 */
    char *bytes;                 /* of the file */
    const known_entry **entries; /* in them, by uuid */
    uint32_t count;
    bool *there;
    atomic_bool *changed;
    known_news news;
};

/* ---- where ---- */

static char *path_of(const char *root)
{
    char hash[LINE_HASH_SIZE];
    line_hash(root, strlen(root), hash);
    hash[HASH_SHOWN] = 0;
    char *folder = own_path(OWN_CACHE, "known-cases");
    char *path = folder != NULL ? format_text("%s/%s", folder, hash) : NULL;
    free(folder);
    return path;
}

void known_cases_forget(const char *root)
{
    char *real = real_path(root), *path = real != NULL ? path_of(real) : NULL;
    if (path != NULL) unlink(path);
    free(path);
    free(real);
}

/* ---- read ---- */

static front front_of(const char *root)
{
    front f = {.order = ORDER_OF_BYTES,
               .entry_size = sizeof(known_entry),
               .meaning = SUMMARY_MEANING,
               .root_length = (uint32_t)strlen(root)};
    snprintf(f.mark, sizeof f.mark, "telltale cases");
    snprintf(f.edition, sizeof f.edition, "%s", TELLTALE_VERSION);
    return f;
}

/* Where the first entry lies: all of them are aligned. */
static size_t entries_at(const front *f)
{
    const size_t end = sizeof *f + f->root_length + 1;
    return end + (ENTRY_ALIGNED - end % ENTRY_ALIGNED) % ENTRY_ALIGNED;
}

/* Against what a disk may do. The two sums of Fletcher, An arithmetic checksum for serial
 * transmissions, IEEE Transactions on Communications COM-30(1), January 1982, 247-252: of the
 * words, and of those sums. Words are of 32 bits here, and each sum is taken modulo 2^32, which the
 * machine does by itself, and not 2^32 - 1. `length` is a multiple of 4. */
static uint64_t sum_of(const char *bytes, size_t length)
{
    uint32_t first = 1, second = 0;
    for (size_t i = 0; i < length; i += sizeof(uint32_t)) {
        uint32_t word;
        memcpy(&word, bytes + i, sizeof word);
        first += word;
        second += first;
    }
    return (uint64_t)second << 32 | first;
}

static bool is_ours(const char *bytes, size_t length, const char *root)
{
    front wanted = front_of(root);
    if (length < entries_at(&wanted) || length % ENTRY_ALIGNED != 0) return false;
    wanted.sum = sum_of(bytes + sizeof wanted, length - sizeof wanted);
    return memcmp(bytes, &wanted, sizeof wanted) == 0 &&
           memcmp(bytes + sizeof wanted, root, strlen(root) + 1) == 0;
}

/* Nobody else may have written it. */
static ssize_t read_own(const char *path, char **bytes)
{
    struct stat about;
    door_fault fault;
    const int fd = door_open_file(AT_FDCWD, path, LINKS_REFUSED, &fault);
    if (fd < 0) return -1;
    const bool own = fstat(fd, &about) == 0 && about.st_uid == geteuid() &&
                     (about.st_mode & (S_IWGRP | S_IWOTH)) == 0;
    const ssize_t length = own ? read_descriptor(fd, LARGEST, bytes) : -1;
    close(fd);
    return length;
}

static int by_uuid(const void *a, const void *b)
{
    const known_entry *const *x = a, *const *y = b;
    return strcmp((*x)->uuid, (*y)->uuid);
}

static void find_entries(known_cases *k, const char *at, const char *end)
{
    for (const known_entry *e; (size_t)(end - at) >= sizeof *e; at += e->length) {
        e = (const known_entry *)(const void *)at;
        if (!known_entry_is_sound(e, (size_t)(end - at))) break;
        k->entries = room_for_one(k->entries, k->count, sizeof *k->entries);
        k->entries[k->count++] = e;
    }
    SORT(k->entries, k->count, by_uuid);
}

known_cases *known_cases_read(const char *root, int64_t now)
{
    const int64_t to_nanoseconds = 1000000;
    char *real = real_path(root), *path = real != NULL ? path_of(real) : NULL;
    if (path == NULL || strlen(real) > LARGEST_ROOT) {
        free(path);
        free(real);
        return NULL;
    }
    known_cases *k = take_memory(sizeof *k);
    *k = (known_cases){
        .path = path, .root = real, .settled_before = (now - SETTLED_AFTER) * to_nanoseconds};
    const ssize_t length = read_own(path, &k->bytes);
    if (length > 0 && is_ours(k->bytes, (size_t)length, real)) {
        const front f = front_of(real);
        find_entries(k, k->bytes + entries_at(&f), k->bytes + length);
    }
    k->there = take_memory((k->count + 1) * sizeof *k->there);
    k->changed = take_memory((k->count + 1) * sizeof *k->changed);
    return k;
}

/* ---- looked up ---- */

static uint32_t place_of(const known_cases *k, const char *uuid)
{
    uint32_t at;
    SORTED_PLACE(at, k->count, i, strcmp(k->entries[i]->uuid, uuid) < 0);
    return at < k->count && strcmp(k->entries[at]->uuid, uuid) == 0 ? at : k->count;
}

void known_case_is_there(known_cases *k, const char *uuid)
{
    for (uint32_t i = place_of(k, uuid); i < k->count && strcmp(k->entries[i]->uuid, uuid) == 0;
         i++)
        k->there[i] = true;
}

static bool is_as_it_was(const char *path, const file_stamp *stamp)
{
    struct stat about;
    if (lstat(path, &about) != 0) return false;
    const file_stamp now = stamp_of(&about);
    return memcmp(&now, stamp, sizeof now) == 0;
}

static bool nothing_changed(const char *folder, const known_entry *e)
{
    const stamped_file *files = known_entry_files(e);
    bool same = is_as_it_was(folder, &e->folder);
    for (uint32_t i = 0; same && i < e->file_count; i++) {
        char *path = format_text("%s/%s", folder, files[i].name);
        same = is_as_it_was(path, &files[i].stamp);
        free(path);
    }
    return same;
}

bool known_case_find(known_cases *k, const char *folder, const char *uuid, case_summary *out)
{
    const uint32_t at = place_of(k, uuid);
    if (at == k->count) return false;
    const known_entry *e = k->entries[at];
    if (!nothing_changed(folder, e)) {
        atomic_store(&k->changed[at], true);
        return false;
    }
    known_entry_read(e, out);
    return true;
}

/* ---- noted ---- */

static bool is_settled(const known_cases *k, const file_stamp *stamp)
{
    return stamp->written < k->settled_before && stamp->changed < k->settled_before;
}

static bool all_settled(const known_cases *k, const case_stamps *stamps)
{
    bool settled = is_settled(k, &stamps->folder);
    for (size_t i = 0; settled && i < stamps->count; i++)
        settled = stamps->files[i].name[0] != 0 && is_settled(k, &stamps->files[i].stamp);
    return settled;
}

void known_case_note(const known_cases *k, known_news *news, const case_stamps *stamps,
                     const case_summary *summary)
{
    if (case_is_open(summary) || !all_settled(k, stamps)) return;
    known_entry_write(news, stamps, summary);
    news->count++;
}

void known_news_take(known_cases *k, known_news *news)
{
    known_put(&k->news, news->bytes, news->length);
    k->news.count += news->count;
    free(news->bytes);
    *news = (known_news){.bytes = NULL};
}

/* ---- kept ---- */

/* Of roots that are gone nothing stays, nor of a file that is cut off before it names its root. */
static void forget_if_gone(const char *path)
{
    struct stat about;
    door_fault fault;
    char begin[sizeof(front) + LARGEST_ROOT + 1] = {0};
    const char *root = begin + sizeof(front);
    const int fd = door_open_file(AT_FDCWD, path, LINKS_REFUSED, &fault);
    if (fd < 0) return;
    const bool read_it = read(fd, begin, sizeof begin - 1) >= 0;
    close(fd);
    if (read_it && lstat(root, &about) != 0 && errno == ENOENT) unlink(path);
}

static void forget_gone(const char *folder)
{
    door_fault fault;
    DIR *list = door_list(AT_FDCWD, folder, LINKS_FOLLOWED, &fault);
    int error;
    if (list == NULL) return;
    for (struct dirent *one; (one = door_next(list, &error)) != NULL;) {
        char *path = format_text("%s/%s", folder, one->d_name);
        if (strlen(one->d_name) == HASH_SHOWN) forget_if_gone(path);
        free(path);
    }
    closedir(list);
}

static bool has_room(const char *folder, size_t length)
{
    struct statvfs disk;
    return statvfs(folder, &disk) == 0 &&
           (uint64_t)disk.f_bavail * disk.f_frsize / FREE_AT_LEAST > length;
}

static bool is_kept(const known_cases *k, uint32_t i)
{
    return k->there[i] && !atomic_load(&k->changed[i]);
}

static bool write_all(known_cases *k, const char *folder)
{
    static const char nothing[ENTRY_ALIGNED];
    known_news all = {.bytes = NULL};
    front f = front_of(k->root);
    known_put(&all, &f, sizeof f);
    known_put(&all, k->root, f.root_length + 1);
    known_put(&all, nothing, entries_at(&f) - all.length);
    for (uint32_t i = 0; i < k->count; i++)
        if (is_kept(k, i)) known_put(&all, k->entries[i], k->entries[i]->length);
    known_put(&all, k->news.bytes, k->news.length);
    f.sum = sum_of(all.bytes + sizeof f, all.length - sizeof f);
    memcpy(all.bytes, &f, sizeof f);
    const bool written = has_room(folder, all.length) &&
                         write_whole(k->path, all.bytes, all.length, 0600, true) == 0;
    free(all.bytes);
    return written;
}

void known_cases_sweep(void)
{
    char *folder = own_path(OWN_CACHE, "known-cases");
    if (folder != NULL) forget_gone(folder);
    free(folder);
}

void known_cases_end(known_cases *k, bool all_seen)
{
    size_t kept = 0, gone = 0;
    for (uint32_t i = 0; i < k->count; i++) {
        const bool changed = atomic_load(&k->changed[i]); /* what it said before may be deleted */
        gone += changed || (all_seen && !k->there[i]);
        k->there[i] = k->there[i] || !all_seen;
        kept += is_kept(k, i);
    }
    const bool many = k->news.count > 0 && k->news.count * NEW_ONE_IN >= kept;
    char *folder = folder_above(k->path);
    if (many || gone > 0) {
        if (make_folders(folder) != 0 || !write_all(k, folder)) unlink(k->path);
    }
    free(folder);
    free(k->there);
    free(k->changed);
    free(k->news.bytes);
    free(k->entries);
    free(k->bytes);
    free(k->root);
    free(k->path);
    free(k);
}
