/* What `check` does grows with the book, not with its square, whatever stands in it: each of these
 * books was once square in something. A book of few bytes that stands for much is no exception. */
#include "testing.h"

#include "base/arena.h"
#include "base/str.h"
#include "telltale.h"
#include "work.h"

/* For four times as much it is four times the work; if it grew with the square, sixteen times. */
enum { PART = 250, TIMES = 4, MOST_TIMES = 7 };

#define GATE "questions:\n  smoke: {ask: 'Is there smoke?', safe: [no], about: today}\n"
#define HEAD \
    "book: {title: Made, roles: [op, {tech: {authorised: yes}}]}\n" \
    "kinds: {k: {one: k, ask: 'Which?'}}\n"
#define FIX_END "harm: none, role: op, put-back: not needed}\n"

static void add_pieces(text_builder *b, uint32_t count)
{
    text_add(b, STR("site:\n  units:\n    k:\n"));
    for (uint32_t i = 0; i < count; i++) text_addf(b, "      p%u: {}\n", i);
}

static void add_causes(text_builder *b, uint32_t count)
{
    text_add(b, STR("causes:\n"));
    for (uint32_t i = 0; i < count; i++) text_addf(b, "  c%u: {text: 'Cause %u'}\n", i, i);
    text_add(b, STR("fixes:\n"));
    for (uint32_t i = 0; i < count; i++)
        text_addf(b, "  f%u: {text: 'Fix %u', cures: {c%u: usually}, " FIX_END, i, i, i);
}

/* As large books mostly are: each cause with a sign and a fix of its own, and a few rules. */
static void plain_book(text_builder *b, uint32_t n)
{
    text_add(b, STR(HEAD GATE));
    for (uint32_t i = 0; i < n; i++)
        text_addf(b, "  q%u: {ask: 'Is part %u low?', takes: 2 min}\n", i, i);
    text_add(b, STR("symptoms:\n"));
    for (uint32_t i = 0; i < n; i++)
        text_addf(b,
                  "  s%u: {text: 'Part %u is low', when: {q%u: yes}, "
                  "shown-by: {c%u: usually, c%u: often}}\n",
                  i, i, i, i, (i * 7 + 1) % n);
    add_causes(b, n);
    text_add(b, STR("rules:\n"));
    for (uint32_t i = 0; i < n; i++)
        text_addf(b, "  r%u: {when: {q%u: no}, then: {likelier: {c%u: 2 times}}}\n", i, i,
                  (i * 3 + 1) % n);
    add_pieces(b, 1);
}

/* One sign of everything at every piece: no answer tells any of it apart. */
static void any_piece(text_builder *b, uint32_t n)
{
    text_add(b, STR(HEAD GATE "  q: {ask: 'Is it low?'}\nsymptoms:\n  s:\n    text: Low\n"
                              "    when: {q: yes}\n    shown-by:\n"));
    for (uint32_t i = 0; i < 10; i++) text_addf(b, "      c%u of any k: often\n", i);
    text_add(b, STR("causes:\n"));
    for (uint32_t i = 0; i < 10; i++)
        text_addf(b, "  c%u: {for-each: k, text: 'Cause %u'}\n", i, i);
    text_add(b, STR("fixes:\n  f: {for-each: k, text: Fix, cures: {c0: often}, " FIX_END));
    add_pieces(b, n / 5);
}

/* All rules say the same. */
static void same_rules(text_builder *b, uint32_t n)
{
    text_add(b, STR(HEAD GATE "  q: {ask: 'Is it low?'}\nsymptoms:\n"
                              "  s: {text: Low, when: {q: yes}, shown-by: {c0: often}}\n"));
    add_causes(b, 1);
    text_add(b, STR("rules:\n"));
    for (uint32_t i = 0; i < n; i++)
        text_addf(b, "  r%u: {when: {q: no}, then: {likelier: {c0: 2 times}}}\n", i);
}

/* All fixes are for one cause, and each takes longer and helps more often than the one before. */
static void one_cause(text_builder *b, uint32_t n)
{
    text_add(b, STR(HEAD GATE "  q: {ask: 'Is it low?'}\nsymptoms:\n"
                              "  s: {text: Low, when: {q: yes}, shown-by: {c0: often}}\n"
                              "causes:\n  c0: {text: Cause}\nfixes:\n"));
    for (uint32_t i = 0; i < n; i++)
        text_addf(b, "  f%u: {text: 'Fix %u', takes: %u s, cures: {c0: %.2f %%}, " FIX_END, i, i,
                  60 + i, 10 + i / 50.0);
}

/* Each conclusion is set by eight rules that rest on the next: eight ways at each of many levels.
 */
static void conclusions_in_a_row(text_builder *b, uint32_t n)
{
    enum { WAYS = 8 };
    const uint32_t levels = n / WAYS;
    text_add(b, STR(HEAD GATE));
    for (uint32_t k = 0; k < WAYS; k++)
        text_addf(b, "  q%u: {ask: 'Is part %u low?', takes: 2 min}\n", k, k);
    text_add(b, STR("symptoms:\n  s: {text: Low, when: {q0: yes}, shown-by: {c0: often}}\n"));
    add_causes(b, 1);
    text_add(b, STR("conclusions:\n"));
    for (uint32_t i = 0; i <= levels; i++) text_addf(b, "  z%u: {text: 'Case %u'}\n", i, i);
    text_add(b, STR("rules:\n  stop: {when: {z0: yes}, then: {stop: 'Get away.', call: tech}}\n"
                    "  end: {when: {smoke: yes}, then: {set: {z"));
    text_addf(b, "%u: yes}}}\n", levels);
    for (uint32_t i = 0; i < levels; i++)
        for (uint32_t k = 0; k < WAYS; k++)
            text_addf(
                b, "  r%u-%u: {when: {all: [{z%u: yes}, {q%u: yes}]}, then: {set: {z%u: yes}}}\n",
                i, k, i + 1, k, i);
}

/* Each conclusion rests on the one before, and each moves a cause. */
static void conclusions_each_read(text_builder *b, uint32_t n)
{
    text_add(b, STR(HEAD GATE "  q: {ask: 'Is it low?'}\n"
                              "  wet: {ask: 'Is it a wet day?', about: today}\nsymptoms:\n"
                              "  s: {text: Low, when: {q: yes}, shown-by: {c0: often}}\n"));
    add_causes(b, 1);
    text_add(b, STR("conclusions:\n"));
    for (uint32_t i = 0; i < n; i++) text_addf(b, "  z%u: {text: 'Case %u'}\n", i, i);
    text_add(b, STR("rules:\n  r0: {when: {wet: yes}, then: {set: {z0: yes}}}\n"));
    for (uint32_t i = 0; i < n; i++)
        text_addf(b, "  e%u: {when: {z%u: yes}, then: {likelier: {c0: 1.01 times}}}\n", i, i);
    for (uint32_t i = 1; i < n; i++)
        text_addf(b, "  r%u: {when: {z%u: yes}, then: {set: {z%u: yes}}}\n", i, i - 1, i);
}

/* Many rules of a few causes, each of two facts that the site tells: none has to be weighed. */
static void pairs_of_facts(text_builder *b, uint32_t n)
{
    enum { CAUSES = 3, PAIRS = 2 };
    text_add(b, STR(HEAD GATE "  q: {ask: 'Is it low?'}\n"));
    for (uint32_t i = 0; i < PAIRS * n; i++)
        text_addf(b, "  w%u: {ask: 'Is it %u?', about: the site}\n", i, i);
    text_add(b, STR("symptoms:\n  s: {text: Low, when: {q: yes}, shown-by: {c0: often}}\n"));
    add_causes(b, CAUSES);
    text_add(b, STR("rules:\n"));
    for (uint32_t i = 0; i < n; i++)
        text_addf(b, "  r%u: {when: {w%u: yes, w%u: no}, then: {likelier: {c%u: 2 times}}}\n", i,
                  PAIRS * i, PAIRS * i + 1, i % CAUSES);
    text_add(b, STR("site:\n  answers:\n"));
    for (uint32_t i = 0; i < PAIRS * n; i++) text_addf(b, "    w%u: yes\n", i);
}

/* Every entry has an error, and what is sound of the book is asked about all the same. */
static void wrong_names(text_builder *b, uint32_t n)
{
    plain_book(b, n);
    text_add(b, STR("words-for: {}\n"));
    text_add(b, STR("procedures:\n"));
    for (uint32_t i = 0; i < n; i++) text_addf(b, "  x%u: {tell: No, odd: 1}\n", i);
}

/* Each entry of a section is left out for its own error before the rest is asked about. */
static void wrong_everywhere(text_builder *b, uint32_t n)
{
    text_add(b, STR(HEAD GATE "  q: {ask: 'Is it low?'}\nsymptoms:\n"));
    for (uint32_t i = 0; i < n; i++)
        text_addf(b, "  s%u: {text: 'Low %u', when: {q: yes}, shown-by: {c0: perhaps}, odd: 1}\n",
                  i, i);
    add_causes(b, 1);
}

static void add_heard(text_builder *b, char letter, uint32_t count)
{
    text_add(b, STR("heard: ["));
    for (uint32_t i = 0; i < count; i++)
        text_addf(b, "%s%c number %u", i > 0 ? ", " : "", letter, i);
    text_add(b, STR("]"));
}

static void add_answers(text_builder *b, uint32_t heard)
{
    enum { ANSWERS = 10 };
    text_add(b, STR("answers: {"));
    for (uint32_t i = 0; i < ANSWERS; i++) {
        text_addf(b, "%sa%u: {text: 'Answer %u', ", i > 0 ? ", " : "", i, i);
        add_heard(b, (char)('a' + i), heard / ANSWERS);
        text_add(b, STR("}"));
    }
    text_add(b, STR("}}\n"));
}

/* What people say is written once, for a question that is asked of each piece. */
static void heard_at_each_piece(text_builder *b, uint32_t n)
{
    text_add(b, STR(HEAD GATE "  q: {for-each: k, ask: 'How is it?', "));
    add_answers(b, n);
    text_add(
        b, STR("symptoms:\n  s: {for-each: k, text: Low, when: {q: a1}, shown-by: {c0: often}}\n"));
    add_causes(b, 1);
    add_pieces(b, n / 5);
}

/* Of an answer, and of a symptom that rests on another one. */
static void heard_as_another(text_builder *b, uint32_t n)
{
    enum { SYMPTOMS = 5 };
    text_add(b, STR(HEAD GATE "  q: {ask: 'How is it?', "));
    add_answers(b, n);
    text_add(b, STR("symptoms:\n"));
    for (uint32_t i = 0; i < SYMPTOMS; i++) {
        text_addf(b, "  s%u: {text: 'Low %u', when: {q: a%u}, shown-by: {c0: often}, ", i, i, i);
        add_heard(b, (char)('v' + i), n / SYMPTOMS);
        text_add(b, STR("}\n"));
    }
    add_causes(b, 1);
    add_pieces(b, 1);
}

/* Phrases of which no word stands under 'words-for', where all begin as theirs do. */
static void strange_words(text_builder *b, uint32_t n)
{
    enum { LIST = 200, KNOWN = 4000 };
    text_add(b, STR(HEAD GATE));
    for (uint32_t i = 0; i < n / LIST; i++) text_addf(b, "  q%u: {ask: 'Is it %u?'}\n", i, i);
    text_add(b, STR("symptoms:\n"));
    for (uint32_t i = 0; i < n / LIST; i++) {
        text_addf(b, "  s%u: {text: 'Low %u', when: {q%u: yes}, shown-by: {c0: often}, heard: [", i,
                  i, i);
        for (uint32_t k = 0; k < LIST; k++) text_addf(b, "%swww%uw%uw", k > 0 ? ", " : "", i, k);
        text_add(b, STR("]}\n"));
    }
    add_causes(b, 1);
    text_add(b, STR("words-for:\n"));
    for (uint32_t i = 0; i < KNOWN; i++)
        text_addf(b, "  k%u: {en: [wordwordword%uwordwordword]}\n", i, i);
    add_pieces(b, 1);
}

typedef struct made {
    const char *name;
    void (*make)(text_builder *b, uint32_t n);
    bool sound;
    uint32_t part; /* entries */
} made;

static uint64_t work_of(const made *m, uint32_t n)
{
    arena *a = arena_new(NULL, NULL);
    text_builder b = {.keep = a};
    m->make(&b, n);
    const str bytes = text_done(&b);
    const tt_source file = {"made.yaml", bytes.p, bytes.n};
    tt_book *book = NULL;
    tt_report *report = NULL;
    const uint64_t before = work_done();
    const tt_status status = tt_book_load(&file, 1, &book, &report);
    if ((status == TT_OK) != m->sound) fail_msg("%s: %s", m->name, tt_report_text(report));
    if (m->sound)
        assert_int_equal(tt_book_doubts(book, report), TT_OK);
    else
        assert_int_equal(tt_report_doubts(report), TT_OK);
    const uint64_t work = work_done() - before;
    tt_report_free(report);
    tt_book_free(book);
    arena_free(a);
    return work;
}

static void work_grows_with_the_book(void **state)
{
    (void)state;
    static const made all[] = {
        {"a plain book", plain_book, true, PART},
        {"any piece", any_piece, true, PART},
        {"the same rules", same_rules, true, PART},
        {"fixes of one cause", one_cause, true, PART},
        {"errors everywhere", wrong_names, false, PART},
        {"errors in each entry of a section", wrong_everywhere, false, 4 * PART},
        {"conclusions in a row", conclusions_in_a_row, true, PART},
        {"conclusions in a row, each read", conclusions_each_read, true, PART},
        {"facts two by two", pairs_of_facts, true, 6 * PART},
        {"what people say at each piece", heard_at_each_piece, true, PART},
        {"what people say of two answers", heard_as_another, true, PART},
    };
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        const uint32_t n = all[i].part;
        const uint64_t part = work_of(&all[i], n), whole = work_of(&all[i], TIMES * n);
        assert_true(part > n);
        if (whole > MOST_TIMES * part)
            fail_msg("%s: %llu steps, and %llu for %d times as much", all[i].name,
                     (unsigned long long)part, (unsigned long long)whole, TIMES);
    }
}

/* Each phrase is looked for among all that is known; so much of that is looked at, and no more. */
static void patience_with_strange_words_ends(void **state)
{
    (void)state;
    enum { PHRASES = 5000 };
    static const made words = {"strange words", strange_words, true, PHRASES};
    const uint64_t some = work_of(&words, PHRASES), more = work_of(&words, 2 * PHRASES);
    if (more > some + some / 2)
        fail_msg("%llu steps, and %llu for twice as many phrases", (unsigned long long)some,
                 (unsigned long long)more);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(work_grows_with_the_book),
                                       cmocka_unit_test(patience_with_strange_words_ends)};
    return cmocka_run_group_tests_name("check work", tests, NULL, NULL);
}
