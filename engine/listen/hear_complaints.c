/* Which complaints are meant: the words of each clause weigh for every complaint of the book, and
 * the utterance falls into as many complaints as explain it best. */
#include <assert.h>
#include <math.h>

#include "base/pattern.h"
#include "base/sorted.h"
#include "base/unicode.h"
#include "listen/listener.h"

/* Weights, in units of the logarithm of how many complaints there are: a word can tell one of them
 * from all by so much. Tried on the halves of tests/corpus that may be seen; a third more or less
 * of any changes little. */
static const double a_pattern_fits = 1.5;
static const double another_complaint = 0.87; /* what a second complaint must explain */
static const double a_clause_left_out = 0.17;
static const double least_evidence = 0.4; /* beneath it nothing is understood */
static const double of_a_stranger = 0.06,
                    most_of_strangers = 0.4; /* against all, for words that mean nothing here */
static const double of_something_else =
    1.0; /* against all, for a concept that no complaint is spoken of with */
static const double of_another_question =
    0.3; /* against all, for a concept that only questions are named by */
static const double all_is_fine = 1.0; /* against all, for "looks good" */
/* Shares */
static const double least_share = 0.25; /* of the first complaint, or nothing is understood */
static const double clear_share = 0.6;
static const double prior_weight =
    0.3; /* of the logarithm of how often a complaint comes: what people say tells far more */

/* ---- the table, made once ---- */

/* A symptom of every piece of a kind is one complaint; which piece it is about comes after. */
bool is_complaint(const book *b, uint32_t symptom)
{
    assert(symptom < b->symptom_count);
    const struct symptom *s = &b->symptoms[symptom];
    if (s->heard.count == 0) return false;
    if (s->of.piece == NO_ID || symptom == 0) return true;
    const owner *before = &b->symptoms[symptom - 1].of;
    return before->piece == NO_ID || !str_eq(s->of.base, before->base);
}

static void each_text(const texts *t, void (*use)(void *, str), void *context)
{
    for (uint32_t i = 0; i < t->count; i++) use(context, t->items[i].text);
}

static void each_heard(const heard_list *list, void (*use)(void *, str), void *context)
{
    for (uint32_t i = 0; i < list->count; i++)
        if (list->items[i].pattern == NULL) use(context, list->items[i].plain);
}

/* The texts that speak of a complaint: its own and its plain phrases, and the text of the answer
 * that it rests on. What else is heard as that answer is said where it was asked for: "left",
 * "good". */
static void each_phrase(const listener *l, uint32_t symptom, void (*use)(void *, str),
                        void *context)
{
    const struct symptom *s = &l->book->symptoms[symptom];
    each_text(s->of.piece == NO_ID ? &s->text : &s->of_any, use, context);
    each_heard(&s->heard, use, context);
    if (!s->rests_on_one) return;
    const answer_option *a = &l->book->questions[s->one_question].answers[s->one_answer];
    each_text(&a->text, use, context);
}

typedef struct teaching {
    listener *l;
    arena *scratch;
    model_draft *draft;
    uint32_t class;
} teaching;

static void learn_words(void *context, str text)
{
    teaching *t = context;
    meaning_learn(&t->l->complaint_meaning, t->scratch, text);
}

static void learn_phrase(void *context, str text)
{
    teaching *t = context;
    const arena_mark mark = arena_here(t->scratch);
    said s = said_read(t->scratch, text);
    features f = meaning_read(&t->l->complaint_meaning, t->scratch, &s, 0, s.count);
    model_draft_learn(t->draft, t->class, &f, 1);
    arena_back_to(t->scratch, mark);
}

/* How often the complaint comes, by the shares of the causes that show it. */
static double share_of_complaint(const book *b, uint32_t symptom)
{
    double all = 0, shown = 0;
    for (uint32_t c = 0; c < b->cause_count; c++) all += b->causes[c].how_often;
    const struct symptom *s = &b->symptoms[symptom];
    for (uint32_t i = 0; i < s->shown_by_count; i++)
        shown += b->causes[s->shown_by[i].cause].how_often * s->shown_by[i].chance;
    assert(all >= 0 && shown >= 0);
    return all > 0 ? shown / all + s->otherwise : s->otherwise;
}

void complaints_learn_words(listener *l, arena *scratch)
{
    teaching t = {.l = l, .scratch = scratch};
    for (uint32_t i = 0; i < l->complaint_count; i++)
        each_phrase(l, l->complaints[i], learn_words, &t);
}

void complaints_learn(listener *l, arena *keep, arena *scratch)
{
    if (l->complaint_count == 0) return;
    teaching t = {.l = l, .scratch = scratch, .draft = model_draft_new(keep, l->complaint_count)};
    double *prior = ARENA_ARRAY(keep, double, l->complaint_count);
    for (t.class = 0; t.class < l->complaint_count; t.class ++) {
        each_phrase(l, l->complaints[t.class], learn_phrase, &t);
        prior[t.class] =
            prior_weight * log(share_of_complaint(l->book, l->complaints[t.class]) + 1e-6);
    }
    l->complaint_words = model_draft_done(t.draft, prior);
}

/* ---- hearing ---- */

typedef struct ear {
    const listener *l;
    arena *keep;
    const said *said;
    const clause *clauses;
    uint32_t count;
    double unit; /* of the weights */
} ear;

static void add_patterns(const ear *e, str part, double *score)
{
    str nfc = unicode_nfc(e->keep, part);
    for (uint32_t c = 0; c < e->l->complaint_count; c++) {
        const heard_list *list = &e->l->book->symptoms[e->l->complaints[c]].heard;
        for (uint32_t i = 0; i < list->count; i++) {
            if (list->items[i].pattern == NULL ||
                pattern_match(list->items[i].pattern, e->keep, nfc, e->said->patience, NULL,
                              NULL) != PATTERN_YES)
                continue;
            score[c] += e->unit * a_pattern_fits;
            break;
        }
    }
}

static bool names_a_question(const listener *l, feature_id concept)
{
    for (uint32_t i = 0; i < l->questions.count; i++)
        if (question_name_has(&l->questions.items[i], concept)) return true;
    return false;
}

/* A concept that no complaint is spoken of with: the conveyor, the card reader. One that questions
 * are named by, less. */
static double spoken_elsewhere(const ear *e, const features *f)
{
    double against = 0;
    for (uint32_t i = 0; i < f->count; i++) {
        const feature_id id = f->items[i].id;
        if (id >= e->l->book->concept_count || word_model_knows(&e->l->complaint_words, id))
            continue;
        against += e->unit * (names_a_question(e->l, id) ? of_another_question : of_something_else);
    }
    return against;
}

/* Evidence of the words between two clause ends. */
static double *evidence_of(const ear *e, uint32_t from, uint32_t to)
{
    double *score = ARENA_ARRAY(e->keep, double, e->l->complaint_count);
    assert(from < to && to <= e->count);
    const uint32_t first = e->clauses[from].first, end = e->clauses[to - 1].end;
    features f = meaning_read(&e->l->complaint_meaning, e->keep, e->said, first, end);
    const uint32_t strangers = word_model_strangers(&e->l->complaint_words, &f);
    word_model_score(&e->l->complaint_words, e->keep, &f, strangers, score);
    const double against = e->unit * (fmin(strangers * of_a_stranger, most_of_strangers) +
                                      (f.fine ? all_is_fine : 0)) +
                           spoken_elsewhere(e, &f);
    for (uint32_t c = 0; c < e->l->complaint_count; c++) score[c] -= against;
    add_patterns(e, said_part(e->said, first, end), score);
    return score;
}

static double best_of(const ear *e, const double *score)
{
    double best = -INFINITY;
    for (uint32_t c = 0; c < e->l->complaint_count; c++) {
        const double with_prior = score[c] + e->l->complaint_words.prior[c];
        if (with_prior > best) best = with_prior;
    }
    return best;
}

/* The best way to take the clauses up to one: its last run begins at `from`, or the last clause is
 * left out. */
typedef struct way {
    double value;
    uint32_t from;
    bool left_out, some_before; /* some_before: there is a run before the last one */
} way;

static void take(way *best, double value, uint32_t from, bool left_out, bool some_before)
{
    if (value > best->value) *best = (way){value, from, left_out, some_before};
}

/* Clauses fall into runs, each about one complaint; clauses that explain nothing are left out.
 * ways[k][1]: with at least one run. */
static void find_ways(const ear *e, way (*ways)[2])
{
    ways[0][0].value = 0;
    ways[0][1].value = -INFINITY;
    for (uint32_t to = 1; to <= e->count; to++) {
        ways[to][0] =
            (way){.value = ways[to - 1][0].value - e->unit * a_clause_left_out, .left_out = true};
        ways[to][1] = (way){.value = ways[to - 1][1].value - e->unit * a_clause_left_out,
                            .left_out = true,
                            .some_before = true};
        for (uint32_t from = 0; from < to; from++) {
            const arena_mark mark = arena_here(e->keep);
            const double here = best_of(e, evidence_of(e, from, to));
            arena_back_to(e->keep, mark);
            take(&ways[to][1], ways[from][0].value + here, from, false, false);
            take(&ways[to][1], ways[from][1].value + here - e->unit * another_complaint, from,
                 false, true);
        }
    }
}

static int by_posterior(const void *left, const void *right)
{
    const complaint_candidate *a = left, *b = right;
    return a->posterior != b->posterior ? THREE_WAY(b->posterior, a->posterior)
                                        : THREE_WAY(a->symptom, b->symptom);
}

static complaint_kind kind_of(const complaint_candidate *ranked, uint32_t count)
{
    assert(count > 0 && ranked[0].posterior > 0);
    return count == 1 || ranked[0].posterior >= clear_share ? COMPLAINT_CLEAR : COMPLAINT_CLOSE;
}

/* "done", "ok", "not sure" say nothing of what is wrong. */
static bool is_only_manner(const ear *e, uint32_t from, uint32_t to)
{
    const uint64_t manners = MANNER_YES | MANNER_FINE | MANNER_USUAL | MANNER_UNSURE |
                             MANNER_DONT_KNOW | MANNER_DONE | MANNER_EMPTY | MANNER_JOINS;
    const said part = said_within(e->said, e->clauses[from].first, e->clauses[to - 1].end);
    phrase_items m = phrasebook_read(&e->l->manner, e->keep, e->keep, &part);
    for (uint32_t i = 0; i < m.count; i++)
        if ((m.items[i].tags & manners) == 0) return false;
    return true;
}

static bool understood(const ear *e, const double *score)
{
    for (uint32_t c = 0; c < e->l->complaint_count; c++)
        if (score[c] >= e->unit * least_evidence) return true;
    return false;
}

static complaint_heard heard_run(const ear *e, uint32_t from, uint32_t to)
{
    const double *score = evidence_of(e, from, to);
    const uint32_t count = e->l->complaint_count;
    const double best = best_of(e, score);
    complaint_candidate *ranked = ARENA_ARRAY(e->keep, complaint_candidate, count);
    double sum = 0;
    for (uint32_t c = 0; c < count; c++) {
        ranked[c] = (complaint_candidate){
            e->l->complaints[c], exp(score[c] + e->l->complaint_words.prior[c] - best), score[c]};
        sum += ranked[c].posterior;
    }
    assert(sum > 0);
    for (uint32_t c = 0; c < count; c++) ranked[c].posterior /= sum;
    SORT(ranked, count, by_posterior);
    complaint_heard h = {.ranked = ranked,
                         .count = count,
                         .kind = understood(e, score) && ranked[0].posterior >= least_share &&
                                         !is_only_manner(e, from, to)
                                     ? kind_of(ranked, count)
                                     : COMPLAINT_NONE};
    h.from = e->said->words[e->clauses[from].first].from;
    h.to = e->said->words[e->clauses[to - 1].end - 1].to;
    return h;
}

static bool said_before(const complaint_heard *items, uint32_t count, const complaint_heard *h)
{
    for (uint32_t i = 0; i < count; i++)
        if (items[i].ranked[0].symptom == h->ranked[0].symptom) return true;
    return false;
}

typedef struct run {
    uint32_t from, to;
} run;

/* The runs of the best way, the last one first. */
static uint32_t find_runs(const ear *e, run *runs)
{
    way ways[MOST_CLAUSES + 1][2] = {0};
    uint32_t count = 0;
    bool some = true;
    find_ways(e, ways);
    for (uint32_t to = e->count; to > 0 && some;) {
        const way *w = &ways[to][1];
        assert(w->left_out || w->from < to);
        if (w->left_out) {
            to--;
            continue;
        }
        runs[count++] = (run){w->from, to};
        some = w->some_before;
        to = w->from;
    }
    return count;
}

/* The clauses stand beside each other. */
complaints_heard complaints_in(const listener *l, arena *keep, const said *s, const clause *clauses,
                               uint32_t clause_count)
{
    ear e = {.l = l,
             .keep = keep,
             .said = s,
             .clauses = clauses,
             .count = clause_count,
             .unit = log(1.0 + l->complaint_count)};
    complaints_heard all = {.count = 0};
    run runs[MOST_CLAUSES];
    assert(clause_count <= MOST_CLAUSES);
    if (clause_count == 0 || l->complaint_count == 0) return all;
    uint32_t count = find_runs(&e, runs);
    complaint_heard *items = ARENA_ARRAY(keep, complaint_heard, count);
    while (count-- > 0) {
        complaint_heard h = heard_run(&e, runs[count].from, runs[count].to);
        if (h.kind != COMPLAINT_NONE && !said_before(items, all.count, &h)) items[all.count++] = h;
    }
    all.items = items;
    return all;
}

complaints_heard listen_complaints(const listener *l, arena *keep, str utterance)
{
    said *s = ARENA_NEW(keep, said);
    clause clauses[MOST_CLAUSES];
    *s = said_read(keep, utterance);
    const uint32_t count = clauses_cut(l, keep, s, clauses);
    return complaints_in(l, keep, s, clauses, count);
}
