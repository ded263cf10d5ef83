/* What would let the other of two causes lead, in a book small enough that each of it can be tried:
 * what is said to turn it does, and comes in the order that is said. */
#include "testing.h"

#include <math.h>
#include <stdio.h>

#include "told_case.h"

static const char lamp[] = "book:\n"
                           "  title: Lamp\n"
                           "  roles: [anybody, mender]\n"
                           "  not-listed: 0 %\n"
                           "  two-faults: 0 %\n"
                           "questions:\n"
                           "  cold: {ask: Cold, about: today}\n"
                           "  smell: {ask: Smell, takes: 1 min, read-right: 100 %}\n"
                           "  dark: {ask: Dark, takes: 1 min, read-right: 100 %}\n"
                           "  hum:\n"
                           "    ask: How does it hum?\n"
                           "    role: mender\n"
                           "    read-right: 100 %\n"
                           "    answers: {loud: Loudly, soft: Softly, still: No}\n"
                           "  warm: {ask: Warm, takes: 1 min, read-right: 100 %}\n"
                           "symptoms:\n"
                           "  smells:\n"
                           "    text: It smells\n"
                           "    when: {smell: yes}\n"
                           "    shown-by: {fuse: 50 %}\n"
                           "    otherwise: 10 %\n"
                           "  is-dark:\n"
                           "    text: It is dark\n"
                           "    when: {dark: yes}\n"
                           "    shown-by: {bulb: 80 %, fuse: 30 %}\n"
                           "    otherwise: 20 %\n"
                           "  is-loud:\n"
                           "    text: It is loud\n"
                           "    when: {hum: loud}\n"
                           "    shown-by: {fuse: 70 %}\n"
                           "    otherwise: 10 %\n"
                           "  is-warm:\n"
                           "    text: It is warm\n"
                           "    when: {warm: yes}\n"
                           "    shown-by: {fuse: 60 %}\n"
                           "    otherwise: 10 %\n"
                           "causes:\n"
                           "  bulb: {text: Bulb, how-often: 3}\n"
                           "  fuse: {text: Fuse, how-often: 2}\n"
                           "  wire: {text: Wire, how-often: 1}\n"
                           "rules:\n"
                           "  frost:\n"
                           "    when: {cold: yes}\n"
                           "    then:\n"
                           "      likelier: {bulb: 4 times, wire: 9 times}\n";

static void near(double got, double wanted)
{
    if (!(fabs(got - wanted) < 1e-9)) fail_msg("%.12g, wanted %.12g", got, wanted);
}

static double decibels(double ratio)
{
    return 10 * log10(ratio);
}

static uint32_t rank_of(told_case *t, const char *cause)
{
    const tt_view *v = told_look(t);
    uint32_t rank = 0;
    while (strcmp(v->causes[rank].name, cause) != 0) rank++;
    return rank;
}

/* What is not known of today has a chance, too. */
static told_case lamp_at(const char *text, const char *cold, const tt_options *options)
{
    told_case t = told_new(text, options);
    told_answer(&t, "cold", cold);
    return t;
}

static tt_turning turns(told_case *t, const char *mine, const char *theirs)
{
    tt_turning out;
    const uint32_t rank = rank_of(t, mine), rival = rank_of(t, theirs);
    assert_int_equal(tt_what_turns(t->c, rank, rival, &out), TT_OK);
    return out;
}

/* The pivots of one kind, one behind the other. */
static uint32_t of_kind(const tt_turning *t, const char *kind, const tt_pivot **first)
{
    uint32_t from = 0, count = 0;
    while (from < t->pivot_count && strcmp(t->pivots[from].kind, kind) != 0) from++;
    *first = &t->pivots[from];
    while (from + count < t->pivot_count && strcmp((*first)[count].kind, kind) == 0) count++;
    for (uint32_t i = from + count; i < t->pivot_count; i++)
        assert_string_not_equal(t->pivots[i].kind, kind);
    return count;
}

static void is_instead(const tt_pivot *p, uint32_t at, const char *name, double moves, double then)
{
    assert_true(at < p->instead_count);
    assert_string_equal(p->instead[at].name, name);
    near(p->instead[at].decibels, moves);
    near(p->instead[at].then, then);
}

/* Asked for in the order in which they tell: hum, warm, dark, smell; those that turn it by a little
 * come first. */
static void questions_that_turn_it_come_the_nearest_first(void **state)
{
    const tt_pivot *p;
    (void)state;
    told_case t = lamp_at(lamp, "no", NULL);
    const tt_turning out = turns(&t, "bulb", "fuse");
    near(out.why.decibels, decibels(3.0 / 2));
    assert_int_equal(out.missing_count, 4); /* cold is no evidence */
    assert_string_equal(out.missing[0].question, "hum");
    assert_string_equal(out.missing[1].question, "warm");
    assert_string_equal(out.missing[2].question, "dark");
    assert_string_equal(out.missing[3].question, "smell");
    near(out.missing[0].tells, 0.5 * 0.6 * (decibels(0.7 / 0.1) + decibels(0.9 / 0.3)));
    near(out.missing[3].tells, 0.5 * 0.4 * (decibels(0.5 / 0.1) + decibels(0.9 / 0.5)));
    assert_int_equal(of_kind(&out, "question", &p), 4);
    assert_string_equal(p[0].name, "dark");
    is_instead(&p[0], 0, "no", decibels(0.2 / 0.7), decibels(1.5 * 0.2 / 0.7));
    assert_string_equal(p[1].name, "smell");
    is_instead(&p[1], 0, "yes", decibels(0.1 / 0.5), decibels(1.5 * 0.1 / 0.5));
    assert_string_equal(p[2].name, "warm");
    is_instead(&p[2], 0, "yes", decibels(0.1 / 0.6), decibels(1.5 * 0.1 / 0.6));
    assert_string_equal(p[3].name, "hum");
    assert_int_equal(p[3].instead_count, 1);
    is_instead(&p[3], 0, "loud", decibels(0.1 / 0.7), decibels(1.5 * 0.1 / 0.7));
    assert_string_equal(p[3].instead[0].text, "Loudly");
    assert_string_equal(p[3].text, "How does it hum?");
    assert_null(p[3].place);
    told_free(&t);
}

static void whoever_may_not_answer_is_told_who_may(void **state)
{
    (void)state;
    told_case t = lamp_at(lamp, "no", NULL);
    tt_turning out = turns(&t, "bulb", "fuse");
    assert_string_equal(out.missing[0].role, "mender");
    assert_string_equal(out.missing[0].role_text, "mender");
    assert_string_equal(out.missing[1].role, "");
    for (uint32_t i = 0; i < out.missing_count; i++) assert_true(out.missing[i].turns);
    told_free(&t);
    t = lamp_at(lamp, "no", &(tt_options){.role = 1});
    out = turns(&t, "bulb", "fuse");
    assert_string_equal(out.missing[0].role, "");
    told_free(&t);
}

/* Dark: 0.8 against 0.3. No smell: 0.9 against 0.5. Without the one it is nearer than with another
 * answer to the other; the answer that was given is none of them. */
static void answers_that_turn_it_come_the_nearest_first(void **state)
{
    const tt_pivot *p;
    (void)state;
    told_case t = lamp_at(lamp, "no", NULL);
    told_answer(&t, "warm", "yes");
    told_answer(&t, "smell", "no");
    told_answer(&t, "dark", "yes");
    const double odds = 1.5 * (1.0 / 6) * (9.0 / 5) * (8.0 / 3);
    const tt_turning out = turns(&t, "bulb", "fuse");
    near(out.why.decibels, decibels(odds));
    assert_int_equal(of_kind(&out, "answer", &p), 2);
    assert_string_equal(p[0].name, "smell");
    assert_string_equal(p[0].was, "No");
    assert_int_equal(p[0].instead_count, 2);
    is_instead(&p[0], 0, "", decibels(5.0 / 9), decibels(odds * 5 / 9));
    is_instead(&p[0], 1, "yes", decibels(0.2), decibels(odds * 5 / 9 * 0.2));
    assert_string_equal(p[1].name, "dark");
    assert_string_equal(p[1].was, "Yes");
    assert_int_equal(p[1].instead_count, 2);
    is_instead(&p[1], 0, "", decibels(3.0 / 8), decibels(odds * 3 / 8));
    is_instead(&p[1], 1, "no", decibels(2.0 / 7), decibels(odds * 3 / 8 * 2 / 7));
    told_free(&t);
}

/* Seen from the one that is behind it is the same. */
static void the_one_behind_is_turned_by_the_same(void **state)
{
    (void)state;
    told_case t = lamp_at(lamp, "no", NULL);
    told_answer(&t, "dark", "yes");
    const tt_turning ahead = turns(&t, "bulb", "fuse"), behind = turns(&t, "fuse", "bulb");
    near(ahead.why.decibels, -behind.why.decibels);
    assert_true(ahead.pivot_count > 4);
    assert_int_equal(ahead.pivot_count, behind.pivot_count);
    for (uint32_t i = 0; i < ahead.pivot_count; i++) {
        assert_string_equal(ahead.pivots[i].kind, behind.pivots[i].kind);
        assert_string_equal(ahead.pivots[i].name, behind.pivots[i].name);
        near(ahead.pivots[i].instead[0].then, -behind.pivots[i].instead[0].then);
    }
    told_free(&t);
}

/* Cold makes the bulb four times likelier: without that the fuse would lead. */
static void rules_that_turn_it_are_named(void **state)
{
    const tt_pivot *p;
    (void)state;
    told_case t = lamp_at(lamp, "yes", NULL);
    told_answer(&t, "dark", "yes");
    const double odds = 1.5 * 4 * (8.0 / 3);
    tt_turning out = turns(&t, "bulb", "fuse");
    near(out.why.decibels, decibels(odds));
    assert_int_equal(of_kind(&out, "facts", &p), 0); /* it leads without that, too */
    told_answer(&t, "dark", "unsure");
    told_answer(&t, "smell", "yes");
    out = turns(&t, "bulb", "fuse");
    assert_int_equal(of_kind(&out, "facts", &p), 1);
    is_instead(&p[0], 0, "", decibels(0.25), decibels(1.5 * 0.2));
    assert_int_equal(p[0].name_count, 1);
    assert_string_equal(p[0].names[0], "frost");
    told_free(&t);
}

/* ---- numbers ---- */

/* The book with the word where the number stood. */
static double odds_with(const tt_pivot *p, const char *word)
{
    char text[sizeof lamp + 64];
    assert_memory_equal(lamp + p->place->start, p->was, strlen(p->was));
    assert_int_equal(p->place->end - p->place->start, strlen(p->was));
    snprintf(text, sizeof text, "%.*s%s%s", (int)p->place->start, lamp, word, lamp + p->place->end);
    told_case t = lamp_at(text, "no", NULL);
    told_answer(&t, "dark", "yes");
    told_answer(&t, "smell", "yes");
    const double odds = told_chance(&t, "bulb") / told_chance(&t, "fuse");
    told_free(&t);
    return odds;
}

static void is_named(const tt_pivot *p, const char *name, const char *first, const char *second)
{
    assert_string_equal(p->name, name);
    assert_int_equal(p->name_count, second == NULL ? 1 : 2);
    assert_string_equal(p->names[0], first);
    if (second != NULL) assert_string_equal(p->names[1], second);
}

static const tt_pivot *number_at(const tt_pivot *all, uint32_t count, const char *near_text)
{
    const char *at = strstr(lamp, near_text);
    assert_non_null(at);
    const size_t from = (size_t)(at - lamp), to = from + strlen(near_text);
    for (uint32_t i = 0; i < count; i++)
        if (all[i].place->start >= from && all[i].place->end <= to) return &all[i];
    return NULL;
}

/* Each of them written into the book turns it, by as much as is said, and no nearer word would. */
static void numbers_that_turn_it_do_once_they_are_written(void **state)
{
    const tt_pivot *p;
    (void)state;
    told_case t = lamp_at(lamp, "no", NULL);
    told_answer(&t, "dark", "yes");
    told_answer(&t, "smell", "yes");
    const tt_turning out = turns(&t, "bulb", "fuse");
    near(out.why.decibels, decibels(0.8));
    const uint32_t count = of_kind(&out, "number", &p);
    for (uint32_t i = 0; i < count; i++) {
        for (uint32_t k = 0; k < p[i].instead_count; k++) {
            near(decibels(odds_with(&p[i], p[i].instead[k].name)), p[i].instead[k].then);
            near(p[i].instead[k].then - p[i].instead[k].decibels, decibels(0.8));
            assert_true(p[i].instead[k].then > 0);
            assert_string_equal(p[i].instead[k].name, p[i].instead[k].text);
        }
        if (i > 0) assert_true(p[i - 1].instead[0].then <= p[i].instead[0].then);
        assert_string_equal(p[i].place->file, "small.yaml");
    }
    is_named(number_at(p, count, "how-often: 3"), "how-often", "bulb", NULL);
    is_named(number_at(p, count, "how-often: 2"), "how-often", "fuse", NULL);
    is_named(number_at(p, count, "fuse: 30 %"), "shown-by", "is-dark", "fuse");
    is_named(number_at(p, count, "{fuse: 50 %}"), "shown-by", "smells", "fuse");
    is_named(number_at(p, count, "otherwise: 10 %\n  is-dark"), "otherwise", "smells", NULL);
    assert_null(number_at(p, count, "bulb: 80 %"));      /* even always would not do */
    assert_null(number_at(p, count, "otherwise: 20 %")); /* both are listed there */
    assert_null(number_at(p, count, "how-often: 1"));    /* of a third */
    assert_null(number_at(p, count, "fuse: 70 %"));      /* not looked at */
    assert_null(number_at(p, count, "fuse: 60 %"));
    told_free(&t);
}

/* ---- with something not listed behind, and a table that depends on what nobody told ---- */

static const char worn[] =
    "book: {title: Worn, roles: [anybody], not-listed: 20 %, two-faults: 0 %}\n"
    "questions:\n"
    "  age: {ask: Age, about: today, answers: {old: Old, new: New}, shares: {old: 40 %, new: 60 "
    "%}}\n"
    "  dark: {ask: Dark, usual: no, read-right: 100 %}\n"
    "symptoms:\n"
    "  is-dark: {text: Dark, when: {dark: yes, age: old}, shown-by: {bulb: 30 %}, otherwise: 10 "
    "%}\n"
    "causes:\n"
    "  bulb: {text: Bulb, how-often: 2}\n"
    "  fuse: {text: Fuse, how-often: 3}\n"
    "rules:\n"
    "  frays: {when: {age: old}, then: {likelier: {fuse: 5 times}}}\n";

/* The bulb against something not listed, in decibels. */
static double worn_odds(const char *text, told_case *t, uint32_t *bulb, uint32_t *other)
{
    *t = told_new(text, NULL);
    told_answer(t, "dark", "yes");
    const tt_view *v = told_look(t);
    *bulb = *other = TT_NONE;
    for (uint32_t i = 0; i < v->cause_count; i++) {
        if (v->causes[i].name == NULL)
            *other = i;
        else if (strcmp(v->causes[i].name, "bulb") == 0)
            *bulb = i;
    }
    assert_true(*bulb != TT_NONE && *other != TT_NONE);
    return decibels(v->causes[*bulb].chance / v->causes[*other].chance);
}

/* What causes come with, it comes with on the mean: so each number is weighed with all of them. */
static void a_number_turns_it_also_against_something_not_listed(void **state)
{
    told_case t, then;
    tt_turning out;
    const tt_pivot *p;
    uint32_t bulb, other, tried = 0;
    (void)state;
    const double now = worn_odds(worn, &t, &bulb, &other);
    assert_int_equal(tt_what_turns(t.c, bulb, other, &out), TT_OK);
    near(out.why.decibels, now);
    const uint32_t count = of_kind(&out, "number", &p);
    for (uint32_t i = 0; i < count; i++)
        for (uint32_t k = 0; k < p[i].instead_count; k++, tried++) {
            char text[sizeof worn + 64];
            uint32_t its, others;
            snprintf(text, sizeof text, "%.*s%s%s", (int)p[i].place->start, worn,
                     p[i].instead[k].name, worn + p[i].place->end);
            near(worn_odds(text, &then, &its, &others), p[i].instead[k].then);
            told_free(&then);
        }
    assert_true(tried >= 2);
    told_free(&t);
}

#define SMALL "book: {title: Small, roles: [anybody], not-listed: 0 %, two-faults: 0 %}\n"

static const tt_pivot *only_number(tt_turning *out, uint32_t count)
{
    const tt_pivot *p;
    assert_int_equal(of_kind(out, "number", &p), count);
    return p;
}

/* As rare as no word says: the rarest word is one, too. */
static void the_first_word_of_all_may_turn_it(void **state)
{
    static const char rare[] = SMALL "questions:\n"
                                     "  dark: {ask: Dark, usual: no}\n"
                                     "symptoms:\n"
                                     "  is-dark: {text: Dark, when: {dark: yes}, shown-by: {bulb: "
                                     "80 %, fuse: 80 %}}\n"
                                     "causes:\n"
                                     "  bulb: {text: Bulb, how-often: 0.2}\n"
                                     "  fuse: {text: Fuse, how-often: 0.1}\n";
    (void)state;
    told_case t = told_new(rare, NULL);
    tt_turning out = turns(&t, "bulb", "fuse");
    const tt_pivot *p = only_number(&out, 1);
    is_named(p, "how-often", "fuse", NULL);
    assert_string_equal(p->instead[0].name, "rare");
    near(p->instead[0].then, decibels(0.2 / 0.3));
    told_free(&t);
}

/* What does not apply is not missing; what confirms one of the two tells much, and not without end.
 */
static void what_can_not_be_answered_is_not_missing(void **state)
{
    static const char never[] = SMALL "questions:\n"
                                      "  cold: {ask: Cold, about: today}\n"
                                      "  dark: {ask: Dark, usual: no, confirms: {yes: bulb}}\n"
                                      "  ice: {ask: Ice, usual: no, only-when: {cold: yes}}\n"
                                      "symptoms:\n"
                                      "  is-dark: {text: Dark, when: {dark: yes}, shown-by: {bulb: "
                                      "100 %, fuse: 50 %}, otherwise: 0 %}\n"
                                      "  iced: {text: Ice, when: {ice: yes}, shown-by: {fuse: "
                                      "90 %}}\n"
                                      "causes:\n"
                                      "  bulb: {text: Bulb, how-often: 3}\n"
                                      "  fuse: {text: Fuse, how-often: 2}\n";
    (void)state;
    told_case t = told_new(never, NULL);
    told_answer(&t, "cold", "no");
    tt_turning out = turns(&t, "bulb", "fuse");
    assert_int_equal(out.missing_count, 1);
    assert_string_equal(out.missing[0].question, "dark");
    assert_int_equal(out.missing[0].answer_count, 2);
    assert_true(isfinite(out.missing[0].tells) && out.missing[0].tells > 0);
    told_answer(&t, "cold", "yes");
    out = turns(&t, "bulb", "fuse");
    assert_int_equal(out.missing_count, 2);
    told_free(&t);
}

/* ---- in words ---- */

/* One reading against two limits is told once, with all that it says. */
static void one_reading_against_two_limits_is_one_sign(void **state)
{
    static const char limits[] =
        SMALL "questions:\n"
              "  low: {ask: Low, reading: pressure, unit: psi, about: the "
              "site}\n"
              "  high: {ask: High, reading: pressure, unit: psi, about: the "
              "site}\n"
              "  gauge: {ask: Gauge, reading: pressure, unit: psi}\n"
              "symptoms:\n"
              "  above: {text: Above, when: {gauge: above low}, shown-by: "
              "{valve: 80 %, seal: 30 %}}\n"
              "  far: {text: Far, when: {gauge: above high}, shown-by: "
              "{valve: 60 %, seal: 20 %}}\n"
              "causes:\n"
              "  valve: {text: Valve, how-often: 3}\n"
              "  seal: {text: Seal, how-often: 2}\n";
    tt_why why;
    (void)state;
    told_case t = told_new(limits, NULL);
    told_answer(&t, "low", "30");
    told_answer(&t, "high", "40");
    told_answer(&t, "gauge", "50");
    assert_int_equal(tt_why_cause(t.c, rank_of(&t, "valve"), rank_of(&t, "seal"), &why), TT_OK);
    assert_int_equal(why.bar_count, 2);
    assert_string_equal(why.bars[1].text, "Gauge 50 psi");
    near(why.bars[0].decibels, decibels(1.5));
    near(why.bars[0].decibels + why.bars[1].decibels, why.decibels);
    assert_true(why.bars[1].decibels > decibels(2));
    told_free(&t);
}

static void one_sign_of_two_answers_is_told_by_both(void **state)
{
    static const char two[] = "book: {title: Lamp, roles: [anybody], not-listed: 0 %}\n"
                              "questions:\n"
                              "  dark: {ask: Dark, usual: no}\n"
                              "  hum: {ask: Hums, usual: no}\n"
                              "symptoms:\n"
                              "  both:\n"
                              "    text: It hums in the dark\n"
                              "    when: {dark: yes, hum: yes}\n"
                              "    shown-by: {bulb: 80 %, fuse: 30 %}\n"
                              "causes:\n"
                              "  bulb: {text: Bulb, how-often: 3}\n"
                              "  fuse: {text: Fuse, how-often: 2}\n";
    tt_why why;
    (void)state;
    told_case t = told_new(two, NULL);
    told_answer(&t, "dark", "yes");
    assert_int_equal(tt_why_cause(t.c, 0, 1, &why), TT_OK);
    assert_string_equal(why.bars[1].text, "Dark Yes");
    told_answer(&t, "hum", "yes");
    assert_int_equal(tt_why_cause(t.c, 0, 1, &why), TT_OK);
    assert_int_equal(why.bar_count, 2);
    assert_string_equal(why.bars[1].text, "Dark Yes and Hums Yes");
    assert_int_equal(why.bars[1].name_count, 2);
    assert_string_equal(why.bars[1].names[0], "dark");
    assert_string_equal(why.bars[1].names[1], "hum");
    told_free(&t);
}

/* The heaviest first, whichever way it points; words for sizes. */
static void bars_come_the_heaviest_first(void **state)
{
    static const char *const order[] = {"warm", "smell", "dark"};
    tt_why why;
    (void)state;
    told_case t = lamp_at(lamp, "no", NULL);
    told_answer(&t, "dark", "yes");
    told_answer(&t, "smell", "yes");
    told_answer(&t, "warm", "yes");
    assert_int_equal(tt_why_cause(t.c, rank_of(&t, "bulb"), rank_of(&t, "fuse"), &why), TT_OK);
    assert_int_equal(why.bar_count, 4);
    assert_string_equal(why.bars[0].kind, "start");
    assert_string_equal(why.bars[0].strength, "slight"); /* 1.8 dB */
    for (int i = 0; i < 3; i++) {
        assert_string_equal(why.bars[1 + i].names[0], order[i]);
        assert_string_equal(why.bars[1 + i].strength, i == 0 ? "strong" : i == 1 ? "some" : "some");
    }
    told_free(&t);
}

/* The rule makes the bulb and the wire likelier: it is named for either of them, on either side. */
static void the_rule_that_moves_one_of_them_is_named(void **state)
{
    static const char *const two[][2] = {
        {"wire", "fuse"}, {"fuse", "wire"}, {"bulb", "fuse"}, {"fuse", "bulb"}};
    (void)state;
    told_case t = lamp_at(lamp, "yes", NULL);
    for (int i = 0; i < 4; i++) {
        tt_why why;
        uint32_t at = 0;
        const uint32_t rank = rank_of(&t, two[i][0]), rival = rank_of(&t, two[i][1]);
        assert_int_equal(tt_why_cause(t.c, rank, rival, &why), TT_OK);
        while (at < why.bar_count && strcmp(why.bars[at].kind, "facts") != 0) at++;
        assert_true(at < why.bar_count);
        assert_int_equal(why.bars[at].name_count, 1);
        assert_string_equal(why.bars[at].names[0], "frost");
        near(fabs(why.bars[at].decibels), decibels(i < 2 ? 9 : 4));
    }
    told_free(&t);
}

static void there_must_be_two(void **state)
{
    tt_why why;
    tt_turning out;
    (void)state;
    told_case t = lamp_at(lamp, "no", NULL);
    const uint32_t count = told_look(&t)->cause_count;
    assert_int_equal(tt_why_cause(t.c, 0, 0, &why), TT_NOT_NOW);
    assert_int_equal(tt_why_cause(t.c, count, 0, &why), TT_NOT_NOW);
    assert_int_equal(tt_why_cause(t.c, 0, count, &why), TT_NOT_NOW);
    assert_int_equal(tt_what_turns(t.c, 0, count, &out), TT_NOT_NOW);
    assert_int_equal(out.pivot_count, 0);
    assert_int_equal(tt_why_cause(t.c, 0, TT_NONE, &why), TT_OK);
    assert_string_equal(why.rival.name, told_look(&t)->causes[1].name);
    assert_int_equal(tt_why_cause(t.c, 2, TT_NONE, &why), TT_OK);
    assert_string_equal(why.rival.name, told_look(&t)->causes[0].name);
    told_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(questions_that_turn_it_come_the_nearest_first),
        cmocka_unit_test(whoever_may_not_answer_is_told_who_may),
        cmocka_unit_test(answers_that_turn_it_come_the_nearest_first),
        cmocka_unit_test(the_one_behind_is_turned_by_the_same),
        cmocka_unit_test(rules_that_turn_it_are_named),
        cmocka_unit_test(numbers_that_turn_it_do_once_they_are_written),
        cmocka_unit_test(a_number_turns_it_also_against_something_not_listed),
        cmocka_unit_test(the_first_word_of_all_may_turn_it),
        cmocka_unit_test(what_can_not_be_answered_is_not_missing),
        cmocka_unit_test(one_reading_against_two_limits_is_one_sign),
        cmocka_unit_test(one_sign_of_two_answers_is_told_by_both),
        cmocka_unit_test(bars_come_the_heaviest_first),
        cmocka_unit_test(the_rule_that_moves_one_of_them_is_named),
        cmocka_unit_test(there_must_be_two),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
