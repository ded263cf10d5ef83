/* Putting a turn together: its choices, parts and words, and what is new since the last one. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/unicode.h"
#include "show/figures.h"
#include "show/standing_text.h"
#include "talk/talk_turns.h"

void turn_afresh(tt_talk *t, tt_turn_kind kind)
{
    assert(kind < TT_TURN_KINDS);
    t->turn = (tt_turn){.number = t->turn.number,
                        .kind = kind,
                        .language =
                            t->language != NULL ? t->language : tt_book_describe(t->book).language,
                        .subject = "",
                        .together = "",
                        .title = "",
                        .prompt = "",
                        .say = "",
                        .place = "",
                        .because = "",
                        .wrong_code = "",
                        .wrong = "",
                        .how = "",
                        .takes = {.unit = "", .low = NAN, .high = NAN},
                        .kept = t->options.kept && !t->ever_failed,
                        .practice = t->options.practice};
    t->turn.progress.minutes_left = NAN;
    t->choices = t->words = NULL;
    t->parts = NULL;
    t->choice_room = t->word_room = t->part_room = 0;
}

tt_turn_choice *turn_choice(tt_talk *t, const char *id, const char *text)
{
    assert(id != NULL && text != NULL);
    GROW(t->shown, t->choices, t->turn.choice_count, t->choice_room);
    t->choices[t->turn.choice_count] = (tt_turn_choice){.id = id, .text = text};
    t->turn.choices = t->choices;
    return &t->choices[t->turn.choice_count++];
}

tt_turn_part *turn_part(tt_talk *t, tt_part_kind kind, const char *title)
{
    assert(kind < TT_PART_KINDS && title != NULL);
    GROW(t->shown, t->parts, t->turn.part_count, t->part_room);
    t->parts[t->turn.part_count] = (tt_turn_part){.kind = kind, .title = title};
    t->turn.parts = t->parts;
    return &t->parts[t->turn.part_count++];
}

void part_item(tt_talk *t, tt_turn_part *part, const char *text)
{
    part_add(t->shown, part, text);
}

void turn_line(tt_talk *t, tt_part_kind kind, const char *title, const char *text)
{
    assert(title != NULL && text != NULL);
    if (*text == 0) return;
    part_item(t, turn_part(t, kind, title), text);
}

void turn_list(tt_talk *t, tt_part_kind kind, const char *title, const char *const *items,
               uint32_t count)
{
    assert(items != NULL || count == 0);
    if (count == 0) return;
    tt_turn_part *part = turn_part(t, kind, title);
    part->items = items;
    part->item_count = count;
}

/* ---- what many turns show ---- */

static void add_state(tt_talk *t, const tt_safety *safety)
{
    if (strcmp(safety->state, "running") == 0)
        turn_line(t, TT_PART_NOTE, "",
                  *safety->why_running != 0 ? SAY(t, TEXT_RUNS_MEANWHILE, safety->why_running)
                                            : OURS(t, TEXT_RUNS));
    else if (strcmp(safety->state, "stopped") == 0)
        turn_line(t, TT_PART_NOTE, "", OURS(t, TEXT_STOPPED_MEANWHILE));
}

void turn_safety(tt_talk *t, const tt_safety *safety)
{
    turn_list(t, TT_PART_CAUTION, "caution", safety->cautions, safety->caution_count);
    turn_list(t, TT_PART_HAZARDS, OURS(t, TEXT_DANGER_FROM), safety->hazards, safety->hazard_count);
    bool reduced =
        *safety->unprotected_risk != 0 && strcmp(safety->unprotected_risk, safety->risk) != 0;
    if (reduced)
        turn_line(t, TT_PART_RISK, "",
                  SAY(t, TEXT_RISK_WITH, risk_words(t->tongue, safety->unprotected_risk),
                      risk_words(t->tongue, safety->risk)));
    else if (*safety->unprotected_risk != 0)
        turn_line(t, TT_PART_RISK, "", SAY(t, TEXT_RISK, risk_words(t->tongue, safety->risk)));
    turn_list(t, TT_PART_WEAR, OURS(t, TEXT_WEAR), safety->protect, safety->protect_count);
    add_state(t, safety);
}

/* One list, in the order of 29 CFR 1910.147 (c)(9) and (d), so that nothing is read past. */
void turn_procedure(tt_talk *t, const tt_safety *safety)
{
    turn_list(t, TT_PART_ANNOUNCE, OURS(t, TEXT_FIRST_TELL), safety->tell, safety->tell_count);
    turn_list(t, TT_PART_ISOLATE, OURS(t, TEXT_ISOLATE_FIRST), safety->isolate,
              safety->isolate_count);
    turn_list(t, TT_PART_RELEASE, OURS(t, TEXT_THEN_RELEASE), safety->release,
              safety->release_count);
    turn_list(t, TT_PART_PROVE, OURS(t, TEXT_THEN_PROVE), safety->prove, safety->prove_count);
}

void turn_restore(tt_talk *t, const tt_safety *safety)
{
    turn_list(t, TT_PART_RESTORE, OURS(t, TEXT_THEN_RESTORE), safety->restore,
              safety->restore_count);
}

/* Of what isolates nothing no lock is spoken of: whoever is told of one looks for it. */
const char *turn_leave_so(tt_talk *t, const tt_fix_plan *plan)
{
    return plan->safety.isolate_count > 0 ? SAY(t, TEXT_LEAVE_LOCKS, plan->text)
                                          : SAY(t, TEXT_LEAVE_SO, plan->text);
}

void turn_take(tt_talk *t, const part_list *parts)
{
    for (uint32_t i = 0; i < parts->count; i++)
        *turn_part(t, parts->items[i].kind, parts->items[i].title) = parts->items[i];
}

void turn_causes(tt_talk *t, uint32_t most)
{
    assert(most > 0);
    const standing_about about = {.book = t->book, .c = t->c, .view = talk_look(t)};
    part_list parts = {.keep = t->shown, .in = t->tongue};
    tell_causes(&parts, &about, most);
    turn_take(t, &parts);
}

void turn_fixes(tt_talk *t, uint32_t most)
{
    assert(most > 0);
    const standing_about about = {.book = t->book, .c = t->c, .view = talk_look(t)};
    part_list parts = {.keep = t->shown, .in = t->tongue};
    tell_fixes(&parts, &about, most);
    turn_take(t, &parts);
}

void turn_cautions(tt_talk *t)
{
    const tt_view *v = talk_look(t);
    for (uint32_t i = 0; i < v->caution_count; i++) {
        const tt_caution *caution = &v->cautions[i];
        bool seen = false;
        for (uint32_t k = 0; k < t->caution_count; k++)
            seen = seen || strcmp(t->cautions_seen[k], caution->text) == 0;
        if (seen) continue;
        GROW(t->keep, t->cautions_seen, t->caution_count, t->caution_room);
        t->cautions_seen[t->caution_count++] = str_copy(t->keep, str_of(caution->text)).p;
        turn_line(t, TT_PART_CAUTION, caution->signal, caution->text);
    }
}

/* Where an answer is called as one of our words is, the word has a colon before it; where it means
 * the same, it needs none. */
static const char *word_id(tt_talk *t, talk_word word)
{
    const char *name = word_name(word);
    const bool same =
        word == WORD_UNSURE || word == WORD_CANNOT || t->turn.kind == TT_TURN_HELP_OR_DANGER;
    for (uint32_t i = 0; i < t->turn.choice_count && !same; i++)
        if (strcmp(t->turn.choices[i].id, name) == 0) return str_printf(t->shown, ":%s", name).p;
    return name;
}

/* Likewise as it is typed: what a choice begins with is the choice. */
static const char *typed_as(tt_talk *t, talk_word word)
{
    const char *typed = OURS(t, word_typed(word));
    const str plain = unicode_plain(t->scratch, str_of(typed));
    for (uint32_t i = 0; i < t->turn.choice_count; i++)
        if (str_eq(plain, unicode_plain(t->scratch, str_of(t->turn.choices[i].text))) &&
            plain.n > 0)
            return str_printf(t->shown, ":%s", typed).p;
    return *word_id(t, word) == ':' ? str_printf(t->shown, ":%s", typed).p : typed;
}

void turn_words(tt_talk *t, unsigned offered)
{
    assert(t->turn.words == NULL);
    if (t->options.kept && (offered & 1u << WORD_STOP) != 0)
        offered |= 1u << WORD_HOLD | 1u << WORD_HAND;
    for (unsigned i = 0; i < WORD_NONE; i++) {
        if ((offered & 1u << i) == 0) continue;
        GROW(t->shown, t->words, t->turn.word_count, t->word_room);
        t->words[t->turn.word_count++] =
            (tt_turn_choice){word_id(t, (talk_word)i), OURS(t, word_meaning((talk_word)i)), NULL,
                             typed_as(t, (talk_word)i)};
    }
    t->turn.words = t->words;
}
