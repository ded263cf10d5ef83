#include "draw/svg_words.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* ---- elements ---- */

static const char *const drawn[] = {"svg",  "g",        "path",    "rect", "circle", "ellipse",
                                    "line", "polyline", "polygon", "text", "tspan"};
enum { DRAWN_COUNT = sizeof drawn / sizeof *drawn };

/* What drawing programs write beside the drawing itself. */
static const char *const unseen[] = {"title", "desc", "metadata", "defs", NULL};

static const struct {
    const char *name, *remedy;
} refused[] = {
    {"style", "Leave it out, and write the colours at each shape: fill=\"#ffcc00\" "
              "stroke=\"black\"."},
    {"script", "Leave it out: a drawing does nothing."},
    {"a", "A drawing leads nowhere: keep the shapes in it, without '<a>' and '</a>'."},
    {"use", "Copy the shapes to where they are to be seen."},
    {"symbol", "Draw the shapes where they are to be seen, in a '<g>'."},
    {"image", "A photograph can't be shown: draw over it, and delete it."},
    {"foreignObject", "Write the words with '<text>'."},
    {"textPath", "Write the words with '<text>'."},
    {"switch", "Keep the shapes that are to be seen, without '<switch>'."},
    {"animate", "Leave it out: a drawing does not move."},
    {"animateTransform", "Leave it out: a drawing does not move."},
    {"animateMotion", "Leave it out: a drawing does not move."},
    {"set", "Leave it out: a drawing does not move."},
    {"linearGradient", "Fill the shape with one colour, such as fill=\"#dddddd\"."},
    {"radialGradient", "Fill the shape with one colour, such as fill=\"#dddddd\"."},
    {"pattern", "Fill the shape with one colour, such as fill=\"#dddddd\"."},
    {"clipPath", "Draw no more of the shape than is to be seen."},
    {"mask", "Draw no more of the shape than is to be seen."},
    {"marker", "Draw the head of an arrow as a '<path>'."},
    {"filter", "Leave it out: shapes have plain colours."},
};

static bool is_among(str name, const char *const *names)
{
    for (; *names != NULL; names++)
        if (str_is(name, *names)) return true;
    return false;
}

static bool has_prefix(str name)
{
    return str_find_byte(name, ':') != SIZE_MAX;
}

svg_use svg_element_use(str name, const char **remedy)
{
    *remedy = "";
    for (size_t i = 0; i < DRAWN_COUNT; i++)
        if (str_is(name, drawn[i])) return SVG_DRAWN;
    if (is_among(name, unseen) || has_prefix(name)) return SVG_LEFT_OUT;
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++)
        if (str_is(name, refused[i].name)) *remedy = refused[i].remedy;
    return SVG_REFUSED;
}

const char *svg_elements(void)
{
    return "g, path, rect, circle, ellipse, line, polyline, polygon, text and tspan";
}

str svg_element_near(arena *scratch, str name)
{
    str names[DRAWN_COUNT];
    for (size_t i = 0; i < DRAWN_COUNT; i++) names[i] = str_of(drawn[i]);
    for (size_t i = 0; i < DRAWN_COUNT; i++) /* "rectangle" */
        if (names[i].n > 3 && str_starts(name, drawn[i])) return names[i];
    const size_t near = str_nearest(scratch, name, names, DRAWN_COUNT);
    return near == SIZE_MAX ? STR("") : names[near];
}

/* ---- attributes ---- */

typedef enum value_kind {
    VALUE_NUMBER,
    VALUE_NUMBERS,
    VALUE_COLOUR,
    VALUE_PATH,
    VALUE_MOVES, /* translate(3 4) rotate(90) */
    VALUE_WORD,
} value_kind;

struct svg_attribute {
    const char *name;
    value_kind kind;
    const struct word_list *words; /* WORD */
};

typedef struct word_list {
    const char *says, *words[5];
} word_list;
static const word_list caps = {"'butt', 'round' or 'square'", {"butt", "round", "square"}};
static const word_list joins = {"'miter', 'round' or 'bevel'", {"miter", "round", "bevel"}};
static const word_list anchors = {"'start', 'middle' or 'end'", {"start", "middle", "end"}};
static const word_list weights = {"'normal' or 'bold'", {"normal", "bold", "400", "700"}};
static const word_list slants = {"'normal' or 'italic'", {"normal", "italic"}};
static const word_list rules = {"'nonzero' or 'evenodd'", {"nonzero", "evenodd"}};

static const svg_attribute attributes[] = {
    {"x", VALUE_NUMBERS, NULL},
    {"y", VALUE_NUMBERS, NULL},
    {"dx", VALUE_NUMBERS, NULL},
    {"dy", VALUE_NUMBERS, NULL},
    {"width", VALUE_NUMBER, NULL},
    {"height", VALUE_NUMBER, NULL},
    {"cx", VALUE_NUMBER, NULL},
    {"cy", VALUE_NUMBER, NULL},
    {"r", VALUE_NUMBER, NULL},
    {"rx", VALUE_NUMBER, NULL},
    {"ry", VALUE_NUMBER, NULL},
    {"x1", VALUE_NUMBER, NULL},
    {"y1", VALUE_NUMBER, NULL},
    {"x2", VALUE_NUMBER, NULL},
    {"y2", VALUE_NUMBER, NULL},
    {"points", VALUE_NUMBERS, NULL},
    {"d", VALUE_PATH, NULL},
    {"transform", VALUE_MOVES, NULL},
    {"fill", VALUE_COLOUR, NULL},
    {"stroke", VALUE_COLOUR, NULL},
    {"stroke-width", VALUE_NUMBER, NULL},
    {"stroke-dasharray", VALUE_NUMBERS, NULL},
    {"stroke-dashoffset", VALUE_NUMBER, NULL},
    {"stroke-miterlimit", VALUE_NUMBER, NULL},
    {"stroke-linecap", VALUE_WORD, &caps},
    {"stroke-linejoin", VALUE_WORD, &joins},
    {"fill-rule", VALUE_WORD, &rules},
    {"opacity", VALUE_NUMBER, NULL},
    {"fill-opacity", VALUE_NUMBER, NULL},
    {"stroke-opacity", VALUE_NUMBER, NULL},
    {"font-size", VALUE_NUMBER, NULL},
    {"font-weight", VALUE_WORD, &weights},
    {"font-style", VALUE_WORD, &slants},
    {"text-anchor", VALUE_WORD, &anchors},
};
enum { ATTRIBUTE_COUNT = sizeof attributes / sizeof *attributes };

/* They say nothing that could be seen, or only how a program had it open. */
static const char *const unseen_attributes[] = {"id",
                                                "class",
                                                "version",
                                                "baseProfile",
                                                "font-family",
                                                "enable-background",
                                                "overflow",
                                                "preserveAspectRatio",
                                                "role",
                                                "lang",
                                                "xmlns",
                                                "viewBox",
                                                "shape-rendering",
                                                "text-rendering",
                                                "color-interpolation",
                                                NULL};

static const svg_attribute *find_attribute(str name)
{
    for (size_t i = 0; i < ATTRIBUTE_COUNT; i++)
        if (str_is(name, attributes[i].name)) return &attributes[i];
    return NULL;
}

svg_use svg_attribute_use(str name, const svg_attribute **found, const char **remedy)
{
    *remedy = "";
    *found = find_attribute(name);
    if (*found != NULL) return SVG_DRAWN;
    if (str_is(name, "href") || str_is(name, "xlink:href")) {
        *remedy = "Leave it out: a drawing leads nowhere and fetches nothing.";
        return SVG_REFUSED;
    }
    if (is_among(name, unseen_attributes) || has_prefix(name) || str_starts(name, "aria-") ||
        str_starts(name, "data-"))
        return SVG_LEFT_OUT;
    *remedy = str_starts(name, "on") ? "Leave it out: a drawing does nothing."
                                     : "Leave it out; colours, widths and places stay.";
    return SVG_REFUSED;
}

/* ---- values ---- */

static bool is_number(str text)
{
    double number;
    return str_to_double(text, &number) && fabs(number) <= 1e6;
}

static str without_px(str text)
{
    return str_ends(text, "px") ? str_slice(text, 0, text.n - 2) : text;
}

static bool parts_numbers(char c)
{
    return c == ' ' || c == ',' || c == '\n' || c == '\t' || c == '\r';
}

/* The next word between blanks and commas; empty at the end. */
static str next_part(str *rest)
{
    size_t from = 0;
    while (from < rest->n && parts_numbers(rest->p[from])) from++;
    size_t to = from;
    while (to < rest->n && !parts_numbers(rest->p[to])) to++;
    const str part = str_slice(*rest, from, to);
    *rest = str_slice(*rest, to, rest->n);
    return part;
}

bool svg_numbers(str text, double *out, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        const str part = next_part(&text);
        if (!is_number(part)) return false;
        str_to_double(part, &out[i]);
    }
    return next_part(&text).n == 0;
}

static bool all_numbers(str text)
{
    uint32_t count = 0;
    for (str part = next_part(&text); part.n > 0; part = next_part(&text), count++)
        if (!is_number(without_px(part))) return false;
    return count > 0;
}

/* Only characters of the list, and one of `begins` first. */
static bool is_made_of(str text, const char *characters, const char *begins)
{
    for (size_t i = 0; i < text.n; i++)
        if (text.p[i] == '\0' || strchr(characters, text.p[i]) == NULL) return false;
    return text.n > 0 && strchr(begins, text.p[0]) != NULL;
}

static bool is_path(str text)
{
    return is_made_of(text, "MmLlHhVvCcSsQqTtAaZz0123456789.,+-eE \t\r\n", "Mm");
}

static const char *const moves[] = {"translate", "rotate", "scale", "matrix",
                                    "skewX",     "skewY",  NULL};

static bool are_moves(str text)
{
    for (text = str_trim(text); text.n > 0; text = str_trim(text)) {
        const size_t open = str_find_byte(text, '('), close = str_find_byte(text, ')');
        if (open == SIZE_MAX || close == SIZE_MAX || close < open) return false;
        if (!is_among(str_trim(str_slice(text, 0, open)), moves)) return false;
        if (!all_numbers(str_slice(text, open + 1, close))) return false;
        text = str_slice(text, close + 1, text.n);
        if (text.n > 0 && text.p[0] == ',') text = str_slice(text, 1, text.n);
    }
    return true;
}

static const char *const colours[] = {
    "none",  "black", "white", "gray", "silver", "red",     "maroon", "yellow", "olive", "lime",
    "green", "aqua",  "teal",  "blue", "navy",   "fuchsia", "purple", "orange", "brown", NULL};

static bool is_colour(str text)
{
    if (is_among(text, colours)) return true;
    return (text.n == 4 || text.n == 7) && text.p[0] == '#' &&
           is_made_of(str_slice(text, 1, text.n), "0123456789abcdefABCDEF",
                      "0123456789abcdefABCDEF");
}

static bool fits(const svg_attribute *a, str value)
{
    switch (a->kind) {
    case VALUE_NUMBER:
        return is_number(value);
    case VALUE_NUMBERS:
        return all_numbers(value);
    case VALUE_COLOUR:
        return is_colour(value);
    case VALUE_PATH:
        return is_path(value);
    case VALUE_MOVES:
        return value.n > 0 && are_moves(value);
    case VALUE_WORD:
        return is_among(value, a->words->words);
    }
    return false;
}

static const char *wanted_of(const svg_attribute *a)
{
    switch (a->kind) {
    case VALUE_NUMBER:
        return "a number without a unit";
    case VALUE_NUMBERS:
        return "numbers without a unit, parted by blanks or commas";
    case VALUE_COLOUR:
        return "'none', '#ffcc00', or one of black, white, gray, silver, red, orange, yellow, "
               "green, blue, navy, purple and brown";
    case VALUE_PATH:
        return "the points of a path, such as 'M 10 20 L 30 40 Z'";
    case VALUE_MOVES:
        return "moves with plain numbers, such as 'translate(10 20) rotate(90)'";
    case VALUE_WORD:
        return a->words->says;
    }
    return "";
}

str svg_value(arena *keep, const svg_attribute *a, str value, const char **wanted)
{
    assert(a != NULL);
    value = str_trim(value);
    if (a->kind == VALUE_NUMBER) value = without_px(value);
    *wanted = wanted_of(a);
    if (!fits(a, value)) return STR("");
    text_builder b = {.keep = keep};
    for (size_t i = 0; i < value.n; i++)
        text_add(&b, value.p[i] == '\n' || value.p[i] == '\t' || value.p[i] == '\r'
                         ? STR(" ")
                         : str_slice(value, i, i + 1));
    return text_done(&b);
}

str svg_style_as_attributes(arena *scratch, str style)
{
    text_builder b = {.keep = scratch};
    while (style.n > 0) {
        size_t end = str_find_byte(style, ';');
        if (end == SIZE_MAX) end = style.n;
        const str one = str_slice(style, 0, end);
        const size_t colon = str_find_byte(one, ':');
        style = str_slice(style, end < style.n ? end + 1 : end, style.n);
        if (colon == SIZE_MAX) continue;
        const svg_attribute *a = find_attribute(str_trim(str_slice(one, 0, colon)));
        const char *wanted;
        if (a == NULL) continue;
        const str value = svg_value(scratch, a, str_slice(one, colon + 1, one.n), &wanted);
        if (value.n > 0)
            text_addf(&b, "%s%s=\"%.*s\"", b.length > 0 ? " " : "", a->name, STR_ARG(value));
    }
    return b.length == 0 ? STR("") : text_done(&b);
}
