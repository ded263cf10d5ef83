/* All of a book, in an order for people who read it through. What is written once for each piece of
 * a kind is shown once. */
#include <assert.h>
#include <string.h>

#include "base/sorted.h"
#include "session/session.h"

/* One section: its ground entries, and where each came to stand. */
typedef struct gathered {
    tt_listed *items;
    uint32_t count;
    uint32_t *place; /* [ground entry] in items */
} gathered;

typedef struct contents {
    tt_case *c;
    tt_contents *out;
    gathered symptoms, causes, fixes;
} contents;

/* ---- what is there once for each piece ---- */

static bool is_same_entry(const owner *a, const owner *b)
{
    return a->piece != NO_ID && b->piece != NO_ID && str_eq(a->base, b->base);
}

/* Entries at further pieces go with that at the first; `order` says in which order those of the
 * `all` ground entries that are shown are looked at. */
static gathered gather(tt_case *c, const owner *const *owners, uint32_t all, const uint32_t *order,
                       uint32_t count)
{
    gathered s = {.items = ARENA_ARRAY(c->derived, tt_listed, count + 1),
                  .place = ARENA_ARRAY(c->derived, uint32_t, all + 1)};
    uint32_t **also = ARENA_ARRAY(c->derived, uint32_t *, count + 1);
    assert(count <= all);
    for (uint32_t i = 0; i < count; i++) {
        const owner *mine = owners[order[i]];
        uint32_t at = 0;
        while (at < s.count && !is_same_entry(mine, owners[s.items[at].id])) at++;
        s.place[order[i]] = at;
        if (at == s.count) {
            s.items[s.count++] = (tt_listed){.id = order[i],
                                             .text = "",
                                             .means = "",
                                             .part = "",
                                             .confirmed_by = "",
                                             .usual = ""};
            continue;
        }
        if (also[at] == NULL)
            also[at] = ARENA_ARRAY(c->derived, uint32_t, c->book->book->piece_count);
        assert(s.items[at].likewise_count < c->book->book->piece_count);
        also[at][s.items[at].likewise_count++] = mine->piece;
        s.items[at].likewise = also[at];
    }
    return s;
}

static const char *name_words(tt_case *c, const owner *of, const label *id)
{
    return cstr(c->derived, of->piece != NO_ID ? of->base : id->name);
}

/* ---- what points where ---- */

static int likeliest_first(const void *a, const void *b)
{
    const tt_pointer *x = a, *y = b;
    return x->chance != y->chance ? THREE_WAY(y->chance, x->chance) : THREE_WAY(x->to, y->to);
}

/* To the same entry at several pieces: once, with the greatest chance. */
static void add_pointer(tt_pointer *all, uint32_t *count, uint32_t to, double chance)
{
    for (uint32_t i = 0; i < *count; i++) {
        if (all[i].to != to) continue;
        if (chance > all[i].chance) all[i].chance = chance;
        return;
    }
    all[(*count)++] = (tt_pointer){to, chance};
}

static void point_to_causes(contents *x, tt_listed *sign)
{
    const struct symptom *s = &x->c->book->book->symptoms[sign->id];
    tt_pointer *all = ARENA_ARRAY(x->c->derived, tt_pointer, s->shown_by_count + 1);
    for (uint32_t i = 0; i < s->shown_by_count; i++)
        add_pointer(all, &sign->point_count, x->causes.place[s->shown_by[i].cause],
                    s->shown_by[i].chance);
    SORT(all, sign->point_count, likeliest_first);
    sign->points = all;
}

/* `fix_place`: null while the fixes have no order yet; then it points to ground entries. */
static void point_to_fixes(contents *x, tt_listed *cause, const uint32_t *fix_place)
{
    const book *b = x->c->book->book;
    tt_pointer *all = ARENA_ARRAY(x->c->derived, tt_pointer, b->fix_count + 1);
    cause->point_count = 0;
    for (uint32_t f = 0; f < b->fix_count; f++)
        for (uint32_t i = 0; i < b->fixes[f].cures_count; i++)
            if (b->fixes[f].cures[i].cause == cause->id)
                add_pointer(all, &cause->point_count, fix_place != NULL ? fix_place[f] : f,
                            b->fixes[f].cures[i].chance);
    SORT(all, cause->point_count, likeliest_first);
    cause->points = all;
}

/* ---- sections ---- */

static const owner **owners_of(tt_case *c, uint32_t count)
{
    return ARENA_ARRAY(c->derived, const owner *, count + 1);
}

static void list_causes(contents *x)
{
    tt_case *c = x->c;
    const book *b = c->book->book;
    const owner **owners = owners_of(c, b->cause_count);
    uint32_t *order = ARENA_ARRAY(c->derived, uint32_t, b->cause_count + 1);
    double *share = ARENA_ARRAY(c->derived, double, b->cause_count + 1), all = 0;
    for (uint32_t i = 0; i < b->cause_count; i++) owners[i] = &b->causes[i].of;
    for (uint32_t i = 0; i < b->cause_count; i++) all += b->causes[i].how_often;
    for (uint32_t i = 0; i < b->cause_count; i++)
        for (uint32_t k = 0; k < b->cause_count; k++)
            if (k == i || is_same_entry(owners[i], owners[k]))
                share[i] += b->causes[k].how_often / all;
    for (uint32_t i = 0; i < b->cause_count;
         i++) { /* the commonest first; equal ones stay in name order */
        uint32_t at = i;
        for (; at > 0 && share[order[at - 1]] < share[i]; at--) order[at] = order[at - 1];
        order[at] = i;
    }
    x->causes = gather(c, owners, b->cause_count, order, b->cause_count);
    for (uint32_t i = 0; i < x->causes.count; i++)
        x->causes.items[i].share = share[x->causes.items[i].id];
}

static void describe_causes(contents *x)
{
    tt_case *c = x->c;
    const book *b = c->book->book;
    for (uint32_t i = 0; i < x->causes.count; i++) {
        tt_listed *item = &x->causes.items[i];
        const struct cause *cause = &b->causes[item->id];
        item->name = name_words(c, &cause->of, &cause->id);
        item->text = case_text(c, &cause->text);
        item->means = case_text(c, &cause->means);
        item->part = case_text(c, &cause->part);
        item->picture = picture_words(c, cause->picture);
        item->confirmed_by = cause->confirmed_by != NO_ID
                                 ? cstr(c->derived, b->roles[cause->confirmed_by].name)
                                 : "";
        item->spares = case_text_list(c, &cause->spare_parts);
        item->spare_count = cause->spare_parts.count;
        point_to_fixes(x, item, x->fixes.place);
    }
}

/* In the order in which the causes lead to them, each once; then those that cure nothing that is
 * listed. */
static void list_fixes(contents *x)
{
    tt_case *c = x->c;
    const book *b = c->book->book;
    const owner **owners = owners_of(c, b->fix_count);
    uint32_t *order = ARENA_ARRAY(c->derived, uint32_t, b->fix_count + 1), count = 0;
    bool *taken = ARENA_ARRAY(c->derived, bool, b->fix_count + 1);
    for (uint32_t i = 0; i < x->causes.count; i++) {
        point_to_fixes(x, &x->causes.items[i], NULL);
        for (uint32_t k = 0; k < x->causes.items[i].point_count; k++) {
            const uint32_t f = x->causes.items[i].points[k].to;
            if (!taken[f]) order[count++] = f;
            taken[f] = true;
        }
    }
    for (uint32_t f = 0; f < b->fix_count; f++) {
        owners[f] = &b->fixes[f].of;
        if (!taken[f]) order[count++] = f;
    }
    assert(count == b->fix_count);
    x->fixes = gather(c, owners, b->fix_count, order, count);
    for (uint32_t i = 0; i < x->fixes.count; i++) {
        const struct fix *f = &b->fixes[x->fixes.items[i].id];
        x->fixes.items[i].name = name_words(c, &f->of, &f->id);
        x->fixes.items[i].text = case_text(c, &f->text);
    }
}

static void list_symptoms(contents *x)
{
    tt_case *c = x->c;
    const book *b = c->book->book;
    const owner **owners = owners_of(c, b->symptom_count);
    uint32_t *order = ARENA_ARRAY(c->derived, uint32_t, b->symptom_count + 1), count = 0;
    for (uint32_t i = 0; i < b->symptom_count; i++) owners[i] = &b->symptoms[i].of;
    for (uint32_t i = 0; i < b->symptom_count; i++)
        if (is_complaint(b, i)) order[count++] = i;
    for (uint32_t i = 0; i < b->symptom_count; i++)
        if (!is_complaint(b, i)) order[count++] = i;
    x->symptoms = gather(c, owners, b->symptom_count, order, count);
    for (uint32_t i = 0; i < x->symptoms.count; i++) {
        tt_listed *item = &x->symptoms.items[i];
        const struct symptom *s = &b->symptoms[item->id];
        item->name = name_words(c, &s->of, &s->id);
        item->text = symptom_words(c, item->id);
        item->complaint = is_complaint(b, item->id);
        point_to_causes(x, item);
    }
}

/* ---- questions ---- */

const char *usual_words(tt_case *c, uint32_t question)
{
    const struct question *q = &c->book->book->questions[question];
    if (!q->has_usual) return "";
    if (q->kind == QUESTION_CHOICE) {
        const reply usual = {.kind = REPLY_ANSWER, .question = question, .answer = q->usual_answer};
        return reply_words(c, question, &usual);
    }
    const char *low = reading_words(c, question, q->usual_low);
    if (q->usual_low == q->usual_high) return low;
    return str_printf(c->derived, "%s \u2013 %s", low, reading_words(c, question, q->usual_high)).p;
}

/* 0: rules danger out; 1: an early fact; 2: all others that people are asked; 3: nobody is asked.
 */
static unsigned turn_of(const struct question *q)
{
    if (q->kind == QUESTION_QUANTITY) return 3;
    return q->gate ? 0 : q->early ? 1 : 2;
}

static void list_questions(contents *x)
{
    tt_case *c = x->c;
    const book *b = c->book->book;
    const owner **owners = owners_of(c, b->question_count);
    uint32_t *order = ARENA_ARRAY(c->derived, uint32_t, b->question_count + 1), count = 0;
    for (uint32_t i = 0; i < b->question_count; i++) owners[i] = &b->questions[i].of;
    for (unsigned turn = 0; turn < 3; turn++)
        for (uint32_t i = 0; i < b->question_count; i++)
            if (turn_of(&b->questions[i]) == turn) order[count++] = i;
    const gathered s = gather(c, owners, b->question_count, order, count);
    for (uint32_t i = 0; i < s.count; i++) {
        const struct question *q = &b->questions[s.items[i].id];
        s.items[i].name = name_words(c, &q->of, &q->id);
        s.items[i].text = case_text(c, &q->ask);
        s.items[i].usual = usual_words(c, s.items[i].id);
    }
    x->out->questions = (tt_list){s.items, s.count};
}

static void list_emergencies(contents *x)
{
    const book *b = x->c->book->book;
    const char **names = ARENA_ARRAY(x->c->derived, const char *, b->emergency_count + 1);
    uint32_t count = 0;
    for (unsigned ours = 0; ours < 2; ours++)
        for (uint32_t i = 0; i < b->emergency_count; i++)
            if (b->emergencies[i].ours == (ours == 1))
                names[count++] = cstr(x->c->derived, b->emergencies[i].id.name);
    assert(count == b->emergency_count);
    x->out->emergencies = names;
    x->out->emergency_count = count;
}

static tt_status show_contents(void *context)
{
    contents *x = context;
    list_causes(x);
    list_fixes(x);
    describe_causes(x);
    list_symptoms(x);
    list_questions(x);
    list_emergencies(x);
    x->out->symptoms = (tt_list){x->symptoms.items, x->symptoms.count};
    x->out->causes = (tt_list){x->causes.items, x->causes.count};
    x->out->fixes = (tt_list){x->fixes.items, x->fixes.count};
    return TT_OK;
}

tt_status tt_book_contents(tt_case *c, tt_contents *out)
{
    contents x = {.c = c, .out = out};
    tt_status status = case_see(c);
    if (status != TT_OK) return status;
    return guarded_case(c, show_contents, &x);
}
