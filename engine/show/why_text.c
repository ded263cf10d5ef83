/* Why one cause rather than another, in words. */
#include "show/why_text.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/str.h"
#include "say/catalogue.h"
#include "show/figures.h"

enum { MOST_MISSING = 5, MOST_OF_A_KIND = 3 };

/* "+12.1" */
static const char *decibel_words(arena *keep, tongue in, double decibels)
{
    if (!isfinite(decibels)) return catalogue_text(in, TEXT_WHY_RULED_OUT);
    return str_printf(keep, "%+.1f", decibels).p;
}

/* The odds that so many decibels are: "20". */
static const char *times_words(arena *keep, tongue in, double decibels)
{
    const double times = pow(10, fabs(decibels) / 10);
    if (times >= 1000) return catalogue_text(in, TEXT_WHY_OVER_THOUSAND);
    return str_printf(keep, times < 9.95 ? "%.1f" : "%.0f", times).p;
}

static const char *joined(arena *keep, tongue in, const char *const *items, uint32_t count)
{
    const char *all = "";
    for (uint32_t i = 0; i < count; i++)
        all = i == 0 ? items[0] : FILL(keep, in, TEXT_WHY_AND, all, items[i]);
    return all;
}

/* ---- what is there ---- */

static const char *bar_words(arena *keep, tongue in, const tt_bar *bar)
{
    const char *names = joined(keep, in, bar->names, bar->name_count);
    if (strcmp(bar->kind, "start") == 0) return catalogue_text(in, TEXT_SIGN_START);
    if (strcmp(bar->kind, "answers") == 0) return bar->text;
    if (strcmp(bar->kind, "earlier") == 0) return catalogue_text(in, TEXT_SIGN_EARLIER);
    const char *what =
        catalogue_text(in, strcmp(bar->kind, "facts") == 0 ? TEXT_SIGN_FACTS : TEXT_SIGN_FIXES);
    return *names != 0 ? FILL(keep, in, TEXT_NAMED, what, names) : what;
}

static const char *sum_words(arena *keep, tongue in, const tt_why *why)
{
    if (!isfinite(why->decibels))
        return FILL(keep, in, TEXT_WHY_ONE_OUT,
                    cause_words(in, why->decibels < 0 ? &why->cause : &why->rival));
    return FILL(keep, in, TEXT_WHY_TOGETHER, decibel_words(keep, in, why->decibels),
                times_words(keep, in, why->decibels),
                cause_words(in, why->decibels < 0 ? &why->rival : &why->cause));
}

/* The start is always told, and what would be shown as a nought isn't. */
static bool is_told(const tt_bar *bar)
{
    return fabs(bar->decibels) >= 0.05 || strcmp(bar->kind, "start") == 0;
}

static void tell_bars(part_list *parts, const tt_why *why)
{
    const tongue in = parts->in;
    arena *keep = parts->keep;
    tt_turn_part *part =
        part_begin(parts, TT_PART_REASONS,
                   FILL(keep, in, TEXT_WHY_TITLE, cause_words(in, &why->cause),
                        percent_words(keep, in, why->cause.chance), cause_words(in, &why->rival),
                        percent_words(keep, in, why->rival.chance)));
    for (uint32_t i = 0; i < why->bar_count; i++)
        if (is_told(&why->bars[i]))
            part_add(keep, part,
                     FILL(keep, in, TEXT_WHY_BAR, decibel_words(keep, in, why->bars[i].decibels),
                          bar_words(keep, in, &why->bars[i])));
    part_add(keep, part, sum_words(keep, in, why));
    if (why->two_faults) part_line(parts, TT_PART_NOTE, catalogue_text(in, TEXT_WHY_TWO_FAULTS));
}

/* ---- what is missing ---- */

/* The answer that speaks most for the one, and that for the other. */
static const char *most_for(arena *keep, tongue in, const tt_missing *m, double side)
{
    const tt_instead *most = NULL;
    for (uint32_t i = 0; i < m->answer_count; i++)
        if (side * m->answers[i].decibels > (most != NULL ? side * most->decibels : 0.05))
            most = &m->answers[i];
    if (most == NULL) return "";
    return FILL(keep, in, TEXT_WHY_ANSWER, decibel_words(keep, in, most->decibels), most->text);
}

static const char *missing_words(arena *keep, tongue in, const tt_missing *m)
{
    const char *mine = most_for(keep, in, m, 1), *theirs = most_for(keep, in, m, -1);
    const char *both = *mine != 0 && *theirs != 0 ? FILL(keep, in, TEXT_WHY_AND, mine, theirs)
                       : *mine != 0               ? mine
                                                  : theirs;
    const char *ask =
        *m->role != 0 ? FILL(keep, in, TEXT_CAUSE_CHANCE, m->ask, m->role_text) : m->ask;
    return FILL(keep, in, TEXT_ASKED_ANSWERED, ask, both);
}

static void tell_missing(part_list *parts, const tt_turning *t)
{
    const tongue in = parts->in;
    if (t->missing_count == 0) return;
    tt_turn_part *part = part_begin(parts, TT_PART_REASONS, catalogue_text(in, TEXT_WHY_MISSING));
    for (uint32_t i = 0; i < t->missing_count && i < MOST_MISSING; i++)
        part_add(parts->keep, part, missing_words(parts->keep, in, &t->missing[i]));
}

/* ---- what would turn it ---- */

static const char *instead_words(arena *keep, tongue in, const tt_pivot *p)
{
    const char *all = "";
    for (uint32_t i = 0; i < p->instead_count; i++) {
        const char *text = *p->instead[i].text != 0
                               ? FILL(keep, in, TEXT_WHY_QUOTED, p->instead[i].text)
                               : catalogue_text(in, TEXT_WHY_NO_ANSWER);
        all = i == 0 ? text : FILL(keep, in, TEXT_WHY_OR, all, text);
    }
    return all;
}

static const char *number_words_of(arena *keep, tongue in, const tt_pivot *p)
{
    assert(p->place != NULL);
    return FILL(keep, in, TEXT_WHY_NUMBER, instead_words(keep, in, p), p->was, p->name,
                joined(keep, in, p->names, p->name_count), p->place->at);
}

static const char *pivot_words(arena *keep, tongue in, const tt_pivot *p)
{
    if (strcmp(p->kind, "answer") == 0)
        return FILL(keep, in, TEXT_WHY_OTHER_ANSWER, p->text, instead_words(keep, in, p), p->was);
    if (strcmp(p->kind, "question") == 0)
        return FILL(keep, in, TEXT_WHY_QUESTION, p->text, instead_words(keep, in, p));
    if (strcmp(p->kind, "number") == 0) return number_words_of(keep, in, p);
    const char *rules = joined(keep, in, p->names, p->name_count);
    return *rules != 0 ? FILL(keep, in, TEXT_WHY_NO_RULES, rules)
                       : catalogue_text(in, TEXT_WHY_NO_FOCUS);
}

static void tell_pivots(part_list *parts, const tt_turning *t)
{
    const tongue in = parts->in;
    const text_id title = t->why.decibels < 0 ? TEXT_WHY_FORWARD : TEXT_WHY_TURNS;
    tt_turn_part *part = part_begin(parts, TT_PART_REASONS, catalogue_text(in, title));
    for (uint32_t i = 0, same = 0; i < t->pivot_count; i++) {
        same = i > 0 && strcmp(t->pivots[i].kind, t->pivots[i - 1].kind) == 0 ? same + 1 : 0;
        if (same < MOST_OF_A_KIND)
            part_add(parts->keep, part, pivot_words(parts->keep, in, &t->pivots[i]));
    }
    if (part->item_count == 0)
        part_add(parts->keep, part, catalogue_text(in, TEXT_WHY_NOTHING_TURNS));
}

void tell_why(part_list *parts, const tt_turning *about)
{
    assert(about->why.bar_count > 0);
    tell_bars(parts, &about->why);
    tell_missing(parts, about);
    tell_pivots(parts, about);
}

/* ---- why a fix waits ---- */

static const char *reason_words(arena *keep, tongue in, const tt_why_fix *w)
{
    static const struct {
        const char *reason;
        text_id text;
    } plain[] = {{"tried", TEXT_WHYF_TRIED},
                 {"forbidden", TEXT_WHYF_FORBIDDEN},
                 {"only-when", TEXT_WHYF_ONLY_WHEN},
                 {"only-when-open", TEXT_WHYF_ONLY_WHEN_OPEN}};
    for (size_t i = 0; i < sizeof plain / sizeof *plain; i++)
        if (strcmp(w->reason, plain[i].reason) == 0) return catalogue_text(in, plain[i].text);
    const char *names = joined(keep, in, w->names, w->name_count);
    if (strcmp(w->reason, "role") == 0) return FILL(keep, in, TEXT_WHYF_ROLE, w->wanted.role_text);
    if (strcmp(w->reason, "rule") == 0) return FILL(keep, in, TEXT_WHYF_RULE, names);
    if (strcmp(w->reason, "setting") == 0) return FILL(keep, in, TEXT_WHYF_SETTING, w->text);
    if (strcmp(w->reason, "after") == 0) return FILL(keep, in, TEXT_WHYF_AFTER, names);
    if (strcmp(w->reason, "worth") == 0)
        return FILL(keep, in, TEXT_WHYF_WORTH, percent_words(keep, in, w->wanted.chance),
                    risk_words(in, w->wanted.risk), percent_words(keep, in, w->least));
    if (strcmp(w->reason, "risk") == 0)
        return FILL(keep, in, TEXT_WHYF_RISK, risk_words(in, w->first.risk),
                    risk_words(in, w->wanted.risk));
    assert(strcmp(w->reason, "pace") == 0);
    return FILL(keep, in, TEXT_WHYF_PACE, percent_words(keep, in, w->first.chance),
                minutes_words_of(keep, in, w->first_cost),
                percent_words(keep, in, w->wanted.chance), minutes_words_of(keep, in, w->cost));
}

/* Rounded to the side on which it still turns. */
static const char *chance_up(arena *keep, tongue in, double chance)
{
    return percent_words(keep, in, ceil(100 * chance - 1e-6) / 100);
}

static const char *chance_down(arena *keep, tongue in, double chance)
{
    return percent_words(keep, in, floor(100 * chance + 1e-6) / 100);
}

/* Three figures, and no more of them than `finest` of a whole; rounded to the side on which it
 * still turns. */
static const char *figures(arena *keep, double number, double finest, bool up)
{
    const double parts = fmin(finest, number >= 100 ? 1 : number >= 10 ? 10 : 100);
    const double rounded = up ? ceil(parts * number - 1e-6) : floor(parts * number + 1e-6);
    return str_printf(keep, "%.10g", rounded / parts).p;
}

static const char *minutes_figures(arena *keep, double minutes, double finest)
{
    return str_printf(keep, "%s min", figures(keep, minutes, finest, false)).p;
}

static const char *fix_pivot_words(arena *keep, tongue in, const tt_fix_pivot *p)
{
    if (strcmp(p->kind, "takes") == 0)
        return FILL(keep, in, TEXT_WHYF_TAKES, p->fix, minutes_figures(keep, p->then, 10),
                    minutes_figures(keep, p->was, 100));
    if (strcmp(p->kind, "cures") == 0)
        return FILL(keep, in, TEXT_WHYF_CURES, p->fix, p->cause, chance_up(keep, in, p->then),
                    percent_words(keep, in, p->was));
    if (strcmp(p->kind, "cures-less") == 0)
        return FILL(keep, in, TEXT_WHYF_CURES_LESS, p->fix, p->cause,
                    chance_down(keep, in, p->then), percent_words(keep, in, p->was));
    assert(strcmp(p->kind, "how-often") == 0);
    return FILL(keep, in, TEXT_WHYF_OFTEN, p->cause, figures(keep, p->then, 100, true));
}

static bool is_order(const tt_why_fix *w)
{
    return strcmp(w->reason, "worth") == 0 || strcmp(w->reason, "risk") == 0 ||
           strcmp(w->reason, "pace") == 0;
}

void tell_why_fix(part_list *parts, const tt_why_fix *w)
{
    const tongue in = parts->in;
    arena *keep = parts->keep;
    assert(w->wanted.name != NULL && w->reason != NULL);
    tt_turn_part *part = part_begin(
        parts, TT_PART_REASONS,
        w->first.name == NULL ? FILL(keep, in, TEXT_WHYF_NONE, w->wanted.text)
                              : FILL(keep, in, TEXT_WHYF_FIRST, w->wanted.text, w->first.text));
    part_add(keep, part, reason_words(keep, in, w));
    if (!is_order(w)) return;
    part = part_begin(parts, TT_PART_REASONS, catalogue_text(in, TEXT_WHYF_TURNS));
    for (uint32_t i = 0; i < w->pivot_count; i++)
        part_add(keep, part, fix_pivot_words(keep, in, &w->pivots[i]));
    if (part->item_count == 0) part_add(keep, part, catalogue_text(in, TEXT_WHYF_NOTHING));
}
