/* Who called, how they are called back, and the ticket of another system: beside a case's records,
 * not among them, since records stay for ever and people's data does not. One small text beside the
 * case; sheets and lists leave it out unless somebody asks for it; it can be erased, and the case
 * means the same without it. */
#ifndef TT_CLI_CASE_CONTACT_H
#define TT_CLI_CASE_CONTACT_H

#include <stdbool.h>

#include "base/arena.h"
#include "host/exits.h"

/* X(member, key in the file) */
#define CONTACT_FIELDS(X) X(caller, "caller") X(call_back, "call-back") X(ticket, "ticket")
typedef struct case_contact {
#define CONTACT_MEMBER(member, key) const char *member; /* "" if not said */
    CONTACT_FIELDS(CONTACT_MEMBER)
#undef CONTACT_MEMBER
} case_contact;

bool case_contact_says_something(const case_contact *c);

enum { LARGEST_CONTACT = 64 << 10 };

/* Each says what went wrong. `place`: see case_depot.h. Where nothing is kept, all is "". */
exit_status case_contact_read(arena *keep, const char *place, case_contact *out);
/* What is said in `more` takes the place of what was kept; the rest stays. */
exit_status case_contact_keep(arena *keep, const char *place, const case_contact *more);
/* *erased: there was something. */
exit_status case_contact_erase(const char *place, bool *erased);

#endif
