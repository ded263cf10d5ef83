/* Quantities in a case: reckoned afresh from the readings after every change, so nothing about them
 * is kept or undone. */
#include <assert.h>
#include <math.h>

#include "session/session.h"

/* Readings as they are now, or as they count as evidence: while a fix changes a setting, that is
 * how it was found. */
typedef struct reckoning {
    const tt_case *c;
    bool as_evidence;
    const reply *const *quantities; /* [question] quantities as reckoned so far, null: not known;
                                       nobody looks at the other questions' */
    known_replies known;
} reckoning;

static bool is_quantity(const tt_case *c, uint32_t question)
{
    assert(question < c->book->book->question_count);
    return c->book->book->questions[question].kind == QUESTION_QUANTITY;
}

/* What somebody said of the quantity itself stands, unless it was "not sure" or a fix has changed
 * things since. */
static bool stands(const tt_case *c, uint32_t quantity)
{
    const reply *r = c->now.replies[quantity];
    return r != NULL && r->kind != REPLY_UNSURE && !c->now.reckoned[quantity] &&
           !c->now.stale[quantity];
}

/* What counts for a question, or null while it is not known. */
static const reply *reply_to(const reckoning *k, uint32_t question)
{
    const tt_case *c = k->c;
    if (is_quantity(c, question) && !stands(c, question)) return k->quantities[question];
    if (k->as_evidence && adjust_holds(c, question))
        return c->now.adjust.stale[question] ? NULL : c->now.adjust.replies[question];
    return c->now.stale[question] ? NULL : c->now.replies[question];
}

static const reply *reply_known(void *context, uint32_t question)
{
    return reply_to(context, question);
}

static void reckon_with(reckoning *k, const tt_case *c, bool as_evidence,
                        const reply *const *quantities)
{
    *k = (reckoning){c, as_evidence, quantities, {c->book->prog, reply_known, k}};
}

static truth truth_of(const reckoning *k, const cond *c)
{
    return cond_truth(&k->known, c);
}

/* Nobody reckons it from what is read now: it is told of a reading that stands. */
static const reply *trend_now(tt_case *c, uint32_t question)
{
    const uint32_t reading = c->book->book->questions[question].judged;
    const bool told =
        c->now.trend_told[reading] && c->now.replies[reading] != NULL && !c->now.stale[reading];
    if (!told) return NULL;
    reply *r = ARENA_NEW(c->derived, reply);
    *r = (reply){.kind = REPLY_READING,
                 .question = question,
                 .at = span_nowhere(),
                 .number = (double)c->now.trends[reading]};
    return r;
}

static const reply *reckoned(tt_case *c, const reckoning *k, uint32_t question, formula_lack *why)
{
    if (c->book->book->questions[question].trend) return trend_now(c, question);
    reply *r = ARENA_NEW(c->derived, reply);
    return quantity_reckoned(&k->known, question, r, why) ? r : NULL;
}

static void reckon_all(tt_case *c, bool as_evidence, const reply **out, formula_lack *why)
{
    const book *b = c->book->book;
    reckoning k;
    reckon_with(&k, c, as_evidence, out);
    for (uint32_t i = 0; i < b->reckon_count; i++) {
        uint32_t q = b->reckon_order[i];
        if (!stands(c, q)) out[q] = reckoned(c, &k, q, &why[q]);
    }
}

/* "Not sure" of a quantity is kept while its readings don't tell: then nobody is asked for them. */
static bool said_unsure(const tt_case *c, uint32_t quantity)
{
    const reply *r = c->now.replies[quantity];
    return r != NULL && r->kind == REPLY_UNSURE && !c->now.reckoned[quantity] &&
           !c->now.stale[quantity];
}

static void take_reckoned(tt_case *c, uint32_t quantity, const reply *now, const reply *evidence)
{
    assert(is_quantity(c, quantity));
    if (now == NULL && evidence == NULL && said_unsure(c, quantity)) return;
    c->now.reckoned[quantity] = true;
    c->now.replies[quantity] = now;
    c->now.reckoned_evidence[quantity] = evidence;
    c->now.cannot[quantity] = c->now.stale[quantity] = false;
    c->now.weights[quantity] =
        evidence == NULL ? NULL : reply_weights(c->derived, c->book->prog, evidence);
}

void case_reckon(tt_case *c)
{
    const book *b = c->book->book;
    if (b->reckon_count == 0) return;
    const reply **now = ARENA_ARRAY(c->derived, const reply *, b->question_count);
    const reply **evidence = ARENA_ARRAY(c->derived, const reply *, b->question_count);
    formula_lack *why = ARENA_ARRAY(c->derived, formula_lack, b->question_count);
    reckon_all(c, true, evidence, why);
    for (uint32_t i = 0; i < b->reckon_count; i++)
        why[b->reckon_order[i]] =
            FORMULA_LACKS_NOTHING; /* what is told is why it has no value now */
    reckon_all(c, false, now, why);
    for (uint32_t i = 0; i < b->reckon_count; i++) {
        uint32_t q = b->reckon_order[i];
        c->now.undefined[q] = why[q];
        if (!stands(c, q)) take_reckoned(c, q, now[q], evidence[q]);
    }
}

/* ---- what is missing ---- */

typedef enum walked { WALKED_NOT, WALKED, WALKED_IN_VAIN } walked;

typedef struct missing {
    tt_case *c;
    reckoning k;
    uint32_t *items, count;
    walked *walks;                  /* [question] quantities walked down: many may rest on one */
    uint32_t *walked, walked_count; /* those in turn */
    bool hopeless; /* a number it needs was answered "not sure", or has no value: the others would
                      not make it known */
} missing;

static void add_missing(missing *m, uint32_t question);

static bool holds(const uint32_t *items, uint32_t count, uint32_t item)
{
    for (uint32_t i = 0; i < count; i++)
        if (items[i] == item) return true;
    return false;
}

/* What was found since then counts for nothing: those that were walked for it must be walked again
 * where another rests on them. */
static void drop(missing *m, uint32_t count, uint32_t walked_count)
{
    assert(count <= m->count && walked_count <= m->walked_count);
    m->count = count;
    while (m->walked_count > walked_count) {
        walked *w = &m->walks[m->walked[--m->walked_count]];
        if (*w == WALKED) *w = WALKED_NOT;
    }
}

/* One of several that may decide: where nobody can tell, another may. False: this one can't. */
static bool add_of_leaf(missing *m, uint32_t question)
{
    const uint32_t before = m->count, walked_before = m->walked_count;
    const bool hopeless = m->hopeless;
    if (reply_to(&m->k, question) != NULL) return false;
    m->hopeless = false;
    add_missing(m, question);
    const bool decides = !m->hopeless;
    if (!decides) drop(m, before, walked_before);
    m->hopeless = hopeless;
    return decides;
}

static bool add_of_condition(missing *m, const cond *c)
{
    bool leaf = c->kind == COND_ANSWER || c->kind == COND_RANGE || c->kind == COND_KNOWN;
    bool decides = leaf && add_of_leaf(m, c->subject);
    for (uint32_t i = 0; i < c->count; i++) decides |= add_of_condition(m, c->parts[i]);
    return decides;
}

static void add_of_formula(missing *m, const formula *f)
{
    uint32_t count;
    const uint32_t *subjects = formula_subjects(f, &count);
    for (uint32_t i = 0; i < count; i++) add_missing(m, subjects[i]);
}

static void add_of_quantity(missing *m, const struct question *q)
{
    for (uint32_t i = 0; i < q->case_count; i++) {
        truth t = q->cases[i].when == NULL ? TRUTH_TRUE : truth_of(&m->k, q->cases[i].when);
        if (t == TRUTH_FALSE) continue;
        if (t == TRUTH_TRUE)
            add_of_formula(m, q->cases[i].is);
        else
            m->hopeless |= !add_of_condition(m, q->cases[i].when);
        return;
    }
    m->hopeless = true; /* no case holds */
}

static void add_of_walk(missing *m, uint32_t quantity)
{
    const bool hopeless = m->hopeless;
    m->hopeless = m->walks[quantity] == WALKED_IN_VAIN ||
                  m->c->now.undefined[quantity] != FORMULA_LACKS_NOTHING;
    if (m->walks[quantity] == WALKED_NOT && !m->hopeless)
        add_of_quantity(m, &m->c->book->book->questions[quantity]);
    if (m->walks[quantity] == WALKED_NOT) m->walked[m->walked_count++] = quantity;
    m->walks[quantity] = m->hopeless ? WALKED_IN_VAIN : WALKED;
    m->hopeless |= hopeless;
}

static void add_missing(missing *m, uint32_t question)
{
    const tt_case *c = m->c;
    const struct question *q = &c->book->book->questions[question];
    const reply *r = reply_to(&m->k, question);
    if (r != NULL) {
        m->hopeless |= q->kind != QUESTION_CHOICE && r->kind != REPLY_READING;
        return;
    }
    if (q->kind == QUESTION_QUANTITY)
        add_of_walk(m, question);
    else if (!holds(m->items, m->count, question))
        m->items[m->count++] = question;
}

/* The first fact that would decide whether a reading applies and that can be asked at once, or
 * NO_ID. */
static uint32_t fact_before(tt_case *c, uint32_t question)
{
    uint32_t atom = c->book->prog->ask_atom[question];
    if (!case_could_ask(c, question) || case_truth(c, atom) != TRUTH_UNKNOWN) return NO_ID;
    justification why = wm_why(c->memory, c->derived, atom);
    for (uint32_t i = 0; i < why.finding_count; i++)
        if (!is_quantity(c, why.findings[i]) && case_may_ask(c, why.findings[i]))
            return why.findings[i];
    return NO_ID;
}

bool case_missing(tt_case *c, uint32_t quantity, ids *out)
{
    assert(is_quantity(c, quantity));
    uint32_t room = c->book->book->questions[quantity].beneath.count + 1, count = 0;
    missing m = {.c = c, .items = ARENA_ARRAY(c->derived, uint32_t, room)};
    reckon_with(&m.k, c, false, c->now.replies);
    arena_mark here = arena_here(c->scratch);
    m.walks = ARENA_ARRAY(c->scratch, walked, c->book->book->question_count);
    m.walked = ARENA_ARRAY(c->scratch, uint32_t, c->book->book->reckon_count);
    add_missing(&m, quantity);
    arena_back_to(c->scratch, here);
    if (m.hopeless || m.count == 0) return false;
    uint32_t *asked = ARENA_ARRAY(c->derived, uint32_t, 2 * (size_t)room);
    for (uint32_t i = 0; i < m.count; i++) {
        uint32_t fact = case_may_ask(c, m.items[i]) ? m.items[i] : fact_before(c, m.items[i]);
        if (fact == NO_ID) return false;
        if (!holds(asked, count, fact)) asked[count++] = fact;
        if (!holds(asked, count, m.items[i])) asked[count++] = m.items[i];
    }
    assert(count > 0 && count <= 2 * room);
    *out = (ids){asked, count};
    return true;
}

uint32_t case_asks_for(tt_case *c, uint32_t question)
{
    ids open;
    if (!is_quantity(c, question)) return case_may_ask(c, question) ? question : NO_ID;
    return case_missing(c, question, &open) ? open.items[0] : NO_ID;
}

/* ---- what a change makes stale ---- */

/* A reading that may have changed makes the quantities over it stale, and a quantity that may have
 * changed the readings beneath it. */
void case_spread_stale(const tt_case *c, bool *stale)
{
    const book *b = c->book->book;
    for (uint32_t i = b->reckon_count; i-- > 0;) {
        const struct question *q = &b->questions[b->reckon_order[i]];
        for (uint32_t k = 0; stale[b->reckon_order[i]] && k < q->beneath.count; k++)
            stale[q->beneath.items[k]] |= b->questions[q->beneath.items[k]].about == ABOUT_FAULT;
    }
    for (uint32_t i = 0; i < b->reckon_count; i++) {
        const struct question *q = &b->questions[b->reckon_order[i]];
        for (uint32_t k = 0; k < q->beneath.count; k++)
            stale[b->reckon_order[i]] |= stale[q->beneath.items[k]];
    }
}

/* ---- facts that decide whether a question applies ---- */

uint32_t case_missing_fact(tt_case *c, uint32_t question)
{
    justification why = wm_why(c->memory, c->derived, c->book->prog->ask_atom[question]);
    for (uint32_t i = 0; i < why.finding_count; i++) {
        uint32_t f = why.findings[i],
                 ask = c->book->prog->is_evidence[f] ? NO_ID : case_asks_for(c, f);
        if (ask != NO_ID) return ask;
    }
    return NO_ID;
}
