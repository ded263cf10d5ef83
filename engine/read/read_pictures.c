/* Pictures: a drawing of the book's folder, what it shows in words, and where in it signs are seen.
 */
#include <assert.h>

#include "base/sorted.h"
#include "read/reader.h"

/* ---- the file ---- */

static bool is_picture_file(const reader *r, uint32_t file)
{
    return file != r->site_file && source_is_picture(&r->book->files->items[file]);
}

static uint32_t find_picture(const reader *r, str name)
{
    const sources *files = r->book->files;
    for (uint32_t i = 0; i < files->count; i++)
        if (is_picture_file(r, i) && str_eq(files->items[i].name, name)) return i;
    return NO_ID;
}

/* "./fan.svg" is "fan.svg". */
static str within_folder(str name)
{
    return str_starts(name, "./") ? str_slice(name, 2, name.n) : name;
}

static uint32_t no_picture(reader *r, const node *n, str name)
{
    const sources *files = r->book->files;
    str *names = ARENA_ARRAY(r->scratch, str, files->count);
    uint32_t count = 0;
    for (uint32_t i = 0; i < files->count; i++)
        if (is_picture_file(r, i)) names[count++] = files->items[i].name;
    fault *f = fault_add(r->list, FAULT_NO_PICTURE, n->at,
                         "There is no drawing '%.*s' in the book's folder.", STR_ARG(name));
    if (!str_ends(name, ".svg"))
        fault_help(
            r->list, f,
            "A picture is an SVG drawing: save it as one, with '.svg' at the end of its name.");
    else if (count == 0)
        fault_help(r->list, f,
                   "Put it there; its name is written as the file's, with '/' between folders.");
    else
        suggest(r, f, name, names, count);
    return NO_ID;
}

/* Each file is drawn once, however many pictures show it. */
static const svg_drawing *drawing_of(reader *r, uint32_t file)
{
    if (r->drawings == NULL) r->drawings = ARENA_ARRAY(r->keep, svg_drawing, r->book->files->count);
    svg_drawing *d = &r->drawings[file];
    if (!d->read) *d = draw_file(r->keep, r->scratch, r->book->files, file, r->list);
    assert(d->read);
    return d;
}

static uint32_t read_file_name(reader *r, const node *n)
{
    str name;
    if (n == NULL || !read_word(r, n, "a file", &name)) return NO_ID;
    name = within_folder(name);
    const uint32_t file = find_picture(r, name);
    return file != NO_ID ? file : no_picture(r, n, name);
}

/* ---- areas ---- */

static void bad_area(reader *r, const node *n, const svg_drawing *d)
{
    fault *f =
        fault_add(r->list, FAULT_BAD_AREA, n->at,
                  "An area is four numbers within the drawing, which is %.10g wide and %.10g high.",
                  d->width, d->height);
    fault_help(r->list, f, "Write [x, y, width, height], such as [%.10g, %.10g, %.10g, %.10g].",
               d->x, d->y, d->width / 2, d->height / 2);
}

static bool four_numbers(const node *n, double out[4])
{
    if (n->kind != NODE_LIST || n->count != 4) return false;
    for (uint32_t i = 0; i < 4; i++)
        if (n->items[i]->kind != NODE_TEXT || !str_to_double(str_trim(n->items[i]->text), &out[i]))
            return false;
    return true;
}

static bool read_frame(reader *r, const node *n, const svg_drawing *d, picture_area *a)
{
    double at[4];
    const bool read = four_numbers(n, at);
    const bool within = read && at[0] >= d->x && at[1] >= d->y && at[2] > 0 && at[3] > 0 &&
                        at[0] + at[2] <= d->x + d->width && at[1] + at[3] <= d->y + d->height;
    if (!within) {
        bad_area(r, n, d);
        return false;
    }
    a->x = at[0];
    a->y = at[1];
    a->width = at[2];
    a->height = at[3];
    return true;
}

static uint32_t first_of_kind(const reader *r, uint32_t kind)
{
    for (uint32_t i = 0; i < r->book->piece_count; i++)
        if (r->book->pieces[i].kind == kind) return i;
    return NO_ID;
}

/* A sign that is there for each piece is meant at the entry's own, else at any of them. False:
 * there is none. */
static bool read_sign(reader *r, const node_entry *e, picture_area *a)
{
    const named *base = base_find(r, SECTION_SYMPTOMS, e->key);
    if (base == NULL) {
        a->symptom = resolve(r, SECTION_SYMPTOMS, e->key, e->key_at);
        return a->symptom != NO_ID;
    }
    mention_add(r->book->mentions, (mention){SECTION_SYMPTOMS, MENTION_ALONE, base->of.base,
                                             STR(""), STR(""), e->key_at});
    uint32_t piece = NO_ID;
    const bool lone = base_kind(base) != NO_ID && r->book->kinds[base_kind(base)].lone;
    if (base_kind(base) != NO_ID && !lone) {
        const bool own =
            r->here.piece != NO_ID && r->book->pieces[r->here.piece].kind == base_kind(base);
        piece = own ? r->here.piece : first_of_kind(r, base_kind(base));
        a->any = !own;
    }
    const bool there = base_kind(base) == NO_ID || lone || piece != NO_ID;
    const str name =
        piece == NO_ID ? base->of.base : name_of_piece(r, r->scratch, base->of.base, piece, NO_ID);
    a->symptom = there ? table_find(&r->tables[SECTION_SYMPTOMS], name) : NO_ID;
    return a->symptom != NO_ID;
}

/* As one reads. */
static int by_place(const void *left, const void *right)
{
    const picture_area *a = left, *b = right;
    if (a->y != b->y) return THREE_WAY(a->y, b->y);
    return a->x != b->x ? THREE_WAY(a->x, b->x) : THREE_WAY(a->symptom, b->symptom);
}

static void read_areas(reader *r, const node *n, picture *p)
{
    if (n->kind != NODE_MAP) {
        wrong_kind(r, n, "'areas'", "a map of symptoms, each with [x, y, width, height]");
        return;
    }
    picture_area *all = ARENA_ARRAY(r->keep, picture_area, n->count);
    for (uint32_t i = 0; i < n->count; i++) {
        const node_entry *e = &n->entries[i];
        picture_area *a = &all[p->area_count];
        *a = (picture_area){.symptom = NO_ID};
        const bool sign = read_sign(r, e, a);
        if (read_frame(r, e->value, p->drawing, a) && sign) p->area_count++;
    }
    SORT(all, p->area_count, by_place);
    p->areas = all;
}

/* ---- a picture, and what stands beside one ---- */

void read_picture(reader *r, const node *n, const picture **out)
{
    *out = NULL;
    if (n->kind != NODE_MAP) {
        wrong_kind(r, n, "'picture'", "a map with 'file' and 'text'");
        return;
    }
    if (!check_map(r, n, KEYS_PICTURE)) return;
    picture *p = ARENA_NEW(r->keep, picture);
    const label here = {STR(""), n->at};
    p->file = read_file_name(r, need(r, n, here, KEYS_PICTURE, "file"));
    read_keys(r, n, here, KEYS_PICTURE, p);
    if (p->file == NO_ID) return;
    p->drawing = drawing_of(r, p->file);
    if (!p->drawing->good) return;
    if (node_get(n, "areas") != NULL) read_areas(r, node_get(n, "areas"), p);
    *out = p;
}

static bool is_step_in_full(const node *n)
{
    return n->kind == NODE_MAP && (node_get(n, "text") != NULL || node_get(n, "picture") != NULL);
}

static bool read_step(reader *r, const node *n, const char *what, texts *out)
{
    if (!is_step_in_full(n)) return read_texts(r, n, what, TEXT_SENTENCE, out);
    texts_with_picture step = {.picture = NULL};
    if (!check_map(r, n, KEYS_STEP)) return false;
    read_keys(r, n, (label){STR(""), n->at}, KEYS_STEP, &step);
    *out = step.text;
    out->picture = step.picture;
    return step.text.count > 0;
}

void read_steps(reader *r, const node *n, const char *what, texts_list *out)
{
    const shared_read *before = shared_before(r, n, SHARED_STEPS);
    if (before != NULL) {
        *out = (texts_list){before->items, before->count};
        return;
    }
    const bool list = n->kind == NODE_LIST;
    const uint32_t count = list ? n->count : 1;
    uint32_t used = 0;
    texts *items = ARENA_ARRAY(r->keep, texts, count);
    if (count == 0)
        fault_add(r->list, FAULT_EMPTY, n->at, "This list is empty. Leave the key out instead.");
    for (uint32_t i = 0; i < count; i++) {
        const node *item = list ? n->items[i] : n;
        if (list && item->kind == NODE_TEXT && item_twice(r, n, i)) continue;
        if (read_step(r, item, what, &items[used])) used++;
    }
    *out = (texts_list){items, used};
    share_read(r, n, SHARED_STEPS, items, used);
}

/* An entry with an error may be the one that shows it. */
void check_pictures_used(reader *r)
{
    if (faults_errors(r->list) > 0) return;
    for (uint32_t i = 0; i < r->book->files->count; i++) {
        if (!is_picture_file(r, i) || (r->drawings != NULL && r->drawings[i].read)) continue;
        fault *f = fault_add(r->list, FAULT_PICTURE_UNUSED, (span){i, 0, 0},
                             "No 'picture' shows this drawing.");
        fault_help(r->list, f,
                   "Name it under 'picture' where it helps, or take it out of the book's folder.");
    }
}
