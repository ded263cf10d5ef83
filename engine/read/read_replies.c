/* Answers as an answers file, a worked case and the prompt's machine form give them. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "base/sorted.h"
#include "read/reader.h"

static void say_unit(reader *r, const question *q, const node *n, const amount_slip *slip)
{
    str given = slip->bad.n > 0 ? slip->bad : slip->part;
    fault *f =
        fault_add(r->list, FAULT_REPLY_UNIT, n->at,
                  slip->found == AMOUNT_NO_UNIT ? "'%.*s' has no unit, so it could be read wrongly."
                                                : "'%.*s' is no unit that fits here.",
                  STR_ARG(given));
    if (slip->found == AMOUNT_NO_UNIT && *unit_gap(&q->in) != 0)
        fault_help(r->list, f, "Write '%.*s %.*s'.", STR_ARG(slip->part), STR_ARG(q->in.text));
    else if (dimension_is_none(q->in.dim))
        fault_help(r->list, f, "Write such as '%.*s', or a share such as '2 %%'.",
                   STR_ARG(amount_example(r, 20, &q->in)));
    else
        fault_help(r->list, f, "Write such as '%.*s', or in another unit of %.*s.",
                   STR_ARG(amount_example(r, 20, &q->in)),
                   STR_ARG(dimension_words(r->scratch, q->in.dim)));
}

static bool not_a_number(reader *r, const question *q, const node *n, const amount_slip *slip)
{
    bool plain = dimension_is_none(q->in.dim) && q->in.text.n == 0;
    bool number = slip->found == AMOUNT_NO_NUMBER || slip->found == AMOUNT_UNCLEAR ||
                  slip->found == AMOUNT_FOUND;
    if (!number && !plain) {
        say_unit(r, q, n, slip);
        return false;
    }
    fault *f = fault_add(
        r->list, FAULT_REPLY_NO_NUMBER, n->at, "'%.*s' is no %s for '%.*s'.", STR_ARG(slip->part),
        q->kind == QUESTION_COUNT ? "whole number" : "reading", STR_ARG(q->id.name));
    if (slip->found == AMOUNT_UNCLEAR && str_find_byte(slip->bad, ':') != SIZE_MAX)
        fault_help(r->list, f,
                   "Write the product first, such as 1:50: one part of product to 50 of water.");
    else if (slip->found == AMOUNT_UNCLEAR)
        fault_help(r->list, f, "Write decimals with a point, and thousands without a comma.");
    else
        fault_help(r->list, f, "Write a number such as '%.*s', or 'unsure'.",
                   STR_ARG(amount_example(r, 20, &q->in)));
    return false;
}

static bool read_number(reader *r, const question *q, const node *n, str text, reply *out)
{
    assert(q->kind != QUESTION_CHOICE);
    amount_slip slip;
    bool read = amount_in(r, text, &q->in, &out->number, &slip);
    bool whole =
        q->kind != QUESTION_COUNT || (out->number >= 0 && floor(out->number) >= out->number);
    if (!read || !whole) return not_a_number(r, q, n, &slip);
    out->kind = REPLY_READING;
    if (is_plausible(q, out->number)) return true;
    fault *f = fault_add(r->list, FAULT_REPLY_IMPLAUSIBLE, n->at,
                         "'%.*s' can hardly be: '%.*s' lies from %.*s.", STR_ARG(text),
                         STR_ARG(q->id.name), STR_ARG(range_of_plausible(r, q)));
    fault_help(r->list, f, "Read it again, or write 'unsure'.");
    return false;
}

static uint32_t reply_answer(reader *r, const question *q, str word, span at)
{
    assert(q->kind == QUESTION_CHOICE);
    uint32_t id = option_find(q->answers, q->answer_count, word);
    if (id != NO_ID)
        mention_add(r->book->mentions,
                    (mention){NAMED_ANSWER, MENTION_ALONE, word, q->of.base, STR(""), at});
    if (id != NO_ID) return id;
    fault *f = fault_add(r->list, FAULT_REPLY_NO_ANSWER, at, "'%.*s' is no answer of '%.*s'.",
                         STR_ARG(word), STR_ARG(q->id.name));
    suggest(r, f, word, option_names(r->scratch, q->answers, q->answer_count), q->answer_count);
    return NO_ID;
}

static bool wrong_form(reader *r, const question *q, const node *n)
{
    fault *f = fault_add(r->list, FAULT_REPLY_FORM, n->at,
                         "This is not how '%.*s' can be answered.", STR_ARG(q->id.name));
    fault_help(r->list, f,
               q->kind == QUESTION_CHOICE
                   ? "Write an answer, 'unsure', {not: answer} or {likely: {answer: 70 %%}}."
                   : "Write the reading, or 'unsure'.");
    return false;
}

static bool read_excluded(reader *r, const question *q, const node *n, reply *out)
{
    assert(q->answer_count > 0 && q->answer_count <= ANSWERS_MAX);
    bool list = n->kind == NODE_LIST, good = n->kind != NODE_MAP && (!list || n->count > 0);
    if (!good) return wrong_form(r, q, n);
    out->kind = REPLY_NOT;
    for (uint32_t i = 0; i < (list ? n->count : 1); i++) {
        const node *item = list ? n->items[i] : n;
        if (item->kind != NODE_TEXT) return wrong_form(r, q, item);
        uint32_t id = reply_answer(r, q, str_trim(item->text), item->at);
        good &= id != NO_ID && !(list && item_twice(r, n, i));
        if (id != NO_ID) out->excluded |= UINT64_C(1) << id;
    }
    uint64_t all =
        q->answer_count == ANSWERS_MAX ? UINT64_MAX : (UINT64_C(1) << q->answer_count) - 1;
    if (!good || out->excluded != all) return good;
    fault *f = fault_add(r->list, FAULT_REPLY_NONE_LEFT, n->at,
                         "This leaves no answer of '%.*s' over.", STR_ARG(q->id.name));
    fault_help(r->list, f, "Leave at least one answer out, or write 'unsure'.");
    return false;
}

static bool read_likely(reader *r, const question *q, const node *n, reply *out)
{
    assert(q->answer_count > 0);
    if (n->kind != NODE_MAP || n->count == 0) return wrong_form(r, q, n);
    double *weights = ARENA_ARRAY(r->keep, double, q->answer_count), sum = 0;
    bool good = true;
    out->kind = REPLY_LIKELY;
    out->weights = weights;
    for (uint32_t i = 0; i < n->count; i++) {
        const node_entry *e = &n->entries[i];
        uint32_t id = reply_answer(r, q, e->key, e->key_at);
        double chance = 0;
        bool read = e->value->kind == NODE_TEXT && chance_of(str_trim(e->value->text), &chance) &&
                    chance >= 0 && chance <= 1;
        good &= read && id != NO_ID;
        if (!read) {
            fault *f = fault_add(r->list, FAULT_REPLY_WEIGHT, e->value->at,
                                 "This is no chance from 0 %% to 100 %%.");
            fault_help(r->list, f, "Write such as '70 %%', '0.7' or '7 of 10'.");
        }
        if (read && id != NO_ID) weights[id] = chance;
        sum += chance;
    }
    if (!good || sum > 0) return good;
    fault *f = fault_add(r->list, FAULT_REPLY_WEIGHT, n->at,
                         "Every chance here is 0, so no answer is left.");
    fault_help(r->list, f, "Give one answer a chance above 0, or write 'unsure'.");
    return false;
}

static bool read_map_reply(reader *r, const question *q, const node *n, reply *out)
{
    bool one = n->count == 1 && q->kind == QUESTION_CHOICE;
    if (one && str_is(n->entries[0].key, "not"))
        return read_excluded(r, q, n->entries[0].value, out);
    if (one && str_is(n->entries[0].key, "likely"))
        return read_likely(r, q, n->entries[0].value, out);
    return wrong_form(r, q, n);
}

bool reply_read(arena *keep, arena *scratch, const book *b, uint32_t question_id, const node *n,
                faults *list, reply *out)
{
    assert(question_id < b->question_count);
    book looked_up = {.mentions = b->mentions};
    reader r = {.keep = keep, .scratch = scratch, .list = list, .book = &looked_up};
    const question *q = &b->questions[question_id];
    *out = (reply){.question = question_id, .at = n->at, .answer = NO_ID};
    if (n->kind == NODE_MAP) return read_map_reply(&r, q, n, out);
    if (n->kind == NODE_LIST) return wrong_form(&r, q, n);
    str text = str_trim(n->text);
    out->kind = REPLY_UNSURE;
    if (str_is(text, "unsure")) return true;
    if (q->kind != QUESTION_CHOICE) return read_number(&r, q, n, text, out);
    out->kind = REPLY_ANSWER;
    out->answer = reply_answer(&r, q, text, n->at);
    return out->answer != NO_ID;
}

/* "drop" where there is one for each filter: the one that `at` names alone of its kind. */
static uint32_t question_of_piece(reader *r, const book *b, const node_entry *e, const ids *at,
                                  bool *said)
{
    uint32_t first; /* "drop of …" comes before all else that begins with "drop" */
    SORTED_PLACE(first, b->named_questions, i, str_cmp(b->questions[i].id.name, e->key) < 0);
    const question *q = &b->questions[first];
    *said = first < b->named_questions && str_eq(q->of.base, e->key);
    if (!*said) return NO_ID;
    assert(q->of.piece < b->piece_count);
    uint32_t kind = b->pieces[q->of.piece].kind, meant = only_piece_of(b, at, kind);
    if (meant != NO_ID) return book_question(b, name_of_piece(r, r->scratch, e->key, meant, NO_ID));
    str word = b->kinds[kind].id.name;
    fault *f = fault_add(r->list, FAULT_REPLY_NO_QUESTION, e->key_at,
                         "'%.*s' is there once for each %.*s, and this does not say for which.",
                         STR_ARG(e->key), STR_ARG(word));
    fault_help(r->list, f, "Write such as '%.*s', or say with 'at' which one all bare names mean.",
               STR_ARG(q->id.name));
    return NO_ID;
}

static uint32_t reply_question(reader *r, const book *b, const node_entry *e, const ids *at)
{
    bool said;
    uint32_t id = book_question(b, e->key);
    if (id == NO_ID)
        id = question_of_piece(r, b, e, at, &said);
    else
        said = true;
    if (said) return id;
    fault *f = fault_add(r->list, FAULT_REPLY_NO_QUESTION, e->key_at,
                         "The book has no question '%.*s'.", STR_ARG(e->key));
    if (!fault_wants_help(r->list, f)) return NO_ID;
    const arena_mark before = arena_here(r->scratch);
    str *names = ARENA_ARRAY(r->scratch, str, b->named_questions);
    for (uint32_t i = 0; i < b->named_questions; i++) names[i] = b->questions[i].id.name;
    suggest(r, f, e->key, names, b->named_questions);
    arena_back_to(r->scratch, before);
    return NO_ID;
}

static int by_question(const void *a, const void *b)
{
    const reply *x = a, *y = b;
    if (x->question != y->question) return x->question < y->question ? -1 : 1;
    return (x->at.start > y->at.start) - (x->at.start < y->at.start);
}

/* "drop" and "drop of fine" may mean one question. */
static void check_answered_once(reader *r, const book *b, const reply *all, uint32_t count)
{
    for (uint32_t i = 1; i < count; i++) {
        if (all[i].question != all[i - 1].question) continue;
        fault *f = fault_add(r->list, FAULT_ITEM_TWICE, all[i].at, "'%.*s' is answered twice.",
                             STR_ARG(b->questions[all[i].question].id.name));
        fault_note_at(r->list, f, all[i - 1].at, "It is answered here already.");
        fault_help(r->list, f, "Leave one of them out.");
    }
}

void sort_replies(reader *r, const book *b, reply *all, uint32_t count)
{
    if (count > 1) qsort(all, count, sizeof *all, by_question);
    check_answered_once(r, b, all, count);
}

/* A case without its `expect`, or, as in edition 1, nothing but the answers and `at`. */
static bool has_shape_of_case(const book *b, const node *root)
{
    const node *answers = node_get(root, "answers");
    return (answers != NULL && answers->kind == NODE_MAP &&
            book_question(b, STR("answers")) == NO_ID) ||
           (node_get(root, "complaint") != NULL && book_question(b, STR("complaint")) == NO_ID);
}

static void not_of_answers(reader *r, const node *root)
{
    wrong_together(r, root, "expect", "an answers file is told, not tried",
                   "Leave it out, or put the case into the book under 'cases'.");
    wrong_together(r, root, "as", "who asks is said to the program",
                   "Leave it out, and write --as and the role behind the command.");
}

/* A bare name means the piece that `at` names alone of its kind. */
static uint32_t symptom_named(const book *b, str name, const ids *at)
{
    const uint32_t id = book_symptom(b, name);
    for (uint32_t i = 0; id == NO_ID && i < b->symptom_count; i++) {
        const owner *of = &b->symptoms[i].of;
        const bool there = of->piece != NO_ID && str_eq(of->base, name);
        if (there && only_piece_of(b, at, b->pieces[of->piece].kind) == of->piece) return i;
    }
    return id;
}

static uint32_t told_complaint(reader *r, const book *b, const node *n, const ids *at)
{
    str name;
    if (!read_word(r, n, "a symptom", &name)) return NO_ID;
    const uint32_t id = symptom_named(b, name, at);
    if (id != NO_ID) return id;
    str *names = ARENA_ARRAY(r->scratch, str, b->symptom_count);
    uint32_t count = 0;
    for (uint32_t i = 0; i < b->symptom_count; i++)
        if (b->symptoms[i].heard.count > 0) names[count++] = b->symptoms[i].id.name;
    fault *f = fault_add(r->list, FAULT_CASE_NO_NAME, n->at, "The book has no symptom '%.*s'.",
                         STR_ARG(name));
    suggest(r, f, name, names, count);
    return NO_ID;
}

static reply *read_told(reader *r, const book *b, const node *map, bool flat, told_file *told)
{
    reply *replies = ARENA_ARRAY(r->keep, reply, map->count);
    for (uint32_t i = 0; i < map->count; i++) {
        const node_entry *e = &map->entries[i];
        if (flat && str_is(e->key, "at")) continue;
        const uint32_t id = reply_question(r, b, e, &told->at);
        if (id == NO_ID) continue;
        if (reply_read(r->keep, r->scratch, b, id, e->value, r->list, &replies[told->count]))
            told->count++;
    }
    sort_replies(r, b, replies, told->count);
    return replies;
}

static bool is_map_of_answers(faults *list, const node *n)
{
    if (n->kind == NODE_MAP) return true;
    fault *f =
        fault_add(list, FAULT_REPLIES_NO_MAP, n->at,
                  "Here stands %s, but answers are a map from question to answer.", node_says(n));
    fault_help(list, f, "Write one line for each answer, such as 'question: answer'.");
    return false;
}

const reply *replies_read(arena *keep, arena *scratch, const book *b, const node *root,
                          faults *list, told_file *told)
{
    book looked_up = *b; /* pieces are looked up in it, nothing is changed */
    reader r = {.keep = keep, .scratch = scratch, .list = list, .book = &looked_up};
    *told = (told_file){.complaint = NO_ID};
    if (root == NULL || !is_map_of_answers(list, root)) return NULL;
    const node *where = node_get(root, "at"), *complaint = node_get(root, "complaint");
    const bool of_case = has_shape_of_case(b, root);
    if (where != NULL) told->at = pieces_named(&r, where);
    if (!of_case) return read_told(&r, b, root, true, told);
    check_map(&r, root, KEYS_CASE);
    not_of_answers(&r, root);
    if (complaint != NULL) told->complaint = told_complaint(&r, b, complaint, &told->at);
    const node *answers = node_get(root, "answers");
    return answers != NULL && is_map_of_answers(list, answers)
               ? read_told(&r, b, answers, false, told)
               : NULL;
}
