/* What a rehearsal showed, to be read: how the calls went, and how far the figures can be trusted.
 */
#include <math.h>
#include <string.h>

#include "face/rehearse.h"
#include "face/speaker.h"

/* Below it a share says little, and its interval says how little. */
enum { FEW_CALLS = 30, CONFUSED_SHOWN = 10 };

/* ---- numbers ---- */

static void say_share_of(const speaker *by, const char *what, const tt_share *share)
{
    if (share->of == 0)
        SPEAK(by, "  ", REHEARSE_NO_CALL, what);
    else
        SPEAK(by, "  ", share->of < FEW_CALLS ? REHEARSE_SHARE_OF_FEW : REHEARSE_SHARE, what,
              tenths(by, 100 * share->share), tenths(by, 100 * share->low),
              tenths(by, 100 * share->high));
}

static void say_share(const speaker *by, text_id what, const tt_share *share)
{
    say_share_of(by, catalogue_text(TO_AUTHORS, what), share);
}

/* What rounds to nothing has no sign. */
static const char *shown(const speaker *by, double number)
{
    return tenths(by, fabs(number) < 0.05 ? 0 : number);
}

static void say_mean_of(const speaker *by, const char *words, const tt_mean *mean)
{
    if (mean->of == 0)
        SPEAK(by, "  ", REHEARSE_NO_CALL, words);
    else if (mean->of == 1)
        SPEAK(by, "  ", REHEARSE_MEAN_OF_ONE, words, shown(by, mean->mean));
    else
        SPEAK(by, "  ", mean->of < FEW_CALLS ? REHEARSE_MEAN_OF_FEW : REHEARSE_MEAN, words,
              shown(by, mean->mean), tenths(by, mean->plus_minus));
}

static void say_mean(const speaker *by, text_id what, const tt_mean *mean)
{
    say_mean_of(by, catalogue_text(TO_AUTHORS, what), mean);
}

/* ---- parts ---- */

static const char *short_number(const speaker *by, double number)
{
    return arena_text(by->keep, "%g", number);
}

static void say_head(const speaker *by, const opened_book *book, const tt_rehearsal_options *o,
                     const tt_rehearsed *r)
{
    const tt_book_info info = tt_book_describe(book->book);
    SPEAK(by, "", REHEARSE_BOOK, info.title, info.edition);
    SPEAK(by, "", REHEARSE_CALLS, whole(by, r->calls), r->role, whole(by, o->seed));
    if (o->misread > 0) SPEAK(by, "", REHEARSE_MISREAD, short_number(by, 100 * o->misread));
    if (o->numbers_off > 0)
        SPEAK(by, "", REHEARSE_NUMBERS_OFF, short_number(by, 100 * o->numbers_off));
    speak(by, "", REHEARSE_INTERVALS);
}

static void say_ranking(const speaker *by, const tt_rehearsed *r)
{
    say_nothing(by->s);
    speak(by, "", REHEARSE_AT_FIRST_FIX);
    say_share(by, REHEARSE_LEADS, &r->all.leads);
    say_share(by, REHEARSE_AMONG_THREE, &r->all.among_three);
}

static void say_ratio(const speaker *by, text_id what, const tt_ratio *x)
{
    const char *words = catalogue_text(TO_AUTHORS, what);
    if (x->of < 2)
        SPEAK(by, "  ", REHEARSE_NO_CALL, words);
    else
        SPEAK(by, "  ", x->of < FEW_CALLS ? REHEARSE_RATIO_OF_FEW : REHEARSE_RATIO, words,
              places(by, 2, x->ratio), places(by, 2, x->plus_minus));
}

static void say_best(const speaker *by, const tt_rehearsed *r)
{
    const tt_mean *missed = &r->ceiling.missed;
    const tt_mean points = {missed->of, 100 * missed->mean, 100 * missed->plus_minus};
    say_nothing(by->s);
    SPEAK(by, "", REHEARSE_AT_BEST, whole(by, r->over_clairvoyant.of));
    say_ratio(by, REHEARSE_OVER_CLAIRVOYANT, &r->over_clairvoyant);
    say_ratio(by, REHEARSE_KNOWN_OVER_CLAIRVOYANT, &r->known_over_clairvoyant);
    say_share(by, REHEARSE_KNOWN_LEADS, &r->ceiling.known);
    say_share(by, REHEARSE_OURS_LEADS, &r->ceiling.ours);
    say_mean(by, REHEARSE_MISSED, &points);
}

static void say_kind(const speaker *by, text_id what, const tt_rehearsed_kind *k)
{
    SPEAK(by, "", REHEARSE_KIND, catalogue_text(TO_AUTHORS, what), whole(by, k->calls.count));
    if (k->calls.count == 0) return;
    say_share(by, REHEARSE_LEADS_AT_FIRST_FIX, &k->leads);
    say_share(by, REHEARSE_CURED, &k->cured);
    say_mean(by, REHEARSE_MINUTES, &k->minutes);
}

static void say_kinds(const speaker *by, const tt_rehearsed *r)
{
    const tt_share *listed = &r->not_listed_blamed;
    say_nothing(by->s);
    say_kind(by, REHEARSE_ONE_CAUSE, &r->kinds[TT_ONE_CAUSE]);
    say_kind(by, REHEARSE_TWO_CAUSES, &r->kinds[TT_TWO_CAUSES]);
    say_kind(by, REHEARSE_NOT_LISTED, &r->kinds[TT_NOT_LISTED]);
    if (listed->of == 0) return;
    say_share(by, REHEARSE_BLAMED, listed);
    say_share(by, REHEARSE_BLAMED_SURELY, &r->not_listed_blamed_surely);
}

static void say_ends(const speaker *by, const tt_rehearsed *r)
{
    const tt_rehearsed_way *own = &r->ways[TT_SAFEST_FIRST];
    say_nothing(by->s);
    speak(by, "", REHEARSE_ENDS);
    say_share(by, REHEARSE_CURED, &own->cured);
    say_share(by, REHEARSE_CALLED, &own->called);
    say_share(by, REHEARSE_STOPPED, &own->stopped);
}

static void say_over(const speaker *by, const tt_rehearsed *r)
{
    const tt_handed_over *x = &r->over;
    say_nothing(by->s);
    SPEAK(by, "", REHEARSE_OVER, whole(by, x->calls.count));
    if (x->calls.count == 0) return;
    say_share(by, REHEARSE_OVER_CURED, &x->cured);
    say_share(by, REHEARSE_OVER_NOBODY, &x->nobody);
    say_share(by, REHEARSE_STOPPED, &x->stopped);
    say_mean(by, REHEARSE_OVER_BEFORE, &x->before);
    say_mean(by, REHEARSE_OVER_AFTER, &x->after);
    say_mean(by, REHEARSE_OVER_BOTH, &x->both);
    say_mean(by, REHEARSE_OVER_WAITED, &x->waited);
}

static void say_worked(const speaker *by, const tt_rehearsed *r)
{
    say_nothing(by->s);
    speak(by, "", REHEARSE_WORKED);
    for (uint32_t i = 0; i < r->worked_count; i++) {
        const tt_worked *w = &r->worked[i];
        say_mean_of(
            by, FILL(by->keep, TO_AUTHORS, REHEARSE_WORKED_AS, w->role, whole(by, w->calls.count)),
            &w->minutes);
    }
}

static void say_way(const speaker *by, text_id what, const tt_rehearsed_way *w, bool compare)
{
    speak(by, "", what);
    say_mean(by, REHEARSE_QUESTIONS, &w->questions);
    say_mean(by, REHEARSE_MINUTES, &w->minutes);
    if (!compare) say_mean(by, REHEARSE_PLACE_CHANGES, &w->place_changes);
    if (compare) say_mean(by, REHEARSE_MINUTES_MORE, &w->minutes_more);
}

static void say_ways(const speaker *by, const tt_rehearsed *r)
{
    say_nothing(by->s);
    SPEAK(by, "", REHEARSE_WAYS, short_number(by, r->call_minutes));
    say_way(by, REHEARSE_AS_WE_ASK, &r->ways[TT_SAFEST_FIRST], false);
    say_way(by, REHEARSE_IN_ORDER, &r->ways[TT_IN_ORDER], true);
    say_way(by, REHEARSE_EVERYTHING, &r->ways[TT_EVERYTHING], true);
}

/* In a hundred calls: a single call has a fraction of a needless fix. */
static void say_needless(const speaker *by, const tt_mean *of_level)
{
    static const text_id levels[] = {REHEARSE_LOW_RISK, REHEARSE_MEDIUM_RISK,
                                     REHEARSE_SERIOUS_RISK};
    for (int level = 0; level < 3; level++) {
        const tt_mean *m = &of_level[level];
        const tt_mean hundred = {m->of, 100 * m->mean, 100 * m->plus_minus};
        say_mean(by, levels[level], &hundred);
    }
}

static void say_safety(const speaker *by, const tt_rehearsed *r)
{
    const tt_rehearsed_way *quick = &r->ways[TT_SOONEST];
    const tt_mean *more = &quick->minutes_more;
    const tt_mean price = {more->of, 0 - more->mean, more->plus_minus};
    say_nothing(by->s);
    speak(by, "", REHEARSE_NEEDLESS);
    say_needless(by, r->ways[TT_SAFEST_FIRST].needless);
    speak(by, "", REHEARSE_QUICKEST_FIRST);
    say_needless(by, quick->needless_more);
    speak(by, "", REHEARSE_SAFEST_COSTS);
    say_mean(by, REHEARSE_MINUTES_A_CALL, &price);
}

static void say_bin(const speaker *by, const tt_calibration *bin)
{
    const text_id text = bin->right.of == 1 ? REHEARSE_BIN_OF_ONE : REHEARSE_BIN;
    if (bin->right.of == 0) return;
    say_share_of(by,
                 FILL(by->keep, TO_AUTHORS, text, places(by, 0, 100 * bin->low),
                      places(by, 0, 100 * bin->high), whole(by, bin->right.of),
                      tenths(by, 100 * bin->said)),
                 &bin->right);
}

static void say_calibration(const speaker *by, const tt_rehearsed *r)
{
    if (r->all.leads.of == 0) return;
    say_nothing(by->s);
    speak(by, "", REHEARSE_CALIBRATION);
    for (int b = 0; b < 10; b++) say_bin(by, &r->bins[b]);
    SPEAK(by, "", REHEARSE_OFF_BY, tenths(by, 100 * r->calibration_error),
          tenths(by, 100 * r->calibration_floor.mean), tenths(by, 100 * r->calibration_floor.high));
    SPEAK(by, "", REHEARSE_SURPRISE, places(by, 2, r->surprise.mean),
          places(by, 2, r->surprise.plus_minus));
}

static void say_set(const speaker *by, const tt_rehearsed *r)
{
    const tt_rehearsed_set *s = &r->set;
    say_nothing(by->s);
    speak(by, "", REHEARSE_SET);
    say_share(by, REHEARSE_SET_HELD, &s->held);
    say_mean(by, REHEARSE_SET_CAUSES, &s->causes);
    if (s->held.of == 0) return;
    SPEAK(by, "  ", REHEARSE_SET_SAID, tenths(by, 100 * s->said),
          tenths(by, 100 * fabs(s->said - s->held.share)), tenths(by, 100 * s->floor.mean),
          tenths(by, 100 * s->floor.high));
}

/* ---- causes taken for each other ---- */

static void say_remedy(const speaker *by, const tt_confused *c)
{
    if (c->name == NULL || c->blamed_name == NULL) return;
    if (c->one_fix) speak(by, "    ", REHEARSE_ONE_FIX);
    if (c->question == NULL)
        speak(by, "    ", REHEARSE_NO_QUESTION);
    else
        SPEAK(by, "    ", REHEARSE_QUESTION, c->question, c->ask);
}

static void say_confused(const speaker *by, const tt_rehearsed *r)
{
    if (r->confused_count == 0) return;
    say_nothing(by->s);
    speak(by, "", REHEARSE_CONFUSED);
    for (uint32_t i = 0; i < r->confused_count && i < CONFUSED_SHOWN; i++) {
        const tt_confused *c = &r->confused[i];
        SPEAK(by, "  ", REHEARSE_BLAMED_FOR, c->text, c->blamed_text);
        SPEAK(by, "    ", REHEARSE_OF_ITS_CALLS, whole(by, c->calls.count), whole(by, c->calls.of),
              tenths(by, 100 * c->calls.low), tenths(by, 100 * c->calls.high));
        say_remedy(by, c);
    }
}

static const char *moving_words(const speaker *by, const tt_moving *m)
{
    if (strcmp(m->kind, "how-often") == 0)
        return FILL(by->keep, TO_AUTHORS, REHEARSE_MOVING_OFTEN, m->cause, m->written);
    if (strcmp(m->kind, "shown-by") == 0)
        return FILL(by->keep, TO_AUTHORS, REHEARSE_MOVING_SHOWN, m->of, m->cause, m->written);
    if (strcmp(m->kind, "otherwise") == 0)
        return FILL(by->keep, TO_AUTHORS, REHEARSE_MOVING_OTHERWISE, m->of, m->written);
    return FILL(by->keep, TO_AUTHORS, REHEARSE_MOVING_CURES, m->of, m->cause, m->written);
}

static void say_moving(const speaker *by, const tt_rehearsal_options *o, const tt_rehearsed *r)
{
    if (!o->sensitivity) return;
    say_nothing(by->s);
    speak(by, "", REHEARSE_MOVING);
    if (r->moving_count == 0) speak(by, "  ", REHEARSE_MOVING_NONE);
    for (uint32_t i = 0; i < r->moving_count; i++) {
        const tt_moving *m = &r->moving[i];
        say_item(by->s, "  ", "%s", moving_words(by, m));
        SPEAK(by, "    ", REHEARSE_MOVING_BY, shown(by, m->below.mean),
              tenths(by, m->below.plus_minus), shown(by, m->above.mean),
              tenths(by, m->above.plus_minus), m->at);
    }
}

/* How many calls would bring the widest of the main figures to 2 points each way. */
static void say_enough(const speaker *by, const tt_rehearsed *r)
{
    const double wanted = 0.02, z = 1.96;
    double p = r->all.leads.share, needed = ceil(z * z * p * (1 - p) / (wanted * wanted));
    if ((double)r->calls >= needed) return; /* of none the share is 0: nothing is needed */
    say_nothing(by->s);
    SPEAK(by, "", REHEARSE_ENOUGH, places(by, 0, needed));
}

void print_rehearsal_words(FILE *out, const opened_book *book, const tt_rehearsal_options *options,
                           const tt_rehearsed *r)
{
    const screen s = screen_on(out);
    const speaker by = {&s, host_arena(), TO_AUTHORS};
    say_head(&by, book, options, r);
    say_ranking(&by, r);
    say_best(&by, r);
    say_kinds(&by, r);
    say_ends(&by, r);
    say_over(&by, r);
    say_worked(&by, r);
    say_ways(&by, r);
    say_safety(&by, r);
    say_calibration(&by, r);
    say_set(&by, r);
    say_moving(&by, options, r);
    say_confused(&by, r);
    say_enough(&by, r);
    arena_free(by.keep);
}
