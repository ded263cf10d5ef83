/* Questions: about danger, facts that come early, the next one, once more after a fix. */
#include <assert.h>
#include <string.h>

#include "base/unicode.h"
#include "talk/talk_turns.h"

static void take_number(tt_talk *t, const tt_question *q)
{
    t->turn.takes.reading =
        q->kind == TT_READING ||
        q->kind == TT_QUANTITY; /* a quantity only where somebody gave it themselves */
    t->turn.takes.count = q->kind == TT_COUNT;
    if (!t->turn.takes.reading && !t->turn.takes.count) return;
    t->turn.takes.unit = q->unit;
    if (!q->has_plausible) return;
    t->turn.takes.low = q->plausible_low;
    t->turn.takes.high = q->plausible_high;
}

/* What is still to come: the next question, then the fix that leads, as often as it is likely to be
 * the one. */
static double minutes_left(tt_talk *t)
{
    const tt_view *v = talk_look(t);
    if (talk_is_walk(t)) return walk_minutes(t);
    double minutes = v->step == TT_ASK ? v->next.minutes : 0;
    for (uint32_t i = 0; i < v->fix_count; i++)
        if (v->fixes[i].standing <= TT_POSSIBLE_FIX) return minutes + v->fixes[i].minutes;
    return minutes;
}

static void add_progress(tt_talk *t)
{
    t->turn.progress.asked = (talk_is_walk(t) ? walk_answers(t) : talk_answers(t)) + 1;
    t->turn.progress.minutes_left = minutes_left(t);
}

static void add_options(tt_talk *t, const tt_question *q)
{
    for (uint32_t i = 0; i < q->option_count; i++)
        turn_choice(t, q->options[i].name, q->options[i].text)->picture = q->options[i].picture;
}

/* Not where the question names it anyway. */
static void add_instrument(tt_talk *t, const tt_question *q)
{
    const bool named =
        strstr(q->ask, q->instrument) != NULL || strstr(q->look, q->instrument) != NULL;
    assert(named || *q->instrument != 0); /* nothing is part of every text */
    if (!named) turn_line(t, TT_PART_LOOK, "", SAY(t, TEXT_READ_WITH, q->instrument));
}

static const char *answer_in_words(tt_talk *t, uint32_t question)
{
    const tt_fact *fact = talk_fact(t, question);
    return SAY(t, TEXT_ASKED_ANSWERED, talk_question(t, question).ask,
               fact != NULL ? fact->text : "");
}

/* Why it comes once more, and with what to look. */
static void add_second_look(tt_talk *t, uint32_t question)
{
    const tt_next next = talk_look(t)->next;
    if (next.again == TT_FIRST_LOOK || next.question != question) return;
    if (next.clash != TT_NONE) {
        tt_turn_part *part = turn_part(t, TT_PART_NOTE, OURS(t, TEXT_CLASH));
        part_item(t, part, answer_in_words(t, question));
        part_item(t, part, answer_in_words(t, next.clash));
    } else {
        turn_line(t, TT_PART_NOTE, "",
                  next.again == TT_LOOK_ANOTHER ? SAY(t, TEXT_LOOK_ANOTHER, next.with)
                  : *next.with != 0             ? SAY(t, TEXT_SECOND_LOOK_WITH, next.with)
                                                : OURS(t, TEXT_SECOND_LOOK));
    }
    if (next.again == TT_LOOK_ANOTHER)
        turn_line(t, TT_PART_LOOK, "", SAY(t, TEXT_READ_WITH, next.with));
}

static bool for_whoever_comes(tt_talk *t, uint32_t question)
{
    const tt_next *next = &talk_look(t)->next;
    return next->for_callee && next->question == question;
}

void make_question(tt_talk *t, tt_turn_kind kind, uint32_t question)
{
    assert(question != TT_NONE);
    const tt_question q = talk_question(t, question);
    assert(q.kind != TT_QUANTITY || t->doing.kind == ASIDE_ANEW);
    turn_afresh(t, kind);
    turn_cautions(t);
    t->turn.subject = q.name;
    t->turn.prompt = q.ask;
    t->turn.say = *q.say != 0 ? q.say : q.ask;
    t->turn.place = q.place_text;
    t->turn.picture = q.picture;
    turn_safety(t, &q.safety);
    turn_procedure(t, &q.safety);
    turn_line(t, TT_PART_PUT_BACK, OURS(t, TEXT_AFTERWARDS), q.put_back);
    turn_restore(t, &q.safety);
    add_second_look(t, question);
    if (talk_look(t)->next.again != TT_LOOK_ANOTHER || talk_look(t)->next.question != question)
        add_instrument(t, &q);
    if (*q.look != 0) turn_line(t, TT_PART_LOOK, "", q.look);
    if (for_whoever_comes(t, question))
        turn_line(t, TT_PART_NOTE, "", OURS(t, TEXT_FOR_WHOEVER_COMES));
    if (q.minutes >= 3)
        turn_line(t, TT_PART_NOTE, "", SAY(t, TEXT_TAKES, talk_minutes(t, q.minutes)));
    take_number(t, &q);
    add_options(t, &q);
    turn_words(t, OFFER_QUESTION);
    if (kind != TT_TURN_DANGER) add_progress(t);
}

/* ---- danger ---- */

void make_danger(tt_talk *t)
{
    const uint32_t question = talk_look(t)->gate.question;
    assert(question != TT_NONE);
    make_question(t, TT_TURN_DANGER, question);
    t->turn.dangerous = true;
}

/* A small letter, or a number as in "no. 3", goes on with the one before it; also in Spanish, where
 * one may begin with an accent or a mark. */
static bool begins_sentence(tt_talk *t, str rest)
{
    if (rest.n == 0) return false;
    const bool figure = rest.p[0] >= '0' && rest.p[0] <= '9';
    return !figure && str_eq(unicode_capital(t->scratch, rest), rest);
}

/* One instruction a line: a stop text is a few sentences, each of which tells one thing. */
static void add_sentences(tt_talk *t, tt_turn_part *part, const char *text)
{
    assert(*text != 0);
    const str all = str_of(text);
    size_t from = 0;
    for (size_t i = 0; i < all.n; i++) {
        const bool ends =
            i + 1 == all.n || ((all.p[i] == '.' || all.p[i] == '!') && all.p[i + 1] == ' ' &&
                               begins_sentence(t, str_slice(all, i + 2, all.n)));
        if (!ends) continue;
        part_item(t, part, str_copy(t->shown, str_trim(str_slice(all, from, i + 1))).p);
        from = i + 1;
    }
}

/* What is not as it was found: a setting under way, and what is to be put back. */
static const tt_tried *left_changed(tt_talk *t)
{
    const tt_tried *last = talk_last_tried(t);
    return last != NULL && (last->under_way || *last->put_back != 0) ? last : NULL;
}

/* What is locked, opened or set: it stays so until somebody who may says otherwise. Between the
 * steps of a setting, while one of them is being done, and before all is put back, what was
 * isolated by lines without a way back still is. */
static void add_locked(tt_talk *t)
{
    const tt_tried *changed = left_changed(t);
    const uint32_t fix = t->fix.fix != TT_NONE ? t->fix.fix
                         : changed != NULL     ? changed->fix
                                               : TT_NONE;
    if (fix == TT_NONE || (t->fix.fix != TT_NONE && walk_reached(&t->fix) == 0 && !t->fix.goes_on))
        return;
    const tt_fix_plan plan = talk_plan(t, fix);
    tt_turn_part locked = {.kind = TT_PART_LOCKED, .title = turn_leave_so(t, &plan)},
                 *part = &locked;
    const walk_things things = walk_list(t, fix);
    const bool restores = plan.safety.restore_count > 0,
               given_back = restores && (t->fix.fix == TT_NONE || t->fix.done >= things.count),
               isolated = !restores && (t->fix.fix == TT_NONE || t->fix.goes_on);
    for (uint32_t i = 0; isolated && i < plan.safety.isolate_count; i++)
        part_item(t, part, plan.safety.isolate[i]);
    if (changed != NULL && *changed->setting != 0) part_item(t, part, changed->setting);
    for (uint32_t i = 0; t->fix.fix != TT_NONE && i < things.count; i++) {
        const bool is_off = given_back && walk_is_procedure(things.items[i].kind);
        if (!is_off && walk_stands(t, &things, i)) part_item(t, part, things.items[i].text);
    }
    if (locked.item_count > 0) *turn_part(t, locked.kind, locked.title) = locked;
}

static void add_what_to_tell(tt_talk *t)
{
    const tt_book_info info = talk_book(t);
    tt_turn_part *part = turn_part(t, TT_PART_TELL, OURS(t, TEXT_TELL_THEM));
    if (info.has_site && !t->options.practice && *info.site_title != 0)
        part_item(t, part, SAY(t, TEXT_TELL_PLACE, info.site_title));
    else
        part_item(t, part, OURS(t, TEXT_TELL_WHERE));
    if (*t->danger_words != 0)
        part_item(t, part, SAY(t, TEXT_TELL_WORDS, t->danger_words));
    else
        part_item(t, part, OURS(t, TEXT_TELL_WHAT));
    part_item(t, part, OURS(t, TEXT_TELL_PRODUCTS));
    if (*t->options.number != 0) part_item(t, part, SAY(t, TEXT_TELL_NUMBER, t->options.number));
}

/* Of all of them what to do at once; only then what comes after, under whose it is. What several
 * say may not fit together ("stay with the person", "get everybody out"), so what goes before all
 * of it is said first: that whoever helps is safe (common practice of first aid). */
static void add_instructions(tt_talk *t, const tt_emergency *all, uint32_t count)
{
    if (count > 1) turn_line(t, TT_PART_DO, "", OURS(t, TEXT_SEVERAL_DANGERS));
    for (uint32_t i = 0; i < count; i++)
        turn_list(t, TT_PART_DO, all[i].text, all[i].do_now, all[i].do_count);
    for (uint32_t i = 0; i < count; i++)
        turn_list(t, TT_PART_FIRST_AID,
                  count == 1 ? OURS(t, TEXT_THEN) : SAY(t, TEXT_THEN_OF, all[i].text), all[i].then,
                  all[i].then_count);
}

static const char *whom_to_call(const tt_emergency *all, uint32_t count, const tt_gate *gate)
{
    for (uint32_t i = 0; i < count; i++)
        if (*all[i].call != 0) return all[i].call;
    return gate->call_role;
}

void turn_danger(tt_talk *t)
{
    const tt_gate gate = talk_look(t)->gate;
    uint32_t count;
    const tt_emergency *all = talk_emergencies(t, &count);
    t->turn.dangerous = true;
    turn_cautions(t);
    if (count == 0)
        add_sentences(t, turn_part(t, TT_PART_DO, OURS(t, TEXT_DO_NOW)), gate.stop_text);
    add_instructions(t, all, count);
    turn_contacts(t, whom_to_call(all, count, &gate));
    add_what_to_tell(t);
    add_locked(t);
}

void make_stop(tt_talk *t)
{
    turn_afresh(t, TT_TURN_STOP);
    t->turn.prompt = t->turn.say = OURS(t, TEXT_STOP_PROMPT);
    turn_danger(t);
    turn_choice(t, "wait", OURS(t, TEXT_CHOICE_WAIT_SAFE));
    if (t->danger_told && t->danger_met != t->danger_number)
        turn_choice(t, "mistaken", OURS(t, TEXT_CHOICE_MISTAKEN));
    else
        turn_choice(t, "safe-now", OURS(t, TEXT_CHOICE_SAFE_NOW));
    if (talk_is_called(t)) turn_choice(t, "made-safe", OURS(t, TEXT_CHOICE_MADE_SAFE));
    turn_words(t, 1u << WORD_DANGER | 1u << WORD_WHY | 1u << WORD_KNOWN | 1u << WORD_STOP |
                      1u << WORD_HELP);
}
