/* A rehearsal from the top: how often it is right, how far its chances can be believed, what is
 * taken for what, what it takes, and what safety costs. */
#include "paper/rehearse_page.h"

#include <math.h>
#include <string.h>

#include "host/memory.h"
#include "show/figures.h"

enum { GRID_MOST = 8 };

static const char *whole(const rehearse_page *x, uint64_t number)
{
    return arena_text(x->keep, "%llu", (unsigned long long)number);
}

static void put_head(const rehearse_page *x, const opened_book *book, const tt_rehearsal_options *o)
{
    const tt_book_info info = tt_book_describe(book->book);
    x->p->kind->facts_begin(x->p);
    paper_fact(x->p, SHEET_EDITION, our_text(info.edition));
    paper_fact(x->p, SHEET_REVISION, our_text(book->revision));
    paper_fact(x->p, SHEET_SITE, rule_text(info.site_title));
    paper_fact(x->p, REHEARSE_PAGE_CALLS, our_text(whole(x, x->r->calls)));
    paper_fact(x->p, REHEARSE_PAGE_ROLE, our_text(x->r->role));
    paper_fact(x->p, REHEARSE_PAGE_SEED, our_text(whole(x, o->seed)));
    if (o->misread > 0)
        paper_fact(x->p, REHEARSE_PAGE_MISREAD, our_text(page_percent(x->keep, o->misread)));
    if (o->numbers_off > 0)
        paper_fact(x->p, REHEARSE_PAGE_OFF, our_text(page_percent(x->keep, o->numbers_off)));
    paper_fact(x->p, SHEET_WRITTEN_BY,
               our_text(FILL(x->keep, TO_AUTHORS, SHEET_PROGRAM, TELLTALE_VERSION)));
    x->p->kind->facts_end(x->p);
    x->p->kind->paragraph(x->p, our_words(TO_AUTHORS, REHEARSE_INTERVALS));
}

/* ---- a picture of measures, and the same as a table ---- */

typedef struct measures {
    gauge_shown items[12];
    const char *ranges[12], *counts[12];
    uint32_t count;
    double full; /* where its scale ends at least */
} measures;

static const char *range(const rehearse_page *x, const char *low, const char *high)
{
    return FILL(x->keep, TO_AUTHORS, REHEARSE_PAGE_RANGE, low, high);
}

static void add_share(const rehearse_page *x, measures *m, text_id text, const tt_share *s)
{
    if (s->of == 0) return;
    m->ranges[m->count] = range(x, page_percent(x->keep, s->low), page_percent(x->keep, s->high));
    m->counts[m->count] = whole(x, s->of);
    m->items[m->count++] =
        (gauge_shown){catalogue_text(TO_AUTHORS, text), 100 * s->share, 100 * s->low, 100 * s->high,
                      page_percent(x->keep, s->share)};
}

static void add_mean(const rehearse_page *x, measures *m, const char *text, const tt_mean *mean,
                     double times)
{
    if (mean->of == 0) return;
    const double value = times * mean->mean, low = value - times * mean->plus_minus,
                 high = value + times * mean->plus_minus;
    m->ranges[m->count] = range(x, page_number(x->keep, low), page_number(x->keep, high));
    m->counts[m->count] = whole(x, mean->of);
    m->items[m->count++] = (gauge_shown){text, value, low, high, page_number(x->keep, value)};
}

static void put_measures(const rehearse_page *x, text_id title, const measures *m)
{
    static const text_id columns[] = {REHEARSE_PAGE_WHAT, REHEARSE_PAGE_VALUE, REHEARSE_PAGE_WHERE,
                                      REHEARSE_PAGE_OF};
    text_table table = table_of(x->keep, TO_AUTHORS, columns, 4);
    if (m->count == 0) return;
    const drawing d = draw_gauges(x->keep, m->items, m->count, m->full);
    x->p->kind->picture(
        x->p, FILL(x->keep, TO_AUTHORS, REHEARSE_PAGE_PICTURE, catalogue_text(TO_AUTHORS, title)),
        &d);
    for (uint32_t i = 0; i < m->count; i++)
        table_add(&table, (piece_of_text[]){our_text(m->items[i].text), figure(m->items[i].words),
                                            figure(m->ranges[i]), figure(m->counts[i])});
    table_put(&table, x->p, catalogue_text(TO_AUTHORS, title));
}

static void put_ranking(const rehearse_page *x)
{
    measures m = {.full = 100};
    x->p->kind->heading(x->p, catalogue_text(TO_AUTHORS, REHEARSE_PAGE_RIGHT));
    add_share(x, &m, REHEARSE_PAGE_LEADS, &x->r->all.leads);
    add_share(x, &m, REHEARSE_PAGE_THREE, &x->r->all.among_three);
    add_share(x, &m, REHEARSE_PAGE_HELD, &x->r->set.held);
    add_share(x, &m, REHEARSE_PAGE_CURED, &x->r->all.cured);
    add_share(x, &m, REHEARSE_PAGE_CALLED, &x->r->ways[TT_SAFEST_FIRST].called);
    add_share(x, &m, REHEARSE_PAGE_STOPPED, &x->r->ways[TT_SAFEST_FIRST].stopped);
    put_measures(x, REHEARSE_PAGE_RIGHT_CAPTION, &m);
}

/* ---- against what could be done at best ---- */

static void add_ratio(const rehearse_page *x, measures *m, text_id text, const tt_ratio *r)
{
    if (r->of == 0) return;
    const double low = r->ratio - r->plus_minus, high = r->ratio + r->plus_minus;
    m->ranges[m->count] =
        range(x, arena_text(x->keep, "%.2f", low), arena_text(x->keep, "%.2f", high));
    m->counts[m->count] = whole(x, r->of);
    m->items[m->count++] = (gauge_shown){catalogue_text(TO_AUTHORS, text), r->ratio, low, high,
                                         arena_text(x->keep, "%.2f", r->ratio)};
}

static void put_best(const rehearse_page *x)
{
    measures leads = {.full = 100}, ratios = {.full = 1};
    x->p->kind->heading(x->p, catalogue_text(TO_AUTHORS, REHEARSE_PAGE_BEST));
    x->p->kind->paragraph(x->p, our_words(TO_AUTHORS, REHEARSE_PAGE_BEST_SAYS));
    add_share(x, &leads, REHEARSE_PAGE_KNOWN, &x->r->ceiling.known);
    add_share(x, &leads, REHEARSE_PAGE_OURS, &x->r->ceiling.ours);
    put_measures(x, REHEARSE_PAGE_BEST_CAPTION, &leads);
    add_ratio(x, &ratios, REHEARSE_AS_WE_ASK, &x->r->over_clairvoyant);
    add_ratio(x, &ratios, REHEARSE_PAGE_KNOWN, &x->r->known_over_clairvoyant);
    put_measures(x, REHEARSE_PAGE_RATIO_CAPTION, &ratios);
}

/* ---- what happens when somebody is called ---- */

static void put_over(const rehearse_page *x)
{
    const tt_handed_over *over = &x->r->over;
    measures ends = {.full = 100}, minutes = {.count = 0};
    if (over->calls.count == 0) return;
    x->p->kind->heading(x->p, catalogue_text(TO_AUTHORS, REHEARSE_PAGE_OVER));
    x->p->kind->paragraph(x->p, our_text(FILL(x->keep, TO_AUTHORS, REHEARSE_PAGE_OVER_SAYS,
                                              page_number(x->keep, over->waited.mean))));
    add_share(x, &ends, REHEARSE_PAGE_OVER_CURED, &over->cured);
    add_share(x, &ends, REHEARSE_PAGE_OVER_NOBODY, &over->nobody);
    add_share(x, &ends, REHEARSE_PAGE_STOPPED, &over->stopped);
    put_measures(x, REHEARSE_PAGE_OVER_CAPTION, &ends);
    add_mean(x, &minutes, catalogue_text(TO_AUTHORS, REHEARSE_PAGE_OVER_BEFORE), &over->before, 1);
    add_mean(x, &minutes, catalogue_text(TO_AUTHORS, REHEARSE_PAGE_OVER_AFTER), &over->after, 1);
    add_mean(x, &minutes, catalogue_text(TO_AUTHORS, REHEARSE_PAGE_OVER_BOTH), &over->both, 1);
    put_measures(x, REHEARSE_PAGE_WORK_CAPTION, &minutes);
}

/* ---- how far its chances can be believed ---- */

static void put_bins(const rehearse_page *x)
{
    static const text_id columns[] = {REHEARSE_PAGE_SAID, REHEARSE_PAGE_MEAN,
                                      REHEARSE_PAGE_WAS_RIGHT, REHEARSE_PAGE_WHERE,
                                      REHEARSE_PAGE_OF};
    text_table table = table_of(x->keep, TO_AUTHORS, columns, 5);
    for (int b = 0; b < 10; b++) {
        const tt_calibration *bin = &x->r->bins[b];
        if (bin->right.of == 0) continue;
        table_add(&table, (piece_of_text[]){figure(arena_text(x->keep, "%.0f \u2013 %.0f %%",
                                                              100 * bin->low, 100 * bin->high)),
                                            figure(page_percent(x->keep, bin->said)),
                                            figure(page_percent(x->keep, bin->right.share)),
                                            figure(range(x, page_percent(x->keep, bin->right.low),
                                                         page_percent(x->keep, bin->right.high))),
                                            figure(whole(x, bin->right.of))});
    }
    table_put(&table, x->p, catalogue_text(TO_AUTHORS, REHEARSE_PAGE_BINS_CAPTION));
}

static void put_set(const rehearse_page *x)
{
    const tt_rehearsed_set *s = &x->r->set;
    x->p->kind->paragraph(x->p, our_text(FILL(x->keep, TO_AUTHORS, REHEARSE_PAGE_SET_SAYS,
                                              page_number(x->keep, 100 * s->said),
                                              page_number(x->keep, 100 * s->held.share),
                                              page_number(x->keep, 100 * s->floor.mean),
                                              page_number(x->keep, 100 * s->floor.high))));
}

static void put_calibration(const rehearse_page *x)
{
    if (x->r->all.leads.of == 0) return; /* of no call: 0 points off would be praise */
    const drawing d = draw_calibration(x->keep, x->r);
    x->p->kind->heading(x->p, catalogue_text(TO_AUTHORS, REHEARSE_PAGE_BELIEVED));
    x->p->kind->paragraph(x->p, our_words(TO_AUTHORS, REHEARSE_PAGE_BELIEVED_SAYS));
    x->p->kind->picture(x->p,
                        FILL(x->keep, TO_AUTHORS, REHEARSE_PAGE_PICTURE,
                             catalogue_text(TO_AUTHORS, REHEARSE_PAGE_BINS_CAPTION)),
                        &d);
    x->p->kind->paragraph(x->p,
                          our_text(FILL(x->keep, TO_AUTHORS, REHEARSE_PAGE_FLOOR,
                                        page_number(x->keep, 100 * x->r->calibration_error),
                                        page_number(x->keep, 100 * x->r->calibration_floor.mean),
                                        page_number(x->keep, 100 * x->r->calibration_floor.high))));
    put_bins(x);
    put_set(x);
}

/* ---- what is taken for what ---- */

static bool is_among(const char *name, const char *const *names, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++)
        if (name == names[i] || (name != NULL && names[i] != NULL && strcmp(name, names[i]) == 0))
            return true;
    return false;
}

/* The causes of the pairs that came most often. */
static uint32_t causes_of_grid(const tt_rehearsed *r, const char **names, const char **texts)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < r->confused_count; i++) {
        const tt_confused *c = &r->confused[i];
        const char *const pair[] = {c->name, c->blamed_name}, *const words[] = {c->text,
                                                                                c->blamed_text};
        for (int k = 0; k < 2; k++) {
            if (count == GRID_MOST || is_among(pair[k], names, count)) continue;
            names[count] = pair[k];
            texts[count++] = words[k];
        }
    }
    return count;
}

static void put_pairs(const rehearse_page *x)
{
    static const text_id columns[] = {REHEARSE_PAGE_WRONG, REHEARSE_PAGE_LED, REHEARSE_PAGE_SHARE,
                                      REHEARSE_PAGE_WHERE, REHEARSE_PAGE_TELLS};
    text_table table = table_of(x->keep, TO_AUTHORS, columns, 5);
    for (uint32_t i = 0; i < x->r->confused_count; i++) {
        const tt_confused *c = &x->r->confused[i];
        const char *tells = c->question != NULL ? c->ask
                            : c->name != NULL && c->blamed_name != NULL
                                ? catalogue_text(TO_AUTHORS, REHEARSE_NO_QUESTION)
                                : "";
        if (c->one_fix)
            tells = FILL(x->keep, TO_AUTHORS, REHEARSE_PAGE_AND, tells,
                         catalogue_text(TO_AUTHORS, REHEARSE_ONE_FIX));
        table_add(&table, (piece_of_text[]){rule_text(c->text), rule_text(c->blamed_text),
                                            figure(page_percent(x->keep, c->calls.share)),
                                            figure(range(x, page_percent(x->keep, c->calls.low),
                                                         page_percent(x->keep, c->calls.high))),
                                            rule_text(tells)});
    }
    table_put(&table, x->p, catalogue_text(TO_AUTHORS, REHEARSE_PAGE_PAIRS_CAPTION));
}

static void put_confused(const rehearse_page *x)
{
    const char *names[GRID_MOST] = {NULL}, *texts[GRID_MOST] = {NULL};
    const uint32_t count = causes_of_grid(x->r, names, texts);
    x->p->kind->heading(x->p, catalogue_text(TO_AUTHORS, REHEARSE_PAGE_CONFUSED));
    if (count == 0) {
        x->p->kind->paragraph(x->p, our_words(TO_AUTHORS, REHEARSE_PAGE_NONE_CONFUSED));
        return;
    }
    const drawing d = draw_grid(x->keep, x->r, names, texts, count);
    x->p->kind->paragraph(x->p, our_words(TO_AUTHORS, REHEARSE_PAGE_GRID_SAYS));
    x->p->kind->picture(x->p,
                        FILL(x->keep, TO_AUTHORS, REHEARSE_PAGE_PICTURE,
                             catalogue_text(TO_AUTHORS, REHEARSE_PAGE_PAIRS_CAPTION)),
                        &d);
    put_pairs(x);
}

/* ---- what it takes ---- */

static const text_id way_words[] = {
    [TT_SAFEST_FIRST] = REHEARSE_AS_WE_ASK, [TT_SOONEST] = REHEARSE_PAGE_SOONEST,
    [TT_IN_ORDER] = REHEARSE_IN_ORDER,      [TT_EVERYTHING] = REHEARSE_EVERYTHING,
    [TT_ALL_KNOWN] = REHEARSE_PAGE_KNOWN,   [TT_CLAIRVOYANT] = REHEARSE_PAGE_CLAIRVOYANT};

static void put_minutes(const rehearse_page *x)
{
    measures minutes = {.count = 0}, questions = {.count = 0};
    for (int way = 0; way < TT_WAYS; way++) {
        add_mean(x, &minutes, catalogue_text(TO_AUTHORS, way_words[way]), &x->r->ways[way].minutes,
                 1);
        if (way <= TT_EVERYTHING)
            add_mean(x, &questions, catalogue_text(TO_AUTHORS, way_words[way]),
                     &x->r->ways[way].questions, 1);
    }
    x->p->kind->heading(x->p, catalogue_text(TO_AUTHORS, REHEARSE_PAGE_TAKES));
    x->p->kind->paragraph(x->p, our_text(FILL(x->keep, TO_AUTHORS, REHEARSE_PAGE_TAKES_SAYS,
                                              arena_text(x->keep, "%g", x->r->call_minutes))));
    put_measures(x, REHEARSE_PAGE_MINUTES_CAPTION, &minutes);
    put_measures(x, REHEARSE_PAGE_QUESTIONS_CAPTION, &questions);
}

/* ---- what safety costs ---- */

static void put_safety(const rehearse_page *x)
{
    static const text_id levels[] = {REHEARSE_LOW_RISK, REHEARSE_MEDIUM_RISK,
                                     REHEARSE_SERIOUS_RISK};
    const tt_rehearsed_way *quick = &x->r->ways[TT_SOONEST], *own = &x->r->ways[TT_SAFEST_FIRST];
    measures m = {.count = 0};
    for (int i = 0; i < 3; i++) {
        const char *level = catalogue_text(TO_AUTHORS, levels[i]);
        add_mean(x, &m, FILL(x->keep, TO_AUTHORS, REHEARSE_PAGE_NEEDLESS_OWN, level),
                 &own->needless[i], 100);
        add_mean(x, &m, FILL(x->keep, TO_AUTHORS, REHEARSE_PAGE_NEEDLESS_QUICK, level),
                 &quick->needless_more[i], 100);
    }
    x->p->kind->heading(x->p, catalogue_text(TO_AUTHORS, REHEARSE_PAGE_SAFETY));
    if (quick->minutes_more.of > 1)
        x->p->kind->paragraph(x->p,
                              our_text(FILL(x->keep, TO_AUTHORS, REHEARSE_PAGE_PRICE,
                                            page_number(x->keep, 0 - quick->minutes_more.mean),
                                            page_number(x->keep, quick->minutes_more.plus_minus))));
    put_measures(x, REHEARSE_NEEDLESS, &m);
}

/* ---- which numbers matter ---- */

static const char *number_words(const rehearse_page *x, const tt_moving *m)
{
    if (strcmp(m->kind, "how-often") == 0)
        return FILL(x->keep, TO_AUTHORS, REHEARSE_MOVING_OFTEN, m->cause, m->written);
    if (strcmp(m->kind, "shown-by") == 0)
        return FILL(x->keep, TO_AUTHORS, REHEARSE_MOVING_SHOWN, m->of, m->cause, m->written);
    if (strcmp(m->kind, "otherwise") == 0)
        return FILL(x->keep, TO_AUTHORS, REHEARSE_MOVING_OTHERWISE, m->of, m->written);
    return FILL(x->keep, TO_AUTHORS, REHEARSE_MOVING_CURES, m->of, m->cause, m->written);
}

static const char *more_minutes(const rehearse_page *x, const tt_mean *m)
{
    return FILL(x->keep, TO_AUTHORS, REHEARSE_PAGE_MORE, page_number(x->keep, m->mean),
                page_number(x->keep, m->plus_minus));
}

static void put_moving(const rehearse_page *x, const tt_rehearsal_options *o)
{
    static const text_id columns[] = {REHEARSE_PAGE_NUMBER, REHEARSE_PAGE_BELOW,
                                      REHEARSE_PAGE_ABOVE, REHEARSE_PAGE_AT};
    text_table table = table_of(x->keep, TO_AUTHORS, columns, 4);
    if (!o->sensitivity) return;
    x->p->kind->heading(x->p, catalogue_text(TO_AUTHORS, REHEARSE_PAGE_MOVING));
    if (x->r->moving_count == 0) {
        x->p->kind->paragraph(x->p, our_words(TO_AUTHORS, REHEARSE_MOVING_NONE));
        return;
    }
    x->p->kind->paragraph(x->p, our_words(TO_AUTHORS, REHEARSE_PAGE_MOVING_SAYS));
    for (uint32_t i = 0; i < x->r->moving_count; i++) {
        const tt_moving *m = &x->r->moving[i];
        table_add(&table, (piece_of_text[]){our_text(number_words(x, m)),
                                            figure(more_minutes(x, &m->below)),
                                            figure(more_minutes(x, &m->above)), our_text(m->at)});
    }
    table_put(&table, x->p, catalogue_text(TO_AUTHORS, REHEARSE_PAGE_MOVING_CAPTION));
}

void rehearsal_on_paper(FILE *out, const paper_kind *kind, arena *keep, const opened_book *book,
                        const tt_rehearsal_options *options, const tt_rehearsed *r)
{
    const tt_book_info info = tt_book_describe(book->book);
    const paper p = {
        .kind = kind, .out = out, .language = paper_language(TO_AUTHORS, info.language)};
    const rehearse_page x = {&p, keep, r};
    kind->begin(&p, FILL(keep, TO_AUTHORS, REHEARSE_PAGE_TITLE, info.title));
    put_head(&x, book, options);
    put_ranking(&x);
    put_best(&x);
    put_calibration(&x);
    put_confused(&x);
    put_minutes(&x);
    put_over(&x);
    put_safety(&x);
    put_moving(&x, options);
    kind->end(&p);
}
