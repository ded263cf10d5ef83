/* What keeps people from harm, where it is written and does not do it: gates that stay open, stops
 * without help, locks, protection and roles, cautions that what they speak of goes against. */
#include <assert.h>

#include "doubt/doubt.h"
#include "model/hazard_words.h"

/* ---- the gate and its stops ---- */

typedef struct only_answer { /* nothing else is answered */
    uint32_t question, answer;
} only_answer;

static truth leaf_with_one_answer(const void *of, const cond *leaf)
{
    const only_answer *only = of;
    assert(only->answer < 64);
    if (leaf->subject != only->question) return IS_OPEN;
    if (leaf->kind == COND_KNOWN) return IS_TRUE;
    assert(leaf->kind == COND_ANSWER); /* it has answers */
    return (leaf->answers >> only->answer & 1) != 0 ? IS_TRUE : IS_FALSE;
}

static const rule *stop_at(const doubter *d, uint32_t question, uint32_t answer)
{
    const only_answer only = {question, answer};
    for (uint32_t i = 0; i < d->book->rule_count; i++) {
        const rule *r = &d->book->rules[i];
        if (r->stops && truth_of(d, r->when, leaf_with_one_answer, &only) == IS_TRUE) return r;
    }
    return NULL;
}

static bool any_stop(const book *b)
{
    for (uint32_t i = 0; i < b->rule_count; i++)
        if (b->rules[i].stops) return true;
    return false;
}

static void doubt_gate_answer(const doubter *d, uint32_t question, uint32_t answer)
{
    const struct question *q = &d->book->questions[question];
    const answer_option *a = &q->answers[answer];
    const rule *stop = stop_at(d, question, answer);
    const bool safe = answer_is_safe(q, answer);
    const span at = a->id.at.file == NO_FILE ? q->id.at : a->id.at;
    if (safe && stop != NULL) {
        fault *f = fault_add(d->list, FAULT_STOPS_AT_SAFE, at,
                             "'%.*s' is called a safe answer, and the rule '%.*s' stops at it.",
                             STR_ARG(a->id.name), STR_ARG(stop->id.name));
        fault_note_at(d->list, f, stop->id.at, "the rule");
        fault_help(d->list, f, "Take it out of 'safe': what is not known to be safe is danger.");
    } else if (!safe && stop == NULL && any_stop(d->book)) {
        fault *f = fault_add(d->list, FAULT_NO_STOP, at,
                             "After '%.*s' the case stops, and no rule says what to do or calls "
                             "anybody, as rules do for others.",
                             STR_ARG(a->id.name));
        fault_help(d->list, f, "Write a rule: 'when: {%.*s: %.*s}', then 'stop' and 'call'.",
                   STR_ARG(q->of.base), STR_ARG(a->id.name));
    }
}

static void doubt_stop(const doubter *d, const rule *r)
{
    if (!r->stops || r->call != NO_ID || d->book->role_count < 2) return;
    fault *f =
        fault_add(d->list, FAULT_STOP_CALLS_NOBODY, r->id.at,
                  "'%.*s' stops the work and calls nobody, so nobody comes.", STR_ARG(r->id.name));
    fault_help(d->list, f, "Write 'call: %.*s' beside 'stop'.",
               STR_ARG(d->book->roles[d->book->role_count - 1].name));
}

/* ---- locks ---- */

typedef struct work { /* a fix or a question */
    const label *id;
    const owner *of;
    const safety *harm;
    const texts *text;
    const texts_list *steps;
    uint32_t role;
} work;

static void doubt_running(const doubter *d, const work *w)
{
    if (w->harm->state != WORK_RUNNING || w->harm->procedure_count == 0) return;
    fault *f = fault_add(d->list, FAULT_RUNS_WHILE_LOCKED, w->id->at,
                         "'%.*s' says that it runs meanwhile, and has a procedure that locks it.",
                         STR_ARG(w->of->base));
    fault_help(d->list, f, "Take one of them out: 'while', or 'procedure'.");
}

/* The first words of a step that needs what is locked. */
static const char *needs_run(const texts *t)
{
    static const char *const words[] = {
        "switch the foam on", "switch it on", "start it",    "start the line", "start the pump",
        "run the foam",       "run the pump", "run one car", "let it run",     "encienda",
        "arranque",           "watch a car",  "watch two",   "watch three",    NULL};
    for (uint32_t i = 0; i < t->count; i++)
        for (size_t w = 0; words[w] != NULL; w++)
            if (word_at(t->items[i].text, words[w]) == 0) return words[w];
    return NULL;
}

static void doubt_locked_steps(const doubter *d, const work *w)
{
    if (w->harm->procedure_count == 0 || w->harm->state == WORK_RUNNING) return;
    for (uint32_t i = 0; i < w->steps->count; i++) {
        const texts *step = &w->steps->items[i];
        const char *word = needs_run(step);
        if (word == NULL) continue;
        fault *f =
            fault_add(d->list, FAULT_RUNS_IN_STEPS, step->at.file == NO_FILE ? w->id->at : step->at,
                      "'%s' stands among the steps of '%.*s', where all is locked.", word,
                      STR_ARG(w->of->base));
        fault_help(d->list, f,
                   "Move it to 'once-running', which comes after the locks are taken off.");
        return;
    }
}

static void doubt_locker(const doubter *d, const work *w)
{
    const book *b = d->book;
    if (!safety_isolates(w->harm) || b->authorised[w->role]) return;
    const uint32_t by = book_role_for(b, w->role, w->harm);
    if (by == w->role) return; /* nobody may: told elsewhere */
    fault *f = fault_add(d->list, FAULT_LOCKED_BY_LOWER, w->id->at,
                         "'%.*s' locks, and '%.*s' may not, so it is the work of '%.*s'.",
                         STR_ARG(w->of->base), STR_ARG(b->roles[w->role].name),
                         STR_ARG(b->roles[by].name));
    fault_help(d->list, f, "Write 'role: %.*s'.", STR_ARG(b->roles[by].name));
}

static bool any_word(const texts_list *all, const char *const *words)
{
    for (uint32_t i = 0; i < all->count; i++)
        for (uint32_t k = 0; k < all->items[i].count; k++)
            for (size_t w = 0; words[w] != NULL; w++)
                if (word_at(all->items[i].items[k].text, words[w]) != SIZE_MAX) return true;
    return false;
}

/* A try shows nothing while something is still held. */
static void doubt_try(const doubter *d, const procedure *p)
{
    static const char *const tries[] = {"try to start", "press start", "intente arrancar", NULL};
    if (!any_word(&p->release, tries) || any_word(&p->prove, tries)) return;
    fault *f = fault_add(d->list, FAULT_TRIED_TOO_SOON, p->id.at,
                         "'%.*s' tries to start under 'release', before all is let go, and not "
                         "under 'prove'.",
                         STR_ARG(p->of.base));
    fault_help(d->list, f,
               "Write under 'release' what is let go, and the try to start under 'prove'.");
}

static void doubt_procedure(const doubter *d, const procedure *p)
{
    static const char *const hangs[] = {"lock", "padlock", "tag", "candado", "candados", NULL},
                             *const takes[] = {"own lock",    "own locks",      "own tag",
                                               "own padlock", "propio candado", "propios candados",
                                               NULL};
    const bool on = any_word(&p->isolate, hangs), off = any_word(&p->restore, takes),
               read = str_is(d->book->language, "en") || str_is(d->book->language, "es");
    doubt_try(d, p);
    if (!read || (on && off)) return;
    fault *f =
        fault_add(d->list, FAULT_LOCK_UNSAID, p->id.at,
                  on ? "'%.*s' puts locks on, and its 'restore' does not say that each takes "
                       "off only their own."
                     : "'%.*s' switches off and puts no lock on: somebody may switch it on again.",
                  STR_ARG(p->of.base));
    fault_help(d->list, f,
               on ? "Add a line to 'restore': 'Each person takes off only their own lock and tag.'"
                  : "Add a line to 'isolate': 'Put your own lock and tag on it. Keep your key.'");
}

/* ---- protection, hazards, roles ---- */

static void doubt_protection(const doubter *d, const work *w)
{
    const safety *s = w->harm;
    if (!s->any) return;
    const bool worse =
        s->protected_worst<s->unprotected_worst, helps = s->protected_worst> s->unprotected_worst ||
        s->protected_chance > s->unprotected_chance;
    if (helps && !worse) return;
    fault *f = fault_add(d->list, FAULT_PROTECTION_IDLE, w->id->at,
                         worse ? "With its protection '%.*s' can end worse than without."
                               : "At '%.*s' all that is worn and locked makes nothing less bad and "
                                 "nothing rarer.",
                         STR_ARG(w->of->base));
    fault_help(d->list, f,
               "Say under 'protected' how bad it still is with what is worn and isolated, and "
               "under 'unprotected' how bad without.");
}

static void doubt_hazards(const doubter *d, const hazard_ear *ear, const work *w)
{
    static const char *const labels[] = {
        "safety data sheet", "safety data sheets", "h314", "h315", "h318", "h319", NULL};
    bool named[HAZARD_COUNT];
    const safety *s = w->harm;
    if (!s->any) return;
    for (int h = 0; h < HAZARD_COUNT; h++) named[h] = s->hazards[h];
    for (uint32_t i = 0; i < s->procedure_count; i++) {
        const bool *e = d->book->procedures[s->procedures[i]].energies;
        named[HAZARD_ELECTRICITY] |= e[ENERGY_ELECTRICITY];
        named[HAZARD_PRESSURE] |= e[ENERGY_PRESSURE];
        named[HAZARD_MOVING_PARTS] |= e[ENERGY_MOVING_PARTS];
        named[HAZARD_STORED_ENERGY] |= e[ENERGY_STORED] || e[ENERGY_PRESSURE];
    }
    const char *word = hazard_word(ear, d->book, w->text, named);
    for (uint32_t i = 0; word == NULL && i < w->steps->count; i++)
        word = hazard_word(ear, d->book, &w->steps->items[i], named);
    hazard of = word == NULL ? HAZARD_CHEMICALS : hazard_of_word(word);
    if (word == NULL && !named[HAZARD_CHEMICALS] && any_word(&s->protect, labels))
        word = "safety data sheet";
    if (word == NULL) return;
    fault *f = fault_add(d->list, FAULT_HAZARD_UNNAMED, s->at.file == NO_FILE ? w->id->at : s->at,
                         "The words of '%.*s' say '%s', and 'from' does not name %s.",
                         STR_ARG(w->of->base), word, hazard_name(of));
    fault_help(d->list, f, "Add '%s' to 'from', with what keeps it off.", hazard_name(of));
}

/* Words of wires in the work of a role below the electrician, of whom the book has one. */
static void doubt_electric(const doubter *d, const hazard_ear *ear, const work *w)
{
    const book *b = d->book;
    bool others[HAZARD_COUNT];
    uint32_t electrician = NO_ID;
    for (uint32_t i = 0; i < b->role_count; i++)
        if (str_find(b->roles[i].name, STR("electric")) != SIZE_MAX) electrician = i;
    if (electrician == NO_ID || book_may(b, w->role, electrician)) return;
    for (int h = 0; h < HAZARD_COUNT; h++) others[h] = h != HAZARD_ELECTRICITY;
    const char *word = hazard_word(ear, b, w->text, others);
    for (uint32_t i = 0; word == NULL && i < w->steps->count; i++)
        word = hazard_word(ear, b, &w->steps->items[i], others);
    if (word == NULL) return;
    fault *f = fault_add(d->list, FAULT_ODD_ROLE, w->id->at,
                         "'%.*s' is the work of '%.*s', and its words say '%s'.",
                         STR_ARG(w->of->base), STR_ARG(b->roles[w->role].name), word);
    fault_help(d->list, f, "Write 'role: %.*s', or a step that leaves it to them.",
               STR_ARG(b->roles[electrician].name));
}

/* ---- cautions ---- */

/* On which side of its range a reading is too much while the condition holds: 1 above, -1 below. */
static int side_in(const cond *c, uint32_t question)
{
    if (c->kind == COND_RANGE && c->subject == question)
        return c->high > 1e300 ? 1 : c->low < -1e300 ? -1 : 0;
    for (uint32_t i = 0; i < c->count && c->kind == COND_ALL; i++) {
        const int side = side_in(c->parts[i], question);
        if (side != 0) return side;
    }
    return 0;
}

static bool is_in(const ids *all, uint32_t id)
{
    for (uint32_t i = 0; i < all->count; i++)
        if (all->items[i] == id) return true;
    return false;
}

/* A fix that makes worse what a standing caution speaks of, and is not held; one that mends it, and
 * is. */
static void doubt_caution(const doubter *d, const rule *r)
{
    const book *b = d->book;
    if (!r->has_caution || r->stops || r->signal > SIGNAL_WARNING) return;
    for (uint32_t i = 0; i < b->fix_count; i++) {
        const fix *x = &b->fixes[i];
        if (x->adjust.reading == NO_ID) continue;
        const int side = side_in(r->when, x->adjust.reading);
        const bool held = is_in(&r->holds, i), worse = side * x->adjust.step > 0;
        if (side == 0 || held == worse) continue;
        fault *f = fault_add(d->list, FAULT_AGAINST_CAUTION, r->id.at,
                             worse ? "While '%.*s' stands '%.*s' makes it worse, and is not held."
                                   : "'%.*s' holds '%.*s', which would mend what it speaks of.",
                             STR_ARG(r->id.name), STR_ARG(x->of.base));
        fault_note_at(d->list, f, x->id.at, "the fix");
        fault_help(d->list, f, worse ? "Add it to 'holds'." : "Take it out of 'holds'.");
    }
}

void doubt_danger(const doubter *d)
{
    const book *b = d->book;
    const texts_list none = {0};
    const hazard_ear ear = hazard_ear_ready();
    for (uint32_t i = 0; i < b->named_questions; i++) {
        const question *q = &b->questions[i];
        for (uint32_t a = 0; q->gate && a < q->answer_count; a++) doubt_gate_answer(d, i, a);
        const work w = {&q->id, &q->of, &q->harm, &q->look, &none, q->role};
        if (q->kind == QUESTION_QUANTITY) continue;
        doubt_running(d, &w);
        doubt_protection(d, &w);
        doubt_hazards(d, &ear, &w);
    }
    for (uint32_t i = 0; i < b->fix_count; i++) {
        const fix *x = &b->fixes[i];
        const work w = {&x->id, &x->of, &x->harm, &x->text, &x->steps, x->role};
        doubt_running(d, &w);
        doubt_locked_steps(d, &w);
        doubt_locker(d, &w);
        doubt_protection(d, &w);
        doubt_hazards(d, &ear, &w);
        doubt_electric(d, &ear, &w);
    }
    for (uint32_t i = 0; i < b->procedure_count; i++) doubt_procedure(d, &b->procedures[i]);
    for (uint32_t i = 0; i < b->rule_count; i++) {
        doubt_stop(d, &b->rules[i]);
        doubt_caution(d, &b->rules[i]);
    }
}
