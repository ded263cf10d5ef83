/* What two said of one thing who did not know of each other: answers that contradict, and causes.
 */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "journal/parts.h"

/* ---- answers and reports ---- */

typedef struct statement {
    unsigned rivals; /* the group of kinds that it can contradict */
    const char *about;
    uint32_t writer, entry;
} statement;

static int by_subject(const void *a, const void *b)
{
    const statement *x = a, *y = b;
    int order = (x->rivals > y->rivals) - (x->rivals < y->rivals);
    if (order == 0) order = strcmp(x->about, y->about);
    if (order == 0) order = compare_numbers(x->writer, y->writer);
    return order != 0 ? order : compare_numbers(x->entry, y->entry);
}

static bool same_subject(const statement *x, const statement *y)
{
    return x->rivals == y->rivals && strcmp(x->about, y->about) == 0;
}

static statement *collect(arena *keep, const journal *j, uint32_t *count)
{
    statement *all = ARENA_ARRAY(keep, statement, j->count);
    *count = 0;
    for (uint32_t i = 0; i < j->count; i++) {
        unsigned rivals = record_does(j->entries[i].kind) & RIVALS;
        if (rivals == 0 || !entry_counts(j, i)) continue;
        const char *about = entry_text(j, i, record_about(j->entries[i].kind));
        if (*about != '\0') all[(*count)++] = (statement){rivals, about, j->entries[i].writer, i};
    }
    qsort(all, *count, sizeof *all, by_subject);
    return all;
}

static bool same_answer(const journal *j, uint32_t one, uint32_t other)
{
    record_kind kind = j->entries[one].kind;
    if (kind != j->entries[other].kind) return false;
    const char *says = record_says(kind); /* "": nothing, so they say the same */
    const tt_value *a = value_get(entry_data(j, one), says),
                   *b = value_get(entry_data(j, other), says);
    return a == NULL || b == NULL ? a == b : value_eq(a, b);
}

static int by_entry(const void *a, const void *b)
{
    return compare_numbers(*(const uint32_t *)a, *(const uint32_t *)b);
}

/* Of several entries, those that the writer of no other one knew of; in order. Each is the last of
 * its writer. */
static uint32_t keep_unseen(const journal *j, uint32_t *items, uint32_t count, const uint32_t *all,
                            uint32_t all_count)
{
    uint32_t kept = 0;
    for (uint32_t i = 0; i < count; i++) {
        bool seen = false;
        for (uint32_t k = 0; k < all_count && !seen; k++)
            seen = all[k] != items[i] && journal_saw(j, all[k], items[i]);
        if (!seen) items[kept++] = items[i];
    }
    qsort(items, kept, sizeof *items, by_entry);
    return kept;
}

static dispute number_answers(arena *keep, const journal *j, const uint32_t *items, uint32_t count)
{
    uint32_t *answer = ARENA_ARRAY(keep, uint32_t, count), answers = 0;
    for (uint32_t i = 0; i < count; i++) {
        uint32_t like = 0; /* the first that says the same: itself at the latest */
        while (!same_answer(j, items[like], items[i])) like++;
        answer[i] = like < i ? answer[like] : answers++;
    }
    assert(answers <= count);
    return (dispute){items, answer, count, answers};
}

/* All statements are about one subject, by writer. */
static dispute dispute_about(arena *keep, const journal *j, const statement *all, uint32_t count)
{
    uint32_t *last = ARENA_ARRAY(keep, uint32_t, count),
             *items = ARENA_ARRAY(keep, uint32_t, count), writers = 0;
    for (uint32_t i = 0; i < count; i++)
        if (i + 1 == count || all[i + 1].writer != all[i].writer) last[writers++] = all[i].entry;
    if (writers < 2) return (dispute){.count = 0};
    memcpy(items, last, writers * sizeof *items);
    uint32_t kept = keep_unseen(j, items, writers, last, writers);
    assert(kept > 0 && kept <= writers);
    return number_answers(keep, j, items, kept);
}

static int by_first(const void *a, const void *b)
{
    return compare_numbers(((const dispute *)a)->items[0], ((const dispute *)b)->items[0]);
}

disputes journal_disputes(arena *keep, const journal *j)
{
    if (j->writer_count < 2) return (disputes){.count = 0};
    uint32_t count, found = 0;
    const statement *all = collect(keep, j, &count);
    dispute *out = ARENA_ARRAY(keep, dispute, count);
    for (uint32_t from = 0, end; from < count; from = end) {
        for (end = from + 1; end < count && same_subject(&all[from], &all[end]);) end++;
        dispute d = dispute_about(keep, j, &all[from], end - from);
        if (d.answers > 1) out[found++] = d;
    }
    qsort(out, found, sizeof *out, by_first);
    return (disputes){out, found};
}

/* ---- the cause ---- */

static const char *cause_in(const journal *j, uint32_t entry)
{
    return entry_text(j, entry, "cause");
}

/* The last that each writer said of the cause since the case last went on. */
static uint32_t last_said(const journal *j, uint32_t *out)
{
    uint32_t count = 0;
    for (uint32_t w = 0; w < j->writer_count; w++) {
        uint32_t last = NO_ENTRY;
        for (uint32_t k = j->writers[w].first; k < j->writers[w].first + j->writers[w].count; k++) {
            uint32_t i = j->by_writer[k];
            bool since = j->moved == NO_ENTRY || i > j->moved;
            if (since && j->entries[i].kind == RECORD_CONFIRM &&
                j->entries[i].skipped == TT_SKIP_NOT)
                last = i;
        }
        if (last != NO_ENTRY) out[count++] = last;
    }
    qsort(out, count, sizeof *out, by_entry);
    return count;
}

/* Whether all who spoke last knew of it. */
static bool is_known_to_all(const journal *j, uint32_t said, const uint32_t *last, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++)
        if (last[i] != said && !journal_saw(j, last[i], said)) return false;
    return true;
}

/* Two causes were named of which not all who spoke last knew: a third who knew of one doesn't
 * settle it. */
static bool is_disputed(const journal *j, const uint32_t *said, uint32_t said_count,
                        const uint32_t *last, uint32_t last_count)
{
    const char *cause = "";
    for (uint32_t i = 0; i < said_count; i++) {
        const char *named = cause_in(j, said[i]);
        if (*named == '\0' || is_known_to_all(j, said[i], last, last_count)) continue;
        if (*cause != '\0' && strcmp(named, cause) != 0) return true;
        cause = named;
    }
    return false;
}

tt_confirmation journal_cause(const journal *j)
{
    tt_confirmation c = {TT_CAUSE_UNSAID, NO_ENTRY, ""};
    uint32_t *said = ARENA_ARRAY(j->keep, uint32_t, j->writer_count), count = last_said(j, said);
    uint32_t *last = ARENA_ARRAY(j->keep, uint32_t, count);
    if (j->end == END_NONE || count == 0) return c;
    memcpy(last, said, count * sizeof *last);
    uint32_t lasts = keep_unseen(j, last, count, said, count);
    assert(lasts > 0); /* nobody knows of what comes after */
    if (is_disputed(j, said, count, last, lasts))
        return (tt_confirmation){TT_CAUSE_DISPUTED, NO_ENTRY, ""};
    c = (tt_confirmation){TT_CAUSE_UNSURE, last[lasts - 1], ""};
    for (uint32_t i = 0; i < lasts; i++) {
        const char *cause = cause_in(j, last[i]);
        if (*cause != '\0') c = (tt_confirmation){TT_CAUSE_CONFIRMED, last[i], cause};
    }
    return c;
}
