/* `{foam-air: {trend: rising}}`: how a reading has moved against its good value over the cases of a
 * site. It looks at a quantity of its own, one for each reading, of which nobody is asked and which
 * no formula gives: it is not known until the cases are counted, so neither is what rests on it. */
#include "read/reader.h"

static void no_good_to_leave(reader *r, const question *q, span at)
{
    fault *f = fault_add(r->list, FAULT_NO_GOOD_VALUE, at,
                         "A trend leads away from a good value, and '%.*s' has none.",
                         STR_ARG(base_of_name(q->id.name)));
    fault_note_at(r->list, f, q->id.at, "The question stands here.");
    fault_help(r->list, f,
               q->kind == QUESTION_READING
                   ? "Add 'good' to it, with the fact of the site that holds its good value."
                   : "Only a reading has one.");
}

/* Whether it says so: what it says is read once every question's kind is known. */
static bool says_what_is_good(const reader *r, uint32_t reading)
{
    if (reading >= r->tables[SECTION_QUESTIONS].count) return false;
    const node *body = r->tables[SECTION_QUESTIONS].items[reading].body;
    return node_get(body, "good") != NULL;
}

const cond *read_trend_condition(reader *r, uint32_t reading, const node *n, cond *c)
{
    static const char *const keys[] = {"trend", NULL}, *const words[] = {"rising", "falling",
                                                                         "jump", NULL};
    static const reading_trend meant[] = {TREND_RISING, TREND_FALLING, TREND_JUMP};
    const question *q = &r->book->questions[reading];
    if (!check_words(r, n, "The condition on a reading", keys)) return NULL;
    const node *value = node_get(n, "trend");
    const uint32_t word = value == NULL ? NO_ID : read_choice(r, value, "a trend", words);
    if (word == NO_ID) return NULL;
    if (q->kind != QUESTION_READING || !says_what_is_good(r, reading)) {
        no_good_to_leave(r, q, value->at);
        return NULL;
    }
    c->low = c->high = meant[word];
    c->low_in = c->high_in = true;
    c->subject = trend_of(r, reading, n->at);
    remember_made(r, c);
    return c;
}
