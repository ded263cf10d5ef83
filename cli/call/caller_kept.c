/* What is said of who calls, kept beside the case. */
#include "call/conversation.h"

case_contact contact_said(const command_line *line)
{
    const option_id options[] = {OPTION_CALLER, OPTION_CALL_BACK, OPTION_TICKET};
    const char *said[3];
    for (size_t i = 0; i < 3; i++)
        said[i] = line->values[options[i]] != NULL ? line->values[options[i]] : "";
    return (case_contact){.caller = said[0], .call_back = said[1], .ticket = said[2]};
}

void keep_contact(conversation *c)
{
    if (c->store == NULL || !case_store_is_on_disk(c->store) ||
        !case_contact_says_something(&c->contact))
        return;
    /* What could not be kept is said; the case goes on, and it is tried no more. */
    (void)case_contact_keep(c->keep, case_store_folder(c->store), &c->contact);
    c->contact = (case_contact){"", "", ""};
}

void take_contact_along(conversation *c)
{
    const bool kept = c->store != NULL && case_store_is_on_disk(c->store);
    bool erased;
    if (!kept || case_contact_read(c->keep, case_store_folder(c->store), &c->contact) != EXIT_DONE)
        return;
    if (case_contact_says_something(&c->contact))
        (void)case_contact_erase(case_store_folder(c->store), &erased); /* says what went wrong */
}
