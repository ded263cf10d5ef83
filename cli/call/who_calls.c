/* Who calls, asked at the desk. */
#include "call/conversation.h"
#include "call/dialogue.h"
#include "say/catalogue.h"

static const char *ask_one(conversation *c, tt_turn_kind kind, text_id prompt)
{
    const char *word;
    if (!may_ask(c)) return "";
    tt_turn *turn = host_turn(c, kind, catalogue_text(c->tongue, prompt));
    host_choice(c, turn, "none", catalogue_text(c->tongue, HOST_NOT_SAID));
    const char *said = host_words(c, turn, &word);
    return said != NULL ? said : "";
}

void ask_contact(conversation *c)
{
    c->contact.caller = ask_one(c, TT_TURN_CALLER, HOST_WHO_CALLS);
    c->contact.call_back = ask_one(c, TT_TURN_CALL_BACK, HOST_CALL_BACK);
    c->contact.ticket = ask_one(c, TT_TURN_TICKET, HOST_TICKET);
    keep_contact(c);
}
