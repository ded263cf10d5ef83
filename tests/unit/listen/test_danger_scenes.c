/* Who did what to whom: danger in many turns of phrase, and what is like it and is none. */
#include <string.h>

#include "ear_kit.h"
#include "test_sources.h"
#include "testing.h"

typedef struct expectation {
    const char *said;
    danger_list list;
    const char *id; /* of the most urgent one */
    bool safe;      /* it opens the gate */
} expectation;

static ear_kit f;

static int set_up(void **state)
{
    (void)state;
    f = ear_new(EAR_GATE_BOOK);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    ear_free(&f);
    return 0;
}

/* What opens the gate is never danger. */
static void check_all(const expectation *all, size_t count)
{
    const uint32_t gate = book_question(f.book, STR("danger"));
    unsigned wrong = 0;
    for (size_t i = 0; i < count; i++) {
        const str said = str_of(all[i].said);
        const dangers d = listen_danger(f.l, f.keep, said, LISTEN_PROMPT);
        const str id = d.count > 0 ? d.items[0].id : STR("");
        const bool safe = listen_gate(f.l, f.keep, gate, said).kind == GATE_SAFE;
        const bool as_wanted =
            d.list == all[i].list && str_is(id, all[i].id) && safe == all[i].safe;
        if (as_wanted && !(safe && d.list != DANGER_NONE)) continue;
        print_error("'%s': list %d, '%.*s'%s\n", all[i].said, (int)d.list, STR_ARG(id),
                    safe ? ", and the gate opens" : "");
        wrong++;
    }
    assert_int_equal(wrong, 0);
}

#define CHECK(all) check_all(all, sizeof(all) / sizeof *(all))

static void somebody_is_in_danger(void **state)
{
    static const expectation all[] = {
        {"Brendle told me he is hurt", DANGER_A, "hurt", false},
        {"leag said the pump smokes", DANGER_A, "fire", false},
        {"Brendle is stuck in the brush", DANGER_A, "caught", false},
        {"Brendle fell", DANGER_A, "fallen", false},
        {"i called and Kresk is bleeding", DANGER_A, "bleeding", false},
        {"the Fluxer is on fire", DANGER_A, "fire", false},
        {"the man fixing it fell", DANGER_A, "fallen", false},
        {"the man who was fixing it got hit", DANGER_A, "caught", false},
        {"no he is hurt", DANGER_A, "hurt", false},
        {"no there is smoke", DANGER_A, "fire", false},
        {"no, there is smoke", DANGER_A, "fire", false},
        {"nobody is hurt but it smokes", DANGER_A, "fire", false},
        {"there is no fire but a lot of smoke", DANGER_A, "fire", false},
        {"no ve nada, le cayo acido", DANGER_A, "skin", false},
        {"no ve nada le cayo acido en los ojos", DANGER_A, "eyes", false},
        {"no es nada, se cayo", DANGER_A, "fallen", false},
        {"no smoke, no fire, a man fell", DANGER_A, "fallen", false},
        {"he is not breathing", DANGER_A, "breathing", false},
        {"he does not breathe", DANGER_A, "breathing", false},
        {"she can't move her arm", DANGER_A, "caught", false},
        {"nothing, her arm is caught", DANGER_A, "caught", false},
        {"the hand brake is stuck", DANGER_A, "caught", false},
        {"my head is stuck", DANGER_A, "caught", false},
        {"my eye hurts", DANGER_A, "eyes", false},
        {"the nozzle hit her", DANGER_A, "skin", false},
        {"she drank it", DANGER_A, "swallowed", false},
        {"someone drank the soap", DANGER_A, "swallowed", false},
        {"swallowed some cleaner", DANGER_A, "swallowed", false},
        {"se tomo el jabon", DANGER_A, "swallowed", false},
        {"bebio cloro", DANGER_A, "swallowed", false},
        {"un nino bebio acido", DANGER_A, "swallowed", false},
        {"acid on his shirt", DANGER_A, "skin", false},
        {"foam in my eyes", DANGER_A, "eyes", false},
        {"water in my eyes", DANGER_A, "eyes", false},
        {"hot water on my leg", DANGER_A, "skin", false},
        {"hose burst and hit him", DANGER_A, "skin", false},
        {"car hit a man", DANGER_A, "caught", false},
        {"a person under the car", DANGER_A, "caught", false},
        {"the arch fell on him", DANGER_A, "hurt", false},
        {"it fell on my foot", DANGER_A, "skin", false},
        {"se cayo un cliente", DANGER_A, "fallen", false},
        {"i fell", DANGER_A, "fallen", false},
        {"i slipped", DANGER_A, "fallen", false},
        {"i feel dizzy", DANGER_A, "breathing", false},
        {"estoy mareado", DANGER_A, "breathing", false},
        {"me siento mal", DANGER_A, "hurt", false},
        {"call an ambulance", DANGER_A, "emergency", false},
        {"llame a la ambulancia", DANGER_A, "emergency", false},
        {"he is trapped", DANGER_A, "caught", false},
        {"a woman is trapped in her car", DANGER_A, "caught", false},
        {"he passed out", DANGER_A, "unconscious", false},
        {"passed out", DANGER_A, "unconscious", false},
        {"se desmayo", DANGER_A, "unconscious", false},
        {"no responde", DANGER_A, "unconscious", false},
        {"he does not respond", DANGER_A, "unconscious", false},
        {"no, but it smokes", DANGER_A, "fire", false},
        {"no the foam, but a man fell", DANGER_A, "fallen", false},
        {"yes there is smoke", DANGER_A, "fire", false},
        {"smoke or sparks", DANGER_A, "fire", false},
        {"le pego al senor", DANGER_A, "caught", false},
        {"el carro le pego a el", DANGER_A, "caught", false},
        {"tovel got hit", DANGER_A, "caught", false},
        {"tovel was hit", DANGER_A, "caught", false},
        {"he slipped and got hit", DANGER_A, "caught", false},
        {"he slipped, and then got caught", DANGER_A, "caught", false},
        {"but got hit", DANGER_A, "caught", false},
        {"and is hurt", DANGER_A, "hurt", false},
        {"a hose burst, it hit him in the face", DANGER_A, "skin", false},
        {"a hose burst. then the brush hit him", DANGER_A, "caught", false},
        {"the brush moved and it hit him", DANGER_A, "caught", false},
        {"acid sprayed on her", DANGER_A, "skin", false},
        {"his eye is red", DANGER_A, "eyes", false},
        {"my eye is red", DANGER_A, "eyes", false},
        {"her hand", DANGER_A, "hurt", false},
        {"hit her", DANGER_A, "caught", false},
        {"hit her hand", DANGER_A, "caught", false},
        {"fell into the pit", DANGER_A, "fallen", false},
        {"fell onto the car", DANGER_A, "fallen", false},
        {"he fell into the tank", DANGER_A, "fallen", false},
        {"caught by the pump", DANGER_A, "caught", false},
        {"caught in the pump", DANGER_A, "caught", false},
        {"caught and pulled", DANGER_A, "caught", false},
        {"by the pump he fell", DANGER_A, "fallen", false},
        {"no veo nada y me arde", DANGER_A, "hurt", false},
        {"no man, he is hurt", DANGER_A, "hurt", false},
        {"no pump or hose or brush or arch smokes", DANGER_A, "fire", false},
    };
    (void)state;
    CHECK(all);
}

static void something_is_dangerous(void **state)
{
    static const expectation all[] = {
        {"the head of the pump is stuck", DANGER_B, "stuck", false},
        {"mixed bleach and acid", DANGER_B, "mixed-products", false},
        {"mezclo cloro con acido", DANGER_B, "mixed-products", false},
        {"hose burst", DANGER_B, "burst", false},
        {"the hose whips around", DANGER_B, "burst", false},
        {"la manguera revent\xc3\xb3", DANGER_B, "burst", false},
        {"huele a gas", DANGER_B, "gas", false},
        {"smells like gas", DANGER_B, "gas", false},
        {"there is a smell", DANGER_B, "smell", false},
        {"sparks", DANGER_B, "sparks", false},
        {"sparks come out of the panel", DANGER_B, "sparks", false},
        {"water on the panel", DANGER_B, "sparks", false},
        {"panel is wet", DANGER_B, "sparks", false},
        {"bare wires", DANGER_B, "sparks", false},
        {"cable pelado", DANGER_B, "sparks", false},
        {"someone is inside the tunnel", DANGER_B, "inside", false},
        {"a kid ran into the bay", DANGER_B, "inside", false},
        {"somebody stands in front of the car", DANGER_B, "inside", false},
        {"se cayo el arco", DANGER_B, "unsafe", false},
        {"esta tirado", DANGER_B, "unsafe", false},
        {"the hose sprayed and hit the wall", DANGER_B, "spray", false},
        {"told her the pump is stuck", DANGER_B, "stuck", false},
        {"not him, the pump is stuck", DANGER_B, "stuck", false},
        {"he is in the tank", DANGER_B, "unsafe", false},
        {"someone is in the tank", DANGER_B, "inside", false},
        {"there is someone in the tank", DANGER_B, "unsafe", false},
        {"two men are in the tank", DANGER_B, "inside", false},
        {"i got in the tank", DANGER_B, "inside", false},
        {"He's in the tank", DANGER_B, "unsafe", false},
        {"somebody in the tank", DANGER_B, "unsafe", false},
        {"hay alguien en el tanque", DANGER_B, "unsafe", false},
        {"se metio al tanque", DANGER_B, "unsafe", false},
    };
    (void)state;
    CHECK(all);
}

static void nothing_is_danger(void **state)
{
    static const expectation all[] = {
        {"the belt said nothing", DANGER_NONE, "", false},
        {"nobody is hurt and nothing burns", DANGER_NONE, "", false},
        {"nobody hurt, no smoke", DANGER_NONE, "", false},
        {"no man is hurt", DANGER_NONE, "", false},
        {"no one in the brush", DANGER_NONE, "", false},
        {"no fire or smoke", DANGER_NONE, "", false},
        {"no hay humo ni fuego", DANGER_NONE, "", false},
        {"no hay nadie herido", DANGER_NONE, "", true},
        {"nada de humo", DANGER_NONE, "", false},
        {"he is not hurt", DANGER_NONE, "", false},
        {"no gas, no leak", DANGER_NONE, "", false},
        {"it is not burning any more", DANGER_NONE, "", false},
        {"smoke detector is beeping", DANGER_NONE, "", false},
        {"never mind, he is fine", DANGER_NONE, "", false},
        {"the eye bolt is loose", DANGER_NONE, "", false},
        {"her nozzle is broken", DANGER_NONE, "", false},
        {"soap on his shirt", DANGER_NONE, "", false},
        {"car hit a post", DANGER_NONE, "", false},
        {"the car jumped and hit the wall", DANGER_NONE, "", false},
        {"a car is trapped", DANGER_NONE, "", false},
        {"no responde el boton", DANGER_NONE, "", false},
        {"the button does not respond", DANGER_NONE, "", false},
        {"no it is the foam", DANGER_NONE, "", true},
        {"no its the foam", DANGER_NONE, "", true},
        {"no the foam is worn", DANGER_NONE, "", true},
        {"no el jabon esta gastado", DANGER_NONE, "", false},
        {"no la manguera esta gastada", DANGER_NONE, "", false},
        {"no there is foam", DANGER_NONE, "", false},
        {"no it does", DANGER_NONE, "", false},
        {"no there is", DANGER_NONE, "", false},
        {"no, it is", DANGER_NONE, "", false},
        {"no but the foam is worn", DANGER_NONE, "", false},
        {"no the foam and the hose", DANGER_NONE, "", true},
        {"no foam", DANGER_NONE, "", false},
        {"no, the hose is on the floor", DANGER_NONE, "", false},
        {"no, he is fine", DANGER_NONE, "", true},
        {"no the brush is stuck", DANGER_NONE, "", false},
        {"yes all fine", DANGER_NONE, "", true},
        {"yes, all is fine", DANGER_NONE, "", true},
        {"yes", DANGER_NONE, "", false},
        {"yes it does", DANGER_NONE, "", false},
        {"no?", DANGER_NONE, "", false},
        {"no i think", DANGER_NONE, "", false},
        {"maybe", DANGER_NONE, "", false},
        {"1", DANGER_NONE, "", true},
        {"2", DANGER_NONE, "", false},
        {"3", DANGER_NONE, "", false},
        {"no nothing like that", DANGER_NONE, "", true},
        {"No, nothing like that.", DANGER_NONE, "", true},
        {"nothing like that", DANGER_NONE, "", true},
        {"it is not ok", DANGER_NONE, "", false},
        {"not fine", DANGER_NONE, "", false},
        {"no, not fine", DANGER_NONE, "", false},
        {"no everybody is fine", DANGER_NONE, "", true},
        {"no todo bien", DANGER_NONE, "", true},
        {"everybody is fine", DANGER_NONE, "", true},
        {"todos bien", DANGER_NONE, "", true},
        {"no fire", DANGER_NONE, "", false},
        {"no fire, nothing", DANGER_NONE, "", false},
        {"no, no fire", DANGER_NONE, "", false},
        {"nobody is hurt, all fine", DANGER_NONE, "", true},
        {"no no", DANGER_NONE, "", true},
        {"le pego al carro", DANGER_NONE, "", false},
        {"le pego al cepillo", DANGER_NONE, "", false},
        {"el arco le pego al carro", DANGER_NONE, "", false},
        {"she hit the car", DANGER_NONE, "", false},
        {"he hit the brush", DANGER_NONE, "", false},
        {"the pump slipped and got hit", DANGER_NONE, "", false},
        {"esta tirado el cepillo", DANGER_NONE, "", false},
        {"no acid sprayed on her", DANGER_NONE, "", false},
        {"the eye is red", DANGER_NONE, "", false},
        {"the eye of the hook is red", DANGER_NONE, "", false},
        {"her", DANGER_NONE, "", false},
        {"her foam", DANGER_NONE, "", false},
        {"hit her car", DANGER_NONE, "", false},
        {"the tool fell into the tank", DANGER_NONE, "", false},
        {"nada, no hay nadie", DANGER_NONE, "", true},
        {"no hay nada en el piso", DANGER_NONE, "", false},
        {"no person got hurt", DANGER_NONE, "", false},
        {"no kid is in the tunnel", DANGER_NONE, "", false},
        {"no smoke no sparks no leak", DANGER_NONE, "", false},
        {"no car, no brush, no hose smokes", DANGER_NONE, "", false},
        {"the foam is in the tank", DANGER_NONE, "", false},
        {"he said the foam is in the tank", DANGER_NONE, "", false},
        {"i think the soap is in the tank", DANGER_NONE, "", false},
        {"nobody is in the tank", DANGER_NONE, "", false},
        {"he got soap in the tank", DANGER_NONE, "", false},
        {"the hose is in the drum", DANGER_NONE, "", false},
        {"no hay nadie en el tanque", DANGER_NONE, "", false},
        {"el jabon esta en el tanque", DANGER_NONE, "", false},
    };
    (void)state;
    CHECK(all);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(somebody_is_in_danger, set_up, tear_down),
        cmocka_unit_test_setup_teardown(something_is_dangerous, set_up, tear_down),
        cmocka_unit_test_setup_teardown(nothing_is_danger, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
