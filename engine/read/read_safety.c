/* Harm, protection, isolation, and how a step is taken back. */
#include <assert.h>

#include "base/risk_matrix.h"
#include "read/reader.h"

static const char *const worsts[] = {"catastrophic", "critical", "marginal", "negligible", NULL};
static const char *const chances[] = {"frequent",   "probable",   "occasional", "remote",
                                      "improbable", "eliminated", NULL};

/* Both tables of words stand in the standard's order, as the matrix has them. */
static risk_level harm_level(harm_worst worst, harm_chance chance)
{
    return risk_of((risk_severity)worst, (risk_probability)chance);
}

bool harm_is_high(harm_worst worst, harm_chance chance)
{
    return harm_level(worst, chance) == RISK_HIGH;
}

void read_hazards(reader *r, const node *n, safety *out)
{
    if (n->kind != NODE_LIST) {
        wrong_kind(r, n, "'from'", "a list of hazards");
        return;
    }
    if (n->count == 0)
        fault_add(r->list, FAULT_EMPTY, n->at,
                  "No hazard is named. If there is none, write 'harm: none', or a caution without "
                  "'from'.");
    for (uint32_t i = 0; i < n->count; i++) {
        if (n->items[i]->kind == NODE_TEXT && item_twice(r, n, i)) continue;
        uint32_t h = read_choice(r, n->items[i], "a hazard", hazard_names);
        if (h != NO_ID) out->hazards[h] = true;
    }
}

static bool read_level(reader *r, const node *n, harm_worst *worst, harm_chance *chance)
{
    if (!check_map(r, n, KEYS_RISK)) return false;
    label here = {STR(""), n->at};
    const node *w = need(r, n, here, KEYS_RISK, "worst"),
               *c = need(r, n, here, KEYS_RISK, "chance");
    uint32_t word = w == NULL ? NO_ID : read_choice(r, w, "how bad the worst outcome is", worsts);
    uint32_t often = c == NULL ? NO_ID : read_choice(r, c, "the chance of harm", chances);
    if (word == NO_ID || often == NO_ID) return false;
    *worst = (harm_worst)word;
    *chance = (harm_chance)often;
    return true;
}

static void check_levels(reader *r, const node *n, label owner, const safety *s)
{
    assert(s->any);
    if (harm_level(s->protected_worst, s->protected_chance) >
        harm_level(s->unprotected_worst, s->unprotected_chance)) {
        fault *f = fault_add(r->list, FAULT_PROTECTION_HARMS, n->at,
                             "By this, '%.*s' is more dangerous with protection than without.",
                             STR_ARG(owner.name));
        fault_help(r->list, f, "Check 'unprotected' and 'protected'; they may be exchanged.");
    } else if (harm_is_high(s->protected_worst, s->protected_chance)) {
        fault *f = fault_add(r->list, FAULT_NEVER_OFFERED, n->at,
                             "Even with protection the risk of '%.*s' is High (MIL-STD-882E, Table "
                             "III), so it is never offered.",
                             STR_ARG(owner.name));
        fault_help(r->list, f,
                   "Find a safer way, or a 'role' and protection that bring the risk down.");
    }
}

static void harm_wanted(reader *r, const node *n)
{
    const name_table *t = &r->bases[SECTION_HARMS];
    fault *f =
        fault_add(r->list, FAULT_UNKNOWN_WORD, n->at,
                  "'harm' is 'none', says what from and how bad, or names an entry of 'harms'.");
    if (n->kind == NODE_TEXT && nearest_name(r, str_trim(n->text), t->names, t->count) != SIZE_MAX)
        suggest(r, f, str_trim(n->text), t->names, t->count);
    else
        fault_help(r->list, f,
                   "Write 'harm: none', or 'from', 'unprotected' and 'protected' beneath it.");
}

static void read_harm_profile(reader *r, const node *n, label owner, safety *out)
{
    if (n->kind != NODE_MAP) {
        harm_wanted(r, n);
        return;
    }
    check_map(r, n, KEYS_HARM);
    out->any = true;
    label here = {STR(""), n->at};
    const node *from = need(r, n, here, KEYS_HARM, "from"),
               *without = need(r, n, here, KEYS_HARM, "unprotected");
    const node *with = need(r, n, here, KEYS_HARM, "protected");
    if (from != NULL) read_hazards(r, from, out);
    bool good = without != NULL &&
                read_level(r, without, &out->unprotected_worst, &out->unprotected_chance);
    good &= with != NULL && read_level(r, with, &out->protected_worst, &out->protected_chance);
    if (good) check_levels(r, with, owner, out);
}

/* "none", a name of `harms`, or what from and how bad. */
static void read_harm(reader *r, const node *n, label owner, safety *out)
{
    if (n->kind == NODE_TEXT && str_is(str_trim(n->text), "none")) return;
    const uint32_t named =
        n->kind == NODE_TEXT ? table_find(&r->tables[SECTION_HARMS], str_trim(n->text)) : NO_ID;
    if (named == NO_ID || r->book->harms == NULL)
        read_harm_profile(r, n, owner, out);
    else
        *out = r->book->harms[resolve(r, SECTION_HARMS, str_trim(n->text), n->at)].harm;
}

/* ---- while: running, stopped, isolated ---- */

static const char *const states[] = {"running", "stopped", "isolated", NULL};

static void read_while(reader *r, const node *n, safety *out)
{
    if (n->kind == NODE_MAP) {
        static const char *const one[] = {"running", NULL};
        if (!check_words(r, n, "'while'", one)) return;
        const node *why = node_get(n, "running");
        out->state = WORK_RUNNING;
        if (why != NULL) {
            read_texts(r, why, "'running'", TEXT_SENTENCE, &out->why);
            return;
        }
        fault *f = fault_add(r->list, FAULT_MISSING_KEY, n->at, "'while' has no 'running'.");
        fault_help(r->list, f,
                   "Write 'while: running', or beneath it 'running:' and why it has to run.");
        return;
    }
    const uint32_t word = read_choice(r, n, "how the equipment is meanwhile", states);
    if (word != NO_ID) out->state = (work_state)(word + WORK_RUNNING);
}

/* Whoever writes what to wear or to lock knows of a harm: without it the risk would count as low.
 */
static void check_harm_told(reader *r, const node *at, label owner, const safety *s)
{
    const bool isolates = safety_isolates(s);
    if (s->any || (s->protect.count == 0 && !isolates)) return;
    fault *f =
        fault_add(r->list, FAULT_GUARDED_WITHOUT_HARM, at->at,
                  "'%.*s' says what to %s, but not what can hurt, so its risk would count as low.",
                  STR_ARG(owner.name), isolates ? "switch off and lock" : "wear");
    fault_help(r->list, f,
               "Say under 'harm' what from, and how bad it can get 'unprotected' and 'protected'.");
}

static void read_guards(reader *r, const node *map, label owner, safety *out)
{
    const node *protect = node_get(map, "protect"), *isolate = node_get(map, "isolate"),
               *procedures = node_get(map, "procedure"), *state = node_get(map, "while");
    texts_list own = {0};
    if (protect != NULL) read_wear(r, protect, "'protect'", &out->protect);
    if (procedures != NULL) read_procedure_names(r, procedures, out);
    if (isolate != NULL) read_texts_list(r, isolate, "'isolate'", TEXT_SENTENCE, &own);
    if (own.count > 0) check_typed_lines(r, &own, isolate->at, base_of_name(owner.name));
    out->by_hand = own.count > 0;
    texts_join(r, &out->isolate, &own);
    if (state != NULL) read_while(r, state, out);
}

void read_safety(reader *r, const node *map, label owner, key_map_id which, safety *out)
{
    assert(map->kind == NODE_MAP && out != NULL);
    *out = (safety){.at = owner.at};
    const uint32_t before = faults_met(r->list);
    bool harm_needed =
        key_find(key_map_of(which), "harm")
            ->must; /* what can hurt must be said of a fix, if only that nothing can */
    const node *harm = harm_needed ? need(r, map, owner, which, "harm") : node_get(map, "harm");
    if (harm != NULL) read_harm(r, harm, owner, out);
    out->at = harm != NULL ? harm->at : owner.at;
    read_guards(r, map, owner, out);
    const node *told = node_get(map, "isolate");
    if (told == NULL) told = node_get(map, "procedure");
    if (told == NULL) told = node_get(map, "protect");
    if (told != NULL && faults_met(r->list) == before && (harm != NULL || !harm_needed))
        check_harm_told(r, harm != NULL ? harm : told, owner, out);
}

/* "no" would be shown to people as what to do. */
static bool put_back_is_yes_or_no(reader *r, const node *n)
{
    static const char *const words[] = {"no", "yes", "none", "false", "true"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        if (n->kind != NODE_TEXT || !str_is(str_trim(n->text), words[i])) continue;
        fault *f = fault_add(r->list, FAULT_UNKNOWN_WORD, n->at,
                             "'%s' does not say how to put it back.", words[i]);
        fault_help(r->list, f,
                   "Write 'not needed', 'impossible', or a sentence on how to put it back.");
        return true;
    }
    return false;
}

bool read_put_back(reader *r, const node *n, put_back *out)
{
    *out = (put_back){.kind = PUT_BACK_TEXT};
    if (n->kind == NODE_TEXT && str_is(str_trim(n->text), "not needed"))
        out->kind = PUT_BACK_NOT_NEEDED;
    else if (n->kind == NODE_TEXT && str_is(str_trim(n->text), "impossible"))
        out->kind = PUT_BACK_IMPOSSIBLE;
    else
        return !put_back_is_yes_or_no(r, n) &&
               read_texts(r, n, "'put-back'", TEXT_SENTENCE, &out->text);
    return true;
}

void read_harms(reader *r)
{
    const name_table *t = &r->tables[SECTION_HARMS];
    named_harm *all = ARENA_ARRAY(r->keep, named_harm, t->count);
    for (uint32_t i = 0; i < t->count; i++) {
        all[i].id = t->items[i].id;
        enter(r, &t->items[i]);
        read_harm_profile(r, t->items[i].body, t->items[i].id, &all[i].harm);
    }
    r->book->harms = all;
    r->book->harm_count = t->count;
}
