/* Texts on a paper. */
#include "paper/paper_words.h"

#include <string.h>

#include "host/memory.h"

piece_of_text our_text(const char *text)
{
    return (piece_of_text){OUR_TEXT, text};
}

piece_of_text our_words(tongue in, text_id id)
{
    return our_text(catalogue_text(in, id));
}

piece_of_text rule_text(const char *text)
{
    return (piece_of_text){RULE_TEXT, text};
}

piece_of_text figure(const char *text)
{
    return (piece_of_text){NUMBER, text};
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
