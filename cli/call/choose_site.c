#include "call/choose_site.h"

#include <string.h>

#include "base/grow.h"
#include "call/call_parts.h"
#include "call/dialogue.h"
#include "host/screen.h"
#include "say/catalogue.h"

/* ---- asking ---- */

static const char *choose_how(conversation *c)
{
    const char *given = c->line->values[OPTION_SITE];
    const char *asked = given != NULL ? FILL(c->keep, c->tongue, HOST_NO_SUCH_FILE, given)
                                      : catalogue_text(c->tongue, HOST_WHAT_IS_THERE);
    tt_turn *turn = host_turn(c, TT_TURN_SITE_FILE, asked);
    if (c->site_wrong != NULL) turn->wrong = c->site_wrong;
    host_choice(c, turn, "say", catalogue_text(c->tongue, HOST_SAY_SITE));
    host_choice(c, turn, "leave", catalogue_text(c->tongue, HOST_LEAVE_SITE));
    return host_choose(c, turn);
}

/* A cry for help stands in no record: it is heard once more. */
static void talk_with_site(conversation *c)
{
    const char *cry = tt_talk_turn(c->talk)->kind == TT_TURN_HELP_OR_DANGER ? c->cried : NULL;
    talk_anew(c, "site");
    if (cry != NULL && c->failure == EXIT_DONE) hear_and_keep(c, &(tt_heard){.words = cry});
}

void decide_site(conversation *c)
{
    const char *chosen = c->draft != NULL ? "say" : choose_how(c);
    if (chosen == NULL) return; /* asked again, if the person stays */
    const bool said = strcmp(chosen, "say") == 0 && describe_site(c);
    c->asks_site = c->asks_site && strcmp(chosen, "leave") != 0 && !said;
    if (said && is_here(c) && c->past == NULL) read_past(c);
    if (said && is_here(c) && talk_is_over(c))
        note_site_of_case(c); /* they have stopped, and it was said all the same */
    else if (said && is_here(c))
        talk_with_site(c);
}

void note_site_of_case(conversation *c)
{
    tt_talk *talk = c->talk;
    c->talk = NULL;
    talk_anew(c, "site");
    tt_talk_free(c->talk);
    c->talk = talk;
}
