/* The troubles of one site, one after the other: which of them may be what was cured before. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "learn/learning.h"

/* What is not back in that time hardly ever is: 1 of 4,000. */
enum { DAYS_LOOKED_BACK = 365 };

/* Where a site has so many troubles that pairs of them fill memory, those that came last before
 * each are looked at: a thousand troubles have all of theirs. */
enum { PAIRS_MOST = 1 << 20, FEWEST = 16 };

typedef struct telling {
    tt_learning *l;
    const tt_book *at;
    const tt_trouble *all;
    uint32_t count;
    double since;
    uint32_t *cause;    /* [trouble] or NO_ID: nobody knows */
    uint32_t *standing; /* [cause] its last cure, or NO_ID */
    uint32_t *behind;   /* [cause] the first trouble after the last that was it for certain */
    uint32_t *unknown;  /* [trouble] the last before it of which nobody knows what it was, or 0 */
    uint32_t most;      /* of those, for each trouble and cause */
    double *cured;      /* [cure] the day */
    learn_link *links;  /* room for those of one trouble */
    double shares;      /* of all causes, relative */
    learn_site site;
} telling;

/* What was confirmed; else what the fix that ended it cures, if that is one cause. */
static uint32_t cause_of(const book *b, const tt_trouble *x)
{
    const uint32_t cause = book_cause(b, str_of(x->cause)),
                   fix = *x->cause == 0 ? book_fix(b, str_of(x->fix)) : NO_ID;
    return fix == NO_ID || b->fixes[fix].cures_count != 1 ? cause : b->fixes[fix].cures[0].cause;
}

static uint32_t number_of(tt_learning *l, const struct cause *c)
{
    const number *n = learning_number_at(l, TT_COMES_BACK, c->comes_back_said);
    return n != NULL ? n->returning : l->comes_back->returning;
}

static double share_of(const telling *t, uint32_t cause)
{
    return t->at->book->causes[cause].how_often / t->shares;
}

/* Of what comes back after a cure, the part that looks so: a half is what brings it on
 * (believe/recurrence.c). Of what nobody knows, all may be it. */
static double part_of(const telling *t, uint32_t cured, uint32_t now)
{
    const ids *roots = &t->at->book->causes[cured].brought_on_by;
    double sum = 0, own = 0;
    for (uint32_t i = 0; i < roots->count; i++) {
        sum += share_of(t, roots->items[i]);
        if (roots->items[i] == now) own = share_of(t, now);
    }
    if (now == NO_ID) return 1;
    if (now == cured) return sum > 0 ? 0.5 : 1;
    return own > 0 ? own / sum / 2 : 0;
}

static void add_links(const telling *t, uint32_t i, learn_trouble *x)
{
    const book *b = t->at->book;
    for (uint32_t c = 0; c < b->cause_count; c++) {
        const uint32_t cure = t->standing[c];
        const double part = cure != NO_ID ? part_of(t, c, t->cause[i]) : 0,
                     days = cure != NO_ID ? t->all[i].began - t->cured[cure] : INFINITY;
        if (part > 0 && days >= 0 && days <= DAYS_LOOKED_BACK)
            t->links[x->link_count++] = (learn_link){.cure = cure, .part = part, .days = days};
    }
    learn_link *kept = ARENA_ARRAY(t->l->keep, learn_link, x->link_count);
    if (x->link_count > 0) memcpy(kept, t->links, x->link_count * sizeof *kept);
    x->links = kept;
}

static uint32_t link_to(const learn_trouble *x, uint32_t cure)
{
    uint32_t i = 0;
    while (i < x->link_count && x->links[i].cure != cure) i++;
    return cure != NO_ID && i < x->link_count ? i : NO_ID;
}

/* Those before that may have been this cause and of which nobody knows it, from `from` on back;
 * returns the next such, or 0. The first trouble of a site is none: it tells of nothing before it.
 */
static uint32_t maybe_before(const telling *t, uint32_t from, uint32_t i, uint32_t cause)
{
    for (uint32_t k = t->unknown[from]; k > 0 && k >= t->behind[cause]; k = t->unknown[k]) {
        const double days = t->all[i].began - t->all[k].ended;
        if (days > DAYS_LOOKED_BACK) return 0;
        if (days >= 0) return k;
    }
    return 0;
}

static learn_maybe maybe_of(const telling *t, uint32_t k, uint32_t i, uint32_t cause)
{
    const struct cause *c = &t->at->book->causes[cause];
    return (learn_maybe){.trouble = k - 1,
                         .link = link_to(&t->site.troubles[k - 1], t->standing[cause]),
                         .same = part_of(t, cause, cause),
                         .number = number_of(t->l, c),
                         .entry = learning_entry_at(t->l, c->id.at, 0),
                         .share = share_of(t, cause),
                         .part = part_of(t, cause, t->cause[i]),
                         .days = t->all[i].began - t->all[k].ended};
}

static uint32_t add_maybes(const telling *t, uint32_t i, learn_maybe *out)
{
    uint32_t count = 0;
    for (uint32_t c = 0; c < t->at->book->cause_count; c++) {
        if (part_of(t, c, t->cause[i]) <= 0) continue;
        uint32_t k = i;
        for (uint32_t of = 0; of < t->most && (k = maybe_before(t, k, i, c)) != 0; of++, count++)
            if (out != NULL) out[count] = maybe_of(t, k, i, c);
    }
    return count;
}

/* What came of those of which nobody knows it. */
static void find_maybes(const telling *t, uint32_t i, learn_trouble *x)
{
    learn_maybe *all = ARENA_ARRAY(t->l->keep, learn_maybe, add_maybes(t, i, NULL));
    x->maybe_count = add_maybes(t, i, all);
    x->maybes = all;
}

/* A cure stands until the same is cured anew. */
static void add_cure(telling *t, uint32_t i)
{
    const uint32_t cause = t->cause[i], number = number_of(t->l, &t->at->book->causes[cause]);
    const double last = t->all[t->count - 1].began;
    learn_cure *cures = t->site.cures;
    if (t->standing[cause] != NO_ID)
        cures[t->standing[cause]].days = fmax(0, t->all[i].began - t->cured[t->standing[cause]]);
    t->standing[cause] = NO_ID;
    if (!(t->all[i].ended > t->since)) return;
    if (t->all[i].came_back) t->l->returning[number].surely++;
    t->standing[cause] = t->site.cure_count;
    t->cured[t->site.cure_count] = t->all[i].ended;
    cures[t->site.cure_count++] =
        (learn_cure){.number = number,
                     .days = fmax(0, last - t->all[i].ended),
                     .share = share_of(t, cause),
                     .entry = learning_entry_at(t->l, t->at->book->causes[cause].id.at, 0)};
    t->l->returning[number].cures++;
}

static void follow(telling *t)
{
    learn_trouble *troubles = ARENA_ARRAY(t->l->keep, learn_trouble, t->count);
    t->site.troubles = troubles;
    for (uint32_t i = 0; i < t->count; i++) {
        const uint32_t cause = t->cause[i];
        learn_trouble *x = &troubles[t->site.trouble_count];
        *x = (learn_trouble){.share = 1, .entry = NO_ID};
        if (cause != NO_ID) {
            x->share = share_of(t, cause);
            x->entry = learning_entry_at(t->l, t->at->book->causes[cause].id.at, 0);
        }
        if (i > 0) add_links(t, i, x);
        if (i > 0 && cause != NO_ID) find_maybes(t, i, x);
        if (i > 0) t->site.trouble_count++;
        if (cause != NO_ID) t->behind[cause] = i + 1;
        if (cause != NO_ID) add_cure(t, i);
    }
}

static tt_status tell(void *context)
{
    telling *t = context;
    const book *b = t->at->book;
    tt_learning *l = t->l;
    arena_back_to(l->scratch, (arena_mark){NULL, 0});
    t->cause = ARENA_ARRAY(l->scratch, uint32_t, t->count);
    t->standing = ARENA_ARRAY(l->scratch, uint32_t, b->cause_count);
    t->cured = ARENA_ARRAY(l->scratch, double, t->count);
    t->behind = ARENA_ARRAY(l->scratch, uint32_t, b->cause_count);
    t->unknown = ARENA_ARRAY(l->scratch, uint32_t, t->count);
    t->most = PAIRS_MOST / t->count > FEWEST ? PAIRS_MOST / t->count : FEWEST;
    t->links = ARENA_ARRAY(l->scratch, learn_link, b->cause_count);
    t->site.cures = ARENA_ARRAY(l->keep, learn_cure, t->count);
    t->site.days = t->all[t->count - 1].began - t->all[0].began;
    for (uint32_t c = 0; c < b->cause_count; c++) {
        t->standing[c] = NO_ID;
        t->shares += b->causes[c].how_often;
    }
    for (uint32_t i = 0; i < t->count; i++) {
        assert(i == 0 || t->all[i].began >= t->all[i - 1].began);
        t->cause[i] = cause_of(b, &t->all[i]);
        if (i > 0) t->unknown[i] = t->cause[i - 1] == NO_ID ? i - 1 : t->unknown[i - 1];
    }
    follow(t);
    learn_site *kept = ARENA_NEW(l->keep, learn_site);
    *kept = t->site;
    kept->next = l->sites;
    l->sites = kept;
    return TT_OK;
}

tt_status tt_learning_site(tt_learning *l, const tt_book *at, const tt_trouble *all, uint32_t count,
                           double since)
{
    telling t = {.l = l, .at = at, .all = all, .count = count, .since = since};
    assert(l != NULL && at != NULL);
    if (count == 0) return TT_OK;
    if (!learning_is_about(l, at)) return TT_FAULTY;
    return guarded((arena *[]){l->keep, l->shown, l->scratch}, 3, tell, &t);
}
