/* What stands behind a no at a gate question: of a thing the no holds, a "but" or a yes takes it
 * back. */
#include "ear_kit.h"
#include "listen/said.h"
#include "testing.h"

static void assert_gate(const ear_kit *e, const char *said, bool opens)
{
    const uint32_t danger = book_question(e->book, STR("danger"));
    if ((listen_gate(e->l, e->keep, danger, str_of(said)).kind == GATE_SAFE) != opens)
        fail_msg("'%s' %s", said, opens ? "keeps it shut" : "opens it");
}

static void a_thing_may_follow_and_no_but(void **state)
{
    (void)state;
    static const char *const opens[] = {"no the pump",    "no it is the pump", "no its the hose",
                                        "no la manguera", "no el motor",       "no. the hose"};
    static const char *const shut[] = {"no but the pump hums", "no, but the hose",
                                       "no pero la manguera",  "no, the hose but it is dry",
                                       "no it is yes",         "no there is",
                                       "no, there is a hose"};
    ear_kit e = ear_new(EAR_GATE_BOOK);
    for (size_t i = 0; i < sizeof opens / sizeof *opens; i++) assert_gate(&e, opens[i], true);
    for (size_t i = 0; i < sizeof shut / sizeof *shut; i++) assert_gate(&e, shut[i], false);
    ear_free(&e);
}

/* Nobody knows what stands behind the last word that was read. */
static void a_reply_that_is_cut_keeps_it_shut(void **state)
{
    (void)state;
    ear_kit e = ear_new(EAR_GATE_BOOK);
    text_builder words = {.keep = e.keep};
    text_add(&words, STR("no"));
    for (int i = 1; i < SAID_WORDS_MAX; i++) text_add(&words, STR(" no"));
    assert_gate(&e, text_done(&words).p, true);
    text_add(&words, STR(" smoke"));
    assert_gate(&e, text_done(&words).p, false);
    ear_free(&e);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_thing_may_follow_and_no_but),
        cmocka_unit_test(a_reply_that_is_cut_keeps_it_shut),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
