/* Leaving a case to whoever comes next, with a note. */
#include <stdlib.h>

#include "ask/ask.h"
#include "ask/record_texts.h"

/* Null if the person left instead. Freed by the caller. */
static char *ask_line(ask *a, const char *kind, const char *question)
{
    say_nothing(&a->s);
    ask_for(a, kind, "%s", question);
    turn_takes(a->turn, "answer");
    return hear(a);
}

static void leave_with(ask *a, const char *kind, const char *to, const char *note)
{
    json_t *data = json_object();
    if (to != NULL) json_object_set_new(data, "to", json_string(to));
    json_object_set_new(data, "note", json_string(note));
    add_next_text(a, data);
    keep_note(a, kind, data);
    if (a->leaving != STAYING) return;
    if (to == NULL)
        say(&a->s, "On hold.");
    else if (*to == 0)
        say(&a->s, "Handed over.");
    else
        say(&a->s, "Handed over to %s.", to);
    a->leaving = LEAVING_STOPPED;
}

static bool can_be_left(ask *a)
{
    if (a->file == NULL) say_wrong(a, "Nothing of this case is kept, so nobody can go on with it.");
    return a->file != NULL;
}

void ask_hold(ask *a)
{
    if (!can_be_left(a)) return;
    char *note = ask_line(a, "note", "A note for whoever goes on? Without one, leave it empty.");
    if (note != NULL) leave_with(a, "hold", NULL, note);
    free(note);
}

void ask_hand_over(ask *a)
{
    if (!can_be_left(a)) return;
    char *to = ask_line(a, "to", "To whom? To nobody in particular, leave it empty.");
    char *note = to != NULL ? ask_line(a, "note", "A note for them? Without one, leave it empty.") : NULL;
    if (note != NULL) leave_with(a, "hand-over", to, note);
    free(note);
    free(to);
}
