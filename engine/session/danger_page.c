/* What stands on the page of a danger: what to do, and whom to call. */
#include <assert.h>

#include "session/session.h"

/* ---- whom to call ---- */

void describe_contacts(tt_book *b)
{
    const book *r = b->book;
    tt_contact *all = ARENA_ARRAY(b->keep, tt_contact, r->contact_count);
    b->emergency_number = "";
    if (r->site_is_example) return;
    for (uint32_t i = 0; i < r->contact_count; i++) {
        const contact *c = &r->contacts[i];
        str role = c->role == NO_ID ? STR("") : r->roles[c->role].name;
        all[i] = (tt_contact){.role = cstr(b->keep, role),
                              .purpose = cstr(b->keep, c->purpose),
                              .post = cstr(b->keep, c->post),
                              .telephone = cstr(b->keep, c->telephone),
                              .hours = cstr(b->keep, c->hours)};
        all[i].who = *all[i].post != 0   ? all[i].post
                     : *all[i].role != 0 ? tt_role_text(b, all[i].role, NULL)
                                         : all[i].purpose;
    }
    b->contacts = all;
    b->contact_count = r->contact_count;
    b->emergency_number = cstr(b->keep, r->emergency_number);
}

const tt_contact *tt_contacts(const tt_book *b, uint32_t *count)
{
    assert(b->contact_count == 0 || !b->book->site_is_example);
    *count = b->contact_count;
    return b->contacts;
}

const char *tt_emergency_number(const tt_book *b)
{
    return b->emergency_number;
}

/* ---- what to do ---- */

typedef struct showing_emergency {
    tt_case *c;
    const char *name;
    tt_emergency *out;
} showing_emergency;

static tt_status show_emergency(void *context)
{
    const showing_emergency *x = context;
    assert(x->name != NULL && x->out != NULL);
    tt_case *c = x->c;
    const book *b = c->book->book;
    uint32_t id = book_emergency(b, str_of(x->name));
    if (id == NO_ID) return TT_FAULTY;
    const emergency *e = &b->emergencies[id];
    assert(e->do_now.count > 0);
    *x->out =
        (tt_emergency){.name = cstr(c->derived, e->id.name),
                       .text = case_text(c, &e->text),
                       .do_now = case_text_list(c, &e->do_now),
                       .do_count = e->do_now.count,
                       .then = case_text_list(c, &e->then),
                       .then_count = e->then.count,
                       .call = e->call == NO_ID ? "" : cstr(c->derived, b->roles[e->call].name),
                       .source = case_text(c, &e->source)};
    return TT_OK;
}

tt_status tt_emergency_show(tt_case *c, const char *name, tt_emergency *out)
{
    tt_status status = case_see(c);
    return status == TT_OK ? guarded_case(c, show_emergency, &(showing_emergency){c, name, out})
                           : status;
}
