/* A map of YAML within braces, "{a: 1, b: {value: 2}}", over as many lines as it takes: an entry is
 * put in by bytes, so that everything else, remarks too, stays as it is. */
#ifndef TT_CLI_FLOW_EDIT_H
#define TT_CLI_FLOW_EDIT_H

#include <stdbool.h>
#include <stddef.h>

/* From the brace at `open` to behind its closing one; 0: it has none, or something else is wrong.
 */
size_t flow_end(const char *text, size_t open);

typedef struct flow_entry {
    size_t value, end; /* of its value, without blanks or remarks behind it */
} flow_entry;
/* The entry of a key among those of the map itself, not of maps within it. */
bool flow_find(const char *text, size_t open, const char *key, flow_entry *out);

/* The text with "key: value" in the map at `open`, in place of the value that is there, else as its
 * last entry. Null: the map has no end. Freed by the caller. */
char *flow_with(const char *text, size_t open, const char *key, const char *value);

#endif
