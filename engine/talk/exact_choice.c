/* Words that are exactly one of the choices of a turn, or stand for one. */
#include <string.h>

#include "base/unicode.h"
#include "listen/listen.h"
#include "listen/manner.h"
#include "talk/talk_replies.h"

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* "2", "2)", "#2", "2." are the second. */
uint32_t choice_number(str line)
{
    size_t at = line.n > 0 && line.p[0] == '#' ? 1 : 0, digits = 0;
    uint32_t number = 0;
    for (; at < line.n && is_digit(line.p[at]) && digits < 4; at++, digits++)
        number = number * 10 + (uint32_t)(line.p[at] - '0');
    if (at < line.n && (line.p[at] == ')' || line.p[at] == '.')) at++;
    return digits > 0 && at == line.n ? number : 0;
}

const char *choice_said(tt_talk *t, str line)
{
    const str plain = unicode_plain(t->scratch, line);
    for (uint32_t i = 0; i < t->turn.choice_count; i++) {
        const tt_turn_choice *c = &t->turn.choices[i];
        if (str_eq(plain, unicode_plain(t->scratch, str_of(c->text))) || str_is(line, c->id))
            return c->id;
    }
    return NULL;
}

/* The beginning of one choice and of no other. */
const char *choice_begun(tt_talk *t, str line)
{
    const str plain = unicode_plain(t->scratch, line);
    const char *found = NULL;
    for (uint32_t i = 0; i < t->turn.choice_count && plain.n > 0; i++) {
        const str text = unicode_plain(t->scratch, str_of(t->turn.choices[i].text));
        if (text.n < plain.n || !str_eq(str_slice(text, 0, plain.n), plain)) continue;
        if (found != NULL) return NULL;
        found = t->turn.choices[i].id;
    }
    return found;
}

/* ---- yes, no, worse: what they mean depends on what was asked ---- */

/* X(kind of turn, yes, no) */
#define PLAIN_REPLIES(X) \
    X(TT_TURN_REVIEW, "right", "change") \
    X(TT_TURN_BEFORE_FIX, "begin", "could-not") \
    X(TT_TURN_FIX_STEP, "done", "could-not") \
    X(TT_TURN_OUTCOME, "gone", "") \
    X(TT_TURN_PUT_BACK, "put-back", "") \
    X(TT_TURN_WALKED, "keep", "drop") \
    X(TT_TURN_CAUSE, "yes", "no") \
    X(TT_TURN_CALL, "wait", "") \
    X(TT_TURN_CHANGED, "go-on", "stop") \
    X(TT_TURN_KNOWN, "go-on", "") \
    X(TT_TURN_WHY, "go-on", "") \
    X(TT_TURN_WORDS, "go-on", "") \
    X(TT_TURN_PROCEDURE, "go-on", "") \
    X(TT_TURN_CAUTIONS, "go-on", "")
#define PLAIN_ENTRY(kind, yes, no) [kind] = {yes, no},
static const struct {
    const char *yes, *no;
} plain_replies[TT_TURN_KINDS] = {PLAIN_REPLIES(PLAIN_ENTRY)};
#undef PLAIN_ENTRY

static const char *offered(tt_talk *t, const char *id)
{
    for (uint32_t i = 0; i < t->turn.choice_count; i++)
        if (strcmp(t->turn.choices[i].id, id) == 0) return t->turn.choices[i].id;
    return NULL;
}

/* Of things to be done more is asked than agreement; and "begin" is no answer to what was meant. */
static uint64_t affirms(tt_turn_kind kind)
{
    if (kind == TT_TURN_CONFIRM || kind == TT_TURN_EARLIER)
        return MANNER_YES | MANNER_DONE | MANNER_OFFER;
    if (kind == TT_TURN_FIX_STEP || kind == TT_TURN_PUT_BACK) return MANNER_YES | MANNER_DONE;
    return MANNER_YES | MANNER_DONE | MANNER_OFFER | MANNER_BEGINS;
}

/* While something is isolated, or that is proved, nothing but plain words for it: all else may say
 * that it did not hold. */
static bool may_say_could_not(tt_talk *t, str line)
{
    const tt_turn_kind kind = t->turn.kind;
    if (talk_isolates_now(t))
        return (listen_manner(talk_ear(t), t->scratch, line) & MANNER_COULD_NOT) != 0;
    return kind == TT_TURN_BEFORE_FIX || kind == TT_TURN_FIX_STEP || kind == TT_TURN_OUTCOME ||
           kind == TT_TURN_PUT_BACK;
}

/* Of a lock or a cover more is said than an outcome, unless all is worse. */
static outcome_told outcome_told_in(tt_talk *t, str line)
{
    const outcome_told told = listen_outcome(talk_ear(t), t->scratch, line);
    const bool other = told.outcome != TOLD_WORSE && talk_names_lockout(t, line);
    return other ? (outcome_told){TOLD_NOTHING, false} : told;
}

/* What came of a fix: where that is asked, all of it; on the way, that it can't be done; at any
 * time after it, that all is worse. */
static const char *outcome_meant(tt_talk *t, str line)
{
    const outcome_told told = outcome_told_in(t, line);
    const bool asked = t->turn.kind == TT_TURN_OUTCOME;
    switch (told.outcome) {
    case TOLD_WORSE:
        if (!asked && !told.whole) return NULL;
        return talk_is_after_fix(t) ? "worse" : offered(t, "worse");
    case TOLD_COULD_NOT:
        return may_say_could_not(t, line) ? offered(t, "could-not") : NULL;
    case TOLD_NOT_DONE:
        return asked ? offered(t, "could-not") : NULL;
    case TOLD_BETTER:
        return asked ? offered(t, "better") : NULL;
    case TOLD_GONE:
        return asked ? offered(t, "gone") : NULL;
    case TOLD_SAME:
        return asked ? offered(t, "no-change") : NULL;
    default:
        return NULL;
    }
}

bool outcome_is_unclear(tt_talk *t, str line)
{
    return t->turn.kind == TT_TURN_OUTCOME && outcome_told_in(t, line).outcome == TOLD_UNCLEAR;
}

const char *choice_meant(tt_talk *t, str line)
{
    const char *outcome = outcome_meant(t, line);
    if (outcome != NULL) return outcome;
    const uint64_t manner = listen_manner(talk_ear(t), t->scratch, line);
    const tt_turn_kind kind = t->turn.kind;
    if (kind == TT_TURN_OUTCOME) return NULL; /* it asks for more than agreement */
    const char *yes = plain_replies[kind].yes, *no = plain_replies[kind].no;
    if (kind == TT_TURN_CONFIRM) { /* whose first choice is named by what it is about */
        yes = t->turn.choices[0].id;
        no = "none";
    }
    if (kind == TT_TURN_EARLIER) {
        yes = t->turn.choice_count == 2 ? t->turn.choices[0].id : NULL;
        no = "none";
    }
    if (kind == TT_TURN_WALKED && t->kind == TT_KIND_ROUND) { /* "look for the fault now?" */
        const bool off = offered(t, "fault") != NULL;
        yes = off ? "fault" : "close";
        no = off ? "close" : NULL;
        if (!off && (manner & MANNER_FINE) != 0) return offered(t, "close");
    }
    if (kind == TT_TURN_ASK_BACK && (manner & (MANNER_UNSURE | MANNER_CANNOT | MANNER_NO)) != 0)
        return offered(t, "none");
    if (kind == TT_TURN_PUT_BACK && offered(t, yes) == NULL) yes = "begin";
    if (yes != NULL && (manner & affirms(kind)) != 0) return offered(t, yes);
    return no != NULL && (manner & MANNER_NO) != 0 ? offered(t, no) : NULL;
}

const char *choice_agreeing(const tt_talk *t)
{
    return plain_replies[t->turn.kind].yes;
}
