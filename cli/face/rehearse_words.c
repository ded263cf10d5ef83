#include <math.h>
#include <stdlib.h>

#include "face/rehearse.h"
#include "host/plain_text.h"
#include "host/screen.h"

/* Below it a share says little, and its interval says how little. */
enum { FEW_CALLS = 30, CONFUSED_SHOWN = 10 };

/* ---- numbers ---- */

static void say_share(const screen *s, const char *what, const tt_share *share)
{
    if (share->of == 0)
        say_item(s, "  ", "%s: no such call", what);
    else
        say_item(s, "  ", "%s: %.1f %% (%.1f to %.1f)%s", what, 100 * share->share,
                 100 * share->low, 100 * share->high,
                 share->of < FEW_CALLS ? "; too few calls to tell" : "");
}

/* What rounds to nothing has no sign. */
static double shown(double number)
{
    return fabs(number) < 0.05 ? 0 : number;
}

static void say_mean(const screen *s, const char *what, const tt_mean *mean)
{
    if (mean->of == 0)
        say_item(s, "  ", "%s: no such call", what);
    else if (mean->of == 1)
        say_item(s, "  ", "%s: %.1f; too few calls to tell", what, shown(mean->mean));
    else
        say_item(s, "  ", "%s: %.1f ± %.1f%s", what, shown(mean->mean), mean->plus_minus,
                 mean->of < FEW_CALLS ? "; too few calls to tell" : "");
}

/* ---- parts ---- */

static void say_head(const screen *s, const opened_book *book,
                     const tt_rehearsal_options *o, const tt_rehearsed *r)
{
    tt_book_info info = tt_book_describe(book->book);
    say(s, "%s, edition %s", info.title, info.edition);
    say(s, "%llu made-up calls as %s, seed %llu.", (unsigned long long)r->calls, r->role,
        (unsigned long long)o->seed);
    if (o->misread > 0)
        say(s, "%g %% more answers are wrong than the book says.", 100 * o->misread);
    if (o->numbers_off > 0)
        say(s, "The book's numbers are off by up to %g %%.", 100 * o->numbers_off);
    say(s, "Behind each figure stands where it would lie 95 times in 100.");
}

static void say_ranking(const screen *s, const tt_rehearsed *r)
{
    say_nothing(s);
    say(s, "When the first fix is begun, or somebody is called, the right cause");
    say_share(s, "leads", &r->all.leads);
    say_share(s, "is among the first three", &r->all.among_three);
    say(s, "At the end of the call it");
    say_share(s, "leads", &r->all.leads_last);
    say_share(s, "is among the first three", &r->all.among_three_last);
}

static void say_kind(const screen *s, const char *what, const tt_rehearsed_kind *k)
{
    say(s, "%s: %llu", what, (unsigned long long)k->calls.count);
    if (k->calls.count == 0) return;
    say_share(s, "leads at the first fix", &k->leads);
    say_share(s, "cured", &k->cured);
    say_mean(s, "minutes", &k->minutes);
}

static void say_kinds(const screen *s, const tt_rehearsed *r)
{
    const tt_share *listed = &r->not_listed_blamed;
    say_nothing(s);
    say_kind(s, "Calls with one cause", &r->kinds[TT_ONE_CAUSE]);
    say_kind(s, "Calls with two causes", &r->kinds[TT_TWO_CAUSES]);
    say_kind(s, "Calls with something that is not listed", &r->kinds[TT_NOT_LISTED]);
    if (listed->of == 0) return;
    say_share(s, "blamed on a listed cause", listed);
    say_share(s, "blamed on it with 90 % or more", &r->not_listed_blamed_surely);
}

static void say_ends(const screen *s, const tt_rehearsed *r)
{
    const tt_rehearsed_way *own = &r->ways[TT_SAFEST_FIRST];
    say_nothing(s);
    say(s, "How the calls end");
    say_share(s, "cured", &own->cured);
    say_share(s, "somebody is called", &own->called);
    say_share(s, "stopped for danger", &own->stopped);
}

static void say_way(const screen *s, const char *what, const tt_rehearsed_way *w, bool compare)
{
    say(s, "%s", what);
    say_mean(s, "questions", &w->questions);
    say_mean(s, "minutes", &w->minutes);
    if (compare) say_mean(s, "minutes more", &w->minutes_more);
}

static void say_ways(const screen *s, const tt_rehearsed *r)
{
    say_nothing(s);
    say(s, "Questions and minutes to the end; a call-out counts as %g minutes", r->call_minutes);
    say_way(s, "As telltale asks", &r->ways[TT_SAFEST_FIRST], false);
    say_way(s, "Asking in the order of the names, until it would fix or call",
            &r->ways[TT_IN_ORDER], true);
    say_way(s, "Asking everything, then fixing", &r->ways[TT_EVERYTHING], true);
}

/* In a hundred calls: a single call has a fraction of a needless fix. */
static void say_needless(const screen *s, const tt_mean *of_level)
{
    static const char *const levels[] = {"low risk", "medium risk", "serious risk"};
    for (int level = 0; level < 3; level++) {
        const tt_mean *m = &of_level[level];
        const tt_mean hundred = {m->of, 100 * m->mean, 100 * m->plus_minus};
        say_mean(s, levels[level], &hundred);
    }
}

static void say_safety(const screen *s, const tt_rehearsed *r)
{
    const tt_rehearsed_way *quick = &r->ways[TT_SOONEST];
    const tt_mean *more = &quick->minutes_more;
    const tt_mean price = {more->of, 0 - more->mean, more->plus_minus};
    say_nothing(s);
    say(s, "Fixes in 100 calls that could not have helped");
    say_needless(s, r->ways[TT_SAFEST_FIRST].needless);
    say(s, "With the quickest fixes first there would be more of them");
    say_needless(s, quick->needless_more);
    say(s, "Safest first costs, against that");
    say_mean(s, "minutes a call", &price);
}

static void say_calibration(const screen *s, const tt_rehearsed *r)
{
    say_nothing(s);
    say(s, "How far the chances can be believed: of the calls in which the leading cause had, at "
           "the first fix,");
    for (int b = 0; b < 10; b++) {
        const tt_calibration *bin = &r->bins[b];
        if (bin->right.of == 0) continue;
        char *what = format_text("%.0f to %.0f %% (%llu call%s, mean %.1f %%), it was right in",
                                 100 * bin->low, 100 * bin->high, (unsigned long long)bin->right.of, bin->right.of == 1 ? "" : "s",
                                 100 * bin->said);
        say_share(s, what, &bin->right);
        free(what);
    }
    say(s, "On the mean a chance is off by %.1f points.", 100 * r->calibration_error);
    say(s, "What was wrong came as a surprise of %.2f ± %.2f bits: 0 if the right cause has 100 %%, 1 if it has 50, "
           "2 if it has 25. Less is better.",
        r->surprise.mean, r->surprise.plus_minus);
}

/* ---- causes taken for each other ---- */

static void say_remedy(const screen *s, const tt_confused *c)
{
    if (c->name == NULL || c->blamed_name == NULL) return;
    if (c->one_fix) say_item(s, "    ", "One fix serves both.");
    if (c->question == NULL)
        say_item(s, "    ", "No question that this role may answer tells them apart.");
    else
        say_item(s, "    ", "%s tells them apart best: %s", c->question, c->ask);
}

static void say_confused(const screen *s, const tt_rehearsed *r)
{
    if (r->confused_count == 0) return;
    say_nothing(s);
    say(s, "Taken for each other most often, at the first fix");
    for (uint32_t i = 0; i < r->confused_count && i < CONFUSED_SHOWN; i++) {
        const tt_confused *c = &r->confused[i];
        say_item(s, "  ", "%s; blamed: %s", c->text, c->blamed_text);
        say_item(s, "    ", "%llu of its %llu calls (%.1f to %.1f %%)",
                 (unsigned long long)c->calls.count, (unsigned long long)c->calls.of,
                 100 * c->calls.low, 100 * c->calls.high);
        say_remedy(s, c);
    }
}

/* How many calls would bring the widest of the main figures to 2 points each way. */
static void say_enough(const screen *s, const tt_rehearsed *r)
{
    const double wanted = 0.02, z = 1.96;
    double p = r->all.leads.share, needed = ceil(z * z * p * (1 - p) / (wanted * wanted));
    if (r->all.leads.of == 0 || (double)r->calls >= needed) return;
    say_nothing(s);
    say(s, "For 2 points up or down play about %.0f calls: --calls %.0f", needed, needed);
}

void print_rehearsal_words(FILE *out, const opened_book *book,
                           const tt_rehearsal_options *options, const tt_rehearsed *r)
{
    screen s = screen_on(out);
    say_head(&s, book, options, r);
    say_ranking(&s, r);
    say_kinds(&s, r);
    say_ends(&s, r);
    say_ways(&s, r);
    say_safety(&s, r);
    say_calibration(&s, r);
    say_confused(&s, r);
    say_enough(&s, r);
}
