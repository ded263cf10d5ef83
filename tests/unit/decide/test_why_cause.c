/* Why one cause rather than another: that it adds up, and that what is said to turn it does. */
#include "testing.h"

#include <math.h>
#include <stdlib.h>

#include "asked_book.h"
#include "base/str.h"
#include "shipped_books.h"
#include "test_sources.h"

/* ---- by hand ---- */

static const char lamp[] = "book:\n"
                           "  title: Lamp\n"
                           "  roles: [anybody, technician]\n"
                           "  not-listed: 10 %\n"
                           "  two-faults: 0 %\n"
                           "questions:\n"
                           "  cold:\n"
                           "    ask: Is it cold?\n"
                           "    about: today\n"
                           "    takes: 1 min\n"
                           "  dark:\n"
                           "    ask: Is it dark?\n"
                           "    takes: 1 min\n"
                           "    read-right: 90 %\n"
                           "  hum:\n"
                           "    ask: How does it hum?\n"
                           "    takes: 1 min\n"
                           "    read-right: 80 %\n"
                           "    answers:\n"
                           "      loud: Loudly\n"
                           "      soft: Softly\n"
                           "      still: Not at all\n"
                           "  smell:\n"
                           "    ask: Does it smell?\n"
                           "    takes: 1 min\n"
                           "    role: technician\n"
                           "    read-right: 100 %\n"
                           "symptoms:\n"
                           "  is-dark:\n"
                           "    text: It is dark\n"
                           "    when: {dark: yes}\n"
                           "    shown-by: {bulb: 80 %, fuse: 30 %}\n"
                           "    otherwise: 10 %\n"
                           "  is-loud:\n"
                           "    text: It is loud\n"
                           "    when: {hum: loud}\n"
                           "    shown-by: {fuse: 70 %}\n"
                           "    otherwise: 10 %\n"
                           "  smells:\n"
                           "    text: It smells\n"
                           "    when: {smell: yes}\n"
                           "    shown-by: {fuse: 50 %}\n"
                           "    otherwise: 10 %\n"
                           "causes:\n"
                           "  bulb: {text: Bulb, how-often: 3}\n"
                           "  fuse: {text: Fuse, how-often: 1}\n"
                           "  wire: {text: Wire, how-often: rare}\n"
                           "rules:\n"
                           "  frost:\n"
                           "    when: {cold: yes}\n"
                           "    then:\n"
                           "      likelier: {fuse: 4 times}\n"
                           "      rule-out: [wire]\n";

static double decibels(double ratio)
{
    return 10 * log10(ratio);
}

static uint32_t rank_of(asked_book *a, const char *cause)
{
    const tt_view *v = asked_look(a);
    uint32_t rank = 0;
    while (v->causes[rank].name == NULL || strcmp(v->causes[rank].name, cause) != 0) rank++;
    return rank;
}

static void near(double got, double wanted)
{
    if (!(fabs(got - wanted) < 1e-9)) fail_msg("%.12g, wanted %.12g", got, wanted);
}

static const tt_bar *bar_of(const tt_why *w, const char *kind, const char *part)
{
    for (uint32_t i = 0; i < w->bar_count; i++)
        if (strcmp(w->bars[i].kind, kind) == 0 && strstr(w->bars[i].text, part) != NULL)
            return &w->bars[i];
    fail_msg("no bar %s %s", kind, part);
    return NULL;
}

static void each_bar_is_what_the_numbers_say(void **state)
{
    (void)state;
    asked_book a = asked_new(lamp);
    asked_answer(&a, "dark", "yes");
    asked_answer(&a, "hum", "soft");
    asked_answer(&a, "cold", "yes");
    tt_why w;
    assert_int_equal(tt_why_cause(a.c, rank_of(&a, "bulb"), rank_of(&a, "fuse"), &w), TT_OK);
    assert_string_equal(w.cause.name, "bulb");
    assert_string_equal(w.rival.name, "fuse");
    near(bar_of(&w, "start", "")->decibels, decibels(3.0 / 1));
    near(bar_of(&w, "facts", "")->decibels, decibels(1.0 / 4));
    assert_int_equal(bar_of(&w, "facts", "")->name_count, 1);
    assert_string_equal(bar_of(&w, "facts", "")->names[0], "frost");
    /* A state that is there is read right in 9 of 10, and 1 of 10 the other is read for it; of
     * three, one in ten each. */
    near(bar_of(&w, "answers", "dark")->decibels,
         decibels((0.8 * 0.9 + 0.2 * 0.1) / (0.3 * 0.9 + 0.7 * 0.1)));
    const double soft_bulb = 0.45 * 0.8 + 0.55 * 0.1, soft_fuse = 0.15 * 0.8 + 0.85 * 0.1;
    near(bar_of(&w, "answers", "hum")->decibels, decibels(soft_bulb / soft_fuse));
    assert_string_equal(bar_of(&w, "answers", "hum")->strength, "some");
    near(w.decibels, decibels(w.cause.chance / w.rival.chance));
    assert_int_equal(w.bar_count, 4);
    asked_free(&a);
}

static void what_is_not_listed_is_weighed_too(void **state)
{
    (void)state;
    asked_book a = asked_new(lamp);
    asked_answer(&a, "dark", "yes");
    const tt_view *v = asked_look(&a);
    uint32_t other = 0;
    while (v->causes[other].name != NULL) other++;
    tt_why w;
    assert_int_equal(tt_why_cause(a.c, rank_of(&a, "bulb"), other, &w), TT_OK);
    near(bar_of(&w, "start", "")->decibels, decibels(0.9 * 3 / 4.3 / 0.1));
    near(w.decibels, decibels(w.cause.chance / w.rival.chance));
    asked_free(&a);
}

static void what_is_ruled_out_has_no_number(void **state)
{
    (void)state;
    asked_book a = asked_new(lamp);
    asked_answer(&a, "cold", "yes");
    tt_turning t;
    assert_int_equal(tt_what_turns(a.c, rank_of(&a, "wire"), TT_NONE, &t), TT_OK);
    assert_true(isinf(t.why.decibels) && t.why.decibels < 0);
    assert_true(isinf(bar_of(&t.why, "facts", "")->decibels));
    assert_int_equal(t.pivot_count, 0); /* without the rule it would still be behind */
    assert_int_equal(tt_what_turns(a.c, rank_of(&a, "bulb"), rank_of(&a, "wire"), &t), TT_OK);
    assert_true(isinf(t.why.decibels) && t.why.decibels > 0);
    assert_int_equal(tt_why_cause(a.c, 0, 0, &t.why), TT_NOT_NOW);
    asked_free(&a);
}

static const tt_missing *missing_one(const tt_turning *t, const char *question)
{
    for (uint32_t i = 0; i < t->missing_count; i++)
        if (strcmp(t->missing[i].question, question) == 0) return &t->missing[i];
    fail_msg("%s is not missing", question);
    return NULL;
}

static void what_is_missing_says_whom_to_ask_and_what_it_would_tell(void **state)
{
    (void)state;
    asked_book a = asked_new(lamp);
    asked_answer(&a, "dark", "yes");
    tt_turning t;
    assert_int_equal(tt_what_turns(a.c, rank_of(&a, "bulb"), rank_of(&a, "fuse"), &t), TT_OK);
    assert_int_equal(t.missing_count, 2); /* hum and smell: cold is no evidence */
    const tt_missing *smell = missing_one(&t, "smell"), *hum = missing_one(&t, "hum");
    assert_string_equal(smell->role, "technician");
    assert_string_equal(hum->role, "");
    assert_int_equal(smell->answer_count, 2);
    near(smell->answers[0].decibels, decibels(0.9 / 0.5)); /* no */
    near(smell->answers[1].decibels, decibels(0.1 / 0.5)); /* yes */
    near(smell->tells,
         0.5 * ((0.9 - 0.5) * decibels(0.9 / 0.5) + (0.1 - 0.5) * decibels(0.1 / 0.5)));
    assert_true(t.missing[0].tells >= t.missing[1].tells);
    asked_free(&a);
}

/* ---- shipped books ---- */

typedef struct book_at_hand {
    arena *keep;
    shipped_book files;
    tt_book *book;
    unsigned checked[4]; /* pivots: answer, question, facts, number */
    str words_tried; /* "shown-by usually>rarely|": each change of a word once, in the first case
                        that it turns; to load the book anew for all of them takes minutes */
} book_at_hand;

static uint32_t place_of(const tt_view *v, const char *name)
{
    for (uint32_t i = 0; i < v->cause_count; i++)
        if (name == NULL ? v->causes[i].name == NULL
                         : v->causes[i].name != NULL && strcmp(v->causes[i].name, name) == 0)
            return i;
    fail_msg("%s is no cause", name);
    return 0;
}

static void adds_up(const char *name, const tt_why *w)
{
    double sum = 0, odds = 10 * log10(w->cause.chance / w->rival.chance);
    for (uint32_t i = 0; i < w->bar_count; i++) sum += w->bars[i].decibels;
    if (isinf(sum) ? sum != w->decibels : !(fabs(sum - w->decibels) < 1e-9))
        fail_msg("%s: the bars come to %.12g, not %.12g", name, sum, w->decibels);
    if (!w->two_faults && !(fabs(sum - odds) < 1e-7 || sum == odds))
        fail_msg("%s: %.12g decibels, and odds of %.12g", name, sum, odds);
}

/* Whether the first of the two is ahead; 0: two faults at once have a say. */
static int ahead(tt_case *c, const tt_why *w)
{
    const tt_view *v;
    assert_int_equal(tt_look(c, &v), TT_OK);
    if (v->pairs_matter) return 0;
    double mine = v->causes[place_of(v, w->cause.name)].chance,
           theirs = v->causes[place_of(v, w->rival.name)].chance;
    return mine > theirs ? 1 : -1;
}

static bool option_of(tt_case *c, uint32_t question, const char *name, uint32_t *option)
{
    tt_question q;
    assert_int_equal(tt_question_show(c, question, &q), TT_OK);
    for (*option = 0; *option < q.option_count; ++*option)
        if (strcmp(q.options[*option].name, name) == 0) return true;
    return false;
}

/* Tells it to the case itself. False: a reading, whose states have no names. */
static bool tell(const book_at_hand *b, tt_case *c, const char *question, const char *answer)
{
    uint32_t q = tt_question_find(b->book, question), option;
    if (q == TT_NONE) return false;
    if (*answer == 0) return tt_retract(c, q) == TT_OK;
    if (!option_of(c, q, answer, &option)) return false;
    assert_int_equal(tt_answer(c, q, &(tt_reply){.kind = TT_ANSWER, .option = option}), TT_OK);
    return true;
}

typedef struct wanted_pivot {
    bool answer;
    const char *question, *instead;
    double then;
} wanted_pivot;

static const char *kept(arena *keep, const char *text)
{
    return str_copy(keep, str_of(text)).p;
}

/* The case with the other answer: were the two really to change places? */
static void answers_turn_it(book_at_hand *b, uint32_t index, const tt_why *why, bool leads,
                            const wanted_pivot *p)
{
    tt_trial trial;
    tt_case *c;
    assert_int_equal(tt_try_case(b->book, index, &trial, &c), TT_OK);
    int then = tell(b, c, p->question, p->instead) ? ahead(c, why) : 0;
    if (then != 0 && (then > 0) == leads)
        fail_msg("%s: %s '%s' does not turn it", trial.name, p->question, p->instead);
    b->checked[p->answer ? 0 : 1] += then != 0;
    tt_case_free(c);
}

/* The book with the other word in its file. */
static void the_word_turns_it(book_at_hand *b, uint32_t index, const tt_why *why, bool leads,
                              const tt_pivot *p)
{
    arena *keep = test_arena();
    shipped_book edited = b->files;
    source *files = ARENA_ARRAY(keep, source, edited.files.count);
    for (uint32_t i = 0; i < edited.files.count; i++) {
        files[i] = edited.files.items[i];
        if (!str_is(files[i].name, p->place->file)) continue;
        const str old = files[i].bytes;
        assert_true(str_eq(str_slice(old, p->place->start, p->place->end), str_of(p->was)));
        files[i].bytes = str_printf(keep, "%.*s%s%s", (int)p->place->start, old.p,
                                    p->instead[0].name, old.p + p->place->end);
    }
    edited.files.items = files;
    tt_book *book = shipped_load(keep, &edited);
    tt_trial trial;
    tt_case *c;
    assert_int_equal(tt_try_case(book, index, &trial, &c), TT_OK);
    int then = ahead(c, why);
    if (then != 0 && (then > 0) == leads)
        fail_msg("%s: '%s' at %s does not turn it", trial.name, p->instead[0].name, p->place->at);
    b->checked[3] += then != 0;
    tt_case_free(c);
    tt_book_free(book);
    arena_free(keep);
}

static bool is_first_of_its_words(book_at_hand *b, const tt_pivot *p)
{
    const str words = str_printf(b->keep, "%s %s>%s|", p->name, p->was, p->instead[0].name);
    const bool first = str_find(b->words_tried, words) == SIZE_MAX;
    if (first)
        b->words_tried = str_printf(b->keep, "%.*s%.*s", STR_ARG(b->words_tried), STR_ARG(words));
    return first;
}

static void what_is_said_to_turn_it_does(book_at_hand *b, uint32_t index, const tt_turning *t)
{
    arena *keep = test_arena();
    tt_why why = t->why;
    bool leads = why.decibels > 0;
    for (uint32_t i = 0; i < t->pivot_count; i++) {
        const tt_pivot *p = &t->pivots[i];
        bool answer = strcmp(p->kind, "answer") == 0;
        assert_true(p->instead_count > 0 && (p->instead[0].then > 0) != leads);
        if (answer || strcmp(p->kind, "question") == 0) {
            const wanted_pivot w = {answer, kept(keep, p->name), kept(keep, p->instead[0].name),
                                    p->instead[0].then};
            answers_turn_it(b, index, &why, leads, &w);
        }
        if (strcmp(p->kind, "number") == 0 && is_first_of_its_words(b, p))
            the_word_turns_it(b, index, &why, leads, p);
    }
    arena_free(keep);
}

static void worked_cases_add_up_and_turn(void **state)
{
    (void)state;
    arena *keep = test_arena();
    shipped_book books[SHIPPED_MOST];
    uint32_t count = shipped_books(keep, books);
    for (uint32_t k = 0; k < count; k++) {
        book_at_hand b = {.keep = keep, .files = books[k], .book = shipped_load(keep, &books[k])};
        for (uint32_t i = 0; tt_worked_case(b.book, i) != NULL; i++) {
            tt_trial trial;
            tt_case *c;
            tt_turning t;
            assert_int_equal(tt_try_case(b.book, i, &trial, &c), TT_OK);
            assert_int_equal(tt_what_turns(c, trial.rank, TT_NONE, &t), TT_OK);
            adds_up(trial.name, &t.why);
            if (!t.why.two_faults) what_is_said_to_turn_it_does(&b, i, &t);
            tt_case_free(c);
        }
        assert_true(b.checked[0] > 20 && b.checked[1] > 20 && b.checked[3] > 3);
        tt_book_free(b.book);
    }
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_bar_is_what_the_numbers_say),
        cmocka_unit_test(what_is_not_listed_is_weighed_too),
        cmocka_unit_test(what_is_ruled_out_has_no_number),
        cmocka_unit_test(what_is_missing_says_whom_to_ask_and_what_it_would_tell),
        cmocka_unit_test(worked_cases_add_up_and_turn),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
