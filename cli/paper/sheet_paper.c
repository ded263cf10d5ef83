/* The first page of a sheet, for whoever goes on with the case; what it rests on is the appendix.
 * On A4 it is one page where not very much has happened. */
#include <string.h>

#include "paper/sheet.h"
#include "paper/sheet_tables.h"
#include "say/catalogue.h"
#include "show/figures.h"
#include "show/standing_text.h"

enum { MOST_CONTACTS = 6 };

/* ---- the head ---- */

/* Of an open case the state, of a closed one how it was closed. */
static text_id state_words(const sheet_head *about)
{
    static const struct {
        const char *how;
        text_id words;
    } all[] = {{"gone", SHEET_CLOSED_GONE}, {"done", SHEET_CLOSED_DONE},
               {"call", SHEET_CLOSED_CALL}, {"stop", SHEET_CLOSED_STOP},
               {"on-hold", SHEET_ON_HOLD},  {"waiting", SHEET_WAITS}};
    const char *how = *about->closed != 0 ? about->closed : about->state;
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        if (strcmp(all[i].how, how) == 0) return all[i].words;
    return *about->closed != 0 ? SHEET_CLOSED : SHEET_OPEN;
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
    if (about->practice) f->p->kind->boxed(f->p, false, NULL, our_words(f->p->in, PAGE_PRACTICE));
    f->p->kind->facts_begin(f->p);
    paper_fact(f->p, SHEET_STATE, our_words(f->p->in, state_words(about)));
    paper_fact(f->p, SHEET_FOR_WHOM, our_text(about->to_text));
    paper_fact(f->p, SHEET_UNTIL, (piece_of_text){.kind = MOMENT, .text = about->until});
    paper_fact(f->p, SHEET_HANDED_TO, rule_text(about->handed_to_text));
    paper_fact(f->p, SHEET_IT_WAS, rule_text(about->confirmed));
    paper_fact(f->p, SHEET_LAST, (piece_of_text){.kind = MOMENT, .text = about->last});
    paper_fact(f->p, SHEET_SITE, rule_text(site_words(f, sheet->site)));
    paper_fact(f->p, SHEET_ABOUT,
               rule_text(texts_joined(f->keep, sheet->about, sheet->about_count)));
    paper_fact(f->p, SHEET_ASKED_BY, rule_text(about->role_text));
    paper_fact(f->p, SHEET_CALLER, our_text(about->caller));
    f->p->kind->facts_end(f->p);
    if (!sheet->rulebook.same_as_in_case)
        f->p->kind->boxed(f->p, false, NULL, our_words(f->p->in, SHEET_RULES_CHANGED));
}

/* What the last one who left the case to others wrote for them. */
static void put_last_note(const filling *f)
{
    const sheet_step *last = NULL;
    for (uint32_t i = 0; i < f->sheet->steps_count; i++) {
        const sheet_step *step = &f->sheet->steps[i];
        if (sheet_is_kind(step, "hold") || sheet_is_kind(step, "hand-over")) last = step;
    }
    if (last == NULL || *f->sheet->head.closed != 0) return;
    f->p->kind->boxed(f->p, false, FILL(f->keep, f->p->in, SHEET_BY, last->by),
                      our_text(last->text));
}

static void put_complaints(const filling *f)
{
    bool any = false;
    f->p->kind->heading(f->p, catalogue_text(f->p->in, SHEET_WHAT_IS_WRONG));
    for (uint32_t i = 0; i < f->sheet->steps_count; i++) {
        const sheet_step *step = &f->sheet->steps[i];
        const bool filed = sheet_is_kind(step, "answers") && *step->about != 0;
        if (!sheet_counts(step) || !(filed || sheet_is_kind(step, "complaint"))) continue;
        any = true;
        f->p->kind->paragraph(f->p, rule_text(step->result));
        if (*step->typed != 0)
            f->p->kind->paragraph(f->p,
                                  our_text(FILL(f->keep, f->p->in, SHEET_OWN_WORDS, step->typed)));
    }
    if (!any) f->p->kind->paragraph(f->p, our_words(f->p->in, SHEET_NOBODY_SAID));
}

/* What two people said otherwise, and nobody has settled. */
static void put_to_settle(const filling *f)
{
    if (f->sheet->to_settle_count == 0) return;
    f->p->kind->heading(f->p, catalogue_text(f->p->in, SHEET_TO_SETTLE));
    for (uint32_t i = 0; i < f->sheet->to_settle_count; i++)
        f->p->kind->boxed(f->p, false, NULL, rule_text(f->sheet->to_settle[i]));
}

/* ---- what comes next ---- */

/* What can hurt stands beside what to do; how it is made safe, line by line, is in the appendix. */
static void put_next_fix(const filling *f, const sheet_next_fix *fix)
{
    const bool locks = fix->isolate_count + fix->release_count + fix->prove_count > 0;
    f->p->kind->facts_begin(f->p);
    paper_fact(f->p, SHEET_WHOSE_WORK, rule_text(fix->role_text));
    paper_fact(f->p, SHEET_DANGER_FROM,
               rule_text(texts_joined(f->keep, fix->hazards, fix->hazards_count)));
    paper_fact(f->p, SHEET_WEAR,
               rule_text(texts_joined(f->keep, fix->protect, fix->protect_count)));
    paper_fact(f->p, SHEET_TAKE_ALONG,
               rule_text(texts_joined(f->keep, fix->needs, fix->needs_count)));
    f->p->kind->facts_end(f->p);
    if (sheet_has_steps(fix))
        f->p->kind->paragraph(f->p,
                              our_words(f->p->in, locks ? SHEET_LOCK_FIRST : SHEET_STEPS_BEHIND));
}

/* What a round or a record has left to do. */
static void put_done(const filling *f)
{
    const bool round = strcmp(f->sheet->head.kind, tt_case_kind_name(TT_KIND_ROUND)) == 0;
    f->p->kind->paragraph(f->p, our_words(f->p->in, round ? SHEET_ROUND_DONE : SHEET_RECORD_DONE));
}

static void put_cure(const filling *f)
{
    const shown_sheet *sheet = f->sheet;
    const sheet_tried *last = sheet->tried_count > 0 ? &sheet->tried[sheet->tried_count - 1] : NULL;
    f->p->kind->paragraph(f->p, our_words(f->p->in, SHEET_NOTHING));
    f->p->kind->facts_begin(f->p);
    paper_fact(f->p, SHEET_WHAT_HELPED, rule_text(last != NULL ? last->text : ""));
    paper_fact(f->p, SHEET_MOST_LIKELY, rule_text(last != NULL ? last->cured : ""));
    f->p->kind->facts_end(f->p);
}

static void put_nothing_left(const filling *f)
{
    if (sheet_is_of_fault(f->sheet))
        put_cure(f);
    else
        put_done(f);
}

/* What whoever is called may try, though the one who asked may not. */
static void put_theirs(const filling *f)
{
    const shown_sheet *sheet = f->sheet;
    for (uint32_t i = 0; i < sheet->fixes_count; i++) {
        if (strcmp(sheet->fixes[i].standing, standing_name(TT_OTHER_ROLE)) != 0) continue;
        f->p->kind->paragraph(
            f->p, rule_text(FILL(f->keep, f->p->in, TEXT_THEY_MAY_BEGIN, sheet->fixes[i].text)));
        return;
    }
}

/* Whoever holds the sheet is another, and later: danger comes first for them too. */
static void put_gates(const filling *f)
{
    const sheet_next *next = &f->sheet->next;
    const bool works = strcmp(next->what, "ask") == 0 || strcmp(next->what, "fix") == 0 ||
                       strcmp(next->what, "put back") == 0;
    for (uint32_t i = 0; works && i < f->sheet->gates_count; i++) {
        const sheet_gate *gate = &f->sheet->gates[i];
        if (strcmp(next->question, gate->question) != 0)
            f->p->kind->boxed(f->p, false, catalogue_text(f->p->in, SHEET_GATE_FIRST),
                              rule_text(gate->question));
        f->p->kind->paragraph(f->p,
                              rule_text(FILL(f->keep, f->p->in, SHEET_GATE_ONLY,
                                             texts_joined(f->keep, gate->safe, gate->safe_count))));
    }
}

static void put_next(const filling *f)
{
    const paper *p = f->p;
    const sheet_next *next = &f->sheet->next;
    const char *what = next->what, *fix = next->fix != NULL ? next->fix->text : "";
    p->kind->heading(p, catalogue_text(f->p->in, SHEET_NEXT));
    put_gates(f);
    if (strcmp(what, "stop") == 0)
        p->kind->boxed(p, true, catalogue_text(f->p->in, SHEET_STOP), rule_text(next->stop));
    if (strcmp(what, "ask") == 0)
        p->kind->boxed(p, false, catalogue_text(f->p->in, SHEET_ASK), rule_text(next->question));
    if (strcmp(what, "fix") == 0)
        p->kind->boxed(p, false, catalogue_text(f->p->in, SHEET_TRY), rule_text(fix));
    if (strcmp(what, "put back") == 0)
        p->kind->boxed(p, false, catalogue_text(f->p->in, SHEET_PUT_BACK), rule_text(fix));
    if (strcmp(what, "nothing") == 0) put_nothing_left(f);
    if (strcmp(what, "call") == 0) p->kind->paragraph(p, our_words(f->p->in, SHEET_NOTHING_LEFT));
    if (strcmp(what, "call") == 0) put_theirs(f);
    if (next->fix != NULL) put_next_fix(f, next->fix);
}

/* ---- whom to call ---- */

static bool is_wanted(const filling *f, const tt_contact *c)
{
    const char *role = f->sheet->next.call;
    if (*role == 0 && *f->sheet->next.call_text != 0) return *c->role == 0; /* from outside */
    return *role != 0 && (strcmp(c->role, role) == 0 || strcmp(c->purpose, role) == 0);
}

static void add_contacts(const filling *f, text_table *table, bool wanted)
{
    for (uint32_t i = 0; i < f->sheet->contacts_count && table->row_count < MOST_CONTACTS; i++) {
        const tt_contact *c = &f->sheet->contacts[i];
        const piece_of_text cells[] = {rule_text(c->who), figure(c->telephone),
                                       rule_text(c->hours)};
        if (is_wanted(f, c) == wanted) table_add(table, cells);
    }
}

/* The one that is wanted first. A site may name nobody. */
static void put_whom_to_call(const filling *f)
{
    static const text_id columns[] = {SHEET_WHOM, SHEET_TELEPHONE, SHEET_HOURS};
    const bool call = *f->sheet->next.call_text != 0;
    text_table table = table_of(f->keep, f->p->in, columns, 3);
    if (call)
        f->p->kind->boxed(f->p, false, catalogue_text(f->p->in, SHEET_CALL),
                          rule_text(f->sheet->next.call_text));
    add_contacts(f, &table, true);
    add_contacts(f, &table, false);
    sheet_table(f, SHEET_WHOM_TO_CALL, SHEET_WHOM_CAPTION, &table);
    if (f->sheet->contacts_count > MOST_CONTACTS)
        f->p->kind->paragraph(f->p, our_text(FILL(f->keep, f->p->in, SHEET_ALL_CONTACTS,
                                                  count_words(f->keep, f->sheet->contacts_count))));
}

/* ---- what is different ---- */

static void put_unfinished(const filling *f)
{
    const sheet_unfinished *u = f->sheet->unfinished;
    if (u == NULL) return;
    f->p->kind->boxed(f->p, true, catalogue_text(f->p->in, SHEET_UNFINISHED), rule_text(u->text));
    if (u->done_count == 0) return;
    f->p->kind->paragraph(f->p, our_words(f->p->in, SHEET_DONE_OF_IT));
    f->p->kind->list_begin(f->p, false);
    for (uint32_t i = 0; i < u->done_count; i++) f->p->kind->item(f->p, 0, rule_text(u->done[i]));
    f->p->kind->list_end(f->p, false);
}

static const char *left_different(const filling *f, const sheet_tried *tried)
{
    if (*tried->put_back != 0)
        return FILL(f->keep, f->p->in, SHEET_TO_PUT_BACK, tried->put_back, tried->text);
    return *tried->different != 0 ? FILL(f->keep, f->p->in, SHEET_STAYS, tried->different) : NULL;
}

static bool is_as_found(const filling *f)
{
    for (uint32_t i = 0; i < f->sheet->tried_count; i++)
        if (left_different(f, &f->sheet->tried[i]) != NULL) return false;
    return f->sheet->unfinished == NULL;
}

static void put_not_as_found(const filling *f)
{
    bool any = false;
    if (is_as_found(f)) return;
    f->p->kind->heading(f->p, catalogue_text(f->p->in, SHEET_NOT_AS_FOUND));
    put_unfinished(f);
    for (uint32_t i = 0; i < f->sheet->tried_count; i++) {
        const char *words = left_different(f, &f->sheet->tried[i]);
        if (words == NULL) continue;
        if (!any) f->p->kind->list_begin(f->p, false);
        any = true;
        f->p->kind->item(f->p, 0, rule_text(words));
    }
    if (any) f->p->kind->list_end(f->p, false);
}

/* ---- dangers and cautions ---- */

static void put_dangers(const filling *f)
{
    static const text_id columns[] = {SHEET_DANGER, SHEET_WHEN, SHEET_WHO};
    text_table table = table_of(f->keep, f->p->in, columns, 3);
    for (uint32_t i = 0; i < f->sheet->dangers_count; i++) {
        const sheet_danger *danger = &f->sheet->dangers[i];
        const piece_of_text cells[] = {
            rule_text(danger->text), {.kind = MOMENT, .text = danger->time}, our_text(danger->by)};
        table_add(&table, cells);
    }
    table_put(&table, f->p, catalogue_text(f->p->in, SHEET_DANGERS_CAPTION));
}

static void put_signalled(const filling *f)
{
    for (uint32_t i = 0; i < f->sheet->cautions_count; i++) {
        const sheet_caution *caution = &f->sheet->cautions[i];
        const bool grave = strcmp(caution->signal, "danger") == 0;
        if (*caution->signal != 0)
            f->p->kind->boxed(f->p, grave,
                              str_printf(f->keep, "%s:", signal_word(f->p->in, caution->signal)).p,
                              rule_text(caution->text));
    }
}

/* What the book says before anything else. */
static void put_general(const filling *f)
{
    bool any = false;
    for (uint32_t i = 0; i < f->sheet->cautions_count; i++) {
        if (*f->sheet->cautions[i].signal != 0) continue;
        if (!any) f->p->kind->heading(f->p, catalogue_text(f->p->in, SHEET_ALWAYS));
        if (!any) f->p->kind->list_begin(f->p, false);
        any = true;
        f->p->kind->item(f->p, 0, rule_text(f->sheet->cautions[i].text));
    }
    if (any) f->p->kind->list_end(f->p, false);
}

static bool is_warned(const shown_sheet *sheet)
{
    for (uint32_t i = 0; i < sheet->cautions_count; i++)
        if (*sheet->cautions[i].signal != 0) return true;
    return sheet->dangers_count > 0;
}

/* Of this case: read before what comes next. */
static void put_warnings(const filling *f)
{
    if (!is_warned(f->sheet)) return;
    f->p->kind->heading(f->p, catalogue_text(f->p->in, SHEET_CAUTIONS));
    put_dangers(f);
    put_signalled(f);
}

/* ---- all of it ---- */

static void put_first_page(const filling *f)
{
    put_head(f);
    put_last_note(f);
    if (sheet_is_of_fault(f->sheet)) put_complaints(f);
    put_to_settle(f);
    put_warnings(f);
    put_next(f);
    put_whom_to_call(f);
    put_not_as_found(f);
    if (sheet_is_of_fault(f->sheet)) put_likely(f);
    if (sheet_is_of_fault(f->sheet)) put_parts(f);
    put_tried(f);
    put_general(f);
}

void sheet_on_paper(FILE *out, const paper_kind *kind, arena *keep, const shown_sheet *sheet)
{
    const tongue in = tongue_of(sheet->rulebook.language);
    const paper p = {.kind = kind,
                     .out = out,
                     .language = paper_language(in, sheet->rulebook.language),
                     .in = in};
    const filling front = {.p = &p, .keep = keep, .sheet = sheet},
                  back = {.p = &p, .keep = keep, .sheet = sheet, .apart = true};
    kind->begin(&p, FILL(keep, in, SHEET_TITLE, sheet->head.number));
    put_first_page(&front);
    kind->apart(&p, catalogue_text(in, SHEET_APPENDIX));
    put_appendix(&back);
    kind->end(&p);
}
