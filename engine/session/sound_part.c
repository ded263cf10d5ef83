/* What is sound of a book that has errors: the entries in which they stand are left out, then what
 * names those, until the rest can run. It is asked about as a whole book is, except for what may
 * only be missing. */
#include <assert.h>

#include "base/grow.h"
#include "base/sorted.h"
#include "doubt/doubts.h"
#include "load/nodes.h"
#include "read/book_read.h"
#include "session/session.h"

/* A name that is lost is told once a round, so there are as many rounds as it is named; of a large
 * book fewer, since each reads all of it: what they take of memory, one after the other, says how
 * much they do. */
enum { ROUNDS_MAX = 400, ROUNDS_BYTES = 256 * 1024 * 1024 };

static const node nothing = {.kind = NODE_MAP, .style = STYLE_BLOCK};

typedef struct part {
    tt_report *report;
    arena *keep, *scratch;
    arena *round; /* the book of one round */
    const node **roots;
    span *touched; /* entries of which something was left out */
    uint32_t touched_count, touched_room;
} part;

/* ---- leaving out ---- */

/* The tree is this part's own. What is left out is marked where it stands, and goes with all others
 * of its round: a section may have as many errors as entries. */
static bool is_out(const node *n, uint32_t i)
{
    return (n->kind == NODE_MAP ? n->entries[i].key_at : n->items[i]->at).file == NO_FILE;
}

static void mark_out(const node *n, uint32_t i)
{
    if (n->kind == NODE_MAP)
        ((node_entry *)(uintptr_t)n->entries)[i].key_at.file = NO_FILE;
    else
        ((node *)(uintptr_t)n->items[i])->at.file = NO_FILE;
}

static const node *child_of(const node *n, uint32_t i)
{
    return n->kind == NODE_MAP ? n->entries[i].value : n->items[i];
}

static void drop_marked(const node *n)
{
    if (n == NULL || n->kind == NODE_TEXT) return;
    node_entry *entries = n->kind == NODE_MAP ? (node_entry *)(uintptr_t)n->entries : NULL;
    const node **items = n->kind == NODE_LIST ? (const node **)(uintptr_t)n->items : NULL;
    uint32_t kept = 0;
    for (uint32_t i = 0; i < n->count; i++) {
        if (is_out(n, i)) continue;
        drop_marked(child_of(n, i));
        if (entries != NULL) entries[kept++] = entries[i];
        if (items != NULL) items[kept++] = items[i];
    }
    if (kept < n->count) ((node *)(uintptr_t)n)->count = kept;
}

static uint32_t child_start(const node *n, uint32_t i)
{
    return n->kind == NODE_MAP ? n->entries[i].key_at.start : n->items[i]->at.start;
}

static uint32_t child_end(const node *n, uint32_t i)
{
    const node *value = child_of(n, i);
    return value == NULL ? n->entries[i].key_at.end : value->at.end;
}

/* The first around the place that is not out; where one ends, the next may begin. */
static uint32_t child_at(const node *n, span at)
{
    if (n->kind == NODE_TEXT) return NO_ID;
    uint32_t behind;
    SORTED_PLACE(behind, n->count, i, child_start(n, i) <= at.start);
    uint32_t first = behind;
    while (first > 0 && child_end(n, first - 1) >= at.start) first--;
    while (first < behind && is_out(n, first)) first++;
    return first < behind ? first : NO_ID;
}

/* The innermost key or item around the place is left out; false: there is none within. */
static bool cut_within(const node *n, span at)
{
    const uint32_t index = n == NULL ? NO_ID : child_at(n, at);
    if (index == NO_ID) return false;
    if (!cut_within(child_of(n, index), at)) mark_out(n, index);
    return true;
}

static void touch(part *p, const node_entry *e)
{
    const span at = {e->key_at.file, e->key_at.start, e->value->at.end};
    const span *last = p->touched_count == 0 ? NULL : &p->touched[p->touched_count - 1];
    if (last != NULL && last->file == at.file && last->start == at.start) return;
    GROW(p->keep, p->touched, p->touched_count, p->touched_room);
    p->touched[p->touched_count++] = at;
}

/* An entry of a section is left out with its own errors, and keeps what else it says where only a
 * name of it is lost. False: it stands where nothing can be left out, or is out already. */
static bool leave_out(part *p, span at, bool whole)
{
    const node *root = at.file < p->report->files.count ? p->roots[at.file] : NULL;
    const uint32_t s = root == NULL ? NO_ID : child_at(root, at);
    if (s == NO_ID || root->kind != NODE_MAP || str_is(root->entries[s].key, "book")) return false;
    const node *section = root->entries[s].value;
    if (section == NULL || section->kind != NODE_MAP || at.start < root->entries[s].key_at.end) {
        mark_out(root, s);
        return true;
    }
    const uint32_t e = child_at(section, at);
    if (e == NO_ID) return false;
    const node_entry *entry = &section->entries[e];
    if (entry->value != NULL) touch(p, entry);
    if (whole || !cut_within(entry->value, at)) mark_out(section, e);
    return true;
}

/* False: none of them could be left out. */
static bool cut_errors(part *p, faults *list, bool whole)
{
    uint32_t count;
    const fault *all = faults_sorted(list, p->scratch, &count);
    bool any = false;
    for (uint32_t i = 0; i < count; i++)
        if (fault_severity_of(all[i].code) == SEVERITY_ERROR)
            any = leave_out(p, all[i].at, whole) || any;
    for (uint32_t i = 0; any && i < p->report->files.count; i++) drop_marked(p->roots[i]);
    return any;
}

/* More than fits, which leaving out one entry after the other would find again and again. */
static bool is_too_large(faults *list, arena *scratch)
{
    uint32_t count, i = 0;
    const fault *all = faults_sorted(list, scratch, &count);
    while (i < count && all[i].code != FAULT_TOO_MANY) i++;
    return i < count;
}

/* ---- asking ---- */

/* What may be there, in what was left out. */
static bool may_be_missing(fault_code code)
{
    static const fault_code codes[] = {FAULT_PICTURE_UNUSED,       FAULT_CAUSE_NOT_SHOWN,
                                       FAULT_CAUSE_NOT_CURED,      FAULT_QUESTION_UNUSED,
                                       FAULT_CONCLUSION_NEVER_SET, FAULT_PROCEDURE_UNUSED,
                                       FAULT_NOBODY_AUTHORISED,    FAULT_FINE_FOR_NOTHING,
                                       FAULT_TWIN_CAUSES,          FAULT_NO_SIGN,
                                       FAULT_WEAK_SIGNS,           FAULT_GAP,
                                       FAULT_WORDS_STRANGE,        FAULT_LOOKS_ELSEWHERE,
                                       FAULT_NO_CONTACT,           FAULT_MOSTLY_STAYS,
                                       FAULT_CONCLUSION_UNREAD,    FAULT_KIND_UNUSED,
                                       FAULT_ROLE_UNUSED,          FAULT_ANSWER_IDLE,
                                       FAULT_NEVER_NAMED,          FAULT_NO_STOP,
                                       FAULT_NOT_TRANSLATED,       FAULT_SECTION_EMPTY,
                                       FAULT_KIND_WITHOUT_PIECE,   FAULT_AFTER_APART,
                                       FAULT_CASE_OTHER_FIX,       FAULT_NEVER_HOLDS,
                                       FAULT_CASE_NOT_ASKED};
    for (size_t i = 0; i < sizeof codes / sizeof codes[0]; i++)
        if (codes[i] == code) return true;
    return false;
}

static int by_place(const void *left, const void *right)
{
    const span *a = left, *b = right;
    const int files = THREE_WAY(a->file, b->file);
    return files != 0 ? files : THREE_WAY(a->start, b->start);
}

static bool is_touched(const part *p, span at)
{
    const span *all = p->touched;
    uint32_t behind;
    SORTED_PLACE(behind, p->touched_count, i,
                 all[i].file < at.file || (all[i].file == at.file && all[i].start <= at.start));
    return behind > 0 && all[behind - 1].file == at.file && at.start <= all[behind - 1].end;
}

static void hand_over(part *p, faults *from)
{
    uint32_t count;
    const fault *all = faults_sorted(from, p->scratch, &count);
    SORT(p->touched, p->touched_count, by_place);
    for (uint32_t i = 0; i < count; i++) {
        const fault *f = &all[i];
        if (may_be_missing(f->code) || is_touched(p, f->at)) continue;
        fault *out = fault_add(p->report->list, f->code, f->at, "%.*s", STR_ARG(f->text));
        if (out->help.n == 0 && f->help.n > 0)
            fault_help(p->report->list, out, "%.*s", STR_ARG(f->help));
        for (const fault_note *n = f->notes; n != NULL && out->notes == NULL; n = n->next)
            fault_note_at(p->report->list, out, n->at, "%.*s", STR_ARG(n->text));
    }
}

/* Reads what is left. True: something was left out again, so that the next round may come further.
 */
static bool ask_once(part *p)
{
    const sources *files = &p->report->files;
    faults *list = faults_new(p->round);
    const book *b =
        book_read(p->round, p->scratch, files, NO_FILE, (const node *const *)p->roots, list);
    if (b != NULL && faults_errors(list) == 0) program_build(p->round, p->scratch, b, list);
    if (b == NULL || faults_errors(list) > 0)
        return !is_too_large(list, p->scratch) && cut_errors(p, list, false);
    const listener *ear = listener_for_danger(p->round, p->scratch, b);
    find_doubts(&(doubter){.book = b, .ear = ear, .scratch = p->scratch, .list = list});
    hand_over(p, list);
    return false;
}

static tt_status ask_sound_part(void *context)
{
    part *p = context;
    const sources *files = &p->report->files;
    faults *list = faults_new(p->keep);
    p->roots = load_sources(p->keep, p->scratch, files, list);
    for (uint32_t i = 0; i < files->count; i++)
        if (p->roots[i] == NULL) p->roots[i] = &nothing; /* it could not be read */
    cut_errors(p, p->report->list, true);
    const arena_mark scratch = arena_here(p->scratch), round = arena_here(p->round);
    size_t taken = 0;
    bool on = !is_too_large(p->report->list, p->scratch);
    for (uint32_t i = 0; on && i < ROUNDS_MAX && taken < ROUNDS_BYTES; i++) {
        on = ask_once(p);
        taken += arena_size(p->scratch) + arena_size(p->round);
        arena_back_to(p->scratch, scratch);
        arena_back_to(p->round, round);
    }
    report_finish(p->report, p->scratch);
    return TT_OK;
}

tt_status tt_report_doubts(tt_report *report)
{
    assert(report != NULL && faults_errors(report->list) > 0);
    part p = {.report = report,
              .keep = arena_new(NULL, NULL),
              .scratch = arena_new(NULL, NULL),
              .round = arena_new(NULL, NULL)};
    tt_status status = TT_NO_MEMORY;
    if (p.keep != NULL && p.scratch != NULL && p.round != NULL)
        status =
            guarded((arena *[]){report->keep, p.keep, p.scratch, p.round}, 4, ask_sound_part, &p);
    arena_free(p.keep);
    arena_free(p.scratch);
    arena_free(p.round);
    return status;
}
