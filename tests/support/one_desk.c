#include "one_desk.h"

#include <stdlib.h>

#include "book_folder.h"
#include "testing.h"

one_desk *one_desk_new(tt_book *b)
{
    one_desk *d = malloc(sizeof *d);
    assert_non_null(d);
    d->b = b;
    d->f = record_folder_new();
    d->east = talk_open(d->b, d->f, "east", NULL, NULL, DESK_MORNING);
    return d;
}

int foam_desk(void **state)
{
    *state = one_desk_new(book_folder("rules/foam-line"));
    return 0;
}

int one_desk_end(void **state)
{
    one_desk *d = *state;
    talk_close(&d->east);
    record_folder_free(d->f);
    tt_book_free(d->b);
    free(d);
    return 0;
}

void hear_hiss(told_talk *t)
{
    choose(t, "foam-too-dry");
    choose(t, "hiss");
    choose(t, "even");
    assert_turn(turn_of(t), TT_TURN_QUESTION);
    assert_string_equal(turn_of(t)->subject, "foam-air");
}

void reach_foam_fix(told_talk *t)
{
    choose(t, "safe");
    hear_hiss(t);
    assert_turn(read_off(t, 55, "psi"), TT_TURN_BEFORE_FIX);
}

void say_it_is_safe(told_talk *t, const char *safe)
{
    const tt_turn *turn = turn_of(t);
    if (turn->kind == TT_TURN_STOP)
        choose(t, turn_offers(turn, "mistaken") ? "mistaken" : "safe-now");
    assert_turn(turn_of(t), TT_TURN_DANGER);
    choose(t, safe);
}

void goes_through(told_talk *t, const char *const *lines)
{
    for (; *lines != NULL; lines++) {
        assert_turn(turn_of(t), TT_TURN_FIX_STEP);
        assert_string_equal(turn_of(t)->prompt, *lines);
        choose(t, "done");
    }
}
