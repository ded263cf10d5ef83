/* What a person can look at, measure or be asked. */
#include <assert.h>

#include "read/reader.h"

/* ---- the kind ---- */

static bool two_kinds(reader *r, const question *q, const node *map)
{
    int kinds = (node_get(map, "answers") != NULL) + (node_get(map, "reading") != NULL) +
                (node_get(map, "count") != NULL);
    if (kinds <= 1) return false;
    fault *f = fault_add(r->list, FAULT_TWO_KINDS, q->id.at,
                         "'%.*s' would be answered in two ways at once.", STR_ARG(q->id.name));
    fault_help(r->list, f, "Keep one of 'answers', 'reading' and 'count'.");
    return true;
}

static answer_option *yes_or_no(reader *r, const node *map, question *q)
{
    answer_option *options = NULL;
    const shared_read *before = shared_before(r, map, SHARED_YES_NO);
    if (before != NULL) {
        q->answer_count = before->count;
        return (answer_option *)(uintptr_t)before->items;
    }
    yes_no_options(r, q->id.at, true, &options, &q->answer_count);
    share_ours(r, map, SHARED_YES_NO, options, q->answer_count);
    return options;
}

static bool read_choice_kind(reader *r, const node *map, question *q)
{
    static const uint32_t yes_first[] = {1, 0};
    answer_option *options = NULL;
    const node *answers = node_get(map, "answers");
    bool good = true;
    q->yes_no = answers == NULL;
    q->shown_order = yes_first;
    if (q->yes_no)
        options = yes_or_no(r, map, q);
    else
        good = read_answer_options(r, answers, q->id, &options, &q->answer_count, &q->shown_order);
    q->answers = options;
    const char *why = "the question is not a reading",
               *remedy = "Leave it out, or add 'reading:' with what is measured.";
    wrong_together(r, map, "unit", why, remedy);
    wrong_together(r, map, "plausible", why, remedy);
    return good;
}

/* The word after `reading` may name the dimension; then the unit must be one of it. */
static bool read_question_unit(reader *r, question *q, str word, span at)
{
    dimension wanted;
    bool named = dimension_named(q->measures, &wanted);
    if (!read_unit(r, word, at, named ? &wanted : NULL, &q->in)) return false;
    if (!named || dimension_same(q->in.dim, wanted)) return true;
    fault *f = fault_add(r->list, FAULT_WRONG_UNIT, at,
                         "'%.*s' measures %.*s, but '%.*s' is to be read here.", STR_ARG(word),
                         STR_ARG(dimension_words(r->scratch, q->in.dim)), STR_ARG(q->measures));
    fault_help(r->list, f, "Write a unit such as %.*s, or another word after 'reading'.",
               STR_ARG(unit_examples(r->scratch, wanted, 3)));
    return false;
}

static bool read_measured_kind(reader *r, const node *map, question *q)
{
    bool count = node_get(map, "reading") == NULL, good = true;
    str word;
    q->kind = count ? QUESTION_COUNT : QUESTION_READING;
    q->in = unit_none;
    if (read_word(r, node_get(map, count ? "count" : "reading"), "what is measured", &word))
        q->measures = str_copy(r->keep, word);
    if (count) {
        wrong_together(r, map, "unit", "a count is a whole number without unit",
                       "Leave it out, or write 'reading' instead of 'count'.");
    } else {
        const node *unit = need(r, map, q->id, KEYS_QUESTION, "unit");
        good = unit != NULL && read_word(r, unit, "a unit", &word) &&
               read_question_unit(r, q, word, unit->at);
    }
    wrong_together(r, map, "shares", "a reading has no shares", "Leave it out.");
    wrong_together(r, map, "confirms", "only an answer can confirm a cause",
                   "Write a symptom with a range in its 'when'.");
    return good;
}

/* ---- ranges ---- */

static void usual_implausible(reader *r, const question *q, const node *n)
{
    assert(q->has_usual && q->has_plausible);
    fault *f =
        fault_add(r->list, FAULT_USUAL_IMPLAUSIBLE, n->at,
                  "'usual' reaches outside 'plausible', %.*s.", STR_ARG(range_of_plausible(r, q)));
    fault_help(r->list, f, "Widen 'plausible', or narrow 'usual'.");
}

static void read_usual(reader *r, const node *map, question *q)
{
    const node *plausible = node_get(map, "plausible"), *usual = node_get(map, "usual");
    if (q->kind == QUESTION_CHOICE) {
        q->usual_answer =
            usual == NULL ? NO_ID : read_option(r, usual, q->id.name, q->answers, q->answer_count);
        q->has_usual = q->usual_answer != NO_ID;
        return;
    }
    if (plausible != NULL)
        q->has_plausible =
            read_range_in(r, q, plausible, "'plausible'", &q->plausible_low, &q->plausible_high);
    if (usual != NULL)
        q->has_usual = read_range_in(r, q, usual, "'usual'", &q->usual_low, &q->usual_high);
    bool outside = q->has_usual && q->has_plausible &&
                   (q->usual_low < q->plausible_low || q->usual_high > q->plausible_high);
    if (outside) usual_implausible(r, q, usual);
}

/* ---- facts ---- */

/* False: what it says it is about can't be read, so it may be a fact and may not. */
static bool read_about(reader *r, const node *n, question_about *about)
{
    static const char *const words[] = {"the site", "today", NULL};
    *about = ABOUT_FAULT;
    if (n == NULL) return true;
    const uint32_t word = read_choice(r, n, "what a fact is about", words);
    if (word != NO_ID) *about = word == 0 ? ABOUT_SITE : ABOUT_TODAY;
    return word != NO_ID;
}

static void bad_shares(reader *r, const node *n, double sum, bool all)
{
    fault *f = fault_add(r->list, FAULT_BAD_SHARES, n->at,
                         "The shares of the answers make %g %% together%s.", sum * 100,
                         all ? ", not 100 %" : ", which leaves less than nothing for the others");
    fault_help(r->list, f,
               "Make them sum to 100 %%, or leave some out: they share evenly what is left.");
}

/* What is left out shares the rest evenly. */
static void read_shares(reader *r, const node *n, question *q)
{
    assert(q->kind == QUESTION_CHOICE && q->about != ABOUT_FAULT);
    if (n->kind != NODE_MAP) {
        wrong_kind(r, n, "'shares'", "a map of answers to shares");
        return;
    }
    answer_option *answers = ARENA_ARRAY(r->keep, answer_option, q->answer_count);
    bool *given = ARENA_ARRAY(r->scratch, bool, q->answer_count), good = true;
    double sum = 0;
    uint32_t named_count = 0;
    for (uint32_t i = 0; i < q->answer_count; i++) answers[i] = q->answers[i];
    for (uint32_t i = 0; i < n->count; i++) {
        const node_entry *e = &n->entries[i];
        node key = {.kind = NODE_TEXT, .at = e->key_at, .text = e->key};
        uint32_t id = read_option(r, &key, q->id.name, q->answers, q->answer_count);
        bool read = id != NO_ID && read_plain_chance(r, e->value, "a share", &answers[id].share);
        good &= read;
        if (!read) continue;
        given[id] = true;
        named_count++;
    }
    for (uint32_t i = 0; i < q->answer_count; i++) sum += given[i] ? answers[i].share : 0;
    bool all = named_count == q->answer_count;
    if (good && (sum > 1 + 1e-9 || (all && sum < 1 - 1e-9))) {
        bad_shares(r, n, sum, all);
        return;
    }
    for (uint32_t i = 0; i < q->answer_count && good; i++)
        if (!given[i]) answers[i].share = (1 - sum) / (q->answer_count - named_count);
    q->answers = answers;
}

static void read_fact(reader *r, const node *map, question *q)
{
    const node *shares = node_get(map, "shares");
    if (q->kind != QUESTION_CHOICE) return;
    if (q->about == ABOUT_FAULT) {
        wrong_together(r, map, "shares", "how often an answer comes is told only of facts",
                       "Leave it out, or add 'about: the site' or 'about: today'.");
    } else {
        if (shares != NULL) read_shares(r, shares, q);
        wrong_together(r, map, "confirms", "a fact is no sign of a fault",
                       "Leave it out, or leave out 'about'.");
    }
}

static void read_right(reader *r, const node *n, question *q)
{
    q->read_right = q->about != ABOUT_FAULT ? 1 : q->kind == QUESTION_CHOICE ? 0.95 : 0.98;
    double chance;
    if (n == NULL || !read_plain_chance(r, n, "how often people get it right", &chance)) return;
    if (chance > 0) {
        q->read_right = chance;
        return;
    }
    fault *f = fault_add(r->list, FAULT_CHANCE_OUTSIDE, n->at,
                         "If nobody ever gets it right, there is no use in asking.");
    fault_help(r->list, f, "Write how many of 100 people get it right, such as '95 %%'.");
}

static void read_wrongly_confirmed(reader *r, const node *map, question *q)
{
    const node *n = node_get(map, "wrongly-confirmed");
    q->wrongly_confirmed = 0.002;
    if (n == NULL) return;
    if (node_get(map, "confirms") == NULL)
        wrong_together(r, map, "wrongly-confirmed", "no answer here confirms a cause",
                       "Leave it out, or write 'confirms' with the answer that does.");
    else
        read_plain_chance(r, n, "how often it is told where it isn't so", &q->wrongly_confirmed);
}

static void read_confirms(reader *r, const node *n, const question *q)
{
    assert(q->kind == QUESTION_CHOICE);
    if (n->kind != NODE_MAP) {
        wrong_kind(r, n, "'confirms'", "a map of answers to causes");
        return;
    }
    for (uint32_t i = 0; i < n->count; i++) {
        node key = {.kind = NODE_TEXT, .at = n->entries[i].key_at, .text = n->entries[i].key};
        read_option(r, &key, q->id.name, q->answers, q->answer_count);
    }
}

/* ---- the rest ---- */

/* With none of these nobody knows what its answers would be, so nothing is said of who names one.
 */
static bool says_nothing(const node *map)
{
    return node_get(map, "ask") == NULL && node_get(map, "answers") == NULL;
}

static void read_doing(reader *r, const node *map, question *q)
{
    const node *back = node_get(map, "put-back");
    q->minutes = 1;
    q->undo.kind = PUT_BACK_NOT_NEEDED;
    read_keys(r, map, q->id, KEYS_QUESTION, q);
    if (back != NULL) read_put_back(r, back, &q->undo);
    read_round(r, node_get(map, "round"), q);
    read_safety(r, map, q->id, KEYS_QUESTION, &q->harm);
}

static bool read_body(reader *r, const node *map, question *q)
{
    if (!check_map(r, map, KEYS_QUESTION)) return false;
    read_doing(r, map, q);
    if (two_kinds(r, q, map)) return false;
    bool measured = node_get(map, "reading") != NULL || node_get(map, "count") != NULL;
    if (!measured && says_nothing(map)) return false;
    bool good = measured ? read_measured_kind(r, map, q) : read_choice_kind(r, map, q);
    if (!good || !read_about(r, node_get(map, "about"), &q->about)) return false;
    read_fact(r, map, q);
    read_usual(r, map, q);
    read_right(r, node_get(map, "read-right"), q);
    read_wrongly_confirmed(r, map, q);
    read_gate(r, map, q);
    const node *confirms = node_get(map, "confirms");
    if (confirms != NULL && !measured && q->about == ABOUT_FAULT) read_confirms(r, confirms, q);
    return true;
}

void read_questions(reader *r)
{
    const name_table *t = &r->tables[SECTION_QUESTIONS];
    question *questions = ARENA_ARRAY(r->keep, question, (size_t)t->count + r->gate_wanted);
    r->book->questions = r->questions = questions;
    r->book->named_questions = r->book->question_count = t->count;
    r->book->our_gate = NO_ID;
    for (uint32_t i = 0; i < t->count; i++) {
        named *e = &t->items[i];
        enter(r, e);
        questions[i].id = e->id;
        questions[i].of = e->of;
        questions[i].place = questions[i].instrument = questions[i].good = NO_ID;
        e->broken = !(e->quantity ? read_quantity : read_body)(r, e->body, &questions[i]);
        assert(e->broken || questions[i].kind != QUESTION_CHOICE || questions[i].answer_count >= 2);
    }
    if (r->gate_wanted) {
        questions[t->count] = our_gate(r);
        r->book->our_gate = r->book->question_count++;
    }
}

void read_question_conditions(reader *r)
{
    assert(r->book->named_questions == r->tables[SECTION_QUESTIONS].count);
    const name_table *t = &r->tables[SECTION_QUESTIONS];
    question *questions = r->questions;
    assert(r->book->questions == questions);
    for (uint32_t i = 0; i < t->count; i++) {
        const node *body = t->items[i].body;
        enter(r, &t->items[i]);
        if (!t->items[i].quantity) {
            questions[i].only_when = read_condition_at(r, body, "only-when");
            const node *good = t->items[i].broken ? NULL : node_get(body, "good");
            if (good != NULL) read_good(r, good, &questions[i]);
        }
    }
}
