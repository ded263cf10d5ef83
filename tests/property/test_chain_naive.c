/* Random rules under random answers: working memory against the slow reading of the same rules,
 * step by step. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "luck.h"
#include "rule_kit.h"

enum {
    RULE_SETS = 2500,
    STEPS = 14,
    FINDINGS_MOST = 6,
    ATOMS_MOST = 14,
    BODIES_MOST = 24,
    ROOM = 64
};

static uint64_t seed;

static uint32_t below(uint32_t limit)
{
    return luck_below(&seed, limit);
}

/* What is made up, and levels that keep negation downward: level[atom]. */
typedef struct world {
    rule_kit k;
    uint32_t level[ROOM];
    bool any_level; /* negation anywhere */
} world;

static const expr *random_expr(world *w, uint32_t level, bool negated, uint32_t depth);

static const expr *random_leaf(world *w)
{
    uint32_t f = below(w->k.finding_count);
    if (below(5) == 0) return kit_known(&w->k, f);
    return kit_is(&w->k, f, (state_mask)below(1u << w->k.findings[f].states));
}

/* An atom that may stand here: at or beneath the level, beneath it under negation. */
static const expr *random_atom(world *w, uint32_t level, bool negated)
{
    for (int tries = 0; tries < 8; tries++) {
        uint32_t a = below(w->k.atom_count);
        if (w->any_level || w->level[a] < level || (w->level[a] == level && !negated))
            return kit_needs(&w->k, a);
    }
    return random_leaf(w);
}

static const expr *random_expr(world *w, uint32_t level, bool negated, uint32_t depth)
{
    uint32_t kind = below(depth == 0 ? 4 : 9);
    if (kind < 2) return random_leaf(w);
    if (kind < 4) return random_atom(w, level, negated);
    if (kind == 4) return kit_not(&w->k, random_expr(w, level, !negated, depth - 1));
    const expr *parts[4];
    uint32_t count = below(5);
    for (uint32_t i = 0; i < count; i++) parts[i] = random_expr(w, level, negated, depth - 1);
    if (kind == 5) return expr_at_least(w->k.keep, below(count + 4), parts, count, span_nowhere());
    return expr_many(w->k.keep, kind == 6 ? EXPR_ANY : EXPR_ALL, parts, count, span_nowhere());
}

static world random_world(bool any_level)
{
    world w = {.k = kit_new(ROOM), .any_level = any_level};
    uint32_t findings = 1 + below(FINDINGS_MOST), atoms = 1 + below(ATOMS_MOST),
             bodies = below(BODIES_MOST);
    uint32_t levels = 1 + below(4);
    for (uint32_t i = 0; i < findings; i++) kit_finding(&w.k, "finding", 1 + below(5));
    for (uint32_t i = 0; i < atoms; i++) {
        char name[16];
        snprintf(name, sizeof name, "a%u", (unsigned)i);
        w.level[kit_atom(&w.k, name)] = below(levels);
    }
    for (uint32_t i = 0; i < bodies; i++) {
        uint32_t a = below(atoms);
        kit_body(&w.k, a, random_expr(&w, w.level[a], false, 3));
    }
    return w;
}

/* The same rules with atoms and bodies in another order. */
typedef struct shuffled {
    rule_kit k;
    uint32_t atom[ROOM]; /* old to new */
} shuffled;

static void shuffle(uint32_t *items, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) items[i] = i;
    for (uint32_t i = count; i > 1; i--) {
        uint32_t j = below(i), t = items[i - 1];
        items[i - 1] = items[j];
        items[j] = t;
    }
}

static const expr *renamed(shuffled *s, const expr *e)
{
    expr *copy = ARENA_NEW(s->k.keep, expr);
    const expr **parts = ARENA_ARRAY(s->k.keep, const expr *, e->count);
    *copy = *e;
    for (uint32_t i = 0; i < e->count; i++) parts[e->count - 1 - i] = renamed(s, e->parts[i]);
    if (e->count > 0) copy->parts = parts;
    if (e->kind == EXPR_ATOM) copy->subject = s->atom[e->subject];
    return copy;
}

static shuffled shuffled_world(const world *w)
{
    shuffled s = {.k = kit_new(ROOM)};
    uint32_t order[ROOM];
    shuffle(s.atom, w->k.atom_count);
    shuffle(order, w->k.body_count);
    for (uint32_t f = 0; f < w->k.finding_count; f++)
        kit_finding(&s.k, "finding", w->k.findings[f].states);
    for (uint32_t a = 0; a < w->k.atom_count; a++) kit_atom(&s.k, "atom");
    for (uint32_t i = 0; i < w->k.body_count; i++) {
        const logic_body *b = &w->k.bodies[order[i]];
        kit_body(&s.k, s.atom[b->atom], renamed(&s, b->when));
    }
    return s;
}

/* What has been told so far. */
typedef struct told {
    state_mask possible[FINDINGS_MOST];
    bool known[FINDINGS_MOST];
} told;

static state_mask all_states(const world *w, uint32_t f)
{
    return ((state_mask)1 << w->k.findings[f].states) - 1;
}

static told nothing_told(const world *w)
{
    told t = {{0}, {false}};
    for (uint32_t f = 0; f < w->k.finding_count; f++) t.possible[f] = all_states(w, f);
    return t;
}

/* An answer, a change, a partial answer or a retraction. */
static uint32_t random_telling(const world *w, told *t)
{
    uint32_t f = below(w->k.finding_count), kind = below(4);
    t->known[f] = kind < 2;
    t->possible[f] = all_states(w, f);
    if (kind < 2) t->possible[f] = (state_mask)1 << below(w->k.findings[f].states);
    if (kind == 2) t->possible[f] = 1 + below((uint32_t)all_states(w, f));
    if (kind == 2 && below(4) == 0) t->known[f] = true;
    return f;
}

static void compare(rule_kit *k, const logic *l, const working_memory *m, const told *t,
                    uint32_t set)
{
    truth expected[ROOM];
    wm_naive(k->scratch, l, t->possible, t->known, expected);
    for (uint32_t a = 0; a < k->atom_count; a++)
        if (wm_truth(m, a) != expected[a])
            fail_msg("rule set %u, atom %u: %d, wanted %d", set, a, (int)wm_truth(m, a),
                     (int)expected[a]);
}

static void compare_changes(working_memory *m, const truth *before, uint32_t atoms)
{
    uint32_t count, next = 0;
    const uint32_t *changes = wm_changes(m, &count);
    for (uint32_t a = 0; a < atoms; a++) {
        if (wm_truth(m, a) == before[a]) continue;
        assert_true(next < count);
        assert_int_equal(changes[next++], a);
    }
    assert_int_equal(next, count);
}

/* With only the findings of the justification told, the atom has the same truth. */
static void check_why(rule_kit *k, const world *w, const logic *l, const working_memory *m,
                      const told *t, uint32_t atom)
{
    justification why = wm_why(m, k->scratch, atom);
    told less = nothing_told(w);
    truth out[ROOM];
    for (uint32_t i = 0; i < why.finding_count; i++) {
        uint32_t f = why.findings[i];
        less.possible[f] = t->possible[f];
        less.known[f] = t->known[f];
        for (uint32_t j = 0; j < i; j++) assert_int_not_equal(why.findings[j], f);
    }
    for (uint32_t i = 0; i < why.atom_count; i++) {
        assert_int_not_equal(why.atoms[i], atom);
        for (uint32_t j = 0; j < i; j++) assert_int_not_equal(why.atoms[j], why.atoms[i]);
    }
    wm_naive(k->scratch, l, less.possible, less.known, out);
    if (wm_truth(m, atom) != TRUTH_UNKNOWN) assert_int_equal(out[atom], wm_truth(m, atom));
    if (wm_truth(m, atom) == TRUTH_UNKNOWN) assert_true(why.finding_count > 0);
    if (wm_truth(m, atom) != TRUTH_TRUE)
        assert_int_equal(why.body, UINT32_MAX);
    else
        assert_int_equal(k->bodies[why.body].atom, atom);
}

/* A justification is the same however the answers came. */
static void check_same_why(rule_kit *k, const working_memory *m, const logic *l, const told *t,
                           uint32_t atom)
{
    working_memory *fresh = wm_new(k->scratch, l);
    for (uint32_t f = k->finding_count; f-- > 0;) wm_set(fresh, f, t->possible[f], t->known[f]);
    justification a = wm_why(m, k->scratch, atom), b = wm_why(fresh, k->scratch, atom);
    assert_int_equal(a.body, b.body);
    assert_int_equal(a.finding_count, b.finding_count);
    assert_int_equal(a.atom_count, b.atom_count);
    assert_memory_equal(a.findings, b.findings, a.finding_count * sizeof *a.findings);
    assert_memory_equal(a.atoms, b.atoms, a.atom_count * sizeof *a.atoms);
}

static void run_steps(world *w, const logic *l, shuffled *s, const logic *other, uint32_t set)
{
    told t = nothing_told(w);
    truth before[ROOM];
    working_memory *m = wm_new(w->k.keep, l), *n = wm_new(s->k.keep, other);
    compare(&w->k, l, m, &t, set);
    for (uint32_t a = 0; a < w->k.atom_count; a++) before[a] = wm_truth(m, a);
    for (uint32_t i = 0; i < STEPS; i++) {
        arena_mark mark = arena_here(w->k.scratch);
        uint32_t f = random_telling(w, &t);
        wm_set(m, f, t.possible[f], t.known[f]);
        wm_set(n, f, t.possible[f], t.known[f]);
        compare(&w->k, l, m, &t, set);
        for (uint32_t a = 0; a < w->k.atom_count; a++)
            assert_int_equal(wm_truth(n, s->atom[a]), wm_truth(m, a));
        compare_changes(m, before, w->k.atom_count);
        for (uint32_t a = 0; a < w->k.atom_count; a++) check_why(&w->k, w, l, m, &t, a);
        check_same_why(&w->k, m, l, &t, below(w->k.atom_count));
        if (below(2) == 0) {
            wm_changes_seen(m);
            for (uint32_t a = 0; a < w->k.atom_count; a++) before[a] = wm_truth(m, a);
        }
        arena_back_to(w->k.scratch, mark);
    }
}

static void stratified_rules_agree(void **state)
{
    (void)state;
    seed = UINT64_C(0x9E3779B97F4A7C15);
    for (uint32_t set = 0; set < RULE_SETS; set++) {
        world w = random_world(false);
        const logic *l = kit_build(&w.k);
        assert_non_null(l);
        assert_int_equal(kit_faults(&w.k), 0);
        shuffled s = shuffled_world(&w);
        const logic *other = kit_build(&s.k);
        assert_non_null(other);
        run_steps(&w, l, &s, other, set);
        kit_free(&s.k);
        kit_free(&w.k);
    }
}

/* reach[a][b]: a needs b; against[a][b]: through a name that a's condition negates. */
typedef struct needs {
    bool reach[ROOM][ROOM], against[ROOM][ROOM];
} needs;

static void add_needs(needs *n, uint32_t atom, const expr *e, bool negated)
{
    if (e->kind == EXPR_ATOM) {
        n->reach[atom][e->subject] = true;
        if (negated) n->against[atom][e->subject] = true;
    }
    for (uint32_t i = 0; i < e->count; i++)
        add_needs(n, atom, e->parts[i], negated != (e->kind == EXPR_NOT));
}

static bool has_bad_loop(const rule_kit *k)
{
    static needs n;
    memset(&n, 0, sizeof n);
    for (uint32_t i = 0; i < k->body_count; i++)
        add_needs(&n, k->bodies[i].atom, k->bodies[i].when, false);
    for (uint32_t v = 0; v < k->atom_count; v++)
        for (uint32_t a = 0; a < k->atom_count; a++)
            for (uint32_t b = 0; b < k->atom_count; b++)
                if (n.reach[a][v] && n.reach[v][b]) n.reach[a][b] = true;
    for (uint32_t a = 0; a < k->atom_count; a++)
        for (uint32_t b = 0; b < k->atom_count; b++)
            if (n.against[a][b] && (a == b || n.reach[b][a])) return true;
    return false;
}

static void loops_through_negation_are_refused(void **state)
{
    (void)state;
    uint32_t refused = 0, taken = 0;
    seed = UINT64_C(0xD1B54A32D192ED03);
    for (uint32_t set = 0; set < RULE_SETS; set++) {
        world w = random_world(true);
        bool bad = has_bad_loop(&w.k);
        const logic *l = kit_build(&w.k);
        assert_int_equal(l == NULL, bad);
        if (bad) assert_int_equal(kit_fault(&w.k, 0)->code, FAULT_LOOP_THROUGH_NOT);
        refused += bad;
        taken += !bad;
        kit_free(&w.k);
    }
    assert_true(refused > RULE_SETS / 10);
    assert_true(taken > RULE_SETS / 10);
}

/* Every way to answer: states, and "not known" everywhere. */
static bool next_answers(const world *w, told *t, uint32_t *choice)
{
    for (uint32_t f = 0; f < w->k.finding_count; f++) {
        uint32_t states = w->k.findings[f].states;
        choice[f] = (choice[f] + 1) % (states + 1);
        t->known[f] = choice[f] != 0;
        t->possible[f] = choice[f] == 0 ? all_states(w, f) : (state_mask)1 << (choice[f] - 1);
        if (choice[f] != 0) return true;
    }
    return false;
}

static bool can_meet(world *w, const logic *l, uint32_t a, uint32_t b)
{
    told t = nothing_told(w);
    uint32_t choice[FINDINGS_MOST] = {0};
    truth out[ROOM];
    do {
        wm_naive(w->k.scratch, l, t.possible, t.known, out);
        if (out[a] == TRUTH_TRUE && out[b] == TRUTH_TRUE) return true;
    } while (next_answers(w, &t, choice));
    return false;
}

static void clashes_are_found(void **state)
{
    (void)state;
    uint32_t clashing = 0, peaceful = 0;
    seed = UINT64_C(0xA24BAED4963EE407);
    for (uint32_t set = 0; set < RULE_SETS / 4; set++) {
        world w = random_world(false);
        const uint32_t pair[2] = {below(w.k.atom_count), w.k.atom_count - 1};
        const logic *free_of_groups = kit_build(&w.k);
        assert_non_null(free_of_groups);
        if (pair[0] != pair[1]) {
            bool meet = can_meet(&w, free_of_groups, pair[0], pair[1]);
            kit_group(&w.k, "group", pair, 2);
            assert_int_equal(kit_build(&w.k) == NULL, meet);
            assert_int_equal(kit_faults(&w.k), meet ? 1 : 0);
            if (meet) assert_int_equal(kit_fault(&w.k, 0)->code, FAULT_VALUES_CLASH);
            clashing += meet;
            peaceful += !meet;
        }
        kit_free(&w.k);
    }
    assert_true(clashing > RULE_SETS / 40);
    assert_true(peaceful > RULE_SETS / 40);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stratified_rules_agree),
        cmocka_unit_test(loops_through_negation_are_refused),
        cmocka_unit_test(clashes_are_found),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
