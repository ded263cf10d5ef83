/* A rehearsal told from its figures, in words and as a page: of few calls nothing is told that they
 * can't show, and of none no figure at all. */
#include <math.h>

#include "drier_book.h"
#include "face/rehearse.h"
#include "paper/rehearse_page.h"

typedef struct tellings {
    shown_text *words, *page;
} tellings;

static tellings tell(const tt_rehearsal_options *o, const tt_rehearsed *r)
{
    tellings t = {show_at(0), show_at(0)};
    static char folder[] = "/books/drier";
    const opened_book book = {.book = drier_book(NULL), .folder = folder, .revision = "0123abcd"};
    arena *keep = host_arena();
    print_rehearsal_words(t.words->on.out, &book, o, r);
    rehearsal_on_paper(t.page->on.out, &paper_of_text, keep, &book, o, r);
    shown(t.words);
    shown(t.page);
    arena_free(keep);
    tt_book_free(book.book);
    return t;
}

static void assert_words(const tellings *t, const char *part)
{
    assert_shows(t->words->kept.bytes, part);
}

static void assert_page(const tellings *t, const char *part)
{
    assert_shows(t->page->kept.bytes, part);
}

static void end(tellings *t)
{
    shown_free(t->words);
    shown_free(t->page);
}

/* As it is when all calls stopped for danger. */
static void of_no_call_no_figure(void **state)
{
    (void)state;
    tellings t = tell(&(tt_rehearsal_options){.seed = 1, .sensitivity = true},
                      &(tt_rehearsed){.calls = 3, .role = "helper"});
    assert_words(&t, "3 made-up calls as helper, seed 1.\n");
    assert_words(&t, "  leads: no such call\n");
    assert_words(&t, "Calls with two causes: 0\n");
    assert_words(&t, "  questions: no such call\n");
    assert_words(&t, "  minutes over those of somebody who knows what is wrong: no such call\n");
    assert_words(&t, "  So few calls can't tell. Play more: --calls 5000\n");
    assert_shows_not(t.words->kept.bytes, "± ");
    assert_shows_not(t.words->kept.bytes, "Taken for each other");
    assert_page(&t, "In these calls no cause led in place of the one that was there.");
    assert_page(&t, "So few calls can't tell. Play more: --calls 5000");
    assert_shows_not(t.page->kept.bytes, "nan");
    assert_shows_not(t.page->kept.bytes, "Shares of the calls");
    assert_shows_not(t.page->kept.bytes, "What happens when somebody is called");
    end(&t);
    t = tell(&(tt_rehearsal_options){.seed = 1}, &(tt_rehearsed){.calls = 3, .role = "helper"});
    assert_shows_not(t.page->kept.bytes, "Which numbers matter");
    end(&t);
}

/* One call has no scatter, and few have a wide one. */
static void of_few_calls_it_says_so(void **state)
{
    (void)state;
    tt_rehearsed r = {.calls = 5,
                      .role = "helper",
                      .all = {.leads = {2, 5, .4, .1, .8}},
                      .over_clairvoyant = {1, 2, 0},
                      .known_over_clairvoyant = {5, 1.5, .25}};
    r.kinds[TT_ONE_CAUSE].calls = (tt_share){1, 5, .2, 0, .6};
    r.kinds[TT_ONE_CAUSE].minutes = (tt_mean){1, 4, 0};
    r.ways[TT_SAFEST_FIRST].questions = (tt_mean){5, 3, .5};
    r.ways[TT_SOONEST].minutes_more = (tt_mean){1, -2, 0};
    r.bins[3] = (tt_calibration){.3, .4, .35, {1, 1, 1, .2, 1}};
    tellings t = tell(&(tt_rehearsal_options){.seed = 1, .misread = .1, .numbers_off = .25}, &r);
    assert_words(&t, "10 % more answers are wrong than the book says.\n");
    assert_words(&t, "The book's numbers are off by up to 25 %.\n");
    assert_words(&t, "  leads: 40.0 % (10.0 to 80.0); too few calls to tell\n");
    assert_words(&t, "  minutes: 4.0; too few calls to tell\n");
    assert_words(&t, "  questions: 3.0 ± 0.5; too few calls to tell\n");
    assert_words(&t, "at no minutes: 1.50 ± 0.25; too few calls to tell\n");
    assert_words(&t,
                 "  30 to 40 % (1 call, mean 35.0 %), it was right in: 100.0 % (20.0 to 100.0)");
    assert_words(&t, "\nFor 2 points up or down play about 2305 calls: --calls 2305\n");
    assert_page(&t, "More wrong answers: 10.0 %\n");
    assert_page(&t, "The book's numbers are off by up to: 25.0 %\n");
    assert_page(&t, "What safety costs");
    assert_shows_not(t.page->kept.bytes, "nan");
    end(&t);
    r.calls = 2305; /* 1.96² 0.4 0.6 / 0.02² is 2304.96 */
    t = tell(&(tt_rehearsal_options){.seed = 1}, &r);
    assert_shows_not(t.words->kept.bytes, "For 2 points");
    end(&t);
}

/* ---- pairs, and numbers that matter ---- */

enum { PAIRS = 11 };

static void each_pair_with_what_tells_it_apart(void **state)
{
    (void)state;
    static char names[PAIRS][16];
    tt_confused pairs[PAIRS] = {
        {"worn", "Worn", "loose", "Loose", {3, 9, .33, .1, .6}, "hums", "Does it hum?", .5, true},
        {NULL, "Not listed", "loose", "Loose", {2, 9, .22, .1, .6}, NULL, NULL, NAN, false},
        {"loose", "Loose", "worn", "Worn", {2, 9, .22, .1, .6}, NULL, NULL, 1, false},
        {"loose", "Loose", "bent", "Bent", {2, 9, .22, .1, .6}, NULL, NULL, 1, true}};
    for (int i = 4; i < PAIRS; i++) {
        snprintf(names[i], sizeof names[i], "c%d", i);
        pairs[i] = pairs[2];
        pairs[i].name = pairs[i].text = names[i];
    }
    const tt_rehearsed r = {
        .calls = 5, .role = "helper", .confused = pairs, .confused_count = PAIRS};
    tellings t = tell(&(tt_rehearsal_options){.seed = 1}, &r);
    assert_words(&t, "  Worn; blamed: Loose\n    3 of its 9 calls (10.0 to 60.0 %)\n"
                     "    One fix serves both.\n    hums tells them apart best: Does it hum?\n"
                     "  Not listed; blamed: Loose\n    2 of its 9 calls (10.0 to 60.0 %)\n"
                     "  Loose; blamed: Worn\n    2 of its 9 calls (10.0 to 60.0 %)\n"
                     "    No question that this role may answer tells them apart.\n");
    assert_words(&t, "  c9; blamed: Worn\n");
    assert_shows_not(t.words->kept.bytes, "c10");
    assert_page(&t, "- Worn\n  What led: Loose\n  Of its calls: 33.0 %\n"
                    "  95 in 100 times: 10.0 % to 60.0 %\n"
                    "  What tells them apart best: Does it hum? One fix serves both.\n");
    assert_page(&t, "- Not listed\n  What led: Loose\n  Of its calls: 22.0 %\n"
                    "  95 in 100 times: 10.0 % to 60.0 %\n- Loose\n");
    assert_page(&t, "  What tells them apart best: No question that this role may answer tells\n"
                    "  them apart. One fix serves both.\n");
    assert_page(&t, "- c10\n"); /* the table has those that the picture has no room for */
    end(&t);
}

static void each_number_that_matters_is_named(void **state)
{
    (void)state;
    static const tt_moving moving[] = {
        {"how-often", "worn", "", "often", "book.yaml:4", {40, 2, .5}, {40, -.01, .5}},
        {"shown-by", "worn", "weak", "70 %", "book.yaml:5", {40, 2, .5}, {40, -1, .5}},
        {"otherwise", "", "weak", "1 %", "book.yaml:6", {40, 2, .5}, {40, -1, .5}},
        {"cures", "worn", "swap", "90 %", "book.yaml:7", {40, 2, .5}, {40, -1, .5}}};
    const tt_rehearsed r = {.calls = 40, .role = "helper", .moving = moving, .moving_count = 4};
    tellings t = tell(&(tt_rehearsal_options){.seed = 1, .sensitivity = true}, &r);
    static const char *const names[] = {"how often worn occurs: often\n",
                                        "weak shown by worn: 70 %\n", "weak otherwise: 1 %\n",
                                        "swap cures worn: 90 %\n"};
    for (size_t i = 0; i < 4; i++) {
        assert_words(&t, names[i]);
        assert_page(&t, names[i]);
    }
    assert_words(&t, "    below 0.0 ± 0.5, above 2.0 ± 0.5 minutes (book.yaml:4)\n");
    assert_page(&t, "  30 % below: 0.0 ± 0.5\n");
    assert_shows_not(t.words->kept.bytes, "So few calls can't tell");
    end(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(of_no_call_no_figure),
        cmocka_unit_test(of_few_calls_it_says_so),
        cmocka_unit_test(each_pair_with_what_tells_it_apart),
        cmocka_unit_test(each_number_that_matters_is_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
