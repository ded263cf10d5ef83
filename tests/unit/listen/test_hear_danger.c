/* What is danger, what is none, in whose words, and what opens the gate. */
#include <string.h>

#include "ear_kit.h"
#include "listen/said.h"
#include "test_sources.h"
#include "testing.h"

static const char yaml[] = EAR_GATE_BOOK
    "emergencies:\n  ghost:\n    text: A ghost\n    heard: [white lady, '/\\bspook(s|ed)?\\b/', "
    "'/z(e|ee)+k/']\n  "
    "  do: [Run]\n    source: common practice\n";

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

static dangers hear(const char *said)
{
    return listen_danger(f.l, f.keep, str_of(said), LISTEN_PROMPT);
}

/* The first is the most urgent. */
#define assert_heard(said, wanted_list, wanted_id) \
    do { \
        dangers heard_now = hear(said); \
        if (heard_now.list != (wanted_list)) print_message("%s\n", said); \
        assert_int_equal(heard_now.list, wanted_list); \
        assert_str(heard_now.items[0].id, wanted_id); \
    } while (0)

static void assert_none(const char *said)
{
    dangers d = hear(said);
    if (d.list != DANGER_NONE) print_message("%s\n", said);
    assert_int_equal(d.list, DANGER_NONE);
    assert_int_equal(d.count, 0);
}

static void somebody_is_hurt(void **state)
{
    (void)state;
    assert_heard("a man is stuck in the brush", DANGER_A, "caught");
    assert_heard("chemical in my eyes", DANGER_A, "eyes");
    assert_heard("cant see my eyes burn", DANGER_A, "eyes");
    assert_heard("my hand is in there", DANGER_A, "caught");
    assert_heard("he got pulled in", DANGER_A, "caught");
    assert_heard("he is on the floor not moving", DANGER_A, "unconscious");
    assert_heard("he got zapped by the panel", DANGER_A, "shock");
    assert_heard("it shocked me", DANGER_A, "shock");
    assert_heard("me dio un toque", DANGER_A, "shock");
    assert_heard("se lastimo", DANGER_A, "hurt");
    assert_heard("se quema", DANGER_A, "fire");
    assert_heard("the brush hit him", DANGER_A, "caught");
    assert_heard("guy slipped and hit his head", DANGER_A, "caught");
    assert_heard("se le metio el acido en el ojo", DANGER_A, "eyes");
    assert_heard("got hit by the arch", DANGER_A, "caught");
    assert_heard("cant get his hand out", DANGER_A, "caught");
    assert_heard("pulled into the brush", DANGER_A, "caught");
    assert_heard("something burns", DANGER_A, "fire");
    assert_heard("the motor burns", DANGER_A, "fire");
    assert_heard("algo arde", DANGER_A, "fire");
}

/* "Está en el piso": nobody says who, or what. */
static void nobody_is_named_and_it_may_be_somebody(void **state)
{
    (void)state;
    assert_heard("esta en el piso", DANGER_B, "unsafe");
    assert_heard("quedo tirado", DANGER_B, "unsafe");
    assert_heard("is on the floor", DANGER_B, "unsafe");
    assert_heard("est\xC3\xA1 en el piso y no se mueve", DANGER_A, "unconscious");
    assert_heard("on the floor, not moving", DANGER_A, "unconscious");
    assert_heard("esta en el piso el senor", DANGER_A, "unconscious");
    assert_none("la boquilla esta en el piso");
    assert_none("esta en el piso el jabon");
    assert_none("on the floor");
    assert_none("no se mueve");
}

static void what_is_worn_is_somebody_s(void **state)
{
    (void)state;
    assert_none("strap wrapped around the brush");
    assert_none("the straps got pulled into the roller");
    assert_none("una correa enredada en el cepillo");
    assert_none("my belt is loose");
    assert_heard("his strap wrapped around the brush", DANGER_A, "caught");
    assert_heard("my belt wrapped around the shaft", DANGER_A, "caught");
    assert_heard("su correa se enredo en el cepillo", DANGER_A, "caught");
    assert_heard("hair wrapped around the brush", DANGER_A, "caught");
    assert_heard("qwerty wrapped around the brush", DANGER_A, "caught"); /* it may be a name */
}

/* What isn't read may tell of anything. */
static void what_is_too_long_to_be_read_asks(void **state)
{
    (void)state;
    char line[5 * SAID_WORDS_MAX + 16] = "";
    for (uint32_t i = 0; i < SAID_WORDS_MAX; i++) memcpy(line + 5 * i, "foam ", 5);
    assert_int_equal(hear(line).list, DANGER_NONE);
    memcpy(line + sizeof line - 16, "fire", 4);
    const dangers d = hear(line);
    assert_int_equal(d.list, DANGER_B);
    assert_str(str_trim(d.items[0].words), "fire");
    assert_int_equal(listen_danger(f.l, f.keep, str_of(line), LISTEN_NOTE).list, DANGER_A);
    memcpy(line, "fire ", 5);
    assert_heard(line, DANGER_A, "fire");
}

static void things_are_not_somebody(void **state)
{
    (void)state;
    assert_none("the wrap hits the car hard");
    assert_none("head of the pump is white");
    assert_none("foam falls in lumps");
    assert_none("the needle fell");
    assert_none("bulb is burned out");
    assert_none("la bomba no responde");
    assert_none("the hand valve is shut");
    assert_heard("a car is stuck", DANGER_B, "stuck");
}

static void something_leaks_or_smells(void **state)
{
    (void)state;
    assert_heard("stiff foam, air 45 psi, a hose sprays", DANGER_B, "spray");
    assert_heard("hose burst", DANGER_B, "burst");
    assert_heard("it smells of chlorine", DANGER_B, "smell");
    assert_heard("huele a cloro", DANGER_B, "smell");
    assert_heard("it won't stop", DANGER_B, "wont-stop");
    assert_heard("sparks at the box", DANGER_B, "sparks");
    assert_heard("leek by the drum", DANGER_B, "leak");
    assert_heard("acid went into the bleach", DANGER_B, "mixed-products");
    assert_heard("mezcl\xC3\xA9 \xC3\xA1"
                 "cido con cloro",
                 DANGER_B, "mixed-products");
    assert_heard("revolvimos dos productos", DANGER_B, "mixed-products");
}

static void what_is_denied_is_none(void **state)
{
    (void)state;
    assert_none("nobody is hurt");
    assert_none("no hay humo");
    assert_none("there is no smoke");
    assert_none("no smoke, no fire and no leaks");
    assert_none("nadie se lastimó");
    assert_heard("no smoke but he is hurt", DANGER_A, "hurt");
    assert_heard("no, smoke", DANGER_A, "fire");
    assert_heard("no he fell", DANGER_A, "fallen");
    assert_heard("agarro el cable y no se puede soltar", DANGER_A, "shock");
    assert_heard("he went in and not breathing", DANGER_A, "breathing");
    assert_none("no hay humo y no hay heridos");
    assert_none("the drum burns through soap fast");
    assert_none("nothing burns");
    assert_none("nadie lastimado y nada quemado");
    assert_heard("is there smoke?", DANGER_A, "fire");
}

/* What is heard is one thing, what to do first is another: each first aid by its own name. */
static void first_aid_is_that_of_what_happened(void **state)
{
    (void)state;
    assert_heard("it is dry and my eye is burning", DANGER_A, "eyes");
    assert_heard("me arde el ojo", DANGER_A, "eyes");
    assert_heard("dizzy", DANGER_A, "breathing");
    assert_heard("me siento mareado", DANGER_A, "breathing");
    assert_heard("a spray hit me in the face", DANGER_A, "skin");
    assert_heard("a hose burst and it sprays, it hit him in the face", DANGER_A, "skin");
    assert_heard("la manguera se revento y le pego en la cara", DANGER_A, "skin");
    assert_heard("the hose sprays and the brush hit him", DANGER_A, "caught");
    assert_heard("i opened it and it shot me", DANGER_A, "skin");
    assert_heard("product went through my glove", DANGER_A, "skin");
    assert_heard("the kid is crying holding his arm", DANGER_A, "hurt");
    assert_heard("car not moving, kid under the brush", DANGER_A, "caught");
    assert_heard("he is in the brush not moving", DANGER_A, "caught");
    assert_heard("the brush hit him", DANGER_A, "caught");
}

/* No list has every name. */
static void a_name_may_be_somebody(void **state)
{
    (void)state;
    assert_heard("quillo got hit by the brush", DANGER_A, "caught");
    assert_heard("the brush hit Quillo", DANGER_A, "caught");
    assert_heard("and the Quillo is stuck in the brush", DANGER_A, "caught");
    assert_heard("quillo is in the tunnel", DANGER_B, "inside");
    assert_heard("el quillo anda adentro del tunel", DANGER_B, "inside");
    assert_heard("quillo fell", DANGER_A, "fallen");
    assert_none("quillo says it is dry");
    assert_none("the brush hit the mirror");
}

static void slips_are_forgiven_unless_they_are_words(void **state)
{
    (void)state;
    assert_heard("somone is unconcsious", DANGER_A, "unconscious");
    assert_heard("theres smok", DANGER_A, "fire");
    assert_none("all fine, the wire and the tire");
    assert_none("stick, weak, small, well");
}

static void help_alone_is_asked(void **state)
{
    (void)state;
    assert_int_equal(hear("help").list, DANGER_HELP);
    assert_int_equal(hear("ayuda por favor").list, DANGER_HELP);
    assert_none("did it help with it? it helped");
    assert_heard("help he is caught", DANGER_A, "caught");
}

static void notes_hear_the_gravest_only(void **state)
{
    (void)state;
    assert_int_equal(
        listen_danger(f.l, f.keep, STR("leak at elbow, my eyes burn"), LISTEN_NOTE).count, 1);
    assert_int_equal(listen_danger(f.l, f.keep, STR("leak at elbow, taped"), LISTEN_NOTE).list,
                     DANGER_NONE);
    assert_int_equal(listen_danger(f.l, f.keep, STR("help"), LISTEN_NOTE).list, DANGER_NONE);
}

static void the_words_that_said_it_are_given(void **state)
{
    (void)state;
    dangers d = hear("the foam is dry, \xC2\xA1mi mano est\xC3\xA1 atrapada!");
    assert_int_equal(d.list, DANGER_A);
    assert_str(d.items[0].words, "mano est\xC3\xA1 atrapada");
    assert_int_equal(d.items[0].to - d.items[0].from, d.items[0].words.n);
}

static void the_books_own_words(void **state)
{
    (void)state;
    const book *b = f.book;
    assert_heard("the white lady walks", DANGER_A, "ghost");
    assert_str(b->emergencies[hear("spooks").items[0].emergency].id.name, "ghost");
    assert_str(b->emergencies[hear("my eyes burn").items[0].emergency].id.name, "eyes");
    /* what is known to be done for it goes before "somebody is hurt"; another of the grave ones
     * stays first */
    assert_heard("somebody is hurt, the white lady was here", DANGER_A, "ghost");
    assert_heard("emergency, it spooks", DANGER_A, "ghost");
    assert_heard("he is unconscious, the white lady was here", DANGER_A, "unconscious");
    assert_none("no white lady here");
    assert_none("not sure"); /* of a gate answer, and yet no danger */
    assert_none("one hot shot");
    dangers d = hear("like rotten eggs");
    assert_int_equal(d.list, DANGER_B);
    assert_str(b->questions[d.items[0].question].answers[d.items[0].answer].id.name, "gas");
}

static gate_heard gate(const char *question, const char *said)
{
    return listen_gate(f.l, f.keep, book_question(f.book, str_of(question)), str_of(said));
}

static void only_a_plain_no_opens_the_gate(void **state)
{
    (void)state;
    static const char *const safe[] = {"no",
                                       "1",
                                       "1)",
                                       "all fine",
                                       "no nothing like that",
                                       "nothing",
                                       "nada",
                                       "no, the foam is worn",
                                       "no. it is the foam",
                                       "yes all fine",
                                       "No hay nada",
                                       "it's ok"};
    static const char *const shut[] = {"yes",
                                       "si",
                                       "2",
                                       "there is smoke",
                                       "somebody is hurt",
                                       "maybe",
                                       "asdf",
                                       "foam air is 45",
                                       "no se",
                                       "unsure",
                                       "no, but a hose sprays",
                                       "no foam",
                                       "yes ok",
                                       "no idea",
                                       "",
                                       "the gas alarm sounds",
                                       "help",
                                       "no but it is odd",
                                       "not ok",
                                       "no, not fine",
                                       "no yes",
                                       "no. yes",
                                       "no no yes",
                                       "no, come quick",
                                       "no, my hand",
                                       "no the car is burning",
                                       "no the man is under it",
                                       "no. he is under the car",
                                       "no, the foam is xyzzy"};
    for (size_t i = 0; i < sizeof safe / sizeof *safe; i++) {
        if (gate("danger", safe[i]).kind != GATE_SAFE) print_message("%s\n", safe[i]);
        assert_int_equal(gate("danger", safe[i]).kind, GATE_SAFE);
    }
    for (size_t i = 0; i < sizeof shut / sizeof *shut; i++) {
        if (gate("danger", shut[i]).kind == GATE_SAFE) print_message("%s\n", shut[i]);
        assert_int_not_equal(gate("danger", shut[i]).kind, GATE_SAFE);
    }
}

static void assert_gate(const char *question, const char *said, bool opens)
{
    const bool open = gate(question, said).kind == GATE_SAFE;
    if (open != opens) print_message("%s: %s\n", question, said);
    assert_int_equal(open, opens);
}

#define assert_all(question, opens, ...) \
    do { \
        static const char *const all[] = {__VA_ARGS__}; \
        for (size_t i = 0; i < sizeof all / sizeof *all; i++) \
            assert_gate(question, all[i], opens); \
    } while (0)

/* "Is anything dangerous?" "Ok": that the line was read, perhaps, or that the speaker is well. */
static void a_word_that_names_nothing_keeps_it_shut(void **state)
{
    (void)state;
    assert_all("danger", false, "ok", "OK.", "okay", "fine", "good", "perfect", "great", "normal",
               "clear", "calm", "bien", "seguro", "tranquilo", "perfecto", "fine thanks",
               "yes fine", "fine, the foam is worn");
    assert_all("danger", true, "ok no", "no, ok", "all ok", "it is safe", "we're good", "all clear",
               "all good, the foam is worn", "todo bien", "no, fine");
}

static void what_is_said_of_a_part_keeps_it_shut(void **state)
{
    (void)state;
    assert_all("danger", false, "looks good", "works great", "everything works", "funciona bien",
               "as usual", "como siempre", "im fine", "estoy bien", "no worries", "it doesn't",
               "nobody");
    assert_all("danger", false, "nobody is hurt", "no one is hurt", "no fire", "no hay humo",
               "no smoke, no fire", "nothing is leaking", "nobody is inside");
    assert_all("danger", true, "no, nobody is hurt", "no, no smoke", "no leaks, all good",
               "everyone is ok, no leaks, no smoke", "no, looks good", "no, as usual",
               "nobody hurt, all good", "i looked, nothing");
}

static void half_a_no_keeps_it_shut(void **state)
{
    (void)state;
    assert_all("danger", false, "not really", "no not really", "nothing serious", "nada grave",
               "never", "seems fine", "everything seems ok");
    assert_all("still", true, "no", "nope", "nobody");
    assert_all("still", false, "not really", "never", "ok", "fine", "yes", "all good");
}

static void the_gate_names_the_answer(void **state)
{
    (void)state;
    const question *q = &f.book->questions[book_question(f.book, STR("danger"))];
    assert_str(q->answers[gate("danger", "there are sparks").answer].id.name, "smoke");
    assert_str(q->answers[gate("danger", "rotten eggs").answer].id.name, "gas");
    assert_str(q->answers[gate("danger", "no").answer].id.name, "safe");
    assert_int_equal(gate("danger", "yes").answer, NO_ID);
    assert_int_equal(gate("danger", "I am not sure").kind, GATE_UNSURE);
}

/* From here, or any more? Their eyes may have been hit. */
static void whoever_cannot_see_may_be_blind(void **state)
{
    (void)state;
    static const char *const blind[] = {"i can't see", "he cant see", "help i cant see now",
                                        "no veo", "no puedo ver"};
    for (size_t i = 0; i < sizeof blind / sizeof *blind; i++) {
        const gate_heard g = gate("danger", blind[i]);
        if (g.danger.list != DANGER_A) print_message("%s\n", blind[i]);
        assert_int_equal(g.kind, GATE_DANGER);
        assert_int_equal(g.danger.list, DANGER_A);
        assert_str(g.danger.items[0].id, "eyes");
    }
    assert_int_equal(gate("danger", "can't see from here").kind, GATE_UNSURE);
    assert_int_equal(gate("danger", "i can't see it").kind, GATE_UNSURE);
    assert_none("i can't see"); /* at another question, which asks to look */
}

static bool is_grave(arena *scratch, str words)
{
    bool grave = false;
    listen_are_grave(scratch, &(label){.name = words}, 1, &grave);
    return grave;
}

static void yes_is_safe_where_the_book_says_so(void **state)
{
    (void)state;
    assert_int_equal(gate("clear", "yes").kind, GATE_SAFE);
    assert_int_equal(gate("clear", "no").kind, GATE_DANGER);
    assert_int_equal(gate("clear", "all fine").kind, GATE_NOTHING);
}

static void grave_words(void **state)
{
    (void)state;
    assert_true(is_grave(f.keep, STR("fire")));
    assert_true(is_grave(f.keep, STR("man hurt")));
    assert_false(is_grave(f.keep, STR("photo eye")));
    assert_false(is_grave(f.keep, STR("leak")));
    assert_false(is_grave(f.keep, STR("sparks")));
    /* without these words "soap in my eye" and "he is stuck" would be heard no longer */
    assert_true(is_grave(f.keep, STR("eye")));
    assert_true(is_grave(f.keep, STR("hand")));
    assert_true(is_grave(f.keep, STR("stuck")));
    assert_true(is_grave(f.keep, STR("quemado")));
    assert_true(is_grave(f.keep, STR("man")));
    assert_false(is_grave(f.keep, STR("hot wax")));
}

/* "Less" is no slip of "les", nor "a bit" the verb: what is said so at a gauge asks for nothing.
 * Where somebody is in it, it is heard, be it one or several. */
static void a_bit_less_is_nobody_bitten(void **state)
{
    (void)state;
    static const char *const calm[] = {"a bit less",
                                       "bit less",
                                       "less than before",
                                       "it hits less",
                                       "it pulls less",
                                       "it grabs less now",
                                       "bit by bit it gets better",
                                       "a bit of foam",
                                       "that sorted it",
                                       "el cliente se queja de que sale seca",
                                       "los clientes se quejan",
                                       "it smell normal",
                                       "la bronca es que no sale espuma"};
    static const char *const grave[] = {"a bit of acid got in his eye, less now",
                                        "the machine bit me a bit",
                                        "it hit him less hard",
                                        "it pulled me in a bit",
                                        "bit by a dog",
                                        "bit by the wire",
                                        "stung by a wire",
                                        "he was bitten by the wire",
                                        "les pegó el cepillo",
                                        "nos pegó el cepillo",
                                        "les agarró el cepillo",
                                        "nos cayó ácido",
                                        "les salpicó producto",
                                        "el cepillo los aplastó",
                                        "lo mordió",
                                        "se queja de que le arden los ojos",
                                        "se quejan de que no pueden respirar"};
    for (size_t i = 0; i < sizeof calm / sizeof *calm; i++) assert_none(calm[i]);
    for (size_t i = 0; i < sizeof grave / sizeof *grave; i++)
        if (hear(grave[i]).list != DANGER_A) fail_msg("%s: not heard", grave[i]);
    assert_int_equal(hear("it shorted out").list, DANGER_B);
    assert_int_equal(hear("it sprays less now").list, DANGER_B);
}

/* A pattern that gives up does not say that there is no danger: it is asked. */
static void a_pattern_that_gives_up_is_asked_about(void **state)
{
    (void)state;
    static const char zeek[] = "zeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeee k";
    assert_heard("zeek", DANGER_A, "ghost");
    assert_none("zebra");
    const dangers d = hear(zeek);
    assert_int_equal(d.count, 1);
    assert_int_equal(d.list, DANGER_B); /* no page of a ghost that nobody spoke of */
    assert_int_equal(d.items[0].emergency, NO_ID);
}

/* Sounds that somebody hurt makes, and a machine or a customer too: asked about where a person
 * makes them. */
static void whoever_groans_is_asked_about(void **state)
{
    (void)state;
    static const char *const asked[] = {"he keeps groaning",
                                        "somebody is moaning",
                                        "hes moaning",
                                        "she whimpers",
                                        "se queja mucho",
                                        "esta gimiendo",
                                        "oigo quejidos",
                                        "no deja de quejarse",
                                        "my coworker is groaning",
                                        "the operator is moaning",
                                        "he started groaning",
                                        "they are moaning",
                                        "he moaned",
                                        "mi compa\xC3\xB1"
                                        "ero gimi\xC3\xB3",
                                        "mi compa\xC3\xB1"
                                        "ero se quejaba mucho"};
    static const char *const calm[] = {"the pump groans",
                                       "the brush keeps groaning",
                                       "el cliente se queja mucho",
                                       "los clientes se quejan mucho",
                                       "la clienta se queja mucho",
                                       "se quejan mucho los clientes",
                                       "la bomba gime",
                                       "el motor est\xC3\xA1 gimiendo",
                                       "el compresor se queja mucho",
                                       "she moans about the foam"};
    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++)
        if (hear(asked[i]).list != DANGER_B) fail_msg("%s: not asked", asked[i]);
    for (size_t i = 0; i < sizeof calm / sizeof *calm; i++) assert_none(calm[i]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(somebody_is_hurt),
        cmocka_unit_test(a_bit_less_is_nobody_bitten),
        cmocka_unit_test(a_pattern_that_gives_up_is_asked_about),
        cmocka_unit_test(whoever_groans_is_asked_about),
        cmocka_unit_test(nobody_is_named_and_it_may_be_somebody),
        cmocka_unit_test(what_is_worn_is_somebody_s),
        cmocka_unit_test(what_is_too_long_to_be_read_asks),
        cmocka_unit_test(things_are_not_somebody),
        cmocka_unit_test(something_leaks_or_smells),
        cmocka_unit_test(what_is_denied_is_none),
        cmocka_unit_test(first_aid_is_that_of_what_happened),
        cmocka_unit_test(a_name_may_be_somebody),
        cmocka_unit_test(slips_are_forgiven_unless_they_are_words),
        cmocka_unit_test(help_alone_is_asked),
        cmocka_unit_test(notes_hear_the_gravest_only),
        cmocka_unit_test(the_words_that_said_it_are_given),
        cmocka_unit_test(the_books_own_words),
        cmocka_unit_test(only_a_plain_no_opens_the_gate),
        cmocka_unit_test(a_word_that_names_nothing_keeps_it_shut),
        cmocka_unit_test(what_is_said_of_a_part_keeps_it_shut),
        cmocka_unit_test(half_a_no_keeps_it_shut),
        cmocka_unit_test(the_gate_names_the_answer),
        cmocka_unit_test(whoever_cannot_see_may_be_blind),
        cmocka_unit_test(yes_is_safe_where_the_book_says_so),
        cmocka_unit_test(grave_words),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
