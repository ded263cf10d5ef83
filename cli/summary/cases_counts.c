#include "summary/cases_counts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "host/plain_text.h"
#include "say/catalogue.h"

static int by_number(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double value_at(const double *sorted, size_t count, double share)
{
    double place = share * (double)(count - 1), whole = floor(place);
    size_t i = (size_t)whole;
    return i + 1 < count ? sorted[i] + (place - whole) * (sorted[i + 1] - sorted[i]) : sorted[i];
}

static minutes_spread spread_of(double *minutes, size_t count)
{
    if (count == 0) return (minutes_spread){0, NAN, NAN, NAN};
    qsort(minutes, count, sizeof *minutes, by_number);
    return (minutes_spread){count, value_at(minutes, count, .25), value_at(minutes, count, .5),
                            value_at(minutes, count, .75)};
}

/* A cause is one by its name, within books of one title; older cases hold no name. */
static int by_cause(const void *a, const void *b)
{
    const case_summary *x = *(const case_summary *const *)a, *y = *(const case_summary *const *)b;
    int order = strcmp(x->says.title, y->says.title);
    if (order == 0) order = strcmp(x->says.cause_name, y->says.cause_name);
    return order != 0 ? order : strcmp(x->uuid, y->uuid);
}

static bool is_same_cause(const case_summary *x, const case_summary *y)
{
    return strcmp(x->says.title, y->says.title) == 0 &&
           strcmp(x->says.cause_name, y->says.cause_name) == 0;
}

static int by_frequency(const void *a, const void *b)
{
    const cause_count *x = a, *y = b;
    if (x->count != y->count) return x->count > y->count ? -1 : 1;
    int order = strcmp(cause_count_words(x), cause_count_words(y));
    return order != 0 ? order : strcmp(x->name, y->name);
}

const char *cause_count_words(const cause_count *cause)
{
    if (*cause->text != 0) return cause->text;
    return *cause->name != 0 ? cause->name : catalogue_text(TO_AUTHORS, CASES_CAUSE_UNKNOWN);
}

static cause_count count_cause(const case_summary *const *cases, size_t count, double *minutes)
{
    cause_count out = {.name = "", .text = "", .count = count};
    size_t timed = 0;
    for (size_t i = 0; i < count; i++) {
        const tt_case_summary *says = &cases[i]->says;
        out.confirmed += says->confirmed;
        if (*says->cause_name != 0) out.name = says->cause_name;
        if (*says->cause != 0) out.text = says->cause;
        if (!isnan(says->minutes)) minutes[timed++] = says->minutes;
    }
    out.minutes = spread_of(minutes, timed);
    return out;
}

void cases_counts_sort(cases_counts *counts)
{
    if (counts->cause_count > 0)
        qsort(counts->causes, counts->cause_count, sizeof *counts->causes, by_frequency);
}

static void count_causes(const case_summary **closed, size_t count, double *minutes,
                         cases_counts *out)
{
    out->causes = take_memory((count + 1) * sizeof *out->causes);
    if (count > 0) qsort(closed, count, sizeof *closed, by_cause);
    for (size_t from = 0, to; from < count; from = to) {
        for (to = from + 1; to < count && is_same_cause(closed[from], closed[to]);) to++;
        out->causes[out->cause_count++] = count_cause(closed + from, to - from, minutes);
    }
    cases_counts_sort(out);
}

cases_counts cases_count(const case_list *list)
{
    cases_counts out = {.all = list->count};
    const case_summary **closed = take_memory((list->count + 1) * sizeof *closed);
    double *minutes = take_memory((list->count + 1) * sizeof *minutes);
    size_t count = 0, timed = 0;
    for (size_t i = 0; i < list->count; i++) {
        const case_summary *s = &list->cases[i];
        out.states[s->says.state]++;
        out.done += s->says.state == TT_CASE_CLOSED && s->says.kind != TT_KIND_FAULT;
        out.left_out += s->left_out;
        if (s->says.state == TT_CASE_CLOSED && s->says.kind == TT_KIND_FAULT) closed[count++] = s;
    }
    count_causes(closed, count, minutes, &out);
    for (size_t i = 0; i < count; i++)
        if (!isnan(closed[i]->says.minutes)) minutes[timed++] = closed[i]->says.minutes;
    out.minutes = spread_of(minutes, timed);
    free(minutes);
    free(closed);
    return out;
}

void cases_counts_free(cases_counts *counts)
{
    free(counts->causes);
}
