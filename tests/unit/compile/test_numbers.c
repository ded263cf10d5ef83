/* Numbers as written, and a net with another one: what it would have been from the start. */
#include "testing.h"

#include "belief_twin.h"
#include "choice_twin.h"
#include "compile/numbers.h"
#include "luck.h"
#include "session/session.h"
#include "shipped_books.h"
#include "small_book.h"
#include "test_sources.h"

/* ---- nets ---- */

static void same_tables(const net *a, const net *b)
{
    assert_int_equal(a->component_count, b->component_count);
    assert_memory_equal(a->share, b->share, a->in.cause_count * sizeof *a->share);
    for (uint32_t i = 0; i < a->component_count; i++) {
        const component *g = &a->components[i], *h = &b->components[i];
        assert_int_equal(g->atom_count, h->atom_count);
        assert_int_equal(g->listed_count, h->listed_count);
        assert_int_equal(g->usual_atom, h->usual_atom);
        assert_memory_equal(g->within, h->within, g->cell_count * sizeof *g->within);
        assert_memory_equal(g->base, h->base, g->atom_count * sizeof *g->base);
        assert_memory_equal(g->other, h->other, g->atom_count * sizeof *g->other);
        assert_memory_equal(g->table, h->table,
                            (size_t)g->listed_count * g->atom_count * sizeof *g->table);
    }
}

/* The input with one number changed, and what the change is called. */
static net_change draw_change(arena *keep, uint64_t *random, net_input *in)
{
    net_change x = {(net_change_kind)luck_below(random, 3), 0, 0, 0.01 + 0.98 * luck_share(random)};
    x.at = luck_below(random, x.kind == NET_WEIGHT ? in->cause_count : in->symptom_count);
    double *weights = ARENA_ARRAY(keep, double, in->cause_count);
    net_symptom *symptoms = ARENA_ARRAY(keep, net_symptom, in->symptom_count);
    memcpy(weights, in->weights, in->cause_count * sizeof *weights);
    memcpy(symptoms, in->symptoms, in->symptom_count * sizeof *symptoms);
    if (x.kind == NET_LISTED && symptoms[x.at].listed_count == 0) x.kind = NET_OTHERWISE;
    if (x.kind == NET_WEIGHT) weights[x.at] = x.value;
    if (x.kind == NET_OTHERWISE) symptoms[x.at].otherwise = x.value;
    if (x.kind == NET_LISTED) {
        net_symptom *s = &symptoms[x.at];
        net_rate *listed = ARENA_ARRAY(keep, net_rate, s->listed_count);
        memcpy(listed, s->listed, s->listed_count * sizeof *listed);
        x.rate = luck_below(random, s->listed_count);
        listed[x.rate].chance = x.value;
        s->listed = listed;
    }
    in->weights = weights;
    in->symptoms = symptoms;
    return x;
}

static void a_changed_net_is_the_net_of_the_changed_numbers(void **state)
{
    (void)state;
    unsigned of_kind[3] = {0};
    for (uint64_t seed = 1; seed <= 300; seed++) {
        arena *keep = test_arena(), *scratch = test_arena();
        uint64_t random = seed;
        net_input in = twin_draw_input(keep, &random);
        const net *n = net_build(keep, scratch, &in, NULL);
        const net_change x = draw_change(keep, &random, &in);
        same_tables(net_with(keep, scratch, n, &x, 1), net_build(keep, scratch, &in, NULL));
        of_kind[x.kind]++;
        arena_free(keep);
        arena_free(scratch);
    }
    for (int i = 0; i < 3; i++) assert_true(of_kind[i] > 30);
}

/* ---- as written ---- */

static const char pumps[] = "book:\n"
                            "  title: Pumps\n"
                            "  roles: [anybody]\n"
                            "kinds:\n"
                            "  pump:\n"
                            "    one: pump\n"
                            "    ask: Which pumps are there?\n"
                            "site:\n"
                            "  units:\n"
                            "    pump:\n"
                            "      a: {text: the first pump}\n"
                            "      b: {text: the second pump}\n"
                            "questions:\n"
                            "  sound:\n"
                            "    for-each: pump\n"
                            "    ask: Does {pump} hum?\n"
                            "    takes: 1 min\n"
                            "symptoms:\n"
                            "  hums:\n"
                            "    for-each: pump\n"
                            "    text: It hums\n"
                            "    when: {sound: yes}\n"
                            "    shown-by: {worn: usually, fuse: 3 of 10}\n"
                            "    otherwise: rarely\n"
                            "causes:\n"
                            "  worn: {for-each: pump, text: Worn, how-often: common}\n"
                            "  fuse: {text: Fuse}\n"
                            "fixes:\n"
                            "  mend:\n"
                            "    for-each: pump\n"
                            "    text: Mend\n"
                            "    role: anybody\n"
                            "    cures: {worn: '80 %'}\n"
                            "    takes: 5 min\n"
                            "    harm: none\n"
                            "    put-back: not needed\n";

static void each_number_stands_once_with_all_its_places(void **state)
{
    (void)state;
    static const struct {
        number_kind kind;
        const char *text;
        double value;
        uint32_t places;
    } wanted[] = {{NUMBER_SHOWN_BY, "usually", 0.85, 2},
                  {NUMBER_SHOWN_BY, "3 of 10", 0.3, 2},
                  {NUMBER_OTHERWISE, "rarely", 0.05, 2},
                  {NUMBER_HOW_OFTEN, "common", 5, 2},
                  {NUMBER_CURES, "80 %", 0.8, 2}};
    tt_book *book = small_book(pumps);
    arena *keep = test_arena();
    uint32_t count;
    const written_number *all = program_numbers(keep, keep, book->prog, &count);
    assert_int_equal(count, sizeof wanted / sizeof wanted[0]);
    for (uint32_t i = 0; i < count; i++) {
        assert_int_equal(all[i].kind, wanted[i].kind);
        assert_int_equal(all[i].count, wanted[i].places);
        assert_str(number_text(book->prog, &all[i]), wanted[i].text);
        assert_true(number_value(book->prog, &all[i]) == wanted[i].value);
    }
    arena_free(keep);
    tt_book_free(book);
}

/* The book with other words in the place of these bytes. */
static tt_book *book_with(arena *keep, const char *yaml, span said, const char *text)
{
    return small_book(str_printf(keep, "%.*s%s%s", (int)said.start, yaml, text, yaml + said.end).p);
}

static void a_changed_program_is_that_of_the_changed_book(void **state)
{
    (void)state;
    tt_book *book = small_book(pumps);
    arena *keep = test_arena(), *scratch = test_arena();
    uint32_t count;
    const written_number *all = program_numbers(keep, scratch, book->prog, &count);
    for (uint32_t i = 0; i < count; i++) {
        const program *changed = program_with(keep, scratch, book->prog, &all[i], 0.25);
        tt_book *anew = book_with(keep, pumps, all[i].said, "0.25");
        same_tables(changed->evidence, anew->prog->evidence);
        for (uint32_t f = 0; f < book->book->fix_count; f++)
            assert_true(changed->cures[f][0].chance == anew->prog->cures[f][0].chance);
        tt_book_free(anew);
    }
    arena_free(keep);
    arena_free(scratch);
    tt_book_free(book);
}

static void no_number_of_a_shipped_book_is_lost(void **state)
{
    (void)state;
    shipped_book books[SHIPPED_MOST];
    arena *keep = test_arena();
    uint32_t book_count = shipped_books(keep, books);
    for (uint32_t k = 0; k < book_count; k++) {
        tt_book *book = shipped_load(keep, &books[k]);
        uint32_t count, places = 0, written = 0;
        const written_number *all = program_numbers(keep, keep, book->prog, &count);
        for (uint32_t i = 0; i < count; i++) places += all[i].count;
        for (uint32_t s = 0; s < book->book->symptom_count; s++)
            for (uint32_t i = 0; i < book->book->symptoms[s].shown_by_count; i++)
                written += book->book->symptoms[s].shown_by[i].said.file != NO_FILE;
        assert_true(places > written && written > 0);
        tt_book_free(book);
    }
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_changed_net_is_the_net_of_the_changed_numbers),
        cmocka_unit_test(each_number_stands_once_with_all_its_places),
        cmocka_unit_test(a_changed_program_is_that_of_the_changed_book),
        cmocka_unit_test(no_number_of_a_shipped_book_is_lost),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
