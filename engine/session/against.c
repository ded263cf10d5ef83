/* What was as likely as other causes at the outset, and is hardly possible by now. */
#include <assert.h>
#include <string.h>

#include "base/sorted.h"
#include "session/session.h"

static const double worth_naming = 0.01; /* of calls; what is rarer nobody would begin with */
static const double hardly = 0.1;        /* of what it was */

typedef struct listing {
    tt_case *c;
    const tt_against *items;
    uint32_t count;
} listing;

static int likeliest_before(const void *a, const void *b)
{
    const tt_against *x = a, *y = b;
    if (x->before != y->before) return THREE_WAY(y->before, x->before);
    return THREE_WAY(strcmp(x->name, y->name), 0);
}

/* How often it occurs by the author's shares, with one fault. */
static double before_any_answer(const tt_case *c, uint32_t cause)
{
    const book *b = c->book->book;
    assert(cause < b->cause_count);
    return (1 - b->not_listed) * c->book->prog->evidence->share[cause];
}

static tt_status list_against(void *context)
{
    listing *l = context;
    tt_case *c = l->c;
    const book *b = c->book->book;
    double *chance = ARENA_ARRAY(c->derived, double, b->cause_count + 1);
    tt_against *all = ARENA_ARRAY(c->derived, tt_against, b->cause_count + 1);
    belief_marginals(c->now.pairs_matter ? c->now.pairs : c->now.single, chance);
    for (uint32_t i = 0; i < b->cause_count; i++) {
        const double before = before_any_answer(c, i), now = chance[1 + i];
        if (before < worth_naming || now >= hardly * before) continue;
        all[l->count++] = (tt_against){cstr(c->derived, b->causes[i].id.name),
                                       case_text(c, &b->causes[i].text), before, now};
    }
    SORT(all, l->count, likeliest_before);
    l->items = all;
    return TT_OK;
}

tt_status tt_spoken_against(tt_case *c, const tt_against **out, uint32_t *count)
{
    assert(out != NULL && count != NULL);
    listing l = {.c = c};
    tt_status status = case_see(c);
    if (status == TT_OK) status = guarded_case(c, list_against, &l);
    *out = l.items;
    *count = status == TT_OK ? l.count : 0;
    return status;
}
