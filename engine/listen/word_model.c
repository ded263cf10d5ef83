/* Counts of features by class, kept sparse: most features stand in few classes. */
#include "listen/word_model.h"

#include <assert.h>
#include <math.h>

#include "base/grow.h"
#include "base/sorted.h"

typedef struct feature_count {
    feature_id id;
    bool denied;
    uint32_t class;
    double count;
} feature_count;

typedef struct learned_phrase {
    uint32_t class;
    features of;
    double worth; /* of all in it; known when all is learned */
} learned_phrase;

/* Of a feature the phrases that have it, each once. */
typedef struct phrase_having {
    feature_id id;
    bool denied;
    uint32_t phrase;
} phrase_having;

struct model_draft {
    arena *keep;
    uint32_t classes;
    double *phrases;
    feature_count *counts;
    uint32_t count, room;
    learned_phrase *learned;
    uint32_t learned_count, learned_room;
};

/* How much is believed before any phrase: in so many phrases a class would have a feature as often
 * as all classes have it. */
static const double doubt = 1.0;
/* Weights, in units of the logarithm of how many classes there are. */
static const double most_against =
    0.17; /* a word that a class is never spoken of with is no stronger evidence against it */
static const double whole_phrase = 1.0; /* for a phrase that was said whole, with nothing else */
static const double missed =
    0.35; /* of what is missed: what stands in so many of a class's phrases, and was not said */
static const double typical_from = 0.7, typical_floor = 0.2;

model_draft *model_draft_new(arena *keep, uint32_t classes)
{
    assert(classes > 0);
    model_draft *d = ARENA_NEW(keep, model_draft);
    *d = (model_draft){
        .keep = keep, .classes = classes, .phrases = ARENA_ARRAY(keep, double, classes)};
    return d;
}

static bool stands_before(const features *f, uint32_t i)
{
    for (uint32_t k = 0; k < i; k++)
        if (f->items[k].id == f->items[i].id && f->items[k].denied == f->items[i].denied)
            return true;
    return false;
}

static void keep_phrase(model_draft *d, uint32_t class, const features *f)
{
    GROW(d->keep, d->learned, d->learned_count, d->learned_room);
    feature *kept = ARENA_ARRAY(d->keep, feature, f->count);
    for (uint32_t i = 0; i < f->count; i++) kept[i] = f->items[i];
    d->learned[d->learned_count++] =
        (learned_phrase){.class = class, .of = {.items = kept, .count = f->count}};
}

void model_draft_learn(model_draft *d, uint32_t class, const features *f, double weight)
{
    assert(class < d->classes && weight > 0);
    if (f->count == 0) return;
    d->phrases[class] += weight;
    keep_phrase(d, class, f);
    for (uint32_t i = 0; i < f->count; i++) {
        if (stands_before(f, i)) continue;
        GROW(d->keep, d->counts, d->count, d->room);
        d->counts[d->count++] = (feature_count){f->items[i].id, f->items[i].denied, class, weight};
    }
}

static int by_feature(const void *left, const void *right)
{
    const feature_count *a = left, *b = right;
    if (a->id != b->id) return THREE_WAY(a->id, b->id);
    return a->denied != b->denied ? THREE_WAY(a->denied, b->denied) : THREE_WAY(a->class, b->class);
}

static int by_feature_had(const void *left, const void *right)
{
    const phrase_having *a = left, *b = right;
    if (a->id != b->id) return THREE_WAY(a->id, b->id);
    return a->denied != b->denied ? THREE_WAY(a->denied, b->denied)
                                  : THREE_WAY(a->phrase, b->phrase);
}

static bool same_cell(const feature_count *a, const feature_count *b)
{
    return a->id == b->id && a->denied == b->denied && a->class == b->class;
}

/* ---- scoring ---- */

static double unit_of(const word_model *m)
{
    return log(1.0 + m->classes);
}

/* Of one feature the counts, class by class, and how often it stands in a phrase of a class taken
 * at random. */
typedef struct cells {
    feature_id id;
    bool denied;
    const feature_count *items;
    uint32_t count;
    double of_all;
} cells;

static bool goes_before(const cells *c, feature_id id, bool denied)
{
    return c->id < id || (c->id == id && !c->denied && denied);
}

static const cells *cells_of(const word_model *m, feature_id id, bool denied)
{
    static const cells none = {.count = 0};
    uint32_t at;
    SORTED_PLACE(at, m->feature_count, i, goes_before(&m->features[i], id, denied));
    const bool found =
        at < m->feature_count && m->features[at].id == id && m->features[at].denied == denied;
    return found ? &m->features[at] : &none;
}

static double share(const word_model *m, const feature_count *c)
{
    return m->phrases[c->class] > 0 ? c->count / m->phrases[c->class] : 0;
}

static bool is_said(const features *f, feature_id id)
{
    for (uint32_t i = 0; i < f->count; i++)
        if (f->items[i].id == id) return true;
    return false;
}

static double rate_in(const word_model *m, uint32_t class, double count, double of_all)
{
    assert(count >= 0 && of_all > 0);
    return (count + doubt * of_all) / (m->phrases[class] + doubt);
}

static void add_evidence(const word_model *m, const cells *c, double weight, double *score)
{
    const double of_all = c->of_all;
    uint32_t next = 0;
    for (uint32_t class = 0; class < m->classes; class ++) {
        const bool has = next < c->count && c->items[next].class == class;
        const double count = has ? c->items[next++].count : 0;
        score[class] += weight * fmax(log(rate_in(m, class, count, of_all) / of_all),
                                      -most_against * unit_of(m));
    }
}

/* What was denied and never is in any phrase: as much evidence against those that have it undenied
 * as it would be for them. */
static void add_counter_evidence(const word_model *m, const cells *c, double weight, double *score)
{
    const double of_all = c->of_all;
    for (uint32_t i = 0; i < c->count; i++) {
        const double has = rate_in(m, c->items[i].class, c->items[i].count, of_all);
        score[c->items[i].class] -= weight * fmax(log(has / of_all), 0);
    }
}

/* A class that is nearly always spoken of with a feature is less likely without it: "no foam" is
 * not about the roof. Of several such features the one that is missed most counts. */
static void add_absence(const word_model *m, arena *scratch, const features *f, double *score)
{
    const arena_mark mark = arena_here(scratch);
    double *most = ARENA_ARRAY(scratch, double, m->classes);
    for (uint32_t i = 0; i < m->typical_count; i++) {
        const feature_count *c = &m->counts[m->typical[i]];
        if (is_said(f, c->id)) continue;
        most[c->class] = fmin(most[c->class], log(1 - share(m, c) + typical_floor));
    }
    for (uint32_t class = 0; class < m->classes; class ++)
        score[class] += missed * unit_of(m) * most[class];
    arena_back_to(scratch, mark);
}

bool word_model_knows(const word_model *m, feature_id id)
{
    return cells_of(m, id, false)->count > 0 || cells_of(m, id, true)->count > 0;
}

uint32_t word_model_strangers(const word_model *m, const features *f)
{
    uint32_t count = f->strangers;
    for (uint32_t i = 0, end; i < f->count; i = end) {
        bool known = false;
        for (end = i; end < f->count && f->items[end].first == f->items[i].first; end++)
            known = known || f->items[end].id == FEATURE_DENIAL ||
                    word_model_knows(m, f->items[end].id);
        count += !known;
    }
    return count;
}

/* ---- whole phrases ---- */

/* The rarer a feature, the more it weighs; a word whose concept stands beside it counts once. */
static double worth(const word_model *m, const feature *f)
{
    if (f->weight < 1 || f->id == FEATURE_DENIAL) return 0;
    const cells *same = cells_of(m, f->id, f->denied);
    return same->count == 0 ? log((double)m->classes) : log(1 / same->of_all);
}

static double worth_of_all(const word_model *m, const features *f)
{
    double sum = 0;
    for (uint32_t i = 0; i < f->count; i++)
        if (!stands_before(f, i)) sum += worth(m, &f->items[i]);
    return sum;
}

/* The phrases that have a feature: from *first on. */
static uint32_t phrases_having(const word_model *m, const feature *f, uint32_t *first)
{
    const phrase_having wanted = {f->id, f->denied, 0};
    SORTED_PLACE(*first, m->having_count, i, by_feature_had(&m->having[i], &wanted) < 0);
    uint32_t end = *first;
    while (end < m->having_count && m->having[end].id == f->id &&
           m->having[end].denied == f->denied)
        end++;
    return end;
}

/* Weighted Jaccard index, of phrases that have something in common with what was said: of all
 * others it is 0. */
static void add_likeness(const word_model *m, arena *scratch, const features *f, uint32_t strangers,
                         double *score)
{
    const double said = worth_of_all(m, f) + strangers * log((double)m->classes);
    const arena_mark mark = arena_here(scratch);
    double *most = ARENA_ARRAY(scratch, double, m->classes);
    double *common = ARENA_ARRAY(scratch, double, m->learned_count);
    for (uint32_t i = 0; i < f->count; i++) {
        if (stands_before(f, i)) continue;
        uint32_t first;
        const uint32_t end = phrases_having(m, &f->items[i], &first);
        const double worth_here = first < end ? worth(m, &f->items[i]) : 0;
        for (uint32_t k = first; k < end; k++) common[m->having[k].phrase] += worth_here;
    }
    for (uint32_t i = 0; i < m->learned_count; i++) {
        const learned_phrase *p = &m->learned[i];
        if (common[i] == 0) continue;
        const double all = said + p->worth - common[i], like = all > 0 ? common[i] / all : 0;
        assert(common[i] <= all + 1e-9);
        if (like > most[p->class]) most[p->class] = like;
    }
    for (uint32_t class = 0; class < m->classes; class ++)
        score[class] += whole_phrase * unit_of(m) * most[class] * most[class];
    arena_back_to(scratch, mark);
}

void word_model_score(const word_model *m, arena *scratch, const features *f, uint32_t strangers,
                      double *score)
{
    assert(m->classes > 0);
    for (uint32_t class = 0; class < m->classes; class ++) score[class] = 0;
    for (uint32_t i = 0; i < f->count; i++) {
        const feature *one = &f->items[i];
        const cells *same = cells_of(m, one->id, one->denied),
                    *other = same->count > 0 ? same : cells_of(m, one->id, !one->denied);
        if (stands_before(f, i)) continue;
        if (same->count > 0)
            add_evidence(m, same, one->weight, score);
        else if (other->count > 0 && one->denied)
            add_counter_evidence(m, other, one->weight, score);
    }
    add_absence(m, scratch, f, score);
    add_likeness(m, scratch, f, strangers, score);
}

/* ---- learned ---- */

/* What scoring needs of all phrases, however little of it is said. */
static void gather_features(word_model *m, arena *keep)
{
    m->features = ARENA_ARRAY(keep, cells, m->count);
    for (uint32_t i = 0, end; i < m->count; i = end) {
        const feature_count *first = &m->counts[i];
        double sum = 0;
        for (end = i; end < m->count && m->counts[end].id == first->id &&
                      m->counts[end].denied == first->denied;
             end++)
            sum += share(m, &m->counts[end]);
        assert(sum >= 0);
        m->features[m->feature_count++] =
            (cells){first->id, first->denied, first, end - i, sum / m->classes};
    }
}

static void find_typical(word_model *m, arena *keep)
{
    for (uint32_t pass = 0; pass < 2; pass++) {
        uint32_t count = 0;
        for (uint32_t i = 0; i < m->count; i++) {
            if (m->counts[i].denied || share(m, &m->counts[i]) < typical_from) continue;
            if (pass == 1) m->typical[count] = i;
            count++;
        }
        if (pass == 0) m->typical = ARENA_ARRAY(keep, uint32_t, count);
        m->typical_count = count;
    }
}

static void weigh_phrases(word_model *m, arena *keep)
{
    uint32_t most = 0;
    for (uint32_t i = 0; i < m->learned_count; i++) most += m->learned[i].of.count;
    m->having = ARENA_ARRAY(keep, phrase_having, most);
    for (uint32_t i = 0; i < m->learned_count; i++) {
        const features *f = &m->learned[i].of;
        m->learned[i].worth = worth_of_all(m, f);
        for (uint32_t k = 0; k < f->count; k++)
            if (!stands_before(f, k))
                m->having[m->having_count++] =
                    (phrase_having){f->items[k].id, f->items[k].denied, i};
    }
    SORT(m->having, m->having_count, by_feature_had);
}

word_model model_draft_done(model_draft *d, const double *log_prior)
{
    SORT(d->counts, d->count, by_feature);
    uint32_t kept = 0;
    for (uint32_t i = 0; i < d->count; i++) {
        if (kept > 0 && same_cell(&d->counts[kept - 1], &d->counts[i]))
            d->counts[kept - 1].count += d->counts[i].count;
        else
            d->counts[kept++] = d->counts[i];
    }
    assert(kept <= d->count);
    word_model m = {.classes = d->classes,
                    .prior = log_prior,
                    .phrases = d->phrases,
                    .counts = d->counts,
                    .count = kept,
                    .learned = d->learned,
                    .learned_count = d->learned_count};
    gather_features(&m, d->keep);
    find_typical(&m, d->keep);
    weigh_phrases(&m, d->keep);
    return m;
}
