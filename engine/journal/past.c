/* What the cases of a site say: its readings over time, and how its troubles ended. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "base/guard.h"
#include "base/str.h"
#include "journal/parts.h"
#include "journal/summary.h"

struct tt_past {
    arena *keep;
    tt_past_reading *readings;
    uint32_t count, room;
    tt_past_case *cases;
    uint32_t case_count, case_room;
};

tt_status tt_past_new(tt_past **out)
{
    arena *keep = arena_new(NULL, NULL);
    *out = keep != NULL ? arena_try(keep, sizeof **out) : NULL;
    if (*out == NULL) {
        arena_free(keep);
        return TT_NO_MEMORY;
    }
    **out = (tt_past){.keep = keep};
    return TT_OK;
}

void tt_past_free(tt_past *p)
{
    if (p != NULL) arena_free(p->keep);
}

const tt_past_reading *tt_past_readings(const tt_past *p, uint32_t *count)
{
    *count = p->count;
    return p->readings;
}

const tt_past_case *tt_past_cases(const tt_past *p, uint32_t *count)
{
    *count = p->case_count;
    return p->cases;
}

/* ---- readings ---- */

static const char *kept(tt_past *p, const char *text)
{
    return str_copy(p->keep, str_of(text)).p;
}

static bool is_same_look(const tt_past_reading *r, const char *question, uint32_t of,
                         const char *fix)
{
    return r->of == of && strcmp(r->question, question) == 0 && strcmp(r->fix, fix) == 0;
}

/* What is told of one question twice, with no fix between, was told wrong before. */
static tt_past_reading *place_for(tt_past *p, const char *question, uint32_t of, const char *fix)
{
    for (uint32_t i = 0; i < p->count; i++)
        if (is_same_look(&p->readings[i], question, of, fix)) return &p->readings[i];
    GROW(p->keep, p->readings, p->count, p->room);
    return &p->readings[p->count++];
}

static void take_reading(tt_past *p, const journal *j, uint32_t entry, const char *fix)
{
    const tt_value *reply = value_get(entry_data(j, entry), "reply");
    const char *kind = value_text(reply, "kind"), *unit = value_text(reply, "unit"),
               *question = entry_text(j, entry, "question");
    double number;
    if (kind == NULL || strcmp(kind, "number") != 0 || !value_number(reply, "number", &number))
        return;
    *place_for(p, question, p->case_count, fix) =
        (tt_past_reading){.question = kept(p, question),
                          .time = kept(p, j->entries[entry].record.time),
                          .number = number,
                          .unit = unit != NULL ? kept(p, unit) : "",
                          .of = p->case_count,
                          .fix = fix};
}

static void take_readings(tt_past *p, const journal *j)
{
    const char *fix = ""; /* the last that was done */
    for (uint32_t i = 0; i < j->count; i++) {
        const record_kind kind = j->entries[i].kind;
        if (j->entries[i].skipped != TT_SKIP_NOT) continue;
        if (kind == RECORD_TRIED && strcmp(entry_text(j, i, "outcome"), "could-not") != 0)
            fix = kept(p, entry_text(j, i, "fix"));
        if (kind == RECORD_PUT_BACK) fix = "";
        if (kind == RECORD_MEASURED) take_reading(p, j, i, kept(p, entry_text(j, i, "fix")));
        if (kind == RECORD_ANSWER) take_reading(p, j, i, fix);
    }
}

bool tt_past_begins_anew(const tt_past *p, const tt_past_reading *r)
{
    assert(p != NULL && r->of < p->case_count);
    return *r->fix != 0 || p->cases[r->of].says.kind == TT_KIND_RECORD;
}

static int64_t moment_of(const char *time)
{
    tt_moment m;
    return tt_moment_read(time, &m) ? m.milliseconds : INT64_MIN;
}

static int by_time(const void *a, const void *b)
{
    const tt_past_reading *x = a, *y = b;
    const int64_t one = moment_of(x->time), other = moment_of(y->time);
    return one != other ? (one > other) - (one < other) : strcmp(x->question, y->question);
}

/* ---- cases ---- */

static void copy_summary(tt_past *p, tt_case_summary *s)
{
#define KEEP_TEXT(name) s->name = kept(p, s->name);
    TT_SUMMARY_TEXTS(KEEP_TEXT)
#undef KEEP_TEXT
}

typedef struct adding {
    tt_past *p;
    const char *number;
    const tt_record *records;
    uint32_t count;
} adding;

static void add_case(const adding *a)
{
    tt_past *p = a->p;
    arena *scratch = p->keep; /* what is read stands beside what is kept of it */
    const journal *j = journal_read(scratch, a->records, a->count, NULL);
    const tt_helped helped = journal_helped(j);
    tt_past_case c = {.number = kept(p, a->number),
                      .says = journal_summary(j),
                      .fix = kept(p, helped.fix),
                      .fix_text = kept(p, helped.fix_text),
                      .came_back = kept(p, helped.came_back)};
    if (j->count == 0 || c.says.kind == TT_KIND_DRILL) return;
    copy_summary(p, &c.says);
    take_readings(p, j);
    GROW(p->keep, p->cases, p->case_count, p->case_room);
    p->cases[p->case_count++] = c;
    if (p->count > 1) qsort(p->readings, p->count, sizeof *p->readings, by_time);
}

tt_status tt_past_add(tt_past *p, const char *number, const tt_record *records, size_t count)
{
    guard way_out;
    assert(p != NULL && number != NULL);
    if (count >= NO_ENTRY) return TT_NO_MEMORY;
    const volatile uint32_t readings =
        p->count; /* of a case that isn't added nothing is left for the next one */
    arena_guard(p->keep, &way_out);
    if (setjmp(way_out.place)) {
        arena_guard(p->keep, NULL);
        p->count = readings;
        return TT_NO_MEMORY;
    }
    add_case(&(adding){p, number, records, (uint32_t)count});
    arena_guard(p->keep, NULL);
    return TT_OK;
}

/* ---- rounds that are due ---- */

/* Days since a round that asked at least as much was gone to its end; INFINITY: never. */
static double days_since(const tt_past *p, tt_every every, tt_moment now)
{
    double least = INFINITY;
    for (uint32_t i = 0; i < p->case_count; i++) {
        const tt_case_summary *s = &p->cases[i].says;
        tt_moment ended;
        if (s->kind != TT_KIND_ROUND || s->every < every || !tt_moment_read(s->ended, &ended))
            continue;
        least = fmin(least, (double)(now.milliseconds - ended.milliseconds) / 86400000);
    }
    return least;
}

/* A little early is on time. */
tt_every tt_past_due(const tt_past *p, const char *now)
{
    static const double days[TT_EVERIES] = {[TT_WEEKLY] = 6.5, [TT_MONTHLY] = 27.5};
    tt_moment m;
    assert(p != NULL && now != NULL);
    if (!tt_moment_read(now, &m)) return TT_MONTHLY;
    for (tt_every e = TT_MONTHLY; e > TT_DAILY; e--)
        if (days_since(p, e, m) >= days[e]) return e;
    return TT_DAILY;
}
