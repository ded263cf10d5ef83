/* Rounds, and records of what is good: how they begin and how they end. In between they are
 * questions like any others. */
#include <assert.h>
#include <string.h>

#include "talk/talk_turns.h"

bool talk_is_walk(const tt_talk *t)
{
    return t->kind == TT_KIND_ROUND || t->kind == TT_KIND_RECORD;
}

typedef struct walked_list {
    const tt_walked *items;
    uint32_t count;
} walked_list;

static walked_list walked(tt_talk *t)
{
    walked_list l = {NULL, 0};
    talk_check(t, tt_walk_look(t->c, &l.items, &l.count));
    return l;
}

double walk_minutes(tt_talk *t)
{
    const walked_list l = walked(t);
    double minutes = 0;
    for (uint32_t i = 0; i < l.count; i++)
        if (*l.items[i].text == 0) minutes += talk_question(t, l.items[i].question).minutes;
    return minutes;
}

/* Of what is walked to, as its beginning counts it: danger is asked beside it. */
uint32_t walk_answers(tt_talk *t)
{
    const walked_list l = walked(t);
    uint32_t count = 0;
    for (uint32_t i = 0; i < l.count; i++) count += *l.items[i].text != 0;
    return count;
}

/* ---- the beginning ---- */

static const char *last_round(tt_talk *t)
{
    uint32_t count;
    const char *last = "";
    const tt_past_case *all = tt_past_cases(t->options.past, &count);
    for (uint32_t i = 0; i < count; i++)
        if (all[i].says.kind == TT_KIND_ROUND && strcmp(all[i].says.ended, last) > 0)
            last = all[i].says.ended;
    return last;
}

/* Days on which nobody went one, since the last of any kind. */
static void tell_skipped(tt_talk *t)
{
    tt_moment now, then;
    if (t->options.past == NULL || !tt_moment_read(t->now, &now)) return;
    const char *last = last_round(t);
    if (*last == 0) talk_news(t, TT_PART_NOTE, "", OURS(t, TEXT_ROUND_FIRST));
    if (*last == 0 || !tt_moment_read(last, &then)) return;
    const int64_t days = day_on_the_wall(now) - day_on_the_wall(then);
    if (days <= 1) return;
    talk_news(t, TT_PART_NOTE, "",
              SAY(t, TEXT_ROUND_SKIPPED, str_printf(t->shown, "%.10s", last).p,
                  talk_number(t, (uint32_t)days - 1)));
}

void greet_walk(tt_talk *t)
{
    static const text_id rounds[TT_EVERIES] = {TEXT_ROUND_DAILY, TEXT_ROUND_WEEKLY,
                                               TEXT_ROUND_MONTHLY};
    if (!talk_is_walk(t)) return;
    const bool round = t->kind == TT_KIND_ROUND;
    const uint32_t count = walked(t).count;
    if (count == 0)
        talk_news(t, TT_PART_NOTE, "", OURS(t, round ? TEXT_ROUND_NOTHING : TEXT_RECORD_NOTHING));
    else
        talk_news(t, TT_PART_NOTE, "",
                  SAY(t, round ? rounds[t->every] : TEXT_RECORD_BEGINS, talk_number(t, count),
                      talk_minutes(t, walk_minutes(t))));
    if (round) tell_skipped(t);
}

/* ---- what was found ---- */

/* What is marked as good here comes before what is usual anywhere. Null: it is in order. */
static const char *why_off(tt_talk *t, const tt_walked *w)
{
    moved m;
    if (!w->told || w->good == w->question) return NULL;
    if (w->is_number && talk_moved(t, w->question, w->number, t->now, &m))
        return m.drift.beyond ? talk_moved_words(t, &m) : NULL;
    if (!w->unusual) return NULL;
    return w->is_number ? SAY(t, TEXT_USUAL_IS, w->text, w->usual_text) : w->text;
}

bool walk_is_off(tt_talk *t)
{
    const walked_list l = walked(t);
    bool off = talk_complained(t);
    for (uint32_t i = 0; i < l.count; i++) off = off || why_off(t, &l.items[i]) != NULL;
    return off;
}

static bool is_blank(tt_talk *t)
{
    const walked_list l = walked(t);
    bool blank = false;
    for (uint32_t i = 0; i < l.count; i++) blank = blank || !l.items[i].told;
    return blank;
}

static void add_off(tt_talk *t, const walked_list *l)
{
    tt_turn_part *part = NULL;
    for (uint32_t i = 0; i < l->count; i++) {
        const char *why = why_off(t, &l->items[i]);
        if (why == NULL) continue;
        if (part == NULL) part = turn_part(t, TT_PART_DRIFT, OURS(t, TEXT_OUT_OF_ORDER));
        part_item(t, part, SAY(t, TEXT_ASKED_ANSWERED, l->items[i].ask, why));
    }
}

static void add_blank(tt_talk *t, const walked_list *l)
{
    tt_turn_part *part = NULL;
    for (uint32_t i = 0; i < l->count; i++) {
        if (l->items[i].told) continue;
        if (part == NULL) part = turn_part(t, TT_PART_NOTE, OURS(t, TEXT_NOT_LOOKED_AT));
        part_item(t, part, l->items[i].ask);
    }
}

/* Each with what was good until now. */
static void add_good(tt_talk *t, const walked_list *l)
{
    tt_turn_part *part = NULL;
    for (uint32_t i = 0; i < l->count; i++) {
        const tt_walked *w = &l->items[i];
        if (!w->told) continue;
        if (part == NULL) part = turn_part(t, TT_PART_FACTS, OURS(t, TEXT_FOUND_GOOD));
        const char *words = SAY(t, TEXT_ASKED_ANSWERED, w->ask, w->text);
        const bool same = *w->good_text == 0 || strcmp(w->good_text, w->text) == 0;
        part_item(t, part, same ? words : SAY(t, TEXT_GOOD_BEFORE, words, w->good_text));
    }
}

void turn_walk_found(tt_talk *t)
{
    const walked_list l = walked(t);
    if (t->kind == TT_KIND_RECORD)
        add_good(t, &l);
    else
        add_off(t, &l);
    add_blank(t, &l);
}

/* ---- the end ---- */

static void make_round_end(tt_talk *t)
{
    const bool off = walk_is_off(t);
    t->turn.prompt = t->turn.say = OURS(t, off           ? TEXT_WALK_OFF
                                           : is_blank(t) ? TEXT_WALK_ORDER_BUT
                                                         : TEXT_WALK_ORDER);
    if (off) turn_choice(t, "fault", OURS(t, TEXT_LOOK_FOR_FAULT));
    turn_choice(t, "close", OURS(t, off ? TEXT_CLOSE_DRIFTED : TEXT_CLOSE_ROUND));
}

static void make_record_end(tt_talk *t)
{
    t->turn.prompt = t->turn.say = OURS(t, TEXT_KEEP_AS_GOOD);
    turn_choice(t, "keep", OURS(t, TEXT_KEEP_GOOD));
    turn_choice(t, "drop", OURS(t, TEXT_DROP_GOOD));
}

void make_walked(tt_talk *t)
{
    assert(talk_is_walk(t));
    turn_afresh(t, TT_TURN_WALKED);
    turn_cautions(t);
    turn_walk_found(t);
    if (t->kind == TT_KIND_ROUND)
        make_round_end(t);
    else
        make_record_end(t);
    turn_words(t, OFFER_MORE);
}

bool walk_is_over(tt_talk *t)
{
    return t->turn.kind == TT_TURN_WALKED && t->kind == TT_KIND_ROUND && !t->options.look_only &&
           !walk_is_off(t) && !is_blank(t);
}
