/* What is said while a fix is at hand and is none of its replies. Gloves that are not there, a lock
 * that does not fit: then it can't be done. At a step that isolates, or that proves it, whatever
 * else is said may be that it did not hold, and not knowing counts as danger. At any step a denial
 * or a doubt is about that step, and no answer to something else; and a "done" or "gone" with a
 * lock still on is none. */
#include <assert.h>
#include <string.h>

#include "base/unicode.h"
#include "listen/listen.h"
#include "listen/manner.h"
#include "listen/word_set.h"
#include "talk/talk_replies.h"

enum { FROM_WORD_TO_WORD = 3 };

/* ---- what is to be worn or locked with is missing ---- */

static bool is_among(str word, const char *const *words, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (str_is(word, words[i])) return true;
    return false;
}
#define AMONG(word, words) is_among(word, words, sizeof words / sizeof *words)

/* Plain, as unicode_plain folds them; English and Spanish. */
static bool is_wear(str word)
{
    static const char *const all[] = {"goggles", "glasses",  "gloves",  "glove",      "boots",
                                      "apron",   "shield",   "mask",    "respirator", "vest",
                                      "helmet",  "harness",  "lock",    "locks",      "padlock",
                                      "gafas",   "lentes",   "guantes", "guante",     "botas",
                                      "mandil",  "delantal", "careta",  "mascarilla", "chaleco",
                                      "casco",   "arnes",    "candado", "candados"};
    return AMONG(word, all);
}

static bool is_missing(tt_talk *t, str word)
{
    static const char *const all[] = {"without", "forgot", "lost",  "missing", "broken",
                                      "torn",    "sin",    "falta", "faltan",  "perdi",
                                      "olvide",  "rotos",  "rotas", "roto"};
    return AMONG(word, all) ||
           (listen_manner(talk_ear(t), t->scratch, word) & (MANNER_DENIES | MANNER_NO)) != 0;
}

static bool lacks_wear(tt_talk *t, str line)
{
    const str plain = unicode_plain(t->scratch, line);
    uint32_t i = 0, wear = UINT32_MAX, missing = UINT32_MAX;
    str word;
    for (size_t at = 0; plain_next(plain, &at, &word); i++) {
        if (is_wear(word)) wear = i;
        if (is_missing(t, word)) missing = i;
        const uint32_t apart = wear > missing ? wear - missing : missing - wear;
        if (wear != UINT32_MAX && missing != UINT32_MAX && apart <= FROM_WORD_TO_WORD) return true;
    }
    return false;
}

void take_lacking(tt_talk *t)
{
    talk_news(t, TT_PART_NOTE, "", OURS(t, TEXT_NOT_WITHOUT_IT));
    take_choice(t, "could-not");
}

bool talk_asks_back(const tt_talk *t, str line)
{
    const tt_turn_kind kind = t->turn.kind;
    const bool of_work = kind == TT_TURN_BEFORE_FIX || kind == TT_TURN_FIX_STEP ||
                         kind == TT_TURN_OUTCOME || kind == TT_TURN_PUT_BACK;
    return of_work && str_find_byte(line, '?') != SIZE_MAX;
}

/* ---- it is not done yet ---- */

static bool is_off_or_back(str word)
{
    static const char *const all[] = {"off",      "removed", "back",     "away",     "quitado",
                                      "quitados", "quite",   "puesta",   "puesto",   "puestas",
                                      "puestos",  "fuera",   "retirado", "retirados"};
    return AMONG(word, all);
}

static bool is_not_yet(str word)
{
    static const char *const all[] = {
        "still", "yet",    "almost",  "nearly", "except", "but",   "only",    "forgot", "left",
        "leave", "soon",   "todavia", "aun",    "casi",   "menos", "excepto", "pero",   "solo",
        "falta", "faltan", "sigue",   "siguen", "olvide", "queda", "quedan",  "dejo",   "deje"};
    return AMONG(word, all);
}

/* "The lock is still on"; not "the locks are off". */
static bool is_unfinished(tt_talk *t, str line)
{
    const str plain = unicode_plain(t->scratch, line);
    bool off = false, denied = false;
    str word;
    for (size_t at = 0; plain_next(plain, &at, &word);) {
        if (is_not_yet(word)) return true;
        off = off || is_off_or_back(word);
        denied = denied || is_missing(t, word);
    }
    return talk_names_lockout(t, line) && (!off || denied);
}

static bool is_doubtful(tt_talk *t, str line)
{
    const uint64_t doubts = MANNER_DENIES | MANNER_NO | MANNER_UNSURE | MANNER_DONT_KNOW |
                            MANNER_HEDGES | MANNER_CANNOT | MANNER_BROKEN;
    const str plain = unicode_plain(t->scratch, line);
    str word;
    for (size_t at = 0; plain_next(plain, &at, &word);)
        if ((listen_manner(talk_ear(t), t->scratch, word) & doubts) != 0) return true;
    return is_unfinished(t, line);
}

static bool is_fine(tt_talk *t, str line)
{
    return (listen_manner(talk_ear(t), t->scratch, line) & MANNER_FINE) != 0;
}

bool said_unfinished(tt_talk *t, const char *reply, str line, str rest)
{
    const bool step = t->turn.kind == TT_TURN_FIX_STEP,
               end = t->turn.kind == TT_TURN_OUTCOME || t->turn.kind == TT_TURN_PUT_BACK;
    if (!step && !end) return false;
    const bool agrees = reply != NULL && strcmp(reply, choice_agreeing(t)) == 0;
    if (reply != NULL && !agrees) return false;
    const str told = agrees ? rest : line;
    if (step) return is_doubtful(t, told) && !is_fine(t, told);
    return (agrees || talk_names_lockout(t, told)) && is_unfinished(t, told);
}

/* ---- which of them ---- */

at_work said_at_work(tt_talk *t, str line)
{
    const tt_turn_kind kind = t->turn.kind;
    assert(line.n > 0);
    if ((kind == TT_TURN_BEFORE_FIX || kind == TT_TURN_FIX_STEP) && lacks_wear(t, line))
        return AT_WORK_LACKS;
    const bool agrees =
        (listen_manner(talk_ear(t), t->scratch, line) &
         (MANNER_YES | MANNER_DONE | MANNER_FINE | MANNER_OFFER | MANNER_BEGINS | MANNER_EMPTY)) !=
        0;
    return talk_isolates_now(t) && !agrees ? AT_WORK_DOUBTS : AT_WORK_OTHER;
}
