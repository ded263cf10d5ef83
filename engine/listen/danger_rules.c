/* How words of danger go together. Each rule has a head, which must be said and not denied, and
 * names what else must hold. */
#include "listen/danger_rules.h"

#include <assert.h>

#include "listen/danger_words_en.h"
#include "listen/danger_words_es.h"

#define NONE UINT32_MAX

/* ---- rules ---- */

typedef enum of_whom {
    OF_ANYTHING,
    OF_PERSON,   /* of somebody or a part of a body: "he is stuck" */
    OF_NO_THING, /* of somebody, or nothing is named: "caught in the brush" */
    OF_VICTIM,   /* done to somebody: "the brush hit him", "he got hit"; not "he hit the wall" */
    OF_VICTIM_OF_SOLID,  /* "the brush hit him"; not "a spray hit him" */
    OF_VICTIM_OF_LIQUID, /* "a spray hit him" */
    WITH_SOLID,          /* what stands with it: "the brush hit my face" */
    OF_STRANGER,         /* "tovel fell": a name, or a slip of a thing */
    OF_NO_BODY,          /* "burning", but not "my hand is burning" */
    BY_NO_THING,         /* "swallowed soap", "he swallowed soap"; not "the drain swallowed it" */
    OF_ONE_BEFORE,       /* "he got hit", "a man opened the door and got hit" */
    OF_NOTHING_BEFORE,   /* "got hit by the arch"; not "the sign got hit" */
    BY_NO_SMALL_THING,   /* a burnt fuse or bulb smells of nothing */
    ON_THE_FLOOR, /* "está en el piso", "is lying there": somebody, or a thing; nobody says */
    BY_NO_NOZZLE, /* "product sprays"; not "the nozzles spray" */
} of_whom;

typedef enum side { NEAR, AFTER, BEFORE } side;
typedef struct beside { /* of these classes, at most so many items away */
    uint64_t classes;
    uint32_t within;
    side where;
} beside;
typedef struct danger_rule {
    danger_id id;
    bool grave;
    uint64_t head;
    of_whom whom;
    beside with, and; /* classes 0: nothing */
} danger_rule;

#define A(id) DANGER_##id, true
#define B(id) DANGER_##id, false
static const danger_rule rules[] = {
    {A(BREATHING), IS_BREATH, OF_NO_THING, {0}, {0}},
    {A(BREATHING), IS_COUGHS, OF_PERSON, {0}, {0}},
    {A(BREATHING),
     IS_COUGHS,
     OF_ANYTHING,
     {IS_STRONG | IS_GAS | IS_SMELLS | IS_FIRE, 4, NEAR},
     {0}},
    {A(BREATHING),
     IS_BREATHES_IN,
     OF_ANYTHING,
     {IS_STRONG | IS_GAS | IS_SMELLS | IS_FIRE | IS_CHEMICAL, 3, NEAR},
     {0}},
    {A(UNCONSCIOUS), IS_FAINTS, OF_NO_THING, {0}, {0}},
    {A(UNCONSCIOUS), IS_LIES, OF_PERSON, {0}, {0}},
    {A(UNCONSCIOUS), IS_LIES, ON_THE_FLOOR, {IS_LIES, 3, AFTER}, {0}},
    {A(CAUGHT), IS_CAUGHT, OF_NO_THING, {0}, {0}},
    {A(CAUGHT), IS_STUCK, OF_PERSON, {0}, {0}},
    {A(CAUGHT), IS_STUCK, OF_NO_THING, {IS_INTO, 2, AFTER}, {IS_MACHINE, 4, AFTER}},
    {A(CAUGHT), IS_GETS_HIT, OF_ONE_BEFORE, {0}, {0}},
    {A(CAUGHT), IS_GETS_HIT, OF_NOTHING_BEFORE, {0}, {0}},
    {A(CAUGHT), IS_GRABS, OF_VICTIM_OF_SOLID, {0}, {0}},
    {A(CAUGHT), IS_BODY | IS_CLOTHES, OF_ANYTHING, {IS_ENTERS, 2, AFTER}, {0}},
    {A(CAUGHT),
     IS_BODY | IS_CLOTHES,
     OF_ANYTHING,
     {IS_INTO | IS_ENTERS, 3, AFTER},
     {IS_MACHINE | IS_ROOM | IS_HOSE, 5, AFTER}},
    {A(CAUGHT), IS_BODY | IS_CLOTHES, WITH_SOLID, {IS_GRABS | IS_STUCK | IS_CAUGHT, 3, NEAR}, {0}},
    {A(CAUGHT), IS_WEAK, OF_ANYTHING, {IS_INTO, 3, AFTER}, {IS_MACHINE, 5, AFTER}},
    {A(CAUGHT), IS_PERSON | IS_OBJECT, OF_ANYTHING, {IS_INTO, 3, AFTER}, {IS_MACHINE, 5, AFTER}},
    {A(CAUGHT),
     IS_BODY | IS_CLOTHES | IS_PERSON,
     OF_ANYTHING,
     {IS_MACHINE, 4, BEFORE},
     {IS_GETS_ON, 3, BEFORE}},
    {A(SHOCK), IS_SHOCK, OF_ANYTHING, {0}, {0}},
    {A(EYES), IS_EYES, OF_ANYTHING, {IS_PAIN | IS_STRONG | IS_CHEMICAL, 6, NEAR}, {0}},
    {A(EYES), IS_EYES, OF_ANYTHING, {IS_MINE, 1, NEAR}, {0}},
    {A(EYES), IS_EYES, OF_ANYTHING, {IS_INTO, 4, BEFORE}, {0}},
    {A(EYES),
     IS_EYE,
     OF_ANYTHING,
     {IS_INTO, 2, NEAR},
     {IS_CHEMICAL | IS_STRONG | IS_GETS_ON, 5, NEAR}},
    {A(EYES), IS_EYE, OF_ANYTHING, {IS_STRONG, 1, NEAR}, {0}},
    {A(EYES), IS_EYE, OF_ANYTHING, {IS_HURTS, 2, NEAR}, {0}},
    {A(FIRE), IS_FIRE, OF_NO_BODY, {0}, {0}},
    {A(EXPLOSION), IS_EXPLODES, OF_ANYTHING, {0}, {0}},
    {A(SWALLOWED), IS_SWALLOWS, BY_NO_THING, {0}, {0}},
    {A(SWALLOWED), IS_MOUTH, OF_ANYTHING, {IS_STRONG | IS_CHEMICAL | IS_PAIN, 4, NEAR}, {0}},
    {A(SKIN), IS_BODY | IS_CLOTHES, OF_ANYTHING, {IS_STRONG, 6, NEAR}, {0}},
    {A(SKIN),
     IS_BODY,
     OF_ANYTHING,
     {IS_INTO | IS_ONTO, 4, BEFORE},
     {IS_CHEMICAL | IS_GETS_ON, 7, BEFORE}},
    {A(SKIN),
     IS_BODY,
     OF_ANYTHING,
     {IS_INTO, 1, NEAR},
     {IS_CHEMICAL | IS_GETS_ON | IS_GRABS, 5, BEFORE}},
    {A(SKIN), IS_PERSON, OF_ANYTHING, {IS_ONTO, 2, BEFORE}, {IS_CHEMICAL | IS_STRONG, 8, BEFORE}},
    {A(SKIN), IS_OBJECT, OF_VICTIM, {IS_SPRAYS, 1, NEAR}, {0}},
    {A(SKIN), IS_GRABS, OF_VICTIM_OF_LIQUID, {0}, {0}},
    {A(SKIN), IS_OBJECT, OF_ANYTHING, {IS_ONTO, 1, BEFORE}, {IS_STRONG, 4, BEFORE}},
    {A(SKIN), IS_SPRAYS, OF_VICTIM, {0}, {0}},
    {A(BLEEDING), IS_BLEEDS, OF_ANYTHING, {0}, {0}},
    {A(BURNT), IS_BURNT, OF_PERSON, {0}, {0}},
    {A(BURNT), IS_WEAK, OF_ANYTHING, {IS_BURNT, 2, NEAR}, {0}},
    {A(BURNT), IS_BURNT, OF_ANYTHING, {IS_STRONG, 3, NEAR}, {0}},
    {A(FALLEN), IS_FALLS, OF_NO_THING, {0}, {0}},
    {A(FALLEN), IS_TRIPS, OF_PERSON, {0}, {0}},
    {A(HURT), IS_HURTS, OF_ANYTHING, {0}, {0}},
    {A(HURT), IS_BODY, OF_ANYTHING, {IS_PAIN, 5, NEAR}, {0}},
    {A(HURT), IS_BODY, OF_ANYTHING, {IS_ONTO, 2, BEFORE}, {IS_THING | IS_HOSE, 4, BEFORE}},
    {A(HURT), IS_BODY, OF_ANYTHING, {IS_ENTERS, 2, BEFORE}, {IS_NOZZLE | IS_SPRAYS, 6, BEFORE}},
    {A(HURT), IS_BODY, OF_ANYTHING, {IS_INTO, 2, BEFORE}, {IS_BREAKS, 3, BEFORE}},
    {A(HURT),
     IS_OBJECT | IS_PERSON | IS_BODY,
     OF_ANYTHING,
     {IS_ONTO, 2, BEFORE},
     {IS_FALLS | IS_BREAKS | IS_UNSAFE, 4, BEFORE}},
    {A(EMERGENCY), IS_EMERGENCY, OF_ANYTHING, {0}, {0}},
    {B(MIXED_PRODUCTS), IS_MIXED, OF_ANYTHING, {IS_TWO | IS_STRONG | IS_CHEMICAL, 4, NEAR}, {0}},
    {B(MIXED_PRODUCTS),
     IS_STRONG,
     OF_ANYTHING,
     {IS_STRONG, 6, AFTER},
     {IS_POURS | IS_MIXED, 6, NEAR}},
    {B(MIXED_PRODUCTS), IS_STRONG, OF_ANYTHING, {IS_HOSE, 6, AFTER}, {IS_POURS, 4, NEAR}},
    {B(MIXED_PRODUCTS), IS_STRONG, OF_ANYTHING, {IS_CHEMICAL, 4, AFTER}, {IS_POURS, 4, NEAR}},
    {B(GAS), IS_GAS, OF_ANYTHING, {0}, {0}},
    {B(INSIDE), IS_PERSON, OF_ANYTHING, {IS_INTO | IS_ENTERS, 3, AFTER}, {IS_ROOM, 5, AFTER}},
    {B(INSIDE), IS_PERSON, OF_ANYTHING, {IS_ENTERS, 2, AFTER}, {0}},
    {B(INSIDE), IS_ENTERS, OF_ANYTHING, {IS_PERSON, 2, AFTER}, {0}},
    {B(INSIDE), IS_STRANGER, OF_ANYTHING, {IS_INTO | IS_ENTERS, 3, AFTER}, {IS_ROOM, 5, AFTER}},
    {B(BURST), IS_BURST, OF_ANYTHING, {0}, {0}},
    {B(BURST), IS_BREAKS, OF_ANYTHING, {IS_HOSE | IS_STRONG, 4, NEAR}, {0}},
    {B(SPRAY), IS_SPRAYS, BY_NO_NOZZLE, {0}, {0}},
    {B(LEAK), IS_LEAKS, OF_ANYTHING, {0}, {0}},
    {B(WONT_STOP), IS_WONT_STOP, OF_ANYTHING, {0}, {0}},
    {B(SPARKS), IS_SPARKS, OF_ANYTHING, {0}, {0}},
    {B(SMELL), IS_SMELLS, OF_ANYTHING, {0}, {0}},
    {B(SMELL), IS_BURNT, BY_NO_SMALL_THING, {0}, {0}},
    {B(HOT), IS_HOT, OF_ANYTHING, {0}, {0}},
    {B(STUCK), IS_STUCK, OF_ANYTHING, {0}, {0}},
    {B(UNSAFE), IS_UNSAFE, OF_ANYTHING, {0}, {0}},
    {B(UNSAFE), IS_LIES, ON_THE_FLOOR, {0}, {0}},
    {B(UNSAFE), IS_LIES | IS_FALLS | IS_CAUGHT | IS_STUCK, OF_STRANGER, {0}, {0}},
};
#undef A
#undef B
enum { RULE_COUNT = sizeof rules / sizeof *rules };

/* "le pegó al carro": what is behind "al" is whom it is done to. */
static bool done_to_thing(const scene *s, uint32_t item)
{
    for (uint32_t j = item + 1; j + 1 < s->count && j <= item + 3; j++)
        if (str_is(s->said->words[s->items[j].first].plain, "al") &&
            (s->items[j + 1].tags & scene_things()) != 0)
            return true;
    return false;
}

static bool is_victim(const scene *s, uint32_t item)
{
    assert(item < s->count);
    if ((s->items[item].tags & IS_OBJECT) != 0) return !done_to_thing(s, item);
    const uint64_t object = scene_object(s, item);
    if (object != 0) return (object & scene_people()) != 0;
    return (scene_subject(s, item) & scene_people()) != 0;
}

/* What sprayed or burst was said before, in another clause too, and no other thing since. */
static bool jet_before(const scene *s, uint32_t item)
{
    for (uint32_t j = item; j-- > 0;) {
        const uint64_t tags = s->items[j].tags;
        if ((tags & (IS_SPRAYS | IS_BURST)) != 0 && !scene_denied(s, j)) return true;
        if ((tags & (IS_MACHINE | IS_THING | IS_FALLS)) != 0) return false;
    }
    return false;
}

/* "A hose burst, it hit him in the face": what came out hit him, where nothing else is named. */
static bool by_jet(const scene *s, uint32_t item)
{
    const uint64_t doer = scene_doer(s, item);
    const uint64_t others = (scene_things() | scene_people()) & ~(IS_THING | IS_IT | IS_HOSE);
    return (doer & others) == 0 && jet_before(s, item);
}

static bool by_liquid(const scene *s, uint32_t item)
{
    if (by_jet(s, item)) return true;
    return (scene_doer(s, item) & (IS_NOZZLE | IS_CHEMICAL | IS_STRONG | IS_SPRAYS)) != 0;
}

/* "tovel got hit": a name that no list has. */
static bool stranger_before(const scene *s, uint32_t item)
{
    while (item > 0 && !s->said->words[s->items[item].first].stop &&
           (s->items[item - 1].tags & IS_AUX) != 0)
        item--;
    return item > 0 && !s->said->words[s->items[item].first].stop &&
           (s->items[item - 1].tags & IS_STRANGER) != 0;
}

/* Behind an "and" it is said of whoever was spoken of before. */
static bool goes_on_of_person(const scene *s, uint32_t item)
{
    const uint32_t far = 8;
    return item > 0 && (s->items[item - 1].tags & IS_AND) != 0 &&
           scene_before(s, item, IS_PERSON, far) != NONE;
}

/* Nothing is said before it but "and", "but", "is". */
static bool opens(const scene *s, uint32_t item)
{
    assert(item < s->count);
    while (item > 0 && !s->said->words[s->items[item].first].stop &&
           (s->items[item - 1].tags & (IS_AUX | IS_BUT | IS_AND)) != 0)
        item--;
    return item == 0 || s->said->words[s->items[item].first].stop;
}

static bool names_floor(const scene *s, uint32_t item)
{
    static const char *const words[] = {"floor", "ground", "lying",  "laying",   "piso",    "pizo",
                                        "suelo", "tirado", "tirada", "acostado", "acostada"};
    for (uint32_t w = s->items[item].first; w < s->items[item].end; w++)
        for (size_t i = 0; i < sizeof words / sizeof *words; i++)
            if (str_is(s->said->words[w].plain, words[i])) return true;
    return false;
}

/* Spanish leaves "he" out: "está tirado en el piso". Where nothing but a verb comes before, and
 * nothing is named behind it, it may be somebody. */
static bool lies_on_floor(const scene *s, uint32_t item)
{
    assert(item < s->count);
    return names_floor(s, item) && opens(s, item) && scene_object(s, item) == 0;
}

/* "On the floor" alone says where, and no more. */
static bool has_verb(const scene *s, uint32_t item)
{
    return item > 0 || str_is(s->said->words[s->items[item].first].plain, "is");
}

static uint32_t find_beside(const scene *s, uint32_t item, const beside *b)
{
    assert(b->classes != 0 && b->within > 0);
    switch (b->where) {
    case NEAR:
        return scene_near(s, item, b->classes, b->within);
    case AFTER:
        return scene_after(s, item, b->classes, b->within);
    case BEFORE:
        return scene_before(s, item, b->classes, b->within);
    }
    assert(false);
    return NONE;
}

static bool whom_holds(const danger_rule *r, const scene *s, uint32_t item)
{
    const uint64_t people = scene_people(), things = scene_things();
    switch (r->whom) {
    case OF_ANYTHING:
        return true;
    case OF_PERSON:
        return (scene_subject(s, item) & people) != 0;
    case OF_NO_THING:
        return (scene_subject(s, item) & people) != 0 || (scene_subject(s, item) & things) == 0;
    case OF_VICTIM:
        return is_victim(s, item);
    case OF_VICTIM_OF_SOLID:
        return is_victim(s, item) && !by_liquid(s, item);
    case OF_VICTIM_OF_LIQUID:
        return is_victim(s, item) && by_liquid(s, item);
    case WITH_SOLID:
        return !by_liquid(s, find_beside(s, item, &r->with));
    case OF_STRANGER:
        return stranger_before(s, item);
    case OF_NO_BODY:
        return (s->items[item].tags & IS_PAIN) == 0 ||
               (scene_subject(s, item) & (IS_BODY | IS_EYES | IS_MOUTH)) == 0;
    case BY_NO_THING:
        return (scene_doer(s, item) & people) != 0 || (scene_doer(s, item) & things) == 0;
    case OF_ONE_BEFORE:
        return (scene_subject(s, item) & people) != 0 || goes_on_of_person(s, item) ||
               stranger_before(s, item);
    case OF_NOTHING_BEFORE:
        return opens(s, item);
    case BY_NO_SMALL_THING:
        return (scene_doer(s, item) & IS_THING) == 0 || (scene_doer(s, item) & IS_MACHINE) != 0;
    case ON_THE_FLOOR:
        return lies_on_floor(s, item) && (r->with.classes != 0 || has_verb(s, item));
    case BY_NO_NOZZLE:
        return (scene_doer(s, item) & IS_NOZZLE) == 0;
    }
    assert(false);
    return true;
}

/* What is said of a part of a body can be denied, the part can't: "I can't see, my eyes burn". */
static bool fires(const danger_rule *r, const scene *s, uint32_t item)
{
    if ((s->items[item].tags & r->head) == 0) return false;
    const uint32_t with = r->with.classes == 0 ? item : find_beside(s, item, &r->with);
    if (with == NONE || scene_denied(s, with)) return false;
    if (r->and.classes != 0) {
        const uint32_t and = find_beside(s, item, &r->and);
        if (and == NONE || scene_denied(s, and)) return false;
    }
    return whom_holds(r, s, item);
}

/* ---- hits ---- */

static void keep_hit(danger_hit *best, const danger_rule *r, const scene *s, uint32_t item)
{
    danger_hit *h = &best[r->id];
    assert(r->id < DANGER_COUNT && item < s->count);
    if (h->end > 0 && (h->grave || !r->grave)) return;
    const uint32_t with = r->with.classes == 0 ? item : find_beside(s, item, &r->with);
    const uint32_t first = with < item ? with : item, last = with < item ? item : with;
    *h = (danger_hit){r->id, r->grave, s->items[first].first, s->items[last].end};
    assert(h->first < h->end);
}

danger_hits danger_find(arena *keep, const scene *s)
{
    danger_hit best[DANGER_COUNT] = {0};
    for (uint32_t i = 0; i < s->count; i++)
        for (uint32_t r = 0; s->items[i].tags != 0 && r < RULE_COUNT; r++)
            if (fires(&rules[r], s, i)) keep_hit(best, &rules[r], s, i);
    danger_hit *items = ARENA_ARRAY(keep, danger_hit, DANGER_COUNT);
    danger_hits all = {.items = items};
    for (int grave = 1; grave >= 0; grave--)
        for (int id = 0; id < DANGER_COUNT; id++)
            if (best[id].end > 0 && best[id].grave == (grave == 1)) items[all.count++] = best[id];
    assert(all.count <= DANGER_COUNT);
    return all;
}

/* Of rules that need nothing else beside them. */
bool danger_alone(uint64_t tags)
{
    uint64_t heads = 0;
    for (uint32_t r = 0; r < RULE_COUNT; r++)
        if (rules[r].with.classes == 0) heads |= rules[r].head;
    return (tags & heads) != 0;
}

bool danger_is_grave_word(uint64_t tags)
{
    uint64_t grave = scene_people() | IS_SUBJECT | IS_MINE | IS_WEAK | IS_EYE;
    for (uint32_t r = 0; r < RULE_COUNT; r++)
        if (rules[r].grave) grave |= rules[r].head;
    return (tags & grave) != 0;
}

void danger_words_add(phrasebook *p, arena *scratch)
{
    assert(p->words.count == 0);
#define WORDS(classes, phrases) phrasebook_add_all(p, scratch, phrases, classes);
    DANGER_WORDS_EN(WORDS)
    DANGER_WORDS_ES(WORDS)
#undef WORDS
#define HIDES(phrases) phrasebook_add_all(p, scratch, phrases, 0);
    DANGER_HIDES_EN(HIDES)
    DANGER_HIDES_ES(HIDES)
#undef HIDES
    phrasebook_prefer(p, danger_alone); /* what isn't known to be safe counts as danger */
}

/* "my hand!" */
bool danger_is_cry(const scene *s)
{
    const uint64_t body = IS_BODY | IS_EYES | IS_MOUTH;
    bool hurts = false;
    assert(s->count > 0);
    for (uint32_t i = 0; i < s->count; i++) {
        if ((s->items[i].tags & (body | IS_MINE | IS_AUX | IS_HELP | IS_PLEASE)) == 0) return false;
        const bool whose =
            (s->items[i].tags & IS_MINE) != 0 || (i > 0 && (s->items[i - 1].tags & IS_MINE) != 0);
        hurts = hurts || ((s->items[i].tags & body) != 0 && whose);
    }
    return hurts;
}

bool danger_is_help(const scene *s)
{
    assert(s->count > 0);
    bool help = false;
    for (uint32_t i = 0; i < s->count; i++) {
        const uint64_t tags = s->items[i].tags;
        if ((tags & (IS_HELP | IS_PLEASE | IS_AUX)) == 0) return false;
        help = help || (tags & IS_HELP) != 0;
    }
    return help;
}
