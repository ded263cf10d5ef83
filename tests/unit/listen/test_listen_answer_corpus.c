/* Answers understood on the corpus, both halves. Lines that came to something else are printed of
 * the half that may be seen. */
#include <math.h>
#include <stdio.h>

#include "corpus.h"
#include "listen/listen.h"
#include "session/session.h"
#include "shipped_books.h"
#include "test_sources.h"
#include "testing.h"

enum { HALF, LANGUAGE, QUESTION, UTTERANCE, EXPECT };

typedef struct bench {
    arena *keep;
    const listener *l;
    const book *book;
    uint32_t lines[2], right[2];
} bench;

typedef struct heard_line {
    uint32_t asked;
    listen_parts parts;
    dangers danger;
} heard_line;

static uint32_t question_of(const bench *b, str base)
{
    for (uint32_t i = 0; i < b->book->question_count; i++)
        if (str_eq(b->book->questions[i].of.base, base)) return i;
    return NO_ID;
}

static const listen_part *part_of(const bench *b, const heard_line *h, uint32_t question)
{
    for (uint32_t i = 0; i < h->parts.count; i++) {
        const listen_part *p = &h->parts.items[i];
        if (p->kind == LISTEN_ANSWER &&
            str_eq(b->book->questions[p->question].of.base, b->book->questions[question].of.base))
            return p;
    }
    return NULL;
}

static bool same_amount(const bench *b, uint32_t question, str typed, str wanted)
{
    double got = NAN, want = NAN;
    amount as;
    str bad;
    const unit *in = &b->book->questions[question].in;
    amount_found found = amount_read(b->keep, typed, in, &got, &as, &bad);
    if (found != AMOUNT_FOUND && found != AMOUNT_NO_UNIT) return false;
    found = amount_read(b->keep, wanted, in, &want, &as, &bad);
    return fabs(got - want) <= 1e-6 * (1 + fabs(want));
}

static bool is_answer(const bench *b, const listen_part *p, str id)
{
    if (p == NULL || p->answer.kind != ANSWER_ONE) return false;
    const question *q = &b->book->questions[p->question];
    for (uint32_t i = 0; i < q->answer_count; i++)
        if (str_eq(q->answers[i].id.name, id)) return p->answer.answers == (uint64_t)1 << i;
    return false;
}

/* Kept without asking back? */
static bool is_kept(const bench *b, const listen_part *p)
{
    double number;
    amount as;
    str bad;
    if (p == NULL) return false;
    const question *q = &b->book->questions[p->question];
    switch (p->answer.kind) {
    case ANSWER_ONE:
    case ANSWER_NOT:
    case ANSWER_UNSURE:
    case ANSWER_CANNOT:
        return true;
    case ANSWER_READING:
        return amount_read(b->keep, p->answer.typed, &q->in, &number, &as, &bad) !=
                   AMOUNT_UNCLEAR &&
               is_plausible(q, number);
    case ANSWER_NONE:
    case ANSWER_SEVERAL:
    case ANSWER_VAGUE:
    case ANSWER_OTHER_UNIT:
        return false;
    }
    return false;
}

static bool any_part(const heard_line *h, listen_kind kind)
{
    for (uint32_t i = 0; i < h->parts.count; i++)
        if (h->parts.items[i].kind == kind) return true;
    return false;
}

static bool is_asked_back(const bench *b, const heard_line *h)
{
    return any_part(h, LISTEN_WHICH) || (h->asked != NO_ID && !is_kept(b, part_of(b, h, h->asked)));
}

static bool other_heard(const bench *b, const heard_line *h, str rest)
{
    const size_t equal = str_find_byte(rest, '=');
    const uint32_t question = question_of(b, str_slice(rest, 0, equal));
    str value = str_slice(rest, equal + 1, rest.n);
    assert_int_not_equal(question, NO_ID);
    const listen_part *p = part_of(b, h, question);
    if (p == NULL) return false;
    return p->answer.kind == ANSWER_READING ? same_amount(b, question, p->answer.typed, value)
                                            : is_answer(b, p, value);
}

static bool complaint_heard_as(const bench *b, const heard_line *h, str id)
{
    for (uint32_t i = 0; i < h->parts.count; i++)
        if (h->parts.items[i].kind == LISTEN_COMPLAINT &&
            str_eq(b->book->symptoms[h->parts.items[i].complaint->ranked[0].symptom].of.base, id))
            return true;
    return false;
}

static bool part_right(const bench *b, const heard_line *h, str part)
{
    const size_t colon = str_find_byte(part, ':');
    str what = str_slice(part, 0, colon == SIZE_MAX ? part.n : colon),
        rest = colon == SIZE_MAX ? STR("") : str_slice(part, colon + 1, part.n);
    const listen_part *own = h->asked == NO_ID ? NULL : part_of(b, h, h->asked);
    if (str_is(what, "answer")) return is_answer(b, own, rest);
    if (str_is(what, "number"))
        return own != NULL && own->answer.kind == ANSWER_READING &&
               same_amount(b, h->asked, own->answer.typed, rest);
    if (str_is(what, "unsure")) return own != NULL && own->answer.kind == ANSWER_UNSURE;
    if (str_is(what, "cannot")) return own != NULL && own->answer.kind == ANSWER_CANNOT;
    if (str_is(what, "not")) return !is_answer(b, own, rest);
    if (str_is(what, "ask")) return is_asked_back(b, h);
    if (str_is(what, "other")) return other_heard(b, h, rest);
    if (str_is(what, "complaint")) return complaint_heard_as(b, h, rest);
    if (str_is(what, "note")) return any_part(h, LISTEN_UNUSED);
    if (str_is(what, "danger")) return h->danger.list == DANGER_A || h->danger.list == DANGER_B;
    fail_msg("what is %.*s?", STR_ARG(what));
    return false;
}

static bool line_right(const bench *b, const heard_line *h, str expect)
{
    str alternative, part;
    for (size_t at = 0; corpus_next(expect, '|', &at, &alternative);) {
        bool all = true;
        for (size_t in = 0; corpus_next(alternative, '+', &in, &part);)
            all = all && part_right(b, h, part);
        if (all) return true;
    }
    return false;
}

static void show(const bench *b, const corpus_line *line, const heard_line *h)
{
    static const char *const kinds[] = {"-",      "one",     "several", "not",       "unsure",
                                        "cannot", "reading", "vague",   "other unit"};
    if (!line->seen) return;
    printf("  %-16.*s %-34.*s | %.*s |", STR_ARG(line->fields[QUESTION]),
           STR_ARG(line->fields[EXPECT]), STR_ARG(line->fields[UTTERANCE]));
    for (uint32_t i = 0; i < h->parts.count; i++) {
        const listen_part *p = &h->parts.items[i];
        if (p->kind == LISTEN_UNUSED) printf(" [note %.*s]", STR_ARG(p->words));
        if (p->kind == LISTEN_COMPLAINT)
            printf(" [complaint %.*s]",
                   STR_ARG(b->book->symptoms[p->complaint->ranked[0].symptom].of.base));
        if (p->kind == LISTEN_WHICH) printf(" [which of %u]", p->question_count);
        if (p->kind != LISTEN_ANSWER) continue;
        const question *q = &b->book->questions[p->question];
        printf(" [%.*s %s %.*s", STR_ARG(q->of.base), kinds[p->answer.kind],
               STR_ARG(p->answer.typed));
        for (uint32_t k = 0; k < q->answer_count; k++)
            if (p->answer.answers >> k & 1) printf(" %.*s", STR_ARG(q->answers[k].id.name));
        printf("]");
    }
    printf("\n");
}

static void count_line(bench *b, const corpus_line *line)
{
    str said = line->fields[UTTERANCE];
    heard_line h = {.asked = str_is(line->fields[QUESTION], "complaint")
                                 ? NO_ID
                                 : question_of(b, line->fields[QUESTION])};
    if (!str_is(line->fields[QUESTION], "complaint")) assert_int_not_equal(h.asked, NO_ID);
    h.parts = listen_all(b->l, b->keep, h.asked, NULL, said);
    h.danger = listen_danger(b->l, b->keep, said, LISTEN_PROMPT);
    const bool right = line_right(b, &h, line->fields[EXPECT]);
    b->lines[line->seen ? 0 : 1]++;
    b->right[line->seen ? 0 : 1] += right;
    if (!right) show(b, line, &h);
}

typedef struct loaded_bench {
    bench b;
    arena *scratch;
    tt_book *loaded;
} loaded_bench;

static loaded_bench bench_new(void)
{
    loaded_bench l = {.b = {.keep = test_arena()}, .scratch = test_arena()};
    const shipped_book foam_line = shipped_named(l.scratch, "foam-line");
    l.loaded = shipped_load(l.scratch, &foam_line);
    l.b.book = l.loaded->book;
    l.b.l = listener_new(l.b.keep, l.scratch, l.b.book);
    return l;
}

static void bench_free(loaded_bench *l)
{
    arena_free(l->b.keep);
    arena_free(l->scratch);
    tt_book_free(l->loaded);
}

static void answers_are_understood(void **state)
{
    (void)state;
    loaded_bench l = bench_new();
    corpus lines = corpus_read(l.b.keep, "answers.tsv");
    for (uint32_t i = 0; i < lines.count; i++) count_line(&l.b, &lines.lines[i]);
    for (int half = 0; half < 2; half++)
        printf("%s: answers right %u of %u\n", half == 0 ? "seen" : "held", l.b.right[half],
               l.b.lines[half]);
    for (int half = 0; half < 2; half++) assert_true(100 * l.b.right[half] >= 80 * l.b.lines[half]);
    bench_free(&l);
}

/* Choices that nobody asked, and that were taken as answered. */
static uint32_t taken_unasked(const bench *b, str said)
{
    const listen_parts parts = listen_all(b->l, b->keep, NO_ID, NULL, said);
    uint32_t count = 0;
    for (uint32_t i = 0; i < parts.count; i++)
        count += parts.items[i].kind == LISTEN_ANSWER &&
                 b->book->questions[parts.items[i].question].kind == QUESTION_CHOICE;
    return count;
}

/* An answer that was never given is evidence for what isn't there. Words that only name a question,
 * or of which most are about something else, give none. */
static void nothing_is_answered_that_was_not_said(void **state)
{
    static const char *const sayings[] = {"very little foam comes out",
                                          "sale poca espuma",
                                          "casi no sale espuma",
                                          "pile of foam under the arch and no cars",
                                          "arch stays dry when a car goes under",
                                          "the pump hose in the drum is full of slime",
                                          "el agua llega con poca presion"};
    (void)state;
    loaded_bench l = bench_new();
    uint32_t taken = 0;
    for (size_t i = 0; i < sizeof sayings / sizeof *sayings; i++)
        if (taken_unasked(&l.b, str_of(sayings[i])) > 0)
            fail_msg("'%s' was taken for an answer", sayings[i]);
    assert_int_equal(taken_unasked(&l.b, STR("somebody played with the regulator")), 1);
    assert_int_equal(taken_unasked(&l.b, STR("el tanque de mezcla esta bajo")), 1);
    const corpus lines = corpus_read(l.b.keep, "foam-complaints.tsv");
    for (uint32_t i = 0; i < lines.count; i++)
        taken += taken_unasked(&l.b, lines.lines[i].fields[2]);
    printf("answers taken from %u complaints: %u\n", lines.count, taken);
    assert_in_range(taken, 1, lines.count * 4 / 100);
    bench_free(&l);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(answers_are_understood),
                                       cmocka_unit_test(nothing_is_answered_that_was_not_said)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
