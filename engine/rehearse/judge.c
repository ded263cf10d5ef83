/* How the ranking stands to the truth. */
#include "rehearse/judge.h"

#include <assert.h>

static const double SET_HOLDS = 0.9;

static bool is_there(const made_call *call, uint32_t cause)
{
    return cause == NO_ID ? call->size == 0 : call_has(call, cause);
}

static uint32_t cause_named(const tt_case *c, const char *name)
{
    return name == NULL ? NO_ID : book_cause(c->book->book, str_of(name));
}

/* The fewest causes that hold 90 %, and whether some of what is wrong is among them. */
static void judge_set(arena *scratch, const tt_case *c, const made_call *call, judgement *j)
{
    const standing *now = &c->now;
    const belief *shown = now->pairs_matter ? now->pairs : now->single;
    uint32_t *members = ARENA_ARRAY(scratch, uint32_t, c->book->book->cause_count + 1);
    j->set_count = belief_likely_set(shown, scratch, SET_HOLDS, members, &j->set_mass);
    for (uint32_t i = 0; i < j->set_count; i++)
        j->in_set |= is_there(call, members[i] == 0 ? NO_ID : members[i] - 1);
}

judgement judge(arena *scratch, const tt_case *c, const tt_view *v, const made_call *call)
{
    assert(v->cause_count > 0);
    judgement j = {.leading = v->causes[0].chance};
    const uint32_t first = cause_named(c, v->causes[0].name);
    j.blamed = first == NO_ID ? NOT_LISTED : (int64_t)first;
    for (uint32_t i = 0; i < v->cause_count; i++) {
        if (!is_there(call, cause_named(c, v->causes[i].name))) continue;
        j.leads = i == 0;
        j.among_three = i < 3;
        j.truth = v->causes[i].chance;
        break;
    }
    judge_set(scratch, c, call, &j);
    return j;
}
