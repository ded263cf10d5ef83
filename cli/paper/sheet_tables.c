/* The tables and lists of a sheet. */
#include "paper/sheet_tables.h"

#include <math.h>
#include <string.h>

#include "host/memory.h"
#include "show/catalogue.h"
#include "show/figures.h"
#include "show/standing_text.h"

/* Causes, fixes and parts that are less likely than this are counted only. */
static const double worth_telling = 0.01;
enum { LEAST_CAUSES = 3, MOST_ROWS = 12, MOST_BARS = 6 };

bool sheet_counts(const sheet_step *step)
{
    return !step->taken_back && !step->left_out;
}

bool sheet_is_cured(const shown_sheet *sheet)
{
    return strcmp(sheet->next.what, "nothing") == 0;
}

/* A heading of its own where there is something beneath it. */
static void put_table(const paper *p, const char *heading, const char *caption, text_table *table)
{
    if (table->row_count > 0 && heading != NULL) p->kind->heading(p, heading);
    table_put(table, p, caption);
}

static void say_more(const filling *f, size_t all, size_t shown)
{
    if (all > shown) f->p->kind->paragraph(f->p, our_text(FILL(f->keep, f->p->in, SHEET_MORE, count_words(f->keep, (unsigned)(all - shown)))));
}

static piece_of_text percent(const filling *f, double chance)
{
    return figure(percent_words(f->keep, f->p->in, chance < 0 ? 0 : chance > 1 ? 1 : chance));
}

/* ---- causes and parts ---- */

/* Whether the row that follows so many is worth telling. */
static bool is_worth_row(size_t rows, size_t least, double chance)
{
    return rows < MOST_ROWS && (rows < least || chance >= worth_telling);
}

static size_t cause_rows(const shown_sheet *sheet)
{
    size_t count = 0;
    while (count < sheet->causes_count && is_worth_row(count, LEAST_CAUSES, sheet->causes[count].chance)) count++;
    return count;
}

static piece_of_text cause_piece(const shown_cause *cause)
{
    return *cause->name == 0 ? our_text(cause->text) : rule_text(cause->text);
}

static void put_bars(const filling *f, size_t rows)
{
    bar_shown bars[MOST_BARS];
    size_t count = rows < MOST_BARS ? rows : MOST_BARS;
    for (size_t i = 0; i < count; i++) {
        const shown_cause *cause = &f->sheet->causes[i];
        bars[i] = (bar_shown){cause_piece(cause), percent(f, cause->chance).text, fmax(0, fmin(1, cause->chance))};
    }
    f->p->kind->bars(f->p, catalogue_text(f->p->in, SHEET_BARS), bars, count);
}

static void put_pairs(const filling *f)
{
    static const text_id columns[] = {SHEET_ONE, SHEET_OTHER, SHEET_CHANCE};
    text_table table = table_of(f->keep, f->p->in, columns, 3);
    for (uint32_t i = 0; i < f->sheet->pairs_count && is_worth_row(i, 1, f->sheet->pairs[i].chance); i++) {
        const shown_pair *pair = &f->sheet->pairs[i];
        const piece_of_text cells[] = {rule_text(pair->first), rule_text(pair->second), percent(f, pair->chance)};
        table_add(&table, cells);
    }
    put_table(f->p, NULL, catalogue_text(f->p->in, SHEET_TWO_FAULTS), &table);
}

static void say_where_it_leads(const filling *f, uint32_t told)
{
    const shown_sheet *s = f->sheet;
    const list_end end = {s->nothing_wrong, s->probably_none, s->not_listed_leads, s->likely.count, told};
    const char *leads = where_it_leads(f->keep, f->p->in, &end);
    if (leads != NULL) f->p->kind->paragraph(f->p, our_text(leads));
    if (f->sheet->all_ruled_out) f->p->kind->paragraph(f->p, our_words(f->p->in, TEXT_ALL_RULED_OUT));
}

void put_causes(const filling *f)
{
    static const text_id columns[] = {SHEET_CAUSE, SHEET_CHANCE, SHEET_MEANS};
    text_table table = table_of(f->keep, f->p->in, columns, 3);
    const size_t count = cause_rows(f->sheet);
    f->p->kind->heading(f->p, sheet_is_cured(f->sheet) ? catalogue_text(f->p->in, SHEET_POINTED_TO) : catalogue_text(f->p->in, SHEET_POINTS_TO));
    say_where_it_leads(f, (uint32_t)count);
    put_bars(f, count);
    for (size_t i = 0; i < count; i++) {
        const shown_cause *cause = &f->sheet->causes[i];
        const piece_of_text cells[] = {cause_piece(cause), percent(f, cause->chance), rule_text(cause->means)};
        table_add(&table, cells);
    }
    put_table(f->p, NULL, catalogue_text(f->p->in, SHEET_CAUSES), &table);
    say_more(f, f->sheet->causes_count, count);
    put_pairs(f);
}

void put_parts(const filling *f)
{
    static const text_id columns[] = {SHEET_PART, SHEET_PART_CHANCE};
    text_table table = table_of(f->keep, f->p->in, columns, 2);
    size_t count = 0;
    while (!sheet_is_cured(f->sheet) && count < f->sheet->parts_count && is_worth_row(count, 0, f->sheet->parts[count].chance)) {
        const sheet_part *part = &f->sheet->parts[count++];
        const piece_of_text cells[] = {rule_text(part->text), percent(f, part->chance)};
        table_add(&table, cells);
    }
    put_table(f->p, catalogue_text(f->p->in, SHEET_PARTS), catalogue_text(f->p->in, SHEET_PARTS_CAPTION), &table);
    if (count > 0) say_more(f, f->sheet->parts_count, count);
}

/* ---- fixes ---- */

void put_tried(const filling *f)
{
    static const text_id columns[] = {SHEET_FIX, SHEET_OUTCOME, SHEET_MOST_LIKELY};
    text_table table = table_of(f->keep, f->p->in, columns, 3);
    for (uint32_t i = 0; i < f->sheet->tried_count; i++) {
        const sheet_tried *tried = &f->sheet->tried[i];
        const char *outcome = tried->was_put_back ? FILL(f->keep, f->p->in, TEXT_TRIED_PUT_BACK, tried->outcome)
                              : tried->under_way  ? FILL(f->keep, f->p->in, TEXT_TRIED_UNDER_WAY, tried->outcome)
                                                  : tried->outcome;
        const piece_of_text cells[] = {rule_text(tried->text), our_text(outcome), rule_text(tried->cured)};
        table_add(&table, cells);
    }
    put_table(f->p, catalogue_text(f->p->in, SHEET_TRIED), catalogue_text(f->p->in, SHEET_TRIED_CAPTION), &table);
}

static void add_change(const filling *f, text_table *table, const sheet_step *step)
{
    const char *result = sheet_counts(step) ? step->result : FILL(f->keep, f->p->in, SHEET_NOT_COUNTED, step->result);
    const piece_of_text cells[] = {rule_text(step->setting), figure(step->from),    figure(step->to),
                                   {MOMENT, step->time},     rule_text(step->text), our_text(result)};
    table_add(table, cells);
}

void put_changes(const filling *f)
{
    static const text_id columns[] = {SHEET_SETTING, SHEET_BEFORE, SHEET_AFTER, SHEET_WHEN, SHEET_FOR, SHEET_OUTCOME};
    text_table table = table_of(f->keep, f->p->in, columns, 6);
    for (uint32_t i = 0; i < f->sheet->steps_count; i++)
        if (*f->sheet->steps[i].setting != 0) add_change(f, &table, &f->sheet->steps[i]);
    put_table(f->p, catalogue_text(f->p->in, SHEET_CHANGED), catalogue_text(f->p->in, SHEET_CHANGED_CAPTION), &table);
}

static void add_fix(const filling *f, text_table *table, const shown_fix *fix)
{
    const piece_of_text cells[] = {rule_text(fix->text), percent(f, fix->chance),
                                   figure(fix->risk),    our_text(minutes_words_of(f->keep, f->p->in, fix->minutes)),
                                   figure(fix->role),    rule_text(texts_joined(f->keep, fix->needs, fix->needs_count))};
    table_add(table, cells);
}

/* While danger is not ruled out the list says so. */
static void put_fixes_heading(const filling *f)
{
    f->p->kind->heading(f->p, catalogue_text(f->p->in, SHEET_FIXES));
    if (f->sheet->fixes[0].held) f->p->kind->boxed(f->p, false, NULL, our_words(f->p->in, TEXT_FIXES_HELD));
}

/* Not by falling chance: the order is that of trying them. */
void put_fixes(const filling *f)
{
    static const text_id columns[] = {SHEET_FIX, SHEET_HELPS, SHEET_RISK, SHEET_TIME, SHEET_WHO, SHEET_NEEDS};
    text_table table = table_of(f->keep, f->p->in, columns, 6);
    if (sheet_is_cured(f->sheet) || f->sheet->fixes_count == 0) return;
    put_fixes_heading(f);
    for (uint32_t i = 0; i < f->sheet->fixes_count; i++)
        if (is_worth_row(table.row_count, 1, f->sheet->fixes[i].chance)) add_fix(f, &table, &f->sheet->fixes[i]);
    size_t shown = table.row_count;
    put_table(f->p, NULL, catalogue_text(f->p->in, SHEET_FIXES_CAPTION), &table);
    say_more(f, f->sheet->fixes_count, shown);
}

/* ---- what was said and what is known ---- */

/* What came of it, in one line. */
static const char *result_words(arena *keep, tongue in, const sheet_step *step)
{
    const char *words = *step->to != 0 ? FILL(keep, in, SHEET_SET, step->from, step->to, step->result) : step->result;
    if (step->left_out) return FILL(keep, in, SHEET_LEFT_OUT, words);
    return step->taken_back ? FILL(keep, in, SHEET_NOT_COUNTED, words) : words;
}

/* Who it was is told only if there was more than one. */
static bool are_several(const shown_sheet *sheet)
{
    for (uint32_t i = 1; i < sheet->steps_count; i++)
        if (strcmp(sheet->steps[i].by, sheet->steps[0].by) != 0) return true;
    return false;
}

void put_steps(const filling *f)
{
    static const text_id columns[] = {SHEET_ASKED, SHEET_SAID, SHEET_WHO, SHEET_WHEN};
    text_table table = table_of(f->keep, f->p->in, columns, 4);
    bool several = are_several(f->sheet);
    for (uint32_t i = 0; i < f->sheet->steps_count; i++) {
        const sheet_step *step = &f->sheet->steps[i];
        const piece_of_text cells[] = {rule_text(step->text), rule_text(result_words(f->keep, f->p->in, step)), our_text(several ? step->by : ""), {MOMENT, step->time}};
        table_add(&table, cells);
    }
    put_table(f->p, catalogue_text(f->p->in, SHEET_STEPS), catalogue_text(f->p->in, SHEET_STEPS_CAPTION), &table);
}

/* Told of the site, and not merely worked out from that, nor something that nobody knew. */
static bool is_of_site(const sheet_fact *fact)
{
    bool known = *fact->value != 0 && strcmp(fact->value, "not sure") != 0;
    return strcmp(fact->from, "site") == 0 && known && !fact->reckoned;
}

/* The difference that a comparison has made is no news: both its sides are shown. */
static bool follows(const sheet_fact *fact)
{
    return (strcmp(fact->from, "rule") == 0 || strcmp(fact->from, "quantity") == 0) && strstr(fact->name, " - ") == NULL;
}

static void put_fact_item(const filling *f, const sheet_fact *fact)
{
    const char *words = *fact->value != 0 ? FILL(f->keep, f->p->in, TEXT_ASKED_ANSWERED, fact->text, fact->value) : fact->text;
    if (*fact->source != 0) words = FILL(f->keep, f->p->in, TEXT_FACT_SOURCE, words, fact->source);
    f->p->kind->item(f->p, 0, rule_text(words));
}

static void put_facts(const filling *f, text_id heading, bool (*wanted)(const sheet_fact *fact))
{
    bool any = false;
    for (uint32_t i = 0; i < f->sheet->facts_count; i++) {
        if (!wanted(&f->sheet->facts[i])) continue;
        if (!any) f->p->kind->heading(f->p, catalogue_text(f->p->in, heading));
        if (!any) f->p->kind->list_begin(f->p, false);
        any = true;
        put_fact_item(f, &f->sheet->facts[i]);
    }
    if (any) f->p->kind->list_end(f->p, false);
}

void put_what_follows(const filling *f)
{
    put_facts(f, SHEET_FOLLOWS, follows);
}

void put_site_facts(const filling *f)
{
    put_facts(f, SHEET_OF_SITE, is_of_site);
}
