/* Looks at the same thing: each is evidence, the last is what counts as known. */
#include <assert.h>

#include "session/session.h"

static bool rests_on(const book *b, uint32_t quantity, uint32_t question)
{
    const ids *beneath = &b->questions[quantity].beneath;
    for (uint32_t i = 0; i < beneath->count; i++)
        if (beneath->items[i] == question) return true;
    return false;
}

static void forget(tt_case *c, uint32_t question, uint32_t who)
{
    c->now.before[question] = (looks){NULL, 0};
    c->now.last[question] = (sighting){.person = who};
    c->now.looked[question] = 0;
    c->now.saw_before[question] = NULL;
}

/* What is reckoned from it is as new as it is. */
static void forget_with_quantities(tt_case *c, uint32_t question, uint32_t who)
{
    const book *b = c->book->book;
    forget(c, question, who);
    for (uint32_t i = 0; i < b->reckon_count; i++)
        if (rests_on(b, b->reckon_order[i], question)) forget(c, b->reckon_order[i], who);
}

void look_first(tt_case *c, const event *e)
{
    forget_with_quantities(c, e->subject, e->who);
}

void look_forget(tt_case *c, uint32_t question)
{
    forget_with_quantities(c, question, 0);
}

/* What was seen until now is one of the looks before. */
static void note_look(tt_case *c, uint32_t question, const event *e)
{
    standing *now = &c->now;
    const looks had = now->before[question];
    /* there is room for as many as the next power of two: who asks at each look takes no more for
     * that */
    const bool full = (had.count & (had.count - 1)) == 0;
    const size_t room = had.count == 0 ? 1 : 2 * (size_t)had.count;
    sighting *items = (sighting *)(uintptr_t)had.items;
    const char **saw = now->saw_before[question];
    if (full) {
        items = ARENA_ARRAY(c->derived, sighting, room);
        saw = ARENA_ARRAY(c->derived, const char *, room);
        for (uint32_t i = 0; i < had.count; i++) {
            items[i] = had.items[i];
            saw[i] = now->saw_before[question][i];
        }
    }
    items[had.count] = now->last[question];
    items[had.count].weights = now->weights[question];
    assert(items[had.count].weights != NULL);
    now->before[question] = (looks){items, had.count + 1};
    saw[had.count] = reply_words(c, question, now->replies[question]);
    now->saw_before[question] = saw;
    now->last[question] = (sighting){.person = e->who, .another = e->another};
}

const char *look_saw_before(const tt_case *c, uint32_t question)
{
    const uint32_t count = c->now.before[question].count;
    if (count == 0) return NULL;
    text_builder b = {.keep = c->derived};
    for (uint32_t i = 0; i < count; i++) {
        if (i > 0) text_add(&b, STR("; "));
        text_add(&b, str_of(c->now.saw_before[question][i]));
    }
    return text_done(&b).p;
}

static bool is_reckoned_with(const book *b, uint32_t question)
{
    uint32_t i = 0;
    if (b->questions[question].kind == QUESTION_QUANTITY) return true;
    while (i < b->reckon_count && !rests_on(b, b->reckon_order[i], question)) i++;
    return i < b->reckon_count;
}

bool look_again(tt_case *c, const event *e)
{
    const book *b = c->book->book;
    const unsigned way = e->another ? LOOKED_ANOTHER : LOOKED_AGAIN;
    c->now.looked[e->subject] |= way;
    for (uint32_t i = 0; i < b->reckon_count; i++)
        if (rests_on(b, b->reckon_order[i], e->subject)) c->now.looked[b->reckon_order[i]] |= way;
    if (e->reply.kind == REPLY_UNSURE) return false;
    if (is_reckoned_with(b, e->subject)) case_reckon(c);
    if (adjust_holds(c, e->subject)) return true;
    /* taken back while a fix held it: it counts as found, and nobody stands by it as a look */
    const bool seen = c->now.weights[e->subject] != NULL && c->now.replies[e->subject] != NULL;
    if (seen) note_look(c, e->subject, e);
    for (uint32_t i = 0; i < b->reckon_count; i++) {
        const uint32_t q = b->reckon_order[i];
        if (rests_on(b, q, e->subject) && c->now.reckoned[q] && c->now.weights[q] != NULL &&
            c->now.replies[q] != NULL)
            note_look(c, q, e);
    }
    return true;
}

void look_list(tt_case *c)
{
    standing *now = &c->now;
    for (uint32_t q = 0; q < c->book->book->question_count; q++) {
        const looks had = now->before[q];
        now->looks[q] = (looks){NULL, 0};
        if (now->weights[q] == NULL || (had.count == 0 && now->last[q].person == 0)) continue;
        sighting *items = ARENA_ARRAY(c->derived, sighting, (size_t)had.count + 1);
        for (uint32_t i = 0; i < had.count; i++) items[i] = had.items[i];
        items[had.count] = now->last[q];
        items[had.count].weights = now->weights[q];
        now->looks[q] = (looks){items, had.count + 1};
    }
}

/* ---- once more ---- */

/* An answer that a caution or a stop rests on is never asked back. */
const bool *look_danger(tt_case *c)
{
    const book *b = c->book->book;
    bool *tells = ARENA_ARRAY(c->derived, bool, b->question_count);
    for (uint32_t r = 0; r < b->rule_count; r++) {
        const uint32_t atom = c->book->prog->rule_atom[r];
        if (!(b->rules[r].stops || b->rules[r].has_caution) || case_truth(c, atom) != TRUTH_TRUE)
            continue;
        const justification why = wm_why(c->memory, c->derived, atom);
        for (uint32_t i = 0; i < why.finding_count; i++) {
            const ids *beneath = &b->questions[why.findings[i]].beneath;
            tells[why.findings[i]] = true;
            for (uint32_t k = 0; k < beneath->count; k++) tells[beneath->items[k]] = true;
        }
    }
    return tells;
}

/* Something else than what it was answered with is known to be there. */
static bool has_another(const tt_case *c, uint32_t question)
{
    const struct question *q = &c->book->book->questions[question];
    return q->instrument != NO_ID && c->book->book->instruments[q->instrument].another.count > 0;
}

static bool could_look(const tt_case *c, const bool *danger, uint32_t question, tt_again how)
{
    const struct question *q = &c->book->book->questions[question];
    assert(how != TT_FIRST_LOOK);
    if (q->gate || q->about != ABOUT_FAULT || q->kind == QUESTION_QUANTITY) return false;
    return (how == TT_LOOK_AGAIN || has_another(c, question)) && !adjust_holds(c, question) &&
           case_could_look(c, question) && !danger[question];
}

static bool may_look(const tt_case *c, const bool *danger, uint32_t question, tt_again how)
{
    const reply *r = c->now.replies[question];
    if (r == NULL || r->kind == REPLY_UNSURE || c->now.stale[question] || c->now.of_site[question])
        return false;
    const unsigned way = how == TT_LOOK_ANOTHER ? LOOKED_ANOTHER : LOOKED_AGAIN;
    return (c->now.looked[question] & way) == 0 && could_look(c, danger, question, how);
}

/* Of a quantity: the reading about the fault that is read amiss most easily. */
uint32_t look_asks(tt_case *c, const bool *danger, uint32_t finding, tt_again how)
{
    const book *b = c->book->book;
    const struct question *q = &b->questions[finding];
    if (c->looks_once || c->now.weights[finding] == NULL ||
        c->now.before[finding].count + 1 >= LOOKS_MAX)
        return NO_ID;
    if (q->kind != QUESTION_QUANTITY) return may_look(c, danger, finding, how) ? finding : NO_ID;
    const bool told = !c->now.reckoned[finding] && c->now.replies[finding] != NULL;
    const unsigned way = how == TT_LOOK_ANOTHER ? LOOKED_ANOTHER : LOOKED_AGAIN;
    if (told && (c->now.looked[finding] & way) != 0) return NO_ID;
    uint32_t best = NO_ID;
    for (uint32_t i = 0; i < q->beneath.count; i++) {
        const uint32_t asked = q->beneath.items[i];
        if (!(told ? could_look(c, danger, asked, how) : may_look(c, danger, asked, how))) continue;
        if (best == NO_ID || b->questions[asked].read_right < b->questions[best].read_right)
            best = asked;
    }
    return best;
}

const char *look_words(tt_case *c, uint32_t question, tt_again how)
{
    const struct question *q = &c->book->book->questions[question];
    if (how == TT_FIRST_LOOK || q->instrument == NO_ID) return "";
    const instrument *with = &c->book->book->instruments[q->instrument];
    return case_text(c, how == TT_LOOK_ANOTHER ? &with->another : &with->text);
}
