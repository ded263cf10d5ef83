/* A case that is about some pieces of equipment is the case of a book that somebody wrote by
 * hand for these pieces: the same questions, but without the other pieces' causes, and the kinds'
 * shares split over what is left. Random books and answers. */
#include <math.h>
#include <stdio.h>

#include "choice_twin.h"
#include "luck.h"
#include "session/session.h"
#include "small_book.h"
#include "test_sources.h"
#include "testing.h"

enum {
    BOOKS = 150,
    PIECES = 4,
    OWN = 3,
    SHARED = 3,
    SIGNS = 4,
    WIDE = 3,
    NOT_ANSWERED = 0,
    YES,
    NO,
    UNSURE
};
#define CLOSE 1e-12

/* Chances in percent; 0: not listed. */
typedef struct drawn {
    uint64_t random;
    uint32_t pieces, own, shared, signs, wide, not_listed, two_faults;
    bool each[OWN];
    uint32_t often[OWN], often_shared[SHARED];
    uint32_t sign_own[SIGNS][OWN], sign_shared[SIGNS][SHARED], sign_otherwise[SIGNS];
    uint32_t wide_own[WIDE][OWN], wide_shared[WIDE][SHARED], wide_otherwise[WIDE];
    bool named[PIECES], in[PIECES];
    int answer[PIECES][SIGNS], answer_wide[WIDE];
} drawn;

static uint32_t below(drawn *d, uint32_t limit)
{
    return luck_below(&d->random, limit);
}

static uint32_t maybe_listed(drawn *d)
{
    return below(d, 2) == 0 ? 0 : 5 + below(d, 90);
}

static void draw_symptoms(drawn *d)
{
    for (uint32_t s = 0; s < d->signs; s++) {
        d->sign_otherwise[s] = 1 + below(d, 40);
        for (uint32_t c = 0; c < d->own; c++) d->sign_own[s][c] = maybe_listed(d);
        for (uint32_t c = 0; c < d->shared; c++)
            d->sign_shared[s][c] = c == 0 ? 5 + below(d, 90) : maybe_listed(d);
    }
    for (uint32_t s = 0; s < d->wide; s++) {
        d->wide_otherwise[s] = 1 + below(d, 40);
        for (uint32_t c = 0; c < d->own; c++) d->wide_own[s][c] = maybe_listed(d);
        for (uint32_t c = 0; c < d->shared; c++)
            d->wide_shared[s][c] = c == 0 ? 5 + below(d, 90) : maybe_listed(d);
    }
}

static bool lists_own(const drawn *d, uint32_t sign)
{
    for (uint32_t c = 0; c < d->own; c++)
        if (d->sign_own[sign][c] > 0) return true;
    return false;
}

/* In focus is what was named, and where a sign of an own cause is shown. */
static void draw_case(drawn *d)
{
    uint32_t about = below(d, d->pieces);
    for (uint32_t p = 0; p < d->pieces; p++) {
        d->named[p] = d->in[p] = p == about || below(d, 4) == 0;
        for (uint32_t s = 0; s < d->signs; s++) {
            d->answer[p][s] = (int)below(d, 4);
            if (d->answer[p][s] == YES && below(d, 2) == 0) d->answer[p][s] = NO;
            d->in[p] |= d->answer[p][s] == YES && lists_own(d, s);
        }
    }
    for (uint32_t s = 0; s < d->wide; s++) d->answer_wide[s] = (int)below(d, 4);
}

static drawn draw(uint64_t seed, bool all_listed)
{
    drawn d = {.random = seed};
    d.pieces = 2 + below(&d, PIECES - 1);
    d.own = 1 + below(&d, OWN);
    d.shared = 1 + below(&d, SHARED);
    d.signs = 1 + below(&d, SIGNS);
    d.wide = 1 + below(&d, WIDE);
    d.not_listed = all_listed ? 0 : 1 + below(&d, 20);
    d.two_faults = below(&d, 2) == 0 ? 0 : 1 + below(&d, 30);
    for (uint32_t c = 0; c < d.own; c++) {
        d.often[c] = 1 + below(&d, 10);
        d.each[c] = below(&d, 4) == 0;
    }
    for (uint32_t c = 0; c < d.shared; c++) d.often_shared[c] = 1 + below(&d, 10);
    draw_symptoms(&d);
    draw_case(&d);
    return d;
}

/* ---- as an author writes it ---- */

static void write_head(text_builder *t, const drawn *d)
{
    text_addf(
        t, "book:\n  title: Drawn\n  roles: [anybody]\n  not-listed: %u %%\n  two-faults: %u %%\n",
        d->not_listed, d->two_faults);
}

static void write_shared_causes(text_builder *t, const drawn *d)
{
    for (uint32_t c = 0; c < d->shared; c++)
        text_addf(t, "  shared%u: {text: Shared, how-often: %u}\n", c, d->often_shared[c]);
}

static void write_wide_questions(text_builder *t, const drawn *d)
{
    for (uint32_t s = 0; s < d->wide; s++)
        text_addf(t, "  wide%u:\n    ask: Is wide sign %u there?\n    usual: no\n", s, s);
}

static void write_shared_rates(text_builder *t, const drawn *d, const uint32_t *rates)
{
    for (uint32_t c = 0; c < d->shared; c++)
        if (rates[c] > 0) text_addf(t, "      shared%u: %u %%\n", c, rates[c]);
}

static void write_wide_head(text_builder *t, uint32_t s)
{
    text_addf(t, "  wide-sign%u:\n    text: Wide sign\n    when: {wide%u: yes}\n    shown-by:\n", s,
              s);
}

static void write_otherwise(text_builder *t, uint32_t percent)
{
    text_addf(t, "    otherwise: %u %%\n", percent);
}

static const char *with_kinds(arena *keep, const drawn *d)
{
    text_builder t = {.keep = keep};
    write_head(&t, d);
    text_addf(&t, "kinds:\n  unit:\n    ask: Which units are there?\nsite:\n  units:\n    unit:\n");
    for (uint32_t p = 0; p < d->pieces; p++) text_addf(&t, "      u%u: {}\n", p);
    text_addf(&t, "questions:\n");
    for (uint32_t s = 0; s < d->signs; s++)
        text_addf(&t,
                  "  sign%u:\n    for-each: unit\n    ask: Is sign %u at {unit}?\n    usual: no\n",
                  s, s);
    write_wide_questions(&t, d);
    text_addf(&t, "symptoms:\n");
    for (uint32_t s = 0; s < d->signs; s++) {
        text_addf(&t,
                  "  unit-sign%u:\n    for-each: unit\n    text: Sign\n    when: {sign%u: yes}\n   "
                  " shown-by:\n",
                  s, s);
        for (uint32_t c = 0; c < d->own; c++)
            if (d->sign_own[s][c] > 0) text_addf(&t, "      own%u: %u %%\n", c, d->sign_own[s][c]);
        write_shared_rates(&t, d, d->sign_shared[s]);
        write_otherwise(&t, d->sign_otherwise[s]);
    }
    for (uint32_t s = 0; s < d->wide; s++) {
        write_wide_head(&t, s);
        for (uint32_t c = 0; c < d->own; c++)
            if (d->wide_own[s][c] > 0)
                text_addf(&t, "      own%u of any unit: %u %%\n", c, d->wide_own[s][c]);
        write_shared_rates(&t, d, d->wide_shared[s]);
        write_otherwise(&t, d->wide_otherwise[s]);
    }
    text_addf(&t, "causes:\n");
    for (uint32_t c = 0; c < d->own; c++)
        text_addf(&t, "  own%u:\n    for-each: unit\n    text: Own\n    how-often: %u\n%s", c,
                  d->often[c], d->each[c] ? "    each: yes\n" : "");
    write_shared_causes(&t, d);
    return text_done(&t).p;
}

/* ---- and by hand, for the pieces in focus ---- */

static void write_own_rates(text_builder *t, const drawn *d, uint32_t piece, const uint32_t *rates)
{
    for (uint32_t c = 0; c < d->own; c++)
        if (rates[c] > 0 && d->in[piece])
            text_addf(t, "      own%u-u%u: %u %%\n", c, piece, rates[c]);
}

static void write_piece_symptom(text_builder *t, const drawn *d, uint32_t s, uint32_t p)
{
    text_addf(t, "  unit-sign%u-u%u:\n    text: Sign\n    when: {sign%u-u%u: yes}\n    shown-by:\n",
              s, p, s, p);
    write_own_rates(t, d, p, d->sign_own[s]);
    write_shared_rates(t, d, d->sign_shared[s]);
    write_otherwise(t, d->sign_otherwise[s]);
}

static void write_wide_symptom(text_builder *t, const drawn *d, uint32_t s)
{
    write_wide_head(t, s);
    for (uint32_t p = 0; p < d->pieces; p++) write_own_rates(t, d, p, d->wide_own[s]);
    write_shared_rates(t, d, d->wide_shared[s]);
    write_otherwise(t, d->wide_otherwise[s]);
}

static void write_own_causes(text_builder *t, const drawn *d)
{
    uint32_t among = 0;
    for (uint32_t p = 0; p < d->pieces; p++) among += d->in[p];
    for (uint32_t p = 0; p < d->pieces; p++)
        for (uint32_t c = 0; c < d->own && d->in[p]; c++)
            text_addf(t, "  own%u-u%u:\n    text: Own\n    how-often: %.17f\n", c, p,
                      d->each[c] ? d->often[c] : (double)d->often[c] / among);
}

static const char *by_hand(arena *keep, const drawn *d)
{
    text_builder t = {.keep = keep};
    write_head(&t, d);
    text_addf(&t, "questions:\n");
    for (uint32_t p = 0; p < d->pieces; p++)
        for (uint32_t s = 0; s < d->signs; s++)
            text_addf(&t, "  sign%u-u%u:\n    ask: Is sign %u at unit %u?\n    usual: no\n", s, p,
                      s, p);
    write_wide_questions(&t, d);
    text_addf(&t, "symptoms:\n");
    for (uint32_t p = 0; p < d->pieces; p++)
        for (uint32_t s = 0; s < d->signs; s++) write_piece_symptom(&t, d, s, p);
    for (uint32_t s = 0; s < d->wide; s++) write_wide_symptom(&t, d, s);
    text_addf(&t, "causes:\n");
    write_own_causes(&t, d);
    write_shared_causes(&t, d);
    return text_done(&t).p;
}

/* ---- both at once ---- */

typedef struct side {
    tt_book *book;
    tt_case *c;
    const char *of; /* between an entry's name and its piece */
} side;

static void end_side(side *s)
{
    tt_case_free(s->c);
    tt_book_free(s->book);
}

static uint32_t question_of(const side *s, const char *base, uint32_t number, uint32_t piece)
{
    char name[64];
    if (piece == NO_ID)
        snprintf(name, sizeof name, "%s%u", base, number);
    else
        snprintf(name, sizeof name, "%s%u%su%u", base, number, s->of, piece);
    uint32_t found = tt_question_find(s->book, name);
    assert_int_not_equal(found, TT_NONE);
    return found;
}

static void answer(side *s, uint32_t question, int how)
{
    if (how == NOT_ANSWERED) return;
    const char *why;
    tt_reply reply = {.kind = TT_UNSURE};
    if (how != UNSURE)
        assert_int_equal(tt_reply_read(s->c, question, how == YES ? "yes" : "no", &reply, &why),
                         TT_OK);
    assert_int_equal(tt_answer(s->c, question, &reply), TT_OK);
}

static side open_side(const char *yaml, const char *of, const drawn *d)
{
    side s = {.book = small_book(yaml), .of = of};
    assert_int_equal(tt_case_new(s.book, NULL, &s.c), TT_OK);
    for (uint32_t p = 0; p < d->pieces; p++)
        for (uint32_t i = 0; i < d->signs; i++)
            answer(&s, question_of(&s, "sign", i, p), d->answer[p][i]);
    for (uint32_t i = 0; i < d->wide; i++)
        answer(&s, question_of(&s, "wide", i, NO_ID), d->answer_wide[i]);
    return s;
}

static void focus(side *s, const drawn *d)
{
    uint32_t pieces[PIECES], count = 0;
    for (uint32_t p = 0; p < d->pieces; p++)
        if (d->named[p]) pieces[count++] = p;
    assert_int_equal(tt_focus(s->c, pieces, count), TT_OK);
}

static void look(side *s)
{
    const tt_view *v;
    assert_int_equal(tt_look(s->c, &v), TT_OK);
}

/* Chance of a cause over all hypotheses that hold it; a cause that one side has alone has none. */
static double chance_of(const side *s, bool pairs, const char *base, uint32_t number,
                        uint32_t piece)
{
    char name[64];
    double marginals[1 + PIECES * OWN + SHARED];
    if (piece == NO_ID)
        snprintf(name, sizeof name, "%s%u", base, number);
    else
        snprintf(name, sizeof name, "%s%u%su%u", base, number, s->of, piece);
    uint32_t cause = book_cause(s->book->book, str_of(name));
    belief_marginals(pairs ? s->c->now.pairs : s->c->now.single, marginals);
    return cause == NO_ID ? 0 : marginals[1 + cause];
}

static double gain_of(const side *s, arena *scratch, bool pairs, uint32_t question)
{
    const evidence seen = {.weights = s->c->now.weights};
    return belief_gain(pairs ? s->c->now.pairs : s->c->now.single, scratch, &seen, question, NULL);
}

static void assert_near(double a, double b, const char *what, uint64_t seed)
{
    if (!(fabs(a - b) <= CLOSE))
        fail_msg("%s: %.17g and %.17g, seed %u", what, a, b, (unsigned)seed);
}

/* `by_first`: of the first shared cause's chance, so that something not listed has no part in it.
 */
static void compare_chances(const side *a, const side *b, const drawn *d, bool pairs, bool by_first,
                            uint64_t seed)
{
    double in_a = by_first ? chance_of(a, pairs, "shared", 0, NO_ID) : 1,
           in_b = by_first ? chance_of(b, pairs, "shared", 0, NO_ID) : 1;
    assert_true(in_a > 0 && in_b > 0);
    for (uint32_t c = 0; c < d->shared; c++) {
        double one = chance_of(a, pairs, "shared", c, NO_ID),
               other = chance_of(b, pairs, "shared", c, NO_ID);
        assert_near(one / in_a / (1 + one / in_a), other / in_b / (1 + other / in_b), "shared",
                    seed);
    }
    for (uint32_t p = 0; p < d->pieces; p++)
        for (uint32_t c = 0; c < d->own; c++) {
            double one = chance_of(a, pairs, "own", c, p), other = chance_of(b, pairs, "own", c, p);
            assert_near(one / in_a / (1 + one / in_a), other / in_b / (1 + other / in_b), "own",
                        seed);
            assert_true(d->in[p] ? one > 0 : one <= 0);
        }
}

static void compare_gains(const side *a, const side *b, arena *scratch, const drawn *d, bool pairs,
                          uint64_t seed)
{
    for (uint32_t p = 0; p < d->pieces; p++)
        for (uint32_t i = 0; i < d->signs; i++)
            assert_near(gain_of(a, scratch, pairs, question_of(a, "sign", i, p)),
                        gain_of(b, scratch, pairs, question_of(b, "sign", i, p)), "gain", seed);
    for (uint32_t i = 0; i < d->wide; i++)
        assert_near(gain_of(a, scratch, pairs, question_of(a, "wide", i, NO_ID)),
                    gain_of(b, scratch, pairs, question_of(b, "wide", i, NO_ID)), "gain", seed);
}

static void compare(uint64_t seed, bool all_listed, uint32_t *widened, uint32_t *two)
{
    drawn d = draw(seed, all_listed);
    arena *keep = test_arena();
    side a = open_side(with_kinds(keep, &d), " of ", &d), b = open_side(by_hand(keep, &d), "-", &d);
    focus(&a, &d);
    look(&a);
    look(&b);
    bool pairs = a.c->now.pairs != NULL && b.c->now.pairs != NULL;
    for (int k = 0; k <= pairs; k++) {
        compare_chances(&a, &b, &d, k == 1, !all_listed, seed);
        if (all_listed) compare_gains(&a, &b, keep, &d, k == 1, seed);
    }
    *two += pairs;
    for (uint32_t p = 0; p < d.pieces; p++) *widened += d.in[p] && !d.named[p];
    end_side(&a);
    end_side(&b);
    arena_free(keep);
}

static void a_case_about_some_pieces_is_one_without_the_others(void **state)
{
    (void)state;
    uint32_t widened = 0, two = 0;
    for (uint64_t seed = 0; seed < BOOKS; seed++) compare(1 + seed * 7919, true, &widened, &two);
    assert_true(widened > BOOKS / 10 && two > BOOKS / 10);
}

/* Something not listed looks like the mean of all causes, at all pieces; between listed causes that
 * makes no difference. */
static void what_is_not_listed_keeps_the_causes_of_all_pieces(void **state)
{
    (void)state;
    uint32_t widened = 0, two = 0;
    for (uint64_t seed = 0; seed < BOOKS; seed++) compare(5 + seed * 104729, false, &widened, &two);
    assert_true(widened > BOOKS / 10 && two > BOOKS / 10);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_case_about_some_pieces_is_one_without_the_others),
        cmocka_unit_test(what_is_not_listed_keeps_the_causes_of_all_pieces),
    };
    return cmocka_run_group_tests_name("a focus, and a book written by hand for it", tests, NULL,
                                       NULL);
}
