/* Our own words from the catalogue on a screen, with numbers as inserts. */
#ifndef TT_CLI_SPEAKER_H
#define TT_CLI_SPEAKER_H

#include "host/memory.h"
#include "host/screen.h"
#include "say/catalogue.h"

typedef struct speaker {
    const screen *s;
    arena *keep; /* of what is filled in */
    tongue in;   /* TO_AUTHORS unless something else is said */
} speaker;

/* `lead` as for say_item. */
static inline void speak(const speaker *by, const char *lead, text_id id)
{
    say_item(by->s, lead, "%s", catalogue_text(by->in, id));
}
#define SPEAK(by, lead, id, ...) \
    say_item((by)->s, (lead), "%s", FILL((by)->keep, (by)->in, (id), __VA_ARGS__))

/* "12", "4.5", "0.25": inserts. */
static inline const char *whole(const speaker *by, unsigned long long count)
{
    return arena_text(by->keep, "%llu", count);
}
static inline const char *places(const speaker *by, int after_the_point, double number)
{
    return arena_text(by->keep, "%.*f", after_the_point, number);
}
static inline const char *tenths(const speaker *by, double number)
{
    return places(by, 1, number);
}

#endif
