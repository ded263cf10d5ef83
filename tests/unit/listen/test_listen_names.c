/* Where a name is asked for: what is a letter from danger may be one, and is asked back; danger
 * that is written as it should be is told at once, and none is lost. */
#include <stdio.h>
#include <string.h>

#include "corpus.h"
#include "listen/listen.h"
#include "session/session.h"
#include "shipped_books.h"
#include "test_sources.h"
#include "testing.h"

enum { UTTERANCE = 3, EXPECT = 4 };

typedef struct bench {
    arena *keep, *scratch;
    tt_book *loaded[SHIPPED_MOST];
    const listener *ears[SHIPPED_MOST];
    uint32_t count;
} bench;

static bench bench_new(void)
{
    bench b = {.keep = test_arena(), .scratch = test_arena()};
    shipped_book all[SHIPPED_MOST];
    b.count = shipped_books(b.scratch, all);
    for (uint32_t i = 0; i < b.count; i++) {
        b.loaded[i] = shipped_load(b.scratch, &all[i]);
        b.ears[i] = listener_for_danger(b.keep, b.scratch, b.loaded[i]->book);
    }
    return b;
}

static void bench_end(bench *b)
{
    for (uint32_t i = 0; i < b->count; i++) tt_book_free(b->loaded[i]);
    arena_free(b->keep);
    arena_free(b->scratch);
}

static dangers at_a_name(const bench *b, uint32_t ear, const char *said)
{
    return listen_danger(b->ears[ear], b->scratch, str_of(said), LISTEN_NOTE);
}

/* Words by which grave danger is known by itself, in both languages. */
static const char *const grave[] = {"fire",         "smoke",         "bleeding",     "unconscious",
                                    "electrocuted", "explosion",     "fuego",        "humo",
                                    "incendio",     "sangrando",     "inconsciente", "desmayado",
                                    "atrapado",     "electrocutado", "trapped",      "drowning"};

static void assert_asked_at_most(const bench *b, const char *name, uint32_t *asked)
{
    for (uint32_t i = 0; i < b->count; i++) {
        const dangers d = at_a_name(b, i, name);
        if (d.list == DANGER_A && !d.doubtful) fail_msg("%s is taken for danger", name);
        *asked += i == 0 && d.list == DANGER_A;
    }
}

static bool is_a_word(const char *word)
{
    for (size_t i = 0; i < sizeof grave / sizeof grave[0]; i++)
        if (strcmp(grave[i], word) == 0) return true;
    return false;
}

/* One letter other, in each place, alone and in a name of two words. */
static void what_is_a_letter_off_is_asked(void **state)
{
    (void)state;
    bench b = bench_new();
    uint32_t asked = 0, tried = 0;
    for (size_t w = 0; w < sizeof grave / sizeof grave[0]; w++)
        for (size_t at = 1; at < strlen(grave[w]); at++) {
            char name[64];
            snprintf(name, sizeof name, "%s", grave[w]);
            name[at] = 'q'; /* which none of them has */
            if (is_a_word(name)) continue;
            name[0] = (char)(name[0] - 'a' + 'A');
            assert_asked_at_most(&b, name, &asked);
            char lane[80];
            snprintf(lane, sizeof lane, "%s Lane", name);
            assert_asked_at_most(&b, lane, &asked);
            tried += 2;
        }
    printf("a letter off: %u of %u asked back, the others names at once\n", asked, tried);
    assert_true(asked > 0);
    bench_end(&b);
}

/* Invented: what sites, rows and posts might be called. */
static void names_bring_no_danger(void **state)
{
    (void)state;
    static const char *const names[] = {
        "Gaslow",       "firth",          "Burnham",
        "Shocken Road", "Traplin Wash",   "Caughton",
        "Bleden",       "Fallowmoor",     "Smokley",
        "Hurtle Hill",  "Drowne Street",  "Fyrelane",
        "Explora",      "Chokeley",       "Fuegor",
        "Quemada Sur",  "La Sangrera",    "pump 1, pump 2, the big one",
        "Northgate",    "row by the wall"};
    bench b = bench_new();
    uint32_t asked = 0, taken = 0;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const dangers d = at_a_name(&b, 0, names[i]);
        asked += d.list == DANGER_A && d.doubtful;
        taken += d.list == DANGER_A && !d.doubtful;
        if (d.list == DANGER_A) printf("  %s: %s\n", names[i], d.doubtful ? "asked" : "taken");
    }
    printf("of %zu names %u are asked back, %u taken for danger\n", sizeof names / sizeof names[0],
           asked, taken);
    assert_int_equal(taken, 0);
    bench_end(&b);
}

static void danger_as_it_is_written_is_told_at_once(void **state)
{
    (void)state;
    bench b = bench_new();
    for (size_t w = 0; w < sizeof grave / sizeof grave[0]; w++) {
        const dangers d = at_a_name(&b, 0, grave[w]);
        if (d.list != DANGER_A || d.doubtful) fail_msg("%s: missed", grave[w]);
    }
    bench_end(&b);
}

/* All of the corpus that is grave, said for a name: how much of it comes at once. The rest is
 * asked; none is taken for a name without a word that was not so before. */
static void most_of_the_corpus_is_told_at_once(void **state)
{
    (void)state;
    bench b = bench_new();
    corpus all = corpus_read(b.keep, "danger.tsv");
    uint32_t at_once = 0, asked = 0;
    for (uint32_t i = 0; i < all.count; i++) {
        if (!str_is(all.lines[i].fields[EXPECT], "A")) continue;
        const dangers d =
            listen_danger(b.ears[0], b.scratch, all.lines[i].fields[UTTERANCE], LISTEN_NOTE);
        at_once += d.list == DANGER_A && !d.doubtful;
        asked += d.list == DANGER_A && d.doubtful;
    }
    printf("grave lines said for a name: %u at once, %u asked\n", at_once, asked);
    assert_true(at_once > 0 && 100 * asked <= 25 * (at_once + asked));
    bench_end(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_a_letter_off_is_asked),
        cmocka_unit_test(names_bring_no_danger),
        cmocka_unit_test(danger_as_it_is_written_is_told_at_once),
        cmocka_unit_test(most_of_the_corpus_is_told_at_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
