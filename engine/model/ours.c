/* The gate question of a book that has none, and what to do while the gate is shut where the book
 * does not say. */
#include <assert.h>

#include "model/ours.h"

texts our_texts(reader *r, said words)
{
    assert(words.en != NULL && words.es != NULL);
    text_item *items = ARENA_ARRAY(r->keep, text_item, 2);
    bool spanish = str_starts(r->book->language, "es");
    items[spanish ? 1 : 0] = (text_item){STR("en"), str_of(words.en)};
    items[spanish ? 0 : 1] = (text_item){STR("es"), str_of(words.es)};
    return (texts){.items = items, .count = 2, .at = span_nowhere()};
}

enum { OUR_NO, OUR_YES, OUR_ANSWERS }; /* by name, as all answers stand */

static const answer_option *our_answers(reader *r)
{
    answer_option *all = ARENA_ARRAY(r->keep, answer_option, OUR_ANSWERS);
    all[OUR_NO] = (answer_option){.id = {STR("no"), span_nowhere()}, .share = 0.99};
    all[OUR_NO].text = our_texts(r, (said){"No, nothing like that", "No, nada de eso"});
    all[OUR_YES] = (answer_option){.id = {STR("yes"), span_nowhere()}, .share = 0.01};
    all[OUR_YES].text = our_texts(r, (said){"Yes, or I am not sure", "Sí, o no estoy seguro"});
    return all;
}

/* No rule reads it, so that it changes no belief. */
question our_gate(reader *r)
{
    static const uint32_t no_first[] = {OUR_NO, OUR_YES};
    assert(r->gate_wanted && r->gate_name.n > 0);
    question q = {.id = {r->gate_name, span_nowhere()},
                  .of = {r->gate_name, NO_ID, NO_ID},
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
    q.ask = our_texts(r, (said){"Is anything dangerous going on right now?",
                                "¿Hay algo peligroso en este momento?"});
    q.look = our_texts(r, (said){"Look, listen and sniff from where you stand. Do not walk towards "
                                 "it. If you are not sure, answer yes.",
                                 "Mire, escuche y huela desde donde está. No se acerque. Si no "
                                 "está seguro, conteste que sí."});
    return q;
}

texts our_stop_text(reader *r)
{
    return our_texts(
        r, (said){"Stop here and touch nothing more. Go where you are safe, and keep everybody "
                  "away. If anybody is hurt, or something burns, "
                  "call the emergency number first. Then call somebody who knows this equipment.",
                  "Pare aquí y no toque nada más. Vaya a un lugar seguro y que nadie se acerque. "
                  "Si hay alguien herido, o algo arde, "
                  "llame primero al número de emergencias. Después llame a alguien que conozca "
                  "este equipo."});
}
