/* Learning through the public face: pieces of equipment share a number, numbers that were left out
 * get a line, a file keeps its ways. */
#include <math.h>
#include <stdio.h>

#include "base/arena.h"
#include "base/str.h"
#include "telltale.h"
#include "test_sources.h"
#include "testing.h"

#define EACH_LINE(X) \
    X("book:") \
    X("  title: Filters # the house's") \
    X("  roles: [helper]") \
    X("kinds:") \
    X("  filter:") \
    X("    ask: Which filters are there?") \
    X("questions:") \
    X("  drop:") \
    X("    for-each: filter") \
    X("    ask: Does {filter} hold the water back?") \
    X("    read-right: 100 %") \
    X("  hum:") \
    X("    ask: How is the pump?") \
    X("    answers: {loud: Loud, quiet: Quiet}") \
    X("    read-right: 100 %") \
    X("symptoms:") \
    X("  held-back:") \
    X("    for-each: filter") \
    X("    text: \"{filter} holds the water back\"") \
    X("    when: {drop: yes}") \
    X("    shown-by:") \
    X("      full: often # from the label") \
    X("    # and the rest") \
    X("  hums: {when: {hum: loud}, shown-by: {worn: usually}}") \
    X("causes:") \
    X("  full:") \
    X("    for-each: filter") \
    X("    text: The cartridge of {filter} is full") \
    X("    each: yes") \
    X("    how-often: 2") \
    X("  worn:") \
    X("    # seldom seen") \
    X("    text: The pump is worn") \
    X("fixes:") \
    X("  mend:") \
    X("    text: Mend it") \
    X("    role: helper\n    cures: {worn: usually, full of any filter: usually}") \
    X("    harm: none") \
    X("    put-back: not needed")
#define UNIX_LINE(line) line "\n"
#define WIDE_LINE(line) line "\r\n"
static const char rules[] = EACH_LINE(UNIX_LINE), wide[] = EACH_LINE(WIDE_LINE);
static const char own[] = "site:\n  units:\n    filter: {coarse: {}, fine: {}}\n",
                  farm[] = "site:\n  units:\n    filter: {left: {}, middle: {}, right: {}}\n";
static const char until[] = "2026-01-02T03:04:05.678Z";

static tt_source source_of(const char *name, const char *text)
{
    return (tt_source){name, text, strlen(text)};
}

static tt_learning *begin(const char *text)
{
    tt_learning *l;
    tt_report *report;
    const tt_source file = source_of("rules.yaml", text);
    tt_status status = tt_learning_new(&file, 1, &l, &report);
    if (status != TT_OK) print_error("%s\n", tt_report_text(report));
    assert_int_equal(status, TT_OK);
    tt_report_free(report);
    return l;
}

static tt_book *at_site(const char *text, const char *site)
{
    tt_book *book;
    tt_report *report;
    const tt_source file = source_of("rules.yaml", text), there = source_of("site.yaml", site);
    assert_int_equal(tt_book_load_at(&file, 1, &there, &book, &report), TT_OK);
    tt_report_free(report);
    return book;
}

typedef struct said {
    const char *question;
    uint32_t option;
} said;

static tt_case *call_about(const tt_book *book, const said *answers, tt_outcome outcome)
{
    tt_case *c;
    assert_int_equal(tt_case_new(book, &(tt_options){.role = TT_NONE}, &c), TT_OK);
    for (; answers->question != NULL; answers++) {
        tt_reply reply = {.kind = TT_ANSWER, .option = answers->option};
        uint32_t question = tt_question_find(book, answers->question);
        assert_int_equal(tt_answer(c, question, &reply), TT_OK);
    }
    assert_int_equal(tt_fix_tried(c, tt_fix_find(book, "mend"), outcome), TT_OK);
    return c;
}

static void add(tt_learning *l, const tt_book *book, const said *answers, const char *cause,
                int times)
{
    for (int i = 0; i < times; i++) {
        tt_case *c = call_about(book, answers, TT_GONE);
        assert_int_equal(tt_learning_add(l, c, cause, false), TT_OK);
        tt_case_free(c);
    }
}

static uint32_t yes_option(const tt_book *book, const char *question)
{
    tt_case *c;
    tt_question shown;
    assert_int_equal(tt_case_new(book, &(tt_options){.role = TT_NONE}, &c), TT_OK);
    assert_int_equal(tt_question_show(c, tt_question_find(book, question), &shown), TT_OK);
    uint32_t yes = strcmp(shown.options[0].name, "yes") == 0 ? 0 : 1;
    tt_case_free(c);
    return yes;
}

static const tt_learned *item(const tt_lesson *lesson, tt_learned_kind kind, const char *symptom,
                              const char *cause)
{
    for (uint32_t i = 0; i < lesson->count; i++) {
        const tt_learned *n = &lesson->items[i];
        if (n->kind == kind && strcmp(n->symptom, symptom) == 0 && strcmp(n->cause, cause) == 0)
            return n;
    }
    fail_msg("nothing was learned of '%s' and '%s'", symptom, cause);
    return NULL;
}

static void near(double got, double wanted)
{
    if (!(fabs(got - wanted) <= 1e-9)) fail_msg("%.17g, wanted %.17g", got, wanted);
}

/* Two filters here, three there. Ten calls: six with a full filter (its own drop seen in each, its
 * neighbour's in none), four with a worn pump that is loud. */
static const tt_lesson *two_places(tt_learning *l, const char *text)
{
    const tt_lesson *lesson;
    tt_book *house = at_site(text, own), *barn = at_site(text, farm);
    uint32_t yes = yes_option(house, "drop of fine");
    add(l, house, (const said[]){{"drop of fine", yes}, {"drop of coarse", !yes}, {NULL, 0}},
        "full of fine", 4);
    add(l, barn,
        (const said[]){{"drop of middle", yes}, {"drop of left", !yes}, {"hum", 0}, {NULL, 0}},
        "full of middle", 2);
    add(l, barn, (const said[]){{"hum", 0}, {"drop of right", yes}, {NULL, 0}}, "worn", 4);
    assert_int_equal(tt_learning_look(l, until, &lesson), TT_OK);
    tt_book_free(house);
    tt_book_free(barn);
    return lesson;
}

static void pieces_share_their_number(void **state)
{
    (void)state;
    tt_learning *l = begin(rules);
    const tt_lesson *lesson = two_places(l, rules);
    assert_int_equal(lesson->cases, 10);
    assert_int_equal(lesson->causes, 2);
    assert_int_equal(lesson->cases_wanted, 8);
    /* Two stand-ins of weight 2 and a pump of 1: 4 of 5. Three filters are in the barn, so that
     * full ones were to be expected there 1.5 times as often: the share s has 46/s - 54 - 9/(1 +
     * s/2) = 14/(1-s) - 54 - 6/(1 + s/2), and the weights come to 5 × 60/50. (mpmath) */
    const tt_learned *n = item(lesson, TT_HOW_OFTEN, "", "full");
    near(n->before, 0.8);
    near(n->after, 0.760059228841096969);
    assert_string_equal(n->proposed, "2.28");
    assert_string_equal(item(lesson, TT_HOW_OFTEN, "", "worn")->proposed, "1.44");
    n = item(lesson, TT_SHOWN_BY, "held-back", "full");
    near(n->cases, 6);
    near(n->of, 6); /* the neighbours were not full: theirs is no drop of a full filter */
    near(n->after, (20 * 0.7 + 6) / 26);
    /* Six neighbours without a drop, four drops with a worn pump, and rarely is 5 %. */
    n = item(lesson, TT_OTHERWISE, "held-back", "");
    near(n->cases, 4);
    near(n->of, 10);
    near(n->after, (40 * 0.05 + 4) / 50);
    assert_false(n->outside); /* Beta(6, 44) begins at 4.6 % */
    near(item(lesson, TT_SHOWN_BY, "hums", "worn")->after, (20 * 0.85 + 4) / 24);
    tt_learning_free(l);
}

/* Every line as it was, but for the numbers; a number left out gets a line below what it goes with,
 * or a place within the braces. */
static void assert_written(const char *text, const char *end)
{
    static const char *const wanted[] = {
        "  title: Filters # the house's%s  learned-until: 2026-01-02T03:04:05.678Z%s  roles: "
        "[helper]%s",
        "    shown-by:%s      full: 77 %% # from the label%s    otherwise: 12 %%%s    # and the "
        "rest%s",
        "  hums: {otherwise: 9.5 %%, when: {hum: loud}, shown-by: {worn: usually}}%s",
        "    each: yes%s    how-often: 2.28%s",
        "    # seldom seen%s    text: The pump is worn%s    how-often: 1.44%sfixes:%s",
    };
    tt_learning *l = begin(text);
    const tt_lesson *lesson = two_places(l, text);
    assert_int_equal(lesson->source_count, 1);
    assert_non_null(lesson->book);
    assert_int_equal(lesson->new_warnings, 0);
    assert_string_equal(tt_book_describe(lesson->book).title, "Filters");
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) {
        char part[512];
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
        snprintf(part, sizeof part, wanted[i], end, end, end, end);
#pragma GCC diagnostic pop
        if (strstr(lesson->sources[0].bytes, part) == NULL)
            fail_msg("'%s' is not in:\n%s", part, lesson->sources[0].bytes);
    }
    tt_learning_free(l);
}

static void a_file_keeps_its_ways(void **state)
{
    (void)state;
    assert_written(rules, "\n");
    assert_written(wide, "\r\n");
}

static void what_teaches_nothing_is_refused(void **state)
{
    (void)state;
    tt_learning *l = begin(rules);
    tt_book *book = at_site(rules, own);
    const said none[] = {{NULL, 0}};
    tt_case *c = call_about(book, none, TT_GONE), *better = call_about(book, none, TT_BETTER);
    assert_int_equal(tt_learning_add(l, c, "rusty", false), TT_FAULTY);
    assert_int_equal(tt_learning_add(l, c, "full of right", false), TT_FAULTY);
    assert_int_equal(tt_learning_add(l, better, "worn", false), TT_NOT_NOW);
    assert_int_equal(tt_fix_tried(better, tt_fix_find(book, "mend"), TT_GONE), TT_OK);
    assert_int_equal(tt_learning_add(l, better, "worn", false),
                     TT_NOT_NOW); /* gone in the end, but better on the way */
    tt_learning *others = begin(wide);
    assert_int_equal(tt_learning_add(others, c, "worn", false), TT_FAULTY); /* other files */
    const tt_lesson *lesson;
    assert_int_equal(tt_learning_look(l, until, &lesson), TT_OK);
    assert_int_equal(lesson->cases, 0);
    assert_null(lesson->book);
    assert_int_equal(lesson->edit_count, 0);
    tt_learning_free(others);
    tt_learning_free(l);
    tt_case_free(c);
    tt_case_free(better);
    tt_book_free(book);
}

/* "Not sure" says nothing, and "not loud" of two answers says quiet. */
static void only_what_was_answered_counts(void **state)
{
    (void)state;
    tt_learning *l = begin(rules);
    tt_book *book = at_site(rules, own);
    const tt_lesson *lesson;
    for (int i = 0; i < 8; i++) {
        tt_case *c;
        uint32_t hum = tt_question_find(book, "hum");
        assert_int_equal(tt_case_new(book, &(tt_options){.role = TT_NONE}, &c), TT_OK);
        tt_reply reply = {.kind = i < 6 ? TT_UNSURE : TT_NOT, .not_options = 1};
        assert_int_equal(tt_answer(c, hum, &reply), TT_OK);
        assert_int_equal(tt_fix_tried(c, tt_fix_find(book, "mend"), TT_GONE), TT_OK);
        assert_int_equal(tt_learning_add(l, c, "worn", false), TT_OK);
        tt_case_free(c);
    }
    assert_int_equal(tt_learning_look(l, until, &lesson), TT_OK);
    const tt_learned *n = item(lesson, TT_SHOWN_BY, "hums", "worn");
    near(n->cases, 0);
    near(n->of, 2);
    tt_learning_free(l);
    tt_book_free(book);
}

static const char *const copies[] = {"p1", "p2", "p3", "p4", "p5", "p6"};
static const char all_one[] =
    "book:\n  title: One sign, six times\n  roles: [helper] # alone\n%squestions:\n%s"
    "causes:\n  a: {text: A, how-often: 1}\n  b: {text: B, how-often: 1}\nfixes:\n"
    "  mend: {text: Mend, role: helper, cures: {a: usually, b: usually}, harm: none, put-back: not "
    "needed}\n";

/* Six questions about one sign, each taken for news of its own. */
static str copied_book(arena *keep, const char *more)
{
    text_builder questions = {.keep = keep};
    for (size_t i = 0; i < 6; i++)
        text_addf(&questions, "  %s: {ask: P, read-right: 100 %%}\n", copies[i]);
    text_addf(&questions, "symptoms:\n");
    for (size_t i = 0; i < 6; i++)
        text_addf(&questions,
                  "  s%zu: {text: S, when: {%s: yes}, shown-by: {a: 70 %%, b: 30 %%}}\n", i,
                  copies[i]);
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
    return str_printf(keep, all_one, more, text_done(&questions).p);
#pragma GCC diagnostic pop
}

/* 70 of 100 calls with a show the sign, and then in all six: chances of (7/3)^6 to 1 are wrong in
 * 30 of 100. */
static const tt_lesson *learn_copies(tt_learning *l)
{
    const tt_lesson *lesson;
    const tt_book *book = tt_learning_book(l);
    for (int i = 0; i < 100; i++) {
        const uint32_t shown = i % 10 < 7, yes = yes_option(book, "p1");
        said answers[7] = {{NULL, 0}};
        for (size_t k = 0; k < 6; k++) answers[k] = (said){copies[k], shown ? yes : !yes};
        add(l, book, answers, "a", 1);
        for (size_t k = 0; k < 6; k++) answers[k].option = shown ? !yes : yes;
        add(l, book, answers, "b", 1);
    }
    assert_int_equal(tt_learning_look(l, until, &lesson), TT_OK);
    return lesson;
}

static void signs_that_go_together_count_for_less(void **state)
{
    (void)state;
    arena *keep = test_arena();
    tt_learning *l = begin(copied_book(keep, "").p);
    const tt_lesson *lesson = learn_copies(l);
    const tt_learned *n = item(lesson, TT_ANSWERS_COUNT, "", "");
    /* The odds of the sign are those of one question, so a sixth would be right: but for something
     * not listed, which shares in what is not said. */
    assert_true(n->outside && n->after > 0.14 && n->after < 0.19);
    near(n->before, 1);
    near(n->of, 200);
    assert_non_null(strstr(lesson->sources[0].bytes, "  roles: [helper] # alone\n"));
    assert_non_null(strstr(lesson->sources[0].bytes, "\n  answers-count: 1"));
    assert_non_null(lesson->book); /* it stands beside what else was left out there */
    tt_learning_free(l);
    l = begin(copied_book(keep, "  answers-count: 16.7 % # as learned\n").p);
    n = item(learn_copies(l), TT_ANSWERS_COUNT, "", "");
    near(n->before, 0.167);
    assert_false(n->outside);
    assert_string_equal(n->written, "16.7 %");
    assert_string_equal(n->proposed, "");
    tt_learning_free(l);
    arena_free(keep);
}

/* ---- fixes done wrongly, and what comes back ---- */

static const char two_fixes[] =
    "book:\n  title: Two fixes\n  roles: [helper] # alone\nquestions: {p: {ask: P}}\n"
    "symptoms: {s: {text: S, when: {p: yes}, shown-by: {a: often}}}\n"
    "causes:\n  a: {text: A, how-often: 1}\n  b: {text: B, how-often: 9, comes-back: 25 %}\n"
    "fixes:\n"
    "  mend: {text: Mend, role: helper, cures: {a: 100 %, b: 40 %}, harm: none, put-back: not "
    "needed}\n"
    "  change: {text: Change, role: helper, cures: {b: 100 %}, done-wrongly: '10 %', harm: none, "
    "put-back: not needed}\n";

static void tries(tt_learning *l, const char *fix, tt_outcome outcome, const char *cause, int times)
{
    const tt_book *book = tt_learning_book(l);
    for (int i = 0; i < times; i++) {
        tt_case *c;
        assert_int_equal(tt_case_new(book, &(tt_options){.role = TT_NONE}, &c), TT_OK);
        assert_int_equal(tt_fix_tried(c, tt_fix_find(book, fix), outcome), TT_OK);
        assert_int_equal(tt_learning_add(l, c, cause, outcome != TT_GONE), TT_OK);
        tt_case_free(c);
    }
}

static const tt_learned *of_fix(const tt_lesson *lesson, const char *fix)
{
    for (uint32_t i = 0; i < lesson->count; i++)
        if (lesson->items[i].kind == TT_DONE_WRONGLY && strcmp(lesson->items[i].fix, fix) == 0)
            return &lesson->items[i];
    fail_msg("nothing was learned of '%s'", fix);
    return NULL;
}

/* Done rightly it always cures, so each try in vain was done wrongly: (40 × 5 % + 9) / (40 + 30).
 * Of a fix that says it itself the author's counts as 20. A try that was never to cure it says
 * nothing. */
static void tries_in_vain_were_done_wrongly(void **state)
{
    (void)state;
    const tt_lesson *lesson;
    tt_learning *l = begin(two_fixes);
    tries(l, "mend", TT_NO_CHANGE, "a", 5);
    tries(l, "mend", TT_WORSE, "a", 4);
    tries(l, "mend", TT_GONE, "a", 21);
    tries(l, "change", TT_NO_CHANGE, "a", 7);
    tries(l, "change", TT_NO_CHANGE, "b", 1);
    tries(l, "change", TT_COULD_NOT, "b", 5);
    tries(l, "change", TT_GONE, "b", 9);
    assert_int_equal(tt_learning_look(l, until, &lesson), TT_OK);
    const tt_learned *all = of_fix(lesson, ""), *own = of_fix(lesson, "change");
    near(all->after, (40 * 0.05 + 9) / 70);
    near(all->of, 30);
    near(all->cases, 9);
    assert_true(all->outside);
    assert_string_equal(all->written, "");
    assert_string_equal(all->proposed, "16 %");
    near(own->after, (20 * 0.1 + 1) / 30);
    near(own->of, 10);
    assert_string_equal(own->written, "10 %");
    assert_string_equal(own->proposed, "");
    assert_non_null(
        strstr(lesson->sources[0].bytes, "  roles: [helper] # alone\n  done-wrongly: 16 %\n"));
    assert_non_null(lesson->book);
    tt_learning_free(l);
}

/* What cures 40 of 100 leaves open what a try in vain was: the number is where its own expectation
 * is. */
static void what_cures_seldom_says_little(void **state)
{
    (void)state;
    const tt_lesson *lesson;
    tt_learning *l = begin(two_fixes);
    tries(l, "mend", TT_NO_CHANGE, "b", 30);
    tries(l, "mend", TT_GONE, "b", 10);
    assert_int_equal(tt_learning_look(l, until, &lesson), TT_OK);
    const tt_learned *n = of_fix(lesson, "");
    near(n->after, (40 * 0.05 + 30 * n->after / (n->after + (1 - n->after) * 0.6)) / 80);
    near(n->cases, 30 * n->after / (n->after + (1 - n->after) * 0.6));
    assert_true(n->after > 0.06 && n->after < 0.07 && !n->outside);
    tt_learning_free(l);
}

/* More than half is no number that the language takes: what is proposed is the most, and is read
 * again. */
static void no_more_is_proposed_than_can_be_written(void **state)
{
    (void)state;
    const tt_lesson *lesson;
    tt_learning *l = begin(two_fixes);
    tries(l, "mend", TT_NO_CHANGE, "a", 200);
    assert_int_equal(tt_learning_look(l, until, &lesson), TT_OK);
    assert_true(of_fix(lesson, "")->after > 0.8);
    assert_string_equal(of_fix(lesson, "")->proposed, "50 %");
    assert_non_null(lesson->book);
    tt_learning_free(l);
}

static const tt_learned *returning(const tt_lesson *lesson, const char *cause)
{
    return item(lesson, TT_COMES_BACK, "", cause);
}

/* Sites at which a was back within a week each time; b never was. What is said of b is its own
 * number. */
static void a_site_tells_what_came_back(void **state)
{
    (void)state;
    const tt_lesson *lesson;
    tt_learning *l = begin(two_fixes);
    tt_book *elsewhere = at_site(rules, own);
    tries(l, "mend", TT_GONE, "a", 20);
    for (int site = 0; site < 30; site++) {
        const tt_trouble all[] = {{"b", "", 0, 1, false},
                                  {"a", "", 100, 101, false},
                                  {"a", "", 106, 107, false},
                                  {"", "mend", 300, NAN, false},
                                  {"a", "mend", 400, 400, site == 0}};
        assert_int_equal(tt_learning_site(l, tt_learning_book(l), all, 5, -INFINITY), TT_OK);
    }
    assert_int_equal(
        tt_learning_site(l, elsewhere, &(tt_trouble){"a", "", 0, 1, false}, 1, -INFINITY),
        TT_FAULTY);
    assert_int_equal(tt_learning_look(l, until, &lesson), TT_OK);
    const tt_learned *all = returning(lesson, ""), *b = returning(lesson, "b");
    near(all->before, 0.1);
    near(all->of, 91); /* three a site, and one that was back before its case was over */
    assert_true(all->outside && all->after > 0.2 && all->after < 0.5);
    assert_true(all->cases > 12 && all->cases < 31); /* some may be chance: it is common here */
    near(b->of, 30);
    assert_true(b->after < 0.25 && b->cases < 2);
    assert_string_equal(b->written, "25 %");
    assert_non_null(strstr(lesson->sources[0].bytes, "  comes-back: "));
    assert_non_null(lesson->book);
    tt_learning_free(l);
    tt_book_free(elsewhere);
}

/* Cures that are in the numbers already do not count again. */
static void cures_before_a_day_are_left_out(void **state)
{
    (void)state;
    const tt_lesson *lesson;
    tt_learning *l = begin(two_fixes);
    tries(l, "mend", TT_GONE, "a", 20);
    const tt_trouble all[] = {{"a", "", 0, 1, false},
                              {"a", "", 20, 21, false},
                              {"b", "", 50, 51, false},
                              {"a", "", 70, 71, false}};
    assert_int_equal(tt_learning_site(l, tt_learning_book(l), all, 4, 21), TT_OK);
    assert_int_equal(tt_learning_look(l, until, &lesson), TT_OK);
    near(returning(lesson, "")->of, 1);
    near(returning(lesson, "b")->of, 1);
    tt_learning_free(l);
}

/* ---- instruments ---- */

static const char one_gauge[] =
    "book:\n  title: One gauge\n  roles: [helper]\n"
    "instruments:\n  dial: {text: the dial, wrong: 2 % # a guess\n    }\n"
    "  ear: {text: the ear}\n"
    "questions:\n"
    "  p: {ask: P, instrument: dial, read-right: 90 %}\n"
    "  q: {ask: Q, instrument: dial, read-right: 90 %}\n"
    "  r: {ask: R, instrument: ear}\n"
    "symptoms:\n"
    "  s: {text: S, when: {p: yes}, shown-by: {a: always}}\n"
    "  t: {text: T, when: {q: yes}, shown-by: {a: always}}\n"
    "  u: {text: U, when: {r: yes}, shown-by: {a: always}}\n"
    "causes: {a: {text: A}}\n"
    "fixes:\n"
    "  mend: {text: Mend, role: helper, cures: {a: 100 %}, harm: none, put-back: not needed}\n";

static const tt_learned *dial(const tt_lesson *lesson)
{
    for (uint32_t i = 0; i < lesson->count; i++)
        if (lesson->items[i].kind == TT_MISLEADS &&
            strcmp(lesson->items[i].instrument, "dial") == 0)
            return &lesson->items[i];
    fail_msg("nothing was learned of the dial");
    return NULL;
}

/* One answer by itself is misread as often as ever, whoever is to blame. Two that are misread in
 * the same cases have what they were read with in common. */
static void what_goes_wrong_together_was_the_instrument(void **state)
{
    (void)state;
    const tt_lesson *lesson;
    for (int together = 0; together < 2; together++) {
        tt_learning *l = begin(one_gauge);
        const tt_book *b = tt_learning_book(l);
        const uint32_t yes = yes_option(b, "p");
        add(l, b, (const said[]){{"p", !yes}, {"r", yes}, {NULL, 0}}, "a", 10);
        add(l, b, (const said[]){{"p", yes}, {"q", yes}, {NULL, 0}}, "a", together ? 180 : 164);
        add(l, b, (const said[]){{"p", !yes}, {"q", !yes}, {NULL, 0}}, "a", together ? 20 : 4);
        add(l, b, (const said[]){{"p", yes}, {"q", !yes}, {NULL, 0}}, "a", together ? 0 : 16);
        add(l, b, (const said[]){{"p", !yes}, {"q", yes}, {NULL, 0}}, "a", together ? 0 : 16);
        assert_int_equal(tt_learning_look(l, until, &lesson), TT_OK);
        const tt_learned *n = dial(lesson);
        near(n->before, 0.02);
        near(n->of, 200);
        assert_string_equal(n->instrument_text, "the dial");
        assert_string_equal(n->written, "2 %");
        assert_true(n->low <= n->after && n->after <= n->high);
        if (together) {
            assert_true(n->outside && n->after > 0.06 && n->after < 0.11 && n->cases > 12);
            char written[64];
            snprintf(written, sizeof written, "wrong: %s # a guess", n->proposed);
            assert_non_null(strstr(lesson->sources[0].bytes, written));
            assert_non_null(lesson->book);
        } else {
            assert_true(!n->outside && n->after < 0.03 && n->cases < 4);
        }
        tt_learning_free(l);
    }
}

static void answers_have_to_count_for_something(void **state)
{
    (void)state;
    tt_learning *l;
    tt_report *report;
    arena *keep = test_arena();
    const tt_source file = source_of("rules.yaml", copied_book(keep, "  answers-count: 5 %\n").p);
    assert_int_equal(tt_learning_new(&file, 1, &l, &report), TT_FAULTY);
    assert_non_null(strstr(tt_report_text(report), "Write from 10 % to 100 %"));
    tt_report_free(report);
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pieces_share_their_number),
        cmocka_unit_test(a_file_keeps_its_ways),
        cmocka_unit_test(what_teaches_nothing_is_refused),
        cmocka_unit_test(only_what_was_answered_counts),
        cmocka_unit_test(signs_that_go_together_count_for_less),
        cmocka_unit_test(answers_have_to_count_for_something),
        cmocka_unit_test(tries_in_vain_were_done_wrongly),
        cmocka_unit_test(what_cures_seldom_says_little),
        cmocka_unit_test(no_more_is_proposed_than_can_be_written),
        cmocka_unit_test(a_site_tells_what_came_back),
        cmocka_unit_test(what_goes_wrong_together_was_the_instrument),
        cmocka_unit_test(cures_before_a_day_are_left_out),
    };
    return cmocka_run_group_tests_name("learning", tests, NULL, NULL);
}
