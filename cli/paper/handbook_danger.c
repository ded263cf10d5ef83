/* What rules danger out, what to do when it can't be, and what to do once something has happened.
 */
#include <assert.h>
#include <string.h>

#include "cases/begin_case.h"
#include "host/memory.h"
#include "paper/handbook.h"
#include "paper/paper_words.h"

/* ---- before anything has happened ---- */

static void put_stop(const handbook *h, const char *answer, const tt_gate *gate)
{
    const char *call = gate->call_role != NULL ? handbook_role(h, gate->call_role) : "";
    const char *text = *call != 0 ? FILL(h->keep, h->p->in, HANDBOOK_CALL, gate->stop_text, call)
                                  : gate->stop_text;
    h->p->kind->boxed(h->p, true, FILL(h->keep, h->p->in, HANDBOOK_IF, answer), rule_text(text));
}

/* What the program would say to somebody who gave this answer. */
static void put_unsafe(const handbook *h, const char *language, uint32_t question,
                       const tt_question *q, uint32_t option)
{
    const tt_reply reply = {.kind = TT_ANSWER, .option = option};
    const tt_view *view;
    tt_case *c = NULL;
    const exit_status begun = case_begin(h->book, NULL, language, false, false, &c);
    assert(begun == EXIT_DONE); /* as the handbook's own case did */
    must_be_done(tt_answer(c, question, &reply));
    must_be_done(tt_look(c, &view));
    if (view->gate.state == TT_GATE_SHUT) put_stop(h, q->options[option].text, &view->gate);
    tt_case_free(c);
}

static const char *safe_answers(const handbook *h, const tt_question *q, uint32_t question)
{
    const char **texts = ARENA_ARRAY(h->keep, const char *, q->option_count + 2);
    uint32_t count = 0;
    for (uint32_t i = 0; i < q->option_count; i++)
        if ((q->safe_options >> i & 1) != 0) texts[count++] = q->options[i].text;
    return q->option_count > 0 ? texts_joined(h->keep, texts, count)
                               : safe_range(h->keep, h->p->in, h->c, question, q);
}

static void put_gate(const handbook *h, const char *language, uint32_t question,
                     const tt_question *q)
{
    h->p->kind->subheading(h->p, rule_text(q->ask));
    if (*q->look != 0) h->p->kind->paragraph(h->p, rule_text(q->look));
    h->p->kind->paragraph(
        h->p, rule_text(FILL(h->keep, h->p->in, HANDBOOK_ONLY_SAFE, safe_answers(h, q, question))));
    for (uint32_t i = 0; i < q->option_count; i++)
        if ((q->safe_options >> i & 1) == 0) put_unsafe(h, language, question, q, i);
}

void put_danger(const handbook *h, const char *language)
{
    h->p->kind->paragraph(h->p, our_words(h->p->in, HANDBOOK_RULE_OUT));
    for (uint32_t i = 0; i < h->all.questions.count; i++) {
        const uint32_t id = h->all.questions.items[i].id;
        tt_question q;
        must_be_done(tt_question_show(h->c, id, &q));
        if (!q.gate) break;
        put_gate(h, language, id, &q);
    }
}

/* ---- and after ---- */

static void put_contacts(const handbook *h)
{
    static const text_id columns[] = {HANDBOOK_POST, HANDBOOK_FOR_WHAT, HANDBOOK_TELEPHONE,
                                      HANDBOOK_HOURS};
    const char *number = tt_emergency_number(h->book->book);
    text_table table = table_of(h->keep, h->p->in, columns, 4);
    if (*number != 0)
        h->p->kind->boxed(h->p, true, NULL,
                          our_text(FILL(h->keep, h->p->in, HANDBOOK_EMERGENCY_NUMBER, number)));
    for (uint32_t i = 0; i < tt_contact_count(h->book->book); i++) {
        const tt_contact c = tt_contact_show(h->book->book, i, tt_case_language(h->c));
        const char *what = *c.purpose != 0 ? c.purpose : handbook_role(h, c.role);
        table_add(&table, (piece_of_text[]){rule_text(c.post), rule_text(what), figure(c.telephone),
                                            rule_text(c.hours)});
    }
    table_put(&table, h->p, catalogue_text(h->p->in, HANDBOOK_CONTACTS));
}

static void put_lines(const handbook *h, const char *const *lines, uint32_t count)
{
    h->p->kind->list_begin(h->p, true);
    for (uint32_t i = 0; i < count; i++) h->p->kind->item(h->p, i + 1, rule_text(lines[i]));
    h->p->kind->list_end(h->p, true);
}

static void put_emergency(const handbook *h, const tt_emergency *e)
{
    h->p->kind->subheading(h->p, rule_text(e->text));
    put_lines(h, e->do_now, e->do_count);
    if (*e->call != 0)
        h->p->kind->paragraph(
            h->p, our_text(FILL(h->keep, h->p->in, TEXT_CALL_ROLE, handbook_role(h, e->call))));
    if (e->then_count > 0) h->p->kind->paragraph(h->p, our_words(h->p->in, HANDBOOK_THEN));
    if (e->then_count > 0) put_lines(h, e->then, e->then_count);
    if (*e->source != 0)
        h->p->kind->paragraph(h->p, rule_text(FILL(h->keep, h->p->in, HANDBOOK_SOURCE, e->source)));
}

void put_emergencies(const handbook *h)
{
    put_contacts(h);
    for (uint32_t i = 0; i < h->all.emergency_count; i++) {
        tt_emergency e;
        must_be_done(tt_emergency_show(h->c, h->all.emergencies[i], &e));
        put_emergency(h, &e);
    }
}
