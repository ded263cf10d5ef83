#include "asked_book.h"

#include "testing.h"

#include "open_gate.h"
#include "session/session.h"
#include "small_book.h"

asked_book asked_new(const char *yaml)
{
    asked_book a = {.book = small_book(yaml)};
    assert_int_equal(tt_case_new(a.book, NULL, &a.c), TT_OK);
    open_gate(a.c);
    return a;
}

void asked_free(asked_book *a)
{
    tt_case_free(a->c);
    tt_book_free(a->book);
}

void asked_again(asked_book *a)
{
    tt_case_free(a->c);
    assert_int_equal(tt_case_new(a->book, NULL, &a->c), TT_OK);
    open_gate(a->c);
}

static uint32_t option_named(asked_book *a, uint32_t question, const char *name)
{
    tt_question q;
    assert_int_equal(tt_question_show(a->c, question, &q), TT_OK);
    for (uint32_t i = 0; i < q.option_count; i++)
        if (strcmp(q.options[i].name, name) == 0) return i;
    fail_msg("'%s' is no answer to '%s'", name, q.name);
    return 0;
}

static void reply_to(asked_book *a, const char *question, uint32_t index, tt_reply r)
{
    if (tt_answer(a->c, index, &r) != TT_OK) fail_msg("'%s' did not take the answer", question);
}

static uint32_t question_named(const asked_book *a, const char *name)
{
    uint32_t question = tt_question_find(a->book, name);
    if (question == TT_NONE) fail_msg("there is no question '%s'", name);
    return question;
}

void asked_answer(asked_book *a, const char *question, const char *option)
{
    uint32_t index = question_named(a, question);
    tt_reply r = {.kind = TT_UNSURE};
    if (strcmp(option, "unsure") != 0)
        r = (tt_reply){.kind = TT_ANSWER, .option = option_named(a, index, option)};
    reply_to(a, question, index, r);
}

void asked_likely(asked_book *a, const char *question, double no, double yes)
{
    uint32_t index = question_named(a, question);
    double weights[2];
    weights[option_named(a, index, "no")] = no;
    weights[option_named(a, index, "yes")] = yes;
    reply_to(a, question, index, (tt_reply){.kind = TT_LIKELY, .weights = weights});
}

const tt_view *asked_look(asked_book *a)
{
    const tt_view *v;
    assert_int_equal(tt_look(a->c, &v), TT_OK);
    return v;
}

double asked_chance(asked_book *a, const char *cause)
{
    const tt_view *v = asked_look(a);
    for (uint32_t i = 0; i < v->cause_count; i++) {
        const char *name = v->causes[i].name;
        if (name == cause || (name != NULL && cause != NULL && strcmp(name, cause) == 0))
            return v->causes[i].chance;
    }
    fail_msg("there is no cause '%s'", cause);
    return 0;
}

double asked_chance_of_all(asked_book *a, const char *part_of_name)
{
    const tt_view *v = asked_look(a);
    double sum = 0;
    for (uint32_t i = 0; i < v->cause_count; i++)
        if (v->causes[i].name != NULL && strstr(v->causes[i].name, part_of_name) != NULL)
            sum += v->causes[i].chance;
    return sum;
}

const net *asked_net(const asked_book *a)
{
    return a->book->prog->evidence;
}

uint32_t asked_cause(const asked_book *a, const char *name)
{
    const net_input *in = &asked_net(a)->in;
    for (uint32_t c = 0; c < in->cause_count; c++)
        if (str_is(in->cause_names[c], name)) return c;
    fail_msg("there is no cause '%s'", name);
    return 0;
}
