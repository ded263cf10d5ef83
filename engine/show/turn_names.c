/* What turns and their parts are called where programs read them: one table each (telltale_talk.h).
 */
#include "telltale.h"

#define NAME_ENTRY(id, name) [id] = name,
static const char *const turn_names[TT_TURN_KINDS] = {TT_TURN_TABLE(NAME_ENTRY)};
static const char *const part_names[TT_PART_KINDS] = {TT_PART_TABLE(NAME_ENTRY)};
#undef NAME_ENTRY

const char *tt_turn_kind_name(tt_turn_kind kind)
{
    return kind < TT_TURN_KINDS ? turn_names[kind] : "";
}

const char *tt_part_kind_name(tt_part_kind kind)
{
    return kind < TT_PART_KINDS ? part_names[kind] : "";
}
