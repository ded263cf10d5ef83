/* Conditions: maps that read aloud. */
#include <assert.h>
#include <math.h>

#include "read/reader.h"

static const cond *read_map(reader *r, const node *n, uint32_t depth);

static cond *cond_new(reader *r, cond_kind kind, span at)
{
    cond *c = ARENA_NEW(r->keep, cond);
    *c = (cond){.kind = kind, .at = at, .subject = NO_ID, .low = -INFINITY, .high = INFINITY};
    return c;
}

static span entry_span(const node_entry *e)
{
    assert(e->value != NULL);
    span at = e->key_at;
    if (e->value->at.file == at.file && e->value->at.end > at.end) at.end = e->value->at.end;
    return at;
}

/* ---- groups ---- */

static void bare_list(reader *r, const node *n)
{
    fault *f =
        fault_add(r->list, FAULT_BARE_LIST, n->at,
                  "A condition is a map; a list alone does not say whether all or any must hold.");
    fault_help(
        r->list, f,
        "Write {all: [...]} or {any: [...]}; a map such as {a: yes, b: no} means all of it.");
}

static bool read_parts(reader *r, const node *n, const char *what, uint32_t depth, cond *c)
{
    if (n->kind != NODE_LIST) {
        wrong_kind(r, n, what, "a list of conditions");
        return false;
    }
    if (n->count == 0) {
        fault_add(r->list, FAULT_CONDITION_EMPTY, n->at,
                  "There is no condition in this list, so nothing could decide it.");
        return false;
    }
    const cond **parts = ARENA_ARRAY(r->keep, const cond *, n->count);
    bool good = true;
    for (uint32_t i = 0; i < n->count; i++) {
        parts[i] = read_map(r, n->items[i], depth + 1);
        good &= parts[i] != NULL;
    }
    c->parts = parts;
    c->count = n->count;
    return good;
}

static const cond *read_group(reader *r, const node_entry *e, cond_kind kind, const char *what,
                              uint32_t depth)
{
    cond *c = cond_new(r, kind, entry_span(e));
    return read_parts(r, e->value, what, depth, c) ? c : NULL;
}

static const cond *read_at_least(reader *r, const node_entry *e, uint32_t depth)
{
    static const char *const keys[] = {"count", "of", NULL};
    if (!check_words(r, e->value, "'at-least'", keys)) return NULL;
    const node *number = node_get(e->value, "count"), *of = node_get(e->value, "of");
    if (number == NULL || of == NULL) {
        fault *f = fault_add(r->list, FAULT_MISSING_KEY, e->key_at, "'at-least' has no '%s'.",
                             number == NULL ? "count" : "of");
        fault_help(r->list, f, "Write {count: 2, of: [{a: yes}, {b: yes}, {c: yes}]}.");
    }
    cond *c = cond_new(r, COND_AT_LEAST, entry_span(e));
    bool good = of != NULL && read_parts(r, of, "'of'", depth, c);
    str text;
    if (number == NULL || !read_word(r, number, "a count", &text)) return NULL;
    uint32_t most = of != NULL && of->kind == NODE_LIST ? of->count : UINT32_MAX;
    if (read_whole(text, &c->number) && c->number >= 1 && c->number <= most) return good ? c : NULL;
    if (!good) return NULL;
    fault *f = fault_add(r->list, FAULT_AT_LEAST_COUNT, number->at,
                         "'%.*s' can't be reached out of %u condition%s.", STR_ARG(text), most,
                         most == 1 ? "" : "s");
    fault_help(r->list, f, "Write a whole number from 1 to %u.", most);
    return NULL;
}

/* ---- answers of a question, values of a conclusion ---- */

bool read_mask(reader *r, const node *n, str owner, const answer_option *answers, uint32_t count,
               uint64_t *mask)
{
    assert(count <= ANSWERS_MAX);
    bool list = n->kind == NODE_LIST, good = true;
    *mask = 0;
    if (n->kind == NODE_MAP || (list && n->count == 0)) {
        fault *f =
            fault_add(r->list, FAULT_CONDITION_EMPTY, n->at,
                      "Here an answer of '%.*s' is wanted, or a list of answers.", STR_ARG(owner));
        suggest(r, f, STR(""), option_names(r->scratch, answers, count), count);
        return false;
    }
    for (uint32_t i = 0; i < (list ? n->count : 1); i++) {
        const node *item = list ? n->items[i] : n;
        uint32_t id = read_option(r, item, owner, answers, count);
        if (id == NO_ID || (list && item_twice(r, n, i)))
            good = false;
        else
            *mask |= UINT64_C(1) << id;
    }
    return good;
}

uint64_t all_answers(uint32_t count)
{
    assert(count > 0 && count <= ANSWERS_MAX);
    return count == ANSWERS_MAX ? UINT64_MAX : (UINT64_C(1) << count) - 1;
}

/* `{not: x}`: the other answers. */
static bool mask_of_others(reader *r, const node *n, str owner, const answer_option *answers,
                           uint32_t count, uint64_t *mask)
{
    static const char *const keys[] = {"not", NULL};
    if (!check_words(r, n, "The condition on an answer", keys)) return false;
    const node *not = node_get(n, "not");
    if (not == NULL) {
        if (n->count == 0)
            fault_add(r->list, FAULT_CONDITION_EMPTY, n->at, "Nothing stands between the braces.");
        return false;
    }
    if (!read_mask(r, not, owner, answers, count, mask)) return false;
    *mask = all_answers(count) & ~*mask;
    if (*mask != 0) return true;
    fault *f =
        fault_add(r->list, FAULT_EXCLUDES_ALL, n->at,
                  "This leaves no answer of '%.*s' over, so it could never hold.", STR_ARG(owner));
    fault_help(r->list, f, "Leave at least one answer out of the list.");
    return false;
}

static const cond *read_values(reader *r, const node *n, str owner, const answer_option *answers,
                               uint32_t count, cond *c)
{
    bool good = n->kind == NODE_MAP ? mask_of_others(r, n, owner, answers, count, &c->answers)
                                    : read_mask(r, n, owner, answers, count, &c->answers);
    return good ? c : NULL;
}

/* ---- what a name is compared with ---- */

static const cond *negated(reader *r, const cond *c)
{
    assert(c != NULL);
    const cond **part = ARENA_NEW(r->keep, const cond *);
    *part = c;
    cond *not = cond_new(r, COND_NOT, c->at);
    not ->parts = part;
    not ->count = 1;
    return not ;
}

static const cond *read_question_condition(reader *r, uint32_t id, const node_entry *e)
{
    assert(id < r->book->question_count);
    const question *q = &r->book->questions[id];
    const node *n = e->value;
    cond *c = cond_new(r, COND_KNOWN, entry_span(e));
    c->subject = id;
    if (n->kind == NODE_TEXT && str_is(str_trim(n->text), "known")) return c;
    if (n->kind == NODE_TEXT && str_is(str_trim(n->text), "not known")) return negated(r, c);
    if (r->tables[SECTION_QUESTIONS].items[id].broken) return NULL;
    c->kind = q->kind == QUESTION_CHOICE ? COND_ANSWER : COND_RANGE;
    if (q->kind != QUESTION_CHOICE) return read_reading_condition(r, id, n, c);
    return read_values(r, n, q->id.name, q->answers, q->answer_count, c);
}

static const cond *read_symptom_condition(reader *r, uint32_t id, const node_entry *e)
{
    assert(id < r->tables[SECTION_SYMPTOMS].count);
    cond *c = cond_new(r, COND_SYMPTOM, entry_span(e));
    c->subject = id;
    str word = e->value->kind == NODE_TEXT ? str_trim(e->value->text) : STR("");
    if (str_is(word, "shown")) return c;
    if (str_is(word, "not shown")) return negated(r, c);
    fault *f = fault_add(r->list, FAULT_SHOWN_OR_NOT, e->value->at,
                         "'%.*s' is a symptom, which is 'shown' or 'not shown'.", STR_ARG(e->key));
    fault_help(r->list, f, "Write '%.*s: shown' or '%.*s: not shown'.", STR_ARG(e->key),
               STR_ARG(e->key));
    return NULL;
}

static const cond *read_conclusion_condition(reader *r, uint32_t id, const node_entry *e)
{
    assert(id < r->book->conclusion_count);
    if (r->tables[SECTION_CONCLUSIONS].items[id].broken) return NULL;
    const conclusion *k = &r->book->conclusions[id];
    cond *c = cond_new(r, COND_CONCLUSION, entry_span(e));
    c->subject = id;
    return read_values(r, e->value, k->id.name, k->answers, k->answer_count, c);
}

static void gather_condition_names(reader *r)
{
    if (r->condition_names != NULL) return;
    uint32_t count = 0;
    for (uint32_t s = 0; s <= SECTION_CONCLUSIONS; s++) count += r->bases[s].count;
    str *names = ARENA_ARRAY(r->scratch, str, count);
    for (uint32_t s = 0; s <= SECTION_CONCLUSIONS; s++)
        for (uint32_t i = 0; i < r->bases[s].count; i++)
            names[r->condition_name_count++] = r->bases[s].names[i];
    assert(r->condition_name_count == count);
    r->condition_names = names;
}

static const cond *unknown_in_condition(reader *r, const node_entry *e)
{
    if (missing_before(r, WHERE_CONDITION, e->key)) return NULL;
    gather_condition_names(r);
    const str *names = r->condition_names;
    uint32_t count = r->condition_name_count;
    if (may_be_lost(r, e->key, names, count)) return NULL;
    const char *elsewhere = name_elsewhere(r, e->key);
    fault *f =
        elsewhere != NULL
            ? fault_add(r->list, FAULT_UNKNOWN_IN_CONDITION, e->key_at,
                        "'%.*s' is a %s; a condition is over questions, symptoms and conclusions.",
                        STR_ARG(e->key), elsewhere)
            : fault_add(r->list, FAULT_UNKNOWN_IN_CONDITION, e->key_at,
                        "There is no question, symptom or conclusion '%.*s'.", STR_ARG(e->key));
    if (str_is(e->key, "and"))
        fault_help(r->list, f,
                   "A map means all that stands in it: leave 'and' out, and its braces.");
    else if (str_is(e->key, "or"))
        fault_help(r->list, f,
                   "Write {any: [{a: yes}, {b: yes}]}; for two answers of one question, {question: "
                   "[one, other]}.");
    else
        suggest_name(r, f, e->key, names, count);
    return NULL;
}

static const cond *misplaced_not(reader *r, const node_entry *e)
{
    fault *f = fault_add(r->list, FAULT_MISPLACED_NOT, e->key_at,
                         "'not' stands under the name of a question, not before a condition.");
    fault_help(r->list, f,
               "Write {question: {not: answer}}, or {none: [...]} for whole conditions.");
    return NULL;
}

static const cond *read_ground(reader *r, section s, uint32_t id, const node_entry *e)
{
    if (s == SECTION_QUESTIONS) return read_question_condition(r, id, e);
    if (s == SECTION_SYMPTOMS) return read_symptom_condition(r, id, e);
    return read_conclusion_condition(r, id, e);
}

/* Over every or any piece: all of them, one of them. */
static const cond *read_several(reader *r, section s, const names_found *found, const node_entry *e)
{
    cond *c = cond_new(r, found->how == NAMES_ANY ? COND_ANY : COND_ALL, entry_span(e));
    const cond **parts = ARENA_ARRAY(r->keep, const cond *, found->count);
    bool good = !r->in_symptom;
    if (r->in_symptom) {
        fault *f = fault_add(
            r->list, FAULT_SEVERAL_IN_SYMPTOM, e->key_at,
            "A symptom is seen at one piece of equipment, but '%.*s' looks at all of them.",
            STR_ARG(e->key));
        fault_help(
            r->list, f,
            "Write the symptom 'for-each', with '%.*s' alone; or put this condition into a rule.",
            STR_ARG(base_of_name(e->key)));
    }
    for (uint32_t i = 0; i < found->count; i++) {
        parts[i] = read_ground(r, s, found->ids[i], e);
        good &= parts[i] != NULL;
    }
    c->parts = parts;
    c->count = found->count;
    return good ? c : NULL;
}

static const cond *read_named(reader *r, const node_entry *e)
{
    for (int s = SECTION_QUESTIONS; s <= SECTION_CONCLUSIONS; s++) {
        names_found found;
        look_up_state state = look_up(r, (section)s, e->key, e->key_at, &found);
        if (state == LOOK_UP_MISSING) continue;
        if (state == LOOK_UP_REPORTED) return NULL;
        return found.how == NAMES_ONE ? read_ground(r, (section)s, found.ids[0], e)
                                      : read_several(r, (section)s, &found, e);
    }
    return unknown_in_condition(r, e);
}

static const cond *read_entry(reader *r, const node_entry *e, uint32_t depth)
{
    if (str_is(e->key, "all")) return read_group(r, e, COND_ALL, "'all'", depth);
    if (str_is(e->key, "any")) return read_group(r, e, COND_ANY, "'any'", depth);
    if (str_is(e->key, "none")) return read_group(r, e, COND_NONE, "'none'", depth);
    if (str_is(e->key, "at-least")) return read_at_least(r, e, depth);
    if (str_is(e->key, "not")) return misplaced_not(r, e);
    return read_named(r, e);
}

static bool is_condition(reader *r, const node *n, uint32_t depth)
{
    if (n->kind == NODE_LIST) {
        bare_list(r, n);
    } else if (n->kind == NODE_TEXT) {
        wrong_kind(r, n, "a condition", "a map, such as {question: answer}");
    } else if (n->count == 0) {
        fault *f = fault_add(r->list, FAULT_CONDITION_EMPTY, n->at,
                             "There is nothing in this condition, so nothing could decide it.");
        fault_help(r->list, f, "Write what must hold, such as {question: answer}.");
    } else if (depth > CONDITION_DEPTH_MAX) {
        fault *f =
            fault_add(r->list, FAULT_CONDITION_TOO_DEEP, n->at,
                      "Conditions stand more than %d deep in one another.", CONDITION_DEPTH_MAX);
        fault_help(r->list, f,
                   "Give a part of it a name: let a rule set a conclusion, and use that.");
    } else {
        return true;
    }
    return false;
}

/* The entries go in the order of their keys, so that the author's order changes nothing. */
static const cond *read_map(reader *r, const node *n, uint32_t depth)
{
    assert(depth >= 1 && depth <= CONDITION_DEPTH_MAX + 1);
    if (!is_condition(r, n, depth)) return NULL;
    const node_entry **sorted = entries_by_key(r, n);
    if (n->count == 1) return read_entry(r, sorted[0], depth);
    const cond **parts = ARENA_ARRAY(r->keep, const cond *, n->count);
    bool good = true;
    for (uint32_t i = 0; i < n->count; i++) {
        parts[i] = read_entry(r, sorted[i], depth);
        good &= parts[i] != NULL;
    }
    cond *all = cond_new(r, COND_ALL, n->at);
    all->parts = parts;
    all->count = n->count;
    return good ? all : NULL;
}

const cond *read_condition(reader *r, const node *n)
{
    return read_map(r, n, 1);
}

const cond *read_condition_at(reader *r, const node *map, const char *key)
{
    const node *n = node_get(map, key);
    return n == NULL ? NULL : read_condition(r, n);
}
