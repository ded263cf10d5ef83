/* JSON that is written as nearly all is: no escapes but the short ones, whole numbers or decimal
 * ones of a few digits. Nothing is said here: what is wrong, rare or in doubt is for json_read. */
#ifndef TT_SHOW_JSON_PLAIN_H
#define TT_SHOW_JSON_PLAIN_H

#include "base/value.h"

/* The same as json_read gives, or false: then ask it. Takes what it needs of `keep`, and gives it
 * back if it is false. */
bool json_plain(arena *keep, str text, tt_value *out);

#endif
