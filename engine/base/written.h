/* What an author wrote: as it is shown to people, and where a name ends in it. */
#ifndef TT_BASE_WRITTEN_H
#define TT_BASE_WRITTEN_H

#include "base/source.h"

/* The text at a place without the quotes around it; empty for span_nowhere. */
str written_at(const sources *all, span at);

/* Whether a name would go on with what stands there: "drop" is not in "drop-end". */
bool name_goes_on(str bytes, size_t at);

#endif
