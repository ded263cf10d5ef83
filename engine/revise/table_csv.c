/* The table as CSV: causes are rows, signs are columns, and what describes a sign stands above. */
#include <math.h>

#include "revise/csv.h"
#include "revise/table.h"

/* A spreadsheet would take for a formula what begins so (RFC 4180 knows nothing of that). Texts are
 * not read back. */
static str harmless(tt_table *t, const char *text)
{
    bool formula = *text != 0 && str_find_byte(STR("=+-@"), *text) != SIZE_MAX;
    return formula ? str_printf(t->keep, "'%s", text) : str_of(text);
}

static void begin_row(text_builder *out, const char *const *lead)
{
    for (uint32_t i = 0; i < TABLE_LEAD; i++) csv_add(out, str_of(lead[i]), i == 0);
}

static str strongest(tt_table *t, const tt_table_sign *s)
{
    return isfinite(s->strongest) ? str_printf(t->keep, "%.1f", s->strongest) : STR("");
}

typedef str describe_sign(tt_table *t, const tt_table_sign *s);

static str sign_name(tt_table *t, const tt_table_sign *s)
{
    (void)t;
    return str_of(s->name);
}

static str sign_words(tt_table *t, const tt_table_sign *s)
{
    return harmless(t, s->text);
}

static str sign_part(tt_table *t, const tt_table_sign *s)
{
    return harmless(t, s->part);
}

static str sign_otherwise(tt_table *t, const tt_table_sign *s)
{
    (void)t;
    return str_of(s->otherwise);
}

static void add_head(tt_table *t, text_builder *out)
{
    static const struct {
        const char *name;
        describe_sign *cell;
    } rows[] = {{NULL, sign_name},
                {TABLE_SIGN, sign_words},
                {TABLE_PART, sign_part},
                {TABLE_OTHERWISE, sign_otherwise},
                {TABLE_STRONGEST, strongest}};
    for (size_t r = 0; r < sizeof rows / sizeof *rows; r++) {
        begin_row(out, rows[r].name == NULL ? table_lead
                                            : (const char *const[]){"", rows[r].name, "", ""});
        for (uint32_t i = 0; i < t->view.sign_count; i++)
            csv_add(out, rows[r].cell(t, &t->view.signs[i]), false);
        csv_end_row(out);
    }
}

static void add_cause(tt_table *t, uint32_t cause, text_builder *out)
{
    const tt_table_cause *c = &t->view.causes[cause];
    csv_add(out, harmless(t, c->part), true);
    csv_add(out, str_of(c->name), false);
    csv_add(out, harmless(t, c->text), false);
    csv_add(out, str_of(c->how_often), false);
    for (uint32_t i = 0; i < t->view.sign_count; i++) {
        const tt_table_cell *cell = table_cell(t, cause, i);
        csv_add(out, str_of(cell != NULL ? cell->written : ""), false);
    }
    csv_end_row(out);
}

typedef struct writing {
    tt_table *t;
    str text;
} writing;

static tt_status write_table(void *context)
{
    writing *w = context;
    text_builder out = {.keep = w->t->keep};
    add_head(w->t, &out);
    for (uint32_t i = 0; i < w->t->view.cause_count; i++) add_cause(w->t, i, &out);
    w->text = text_done(&out);
    return TT_OK;
}

tt_status tt_table_csv(tt_table *t, const char **bytes, size_t *length)
{
    writing w = {t, STR("")};
    tt_status status = guarded((arena *[]){t->keep, t->scratch}, 2, write_table, &w);
    *bytes = w.text.p;
    *length = w.text.n;
    return status;
}
