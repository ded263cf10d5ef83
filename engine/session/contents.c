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
    tt_pointer *cured;          /* fixes, */
    const uint32_t *cured_from; /* those of cause c: [c] … [c + 1] - 1 */
    uint32_t *pointed;          /* room of one entry's pointers */
} contents;

/* ---- what is there once for each piece ---- */

static bool is_same_entry(const owner *a, const owner *b)
{
    return a->piece != NO_ID && b->piece != NO_ID && str_eq(a->base, b->base);
}

typedef struct ground {
    const owner *of;
    uint32_t id;
} ground;

static int by_base(const void *a, const void *b)
{
    const ground *x = a, *y = b;
    const int names = str_cmp(x->of->base, y->of->base);
    if (names != 0) return names;
    const bool first = x->of->piece != NO_ID, second = y->of->piece != NO_ID;
    return first != second ? THREE_WAY(first, second) : THREE_WAY(x->id, y->id);
}

/* [entry] the first of those that are the same at other pieces, or itself. */
static const uint32_t *same_entries(tt_case *c, const owner *const *owners, uint32_t count)
{
    uint32_t *first = ARENA_ARRAY(c->derived, uint32_t, count + 1);
    const arena_mark before = arena_here(c->scratch);
    ground *sorted = ARENA_ARRAY(c->scratch, ground, count);
    for (uint32_t i = 0; i < count; i++) sorted[i] = (ground){owners[i], i};
    SORT(sorted, count, by_base);
    for (uint32_t i = 0; i < count; i++)
        first[sorted[i].id] = i > 0 && is_same_entry(sorted[i - 1].of, sorted[i].of)
                                  ? first[sorted[i - 1].id]
                                  : sorted[i].id;
    arena_back_to(c->scratch, before);
    return first;
}

/* Entries at further pieces go with that at the first; `order` says in which order the ground
 * entries that are shown are looked at, of `all`; `same` is theirs. */
static gathered gather(tt_case *c, const owner *const *owners, uint32_t all, const uint32_t *same,
                       const uint32_t *order, uint32_t count)
{
    uint32_t *sizes = ARENA_ARRAY(c->derived, uint32_t, all + 1), items = 0; /* [first of same] */
    assert(count <= all);
    for (uint32_t i = 0; i < count; i++) items += sizes[same[order[i]]]++ == 0;
    gathered s = {.items = ARENA_ARRAY(c->derived, tt_listed, items + 1),
                  .place = ARENA_ARRAY(c->derived, uint32_t, all + 1)};
    uint32_t **also = ARENA_ARRAY(c->derived, uint32_t *, items + 1);
    uint32_t *place = ARENA_ARRAY(c->derived, uint32_t, all + 1); /* [first of same] and 1 */
    for (uint32_t i = 0; i < count; i++) {
        const uint32_t first = same[order[i]];
        if (place[first] == 0) {
            s.place[order[i]] = s.count;
            s.items[s.count++] = (tt_listed){.id = order[i],
                                             .text = "",
                                             .means = "",
                                             .part = "",
                                             .confirmed_by = "",
                                             .usual = ""};
            place[first] = s.count;
            continue;
        }
        const uint32_t at = s.place[order[i]] = place[first] - 1;
        if (also[at] == NULL) also[at] = ARENA_ARRAY(c->derived, uint32_t, sizes[first]);
        also[at][s.items[at].likewise_count++] = owners[order[i]]->piece;
        s.items[at].likewise = also[at];
    }
    assert(s.count == items);
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

/* The pointers of one entry, of which there are `room` at most. */
typedef struct pointing {
    tt_pointer *all;
    uint32_t count;
    uint32_t *at; /* [to] its place among them and 1, 0: none; given back empty */
} pointing;

static pointing pointing_new(contents *x, uint32_t room)
{
    return (pointing){ARENA_ARRAY(x->c->derived, tt_pointer, room + 1), 0, x->pointed};
}

/* To the same entry at several pieces: once, with the greatest chance. */
static void add_pointer(pointing *p, uint32_t to, double chance)
{
    if (p->at[to] == 0) {
        p->all[p->count++] = (tt_pointer){to, chance};
        p->at[to] = p->count;
        return;
    }
    tt_pointer *had = &p->all[p->at[to] - 1];
    if (chance > had->chance) had->chance = chance;
}

static void finish(pointing *p, tt_listed *item)
{
    for (uint32_t i = 0; i < p->count; i++) p->at[p->all[i].to] = 0;
    SORT(p->all, p->count, likeliest_first);
    item->points = p->all;
    item->point_count = p->count;
}

static void point_to_causes(contents *x, tt_listed *sign)
{
    const struct symptom *s = &x->c->book->book->symptoms[sign->id];
    pointing p = pointing_new(x, s->shown_by_count);
    for (uint32_t i = 0; i < s->shown_by_count; i++)
        add_pointer(&p, x->causes.place[s->shown_by[i].cause], s->shown_by[i].chance);
    finish(&p, sign);
}

/* `fix_place`: null while the fixes have no order yet; then it points to ground entries. */
static void point_to_fixes(contents *x, tt_listed *cause, const uint32_t *fix_place)
{
    const uint32_t first = x->cured_from[cause->id], end = x->cured_from[cause->id + 1];
    pointing p = pointing_new(x, end - first);
    for (uint32_t i = first; i < end; i++)
        add_pointer(&p, fix_place != NULL ? fix_place[x->cured[i].to] : x->cured[i].to,
                    x->cured[i].chance);
    finish(&p, cause);
}

/* Which fixes cure each cause, rising. */
static void index_cures(contents *x)
{
    const book *b = x->c->book->book;
    uint32_t *from = ARENA_ARRAY(x->c->derived, uint32_t, (size_t)b->cause_count + 2), all = 0;
    for (uint32_t f = 0; f < b->fix_count; all += b->fixes[f++].cures_count)
        for (uint32_t i = 0; i < b->fixes[f].cures_count; i++)
            from[b->fixes[f].cures[i].cause + 2]++;
    for (uint32_t c = 0; c < b->cause_count; c++) from[c + 2] += from[c + 1];
    x->cured = ARENA_ARRAY(x->c->derived, tt_pointer, all);
    for (uint32_t f = 0; f < b->fix_count; f++)
        for (uint32_t i = 0; i < b->fixes[f].cures_count; i++)
            x->cured[from[b->fixes[f].cures[i].cause + 1]++] =
                (tt_pointer){f, b->fixes[f].cures[i].chance};
    x->cured_from = from;
}

/* ---- sections ---- */

static const owner **owners_of(tt_case *c, uint32_t count)
{
    return ARENA_ARRAY(c->derived, const owner *, count + 1);
}

typedef struct shared {
    double share;
    uint32_t id;
} shared;

/* The commonest first; equal ones stay in name order. */
static int by_share(const void *a, const void *b)
{
    const shared *x = a, *y = b;
    return x->share != y->share ? THREE_WAY(y->share, x->share) : THREE_WAY(x->id, y->id);
}

/* [cause] its share of all, with that of the same at other pieces. */
static double *shares_of(tt_case *c, const uint32_t *same)
{
    const book *b = c->book->book;
    double *share = ARENA_ARRAY(c->derived, double, b->cause_count + 1), all = 0;
    for (uint32_t i = 0; i < b->cause_count; i++) all += b->causes[i].how_often;
    for (uint32_t i = 0; i < b->cause_count; i++) share[same[i]] += b->causes[i].how_often / all;
    for (uint32_t i = 0; i < b->cause_count; i++) share[i] = share[same[i]];
    return share;
}

static void list_causes(contents *x)
{
    tt_case *c = x->c;
    const book *b = c->book->book;
    const owner **owners = owners_of(c, b->cause_count);
    for (uint32_t i = 0; i < b->cause_count; i++) owners[i] = &b->causes[i].of;
    const uint32_t *same = same_entries(c, owners, b->cause_count);
    const double *share = shares_of(c, same);
    shared *sorted = ARENA_ARRAY(c->derived, shared, b->cause_count);
    uint32_t *order = ARENA_ARRAY(c->derived, uint32_t, b->cause_count + 1);
    for (uint32_t i = 0; i < b->cause_count; i++) sorted[i] = (shared){share[i], i};
    SORT(sorted, b->cause_count, by_share);
    for (uint32_t i = 0; i < b->cause_count; i++) order[i] = sorted[i].id;
    x->causes = gather(c, owners, b->cause_count, same, order, b->cause_count);
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
    x->fixes = gather(c, owners, b->fix_count, same_entries(c, owners, b->fix_count), order, count);
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
    x->symptoms = gather(c, owners, b->symptom_count, same_entries(c, owners, b->symptom_count),
                         order, count);
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
    const gathered s = gather(c, owners, b->question_count,
                              same_entries(c, owners, b->question_count), order, count);
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
    const book *b = x->c->book->book;
    x->pointed = ARENA_ARRAY(x->c->derived, uint32_t,
                             (b->cause_count > b->fix_count ? b->cause_count : b->fix_count) + 1);
    index_cures(x);
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
