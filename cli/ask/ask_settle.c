/* Two who did not know of each other answered the same question, or reported on the same fix,
 * differently. Both records stay; which one counts is asked, one question at a time. */
#include <stdlib.h>
#include <string.h>

#include "ask/ask.h"
#include "host/case_people.h"
#include "host/plain_text.h"

typedef struct dispute {
    const case_record **records; /* none of whom knew of another, each with an answer of its own */
    size_t count;
} dispute;

/* Records of one class about one subject can contradict each other. */
static const struct {
    const char *kind, *subject, *says; /* says: which of its members; null: that it is of this kind */
    unsigned class;
} disputable[] = {{"answer", "question", "reply", 1}, {"tried", "fix", "outcome", 2}, {"put-back", "fix", NULL, 3}, {"left", "fix", NULL, 3}};
enum { DISPUTABLE = sizeof disputable / sizeof disputable[0] };

static unsigned kind_of(const case_record *r)
{
    unsigned i = 0;
    while (i < DISPUTABLE && strcmp(disputable[i].kind, r->kind) != 0) i++;
    return i;
}

static const char *subject(const case_record *r)
{
    unsigned kind = kind_of(r);
    return kind < DISPUTABLE ? json_string_value(json_object_get(r->data, disputable[kind].subject)) : NULL;
}

static bool same_subject(const case_record *x, const case_record *y)
{
    const char *of_x = subject(x), *of_y = subject(y);
    return of_x != NULL && of_y != NULL && strcmp(of_x, of_y) == 0 &&
           disputable[kind_of(x)].class == disputable[kind_of(y)].class;
}

static bool same_answer(const case_record *x, const case_record *y)
{
    const char *says = disputable[kind_of(x)].says;
    if (says == NULL || kind_of(x) != kind_of(y)) return kind_of(x) == kind_of(y);
    return json_equal(json_object_get(x->data, says), json_object_get(y->data, says)) == 1;
}

static const case_record *step_record(const ask *a, size_t step)
{
    ask_step kind = a->steps[step].kind;
    bool counts = kind == STEP_ANSWER || kind == STEP_CHANGED || kind == STEP_TRIED || kind == STEP_PUT_BACK ||
                  kind == STEP_LEFT_SO;
    return counts ? case_file_record(a->file, a->steps[step].record) : NULL;
}

/* Somebody who knew of it has answered again. */
static bool is_superseded(const ask *a, const case_record *r)
{
    for (size_t i = 0; i < a->step_count; i++) {
        const case_record *later = step_record(a, i);
        if (later != NULL && later != r && same_subject(later, r) && case_record_saw(later, r)) return true;
    }
    return false;
}

/* All that stand about the subject of `r`, each differing answer once. */
static dispute dispute_about(const ask *a, const case_record *r)
{
    dispute d = {.records = take_memory((a->step_count + 1) * sizeof *d.records)};
    for (size_t i = 0; i < a->step_count; i++) {
        const case_record *other = step_record(a, i);
        if (other == NULL || !same_subject(other, r) || is_superseded(a, other)) continue;
        bool known = false;
        for (size_t k = 0; k < d.count; k++) known = known || same_answer(d.records[k], other);
        if (!known) d.records[d.count++] = other;
    }
    return d;
}

/* The first that is open; none: count 0. Its records are freed by the caller. */
static dispute first_dispute(const ask *a, size_t from, size_t *at)
{
    bool several = a->file != NULL && case_file_writers(a->file) > 1;
    for (size_t i = from; several && i < a->step_count; i++) {
        const case_record *r = step_record(a, i);
        if (r == NULL) continue;
        dispute d = dispute_about(a, r);
        *at = i;
        if (d.count > 1 && d.records[0] == r) return d;
        free(d.records);
    }
    return (dispute){.records = NULL};
}

static char *whose_words(ask *a, const case_record *r)
{
    char *words = record_words(a, r), *since = moment_words(r->time);
    char *all = format_text("%s (%s, %s)", words, case_record_person(a->file, r), since);
    free(since);
    free(words);
    return all;
}

/* Whoever said the same as a wrong one is wrong too. */
static void settle(ask *a, const dispute *d, size_t right)
{
    const case_record **wrong = take_memory((a->step_count + 1) * sizeof *wrong);
    size_t count = 0;
    for (size_t i = 0; i < a->step_count; i++) {
        const case_record *r = step_record(a, i);
        if (r == NULL || !same_subject(r, d->records[right]) || same_answer(r, d->records[right])) continue;
        if (!is_superseded(a, r)) wrong[count++] = r;
    }
    step_settled(a, d->records[right], wrong, count);
    free(wrong);
}

static void ask_anew(ask *a, const case_record *r)
{
    uint32_t question = tt_question_find(a->book.book, subject(r));
    while (question != TT_NONE && a->leaving == STAYING && !ask_question(a, question)) {
    }
}

static void ask_which(ask *a, const dispute *d)
{
    bool answer = strcmp(d->records[0]->kind, "answer") == 0;
    const char **choices = take_memory((d->count + 1) * sizeof *choices);
    for (size_t i = 0; i < d->count; i++) choices[i] = whose_words(a, d->records[i]);
    choices[d->count] = "Ask it again";
    say_nothing(&a->s);
    ask_for(a, "settle", "%s", answer ? "This was answered differently by people who did not know of each other. Which is right?"
                      : "This fix was reported on differently by people who did not know of each other. Which is right?");
    int chosen = choose_one(a, NULL, choices, (unsigned)d->count + answer, AT_ALL);
    if (chosen == (int)d->count) ask_anew(a, d->records[0]);
    else if (chosen >= 0) settle(a, d, (size_t)chosen);
    for (size_t i = 0; i < d->count; i++) free((char *)(uintptr_t)choices[i]);
    free(choices);
}

bool settle_one(ask *a)
{
    size_t at;
    dispute d = first_dispute(a, 0, &at);
    if (d.count > 0) ask_which(a, &d);
    free(d.records);
    return d.count > 0;
}

char **unsettled_words(ask *a, size_t *count)
{
    size_t at = 0;
    char **all = NULL;
    *count = 0;
    for (dispute d; (d = first_dispute(a, at, &at)).count > 0; at++) {
        char *one = whose_words(a, d.records[0]), *other = whose_words(a, d.records[1]);
        all = room_for_one(all, *count, sizeof *all);
        all[(*count)++] = format_text("%s; but: %s", one, other);
        free(other);
        free(one);
        free(d.records);
    }
    return all;
}

void show_unsettled(ask *a)
{
    size_t count;
    char **all = unsettled_words(a, &count);
    for (size_t i = 0; i < count; i++) {
        say_item(&a->s, "To settle: ", "%s", all[i]);
        free(all[i]);
    }
    free(all);
}
