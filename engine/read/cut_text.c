/* A text in brackets that a comma has cut in two. */
#include <assert.h>

#include "read/reader.h"

static bool begins_with_any(str text, const char *const *words)
{
    for (size_t i = 0; words[i] != NULL; i++)
        if (str_starts(text, words[i])) return true;
    return false;
}

static bool is_small(char c)
{
    return c >= 'a' && c <= 'z';
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* What goes on from the item before: "but weak" after "it runs", "5 mm" after "Hose 1", and "if it
 * runs" in a list that began with a capital letter. */
static bool goes_on(const node *list, uint32_t i)
{
    static const char *const joining[] = {"and ",   "but ",  "or ",     "because ", "then ",
                                          "which ", "pero ", "porque ", "sino ",    NULL};
    const str first = list->items[0]->text, before = list->items[i - 1]->text,
              text = list->items[i]->text;
    if (first.n == 0 || before.n == 0 || text.n == 0) return false;
    const bool capital = first.p[0] >= 'A' && first.p[0] <= 'Z',
               decimal = is_digit(before.p[before.n - 1]) && is_digit(text.p[0]);
    return decimal || (capital && is_small(text.p[0])) || begins_with_any(text, joining);
}

void check_cut(reader *r, const node *list, uint32_t i)
{
    assert(list->kind == NODE_LIST && i < list->count);
    if (list->style != STYLE_FLOW || i == 0 || list->items[i - 1]->kind != NODE_TEXT ||
        list->items[0]->kind != NODE_TEXT || list->items[i]->kind != NODE_TEXT ||
        list->items[i]->style != STYLE_PLAIN || !goes_on(list, i))
        return;
    const str before = list->items[i - 1]->text, text = list->items[i]->text;
    fault *f = fault_add(r->list, FAULT_CUT_BY_COMMA, list->items[i]->at,
                         "Here '%.*s' and '%.*s' are two: inside [ ] a comma ends one and begins "
                         "the next.",
                         STR_ARG(before), STR_ARG(text));
    fault_help(
        r->list, f,
        "If they are one, give each item a line of its own: '- %.*s, %.*s'. If they are two, begin "
        "both alike.",
        STR_ARG(before), STR_ARG(text));
}
