/* Faults as they are found: each kept once, none said of what another covers, and all in the order
 * of their places. */
#define TT_FAULTS_C
#include "base/faults.h"

#include <assert.h>
#include <string.h>

#include "base/grow.h"
#include "base/sorted.h"
#include "base/unicode.h"
#include "base/written.h"

struct faults {
    arena *keep;
    fault **items; /* in order of adding */
    uint32_t count, room;
    uint32_t *slots; /* hash table over items: index + 1, 0 is free; twice the room */
    span *silences;  /* in order of place, none inside another */
    uint32_t silence_count, silence_room;
    struct fine {
        fault_code code;
        span within, said;
        bool used;
    } * fines;
    uint32_t fine_count, fine_room;
    fault *unsaid; /* what fault_add returns for a fault that is not kept */
    uint32_t errors, warnings;
    uint32_t met; /* errors, however often each */
};

typedef struct fault_row {
    const char *id;
    fault_severity severity;
    const char *title;
} fault_row;

static const fault_row rows[] = {
#ifdef TT_WITHOUT_AUTHORS
#define X(name, code, severity, title) {code, severity, ""},
#else
#define X(name, code, severity, title) {code, severity, title},
#endif
    FAULT_TABLE(X)
#undef X
};

const char *fault_id(fault_code code)
{
    assert(code < FAULT_COUNT);
    return rows[code].id;
}

const char *fault_title(fault_code code)
{
    assert(code < FAULT_COUNT);
    return rows[code].title;
}

fault_severity fault_severity_of(fault_code code)
{
    assert(code < FAULT_COUNT);
    return rows[code].severity;
}

faults *faults_new(arena *keep)
{
    assert(keep != NULL);
    faults *list = ARENA_NEW(keep, faults);
    list->keep = keep;
    list->unsaid = ARENA_NEW(keep, fault);
    return list;
}

/* ---- the same fault twice ---- */

static bool same_span(span a, span b)
{
    return a.file == b.file && a.start == b.start && a.end == b.end;
}

/* Faults without a place are told apart by their text. */
static bool same_fault(const fault *f, fault_code code, span at, str text)
{
    return f->code == code && same_span(f->at, at) && (at.file != NO_FILE || str_eq(f->text, text));
}

static uint32_t hash_of(fault_code code, span at)
{
    uint32_t h = (uint32_t)code * 0x9E3779B1U ^ at.file * 0x85EBCA77U;
    h = (h ^ at.start) * 0xC2B2AE3DU;
    h = (h ^ at.end) * 0x27D4EB2FU;
    return h ^ h >> 15;
}

/* The slot of the fault, or the free one where it belongs. */
static uint32_t *slot_of(const faults *list, fault_code code, span at, str text)
{
    uint32_t mask = list->room * 2 - 1;
    assert(list->room > 0 && (list->room & (list->room - 1)) == 0 /* a power of two */);
    uint32_t i = hash_of(code, at) & mask;
    while (list->slots[i] != 0 && !same_fault(list->items[list->slots[i] - 1], code, at, text))
        i = (i + 1) & mask;
    return &list->slots[i];
}

static void make_room(faults *list)
{
    if (list->count < list->room) return;
    GROW(list->keep, list->items, list->count, list->room);
    list->slots = ARENA_ARRAY(list->keep, uint32_t, (size_t)list->room * 2);
    for (uint32_t i = 0; i < list->count; i++) {
        const fault *f = list->items[i];
        *slot_of(list, f->code, f->at, f->text) = i + 1;
    }
}

/* ---- what is said already ---- */

static bool covers(span outer, span inner)
{
    return outer.file == inner.file && outer.start <= inner.start && inner.end <= outer.end;
}

static bool begins_after(span a, span b)
{
    return a.file != b.file ? a.file > b.file : a.start > b.start;
}

/* How many silences begin before or where the span does. */
static uint32_t silences_before(const faults *list, span at)
{
    uint32_t before;
    SORTED_PLACE(before, list->silence_count, i, !begins_after(list->silences[i], at));
    return before;
}

static bool is_silenced(const faults *list, span at)
{
    uint32_t before = silences_before(list, at);
    return before > 0 && covers(list->silences[before - 1], at);
}

/* Files are read from front to back, so nearly always this adds at the end. */
void faults_silence(faults *list, span at)
{
    assert(at.start <= at.end);
    if (is_silenced(list, at)) return;
    GROW(list->keep, list->silences, list->silence_count, list->silence_room);
    span *all = list->silences;
    uint32_t first = silences_before(list, at);
    if (first > 0 && covers(at, all[first - 1])) first--;
    uint32_t last = first;
    while (last < list->silence_count && covers(at, all[last])) last++;
    memmove(&all[first + 1], &all[last], (list->silence_count - last) * sizeof *all);
    all[first] = at;
    list->silence_count = list->silence_count - (last - first) + 1;
    assert(first == 0 || !begins_after(all[first - 1], at));
    assert(list->silence_count <= list->silence_room);
}

/* ---- what the author stands by ---- */

void faults_call_fine(faults *list, fault_code code, span within, span said)
{
    assert(fault_severity_of(code) == SEVERITY_WARNING);
    GROW(list->keep, list->fines, list->fine_count, list->fine_room);
    list->fines[list->fine_count++] = (struct fine){code, within, said, false};
}

static bool is_fine(const faults *list, fault_code code, span at)
{
    bool fine = false;
    for (uint32_t i = 0; i < list->fine_count; i++) {
        struct fine *f = &list->fines[i];
        if (f->code != code || (f->within.file != NO_FILE && !covers(f->within, at))) continue;
        fine = f->used = true;
    }
    return fine;
}

void faults_doubt_fine(faults *list)
{
    for (uint32_t i = 0; i < list->fine_count; i++) {
        const struct fine *f = &list->fines[i];
        if (f->used) continue;
        fault *doubt =
            fault_add(list, FAULT_FINE_FOR_NOTHING, f->said,
                      "There is no %s here that could be called fine.", fault_id(f->code));
        fault_help(list, doubt, "Leave it out, so that a later doubt is not hidden by it.");
    }
}

bool fault_warning_of(str id, fault_code *code)
{
    for (uint32_t i = 0; i < FAULT_COUNT; i++) {
        if (!str_is(id, rows[i].id) || rows[i].severity != SEVERITY_WARNING) continue;
        *code = (fault_code)i;
        return true;
    }
    return false;
}

/* ---- adding ---- */

/* Words of authors stand in the texts: shown on one line, and without what a terminal would obey.
 */
static str one_line(arena *keep, str text)
{
    if (unicode_plain_end(text, 0) == text.n && str_find_byte(text, '\n') == SIZE_MAX) return text;
    text_builder b = {.keep = keep};
    for (size_t i = 0; i < text.n;) {
        size_t start = i;
        uint32_t point = unicode_next(text, &i);
        if (point == '\n' || point == '\t')
            text_add(&b, STR(" "));
        else if (point == 0xFFFD || unicode_unsafe(point))
            text_add(&b, STR("\xEF\xBF\xBD"));
        else
            text_add(&b, str_slice(text, start, i));
    }
    return text_done(&b);
}

__attribute__((format(printf, 2, 0))) static str formatted(arena *keep, const char *format,
                                                           va_list arguments)
{
    return one_line(keep, str_vprintf(keep, format, arguments));
}

static fault *unsaid_fault(faults *list, fault_code code, span at)
{
    *list->unsaid = (fault){.code = code,
                            .at = at,
                            .text = STR(""),
                            .help = STR(""),
                            .written = STR(""),
                            .mended = STR("")};
    return list->unsaid;
}

static void count_fault(faults *list, fault_code code)
{
    if (fault_severity_of(code) == SEVERITY_ERROR)
        list->errors++;
    else
        list->warnings++;
}

static fault *kept_fault(faults *list, fault_code code, span at, str text)
{
    make_room(list);
    fault *f = ARENA_NEW(list->keep, fault);
    *f = (fault){.code = code,
                 .at = at,
                 .text = text,
                 .help = STR(""),
                 .written = STR(""),
                 .mended = STR("")};
    list->items[list->count++] = f;
    *slot_of(list, code, at, text) = list->count;
    return f;
}

static fault *fault_before(const faults *list, fault_code code, span at, str text)
{
    uint32_t slot = list->count == 0 ? 0 : *slot_of(list, code, at, text);
    return slot == 0 ? NULL : list->items[slot - 1];
}

fault *fault_add(faults *list, fault_code code, span at, const char *format, ...)
{
    assert(code < FAULT_COUNT && at.start <= at.end);
    if (fault_severity_of(code) == SEVERITY_ERROR) list->met++;
    if (is_silenced(list, at) || is_fine(list, code, at)) return unsaid_fault(list, code, at);
    if (at.file != NO_FILE &&
        list->count > 0) { /* told apart without its text, which need not be made */
        fault *again = fault_before(list, code, at, STR(""));
        if (again != NULL) return again;
    }
    va_list arguments;
    va_start(arguments, format);
    bool full = list->count == FAULTS_KEPT_MAX;
    str text = full ? STR("") : formatted(list->keep, format, arguments);
    va_end(arguments);
    fault *before = fault_before(list, code, at, text);
    if (before != NULL) return before;
    count_fault(list, code);
    return full ? unsaid_fault(list, code, at) : kept_fault(list, code, at, text);
}

bool fault_wants_help(const faults *list, const fault *f)
{
    assert(f != NULL);
    return f != list->unsaid && f->help.n == 0;
}

void fault_help(faults *list, fault *f, const char *format, ...)
{
    assert(f != NULL && format != NULL);
    if (f == list->unsaid || f->help.n > 0) return;
    va_list arguments;
    va_start(arguments, format);
    f->help = formatted(list->keep, format, arguments);
    va_end(arguments);
}

void fault_mend(faults *list, fault *f, str written, str mended)
{
    assert(f != NULL && mended.n > 0);
    if (f == list->unsaid || f->written.n > 0 || written.n == 0) return;
    f->written = str_copy(list->keep, written);
    f->mended = str_copy(list->keep, mended);
}

bool fault_mend_at(const fault *f, const sources *all, span *at)
{
    if (f->written.n == 0 || f->at.file >= all->count) return false;
    str bytes = all->items[f->at.file].bytes, place = str_slice(bytes, f->at.start, f->at.end);
    uint32_t found = 0;
    for (size_t from = 0, next; from + f->written.n <= place.n; from = next + 1) {
        next = str_find(str_slice(place, from, place.n), f->written);
        if (next == SIZE_MAX) break;
        next += from;
        if (name_goes_on(place, next + f->written.n) || (next > 0 && name_goes_on(place, next - 1)))
            continue;
        *at = (span){f->at.file, f->at.start + (uint32_t)next,
                     f->at.start + (uint32_t)(next + f->written.n)};
        found++;
    }
    return found == 1;
}

void fault_note_at(faults *list, fault *f, span at, const char *format, ...)
{
    assert(f != NULL && at.start <= at.end);
    if (f == list->unsaid) return;
    fault_note **end = &f->notes;
    uint32_t before = 0;
    for (; *end != NULL && !same_span((*end)->at, at); before++) end = &(*end)->next;
    if (*end != NULL || before == FAULT_NOTES_MAX) return;
    fault_note *n = ARENA_NEW(list->keep, fault_note);
    va_list arguments;
    va_start(arguments, format);
    *n = (fault_note){.at = at, .text = formatted(list->keep, format, arguments)};
    va_end(arguments);
    *end = n;
}

void faults_drop(faults *list, bool (*drops)(const fault *f, const void *context),
                 const void *context)
{
    uint32_t kept = 0;
    for (uint32_t i = 0; i < list->count; i++) {
        fault *f = list->items[i];
        if (!drops(f, context))
            list->items[kept++] = f;
        else if (fault_severity_of(f->code) == SEVERITY_ERROR)
            list->errors--;
        else
            list->warnings--;
    }
    list->count = kept;
    if (list->room == 0) return;
    memset(list->slots, 0, (size_t)list->room * 2 * sizeof *list->slots);
    for (uint32_t i = 0; i < kept; i++) {
        const fault *f = list->items[i];
        *slot_of(list, f->code, f->at, f->text) = i + 1;
    }
}

uint32_t faults_errors(const faults *list)
{
    return list->errors;
}

uint32_t faults_met(const faults *list)
{
    return list->met;
}

uint32_t faults_warnings(const faults *list)
{
    return list->warnings;
}

/* ---- in order ---- */

/* Sources are in the order of their names, so files compare by number; faults of no file come last.
 */
static int by_place(const void *left, const void *right)
{
    const fault *a = left, *b = right;
    int order = THREE_WAY(a->at.file, b->at.file);
    if (order == 0) order = THREE_WAY(a->at.start, b->at.start);
    if (order == 0) order = str_cmp(str_of(fault_id(a->code)), str_of(fault_id(b->code)));
    if (order == 0) order = THREE_WAY(a->at.end, b->at.end);
    return order == 0 ? str_cmp(a->text, b->text) : order;
}

const fault *faults_sorted(faults *list, arena *scratch, uint32_t *count)
{
    fault *sorted = ARENA_ARRAY(scratch, fault, list->count);
    for (uint32_t i = 0; i < list->count; i++) sorted[i] = *list->items[i];
    SORT(sorted, list->count, by_place);
    *count = list->count;
    return sorted;
}
