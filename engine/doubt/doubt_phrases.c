/* One phrase that is heard as two things: of two answers, of two complaints, or of a complaint and
 * an answer that does not show it. */
#include <assert.h>

#include "base/sorted.h"
#include "base/unicode.h"
#include "doubt/doubt.h"

/* ---- one phrase, two meanings ---- */

typedef struct phrase {
    str plain;
    const heard *said;
    uint32_t owner; /* answer, or symptom */
    const label *name;
} phrase;

typedef struct phrase_list {
    phrase *items;
    uint32_t count;
} phrase_list;

static int by_plain(const void *left, const void *right)
{
    const phrase *a = left, *b = right;
    const int order = str_cmp(a->plain, b->plain);
    return order != 0 ? order : THREE_WAY(a->owner, b->owner);
}

static void add_phrases(const doubter *d, phrase_list *all, const heard_list *list, uint32_t owner,
                        const label *name)
{
    for (uint32_t i = 0; i < list->count; i++)
        if (list->items[i].pattern == NULL)
            all->items[all->count++] = (phrase){unicode_plain(d->scratch, list->items[i].plain),
                                                &list->items[i], owner, name};
}

static void doubt_twice(const doubter *d, phrase_list *all, const char *what)
{
    SORT(all->items, all->count, by_plain);
    for (uint32_t i = 1; i < all->count; i++) {
        const phrase *a = &all->items[i - 1], *b = &all->items[i];
        if (!str_eq(a->plain, b->plain) || same_written(a->name, b->name)) continue;
        fault *f =
            fault_add(d->list, FAULT_HEARD_TWICE, b->said->at,
                      "'%.*s' is heard as two %s: '%.*s' and '%.*s'.", STR_ARG(b->said->plain),
                      what, STR_ARG(a->name->name), STR_ARG(b->name->name));
        fault_note_at(d->list, f, a->said->at, "here as '%.*s'", STR_ARG(a->name->name));
        fault_help(d->list, f,
                   "Leave it with the one that is meant more often, and write a phrase that only "
                   "the other has.");
    }
}

static void doubt_answers_heard(const doubter *d, const question *q)
{
    uint32_t most = 0;
    for (uint32_t i = 0; i < q->answer_count; i++) most += q->answers[i].heard.count;
    phrase_list all = {ARENA_ARRAY(d->scratch, phrase, most), 0};
    for (uint32_t i = 0; i < q->answer_count; i++)
        add_phrases(d, &all, &q->answers[i].heard, i, &q->answers[i].id);
    assert(all.count <= most);
    doubt_twice(d, &all, "answers");
}

static void doubt_complaints_heard(const doubter *d)
{
    const book *b = d->book;
    uint32_t most = 0;
    for (uint32_t i = 0; i < b->symptom_count; i++) most += b->symptoms[i].heard.count;
    phrase_list all = {ARENA_ARRAY(d->scratch, phrase, most), 0};
    for (uint32_t i = 0; i < b->symptom_count; i++)
        if (is_first_piece(b, i))
            add_phrases(d, &all, &b->symptoms[i].heard, i, &b->symptoms[i].id);
    doubt_twice(d, &all, "complaints");
}

/* ---- the words of a symptom, which are those of an answer that does not show it ---- */

typedef struct words_at {
    uint32_t question; /* that the symptom rests on */
    str plain;
    uint32_t symptom;
    const heard *said;
} words_at;

static int by_question_and_words(const void *left, const void *right)
{
    const words_at *a = left, *b = right;
    if (a->question != b->question) return THREE_WAY(a->question, b->question);
    const int order = str_cmp(a->plain, b->plain);
    return order != 0 ? order : THREE_WAY(a->symptom, b->symptom);
}

static words_at *words_of_symptoms(const doubter *d, uint32_t *count)
{
    const book *b = d->book;
    uint32_t most = 0;
    for (uint32_t i = 0; i < b->symptom_count; i++)
        if (is_first_piece(b, i)) most += b->symptoms[i].heard.count;
    words_at *all = ARENA_ARRAY(d->scratch, words_at, most);
    *count = 0;
    for (uint32_t i = 0; i < b->symptom_count; i++) {
        const symptom *s = &b->symptoms[i];
        if (!is_first_piece(b, i) || s->when->kind != COND_ANSWER) continue;
        for (uint32_t k = 0; k < s->heard.count; k++)
            if (s->heard.items[k].pattern == NULL)
                all[(*count)++] =
                    (words_at){s->when->subject, unicode_plain(d->scratch, s->heard.items[k].plain),
                               i, &s->heard.items[k]};
    }
    SORT(all, *count, by_question_and_words);
    return all;
}

static void heard_as_another(const doubter *d, const words_at *words, const question *q,
                             uint32_t answer, const heard *other)
{
    if ((d->book->symptoms[words->symptom].when->answers >> answer & 1) != 0) return;
    fault *f = fault_add(d->list, FAULT_HEARD_AS_ANOTHER, words->said->at,
                         "'%.*s' is heard as this symptom, and as the answer '%.*s' to '%.*s', "
                         "which does not show it.",
                         STR_ARG(words->said->plain), STR_ARG(q->answers[answer].id.name),
                         STR_ARG(q->of.base));
    fault_note_at(d->list, f, other->at, "the answer");
    fault_help(d->list, f, "Mend 'when', or leave the words out in one of them.");
}

/* Of one question; `all` are the words of the symptoms that rest on it. */
static void doubt_other_answer(const doubter *d, const question *q, const words_at *all,
                               uint32_t count)
{
    for (uint32_t a = 0; a < q->answer_count; a++)
        for (uint32_t k = 0; k < q->answers[a].heard.count; k++) {
            const heard *other = &q->answers[a].heard.items[k];
            if (other->pattern != NULL) continue;
            const str plain = unicode_plain(d->scratch, other->plain);
            uint32_t at;
            SORTED_PLACE(at, count, i, str_cmp(all[i].plain, plain) < 0);
            for (; at < count && str_eq(all[at].plain, plain); at++)
                heard_as_another(d, &all[at], q, a, other);
        }
}

static void doubt_other_answers(const doubter *d)
{
    uint32_t count;
    const words_at *all = words_of_symptoms(d, &count);
    for (uint32_t i = 0, end; i < count; i = end) {
        for (end = i; end < count && all[end].question == all[i].question; end++) {
        }
        const arena_mark before = arena_here(d->scratch);
        doubt_other_answer(d, &d->book->questions[all[i].question], all + i, end - i);
        arena_back_to(d->scratch, before);
    }
}

void doubt_phrases(const doubter *d)
{
    const book *b = d->book;
    for (uint32_t i = 0; i < b->question_count; i++) {
        const arena_mark before = arena_here(d->scratch);
        if (!answers_as_before(b, i)) doubt_answers_heard(d, &b->questions[i]);
        arena_back_to(d->scratch, before);
    }
    doubt_other_answers(d);
    doubt_complaints_heard(d);
}
