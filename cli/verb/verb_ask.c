/* ask: the guided case, from the first word to the last page; or many of them, for a program. */
#include "call/call_parts.h"
#include "call/many_calls.h"
#include "verb/verbs.h"

exit_status verb_ask(const command_line *line)
{
    return is_given(line, OPTION_MANY) ? many_calls(line) : talk_of_kind(line, TT_KIND_FAULT);
}
