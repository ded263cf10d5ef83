/* What it takes to list a book for a handbook grows with the book, in steps and in bytes: of causes
 * with a fix each, of fixes that are all for one cause, and of what is there for each piece. */
#include "testing.h"

#include "asked_book.h"
#include "base/str.h"
#include "session/session.h"
#include "work.h"

/* For four times as much it is four times the work; if it grew with the square, sixteen times. */
enum { PART = 250, TIMES = 4, MOST_TIMES = 7 };

#define HEAD \
    "book: {title: Made, roles: [op]}\nkinds: {k: {one: k, ask: 'Which?'}}\n" \
    "questions:\n  q: {ask: 'Is it low?'}\nsymptoms:\n" \
    "  s: {text: Low, when: {q: yes}, shown-by: {c0: often}}\n"
#define FIX_END "harm: none, role: op, put-back: not needed}\n"

static void add_pieces(text_builder *b, uint32_t count)
{
    text_add(b, STR("site:\n  units:\n    k:\n"));
    for (uint32_t i = 0; i < count; i++) text_addf(b, "      p%u: {}\n", i);
}

static void one_each(text_builder *b, uint32_t n)
{
    text_add(b, STR(HEAD "causes:\n"));
    for (uint32_t i = 0; i < n; i++) text_addf(b, "  c%u: {text: 'Cause %u'}\n", i, i);
    text_add(b, STR("fixes:\n"));
    for (uint32_t i = 0; i < n; i++)
        text_addf(b, "  f%u: {text: 'Fix %u', cures: {c%u: usually}, " FIX_END, i, i, i);
    add_pieces(b, 1);
}

static void all_for_one(text_builder *b, uint32_t n)
{
    text_add(b, STR(HEAD "causes:\n  c0: {text: Cause}\nfixes:\n"));
    for (uint32_t i = 0; i < n; i++)
        text_addf(b, "  f%u: {text: 'Fix %u', cures: {c0: usually}, " FIX_END, i, i);
    add_pieces(b, 1);
}

static void for_each_piece(text_builder *b, uint32_t n)
{
    enum { WRITTEN = 4 };
    text_add(b, STR(HEAD "  x: {text: 'Some', when: {q: yes}, shown-by: {w0 of any k: often}}\n"
                         "causes:\n  c0: {text: Cause}\n"));
    for (uint32_t i = 0; i < WRITTEN; i++)
        text_addf(b, "  w%u: {for-each: k, text: 'Wear %u'}\n", i, i);
    text_add(b, STR("fixes:\n"));
    for (uint32_t i = 0; i < WRITTEN; i++)
        text_addf(b, "  f%u: {for-each: k, text: 'Fix %u', cures: {w%u: usually}, " FIX_END, i, i,
                  i);
    add_pieces(b, n / 4);
}

typedef struct spent {
    uint64_t steps;
    size_t bytes;
} spent;

static spent spent_on(void (*make)(text_builder *b, uint32_t n), uint32_t n)
{
    arena *a = arena_new(NULL, NULL);
    text_builder b = {.keep = a};
    make(&b, n);
    asked_book asked = asked_new(text_done(&b).p);
    tt_contents all;
    assert_non_null(asked_look(&asked)); /* what a case needs anyhow */
    const size_t bytes = arena_size(asked.c->derived);
    const uint64_t steps = work_done();
    assert_int_equal(tt_book_contents(asked.c, &all), TT_OK);
    const spent s = {work_done() - steps, arena_size(asked.c->derived) - bytes};
    assert_true(s.steps > n && s.bytes > n);
    asked_free(&asked);
    arena_free(a);
    return s;
}

static void a_list_grows_with_the_book(void **state)
{
    (void)state;
    static void (*const all[])(text_builder * b, uint32_t n) = {one_each, all_for_one,
                                                                for_each_piece};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        const spent part = spent_on(all[i], PART), whole = spent_on(all[i], TIMES * PART);
        if (whole.steps > MOST_TIMES * part.steps || whole.bytes > MOST_TIMES * part.bytes)
            fail_msg("book %zu: %llu steps and %zu bytes, and %llu and %zu for %d times as much", i,
                     (unsigned long long)part.steps, part.bytes, (unsigned long long)whole.steps,
                     whole.bytes, TIMES);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_list_grows_with_the_book)};
    return cmocka_run_group_tests_name("contents work", tests, NULL, NULL);
}
