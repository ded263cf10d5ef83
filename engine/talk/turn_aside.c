/* What a person is in the middle of: pages to read, answers to change, notes to leave, what others
 * did. */
#include <assert.h>
#include <string.h>

#include "show/standing_text.h"
#include "talk/talk_turns.h"

/* ---- pages to read ---- */

/* All that hold now, whether they were shown before or not. */
static void add_cautions_now(tt_talk *t)
{
    const tt_view *v = talk_look(t);
    for (uint32_t i = 0; i < v->caution_count; i++)
        turn_line(t, TT_PART_CAUTION, v->cautions[i].signal, v->cautions[i].text);
}

static void make_known(tt_talk *t)
{
    turn_afresh(t, TT_TURN_KNOWN);
    t->turn.picture = talk_cause_picture(t);
    add_cautions_now(t);
    turn_facts(t);
    turn_causes(t, 5);
    turn_fixes(t, 5);
    turn_tried(t);
    turn_earlier(t);
}

/* Reasons in plain words; where a rule stands is for those who ask once more. */
static void add_reasons(tt_talk *t)
{
    const tt_reason *reasons;
    uint32_t count;
    tt_turn_part *part = turn_part(t, TT_PART_REASONS, OURS(t, TEXT_WHY_ASKED));
    if (!talk_is_ok(t, tt_why_asked(t->c, t->doing.question, &reasons, &count))) count = 0;
    for (uint32_t i = 0; i < count; i++)
        if (t->doing.more || !reasons[i].for_authors) part_item(t, part, reasons[i].text);
    if (part->item_count == 0) part_item(t, part, OURS(t, TEXT_WHY_NARROWS));
}

/* The likeliest that is listed beside the first: people can do nothing with what is not. */
static uint32_t listed_rival(const tt_view *v)
{
    for (uint32_t i = 1; i < v->cause_count; i++)
        if (v->causes[i].name != NULL) return i;
    return TT_NONE;
}

static const char *sign_words(tt_talk *t, const tt_bar *bar)
{
    if (strcmp(bar->kind, "start") == 0) return OURS(t, TEXT_SIGN_START);
    if (strcmp(bar->kind, "facts") == 0) return OURS(t, TEXT_SIGN_FACTS);
    if (strcmp(bar->kind, "earlier") == 0) return OURS(t, TEXT_SIGN_EARLIER);
    return strcmp(bar->kind, "fixes") == 0 ? OURS(t, TEXT_SIGN_FIXES) : bar->text;
}

static void add_bars(tt_talk *t, const tt_view *v)
{
    tt_why why;
    const uint32_t rival = listed_rival(v);
    if (v->not_listed_leads || rival == TT_NONE ||
        !talk_is_ok(t, tt_why_cause(t->c, 0, rival, &why))) {
        turn_line(t, TT_PART_REASONS, "",
                  OURS(t, v->not_listed_leads ? TEXT_FITS_NOTHING : TEXT_ONLY_ONE_LISTED));
        return;
    }
    tt_turn_part *part =
        turn_part(t, TT_PART_REASONS, SAY(t, TEXT_WHY_RATHER, why.cause.text, why.rival.text));
    for (uint32_t i = 0; i < why.bar_count; i++) {
        if (why.bars[i].decibels == 0) continue;
        part_item(t, part,
                  SAY(t, why.bars[i].decibels > 0 ? TEXT_SIGN_FOR : TEXT_SIGN_AGAINST,
                      sign_words(t, &why.bars[i]),
                      strength_words(t->tongue, why.bars[i].strength)));
    }
}

static void make_why(tt_talk *t)
{
    const tt_view *v = talk_look(t);
    turn_afresh(t, TT_TURN_WHY);
    if (v->gate.state == TT_GATE_SHUT)
        turn_line(t, TT_PART_REASONS, "", OURS(t, TEXT_WHY_STOP));
    else if (t->doing.question != TT_NONE)
        add_reasons(t);
    else
        add_bars(t, v);
    if (!t->doing.more && t->doing.question != TT_NONE)
        turn_choice(t, "more", OURS(t, TEXT_WHY_MORE));
}

static void make_words(tt_talk *t)
{
    turn_afresh(t, TT_TURN_WORDS);
    tt_turn_part *part = turn_part(t, TT_PART_WORDS, OURS(t, TEXT_THESE_WORDS));
    for (unsigned i = 0; i < WORD_NONE; i++)
        part_item(t, part,
                  SAY(t, TEXT_WORD_LINE, OURS(t, word_typed((talk_word)i)),
                      OURS(t, word_meaning((talk_word)i))));
    for (tongue in = 0; in < TONGUE_COUNT; in++)
        if (in != t->tongue)
            part_item(t, part,
                      FILL(t->shown, in, TEXT_WORD_LINE, catalogue_text(in, TYPED_LANGUAGE),
                           catalogue_text(in, TEXT_WORD_LANGUAGE)));
    part_item(t, part, OURS(t, TEXT_COLON));
    if (t->options.kept) part_item(t, part, OURS(t, TEXT_KEPT_AT_ONCE));
}

static void make_cautions(tt_talk *t)
{
    const tt_book_info info = talk_book(t);
    turn_afresh(t, TT_TURN_CAUTIONS);
    turn_list(t, TT_PART_CAUTION, OURS(t, TEXT_BEFORE_YOU_BEGIN), info.cautions,
              info.caution_count);
    turn_list(t, TT_PART_CAUTION, "caution", info.hazard_cautions, info.hazard_caution_count);
    add_cautions_now(t);
    if (t->turn.part_count == 0) turn_line(t, TT_PART_NOTE, "", OURS(t, TEXT_NO_CAUTIONS));
}

/* All that makes it safe, the work, and how it is given back. */
static void make_whole(tt_talk *t)
{
    const tt_view *v = talk_look(t);
    turn_afresh(t, TT_TURN_PROCEDURE);
    if (v->fix == TT_NONE) return;
    const tt_fix_plan plan = talk_plan(t, v->fix);
    t->turn.title = plan.text;
    turn_safety(t, &plan.safety);
    turn_procedure(t, &plan.safety);
    turn_list(t, TT_PART_STEP, OURS(t, TEXT_THEN), plan.steps, plan.step_count);
    turn_restore(t, &plan.safety);
    turn_list(t, TT_PART_STEP, OURS(t, TEXT_ONCE_RUNNING), plan.once_running,
              plan.once_running_count);
}

static void make_help_or_danger(tt_talk *t)
{
    turn_afresh(t, TT_TURN_HELP_OR_DANGER);
    t->turn.prompt = t->turn.say = OURS(t, TEXT_WHICH_HELP);
    turn_choice(t, "danger", OURS(t, TEXT_HELP_DANGER));
    turn_choice(t, "how", OURS(t, TEXT_HELP_HOW));
    turn_choice(t, "go-on", OURS(t, TEXT_HELP_NEITHER));
    turn_words(t, 1u << WORD_DANGER | 1u << WORD_STOP | 1u << WORD_HELP);
}

static void make_page(tt_talk *t)
{
    assert(t->doing.kind == ASIDE_READ);
    switch (t->doing.page) {
    case TT_TURN_KNOWN:
        make_known(t);
        break;
    case TT_TURN_WHY:
        make_why(t);
        break;
    case TT_TURN_WORDS:
        make_words(t);
        break;
    case TT_TURN_CAUTIONS:
        make_cautions(t);
        break;
    case TT_TURN_PROCEDURE:
        make_whole(t);
        break;
    case TT_TURN_HELP_OR_DANGER:
        make_help_or_danger(t);
        return;
    default:
        assert(false);
    }
    t->turn.prompt = t->turn.say = OURS(t, TEXT_READ_ON);
    turn_choice(t, "go-on", OURS(t, TEXT_GO_ON));
    turn_words(t, 1u << WORD_DANGER | 1u << WORD_STOP | 1u << WORD_HELP);
}

/* ---- answers to change ---- */

/* What a fix left and what was reckoned are no answers. */
static bool is_changeable(tt_talk *t, const tt_fact *fact)
{
    if (fact->question == TT_NONE || strcmp(fact->from, "fix") == 0 ||
        strcmp(fact->from, "quantity") == 0)
        return false;
    return talk_question(t, fact->question).kind != TT_QUANTITY ||
           strcmp(fact->from, "answer") == 0;
}

/* The place of the last record that answered it, so that the last said comes first. */
static uint32_t said_at(const tt_talk *t, const char *question)
{
    assert(question != NULL);
    for (uint32_t i = t->record_count; i-- > 0;) {
        const bool looks =
            strcmp(t->records[i].kind, "answer") == 0 || strcmp(t->records[i].kind, "again") == 0;
        const char *about = looks ? value_text(t->records[i].data, "question") : NULL;
        if (about != NULL && strcmp(about, question) == 0) return i + 1;
    }
    return 0;
}

/* A question may be named as a word of ours, which must stay the word. */
static const char *change_id(tt_talk *t, const char *question)
{
    assert(*question != 0);
    return word_by_id(question) == WORD_NONE ? question
                                             : str_printf(t->shown, "answer-%s", question).p;
}

static void add_changeable(tt_talk *t, bool of_site)
{
    const tt_view *v = talk_look(t);
    for (uint32_t rank = UINT32_MAX, next; rank > 0;
         rank = next) { /* few answers: the latest said, then the one before it */
        next = 0;
        for (uint32_t i = 0; i < v->fact_count; i++) {
            const tt_fact *fact = &v->facts[i];
            if (!is_changeable(t, fact) || (strcmp(fact->from, "site") == 0) != of_site) continue;
            const uint32_t at = said_at(t, fact->name) * (v->fact_count + 1) + i + 1;
            if (at < rank && at > next) next = at;
        }
        if (next == 0) return;
        const tt_fact *fact = &v->facts[(next - 1) % (v->fact_count + 1)];
        turn_choice(t, change_id(t, fact->name), fact_words(t->shown, t->tongue, t->c, fact));
    }
}

static void make_change(tt_talk *t)
{
    turn_afresh(t, TT_TURN_CHANGE);
    t->turn.prompt = t->turn.say = OURS(t, TEXT_WHICH_WAS_WRONG);
    const bool of_site = t->doing.kind == ASIDE_CHANGE_SITE;
    add_changeable(t, of_site);
    if (!of_site) turn_choice(t, "of-this-site", OURS(t, TEXT_OF_THIS_SITE));
    turn_choice(t, "none", OURS(t, TEXT_CHANGE_NOTHING));
    turn_words(t, OFFER_ALWAYS);
}

/* A question about danger is one at any time: what names nothing counts as danger there. */
static void make_anew(tt_talk *t)
{
    assert(t->doing.question != TT_NONE);
    const uint32_t question = t->doing.question;
    const bool gate = talk_is_gate(t, question);
    make_question(t, gate ? TT_TURN_DANGER : TT_TURN_QUESTION, question);
    t->turn.dangerous = gate;
}

/* ---- notes ---- */

static void make_note(tt_talk *t)
{
    assert(t->doing.kind == ASIDE_NOTE || t->doing.kind == ASIDE_TO);
    const bool to = t->doing.kind == ASIDE_TO;
    turn_afresh(t, to ? TT_TURN_TO : TT_TURN_NOTE);
    t->turn.prompt = t->turn.say = OURS(t, to ? TEXT_TO_WHOM : TEXT_A_NOTE);
    t->turn.takes.text = true;
    turn_choice(t, "none", OURS(t, to ? TEXT_TO_NOBODY : TEXT_NO_NOTE));
    turn_words(t, 1u << WORD_DANGER | 1u << WORD_BACK | 1u << WORD_STOP);
}

/* ---- what has changed ---- */

static void make_changed(tt_talk *t)
{
    turn_afresh(t, TT_TURN_CHANGED);
    t->turn.prompt = t->turn.say = OURS(t, t->doing.more ? TEXT_SITE_CHANGED : TEXT_RULES_CHANGED);
    turn_choice(t, "go-on", OURS(t, TEXT_GO_ON_AS_NOW));
    turn_choice(t, "stop", OURS(t, TEXT_STOP_HERE));
    turn_words(t, 1u << WORD_DANGER | 1u << WORD_STOP | 1u << WORD_HELP);
}

static void make_taken_over(tt_talk *t)
{
    turn_afresh(t, TT_TURN_TAKEN_OVER);
    t->turn.prompt = t->turn.say = OURS(t, TEXT_TAKEN_OVER);
    turn_choice(t, "leave", OURS(t, TEXT_LEAVE_TO_THEM));
    turn_choice(t, "go-on", OURS(t, TEXT_GO_ON_TOO));
    turn_words(t, 1u << WORD_DANGER | 1u << WORD_KNOWN | 1u << WORD_STOP | 1u << WORD_HELP);
}

void make_aside(tt_talk *t)
{
    switch (t->doing.kind) {
    case ASIDE_CONFIRM:
        make_confirm(t);
        return;
    case ASIDE_WHICH:
        make_which(t);
        return;
    case ASIDE_ASK_BACK:
        make_ask_back(t);
        return;
    case ASIDE_PLACES:
        make_places(t);
        return;
    case ASIDE_AT_PLACE:
        make_at_place(t);
        return;
    case ASIDE_CHANGE:
    case ASIDE_CHANGE_SITE:
        make_change(t);
        return;
    case ASIDE_ANEW:
        make_anew(t);
        return;
    case ASIDE_NOTE:
    case ASIDE_TO:
        make_note(t);
        return;
    case ASIDE_CAUSE:
        make_cause(t);
        return;
    case ASIDE_CAUSE_WHICH:
    case ASIDE_CAUSE_ALL:
        make_cause_which(t);
        return;
    case ASIDE_CHANGED:
        make_changed(t);
        return;
    case ASIDE_CLOSED:
        make_closed(t);
        return;
    case ASIDE_TAKEN_OVER:
        make_taken_over(t);
        return;
    case ASIDE_READ:
        make_page(t);
        return;
    case ASIDE_NONE:
        assert(false);
    }
}
