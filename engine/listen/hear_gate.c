/* The danger question. Only a plain no, "all fine" said of the whole, or the safe answer's own
 * words open the gate; everything else counts as danger. "Ok" and "fine" alone may be "I have read
 * it", "nobody is hurt" leaves the hose that sprays. */
#include <assert.h>
#include <math.h>

#include "base/unicode.h"
#include "listen/gate_words.h"
#include "listen/listener.h"
#include "measure/amount.h"

#define NONE UINT32_MAX

typedef struct gate {
    const listener *l;
    arena *keep;
    const question *q;
    said said;
    phrase_items items;  /* as manner_words.h reads them */
    phrase_items limits; /* as gate_words.h does */
    scene scene;         /* as the ear for danger does */
    gate_heard out;
} gate;

/* ---- an answer of the question itself ---- */

static bool is_all_of(const gate *g, str text)
{
    str plain = unicode_plain(g->keep, text), spoken = unicode_plain(g->keep, g->said.text);
    return plain.n > 0 && str_eq(plain, spoken);
}

static bool is_named(const gate *g, const answer_option *a)
{
    if (is_all_of(g, a->id.name)) return true;
    for (uint32_t i = 0; i < a->text.count; i++)
        if (is_all_of(g, a->text.items[i].text)) return true;
    for (uint32_t i = 0; i < a->heard.count; i++)
        if (a->heard.items[i].pattern == NULL && is_all_of(g, a->heard.items[i].plain)) return true;
    return false;
}

/* "1", "1)", "#2": as shown. */
static uint32_t answer_by_number(const gate *g)
{
    double number;
    if (g->said.count != 1 || !str_to_double(g->said.words[0].plain, &number) || number < 1 ||
        number > g->q->answer_count)
        return NO_ID;
    return number == floor(number) ? g->q->shown_order[(uint32_t)number - 1] : NO_ID;
}

static bool begins_with(const gate *g, uint64_t manner)
{
    return g->items.count > 0 && (g->items.items[0].tags & manner) != 0;
}

static bool says_half_a_no(const gate *g)
{
    for (uint32_t i = 0; i < g->limits.count; i++)
        if ((g->limits.items[i].tags & GATE_HALF_NO) != 0) return true;
    return false;
}

/* Yes and no are answers where the question is a yes or no. */
static uint32_t yes_or_no(const gate *g)
{
    if (!g->q->yes_no || g->items.count != 1 || says_half_a_no(g)) return NO_ID;
    const char *wanted = begins_with(g, MANNER_YES) ? "yes" : begins_with(g, MANNER_NO) ? "no" : "";
    for (uint32_t i = 0; i < g->q->answer_count; i++)
        if (str_is(g->q->answers[i].id.name, wanted)) return i;
    return NO_ID;
}

static uint32_t named_answer(const gate *g)
{
    for (uint32_t i = 0; i < g->q->answer_count; i++)
        if (is_named(g, &g->q->answers[i])) return i;
    const uint32_t numbered = answer_by_number(g);
    return numbered != NO_ID ? numbered : yes_or_no(g);
}

/* ---- which of its unsafe answers other words are nearest to ---- */

static bool says_something(const gate *g, str word)
{
    return word.n > 2 && (manner_of(&g->l->manner, g->keep, word) &
                          (MANNER_EMPTY | MANNER_JOINS | MANNER_DENIES)) == 0;
}

static uint32_t common_words(const gate *g, str text)
{
    uint32_t count = 0, end;
    str plain = unicode_plain(g->keep, text), word;
    for (size_t at = 0; plain_next(plain, &at, &word);)
        count +=
            says_something(g, word) && phrase_place(g->l, g->keep, &g->said, word, &end) != NONE;
    return count;
}

static uint32_t nearest_unsafe(const gate *g)
{
    uint32_t best = NO_ID, most = 0;
    for (uint32_t i = 0; i < g->q->answer_count; i++) {
        const answer_option *a = &g->q->answers[i];
        if (answer_is_safe(g->q, i)) continue;
        uint32_t common = 0;
        for (uint32_t k = 0; k < a->text.count; k++)
            common += common_words(g, a->text.items[k].text);
        for (uint32_t k = 0; k < a->heard.count; k++)
            common += common_words(g, a->heard.items[k].plain);
        if (common == most) best = NO_ID;
        if (common <= most) continue;
        most = common;
        best = i;
    }
    return best;
}

/* ---- in other words ---- */

static bool any_item(const gate *g, uint64_t manner)
{
    for (uint32_t i = 0; i < g->items.count; i++)
        if ((g->items.items[i].tags & manner) != 0) return true;
    return false;
}

/* "looks good" is of one thing. */
static bool is_beside(const gate *g, const phrase_item *i)
{
    for (uint32_t k = 0; k < g->limits.count; k++) {
        const phrase_item *l = &g->limits.items[k];
        if ((l->tags & GATE_BESIDE) != 0 && l->first <= i->first && i->end <= l->end) return true;
    }
    return false;
}

/* Of everything, of all here: "all good", "it is fine"; "fine" alone does not say of what. */
static bool is_all_fine(const gate *g, const phrase_item *i)
{
    return (i->tags & MANNER_FINE) != 0 && i->end - i->first > 1 && !is_beside(g, i);
}

/* "hurt" of "nobody is hurt": a danger that was denied. */
static bool is_denied_danger(const gate *g, uint32_t word)
{
    for (uint32_t i = 0; i < g->scene.count; i++)
        if (g->scene.items[i].first <= word && word < g->scene.items[i].end)
            return danger_alone(g->scene.items[i].tags) && scene_denied(&g->scene, i);
    return false;
}

/* "no fire" rules out the fire and nothing else. */
static bool denies_one_danger(const gate *g, uint32_t item)
{
    for (uint32_t i = item + 1; i < g->items.count; i++) {
        const phrase_item *next = &g->items.items[i];
        const said_word *w = &g->said.words[next->first];
        if (w->pause || w->stop) return false;
        if (is_denied_danger(g, next->first)) return true;
        if ((next->tags & MANNER_EMPTY) == 0) return false;
    }
    return false;
}

static bool is_plain_no(const gate *g, uint32_t item)
{
    assert(item < g->items.count);
    const phrase_item *i = &g->items.items[item];
    return (i->tags & MANNER_NO) != 0 && !is_beside(g, i) && !denies_one_danger(g, item);
}

static bool says_it(const gate *g, uint32_t item)
{
    return is_plain_no(g, item) || is_all_fine(g, &g->items.items[item]);
}

static bool is_harmless(const gate *g, const phrase_item *i)
{
    const uint64_t harmless = MANNER_EMPTY | MANNER_JOINS | MANNER_DENIES | MANNER_NO | MANNER_FINE;
    return (i->tags & harmless) != 0 || is_denied_danger(g, i->first);
}

/* "no, todo bien", "no everybody is fine": the no answers, and then all is said to be fine. */
static bool answers_before(const gate *g, uint32_t item)
{
    assert(item > 0 && item < g->items.count);
    const phrase_item *fine = &g->items.items[item], *before = &g->items.items[item - 1];
    return item == 1 && (before->tags & MANNER_NO) != 0 &&
           (fine->end - fine->first > 1 || g->said.words[fine->first].pause);
}

/* "not ok", "it is not fine" */
static bool fine_is_denied(const gate *g)
{
    for (uint32_t i = 1; i < g->items.count; i++)
        if ((g->items.items[i].tags & MANNER_FINE) != 0 &&
            (g->items.items[i - 1].tags & MANNER_DENIES) != 0 && !answers_before(g, i))
            return true;
    return false;
}

/* Nothing but a no or "all fine", and what is denied. */
static bool all_is_well(const gate *g)
{
    bool said_so = false;
    if (fine_is_denied(g)) return false;
    for (uint32_t i = 0; i < g->items.count; i++) {
        if (!is_harmless(g, &g->items.items[i])) return false;
        said_so = said_so || says_it(g, i);
    }
    return said_so;
}

static bool is_read(const phrase_items *items, uint32_t word)
{
    for (uint32_t i = 0; i < items->count; i++)
        if (items->items[i].found && items->items[i].first <= word && word < items->items[i].end)
            return true;
    return false;
}

/* What comes after the no is about things, in words that the book knows. A person, a body,
 * something that happened, a word that nobody knows: any of them may be a danger. */
static bool only_things_follow(const gate *g)
{
    const uint64_t things = IS_NEGATES | IS_OR | IS_AND | IS_AUX | IS_INTO | IS_ONTO | IS_BY |
                            IS_MACHINE | IS_ROOM | IS_HOSE | IS_NOZZLE | IS_THING | IS_IT |
                            IS_CHEMICAL;
    const phrase_items spoken = {g->scene.items, g->scene.count};
    for (uint32_t i = 0; i < g->scene.count; i++)
        if (g->scene.items[i].first > 0 && (g->scene.items[i].tags & ~things) != 0) return false;
    for (uint32_t w = 1; w < g->said.count; w++)
        if (!is_read(&g->items, w) && !is_read(&spoken, w) &&
            word_set_form(&g->l->vocabulary, g->keep, g->said.words[w].plain) == NULL)
            return false;
    return true;
}

/* "No, the foam is dry", "no it is the foam": the no answers, something else comes after it. Not
 * "no foam". */
static bool no_and_more(const gate *g)
{
    if (g->items.count < 2 || !says_it(g, 0)) return false;
    if (fine_is_denied(g) || !only_things_follow(g)) return false;
    const phrase_item *next = &g->items.items[1];
    const said_word *w = &g->said.words[next->first];
    for (uint32_t i = 1; i < g->scene.count; i++)
        if ((g->scene.items[i].tags & IS_BUT) != 0 && (g->scene.items[i].tags & IS_AUX) == 0)
            return false;
    if (w->pause || w->stop) return true;
    return str_is(w->plain, "the") || str_is(w->plain, "it") || str_is(w->plain, "its") ||
           str_is(w->plain, "el") || str_is(w->plain, "la");
}

/* "yes all fine": the whole of what is fine was named. */
static bool yes_all_fine(const gate *g)
{
    return begins_with(g, MANNER_YES) && g->items.count == 2 && is_all_fine(g, &g->items.items[1]);
}

/* "no, yes", "no there is"; but not "no it is the foam". */
static bool says_yes_too(const gate *g)
{
    for (uint32_t i = 1; i < g->items.count; i++) {
        if ((g->items.items[i].tags & MANNER_YES) == 0) continue;
        const str word = g->said.words[g->items.items[i].first].plain;
        const bool goes_on = i + 1 < g->items.count;
        if (!goes_on || !(str_is(word, "it") || str_is(word, "its") || str_is(word, "there")))
            return true;
    }
    return false;
}

/* "no?", "1?": asked back, not answered. */
static bool asks_back(const gate *g)
{
    return str_find_byte(g->said.text, '?') != SIZE_MAX;
}

static gate_kind kind_of_words(const gate *g)
{
    if (any_item(g, MANNER_UNSURE | MANNER_DONT_KNOW | MANNER_CANNOT)) return GATE_UNSURE;
    if (g->said.cut) return GATE_NOTHING;
    if (any_item(g, MANNER_HEDGES) || says_half_a_no(g) || asks_back(g)) return GATE_NOTHING;
    if (yes_all_fine(g)) return GATE_SAFE;
    if (begins_with(g, MANNER_YES)) return GATE_DANGER;
    if (says_yes_too(g)) return GATE_NOTHING;
    return all_is_well(g) || no_and_more(g) ? GATE_SAFE : GATE_NOTHING;
}

/* "I can't see!" may be of eyes that were hit, and rinsing can't wait; a page too many harms
 * nobody. */
static bool may_be_blind(const gate *g)
{
    bool blind = false;
    for (uint32_t i = 0; i < g->limits.count; i++) {
        if ((g->limits.items[i].tags & (GATE_BLIND | GATE_WHO)) == 0) return false;
        blind = blind || (g->limits.items[i].tags & GATE_BLIND) != 0;
    }
    return blind;
}

static void add_blind(gate *g)
{
    if (g->out.danger.list == DANGER_A || !may_be_blind(g)) return;
    danger_heard *eyes = ARENA_NEW(g->keep, danger_heard);
    *eyes = (danger_heard){.list = DANGER_A,
                           .id = STR("eyes"),
                           .emergency = book_emergency(g->l->book, STR("eyes")),
                           .question = NO_ID,
                           .answer = NO_ID,
                           .words = g->said.text,
                           .to = (uint32_t)g->said.text.n};
    g->out.danger = (dangers){.list = DANGER_A, .items = eyes, .count = 1};
}

static void hear_choice(gate *g)
{
    add_blind(g);
    g->out.answer = named_answer(g);
    if (g->out.answer != NO_ID && answer_is_safe(g->q, g->out.answer) && asks_back(g))
        g->out.answer = NO_ID;
    if (g->out.answer != NO_ID) {
        const bool safe = answer_is_safe(g->q, g->out.answer);
        if (safe) g->out.danger = (dangers){.list = DANGER_NONE};
        g->out.kind = safe ? GATE_SAFE : GATE_DANGER;
        return;
    }
    const bool heard = g->out.danger.list == DANGER_A || g->out.danger.list == DANGER_B;
    g->out.kind = heard ? GATE_DANGER : g->q->yes_no ? GATE_NOTHING : kind_of_words(g);
    if (g->out.kind == GATE_DANGER) g->out.answer = nearest_unsafe(g);
    assert(g->out.answer == NO_ID || !answer_is_safe(g->q, g->out.answer));
}

static void hear_reading(gate *g)
{
    amount as;
    str bad;
    assert(g->q->kind != QUESTION_CHOICE);
    unit shown = book_shown_unit(g->l->book, &g->q->in);
    amount_found found = amount_read(g->keep, g->said.text, &shown, &g->out.number, &as, &bad);
    const bool danger = g->out.danger.list == DANGER_A || g->out.danger.list == DANGER_B;
    if (found != AMOUNT_FOUND && found != AMOUNT_NO_UNIT) {
        g->out.kind = danger ? GATE_DANGER : GATE_NOTHING;
        return;
    }
    g->out.number = unit_convert(&shown, &g->q->in, g->out.number);
    g->out.kind = !danger && reading_is_safe(g->q, g->out.number, fabs(g->out.number))
                      ? GATE_SAFE
                      : GATE_DANGER;
}

/* The safe answer to a choice in other words is the first that is safe. */
static void name_safe_answer(gate *g)
{
    for (uint32_t i = 0;
         g->out.kind == GATE_SAFE && g->out.answer == NO_ID && i < g->q->answer_count; i++)
        if (answer_is_safe(g->q, i)) g->out.answer = i;
}

gate_heard listen_gate(const listener *l, arena *keep, uint32_t question, str utterance)
{
    assert(question < l->book->question_count && l->book->questions[question].gate);
    gate g = {.l = l,
              .keep = keep,
              .q = &l->book->questions[question],
              .said = said_read(keep, utterance)};
    g.out = (gate_heard){.kind = GATE_NOTHING,
                         .answer = NO_ID,
                         .danger = listen_danger(l, keep, utterance, LISTEN_PROMPT)};
    if (g.said.count == 0) return g.out;
    g.items = phrasebook_read(&l->manner, keep, keep, &g.said);
    g.limits = phrasebook_read(&l->gate, keep, keep, &g.said);
    g.scene = scene_read(keep, keep, &l->danger, &l->vocabulary, &g.said);
    if (g.q->kind == QUESTION_CHOICE) {
        hear_choice(&g);
        name_safe_answer(&g);
    } else {
        hear_reading(&g);
    }
    assert(g.out.kind != GATE_SAFE || g.out.danger.list == DANGER_NONE ||
           g.out.danger.list == DANGER_HELP);
    return g.out;
}
