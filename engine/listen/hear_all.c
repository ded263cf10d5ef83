/* All that is said in one breath: readings and answers, of the question asked and of others that
 * are named, then complaints in what is left. */
#include <assert.h>
#include <math.h>

#include "base/sorted.h"
#include "listen/hear_answer.h"

/* Shares of a question's name that must be said, to count as named and as named in full. */
static const double is_named = 0.5, is_hinted_at = 0.3, in_full = 0.99;
/* Evidence for an answer to a question that nobody asked, in units: the less it is named, the more
 * must be said. */
static const double sure_enough = 0.4, very_sure = 0.7;
/* The share of what is said that is to be about it. */
static const double most_known = 0.6;

enum { MOST_PARTS = 3 * MOST_CLAUSES + 1 }; /* a clause: an answer, a complaint, what is left */

typedef struct breath {
    const listener *l;
    arena *keep;
    const said *said;
    uint32_t asked;
    const bool *others; /* questions that are somebody else's work; or null */
    clause clauses[MOST_CLAUSES];
    uint32_t count;
    bool used[MOST_CLAUSES];
    listen_part *parts;
    uint32_t part_count;
} breath;

static words_in words_of_clause(const breath *b, uint32_t clause)
{
    assert(clause < b->count);
    return (words_in){b->l, b->keep, b->said, b->clauses[clause].first, b->clauses[clause].end};
}

static bool only_joins(const breath *b, uint32_t word)
{
    const uint64_t tags = manner_of(&b->l->manner, b->keep, b->said->words[word].plain);
    return (tags & MANNER_JOINS) != 0 && (tags & MANNER_DENIES) == 0;
}

/* Without the "and" before them. */
static str words_between(const breath *b, uint32_t from, uint32_t to)
{
    uint32_t first = 0;
    while (b->said->words[first].from < from) first++;
    while (first + 1 < b->said->count && b->said->words[first + 1].from < to &&
           only_joins(b, first))
        first++;
    return str_slice(b->said->text, b->said->words[first].from, to);
}

static listen_part *add_part(breath *b, listen_kind kind, uint32_t from, uint32_t to)
{
    assert(from < to && b->part_count < MOST_PARTS);
    listen_part *p = &b->parts[b->part_count++];
    *p = (listen_part){.kind = kind, .question = NO_ID, .from = from, .to = to};
    p->words = words_between(b, from, to);
    return p;
}

/* ---- which question ---- */

/* The questions of an ear: one for each piece of a kind; at a piece, that piece's. */
static uint32_t questions_of(const breath *b, uint32_t ear, uint32_t *out)
{
    const book *k = b->l->book;
    const uint32_t piece = b->asked == NO_ID ? NO_ID : k->questions[b->asked].of.piece;
    uint32_t count = 0;
    for (uint32_t i = 0; i < k->question_count; i++) {
        if (b->l->questions.of[i] != ear) continue;
        if (piece != NO_ID && k->questions[i].of.piece == piece) {
            out[0] = i;
            return 1;
        }
        out[count++] = i;
    }
    assert(count > 0);
    return count;
}

static void add_answer(breath *b, const words_in *w, uint32_t ear, answer_heard h)
{
    uint32_t *questions = ARENA_ARRAY(b->keep, uint32_t, b->l->book->question_count);
    const uint32_t count = questions_of(b, ear, questions);
    const uint32_t from = w->s->words[w->first].from, to = w->s->words[w->end - 1].to;
    listen_part *p = add_part(b, count == 1 ? LISTEN_ANSWER : LISTEN_WHICH, from, to);
    p->answer = h;
    if (count == 1) {
        p->question = questions[0];
    } else {
        p->questions = questions;
        p->question_count = count;
    }
}

/* What an attendant says is no answer to a question for whoever opens the machine. */
static bool is_others(const breath *b, uint32_t question)
{
    assert(question < b->l->book->question_count);
    return b->others != NULL && b->others[question] && question != b->asked;
}

/* ---- readings ---- */

typedef struct candidate {
    uint32_t ear;
    double named, weight; /* share of its name, and how much of what was said speaks of it */
    answer_heard answer;
} candidate;

static int by_weight(const void *left, const void *right)
{
    const candidate *a = left, *b = right;
    const bool full_a = a->named >= in_full, full_b = b->named >= in_full;
    if (full_a != full_b) return full_a ? -1 : 1;
    return a->weight != b->weight ? THREE_WAY(b->weight, a->weight) : THREE_WAY(a->ear, b->ear);
}

static bool reads_number(const question *q)
{
    return q->kind == QUESTION_READING || q->kind == QUESTION_COUNT;
}

/* Without the amount itself: the "minutes" of 20 minutes names no question about minutes. */
static features without_amount(const words_in *w, const features *f, const question *q)
{
    const said_numbers n = said_numbers_find(&w->l->numbers, w->keep, w->s, w->first, w->end);
    const unit shown = book_shown_unit(w->l->book, &q->in);
    feature *left = ARENA_ARRAY(w->keep, feature, f->count);
    features out = {.items = left, .strangers = f->strangers, .fine = f->fine};
    str typed;
    uint32_t end;
    assert(n.count == 1);
    said_amount(w->keep, w->s, &n.items[0], w->end, &shown, &typed, &end);
    for (uint32_t i = 0; i < f->count; i++)
        if (f->items[i].first < n.items[0].first || f->items[i].first >= end)
            left[out.count++] = f->items[i];
    return out;
}

/* All questions that the number could be an answer to, the best named first. */
static uint32_t find_candidates(const breath *b, const words_in *w, const features *f,
                                candidate *out)
{
    uint32_t count = 0;
    for (uint32_t e = 0; e < b->l->questions.count; e++) {
        const question_ear *ear = &b->l->questions.items[e];
        const struct question *q = &b->l->book->questions[ear->question];
        if (!reads_number(q) || (q->gate && ear->question != b->asked)) continue;
        if (is_others(b, ear->question)) continue;
        const answer_heard h = answer_in(w, ear->question, false, NULL);
        if (h.kind != ANSWER_READING) continue;
        const features rest = without_amount(w, f, q);
        const double weight = question_spoken_of(&b->l->questions, e, &rest);
        if (weight > 0) out[count++] = (candidate){e, question_named(ear, &rest), weight, h};
    }
    SORT(out, count, by_weight);
    return count;
}

/* Facts of the site are told in advance; a number that is told in a call is hardly one of them. */
static bool is_of_site(const breath *b, const candidate *c)
{
    return b->l->book->questions[b->l->questions.items[c->ear].question].about == ABOUT_SITE;
}

static void add_which(breath *b, const words_in *w, const candidate *c, uint32_t count)
{
    listen_part *p =
        add_part(b, LISTEN_WHICH, w->s->words[w->first].from, w->s->words[w->end - 1].to);
    uint32_t *questions = ARENA_ARRAY(b->keep, uint32_t, b->l->book->question_count);
    for (uint32_t i = 0; i < count; i++)
        if (!is_of_site(b, &c[i]))
            p->question_count += questions_of(b, c[i].ear, questions + p->question_count);
    p->answer = c[0].answer;
    p->questions = questions;
    if (p->question_count == 0) {
        questions[0] = b->l->questions.items[c[0].ear].question;
        p->question_count = 1;
    }
    assert(p->question_count <= b->l->book->question_count);
}

/* Nearly as well spoken of as the first; a full name is beyond doubt. */
static uint32_t tied(const candidate *c, uint32_t count)
{
    const double nearly = 0.65;
    uint32_t tied = 1;
    assert(count > 0);
    if (c[0].named >= in_full) {
        while (tied < count && c[tied].named >= in_full && c[tied].weight >= c[0].weight - 1e-9)
            tied++;
        return tied;
    }
    while (tied < count && c[tied].weight >= nearly * c[0].weight) tied++;
    return tied;
}

static uint32_t without_site(const breath *b, candidate *c, uint32_t count)
{
    uint32_t kept = 0;
    for (uint32_t i = 0; i < count; i++)
        if (!is_of_site(b, &c[i])) c[kept++] = c[i];
    return kept > 0 ? kept : count;
}

static bool hear_reading_elsewhere(breath *b, const words_in *w, const features *f)
{
    candidate *c = ARENA_ARRAY(b->keep, candidate, b->l->questions.count);
    uint32_t count = find_candidates(b, w, f, c);
    if (count == 0) return false;
    count = tied(c, count);
    count = without_site(b, c, count);
    if (count == 1)
        add_answer(b, w, c[0].ear, c[0].answer);
    else
        add_which(b, w, c, count);
    return true;
}

/* "foam 40, pump 45" at the foam's gauge: the second is another's. */
static bool is_named_elsewhere(const breath *b, const features *f)
{
    const uint32_t own = b->l->questions.of[b->asked];
    assert(own < b->l->questions.count);
    const double here = question_spoken_of(&b->l->questions, own, f);
    for (uint32_t e = 0; e < b->l->questions.count; e++) {
        const question_ear *ear = &b->l->questions.items[e];
        if (e != own && reads_number(&b->l->book->questions[ear->question]) &&
            question_named(ear, f) >= is_named &&
            question_spoken_of(&b->l->questions, e, f) > here + 1e-9)
            return true;
    }
    return false;
}

static bool is_reading(const breath *b, uint32_t question)
{
    return question != NO_ID && reads_number(&b->l->book->questions[question]);
}

static bool hear_number_in(breath *b, const words_in *w, const features *f)
{
    said_numbers n = said_numbers_find(&b->l->numbers, b->keep, w->s, w->first, w->end);
    if (n.count == 0) return false;
    if (is_reading(b, b->asked) && !is_named_elsewhere(b, f)) return false; /* the question's own */
    return hear_reading_elsewhere(b, w, f);
}

/* ---- other answers ---- */

typedef struct other {
    uint32_t ear;
    double named, strength;
    answer_heard answer;
} other;

static bool tells_something(const answer_heard *h)
{
    return h->kind == ANSWER_ONE || h->kind == ANSWER_NOT;
}

/* What is named beside it, and neither the question nor its answers speak of: the slime in a hose
 * of which only bubbles were asked. In units of evidence. */
static double spoken_beside(const breath *b, const question_ear *ear, const features *f)
{
    const double each = 0.8;
    double against = 0;
    for (uint32_t i = 0; i < f->count; i++) {
        const feature_id id = f->items[i].id;
        if (id < b->l->book->concept_count && !question_speaks_with(ear, id) &&
            !word_model_knows(&ear->answers, id))
            against += each;
    }
    return against;
}

/* The choice that is named best and answered. */
static other best_other(const breath *b, const words_in *w, const features *f)
{
    other best = {.ear = NO_ID};
    for (uint32_t e = 0; e < b->l->questions.count; e++) {
        const question_ear *ear = &b->l->questions.items[e];
        const struct question *q = &b->l->book->questions[ear->question];
        other o = {.ear = e, .named = question_named(ear, f)};
        if (q->kind != QUESTION_CHOICE || q->gate || ear->question == b->asked ||
            o.named < is_hinted_at || is_others(b, ear->question))
            continue;
        o.answer = answer_in(w, ear->question, false, &o.strength);
        o.strength -= spoken_beside(b, ear, f);
        if (!tells_something(&o.answer) || (q->yes_no && o.named < is_named)) continue;
        if (!q->yes_no && o.strength < (o.named >= is_named ? sure_enough : very_sure)) continue;
        if (best.ear == NO_ID || o.named + o.strength > best.named + best.strength) best = o;
    }
    return best;
}

/* The complaint that rests on the answer is the answer in other words. */
static bool is_complaint_of(const breath *b, const other *o, uint32_t symptom)
{
    const struct symptom *s = &b->l->book->symptoms[symptom];
    return s->rests_on_one && b->l->questions.of[s->one_question] == o->ear;
}

/* What is said in the clause beside the question's name: the clause with those words taken out. */
static said beside_name(const breath *b, const question_ear *ear, const clause *c,
                        const features *f)
{
    said_word *left = ARENA_ARRAY(b->keep, said_word, c->end - c->first);
    said rest = {.text = b->said->text, .words = left, .patience = b->said->patience};
    for (uint32_t w = c->first; w < c->end; w++) {
        bool named = false;
        for (uint32_t i = 0; i < f->count && !named; i++)
            named = f->items[i].first <= w && w < f->items[i].end &&
                    question_name_has(ear, f->items[i].id);
        if (!named) left[rest.count++] = b->said->words[w];
    }
    assert(rest.count <= c->end - c->first);
    return rest;
}

/* All of a yes-or-no question's name said, and nothing asked, is said to be so: then only what is
 * said beside the name tells of a complaint. */
static bool is_complaint_rather(const breath *b, const other *o, const clause *c, const features *f)
{
    assert(o->ear < b->l->questions.count);
    const complaints_heard heard = complaints_in(b->l, b->keep, b->said, c, 1);
    if (heard.count == 0 || heard.items[0].kind != COMPLAINT_CLEAR) return false;
    if (is_complaint_of(b, o, heard.items[0].ranked[0].symptom)) return true;
    const question_ear *ear = &b->l->questions.items[o->ear];
    if (!b->l->book->questions[ear->question].yes_no || o->named < in_full)
        return heard.items[0].ranked[0].evidence > o->strength * log(3);
    const said rest = beside_name(b, ear, c, f);
    const clause all = {.first = 0, .end = rest.count};
    const complaints_heard beside = complaints_in(b->l, b->keep, &rest, &all, rest.count > 0);
    return beside.count > 0 && beside.items[0].kind == COMPLAINT_CLEAR;
}

/* No question is asked: what is said has to tell an answer and not only which question that would
 * be, and most of it has to be about that. "Main air is low": a full name, and an answer beside it.
 */
static bool is_about(const breath *b, const other *o, const features *f)
{
    const question_ear *ear = &b->l->questions.items[o->ear];
    const question_words n = question_words_in(&b->l->questions, o->ear, f);
    const bool in_so_many_words = o->named >= in_full && n.naming > 0 && n.answering > 0,
               tells =
                   b->l->book->questions[ear->question].yes_no || n.telling > 0 || in_so_many_words;
    return tells && n.known > 0 && n.known >= most_known * n.all;
}

static bool hear_other(breath *b, uint32_t clause, const words_in *w, const features *f)
{
    const other o = best_other(b, w, f);
    if (o.ear == NO_ID) return false;
    if (b->asked == NO_ID &&
        (!is_about(b, &o, f) || is_complaint_rather(b, &o, &b->clauses[clause], f)))
        return false;
    add_answer(b, w, o.ear, o.answer);
    return true;
}

/* ---- the question that is asked ---- */

/* Two clauses that answer it: the same, or one of several. */
static void join_answers(answer_heard *into, const answer_heard *h)
{
    const bool both =
        into->answers != 0 && h->answers != 0 && into->kind != ANSWER_NOT && h->kind != ANSWER_NOT;
    const bool better = into->kind == ANSWER_NONE || into->kind == ANSWER_UNSURE ||
                        into->kind == ANSWER_CANNOT || into->kind == ANSWER_NOT;
    if (both) {
        const bool same = into->answers == h->answers;
        into->answers |= h->answers;
        into->kind = same ? into->kind : ANSWER_SEVERAL;
        into->to = h->to;
    } else if (better && h->kind != ANSWER_NONE) {
        *into = *h;
    } else if (into->kind == ANSWER_READING && h->kind == ANSWER_READING) {
        into->kind = ANSWER_VAGUE;
    }
}

/* What tells little of it may be another question's answer, if that is named in full. */
static bool hear_asked(breath *b, const words_in *w, const features *f, answer_heard *into)
{
    double strength;
    const answer_heard h = answer_in(w, b->asked, true, &strength);
    const other o = strength < 1 ? best_other(b, w, f) : (other){.ear = NO_ID};
    if (o.ear != NO_ID && o.named >= in_full && o.strength > strength) return false;
    join_answers(into, &h);
    return h.kind != ANSWER_NONE;
}

static void place_answer(breath *b, const answer_heard *h)
{
    if (h->kind == ANSWER_NONE) return;
    listen_part *p = add_part(b, LISTEN_ANSWER, h->from, h->to);
    p->question = b->asked;
    p->answer = *h;
}

/* The whole of it is an answer's own words, or its number. */
static bool is_whole_answer(breath *b)
{
    const words_in all = {b->l, b->keep, b->said, 0, b->said->count};
    const struct question *q = b->asked == NO_ID ? NULL : &b->l->book->questions[b->asked];
    if (q == NULL || q->kind != QUESTION_CHOICE) return false;
    const bool whole =
        answer_said_whole(&all, q) != NO_ID || said_choice(&b->l->numbers, b->keep, b->said) > 0;
    if (!whole) return false;
    const answer_heard h = answer_in(&all, b->asked, true, NULL);
    place_answer(b, &h);
    return h.kind != ANSWER_NONE;
}

/* ---- together ---- */

static void hear_clauses(breath *b)
{
    answer_heard own = {.kind = ANSWER_NONE};
    for (uint32_t i = 0; i < b->count; i++) {
        const words_in w = words_of_clause(b, i);
        const features f = meaning_read(&b->l->meaning, b->keep, b->said, w.first, w.end);
        b->used[i] = hear_number_in(b, &w, &f);
        if (!b->used[i] && b->asked != NO_ID) b->used[i] = hear_asked(b, &w, &f, &own);
        if (!b->used[i]) b->used[i] = hear_other(b, i, &w, &f);
    }
    place_answer(b, &own);
}

/* What no answer took, clause by clause that stand beside each other. */
static void hear_complaints(breath *b)
{
    for (uint32_t from = 0, to; from < b->count; from = to) {
        to = from + 1;
        if (b->used[from]) continue;
        while (to < b->count && !b->used[to]) to++;
        const complaints_heard c =
            complaints_in(b->l, b->keep, b->said, &b->clauses[from], to - from);
        for (uint32_t i = 0; i < c.count; i++)
            add_part(b, LISTEN_COMPLAINT, c.items[i].from, c.items[i].to)->complaint = &c.items[i];
    }
}

static bool is_covered(const breath *b, const clause *c)
{
    for (uint32_t i = 0; i < b->part_count; i++)
        if (b->parts[i].from <= b->said->words[c->first].from &&
            b->said->words[c->end - 1].to <= b->parts[i].to)
            return true;
    return false;
}

static void keep_unused(breath *b)
{
    const uint32_t heard = b->part_count;
    for (uint32_t i = 0; i < b->count; i++)
        if (!b->used[i] && !is_covered(b, &b->clauses[i]))
            add_part(b, LISTEN_UNUSED, b->said->words[b->clauses[i].first].from,
                     b->said->words[b->clauses[i].end - 1].to);
    assert(b->part_count >= heard);
}

static int by_place(const void *left, const void *right)
{
    const listen_part *a = left, *b = right;
    return a->from != b->from ? THREE_WAY(a->from, b->from) : THREE_WAY(a->question, b->question);
}

listen_parts listen_all(const listener *l, arena *keep, uint32_t asked, const bool *others,
                        str utterance)
{
    said *s = ARENA_NEW(keep, said);
    *s = said_read(keep, utterance);
    breath b = {.l = l, .keep = keep, .said = s, .asked = asked, .others = others};
    b.parts = ARENA_ARRAY(keep, listen_part, MOST_PARTS);
    assert(asked == NO_ID || asked < l->book->question_count);
    if (s->count == 0) return (listen_parts){b.parts, 0};
    if (!is_whole_answer(&b)) {
        b.count = clauses_cut(l, keep, s, b.clauses);
        hear_clauses(&b);
        hear_complaints(&b);
        keep_unused(&b);
        SORT(b.parts, b.part_count, by_place);
    }
    return (listen_parts){b.parts, b.part_count};
}
