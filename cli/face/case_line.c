#include "face/case_line.h"

#include <assert.h>
#include <string.h>

#include "base/moment.h"
#include "base/unicode.h"
#include "cases/case_store.h"
#include "host/memory.h"
#include "say/catalogue.h"
#include "show/case_fields.h"

/* ---- how it stands ---- */

static bool same_name(arena *keep, const char *a, const char *b)
{
    return *a != 0 && *b != 0 &&
           str_eq(unicode_plain(keep, str_of(a)), unicode_plain(keep, str_of(b)));
}

/* Several people may work at one computer: a name that was said counts, else the computer does. */
static bool had_it_last(const tt_case_summary *c, const case_reader *r)
{
    char here[WRITER_SIZE];
    arena *keep = host_arena();
    const bool same = *c->person == 0 || *r->name == 0 || same_name(keep, c->person, r->name);
    arena_free(keep);
    writer_of_this_machine(here);
    return same && strncmp(c->writer, here, strlen(here)) == 0;
}

static bool is_for(const tt_case_summary *c, const case_reader *r)
{
    arena *keep = host_arena();
    const bool same = same_name(keep, c->to, r->name);
    arena_free(keep);
    return same;
}

case_stand case_stand_of(const case_summary *s, const case_reader *r)
{
    const tt_case_summary *c = &s->says;
    assert(r->name != NULL);
    if (!case_is_open(s)) return STANDS_ENDED;
    if (c->danger) return STANDS_DANGER;
    if (is_for(c, r)) return STANDS_FOR_YOU;
    if (c->state == TT_CASE_WAITING) return STANDS_WAITING;
    if (*c->to != 0) return STANDS_OTHERS;
    if (c->state == TT_CASE_ON_HOLD) return STANDS_NOBODYS;
    return had_it_last(c, r) ? STANDS_YOURS : STANDS_OTHERS;
}

/* ---- in words ---- */

static const char *when(arena *keep, const char *written, const case_reader *r)
{
    tt_moment then;
    if (tt_moment_read(written, &then)) return moment_for_people(keep, then, r->now).p;
    return *written != 0 ? written : catalogue_text(r->in, CASES_UNKNOWN_TIME);
}

static const char *who_is(const case_reader *r, const char *name)
{
    return *name != 0 ? name : catalogue_text(r->in, LINE_SOMEBODY);
}

static const char *others_words(arena *keep, const tt_case_summary *c, const case_reader *r,
                                const char *since)
{
    if (*c->to != 0) return FILL(keep, r->in, LINE_FOR, c->to_text, since);
    return FILL(keep, r->in, c->held ? LINE_WITH : LINE_LEFT, who_is(r, c->person), since);
}

static const char *waiting_words(arena *keep, const tt_case_summary *c, const case_reader *r,
                                 const char *since)
{
    const char *whom = who_is(r, c->to_text);
    return *c->until != 0 ? FILL(keep, r->in, LINE_WAITING_UNTIL, whom, when(keep, c->until, r))
                          : FILL(keep, r->in, LINE_WAITING, whom, since);
}

static const char *ended_words(arena *keep, const tt_case_summary *c, const case_reader *r)
{
    const char *cause = *c->cause != 0 ? c->cause : c->cause_name,
               *end = case_state_words(r->in, c->state);
    if (c->state == TT_CASE_UNREADABLE) return end;
    const char *at = when(keep, c->ended, r);
    return *cause != 0 && !c->disputed ? FILL(keep, r->in, LINE_CAUSE, end, at, cause)
                                       : FILL(keep, r->in, LINE_ENDED, end, at);
}

static const char *stand_words(arena *keep, const case_summary *s, const case_reader *r)
{
    const tt_case_summary *c = &s->says;
    const char *since = when(keep, *c->since != 0 ? c->since : c->last, r);
    switch (case_stand_of(s, r)) {
    case STANDS_DANGER:
        return FILL(keep, r->in, LINE_DANGER, others_words(keep, c, r, since));
    case STANDS_FOR_YOU:
        return FILL(keep, r->in, LINE_FOR_YOU, since);
    case STANDS_YOURS:
        return FILL(keep, r->in, LINE_YOURS, since);
    case STANDS_NOBODYS:
        return FILL(keep, r->in, LINE_NOBODYS, since);
    case STANDS_WAITING:
        return waiting_words(keep, c, r, since);
    case STANDS_OTHERS:
        return others_words(keep, c, r, since);
    case STANDS_ENDED:
        break;
    }
    return ended_words(keep, c, r);
}

const char *contact_words(arena *keep, tongue in, const case_contact *c)
{
    const char *said[] = {c->caller, c->call_back,
                          *c->ticket != 0 ? FILL(keep, in, LINE_TICKET, c->ticket) : ""};
    text_builder b = {.keep = keep};
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++)
        if (*said[i] != 0) text_addf(&b, "%s%s", b.length > 0 ? ", " : "", said[i]);
    return b.length > 0 ? text_done(&b).p : "";
}

/* What the case is about. Of a round and a record nobody says what is wrong. */
static const char *about_words(const tt_case_summary *c, const case_reader *r)
{
    if (*c->complaint != 0) return c->complaint;
    if (*c->complaint_name != 0) return c->complaint_name;
    if (c->kind == TT_KIND_ROUND) return catalogue_text(r->in, LINE_ROUND);
    if (c->kind == TT_KIND_RECORD) return catalogue_text(r->in, LINE_RECORD);
    return *c->said != 0 ? c->said : catalogue_text(r->in, LINE_NO_TROUBLE);
}

const char *case_line(arena *keep, const case_summary *s, const case_reader *r)
{
    const tt_case_summary *c = &s->says;
    const char *site = *c->site != 0    ? c->site
                       : *c->title != 0 ? c->title
                                        : catalogue_text(r->in, LINE_SOMEWHERE),
               *stands = stand_words(keep, s, r);
    if (*c->note != 0 && case_is_open(s)) stands = FILL(keep, r->in, LINE_NOTE, stands, c->note);
    return FILL(keep, r->in, LINE_CASE, s->number, site, about_words(c, r), stands);
}
