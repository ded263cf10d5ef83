/* With what a question is answered, how regularly, and against which good value. */
#include <assert.h>

#include "read/reader.h"

static void read_instrument(reader *r, const node *body, instrument *i)
{
    if (!check_map(r, body, KEYS_INSTRUMENT)) return;
    const node *text = need(r, body, i->id, KEYS_INSTRUMENT, "text"),
               *wrong = node_get(body, "wrong"), *own = node_get(body, "own");
    i->wrong_said = span_nowhere();
    if (text != NULL) read_fixed_texts(r, text, "'text'", TEXT_PHRASE, &i->text);
    if (own != NULL) read_yes(r, own, "'own'", &i->own);
    read_keys(r, body, i->id, KEYS_INSTRUMENT, i);
    if (wrong == NULL || !read_plain_chance(r, wrong, "a chance", &i->wrong)) return;
    i->wrong_said = wrong->at;
    if (i->wrong < 1) return;
    fault *f =
        fault_add(r->list, FAULT_CHANCE_OUTSIDE, wrong->at,
                  "If '%.*s' is always wrong, there is no use in reading it.", STR_ARG(i->id.name));
    fault_help(r->list, f, "Write how often it is wrong, such as '2 %%'.");
}

void read_instruments(reader *r)
{
    const name_table *t = &r->tables[SECTION_INSTRUMENTS];
    instrument *all = ARENA_ARRAY(r->keep, instrument, t->count);
    for (uint32_t i = 0; i < t->count; i++) {
        all[i] = (instrument){.id = t->items[i].id, .wrong_said = span_nowhere()};
        read_instrument(r, t->items[i].body, &all[i]);
    }
    r->book->instruments = all;
    r->book->instrument_count = t->count;
}

void read_round(reader *r, const node *n, question *q)
{
    static const char *const words[] = {"daily", "weekly", "monthly", NULL};
    uint32_t word = n == NULL ? NO_ID : read_choice(r, n, "how often it is looked at", words);
    if (word != NO_ID) q->round = (question_round)(ROUND_DAILY + word);
    assert(q->round <= ROUND_MONTHLY);
}

static void no_good_value(reader *r, const node *n, const char *why, const question *other)
{
    fault *f =
        fault_add(r->list, FAULT_NO_GOOD_VALUE, n->at, "'good' has no meaning here: %s.", why);
    if (other != NULL) fault_note_at(r->list, f, other->id.at, "It stands here.");
    fault_help(r->list, f, "Name a reading with 'about: the site' that measures the same.");
}

void read_good(reader *r, const node *n, question *q)
{
    str name;
    if (q->kind != QUESTION_READING) {
        no_good_value(r, n, "only a reading has a good value", NULL);
        return;
    }
    if (!read_word(r, n, "a fact of the site", &name)) return;
    const uint32_t id = resolve(r, SECTION_QUESTIONS, name, n->at);
    if (id == NO_ID || r->tables[SECTION_QUESTIONS].items[id].broken) return;
    const question *fact = &r->book->questions[id];
    if (fact->about != ABOUT_SITE)
        no_good_value(r, n, "what is good is a fact of the site, and this is none", fact);
    else if (fact->kind != QUESTION_READING || !unit_fits(&fact->in, &q->in))
        no_good_value(r, n, "the two do not measure the same", fact);
    else
        q->good = id;
}
