/* Whether danger is ruled out for a writer. Nothing unknown counts as safe: what was not safe stays
 * so until somebody who knew of it says otherwise, and each says it for himself. */
#include <assert.h>
#include <string.h>

#include "journal/parts.h"

typedef struct gate_search {
    const journal *j;
    const char *question;
    uint32_t writer;  /* whose gate it is; NO_ENTRY: it has written nothing */
    uint32_t *unsafe; /* entries that shut it */
    uint32_t unsafe_count;
    uint32_t *safe; /* [writer] the last safe answer that counts, in any sitting; or NO_ENTRY */
    uint32_t asked; /* the last entry by which this writer has to be asked once more; or NO_ENTRY */
} gate_search;

static bool is_about(const gate_search *g, uint32_t entry)
{
    const char *question = entry_text(g->j, entry, "question");
    return *question == '\0' || strcmp(question, g->question) == 0;
}

static void take_answer(gate_search *g, uint32_t entry, gate_says says)
{
    const journal_entry *e = &g->j->entries[entry];
    if (says == GATE_NOT_SAFE)
        g->unsafe[g->unsafe_count++] = entry; /* also if it was taken back or settled */
    if (says == GATE_SAFE && e->skipped == TT_SKIP_NOT) g->safe[e->writer] = entry;
}

static void look_at(gate_search *g, uint32_t entry, gate_reader *reads, void *context)
{
    record_kind kind = g->j->entries[entry].kind;
    if (kind == RECORD_DANGER && is_about(g, entry)) g->unsafe[g->unsafe_count++] = entry;
    if (kind == RECORD_RECHECK && g->j->entries[entry].writer == g->writer && is_about(g, entry))
        g->asked = entry;
    if (kind == RECORD_ANSWER || kind == RECORD_ANSWERS)
        take_answer(g, entry, reads(context, g->j, entry));
}

static bool knew_all(const gate_search *g, uint32_t safe)
{
    for (uint32_t i = 0; i < g->unsafe_count; i++)
        if (!journal_saw(g->j, safe, g->unsafe[i])) return false;
    return true;
}

/* The writer's safe answer that holds: of this sitting, and after all that makes it doubtful. */
static uint32_t own_safe(const gate_search *g)
{
    if (g->writer == NO_ENTRY || g->safe[g->writer] == NO_ENTRY) return NO_ENTRY;
    uint32_t safe = g->safe[g->writer], sitting = g->j->writers[g->writer].sitting;
    bool in_time =
        sitting != NO_ENTRY && safe > sitting && (g->asked == NO_ENTRY || safe > g->asked);
    return in_time && knew_all(g, safe) ? safe : NO_ENTRY;
}

static bool is_over(const gate_search *g, uint32_t unsafe)
{
    for (uint32_t w = 0; w < g->j->writer_count; w++)
        if (g->safe[w] != NO_ENTRY && journal_saw(g->j, g->safe[w], unsafe)) return true;
    return false;
}

/* The last entry that nobody who knew of it has said to be over. */
static uint32_t standing_danger(const gate_search *g)
{
    for (uint32_t i = g->unsafe_count; i-- > 0;)
        if (!is_over(g, g->unsafe[i])) return g->unsafe[i];
    return NO_ENTRY;
}

gate journal_gate(const journal *j, const char *question, const char *writer, gate_reader *reads,
                  void *context)
{
    assert(question != NULL && writer != NULL && reads != NULL);
    gate_search g = {
        .j = j, .question = question, .writer = writer_named(j, writer), .asked = NO_ENTRY};
    g.unsafe = ARENA_ARRAY(j->keep, uint32_t, j->count);
    g.safe = ARENA_ARRAY(j->keep, uint32_t, j->writer_count);
    for (uint32_t w = 0; w < j->writer_count; w++) g.safe[w] = NO_ENTRY;
    for (uint32_t i = 0; i < j->count; i++) look_at(&g, i, reads, context);
    uint32_t safe = own_safe(&g), danger = standing_danger(&g);
    if (safe != NO_ENTRY) {
        assert(danger == NO_ENTRY);
        return (gate){GATE_OPEN, safe};
    }
    return danger != NO_ENTRY ? (gate){GATE_DANGER, danger} : (gate){GATE_ASK, g.asked};
}
