/* What is written for each piece of a kind, read for the pieces there are. */
#include "read_kit.h"

#define HEAD \
    "book:\n  title: T\n  roles: [helper]\n" \
    "kinds:\n  filter:\n    one: filter\n    ask: Which?\n"
#define QUESTIONS \
    "questions:\n" \
    "  running:\n    ask: Does it run?\n" \
    "  look:\n    for-each: filter\n    ask: How does {filter} look?\n" \
    "    answers:\n      clean: Clean\n      caked: Caked\n    confirms: {caked: full}\n" \
    "  drop:\n    for-each: filter\n    ask: What is the drop?\n    reading: pressure\n    unit: " \
    "psi\n"
#define CAUSES \
    "causes:\n" \
    "  worn:\n    text: Worn\n" \
    "  full:\n    for-each: filter\n    text: Full {filter}\n    how-often: 6\n" \
    "  torn:\n    for-each: filter\n    text: Torn {filter}\n    how-often: 6\n    each: yes\n"
/* The names are not in the order in which the water goes through. */
#define SITE \
    "site:\n  units:\n    filter:\n" \
    "      coarse:\n        text: the coarse filter\n        comes-before: [fine]\n" \
    "      fine:\n        text: the fine filter\n        comes-before: [carbon]\n" \
    "      carbon: {}\n"
enum { CARBON, COARSE, FINE }; /* pieces, by name */

static const book *read_or_fail(kit *k, const char *text)
{
    kit_begin(k);
    const book *b = kit_read_text(k, text);
    assert_non_null(b);
    return b;
}

static const rule *rule_named(const book *b, const char *name)
{
    for (uint32_t i = 0; i < b->rule_count; i++)
        if (str_is(b->rules[i].id.name, name)) return &b->rules[i];
    fail_msg("there is no rule '%s'", name);
    return NULL;
}

static void assert_subject(const cond *c, const book *b, const char *question)
{
    assert_text(b->questions[c->subject].id.name, question);
}

static void test_spanish_draws_the_article_together(void **state)
{
    (void)state;
    kit k;
    const book *b = read_or_fail(&k, "book:\n  title: T\n  roles: [helper]\n  language: es\n"
                                     "kinds:\n  filter:\n    one: filtro\n    ask: Which?\n"
                                     "causes:\n"
                                     "  full:\n    for-each: filter\n    text: La malla de "
                                     "{filter} frente a {filter}. De {filter}, y {filter}\n"
                                     "site:\n  units:\n    filter:\n      fine:\n        text: el "
                                     "filtro fino\n      pump:\n        text: la bomba\n");
    assert_text(
        texts_for(&b->causes[0].text, STR("es")),
        "La malla del filtro fino frente al filtro fino. Del filtro fino, y el filtro fino");
    assert_text(texts_for(&b->causes[1].text, STR("es")),
                "La malla de la bomba frente a la bomba. De la bomba, y la bomba");
    kit_end(&k);
}

/* "La tela de {cloth}", and the site calls one "la tela del techo". */
static void test_a_noun_is_said_once(void **state)
{
    (void)state;
    kit k;
    const book *b = read_or_fail(
        &k,
        "book:\n  title: T\n  roles: [helper]\n  language: es\n"
        "kinds:\n  filter:\n    one: filtro\n    ask: Which?\n"
        "causes:\n"
        "  full:\n    for-each: filter\n    text:\n"
        "      es: La malla de {filter} y las mallas de {filter}. Frente al filtro de {filter}. "
        "El filtro de {filter}\n"
        "      en: The mesh of {filter}. A look at the mesh of {filter}, a mesh of {filter}\n"
        "site:\n  units:\n    filter:\n      fine:\n        text: {es: la malla de arriba, en: "
        "the mesh on top}\n"
        "      wide:\n        text: {es: el filtro ancho, en: the meshwork}\n");
    assert_text(texts_for(&b->causes[0].text, STR("es")),
                "La malla de arriba y las mallas de la malla de arriba. Frente al filtro de la "
                "malla de arriba. El filtro de la malla de arriba");
    assert_text(texts_for(&b->causes[0].text, STR("en")),
                "The mesh on top. A look at the mesh on top, a mesh of the mesh on top");
    assert_text(texts_for(&b->causes[1].text, STR("es")),
                "La malla del filtro ancho y las mallas del filtro ancho. Frente al filtro ancho. "
                "El filtro ancho");
    assert_text(texts_for(&b->causes[1].text, STR("en")),
                "The mesh of the meshwork. A look at the mesh of the meshwork, a mesh of the "
                "meshwork");
    kit_end(&k);
}

static void test_each_piece_gets_its_entries(void **state)
{
    (void)state;
    kit k;
    const book *b = read_or_fail(&k, HEAD QUESTIONS CAUSES SITE);
    static const char *const questions[] = {"drop of carbon", "drop of coarse", "drop of fine",
                                            "look of carbon", "look of coarse", "look of fine",
                                            "running"};
    static const char *const symptoms[] = {"look-caked-confirmed of carbon",
                                           "look-caked-confirmed of coarse",
                                           "look-caked-confirmed of fine"};
    assert_int_equal(b->named_questions, 7);
    for (uint32_t i = 0; i < 7; i++) assert_text(b->questions[i].id.name, questions[i]);
    assert_text(b->questions[5].of.base, "look");
    assert_int_equal(b->questions[5].of.piece, FINE);
    assert_int_equal(b->questions[6].of.piece, NO_ID);
    assert_int_equal(b->symptom_count, 3);
    for (uint32_t i = 0; i < 3; i++) {
        assert_text(b->symptoms[i].id.name, symptoms[i]);
        assert_int_equal(b->symptoms[i].of.piece, i);
        assert_int_equal(b->causes[b->symptoms[i].shown_by[0].cause].of.piece, i);
    }
    assert_int_equal(b->cause_count, 7);
    kit_end(&k);
}

/* The head of a file holds for all its entries, except those that say something else themselves. */
static void test_a_file_for_each_holds_for_its_entries(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    kit_add(&k, STR("a.yaml"),
            STR(HEAD "  tank:\n    ask: Which tanks?\n" QUESTIONS CAUSES SITE
                     "    tank:\n      roof: {}\n"
                     "cases:\n  full:\n    at: [fine]\n    answers: {look: caked}\n    expect: "
                     "{leading-cause: full}\n"));
    kit_add(
        &k, STR("b.yaml"),
        STR("for-each: filter\n"
            "causes:\n  burst:\n    text: Burst {filter}\n  dry:\n    for-each: tank\n    text: "
            "Dry {tank}\n"
            "rules:\n  worse:\n    when: {look: caked}\n    then: {likelier: {burst: 2 times}}\n"
            "  passes:\n    for-each-pair: filter\n    when: {look of first: clean}\n    then: "
            "{caution: Look}\n"));
    const book *b = kit_read(&k);
    assert_non_null(b);
    assert_int_equal(b->cause_count, 7 + 3 + 1);
    assert_int_not_equal(book_cause(b, STR("burst of coarse")), NO_ID);
    assert_int_not_equal(book_cause(b, STR("dry of roof")), NO_ID);
    assert_int_equal(b->rule_count, 3 + 3);
    const rule *worse = rule_named(b, "worse of fine");
    assert_int_equal(worse->factors[0].cause, book_cause(b, STR("burst of fine")));
    assert_subject(worse->when, b, "look of fine");
    kit_end(&k);
}

/* In a case the piece that 'at' names alone of its kind is meant. */
static void test_bare_names_of_a_case_mean_its_piece(void **state)
{
    (void)state;
    kit k;
    const book *b = read_or_fail(&k, HEAD QUESTIONS CAUSES SITE
                                 "cases:\n  full:\n    at: [fine]\n    answers: {look: caked, drop "
                                 "of carbon: 3 psi, running: yes}\n"
                                 "    expect: {leading-cause: full}\n");
    const worked_case *c = &b->cases[0];
    assert_int_equal(c->reply_count, 3);
    assert_text(b->questions[c->replies[0].question].id.name, "drop of carbon");
    assert_text(b->questions[c->replies[1].question].id.name, "look of fine");
    assert_text(b->questions[c->replies[2].question].id.name, "running");
    assert_text(b->causes[c->leading_cause].id.name, "full of fine");
    kit_end(&k);
}

static void test_pieces_are_known_by_kind_and_name(void **state)
{
    (void)state;
    kit k;
    const book *b = read_or_fail(&k, HEAD QUESTIONS CAUSES SITE);
    assert_true(b->has_site);
    assert_int_equal(b->kind_count, 1);
    assert_int_equal(b->piece_count, 3);
    assert_text(texts_for(&b->kinds[0].one, STR("en")), "filter");
    assert_text(texts_for(&b->kinds[0].ask, STR("en")), "Which?");
    assert_text(texts_for(&b->pieces[COARSE].text, STR("en")), "the coarse filter");
    assert_text(texts_for(&b->pieces[CARBON].text, STR("en")), "carbon");
    assert_int_equal(book_piece(b, STR("fine")), FINE);
    assert_int_equal(book_piece(b, STR("gone")), NO_ID);
    kit_end(&k);
}

static void test_bare_names_mean_this_piece_or_the_shared_one(void **state)
{
    (void)state;
    kit k;
    const book *b = read_or_fail(
        &k, HEAD QUESTIONS CAUSES SITE
        "rules:\n  r:\n    for-each: filter\n    when: {all: [{running: yes}, {look: caked}, {look "
        "of carbon: clean}]}\n"
        "    then: {likelier: {full: 2 times, worn: 3 times}, rule-out: [torn], skip: [drop]}\n");
    assert_int_equal(b->rule_count, 3);
    const rule *r = rule_named(b, "r of fine");
    assert_subject(r->when->parts[0], b, "running");
    assert_subject(r->when->parts[1], b, "look of fine");
    assert_subject(r->when->parts[2], b, "look of carbon");
    assert_int_equal(r->factor_count, 3);
    assert_text(b->causes[r->factors[0].cause].id.name, "full of fine");
    assert_near(r->factors[0].factor, 2);
    assert_text(b->causes[r->factors[1].cause].id.name, "torn of fine");
    assert_near(r->factors[1].factor, 0);
    assert_text(b->causes[r->factors[2].cause].id.name, "worn");
    assert_int_equal(r->skip_questions.count, 1);
    assert_text(b->questions[r->skip_questions.items[0]].id.name, "drop of fine");
    kit_end(&k);
}

static void test_any_and_every_in_conditions(void **state)
{
    (void)state;
    kit k;
    const book *b = read_or_fail(&k, HEAD QUESTIONS CAUSES SITE
                                 "rules:\n  some:\n    when: {look of any filter: caked}\n    "
                                 "then: {likelier: {worn: 2 times}}\n"
                                 "  all-low:\n    when: {drop of every filter: below 1 psi}\n    "
                                 "then: {likelier: {worn: 2 times}}\n"
                                 "  not-caked:\n    when: {look-caked-confirmed of any filter: not "
                                 "shown}\n    then: {likelier: {worn: 2 times}}\n");
    const cond *any = rule_named(b, "some")->when, *every = rule_named(b, "all-low")->when;
    assert_int_equal(any->kind, COND_ANY);
    assert_int_equal(any->count, 3);
    assert_subject(any->parts[CARBON], b, "look of carbon");
    assert_subject(any->parts[FINE], b, "look of fine");
    assert_int_equal(every->kind, COND_ALL);
    assert_int_equal(every->count, 3);
    assert_subject(every->parts[COARSE], b, "drop of coarse");
    assert_int_equal(rule_named(b, "not-caked")->when->parts[0]->kind, COND_NOT);
    kit_end(&k);
}

/* Each place where a name may stand for all pieces. */
static void test_any_in_lists_and_maps_means_each(void **state)
{
    (void)state;
    kit k;
    const book *b =
        read_or_fail(&k, HEAD QUESTIONS CAUSES SITE
                     "symptoms:\n  weak:\n    text: Weak\n    when: {running: yes}\n    shown-by: "
                     "{full of any filter: often, worn: seldom}\n"
                     "fixes:\n  flush:\n    text: Flush\n    role: helper\n    cures: {full of "
                     "every filter: usually}\n    harm: none\n    put-back: not needed\n"
                     "    look-again: [look of any filter]\n"
                     "rules:\n  r:\n    when: {running: no}\n"
                     "    then: {likelier: {full of any filter: 2 times}, rule-out: [torn of any "
                     "filter], skip: [drop of any filter]}\n");
    const symptom *weak = &b->symptoms[book_symptom(b, STR("weak"))];
    assert_int_equal(weak->shown_by_count, 4);
    for (uint32_t i = 0; i < 3; i++) {
        assert_int_equal(b->causes[weak->shown_by[i].cause].of.piece, i);
        assert_near(weak->shown_by[i].chance, 0.7);
    }
    assert_near(weak->shown_by[3].chance, 0.15);
    assert_int_equal(b->fixes[0].cures_count, 3);
    assert_int_equal(b->fixes[0].look_again.count, 3);
    const rule *r = rule_named(b, "r");
    assert_int_equal(r->factor_count, 6);
    for (uint32_t i = 0; i < 6; i++) assert_near(r->factors[i].factor, i < 3 ? 2 : 0);
    assert_int_equal(r->skip_questions.count, 3);
    kit_end(&k);
}

static void test_a_cause_is_never_with_the_others_of_its_kind(void **state)
{
    (void)state;
    kit k;
    const book *b =
        read_or_fail(&k, HEAD QUESTIONS SITE "causes:\n  full:\n    for-each: filter\n    text: "
                                             "F\n    never-with: [full of any filter]\n");
    for (uint32_t i = 0; i < 3; i++) {
        assert_int_equal(b->causes[i].never_with.count, 2);
        for (uint32_t k2 = 0; k2 < 2; k2++)
            assert_int_not_equal(b->causes[i].never_with.items[k2], i);
    }
    kit_end(&k);
}

static void test_how_often_is_the_kinds_together_unless_each(void **state)
{
    (void)state;
    kit k;
    const book *b = read_or_fail(&k, HEAD QUESTIONS CAUSES SITE);
    for (uint32_t i = 0; i < b->cause_count; i++) {
        const cause *c = &b->causes[i];
        if (str_is(c->of.base, "full")) assert_near(c->how_often, 2);
        if (str_is(c->of.base, "torn")) assert_near(c->how_often, 6);
        assert_int_equal(c->each, str_is(c->of.base, "torn"));
    }
    kit_end(&k);
}

/* ---- pairs ---- */

#define PAIR_RULE \
    "rules:\n  passes:\n    for-each-pair: filter\n    when: {look of first: clean, drop of " \
    "second: above 5 psi}\n" \
    "    then:\n      caution: \"{first} lets dirt through to {second}.\"\n"

static void test_pairs_follow_the_order_through_others_too(void **state)
{
    (void)state;
    kit k;
    const book *b = read_or_fail(&k, HEAD QUESTIONS CAUSES SITE PAIR_RULE);
    assert_int_equal(b->pieces[COARSE].after.count, 2);
    assert_int_equal(b->pieces[FINE].after.count, 1);
    assert_int_equal(b->pieces[CARBON].after.count, 0);
    assert_int_equal(b->rule_count, 3);
    rule_named(b, "passes of coarse and fine");
    rule_named(b, "passes of fine and carbon");
    const rule *far = rule_named(b, "passes of coarse and carbon");
    assert_subject(far->when->parts[0], b, "drop of carbon");
    assert_subject(far->when->parts[1], b, "look of coarse");
    assert_text(texts_for(&far->caution, STR("en")),
                "The coarse filter lets dirt through to carbon.");
    kit_end(&k);
}

static void test_without_an_order_there_are_no_pairs(void **state)
{
    (void)state;
    kit k;
    const book *b = read_or_fail(&k, HEAD QUESTIONS CAUSES PAIR_RULE
                                 "site:\n  units:\n    filter: {a: {}, b: {}}\n");
    assert_int_equal(b->rule_count, 0);
    kit_end(&k);
}

static void test_a_case_names_a_rule_of_a_pair(void **state)
{
    (void)state;
    kit k;
    const book *b =
        read_or_fail(&k, HEAD QUESTIONS CAUSES SITE PAIR_RULE
                     "cases:\n  c:\n    at: [fine, coarse]\n    answers: {look of coarse: clean}\n"
                     "    expect: {caution: passes of coarse and carbon, first-fix: mend of fine}\n"
                     "fixes:\n  mend:\n    for-each: filter\n    text: M\n    role: helper\n    "
                     "cures: {full: usually}\n    harm: none\n"
                     "    put-back: not needed\n");
    assert_text(b->rules[b->cases[0].caution_rule].id.name, "passes of coarse and carbon");
    assert_text(b->fixes[b->cases[0].first_fix].id.name, "mend of fine");
    assert_int_equal(b->cases[0].at.count, 2);
    assert_int_equal(b->cases[0].at.items[0], COARSE);
    assert_int_equal(b->cases[0].at.items[1], FINE);
    kit_end(&k);
}

/* ---- texts ---- */

static void test_texts_name_the_piece(void **state)
{
    (void)state;
    kit k;
    const book *b = read_or_fail(
        &k, HEAD QUESTIONS CAUSES SITE
        "fixes:\n  change:\n    for-each: filter\n    text: \"{filter} is changed at {drop} or "
        "{drop, bar}, and {look of carbon}\"\n"
        "    steps:\n      - Shut {filter} off. {filter} must be empty! {filter}, {filter}\n      "
        "- Use {{braces}} at {filter}.\n"
        "    role: helper\n    cures: {full: usually}\n    harm: none\n    put-back: not needed\n");
    const fix *f = &b->fixes[book_fix(b, STR("change of fine"))];
    assert_text(texts_for(&f->text, STR("en")), "The fine filter is changed at {drop of fine} or "
                                                "{drop of fine, bar}, and {look of carbon}");
    assert_text(texts_for(&f->steps.items[0], STR("en")),
                "Shut the fine filter off. The fine filter must be empty! The fine filter, the "
                "fine filter");
    assert_text(texts_for(&f->steps.items[1], STR("en")), "Use {{braces}} at the fine filter.");
    kit_end(&k);
}

static void test_each_language_has_its_own_name_of_a_piece(void **state)
{
    (void)state;
    kit k;
    const book *b =
        read_or_fail(&k, HEAD CAUSES "questions:\n  look:\n    for-each: filter\n    ask:\n      "
                                     "en: \"Is {filter} new?\"\n      de: \"{filter}: neu?\"\n"
                                     "site:\n  units:\n    filter:\n      oil:\n        text:\n    "
                                     "      en: the oil filter\n          de: \xC3\xB6lfilter\n"
                                     "      air:\n        text: the air filter\n");
    const texts *oil = &b->questions[book_question(b, STR("look of oil"))].ask;
    const texts *air = &b->questions[book_question(b, STR("look of air"))].ask;
    assert_text(texts_for(oil, STR("en")), "Is the oil filter new?");
    assert_text(texts_for(oil, STR("de")), "\xC3\x96lfilter: neu?");
    assert_text(texts_for(air, STR("de")), "The air filter: neu?");
    kit_end(&k);
}

static void test_a_complaint_reads_without_its_piece(void **state)
{
    (void)state;
    kit k;
    const book *b = read_or_fail(
        &k, HEAD QUESTIONS CAUSES SITE
        "symptoms:\n  high:\n    for-each: filter\n    text: \"Water hardly passes {filter}\"\n"
        "    when: {drop: above 9 psi}\n    shown-by: {full: often}\n");
    const symptom *s = &b->symptoms[book_symptom(b, STR("high of fine"))];
    assert_text(texts_for(&s->text, STR("en")), "Water hardly passes the fine filter");
    assert_text(texts_for(&s->of_any, STR("en")), "Water hardly passes filter");
    kit_end(&k);
}

/* ---- without a site ---- */

static void test_two_stand_ins_of_each_kind(void **state)
{
    (void)state;
    kit k;
    const book *b = read_or_fail(&k, HEAD QUESTIONS CAUSES PAIR_RULE);
    assert_false(b->has_site);
    assert_int_equal(b->piece_count, 2);
    assert_text(b->pieces[0].id.name, "filter-1");
    assert_text(texts_for(&b->pieces[1].text, STR("en")), "filter 2");
    assert_true(b->pieces[0].stand_in && b->pieces[1].stand_in);
    assert_int_equal(b->rule_count, 1);
    assert_text(b->rules[0].id.name, "passes of filter-1 and filter-2");
    kit_end(&k);
}

/* ---- faults are told once, not for each piece ---- */

static void test_a_fault_in_an_entry_for_each_is_told_once(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    kit_add(&k, STR("rules.yaml"),
            STR(HEAD QUESTIONS CAUSES SITE "rules:\n  r:\n    for-each: filter\n    when: {look: "
                                           "cakd}\n    then: {likelier: {ful: 2 times}}\n"));
    assert_null(kit_read(&k));
    if (faults_errors(k.list) != 2) print_error("%s\n", kit_said(&k));
    assert_int_equal(faults_errors(k.list), 2);
    kit_end(&k);
}

static void test_a_site_with_nothing_to_look_at_is_told_so(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    kit_add(&k, STR("rules.yaml"),
            STR(HEAD "causes:\n  full:\n    for-each: filter\n    text: Full {filter}\n"
                     "site:\n  title: Somewhere\n"));
    assert_null(kit_read(&k));
    const char *said = kit_said(&k);
    assert_non_null(strstr(said, "All causes are of equipment, and the site"));
    assert_non_null(strstr(said, "beneath it what there is of 'filter'"));
    assert_null(strstr(said, "No file names a cause"));
    kit_end(&k);
}

/* ---- how much work it is ---- */

/* Bytes that the book takes with so many filters. */
static size_t bytes_with(uint32_t filters)
{
    kit k;
    kit_begin(&k);
    text_builder b = {.keep = k.scratch};
    text_add(&b, STR(HEAD QUESTIONS CAUSES
                     "fixes:\n  change:\n    for-each: filter\n    text: Change {filter} at "
                     "{drop}\n    role: helper\n    cures: {full: usually}\n"
                     "    harm: none\n    put-back: not needed\n"
                     "rules:\n  r:\n    for-each: filter\n    when: {look: caked}\n    then: "
                     "{likelier: {torn: 2 times}}\n"
                     "  dirty:\n    when: {look of every filter: caked}\n    then: {likelier: "
                     "{worn: 2 times}}\n"
                     "site:\n  units:\n    filter:\n"));
    for (uint32_t i = 0; i < filters; i++)
        text_addf(&b, "      f%u: {text: the filter %u}\n", i, i);
    kit_add(&k, STR("rules.yaml"), text_done(&b));
    size_t before = arena_size(k.keep) + arena_size(k.scratch);
    assert_non_null(kit_read(&k));
    assert_int_equal(k.book->named_questions, 1 + 2 * filters);
    size_t taken = arena_size(k.keep) + arena_size(k.scratch) - before;
    kit_end(&k);
    return taken;
}

static void test_work_grows_with_what_there_is(void **state)
{
    (void)state;
    size_t hundred = bytes_with(100), four = bytes_with(400);
    assert_true(four > hundred * 2);
    assert_true(four < hundred * 6);
}

static const book *read_built(kit *k, const text_builder *b)
{
    kit_add(k, STR("rules.yaml"), text_done(b));
    return kit_read(k);
}

static bool said(kit *k, const char *part)
{
    return strstr(kit_said(k), part) != NULL;
}

static void test_twenty_thousand_pieces_are_too_many(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    text_builder b = {.keep = k.keep};
    text_add(&b, STR(HEAD QUESTIONS CAUSES "site:\n  units:\n    filter:\n"));
    for (uint32_t i = 0; i < 20000; i++)
        text_addf(&b, "      f%u: {comes-before: [f%u]}\n", i, i + 1);
    assert_null(read_built(&k, &b));
    assert_true(said(&k, "The site has more than 500 pieces of equipment. [T226]"));
    assert_true(k.book == NULL && faults_errors(k.list) < 5);
    kit_end(&k);
}

static void add_filters(text_builder *b)
{
    text_add(b, STR("site:\n  units:\n    filter:\n"));
    for (uint32_t i = 0; i < 500; i++) text_addf(b, "      f%u: {}\n", i);
}

static void test_pieces_stay_within_a_section(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    text_builder b = {.keep = k.keep};
    text_add(&b, STR(HEAD QUESTIONS CAUSES));
    for (uint32_t i = 0; i < 40; i++)
        text_addf(&b, "  wear-%u: {for-each: filter, text: Wear}\n", i);
    add_filters(&b);
    assert_null(read_built(&k, &b));
    assert_true(said(
        &k, "There are more than 20000 causes, with those for each piece of equipment. [T226]"));
    assert_int_equal(faults_errors(k.list), 1);
    kit_end(&k);
}

/* A chain as long as may be has 500 · 499 / 2 pairs, more than a section holds. */
static void test_pairs_are_bounded(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    text_builder b = {.keep = k.keep};
    text_add(&b, STR(HEAD QUESTIONS CAUSES PAIR_RULE
                     "  last:\n    when: {running: yes}\n    then: {likelier: {worn: 2 times}}\n"
                     "site:\n  units:\n    filter:\n"));
    for (uint32_t i = 0; i < 500; i++)
        text_addf(&b, i < 499 ? "      f%u: {comes-before: [f%u]}\n" : "      f%u: {}\n", i, i + 1);
    assert_null(read_built(&k, &b));
    assert_true(said(
        &k, "There are more than 20000 rules, with those for each piece of equipment. [T226]"));
    assert_int_equal(faults_errors(k.list), 1);
    kit_end(&k);
}

static void test_long_texts_for_many_pieces_are_too_long(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    text_builder b = {.keep = k.keep};
    text_add(&b,
             STR(HEAD QUESTIONS CAUSES "fixes:\n  change:\n    for-each: filter\n    text: T\n    "
                                       "role: helper\n    cures: {full: usually}\n"
                                       "    harm: none\n    put-back: not needed\n    steps:\n"));
    for (uint32_t i = 0; i < 250; i++) text_addf(&b, "      - Step %u %0*d\n", i, 1000, 1);
    add_filters(&b);
    assert_null(read_built(&k, &b));
    assert_true(
        said(&k, "Written out for each piece of equipment, the book is longer than 8 MB. [T226]"));
    assert_int_equal(faults_errors(k.list), 1);
    kit_end(&k);
}

static void test_any_of_many_is_bounded(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    text_builder b = {.keep = k.keep};
    text_add(&b,
             STR(HEAD QUESTIONS CAUSES
                 "rules:\n  r:\n    then: {likelier: {worn: 2 times}}\n    when:\n      any:\n"));
    for (uint32_t i = 0; i < 210; i++) text_add(&b, STR("        - {look of any filter: caked}\n"));
    add_filters(&b);
    assert_null(read_built(&k, &b));
    assert_true(said(&k, "together mean more than 100000 names. [T226]"));
    kit_end(&k);
}

/* A ring of all pieces is one fault, and its way round is not told to the end. */
static void test_a_long_ring_is_one_fault(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    text_builder b = {.keep = k.keep};
    text_add(&b, STR(HEAD QUESTIONS CAUSES "site:\n  units:\n    filter:\n"));
    for (uint32_t i = 0; i < 500; i++)
        text_addf(&b, "      f%u: {comes-before: [f%u]}\n", i, (i + 1) % 500);
    assert_null(read_built(&k, &b));
    assert_int_equal(faults_errors(k.list), 1);
    assert_true(said(&k, "'f0' would come before itself: f0, then f1, then f2,"));
    assert_true(said(&k, "…, then f0. [T246]"));
    assert_true(strlen(kit_said(&k)) < 1000);
    kit_end(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_piece_gets_its_entries),
        cmocka_unit_test(test_spanish_draws_the_article_together),
        cmocka_unit_test(test_a_noun_is_said_once),
        cmocka_unit_test(test_a_file_for_each_holds_for_its_entries),
        cmocka_unit_test(test_bare_names_of_a_case_mean_its_piece),
        cmocka_unit_test(test_pieces_are_known_by_kind_and_name),
        cmocka_unit_test(test_bare_names_mean_this_piece_or_the_shared_one),
        cmocka_unit_test(test_any_and_every_in_conditions),
        cmocka_unit_test(test_any_in_lists_and_maps_means_each),
        cmocka_unit_test(test_a_cause_is_never_with_the_others_of_its_kind),
        cmocka_unit_test(test_how_often_is_the_kinds_together_unless_each),
        cmocka_unit_test(test_pairs_follow_the_order_through_others_too),
        cmocka_unit_test(test_without_an_order_there_are_no_pairs),
        cmocka_unit_test(test_a_case_names_a_rule_of_a_pair),
        cmocka_unit_test(test_texts_name_the_piece),
        cmocka_unit_test(test_each_language_has_its_own_name_of_a_piece),
        cmocka_unit_test(test_a_complaint_reads_without_its_piece),
        cmocka_unit_test(test_two_stand_ins_of_each_kind),
        cmocka_unit_test(test_a_fault_in_an_entry_for_each_is_told_once),
        cmocka_unit_test(test_a_site_with_nothing_to_look_at_is_told_so),
        cmocka_unit_test(test_work_grows_with_what_there_is),
        cmocka_unit_test(test_twenty_thousand_pieces_are_too_many),
        cmocka_unit_test(test_pieces_stay_within_a_section),
        cmocka_unit_test(test_pairs_are_bounded),
        cmocka_unit_test(test_long_texts_for_many_pieces_are_too_long),
        cmocka_unit_test(test_any_of_many_is_bounded),
        cmocka_unit_test(test_a_long_ring_is_one_fault),
    };
    return cmocka_run_group_tests_name("kinds of equipment", tests, NULL, NULL);
}
