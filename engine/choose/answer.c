/* A question in thought. */
#include "choose/answer.h"

#include <assert.h>
#include <math.h>

#include "choose/weights.h"

double minutes_of(const question_option *q)
{
    const double least = 0.1;
    return fmax(q->minutes, least);
}

void weights_of_answer(const prediction *seen, const double *w, uint32_t cause_count, uint32_t y,
                       double *out)
{
    assert(y < seen->states && w != out);
    out[0] = w[0] * seen->other[y];
    for (uint32_t c = 0; c < cause_count; c++) out[1 + c] = w[1 + c] * seen->base[y];
    for (uint32_t i = 0; i < seen->listed_count; i++) {
        uint32_t c = seen->listed[i];
        assert(c < cause_count);
        out[1 + c] = w[1 + c] * seen->rows[(size_t)i * seen->states + y];
    }
}

double weights_after(const prediction *seen, const double *w, uint32_t cause_count, uint32_t y,
                     double *out)
{
    weights_of_answer(seen, w, cause_count, y, out);
    return weights_total(out, cause_count);
}

double scale_of_answers(const prediction *seen, const double *w, uint32_t cause_count, double *room)
{
    double mass = 0;
    for (uint32_t y = 0; y < seen->states; y++)
        mass += weights_after(seen, w, cause_count, y, room);
    return mass > 0 ? weights_total(w, cause_count) / mass : 0;
}
