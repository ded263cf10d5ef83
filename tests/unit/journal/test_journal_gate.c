/* Whether danger is ruled out for a writer: what was not safe stays so till somebody who knew of it
 * says otherwise, and each says it for himself, in each sitting anew. */
#include "testing.h"

#include "journal/journal.h"
#include "journal_kit.h"
#include "test_sources.h"

#define SAFE   "{\"question\":\"danger\",\"reply\":\"no\"}"
#define SMOKE  "{\"question\":\"danger\",\"reply\":\"smoke\"}"
#define UNSURE "{\"question\":\"danger\",\"reply\":\"unsure\"}"
#define OTHER  "{\"question\":\"gauge\",\"reply\":\"no\"}"

static gate_says reads(void *context, const journal *j, uint32_t entry)
{
    (void)context;
    if (strcmp(entry_text(j, entry, "question"), "danger") != 0) return GATE_NOTHING;
    return strcmp(entry_text(j, entry, "reply"), "no") == 0 ? GATE_SAFE : GATE_NOT_SAFE;
}

static gate_state state_for(const journal_kit *k, const char *writer)
{
    return journal_gate(kit_journal(k), "danger", writer, reads, NULL).state;
}

static uint32_t because_for(const journal_kit *k, const char *writer)
{
    journal *j = kit_journal(k);
    gate g = journal_gate(j, "danger", writer, reads, NULL);
    return g.because == NO_ENTRY ? NO_ENTRY : j->entries[g.because].source;
}

static journal_kit begun(arena *a)
{
    journal_kit k = journal_kit_new(a);
    kit_add(&k, "east", "begin", "{}");
    return k;
}

static void only_a_safe_answer_opens_it(void **state)
{
    (void)state;
    static const char *const other[] = {UNSURE, SMOKE, OTHER};
    static const gate_state wanted[] = {GATE_DANGER, GATE_DANGER, GATE_ASK};
    for (size_t i = 0; i < 3; i++) {
        arena *a = test_arena();
        journal_kit k = begun(a);
        assert_int_equal(state_for(&k, "east"), GATE_ASK);
        uint32_t said = kit_add(&k, "east", "answer", other[i]);
        assert_int_equal(state_for(&k, "east"), wanted[i]);
        assert_int_equal(because_for(&k, "east"), wanted[i] == GATE_DANGER ? said : NO_ENTRY);
        uint32_t safe = kit_add(&k, "east", "answer", SAFE);
        assert_int_equal(state_for(&k, "east"), GATE_OPEN);
        assert_int_equal(because_for(&k, "east"), safe);
        arena_free(a);
    }
}

static void each_sitting_asks_anew(void **state)
{
    (void)state;
    static const char *const kinds[] = {"resume", "sitting"};
    for (size_t i = 0; i < 2; i++) {
        arena *a = test_arena();
        journal_kit k = begun(a);
        kit_add(&k, "east", "answer", SAFE);
        kit_add(&k, "east", kinds[i], "{\"why\":\"pause\"}");
        assert_int_equal(state_for(&k, "east"), GATE_ASK);
        kit_add(&k, "east", "answer", SAFE);
        assert_int_equal(state_for(&k, "east"), GATE_OPEN);
        arena_free(a);
    }
}

static void each_writer_answers_for_himself(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_add(&k, "east", "answer", SAFE);
    assert_int_equal(state_for(&k, "west"), GATE_ASK); /* has written nothing yet */
    kit_aware(&k, "west", "resume", "{}");
    assert_int_equal(state_for(&k, "west"), GATE_ASK);
    kit_aware(&k, "west", "answer", SAFE);
    assert_int_equal(state_for(&k, "west"), GATE_OPEN);
    assert_int_equal(state_for(&k, "east"), GATE_OPEN);
    arena_free(a);
}

static void danger_shuts_it_for_all_till_one_who_knew_says_safe(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_aware(&k, "west", "resume", "{}");
    kit_add(&k, "east", "answer", SAFE);
    kit_add(&k, "west", "answer", SMOKE);
    assert_int_equal(state_for(&k, "east"), GATE_DANGER);
    assert_int_equal(state_for(&k, "west"), GATE_DANGER);
    kit_add(&k, "east", "answer", SAFE); /* does not know of it */
    assert_int_equal(state_for(&k, "east"), GATE_DANGER);
    assert_int_equal(state_for(&k, "west"), GATE_DANGER);
    kit_aware(&k, "east", "answer", SAFE);
    assert_int_equal(state_for(&k, "east"), GATE_OPEN);
    assert_int_equal(state_for(&k, "west"), GATE_ASK); /* still answers for himself */
    kit_add(&k, "west", "answer", SAFE);
    assert_int_equal(state_for(&k, "west"), GATE_OPEN);
    arena_free(a);
}

static void words_of_danger_shut_it_too(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_add(&k, "east", "answer", SAFE);
    uint32_t count = k.count;
    kit_add(&k, "east", "danger",
            "{\"words\":\"he is caught\",\"list\":\"a\",\"question\":\"another\"}");
    assert_int_equal(state_for(&k, "east"), GATE_OPEN);
    k.count = count;
    kit_add(&k, "east", "danger", "{\"words\":\"he is caught\",\"list\":\"a\"}");
    assert_int_equal(state_for(&k, "east"), GATE_DANGER);
    kit_add(&k, "east", "answer", SAFE);
    assert_int_equal(state_for(&k, "east"), GATE_OPEN);
    arena_free(a);
}

static void words_that_may_mean_danger_ask_whoever_said_them(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_aware(&k, "west", "resume", "{}");
    kit_add(&k, "east", "answer", SAFE);
    kit_add(&k, "west", "answer", SAFE);
    uint32_t asked = kit_add(&k, "east", "recheck", "{\"words\":\"it leaks\"}");
    assert_int_equal(state_for(&k, "east"), GATE_ASK);
    assert_int_equal(because_for(&k, "east"), asked);
    assert_int_equal(state_for(&k, "west"), GATE_OPEN);
    kit_add(&k, "east", "answer", SAFE);
    assert_int_equal(state_for(&k, "east"), GATE_OPEN);
    arena_free(a);
}

static void taking_danger_back_or_settling_it_ends_nothing(void **state)
{
    (void)state;
    static const struct {
        const char *kind, *data;
    } ways[] = {{"back", "{\"step\":{\"writer\":\"east\",\"seq\":3}}"},
                {"settle", "{\"right\":{\"writer\":\"east\",\"seq\":2},\"wrong\":[{\"writer\":"
                           "\"east\",\"seq\":3}]}"}};
    for (size_t i = 0; i < 2; i++) {
        arena *a = test_arena();
        journal_kit k = begun(a);
        kit_add(&k, "east", "answer", SAFE);
        kit_add(&k, "east", "answer", SMOKE);
        kit_add(&k, "east", ways[i].kind, ways[i].data);
        assert_int_equal(state_for(&k, "east"), GATE_DANGER);
        arena_free(a);
    }
}

static void a_safe_answer_that_was_taken_back_opens_nothing(void **state)
{
    (void)state;
    arena *a = test_arena();
    journal_kit k = begun(a);
    kit_add(&k, "east", "answer", SAFE);
    kit_add(&k, "east", "back", "{}");
    assert_int_equal(state_for(&k, "east"), GATE_ASK);
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(only_a_safe_answer_opens_it),
        cmocka_unit_test(each_sitting_asks_anew),
        cmocka_unit_test(each_writer_answers_for_himself),
        cmocka_unit_test(danger_shuts_it_for_all_till_one_who_knew_says_safe),
        cmocka_unit_test(words_of_danger_shut_it_too),
        cmocka_unit_test(words_that_may_mean_danger_ask_whoever_said_them),
        cmocka_unit_test(taking_danger_back_or_settling_it_ends_nothing),
        cmocka_unit_test(a_safe_answer_that_was_taken_back_opens_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
