/* Facts not yet told, against a twin that writes the joint distribution of causes and all facts
 * down as one table in long double, rakes it there, and sums over it. Random books of rules over
 * facts: some of which apply only beside an answer of another, rules that rest on rules, and ones
 * that rule out. Only the book's text is shared with the engine. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "believe/untold.h"
#include "choice_twin.h"
#include "luck.h"
#include "session/session.h"
#include "small_book.h"
#include "testing.h"

enum {
    BOOKS = 60,
    FACTS = 4,
    STATES = 3,
    CAUSES = 5,
    RULES = 8,
    LEAVES = 2,
    TABLE = 81,
    UNTOLD = 99
};
#define CLOSE 1e-12

typedef enum joined { ALL, ANY, NONE } joined;

typedef struct drawn_rule {
    joined how;
    uint32_t leaves, fact[LEAVES], answers[LEAVES]; /* mask */
    bool chained; /* …and the conclusion that the first rule sets */
    uint32_t count, cause[2];
    int factor[2]; /* above 0: so many times likelier; below: less likely; 0: ruled out */
} drawn_rule;

typedef struct drawn {
    uint64_t random;
    uint32_t facts, states[FACTS], share[FACTS][STATES]; /* percent */
    uint32_t parent[FACTS], parent_answers[FACTS];       /* UNTOLD: it always applies */
    uint32_t causes, often[CAUSES], shown[CAUSES];
    uint32_t rules;
    drawn_rule rule[RULES];
    uint32_t look_fact, look_answers, looks[CAUSES], look_otherwise; /* percent; 0: not listed */
} drawn;

static uint32_t below(drawn *d, uint32_t limit)
{
    return luck_below(&d->random, limit);
}

/* ---- a random book ---- */

static void draw_facts(drawn *d)
{
    d->facts = 2 + below(d, FACTS - 1);
    for (uint32_t i = 0; i < d->facts; i++) {
        d->states[i] = 2 + below(d, STATES - 1);
        uint32_t left = 100;
        for (uint32_t s = 0; s + 1 < d->states[i]; s++) {
            d->share[i][s] = 5 + below(d, left - 10 * (d->states[i] - s));
            left -= d->share[i][s];
        }
        d->share[i][d->states[i] - 1] = left;
        bool waits = i > 0 && below(d, 3) == 0;
        d->parent[i] = waits ? below(d, i) : UNTOLD;
        d->parent_answers[i] = waits ? 1 + below(d, 2) : 0;
    }
}

static void draw_rule(drawn *d, drawn_rule *r)
{
    r->how = (joined)below(d, 3);
    r->leaves = 1 + below(d, LEAVES);
    for (uint32_t i = 0; i < r->leaves; i++) {
        r->fact[i] = (below(d, d->facts) + i) % d->facts;
        if (i > 0 && r->fact[i] == r->fact[0]) r->leaves = 1;
        r->answers[i] = 1 + below(d, (1u << d->states[r->fact[i]]) - 2);
    }
    r->chained = r != &d->rule[0] && below(d, 4) == 0;
    r->count = 1 + below(d, 2);
    for (uint32_t i = 0; i < r->count; i++) {
        r->cause[i] = i == 0 ? below(d, d->causes) : (r->cause[0] + 1) % d->causes;
        r->factor[i] =
            (int)(below(d, 2) == 0 ? 2 + below(d, 8) : 0) - (int)(below(d, 3) == 0 ? 12 : 0);
        if (r->factor[i] == 0 && r->cause[i] == 0) r->factor[i] = 3; /* one cause is always left */
    }
}

static drawn draw(uint64_t seed)
{
    drawn d = {.random = seed};
    draw_facts(&d);
    d.causes = 2 + below(&d, CAUSES - 1);
    for (uint32_t c = 0; c < d.causes; c++) {
        d.often[c] = 1 + below(&d, 9);
        d.shown[c] = 5 + below(&d, 90);
    }
    d.rules = 2 + below(&d, RULES - 1);
    for (uint32_t r = 0; r < d.rules; r++) draw_rule(&d, &d.rule[r]);
    d.look_fact = below(&d, d.facts);
    if (d.parent[d.look_fact] != UNTOLD) d.look_fact = 0;
    d.look_answers = 1 + below(&d, (1u << d.states[d.look_fact]) - 2);
    d.look_otherwise = 1 + below(&d, 40);
    for (uint32_t c = 0; c < d.causes; c++)
        d.looks[c] = c > 0 && below(&d, 2) == 0 ? 0 : 5 + below(&d, 90);
    return d;
}

/* ---- its text ---- */

static void write_answers(FILE *out, uint32_t mask)
{
    fputs("[", out);
    for (uint32_t s = 0, n = 0; s < STATES; s++)
        if (((mask >> s) & 1) != 0) fprintf(out, "%s%c", n++ > 0 ? ", " : "", "abc"[s]);
    fputs("]", out);
}

static void write_fact(FILE *out, const drawn *d, uint32_t i)
{
    fprintf(out, "  fact-%u:\n    ask: Fact %u?\n    about: today\n    answers: {", i, i);
    for (uint32_t s = 0; s < d->states[i]; s++)
        fprintf(out, "%s%c: Its-%c", s > 0 ? ", " : "", "abc"[s], "abc"[s]);
    fputs("}\n    shares: {", out);
    for (uint32_t s = 0; s < d->states[i]; s++)
        fprintf(out, "%s%c: %u %%", s > 0 ? ", " : "", "abc"[s], d -> share[i][s]);
    fputs("}\n", out);
    if (d->parent[i] == UNTOLD) return;
    fprintf(out, "    only-when: {fact-%u: ", d->parent[i]);
    write_answers(out, d->parent_answers[i]);
    fputs("}\n", out);
}

static void write_leaves(FILE *out, const drawn_rule *r)
{
    static const char *const words[] = {"all", "any", "none"};
    fprintf(out, "%s: [", words[r->how]);
    for (uint32_t i = 0; i < r->leaves; i++) {
        fprintf(out, "%s{fact-%u: ", i > 0 ? ", " : "", r->fact[i]);
        write_answers(out, r->answers[i]);
        fputs("}", out);
    }
    fputs("]", out);
}

static void write_factors(FILE *out, const drawn_rule *r)
{
    static const char *const words[] = {"likelier", "less-likely", "rule-out"};
    for (int kind = 0; kind < 3; kind++)
        for (uint32_t i = 0, n = 0; i < r->count; i++) {
            int is = r->factor[i] > 0 ? 0 : r->factor[i] < 0 ? 1 : 2;
            if (is != kind) continue;
            if (n++ == 0)
                fprintf(out, "      %s: %c", words[kind], kind == 2 ? '[' : '{');
            else
                fputs(", ", out);
            fprintf(out, kind == 2 ? "cause-%u" : "cause-%u: %d times", r->cause[i],
                    abs(r->factor[i]));
            bool more = false;
            for (uint32_t k = i + 1; k < r->count; k++)
                more |= (r->factor[k] > 0 ? 0 : r->factor[k] < 0 ? 1 : 2) == kind;
            if (!more) fprintf(out, "%c\n", kind == 2 ? ']' : '}');
        }
}

static void write_rule(FILE *out, const drawn *d, uint32_t i)
{
    const drawn_rule *r = &d->rule[i];
    fprintf(out, "  rule-%u:\n    when: {", i);
    if (r->chained) fputs("new: yes, ", out);
    write_leaves(out, r);
    fputs("}\n    then:\n", out);
    if (i == 0) fputs("      set: {new: yes}\n", out);
    write_factors(out, r);
}

static tt_book *book_of(const drawn *d)
{
    char *text = NULL;
    size_t size;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    fputs("book: {title: Drawn, roles: [anybody], two-faults: 0 %}\nquestions:\n"
          "  sign: {ask: Sign, usual: no}\n  look: {ask: Look, usual: no}\n",
          out);
    for (uint32_t i = 0; i < d->facts; i++) write_fact(out, d, i);
    fputs("symptoms:\n  shows:\n    text: It shows\n    when: {sign: yes}\n    shown-by: {", out);
    for (uint32_t c = 0; c < d->causes; c++)
        fprintf(out, "%scause-%u: %u %%", c > 0 ? ", " : "", c, d->shown[c]);
    fprintf(out,
            "}\n  looks-so:\n    text: It looks so\n    otherwise: %u %%\n    when: {look: yes, "
            "fact-%u: ",
            d->look_otherwise, d->look_fact);
    write_answers(out, d->look_answers);
    fputs("}\n    shown-by: {", out);
    for (uint32_t c = 0, n = 0; c < d->causes; c++)
        if (d->looks[c] > 0) fprintf(out, "%scause-%u: %u %%", n++ > 0 ? ", " : "", c, d->looks[c]);
    fputs("}\ncauses:\n", out);
    for (uint32_t c = 0; c < d->causes; c++)
        fprintf(out, "  cause-%u: {text: Cause-%u, how-often: %u}\n", c, c, d->often[c]);
    fputs("conclusions: {new: {text: New}}\nrules:\n", out);
    for (uint32_t i = 0; i < d->rules; i++) write_rule(out, d, i);
    fclose(out);
    tt_book *book = small_book(text);
    free(text);
    return book;
}

/* ---- the twin ---- */

typedef struct twin {
    const drawn *d;
    uint32_t size;
    long double g[FACTS][STATES];
    long double j[CAUSES][TABLE];
} twin;

static uint32_t state_at(const drawn *d, uint32_t cell, uint32_t fact)
{
    for (uint32_t i = 0; i < fact; i++) cell /= d->states[i];
    return cell % d->states[fact];
}

static bool applies_at(const drawn *d, uint32_t cell, uint32_t fact)
{
    const uint32_t parent = d->parent[fact];
    return parent == UNTOLD || (applies_at(d, cell, parent) &&
                                ((d->parent_answers[fact] >> state_at(d, cell, parent)) & 1) != 0);
}

/* 1 holds, 0 doesn't, -1 not known. */
static int leaves_at(const drawn *d, const drawn_rule *r, uint32_t cell)
{
    bool open = false, any = false, all = true;
    for (uint32_t i = 0; i < r->leaves; i++) {
        bool is = ((r->answers[i] >> state_at(d, cell, r->fact[i])) & 1) != 0;
        bool known = applies_at(d, cell, r->fact[i]);
        open |= !known;
        any |= known && is;
        all &= !known || is;
    }
    if (r->how == ALL) return !all ? 0 : open ? -1 : 1;
    int holds = any ? 1 : open ? -1 : 0;
    return r->how == ANY || holds < 0 ? holds : 1 - holds;
}

static long double factor_at(const drawn *d, uint32_t cause, uint32_t cell)
{
    long double factor = 1;
    const bool is_new = leaves_at(d, &d->rule[0], cell) == 1;
    for (uint32_t i = 0; i < d->rules; i++) {
        const drawn_rule *r = &d->rule[i];
        if (leaves_at(d, r, cell) != 1 || (r->chained && !is_new)) continue;
        for (uint32_t k = 0; k < r->count; k++)
            if (r->cause[k] == cause)
                factor *=
                    r->factor[k] < 0 ? 1 / (long double)-r->factor[k] : (long double)r->factor[k];
    }
    return factor;
}

static void fill(twin *t)
{
    const drawn *d = t->d;
    long double sum = 0;
    for (uint32_t c = 0; c < d->causes; c++)
        for (uint32_t x = 0; x < t->size; x++) {
            long double weight = d->often[c] * factor_at(d, c, x);
            for (uint32_t i = 0; i < d->facts; i++) weight *= t->g[i][state_at(d, x, i)];
            sum += t->j[c][x] = weight;
        }
    for (uint32_t c = 0; c < d->causes; c++)
        for (uint32_t x = 0; x < t->size; x++) t->j[c][x] /= sum;
}

/* Chance of a state while the fact applies, and that it does. */
static long double chance_of_state(const twin *t, uint32_t fact, uint32_t state,
                                   long double *applies)
{
    long double sum = 0;
    *applies = 0;
    for (uint32_t c = 0; c < t->d->causes; c++)
        for (uint32_t x = 0; x < t->size; x++) {
            if (!applies_at(t->d, x, fact)) continue;
            *applies += t->j[c][x];
            if (state_at(t->d, x, fact) == state) sum += t->j[c][x];
        }
    return sum;
}

static void rake(twin *t)
{
    const drawn *d = t->d;
    long double off = 1, applies;
    for (uint32_t sweep = 0; sweep < 3000 && off > 1e-17L; sweep++) {
        off = 0;
        for (uint32_t i = 0; i < d->facts; i++) {
            long double next[STATES];
            for (uint32_t s = 0; s < d->states[i]; s++) {
                long double is = chance_of_state(t, i, s, &applies),
                            wanted = applies * d->share[i][s] / 100;
                off = fmaxl(off, fabsl(is - wanted));
                next[s] = t->g[i][s] * wanted / is;
            }
            for (uint32_t s = 0; s < d->states[i]; s++) t->g[i][s] = next[s];
            fill(t);
        }
    }
    assert_true(off < 1e-15L);
}

static twin *twin_of(const drawn *d)
{
    twin *t = calloc(1, sizeof *t);
    assert_non_null(t);
    t->d = d;
    t->size = 1;
    for (uint32_t i = 0; i < d->facts; i++) {
        t->size *= d->states[i];
        for (uint32_t s = 0; s < d->states[i]; s++) t->g[i][s] = d->share[i][s] / 100.0L;
    }
    fill(t);
    rake(t);
    return t;
}

typedef enum looked { LOOKED_NOT, LOOKED_YES, LOOKED_NO } looked;

/* Where the fact is another one, the symptom says nothing: as usual in 9 of 10. */
static long double chance_of_look(const drawn *d, uint32_t percent, uint32_t cell, looked is)
{
    const long double right = 0.95L;
    const bool so = ((d->look_answers >> state_at(d, cell, d->look_fact)) & 1) != 0;
    const long double yes = so ? percent / 100.0L : 0.1L,
                      seen = right * yes + (1 - right) * (1 - yes);
    return is == LOOKED_NOT ? 1 : is == LOOKED_YES ? seen : 1 - seen;
}

static uint32_t percent_of(const drawn *d, uint32_t cause)
{
    return d->looks[cause] > 0 ? d->looks[cause] : d->look_otherwise;
}

/* Half the base, half the mean cause. */
static long double look_of_other(const drawn *d, uint32_t cell, looked is)
{
    long double mean = 0, sum = 0;
    for (uint32_t c = 0; c < d->causes; c++) {
        mean += d->often[c] * chance_of_look(d, percent_of(d, c), cell, is);
        sum += d->often[c];
    }
    return (chance_of_look(d, d->look_otherwise, cell, is) + mean / sum) / 2;
}

/* With facts told as weights of their states; told, so it applies. Something not listed last. */
static bool twin_belief(const twin *t, double told[FACTS][STATES], const bool *is_told, looked is,
                        long double *out)
{
    const drawn *d = t->d;
    long double all = 0, sum = 0, other = 0;
    for (uint32_t c = 0; c < d->causes; c++) {
        out[c] = 0;
        for (uint32_t x = 0; x < t->size; x++) {
            long double part = t->j[c][x];
            for (uint32_t i = 0; i < d->facts; i++)
                if (is_told[i])
                    part *= applies_at(d, x, i) ? (long double)told[i][state_at(d, x, i)] : 0;
            all += part;
            other += part * look_of_other(d, x, is);
            out[c] += part * chance_of_look(d, percent_of(d, c), x, is);
        }
        out[c] *= 0.97L;
        sum += out[c];
    }
    out[d->causes] = 0.03L * other;
    sum += out[d->causes];
    for (uint32_t c = 0; c <= d->causes && sum > 0; c++) out[c] /= sum;
    return all > 0;
}

/* ---- the engine ---- */

typedef struct kit {
    drawn d;
    tt_book *book;
    tt_case *c;
    twin *t;
} kit;

static kit kit_new(uint64_t seed)
{
    kit k = {.d = draw(seed)};
    k.book = book_of(&k.d);
    assert_int_equal(tt_case_new(k.book, NULL, &k.c), TT_OK);
    return k;
}

static void kit_free(kit *k)
{
    tt_case_free(k->c);
    tt_book_free(k->book);
    free(k->t);
}

static uint32_t id_of(const kit *k, const char *base, uint32_t i)
{
    char name[32];
    snprintf(name, sizeof name, "%s-%u", base, i);
    return tt_question_find(k->book, name);
}

static void engine_belief(const kit *k, double *out, double *not_listed)
{
    const tt_view *v = NULL;
    assert_int_equal(tt_look(k->c, &v), TT_OK);
    for (uint32_t i = 0; i < v->cause_count; i++) {
        uint32_t c;
        if (v->causes[i].name == NULL)
            *not_listed = v->causes[i].chance;
        else if (sscanf(v->causes[i].name, "cause-%u", &c) == 1)
            out[c] = v->causes[i].chance;
    }
}

static void tell(const kit *k, uint32_t fact, uint32_t state)
{
    const tt_reply reply = {.kind = TT_ANSWER, .option = state};
    assert_int_equal(tt_answer(k->c, id_of(k, "fact", fact), &reply), TT_OK);
}

/* What is told from the root of what it waits for on, so that each applies. */
static bool tell_with_parents(kit *k, uint32_t fact, double told[FACTS][STATES], bool *is_told)
{
    const uint32_t parent = k->d.parent[fact];
    if (is_told[fact]) return true;
    if (parent != UNTOLD && !tell_with_parents(k, parent, told, is_told)) return false;
    bool fits = parent == UNTOLD;
    for (uint32_t s = 0; s < STATES && !fits; s++)
        fits = told[parent][s] > 0 && ((k->d.parent_answers[fact] >> s) & 1) != 0;
    if (!fits) return false;
    uint32_t state = below(&k->d, k->d.states[fact]);
    tell(k, fact, state);
    for (uint32_t s = 0; s < STATES; s++) told[fact][s] = s == state;
    return is_told[fact] = true;
}

static void assert_beliefs(const kit *k, double told[FACTS][STATES], const bool *is_told,
                           looked look)
{
    double is[CAUSES] = {0}, other = 0;
    long double wanted[CAUSES + 1];
    if (!twin_belief(k->t, told, is_told, look, wanted)) return;
    engine_belief(k, is, &other);
    assert_true(fabsl(other - wanted[k->d.causes]) < CLOSE);
    for (uint32_t c = 0; c < k->d.causes; c++) assert_true(fabsl(is[c] - wanted[c]) < CLOSE);
}

static void beliefs_are_sums_over_the_table(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= BOOKS; seed++) {
        kit k = kit_new(seed);
        k.t = twin_of(&k.d);
        double told[FACTS][STATES] = {{0}};
        bool is_told[FACTS] = {false};
        assert_beliefs(&k, told, is_told, LOOKED_NOT);
        for (uint32_t n = 0; n < k.d.facts; n++) {
            tell_with_parents(&k, below(&k.d, k.d.facts), told, is_told);
            assert_beliefs(&k, told, is_told, LOOKED_NOT);
        }
        kit_free(&k);
    }
}

/* A symptom that names a fact beside a question: the table depends on the fact. */
static void tables_depend_on_facts(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= BOOKS; seed++) {
        kit k = kit_new(seed);
        k.t = twin_of(&k.d);
        double told[FACTS][STATES] = {{0}};
        bool is_told[FACTS] = {false};
        const looked look = seed % 2 == 0 ? LOOKED_YES : LOOKED_NO;
        const tt_reply reply = {.kind = TT_ANSWER, .option = look == LOOKED_YES ? 0 : 1};
        assert_int_equal(tt_answer(k.c, tt_question_find(k.book, "look"), &reply), TT_OK);
        assert_beliefs(&k, told, is_told, look);
        for (uint32_t n = 0; n < k.d.facts; n++) {
            tell_with_parents(&k, below(&k.d, k.d.facts), told, is_told);
            assert_beliefs(&k, told, is_told, look);
        }
        kit_free(&k);
    }
}

/* An exclusion leaves the other states, a likely answer weighs them. */
static void soft_answers_weigh_the_table(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= BOOKS; seed++) {
        kit k = kit_new(seed);
        k.t = twin_of(&k.d);
        double told[FACTS][STATES] = {{0}};
        bool is_told[FACTS] = {true};
        uint32_t out = below(&k.d, k.d.states[0]);
        for (uint32_t s = 0; s < STATES; s++) told[0][s] = s != out;
        tt_reply reply = {.kind = TT_NOT, .not_options = 1u << out};
        assert_int_equal(tt_answer(k.c, id_of(&k, "fact", 0), &reply), TT_OK);
        assert_beliefs(&k, told, is_told, LOOKED_NOT);
        for (uint32_t s = 0; s < STATES; s++) told[0][s] = 0.1 + 0.2 * s;
        reply = (tt_reply){.kind = TT_LIKELY, .weights = told[0]};
        assert_int_equal(tt_answer(k.c, id_of(&k, "fact", 0), &reply), TT_OK);
        assert_beliefs(&k, told, is_told, LOOKED_NOT);
        kit_free(&k);
    }
}

/* What each answer is expected to be: by the engine's prediction, over what it believes now. */
static void expected_answers(const kit *k, uint32_t fact, const double *now, double not_listed,
                             double *out)
{
    arena *keep = arena_new(NULL, NULL);
    const program *p = k->book->prog;
    double prior[CAUSES];
    for (uint32_t c = 0; c < k->d.causes; c++)
        prior[c] = p->evidence->in.weights[c] * k->c->now.factor[c];
    prediction seen = untold_predict(keep, k->c->now.untold, id_of(k, "fact", fact), prior);
    untold_after_answers(keep, k->c->now.untold, k->c->now.net,
                         &(evidence){.weights = k->c->now.weights}, id_of(k, "fact", fact), prior,
                         &seen);
    for (uint32_t s = 0; s < seen.states; s++) {
        out[s] = not_listed * seen.other[s];
        for (uint32_t c = 0, i = 0; c < k->d.causes; c++) {
            bool listed = i < seen.listed_count && seen.listed[i] == c;
            out[s] += now[c] * (listed ? seen.rows[(size_t)i * seen.states + s] : seen.base[s]);
            i += listed;
        }
    }
    arena_free(keep);
}

static bool may_be_asked(const kit *k, uint32_t fact)
{
    const uint32_t q = id_of(k, "fact", fact);
    const tt_view *v;
    assert_int_equal(tt_look(k->c, &v), TT_OK);
    return k->book->prog->facts->variable_of[q] != NO_VARIABLE && case_may_ask(k->c, q);
}

static void assert_mean(kit *k, uint32_t fact, bool shares)
{
    double now[CAUSES] = {0}, mean[CAUSES] = {0}, then[CAUSES], other = 0, expected[STATES] = {0};
    engine_belief(k, now, &other);
    expected_answers(k, fact, now, other, expected);
    for (uint32_t s = 0; s < k->d.states[fact]; s++) {
        if (shares) assert_true(fabs(expected[s] - k->d.share[fact][s] / 100.0) < CLOSE);
        tell(k, fact, s);
        engine_belief(k, then, &other);
        for (uint32_t c = 0; c < k->d.causes; c++) mean[c] += expected[s] * then[c];
    }
    assert_int_equal(tt_retract(k->c, id_of(k, "fact", fact)), TT_OK);
    for (uint32_t c = 0; c < k->d.causes; c++) assert_true(fabs(mean[c] - now[c]) < CLOSE);
}

/* Before anything is told the answers come as the author says; at any moment the mean belief after
 * telling is the belief before, also once a sign has said something about the causes. */
static void the_mean_of_what_is_believed_then_is_what_is_believed_now(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= BOOKS; seed++) {
        kit k = kit_new(seed);
        double told[FACTS][STATES] = {{0}};
        bool is_told[FACTS] = {false};
        const tt_reply yes = {.kind = TT_ANSWER, .option = 0};
        for (uint32_t i = 0; i < k.d.facts; i++)
            if (may_be_asked(&k, i)) assert_mean(&k, i, true);
        assert_int_equal(tt_answer(k.c, tt_question_find(k.book, "sign"), &yes), TT_OK);
        if (seed % 2 == 0)
            assert_int_equal(tt_answer(k.c, tt_question_find(k.book, "look"), &yes), TT_OK);
        for (uint32_t n = 0; n < 2; n++) {
            for (uint32_t i = 0; i < k.d.facts; i++)
                if (may_be_asked(&k, i)) assert_mean(&k, i, false);
            tell_with_parents(&k, below(&k.d, k.d.facts), told, is_told);
        }
        kit_free(&k);
    }
}

/* Once all is told, rules in force are factors, and nothing else is. */
static void told_facts_are_factors(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= BOOKS; seed++) {
        kit k = kit_new(seed);
        double is[CAUSES] = {0}, other = 0, sum = 0, wanted[CAUSES];
        uint32_t cell = 0, stride = 1;
        for (uint32_t i = 0; i < k.d.facts; i++) {
            uint32_t at = below(&k.d, k.d.states[i]);
            cell += at * stride;
            stride *= k.d.states[i];
        }
        for (uint32_t i = 0; i < k.d.facts; i++)
            if (applies_at(&k.d, cell, i)) tell(&k, i, state_at(&k.d, cell, i));
        for (uint32_t c = 0; c < k.d.causes; c++)
            sum += wanted[c] = k.d.often[c] * (double)factor_at(&k.d, c, cell);
        engine_belief(&k, is, &other);
        for (uint32_t c = 0; c < k.d.causes; c++)
            assert_true(fabs(is[c] - 0.97 * wanted[c] / sum) < CLOSE);
        kit_free(&k);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(beliefs_are_sums_over_the_table),
        cmocka_unit_test(tables_depend_on_facts),
        cmocka_unit_test(soft_answers_weigh_the_table),
        cmocka_unit_test(the_mean_of_what_is_believed_then_is_what_is_believed_now),
        cmocka_unit_test(told_facts_are_factors),
    };
    return cmocka_run_group_tests_name("facts not yet told", tests, NULL, NULL);
}
