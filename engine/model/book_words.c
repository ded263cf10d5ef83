/* The words that an author writes for what a book holds: chances, how often, trends, hazards,
 * energies. */
#include <assert.h>

#include "model/book.h"

/* ---- numbers ---- */

/* Rising. */
static const struct {
    const char *word;
    double chance;
} words[CHANCE_WORDS] = {
    {"never", 0.01},
    {"rarely", 0.05},
    {"seldom", 0.15},
    {"sometimes", 0.30},
    {"about half the time", 0.50},
    {"often", 0.70},
    {"usually", 0.85},
    {"almost always", 0.95},
    {"always", 0.99},
};

/* Rising, too. */
static const struct {
    const char *word;
    double share;
} how_often[OFTEN_WORDS] = {
    {"rare", 0.3}, {"uncommon", 1}, {"occasional", 2}, {"common", 5}, {"very common", 10}};

const char *chance_word(uint32_t i)
{
    assert(i < CHANCE_WORDS);
    return words[i].word;
}

double chance_of_word(uint32_t i)
{
    assert(i < CHANCE_WORDS);
    return words[i].chance;
}

const char *often_word(uint32_t i, double *share)
{
    assert(i < OFTEN_WORDS && share != NULL);
    *share = how_often[i].share;
    return how_often[i].word;
}

static const char *const trends[] = {[TREND_STEADY] = "steady",
                                     [TREND_RISING] = "rising",
                                     [TREND_FALLING] = "falling",
                                     [TREND_JUMP] = "jump"};

const char *trend_name(reading_trend t)
{
    assert((size_t)t < sizeof trends / sizeof *trends);
    return trends[t];
}

/* ---- harm ---- */

/* After the origins of hazards in ISO 12100, Annex B. */
const char *const hazard_names[HAZARD_COUNT + 1] = {
    "moving-parts", "electricity", "pressure", "chemicals",     "hot-water",      "slips",
    "height",       "vehicles",    "lifting",  "gravity",       "hot-surface",    "fire",
    "fumes",        "noise",       "sharp",    "stored-energy", "confined-space", NULL};

const char *const energy_names[ENERGY_COUNT + 1] = {
    "electricity", "pressure", "moving-parts", "gravity", "heat", "stored-energy", NULL};

const char *hazard_name(hazard h)
{
    return h < HAZARD_COUNT ? hazard_names[h] : "";
}

const char *energy_name(energy e)
{
    return e < ENERGY_COUNT ? energy_names[e] : "";
}
