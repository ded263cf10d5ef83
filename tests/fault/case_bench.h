/* A case's files as the program writes and reads them, in the test's own folder. */
#ifndef TT_TESTS_FAULT_CASE_BENCH_H
#define TT_TESTS_FAULT_CASE_BENCH_H

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <fcntl.h>
#include <signal.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "cases/case_store.h"
#include "depots/folder_parts.h"
#include "host/memory.h"

/* A case, its records in order. */
typedef struct bench {
    case_store *store;
    tt_record *records;
    size_t count;
    uint64_t number, lamport; /* the highest there are; number: of its own */
} bench;

/* The folder of a new case under `root`, with nothing in it; freed by the caller. */
static inline char *new_case(const char *root)
{
    arena *keep = host_arena();
    case_name name;
    assert_int_equal(folder_name_new(keep, root, NULL, &name), EXIT_DONE);
    assert_null(folder_make_case(keep, root, name.folder));
    char *kept = strdup(name.folder);
    arena_free(keep);
    return kept;
}

static inline const char *time_now(char out[32])
{
    struct timespec now;
    struct tm utc;
    clock_gettime(CLOCK_REALTIME, &now);
    assert_non_null(gmtime_r(&now.tv_sec, &utc));
    assert_true(strftime(out, 32, "%Y-%m-%dT%H:%M:%SZ", &utc) > 0);
    return out;
}

/* False: it waits to be kept; *why says what is in the way. */
static inline bool add_number_or(bench *b, long number, const char **why)
{
    static const char *const key = "n";
    char moment[32];
    const tt_value item = {.kind = TT_VALUE_NUMBER, .number = (double)number};
    const tt_value data = {.kind = TT_VALUE_MAP, .count = 1, .items = &item, .keys = &key};
    const tt_record record = {.writer = case_store_writer(b->store),
                              .number = ++b->number,
                              .lamport = b->lamport < (uint64_t)1 << 53 ? ++b->lamport : b->lamport,
                              .time = time_now(moment),
                              .kind = "answer",
                              .data = &data};
    return case_store_keep(b->store, &record, 1, why);
}

static inline bool add_number(bench *b, long number)
{
    const char *why;
    return add_number_or(b, number, &why);
}

static inline long number_at(const bench *b, size_t index)
{
    const tt_value *data = b->records[index].data;
    return data->count == 1 && strcmp(data->keys[0], "n") == 0 ? (long)data->items[0].number : -1;
}

static inline int in_order(const void *a, const void *b)
{
    const tt_record *x = a, *y = b;
    if (x->lamport != y->lamport) return x->lamport < y->lamport ? -1 : 1;
    int order = strcmp(x->writer, y->writer);
    return order != 0 ? order : (x->number > y->number) - (x->number < y->number);
}

static inline bench *bench_of(case_store *store)
{
    bench *b = calloc(1, sizeof *b);
    assert_non_null(b);
    const tt_record *records = case_store_records(store, &b->count);
    b->store = store;
    b->records = calloc(b->count + 1, sizeof *records);
    assert_non_null(b->records);
    if (b->count > 0) memcpy(b->records, records, b->count * sizeof *records);
    if (b->count > 0) qsort(b->records, b->count, sizeof *records, in_order);
    for (size_t i = 0; i < b->count; i++) {
        if (records[i].lamport > b->lamport) b->lamport = records[i].lamport;
        bool own = strcmp(records[i].writer, case_store_writer(store)) == 0;
        if (own && records[i].number > b->number) b->number = records[i].number;
    }
    return b;
}

static inline void close_bench(bench *b)
{
    case_store_close(b->store);
    free(b->records);
    free(b);
}

/* What is said on standard error from here on goes to the file "err"; give what this returns to
 * `hear_again`. */
static inline int catch_complaints(void)
{
    fflush(stderr);
    int before = dup(2), file = open("err", O_WRONLY | O_CREAT | O_TRUNC | O_APPEND, 0600);
    assert_true(before >= 0 && file >= 0 && dup2(file, 2) == 2);
    close(file);
    return before;
}

static inline void hear_again(int before)
{
    fflush(stderr);
    assert_int_equal(dup2(before, 2), 2);
    close(before);
}

/* Opened to look at; complaints are in "err". */
static inline bench *read_case(const char *folder)
{
    case_store *store;
    int before = catch_complaints();
    exit_status status = case_store_look(".", folder, &store);
    hear_again(before);
    assert_int_equal(status, EXIT_DONE);
    return bench_of(store);
}

static inline exit_status open_quietly(const char *folder, bench **b)
{
    case_store *store;
    exit_status status = case_store_look(".", folder, &store);
    if (status == EXIT_DONE) status = case_store_join(store);
    *b = status == EXIT_DONE ? bench_of(store) : NULL;
    if (status != EXIT_DONE) case_store_close(store);
    return status;
}

/* To be added to. */
static inline exit_status open_case(const char *folder, bench **b)
{
    int before = catch_complaints();
    exit_status status = open_quietly(folder, b);
    hear_again(before);
    return status;
}

static inline char *text_of_file(const char *path, size_t *length)
{
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    fseek(file, 0, SEEK_END);
    *length = (size_t)ftell(file);
    rewind(file);
    char *text = calloc(1, *length + 1);
    assert_int_equal(fread(text, 1, *length, file), *length);
    fclose(file);
    return text;
}

static inline void put_file(const char *path, const char *bytes, size_t length)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, length, file), length);
    assert_int_equal(fclose(file), 0);
}

static inline bool was_said(const char *part)
{
    size_t length;
    char *text = text_of_file("err", &length);
    bool found = strstr(text, part) != NULL;
    if (!found) print_message("not said: %s\nbut:\n%.2000s\n", part, text);
    free(text);
    return found;
}

static inline size_t lines_said(void)
{
    size_t length, count = 0;
    char *text = text_of_file("err", &length);
    for (size_t i = 0; i < length; i++) count += text[i] == '\n';
    free(text);
    return count;
}

/* The path of the only writer's file. Freed by the caller. */
static inline char *only_file(const char *folder)
{
    bench *b = read_case(folder);
    assert_int_equal(case_store_writers(b->store), 1);
    char path[512];
    snprintf(path, sizeof path, "%s/%s.jsonl", folder, case_store_writer_at(b->store, 0).name);
    close_bench(b);
    return strdup(path);
}

/* Numbers that a child adds to a case, and where it acknowledges each. */
typedef struct numbers {
    const char *folder;
    long first, most;
    int acks;   /* a pipe's end for writing */
    bool stays; /* keeps the case open until it is killed */
} numbers;

/* Adds them until all are there, or until one can't be kept. */
static inline void write_numbers(void *context)
{
    const numbers *to_add = context;
    bench *b;
    int error = open("err-child", O_WRONLY | O_CREAT | O_APPEND, 0600);
    if (error >= 0) dup2(error, 2);
    if (open_quietly(to_add->folder, &b) != EXIT_DONE) _exit(9);
    for (long n = to_add->first; n < to_add->first + to_add->most; n++) {
        if (!add_number(b, n)) _exit(5);
        if (write(to_add->acks, &n, sizeof n) != (ssize_t)sizeof n) _exit(8);
    }
    while (to_add->stays) pause();
    _exit(0);
}

/* A child that adds numbers from `first` on until it is killed, or until `most` are there. *acks:
 * the pipe's end for reading. */
static inline pid_t start_one(const numbers *wanted, int *acks)
{
    int ends[2];
    numbers to_add = *wanted;
    assert_int_equal(pipe(ends), 0);
    fflush(NULL);
    pid_t pid = fork();
    assert_true(pid >= 0);
    if (pid > 0) {
        close(ends[1]);
        *acks = ends[0];
        return pid;
    }
    prctl(PR_SET_PDEATHSIG, SIGKILL); /* a test that fails leaves nobody behind */
    to_add.acks = ends[1];
    write_numbers(&to_add);
    _exit(0);
}

static inline pid_t start_writer(const char *folder, long first, long most, int *acks)
{
    return start_one(&(numbers){.folder = folder, .first = first, .most = most}, acks);
}

/* The last that was acknowledged, or -1; waits until the writer is gone. */
static inline long last_acknowledged(int acks)
{
    long last = -1, n;
    while (read(acks, &n, sizeof n) == (ssize_t)sizeof n) last = n;
    close(acks);
    return last;
}

#endif
