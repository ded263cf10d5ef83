/* What can hurt against what is written against it: each energy has its procedure, each other
 * hazard its protection, and nothing grave is left to whoever asks for help. */
#include <assert.h>

#include "model/hazard_words.h"
#include "read/reader.h"

/* What is checked: a fix or a question. */
typedef struct work {
    str name;
    const safety *harm;
    bool fix, lowest; /* lowest: the work of whoever asks for help */
} work;

/* ---- energies ---- */

static const energy none_of_them = ENERGY_COUNT;

static energy energy_of(hazard h)
{
    switch (h) {
    case HAZARD_ELECTRICITY:
        return ENERGY_ELECTRICITY;
    case HAZARD_PRESSURE:
        return ENERGY_PRESSURE;
    case HAZARD_MOVING_PARTS:
        return ENERGY_MOVING_PARTS;
    case HAZARD_GRAVITY:
        return ENERGY_GRAVITY;
    case HAZARD_STORED_ENERGY:
        return ENERGY_STORED;
    default:
        return none_of_them;
    }
}

static bool is_isolated(const reader *r, const safety *s, energy e)
{
    for (uint32_t i = 0; i < s->procedure_count; i++)
        if (r->book->procedures[s->procedures[i]].energies[e]) return true;
    return false;
}

static const procedure *one_for(const reader *r, energy e)
{
    for (uint32_t i = 0; i < r->book->procedure_count; i++)
        if (r->book->procedures[i].energies[e]) return &r->book->procedures[i];
    return NULL;
}

/* What it goes by already, and `more`: "lock-the-pump, release-pressure". */
static str procedures_with(reader *r, const safety *s, str more)
{
    text_builder all = {.keep = r->scratch};
    for (uint32_t i = 0; i < s->procedure_count; i++)
        text_addf(&all, "%.*s, ", STR_ARG(r->book->procedures[s->procedures[i]].of.base));
    text_addf(&all, "%.*s", STR_ARG(more));
    return text_done(&all);
}

static void not_isolated(reader *r, const work *w, energy e)
{
    const procedure *fits = one_for(r, e);
    const bool beside = w->harm->procedure_count > 0;
    fault *f = fault_add(r->list, FAULT_ENERGY_NOT_ISOLATED, w->harm->at,
                         "'%.*s' can hurt by %s, and no procedure of it isolates that.",
                         STR_ARG(w->name), energy_name(e));
    if (w->harm->state == WORK_RUNNING)
        fault_help(r->list, f,
                   "Say why it must run: write 'running:' with a sentence beneath 'while:'.");
    else if (fits != NULL && beside)
        fault_help(r->list, f,
                   "Name both, in the order in which they are isolated: 'procedure: [%.*s]'. If it "
                   "has to run, say why: 'running:' with a sentence beneath 'while:'.",
                   STR_ARG(procedures_with(r, w->harm, fits->of.base)));
    else if (fits != NULL)
        fault_help(r->list, f,
                   "Add 'procedure: %.*s', which isolates %s, or another that does. If it has to "
                   "run, say why: "
                   "'running:' with a sentence beneath 'while:'.",
                   STR_ARG(fits->of.base), energy_name(e));
    else if (beside)
        fault_help(
            r->list, f,
            "If '%.*s' isolates it too, add '%s' to its 'energies'; else write a procedure with "
            "'energies: [%s]' and name both: 'procedure: [%.*s]'. If it has to run, say why: "
            "'running:' with a sentence beneath 'while:'.",
            STR_ARG(r->book->procedures[w->harm->procedures[0]].of.base), energy_name(e),
            energy_name(e), STR_ARG(procedures_with(r, w->harm, STR("its-name"))));
    else
        fault_help(r->list, f,
                   "Write a procedure with 'energies: [%s]' under 'procedures', and name it here "
                   "with 'procedure'. If "
                   "it has to run, say why: 'running:' with a sentence beneath 'while:'.",
                   energy_name(e));
}

static void not_protected(reader *r, const work *w, hazard h)
{
    fault *f = fault_add(r->list, FAULT_HAZARD_UNPROTECTED, w->harm->at,
                         "'%.*s' can hurt by %s, and nothing is worn or done against it.",
                         STR_ARG(w->name), hazard_name(h));
    fault_help(r->list, f,
               "Say under 'protect' what to wear or to keep to, or name an entry of 'protection'.");
}

/* No clothing keeps off a live wire or a belt; what is not isolated runs for a reason that is
 * written. Heat and all else is kept off by what is worn. */
static void check_hazard(reader *r, const work *w, hazard h)
{
    const safety *s = w->harm;
    const energy e = energy_of(h);
    const bool isolated = e != none_of_them && is_isolated(r, s, e),
               hot = h == HAZARD_HOT_SURFACE || h == HAZARD_HOT_WATER,
               runs = s->state == WORK_RUNNING && s->why.count > 0,
               kept_off = s->protect.count > 0 || (hot && is_isolated(r, s, ENERGY_HEAT));
    if (e != none_of_them && !isolated && !runs)
        not_isolated(r, w, e);
    else if (!isolated && !kept_off && h != HAZARD_CONFINED_SPACE)
        not_protected(r, w, h);
}

/* ---- grave work ---- */

static void check_grave(reader *r, const work *w)
{
    const safety *s = w->harm;
    if (!w->fix || !w->lowest || !s->any || s->unprotected_worst != HARM_CATASTROPHIC) return;
    fault *f = fault_add(
        r->list, FAULT_GRAVE_FOR_LOWEST, s->at,
        "'%.*s' is the work of whoever asks for help, and without protection it can kill.",
        STR_ARG(w->name));
    fault_help(r->list, f, "Give it to a higher 'role', or find a way that can do less harm.");
}

static void check_confined(reader *r, const work *w)
{
    if (!w->harm->hazards[HAZARD_CONFINED_SPACE] || r->site_file != NO_FILE) return;
    fault *f =
        fault_add(r->list, FAULT_CONFINED_SPACE, w->harm->at,
                  "'%.*s' is work in a confined space, so it is never offered: somebody is called.",
                  STR_ARG(w->name));
    fault_help(r->list, f, "Leave it so, or find a way that nobody has to go in for.");
}

static void check_work(reader *r, const work *w)
{
    assert(w->harm != NULL);
    for (int h = 0; h < HAZARD_COUNT && w->harm->any; h++)
        if (w->harm->hazards[h]) check_hazard(r, w, (hazard)h);
    check_grave(r, w);
    check_confined(r, w);
}

/* ---- harm: none beside words of danger ---- */

static const bool nothing_named[HAZARD_COUNT];

static void check_none(reader *r, const hazard_ear *ear, const work *w, const texts *text,
                       const texts_list *steps)
{
    if (w->harm->any || r->site_file != NO_FILE) return;
    const char *word = hazard_word(ear, r->book, text, nothing_named);
    for (uint32_t i = 0; word == NULL && i < steps->count; i++)
        word = hazard_word(ear, r->book, &steps->items[i], nothing_named);
    if (word == NULL) return;
    fault *f = fault_add(r->list, FAULT_HARM_DOUBTED, w->harm->at,
                         "By this nothing can hurt at '%.*s', but its words say '%s'.",
                         STR_ARG(w->name), word);
    fault_help(r->list, f,
               "Say under 'harm' what from and how bad, with what isolates it and what is worn; or "
               "say it in other words.");
}

/* ---- the time that a lockout takes ---- */

static void check_set_up(reader *r, const fix *f)
{
    const double set_up = book_set_up_minutes(r->book, &f->harm);
    if (f->minutes >= set_up) return;
    fault *x = fault_add(r->list, FAULT_SET_UP_TOO_LONG, f->id.at,
                         "'%.*s' takes %g min, and isolating and giving back alone takes %g min.",
                         STR_ARG(f->of.base), f->minutes, set_up);
    fault_help(
        r->list, x,
        "What a fix 'takes' has the time of its procedures in it. Write at least %g min there, "
        "or less beside the procedure.",
        set_up);
}

/* ---- all of them ---- */

/* Whoever may not isolate is not offered it, and no role may unless book or site says so. */
static void check_authorised(reader *r, const fix *f)
{
    const book *b = r->book;
    const uint32_t by = book_role_for(b, f->role, &f->harm);
    if (r->site_file != NO_FILE || book_may_work(b, by, f->role, &f->harm)) return;
    fault *x = fault_add(
        r->list, FAULT_NOBODY_AUTHORISED, f->harm.at,
        "'%.*s' isolates, and no role that may do it is authorised, so nobody is offered it.",
        STR_ARG(f->of.base));
    const str role = b->roles[f->role].name;
    fault_help(r->list, x,
               "Write '{%.*s: {authorised: yes}}' among the roles, or 'authorised: yes' beside a "
               "contact of the example site.",
               STR_ARG(role));
}

void check_safety(reader *r)
{
    const book *b = r->book;
    const hazard_ear ear = hazard_ear_ready();
    for (uint32_t i = 0; i < b->fix_count; i++) {
        const fix *f = &b->fixes[i];
        const bool lowest = b->role_count > 0 && b->role_level[f->role] == 0;
        const work w = {f->of.base, &f->harm, true, lowest};
        check_work(r, &w);
        check_none(r, &ear, &w, &f->text, &f->steps);
        check_authorised(r, f);
        check_set_up(r, f);
    }
    for (uint32_t i = 0; i < b->named_questions; i++) {
        const question *q = &b->questions[i];
        const texts_list look = {&q->look, 1};
        const work w = {q->of.base, &q->harm, false, false};
        if (q->kind == QUESTION_QUANTITY) continue;
        check_work(r, &w);
        check_none(r, &ear, &w, &q->ask, &look);
    }
}

/* ---- lines typed once more ---- */

static bool has_line(const texts_list *all, const texts *line)
{
    for (uint32_t i = 0; i < all->count; i++)
        for (uint32_t k = 0; k < all->items[i].count && k < line->count; k++)
            if (str_eq(all->items[i].items[k].text, line->items[k].text)) return true;
    return false;
}

void check_typed_lines(reader *r, const texts_list *own, span at, str name)
{
    for (uint32_t i = 0; i < r->book->procedure_count && r->site_file == NO_FILE; i++) {
        const procedure *p = &r->book->procedures[i];
        bool same = false;
        for (uint32_t k = 0; k < own->count && !same; k++)
            same = has_line(&p->isolate, &own->items[k]);
        if (!same) continue;
        fault *f = fault_add(r->list, FAULT_ISOLATED_BY_HAND, at,
                             "'%.*s' isolates by lines that the procedure '%.*s' says too.",
                             STR_ARG(name), STR_ARG(p->of.base));
        fault_help(r->list, f, "Write 'procedure: %.*s' instead of them.", STR_ARG(p->of.base));
        return;
    }
}
