/* What people say: plain words, or a pattern between slashes. */
#include <assert.h>

#include "base/unicode.h"
#include "read/reader.h"

static bool is_pattern(str text)
{
    return text.n >= 2 && text.p[0] == '/' && text.p[text.n - 1] == '/';
}

static void bad_pattern(reader *r, const node *n, str body, str reason, size_t offset)
{
    assert(n->kind == NODE_TEXT && n->text.n >= 2);
    size_t from = 1 + offset < n->text.n ? 1 + offset : n->text.n - 1;
    fault *f = fault_add(r->list, FAULT_BAD_PATTERN,
                         span_in_text(r, n, from, n->text.n - 1 > from ? from + 1 : n->text.n),
                         "This pattern can't be used: %.*s.", STR_ARG(reason));
    fault_help(r->list, f, "Mend '%.*s', or write plain words without slashes.", STR_ARG(body));
}

/* Short ones may stand for very much: (a{1,9}){1,9}. */
static bool patterns_fit(reader *r, const node *n)
{
    if (r->pattern_bytes <= PATTERN_BYTES_MAX) return true;
    if (r->pattern_bytes == SIZE_MAX) return false; /* said once */
    r->pattern_bytes = SIZE_MAX;
    fault *f = fault_add(r->list, FAULT_TOO_MANY, n->at,
                         "All patterns up to this one fill more than %d bytes when they are made "
                         "ready.",
                         PATTERN_BYTES_MAX);
    fault_help(r->list, f,
               "Write plain words where they will do, and fewer repetitions such as {1,500}.");
    return false;
}

static bool read_pattern(reader *r, const node *n, str text, heard *out)
{
    assert(is_pattern(text));
    str body = str_slice(text, 1, text.n - 1), reason = STR("");
    size_t offset = 0;
    if (body.n == 0) {
        fault_add(r->list, FAULT_EMPTY, n->at,
                  "There is nothing between the slashes, so this would match whatever people say.");
        return false;
    }
    if (!patterns_fit(r, n)) return false;
    out->pattern =
        pattern_compile(r->keep, unicode_nfc(r->keep, body), &r->pattern_bytes, &reason, &offset);
    if (out->pattern != NULL) return true;
    r->pattern_bytes += PATTERN_REFUSED_BYTES;
    bad_pattern(r, n, body, reason, offset < body.n ? offset : body.n);
    return false;
}

static bool read_one_heard(reader *r, const node *n, heard *out)
{
    str text;
    *out = (heard){.at = n->at};
    if (!read_word(r, n, "what people say", &text)) return false;
    if (is_pattern(text)) return read_pattern(r, n, text, out);
    if (unicode_plain(r->scratch, text).n > 0) {
        out->plain = str_copy(r->keep, text);
        return true;
    }
    fault *f = fault_add(r->list, FAULT_EMPTY, n->at,
                         "'%.*s' has no letter or digit that could be heard.", STR_ARG(text));
    fault_help(r->list, f, "Write words, or a pattern between slashes.");
    return false;
}

void read_heard(reader *r, const node *n, heard_list *out)
{
    bool list = n->kind == NODE_LIST;
    if (n->kind == NODE_MAP) {
        wrong_kind(r, n, "'heard'", "a list of words that people say");
        return;
    }
    const shared_read *before = shared_before(r, n, SHARED_HEARD);
    if (before != NULL) {
        *out = (heard_list){before->items, before->count};
        return;
    }
    uint32_t count = list ? n->count : 1, used = 0;
    heard *items = ARENA_ARRAY(r->keep, heard, count);
    if (count == 0)
        fault_add(r->list, FAULT_EMPTY, n->at, "This list is empty. Leave 'heard' out instead.");
    for (uint32_t i = 0; i < count; i++) {
        const node *item = list ? n->items[i] : n;
        if (list && item->kind == NODE_TEXT && item_twice(r, n, i)) continue;
        if (list) check_cut(r, n, i);
        if (read_one_heard(r, item, &items[used])) used++;
    }
    *out = (heard_list){items, used};
    share_read(r, n, SHARED_HEARD, items, used);
}
