/* What words mean at this turn: exactly a choice or a word of ours; danger, before anything else
 * that is not exact; then an answer to what is asked, answers to other questions, complaints, in
 * any combination. What is unsure is asked back, what served nothing is kept as a note. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/unicode.h"
#include "listen/listen.h"
#include "session/session.h"
#include "talk/talk.h"

static const listener *ear(const tt_talk *t)
{
    return t->book->ear;
}

/* ---- exactly a choice ---- */

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* "2", "2)", "#2", "2." are the second. */
static uint32_t number_typed(str line)
{
    size_t at = line.n > 0 && line.p[0] == '#' ? 1 : 0, digits = 0;
    uint32_t number = 0;
    for (; at < line.n && is_digit(line.p[at]) && digits < 4; at++, digits++)
        number = number * 10 + (uint32_t)(line.p[at] - '0');
    if (at < line.n && (line.p[at] == ')' || line.p[at] == '.')) at++;
    return digits > 0 && at == line.n ? number : 0;
}

static const char *choice_said(tt_talk *t, str line)
{
    const str plain = unicode_plain(t->scratch, line);
    for (uint32_t i = 0; i < t->turn.choice_count; i++) {
        const tt_turn_choice *c = &t->turn.choices[i];
        if (str_eq(plain, unicode_plain(t->scratch, str_of(c->text))) || str_is(line, c->id))
            return c->id;
    }
    return NULL;
}

/* The beginning of one choice and of no other. */
static const char *choice_begun(tt_talk *t, str line)
{
    const str plain = unicode_plain(t->scratch, line);
    const char *found = NULL;
    for (uint32_t i = 0; i < t->turn.choice_count && plain.n > 0; i++) {
        const str text = unicode_plain(t->scratch, str_of(t->turn.choices[i].text));
        if (text.n < plain.n || !str_eq(str_slice(text, 0, plain.n), plain)) continue;
        if (found != NULL) return NULL;
        found = t->turn.choices[i].id;
    }
    return found;
}

/* ---- yes, no, worse: what they mean depends on what was asked ---- */

/* X(kind of turn, yes, no) */
#define PLAIN_REPLIES(X) \
    X(TT_TURN_REVIEW, "right", "change") \
    X(TT_TURN_BEFORE_FIX, "begin", "could-not") \
    X(TT_TURN_FIX_STEP, "done", "could-not") \
    X(TT_TURN_OUTCOME, "gone", "no-change") \
    X(TT_TURN_PUT_BACK, "put-back", "") \
    X(TT_TURN_CAUSE, "yes", "no") \
    X(TT_TURN_CALL, "wait", "") \
    X(TT_TURN_CHANGED, "go-on", "stop") \
    X(TT_TURN_KNOWN, "go-on", "") \
    X(TT_TURN_WHY, "go-on", "") \
    X(TT_TURN_WORDS, "go-on", "") \
    X(TT_TURN_CAUTIONS, "go-on", "")
#define PLAIN_ENTRY(kind, yes, no) [kind] = {yes, no},
static const struct {
    const char *yes, *no;
} plain_replies[TT_TURN_KINDS] = {PLAIN_REPLIES(PLAIN_ENTRY)};
#undef PLAIN_ENTRY

static bool is_one_of(str plain, const char *words)
{
    for (const char *at = words; *at != 0;) {
        const char *end = strchr(at, '|');
        const size_t length = end != NULL ? (size_t)(end - at) : strlen(at);
        if (plain.n == length && memcmp(plain.p, at, length) == 0) return true;
        at += length + (end != NULL);
    }
    return false;
}

static const char yes_words[] =
    "y|yes|yeah|yep|yup|sure|right|correct|it is|it does|si|claro|correcto|asi es";
/* Only where something is to be done: "done" does not say that it helped. */
static const char done_words[] = "ok|okay|done|ready|finished|did it|i did|i did "
                                 "it|listo|hecho|ya|ya esta|bueno|vale|de acuerdo";
/* Only where something is offered: at a step to be done they would say that it is not done yet. */
static const char begin_words[] = "go|go on|begin|start";
static const char gone_words[] =
    "gone|fixed|it works|works|works now|it works now|it is gone|its gone|all good|good now|"
    "funciona|ya funciona|se arreglo|ya se arreglo|se quito|ya no hay";
static const char no_words[] = "n|no|nope|not|nothing|same|the same|no difference|no change|still "
                               "the same|still there|not yet|"
                               "igual|lo mismo|sigue igual|nada|todavia no";
static const char worse_words[] = "worse|it is worse|its worse|it is worse now|its worse now|got "
                                  "worse|it got worse|now it is worse|much worse|"
                                  "peor|esta peor|se puso peor|quedo peor";
static const char better_words[] =
    "better|a bit better|a little better|little better|some better|mejor|un poco mejor|algo mejor";
static const char cannot_words[] =
    "i can not|i could not|could not|couldnt|i couldnt|no pude|no puedo|not allowed|i must not";

static const char *offered(tt_talk *t, const char *id)
{
    for (uint32_t i = 0; i < t->turn.choice_count; i++)
        if (strcmp(t->turn.choices[i].id, id) == 0) return t->turn.choices[i].id;
    return NULL;
}

static const char *plain_reply(tt_talk *t, str line)
{
    const str plain = unicode_plain(t->scratch, line);
    const char *yes = plain_replies[t->turn.kind].yes, *no = plain_replies[t->turn.kind].no;
    if (t->turn.kind == TT_TURN_CONFIRM) { /* whose first choice is named by what it is about */
        yes = t->turn.choices[0].id;
        no = "none";
    }
    if (is_one_of(plain, worse_words)) return offered(t, "worse");
    if (is_one_of(plain, better_words)) return offered(t, "better");
    if (is_one_of(plain, cannot_words)) return offered(t, "could-not");
    const tt_turn_kind kind = t->turn.kind;
    const bool outcome = kind == TT_TURN_OUTCOME,
               to_do = kind == TT_TURN_FIX_STEP || kind == TT_TURN_PUT_BACK;
    const bool begins = !outcome && !to_do && is_one_of(plain, begin_words);
    const bool affirms = is_one_of(plain, yes_words) ||
                         is_one_of(plain, outcome ? gone_words : done_words) || begins;
    if (yes != NULL && affirms) return offered(t, yes);
    return no != NULL && is_one_of(plain, no_words) ? offered(t, no) : NULL;
}

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

static bool take_grave(tt_talk *t, const dangers *d, const char *words)
{
    if (d->list != DANGER_A) return false;
    keep_danger(t, "danger", kept(t, d->items[0].id), words);
    return true;
}

bool take_grave_words(tt_talk *t, const char *words)
{
    const str line = str_trim(unicode_clean(t->scratch, str_of(words)));
    const dangers d = listen_danger(ear(t), t->scratch, line, LISTEN_PROMPT);
    return take_grave(t, &d, kept(t, line));
}

/* What may be dangerous: it is kept as what it also is, and the danger question comes with these
 * words in it. False: nothing asks for it. */
static bool ask_again_about_danger(tt_talk *t, const dangers *d, const char *words)
{
    if (d->list != DANGER_B || was_ruled_out(t, words) || talk_look(t)->gate.state == TT_GATE_SHUT)
        return false;
    keep_danger(t, "recheck", kept(t, d->items[0].id), words);
    talk_news(t, TT_PART_NOTE, "", SAY(t, TEXT_ASKED_FOR_WORDS, words));
    stop_reading(t);
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
    const gate_heard g = listen_gate(ear(t), t->scratch, question, str_of(words));
    tt_reply reply = {.kind = TT_UNSURE};
    if (g.answer != NO_ID)
        reply = (tt_reply){.kind = TT_ANSWER, .option = option_of_answer(t, question, g.answer)};
    else if (g.kind == GATE_SAFE)
        reply = (tt_reply){.kind = TT_NUMBER, .number = g.number};
    const bool named = g.answer != NO_ID || g.kind == GATE_SAFE || g.kind == GATE_UNSURE;
    if (named) answer_turn(t, &reply, words);
    if (g.kind == GATE_SAFE || g.kind == GATE_UNSURE) return;
    if (!named || g.danger.list == DANGER_A)
        keep_danger(t, "danger", g.danger.count > 0 ? kept(t, g.danger.items[0].id) : "", words);
}

/* ---- what is wrong ---- */

/* "done" and "same" answer what was asked; where they don't, they are no complaint either. */
static bool is_plain(tt_talk *t, const char *words)
{
    const str plain = unicode_plain(t->scratch, str_of(words));
    return is_one_of(plain, yes_words) || is_one_of(plain, done_words) ||
           is_one_of(plain, gone_words) || is_one_of(plain, no_words);
}

static bool take_complaints(tt_talk *t, const char *words)
{
    enum { OFFERED = 4 };
    if (is_plain(t, words)) return false;
    tt_complaint *heard = NULL;
    uint32_t count = 0;
    talk_check(t, tt_complaints_heard(t->book, words, &heard, &count));
    if (count > OFFERED) count = OFFERED;
    uint32_t *all = arena_try(t->keep, (count + 1) * sizeof *all);
    for (uint32_t i = 0; all != NULL && i < count; i++) all[i] = complaint_named(t, heard[i].name);
    free(heard);
    if (all == NULL) arena_leave(t->keep);
    if (count == 0) return false;
    t->doing = (aside){
        .kind = ASIDE_CONFIRM, .heard = all, .heard_count = count, .said = kept(t, str_of(words))};
    keep_text(t, "said", "words", words); /* whoever goes on must have them, though nobody confirms */
    return true;
}

/* ---- answers ---- */

static bool asks(tt_turn_kind kind)
{
    return kind == TT_TURN_QUESTION || kind == TT_TURN_EARLY || kind == TT_TURN_LOOK_AGAIN ||
           kind == TT_TURN_DANGER;
}

static bool take_reading_or_answer(tt_talk *t, const char *words)
{
    const uint32_t question = talk_asked(t);
    tt_reply reply;
    const char *why = "";
    if (!asks(t->turn.kind) || question == TT_NONE) return false;
    if (tt_reply_read(t->c, question, words, &reply, &why) == TT_OK) {
        if (*why != 0) talk_news(t, TT_PART_NOTE, "", why);
        answer_turn(t, &reply, words);
        return true;
    }
    t->why_no_answer = str_copy(t->keep, str_of(why)).p;
    return false;
}

static void not_understood(tt_talk *t, const char *words)
{
    const char *why = *t->why_no_answer != 0 ? t->why_no_answer
                      : t->turn.kind == TT_TURN_COMPLAINT || t->turn.kind == TT_TURN_CONFIRM
                          ? OURS(TEXT_NOT_UNDERSTOOD)
                          : OURS(TEXT_NONE_OF_THE_ANSWERS);
    keep_text(t, "said", "words", words);
    talk_wrong(t, "not-understood", why);
    if (t->doing.kind == ASIDE_CONFIRM) t->doing = (aside){.kind = ASIDE_NONE};
}

/* ---- several pieces in one line ---- */

/* Numbers may stand with spaces between them, names with commas. */
static bool parts_end_at(str line, char byte)
{
    bool numbers = true;
    for (size_t i = 0; i < line.n; i++)
        numbers = numbers && (is_digit(line.p[i]) || line.p[i] == ' ' || line.p[i] == ',');
    return byte == ',' || (numbers && byte == ' ');
}

static const char *piece_typed(tt_talk *t, str part)
{
    const uint32_t number = number_typed(part);
    if (number > 0) return number <= t->turn.choice_count ? t->turn.choices[number - 1].id : NULL;
    const char *id = choice_said(t, part);
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
    const dangers d = listen_danger(ear(t), t->scratch, str_of(words), LISTEN_NOTE);
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
    const char *on = plain_replies[t->turn.kind].yes;
    const bool reading = t->turn.kind >= TT_TURN_KNOWN && t->turn.kind <= TT_TURN_CAUTIONS;
    if (reading && on != NULL)
        take_choice(t, on);
    else
        talk_wrong(t, "nothing-said", OURS(TEXT_NOTHING_SAID));
}

static bool gives_numbers(const tt_talk *t)
{
    return t->turn.takes.reading || t->turn.takes.count;
}

static const char *choice_of_line(tt_talk *t, str line)
{
    const uint32_t number = gives_numbers(t) ? 0 : number_typed(line);
    return number > 0 && number <= t->turn.choice_count ? t->turn.choices[number - 1].id
                                                        : choice_said(t, line);
}

const char *exactly_said(tt_talk *t, const char *words)
{
    const str line = str_trim(unicode_clean(t->scratch, str_of(words)));
    const char *id = choice_of_line(t, line);
    const talk_word word = id == NULL ? word_of(t, kept(t, line)) : WORD_NONE;
    return word != WORD_NONE ? word_name(word) : id;
}

/* "I can't look there" is an answer to a question; a word that is an answer is one unless a colon
 * stands before it. */
static bool take_exact(tt_talk *t, str line)
{
    const uint32_t number = gives_numbers(t) ? 0 : number_typed(line);
    const char *id = choice_of_line(t, line);
    const bool colon = line.n > 0 && line.p[0] == ':';
    if (id != NULL && !colon) {
        const dangers d = listen_danger(ear(t), t->scratch, line, LISTEN_PROMPT);
        const bool grave = number == 0 && d.list == DANGER_A && t->turn.kind != TT_TURN_DANGER;
        take_choice(t, id);
        if (grave) ask_again_about_danger(t, &(dangers){DANGER_B, d.items, d.count}, kept(t, line));
        return true;
    }
    const talk_word word = word_of(t, kept(t, line));
    if (word == WORD_NONE) return false;
    take_choice(t, word_name(word));
    return true;
}

static void take_meaning(tt_talk *t, str line, const dangers *d)
{
    const char *words = kept(t, line), *id = plain_reply(t, line);
    if (id == NULL && !asks(t->turn.kind)) id = choice_begun(t, line);
    t->why_no_answer = "";
    const bool taken = id != NULL || take_pieces_typed(t, line) ||
                       take_reading_or_answer(t, words) || take_complaints(t, words);
    if (id != NULL) take_choice(t, id);
    const bool asks_for_danger = ask_again_about_danger(t, d, words);
    if (!taken && !asks_for_danger) not_understood(t, words);
}

/* What decides whether a question about danger applies is asked like any other. */
static bool asks_at_gate(tt_talk *t)
{
    const uint32_t question = t->turn.kind == TT_TURN_DANGER ? talk_asked(t) : TT_NONE;
    return question != TT_NONE && talk_question(t, question).gate;
}

void take_words(tt_talk *t, const char *words)
{
    const str line = str_trim(unicode_clean(t->scratch, str_of(words)));
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
    const dangers d = listen_danger(ear(t), t->scratch, line, LISTEN_PROMPT);
    if (take_grave(t, &d, kept(t, line))) return;
    if (d.list == DANGER_HELP)
        ask_which_help(t);
    else
        take_meaning(t, line, &d);
}

/* ---- several answers in one message ---- */

static bool reply_given(const tt_given *g, const tt_question *q, tt_reply *reply)
{
    const uint32_t option = option_named(q, g->choice);
    *reply = (tt_reply){.kind = TT_NUMBER, .number = g->number, .unit = g->unit};
    for (uint32_t i = 0; i < g->not_count; i++) {
        const uint32_t left_out = option_named(q, g->not_these[i]);
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
    const tt_question q = talk_question(t, question);
    if (!reply_given(g, &q, reply)) return false;
    const tt_status status = tt_reply_fits(t->c, question, reply);
    talk_check(t, status);
    return status == TT_OK;
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
