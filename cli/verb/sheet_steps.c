/* The history on a sheet: every step and why it counts or not, dangers and cautions, and what is
 * half done. */
#include <assert.h>
#include <string.h>

#include "base/unicode.h"
#include "base/value.h"
#include "say/catalogue.h"
#include "verb/sheet_case.h"

const char *sheet_clean(arena *keep, const char *text)
{
    if (text == NULL || *text == 0) return "";
    return unicode_clean(keep, str_of(text)).p;
}

static bool is_kind(const tt_told *told, const char *kind)
{
    return strcmp(told->record->kind, kind) == 0;
}

static const char *text_in(const tt_told *told, const char *key)
{
    const char *text = value_text(told->record->data, key);
    return text != NULL ? text : "";
}

/* ---- why a step does not count, or no longer ---- */

static bool is_answer_that_counts(const tt_told *told)
{
    return is_kind(told, "answer") && told->skipped == TT_SKIP_NOT && !told->left_out;
}

/* Two who did not know of each other have not replaced anything: that is to be settled. */
static bool knew_of(const tt_told *later, const tt_told *told)
{
    const char *writer = told->record->writer;
    uint64_t seen = 0;
    if (strcmp(later->record->writer, writer) == 0) return true;
    return later->record->seen != NULL && value_counter(later->record->seen, writer, &seen) &&
           seen >= told->record->number;
}

/* A question that was answered again: after a fix that is another reading, else the first one was
 * wrong. */
static const char *mark_of_answer(const tt_history *h, uint32_t at)
{
    bool fixed = false;
    assert(at < h->count);
    for (uint32_t i = at + 1; i < h->count; i++) {
        const tt_told *later = &h->items[i];
        fixed = fixed || is_kind(later, "fix-begun") || is_kind(later, "tried") ||
                is_kind(later, "put-back");
        if (is_answer_that_counts(later) && strcmp(later->about, h->items[at].about) == 0 &&
            knew_of(later, &h->items[at]))
            return fixed ? "read-again" : "replaced";
    }
    return "";
}

static const char *mark_of(const tt_history *h, uint32_t at)
{
    static const char *const why[] = {[TT_SKIP_TAKEN_BACK] = "taken-back",
                                      [TT_SKIP_SETTLED_WRONG] = "settled",
                                      [TT_SKIP_TOLD_TWICE] = "told-twice",
                                      [TT_SKIP_DAMAGED] = "damaged"};
    const tt_told *told = &h->items[at];
    if (told->skipped != TT_SKIP_NOT) return why[told->skipped];
    if (told->left_out) return "left-out";
    return is_answer_that_counts(told) ? mark_of_answer(h, at) : "";
}

static void put_steps(arena *keep, const tt_history *history, shown_sheet *sheet)
{
    sheet_step *steps = ARENA_ARRAY(keep, sheet_step, history->count);
    for (uint32_t i = 0; i < history->count; i++) {
        const tt_told *told = &history->items[i];
        steps[i] = (sheet_step){.time = sheet_clean(keep, told->record->time),
                                .by = sheet_clean(keep, told->person),
                                .writer = sheet_clean(keep, told->record->writer),
                                .kind = sheet_clean(keep, told->record->kind),
                                .about = sheet_clean(keep, told->about),
                                .text = sheet_clean(keep, told->text),
                                .result = sheet_clean(keep, told->result),
                                .typed = sheet_clean(keep, told->typed),
                                .setting = sheet_clean(keep, told->setting),
                                .from = sheet_clean(keep, told->from),
                                .to = sheet_clean(keep, told->to),
                                .taken_back = told->taken_back,
                                .left_out = told->left_out,
                                .mark = mark_of(history, i)};
    }
    sheet->steps = steps;
    sheet->steps_count = history->count;
}

/* ---- dangers and cautions ---- */

/* Said in words or at a touch, or in the answer to a question about danger. */
static const char *danger_words(arena *keep, tongue in, const tt_told *told)
{
    if (is_kind(told, "danger") || is_kind(told, "recheck")) return told->text;
    if (!is_kind(told, "answer") || !value_truth(told->record->data, "danger")) return NULL;
    return FILL(keep, in, TEXT_ASKED_ANSWERED, told->text, told->result);
}

static void put_dangers(arena *keep, tongue in, const tt_history *history, shown_sheet *sheet)
{
    sheet_danger *dangers = ARENA_ARRAY(keep, sheet_danger, history->count);
    for (uint32_t i = 0; i < history->count; i++) {
        const tt_told *told = &history->items[i];
        const char *words = danger_words(keep, in, told);
        if (words != NULL && told->skipped != TT_SKIP_DAMAGED)
            dangers[sheet->dangers_count++] =
                (sheet_danger){sheet_clean(keep, told->record->time),
                               sheet_clean(keep, told->person), sheet_clean(keep, words)};
    }
    sheet->dangers = dangers;
}

static void put_cautions(arena *keep, const tt_history *history, shown_sheet *sheet)
{
    sheet_caution *cautions = ARENA_ARRAY(keep, sheet_caution, history->caution_count);
    for (uint32_t i = 0; i < history->caution_count; i++) {
        const tt_told_caution *told = &history->cautions[i];
        cautions[i] = (sheet_caution){sheet_clean(keep, told->signal),
                                      sheet_clean(keep, told->text), sheet_clean(keep, told->time)};
    }
    sheet->cautions = cautions;
    sheet->cautions_count = history->caution_count;
}

/* ---- what is half done ---- */

static bool ends_fix(const tt_told *told, const char *fix)
{
    const bool may = is_kind(told, "tried") || is_kind(told, "put-back") || is_kind(told, "left");
    return may && strcmp(text_in(told, "fix"), fix) == 0;
}

typedef struct half_done {
    sheet_unfinished u;
    const char **done;
    uint32_t before; /* so many before it was begun anew: they stand as they were left */
} half_done;

static void leave(half_done *h)
{
    h->u = (sheet_unfinished){.name = ""};
    h->before = 0;
}

/* Not begun anew after all: it stands as before. */
static void leave_anew(half_done *h)
{
    if (h->before == 0) {
        leave(h);
        return;
    }
    h->u.done_count = h->before;
    h->before = 0;
}

static void go_back(half_done *h, uint64_t index)
{
    if (index < h->u.done_count && h->before <= index) h->u.done_count = (uint32_t)index;
}

/* One thing done of it, or gone back to before one. */
static void note_step(arena *keep, half_done *h, uint32_t most, const tt_told *told)
{
    const char *how = text_in(told, "how");
    uint64_t index = 0;
    if (strcmp(text_in(told, "fix"), h->u.name) != 0) return;
    value_counter(told->record->data, "index", &index);
    if (strcmp(how, "not-begun") == 0)
        leave_anew(h);
    else if (strcmp(how, "back") == 0)
        go_back(h, index);
    else if (index <= h->u.done_count && index < most) {
        h->done[index] = sheet_clean(keep, text_in(told, "text"));
        if (index == h->u.done_count) h->u.done_count++;
    }
}

static void note_begun(arena *keep, half_done *h, const tt_told *told)
{
    const char *name = sheet_clean(keep, text_in(told, "fix"));
    h->before = strcmp(name, h->u.name) == 0 ? h->u.done_count : 0;
    h->u = (sheet_unfinished){.name = name,
                              .text = sheet_clean(keep, told->text),
                              .done = h->done,
                              .done_count = h->before};
}

static void note_record(arena *keep, half_done *h, uint32_t most, const tt_told *told)
{
    if (is_kind(told, "fix-begun") && *text_in(told, "with") == 0)
        note_begun(keep, h, told);
    else if (is_kind(told, "step"))
        note_step(keep, h, most, told);
    else if (ends_fix(told, h->u.name))
        leave(h);
}

/* Begun, and nobody said what came of it: locks may be on. */
static void put_unfinished(arena *keep, const tt_history *history, shown_sheet *sheet)
{
    half_done *h = ARENA_NEW(keep, half_done);
    *h = (half_done){.u = {.name = ""}, .done = ARENA_ARRAY(keep, const char *, history->count)};
    for (uint32_t i = 0; i < history->count; i++)
        if (history->items[i].skipped == TT_SKIP_NOT)
            note_record(keep, h, history->count, &history->items[i]);
    sheet->unfinished = *h->u.name != 0 ? &h->u : NULL;
}

void sheet_put_history(arena *keep, tongue in, const tt_history *history, shown_sheet *sheet)
{
    put_steps(keep, history, sheet);
    put_dangers(keep, in, history, sheet);
    put_cautions(keep, history, sheet);
    put_unfinished(keep, history, sheet);
}
