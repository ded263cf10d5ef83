/* Answers and readings: of the question that is asked, of others that are named, several in one
 * breath. */
#include "ear_kit.h"
#include "test_sources.h"
#include "testing.h"

static const char yaml[] =
    "book:\n  title: Test\n  edition: 1\n  roles: [hand]\n"
    "words-for:\n  tank: {en: [tank, vessel], es: [tanque]}\n  slow: {en: [slow, lazy], es: "
    "[lenta]}\n"
    "questions:\n"
    "  beat:\n    ask: How does the pump beat?\n    answers:\n      steady: Evenly\n      slow: "
    "Slower than usual\n"
    "      stopped:\n        text: It does not beat at all\n        heard: [dead, no beat]\n    "
    "usual: steady\n"
    "  lamp:\n    ask: Does the lamp on the box come on?\n    usual: yes\n"
    "  tank-gauge:\n    ask: What does the gauge at the tank read?\n    reading: pressure\n    "
    "unit: psi\n    plausible: 0 to 150 psi\n"
    "  line-gauge:\n    ask: What does the gauge in the line read?\n    reading: pressure\n    "
    "unit: psi\n    plausible: 0 to 150 psi\n"
    "  room-warmth:\n    ask: How warm is the room?\n    reading: temperature\n    unit: degF\n"
    "  rest:\n    ask: For how many minutes has it rested?\n    reading: time\n    unit: min\n"
    "  inside:\n    ask: How does the belt inside look?\n    answers:\n      torn: Torn\n      "
    "whole: Whole\n    usual: whole\n"
    "symptoms:\n"
    "  stands:\n    text: The pump stands\n    when: {beat: stopped}\n    heard: [pump stands, "
    "nothing moves]\n    shown-by: {worn: 90 %}\n    otherwise: 1 %\n"
    "  dark:\n    text: The lamp is dark\n    when: {lamp: no}\n    shown-by: {worn: 50 %}\n    "
    "otherwise: 1 %\n"
    "  low:\n    text: The tank is low\n    when: {tank-gauge: below 20 psi}\n    shown-by: {worn: "
    "50 %}\n    otherwise: 1 %\n"
    "  line-low:\n    text: The line is low\n    when: {line-gauge: below 20 psi}\n    shown-by: "
    "{worn: 50 %}\n    otherwise: 1 %\n"
    "  cold:\n    text: The room is cold\n    when: {room-warmth: below 40 degF}\n    shown-by: "
    "{worn: 50 %}\n    otherwise: 1 %\n"
    "  rests-long:\n    text: It rests long\n    when: {rest: above 9 min}\n    shown-by: "
    "{worn: 50 %}\n    otherwise: 1 %\n"
    "  torn:\n    text: The belt is torn\n    when: {inside: torn}\n    shown-by: {worn: 50 %}\n   "
    " otherwise: 1 %\n"
    "causes:\n  worn:\n    text: It is worn\n    how-often: common\n    part: p\n"
    "fixes:\n  renew:\n    text: Renew it\n    cures: {worn: 90 %}\n    takes: 5 min\n    role: "
    "hand\n    harm: none\n    put-back: not needed\n";

static ear_kit f;

static int set_up(void **state)
{
    (void)state;
    f = ear_new(yaml);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    ear_free(&f);
    return 0;
}

static uint32_t q(const char *name)
{
    return book_question(f.book, str_of(name));
}

static answer_heard answer(const char *question, const char *said)
{
    return listen_answer(f.l, f.keep, q(question), str_of(said));
}

static void assert_is(const answer_heard *h, const char *question, const char *id, const char *said)
{
    const struct question *asked = &f.book->questions[q(question)];
    uint32_t i = 0;
    while (i < asked->answer_count && !str_is(asked->answers[i].id.name, id)) i++;
    assert_true(i < asked->answer_count);
    if (h->kind != ANSWER_ONE || h->answers != (uint64_t)1 << i) print_message("%s\n", said);
    assert_int_equal(h->kind, ANSWER_ONE);
    assert_int_equal(h->answers, (uint64_t)1 << i);
}

static void assert_answer(const char *question, const char *said, const char *id)
{
    const answer_heard h = answer(question, said);
    assert_is(&h, question, id, said);
}

static void assert_kind(const char *question, const char *said, answer_kind kind)
{
    const answer_heard h = answer(question, said);
    if (h.kind != kind) print_message("%s: %s\n", question, said);
    assert_int_equal(h.kind, kind);
}

static void an_answer_in_its_own_words_or_others(void **state)
{
    (void)state;
    assert_answer("beat", "Slower than usual", "slow");
    assert_answer("beat", "it is lazy", "slow");
    assert_answer("beat", "est\xC3\xA1 lenta", "slow");
    assert_answer("beat", "dead", "stopped");
    assert_answer("beat", "slwo", "slow");
    assert_answer("beat", "does not beat", "stopped");
    assert_answer("beat", "Slow", "slow");
    assert_answer("beat", "it does", "stopped"); /* the beginning of one */
}

static void an_answer_by_its_number(void **state)
{
    (void)state;
    static const char *const second[] = {"2",        "2)",     "#2",         "two",
                                         "number 2", "la dos", "the second", "option two"};
    for (size_t i = 0; i < sizeof second / sizeof *second; i++)
        assert_answer("beat", second[i], "slow");
    assert_kind("beat", "4", ANSWER_NONE);
    assert_kind("beat", "2 or 3", ANSWER_NONE);
    assert_kind("beat", "0", ANSWER_NONE);
}

static void as_usual(void **state)
{
    (void)state;
    assert_answer("beat", "normal", "steady");
    assert_answer("beat", "ok", "steady");
    assert_answer("beat", "como siempre", "steady");
}

static void anything_but_one(void **state)
{
    (void)state;
    const answer_heard h = answer("beat", "it isn't slow");
    assert_int_equal(h.kind, ANSWER_NOT);
    assert_int_equal(h.answers, 1); /* by name: slow, steady, stopped */
}

static void unsure_and_cannot(void **state)
{
    (void)state;
    static const char *const unsure[] = {"I dont know", "idk", "not sure", "no s\xC3\xA9",
                                         "ni idea"};
    static const char *const cannot[] = {"skip", "cant", "no puedo", "can't reach it",
                                         "cannot see"};
    for (size_t i = 0; i < sizeof unsure / sizeof *unsure; i++)
        assert_kind("beat", unsure[i], ANSWER_UNSURE);
    for (size_t i = 0; i < sizeof cannot / sizeof *cannot; i++)
        assert_kind("tank-gauge", cannot[i], ANSWER_CANNOT);
    assert_kind("beat", "maybe slow", ANSWER_SEVERAL); /* asked back */
    assert_kind("beat", "slow or dead", ANSWER_SEVERAL);
}

/* Who supposes has said an answer: it is asked for again, not kept as not being sure. */
static void what_is_supposed_is_no_doubt_alone(void **state)
{
    (void)state;
    static const char *const nothing[] = {"all of them I think", "todas creo", "purple I guess",
                                          "no se mueve"};
    static const char *const unsure[] = {"I think so", "maybe", "creo que si",
                                         "not sure, all of them maybe", "maybe it is, no idea"};
    /* "creo que" is as much of a doubt as "creo" */
    assert_kind("beat", "creo que slow", ANSWER_SEVERAL);
    assert_kind("beat", "creo slow", ANSWER_SEVERAL);
    for (size_t i = 0; i < sizeof nothing / sizeof *nothing; i++)
        assert_kind("beat", nothing[i], ANSWER_NONE);
    for (size_t i = 0; i < sizeof unsure / sizeof *unsure; i++)
        assert_kind("beat", unsure[i], ANSWER_UNSURE);
}

static void yes_and_no(void **state)
{
    (void)state;
    assert_answer("lamp", "yes", "yes");
    assert_answer("lamp", "claro", "yes");
    assert_answer("lamp", "it comes on", "yes");
    assert_answer("lamp", "nope", "no");
    assert_answer("lamp", "stays dark", "no");
    assert_answer("lamp", "no prende", "no");
    assert_answer("lamp", "the lamp does not come on", "no");
    assert_kind("lamp", "purple", ANSWER_NONE);
    assert_kind("beat", "yes", ANSWER_NONE);
}

static void assert_typed(const char *said, const char *typed)
{
    const answer_heard h = answer("tank-gauge", said);
    if (h.kind != ANSWER_READING) print_message("%s\n", said);
    assert_int_equal(h.kind, ANSWER_READING);
    assert_str(h.typed, typed);
}

static void readings_in_words(void **state)
{
    (void)state;
    assert_typed("I see 40", "40");
    assert_typed("40 or so", "40");
    assert_typed("forty five psi", "45 psi");
    assert_typed("fourty-five", "45");
    assert_typed("cuarenta y cinco libras", "45 psi");
    assert_typed("one hundred twenty", "120");
    assert_typed("32 and a half", "32.5");
    assert_typed("32,5", "32,5");
    assert_typed("three bar", "3 bar");
    assert_typed("40psi", "40psi");
    assert_typed("est\xC3\xA1 en cero", "0");
    assert_true(answer("tank-gauge", "40").bare);
    assert_false(answer("tank-gauge", "40 psi").bare);
    assert_kind("tank-gauge", "40 or 50", ANSWER_VAGUE);
    assert_kind("tank-gauge", "forty something", ANSWER_VAGUE);
    assert_kind("tank-gauge", "3 ft", ANSWER_OTHER_UNIT);
    assert_kind("tank-gauge", "3 gizmos", ANSWER_OTHER_UNIT);
    assert_kind("tank-gauge", "high", ANSWER_NONE);
}

/* A limit that a reading keeps to is no reading of it, and neither is what it is not. */
static void limits_are_asked_back(void **state)
{
    (void)state;
    static const char *const limits[] = {"less than 20 psi",
                                         "more than 20 psi",
                                         "under 20",
                                         "it is below 20 psi",
                                         "over 100",
                                         "above 100 psi",
                                         "at least 20",
                                         "20 or less",
                                         "20 or more",
                                         "20 less than yesterday",
                                         "up to 20",
                                         "<20",
                                         "> 20",
                                         "menos de 20",
                                         "mas de 20 libras",
                                         "no mas de 20",
                                         "hasta 20",
                                         "no llega a 20",
                                         "bajo 20",
                                         "20 o menos",
                                         "not 20",
                                         "it is not 20 psi",
                                         "isn't 20",
                                         "it does not read 20",
                                         "no marca 20",
                                         "one in fifty",
                                         "one thousand two hundred psi"};
    for (size_t i = 0; i < sizeof limits / sizeof *limits; i++)
        assert_kind("tank-gauge", limits[i], ANSWER_VAGUE);
    assert_typed("no it is 20 psi", "20 psi");
    assert_typed("no, 20 psi", "20 psi");
    assert_typed("it does not move, 20 psi", "20 psi");
    assert_typed("about 20", "20");
    assert_typed("m\xC3\xA1s o menos veinte", "20");
    assert_typed("more or less 20", "20");
    assert_typed("20 more or less", "20");
    assert_typed("veinte mas o menos", "20");
    assert_typed("one hundred and twenty five psi", "125 psi");
    assert_str(answer("room-warmth", "it is -5 degrees f").typed, "-5 degrees f");
    assert_str(answer("room-warmth", "menos cinco grados f").typed, "-5 degF");
}

static listen_parts all(const char *asked, const char *said)
{
    return listen_all(f.l, f.keep, asked == NULL ? NO_ID : q(asked), NULL, str_of(said));
}

static void several_in_one_breath(void **state)
{
    (void)state;
    listen_parts p =
        all("beat", "it is slow and the tank gauge reads 40 psi, lamp stays dark, boss is away");
    assert_int_equal(p.count, 4);
    assert_is(&p.items[0].answer, "beat", "slow", "slow");
    assert_int_equal(p.items[1].question, q("tank-gauge"));
    assert_str(p.items[1].answer.typed, "40 psi");
    assert_int_equal(p.items[2].question, q("lamp"));
    assert_is(&p.items[2].answer, "lamp", "no", "dark");
    assert_int_equal(p.items[3].kind, LISTEN_UNUSED);
    assert_str(p.items[3].words, "boss is away");
}

static void what_is_unclear_is_asked_back(void **state)
{
    (void)state;
    listen_parts p = all(NULL, "the gauge says 40");
    assert_int_equal(p.count, 1);
    assert_int_equal(p.items[0].kind, LISTEN_WHICH);
    assert_int_equal(p.items[0].question_count, 2);
    p = all("tank-gauge", "40");
    assert_int_equal(p.items[0].kind, LISTEN_ANSWER);
    assert_int_equal(p.items[0].question, q("tank-gauge"));
    p = all("tank-gauge", "line gauge 30");
    assert_int_equal(p.items[0].question, q("line-gauge"));
    p = all(NULL, "70 degF in here");
    assert_int_equal(p.items[0].kind, LISTEN_UNUSED); /* a number of nothing that was named */
}

static void a_unit_names_no_question(void **state)
{
    (void)state;
    listen_parts p = all(NULL, "it quits after 20 minutes");
    for (uint32_t i = 0; i < p.count; i++) assert_true(p.items[i].question != q("rest"));
    p = all(NULL, "it rested 20 minutes");
    assert_int_equal(p.items[0].question, q("rest"));
    assert_str(p.items[0].answer.typed, "20 minutes");
}

/* What is for others to find out is not taken from words that happen to fit. */
static void what_others_have_to_look_at_is_not_heard(void **state)
{
    (void)state;
    bool others[16] = {false};
    assert_in_range(f.book->question_count, 1, 16);
    listen_parts p = all(NULL, "the belt inside is torn");
    assert_is(&p.items[0].answer, "inside", "torn", "torn");
    others[q("inside")] = true;
    p = listen_all(f.l, f.keep, NO_ID, others, str_of("the belt inside is torn"));
    assert_int_equal(p.items[0].kind, LISTEN_UNUSED);
    p = listen_all(f.l, f.keep, q("inside"), others, str_of("torn"));
    assert_is(&p.items[0].answer, "inside", "torn", "torn"); /* where it is asked all the same */
}

static void a_complaint_beside_a_reading(void **state)
{
    (void)state;
    listen_parts p = all(NULL, "pump stands, tank gauge 10 psi");
    assert_int_equal(p.count, 2);
    assert_int_equal(p.items[0].kind, LISTEN_COMPLAINT);
    assert_str(f.book->symptoms[p.items[0].complaint->ranked[0].symptom].id.name, "stands");
    assert_int_equal(p.items[1].question, q("tank-gauge"));
    assert_int_equal(all(NULL, "").count, 0);
    assert_int_equal(all("beat", "?!").count, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_answer_in_its_own_words_or_others),
        cmocka_unit_test(an_answer_by_its_number),
        cmocka_unit_test(as_usual),
        cmocka_unit_test(anything_but_one),
        cmocka_unit_test(unsure_and_cannot),
        cmocka_unit_test(what_is_supposed_is_no_doubt_alone),
        cmocka_unit_test(yes_and_no),
        cmocka_unit_test(readings_in_words),
        cmocka_unit_test(limits_are_asked_back),
        cmocka_unit_test(several_in_one_breath),
        cmocka_unit_test(what_is_unclear_is_asked_back),
        cmocka_unit_test(a_unit_names_no_question),
        cmocka_unit_test(what_others_have_to_look_at_is_not_heard),
        cmocka_unit_test(a_complaint_beside_a_reading),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
