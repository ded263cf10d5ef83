/* The parts of a call before its case goes on and after it has ended. */
#ifndef TT_CLI_CALL_PARTS_H
#define TT_CLI_CALL_PARTS_H

#include "call/conversation.h"

/* ---- take_call.c: one call, from its beginning to its last page ---- */
typedef struct call_wish {
    tt_case_kind kind;        /* of a new one */
    bool at_desk;             /* `named` says which case, and "board" puts it down */
    const char *named;        /* its number or folder; null: a new one */
    const char *language;     /* null: as the options say */
    const char *danger_said;  /* before it began; or null */
    const char *told_first;   /* what is wrong, said before it began; or null */
    struct book_cache *books; /* that calls share; or null */
} call_wish;
exit_status take_call(const command_line *line, face *f, const call_wish *wish);
/* A case of this kind, by itself, with the face that the options ask for. */
exit_status talk_of_kind(const command_line *line, tt_case_kind kind);

/* drill_call.c: a made-up call, to learn on. */
exit_status drill_with(const command_line *line);

/* ---- call_options.c ---- */
exit_status check_talk_options(const command_line *line); /* says what does not go together */
/* As the options say; reads standard input from now on. Freed by face_end. */
face *face_wanted(const command_line *line, line_input *input);

/* choose_book.c: the book named; else, on a terminal, the one chosen of those that come along; else
 * the usual one of them. Null: the person left, or there is none, which is said. */
const char *book_wanted(conversation *c);
extern const char usual_book_name[];

/* choose_case.c: the case named; else, for a person who has named nothing, the one chosen of those
 * that are open. Null: a new one. */
const char *case_wanted(conversation *c);

/* told_books.c: which of the books that come along these words are about. */
typedef struct told_books {
    bool *fits;         /* one for each on the shelf; none: no complaint is heard in them */
    unsigned count;     /* of those that fit */
    bool reply;         /* the words say "no", "done" … and nothing else */
    const char *danger; /* the book that hears danger in them; or null */
    const char *only;   /* that they are clearly about; or null */
} told_books;
struct shelf;
told_books books_told(conversation *c, const struct shelf *s, const char *words);
/* ...and clearly none of them knows it: the person is told what to type. */
void say_unheard(conversation *c, tt_turn *turn, const told_books *told, const char *words);
/* What was said where a case was to be chosen. True: it begins a new one, which hears it, be it
 * danger; false: it says nothing that a book knows, and `turn` is to be asked again with that. */
bool tells_of_new_case(conversation *c, tt_turn *turn, const char *words);

/* take_up.c: a case that is there, by its number or folder. */
void take_up(conversation *c, const char *named);

/* past_of_site.c: reads what the cases of the site that is open say, into c->past. */
void read_past(conversation *c);

/* after_walk.c: what a round or a record leads to once it has ended. */
bool begins_fault(conversation *c); /* a case of the fault is begun, with what the round has seen */
void write_good(conversation *c);   /* what is good goes into the site's file */

/* keep_facts.c: the value of a fact as a file of answers has it. A dilution is a form, "1:50", and
 * no number with a unit. */
const char *fact_as_written(arena *keep, const tt_fact *fact);

/* end_case.c: the last page, and the status of the program. */
exit_status end_case(conversation *c);
/* Of a drill, which is no case. how: "gone", "call"; "": it was left before its end. */
exit_status end_drill(conversation *c, const char *how);

#endif
