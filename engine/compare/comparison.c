/* Two editions of a book: which cases and calls come out otherwise, and which entry did it. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "base/sorted.h"
#include "base/value.h"
#include "compare/course.h"
#include "compare/entries.h"
#include "session/session.h"

enum { MOST_GROUPS = 200, MOST_TOGETHER = 10, MOST_NAMED = 5 };

struct tt_comparison {
    arena *keep, *work, *scratch; /* work: one edition in between */
    const tt_source *sides[2];
    uint32_t side_counts[2];
    sources files[2];
    entry_list entries[2];
    edit *edits;
    uint32_t edit_count, group_count;
    item *items;
    uint32_t item_count, item_room;
    standpoint *at[2];
    standpoint *there; /* [item] with some of the edits */
    uint32_t *moved_items;
    tt_moved *moved;
    uint64_t seed;
    edition open; /* closed wherever the work ends */
    tt_compared out;
};

/* ---- playing items with an edition ---- */

static const char *site_of(const item *i, bool *none)
{
    *none = i->kind == ITEM_STORED && i->kept->site == NULL && !i->kept->practice;
    return i->kind == ITEM_STORED ? i->kept->site : NULL;
}

static bool same_site(const item *a, const item *b)
{
    bool none_a, none_b;
    const char *x = site_of(a, &none_a), *y = site_of(b, &none_b);
    return none_a == none_b && (x == NULL || y == NULL ? x == y : strcmp(x, y) == 0);
}

/* TT_FAULTY: with these files there is no book for that site. */
static tt_status open_for(tt_comparison *x, const tt_source *files, uint32_t count, const item *i)
{
    bool none;
    const char *text = site_of(i, &none);
    const tt_source site = {"site", text, text != NULL ? strlen(text) : 0};
    tt_report *report = NULL;
    edition_close(&x->open);
    tt_status status =
        tt_book_load_at(files, count, text != NULL || none ? &site : NULL, &x->open.book, &report);
    tt_report_free(report);
    return status;
}

/* Those for which `wanted` says so; what can't be played isn't there. */
static tt_status play_all(tt_comparison *x, arena *keep, const tt_source *files, uint32_t count,
                          const bool *wanted, standpoint *out)
{
    bool *done = ARENA_ARRAY(keep, bool, x->item_count);
    for (uint32_t i = 0; i < x->item_count; i++) {
        if (!wanted[i] || done[i]) continue;
        tt_status opened = open_for(x, files, count, &x->items[i]);
        if (opened == TT_NO_MEMORY) return opened;
        for (uint32_t k = i; k < x->item_count; k++) {
            if (!wanted[k] || done[k] || !same_site(&x->items[i], &x->items[k])) continue;
            done[k] = true;
            out[k] = (standpoint){0};
            if (opened != TT_OK) continue;
            tt_status status = course_play(keep, &x->open, &x->items[k], &out[k]);
            if (status == TT_NO_MEMORY) return status;
            if (status != TT_OK) out[k] = (standpoint){0};
        }
    }
    edition_close(&x->open);
    return TT_OK;
}

static tt_status play_edited(tt_comparison *x, const bool *made, const bool *wanted)
{
    uint32_t count;
    arena_back_to(x->work, (arena_mark){NULL, 0});
    const tt_source *files = edited_files(x->work, &x->entries[0], &x->entries[1], x->edits,
                                          x->edit_count, made, &count);
    return play_all(x, x->work, files, count, wanted, x->there);
}

static bool moves(const tt_comparison *x, uint32_t item_index, double *shift)
{
    tt_moved m = {0};
    const standpoint *before = &x->at[0][item_index], *now = &x->there[item_index];
    if (!now->course.there || !course_differs(before, now, &m)) return false;
    *shift = m.shift;
    return true;
}

/* ---- which edit did it ---- */

typedef struct blame {
    uint32_t group;
    double shift;
} blame;

static int most_first(const void *left, const void *right)
{
    const blame *a = left, *b = right;
    return a->shift != b->shift ? -THREE_WAY(a->shift, b->shift) : THREE_WAY(a->group, b->group);
}

/* The names of all entries of these groups. */
static void name_edits(tt_comparison *x, tt_moved *m, const uint32_t *groups, uint32_t count)
{
    const char **names = ARENA_ARRAY(x->keep, const char *, x->edit_count);
    for (uint32_t g = 0; g < count; g++)
        for (uint32_t i = 0; i < x->edit_count; i++)
            if (x->edits[i].group == groups[g]) names[m->edit_count++] = x->edits[i].name;
    m->edits = names;
}

typedef struct blames {
    blame *items; /* [moved][MOST_NAMED + 1] */
    uint32_t *counts;
} blames;

static void note_blame(blames *all, uint32_t moved, blame one)
{
    blame *own = all->items + (size_t)moved * (MOST_NAMED + 1);
    own[all->counts[moved]] = one;
    SORT(own, all->counts[moved] + 1, most_first);
    if (all->counts[moved] < MOST_NAMED) all->counts[moved]++;
}

static tt_status try_each(tt_comparison *x, const bool *wanted, blames *all)
{
    bool *made = ARENA_ARRAY(x->keep, bool, x->group_count);
    for (uint32_t g = 0; g < x->group_count; g++) {
        made[g] = true;
        tt_status status = play_edited(x, made, wanted);
        made[g] = false;
        if (status != TT_OK) return status;
        for (uint32_t i = 0; i < x->out.moved_count; i++) {
            double shift;
            if (moves(x, x->moved_items[i], &shift)) note_blame(all, i, (blame){g, shift});
        }
    }
    return TT_OK;
}

/* No edit alone: leaves out one after the other as long as it still moves. */
static tt_status find_together(tt_comparison *x, uint32_t index)
{
    bool *made = ARENA_ARRAY(x->keep, bool, x->group_count),
         *wanted = ARENA_ARRAY(x->keep, bool, x->item_count);
    uint32_t *left = ARENA_ARRAY(x->keep, uint32_t, x->group_count), count = 0;
    double shift;
    wanted[x->moved_items[index]] = true;
    for (uint32_t g = 0; g < x->group_count; g++) made[g] = true;
    for (uint32_t g = 0; g < x->group_count; g++) {
        made[g] = false;
        tt_status status = play_edited(x, made, wanted);
        if (status != TT_OK) return status;
        made[g] = !moves(x, x->moved_items[index], &shift);
    }
    for (uint32_t g = 0; g < x->group_count; g++)
        if (made[g]) left[count++] = g;
    name_edits(x, &x->moved[index], left, count);
    x->moved[index].together = true;
    return TT_OK;
}

static tt_status blame_edits(tt_comparison *x)
{
    const uint32_t count = x->out.moved_count;
    bool *wanted = ARENA_ARRAY(x->keep, bool, x->item_count);
    blames all = {ARENA_ARRAY(x->keep, blame, (size_t)count * (MOST_NAMED + 1)),
                  ARENA_ARRAY(x->keep, uint32_t, count)};
    for (uint32_t i = 0; i < count; i++) wanted[x->moved_items[i]] = true;
    tt_status status = x->group_count <= MOST_GROUPS ? try_each(x, wanted, &all) : TT_OK;
    uint32_t together = 0;
    for (uint32_t i = 0; i < count && status == TT_OK && x->group_count <= MOST_GROUPS; i++) {
        uint32_t groups[MOST_NAMED];
        for (uint32_t k = 0; k < all.counts[i]; k++)
            groups[k] = all.items[(size_t)i * (MOST_NAMED + 1) + k].group;
        if (all.counts[i] > 0)
            name_edits(x, &x->moved[i], groups, all.counts[i]);
        else if (together++ < MOST_TOGETHER)
            status = find_together(x, i);
    }
    return status;
}

/* ---- what moved ---- */

static unsigned gravity(const tt_moved *m)
{
    return m->cautions ? 4 : m->leading ? 3 : m->fixes || m->passed ? 2 : 1;
}

typedef struct found {
    tt_moved moved;
    uint32_t item;
} found;

static int biggest_first(const void *left, const void *right)
{
    const found *a = left, *b = right;
    const unsigned x = gravity(&a->moved), y = gravity(&b->moved);
    if (x != y) return -THREE_WAY(x, y);
    return a->moved.shift != b->moved.shift ? -THREE_WAY(a->moved.shift, b->moved.shift)
                                            : THREE_WAY(a->item, b->item);
}

static void find_moved(tt_comparison *x)
{
    static const char *const kinds[] = {"worked", "stored", "call"};
    found *all = ARENA_ARRAY(x->keep, found, x->item_count);
    uint32_t count = 0, of_kind[3] = {0};
    for (uint32_t i = 0; i < x->item_count; i++) {
        found f = {.moved = {.kind = kinds[x->items[i].kind], .name = x->items[i].name}, .item = i};
        if (!course_differs(&x->at[0][i], &x->at[1][i], &f.moved)) continue;
        of_kind[x->items[i].kind]++;
        all[count++] = f;
    }
    SORT(all, count, biggest_first);
    x->moved = ARENA_ARRAY(x->keep, tt_moved, count);
    x->moved_items = ARENA_ARRAY(x->keep, uint32_t, count);
    for (uint32_t i = 0; i < count; i++) {
        x->moved[i] = all[i].moved;
        x->moved_items[i] = all[i].item;
    }
    x->out.moved = x->moved;
    x->out.moved_count = count;
    x->out.moved_worked = of_kind[ITEM_WORKED];
    x->out.moved_stored = of_kind[ITEM_STORED];
    x->out.moved_calls = of_kind[ITEM_CALL];
}

/* ---- all of it ---- */

static void add_item(tt_comparison *x, item one)
{
    GROW(x->keep, x->items, x->item_count, x->item_room);
    x->items[x->item_count++] = one;
}

static bool has_worked(const entry_list *of, const entry *wanted)
{
    for (uint32_t i = 0; i < of->count; i++)
        if (str_eq(of->items[i].section, wanted->section) &&
            str_eq(of->items[i].name, wanted->name))
            return true;
    return false;
}

static void add_worked(tt_comparison *x)
{
    for (int side = 0; side < 2; side++)
        for (uint32_t i = 0; i < x->entries[side].count; i++) {
            const entry *e = &x->entries[side].items[i];
            if (!str_is(e->section, "cases")) continue;
            bool both = has_worked(&x->entries[1 - side], e);
            x->out.worked_old += !both && side == 0;
            x->out.worked_new += !both && side == 1;
            if (both && side == 0)
                add_item(x, (item){.kind = ITEM_WORKED, .name = cstr(x->keep, e->name)});
            x->out.worked += both && side == 0;
        }
}

static void add_calls(tt_comparison *x, uint64_t calls)
{
    for (uint64_t n = 0; n < calls; n++)
        add_item(x, (item){.kind = ITEM_CALL,
                           .name = str_printf(x->keep, "%llu", (unsigned long long)n).p,
                           .number = n});
    x->out.calls = (uint32_t)calls;
}

typedef struct looking {
    tt_comparison *x;
    uint64_t calls;
} looking;

static tt_status look(void *context)
{
    const looking *l = context;
    tt_comparison *x = l->x;
    x->out.stored = x->item_count;
    add_worked(x);
    add_calls(x, l->calls);
    bool *wanted = ARENA_ARRAY(x->keep, bool, x->item_count);
    x->there = ARENA_ARRAY(x->keep, standpoint, x->item_count);
    for (uint32_t i = 0; i < x->item_count; i++) wanted[i] = true;
    for (int side = 0; side < 2; side++) {
        x->at[side] = ARENA_ARRAY(x->keep, standpoint, x->item_count);
        tt_status status =
            play_all(x, x->keep, x->sides[side], x->side_counts[side], wanted, x->at[side]);
        if (status != TT_OK) return status;
    }
    find_moved(x);
    const char **names = ARENA_ARRAY(x->keep, const char *, x->edit_count);
    for (uint32_t i = 0; i < x->edit_count; i++) names[i] = x->edits[i].name;
    x->out.edits = names;
    x->out.edit_count = x->edit_count;
    return blame_edits(x);
}

tt_status tt_comparison_look(tt_comparison *x, uint64_t seed, uint64_t calls,
                             const tt_compared **out)
{
    assert(x->at[0] == NULL && calls < UINT32_MAX);
    x->open.seed = seed;
    looking l = {x, calls};
    tt_status status = guarded((arena *[]){x->keep, x->work, x->scratch}, 3, look, &l);
    edition_close(&x->open);
    *out = status == TT_OK ? &x->out : NULL;
    return status;
}

/* ---- beginning and end ---- */

typedef struct copying {
    tt_comparison *x;
    const tt_source *sides[2];
    size_t counts[2];
} copying;

static tt_status copy_sides(void *context)
{
    const copying *c = context;
    tt_comparison *x = c->x;
    for (int side = 0; side < 2; side++) {
        source *files = ARENA_ARRAY(x->keep, source, c->counts[side]);
        for (size_t i = 0; i < c->counts[side]; i++) {
            const tt_source *s = &c->sides[side][i];
            files[i] = (source){str_copy(x->keep, str_of(s->name)),
                                str_copy(x->keep, (str){s->bytes, s->length})};
        }
        x->files[side] = sources_sorted(x->keep, files, (uint32_t)c->counts[side]);
        tt_source *all = ARENA_ARRAY(x->keep, tt_source, x->files[side].count);
        for (uint32_t i = 0; i < x->files[side].count; i++)
            all[i] = (tt_source){x->files[side].items[i].name.p, x->files[side].items[i].bytes.p,
                                 x->files[side].items[i].bytes.n};
        x->sides[side] = all;
        x->side_counts[side] = x->files[side].count;
        x->entries[side] = entries_of(x->keep, x->scratch, &x->files[side]);
    }
    x->edits =
        entry_edits(x->keep, &x->entries[0], &x->entries[1], &x->edit_count, &x->group_count);
    return TT_OK;
}

static tt_status check_side(const tt_source *files, size_t count, tt_report **report)
{
    tt_book *book;
    tt_status status = tt_book_load(files, count, &book, report);
    tt_book_free(book);
    return status;
}

tt_status tt_comparison_new(const tt_source *before, size_t before_count, const tt_source *after,
                            size_t after_count, tt_comparison **out, tt_report **of_before,
                            tt_report **of_after)
{
    *out = NULL;
    *of_before = *of_after = NULL;
    tt_status status = check_side(before, before_count, of_before);
    tt_status other = status == TT_NO_MEMORY ? status : check_side(after, after_count, of_after);
    if (status == TT_OK) status = other;
    if (status != TT_OK) return status;
    tt_comparison *x = calloc(1, sizeof *x);
    if (x == NULL) return TT_NO_MEMORY;
    x->keep = arena_new(NULL, NULL);
    x->work = arena_new(NULL, NULL);
    x->scratch = arena_new(NULL, NULL);
    copying c = {x, {before, after}, {before_count, after_count}};
    status = x->keep == NULL || x->work == NULL || x->scratch == NULL
                 ? TT_NO_MEMORY
                 : guarded((arena *[]){x->keep, x->work, x->scratch}, 3, copy_sides, &c);
    if (status == TT_OK)
        *out = x;
    else
        tt_comparison_free(x);
    return status;
}

void tt_comparison_free(tt_comparison *x)
{
    if (x == NULL) return;
    edition_close(&x->open);
    arena_free(x->keep);
    arena_free(x->work);
    arena_free(x->scratch);
    free(x);
}

typedef struct keeping {
    tt_comparison *x;
    const tt_kept_case *given;
} keeping;

static const char *text_or_null(arena *keep, const char *text)
{
    return text != NULL ? cstr(keep, str_of(text)) : NULL;
}

static const tt_value *value_or_null(arena *keep, const tt_value *v)
{
    if (v == NULL) return NULL;
    tt_value *own = ARENA_NEW(keep, tt_value);
    *own = value_copy(keep, v);
    return own;
}

static tt_record record_copy(arena *keep, const tt_record *r)
{
    return (tt_record){text_or_null(keep, r->writer),
                       r->number,
                       r->lamport,
                       text_or_null(keep, r->time),
                       value_or_null(keep, r->seen),
                       text_or_null(keep, r->kind),
                       value_or_null(keep, r->data)};
}

static tt_status keep_case(void *context)
{
    const keeping *k = context;
    arena *keep = k->x->keep;
    const tt_kept_case *given = k->given;
    tt_kept_case *own = ARENA_NEW(keep, tt_kept_case);
    tt_record *records = ARENA_ARRAY(keep, tt_record, given->record_count);
    for (size_t i = 0; i < given->record_count; i++)
        records[i] = record_copy(keep, &given->records[i]);
    *own = (tt_kept_case){text_or_null(keep, given->name),
                          text_or_null(keep, given->site),
                          text_or_null(keep, given->writer),
                          text_or_null(keep, given->now),
                          records,
                          given->record_count,
                          given->practice};
    add_item(k->x, (item){.kind = ITEM_STORED, .name = own->name, .kept = own});
    return TT_OK;
}

tt_status tt_comparison_case(tt_comparison *x, const tt_kept_case *kept)
{
    keeping k = {x, kept};
    return guarded((arena *[]){x->keep, x->work, x->scratch}, 3, keep_case, &k);
}
