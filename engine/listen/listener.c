/* A listener is made once for a book. */
#include "listen/listener.h"

#include <assert.h>

#include "base/unicode.h"
#include "listen/common_words.h"

/* ---- vocabulary ---- */

static void add_plain(word_set *s, arena *scratch, str text)
{
    arena_mark mark = arena_here(scratch);
    word_set_add_all(s, unicode_plain(scratch, text));
    arena_back_to(scratch, mark);
}

void vocabulary_add_text(word_set *s, arena *scratch, const texts *t)
{
    for (uint32_t i = 0; i < t->count; i++) add_plain(s, scratch, t->items[i].text);
}

static void add_heard(word_set *s, arena *scratch, const heard_list *list)
{
    for (uint32_t i = 0; i < list->count; i++) add_plain(s, scratch, list->items[i].plain);
}

static void add_question(word_set *s, arena *scratch, const question *q)
{
    add_plain(s, scratch, q->of.base);
    vocabulary_add_text(s, scratch, &q->ask);
    vocabulary_add_text(s, scratch, &q->look);
}

static void add_answers(word_set *s, arena *scratch, const question *q)
{
    for (uint32_t i = 0; i < q->answer_count; i++) {
        vocabulary_add_text(s, scratch, &q->answers[i].text);
        add_heard(s, scratch, &q->answers[i].heard);
    }
}

void vocabulary_add_book(word_set *s, arena *scratch, const book *b)
{
    for (uint32_t i = 0; i < b->question_count; i++) {
        add_question(s, scratch, &b->questions[i]);
        if (!answers_as_before(b, i)) add_answers(s, scratch, &b->questions[i]);
    }
    for (uint32_t i = 0; i < b->symptom_count; i++) {
        vocabulary_add_text(s, scratch, &b->symptoms[i].text);
        add_heard(s, scratch, &b->symptoms[i].heard);
    }
    for (uint32_t i = 0; i < b->piece_count; i++)
        vocabulary_add_text(s, scratch, &b->pieces[i].text);
    for (uint32_t i = 0; i < b->cause_count; i++)
        vocabulary_add_text(s, scratch, &b->causes[i].text);
    for (uint32_t i = 0; i < b->fix_count; i++) vocabulary_add_text(s, scratch, &b->fixes[i].text);
    for (uint32_t i = 0; i < b->concept_count; i++)
        for (uint32_t k = 0; k < b->concepts[i].count; k++)
            for (uint32_t w = 0; w < b->concepts[i].items[k].words.count; w++)
                add_plain(s, scratch, b->concepts[i].items[k].words.items[w].name);
}

static void add_common_words(word_set *s)
{
#define WORDS(text) word_set_add_all(s, STR(text));
    COMMON_WORDS_EN(WORDS)
    COMMON_WORDS_ES(WORDS)
#undef WORDS
}

/* ---- words of danger that are the book's ---- */

static bool is_doubt(const listener *l, arena *scratch, str plain)
{
    return (manner_of(&l->manner, scratch, plain) &
            (MANNER_UNSURE | MANNER_DONT_KNOW | MANNER_CANNOT)) != 0;
}

static danger_phrase of_heard(arena *keep, const heard *h)
{
    return (danger_phrase){h->pattern != NULL ? STR("") : unicode_plain(keep, h->plain), h->pattern,
                           NO_ID, NO_ID, NO_ID};
}

static void add_emergency(listener *l, arena *keep, uint32_t emergency, danger_phrase *to)
{
    assert(emergency < l->book->emergency_count);
    const heard_list *list = &l->book->emergencies[emergency].heard;
    for (uint32_t i = 0; i < list->count; i++) {
        danger_phrase p = of_heard(keep, &list->items[i]);
        p.emergency = emergency;
        to[l->own_count++] = p;
    }
}

/* "I am not sure" is no safe answer, and yet no danger at another question. */
static void add_gate_answer(listener *l, arena *keep, arena *scratch, uint32_t question,
                            uint32_t answer, danger_phrase *to)
{
    const struct question *q = &l->book->questions[question];
    const heard_list *list = &q->answers[answer].heard;
    assert(answer < q->answer_count);
    if (!q->gate || answer_is_safe(q, answer)) return;
    for (uint32_t i = 0; i < list->count; i++) {
        danger_phrase p = of_heard(keep, &list->items[i]);
        if (p.pattern == NULL && is_doubt(l, scratch, p.plain)) continue;
        p.question = question;
        p.answer = answer;
        to[l->own_count++] = p;
    }
}

static uint32_t count_phrases(const book *b)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < b->emergency_count; i++) count += b->emergencies[i].heard.count;
    for (uint32_t i = 0; i < b->question_count; i++)
        for (uint32_t k = 0; b->questions[i].gate && k < b->questions[i].answer_count; k++)
            count += b->questions[i].answers[k].heard.count;
    return count;
}

static void add_own_phrases(listener *l, arena *keep, arena *scratch)
{
    const book *b = l->book;
    danger_phrase *own = ARENA_ARRAY(keep, danger_phrase, count_phrases(b));
    l->own = own;
    for (uint32_t i = 0; i < b->question_count; i++)
        for (uint32_t k = 0; k < b->questions[i].answer_count; k++)
            add_gate_answer(l, keep, scratch, i, k, own);
    l->of_gates = l->own_count;
    for (uint32_t i = 0; i < b->emergency_count; i++) add_emergency(l, keep, i, own);
    assert(l->own_count <= count_phrases(b));
}

static void hide_words_of_trade(listener *l, arena *scratch)
{
    for (uint32_t i = 0; i < l->book->not_danger.count; i++) {
        str plain = unicode_plain(scratch, l->book->not_danger.items[i].name);
        if (plain.n > 0) phrasebook_add(&l->danger, plain, 0);
    }
}

static void list_complaints(listener *l, arena *keep)
{
    uint32_t *all = ARENA_ARRAY(keep, uint32_t, l->book->symptom_count);
    for (uint32_t i = 0; i < l->book->symptom_count; i++)
        if (is_complaint(l->book, i)) all[l->complaint_count++] = i;
    l->complaints = all;
    assert(l->complaint_count <= l->book->symptom_count);
}

/* What words of danger are heard with; nothing after it changes what these hear. */
static listener *danger_listener(arena *keep, arena *scratch, const book *b)
{
    assert(keep != scratch);
    listener *l = ARENA_NEW(keep, listener);
    *l = (listener){.book = b, .language = word_set_new(keep), .vocabulary = word_set_new(keep)};
    add_common_words(&l->language);
    vocabulary_add_book(&l->vocabulary, scratch, b);
    l->manner = phrasebook_new(keep, &l->language, &l->vocabulary);
    manner_words_add(&l->manner, scratch);
    l->gate = phrasebook_new(keep, &l->language, &l->vocabulary);
    gate_words_add(&l->gate, scratch);
    l->replies = phrasebook_new(keep, &l->language, &l->vocabulary);
    reply_words_add(&l->replies, scratch);
    l->danger = phrasebook_new(keep, &l->language, &l->vocabulary);
    danger_words_add(&l->danger, scratch);
    hide_words_of_trade(l, scratch);
    add_own_phrases(l, keep, scratch);
    return l;
}

const listener *listener_for_danger(arena *keep, arena *scratch, const book *b)
{
    return danger_listener(keep, scratch, b);
}

const listener *listener_new(arena *keep, arena *scratch, const book *b)
{
    listener *l = danger_listener(keep, scratch, b);
    l->outcomes = phrasebook_new(keep, &l->language, &l->vocabulary);
    outcome_words_add(&l->outcomes, scratch);
    list_complaints(l, keep);
    l->complaint_meaning = meaning_new(keep, scratch, b, &l->manner, &l->language);
    l->meaning = meaning_new(keep, scratch, b, &l->manner, &l->language);
    complaints_learn_words(l, scratch);
    l->questions = question_ears_new(&l->meaning, keep, scratch);
    l->numbers = number_words_new(keep, scratch, &l->language);
    complaints_learn(l, keep, scratch);
    return l;
}

uint64_t listen_manner(const listener *l, arena *scratch, str utterance)
{
    assert(l != NULL && scratch != NULL);
    const str plain = unicode_plain(scratch, utterance);
    return manner_of(&l->manner, scratch, plain) | manner_of(&l->replies, scratch, plain);
}
