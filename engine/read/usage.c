/* Doubts about the whole: what nothing uses, what nothing leads to. Only a book without errors
 * is looked at, so that a misspelt name is not followed by doubts about the right one. */
#include <assert.h>

#include "read/reader.h"

static void mark_condition(const cond *c, bool *questions)
{
    if (c == NULL) return;
    bool asks = c->kind == COND_ANSWER || c->kind == COND_RANGE || c->kind == COND_KNOWN;
    if (asks) questions[c->subject] = true;
    for (uint32_t i = 0; i < c->count; i++) mark_condition(c->parts[i], questions);
}

static void mark_inserts(const reader *r, const texts *t, bool *questions)
{
    assert(t->count == 0 || t->items != NULL);
    if (t->picture != NULL) mark_inserts(r, &t->picture->text, questions);
    for (uint32_t i = 0; i < t->count; i++) {
        str rest = t->items[i].text;
        for (size_t from = str_find_byte(rest, '{'); from != SIZE_MAX;
             from = str_find_byte(rest, '{')) {
            rest = str_slice(rest, from + 1, rest.n);
            size_t close = str_find_byte(rest, '}');
            str inside = close == SIZE_MAX ? STR("") : str_slice(rest, 0, close);
            uint32_t id = book_question(r->book, insert_parts(inside).name);
            if (id != NO_ID) questions[id] = true;
        }
    }
}

static void mark_list(const reader *r, const texts_list *list, bool *questions)
{
    for (uint32_t i = 0; i < list->count; i++) mark_inserts(r, &list->items[i], questions);
}

static void mark_fix(const reader *r, const fix *f, bool *questions)
{
    mark_condition(f->only_when, questions);
    mark_inserts(r, &f->text, questions);
    mark_list(r, &f->steps, questions);
    mark_list(r, &f->once_running, questions);
    mark_inserts(r, &f->undo.text, questions);
    for (uint32_t i = 0; i < f->look_again.count; i++) questions[f->look_again.items[i]] = true;
    if (f->adjust.reading != NO_ID) questions[f->adjust.reading] = true;
}

/* What is asked for a quantity in the end, and the quantities that it is reckoned from; the fact
 * that says what a reading is good at. */
static void mark_named_by(const question *q, bool *questions)
{
    if (q->good != NO_ID) questions[q->good] = true;
    for (uint32_t i = 0; i < q->beneath.count; i++) questions[q->beneath.items[i]] = true;
    for (uint32_t i = 0; i < q->case_count; i++) {
        uint32_t count = 0;
        const uint32_t *subjects = formula_subjects(q->cases[i].is, &count);
        for (uint32_t k = 0; k < count; k++) questions[subjects[k]] = true;
    }
}

static void check_questions(reader *r)
{
    const book *b = r->book;
    bool *used = ARENA_ARRAY(r->scratch, bool, b->question_count);
    for (uint32_t i = 0; i < b->symptom_count; i++) mark_condition(b->symptoms[i].when, used);
    for (uint32_t i = 0; i < b->question_count; i++)
        mark_condition(b->questions[i].only_when, used);
    for (uint32_t i = 0; i < b->cause_count; i++) mark_condition(b->causes[i].only_when, used);
    for (uint32_t i = 0; i < b->fix_count; i++) mark_fix(r, &b->fixes[i], used);
    for (uint32_t i = 0; i < b->rule_count; i++) {
        mark_condition(b->rules[i].when, used);
        mark_inserts(r, &b->rules[i].caution, used);
        mark_inserts(r, &b->rules[i].stop, used);
    }
    for (uint32_t i = 0; i < b->emergency_count; i++) {
        mark_list(r, &b->emergencies[i].do_now, used);
        mark_list(r, &b->emergencies[i].then, used);
    }
    mark_inserts(r, &b->stop_text, used);
    for (uint32_t i = 0; i < b->question_count; i++) mark_named_by(&b->questions[i], used);
    for (uint32_t i = 0; i < b->named_questions; i++) {
        if (used[i] || b->questions[i].gate || b->questions[i].over_time) continue;
        bool quantity = b->questions[i].kind == QUESTION_QUANTITY;
        fault *f = fault_add(
            r->list, FAULT_QUESTION_UNUSED, b->questions[i].id.at,
            quantity ? "No rule, symptom or fix uses the quantity '%.*s'."
                     : "No rule, symptom or fix uses the answer to '%.*s', so it is never asked.",
            STR_ARG(b->questions[i].of.base));
        fault_help(r->list, f, "Write a symptom for it, or leave the %s out.",
                   quantity ? "quantity" : "question");
    }
}

static void check_causes(reader *r)
{
    const book *b = r->book;
    bool *shown = ARENA_ARRAY(r->scratch, bool, b->cause_count),
         *cured = ARENA_ARRAY(r->scratch, bool, b->cause_count);
    for (uint32_t i = 0; i < b->symptom_count; i++)
        for (uint32_t k = 0; k < b->symptoms[i].shown_by_count; k++)
            shown[b->symptoms[i].shown_by[k].cause] = true;
    for (uint32_t i = 0; i < b->fix_count; i++)
        for (uint32_t k = 0; k < b->fixes[i].cures_count; k++)
            cured[b->fixes[i].cures[k].cause] = true;
    for (uint32_t i = 0; i < b->cause_count && b->symptom_count > 0; i++) {
        if (shown[i]) continue;
        fault *f = fault_add(r->list, FAULT_CAUSE_NOT_SHOWN, b->causes[i].id.at,
                             "No symptom lists the cause '%.*s', so no answer can point to it.",
                             STR_ARG(b->causes[i].of.base));
        fault_help(r->list, f, "Name it in the 'shown-by' of what it makes people see.");
    }
    for (uint32_t i = 0; i < b->cause_count && b->fix_count > 0; i++) {
        if (cured[i]) continue;
        fault *f = fault_add(r->list, FAULT_CAUSE_NOT_CURED, b->causes[i].id.at,
                             "No fix cures the cause '%.*s', so a call that finds it ends there.",
                             STR_ARG(b->causes[i].of.base));
        fault_help(r->list, f,
                   "Write a fix that lists it in 'cures', if only to say whom to call.");
    }
}

static void check_conclusions(reader *r)
{
    const book *b = r->book;
    bool *set = ARENA_ARRAY(r->scratch, bool, b->conclusion_count);
    for (uint32_t i = 0; i < b->rule_count; i++)
        for (uint32_t k = 0; k < b->rules[i].set_count; k++)
            set[b->rules[i].sets[k].conclusion] = true;
    for (uint32_t i = 0; i < b->conclusion_count; i++) {
        if (set[i]) continue;
        fault *f = fault_add(r->list, FAULT_CONCLUSION_NEVER_SET, b->conclusions[i].id.at,
                             "No rule sets the conclusion '%.*s', so it is never known.",
                             STR_ARG(b->conclusions[i].id.name));
        fault_help(r->list, f, "Set it in the 'then' of a rule, or leave it out.");
    }
}

/* What is written for each piece of a kind is read for the pieces there are, so without any it
 * would not be checked. */
static void check_kinds(reader *r)
{
    uint32_t *count = ARENA_ARRAY(r->scratch, uint32_t, r->book->kind_count);
    for (uint32_t i = 0; i < r->book->piece_count; i++) count[r->book->pieces[i].kind]++;
    for (uint32_t i = 0; i < r->book->kind_count; i++) {
        label id = r->book->kinds[i].id;
        if (count[i] > 0 || r->book->kinds[i].lone) continue;
        fault *f = fault_add(
            r->list, FAULT_KIND_WITHOUT_PIECE, id.at,
            "The example site has no %.*s, so what is written for each %.*s can't be checked.",
            STR_ARG(id.name), STR_ARG(id.name));
        fault_help(r->list, f, "Give 'site' a piece of this kind under 'units'.");
    }
}

static void mark_procedures(const safety *s, bool *used)
{
    for (uint32_t i = 0; i < s->procedure_count; i++) used[s->procedures[i]] = true;
}

static void check_procedures(reader *r)
{
    const book *b = r->book;
    bool *used = ARENA_ARRAY(r->scratch, bool, b->procedure_count);
    for (uint32_t i = 0; i < b->fix_count; i++) mark_procedures(&b->fixes[i].harm, used);
    for (uint32_t i = 0; i < b->question_count; i++) mark_procedures(&b->questions[i].harm, used);
    for (uint32_t i = 0; i < b->procedure_count; i++) {
        if (used[i]) continue;
        fault *f = fault_add(r->list, FAULT_PROCEDURE_UNUSED, b->procedures[i].id.at,
                             "No fix and no question goes by the procedure '%.*s'.",
                             STR_ARG(b->procedures[i].of.base));
        fault_help(r->list, f, "Name it with 'procedure' where it holds, or leave it out.");
    }
}

/* Whoever changes what is worn in an entry that nothing names has changed nothing. */
static void check_worn_and_harms(reader *r)
{
    static const struct {
        section s;
        const char *what, *key;
    } named[] = {{SECTION_PROTECTION, "protection", "protect"}, {SECTION_HARMS, "harm", "harm"}};
    for (size_t k = 0; k < sizeof named / sizeof *named; k++)
        for (uint32_t i = 0; i < r->tables[named[k].s].count; i++) {
            const label id = r->tables[named[k].s].items[i].id;
            if (r->tables[named[k].s].items[i].meant) continue;
            fault *f = fault_add(r->list, FAULT_NEVER_NAMED, id.at,
                                 "No question, fix or procedure names the %s '%.*s'.",
                                 named[k].what, STR_ARG(id.name));
            fault_help(r->list, f, "Write '%s: %.*s' where it is meant, or leave it out.",
                       named[k].key, STR_ARG(id.name));
        }
}

static void check_sections(reader *r)
{
    static const struct {
        section s;
        const char *without;
    } wanted[] = {{SECTION_QUESTIONS, "questions, so nothing can be asked"},
                  {SECTION_SYMPTOMS, "symptoms, so no answer can point to a cause"},
                  {SECTION_FIXES, "fixes, so nothing can be done about a cause"}};
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++)
        if (r->tables[wanted[i].s].count == 0)
            fault_add(r->list, FAULT_SECTION_EMPTY, span_nowhere(), "The book has no %s.",
                      wanted[i].without);
}

void check_usage(reader *r)
{
    assert(faults_errors(r->list) == 0);
    check_sections(r);
    check_kinds(r);
    check_causes(r);
    check_questions(r);
    check_conclusions(r);
    check_procedures(r);
    check_worn_and_harms(r);
    check_pictures_used(r);
}
