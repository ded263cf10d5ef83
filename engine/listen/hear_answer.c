/* An answer to one question: named whole, by its number, by words that tell it from the others; yes
 * and no; as usual; anything but one; unsure, cannot; a reading. */
#include "listen/hear_answer.h"

#include <assert.h>
#include <math.h>

#include "base/pattern.h"
#include "base/unicode.h"

/* In units of the logarithm of how many answers there are, and shares. */
static const double enough = 0.4, clear_share = 0.6, rival_share = 0.25;
static const double sure_of_told = 0.5; /* of a yes or no that was told, not said */

static answer_heard nothing(const words_in *w)
{
    answer_heard h = {.kind = ANSWER_NONE};
    assert(w->first <= w->end && w->end <= w->s->count);
    if (w->first < w->end) {
        h.from = w->s->words[w->first].from;
        h.to = w->s->words[w->end - 1].to;
    }
    return h;
}

static answer_heard of_kind(const words_in *w, answer_kind kind, uint64_t answers)
{
    answer_heard h = nothing(w);
    h.kind = kind;
    h.answers = answers;
    return h;
}

static uint64_t only(uint32_t answer)
{
    assert(answer < 64);
    return (uint64_t)1 << answer;
}

static said words_of(const words_in *w)
{
    return said_within(w->s, w->first, w->end);
}

static phrase_items manners_of(const words_in *w)
{
    const said s = words_of(w);
    return phrasebook_read(&w->l->manner, w->keep, w->keep, &s);
}

bool manner_in(const words_in *w, uint64_t manner)
{
    phrase_items m = manners_of(w);
    for (uint32_t i = 0; i < m.count; i++)
        if ((m.items[i].tags & manner) != 0) return true;
    return false;
}

/* Nothing but words of these kinds. */
static bool manner_only(const words_in *w, uint64_t manner)
{
    phrase_items m = manners_of(w);
    for (uint32_t i = 0; i < m.count; i++)
        if ((m.items[i].tags & manner) == 0) return false;
    return m.count > 0;
}

/* ---- named whole ---- */

static bool is_text(const words_in *w, str text)
{
    str plain = unicode_plain(w->keep, text);
    return plain.n > 0 && str_eq(plain, unicode_plain(w->keep, said_part(w->s, w->first, w->end)));
}

static bool is_said_whole(const words_in *w, const answer_option *a)
{
    if (is_text(w, a->id.name)) return true;
    for (uint32_t i = 0; i < a->text.count; i++)
        if (is_text(w, a->text.items[i].text)) return true;
    for (uint32_t i = 0; i < a->heard.count; i++)
        if (a->heard.items[i].pattern == NULL && is_text(w, a->heard.items[i].plain)) return true;
    return false;
}

uint32_t answer_said_whole(const words_in *w, const question *q)
{
    for (uint32_t i = 0; i < q->answer_count; i++)
        if (is_said_whole(w, &q->answers[i])) return i;
    return NO_ID;
}

static bool begins(str text, str with)
{
    return text.n >= with.n && with.n > 0 && str_eq(str_slice(text, 0, with.n), with);
}

/* The one answer that begins with these words; NO_ID if none or several do. */
static uint32_t answer_begun(const words_in *w, const question *q)
{
    const str plain = unicode_plain(w->keep, said_part(w->s, w->first, w->end));
    uint32_t found = NO_ID;
    for (uint32_t i = 0; i < q->answer_count; i++) {
        bool fits = begins(unicode_plain(w->keep, q->answers[i].id.name), plain);
        for (uint32_t k = 0; k < q->answers[i].text.count; k++)
            fits = fits || begins(unicode_plain(w->keep, q->answers[i].text.items[k].text), plain);
        if (fits && found != NO_ID) return NO_ID;
        if (fits) found = i;
    }
    return found;
}

static bool fits_pattern(const words_in *w, const answer_option *a)
{
    str nfc = unicode_nfc(w->keep, said_part(w->s, w->first, w->end));
    for (uint32_t i = 0; i < a->heard.count; i++)
        if (a->heard.items[i].pattern != NULL &&
            pattern_match(a->heard.items[i].pattern, w->keep, nfc, w->s->patience, NULL, NULL) ==
                PATTERN_YES)
            return true;
    return false;
}

/* The one answer that its number names, or a pattern. */
static uint32_t answer_pointed_at(const words_in *w, const question *q, bool asked)
{
    const said s = words_of(w);
    const uint32_t number = asked ? said_choice(&w->l->numbers, w->keep, &s) : 0;
    assert(q->kind == QUESTION_CHOICE);
    if (number >= 1 && number <= q->answer_count) return q->shown_order[number - 1];
    for (uint32_t i = 0; i < q->answer_count; i++)
        if (fits_pattern(w, &q->answers[i])) return i;
    return NO_ID;
}

/* ---- by words ---- */

typedef struct vote {
    uint32_t best, second;
    double strength, second_strength; /* evidence in units */
    double share, second_share;       /* posterior */
} vote;

static vote count_votes(const words_in *w, const word_model *m, const features *f)
{
    double *score = ARENA_ARRAY(w->keep, double, m->classes), sum = 0;
    const double unit = log(1.0 + m->classes);
    assert(m->classes > 0 && m->classes <= 64);
    vote v = {0, NO_ID, 0, 0, 0, 0};
    word_model_score(m, w->keep, f, word_model_strangers(m, f), score);
    for (uint32_t i = 1; i < m->classes; i++)
        if (score[i] > score[v.best]) v.best = i;
    for (uint32_t i = 0; i < m->classes; i++) sum += exp(score[i] - score[v.best]);
    for (uint32_t i = 0; i < m->classes; i++)
        if (i != v.best && (v.second == NO_ID || score[i] > score[v.second])) v.second = i;
    v.strength = score[v.best] / unit;
    v.share = 1 / sum;
    if (v.second != NO_ID) {
        v.second_strength = score[v.second] / unit;
        v.second_share = exp(score[v.second] - score[v.best]) / sum;
    }
    return v;
}

static answer_heard by_votes(const words_in *w, const vote *v)
{
    assert(v->share > 0 && v->share <= 1 && v->second_share <= v->share);
    if (v->strength < enough) return nothing(w);
    const bool rival =
        v->second != NO_ID && v->second_strength >= enough && v->second_share >= rival_share;
    if (rival) return of_kind(w, ANSWER_SEVERAL, only(v->best) | only(v->second));
    return v->share >= clear_share ? of_kind(w, ANSWER_ONE, only(v->best)) : nothing(w);
}

/* What was denied, as if it had not been. */
static features undenied(const words_in *w, const features *f, bool *any)
{
    feature *items = ARENA_ARRAY(w->keep, feature, f->count);
    features all = *f;
    all.count = 0;
    all.items = items;
    *any = false;
    for (uint32_t i = 0; i < f->count; i++) {
        if (f->items[i].id == FEATURE_DENIAL) continue;
        *any = *any || f->items[i].denied;
        items[all.count] = f->items[i];
        items[all.count++].denied = false;
    }
    assert(all.count <= f->count);
    return all;
}

/* "It isn't dry": anything but that. */
static answer_heard by_denial(const words_in *w, const word_model *m, const features *f,
                              uint32_t usual)
{
    bool any;
    const features turned = undenied(w, f, &any);
    const bool denies = any || manner_in(w, MANNER_DENIES);
    if (denies && usual != NO_ID && manner_in(w, MANNER_USUAL))
        return of_kind(w, ANSWER_NOT, only(usual));
    if (!any) return nothing(w);
    const vote v = count_votes(w, m, &turned);
    return v.strength >= enough && v.share >= clear_share ? of_kind(w, ANSWER_NOT, only(v.best))
                                                          : nothing(w);
}

static uint32_t usual_of(const question *q)
{
    return q->has_usual && q->kind == QUESTION_CHOICE ? q->usual_answer : NO_ID;
}

/* ---- yes and no ---- */

static uint32_t answer_named(const question *q, const char *name)
{
    for (uint32_t i = 0; i < q->answer_count; i++)
        if (str_is(q->answers[i].id.name, name)) return i;
    return NO_ID;
}

static uint32_t common_with_question(const question_ear *e, const features *f, bool denied)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < f->count; i++)
        for (uint32_t k = 0; k < e->asked_count; k++)
            count += e->asked[k] == f->items[i].id && f->items[i].denied == denied;
    return count;
}

/* At its beginning or its end: "yes it stopped", "moves a bit, yes". */
static const char *plain_yes_or_no(const words_in *w)
{
    phrase_items m = manners_of(w);
    if (m.count == 0) return NULL;
    const uint64_t begin = m.items[0].tags, end = m.items[m.count - 1].tags;
    if ((begin & MANNER_YES) != 0) return "yes";
    const bool no_only =
        (begin & MANNER_NO) != 0 && (m.count == 1 || m.items[0].end - m.items[0].first > 1 ||
                                     manner_only(w, MANNER_NO | MANNER_EMPTY));
    if (no_only) return "no";
    const bool no_subject = (begin & MANNER_NO) != 0 && m.count > 1 &&
                            (m.items[1].tags & MANNER_EMPTY) != 0 &&
                            m.items[1].end - m.items[1].first == 1;
    if (no_subject) return "no";
    if ((end & MANNER_YES) != 0 && (end & MANNER_EMPTY) == 0) return "yes";
    return m.count > 1 && (end & MANNER_NO) != 0 && (end & MANNER_BROKEN) == 0 ? "no" : NULL;
}

/* "it clicks", "no click", "stays dark". Out of order is a no where yes is usual. */
static const char *told_yes_or_no(const words_in *w, const question *q, const question_ear *e,
                                  const features *f, bool asked)
{
    const uint32_t usual = usual_of(q);
    assert(q->yes_no);
    const bool denies = manner_in(w, MANNER_DENIES),
               yes_usual = usual != NO_ID && str_is(q->answers[usual].id.name, "yes");
    const bool works = yes_usual && manner_in(w, MANNER_WORKS),
               broken = yes_usual && manner_in(w, MANNER_BROKEN);
    const uint32_t said = common_with_question(e, f, false),
                   denied = common_with_question(e, f, true);
    if (!asked && said + denied == 0) return NULL;
    if (broken || denied > 0 || (denies && asked)) return "no";
    if (works && !denies) return "yes";
    return said > 0 && !denies && (asked || (e->name_count > 1 && question_named(e, f) > 0.99))
               ? "yes"
               : NULL;
}

static answer_heard hear_yes_or_no(const words_in *w, const question *q, const question_ear *e,
                                   const features *f, bool asked, double *strength)
{
    const char *said = plain_yes_or_no(w);
    *strength = said != NULL ? 2 : sure_of_told;
    if (said == NULL) said = told_yes_or_no(w, q, e, f, asked);
    const uint32_t answer = said == NULL ? NO_ID : answer_named(q, said);
    return answer == NO_ID ? nothing(w) : of_kind(w, ANSWER_ONE, only(answer));
}

/* ---- a choice ---- */

static answer_heard in_doubt(const words_in *w, answer_heard h)
{
    if (h.kind == ANSWER_ONE && manner_in(w, MANNER_UNSURE)) h.kind = ANSWER_SEVERAL;
    return h;
}

/* "skip" is a word of the program, "skips" is what a pump does. */
static bool says_cannot(const words_in *w)
{
    phrase_items m = manners_of(w);
    for (uint32_t i = 0; i < m.count; i++)
        if ((m.items[i].tags & MANNER_CANNOT) != 0 && !m.items[i].slip) return true;
    return false;
}

/* Not only that an answer is supposed, which then has to be understood. */
static bool says_unsure(const words_in *w, uint64_t manners)
{
    const phrase_items m = manners_of(w);
    for (uint32_t i = 0; i < m.count; i++)
        if ((m.items[i].tags & manners) != 0 && (m.items[i].tags & MANNER_SUPPOSES) == 0)
            return true;
    return false;
}

/* Nothing else is said than that. */
static answer_heard hear_no_answer(const words_in *w)
{
    if (manner_only(w, MANNER_CANNOT | MANNER_EMPTY) && says_cannot(w))
        return of_kind(w, ANSWER_CANNOT, 0);
    const uint64_t unsure = MANNER_UNSURE | MANNER_DONT_KNOW;
    const bool answers = manner_in(w, MANNER_HOW_MANY) && !says_unsure(w, unsure);
    return manner_only(w, unsure | MANNER_EMPTY) && manner_in(w, unsure) && !answers
               ? of_kind(w, ANSWER_UNSURE, 0)
               : nothing(w);
}

static answer_heard hear_manner(const words_in *w, uint32_t usual)
{
    const answer_heard none = hear_no_answer(w);
    if (none.kind != ANSWER_NONE) return none;
    if (says_cannot(w)) return of_kind(w, ANSWER_CANNOT, 0);
    if (says_unsure(w, MANNER_UNSURE)) return of_kind(w, ANSWER_UNSURE, 0);
    if (usual != NO_ID && manner_only(w, MANNER_USUAL | MANNER_EMPTY) && manner_in(w, MANNER_USUAL))
        return of_kind(w, ANSWER_ONE, only(usual));
    return nothing(w);
}

/* What names the question tells nothing of its answer. */
static features without_name(const words_in *w, const question_ear *e, const features *f)
{
    feature *items = ARENA_ARRAY(w->keep, feature, f->count);
    features left = *f;
    left.items = items;
    left.count = 0;
    for (uint32_t i = 0; i < f->count; i++)
        if (!question_name_has(e, f->items[i].id)) items[left.count++] = f->items[i];
    return left;
}

static answer_heard hear_choice_words(const words_in *w, const question *q, const question_ear *e,
                                      bool asked, double *strength)
{
    const features all = meaning_read(&w->l->meaning, w->keep, w->s, w->first, w->end);
    if (q->yes_no) return in_doubt(w, hear_yes_or_no(w, q, e, &all, asked, strength));
    const features f = asked ? all : without_name(w, e, &all);
    const vote v = count_votes(w, &e->answers, &f);
    const answer_heard h = by_votes(w, &v);
    *strength = v.strength;
    return in_doubt(
        w, h.kind == ANSWER_NONE ? by_denial(w, &e->answers, &f, asked ? usual_of(q) : NO_ID) : h);
}

static answer_heard hear_choice(const words_in *w, const question *q, const question_ear *e,
                                bool asked, double *strength)
{
    *strength = 2;
    uint32_t answer = answer_said_whole(w, q);
    if (answer == NO_ID) answer = answer_pointed_at(w, q, asked);
    if (answer != NO_ID) return of_kind(w, ANSWER_ONE, only(answer));
    if (asked && q->yes_no) {
        const char *said = plain_yes_or_no(w);
        if (said != NULL && !manner_in(w, MANNER_UNSURE | MANNER_CANNOT))
            return of_kind(w, ANSWER_ONE, only(answer_named(q, said)));
    }
    const answer_heard none = asked ? hear_no_answer(w) : nothing(w),
                       manner = asked ? hear_manner(w, usual_of(q)) : nothing(w);
    if (none.kind != ANSWER_NONE) return none;
    if (manner.kind == ANSWER_ONE) return manner;
    const answer_heard h = hear_choice_words(w, q, e, asked, strength);
    if (h.kind != ANSWER_NONE) return h;
    answer = asked && manner.kind == ANSWER_NONE ? answer_begun(w, q) : NO_ID;
    return answer == NO_ID ? manner : of_kind(w, ANSWER_ONE, only(answer));
}

/* ---- a reading ---- */

/* A word that nobody uses: behind a number it was meant to be a unit. */
static bool is_strange(const words_in *w, uint32_t word)
{
    if (word >= w->end || w->s->words[word].number) return false;
    const str plain = w->s->words[word].plain;
    return word_set_find(&w->l->language, plain) == NULL &&
           word_set_find(&w->l->vocabulary, plain) == NULL &&
           manner_of(&w->l->manner, w->keep, plain) == 0;
}

static answer_heard hear_number(const words_in *w, const question *q, bool asked)
{
    said_numbers n = said_numbers_find(&w->l->numbers, w->keep, w->s, w->first, w->end);
    if (n.count == 0) return asked ? hear_manner(w, NO_ID) : nothing(w);
    answer_heard h = of_kind(w, ANSWER_VAGUE, 0);
    assert(q->kind != QUESTION_CHOICE);
    if (n.count > 1 || n.items[0].vague) return h;
    uint32_t end;
    const unit shown = book_shown_unit(w->l->book, &q->in);
    const amount_fit fit = said_amount(w->keep, w->s, &n.items[0], w->end, &shown, &h.typed, &end);
    const bool strange = fit == AMOUNT_BARE && is_strange(w, end);
    if (strange)
        h.typed =
            str_printf(w->keep, "%.*s %.*s", STR_ARG(h.typed), STR_ARG(w->s->words[end].plain));
    h.kind = fit == AMOUNT_ELSEWHERE || strange ? ANSWER_OTHER_UNIT : ANSWER_READING;
    h.bare = fit == AMOUNT_BARE;
    return h;
}

answer_heard answer_in(const words_in *w, uint32_t question, bool asked, double *strength)
{
    assert(question < w->l->book->question_count);
    const struct question *q = &w->l->book->questions[question];
    const uint32_t ear = w->l->questions.of[question];
    double ignored;
    if (strength == NULL) strength = &ignored;
    *strength = 0;
    if (w->first == w->end || ear == NO_ID) return nothing(w);
    if (q->kind == QUESTION_CHOICE)
        return hear_choice(w, q, &w->l->questions.items[ear], asked, strength);
    *strength = 1;
    return hear_number(w, q, asked);
}

answer_heard listen_answer(const listener *l, arena *keep, uint32_t question, str utterance)
{
    said *s = ARENA_NEW(keep, said);
    *s = said_read(keep, utterance);
    return answer_in(&(words_in){l, keep, s, 0, s->count}, question, true, NULL);
}
