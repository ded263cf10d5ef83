/* How cases and calls come out, and what is different. */
#include "compare/course.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/str.h"

/* ---- as a case stands ---- */

static const char *kept(arena *keep, const char *text)
{
    return text != NULL ? str_copy(keep, str_of(text)).p : NULL;
}

static tt_status next_words(arena *keep, tt_case *c, const tt_view *v, const char **out)
{
    tt_question question;
    tt_fix_plan fix;
    tt_status status = TT_OK;
    *out = v->step == TT_STOP     ? "stopped"
           : v->step == TT_CLOSED ? "cured"
           : v->step == TT_CALL   ? "called"
                                  : "other";
    if (v->step == TT_ASK && v->next.question != TT_NONE) {
        status = tt_question_show(c, v->next.question, &question);
        if (status == TT_OK) *out = kept(keep, question.name);
    } else if (v->step == TT_FIX) {
        status = tt_fix_show(c, v->fix, &fix);
        if (status == TT_OK) *out = kept(keep, fix.name);
    }
    return status;
}

static void take_chances(arena *keep, const tt_view *v, standpoint *out)
{
    out->count = v->cause_count;
    out->names = ARENA_ARRAY(keep, const char *, v->cause_count);
    out->chances = ARENA_ARRAY(keep, double, v->cause_count);
    for (uint32_t i = 0; i < v->cause_count; i++) {
        out->names[i] = kept(keep, v->causes[i].name);
        out->chances[i] = v->causes[i].chance;
    }
    out->course.leading = out->names[0];
    out->course.chance = out->chances[0];
}

static void take_fixes(arena *keep, const tt_view *v, tt_course *out)
{
    const char **fixes = ARENA_ARRAY(keep, const char *, v->fix_count);
    for (uint32_t i = 0; i < v->fix_count; i++)
        if (v->fixes[i].standing <= TT_POSSIBLE_FIX)
            fixes[out->fix_count++] = kept(keep, v->fixes[i].name);
    out->fixes = fixes;
}

/* A stop of a rule counts as one of its cautions. */
static void take_cautions(arena *keep, const tt_view *v, tt_course *out)
{
    const char **cautions = ARENA_ARRAY(keep, const char *, v->caution_count + 1);
    for (uint32_t i = 0; i < v->caution_count; i++)
        cautions[out->caution_count++] = kept(keep, v->cautions[i].rule);
    if (v->stop_text != NULL) cautions[out->caution_count++] = kept(keep, v->stop_text);
    out->cautions = cautions;
}

static tt_status take_case(arena *keep, tt_case *c, standpoint *out)
{
    const tt_view *v;
    tt_status status = tt_look(c, &v);
    if (status != TT_OK) return status;
    assert(v->cause_count > 0);
    out->course.there = true;
    take_chances(keep, v, out);
    take_fixes(keep, v, &out->course);
    take_cautions(keep, v, &out->course);
    const char **path = ARENA_ARRAY(keep, const char *, 1);
    out->course.path = path;
    out->course.path_count = 1;
    return next_words(keep, c, v, &path[0]);
}

/* ---- the three kinds ---- */

static tt_status play_worked(arena *keep, edition *e, const item *x, standpoint *out)
{
    uint32_t index = 0;
    const char *name;
    while ((name = tt_worked_case(e->book, index)) != NULL && strcmp(name, x->name) != 0) index++;
    if (name == NULL) return TT_OK;
    tt_trial trial;
    tt_status status = tt_try_case(e->book, index, &trial, &e->worked);
    if (status == TT_OK) status = take_case(keep, e->worked, out);
    if (status == TT_OK) out->course.passed = trial.passed;
    tt_case_free(e->worked);
    e->worked = NULL;
    return status;
}

/* With rules that know nothing of its role any more it can't be played. */
static tt_status play_stored(arena *keep, edition *e, const item *x, standpoint *out)
{
    const tt_kept_case *k = x->kept;
    const tt_talk_options options = {.writer = k->writer,
                                     .practice = k->practice,
                                     .look_only = true,
                                     .number = "",
                                     .how = "resume"};
    const tt_record *more;
    uint32_t count;
    tt_status status = tt_talk_new(e->book, &options, &e->stored);
    if (status == TT_OK) status = tt_talk_take(e->stored, k->records, k->record_count);
    if (status == TT_OK) status = tt_talk_begin(e->stored, k->now, &more, &count);
    if (status == TT_OK) status = take_case(keep, tt_talk_case(e->stored), out);
    tt_talk_free(e->stored);
    e->stored = NULL;
    return status == TT_NO_MEMORY ? status : TT_OK;
}

static tt_status play_call(arena *keep, edition *e, const item *x, standpoint *out)
{
    tt_made_call call;
    tt_status status = TT_OK;
    if (e->calls == NULL)
        status = tt_rehearsal_new(
            e->book, &(tt_rehearsal_options){.seed = e->seed, .role = TT_NONE}, &e->calls);
    if (status == TT_OK) status = tt_rehearsal_call(e->calls, x->number, &call);
    if (status != TT_OK) return status;
    tt_course *c = &out->course;
    c->there = true;
    c->leading = call.judged ? kept(keep, call.leading) : "stopped";
    c->chance = call.chance;
    const char **path = ARENA_ARRAY(keep, const char *, call.path_count + 1);
    for (uint32_t i = 0; i < call.path_count; i++) path[i] = kept(keep, call.path[i]);
    path[call.path_count] = call.end;
    c->path = path;
    c->path_count = call.path_count + 1;
    return TT_OK;
}

tt_status course_play(arena *keep, edition *e, const item *i, standpoint *out)
{
    *out = (standpoint){.course = {.passed = true}};
    if (i->kind == ITEM_WORKED) return play_worked(keep, e, i, out);
    return i->kind == ITEM_STORED ? play_stored(keep, e, i, out) : play_call(keep, e, i, out);
}

void edition_close(edition *e)
{
    tt_case_free(e->worked);
    tt_talk_free(e->stored);
    tt_rehearsal_free(e->calls);
    tt_book_free(e->book);
    *e = (edition){.seed = e->seed};
}

/* ---- what is different ---- */

static bool same_name(const char *a, const char *b)
{
    return a == NULL || b == NULL ? a == b : strcmp(a, b) == 0;
}

static bool same_list(const char *const *a, uint32_t a_count, const char *const *b,
                      uint32_t b_count)
{
    if (a_count != b_count) return false;
    for (uint32_t i = 0; i < a_count; i++)
        if (strcmp(a[i], b[i]) != 0) return false;
    return true;
}

static double chance_of(const standpoint *s, const char *name)
{
    for (uint32_t i = 0; i < s->count; i++)
        if (same_name(s->names[i], name)) return s->chances[i];
    return 0;
}

/* What has gone from some causes has come to others: the greater of the two sums, since two faults
 * at once count twice. */
static double shift_between(const standpoint *before, const standpoint *after)
{
    double gone = 0, come = 0;
    if (before->count == 0) {
        bool same = same_name(before->course.leading, after->course.leading);
        return same ? fabs(before->course.chance - after->course.chance)
                    : fmax(before->course.chance, after->course.chance);
    }
    for (uint32_t i = 0; i < before->count; i++)
        gone += fmax(0, before->chances[i] - chance_of(after, before->names[i]));
    for (uint32_t i = 0; i < after->count; i++)
        come += fmax(0, after->chances[i] - chance_of(before, after->names[i]));
    return fmin(1, fmax(gone, come));
}

bool course_differs(const standpoint *before, const standpoint *after, tt_moved *out)
{
    const tt_course *a = &before->course, *b = &after->course;
    out->before = *a;
    out->after = *b;
    if (!a->there || !b->there) return out->path = a->there != b->there;
    out->leading = !same_name(a->leading, b->leading);
    out->path = !same_list(a->path, a->path_count, b->path, b->path_count);
    out->fixes = !same_list(a->fixes, a->fix_count, b->fixes, b->fix_count);
    out->cautions = !same_list(a->cautions, a->caution_count, b->cautions, b->caution_count);
    out->passed = a->passed != b->passed;
    out->shift = shift_between(before, after);
    return out->leading || out->path || out->fixes || out->cautions || out->passed;
}
