/* Where the case stands, for a sheet. */
#include "verb/sheet_case.h"

#include <string.h>

#include "base/value.h"
#include "cases/begin_case.h"
#include "paper/paper_words.h"
#include "say/catalogue.h"
#include "show/figures.h"
#include "show/standing_text.h"
#include "show/told.h"

typedef struct gathering {
    arena *keep;
    seen_case *seen;
    tt_case *c;
    const char *language;
    tt_confirmation cause;
    tt_history history;
    const char *const *unsettled;
    uint32_t unsettled_count;
    const tt_view *view;
    const tt_tried *tried;
    uint32_t tried_count;
    const tt_measured *measured; /* one for each that was tried */
    const tt_spare *spares;
    uint32_t spare_count;
} gathering;

static const char *clean(const gathering *g, const char *text)
{
    return sheet_clean(g->keep, text);
}

/* As people call a role. */
static const char *role_called(const gathering *g, const char *role)
{
    return role == NULL || *role == 0
               ? ""
               : tt_role_text(g->seen->book.book, role, tt_case_language(g->c));
}

static const char *const *clean_all(const gathering *g, const char *const *texts, uint32_t count)
{
    const char **all = ARENA_ARRAY(g->keep, const char *, count);
    for (uint32_t i = 0; i < count; i++) all[i] = clean(g, texts[i]);
    return all;
}

static const char *language_of(const gathering *g)
{
    return g->language != NULL ? g->language : tt_case_language(tt_talk_case(g->seen->talk));
}

/* ---- the case and what it rests on ---- */

/* As the record that closed it says; null: it is open. */
static const char *how_closed(const seen_case *seen)
{
    static const char *const how[TT_CASE_STATES] = {[TT_CASE_CLOSED] = "gone",
                                                    [TT_CASE_CALLED] = "call",
                                                    [TT_CASE_STOPPED] = "stop",
                                                    [TT_CASE_MADE_SAFE] = "made-safe",
                                                    [TT_CASE_ELSEWHERE] = "elsewhere"};
    if (seen->says.state == TT_CASE_CLOSED && seen->says.kind != TT_KIND_FAULT) return "done";
    return how[seen->says.state];
}

/* Who was called when it was closed without a cure. */
static const char *handed_to(const gathering *g)
{
    tt_case_state state = g->seen->says.state;
    return state == TT_CASE_CALLED || state == TT_CASE_STOPPED ? g->view->call_role : NULL;
}

/* The cause, if somebody has said what it was. */
static const char *confirmed(const gathering *g)
{
    tt_entry said;
    if (g->cause.said != TT_CAUSE_CONFIRMED ||
        !is_told(g->keep, tt_journal_entry(g->seen->journal, g->cause.entry, &said)))
        return NULL;
    if (strcmp(seen_case_text(said.record->data, "how"), "not-listed") == 0)
        return catalogue_text(tongue_of(language_of(g)), TEXT_NOT_LISTED);
    for (uint32_t i = 0; i < g->view->cause_count; i++)
        if (g->view->causes[i].name != NULL && strcmp(g->view->causes[i].name, g->cause.cause) == 0)
            return g->view->causes[i].text;
    return g->cause.cause;
}

static sheet_head head_of(const gathering *g)
{
    const seen_case *seen = g->seen;
    return (sheet_head){.number = case_store_number(seen->store),
                        .kind = tt_case_kind_name(seen->says.kind),
                        .state = tt_case_state_name(seen->says.state),
                        .begun = clean(g, seen->says.began),
                        .last = clean(g, seen->says.last),
                        .closed = clean(g, how_closed(seen)),
                        .to = clean(g, seen->says.to),
                        .to_text = clean(g, role_called(g, seen->says.to)),
                        .until = clean(g, seen->says.until),
                        .handed_to = clean(g, handed_to(g)),
                        .handed_to_text = clean(g, role_called(g, handed_to(g))),
                        .confirmed = clean(g, confirmed(g)),
                        .caller = "",
                        .role = clean(g, value_text(seen->places.begin, "role")),
                        .role_text =
                            clean(g, role_called(g, value_text(seen->places.begin, "role"))),
                        .practice = is_practice_case(&seen->places)};
}

static sheet_book rulebook_of(const gathering *g)
{
    const opened_book *book = &g->seen->book;
    const tt_book_info info = tt_book_describe(book->book);
    return (sheet_book){clean(g, tt_book_title(book->book, language_of(g))), clean(g, info.edition),
                        book->revision, clean(g, language_of(g)),
                        strcmp(g->seen->places.revision, book->revision) == 0};
}

static const shown_site *site_on(const gathering *g)
{
    const opened_book *book = &g->seen->book;
    if (!tt_book_describe(book->book).has_site) return NULL;
    shown_site *site = ARENA_NEW(g->keep, shown_site);
    *site = (shown_site){clean(g, tt_site_title(book->book, language_of(g))), book->site_revision};
    return site;
}

static void put_about(const gathering *g, shown_sheet *sheet)
{
    const char *const *words = focus_words(g->keep, g->seen->book.book, g->view,
                                           tt_case_language(g->c), &sheet->about_count);
    sheet->about = clean_all(g, words, sheet->about_count);
}

/* ---- what is known ---- */

static sheet_fact fact_of(const gathering *g, const tt_fact *fact)
{
    tt_question question;
    const bool asked = fact->question != TT_NONE &&
                       is_told(g->keep, tt_question_show(g->c, fact->question, &question));
    const bool plain = strcmp(fact->value, "shown") == 0 || strcmp(fact->value, "yes") == 0;
    return (sheet_fact){.name = clean(g, fact->name),
                        .text = clean(g, asked ? question.ask : fact->text),
                        .value = clean(g, asked   ? fact->text
                                          : plain ? NULL
                                                  : fact->value),
                        .from = fact->from,
                        .source = clean(g, fact->source),
                        .reckoned = asked && question.kind == TT_QUANTITY,
                        .stale = fact->stale,
                        .unknown = strcmp(fact->value, "unsure") == 0 ||
                                   strcmp(fact->value, "cannot") == 0,
                        .unit = clean(g, fact->unit),
                        .at = clean(g, fact->at)};
}

static void put_facts(const gathering *g, shown_sheet *sheet)
{
    sheet_fact *facts = ARENA_ARRAY(g->keep, sheet_fact, g->view->fact_count);
    for (uint32_t i = 0; i < g->view->fact_count; i++) facts[i] = fact_of(g, &g->view->facts[i]);
    sheet->facts = facts;
    sheet->facts_count = g->view->fact_count;
}

/* ---- causes ---- */

static void put_causes(const gathering *g, shown_sheet *sheet)
{
    const tt_view *view = g->view;
    shown_cause *causes = ARENA_ARRAY(g->keep, shown_cause, view->cause_count);
    for (uint32_t i = 0; i < view->cause_count; i++)
        causes[i] =
            (shown_cause){clean(g, view->causes[i].name),
                          clean(g, cause_words(tongue_of(language_of(g)), &view->causes[i])),
                          view->causes[i].chance, clean(g, view->causes[i].means)};
    sheet->causes = causes;
    sheet->causes_count = view->cause_count;
    sheet->likely = (shown_likely){view->likely_count, view->likely_chance};
    sheet->probably_none = view->probably_none;
    sheet->nothing_wrong = view->nothing_wrong;
    sheet->not_listed_leads = view->not_listed_leads;
    sheet->all_ruled_out = view->all_ruled_out;
    sheet->two_faults = view->two_faults;
}

static void put_pairs(const gathering *g, shown_sheet *sheet)
{
    const uint32_t count = g->view->pairs_matter ? g->view->pair_count : 0;
    shown_pair *pairs = ARENA_ARRAY(g->keep, shown_pair, count);
    for (uint32_t i = 0; i < count; i++) {
        const tt_pair *pair = &g->view->pairs[i];
        const char *const names[] = {pair->first, pair->second};
        pairs[i] = (shown_pair){clean_all(g, names, 2), 2, pair->chance, clean(g, pair->first_text),
                                clean(g, pair->second_text)};
    }
    sheet->pairs = pairs;
    sheet->pairs_count = count;
}

/* ---- fixes ---- */

static const shown_measured *clean_measured(const gathering *g, const tt_measured *m)
{
    const tt_measured cleaned = {
        .ask = clean(g, m->ask), .before = clean(g, m->before), .after = clean(g, m->after)};
    return measured_of(g->keep, &cleaned);
}

static void put_tried(const gathering *g, shown_sheet *sheet)
{
    sheet_tried *all = ARENA_ARRAY(g->keep, sheet_tried, g->tried_count);
    for (uint32_t i = 0; i < g->tried_count; i++) {
        const tt_tried *tried = &g->tried[i];
        all[i] =
            (sheet_tried){.name = clean(g, tried->name),
                          .text = clean(g, tried->text),
                          .outcome = tried_outcome(g->keep, tongue_of(language_of(g)), g->c, tried),
                          .together = clean(g, tried->with_name),
                          .under_way = tried->under_way,
                          .was_put_back = tried->was_put_back,
                          .different = clean(g, different_words(g->keep, tongue_of(language_of(g)),
                                                                g->c, tried, &g->measured[i])),
                          .put_back = clean(g, tried->put_back),
                          .cured = clean(g, tried->cured),
                          .measured = clean_measured(g, &g->measured[i])};
    }
    sheet->tried = all;
    sheet->tried_count = g->tried_count;
}

static shown_fix fix_of(const gathering *g, const tt_fix *fix)
{
    tt_fix_plan plan;
    shown_fix shown = {.name = clean(g, fix->name),
                       .text = clean(g, fix->text),
                       .risk = fix->risk,
                       .chance = fix->chance,
                       .minutes = fix->minutes,
                       .role = clean(g, fix->role),
                       .role_text = clean(g, fix->role_text),
                       .standing = standing_name(fix->standing),
                       .held = fix->held};
    if (!is_told(g->keep, tt_fix_show(g->c, fix->fix, &plan))) return shown;
    shown.needs = clean_all(g, plan.parts, plan.part_count);
    shown.needs_count = plan.part_count;
    return shown;
}

static void put_fixes(const gathering *g, shown_sheet *sheet)
{
    shown_fix *fixes = ARENA_ARRAY(g->keep, shown_fix, g->view->fix_count);
    for (uint32_t i = 0; i < g->view->fix_count; i++) fixes[i] = fix_of(g, &g->view->fixes[i]);
    sheet->fixes = fixes;
    sheet->fixes_count = g->view->fix_count;
}

static void put_parts(const gathering *g, shown_sheet *sheet)
{
    sheet_part *parts = ARENA_ARRAY(g->keep, sheet_part, g->spare_count);
    for (uint32_t i = 0; i < g->spare_count; i++)
        parts[i] = (sheet_part){clean(g, g->spares[i].text), g->spares[i].chance};
    sheet->parts = parts;
    sheet->parts_count = g->spare_count;
}

static void put_contacts(const gathering *g, shown_sheet *sheet)
{
    const tt_book *book = g->seen->book.book;
    sheet->contacts_count = tt_contact_count(book);
    tt_contact *contacts = ARENA_ARRAY(g->keep, tt_contact, sheet->contacts_count);
    for (uint32_t i = 0; i < sheet->contacts_count; i++) {
        const tt_contact c = tt_contact_show(book, i, language_of(g));
        contacts[i] = (tt_contact){.role = clean(g, c.role),
                                   .purpose = clean(g, c.purpose),
                                   .post = clean(g, c.post),
                                   .telephone = clean(g, c.telephone),
                                   .hours = clean(g, c.hours),
                                   .who = clean(g, c.who)};
    }
    sheet->contacts = contacts;
}

/* ---- danger first ---- */

/* A sheet is read later, and by others: for them danger is not ruled out. */
static sheet_gate gate_of(const gathering *g, uint32_t question, const tt_question *q)
{
    const char **safe = ARENA_ARRAY(g->keep, const char *, q->option_count + 1);
    uint32_t count = 0;
    for (uint32_t i = 0; i < q->option_count && i < 64; i++)
        if ((q->safe_options >> i & 1) != 0) safe[count++] = clean(g, q->options[i].text);
    if (q->option_count == 0)
        safe[count++] = clean(g, safe_range(g->keep, tongue_of(language_of(g)), g->c, question, q));
    return (sheet_gate){clean(g, q->ask), safe, count};
}

/* Those that were answered in the case, and the one that is to be. */
static void put_gates(const gathering *g, shown_sheet *sheet)
{
    sheet_gate *gates = ARENA_ARRAY(g->keep, sheet_gate, g->view->fact_count + 1);
    tt_question q;
    uint32_t count = 0;
    for (uint32_t i = 0; i < g->view->fact_count; i++) {
        const uint32_t question = tt_question_find(g->seen->book.book, g->view->facts[i].name);
        const bool gate =
            question != TT_NONE && is_told(g->keep, tt_question_show(g->c, question, &q)) && q.gate;
        if (gate && question != g->view->gate.question) gates[count++] = gate_of(g, question, &q);
    }
    if (g->view->gate.question != TT_NONE &&
        is_told(g->keep, tt_question_show(g->c, g->view->gate.question, &q)) && q.gate)
        gates[count++] = gate_of(g, g->view->gate.question, &q);
    sheet->gates = gates;
    sheet->gates_count = count;
}

/* ---- what comes next ---- */

static const char *next_question(const gathering *g)
{
    tt_question question;
    if (g->view->step == TT_PIECE)
        return tt_kind_show(g->seen->book.book, g->view->kind, tt_case_language(g->c)).ask;
    bool asks = (g->view->step == TT_ASK || g->view->step == TT_SETTLE) &&
                g->view->next.question != TT_NONE &&
                is_told(g->keep, tt_question_show(g->c, g->view->next.question, &question));
    return asks ? question.ask : NULL;
}

/* With all that keeps whoever does it safe. The steps of a fix are not how it is put back. */
static const sheet_next_fix *next_fix(const gathering *g)
{
    tt_fix_plan plan;
    const bool puts_back = g->view->step == TT_PUT_BACK,
               fixes = g->view->step == TT_FIX || puts_back;
    if (!fixes || !is_told(g->keep, tt_fix_show(g->c, g->view->fix, &plan))) return NULL;
    const tt_safety *safety = &plan.safety;
    sheet_next_fix *fix = ARENA_NEW(g->keep, sheet_next_fix);
    *fix =
        (sheet_next_fix){.name = clean(g, plan.name),
                         .role = clean(g, plan.role),
                         .role_text = clean(g, plan.role_text),
                         .text = clean(g, puts_back ? plan.put_back : plan.text),
                         .hazards = clean_all(g, safety->hazards, safety->hazard_count),
                         .hazards_count = safety->hazard_count,
                         .isolate = clean_all(g, safety->isolate, safety->isolate_count),
                         .isolate_count = safety->isolate_count,
                         .tell = clean_all(g, safety->tell, safety->tell_count),
                         .tell_count = safety->tell_count,
                         .release = clean_all(g, safety->release, safety->release_count),
                         .release_count = safety->release_count,
                         .prove = clean_all(g, safety->prove, safety->prove_count),
                         .prove_count = safety->prove_count,
                         .restore = clean_all(g, safety->restore, safety->restore_count),
                         .restore_count = safety->restore_count,
                         .protect = clean_all(g, safety->protect, safety->protect_count),
                         .protect_count = safety->protect_count,
                         .steps = clean_all(g, plan.steps, plan.step_count),
                         .steps_count = puts_back ? 0 : plan.step_count,
                         .once_running = clean_all(g, plan.once_running, plan.once_running_count),
                         .once_running_count = puts_back ? 0 : plan.once_running_count,
                         .needs = clean_all(g, plan.parts, plan.part_count),
                         .needs_count = puts_back ? 0 : plan.part_count};
    return fix;
}

static sheet_next next_of(const gathering *g)
{
    return (sheet_next){
        sheet_step_name(g->view->step), clean(g, next_question(g)),   next_fix(g),
        clean(g, g->view->stop_text),   clean(g, g->view->call_role), clean(g, g->view->call_text)};
}

/* ---- all of it ---- */

static void fill(const gathering *g, shown_sheet *sheet)
{
    *sheet = (shown_sheet){.head = head_of(g),
                           .rulebook = rulebook_of(g),
                           .site = site_on(g),
                           .to_settle = clean_all(g, g->unsettled, g->unsettled_count),
                           .to_settle_count = g->unsettled_count,
                           .next = next_of(g)};
    put_about(g, sheet);
    sheet_put_history(g->keep, tongue_of(language_of(g)), &g->history, sheet);
    put_facts(g, sheet);
    put_causes(g, sheet);
    put_pairs(g, sheet);
    put_tried(g, sheet);
    put_fixes(g, sheet);
    put_parts(g, sheet);
    put_contacts(g, sheet);
    put_gates(g, sheet);
}

/* The history first: it plays the records once more, and leaves a case that stands as before. */
void sheet_of_case(arena *keep, seen_case *seen, const char *language, shown_sheet *out)
{
    gathering g = {.keep = keep, .seen = seen, .language = language};
    must_be_done(tt_talk_history(seen->talk, &g.history));
    must_be_done(tt_talk_unsettled(seen->talk, &g.unsettled, &g.unsettled_count));
    must_be_done(tt_journal_cause(seen->journal, &g.cause));
    g.c = tt_talk_case(seen->talk);
    must_be_done(tt_look(g.c, &g.view));
    must_be_done(tt_tried_fixes(g.c, &g.tried, &g.tried_count));
    must_be_done(tt_talk_measured(seen->talk, &g.measured, &g.tried_count));
    must_be_done(tt_spare_parts(g.c, &g.spares, &g.spare_count));
    fill(&g, out);
}
