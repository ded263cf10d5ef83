/* A table that came back from a spreadsheet: what was changed in it, as edits of the book's files.
 */
#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "revise/csv.h"
#include "revise/map_edits.h"
#include "revise/table.h"

enum { NAMED_MOST = 5 };

typedef struct reading {
    tt_table *t;
    faults *list;
    csv table;
    uint32_t *sign_of;          /* [column] NO_ID: none */
    const csv_cell **cells;     /* [cause][sign] */
    const csv_cell **often;     /* [cause] */
    const csv_cell **otherwise; /* [sign]; null where the row isn't there */
    bool *has_sign, *has_cause, has_otherwise;
} reading;

/* ---- which rows and columns ---- */

static bool is_head(const csv *table)
{
    if (table->count == 0 || table->rows[0].count < TABLE_LEAD) return false;
    for (uint32_t i = 0; i < TABLE_LEAD; i++)
        if (!str_is(table->rows[0].cells[i].text, table_lead[i])) return false;
    return true;
}

static void no_head(reading *r)
{
    span at = r->table.count > 0 && r->table.rows[0].count > 0 ? r->table.rows[0].cells[0].at
                                                               : (span){0, 0, 0};
    fault *f = fault_add(
        r->list, FAULT_CSV_HEAD, at,
        "This is no table of causes and signs: its first row must be that of 'telltale table'.");
    fault_help(r->list, f,
               "Begin with part, cause, text, how-often and a column for each sign; 'telltale "
               "table BOOK --csv' writes such a table.");
}

static void unknown(reading *r, fault_code code, const csv_cell *cell, const char *what,
                    const str *names, uint32_t count)
{
    fault *f =
        fault_add(r->list, code, cell->at, "The book has no %s '%.*s'.", what, STR_ARG(cell->text));
    size_t nearest = str_nearest(r->t->scratch, cell->text, names, count);
    if (nearest != SIZE_MAX)
        fault_help(r->list, f, "Did you mean '%.*s'?", STR_ARG(names[nearest]));
    else
        fault_help(r->list, f,
                   "New ones are written in the book's files; then 'telltale table' has them.");
}

static uint32_t find_sign(const tt_table *t, str name)
{
    for (uint32_t i = 0; i < t->view.sign_count; i++)
        if (str_eq(t->signs[i].name, name)) return i;
    return NO_ID;
}

static uint32_t find_cause(const tt_table *t, str name)
{
    for (uint32_t i = 0; i < t->view.cause_count; i++)
        if (str_eq(t->causes[i].name, name)) return i;
    return NO_ID;
}

static void twice(reading *r, const csv_cell *cell, const char *what)
{
    fault *f = fault_add(r->list, FAULT_CSV_TWICE, cell->at, "The %s '%.*s' stands twice.", what,
                         STR_ARG(cell->text));
    fault_help(r->list, f, "Keep one of them.");
}

/* Spreadsheets add columns in which nothing stands. */
static bool is_empty_column(const csv *table, uint32_t column)
{
    for (uint32_t i = 0; i < table->count; i++)
        if (column < table->rows[i].count && table->rows[i].cells[column].text.n > 0) return false;
    return true;
}

static void find_column(reading *r, uint32_t column)
{
    tt_table *t = r->t;
    const csv_cell *cell = &r->table.rows[0].cells[column];
    const uint32_t sign = find_sign(t, cell->text);
    r->sign_of[column] = sign;
    if (sign == NO_ID && is_empty_column(&r->table, column)) return;
    if (sign == NO_ID) {
        str *names = ARENA_ARRAY(t->scratch, str, t->view.sign_count);
        for (uint32_t i = 0; i < t->view.sign_count; i++) names[i] = t->signs[i].name;
        unknown(r, FAULT_CSV_COLUMN, cell, "sign", names, t->view.sign_count);
        return;
    }
    if (r->has_sign[sign]) twice(r, cell, "sign");
    r->has_sign[sign] = true;
}

static void take_row(reading *r, const csv_row *row, uint32_t cause)
{
    const csv_row *head = &r->table.rows[0];
    for (uint32_t column = TABLE_LEAD; column < head->count; column++) {
        const uint32_t sign = r->sign_of[column];
        if (sign == NO_ID) continue;
        if (column >= row->count) {
            fault *f = fault_add(r->list, FAULT_CSV_MISSING, row->cells[row->count - 1].at,
                                 "This row ends before the column '%.*s'.",
                                 STR_ARG(head->cells[column].text));
            fault_help(
                r->list, f,
                "Every row has a cell for each sign, an empty one where there is no number.");
            return;
        }
        if (cause == NO_ID)
            r->otherwise[sign] = &row->cells[column];
        else
            r->cells[(size_t)cause * r->t->view.sign_count + sign] = &row->cells[column];
    }
}

static void find_row(reading *r, const csv_row *row)
{
    tt_table *t = r->t;
    const csv_cell *name = row->count > 1 ? &row->cells[1] : &row->cells[0];
    if (str_is(name->text, TABLE_OTHERWISE)) {
        if (r->has_otherwise) twice(r, name, "row");
        r->has_otherwise = true;
        take_row(r, row, NO_ID);
        return;
    }
    if (str_is(name->text, TABLE_SIGN) || str_is(name->text, TABLE_PART) ||
        str_is(name->text, TABLE_STRONGEST))
        return;
    const uint32_t cause = find_cause(t, name->text);
    if (cause == NO_ID) {
        str *names = ARENA_ARRAY(t->scratch, str, t->view.cause_count);
        for (uint32_t i = 0; i < t->view.cause_count; i++) names[i] = t->causes[i].name;
        unknown(r, FAULT_CSV_ROW, name, "cause", names, t->view.cause_count);
        return;
    }
    if (r->has_cause[cause]) twice(r, name, "cause");
    r->has_cause[cause] = true;
    r->often[cause] = row->count > TABLE_LEAD - 1 ? &row->cells[TABLE_LEAD - 1] : NULL;
    take_row(r, row, cause);
}

static void find_missing(reading *r, const bool *has, uint32_t count, bool signs)
{
    text_builder b = {.keep = r->t->scratch};
    uint32_t missing = 0;
    for (uint32_t i = 0; i < count; i++) {
        if (has[i] || missing++ >= NAMED_MOST) continue;
        text_addf(&b, "%s'%.*s'", missing > 1 ? ", " : "",
                  STR_ARG(signs ? r->t->signs[i].name : r->t->causes[i].name));
    }
    if (missing == 0) return;
    if (missing > NAMED_MOST) text_addf(&b, " and %u more", missing - NAMED_MOST);
    fault *f =
        fault_add(r->list, FAULT_CSV_MISSING, signs ? r->table.rows[0].cells[0].at : span_nowhere(),
                  "There is no %s of %.*s.", signs ? "column" : "row", STR_ARG(text_done(&b)));
    fault_help(r->list, f,
               "Leave all rows and columns in the table; to take a number out of the book, empty "
               "its cell.");
}

static void find_all(reading *r)
{
    const tt_table_view *v = &r->t->view;
    const csv_row *head = &r->table.rows[0];
    r->sign_of = ARENA_ARRAY(r->t->scratch, uint32_t, head->count);
    r->has_sign = ARENA_ARRAY(r->t->scratch, bool, v->sign_count);
    r->has_cause = ARENA_ARRAY(r->t->scratch, bool, v->cause_count);
    r->often = ARENA_ARRAY(r->t->scratch, const csv_cell *, v->cause_count);
    r->otherwise = ARENA_ARRAY(r->t->scratch, const csv_cell *, v->sign_count);
    r->cells = ARENA_ARRAY(r->t->scratch, const csv_cell *, (size_t)v->cause_count * v->sign_count);
    for (uint32_t i = TABLE_LEAD; i < head->count; i++) find_column(r, i);
    for (uint32_t i = 1; i < r->table.count; i++) find_row(r, &r->table.rows[i]);
    find_missing(r, r->has_sign, v->sign_count, true);
    find_missing(r, r->has_cause, v->cause_count, false);
    if (r->has_otherwise) return;
    fault *f = fault_add(r->list, FAULT_CSV_MISSING, span_nowhere(), "There is no row %s.",
                         TABLE_OTHERWISE);
    fault_help(r->list, f,
               "Leave it in the table: it says how often a sign is seen with other causes.");
}

/* ---- numbers ---- */

/* Spreadsheets write "85 %" as "85%" or "85.00%", and show no more than two decimals. */
static bool same_number(str now, str was)
{
    double a, b;
    if (str_eq(now, was)) return true;
    if (!chance_of(now, &a) || !chance_of(was, &b)) return false;
    if (fabs(a - b) <= 1e-12 * fmax(fabs(a), 1)) return true;
    size_t point = str_find_byte(now, '.');
    bool shown = str_ends(now, "%") && point != SIZE_MAX &&
                 str_trim(str_slice(now, point + 1, now.n - 1)).n == 2;
    return shown && fabs(a - b) <= 0.00005 + 1e-12 && str_find(was, STR(".")) != SIZE_MAX;
}

/* "90.50%" as the book would have it: "90.5 %". */
static const char *in_house(reading *r, str text)
{
    if (!str_ends(text, "%")) return cstr(r->t->keep, text);
    str number = str_trim(str_slice(text, 0, text.n - 1));
    if (str_find_byte(number, '.') != SIZE_MAX) {
        while (str_ends(number, "0")) number.n--;
        if (str_ends(number, ".")) number.n--;
    }
    return str_printf(r->t->keep, "%.*s %%", STR_ARG(number)).p;
}

static bool is_chance(str text)
{
    double chance;
    for (uint32_t i = 0; i < CHANCE_WORDS; i++)
        if (str_is(text, chance_word(i))) return true;
    return chance_of(text, &chance) && chance >= 0 && chance <= 1;
}

static bool is_how_often(str text)
{
    double share;
    for (uint32_t i = 0; i < OFTEN_WORDS; i++)
        if (str_is(text, often_word(i, &share))) return true;
    return str_to_double(text, &share) && share > 0 && share <= 1e6;
}

static str with_point(reading *r, str text)
{
    char *bytes = (char *)(uintptr_t)str_copy(r->t->scratch, text).p;
    for (size_t i = 0; i < text.n; i++)
        if (bytes[i] == ',') bytes[i] = '.';
    return (str){bytes, text.n};
}

static void bad_number(reading *r, const csv_cell *cell, bool often)
{
    double number;
    fault *f =
        fault_add(r->list, FAULT_CSV_NUMBER, cell->at, "'%.*s' is no %s.", STR_ARG(cell->text),
                  often ? "word or number for how often a cause is met" : "chance");
    str point = with_point(r, cell->text);
    if (!str_eq(point, cell->text) && (often ? is_how_often(point) : is_chance(point)))
        fault_help(r->list, f,
                   "Decimals stand behind a point: '%.*s'. Save the table in English (USA), or "
                   "mend the cell.",
                   STR_ARG(point));
    else if (often)
        fault_help(r->list, f,
                   "Write very common, common, occasional, uncommon, rare, or a number above 0.");
    else if (str_to_double(cell->text, &number) && number > 1 && number <= 100)
        fault_help(r->list, f, "Write '%.*s %%' if you mean %.*s of 100.", STR_ARG(cell->text),
                   STR_ARG(cell->text));
    else
        fault_help(r->list, f,
                   "Write a word such as often or usually, '70 %%', '0.7' or '7 of 10'; or empty "
                   "the cell.");
}

static void not_here(reading *r, const csv_cell *cell, str why)
{
    fault *f = fault_add(r->list, FAULT_CSV_FIXED, cell->at, "This can't be changed here: %.*s.",
                         STR_ARG(why));
    fault_help(r->list, f, "Put back what stood there, and change it in the book's files.");
}

/* ---- what was changed ---- */

typedef enum change { SAME, REPLACED, TAKEN_OUT, PUT_IN, WRONG } change;

static change change_of(reading *r, const csv_cell *cell, const char *was, bool often)
{
    str now = cell != NULL ? cell->text : STR(""), before = str_of(was);
    if (cell == NULL || same_number(now, before)) return SAME;
    if (now.n == 0) return TAKEN_OUT;
    if (!(often ? is_how_often(now) : is_chance(now))) {
        bad_number(r, cell, often);
        return WRONG;
    }
    return before.n == 0 ? PUT_IN : REPLACED;
}

/* One key of an entry that may be left out. */
static void edit_key(reading *r, const node *body, const char *after, const char *key, span said,
                     change how, str now)
{
    edit_list *e = &r->t->edits;
    if (how == REPLACED) edit_at(e, said, in_house(r, now));
    if (how == PUT_IN) edit_add_key(e, body, after, key, in_house(r, now));
    if (how != TAKEN_OUT) return;
    bool *taken = ARENA_ARRAY(r->t->scratch, bool, body->count);
    for (uint32_t i = 0; i < body->count; i++) taken[i] = str_is(body->entries[i].key, key);
    edit_map(e, body, taken, NULL, 0);
}

static void read_how_often_of(reading *r, uint32_t cause)
{
    const table_cause *c = &r->t->causes[cause];
    const csv_cell *cell = r->often[cause];
    change how = change_of(r, cell, r->t->view.causes[cause].how_often, true);
    if (how == SAME || how == WRONG) return;
    if (!c->whole)
        not_here(r, cell,
                 str_printf(r->t->scratch, "how often stands in the row '%.*s'",
                            STR_ARG(base_of_name(c->name))));
    else
        edit_key(r, c->body, "text", "how-often", c->often_said, how, cell->text);
}

static void read_otherwise_of(reading *r, uint32_t sign)
{
    const table_sign *s = &r->t->signs[sign];
    const csv_cell *cell = r->otherwise[sign];
    change how = change_of(r, cell, r->t->view.signs[sign].otherwise, false);
    if (how == SAME || how == WRONG) return;
    if (s->body == NULL)
        not_here(r, cell,
                 str_printf(r->t->scratch, "'confirms' at %s makes this sign",
                            r->t->view.signs[sign].at));
    else
        edit_key(r, s->body, "shown-by", "otherwise", s->otherwise_said, how, cell->text);
}

typedef struct map_changes {
    const node *map;
    bool *taken;
    added_entry *added;
    uint32_t taken_count, added_count;
} map_changes;

static uint32_t entry_named(const node *map, str key)
{
    for (uint32_t i = 0; i < map->count; i++)
        if (str_eq(map->entries[i].key, key)) return i;
    return NO_ID;
}

static void read_cell(reading *r, uint32_t cause, uint32_t sign, map_changes *m)
{
    const csv_cell *cell = r->cells[(size_t)cause * r->t->view.sign_count + sign];
    const tt_table_cell *was = table_cell(r->t, cause, sign);
    change how = change_of(r, cell, was != NULL ? was->written : "", false);
    if (how == SAME || how == WRONG) return;
    if (m->map == NULL) {
        not_here(r, cell,
                 str_printf(r->t->scratch, "'confirms' at %s makes this sign",
                            r->t->view.signs[sign].at));
        return;
    }
    const uint32_t entry = entry_named(m->map, r->t->causes[cause].name);
    assert((how == PUT_IN) == (entry == NO_ID));
    if (how == REPLACED)
        edit_at(&r->t->edits, table_chance(m->map->entries[entry].value)->at,
                in_house(r, cell->text));
    if (how == PUT_IN)
        m->added[m->added_count++] =
            (added_entry){r->t->view.causes[cause].name, in_house(r, cell->text)};
    if (how != TAKEN_OUT) return;
    if (m->map->entries[entry].value->kind == NODE_MAP) {
        not_here(r, cell, STR("the book also says in how many looks it is seen"));
        return;
    }
    m->taken[entry] = true;
    m->taken_count++;
}

static void none_left(reading *r, uint32_t sign)
{
    fault *f =
        fault_add(r->list, FAULT_CSV_FIXED, span_nowhere(),
                  "No cause would show the sign '%.*s' any more.", STR_ARG(r->t->signs[sign].name));
    fault_help(r->list, f, "Leave one number in its column, or take the sign out of %s.",
               r->t->view.signs[sign].at);
}

static void read_sign(reading *r, uint32_t sign)
{
    const node *body = r->t->signs[sign].body,
               *map = body == NULL ? NULL : node_get(body, "shown-by");
    map_changes m = {.map = map};
    m.taken = ARENA_ARRAY(r->t->scratch, bool, map != NULL ? map->count : 1);
    m.added = ARENA_ARRAY(r->t->scratch, added_entry, r->t->view.cause_count);
    for (uint32_t i = 0; i < r->t->view.cause_count; i++) read_cell(r, i, sign, &m);
    if (map == NULL || m.taken_count + m.added_count == 0) return;
    if (m.taken_count == map->count && m.added_count == 0)
        none_left(r, sign);
    else
        edit_map(&r->t->edits, map, m.taken, m.added, m.added_count);
}

void table_read_back(tt_table *t, const sources *file, faults *list)
{
    reading r = {.t = t, .list = list};
    t->edits =
        (edit_list){.keep = t->keep, .sources = t->originals, .source_count = t->files.count};
    if (!csv_read(t->scratch, file, list, &r.table)) return;
    if (!is_head(&r.table)) {
        no_head(&r);
        return;
    }
    find_all(&r);
    if (faults_errors(list) > 0) return;
    for (uint32_t i = 0; i < t->view.cause_count; i++) read_how_often_of(&r, i);
    for (uint32_t i = 0; i < t->view.sign_count; i++) read_sign(&r, i);
    for (uint32_t i = 0; i < t->view.sign_count; i++)
        read_otherwise_of(&r, i); /* it stands below the causes */
    edit_sort(&t->edits);
}
