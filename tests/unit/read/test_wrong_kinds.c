/* Each value of a book put as something else in turn: a map for a text, a list for a map, a word
 * that is no name. Either that may stand there, or it is told where it stands; other places are
 * not told of what only follows from it. */
#include "read_kit.h"

/* As somebody writes it who has mistaken the key or forgot what belongs there. */
static const char *const others[] = {
    "zz",   "zz yy",    "7",       "-1",           "[]",  "{}",
    "[zz]", "{zz: zz}", "[[zz]]",  "[zz, zz]",     "yes", "\"{zz} / 5\"",
    "1:50", "5 psi",    "above 5", "{text: [zz]}", "Aa"};
enum { OTHERS = sizeof others / sizeof *others, VALUES_MAX = 1024 };

/* What stands right by itself, but another place counts on what stood there before. */
static const fault_code of_two_places[] = {FAULT_UNKNOWN_ROLE, FAULT_ANSWER_COUNT,
                                           FAULT_UNKNOWN_PIECE, FAULT_HANGS_WRONG,
                                           FAULT_USUAL_IMPLAUSIBLE};

typedef struct value_at {
    const node *value;
    uint32_t begins; /* its key, or itself in a list */
    bool named; /* a whole entry, or more: what is missed then is told elsewhere, and rightly */
} value_at;

typedef struct values {
    value_at all[VALUES_MAX];
    uint32_t count;
} values;

static void collect(values *v, const node *n, uint32_t begins, int depth)
{
    assert_true(v->count < VALUES_MAX);
    if (depth > 0) v->all[v->count++] = (value_at){n, begins, depth <= 2};
    for (uint32_t i = 0; n->kind == NODE_LIST && i < n->count; i++)
        collect(v, n->items[i], n->items[i]->at.start, depth + 1);
    for (uint32_t i = 0; n->kind == NODE_MAP && i < n->count; i++)
        collect(v, n->entries[i].value, n->entries[i].key_at.start, depth + 1);
}

static bool may_be_elsewhere(const fault *f)
{
    for (size_t i = 0; i < sizeof of_two_places / sizeof *of_two_places; i++)
        if (f->code == of_two_places[i]) return true;
    return str_starts(f->help, "First mend the file that can't be read");
}

/* How many errors there are. */
static uint32_t try_one(str name, str text, const value_at *v, const char *other)
{
    const span at = v->value->at;
    kit k;
    kit_begin(&k);
    kit_add(&k, name,
            str_printf(k.keep, "%.*s%s%.*s", STR_ARG(str_slice(text, 0, at.start)), other,
                       STR_ARG(str_slice(text, at.end, text.n))));
    kit_read(&k);
    uint32_t count;
    bool told_there = false;
    const fault *all = faults_sorted(k.list, k.scratch, &count);
    for (uint32_t i = 0; i < count; i++) {
        if (fault_severity_of(all[i].code) == SEVERITY_WARNING) continue;
        const bool there =
            all[i].at.start <= at.start + strlen(other) && all[i].at.end >= v->begins;
        told_there |= there;
        if (there || v->named || may_be_elsewhere(&all[i])) continue;
        print_error("%s\n", kit_said(&k));
        fail_msg("%s in place of '%.*s', and another place is told", other,
                 STR_ARG(str_slice(text, at.start, at.end)));
    }
    const uint32_t errors = faults_errors(k.list);
    if (errors > 0 && v->named && v->value->kind == NODE_MAP && !told_there && other[0] != '{')
        fail_msg("%s in place of '%.*s' is not told", other,
                 STR_ARG(str_slice(text, at.start, at.end)));
    assert_int_equal(errors == 0, k.book != NULL);
    kit_end(&k);
    return errors;
}

static void try_file(const char *file, uint32_t told_least)
{
    kit k;
    values *v = test_calloc(1, sizeof *v);
    kit_begin(&k);
    assert_true(kit_add_file(&k, str_of(file)));
    const source rules = k.items[0];
    assert_non_null(kit_read(&k));
    if (setjmp(k.out.place)) fail_msg("memory ended");
    const sources alone = {&rules, 1};
    collect(v, load_sources(k.keep, k.scratch, &alone, k.list)[0], 0, 0);
    uint32_t told = 0;
    for (uint32_t i = 0; i < v->count; i++)
        for (int o = 0; o < OTHERS; o++)
            told += try_one(rules.name, rules.bytes, &v->all[i], others[o]) > 0;
    if (told < told_least) fail_msg("%u of %u are told", told, v->count * OTHERS);
    test_free(v);
    kit_end(&k);
}

static void test_of_the_whole_language(void **state)
{
    (void)state;
    try_file("full.yaml", 4000);
}

static void test_of_equipment(void **state)
{
    (void)state;
    try_file("equipment.yaml", 1500);
}

static void test_of_the_rest_of_the_language(void **state)
{
    (void)state;
    try_file("rest.yaml", 5000);
}

static void test_of_quantities(void **state)
{
    (void)state;
    try_file("quantities.yaml", 1000);
}

/* A question without its words or answers has none to name, a fact of nobody knows what may be told
 * anywhere, and what hangs on pieces that can't be read hangs on some. */
static void test_what_follows_is_not_told(void **state)
{
    static const char *const books[] = {
        "book: {title: T, roles: [helper]}\nquestions:\n  q: {role: helper}\nsymptoms:\n  s:\n    "
        "text: S\n    when: {q: much}\n    shown-by: {a: often}\ncauses:\n  a: {text: A}\n",
        "book: {title: T, roles: [helper]}\nquestions:\n  q: {ask: \"Q?\", about: site}\n"
        "site: {answers: {q: yes}}\ncauses:\n  a: {text: A}\n",
        "book: {title: T, roles: [helper]}\nkinds:\n  - pump\nquestions:\n  q: {for-each: pump, "
        "ask: \"Does {pump} run?\"}\nsite: {units: {pump: {one: {text: One}}}}\ncauses:\n  a: "
        "{text: "
        "A}\n",
    };
    (void)state;
    for (size_t i = 0; i < sizeof books / sizeof *books; i++) {
        kit k;
        kit_begin(&k);
        kit_add(&k, STR("rules.yaml"), str_of(books[i]));
        assert_null(kit_read(&k));
        if (faults_errors(k.list) != 1) fail_msg("%s", kit_said(&k));
        kit_end(&k);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_of_the_whole_language),
        cmocka_unit_test(test_of_equipment),
        cmocka_unit_test(test_of_quantities),
        cmocka_unit_test(test_of_the_rest_of_the_language),
        cmocka_unit_test(test_what_follows_is_not_told),
    };
    return cmocka_run_group_tests_name("values of another kind", tests, NULL, NULL);
}
