/* The tables on the first page of a sheet: causes, parts, and what was tried. */
#include "paper/sheet_tables.h"

#include <math.h>
#include <string.h>

#include "say/catalogue.h"
#include "show/figures.h"
#include "show/standing_text.h"

/* Causes, fixes and parts that are less likely than this are counted only. */
static const double worth_telling = 0.01;
enum { MOST_ROWS = 12, LEAST_CAUSES = 3, MOST_CAUSES = 6, MOST_PARTS = 5 };

bool sheet_counts(const sheet_step *step)
{
    return !step->taken_back && !step->left_out;
}

bool sheet_is_of_fault(const shown_sheet *sheet)
{
    return strcmp(sheet->head.kind, tt_case_kind_name(TT_KIND_FAULT)) == 0;
}

bool sheet_is_cured(const shown_sheet *sheet)
{
    return strcmp(sheet->next.what, "nothing") == 0;
}

bool sheet_has_steps(const sheet_next_fix *fix)
{
    return fix->tell_count + fix->isolate_count + fix->release_count + fix->prove_count +
               fix->steps_count + fix->restore_count + fix->once_running_count >
           0;
}

void sheet_section(const filling *f, text_id heading)
{
    const piece_of_text words = our_words(f->p->in, heading);
    if (f->apart)
        f->p->kind->subheading(f->p, words);
    else
        f->p->kind->heading(f->p, words.text);
}

void sheet_table(const filling *f, text_id heading, text_id caption, text_table *table)
{
    if (table->row_count > 0) sheet_section(f, heading);
    table_put(table, f->p, catalogue_text(f->p->in, caption));
}

void sheet_more(const filling *f, size_t all, size_t shown)
{
    if (all > shown)
        f->p->kind->paragraph(f->p, our_text(FILL(f->keep, f->p->in, SHEET_MORE,
                                                  count_words(f->keep, (unsigned)(all - shown)))));
}

bool sheet_is_worth_row(size_t rows, size_t least, double chance)
{
    return rows < MOST_ROWS && (rows < least || chance >= worth_telling);
}

static double within_one(double chance)
{
    return fmin(1, fmax(0, chance));
}

piece_of_text sheet_chance(const filling *f, double chance)
{
    const double share = within_one(chance);
    return (piece_of_text){
        .kind = SHARE, .text = percent_words(f->keep, f->p->in, share), .share = share};
}

piece_of_text sheet_cause(const shown_cause *cause)
{
    return *cause->name == 0 ? our_text(cause->text) : rule_text(cause->text);
}

/* ---- causes ---- */

/* The set that holds 90 %, or its head; three at least, so that it is seen what comes after a cause
 * that leads by far. */
static uint32_t front_causes(const shown_sheet *s)
{
    uint32_t count = s->likely.count < LEAST_CAUSES ? LEAST_CAUSES : s->likely.count;
    if (count > MOST_CAUSES) count = MOST_CAUSES;
    return count < s->causes_count ? count : s->causes_count;
}

/* Which of the list hold 90 %, and with which chance: said of the whole set, also where it does not
 * fit here. */
static const char *set_words(const filling *f)
{
    const shown_likely *likely = &f->sheet->likely;
    const char *chance = percent_words(f->keep, f->p->in, within_one(likely->chance)),
               *count = count_words(f->keep, likely->count);
    if (likely->count == 1) return FILL(f->keep, f->p->in, SHEET_SET_OF_ONE, chance);
    return FILL(f->keep, f->p->in,
                likely->count > MOST_CAUSES ? SHEET_SET_IS_LARGE : SHEET_SET_HOLDS, chance, count);
}

static void say_where_it_leads(const filling *f)
{
    const shown_sheet *s = f->sheet;
    const list_end end = {s->nothing_wrong, s->probably_none, s->not_listed_leads, 0, 0};
    const char *leads = where_it_leads(f->keep, f->p->in, &end);
    if (leads != NULL) f->p->kind->paragraph(f->p, our_text(leads));
    if (s->all_ruled_out) f->p->kind->paragraph(f->p, our_words(f->p->in, TEXT_ALL_RULED_OUT));
    if (s->likely.count > 0) f->p->kind->paragraph(f->p, our_text(set_words(f)));
}

void put_likely(const filling *f)
{
    static const text_id columns[] = {SHEET_CAUSE, SHEET_CHANCE};
    text_table table = table_of(f->keep, f->p->in, columns, 2);
    const uint32_t count = front_causes(f->sheet);
    sheet_section(f, sheet_is_cured(f->sheet) ? SHEET_POINTED_TO : SHEET_POINTS_TO);
    say_where_it_leads(f);
    for (uint32_t i = 0; i < count; i++) {
        const shown_cause *cause = &f->sheet->causes[i];
        const piece_of_text cells[] = {sheet_cause(cause), sheet_chance(f, cause->chance)};
        table_add(&table, cells);
    }
    table_put(&table, f->p, catalogue_text(f->p->in, SHEET_CAUSES));
    sheet_more(f, f->sheet->causes_count, count);
}

/* ---- parts ---- */

void put_parts(const filling *f)
{
    static const text_id columns[] = {SHEET_PART, SHEET_PART_CHANCE};
    text_table table = table_of(f->keep, f->p->in, columns, 2);
    uint32_t count = 0;
    while (!sheet_is_cured(f->sheet) && count < f->sheet->parts_count && count < MOST_PARTS &&
           sheet_is_worth_row(count, 0, f->sheet->parts[count].chance)) {
        const sheet_part *part = &f->sheet->parts[count++];
        const piece_of_text cells[] = {rule_text(part->text), sheet_chance(f, part->chance)};
        table_add(&table, cells);
    }
    sheet_table(f, SHEET_PARTS, SHEET_PARTS_CAPTION, &table);
    if (count > 0) sheet_more(f, f->sheet->parts_count, count);
}

/* ---- what was tried ---- */

static const char *outcome_words_of(const filling *f, const sheet_tried *tried)
{
    if (tried->was_put_back) return FILL(f->keep, f->p->in, TEXT_TRIED_PUT_BACK, tried->outcome);
    return tried->under_way ? FILL(f->keep, f->p->in, TEXT_TRIED_UNDER_WAY, tried->outcome)
                            : tried->outcome;
}

void put_tried(const filling *f)
{
    static const text_id columns[] = {SHEET_FIX,   SHEET_READING, SHEET_BEFORE,
                                      SHEET_AFTER, SHEET_OUTCOME, SHEET_MOST_LIKELY};
    static const shown_measured unread = {"", "", ""};
    text_table table = table_of(f->keep, f->p->in, columns, 6);
    for (uint32_t i = 0; i < f->sheet->tried_count; i++) {
        const sheet_tried *tried = &f->sheet->tried[i];
        const shown_measured *m = tried->measured != NULL ? tried->measured : &unread;
        const piece_of_text cells[] = {rule_text(tried->text),
                                       rule_text(m->question),
                                       figure(m->before),
                                       figure(m->after),
                                       our_text(outcome_words_of(f, tried)),
                                       rule_text(tried->cured)};
        table_add(&table, cells);
    }
    sheet_table(f, SHEET_TRIED, SHEET_TRIED_CAPTION, &table);
}

bool sheet_is_kind(const sheet_step *step, const char *kind)
{
    return strcmp(step->kind, kind) == 0;
}
