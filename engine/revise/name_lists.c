/* Names with their texts, for editors. */
#include "revise/name_lists.h"

#include <assert.h>
#include <string.h>

#include "base/grow.h"
#include "base/sorted.h"
#include "base/written.h"

static told_names *list_of(name_lists *all, const char *what)
{
    for (uint32_t i = 0; i < all->count; i++)
        if (strcmp(all->lists[i].what, what) == 0) return &all->lists[i];
    assert(all->count < NAME_LISTS_MOST);
    all->lists[all->count] = (told_names){.what = what};
    return &all->lists[all->count++];
}

const told_names *name_list(const name_lists *all, const char *what)
{
    for (uint32_t i = 0; i < all->count; i++)
        if (strcmp(all->lists[i].what, what) == 0) return &all->lists[i];
    return NULL;
}

static bool has(const told_names *l, str name)
{
    for (uint32_t i = 0; i < l->count; i++)
        if (str_is(name, l->items[i].name)) return true;
    return false;
}

static void add(name_lists *all, const char *what, str base, str name, str text)
{
    told_names *l = list_of(all, what);
    if (all->only_new && has(l, name)) return;
    GROW(all->keep, l->items, l->count, l->room);
    l->items[l->count++] =
        (told_name){str_copy(all->keep, name).p, str_copy(all->keep, text).p, base};
}

/* ---- every form in which an entry is named ---- */

static uint32_t piece_named(const book *b, str name)
{
    uint32_t piece = book_piece(b, name);
    size_t and = str_find(name, STR(" and "));
    return piece == NO_ID && and != SIZE_MAX ? book_piece(b, str_slice(name, 0, and)) : piece;
}

static void add_for_pieces(name_lists *all, const char *what, str base, str kind, str text)
{
    static const char *const forms[] = {"any ", "every "};
    for (int i = 0; i < 2; i++)
        add(all, what, base,
            str_printf(all->keep, "%.*s of %s%.*s", STR_ARG(base), forms[i], STR_ARG(kind)), text);
}

static void add_of_piece(name_lists *all, const book *b, const char *what, str name, str text)
{
    static const char *const behind[] = {"first", "second"};
    const size_t of = str_find(name, STR(" of "));
    const str base = str_slice(name, 0, of);
    const uint32_t piece = piece_named(b, str_slice(name, of + 4, name.n));
    assert(piece != NO_ID);
    add_for_pieces(all, what, base, b->kinds[b->pieces[piece].kind].id.name, text);
    for (int i = 0; i < 2; i++)
        add(all, what, base, str_printf(all->keep, "%.*s of %s", STR_ARG(base), behind[i]), text);
    if (all->any_piece)
        list_of(all, what)->any_piece = true;
    else if (!b->pieces[piece].stand_in)
        add(all, what, base, name, text);
}

/* What is written for each piece of a kind that stands alone keeps its bare name, and may be meant
 * at any of them all the same. */
static void add_entry(name_lists *all, const book *b, const char *what, str name, uint32_t lone,
                      str text)
{
    const size_t of = str_find(name, STR(" of "));
    const str base = of == SIZE_MAX ? name : str_slice(name, 0, of);
    add(all, what, base, base, text);
    if (of != SIZE_MAX) add_of_piece(all, b, what, name, text);
    if (lone > 0) add_for_pieces(all, what, base, b->kinds[lone - 1].id.name, text);
}

/* ---- what each says ---- */

static str in_words(const book *b, const texts *t)
{
    return t->count > 0 ? texts_for(t, b->language) : STR("");
}

static str question_text(name_lists *all, const book *b, const question *q)
{
    text_builder t = {.keep = all->keep};
    text_add(&t, in_words(b, &q->ask));
    for (uint32_t i = 0; i < q->answer_count; i++)
        text_addf(&t, "%s%.*s", i == 0 ? " Answers: " : ", ", STR_ARG(q->answers[i].id.name));
    if (q->in.text.n > 0) text_addf(&t, " In %.*s.", STR_ARG(q->in.text));
    return t.length > 0 ? text_done(&t) : STR("");
}

static str cause_text(name_lists *all, const book *b, const struct cause *c)
{
    const span s = c->often_said;
    const str often = s.file == NO_FILE ? STR("uncommon") : written_at(b->files, s);
    return str_printf(all->keep, "%.*s. How often: %.*s.", STR_ARG(in_words(b, &c->text)),
                      STR_ARG(often));
}

static str fix_text(name_lists *all, const book *b, const struct fix *f)
{
    const str role = b->role_count > f->role ? b->roles[f->role].name : STR("anybody");
    return str_printf(all->keep, "%.*s. By: %.*s. %g min.", STR_ARG(in_words(b, &f->text)),
                      STR_ARG(role), f->minutes);
}

static str symptom_text(name_lists *all, const book *b, const struct symptom *s)
{
    const texts *own = s->of_any.count > 0 ? &s->of_any : &s->text;
    if (own->count > 0 || !s->rests_on_one) return in_words(b, own);
    const question *q = &b->questions[s->one_question];
    return str_printf(all->keep, "%.*s: %.*s", STR_ARG(q->of.base),
                      STR_ARG(q->answers[s->one_answer].id.name));
}

static str wear_text(name_lists *all, const book *b, const texts_list *worn)
{
    text_builder t = {.keep = all->keep};
    for (uint32_t i = 0; i < worn->count; i++)
        text_addf(&t, "%s%.*s", i == 0 ? "" : ", ", STR_ARG(in_words(b, &worn->items[i])));
    return t.length > 0 ? text_done(&t) : STR("");
}

static str harm_text(name_lists *all, const safety *harm)
{
    text_builder t = {.keep = all->keep};
    for (int h = 0; h < HAZARD_COUNT; h++)
        if (harm->hazards[h])
            text_addf(&t, "%s%s", t.length == 0 ? "From " : ", ", hazard_name((hazard)h));
    return t.length > 0 ? text_done(&t) : STR("");
}

static void add_entries(name_lists *all, const book *b)
{
    for (uint32_t i = 0; i < b->question_count; i++)
        if (!b->questions[i].made)
            add_entry(all, b, "question", b->questions[i].id.name, b->questions[i].of.lone,
                      question_text(all, b, &b->questions[i]));
    for (uint32_t i = 0; i < b->symptom_count; i++)
        add_entry(all, b, "symptom", b->symptoms[i].id.name, b->symptoms[i].of.lone,
                  symptom_text(all, b, &b->symptoms[i]));
    for (uint32_t i = 0; i < b->cause_count; i++)
        add_entry(all, b, "cause", b->causes[i].id.name, b->causes[i].of.lone,
                  cause_text(all, b, &b->causes[i]));
    for (uint32_t i = 0; i < b->fix_count; i++)
        add_entry(all, b, "fix", b->fixes[i].id.name, b->fixes[i].of.lone,
                  fix_text(all, b, &b->fixes[i]));
    for (uint32_t i = 0; i < b->conclusion_count; i++)
        add_entry(all, b, "conclusion", b->conclusions[i].id.name, 0,
                  in_words(b, &b->conclusions[i].text));
    for (uint32_t i = 0; i < b->rule_count; i++)
        add_entry(all, b, "rule", b->rules[i].id.name, 0, in_words(b, &b->rules[i].caution));
}

static void add_others(name_lists *all, const book *b)
{
    for (uint32_t i = 0; i < b->kind_count; i++)
        add(all, "kind", STR(""), b->kinds[i].id.name, in_words(b, &b->kinds[i].one));
    for (uint32_t i = 0; i < b->piece_count; i++)
        if (!b->pieces[i].stand_in)
            add(all, "piece", STR(""), b->pieces[i].id.name, in_words(b, &b->pieces[i].text));
    for (uint32_t i = 0; i < b->role_count; i++)
        add(all, "role", STR(""), b->roles[i].name, STR("A role of this book."));
    for (uint32_t i = 0; i < b->instrument_count; i++)
        add(all, "instrument", STR(""), b->instruments[i].id.name,
            in_words(b, &b->instruments[i].text));
    for (uint32_t i = 0; i < b->procedure_count; i++)
        add_entry(all, b, "procedure", b->procedures[i].id.name, b->procedures[i].of.lone, STR(""));
    for (uint32_t i = 0; i < b->protection_count; i++)
        add(all, "protection", STR(""), b->protection[i].id.name,
            wear_text(all, b, &b->protection[i].worn));
    for (uint32_t i = 0; i < b->harm_count; i++)
        add(all, "harm", STR(""), b->harms[i].id.name, harm_text(all, &b->harms[i].harm));
    for (uint32_t i = 0; i < b->place_count; i++)
        add(all, "place", STR(""), b->places[i].id.name, in_words(b, &b->places[i].text));
}

/* ---- all together ---- */

static int by_name(const void *a, const void *b)
{
    const told_name *x = a, *y = b;
    int order = strcmp(x->name, y->name);
    return order != 0 ? order : strcmp(x->text, y->text);
}

static void once(told_names *l)
{
    uint32_t used = 0;
    SORT(l->items, l->count, by_name);
    for (uint32_t i = 0; i < l->count; i++)
        if (used == 0 || strcmp(l->items[used - 1].name, l->items[i].name) != 0)
            l->items[used++] = l->items[i];
    l->count = used;
}

static uint32_t names_of_pieces(const book *b)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < b->question_count; i++) count += b->questions[i].of.piece != NO_ID;
    for (uint32_t i = 0; i < b->symptom_count; i++) count += b->symptoms[i].of.piece != NO_ID;
    for (uint32_t i = 0; i < b->cause_count; i++) count += b->causes[i].of.piece != NO_ID;
    for (uint32_t i = 0; i < b->fix_count; i++) count += b->fixes[i].of.piece != NO_ID;
    return count;
}

void name_lists_fill(name_lists *all, const book *own, const book *bare)
{
    const book *const books[] = {own, bare};
    all->any_piece = names_of_pieces(own) > NAMES_OF_PIECES_MAX;
    for (int i = 0; i < 2; i++) {
        if (books[i] == NULL) continue;
        all->only_new = i > 0; /* stand-ins are told of only where there is nothing else */
        add_entries(all, books[i]);
        add_others(all, books[i]);
    }
    for (uint32_t i = 0; i < all->count; i++) once(&all->lists[i]);
}
