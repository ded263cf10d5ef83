/* What a fix and a minute of somebody cost: a number and a currency. */
#include <assert.h>

#include "read/reader.h"

enum { CURRENCY_LETTERS = 3 }; /* ISO 4217 */

static bool is_currency(str word)
{
    for (size_t i = 0; i < word.n; i++)
        if (word.p[i] < 'A' || word.p[i] > 'Z') return false;
    return word.n == CURRENCY_LETTERS;
}

bool read_money(reader *r, const node *n, money *out)
{
    str text;
    double amount = 0;
    if (!read_word(r, n, "a cost", &text)) return false;
    const size_t gap = str_find_byte(text, ' ');
    const str number = gap == SIZE_MAX ? text : str_slice(text, 0, gap);
    const str currency = gap == SIZE_MAX ? STR("") : str_trim(str_slice(text, gap, text.n));
    const bool counts = str_to_double(number, &amount) && amount >= 0;
    if (counts && is_currency(currency)) {
        *out = (money){amount, str_copy(r->keep, currency), n->at};
        return true;
    }
    fault *f = fault_add(r->list, FAULT_BAD_MONEY, n->at, "'%.*s' is no cost.", STR_ARG(text));
    fault_help(
        r->list, f,
        "Write a number from 0 and a currency of three letters (ISO 4217), such as '%.*s USD'.",
        STR_ARG(counts ? number : STR("40")));
    return false;
}

void read_minute_costs(reader *r, const node *n)
{
    money *all = ARENA_ARRAY(r->keep, money, r->book->role_count);
    r->book->minute_costs = all;
    if (n == NULL) return;
    if (n->kind != NODE_MAP) {
        wrong_kind(r, n, "'minute-costs'", "a map from role to cost, such as {attendant: 0.5 USD}");
        return;
    }
    for (uint32_t i = 0; i < n->count; i++) {
        const node_entry *e = &n->entries[i];
        const node key = {.kind = NODE_TEXT, .at = e->key_at, .text = e->key};
        const uint32_t role = resolve_role(r, &key);
        assert(role == NO_ID || role < r->book->role_count);
        if (role != NO_ID) read_money(r, e->value, &all[role]);
    }
}

/* Costs that can't be added up can't be weighed. */
static const money *check_same(reader *r, const money *first, const money *m)
{
    if (m->currency.n == 0) return first;
    if (first == NULL || str_eq(first->currency, m->currency)) return first == NULL ? m : first;
    fault *f = fault_add(r->list, FAULT_BAD_MONEY, m->at,
                         "This is in %.*s, but other costs of the book are in %.*s.",
                         STR_ARG(m->currency), STR_ARG(first->currency));
    fault_note_at(r->list, f, first->at, "Such as this one.");
    fault_help(r->list, f, "Write all costs in one currency.");
    return first;
}

void check_one_currency(reader *r)
{
    const book *b = r->book;
    const money *first = NULL;
    for (uint32_t i = 0; b->minute_costs != NULL && i < b->role_count; i++)
        first = check_same(r, first, &b->minute_costs[i]);
    for (uint32_t i = 0; i < b->fix_count; i++) first = check_same(r, first, &b->fixes[i].cost);
}
