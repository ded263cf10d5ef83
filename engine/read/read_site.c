/* The site: what its file answers in advance. Which equipment it has was read with the names
 * (kinds.c). */
#include <assert.h>
#include <stdlib.h>

#include "base/moment.h"
#include "read/reader.h"

static void no_fact(reader *r, uint32_t question, span at)
{
    const struct question *q = &r->book->questions[question];
    fault *f = fault_add(r->list, FAULT_NO_SITE_FACT, at,
                         "'%.*s' is no fact of the site, so the site can't answer it in advance.",
                         STR_ARG(q->id.name));
    fault_note_at(r->list, f, q->id.at, "The question stands here.");
    fault_help(r->list, f, "Add 'about: the site' to the question, or leave it out here.");
}

/* Beneath a piece stand its own facts only. */
static void not_of_the_piece(reader *r, uint32_t question, span at)
{
    str name = r->book->questions[question].id.name;
    if (r->pieces_lost) return; /* where one was dropped the other seems to be alone */
    fault *f = fault_add(r->list, FAULT_PIECE_OF_SHARED, at,
                         "'%.*s' is no fact of this piece of equipment.", STR_ARG(name));
    fault_help(r->list, f, "Put '%.*s' under 'answers' of the site.", STR_ARG(name));
}

static bool has_source(const node *value)
{
    return value->kind == NODE_MAP && node_get(value, "value") != NULL;
}

/* A day that the calendar has, as ISO 8601 writes it. */
static bool is_day(reader *r, str text)
{
    tt_moment begins;
    return moment_from(str_printf(r->scratch, "%.*sT00:00:00Z", STR_ARG(text)), &begins);
}

static void check_day(reader *r, const node *value, const site_answer *a)
{
    const node *day = value->kind == NODE_MAP ? node_get(value, "day") : NULL;
    if (day == NULL || day->kind != NODE_TEXT || is_day(r, a->day)) return;
    fault *f =
        fault_add(r->list, FAULT_NOT_A_DAY, day->at, "'%.*s' is no day.", STR_ARG(day->text));
    fault_help(r->list, f, "Write year, month and day: 2026-05-03.");
}

/* "45 psi", or {value: 45 psi, source: the plate on the pump}. */
static bool read_site_value(reader *r, uint32_t question, const node *value, site_answer *out)
{
    const node *given = value;
    *out = (site_answer){0};
    if (has_source(value)) {
        check_map(r, value, KEYS_SITE_VALUE);
        read_keys(r, value, (label){STR(""), value->at}, KEYS_SITE_VALUE, out);
        check_day(r, value, out);
        given = node_get(value, "value");
    }
    return reply_read(r->keep, r->scratch, r->book, question, given, r->list, &out->given);
}

typedef struct site_draft {
    site_answer *items;
    uint32_t count;
} site_draft;

static void add_answer(reader *r, const node_entry *e, site_draft *all)
{
    uint32_t id = resolve(r, SECTION_QUESTIONS, e->key, e->key_at);
    if (id == NO_ID || r->tables[SECTION_QUESTIONS].items[id].broken) return;
    const question *q = &r->book->questions[id];
    bool of_another = r->here.piece != NO_ID && q->of.piece != r->here.piece;
    if (of_another)
        not_of_the_piece(r, id, e->key_at);
    else if (q->about != ABOUT_SITE)
        no_fact(r, id, e->key_at);
    else if (read_site_value(r, id, e->value, &all->items[all->count]))
        all->count++;
}

static bool is_text_of_piece(str key)
{
    return str_is(key, "text") || str_is(key, "comes-before") || str_is(key, "hangs-on");
}

static void read_piece_facts(reader *r, uint32_t piece, site_draft *all)
{
    const node *body = r->piece_nodes[piece];
    r->here = (owner){STR(""), piece, NO_ID, 0};
    for (uint32_t i = 0; body != NULL && body->kind == NODE_MAP && i < body->count; i++)
        if (!is_text_of_piece(body->entries[i].key)) add_answer(r, &body->entries[i], all);
    r->here = (owner){STR(""), NO_ID, NO_ID, 0};
}

static uint32_t most_answers(const reader *r, const node *answers)
{
    uint32_t count = answers != NULL && answers->kind == NODE_MAP ? answers->count : 0;
    for (uint32_t i = 0; i < r->book->piece_count; i++)
        if (r->piece_nodes[i] != NULL && r->piece_nodes[i]->kind == NODE_MAP)
            count += r->piece_nodes[i]->count;
    return count;
}

static int by_question(const void *a, const void *b)
{
    const site_answer *x = a, *y = b;
    if (x->given.question != y->given.question)
        return x->given.question < y->given.question ? -1 : 1;
    return (x->given.at.start > y->given.at.start) - (x->given.at.start < y->given.at.start);
}

static void check_answered_once(reader *r, const site_draft *all)
{
    for (uint32_t i = 1; i < all->count; i++) {
        const reply *one = &all->items[i].given, *before = &all->items[i - 1].given;
        if (one->question != before->question) continue;
        fault *f = fault_add(r->list, FAULT_ITEM_TWICE, one->at, "The site answers '%.*s' twice.",
                             STR_ARG(r->book->questions[one->question].id.name));
        fault_note_at(r->list, f, before->at, "It is answered here already.");
        fault_help(r->list, f, "Leave one of them out.");
    }
}

static void read_answers_of(reader *r, const node *answers, site_draft *all)
{
    if (answers == NULL) return;
    if (answers->kind != NODE_MAP) {
        wrong_kind(r, answers, "'answers'", "a map from question to answer");
        return;
    }
    for (uint32_t i = 0; i < answers->count; i++) add_answer(r, &answers->entries[i], all);
}

static void shown_twice(reader *r, span at, str word, const unit *before)
{
    fault *f = fault_add(r->list, FAULT_SHOWN_TWICE, at,
                         "'%.*s' and '%.*s' both say how %.*s is shown.", STR_ARG(word),
                         STR_ARG(before->text), STR_ARG(dimension_words(r->scratch, before->dim)));
    fault_help(r->list, f, "Keep one of them.");
}

/* The first of them that tells how this is shown, or null. */
static const unit *shown_before(const unit *all, uint32_t count, const unit *u)
{
    for (uint32_t i = 0; i < count; i++)
        if (unit_fits(u, &all[i])) return &all[i];
    return NULL;
}

/* `show: [bar, l/min]`. What was preferred before, by the book, is kept behind where nothing here
 * tells of it. */
void read_shown(reader *r, const node *n)
{
    if (n->kind != NODE_LIST) {
        wrong_kind(r, n, "'show'", "a list of units");
        return;
    }
    unit *all = ARENA_ARRAY(r->keep, unit, (size_t)n->count + r->book->shown_unit_count);
    uint32_t count = 0;
    for (uint32_t i = 0; i < n->count; i++) {
        str word;
        if (!read_word(r, n->items[i], "a unit", &word) ||
            !read_unit(r, word, n->items[i]->at, NULL, &all[count]))
            continue;
        const unit *before = shown_before(all, count, &all[count]);
        if (before != NULL)
            shown_twice(r, n->items[i]->at, word, before);
        else
            count++;
    }
    uint32_t own = count;
    for (uint32_t i = 0; i < r->book->shown_unit_count; i++)
        if (shown_before(all, own, &r->book->shown_units[i]) == NULL)
            all[count++] = r->book->shown_units[i];
    r->book->shown_units = all;
    r->book->shown_unit_count = count;
}

void read_site(reader *r)
{
    r->book->emergency_number = STR("");
    r->book->site_is_example = r->site_file == NO_FILE;
    if (r->site == NULL || !check_map(r, r->site, KEYS_SITE)) return;
    read_keys(r, r->site, (label){STR(""), r->site_at}, KEYS_SITE, r->book);
    const node *answers = node_get(r->site, "answers");
    const node *units = node_get(r->site, "units"), *show = node_get(r->site, "show");
    if (show != NULL) read_shown(r, show);
    if (units != NULL && units->kind != NODE_MAP)
        wrong_kind(r, units, "'units'", "a map of kinds of equipment");
    read_contacts(r, r->site);
    site_draft all = {ARENA_ARRAY(r->keep, site_answer, most_answers(r, answers)), 0};
    r->bare_will_do = true;
    for (uint32_t i = 0; i < r->book->piece_count; i++) read_piece_facts(r, i, &all);
    read_answers_of(r, answers, &all);
    r->bare_will_do = false;
    if (all.count > 1) qsort(all.items, all.count, sizeof *all.items, by_question);
    check_answered_once(r, &all);
    r->book->site_answers = all.items;
    r->book->site_answer_count = all.count;
}
