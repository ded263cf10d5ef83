#include <math.h>

#include "face/rehearse.h"
#include "host/json_parts.h"

static json_t *share_json(const tt_share *s)
{
    json_t *item = json_object();
    json_object_set_new(item, "count", json_integer((json_int_t)s->count));
    json_object_set_new(item, "of", json_integer((json_int_t)s->of));
    json_object_set_new(item, "share", number_json(s->of > 0 ? s->share : NAN));
    json_object_set_new(item, "low", number_json(s->of > 0 ? s->low : NAN));
    json_object_set_new(item, "high", number_json(s->of > 0 ? s->high : NAN));
    return item;
}

static json_t *mean_json(const tt_mean *m)
{
    json_t *item = json_object();
    json_object_set_new(item, "of", json_integer((json_int_t)m->of));
    json_object_set_new(item, "mean", number_json(m->of > 0 ? m->mean : NAN));
    json_object_set_new(item, "plus_minus", number_json(m->of > 1 ? m->plus_minus : NAN));
    return item;
}

static json_t *kind_json(const tt_rehearsed_kind *k)
{
    json_t *item = json_object();
    json_object_set_new(item, "calls", share_json(&k->calls));
    json_object_set_new(item, "leads", share_json(&k->leads));
    json_object_set_new(item, "among_three", share_json(&k->among_three));
    json_object_set_new(item, "leads_last", share_json(&k->leads_last));
    json_object_set_new(item, "among_three_last", share_json(&k->among_three_last));
    json_object_set_new(item, "cured", share_json(&k->cured));
    json_object_set_new(item, "questions", mean_json(&k->questions));
    json_object_set_new(item, "minutes", mean_json(&k->minutes));
    return item;
}

static json_t *levels_json(const tt_mean *of_level)
{
    json_t *item = json_object();
    json_object_set_new(item, "low", mean_json(&of_level[0]));
    json_object_set_new(item, "medium", mean_json(&of_level[1]));
    json_object_set_new(item, "serious", mean_json(&of_level[2]));
    return item;
}

static json_t *way_json(const tt_rehearsed_way *w)
{
    json_t *item = json_object();
    json_object_set_new(item, "cured", share_json(&w->cured));
    json_object_set_new(item, "called", share_json(&w->called));
    json_object_set_new(item, "stopped", share_json(&w->stopped));
    json_object_set_new(item, "leads", share_json(&w->leads));
    json_object_set_new(item, "among_three", share_json(&w->among_three));
    json_object_set_new(item, "questions", mean_json(&w->questions));
    json_object_set_new(item, "fixes", mean_json(&w->fixes));
    json_object_set_new(item, "minutes", mean_json(&w->minutes));
    json_object_set_new(item, "minutes_more", mean_json(&w->minutes_more));
    json_object_set_new(item, "needless", levels_json(w->needless));
    json_object_set_new(item, "needless_more", levels_json(w->needless_more));
    return item;
}

static json_t *calibration_json(const tt_rehearsed *r)
{
    json_t *item = json_object(), *bins = json_array();
    for (int b = 0; b < 10; b++) {
        json_t *bin = json_object();
        json_object_set_new(bin, "low", number_json(r->bins[b].low));
        json_object_set_new(bin, "high", number_json(r->bins[b].high));
        json_object_set_new(bin, "said",
                            number_json(r->bins[b].right.of > 0 ? r->bins[b].said : NAN));
        json_object_set_new(bin, "right", share_json(&r->bins[b].right));
        json_array_append_new(bins, bin);
    }
    json_object_set_new(item, "error", number_json(r->calibration_error));
    json_object_set_new(item, "bins", bins);
    return item;
}

static json_t *confused_json(const tt_confused *c)
{
    json_t *item = json_object();
    json_object_set_new(item, "cause", text_or_null(c->name));
    json_object_set_new(item, "text", json_string(c->text));
    json_object_set_new(item, "blamed", text_or_null(c->blamed_name));
    json_object_set_new(item, "blamed_text", json_string(c->blamed_text));
    json_object_set_new(item, "calls", share_json(&c->calls));
    json_object_set_new(item, "question", text_or_null(c->question));
    json_object_set_new(item, "ask", text_or_null(c->ask));
    json_object_set_new(item, "overlap", number_json(c->overlap));
    json_object_set_new(item, "one_fix", json_boolean(c->one_fix));
    return item;
}

static json_t *options_json(const tt_rehearsal_options *o, const tt_rehearsed *r)
{
    json_t *item = json_object();
    json_object_set_new(item, "calls", json_integer((json_int_t)r->calls));
    json_object_set_new(item, "seed", json_integer((json_int_t)o->seed));
    json_object_set_new(item, "role", json_string(r->role));
    json_object_set_new(item, "misread", number_json(o->misread));
    json_object_set_new(item, "numbers_off", number_json(o->numbers_off));
    return item;
}

static json_t *kinds_json(const tt_rehearsed *r)
{
    json_t *item = json_object();
    json_object_set_new(item, "one_cause", kind_json(&r->kinds[TT_ONE_CAUSE]));
    json_object_set_new(item, "two_causes", kind_json(&r->kinds[TT_TWO_CAUSES]));
    json_object_set_new(item, "not_listed", kind_json(&r->kinds[TT_NOT_LISTED]));
    return item;
}

static json_t *ways_json(const tt_rehearsed *r)
{
    json_t *item = json_object();
    json_object_set_new(item, "safest_first", way_json(&r->ways[TT_SAFEST_FIRST]));
    json_object_set_new(item, "soonest", way_json(&r->ways[TT_SOONEST]));
    json_object_set_new(item, "in_order", way_json(&r->ways[TT_IN_ORDER]));
    json_object_set_new(item, "everything", way_json(&r->ways[TT_EVERYTHING]));
    return item;
}

void print_rehearsal_json(FILE *out, const opened_book *book, const tt_rehearsal_options *options,
                          const tt_rehearsed *r)
{
    json_t *all = json_object(), *confused = json_array();
    for (uint32_t i = 0; i < r->confused_count; i++)
        json_array_append_new(confused, confused_json(&r->confused[i]));
    json_object_set_new(all, "version", json_integer(1));
    json_object_set_new(all, "rulebook", book_json(book));
    json_object_set_new(all, "site", site_json(book));
    json_object_set_new(all, "options", options_json(options, r));
    json_object_set_new(all, "call_minutes", number_json(r->call_minutes));
    json_object_set_new(all, "all", kind_json(&r->all));
    json_object_set_new(all, "kinds", kinds_json(r));
    json_object_set_new(all, "ways", ways_json(r));
    json_object_set_new(all, "calibration", calibration_json(r));
    json_object_set_new(all, "surprise_bits", mean_json(&r->surprise));
    json_object_set_new(all, "not_listed_blamed", share_json(&r->not_listed_blamed));
    json_object_set_new(all, "not_listed_blamed_surely", share_json(&r->not_listed_blamed_surely));
    json_object_set_new(all, "confused", confused);
    json_dumpf(all, out, JSON_INDENT(2) | JSON_REAL_PRECISION(JSON_DIGITS));
    fputc('\n', out);
    json_decref(all);
}
