/* The books that come with the program, to choose from. */
#ifndef TT_CLI_SHELF_H
#define TT_CLI_SHELF_H

typedef struct shelf {
    char **paths;  /* of their folders */
    char **titles; /* as the books give them, cleaned */
    unsigned count;
} shelf;

/* Those in a folder that can be used, by the names of their folders, the one named `first` at the
 * head. What is none, or has faults, is left out without a word. Freed by shelf_free. */
shelf shelf_read(const char *folder, const char *first);
void shelf_free(shelf *s);

#endif
