/* The bench as a page, for a browser beside the editor: it is written anew with each save. */
#include <string.h>

#include "face/bench_face.h"
#include "host/memory.h"
#include "show/figures.h"

typedef struct bench_page {
    const paper *p;
    arena *keep;
    const bench_told *told;
} bench_page;

static const char *number(const bench_page *x, uint32_t count)
{
    return count_words(x->keep, count);
}

static void put_head(const bench_page *x, const char *folder)
{
    const book_look *now = x->told->now;
    x->p->kind->facts_begin(x->p);
    x->p->kind->fact(x->p, catalogue_text(TO_AUTHORS, BENCH_FOLDER), our_text(folder));
    x->p->kind->fact(x->p, catalogue_text(TO_AUTHORS, BENCH_SAVES),
                     our_text(number(x, x->told->saves)));
    x->p->kind->fact(x->p, catalogue_text(TO_AUTHORS, BENCH_ERRORS),
                     our_text(number(x, tt_report_errors(now->report))));
    x->p->kind->fact(x->p, catalogue_text(TO_AUTHORS, BENCH_WARNINGS),
                     our_text(number(x, tt_report_warnings(now->report))));
    if (now->loads)
        x->p->kind->fact(x->p, catalogue_text(TO_AUTHORS, BENCH_CASES_OF),
                         our_text(FILL(x->keep, TO_AUTHORS, BENCH_SO_MANY_OF,
                                       number(x, now->passed), number(x, now->count))));
    x->p->kind->facts_end(x->p);
}

static void put_faults(const bench_page *x)
{
    const tt_report *report = x->told->now->report;
    x->p->kind->heading(x->p, catalogue_text(TO_AUTHORS, BENCH_CHECK));
    for (uint32_t i = 0; i < tt_report_count(report); i++) {
        const tt_fault f = tt_report_fault(report, i);
        const char *place =
            *f.file != 0 ? arena_text(x->keep, "%s:%u:%u:", f.file, f.line, f.column) : "";
        const char *lead = FILL(x->keep, TO_AUTHORS, BENCH_FAULT_LEAD, place, f.severity, f.code);
        const char *text = arena_text(x->keep, "%s%s%s", f.text, *f.help != 0 ? " " : "", f.help);
        x->p->kind->boxed(x->p, strcmp(f.severity, "error") == 0, lead, our_text(text));
    }
    if (tt_report_count(report) == 0)
        x->p->kind->paragraph(x->p, our_words(TO_AUTHORS, BENCH_NO_FAULTS));
    if (!x->told->now->loads) x->p->kind->paragraph(x->p, our_words(TO_AUTHORS, BENCH_NOT_PLAYED));
}

static const char *verdict(const case_look *c)
{
    return *c->why == 0 ? catalogue_text(TO_AUTHORS, BENCH_AS_EXPECTED) : c->why;
}

static void add_move(const bench_page *x, text_table *table, const case_move *m)
{
    const case_look *old = m->before, *new = m->now;
    table_add(table,
              (piece_of_text[]){
                  our_text(new != NULL ? new->name : old->name),
                  rule_text(old != NULL ? old->leads : ""),
                  figure(old != NULL ? percent_words(x->keep, TO_AUTHORS, old->chance) : ""),
                  rule_text(new != NULL ? new->leads : ""),
                  figure(new != NULL ? percent_words(x->keep, TO_AUTHORS, new->chance) : ""),
                  new != NULL ? our_text(verdict(new)) : our_words(TO_AUTHORS, BENCH_NO_LONGER)});
}

static void put_moves(const bench_page *x)
{
    static const text_id columns[] = {BENCH_CASE,  BENCH_LED,      BENCH_WITH,
                                      BENCH_LEADS, BENCH_WITH_NOW, BENCH_VERDICT};
    text_table table = table_of(x->keep, TO_AUTHORS, columns, 6);
    uint32_t count;
    if (x->told->before == NULL || !x->told->now->loads) return;
    const case_move *all = book_moves(x->keep, x->told->before, x->told->now, &count);
    x->p->kind->heading(x->p, catalogue_text(TO_AUTHORS, BENCH_MOVED_HEADING));
    if (count == 0) x->p->kind->paragraph(x->p, our_words(TO_AUTHORS, BENCH_NOTHING_MOVED));
    for (uint32_t i = 0; i < count; i++) add_move(x, &table, &all[i]);
    table_put(&table, x->p, catalogue_text(TO_AUTHORS, BENCH_MOVED_CAPTION));
}

/* Those that did not come out as expected first. */
static void put_cases(const bench_page *x)
{
    static const text_id columns[] = {BENCH_CASE, BENCH_LEADS, BENCH_WITH_NOW, BENCH_VERDICT,
                                      BENCH_PLACE};
    text_table table = table_of(x->keep, TO_AUTHORS, columns, 5);
    const book_look *now = x->told->now;
    for (int passed = 0; passed < 2; passed++)
        for (uint32_t i = 0; i < now->count; i++) {
            const case_look *c = &now->cases[i];
            if ((*c->why == 0) != (passed == 1)) continue;
            table_add(&table,
                      (piece_of_text[]){our_text(c->name), rule_text(c->leads),
                                        figure(percent_words(x->keep, TO_AUTHORS, c->chance)),
                                        our_text(verdict(c)), figure(c->at)});
        }
    if (now->count > 0) x->p->kind->heading(x->p, catalogue_text(TO_AUTHORS, BENCH_CASES_HEADING));
    table_put(&table, x->p, catalogue_text(TO_AUTHORS, BENCH_CASES_CAPTION));
}

void bench_on_paper(FILE *out, const paper_kind *kind, arena *keep, const char *folder,
                    const bench_told *told)
{
    const char *title = told->now->loads ? told->now->info.title : folder;
    const char *language = told->now->loads ? told->now->info.language : "";
    const paper p = {.kind = kind, .out = out, .language = paper_language(TO_AUTHORS, language)};
    const bench_page x = {&p, keep, told};
    kind->begin(&p, FILL(keep, TO_AUTHORS, BENCH_TITLE, title));
    put_head(&x, folder);
    put_faults(&x);
    put_moves(&x);
    put_cases(&x);
    kind->end(&p);
}
