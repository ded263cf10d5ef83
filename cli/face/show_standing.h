/* Where a case stands, in words: what is known, what it points to, what to do about it. */
#ifndef TT_CLI_SHOW_STANDING_H
#define TT_CLI_SHOW_STANDING_H

#include "host/screen.h"
#include "telltale.h"

/* The pieces of equipment that the case is about; nothing if none was named. */
void show_focus(const screen *s, const tt_book *book, const tt_view *view);
/* `c` is the case that the view is of. */
void show_facts(const screen *s, tt_case *c, const tt_view *view);
/* Of many facts of the site only how many there are. */
void show_facts_briefly(const screen *s, tt_case *c, const tt_view *view);
/* At most `most` causes, leaving out the unlikely after the third. */
void show_causes(const screen *s, const tt_view *view, uint32_t most);
void show_fixes(const screen *s, const tt_view *view, uint32_t most);
void show_caution(const screen *s, const tt_caution *caution);
void show_stop(const screen *s, const tt_view *view);

#endif
