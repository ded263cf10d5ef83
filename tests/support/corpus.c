#include "corpus.h"

#include "test_sources.h"
#include "testing.h"

static void add_line(corpus_line *line, str text)
{
    size_t at = 0;
    str part;
    while (line->field_count < CORPUS_FIELDS && corpus_next(text, '\t', &at, &part))
        line->fields[line->field_count++] = part;
    assert_true(line->field_count >= 4);
    line->seen = str_is(line->fields[0], "seen");
    assert_true(line->seen || str_is(line->fields[0], "held"));
}

corpus corpus_read(arena *keep, const char *file)
{
    str path = str_printf(keep, "%s/tests/corpus/%s", TT_SOURCE_DIR, file),
        bytes = file_bytes(keep, path.p), text;
    uint32_t most = 1;
    for (size_t i = 0; i < bytes.n; i++) most += bytes.p[i] == '\n';
    corpus_line *lines = ARENA_ARRAY(keep, corpus_line, most);
    corpus all = {.lines = lines};
    for (size_t at = 0; corpus_next(bytes, '\n', &at, &text);)
        if (text.n > 0 && text.p[0] != '#') add_line(&lines[all.count++], text);
    assert_true(all.count > 0);
    return all;
}

bool corpus_next(str list, char between, size_t *at, str *part)
{
    if (*at > list.n) return false;
    str rest = str_slice(list, *at, list.n);
    size_t length = str_find_byte(rest, between);
    if (length == SIZE_MAX) length = rest.n;
    *part = str_slice(rest, 0, length);
    *at += length + 1;
    return true;
}

bool corpus_allows(str expect, const char *word)
{
    str part;
    for (size_t at = 0; corpus_next(expect, '|', &at, &part);)
        if (str_is(part, word)) return true;
    return false;
}
