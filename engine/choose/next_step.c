/* The balanced test: asking against fixing, both looked at equally far ahead. */
#include <assert.h>
#include <math.h>

#include "choose/answer.h"
#include "choose/call_plans.h"
#include "choose/course_value.h"
#include "choose/known_cause.h"

#define NO_QUESTION UINT32_MAX

enum { QUESTIONS_AHEAD = 2 };

typedef struct planner {
    const choice_input *in;
    fix_course *fixes;
    uint32_t *listed; /* short list, best first */
    double *score;    /* [place in the short list] bits per minute */
    uint32_t listed_count;
    double *room[QUESTIONS_AHEAD]; /* [questions still ahead][hypothesis] weights after an answer */
} planner;

/* What is behind us in an imagined course. */
typedef struct course {
    fix_pair failed; /* fixes, or NO_FIX */
    uint32_t asked;  /* question, or NO_QUESTION */
    uint32_t at;     /* place, or NO_PLACE */
} course;

static const fix_pair no_fixes = {NO_FIX, NO_FIX};

/* With the way there. */
static double minutes_from(const planner *p, uint32_t q, uint32_t from)
{
    const question_option *question = &p->in->questions[q];
    return minutes_of(question) + choose_walk(p->in, from, question->place);
}

static uint32_t short_list_length(const choice_input *in)
{
    uint32_t most = in->rules.short_list;
    return most < in->question_count ? most : in->question_count;
}

static planner planner_made(arena *scratch, const choice_input *in)
{
    assert(in->rules.call_minutes >= 0);
    planner p = {.in = in, .fixes = fix_course_new(scratch, in)};
    uint32_t length = short_list_length(in);
    p.listed = ARENA_ARRAY(scratch, uint32_t, length);
    p.score = ARENA_ARRAY(scratch, double, length);
    for (uint32_t i = 0; i < QUESTIONS_AHEAD; i++)
        p.room[i] = ARENA_ARRAY(scratch, double, (size_t)in->cause_count + 1);
    return p;
}

static double ask_value(const planner *p, const double *w, double total, uint32_t q, course so_far,
                        uint32_t ahead);

/* The best of fixing, calling, and asking `ahead` more questions of the short list before that: by
 * this person, or by whoever is called. The weights sum to `total`. */
static double best_value(const planner *p, const double *w, double total, course so_far,
                         uint32_t ahead)
{
    p->fixes->here = so_far.at;
    double best = fix_course_value_of(p->fixes, w, total, so_far.failed, ahead);
    for (uint32_t i = 0; ahead > 0 && i < p->listed_count; i++)
        if (p->listed[i] != so_far.asked)
            best = fmin(best, ask_value(p, w, total, p->listed[i], so_far, ahead - 1));
    return best;
}

/* Asking q, then the best with `ahead` more questions. All values grow in proportion to the
 * weights, so where rows do not sum to 1 (facts that move the prior) the answers' values are scaled
 * to the weight at hand. A question that has no table teaches nothing. */
static double ask_value(const planner *p, const double *w, double total, uint32_t q, course so_far,
                        uint32_t ahead)
{
    const question_option *question = &p->in->questions[q];
    assert(ahead < QUESTIONS_AHEAD);
    double *after = p->room[ahead], mass = 0, value = 0;
    const double minutes = minutes_from(p, q, so_far.at) * total;
    so_far.asked = q;
    so_far.at = choose_stand(p->in, so_far.at, question->place);
    for (uint32_t y = 0; question->seen != NULL && y < question->seen->states; y++) {
        const double left = weights_after(question->seen, w, p->in->cause_count, y, after);
        mass += left;
        value += best_value(p, after, left, so_far, ahead);
    }
    if (mass > 0)
        value *= total / mass;
    else
        value = best_value(p, w, total, so_far, ahead);
    return minutes + value;
}

static double bits_of(const planner *p, const double *w, weight_totals all, uint32_t q)
{
    const prediction *seen = p->in->questions[q].seen;
    return seen == NULL ? 0 : prediction_gain_given(seen, w, all, NULL);
}

/* Keeps the list sorted; the first of equals stays ahead. */
static void list_question(planner *p, uint32_t q, double score, uint32_t length)
{
    if (p->listed_count == length && (length == 0 || score <= p->score[length - 1])) return;
    uint32_t at = p->listed_count < length ? p->listed_count++ : length - 1;
    for (; at > 0 && p->score[at - 1] < score; at--) {
        p->score[at] = p->score[at - 1];
        p->listed[at] = p->listed[at - 1];
    }
    assert(at < length && (at == 0 || p->score[at - 1] >= score));
    p->score[at] = score;
    p->listed[at] = q;
}

/* Bits per minute, the way there and back with it: whoever goes leaves something to look at here,
 * or has to go on from there. What is left here is often asked later all the same, and then walked
 * back to: so what is elsewhere counts less. */
static double rate_at(const planner *p, uint32_t q, double bits)
{
    const uint32_t here = p->in->here;
    const double back = choose_walk(p->in, here, p->in->questions[q].place);
    const double rate = bits / (minutes_from(p, q, here) + back);
    return back > 0 ? p->in->rules.elsewhere * rate : rate;
}

static double rate_of(const planner *p, const double *w, weight_totals all, uint32_t q)
{
    return rate_at(p, q, bits_of(p, w, all, q));
}

/* The list is full of questions that are as good as this one could be. */
static bool is_beaten(const planner *p, const double *w, weight_totals all, uint32_t q,
                      uint32_t length)
{
    const prediction *seen = p->in->questions[q].seen;
    if (p->listed_count < length || length == 0 || seen == NULL) return false;
    return rate_at(p, q, prediction_gain_most(seen, w, all.sum)) <= p->score[length - 1];
}

/* Fills the short list. */
static void rank_questions(planner *p, const double *w, weight_totals all)
{
    const choice_input *in = p->in;
    uint32_t length = short_list_length(in);
    for (uint32_t q = 0; q < in->question_count; q++)
        if (!is_beaten(p, w, all, q, length)) list_question(p, q, rate_of(p, w, all, q), length);
}

/* Weights that sum to 1. Where everything was ruled out, something not listed remains. */
static const double *normalised(arena *scratch, const double *w, uint32_t cause_count)
{
    double *out = ARENA_ARRAY(scratch, double, (size_t)cause_count + 1);
    double total = weights_total(w, cause_count);
    for (uint32_t h = 0; h <= cause_count; h++) out[h] = total > 0 ? w[h] / total : h == 0;
    return out;
}

static weight_totals totals_of(arena *scratch, const choice_input *in, const double *w)
{
    const uint32_t count = in->cause_count + 1;
    return weight_totals_of(w, count, ARENA_ARRAY(scratch, double, count));
}

/* Ready for weights that sum to 1: what to ask is ranked, and what calling costs is known. */
static planner planner_new(arena *scratch, const choice_input *in, const double *now,
                           weight_totals all)
{
    planner p = planner_made(scratch, in);
    rank_questions(&p, now, all);
    make_call_plans(scratch, p.fixes, now, p.listed, p.listed_count);
    return p;
}

/* Trying these fixes, the second (or NO_FIX) under the set-up of the first, and the best after they
 * failed. */
static double value_of_fixes(planner *p, arena *scratch, const double *w, fix_pair fixes)
{
    const choice_input *in = p->in;
    double *left = ARENA_ARRAY(scratch, double, (size_t)in->cause_count + 1);
    double total = weights_total(w, in->cause_count);
    for (uint32_t h = 0; h <= in->cause_count; h++) left[h] = w[h];
    p->fixes->at = in->here;
    double cost = fix_course_cost(p->fixes, fixes.first, w, total);
    fix_failed(&in->fixes[fixes.first], left);
    uint32_t there = choose_stand(in, in->here, in->fixes[fixes.first].place);
    if (fixes.second != NO_FIX) {
        p->fixes->at = there;
        cost += fix_course_cost_under(p->fixes, fixes.second, w, total);
        fix_failed(&in->fixes[fixes.second], left);
        there = choose_stand(in, there, in->fixes[fixes.second].place);
    }
    return cost + best_value(p, left, weights_total(left, in->cause_count),
                             (course){fixes, NO_QUESTION, there}, 1);
}

/* The first fix of the order, and with it another under the same set-up if that is better than
 * giving back between them. */
static void weigh_fixing(planner *p, arena *scratch, const double *w, choice *c)
{
    p->fixes->here = p->in->here;
    fix_course_value(p->fixes, w, no_fixes, 0);
    c->fix = fix_course_first(p->fixes);
    c->with = NO_FIX;
    c->value_fix = INFINITY;
    if (c->fix == NO_FIX) return;
    c->value_fix = value_of_fixes(p, scratch, w, (fix_pair){c->fix, NO_FIX});
    p->fixes->here = p->in->here;
    const uint32_t with = fix_course_partner(p->fixes, c->fix, w);
    if (with == NO_FIX) return;
    const double both = value_of_fixes(p, scratch, w, (fix_pair){c->fix, with});
    if (both >= c->value_fix) return;
    c->with = with;
    c->value_fix = both;
}

static double entropy_bits(const double *w, uint32_t cause_count)
{
    double bits = 0;
    for (uint32_t h = 0; h <= cause_count; h++)
        if (w[h] > 0) bits -= w[h] * log2(w[h]);
    return bits;
}

static double value_of_calling(planner *p, const double *w, uint32_t asks)
{
    p->fixes->here = p->in->here;
    fix_course_begin(p->fixes, NULL, w);
    return call_value(p->fixes, w, weights_total(w, p->in->cause_count), asks, INFINITY);
}

/* Whom to call. */
static uint32_t who_is_called(planner *p, const double *w)
{
    fix_course_begin(p->fixes, NULL, w);
    return likely_callee(p->fixes, w, weights_total(w, p->in->cause_count));
}

/* Who has nobody above waits so long for somebody, whatever is wrong, and saves no more than that
 * by knowing it. */
static bool saves_too_little(const planner *p, const double *w, double bits, double limit)
{
    const double rounding = 1 + 1e-9; /* far above what adding up the causes one by one makes */
    const choice_input *in = p->in;
    return p->fixes->above >= in->callee_count &&
           bits * (in->rules.call_minutes * weights_total(w, in->cause_count) * rounding) <= limit;
}

/* Whether the minutes that this person would save over calling, if the cause were known for
 * certain, are more than `limit` at so many bits. No cause takes any of them away, for a course
 * never costs more than calling at once: so the causes behind those that suffice are not looked at.
 */
static bool knowing_saves_more(planner *p, arena *scratch, const double *w, double bits,
                               double limit)
{
    double saved = 0;
    if (bits <= 0 || saves_too_little(p, w, bits, limit)) return false;
    p->fixes->here = p->in->here;
    known_causes *known = known_causes_of(scratch, p->fixes);
    for (uint32_t c = 0; c < p->in->cause_count && !(bits * saved > limit); c++)
        if (w[1 + c] > 0) saved += w[1 + c] * known_cause_saves(known, c);
    return bits * saved > limit;
}

/* With many causes no fix may pass its threshold before several answers are in, further than the
 * values look. Calling then would be giving up before starting. So go on asking while taking away
 * half of the uncertainty, at the rate of this question, would cost less than knowing saves. Half,
 * because a fix passes its threshold long before everything is known. */
static bool worth_asking_on(planner *p, arena *scratch, const double *w, const choice *c)
{
    if (c->question == NO_QUESTION || c->fix != NO_FIX) return false;
    double half = entropy_bits(w, p->in->cause_count) / 2;
    return knowing_saves_more(p, scratch, w, c->bits,
                              minutes_from(p, c->question, p->in->here) * half);
}

static step_kind decide(planner *p, arena *scratch, const double *w, const choice *c)
{
    if (c->value_ask < fmin(c->value_fix, c->value_call)) return STEP_ASK;
    if (c->value_fix <= c->value_call) return STEP_FIX;
    return worth_asking_on(p, scratch, w, c) ? STEP_ASK : STEP_CALL;
}

/* Whatever the answer, this person calls next. */
static bool asked_for_callee(planner *p, const double *w, uint32_t q)
{
    const prediction *seen = p->in->questions[q].seen;
    bool calls = seen != NULL && p->in->callee_count > 0;
    p->fixes->here = choose_stand(p->in, p->in->here, p->in->questions[q].place);
    for (uint32_t y = 0; calls && y < seen->states; y++) {
        const double total = weights_after(seen, w, p->in->cause_count, y, p->room[0]);
        if (total <= 0) continue;
        fix_course_value_of(p->fixes, p->room[0], total, no_fixes, 0);
        calls = p->fixes->best_length == 0;
    }
    return calls;
}

/* ---- the sign that settles a fix ---- */

static double cured_share(const fix_option *f, const double *w, double total)
{
    double cured = 0;
    for (uint32_t i = 0; i < f->cure_count; i++)
        cured += w[1 + f->cures[i].cause] * f->cures[i].chance;
    return total > 0 ? cured / total : 0;
}

/* Minutes of the fix that q's answers save where they take it below its threshold, less its own. */
static double settling_saves(planner *p, const double *w, uint32_t fix, uint32_t q)
{
    const prediction *seen = p->in->questions[q].seen;
    double *after = p->room[0], saved = -minutes_from(p, q, NO_PLACE);
    for (uint32_t y = 0; seen != NULL && y < seen->states; y++) {
        const double total = weights_after(seen, w, p->in->cause_count, y, after);
        const double share = cured_share(&p->in->fixes[fix], after, total);
        if (share > 0 && share >= p->fixes->worth[fix]) continue;
        p->fixes->at = p->in->fixes[fix].place;
        saved += fix_course_cost(p->fixes, fix, after, total);
    }
    return saved;
}

/* Where one stands for the fix anyway, what settles whether it is needed is looked at first. */
static uint32_t settling_question(planner *p, const double *w, uint32_t fix)
{
    const choice_input *in = p->in;
    uint32_t best = NO_QUESTION;
    double most = 0;
    assert(fix < in->fix_count);
    for (uint32_t q = 0; in->walk != NULL && q < in->question_count; q++) {
        const uint32_t place = in->questions[q].place;
        if (place == NO_PLACE || place != in->fixes[fix].place) continue;
        const double saves = settling_saves(p, w, fix, q);
        if (saves > most) best = q;
        if (saves > most) most = saves;
    }
    return best;
}

static void ask_what_settles(planner *p, const double *w, weight_totals all, choice *c)
{
    const uint32_t q = c->step == STEP_FIX ? settling_question(p, w, c->fix) : NO_QUESTION;
    if (q == NO_QUESTION) return;
    c->step = STEP_ASK;
    c->settles = true;
    c->question = q;
    c->bits = bits_of(p, w, all, q);
    c->value_ask = ask_value(p, w, all.sum, q, (course){no_fixes, NO_QUESTION, p->in->here}, 1);
    c->saves_minutes = fmin(c->value_fix, c->value_call) - c->value_ask;
}

/* ---- a second look ---- */

enum { LOOKS_WEIGHED = 3 };

/* A fix that costs nothing but its minutes, and that can be put back, is tried on what was seen
 * once. */
static bool is_dear(const planner *p, uint32_t fix)
{
    return fix != NO_FIX && (p->fixes->price[fix] > 0 || p->in->fixes[fix].cannot_undo);
}

/* Further looks by what they tell a minute, the best ones of which are weighed as questions are. */
static uint32_t best_looks(const planner *p, const double *w, weight_totals all, uint32_t *best)
{
    const choice_input *in = p->in;
    double rate[LOOKS_WEIGHED];
    uint32_t count = 0;
    for (uint32_t q = in->question_count; q < in->question_count + in->again_count; q++) {
        const double own = rate_of(p, w, all, q);
        uint32_t at = count < LOOKS_WEIGHED ? count : LOOKS_WEIGHED;
        for (; at > 0 && rate[at - 1] < own; at--)
            if (at < LOOKS_WEIGHED) {
                rate[at] = rate[at - 1];
                best[at] = best[at - 1];
            }
        if (at == LOOKS_WEIGHED) continue;
        rate[at] = own;
        best[at] = q;
        count += count < LOOKS_WEIGHED;
    }
    return count;
}

static void look_twice(planner *p, const double *w, weight_totals all, choice *c)
{
    uint32_t best[LOOKS_WEIGHED];
    if (c->step != STEP_FIX || !(is_dear(p, c->fix) || is_dear(p, c->with))) return;
    const uint32_t count = best_looks(p, w, all, best);
    for (uint32_t i = 0; i < count; i++) {
        const double value =
            ask_value(p, w, all.sum, best[i], (course){no_fixes, NO_QUESTION, p->in->here}, 1);
        if (value >= fmin(c->value_fix, c->value_call) || (c->again && value >= c->value_ask))
            continue;
        c->step = STEP_ASK;
        c->again = true;
        c->question = best[i];
        c->value_ask = value;
        c->bits = bits_of(p, w, all, best[i]);
        c->saves_minutes = fmin(c->value_fix, c->value_call) - value;
    }
}

choice choose_step(const choice_input *in, arena *scratch, const double *w)
{
    arena_mark before = arena_here(scratch);
    const double *now = normalised(scratch, w, in->cause_count);
    const weight_totals all = totals_of(scratch, in, now);
    planner p = planner_new(scratch, in, now, all);
    choice c = {.question = p.listed_count > 0 ? p.listed[0] : NO_QUESTION, .value_ask = INFINITY};
    weigh_fixing(&p, scratch, now, &c);
    c.value_call = value_of_calling(&p, now, CALLEE_ASKS);
    if (c.question != NO_QUESTION) {
        c.bits = bits_of(&p, now, all, c.question);
        c.value_ask =
            ask_value(&p, now, all.sum, c.question, (course){no_fixes, NO_QUESTION, in->here}, 1);
        c.saves_minutes = fmin(c.value_fix, c.value_call) - c.value_ask;
    }
    c.callee = who_is_called(&p, now);
    c.step = decide(&p, scratch, now, &c);
    ask_what_settles(&p, now, all, &c);
    look_twice(&p, now, all, &c);
    if (c.step == STEP_ASK && !c.settles && !c.again)
        c.for_callee = asked_for_callee(&p, now, c.question);
    assert(c.step != STEP_ASK || c.question != NO_QUESTION);
    assert(c.step != STEP_FIX || (c.fix != NO_FIX && in->fixes[c.fix].open));
    arena_back_to(scratch, before);
    return c;
}

/* Plans are made for weights that sum to 1, and all values grow in proportion. */
double choose_ask_once(const choice_input *in, arena *scratch, const double *w, uint32_t question)
{
    assert(question < in->question_count);
    arena_mark before = arena_here(scratch);
    const double *now = normalised(scratch, w, in->cause_count);
    planner p = planner_new(scratch, in, now, totals_of(scratch, in, now));
    double value = ask_value(&p, w, weights_total(w, in->cause_count), question,
                             (course){no_fixes, NO_QUESTION, in->here}, 0);
    arena_back_to(scratch, before);
    return value;
}

double choose_fix_value(const choice_input *in, arena *scratch, const double *w, uint32_t *first)
{
    arena_mark before = arena_here(scratch);
    fix_course *run = fix_course_new(scratch, in);
    make_call_plans(scratch, run, w, NULL, 0);
    double value = fix_course_value(run, w, (fix_pair){NO_FIX, NO_FIX}, 0);
    if (first != NULL) *first = fix_course_first(run);
    arena_back_to(scratch, before);
    return value;
}
