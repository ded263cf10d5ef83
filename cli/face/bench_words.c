/* The bench in lines: only what is new, so that nothing has to be searched for. */
#include <string.h>

#include "books/read_book.h"
#include "face/bench_face.h"
#include "face/speaker.h"
#include "show/figures.h"

enum { MOVES_SHOWN = 12, FAILED_SHOWN = 12 };

void bench_say_check(FILE *out, const bench_told *told)
{
    const screen s = screen_on(out);
    const speaker by = {&s, host_arena(), TO_AUTHORS};
    const tt_report *report = told->now->report;
    if (told->saves > 0) say_nothing(&s);
    if (told->saves > 0) SPEAK(&by, "", BENCH_SAVE, whole(&by, told->saves));
    show_report(out, report);
    if (tt_report_errors(report) == 0 && tt_report_warnings(report) == 0)
        speak(&by, "", BENCH_NO_FAULTS);
    if (!told->now->loads) speak(&by, "", BENCH_NOT_PLAYED);
    fflush(out);
    arena_free(by.keep);
}

static void say_failed(const speaker *by, const book_look *now)
{
    uint32_t shown = 0;
    for (uint32_t i = 0; i < now->count && shown < FAILED_SHOWN; i++) {
        const case_look *c = &now->cases[i];
        if (*c->why == 0) continue;
        SPEAK(by, "  ", BENCH_FAILED, c->name, c->at, c->why);
        shown++;
    }
    if (now->count - now->passed > shown)
        SPEAK(by, "  ", BENCH_MORE, whole(by, now->count - now->passed - shown));
}

static const char *verdict(const case_look *c)
{
    return catalogue_text(TO_AUTHORS, *c->why == 0 ? BENCH_AS_EXPECTED : BENCH_NOT_AS_EXPECTED);
}

static void say_move(const speaker *by, const case_move *m)
{
    if (m->before == NULL) {
        SPEAK(by, "  ", BENCH_NEW_CASE, m->now->name, m->now->leads,
              percent_words(by->keep, TO_AUTHORS, m->now->chance), verdict(m->now));
        return;
    }
    if (m->now == NULL) {
        SPEAK(by, "  ", BENCH_GONE_CASE, m->before->name);
        return;
    }
    const char *was = percent_words(by->keep, TO_AUTHORS, m->before->chance),
               *is = percent_words(by->keep, TO_AUTHORS, m->now->chance);
    const bool other = strcmp(m->before->leads, m->now->leads) != 0;
    if (other)
        SPEAK(by, "  ", BENCH_OTHER_LEADS, m->now->name, m->before->leads, was, m->now->leads, is);
    else
        SPEAK(by, "  ", BENCH_CHANCE, m->now->name, m->now->leads, was, is);
    if ((*m->before->why == 0) != (*m->now->why == 0))
        SPEAK(by, "    ", BENCH_NOW, verdict(m->now));
}

static void say_moves(const speaker *by, const bench_told *told)
{
    uint32_t count;
    const case_move *all = book_moves(by->keep, told->before, told->now, &count);
    speak(by, "", count == 0 ? BENCH_NOTHING_MOVED : BENCH_MOVED);
    for (uint32_t i = 0; i < count && i < MOVES_SHOWN; i++) say_move(by, &all[i]);
    if (count > MOVES_SHOWN) SPEAK(by, "  ", BENCH_MORE, whole(by, count - MOVES_SHOWN));
}

void bench_say_cases(FILE *out, const bench_told *told)
{
    const screen s = screen_on(out);
    const speaker by = {&s, host_arena(), TO_AUTHORS};
    if (told->now->loads) {
        SPEAK(&by, "", BENCH_CASES, whole(&by, told->now->passed), whole(&by, told->now->count));
        say_failed(&by, told->now);
        if (told->before != NULL) say_moves(&by, told);
    }
    speak(&by, "", BENCH_WAITS);
    fflush(out);
    arena_free(by.keep);
}
