/* Worked cases. */
#include <assert.h>

#include "read/reader.h"

static bool is_broken(const reader *r, uint32_t question)
{
    return question < r->tables[SECTION_QUESTIONS].count &&
           r->tables[SECTION_QUESTIONS].items[question].broken;
}

static void read_complaint(reader *r, const node *n, worked_case *c)
{
    span at;
    c->complaint = case_name(r, SECTION_SYMPTOMS, n, &at);
    if (c->complaint == NO_ID || r->book->symptoms[c->complaint].heard.count > 0) return;
    const named *e = &r->tables[SECTION_SYMPTOMS].items[c->complaint];
    if (e->broken) return;
    fault *f = fault_add(r->list, FAULT_CASE_COMPLAINT, at,
                         "No call can begin with '%.*s': it does not say how people put it.",
                         STR_ARG(e->id.name));
    fault_help(r->list, f, "Add 'heard' to the symptom, or answer its question instead.");
}

/* Questions that could not be read are left out: nothing can be said about their answers. */
static void read_case_answers(reader *r, const node *n, worked_case *c)
{
    assert(c->reply_count == 0);
    if (n->kind != NODE_MAP) {
        wrong_kind(r, n, "'answers'", "a map from question to answer");
        return;
    }
    const node_entry **sorted = entries_by_key(r, n);
    reply *replies = ARENA_ARRAY(r->keep, reply, n->count);
    for (uint32_t i = 0; i < n->count; i++) {
        const node_entry *e = sorted[i];
        node key = {.kind = NODE_TEXT, .at = e->key_at, .text = e->key};
        span at;
        uint32_t id = case_question(r, &key, &at);
        if (id == NO_ID || is_broken(r, id)) continue;
        if (reply_read(r->keep, r->scratch, r->book, id, e->value, r->list,
                       &replies[c->reply_count]))
            c->reply_count++;
    }
    sort_replies(r, r->book, replies, c->reply_count);
    c->replies = replies;
}

static void read_case(reader *r, const node *map, worked_case *c)
{
    if (!check_map(r, map, KEYS_CASE)) return;
    read_keys(r, map, c->id, KEYS_CASE, c);
    const node *answers = node_get(map, "answers"), *complaint = node_get(map, "complaint"),
               *at = node_get(map, "at");
    const node *expect = need(r, map, c->id, KEYS_CASE, "expect");
    if (at != NULL) c->at = pieces_named(r, at); /* first: bare names mean what it names */
    r->case_at = c->at;
    if (complaint != NULL) read_complaint(r, complaint, c);
    if (answers != NULL) read_case_answers(r, answers, c);
    if (expect != NULL) read_expect(r, expect, c);
}

void read_cases(reader *r)
{
    const name_table *t = &r->tables[SECTION_CASES];
    worked_case *cases = ARENA_ARRAY(r->keep, worked_case, t->count);
    r->book->cases = cases;
    r->book->case_count = t->count;
    r->in_cases = true;
    for (uint32_t i = 0; i < t->count; i++) {
        span no = span_nowhere();
        cases[i] = (worked_case){.id = t->items[i].id,
                                 .role = NO_ID,
                                 .complaint = NO_ID,
                                 .leading_cause = NO_ID,
                                 .first_fix = NO_ID,
                                 .caution_rule = NO_ID,
                                 .stop_rule = NO_ID,
                                 .next_question = NO_ID,
                                 .leading_at = no,
                                 .among_at = no,
                                 .first_fix_at = no,
                                 .caution_at = no,
                                 .stop_at = no,
                                 .next_at = no,
                                 .never_asked_at = no,
                                 .never_offered_at = no,
                                 .chance_most = 1,
                                 .chance_at = no,
                                 .danger_at = no};
        enter(r, &t->items[i]);
        read_case(r, t->items[i].body, &cases[i]);
    }
    r->in_cases = false;
    r->case_at = (ids){0};
}
