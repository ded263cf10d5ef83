/* Where a name stands, to the byte. */
#ifndef TT_REVISE_NAME_PLACES_H
#define TT_REVISE_NAME_PLACES_H

#include "model/mentions.h"

typedef void found_name(void *context, span at);

/* Calls `found` for each place of the mention's name in its scalar; for none where it is written in
 * another way there: with escapes. */
void name_places(const sources *files, const mention *m, found_name *found, void *context);

#endif
