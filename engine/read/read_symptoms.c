/* Symptoms: written ones, and those that `confirms` of a question makes. */
#include <assert.h>

#include "base/sorted.h"
#include "read/reader.h"

static int by_cause(const void *a, const void *b)
{
    const rate *x = a, *y = b;
    return (x->cause > y->cause) - (x->cause < y->cause);
}

/* The causes that each key names; how many in all. */
static uint32_t find_causes(reader *r, const node *n, names_found *causes)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < n->count; i++)
        if (resolve_many(r, SECTION_CAUSES, n->entries[i].key, n->entries[i].key_at, &causes[i]))
            count += causes[i].count;
        else
            causes[i].count = 0;
    return count;
}

/* "x of any K" and "x of a" list the same cause twice. */
static void check_once(reader *r, const rate *rates, uint32_t count)
{
    for (uint32_t i = 1; i < count; i++) {
        if (rates[i].cause != rates[i - 1].cause) continue;
        fault *f = fault_add(r->list, FAULT_ITEM_TWICE, rates[i].at, "'%.*s' is named twice here.",
                             STR_ARG(r->tables[SECTION_CAUSES].names[rates[i].cause]));
        fault_note_at(r->list, f, rates[i - 1].at, "It is named here already.");
        fault_help(r->list, f, "Leave one of them out.");
    }
}

/* "often", or in 'shown-by' {chance: often, comes-and-goes: 30 %}. */
static bool read_rate(reader *r, const node *n, const char *what, bool of_sign, rate *out)
{
    if (!of_sign || n->kind != NODE_MAP) return read_chance(r, n, what, &out->chance);
    if (!check_map(r, n, KEYS_SIGN)) return false;
    const node *chance = need(r, n, (label){STR(""), n->at}, KEYS_SIGN, "chance"),
               *looks = node_get(n, "comes-and-goes");
    if (chance != NULL) out->said = chance->at;
    out->looks_in = n;
    if (looks != NULL) out->looks_said = looks->at;
    if (looks != NULL && read_chance(r, looks, "'comes-and-goes'", &out->looks) &&
        out->looks <= 0) {
        fault *f = fault_add(r->list, FAULT_CHANCE_OUTSIDE, looks->at,
                             "A sign that no look shows is never seen.");
        fault_help(r->list, f, "Write how many of 100 looks show it, such as '30 %%'.");
    }
    return chance != NULL && read_chance(r, chance, what, &out->chance);
}

static const rate *rates_of(reader *r, const node *n, const char *what, bool of_signs,
                            uint32_t *count)
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
    names_found *causes = ARENA_ARRAY(r->scratch, names_found, n->count);
    rate *rates = ARENA_ARRAY(r->keep, rate, find_causes(r, n, causes));
    for (uint32_t i = 0; i < n->count; i++) {
        const node_entry *e = &n->entries[i];
        rate one = {
            .at = e->key_at, .said = e->value->at, .looks_said = span_nowhere(), .looks = 1};
        if (!read_rate(r, e->value, what, of_signs, &one)) continue;
        for (uint32_t k = 0; k < causes[i].count; k++) {
            one.cause = causes[i].ids[k];
            rates[(*count)++] = one;
        }
    }
    SORT(rates, *count, by_cause);
    check_once(r, rates, *count);
    return rates;
}

const rate *read_rates(reader *r, const node *n, const char *what, uint32_t *count)
{
    return rates_of(r, n, what, false, count);
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
        need(r, map, s->id, KEYS_SYMPTOM, "text");
    } else if (r->book->questions[s->one_question].yes_no) {
        fault *f = fault_add(r->list, FAULT_READS_AS_YES, s->id.at,
                             "Without a 'text' the symptom '%.*s' is shown as a bare '%s'.",
                             STR_ARG(s->id.name), s->one_answer == 1 ? "Yes" : "No");
        fault_help(r->list, f, "Add 'text' with what is seen, in a few words.");
    }
}

static bool shows_reading(const texts *t)
{
    for (uint32_t i = 0; i < t->count; i++) {
        str text = t->items[i].text;
        for (size_t at = 0; at < text.n; at++) {
            if (text.p[at] != '{') continue;
            if (at + 1 >= text.n || text.p[at + 1] != '{') return true;
            at++; /* "{{" is a brace that people read */
        }
    }
    return false;
}

/* A complaint is chosen from a list before anything was read. */
static void check_complaint_text(reader *r, const symptom *s)
{
    if (!shows_reading(&s->text)) return;
    fault *f = fault_add(r->list, FAULT_UNKNOWN_INSERT, s->text.at,
                         "A call can begin with this symptom (it has 'heard'), and then no reading "
                         "is known that its text could show.");
    fault_help(r->list, f,
               "Leave the braces out of 'text', or make it two symptoms: one that is heard, one "
               "that is read.");
}

static void read_written(reader *r, const named *e, symptom *s)
{
    assert(e->body != NULL && e->made_question == NO_ID);
    if (!check_map(r, e->body, KEYS_SYMPTOM)) return;
    const node *when = need(r, e->body, s->id, KEYS_SYMPTOM, "when"),
               *shown_by = need(r, e->body, s->id, KEYS_SYMPTOM, "shown-by");
    const node *words = node_get(e->body, "heard"), *otherwise = node_get(e->body, "otherwise");
    r->in_symptom = true;
    s->when = when == NULL ? NULL : read_condition(r, when);
    r->in_symptom = false;
    note_rest(r, s);
    read_keys(r, e->body, s->id, KEYS_SYMPTOM, s);
    r->of_any = true;
    if (e->of.piece != NO_ID) read_texts_at(r, e->body, "text", &s->of_any);
    r->of_any = false;
    check_text(r, e->body, s);
    if (words != NULL) check_complaint_text(r, s);
    if (shown_by != NULL)
        s->shown_by = rates_of(r, shown_by, "'shown-by'", true, &s->shown_by_count);
    s->otherwise = chance_rarely(r);
    s->otherwise_at = otherwise == NULL ? s->id.at : otherwise->at;
    s->otherwise_said = otherwise == NULL ? span_nowhere() : otherwise->at;
    s->body = e->body;
    if (otherwise != NULL) read_chance(r, otherwise, "'otherwise'", &s->otherwise);
}

/* What confirms a cause practically never comes with another: 'never' leaves too much for that. */
static const double practically_never = 1e-5;

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
    s->otherwise = practically_never;
    s->otherwise_at = e->id.at;
    s->otherwise_said = span_nowhere();
    rate *shown = ARENA_NEW(r->keep, rate);
    *shown = (rate){.cause = resolve(r, SECTION_CAUSES, name, e->made_cause->at),
                    .chance = chance_always(r),
                    .looks = 1,
                    .at = e->made_cause->at,
                    .said = span_nowhere(),
                    .looks_said = span_nowhere()};
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
        uint32_t before = faults_met(r->list);
        enter(r, e);
        symptoms[i] = (symptom){
            .id = e->id, .of = e->of, .one_question = NO_ID, .text = {.at = span_nowhere()}};
        if (e->made_question != NO_ID)
            make_confirmed(r, e, &symptoms[i]);
        else if (e->body != NULL)
            read_written(r, e, &symptoms[i]);
        e->broken = faults_met(r->list) > before;
    }
}
