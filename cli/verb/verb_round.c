/* round, record, drill: the same conversation as ask, about what is looked at regularly, about what
 * good looks like, and on a call that is made up. */
#include "call/call_parts.h"
#include "verb/verbs.h"

exit_status verb_round(const command_line *line)
{
    return talk_of_kind(line, TT_KIND_ROUND);
}

exit_status verb_record(const command_line *line)
{
    return talk_of_kind(line, TT_KIND_RECORD);
}

exit_status verb_drill(const command_line *line)
{
    return drill_with(line);
}
