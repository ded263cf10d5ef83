/* Why a fix does not come first: what keeps it back, or what the order puts before it, and which
 * number would put it first. What would is not worked out but tried, by ordering once more. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "session/session.h"

typedef struct waiting {
    tt_case *c;
    uint32_t fix; /* of the book */
    options o;
    tt_why_fix out;
    tt_fix_pivot *pivots;
} waiting;

static const double *weights(const waiting *w)
{
    return w->c->now.planning;
}

/* ---- which one is meant ---- */

/* Of those that cure the likeliest cause the one that cures it most often. */
static uint32_t fix_of_leader(tt_case *c)
{
    const book *b = c->book->book;
    const char *leader = c->view.cause_count > 0 ? c->view.causes[0].name : NULL;
    uint32_t best = NO_ID;
    double most = 0;
    for (uint32_t f = 0; leader != NULL && f < b->fix_count; f++)
        for (uint32_t i = 0; i < b->fixes[f].cures_count; i++) {
            const rate *r = &b->fixes[f].cures[i];
            if (!str_is(b->causes[r->cause].id.name, leader) || r->chance <= most) continue;
            most = r->chance;
            best = f;
        }
    return best;
}

static bool cures_leader(tt_case *c, const tt_fix *first)
{
    const book *b = c->book->book;
    const struct fix *x = &b->fixes[first->fix];
    const char *leader = c->view.causes[0].name;
    for (uint32_t i = 0; leader != NULL && i < x->cures_count; i++)
        if (str_is(b->causes[x->cures[i].cause].id.name, leader)) return true;
    return false;
}

static const tt_fix *seen_first(const tt_case *c)
{
    const tt_view *v = &c->view;
    return v->fix_count > 0 && v->fixes[0].standing <= TT_POSSIBLE_FIX ? &v->fixes[0] : NULL;
}

static uint32_t option_of(const waiting *w, uint32_t fix)
{
    for (uint32_t i = 0; i < w->o.in.fix_count; i++)
        if (w->o.fix_of[i] == fix) return i;
    return NO_ID;
}

/* ---- what keeps it back ---- */

static bool is_among(const ids *list, uint32_t id)
{
    for (uint32_t i = 0; i < list->count; i++)
        if (list->items[i] == id) return true;
    return false;
}

static void name_rules(waiting *w)
{
    const book *b = w->c->book->book;
    const char **names = ARENA_ARRAY(w->c->derived, const char *, b->rule_count);
    for (uint32_t r = 0; r < b->rule_count; r++)
        if ((is_among(&b->rules[r].skip_fixes, w->fix) || is_among(&b->rules[r].holds, w->fix)) &&
            case_truth(w->c, w->c->book->prog->rule_atom[r]) == TRUTH_TRUE)
            names[w->out.name_count++] = cstr(w->c->derived, b->rules[r].id.name);
    w->out.names = names;
}

static void name_those_before(waiting *w)
{
    const book *b = w->c->book->book;
    const ids *after = &b->fixes[w->fix].after;
    const char **names = ARENA_ARRAY(w->c->derived, const char *, after->count);
    for (uint32_t i = 0; i < after->count; i++)
        if (fix_applies(w->c, after->items[i]) && !w->c->now.tried[after->items[i]])
            names[w->out.name_count++] = cstr(w->c->derived, b->fixes[after->items[i]].id.name);
    w->out.names = names;
}

static void tell_setting(waiting *w)
{
    tt_case *c = w->c;
    const adjustment *a = &c->book->book->fixes[w->fix].adjust;
    const struct question *q = &c->book->book->questions[a->reading];
    const reply *r = c->now.replies[a->reading];
    const str low = book_amount(c->derived, c->book->book, a->reading, a->low, NULL),
              high = book_amount(c->derived, c->book->book, a->reading, a->high, NULL);
    w->out.text = FILL(c->derived, c->in, TEXT_SETTING_IS, case_text(c, &q->ask),
                       r == NULL ? "" : reply_words(c, a->reading, r), low.p, high.p);
}

/* Null: it is offered, and the order decides. */
static const char *kept_back(waiting *w)
{
    tt_case *c = w->c;
    const struct fix *x = &c->book->book->fixes[w->fix];
    const truth holds = case_truth(c, c->book->prog->fix_atom[w->fix]);
    if (c->now.tried[w->fix]) return "tried";
    if (safety_forbids(&x->harm)) return "forbidden";
    if (c->now.skip_fixes[w->fix]) {
        name_rules(w);
        return "rule";
    }
    if (!case_may_do(c, w->fix)) return "role";
    if (holds != TRUTH_TRUE) return holds == TRUTH_FALSE ? "only-when" : "only-when-open";
    if (!adjust_is_possible(c, w->fix)) {
        tell_setting(w);
        return "setting";
    }
    name_those_before(w);
    return w->out.name_count > 0 ? "after" : NULL;
}

/* ---- what the order puts before it ---- */

static const char *put_behind(waiting *w)
{
    const fix_measure mine =
        choose_measure(&w->o.in, w->c->scratch, weights(w), option_of(w, w->fix));
    w->out.least = mine.least;
    w->out.cost = mine.cost;
    if (mine.standing > FIX_POSSIBLE || w->out.first.name == NULL) return "worth";
    const uint32_t first = option_of(w, w->out.first.fix);
    const fix_measure other = choose_measure(&w->o.in, w->c->scratch, weights(w), first);
    w->out.first_cost = other.cost;
    const risk_level level = w->o.in.fixes[option_of(w, w->fix)].level;
    return other.standing == FIX_LIKELY && level > w->o.in.fixes[first].level ? "risk" : "pace";
}

/* ---- which number would put it first ---- */

typedef struct trial_change { /* one number otherwise; the others as they are */
    uint32_t option, cause;   /* cause: NO_ID where the time is changed */
    bool often;               /* the weight of the cause, and no cure */
} trial_change;

static bool comes_first(const waiting *w, const trial_change *t, double value)
{
    tt_case *c = w->c;
    const arena_mark before = arena_here(c->scratch);
    const uint32_t count = w->o.in.fix_count, causes = c->book->book->cause_count;
    choice_input in = w->o.in;
    fix_option *fixes = ARENA_ARRAY(c->scratch, fix_option, count);
    memcpy(fixes, in.fixes, count * sizeof *fixes);
    double *weight = ARENA_ARRAY(c->scratch, double, (size_t)causes + 1);
    memcpy(weight, weights(w), (causes + (size_t)1) * sizeof *weight);
    if (t->often) {
        weight[1 + t->cause] *= value;
    } else if (t->cause == NO_ID) {
        fixes[t->option].minutes = value;
    } else {
        const double rightly = 1 - c->book->book->fixes[w->o.fix_of[t->option]].done_wrongly;
        net_rate *cures = ARENA_ARRAY(c->scratch, net_rate, fixes[t->option].cure_count);
        for (uint32_t i = 0; i < fixes[t->option].cure_count; i++) {
            cures[i] = fixes[t->option].cures[i];
            if (cures[i].cause == t->cause) cures[i].chance = value * rightly;
        }
        fixes[t->option].cures = cures;
    }
    in.fixes = fixes;
    ranked_fix *order = ARENA_ARRAY(c->scratch, ranked_fix, count);
    choose_order(&in, c->scratch, weight, order);
    const bool first = w->o.fix_of[order[0].fix] == w->fix && order[0].standing <= FIX_POSSIBLE;
    arena_back_to(c->scratch, before);
    return first;
}

/* The value nearest to `was` on the way to `far` at which it comes first. False: not even at `far`.
 */
static bool least_change(const waiting *w, const trial_change *t, double was, double far,
                         double *then)
{
    enum { HALVINGS = 30 };
    if (!comes_first(w, t, far)) return false;
    double no = was, yes = far;
    for (int i = 0; i < HALVINGS; i++) {
        const double middle = (no + yes) / 2;
        if (comes_first(w, t, middle))
            yes = middle;
        else
            no = middle;
    }
    *then = yes;
    return true;
}

static void add_pivot(waiting *w, const char *kind, const trial_change *t, double was, double far)
{
    const book *b = w->c->book->book;
    double then;
    if (!least_change(w, t, was, far, &then)) return;
    const struct fix *x = &b->fixes[w->o.fix_of[t->option]];
    const char *cause = t->cause == NO_ID ? "" : cstr(w->c->derived, b->causes[t->cause].id.name);
    w->pivots[w->out.pivot_count++] = (tt_fix_pivot){.kind = kind,
                                                     .fix = cstr(w->c->derived, x->id.name),
                                                     .cause = cause,
                                                     .was = was,
                                                     .then = then};
}

/* As the author writes them, of a fix done rightly. */
static void try_cures(waiting *w, uint32_t option, const char *kind, double far)
{
    const struct fix *x = &w->c->book->book->fixes[w->o.fix_of[option]];
    assert(x->cures_count == w->o.in.fixes[option].cure_count);
    for (uint32_t i = 0; i < x->cures_count; i++)
        add_pivot(w, kind, &(trial_change){option, x->cures[i].cause, false}, x->cures[i].chance,
                  far);
}

/* Causes a hundred times as common are enough to look at. */
static void try_all(waiting *w)
{
    const uint32_t mine = option_of(w, w->fix),
                   first = w->out.first.name == NULL ? NO_ID : option_of(w, w->out.first.fix);
    const fix_option *x = &w->o.in.fixes[mine];
    const uint32_t theirs = first == NO_ID ? 0 : w->o.in.fixes[first].cure_count;
    w->pivots = ARENA_ARRAY(w->c->derived, tt_fix_pivot, 1 + 2 * (size_t)x->cure_count + theirs);
    const double lockout = x->set_up_minutes; /* a part of it, that no haste makes shorter */
    add_pivot(w, "takes", &(trial_change){mine, NO_ID, false}, x->minutes, fmax(0.1, lockout));
    try_cures(w, mine, "cures", 1);
    if (first != NO_ID) try_cures(w, first, "cures-less", 0);
    for (uint32_t i = 0; i < x->cure_count; i++)
        add_pivot(w, "how-often", &(trial_change){mine, x->cures[i].cause, true}, 1, 100);
    w->out.pivots = w->pivots;
}

/* ---- all of it ---- */

static tt_fix as_shown(tt_case *c, uint32_t fix)
{
    const book *b = c->book->book;
    for (uint32_t i = 0; i < c->view.fix_count; i++)
        if (c->view.fixes[i].fix == fix) return c->view.fixes[i];
    const struct fix *x = &b->fixes[fix];
    return (tt_fix){.fix = fix,
                    .name = cstr(c->derived, x->id.name),
                    .text = case_text(c, &x->text),
                    .risk = risk_name(safety_risk(&x->harm, true)),
                    .minutes = x->minutes,
                    .role = cstr(c->derived, b->roles[x->role].name),
                    .role_text = role_words(c, x->role),
                    .standing = TT_NOT_YET,
                    .held = true};
}

static tt_status why_fix_waits(void *context)
{
    waiting *w = context;
    const tt_fix *first = seen_first(w->c);
    const bool asked = w->fix != TT_NONE;
    if (!asked) w->fix = fix_of_leader(w->c);
    if (w->fix == NO_ID || w->fix >= w->c->book->book->fix_count) return TT_NOT_NOW;
    if (first != NULL && (first->fix == w->fix || (!asked && cures_leader(w->c, first))))
        return TT_NOT_NOW;
    w->o = case_options(w->c);
    w->out = (tt_why_fix){.wanted = as_shown(w->c, w->fix), .text = ""};
    if (first != NULL) w->out.first = *first;
    w->out.reason = kept_back(w);
    if (w->out.reason == NULL && option_of(w, w->fix) == NO_ID) return TT_NOT_NOW;
    if (w->out.reason == NULL) {
        w->out.reason = put_behind(w);
        try_all(w);
    }
    return TT_OK;
}

tt_status tt_why_fix_waits(tt_case *c, uint32_t fix, tt_why_fix *out)
{
    assert(out != NULL);
    const tt_view *view;
    waiting w = {.c = c, .fix = fix};
    tt_status status = tt_look(c, &view);
    if (status == TT_OK) status = guarded_case(c, why_fix_waits, &w);
    *out = status == TT_OK ? w.out : (tt_why_fix){0};
    return status;
}
