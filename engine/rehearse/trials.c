/* Runs the worked cases that stand beside the rules, and notes what none of them exercises. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "decide/decide.h"
#include "rehearse/trying.h"

static str entry_name(const book *b, uint32_t cause)
{
    assert(cause == CAUSE_NOT_LISTED || cause < b->cause_count);
    return cause == CAUSE_NOT_LISTED ? STR("something-not-listed") : b->causes[cause].id.name;
}

static bool leads(const tt_view *v, const book *b, uint32_t cause, uint32_t first)
{
    for (uint32_t i = 0; i < first && i < v->cause_count; i++) {
        bool same =
            v->causes[i].name == NULL
                ? cause == CAUSE_NOT_LISTED
                : cause != CAUSE_NOT_LISTED && str_is(b->causes[cause].id.name, v->causes[i].name);
        if (same) return true;
    }
    return false;
}

static const char *leader(const tt_view *v)
{
    assert(v->cause_count > 0);
    return v->causes[0].name == NULL ? "something-not-listed" : v->causes[0].name;
}

static bool caution_shown(const tt_view *v, str rule)
{
    for (uint32_t i = 0; i < v->caution_count; i++)
        if (str_is(rule, v->cautions[i].rule)) return true;
    return false;
}

static void complain_of(text_builder *why, const char *expected, str wanted, const char *came)
{
    text_addf(why, "%s%s: expected %.*s, got %s", why->length == 0 ? "" : "; ", expected,
              STR_ARG(wanted), came);
}

static const char *first_fix(const tt_view *v)
{
    return v->fix_count == 0 || v->fixes[0].standing > TT_POSSIBLE_FIX ? "no fix worth trying yet"
                                                                       : v->fixes[0].name;
}

static void say_setting(tt_case *c, uint32_t fix, text_builder *why)
{
    const book *b = c->book->book;
    const adjustment *a = &b->fixes[fix].adjust;
    if (a->reading == NO_ID || adjust_is_possible(c, fix)) return;
    text_addf(why, " (%.*s lies outside its 'within', or at the limit already)",
              STR_ARG(b->questions[a->reading].id.name));
}

/* Why the fix that was expected is not offered: the commonest reasons, in the author's words. */
static void say_why_not(tt_case *c, uint32_t fix, const tt_view *v, text_builder *why)
{
    const book *b = c->book->book;
    for (uint32_t i = 0; i < v->fix_count; i++) {
        const tt_fix *f = &v->fixes[i];
        if (!str_is(b->fixes[fix].id.name, f->name)) continue;
        if (f->standing == TT_OTHER_ROLE)
            text_addf(why, " (the role for it is %s: write 'as: %s')", f->role, f->role);
        else if (f->standing == TT_NOT_YET)
            text_addf(why, " (its chance to help is %.2g %%, and its risk %s)", f->chance * 100,
                      f->risk);
        return;
    }
    say_setting(c, fix, why);
}

static double chance_of_cause(const tt_view *v, const book *b, uint32_t cause)
{
    for (uint32_t i = 0; i < v->cause_count; i++) {
        const char *name = v->causes[i].name;
        const bool same = name == NULL
                              ? cause == CAUSE_NOT_LISTED
                              : cause != CAUSE_NOT_LISTED && str_is(b->causes[cause].id.name, name);
        if (same) return v->causes[i].chance;
    }
    return 0;
}

static void check_sure(const worked_case *w, const tt_view *v, const book *b, text_builder *why)
{
    const double slack = 1e-9;
    if (w->leading_cause == NO_ID) return;
    const double chance = chance_of_cause(v, b, w->leading_cause);
    const bool less = chance<w->chance_least - slack, more = chance> w->chance_most + slack;
    if (!less && !more) return;
    text_addf(why, "%schance of %.*s: expected %s %.4g %%, got %.3g %%",
              why->length == 0 ? "" : "; ", STR_ARG(entry_name(b, w->leading_cause)),
              less ? "at least" : "at most", 100 * (less ? w->chance_least : w->chance_most),
              100 * chance);
    const uint32_t rival = leads(v, b, w->leading_cause, 1) && v->cause_count > 1 ? 1 : 0;
    if (less)
        text_addf(why, " (%s: %.3g %%)",
                  v->causes[rival].name == NULL ? "something-not-listed" : v->causes[rival].name,
                  100 * v->causes[rival].chance);
}

static bool is_listed(const ids *list, uint32_t id)
{
    for (uint32_t i = 0; i < list->count; i++)
        if (list->items[i] == id) return true;
    return false;
}

static void was_offered(const tt_view *v, const book *b, uint32_t fix, text_builder *why)
{
    complain_of(why, "never offered", b->fixes[fix].id.name, "it was offered");
    for (uint32_t i = 0; i < v->fix_count; i++)
        if (v->fixes[i].fix == fix)
            text_addf(why, " (its chance to help is %.2g %%, and its risk %s)",
                      v->fixes[i].chance * 100, v->fixes[i].risk);
}

static void check_not_offered(const worked_case *w, const tt_view *v, const book *b,
                              text_builder *why)
{
    for (uint32_t i = 0; i < v->fix_count; i++)
        if (!v->fixes[i].held && v->fixes[i].standing <= TT_POSSIBLE_FIX &&
            is_listed(&w->never_offered, v->fixes[i].fix))
            was_offered(v, b, v->fixes[i].fix, why);
}

static void check_danger(const worked_case *w, const tt_view *v, text_builder *why)
{
    const bool stops = v->gate.state == TT_GATE_SHUT || v->step == TT_STOP;
    if (w->danger == CASE_STOPS && !stops)
        complain_of(why, "danger", STR("stop"), "the case goes on");
    if (w->danger == CASE_GOES_ON && stops)
        complain_of(why, "danger", STR("none"), "the case stops");
}

/* ---- what is heard ---- */

static void say_heard(text_builder *why, const heard_as *h, const tt_complaint *all, uint32_t count)
{
    text_addf(why, "%shears \"%.*s\": expected %.*s, got %s", why->length == 0 ? "" : "; ",
              STR_ARG(h->say), STR_ARG(h->symptom),
              count == 0 ? "nothing that was understood" : all[0].name);
    for (uint32_t i = 0; i < count; i++)
        if (i == 0 || str_is(h->symptom, all[i].name))
            text_addf(why, " (%s: %.3g %%)", all[i].name, 100 * all[i].match);
}

/* What is heard with is made for the first that wants it, and serves all others. */
static tt_status check_hears(trying *t, const worked_case *w, text_builder *why)
{
    tt_status status = w->hears_count > 0 ? tt_book_hear(t->book) : TT_OK;
    for (uint32_t i = 0; i < w->hears_count && status == TT_OK; i++) {
        tt_complaint *all;
        uint32_t count;
        status = tt_complaints_heard(t->book, cstr(t->book->keep, w->hears[i].say), &all, &count);
        if (status != TT_OK) return status;
        if (count == 0 || !str_is(w->hears[i].symptom, all[0].name))
            say_heard(why, &w->hears[i], all, count);
        free(all);
    }
    return status;
}

void trial_check(trying *t, const worked_case *w, const tt_view *v, text_builder *why)
{
    const book *b = t->book->book;
    if (w->leading_cause != NO_ID && !leads(v, b, w->leading_cause, 1))
        complain_of(why, "leading cause", entry_name(b, w->leading_cause), leader(v));
    for (uint32_t i = 0; i < w->among.count; i++)
        if (!leads(v, b, w->among.items[i], w->among_count))
            complain_of(why, "among the first", entry_name(b, w->among.items[i]), leader(v));
    if (w->first_fix != NO_ID && !str_is(b->fixes[w->first_fix].id.name, first_fix(v))) {
        complain_of(why, "first fix", b->fixes[w->first_fix].id.name, first_fix(v));
        say_why_not(t->c, w->first_fix, v, why);
    }
    if (w->caution_rule != NO_ID && !caution_shown(v, b->rules[w->caution_rule].id.name))
        complain_of(why, "caution", b->rules[w->caution_rule].id.name, "none of that rule");
    if (w->stop_rule != NO_ID &&
        case_truth(t->c, t->book->prog->rule_atom[w->stop_rule]) != TRUTH_TRUE)
        complain_of(why, "stop", b->rules[w->stop_rule].id.name, "no stop by that rule");
    check_sure(w, v, b, why);
    check_not_offered(w, v, b, why);
    check_danger(w, v, why);
    if (w->next_question != NO_ID && v->next.question != w->next_question)
        complain_of(why, "next question", b->questions[w->next_question].id.name,
                    v->next.question == TT_NONE ? "none"
                                                : b->questions[v->next.question].id.name.p);
}

static void note_use(trying *t, const tt_view *v)
{
    const program *p = t->book->prog;
    for (uint32_t r = 0; r < p->book->rule_count; r++)
        t->rule_used[r] |= case_truth(t->c, p->rule_atom[r]) == TRUTH_TRUE;
    for (uint32_t s = 0; s < p->book->symptom_count; s++)
        t->symptom_used[s] |= case_truth(t->c, p->symptom_atom[s]) == TRUTH_TRUE;
    for (uint32_t i = 0; i < v->fix_count; i++)
        t->fix_offered[v->fixes[i].fix] |= v->fixes[i].standing <= TT_POSSIBLE_FIX;
    if (v->causes[0].name != NULL)
        t->cause_led[book_cause(p->book, str_of(v->causes[0].name))] = true;
}

/* One after the other has the same room: what is made for a case costs more than many a case does.
 */
static tt_status begin(trying *t, const worked_case *w)
{
    const uint32_t role = w->role == NO_ID ? 0 : w->role;
    tt_status status = TT_OK;
    if (t->c != NULL)
        case_begin_again(t->c, role);
    else
        status = tt_case_new(t->book, &(tt_options){.role = role}, &t->c);
    if (t->c != NULL) t->c->wordless = true;
    if (status == TT_OK && w->at.count > 0) status = tt_focus(t->c, w->at.items, w->at.count);
    if (status == TT_OK && w->complaint != NO_ID) status = tt_complain(t->c, w->complaint);
    return status;
}

static tt_status answer_all(trying *t, const worked_case *w)
{
    tt_status status = TT_OK;
    for (uint32_t i = 0; i < w->reply_count && status == TT_OK; i++)
        status = case_tell(t->c, (event){.kind = EVENT_ANSWER,
                                         .subject = w->replies[i].question,
                                         .reply = w->replies[i]});
    return status;
}

/* It tells an answer, or expects the question. */
static bool speaks_of(const worked_case *w, uint32_t question)
{
    for (uint32_t i = 0; i < w->reply_count; i++)
        if (w->replies[i].question == question) return true;
    return w->next_question == question;
}

/* A case that says nothing of a gate question is about no danger. */
static event answer_from(const book *b, const worked_case *w, uint32_t question)
{
    for (uint32_t i = 0; i < w->reply_count; i++)
        if (w->replies[i].question == question)
            return (event){.kind = EVENT_ANSWER, .subject = question, .reply = w->replies[i]};
    if (b->questions[question].gate && !speaks_of(w, question))
        return (event){.kind = EVENT_ANSWER, .subject = question, .reply = safe_reply(b, question)};
    return (event){.kind = EVENT_ANSWER,
                   .subject = question,
                   .reply = {.kind = REPLY_UNSURE, .question = question, .at = span_nowhere()}};
}

/* A case says what is seen, not what a second look shows: that is "not sure", and nothing is asked
 * twice. */
static event answer_next(const book *b, const worked_case *w, const tt_next *next)
{
    event e = answer_from(b, w, next->question);
    if (next->again == TT_FIRST_LOOK) return e;
    e.reply = (reply){.kind = REPLY_UNSURE, .question = next->question, .at = span_nowhere()};
    e.again = true;
    e.another = next->again == TT_LOOK_ANOTHER;
    return e;
}

/* What comes next is worked out only where the case speaks of it: it costs more than all the rest.
 */
static tt_status look_behind_gate(trying *t, const worked_case *w, const tt_view **v)
{
    uint32_t gate = NO_ID;
    tt_status status = gate_waits_for(t->c, &gate);
    while (status == TT_OK && gate != NO_ID && !speaks_of(w, gate)) {
        status = case_tell(t->c, answer_from(t->book->book, w, gate));
        if (status == TT_OK) status = gate_waits_for(t->c, &gate);
    }
    if (status != TT_OK) return status;
    const bool to_the_end = w->next_question != NO_ID || w->danger != CASE_ANYHOW;
    return to_the_end ? tt_look(t->c, v) : look_at_gate(t->c, v);
}

/* Plays the case as a session: what is asked and not among its answers is answered "not sure". */
tt_status trial_check_never(trying *t, const worked_case *w, text_builder *why)
{
    const bool wanted = w->never_asked.count > 0 || w->never_offered.count > 0;
    tt_status status = wanted ? begin(t, w) : TT_NOT_NOW;
    const tt_view *v = NULL;
    while (status == TT_OK && (status = tt_look(t->c, &v)) == TT_OK && v->step == TT_ASK) {
        if (is_listed(&w->never_asked, v->next.question)) {
            complain_of(why, "never asked", t->book->book->questions[v->next.question].id.name,
                        "it was asked");
            return TT_OK;
        }
        status = case_tell(t->c, answer_next(t->book->book, w, &v->next));
    }
    if (status == TT_OK && v->step == TT_FIX && is_listed(&w->never_offered, v->fix))
        was_offered(v, t->book->book, v->fix, why);
    return status == TT_NOT_NOW ? TT_OK : status;
}

tt_status trial_play(trying *t, const worked_case *w, const tt_view **v)
{
    tt_status status = begin(t, w);
    if (status == TT_OK) status = answer_all(t, w);
    return status == TT_OK ? look_behind_gate(t, w, v) : status;
}

static uint32_t rank_of(const tt_view *v, const book *b, uint32_t cause)
{
    uint32_t rank = 0;
    while (rank + 1 < v->cause_count && !leads(v, b, cause, rank + 1)) rank++;
    return rank;
}

/* Of several that are expected among the first, the one that came last. */
static uint32_t expected_rank(const book *b, const worked_case *w, const tt_view *v)
{
    uint32_t last = 0;
    if (w->leading_cause != NO_ID) return rank_of(v, b, w->leading_cause);
    for (uint32_t i = 0; i < w->among.count; i++) {
        uint32_t rank = rank_of(v, b, w->among.items[i]);
        last = rank > last ? rank : last;
    }
    return last;
}

static tt_grounds grounds_of(const trying *t)
{
    const program *p = t->book->prog;
    uint32_t *list = ARENA_ARRAY(t->book->keep, uint32_t, p->book->question_count), count = 0;
    for (uint32_t q = 0; q < p->book->question_count; q++)
        if (p->is_evidence[q] && t->c->now.weights[q] != NULL) list[count++] = q;
    return (tt_grounds){list, count};
}

tt_status trial_run(trying *t, uint32_t index)
{
    assert(index < t->book->book->case_count);
    const worked_case *w = &t->book->book->cases[index];
    text_builder why = {.keep = t->book->keep};
    const tt_view *v;
    tt_status status = trial_play(t, w, &v);
    if (status != TT_OK) return status;
    trial_check(t, w, v, &why);
    note_use(t, v);
    const uint32_t rank = expected_rank(t->book->book, w, v);
    const char *first = cstr(t->book->keep, str_of(v->causes[0].text));
    const double chance = v->causes[0].chance;
    const tt_grounds grounds = grounds_of(t);
    if ((status = check_hears(t, w, &why)) != TT_OK ||
        (status = trial_check_never(t, w, &why)) != TT_OK)
        return status;
    t->passed += why.length == 0;
    t->trials[index] = (tt_trial){cstr(t->book->keep, w->id.name),
                                  place_words(t->book->keep, t->book, w->id.at),
                                  why.length == 0,
                                  why.length == 0 ? "" : text_done(&why).p,
                                  rank,
                                  first,
                                  chance,
                                  w->first_fix == NO_ID ? TT_NONE : w->first_fix,
                                  grounds};
    return TT_OK;
}

/* What the author wrote: "row-weak of left" and "row-weak of right" are one entry, written for
 * each. */
static str as_written(str name)
{
    size_t of = str_find(name, STR(" of "));
    return of == SIZE_MAX ? name : str_slice(name, 0, of);
}

/* Lists what no case has used. An entry written for each piece of equipment is used once it is for
 * one of them: nobody writes its case for all. Names are in order, so the pieces of one entry are
 * neighbours. */
static void list_unused(trying *t, tt_covered which, const str *names, const bool *used,
                        uint32_t count)
{
    static const char *const one[] = {"rule", "symptom", "cause", "fix"};
    static const char *const all[] = {"rules", "symptoms", "causes", "fixes"};
    tt_coverage *cover = &t->covers[which];
    *cover = (tt_coverage){all[which], 0, 0};
    for (uint32_t i = 0, next; i < count; i = next) {
        str name = as_written(names[i]);
        bool any = false;
        for (next = i; next < count && str_eq(as_written(names[next]), name); next++)
            any = any || used[next];
        cover->of++;
        cover->touched += any;
        if (!any)
            t->unused[t->unused_count++] =
                str_printf(t->book->keep, "%s %.*s", one[which], STR_ARG(name)).p;
    }
}

/* A symptom made of 'confirms' is none of the author's. */
static void list_unused_symptoms(trying *t, str *names)
{
    const book *b = t->book->book;
    bool *used = ARENA_ARRAY(t->book->keep, bool, b->symptom_count);
    uint32_t count = 0;
    for (uint32_t i = 0; i < b->symptom_count; i++) {
        if (b->symptoms[i].from_confirms) continue;
        names[count] = b->symptoms[i].id.name;
        used[count++] = t->symptom_used[i];
    }
    list_unused(t, TT_COVERED_SYMPTOMS, names, used, count);
}

static void list_all_unused(trying *t)
{
    const book *b = t->book->book;
    uint32_t most = b->rule_count + b->symptom_count + b->cause_count + b->fix_count;
    t->unused = ARENA_ARRAY(t->book->keep, const char *, most);
    str *names = ARENA_ARRAY(t->book->keep, str, most);
    for (uint32_t i = 0; i < b->rule_count; i++) names[i] = b->rules[i].id.name;
    list_unused(t, TT_COVERED_RULES, names, t->rule_used, b->rule_count);
    list_unused_symptoms(t, names);
    for (uint32_t i = 0; i < b->cause_count; i++) names[i] = b->causes[i].id.name;
    list_unused(t, TT_COVERED_CAUSES, names, t->cause_led, b->cause_count);
    for (uint32_t i = 0; i < b->fix_count; i++) names[i] = b->fixes[i].id.name;
    list_unused(t, TT_COVERED_FIXES, names, t->fix_offered, b->fix_count);
    assert(t->unused_count <= most);
}

void trial_room(trying *t)
{
    const book *b = t->book->book;
    t->trials = ARENA_ARRAY(t->book->keep, tt_trial, b->case_count);
    t->rule_used = ARENA_ARRAY(t->book->keep, bool, b->rule_count);
    t->symptom_used = ARENA_ARRAY(t->book->keep, bool, b->symptom_count);
    t->cause_led = ARENA_ARRAY(t->book->keep, bool, b->cause_count);
    t->fix_offered = ARENA_ARRAY(t->book->keep, bool, b->fix_count);
}

static tt_status run_all(void *context)
{
    trying *t = context;
    const book *b = t->book->book;
    trial_room(t);
    for (uint32_t i = 0; i < b->case_count; i++) {
        tt_status status = trial_run(t, i);
        if (status != TT_OK) return status;
    }
    assert(t->passed <= b->case_count);
    list_all_unused(t);
    return TT_OK;
}

tt_status tt_try(tt_book *b, tt_trials *out)
{
    trying t = {.book = b};
    *out = (tt_trials){0};
    tt_status status = guarded(&b->keep, 1, run_all, &t);
    tt_case_free(t.c);
    if (status != TT_OK) return status;
    *out = (tt_trials){t.trials, b->book->case_count, t.passed, t.unused, t.unused_count, {{0}}};
    for (int i = 0; i < TT_COVERED; i++) out->covers[i] = t.covers[i];
    return TT_OK;
}
