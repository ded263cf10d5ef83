/* Causes and signs: what a book says of each, and how strongly. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "face/show_table.h"
#include "host/plain_text.h"
#include "say/catalogue.h"

/* ---- what is alike in both ---- */

/* Of one cause, or of one sign, the strongest first. */
typedef struct cell_list {
    const tt_table_cell **items;
    uint32_t count;
} cell_list;

static int by_strength(const void *a, const void *b)
{
    const tt_table_cell *x = *(const tt_table_cell *const *)a,
                        *y = *(const tt_table_cell *const *)b;
    if (x->decibels > y->decibels) return -1;
    if (x->decibels < y->decibels) return 1;
    return x->sign != y->sign ? (x->sign > y->sign) - (x->sign < y->sign)
                              : (x->cause > y->cause) - (x->cause < y->cause);
}

static cell_list cells_of(const tt_table_view *v, bool of_cause, uint32_t which)
{
    cell_list l = {take_memory((v->cell_count + 1) * sizeof(tt_table_cell *)), 0};
    for (uint32_t i = 0; i < v->cell_count; i++)
        if ((of_cause ? v->cells[i].cause : v->cells[i].sign) == which)
            l.items[l.count++] = &v->cells[i];
    if (l.count > 1) qsort(l.items, l.count, sizeof *l.items, by_strength);
    return l;
}

/* "+11.5 dB"; of what is certain there is no number. Freed by the caller. */
static char *strength_words(double decibels)
{
    if (isfinite(decibels)) return format_text("%+.1f dB", decibels);
    return copy_text(catalogue_text(TO_AUTHORS, decibels > 0 ? TABLE_CERTAIN : TABLE_RULED_OUT));
}

static const char *part_words(const char *part)
{
    return *part != 0 ? part : catalogue_text(TO_AUTHORS, TABLE_NO_PART);
}

/* ---- running lines ---- */

static void say_cell(const screen *s, const tt_table_view *v, const tt_table_cell *cell)
{
    char *strength = strength_words(cell->decibels),
         *lead = format_text("    %-12s %9s  ", cell->written, strength);
    const tt_table_sign *sign = &v->signs[cell->sign];
    say_item(s, lead, "%s (%s)", sign->text, sign->name);
    free(lead);
    free(strength);
}

static void say_cause(const screen *s, const tt_table_view *v, uint32_t cause)
{
    const tt_table_cause *c = &v->causes[cause];
    cell_list cells = cells_of(v, true, cause);
    say_item(s, "  ", "%s (%s)%s%s", c->text, c->name, *c->how_often != 0 ? ": " : "",
             c->how_often);
    for (uint32_t i = 0; i < cells.count; i++) say_cell(s, v, cells.items[i]);
    if (cells.count == 0) say_item(s, "    ", "%s", catalogue_text(TO_AUTHORS, TABLE_NO_SIGN));
    free(cells.items);
}

void table_in_words(const screen *s, const tt_table_view *v)
{
    say(s, "%s", catalogue_text(TO_AUTHORS, TABLE_HOW_TO_READ));
    for (uint32_t i = 0; i < v->cause_count; i++) {
        const bool new_part = i == 0 || strcmp(v->causes[i].part, v->causes[i - 1].part) != 0;
        if (new_part) say_nothing(s);
        if (new_part) say(s, "%s", part_words(v->causes[i].part));
        say_cause(s, v, i);
    }
}

/* ---- a page ---- */

static void add_pair(text_table *table, const char *head, const char *how_often, const char *other,
                     const tt_table_cell *cell)
{
    char *strength = cell != NULL ? strength_words(cell->decibels) : copy_text("");
    const piece_of_text row[] = {{.kind = RULE_TEXT, .text = head},
                                 {.kind = NUMBER, .text = how_often},
                                 {.kind = RULE_TEXT, .text = other},
                                 {.kind = NUMBER, .text = cell != NULL ? cell->written : ""},
                                 {.kind = NUMBER, .text = strength}};
    table_add(table, row);
    free(strength);
}

static void add_cause_rows(const tt_table_view *v, uint32_t cause, text_table *table)
{
    const tt_table_cause *c = &v->causes[cause];
    cell_list cells = cells_of(v, true, cause);
    for (uint32_t i = 0; i < cells.count; i++)
        add_pair(table, c->text, c->how_often, v->signs[cells.items[i]->sign].text, cells.items[i]);
    if (cells.count == 0)
        add_pair(table, c->text, c->how_often, catalogue_text(TO_AUTHORS, TABLE_NO_SIGN), NULL);
    free(cells.items);
}

static void add_sign_rows(const tt_table_view *v, uint32_t sign, text_table *table)
{
    const tt_table_sign *s = &v->signs[sign];
    cell_list cells = cells_of(v, false, sign);
    for (uint32_t i = 0; i < cells.count; i++)
        add_pair(table, s->text, s->otherwise, v->causes[cells.items[i]->cause].text,
                 cells.items[i]);
    free(cells.items);
}

static void put_parts(const paper *p, const tt_table_view *v, bool causes)
{
    const char *columns[] = {
        catalogue_text(TO_AUTHORS, causes ? TABLE_CAUSE : TABLE_SIGN_HEAD),
        catalogue_text(TO_AUTHORS, causes ? TABLE_HOW_OFTEN : TABLE_OTHERWISE_HEAD),
        catalogue_text(TO_AUTHORS, causes ? TABLE_SIGN_HEAD : TABLE_CAUSE),
        catalogue_text(TO_AUTHORS, TABLE_CHANCE), catalogue_text(TO_AUTHORS, TABLE_STRENGTH)};
    text_table table = {columns, sizeof columns / sizeof *columns, 0, NULL};
    const uint32_t count = causes ? v->cause_count : v->sign_count;
    for (uint32_t i = 0; i < count; i++) {
        const char *part = causes ? v->causes[i].part : v->signs[i].part;
        const char *next = i + 1 == count ? NULL
                           : causes       ? v->causes[i + 1].part
                                          : v->signs[i + 1].part;
        (causes ? add_cause_rows : add_sign_rows)(v, i, &table);
        if (next == NULL || strcmp(part, next) != 0) table_put(&table, p, part_words(part));
    }
}

void table_on_paper(FILE *out, const paper_kind *kind, const tt_table_view *v)
{
    const paper p = {.kind = kind, .out = out, .language = v->language, .in = TO_AUTHORS};
    kind->begin(&p, v->title);
    kind->paragraph(&p, (piece_of_text){.kind = OUR_TEXT,
                                        .text = catalogue_text(TO_AUTHORS, TABLE_HOW_TO_READ)});
    kind->heading(&p, catalogue_text(TO_AUTHORS, TABLE_CAUSES));
    put_parts(&p, v, true);
    kind->heading(&p, catalogue_text(TO_AUTHORS, TABLE_SIGNS));
    put_parts(&p, v, false);
    kind->end(&p);
}
