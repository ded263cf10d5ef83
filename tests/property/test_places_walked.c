/* How far an attendant walks: thirty rehearsed calls of the foam book, the place of each thing done
 * against that of the thing before. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "session/session.h"
#include "shipped_books.h"
#include "telltale_author.h"
#include "testing.h"

enum { CALLS = 30 };
static const double most = 1.6; /* times what would do; it was 2.5 before places were weighed */

/* A quantity is asked by way of its readings, and has no place of its own. */
static uint32_t place_of_question(const book *b, const struct question *q)
{
    uint32_t place = q->place;
    for (uint32_t i = 0; q->kind == QUESTION_QUANTITY && i < q->beneath.count; i++)
        if (b->questions[q->beneath.items[i]].place != NO_ID)
            place = b->questions[q->beneath.items[i]].place;
    return place;
}

static uint32_t place_of_step(const book *b, const char *name)
{
    for (uint32_t q = 0; q < b->question_count; q++)
        if (str_eq(b->questions[q].id.name, str_of(name)))
            return place_of_question(b, &b->questions[q]);
    const uint32_t fix = book_fix(b, str_of(name));
    assert_true(fix != NO_ID);
    return b->fixes[fix].place;
}

typedef struct walked {
    uint32_t changes, least; /* least: one for each place of a call after its first */
    uint32_t steps;
    double minutes;
} walked;

static void walk_through(const book *b, const tt_made_call *call, walked *all)
{
    uint32_t at = NO_ID, seen_count = 0, *seen = test_calloc(b->place_count, sizeof *seen);
    for (uint32_t i = 0; i < call->path_count; i++) {
        const uint32_t place = place_of_step(b, call->path[i]);
        bool was_here = place == NO_ID;
        all->steps++;
        for (uint32_t k = 0; k < seen_count; k++) was_here |= seen[k] == place;
        if (!was_here) seen[seen_count++] = place;
        if (place != NO_ID && at != NO_ID && place != at) {
            all->changes++;
            all->minutes += book_walk(b, at, place);
        }
        if (place != NO_ID) at = place;
    }
    if (seen_count > 0) all->least += seen_count - 1;
    test_free(seen);
}

static void an_attendant_walks_little(void **state)
{
    (void)state;
    guard way_out;
    arena *keep = arena_new(NULL, &way_out);
    assert_non_null(keep);
    if (setjmp(way_out.place) != 0) fail_msg("out of memory");
    const shipped_book foam_line = shipped_named(keep, "foam-line");
    tt_book *b = shipped_load(keep, &foam_line);
    tt_rehearsal *r;
    assert_int_equal(tt_rehearsal_new(b, &(tt_rehearsal_options){.seed = 1, .role = TT_NONE}, &r),
                     TT_OK);
    walked w = {0};
    for (uint64_t i = 0; i < CALLS; i++) {
        tt_made_call call;
        assert_int_equal(tt_rehearsal_call(r, i, &call), TT_OK);
        walk_through(b->book, &call, &w);
    }
    print_message("%d calls: %u things done, place changed %u times (%.0f minutes), %u would do\n",
                  CALLS, w.steps, w.changes, w.minutes, w.least);
    assert_true(w.steps > CALLS && w.changes > 0);
    assert_true(w.changes <= most * w.least);
    tt_rehearsal_free(r);
    tt_book_free(b);
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(an_attendant_walks_little)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
