/* What rules out danger before a case goes on (`safe`), and what is told right after that
 * (`early`). Whatever is not known to be safe counts as danger, so a gate question must be one that
 * everybody can be asked, that no rule skips, and that waits for nothing but facts. */
#include <assert.h>
#include <math.h>

#include "read/reader.h"

/* ---- the engine's own ---- */

/* Written for a piece of equipment or under a condition it may not be asked, and then nobody would
 * ask about danger. */
static bool is_always_asked(const named *e)
{
    return !e->quantity && e->of.piece == NO_ID && node_get(e->body, "safe") != NULL &&
           node_get(e->body, "only-when") == NULL;
}

static bool is_taken(const reader *r, str name)
{
    for (uint32_t s = SECTION_QUESTIONS; s <= SECTION_CONCLUSIONS; s++)
        if (base_find(r, (section)s, name) != NULL) return true;
    return false;
}

void want_our_gate(reader *r)
{
    const name_table *t = &r->tables[SECTION_QUESTIONS];
    assert(t->count == 0 || t->items != NULL);
    r->gate_wanted = true;
    for (uint32_t i = 0; i < t->count && r->gate_wanted; i++)
        r->gate_wanted = !is_always_asked(&t->items[i]);
    r->gate_name = STR("danger-now");
    for (unsigned number = 2; is_taken(r, r->gate_name); number++)
        r->gate_name = str_printf(r->keep, "danger-now-%u", number);
}

/* ---- safe ---- */

static void one_sided(reader *r, const question *q, const node *n, bool all)
{
    fault *f =
        fault_add(r->list, FAULT_GATE_ONE_SIDED, n->at,
                  all ? "Whatever is answered to '%.*s' counts as safe, so it rules nothing out."
                      : "No answer to '%.*s' is safe, so no case could go on.",
                  STR_ARG(q->id.name));
    fault_help(r->list, f,
               all ? "Name only the answers, or the range, that let the case go on."
                   : "Widen the range, or 'plausible'.");
}

static bool read_safe_answers(reader *r, const node *n, question *q)
{
    if (n->kind == NODE_MAP) { /* what is safe is said, not what isn't: an answer that is added
                                  later must not be safe by itself */
        wrong_kind(r, n, "'safe'", "the answers that are safe, each by its name");
        return false;
    }
    if (!read_mask(r, n, q->id.name, q->answers, q->answer_count, &q->safe_answers)) return false;
    assert(q->safe_answers != 0);
    if (q->safe_answers != all_answers(q->answer_count)) return true;
    one_sided(r, q, n, true);
    return false;
}

/* Of what may be read: some is safe, some is not. */
static bool has_two_sides(reader *r, const question *q, const node *n)
{
    assert(q->kind != QUESTION_CHOICE && q->safe_low <= q->safe_high);
    double least = q->has_plausible ? q->plausible_low : q->kind == QUESTION_COUNT ? 0 : -INFINITY;
    double most = q->has_plausible ? q->plausible_high : INFINITY;
    bool all = (q->safe_low < least || (q->safe_low <= least && q->safe_low_in) ||
                !(q->safe_low > -INFINITY)) &&
               (q->safe_high > most || (q->safe_high >= most && q->safe_high_in) ||
                !(q->safe_high < INFINITY));
    double low = fmax(q->safe_low, least), high = fmin(q->safe_high, most);
    bool edge = low >= high && low <= high && (low > q->safe_low || q->safe_low_in) &&
                (high < q->safe_high || q->safe_high_in);
    bool none = (!(low < high) && !edge) || isnan(safe_number(q));
    if (all || none) one_sided(r, q, n, all);
    return !all && !none;
}

static bool read_safe_range(reader *r, const node *n, question *q)
{
    cond c = {
        .kind = COND_RANGE, .at = n->at, .subject = NO_ID, .low = -INFINITY, .high = INFINITY};
    uint32_t reading = (uint32_t)(q - r->book->questions);
    assert(reading < r->book->question_count);
    r->numbers_only = true;
    bool good = read_reading_condition(r, reading, n, &c) != NULL;
    r->numbers_only = false;
    q->safe_low = c.low;
    q->safe_high = c.high;
    q->safe_low_in = c.low_in;
    q->safe_high_in = c.high_in;
    return good && has_two_sides(r, q, n);
}

static void not_for_all(reader *r, const question *q, span at, const char *why, const char *remedy)
{
    fault *f = fault_add(r->list, FAULT_GATE_NOT_FOR_ALL, at,
                         "'%.*s' rules out danger, so it is asked of everybody, but %s.",
                         STR_ARG(q->id.name), why);
    fault_help(r->list, f, "%s", remedy);
}

static bool is_of_lowest(const reader *r, const question *q)
{
    return r->book->role_count == 0 || r->book->role_level[q->role] == 0;
}

static void check_askable(reader *r, const node *map, question *q)
{
    const node *role = node_get(map, "role");
    if (role != NULL && !is_of_lowest(r, q))
        not_for_all(r, q, role->at, "not everybody may do what it asks",
                    "Leave 'role' out, and ask what anybody can see from where they stand.");
    if (q->harm.any && harm_is_high(q->harm.protected_worst, q->harm.protected_chance))
        not_for_all(r, q, q->id.at, "looking has a High risk",
                    "Ask what anybody can see from where they stand.");
    q->role = 0;
}

static void read_safe(reader *r, const node *map, const node *safe, question *q)
{
    if (q->about == ABOUT_SITE) {
        wrong_together(
            r, map, "safe",
            "a fact of the site is answered once, and danger is asked about in every call",
            "Leave it out, or write 'about: today'.");
        return;
    }
    q->gate =
        q->kind == QUESTION_CHOICE ? read_safe_answers(r, safe, q) : read_safe_range(r, safe, q);
    check_askable(r, map, q);
}

static void read_early(reader *r, const node *map, const node *early, question *q)
{
    if (!read_yes(r, early, "'early'", &q->early) || !q->early) return;
    if (node_get(map, "safe") != NULL)
        wrong_together(r, map, "early", "what rules out danger comes before anything else",
                       "Leave it out.");
    else if (q->about == ABOUT_FAULT)
        wrong_together(r, map, "early", "only facts are told right after danger is ruled out",
                       "Leave it out, or add 'about: the site' or 'about: today'.");
}

void read_gate(reader *r, const node *map, question *q)
{
    const node *safe = node_get(map, "safe"), *early = node_get(map, "early");
    if (safe != NULL) read_safe(r, map, safe, q);
    if (early != NULL) read_early(r, map, early, q);
}

/* ---- what comes before it ---- */

typedef struct waiting {
    reader *r;
    uint32_t gate;
    bool *seen;             /* [question] */
    uint32_t *facts, count; /* gone into in turn */
    uint32_t total;         /* of all gate questions */
    bool told;              /* one fault is enough for each gate question */
} waiting;

static const question *gate_of(const waiting *w)
{
    return &w->r->book->questions[w->gate];
}

/* `what` that is; "": the question itself. */
static void waits_for(waiting *w, span at, str name, const char *what)
{
    const question *q = gate_of(w);
    if (w->told) return;
    w->told = true;
    fault *f = *what == 0
                   ? fault_add(w->r->list, FAULT_GATE_WAITS, at,
                               "'%.*s' rules out danger, but would wait for its own answer.",
                               STR_ARG(name))
                   : fault_add(w->r->list, FAULT_GATE_WAITS, at,
                               "'%.*s' rules out danger, but would wait for '%.*s', which is %s.",
                               STR_ARG(q->id.name), STR_ARG(name), what);
    fault_note_at(w->r->list, f, q->id.at, "The question about danger stands here.");
    fault_help(w->r->list, f,
               "Let its 'only-when' rest on facts ('about: the site', 'about: today') and on other "
               "questions with 'safe'.");
}

static void waits_for_few(waiting *w, span at, str name)
{
    str why = str_printf(w->r->scratch, "not everybody may answer '%.*s', for which it waits",
                         STR_ARG(name));
    if (!w->told)
        not_for_all(w->r, gate_of(w), at, why.p,
                    "Leave 'role' out of that question, or that question out of the 'only-when'.");
    w->told = true;
}

static void add_fact(waiting *w, uint32_t id, span at)
{
    const question *q = &w->r->book->questions[id];
    assert(q->kind != QUESTION_QUANTITY && w->count < w->r->book->question_count);
    if (id == w->gate)
        waits_for(w, at, q->id.name, "");
    else if (!q->gate && q->about == ABOUT_FAULT && q->kind != QUESTION_QUANTITY)
        waits_for(w, at, q->id.name, "no fact");
    else if (!is_of_lowest(w->r, q))
        waits_for_few(w, at, q->id.name);
    if (w->seen[id] || w->told) return;
    w->seen[id] = true;
    w->facts[w->count++] = id;
}

/* Of a quantity the questions beneath it are asked. */
static void add_question(waiting *w, uint32_t id, span at)
{
    const question *q = &w->r->book->questions[id];
    if (q->kind != QUESTION_QUANTITY) add_fact(w, id, at);
    for (uint32_t i = 0; i < q->beneath.count; i++) add_fact(w, q->beneath.items[i], at);
}

/* Conditions are as deep as the reader lets them be. */
static void add_condition(waiting *w, const cond *c)
{
    const book *b = w->r->book;
    if (c->kind == COND_SYMPTOM) waits_for(w, c->at, b->symptoms[c->subject].id.name, "a symptom");
    if (c->kind == COND_CONCLUSION)
        waits_for(w, c->at, b->conclusions[c->subject].id.name, "a conclusion");
    if (c->kind == COND_ANSWER || c->kind == COND_RANGE || c->kind == COND_KNOWN)
        add_question(w, c->subject, c->at);
    for (uint32_t i = 0; i < c->count; i++) add_condition(w, c->parts[i]);
}

static ids facts_before(waiting *w, uint32_t gate)
{
    const question *q = &w->r->book->questions[gate];
    assert(q->gate && q->only_when != NULL);
    w->gate = gate;
    w->count = 0;
    w->told = false;
    for (uint32_t i = 0; i < w->r->book->question_count; i++) w->seen[i] = false;
    add_condition(w, gate_of(w)->only_when);
    for (uint32_t i = 0; i < w->count && !w->told; i++) {
        const cond *its = w->r->book->questions[w->facts[i]].only_when;
        if (its != NULL) add_condition(w, its);
    }
    uint32_t *items = ARENA_ARRAY(w->r->keep, uint32_t, w->count);
    for (uint32_t i = 0; i < w->count; i++) items[i] = w->facts[i];
    w->total += w->count;
    return ids_of(items, w->count);
}

static void too_many_facts(reader *r, const question *q)
{
    fault *f =
        fault_add(r->list, FAULT_TOO_MANY, q->id.at,
                  "With '%.*s' there are more than %d facts to ask before danger is ruled out.",
                  STR_ARG(q->id.name), GATE_FACTS_MAX);
    fault_help(r->list, f, "Let fewer questions with 'safe' have an 'only-when'.");
}

static void check_waiting(reader *r)
{
    const book *b = r->book;
    waiting w = {.r = r,
                 .seen = ARENA_ARRAY(r->scratch, bool, b->question_count),
                 .facts = ARENA_ARRAY(r->scratch, uint32_t, b->question_count)};
    for (uint32_t i = 0; i < b->question_count && w.total <= GATE_FACTS_MAX; i++) {
        question *q = (question *)(uintptr_t)&b->questions[i];
        if (!q->gate || q->only_when == NULL) continue;
        q->facts_first = facts_before(&w, i);
        if (w.total > GATE_FACTS_MAX) too_many_facts(r, q);
    }
}

/* ---- words of danger ---- */

static void too_many_phrases(reader *r, span at)
{
    fault *f = fault_add(r->list, FAULT_TOO_MANY, at,
                         "With these there are more than %d phrases that tell of danger%s.",
                         DANGER_PHRASES_MAX,
                         r->book->piece_count > 0 ? ", with those at each piece of equipment" : "");
    fault_help(r->list, f,
               "Write a gate question once for all pieces, or fewer phrases under 'heard' of its "
               "answers and of emergencies.");
}

/* All that people say, in every reply, is searched for each. Ours are few. */
static void count_danger_phrases(reader *r)
{
    const book *b = r->book;
    uint64_t count = 0;
    for (uint32_t i = 0; i < b->emergency_count; i++) {
        const bool fitted = count <= DANGER_PHRASES_MAX;
        if (!b->emergencies[i].ours) count += b->emergencies[i].heard.count;
        if (fitted && count > DANGER_PHRASES_MAX) too_many_phrases(r, b->emergencies[i].id.at);
    }
    for (uint32_t i = 0; i < b->question_count; i++) {
        const question *q = &b->questions[i];
        const bool fitted = count <= DANGER_PHRASES_MAX;
        for (uint32_t a = 0; q->gate && !q->ours && a < q->answer_count; a++)
            if (!answer_is_safe(q, a)) count += q->answers[a].heard.count;
        if (fitted && count > DANGER_PHRASES_MAX) too_many_phrases(r, q->id.at);
    }
}

/* ---- rules that skip ---- */

static void skipped(reader *r, const rule *by, const question *q)
{
    fault *f =
        fault_add(r->list, FAULT_GATE_SKIPPED, by->id.at,
                  "The rule '%.*s' skips '%.*s', which rules out danger: it must always be asked.",
                  STR_ARG(by->id.name), STR_ARG(q->id.name));
    fault_note_at(r->list, f, q->id.at, "The question stands here.");
    fault_help(
        r->list, f,
        "Leave it out of 'skip'; where it doesn't apply, give it an 'only-when' over facts.");
}

static void check_skips(reader *r)
{
    for (uint32_t i = 0; i < r->book->rule_count; i++) {
        const rule *one = &r->book->rules[i];
        for (uint32_t k = 0; k < one->skip_questions.count; k++) {
            const question *q = &r->book->questions[one->skip_questions.items[k]];
            if (q->gate) skipped(r, one, q);
        }
    }
}

void check_gates(reader *r)
{
    assert(r->gate_wanted == (r->book->our_gate != NO_ID));
    check_waiting(r);
    count_danger_phrases(r);
    check_skips(r);
}
