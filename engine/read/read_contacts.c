/* Whom to call at the site: `contacts`, and the emergency number there. */
#include <assert.h>

#include "read/reader.h"

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

/* Whom it is for: a role that a rule or a fix calls, or anything else that people may need. */
static bool check_for(reader *r, const node *map, const contact *c)
{
    assert(map->kind == NODE_MAP);
    bool role = node_get(map, "role") != NULL, purpose = node_get(map, "purpose") != NULL;
    if (role && purpose)
        return !wrong_together(r, map, "purpose", "the role says what this contact is for",
                               "Keep one of 'role' and 'purpose'.");
    if (role || purpose) return c->role != NO_ID || c->purpose.count > 0;
    fault *f = fault_add(r->list, FAULT_MISSING_KEY, map->at,
                         "It isn't said what this contact is called for.");
    fault_help(r->list, f,
               "Add 'role: technician', or for what is no role such as 'purpose: gas supplier'.");
    return false;
}

/* Whoever is of this role at the site may isolate and lock. */
static void read_post_authorised(reader *r, const node *map, const contact *c)
{
    const node *n = node_get(map, "authorised");
    bool yes = false;
    if (n == NULL || !read_yes(r, n, "'authorised'", &yes) || !yes) return;
    if (c->role == NO_ID && node_get(map, "role") != NULL) return; /* the role is told */
    if (c->role == NO_ID) {
        wrong_together(r, map, "authorised", "it is a role that may isolate and lock",
                       "Write 'role' instead of 'purpose', or leave it out.");
        return;
    }
    bool *all = ARENA_ARRAY(r->keep, bool, r->book->role_count);
    for (uint32_t i = 0; i < r->book->role_count; i++)
        all[i] = i == c->role || r->book->authorised[i];
    r->book->authorised = all;
}

/* One a language, as texts are; what stands there alone is taken as it is, also in brackets. */
static void read_called(reader *r, const node *n, const char *what, texts *out)
{
    str word;
    if (n == NULL) return;
    if (n->kind != NODE_TEXT) {
        read_fixed_texts(r, n, what, TEXT_PHRASE, out);
        return;
    }
    if (!read_word(r, n, what, &word)) return;
    text_item *item = ARENA_NEW(r->keep, text_item);
    *item = (text_item){r->book->language, str_copy(r->keep, word)};
    *out = (texts){.items = item, .count = 1, .at = n->at};
}

static bool read_contact(reader *r, const node *map, contact *c)
{
    *c = (contact){.role = NO_ID, .at = map->at};
    if (!check_map(r, map, KEYS_CONTACT)) return false;
    const label here = {STR(""), map->at};
    read_keys(r, map, here, KEYS_CONTACT, c);
    read_called(r, node_get(map, "purpose"), "'purpose'", &c->purpose);
    read_called(r, need(r, map, here, KEYS_CONTACT, "post"), "'post'", &c->post);
    read_called(r, node_get(map, "hours"), "'hours'", &c->hours);
    read_post_authorised(r, map, c);
    c->telephone = read_telephone(r, need(r, map, here, KEYS_CONTACT, "telephone"), "'telephone'");
    return check_for(r, map, c) && c->post.count > 0 && c->telephone.n > 0;
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
