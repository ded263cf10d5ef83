/* A sheet for people: what matters most to whoever comes next stands first. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "face/sheet.h"
#include "face/sheet_tables.h"
#include "host/plain_text.h"

static bool is_kind(const json_t *step, const char *kind)
{
    return strcmp(sheet_text(step, "kind"), kind) == 0;
}

/* ---- the head ---- */

static void put_fact(const paper *p, const char *name, piece_of_text value)
{
    if (*value.text != 0) p->kind->fact(p, name, value);
}

static const char *state_words(const json_t *sheet)
{
    static const struct {
        const char *how, *words;
    } all[] = {{"gone", "Closed: the trouble is gone"},
               {"call", "Closed: handed to somebody else"},
               {"stop", "Closed: stopped for danger"}};
    const char *how = sheet_text(json_object_get(sheet, "case"), "closed");
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        if (strcmp(all[i].how, how) == 0) return all[i].words;
    return *how != 0 ? "Closed" : "Open";
}

static void put_head(const paper *p, const json_t *sheet)
{
    const json_t *about = json_object_get(sheet, "case"), *site = json_object_get(sheet, "site");
    char *pieces = sheet_joined(json_object_get(sheet, "about"));
    p->kind->facts_begin(p);
    put_fact(p, "State", our_text(state_words(sheet)));
    put_fact(p, "Handed to", rule_text(sheet_text(about, "handed_to")));
    put_fact(p, "It was", rule_text(sheet_text(about, "confirmed")));
    put_fact(p, "Begun", (piece_of_text){MOMENT, sheet_text(about, "begun")});
    put_fact(p, "Last entry", (piece_of_text){MOMENT, sheet_text(about, "last")});
    put_fact(p, "Site",
             rule_text(json_is_object(site) && *sheet_text(site, "title") == 0
                           ? "without a name"
                           : sheet_text(site, "title")));
    put_fact(p, "It is about", rule_text(pieces));
    put_fact(p, "Asked by", rule_text(sheet_text(about, "role")));
    put_fact(p, "Book", rule_text(sheet_text(json_object_get(sheet, "rulebook"), "name")));
    p->kind->facts_end(p);
    free(pieces);
    if (!sheet_says(json_object_get(sheet, "rulebook"), "same_as_in_case"))
        p->kind->boxed(
            p, false, NULL,
            our_text("The rules have changed since this case was last worked on. This sheet "
                     "goes by the rules as they are now."));
}

/* What the last one who left the case to others wrote for them. */
static void put_last_note(const paper *p, const json_t *sheet)
{
    const json_t *steps = json_object_get(sheet, "steps"), *last = NULL;
    for (size_t i = 0; i < json_array_size(steps); i++) {
        const json_t *step = json_array_get(steps, i);
        if (is_kind(step, "hold") || is_kind(step, "hand-over")) last = step;
    }
    if (last == NULL || *sheet_text(json_object_get(sheet, "case"), "closed") != 0) return;
    char *who = format_text("%s:", sheet_text(last, "by"));
    p->kind->boxed(p, false, who, our_text(sheet_text(last, "text")));
    free(who);
}

static void put_complaints(const paper *p, const json_t *sheet)
{
    size_t i;
    const json_t *step;
    bool any = false;
    p->kind->heading(p, "What is wrong");
    json_array_foreach(json_object_get(sheet, "steps"), i, step)
    {
        if (!sheet_counts(step) || !is_kind(step, "complaint")) continue;
        any = true;
        p->kind->paragraph(p, rule_text(sheet_text(step, "result")));
        char *said = format_text("In their own words: %s", sheet_text(step, "typed"));
        if (*sheet_text(step, "typed") != 0) p->kind->paragraph(p, our_text(said));
        free(said);
    }
    if (!any)
        p->kind->paragraph(
            p, our_text("Nobody has said yet what is wrong, or it was none of the list."));
}

/* What two people said otherwise, and nobody has settled. */
static void put_to_settle(const paper *p, const json_t *sheet)
{
    const json_t *all = json_object_get(sheet, "to_settle");
    if (json_array_size(all) == 0) return;
    p->kind->heading(p, "To settle");
    for (size_t i = 0; i < json_array_size(all); i++)
        p->kind->boxed(p, false, NULL, rule_text(json_string_value(json_array_get(all, i))));
}

/* ---- what comes next ---- */

static void put_list(const paper *p, const char *lead, const json_t *texts, bool numbered)
{
    if (json_array_size(texts) == 0) return;
    p->kind->paragraph(p, our_text(lead));
    p->kind->list_begin(p, numbered);
    for (size_t i = 0; i < json_array_size(texts); i++)
        p->kind->item(p, numbered ? i + 1 : 0,
                      rule_text(json_string_value(json_array_get(texts, i))));
    p->kind->list_end(p, numbered);
}

/* What keeps people safe comes before what to do. */
static void put_next_fix(const paper *p, const json_t *fix)
{
    put_list(p, "What can hurt there:", json_object_get(fix, "hazards"), false);
    put_list(p, "First make it safe:", json_object_get(fix, "isolate"), false);
    put_list(p, "Wear:", json_object_get(fix, "protect"), false);
    put_list(p, "You need:", json_object_get(fix, "needs"), false);
    put_list(p, "Then:", json_object_get(fix, "steps"), true);
}

static void put_call(const paper *p, const json_t *next)
{
    if (*sheet_text(next, "call") != 0)
        p->kind->boxed(p, false, "Call:", rule_text(sheet_text(next, "call")));
}

static void put_cure(const paper *p, const json_t *sheet)
{
    const json_t *tried = json_object_get(sheet, "tried");
    const json_t *last =
        json_array_size(tried) > 0 ? json_array_get(tried, json_array_size(tried) - 1) : NULL;
    p->kind->paragraph(p, our_text("Nothing: the trouble is gone."));
    p->kind->facts_begin(p);
    put_fact(p, "What helped", rule_text(sheet_text(last, "text")));
    put_fact(p, "What it most likely was", rule_text(sheet_text(last, "cured")));
    p->kind->facts_end(p);
}

static void put_next(const paper *p, const json_t *sheet)
{
    const json_t *next = json_object_get(sheet, "next"), *fix = json_object_get(next, "fix");
    const char *what = sheet_text(next, "do");
    p->kind->heading(p, "What comes next");
    if (strcmp(what, "stop") == 0)
        p->kind->boxed(p, true, "STOP:", rule_text(sheet_text(next, "stop")));
    if (strcmp(what, "ask") == 0)
        p->kind->boxed(p, false, "Ask:", rule_text(sheet_text(next, "question")));
    if (strcmp(what, "fix") == 0)
        p->kind->boxed(p, false, "Try:", rule_text(sheet_text(fix, "text")));
    if (strcmp(what, "put back") == 0)
        p->kind->boxed(p, false,
                       "Put back before anything else:", rule_text(sheet_text(fix, "text")));
    if (strcmp(what, "nothing") == 0) put_cure(p, sheet);
    if (strcmp(what, "call") == 0)
        p->kind->paragraph(p, our_text("There is nothing left that is worth trying without help."));
    if (strcmp(what, "call") == 0 || strcmp(what, "stop") == 0) put_call(p, next);
    if (json_is_object(fix)) put_next_fix(p, fix);
}

/* ---- what is different ---- */

/* Each entry that has this text, under a heading of its own. */
static void put_tried_texts(const paper *p, const json_t *sheet, const char *heading,
                            const char *key, bool after)
{
    size_t i;
    const json_t *tried;
    bool first = true;
    json_array_foreach(json_object_get(sheet, "tried"), i, tried)
    {
        if (*sheet_text(tried, key) == 0) continue;
        if (first) p->kind->heading(p, heading);
        if (first) p->kind->list_begin(p, false);
        first = false;
        char *words =
            after ? format_text("%s (after: %s)", sheet_text(tried, key), sheet_text(tried, "text"))
                  : copy_text(sheet_text(tried, key));
        p->kind->item(p, 0, rule_text(words));
        free(words);
    }
    if (!first) p->kind->list_end(p, false);
}

/* ---- cautions ---- */

static char *in_capitals(const char *word)
{
    char *text = format_text("%s%s", word, *word != 0 ? ":" : "");
    for (char *at = text; *at != 0; at++)
        if (*at >= 'a' && *at <= 'z') *at = (char)(*at - 'a' + 'A');
    return text;
}

static void put_signalled(const paper *p, const json_t *all)
{
    size_t i;
    const json_t *caution;
    json_array_foreach(all, i, caution)
    {
        char *signal = in_capitals(sheet_text(caution, "signal"));
        bool grave = strcmp(sheet_text(caution, "signal"), "danger") == 0;
        if (*signal != 0) p->kind->boxed(p, grave, signal, rule_text(sheet_text(caution, "text")));
        free(signal);
    }
}

/* What the book says before anything else. */
static void put_general(const paper *p, const json_t *all)
{
    size_t i;
    const json_t *caution;
    bool any = false;
    json_array_foreach(all, i, caution)
    {
        if (*sheet_text(caution, "signal") != 0) continue;
        if (!any) p->kind->list_begin(p, false);
        any = true;
        p->kind->item(p, 0, rule_text(sheet_text(caution, "text")));
    }
    if (any) p->kind->list_end(p, false);
}

static void put_cautions(const paper *p, const json_t *sheet)
{
    const json_t *all = json_object_get(sheet, "cautions");
    if (json_array_size(all) == 0) return;
    p->kind->heading(p, "Cautions shown");
    put_signalled(p, all);
    put_general(p, all);
}

static void put_origin(const paper *p, const json_t *sheet)
{
    const json_t *book = json_object_get(sheet, "rulebook");
    p->kind->heading(p, "What this sheet rests on");
    p->kind->facts_begin(p);
    put_fact(p, "Book", rule_text(sheet_text(book, "name")));
    put_fact(p, "Edition", our_text(sheet_text(book, "edition")));
    put_fact(p, "Revision", our_text(sheet_text(book, "revision")));
    put_fact(p, "Revision of the site",
             our_text(sheet_text(json_object_get(sheet, "site"), "revision")));
    put_fact(p, "Written by", our_text("telltale " TELLTALE_VERSION));
    p->kind->facts_end(p);
}

/* The page's own language is English. */
static const char *language_of(const json_t *sheet)
{
    const char *language = sheet_text(json_object_get(sheet, "rulebook"), "language");
    bool english = strncmp(language, "en", 2) == 0 && (language[2] == 0 || language[2] == '-');
    return *language == 0 || english ? NULL : language;
}

void sheet_on_paper(FILE *out, const paper_kind *kind, const json_t *sheet)
{
    const paper p = {.kind = kind, .out = out, .language = language_of(sheet)};
    char *title = format_text("Case %s", sheet_text(json_object_get(sheet, "case"), "number"));
    kind->begin(&p, title);
    put_head(&p, sheet);
    put_last_note(&p, sheet);
    put_complaints(&p, sheet);
    put_to_settle(&p, sheet);
    put_next(&p, sheet);
    put_tried_texts(&p, sheet, "See that this is put back", "put_back", true);
    put_tried_texts(&p, sheet, "Different from before", "different", false);
    put_cautions(&p, sheet);
    put_causes(&p, sheet);
    put_parts(&p, sheet);
    put_tried(&p, sheet);
    put_changes(&p, sheet);
    put_fixes(&p, sheet);
    put_steps(&p, sheet);
    put_what_follows(&p, sheet);
    put_site_facts(&p, sheet);
    put_origin(&p, sheet);
    kind->end(&p);
    free(title);
}
