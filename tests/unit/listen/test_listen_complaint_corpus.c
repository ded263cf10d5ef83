/* Complaints understood on the corpora, both halves. Lines that came to something else are printed
 * of the half that may be seen. */
#include <stdio.h>

#include "corpus.h"
#include "listen/listen.h"
#include "session/session.h"
#include "shipped_books.h"
#include "test_sources.h"
#include "testing.h"

enum { HALF, LANGUAGE, UTTERANCE, EXPECT };

typedef struct tally {
    uint32_t lines, first, among_three, wrong_lead, danger, danger_missed, danger_false, harmless,
        deaf, overheard;
} tally;

typedef struct bench {
    arena *keep, *scratch;
    tt_book *loaded;
    const listener *l;
    const book *book;
    tally halves[2];
} bench;

static bench bench_for(const char *folder)
{
    bench b = {.keep = test_arena(), .scratch = test_arena()};
    arena *scratch = b.scratch;
    const shipped_book shipped = shipped_named(scratch, folder);
    b.loaded = shipped_load(scratch, &shipped);
    b.book = b.loaded->book;
    b.l = listener_new(b.keep, scratch, b.book);
    return b;
}

static bool is_guess(const bench *b, const complaint_heard *h, uint32_t place, str id)
{
    return place < h->count && str_eq(b->book->symptoms[h->ranked[place].symptom].of.base, id);
}

/* Is the part among the first so many of some complaint heard? */
static bool part_heard(const bench *b, const complaints_heard *c, const dangers *d, str part,
                       uint32_t among)
{
    if (str_is(part, "danger")) return d->list == DANGER_A || d->list == DANGER_B;
    if (str_is(part, "none")) return c->count == 0;
    for (uint32_t i = 0; i < c->count; i++)
        for (uint32_t place = 0; place < among; place++)
            if (is_guess(b, &c->items[i], place, part)) return true;
    return false;
}

static bool alternative_heard(const bench *b, const complaints_heard *c, const dangers *d,
                              str alternative, uint32_t among)
{
    str part;
    uint32_t complaints = 0;
    for (size_t at = 0; corpus_next(alternative, '+', &at, &part);) {
        if (!part_heard(b, c, d, part, among)) return false;
        complaints += !str_is(part, "danger") && !str_is(part, "none");
    }
    return str_is(alternative, "danger") || among > 1 || c->count == complaints;
}

static bool heard_rightly(const bench *b, const complaints_heard *c, const dangers *d, str expect,
                          uint32_t among)
{
    str alternative;
    for (size_t at = 0; corpus_next(expect, '|', &at, &alternative);)
        if (alternative_heard(b, c, d, alternative, among)) return true;
    return false;
}

static void show(const bench *b, const corpus_line *line, const complaints_heard *c,
                 const dangers *d, bool three)
{
    if (!line->seen) return;
    printf("  %s %-28.*s | %.*s |", three ? "3" : " ", STR_ARG(line->fields[EXPECT]),
           STR_ARG(line->fields[UTTERANCE]));
    for (uint32_t i = 0; i < c->count; i++) {
        printf(" [");
        for (uint32_t k = 0; k < 3 && k < c->items[i].count; k++)
            printf("%s%.*s %.2f %.1f", k ? ", " : "",
                   STR_ARG(b->book->symptoms[c->items[i].ranked[k].symptom].of.base),
                   c->items[i].ranked[k].posterior, c->items[i].ranked[k].evidence);
        printf("]");
    }
    for (uint32_t i = 0; i < d->count; i++) printf(" !%.*s", STR_ARG(d->items[i].id));
    printf("\n");
}

static void count_line(bench *b, const corpus_line *line)
{
    str said = line->fields[UTTERANCE], expect = line->fields[EXPECT];
    tally *t = &b->halves[line->seen ? 0 : 1];
    complaints_heard c = listen_complaints(b->l, b->keep, said);
    dangers d = listen_danger(b->l, b->keep, said, LISTEN_PROMPT);
    const bool first = heard_rightly(b, &c, &d, expect, 1),
               three = heard_rightly(b, &c, &d, expect, 3);
    const bool danger = str_find(expect, STR("danger")) != SIZE_MAX,
               heard = d.list == DANGER_A || d.list == DANGER_B;
    t->lines++;
    t->first += first;
    t->among_three += three;
    t->wrong_lead += !three && c.count > 0 && c.items[0].kind == COMPLAINT_CLEAR;
    t->deaf += !three && c.count == 0;
    t->overheard += !three && str_is(expect, "none");
    t->danger += danger;
    const bool missed = danger && !heard && str_find_byte(expect, '|') == SIZE_MAX;
    t->danger_missed += missed;
    if (missed)
        printf("  danger missed: %.*s\n",
               STR_ARG(said)); /* in the untouched half too: none is left as it is */
    t->harmless += !danger;
    t->danger_false += !danger && heard;
    if (!first || (heard && !danger)) show(b, line, &c, &d, three);
}

static void print_half(const char *book, const char *half, const tally *t)
{
    printf("%s, %s: right first %u, among three %u of %u; not understood %u, nothing meant %u, "
           "wrong lead held clear %u; danger missed %u of %u, false alarms %u of %u\n",
           book, half, t->first, t->among_three, t->lines, t->deaf, t->overheard, t->wrong_lead,
           t->danger_missed, t->danger, t->danger_false, t->harmless);
}

static void check_half(const tally *t)
{
    assert_true(100 * t->first >= 75 * t->lines);
    assert_true(100 * t->among_three >= 92 * t->lines);
    assert_true(100 * t->danger_missed <= 2 * t->danger);
    assert_true(100 * t->danger_false <= 10 * t->harmless);
}

static void check_book(const char *folder, const char *file)
{
    bench b = bench_for(folder);
    corpus all = corpus_read(b.keep, file);
    for (uint32_t i = 0; i < all.count; i++) count_line(&b, &all.lines[i]);
    print_half(folder, "seen", &b.halves[0]);
    print_half(folder, "held", &b.halves[1]);
    check_half(&b.halves[0]);
    check_half(&b.halves[1]);
    arena_free(b.keep);
    arena_free(b.scratch);
    tt_book_free(b.loaded);
}

static void foam(void **state)
{
    (void)state;
    check_book("foam-line", "foam-complaints.tsv");
}

static void dosing(void **state)
{
    (void)state;
    check_book("dosing-and-pumping", "dosing-complaints.tsv");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(foam), cmocka_unit_test(dosing)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
