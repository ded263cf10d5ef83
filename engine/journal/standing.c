/* Where the case stands: open, closed and how, which note waits for whoever goes on, which fix was
 * begun. */
#include <assert.h>
#include <string.h>

#include "journal/parts.h"

static journal_note no_note(void)
{
    return (journal_note){NO_ENTRY, RECORD_UNKNOWN, "", "", "", ""};
}

/* A note for nobody in particular is answered by whoever goes on; one for somebody, by somebody
 * else than its writer. Whoever did not know of it answers nothing. */
static void answer_note(journal *j, uint32_t entry)
{
    if (j->note.entry == NO_ENTRY || !journal_saw(j, entry, j->note.entry)) return;
    const journal_entry *left = &j->entries[j->note.entry], *now = &j->entries[entry];
    bool own = left->writer == now->writer && strcmp(left->person, now->person) == 0;
    if (*j->note.to == '\0' || !own) j->note = no_note();
}

static void take_note(journal *j, uint32_t entry)
{
    const char *note = entry_text(j, entry, "note"), *to = entry_text(j, entry, "to"),
               *to_text = entry_text(j, entry, "to_text");
    if (*to == '\0') {
        to = entry_text(j, entry, "whom");
        to_text = entry_text(j, entry, "whom_text");
    }
    bool says_something = *note != '\0' || *to != '\0';
    if (says_something || j->note.entry == NO_ENTRY)
        j->note = (journal_note){entry,
                                 RECORD_UNKNOWN,
                                 note,
                                 to,
                                 entry_text(j, entry, "until"),
                                 *to_text != '\0' ? to_text : to};
    assert(j->note.entry <= entry);
    j->note.kind = j->entries[entry].kind; /* a hold without a word leaves the words that stand */
}

static void move(journal *j, uint32_t entry)
{
    j->moved = entry;
    j->end = END_NONE;
    j->ended = j->left = NO_ENTRY;
    if (entry_counts(j, entry)) answer_note(j, entry);
}

static case_end end_of(const journal *j, uint32_t entry)
{
    if (j->entries[entry].kind == RECORD_MADE_SAFE || entry_says(j, entry, "how", "made-safe"))
        return END_MADE_SAFE;
    if (entry_says(j, entry, "how", "call")) return END_CALLED;
    if (entry_says(j, entry, "how", "in-order") || entry_says(j, entry, "how", "drifted") ||
        entry_says(j, entry, "how", "recorded"))
        return END_DONE;
    if (entry_says(j, entry, "how", "elsewhere")) return END_ELSEWHERE;
    return entry_says(j, entry, "how", "stop") ? END_STOPPED : END_GONE;
}

/* An answer that can't be read any more may have been anything. Being taken back or settled to be
 * wrong makes nothing safe. */
static bool tells_danger(const journal *j, uint32_t entry)
{
    const record_kind kind = j->entries[entry].kind;
    if (kind == RECORD_DANGER) return true;
    if (kind != RECORD_ANSWER && kind != RECORD_ANSWERS) return false;
    return value_truth(entry_data(j, entry), "danger") ||
           j->entries[entry].skipped == TT_SKIP_DAMAGED;
}

/* An answer of somebody who knew of the danger, to the same question, that tells of none. The book
 * is not known here: danger that names no question is answered by an answer to any, and what was
 * recorded under a question stays until that one is answered. */
static bool tells_safe_of(const journal *j, uint32_t entry, uint32_t danger)
{
    const char *about = entry_text(j, danger, "question");
    return j->entries[entry].kind == RECORD_ANSWER && entry_counts(j, entry) &&
           !tells_danger(j, entry) &&
           (*about == '\0' || strcmp(about, entry_text(j, entry, "question")) == 0) &&
           journal_saw(j, entry, danger);
}

static bool is_over(const journal *j, uint32_t danger)
{
    for (uint32_t i = danger + 1; i < j->count; i++)
        if (tells_safe_of(j, i, danger)) return true;
    return false;
}

bool journal_in_danger(const journal *j)
{
    for (uint32_t i = 0; i < j->count; i++)
        if (tells_danger(j, i) && !is_over(j, i)) return true;
    return false;
}

/* Somebody who did not know that there was danger has not closed the case. */
static bool knew_of_danger(const journal *j, uint32_t entry)
{
    assert(entry < j->count);
    for (uint32_t i = 0; i < entry; i++)
        if (!journal_saw(j, entry, i) && tells_danger(j, i)) return false;
    return true;
}

static void end_case(journal *j, uint32_t entry)
{
    if (!knew_of_danger(j, entry)) return;
    j->end = end_of(j, entry);
    j->ended = entry;
    j->left = NO_ENTRY;
    j->note = no_note();
}

/* What is read only now may turn out to be damaged: then it says nothing. */
static bool is_sound(const journal *j, uint32_t entry)
{
    if ((record_does(j->entries[entry].kind) & (CLOSES | NOTES)) != 0) entry_data(j, entry);
    return j->entries[entry].skipped == TT_SKIP_NOT;
}

static void stand_after(journal *j, uint32_t entry)
{
    if (j->entries[entry].kind == RECORD_BEGIN && j->beginning == NO_ENTRY) j->beginning = entry;
    if (entry_moves(j, entry)) move(j, entry);
    if (entry_does(j, entry, CLOSES))
        end_case(j, entry);
    else if (entry_does(j, entry, LEAVES) && j->end == END_NONE)
        j->left = entry;
    if (entry_does(j, entry, NOTES)) take_note(j, entry);
    if (j->entries[entry].kind == RECORD_SITTING && value_truth(entry_data(j, entry), "accepts"))
        j->note = no_note();
}

void journal_stand(journal *j)
{
    j->beginning = j->moved = j->ended = j->left = NO_ENTRY;
    j->note = no_note();
    for (uint32_t i = 0; i < j->count; i++)
        if (is_sound(j, i)) stand_after(j, i);
    assert((j->end == END_NONE) == (j->ended == NO_ENTRY));
    assert(j->left == NO_ENTRY || j->ended == NO_ENTRY);
    assert(j->ended == NO_ENTRY || j->moved == NO_ENTRY || j->ended > j->moved);
}

/* ---- fixes under way ---- */

static bool is_told_after(const journal *j, uint32_t begun)
{
    const char *fix = entry_text(j, begun, "fix");
    for (uint32_t i = begun + 1; i < j->count; i++)
        if (entry_counts(j, i) && entry_does(j, i, ONCE) && entry_says(j, i, "fix", fix))
            return true;
    return false;
}

uint32_t journal_fix_begun(const journal *j)
{
    for (uint32_t i = j->count; i-- > 0;)
        if (j->entries[i].kind == RECORD_FIX_BEGUN && !is_told_after(j, i)) return i;
    return NO_ENTRY;
}
