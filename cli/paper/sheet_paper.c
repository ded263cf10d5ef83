/* A sheet for people: what matters most to whoever comes next stands first. */
#include <string.h>

#include "paper/sheet.h"
#include "paper/sheet_tables.h"
#include "show/catalogue.h"

static bool is_kind(const sheet_step *step, const char *kind)
{
    return strcmp(step->kind, kind) == 0;
}

/* ---- the head ---- */

static void put_fact(const filling *f, text_id name, piece_of_text value)
{
    if (*value.text != 0) f->p->kind->fact(f->p, catalogue_text(f->p->in, name), value);
}

static text_id state_words(const char *how)
{
    static const struct {
        const char *how;
        text_id words;
    } all[] = {
        {"gone", SHEET_CLOSED_GONE}, {"call", SHEET_CLOSED_CALL}, {"stop", SHEET_CLOSED_STOP}};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        if (strcmp(all[i].how, how) == 0) return all[i].words;
    return *how != 0 ? SHEET_CLOSED : SHEET_OPEN;
}

static const char *site_words(const filling *f, const shown_site *site)
{
    if (site == NULL) return "";
    return *site->title != 0 ? site->title : catalogue_text(f->p->in, SHEET_NO_NAME);
}

static void put_head(const filling *f)
{
    const shown_sheet *sheet = f->sheet;
    const sheet_head *about = &sheet->head;
    f->p->kind->facts_begin(f->p);
    put_fact(f, SHEET_STATE, our_words(f->p->in, state_words(about->closed)));
    put_fact(f, SHEET_HANDED_TO, rule_text(about->handed_to));
    put_fact(f, SHEET_IT_WAS, rule_text(about->confirmed));
    put_fact(f, SHEET_BEGUN, (piece_of_text){MOMENT, about->begun});
    put_fact(f, SHEET_LAST, (piece_of_text){MOMENT, about->last});
    put_fact(f, SHEET_SITE, rule_text(site_words(f, sheet->site)));
    put_fact(f, SHEET_ABOUT, rule_text(texts_joined(f->keep, sheet->about, sheet->about_count)));
    put_fact(f, SHEET_ASKED_BY, rule_text(about->role));
    put_fact(f, SHEET_CALLER, (piece_of_text){OUR_TEXT, about->caller});
    put_fact(f, SHEET_BOOK, rule_text(sheet->rulebook.name));
    f->p->kind->facts_end(f->p);
    if (!sheet->rulebook.same_as_in_case)
        f->p->kind->boxed(f->p, false, NULL,
                          our_words(f->p->in, SHEET_RULES_CHANGED));
}

/* What the last one who left the case to others wrote for them. */
static void put_last_note(const filling *f)
{
    const sheet_step *last = NULL;
    for (uint32_t i = 0; i < f->sheet->steps_count; i++) {
        const sheet_step *step = &f->sheet->steps[i];
        if (is_kind(step, "hold") || is_kind(step, "hand-over")) last = step;
    }
    if (last == NULL || *f->sheet->head.closed != 0) return;
    f->p->kind->boxed(f->p, false, FILL(f->keep, f->p->in, SHEET_BY, last->by), our_text(last->text));
}

static void put_complaints(const filling *f)
{
    bool any = false;
    f->p->kind->heading(f->p, catalogue_text(f->p->in, SHEET_WHAT_IS_WRONG));
    for (uint32_t i = 0; i < f->sheet->steps_count; i++) {
        const sheet_step *step = &f->sheet->steps[i];
        if (!sheet_counts(step) || !is_kind(step, "complaint")) continue;
        any = true;
        f->p->kind->paragraph(f->p, rule_text(step->result));
        if (*step->typed != 0) f->p->kind->paragraph(f->p, our_text(FILL(f->keep, f->p->in, SHEET_OWN_WORDS, step->typed)));
    }
    if (!any) f->p->kind->paragraph(f->p, our_words(f->p->in, SHEET_NOBODY_SAID));
}

/* What two people said otherwise, and nobody has settled. */
static void put_to_settle(const filling *f)
{
    if (f->sheet->to_settle_count == 0) return;
    f->p->kind->heading(f->p, catalogue_text(f->p->in, SHEET_TO_SETTLE));
    for (uint32_t i = 0; i < f->sheet->to_settle_count; i++) f->p->kind->boxed(f->p, false, NULL, rule_text(f->sheet->to_settle[i]));
}

/* ---- what comes next ---- */

static void put_list(const filling *f, text_id lead, const char *const *texts, uint32_t count, bool numbered)
{
    if (count == 0) return;
    f->p->kind->paragraph(f->p, our_words(f->p->in, lead));
    f->p->kind->list_begin(f->p, numbered);
    for (uint32_t i = 0; i < count; i++) f->p->kind->item(f->p, numbered ? i + 1 : 0, rule_text(texts[i]));
    f->p->kind->list_end(f->p, numbered);
}

/* What keeps people safe comes before what to do. */
static void put_next_fix(const filling *f, const sheet_next_fix *fix)
{
    put_list(f, SHEET_HAZARDS, fix->hazards, fix->hazards_count, false);
    put_list(f, TEXT_WEAR, fix->protect, fix->protect_count, false);
    put_list(f, TEXT_YOU_NEED, fix->needs, fix->needs_count, false);
    put_list(f, TEXT_FIRST_TELL, fix->tell, fix->tell_count, false);
    put_list(f, SHEET_ISOLATE, fix->isolate, fix->isolate_count, true);
    put_list(f, TEXT_THEN_RELEASE, fix->release, fix->release_count, true);
    put_list(f, TEXT_THEN_PROVE, fix->prove, fix->prove_count, true);
    put_list(f, SHEET_THEN, fix->steps, fix->steps_count, true);
    put_list(f, TEXT_THEN_RESTORE, fix->restore, fix->restore_count, true);
    put_list(f, TEXT_ONCE_RUNNING, fix->once_running, fix->once_running_count, true);
}

static void put_call(const filling *f)
{
    if (*f->sheet->next.call != 0) f->p->kind->boxed(f->p, false, catalogue_text(f->p->in, SHEET_CALL), rule_text(f->sheet->next.call));
}

static void put_cure(const filling *f)
{
    const shown_sheet *sheet = f->sheet;
    const sheet_tried *last = sheet->tried_count > 0 ? &sheet->tried[sheet->tried_count - 1] : NULL;
    f->p->kind->paragraph(f->p, our_words(f->p->in, SHEET_NOTHING));
    f->p->kind->facts_begin(f->p);
    put_fact(f, SHEET_WHAT_HELPED, rule_text(last != NULL ? last->text : ""));
    put_fact(f, SHEET_MOST_LIKELY, rule_text(last != NULL ? last->cured : ""));
    f->p->kind->facts_end(f->p);
}

static void put_next(const filling *f)
{
    const paper *p = f->p;
    const sheet_next *next = &f->sheet->next;
    const char *what = next->what, *fix = next->fix != NULL ? next->fix->text : "";
    p->kind->heading(p, catalogue_text(f->p->in, SHEET_NEXT));
    if (strcmp(what, "stop") == 0) p->kind->boxed(p, true, catalogue_text(f->p->in, SHEET_STOP), rule_text(next->stop));
    if (strcmp(what, "ask") == 0) p->kind->boxed(p, false, catalogue_text(f->p->in, SHEET_ASK), rule_text(next->question));
    if (strcmp(what, "fix") == 0) p->kind->boxed(p, false, catalogue_text(f->p->in, SHEET_TRY), rule_text(fix));
    if (strcmp(what, "put back") == 0) p->kind->boxed(p, false, catalogue_text(f->p->in, SHEET_PUT_BACK), rule_text(fix));
    if (strcmp(what, "nothing") == 0) put_cure(f);
    if (strcmp(what, "call") == 0) p->kind->paragraph(p, our_words(f->p->in, SHEET_NOTHING_LEFT));
    if (strcmp(what, "call") == 0 || strcmp(what, "stop") == 0) put_call(f);
    if (next->fix != NULL) put_next_fix(f, next->fix);
}

/* ---- what is different ---- */

/* A list under a heading of its own, begun with its first item. */
static void put_under(const filling *f, text_id heading, bool *any, const char *text)
{
    if (!*any) f->p->kind->heading(f->p, catalogue_text(f->p->in, heading));
    if (!*any) f->p->kind->list_begin(f->p, false);
    *any = true;
    f->p->kind->item(f->p, 0, rule_text(text));
}

static void put_to_put_back(const filling *f)
{
    bool any = false;
    for (uint32_t i = 0; i < f->sheet->tried_count; i++) {
        const sheet_tried *tried = &f->sheet->tried[i];
        if (*tried->put_back != 0) put_under(f, SHEET_SEE_PUT_BACK, &any, FILL(f->keep, f->p->in, TEXT_PUT_BACK_AFTER, tried->put_back, tried->text));
    }
    if (any) f->p->kind->list_end(f->p, false);
}

static void put_different(const filling *f)
{
    bool any = false;
    for (uint32_t i = 0; i < f->sheet->tried_count; i++)
        if (*f->sheet->tried[i].different != 0) put_under(f, SHEET_DIFFERENT, &any, f->sheet->tried[i].different);
    if (any) f->p->kind->list_end(f->p, false);
}

/* ---- cautions ---- */

static const char *in_capitals(arena *keep, const char *word)
{
    const str text = str_printf(keep, "%s:", word);
    char *letters = (char *)(uintptr_t)text.p;
    for (size_t i = 0; i < text.n; i++)
        if (letters[i] >= 'a' && letters[i] <= 'z') letters[i] = (char)(letters[i] - 'a' + 'A');
    return text.p;
}

static void put_signalled(const filling *f)
{
    for (uint32_t i = 0; i < f->sheet->cautions_count; i++) {
        const sheet_caution *caution = &f->sheet->cautions[i];
        const bool grave = strcmp(caution->signal, "danger") == 0;
        if (*caution->signal != 0) f->p->kind->boxed(f->p, grave, in_capitals(f->keep, caution->signal), rule_text(caution->text));
    }
}

/* What the book says before anything else. */
static void put_general(const filling *f)
{
    bool any = false;
    for (uint32_t i = 0; i < f->sheet->cautions_count; i++) {
        if (*f->sheet->cautions[i].signal != 0) continue;
        if (!any) f->p->kind->list_begin(f->p, false);
        any = true;
        f->p->kind->item(f->p, 0, rule_text(f->sheet->cautions[i].text));
    }
    if (any) f->p->kind->list_end(f->p, false);
}

static void put_cautions(const filling *f)
{
    if (f->sheet->cautions_count == 0) return;
    f->p->kind->heading(f->p, catalogue_text(f->p->in, SHEET_CAUTIONS));
    put_signalled(f);
    put_general(f);
}

static void put_origin(const filling *f)
{
    const sheet_book *book = &f->sheet->rulebook;
    f->p->kind->heading(f->p, catalogue_text(f->p->in, SHEET_RESTS_ON));
    f->p->kind->facts_begin(f->p);
    put_fact(f, SHEET_BOOK, rule_text(book->name));
    put_fact(f, SHEET_EDITION, our_text(book->edition));
    put_fact(f, SHEET_REVISION, our_text(book->revision));
    put_fact(f, SHEET_SITE_REVISION, our_text(f->sheet->site != NULL ? f->sheet->site->revision : ""));
    put_fact(f, SHEET_WRITTEN_BY, our_text(FILL(f->keep, f->p->in, SHEET_PROGRAM, TELLTALE_VERSION)));
    f->p->kind->facts_end(f->p);
}

void sheet_on_paper(FILE *out, const paper_kind *kind, arena *keep, const shown_sheet *sheet)
{
    const tongue in = tongue_of(sheet->rulebook.language);
    const paper p = {.kind = kind, .out = out, .language = paper_language(in, sheet->rulebook.language), .in = in};
    const filling f = {&p, keep, sheet};
    kind->begin(&p, FILL(keep, in, SHEET_TITLE, sheet->head.number));
    put_head(&f);
    put_last_note(&f);
    put_complaints(&f);
    put_to_settle(&f);
    put_next(&f);
    put_to_put_back(&f);
    put_different(&f);
    put_cautions(&f);
    put_causes(&f);
    put_parts(&f);
    put_tried(&f);
    put_changes(&f);
    put_fixes(&f);
    put_steps(&f);
    put_what_follows(&f);
    put_site_facts(&f);
    put_origin(&f);
    kind->end(&p);
}
