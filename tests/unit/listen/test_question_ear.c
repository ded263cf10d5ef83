/* What a question is spoken of with, counted once for all, against counting it anew for each word:
 * in the shipped books, over what people said of them. */
#include <math.h>

#include "corpus.h"
#include "listen/listener.h"
#include "session/session.h"
#include "shipped_books.h"
#include "test_sources.h"
#include "testing.h"

enum { UTTERANCE = 2, ONE_IN = 7 };

static double weight_anew(const question_ears *all, feature_id id)
{
    uint32_t with = 0;
    for (uint32_t i = 0; i < all->count; i++) with += question_speaks_with(&all->items[i], id);
    return log(1.0 + (double)all->count / (with > 0 ? with : 1));
}

static bool asks_with(const question_ear *e, feature_id id)
{
    for (uint32_t k = 0; k < e->asked_count; k++)
        if (e->asked[k] == id) return true;
    return false;
}

static double spoken_of_anew(const question_ears *all, uint32_t ear, const features *f)
{
    const question_ear *e = &all->items[ear];
    double sum = 0;
    for (uint32_t i = 0, end; i < f->count; i = end) {
        double most = 0;
        for (end = i; end < f->count && f->items[end].first == f->items[i].first; end++) {
            const feature_id id = f->items[end].id;
            const double part = question_name_has(e, id) ? 1 : asks_with(e, id) ? 0.7 : 0;
            if (part > 0) most = fmax(most, part * weight_anew(all, id));
        }
        sum += most;
    }
    return sum;
}

/* How many questions were spoken of. */
static uint32_t hold_beside(const listener *l, arena *keep, str utterance)
{
    uint32_t spoken = 0;
    const said s = said_read(keep, utterance);
    const features f = meaning_read(&l->meaning, keep, &s, 0, s.count);
    for (uint32_t ear = 0; ear < l->questions.count; ear++) {
        const double is = question_spoken_of(&l->questions, ear, &f);
        if (is != spoken_of_anew(&l->questions, ear, &f))
            fail_msg("%.*s: question %u", STR_ARG(utterance), ear);
        spoken += is > 0;
    }
    return spoken;
}

static void names_weigh_by_how_rare_they_are(const listener *l)
{
    for (uint32_t i = 0; i < l->questions.count; i++) {
        const question_ear *e = &l->questions.items[i];
        for (uint32_t k = 0; k < e->name_count; k++)
            if (e->name[k].count > 0)
                assert_true(e->name[k].weight ==
                            weight_anew(&l->questions, e->name[k].features[0]));
    }
}

static void hold_book(const char *folder, const char *file)
{
    arena *keep = test_arena(), *scratch = test_arena();
    const shipped_book shipped = shipped_named(scratch, folder);
    tt_book *loaded = shipped_load(scratch, &shipped);
    const listener *l = listener_new(keep, scratch, loaded->book);
    const corpus c = corpus_read(scratch, file);
    uint32_t spoken = 0;
    names_weigh_by_how_rare_they_are(l);
    for (uint32_t i = 0; i < c.count; i += ONE_IN) {
        const arena_mark mark = arena_here(keep);
        spoken += hold_beside(l, keep, c.lines[i].fields[UTTERANCE]);
        arena_back_to(keep, mark);
    }
    spoken += hold_beside(l, keep, STR("no flow, and no foam; no hay agua"));
    assert_true(spoken > 100);
    tt_book_free(loaded);
    arena_free(keep);
    arena_free(scratch);
}

static void a_line_of_foam(void **state)
{
    (void)state;
    hold_book("foam-line", "foam-complaints.tsv");
}

/* Some of its questions are named with a "no". */
static void dosing_pumps(void **state)
{
    (void)state;
    hold_book("dosing-and-pumping", "dosing-complaints.tsv");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_line_of_foam),
        cmocka_unit_test(dosing_pumps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
