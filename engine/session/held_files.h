/* The bytes of files that a book and the report of its loading hold together: whoever lets go of
 * them last frees them, on whatever thread that is. */
#ifndef TT_SESSION_HELD_FILES_H
#define TT_SESSION_HELD_FILES_H

#include "base/arena.h"

typedef struct held_files held_files;

/* Held once, by the caller; null if there is no memory. */
held_files *held_files_new(void);
arena *held_files_arena(held_files *h);     /* where the bytes are to be; it has no guard */
held_files *held_files_hold(held_files *h); /* once more; the same */
void held_files_let_go(held_files *h);      /* null is fine */

#endif
