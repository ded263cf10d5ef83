/* Numbers in an utterance, in figures or words, and the units behind them. */
#ifndef TT_LISTEN_SAID_NUMBER_H
#define TT_LISTEN_SAID_NUMBER_H

#include "listen/phrasebook.h"
#include "measure/amount.h"

/* The words of numbers (number_words.h). */
phrasebook number_words_new(arena *keep, arena *scratch, const word_set *language);

typedef struct said_number {
    uint32_t first, end; /* words of the utterance */
    str figures;         /* as it can be read: "40", "32.5", "1:50", "40psi" */
    bool vague;          /* "forty something", "40 or 50" */
} said_number;

typedef struct said_numbers {
    const said_number *items;
    uint32_t count;
} said_numbers;

/* Those between two words. */
said_numbers said_numbers_find(const phrasebook *words, arena *keep, const said *s, uint32_t first,
                               uint32_t end);

typedef enum amount_fit {
    AMOUNT_FITS,     /* with a unit of the wanted kind, or a number alone where that is wanted */
    AMOUNT_BARE,     /* without a unit */
    AMOUNT_ELSEWHERE /* with a unit of another kind */
} amount_fit;

/* The number with the unit that is said behind it, as it would be typed: "45 psi". `end`: behind
 * the unit. */
amount_fit said_amount(arena *keep, const said *s, const said_number *n, uint32_t last,
                       const unit *wanted, str *typed, uint32_t *end);

/* The choice that is named by its number and nothing else: "5)", "#2", "two", "number 3"; 0: none.
 */
uint32_t said_choice(const phrasebook *words, arena *keep, const said *s);

#endif
