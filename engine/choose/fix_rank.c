/* Which fix comes first: safety among the likely ones, the chance per minute within a level. */
#include "choose/fix_rank.h"

#include <assert.h>

#include "base/sorted.h"

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
static bool goes_before(const fix_rank *possible, const fix_rank *likely)
{
    assert(possible->standing == FIX_POSSIBLE && likely->standing == FIX_LIKELY);
    return possible->level <= likely->level && possible->ratio > likely->ratio;
}

static uint32_t count_until(const fix_rank *ranks, uint32_t count, fix_standing standing)
{
    uint32_t i = 0;
    while (i < count && ranks[i].standing <= standing) i++;
    return i;
}

void fix_ranks_sort(arena *scratch, fix_rank *ranks, uint32_t count)
{
    SORT(ranks, count, compare_for_sort);
    const uint32_t likely = count_until(ranks, count, FIX_LIKELY),
                   offered = count_until(ranks, count, FIX_POSSIBLE);
    assert(likely <= offered && offered <= count);
    fix_rank *merged = ARENA_ARRAY(scratch, fix_rank, offered);
    bool *placed = ARENA_ARRAY(scratch, bool, offered);
    uint32_t filled = 0;
    for (uint32_t i = 0; i < likely; i++) {
        for (uint32_t k = likely; k < offered; k++) {
            if (placed[k] || !goes_before(&ranks[k], &ranks[i])) continue;
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

void fix_first_add(fix_first *all, const fix_rank *rank)
{
    assert(rank->fix != NO_FIX && rank->level <= RISK_HIGH);
    if (rank->standing > FIX_POSSIBLE) return;
    const fix_rank **best =
        rank->standing == FIX_LIKELY ? &all->likely : &all->possible[rank->level];
    if (*best == NULL || fix_rank_compare(rank, *best) < 0) *best = rank;
}

/* Levels rise, so of possible ones with the same ratio the safest stays ahead. */
uint32_t fix_first_of(const fix_first *all)
{
    const fix_rank *first = all->likely;
    for (int level = 0; level <= RISK_HIGH; level++) {
        const fix_rank *p = all->possible[level];
        if (p == NULL) continue;
        if (all->likely != NULL && !goes_before(p, all->likely)) continue;
        if (first == NULL || p->ratio > first->ratio) first = p;
    }
    return first == NULL ? NO_FIX : first->fix;
}
