/* The gate question of a book that has none, and what to do while the gate is shut where the book
 * does not say. */
#include <assert.h>

#include "read/ours.h"

texts our_texts(reader *r, text_id id)
{
    text_item *items = ARENA_ARRAY(r->keep, text_item, TONGUE_COUNT);
    const tongue first = tongue_of(str_copy(r->scratch, r->book->language).p);
    uint32_t count = 0;
    items[count++] = (text_item){str_of(tongue_tag(first)), str_of(catalogue_text(first, id))};
    for (tongue in = 0; in < TONGUE_COUNT; in++)
        if (in != first)
            items[count++] = (text_item){str_of(tongue_tag(in)), str_of(catalogue_text(in, id))};
    assert(count == TONGUE_COUNT);
    return (texts){.items = items, .count = count, .at = span_nowhere()};
}

enum { OUR_NO, OUR_YES, OUR_ANSWERS }; /* by name, as all answers stand */

static const answer_option *our_answers(reader *r)
{
    answer_option *all = ARENA_ARRAY(r->keep, answer_option, OUR_ANSWERS);
    all[OUR_NO] = (answer_option){.id = {STR("no"), span_nowhere()}, .share = 0.99};
    all[OUR_NO].text = our_texts(r, OUR_GATE_NO);
    all[OUR_YES] = (answer_option){.id = {STR("yes"), span_nowhere()}, .share = 0.01};
    all[OUR_YES].text = our_texts(r, OUR_GATE_YES);
    return all;
}

/* No rule reads it, so that it changes no belief. */
question our_gate(reader *r)
{
    static const uint32_t no_first[] = {OUR_NO, OUR_YES};
    assert(r->gate_wanted && r->gate_name.n > 0);
    question q = {.id = {r->gate_name, span_nowhere()},
                  .of = {r->gate_name, NO_ID, NO_ID, 0},
                  .kind = QUESTION_CHOICE,
                  .yes_no = true,
                  .answers = our_answers(r),
                  .answer_count = OUR_ANSWERS,
                  .shown_order = no_first,
                  .in = unit_none,
                  .has_usual = true,
                  .usual_answer = OUR_NO,
                  .minutes = 0.5,
                  .place = NO_ID,
                  .instrument = NO_ID,
                  .good = NO_ID,
                  .gate = true,
                  .safe_answers = UINT64_C(1) << OUR_NO,
                  .ours = true,
                  .read_right = 1,
                  .about = ABOUT_TODAY,
                  .undo = {.kind = PUT_BACK_NOT_NEEDED}};
    q.ask = our_texts(r, OUR_GATE);
    q.look = our_texts(r, OUR_GATE_LOOK);
    return q;
}

texts our_stop_text(reader *r)
{
    return our_texts(r, OUR_STOP);
}
