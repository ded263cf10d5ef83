/* What must come of a worked case. */
#include <assert.h>
#include <string.h>

#include "read/reader.h"

/* One cause, or a list of them: a row of a chart. */
static ids case_causes(reader *r, const node *n)
{
    if (n == NULL) return (ids){0};
    bool list = n->kind == NODE_LIST;
    const node *const *items = list ? n->items : &n;
    uint32_t given = list ? n->count : 1, count = 0;
    if (given == 0) wrong_kind(r, n, "'cause'", "a cause, or a list of them");
    uint32_t *causes = ARENA_ARRAY(r->keep, uint32_t, given);
    for (uint32_t i = 0; i < given; i++) {
        span at;
        if (list && items[i]->kind == NODE_TEXT && item_twice(r, n, i)) continue;
        uint32_t id = case_cause(r, items[i], &at);
        if (id != NO_ID) causes[count++] = id;
    }
    return ids_of(causes, count);
}

static void check_places(reader *r, const node *n, const worked_case *c)
{
    if (c->among.count <= c->among_count) return;
    fault *f = fault_add(r->list, FAULT_CASE_COUNT, n->at, "%u causes can't be among the first %u.",
                         c->among.count, c->among_count);
    fault_help(r->list, f, "Write 'count: %u' or more, or name fewer causes.", c->among.count);
}

static void read_among(reader *r, const node *n, worked_case *c)
{
    if (n == NULL || !check_map(r, n, KEYS_AMONG_FIRST)) return;
    label here = {STR(""), n->at};
    const node *number = need(r, n, here, KEYS_AMONG_FIRST, "count"),
               *name = need(r, n, here, KEYS_AMONG_FIRST, "cause");
    str text;
    c->among = case_causes(r, name);
    c->among_at = n->at;
    if (number == NULL || !read_word(r, number, "a count", &text)) return;
    if (read_whole(text, &c->among_count) && c->among_count >= 1) {
        check_places(r, name != NULL ? name : n, c);
        return;
    }
    fault *f = fault_add(r->list, FAULT_CASE_COUNT, number->at, "'%.*s' is no number of places.",
                         STR_ARG(text));
    fault_help(r->list, f, "Write a whole number from 1.");
}

static void says_nothing(reader *r, uint32_t id, span at, const char *key)
{
    assert(id < r->book->rule_count);
    if (r->tables[SECTION_RULES].items[id].broken)
        return; /* it has faults of its own, perhaps just there */
    fault *f = fault_add(r->list, FAULT_CASE_RULE_SILENT, at,
                         "The rule '%.*s' has no '%s', so the case could never hold.",
                         STR_ARG(r->book->rules[id].id.name), key);
    fault_note_at(r->list, f, r->book->rules[id].id.at, "The rule stands here.");
    fault_help(r->list, f, "Name a rule with '%s' in its 'then'.", key);
}

static void read_never_asked(reader *r, const node *n, worked_case *c)
{
    if (n == NULL) return;
    c->never_asked_at = n->at;
    if (n->kind != NODE_LIST) {
        wrong_kind(r, n, "'never-asked'", "a list of questions");
        return;
    }
    uint32_t *items = ARENA_ARRAY(r->keep, uint32_t, n->count), count = 0;
    for (uint32_t i = 0; i < n->count; i++) {
        span at;
        if (n->items[i]->kind == NODE_TEXT && item_twice(r, n, i)) continue;
        uint32_t id = case_question(r, n->items[i], &at);
        if (id != NO_ID) items[count++] = id;
    }
    c->never_asked = ids_of(items, count);
}

static void read_never_offered(reader *r, const node *n, worked_case *c)
{
    if (n == NULL) return;
    c->never_offered_at = n->at;
    c->never_offered = read_ids(r, SECTION_FIXES, n, "'never-offered'");
}

/* ---- how sure ---- */

static void bad_chance(reader *r, const node *n, str text)
{
    fault *f = fault_add(r->list, FAULT_CASE_CHANCE, n->at,
                         "'%.*s' does not say how sure one must be.", STR_ARG(text));
    fault_help(r->list, f, "Write 'at least 70 %%' or 'at most 90 %%'.");
}

static void read_sure(reader *r, const node *n, worked_case *c)
{
    str text;
    double chance;
    if (n == NULL || !read_word(r, n, "a chance", &text)) return;
    const bool least = str_starts(text, "at least "), most = str_starts(text, "at most ");
    const str number =
        least || most ? str_trim(str_slice(text, strlen(least ? "at least " : "at most "), text.n))
                      : STR("");
    if (!chance_of(number, &chance) || chance < 0 || chance > 1) {
        bad_chance(r, n, text);
        return;
    }
    c->chance_at = n->at;
    *(least ? &c->chance_least : &c->chance_most) = chance;
    assert(c->chance_least <= c->chance_most);
    if (c->leading_at.file != span_nowhere().file) return;
    fault *f = fault_add(r->list, FAULT_CASE_CHANCE, n->at,
                         "Of which cause this is the chance is not said.");
    fault_help(r->list, f, "Write 'leading-cause' beside it.");
}

/* ---- danger, and what is heard ---- */

static void read_danger(reader *r, const node *n, worked_case *c)
{
    static const char *const words[] = {"stop", "none", NULL};
    const uint32_t word = n == NULL ? NO_ID : read_choice(r, n, "what comes of danger", words);
    if (word == NO_ID) return;
    c->danger = word == 0 ? CASE_STOPS : CASE_GOES_ON;
    c->danger_at = n->at;
}

static void not_heard(reader *r, const node *n, const named *symptom)
{
    fault *f = fault_add(r->list, FAULT_CASE_COMPLAINT, n->at,
                         "No words are taken for '%.*s': it does not say how people put it.",
                         STR_ARG(symptom->of.base));
    fault_help(r->list, f, "Add 'heard' to the symptom.");
}

/* The symptom as its author wrote it: of which piece nobody says in these words. */
static bool read_heard_symptom(reader *r, const node *n, str *symptom)
{
    str name;
    if (!read_word(r, n, "a symptom", &name)) return false;
    const named *base = base_find(r, SECTION_SYMPTOMS, base_of_name(name));
    span at;
    if (base == NULL) {
        case_name(r, SECTION_SYMPTOMS, n, &at);
        return false;
    }
    const bool heard = node_get(base->body, "heard") != NULL;
    if (!heard) not_heard(r, n, base);
    mention_add(r->book->mentions,
                (mention){SECTION_SYMPTOMS, MENTION_ALONE, base->of.base, STR(""), STR(""), n->at});
    *symptom = str_copy(r->keep, base->of.base);
    return true;
}

static void read_heard_as(reader *r, const node *n, heard_as *all, uint32_t *count)
{
    heard_as *one = &all[*count];
    if (!check_map(r, n, KEYS_HEARS)) return;
    const label here = {STR(""), n->at};
    const node *say = need(r, n, here, KEYS_HEARS, "say"), *as = need(r, n, here, KEYS_HEARS, "as");
    str words;
    *one = (heard_as){.at = n->at};
    const bool said = say != NULL && read_word(r, say, "what is said", &words);
    if (said) one->say = str_copy(r->keep, words);
    if (as != NULL && read_heard_symptom(r, as, &one->symptom) && said) ++*count;
}

static void read_hears(reader *r, const node *n, worked_case *c)
{
    if (n == NULL) return;
    const bool list = n->kind == NODE_LIST;
    heard_as *all = ARENA_ARRAY(r->keep, heard_as, list ? n->count : 1);
    for (uint32_t i = 0; i < (list ? n->count : 1); i++)
        read_heard_as(r, list ? n->items[i] : n, all, &c->hears_count);
    c->hears = all;
}

/* ---- all together ---- */

void read_expect(reader *r, const node *n, worked_case *c)
{
    if (!check_map(r, n, KEYS_EXPECT)) return;
    if (n->count == 0) {
        fault *f =
            fault_add(r->list, FAULT_CASE_EXPECTS_NOTHING, n->at,
                      "The case '%.*s' expects nothing, so it can't fail.", STR_ARG(c->id.name));
        fault_help(r->list, f, "Write such as 'leading-cause: name'.");
    }
    c->leading_cause = case_cause(r, node_get(n, "leading-cause"), &c->leading_at);
    read_among(r, node_get(n, "among-first"), c);
    c->first_fix = case_name(r, SECTION_FIXES, node_get(n, "first-fix"), &c->first_fix_at);
    c->caution_rule = case_name(r, SECTION_RULES, node_get(n, "caution"), &c->caution_at);
    c->stop_rule = case_name(r, SECTION_RULES, node_get(n, "stop"), &c->stop_at);
    c->next_question = case_question(r, node_get(n, "next"), &c->next_at);
    read_never_asked(r, node_get(n, "never-asked"), c);
    read_never_offered(r, node_get(n, "never-offered"), c);
    read_sure(r, node_get(n, "chance"), c);
    read_danger(r, node_get(n, "danger"), c);
    read_hears(r, node_get(n, "hears"), c);
    if (c->caution_rule != NO_ID && !r->book->rules[c->caution_rule].has_caution)
        says_nothing(r, c->caution_rule, c->caution_at, "caution");
    if (c->stop_rule != NO_ID && !r->book->rules[c->stop_rule].stops)
        says_nothing(r, c->stop_rule, c->stop_at, "stop");
}
