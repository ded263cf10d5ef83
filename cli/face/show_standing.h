/* Where a case stands, in words on a screen. */
#ifndef TT_CLI_SHOW_STANDING_H
#define TT_CLI_SHOW_STANDING_H

#include "host/exits.h"
#include "host/screen.h"
#include "telltale.h"

/* Cautions, what is known, what it points to, what to do about it. `view`: of the case. */
void show_standing(const screen *s, const tt_book *book, tt_case *c, const tt_view *view);
/* Why the cause at this place of the ranking rather than its strongest rival, and what would turn
 * it. Says so if there is none. */
void show_why(const screen *s, tt_case *c, uint32_t rank);
/* Why this fix (TT_NONE: the one for the likeliest cause) does not come first; nothing if it does.
 */
void show_why_fix(const screen *s, tt_case *c, uint32_t fix);

#endif
