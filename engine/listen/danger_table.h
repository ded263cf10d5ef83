/* What can be dangerous, the most urgent first. X-macro: DANGER(id, list, name)
 *   id    in C
 *   list  A: somebody is hurt or can be in the next moment, so the danger page comes at once; B:
 * what was said is kept, and the danger question is asked name  the public one: `emergencies` of a
 * book replace by it, records and turns carry it Which words say it stands in danger_words_en.h and
 * danger_words_es.h, how they go together in danger_rules.c. */
#ifndef TT_LISTEN_DANGER_TABLE_H
#define TT_LISTEN_DANGER_TABLE_H

#define DANGER_TABLE(DANGER) \
    DANGER(BREATHING, A, "breathing") \
    DANGER(CAUGHT, A, "caught") \
    DANGER(UNCONSCIOUS, A, "unconscious") \
    DANGER(SHOCK, A, "shock") \
    DANGER(FIRE, A, "fire") \
    DANGER(EXPLOSION, A, "explosion") \
    DANGER(EYES, A, "eyes") \
    DANGER(SWALLOWED, A, "swallowed") \
    DANGER(SKIN, A, "skin") \
    DANGER(BLEEDING, A, "bleeding") \
    DANGER(BURNT, A, "burnt") \
    DANGER(FALLEN, A, "fallen") \
    DANGER(HURT, A, "hurt") \
    DANGER(EMERGENCY, A, "emergency") \
    DANGER(MIXED_PRODUCTS, B, "mixed-products") \
    DANGER(GAS, B, "gas") \
    DANGER(INSIDE, B, "inside") \
    DANGER(BURST, B, "burst") \
    DANGER(SPRAY, B, "spray") \
    DANGER(LEAK, B, "leak") \
    DANGER(WONT_STOP, B, "wont-stop") \
    DANGER(SPARKS, B, "sparks") \
    DANGER(SMELL, B, "smell") \
    DANGER(HOT, B, "hot") \
    DANGER(STUCK, B, "stuck") \
    DANGER(UNSAFE, B, "unsafe")

typedef enum danger_id {
#define DANGER(id, list, name) DANGER_##id,
    DANGER_TABLE(DANGER)
#undef DANGER
        DANGER_COUNT
} danger_id;

#endif
