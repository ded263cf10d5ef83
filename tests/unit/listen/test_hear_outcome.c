/* What is said of a fix that was tried. Nobody's "worse" is anything else; what says two things, or
 * more than an outcome, is none. */
#include <stdio.h>
#include <string.h>

#include "ear_kit.h"
#include "listen/manner.h"
#include "listen/manner_words.h"
#include "listen/said.h"
#include "test_sources.h"
#include "testing.h"

static told_outcome told(const ear_kit *e, const char *words)
{
    return listen_outcome(e->l, e->keep, str_of(words)).outcome;
}

static void assert_told(told_outcome wanted, const char *const *said, size_t count)
{
    ear_kit e = ear_new(EAR_GATE_BOOK);
    for (size_t i = 0; i < count; i++)
        if (told(&e, said[i]) != wanted)
            fail_msg("%s: %d, not %d", said[i], (int)told(&e, said[i]), (int)wanted);
    ear_free(&e);
}
#define ASSERT_TOLD(wanted, ...) \
    do { \
        static const char *const said[] = {__VA_ARGS__}; \
        assert_told(wanted, said, sizeof said / sizeof *said); \
    } while (0)

static void it_helped(void **state)
{
    (void)state;
    ASSERT_TOLD(TOLD_GONE, "it helped", "yes it helped", "that fixed it", "that did it",
                "that did the trick", "it works again", "all good now", "its fine now",
                "it is back to normal", "problem solved", "yes, its working", "yep fixed",
                "it worked", "worked like a charm", "everything works now", "the trouble is gone",
                "thats it, its gone", "it is all working again", "yes thank you it works",
                "fixed it", "problem is gone now");
    ASSERT_TOLD(TOLD_GONE, "sí ayudó", "ayudó", "ya se arregló", "se arregló", "quedó arreglado",
                "ya quedó", "ya funciona", "ya funciona bien", "funcionó", "sí funcionó",
                "ya está bien", "ya sale bien", "todo bien ahora", "ya está normal",
                "problema resuelto", "resuelto", "se quitó la falla", "ya no hay problema",
                "con eso quedó", "listo, ya jala", "con eso se arregló", "ya todo funciona",
                "gracias, ya quedó", "sí, ya se quitó");
}

static void it_is_better(void **state)
{
    (void)state;
    ASSERT_TOLD(TOLD_BETTER, "a bit better", "its a little better", "better but not gone",
                "somewhat better", "slightly better", "it got better", "it improved",
                "it improved a bit", "improved but not fixed", "helped a little", "it helped a bit",
                "partly", "partially", "looks better", "better than before",
                "not perfect but better", "much better", "a lot better", "it is better now",
                "some improvement", "yes a little", "kind of better", "not there yet but better",
                "it did improve");
    ASSERT_TOLD(TOLD_BETTER, "un poco mejor", "está mejor", "mejoró", "mejoró un poco",
                "ayudó un poco", "algo mejor", "mejor pero no del todo", "mejor que antes",
                "se ve mejor", "ya mejor", "un poquito mejor", "va mejor", "mucho mejor",
                "más o menos mejor", "en parte", "parcialmente", "mejor, pero sigue", "quedó mejor",
                "salió un poco mejor", "poco mejor", "ya casi", "mejoró algo", "sí, un poco");
}

static void nothing_changed(void **state)
{
    (void)state;
    ASSERT_TOLD(TOLD_SAME, "no", "no it didnt help", "didn't help", "did not help at all",
                "no change", "no difference", "made no difference", "still the same",
                "same as before", "same problem", "nothing changed", "it didnt work",
                "did not work", "didn't fix it", "that was not it", "still bad", "not fixed",
                "not better", "it is not any better", "neither better nor worse",
                "not better not worse", "it did nothing", "that didnt do it",
                "it did not do anything", "nope still broken", "nothing happened",
                "it hasnt changed", "no luck", "its still wrong", "that didn't help me",
                "that did nothing", "this changed nothing", "did not", "it is still not right");
    ASSERT_TOLD(TOLD_SAME, "no", "no ayudó", "no ayudó nada", "no sirvió", "no funcionó",
                "sigue igual", "igual que antes", "está igual", "quedó igual", "lo mismo",
                "nada cambió", "no cambió nada", "sin cambios", "no hubo cambio", "ningún cambio",
                "no se arregló", "no mejoró", "no está mejor", "sigue mal", "no, sigue la falla",
                "ni mejor ni peor", "no está ni mejor ni peor", "para nada", "no hubo diferencia",
                "sigue lo mismo", "no le hizo nada", "todo igual");
}

static void it_is_worse(void **state)
{
    (void)state;
    ASSERT_TOLD(TOLD_WORSE, "worse", "it got worse", "now its worse", "made it worse",
                "it made it worse", "worse than before", "even worse now", "a bit worse",
                "a little worse", "slightly worse", "way worse", "no, worse", "not better, worse",
                "it is getting worse", "looks worse", "worse not better", "no better, even worse",
                "it got a lot worse", "something new happened", "now there is another problem",
                "no its worse now", "no it is worse", "its not better its worse",
                "the foam is worse on the left side", "i think it is worse",
                "worse now, the pump howls", "first better then worse", "it just got worse",
                "no i made it worse", "oh no its worse than ever", "gone from bad to worse");
    ASSERT_TOLD(TOLD_WORSE, "peor", "está peor", "se puso peor", "empeoró", "quedó peor",
                "salió peor", "peor que antes", "un poco peor", "mucho peor", "no mejoró, empeoró",
                "no, está peor", "lo empeoró", "ahora está peor", "va peor", "cada vez peor",
                "se ve peor", "no mejor, peor", "se descompuso más", "está más mal",
                "pasó algo nuevo", "no, ahora está peor", "la espuma sale peor",
                "creo que está peor", "mejor no, peor", "uy, peor", "ahora salió peor que nunca",
                "no, quedó mucho peor", "cada vez está peor");
}

static void it_could_not_be_done(void **state)
{
    (void)state;
    ASSERT_TOLD(
        TOLD_COULD_NOT, "couldn't do it", "I could not do it", "i couldnt do that", "didn't manage",
        "did not manage it", "i didnt manage to do it", "couldn't manage it", "wasn't able to",
        "i was not able to do it", "unable to do it", "it can't be done", "it could not be done",
        "not possible", "impossible", "i can't turn it", "couldn't reach it", "no time to do it",
        "i gave up", "i failed to do it", "i dont know how", "i didnt get to it", "cldnt do it",
        "i can't get it off", "could not get to it", "sorry i couldnt do that one", "i dont dare",
        "too hard for me", "im not strong enough", "I was unable to");
    ASSERT_TOLD(TOLD_COULD_NOT, "no pude hacerlo", "no lo pude hacer", "no pude", "no se pudo",
                "no se pudo hacer", "no lo logré", "no logré hacerlo", "no alcancé a hacerlo",
                "no fui capaz", "no puedo hacerlo", "no se puede hacer", "imposible",
                "fue imposible", "no pudimos", "no pudimos hacerlo", "no sé cómo hacerlo",
                "no me dejan", "no tuve tiempo", "me rendí", "no me fue posible",
                "no la pude mover", "no me atreví", "no se deja", "no quise hacerlo",
                "no pudo hacerlo nadie");
}

static void it_was_not_done(void **state)
{
    (void)state;
    ASSERT_TOLD(TOLD_NOT_DONE, "i didn't do it", "didnt do it", "not done", "haven't done it",
                "i have not tried it", "didn't try", "i did not try it", "not tried",
                "havent tried", "i never did it", "i skipped it", "skipped", "i left it",
                "didn't touch it", "nobody did it", "it was not done", "i did nothing",
                "we did not do that", "i did not do anything", "i did nothing",
                "never got round to it", "we havent done that", "no i didnt do it", "we did not",
                "i didnt do it, i did nothing", "i didnt do it and didnt try");
    ASSERT_TOLD(TOLD_NOT_DONE, "no lo hice", "no hice nada", "no lo he hecho", "no está hecho",
                "no se hizo", "no lo intenté", "no lo probé", "sin probar", "no lo he probado",
                "no lo toqué", "me lo salté", "lo dejé así", "nadie lo hizo", "no hicimos eso",
                "ni lo intenté", "no hicimos nada", "no se ha hecho", "todavía no lo hago",
                "no lo hemos hecho");
}

/* Two things at once, or a doubt: asked again. */
static void what_says_two_things_is_unclear(void **state)
{
    (void)state;
    ASSERT_TOLD(TOLD_UNCLEAR, "didnt do anything", "did nothing", "not worse", "no worse",
                "no problem", "no, better", "yes but the same", "it was better before",
                "could be better", "i think it worked", "maybe better", "not done yet",
                "i did it and couldn't do it, works", "not good", "not the same", "no está peor",
                "no sé si está mejor", "sí pero igual", "antes estaba mejor", "creo que funcionó",
                "changed", "bad");
    ASSERT_TOLD(TOLD_UNCLEAR, "no. it works", "it helped but it is not better",
                "it helped, neither better nor worse", "it works but not good", "funciona mal",
                "it is fixed but not right", "it was fixed before", "i think it is fixed",
                "i think i did not do it", "creo que no lo hice");
}

static void what_says_more_is_none(void **state)
{
    (void)state;
    ASSERT_TOLD(TOLD_NOTHING, "good", "ok", "bien", "i dont know", "not sure", "no sé", "no lo sé",
                "can't look", "couldn't tell", "i can't see", "it is", "better call somebody",
                "the foam works better on the roof", "not dry", "no foam", "a bit less",
                "no hizo nada");
}

/* "Worse" is heard among words that nobody knows; then it may be said of something else, too. */
static void only_worse_is_heard_among_others(void **state)
{
    (void)state;
    ear_kit e = ear_new(EAR_GATE_BOOK);
    const outcome_told among =
        listen_outcome(e.l, e.keep, STR("the left flange hums, and is worse"));
    assert_int_equal(among.outcome, TOLD_WORSE);
    assert_false(among.whole);
    assert_true(listen_outcome(e.l, e.keep, STR("it got worse")).whole);
    text_builder more = {.keep = e.keep};
    text_add(&more, STR("worse"));
    for (int i = 0; i < SAID_WORDS_MAX; i++) text_add(&more, STR(" very"));
    const outcome_told cut = listen_outcome(e.l, e.keep, text_done(&more));
    assert_int_equal(cut.outcome, TOLD_WORSE);
    assert_false(cut.whole); /* nobody knows how it ends */
    ear_free(&e);
}

/* The shorter lists of whole replies, which are heard everywhere, say the same. */
static void whole_replies_are_the_same(void **state)
{
    (void)state;
    ear_kit e = ear_new(EAR_GATE_BOOK);
    unsigned tried = 0;
#define MANNER(class, phrases) {MANNER_##class, phrases},
    static const struct {
        uint64_t manner;
        const char *phrases;
    } lists[] = {REPLY_WORDS(MANNER)};
#undef MANNER
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        const told_outcome wanted = lists[i].manner == MANNER_GONE        ? TOLD_GONE
                                    : lists[i].manner == MANNER_SAME      ? TOLD_SAME
                                    : lists[i].manner == MANNER_WORSE     ? TOLD_WORSE
                                    : lists[i].manner == MANNER_BETTER    ? TOLD_BETTER
                                    : lists[i].manner == MANNER_COULD_NOT ? TOLD_COULD_NOT
                                                                          : TOLD_NOTHING;
        for (str rest = str_of(lists[i].phrases); rest.n > 0 && wanted != TOLD_NOTHING;) {
            size_t n = str_find_byte(rest, '|');
            if (n == SIZE_MAX) n = rest.n;
            const char *one = str_copy(e.keep, str_slice(rest, 0, n)).p;
            if (told(&e, one) != wanted) fail_msg("%s: %d", one, (int)told(&e, one));
            rest = str_slice(rest, n < rest.n ? n + 1 : n, rest.n);
            tried++;
        }
    }
    assert_true(tried > 90);
    ear_free(&e);
}

static void never_well(const ear_kit *e, const char *first, const char *second)
{
    char words[120];
    snprintf(words, sizeof words, "%s %s", first, second);
    const told_outcome is = told(e, words);
    if (is == TOLD_GONE || is == TOLD_BETTER) fail_msg("%s: %d", words, (int)is);
}

/* Wherever a denial stands, or something that it may be said of instead. */
static void nobody_is_told_that_it_helped(void **state)
{
    (void)state;
    static const char *const well[] = {"it fixed", "it works",   "it helped",   "fixed",
                                       "solved",   "works",      "it runs",     "better",
                                       "improved", "it is good", "arregló",     "funciona",
                                       "mejoró",   "ayudó",      "sirvió",      "it is gone",
                                       "se quitó", "está bien",  "it is better"},
                             *const others[] = {"nothing",
                                                "nobody",
                                                "never",
                                                "not",
                                                "no more",
                                                "no longer",
                                                "in no way",
                                                "nada",
                                                "nunca",
                                                "para nada",
                                                "the cover",
                                                "the cap",
                                                "the guard",
                                                "the screw",
                                                "the knob",
                                                "the lock",
                                                "la tapa",
                                                "el tornillo",
                                                "he",
                                                "they",
                                                "one",
                                                "the nozzle",
                                                "without the cover",
                                                "but",
                                                "but the cover is off",
                                                "pero"};
    ear_kit e = ear_new(EAR_GATE_BOOK);
    for (size_t i = 0; i < sizeof well / sizeof *well; i++)
        for (size_t k = 0; k < sizeof others / sizeof *others; k++) {
            never_well(&e, well[i], others[k]);
            if (strstr(others[k], "but") == NULL && strcmp(others[k], "pero") != 0)
                never_well(&e, others[k], well[i]);
        }
    ear_free(&e);
}

/* A question, a request, what the page asks said again: none of them is an outcome. */
static void a_request_is_no_outcome(void **state)
{
    (void)state;
    static const char *const asked[] = {"did it help",
                                        "is it working",
                                        "fix it please",
                                        "make it work",
                                        "trying to fix it",
                                        "it is being fixed",
                                        "to fix it",
                                        "get it fixed",
                                        "help",
                                        "ayuda",
                                        "right now",
                                        "i better not",
                                        "he is gone",
                                        "they are gone",
                                        "ya no hay nada",
                                        "good for nothing",
                                        "not bad",
                                        "nada mal",
                                        "no está mal",
                                        "it is off ok",
                                        "im ok"};
    ear_kit e = ear_new(EAR_GATE_BOOK);
    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++) {
        const told_outcome is = told(&e, asked[i]);
        if (is != TOLD_NOTHING && is != TOLD_UNCLEAR) fail_msg("%s: %d", asked[i], (int)is);
    }
    ear_free(&e);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nobody_is_told_that_it_helped),
        cmocka_unit_test(a_request_is_no_outcome),

        cmocka_unit_test(it_helped),
        cmocka_unit_test(it_is_better),
        cmocka_unit_test(nothing_changed),
        cmocka_unit_test(it_is_worse),
        cmocka_unit_test(it_could_not_be_done),
        cmocka_unit_test(it_was_not_done),
        cmocka_unit_test(what_says_two_things_is_unclear),
        cmocka_unit_test(what_says_more_is_none),
        cmocka_unit_test(only_worse_is_heard_among_others),
        cmocka_unit_test(whole_replies_are_the_same),
    };
    return cmocka_run_group_tests_name("hear_outcome", tests, NULL, NULL);
}
