/* Fixes: what they cure and don't, where to look after them, who is called. */
#include <assert.h>
#include <math.h>

#include "doubt/doubt.h"

enum { OTHERS_MAX = 1000 }; /* fixes of one cause that one of them is compared with */

/* ---- looking again ---- */

static bool rests_on(const book *b, const cond *c, uint32_t question)
{
    if ((c->kind == COND_ANSWER || c->kind == COND_RANGE) && c->subject == question) return true;
    if (c->kind == COND_ANSWER || c->kind == COND_RANGE) {
        const struct question *q = &b->questions[c->subject]; /* a comparison, or a quantity */
        for (uint32_t i = 0; i < q->beneath.count; i++)
            if (q->beneath.items[i] == question) return true;
        return q->made && q->judged == question;
    }
    if (c->kind == COND_SYMPTOM) return rests_on(b, b->symptoms[c->subject].when, question);
    if (c->kind == COND_CONCLUSION) return true; /* by way of rules: may be */
    for (uint32_t i = 0; i < c->count; i++)
        if (rests_on(b, c->parts[i], question)) return true;
    return false;
}

static bool shows_cure(const doubter *d, const fix *x, uint32_t question)
{
    const book *b = d->book;
    assert(question < b->question_count);
    const links *of = &d->index->symptoms_of;
    for (uint32_t i = 0; i < x->cures_count; i++)
        for (uint32_t k = of->first[x->cures[i].cause]; k < of->first[x->cures[i].cause + 1]; k++)
            if (rests_on(b, b->symptoms[of->items[k]].when, question)) return true;
    return x->adjust.reading == question;
}

/* One more look, at what a fix may have put out of order, is well; but one of them has to show
 * whether it helped. */
static void doubt_look_again(const doubter *d, const fix *x)
{
    const book *b = d->book;
    bool shows = x->look_again.count == 0;
    for (uint32_t i = 0; i < x->look_again.count; i++)
        shows = shows || shows_cure(d, x, x->look_again.items[i]);
    if (shows) return;
    fault *f = fault_add(
        d->list, FAULT_LOOKS_ELSEWHERE, x->id.at,
        "After '%.*s' people look at '%.*s' again, which none of the causes that it cures shows.",
        STR_ARG(x->of.base), STR_ARG(b->questions[x->look_again.items[0]].of.base));
    fault_help(d->list, f, "Look again at what was wrong, or let a symptom on it list the cause.");
}

/* ---- what a fix cures ---- */

static void doubt_cures(const doubter *d, const fix *x)
{
    const double hardly = 0.06;
    for (uint32_t i = 0; i < x->cures_count; i++) {
        if (x->cures[i].chance > hardly) continue;
        fault *f =
            fault_add(d->list, FAULT_HARDLY_CURES, x->cures[i].at,
                      "'%.*s' cures '%.*s' in %.3g of 100 tries: it would be offered for nothing.",
                      STR_ARG(x->of.base), STR_ARG(d->book->causes[x->cures[i].cause].of.base),
                      100 * x->cures[i].chance);
        fault_help(d->list, f,
                   "Write how often it helps if that is the cause, or take the cause out.");
    }
}

/* What cures a cause most often, and which fix that is. */
typedef struct cure {
    const rate *rate;
    const fix *of;
} cure;

static const cure *best_cures(const doubter *d)
{
    const book *b = d->book;
    cure *best = ARENA_ARRAY(d->scratch, cure, b->cause_count);
    for (uint32_t i = 0; i < b->fix_count; i++)
        for (uint32_t k = 0; k < b->fixes[i].cures_count; k++) {
            const rate *r = &b->fixes[i].cures[k];
            cure *c = &best[r->cause];
            if (c->rate == NULL || r->chance > c->rate->chance) *c = (cure){r, &b->fixes[i]};
        }
    return best;
}

/* After all that is listed was done the fault mostly stays. */
static void doubt_all_cures(const doubter *d, uint32_t cause, const rate *best, const fix *of)
{
    assert(cause < d->book->cause_count);
    const book *b = d->book;
    const double mostly_stays = 0.4;
    if (best == NULL || best->chance >= mostly_stays) return; /* without any: told elsewhere */
    fault *f =
        fault_add(d->list, FAULT_MOSTLY_STAYS, best->at,
                  "'%.*s' is cured by '%.*s' in %.3g of 100 tries, and by nothing else more "
                  "often: mostly it stays.",
                  STR_ARG(b->causes[cause].of.base), STR_ARG(of->of.base), 100 * best->chance);
    fault_help(d->list, f,
               "Write how often the fix helps if that is the cause, or a fix that mends it for "
               "good: replacing it, or calling whoever does.");
}

static bool cures_no_less(const fix *a, const fix *b)
{
    for (uint32_t i = 0; i < b->cures_count; i++) {
        bool as_well = false;
        for (uint32_t k = 0; k < a->cures_count; k++)
            as_well = as_well || (a->cures[k].cause == b->cures[i].cause &&
                                  a->cures[k].chance >= b->cures[i].chance);
        if (!as_well) return false;
    }
    return b->cures_count > 0;
}

/* The words are in falling order: what comes later is less bad, and less likely. */
static bool harms_no_more(const safety *a, const safety *b)
{
    return !a->any ||
           (b->any && a->unprotected_worst >= b->unprotected_worst &&
            a->unprotected_chance >= b->unprotected_chance &&
            a->protected_worst >= b->protected_worst && a->protected_chance >= b->protected_chance);
}

/* It waits for nothing: no answer, no other fix, no setting that can still be changed. */
static bool is_always_open(const fix *x)
{
    return x->only_when == NULL && x->after.count == 0 && x->adjust.reading == NO_ID;
}

/* Another one that does all of it at least as well, as fast, by whoever may do this one, with no
 * more harm. It is always offered; this one may be held back besides. */
static void doubt_behind(const doubter *d, uint32_t fix)
{
    assert(fix < d->book->fix_count);
    const book *b = d->book;
    const struct fix *x = &b->fixes[fix];
    if (x->cures_count == 0) return;
    const links *all = &d->index->fixes_of; /* what does all of its work does some of it */
    const uint32_t first = all->first[x->cures[0].cause], end = all->first[x->cures[0].cause + 1];
    for (uint32_t k = first; k < end && k - first < OTHERS_MAX; k++) {
        const uint32_t i = all->items[k];
        const struct fix *y = &b->fixes[i];
        if (i == fix || same_written(&x->id, &y->id) || x->of.piece != y->of.piece ||
            !is_always_open(y) || !book_may(b, x->role, y->role) || y->minutes > x->minutes ||
            y->cost.amount > x->cost.amount || (y->place != NO_ID && y->place != x->place) ||
            (safety_isolates(&y->harm) && !safety_isolates(&x->harm)) ||
            !harms_no_more(&y->harm, &x->harm) || !cures_no_less(y, x))
            continue;
        const bool alike = cures_no_less(x, y) && y->minutes == x->minutes && x->role == y->role &&
                           x->only_when == NULL && harms_no_more(&x->harm, &y->harm);
        if (alike && i > fix) continue; /* told of one of both */
        fault *f = fault_add(d->list, FAULT_BEHIND_ANOTHER, x->id.at,
                             "'%.*s' is never better than '%.*s', which cures the same at least as "
                             "often, no slower and no more dangerously.",
                             STR_ARG(x->of.base), STR_ARG(y->of.base));
        fault_note_at(d->list, f, y->id.at, "the other one");
        fault_help(d->list, f,
                   "Say what this one does better, in 'cures' or 'takes', or leave it out.");
        return;
    }
}

/* ---- time ---- */

static void doubt_time(const doubter *d, const label *name, double minutes, double most,
                       const char *what)
{
    assert(most > 0);
    if (minutes > 0 && minutes <= most) return;
    fault *f =
        fault_add(d->list, FAULT_ODD_TIME, name->at, "'%.*s' takes %.4g minutes: %s",
                  STR_ARG(name->name), minutes, minutes <= 0 ? "nothing takes no time." : what);
    fault_help(d->list, f, "Write 'takes' with its unit, such as '90 s', '5 min' or '1.5 h'.");
}

/* ---- whoever is called ---- */

static void doubt_call(const doubter *d, uint32_t role, span at)
{
    assert(role == NO_ID || role < d->book->role_count);
    const book *b = d->book;
    if (role == NO_ID) return;
    if (b->role_level[role] == 0 && b->role_count > 1) {
        fault *f = fault_add(d->list, FAULT_CALLS_CALLER, at,
                             "'%.*s' is who asks for help, so nobody else comes.",
                             STR_ARG(b->roles[role].name));
        fault_help(d->list, f, "Name a role that is called, such as '%.*s'.",
                   STR_ARG(b->roles[b->role_count - 1].name));
        return;
    }
    bool reached = b->contact_count == 0;
    for (uint32_t i = 0; i < b->contact_count; i++)
        reached =
            reached || (b->contacts[i].role != NO_ID && book_may(b, b->contacts[i].role, role));
    if (reached) return;
    fault *f = fault_add(
        d->list, FAULT_NO_CONTACT, at,
        "Nobody under 'contacts' of the site is '%.*s', so the page can't say whom to call.",
        STR_ARG(b->roles[role].name));
    fault_help(d->list, f, "Add a contact with 'role: %.*s'.", STR_ARG(b->roles[role].name));
}

/* ---- calling is quicker ---- */

static bool is_highest(const book *b, uint32_t role)
{
    for (uint32_t r = 0; r < b->role_count; r++)
        if (b->role_level[r] > b->role_level[role]) return false;
    return true;
}

/* Above the highest role there is only somebody from outside, whose work nobody knows: that counts
 * as 'call-out' alone, so whatever takes longer is never begun. */
static void doubt_longer_than_call(const doubter *d, const fix *x)
{
    const book *b = d->book;
    if (!is_highest(b, x->role) || x->minutes < b->call_minutes) return;
    fault *f = fault_add(
        d->list, FAULT_LONGER_THAN_CALL, x->id.at,
        "'%.*s' takes %g min, and waiting for somebody who is called %g min: it is never offered.",
        STR_ARG(x->of.base), x->minutes, b->call_minutes);
    fault_help(d->list, f,
               "Make 'call-out' as long as it takes until somebody from outside has done such "
               "work, or write what "
               "can be done before as a fix of its own.");
}

void doubt_work(const doubter *d)
{
    const book *b = d->book;
    const double long_look = 3 * 60, day = 8 * 60;
    for (uint32_t i = 0; i < b->fix_count; i++) {
        doubt_look_again(d, &b->fixes[i]);
        doubt_cures(d, &b->fixes[i]);
        doubt_behind(d, i);
        doubt_longer_than_call(d, &b->fixes[i]);
        doubt_time(d, &b->fixes[i].id, b->fixes[i].minutes, day,
                   "that is more than a day of work.");
    }
    const cure *best = best_cures(d);
    for (uint32_t i = 0; i < b->cause_count; i++) doubt_all_cures(d, i, best[i].rate, best[i].of);
    for (uint32_t i = 0; i < b->question_count; i++)
        if (!b->questions[i].made && b->questions[i].kind != QUESTION_QUANTITY)
            doubt_time(d, &b->questions[i].id, b->questions[i].minutes, long_look,
                       "nobody answers that in a call.");
    for (uint32_t i = 0; i < b->place_count; i++)
        for (uint32_t k = 0; k < b->places[i].walk_count; k++)
            doubt_time(d, &b->places[i].id, b->places[i].walks[k].minutes, 60,
                       "nobody walks that far in a call.");
    for (uint32_t i = 0; i < b->rule_count; i++)
        if (b->rules[i].stops) doubt_call(d, b->rules[i].call, b->rules[i].id.at);
    for (uint32_t i = 0; i < b->emergency_count; i++)
        if (!b->emergencies[i].ours) doubt_call(d, b->emergencies[i].call, b->emergencies[i].id.at);
}
