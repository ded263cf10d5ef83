/* What the program itself asks, before a case and after it: which book, which case, what there is
 * at the site. It is asked as turns, by the same face as everything else. */
#ifndef TT_CLI_DIALOGUE_H
#define TT_CLI_DIALOGUE_H

#include "call/conversation.h"

/* A turn to be filled; in c->keep. */
tt_turn *host_turn(conversation *c, tt_turn_kind kind, const char *prompt);
void host_choice(conversation *c, tt_turn *turn, const char *id, const char *text);
/* One more word of ours that works here, beside danger and stop. */
void host_word(conversation *c, tt_turn *turn, const char *id, text_id typed);
/* At the desk two words more work: one puts the case down, kept as it is, on every turn; one says
 * who calls, on turns of the talk. */
extern const char word_board[], word_caller[];
bool puts_down(conversation *c, const tt_heard *heard);
bool asks_contact(const conversation *c, const tt_heard *heard);
void host_list(conversation *c, tt_turn *turn, tt_part_kind kind, const char *title,
               const char *const *items, uint32_t count);
void host_line(conversation *c, tt_turn *turn, tt_part_kind kind, const char *title,
               const char *text);

/* The id of what was chosen. Null: the person left, or spoke of danger, which is heard by the talk.
 */
const char *host_choose(conversation *c, tt_turn *turn);
/* The same, but that words which are none of the choices, and speak of no danger, end it: `told`.
 */
const char *host_choose_or_hear(conversation *c, tt_turn *turn, const char **told);
/* The talk hears it as soon as danger is ruled out, behind what was told before. */
void tell_first(conversation *c, const char *words);
/* What was said; "" if it was the choice "none", for which an empty line stands, or a word of ours
 * that works here: then `word` is its id, else "". Null: as above. */
const char *host_words(conversation *c, tt_turn *turn, const char **word);
/* Would these words, said for a name, be heard as danger? */
bool hears_danger(conversation *c, const char *words);
/* Shows a turn to which nothing is replied. */
void host_tell(conversation *c, const tt_turn *turn);

#endif
