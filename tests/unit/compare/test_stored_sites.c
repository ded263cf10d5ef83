/* Cases that were kept, each played at its own site, with both editions. */
#include "testing.h"

#include "base/str.h"
#include "telltale.h"
#include "test_sources.h"

static const char pump[] =
    "book:\n  title: Pump\n  roles: [keeper]\n"
    "kinds:\n  filter:\n    ask: Which filters are there?\n"
    "questions:\n  hum:\n    ask: Does it hum?\n"
    "symptoms:\n  hums:\n    text: It hums\n    when: {hum: yes}\n    heard: [it hums]\n"
    "    shown-by: {power: often}\n"
    "causes:\n  power: {text: Power}\n"
    "fixes:\n  plug:\n    text: Plug it in\n    role: keeper\n    cures: {power: often}\n"
    "    harm: none\n    takes: 2 min\n    put-back: not needed\n";

static const char kinds[] = "kinds:\n  filter:\n    ask: Which filters are there?\n";
static const char north[] = "site:\n  title: North\n  units:\n    filter:\n      coarse:\n"
                            "        text: the coarse filter\n",
                  south[] = "site:\n  title: South\n";

static tt_comparison *begin(const char *before, const char *after)
{
    const tt_source one = {"pump.yaml", before, strlen(before)},
                    other = {"pump.yaml", after, strlen(after)};
    tt_comparison *x;
    tt_report *of_one, *of_other;
    assert_int_equal(tt_comparison_new(&one, 1, &other, 1, &x, &of_one, &of_other), TT_OK);
    tt_report_free(of_one);
    tt_report_free(of_other);
    return x;
}

static void add(tt_comparison *x, const char *name, const char *site, bool practice)
{
    assert_int_equal(tt_comparison_case(x, &(tt_kept_case){.name = name,
                                                           .site = site,
                                                           .writer = "desk",
                                                           .now = "2026-11-30T08:00:00Z",
                                                           .practice = practice}),
                     TT_OK);
}

/* A site that tells of what the rules know no more can't be played with them; no other case moves,
 * whichever was added first. */
static void a_site_that_no_longer_fits_moves_its_cases_alone(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const char *at = strstr(pump, kinds);
    const char *after = str_printf(keep, "%.*s%s", (int)(at - pump), pump, at + strlen(kinds)).p;
    const tt_compared *all;
    tt_comparison *x = begin(pump, after);
    add(x, "first", south, false);
    add(x, "second", north, false);
    add(x, "third", NULL, false);
    add(x, "drill", NULL, true);
    add(x, "fourth", south, false);
    add(x, "fifth", north, false);
    assert_int_equal(tt_comparison_look(x, 1, 0, &all), TT_OK);
    assert_int_equal(all->stored, 6);
    assert_int_equal(all->moved_stored, 2);
    for (uint32_t i = 0; i < 2; i++) {
        const tt_moved *m = &all->moved[i];
        assert_string_equal(m->name, i == 0 ? "second" : "fifth");
        assert_true(m->before.there && !m->after.there && m->path);
        assert_false(m->leading || m->fixes || m->cautions);
    }
    tt_comparison_free(x);
    x = begin(after, pump); /* and back: it can be played again */
    add(x, "only", north, false);
    assert_int_equal(tt_comparison_look(x, 1, 0, &all), TT_OK);
    assert_true(!all->moved[0].before.there && all->moved[0].after.there);
    assert_int_equal(all->moved[0].edit_count, 1);
    assert_string_equal(all->moved[0].edits[0], "kinds filter");
    tt_comparison_free(x);
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_site_that_no_longer_fits_moves_its_cases_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
