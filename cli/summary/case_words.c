/* Looking for words in the texts of a case. */
#include <stdlib.h>
#include <string.h>

#include "base/str.h"
#include "host/fold_letters.h"
#include "host/plain_text.h"
#include "summary/case_sight.h"

typedef struct looking {
    char *const *words;
    size_t count;
    bool *found;
} looking;

static void look_in(looking *l, const tt_value *value)
{
    for (size_t k = 0; value->kind == TT_VALUE_TEXT && k < l->count; k++)
        l->found[k] = l->found[k] || text_holds(value->text, l->words[k]);
    for (uint32_t i = 0; i < value->count; i++) look_in(l, &value->items[i]);
}

/* Small ASCII letters of all bytes, to see soon that a word is nowhere: for most cases that is all.
 * A part of it without letters that JSON or an alphabet may write otherwise is enough. */
static bool may_be_in(const case_bytes *file, const char *part)
{
    if (strlen(file->bytes) != file->length || strstr(file->bytes, "\\u") != NULL) return true;
    char *small = take_memory(file->length + 1);
    for (size_t i = 0; i < file->length; i++) {
        char c = file->bytes[i];
        small[i] = (char)(c + ((unsigned char)(c - 'A') < 26 ? 32 : 0));
    }
    bool found = strstr(small, part) != NULL;
    free(small);
    return found;
}

static bool may_hold(const case_bytes *files, size_t file_count, const char *word)
{
    char *part = copy_text(word);
    part[strspn(part, "abcdefghijklmnopqrstuvwxyz0123456789 -.,;:?!()%")] = 0;
    bool may = *part == 0;
    for (size_t f = 0; f < file_count && !may; f++) may = may_be_in(&files[f], part);
    free(part);
    return may;
}

/* The book's and the site's own words are not the case's. */
static bool is_of_the_case(const tt_record *record)
{
    static const char *const others[] = {"begin", "resume", "site", "sitting"};
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        if (strcmp(record->kind, others[i]) == 0) return false;
    return true;
}

bool words_may_hold(const case_bytes *files, size_t file_count, char *const *words,
                    size_t word_count)
{
    for (size_t k = 0; k < word_count; k++)
        if (!may_hold(files, file_count, words[k])) return false;
    return true;
}

bool sight_holds(case_sight *s, char *const *words, size_t word_count)
{
    looking l = {words, word_count, take_memory((word_count + 1) * sizeof(bool))};
    for (uint32_t i = 0; i < s->count && word_count > 0; i++)
        if (is_of_the_case(&s->records[i]) && sight_read(s, i, &s->records[i]))
            look_in(&l, s->records[i].data);
    bool all = true;
    for (size_t k = 0; k < word_count; k++) all = all && l.found[k];
    free(l.found);
    return all;
}

static void add_texts(text_builder *all, const tt_value *value)
{
    if (value->kind == TT_VALUE_TEXT && *value->text != 0) text_addf(all, "%s\n", value->text);
    for (uint32_t i = 0; i < value->count; i++) add_texts(all, &value->items[i]);
}

char *sight_words(case_sight *s)
{
    text_builder all = {.keep = s->keep};
    for (uint32_t i = 0; i < s->count; i++)
        if (is_of_the_case(&s->records[i]) && sight_read(s, i, &s->records[i]))
            add_texts(&all, s->records[i].data);
    return fold_letters(all.length > 0 ? text_done(&all).p : "");
}
