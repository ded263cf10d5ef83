/* What the person takes for true at one look. */
#include "rehearse/sight.h"

#include <assert.h>
#include <math.h>

#include "believe/looks.h"
#include "rehearse/slip.h"

static dice dice_in(const made_call *call, dice_use use, str name, uint32_t time)
{
    return dice_for(call->from->seed, call->number, use, dice_named(name, time));
}

/* Which of its kind of instrument it is, for the dice. */
static uint32_t instance_of(const net_source *source, uint32_t person, bool another)
{
    return another ? UINT32_MAX : source == NULL || source->own ? person : 0;
}

/* `what` gets the dice of what misled this look: an instrument, a person, or the look itself. */
static bool is_misled(const made_call *call, uint32_t question, uint32_t time, bool another,
                      double slip, dice *what)
{
    const program *p = call->from->prog;
    const net *n = call->in->n;
    const net_finding *f = &n->in.findings[question];
    const str name = p->book->questions[question].id.name;
    const look_parting parts = look_parting_of(n, question, slip);
    for (uint32_t i = 0; i < f->source_count; i++) {
        const net_source *source = &n->in.sources[f->sources[i]];
        const str of = p->book->instruments[f->sources[i]].id.name;
        const uint32_t instance = instance_of(source, call->person, another);
        dice wrong = dice_in(call, DICE_INSTRUMENT, of, instance);
        *what = dice_for(call->from->seed, call->number, DICE_MISLED,
                         dice_named_both(name, of) + instance);
        if (dice_falls(&wrong, source->wrong) && dice_falls(what, parts.here[i])) return true;
    }
    const uint32_t person = instance_of(NULL, call->person, another);
    *what = dice_in(call, DICE_MISLED, name, person);
    if (f->source_count == 0 && dice_falls(what, parts.person)) return true;
    *what = dice_in(call, DICE_SLIP, name, time);
    return dice_falls(what, parts.fresh);
}

uint32_t sight_of(const made_call *call, uint32_t question, uint32_t time, bool another)
{
    const program *p = call->from->prog;
    const uint32_t is = call->state[question];
    const misreading m = misreading_of(&call->in->n->in.findings[question]);
    double slip = 1 - misread_chance(&m, is, is);
    dice what;
    assert(is < program_states(p, question));
    if (p->book->questions[question].about == ABOUT_FAULT) slip += call->from->misread;
    if (m.states < 2 || slip <= 0) return is;
    return is_misled(call, question, time, another, slip, &what) ? slip_from(&what, &m, is) : is;
}

bool is_amiss(const made_call *call, uint32_t question, const double *const *said)
{
    return said[question] != NULL && said[question][call->state[question]] <= 0;
}
