/* What the site's cases had said when this one began, kept in the case itself, so that it can be
 * played again without them. */
#include <string.h>

#include "talk/talk.h"

enum { READINGS_KEPT = 60, CASES_KEPT = 30 }; /* of each question; of the site */

static void put_text(tt_talk *t, value_builder *b, const char *key, const char *text)
{
    if (*text != 0) value_put(b, key, value_of_str(t->keep, str_of(text)));
}

static tt_value reading_value(tt_talk *t, const tt_past_reading *r, double number, bool anew)
{
    value_builder b = value_map(t->keep);
    put_text(t, &b, "time", r->time);
    value_put_number(&b, "number", number);
    if (anew) value_put_bool(&b, "anew", true);
    return value_done(&b);
}

static uint32_t readings_named(const tt_past *p, const char *name)
{
    uint32_t count, fit = 0;
    const tt_past_reading *all = tt_past_readings(p, &count);
    for (uint32_t i = 0; i < count; i++) fit += strcmp(all[i].question, name) == 0;
    return fit;
}

/* The last of them. */
static tt_value readings_of(tt_talk *t, uint32_t question, const char *name)
{
    const tt_past *p = t->options.past;
    uint32_t count, left = readings_named(p, name);
    const tt_past_reading *all = tt_past_readings(p, &count);
    value_builder list = value_list(t->keep);
    for (uint32_t i = 0; i < count; i++) {
        double number;
        if (strcmp(all[i].question, name) != 0 || left-- > READINGS_KEPT) continue;
        if (talk_is_ok(t, tt_reading_number(t->c, question, all[i].number, all[i].unit, &number)))
            value_add(&list, reading_value(t, &all[i], number, tt_past_begins_anew(p, &all[i])));
    }
    return value_done(&list);
}

static tt_value case_value(tt_talk *t, const tt_past_case *c)
{
    value_builder b = value_map(t->keep);
    put_text(t, &b, "number", c->number);
    put_text(t, &b, "began", c->says.began);
    put_text(t, &b, "ended", c->says.ended);
    put_text(t, &b, "symptom", c->says.complaint_name);
    put_text(t, &b, "text", c->says.complaint);
    put_text(t, &b, "cause", c->says.cause_name);
    put_text(t, &b, "cause_text", c->says.cause);
    put_text(t, &b, "fix", c->fix);
    put_text(t, &b, "fix_text", c->fix_text);
    put_text(t, &b, "came_back", c->came_back);
    if (*c->says.ended == 0) put_text(t, &b, "by", c->says.person);
    if (c->says.confirmed) value_put_bool(&b, "confirmed", true);
    return value_done(&b);
}

/* What went on in another case is told by that one. */
static bool is_fault(const tt_past_case *c, bool open)
{
    const bool counts = c->says.kind == TT_KIND_FAULT && c->says.state != TT_CASE_ELSEWHERE;
    return counts && (*c->says.ended == 0) == open;
}

/* The last of those that ended, or of those that are open. */
static tt_value cases_value(tt_talk *t, bool open)
{
    uint32_t count, fit = 0;
    const tt_past_case *all = tt_past_cases(t->options.past, &count);
    value_builder list = value_list(t->keep);
    for (uint32_t i = 0; i < count; i++) fit += is_fault(&all[i], open);
    for (uint32_t i = 0; i < count; i++)
        if (is_fault(&all[i], open) && fit-- <= CASES_KEPT)
            value_add(&list, case_value(t, &all[i]));
    return value_done(&list);
}

static tt_value all_readings(tt_talk *t)
{
    const uint32_t count = tt_book_describe(t->book).questions;
    value_builder readings = value_map(t->keep);
    for (uint32_t q = 0; q < count; q++) {
        tt_walked now;
        talk_check(t, tt_good_look(t->c, q, &now));
        if (now.good == TT_NONE || now.good == q) continue;
        const tt_value list = readings_of(t, q, now.name);
        if (list.count > 0) value_put(&readings, str_copy(t->keep, str_of(now.name)).p, list);
    }
    return value_done(&readings);
}

void keep_past(tt_talk *t)
{
    if (t->options.past == NULL) return;
    value_builder b = value_map(t->keep);
    const tt_value readings = all_readings(t), cases = cases_value(t, false),
                   open = cases_value(t, true);
    if (readings.count == 0 && cases.count == 0 && open.count == 0) return;
    value_put(&b, "readings", readings);
    value_put(&b, "cases", cases);
    if (open.count > 0) value_put(&b, "open", open);
    keep_record(t, "past", &b);
}
