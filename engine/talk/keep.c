/* Records that a reply makes. Each counts in the case at once; the host keeps them before the next
 * turn is there. */
#include <assert.h>
#include <string.h>

#include "talk/talk.h"

void talk_add_record(tt_talk *t, const tt_record *r)
{
    assert(r->writer != NULL && r->kind != NULL);
    GROW(t->keep, t->records, t->record_count, t->record_room);
    t->records[t->record_count++] = *r;
    t->meaning = NULL;
}

/* Whoever reads the records without the book sees that it was not safe. */
static void say_it_is_danger(tt_talk *t, tt_record *r, value_builder *data)
{
    assert(t->record_count > 0 && record_has_field(record_kind_of(r->kind), "danger"));
    value_put_bool(data, "danger", true);
    r->data = value_keep(data);
    t->records[t->record_count - 1] = *r;
    t->meaning = NULL;
}

/* False: the case does not take it (a fix can't be reported on now, an answer is none); then
 * nothing is kept. */
bool keep_record(tt_talk *t, const char *kind, value_builder *data)
{
    assert(t->now != NULL);
    const record_kind of = record_kind_of(kind);
    assert(record_may_add(of, talk_is_called(t) ? CALLED_ROLE : ANYBODY));
    const uint32_t dangers = tt_dangers(t->c);
    value_builder empty = value_map(t->keep);
    if (data == NULL) data = &empty;
    tt_record r =
        journal_next(t->keep, talk_meaning(t), t->options.writer, kind, t->now, value_keep(data));
    if (t->replies_from == 0) t->replies_from = r.number;
    if ((record_does(of) & STEP) != 0) value_put_number(data, "reply_to", (double)t->replies_from);
    r.data = value_keep(data);
    talk_add_record(t, &r);
    if (!replay_newest(t)) {
        t->record_count--;
        t->meaning = NULL;
        replay_all(t); /* some of it may have been taken */
        return false;
    }
    if ((of == RECORD_ANSWER || of == RECORD_ANSWERS) && tt_dangers(t->c) > dangers)
        say_it_is_danger(t, &r, data);
    if (t->options.look_only) { /* danger is heard from whoever only looks, too; it goes nowhere but
                                   into this talk */
        t->ever_failed = true;
        return true;
    }
    GROW(t->keep, t->pending, t->pending_count, t->pending_room);
    t->pending[t->pending_count++] = r;
    return true;
}

static void put_copy(tt_talk *t, value_builder *b, const char *key, const char *text)
{
    if (text != NULL && *text != 0) value_put(b, key, value_of_str(t->keep, str_of(text)));
}

static void put_name(tt_talk *t, value_builder *b, const char *key, const char *text)
{
    value_put(b, key, value_of_str(t->keep, str_of(text)));
}

/* The turn is a second look at it. */
static tt_again look_asked_for(tt_talk *t, uint32_t question)
{
    const tt_next *next = &talk_look(t)->next;
    const bool asked = t->doing.kind == ASIDE_NONE && t->turn.kind == TT_TURN_LOOK_AGAIN &&
                       talk_look(t)->step == TT_ASK && next->question == question;
    return asked ? next->again : TT_FIRST_LOOK;
}

bool keep_answer(tt_talk *t, uint32_t question, const tt_reply *reply, const char *typed)
{
    assert(question != TT_NONE && reply != NULL && typed != NULL);
    const tt_question q = talk_question(t, question);
    const tt_again again = look_asked_for(t, question);
    value_builder b = value_map(t->keep);
    put_name(t, &b, "question", q.name);
    value_put(&b, "reply", reply_to_value(t->keep, &q, reply));
    put_name(t, &b, "typed", typed);
    put_copy(t, &b, "asked", q.ask);
    put_copy(t, &b, "words", reply_words_of(t->keep, t->tongue, &q, reply));
    if (again == TT_LOOK_ANOTHER) put_name(t, &b, "instrument", "another");
    return keep_record(t, again == TT_FIRST_LOOK ? "answer" : "again", &b);
}

bool keep_complaint(tt_talk *t, uint32_t complaint, const char *said, const uint32_t *at,
                    uint32_t count)
{
    assert(complaint < t->complaints.count && said != NULL);
    const tt_complaint *c = &t->complaints.items[complaint];
    value_builder b = value_map(t->keep), pieces = value_list(t->keep);
    for (uint32_t i = 0; i < count; i++)
        value_add(&pieces, value_of_str(t->keep, str_of(tt_piece_show(t->book, at[i], NULL).name)));
    put_name(t, &b, "symptom", c->name);
    put_name(t, &b, "said", said);
    if (c->kind != TT_NONE) value_put(&b, "at", value_done(&pieces));
    put_name(t, &b, "text", c->text);
    if (!keep_record(t, "complaint", &b)) return false;
    if (!earlier_is_offered(t)) tell_earlier(t); /* else the turn itself says it */
    return true;
}

/* What a step sets: the record says it as it was, whatever the rules say later. */
static void put_set(tt_talk *t, value_builder *b, const tt_adjust *step, double to)
{
    const tt_question reading = talk_question(t, step->reading);
    value_builder set = value_map(t->keep);
    value_put_number(&set, "from", step->from);
    value_put_number(&set, "to", to);
    put_name(t, &set, "reading", reading.name);
    put_name(t, &set, "unit", reading.unit);
    value_put(b, "set", value_done(&set));
}

static void put_with(tt_talk *t, value_builder *b, uint32_t with)
{
    if (with != TT_NONE) put_name(t, b, "with", talk_plan(t, with).name);
}

bool keep_tried(tt_talk *t, uint32_t fix, uint32_t with, tt_outcome outcome)
{
    assert(fix != TT_NONE);
    const tt_fix_plan plan = talk_plan(t, fix);
    value_builder b = value_map(t->keep);
    put_name(t, &b, "fix", plan.name);
    put_with(t, &b, with);
    put_name(t, &b, "outcome", tt_outcome_name(outcome));
    put_name(t, &b, "text", plan.text);
    if (plan.adjust.step > 0 && outcome != TT_COULD_NOT)
        put_set(t, &b, &plan.adjust, plan.adjust.to);
    return keep_record(t, "tried", &b);
}

bool keep_put_back(tt_talk *t, uint32_t fix)
{
    assert(fix != TT_NONE);
    const tt_fix_plan plan = talk_plan(t, fix);
    value_builder b = value_map(t->keep);
    put_name(t, &b, "fix", plan.name);
    if (plan.adjust.reading != TT_NONE) put_set(t, &b, &plan.adjust, plan.adjust.found);
    return keep_record(t, "put-back", &b);
}

bool keep_about_fix(tt_talk *t, const char *kind, uint32_t fix)
{
    assert(fix != TT_NONE);
    value_builder b = value_map(t->keep);
    put_name(t, &b, "fix", talk_plan(t, fix).name);
    return keep_record(t, kind, &b);
}

/* The second of two is begun, under the lockout of the first. */
void keep_together(tt_talk *t, uint32_t fix, uint32_t with)
{
    assert(fix != TT_NONE && with != TT_NONE);
    value_builder b = value_map(t->keep);
    put_name(t, &b, "fix", talk_plan(t, fix).name);
    put_with(t, &b, with);
    keep_record(t, "fix-begun", &b);
}

void keep_thing(tt_talk *t, uint32_t fix, uint32_t index, const char *how)
{
    const walk_things things = walk_list(t, fix);
    value_builder b = value_map(t->keep);
    assert(index < things.count);
    put_name(t, &b, "fix", talk_plan(t, fix).name);
    value_put_number(&b, "index", index);
    put_name(t, &b, "how", how);
    put_name(t, &b, "text", things.items[index].text);
    keep_record(t, "step", &b);
}

void keep_measured(tt_talk *t, uint32_t fix, uint32_t question, const tt_reply *reply)
{
    assert(fix != TT_NONE && question != TT_NONE);
    const tt_question q = talk_question(t, question);
    value_builder b = value_map(t->keep);
    put_name(t, &b, "fix", talk_plan(t, fix).name);
    put_name(t, &b, "question", q.name);
    value_put(&b, "reply", reply_to_value(t->keep, &q, reply));
    put_name(t, &b, "when", "after");
    put_name(t, &b, "words", reply_words_of(t->keep, t->tongue, &q, reply));
    keep_record(t, "measured", &b);
}

void keep_text(tt_talk *t, const char *kind, const char *key, const char *text)
{
    value_builder b = value_map(t->keep);
    put_name(t, &b, key, text);
    keep_record(t, kind, &b);
}

/* What comes next, in words, for whoever reads the folder of cases without the rules. */
static void put_next(tt_talk *t, value_builder *b)
{
    const tt_view *v = talk_look(t);
    if (v->step == TT_ASK) put_copy(t, b, "next", talk_question(t, v->next.question).ask);
    if (v->step == TT_FIX || v->step == TT_PUT_BACK)
        put_copy(t, b, "next", talk_plan(t, v->fix).text);
    if (v->step == TT_STOP) put_copy(t, b, "next", v->stop_text);
    if (v->step == TT_CALL) put_copy(t, b, "next", SAY(t, TEXT_CALL_ROLE, v->call_text));
}

/* What a role is called, for whoever reads it without the rules; nothing of somebody else. */
static void put_role(tt_talk *t, value_builder *b, const char *key, const char *whom)
{
    const char *called = talk_role(t, whom);
    if (strcmp(called, whom) != 0) put_copy(t, b, key, called);
}

void keep_waiting(tt_talk *t, const char *role)
{
    value_builder b = value_map(t->keep);
    put_name(t, &b, "whom", role);
    put_role(t, &b, "whom_text", role);
    keep_record(t, "waiting", &b);
}

void keep_leaving(tt_talk *t, const char *kind, const char *to, const char *note)
{
    value_builder b = value_map(t->keep);
    if (to != NULL) put_name(t, &b, "to", to);
    if (to != NULL) put_role(t, &b, "to_text", to);
    if (note != NULL) put_name(t, &b, "note", note);
    put_next(t, &b);
    keep_record(t, kind, &b);
}

void keep_close(tt_talk *t, const char *how)
{
    assert(*how != 0);
    const tt_tried *last = strcmp(how, "gone") == 0 ? talk_last_cure(t) : NULL;
    value_builder b = value_map(t->keep);
    put_name(t, &b, "how", how);
    if (last != NULL) {
        put_copy(t, &b, "fix", last->name);
        put_copy(t, &b, "fix_text", last->text);
        put_copy(t, &b, "cause", last->cured_name);
        put_copy(t, &b, "cause_text", last->cured);
    }
    keep_record(t, "close", &b);
}

void keep_confirm(tt_talk *t, const char *how, const char *cause)
{
    assert(*how != 0);
    const tt_view *v = talk_look(t);
    value_builder b = value_map(t->keep);
    put_name(t, &b, "how", how);
    if (cause != NULL)
        put_name(t, &b, "cause", cause);
    else
        value_put_text(&b, "cause", NULL);
    for (uint32_t i = 0; cause != NULL && i < v->cause_count; i++)
        if (v->causes[i].name != NULL && strcmp(v->causes[i].name, cause) == 0)
            put_copy(t, &b, "cause_text", v->causes[i].text);
    keep_record(t, "confirm", &b);
}

static void keep_steps_back(tt_talk *t, entries steps)
{
    assert(steps.count > 0);
    const journal *j = talk_meaning(t);
    value_builder b = value_map(t->keep), names = value_list(t->keep);
    for (uint32_t i = 0; i < steps.count; i++)
        value_add(&names, entry_name(t->keep, j, steps.items[i]));
    value_put(&b, "step", names.items[0]);
    value_put(&b, "steps", value_done(&names));
    keep_record(t, "back", &b);
}

/* A danger that was told by an answer ends only by another answer. */
static bool tells_danger(tt_talk *t, const journal *j, uint32_t entry)
{
    assert(entry < j->count);
    const uint32_t question = j->entries[entry].kind == RECORD_ANSWER
                                  ? tt_question_find(t->book, entry_text(j, entry, "question"))
                                  : TT_NONE;
    tt_reply reply;
    if (question == TT_NONE) return false;
    return talk_is_gate(t, question) &&
           !(reply_of_value(t->scratch, t->book, question, value_get(entry_data(j, entry), "reply"),
                            &reply) &&
             talk_is_safe(t, question, &reply));
}

bool keep_back(tt_talk *t)
{
    const journal *j = talk_meaning(t);
    const entries steps = journal_back_takes(t->scratch, j, t->options.writer);
    for (uint32_t i = 0; i < steps.count; i++)
        if (tells_danger(t, j, steps.items[i])) return false;
    if (steps.count > 0) keep_steps_back(t, steps);
    return steps.count > 0;
}

static bool says_gone(const journal *j, uint32_t entry)
{
    assert(entry < j->count);
    return j->entries[entry].kind == RECORD_TRIED &&
           strcmp(entry_text(j, entry, "outcome"), "gone") == 0;
}

/* What closed a case, whoever said it, and however many: since the trouble last came back. */
void keep_cure_back(tt_talk *t)
{
    const journal *j = talk_meaning(t);
    uint32_t *said = ARENA_ARRAY(t->scratch, uint32_t, j->count), count = 0;
    for (uint32_t i = j->count; i-- > 0;) {
        const tt_skip skipped = j->entries[i].skipped;
        if (j->entries[i].kind == RECORD_CAME_BACK && skipped == TT_SKIP_NOT) break;
        if (says_gone(j, i) && (skipped == TT_SKIP_NOT || skipped == TT_SKIP_TOLD_TWICE))
            said[count++] = i;
    }
    if (count > 0) keep_steps_back(t, (entries){said, count});
}

void keep_settled(tt_talk *t, const journal *j, uint32_t right, const uint32_t *wrong,
                  uint32_t count)
{
    assert(count > 0);
    value_builder b = value_map(t->keep), names = value_list(t->keep);
    for (uint32_t i = 0; i < count; i++) value_add(&names, entry_name(t->keep, j, wrong[i]));
    value_put(&b, "right", entry_name(t->keep, j, right));
    value_put(&b, "wrong", value_done(&names));
    keep_record(t, "settle", &b);
}

/* ---- coming ---- */

void keep_coming(tt_talk *t, const char *kind)
{
    value_builder b = value_map(t->keep);
    const tt_value *about = t->options.about;
    for (uint32_t i = 0; about != NULL && i < about->count; i++)
        value_put(&b, about->keys[i], about->items[i]);
    const bool begins = strcmp(kind, "begin") == 0;
    if (begins) {
        value_put_text(&b, "role", t->options.role);
        value_put_text(&b, "language", t->options.language);
        value_put_bool(&b, "soonest", t->options.soonest);
        if (t->kind != TT_KIND_FAULT) value_put_text(&b, "kind", tt_case_kind_name(t->kind));
        if (t->kind == TT_KIND_ROUND) value_put_text(&b, "every", tt_every_name(t->every));
    } else if (strcmp(kind, "resume") == 0 && strcmp(t->options.how, "resume") != 0) {
        value_put_text(&b, "how", t->options.how);
    }
    keep_record(t, kind, &b);
}

/* One stands as `entry`; what else was said in the same words, as `also`. */
static void put_emergencies(tt_talk *t, value_builder *b, danger_names which)
{
    if (which.count > 0) put_copy(t, b, "entry", which.items[0]);
    if (which.count < 2) return;
    value_builder also = value_list(t->keep);
    for (uint32_t i = 1; i < which.count; i++)
        value_add(&also, value_of_str(t->keep, str_of(which.items[i])));
    value_put(b, "also", value_done(&also));
}

void keep_danger(tt_talk *t, const char *kind, danger_names which, const char *words)
{
    assert(words != NULL);
    value_builder b = value_map(t->keep);
    put_name(t, &b, "words", words);
    put_emergencies(t, &b, which);
    keep_record(t, kind, &b);
}
