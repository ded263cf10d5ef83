/* What a word can be for the ear that listens for danger. X-macro: CLASS(id). At most 64; a word or
 * phrase may be of several. */
#ifndef TT_LISTEN_DANGER_CLASS_H
#define TT_LISTEN_DANGER_CLASS_H

#include <stdint.h>

#define DANGER_CLASS_TABLE(CLASS) \
    /* how it is said */ \
    CLASS(NEGATES) /* not, nobody, sin */ \
    CLASS(OR)      /* goes on denying: or, nor, ni */ \
    CLASS(AND)     /* ends it: and, y */ \
    CLASS(BUT)     /* ends it: but, except, pero */ \
    CLASS(AUX)     /* says nothing by itself: is, got, has been, the, esta */ \
    CLASS(INTO)    /* in, inside, under, between, en, debajo */ \
    CLASS(ONTO)    /* on, over, all over, sobre, encima */ \
    CLASS(BY)      /* by, from, with, at, of, por, con */ \
    /* who and what */ \
    CLASS(PERSON)   /* man, somebody, compañero */ \
    CLASS(SUBJECT)  /* he, they, i: begins a sentence of its own */ \
    CLASS(OBJECT)   /* him, me, le, lo */ \
    CLASS(STRANGER) /* a word that nobody knows: a name it may be */ \
    CLASS(MINE)     /* my, his, mi, su */ \
    CLASS(BODY)     /* hand, finger, skin */ \
    CLASS(CLOTHES)  /* sleeve, glove: what machines catch first */ \
    CLASS(WEAK)     /* part of a body or of a machine: head, foot, face, ear */ \
    CLASS(EYES) \
    CLASS(EYE) /* of a person or of the controller */ \
    CLASS(MOUTH) \
    CLASS(MACHINE)  /* what pulls in or crushes: brush, conveyor, shaft */ \
    CLASS(ROOM)     /* where nobody may be while the machine can run: tunnel, bay, "in there" */ \
    CLASS(HOSE)     /* what holds product or air: hose, pipe, tank */ \
    CLASS(NOZZLE)   /* what sprays as it should */ \
    CLASS(THING)    /* anything else that can be stuck, fall or burn out */ \
    CLASS(IT)       /* it, this, that, eso */ \
    CLASS(CHEMICAL) /* soap, product, foam */ \
    CLASS(STRONG)   /* acid, lye, bleach, chlorine */ \
    /* what happens: list A */ \
    CLASS(EMERGENCY) \
    CLASS(FIRE) \
    CLASS(EXPLODES) \
    CLASS(CAUGHT)   /* trapped, atrapado: of a person unless a thing is named */ \
    CLASS(STUCK)    /* stuck, atorado: of a thing unless a person is named */ \
    CLASS(GRABS)    /* pulled, grabbed, hit, crushed, agarró */ \
    CLASS(GETS_HIT) /* got hit, was struck: whoever was spoken of before */ \
    CLASS(FALLS) \
    CLASS(TRIPS) /* tripped: of a person only, breakers trip */ \
    CLASS(SHOCK) \
    CLASS(FAINTS) \
    CLASS(LIES) /* not moving, on the floor, dead: of a person only */ \
    CLASS(BLEEDS) \
    CLASS(BREATH) \
    CLASS(COUGHS) /* coughing, sick: of a person only */ \
    CLASS(HURTS) \
    CLASS(PAIN)  /* burns, stings, broken, cut: of a body only */ \
    CLASS(BURNT) /* burnt: of a person, else it smells */ \
    CLASS(SWALLOWS) \
    CLASS(BREATHES_IN) /* breathed in, inhaled */ \
    CLASS(GETS_ON)     /* splashed, got, fell: what brings product to a body */ \
    CLASS(ENTERS)      /* is running in, went in */ \
    /* list B */ \
    CLASS(MIXED) /* of products */ \
    CLASS(POURS) /* one product into another */ \
    CLASS(TWO) \
    CLASS(GAS) \
    CLASS(BURST) \
    CLASS(BREAKS) /* broken, came off, everywhere: of hoses and products only */ \
    CLASS(SPRAYS) \
    CLASS(LEAKS) \
    CLASS(WONT_STOP) \
    CLASS(SPARKS) \
    CLASS(SMELLS) \
    CLASS(HOT) \
    CLASS(UNSAFE) \
    /* alone */ \
    CLASS(HELP) \
    CLASS(PLEASE)

typedef enum danger_class_place {
#define CLASS(id) DANGER_CLASS_PLACE_##id,
    DANGER_CLASS_TABLE(CLASS)
#undef CLASS
        DANGER_CLASS_COUNT
} danger_class_place;
_Static_assert(DANGER_CLASS_COUNT <= 64, "a class is a bit");

#define CLASS(id) \
    static const uint64_t IS_##id __attribute__((unused)) = (uint64_t)1 << DANGER_CLASS_PLACE_##id;
DANGER_CLASS_TABLE(CLASS)
#undef CLASS

#endif
