/* Rehearsing: against a twin that goes through all that can happen, in slices, and where nothing is
 * left to chance. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "rehearsal_twin.h"
#include "shipped_books.h"
#include "small_book.h"
#include "test_sources.h"

#define SIGMAS 4.0 /* one comparison in 16000 would fail by chance; with fixed seeds none does */
enum { CALLS = 4000 };

static tt_rehearsal *rehearse(const tt_book *book, const tt_rehearsal_options *options,
                              uint64_t first, uint64_t count)
{
    tt_rehearsal *r;
    assert_int_equal(tt_rehearsal_new(book, options, &r), TT_OK);
    assert_int_equal(tt_rehearsal_play(r, first, count), TT_OK);
    return r;
}

static const tt_rehearsed *result_of(tt_rehearsal *r)
{
    const tt_rehearsed *out;
    assert_int_equal(tt_rehearsal_look(r, &out), TT_OK);
    return out;
}

/* ---- the twin ---- */

static void assert_share(const tt_share *s, double wanted)
{
    double error = sqrt(wanted * (1 - wanted) / (double)s->of);
    if (!(fabs(s->share - wanted) <= SIGMAS * error)) fail_msg("%g, not %g", s->share, wanted);
}

static void assert_mean(const tt_mean *m, double wanted)
{
    if (!(fabs(m->mean - wanted) <= SIGMAS / 1.96 * m->plus_minus + 1e-9))
        fail_msg("%g ± %g, not %g", m->mean, m->plus_minus, wanted);
}

/* Minutes are worked, or waited; what is worked after is the second role's. */
static void compare_handed_over(const tt_rehearsed *x, const twin_sums *t)
{
    assert_share(&x->over.calls, t->over);
    if (t->over == 0) return;
    assert_true(x->over.calls.count == x->over.cured.count + x->over.nobody.count);
    assert_share(&x->over.cured, t->over_cured / t->over);
    assert_mean(&x->over.before, t->before / t->over);
    assert_mean(&x->over.after, t->after / t->over);
    assert_mean(&x->over.both, (t->before + t->after) / t->over);
    assert_true(x->over.waited.mean == 60 && x->over.waited.plus_minus == 0);
    assert_int_equal(x->worked_count, 2);
    assert_string_equal(x->worked[1].role, "fitter");
    assert_true(x->worked[1].calls.count == x->over.calls.count);
    assert_true(x->worked[1].minutes.mean == x->over.after.mean);
}

static void compare_with_twin(const char *text, double misread)
{
    tt_book *book = small_book(text);
    twin_sums t = twin_of_rehearsal(book, misread);
    tt_rehearsal *r =
        rehearse(book, &(tt_rehearsal_options){.seed = 11, .misread = misread}, 0, CALLS);
    const tt_rehearsed *x = result_of(r);
    const tt_rehearsed_way *own = &x->ways[TT_SAFEST_FIRST];
    assert_true(fabs(t.all - 1) < 1e-12);
    assert_share(&x->all.leads, t.leads);
    assert_share(&own->cured, t.cured);
    assert_share(&own->called, t.called);
    assert_share(&x->kinds[TT_NOT_LISTED].calls, t.not_listed);
    assert_share(&x->not_listed_blamed, t.not_listed_blamed / t.not_listed);
    assert_mean(&x->all.questions, t.questions);
    assert_mean(&own->minutes, t.minutes);
    assert_mean(&own->fixes, t.fixes);
    assert_mean(&own->needless[0], t.needless_low);
    assert_mean(&own->needless[1], t.needless_medium);
    assert_mean(&x->surprise, t.surprise);
    assert_share(&x->set.held, t.set_held);
    assert_mean(&x->set.causes, t.set_causes);
    assert_true(fabs(x->set.said - t.set_said) < .01);
    if (misread == 0) assert_true(fabs(t.set_said - t.set_held) < .01); /* what is said is so */
    assert_mean(&x->ways[TT_CLAIRVOYANT].minutes, t.clairvoyant);
    compare_handed_over(x, &t);
    tt_rehearsal_free(r);
    tt_book_free(book);
}

static void all_that_can_happen_has_its_share(void **state)
{
    (void)state;
    compare_with_twin(twin_book, 0);
}

static void misreading_more_does_what_the_twin_says(void **state)
{
    (void)state;
    compare_with_twin(twin_book, .15);
}

static void handed_over_it_is_played_to_the_end(void **state)
{
    (void)state;
    compare_with_twin(twin_book_of_two, 0);
    compare_with_twin(twin_book_of_two, .1);
}

/* The comparison can fail: with other misreading the figures are not those. */
static void the_twin_can_tell(void **state)
{
    (void)state;
    tt_book *book = small_book(twin_book);
    twin_sums t = twin_of_rehearsal(book, .3);
    tt_rehearsal *r = rehearse(book, &(tt_rehearsal_options){.seed = 11}, 0, CALLS);
    const tt_mean *surprise = &result_of(r)->surprise;
    assert_true(fabs(surprise->mean - t.surprise) > SIGMAS / 1.96 * surprise->plus_minus);
    tt_rehearsal_free(r);
    tt_book_free(book);
}

/* ---- other numbers ---- */

typedef struct turned_number {
    const char *kind, *cause, *of;
    size_t at; /* in twin_numbers */
} turned_number;

static const turned_number numbers[] = {
    {"how-often", "apples", "", offsetof(twin_numbers, apples)},
    {"how-often", "bananas", "", offsetof(twin_numbers, bananas)},
    {"shown-by", "apples", "dark", offsetof(twin_numbers, dark_apples)},
    {"shown-by", "bananas", "dark", offsetof(twin_numbers, dark_bananas)},
    {"otherwise", "", "dark", offsetof(twin_numbers, dark_otherwise)},
    {"shown-by", "bananas", "loud", offsetof(twin_numbers, loud_bananas)},
    {"otherwise", "", "loud", offsetof(twin_numbers, loud_otherwise)},
    {"cures", "apples", "fix-apples", offsetof(twin_numbers, cure_apples)},
    {"cures", "bananas", "fix-bananas", offsetof(twin_numbers, cure_bananas)}};

static double minutes_with(const tt_book *book, size_t at, double times)
{
    twin_numbers n = twin_as_written;
    double *number = (double *)((char *)&n + at);
    *number *= times;
    if (at > offsetof(twin_numbers, bananas)) *number = fmin(*number, .999);
    return twin_in_world(book, 0, &n).minutes;
}

static const turned_number *number_of(const tt_moving *m)
{
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++)
        if (strcmp(m->kind, numbers[i].kind) == 0 && strcmp(m->cause, numbers[i].cause) == 0 &&
            strcmp(m->of, numbers[i].of) == 0)
            return &numbers[i];
    fail_msg("%s of %s, %s", m->kind, m->cause, m->of);
    return NULL;
}

/* The likelihood ratio says without playing anew what the twin finds by going through the other
 * world: for each number of the book, and of these for the strongest first. */
static void other_numbers_do_what_the_twin_finds(void **state)
{
    (void)state;
    tt_book *book = small_book(twin_book);
    tt_rehearsal *r =
        rehearse(book, &(tt_rehearsal_options){.seed = 6, .sensitivity = true}, 0, CALLS);
    const tt_rehearsed *x = result_of(r);
    const double now = twin_of_rehearsal(book, 0).minutes;
    assert_in_range(x->moving_count, 4, sizeof numbers / sizeof numbers[0]);
    for (uint32_t i = 0; i < x->moving_count; i++) {
        const turned_number *n = number_of(&x->moving[i]);
        assert_mean(&x->moving[i].above, minutes_with(book, n->at, 1.3) - now);
        assert_mean(&x->moving[i].below, minutes_with(book, n->at, .7) - now);
    }
    tt_rehearsal_free(r);
    tt_book_free(book);
}

/* ---- slices ---- */

static void assert_same_result(tt_rehearsal *one, tt_rehearsal *other)
{
    const tt_rehearsed *a = result_of(one), *b = result_of(other);
    assert_int_equal(a->calls, b->calls);
    assert_memory_equal(&a->all, &b->all, sizeof a->all);
    assert_memory_equal(a->kinds, b->kinds, sizeof a->kinds);
    assert_memory_equal(a->ways, b->ways, sizeof a->ways);
    assert_memory_equal(a->bins, b->bins, sizeof a->bins);
    assert_memory_equal(&a->surprise, &b->surprise, sizeof a->surprise);
    assert_true(a->calibration_error == b->calibration_error);
    assert_memory_equal(&a->calibration_floor, &b->calibration_floor, sizeof a->calibration_floor);
    assert_memory_equal(&a->set, &b->set, sizeof a->set);
    assert_memory_equal(&a->ceiling, &b->ceiling, sizeof a->ceiling);
    assert_memory_equal(&a->over_clairvoyant, &b->over_clairvoyant, sizeof a->over_clairvoyant);
    assert_memory_equal(&a->over, &b->over, sizeof a->over);
    assert_int_equal(a->worked_count, b->worked_count);
    assert_int_equal(a->confused_count, b->confused_count);
    for (uint32_t i = 0; i < a->confused_count; i++) {
        assert_string_equal(a->confused[i].text, b->confused[i].text);
        assert_string_equal(a->confused[i].blamed_text, b->confused[i].blamed_text);
        assert_int_equal(a->confused[i].calls.count, b->confused[i].calls.count);
    }
}

/* ---- what tells nothing ---- */

/* The foam line's rules with a file more. */
static tt_book *foam_line_with(const char *more)
{
    arena *keep = test_arena();
    shipped_book with = shipped_named(keep, "foam-line");
    source *files = ARENA_ARRAY(keep, source, with.files.count + 1);
    memcpy(files, with.files.items, with.files.count * sizeof *files);
    files[with.files.count] = (source){STR("zz-more.yaml"), str_of(more)};
    with.files = (sources){files, with.files.count + (*more != 0 ? 1 : 0)};
    tt_book *book = shipped_load(keep, &with);
    arena_free(keep);
    return book;
}

/* Call by call: how it went as the engine says, and what was wrong. The other ways ask everything.
 */
static void assert_same_calls(tt_book *one, tt_book *other)
{
    enum { FOAM_CALLS = 20 };
    for (uint64_t i = 0; i < FOAM_CALLS; i++) {
        const tt_rehearsal_options options = {.seed = 3, .numbers_off = i % 4 == 1 ? .2 : 0};
        tt_rehearsal *a = rehearse(one, &options, i, 1), *b = rehearse(other, &options, i, 1);
        const tt_rehearsed *x = result_of(a), *y = result_of(b);
        assert_int_equal(x->calls, 1);
        assert_memory_equal(&x->all, &y->all, sizeof x->all);
        assert_memory_equal(x->kinds, y->kinds, sizeof x->kinds);
        assert_memory_equal(&x->ways[TT_SAFEST_FIRST], &y->ways[TT_SAFEST_FIRST],
                            sizeof x->ways[0]);
        assert_memory_equal(&x->surprise, &y->surprise, sizeof x->surprise);
        assert_memory_equal(x->bins, y->bins, sizeof x->bins);
        tt_rehearsal_free(a);
        tt_rehearsal_free(b);
    }
}

/* Its name stands before all others, so that every other question has another number. */
static void a_question_that_tells_nothing_moves_no_call(void **state)
{
    (void)state;
    tt_book *as_shipped = foam_line_with("");
    tt_book *with_more =
        foam_line_with("questions:\n"
                       "  aa-colour-of-the-door:\n"
                       "    ask: Which colour has the door of the equipment room?\n"
                       "    takes: 1 min\n"
                       "    answers:\n"
                       "      grey: Grey\n"
                       "      white: White\n");
    assert_same_calls(as_shipped, with_more);
    tt_book_free(with_more);
    tt_book_free(as_shipped);
}

static void slices_make_no_difference(void **state)
{
    (void)state;
    tt_book *book = small_book(twin_book);
    const tt_rehearsal_options options = {.seed = 5, .misread = .05, .numbers_off = .3};
    tt_rehearsal *whole = rehearse(book, &options, 0, 90),
                 *first = rehearse(book, &options, 60, 30);
    tt_rehearsal *second = rehearse(book, &options, 0, 35),
                 *third = rehearse(book, &options, 35, 25);
    assert_int_equal(tt_rehearsal_add(first, third), TT_OK);
    assert_int_equal(tt_rehearsal_add(first, second), TT_OK);
    assert_same_result(whole, first);
    tt_rehearsal *other = rehearse(book, &(tt_rehearsal_options){.seed = 6}, 0, 90);
    assert_true(result_of(whole)->all.minutes.mean != result_of(other)->all.minutes.mean);
    tt_rehearsal *all[] = {whole, first, second, third, other};
    for (unsigned i = 0; i < sizeof all / sizeof all[0]; i++) tt_rehearsal_free(all[i]);
    tt_book_free(book);
}

/* ---- certainty ---- */

static const char certain[] =
    "book:\n"
    "  title: Certain\n"
    "  roles: [anybody]\n"
    "  not-listed: 0 %\n"
    "  two-faults: 0 %\n"
    "  done-wrongly: 0 %\n"
    "questions:\n"
    "  which:\n"
    "    ask: Which is it?\n"
    "    takes: 1 min\n"
    "    read-right: 100 %\n"
    "    answers: {left: Left, right: Right}\n"
    "symptoms:\n"
    "  on-the-left:\n"
    "    when: {which: left}\n"
    "    shown-by: {left-out: 100 %, right-out: 0 %}\n"
    "causes:\n"
    "  left-out: {text: Left}\n"
    "  right-out: {text: Right}\n"
    "fixes:\n"
    "  mend-left: {text: Left, role: anybody, cures: {left-out: 100 %}, takes: 30 min, "
    "harm: none, put-back: not needed}\n"
    "  mend-right: {text: Right, role: anybody, cures: {right-out: 100 %}, takes: 30 min, "
    "harm: none, put-back: not needed}\n";

/* Where nothing is left to chance the figures are exact: the question about danger (half a minute),
 * one more, one fix: 31 minutes and a half. */
static void certainty_is_exact(void **state)
{
    (void)state;
    tt_book *book = small_book(certain);
    tt_rehearsal *r = rehearse(book, NULL, 0, 200);
    const tt_rehearsed *x = result_of(r);
    assert_int_equal(x->all.leads.count, 200);
    assert_int_equal(x->all.cured.count, 200);
    for (int w = 0; w <= TT_EVERYTHING; w++) {
        assert_true(x->ways[w].questions.mean == 2 && x->ways[w].questions.plus_minus == 0);
        assert_true(x->ways[w].fixes.mean == 1 && x->ways[w].minutes_more.mean == 0);
        assert_true(fabs(x->ways[w].minutes.mean - 31.5) < 1e-12 &&
                    x->ways[w].needless[0].mean == 0);
    }
    for (int w = TT_ALL_KNOWN; w <= TT_CLAIRVOYANT; w++)
        assert_true(fabs(x->ways[w].minutes.mean - 30.5) < 1e-12 && x->ways[w].questions.mean == 1);
    assert_true(fabs(x->over_clairvoyant.ratio - 31.5 / 30.5) < 1e-12);
    assert_true(x->over_clairvoyant.plus_minus < 1e-9 && x->known_over_clairvoyant.ratio == 1);
    assert_true(x->ceiling.known.count == 200 && x->ceiling.missed.mean == 0);
    assert_true(x->over.calls.count == 0 && x->worked_count == 1);
    assert_int_equal(x->bins[9].right.of, 200);
    assert_true(x->calibration_error < 1e-3); /* no sign is told with more than 0.999 */
    assert_int_equal(x->confused_count, 0);
    tt_rehearsal_free(r);
    tt_book_free(book);
}

/* Lamp: after misreading dark in .74 against .34. Hum: loud in .17 against .59, the rest in two
 * halves. */
static void confused_pairs_say_what_helps(void **state)
{
    (void)state;
    tt_book *book = small_book(twin_book);
    tt_rehearsal *r = rehearse(book, &(tt_rehearsal_options){.seed = 3}, 0, 300);
    const tt_rehearsed *x = result_of(r);
    double lamp = sqrt(.74 * .34) + sqrt(.26 * .66), hum = sqrt(.17 * .59) + sqrt(.83 * .41);
    unsigned found = 0;
    for (uint32_t i = 0; i < x->confused_count; i++) {
        const tt_confused *c = &x->confused[i];
        assert_true(i == 0 || c->calls.count <= x->confused[i - 1].calls.count);
        if (c->name == NULL || c->blamed_name == NULL) {
            assert_true(isnan(c->overlap) && c->question == NULL);
            continue;
        }
        found++;
        assert_string_equal(c->question, hum < lamp ? "hum" : "lamp");
        assert_true(fabs(c->overlap - lamp * hum) < 1e-9);
        assert_false(c->one_fix);
    }
    assert_int_equal(found, 2);
    tt_rehearsal_free(r);
    tt_book_free(book);
}

static void senseless_options_are_refused(void **state)
{
    (void)state;
    tt_book *book = small_book(certain);
    const tt_rehearsal_options wrong[] = {{.role = 7},
                                          {.misread = -.1},
                                          {.misread = 1.1},
                                          {.misread = NAN},
                                          {.numbers_off = .1, .sensitivity = true},
                                          {.numbers_off = 1},
                                          {.numbers_off = -.1},
                                          {.numbers_off = NAN}};
    for (unsigned i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        tt_rehearsal *r;
        assert_int_equal(tt_rehearsal_new(book, &wrong[i], &r), TT_FAULTY);
        assert_null(r);
    }
    tt_rehearsal *empty;
    assert_int_equal(tt_rehearsal_new(book, &(tt_rehearsal_options){.role = TT_NONE}, &empty),
                     TT_OK);
    assert_int_equal(result_of(empty)->calls, 0);
    assert_true(result_of(empty)->calibration_error == 0);
    tt_rehearsal_free(empty);
    tt_book_free(book);
}

/* ---- quantities and adjustments ---- */

static const char reckoned[] =
    "book:\n"
    "  title: Reckoned\n"
    "  roles: [anybody]\n"
    "  not-listed: 0 %\n"
    "  two-faults: 0 %\n"
    "  done-wrongly: 0 %\n"
    "questions:\n"
    "  ahead: {ask: Ahead, reading: pressure, unit: psi, takes: 3 min}\n"
    "  behind: {ask: Behind, reading: pressure, unit: psi, takes: 4 min}\n"
    "quantities:\n"
    "  drop: {text: Drop, formula: ahead - behind, unit: psi}\n"
    "symptoms:\n"
    "  much-drop:\n"
    "    text: Much is lost in the filter\n"
    "    when: {drop: above 10 psi}\n"
    "    shown-by: {filter-clogged: 100 %, pump-worn: 0 %}\n"
    "causes:\n"
    "  filter-clogged: {text: Filter}\n"
    "  pump-worn: {text: Pump}\n"
    "fixes:\n"
    "  clean:\n"
    "    text: Clean it\n"
    "    role: anybody\n    cures: {filter-clogged: 100 %}\n"
    "    takes: 60 min\n"
    "    harm: none\n"
    "    put-back: not needed\n"
    "  mend:\n"
    "    text: Mend it\n"
    "    role: anybody\n    cures: {pump-worn: 100 %}\n"
    "    takes: 60 min\n"
    "    harm: none\n"
    "    put-back: not needed\n";

/* Two gauges are read for one quantity, and what they tell is the quantity as drawn, not two
 * numbers that know nothing of each other: those would be right in half of the calls. */
static void quantities_are_drawn_and_cost_their_readings(void **state)
{
    (void)state;
    tt_book *book = small_book(reckoned);
    tt_rehearsal *r = rehearse(book, NULL, 0, 200);
    const tt_rehearsed *x = result_of(r);
    assert_true(x->all.leads.share > .93);
    assert_true(x->ways[TT_EVERYTHING].leads.share > .85);
    for (int w = 0; w <= TT_EVERYTHING; w++) {
        const tt_rehearsed_way *way = &x->ways[w];
        assert_true(way->questions.mean >= 3 && way->questions.mean < 3.2);
        assert_true(way->minutes.mean >= 67 && way->minutes.mean < 75);
    }
    tt_rehearsal_free(r);
    tt_book_free(book);
}

static const char adjusted[] =
    "book:\n"
    "  title: Adjusted\n"
    "  roles: [anybody]\n"
    "  not-listed: 0 %\n"
    "  two-faults: 0 %\n"
    "questions:\n"
    "  gauge: {ask: Reading, reading: pressure, unit: psi, plausible: 20 to 80 psi, "
    "read-right: 100 %}\n"
    "symptoms:\n"
    "  high: {text: High, when: {gauge: above 60 psi}, shown-by: {set-high: 100 %, set-low: 0 %}}\n"
    "causes:\n"
    "  set-high: {text: High}\n"
    "  set-low: {text: Low}\n"
    "fixes:\n"
    "  down:\n"
    "    text: Turn it down\n"
    "    role: anybody\n    cures: {set-high: 60 %}\n"
    "    adjust: {reading: gauge, by: -5 psi, within: 20 to 80 psi, at-most: 3 times}\n"
    "    takes: 30 min\n"
    "    harm: none\n"
    "    put-back: Set it back.\n"
    "  up:\n"
    "    text: Turn it up\n"
    "    role: anybody\n    cures: {set-low: 60 %}\n"
    "    adjust: {reading: gauge, by: 5 psi, within: 20 to 80 psi, at-most: 3 times}\n"
    "    takes: 30 min\n"
    "    harm: none\n"
    "    put-back: Set it back.\n";

/* However many steps it takes, an adjustment is one fix with the minutes of the whole. It cures as
 * often as a fix. What it didn't cure is put back; then the call goes on, or ends with somebody to
 * call. */
static void adjustments_are_one_fix(void **state)
{
    (void)state;
    tt_book *book = small_book(adjusted);
    tt_rehearsal *r = rehearse(book, NULL, 0, 400);
    const tt_rehearsed_way *own = &result_of(r)->ways[TT_SAFEST_FIRST];
    assert_share(&own->cured, .95 * .6);
    assert_true(own->cured.count + own->called.count == 400);
    assert_true(fabs(own->minutes.mean - (1.5 + 30 * own->fixes.mean + 240 * own->called.share)) <
                1e-9);
    assert_true(own->questions.mean == 2 && own->fixes.mean >= 1 && own->fixes.mean < 1.5);
    tt_rehearsal_free(r);
    tt_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_that_can_happen_has_its_share),
        cmocka_unit_test(misreading_more_does_what_the_twin_says),
        cmocka_unit_test(handed_over_it_is_played_to_the_end),
        cmocka_unit_test(the_twin_can_tell),
        cmocka_unit_test(a_question_that_tells_nothing_moves_no_call),
        cmocka_unit_test(other_numbers_do_what_the_twin_finds),
        cmocka_unit_test(slices_make_no_difference),
        cmocka_unit_test(certainty_is_exact),
        cmocka_unit_test(confused_pairs_say_what_helps),
        cmocka_unit_test(quantities_are_drawn_and_cost_their_readings),
        cmocka_unit_test(adjustments_are_one_fix),
        cmocka_unit_test(senseless_options_are_refused),
    };
    return cmocka_run_group_tests_name("rehearsal", tests, NULL, NULL);
}
