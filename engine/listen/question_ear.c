/* Names and answers of all questions, learned once. */
#include "listen/question_ear.h"

#include <assert.h>
#include <math.h>

#include "base/unicode.h"

static bool can_be_asked(const question *q)
{
    return q->kind != QUESTION_QUANTITY && !q->made;
}

/* Pieces of a kind stand beside each other. */
static bool is_new(const book *b, uint32_t question)
{
    return question == 0 ||
           !str_eq(b->questions[question].of.base, b->questions[question - 1].of.base);
}

/* ---- words ---- */

static void learn_texts(meaning *m, arena *scratch, const texts *t)
{
    for (uint32_t i = 0; i < t->count; i++) meaning_learn(m, scratch, t->items[i].text);
}

static void learn_heard(meaning *m, arena *scratch, const heard_list *list)
{
    for (uint32_t i = 0; i < list->count; i++)
        if (list->items[i].pattern == NULL) meaning_learn(m, scratch, list->items[i].plain);
}

static void learn_words_of(meaning *m, arena *scratch, const question *q)
{
    meaning_learn(m, scratch, q->of.base);
    learn_texts(m, scratch, &q->ask);
    for (uint32_t i = 0; i < q->answer_count; i++) {
        meaning_learn(m, scratch, q->answers[i].id.name);
        learn_texts(m, scratch, &q->answers[i].text);
        learn_heard(m, scratch, &q->answers[i].heard);
    }
}

/* ---- answers ---- */

typedef struct lesson_of {
    const meaning *m;
    arena *scratch;
    model_draft *draft;
} lesson_of;

static void learn_phrase_of(const lesson_of *l, uint32_t answer, str text, double weight)
{
    const arena_mark mark = arena_here(l->scratch);
    said s = said_read(l->scratch, text);
    features f = meaning_read(l->m, l->scratch, &s, 0, s.count);
    model_draft_learn(l->draft, answer, &f, weight);
    arena_back_to(l->scratch, mark);
}

/* A complaint that rests on an answer is spoken of as the answer is. */
static void learn_from_complaint(const lesson_of *l, uint32_t question)
{
    const book *b = l->m->book;
    for (uint32_t i = 0; i < b->symptom_count; i++) {
        const symptom *s = &b->symptoms[i];
        if (!s->rests_on_one || s->one_question != question) continue;
        for (uint32_t k = 0; k < s->text.count; k++)
            learn_phrase_of(l, s->one_answer, s->text.items[k].text, 0.5);
        for (uint32_t k = 0; k < s->heard.count; k++)
            if (s->heard.items[k].pattern == NULL)
                learn_phrase_of(l, s->one_answer, s->heard.items[k].plain, 0.5);
    }
}

static word_model answers_of(const meaning *m, arena *keep, arena *scratch, uint32_t question)
{
    const struct question *q = &m->book->questions[question];
    const lesson_of l = {m, scratch, model_draft_new(keep, q->answer_count)};
    for (uint32_t i = 0; i < q->answer_count; i++) {
        const answer_option *a = &q->answers[i];
        if (!q->yes_no) learn_phrase_of(&l, i, a->id.name, 1);
        for (uint32_t k = 0; k < a->text.count; k++)
            learn_phrase_of(&l, i, a->text.items[k].text, 1);
        for (uint32_t k = 0; k < a->heard.count; k++)
            if (a->heard.items[k].pattern == NULL)
                learn_phrase_of(&l, i, a->heard.items[k].plain, 1);
    }
    learn_from_complaint(&l, question);
    return model_draft_done(l.draft, ARENA_ARRAY(keep, double, q->answer_count));
}

/* ---- names ---- */

static features features_of(const meaning *m, arena *scratch, str text)
{
    said *s = ARENA_NEW(scratch, said);
    *s = said_read(scratch, text);
    return meaning_read(m, scratch, s, 0, s->count);
}

/* Features of one word of the name stand beside each other, and have its place. */
static uint32_t word_end(const features *f, uint32_t from)
{
    uint32_t to = from;
    assert(from < f->count);
    while (to < f->count && f->items[to].first == f->items[from].first) to++;
    return to;
}

static void name_question(question_ear *e, const meaning *m, arena *keep, arena *scratch)
{
    features f = features_of(m, scratch, m->book->questions[e->question].of.base);
    name_word *name = ARENA_ARRAY(keep, name_word, f.count);
    for (uint32_t from = 0; from < f.count; from = word_end(&f, from)) {
        const uint32_t count = word_end(&f, from) - from;
        feature_id *ids = ARENA_ARRAY(keep, feature_id, count);
        for (uint32_t i = 0; i < count; i++) ids[i] = f.items[from + i].id;
        name[e->name_count++] = (name_word){ids, count, 1};
    }
    e->name = name;
}

static bool holds_id(const feature_id *ids, uint32_t count, feature_id id)
{
    for (uint32_t i = 0; i < count; i++)
        if (ids[i] == id) return true;
    return false;
}

static void ask_question(question_ear *e, const meaning *m, arena *keep, arena *scratch)
{
    const texts *ask = &m->book->questions[e->question].ask;
    uint32_t most = 0;
    for (uint32_t i = 0; i < ask->count; i++)
        most += features_of(m, scratch, ask->items[i].text).count;
    feature_id *ids = ARENA_ARRAY(keep, feature_id, most);
    for (uint32_t i = 0; i < ask->count; i++) {
        features f = features_of(m, scratch, ask->items[i].text);
        for (uint32_t k = 0; k < f.count; k++)
            if (f.items[k].id != FEATURE_DENIAL && !holds_id(ids, e->asked_count, f.items[k].id))
                ids[e->asked_count++] = f.items[k].id;
    }
    assert(e->asked_count <= most);
    e->asked = ids;
}

bool question_name_has(const question_ear *e, feature_id id)
{
    for (uint32_t k = 0; k < e->name_count; k++)
        if (holds_id(e->name[k].features, e->name[k].count, id)) return true;
    return false;
}

bool question_speaks_with(const question_ear *e, feature_id id)
{
    return question_name_has(e, id) || holds_id(e->asked, e->asked_count, id);
}

/* Denial comes behind all others. */
static uint32_t place_of(const question_ears *all, feature_id id)
{
    return id == FEATURE_DENIAL ? all->feature_count : id;
}

typedef struct spoken { /* [feature] */
    uint32_t *with, *last;
} spoken;

static void count_features(const spoken *s, const question_ears *all, const feature_id *ids,
                           uint32_t count, uint32_t ear)
{
    for (uint32_t i = 0; i < count; i++) {
        const uint32_t at = place_of(all, ids[i]);
        s->with[at] += s->last[at] != ear + 1;
        s->last[at] = ear + 1;
    }
}

static void count_spoken(question_ears *all, const meaning *m, arena *keep, arena *scratch)
{
    all->feature_count = meaning_features(m);
    const size_t room = (size_t)all->feature_count + 1;
    const spoken s = {ARENA_ARRAY(keep, uint32_t, room), ARENA_ARRAY(scratch, uint32_t, room)};
    for (uint32_t i = 0; i < all->count; i++) {
        const question_ear *e = &all->items[i];
        for (uint32_t k = 0; k < e->name_count; k++)
            count_features(&s, all, e->name[k].features, e->name[k].count, i);
        count_features(&s, all, e->asked, e->asked_count, i);
    }
    all->with = s.with;
}

/* No question is spoken of with a word that was learned later. */
static uint32_t spoken_with(const question_ears *all, feature_id id)
{
    const uint32_t at = place_of(all, id);
    return at <= all->feature_count ? all->with[at] : 0;
}

/* The rarer a feature is in names and texts of questions, the more it tells of one. */
static double weight_of_feature(const question_ears *all, feature_id id)
{
    const uint32_t with = spoken_with(all, id);
    return log(1.0 + (double)all->count / (with > 0 ? with : 1));
}

/* What the whole book is about, as foam is, tells nothing of an answer. */
static bool is_common(const question_ears *all, feature_id id)
{
    const uint32_t few = 3, one_in = 12, with = id == FEATURE_DENIAL ? 0 : spoken_with(all, id);
    return with > few && with * one_in > all->count;
}

question_words question_words_in(const question_ears *all, uint32_t ear, const features *f)
{
    assert(ear < all->count);
    const question_ear *e = &all->items[ear];
    question_words n = {.all = f->strangers};
    for (uint32_t i = 0, end; i < f->count; i = end) {
        bool names = false, answers = false, denial = false, common = false;
        for (end = i; end < f->count && f->items[end].first == f->items[i].first; end++) {
            const feature_id id = f->items[end].id;
            denial = denial || id == FEATURE_DENIAL;
            names = names || (id != FEATURE_DENIAL && question_speaks_with(e, id));
            answers = answers || (id != FEATURE_DENIAL && word_model_knows(&e->answers, id));
            common = common || is_common(all, id);
        }
        if (denial) continue;
        n.all++;
        n.known += names || answers;
        n.naming += names && !common;
        n.answering += answers && !names;
        n.telling += f->items[i].denied ? names || answers : answers && !names && !common;
    }
    return n;
}

double question_spoken_of(const question_ears *all, uint32_t ear, const features *f)
{
    const double in_text = 0.7;
    assert(ear < all->count);
    const question_ear *e = &all->items[ear];
    double sum = 0;
    for (uint32_t i = 0, end; i < f->count;
         i = end) { /* of the features of one word the one that tells most */
        double most = 0;
        for (end = i; end < f->count && f->items[end].first == f->items[i].first; end++) {
            const feature_id id = f->items[end].id;
            const double part = question_name_has(e, id)                 ? 1
                                : holds_id(e->asked, e->asked_count, id) ? in_text
                                                                         : 0;
            if (part > 0) most = fmax(most, part * weight_of_feature(all, id));
        }
        sum += most;
    }
    return sum;
}

static void weigh_names(const question_ears *all, question_ear *items)
{
    for (uint32_t i = 0; i < all->count; i++)
        for (uint32_t k = 0; k < items[i].name_count; k++) {
            name_word *w = &items[i].name[k];
            w->weight = w->count > 0 ? weight_of_feature(all, w->features[0]) : 0;
        }
}

question_ears question_ears_new(meaning *m, arena *keep, arena *scratch)
{
    const book *b = m->book;
    uint32_t *of = ARENA_ARRAY(keep, uint32_t, b->question_count);
    question_ear *items = ARENA_ARRAY(keep, question_ear, b->question_count);
    question_ears all = {.items = items, .of = of};
    for (uint32_t i = 0; i < b->question_count; i++)
        if (can_be_asked(&b->questions[i]) && is_new(b, i))
            learn_words_of(m, scratch, &b->questions[i]);
    for (uint32_t i = 0; i < b->question_count; i++) {
        of[i] = NO_ID;
        if (!can_be_asked(&b->questions[i])) continue;
        if (is_new(b, i)) {
            question_ear *e = &items[all.count++];
            *e = (question_ear){.question = i};
            if (b->questions[i].kind == QUESTION_CHOICE)
                e->answers = answers_of(m, keep, scratch, i);
            name_question(e, m, keep, scratch);
            ask_question(e, m, keep, scratch);
        }
        of[i] = all.count - 1;
    }
    count_spoken(&all, m, keep, scratch);
    weigh_names(&all, items);
    assert(all.count <= b->question_count);
    return all;
}

double question_named(const question_ear *e, const features *f)
{
    double all = 0, said = 0;
    for (uint32_t k = 0; k < e->name_count; k++) {
        const name_word *w = &e->name[k];
        bool there = false;
        for (uint32_t i = 0; i < f->count && !there; i++)
            there = holds_id(w->features, w->count, f->items[i].id);
        all += w->weight;
        said += there ? w->weight : 0;
    }
    assert(said <= all + 1e-9);
    return all > 0 ? said / all : 0;
}
