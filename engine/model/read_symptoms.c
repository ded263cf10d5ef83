/* Symptoms: written ones, and those that `confirms` of a question makes. */
#include <assert.h>
#include <stdlib.h>

#include "model/reader.h"

static const char *const keys[] = {"when", "text", "heard", "shown-by", "otherwise", NULL};

static int by_cause(const void *a, const void *b)
{
    const rate *x = a, *y = b;
    return (x->cause > y->cause) - (x->cause < y->cause);
}

const rate *read_rates(reader *r, const node *n, const char *what, uint32_t *count)
{
    assert(count != NULL);
    *count = 0;
    if (n->kind != NODE_MAP) {
        wrong_kind(r, n, what, "a map of causes to chances");
        return NULL;
    }
    if (n->count == 0) {
        fault *f = fault_add(r->list, FAULT_EMPTY, n->at, "%s names no cause.", what);
        fault_help(r->list, f, "Write {cause: often}.");
    }
    rate *rates = ARENA_ARRAY(r->keep, rate, n->count);
    for (uint32_t i = 0; i < n->count; i++) {
        const node_entry *e = &n->entries[i];
        rate one = {.cause = resolve(r, SECTION_CAUSES, e->key, e->key_at), .at = e->key_at};
        if (e->value == NULL || !read_chance(r, e->value, what, &one.chance) || one.cause == NO_ID)
            continue;
        rates[(*count)++] = one;
    }
    if (*count > 0) qsort(rates, *count, sizeof *rates, by_cause);
    return rates;
}

/* A condition on one answer of one question. */
static void note_rest(reader *r, symptom *s)
{
    if (s->when == NULL || s->when->kind != COND_ANSWER) return;
    uint64_t mask = s->when->answers;
    if (mask == 0 || (mask & (mask - 1)) != 0) return;
    s->rests_on_one = true;
    s->one_question = s->when->subject;
    while ((mask >> s->one_answer) > 1) s->one_answer++;
    assert(s->one_answer < r->book->questions[s->one_question].answer_count);
    (void)r;
}

static void check_text(reader *r, const node *map, const symptom *s)
{
    if (node_get(map, "text") != NULL || s->when == NULL) return;
    if (!s->rests_on_one) {
        need(r, map, s->id, "The symptom", "text", "what is seen");
    } else if (r->book->questions[s->one_question].yes_no) {
        fault *f = fault_add(r->list, FAULT_READS_AS_YES, s->id.at,
                             "Without a 'text' the symptom '%.*s' is shown as a bare '%s'.",
                             STR_ARG(s->id.name), s->one_answer == 1 ? "Yes" : "No");
        fault_help(r->list, f, "Add 'text' with what is seen, in a few words.");
    }
}

static void read_written(reader *r, const named *e, symptom *s)
{
    assert(e->body != NULL && e->made_question == NO_ID);
    if (!check_map(r, e->body, "A symptom", keys)) return;
    const node *when = need(r, e->body, s->id, "The symptom", "when", "{question: answer}");
    const node *shown_by = need(r, e->body, s->id, "The symptom", "shown-by", "{cause: often}");
    const node *words = node_get(e->body, "heard"), *otherwise = node_get(e->body, "otherwise");
    s->when = when == NULL ? NULL : read_condition(r, when);
    note_rest(r, s);
    read_texts_at(r, e->body, "text", &s->text);
    check_text(r, e->body, s);
    if (words != NULL) read_heard(r, words, &s->heard);
    if (shown_by != NULL) s->shown_by = read_rates(r, shown_by, "'shown-by'", &s->shown_by_count);
    s->otherwise = chance_rarely(r);
    s->otherwise_at = otherwise == NULL ? s->id.at : otherwise->at;
    if (otherwise != NULL) read_chance(r, otherwise, "'otherwise'", &s->otherwise);
}

static void make_confirmed(reader *r, const named *e, symptom *s)
{
    assert(e->made_question < r->book->question_count && e->made_cause != NULL);
    const question *q = &r->book->questions[e->made_question];
    if (r->tables[SECTION_QUESTIONS].items[e->made_question].broken || q->kind != QUESTION_CHOICE)
        return;
    uint32_t answer = option_find(q->answers, q->answer_count, e->made_answer);
    str name;
    if (answer == NO_ID || q->about != ABOUT_FAULT ||
        !read_word(r, e->made_cause, "a cause", &name))
        return;
    cond *when = ARENA_NEW(r->keep, cond);
    *when = (cond){.kind = COND_ANSWER,
                   .at = e->id.at,
                   .subject = e->made_question,
                   .answers = UINT64_C(1) << answer};
    s->when = when;
    note_rest(r, s);
    s->from_confirms = true;
    s->otherwise = chance_never(r);
    s->otherwise_at = e->id.at;
    rate *shown = ARENA_NEW(r->keep, rate);
    *shown = (rate){resolve(r, SECTION_CAUSES, name, e->made_cause->at), chance_always(r),
                    e->made_cause->at};
    s->shown_by = shown;
    s->shown_by_count = shown->cause == NO_ID ? 0 : 1;
}

void read_symptoms(reader *r)
{
    name_table *t = &r->tables[SECTION_SYMPTOMS];
    symptom *symptoms = ARENA_ARRAY(r->keep, symptom, t->count);
    r->book->symptoms = symptoms;
    r->book->symptom_count = t->count;
    for (uint32_t i = 0; i < t->count; i++) {
        named *e = &t->items[i];
        uint32_t before = faults_errors(r->list);
        symptoms[i] = (symptom){.id = e->id, .one_question = NO_ID, .text = {.at = span_nowhere()}};
        if (e->made_question != NO_ID)
            make_confirmed(r, e, &symptoms[i]);
        else if (e->body != NULL)
            read_written(r, e, &symptoms[i]);
        e->broken = faults_errors(r->list) > before;
    }
}
