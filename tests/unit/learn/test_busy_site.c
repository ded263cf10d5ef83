/* A site with very many troubles, of most of which nobody knows what it was: what is kept of them
 * grows with their number, not with the number of their pairs. */
#include <stdlib.h>

#include "base/arena.h"
#include "learn/learning.h"
#include "telltale.h"
#include "test_sources.h"
#include "testing.h"

static const char rules[] = "book:\n"
                            "  title: Pumps\n"
                            "  roles: [helper]\n"
                            "questions:\n"
                            "  hum:\n"
                            "    ask: How is the pump?\n"
                            "    answers: {loud: Loud, quiet: Quiet}\n"
                            "symptoms:\n"
                            "  hums: {text: Hums, when: {hum: loud}, shown-by: {worn: usually}}\n"
                            "causes:\n"
                            "  worn: {text: Worn, brought-on-by: [loose]}\n"
                            "  loose: {text: Loose}\n"
                            "fixes:\n"
                            "  mend:\n"
                            "    text: Mend it\n"
                            "    role: helper\n"
                            "    cures: {worn: usually, loose: usually}\n"
                            "    harm: none\n"
                            "    put-back: not needed\n";

static tt_learning *begin(void)
{
    tt_learning *l;
    tt_report *report;
    const tt_source file = {"rules.yaml", rules, sizeof rules - 1};
    const tt_status status = tt_learning_new(&file, 1, &l, &report);
    if (status != TT_OK) print_error("%s\n", tt_report_text(report));
    assert_int_equal(status, TT_OK);
    tt_report_free(report);
    return l;
}

/* All within one day: so many at the site, each `known`th confirmed as loose. */
static uint64_t pairs_of(uint32_t count, uint32_t known)
{
    tt_learning *l = begin();
    tt_trouble *all = calloc(count, sizeof *all);
    assert_non_null(all);
    for (uint32_t i = 0; i < count; i++)
        all[i] = (tt_trouble){.cause = (i + 1) % known == 0 ? "loose" : "",
                              .fix = "",
                              .began = i / (double)count,
                              .ended = i / (double)count};
    assert_int_equal(tt_learning_site(l, tt_learning_book(l), all, count, -1), TT_OK);
    uint64_t pairs = 0;
    for (const learn_site *s = l->sites; s != NULL; s = s->next)
        for (uint32_t i = 0; i < s->trouble_count; i++) pairs += s->troubles[i].maybe_count;
    free(all);
    tt_learning_free(l);
    return pairs;
}

/* Of each that is known, those before it since the last that was it for certain. The first of a
 * site tells of nothing before it; it brings on what was never certain, so for that all are. */
static void of_a_thousand_all_are_kept(void **state)
{
    (void)state;
    enum { COUNT = 1000, KNOWN = 500 };
    const uint64_t own = (KNOWN - 2) + (KNOWN - 1),
                   of_what_it_brings_on = (KNOWN - 2) + (COUNT - 3);
    assert_int_equal(pairs_of(COUNT, KNOWN), own + of_what_it_brings_on);
}

static void of_very_many_the_last_are(void **state)
{
    (void)state;
    enum { COUNT = 1 << 17, KNOWN = 2, CAUSES = 2, FEWEST = 16 };
    const uint64_t pairs = pairs_of(COUNT, KNOWN);
    assert_true(pairs > COUNT / KNOWN);
    assert_true(pairs <= (uint64_t)COUNT / KNOWN * CAUSES * FEWEST);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(of_a_thousand_all_are_kept),
                                       cmocka_unit_test(of_very_many_the_last_are)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
