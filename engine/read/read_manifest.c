/* The section `book`. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/moment.h"
#include "read/reader.h"

static const char *const levels[] = {"low", "medium", "serious", NULL};
enum { LEVELS = 3 };

static void defaults(reader *r)
{
    book *b = r->book;
    b->edition = STR("1");
    b->language = STR("en");
    b->learned_until = STR("");
    b->learned_until_said = span_nowhere();
    b->manifest = r->manifest;
    b->answers_count = 1;
    b->answers_count_said = span_nowhere();
    b->not_listed = 0.03;
    b->two_faults = 0.05;
    b->done_wrongly = 0.05;
    b->comes_back = COMES_BACK_USUALLY;
    b->done_wrongly_said = b->comes_back_said = span_nowhere();
    b->call_minutes = 240;
    static const double worth[4] = {0.05, 0.05, 0.20, 0.40}, price[4] = {0, 10, 30, 120};
    for (int i = 0; i < 4; i++) {
        b->worth_trying[i] = worth[i];
        b->price[i] = price[i];
    }
}

static void read_language(reader *r, const node *n)
{
    str tag;
    if (!read_word(r, n, "a language tag", &tag)) return;
    if (is_language(tag)) {
        r->book->language = str_copy(r->keep, tag);
        return;
    }
    fault *f =
        fault_add(r->list, FAULT_BAD_LANGUAGE, n->at, "'%.*s' is no language tag.", STR_ARG(tag));
    fault_help(r->list, f, "Write a tag such as 'en', 'de' or 'pt-BR'.");
}

/* Roles as they are read: a list among them is of roles beside each other. */
typedef struct rising {
    label *roles;
    texts *texts;
    bool *authorised;
    uint32_t *levels, count, level;
} rising;

static uint32_t names_in(const node *n)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < n->count; i++)
        count += n->items[i]->kind == NODE_LIST ? n->items[i]->count : 1;
    return count;
}

static bool is_too_many(reader *r, const rising *up, span at)
{
    if (up->count < ROLES_MAX) return false;
    fault *f = fault_add(r->list, FAULT_TOO_MANY, at, "There are more than %d roles.", ROLES_MAX);
    fault_help(r->list, f, "Make one role of those that may do the same.");
    return true;
}

static bool role_twice(reader *r, const rising *up, str name, span at)
{
    for (uint32_t i = 0; i < up->count; i++) {
        if (!str_eq(up->roles[i].name, name)) continue;
        fault *f = fault_add(r->list, FAULT_ITEM_TWICE, at, "'%.*s' stands twice in this list.",
                             STR_ARG(name));
        fault_note_at(r->list, f, up->roles[i].at, "It stands here already.");
        fault_help(r->list, f, "Leave one of them out.");
        return true;
    }
    return false;
}

/* {technician: {authorised: yes, text: a technician}} */
static bool is_role_with_keys(const node *n)
{
    return n->kind == NODE_MAP && n->count == 1;
}

static void read_role(reader *r, const node *n, texts *called, bool *authorised)
{
    bool yes = false;
    if (!check_map(r, n, KEYS_ROLE)) return;
    const node *may = node_get(n, "authorised"), *text = node_get(n, "text");
    *authorised = may != NULL && read_yes(r, may, "'authorised'", &yes) && yes;
    if (text != NULL) read_fixed_texts(r, text, "'text'", TEXT_PHRASE, called);
}

static void add_role(reader *r, const node *n, rising *up)
{
    str name;
    if (is_role_with_keys(n)) {
        const node_entry *e = &n->entries[0];
        const node named = {.kind = NODE_TEXT, .at = e->key_at, .text = e->key};
        const uint32_t before = up->count;
        read_role(r, e->value, &up->texts[before], &up->authorised[before]);
        add_role(r, &named, up);
        return;
    }
    if (!read_word(r, n, "a role", &name) || role_twice(r, up, name, n->at)) return;
    check_name(r, name, n->at, "a role");
    mention_add(r->book->mentions,
                (mention){NAMED_ROLE, MENTION_DEFINES, name, STR(""), STR(""), n->at});
    up->roles[up->count] = label_kept(r, name, n->at);
    up->levels[up->count++] = up->level;
}

static void read_role_list(reader *r, const node *n)
{
    uint32_t most = names_in(n);
    rising up = {.roles = ARENA_ARRAY(r->keep, label, most),
                 .texts = ARENA_ARRAY(r->keep, texts, (size_t)most + 1),
                 .authorised = ARENA_ARRAY(r->keep, bool, (size_t)most + 1),
                 .levels = ARENA_ARRAY(r->keep, uint32_t, most)};
    bool fits = true;
    for (uint32_t i = 0; fits && i < n->count; i++, up.level++) {
        const node *item = n->items[i];
        const bool beside = item->kind == NODE_LIST;
        const node *const *all = beside ? item->items : &item;
        for (uint32_t k = 0; fits && k < (beside ? item->count : 1); k++) {
            fits = !is_too_many(r, &up, all[k]->at);
            if (fits) add_role(r, all[k], &up);
        }
    }
    r->book->roles = up.roles;
    r->book->role_text = up.texts;
    r->book->role_level = up.levels;
    r->book->authorised = up.authorised;
    r->book->role_count = up.count;
    r->roles_lost = up.count == 0; /* none of what stands there is a role */
}

static void read_roles(reader *r, const node *n)
{
    uint32_t count = n != NULL && n->kind == NODE_LIST ? names_in(n) : 0;
    r->roles_lost = count == 0;
    if (n == NULL) return;
    if (n->kind != NODE_LIST) {
        wrong_kind(r, n, "'roles'", "a list of names");
        return;
    }
    if (count == 0) {
        fault *f = fault_add(r->list, FAULT_EMPTY, n->at,
                             "There is no role; the first one is who asks for help.");
        fault_help(r->list, f, "Write 'roles: [attendant]'.");
        return;
    }
    read_role_list(r, n);
}

/* A share of calls: a chance, but not all of them. */
static void read_share(reader *r, const node *map, const char *key, double *share)
{
    assert(*share >= 0 && *share < 1);
    const node *n = node_get(map, key);
    double chance;
    if (n == NULL || !read_plain_chance(r, n, "a share of calls", &chance)) return;
    if (chance < 1) {
        *share = chance;
        return;
    }
    fault *f = fault_add(r->list, FAULT_CHANCE_OUTSIDE, n->at,
                         "'%s' can't be all calls: then no cause would be left to find.", key);
    fault_help(r->list, f, "Write a share such as '3 %%'.");
}

static void read_answers_count(reader *r, const node *n)
{
    double power;
    if (n == NULL || !read_plain_chance(r, n, "how much answers count", &power)) return;
    r->book->answers_count_said = n->at;
    if (power >= ANSWERS_COUNT_LEAST) {
        r->book->answers_count = power;
        return;
    }
    fault *f = fault_add(r->list, FAULT_CHANCE_OUTSIDE, n->at,
                         "With so little hardly any answer would move the chances.");
    fault_help(r->list, f, "Write from 10 %% to 100 %%, or leave 'answers-count' out.");
}

/* What is written of one level must fit what holds for the others, be it written or not. */
static void check_risks_rise(reader *r, const node *map, double *values, const char *says)
{
    values[LEVELS] = fmax(values[LEVELS], values[LEVELS - 1]); /* of high risk nothing is written */
    for (int i = 1; i < LEVELS; i++) {
        if (values[i] >= values[i - 1]) continue;
        const node *own = node_get(map, levels[i]);
        if (own == NULL) own = node_get(map, levels[i - 1]);
        assert(own != NULL); /* ours rise */
        fault *f = fault_add(r->list, FAULT_RISK_TURNED_ROUND, own->at,
                             "By this a fix of %s risk %s one of %s risk.", levels[i], says,
                             levels[i - 1]);
        fault_help(r->list, f, "Let the numbers rise from low to serious; two may be the same.");
        return;
    }
}

static void read_worth_trying(reader *r, const node *map)
{
    if (map == NULL || !check_words(r, map, "'worth-trying'", levels)) return;
    bool read = true;
    for (int i = 0; i < LEVELS; i++) {
        const node *n = node_get(map, levels[i]);
        if (n != NULL)
            read = read_plain_chance(r, n, "a chance", &r->book->worth_trying[i]) && read;
    }
    if (read) check_risks_rise(r, map, r->book->worth_trying, "is tried at a smaller chance than");
}

static void read_prices(reader *r, const node *map)
{
    if (map == NULL || !check_words(r, map, "'prices'", levels)) return;
    bool read = true;
    for (int i = 0; i < LEVELS; i++) {
        const node *n = node_get(map, levels[i]);
        if (n != NULL) read = read_minutes(r, n, &r->book->price[i]) && read;
    }
    if (read) check_risks_rise(r, map, r->book->price, "costs less than");
}

/* RFC 3339 in universal time, to the second or finer: "2026-11-25T19:16:00.123Z". */
static bool is_universal_moment(str text)
{
    enum { DATE = 10 };
    tt_moment m;
    return moment_from(text, &m) && text.p[DATE] == 'T' && str_ends(text, "Z");
}

static void read_learned_until(reader *r, const node *n)
{
    str word;
    if (n == NULL || !read_word(r, n, "'learned-until'", &word)) return;
    r->book->learned_until_said = n->at;
    if (is_universal_moment(word)) {
        r->book->learned_until = str_copy(r->keep, word);
        return;
    }
    fault *f = fault_add(r->list, FAULT_BAD_MOMENT, n->at, "'%.*s' is no moment.", STR_ARG(word));
    fault_help(r->list, f,
               "Write it in universal time, such as '2026-11-25T19:16:00Z', as 'learn' writes it.");
}

static void read_manifest_map(reader *r, const node *m)
{
    assert(m->kind == NODE_MAP);
    label here = {STR(""), m->at};
    r->book->manifest_at = m->at;
    const node *language = node_get(m, "language"), *words = node_get(m, "words"),
               *no_danger = node_get(m, "not-danger");
    if (language != NULL) read_language(r, language);
    if (words != NULL) set_word_chances(r, words);
    read_keys(r, m, here, KEYS_BOOK, r->book);
    read_learned_until(r, node_get(m, "learned-until"));
    read_roles(r, need(r, m, here, KEYS_BOOK, "roles"));
    read_cautions(r, node_get(m, "cautions"));
    read_minute_costs(r, node_get(m, "minute-costs"));
    read_answers_count(r, node_get(m, "answers-count"));
    read_share(r, m, "not-listed", &r->book->not_listed);
    read_share(r, m, "two-faults", &r->book->two_faults);
    read_done_wrongly(r, m, &r->book->done_wrongly, &r->book->done_wrongly_said);
    read_comes_back(r, m, &r->book->comes_back, &r->book->comes_back_said);
    if (no_danger != NULL) read_plain_words(r, no_danger, "'not-danger'", &r->book->not_danger);
    read_worth_trying(r, node_get(m, "worth-trying"));
    read_prices(r, node_get(m, "prices"));
    if (node_get(m, "show") != NULL) read_shown(r, node_get(m, "show"));
}

static void manifest_missing(reader *r)
{
    r->roles_lost = true;
    if (r->names_lost) return;
    fault *f = fault_add(r->list, FAULT_MANIFEST_MISSING, span_nowhere(),
                         "No file has the section 'book', which says the title and the roles.");
    fault_help(r->list, f, "Add a section 'book' with 'title' and 'roles' to one file.");
}

void read_manifest(reader *r)
{
    defaults(r);
    default_word_chances(r);
    if (r->manifest == NULL) {
        manifest_missing(r);
    } else if (!check_map(r, r->manifest, KEYS_BOOK)) {
        r->roles_lost = true;
    } else {
        read_manifest_map(r, r->manifest);
    }
    memcpy(r->book->word_chance, r->word_chance, sizeof r->word_chance);
    if (r->book->stop_text.count == 0) r->book->stop_text = our_stop_text(r);
    assert(r->roles_lost || r->book->role_count > 0 || faults_errors(r->list) > 0);
}
