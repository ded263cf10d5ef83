/* A case keeps from one turn to the next what no answer has a say in: predictions, words, the order
 * in which causes and fixes stood. A new case that is told the same at once is its twin: both say
 * the same of every turn, each number to its last bit. */
#include <stdlib.h>

#include "luck.h"
#include "made_book.h"
#include "open_gate.h"
#include "session/session.h"
#include "shipped_books.h"
#include "testing.h"

enum { TURNS = 20, WALKS = 4, ENTRIES = 400 };

typedef enum deed { ANSWERED, RETRACTED, TRIED, UNDONE, DEEDS } deed;

typedef struct told {
    deed what;
    uint32_t subject;
    tt_reply reply;
    tt_outcome outcome;
} told;

typedef struct walk {
    const tt_book *book;
    const char *language;
    tt_case *kept;
    told history[TURNS];
    uint32_t count;
    uint64_t luck;
} walk;

static tt_case *new_case(const walk *w)
{
    tt_case *c = NULL;
    const tt_options options = {.role = TT_NONE, .language = w->language};
    assert_int_equal(tt_case_new(w->book, &options, &c), TT_OK);
    assert_int_equal(tt_no_complaint(c), TT_OK);
    return c;
}

static tt_status tell(tt_case *c, const told *x)
{
    switch (x->what) {
    case ANSWERED:
        return tt_answer(c, x->subject, &x->reply);
    case RETRACTED:
        return tt_retract(c, x->subject);
    case TRIED:
        return tt_fix_tried(c, x->subject, x->outcome);
    case UNDONE:
        return tt_undo(c);
    case DEEDS:
        break;
    }
    fail();
    return TT_FAULTY;
}

/* ---- what is told ---- */

static tt_reply some_reply(walk *w, uint32_t question)
{
    tt_question q;
    assert_int_equal(tt_question_show(w->kept, question, &q), TT_OK);
    if (q.gate && luck_below(&w->luck, 8) > 0) return safe_answer(&q);
    if (luck_below(&w->luck, 6) == 0) return (tt_reply){.kind = TT_UNSURE};
    if (q.option_count > 0)
        return (tt_reply){.kind = TT_ANSWER, .option = luck_below(&w->luck, q.option_count)};
    const double low = q.has_plausible ? q.plausible_low : 0,
                 high = q.has_plausible ? q.plausible_high : 100;
    const uint32_t steps = (uint32_t)(high - low);
    return (tt_reply){.kind = TT_NUMBER,
                      .number = low + (steps > 0 ? luck_below(&w->luck, steps) : 0)};
}

/* Mostly what is asked for, so that the walk comes to its fixes. */
static told something(walk *w)
{
    static const tt_outcome outcomes[] = {TT_NO_CHANGE, TT_BETTER, TT_WORSE, TT_COULD_NOT};
    const tt_view *v;
    assert_int_equal(tt_look(w->kept, &v), TT_OK);
    const uint32_t kind = luck_below(&w->luck, 10);
    if (kind == 0) return (told){.what = UNDONE};
    if (v->step == TT_FIX)
        return (told){
            .what = TRIED, .subject = v->fix, .outcome = outcomes[luck_below(&w->luck, 4)]};
    if (v->fix_count > 0 && kind == 1)
        return (told){.what = TRIED,
                      .subject = v->fixes[luck_below(&w->luck, v->fix_count)].fix,
                      .outcome = TT_NO_CHANGE};
    uint32_t question = v->next.question;
    if (question == TT_NONE || kind == 2)
        question = luck_below(&w->luck, w->book->book->question_count);
    if (kind == 3) return (told){.what = RETRACTED, .subject = question};
    return (told){.what = ANSWERED, .subject = question, .reply = some_reply(w, question)};
}

/* ---- what is said ---- */

static void same_text(const char *a, const char *b)
{
    assert_int_equal(a == NULL, b == NULL);
    if (a != NULL) assert_string_equal(a, b);
}

static void same_causes(const tt_view *a, const tt_view *b)
{
    assert_int_equal(a->cause_count, b->cause_count);
    for (uint32_t i = 0; i < a->cause_count; i++) {
        const tt_cause *x = &a->causes[i], *y = &b->causes[i];
        same_text(x->name, y->name);
        same_text(x->text, y->text);
        same_text(x->means, y->means);
        same_text(x->at, y->at);
        assert_true(x->chance == y->chance);
        assert_int_equal(x->picture == NULL, y->picture == NULL);
        if (i == 0) continue;
        const tt_cause *before = x - 1;
        const bool named = before->name != NULL && x->name != NULL;
        assert_true(before->chance > x->chance ||
                    (before->chance == x->chance &&
                     (x->name == NULL || (named && strcmp(before->name, x->name) < 0))));
    }
    assert_int_equal(a->likely_count, b->likely_count);
    assert_true(a->likely_chance == b->likely_chance);
    assert_int_equal(a->not_listed_leads, b->not_listed_leads);
}

static void same_fixes(const tt_view *a, const tt_view *b)
{
    assert_int_equal(a->fix_count, b->fix_count);
    for (uint32_t i = 0; i < a->fix_count; i++) {
        const tt_fix *x = &a->fixes[i], *y = &b->fixes[i];
        assert_int_equal(x->fix, y->fix);
        same_text(x->name, y->name);
        same_text(x->text, y->text);
        same_text(x->risk, y->risk);
        same_text(x->role, y->role);
        same_text(x->role_text, y->role_text);
        assert_true(x->chance == y->chance && x->minutes == y->minutes);
        assert_int_equal(x->standing, y->standing);
        assert_int_equal(x->held, y->held);
    }
}

static void same_step(const tt_view *a, const tt_view *b)
{
    assert_int_equal(a->step, b->step);
    assert_int_equal(a->policy, b->policy);
    assert_int_equal(a->next.question, b->next.question);
    same_text(a->next.reason, b->next.reason);
    assert_int_equal(a->fix, b->fix);
    assert_int_equal(a->with, b->with);
    same_text(a->call_role, b->call_role);
    assert_int_equal(a->gate.state, b->gate.state);
    assert_int_equal(a->fact_count, b->fact_count);
    for (uint32_t i = 0; i < a->fact_count; i++) {
        same_text(a->facts[i].name, b->facts[i].name);
        same_text(a->facts[i].text, b->facts[i].text);
    }
    assert_int_equal(a->pair_count, b->pair_count);
    for (uint32_t i = 0; i < a->pair_count; i++)
        assert_true(a->pairs[i].chance == b->pairs[i].chance);
}

static void as_a_new_case_says(walk *w)
{
    const tt_view *kept, *fresh;
    tt_case *c = new_case(w);
    for (uint32_t i = 0; i < w->count; i++) tell(c, &w->history[i]);
    assert_int_equal(tt_look(c, &fresh), TT_OK);
    assert_int_equal(tt_look(w->kept, &kept), TT_OK);
    same_causes(kept, fresh);
    same_fixes(kept, fresh);
    same_step(kept, fresh);
    tt_case_free(c);
}

/* ---- walks ---- */

static uint32_t walk_through(const tt_book *book, const char *language, uint64_t seed)
{
    walk w = {.book = book, .language = language, .luck = seed};
    uint32_t said = 0;
    w.kept = new_case(&w);
    while (w.count < TURNS) {
        const told next = something(&w);
        if (tell(w.kept, &next) == TT_OK) said++;
        w.history[w.count++] = next;
        as_a_new_case_says(&w);
    }
    tt_case_free(w.kept);
    return said;
}

static void shipped_books_keep_nothing_that_changes(void **state)
{
    (void)state;
    arena *keep = arena_new(NULL, NULL), *scratch = arena_new(NULL, NULL);
    shipped_book all[SHIPPED_MOST];
    const uint32_t count = shipped_books(keep, all);
    for (uint32_t i = 0; i < count; i++) {
        tt_book *book = shipped_load(scratch, &all[i]);
        for (uint64_t n = 0; n < WALKS; n++)
            assert_true(walk_through(book, n % 2 == 0 ? "en" : "es", 100 * i + n) > TURNS / 2);
        tt_book_free(book);
    }
    arena_free(scratch);
    arena_free(keep);
}

static void a_book_of_many_causes_neither(void **state)
{
    (void)state;
    arena *keep = arena_new(NULL, NULL);
    const str bytes = made_book(keep, ENTRIES);
    const tt_source file = {"made.yaml", bytes.p, bytes.n};
    tt_report *report;
    tt_book *book;
    assert_int_equal(tt_book_load(&file, 1, &book, &report), TT_OK);
    tt_report_free(report);
    for (uint64_t n = 0; n < WALKS; n++) assert_true(walk_through(book, "en", 7 + n) > TURNS / 2);
    tt_book_free(book);
    arena_free(keep);
}

/* ---- what does change ---- */

static const char filled[] =
    "book: {title: Line, edition: 1, roles: [helper]}\n"
    "questions:\n"
    "  danger: {ask: Danger, about: today, safe: [no]}\n"
    "  gauge: {ask: Gauge, reading: pressure, unit: psi, plausible: 0 to 100 psi}\n"
    "symptoms:\n"
    "  weak: {text: Weak, when: {gauge: below 20 psi}, shown-by: {low: often}}\n"
    "causes:\n"
    "  low: {text: 'Low, at {gauge}', means: 'It reads {gauge}'}\n"
    "fixes:\n"
    "  raise: {text: 'Raise it from {gauge}', role: helper, cures: {low: usually}, takes: 2 min,\n"
    "    harm: none, put-back: not needed}\n";

static void reads(tt_case *c, uint32_t gauge, double psi, const char *words)
{
    const tt_view *v;
    const tt_reply reply = {.kind = TT_NUMBER, .number = psi};
    assert_int_equal(tt_answer(c, gauge, &reply), TT_OK);
    assert_int_equal(tt_look(c, &v), TT_OK);
    const tt_cause *low = &v->causes[v->causes[0].name == NULL];
    assert_non_null(strstr(low->text, words));
    assert_non_null(strstr(low->means, words));
    assert_non_null(strstr(v->fixes[0].text, words));
}

static void texts_that_numbers_stand_in_are_said_anew(void **state)
{
    (void)state;
    const tt_source file = {"filled.yaml", filled, sizeof filled - 1};
    tt_report *report;
    walk w = {.language = NULL};
    tt_book *book;
    assert_int_equal(tt_book_load(&file, 1, &book, &report), TT_OK);
    tt_report_free(report);
    w.book = book;
    w.kept = new_case(&w);
    reads(w.kept, tt_question_find(book, "gauge"), 10, "10 psi");
    reads(w.kept, tt_question_find(book, "gauge"), 15, "15 psi");
    tt_case_free(w.kept);
    tt_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shipped_books_keep_nothing_that_changes),
        cmocka_unit_test(a_book_of_many_causes_neither),
        cmocka_unit_test(texts_that_numbers_stand_in_are_said_anew),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
