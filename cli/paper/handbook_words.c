/* What a handbook says in several places in the same words. */
#include "paper/handbook.h"
#include "show/figures.h"

const char *handbook_likewise(const handbook *h, const tt_listed *entry)
{
    const char **texts = ARENA_ARRAY(h->keep, const char *, entry->likewise_count + 1);
    for (uint32_t i = 0; i < entry->likewise_count; i++)
        texts[i] = tt_piece_show(h->book->book, entry->likewise[i], tongue_tag(h->p->in)).text;
    if (entry->likewise_count == 0) return "";
    return FILL(h->keep, h->p->in, HANDBOOK_LIKEWISE,
                texts_joined(h->keep, texts, entry->likewise_count));
}

const char *handbook_role(const handbook *h, const char *name)
{
    return tt_role_text(h->book->book, name, tt_case_language(h->c));
}

const char *handbook_fix_name(const handbook *h, uint32_t place)
{
    return FILL(h->keep, h->p->in, HANDBOOK_NUMBERED, count_words(h->keep, place + 1),
                h->all.fixes.items[place].text);
}
