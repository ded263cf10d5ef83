#include <assert.h>
#include <stdlib.h>

#include "model/reader.h"

static const struct {
    const char *key, *entry;
} sections[SECTION_COUNT] = {
    [SECTION_QUESTIONS] = {"questions", "question"},
    [SECTION_SYMPTOMS] = {"symptoms", "symptom"},
    [SECTION_CONCLUSIONS] = {"conclusions", "conclusion"},
    [SECTION_CAUSES] = {"causes", "cause"},
    [SECTION_FIXES] = {"fixes", "fix"},
    [SECTION_RULES] = {"rules", "rule"},
    [SECTION_CASES] = {"cases", "case"},
};

static const char *const reserved[] = {"any",   "all",   "none", "not",   "known",  "unsure", "of",
                                       "every", "other", "this", "first", "second", "shown"};

const char *section_entry(section s)
{
    assert(s < SECTION_COUNT);
    return sections[s].entry;
}

/* ---- what a name may be ---- */

static bool is_name(str name)
{
    for (size_t i = 0; i < name.n; i++) {
        char c = name.p[i];
        bool letter = c >= 'a' && c <= 'z';
        if (!letter && (i == 0 || (c != '-' && !(c >= '0' && c <= '9')))) return false;
    }
    return name.n > 0;
}

/* The same letters as a name would have them, for the remedy. */
static str as_name(arena *scratch, str wrong)
{
    text_builder b = {.keep = scratch};
    bool gap = false;
    for (size_t i = 0; i < wrong.n; i++) {
        char c = wrong.p[i];
        if (c >= 'A' && c <= 'Z') c = (char)(c - 'A' + 'a');
        bool fits = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9' && b.length > 0);
        if (fits && gap && b.length > 0) text_add(&b, STR("-"));
        if (fits) text_add(&b, (str){&c, 1});
        gap = !fits;
    }
    return text_done(&b);
}

static bool is_reserved(str name)
{
    for (size_t i = 0; i < sizeof reserved / sizeof *reserved; i++)
        if (str_is(name, reserved[i])) return true;
    return false;
}

bool check_name(reader *r, str name, span at, const char *what)
{
    if (is_reserved(name)) {
        fault *f = fault_add(r->list, FAULT_BAD_NAME, at,
                             "'%.*s' can't name %s: the language uses this word itself.",
                             STR_ARG(name), what);
        fault_help(r->list, f, "Choose a longer name, such as '%.*s-one'.", STR_ARG(name));
        return false;
    }
    if (name.n > NAME_LENGTH_MAX) {
        fault *f = fault_add(r->list, FAULT_BAD_NAME, at, "This name has more than %d characters.",
                             NAME_LENGTH_MAX);
        fault_help(r->list, f, "Shorten it.");
        return false;
    }
    if (is_name(name)) return true;
    fault *f = fault_add(r->list, FAULT_BAD_NAME, at,
                         "'%.*s' can't name %s: a name is small letters, digits and hyphens, and "
                         "begins with a letter.",
                         STR_ARG(name), what);
    str better = as_name(r->scratch, name);
    if (better.n > 0) fault_help(r->list, f, "Write '%.*s'.", STR_ARG(better));
    return false;
}

/* ---- collecting ---- */

typedef struct pile { /* entries of one section in file order */
    named *items;
    uint32_t count, room;
} pile;

static void pile_add(reader *r, pile *p, named entry)
{
    if (p->count == p->room) {
        uint32_t room = p->room == 0 ? 16 : p->room * 2;
        named *items = ARENA_ARRAY(r->scratch, named, room);
        for (uint32_t i = 0; i < p->count; i++) items[i] = p->items[i];
        p->items = items;
        p->room = room;
    }
    p->items[p->count++] = entry;
}

static int by_name_and_place(const void *a, const void *b)
{
    const named *x = a, *y = b;
    int order = str_cmp(x->id.name, y->id.name);
    if (order != 0) return order;
    if (x->id.at.file != y->id.at.file) return x->id.at.file < y->id.at.file ? -1 : 1;
    return (x->id.at.start > y->id.at.start) - (x->id.at.start < y->id.at.start);
}

static void report_twice(reader *r, section s, const named *again, const named *before)
{
    assert(str_eq(again->id.name, before->id.name));
    if (again->made_question != NO_ID || before->made_question != NO_ID) {
        const named *made = again->made_question != NO_ID ? again : before;
        const named *other = made == again ? before : again;
        fault *f = fault_add(
            r->list, FAULT_MADE_NAME_TAKEN, other->id.at,
            "The name '%.*s' is taken: 'confirms' of a question makes a symptom of this name.",
            STR_ARG(other->id.name));
        fault_note_at(r->list, f, made->id.at, "'confirms' stands here.");
        fault_help(
            r->list, f,
            "Name this symptom otherwise, or leave out 'confirms' and write the symptom in full.");
        return;
    }
    fault *f = fault_add(r->list, FAULT_NAME_TWICE, again->id.at,
                         "There are two %s named '%.*s', so nobody could tell which is meant.",
                         sections[s].key, STR_ARG(again->id.name));
    fault_note_at(r->list, f, before->id.at, "The other one stands here.");
    fault_help(r->list, f, "Rename one of them, or join the two.");
}

static void sort_table(reader *r, section s, pile *p)
{
    name_table *t = &r->tables[s];
    if (p->count > 0) qsort(p->items, p->count, sizeof *p->items, by_name_and_place);
    t->items = p->items;
    t->count = 0;
    for (uint32_t i = 0; i < p->count; i++) {
        named *last = t->count > 0 ? &t->items[t->count - 1] : NULL;
        if (last != NULL && str_eq(last->id.name, p->items[i].id.name))
            report_twice(r, s, &p->items[i], last);
        else
            t->items[t->count++] = p->items[i];
    }
    str *names = ARENA_ARRAY(r->scratch, str, t->count);
    for (uint32_t i = 0; i < t->count; i++) names[i] = t->items[i].id.name;
    t->names = names;
}

static void section_full(reader *r, section s, const node_entry *e)
{
    assert(s < SECTION_COUNT);
    fault *f = fault_add(r->list, FAULT_TOO_MANY, e->key_at, "There are more than %d %s.",
                         SECTION_ENTRIES_MAX, sections[s].key);
    fault_help(r->list, f, "Split the rulebook in two.");
    r->names_lost = true;
}

static void collect_section(reader *r, section s, const node_entry *e, pile *p)
{
    if (e->value->kind != NODE_MAP) {
        str what = str_printf(r->scratch, "'%s'", sections[s].key);
        wrong_kind(r, e->value, what.p, "a map of names");
        r->names_lost = true;
        return;
    }
    str what = str_printf(r->scratch, "a %s", sections[s].entry);
    for (uint32_t i = 0; i < e->value->count; i++) {
        const node_entry *one = &e->value->entries[i];
        if (p->count == SECTION_ENTRIES_MAX) {
            section_full(r, s, one);
            return;
        }
        check_name(r, one->key, one->key_at, what.p);
        pile_add(r, p,
                 (named){.id = label_kept(r, one->key, one->key_at),
                         .body = one->value,
                         .broken = one->value == NULL,
                         .made_question = NO_ID});
    }
}

static void collect_manifest(reader *r, const node_entry *e)
{
    assert(e->value != NULL);
    if (r->manifest == NULL) {
        r->manifest = e->value;
        r->manifest_at = e->key_at;
        return;
    }
    fault *f = fault_add(r->list, FAULT_MANIFEST_TWICE, e->key_at,
                         "'rulebook' stands in two places, so it isn't clear which one holds.");
    fault_note_at(r->list, f, r->manifest_at, "The other one stands here.");
    fault_help(r->list, f, "Keep one 'rulebook' section in the whole folder.");
}

static void unknown_section(reader *r, const node_entry *e)
{
    str names[SECTION_COUNT + 1] = {STR("rulebook")};
    for (uint32_t s = 0; s < SECTION_COUNT; s++) names[s + 1] = str_of(sections[s].key);
    fault *f = fault_add(r->list, FAULT_UNKNOWN_SECTION, e->key_at, "There is no section '%.*s'.",
                         STR_ARG(e->key));
    suggest(r, f, e->key, names, SECTION_COUNT + 1);
    r->names_lost = true;
}

static void collect_entry(reader *r, const node_entry *e, pile *piles)
{
    assert(r->book != NULL);
    if (e->value == NULL) return;
    if (str_is(e->key, "rulebook")) {
        collect_manifest(r, e);
        return;
    }
    for (uint32_t s = 0; s < SECTION_COUNT; s++) {
        if (!str_is(e->key, sections[s].key)) continue;
        collect_section(r, (section)s, e, &piles[s]);
        return;
    }
    unknown_section(r, e);
}

/* Only answers that exist make a symptom; the others are reported with the question. */
static bool has_answer(const node *body, str answer)
{
    const node *answers = node_get(body, "answers");
    if (answers == NULL) return str_is(answer, "yes") || str_is(answer, "no");
    for (uint32_t i = 0; answers->kind == NODE_MAP && i < answers->count; i++)
        if (str_eq(answers->entries[i].key, answer)) return true;
    return false;
}

/* `confirms` makes symptoms; their names must stand in the table before indices are given out. */
static void collect_confirms(reader *r, pile *symptoms)
{
    const name_table *questions = &r->tables[SECTION_QUESTIONS];
    for (uint32_t q = 0; q < questions->count; q++) {
        const named *asked = &questions->items[q];
        const node *confirms = asked->body == NULL ? NULL : node_get(asked->body, "confirms");
        if (confirms == NULL || confirms->kind != NODE_MAP) continue;
        for (uint32_t i = 0; i < confirms->count; i++) {
            const node_entry *e = &confirms->entries[i];
            if (e->value == NULL || !has_answer(asked->body, e->key)) continue;
            str name = str_printf(r->keep, "%.*s-%.*s-confirmed", STR_ARG(asked->id.name),
                                  STR_ARG(e->key));
            pile_add(r, symptoms,
                     (named){.id = {name, e->key_at},
                             .made_question = q,
                             .made_answer = e->key,
                             .made_cause = e->value});
        }
    }
}

/* Conditions name questions, symptoms and conclusions alike, so one name must mean one of them. */
static void check_shared_names(reader *r)
{
    assert(r->tables[SECTION_SYMPTOMS].names != NULL);
    for (uint32_t s = SECTION_SYMPTOMS; s <= SECTION_CONCLUSIONS; s++)
        for (uint32_t i = 0; i < r->tables[s].count; i++) {
            const named *here = &r->tables[s].items[i];
            for (uint32_t t = SECTION_QUESTIONS; t < s; t++) {
                uint32_t there = table_find(&r->tables[t], here->id.name);
                if (there == NO_ID) continue;
                fault *f = fault_add(r->list, FAULT_NAME_CLASH, here->id.at,
                                     "'%.*s' is the name of a %s and of a %s, so a condition could "
                                     "not tell them apart.",
                                     STR_ARG(here->id.name), sections[t].entry, sections[s].entry);
                fault_note_at(r->list, f, r->tables[t].items[there].id.at, "The %s stands here.",
                              sections[t].entry);
                fault_help(r->list, f, "Rename one of them.");
                break;
            }
        }
}

void collect_names(reader *r, const node *const *roots)
{
    pile piles[SECTION_COUNT] = {0};
    for (uint32_t i = 0; i < r->book->files->count; i++) {
        const node *root = roots[i];
        if (root == NULL) continue;
        if (root->kind != NODE_MAP) {
            wrong_kind(r, root, "a file", "a map of sections");
            r->names_lost = true;
            continue;
        }
        for (uint32_t k = 0; k < root->count; k++) collect_entry(r, &root->entries[k], piles);
    }
    sort_table(r, SECTION_QUESTIONS, &piles[SECTION_QUESTIONS]);
    collect_confirms(r, &piles[SECTION_SYMPTOMS]);
    for (uint32_t s = SECTION_QUESTIONS + 1; s < SECTION_COUNT; s++)
        sort_table(r, (section)s, &piles[s]);
    check_shared_names(r);
}
