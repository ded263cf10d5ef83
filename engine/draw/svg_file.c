#include "draw/svg_file.h"

#include <assert.h>
#include <string.h>

#include "base/unicode.h"
#include "draw/svg_words.h"
#include "draw/xml.h"

static const char fewer_shapes[] = "Draw it with fewer shapes: it is looked at on a telephone.";
static const char save_as_svg[] = "Save it as plain SVG from the program that drew it.";

typedef struct open_element {
    str name;
    span at;
} open_element;

typedef struct told { /* one fault for each sort of thing, at the first of them */
    str name;
    struct told *next;
} told;

typedef struct drawer {
    xml_reader xml;
    arena *keep, *scratch;
    faults *list;
    text_builder out;
    open_element open[DRAWING_DEPTH_MAX];
    uint32_t depth, elements;
    uint32_t unseen; /* so deep in what is left out; 0: not in it */
    told *told;
    svg_drawing made;
    bool has_size, over; /* over: the outermost element was closed */
} drawer;

static bool told_before(drawer *d, const char *what, str name)
{
    const str full = str_printf(d->scratch, "%s %.*s", what, STR_ARG(name));
    for (const told *t = d->told; t != NULL; t = t->next)
        if (str_eq(t->name, full)) return true;
    told *one = ARENA_NEW(d->scratch, told);
    *one = (told){full, d->told};
    d->told = one;
    return false;
}

/* ---- elements ---- */

static void refuse_element(drawer *d, const xml_piece *p, const char *remedy)
{
    if (told_before(d, "element", p->name)) return;
    fault *f = fault_add(d->list, FAULT_DRAWING_ELEMENT, p->at,
                         "A drawing must not have the element '%.*s'.", STR_ARG(p->name));
    const str near = svg_element_near(d->scratch, p->name);
    if (*remedy != '\0')
        fault_help(d->list, f, "%s", remedy);
    else if (near.n > 0)
        fault_help(d->list, f, "Did you mean '%.*s'?", STR_ARG(near));
    else
        fault_help(d->list, f, "Draw it with %s.", svg_elements());
}

static bool is_text_element(str name)
{
    return str_is(name, "text") || str_is(name, "tspan");
}

/* In words there are only words. */
static void check_nesting(drawer *d, const xml_piece *p)
{
    assert(d->depth > 0); /* the outermost is nested in nothing */
    const bool in_text = is_text_element(d->open[d->depth - 1].name);
    const bool part = str_is(p->name, "tspan");
    if (in_text == part && !str_is(p->name, "svg")) return;
    if (told_before(d, "nesting", p->name)) return;
    fault *f = fault_add(d->list, FAULT_DRAWING_ELEMENT, p->at, "Here no '%.*s' can stand.",
                         STR_ARG(p->name));
    fault_help(d->list, f, "%s",
               part      ? "Put it into a '<text>'."
               : in_text ? "Put it behind the '</text>'."
                         : "Keep the outermost '<svg>', and write '<g>' here.");
}

/* ---- attributes ---- */

static void refuse_style(drawer *d, const xml_attribute *a)
{
    if (told_before(d, "attribute", a->name)) return;
    const str as = svg_style_as_attributes(d->scratch, a->value);
    fault *f = fault_add(d->list, FAULT_DRAWING_ATTRIBUTE, a->at,
                         "A drawing has no 'style'; what it says stands in attributes.");
    if (as.n == 0) {
        fault_help(d->list, f, "Leave it out.");
        return;
    }
    fault_help(d->list, f, "Write '%.*s', and so in all of the drawing.", STR_ARG(as));
    fault_mend(d->list, f, str_slice(d->xml.bytes, a->at.start, a->at.end), as);
}

static void refuse_attribute(drawer *d, const xml_attribute *a, const char *remedy)
{
    if (str_is(a->name, "style")) {
        refuse_style(d, a);
        return;
    }
    if (told_before(d, "attribute", a->name)) return;
    fault *f = fault_add(d->list, FAULT_DRAWING_ATTRIBUTE, a->at,
                         "A drawing must not have the attribute '%.*s'.", STR_ARG(a->name));
    fault_help(d->list, f, "%s", remedy);
}

static void refuse_value(drawer *d, const xml_attribute *a, const char *wanted)
{
    if (told_before(d, "value", a->value)) return;
    const bool other = str_starts(str_trim(a->value), "url(");
    fault *f = fault_add(d->list, FAULT_DRAWING_VALUE, a->at,
                         other ? "'%.*s' fetches its looks from elsewhere, as '%.*s'."
                               : "'%.*s' can't be read from '%.*s'.",
                         STR_ARG(a->name),
                         STR_ARG(str_slice(a->value, 0, a->value.n < 60 ? a->value.n : 60)));
    fault_help(d->list, f, "Write %s.", wanted);
}

static bool is_of_frame(const xml_attribute *a)
{
    static const char *const names[] = {"x", "y", "width", "height"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (str_is(a->name, names[i])) return true;
    return false;
}

static void write_attributes(drawer *d, const xml_piece *p, bool outermost)
{
    for (uint32_t i = 0; i < p->count; i++) {
        const xml_attribute *a = &p->attributes[i];
        const svg_attribute *known;
        const char *remedy, *wanted;
        const svg_use use = svg_attribute_use(a->name, &known, &remedy);
        if (use == SVG_REFUSED) refuse_attribute(d, a, remedy);
        if (use != SVG_DRAWN || (outermost && is_of_frame(a))) continue;
        const str value = svg_value(d->scratch, known, a->value, &wanted);
        if (value.n == 0)
            refuse_value(d, a, wanted);
        else
            text_addf(&d->out, " %.*s=\"%.*s\"", STR_ARG(a->name), STR_ARG(value));
    }
}

/* ---- the frame ---- */

static const xml_attribute *attribute_of(const xml_piece *p, const char *name)
{
    for (uint32_t i = 0; i < p->count; i++)
        if (str_is(p->attributes[i].name, name)) return &p->attributes[i];
    return NULL;
}

/* "320", "320px"; NAN-free: false if it is anything else. */
static bool plain_length(const xml_attribute *a, double *out)
{
    if (a == NULL) return false;
    str text = str_trim(a->value);
    if (str_ends(text, "px")) text = str_slice(text, 0, text.n - 2);
    return svg_numbers(text, out, 1) && *out > 0;
}

/* How many numbers areas are measured in. Without a viewBox a drawing has the size that it tells.
 */
static void read_frame(drawer *d, const xml_piece *p)
{
    const xml_attribute *box = attribute_of(p, "viewBox");
    double n[4] = {0};
    bool told_size = box != NULL && svg_numbers(box->value, n, 4) && n[2] > 0 && n[3] > 0;
    if (box == NULL)
        told_size = plain_length(attribute_of(p, "width"), &n[2]) &&
                    plain_length(attribute_of(p, "height"), &n[3]);
    d->has_size = true;
    d->made.x = n[0];
    d->made.y = n[1];
    d->made.width = n[2];
    d->made.height = n[3];
    if (told_size) return;
    fault *f = fault_add(
        d->list, FAULT_DRAWING_SIZE, box != NULL ? box->at : p->at,
        box != NULL ? "The viewBox is four numbers: where it begins, its width and its height."
                    : "The drawing does not say how large it is.");
    fault_help(d->list, f,
               "Write viewBox=\"0 0 320 200\" with the width and height that it is drawn in.");
}

/* ---- pieces ---- */

static bool cut(drawer *d, span at, const char *what, const char *help)
{
    fault *f = fault_add(d->list, FAULT_DRAWING_CUT, at, "%s", what);
    fault_help(d->list, f, "%s", help);
    return false;
}

static bool within_limits(drawer *d, const xml_piece *p)
{
    const bool deep = d->depth == DRAWING_DEPTH_MAX;
    if (++d->elements <= DRAWING_ELEMENTS_MAX && !deep) return true;
    fault *f = fault_add(d->list, FAULT_DRAWING_LARGE, p->at,
                         deep ? "Elements stand more than %d deep in one another."
                              : "The drawing has more than %d elements.",
                         deep ? DRAWING_DEPTH_MAX : DRAWING_ELEMENTS_MAX);
    fault_help(d->list, f, "%s", deep ? "Take the shapes out of their groups." : fewer_shapes);
    return false;
}

static void write_element(drawer *d, const xml_piece *p, bool outermost)
{
    text_addf(&d->out, "<%.*s", STR_ARG(p->name));
    if (outermost) read_frame(d, p);
    if (outermost)
        text_addf(&d->out,
                  " xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"%.10g %.10g %.10g %.10g\"",
                  d->made.x, d->made.y, d->made.width, d->made.height);
    write_attributes(d, p, outermost);
    text_add(&d->out, p->kind == XML_EMPTY ? STR("/>") : STR(">"));
}

/* False: no drawing can begin here. */
static bool may_begin(drawer *d, const xml_piece *p)
{
    if (d->over)
        return cut(d, p->at, "Here another drawing begins in the same file.",
                   "Put it into a file of its own.");
    if (d->depth > 0 || str_is(p->name, "svg")) return true;
    return cut(d, p->at, "This is no SVG drawing: it does not begin with '<svg'.", save_as_svg);
}

/* What is not seen is passed over with all that stands in it; but colours would be missed that a
 * style sheet gives. */
static bool take_start(drawer *d, const xml_piece *p)
{
    const bool outermost = d->depth == 0, hidden = d->unseen > 0;
    const char *remedy = "";
    if (!may_begin(d, p) || !within_limits(d, p)) return false;
    const svg_use use = outermost ? SVG_DRAWN : svg_element_use(p->name, &remedy);
    if (use == SVG_REFUSED && (!hidden || str_is(p->name, "style") || str_is(p->name, "script")))
        refuse_element(d, p, remedy);
    const bool seen = use == SVG_DRAWN && !hidden;
    if (seen && !outermost) check_nesting(d, p);
    if (seen) write_element(d, p, outermost);
    if (p->kind == XML_EMPTY) {
        d->over = outermost;
        return true;
    }
    d->unseen += !seen;
    d->open[d->depth++] = (open_element){p->name, p->at};
    return true;
}

static bool take_end(drawer *d, const xml_piece *p)
{
    const open_element *last = d->depth > 0 ? &d->open[d->depth - 1] : NULL;
    if (last == NULL || !str_eq(last->name, p->name)) {
        fault *f = fault_add(d->list, FAULT_DRAWING_CUT, p->at,
                             "'</%.*s>' closes what is not open here.", STR_ARG(p->name));
        if (last != NULL) {
            fault_note_at(d->list, f, last->at, "'%.*s' begins here.", STR_ARG(last->name));
            fault_help(d->list, f, "Write '</%.*s>' first.", STR_ARG(last->name));
        } else {
            fault_help(d->list, f, "Leave it out.");
        }
        return false;
    }
    d->depth--;
    if (d->unseen > 0)
        d->unseen--;
    else
        text_addf(&d->out, "</%.*s>", STR_ARG(p->name));
    d->over = d->depth == 0;
    return true;
}

static void write_words(drawer *d, str text)
{
    bool gap = false;
    for (size_t i = 0; i < text.n; i++) {
        const char c = text.p[i];
        const bool blank = c == ' ' || c == '\n' || c == '\t' || c == '\r';
        if (!blank || !gap)
            text_add(&d->out, blank      ? STR(" ")
                              : c == '&' ? STR("&amp;")
                              : c == '<' ? STR("&lt;")
                              : c == '>' ? STR("&gt;")
                                         : str_slice(text, i, i + 1));
        gap = blank;
    }
}

static bool take_text(drawer *d, const xml_piece *p)
{
    const str words = str_trim(p->text);
    if (d->unseen > 0) return true;
    if (d->depth > 0 && is_text_element(d->open[d->depth - 1].name)) {
        write_words(d, unicode_clean(d->scratch, p->text));
        return true;
    }
    if (words.n == 0) return true;
    span at = p->at; /* of the words, where they stand as they are meant */
    if (p->text.p == d->xml.bytes.p + at.start) {
        at.start += (uint32_t)(words.p - p->text.p);
        at.end = at.start + (uint32_t)words.n;
    }
    if (d->depth == 0)
        return cut(d, at, "This is no SVG drawing: words stand outside of '<svg>'.", save_as_svg);
    return cut(d, at, "These words stand in no '<text>', so nobody would see them.",
               "Write '<text x=\"10\" y=\"20\">' before them and '</text>' behind, or leave them "
               "out.");
}

static void end_of_file(drawer *d)
{
    if (d->over) return;
    if (d->depth == 0) {
        cut(d, (span){d->xml.file, 0, 0}, "There is no drawing in this file.", save_as_svg);
        return;
    }
    const open_element *last = &d->open[d->depth - 1];
    fault *f = fault_add(d->list, FAULT_DRAWING_CUT, last->at,
                         "'%.*s' begins here and is not closed.", STR_ARG(last->name));
    fault_help(d->list, f, "Write '</%.*s>' behind what stands in it.", STR_ARG(last->name));
}

static void read_pieces(drawer *d)
{
    for (bool more = true; more;) {
        const xml_piece p = xml_next(&d->xml);
        switch (p.kind) {
        case XML_START:
        case XML_EMPTY:
            more = take_start(d, &p);
            break;
        case XML_END:
            more = take_end(d, &p);
            break;
        case XML_TEXT:
            more = take_text(d, &p);
            break;
        case XML_DONE:
            end_of_file(d);
            more = false;
            break;
        case XML_BROKEN:
            more = false;
            break;
        }
    }
}

/* Where a character stands that no text may hold, or SIZE_MAX. */
static size_t unsafe_in(const source *s)
{
    size_t at = source_text_start(s);
    for (size_t start = at; at < s->bytes.n; start = at) {
        const uint32_t point = unicode_next(s->bytes, &at);
        if (point != '\r' && unicode_unsafe(point)) return start;
    }
    return SIZE_MAX;
}

/* Before anything is read of it. */
static bool can_be_read(const source *s, uint32_t file, faults *list)
{
    const size_t bad = unicode_first_bad(s->bytes);
    const size_t unsafe = bad == SIZE_MAX ? unsafe_in(s) : SIZE_MAX;
    const size_t at = bad != SIZE_MAX ? bad : unsafe;
    const bool large = s->bytes.n > DRAWING_BYTES_MAX;
    const span there = {file, at == SIZE_MAX ? 0 : (uint32_t)at, at == SIZE_MAX ? 0 : (uint32_t)at};
    if (large) {
        fault *f = fault_add(list, FAULT_DRAWING_LARGE, (span){file, 0, 0},
                             "The drawing is larger than %d kB.", DRAWING_BYTES_MAX / 1024);
        fault_help(list, f, "%s", fewer_shapes);
    } else if (at != SIZE_MAX) {
        fault *f = fault_add(list, FAULT_DRAWING_CUT, there,
                             bad != SIZE_MAX ? "From here on the file is not UTF-8 text."
                                             : "Here stands a character that is invisible, or "
                                               "changes how a screen shows what follows it.");
        fault_help(list, f, "%s", bad != SIZE_MAX ? save_as_svg : "Leave it out.");
    }
    return !large && at == SIZE_MAX;
}

svg_drawing draw_file(arena *keep, arena *scratch, const sources *all, uint32_t file, faults *list)
{
    assert(file < all->count && list != NULL);
    const source *s = &all->items[file];
    const uint32_t before = faults_errors(list);
    if (!can_be_read(s, file, list)) return (svg_drawing){.read = true};
    drawer *d = ARENA_NEW(scratch, drawer);
    *d = (drawer){.xml = {.scratch = scratch,
                          .list = list,
                          .bytes = s->bytes,
                          .file = file,
                          .next = (uint32_t)source_text_start(s)},
                  .keep = keep,
                  .scratch = scratch,
                  .list = list,
                  .out = {.keep = keep}};
    read_pieces(d);
    if (faults_errors(list) > before) return (svg_drawing){.read = true};
    assert(d->over && d->has_size);
    d->made.read = d->made.good = true;
    d->made.svg = text_done(&d->out);
    return d->made;
}
