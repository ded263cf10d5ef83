/* The events of a file that is written as nearly all are: maps and lists by indentation or in { }
 * and [ ], plain and quoted texts, comments. Nothing is said here: what is wrong, rare or in doubt
 * goes to the parser, which knows all of YAML. */
#ifndef TT_LOAD_PLAIN_EVENTS_H
#define TT_LOAD_PLAIN_EVENTS_H

#include "load/events.h"

/* The same events as the parser would give, or false: then ask it. The bytes have passed
 * check_bytes. Texts lie in one copy of the file in `keep`. */
bool plain_events(arena *keep, arena *scratch, const source *s, uint32_t *budget, events *out);

#endif
