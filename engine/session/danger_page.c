/* What stands on the page of a danger: what to do, and whom to call. */
#include <assert.h>

#include "session/session.h"

/* ---- whom to call ---- */

uint32_t tt_contact_count(const tt_book *b)
{
    return b->book->site_is_example ? 0 : b->book->contact_count;
}

tt_contact tt_contact_show(const tt_book *b, uint32_t at, const char *language)
{
    assert(at < tt_contact_count(b));
    const contact *c = &b->book->contacts[at];
    const str in = language == NULL ? b->book->language : str_of(language);
    const char *post = texts_for(&c->post, in).p;
    assert(*post != 0); /* without one a contact isn't read */
    return (tt_contact){.role = c->role == NO_ID ? "" : tt_role_name(b, c->role),
                        .purpose = texts_for(&c->purpose, in).p,
                        .post = post,
                        .telephone = c->telephone.p,
                        .hours = texts_for(&c->hours, in).p,
                        .who = post};
}

const char *tt_emergency_number(const tt_book *b)
{
    return b->book->site_is_example ? "" : b->book->emergency_number.p;
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
