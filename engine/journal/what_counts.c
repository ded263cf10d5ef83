/* Which entries don't count: what somebody took back, answers that were settled to be wrong, and
 * what two reported of the same fix, neither knowing of the other. All stay where they are. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "journal/parts.h"

static void skip(journal *j, uint32_t entry, tt_skip why, uint32_t because)
{
    assert(entry < j->count && (because == NO_ENTRY || because < j->count));
    if (j->entries[entry].skipped != TT_SKIP_NOT) return;
    j->entries[entry].skipped = why;
    j->entries[entry].because = because;
}

/* ---- taken back by name ---- */

static void take_back(journal *j, uint32_t back, const tt_value *name)
{
    uint32_t step = entry_named(j, name);
    if (step != NO_ENTRY && step < back && entry_does(j, step, GIVES_BACK))
        skip(j, step, TT_SKIP_TAKEN_BACK, back);
}

/* Records of version 1 name one step, or none: then it is the last (see below). */
static bool names_steps(const journal *j, uint32_t back)
{
    const tt_value *data = entry_data(j, back);
    return value_get(data, "step") != NULL || value_get(data, "steps") != NULL;
}

static void take_back_named(journal *j)
{
    for (uint32_t i = 0; i < j->count; i++) {
        if (j->entries[i].kind != RECORD_BACK) continue;
        const tt_value *steps = value_get(entry_data(j, i), "steps");
        take_back(j, i, value_get(entry_data(j, i), "step"));
        for (uint32_t k = 0; value_is(steps, TT_VALUE_LIST) && k < steps->count; k++)
            take_back(j, i, &steps->items[k]);
    }
}

/* ---- settled ---- */

static void skip_wrong(journal *j, uint32_t settled)
{
    const tt_value *wrong = value_get(entry_data(j, settled), "wrong");
    for (uint32_t i = 0; value_is(wrong, TT_VALUE_LIST) && i < wrong->count; i++) {
        uint32_t entry = entry_named(j, &wrong->items[i]);
        bool can_be = entry != NO_ENTRY && entry < settled &&
                      (record_does(j->entries[entry].kind) & RIVALS) != 0;
        if (can_be) skip(j, entry, TT_SKIP_SETTLED_WRONG, settled);
    }
}

/* What says that others are wrong may itself have been taken back: that is known by now. */
static void skip_all_wrong(journal *j)
{
    for (uint32_t i = 0; i < j->count; i++)
        if (j->entries[i].kind == RECORD_SETTLE && j->entries[i].skipped == TT_SKIP_NOT)
            skip_wrong(j, i);
}

/* ---- told twice ---- */

/* Who told the same thing, the last entry of each writer. */
typedef struct teller {
    uint32_t writer, entry;
    struct teller *next;
} teller;

typedef struct report {
    record_kind kind;
    const char *about, *says;
    const tt_value *set; /* an adjustment: from what to what; or null */
    uint32_t entry;
} report;

typedef struct telling {
    journal *j;
    teller **tellers;   /* [group] */
    uint32_t *group_of; /* [entry] or NO_ENTRY: it is no report */
    uint32_t *before;   /* [entry] the entry before it of the same group and writer; or NO_ENTRY */
} telling;

static int by_what_is_told(const void *a, const void *b)
{
    const report *x = a, *y = b;
    int order = (x->kind > y->kind) - (x->kind < y->kind);
    if (order == 0) order = strcmp(x->about, y->about);
    if (order == 0) order = strcmp(x->says, y->says);
    if (order == 0) order = (x->set != NULL) - (y->set != NULL);
    if (order == 0 && x->set != NULL) order = value_compare(x->set, y->set);
    return order;
}

static report report_of(const journal *j, uint32_t entry)
{
    record_kind kind = j->entries[entry].kind;
    const char *says = record_says(kind);
    return (report){kind, entry_text(j, entry, record_about(kind)),
                    *says != '\0' ? entry_text(j, entry, says) : "",
                    value_get(entry_data(j, entry), "set"), entry};
}

/* Reports of the same thing get the same group, whatever words they are told in. */
static void group_reports(telling *t)
{
    const journal *j = t->j;
    report *reports = ARENA_ARRAY(j->keep, report, j->count);
    uint32_t count = 0, group = 0;
    for (uint32_t i = 0; i < j->count; i++)
        if (entry_does(j, i, ONCE)) reports[count++] = report_of(j, i);
    qsort(reports, count, sizeof *reports, by_what_is_told);
    for (uint32_t i = 0; i < count; i++) {
        group += i > 0 && by_what_is_told(&reports[i - 1], &reports[i]) != 0;
        t->group_of[reports[i].entry] = group;
    }
}

static telling begin_telling(journal *j)
{
    telling t = {.j = j};
    t.tellers = ARENA_ARRAY(j->keep, teller *, j->count);
    t.group_of = ARENA_ARRAY(j->keep, uint32_t, j->count);
    t.before = ARENA_ARRAY(j->keep, uint32_t, j->count);
    for (uint32_t i = 0; i < j->count; i++) t.group_of[i] = t.before[i] = NO_ENTRY;
    if (j->writer_count > 1) group_reports(&t); /* one writer always knows what it wrote */
    return t;
}

/* The last entry of this teller that was not taken back. */
static uint32_t told_last(telling *t, teller *of)
{
    while (of->entry != NO_ENTRY && t->j->entries[of->entry].skipped != TT_SKIP_NOT)
        of->entry = t->before[of->entry];
    return of->entry;
}

/* Another's report of the same thing that this one's writer did not know of; or NO_ENTRY. */
static uint32_t told_before(telling *t, uint32_t entry)
{
    for (teller *of = t->tellers[t->group_of[entry]]; of != NULL; of = of->next) {
        uint32_t before = told_last(t, of);
        bool others = before != NO_ENTRY && of->writer != t->j->entries[entry].writer;
        if (others && !journal_saw(t->j, entry, before)) return before;
    }
    return NO_ENTRY;
}

static void note_telling(telling *t, uint32_t entry)
{
    assert(t->group_of[entry] < t->j->count);
    teller **first = &t->tellers[t->group_of[entry]], *of = *first;
    while (of != NULL && of->writer != t->j->entries[entry].writer) of = of->next;
    if (of == NULL) {
        of = ARENA_NEW(t->j->keep, teller);
        *of = (teller){t->j->entries[entry].writer, NO_ENTRY, *first};
        *first = of;
    }
    t->before[entry] = of->entry;
    of->entry = entry;
}

/* True if it was told before by somebody unknown: it happened once. */
static bool is_told_twice(telling *t, uint32_t entry)
{
    if (t->group_of[entry] == NO_ENTRY) return false;
    uint32_t before = told_before(t, entry);
    assert(before == NO_ENTRY || before < entry);
    if (before != NO_ENTRY)
        skip(t->j, entry, TT_SKIP_TOLD_TWICE, before);
    else
        note_telling(t, entry);
    return before != NO_ENTRY;
}

/* ---- in order ---- */

/* A `back` that names nothing takes the last step, unless that is a file of answers. */
static void take_back_last(journal *j, uint32_t back, uint32_t *steps, uint32_t *count)
{
    if (*count == 0 || names_steps(j, back)) return;
    uint32_t last = steps[*count - 1];
    if (!entry_does(j, last, GIVES_BACK)) return;
    skip(j, last, TT_SKIP_TAKEN_BACK, back);
    assert(j->entries[last].skipped != TT_SKIP_NOT);
    --*count;
}

void journal_skip(journal *j)
{
    take_back_named(j);
    skip_all_wrong(j);
    telling t = begin_telling(j);
    uint32_t *steps = ARENA_ARRAY(j->keep, uint32_t, j->count), count = 0;
    for (uint32_t i = 0; i < j->count; i++) {
        if (j->entries[i].skipped != TT_SKIP_NOT || is_told_twice(&t, i)) continue;
        if (j->entries[i].kind == RECORD_BACK)
            take_back_last(j, i, steps, &count);
        else if (entry_does(j, i, STEP))
            steps[count++] = i;
    }
}
