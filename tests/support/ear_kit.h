/* A book from one text, and the listener for it. */
#ifndef TT_SUPPORT_EAR_KIT_H
#define TT_SUPPORT_EAR_KIT_H

#include "listen/listen.h"
#include "telltale.h"

typedef struct ear_kit {
    arena *keep; /* of what is heard */
    tt_book *loaded;
    const book *book;
    const listener *l;
} ear_kit;

ear_kit ear_new(const char *yaml);
/* Of a loaded book, which is freed with it. */
ear_kit ear_of(tt_book *loaded);
void ear_free(ear_kit *e);

#endif
