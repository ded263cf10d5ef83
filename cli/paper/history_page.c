/* A site over time, from the top: how it stands, faults, what came back; then what it is seen by:
 * readings, what is worked out from them, days without a round. */
#include "paper/history_page.h"

#include <math.h>
#include <string.h>

#include "host/memory.h"
#include "show/case_fields.h"

enum { EACH_MOST = 24 }; /* readings that are told one by one */

typedef struct history_page {
    const paper *p;
    arena *keep;
    const tt_site_story *story;
} history_page;

static const char *whole(const history_page *x, uint32_t number)
{
    return arena_text(x->keep, "%u", number);
}

static piece_of_text day(const history_page *x, const char *time)
{
    return figure(arena_text(x->keep, "%.10s", time));
}

static void say(const history_page *x, const char *text)
{
    x->p->kind->paragraph(x->p, our_text(text));
}

static void put_head(const history_page *x, const opened_book *book)
{
    const tt_site_story *s = x->story;
    const struct {
        text_id name;
        piece_of_text value;
    } facts[] = {
        {SHEET_SITE, rule_text(s->site)},
        {SHEET_BOOK, rule_text(s->book)},
        {SHEET_EDITION, our_text(tt_book_describe(book->book).edition)},
        {SHEET_REVISION, our_text(book->revision)},
        {SHEET_WRITTEN_BY, our_text(FILL(x->keep, x->p->in, SHEET_PROGRAM, TELLTALE_VERSION))}};
    uint32_t faults = 0, records = 0;
    for (uint32_t i = 0; i < s->case_count; i++) {
        faults += s->cases[i].says.kind == TT_KIND_FAULT;
        records += s->cases[i].says.kind == TT_KIND_RECORD;
    }
    x->p->kind->facts_begin(x->p);
    for (size_t i = 0; i < sizeof facts / sizeof facts[0]; i++)
        if (*facts[i].value.text != 0)
            x->p->kind->fact(x->p, catalogue_text(x->p->in, facts[i].name), facts[i].value);
    x->p->kind->facts_end(x->p);
    if (s->case_count == 0) {
        say(x, catalogue_text(x->p->in, HISTORY_NOTHING));
        return;
    }
    say(x, FILL(x->keep, x->p->in, HISTORY_SPAN, s->from, s->to));
    say(x, FILL(x->keep, x->p->in, HISTORY_COUNTS, whole(x, faults), whole(x, s->rounds),
                whole(x, s->days_without), whole(x, records)));
}

/* ---- what was last read ---- */

/* "That is beyond its good value. It has crept up, about 2 psi a week." */
static const char *movement(const history_page *x, const tt_series *s)
{
    const tongue in = x->p->in;
    const char *beyond = s->beyond ? catalogue_text(in, HISTORY_BEYOND) : "", *moved = "";
    if (s->trend_known && s->trend == TT_RISING) moved = FILL(x->keep, in, HISTORY_UP, s->per_week);
    if (s->trend_known && s->trend == TT_FALLING)
        moved = FILL(x->keep, in, HISTORY_DOWN, s->per_week);
    if (s->trend_known && s->trend == TT_JUMP)
        moved = FILL(x->keep, in, HISTORY_JUMPED, s->jumped_after, s->jumped_before);
    if (s->trend_known && s->trend == TT_STEADY) moved = catalogue_text(in, HISTORY_STEADY);
    return *beyond != 0 && *moved != 0 ? arena_text(x->keep, "%s %s", beyond, moved)
                                       : arena_text(x->keep, "%s%s", beyond, moved);
}

static void put_now(const history_page *x)
{
    static const text_id columns[] = {HISTORY_READING_HEAD, HISTORY_LAST, HISTORY_DAY,
                                      HISTORY_GOOD_HEAD, HISTORY_MOVED_HEAD};
    text_table table = table_of(x->keep, x->p->in, columns, 5);
    for (uint32_t i = 0; i < x->story->series_count; i++) {
        const tt_series *s = &x->story->series[i];
        if (s->point_count == 0) continue;
        const tt_point *last = &s->points[s->point_count - 1];
        table_add(&table,
                  (piece_of_text[]){rule_text(s->text), figure(last->words), day(x, last->time),
                                    figure(s->good_words), our_text(movement(x, s))});
    }
    if (table.row_count == 0) return;
    x->p->kind->heading(x->p, catalogue_text(x->p->in, HISTORY_NOW));
    table_put(&table, x->p, catalogue_text(x->p->in, HISTORY_NOW));
}

/* ---- readings ---- */

static void put_good(const history_page *x, const tt_series *s)
{
    if (!s->may_have_good) return;
    if (!s->has_good)
        say(x, catalogue_text(x->p->in, HISTORY_NO_GOOD));
    else if (*s->good_day != 0)
        say(x, FILL(x->keep, x->p->in, HISTORY_GOOD_ON, s->good_words, s->good_day));
    else
        say(x, FILL(x->keep, x->p->in, HISTORY_GOOD, s->good_words));
}

/* "296 readings, from 29 psi to 45 psi. The last: 30 psi on 2026-11-28." */
static const char *range(const history_page *x, const tt_series *s)
{
    const tongue in = x->p->in;
    const tt_point *low = &s->points[0], *high = low, *last = &s->points[s->point_count - 1];
    const char *on = arena_text(x->keep, "%.10s", last->time);
    for (uint32_t i = 0; i < s->point_count; i++) {
        if (s->points[i].number < low->number) low = &s->points[i];
        if (s->points[i].number > high->number) high = &s->points[i];
    }
    if (s->point_count == 1)
        return FILL(x->keep, in, s->reckoned ? HISTORY_ONE_VALUE : HISTORY_ONE, last->words, on);
    return FILL(x->keep, in, s->reckoned ? HISTORY_VALUES : HISTORY_RANGE, whole(x, s->point_count),
                low->words, high->words, last->words, on);
}

static void put_missing(const history_page *x, const tt_series *s)
{
    if (!s->reckoned) {
        say(x, catalogue_text(x->p->in, HISTORY_NEVER_READ));
        return;
    }
    if (*s->why != 0) {
        say(x, FILL(x->keep, x->p->in, HISTORY_NO_VALUE, s->why));
        return;
    }
    say(x, catalogue_text(x->p->in, HISTORY_NOT_KNOWN));
    x->p->kind->list_begin(x->p, false);
    for (uint32_t i = 0; i < s->missing_count; i++)
        x->p->kind->item(x->p, 0, rule_text(s->missing[i].ask));
    x->p->kind->list_end(x->p, false);
}

static void put_each(const history_page *x, const tt_series *s)
{
    static const text_id columns[] = {HISTORY_DAY, HISTORY_VALUE, HISTORY_CASE_HEAD};
    text_table table = table_of(x->keep, x->p->in, columns, 3);
    for (uint32_t i = 0; i < s->point_count; i++)
        table_add(&table, (piece_of_text[]){day(x, s->points[i].time), figure(s->points[i].words),
                                            figure(s->points[i].of)});
    table_put(&table, x->p, catalogue_text(x->p->in, HISTORY_TABLE));
}

/* From `first` on, those of one month. */
static uint32_t add_month(const history_page *x, const tt_series *s, uint32_t first,
                          text_table *table)
{
    const tt_point *low = &s->points[first], *high = low;
    uint32_t i = first, beyond = 0;
    for (; i < s->point_count && strncmp(s->points[i].time, s->points[first].time, 7) == 0; i++) {
        if (s->points[i].number < low->number) low = &s->points[i];
        if (s->points[i].number > high->number) high = &s->points[i];
        beyond += s->points[i].beyond;
    }
    table_add(table, (piece_of_text[]){figure(arena_text(x->keep, "%.7s", s->points[first].time)),
                                       figure(whole(x, i - first)), figure(low->words),
                                       figure(high->words), figure(s->points[i - 1].words),
                                       figure(beyond > 0 ? whole(x, beyond) : "")});
    return i;
}

static void put_months(const history_page *x, const tt_series *s)
{
    static const text_id columns[] = {HISTORY_MONTH,   HISTORY_COUNT_HEAD, HISTORY_LOWEST,
                                      HISTORY_HIGHEST, HISTORY_LAST,       HISTORY_BEYOND_HEAD};
    text_table table = table_of(x->keep, x->p->in, columns, 6);
    for (uint32_t i = 0; i < s->point_count;) i = add_month(x, s, i, &table);
    table_put(&table, x->p, catalogue_text(x->p->in, HISTORY_BY_MONTH));
}

/* A year of days would fill sheets. */
static void put_values(const history_page *x, const tt_series *s)
{
    if (s->point_count > EACH_MOST)
        put_months(x, s);
    else
        put_each(x, s);
}

static void put_marks(const history_page *x, const tt_series *s)
{
    static const text_id columns[] = {HISTORY_NUMBER_HEAD, HISTORY_DAY, HISTORY_WHAT, HISTORY_WHO,
                                      HISTORY_CASE_HEAD};
    text_table table = table_of(x->keep, x->p->in, columns, 5);
    for (uint32_t i = 0; i < s->mark_count; i++) {
        const tt_mark *m = &s->marks[i];
        const char *what =
            m->kind == TT_MARK_SET ? FILL(x->keep, x->p->in, HISTORY_RECORDED, m->text) : m->text;
        table_add(&table, (piece_of_text[]){figure(whole(x, i + 1)), day(x, m->time),
                                            rule_text(what), our_text(m->who), figure(m->number)});
    }
    table_put(&table, x->p, catalogue_text(x->p->in, HISTORY_MARKS));
}

static void put_series(const history_page *x, const tt_series *s)
{
    x->p->kind->subheading(x->p, rule_text(s->text));
    put_good(x, s);
    if (s->point_count == 0) {
        put_missing(x, s);
        return;
    }
    const char *moved = movement(x, s), *told = range(x, s);
    say(x, *moved != 0 ? arena_text(x->keep, "%s %s", told, moved) : told);
    const drawing d = draw_series(x->keep, x->story, s);
    x->p->kind->picture(x->p, FILL(x->keep, x->p->in, HISTORY_PICTURE, s->text, told), &d);
    put_marks(x, s);
    put_values(x, s);
}

static void put_all_series(const history_page *x, bool reckoned, text_id title)
{
    bool any = false;
    for (uint32_t i = 0; i < x->story->series_count; i++) {
        if (x->story->series[i].reckoned != reckoned) continue;
        if (!any) x->p->kind->heading(x->p, catalogue_text(x->p->in, title));
        if (!any && !reckoned) say(x, catalogue_text(x->p->in, HISTORY_PICTURE_WHAT));
        any = true;
        put_series(x, &x->story->series[i]);
    }
}

/* ---- faults ---- */

static void put_faults(const history_page *x)
{
    static const text_id columns[] = {HISTORY_DAY,      HISTORY_CASE_HEAD, HISTORY_TROUBLE,
                                      HISTORY_HOW_HEAD, HISTORY_CAUSE,     HISTORY_HELPED_HEAD,
                                      HISTORY_BACK_HEAD};
    text_table table = table_of(x->keep, x->p->in, columns, 7);
    x->p->kind->heading(x->p, catalogue_text(x->p->in, HISTORY_FAULTS));
    for (uint32_t i = 0; i < x->story->case_count; i++) {
        const tt_past_case *c = &x->story->cases[i];
        if (c->says.kind != TT_KIND_FAULT) continue;
        const char *complaint = *c->says.complaint != 0
                                    ? c->says.complaint
                                    : catalogue_text(x->p->in, HISTORY_NO_COMPLAINT);
        table_add(&table,
                  (piece_of_text[]){day(x, c->says.began), figure(c->number), rule_text(complaint),
                                    our_text(case_state_words(x->p->in, c->says.state)),
                                    rule_text(c->says.cause), rule_text(c->fix_text),
                                    day(x, c->came_back)});
    }
    if (table.row_count == 0) say(x, catalogue_text(x->p->in, HISTORY_NO_FAULTS));
    table_put(&table, x->p, catalogue_text(x->p->in, HISTORY_FAULTS));
}

static void put_returned(const history_page *x)
{
    static const text_id columns[] = {HISTORY_TROUBLE, HISTORY_TIMES_HEAD,  HISTORY_FIRST,
                                      HISTORY_LAST,    HISTORY_BEFORE_HEAD, HISTORY_HELD_HEAD};
    text_table table = table_of(x->keep, x->p->in, columns, 6);
    x->p->kind->heading(x->p, catalogue_text(x->p->in, HISTORY_RETURNED));
    for (uint32_t i = 0; i < x->story->returned_count; i++) {
        const tt_returned *r = &x->story->returned[i];
        const char *days = isfinite(r->days) ? arena_text(x->keep, "%.0f", r->days) : "";
        table_add(&table, (piece_of_text[]){rule_text(r->text), figure(whole(x, r->times)),
                                            day(x, r->first), day(x, r->last),
                                            rule_text(r->fix_text), figure(days)});
    }
    if (table.row_count == 0) say(x, catalogue_text(x->p->in, HISTORY_NONE_RETURNED));
    table_put(&table, x->p, catalogue_text(x->p->in, HISTORY_RETURNED));
}

static void put_gaps(const history_page *x)
{
    static const text_id columns[] = {HISTORY_MONTH, HISTORY_DAYS_HEAD, HISTORY_WHICH_HEAD};
    text_table table = table_of(x->keep, x->p->in, columns, 3);
    x->p->kind->heading(x->p, catalogue_text(x->p->in, HISTORY_ROUNDS));
    if (x->story->rounds == 0)
        say(x, catalogue_text(x->p->in, HISTORY_NO_ROUNDS));
    else if (x->story->gap_count == 0)
        say(x, catalogue_text(x->p->in, HISTORY_ALL_ROUNDS));
    for (uint32_t i = 0; i < x->story->gap_month_count; i++) {
        const tt_gap_month *g = &x->story->gap_months[i];
        table_add(&table, (piece_of_text[]){figure(g->month), figure(whole(x, g->days)),
                                            our_text(g->which)});
    }
    table_put(&table, x->p, catalogue_text(x->p->in, HISTORY_ROUNDS));
}

void history_on_paper(FILE *out, const paper_kind *kind, arena *keep, const opened_book *book,
                      const tt_site_story *story)
{
    const tongue in = tongue_of(story->language);
    const paper p = {
        .kind = kind, .out = out, .language = paper_language(in, story->language), .in = in};
    const history_page x = {&p, keep, story};
    const char *of = *story->site != 0 ? story->site : story->book;
    kind->begin(&p, FILL(keep, in, HISTORY_TITLE, of));
    put_head(&x, book);
    put_now(&x);
    if (story->case_count > 0) {
        put_faults(&x);
        put_returned(&x);
    }
    put_all_series(&x, false, HISTORY_READINGS);
    put_all_series(&x, true, HISTORY_RECKONED);
    if (story->case_count > 0) put_gaps(&x);
    kind->end(&p);
}
