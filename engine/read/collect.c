/* The names of every section over all files, before any body is read. What is written for each
 * piece of a kind gets one entry for each piece. */
#include <assert.h>

#include "read/piles.h"

/* ---- entries of a section ---- */

static void section_full(reader *r, section s, const node_entry *e)
{
    assert(s < SECTION_COUNT);
    fault *f = fault_add(
        r->list, FAULT_TOO_MANY, e->key_at, "There are more than %d %s%s.", SECTION_ENTRIES_MAX,
        section_key(s), r->book->piece_count > 0 ? ", with those for each piece of equipment" : "");
    fault_help(r->list, f, "Split the book in two.");
    r->names_lost = true;
}

/* The kind that an entry, or all of a file, is written for; NO_ID if it is shared. False: it names
 * no kind. */
static bool kind_of_entry(reader *r, const node *body, const char *key, uint32_t *kind)
{
    const node *n = node_get(body, key);
    *kind = NO_ID;
    str word;
    if (n == NULL) return true;
    if (!read_word(r, n, "a kind of equipment", &word)) return false;
    *kind = resolve_kind(r, word, n->at);
    return *kind != NO_ID;
}

/* What is written once and read for each piece must stay within bounds too. */
static void too_much_for_each(reader *r, span at, const char *what, unsigned most, const char *of)
{
    fault *f =
        fault_add(r->list, FAULT_TOO_MANY, at,
                  "Written out for each piece of equipment, the book %s %u %s.", what, most, of);
    fault_help(r->list, f, "Name fewer pieces of equipment at the site, or split the book in two.");
    r->names_lost = true;
}

/* What is a list or a text of its own and the same for each piece is there once. */
static bool is_shared(const node_entry *e)
{
    static const char *const keys[] = {"answers", "heard", "once-running", "steps"};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        if (str_is(e->key, keys[i])) return is_same_for_all(e->value);
    return false;
}

static uint32_t nodes_in(const node *n)
{
    uint32_t all = 1;
    for (uint32_t i = 0; n->kind != NODE_TEXT && i < n->count; i++)
        if (n->kind == NODE_LIST)
            all += nodes_in(n->items[i]);
        else
            all += is_shared(&n->entries[i]) ? 1 : nodes_in(n->entries[i].value);
    return all;
}

static uint32_t nodes_counted(reader *r, const node *body)
{
    if (r->counted != body) r->counted_nodes = nodes_in(body);
    r->counted = body;
    return r->counted_nodes;
}

static bool fits(reader *r, const pile *p, const named *entry)
{
    if (p->count > SECTION_ENTRIES_MAX || r->ground_bytes > GROUND_BYTES_MAX ||
        r->ground_nodes > GROUND_NODES_MAX)
        return false; /* reported */
    r->ground_bytes += entry->body->at.end - entry->body->at.start;
    r->ground_nodes += nodes_counted(r, entry->body);
    if (r->ground_bytes > GROUND_BYTES_MAX)
        too_much_for_each(r, entry->id.at, "is longer than", GROUND_BYTES_MAX / (1024 * 1024),
                          "MB");
    else if (r->ground_nodes > GROUND_NODES_MAX)
        too_much_for_each(r, entry->id.at, "has more than", GROUND_NODES_MAX,
                          "entries, items and texts");
    return r->ground_bytes <= GROUND_BYTES_MAX && r->ground_nodes <= GROUND_NODES_MAX;
}

static void add_for(reader *r, pile *p, named entry, uint32_t piece, uint32_t second)
{
    if (!fits(r, p, &entry)) return;
    entry.of.piece = piece;
    entry.of.second = second;
    entry.id.name = name_of_piece(r, r->keep, entry.of.base, piece, second);
    pile_add(r, p, entry);
}

static void add_for_pieces(reader *r, pile *p, named entry, uint32_t kind, bool pairs)
{
    const book *b = r->book;
    for (uint32_t i = 0; i < b->piece_count; i++) {
        if (b->pieces[i].kind != kind) continue;
        if (!pairs) add_for(r, p, entry, i, NO_ID);
        for (uint32_t k = 0; pairs && k < b->pieces[i].after.count; k++)
            add_for(r, p, entry, i, b->pieces[i].after.items[k]);
    }
}

static void add_base(reader *r, pile *bases, named entry, uint32_t kind, bool pair)
{
    entry.id.name = entry.of.base;
    entry.of.piece = kind;
    entry.of.second = pair ? kind : NO_ID;
    pile_add(r, bases, entry);
}

/* A lone piece's entry is there once, under its bare name. */
static void add_for_kind(reader *r, pile *p, named entry, uint32_t kind, bool pairs)
{
    if (!r->book->kinds[kind].lone) {
        add_for_pieces(r, p, entry, kind, pairs);
    } else if (!pairs && fits(r, p, &entry)) {
        entry.of.lone = kind + 1;
        pile_add(r, p, entry);
    }
}

static void each_and_pair(reader *r, const named *entry)
{
    fault *f = fault_add(r->list, FAULT_KEY_OUT_OF_PLACE, entry->id.at,
                         "The rule '%.*s' is written for each piece and for each pair at once.",
                         STR_ARG(entry->id.name));
    fault_help(r->list, f, "Keep 'for-each' or 'for-each-pair'.");
}

/* What an entry says itself comes before what the head of its file says. */
static void collect_one(reader *r, section s, named entry, piles *p)
{
    uint32_t each = NO_ID, pair = NO_ID;
    bool for_pieces = s < SECTION_CASES;
    bool good = !for_pieces ||
                (kind_of_entry(r, entry.body, "for-each", &each) &&
                 (s != SECTION_RULES || kind_of_entry(r, entry.body, "for-each-pair", &pair)));
    if (!good) {
        r->names_lost = true; /* nobody knows what its entries would be called */
        return;
    }
    if (pair != NO_ID && each != NO_ID) each_and_pair(r, &entry);
    uint32_t of_file = for_pieces ? p->file_kind : NO_ID;
    uint32_t kind = pair != NO_ID ? pair : each != NO_ID ? each : of_file;
    if (kind != NO_ID) piles_part(r, s, p);
    add_base(r, &p->bases[s], entry, kind, pair != NO_ID);
    mention_add(r->book->mentions, (mention){(uint32_t)s, MENTION_DEFINES, entry.of.base, STR(""),
                                             STR(""), entry.id.at});
    if (kind != NO_ID)
        add_for_kind(r, &p->entries[s], entry, kind, pair != NO_ID);
    else if (p->parted[s])
        pile_add(r, &p->entries[s], entry);
}

static void collect_section(reader *r, section s, const node_entry *e, bool quantity, piles *p)
{
    const char *key = quantity ? "quantities" : section_key(s);
    if (e->value->kind != NODE_MAP) {
        str what = str_printf(r->scratch, "'%s'", key);
        wrong_kind(r, e->value, what.p, "a map of names");
        r->names_lost = true;
        return;
    }
    str what = str_printf(r->scratch, "a %s", quantity ? "quantity" : section_entry(s));
    const uint32_t count = e->value->count,
                   few = count <= SECTION_ENTRIES_MAX ? count : SECTION_ENTRIES_MAX + 1;
    pile_expect(r, &p->bases[s], few);
    for (uint32_t i = 0; i < e->value->count; i++) {
        const node_entry *one = &e->value->entries[i];
        if (!check_name(r, one->key, one->key_at, what.p)) name_told_already(r, s, one->key);
        const label id = {one->key, one->key_at};
        named entry = {.id = id,
                       .of = {id.name, NO_ID, NO_ID, 0},
                       .body = one->value,
                       .quantity = quantity,
                       .made_question = NO_ID};
        collect_one(r, s, entry, p);
        const pile *all = p->parted[s] ? &p->entries[s] : &p->bases[s];
        if (all->count <= SECTION_ENTRIES_MAX) continue;
        section_full(r, s, one);
        return;
    }
}

/* ---- sections ---- */

static void collect_manifest(reader *r, const node_entry *e)
{
    assert(e->value != NULL);
    if (r->manifest == NULL) {
        r->manifest = e->value;
        r->manifest_at = e->key_at;
        return;
    }
    fault *f = fault_add(r->list, FAULT_MANIFEST_TWICE, e->key_at,
                         "'book' stands in two places, so it isn't clear which one holds.");
    fault_note_at(r->list, f, r->manifest_at, "The other one stands here.");
    fault_help(r->list, f, "Keep one 'book' section in the whole folder.");
}

static void site_twice(reader *r, const node_entry *e)
{
    fault *f = fault_add(r->list, FAULT_SITE_TWICE, e->key_at,
                         "'site' stands in two places, so it isn't clear which one holds.");
    fault_note_at(r->list, f, r->site_at, "The other one stands here.");
    fault_help(r->list, f, "Keep one, and put others into files of their own, given with --site.");
}

/* A site of its own file takes the place of the one beside the rules. */
static void collect_site(reader *r, const node_entry *e)
{
    if (r->site_file != NO_FILE && e->key_at.file != r->site_file) return;
    if (r->site != NULL) {
        site_twice(r, e);
        return;
    }
    r->site = e->value;
    r->site_at = e->key_at;
}

static void not_of_a_site(reader *r, const node_entry *e)
{
    fault *f = fault_add(r->list, FAULT_SITE_FILE_HOLDS, e->key_at,
                         "A site file holds the section 'site' and the worked 'cases' of that "
                         "site, but here stands '%.*s'.",
                         STR_ARG(e->key));
    fault_help(r->list, f, "Put it into a file of the book.");
}

/* A file without a site would be read as if nothing were known of the equipment. */
static void no_site(reader *r, const node *root)
{
    bool unread = root == NULL && faults_errors(r->list) > 0; /* reported */
    span at = root != NULL ? root->at : (span){r->site_file, 0, 0};
    if (unread) return;
    fault *f =
        fault_add(r->list, FAULT_SITE_MISSING, at,
                  "This site file has no section 'site', so it says nothing of the equipment.");
    fault_help(r->list, f,
               "Write 'site:', and beneath it 'units:' with what there is of each kind.");
    r->names_lost = true;
}

static void collect_of_equipment(reader *r, const node_entry *e, bool of_site)
{
    if (str_is(e->key, "site")) {
        collect_site(r, e);
    } else if (of_site && !str_is(e->key, "cases")) {
        not_of_a_site(r, e);
    } else if (str_is(e->key, "kinds") && e->value->kind != NODE_MAP) {
        wrong_kind(r, e->value, "'kinds'", "a map of names");
        r->names_lost = true;
    }
}

static const node_entry **kind_entries(reader *r, const node *const *roots, uint32_t *count)
{
    uint32_t room = 0;
    for (int pass = 0; pass < 2; pass++) {
        const node_entry **all = ARENA_ARRAY(r->scratch, const node_entry *, room);
        *count = 0;
        for (uint32_t i = 0; i < r->book->files->count; i++) {
            const node *kinds =
                roots[i] == NULL || i == r->site_file ? NULL : node_get(roots[i], "kinds");
            for (uint32_t k = 0; kinds != NULL && kinds->kind == NODE_MAP && k < kinds->count;
                 k++, (*count)++)
                if (pass == 1) all[*count] = &kinds->entries[k];
        }
        room = *count;
        if (pass == 1) return all;
    }
    return NULL;
}

/* What other names are multiplied by comes first. */
static void collect_equipment(reader *r, const node *const *roots)
{
    uint32_t count;
    const node_entry **kinds = kind_entries(r, roots, &count);
    collect_kinds(r, kinds, count);
    for (uint32_t i = 0; i < r->book->files->count; i++)
        for (uint32_t k = 0; roots[i] != NULL && roots[i]->kind == NODE_MAP && k < roots[i]->count;
             k++)
            collect_of_equipment(r, &roots[i]->entries[k], i == r->site_file);
    if (r->site_file < NO_SITE && r->site == NULL) no_site(r, roots[r->site_file]);
    collect_pieces(r);
}

static void collect_entry(reader *r, const node_entry *e, piles *p)
{
    if (str_is(e->key, "kinds") || str_is(e->key, "site") || str_is(e->key, "for-each")) return;
    if (str_is(e->key, "book") ||
        old_key(r, e,
                KEYS_FILE)) { /* the old word for it: what stands beneath is read all the same */
        collect_manifest(r, e);
        return;
    }
    if (str_is(e->key, "quantities")) {
        collect_section(r, SECTION_QUESTIONS, e, true, p);
        return;
    }
    for (uint32_t s = 0; s < SECTION_COUNT; s++) {
        if (!str_is(e->key, section_key((section)s))) continue;
        const bool about_another = s == SECTION_CASES && r->site_file != NO_FILE &&
                                   e->key_at.file != r->site_file; /* another site */
        if (!about_another) collect_section(r, (section)s, e, false, p);
        return;
    }
    unknown_section(r, e);
    r->names_lost = true;
}

/* ---- symptoms that `confirms` makes ---- */

/* Only answers that exist make a symptom; the others are reported with the question. */
static bool has_answer(const node *body, str answer)
{
    const node *answers = node_get(body, "answers");
    if (answers == NULL) return str_is(answer, "yes") || str_is(answer, "no");
    for (uint32_t i = 0; answers->kind == NODE_MAP && i < answers->count; i++)
        if (str_eq(answers->entries[i].key, answer)) return true;
    return false;
}

static void add_confirmed(reader *r, uint32_t question, const node_entry *e, piles *p)
{
    const named *asked = &r->tables[SECTION_QUESTIONS].items[question];
    str base = str_printf(r->keep, "%.*s-%.*s-confirmed", STR_ARG(asked->of.base), STR_ARG(e->key));
    named made = {.id = {base, e->key_at},
                  .of = {base, asked->of.piece, NO_ID, asked->of.lone},
                  .made_question = question,
                  .made_answer = e->key,
                  .made_cause = e->value};
    if (asked->of.piece != NO_ID)
        made.id.name = name_of_piece(r, r->keep, base, asked->of.piece, NO_ID);
    const bool lone = asked->of.lone > 0;
    const uint32_t kind = lone                       ? asked->of.lone - 1
                          : asked->of.piece == NO_ID ? NO_ID
                                                     : r->book->pieces[asked->of.piece].kind;
    if (kind != NO_ID) piles_part(r, SECTION_SYMPTOMS, p);
    add_base(r, &p->bases[SECTION_SYMPTOMS], made, kind, false);
    if (p->parted[SECTION_SYMPTOMS]) pile_add(r, &p->entries[SECTION_SYMPTOMS], made);
    mention_add(r->book->mentions,
                (mention){NAMED_MADE, MENTION_DEFINES, base, asked->of.base, e->key, e->key_at});
}

/* Their names must stand in the table before indices are given out. */
static void collect_confirms(reader *r, piles *p)
{
    const name_table *questions = &r->tables[SECTION_QUESTIONS];
    for (uint32_t q = 0; q < questions->count; q++) {
        const named *asked = &questions->items[q];
        const node *confirms = node_get(asked->body, "confirms");
        if (confirms == NULL || confirms->kind != NODE_MAP) continue;
        for (uint32_t i = 0; i < confirms->count; i++)
            if (has_answer(asked->body, confirms->entries[i].key))
                add_confirmed(r, q, &confirms->entries[i], p);
    }
}

/* ---- all together ---- */

static void check_shared_name(reader *r, section s, const named *here)
{
    for (uint32_t t = SECTION_QUESTIONS; t < s; t++) {
        const named *there = base_find(r, (section)t, here->of.base);
        const char *other = section_entry((section)t);
        if (there == NULL) continue;
        fault *f = fault_add(
            r->list, FAULT_NAME_CLASH, here->id.at,
            "'%.*s' is the name of a %s and of a %s, so a condition could not tell them apart.",
            STR_ARG(here->of.base), other, section_entry(s));
        fault_note_at(r->list, f, there->id.at, "The %s stands here.", other);
        fault_help(r->list, f, "Rename one of them.");
        return;
    }
}

/* Conditions name questions, symptoms and conclusions alike, so one name must mean one of them. */
static void check_shared_names(reader *r)
{
    assert(r->bases[SECTION_SYMPTOMS].names != NULL);
    for (uint32_t s = SECTION_SYMPTOMS; s <= SECTION_CONCLUSIONS; s++)
        for (uint32_t i = 0; i < r->bases[s].count; i++)
            check_shared_name(r, (section)s, &r->bases[s].items[i]);
}

static void collect_root(reader *r, const node *root, piles *p)
{
    if (root->kind != NODE_MAP) {
        wrong_kind(r, root, "a file", "a map of sections");
        r->names_lost = true;
        return;
    }
    if (!kind_of_entry(r, root, "for-each", &p->file_kind)) {
        r->names_lost = true;
        return;
    }
    for (uint32_t k = 0; k < root->count; k++) collect_entry(r, &root->entries[k], p);
}

/* A site file may have worked cases of its own. */
static void collect_site_cases(reader *r, const node *root, piles *p)
{
    p->file_kind = NO_ID;
    for (uint32_t k = 0; root->kind == NODE_MAP && k < root->count; k++)
        if (str_is(root->entries[k].key, "cases")) collect_entry(r, &root->entries[k], p);
}

void collect_names(reader *r, const node *const *roots)
{
    piles *p = ARENA_NEW(r->scratch, piles);
    collect_equipment(r, roots);
    for (uint32_t i = 0; i < r->book->files->count; i++)
        if (roots[i] != NULL)
            (i == r->site_file ? collect_site_cases : collect_root)(r, roots[i], p);
    sort_section(r, SECTION_QUESTIONS, p);
    collect_confirms(r, p);
    for (uint32_t s = 0; s < SECTION_COUNT; s++)
        if (s != SECTION_QUESTIONS) sort_section(r, (section)s, p);
    check_shared_names(r);
    want_our_gate(r);
}
