/* What words mean at this turn: exactly a choice or a word of ours; danger, before anything else
 * that is not exact; then an answer to what is asked, answers to other questions, complaints, in
 * any combination. What is unsure is asked back, what served nothing is kept as a note. */
#include <assert.h>
#include <string.h>

#include "base/unicode.h"
#include "listen/listen.h"
#include "session/session.h"
#include "talk/talk_replies.h"

/* ---- danger ---- */

static const char *kept(tt_talk *t, str words)
{
    return str_copy(t->keep, words).p;
}

/* In this sitting the same words were said, and danger was ruled out since. */
static bool was_ruled_out(tt_talk *t, const char *words)
{
    return talk_look(t)->gate.state == TT_GATE_OPEN &&
           str_eq(unicode_plain(t->scratch, str_of(words)),
                  unicode_plain(t->scratch, str_of(t->rechecked)));
}

/* Whatever of it has a page: somebody who is hurt is left out beside what says how. */
static danger_names emergencies_in(tt_talk *t, const dangers *d)
{
    const char **items = ARENA_ARRAY(t->keep, const char *, d->count + 1);
    uint32_t count = 0;
    for (uint32_t i = 0; i < d->count; i++) {
        const danger_heard *h = &d->items[i];
        const bool told = count > 0 && danger_is_unspecific(h->id);
        if ((h->list == DANGER_A || h->emergency != NO_ID) && !told)
            items[count++] = kept(t, h->id);
    }
    return (danger_names){items, count};
}

static bool take_grave(tt_talk *t, const dangers *d, const char *words)
{
    if (d->list != DANGER_A) return false;
    keep_danger(t, "danger", emergencies_in(t, d), words);
    return true;
}

bool take_grave_words(tt_talk *t, const char *words)
{
    const str line = str_trim(unicode_clean(t->scratch, str_of(words)));
    const dangers d = listen_danger(talk_ear(t), t->scratch, line, LISTEN_PROMPT);
    return take_grave(t, &d, kept(t, line));
}

static void ask_danger_for(tt_talk *t, const char *entry, const char *words)
{
    keep_danger(t, "recheck", (danger_names){&entry, *entry != 0}, words);
    talk_news(t, TT_PART_NOTE, "", SAY(t, TEXT_ASKED_FOR_WORDS, words));
    stop_reading(t);
}

/* What may be dangerous: it is kept as what it also is, and the danger question comes with these
 * words in it. False: nothing asks for it. */
static bool ask_again_about_danger(tt_talk *t, const dangers *d, const char *words)
{
    if (d->list != DANGER_B || was_ruled_out(t, words) || talk_look(t)->gate.state == TT_GATE_SHUT)
        return false;
    ask_danger_for(t, kept(t, d->items[0].id), words);
    return true;
}

/* "no, the roof": the reply up to the first pause; then what else was said. */
static const char *reply_before_pause(tt_talk *t, str line, str *rest)
{
    size_t end = 0;
    while (end < line.n && strchr(",;.!:", line.p[end]) == NULL) end++;
    *rest = end < line.n ? str_trim(str_slice(line, end + 1, line.n)) : STR("");
    return rest->n > 0 ? choice_meant(t, str_slice(line, 0, end)) : NULL;
}

/* It stands as it is, and is asked again. */
static void take_unfinished(tt_talk *t, const char *words, const dangers *d)
{
    const bool step = t->turn.kind == TT_TURN_FIX_STEP;
    keep_text(t, "said", "words", words);
    if (!ask_again_about_danger(t, d, words))
        talk_news(t, TT_PART_NOTE, "",
                  SAY(t, step ? TEXT_STEP_NOT_DONE : TEXT_NOT_FINISHED, words));
}

/* False: it is said as anywhere else. */
static bool take_said_at_work(tt_talk *t, str line, const char *words, const dangers *d)
{
    str rest = line;
    const char *reply = talk_asks_back(t, line) ? NULL : reply_before_pause(t, line, &rest);
    const at_work what = d->list == DANGER_B ? AT_WORK_OTHER : said_at_work(t, line);
    if (what == AT_WORK_DOUBTS && !was_ruled_out(t, words))
        ask_danger_for(t, "", words);
    else if (what == AT_WORK_LACKS)
        take_lacking(t);
    else if (said_unfinished(t, reply, line, rest))
        take_unfinished(t, words, d);
    else
        return false;
    return true;
}

static void ask_which_help(tt_talk *t)
{
    t->before_reading = t->doing.kind == ASIDE_READ ? t->before_reading : t->doing;
    t->doing = (aside){.kind = ASIDE_READ, .page = TT_TURN_HELP_OR_DANGER, .question = TT_NONE};
}

/* Answers are numbered by name, options as they are shown. */
static uint32_t option_of_answer(const tt_talk *t, uint32_t question, uint32_t answer)
{
    const struct question *q = &t->book->book->questions[question];
    uint32_t option = 0;
    while (option < q->answer_count && q->shown_order[option] != answer) option++;
    assert(option < q->answer_count);
    return option;
}

/* At the danger question itself whatever names nothing counts as danger. */
static void take_gate_words(tt_talk *t, const char *words)
{
    const uint32_t question = tt_question_find(t->book, t->turn.subject);
    const gate_heard g = listen_gate(talk_ear(t), t->scratch, question, str_of(words));
    tt_reply reply = {.kind = TT_UNSURE};
    if (g.answer != NO_ID)
        reply = (tt_reply){.kind = TT_ANSWER, .option = option_of_answer(t, question, g.answer)};
    else if (g.kind == GATE_SAFE)
        reply = (tt_reply){.kind = TT_NUMBER, .number = g.number};
    const bool named = g.answer != NO_ID || g.kind == GATE_SAFE || g.kind == GATE_UNSURE;
    if (named) answer_turn(t, question, &reply, words);
    if (g.kind == GATE_SAFE) take_parts_beside(t, words);
    if (g.kind == GATE_SAFE || g.kind == GATE_UNSURE) return;
    if (!named || g.danger.list == DANGER_A)
        keep_danger(t, "danger", emergencies_in(t, &g.danger), words);
}

/* ---- the rest ---- */

static void not_understood(tt_talk *t, const char *words)
{
    const bool complains = t->turn.kind == TT_TURN_COMPLAINT || t->turn.kind == TT_TURN_CONFIRM;
    const char *why = *t->why_no_answer != 0             ? t->why_no_answer
                      : t->turn.kind == TT_TURN_FIX_STEP ? SAY(t, TEXT_STEP_NOTED, words)
                      : complains                        ? OURS(t, TEXT_NOT_UNDERSTOOD)
                                                         : OURS(t, TEXT_NONE_OF_THE_ANSWERS);
    keep_text(t, "said", "words", words);
    talk_wrong(t, "not-understood", why);
    if (complains) t->doing = (aside){.kind = talk_has_places(t) ? ASIDE_PLACES : ASIDE_NONE};
}

/* ---- a choice, by its number or its text ---- */

static bool gives_numbers(const tt_talk *t)
{
    return t->turn.takes.reading || t->turn.takes.count;
}

static const char *choice_of_line(tt_talk *t, str line)
{
    const uint32_t number = gives_numbers(t) ? 0 : choice_number(line);
    if (talk_asks_back(t, line)) return NULL;
    return number > 0 && number <= t->turn.choice_count ? t->turn.choices[number - 1].id
                                                        : choice_said(t, line);
}

/* ---- several pieces in one line ---- */

/* Numbers may stand with spaces between them, names with commas. */
static bool parts_end_at(str line, char byte)
{
    bool numbers = true;
    for (size_t i = 0; i < line.n; i++)
        numbers = numbers &&
                  ((line.p[i] >= '0' && line.p[i] <= '9') || line.p[i] == ' ' || line.p[i] == ',');
    return byte == ',' || (numbers && byte == ' ');
}

static const char *piece_typed(tt_talk *t, str part)
{
    const char *id = choice_of_line(t, part);
    return id != NULL ? id : choice_begun(t, part);
}

static bool take_pieces_typed(tt_talk *t, str line)
{
    const char **ids = ARENA_ARRAY(t->scratch, const char *, line.n / 2 + 1);
    uint32_t count = 0;
    if (!t->turn.takes.several) return false;
    for (size_t at = 0, end; at < line.n; at = end + 1) {
        for (end = at; end < line.n && !parts_end_at(line, line.p[end]);) end++;
        const str part = str_trim(str_slice(line, at, end));
        const char *id = part.n > 0 ? piece_typed(t, part) : "";
        if (id == NULL) return false;
        bool twice = *id == 0;
        for (uint32_t i = 0; i < count; i++) twice = twice || strcmp(ids[i], id) == 0;
        if (!twice) ids[count++] = id;
    }
    if (count < 2) return false;
    take_several(t, ids, count);
    return true;
}

/* ---- all of it ---- */

static bool takes_note(tt_turn_kind kind)
{
    return kind == TT_TURN_NOTE || kind == TT_TURN_TO;
}

/* A note that tells of somebody hurt: is it meant for now? */
static void take_note_words(tt_talk *t, const char *words)
{
    const dangers d = listen_danger(talk_ear(t), t->scratch, str_of(words), LISTEN_NOTE);
    take_note(t, words);
    if (d.list != DANGER_A) return;
    t->leaving = t->left;
    t->left = false;
    ask_which_help(t);
}

/* Any of ours with a colon before it; without one only those that are offered beside the note. */
static talk_word word_in_note(tt_talk *t, str line)
{
    const talk_word word = word_of(t, kept(t, line));
    if (word == WORD_NONE || (line.n > 0 && line.p[0] == ':')) return word;
    for (uint32_t i = 0; i < t->turn.word_count; i++)
        if (strcmp(t->turn.words[i].id, word_name(word)) == 0) return word;
    return WORD_NONE;
}

static void take_nothing(tt_talk *t)
{
    const char *on = choice_agreeing(t);
    const bool reading = t->turn.kind >= TT_TURN_KNOWN && t->turn.kind <= TT_TURN_CAUTIONS;
    if (reading && on != NULL)
        take_choice(t, on);
    else
        talk_wrong(t, "nothing-said", OURS(t, TEXT_NOTHING_SAID));
}

const char *exactly_said(tt_talk *t, const char *words)
{
    const str line = str_trim(unicode_clean(t->scratch, str_of(words)));
    const char *id = choice_of_line(t, line);
    const talk_word word = id == NULL ? word_of(t, kept(t, line)) : WORD_NONE;
    return word != WORD_NONE ? word_name(word) : id;
}

/* At every prompt, also where a note is asked for; an answer that reads so is the answer, unless a
 * colon stands before it. */
static const char *language_asked(tt_talk *t, const tt_heard *heard)
{
    if (heard->language != NULL || heard->choice != NULL || heard->words == NULL)
        return heard->language;
    const str line = str_trim(unicode_clean(t->scratch, str_of(heard->words)));
    const bool colon = line.n > 0 && line.p[0] == ':';
    const tongue asked =
        colon || choice_of_line(t, line) == NULL ? tongue_asked(t->scratch, line) : TONGUE_COUNT;
    return asked != TONGUE_COUNT ? tongue_tag(asked) : NULL;
}

bool speaks_otherwise(tt_talk *t, const tt_heard *heard)
{
    const char *language = language_asked(t, heard);
    if (language != NULL) speak_language(t, language);
    return language != NULL;
}

/* "I can't look there" is an answer to a question; a word that is an answer is one unless a colon
 * stands before it. */
static bool take_exact(tt_talk *t, str line)
{
    const uint32_t number = gives_numbers(t) ? 0 : choice_number(line);
    const char *id = choice_of_line(t, line);
    const bool colon = line.n > 0 && line.p[0] == ':';
    if (id != NULL && !colon) {
        const dangers d = listen_danger(talk_ear(t), t->scratch, line, LISTEN_PROMPT);
        const bool grave = number == 0 && d.list == DANGER_A && t->turn.kind != TT_TURN_DANGER;
        take_choice(t, id);
        if (grave)
            ask_again_about_danger(
                t, &(dangers){.list = DANGER_B, .items = d.items, .count = d.count}, kept(t, line));
        return true;
    }
    const talk_word word = word_of(t, kept(t, line));
    if (word == WORD_NONE) return false;
    take_choice(t, word_name(word));
    return true;
}

static bool take_reply_and_more(tt_talk *t, str line)
{
    str rest;
    const char *id = reply_before_pause(t, line, &rest);
    if (id == NULL) return false;
    const char *more = kept(t, rest);
    const bool corrects = t->turn.kind == TT_TURN_CONFIRM && strcmp(id, "none") == 0;
    if (corrects)
        t->doing = (aside){.kind = ASIDE_NONE};
    else
        take_choice(t, id);
    const bool taken = take_parts(t, more);
    if (!taken && corrects)
        not_understood(t, more);
    else if (!taken)
        keep_text(t, "said", "words", more);
    return true;
}

/* "Foam still dry", asked what came of a fix: it did not help. */
static const char *outcome_said(tt_talk *t, str line)
{
    const bool asked = t->turn.kind == TT_TURN_OUTCOME;
    return asked && complaint_said_again(t, TT_NONE, line) != TT_NONE ? "no-change" : NULL;
}

static void take_meaning(tt_talk *t, str line, const dangers *d)
{
    const char *words = kept(t, line), *id = NULL;
    const bool replies = !talk_asks_back(t, line);
    t->why_no_answer = "";
    if (replies && outcome_is_unclear(t, line)) {
        if (!take_said_at_work(t, line, words, d) && !ask_again_about_danger(t, d, words))
            not_understood(t, words);
        return;
    }
    if (replies) id = choice_meant(t, line);
    if (replies && id == NULL) id = outcome_said(t, line);
    if (id == NULL && take_said_at_work(t, line, words, d)) return;
    if (id == NULL && replies && !turn_asks(t)) id = choice_begun(t, line);
    if (id == NULL && t->turn.kind == TT_TURN_WHICH) id = piece_by_own_words(t, line);
    const bool taken = id != NULL || take_pieces_typed(t, line) ||
                       (replies && take_reply_and_more(t, line)) || take_which_meant(t, words) ||
                       take_parts(t, words);
    if (id != NULL) take_choice(t, id);
    const bool asks_for_danger = ask_again_about_danger(t, d, words);
    if (!taken && !asks_for_danger) not_understood(t, words);
}

/* What decides whether a question about danger applies is asked like any other. */
static bool asks_at_gate(tt_talk *t)
{
    const uint32_t question = t->turn.kind == TT_TURN_DANGER ? talk_asked(t) : TT_NONE;
    return question != TT_NONE && talk_is_gate(t, question);
}

/* "no", typed while the question about danger stands on the next page, rules nothing out. Danger,
 * and words of ours, are heard. */
static bool is_said_unread(tt_talk *t, str line)
{
    if (t->turn.kind != TT_TURN_DANGER) return false;
    const uint32_t asked = talk_asked(t);
    const char *id = choice_of_line(t, line);
    if (id == NULL && word_of(t, kept(t, line)) != WORD_NONE) return false;
    if (id == NULL || asked == TT_NONE)
        return listen_danger(talk_ear(t), t->scratch, line, LISTEN_PROMPT).list == DANGER_NONE;
    const tt_question q = talk_question(t, asked);
    const uint32_t option = option_named(t->book, asked, id);
    return option < 64 && (q.safe_options >> option & 1) != 0;
}

void take_words_at_end(tt_talk *t, const char *words)
{
    const str line = str_trim(unicode_clean(t->scratch, str_of(words)));
    const dangers d = listen_danger(talk_ear(t), t->scratch, line, LISTEN_PROMPT);
    t->left = false;
    t->doing = (aside){.kind = ASIDE_NONE};
    if (word_of(t, kept(t, line)) == WORD_DANGER)
        do_word(t, WORD_DANGER);
    else if (take_grave(t, &d, kept(t, line)))
        return;
    else if (d.list == DANGER_B)
        ask_danger_for(t, kept(t, d.items[0].id), kept(t, line));
    else if (d.list == DANGER_HELP)
        ask_which_help(t);
    else
        t->left = true;
}

void take_words(tt_talk *t, const char *words, bool unread)
{
    const str line = str_trim(unicode_clean(t->scratch, str_of(words)));
    if (unread && line.n > 0 && is_said_unread(t, line)) {
        talk_wrong(t, "unread", OURS(t, TEXT_READ_FIRST));
        return;
    }
    if (takes_note(t->turn.kind)) {
        const talk_word word = word_in_note(t, line);
        if (word != WORD_NONE)
            do_word(t, word);
        else
            take_note_words(t, kept(t, line));
        return;
    }
    if (line.n == 0) {
        take_nothing(t);
        return;
    }
    if (take_exact(t, line)) return;
    if (asks_at_gate(t)) {
        take_gate_words(t, kept(t, line));
        return;
    }
    const dangers d = listen_danger(talk_ear(t), t->scratch, line, LISTEN_PROMPT);
    if (take_grave(t, &d, kept(t, line))) return;
    if (d.list == DANGER_HELP)
        ask_which_help(t);
    else
        take_meaning(t, line, &d);
}

/* ---- several answers in one message ---- */

static bool reply_given(const tt_given *g, const tt_book *book, uint32_t question, tt_reply *reply)
{
    const uint32_t option = option_named(book, question, g->choice);
    *reply = (tt_reply){.kind = TT_NUMBER, .number = g->number, .unit = g->unit};
    for (uint32_t i = 0; i < g->not_count; i++) {
        const uint32_t left_out = option_named(book, question, g->not_these[i]);
        if (left_out >= 64) return false;
        reply->kind = TT_NOT;
        reply->not_options |= UINT64_C(1) << left_out;
    }
    if (g->choice == NULL) return true;
    if (option != TT_NONE)
        *reply = (tt_reply){.kind = TT_ANSWER, .option = option};
    else if (strcmp(g->choice, "unsure") == 0)
        reply->kind = TT_UNSURE;
    else if (strcmp(g->choice, "cannot") == 0)
        reply->kind = TT_CANNOT;
    else
        return false;
    return true;
}

static bool fits(tt_talk *t, uint32_t question, const tt_given *g, tt_reply *reply)
{
    if (!reply_given(g, t->book, question, reply)) return false;
    return talk_is_ok(t, tt_reply_fits(t->c, question, reply));
}

/* All of them, or none: whoever sends several must not guess which were taken. */
void take_given(tt_talk *t, const tt_given *given, uint32_t count)
{
    tt_reply *replies = ARENA_ARRAY(t->scratch, tt_reply, count);
    for (uint32_t i = 0; i < count; i++) {
        const char *name = given[i].question != NULL ? given[i].question : "";
        const uint32_t question = tt_question_find(t->book, name);
        if (question != TT_NONE && fits(t, question, &given[i], &replies[i])) continue;
        talk_wrong(t, question != TT_NONE ? "does-not-fit" : "no-such-question",
                   SAY(t, TEXT_GIVEN_WRONG, kept(t, unicode_clean(t->scratch, str_of(name)))));
        return;
    }
    for (uint32_t i = 0; i < count; i++)
        take_answer(t, tt_question_find(t->book, given[i].question), &replies[i], "");
}
