/* Whom to call: the site's contacts, the one that is wanted first; a role alone where the site
 * names nobody. */
#include <string.h>

#include "talk/talk.h"

static const char *contact_words(tt_talk *t, const tt_contact *c)
{
    const char *who = *c->post != 0 ? c->post : *c->role != 0 ? c->role : c->purpose;
    const char *words = *c->telephone != 0 ? SAY(t, TEXT_CONTACT, who, c->telephone) : who;
    return *c->hours != 0 ? SAY(t, TEXT_CONTACT_HOURS, words, c->hours) : words;
}

static bool is_for(const tt_contact *c, const char *role)
{
    return role != NULL && (strcmp(c->role, role) == 0 || strcmp(c->purpose, role) == 0);
}

void turn_contacts(tt_talk *t, const char *role)
{
    uint32_t count = 0;
    const tt_contact *all = tt_contacts(t->book, &count);
    const char *emergency = tt_emergency_number(t->book);
    tt_turn_part *part = turn_part(t, TT_PART_CALL, OURS(t, TEXT_CALL));
    tt_contact *told = ARENA_ARRAY(t->shown, tt_contact, count);
    uint32_t told_count = 0;
    for (uint32_t i = 0; i < count; i++)
        if (is_for(&all[i], role)) told[told_count++] = all[i];
    if (told_count == 0 && role != NULL && *role != 0)
        part_item(t, part, str_copy(t->shown, str_of(role)).p);
    for (uint32_t i = 0; i < told_count; i++) part_item(t, part, contact_words(t, &told[i]));
    if (t->turn.dangerous)
        part_item(t, part,
                  *emergency != 0 ? SAY(t, TEXT_EMERGENCY_NUMBER, emergency)
                                  : OURS(t, TEXT_LOCAL_EMERGENCY));
    for (uint32_t i = 0; i < count; i++) {
        if (is_for(&all[i], role)) continue;
        told[told_count++] = all[i];
        if (t->turn.dangerous) part_item(t, part, contact_words(t, &all[i]));
    }
    t->turn.contacts = told;
    t->turn.contact_count = told_count;
}
