/* Names: what a name may be, which one was meant by a wrong one. */
#include "base/str_head.h"
#include "read/reader_names.h"

#define WORD(letters) \
    { \
        letters, sizeof letters - 1 \
    }
static const str reserved[] = {WORD("any"),   WORD("all"),    WORD("none"),  WORD("not"),
                               WORD("known"), WORD("unsure"), WORD("of"),    WORD("every"),
                               WORD("other"), WORD("this"),   WORD("first"), WORD("second"),
                               WORD("shown"), WORD("at"),     WORD("min"),   WORD("max"),
                               WORD("abs"),   WORD("sqrt"),   WORD("sum"),   WORD("mean")};

/* ---- what a name may be ---- */

static bool is_name(str name)
{
    for (size_t i = 0; i < name.n; i++) {
        char c = name.p[i];
        bool letter = c >= 'a' && c <= 'z';
        if (!letter && (i == 0 || (c != '-' && !(c >= '0' && c <= '9')))) return false;
    }
    return name.n > 0;
}

/* The same letters as a name would have them, for the remedy. */
static str as_name(arena *scratch, str wrong)
{
    text_builder b = {.keep = scratch};
    bool gap = false;
    for (size_t i = 0; i < wrong.n; i++) {
        char c = wrong.p[i];
        if ((unsigned char)c >= 0x80)
            return STR(""); /* nobody knows which letter the author would take for it */
        if (c >= 'A' && c <= 'Z') c = (char)(c - 'A' + 'a');
        bool fits = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9' && b.length > 0);
        if (fits && gap && b.length > 0) text_add(&b, STR("-"));
        if (fits) text_add(&b, (str){&c, 1});
        gap = !fits;
    }
    return text_done(&b);
}

static bool is_reserved(str name)
{
    if (name.n > 0 && name.p[name.n - 1] < 'a') return false; /* all of them end in a letter */
    for (size_t i = 0; i < sizeof reserved / sizeof *reserved; i++)
        if (name.n == reserved[i].n && name.p[0] == reserved[i].p[0] && str_eq(name, reserved[i]))
            return true;
    return false;
}

bool check_name(reader *r, str name, span at, const char *what)
{
    if (is_reserved(name)) {
        fault *f = fault_add(r->list, FAULT_BAD_NAME, at,
                             "'%.*s' can't name %s: the language uses this word itself.",
                             STR_ARG(name), what);
        fault_help(r->list, f, "Choose a longer name, such as '%.*s-one'.", STR_ARG(name));
        return false;
    }
    if (name.n > NAME_LENGTH_MAX) {
        fault *f = fault_add(r->list, FAULT_BAD_NAME, at, "This name has more than %d characters.",
                             NAME_LENGTH_MAX);
        fault_help(r->list, f, "Shorten it.");
        return false;
    }
    if (is_name(name)) return true;
    fault *f =
        fault_add(r->list, FAULT_BAD_NAME, at,
                  "'%.*s' can't name %s: a name is small letters (a to z), digits and hyphens, and "
                  "begins with a letter.",
                  STR_ARG(name), what);
    str better = as_name(r->scratch, name);
    if (better.n > 0) {
        fault_help(r->list, f, "Write '%.*s'.", STR_ARG(better));
        fault_mend(r->list, f, name, better);
    }
    return false;
}

str name_meant(arena *scratch, str wrong)
{
    return as_name(scratch, wrong);
}

uint32_t table_find(const name_table *t, str name)
{
    const uint32_t at = place_of_name(t->heads, t->names, t->count, name);
    return at == t->count ? NO_ID : at;
}

const named *base_find(const reader *r, section s, str name)
{
    const name_table *t = &r->bases[s];
    const uint32_t at = place_of_name(t->heads, t->names, t->count, name);
    return at == t->count ? NULL : &t->items[at];
}

str base_of_name(str name)
{
    const size_t of = str_find(name, STR(" of "));
    return of == SIZE_MAX ? name : str_trim(str_slice(name, 0, of));
}
