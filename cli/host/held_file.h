/* A file that several may change at the same time: whoever holds it reads, changes and writes it
 * while the others wait. */
#ifndef TT_CLI_HELD_FILE_H
#define TT_CLI_HELD_FILE_H

typedef struct held_file {
    int fd; /* of a hidden file beside it, which carries the lock; -1: there are no locks here */
    char *path; /* of that file */
} held_file;

/* Waits until nobody else holds it. */
held_file hold_file(const char *path);
void let_file_go(held_file *held);

#endif
