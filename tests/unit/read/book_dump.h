/* A book as text, all of it but places and the order in which answers are shown: equal
 * books give equal text. */
#ifndef TT_TESTS_BOOK_DUMP_H
#define TT_TESTS_BOOK_DUMP_H

#include "read_kit.h"

static inline void dump_picture(text_builder *b, const picture *p);

static inline void dump_texts(text_builder *b, const char *key, texts t)
{
    dump_picture(b, t.picture);
    for (uint32_t i = 0; i < t.count; i++)
        text_addf(b, "  %s %.*s=%.*s\n", key, STR_ARG(t.items[i].language),
                  STR_ARG(t.items[i].text));
}

static inline void dump_picture(text_builder *b, const picture *p)
{
    if (p == NULL) return;
    text_addf(b, "  picture %.*s\n", STR_ARG(p->drawing->svg));
    dump_texts(b, "shows", p->text);
    for (uint32_t i = 0; i < p->area_count; i++)
        text_addf(b, "  area %u %d %g %g %g %g\n", p->areas[i].symptom, p->areas[i].any,
                  p->areas[i].x, p->areas[i].y, p->areas[i].width, p->areas[i].height);
}

static inline void dump_list(text_builder *b, const char *key, texts_list l)
{
    for (uint32_t i = 0; i < l.count; i++) dump_texts(b, key, l.items[i]);
}

static inline void dump_ids(text_builder *b, const char *key, ids i)
{
    text_addf(b, "  %s", key);
    for (uint32_t k = 0; k < i.count; k++) text_addf(b, " %u", i.items[k]);
    text_addf(b, "\n");
}

static inline void dump_cond(text_builder *b, const cond *c)
{
    if (c == NULL) return;
    text_addf(b, "(%d %u %llx %d%g..%g%d %u", c->kind, c->subject, (unsigned long long)c->answers,
              c->low_in, c->low, c->high, c->high_in, c->number);
    for (uint32_t i = 0; i < c->count; i++) dump_cond(b, c->parts[i]);
    text_addf(b, ")");
}

static inline void dump_heard(text_builder *b, heard_list h)
{
    for (uint32_t i = 0; i < h.count; i++)
        text_addf(b, "  heard %.*s%d\n", STR_ARG(h.items[i].plain), h.items[i].pattern != NULL);
}

static inline void dump_safety(text_builder *b, safety s, put_back p)
{
    text_addf(b, "  harm %d %d%d%d%d from", s.any, s.unprotected_worst, s.unprotected_chance,
              s.protected_worst, s.protected_chance);
    for (int i = 0; i < HAZARD_COUNT; i++) text_addf(b, " %d", s.hazards[i]);
    text_addf(b, "\n  back %d\n", p.kind);
    dump_texts(b, "back", p.text);
    dump_list(b, "protect", s.protect);
    dump_list(b, "tell", s.tell);
    dump_list(b, "isolate", s.isolate);
    dump_list(b, "release", s.release);
    dump_list(b, "prove", s.prove);
    dump_list(b, "restore", s.restore);
    text_addf(b, "  while %d procedures %u\n", s.state, s.procedure_count);
}

static inline void dump_procedures(text_builder *b, const book *r)
{
    for (uint32_t i = 0; i < r->procedure_count; i++)
        text_addf(b, "procedure %.*s %g\n", STR_ARG(r->procedures[i].of.base),
                  r->procedures[i].minutes);
}

static inline void dump_rates(text_builder *b, const rate *r, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) text_addf(b, "  rate %u %.17g\n", r[i].cause, r[i].chance);
}

static inline void dump_owner(text_builder *b, owner of)
{
    text_addf(b, "  of %.*s %u %u\n", STR_ARG(of.base), of.piece, of.second);
}

static inline str number_of_subject(void *context, uint32_t subject)
{
    return str_printf(context, "#%u", subject);
}

static inline void dump_quantity(text_builder *b, const question *q)
{
    for (uint32_t i = 0; i < q->case_count; i++) {
        dump_cond(b, q->cases[i].when);
        text_addf(b, "  is %.*s\n",
                  STR_ARG(formula_words(b->keep, q->cases[i].is, number_of_subject, b->keep)));
    }
    text_addf(b, "  made %d of %u beneath", q->made, q->judged);
    for (uint32_t i = 0; i < q->beneath.count; i++) text_addf(b, " %u", q->beneath.items[i]);
    text_add(b, STR("\n"));
}

static inline void dump_question(text_builder *b, const question *q)
{
    text_addf(b, "question %.*s %d%d %d %.*s %.*s\n", STR_ARG(q->id.name), q->kind, q->yes_no,
              q->about, STR_ARG(q->measures), STR_ARG(q->in.text));
    for (uint32_t i = 0; i < q->answer_count; i++) {
        text_addf(b, "  answer %.*s %.17g\n", STR_ARG(q->answers[i].id.name), q->answers[i].share);
        dump_texts(b, "text", q->answers[i].text);
        dump_heard(b, q->answers[i].heard);
        dump_picture(b, q->answers[i].picture);
    }
    text_addf(b, "  plausible %d %g %g usual %d %u %g %g\n", q->has_plausible, q->plausible_low,
              q->plausible_high, q->has_usual, q->usual_answer, q->usual_low, q->usual_high);
    text_addf(b, "  minutes %g role %u early %d right %.17g wrongly %.17g\n", q->minutes, q->role,
              q->early, q->read_right, q->wrongly_confirmed);
    text_addf(b, "  gate %d ours %d safe %llx %d%g..%g%d\n", q->gate, q->ours,
              (unsigned long long)q->safe_answers, q->safe_low_in, q->safe_low, q->safe_high,
              q->safe_high_in);
    dump_ids(b, "facts-first", q->facts_first);
    dump_owner(b, q->of);
    dump_texts(b, "ask", q->ask);
    dump_texts(b, "look", q->look);
    dump_texts(b, "say", q->say);
    dump_picture(b, q->picture);
    dump_cond(b, q->only_when);
    dump_safety(b, q->harm, q->undo);
    dump_quantity(b, q);
}

static inline void dump_symptom(text_builder *b, const symptom *s)
{
    text_addf(b, "symptom %.*s %d%d %u %u otherwise %.17g\n", STR_ARG(s->id.name), s->from_confirms,
              s->rests_on_one, s->one_question, s->one_answer, s->otherwise);
    dump_owner(b, s->of);
    dump_texts(b, "text", s->text);
    dump_texts(b, "of any", s->of_any);
    dump_heard(b, s->heard);
    dump_cond(b, s->when);
    dump_rates(b, s->shown_by, s->shown_by_count);
}

static inline void dump_cause(text_builder *b, const cause *c)
{
    text_addf(b, "cause %.*s %.17g each %d by %u\n", STR_ARG(c->id.name), c->how_often, c->each,
              c->confirmed_by);
    dump_owner(b, c->of);
    dump_cond(b, c->only_when);
    dump_texts(b, "text", c->text);
    dump_texts(b, "means", c->means);
    dump_texts(b, "part", c->part);
    dump_picture(b, c->picture);
    dump_list(b, "spare", c->spare_parts);
    dump_ids(b, "never", c->never_with);
    dump_ids(b, "brought", c->brought_on_by);
}

static inline void dump_fix(text_builder *b, const fix *f)
{
    text_addf(b, "fix %.*s %g %u\n", STR_ARG(f->id.name), f->minutes, f->role);
    dump_owner(b, f->of);
    dump_texts(b, "text", f->text);
    dump_list(b, "step", f->steps);
    dump_list(b, "part", f->parts);
    text_addf(b, "cost %g %.*s\n", f->cost.amount, STR_ARG(f->cost.currency));
    dump_rates(b, f->cures, f->cures_count);
    dump_cond(b, f->only_when);
    dump_ids(b, "again", f->look_again);
    text_addf(b, "adjust %u %.17g %.17g %.17g %u\n", f->adjust.reading, f->adjust.step,
              f->adjust.low, f->adjust.high, f->adjust.at_most);
    dump_safety(b, f->harm, f->undo);
}

static inline void dump_rule(text_builder *b, const rule *r)
{
    text_addf(b, "rule %.*s %d %d %d %u\n", STR_ARG(r->id.name), r->has_caution, r->signal,
              r->stops, r->call);
    dump_cond(b, r->when);
    for (uint32_t i = 0; i < r->set_count; i++)
        text_addf(b, "  set %u %u\n", r->sets[i].conclusion, r->sets[i].answer);
    for (uint32_t i = 0; i < r->factor_count; i++)
        text_addf(b, "  factor %u %.17g\n", r->factors[i].cause, r->factors[i].factor);
    dump_ids(b, "skip", r->skip_questions);
    dump_ids(b, "skip-fix", r->skip_fixes);
    dump_texts(b, "caution", r->caution);
    dump_texts(b, "stop", r->stop);
}

static inline void dump_reply(text_builder *b, const book *r, const reply *a)
{
    text_addf(b, "  reply %u %d %u %g %llx", a->question, a->kind, a->answer, a->number,
              (unsigned long long)a->excluded);
    for (uint32_t k = 0; a->kind == REPLY_LIKELY && k < r->questions[a->question].answer_count; k++)
        text_addf(b, " %.17g", a->weights[k]);
    text_addf(b, "\n");
}

static inline void dump_case(text_builder *b, const book *r, const worked_case *c)
{
    text_addf(b, "case %.*s %u %u | %u /%u %u %u %u %u\n", STR_ARG(c->id.name), c->role,
              c->complaint, c->leading_cause, c->among_count, c->first_fix, c->caution_rule,
              c->stop_rule, c->next_question);
    dump_ids(b, "among", c->among);
    dump_ids(b, "never", c->never_asked);
    dump_ids(b, "at", c->at);
    for (uint32_t i = 0; i < c->reply_count; i++) dump_reply(b, r, &c->replies[i]);
}

static inline void dump_phrases(text_builder *b, const char *key, phrases p)
{
    for (uint32_t i = 0; i < p.count; i++)
        text_addf(b, "  %s %.*s\n", key, STR_ARG(p.items[i].name));
}

static inline void dump_emergency(text_builder *b, const emergency *e)
{
    text_addf(b, "emergency %.*s %.*s %d %u\n", STR_ARG(e->id.name), STR_ARG(e->replaces), e->ours,
              e->call);
    dump_texts(b, "text", e->text);
    dump_heard(b, e->heard);
    dump_list(b, "do", e->do_now);
    dump_list(b, "then", e->then);
    dump_texts(b, "source", e->source);
}

static inline void dump_concept(text_builder *b, const concept *c)
{
    text_addf(b, "concept %.*s\n", STR_ARG(c->id.name));
    for (uint32_t i = 0; i < c->count; i++) {
        text_addf(b, "  in %.*s\n", STR_ARG(c->items[i].language));
        dump_phrases(b, "word", c->items[i].words);
    }
}

static inline void dump_contacts(text_builder *b, const book *r)
{
    text_addf(b, "emergency number %.*s, example %d\n", STR_ARG(r->emergency_number),
              r->site_is_example);
    for (uint32_t i = 0; i < r->contact_count; i++) {
        const contact *c = &r->contacts[i];
        text_addf(b, "contact %u %.*s\n", c->role, STR_ARG(c->telephone));
        dump_texts(b, "for", c->purpose);
        dump_texts(b, "post", c->post);
        dump_texts(b, "hours", c->hours);
    }
}

static inline void dump_equipment(text_builder *b, const book *r)
{
    for (uint32_t i = 0; i < r->kind_count; i++) {
        text_addf(b, "kind %.*s %u %d\n", STR_ARG(r->kinds[i].id.name), r->kinds[i].hangs_on,
                  r->kinds[i].lone);
        dump_texts(b, "unnamed", r->kinds[i].unnamed);
        dump_texts(b, "one", r->kinds[i].one);
        dump_texts(b, "ask", r->kinds[i].ask);
    }
    for (uint32_t i = 0; i < r->piece_count; i++) {
        text_addf(b, "piece %.*s %u %d %u\n", STR_ARG(r->pieces[i].id.name), r->pieces[i].kind,
                  r->pieces[i].stand_in, r->pieces[i].hangs_on);
        dump_texts(b, "text", r->pieces[i].text);
        dump_ids(b, "after", r->pieces[i].after);
    }
    text_addf(b, "site %d\n", r->has_site);
    dump_texts(b, "title", r->site_title);
    for (uint32_t i = 0; i < r->shown_unit_count; i++)
        text_addf(b, "show %.*s\n", STR_ARG(r->shown_units[i].text));
    for (uint32_t i = 0; i < r->reckon_count; i++) text_addf(b, "reckon %u\n", r->reckon_order[i]);
    for (uint32_t i = 0; i < r->site_answer_count; i++) {
        dump_reply(b, r, &r->site_answers[i].given);
        dump_texts(b, "source", r->site_answers[i].source);
    }
}

static inline str book_dump(arena *keep, const book *r)
{
    text_builder b = {.keep = keep};
    dump_texts(&b, "title", r->title);
    dump_procedures(&b, r);
    text_addf(&b, "%.*s %.*s %g %g %g\n", STR_ARG(r->edition), STR_ARG(r->language), r->not_listed,
              r->two_faults, r->call_minutes);
    for (uint32_t i = 0; i < r->role_count; i++)
        text_addf(&b, "role %.*s %u\n", STR_ARG(r->roles[i].name), r->role_level[i]);
    for (int i = 0; i < 4; i++)
        text_addf(&b, "worth trying %g price %g\n", r->worth_trying[i], r->price[i]);
    dump_list(&b, "caution", r->cautions);
    dump_texts(&b, "stop", r->stop_text);
    dump_phrases(&b, "no danger", r->not_danger);
    dump_contacts(&b, r);
    dump_equipment(&b, r);
    for (uint32_t i = 0; i < r->question_count; i++) dump_question(&b, &r->questions[i]);
    for (uint32_t i = 0; i < r->symptom_count; i++) dump_symptom(&b, &r->symptoms[i]);
    for (uint32_t i = 0; i < r->cause_count; i++) dump_cause(&b, &r->causes[i]);
    for (uint32_t i = 0; i < r->fix_count; i++) dump_fix(&b, &r->fixes[i]);
    for (uint32_t i = 0; i < r->conclusion_count; i++) {
        text_addf(&b, "conclusion %.*s", STR_ARG(r->conclusions[i].id.name));
        for (uint32_t k = 0; k < r->conclusions[i].answer_count; k++)
            text_addf(&b, " %.*s", STR_ARG(r->conclusions[i].answers[k].id.name));
        dump_texts(&b, "", r->conclusions[i].text);
    }
    for (uint32_t i = 0; i < r->rule_count; i++) dump_rule(&b, &r->rules[i]);
    for (uint32_t i = 0; i < r->emergency_count; i++) dump_emergency(&b, &r->emergencies[i]);
    for (uint32_t i = 0; i < r->concept_count; i++) dump_concept(&b, &r->concepts[i]);
    for (uint32_t i = 0; i < r->case_count; i++) dump_case(&b, r, &r->cases[i]);
    return text_done(&b);
}

#endif
