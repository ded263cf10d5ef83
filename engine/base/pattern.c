/* Patterns: PCRE2 with limits on what a match may cost, and in an arena's memory. The only file
 * that sees the library. */
#define PCRE2_CODE_UNIT_WIDTH 8
#include "base/pattern.h"

#include <assert.h>
#include <pcre2.h>

#include "base/unicode.h"

struct pattern {
    pcre2_code *code;
};

/* ---- the library's memory: from an arena, never by the guard, since its frames can't be jumped
 * through ---- */

typedef struct memory {
    arena *of;
    size_t filled;
} memory;

static void *take_memory(PCRE2_SIZE size, void *data)
{
    memory *m = data;
    m->filled += size;
    return arena_try(m->of, size);
}

static void give_back_nothing(void *block, void *data)
{
    (void)block;
    (void)data;
}

/* What is taken is counted in *m, which lives as long as what takes it. */
static pcre2_general_context *context_in(memory *m)
{
    pcre2_general_context *context =
        pcre2_general_context_create(take_memory, give_back_nothing, m);
    if (context == NULL) arena_leave(m->of);
    return context;
}

/* ---- compiling ---- */

static pcre2_compile_context *limits_for(arena *keep, pcre2_general_context *context)
{
    pcre2_compile_context *limits = pcre2_compile_context_create(context);
    if (limits == NULL) arena_leave(keep);
    pcre2_set_parens_nest_limit(limits, PATTERN_NESTING_MAX);
    return limits;
}

static pattern *refused(arena *keep, str words, size_t at, str *reason, size_t *offset)
{
    *reason = str_copy(keep, words);
    *offset = at;
    return NULL;
}

static pattern *refused_by_library(arena *keep, int error, size_t at, str *reason, size_t *offset)
{
    char words[256] = "";
#ifdef TT_WITHOUT_AUTHORS /* who carries a book has its patterns checked already */
    (void)error;
#else
    pcre2_get_error_message(error, (PCRE2_UCHAR *)words, sizeof words);
#endif
    return refused(keep, str_of(words), at, reason, offset);
}

/* Composing moves what stands behind: the byte of `source` that makes this much of the composed
 * text. */
static size_t offset_before(arena *keep, str source, size_t composed)
{
    size_t i = 0, made = 0;
    while (i < source.n && made < composed) {
        unicode_next(source, &i);
        arena_mark mark = arena_here(keep);
        made = unicode_nfc(keep, str_slice(source, 0, i)).n;
        arena_back_to(keep, mark);
    }
    return i;
}

pattern *pattern_compile(arena *keep, str source, size_t *filled, str *reason, size_t *offset)
{
    size_t bad = unicode_first_bad(source);
    if (bad != SIZE_MAX) return refused(keep, STR("not UTF-8"), bad, reason, offset);
    if (unicode_points(source) > PATTERN_LENGTH_MAX)
        return refused(keep, STR("the pattern is too long"), 0, reason, offset);
    str composed = unicode_nfc(keep, source);
    uint32_t options = PCRE2_UTF | PCRE2_UCP | PCRE2_CASELESS | PCRE2_NEVER_BACKSLASH_C |
                       PCRE2_AUTO_CALLOUT; /* by which what is tried is counted */
    memory *taken = ARENA_NEW(keep, memory);
    *taken = (memory){keep, sizeof *taken + sizeof(pattern)};
    pcre2_compile_context *limits = limits_for(keep, context_in(taken));
    int error = 0;
    PCRE2_SIZE at = 0;
    pattern *p = ARENA_NEW(keep, pattern);
    p->code = pcre2_compile((PCRE2_SPTR)composed.p, composed.n, options, &error, &at, limits);
    *filled += taken->filled;
    if (p->code != NULL) return p;
    if (error == PCRE2_ERROR_HEAP_FAILED) arena_leave(keep);
    if (at > composed.n) at = composed.n;
    return refused_by_library(keep, error, offset_before(keep, source, at), reason, offset);
}

/* ---- matching ---- */

static size_t cut_at_points(str text, size_t most)
{
    size_t i = 0;
    for (size_t count = 0; i < text.n && count < most; count++) unicode_next(text, &i);
    return i;
}

typedef struct matching {
    pcre2_match_context *limits;
    pcre2_match_data *data;
} matching;

/* Before each item that is tried. */
static int try_item(pcre2_callout_block *item, void *data)
{
    uint32_t *left = data;
    (void)item;
    if (*left == 0) return PCRE2_ERROR_MATCHLIMIT;
    --*left;
    return 0;
}

static matching prepare(const pattern *p, arena *scratch, uint32_t *left)
{
    memory *taken = ARENA_NEW(scratch, memory);
    *taken = (memory){scratch, 0};
    pcre2_general_context *context = context_in(taken);
    matching m = {.limits = pcre2_match_context_create(context)};
    if (m.limits == NULL) arena_leave(scratch);
    pcre2_set_callout(m.limits, try_item, left);
    pcre2_set_match_limit(m.limits, PATTERN_MATCH_MAX);
    pcre2_set_depth_limit(m.limits, PATTERN_DEPTH_MAX);
    pcre2_set_heap_limit(m.limits, PATTERN_HEAP_MAX_KIB);
    m.data = pcre2_match_data_create_from_pattern(p->code, context);
    if (m.data == NULL) arena_leave(scratch);
    return m;
}

static pattern_result result_of(int found)
{
    if (found >= 0) return PATTERN_YES;
    return found == PCRE2_ERROR_NOMATCH ? PATTERN_NO : PATTERN_TOO_HARD;
}

pattern_result pattern_match(const pattern *p, arena *scratch, str subject, uint32_t *patience,
                             size_t *from, size_t *to)
{
    assert(p != NULL && p->code != NULL && patience != NULL);
    assert(unicode_first_bad(subject) == SIZE_MAX);
    if (*patience <= PATTERN_MATCH_COSTS) {
        *patience = 0;
        return PATTERN_TOO_HARD;
    }
    const uint32_t before = *patience - PATTERN_MATCH_COSTS,
                   most = before < PATTERN_MATCH_MAX ? before : PATTERN_MATCH_MAX;
    uint32_t left = most;
    arena_mark mark = arena_here(scratch);
    matching m = prepare(p, scratch, &left);
    PCRE2_SPTR text = (PCRE2_SPTR)(subject.p == NULL ? "" : subject.p);
    int found = pcre2_match(p->code, text, cut_at_points(subject, PATTERN_SUBJECT_MAX), 0, 0,
                            m.data, m.limits);
    if (found == PCRE2_ERROR_NOMEMORY) arena_leave(scratch);
    *patience = before - (most - left);
    const PCRE2_SIZE *place = pcre2_get_ovector_pointer(m.data);
    if (found >= 0 && from != NULL) *from = place[0];
    if (found >= 0 && to != NULL) *to = place[1];
    arena_back_to(scratch, mark);
    return result_of(found);
}
