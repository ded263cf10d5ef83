/* Dangers that have happened, whom to call, and words that mean the same. */
#include "read_kit.h"

#define BOOK(manifest) \
    "book:\n  title: T\n  roles: [helper, technician]\n" manifest \
    "questions:\n  drip:\n    ask: Does it drip?\n" \
    "symptoms:\n  drips:\n    text: It drips\n    when: {drip: yes}\n    shown-by: {worn-seal: " \
    "often}\n" \
    "causes:\n  worn-seal:\n    text: The seal is worn\n"

static const emergency *of_name(const book *b, const char *name)
{
    uint32_t id = book_emergency(b, str_of(name));
    if (id == NO_ID) fail_msg("there is no emergency '%s'", name);
    return &b->emergencies[id];
}

/* What the page of the language lists is there, in both languages, and says what to do. */
static void test_every_book_has_ours(void **state)
{
    static const char *const ids[] = {
        "bleeding", "breathing", "burnt",     "caught",     "emergency",         "explosion",
        "eyes",     "fallen",    "fire",      "hurt",       "hydrofluoric-acid", "mixed-products",
        "shock",    "skin",      "swallowed", "unconscious"};
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(&k, BOOK(""));
    assert_int_equal(b->emergency_count, sizeof ids / sizeof *ids);
    for (uint32_t i = 0; i < b->emergency_count; i++) {
        const emergency *e = &b->emergencies[i];
        assert_text(e->id.name, ids[i]);
        assert_true(e->ours && e->call == NO_ID && e->do_now.count >= 3 && e->source.count > 0);
        for (uint32_t l = 0; l < e->do_now.count + e->then.count; l++) {
            const texts *line =
                l < e->do_now.count ? &e->do_now.items[l] : &e->then.items[l - e->do_now.count];
            str en = texts_for(line, STR("en")), es = texts_for(line, STR("es"));
            assert_true(en.n > 0 && es.n > 0 && !str_eq(en, es));
        }
    }
    kit_end(&k);
}

/* Whoever can rinse rinses; the call is the other person's. */
static void test_first_aid_with_water_comes_before_the_call(void **state)
{
    static const char *const washed[] = {"eyes", "skin", "burnt", "hydrofluoric-acid"};
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(&k, BOOK(""));
    for (size_t i = 0; i < sizeof washed / sizeof *washed; i++) {
        const emergency *e = of_name(b, washed[i]);
        uint32_t call = 0;
        while (call < e->do_now.count && str_find(texts_for(&e->do_now.items[call], STR("en")),
                                                  STR("Another person calls")) == SIZE_MAX)
            call++;
        assert_in_range(call, 1, e->do_now.count - 1);
        assert_true(
            str_find(texts_for(&e->do_now.items[0], STR("en")), STR("water now")) != SIZE_MAX ||
            str_find(texts_for(&e->do_now.items[0], STR("en")), STR("running water")) != SIZE_MAX);
    }
    kit_end(&k);
}

#define CREW \
    "emergencies:\n  well-open:\n    heard: [the cap is off, /well.*open/]\n    text: The well " \
    "is open\n    do:\n      - Keep back.\n" \
    "      - Stay there.\n    then:\n      - Tell the neighbours.\n    call: technician\n    " \
    "source: common practice\n"

static void test_a_book_adds_its_own(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b = kit_read_text(&k, BOOK("") CREW);
    const emergency *e = of_name(b, "well-open");
    assert_int_equal(b->emergency_count, 17);
    assert_false(e->ours);
    assert_int_equal(e->heard.count, 2);
    assert_non_null(e->heard.items[1].pattern);
    assert_int_equal(e->do_now.count, 2);
    assert_text(texts_for(&e->then.items[0], STR("en")), "Tell the neighbours.");
    assert_int_equal(e->call, 1);
    for (uint32_t i = 1; i < b->emergency_count; i++)
        assert_true(str_cmp(b->emergencies[i - 1].id.name, b->emergencies[i].id.name) < 0);
    kit_end(&k);
}

static void test_one_that_replaces_ours_stands_in_its_place(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b =
        kit_read_text(&k, BOOK("") "emergencies:\n  soap-in-eye:\n    replaces: eyes\n    source: "
                                   "data sheet\n    text: Soap\n    do:\n      - Rinse.\n");
    const emergency *e = of_name(b, "eyes");
    assert_text(e->id.name, "soap-in-eye");
    assert_ptr_equal(e, of_name(b, "soap-in-eye"));
    assert_int_equal(b->emergency_count, 16);
    assert_int_equal(book_emergency(b, STR("ears")), NO_ID);
    assert_int_equal(book_emergency(b, STR("")), NO_ID);
    assert_non_null(strstr(kit_said(&k), "\"Rinse the eyes with water now, in fresh air.\""));
    kit_end(&k);
}

/* Nothing is said where nothing is lost. */
static void test_one_that_keeps_all_lines_is_no_loss(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    kit_read_text(&k, BOOK("") "emergencies:\n  alarm:\n    replaces: emergency\n    source: works "
                               "rule 1\n    text: Alarm\n    do:\n"
                               "      - Press the red knob.\n      - Go where you are safe. Take "
                               "everybody with you.\n      - Call the emergency number now.\n"
                               "      - Keep everybody else away.\n      - Do what they tell you "
                               "on the telephone.\n");
    assert_null(strstr(kit_said(&k), "[T455]"));
    kit_end(&k);
}

static void test_while_the_gate_is_shut_a_text_says_what_to_do(void **state)
{
    (void)state;
    kit k, own;
    kit_begin(&k);
    const book *b = kit_read_text(&k, BOOK(""));
    assert_true(str_find(texts_for(&b->stop_text, STR("en")), STR("call the emergency number")) !=
                SIZE_MAX);
    assert_true(texts_for(&b->stop_text, STR("es")).n > 0);
    assert_int_equal(b->not_danger.count, 0);
    kit_begin(&own);
    b = kit_read_text(&own,
                      BOOK("  stop-text: Go to the gate.\n  not-danger: [photo eye, hot wax]\n"));
    assert_text(texts_for(&b->stop_text, STR("es")), "Go to the gate.");
    assert_int_equal(b->not_danger.count, 2);
    assert_text(b->not_danger.items[1].name, "hot wax");
    kit_end(&own);
    kit_end(&k);
}

#define CONTACTS \
    "site:\n  title: North\n  emergency-number: 911\n  contacts:\n" \
    "    - role: technician\n      post: night desk\n      telephone: 555-0142\n      hours: 22 " \
    "to 6\n" \
    "    - purpose: water supplier\n      post: front office\n      telephone: +1 (402) 555-0143 " \
    "ext. 7\n"

static void test_contacts_of_the_example_and_of_a_site(void **state)
{
    (void)state;
    for (int own = 0; own < 2; own++) {
        kit k;
        kit_begin(&k);
        const book *b =
            own ? kit_read_text_at(&k, BOOK(""), CONTACTS) : kit_read_text(&k, BOOK("") CONTACTS);
        assert_int_equal(b->site_is_example, !own);
        assert_text(b->emergency_number, "911");
        assert_int_equal(b->contact_count, 2);
        assert_int_equal(b->contacts[0].role, 1);
        assert_text(texts_for(&b->contacts[0].post, STR("en")), "night desk");
        assert_text(texts_for(&b->contacts[0].hours, STR("en")), "22 to 6");
        assert_int_equal(b->contacts[1].role, NO_ID);
        assert_text(texts_for(&b->contacts[1].purpose, STR("en")), "water supplier");
        assert_text(b->contacts[1].telephone, "+1 (402) 555-0143 ext. 7");
        assert_text(texts_for(&b->contacts[1].hours, STR("en")), "");
        kit_end(&k);
    }
}

static void test_what_can_be_called(void **state)
{
    static const struct {
        const char *number;
        bool good;
    } numbers[] = {{"112", true},
                   {"18", true},
                   {"555-0142", true},
                   {"555 0142 ext 12", true},
                   {"+44 20 7946 0142", true},
                   {"7", false},
                   {"555-0142 or ask", false},
                   {"ext. 12", false},
                   {"555-0142 ext. desk", false},
                   {"55+5", false}};
    (void)state;
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        kit k;
        kit_begin(&k);
        kit_add(&k, STR("rules.yaml"),
                str_printf(k.keep, BOOK("") "site:\n  title: North\n  emergency-number: %s\n",
                           numbers[i].number));
        kit_read(&k);
        if ((strstr(kit_said(&k), "[T456]") == NULL) != numbers[i].good)
            fail_msg("%s", numbers[i].number);
        kit_end(&k);
    }
}

static void test_words_by_language_the_books_own_first(void **state)
{
    (void)state;
    kit k;
    kit_begin(&k);
    const book *b =
        kit_read_text(&k, BOOK("  language: es\n") "words-for:\n  water: [agua]\n  pump:\n    en: "
                                                   "[pump, motor]\n    es: bomba\n    de: []\n");
    assert_null(b);
    kit_end(&k);
    kit_begin(&k);
    b = kit_read_text(&k, BOOK("  language: es\n") "words-for:\n  water: [agua]\n  pump:\n    en: "
                                                   "[pump, motor]\n    es: bomba\n");
    assert_int_equal(b->concept_count, 2);
    assert_text(b->concepts[0].id.name, "pump");
    assert_int_equal(b->concepts[0].count, 2);
    assert_text(b->concepts[0].items[0].language, "es");
    assert_text(b->concepts[0].items[0].words.items[0].name, "bomba");
    assert_int_equal(b->concepts[0].items[1].words.count, 2);
    assert_text(b->concepts[1].items[0].language, "es");
    kit_end(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_book_has_ours),
        cmocka_unit_test(test_first_aid_with_water_comes_before_the_call),
        cmocka_unit_test(test_a_book_adds_its_own),
        cmocka_unit_test(test_one_that_replaces_ours_stands_in_its_place),
        cmocka_unit_test(test_one_that_keeps_all_lines_is_no_loss),
        cmocka_unit_test(test_while_the_gate_is_shut_a_text_says_what_to_do),
        cmocka_unit_test(test_contacts_of_the_example_and_of_a_site),
        cmocka_unit_test(test_what_can_be_called),
        cmocka_unit_test(test_words_by_language_the_books_own_first),
    };
    return cmocka_run_group_tests_name("emergencies, contacts, words", tests, NULL, NULL);
}
