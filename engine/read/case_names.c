/* Names that worked cases say, each reported as of a case. */
#include "read/reader.h"

uint32_t case_name(reader *r, section s, const node *n, span *at)
{
    assert(s < SECTION_COUNT && at != NULL);
    str name;
    if (n == NULL) return NO_ID;
    *at = n->at;
    if (!read_word(r, n, "a name", &name)) return NO_ID;
    const name_table *t = &r->bases[s];
    uint32_t id;
    if (look_up_one(r, s, name, n->at, &id) != LOOK_UP_MISSING || missing_before(r, (int)s, name))
        return id;
    if (may_be_lost(r, name, t->names, t->count)) return NO_ID;
    const char *elsewhere = name_elsewhere(r, name);
    fault *f = elsewhere != NULL ? fault_add(r->list, FAULT_CASE_NO_NAME, n->at,
                                             "'%.*s' is a %s; here the name of a %s is wanted.",
                                             STR_ARG(name), elsewhere, section_entry(s))
                                 : fault_add(r->list, FAULT_CASE_NO_NAME, n->at,
                                             "The case names the %s '%.*s', which is not there.",
                                             section_entry(s), STR_ARG(name));
    if (elsewhere == NULL) suggest_name(r, f, name, t->names, t->count);
    return NO_ID;
}

uint32_t case_cause(reader *r, const node *n, span *at)
{
    if (n == NULL || n->kind != NODE_TEXT || !str_is(str_trim(n->text), "something-not-listed"))
        return case_name(r, SECTION_CAUSES, n, at);
    *at = n->at;
    return CAUSE_NOT_LISTED;
}

/* A question, the engine's own too: no table has its name. */
uint32_t case_question(reader *r, const node *n, span *at)
{
    uint32_t ours = r->book->our_gate;
    bool named = n != NULL && n->kind == NODE_TEXT && ours != NO_ID &&
                 str_eq(str_trim(n->text), r->book->questions[ours].id.name);
    if (!named) return case_name(r, SECTION_QUESTIONS, n, at);
    *at = n->at;
    return ours;
}
