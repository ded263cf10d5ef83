#include "face/sheet_tables.h"

#include <stdlib.h>
#include <string.h>

#include "face/sheet.h"
#include "face/wordings.h"
#include "host/plain_text.h"

/* Causes, fixes and parts that are less likely than this are counted only. */
static const double worth_telling = 0.01;
enum { LEAST_CAUSES = 3, MOST_ROWS = 12, MOST_BARS = 6 };

const char *sheet_text(const json_t *object, const char *key)
{
    const char *text = json_string_value(json_object_get(object, key));
    return text != NULL ? text : "";
}

piece_of_text our_text(const char *text)
{
    return (piece_of_text){OUR_TEXT, text};
}

piece_of_text rule_text(const char *text)
{
    return (piece_of_text){RULE_TEXT, text};
}

static piece_of_text figure(const char *text)
{
    return (piece_of_text){NUMBER, text};
}

bool sheet_says(const json_t *object, const char *key)
{
    return json_is_true(json_object_get(object, key));
}

bool sheet_counts(const json_t *step)
{
    return !sheet_says(step, "taken_back") && !sheet_says(step, "left_out");
}

char *sheet_joined(const json_t *texts)
{
    char *all = copy_text("");
    for (size_t i = 0; i < json_array_size(texts); i++) {
        char *longer = format_text("%s%s%s", all, i > 0 ? ", " : "",
                                   json_string_value(json_array_get(texts, i)));
        free(all);
        all = longer;
    }
    return all;
}

bool sheet_is_cured(const json_t *sheet)
{
    return strcmp(sheet_text(json_object_get(sheet, "next"), "do"), "nothing") == 0;
}

/* A heading of its own where there is something beneath it. */
static void put_table(const paper *p, const char *heading, const char *caption, text_table *table)
{
    if (table->row_count > 0 && heading != NULL) p->kind->heading(p, heading);
    table_put(table, p, caption);
}

static void say_more(const paper *p, size_t all, size_t shown)
{
    if (all <= shown) return;
    char *words = format_text("And %zu more, less likely.", all - shown);
    p->kind->paragraph(p, our_text(words));
    free(words);
}

/* ---- causes and parts ---- */

static double chance_at(const json_t *item)
{
    double chance = json_number_value(json_object_get(item, "chance"));
    return chance < 0 ? 0 : chance > 1 ? 1 : chance;
}

/* How many from the top are worth a row. */
static size_t worth_rows(const json_t *all, size_t least)
{
    size_t count = 0;
    while (count < json_array_size(all) && count < MOST_ROWS &&
           (count < least || chance_at(json_array_get(all, count)) >= worth_telling))
        count++;
    return count;
}

static piece_of_text cause_piece(const json_t *cause)
{
    const char *text = sheet_text(cause, "text");
    return json_is_null(json_object_get(cause, "name")) ? our_text(text) : rule_text(text);
}

static void put_bars(const paper *p, const json_t *causes, size_t rows)
{
    bar_shown bars[MOST_BARS];
    char *words[MOST_BARS];
    size_t count = rows < MOST_BARS ? rows : MOST_BARS;
    for (size_t i = 0; i < count; i++) {
        const json_t *cause = json_array_get(causes, i);
        words[i] = percent_words(chance_at(cause));
        bars[i] = (bar_shown){cause_piece(cause), words[i], chance_at(cause)};
    }
    p->kind->bars(p, "How likely the first causes are; the table below has the same figures", bars,
                  count);
    for (size_t i = 0; i < count; i++) free(words[i]);
}

static void put_pairs(const paper *p, const json_t *sheet)
{
    static const char *const columns[] = {"One", "The other", "Chance"};
    text_table table = {.columns = columns, .column_count = 3};
    const json_t *pairs = json_object_get(sheet, "pairs");
    size_t count = worth_rows(pairs, 1);
    for (size_t i = 0; i < count; i++) {
        const json_t *pair = json_array_get(pairs, i);
        char *chance = percent_words(chance_at(pair));
        const piece_of_text cells[] = {rule_text(sheet_text(pair, "first")),
                                       rule_text(sheet_text(pair, "second")), figure(chance)};
        table_add(&table, cells);
        free(chance);
    }
    put_table(p, NULL, "Two faults at once", &table);
}

static void say_misfit(const paper *p, const json_t *sheet)
{
    if (sheet_says(sheet, "not_listed_leads"))
        p->kind->paragraph(
            p, our_text(
                   "The answers fit none of the listed faults well. It may be something that these "
                   "rules don't know."));
    if (sheet_says(sheet, "all_ruled_out"))
        p->kind->paragraph(
            p, our_text("The answers rule out every listed fault. One of them may be mistaken."));
}

void put_causes(const paper *p, const json_t *sheet)
{
    static const char *const columns[] = {"Cause", "Chance", "What happens"};
    text_table table = {.columns = columns, .column_count = 3};
    const json_t *causes = json_object_get(sheet, "causes");
    size_t count = worth_rows(causes, LEAST_CAUSES);
    p->kind->heading(p,
                     sheet_is_cured(sheet) ? "What the answers pointed to" : "What it points to");
    say_misfit(p, sheet);
    put_bars(p, causes, count);
    for (size_t i = 0; i < count; i++) {
        const json_t *cause = json_array_get(causes, i);
        char *chance = percent_words(chance_at(cause));
        const piece_of_text cells[] = {cause_piece(cause), figure(chance),
                                       rule_text(sheet_text(cause, "means"))};
        table_add(&table, cells);
        free(chance);
    }
    put_table(p, NULL, "Causes, the likeliest first", &table);
    say_more(p, json_array_size(causes), count);
    put_pairs(p, sheet);
}

void put_parts(const paper *p, const json_t *sheet)
{
    static const char *const columns[] = {"Part", "Chance that it is needed"};
    text_table table = {.columns = columns, .column_count = 2};
    const json_t *parts = json_object_get(sheet, "parts");
    size_t count = sheet_is_cured(sheet) ? 0 : worth_rows(parts, 0);
    for (size_t i = 0; i < count; i++) {
        const json_t *part = json_array_get(parts, i);
        char *chance = percent_words(chance_at(part));
        const piece_of_text cells[] = {rule_text(sheet_text(part, "text")), figure(chance)};
        table_add(&table, cells);
        free(chance);
    }
    put_table(p, "Parts to bring", "Parts that the causes call for", &table);
    if (count > 0) say_more(p, json_array_size(parts), count);
}

/* ---- fixes ---- */

static char *outcome_of(const json_t *tried)
{
    const char *after = sheet_says(tried, "was_put_back") ? "; put back as found"
                        : sheet_says(tried, "under_way")  ? "; not finished"
                                                          : "";
    return format_text("%s%s", sheet_text(tried, "outcome"), after);
}

void put_tried(const paper *p, const json_t *sheet)
{
    static const char *const columns[] = {"Fix", "What came of it", "What it most likely was"};
    text_table table = {.columns = columns, .column_count = 3};
    size_t i;
    const json_t *tried;
    json_array_foreach(json_object_get(sheet, "tried"), i, tried)
    {
        char *outcome = outcome_of(tried);
        const piece_of_text cells[] = {rule_text(sheet_text(tried, "text")), our_text(outcome),
                                       rule_text(sheet_text(tried, "cured"))};
        table_add(&table, cells);
        free(outcome);
    }
    put_table(p, "What was tried", "Fixes in the order in which they were tried", &table);
}

static void add_change(text_table *table, const json_t *step)
{
    char *result = format_text("%s%s", sheet_text(step, "result"),
                               sheet_counts(step) ? "" : " (does not count any more)");
    const piece_of_text cells[] = {
        rule_text(sheet_text(step, "setting")), figure(sheet_text(step, "from")),
        figure(sheet_text(step, "to")),         {MOMENT, sheet_text(step, "time")},
        rule_text(sheet_text(step, "text")),    our_text(result)};
    table_add(table, cells);
    free(result);
}

void put_changes(const paper *p, const json_t *sheet)
{
    static const char *const columns[] = {"Setting", "Before", "After",
                                          "When",    "For",    "What came of it"};
    text_table table = {.columns = columns, .column_count = 6};
    size_t i;
    const json_t *step;
    json_array_foreach(json_object_get(sheet, "steps"), i, step)
    {
        if (*sheet_text(step, "setting") != 0) add_change(&table, step);
    }
    put_table(p, "What was changed", "Settings, each change in its turn", &table);
}

static void add_fix(text_table *table, const json_t *fix)
{
    char *chance = percent_words(chance_at(fix)),
         *minutes = minutes_words(json_number_value(json_object_get(fix, "minutes"))),
         *needs = sheet_joined(json_object_get(fix, "needs"));
    const piece_of_text cells[] = {rule_text(sheet_text(fix, "text")), figure(chance),
                                   figure(sheet_text(fix, "risk")),    our_text(minutes),
                                   figure(sheet_text(fix, "role")),    rule_text(needs)};
    table_add(table, cells);
    free(needs);
    free(minutes);
    free(chance);
}

/* Not by falling chance: the order is that of trying them. */
void put_fixes(const paper *p, const json_t *sheet)
{
    static const char *const columns[] = {"Fix", "Chance to help", "Risk", "Time", "Who", "Needs"};
    text_table table = {.columns = columns, .column_count = 6};
    const json_t *fixes = json_object_get(sheet, "fixes");
    size_t i;
    const json_t *fix;
    if (sheet_is_cured(sheet)) return;
    json_array_foreach(fixes, i, fix)
    {
        bool worth = table.row_count == 0 ||
                     (table.row_count < MOST_ROWS && chance_at(fix) >= worth_telling);
        if (worth) add_fix(&table, fix);
    }
    size_t shown = table.row_count;
    put_table(p, "Fixes left", "Fixes in the order to try them", &table);
    say_more(p, json_array_size(fixes), shown);
}

/* ---- what was said and what is known ---- */

/* What came of it, in one line; freed by the caller. */
static char *result_words(const json_t *step)
{
    const char *from = sheet_text(step, "from"), *to = sheet_text(step, "to");
    char *set = *to != 0 ? format_text("set from %s to %s: ", from, to) : copy_text("");
    const char *mark = sheet_says(step, "left_out")     ? " (left out: the rules no longer know it)"
                       : sheet_says(step, "taken_back") ? " (does not count any more)"
                                                        : "";
    char *words = format_text("%s%s%s", set, sheet_text(step, "result"), mark);
    free(set);
    return words;
}

/* Who it was is told only if there was more than one. */
static bool are_several(const json_t *steps)
{
    for (size_t i = 1; i < json_array_size(steps); i++)
        if (strcmp(sheet_text(json_array_get(steps, i), "by"),
                   sheet_text(json_array_get(steps, 0), "by")) != 0)
            return true;
    return false;
}

void put_steps(const paper *p, const json_t *sheet)
{
    static const char *const columns[] = {"What was asked or done", "What was said, or came of it",
                                          "Who", "When"};
    text_table table = {.columns = columns, .column_count = 4};
    const json_t *steps = json_object_get(sheet, "steps");
    bool several = are_several(steps);
    for (size_t i = 0; i < json_array_size(steps); i++) {
        const json_t *step = json_array_get(steps, i);
        char *result = result_words(step);
        const piece_of_text cells[] = {rule_text(sheet_text(step, "text")),
                                       rule_text(result),
                                       our_text(several ? sheet_text(step, "by") : ""),
                                       {MOMENT, sheet_text(step, "time")}};
        table_add(&table, cells);
        free(result);
    }
    put_table(p, "Answers in order", "Everything that was said and done", &table);
}

/* Told of the site, and not merely worked out from that, nor something that nobody knew. */
static bool is_of_site(const json_t *fact)
{
    const char *value = sheet_text(fact, "value");
    bool known = *value != 0 && strcmp(value, "not sure") != 0;
    return strcmp(sheet_text(fact, "from"), "site") == 0 && known && !sheet_says(fact, "reckoned");
}

/* The difference that a comparison has made is no news: both its sides are shown. */
static bool follows(const json_t *fact)
{
    const char *from = sheet_text(fact, "from");
    return (strcmp(from, "rule") == 0 || strcmp(from, "quantity") == 0) &&
           strstr(sheet_text(fact, "name"), " - ") == NULL;
}

static void put_fact_item(const paper *p, const json_t *fact)
{
    const char *value = sheet_text(fact, "value"), *source = sheet_text(fact, "source");
    char *words = format_text("%s%s%s%s%s%s", sheet_text(fact, "text"), *value != 0 ? " " : "",
                              value, *source != 0 ? " (" : "", source, *source != 0 ? ")" : "");
    p->kind->item(p, 0, rule_text(words));
    free(words);
}

static void put_facts(const paper *p, const json_t *sheet, const char *heading,
                      bool (*wanted)(const json_t *fact))
{
    size_t i;
    const json_t *fact;
    bool any = false;
    json_array_foreach(json_object_get(sheet, "facts"), i, fact)
    {
        if (!wanted(fact)) continue;
        if (!any) p->kind->heading(p, heading);
        if (!any) p->kind->list_begin(p, false);
        any = true;
        put_fact_item(p, fact);
    }
    if (any) p->kind->list_end(p, false);
}

void put_what_follows(const paper *p, const json_t *sheet)
{
    put_facts(p, sheet, "What follows from the answers", follows);
}

void put_site_facts(const paper *p, const json_t *sheet)
{
    put_facts(p, sheet, "Known of this site", is_of_site);
}
