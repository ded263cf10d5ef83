/* Whom to call: the site's contacts, the one that is wanted first; a role alone where the site
 * names nobody. */
#include <string.h>

#include "talk/talk_turns.h"

const char *talk_role(tt_talk *t, const char *name)
{
    return tt_role_text(t->book, name, tt_case_language(t->c));
}

static const char *contact_words(tt_talk *t, const tt_contact *c)
{
    const char *words = SAY(t, TEXT_CONTACT, c->who, c->telephone);
    return *c->hours != 0 ? SAY(t, TEXT_CONTACT_HOURS, words, c->hours) : words;
}

/* A role, or anything else that people may need; or somebody from outside, which these words say.
 */
typedef struct whom {
    const char *role, *outside; /* either may be null */
} whom;

static bool is_for(const tt_contact *c, const whom *wanted)
{
    if (wanted->outside != NULL) return *c->role == 0;
    return wanted->role != NULL &&
           (strcmp(c->role, wanted->role) == 0 || strcmp(c->purpose, wanted->role) == 0);
}

/* In danger the number to be touched first. */
static uint32_t add_emergency(tt_talk *t, const char *number, tt_contact *told)
{
    if (!t->turn.dangerous || *number == 0) return 0;
    *told = (tt_contact){.role = "",
                         .purpose = "emergency",
                         .post = "",
                         .telephone = number,
                         .hours = "",
                         .who = OURS(t, TEXT_EMERGENCY_WHO)};
    return 1;
}

static void add_wanted(tt_talk *t, tt_turn_part *part, const whom *wanted, bool named)
{
    if (wanted->outside != NULL) part_item(t, part, wanted->outside);
    if (!named && wanted->role != NULL && *wanted->role != 0)
        part_item(t, part, str_copy(t->shown, str_of(talk_role(t, wanted->role))).p);
}

static void add_contacts(tt_talk *t, const whom *wanted, text_id title)
{
    const uint32_t count = tt_contact_count(t->book);
    tt_contact *all = ARENA_ARRAY(t->shown, tt_contact, count + 1);
    const char *emergency = tt_emergency_number(t->book);
    tt_turn_part *part = turn_part(t, TT_PART_CALL, OURS(t, title));
    tt_contact *told = ARENA_ARRAY(t->shown, tt_contact, count + 1);
    const uint32_t from = add_emergency(t, emergency, told);
    uint32_t told_count = from;
    for (uint32_t i = 0; i < count; i++)
        all[i] = tt_contact_show(t->book, i, tt_case_language(t->c));
    for (uint32_t i = 0; i < count; i++)
        if (is_for(&all[i], wanted)) told[told_count++] = all[i];
    add_wanted(t, part, wanted, told_count > from);
    for (uint32_t i = from; i < told_count; i++) part_item(t, part, contact_words(t, &told[i]));
    if (t->turn.dangerous)
        part_item(t, part,
                  *emergency != 0 ? SAY(t, TEXT_EMERGENCY_NUMBER, emergency)
                                  : OURS(t, TEXT_LOCAL_EMERGENCY));
    for (uint32_t i = 0; i < count; i++) {
        if (is_for(&all[i], wanted)) continue;
        told[told_count] = all[i];
        if (t->turn.dangerous) part_item(t, part, contact_words(t, &told[told_count]));
        told_count++;
    }
    t->turn.contacts = told;
    t->turn.contact_count = told_count;
}

void turn_contacts(tt_talk *t, const char *role)
{
    add_contacts(t, &(whom){role, NULL}, TEXT_CALL);
}

/* Whoever is called before all others: what was found can wait for them. */
void turn_whom_to_tell(tt_talk *t)
{
    const uint32_t roles = tt_book_describe(t->book).roles,
                   own = t->options.role != NULL ? tt_role_find(t->book, t->options.role) : 0;
    if (own + 1 < roles)
        add_contacts(t, &(whom){tt_role_name(t->book, own + 1), NULL}, TEXT_TELL_WHOM);
}

void turn_whom_to_call(tt_talk *t)
{
    const tt_view *v = talk_look(t);
    const bool outside = v->step == TT_CALL && v->call_role == NULL;
    add_contacts(t, &(whom){v->call_role, outside ? v->call_text : NULL}, TEXT_CALL);
}
