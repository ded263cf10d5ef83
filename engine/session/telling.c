/* What is told of a case beside answers and outcomes: who speaks, danger, where a complaint's piece
 * is not known, what others said otherwise. */
#include <assert.h>

#include "session/session.h"

static tt_status tell(tt_case *c, event_kind kind, uint32_t subject)
{
    assert(kind >= EVENT_SOMEWHERE); /* the others are told with more than their subject */
    return case_tell(c, (event){.kind = kind, .subject = subject});
}

/* ---- danger ---- */

void tt_speaker(tt_case *c, uint32_t who)
{
    if (c->speaker != who) case_forget(c);
    c->speaker = who;
}

tt_status tt_sitting(tt_case *c)
{
    return tell(c, EVENT_SITTING, NO_ID);
}

tt_status case_take_over(tt_case *c, uint32_t role)
{
    assert(role < c->book->book->role_count);
    c->role = role;
    tt_speaker(c, c->speaker + 1);
    return tt_sitting(c);
}

tt_status tt_recheck(tt_case *c)
{
    return tell(c, EVENT_RECHECK, NO_ID);
}

tt_status tt_danger_said(tt_case *c)
{
    return tell(c, EVENT_DANGER, NO_ID);
}

uint32_t tt_dangers(const tt_case *c)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < c->event_count; i++) count += event_is_danger(c, &c->events[i]);
    return count;
}

/* ---- complaints ---- */

static uint32_t pieces_of_kind(const book *b, uint32_t kind)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < b->piece_count; i++) count += b->pieces[i].kind == kind;
    return count;
}

tt_status tt_complain_somewhere(tt_case *c, uint32_t symptom)
{
    const book *b = c->book->book;
    if (symptom >= b->symptom_count) return TT_FAULTY;
    uint32_t piece = b->symptoms[symptom].of.piece;
    bool several = piece != NO_ID && pieces_of_kind(b, b->pieces[piece].kind) > 1;
    return several ? tell(c, EVENT_SOMEWHERE, symptom) : tt_complain(c, symptom);
}

tt_status tt_no_complaint(tt_case *c)
{
    return tell(c, EVENT_NO_COMPLAINT, NO_ID);
}

/* ---- what others said, and long ago ---- */

tt_status tt_unsettled(tt_case *c, uint32_t question)
{
    return question < c->book->book->question_count ? tell(c, EVENT_UNSETTLED_ANSWER, question)
                                                    : TT_FAULTY;
}

tt_status tt_unsettled_fix(tt_case *c, uint32_t fix)
{
    return fix < c->book->book->fix_count ? tell(c, EVENT_UNSETTLED_FIX, fix) : TT_FAULTY;
}

tt_status tt_stale(tt_case *c, uint32_t question)
{
    return question < c->book->book->question_count ? tell(c, EVENT_OLD, question) : TT_FAULTY;
}

tt_status tt_trend_told(tt_case *c, uint32_t reading, tt_trend trend)
{
    assert(trend < TT_TRENDS);
    if (reading >= c->book->book->question_count) return TT_FAULTY;
    return case_tell(c, (event){.kind = EVENT_TREND, .subject = reading, .trend = trend});
}

/* ---- after a fix ---- */

tt_status tt_left_so(tt_case *c, uint32_t fix)
{
    tt_status status = case_known(c);
    if (status != TT_OK) return status;
    if (fix >= c->book->book->fix_count) return TT_FAULTY;
    return !case_adjusts(c, fix) && fix_changed_in_vain(c, fix) ? tell(c, EVENT_LEFT_SO, fix)
                                                                : TT_NOT_NOW;
}

tt_status tt_came_back(tt_case *c, uint32_t fix)
{
    tt_status status = case_known(c);
    if (status != TT_OK) return status;
    if (fix >= c->book->book->fix_count) return TT_FAULTY;
    bool cured = c->now.closed && c->now.tried[fix] && c->now.outcomes[fix] == TT_GONE;
    return cured ? tell(c, EVENT_CAME_BACK, fix) : TT_NOT_NOW;
}

/* ---- back ---- */

static bool is_step(const event *e)
{
    return e->kind < EVENT_SITTING;
}

tt_status tt_undo(tt_case *c)
{
    for (uint32_t i = c->event_count; i > 0; i--) {
        const event *e = &c->events[i - 1];
        bool own = e->who == c->speaker;
        if (event_is_danger(c, e) || (own && e->kind == EVENT_SITTING)) return TT_NOT_NOW;
        if (!is_step(e)) continue;
        if (!own) return TT_NOT_NOW;
        for (uint32_t next = i; next < c->event_count; next++)
            c->events[next - 1] = c->events[next];
        c->event_count--;
        case_forget(c);
        return TT_OK;
    }
    return TT_NOT_NOW;
}
