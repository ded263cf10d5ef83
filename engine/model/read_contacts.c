/* Whom to call at the site: `contacts`, and the emergency number there. */
#include <assert.h>

#include "model/reader.h"

enum { DIGITS_LEAST = 2, TELEPHONE_MOST = 40 };

/* How many digits there are; 0 if there is anything else that no number has. */
static size_t count_digits(str text, const char *beside)
{
    size_t digits = 0;
    for (size_t i = 0; i < text.n; i++) {
        char c = text.p[i];
        bool digit = c >= '0' && c <= '9', plus = c == '+' && i == 0;
        digits += digit;
        if (!digit && !plus && str_find_byte(str_of(beside), c) == SIZE_MAX) return 0;
    }
    return digits;
}

/* "555-0142", "+1 (402) 555-0142 ext. 7", "112". */
static bool is_telephone(str text)
{
    size_t extension = str_find(text, STR(" ext"));
    bool has_one = extension != SIZE_MAX;
    str number = has_one ? str_slice(text, 0, extension) : text;
    if (text.n > TELEPHONE_MOST || count_digits(number, " -()/.") < DIGITS_LEAST) return false;
    return !has_one ||
           count_digits(str_slice(text, extension + sizeof " ext" - 1, text.n), " .") > 0;
}

static str read_telephone(reader *r, const node *n, const char *what)
{
    str text;
    if (n == NULL || !read_word(r, n, what, &text)) return STR("");
    if (is_telephone(text)) return str_copy(r->keep, text);
    fault *f = fault_add(r->list, FAULT_BAD_TELEPHONE, n->at,
                         "'%.*s' is no number that can be called.", STR_ARG(text));
    fault_help(r->list, f,
               "Write at least %d digits, such as '555-0142', '+1 402 555 0142' or '112'.",
               DIGITS_LEAST);
    return STR("");
}

static str read_line(reader *r, const node *n, const char *what)
{
    str text;
    return n != NULL && read_word(r, n, what, &text) ? str_copy(r->keep, text) : STR("");
}

/* Whom it is for: a role that a rule or a fix calls, or anything else that people may need. */
static bool read_for(reader *r, const node *map, contact *c)
{
    const node *role = node_get(map, "role"), *purpose = node_get(map, "purpose");
    if (role != NULL && purpose != NULL)
        return !wrong_together(r, map, "purpose", "the role says what this contact is for",
                               "Keep one of 'role' and 'purpose'.");
    if (role == NULL && purpose == NULL) {
        fault *f = fault_add(r->list, FAULT_MISSING_KEY, map->at,
                             "It isn't said what this contact is called for.");
        fault_help(
            r->list, f,
            "Add 'role: technician', or for what is no role such as 'purpose: gas supplier'.");
        return false;
    }
    if (role != NULL)
        c->role = resolve_role(r, role);
    else
        c->purpose = read_line(r, purpose, "'purpose'");
    return role == NULL ? c->purpose.n > 0 : c->role != NO_ID;
}

static bool read_contact(reader *r, const node *map, contact *c)
{
    static const char *const keys[] = {"role", "purpose", "post", "telephone", "hours", NULL};
    *c = (contact){
        .role = NO_ID, .purpose = STR(""), .post = STR(""), .hours = STR(""), .at = map->at};
    if (!check_map(r, map, "A contact", keys)) return false;
    label here = {STR(""), map->at};
    bool good = read_for(r, map, c);
    c->post = read_line(r, need(r, map, here, "A contact", "post", "night desk"), "'post'");
    c->telephone =
        read_telephone(r, need(r, map, here, "A contact", "telephone", "555-0142"), "'telephone'");
    c->hours = read_line(r, node_get(map, "hours"), "'hours'");
    return good && c->post.n > 0 && c->telephone.n > 0;
}

void read_contacts(reader *r, const node *site)
{
    const node *n = node_get(site, "contacts");
    book *b = r->book;
    b->emergency_number =
        read_telephone(r, node_get(site, "emergency-number"), "'emergency-number'");
    if (n == NULL) return;
    if (n->kind != NODE_LIST) {
        wrong_kind(r, n, "'contacts'", "a list of contacts, each beginning with a hyphen");
        return;
    }
    contact *all = ARENA_ARRAY(r->keep, contact, n->count);
    for (uint32_t i = 0; i < n->count && i < LIST_ITEMS_MAX; i++)
        if (read_contact(r, n->items[i], &all[b->contact_count])) b->contact_count++;
    b->contacts = all;
    assert(b->contact_count <= n->count);
}
