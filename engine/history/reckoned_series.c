/* What a book reckons over time: for each case with a reading that is in it, its value then. What
 * was told of the site holds from then on. */
#include <math.h>
#include <string.h>

#include "history/telling.h"

typedef struct reckoning {
    telling *t;
    const tt_past_reading **of_site; /* [question] told last; or null */
    point_list *points;              /* [quantity] */
    uint32_t count;
    const tt_reckoned *last; /* of the case at work */
} reckoning;

static void answer(telling *t, tt_case *c, uint32_t question, const tt_past_reading *r)
{
    const tt_reply reply = {
        .kind = TT_NUMBER, .number = r->number, .unit = *r->unit != 0 ? r->unit : NULL};
    if (telling_is_ok(t, tt_reply_fits(c, question, &reply)))
        telling_check(t, tt_answer(c, question, &reply));
}

static bool is_of_site(telling *t, uint32_t question)
{
    tt_question q;
    telling_check(t, tt_question_show(t->c, question, &q));
    return q.of_site;
}

/* All that was read in it. False: nothing was. */
static bool tell_case(reckoning *r, tt_case *c, uint32_t of, const char **time)
{
    telling *t = r->t;
    bool any = false;
    for (uint32_t q = 0; q < tt_book_describe(t->book).questions; q++)
        if (r->of_site[q] != NULL) answer(t, c, q, r->of_site[q]);
    for (uint32_t i = 0; i < t->reading_count; i++) {
        const tt_past_reading *reading = &t->readings[i];
        const uint32_t q =
            reading->of == of ? tt_question_find(t->book, reading->question) : TT_NONE;
        if (q == TT_NONE) continue;
        if (is_of_site(t, q)) r->of_site[q] = reading;
        answer(t, c, q, reading);
        *time = reading->time;
        any = true;
    }
    return any;
}

static void look(reckoning *r, tt_case *c, const char *time, const char *number)
{
    telling *t = r->t;
    telling_check(t, tt_over_time_look(c, &r->last, &r->count));
    if (time == NULL) return;
    if (r->points == NULL) r->points = ARENA_ARRAY(t->keep, point_list, r->count + 1);
    for (uint32_t i = 0; i < r->count; i++) {
        const tt_reckoned *q = &r->last[i];
        if (q->known && q->read)
            add_point(t, &r->points[i],
                      (tt_point){.time = time,
                                 .words = telling_copy(t, q->words),
                                 .days = telling_days(time),
                                 .number = q->number,
                                 .of = number});
    }
}

static void reckon_case(reckoning *r, uint32_t of)
{
    telling *t = r->t;
    const char *time = NULL;
    const tt_options options = {.role = TT_NONE, .language = t->language};
    telling_check(t, tt_case_new(t->book, &options, &t->at_work));
    if (tell_case(r, t->at_work, of, &time)) look(r, t->at_work, time, t->cases[of].number);
    tt_case_free(t->at_work);
    t->at_work = NULL;
}

/* ---- what there is, and what is missing ---- */

static void copy_missing(telling *t, const tt_reckoned *q, tt_series *s)
{
    tt_untold *all = ARENA_ARRAY(t->keep, tt_untold, q->missing_count + 1);
    for (uint32_t i = 0; i < q->missing_count; i++)
        all[i] = (tt_untold){q->missing[i].question, telling_copy(t, q->missing[i].name),
                             telling_copy(t, q->missing[i].ask), q->missing[i].of_site};
    s->missing = all;
    s->missing_count = q->missing_count;
}

/* With what is known of the site now, and nothing of today. */
static void look_at_site(reckoning *r)
{
    telling *t = r->t;
    for (uint32_t q = 0; q < tt_book_describe(t->book).questions; q++)
        if (r->of_site[q] != NULL) answer(t, t->c, q, r->of_site[q]);
    look(r, t->c, NULL, "");
}

static void put_series(reckoning *r)
{
    telling *t = r->t;
    for (uint32_t i = 0; i < r->count; i++) {
        const tt_reckoned *q = &r->last[i];
        tt_series *s = telling_series(t);
        s->reckoned = true;
        s->name = telling_copy(t, q->name);
        s->text = telling_copy(t, q->text);
        s->unit = telling_copy(t, q->unit);
        if (r->points != NULL) s->points = r->points[i].items;
        if (r->points != NULL) s->point_count = r->points[i].count;
        if (s->point_count > 0) continue;
        s->why = telling_copy(t, q->why);
        copy_missing(t, q, s);
    }
}

void tell_reckoned(telling *t)
{
    reckoning r = {.t = t};
    r.of_site =
        ARENA_ARRAY(t->keep, const tt_past_reading *, tt_book_describe(t->book).questions + 1);
    for (uint32_t i = 0; i < t->case_count; i++) reckon_case(&r, t->in_order[i]);
    look_at_site(&r);
    put_series(&r);
}
