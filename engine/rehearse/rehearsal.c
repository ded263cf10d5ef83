/* The public face of rehearsing. */
#include <assert.h>
#include <stdlib.h>

#include "rehearse/confused.h"
#include "rehearse/estimate.h"
#include "rehearse/moving.h"
#include "rehearse/tally_words.h"

struct tt_rehearsal {
    const tt_book *book;
    tt_rehearsal_options options;
    arena *keep;    /* as long as the rehearsal */
    arena *of_call; /* one call */
    arena *scratch;
    arena *shown; /* the last result */
    made_from from;
    world written;
    tally *counted;
    sensitivity *swayed; /* null: nobody wants to know */
    tt_rehearsed result;
    tt_case *c; /* at work: freed wherever the work ends */
};

static tt_status fresh_case(tt_rehearsal *r, bool soonest)
{
    tt_case_free(r->c);
    r->c = NULL;
    tt_status status =
        tt_case_new(r->book, &(tt_options){.role = r->options.role, .soonest = soonest}, &r->c);
    if (status == TT_OK) r->c->wordless = true;
    return status;
}

/* All arenas lead to one guard; what a case takes is the case's own. */
static tt_status guarded_work(tt_rehearsal *r, tt_status (*work)(void *context), void *context)
{
    arena *all[] = {r->keep, r->of_call, r->scratch, r->shown};
    tt_status status = guarded(all, 4, work, context);
    tt_case_free(r->c);
    r->c = NULL;
    return status;
}

/* ---- beginning and end ---- */

static bool options_make_sense(const tt_rehearsal *r)
{
    const tt_rehearsal_options *o = &r->options;
    return o->role < r->book->book->role_count && o->misread >= 0 && o->misread <= 1 &&
           o->numbers_off >= 0 && o->numbers_off < 1 && !(o->sensitivity && o->numbers_off > 0);
}

static tt_status begin(void *context)
{
    tt_rehearsal *r = context;
    const program *p = r->book->prog;
    r->from = (made_from){.prog = p, .seed = r->options.seed, .misread = r->options.misread};
    r->written = world_written(r->keep, p);
    r->counted = tally_new(r->keep, p->book->cause_count, p->book->role_count, r->options.seed);
    if (!r->options.sensitivity) return TT_OK;
    r->swayed = sensitivity_new(r->keep, r->scratch, p);
    tally_take_numbers(r->counted, r->keep, r->swayed->count);
    return TT_OK;
}

tt_status tt_rehearsal_new(const tt_book *b, const tt_rehearsal_options *options,
                           tt_rehearsal **out)
{
    *out = NULL;
    tt_rehearsal *r = calloc(1, sizeof *r);
    if (r == NULL) return TT_NO_MEMORY;
    r->book = b;
    if (options != NULL) r->options = *options;
    if (options == NULL || r->options.role == TT_NONE) r->options.role = 0;
    arena **arenas[] = {&r->keep, &r->of_call, &r->scratch, &r->shown};
    bool memory = true;
    for (int i = 0; i < 4; i++) memory &= (*arenas[i] = arena_new(NULL, NULL)) != NULL;
    tt_status status = !memory ? TT_NO_MEMORY : options_make_sense(r) ? TT_OK : TT_FAULTY;
    if (status == TT_OK) status = guarded_work(r, begin, r);
    if (status == TT_OK)
        *out = r;
    else
        tt_rehearsal_free(r);
    return status;
}

void tt_rehearsal_free(tt_rehearsal *r)
{
    if (r == NULL) return;
    tt_case_free(r->c);
    arena_free(r->keep);
    arena_free(r->of_call);
    arena_free(r->scratch);
    arena_free(r->shown);
    free(r);
}

/* ---- playing ---- */

/* With numbers off, each call has a world of its own: the result is the mean over worlds. */
static world world_for(tt_rehearsal *r, uint64_t number)
{
    if (r->options.numbers_off == 0) return r->written;
    return world_off(r->of_call, r->scratch, r->from.prog, r->options.numbers_off, r->options.seed,
                     number);
}

/* The other ways are yardsticks. Those that ask cost most of the time, and compared call by call a
 * part of the calls will do. */
static bool plays(way w, uint64_t number)
{
    enum { EVERY = 5 };
    const bool asks = w == WAY_SOONEST || w == WAY_IN_ORDER || w == WAY_EVERYTHING;
    return !asks || number % EVERY == 0;
}

static tt_status play_ways(tt_rehearsal *r, const made_call *drawn, const played **ways)
{
    for (way w = 0; w < WAY_COUNT; w++) {
        if (!plays(w, drawn->number)) continue;
        made_call call = call_copy(r->of_call, drawn);
        played *out = ARENA_NEW(r->of_call, played);
        tt_status status = fresh_case(r, w == WAY_SOONEST);
        if (status == TT_OK) status = call_play(r->of_call, r->c, &call, w, out);
        if (status != TT_OK) return status;
        ways[w] = out;
    }
    return TT_OK;
}

static tt_status play_one(tt_rehearsal *r, uint64_t number)
{
    made_call drawn;
    const played *ways[WAY_COUNT] = {NULL};
    arena_back_to(r->of_call, (arena_mark){NULL, 0});
    arena_back_to(r->scratch, (arena_mark){NULL, 0});
    world in = world_for(r, number);
    tt_status status = fresh_case(r, false);
    if (status == TT_OK)
        status = call_draw(r->of_call, r->scratch, &r->from, &in, number, r->c, &drawn);
    if (status == TT_OK) status = play_ways(r, &drawn, ways);
    if (status != TT_OK) return status;
    tally_call(r->counted, r->keep, &drawn, ways);
    if (r->swayed != NULL) tally_numbers(r->counted, r->swayed, &drawn, ways[WAY_TELLTALE]);
    return TT_OK;
}

typedef struct slice {
    tt_rehearsal *r;
    uint64_t first, count;
} slice;

static tt_status play_slice(void *context)
{
    const slice *s = context;
    for (uint64_t i = 0; i < s->count; i++) {
        tt_status status = play_one(s->r, s->first + i);
        if (status != TT_OK) return status;
    }
    return TT_OK;
}

tt_status tt_rehearsal_play(tt_rehearsal *r, uint64_t first, uint64_t count)
{
    return guarded_work(r, play_slice, &(slice){r, first, count});
}

/* ---- one call ---- */

typedef struct looking {
    tt_rehearsal *r;
    uint64_t number;
    tt_made_call *out;
} looking;

static const char *const *path_words(tt_rehearsal *r, const played *p)
{
    const book *b = r->from.prog->book;
    const char **all = ARENA_ARRAY(r->of_call, const char *, p->path_count);
    for (uint32_t i = 0; i < p->path_count; i++) {
        const uint32_t x = p->path[i].subject;
        all[i] = cstr(r->of_call, p->path[i].fix ? b->fixes[x].id.name : b->questions[x].id.name);
    }
    return all;
}

static tt_status look_at_one(void *context)
{
    const looking *x = context;
    tt_rehearsal *r = x->r;
    static const char *const ends[] = {
        [END_CURED] = "cured", [END_CALLED] = "called", [END_STOPPED] = "stopped"};
    made_call drawn;
    played p;
    arena_back_to(r->of_call, (arena_mark){NULL, 0});
    arena_back_to(r->scratch, (arena_mark){NULL, 0});
    world in = world_for(r, x->number);
    tt_status status = fresh_case(r, false);
    if (status == TT_OK)
        status = call_draw(r->of_call, r->scratch, &r->from, &in, x->number, r->c, &drawn);
    if (status == TT_OK) status = fresh_case(r, false);
    if (status == TT_OK) status = call_play(r->of_call, r->c, &drawn, WAY_TELLTALE, &p);
    if (status != TT_OK) return status;
    const book *b = r->from.prog->book;
    *x->out = (tt_made_call){.judged = p.ranked,
                             .chance = p.ranked ? p.first.leading : 0,
                             .end = ends[p.end],
                             .minutes = p.minutes,
                             .path = path_words(r, &p),
                             .path_count = p.path_count};
    if (p.ranked && p.first.blamed != NOT_LISTED)
        x->out->leading = cstr(r->of_call, b->causes[p.first.blamed].id.name);
    return TT_OK;
}

tt_status tt_rehearsal_call(tt_rehearsal *r, uint64_t number, tt_made_call *out)
{
    return guarded_work(r, look_at_one, &(looking){r, number, out});
}

/* ---- together, and what came of it ---- */

typedef struct adding {
    tt_rehearsal *into;
    const tt_rehearsal *more;
} adding;

static tt_status add(void *context)
{
    const adding *a = context;
    tally_add(a->into->counted, a->into->keep, a->more->counted);
    return TT_OK;
}

tt_status tt_rehearsal_add(tt_rehearsal *into, const tt_rehearsal *more)
{
    assert(into != more && into->book == more->book);
    return guarded_work(into, add, &(adding){into, more});
}

typedef struct wording {
    tt_rehearsal *r;
    const uint64_t **words;
    uint32_t *count;
} wording;

static tt_status put_in_words(void *context)
{
    const wording *x = context;
    arena_back_to(x->r->shown, (arena_mark){NULL, 0});
    *x->words = tally_words(x->r->shown, x->r->counted, x->count);
    return TT_OK;
}

tt_status tt_rehearsal_words(tt_rehearsal *r, const uint64_t **words, uint32_t *count)
{
    return guarded_work(r, put_in_words, &(wording){r, words, count});
}

typedef struct adding_words {
    tt_rehearsal *into;
    const uint64_t *words;
    uint32_t count;
    uint64_t calls;
} adding_words;

static tt_status add_words_of(void *context)
{
    const adding_words *x = context;
    return tally_add_words(x->into->counted, x->into->keep, x->words, x->count, x->calls)
               ? TT_OK
               : TT_FAULTY;
}

tt_status tt_rehearsal_add_words(tt_rehearsal *into, const uint64_t *words, uint32_t count,
                                 uint64_t calls)
{
    return guarded_work(into, add_words_of, &(adding_words){into, words, count, calls});
}

/* Who asks, and whoever was called. */
static void show_roles(tt_rehearsal *r)
{
    const book *b = r->book->book;
    tt_worked *all = ARENA_ARRAY(r->shown, tt_worked, b->role_count);
    uint32_t count = 0;
    for (uint32_t i = 0; i < b->role_count; i++)
        if (i == r->options.role || r->counted->roles[i].calls > 0)
            all[count++] = worked_by(r->counted, i, cstr(r->shown, b->roles[i].name));
    r->result.worked = all;
    r->result.worked_count = count;
}

static tt_status show(void *context)
{
    tt_rehearsal *r = context;
    const program *p = r->book->prog;
    arena_back_to(r->shown, (arena_mark){NULL, 0});
    arena_back_to(r->scratch, (arena_mark){NULL, 0});
    r->result = (tt_rehearsed){.role = cstr(r->shown, p->book->roles[r->options.role].name),
                               .call_minutes = p->book->call_minutes};
    estimate(r->counted, &r->result);
    show_roles(r);
    if (r->swayed != NULL)
        r->result.moving = moving_numbers(r->shown, r->scratch, r->book, r->swayed, r->counted,
                                          &r->result.moving_count);
    r->result.confused = confused_pairs(r->shown, r->scratch, p, r->counted, r->options.role,
                                        &r->result.confused_count);
    return TT_OK;
}

tt_status tt_rehearsal_look(tt_rehearsal *r, const tt_rehearsed **out)
{
    tt_status status = guarded_work(r, show, r);
    *out = status == TT_OK ? &r->result : NULL;
    return status;
}
