/* Danger heard and false alarms on the corpus, both halves. Lines that were not heard as they
 * should be are printed of the half that may be seen. */
#include <stdio.h>

#include "corpus.h"
#include "listen/listen.h"
#include "session/session.h"
#include "shipped_books.h"
#include "test_sources.h"
#include "testing.h"

enum { HALF, LANGUAGE, PLACE, UTTERANCE, EXPECT };

typedef struct tally { /* of one half */
    uint32_t grave, grave_missed, lesser, lesser_missed, harmless, grave_false, lesser_false, gates,
        opened, kept_shut;
} tally;

typedef struct bench {
    arena *keep;
    const listener *l;
    uint32_t gate;
    tally halves[2];
} bench;

static const listener *listener_of(arena *keep, const char *folder, tt_book **loaded)
{
    const shipped_book shipped = shipped_named(keep, folder);
    arena *scratch = test_arena();
    *loaded = shipped_load(keep, &shipped);
    const listener *l = listener_new(keep, scratch, (*loaded)->book);
    arena_free(scratch);
    return l;
}

static void show(const corpus_line *line, const char *got, const dangers *d)
{
    printf("  %-10.*s %-10.*s got %-6s %.*s", STR_ARG(line->fields[PLACE]),
           STR_ARG(line->fields[EXPECT]), got, STR_ARG(line->fields[UTTERANCE]));
    for (uint32_t i = 0; i < d->count; i++)
        printf("  [%.*s: %.*s]", STR_ARG(d->items[i].id), STR_ARG(d->items[i].words));
    printf("\n");
}

static const char *list_name(danger_list list)
{
    static const char *const names[] = {"none", "help", "B", "A"};
    return names[list];
}

/* The untouched half stays unread, but for a grave danger that was missed: none of them is left to
 * be mended later. */
static void count_line(bench *b, const corpus_line *line)
{
    str place = line->fields[PLACE], expect = line->fields[EXPECT], said = line->fields[UTTERANCE];
    tally *t = &b->halves[line->seen ? 0 : 1];
    const bool note = str_is(place, "note") || str_is(place, "name"),
               gate = str_is(place, "danger");
    dangers d = listen_danger(b->l, b->keep, said, note ? LISTEN_NOTE : LISTEN_PROMPT);
    const bool may_none = corpus_allows(expect, "none") || corpus_allows(expect, "safe"),
               a = corpus_allows(expect, "A"), bb = corpus_allows(expect, "B");
    const bool heard = d.list == DANGER_A || d.list == DANGER_B;
    if (gate) {
        gate_heard g = listen_gate(b->l, b->keep, b->gate, said);
        const bool opens = g.kind == GATE_SAFE;
        t->gates++;
        t->opened += opens && !corpus_allows(expect, "safe");
        t->kept_shut += !opens && str_is(expect, "safe");
        const bool wrong = opens ? !corpus_allows(expect, "safe") : str_is(expect, "safe");
        if (wrong && (line->seen || opens)) show(line, opens ? "SAFE" : "shut", &d);
        if (str_is(expect, "A|B")) return;
    }
    if ((a || bb) && !may_none) {
        if (a && !bb) {
            t->grave++;
            t->grave_missed += d.list != DANGER_A;
            if (d.list != DANGER_A) show(line, list_name(d.list), &d);
        } else {
            t->lesser++;
            t->lesser_missed += !heard;
            if (!heard && line->seen) show(line, list_name(d.list), &d);
        }
    } else if (may_none && !a && !bb && !gate) {
        t->harmless++;
        t->grave_false += d.list == DANGER_A;
        t->lesser_false += d.list == DANGER_B;
        if (heard && line->seen) show(line, list_name(d.list), &d);
    } else if (line->seen && str_is(expect, "help") && d.list != DANGER_HELP) {
        show(line, list_name(d.list), &d);
    }
}

static void print_half(const char *name, const tally *t)
{
    printf("%s: A missed %u of %u, B missed %u of %u, false alarms A %u, B %u of %u, gate opened "
           "wrongly %u, kept shut wrongly %u of %u\n",
           name, t->grave_missed, t->grave, t->lesser_missed, t->lesser, t->grave_false,
           t->lesser_false, t->harmless, t->opened, t->kept_shut, t->gates);
}

static void check_half(const tally *t)
{
    assert_int_equal(t->grave_missed, 0);
    assert_int_equal(t->opened, 0);
    assert_true(100 * t->lesser_missed <= 2 * t->lesser);
    assert_true(100 * t->grave_false <= 1 * t->harmless);
    assert_true(100 * t->lesser_false <= 10 * t->harmless);
}

static void danger_is_heard(void **state)
{
    (void)state;
    bench b = {.keep = test_arena()};
    tt_book *foam = NULL;
    b.l = listener_of(b.keep, "foam-line", &foam);
    b.gate = book_question(foam->book, STR("danger"));
    corpus all = corpus_read(b.keep, "danger.tsv");
    for (uint32_t i = 0; i < all.count; i++) count_line(&b, &all.lines[i]);
    print_half("seen", &b.halves[0]);
    print_half("held", &b.halves[1]);
    check_half(&b.halves[0]);
    check_half(&b.halves[1]);
    arena_free(b.keep);
    tt_book_free(foam);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(danger_is_heard)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
