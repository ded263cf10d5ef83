/* The tables of a handbook. */
#include "cases/begin_case.h"
#include "paper/handbook.h"
#include "show/figures.h"

/* What is done with protection on is what counts; a fix that is High even so is never offered. */
static const char *risk_with_protection(const handbook *h, const tt_safety *safety)
{
    return safety->risk[0] == 'h' ? catalogue_text(h->p->in, HANDBOOK_RISK_ABOVE)
                                  : risk_words(h->p->in, safety->risk);
}

/* ---- signs ---- */

/* What shows a sign more seldom says little; the likeliest one always stands there. */
static const double worth_a_row = 0.1;

static bool has_row(const tt_listed *sign, uint32_t point)
{
    return point == 0 || sign->points[point].chance >= worth_a_row;
}

/* A row for each fix of the cause; one without, if there is none. */
static void add_cause(const handbook *h, text_table *table, const tt_pointer *to)
{
    const tt_listed *cause = &h->all.causes.items[to->to];
    const piece_of_text name = rule_text(cause->text),
                        shows = figure(percent_words(h->keep, h->p->in, to->chance));
    for (uint32_t i = 0; i < cause->point_count; i++) {
        const uint32_t place = cause->points[i].to;
        tt_fix_plan plan;
        must_be_done(tt_fix_show(h->c, h->all.fixes.items[place].id, &plan));
        table_add(table, (piece_of_text[]){name, shows, rule_text(handbook_fix_name(h, place)),
                                           figure(plan.role_text),
                                           figure(risk_with_protection(h, &plan.safety))});
    }
    if (cause->point_count == 0)
        table_add(table, (piece_of_text[]){name, shows, our_text(""), our_text(""), our_text("")});
}

static void put_complaint(const handbook *h, const tt_listed *sign)
{
    static const text_id columns[] = {HANDBOOK_CAUSE, HANDBOOK_SHOWS, HANDBOOK_FIX, HANDBOOK_WHO,
                                      HANDBOOK_RISK};
    text_table table = table_of(h->keep, h->p->in, columns, 5);
    const char *also = handbook_likewise(h, sign);
    for (uint32_t i = 0; i < sign->point_count; i++)
        if (has_row(sign, i)) add_cause(h, &table, &sign->points[i]);
    h->p->kind->subheading(h->p, rule_text(sign->text));
    if (*also != 0) h->p->kind->paragraph(h->p, rule_text(also));
    table_put(&table, h->p, catalogue_text(h->p->in, HANDBOOK_SIGN_CAPTION));
}

static const char *fix_names(const handbook *h, const tt_listed *cause)
{
    const char **names = ARENA_ARRAY(h->keep, const char *, cause->point_count + 1);
    for (uint32_t i = 0; i < cause->point_count; i++)
        names[i] = handbook_fix_name(h, cause->points[i].to);
    return texts_joined(h->keep, names, cause->point_count);
}

/* All in one table: most of them point to one cause or two. */
static void put_seen(const handbook *h)
{
    static const text_id columns[] = {HANDBOOK_SIGN, HANDBOOK_CAUSE, HANDBOOK_SHOWS, HANDBOOK_FIX};
    text_table table = table_of(h->keep, h->p->in, columns, 4);
    for (uint32_t i = 0; i < h->all.symptoms.count; i++) {
        const tt_listed *sign = &h->all.symptoms.items[i];
        for (uint32_t k = 0; !sign->complaint && k < sign->point_count; k++) {
            const tt_listed *cause = &h->all.causes.items[sign->points[k].to];
            if (has_row(sign, k))
                table_add(&table, (piece_of_text[]){rule_text(sign->text), rule_text(cause->text),
                                                    figure(percent_words(h->keep, h->p->in,
                                                                         sign->points[k].chance)),
                                                    rule_text(fix_names(h, cause))});
        }
    }
    if (table.row_count > 0) h->p->kind->subheading(h->p, our_words(h->p->in, HANDBOOK_SEEN));
    table_put(&table, h->p, catalogue_text(h->p->in, HANDBOOK_SEEN_CAPTION));
}

void put_signs(const handbook *h)
{
    h->p->kind->paragraph(h->p, our_text(FILL(h->keep, h->p->in, HANDBOOK_SIGNS_SAY,
                                              percent_words(h->keep, h->p->in, worth_a_row))));
    for (uint32_t i = 0; i < h->all.symptoms.count; i++) {
        const tt_listed *sign = &h->all.symptoms.items[i];
        if (sign->complaint && sign->point_count > 0) put_complaint(h, sign);
    }
    put_seen(h);
}

/* ---- causes ---- */

void put_cause_table(const handbook *h)
{
    static const text_id columns[] = {HANDBOOK_CAUSE, HANDBOOK_SHARE,  HANDBOOK_MEANS,
                                      HANDBOOK_PART,  HANDBOOK_SPARES, HANDBOOK_CONFIRMS,
                                      HANDBOOK_FIX};
    text_table table = table_of(h->keep, h->p->in, columns, 7);
    for (uint32_t i = 0; i < h->all.causes.count; i++) {
        const tt_listed *c = &h->all.causes.items[i];
        const char **fixes = ARENA_ARRAY(h->keep, const char *, c->point_count + 1);
        for (uint32_t k = 0; k < c->point_count; k++)
            fixes[k] = count_words(h->keep, c->points[k].to + 1);
        table_add(&table,
                  (piece_of_text[]){rule_text(c->text),
                                    figure(percent_words(h->keep, h->p->in, c->share)),
                                    rule_text(c->means), rule_text(c->part),
                                    rule_text(texts_joined(h->keep, c->spares, c->spare_count)),
                                    our_text(c->confirmed_by),
                                    our_text(texts_joined(h->keep, fixes, c->point_count))});
    }
    table_put(&table, h->p, catalogue_text(h->p->in, HANDBOOK_CAUSES_CAPTION));
}

/* ---- questions ---- */

void put_questions(const handbook *h)
{
    static const text_id columns[] = {HANDBOOK_QUESTION, HANDBOOK_HOW,  HANDBOOK_USUAL,
                                      HANDBOOK_WHO,      HANDBOOK_TIME, HANDBOOK_WEAR_COLUMN,
                                      HANDBOOK_PROCEDURE};
    text_table table = table_of(h->keep, h->p->in, columns, 7);
    for (uint32_t i = 0; i < h->all.questions.count; i++) {
        const tt_listed *entry = &h->all.questions.items[i];
        tt_question q;
        must_be_done(tt_question_show(h->c, entry->id, &q));
        const lockout *first = lockout_before(h, &q.safety);
        table_add(&table,
                  (piece_of_text[]){
                      rule_text(entry->text), rule_text(q.look), rule_text(entry->usual),
                      figure(handbook_role(h, tt_role_name(h->book->book, q.role))),
                      our_text(minutes_words_of(h->keep, h->p->in, q.minutes)),
                      rule_text(texts_joined(h->keep, q.safety.protect, q.safety.protect_count)),
                      our_text(first != NULL ? first->letter : "")});
    }
    table_put(&table, h->p, catalogue_text(h->p->in, HANDBOOK_QUESTIONS_CAPTION));
}
