#include "told_case.h"

#include <stdlib.h>

#include "small_book.h"
#include "testing.h"

told_case told_new(const char *yaml, const tt_options *options)
{
    told_case t = {.book = small_book(yaml)};
    assert_int_equal(tt_case_new(t.book, options, &t.c), TT_OK);
    return t;
}

void told_free(told_case *t)
{
    tt_case_free(t->c);
    tt_book_free(t->book);
}

uint32_t told_question(const told_case *t, const char *name)
{
    uint32_t question = tt_question_find(t->book, name);
    if (question == TT_NONE) fail_msg("there is no question '%s'", name);
    return question;
}

uint32_t told_fix(const told_case *t, const char *name)
{
    uint32_t fix = tt_fix_find(t->book, name);
    if (fix == TT_NONE) fail_msg("there is no fix '%s'", name);
    return fix;
}

tt_reply told_reply(const told_case *t, const char *question, const char *said)
{
    tt_question q;
    char *end;
    if (strcmp(said, "unsure") == 0) return (tt_reply){.kind = TT_UNSURE};
    if (strcmp(said, "cannot") == 0) return (tt_reply){.kind = TT_CANNOT};
    assert_int_equal(tt_question_show(t->c, told_question(t, question), &q), TT_OK);
    for (uint32_t i = 0; i < q.option_count; i++)
        if (strcmp(q.options[i].name, said) == 0) return (tt_reply){.kind = TT_ANSWER, .option = i};
    double number = strtod(said, &end);
    if (end == said || *end != '\0') fail_msg("'%s' is no answer to '%s'", said, question);
    return (tt_reply){.kind = TT_NUMBER, .number = number};
}

void told_answer(told_case *t, const char *question, const char *said)
{
    tt_reply reply = told_reply(t, question, said);
    assert_int_equal(tt_answer(t->c, told_question(t, question), &reply), TT_OK);
}

tt_status told_tried(told_case *t, const char *fix, tt_outcome outcome)
{
    return tt_fix_tried(t->c, told_fix(t, fix), outcome);
}

const tt_view *told_look(told_case *t)
{
    const tt_view *v;
    assert_int_equal(tt_look(t->c, &v), TT_OK);
    return v;
}

void told_comes(told_case *t, tt_step step, tt_policy policy)
{
    const tt_view *v = told_look(t);
    assert_int_equal(v->policy, policy);
    assert_int_equal(v->step, step);
}

void told_asks(told_case *t, const char *question, tt_policy policy)
{
    const tt_view *v = told_look(t);
    assert_int_equal(v->step, TT_ASK);
    tt_question asked;
    assert_int_equal(tt_question_show(t->c, v->next.question, &asked), TT_OK);
    assert_string_equal(asked.name, question);
    assert_int_equal(told_look(t)->policy, policy);
}

void told_offers(told_case *t, tt_step step, const char *fix)
{
    const tt_view *v = told_look(t);
    assert_int_equal(v->step, step);
    assert_int_equal(v->fix, told_fix(t, fix));
}

void told_gate(told_case *t, tt_gate_state state, const char *question)
{
    const tt_view *v = told_look(t);
    assert_int_equal(v->gate.state, state);
    assert_int_equal(v->gate.question, question == NULL ? TT_NONE : told_question(t, question));
    for (uint32_t i = 0; i < v->fix_count; i++)
        assert_int_equal(v->fixes[i].held, state != TT_GATE_OPEN);
}

double told_chance(told_case *t, const char *cause)
{
    const tt_view *v = told_look(t);
    for (uint32_t i = 0; i < v->cause_count; i++)
        if (v->causes[i].name != NULL && strcmp(v->causes[i].name, cause) == 0)
            return v->causes[i].chance;
    fail_msg("there is no cause '%s'", cause);
    return 0;
}
