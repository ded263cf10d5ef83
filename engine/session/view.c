/* Where the case stands, in words and numbers for whoever looks. What comes next is decided in
 * engine/decide. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "session/session.h"

/* ---- facts ---- */

static const char *place_of(tt_case *c, span at)
{
    return c->wordless || at.file == NO_FILE ? NULL : place_words(c->derived, c->book, at);
}

static const char *text_of(tt_case *c, const texts *t)
{
    return c->wordless ? "" : case_text(c, t);
}

static const char *reply_value(tt_case *c, uint32_t question, const reply *r)
{
    if (c->now.cannot[question]) return "cannot";
    if (r->kind == REPLY_ANSWER)
        return cstr(c->derived, c->book->book->questions[question].answers[r->answer].id.name);
    if (r->kind == REPLY_READING && c->book->book->questions[question].trend)
        return tt_trend_name((tt_trend)r->number);
    if (r->kind == REPLY_READING) {
        const unit *in = &c->book->book->questions[question].in;
        unit shown = book_shown_unit(c->book->book, in);
        return number_words(c->derived, unit_convert(in, &shown, r->number)).p;
    }
    return r->kind == REPLY_UNSURE ? "unsure" : reply_words(c, question, r);
}

static void note_site(tt_case *c, uint32_t question, tt_fact *f)
{
    const book *b = c->book->book;
    for (uint32_t i = 0; i < b->site_answer_count; i++) {
        if (b->site_answers[i].given.question != question) continue;
        f->source = case_text(c, &b->site_answers[i].source);
        f->at = place_of(c, b->site_answers[i].given.at);
    }
}

/* Reckoned from what the site says, and nothing else. */
static bool rests_on_site(const tt_case *c, uint32_t quantity)
{
    const ids *beneath = &c->book->book->questions[quantity].beneath;
    for (uint32_t i = 0; i < beneath->count; i++) {
        uint32_t asked = beneath->items[i];
        if (c->now.replies[asked] != NULL && !c->now.of_site[asked]) return false;
    }
    return true;
}

static const char *origin_of(const tt_case *c, uint32_t question)
{
    if (c->now.settings[question].by_fix) return "fix";
    if (c->book->book->questions[question].trend) return "quantity";
    if (c->now.reckoned[question]) return rests_on_site(c, question) ? "site" : "quantity";
    return c->now.of_site[question] ? "site" : "answer";
}

/* In the unit that people at the site use. A dilution is told as a share, a plain number: 1:N is a
 * form, and no unit of a number. */
static void show_number(tt_case *c, const struct question *q, double number, tt_fact *f)
{
    const unit shown = book_shown_unit(c->book->book, &q->in);
    const bool form = unit_is_ratio(&shown);
    f->number = unit_convert(&q->in, &shown, number);
    f->unit = shown.text.n > 0 && !form ? cstr(c->derived, shown.text) : NULL;
}

static tt_fact answered_fact(tt_case *c, uint32_t question)
{
    const struct question *q = &c->book->book->questions[question];
    const reply *r = c->now.replies[question];
    tt_fact f = {.name = cstr(c->derived, q->id.name),
                 .value = reply_value(c, question, r),
                 .from = origin_of(c, question),
                 .source = "",
                 .question = question,
                 .stale = c->now.stale[question],
                 .old = c->now.old[question],
                 .before = look_saw_before(c, question)};
    if (c->now.of_site[question]) note_site(c, question, &f);
    f.text = reply_words(c, question, r);
    f.is_number = r->kind == REPLY_READING && !q->trend;
    if (f.is_number) show_number(c, q, r->number, &f);
    return f;
}

/* All its readings are known, and yet its formula has no value. */
static tt_fact undefined_fact(tt_case *c, uint32_t question)
{
    const struct question *q = &c->book->book->questions[question];
    return (tt_fact){.name = cstr(c->derived, q->id.name),
                     .value = "not known",
                     .from = "quantity",
                     .source = "",
                     .text = FILL(c->derived, c->in, TEXT_NOT_KNOWN_WHY,
                                  lack_words(c, c->now.undefined[question])),
                     .question = question};
}

static tt_fact derived_fact(tt_case *c, const label *id, const char *text, const char *value)
{
    return (tt_fact){.name = cstr(c->derived, id->name),
                     .text = text,
                     .value = value,
                     .from = "rule",
                     .source = "",
                     .at = place_of(c, id->at),
                     .question = TT_NONE};
}

static int fact_order(const void *a, const void *b)
{
    const tt_fact *x = a, *y = b;
    int names = strcmp(x->name, y->name);
    return names != 0 ? names : strcmp(x->value, y->value);
}

static void view_facts(tt_case *c)
{
    const book *b = c->book->book;
    size_t room = b->question_count + b->symptom_count;
    uint32_t count = 0;
    for (uint32_t i = 0; i < b->conclusion_count; i++) room += b->conclusions[i].answer_count;
    tt_fact *facts = arena_take_unset(c->derived, room * sizeof *facts);
    for (uint32_t q = 0; q < b->question_count; q++)
        if (c->now.replies[q] != NULL)
            facts[count++] = answered_fact(c, q);
        else if (c->now.undefined[q] != FORMULA_LACKS_NOTHING)
            facts[count++] = undefined_fact(c, q);
    for (uint32_t s = 0; s < b->symptom_count; s++)
        if (!b->symptoms[s].from_confirms &&
            case_truth(c, c->book->prog->symptom_atom[s]) == TRUTH_TRUE)
            facts[count++] = derived_fact(c, &b->symptoms[s].id, symptom_words(c, s), "shown");
    for (uint32_t i = 0; i < b->conclusion_count; i++)
        for (uint32_t a = 0; a < b->conclusions[i].answer_count; a++)
            if (case_truth(c, c->book->prog->conclusion_atom[i][a]) == TRUTH_TRUE)
                facts[count++] =
                    derived_fact(c, &b->conclusions[i].id, case_text(c, &b->conclusions[i].text),
                                 cstr(c->derived, b->conclusions[i].answers[a].id.name));
    if (count > 1) qsort(facts, count, sizeof *facts, fact_order);
    c->view.facts = facts;
    c->view.fact_count = count;
}

static void view_focus(tt_case *c)
{
    uint32_t pieces = c->book->book->piece_count, *all = ARENA_ARRAY(c->derived, uint32_t, pieces),
             count = 0;
    for (uint32_t i = 0; i < pieces && c->now.focused; i++)
        if (c->now.in_focus[i] && c->now.of_named_kind[i]) all[count++] = i;
    c->view.focus = all;
    c->view.focus_count = count;
}

/* ---- causes and pairs ---- */

static const belief *believed(const tt_case *c)
{
    return c->now.pairs_matter ? c->now.pairs : c->now.single;
}

/* As they stood last time, or as the book has them. */
static uint32_t *causes_before(tt_case *c)
{
    const uint32_t count = c->book->book->cause_count + 1;
    if (c->cause_order != NULL) return c->cause_order;
    uint32_t *order = ARENA_ARRAY(c->keep, uint32_t, count);
    for (uint32_t i = 0; i < count; i++) order[i] = i;
    return c->cause_order = order;
}

static void view_causes(tt_case *c)
{
    const book *b = c->book->book;
    uint32_t *order = causes_before(c);
    double *chance = ARENA_ARRAY(c->derived, double, b->cause_count + 1);
    belief_marginals(believed(c), chance);
    belief_order(believed(c), c->scratch, order);
    tt_cause *causes = arena_take_unset(c->derived, ((size_t)b->cause_count + 1) * sizeof *causes);
    for (uint32_t i = 0; i <= b->cause_count; i++) {
        causes[i] = order[i] > 0
                        ? view_of_cause(c, order[i] - 1)
                        : (tt_cause){.text = case_says(c, TEXT_SOMETHING_ELSE), .means = ""};
        causes[i].chance = chance[order[i]];
    }
    if (c->wordless && order[0] > 0) causes[0].text = case_text(c, &b->causes[order[0] - 1].text);
    c->view.causes = causes;
    c->view.cause_count = b->cause_count + 1;
    c->view.not_listed_leads = order[0] == 0;
    c->view.all_ruled_out = belief_all_ruled_out(c->now.single);
}

enum { IN_VAIN = 3 };
static const double held = 0.9;

static uint32_t fixes_in_vain(const tt_case *c)
{
    uint32_t count = 0;
    for (uint32_t f = 0; f < c->book->book->fix_count; f++)
        count += c->now.tried[f] &&
                 (c->now.outcomes[f] == TT_NO_CHANGE || c->now.outcomes[f] == TT_WORSE);
    return count;
}

/* The usual answer; where the author says of none that it is usual, one that makes no symptom. */
static bool is_normal(const tt_case *c, uint32_t question)
{
    const struct question *q = &c->book->book->questions[question];
    const uint32_t usual = c->book->prog->evidence->in.findings[question].usual;
    bool known;
    const state_mask mask = reply_mask(c->book->prog, c->now.replies[question], &known);
    if (!known || mask == 0) return false;
    return !q->has_usual || usual == NO_STATE || mask == (state_mask)1 << usual;
}

static bool shows_a_symptom(const tt_case *c)
{
    const book *b = c->book->book;
    for (uint32_t s = 0; s < b->symptom_count; s++)
        if (c->now.somewhere[s] || case_truth(c, c->book->prog->symptom_atom[s]) == TRUTH_TRUE)
            return true;
    return false;
}

/* Looked at, and in order: at least as many looks as a person would call having looked. */
static bool all_is_in_order(const tt_case *c)
{
    enum { LOOKED = 3 };
    uint32_t looks = 0;
    for (uint32_t q = 0; q < c->book->book->question_count; q++) {
        if (!c->book->prog->is_evidence[q] || c->now.replies[q] == NULL || c->now.reckoned[q] ||
            c->now.of_site[q])
            continue;
        if (c->now.replies[q]->kind == REPLY_UNSURE) continue;
        if (!is_normal(c, q)) return false;
        looks++;
    }
    return looks >= LOOKED && c->now.complaint == NO_ID && !shows_a_symptom(c);
}

static void view_likely(tt_case *c)
{
    c->view.likely_count =
        belief_likely_head(believed(c), c->scratch, held, c->cause_order, &c->view.likely_chance);
    assert(c->view.likely_count >= 1 && c->view.likely_count <= c->view.cause_count);
    c->view.probably_none = c->view.not_listed_leads && fixes_in_vain(c) >= IN_VAIN;
    c->view.nothing_wrong = all_is_in_order(c);
}

typedef struct ranked_pair {
    uint32_t hypothesis;
    double chance;
} ranked_pair;

static int pair_order(const void *a, const void *b)
{
    const ranked_pair *x = a, *y = b;
    if (x->chance != y->chance) return x->chance > y->chance ? -1 : 1;
    return (x->hypothesis > y->hypothesis) - (x->hypothesis < y->hypothesis);
}

static tt_pair pair_words(tt_case *c, const ranked_pair *r)
{
    uint32_t size, causes[2];
    belief_hypothesis(c->now.pairs, r->hypothesis, &size, causes);
    assert(size == 2);
    const struct cause *first = &c->book->book->causes[causes[0]],
                       *second = &c->book->book->causes[causes[1]];
    return (tt_pair){cstr(c->derived, first->id.name), cstr(c->derived, second->id.name),
                     text_of(c, &first->text), text_of(c, &second->text), r->chance};
}

static void view_pairs(tt_case *c)
{
    enum { SHOWN = 10 };
    c->view.pairs_matter = c->now.pairs_matter;
    if (c->now.pairs == NULL) return;
    c->view.two_faults = belief_two_faults(c->now.pairs);
    uint32_t first = c->book->book->cause_count + 1, count = belief_count(c->now.pairs) - first;
    ranked_pair all[SHOWN + 1];
    uint32_t shown = 0;
    for (uint32_t i = 0; i < count; i++) {
        const ranked_pair one = {first + i, belief_posterior(c->now.pairs)[first + i]};
        if (shown == SHOWN && pair_order(&all[SHOWN - 1], &one) <= 0)
            continue; /* nearly all: there are many pairs */
        all[shown] = one;
        qsort(all, shown + 1, sizeof *all, pair_order);
        if (shown < SHOWN) shown++;
    }
    tt_pair *pairs = ARENA_ARRAY(c->derived, tt_pair, shown);
    for (uint32_t i = 0; i < shown; i++) pairs[i] = pair_words(c, &all[i]);
    c->view.pairs = pairs;
    c->view.pair_count = shown;
}

/* ---- fixes ---- */

static tt_standing standing_of(fix_standing s)
{
    if (s == FIX_LIKELY) return TT_LIKELY_FIX;
    return s == FIX_POSSIBLE ? TT_POSSIBLE_FIX : TT_NOT_YET;
}

/* Options in about the order of last time. */
static const uint32_t *fixes_near(tt_case *c, const options *o)
{
    const uint32_t fixes = c->book->book->fix_count, count = o->in.fix_count;
    uint32_t *near = ARENA_ARRAY(c->scratch, uint32_t, count),
             *option_of = ARENA_ARRAY(c->scratch, uint32_t, fixes), filled = 0;
    if (c->fix_order == NULL) {
        uint32_t *order = ARENA_ARRAY(c->keep, uint32_t, fixes);
        for (uint32_t f = 0; f < fixes; f++) order[f] = f;
        c->fix_order = order;
    }
    for (uint32_t i = 0; i < count; i++) option_of[o->fix_of[i]] = 1 + i;
    for (uint32_t i = 0; i < fixes; i++)
        if (option_of[c->fix_order[i]] > 0) near[filled++] = option_of[c->fix_order[i]] - 1;
    assert(filled == count);
    return near;
}

/* Those that can't be done now stand behind, as they stood. */
static void keep_fix_order(tt_case *c, const options *o, const ranked_fix *order)
{
    const uint32_t fixes = c->book->book->fix_count;
    bool *ranked = ARENA_ARRAY(c->scratch, bool, fixes);
    uint32_t *now = ARENA_ARRAY(c->scratch, uint32_t, fixes), count = o->in.fix_count;
    for (uint32_t i = 0; i < count; i++) now[i] = o->fix_of[order[i].fix];
    for (uint32_t i = 0; i < count; i++) ranked[now[i]] = true;
    for (uint32_t i = 0; i < fixes; i++)
        if (!ranked[c->fix_order[i]]) now[count++] = c->fix_order[i];
    assert(count == fixes);
    if (fixes > 0) memcpy(c->fix_order, now, fixes * sizeof *now);
}

static const ranked_fix *fixes_ordered(tt_case *c, const options *o)
{
    ranked_fix *order = ARENA_ARRAY(c->derived, ranked_fix, o->in.fix_count);
    const arena_mark before = arena_here(c->scratch);
    choose_order_near(&o->in, c->scratch, c->now.planning, fixes_near(c, o), order);
    keep_fix_order(c, o, order);
    arena_back_to(c->scratch, before);
    return order;
}

static void view_fixes(tt_case *c, const options *o)
{
    const ranked_fix *order = fixes_ordered(c, o);
    tt_fix *fixes = arena_take_unset(c->derived, o->in.fix_count * sizeof *fixes);
    uint32_t count = 0, others = 0, *of_others = ARENA_ARRAY(c->derived, uint32_t, o->in.fix_count);
    for (uint32_t i = 0; i < o->in.fix_count; i++) {
        const uint32_t f = o->fix_of[order[i].fix];
        if (c->now.tried[f]) continue;
        if (!case_may_do(c, f)) {
            of_others[others++] = i;
            continue;
        }
        fixes[count] = view_of_fix(c, f);
        fixes[count].chance = order[i].chance;
        fixes[count++].standing = standing_of(order[i].standing);
    }
    for (uint32_t i = 0; i < others; i++) { /* last */
        const ranked_fix *x = &order[of_others[i]];
        fixes[count] = view_of_fix(c, o->fix_of[x->fix]);
        fixes[count].chance = x->chance;
        fixes[count++].standing = TT_OTHER_ROLE;
    }
    c->view.fixes = fixes;
    c->view.fix_count = count;
}

/* ---- cautions and stops ---- */

typedef struct found_caution {
    signal_word signal;
    uint32_t rule;
} found_caution;

static int caution_order(const void *a, const void *b)
{
    const found_caution *x = a, *y = b;
    if (x->signal != y->signal) return x->signal < y->signal ? -1 : 1;
    return (x->rule > y->rule) - (x->rule < y->rule);
}

static void view_cautions(tt_case *c)
{
    static const char *const signals[] = {"danger", "warning", "caution", "notice"};
    const book *b = c->book->book;
    found_caution *found = ARENA_ARRAY(c->derived, found_caution, b->rule_count);
    uint32_t count = 0;
    for (uint32_t r = 0; r < b->rule_count; r++)
        if (b->rules[r].has_caution && case_truth(c, c->book->prog->rule_atom[r]) == TRUTH_TRUE)
            found[count++] = (found_caution){b->rules[r].signal, r};
    if (count > 1) qsort(found, count, sizeof *found, caution_order);
    tt_caution *cautions = ARENA_ARRAY(c->derived, tt_caution, count);
    for (uint32_t i = 0; i < count; i++) {
        const struct rule *r = &b->rules[found[i].rule];
        cautions[i] = (tt_caution){signals[r->signal], text_of(c, &r->caution),
                                   cstr(c->derived, r->id.name), place_of(c, r->id.at)};
    }
    c->view.cautions = cautions;
    c->view.caution_count = count;
}

/* ---- all of it ---- */

void case_view(tt_case *c, const options *o)
{
    c->view = (tt_view){.next = {.question = TT_NONE,
                                 .quantity = TT_NONE,
                                 .reason = "",
                                 .with = "",
                                 .clash = TT_NONE},
                        .fix = TT_NONE,
                        .with = TT_NONE,
                        .symptom = TT_NONE,
                        .kind = TT_NONE,
                        .step = TT_CALL};
    view_focus(c);
    if (!c->wordless) view_facts(c);
    view_causes(c);
    view_likely(c);
    view_pairs(c);
    view_fixes(c, o);
    view_cautions(c);
}
