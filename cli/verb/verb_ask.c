/* ask: the guided case, from the first word to the last page. */
#include "call/call_parts.h"
#include "verb/verbs.h"

exit_status verb_ask(const command_line *line)
{
    return talk_of_kind(line, TT_KIND_FAULT);
}
