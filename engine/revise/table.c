/* Causes × signs from a book: rows, columns, cells, and how strongly each speaks. */
#include "revise/table.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "base/sorted.h"
#include "base/written.h"

/* ---- texts as written ---- */

/* With "{filter}" in it, where it is written for each. */
static const char *written_text(tt_table *t, const node *n)
{
    if (n != NULL && n->kind == NODE_TEXT) return cstr(t->keep, str_trim(n->text));
    for (uint32_t i = 0; n != NULL && n->kind == NODE_MAP && i < n->count; i++)
        if (str_eq(n->entries[i].key, t->book->book->language) || i + 1 == n->count)
            return written_text(t, n->entries[i].value);
    return "";
}

static const char *said(tt_table *t, span at)
{
    return cstr(t->keep, written_at(&t->files, at));
}

/* A symptom without a text reads as the answer that it rests on. */
static const char *sign_text(tt_table *t, const struct symptom *s)
{
    const book *b = t->book->book;
    const node *own = s->body == NULL ? NULL : node_get(s->body, "text");
    if (own != NULL || !s->rests_on_one) return written_text(t, own);
    const question *q = &b->questions[s->one_question];
    str answer = texts_for(&q->answers[s->one_answer].text, b->language);
    return str_printf(t->keep, "%.*s: %.*s", STR_ARG(q->of.base), STR_ARG(answer)).p;
}

/* ---- rows ---- */

typedef struct row_draft {
    table_cause own;
    tt_table_cause shown;
} row_draft;

typedef struct rows {
    tt_table *t;
    row_draft *items;
    uint32_t count;
} rows;

static const struct cause *cause_of_base(const book *b, str base)
{
    for (uint32_t i = 0; i < b->cause_count; i++)
        if (str_eq(b->causes[i].of.base, base)) return &b->causes[i];
    return NULL;
}

static bool has_row(const rows *r, str name)
{
    for (uint32_t i = 0; i < r->count; i++)
        if (str_eq(r->items[i].own.name, name)) return true;
    return false;
}

static void add_row(rows *r, str name)
{
    const struct cause *c = cause_of_base(r->t->book->book, base_of_name(name));
    if (c == NULL || has_row(r, name)) return;
    row_draft *d = &r->items[r->count++];
    d->own = (table_cause){name, c->body, span_nowhere(), str_eq(name, c->of.base)};
    if (d->own.whole) d->own.often_said = c->often_said;
    d->shown = (tt_table_cause){
        cstr(r->t->keep, name), written_text(r->t, node_get(c->body, "text")),
        written_text(r->t, node_get(c->body, "part")), said(r->t, d->own.often_said),
        place_words(r->t->keep, r->t->book, c->id.at)};
}

static const node *rates_of(const struct symptom *s)
{
    const node *n = s->body == NULL ? NULL : node_get(s->body, "shown-by");
    return n != NULL && n->kind == NODE_MAP ? n : NULL;
}

static int by_part_and_name(const void *a, const void *b)
{
    const row_draft *x = a, *y = b;
    int order = strcmp(x->shown.part, y->shown.part);
    return order != 0 ? order : strcmp(x->shown.name, y->shown.name);
}

static void find_causes(tt_table *t)
{
    const book *b = t->book->book;
    size_t most = b->cause_count;
    for (uint32_t i = 0; i < b->symptom_count; i++)
        most += rates_of(&b->symptoms[i]) == NULL ? 0 : rates_of(&b->symptoms[i])->count;
    rows r = {t, ARENA_ARRAY(t->scratch, row_draft, most), 0};
    for (uint32_t i = 0; i < b->cause_count; i++) add_row(&r, b->causes[i].of.base);
    for (uint32_t i = 0; i < b->symptom_count; i++)
        for (uint32_t k = 0;
             rates_of(&b->symptoms[i]) != NULL && k < rates_of(&b->symptoms[i])->count; k++)
            add_row(&r, rates_of(&b->symptoms[i])->entries[k].key);
    SORT(r.items, r.count, by_part_and_name);
    t->causes = ARENA_ARRAY(t->keep, table_cause, r.count);
    tt_table_cause *shown = ARENA_ARRAY(t->keep, tt_table_cause, r.count);
    for (uint32_t i = 0; i < r.count; i++) {
        t->causes[i] = r.items[i].own;
        shown[i] = r.items[i].shown;
    }
    t->view.causes = shown;
    t->view.cause_count = r.count;
}

static uint32_t row_named(const tt_table *t, str name)
{
    for (uint32_t i = 0; i < t->view.cause_count; i++)
        if (str_eq(t->causes[i].name, name)) return i;
    return NO_ID;
}

/* ---- columns and cells ---- */

typedef struct sign_draft {
    const struct symptom *from;
    tt_table_sign shown;
    tt_table_cell *cells;
    uint32_t cell_count;
} sign_draft;

static double decibels(double chance, double otherwise)
{
    assert(chance >= 0 && otherwise >= 0);
    if (chance <= 0) return otherwise > 0 ? -INFINITY : 0;
    return otherwise > 0 ? 10 * log10(chance / otherwise) : INFINITY;
}

static double chance_said(const struct symptom *s, span at)
{
    for (uint32_t i = 0; i < s->shown_by_count; i++) {
        const rate *r = &s->shown_by[i];
        if (r->said.file == at.file && r->said.start == at.start) return r->chance;
    }
    return 0;
}

static void add_cell(tt_table *t, sign_draft *d, uint32_t row, const char *written, double chance,
                     span at)
{
    if (row == NO_ID) return;
    const double strength = decibels(chance, d->from->otherwise);
    d->cells[d->cell_count++] =
        (tt_table_cell){row, 0, written, chance, strength, place_words(t->keep, t->book, at)};
    if (d->cell_count > 1 && strength <= d->shown.strongest) return;
    d->shown.strongest = strength;
    d->shown.part = t->view.causes[row].part;
}

static void draft_sign(tt_table *t, const struct symptom *s, sign_draft *d)
{
    const node *rates = rates_of(s);
    const book *b = t->book->book;
    *d = (sign_draft){.from = s};
    d->shown = (tt_table_sign){.name = cstr(t->keep, s->of.base),
                               .text = sign_text(t, s),
                               .part = "",
                               .otherwise = said(t, s->otherwise_said),
                               .otherwise_chance = s->otherwise,
                               .confirmed = s->from_confirms,
                               .at = place_words(t->keep, t->book, s->id.at)};
    d->cells =
        ARENA_ARRAY(t->scratch, tt_table_cell, rates != NULL ? rates->count : s->shown_by_count);
    for (uint32_t i = 0; rates != NULL && i < rates->count; i++) {
        const node *value = table_chance(rates->entries[i].value);
        if (value == NULL) continue;
        add_cell(t, d, row_named(t, rates->entries[i].key), said(t, value->at),
                 chance_said(s, value->at), value->at);
    }
    for (uint32_t i = 0; rates == NULL && i < s->shown_by_count; i++)
        add_cell(t, d, row_named(t, b->causes[s->shown_by[i].cause].of.base),
                 chance_word(CHANCE_WORDS - 1), s->shown_by[i].chance, s->shown_by[i].at);
}

static int by_sign(const void *a, const void *b)
{
    const sign_draft *x = a, *y = b;
    int order = strcmp(x->shown.part, y->shown.part);
    return order != 0 ? order : strcmp(x->shown.name, y->shown.name);
}

static bool drafted(const sign_draft *all, uint32_t count, str base)
{
    for (uint32_t i = 0; i < count; i++)
        if (str_eq(all[i].from->of.base, base)) return true;
    return false;
}

static void keep_signs(tt_table *t, const sign_draft *all, uint32_t count)
{
    uint32_t cell_count = 0;
    for (uint32_t i = 0; i < count; i++) cell_count += all[i].cell_count;
    tt_table_sign *shown = ARENA_ARRAY(t->keep, tt_table_sign, count);
    tt_table_cell *cells = ARENA_ARRAY(t->keep, tt_table_cell, cell_count);
    t->signs = ARENA_ARRAY(t->keep, table_sign, count);
    for (uint32_t i = 0, at = 0; i < count; i++) {
        shown[i] = all[i].shown;
        t->signs[i] =
            (table_sign){all[i].from->of.base, all[i].from->body, all[i].from->otherwise_said};
        for (uint32_t k = 0; k < all[i].cell_count; k++) {
            cells[at] = all[i].cells[k];
            cells[at++].sign = i;
        }
    }
    SORT(cells, cell_count, table_by_cell);
    t->view.signs = shown;
    t->view.sign_count = count;
    t->view.cells = cells;
    t->view.cell_count = cell_count;
}

static void find_signs(tt_table *t)
{
    const book *b = t->book->book;
    sign_draft *all = ARENA_ARRAY(t->scratch, sign_draft, b->symptom_count);
    uint32_t count = 0;
    for (uint32_t i = 0; i < b->symptom_count; i++)
        if (!drafted(all, count, b->symptoms[i].of.base))
            draft_sign(t, &b->symptoms[i], &all[count++]);
    SORT(all, count, by_sign);
    keep_signs(t, all, count);
}

/* ---- the public face ---- */

static tt_status build(void *context)
{
    tt_table *t = context;
    t->files = t->book->files;
    tt_source *originals = ARENA_ARRAY(t->keep, tt_source, t->files.count);
    for (uint32_t i = 0; i < t->files.count; i++)
        originals[i] = (tt_source){cstr(t->keep, t->files.items[i].name), t->files.items[i].bytes.p,
                                   t->files.items[i].bytes.n};
    t->originals = originals;
    find_causes(t);
    find_signs(t);
    t->view.title = t->book->info.title;
    t->view.language = t->book->info.language;
    return TT_OK;
}

/* Without a site all that is written for each piece is there, also of a kind that the book's own
 * has none of. Rules that name its pieces can be read with it alone. */
static tt_status load(const tt_source *given, size_t count, tt_book **out, tt_report **report)
{
    const tt_source none = {.name = "", .bytes = NULL};
    tt_report *bare_report = NULL;
    tt_book *bare = NULL;
    tt_status status = tt_book_load(given, count, out, report);
    if (status != TT_OK) return status;
    status = tt_book_load_at(given, count, &none, &bare, &bare_report);
    tt_report_free(bare_report);
    if (status == TT_FAULTY) return TT_OK; /* it needs its site */
    tt_book_free(*out);
    *out = bare;
    return status;
}

tt_status tt_table_new(const tt_source *given, size_t count, tt_table **out, tt_report **report)
{
    assert(out != NULL && report != NULL);
    tt_book *book;
    *out = NULL;
    tt_status status = load(given, count, &book, report);
    if (status != TT_OK) return status;
    tt_table *t = calloc(1, sizeof *t);
    if (t == NULL) {
        tt_book_free(book);
        return TT_NO_MEMORY;
    }
    *t = (tt_table){.keep = arena_new(NULL, NULL), .scratch = arena_new(NULL, NULL), .book = book};
    status = t->keep != NULL && t->scratch != NULL
                 ? guarded((arena *[]){t->keep, t->scratch}, 2, build, t)
                 : TT_NO_MEMORY;
    if (status == TT_OK)
        *out = t;
    else
        tt_table_free(t);
    return status;
}

/* ---- reading one that was edited ---- */

typedef struct reading_back {
    tt_table *t;
    const tt_source *file;
    tt_report *report;
} reading_back;

static tt_status read_back(void *context)
{
    const reading_back *a = context;
    tt_report *r = a->report;
    source *copy = ARENA_NEW(r->keep, source);
    *copy = (source){str_copy(r->keep, str_of(a->file->name)),
                     str_copy(r->keep, (str){a->file->bytes, a->file->length})};
    r->files = (sources){copy, 1};
    r->list = faults_new(r->keep);
    table_read_back(a->t, &r->files, r->list);
    report_finish(r, a->t->scratch);
    return faults_errors(r->list) > 0 ? TT_FAULTY : TT_OK;
}

typedef struct applying {
    tt_table *t;
    const tt_source *edited;
} applying;

static tt_status apply(void *context)
{
    applying *a = context;
    const edit_list *e = &a->t->edits;
    a->edited =
        edited_sources(a->t->scratch, a->t->originals, a->t->files.count, e->items, e->count);
    return TT_OK;
}

/* What only the whole book shows: a number for a cause that is not at that piece of equipment. */
static tt_status try_edited(tt_table *t, tt_report **report)
{
    tt_book *b = NULL;
    tt_report *wrong = NULL;
    applying a = {t, NULL};
    tt_status status = guarded((arena *[]){t->keep, t->scratch}, 2, apply, &a);
    if (status == TT_OK) status = tt_book_load(a.edited, t->files.count, &b, &wrong);
    tt_book_free(b);
    if (status != TT_FAULTY) {
        tt_report_free(wrong);
        return status;
    }
    tt_report_free(*report);
    *report = wrong;
    return status;
}

tt_status tt_table_read(tt_table *t, const tt_source *file, const tt_edit **edits, uint32_t *count,
                        tt_report **report)
{
    assert(file != NULL && edits != NULL && count != NULL);
    *report = NULL;
    *count = 0;
    tt_report *r = calloc(1, sizeof *r);
    if (r != NULL) r->keep = arena_new(NULL, NULL);
    if (r == NULL || r->keep == NULL) {
        free(r);
        return TT_NO_MEMORY;
    }
    reading_back a = {t, file, r};
    *report = r;
    tt_status status = guarded((arena *[]){t->keep, t->scratch, r->keep}, 3, read_back, &a);
    if (status == TT_OK && t->edits.count > 0) status = try_edited(t, report);
    if (status == TT_NO_MEMORY) {
        tt_report_free(*report);
        *report = NULL;
    }
    *edits = t->edits.items;
    if (status == TT_OK) *count = t->edits.count;
    return status;
}

void tt_table_free(tt_table *t)
{
    if (t == NULL) return;
    tt_book_free(t->book);
    arena_free(t->keep);
    arena_free(t->scratch);
    free(t);
}

tt_table_view tt_table_look(const tt_table *t)
{
    assert(t->view.title != NULL);
    return t->view;
}
