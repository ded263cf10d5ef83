/* Texts on a paper. */
#include "paper/paper_words.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "host/memory.h"
#include "show/told.h"

piece_of_text our_text(const char *text)
{
    return (piece_of_text){.kind = OUR_TEXT, .text = text};
}

piece_of_text our_words(tongue in, text_id id)
{
    return our_text(catalogue_text(in, id));
}

piece_of_text rule_text(const char *text)
{
    return (piece_of_text){.kind = RULE_TEXT, .text = text};
}

piece_of_text figure(const char *text)
{
    return (piece_of_text){.kind = NUMBER, .text = text};
}

const char *safe_range(arena *keep, tongue in, tt_case *c, uint32_t question, const tt_question *q)
{
    const char *low = "", *high = "";
    assert(q->gate && q->option_count == 0);
    if (isfinite(q->safe_low) && is_told(keep, tt_reading_text(c, question, q->safe_low, &low)))
        low = FILL(keep, in, q->safe_low_in ? SAFE_AT_LEAST : SAFE_ABOVE, low);
    if (isfinite(q->safe_high) && is_told(keep, tt_reading_text(c, question, q->safe_high, &high)))
        high = FILL(keep, in, q->safe_high_in ? SAFE_AT_MOST : SAFE_BELOW, high);
    return *low == 0 ? high : *high == 0 ? low : FILL(keep, in, SAFE_BOTH, low, high);
}

const char *texts_joined(arena *keep, const char *const *texts, uint32_t count)
{
    const char *all = "";
    for (uint32_t i = 0; i < count; i++)
        all = arena_text(keep, "%s%s%s", all, i > 0 ? ", " : "", texts[i]);
    return all;
}

text_table table_of(arena *keep, tongue in, const text_id *columns, size_t count)
{
    const char **names = ARENA_ARRAY(keep, const char *, count);
    for (size_t i = 0; i < count; i++) names[i] = catalogue_text(in, columns[i]);
    return (text_table){.columns = names, .column_count = count};
}

const char *paper_language(tongue in, const char *tag)
{
    const char *ours = tongue_tag(in);
    const size_t length = strlen(ours);
    const bool same = strncmp(tag, ours, length) == 0 && (tag[length] == 0 || tag[length] == '-');
    return *tag == 0 || same ? NULL : tag;
}

void paper_fact(const paper *p, text_id name, piece_of_text value)
{
    if (*value.text != 0) p->kind->fact(p, catalogue_text(p->in, name), value);
}

void paper_list(const paper *p, text_id lead, const char *const *texts, uint32_t count,
                bool numbered)
{
    if (count == 0) return;
    p->kind->paragraph(p, our_words(p->in, lead));
    p->kind->list_begin(p, numbered);
    for (uint32_t i = 0; i < count; i++)
        p->kind->item(p, numbered ? i + 1 : 0, rule_text(texts[i]));
    p->kind->list_end(p, numbered);
}
