/* Rounds, and records of what is good: which questions they ask, in the order of the way, and what
 * was found. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "session/session.h"

/* ---- what is asked ---- */

static bool is_of_round(const question *q, tt_every every)
{
    return q->round != ROUND_NONE && (int)q->round <= ROUND_DAILY + (int)every &&
           q->about != ABOUT_SITE;
}

/* A reading that has a good value, or a set point that is a fact of the site and is looked at again
 * now and then. */
static bool is_of_record(const question *q)
{
    return q->good != NO_ID || (q->about == ABOUT_SITE && q->round != ROUND_NONE);
}

static bool is_walked(const tt_case *c, tt_every every, uint32_t question)
{
    const struct question *q = &c->book->book->questions[question];
    if (q->gate || q->kind == QUESTION_QUANTITY) return false;
    return c->kind == TT_KIND_ROUND    ? is_of_round(q, every)
           : c->kind == TT_KIND_RECORD ? is_of_record(q)
                                       : false;
}

/* What is answered nowhere in particular comes first. */
static uint64_t way_to(const book *b, uint32_t question)
{
    const uint32_t place = b->questions[question].place;
    const uint64_t at = place == NO_ID ? 0 : (uint64_t)b->places[place].before + 1;
    return at << 32 | question;
}

static int by_way(const void *a, const void *b)
{
    const uint64_t x = *(const uint64_t *)a, y = *(const uint64_t *)b;
    return (x > y) - (x < y);
}

void walk_lay_out(tt_case *c, tt_every every)
{
    const book *b = c->book->book;
    assert(c->walk.count == 0 && (unsigned)every < TT_EVERIES);
    uint64_t *ways = ARENA_ARRAY(c->keep, uint64_t, b->question_count + 1);
    uint32_t *items = ARENA_ARRAY(c->keep, uint32_t, b->question_count + 1), count = 0;
    for (uint32_t q = 0; q < b->question_count; q++)
        if (is_walked(c, every, q)) ways[count++] = way_to(b, q);
    if (count > 1) qsort(ways, count, sizeof *ways, by_way);
    for (uint32_t i = 0; i < count; i++) items[i] = (uint32_t)ways[i];
    c->walk = (ids){items, count};
}

/* Somebody has looked; what the site's file says was seen by nobody just now. */
static bool is_looked_at(const tt_case *c, uint32_t question)
{
    return c->now.replies[question] != NULL && !c->now.of_site[question] && !c->now.stale[question];
}

uint32_t walk_next(tt_case *c)
{
    for (uint32_t i = 0; i < c->walk.count; i++) {
        const uint32_t q = c->walk.items[i];
        if (is_looked_at(c, q)) continue;
        if (case_could_look(c, q)) return q;
        const bool waits = case_truth(c, c->book->prog->ask_atom[q]) == TRUTH_UNKNOWN;
        const uint32_t fact = waits && case_could_ask(c, q) ? case_missing_fact(c, q) : NO_ID;
        if (fact != NO_ID) return fact;
    }
    return NO_ID;
}

/* ---- what was found ---- */

/* Half a unit of the last digit that people see is no difference. */
static bool lies_outside(double number, double low, double high)
{
    const double room = 1e-9 * (1 + (high > 0 ? high : -high));
    return number < low - room || number > high + room;
}

static bool is_unusual(const question *q, const reply *r)
{
    if (!q->has_usual) return false;
    if (q->kind == QUESTION_CHOICE)
        return r->kind == REPLY_ANSWER ? r->answer != q->usual_answer
               : r->kind == REPLY_NOT  ? (r->excluded >> q->usual_answer & 1) != 0
                                       : false;
    return r->kind == REPLY_READING && lies_outside(r->number, q->usual_low, q->usual_high);
}

static const site_answer *said_of_site(const book *b, uint32_t question)
{
    for (uint32_t i = 0; i < b->site_answer_count; i++)
        if (b->site_answers[i].given.question == question) return &b->site_answers[i];
    return NULL;
}

static void add_good(tt_case *c, const question *q, tt_walked *w)
{
    const book *b = c->book->book;
    w->good = q->about == ABOUT_SITE ? w->question : q->good;
    const site_answer *a = w->good != NO_ID ? said_of_site(b, w->good) : NULL;
    if (a == NULL) return;
    const struct question *fact = &b->questions[w->good];
    const unit shown = book_shown_unit(b, &q->in);
    w->has_good = true;
    w->good_day = cstr(c->derived, a->day);
    w->good_text = reply_words(c, w->good, &a->given);
    if (a->given.kind != REPLY_READING) return;
    assert(unit_fits(&fact->in, &q->in));
    w->good_number = unit_convert(&fact->in, &shown, a->given.number);
}

/* What is good for a reading is as usual as the reading. */
static uint32_t whose_usual(const book *b, uint32_t question)
{
    if (b->questions[question].has_usual) return question;
    for (uint32_t i = 0; i < b->question_count; i++)
        if (b->questions[i].good == question && b->questions[i].has_usual) return i;
    return question;
}

static void add_usual(tt_case *c, const question *q, tt_walked *w)
{
    const book *b = c->book->book;
    const uint32_t whose = whose_usual(b, w->question);
    const struct question *u = &b->questions[whose];
    const unit shown = book_shown_unit(b, &q->in);
    w->usual_text = usual_words(c, whose);
    w->usual_low = w->usual_high = NAN;
    if (!u->has_usual || u->kind == QUESTION_CHOICE || q->kind == QUESTION_CHOICE) return;
    w->usual_low = unit_convert(&u->in, &shown, u->usual_low);
    w->usual_high = unit_convert(&u->in, &shown, u->usual_high);
}

/* As it is typed and written: an answer by its name, a reading with its unit. */
static const char *value_of(tt_case *c, uint32_t question, const reply *r)
{
    if (r == NULL || (r->kind != REPLY_READING && r->kind != REPLY_ANSWER)) return "";
    if (r->kind == REPLY_READING) return reading_words(c, question, r->number);
    return cstr(c->derived, c->book->book->questions[question].answers[r->answer].id.name);
}

static tt_walked walked(tt_case *c, uint32_t question)
{
    const struct question *q = &c->book->book->questions[question];
    const reply *r = is_looked_at(c, question) ? c->now.replies[question] : NULL;
    const unit shown = book_shown_unit(c->book->book, &q->in);
    tt_walked w = {.question = question,
                   .name = cstr(c->derived, q->id.name),
                   .ask = case_text(c, &q->ask),
                   .text = r != NULL ? reply_words(c, question, r) : "",
                   .value = value_of(c, question, r),
                   .good = TT_NONE,
                   .good_text = "",
                   .good_day = ""};
    add_good(c, q, &w);
    add_usual(c, q, &w);
    w.told = r != NULL && r->kind != REPLY_UNSURE;
    w.is_number = w.told && r->kind == REPLY_READING;
    if (w.is_number) w.number = unit_convert(&q->in, &shown, r->number);
    w.unusual = w.told && is_unusual(q, r);
    return w;
}

typedef struct conversion {
    tt_case *c;
    uint32_t question;
    double number, *out;
    const char *unit;
} conversion;

static tt_status convert(void *context)
{
    const conversion *x = context;
    const book *b = x->c->book->book;
    const struct question *q = &b->questions[x->question];
    unit shown = book_shown_unit(b, &q->in), given = shown;
    str bad;
    if (q->kind == QUESTION_CHOICE) return TT_FAULTY;
    const bool said = x->unit != NULL && *x->unit != 0;
    if (said &&
        (unit_read(x->c->scratch, str_of(x->unit), &q->in.dim, &given, &bad) != UNIT_FOUND ||
         !unit_fits(&given, &q->in)))
        return TT_FAULTY;
    *x->out = unit_convert(&given, &shown, x->number);
    return TT_OK;
}

tt_status tt_reading_number(tt_case *c, uint32_t question, double number, const char *unit,
                            double *out)
{
    assert(c != NULL && out != NULL);
    if (question >= c->book->book->question_count) return TT_FAULTY;
    return guarded_case(c, convert, &(conversion){c, question, number, out, unit});
}

typedef struct looking {
    tt_case *c;
    const tt_walked *out;
    uint32_t count;
} looking;

typedef struct one_look {
    tt_case *c;
    uint32_t question;
    tt_walked *out;
} one_look;

static tt_status look_at_one(void *context)
{
    const one_look *l = context;
    *l->out = walked(l->c, l->question);
    return TT_OK;
}

tt_status tt_good_look(tt_case *c, uint32_t question, tt_walked *out)
{
    assert(c != NULL && out != NULL);
    if (question >= c->book->book->question_count) return TT_FAULTY;
    tt_status status = case_see(c);
    if (status == TT_OK) status = guarded_case(c, look_at_one, &(one_look){c, question, out});
    return status;
}

static tt_status look_at_walk(void *context)
{
    looking *l = context;
    tt_case *c = l->c;
    tt_walked *all = ARENA_ARRAY(c->derived, tt_walked, c->walk.count + 1);
    for (uint32_t i = 0; i < c->walk.count; i++) {
        const uint32_t q = c->walk.items[i];
        if (is_looked_at(c, q) || case_could_look(c, q)) all[l->count++] = walked(c, q);
    }
    l->out = all;
    return TT_OK;
}

tt_status tt_walk_look(tt_case *c, const tt_walked **out, uint32_t *count)
{
    assert(c != NULL && out != NULL && count != NULL);
    looking l = {.c = c};
    tt_status status = case_see(c);
    if (status == TT_OK) status = guarded_case(c, look_at_walk, &l);
    *out = l.out;
    *count = l.count;
    return status;
}
