/* Rows, shares and how often causes come back, learned from cases, against learning.py, which
 * reckons them another way with 50 digits. */
#include <math.h>
#include <stdlib.h>

#include <jansson.h>

#include "learn/returns.h"
#include "learn/row.h"
#include "learn/shares.h"
#include "model/basics.h"
#include "net_kit.h"
#include "testing.h"

enum { MOST = 8 };
static const learn_weights plain = {{1, 1}, false};

static int set_up(void **state)
{
    *state = json_load_file(TT_SOURCE_DIR "/tests/golden/learning/learning.json", 0, NULL);
    return *state == NULL;
}

static int tear_down(void **state)
{
    json_decref(*state);
    return 0;
}

/* Written with more digits than a double has. */
static double number(const json_t *v)
{
    return json_is_string(v) ? strtod(json_string_value(v), NULL) : json_number_value(v);
}

static uint32_t numbers(const json_t *list, double *out)
{
    uint32_t count = (uint32_t)json_array_size(list);
    assert_in_range(count, 1, MOST);
    for (uint32_t i = 0; i < count; i++) out[i] = number(json_array_get(list, i));
    return count;
}

static void near(double got, const json_t *wanted, double tolerance)
{
    double there = number(wanted);
    if (!(fabs(got - there) <= tolerance * fmax(1, fabs(there))))
        fail_msg("%.17g, wanted %.17g", got, there);
}

static void check_set_to(const json_t *wanted, double mean, double worth, double tolerance)
{
    learn_belief b = learn_belief_of(mean, worth);
    near(mean, json_object_get(wanted, "mean"), 1e-12);
    near(worth, json_object_get(wanted, "worth"), tolerance);
    near(b.low, json_object_get(wanted, "low"), tolerance);
    near(b.high, json_object_get(wanted, "high"), tolerance);
}

static void check_set(const json_t *wanted, double mean, double worth)
{
    check_set_to(wanted, mean, worth, 1e-10);
}

static void answer_all(net_kit *k, learn_row *r, const net *n, const json_t *answers)
{
    for (size_t i = 0; i < json_array_size(answers); i++) {
        double weights[MOST];
        const json_t *given = json_array_get(answers, i);
        numbers(json_array_get(given, 0), weights);
        json_int_t times = json_integer_value(json_array_get(given, 1));
        while (times-- > 0) learn_row_add(k->keep, r, n, &n->components[0], weights, LEARN_CURED);
    }
}

static void check_row(const json_t *wanted)
{
    double written[MOST], strength = number(json_object_get(wanted, "strength"));
    uint32_t states = numbers(json_object_get(wanted, "written"), written);
    net_kit *k = net_kit_new();
    uint32_t f = net_kit_finding(k, "f", states);
    net_kit_cause(k, "a", 1);
    k->findings[f].right = number(json_object_get(wanted, "right"));
    for (uint32_t v = 1; v < states; v++) net_kit_symptom(k, "s", net_kit_is(k, f, v), 0.1);
    const net *n = net_kit_build(k);
    learn_row *r = learn_row_new(k->keep, written, states, strength);
    answer_all(k, r, n, json_object_get(wanted, "answers"));
    learn_row_fit(k->scratch, r, &plain);
    for (uint32_t v = 0; v < states; v++)
        near(r->fitted[v], json_array_get(json_object_get(wanted, "row"), v), 1e-12);
    const json_t *sets = json_object_get(wanted, "sets");
    for (size_t i = 0; i < json_array_size(sets); i++) {
        const json_t *set = json_array_get(sets, i), *in = json_object_get(set, "set");
        bool inside[MOST] = {false};
        for (size_t v = 0; v < json_array_size(in); v++)
            inside[json_integer_value(json_array_get(in, v))] = true;
        learn_count c = learn_row_count(k->scratch, r, &plain, inside);
        check_set(set, c.mean, c.worth);
    }
    net_kit_free(k);
}

static void rows_to_twelve_digits(void **state)
{
    const json_t *rows = json_object_get(*state, "rows");
    assert_int_equal(json_array_size(rows), 2);
    for (size_t i = 0; i < json_array_size(rows); i++) check_row(json_array_get(rows, i));
}

static void add_settings(arena *keep, learn_shares *s, const json_t *settings)
{
    for (size_t i = 0; i < json_array_size(settings); i++) {
        double factor[MOST], cases[MOST];
        uint32_t count = numbers(json_array_get(json_array_get(settings, i), 0), factor);
        numbers(json_array_get(json_array_get(settings, i), 1), cases);
        for (uint32_t c = 0; c < count; c++)
            for (double n = 0; n < cases[c]; n++) learn_shares_add(keep, s, factor, c, LEARN_CURED);
    }
}

static void check_shares(const json_t *wanted)
{
    arena *keep = arena_new(NULL, NULL), *scratch = arena_new(NULL, NULL);
    double written[MOST], sum = 0;
    uint32_t count = numbers(json_object_get(wanted, "written"), written);
    learn_shares *s = learn_shares_new(keep, written, count);
    add_settings(keep, s, json_object_get(wanted, "settings"));
    learn_shares_fit(scratch, s, &plain);
    for (uint32_t i = 0; i < count; i++) sum += s->weight[i];
    for (uint32_t i = 0; i < count; i++)
        check_set(json_array_get(json_object_get(wanted, "sets"), i), s->weight[i] / sum,
                  s->worth[i]);
    arena_free(keep);
    arena_free(scratch);
}

static void shares_to_twelve_digits(void **state)
{
    const json_t *all = json_object_get(*state, "shares");
    assert_int_equal(json_array_size(all), 1);
    check_shares(json_array_get(all, 0));
}

/* ---- how often causes come back ---- */

static const json_t *item(const json_t *list, size_t i)
{
    return json_array_get(list, i);
}

static uint32_t whole(const json_t *v)
{
    return json_integer_value(v) < 0 ? NO_ID : (uint32_t)json_integer_value(v);
}

static void add_maybes(arena *keep, const json_t *told, learn_trouble *x)
{
    learn_maybe *all = ARENA_ARRAY(keep, learn_maybe, json_array_size(told));
    x->maybes = all;
    for (; x->maybe_count < json_array_size(told); x->maybe_count++) {
        const json_t *one = item(told, x->maybe_count);
        all[x->maybe_count] = (learn_maybe){.trouble = whole(item(one, 0)),
                                            .link = whole(item(one, 1)),
                                            .same = number(item(one, 2)),
                                            .number = whole(item(one, 3)),
                                            .entry = whole(item(one, 4)),
                                            .share = number(item(one, 5)),
                                            .part = number(item(one, 6)),
                                            .days = number(item(one, 7))};
    }
}

static learn_site *site_of(arena *keep, const json_t *told, learn_site *before,
                           learn_returning *all)
{
    const json_t *cures = item(told, 1), *troubles = item(told, 2);
    learn_site *s = ARENA_NEW(keep, learn_site);
    *s = (learn_site){.days = number(item(told, 0)), .next = before};
    s->cures = ARENA_ARRAY(keep, learn_cure, json_array_size(cures));
    for (; s->cure_count < json_array_size(cures); s->cure_count++) {
        const json_t *cure = item(cures, s->cure_count);
        s->cures[s->cure_count] = (learn_cure){.number = whole(item(cure, 0)),
                                               .days = number(item(cure, 1)),
                                               .share = number(item(cure, 2)),
                                               .entry = whole(item(cure, 3))};
        all[whole(item(cure, 0))].cures++;
    }
    learn_trouble *list = ARENA_ARRAY(keep, learn_trouble, json_array_size(troubles));
    s->troubles = list;
    for (; s->trouble_count < json_array_size(troubles); s->trouble_count++) {
        const json_t *one = item(troubles, s->trouble_count), *links = item(one, 2);
        learn_link *to = ARENA_ARRAY(keep, learn_link, json_array_size(links));
        for (size_t i = 0; i < json_array_size(links); i++)
            to[i] = (learn_link){.cure = whole(item(item(links, i), 0)),
                                 .part = number(item(item(links, i), 1)),
                                 .days = number(item(item(links, i), 2))};
        list[s->trouble_count] = (learn_trouble){.share = number(item(one, 0)),
                                                 .entry = whole(item(one, 1)),
                                                 .links = to,
                                                 .link_count = (uint32_t)json_array_size(links)};
        add_maybes(keep, item(one, 3), &list[s->trouble_count]);
    }
    return s;
}

static void check_returning(const json_t *wanted)
{
    arena *keep = arena_new(NULL, NULL), *scratch = arena_new(NULL, NULL);
    double share[MOST], said[MOST];
    learn_returning all[MOST];
    learn_site *sites = NULL;
    const json_t *numbers_said = json_object_get(wanted, "numbers"),
                 *told = json_object_get(wanted, "sites");
    const uint32_t entries = numbers(json_object_get(wanted, "share"), share),
                   count = (uint32_t)json_array_size(numbers_said);
    for (uint32_t n = 0; n < count; n++) {
        assert_int_equal(numbers(item(numbers_said, n), said), 3);
        all[n] = (learn_returning){.written = said[0], .strength = said[1], .surely = said[2]};
    }
    for (size_t i = 0; i < json_array_size(told); i++)
        sites = site_of(keep, item(told, i), sites, all);
    learn_returns_fit(scratch, all, count, sites, share, entries);
    for (uint32_t n = 0; n < count; n++) {
        const json_t *one = item(json_object_get(wanted, "sets"), n);
        near(all[n].follows, json_object_get(one, "follows"), 1e-6);
        check_set_to(one, all[n].mean, all[n].worth, 1e-6);
    }
    arena_free(keep);
    arena_free(scratch);
}

static void returns_to_six_digits(void **state)
{
    const json_t *all = json_object_get(*state, "returning");
    assert_int_equal(json_array_size(all), 1);
    check_returning(item(all, 0));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(rows_to_twelve_digits, set_up, tear_down),
        cmocka_unit_test_setup_teardown(shares_to_twelve_digits, set_up, tear_down),
        cmocka_unit_test_setup_teardown(returns_to_six_digits, set_up, tear_down),
    };
    return cmocka_run_group_tests_name("golden learning", tests, NULL, NULL);
}
