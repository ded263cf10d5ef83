/* Which looks of a case share an instrument. */
#include "learn/misled_parts.h"

#include <assert.h>
#include <string.h>

#include "compile/misread.h"

learn_misled *learn_misled_new(arena *keep, const net_source *sources, uint32_t count)
{
    learn_misled *m = ARENA_NEW(keep, learn_misled);
    *m = (learn_misled){.all = ARENA_ARRAY(keep, learn_instrument, count), .count = count};
    for (uint32_t i = 0; i < count; i++)
        m->all[i] = (learn_instrument){.written = sources[i].wrong, .mean = sources[i].wrong};
    return m;
}

/* ---- one finding ---- */

typedef struct gathering {
    arena *keep, *scratch;
    const net *n;
    latent *latents; /* of the whole case */
    uint32_t latent_count;
    misled_read *reads; /* latents are those of the case until they are parted */
    uint32_t *looks;    /* [read] */
    uint32_t read_count;
} gathering;

static uint32_t latent_id(gathering *x, latent of)
{
    uint32_t i = 0;
    while (i < x->latent_count && !latents_equal(x->latents[i], of)) i++;
    if (i == x->latent_count) x->latents[x->latent_count++] = of;
    return i;
}

static uint32_t sort_of(const misreading *r, uint32_t state)
{
    return r->settling >> state & 1;
}

/* [sort][atom][what happened] */
static void fill_says(const gathering *x, misled_read *r, const component *g, looks all)
{
    const uint32_t finding = g->findings[0], ways = 1U << r->mishaps;
    const misreading m = misreading_of(&x->n->in.findings[finding]);
    double said[1U << READ_MISHAPS];
    r->says = ARENA_ARRAY(x->scratch, double, (size_t)READ_SORTS * r->atoms * ways);
    for (uint32_t v = 0; v < g->cell_count; v++) {
        double *at = r->says + ((size_t)sort_of(&m, v) * r->atoms + g->cell_atom[v]) * ways;
        r->has[sort_of(&m, v)] = true;
        r->slip[sort_of(&m, v)] = 1 - misread_chance(&m, v, v);
        looks_said(x->n, finding, all, v, said);
        for (uint32_t h = 0; h < ways; h++) at[h] += g->within[v] * said[h];
    }
}

static void gather_read(gathering *x, const evidence *seen, const component *g,
                        const learn_row *row)
{
    look_mishap mishaps[MISHAPS_MAX];
    const net_finding *f = &x->n->in.findings[g->findings[0]];
    sighting one;
    const looks all = looks_at(x->n, seen, g->findings[0], &one);
    if (all.count == 0 || f->source_count == 0 || row->atoms != g->atom_count) return;
    const uint32_t count = looks_mishaps(x->n, g->findings[0], all, mishaps);
    if (count > READ_MISHAPS || count == all.count) return; /* nothing that could last */
    misled_read r = {.row = row, .mishaps = count, .atoms = g->atom_count};
    for (uint32_t i = 0; i < f->source_count; i++) r.sources[r.source_count++] = f->sources[i];
    for (uint32_t i = 0; i < count; i++) {
        r.place[i] = mishaps[i].source == NO_SOURCE ? 0 : mishaps[i].source;
        r.latent[i] = mishaps[i].source == NO_SOURCE ? NO_ID : latent_id(x, mishaps[i].of);
    }
    fill_says(x, &r, g, all);
    x->looks[x->read_count] = all.count;
    x->reads[x->read_count++] = r;
}

/* ---- groups ---- */

static bool uses(const misled_read *r, uint32_t id)
{
    for (uint32_t i = 0; i < r->mishaps; i++)
        if (r->latent[i] == id) return true;
    return false;
}

static bool share(const misled_read *a, const misled_read *b)
{
    for (uint32_t i = 0; i < a->mishaps; i++)
        if (a->latent[i] != NO_ID && uses(b, a->latent[i])) return true;
    return false;
}

/* What is left out tells of the instruments that it would have brought in, and of the others only
 * through them. */
static bool take_read(const gathering *x, learn_together *t, uint32_t *ids, const misled_read *r)
{
    uint32_t more = 0;
    for (uint32_t i = 0; i < r->mishaps; i++) {
        uint32_t k = 0;
        while (k < t->latents && ids[k] != r->latent[i]) k++;
        more += r->latent[i] != NO_ID && k == t->latents;
    }
    if (t->latents + more > TOGETHER_LATENTS) return false;
    misled_read own = *r;
    for (uint32_t i = 0; i < r->mishaps; i++) {
        if (r->latent[i] == NO_ID) continue;
        uint32_t k = 0;
        while (k < t->latents && ids[k] != r->latent[i]) k++;
        if (k == t->latents) {
            ids[k] = r->latent[i];
            t->source[t->latents++] = x->latents[r->latent[i]].source;
        }
        own.latent[i] = k;
    }
    t->reads[t->read_count++] = own;
    return true;
}

static size_t says_bytes(const misled_read *r)
{
    return ((size_t)READ_SORTS * r->atoms << r->mishaps) * sizeof(double);
}

static bool reads_equal(const misled_read *a, const misled_read *b)
{
    return a->row == b->row && a->mishaps == b->mishaps && a->source_count == b->source_count &&
           memcmp(a->sources, b->sources, sizeof a->sources) == 0 &&
           memcmp(a->latent, b->latent, a->mishaps * sizeof *a->latent) == 0 &&
           memcmp(a->slip, b->slip, sizeof a->slip) == 0 &&
           memcmp(a->says, b->says, says_bytes(a)) == 0;
}

static bool groups_equal(const learn_together *a, const learn_together *b)
{
    if (a->latents != b->latents || a->read_count != b->read_count ||
        memcmp(a->source, b->source, a->latents * sizeof *a->source) != 0)
        return false;
    for (uint32_t i = 0; i < a->read_count; i++)
        if (!reads_equal(&a->reads[i], &b->reads[i])) return false;
    return true;
}

static void keep_group(arena *keep, learn_misled *m, const learn_together *t, learn_end end)
{
    learn_together *old = m->groups;
    while (old != NULL && !groups_equal(old, t)) old = old->next;
    if (old == NULL) {
        old = ARENA_NEW(keep, learn_together);
        *old = *t;
        old->reads = ARENA_ARRAY(keep, misled_read, t->read_count);
        for (uint32_t i = 0; i < t->read_count; i++) {
            misled_read *r = &old->reads[i];
            *r = t->reads[i];
            r->says = ARENA_ARRAY(keep, double, says_bytes(r) / sizeof(double));
            memcpy(r->says, t->reads[i].says, says_bytes(r));
            r->chance = ARENA_ARRAY(keep, double, (size_t)READ_SORTS << r->mishaps);
        }
        old->next = m->groups;
        m->groups = old;
    }
    old->count[end]++;
}

/* One look that shares nothing is misread as often as the author says, whatever misled it. */
static void keep_groups(const gathering *x, learn_misled *m, learn_end end)
{
    bool *done = ARENA_ARRAY(x->scratch, bool, x->read_count);
    for (uint32_t first = 0; first < x->read_count; first++) {
        if (done[first]) continue;
        learn_together t = {.reads = ARENA_ARRAY(x->scratch, misled_read, x->read_count)};
        uint32_t ids[TOGETHER_LATENTS], *members = ARENA_ARRAY(x->scratch, uint32_t, x->read_count),
                                        count = 0;
        members[count++] = first;
        done[first] = true;
        for (uint32_t i = 0; i < count; i++)
            for (uint32_t k = first + 1; k < x->read_count; k++)
                if (!done[k] && share(&x->reads[members[i]], &x->reads[k])) {
                    members[count++] = k;
                    done[k] = true;
                }
        if (count == 1 && x->looks[first] == 1) continue;
        for (uint32_t i = 0; i < count; i++) take_read(x, &t, ids, &x->reads[members[i]]);
        keep_group(x->keep, m, &t, end);
    }
}

void learn_misled_add(arena *keep, arena *scratch, learn_misled *m, const net *n,
                      const evidence *seen, learn_row *const *rows, learn_end end)
{
    const uint32_t most = n->component_count;
    gathering x = {.keep = keep, .scratch = scratch, .n = n};
    assert(m->count == n->in.source_count && end < LEARN_ENDS);
    x.latents = ARENA_ARRAY(scratch, latent, (size_t)most * READ_MISHAPS);
    x.reads = ARENA_ARRAY(scratch, misled_read, most);
    x.looks = ARENA_ARRAY(scratch, uint32_t, most);
    for (uint32_t i = 0; i < most; i++)
        if (rows[i] != NULL) gather_read(&x, seen, &n->components[i], rows[i]);
    keep_groups(&x, m, end);
}
