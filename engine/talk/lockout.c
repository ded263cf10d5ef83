/* What isolates a fix: in the step at hand, and in what somebody says. */
#include "base/unicode.h"
#include "listen/word_set.h"
#include "talk/talk_replies.h"

bool talk_isolates_now(const tt_talk *t)
{
    for (uint32_t i = 0; t->turn.kind == TT_TURN_FIX_STEP && i < t->turn.part_count; i++)
        if (talk_is_isolating(t->turn.parts[i].kind)) return true;
    return false;
}

/* What is hung on, closed or taken off for the work, and has to be as it was before. */
static bool is_of_lockout(str word)
{
    static const char *const all[] = {
        "lock",    "locks",  "padlock", "padlocks", "locked",  "lockout",   "tag",      "tags",
        "guard",   "guards", "cover",   "covers",   "candado", "candados",  "bloqueo",  "bloqueado",
        "tarjeta", "guarda", "guardas", "cubierta", "tapa",    "bloqueada", "protector"};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        if (str_is(word, all[i])) return true;
    return false;
}

bool talk_names_lockout(tt_talk *t, str line)
{
    const str plain = unicode_plain(t->scratch, line);
    str word;
    for (size_t at = 0; plain_next(plain, &at, &word);)
        if (is_of_lockout(word)) return true;
    return false;
}
