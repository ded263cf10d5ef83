/* How a case goes on without this person: somebody is called, it is closed, what the cause was, the
 * last page. */
#include <assert.h>
#include <string.h>

#include "show/standing_text.h"
#include "talk/talk_turns.h"

enum { PARTS_TOLD = 6, CAUSES_TOLD = 3, CAUSES_OFFERED = 8 };

/* ---- somebody has to come ---- */

/* The first that is the work of whoever is called; of somebody from outside nobody knows what is.
 */
static const tt_fix *their_fix(const tt_view *v)
{
    for (uint32_t i = 0; v->call_role != NULL && i < v->fix_count; i++)
        if (v->fixes[i].standing == TT_OTHER_ROLE && strcmp(v->fixes[i].role, v->call_role) == 0)
            return &v->fixes[i];
    return NULL;
}

static void add_what_to_tell(tt_talk *t, const tt_view *v)
{
    tt_turn_part *part = turn_part(t, TT_PART_TELL, OURS(t, TEXT_READ_OUT));
    const tt_book_info info = talk_book(t);
    if (info.has_site && !t->options.practice && *info.site_title != 0)
        part_item(t, part, SAY(t, TEXT_TELL_PLACE, info.site_title));
    if (*t->options.number != 0) part_item(t, part, SAY(t, TEXT_TELL_NUMBER, t->options.number));
    uint32_t told = 0;
    for (; told < v->cause_count && told < CAUSES_TOLD; told++) {
        const tt_cause *cause = &v->causes[told];
        if (told > 0 && cause->chance < 0.05) break;
        part_item(t, part,
                  SAY(t, TEXT_CAUSE_CHANCE, cause_words(t->tongue, cause),
                      talk_percent(t, cause->chance)));
    }
    const list_end end = end_of_list(v, told);
    const char *leads = where_it_leads(t->shown, t->tongue, &end);
    if (leads != NULL) part_item(t, part, leads);
    const tt_fix *theirs = their_fix(v);
    if (theirs != NULL) part_item(t, part, SAY(t, TEXT_THEY_MAY_BEGIN, theirs->text));
}

/* What is as likely as a fix must be to be worth trying at all: for less, nobody carries it along.
 */
static void add_spares(tt_talk *t)
{
    const double worth_bringing = 0.05;
    const tt_spare *spares;
    uint32_t count;
    if (!talk_is_ok(t, tt_spare_parts(t->c, &spares, &count))) return;
    if (count == 0 || spares[0].chance < worth_bringing) return;
    tt_turn_part *part = turn_part(t, TT_PART_NEED, OURS(t, TEXT_PARTS_TO_BRING));
    for (uint32_t i = 0; i < count && i < PARTS_TOLD && spares[i].chance >= worth_bringing; i++)
        part_item(t, part,
                  SAY(t, TEXT_CAUSE_CHANCE, spares[i].text, talk_percent(t, spares[i].chance)));
}

static void add_what_to_leave_aside(tt_talk *t)
{
    const tt_against *against;
    uint32_t count;
    if (!talk_is_ok(t, tt_spoken_against(t->c, &against, &count)) || count == 0) return;
    tt_turn_part *part = turn_part(t, TT_PART_TELL, OURS(t, TEXT_HARDLY_LIKELY));
    for (uint32_t i = 0; i < count && i < CAUSES_TOLD; i++) part_item(t, part, against[i].text);
}

void make_call(tt_talk *t)
{
    const tt_view *v = talk_look(t);
    const tt_tried *left = talk_left_changed(t),
                   *changed = left != NULL && talk_may_do(t, left->fix) ? left : NULL;
    turn_afresh(t, TT_TURN_CALL);
    turn_cautions(t);
    t->turn.prompt = t->turn.say =
        changed != NULL ? SAY(t, TEXT_CALL_PUT_BACK, changed->put_back) : OURS(t, TEXT_CALL_PROMPT);
    turn_whom_to_call(t);
    add_what_to_tell(t, v);
    add_what_to_leave_aside(t);
    add_spares(t);
    turn_line(t, TT_PART_NOTE, "", OURS(t, TEXT_DONT_TOUCH));
    turn_tried(t);
    turn_unfinished(t);
    turn_choice(t, "wait", OURS(t, TEXT_CHOICE_WAIT));
    if (changed != NULL) turn_choice(t, "put-back", OURS(t, TEXT_CHOICE_PUT_BACK_NOW));
    turn_choice(t, "close", OURS(t, TEXT_CHOICE_CLOSE));
    turn_words(t, OFFER_FIX);
}

/* ---- what it was ---- */

void make_cause(tt_talk *t)
{
    assert(t->doing.kind == ASIDE_CAUSE);
    const tt_tried *last = talk_last_tried(t);
    assert(last != NULL && *last->cured != 0);
    turn_afresh(t, TT_TURN_CAUSE);
    t->turn.subject = last->cured_name;
    t->turn.prompt = t->turn.say = SAY(t, TEXT_WAS_THAT_IT, last->cured);
    turn_choice(t, "yes", OURS(t, TEXT_YES));
    turn_choice(t, "no", OURS(t, TEXT_NO_SOMETHING_ELSE));
    turn_choice(t, "unsure", OURS(t, TEXT_NOT_SURE));
    turn_words(t, 1u << WORD_DANGER | 1u << WORD_BACK | 1u << WORD_STOP | 1u << WORD_HELP);
}

/* Causes that this person may confirm, the likeliest first. */
void make_cause_which(tt_talk *t)
{
    const tt_view *v = talk_look(t);
    const bool all = t->doing.kind == ASIDE_CAUSE_ALL;
    turn_afresh(t, TT_TURN_CAUSE);
    t->turn.prompt = t->turn.say = OURS(t, TEXT_WHAT_WAS_IT);
    uint32_t more = 0;
    for (uint32_t i = 0; i < v->cause_count; i++) {
        const char *name = v->causes[i].name;
        if (name == NULL || strcmp(name, t->doing.but) == 0 || *tt_who_confirms(t->c, name) != 0)
            continue;
        if (all || t->turn.choice_count < CAUSES_OFFERED)
            turn_choice(t, name, v->causes[i].text);
        else
            more++;
    }
    turn_choice(t, "something-not-listed", OURS(t, TEXT_NOT_LISTED));
    turn_choice(t, "unsure", OURS(t, TEXT_NOT_SURE));
    if (more > 0) turn_choice(t, "more", OURS(t, TEXT_SHOW_ALL));
    turn_words(t, 1u << WORD_DANGER | 1u << WORD_BACK | 1u << WORD_STOP | 1u << WORD_HELP);
}

/* ---- pages about the case itself ---- */

void make_closed(tt_talk *t)
{
    turn_afresh(t, TT_TURN_CLOSED);
    t->turn.prompt = t->turn.say = OURS(t, TEXT_IS_CLOSED);
    turn_tried(t);
    turn_choice(t, "leave", OURS(t, TEXT_LEAVE_CLOSED));
    turn_choice(t, "reopen", OURS(t, TEXT_REOPEN_MISTAKE));
    if (talk_look(t)->step == TT_CLOSED) {
        turn_choice(t, "came-back", OURS(t, TEXT_CAME_BACK));
        turn_choice(t, "say-cause", OURS(t, TEXT_SAY_CAUSE));
    } else if (talk_meaning(t)->end == END_CALLED) { /* who was called knows what it was */
        turn_choice(t, "say-cause", OURS(t, TEXT_SAY_CAUSE));
    }
    turn_words(t, 1u << WORD_DANGER | 1u << WORD_KNOWN | 1u << WORD_STOP | 1u << WORD_HELP);
}

static void add_found(tt_talk *t)
{
    const tt_tried *last = talk_last_tried(t);
    if (talk_look(t)->step != TT_CLOSED || last == NULL) {
        if (talk_complained(t) || talk_answers(t) > 0) turn_causes(t, CAUSES_TOLD);
        return;
    }
    tt_turn_part *part = turn_part(t, TT_PART_NOTE, "");
    part_item(t, part, SAY(t, TEXT_WHAT_HELPED, last->text));
    if (*last->cured != 0) part_item(t, part, SAY(t, TEXT_MOST_LIKELY_WAS, last->cured));
}

static text_id end_text(const tt_talk *t, const char *how)
{
    assert(*how != 0);
    if (strcmp(how, "left") == 0) return TEXT_NO_CASE_KEPT;
    if (strcmp(how, "in-order") == 0) return TEXT_ROUND_IN_ORDER;
    if (strcmp(how, "drifted") == 0 || strcmp(how, "fault") == 0) return TEXT_ROUND_DRIFTED;
    if (strcmp(how, "recorded") == 0) return TEXT_RECORDED;
    if (strcmp(how, "gone") == 0 || strcmp(how, "call") == 0 || strcmp(how, "made-safe") == 0 ||
        strcmp(how, "elsewhere") == 0)
        return TEXT_CASE_CLOSED;
    if (strcmp(how, "looked") == 0) return TEXT_CASE_LOOKED_AT;
    if (!t->options.kept) return TEXT_STOPPED_UNKEPT;
    if (!t->turn.kept) return TEXT_STOPPED_PARTLY_KEPT;
    return strcmp(how, "waiting") == 0 ? TEXT_CASE_WAITS : TEXT_CASE_STOPPED;
}

/* A fix that was begun when the person left may be half done. */
static void add_unfinished(tt_talk *t)
{
    if (t->fix.fix == TT_NONE) return;
    const tt_fix_plan plan = talk_plan(t, t->fix.fix);
    tt_turn_part *part = turn_part(t, TT_PART_NOTE, SAY(t, TEXT_UNFINISHED, plan.text));
    if (!talk_may_undo_begun(t)) {
        part_item(t, part, OURS(t, TEXT_NOT_YOUR_LOCK));
        return;
    }
    if (*plan.put_back != 0 && !plan.adjust.under_way)
        part_item(t, part, SAY(t, TEXT_IF_LEFT_SO, plan.put_back));
    if (plan.safety.isolate_count > 0 && walk_reached(&t->fix) > 0)
        part_item(t, part, OURS(t, TEXT_OWN_LOCK));
}

/* Whoever leaves while danger stands takes with them what to do and whom to call; whoever waits,
 * whom they wait for. */
static void add_standing(tt_talk *t)
{
    if (t->elsewhere != NULL) return; /* all of it is told there */
    const bool open = strcmp(t->how, "stopped") == 0 || strcmp(t->how, "waiting") == 0;
    if (open && talk_look(t)->gate.state == TT_GATE_SHUT) {
        turn_danger(t);
        return;
    }
    if (talk_is_walk(t)) {
        turn_walk_found(t);
        if (strcmp(t->how, "drifted") == 0) turn_whom_to_tell(t);
        return;
    }
    if (strcmp(t->how, "waiting") == 0) turn_whom_to_call(t);
    add_found(t);
}

void make_end(tt_talk *t)
{
    assert(t->left && *t->how != 0);
    turn_afresh(t, TT_TURN_END);
    t->turn.how = t->how;
    t->turn.prompt = t->turn.say =
        t->elsewhere != NULL ? SAY(t, TEXT_GOES_ON_IN, t->elsewhere) : OURS(t, end_text(t, t->how));
    if (t->elsewhere != NULL) t->turn.subject = t->elsewhere;
    add_standing(t);
    turn_tried(t);
    add_unfinished(t);
}
