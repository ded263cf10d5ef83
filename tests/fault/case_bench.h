/* A case's file as the program writes and reads it, in the test's own folder. */
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
#include <unistd.h>

#include "host/case_file.h"

/* A new case under `root`; its folder is freed by the caller. */
static inline char *new_case(const char *root)
{
    case_file *file;
    assert_int_equal(case_file_new(root, &file), EXIT_DONE);
    char *folder = strdup(case_file_folder(file));
    case_file_close(file);
    return folder;
}

static inline exit_status add_number(case_file *file, long number)
{
    json_t *data = json_object();
    json_object_set_new(data, "n", json_integer(number));
    return case_file_add(file, "answer", data);
}

static inline long number_of(const case_record *record)
{
    return (long)json_integer_value(json_object_get(record->data, "n"));
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
static inline case_file *read_case(const char *folder)
{
    case_file *file;
    int before = catch_complaints();
    exit_status status = case_file_read(".", folder, &file);
    hear_again(before);
    assert_int_equal(status, EXIT_DONE);
    return file;
}

static inline exit_status open_case(const char *folder, case_file **file)
{
    int before = catch_complaints();
    exit_status status = case_file_open(".", folder, file);
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
    case_file *file = read_case(folder);
    assert_int_equal(case_file_writers(file), 1);
    char path[512];
    snprintf(path, sizeof path, "%s/%s.jsonl", folder, case_file_writer_at(file, 0).name);
    case_file_close(file);
    return strdup(path);
}

/* Numbers that a child adds to a case, and where it acknowledges each. */
typedef struct numbers {
    const char *folder;
    long first, most;
    int acks; /* a pipe's end for writing */
} numbers;

/* Adds them until all are there, or until one can't be kept. */
static inline void write_numbers(void *context)
{
    const numbers *to_add = context;
    case_file *file;
    int error = open("err-child", O_WRONLY | O_CREAT | O_APPEND, 0600);
    if (error >= 0) dup2(error, 2);
    if (case_file_open(".", to_add->folder, &file) != EXIT_DONE) _exit(9);
    for (long n = to_add->first; n < to_add->first + to_add->most; n++) {
        if (add_number(file, n) != EXIT_DONE) _exit(5);
        if (write(to_add->acks, &n, sizeof n) != (ssize_t)sizeof n) _exit(8);
    }
    _exit(0);
}

/* A child that adds numbers from `first` on until it is killed, or until `most` are there. *acks: the
 * pipe's end for reading. */
static inline pid_t start_writer(const char *folder, long first, long most, int *acks)
{
    int ends[2];
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
    write_numbers(&(numbers){folder, first, most, ends[1]});
    _exit(0);
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
