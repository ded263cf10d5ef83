/* Numbers outside `shown-by` and `cures`: how often something is read right, what a site calls
 * good, how much is not listed; and what is written in two places, or named in none. */
#include <assert.h>
#include <math.h>

#include "doubt/doubt.h"

/* ---- read amiss ---- */

static void doubt_read_right(const doubter *d, const question *q)
{
    const double hardly = 0.6;
    if (q->ours || q->made || q->kind == QUESTION_QUANTITY || q->read_right >= hardly) return;
    fault *f = fault_add(d->list, FAULT_READ_AMISS, q->id.at,
                         "'%.*s' is read right in %.3g of 100 looks, hardly more than by guessing.",
                         STR_ARG(q->of.base), 100 * q->read_right);
    fault_help(d->list, f,
               "'read-right' says how often people get it right, such as '95 %%'. If they can't, "
               "ask something that they can see.");
}

static void doubt_instrument(const doubter *d, const instrument *x)
{
    const double mostly = 0.4;
    if (x->wrong <= mostly) return;
    fault *f = fault_add(d->list, FAULT_READ_AMISS, x->id.at,
                         "'%.*s' shows what is not so in %.3g of 100 looks.", STR_ARG(x->id.name),
                         100 * x->wrong);
    fault_help(d->list, f, "'wrong' says how often it misleads, such as '3 %%'.");
}

/* ---- the manifest ---- */

static void doubt_share(const doubter *d, const char *key, double share, const char *says)
{
    const double most = 0.4;
    if (share <= most) return;
    fault *f = fault_add(d->list, FAULT_MOSTLY_OTHER, d->book->manifest->at,
                         "By '%s' %.3g of 100 calls are about %s: then the book says little.", key,
                         100 * share, says);
    fault_help(d->list, f, "Write the share of such calls, such as '%s: 5 %%'.", key);
}

/* ---- what is good and what is usual ---- */

static const reply *site_reply(const book *b, uint32_t question)
{
    for (uint32_t i = 0; i < b->site_answer_count; i++)
        if (b->site_answers[i].given.question == question) return &b->site_answers[i].given;
    return NULL;
}

static void doubt_good(const doubter *d, const question *q)
{
    const book *b = d->book;
    if (q->good == NO_ID || !q->has_usual) return;
    const reply *good = site_reply(b, q->good);
    if (good == NULL || good->kind != REPLY_READING) return;
    const double number = unit_convert(&b->questions[q->good].in, &q->in, good->number),
                 room = 1e-9 * (1 + fabs(number));
    if (number >= q->usual_low - room && number <= q->usual_high + room) return;
    const uint32_t question = (uint32_t)(q - b->questions);
    fault *f = fault_add(d->list, FAULT_GOOD_UNUSUAL, good->at,
                         "The site's '%.*s' is %.*s, and usual for '%.*s' is %.*s to %.*s.",
                         STR_ARG(b->questions[q->good].of.base),
                         STR_ARG(book_amount(d->scratch, b, q->good, good->number, NULL)),
                         STR_ARG(q->of.base),
                         STR_ARG(book_amount(d->scratch, b, question, q->usual_low, NULL)),
                         STR_ARG(book_amount(d->scratch, b, question, q->usual_high, NULL)));
    fault_note_at(d->list, f, q->id.at, "what it is good for");
    fault_help(d->list, f, "Mend the unit or the number, 'good', or 'usual'.");
}

/* ---- one thing in two places ---- */

static bool same_leaf(const cond *a, const cond *b)
{
    assert(a->kind == COND_ANSWER && b->kind == COND_ANSWER);
    return a->subject == b->subject && a->answers == b->answers;
}

static void doubt_confirms(const doubter *d, const symptom *s)
{
    if (!s->from_confirms) return;
    assert(s->rests_on_one);
    const question *q = &d->book->questions[s->one_question];
    if (!q->has_usual || q->usual_answer != s->one_answer) return;
    fault *f = fault_add(d->list, FAULT_CONFIRMS_USUAL, q->id.at,
                         "'%.*s' is the usual answer to '%.*s', and confirms a cause.",
                         STR_ARG(q->answers[s->one_answer].id.name), STR_ARG(q->of.base));
    fault_help(d->list, f, "Name under 'confirms' the answer that a fault gives.");
}

static void tell_sign_twice(const doubter *d, const symptom *one, const symptom *two)
{
    fault *f = fault_add(d->list, FAULT_SIGN_TWICE, two->id.at,
                         "'%.*s' and '%.*s' have the same condition, so they are one sign.",
                         STR_ARG(two->of.base), STR_ARG(one->of.base));
    fault_note_at(d->list, f, one->id.at, "the other one");
    fault_help(d->list, f, "Put their 'shown-by' and 'heard' together into one of them.");
}

static void doubt_signs_twice(const doubter *d)
{
    const book *b = d->book;
    keyed *all = ARENA_ARRAY(d->scratch, keyed, b->symptom_count);
    uint32_t count = 0;
    for (uint32_t i = 0; i < b->symptom_count; i++) {
        const cond *c = b->symptoms[i].when;
        if (c->kind == COND_ANSWER && !b->symptoms[i].from_confirms)
            all[count++] = (keyed){key_with(key_with(0, c->subject), c->answers), i};
    }
    keyed_sort(all, count);
    for (uint32_t i = 1, first = 0; i < count; i++) {
        uint32_t told = 0;
        if (all[first].key != all[i].key) first = i;
        for (uint32_t k = first; k < i && told < FAULT_NOTES_MAX; k++) {
            const symptom *one = &b->symptoms[all[k].item], *two = &b->symptoms[all[i].item];
            if (!same_leaf(one->when, two->when) || same_written(&one->id, &two->id)) continue;
            tell_sign_twice(d, one, two);
            told++;
        }
    }
}

/* ---- named in no place ---- */

static void never_named(const doubter *d, const label *id, const char *what, const char *key)
{
    fault *f = fault_add(d->list, FAULT_NEVER_NAMED, id->at,
                         "No question or fix names the %s '%.*s'.", what, STR_ARG(id->name));
    fault_help(d->list, f, "Write '%s: %.*s' where it is meant, or leave it out.", key,
               STR_ARG(id->name));
}

static void doubt_names(const doubter *d)
{
    const book *b = d->book;
    bool *place = ARENA_ARRAY(d->scratch, bool, b->place_count),
         *with = ARENA_ARRAY(d->scratch, bool, b->instrument_count);
    for (uint32_t i = 0; i < b->question_count; i++) {
        if (b->questions[i].place != NO_ID) place[b->questions[i].place] = true;
        if (b->questions[i].instrument != NO_ID) with[b->questions[i].instrument] = true;
    }
    for (uint32_t i = 0; i < b->fix_count; i++)
        if (b->fixes[i].place != NO_ID) place[b->fixes[i].place] = true;
    for (uint32_t i = 0; i < b->place_count; i++)
        if (!place[i]) never_named(d, &b->places[i].id, "place", "place");
    for (uint32_t i = 0; i < b->instrument_count; i++)
        if (!with[i]) never_named(d, &b->instruments[i].id, "instrument", "instrument");
}

void doubt_numbers(const doubter *d)
{
    const book *b = d->book;
    assert(b->roles != NULL || b->role_count == 0);
    for (uint32_t i = 0; i < b->question_count; i++) {
        doubt_read_right(d, &b->questions[i]);
        doubt_good(d, &b->questions[i]);
    }
    for (uint32_t i = 0; i < b->instrument_count; i++) doubt_instrument(d, &b->instruments[i]);
    for (uint32_t i = 0; i < b->symptom_count; i++) doubt_confirms(d, &b->symptoms[i]);
    doubt_share(d, "not-listed", b->not_listed, "none of the causes");
    doubt_share(d, "two-faults", b->two_faults, "two faults at once");
    doubt_signs_twice(d);
    doubt_names(d);
}
