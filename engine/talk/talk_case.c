/* What a talk asks of the case beneath it. */
#include <assert.h>
#include <string.h>

#include "session/session.h"
#include "talk/talk.h"

const tt_view *talk_look(tt_talk *t)
{
    const tt_view *v = NULL;
    talk_check(t, tt_look(t->c, &v));
    assert(v != NULL);
    return v;
}

tt_question talk_question(tt_talk *t, uint32_t question)
{
    tt_question q;
    const tt_status status = tt_question_show(t->c, question, &q);
    talk_check(t, status);
    assert(status == TT_OK);
    return q;
}

bool talk_is_gate(const tt_talk *t, uint32_t question)
{
    assert(question < t->book->book->question_count);
    return t->book->book->questions[question].gate;
}

bool talk_is_read_off(const tt_talk *t, uint32_t question)
{
    assert(question < t->book->book->question_count);
    const question_kind kind = t->book->book->questions[question].kind;
    return kind == QUESTION_READING || kind == QUESTION_COUNT;
}

const tt_picture *talk_picture(tt_talk *t)
{
    const tt_picture *whole;
    const tt_status status = tt_book_picture(t->c, &whole);
    talk_check(t, status);
    assert(status == TT_OK);
    return whole;
}

const tt_picture *talk_cause_picture(tt_talk *t)
{
    const tt_view *v = talk_look(t);
    return v->cause_count > 0 ? v->causes[0].picture : NULL;
}

tt_book_info talk_book(tt_talk *t)
{
    assert(t->c != NULL);
    return book_info_in(t->book, t->shown, str_of(tt_case_language(t->c)));
}

tt_fix_plan talk_plan(tt_talk *t, uint32_t fix)
{
    tt_fix_plan plan;
    const tt_status status = tt_fix_show(t->c, fix, &plan);
    talk_check(t, status);
    assert(status == TT_OK);
    return plan;
}

const tt_view *talk_see(tt_talk *t)
{
    talk_check(t, case_see(t->c));
    return &t->c->view;
}

const tt_fact *talk_fact(tt_talk *t, uint32_t question)
{
    assert(question != TT_NONE);
    const tt_view *v = talk_see(t);
    for (uint32_t i = 0; i < v->fact_count; i++)
        if (v->facts[i].question == question) return &v->facts[i];
    return NULL;
}

uint32_t talk_answers(tt_talk *t)
{
    const journal *j = talk_meaning(t);
    uint32_t count = 0;
    for (uint32_t i = 0; i < j->count; i++)
        count += (j->entries[i].kind == RECORD_ANSWER || j->entries[i].kind == RECORD_AGAIN) &&
                 entry_counts(j, i);
    return count;
}

bool talk_was_told(tt_talk *t, uint32_t complaint)
{
    assert(complaint < t->complaints.count);
    const tt_complaint *c = &t->complaints.items[complaint];
    const journal *j = talk_meaning(t);
    for (uint32_t i = 0; i < j->count; i++) {
        const tt_record *r = &t->records[j->entries[i].source];
        const char *symptom = value_text(r->data, "symptom");
        if (j->entries[i].kind == RECORD_COMPLAINT && entry_counts(j, i) && symptom != NULL &&
            strcmp(symptom, c->name) == 0)
            return true;
    }
    return false;
}

/* A complaint about a piece may come once more, about another one. */
bool talk_is_told(tt_talk *t, uint32_t complaint)
{
    assert(complaint < t->complaints.count);
    return t->complaints.items[complaint].kind == TT_NONE && talk_was_told(t, complaint);
}

bool talk_complained(const tt_talk *t)
{
    return t->complained;
}

uint32_t talk_asked(tt_talk *t)
{
    return *t->turn.subject != 0 ? tt_question_find(t->book, t->turn.subject) : TT_NONE;
}

/* A role that is called: not the one that calls. */
bool talk_is_called(const tt_talk *t)
{
    return t->role != TT_NONE && t->role > 0;
}

const char *talk_post(const tt_talk *t)
{
    const char *by = value_text(t->options.about, "by");
    return by != NULL ? by : t->options.writer;
}

/* Two names may lead to one page: a book's may replace one of ours. */
static bool is_shown(const tt_emergency *all, uint32_t count, const tt_emergency *e)
{
    for (uint32_t i = 0; i < count; i++)
        if (strcmp(all[i].name, e->name) == 0) return true;
    return false;
}

const tt_emergency *talk_emergencies(tt_talk *t, uint32_t *count)
{
    tt_emergency *all = ARENA_ARRAY(t->shown, tt_emergency, t->emergency_count + 1);
    *count = 0;
    for (uint32_t i = 0; i < t->emergency_count; i++) {
        const tt_status status = tt_emergency_show(t->c, t->emergencies[i], &all[*count]);
        talk_check(t, status);
        *count += status == TT_OK && !is_shown(all, *count, &all[*count]);
    }
    return all;
}

const uint32_t *talk_piece_order(tt_talk *t)
{
    const uint32_t count = tt_piece_count(t->book);
    uint32_t *all = ARENA_ARRAY(t->shown, uint32_t, count);
    for (uint32_t i = 0; i < count; i++) all[i] = i;
    return pieces_in_order(t->shown, t->book, all, count);
}

const char *talk_why_not(tt_talk *t, uint32_t question, const tt_reply *reply)
{
    const tt_question q = talk_question(t, question);
    const char *unit = reply->unit != NULL ? reply->unit : q.unit, *why = "";
    tt_reply again;
    talk_check(t, tt_reply_read(t->c, question,
                                str_printf(t->shown, "%.10g %s", reply->number, unit).p, &again,
                                &why));
    return *why != 0 ? why : OURS(t, TEXT_DOES_NOT_FIT);
}

/* ---- what was tried ---- */

static const tt_tried *all_tried(tt_talk *t, uint32_t *count)
{
    const tt_tried *tried = NULL;
    talk_check(t, tt_tried_fixes(t->c, &tried, count));
    return tried;
}

const tt_tried *talk_last_tried(tt_talk *t)
{
    uint32_t count = 0;
    const tt_tried *tried = all_tried(t, &count);
    return count > 0 ? &tried[count - 1] : NULL;
}

const tt_tried *talk_last_cure(tt_talk *t)
{
    uint32_t count = 0;
    const tt_tried *tried = all_tried(t, &count);
    while (count > 0 && (tried[count - 1].outcome != TT_GONE || tried[count - 1].came_back))
        count--;
    return count > 0 ? &tried[count - 1] : NULL;
}

const tt_tried *talk_left_changed(tt_talk *t)
{
    const tt_tried *last = talk_last_tried(t);
    return last != NULL && last->under_way ? last : NULL;
}

/* Name of the cause that the last fix most likely cured; or "". */
const char *talk_cured(tt_talk *t)
{
    const tt_tried *last = talk_last_tried(t);
    return last != NULL ? last->cured_name : "";
}

/* ---- what may be asked, and done ---- */

bool talk_may_do(const tt_talk *t, uint32_t fix)
{
    return case_may_do(t->c, fix);
}

bool talk_may_look(tt_talk *t, uint32_t question)
{
    talk_look(t);
    return case_could_look(t->c, question);
}

bool talk_is_safe(tt_talk *t, uint32_t question, const tt_reply *reply)
{
    return talk_is_ok(t, case_reply_safe(t->c, question, reply));
}
