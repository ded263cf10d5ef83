/* A case as the program holds it: the book that is open, where records are kept, the face, and the
 * talk that says what comes next. */
#ifndef TT_CLI_CONVERSATION_H
#define TT_CLI_CONVERSATION_H

#include "base/value.h"
#include "books/read_book.h"
#include "cases/case_contact.h"
#include "cases/case_store.h"
#include "face/case_line.h"
#include "face/face.h"
#include "host/command_line.h"
#include "say/catalogue.h"

typedef struct conversation conversation;
struct conversation {
    const command_line *line;
    arena *keep;
    /* what was asked for, or the talk was switched to; null: the case's own */
    const char *language;
    tongue tongue;            /* of our own words */
    face *face;               /* whose caller ends it */
    bool at_desk;             /* "board" puts the case down, and the desk takes the next one */
    struct book_cache *books; /* that calls share; or null */
    opened_book book;
    opened_book *before; /* books that a talk may still lean on: closed at the end */
    uint32_t before_count, before_room;
    /* why what was said of the site could not be taken; "" or null: it was */
    const char *site_wrong;
    const char *site_path;    /* absolute, of the file that book.site_text is in; null: in none */
    struct site_draft *draft; /* what was said of it before danger came in between; or null */
    bool keeps_site;          /* ...and where it is kept was still to be said */
    const char *said_at_name; /* the line with the danger, where a name was asked for; or null */
    tt_case_kind kind;        /* of a case that begins */
    tt_every every;           /* ROUND */
    tt_past *past;            /* what the cases of this site say, for one that begins; or null */
    bool practice;            /* on the book's example, which is nobody's site */
    bool telephone;
    case_contact contact; /* to be kept as soon as the case is; see case_contact.h */
    bool unnumbered;      /* a new case that a program may still begin as another: see take_turn */
    bool asks_site;       /* nothing says what equipment there is: asked once danger is ruled out */
    case_store *store;    /* null: nothing is kept */
    tt_record *kept;      /* by us, since the store was read */
    uint32_t kept_count, kept_room;
    tt_talk *talk;
    const char *told_title, **told; /* with the last page: what became of the site's file */
    uint32_t told_count, told_room;
    const char *cried;        /* what the talk was given to hear last; or null */
    const char *danger_said;  /* before there was a talk to hear it; or null */
    const char *told_first;   /* what is wrong, said while the program itself asked; or null */
    const char **names_meant; /* that are a letter from danger, and yet names, as was said */
    uint32_t name_count, name_room;
    bool put_down;    /* the word was said */
    bool interrupted; /* danger or stop was said to a question of the program's own: it asks no more
                         of them, the talk goes on */
    face_got left;    /* how the person left without a word; FACE_REPLY: they did not */
    const char *case_file;  /* that the case came as, and goes back into; or null */
    const char *said_why;   /* why something could not be kept, as it was said last; or "" */
    exit_status failure;    /* what ends it */
    exit_status status;     /* with the last turn: the program's */
    struct drilling *drill; /* of a drill, with: */
    void (*instead)(conversation *c); /* what is done in the place of the talk's turns once danger
                                         is ruled out; null: nothing */
};

/* ---- call_state.c ---- */

/* The person is there, and nothing has gone wrong. */
bool is_here(const conversation *c);
/* So that the program may ask something by itself. */
bool may_ask(const conversation *c);
void note_failure(conversation *c, exit_status failure);
/* The last page of its talk is there. */
bool talk_is_over(const conversation *c);
/* The face knows what it tells beside a turn. */
void show_about(conversation *c);
/* Told with the last page. */
void tell_at_end(conversation *c, const char *text);

/* ---- kept_talk.c ---- */

/* A talk with the book that is open, from the records that there are; `how` as in tt_talk_options.
 * What it has to keep is kept. */
void talk_anew(conversation *c, const char *how);
/* A new case to keep things in, with the identifier and the writer that somebody wants (each may be
 * null); none, if nothing is to be kept. */
exit_status store_anew(conversation *c, const char *id, const char *writer);
/* What was said: its records are kept, and the next turn is there. */
void hear_and_keep(conversation *c, const tt_heard *heard);

/* ---- conversation.c ---- */

/* Turn after turn, until the case ends or the person leaves. */
void go_on_talking(conversation *c);

/* ---- caller_kept.c: who calls ---- */
/* As the options say. */
case_contact contact_said(const command_line *line);
/* What was said of the caller is on the disk, if the case is. */
void keep_contact(conversation *c);
/* What is kept of the caller goes with the call into the next case that keeps something. */
void take_contact_along(conversation *c);
/* who_calls.c: asks who calls, the number and the ticket, each of which may be left out. */
void ask_contact(conversation *c);

/* ---- what the first record of a case, or of somebody who comes to it, says of it ---- */
const tt_value *about_case(conversation *c);
/* As others see who works on a case: --name, else the login. Valid until the next call. */
const char *who_works(const command_line *line);
/* Who reads a list of cases now. */
case_reader reader_now(const command_line *line);

#endif
