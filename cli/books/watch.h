/* Waits until something in a folder of a book was saved. */
#ifndef TT_CLI_WATCH_H
#define TT_CLI_WATCH_H

#include <stdbool.h>

typedef struct watch watch;
typedef enum watch_got { WATCH_SAVED, WATCH_SIGNAL, WATCH_FAILED } watch_got;

/* From here on nothing is missed: look at the folder after this, and then wait. Null with errno. */
watch *watch_new(const char *folder);
/* Until a file of a book (*.yaml, *.yml) in it, or in a folder within, is written whole, comes, or
 * goes; several at once are one. FAILED with errno: the folder itself is gone, among others. */
watch_got watch_wait(watch *w);
void watch_free(watch *w);

#endif
