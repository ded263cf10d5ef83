/* Where a case stands in words. */
#include "show/standing_text.h"

#include <assert.h>
#include <string.h>

#include "base/sorted.h"
#include "base/str.h"
#include "say/catalogue.h"
#include "show/figures.h"
#include "show/pieces.h"
#include "show/told.h"

/* ---- facts ---- */

static bool is_answer(const tt_fact *fact)
{
    return fact->question != TT_NONE;
}

static bool is_of_site(const tt_fact *fact)
{
    return is_answer(fact) && strcmp(fact->from, "site") == 0;
}

/* A quantity that was reckoned; one that somebody gave is an answer. */
static bool follows(const tt_fact *fact)
{
    return strcmp(fact->from, "quantity") == 0;
}

/* The difference that a comparison with a set point has made: both its sides are shown already. */
static bool is_difference(const tt_fact *fact)
{
    return strstr(fact->name, " - ") != NULL;
}

/* Asked, and nobody could tell. */
static bool tells_nothing(const tt_fact *fact)
{
    return strcmp(fact->value, "unsure") == 0 || strcmp(fact->value, "cannot") == 0;
}

/* A symptom that says no more than an answer did is not said again. */
static bool is_repeated(const tt_view *v, const tt_fact *fact)
{
    for (uint32_t i = 0; i < v->fact_count; i++)
        if (is_answer(&v->facts[i]) && strcmp(v->facts[i].text, fact->text) == 0) return true;
    return false;
}

static bool question_of_fact(arena *keep, tt_case *c, const tt_fact *fact, tt_question *out)
{
    return is_answer(fact) && is_told(keep, tt_question_show(c, fact->question, out));
}

static const char *asked_words(arena *keep, tt_case *c, const tt_fact *fact)
{
    tt_question question;
    return question_of_fact(keep, c, fact, &question) ? question.ask : fact->name;
}

const char *fact_words(arena *keep, tongue in, tt_case *c, const tt_fact *fact)
{
    const char *source = fact->source != NULL ? fact->source : "";
    const char *words = FILL(keep, in, TEXT_ASKED_ANSWERED, asked_words(keep, c, fact), fact->text);
    if (fact->before != NULL) words = FILL(keep, in, TEXT_SEEN_BEFORE, words, fact->before);
    if (fact->stale)
        words = FILL(keep, in, TEXT_FACT_STALE, words);
    else if (strcmp(fact->from, "fix") == 0)
        words = FILL(keep, in, TEXT_FACT_OF_FIX, words);
    return *source != 0 ? FILL(keep, in, TEXT_FACT_SOURCE, words, source) : words;
}

static const char *derived_words(arena *keep, tongue in, tt_case *c, const tt_fact *fact)
{
    if (follows(fact))
        return FILL(keep, in, TEXT_ASKED_ANSWERED, asked_words(keep, c, fact), fact->text);
    const bool plain = strcmp(fact->value, "shown") == 0 || strcmp(fact->value, "yes") == 0;
    return plain ? fact->text : FILL(keep, in, TEXT_NAMED, fact->text, fact->value);
}

static void tell_answers(part_list *parts, const standing_about *a)
{
    const tongue in = parts->in;
    const tt_view *v = a->view;
    tt_turn_part *part = part_begin(parts, TT_PART_FACTS, catalogue_text(in, TEXT_KNOWN_SO_FAR));
    uint32_t untold = 0;
    for (uint32_t i = 0; i < v->fact_count; i++) {
        const tt_fact *fact = &v->facts[i];
        if (!is_answer(fact) || is_of_site(fact) || follows(fact)) continue;
        if (tells_nothing(fact))
            untold++;
        else
            part_add(parts->keep, part, fact_words(parts->keep, in, a->c, fact));
    }
    if (untold > 0)
        part_add(parts->keep, part,
                 FILL(parts->keep, in, TEXT_UNTOLD, count_words(parts->keep, untold)));
    if (part->item_count == 0) part->title = catalogue_text(in, TEXT_NOTHING_KNOWN);
}

static void tell_what_follows(part_list *parts, const standing_about *a)
{
    const tongue in = parts->in;
    const tt_view *v = a->view;
    tt_turn_part *part = NULL;
    for (uint32_t i = 0; i < v->fact_count; i++) {
        const tt_fact *fact = &v->facts[i];
        if (follows(fact) ? is_difference(fact) : is_answer(fact) || is_repeated(v, fact)) continue;
        if (part == NULL) part = part_begin(parts, TT_PART_FACTS, catalogue_text(in, TEXT_FOLLOWS));
        part_add(parts->keep, part, derived_words(parts->keep, in, a->c, fact));
    }
}

/* What was reckoned from what the site says is of use to rules, and no news to people. */
static bool is_told_of_site(arena *keep, tt_case *c, const tt_fact *fact)
{
    tt_question question;
    if (!is_of_site(fact) || tells_nothing(fact)) return false;
    return !question_of_fact(keep, c, fact, &question) || question.kind != TT_QUANTITY;
}

static void tell_site(part_list *parts, const standing_about *a)
{
    const tongue in = parts->in;
    const tt_view *v = a->view;
    uint32_t count = 0;
    for (uint32_t i = 0; i < v->fact_count; i++)
        count += is_told_of_site(parts->keep, a->c, &v->facts[i]);
    if (count == 0) return;
    tt_turn_part *part =
        part_begin(parts, TT_PART_FACTS,
                   catalogue_text(in, a->practice ? TEXT_KNOWN_OF_EXAMPLE : TEXT_KNOWN_OF_SITE));
    if (count > a->most_of_site)
        part_add(parts->keep, part,
                 FILL(parts->keep, in, TEXT_FACTS_COUNTED, count_words(parts->keep, count)));
    for (uint32_t i = 0; i < v->fact_count && count <= a->most_of_site; i++)
        if (is_told_of_site(parts->keep, a->c, &v->facts[i]))
            part_add(parts->keep, part, fact_words(parts->keep, in, a->c, &v->facts[i]));
}

/* ---- pieces of equipment ---- */

const char *const *focus_words(arena *keep, const tt_book *book, const tt_view *view,
                               const char *language, uint32_t *count)
{
    const uint32_t *pieces = pieces_in_order(keep, book, view->focus, view->focus_count);
    const char **words = ARENA_ARRAY(keep, const char *, view->focus_count);
    for (uint32_t i = 0; i < view->focus_count; i++)
        words[i] = tt_piece_show(book, pieces[i], language).text;
    *count = view->focus_count;
    return words;
}

static void tell_focus(part_list *parts, const standing_about *a)
{
    const tongue in = parts->in;
    uint32_t count;
    const char *const *words =
        focus_words(parts->keep, a->book, a->view, tt_case_language(a->c), &count);
    if (count == 0) return;
    tt_turn_part *part = part_begin(parts, TT_PART_FACTS, catalogue_text(in, TEXT_IT_IS_ABOUT));
    part->items = words;
    part->item_count = count;
}

void tell_facts(part_list *parts, const standing_about *about)
{
    assert(about->view != NULL && about->c != NULL);
    tell_focus(parts, about);
    tell_answers(parts, about);
    tell_what_follows(parts, about);
    tell_site(parts, about);
}

/* ---- causes and fixes ---- */

/* Less likely pairs of faults and fixes are left out. */
static const double worth_telling = 0.01;
enum {
    LEAST_CAUSES = 3,
    A_FEW = 9
}; /* so many causes that may hold nearly all can be gone through */
static const double unlikely = 0.05;

const char *where_it_leads(arena *keep, tongue in, const list_end *end)
{
    if (end->nothing_wrong) return catalogue_text(in, TEXT_NOTHING_WRONG);
    if (end->probably_none) return catalogue_text(in, TEXT_PROBABLY_NONE);
    if (end->not_listed_leads) return catalogue_text(in, TEXT_FITS_NONE);
    if (end->likely < 2 || end->likely > end->told) return NULL;
    return FILL(keep, in, TEXT_LIKELY_SET, count_words(keep, end->likely));
}

list_end end_of_list(const tt_view *v, uint32_t told)
{
    assert(v->likely_count >= 1);
    return (list_end){v->nothing_wrong, v->probably_none, v->not_listed_leads, v->likely_count,
                      told};
}

void tell_causes(part_list *parts, const standing_about *about, uint32_t most)
{
    const tongue in = parts->in;
    const tt_view *v = about->view;
    arena *keep = parts->keep;
    tt_turn_part *part = part_begin(parts, TT_PART_CAUSES, catalogue_text(in, TEXT_POINTS_TO));
    part->numbered = true;
    const bool few = v->likely_count > LEAST_CAUSES && v->likely_count <= A_FEW;
    const uint32_t least = few ? v->likely_count : LEAST_CAUSES;
    for (uint32_t i = 0; i < v->cause_count && i < most; i++) {
        const tt_cause *cause = &v->causes[i];
        if (i >= least && cause->chance < unlikely) break;
        part_add(keep, part,
                 FILL(keep, in, TEXT_WITH_CHANCE, cause_words(in, cause),
                      percent_words(keep, in, cause->chance), chance_words(in, cause->chance)));
    }
    const list_end end = end_of_list(v, part->item_count);
    const bool two = v->pairs_matter && v->pair_count > 0 && v->pairs[0].chance >= worth_telling;
    if (two)
        part_add(keep, part,
                 FILL(keep, in, TEXT_TWO_FAULTS, v->pairs[0].first_text, v->pairs[0].second_text,
                      percent_words(keep, in, v->two_faults)));
    const char *leads = where_it_leads(keep, in, &end);
    if (leads != NULL) part_line(parts, TT_PART_NOTE, leads);
    if (v->all_ruled_out) part_line(parts, TT_PART_NOTE, catalogue_text(in, TEXT_ALL_RULED_OUT));
}

static text_id standing_title(tt_standing standing)
{
    switch (standing) {
    case TT_LIKELY_FIX:
        return TEXT_FIXES_LIKELY;
    case TT_POSSIBLE_FIX:
        return TEXT_FIXES_POSSIBLE;
    case TT_NOT_YET:
        return TEXT_FIXES_NOT_YET;
    case TT_OTHER_ROLE:
        return TEXT_FIXES_OTHER_ROLE;
    }
    assert(false);
    return TEXT_FIXES_LIKELY;
}

/* While danger is not ruled out none is offered: the list says so. */
static const char *fixes_title(tongue in, const tt_fix *fix)
{
    return catalogue_text(in, fix->held ? TEXT_FIXES_HELD : standing_title(fix->standing));
}

static const char *fix_words(arena *keep, tongue in, const tt_fix *fix)
{
    return FILL(keep, in, TEXT_FIX_IN_LIST, fix->text, percent_words(keep, in, fix->chance),
                risk_words(in, fix->risk), minutes_words_of(keep, in, fix->minutes),
                fix->role_text);
}

void tell_fixes(part_list *parts, const standing_about *about, uint32_t most)
{
    const tongue in = parts->in;
    const tt_view *v = about->view;
    tt_turn_part *part = NULL;
    const tt_fix *last = NULL;
    for (uint32_t i = 0, shown = 0; i < v->fix_count && shown < most; i++) {
        const tt_fix *fix = &v->fixes[i];
        if (shown > 0 && fix->chance < worth_telling) continue;
        if (last == NULL || (!fix->held && fix->standing != last->standing))
            part = part_begin(parts, TT_PART_FIXES, fixes_title(in, fix));
        part_add(parts->keep, part, fix_words(parts->keep, in, fix));
        last = fix;
        shown++;
    }
    if (v->fix_count == 0) part_line(parts, TT_PART_FIXES, catalogue_text(in, TEXT_NO_FIXES));
}

/* ---- fixes that were tried ---- */

/* Of an adjustment that did not cure, some steps may have made it better. */
const char *tried_outcome(arena *keep, tongue in, tt_case *c, const tt_tried *tried)
{
    tt_fix_plan plan;
    const bool adjusts =
        is_told(keep, tt_fix_show(c, tried->fix, &plan)) && plan.adjust.reading != TT_NONE;
    const bool some_steps = adjusts && tried->was_put_back && tried->outcome == TT_NO_CHANGE;
    return some_steps ? catalogue_text(in, TEXT_NOT_GONE) : outcome_words(in, tried->outcome);
}

bool is_measured(const tt_measured *m)
{
    return *m->before != 0 && *m->after != 0;
}

static const char *stays_words(arena *keep, tongue in, const tt_fix_plan *plan,
                               const tt_measured *m)
{
    assert(m->before != NULL && m->after != NULL);
    if (plan->cannot_put_back) return FILL(keep, in, TEXT_DONE_FOR_GOOD, plan->text);
    return is_measured(m) ? FILL(keep, in, TEXT_DONE_FROM_TO, plan->text, m->before, m->after)
                          : FILL(keep, in, TEXT_DONE, plan->text);
}

const char *different_words(arena *keep, tongue in, tt_case *c, const tt_tried *tried,
                            const tt_measured *measured)
{
    tt_fix_plan plan;
    if (*tried->setting != 0) return tried->setting;
    if (!is_told(keep, tt_fix_show(c, tried->fix, &plan)) || plan.adjust.reading != TT_NONE)
        return NULL;
    const bool helped = tried->outcome == TT_GONE || tried->outcome == TT_BETTER;
    const bool stays =
        plan.cannot_put_back ? tried->outcome != TT_COULD_NOT : helped && *plan.put_back != 0;
    return stays ? stays_words(keep, in, &plan, measured) : NULL;
}

/* ---- cautions ---- */

const char *signal_word(tongue in, const char *signal)
{
    static const struct {
        const char *signal;
        text_id word;
    } all[] = {{"danger", PAGE_DANGER},
               {"warning", PAGE_WARNING},
               {"caution", PAGE_CAUTION},
               {"notice", PAGE_NOTICE}};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        if (strcmp(all[i].signal, signal) == 0) return catalogue_text(in, all[i].word);
    return signal;
}
