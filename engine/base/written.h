/* What an author wrote, as it is shown to people. */
#ifndef TT_BASE_WRITTEN_H
#define TT_BASE_WRITTEN_H

#include "base/source.h"

/* The text at a place without the quotes around it; empty for span_nowhere. */
str written_at(const sources *all, span at);

#endif
