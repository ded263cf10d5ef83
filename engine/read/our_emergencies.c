/* What to do in dangers that any trade may meet. One instruction a line, the most urgent first:
 * first aid says rinse first, for calling is the other person's. Ids are those of what is heard as
 * danger (engine/listen/danger_table.h), so that words lead here by themselves.
 *
 * Sources are named from memory, but for the one on hydrofluoric acid; the safety data sheet and
 * the local emergency service come before all of it, which is said where a product is met. */
#include <assert.h>

#include "read/ours.h"

#define LINES(...) \
    { \
        (const text_id[]){__VA_ARGS__}, \
            (uint32_t)(sizeof((const text_id[]){__VA_ARGS__}) / sizeof(text_id)) \
    }

#define ERC_FIRST_AID \
    "European Resuscitation Council Guidelines 2021: First aid, Resuscitation 161 (2021) 270-290"

static const our_emergency all[] = {
    {.id = "bleeding",
     .text = OUR_BLEEDING,
     .do_now = LINES(OUR_BLEEDING_1, OUR_BLEEDING_2, OUR_BLEEDING_3, OUR_BLEEDING_4),
     .then = LINES(OUR_AS_THEY_SAY),
     .source = ERC_FIRST_AID},
    {.id = "breathing",
     .text = OUR_BREATHING,
     .do_now = LINES(OUR_BREATHING_1, OUR_CALL_NOW, OUR_BREATHING_2, OUR_BREATHING_3),
     .then = LINES(OUR_AS_THEY_SAY, OUR_DATA_SHEET),
     .source = "GHS (United Nations), P304 + P340"},
    {.id = "burnt",
     .text = OUR_BURNT,
     .do_now = LINES(OUR_BURNT_1, OUR_BURNT_2, OUR_ANOTHER_CALLS, OUR_BURNT_3),
     .then = LINES(OUR_BURNT_4, OUR_AS_THEY_SAY),
     .source = ERC_FIRST_AID},
    {.id = "caught",
     .text = OUR_CAUGHT,
     .do_now = LINES(OUR_CAUGHT_1, OUR_CAUGHT_2, OUR_CALL_NOW, OUR_CAUGHT_3, OUR_CAUGHT_4),
     .then = LINES(OUR_AS_THEY_SAY),
     .source = "ISO 13850 for the stop; not to start and not to reverse is reasoned here: what "
               "moves again pulls again"},
    {.id = "emergency",
     .text = OUR_EMERGENCY,
     .do_now = LINES(OUR_EMERGENCY_1, OUR_CALL_NOW, OUR_KEEP_AWAY),
     .then = LINES(OUR_AS_THEY_SAY),
     .source = "29 CFR 1910.38"},
    {.id = "explosion",
     .text = OUR_EXPLOSION,
     .do_now = LINES(OUR_EXPLOSION_1, OUR_EXPLOSION_2, OUR_EXPLOSION_3, OUR_KEEP_AWAY),
     .then = LINES(OUR_AS_THEY_SAY),
     .source = "29 CFR 1910.38"},
    {.id = "eyes",
     .text = OUR_EYES,
     .do_now = LINES(OUR_EYES_1, OUR_EYES_2, OUR_ANOTHER_CALLS, OUR_EYES_3),
     .then = LINES(OUR_EYES_4, OUR_DATA_SHEET),
     .source = "ANSI/ISEA Z358.1; GHS (United Nations), P305 + P351 + P338"},
    {.id = "fallen",
     .text = OUR_FALLEN,
     .do_now = LINES(OUR_FALLEN_1, OUR_CALL_NOW, OUR_FALLEN_2, OUR_FALLEN_3),
     .then = LINES(OUR_AS_THEY_SAY),
     .source = ERC_FIRST_AID},
    {.id = "fire",
     .text = OUR_FIRE,
     .do_now = LINES(OUR_FIRE_1, OUR_FIRE_2, OUR_FIRE_3, OUR_EXPLOSION_3),
     .then = LINES(OUR_FIRE_4, OUR_FIRE_5),
     .source = "29 CFR 1910.38, 1910.157"},
    {.id = "hurt",
     .text = OUR_HURT,
     .do_now = LINES(OUR_HURT_1, OUR_CALL_NOW, OUR_HURT_2, OUR_HURT_3),
     .then = LINES(OUR_AS_THEY_SAY),
     .source = ERC_FIRST_AID},
    {.id = "hydrofluoric-acid",
     .text = OUR_FLUORIC,
     .do_now = LINES(OUR_FLUORIC_1, OUR_FLUORIC_2, OUR_FLUORIC_3, OUR_FLUORIC_4),
     .then = LINES(OUR_FLUORIC_5, OUR_DATA_SHEET),
     .heard = {"hydrofluoric", "hydrofluoric acid", "ammonium bifluoride", "acido fluorhidrico",
               "bifluoruro de amonio"},
     .source = "CDC, Morbidity and Mortality Weekly Report 64(32), 2015, 874-877"},
    {.id = "mixed-products",
     .text = OUR_MIXED,
     .do_now = LINES(OUR_EXPLOSION_1, OUR_MIXED_1, OUR_MIXED_2, OUR_EXPLOSION_2, OUR_EXPLOSION_3),
     .then = LINES(OUR_MIXED_3, OUR_MIXED_4, OUR_DATA_SHEET),
     .source = "CDC, Morbidity and Mortality Weekly Report 40(36), 1991, 619-621; GHS (United "
               "Nations), P304 + P340"},
    {.id = "shock",
     .text = OUR_SHOCK,
     .do_now = LINES(OUR_SHOCK_1, OUR_SHOCK_2, OUR_CALL_NOW, OUR_SHOCK_3, OUR_SHOCK_4),
     .then = LINES(OUR_SHOCK_5),
     .source = "OSHA publication 3075, Controlling Electrical Hazards, 2002"},
    {.id = "skin",
     .text = OUR_SKIN,
     .do_now = LINES(OUR_SKIN_1, OUR_SKIN_2, OUR_SKIN_3, OUR_ANOTHER_CALLS),
     .then = LINES(OUR_SKIN_4, OUR_DATA_SHEET),
     .source = "ANSI/ISEA Z358.1; GHS (United Nations), P303 + P361 + P353"},
    {.id = "swallowed",
     .text = OUR_SWALLOWED,
     .do_now = LINES(OUR_SWALLOWED_1, OUR_SWALLOWED_2, OUR_CALL_NOW, OUR_SWALLOWED_3),
     .then = LINES(OUR_SWALLOWED_4, OUR_DATA_SHEET),
     .source = "GHS (United Nations), P301 + P330 + P331"},
    {.id = "unconscious",
     .text = OUR_UNCONSCIOUS,
     .do_now = LINES(OUR_UNCONSCIOUS_1, OUR_CALL_NOW, OUR_UNCONSCIOUS_2, OUR_UNCONSCIOUS_3,
                     OUR_UNCONSCIOUS_4),
     .then = LINES(OUR_AS_THEY_SAY),
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
