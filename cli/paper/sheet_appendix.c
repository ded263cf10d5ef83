/* The appendix of a sheet: how what comes next is done step by step, and all that the first page
 * rests on. */
#include <string.h>

#include "host/memory.h"
#include "paper/sheet.h"
#include "paper/sheet_tables.h"
#include "say/catalogue.h"
#include "show/figures.h"

/* ---- how it is done ---- */

/* What keeps people safe comes before what to do. */
static void put_step_by_step(const filling *f)
{
    const sheet_next_fix *fix = f->sheet->next.fix;
    if (fix == NULL || !sheet_has_steps(fix)) return;
    sheet_section(f, SHEET_STEP_BY_STEP);
    f->p->kind->paragraph(f->p, rule_text(fix->text));
    paper_list(f->p, TEXT_WEAR, fix->protect, fix->protect_count, false);
    paper_list(f->p, TEXT_FIRST_TELL, fix->tell, fix->tell_count, false);
    paper_list(f->p, SHEET_ISOLATE, fix->isolate, fix->isolate_count, true);
    paper_list(f->p, TEXT_THEN_RELEASE, fix->release, fix->release_count, true);
    paper_list(f->p, TEXT_THEN_PROVE, fix->prove, fix->prove_count, true);
    paper_list(f->p, SHEET_THEN, fix->steps, fix->steps_count, true);
    paper_list(f->p, TEXT_THEN_RESTORE, fix->restore, fix->restore_count, true);
    paper_list(f->p, TEXT_ONCE_RUNNING, fix->once_running, fix->once_running_count, true);
}

/* ---- causes and fixes ---- */

static void put_causes(const filling *f)
{
    static const text_id columns[] = {SHEET_CAUSE, SHEET_CHANCE, SHEET_MEANS};
    text_table table = table_of(f->keep, f->p->in, columns, 3);
    uint32_t count = 0;
    while (count < f->sheet->causes_count &&
           sheet_is_worth_row(count, 3, f->sheet->causes[count].chance)) {
        const shown_cause *cause = &f->sheet->causes[count++];
        const piece_of_text cells[] = {sheet_cause(cause), sheet_chance(f, cause->chance),
                                       rule_text(cause->means)};
        table_add(&table, cells);
    }
    sheet_table(f, SHEET_CAUSES_IN_FULL, SHEET_CAUSES, &table);
    sheet_more(f, f->sheet->causes_count, count);
}

static void put_pairs(const filling *f)
{
    static const text_id columns[] = {SHEET_ONE, SHEET_OTHER, SHEET_CHANCE};
    text_table table = table_of(f->keep, f->p->in, columns, 3);
    for (uint32_t i = 0;
         i < f->sheet->pairs_count && sheet_is_worth_row(i, 1, f->sheet->pairs[i].chance); i++) {
        const shown_pair *pair = &f->sheet->pairs[i];
        const piece_of_text cells[] = {rule_text(pair->first), rule_text(pair->second),
                                       sheet_chance(f, pair->chance)};
        table_add(&table, cells);
    }
    table_put(&table, f->p, catalogue_text(f->p->in, SHEET_TWO_FAULTS));
}

static void add_fix(const filling *f, text_table *table, const shown_fix *fix)
{
    const piece_of_text cells[] = {rule_text(fix->text),
                                   sheet_chance(f, fix->chance),
                                   our_text(risk_words(f->p->in, fix->risk)),
                                   our_text(minutes_words_of(f->keep, f->p->in, fix->minutes)),
                                   figure(fix->role_text),
                                   rule_text(texts_joined(f->keep, fix->needs, fix->needs_count))};
    table_add(table, cells);
}

/* Not by falling chance: the order is that of trying them. While danger is not ruled out the list
 * says so. */
static void put_fixes(const filling *f)
{
    static const text_id columns[] = {SHEET_FIX,  SHEET_HELPS,   SHEET_RISK,
                                      SHEET_TIME, SHEET_DONE_BY, SHEET_NEEDS};
    text_table table = table_of(f->keep, f->p->in, columns, 6);
    if (sheet_is_cured(f->sheet) || f->sheet->fixes_count == 0) return;
    sheet_section(f, SHEET_FIXES);
    if (f->sheet->fixes[0].held)
        f->p->kind->boxed(f->p, false, NULL, our_words(f->p->in, TEXT_FIXES_HELD));
    for (uint32_t i = 0; i < f->sheet->fixes_count; i++)
        if (sheet_is_worth_row(table.row_count, 1, f->sheet->fixes[i].chance))
            add_fix(f, &table, &f->sheet->fixes[i]);
    const size_t shown = table.row_count;
    table_put(&table, f->p, catalogue_text(f->p->in, SHEET_FIXES_CAPTION));
    sheet_more(f, f->sheet->fixes_count, shown);
}

/* ---- what was said and done ---- */

/* Why it does not count, or no longer. X(mark, text) */
#define MARK_TABLE(X) \
    X("taken-back", SHEET_IS_TAKEN_BACK) \
    X("settled", SHEET_IS_SETTLED) \
    X("told-twice", SHEET_IS_TOLD_TWICE) \
    X("damaged", SHEET_IS_DAMAGED) \
    X("left-out", SHEET_IS_LEFT_OUT) \
    X("replaced", SHEET_IS_REPLACED) \
    X("read-again", SHEET_IS_READ_AGAIN)

static const char *mark_words(const filling *f, const sheet_step *step)
{
#define MARK_ROW(mark_, id) \
    if (strcmp(step->mark, mark_) == 0) return catalogue_text(f->p->in, id);
    MARK_TABLE(MARK_ROW)
#undef MARK_ROW
    return step->mark;
}

static piece_of_text when(const sheet_step *step)
{
    return (piece_of_text){.kind = MOMENT, .text = step->time};
}

static bool is_answer(const sheet_step *step)
{
    return sheet_is_kind(step, "answer") || sheet_is_kind(step, "answers");
}

/* Who it was is told in a column only if there was more than one. */
static bool are_several(const shown_sheet *sheet)
{
    for (uint32_t i = 1; i < sheet->steps_count; i++)
        if (strcmp(sheet->steps[i].by, sheet->steps[0].by) != 0) return true;
    return false;
}

static void put_answers(const filling *f)
{
    static const text_id columns[] = {SHEET_QUESTION, SHEET_ANSWER, SHEET_MARK, SHEET_WHO,
                                      SHEET_WHEN};
    text_table table = table_of(f->keep, f->p->in, columns, 5);
    const bool several = are_several(f->sheet);
    for (uint32_t i = 0; i < f->sheet->steps_count; i++) {
        const sheet_step *step = &f->sheet->steps[i];
        const piece_of_text cells[] = {rule_text(step->text), rule_text(step->result),
                                       our_text(mark_words(f, step)),
                                       our_text(several ? step->by : ""), when(step)};
        if (is_answer(step)) table_add(&table, cells);
    }
    sheet_table(f, SHEET_ANSWERS, SHEET_ANSWERS_CAPTION, &table);
}

static void put_changes(const filling *f)
{
    static const text_id columns[] = {SHEET_SETTING, SHEET_BEFORE, SHEET_AFTER, SHEET_FOR,
                                      SHEET_OUTCOME, SHEET_MARK,   SHEET_WHEN};
    text_table table = table_of(f->keep, f->p->in, columns, 7);
    for (uint32_t i = 0; i < f->sheet->steps_count; i++) {
        const sheet_step *step = &f->sheet->steps[i];
        const piece_of_text cells[] = {rule_text(step->setting),
                                       figure(step->from),
                                       figure(step->to),
                                       rule_text(step->text),
                                       our_text(step->result),
                                       our_text(mark_words(f, step)),
                                       when(step)};
        if (*step->setting != 0) table_add(&table, cells);
    }
    sheet_table(f, SHEET_CHANGED, SHEET_CHANGED_CAPTION, &table);
}

/* What came of it, in one line. */
static const char *result_words(const filling *f, const sheet_step *step)
{
    return *step->to != 0 ? FILL(f->keep, f->p->in, SHEET_SET, step->from, step->to, step->result)
                          : step->result;
}

/* All but the answers, which have a table of their own. */
static void put_records(const filling *f)
{
    static const text_id columns[] = {SHEET_DONE, SHEET_SAID, SHEET_MARK, SHEET_WHO, SHEET_WHEN};
    text_table table = table_of(f->keep, f->p->in, columns, 5);
    const bool several = are_several(f->sheet);
    for (uint32_t i = 0; i < f->sheet->steps_count; i++) {
        const sheet_step *step = &f->sheet->steps[i];
        const piece_of_text cells[] = {rule_text(step->text), rule_text(result_words(f, step)),
                                       our_text(mark_words(f, step)),
                                       our_text(several ? step->by : ""), when(step)};
        if (!is_answer(step)) table_add(&table, cells);
    }
    sheet_table(f, SHEET_RECORDS, SHEET_RECORDS_CAPTION, &table);
}

/* ---- what is known ---- */

/* Told of the site, and not merely worked out from that, nor something that nobody knew. */
static bool is_of_site(const sheet_fact *fact)
{
    const bool known = *fact->value != 0 && !fact->unknown;
    return strcmp(fact->from, "site") == 0 && known && !fact->reckoned;
}

/* The difference that a comparison has made is no news: both its sides are shown. */
static bool follows(const sheet_fact *fact)
{
    return (strcmp(fact->from, "rule") == 0 || strcmp(fact->from, "quantity") == 0) &&
           strstr(fact->name, " - ") == NULL;
}

static void put_fact_item(const filling *f, const sheet_fact *fact)
{
    const char *words = *fact->value != 0
                            ? FILL(f->keep, f->p->in, TEXT_ASKED_ANSWERED, fact->text, fact->value)
                            : fact->text;
    if (*fact->source != 0) words = FILL(f->keep, f->p->in, TEXT_FACT_SOURCE, words, fact->source);
    f->p->kind->item(f->p, 0, rule_text(words));
}

static void put_facts(const filling *f, text_id heading, bool (*wanted)(const sheet_fact *fact))
{
    bool any = false;
    for (uint32_t i = 0; i < f->sheet->facts_count; i++) {
        if (!wanted(&f->sheet->facts[i])) continue;
        if (!any) sheet_section(f, heading);
        if (!any) f->p->kind->list_begin(f->p, false);
        any = true;
        put_fact_item(f, &f->sheet->facts[i]);
    }
    if (any) f->p->kind->list_end(f->p, false);
}

/* ---- what it rests on ---- */

static const char *people(const filling *f)
{
    const shown_sheet *s = f->sheet;
    const char *all = "";
    for (uint32_t i = 0; i < s->steps_count; i++) {
        bool told = false;
        for (uint32_t k = 0; k < i; k++) told = told || strcmp(s->steps[k].by, s->steps[i].by) == 0;
        if (!told)
            all = *all == 0 ? s->steps[i].by : arena_text(f->keep, "%s, %s", all, s->steps[i].by);
    }
    return all;
}

static void put_origin(const filling *f)
{
    const sheet_book *book = &f->sheet->rulebook;
    sheet_section(f, SHEET_RESTS_ON);
    f->p->kind->facts_begin(f->p);
    paper_fact(f->p, SHEET_BEGUN, (piece_of_text){.kind = MOMENT, .text = f->sheet->head.begun});
    paper_fact(f->p, SHEET_PEOPLE, our_text(people(f)));
    paper_fact(f->p, SHEET_BOOK, rule_text(book->name));
    paper_fact(f->p, SHEET_EDITION, our_text(book->edition));
    paper_fact(f->p, SHEET_REVISION, our_text(book->revision));
    paper_fact(f->p, SHEET_SITE_REVISION,
               our_text(f->sheet->site != NULL ? f->sheet->site->revision : ""));
    paper_fact(f->p, SHEET_WRITTEN_BY,
               our_text(FILL(f->keep, f->p->in, SHEET_PROGRAM, TELLTALE_VERSION)));
    f->p->kind->facts_end(f->p);
}

void put_appendix(const filling *f)
{
    put_step_by_step(f);
    if (sheet_is_of_fault(f->sheet)) {
        put_causes(f);
        put_pairs(f);
        put_fixes(f);
    }
    put_answers(f);
    put_changes(f);
    put_records(f);
    put_facts(f, SHEET_FOLLOWS, follows);
    put_facts(f, SHEET_OF_SITE, is_of_site);
    put_origin(f);
}
