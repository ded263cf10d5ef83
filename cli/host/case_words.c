/* Looking for words in the texts of a case. */
#include <stdlib.h>
#include <string.h>

#include "host/case_telling.h"
#include "host/fold_letters.h"
#include "host/plain_text.h"

typedef struct looking {
    char *const *words;
    size_t count;
    bool *found;
} looking;

static void look_in(looking *l, const json_t *value)
{
    const char *text = json_string_value(value);
    const char *key;
    json_t *part;
    size_t i;
    for (size_t k = 0; text != NULL && k < l->count; k++)
        l->found[k] = l->found[k] || text_holds(text, l->words[k]);
    json_object_foreach((json_t *)(uintptr_t)value, key, part) look_in(l, part);
    json_array_foreach(value, i, part) look_in(l, part);
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
static bool is_of_the_case(const scanned_line *line)
{
    return !span_is(line->kind, "begin") && !span_is(line->kind, "resume") &&
           !span_is(line->kind, "site");
}

static bool holds_words(telling *t, looking *l)
{
    for (size_t i = 0; i < t->count; i++) {
        if (!is_of_the_case(&t->records[i].line)) continue;
        json_t *data = telling_data(t, &t->records[i]);
        if (data != NULL) look_in(l, data);
        json_decref(data);
    }
    bool all = true;
    for (size_t k = 0; k < l->count; k++) all = all && l->found[k];
    return all;
}

bool words_may_hold(const case_bytes *files, size_t file_count, char *const *words,
                    size_t word_count)
{
    for (size_t k = 0; k < word_count; k++)
        if (!may_hold(files, file_count, words[k])) return false;
    return true;
}

bool telling_holds(telling *t, char *const *words, size_t word_count)
{
    if (word_count == 0) return true;
    looking l = {words, word_count, take_memory(word_count * sizeof(bool))};
    unsigned left_out = t->out->left_out;
    bool all = holds_words(t, &l);
    t->out->left_out = left_out; /* damaged lines were counted before */
    free(l.found);
    return all;
}
