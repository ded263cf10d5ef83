/* Small letters of all alphabets, for finding a text whatever its letters' size. */
#ifndef TT_CLI_FOLD_LETTERS_H
#define TT_CLI_FOLD_LETTERS_H

#include <stdbool.h>

char *fold_letters(const char *text); /* freed by the caller */
/* the same without blanks around, to be looked for; null: null */
char *folded_part(const char *text);
/* Whether `part`, which is folded already, is in the text. A null text holds nothing. */
bool text_holds(const char *text, const char *part);

#endif
