#include "face/show_standing.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "face/piece_order.h"
#include "face/wordings.h"
#include "host/plain_text.h"

static bool is_answer(const tt_fact *fact)
{
    return fact->question != TT_NONE;
}

/* A symptom that says no more than an answer did is not said again. */
static bool is_repeated(const tt_view *view, const tt_fact *fact)
{
    for (uint32_t i = 0; i < view->fact_count; i++)
        if (is_answer(&view->facts[i]) && strcmp(view->facts[i].text, fact->text) == 0) return true;
    return false;
}

/* Asked, and nobody could tell. */
static bool tells_nothing(const tt_fact *fact)
{
    return strcmp(fact->value, "unsure") == 0 || strcmp(fact->value, "cannot") == 0;
}

static void show_answer(const screen *s, tt_case *c, const tt_fact *fact)
{
    tt_question question;
    const char *asked =
        tt_question_show(c, fact->question, &question) == TT_OK ? question.ask : fact->name;
    const char *source = fact->source != NULL ? fact->source : "";
    say_item(s, "  - ", "%s %s%s%s%s%s", asked, fact->text,
             fact->stale                       ? " (before a fix changed things)"
             : strcmp(fact->from, "fix") == 0 ? " (as a fix left it)"
                                               : "",
             *source != 0 ? " (" : "", source, *source != 0 ? ")" : "");
}

static void show_derived(const screen *s, const tt_fact *fact)
{
    bool plain = strcmp(fact->value, "shown") == 0 || strcmp(fact->value, "yes") == 0;
    say_item(s, "  - ", "%s%s%s", fact->text, plain ? "" : ": ", plain ? "" : fact->value);
}

static bool is_in_focus(const tt_view *view, uint32_t piece)
{
    for (uint32_t i = 0; i < view->focus_count; i++)
        if (view->focus[i] == piece) return true;
    return false;
}

void show_focus(const screen *s, const tt_book *book, const tt_view *view)
{
    if (view->focus_count == 0) return;
    uint32_t *order = pieces_in_order(book);
    char *all = copy_text("");
    for (uint32_t i = 0; i < tt_piece_count(book); i++) {
        if (!is_in_focus(view, order[i])) continue;
        char *longer = format_text("%s%s%s", all, *all != 0 ? ", " : "",
                                   tt_piece_show(book, order[i]).text);
        free(all);
        all = longer;
    }
    say(s, "It is about: %s", all);
    free(all);
    free(order);
}

static bool is_of_site(const tt_fact *fact)
{
    return is_answer(fact) && strcmp(fact->from, "site") == 0;
}

/* The difference that a comparison with a set point has made: both its sides are shown already. */
static bool is_difference(const tt_fact *fact)
{
    return strstr(fact->name, " - ") != NULL;
}

/* A quantity that was reckoned; one that somebody gave is an answer. */
static bool follows(const tt_fact *fact)
{
    return strcmp(fact->from, "quantity") == 0;
}

static void show_quantity(const screen *s, tt_case *c, const tt_fact *fact)
{
    tt_question question;
    bool told = tt_question_show(c, fact->question, &question) == TT_OK;
    say_item(s, "  - ", "%s: %s", told ? question.ask : fact->name, fact->text);
}

/* Reckoned from what the site says: of use to rules, and no news to people. */
static bool is_reckoned(tt_case *c, const tt_fact *fact)
{
    tt_question question;
    return tt_question_show(c, fact->question, &question) == TT_OK && question.kind == TT_QUANTITY;
}

static bool is_shown_of_site(tt_case *c, const tt_fact *fact)
{
    return is_of_site(fact) && !tells_nothing(fact) && !is_reckoned(c, fact);
}

static void show_site_facts(const screen *s, tt_case *c, const tt_view *view)
{
    bool first = true;
    for (uint32_t i = 0; i < view->fact_count; i++) {
        if (!is_shown_of_site(c, &view->facts[i])) continue;
        if (first) say(s, "Known of this site:");
        first = false;
        show_answer(s, c, &view->facts[i]);
    }
}

/* Within a case a long list would push what matters off a small screen; `change` lists them. */
static void count_site_facts(const screen *s, tt_case *c, const tt_view *view)
{
    enum { FEW = 6 };
    uint32_t count = 0;
    for (uint32_t i = 0; i < view->fact_count; i++) count += is_shown_of_site(c, &view->facts[i]);
    if (count <= FEW) show_site_facts(s, c, view);
    else say(s, "Known of this site: %u facts, as its file says.", count);
}

/* Something was said or follows from it: not the site alone. */
static bool is_anything_known(const tt_view *view)
{
    for (uint32_t i = 0; i < view->fact_count; i++)
        if (!is_of_site(&view->facts[i])) return true;
    return false;
}

static void show_answers_and_signs(const screen *s, tt_case *c, const tt_view *view)
{
    say(s, is_anything_known(view) ? "What is known so far:" : "Nothing is known so far.");
    uint32_t untold = 0;
    for (uint32_t i = 0; i < view->fact_count; i++) {
        if (!is_answer(&view->facts[i]) || is_of_site(&view->facts[i]) || follows(&view->facts[i])) continue;
        if (tells_nothing(&view->facts[i])) untold++;
        else show_answer(s, c, &view->facts[i]);
    }
    if (untold > 0)
        say_item(s, "  - ", "%u question%s nobody could answer", untold, untold == 1 ? "" : "s");
    bool first = true;
    for (uint32_t i = 0; i < view->fact_count; i++) {
        const tt_fact *fact = &view->facts[i];
        if (follows(fact) ? is_difference(fact) : is_answer(fact) || is_repeated(view, fact)) continue;
        if (first) say(s, "From this follows:");
        first = false;
        if (follows(fact)) show_quantity(s, c, fact);
        else show_derived(s, fact);
    }
}

void show_facts(const screen *s, tt_case *c, const tt_view *view)
{
    show_answers_and_signs(s, c, view);
    show_site_facts(s, c, view);
}

void show_facts_briefly(const screen *s, tt_case *c, const tt_view *view)
{
    show_answers_and_signs(s, c, view);
    count_site_facts(s, c, view);
}

/* Less likely fixes are counted only, less likely pairs of faults left out. */
static const double worth_telling = 0.01;

static void show_pairs(const screen *s, const tt_view *view)
{
    if (!view->pairs_matter || view->pair_count == 0 || view->pairs[0].chance < worth_telling) return;
    char *both = percent_words(view->two_faults);
    say(s, "Two faults at once (%s):", both);
    free(both);
    for (uint32_t i = 0; i < view->pair_count && i < 3; i++) {
        const tt_pair *pair = &view->pairs[i];
        char *chance = percent_words(pair->chance);
        say_item(s, "  - ", "%s: %s, and %s", chance, pair->first_text, pair->second_text);
        free(chance);
    }
}

void show_causes(const screen *s, const tt_view *view, uint32_t most)
{
    say(s, "What it points to:");
    for (uint32_t i = 0; i < view->cause_count && i < most; i++) {
        const tt_cause *cause = &view->causes[i];
        if (i >= 3 && cause->chance < 0.05) break;
        char *chance = percent_words(cause->chance), *lead = format_text("%3u. ", i + 1);
        say_item(s, lead, "%s (%s, %s)", cause_words(cause), chance, chance_words(cause->chance));
        free(lead);
        free(chance);
    }
    show_pairs(s, view);
    if (view->not_listed_leads)
        say(s, "The answers fit none of the listed faults well. It may be something that these "
               "rules don't know.");
    if (view->all_ruled_out)
        say(s, "The answers rule out every listed fault. One of them may be mistaken.");
}

static const char *standing_heading(tt_standing standing)
{
    switch (standing) {
    case TT_LIKELY_FIX:
        return "Likely to help, the safest first:";
    case TT_POSSIBLE_FIX:
        return "May help:";
    case TT_NOT_YET:
        return "Not yet worth it:";
    case TT_OTHER_ROLE:
        return "For somebody else to do:";
    }
    assert(false);
    return "";
}

void show_fixes(const screen *s, const tt_view *view, uint32_t most)
{
    tt_standing last = TT_LIKELY_FIX;
    if (view->fix_count == 0) {
        say(s, "These rules know no fix for it.");
        return;
    }
    say(s, "%s (chance to help, risk, time, who):",
        view->gate.state == TT_GATE_OPEN ? "Fixes, in the order to try them"
                                         : "Nothing is to be tried until danger is ruled out. After that, in this order");
    uint32_t shown = 0;
    for (uint32_t i = 0; i < view->fix_count && shown < most; i++) {
        const tt_fix *fix = &view->fixes[i];
        if (shown > 0 && fix->chance < worth_telling) continue;
        if (shown == 0 || fix->standing != last)
            say(s, "%s", standing_heading(fix->standing));
        char *chance = percent_words(fix->chance), *minutes = minutes_words(fix->minutes);
        last = fix->standing;
        char *lead = format_text("%3u. ", ++shown);
        say_item(s, lead, "%s (%s, %s risk, %s, %s)", fix->text, chance, fix->risk, minutes,
                 fix->role);
        free(lead);
        free(minutes);
        free(chance);
    }
    if (view->fix_count > shown) say(s, "and %u more, less likely to help", view->fix_count - shown);
}

void show_caution(const screen *s, const tt_caution *caution)
{
    char *signal = copy_text(caution->signal);
    for (char *p = signal; *p != 0; p++)
        if (*p >= 'a' && *p <= 'z') *p = (char)(*p - 'a' + 'A');
    char *lead = format_text("%s: ", signal);
    say(s, "%s%s", lead, caution->text);
    free(lead);
    free(signal);
}

void show_stop(const screen *s, const tt_view *view)
{
    if (view->stop_text != NULL) say(s, "STOP: %s", view->stop_text);
    if (view->call_role != NULL) say(s, "Call: %s.", view->call_role);
}
