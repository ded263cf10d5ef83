/* What to do in dangers that any trade may meet. One instruction a line, the most urgent first:
 * first aid says rinse first, for calling is the other person's. Ids are those of what is heard as
 * danger (engine/listen/danger_table.h), so that words lead here by themselves.
 *
 * Sources are named from memory, but for the one on hydrofluoric acid; the safety data sheet and
 * the local emergency service come before all of it, which is said where a product is met. */
#include <assert.h>

#include "model/ours.h"

#define DATA_SHEET \
    { \
        "Have the safety data sheet ready: it comes before what stands here.", \
            "Tenga a mano la hoja de seguridad: vale más que lo que dice aquí." \
    }
#define CALL_NOW \
    { \
        "Call the emergency number now.", "Llame ya al número de emergencias." \
    }
#define ANOTHER_CALLS \
    { \
        "Another person calls the emergency number. Alone? Rinse first, then call.", \
            "Otra persona llama a emergencias. ¿Está solo? Primero enjuague, luego llame." \
    }
#define AS_THEY_SAY \
    { \
        "Do what they tell you on the telephone.", "Haga lo que le digan por teléfono." \
    }
#define KEEP_AWAY \
    { \
        "Keep everybody else away.", "Que nadie más se acerque." \
    }

#define ERC_FIRST_AID \
    "European Resuscitation Council Guidelines 2021: First aid, Resuscitation 161 (2021) 270-290"

static const our_emergency all[] = {
    {.id = "bleeding",
     .text = {"Somebody bleeds badly", "Alguien sangra mucho"},
     .do_now = {{"Press hard on the wound with a clean cloth.",
                 "Apriete fuerte la herida con un paño limpio."},
                {"Keep pressing. Do not lift the cloth to look.",
                 "Siga apretando. No levante el paño para mirar."},
                {"Another person calls the emergency number.",
                 "Otra persona llama al número de emergencias."},
                {"Let the person lie down.", "Que la persona se acueste."}},
     .then = {AS_THEY_SAY},
     .source = ERC_FIRST_AID},
    {.id = "breathing",
     .text = {"Somebody can't breathe, or breathed in gas or fumes",
              "Alguien no puede respirar, o respiró gas o vapores"},
     .do_now = {{"Get out into fresh air. Do not go into gas or fumes for anybody.",
                 "Salga al aire libre. No entre en gas o vapores por nadie."},
                CALL_NOW,
                {"Let the person sit or lie as they breathe best.",
                 "Que la persona esté como mejor respire, sentada o acostada."},
                {"If the person stops breathing, say so on the telephone.",
                 "Si la persona deja de respirar, dígalo por teléfono."}},
     .then = {AS_THEY_SAY, DATA_SHEET},
     .source = "GHS (United Nations), P304 + P340"},
    {.id = "burnt",
     .text = {"Somebody is burnt", "Alguien se quemó"},
     .do_now = {{"Hold the burn under cool running water now.",
                 "Ponga ya la quemadura bajo agua corriente fresca."},
                {"Keep it there for 20 minutes.", "Déjela ahí 20 minutos."},
                ANOTHER_CALLS,
                {"Take rings and watches off. Leave what sticks to the skin.",
                 "Quite anillos y relojes. Deje lo que está pegado a la piel."}},
     .then = {{"Cover the burn loosely. Put no grease on it.",
               "Cubra la quemadura sin apretar. No ponga grasa."},
              AS_THEY_SAY},
     .source = ERC_FIRST_AID},
    {.id = "caught",
     .text = {"Somebody is caught in a machine", "Alguien quedó atrapado en una máquina"},
     .do_now = {{"Press the nearest stop button now.", "Apriete ya el botón de paro más cercano."},
                {"Do not start it again. Do not run it backwards.",
                 "No la arranque otra vez. No la haga girar al revés."},
                CALL_NOW,
                {"Do not pull the person out by force.", "No saque a la persona a la fuerza."},
                {"Stay with the person. Keep everybody else away from switches.",
                 "Quédese con la persona. Que nadie toque los interruptores."}},
     .then = {AS_THEY_SAY},
     .source = "ISO 13850 for the stop; not to start and not to reverse is reasoned here: what "
               "moves again pulls again"},
    {.id = "emergency",
     .text = {"An emergency", "Una emergencia"},
     .do_now = {{"Go where you are safe. Take everybody with you.",
                 "Vaya a un lugar seguro. Llévese a todos."},
                CALL_NOW,
                KEEP_AWAY},
     .then = {AS_THEY_SAY},
     .source = "29 CFR 1910.38"},
    {.id = "explosion",
     .text = {"Something blew up, or is about to", "Algo explotó, o va a explotar"},
     .do_now = {{"Leave now. Take everybody with you.", "Salga ya. Llévese a todos."},
                {"From outside call the emergency number.",
                 "Desde afuera llame al número de emergencias."},
                {"Do not go back in.", "No vuelva a entrar."},
                KEEP_AWAY},
     .then = {AS_THEY_SAY},
     .source = "29 CFR 1910.38"},
    {.id = "eyes",
     .text = {"Product is in somebody's eyes", "Cayó producto en los ojos de alguien"},
     .do_now = {{"Rinse the eyes with water now.", "Enjuague ya los ojos con agua."},
                {"Hold the lids open. Rinse for at least 15 minutes.",
                 "Mantenga abiertos los párpados. Enjuague al menos 15 minutos."},
                ANOTHER_CALLS,
                {"Take contact lenses out while you rinse, if that is easy.",
                 "Quite los lentes de contacto mientras enjuaga, si es fácil."}},
     .then = {{"See a doctor, even if it feels better.", "Vaya al médico, aunque se sienta mejor."},
              DATA_SHEET},
     .source = "ANSI/ISEA Z358.1; GHS (United Nations), P305 + P351 + P338"},
    {.id = "fallen",
     .text = {"Somebody fell", "Alguien se cayó"},
     .do_now = {{"Stop what could move or drop near the person.",
                 "Pare lo que pueda moverse o caer cerca de la persona."},
                CALL_NOW,
                {"Do not move the person, unless they are in danger there.",
                 "No mueva a la persona, salvo que ahí corra peligro."},
                {"Keep the person still and warm.", "Que la persona no se mueva ni se enfríe."}},
     .then = {AS_THEY_SAY},
     .source = ERC_FIRST_AID},
    {.id = "fire",
     .text = {"Something burns or smokes", "Algo arde o echa humo"},
     .do_now = {{"Get everybody out now.", "Saque ya a todos."},
                {"From outside call the fire service.", "Desde afuera llame a los bomberos."},
                {"Press the stop button only if it is on your way out.",
                 "Apriete el botón de paro solo si está en su camino de salida."},
                {"Do not go back in.", "No vuelva a entrar."}},
     .then = {{"Fight it only if you are trained, it is small, and the way out is behind you. No "
               "water on anything electric.",
               "Apáguelo solo si está capacitado, es pequeño y tiene la salida a su espalda. Nada "
               "de agua en lo eléctrico."},
              {"Tell them which products are there.", "Dígales qué productos hay."}},
     .source = "29 CFR 1910.38, 1910.157"},
    {.id = "hurt",
     .text = {"Somebody is hurt", "Alguien está herido"},
     .do_now = {{"Press the nearest stop button, if something can still move.",
                 "Apriete el botón de paro, si algo todavía puede moverse."},
                CALL_NOW,
                {"Help only where you are safe yourself.",
                 "Ayude solo donde usted mismo esté seguro."},
                {"Stay with the person.", "Quédese con la persona."}},
     .then = {AS_THEY_SAY},
     .source = ERC_FIRST_AID},
    {.id = "hydrofluoric-acid",
     .text = {"A product with hydrofluoric acid or its salts is on somebody",
              "Alguien tiene encima un producto con ácido fluorhídrico o sus sales"},
     .do_now = {{"Rinse with plenty of water now.", "Enjuague ya con mucha agua."},
                {"Another person calls the emergency number at once and says: hydrofluoric acid.",
                 "Otra persona llama enseguida a emergencias y dice: ácido fluorhídrico."},
                {"It may not hurt at first. It can kill all the same.",
                 "Puede no doler al principio. Igual puede matar."},
                {"Take wet clothes off while you rinse.",
                 "Quite la ropa mojada mientras enjuaga."}},
     .then = {{"Use calcium gluconate as the safety data sheet says, if there is any.",
               "Use gluconato de calcio como dice la hoja de seguridad, si lo hay."},
              DATA_SHEET},
     .heard = {"hydrofluoric", "hydrofluoric acid", "ammonium bifluoride", "acido fluorhidrico",
               "bifluoruro de amonio"},
     .source = "CDC, Morbidity and Mortality Weekly Report 64(32), 2015, 874-877"},
    {.id = "mixed-products",
     .text = {"Two products have met", "Se juntaron dos productos"},
     .do_now = {{"Leave now. Take everybody with you.", "Salga ya. Llévese a todos."},
                {"Go outside into fresh air, upwind.",
                 "Vaya afuera, al aire libre, contra el viento."},
                {"Add nothing, not even water.", "No agregue nada, ni agua."},
                {"From outside call the emergency number.",
                 "Desde afuera llame al número de emergencias."},
                {"Do not go back in.", "No vuelva a entrar."}},
     .then = {{"Tell them which products met.", "Dígales qué productos se juntaron."},
              {"Whoever breathed it needs fresh air and rest.",
               "Quien lo respiró necesita aire libre y reposo."},
              DATA_SHEET},
     .source = "CDC, Morbidity and Mortality Weekly Report 40(36), 1991, 619-621; GHS (United "
               "Nations), P304 + P340"},
    {.id = "shock",
     .text = {"Somebody got an electric shock", "Alguien recibió una descarga eléctrica"},
     .do_now = {{"Do not touch the person while the current may be on.",
                 "No toque a la persona mientras pueda haber corriente."},
                {"Switch off at the main switch, if you can reach it safely.",
                 "Corte la corriente en el interruptor general, si llega sin peligro."},
                CALL_NOW,
                {"Keep everybody away from wet floor and wires.",
                 "Que nadie se acerque al piso mojado ni a los cables."},
                {"If the person doesn't breathe, say so on the telephone.",
                 "Si la persona no respira, dígalo por teléfono."}},
     .then = {{"See a doctor after every shock, even if it feels fine.",
               "Después de una descarga vaya al médico, aunque se sienta bien."}},
     .source = "OSHA publication 3075, Controlling Electrical Hazards, 2002"},
    {.id = "skin",
     .text = {"Product is on somebody's skin", "Cayó producto en la piel de alguien"},
     .do_now = {{"Rinse the skin with plenty of water now.", "Enjuague ya la piel con mucha agua."},
                {"Take wet clothes, gloves and shoes off while you rinse.",
                 "Quite la ropa, los guantes y los zapatos mojados mientras enjuaga."},
                {"Rinse for at least 15 minutes.", "Enjuague al menos 15 minutos."},
                ANOTHER_CALLS},
     .then =
         {{"Is there fluoride or hydrofluoric acid in it? Say so at once, even if nothing hurts.",
           "¿Tiene fluoruro o ácido fluorhídrico? Dígalo enseguida, aunque no duela."},
          DATA_SHEET},
     .source = "ANSI/ISEA Z358.1; GHS (United Nations), P303 + P361 + P353"},
    {.id = "swallowed",
     .text = {"Somebody swallowed product", "Alguien tragó producto"},
     .do_now = {{"Rinse the mouth with water and spit it out.",
                 "Enjuague la boca con agua y escúpala."},
                {"Do not make the person vomit.", "No haga vomitar a la persona."},
                CALL_NOW,
                {"Give nothing to eat or drink unless they say so.",
                 "No dé nada de comer ni beber si no se lo dicen."}},
     .then = {{"Have the product's container at hand.", "Tenga a mano el envase del producto."},
              DATA_SHEET},
     .source = "GHS (United Nations), P301 + P330 + P331"},
    {.id = "unconscious",
     .text = {"Somebody doesn't wake up", "Alguien no despierta"},
     .do_now = {{"Look first: no gas, no current, nothing that moves.",
                 "Mire primero: sin gas, sin corriente, nada que se mueva."},
                CALL_NOW,
                {"No normal breath? Press hard on the middle of the chest, as they tell you.",
                 "¿No respira normal? Apriete fuerte en medio del pecho, como le digan."},
                {"Somebody fetches the defibrillator, if there is one.",
                 "Alguien trae el desfibrilador, si lo hay."},
                {"Does the person breathe? Roll them onto their side.",
                 "¿Respira? Póngala de lado."}},
     .then = {AS_THEY_SAY},
     .source = "European Resuscitation Council Guidelines 2021: Basic life support, Resuscitation "
               "161 (2021) 98-114"},
};

const our_emergency *our_emergencies(uint32_t *count)
{
    *count = sizeof all / sizeof *all;
    for (uint32_t i = 1; i < *count; i++)
        assert(str_cmp(str_of(all[i - 1].id), str_of(all[i].id)) < 0);
    return all;
}
