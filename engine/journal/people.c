/* Who wrote, in which sitting, and who has the case open. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "journal/parts.h"

/* ---- each writer by itself ---- */

/* Nothing said leaves what there was: one writer may have had several people after each other. */
static void say_who(const journal *j, uint32_t entry, const char *key, const char **who)
{
    const char *said = value_text(entry_data(j, entry), key);
    if (said != NULL) *who = said;
}

static void follow_writer(journal *j, journal_writer *w)
{
    const char *person = "", *place = "";
    for (uint32_t k = w->first; k < w->first + w->count; k++) {
        uint32_t i = j->by_writer[k];
        if (entry_does(j, i, SITS)) {
            w->sitting = i;
            say_who(j, i, "by", &person);
            say_who(j, i, "on", &place);
        }
        assert(&j->writers[j->entries[i].writer] == w);
        j->entries[i].sitting = w->sitting;
        j->entries[i].person = person;
        j->entries[i].place = place;
    }
}

/* ---- who has it open ---- */

static bool takes_over(const journal *j, uint32_t entry)
{
    return entry_says(j, entry, "how", "take-over") || entry_says(j, entry, "why", "taken-over");
}

static void come(journal *j, uint32_t entry)
{
    uint32_t writer = j->entries[entry].writer;
    for (uint32_t w = 0; w < j->writer_count && takes_over(j, entry); w++)
        if (w != writer) j->writers[w].came = NO_ENTRY;
    bool opened = entry_does(j, entry, COMES); /* a sitting says the same a second time */
    if (opened || j->writers[writer].came == NO_ENTRY) j->writers[writer].came = entry;
}

static void follow_holders(journal *j)
{
    uint32_t last_came = NO_ENTRY;
    j->last_holder = NO_ENTRY;
    for (uint32_t i = 0; i < j->count; i++) {
        if (entry_does(j, i, LEAVES)) j->writers[j->entries[i].writer].came = NO_ENTRY;
        if (!entry_comes(j, i)) continue;
        come(j, i);
        j->last_holder = j->entries[i].writer;
    }
    for (uint32_t w = 0; w < j->writer_count; w++) {
        uint32_t came = j->writers[w].came;
        if (came == NO_ENTRY || (last_came != NO_ENTRY && came < last_came)) continue;
        last_came = came;
        j->last_holder = w;
    }
}

void journal_people(journal *j)
{
    for (uint32_t w = 0; w < j->writer_count; w++) follow_writer(j, &j->writers[w]);
    follow_holders(j);
}

static int by_number(const void *a, const void *b)
{
    return compare_numbers(*(const uint32_t *)a, *(const uint32_t *)b);
}

entries journal_holders(arena *keep, const journal *j)
{
    uint32_t *came = ARENA_ARRAY(keep, uint32_t, j->writer_count), count = 0;
    for (uint32_t w = 0; w < j->writer_count; w++)
        if (j->writers[w].came != NO_ENTRY) came[count++] = j->writers[w].came;
    qsort(came, count, sizeof *came, by_number);
    for (uint32_t i = 0; i < count; i++) came[i] = j->entries[came[i]].writer;
    assert(count <= j->writer_count);
    return (entries){came, count};
}

/* ---- what `back` would take ---- */

static bool of_one_reply(const journal *j, uint32_t one, uint32_t other)
{
    uint64_t reply, its;
    return j->entries[one].writer == j->entries[other].writer &&
           value_counter(entry_data(j, one), "reply_to", &reply) &&
           value_counter(entry_data(j, other), "reply_to", &its) && reply == its;
}

entries journal_back_takes(arena *keep, const journal *j, const char *writer)
{
    uint32_t w = writer_named(j, writer),
             sitting = w != NO_ENTRY ? j->writers[w].sitting : NO_ENTRY;
    uint32_t from = sitting != NO_ENTRY ? sitting : 0, last = NO_ENTRY, count = 0;
    uint32_t *steps = ARENA_ARRAY(keep, uint32_t, j->count);
    for (uint32_t i = j->count; i-- > from;) {
        if (!entry_counts(j, i)) continue;
        if (last == NO_ENTRY) last = i;
        if (!entry_does(j, last, GIVES_BACK) || j->entries[last].writer != w) break;
        if (i == last || (entry_does(j, i, GIVES_BACK) && of_one_reply(j, i, last)))
            steps[count++] = i;
    }
    assert(count == 0 || entry_counts(j, steps[0]));
    return (entries){steps, count};
}
