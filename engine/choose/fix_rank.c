/* Which fix comes first: safety among the likely ones, the chance per minute within a level. */
#include "choose/fix_rank.h"

#include <assert.h>

#include "base/resort.h"

int fix_rank_compare(const fix_rank *a, const fix_rank *b)
{
    if (a->standing != b->standing) return a->standing < b->standing ? -1 : 1;
    if (a->standing == FIX_LIKELY && a->level != b->level) return a->level < b->level ? -1 : 1;
    if (a->ratio > b->ratio || a->ratio < b->ratio) return a->ratio > b->ratio ? -1 : 1;
    if (a->level != b->level) return a->level < b->level ? -1 : 1;
    int by_name = str_cmp(a->name, b->name);
    return by_name != 0 ? by_name : (a->fix > b->fix) - (a->fix < b->fix);
}

static int compare_for_sort(const void *a, const void *b)
{
    return fix_rank_compare(a, b);
}

/* A possible fix before a likely one: as safe, and more of a chance per minute. */
static bool goes_before(risk_level possible, double ratio, risk_level likely, double likely_ratio)
{
    return possible <= likely && ratio > likely_ratio;
}

static uint32_t count_until(const fix_rank *ranks, uint32_t count, fix_standing standing)
{
    uint32_t i = 0;
    while (i < count && ranks[i].standing <= standing) i++;
    return i;
}

void fix_ranks_sort(arena *scratch, fix_rank *ranks, uint32_t count)
{
    fix_rank *aside = ARENA_ARRAY(scratch, fix_rank, count);
    RESORT(ranks, count, compare_for_sort, aside);
    const uint32_t likely = count_until(ranks, count, FIX_LIKELY),
                   offered = count_until(ranks, count, FIX_POSSIBLE);
    assert(likely <= offered && offered <= count);
    fix_rank *merged = ARENA_ARRAY(scratch, fix_rank, offered);
    bool *placed = ARENA_ARRAY(scratch, bool, offered);
    uint32_t filled = 0;
    for (uint32_t i = 0; i < likely; i++) {
        for (uint32_t k = likely; k < offered; k++) {
            if (placed[k] ||
                !goes_before(ranks[k].level, ranks[k].ratio, ranks[i].level, ranks[i].ratio))
                continue;
            placed[k] = true;
            merged[filled++] = ranks[k];
        }
        merged[filled++] = ranks[i];
    }
    for (uint32_t k = likely; k < offered; k++)
        if (!placed[k]) merged[filled++] = ranks[k];
    assert(filled == offered);
    for (uint32_t i = 0; i < offered; i++) ranks[i] = merged[i];
}

bool fix_named_before(const fix_option *fixes, uint32_t a, uint32_t b)
{
    const int by_name = str_cmp(fixes[a].name, fixes[b].name);
    return by_name != 0 ? by_name < 0 : a < b;
}

/* Levels rise, so of possible ones with the same ratio the safest stays ahead. */
uint32_t fix_first_of(const fix_first *all)
{
    const fix_lead *likely = &all->likely, *first = likely;
    for (int level = 0; level <= RISK_HIGH; level++) {
        const fix_lead *p = &all->possible[level];
        if (p->fix == NO_FIX) continue;
        if (likely->fix != NO_FIX && !goes_before(p->level, p->ratio, likely->level, likely->ratio))
            continue;
        if (first->fix == NO_FIX || p->ratio > first->ratio) first = p;
    }
    return first->fix;
}
