/* A book from one text, and the listener for it. */
#ifndef TT_SUPPORT_EAR_KIT_H
#define TT_SUPPORT_EAR_KIT_H

#include "listen/listen.h"
#include "telltale.h"

/* A book with gates, one of them about a gas alarm, and a word that is no danger there. */
#define EAR_GATE_BOOK \
    "book:\n  title: Test\n  edition: 1\n  roles: [hand]\n  not-danger: [hot shot]\n" \
    "questions:\n" \
    "  danger:\n    ask: Anything dangerous?\n    about: today\n    safe: [safe]\n    answers:\n" \
    "      safe: No, nothing like that\n" \
    "      gas:\n        text: The gas alarm sounds\n        heard: [rotten eggs, not sure]\n" \
    "      smoke: Smoke or sparks\n" \
    "    shares: {safe: 98 %, gas: 1 %, smoke: 1 %}\n" \
    "  clear:\n    ask: Is everybody behind the line?\n    about: today\n    safe: [yes]\n    " \
    "shares: {yes: 98 %, no: 2 %}\n" \
    "  still:\n    ask: Is anybody hurt?\n    about: today\n    safe: [no]\n    " \
    "shares: {yes: 2 %, no: 98 %}\n" \
    "  look:\n    ask: How does it look?\n    answers: {good: Good, bad: Bad}\n    usual: good\n" \
    "symptoms:\n  bad-look:\n    text: It looks bad\n    when: {look: bad}\n    heard: [it looks " \
    "bad]\n    shown-by: {wear: 90 %}\n" \
    "    otherwise: 1 %\n" \
    "causes:\n  wear:\n    text: It is worn\n    how-often: common\n    part: p\n" \
    "fixes:\n  renew:\n    text: Renew it\n    cures: {wear: 90 %}\n    takes: 5 min\n    role: " \
    "hand\n    harm: none\n    put-back: not needed\n"

typedef struct ear_kit {
    arena *keep; /* of what is heard */
    tt_book *loaded;
    const book *book;
    const listener *l;
} ear_kit;

ear_kit ear_new(const char *yaml);
/* Of a loaded book, which is freed with it. */
ear_kit ear_of(tt_book *loaded);
void ear_free(ear_kit *e);

#endif
