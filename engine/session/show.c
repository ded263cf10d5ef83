#include <assert.h>

#include "session/session.h"

static const char *put_back_words(tt_case *c, const put_back *p)
{
    return p->kind == PUT_BACK_TEXT ? case_text(c, &p->text) : "";
}

static const tt_option *option_words(tt_case *c, const struct question *q)
{
    tt_option *all = ARENA_ARRAY(c->derived, tt_option, q->answer_count);
    for (uint32_t i = 0; i < q->answer_count; i++) {
        const answer_option *a = &q->answers[q->shown_order[i]];
        const char *text = case_text(c, &a->text);
        const char *name = cstr(c->derived, a->id.name);
        all[i] = (tt_option){name, *text == '\0' ? name : text};
    }
    return all;
}

static tt_question_kind kind_of(const struct question *q)
{
    if (q->kind == QUESTION_READING) return TT_READING;
    if (q->kind == QUESTION_COUNT) return TT_COUNT;
    return q->yes_no ? TT_YES_NO : TT_CHOICE;
}

typedef struct showing {
    tt_case *c;
    uint32_t subject;
    tt_question *question;
    tt_fix_plan *fix;
} showing;

static tt_status show_question(void *context)
{
    const showing *x = context;
    tt_case *c = x->c;
    if (x->subject >= c->book->book->question_count) return TT_FAULTY;
    const struct question *q = &c->book->book->questions[x->subject];
    *x->question = (tt_question){
        .name = cstr(c->derived, q->id.name), .ask = case_text(c, &q->ask), .look = case_text(c, &q->look),
        .say = case_text(c, &q->say), .kind = kind_of(q), .options = option_words(c, q), .option_count = q->answer_count,
        .measures = cstr(c->derived, q->measures), .unit = cstr(c->derived, q->unit), .has_plausible = q->has_plausible,
        .plausible_low = q->plausible_low, .plausible_high = q->plausible_high, .minutes = q->minutes, .role = q->role,
        .safety = safety_words(c, &q->harm), .put_back = put_back_words(c, &q->undo), .is_fact = q->about != ABOUT_FAULT,
        .at = place_words(c->derived, c->book, q->id.at)};
    return TT_OK;
}

tt_status tt_question_show(tt_case *c, uint32_t question, tt_question *out)
{
    const tt_view *view;
    tt_status status = tt_look(c, &view);
    if (status != TT_OK) return status;
    return guarded_case(c, show_question, &(showing){.c = c, .subject = question, .question = out});
}

static tt_status show_fix(void *context)
{
    const showing *x = context;
    tt_case *c = x->c;
    if (x->subject >= c->book->book->fix_count) return TT_FAULTY;
    const struct fix *f = &c->book->book->fixes[x->subject];
    *x->fix = (tt_fix_plan){
        .name = cstr(c->derived, f->id.name), .text = case_text(c, &f->text),
        .role = cstr(c->derived, c->book->book->roles[f->role].name), .steps = case_text_list(c, &f->steps),
        .step_count = f->steps.count, .minutes = f->minutes, .safety = safety_words(c, &f->harm),
        .put_back = put_back_words(c, &f->undo), .cannot_put_back = f->undo.kind == PUT_BACK_IMPOSSIBLE,
        .look_again = f->look_again.items, .look_again_count = f->look_again.count,
        .parts = case_text_list(c, &f->parts), .part_count = f->parts.count, .cost = case_text(c, &f->cost),
        .at = place_words(c->derived, c->book, f->id.at)};
    return TT_OK;
}

tt_status tt_fix_show(tt_case *c, uint32_t fix, tt_fix_plan *out)
{
    const tt_view *view;
    tt_status status = tt_look(c, &view);
    if (status != TT_OK) return status;
    return guarded_case(c, show_fix, &(showing){.c = c, .subject = fix, .fix = out});
}

/* ---- what was tried ---- */

typedef struct listing {
    tt_case *c;
    const tt_tried *items;
    uint32_t count;
} listing;

/* The cause the fix most likely cured: the greatest share of belief times chance. */
static const char *cured_words(tt_case *c, uint32_t fix)
{
    const program *p = c->book->prog;
    double most = 0;
    const char *words = "";
    for (uint32_t i = 0; i < p->book->fixes[fix].cures_count; i++) {
        const net_rate *r = &p->cures[fix][i];
        double chance = c->now.planning[1 + r->cause] * r->chance;
        if (chance > most) {
            most = chance;
            words = case_text(c, &p->book->causes[r->cause].text);
        }
    }
    return words;
}

static tt_tried tried_words(tt_case *c, const event *e)
{
    const struct fix *f = &c->book->book->fixes[e->subject];
    bool undo = e->outcome == TT_NO_CHANGE;
    return (tt_tried){e->subject, cstr(c->derived, f->id.name), case_text(c, &f->text), e->outcome,
                      undo ? put_back_words(c, &f->undo) : "", e->outcome == TT_GONE ? cured_words(c, e->subject) : ""};
}

static tt_status list_tried(void *context)
{
    listing *l = context;
    tt_tried *all = ARENA_ARRAY(l->c->derived, tt_tried, l->c->event_count);
    for (uint32_t i = 0; i < l->c->event_count; i++)
        if (l->c->events[i].kind == EVENT_OUTCOME) all[l->count++] = tried_words(l->c, &l->c->events[i]);
    l->items = all;
    return TT_OK;
}

tt_status tt_tried_fixes(tt_case *c, const tt_tried **out, uint32_t *count)
{
    const tt_view *view;
    listing l = {.c = c};
    tt_status status = tt_look(c, &view);
    if (status == TT_OK) status = guarded_case(c, list_tried, &l);
    *out = l.items;
    *count = status == TT_OK ? l.count : 0;
    return status;
}
