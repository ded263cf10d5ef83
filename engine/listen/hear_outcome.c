/* A reply to "did it help?" as a row of words: what is denied, and what stands as it is. Worse is
 * heard among any others, for nobody may take it for better; all else only where every word is
 * known. What says two things at once is unclear, and is asked again. */
#include <assert.h>

#include "base/unicode.h"
#include "listen/listener.h"
#include "listen/outcome_words.h"

/* clang-format off */
#define OUTCOME_CLASSES(X) \
    X(WORSE) X(BETTER) X(PARTLY) X(HELPED) X(FIXED) X(BARE) X(STATE) X(BAD) X(YES) X(NO) X(NOT) X(SAME) X(STILL) X(CHANGE) \
    X(PROBLEM) X(COULD_NOT) X(ABLE) X(NOT_DONE) X(TRIED) X(MADE) X(IT) X(PERSON) X(FIRM) X(EITHER) X(JOINS) \
    X(YET) X(PAST) X(DOUBT) X(HEDGE) X(LOOK) X(DEGREE) X(FILL) X(THING) X(EASY) X(MORE) X(ASKS)
/* clang-format on */
enum {
#define CLASS_NUMBER(name) NUMBER_##name,
    OUTCOME_CLASSES(CLASS_NUMBER)
#undef CLASS_NUMBER
};
#define W(class) (UINT64_C(1) << NUMBER_##class)

void outcome_words_add(phrasebook *p, arena *scratch)
{
    assert(p->words.count == 0);
#define OUTCOME(class, phrases) phrasebook_add_all(p, scratch, phrases, W(class));
    OUTCOME_WORDS(OUTCOME)
#undef OUTCOME
}

/* ---- what is said, and what is denied ---- */

/* clang-format off */
#define CORE (W(WORSE) | W(BETTER) | W(HELPED) | W(FIXED) | W(BARE) | W(STATE) | W(CHANGE) | W(PROBLEM) | W(ABLE) | \
              W(TRIED) | W(MADE))
#define HELPS (W(BETTER) | W(HELPED) | W(FIXED) | W(BARE) | W(STATE))
/* All that may stand beside them: nothing that it could be said of instead. */
#define BESIDE (HELPS | W(PARTLY) | W(PROBLEM) | W(YES) | W(NO) | W(NOT) | W(IT) | W(FIRM) | W(JOINS) | W(DEGREE) | W(EASY) | \
                W(MORE) | W(STILL) | W(BAD))
/* With words that no denial reaches. */
#define PLAIN (CORE | W(PARTLY) | W(BAD) | W(YES) | W(SAME) | W(STILL) | W(COULD_NOT) | W(NOT_DONE) | W(YET) | W(PAST) | \
               W(DOUBT) | W(HEDGE) | W(LOOK))
/* clang-format on */

typedef struct outcome_row {
    uint64_t said, denied;
    uint64_t clause;      /* said since the last pause or joining word */
    uint64_t subject;     /* of the clause: W(IT), W(PERSON) */
    bool denies, loose;   /* a denial has begun; it has met nothing yet */
    bool refused, undone; /* "no" by itself; "we did not", "nobody did" */
    bool unknown, thing;
    bool beyond;     /* there is more than what may stand beside words that say that it helped */
    bool hangs;      /* a denial stands behind such words, or a joining word last, or it asks */
    uint32_t beside; /* items besides those that say how it is, or how much so */
} outcome_row;

/* "No, it is worse" and "no it is worse" deny nothing; "no better" and Spanish "no se arregló" do.
 */
static bool stands_alone(const phrase_items *all, const said *s, uint32_t at)
{
    if (at + 1 == all->count) return true;
    const phrase_item *next = &all->items[at + 1];
    const said_word *w = &s->words[next->first];
    return w->pause || w->stop ||
           (next->tags & (W(FIRM) | W(JOINS) | W(SAME) | W(STILL) | W(COULD_NOT))) != 0;
}

/* "Nothing", "it did not": the denial of the clause is all that it says. */
static void end_clause(outcome_row *r)
{
    const uint64_t behind =
        r->clause & (W(CHANGE) | W(TRIED)); /* "changed nothing", "did nothing" */
    r->hangs = r->hangs || (r->loose && (r->clause & HELPS) != 0); /* "fixed nothing" */
    if (r->loose && behind != 0) {
        r->said &= ~behind;
        r->denied |= r->subject == W(IT) ? W(CHANGE) : behind;
        r->undone = r->undone || r->subject == W(PERSON);
    } else if (r->loose && r->clause == 0 && r->subject == W(PERSON)) {
        r->undone = true;
    } else if (r->loose && r->clause == 0) {
        r->refused = true;
    }
    r->clause = r->subject = 0;
    r->denies = r->loose = false;
}

/* "It did not do it" is about the fix; "I did not do it", about whoever tells. */
static void take_core(outcome_row *r, uint64_t core)
{
    if (!r->denies) {
        r->said |= core;
        r->clause |= core;
        return;
    }
    const bool either = core == (W(TRIED) | W(CHANGE)); /* "did not do anything" */
    if ((core & W(TRIED)) != 0 && r->subject == W(IT)) core = W(CHANGE);
    if (either && r->subject == W(PERSON)) core = W(TRIED);
    r->denied |= core;
    r->undone = r->undone || core == W(TRIED) || core == W(MADE);
    r->denies = r->loose = false;
}

static void take_item(outcome_row *r, const phrase_items *all, const said *s, uint32_t at)
{
    const phrase_item *item = &all->items[at];
    const said_word *w = &s->words[item->first];
    if (w->pause || w->stop || (item->tags & W(JOINS)) != 0) end_clause(r);
    r->unknown = r->unknown || item->tags == 0;
    r->thing = r->thing || (item->tags & W(THING)) != 0;
    r->beyond = r->beyond || (item->tags & BESIDE) == 0 || (item->tags & W(PERSON)) != 0;
    if (at == 0) r->hangs = (item->tags & W(ASKS)) != 0;
    if (at + 1 == all->count && at > 0) r->hangs = r->hangs || (item->tags & W(JOINS)) != 0;
    r->beside += (item->tags & (W(STATE) | W(DEGREE) | W(JOINS))) == 0;
    if ((item->tags & (W(IT) | W(PERSON))) != 0) r->subject = item->tags & (W(IT) | W(PERSON));
    if ((item->tags & W(EITHER)) != 0) r->denies = r->denies || r->denied != 0;
    if ((item->tags & W(NO)) != 0 && stands_alone(all, s, at))
        r->refused = true;
    else if ((item->tags & (W(NO) | W(NOT))) != 0)
        r->denies = r->loose = true;
    else if ((item->tags & CORE) != 0)
        take_core(r, item->tags & CORE);
    else if (r->denies && (item->tags & W(BAD)) != 0)
        r->hangs = true; /* "not bad" */
    else if (r->denies)
        r->denied |= item->tags & W(SAME);
    else if ((item->tags & W(JOINS)) == 0 || all->count == 1) /* "y" */
        r->said |= item->tags & PLAIN;
}

static outcome_row row_of(const phrase_items *all, const said *s)
{
    outcome_row r = {.said = 0};
    for (uint32_t i = 0; i < all->count; i++) take_item(&r, all, s, i);
    end_clause(&r);
    return r;
}

/* ---- what it comes to ---- */

static told_outcome undone(const outcome_row *r, uint64_t good)
{
    const bool could_not = (r->said & W(COULD_NOT)) != 0 || (r->denied & W(ABLE)) != 0;
    if ((r->said & W(LOOK)) != 0) return TOLD_NOTHING; /* "can't look" */
    if (good != 0 || (r->said & W(HEDGE)) != 0) return TOLD_UNCLEAR;
    if (could_not) return TOLD_COULD_NOT;
    return (r->said & (W(YET) | W(STILL))) != 0 ? TOLD_UNCLEAR : TOLD_NOT_DONE;
}

/* "Better, but not gone". */
static told_outcome mixed(const outcome_row *r)
{
    const bool some = (r->said & (W(BETTER) | W(HELPED))) != 0;
    const bool none = r->refused || (r->denied & (W(BETTER) | W(HELPED) | W(BARE))) != 0;
    return some && !none ? TOLD_BETTER : TOLD_UNCLEAR;
}

static told_outcome well(const outcome_row *r, uint64_t good)
{
    const bool better = (good & (W(BETTER) | W(PARTLY))) != 0,
               but = (r->said & (W(STILL) | W(BAD))) != 0 || (r->denied & W(STATE)) != 0;
    if (better) return TOLD_BETTER;
    if (but) return TOLD_UNCLEAR;
    return good == W(STATE) && r->beside == 0 ? TOLD_NOTHING : TOLD_GONE;
}

static told_outcome told(const outcome_row *r)
{
    const uint64_t good =
        r->said & (W(BETTER) | W(PARTLY) | W(HELPED) | W(FIXED) | W(STATE) | W(YES));
    const bool stays = (r->said & W(STILL)) != 0 &&
                       ((r->said & (W(BAD) | W(PROBLEM))) != 0 || (r->denied & W(STATE)) != 0);
    const uint64_t none = r->denied & (W(BETTER) | W(HELPED) | W(FIXED) | W(BARE) | W(CHANGE));
    const bool same = r->refused || stays || none != 0 || (r->said & W(SAME)) != 0;
    if ((r->said & W(WORSE)) != 0) return TOLD_WORSE;
    if (r->unknown) return TOLD_NOTHING;
    if ((r->said & W(DOUBT)) != 0) return TOLD_UNCLEAR;
    if ((r->denied & W(WORSE)) != 0) return same && good == 0 ? TOLD_SAME : TOLD_UNCLEAR;
    if (r->undone || (r->said & (W(COULD_NOT) | W(NOT_DONE))) != 0 || (r->denied & W(ABLE)) != 0)
        return undone(r, good & ~(uint64_t)W(PARTLY));
    if (r->thing) return TOLD_NOTHING;
    if ((r->denied & (W(SAME) | W(PROBLEM) | W(TRIED))) != 0 || (r->said & W(BARE)) != 0 ||
        r->hangs)
        return TOLD_UNCLEAR;
    if (good != 0 && r->beyond) return TOLD_UNCLEAR;
    if (good != 0) return same ? mixed(r) : well(r, good);
    if (same) return TOLD_SAME;
    return r->said != 0 || r->denied != 0 ? TOLD_UNCLEAR : TOLD_NOTHING;
}

outcome_told listen_outcome(const listener *l, arena *scratch, str utterance)
{
    assert(l != NULL && scratch != NULL);
    const uint64_t manner = manner_of(&l->manner, scratch, unicode_plain(scratch, utterance));
    if ((manner & (MANNER_UNSURE | MANNER_DONT_KNOW)) != 0)
        return (outcome_told){TOLD_NOTHING, false};
    const said s = said_read(scratch, utterance);
    const phrase_items all = phrasebook_read(&l->outcomes, scratch, scratch, &s);
    const outcome_row r = row_of(&all, &s);
    return (outcome_told){told(&r), !r.unknown && !s.cut};
}
