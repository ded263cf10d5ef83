/* The engine's own ear for danger: a table of rules over a scene. */
#ifndef TT_LISTEN_DANGER_RULES_H
#define TT_LISTEN_DANGER_RULES_H

#include "listen/danger_scene.h"
#include "listen/danger_table.h"

typedef struct danger_hit {
    danger_id id;
    bool grave;          /* list A */
    uint32_t first, end; /* words of the utterance that said it */
} danger_hit;

typedef struct danger_hits {
    const danger_hit *items; /* list A first, then by danger_table.h; one of a kind */
    uint32_t count;
} danger_hits;

/* Adds the engine's words to an empty phrasebook. */
void danger_words_add(phrasebook *p, arena *scratch);

danger_hits danger_find(arena *keep, const scene *s);
/* Can a word of these classes tell of danger by itself? */
bool danger_alone(uint64_t tags);
/* Is it by a word of these classes that list A is known, or one for people and their bodies? */
bool danger_is_grave_word(uint64_t tags);
/* Nothing but a part of a body: "my hand!". */
bool danger_is_cry(const scene *s);
/* Nothing but a cry for help: "help me please", "ayuda". */
bool danger_is_help(const scene *s);

#endif
