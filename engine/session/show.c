/* Questions, fixes and what was tried, in the words of the case. */
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
        all[i] = (tt_option){name, *text == '\0' ? name : text, picture_words(c, a->picture)};
    }
    return all;
}

static tt_question_kind kind_of(const struct question *q)
{
    if (q->kind == QUESTION_READING) return TT_READING;
    if (q->kind == QUESTION_COUNT) return TT_COUNT;
    if (q->kind == QUESTION_QUANTITY) return TT_QUANTITY;
    return q->yes_no ? TT_YES_NO : TT_CHOICE;
}

static uint64_t safe_options(const struct question *q)
{
    assert(q->answer_count <= 64);
    uint64_t mask = 0;
    for (uint32_t i = 0; q->gate && i < q->answer_count; i++)
        mask |= (uint64_t)answer_is_safe(q, q->shown_order[i]) << i;
    return mask;
}

static const char *const round_names[] = {[ROUND_NONE] = "",
                                          [ROUND_DAILY] = "daily",
                                          [ROUND_WEEKLY] = "weekly",
                                          [ROUND_MONTHLY] = "monthly"};

static const char *where_words(tt_case *c, uint32_t where)
{
    return where == NO_ID ? "" : case_text(c, &c->book->book->places[where].text);
}

static const char *instrument_words(tt_case *c, uint32_t id)
{
    return id == NO_ID ? "" : case_text(c, &c->book->book->instruments[id].text);
}

static const char *cost_words(tt_case *c, const money *m)
{
    if (m->currency.n == 0) return "";
    return str_printf(c->derived, "%.*s %.*s", STR_ARG(number_words(c->derived, m->amount)),
                      STR_ARG(m->currency))
        .p;
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
    const unit shown = book_shown_unit(c->book->book, &q->in);
    *x->question = (tt_question){.name = cstr(c->derived, q->id.name),
                                 .ask = case_text(c, &q->ask),
                                 .look = case_text(c, &q->look),
                                 .say = case_text(c, &q->say),
                                 .kind = kind_of(q),
                                 .options = option_words(c, q),
                                 .option_count = q->answer_count,
                                 .measures = cstr(c->derived, q->measures),
                                 .unit = cstr(c->derived, shown.text),
                                 .has_plausible = q->has_plausible,
                                 .plausible_low = unit_convert(&q->in, &shown, q->plausible_low),
                                 .plausible_high = unit_convert(&q->in, &shown, q->plausible_high),
                                 .minutes = q->minutes,
                                 .role = q->role,
                                 .safety = safety_words(c, &q->harm),
                                 .put_back = put_back_words(c, &q->undo),
                                 .place = q->place,
                                 .place_text = where_words(c, q->place),
                                 .because = case_text(c, &q->because),
                                 .picture = picture_words(c, q->picture),
                                 .instrument = instrument_words(c, q->instrument),
                                 .round = round_names[q->round],
                                 .good = q->good,
                                 .gate = q->gate,
                                 .early = q->early,
                                 .safe_options = safe_options(q),
                                 .safe_low = unit_convert(&q->in, &shown, q->safe_low),
                                 .safe_high = unit_convert(&q->in, &shown, q->safe_high),
                                 .safe_low_in = q->safe_low_in,
                                 .safe_high_in = q->safe_high_in,
                                 .is_fact = q->about != ABOUT_FAULT,
                                 .of_site = q->about == ABOUT_SITE,
                                 .at = place_words(c->derived, c->book, q->id.at)};
    return TT_OK;
}

tt_status tt_question_show(tt_case *c, uint32_t question, tt_question *out)
{
    tt_status status = case_see(c);
    if (status != TT_OK) return status;
    return guarded_case(c, show_question, &(showing){.c = c, .subject = question, .question = out});
}

typedef struct telling {
    tt_case *c;
    uint32_t question;
    double number;
    const char *words;
} telling;

static tt_status tell_reading(void *context)
{
    telling *t = context;
    const book *b = t->c->book->book;
    if (t->question >= b->question_count || b->questions[t->question].kind == QUESTION_CHOICE)
        return TT_FAULTY;
    t->words = reading_words(t->c, t->question, t->number);
    return TT_OK;
}

tt_status tt_reading_text(tt_case *c, uint32_t question, double number, const char **out)
{
    telling t = {.c = c, .question = question, .number = number, .words = ""};
    tt_status status = case_see(c);
    if (status == TT_OK) status = guarded_case(c, tell_reading, &t);
    *out = t.words;
    return status;
}

static tt_adjust adjust_words(tt_case *c, uint32_t fix)
{
    const adjustment *a = &c->book->book->fixes[fix].adjust;
    if (a->reading == NO_ID)
        return (tt_adjust){.reading = TT_NONE, .found_text = "", .from_text = "", .to_text = ""};
    bool under_way = c->now.adjust.fix == fix;
    uint32_t steps = under_way ? c->now.adjust.steps : 0;
    tt_adjust out = {.reading = a->reading,
                     .under_way = under_way,
                     .at_most = a->at_most,
                     .found_text = "",
                     .from_text = "",
                     .to_text = ""};
    out.known = adjust_from(c, fix, &out.from);
    if (!out.known) return out;
    out.found = out.from;
    if (under_way) adjust_found(c, a->reading, &out.found);
    bool left =
        !(under_way && c->now.adjust.put_back_due) && adjust_next(a, out.from, steps, &out.to);
    out.step = left ? steps + 1 : 0;
    out.found_text = reading_words(c, a->reading, out.found);
    out.from_text = reading_words(c, a->reading, out.from);
    out.to_text = left ? reading_words(c, a->reading, out.to) : "";
    return out;
}

/* With certainty, and neither before a fix nor long ago. */
static bool is_known_now(const tt_case *c, uint32_t question)
{
    const reply *r = c->now.replies[question];
    return r != NULL && r->kind == REPLY_READING && !c->now.stale[question] &&
           !c->now.old[question];
}

static tt_status show_fix(void *context)
{
    const showing *x = context;
    tt_case *c = x->c;
    if (x->subject >= c->book->book->fix_count) return TT_FAULTY;
    const struct fix *f = &c->book->book->fixes[x->subject];
    const uint32_t about = fix_is_about(c, x->subject);
    *x->fix = (tt_fix_plan){.name = cstr(c->derived, f->id.name),
                            .text = case_text(c, &f->text),
                            .role = cstr(c->derived, c->book->book->roles[f->role].name),
                            .role_text = role_words(c, f->role),
                            .steps = case_text_list(c, &f->steps),
                            .step_count = f->steps.count,
                            .step_pictures = step_pictures(c, &f->steps),
                            .once_running_pictures = step_pictures(c, &f->once_running),
                            .after = f->after.items,
                            .after_count = f->after.count,
                            .once_running = case_text_list(c, &f->once_running),
                            .once_running_count = f->once_running.count,
                            .minutes = f->minutes,
                            .safety = safety_words(c, &f->harm),
                            .put_back = put_back_words(c, &f->undo),
                            .cannot_put_back = f->undo.kind == PUT_BACK_IMPOSSIBLE,
                            .look_again = f->look_again.items,
                            .look_again_count = f->look_again.count,
                            .parts = case_text_list(c, &f->parts),
                            .part_count = f->parts.count,
                            .cost = cost_words(c, &f->cost),
                            .place = f->place,
                            .place_text = where_words(c, f->place),
                            .adjust = adjust_words(c, x->subject),
                            .about = about,
                            .about_known = about != NO_ID && is_known_now(c, about),
                            .at = place_words(c->derived, c->book, f->id.at)};
    return TT_OK;
}

tt_status tt_fix_show(tt_case *c, uint32_t fix, tt_fix_plan *out)
{
    tt_status status = case_see(c);
    if (status != TT_OK) return status;
    return guarded_case(c, show_fix, &(showing){.c = c, .subject = fix, .fix = out});
}

/* ---- what was tried ---- */

typedef struct listing {
    tt_case *c;
    const tt_tried *items;
    uint32_t count;
} listing;

/* The cause the fix most likely cured: the greatest share of belief times chance. Of two under one
 * lockout it may be what either cures. */
static uint32_t cured_cause(tt_case *c, uint32_t fix)
{
    assert(fix < c->book->book->fix_count);
    const uint32_t with = c->now.with[fix];
    uint32_t count = c->book->book->fixes[fix].cures_count, cured = NO_ID;
    const net_rate *cures =
        with == NO_ID ? c->book->prog->cures[fix] : cures_together(c, fix, with, &count);
    double most = 0;
    for (uint32_t i = 0; i < count; i++) {
        double chance = c->now.planning[1 + cures[i].cause] * cures[i].chance;
        if (chance > most) cured = cures[i].cause;
        if (chance > most) most = chance;
    }
    return cured;
}

const char *tt_who_confirms(const tt_case *c, const char *cause)
{
    const book *b = c->book->book;
    uint32_t id = book_cause(b, str_of(cause)),
             role = id != NO_ID ? b->causes[id].confirmed_by : NO_ID;
    return role == NO_ID || book_may(b, c->role, role) ? "" : b->roles[role].name.p;
}

/* "What does the gauge read? 52 psi found, 47 psi left", if a fix has left it so. */
static void note_setting(tt_case *c, tt_tried *t)
{
    const adjustment *a = &c->book->book->fixes[t->fix].adjust;
    double found, left;
    if (a->reading == NO_ID || !adjust_found(c, a->reading, &found) ||
        !adjust_from(c, t->fix, &left) || left == found)
        return;
    t->reading = a->reading;
    t->found = reading_words(c, a->reading, found);
    t->left = reading_words(c, a->reading, left);
    t->setting = FILL(c->derived, c->in, TEXT_FOUND_LEFT,
                      case_text(c, &c->book->book->questions[a->reading].ask), t->found, t->left);
}

static tt_tried tried_words(tt_case *c, uint32_t fix, tt_outcome outcome)
{
    const struct fix *f = &c->book->book->fixes[fix];
    bool undo = (outcome == TT_NO_CHANGE || outcome == TT_WORSE) && f->adjust.reading == NO_ID;
    uint32_t cured = outcome == TT_GONE ? cured_cause(c, fix) : NO_ID;
    const struct cause *its = cured != NO_ID ? &c->book->book->causes[cured] : NULL;
    tt_tried t = {.fix = fix,
                  .name = cstr(c->derived, f->id.name),
                  .text = case_text(c, &f->text),
                  .outcome = outcome,
                  .put_back = undo ? put_back_words(c, &f->undo) : "",
                  .cured = its != NULL ? case_text(c, &its->text) : "",
                  .cured_name = its != NULL ? its->id.name.p : "",
                  .setting = "",
                  .reading = TT_NONE,
                  .found = "",
                  .left = "",
                  .with = TT_NONE,
                  .with_name = "",
                  .with_text = ""};
    if (outcome == TT_GONE) note_setting(c, &t);
    return t;
}

/* Steps of one adjustment are one entry, by the outcome of the whole; while it is under way, by
 * that of the last step. */
static tt_tried under_way_words(tt_case *c)
{
    const adjusting *a = &c->now.adjust;
    tt_tried t = tried_words(c, a->fix, a->outcome);
    t.under_way = true;
    t.put_back = put_back_words(c, &c->book->book->fixes[a->fix].undo);
    note_setting(c, &t);
    return t;
}

static bool ends_fix(const tt_case *c, const event *e, bool *stepping)
{
    bool adjusts =
        e->kind == EVENT_OUTCOME && c->book->book->fixes[e->subject].adjust.reading != NO_ID;
    bool step = adjusts && e->outcome != TT_GONE && (*stepping || e->outcome != TT_COULD_NOT);
    bool ends = e->kind == EVENT_PUT_BACK || (e->kind == EVENT_OUTCOME && !step);
    if (step || ends) *stepping = step;
    return ends;
}

static tt_tried *last_of(listing *l, tt_tried *all, uint32_t fix)
{
    uint32_t i = l->count;
    while (i > 0 && all[i - 1].fix != fix) i--;
    assert(i > 0);
    return &all[i - 1];
}

/* What was told of a fix after its outcome; another one may have been tried since. */
static void note_later(listing *l, tt_tried *all, const event *e)
{
    tt_tried *t = last_of(l, all, e->subject);
    if (e->kind == EVENT_CAME_BACK) {
        t->came_back = true;
        if (t->with != TT_NONE) last_of(l, all, t->with)->came_back = true;
        return;
    }
    t->was_put_back = e->kind == EVENT_PUT_BACK;
    t->left_so = e->kind == EVENT_LEFT_SO;
    t->put_back = t->left_so ? put_back_words(l->c, &l->c->book->book->fixes[e->subject].undo) : "";
}

static bool is_told_later(const tt_case *c, const event *e)
{
    return e->kind == EVENT_CAME_BACK || e->kind == EVENT_LEFT_SO ||
           (e->kind == EVENT_PUT_BACK && !case_adjusts(c, e->subject));
}

static void name_other(tt_tried *t, const tt_tried *other)
{
    t->with = other->fix;
    t->with_name = other->name;
    t->with_text = other->text;
}

/* The second of two is told beside the first. */
static void add_together(listing *l, tt_tried *all, const event *e)
{
    assert(l->count > 0);
    tt_tried *first = &all[l->count - 1], *second = &all[l->count++];
    *second = tried_words(l->c, e->with, e->outcome);
    name_other(first, second);
    name_other(second, first);
}

static tt_status list_tried(void *context)
{
    listing *l = context;
    tt_case *c = l->c;
    tt_tried *all = ARENA_ARRAY(c->derived, tt_tried, 2 * (size_t)c->event_count + 1);
    bool stepping = false;
    for (uint32_t i = 0; i < c->event_count; i++) {
        const event *e = &c->events[i];
        if (is_told_later(c, e)) {
            note_later(l, all, e);
            continue;
        }
        if (!ends_fix(c, e, &stepping)) continue;
        bool back = e->kind == EVENT_PUT_BACK;
        all[l->count] = tried_words(c, e->subject, back ? c->now.outcomes[e->subject] : e->outcome);
        all[l->count++].was_put_back = back;
        if (e->kind == EVENT_OUTCOME && e->together) add_together(l, all, e);
    }
    if (c->now.adjust.fix != NO_ID) all[l->count++] = under_way_words(c);
    assert(l->count <= 2 * c->event_count + 1);
    l->items = all;
    return TT_OK;
}

tt_status tt_tried_fixes(tt_case *c, const tt_tried **out, uint32_t *count)
{
    listing l = {.c = c};
    tt_status status = case_see(c);
    if (status == TT_OK) status = guarded_case(c, list_tried, &l);
    *out = l.items;
    *count = status == TT_OK ? l.count : 0;
    return status;
}

/* ---- the picture of the whole ---- */

typedef struct showing_whole {
    tt_case *c;
    const tt_picture *found;
} showing_whole;

static tt_status show_whole(void *context)
{
    showing_whole *x = context;
    x->found = picture_words(x->c, x->c->book->book->picture);
    return TT_OK;
}

tt_status tt_book_picture(tt_case *c, const tt_picture **out)
{
    showing_whole x = {c, NULL};
    tt_status status = case_see(c);
    if (status == TT_OK) status = guarded_case(c, show_whole, &x);
    *out = x.found;
    return status;
}
