/* An utterance as the ear for danger takes it: words and phrases with their classes, who or what is
 * spoken of, what is denied. */
#ifndef TT_LISTEN_DANGER_SCENE_H
#define TT_LISTEN_DANGER_SCENE_H

#include "listen/danger_class.h"
#include "listen/phrasebook.h"

typedef struct scene {
    const said *said;
    phrase_item *items; /* a weak part with "my" before it has become a part of a body */
    uint32_t count;
    const word_set *book_words; /* words of the book: something, not a name */
} scene;

scene scene_read(arena *keep, arena *scratch, const phrasebook *words, const word_set *book_words,
                 const said *s);

/* Whose the item is: the classes of the person, part or thing that it is said of, 0 if none is
 * named. "he is stuck", "the brush caught his hand". */
uint64_t scene_subject(const scene *s, uint32_t item);
/* Who does it, and to whom: the noun before, the noun after; 0 if none is named. */
uint64_t scene_doer(const scene *s, uint32_t item);
uint64_t scene_object(const scene *s, uint32_t item);
/* Is it denied? "nobody is hurt", "there is no smoke", "sin humo". Not by a no that answers: "no,
 * smoke", "no he is hurt". */
bool scene_denied(const scene *s, uint32_t item);
/* The nearest item of these classes at most `within` items away (`near`: the item itself too), with
 * no "but" or full stop between; UINT32_MAX if there is none. */
uint32_t scene_near(const scene *s, uint32_t item, uint64_t classes, uint32_t within);
uint32_t scene_after(const scene *s, uint32_t item, uint64_t classes, uint32_t within);
uint32_t scene_before(const scene *s, uint32_t item, uint64_t classes, uint32_t within);

/* People and what belongs to them; things. */
uint64_t scene_people(void);
uint64_t scene_things(void);

#endif
