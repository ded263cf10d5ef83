/* Colour with meaning, never alone: a word always says the same. The inks have the safety colours,
 * each as a ground that can be read on dark and on light screens. */
#ifndef TT_CLI_COLOUR_H
#define TT_CLI_COLOUR_H

#include <stdbool.h>

#include "face/turn_blocks.h"

typedef enum colour_wish { COLOUR_AUTO, COLOUR_ALWAYS, COLOUR_NEVER } colour_wish;

/* "auto", "always", "never"; null is auto. False: none of them. */
bool colour_wish_read(const char *word, colour_wish *out);
/* In this order: what the option says, NO_COLOR, FORCE_COLOR or CLICOLOR_FORCE, and whether it is a
 * terminal that can do more than TERM=dumb. */
bool colour_is_on(colour_wish wish, bool terminal);
/* What begins an ink on a terminal; "" if it has none. ink_end ends any. */
const char *ink_begin(ink i);
extern const char ink_end[];

#endif
