#include "draw/xml.h"

#include <assert.h>
#include <string.h>

/* ---- characters ---- */

static bool ended(const xml_reader *x)
{
    return x->next >= x->bytes.n;
}

static char here(const xml_reader *x)
{
    return ended(x) ? '\0' : x->bytes.p[x->next];
}

static bool comes(const xml_reader *x, const char *what)
{
    return str_starts(str_slice(x->bytes, x->next, x->bytes.n), what);
}

static bool blank(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

static void skip_blanks(xml_reader *x)
{
    while (blank(here(x))) x->next++;
}

/* Letters of any alphabet; a colon parts a prefix from a name. */
static bool of_name(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           (unsigned char)c >= 0x80 || (c != '\0' && strchr("-_.:", c) != NULL);
}

static str take_name(xml_reader *x)
{
    const uint32_t from = x->next;
    while (of_name(here(x))) x->next++;
    return str_slice(x->bytes, from, x->next);
}

static span from_to(const xml_reader *x, uint32_t from, uint32_t to)
{
    assert(from <= to && to <= x->bytes.n);
    return (span){x->file, from, to};
}

/* ---- what is wrong with it ---- */

static xml_piece broken(xml_reader *x, span at, const char *what, const char *help)
{
    fault *f = fault_add(x->list, FAULT_DRAWING_CUT, at, "%s", what);
    fault_help(x->list, f, "%s", help);
    x->next = (uint32_t)x->bytes.n;
    return (xml_piece){.kind = XML_BROKEN, .at = at};
}

/* To behind `end`; false: it isn't there. */
static bool skip_past(xml_reader *x, const char *end)
{
    const size_t found = str_find(str_slice(x->bytes, x->next, x->bytes.n), str_of(end));
    if (found == SIZE_MAX) return false;
    x->next += (uint32_t)(found + strlen(end));
    return true;
}

/* ---- entities ---- */

static bool named_entity(str name, char *out)
{
    static const struct {
        const char *name;
        char is;
    } known[] = {{"amp", '&'}, {"lt", '<'}, {"gt", '>'}, {"quot", '"'}, {"apos", '\''}};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++)
        if (str_is(name, known[i].name)) {
            *out = known[i].is;
            return true;
        }
    return false;
}

static int digit_of(char c, unsigned base)
{
    int value = c >= '0' && c <= '9'   ? c - '0'
                : c >= 'a' && c <= 'f' ? c - 'a' + 10
                : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                       : -1;
    return value < (int)base ? value : -1;
}

/* "#8451", "#x2103"; 0: none that a text may hold (XML 1.0, 2.2: of the control characters only
 * these, as which programs write the line ends of attributes). */
static uint32_t numbered_character(str name)
{
    const bool hex = name.n > 2 && (name.p[1] == 'x' || name.p[1] == 'X');
    uint32_t point = 0;
    if (name.n < 2 || name.n > 9 || name.p[0] != '#') return 0;
    for (size_t i = hex ? 2 : 1; i < name.n; i++) {
        const int d = digit_of(name.p[i], hex ? 16 : 10);
        if (d < 0) return 0;
        point = point * (hex ? 16 : 10) + (uint32_t)d;
    }
    const bool surrogate = point >= 0xD800 && point <= 0xDFFF,
               blank = point == '\t' || point == '\n' || point == '\r';
    return (point < 0x20 && !blank) || point > 0x10FFFF || surrogate ? 0 : point;
}

static void add_character(text_builder *out, uint32_t c)
{
    char b[4];
    size_t n = 0;
    if (c < 0x80) {
        b[n++] = (char)c;
    } else if (c < 0x800) {
        b[n++] = (char)(0xC0 | c >> 6);
    } else if (c < 0x10000) {
        b[n++] = (char)(0xE0 | c >> 12);
        b[n++] = (char)(0x80 | (c >> 6 & 0x3F));
    } else {
        b[n++] = (char)(0xF0 | c >> 18);
        b[n++] = (char)(0x80 | (c >> 12 & 0x3F));
        b[n++] = (char)(0x80 | (c >> 6 & 0x3F));
    }
    if (c >= 0x80) b[n++] = (char)(0x80 | (c & 0x3F));
    text_add(out, (str){b, n});
}

static bool add_entity(text_builder *out, str name)
{
    char one;
    const uint32_t point = numbered_character(name);
    if (named_entity(name, &one))
        text_add(out, (str){&one, 1});
    else if (point != 0)
        add_character(out, point);
    else
        return false;
    return true;
}

/* The bytes [from, to) as they are meant. False: an '&' begins nothing that is known. */
static bool meant(xml_reader *x, uint32_t from, uint32_t to, str *out)
{
    const str raw = str_slice(x->bytes, from, to);
    if (str_find_byte(raw, '&') == SIZE_MAX) {
        *out = raw;
        return true;
    }
    text_builder b = {.keep = x->scratch};
    for (size_t i = 0; i < raw.n; i++) {
        if (raw.p[i] != '&') {
            text_add(&b, str_slice(raw, i, i + 1));
            continue;
        }
        const str rest = str_slice(raw, i + 1, raw.n);
        const size_t end = str_find_byte(rest, ';');
        if (end == SIZE_MAX || !add_entity(&b, str_slice(rest, 0, end))) {
            const uint32_t at = from + (uint32_t)i;
            broken(x, from_to(x, at, at + 1), "An '&' stands here that begins no character.",
                   "Write '&amp;' for the sign itself.");
            return false;
        }
        i += end + 1;
    }
    *out = text_done(&b); /* an '&' gave a character at least */
    return true;
}

/* ---- elements ---- */

/* What an attribute is, or that it isn't one. */
static bool take_attribute(xml_reader *x, xml_attribute *out)
{
    const uint32_t from = x->next;
    out->name = take_name(x);
    const uint32_t named = x->next;
    skip_blanks(x);
    if (out->name.n == 0 || here(x) != '=') {
        broken(x, from_to(x, from, named > from ? named : from + 1),
               "Here an attribute is wanted, a name and a value in quotes.",
               "Write it as name=\"value\"; behind the last one stands '>' or '/>'.");
        return false;
    }
    x->next++;
    skip_blanks(x);
    const char quote = here(x);
    const uint32_t begins = x->next + 1;
    const char until[] = {quote, '\0'};
    if (quote == '"' || quote == '\'') x->next++;
    if ((quote != '"' && quote != '\'') || !skip_past(x, until)) {
        broken(x, from_to(x, from, named), "The value of this attribute is not in quotes.",
               "Write it as name=\"value\".");
        return false;
    }
    const uint32_t ends = x->next;
    out->at = from_to(x, from, ends);
    return meant(x, begins, ends - 1, &out->value);
}

static bool stands_twice(const xml_attribute *all, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++)
        if (str_eq(all[i].name, all[count].name)) return true;
    return false;
}

/* Behind the element's name. False: told. */
static bool take_attributes(xml_reader *x, xml_piece *out)
{
    xml_attribute *all = x->attributes;
    out->attributes = all;
    for (;;) {
        skip_blanks(x);
        if (ended(x) || here(x) == '>' || here(x) == '/') return true;
        if (out->count == XML_ATTRIBUTES_MAX) {
            broken(x, out->at, "This element has more attributes than a drawing needs.",
                   "Keep those that say where it is and how it looks.");
            return false;
        }
        if (!take_attribute(x, &all[out->count])) return false;
        if (stands_twice(all, out->count)) {
            broken(x, all[out->count].at, "This attribute stands twice in one element.",
                   "Keep one of them.");
            return false;
        }
        out->count++;
    }
}

static xml_piece take_end(xml_reader *x)
{
    const uint32_t from = x->next;
    x->next += 2;
    const str name = take_name(x);
    skip_blanks(x);
    if (here(x) != '>')
        return broken(x, from_to(x, from, x->next), "This closing tag has no '>' at its end.",
                      "Write it as '</name>'.");
    x->next++;
    return (xml_piece){.kind = XML_END, .at = from_to(x, from, x->next), .name = name};
}

static xml_piece take_start(xml_reader *x)
{
    const uint32_t from = x->next++;
    xml_piece out = {.kind = XML_START, .name = take_name(x)};
    out.at = from_to(x, from, x->next);
    if (out.name.n == 0)
        return broken(x, out.at, "A '<' stands here that begins no element.",
                      "Write '&lt;' for the sign itself.");
    if (!take_attributes(x, &out)) return (xml_piece){.kind = XML_BROKEN, .at = out.at};
    if (here(x) == '/') {
        out.kind = XML_EMPTY;
        x->next++;
    }
    if (here(x) != '>')
        return broken(x, out.at, "This element has no '>' at the end of its attributes.",
                      "Write '>' there, or '/>' if nothing stands in it.");
    x->next++;
    return out;
}

static xml_piece take_text(xml_reader *x)
{
    const uint32_t from = x->next;
    while (!ended(x) && here(x) != '<') x->next++;
    xml_piece out = {.kind = XML_TEXT, .at = from_to(x, from, x->next)};
    if (!meant(x, from, x->next, &out.text)) out.kind = XML_BROKEN;
    return out;
}

static xml_piece take_raw_text(xml_reader *x)
{
    const uint32_t from = x->next;
    if (!skip_past(x, "]]>"))
        return broken(x, from_to(x, from, from + 3), "This text has no end ']]>'.",
                      "Write the words alone, without '<![CDATA['.");
    const uint32_t begins = from + (uint32_t)strlen("<![CDATA[");
    return (xml_piece){.kind = XML_TEXT,
                       .at = from_to(x, from, x->next),
                       .text = str_slice(x->bytes, begins, x->next - 3)};
}

/* A declaration that says no more than which language it is may stand there. */
static bool skip_declaration(xml_reader *x)
{
    const str rest = str_slice(x->bytes, x->next, x->bytes.n);
    const size_t end = str_find_byte(rest, '>'), own = str_find_byte(rest, '[');
    if (end == SIZE_MAX || own < end) {
        broken(x, from_to(x, x->next, x->next + 2),
               "Here a drawing declares words of its own, which are not read.",
               "Leave out all from '<!' to ']>'.");
        return false;
    }
    x->next += (uint32_t)end + 1;
    return true;
}

static bool skip_until(xml_reader *x, const char *end, const char *help)
{
    const uint32_t from = x->next;
    if (skip_past(x, end)) return true;
    broken(x, from_to(x, from, from + 2), "What begins here has no end.", help);
    return false;
}

static bool skip_instruction(xml_reader *x)
{
    const char *sheet = "<?xml-stylesheet";
    if (!comes(x, sheet)) return skip_until(x, "?>", "Write '?>' behind it.");
    broken(x, from_to(x, x->next, x->next + (uint32_t)strlen(sheet)),
           "A drawing has no style sheet.",
           "Leave it out, and write colours as fill=\"#ffcc00\" stroke=\"black\".");
    return false;
}

/* Comments, and what is said to programs. False: told. */
static bool skip_aside(xml_reader *x)
{
    if (comes(x, "<!--")) return skip_until(x, "-->", "Write '-->' behind the comment.");
    return comes(x, "<?") ? skip_instruction(x) : skip_declaration(x);
}

xml_piece xml_next(xml_reader *x)
{
    assert(x->list != NULL && x->next <= x->bytes.n);
    while (comes(x, "<?") || (comes(x, "<!") && !comes(x, "<![CDATA[")))
        if (!skip_aside(x)) return (xml_piece){.kind = XML_BROKEN};
    if (ended(x)) return (xml_piece){.kind = XML_DONE, .at = from_to(x, x->next, x->next)};
    if (here(x) != '<') return take_text(x);
    if (comes(x, "<![CDATA[")) return take_raw_text(x);
    return comes(x, "</") ? take_end(x) : take_start(x);
}
