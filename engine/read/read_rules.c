/* Conclusions, and the rules that set them. */
#include <assert.h>

#include "base/sorted.h"
#include "read/reader.h"

/* ---- conclusions ---- */

static bool read_conclusion(reader *r, const node *map, conclusion *k)
{
    if (!check_map(r, map, KEYS_CONCLUSION)) return false;
    read_keys(r, map, k->id, KEYS_CONCLUSION, k);
    const node *answers = node_get(map, "answers");
    answer_option *options = NULL;
    const uint32_t *order;
    bool good = true;
    if (answers == NULL)
        yes_no_options(r, k->id.at, false, &options, &k->answer_count);
    else
        good = read_answer_options(r, answers, k->id, &options, &k->answer_count, &order);
    k->answers = options;
    return good;
}

void read_conclusions(reader *r)
{
    const name_table *t = &r->tables[SECTION_CONCLUSIONS];
    conclusion *conclusions = ARENA_ARRAY(r->keep, conclusion, t->count);
    r->book->conclusions = conclusions;
    r->book->conclusion_count = t->count;
    for (uint32_t i = 0; i < t->count; i++) {
        named *e = &t->items[i];
        enter(r, e);
        conclusions[i].id = e->id;
        e->broken = !read_conclusion(r, e->body, &conclusions[i]);
    }
}

/* ---- what a rule does ---- */

static int by_conclusion(const void *a, const void *b)
{
    const rule_set *x = a, *y = b;
    return (x->conclusion > y->conclusion) - (x->conclusion < y->conclusion);
}

static void read_sets(reader *r, const node *n, rule *out)
{
    assert(out->set_count == 0);
    if (n->kind != NODE_MAP) {
        wrong_kind(r, n, "'set'", "a map of conclusions to values");
        return;
    }
    rule_set *sets = ARENA_ARRAY(r->keep, rule_set, n->count);
    for (uint32_t i = 0; i < n->count; i++) {
        const node_entry *e = &n->entries[i];
        uint32_t id = resolve(r, SECTION_CONCLUSIONS, e->key, e->key_at);
        if (id == NO_ID || r->tables[SECTION_CONCLUSIONS].items[id].broken) continue;
        const conclusion *k = &r->book->conclusions[id];
        uint32_t answer = read_option(r, e->value, k->id.name, k->answers, k->answer_count);
        if (answer != NO_ID) sets[out->set_count++] = (rule_set){id, answer, e->key_at};
    }
    SORT(sets, out->set_count, by_conclusion);
    out->sets = sets;
}

static int by_factor_cause(const void *a, const void *b)
{
    const rule_factor *x = a, *y = b;
    if (x->cause != y->cause) return x->cause < y->cause ? -1 : 1;
    return (x->at.start > y->at.start) - (x->at.start < y->at.start);
}

/* One name may stand for many causes, so room is made as they come. */
typedef struct factor_draft {
    rule_factor *items;
    uint32_t count, room;
} factor_draft;

static void add_factor(reader *r, factor_draft *all, const names_found *causes, double times,
                       span at)
{
    if (all->count + causes->count > all->room) {
        all->room = (all->count + causes->count) * 2;
        rule_factor *items = ARENA_ARRAY(r->keep, rule_factor, all->room);
        for (uint32_t i = 0; i < all->count; i++) items[i] = all->items[i];
        all->items = items;
    }
    for (uint32_t i = 0; i < causes->count; i++)
        all->items[all->count++] = (rule_factor){causes->ids[i], times, at};
}

static void add_factors(reader *r, const node *n, const char *what, bool likelier,
                        factor_draft *all)
{
    if (n->kind != NODE_MAP) {
        wrong_kind(r, n, what, "a map of causes, such as {cause: 3 times}");
        return;
    }
    for (uint32_t i = 0; i < n->count; i++) {
        const node_entry *e = &n->entries[i];
        double times = 1;
        names_found found;
        bool known = resolve_many(r, SECTION_CAUSES, e->key, e->key_at, &found);
        if (!read_times(r, e->value, &times) || !known) continue;
        add_factor(r, all, &found, likelier ? times : 1 / times, e->key_at);
    }
}

static void add_ruled_out(reader *r, const node *n, factor_draft *all)
{
    if (n->kind != NODE_LIST) {
        wrong_kind(r, n, "'rule-out'", "a list of causes");
        return;
    }
    for (uint32_t i = 0; i < n->count; i++) {
        str name;
        if (!read_word(r, n->items[i], "a cause", &name) || item_twice(r, n, i)) continue;
        names_found found;
        if (resolve_many(r, SECTION_CAUSES, name, n->items[i]->at, &found))
            add_factor(r, all, &found, 0, n->items[i]->at);
    }
}

static void check_one_factor(reader *r, const rule_factor *factors, uint32_t count)
{
    assert(count == 0 || factors != NULL);
    for (uint32_t i = 1; i < count; i++) {
        if (factors[i].cause != factors[i - 1].cause) continue;
        fault *f = fault_add(r->list, FAULT_FACTOR_TWICE, factors[i].at,
                             "One rule says two things about the cause '%.*s'.",
                             STR_ARG(r->book->causes[factors[i].cause].id.name));
        fault_note_at(r->list, f, factors[i - 1].at, "The other one stands here.");
        fault_help(r->list, f, "Keep one of them.");
    }
}

static void read_factors(reader *r, const node *then, rule *out)
{
    const node *likelier = node_get(then, "likelier"), *less = node_get(then, "less-likely"),
               *rule_out = node_get(then, "rule-out");
    factor_draft all = {0};
    if (likelier != NULL) add_factors(r, likelier, "'likelier'", true, &all);
    if (less != NULL) add_factors(r, less, "'less-likely'", false, &all);
    if (rule_out != NULL) add_ruled_out(r, rule_out, &all);
    SORT(all.items, all.count, by_factor_cause);
    check_one_factor(r, all.items, all.count);
    out->factors = all.items;
    out->factor_count = all.count;
}

static void no_such_skip(reader *r, str name, span at)
{
    const name_table *q = &r->bases[SECTION_QUESTIONS], *f = &r->bases[SECTION_FIXES];
    if (missing_before(r, SECTION_FIXES, name)) return;
    arena_mark here = arena_here(r->scratch);
    str *names = ARENA_ARRAY(r->scratch, str, q->count + f->count);
    for (uint32_t i = 0; i < q->count; i++) names[i] = q->names[i];
    for (uint32_t i = 0; i < f->count; i++) names[q->count + i] = f->names[i];
    if (!may_be_lost(r, name, names, q->count + f->count)) {
        fault *missing = fault_add(r->list, FAULT_UNKNOWN_NAME, at,
                                   "There is no question or fix '%.*s' to skip.", STR_ARG(name));
        suggest_name(r, missing, name, names, q->count + f->count);
    }
    arena_back_to(r->scratch, here);
}

static void read_skip(reader *r, const node *n, rule *out)
{
    if (n->kind != NODE_LIST) {
        wrong_kind(r, n, "'skip'", "a list of questions and fixes");
        return;
    }
    ids_draft questions = {0}, fixes = {0};
    for (uint32_t i = 0; i < n->count; i++) {
        str name;
        if (!read_word(r, n->items[i], "a question or fix", &name) || item_twice(r, n, i)) continue;
        names_found found;
        look_up_state q = look_up(r, SECTION_QUESTIONS, name, n->items[i]->at, &found);
        if (q == LOOK_UP_FOUND) ids_add(r, &questions, &found);
        look_up_state f = look_up(r, SECTION_FIXES, name, n->items[i]->at, &found);
        if (f == LOOK_UP_FOUND) ids_add(r, &fixes, &found);
        if (q == LOOK_UP_MISSING && f == LOOK_UP_MISSING) no_such_skip(r, name, n->items[i]->at);
    }
    out->skip_questions = ids_of(questions.items, questions.count);
    out->skip_fixes = ids_of(fixes.items, fixes.count);
}

static void holds_missing(reader *r, const node *n, const rule *out)
{
    fault *f = fault_add(r->list, FAULT_MISSING_KEY, n->at,
                         "The caution of '%.*s' does not say which fixes it holds back.",
                         STR_ARG(base_of_name(out->id.name)));
    fault_help(r->list, f,
               "Add 'holds:' with the fixes that nobody may be offered while it stands, or 'holds: "
               "none'.");
}

/* What is grave enough for such a word is grave enough to say what must not be done meanwhile. */
static void read_holds(reader *r, const node *n, rule *out)
{
    const node *holds = node_get(n, "holds");
    const bool grave = out->signal == SIGNAL_DANGER || out->signal == SIGNAL_WARNING;
    if (holds == NULL && grave && !out->stops) holds_missing(r, n, out);
    if (holds == NULL || (holds->kind == NODE_TEXT && str_is(str_trim(holds->text), "none")))
        return;
    out->holds = read_ids(r, SECTION_FIXES, holds, "'holds'");
}

static void read_caution(reader *r, const node *n, rule *out)
{
    static const char *const signals[] = {"danger", "warning", "caution", "notice", NULL};
    out->has_caution = true;
    out->signal = SIGNAL_CAUTION;
    if (n->kind != NODE_MAP || (node_get(n, "signal") == NULL && node_get(n, "text") == NULL)) {
        read_headed(r, n, "'caution'", &out->caution);
        return;
    }
    check_map(r, n, KEYS_CAUTION);
    read_keys(r, n, (label){STR(""), n->at}, KEYS_CAUTION, out);
    const node *signal = node_get(n, "signal");
    uint32_t word = signal == NULL ? NO_ID : read_choice(r, signal, "a signal", signals);
    if (word != NO_ID) out->signal = (signal_word)word;
    read_holds(r, n, out);
}

static void read_stop(reader *r, const node *then, rule *out)
{
    assert(out->call == NO_ID);
    const node *stop = node_get(then, "stop"), *call = node_get(then, "call");
    out->stops = stop != NULL;
    if (stop != NULL) read_headed(r, stop, "'stop'", &out->stop);
    if (call == NULL) return;
    out->call = resolve_role(r, call);
    if (stop != NULL) return;
    fault *f =
        fault_add(r->list, FAULT_CALL_WITHOUT_STOP, call->at,
                  "'call' says whom to call once the work is stopped, but there is no 'stop'.");
    fault_help(r->list, f,
               "Add 'stop' with a sentence on how to stop safely, or leave 'call' out.");
}

static void read_then(reader *r, const node *then, rule *out)
{
    assert(out->factor_count == 0 && !out->has_caution);
    if (!check_map(r, then, KEYS_THEN)) return;
    const node *set = node_get(then, "set"), *skip = node_get(then, "skip"),
               *caution = node_get(then, "caution");
    if (then->count == 0) {
        fault *f = fault_add(r->list, FAULT_EMPTY, then->at, "This rule does nothing.");
        fault_help(
            r->list, f,
            "Say what follows: set, rule-out, likelier, less-likely, skip, caution or stop.");
    }
    if (set != NULL) read_sets(r, set, out);
    read_factors(r, then, out);
    if (skip != NULL) read_skip(r, skip, out);
    read_stop(r, then, out);
    if (caution != NULL) read_caution(r, caution, out);
}

void read_rules(reader *r)
{
    name_table *t = &r->tables[SECTION_RULES];
    rule *rules = ARENA_ARRAY(r->keep, rule, t->count);
    r->book->rules = rules;
    r->book->rule_count = t->count;
    for (uint32_t i = 0; i < t->count; i++) {
        const node *body = t->items[i].body;
        uint32_t before = faults_met(r->list);
        t->items[i].broken = true;
        enter(r, &t->items[i]);
        rules[i] = (rule){.id = t->items[i].id, .call = NO_ID};
        if (!check_map(r, body, KEYS_RULE)) continue;
        const node *when = need(r, body, rules[i].id, KEYS_RULE, "when"),
                   *then = need(r, body, rules[i].id, KEYS_RULE, "then");
        rules[i].when = when == NULL ? NULL : read_condition(r, when);
        if (then != NULL) read_then(r, then, &rules[i]);
        t->items[i].broken = faults_met(r->list) > before;
        assert(!rules[i].stops || node_get(then, "stop") != NULL);
    }
}
