#include "two_jobs.h"

#include <stdio.h>

#include "small_book.h"
#include "testing.h"

#define UNDER_THE_LOCK \
    "    procedure: lock\n    harm:\n      from: [electricity]\n" \
    "      unprotected: {worst: marginal, chance: remote}\n" \
    "      protected: {worst: negligible, chance: improbable}\n"

static const char text[] =
    "book:\n  title: Pump\n  edition: 1\n  roles: %s\n"
    "questions:\n"
    "  look:\n    ask: How does it look?\n    answers: {good: Good, bad: Bad}\n    usual: good\n"
    "%s"
    "symptoms:\n"
    "  bad-look:\n    text: It looks bad\n    heard: [it looks bad]\n    when: {look: bad}\n"
    "    shown-by: {wear: 90 %%, slack: 90 %%}\n    otherwise: 1 %%\n"
    "causes:\n  wear:\n    text: It is worn\n  slack:\n    text: It is slack\n"
    "procedures:\n"
    "  lock:\n    takes: 30 min\n    energies: [electricity]\n    tell: Tell the desk.\n"
    "    isolate: Switch off at the box\n    release: Wait five minutes\n    prove: Press start\n"
    "    restore: Take off your lock\n"
    "fixes:\n"
    "  renew:\n    text: Turn the ring\n    cures: {wear: 90 %%}\n    takes: 35 min\n"
    "    put-back: Turn the ring back\n" UNDER_THE_LOCK "%s"
    "  tighten:\n    text: Tighten the screw\n    cures: {slack: 90 %%}\n    takes: 36 min\n"
    "    put-back: Loosen the screw\n" UNDER_THE_LOCK "%s";

tt_book *two_jobs_book(const two_jobs *how)
{
    char yaml[4096];
    const int length =
        snprintf(yaml, sizeof yaml, text, how->roles, how->questions == NULL ? "" : how->questions,
                 how->renew, how->tighten);
    assert_in_range(length, 1, sizeof yaml - 1);
    return small_book(yaml);
}
