/* What the record `past` says was cured at this site, handed to the case. Days are those up to that
 * record, so that a case that is played again says the same. */
#include <math.h>

#include "base/moment.h"
#include "talk/replay_parts.h"

typedef struct telling {
    tt_moment now;
    tt_cure *cures;
    tt_cured past;
} telling;

static double days_ago(const telling *x, const char *time)
{
    return fmax(0, minutes_ago(time, x->now) / (24 * 60));
}

/* Of what was handed over and never confirmed nothing is known. */
static void add_cure(telling *x, const tt_value *one)
{
    const bool confirmed = value_truth(one, "confirmed");
    const tt_cure cure = {.cause = confirmed ? record_text(one, "cause") : "",
                          .fix = record_text(one, "fix"),
                          .days = days_ago(x, record_text(one, "ended")),
                          .came_back = *record_text(one, "came_back") != 0};
    if (!isfinite(cure.days) || (*cure.cause == 0 && *cure.fix == 0)) return;
    uint32_t at = x->past.count++;
    for (; at > 0 && x->cures[at - 1].days < cure.days; at--) x->cures[at] = x->cures[at - 1];
    x->cures[at] = cure;
}

static void count_calls(telling *x, const tt_value *cases)
{
    for (uint32_t i = 0; cases != NULL && i < cases->count; i++) {
        const double days = days_ago(x, record_text(&cases->items[i], "began"));
        if (!isfinite(days)) continue;
        x->past.calls++;
        x->past.days = fmax(x->past.days, days);
    }
}

bool replay_past(tt_talk *t, const tt_record *r)
{
    telling x = {.past = {.count = 0}};
    const tt_value *cases = value_get(r->data, "cases");
    t->past = r->data;
    if (cases == NULL || !tt_moment_read(r->time, &x.now)) return true;
    x.cures = ARENA_ARRAY(t->keep, tt_cure, cases->count);
    for (uint32_t i = 0; i < cases->count; i++) add_cure(&x, &cases->items[i]);
    count_calls(&x, cases);
    count_calls(&x, value_get(r->data, "open"));
    x.past.cures = x.cures;
    return x.past.count == 0 || talk_is_ok(t, tt_cured_before(t->c, &x.past));
}
