/* How a call stands: whether somebody is there to be asked, what failed, what is told at its end.
 */
#include "base/grow.h"
#include "call/call_parts.h"
#include "call/conversation.h"

const char usual_book_name[] = "foam-line";

bool is_here(const conversation *c)
{
    return c->left == FACE_REPLY && c->failure == EXIT_DONE;
}

bool may_ask(const conversation *c)
{
    return is_here(c) && !c->interrupted;
}

bool talk_is_over(const conversation *c)
{
    return c->talk != NULL && tt_talk_turn(c->talk)->kind == TT_TURN_END;
}

void note_failure(conversation *c, exit_status failure)
{
    if (c->failure == EXIT_DONE) c->failure = failure;
}

void show_about(conversation *c)
{
    const bool kept = c->store != NULL && case_store_is_on_disk(c->store);
    c->face->about = (face_about){.c = c->talk != NULL ? tt_talk_case(c->talk) : NULL,
                                  .book = c->book.book,
                                  .case_number = kept ? case_store_number(c->store) : "",
                                  .revision = c->book.revision,
                                  .site_revision = c->book.site_revision,
                                  .status = (uint32_t)c->status,
                                  .may_begin = c->unnumbered};
}

void tell_at_end(conversation *c, const char *text)
{
    GROW(c->keep, c->told, c->told_count, c->told_room);
    c->told[c->told_count++] = text;
}
